"""The bill of materials; a warning beside a line is a link to the finding that tells it."""

from __future__ import annotations

from partscheck.notation.cell_text import one_line
from partscheck.notation.measure import show_both
from partscheck.report.bom_words import ESTIMATES, NO_SELLER, in_hand_words, money, ordered_words, verdict_word
from partscheck.report.html.markup import Column, Markup, grouped_table, join, sections_of, table, tag
from partscheck.report.wrap import plural
from partscheck.uses.bom import bill_of_materials

TYPE_CHECKING = False
if TYPE_CHECKING:
    from partscheck.report.html.sheet import Sheet
    from partscheck.uses.bom import BillOfMaterials, BomLine, Extra, Total
    from partscheck.uses.bom_lines import Warned

LINES = [
    Column("part"), Column("need", True), Column("have", True), Column("cart", True), Column("order", True),
    Column("price", True), Column("cost", True), Column("seller", short=True), Column("look at"),
]  # fmt: skip
EXTRAS = [Column("what"), Column("pieces", True), Column("amount", True), Column("why")]
TOTALS = [
    Column("seller"), Column("lines", True), Column("to order", True), Column("cart as typed", True),
    Column("without a price", True),
]  # fmt: skip
CLOSED = "Closed on the screen: open it to print it, or print it alone with `partscheck bom`."
COLUMNS_TOLD = (
    "Need: pieces that the build takes. Have: in the shop. Cart: on the list, not in the shop. Order: what to "
    "buy, in whole packs. Price: of one purchase."
)


def bill_section(sheet: Sheet) -> Markup:
    """The whole bill, by assembly.  Closed at first, like the bench sheet: it is a document of its own."""
    bill = bill_of_materials(sheet.result)
    if not bill.lines:
        return Markup()
    return tag(
        "section",
        tag(
            "details",
            tag("summary", tag("h2", "Bill of materials", tag("small", " what to order, what to look at first"))),
            tag("p", COLUMNS_TOLD),
            grouped_table("Lines of the list, by assembly", LINES, _groups(sheet, bill), "bill"),
            _extras(sheet, "Not on the list", bill.missing),
            _extras(sheet, "Used up in the work, estimates", bill.consumables),
            _totals(bill),
            _weight(bill, sheet.leading),
            tag("p", ESTIMATES, class_="basis"),
        ),
        tag("p", CLOSED, class_="closed"),
        id="bill",
        aria_label="Bill of materials",
    )  # fmt: skip


def _groups(sheet: Sheet, bill: BillOfMaterials) -> list[tuple[str, list[list[str]]]]:
    return [(name.capitalize(), [_line(sheet, line) for line in lines]) for name, lines in bill.groups()]


def _line(sheet: Sheet, line: BomLine) -> list[str]:
    return [
        _named(line),
        "" if line.need is None else str(line.need),
        in_hand_words(line),
        "?" if line.in_cart is None else "" if line.in_cart == 0 and line.in_hand != 0 else str(line.in_cart),
        ordered_words(line),
        "" if line.price is None else money(line.price.hundredths, line.currency),
        money(line.cost, line.currency) if line.order.purchases else "",
        line.seller,
        _look_at(sheet, line),
    ]


def _named(line: BomLine) -> Markup:
    """The id, then what it is; each once."""
    id, what = one_line(line.id), one_line(line.what)
    rest = what.removeprefix(id).strip() if what.startswith(f"{id} ") else what if what != id else ""
    return join((tag("b", id), rest), " ")


def _look_at(sheet: Sheet, line: BomLine) -> Markup:
    warned = sorted(line.warned, key=lambda one: sheet.place(one.finding))
    links = dict.fromkeys(_warned(sheet, one) for one in warned)
    told = join((join(links, ", "), ".")) if links and line.notes else join(links, ", ")
    return join((told, *(tag("span", note) for note in line.notes)), " ")


def _warned(sheet: Sheet, warned: Warned) -> Markup:
    link = sheet.link(warned.finding)
    return link if link is not None else join((f"{verdict_word(warned.finding)} [{warned.finding.rule.slug}]",))


def _extras(sheet: Sheet, title: str, extras: list[Extra]) -> Markup:
    if not extras:
        return Markup()
    rows = []
    for extra in extras:
        link = None if extra.finding is None else sheet.link(extra.finding)
        count = "" if extra.count is None else str(extra.count)
        rows.append([extra.what, count, extra.amount, join((link, extra.why), " ")])
    return table(title, EXTRAS, rows)


def _totals(bill: BillOfMaterials) -> Markup:
    totals = bill.totals()
    if not totals:
        return Markup()
    grand = bill.grand_totals()
    rows = [_total(total.seller or NO_SELLER, total) for total in totals]
    rows += [_total("together" if len(grand) == 1 else f"together, {total.currency or 'no currency typed'}", total)
             for total in grand]  # fmt: skip
    uncounted = sum(total.uncounted for total in totals)
    words = [
        "Amounts of different currencies are not added." if len(grand) > 1 else "",
        f"Not in it: {plural(uncounted, 'line')} without a quantity." if uncounted else "",
    ]
    return sections_of(table("To pay", TOTALS, rows), *(tag("p", one) for one in words if one))


def _total(name: str, total: Total) -> list[str]:
    amounts = [money(each, total.currency) for each in (total.order, total.cart)]
    return [name, str(total.lines), *amounts, str(total.unpriced)]


def _weight(bill: BillOfMaterials, leading: str) -> Markup:
    weight, unknown = bill.weight()
    if weight.hi <= 0:
        return Markup()
    rest = f" {plural(unknown, 'line')} more state{'s' if unknown == 1 else ''} none." if unknown else ""
    return tag("p", f"The parts that state a weight weigh {show_both(weight, leading)} together, as built.{rest}")
