"""The summary of many lists as Markdown, then the whole report of each list that fails the check."""

from __future__ import annotations

from partscheck.report.batch_words import VERDICTS, counts_of, sorted_rows, tally, worst_words
from partscheck.report.markdown_report import markdown_report
from partscheck.report.markdown_words import calm
from partscheck.uses.checked_file import SKIPPED
from partscheck.uses.fail_on import fails

TYPE_CHECKING = False
if TYPE_CHECKING:
    from partscheck.uses.checked_file import CheckedFile, Row


class MarkdownSummary:
    """Gathers the rows; everything comes at the end, since the table stands first."""

    def __init__(self) -> None:
        self._rows: list[Row] = []

    def begin(self) -> str:
        return ""

    def add(self, row: Row) -> str:
        self._rows.append(row)
        return ""

    def end(self) -> str:
        rows = sorted_rows(self._rows)
        lines = [f"# {calm(tally(rows))}", ""]
        checked = [row for row in rows if row.verdict != SKIPPED]
        if checked:
            lines += ["| list | verdict | stop | caution | measure | worst |", "|---|---|---:|---:|---:|---|"]
            lines += [_cells(row) for row in checked] + [""]
        skipped = [row for row in rows if row.verdict == SKIPPED]
        if skipped:
            lines += ["Passed over:", ""] + [f"- {calm(row.file)}: {row.worst}" for row in skipped] + [""]
        for row in checked:
            if row.piece:
                lines += ["---", "", f"List: {calm(row.file)}", "", row.piece]
        return "\n".join(lines).rstrip("\n") + "\n"


def _cells(row: Row) -> str:
    cells = [calm(row.file), VERDICTS[row.verdict], *counts_of(row), calm(worst_words(row))]
    return "| " + " | ".join(cells) + " |"


def markdown_piece(checked: CheckedFile, leading: str, everything: bool = False) -> str:
    """The report of a list that fails the check or cannot be used; "" for the others."""
    if checked.sound and checked.result is not None and not fails(checked.result, checked.fail_on):
        return ""
    return markdown_report(checked, leading, everything)
