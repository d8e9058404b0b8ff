"""The bench sheet as JSON, as ``schemas/shop.schema.json`` describes it: SI figures beside the sentences."""

from __future__ import annotations

import json

from partscheck.report.quantities import quantity
from partscheck.report.shop_words import FORMAT, caution_words, said, stop_words

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.rules.findings import Finding
    from partscheck.uses.shop import BenchSheet, Section, Step, Torque


def shop_json(sheet: BenchSheet, leading: str) -> str:
    return json.dumps(shop_data(sheet, leading), indent=1, ensure_ascii=False)


def shop_data(sheet: BenchSheet, leading: str) -> dict[str, Any]:
    """The sheet as plain data; ``leading`` unit system first in texts."""
    return {
        "format": FORMAT,
        "build": sheet.build.name,
        "verdict": sheet.result.verdict,
        "stops": [_stop(finding, leading) for finding in sheet.stops],
        "tools": [said(tool, leading) for tool in sheet.tools()],
        "sections": [_section(section, leading) for section in sheet.sections],
    }


def _stop(finding: Finding, leading: str) -> dict[str, Any]:
    message, do = stop_words(finding, leading)
    return {
        "rule": finding.rule.slug,
        "parts": [part.id for part in finding.parts],
        "at": list(finding.at),
        "message": message,
        "do": do,
        "hazard": finding.check.hazard,
    }


def _section(section: Section, leading: str) -> dict[str, Any]:
    return {
        "key": section.key,
        "title": section.title,
        "intro": [said(one, leading) for one in section.intro],
        "hazard": section.hazard,
        "basis": [_basis(one) for one in section.basis],
        "steps": [_step(step, leading) for step in section.steps],
    }


def _step(step: Step, leading: str) -> dict[str, Any]:
    return {
        "number": step.number,
        "do": said(step.do, leading),
        "details": [said(one, leading) for one in step.details],
        "parts": [part.id for part in step.parts],
        "at": list(step.at),
        "figures": [{"name": name, **(quantity(value) or {})} for name, value in step.figures],
        "torque": None if step.torque is None else _torque(step.torque, leading),
        "tools": [said(one, leading) for one in step.tools],
        "not_before_stops": [int(number) for number in step.stops],
        "not_before_measurements": list(step.waits),
        "cautions": [caution_words(finding, leading) for finding in step.cautions],
        "hazard": step.hazard,
        "basis": [_basis(one) for one in step.basis],
    }


def _torque(torque: Torque, leading: str) -> dict[str, Any]:
    return {
        "what": said(torque.what, leading),
        "at": list(torque.at),
        "pieces": torque.pieces,
        "order": list(torque.order),
        "stages": [quantity(one) for one in torque.stages],
        "full": quantity(torque.full),
        "oiled": quantity(torque.oiled),
        "wrench": torque.wrench.text(leading),
    }


def _basis(basis: Any) -> dict[str, str]:
    return {"kind": basis.kind, "source": basis.source}
