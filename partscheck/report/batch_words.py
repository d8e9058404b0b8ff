"""The words of a summary of many lists, shared by text and Markdown."""

from __future__ import annotations

from partscheck.report.wrap import plural
from partscheck.uses.checked_file import SKIPPED, UNUSABLE

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable

    from partscheck.uses.checked_file import Row

# The worst first; a list that could not be checked comes before all that could.
ORDER = (UNUSABLE, "nothing", "stop", "caution", "measure", "ok", SKIPPED)
VERDICTS = {
    UNUSABLE: "NOT USABLE", "nothing": "NOTHING", "stop": "STOP", "caution": "CAUTION", "measure": "MEASURE",
    "ok": "ALL HELD",
}  # fmt: skip
COUNTED = {
    UNUSABLE: "not usable", "nothing": "with nothing to check", "stop": "with a stop", "caution": "with cautions",
    "measure": "to be measured", "ok": "all held",
}  # fmt: skip


def sorted_rows(rows: Iterable[Row]) -> list[Row]:
    """The worst first; of one verdict in the order that they were named."""
    return sorted(rows, key=lambda row: ORDER.index(row.verdict))


def tally(rows: list[Row]) -> str:
    """ "12 lists: 1 not usable, 3 with a stop, 8 all held."."""
    counts = [(word, sum(row.verdict == verdict for row in rows)) for verdict, word in COUNTED.items()]
    told = ", ".join(f"{count} {word}" for word, count in counts if count)
    checked = sum(row.verdict != SKIPPED for row in rows)
    return f"{plural(checked, 'list')}: {told}." if told else "No parts list was found."


def counts_of(row: Row) -> list[str]:
    """Stops, cautions and measurements; dashes where no check was made."""
    if row.verdict in (UNUSABLE, "nothing"):
        return ["-", "-", "-"]
    return [str(row.stop), str(row.caution), str(row.measure)]


def worst_words(row: Row) -> str:
    """ "line 12: what the worst finding says"."""
    return (f"line {row.line}: " if row.line is not None else "") + row.worst
