"""Found parts as JSON: house units, stable order; what a part does not state is left out."""

from __future__ import annotations

import json

from partscheck.notation.interval import INF, Interval
from partscheck.report.quantities import quantity, rounded

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.rules.findings import Finding
    from partscheck.uses.find import Candidate, Finds, NearMiss

FORMAT = "partscheck-find/1"
OUTCOMES = ("fits", "fits so far", "cannot be told", "leaves a stop", "not checked")  # by rank of a trial


def find_json(found: Finds, leading: str) -> str:
    return json.dumps(find_data(found, leading), indent=1, ensure_ascii=False)


def find_data(found: Finds, leading: str) -> dict[str, Any]:
    """What was found as plain data."""
    build = found.build
    return {
        "format": FORMAT,
        "kind": found.query.kind,
        "asked": [{"field": one.field.key, "text": one.text} for one in found.query.asks],
        "by": found.by,
        "matches": found.matches,
        "matches_more": found.matches_more,
        "unstated": found.unstated,
        "list": None if build is None else build.file,
        "build": None if build is None else build.name,
        "line": found.line,
        "added": build is not None and found.added,
        "tried": found.tried,
        "candidates": [_candidate(one, leading) for one in found.candidates[: found.limit]],
        "rejected": [_candidate(one, leading) for one in found.rejected[: found.limit]],
        "rejected_in_all": len(found.rejected),
        "nearest": [_near(one, leading) for one in found.misses],
    }


def _candidate(one: Candidate, leading: str) -> dict[str, Any]:
    kind, source = one.entry.basis
    told: dict[str, Any] = {
        "id": one.id,
        "layer": one.entry.layer,
        "file": one.entry.file,
        "line": one.entry.line,
        "basis": {"kind": kind, "source": source},
        "price": None if one.price is None else {"amount": one.price.amount, "currency": one.price.currency},
        "weight": quantity(one.weight),
        "fields": {key: text for key, (text, *_) in one.entry.fields.items()},
        "values": {
            one.part.fields[name].key: quantity(typed.value)
            for name, typed in one.part.values.items()
            if isinstance(typed.value, Interval)
        },
    }
    trial = one.trial
    if trial is None:
        return told
    told["trial"] = {
        "outcome": "rejected" if trial.rejected else OUTCOMES[trial.rank],
        "brings": [_finding(finding, leading) for finding in trial.brings],
        "leaves": [_finding(finding, leading) for finding in trial.leaves],
        "clears": [_finding(finding, leading) for finding in trial.clears],
        "checks": trial.checks,
        "lacks": trial.lacks,
        "needs": trial.needs,
        "coarse": trial.coarse,
        "margin": None if trial.margin is None
        else {"share": rounded(trial.margin.share), "rule": trial.margin.finding.rule.slug},
        "not_clear": trial.unplaced,
    }  # fmt: skip
    return told


def _finding(finding: Finding, leading: str) -> dict[str, Any]:
    from partscheck.uses.trial import short_by  # there is none without a list

    by, share = short_by(finding)
    return {
        "rule": finding.rule.slug,
        "parts": [part.id for part in finding.parts],
        "at": list(finding.at),
        "message": finding.message(leading),
        "misses_by": quantity(by),
        "share": None if share == INF else rounded(share),
        "basis": [{"kind": one.kind, "source": one.source} for one in finding.basis],
    }


def _near(near: NearMiss, leading: str) -> dict[str, Any]:
    miss = near.miss
    return {
        **_candidate(near.candidate, leading),
        "misses": {
            "field": miss.ask.field.key,
            "number": miss.clause.name,
            "by": rounded(miss.by) if miss.clause.numeric else None,
            "unit": miss.clause.unit,
            "share": rounded(miss.share) if miss.clause.numeric else None,
        },
    }
