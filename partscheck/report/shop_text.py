"""The bench sheet as text: to read at 80 columns, to print, and to tick off with a pen."""

from __future__ import annotations

import textwrap

from partscheck.notation.cell_text import one_line
from partscheck.report.shop_words import (
    NOTHING,
    TORQUE_HEADS,
    USUAL_ONLY,
    basis_marks,
    caution_words,
    first_line,
    letter,
    order_words,
    said,
    stop_words,
    torque_cells,
    verdict_line,
)
from partscheck.report.text import SCREENING
from partscheck.report.wrap import Page

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable

    from partscheck.uses.shop import BenchSheet, Section, Step

BOX = "[ ]"
UNDER = " " * 9  # below the words of a step, behind its box and number
RULED = "date ____________ by ____________"
WIDTHS = (6, 21, 5, 9, 18, 10, 11)  # of the torque table's columns


class BenchPage(Page):
    """A page with boxes to tick."""

    def box(self, number: str, text: str) -> None:
        self._wrapped(text, f"{BOX} {number:<4} ".ljust(len(UNDER)), UNDER)

    def below(self, text: str, label: str = "") -> None:
        if text:
            self._wrapped(label + text, UNDER, UNDER + "  ")


def shop_text(sheet: BenchSheet, leading: str, columns: int = 80) -> str:
    """The whole sheet, ``leading`` unit system first."""
    page = BenchPage(columns)
    page.line(verdict_line(sheet))
    _stops(page, sheet, leading)
    if not sheet.sections:
        page.gap()
        page.line(NOTHING)
        page.line(SCREENING)
        return page.text()
    _tools(page, sheet, leading)
    dangers: dict[str, str] = {}
    for section in sheet.sections:
        _section(page, sheet, section, leading, dangers)
    _torques(page, sheet, leading)
    _bases(page, sheet)
    page.gap()
    page.line(SCREENING)
    return page.text()


def _stops(page: BenchPage, sheet: BenchSheet, leading: str) -> None:
    if not sheet.stops:
        return
    page.head("STOPS - settle these first")
    for number, finding in enumerate(sheet.stops, start=1):
        what, do = stop_words(finding, leading)
        page.gap()
        page.item(f"{number}.", what)
        page.under(do, "Do: ")


def _tools(page: BenchPage, sheet: BenchSheet, leading: str) -> None:
    """In two columns where both fit."""
    tools = [f"{BOX} {said(tool, leading)}" for tool in sheet.tools()]
    if not tools:
        return
    page.head("TOOLS TO HAVE READY")
    page.gap()
    width = page.columns // 2
    while tools:
        first = tools.pop(0)
        beside = next((one for one in tools if len(one) <= page.columns - width), None)
        if beside is not None and len(first) < width:
            tools.remove(beside)
            page.raw(f"{first:<{width}}{beside}")
        else:
            page.item(BOX, first.removeprefix(BOX).strip())


def _section(page: BenchPage, sheet: BenchSheet, section: Section, leading: str, dangers: dict[str, str]) -> None:
    page.head(f"{section.number}. {section.title.upper()}")
    for sentence in section.intro:
        page.line(said(sentence, leading))
    if section.hazard:
        page.line(f"Danger: {_once(section.hazard, str(section.number), dangers)}")
    if section.basis and (section.intro or section.hazard):
        page.line(f"Basis: {basis_marks(section.basis, sheet)}")
    for step in section.steps:
        page.gap()
        _step(page, sheet, step, leading, dangers)


def _once(hazard: str, here: str, dangers: dict[str, str]) -> str:
    """A danger in full where it comes first, by its number afterwards."""
    first = dangers.setdefault(hazard, here)
    return one_line(hazard) if first == here else f"as under {first}."


def _step(page: BenchPage, sheet: BenchSheet, step: Step, leading: str, dangers: dict[str, str]) -> None:
    page.box(step.number, f"{first_line(step)} {said(step.do, leading)}".strip())
    for sentence in step.details:
        page.below(said(sentence, leading))
    for finding in step.cautions:
        page.below(caution_words(finding, leading), "Mind: ")
    if step.hazard:
        page.below(_once(step.hazard, step.number, dangers), "Danger: ")
    page.below(basis_marks(step.basis, sheet), "Basis: ")


def _torques(page: BenchPage, sheet: BenchSheet, leading: str) -> None:
    """A row for each torque, its order and a line for the pen under it."""
    rows = sheet.torques()
    if not rows:
        return
    page.head("TORQUES AT A GLANCE - for the wall")
    page.gap()
    page.raw(_row(TORQUE_HEADS))
    for step, torque in rows:
        page.raw(_row(torque_cells(step, torque, leading)))
        order = f"order {order_words(torque)}   " if torque.order else ""
        page.raw(f"{' ' * WIDTHS[0]}{order}{RULED}")
    if any(torque.full is not None and not torque.exact for _, torque in rows):
        page.line(USUAL_ONLY)


def _row(cells: Iterable[str]) -> str:
    """Cells in their columns; one that is too long for its column goes on below it."""
    columns = [
        textwrap.wrap(cell, width - 1, break_on_hyphens=False) or [""]
        for cell, width in zip(cells, WIDTHS, strict=True)
    ]
    lines = []
    for number in range(max(len(column) for column in columns)):
        pieces = (column[number] if number < len(column) else "" for column in columns)
        lines.append("".join(f"{piece:<{width}}" for piece, width in zip(pieces, WIDTHS, strict=True)).rstrip())
    return "\n".join(lines)


def _bases(page: BenchPage, sheet: BenchSheet) -> None:
    page.head("WHAT STANDS BEHIND THE FIGURES")
    page.gap()
    for number, basis in enumerate(sheet.bases()):
        page.item(letter(number), one_line(str(basis)))
