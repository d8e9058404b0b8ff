"""A swap as Markdown; whatever the list says stays text."""

from __future__ import annotations

from partscheck.notation.cell_text import one_line
from partscheck.report.bom_words import finding_words, money, remedy_words, verdict_word
from partscheck.report.markdown_words import calm
from partscheck.report.swap_words import (
    BEFORE_DRIVING,
    MARKED,
    Legend,
    bought,
    changed_lines,
    dearer,
    figure_cells,
    figure_name,
    not_needed,
    supports,
    table_figures,
    to_add,
    untold,
    verdict_line,
    where,
)
from partscheck.report.text import SCREENING

TYPE_CHECKING = False
if TYPE_CHECKING:
    from partscheck.rules.findings import Finding
    from partscheck.uses.swap import Swap


def swap_markdown(swap: Swap, leading: str) -> str:
    """The whole comparison."""
    out = [calm(verdict_line(swap)), "", "## The change", ""]
    for text, along in changed_lines(swap, leading):
        out += [f"- {calm(text)}", *(f"  - {calm(one)}" for one in along)]
    out.append("")
    for head, findings in (
        ("Appears", swap.appears), ("Goes", swap.goes), ("Comes to light", swap.surfaces), ("Stays", swap.stays),
    ):  # fmt: skip
        out += _findings(head, findings, swap, leading)
    out += _figures(swap, leading)
    if swap.untold:
        out += ["## Cannot be told", ""]
        lacks = untold(swap.untold).items()
        out += [*(f"- {calm(name)}: {calm(', '.join(fields))}" for name, fields in lacks), ""]
    out += _buy(swap, leading)
    return "\n".join([*out, BEFORE_DRIVING, "", SCREENING]) + "\n"


def _findings(head: str, findings: list[Finding], swap: Swap, leading: str) -> list[str]:
    if not findings:
        return []
    out = [f"## {head}", ""]
    for one in findings:
        out.append(f"- **{verdict_word(one)}** {calm(finding_words(one, leading))} {calm(where(one, swap))}")
        if head == "Appears":
            out += [f"  - {calm(words)}" for words in (remedy_words(one, leading), one.check.hazard) if words]
    return [*out, ""]


def _figures(swap: Swap, leading: str) -> list[str]:
    legend = Legend()
    out = ["## Figures, worst change first", "", "| figure | before | after | change | | basis |",
           "|---|--:|--:|--:|---|---|"]  # fmt: skip
    for one in table_figures([*swap.figures, *swap.same]):
        cells = figure_cells(one, leading, brackets=True)
        row = (figure_name(one), *cells, one.direction, legend.letter(one.kind.basis))
        out.append(f"| {' | '.join(calm(cell) for cell in row)} |")
    if any(one.brings for one in swap.figures):
        out += ["", calm(MARKED)]
    out += ["", *(f"- {letter}: {calm(text)}" for letter, text in legend.lines()), ""]
    told = supports(swap, leading)
    return [*out, calm(told), ""] if told else out


def _buy(swap: Swap, leading: str) -> list[str]:
    if not (swap.to_buy or swap.to_add or swap.not_needed):
        return []
    out = ["## To buy for it, and what is left over", ""]
    for one in swap.to_buy:
        cost = money(one.cost, one.currency) if one.cost is not None else "no price typed"
        out.append(f"- {calm(f'{one.line.id}: {bought(one)} x {one_line(one.line.what)}; {cost}')}")
    out += [f"- not on the list: {calm(to_add(extra, leading))}" for extra in swap.to_add]
    out += [f"- not needed: {calm(not_needed(line))}" for line in swap.not_needed]
    return [*out, "", *(line for words in dearer(swap) for line in (calm(words), ""))]
