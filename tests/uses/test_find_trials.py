"""Each trial of ``find`` says what a whole check of the changed list says, on every line of the example lists."""

from __future__ import annotations

import random
from pathlib import Path
from typing import Any

import pytest

import partscheck
from partscheck.build.apply import changed_build
from partscheck.build.change import Change
from partscheck.build.fit import Fit
from partscheck.build.ride_height import heights_follow
from partscheck.engine import check_build
from partscheck.notation.faults import Faults
from partscheck.uses.trial import FITS, UNCHECKED, Trials

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
LISTS = ("apiary-first", "apiary-corrected", "four-line-cart", "metric-750", "tandem-arms")
EACH = 14  # trials of one list


def keys(findings: Any) -> set[tuple[str, tuple[str, ...]]]:
    return {(one.rule.slug, tuple(sorted(part.id for part in one.parts))) for one in findings}


def of_verdict(result: Any, verdict: str) -> list[Any]:
    return [one for one in result.findings if one.verdict == verdict]


@pytest.mark.parametrize("name", LISTS)
def test_a_trial_is_a_whole_check_of_the_changed_list(name: str) -> None:
    seed = random.SystemRandom().randrange(2**32)
    draw = random.Random(seed)
    build = partscheck.read_list(EXAMPLES / f"{name}.yaml", [EXAMPLES / "catalog"])
    of_kind: dict[str, list[str]] = {}
    for entry in build.tables.parts():
        of_kind.setdefault(entry.kind, []).append(entry.id)
    lines = [part for part in build.parts if part.kind in of_kind]
    before = check_build(build)
    known = keys(one for one in (*before.findings, *before.folded) if one.verdict == "stop")
    trials: dict[str, Trials] = {}
    for line in draw.choices(lines, k=EACH):
        id = draw.choice(of_kind[line.kind])
        tried = trials.setdefault(line.id, Trials(build, line.kind, line.id))
        case = f"seed {seed}: {id} on {line.id} of {name}"
        trial = tried.of(id)
        applied = changed_build(build, Change().replace(f"{line.id}.part", id))
        if line.kind == "tire":
            heights_follow(Fit(build), Fit(applied.build), applied)
        try:
            result = check_build(applied.build)
        except Faults:
            assert trial.unplaced, case
            continue
        stops = of_verdict(result, "stop")
        assert keys(trial.brings) == keys(stops) - known, case
        here = [one for one in stops if line.id in [part.id for part in one.parts]]
        assert keys(trial.leaves) == keys(here) & known, case
        measured = [one for one in of_verdict(result, "measure") if line.id in [part.id for part in one.parts]]
        still = keys(one for one in (*result.findings, *result.folded) if one.verdict in ("stop", "measure"))
        assert keys(trial.clears) == keys(of_verdict(before, "stop")) - still, case
        if trial.rank == FITS and not trial.rejected:
            assert not here, case
            assert {one.check.severity for one in measured} <= {"caution", "note"}, case
        if trial.rank == UNCHECKED:
            every = (*result.findings, *result.held, *result.notes, *result.folded)
            looked = {one.rule.slug for one in every if line.id in [part.id for part in one.parts]}
            assert looked <= {"line-unused"}, case
