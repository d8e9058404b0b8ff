"""The bill of materials as JSON, as ``schemas/bom.schema.json`` describes it: hundredths and kg."""

from __future__ import annotations

import json
import unicodedata

from partscheck.notation.cell_text import UNSEEN
from partscheck.report.bom_words import FORMAT, finding_words, remedy_words
from partscheck.uses.bom import ASSEMBLY

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.notation.interval import Interval
    from partscheck.rules.findings import Finding
    from partscheck.uses.bom import BillOfMaterials, BomLine, Extra, Total


def bom_json(bill: BillOfMaterials, leading: str, by: str = ASSEMBLY) -> str:
    """The bill as JSON text; characters that no eye sees are escaped."""
    text = json.dumps(bom_data(bill, leading, by), indent=1, ensure_ascii=False)
    return "".join(f"\\u{ord(c):04x}" if _unseen(c) else c for c in text)


def _unseen(sign: str) -> bool:
    return sign != "\n" and ord(sign) < 0x10000 and unicodedata.category(sign) in UNSEEN


def bom_data(bill: BillOfMaterials, leading: str, by: str = ASSEMBLY) -> dict[str, Any]:
    """The bill as plain data; ``leading`` unit system first in texts."""
    weight, unknown = bill.weight()
    return {
        "format": FORMAT,
        "build": bill.build.name,
        "verdict": bill.result.verdict,
        "by": by,
        "groups": [
            {"name": name, "lines": [_line(line, leading) for line in lines]} for name, lines in bill.groups(by)
        ],
        "not_on_the_list": [_extra(extra, leading) for extra in bill.missing],
        "used_up": [_extra(extra, leading) for extra in bill.consumables],
        "elsewhere": [_finding(finding, leading) for finding in bill.elsewhere],
        "totals": [_total(total) for total in bill.totals()],
        "grand_totals": [_total(total) for total in bill.grand_totals()],
        "weight_kg": _mass(weight),
        "lines_without_weight": unknown,
    }


def _line(line: BomLine, leading: str) -> dict[str, Any]:
    found, price = line.order, line.price
    return {
        "ids": [part.id for part in line.parts],
        "part": line.catalogue_id,
        "kind": line.kind,
        "assembly": line.assembly,
        "description": line.what,
        "seller": line.seller,
        "needed": line.need,
        "needed_for": line.uses,
        "in_hand": line.in_hand,
        "in_cart": line.in_cart,
        "pack": line.pack,
        "order": {"purchases": found.purchases, "pieces": found.pieces, "change_of_cart": found.change},
        "price_hundredths": None if price is None else price.hundredths,
        "currency": line.currency,
        "cost_hundredths": line.cost,
        "cart_cost_hundredths": line.cart_cost,
        "weight_kg": None if line.weight is None else _mass(line.weight),
        "remarks": line.notes,
        "warnings": [
            {**_finding(one.finding, leading), "told_at": one.told_at} for one in line.warned
        ],
    }  # fmt: skip


def _finding(finding: Finding, leading: str) -> dict[str, Any]:
    data = {
        "rule": finding.rule.slug,
        "verdict": finding.verdict,
        "text": finding_words(finding, leading),
        "do": remedy_words(finding, leading),
        "hazard": finding.check.hazard,
    }
    if finding.accepted:
        data["accepted"] = finding.accepted
    return data


def _extra(extra: Extra, leading: str) -> dict[str, Any]:
    return {
        "kind": extra.kind,
        "assembly": extra.assembly,
        "what": extra.what,
        "pieces": extra.count,
        "amount": extra.amount,
        "why": extra.why,
        "warning": None if extra.finding is None else _finding(extra.finding, leading),
    }


def _total(total: Total) -> dict[str, Any]:
    return {
        "seller": total.seller,
        "currency": total.currency,
        "order_hundredths": total.order,
        "cart_hundredths": total.cart,
        "lines": total.lines,
        "lines_without_price": total.unpriced,
        "lines_without_quantity": total.uncounted,
    }


def _mass(mass: Interval) -> dict[str, float]:
    return {"low": round(mass.lo, 6), "high": round(mass.hi, 6)}
