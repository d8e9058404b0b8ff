"""The faults of a list that cannot be used, as text."""

from __future__ import annotations

from partscheck.notation.faults import Fault, printable, shortened
from partscheck.report.wrap import Page, plural


def fault_text(faults: list[Fault], columns: int = 80, following: int = 0) -> str:
    """Every fault: file, line, column, what was read, what is expected, the likely repair.

    ``following`` counts those left out because they follow from these.
    """
    page = Page(columns)
    page.line(f"This cannot be used yet: {plural(len(faults), 'fault')} to mend.")
    _each(page, faults)
    if following:
        page.gap()
        page.line(f"{following} more {'fault follows' if following == 1 else 'faults follow'} from these.")
    return page.text()


def unread_text(faults: list[Fault], columns: int = 80) -> str:
    """What of a table of line items could not be read, each with its row and column."""
    page = Page(columns)
    page.line(f"{plural(len(faults), 'thing')} could not be read as typed:")
    _each(page, faults, "row")
    return page.text()


def _each(page: Page, faults: list[Fault], line: str = "line") -> None:
    for fault in faults:
        page.gap()
        _place(page, fault, line)
        if fault.read:
            page.under(shortened(fault.read), "read      ")
        page.under(fault.expected, "expected  ")
        page.under(fault.hint, "so        ")


def _place(page: Page, fault: Fault, line: str) -> None:
    file, place = printable(fault.mark.file), f"{line} {fault.mark.line}, column {fault.mark.column}"
    if len(file) + len(place) + 2 <= page.columns:
        page.line(f"{file}, {place}")
    else:  # a long path has a line of its own
        page.line(f"{file},")
        page.line(place)
