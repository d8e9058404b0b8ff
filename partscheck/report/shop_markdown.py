"""The bench sheet as Markdown with boxes to tick; whatever the list says stays text."""

from __future__ import annotations

from partscheck.report.markdown_words import calm
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

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterator

    from partscheck.uses.shop import BenchSheet, Step


def shop_markdown(sheet: BenchSheet, leading: str) -> str:
    """The whole sheet, ``leading`` unit system first."""
    lines: list[str] = []
    for line in _lines(sheet, leading):
        if line or lines[-1]:  # one empty line, never two
            lines.append(line)
    return "\n".join(lines) + "\n"


def _lines(sheet: BenchSheet, leading: str) -> Iterator[str]:
    yield f"# {calm(verdict_line(sheet))}"
    if sheet.stops:
        yield from ("", "## Stops - settle these first", "")
        for number, finding in enumerate(sheet.stops, start=1):
            what, do = stop_words(finding, leading)
            yield f"{number}. {calm(what)}" + (f" Do: {calm(do)}" if do else "")
    if not sheet.sections:
        yield from ("", calm(NOTHING))
    elif sheet.tools():
        yield from ("", "## Tools to have ready", "")
        yield from (f"- [ ] {calm(said(tool, leading))}" for tool in sheet.tools())
    for section in sheet.sections:
        yield from ("", f"## {section.number}. {calm(section.title)}", "")
        yield from (calm(said(one, leading)) for one in section.intro)
        if section.hazard:
            yield from ("", f"**Danger:** {calm(section.hazard)}")
        yield from ("", f"Basis: {basis_marks(section.basis, sheet)}", "") if section.basis else ("",)
        for step in section.steps:
            yield from _step(sheet, step, leading)
    yield from _torques(sheet, leading)
    if sheet.sections:
        yield from ("", "## What stands behind the figures", "")
        yield from (f"- {letter(number)}: {calm(str(basis))}" for number, basis in enumerate(sheet.bases()))
    yield from ("", calm(SCREENING))


def _step(sheet: BenchSheet, step: Step, leading: str) -> Iterator[str]:
    first = first_line(step)
    yield f"- [ ] {step.number} " + (f"**{first}** " if first else "") + calm(said(step.do, leading))
    yield from (f"  - {calm(said(one, leading))}" for one in step.details)
    yield from (f"  - Mind: {calm(caution_words(one, leading))}" for one in step.cautions)
    if step.hazard:
        yield f"  - **Danger:** {calm(step.hazard)}"
    marks = basis_marks(step.basis, sheet)
    if marks:
        yield f"  - Basis: {marks}"


def _torques(sheet: BenchSheet, leading: str) -> Iterator[str]:
    rows = sheet.torques()
    if not rows:
        return
    yield from ("", "## Torques at a glance", "")
    yield f"| {' | '.join((*TORQUE_HEADS, 'order'))} |"
    yield f"|{'---|' * (len(TORQUE_HEADS) + 1)}"
    for step, torque in rows:
        cells = [*torque_cells(step, torque, leading), order_words(torque)]
        yield f"| {' | '.join(calm(cell) for cell in cells)} |"
    if any(torque.full is not None and not torque.exact for _, torque in rows):
        yield from ("", calm(USUAL_ONLY))
