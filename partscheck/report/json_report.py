"""The JSON report, as ``schemas/report.schema.json`` describes it: house units, stable order."""

from __future__ import annotations

import json

from partscheck.build.tow_links import GROSS, TONGUE
from partscheck.notation.interval import INF, Interval
from partscheck.report.balance_json import balance_data, pressure_data
from partscheck.report.quantities import end as _end
from partscheck.report.quantities import quantity as _quantity
from partscheck.report.quantities import rounded as _round
from partscheck.report.told import told
from partscheck.rules.findings import Finding
from partscheck.rules.message import spell
from partscheck.uses.case_room import CaseRoom, case_rooms
from partscheck.uses.load_path import load_path, supported_gross, weakest_links
from partscheck.uses.measurements import Measurement, measurements
from partscheck.uses.not_checked import not_checked

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.engine import Result
    from partscheck.notation.faults import Fault
    from partscheck.notation.yaml_text import Mark

FORMAT = "partscheck-report/1"
FAULTS_FORMAT = "partscheck-faults/1"


def json_report(result: Result, leading: str) -> str:
    """The report of one check as JSON text."""
    return json.dumps(report_data(result, leading), indent=1, ensure_ascii=False)


def report_data(result: Result, leading: str) -> dict[str, Any]:
    """The report of one check as plain data."""
    rows = load_path(result)
    gross, limiting = supported_gross(rows)
    return {
        "format": FORMAT,
        "build": result.build.name,
        "verdict": result.verdict,
        "counts": result.counts(),
        "findings": [_finding(finding, leading) for finding in (*result.findings, *result.crashed)],
        "measurements": [_measurement(one, leading) for one in measurements(result)],
        "load_path": [_load_row(row) for row in rows],
        "load_cases": [_case(one) for one in case_rooms(result, rows)],
        "balance": balance_data(result),
        "tire_pressures": pressure_data(result),
        "weakest_links": {of: [row.part.id for row in weakest_links(rows, of)] for of in (GROSS, TONGUE)},
        "supported_gross_weight": None if gross is None else _quantity(gross),
        "limited_by": None if limiting is None else limiting.id,
        "held": [_held(finding, leading) for finding in result.held],
        "notes": [_held(finding, leading) for finding in result.notes],
        "told": told(result, leading),
        "nothing_to_look_at": result.idle,
        "not_checked": not_checked(result),
    }


def faults_report(faults: list[Fault], following: int = 0) -> str:
    """Why a list cannot be used, as JSON text; ``following`` counts what only follows from the rest."""
    return json.dumps(faults_data(faults, following), indent=1, ensure_ascii=False)


def faults_data(faults: list[Fault], following: int = 0) -> dict[str, Any]:
    """The same as plain data."""
    rows = [
        {"source": _source(one.mark), "read": one.read, "expected": one.expected, "hint": one.hint}
        for one in faults
    ]
    return {"format": FAULTS_FORMAT, "faults": rows, "following": following}


def _finding(finding: Finding, leading: str) -> dict[str, Any]:
    check = finding.check
    data: dict[str, Any] = {
        "rule": finding.rule.slug,
        "verdict": finding.verdict,
        "parts": [part.id for part in finding.parts],
        "at": list(finding.at),
        "source": _source(finding.mark),
        "message": finding.message(leading),
        "why": finding.why(leading),
        "have": _value(check.have, leading),
        "need": _need(check.relation, check.need, leading),
        "margin": _quantity(check.margin),
        "fields_missing": [missing.name for missing in finding.missing],
        "basis": _basis(finding),
        "remedies": [_remedy(one, text, leading) for one, text in finding.remedies(leading)],
        "hazard": check.hazard,
    }
    if finding.accepted:
        data["accepted"] = finding.accepted
    if finding.overrides:
        data["own_limits"] = finding.overrides
    return data


def _basis(finding: Finding) -> dict[str, str]:
    kinds = [basis.kind for basis in finding.basis]
    weakest = next(kind for kind in ("recalled", "practice", "published") if kind in kinds)
    sources = "; ".join(basis.source if basis.kind == weakest else str(basis) for basis in finding.basis)
    return {"kind": weakest, "source": sources}


def _remedy(remedy: Any, text: str, leading: str) -> dict[str, Any]:
    return {
        "do": text,
        "operation": remedy.operation,
        "field": remedy.field,
        "target": _need(remedy.relation, remedy.target, leading),
    }


def _held(finding: Finding, leading: str) -> dict[str, Any]:
    data: dict[str, Any] = {
        "rule": finding.rule.slug,
        "parts": [part.id for part in finding.parts],
        "at": list(finding.at),
        "margin": _quantity(finding.check.margin),
    }
    if finding.check.message and finding.verdict == "note":
        data["message"] = finding.message(leading)
    return data


def _measurement(one: Measurement, leading: str) -> dict[str, Any]:
    return {
        "field": one.name,
        "meaning": one.meaning,
        "how": one.how,
        "accuracy": None if one.accuracy is None else _quantity(one.accuracy),
        "decides": one.slugs,
        "holds": [
            {"rule": slug, **(_need(relation, bound, leading) or {})} for slug, relation, bound in one.bounds
        ],
    }


def _load_row(row: Any) -> dict[str, Any]:
    return {
        "part": row.part.id,
        "role": row.role,
        "at": list(row.at),
        "rating": _number(row.rating),
        "share": _number(-row.share, -1),
        "unit": "N",
        "margin": _number(row.margin),
        "limits_gross_weight_to": _number(row.limits_gross_weight_to),
        "of": row.of,
        "case": row.case or None,
    }


def _case(one: CaseRoom) -> dict[str, Any]:
    return {
        "case": one.name,
        "weight": _number(-one.total, -1),
        "room": _number(one.room),
        "unit": "N",
        "limited_by": None if one.first is None else one.first.part.id,
        "of": None if one.first is None else one.first.of,
    }


def _number(value: Interval | None, sign: int = 1) -> float | None:
    """The lower end as one number, the worse one of a rating or margin; None when it is not known.

    A share is worst at its upper end: the lower one of its negative, with ``sign`` -1.
    """
    return None if value is None or not value.known else _round(value.lo) * sign


def _source(mark: Mark | None) -> dict[str, Any] | None:
    return None if mark is None else {"file": mark.file, "line": mark.line, "column": mark.column}


def _value(value: Any, leading: str) -> Any:
    if value is None or isinstance(value, Interval):
        return _quantity(value)
    return spell(value, leading)


def _need(relation: str, value: Any, leading: str) -> dict[str, Any] | None:
    if value is None:
        return None
    if not isinstance(value, Interval):
        return {"relation": relation, "value": spell(value, leading), "unit": ""}
    limit = value.hi if relation == "at least" and value.hi != INF else value.lo
    data = {"relation": relation, "value": _end(limit), "unit": value.unit}
    if not value.is_exact:
        data.update(low=_end(value.lo), high=_end(value.hi))
    return data
