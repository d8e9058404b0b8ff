"""The bill of materials as CSV (RFC 4180): one row a thing to buy, safe to open in a spreadsheet.

Text that a spreadsheet would take for a formula gets an apostrophe in front; ``partscheck new --from``
takes it off again.  Numbers are plain numbers, their unit stands in the column's name.
"""

from __future__ import annotations

import csv
import io

from partscheck.notation.cell_text import defused, details_text, one_line
from partscheck.report.bom_words import beside, verdict_word, warned_words
from partscheck.uses.bom import ASSEMBLY

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.uses.bom import BillOfMaterials, BomLine, Extra

COLUMNS = (
    "status", "assembly", "id", "part", "kind", "description", "seller", "needed_pieces", "qty", "have",
    "in_cart_pieces", "pack", "to_order_purchases", "to_order_pieces", "price", "currency", "price_of_one_piece",
    "cost", "cart_cost", "weight_kg", "weight_built_kg", "at", "mounts_on", "needed_for", "verdict", "warnings",
    "remarks", "note", "details",
)  # fmt: skip
ON_THE_LIST, MISSING, USED_UP = "on the list", "not on the list", "used up, estimate"
WORST_FIRST = ("ERROR", "STOP", "CAUTION", "MEASURE", "ACCEPTED")

# Fields with a column of their own; `details` holds the others of a line that was written out or changed.
OWN_COLUMN = (
    "id", "part", "kind_", "qty", "packs", "pack", "price", "seller", "weight", "have", "at", "mounts_on", "note",
)  # fmt: skip


def bom_csv(bill: BillOfMaterials, leading: str, by: str = ASSEMBLY) -> str:
    """The whole bill; rows in the order of their groups, what is missing and used up at the end."""
    stream = io.StringIO()
    writer = csv.writer(stream, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    for _, lines in bill.groups(by):
        for line in lines:
            writer.writerow(_cells(_line(line, leading)))
    for extra in bill.missing:
        writer.writerow(_cells(_extra(extra, MISSING)))
    for extra in bill.consumables:
        writer.writerow(_cells(_extra(extra, USED_UP)))
    return stream.getvalue()


def _cells(row: dict[str, Any]) -> list[str]:
    return [_cell(row.get(name)) for name in COLUMNS]


def _cell(value: Any) -> str:
    """A number as a number, an amount in hundredths with its point, a text made harmless."""
    if value is None:
        return ""
    return defused(one_line(value)) if isinstance(value, str) else str(value)


class _Amount:
    """Hundredths of a currency, printed as 14.00."""

    __slots__ = ("hundredths",)

    def __init__(self, hundredths: int) -> None:
        self.hundredths = hundredths

    def __str__(self) -> str:
        return f"{self.hundredths // 100}.{self.hundredths % 100:02d}"


def _amount(hundredths: int | None) -> _Amount | None:
    return None if hundredths is None else _Amount(hundredths)


def _line(line: BomLine, leading: str) -> dict[str, Any]:
    found, price = line.order, line.price
    built = line.built_weight
    verdicts = [verdict_word(one.finding) for one in line.warned]
    return {
        "status": ON_THE_LIST, "assembly": line.assembly, "id": line.id.replace(" + ", "+"),
        "part": line.catalogue_id, "kind": line.kind,
        "description": line.what, "seller": line.seller, "needed_pieces": line.need, "qty": line.on_the_list,
        "have": "true" if line.in_hand is None else line.in_hand or None, "in_cart_pieces": line.in_cart,
        "pack": line.pack if line.pack > 1 else None, "to_order_purchases": found.purchases,
        "to_order_pieces": found.pieces, "price": None if price is None else _Amount(price.hundredths),
        "currency": line.currency,
        "price_of_one_piece": None if price is None else f"{price.hundredths / 100 / line.pack:.4f}",
        "cost": _amount(line.cost), "cart_cost": _amount(line.cart_cost),
        "weight_kg": None if line.weight is None else _kg(line.weight.mid),
        "weight_built_kg": None if built is None else _kg(built.mid), "at": _typed(line, "at"),
        "mounts_on": _typed(line, "mounts_on"), "needed_for": "; ".join(line.uses),
        "verdict": next((word for word in WORST_FIRST if word in verdicts), "").lower(),
        "warnings": " | ".join(warned_words(one, leading) for one in beside(line)),
        "remarks": " ".join(line.notes), "note": _typed(line, "note"), "details": _details(line),
    }  # fmt: skip


def _kg(mass: float) -> float:
    return round(mass, 4)


def _typed(line: BomLine, name: str) -> str:
    """A field of the line as typed; of merged lines only what all of them say."""
    texts = {one.everything()[name].text if name in one.everything() else "" for one in line.parts}
    return texts.pop() if len(texts) == 1 else ""


def _details(line: BomLine) -> str:
    """The other fields that the list itself states: "thread: 1/2-20; seat: conical"."""
    part, *others = line.parts
    pairs = [
        (part.fields[name].key, one_line(typed.text))
        for name, typed in part.everything().items()
        if typed.layer == "list" and name not in OWN_COLUMN and all(name in one.everything() for one in others)
        and (name != "place" or not others)
    ]  # fmt: skip
    return details_text(pairs)


def _extra(extra: Extra, status: str) -> dict[str, Any]:
    finding = extra.finding
    return {
        "status": status, "assembly": extra.assembly, "kind": extra.kind, "description": extra.what,
        "needed_pieces": extra.count, "needed_for": extra.amount, "remarks": extra.why,
        "verdict": "" if finding is None else verdict_word(finding).lower(),
        "warnings": "" if finding is None else f"{verdict_word(finding)} [{finding.rule.slug}]",
    }  # fmt: skip
