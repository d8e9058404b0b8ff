"""A build checked again after a change says what a full check says, for thousands of random edits."""

from __future__ import annotations

import os
import random
from collections import defaultdict
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from textwrap import dedent
from typing import Any

import pytest
from case_files import all_cases, shipped_catalogue

from partscheck.build.model import Build
from partscheck.build.reader import read_build
from partscheck.catalogue.catalogue import Catalogue
from partscheck.engine import Result, check_build
from partscheck.notation.faults import Faults
from partscheck.parts.record import Record, Typed
from partscheck.recheck import Recheck
from partscheck.rules.findings import Finding

EXAMPLES = Path(__file__).parent.parent / "examples"
# How many random edits of each list: two thousand in all.
LISTS = {
    "apiary-first": 200, "apiary-corrected": 200, "metric-750": 600, "tandem-arms": 300, "four-line-cart": 700,
}  # fmt: skip


@cache
def catalogue() -> Catalogue:
    return Catalogue.load([str(EXAMPLES / "catalog")])


def example(name: str) -> Build:
    return read_build(str(EXAMPLES / f"{name}.yaml"), catalogue(), name)


@cache
def values_of_cases() -> dict[tuple[str, str], list[Typed]]:
    """Every value that some case types, by (kind or record, field): what random edits draw from."""
    pool: dict[tuple[str, str], list[Typed]] = defaultdict(list)
    builds: list[Build] = [example(name) for name in LISTS]
    for *_, case in all_cases():
        try:
            builds.append(read_build(case["list"].encode(), shipped_catalogue(), "case"))
        except Faults:
            continue
    for build in builds:
        for record in build.records():
            for name, typed in record.values.items():
                if name not in ("id", "cases") and not _holds_records(typed.value):
                    pool[kind_of(record), name].append(typed)
    return pool


def _holds_records(value: Any) -> bool:
    return any(isinstance(one, Record) for one in (value if isinstance(value, list) else [value]))


def kind_of(record: Record) -> str:
    return getattr(type(record), "kind", "") or record.record_name


def state(result: Result) -> list[Any]:
    """All that a report says of each finding, and what was folded or had nothing to look at."""
    groups = (result.findings, result.folded, result.notes, result.held, result.crashed)
    said: list[Any] = [[_told(finding) for finding in group] for group in groups]
    return [*said, result.idle, [acceptance.id for acceptance in result.unmatched]]


def _told(finding: Finding) -> tuple[Any, ...]:
    margin = finding.check.margin
    remedies = [text for _, text in finding.remedies("metric")]
    return (
        repr(finding), finding.message("inch"), [one.name for one in finding.missing], finding.accepted,
        finding.overrides, remedies, margin and (margin.lo, margin.hi), repr(finding.follows),
    )  # fmt: skip


def edits(build: Build, chance: random.Random) -> Iterator[tuple[Record, str, Typed | None]]:
    """(record, field, new value or None to leave it out), endlessly."""
    pool = values_of_cases()
    while True:
        record = chance.choice(list(build.records()))
        kind = kind_of(record)
        names = [name for name in record.fields if (kind, name) in pool]
        if not names:
            continue
        name = chance.choice(names)
        choice: list[Typed | None] = [*pool[kind, name]]
        if record.fields[name].key not in record.required:
            choice.append(None)
        yield record, name, chance.choice(choice)


@pytest.mark.parametrize("name", LISTS)
def test_again_is_the_same_as_anew(name: str) -> None:
    seed = int(os.environ.get("SEED", "1"))  # another one by hand: SEED=$RANDOM
    chance = random.Random(seed)
    build = example(name)
    again = Recheck(build)
    again.check()
    fewer = checks = made = 0
    stream = edits(build, chance)
    while made < LISTS[name]:
        batch = [next(stream) for _ in range(chance.randint(1, 5))]
        before = [(record, field, record.values.get(field)) for record, field, _ in batch]
        told = f"seed {seed}, after {made}: " + ", ".join(f"{one.id}.{field}" for one, field, _ in batch)
        for edit in batch:
            _apply(again, *edit)
        made += len(batch)
        try:
            full = check_build(build)
        except Faults:
            with pytest.raises(Faults):
                again.check()
            for edit in reversed(before):
                _apply(again, *edit)
            continue
        result = again.check()
        checks += 1
        fewer += again.ran < again.total
        assert state(result) == state(full), told
    assert fewer > checks / 4, "most edits of a value must not run everything again"


