"""The value that is said to decide really decides: it holds there, and one step beyond it does not.

Tried on every finding of every case list that waits for a measurement.
"""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from case_files import all_cases, check_text, shipped_catalogue

from partscheck.build.model import Build
from partscheck.build.reader import read_build
from partscheck.engine import check_build
from partscheck.notation.interval import Interval
from partscheck.parts.record import Record, Typed
from partscheck.rules.check import AT_LEAST, AT_MOST
from partscheck.rules.findings import Finding, Missing


def waiting() -> Iterator[tuple[str, str, Finding, Missing]]:
    """(case, list, finding, field) of every value that is said to decide a check alone."""
    for name, _, case in all_cases():
        for finding in check_text(case["list"]).findings:
            for missing in finding.missing:
                if missing.boundary is not None:
                    yield name, case["list"], finding, missing


WAITING = list(waiting())
IDS = [f"{finding.rule.slug} {missing.name} in {name}" for name, _, finding, missing in WAITING]


def verdicts_with(text: str, finding: Finding, missing: Missing, value: float) -> set[str]:
    """What the rule says of the same parts when the field is exactly ``value``."""
    build = read_build(text.encode(), shipped_catalogue(), "case.yaml")
    record = the_same(build, missing.record)
    unit = missing.boundary.unit if missing.boundary is not None else ""
    record.values[missing.field] = Typed(Interval(value, value, unit), "", None)
    result = check_build(build, [finding.rule])
    ids = [part.id for part in finding.parts]
    again = [one for one in result.of(finding.rule.slug) if [part.id for part in one.parts] == ids]
    return {one.verdict for one in again if set(one.at) & set(finding.at) or not finding.at}


def the_same(build: Build, record: Record) -> Record:
    """The record of the other build that stands at the same place of the list."""
    found = [one for one in build.records() if type(one) is type(record) and repr(one.mark) == repr(record.mark)]
    assert len(found) == 1, found
    return found[0]


def test_there_are_some() -> None:
    assert len(WAITING) > 20
    assert {missing.relation for *_, missing in WAITING} == {AT_MOST, AT_LEAST}


@pytest.mark.parametrize(("name", "text", "finding", "missing"), WAITING, ids=IDS)
def test_the_boundary_decides(name: str, text: str, finding: Finding, missing: Missing) -> None:
    assert missing.boundary is not None
    at = missing.boundary.lo
    step = max(1e-6, abs(at) * 1e-7)
    beyond = at + step if missing.relation == AT_MOST else at - step
    holding = {"ok", "note"}
    assert verdicts_with(text, finding, missing, at) & holding
    assert verdicts_with(text, finding, missing, beyond) != verdicts_with(text, finding, missing, at)
