"""A swap as text for a terminal, at most 100 columns: before and after side by side."""

from __future__ import annotations

from partscheck.notation.cell_text import one_line
from partscheck.report.bom_words import finding_words, money, verdict_word
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
from partscheck.report.wrap import Page
from partscheck.uses.swap import BETTER, OTHER, WORSE, Swap

TYPE_CHECKING = False
if TYPE_CHECKING:
    from partscheck.rules.findings import Finding

GROUPS = ((WORSE, "for the worse"), (OTHER, "neither better nor worse by itself"), (BETTER, "for the better"))
ROOMY = 96  # columns from which both unit systems have room in the table
NARROW = (17, 17, 11, 3)
WIDE = (22, 22, 11, 3)
LEAST_NAME = 24  # columns


def swap_text(swap: Swap, leading: str, columns: int = 80) -> str:
    """The whole comparison; values in the ``leading`` unit system first."""
    page = Page(columns)
    page.line(verdict_line(swap))
    _changed(page, swap, leading)
    _full(page, swap, swap.appears, "APPEARS - what the change brings", leading)
    _short(page, swap, swap.goes, "GOES - what the change mends", leading)
    _short(page, swap, swap.surfaces, "COMES TO LIGHT - it followed from a stop that has gone", leading)
    _short(page, swap, swap.stays, "STAYS - before and after", leading)
    _figures(page, swap, leading)
    _untold(page, swap)
    _same(page, swap, leading)
    _buy(page, swap, leading)
    page.gap()
    page.line(BEFORE_DRIVING)
    page.line(SCREENING)
    return page.text()


def _changed(page: Page, swap: Swap, leading: str) -> None:
    page.head("THE CHANGE")
    for text, along in changed_lines(swap, leading):
        page.item("-", text)
        for one in along:
            page.under(one)


def _full(page: Page, swap: Swap, findings: list[Finding], head: str, leading: str) -> None:
    if not findings:
        return
    page.head(head)
    for number, finding in enumerate(findings, start=1):
        page.gap()
        page.item(f"{number}.", f"{verdict_word(finding)}: {finding.message(leading)}")
        page.under(where(finding, swap))
        missing = ", ".join(dict.fromkeys(one.name for one in finding.missing))
        page.under(missing, "Measure, or read: ")
        page.under(finding.why(leading), "Why: ")
        for count, (_, text) in enumerate(finding.remedies(leading)):
            sentence = text[0].upper() + text[1:] + ("" if text.endswith(".") else ".")
            page.under(sentence, "Do: " if count == 0 else "    ")
        page.under(finding.check.hazard, "Danger: ")
        page.under("; ".join(str(basis) for basis in finding.basis), "Basis: ")


def _short(page: Page, swap: Swap, findings: list[Finding], head: str, leading: str) -> None:
    if not findings:
        return
    page.head(head)
    for finding in findings:
        page.item("-", f"{verdict_word(finding)}: {finding_words(finding, leading)}")
        page.under(where(finding, swap))


def _figures(page: Page, swap: Swap, leading: str) -> None:
    shown = table_figures(swap.figures)
    page.head("FIGURES - worst change first")
    if not shown:
        page.line("No figure that can be told changes.")
    legend = Legend()
    for direction, words in GROUPS:
        group = [one for one in shown if one.direction == direction]
        if not group:
            continue
        page.gap()
        _row(page, words, ("before", "after", "change", ""))
        for one in group:
            cells = figure_cells(one, leading, page.columns >= ROOMY, WIDE[0] - 2)
            _row(page, figure_name(one), (*cells, legend.letter(one.kind.basis)))
    page.gap()
    if any(one.brings for one in shown):
        page.line(MARKED)
    for letter, text in legend.lines():
        page.item(letter, text)
    told = supports(swap, leading)
    if told:
        page.gap()
        page.line(told)


def _row(page: Page, name: str, cells: tuple[str, ...]) -> None:
    """Fixed columns; a name that is too long gets a line of its own, as do the cells of a narrow page."""
    widths = WIDE if page.columns >= ROOMY else NARROW
    tail = "".join(f"{cell:>{width}}" for cell, width in zip(cells, widths, strict=True))
    room = page.columns - len(tail)
    if room < LEAST_NAME:
        page.item("-", name)
        page.under(" | ".join(cell for cell in cells if cell))
    elif len(name) >= room:
        page.raw(f"{name}\n{' ' * room}{tail}".rstrip())
    else:
        page.raw(f"{name:<{room}}{tail}".rstrip())


def _untold(page: Page, swap: Swap) -> None:
    if not swap.untold:
        return
    page.head("CANNOT BE TOLD - type these, and ask again")
    for one, names in untold(swap.untold).items():
        page.item("-", f"{one}: {', '.join(names) or 'its fields contradict each other'}")


def _same(page: Page, swap: Swap, leading: str) -> None:
    if not swap.same:
        return
    page.head("AS BEFORE")
    told = []
    for one in table_figures(swap.same):
        _, after, _ = figure_cells(one, leading, brackets=True)
        told.append(f"{figure_name(one)} {after}")
    page.line("; ".join(told) + ".")


def _buy(page: Page, swap: Swap, leading: str) -> None:
    if not (swap.to_buy or swap.to_add or swap.not_needed):
        return
    page.head("TO BUY FOR IT, AND WHAT IS LEFT OVER")
    for one in swap.to_buy:
        cost = money(one.cost, one.currency) if one.cost is not None else "no price typed"
        seller = f", {one_line(one.line.seller)}" if one.line.seller else ""
        page.item("+", f"{one.line.id}: {bought(one)} x {one_line(one.line.what)}; {cost}{seller}")
    for extra in swap.to_add:
        page.item("+", f"not on the list: {to_add(extra, leading)}")
    for line in swap.not_needed:
        page.item("-", f"not needed: {not_needed(line)}")
    unpriced = sum(one.cost is None for one in swap.to_buy)
    for currency in sorted({one.currency for one in swap.to_buy if one.cost is not None}):
        total = sum(one.cost or 0 for one in swap.to_buy if one.currency == currency)
        rest = f", and {unpriced} without a price" if unpriced else ""
        page.line(f"To pay for what is to buy: {money(total, currency)}{rest}.")
    for words in dearer(swap):
        page.line(words)
