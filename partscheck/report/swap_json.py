"""A swap as JSON: house units, stable order; a figure that cannot be told is null with the fields it lacks."""

from __future__ import annotations

import json

from partscheck.notation.interval import Interval
from partscheck.report.bom_words import remedy_words
from partscheck.report.json_report import report_data
from partscheck.report.quantities import quantity, rounded
from partscheck.report.swap_words import verdict_line

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.apply import FieldChange
    from partscheck.parts.record import Typed
    from partscheck.rules.findings import Finding
    from partscheck.uses.swap import Figure, Purchase, Swap

FORMAT = "partscheck-swap/1"


def swap_json(swap: Swap, leading: str) -> str:
    """The comparison as JSON text."""
    return json.dumps(swap_data(swap, leading), indent=1, ensure_ascii=False)


def swap_data(swap: Swap, leading: str) -> dict[str, Any]:
    """The comparison as plain data; findings as the report of ``check`` has them."""
    told = {**_findings(swap.before, leading), **_findings(swap.after, leading)}
    applied = swap.applied
    return {
        "format": FORMAT,
        "swap": swap.change.name,
        "build": swap.before.build.name,
        "base": swap.change.base,
        "list": swap.before.build.file,
        "verdict": verdict_line(swap),
        "new_stops": len(swap.new_stops),
        "before": swap.before.verdict,
        "after": swap.after.verdict,
        "change": {
            "replaced": [_step(one) for one in applied.fields],
            "gone": [_step(one) for one in applied.gone],
            "followed": [_step(one) for one in applied.carried],
            "taken_as_before": applied.kept,
            "added": [part.id for part in applied.added],
            "removed": [record.id for record in applied.removed],
            "lift": quantity(swap.lift),
        },
        "appears": _told(swap.appears, told),
        "goes": _told(swap.goes, told),
        "comes_to_light": _told(swap.surfaces, told),
        "stays": _told(swap.stays, told),
        "figures": [_figure(one) for one in (*swap.figures, *swap.same, *swap.untold)],
        "to_buy": [_purchase(one) for one in swap.to_buy],
        "to_add": [
            {
                "kind": extra.kind,
                "pieces": extra.count,
                "do": remedy_words(extra.finding, leading) if extra.finding is not None else extra.what,
            }
            for extra in swap.to_add
        ],
        "order_totals": [
            {"currency": currency, "before_hundredths": before, "after_hundredths": after}
            for currency, (before, after) in swap.totals.items()
        ],
        "not_needed": [
            {"line": line.id, "what": line.what, "pieces": line.on_the_list} for line in swap.not_needed
        ],
    }


def _findings(result: Any, leading: str) -> dict[int, Any]:
    every = (*result.findings, *result.crashed)
    return {id(one): data for one, data in zip(every, report_data(result, leading)["findings"], strict=True)}


def _told(findings: list[Finding], told: dict[int, Any]) -> list[Any]:
    return [told[id(one)] for one in findings]


def _step(one: FieldChange) -> dict[str, Any]:
    return {"field": one.path, "before": _typed(one.before), "after": _typed(one.after)}


def _typed(typed: Typed | None) -> Any:
    if typed is None:
        return None
    return typed.text or (quantity(typed.value) if isinstance(typed.value, Interval) else None)


def _figure(one: Figure) -> dict[str, Any]:
    return {
        "figure": one.name,
        "meaning": one.kind.meaning,
        "at": list(one.at),
        "before": quantity(one.before),
        "after": quantity(one.after),
        "change": quantity(one.change),
        "direction": one.direction,
        "worse": one.kind.worse,
        "brings": one.brings or None,
        "limit_used": {"before": _share(one.stood.used), "after": _share(one.stands.used)},
        "fields_missing": list(one.missing),
        "basis": {"kind": one.kind.basis.kind, "source": one.kind.basis.source},
    }


def _purchase(one: Purchase) -> dict[str, Any]:
    return {
        "line": one.line.id,
        "what": one.line.what,
        "pieces": one.pieces,
        "purchases": one.purchases,
        "cost_hundredths": one.cost,
        "currency": one.currency,
        "seller": one.line.seller,
        "another_article": one.another,
    }


def _share(value: float | None) -> float | None:
    return None if value is None else rounded(value)