def _apply(again: Recheck, record: Record, field: str, typed: Typed | None) -> None:
    if typed is None:
        again.take(record, field)
    else:
        again.put(record, field, typed)


# What a rule reads past a single field: that anything of the layout is typed, what other rules would say
# with another mark on a bolt's head.
BY_THE_WAY = {
    "the first word of the layout": (
        """\
        parts:
          - {id: tire, kind: tire, size: ST205/75R15, at: [1L, 1R, 2L, 2R]}
        """, "layout", "coupler_height", "17 in",
    ),
    "a torque for a grade that nobody has read": (
        """\
        parts:
          - {id: b, kind: bolt, size: M10 x 60 mm}
        bolted_joints:
          - {id: hook, bolt: b, load: {shear: 2 kN}}
        """, "hook", "torque", "75 ft-lb",
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", BY_THE_WAY)
def test_what_is_read_by_the_way_counts(name: str) -> None:
    text, id, field, typed = BY_THE_WAY[name]
    build = read_build(dedent(text).encode(), shipped_catalogue(), "list")
    again = Recheck(build)
    before = state(again.check())
    record = next(one for one in build.records() if one.id == id)
    again.put(record, field, Typed(record.fields[field].type.read(typed, build.tables), typed, None))
    assert state(again.check()) == state(check_build(build)) != before


def test_what_is_typed_as_unknown_is_no_record_of_the_list() -> None:
    """`load: unknown` is one record for all lists: a change of it would be a change of every list."""
    text = "parts: [{id: b, kind: bolt, size: M10 x 60 mm}]\nbolted_joints: [{id: eye, bolt: b, load: unknown}]\n"
    build = read_build(text.encode(), shipped_catalogue(), "list")
    shared = build.joints[0].fields["load"].type.unknown
    assert build.joints[0].values["load"].value is shared
    build.listen()
    assert shared not in list(build.records())
    assert shared.ledger is None


def test_only_what_read_the_field_runs_again() -> None:
    build = example("apiary-corrected")
    again = Recheck(build)
    again.check()
    assert again.ran == again.total
    seal: Any = build.part("seal")
    again.put(seal, "lips", Typed("single", "single", None))
    again.check()
    assert 0 < again.ran < 10
    again.check()
    assert again.ran == 0


def test_lines_that_come_and_go_are_noticed() -> None:
    build = example("apiary-first")
    again = Recheck(build)
    first = state(again.check())
    line = build.parts.pop()
    assert state(again.check()) == state(check_build(build))
    build.parts.append(line)
    assert state(again.check()) == first


def test_another_part_on_the_same_line() -> None:
    build = example("apiary-first")
    again = Recheck(build)
    first = state(again.check())
    tire: Any = build.part("tire")
    before = dict(tire.values)
    again.replace(
        tire, {**before, "size": Typed(tire.fields["size"].type.read("P205/75R15", None), "P205/75R15", None)}
    )
    assert state(again.check()) == state(check_build(build)) != first
    again.replace(tire, before)
    assert state(again.check()) == first


def test_a_result_keeps_what_it_said() -> None:
    build = example("apiary-first")
    again = Recheck(build)
    result = again.check()
    verdicts = [(finding.verdict, finding.at, finding.accepted) for finding in result.findings]
    for line in build.parts:
        if line.kind == "tire":
            again.take(line, "size")
    again.check()
    assert [(finding.verdict, finding.at, finding.accepted) for finding in result.findings] == verdicts
