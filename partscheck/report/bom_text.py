"""The bill of materials as text, at most 100 columns: one row a thing to buy, what to know of it under the row."""

from __future__ import annotations

from partscheck.notation.cell_text import one_line
from partscheck.notation.measure import show_both
from partscheck.report.bom_words import (
    ESTIMATES,
    NO_SELLER,
    beside,
    finding_words,
    in_hand_words,
    money,
    opening,
    ordered_words,
    remedy_words,
    verdict_word,
    warned_words,
)
from partscheck.report.text import SCREENING
from partscheck.report.wrap import Page, plural
from partscheck.uses.bom import ASSEMBLY, SELLER

TYPE_CHECKING = False
if TYPE_CHECKING:
    from partscheck.uses.bom import BillOfMaterials, BomLine, Extra, Total

COLUMNS = (("need", 5), ("have", 5), ("cart", 5), ("order", 8), ("price", 11), ("cost", 12))


def bom_text(bill: BillOfMaterials, leading: str, columns: int = 80, by: str = ASSEMBLY) -> str:
    """The bill, grouped by assembly or by seller; values in the ``leading`` unit system first."""
    page = Page(columns)
    page.line(opening(bill))
    page.line(
        "need: pieces that the build takes (-: not worked out; the list's count stands). have: in the shop. "
        "cart: on the list, not in the shop. order: what to buy, in whole packs. price: of one purchase."
    )
    for name, lines in bill.groups(by):
        page.head((one_line(name) or NO_SELLER) if by == SELLER else name.upper())
        page.raw(_row("", [head for head, _ in COLUMNS], page.columns))
        for line in lines:
            _line(page, line, leading, by)
    _extras(page, "NOT ON THE LIST", bill.missing, leading)
    _extras(page, "USED UP IN THE WORK - estimates", bill.consumables, leading)
    _elsewhere(page, bill, leading)
    _totals(page, bill)
    _weight(page, bill, leading)
    page.gap()
    page.line(ESTIMATES)
    page.line(SCREENING)
    return page.text()


def _row(name: str, cells: list[str], columns: int) -> str:
    """A row of fixed columns; a name too long for its column gets a line of its own."""
    tail = "".join(f"{cell:>{width}}" for cell, (_, width) in zip(cells, COLUMNS, strict=True))
    room = columns - len(tail)
    if len(name) > room - 1:
        return f"{name}\n{' ' * room}{tail}".rstrip()
    return f"{name:<{room}}{tail}".rstrip()


def _line(page: Page, line: BomLine, leading: str, by: str) -> None:
    count = line.in_cart
    cells = [
        "-" if line.need is None else str(line.need),
        in_hand_words(line),
        "?" if count is None else "" if count == 0 and line.in_hand != 0 else str(count),
        ordered_words(line),
        money(line.price.hundredths, line.currency) if line.price is not None else "-",
        money(line.cost, line.currency) if line.order.purchases else "",
    ]
    name = one_line(line.id)
    if len(name) > page.columns:  # many lines merged
        page.line(name)
        name = ""
    page.raw(_row(name, cells, page.columns))
    catalogue = one_line(line.catalogue_id)
    told = [one_line(line.what), catalogue if catalogue and catalogue != line.id else ""]
    if by == ASSEMBLY:
        told.append(one_line(line.seller) or (NO_SELLER if line.order.purchases else ""))
    page.under("; ".join(piece for piece in told if piece))
    page.under("; ".join(line.uses), "For: ")
    for note in line.notes:
        page.under(note)
    for warned in beside(line):
        page.under(warned_words(warned, leading), "! ")
        if warned.here:
            page.under(remedy_words(warned.finding, leading), "  Do: ")


def _extras(page: Page, head: str, extras: list[Extra], leading: str) -> None:
    if not extras:
        return
    page.head(head)
    for extra in extras:
        quantity = extra.amount or ("?" if extra.count is None else f"{extra.count} x")
        mark = f"{verdict_word(extra.finding)} " if extra.finding is not None else ""
        page.item("-", f"{quantity} {extra.what}" if extra.finding is None else f"{mark}{one_line(extra.why)}")
        if extra.finding is None:
            page.under(extra.why)
        else:
            page.under(remedy_words(extra.finding, leading), "Do: ")


def _elsewhere(page: Page, bill: BillOfMaterials, leading: str) -> None:
    if not bill.elsewhere:
        return
    page.head("ABOUT THE WHOLE TRAILER")
    for finding in bill.elsewhere:
        page.item("!", f"{verdict_word(finding)} [{finding.rule.slug}] {finding_words(finding, leading)}")
        page.under(remedy_words(finding, leading), "Do: ")


def _totals(page: Page, bill: BillOfMaterials) -> None:
    totals = bill.totals()
    if not totals:
        return
    page.head("TO PAY")
    rows = [_total_row(one_line(total.seller) or NO_SELLER, total) for total in totals]
    grand = bill.grand_totals()
    rows += [
        _total_row("together" if len(grand) == 1 else f"together, {_currency(total)}", total) for total in grand
    ]
    page.table(["seller", "lines", "to order", "cart as typed"], rows)
    if len(grand) > 1:
        page.line("Amounts of different currencies are not added.")
    unpriced = sum(total.unpriced for total in totals)
    uncounted = sum(total.uncounted for total in totals)
    if unpriced:
        page.line(f"Not in it: {plural(unpriced, 'line')} without a price.")
    if uncounted:
        page.line(f"Not in it: {plural(uncounted, 'line')} without a quantity.")


def _total_row(name: str, total: Total) -> list[str]:
    nothing = total.lines and total.unpriced == total.lines and not total.cart
    amounts = ["no price"] * 2 if nothing else [money(each, total.currency) for each in (total.order, total.cart)]
    return [name, str(total.lines), *amounts]


def _currency(total: Total) -> str:
    return total.currency or "no currency typed"


def _weight(page: Page, bill: BillOfMaterials, leading: str) -> None:
    weight, unknown = bill.weight()
    if weight.hi > 0:
        rest = (
            f" {plural(unknown, 'line').capitalize()} more state{'s' if unknown == 1 else ''} none."
            if unknown
            else ""
        )
        page.gap()
        page.line(f"The parts that state a weight weigh {show_both(weight, leading)} together, as built.{rest}")
