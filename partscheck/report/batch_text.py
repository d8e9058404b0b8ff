"""The summary of many lists as text: the worst lists first, each with its worst finding below it."""

from __future__ import annotations

import textwrap

from partscheck.notation.cell_text import one_line
from partscheck.report.batch_words import VERDICTS, counts_of, sorted_rows, tally, worst_words
from partscheck.report.text import SCREENING
from partscheck.report.wrap import Page
from partscheck.uses.checked_file import SKIPPED

TYPE_CHECKING = False
if TYPE_CHECKING:
    from partscheck.uses.checked_file import Row

HEADS = ("verdict", "stop", "caution", "measure")
WIDTHS = (10, 4, 7, 7)
GAP = "  "
MORE = "`partscheck check FILE` tells everything about one list."


class TextSummary:
    """Gathers the rows; the table comes at the end."""

    def __init__(self, columns: int) -> None:
        self.columns = columns
        self._rows: list[Row] = []

    def begin(self) -> str:
        return ""

    def add(self, row: Row) -> str:
        self._rows.append(row)
        return ""

    def end(self) -> str:
        page = Page(self.columns)
        page.line(tally(self._rows))
        rows = sorted_rows(self._rows)
        checked = [row for row in rows if row.verdict != SKIPPED]
        if checked:
            page.gap()
            _table(page, checked)
        skipped = [row for row in rows if row.verdict == SKIPPED]
        if skipped:
            page.head("PASSED OVER")
            for row in skipped:
                page.item("-", f"{one_line(row.file)}: {row.worst}")
        page.gap()
        page.line(MORE)
        page.line(SCREENING)
        return page.text()


def _table(page: Page, rows: list[Row]) -> None:
    fixed = sum(WIDTHS) + len(GAP) * len(WIDTHS)
    room = page.columns - fixed
    wide = max(4, min(room, max(len(one_line(row.file)) for row in rows)))
    page.raw(_line("list".ljust(wide), HEADS))
    page.raw(_line("-" * wide, ["-" * width for width in WIDTHS]))
    for row in rows:
        name = one_line(row.file)
        if len(name) > wide:  # a long name has a line of its own
            page.raw(name)
            name = ""
        page.raw(_line(name.ljust(wide), [VERDICTS[row.verdict], *counts_of(row)]))
        if row.worst:
            page.raw(_below(worst_words(row), page.columns))


def _line(name: str, cells: list[str] | tuple[str, ...]) -> str:
    verdict, *counts = cells
    shown = [
        verdict.ljust(WIDTHS[0]),
        *(cell.rjust(width) for cell, width in zip(counts, WIDTHS[1:], strict=True)),
    ]
    return GAP.join([name, *shown])


def _below(text: str, columns: int) -> str:
    """The worst finding on one line, cut where it is long."""
    return "    " + textwrap.shorten(one_line(text), columns - 4, placeholder=" ...")
