"""The bill of materials as Markdown tables; whatever the list says stays text."""

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
from partscheck.report.markdown_words import calm
from partscheck.report.text import SCREENING
from partscheck.uses.bom import ASSEMBLY, SELLER

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable

    from partscheck.uses.bom import BillOfMaterials, BomLine, Extra, Total

HEADS = ("part", "need", "have", "cart", "order", "price", "cost", "seller", "look at")


def bom_markdown(bill: BillOfMaterials, leading: str, by: str = ASSEMBLY) -> str:
    """The whole bill."""
    out = [calm(opening(bill)), ""]
    for name, lines in bill.groups(by):
        title = (one_line(name) or NO_SELLER) if by == SELLER else name.capitalize()
        out += [f"## {calm(title)}", "", *_table(HEADS, (_row(line, leading) for line in lines)), ""]
    out += _extras("Not on the list", bill.missing, leading)
    out += _extras("Used up in the work (estimates)", bill.consumables, leading)
    if bill.elsewhere:
        out += ["## About the whole trailer", ""]
        out += [
            f"- **{verdict_word(one)}** {calm(one.rule.slug)}: {calm(finding_words(one, leading))} "
            f"{calm(remedy_words(one, leading))}".rstrip()
            for one in bill.elsewhere
        ] + [""]  # fmt: skip
    out += _totals(bill)
    weight, unknown = bill.weight()
    if weight.hi > 0:
        out += [calm(f"Weight of the parts that state one, as built: {show_both(weight, leading)}; "
                      f"lines that state none: {unknown}."), ""]  # fmt: skip
    return "\n".join([*out, ESTIMATES, "", SCREENING]) + "\n"


def _table(heads: Iterable[str], rows: Iterable[list[str]]) -> list[str]:
    heads = list(heads)
    lines = [heads, ["---"] * len(heads), *rows]
    return ["| " + " | ".join(cells) + " |" for cells in lines]


def _row(line: BomLine, leading: str) -> list[str]:
    price = "" if line.price is None else money(line.price.hundredths, line.currency)
    warned = []
    for one in beside(line):
        words = calm(warned_words(one, leading))
        verdict, _, rest = words.partition(" ")
        do = calm(remedy_words(one.finding, leading)) if one.here else ""
        warned.append(f"**{verdict}** {rest}" + (f" *Do:* {do}" if do else ""))
    return [
        f"**{calm(line.id)}** {calm(line.what)}",
        "" if line.need is None else str(line.need),
        in_hand_words(line),
        "?" if line.in_cart is None else str(line.in_cart),
        ordered_words(line),
        calm(price),
        calm(money(line.cost, line.currency)) if line.order.purchases else "",
        calm(line.seller),
        "<br>".join([*warned, *(calm(note) for note in line.notes)]),
    ]


def _extras(title: str, extras: list[Extra], leading: str) -> list[str]:
    if not extras:
        return []
    rows = [
        [
            "" if extra.count is None else str(extra.count),
            calm(extra.amount),
            calm(extra.what),
            ("" if extra.finding is None else f"**{verdict_word(extra.finding)}** ") + calm(extra.why),
        ]
        for extra in extras
    ]
    return [f"## {title}", "", *_table(("pieces", "amount", "what", "why"), rows), ""]


def _totals(bill: BillOfMaterials) -> list[str]:
    totals = bill.totals()
    if not totals:
        return []
    rows = [_total(calm(total.seller) or NO_SELLER, total) for total in totals]
    rows += [_total("**together**", total) for total in bill.grand_totals()]
    heads = ("seller", "currency", "lines", "to order", "cart as typed", "lines without a price")
    return ["## To pay", "", *_table(heads, rows), ""]


def _total(name: str, total: Total) -> list[str]:
    return [name, calm(total.currency or "none typed"), str(total.lines), money(total.order), money(total.cart),
            str(total.unpriced)]  # fmt: skip
