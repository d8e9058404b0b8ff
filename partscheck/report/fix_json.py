"""Plans as JSON: house units, stable order; findings have the shape of the report of ``check``."""

from __future__ import annotations

import json

from partscheck.report.json_report import report_data
from partscheck.uses.fix.edits import Add, Article, Put
from partscheck.uses.fix.trials import key_of

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.engine import Result
    from partscheck.uses.fix import Fix, Plan, Step
    from partscheck.uses.fix.edits import Edit

FORMAT = "partscheck-fix/1"
DIGITS = 6


def fix_json(fix: Fix, leading: str) -> str:
    """The plans as JSON text."""
    return json.dumps(fix_data(fix, leading), indent=1, ensure_ascii=False)


def fix_data(fix: Fix, leading: str) -> dict[str, Any]:
    """The plans as plain data.

    ``findings`` are those of the list as it is; each remedy that was tried says under ``tried`` which rules'
    stops it clears and which it causes, by itself.
    """
    return {
        "format": FORMAT,
        "build": fix.build.name,
        "list": fix.build.file,
        "by": fix.by,
        "stops": len(fix.stops),
        "clears_all": fix.clears_all,
        "proven": bool(fix.plans) and not fix.late and fix.plans[0].proven,
        "considered": fix.considered,
        "plans": [_plan(plan, leading) for plan in fix.plans],
        "lacking": [
            {
                "rule": one.finding.rule.slug,
                "parts": [part.id for part in one.finding.parts],
                "would_do": one.parts,
            }
            for one in fix.lacking
        ],
        "findings": _tried(fix, leading),
    }


def _tried(fix: Fix, leading: str) -> list[Any]:
    data: list[Any] = report_data(fix.before, leading)["findings"]
    every = (*fix.before.findings, *fix.before.crashed)
    for finding, row in zip(every, data, strict=True):
        for number, remedy in enumerate(row["remedies"]):
            done = fix.tried.get((key_of(finding), number))
            if done is not None:
                remedy["tried"] = {"clears": done[0], "causes": done[1]}
    return data


def _plan(plan: Plan, leading: str) -> dict[str, Any]:
    told = _findings(plan.after, leading)
    difference, room = plan.difference, plan.least_room
    return {
        "proven": plan.proven,
        "steps": [_step(step) for step in plan.steps],
        "clears": list(dict.fromkeys(one.rule.slug for one in plan.clears)),
        "leaves": [told[id(one)] for one in plan.leaves if id(one) in told],
        "causes": [told[id(one)] for one in plan.causes if id(one) in told],
        "verdict": plan.after.verdict,
        "counts": plan.after.counts(),
        "to_measure": list(dict.fromkeys(each.name for one in plan.after.findings for each in one.missing)),
        "cost": [
            {"currency": currency, "more": amount / 100} for currency, amount in difference.money.items()
        ],
        "unpriced": list(difference.unpriced),
        "weight": {
            "more": round(difference.weight, DIGITS), "unit": "kg", "not_counted": list(difference.unweighed),
        },
        "least_room": None if room is None else {"part": room.parts[0], "share": round(room.share, DIGITS)},
        "followed": [
            {"field": one.path, "low": _end(one.after, "lo"), "high": _end(one.after, "hi"), "unit": "mm"}
            for one in plan.applied.carried
        ],
    }


def _end(typed: Any, name: str) -> float | None:
    value = None if typed is None else getattr(typed.value, name, None)
    return None if value is None or abs(value) == float("inf") else round(value, DIGITS)


def _step(step: Step) -> dict[str, Any]:
    option = step.option
    return {
        "do": option.do,
        "sort": option.sort,
        "of": option.slot.removeprefix("+").partition("/")[0],
        "catalogue_part": option.entry,
        "clears": step.clears,
        "needed_for": step.needed_for,
        "spares": step.spares,
        "hazard": option.hazard,
        "edits": [_edit(edit) for edit in option.edits],
    }


def _edit(edit: Edit) -> dict[str, Any]:
    """What is typed where."""
    if isinstance(edit, Put):
        return {"edit": "set", "record": " / ".join((edit.target, *edit.inner)), "fields": {edit.key: edit.text}}
    if isinstance(edit, Article):
        return {"edit": "article", "record": edit.target, "fields": {"part": edit.part, **edit.fields}}
    if isinstance(edit, Add):
        return {"edit": "add", "record": edit.fields.get("id", ""), "fields": edit.fields}
    return {"edit": "remove", "record": edit.target, "fields": {}}


def _findings(result: Result, leading: str) -> dict[int, Any]:
    every = (*result.findings, *result.crashed)
    return {id(one): data for one, data in zip(every, report_data(result, leading)["findings"], strict=True)}
