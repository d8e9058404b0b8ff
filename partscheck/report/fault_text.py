"""The faults of a list that cannot be used, as text."""

from __future__ import annotations

from partscheck.notation.faults import Fault, shortened
from partscheck.report.wrap import Page, plural


def fault_text(faults: list[Fault], columns: int = 80) -> str:
    """Every fault: file, line, column, what was read, what is expected, the likely repair."""
    page = Page(columns)
    page.line(f"This cannot be used yet: {plural(len(faults), 'fault')} to mend.")
    for fault in faults:
        page.gap()
        page.line(f"{fault.mark.file}, line {fault.mark.line}, column {fault.mark.column}")
        if fault.read:
            page.under(shortened(fault.read), "read      ")
        page.under(fault.expected, "expected  ")
        page.under(fault.hint, "so        ")
    return page.text()
