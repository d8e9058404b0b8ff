"""A build checked again after a change says what a full check says, for thousands of random edits."""

from __future__ import annotations

import os
import random
from collections import defaultdict
from collections.abc import Callable, Iterator
from functools import cache
from itertools import chain, zip_longest
from pathlib import Path
from textwrap import dedent
from typing import Any

import pytest
from case_files import all_cases, shipped_catalogue

from partscheck.build.copying import copied
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
    "apiary-first": 130, "apiary-corrected": 150, "metric-750": 500, "tandem-arms": 300, "four-line-cart": 920,
}  # fmt: skip


@cache
def catalogue() -> Catalogue:
    return Catalogue.load([str(EXAMPLES / "catalog")])


def example(name: str) -> Build:
    return read_build(str(EXAMPLES / f"{name}.yaml"), catalogue(), name)


@cache
def case_builds() -> list[Build]:
    builds: list[Build] = [example(name) for name in LISTS]
    for *_, case in all_cases():
        try:
            builds.append(read_build(case["list"].encode(), shipped_catalogue(), "case"))
        except Faults:
            continue
    return builds


@cache
def values_of_cases() -> dict[tuple[str, str], list[Typed]]:
    """Every value that some case types, by (kind or record, field): what random edits draw from."""
    pool: dict[tuple[str, str], list[Typed]] = defaultdict(list)
    for build in case_builds():
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


def differences(one: Result, other: Result) -> list[tuple[Any, Any]]:
    """Where two results do not say the same: (of the one, of the other), the first few."""
    pairs = zip_longest(*([*chain.from_iterable(state(result))] for result in (one, other)))
    return [(mine, others) for mine, others in pairs if mine != others][:3]


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


Undo = Callable[[], None]


class Changes:
    """Random changes of a build, each with a way back: fields, lines that come, go or trade places, going back
    to how the build was a while ago.
    """

    def __init__(self, build: Build, chance: random.Random, told: list[Recheck]) -> None:
        self.build = build
        self.chance = chance
        self.told = told  # each is told of changed fields
        self._stream = edits(build, chance)
        self._done: list[Undo] = []

    def make(self) -> tuple[str, Undo]:
        """One change, in words, and what takes it back."""
        draw = self.chance.random()
        if draw < 0.6:
            return self._edit()
        if draw < 0.75:
            return self._out()
        if draw < 0.95:
            return self._in()
        return self._trade()

    def keep(self, undos: list[Undo]) -> None:
        self._done += undos

    def go_back(self) -> str:
        """To how the build was a few changes ago, as a trial does."""
        steps = min(len(self._done), self.chance.randint(1, 4))
        for _ in range(steps):
            self._done.pop()()
        return f"{steps} back"

    def _edit(self) -> tuple[str, Undo]:
        record, field, typed = next(self._stream)
        before = record.values.get(field)
        self._put(record, field, typed)
        return f"{record.id}.{field}", lambda: self._put(record, field, before)

    def _put(self, record: Record, field: str, typed: Typed | None) -> None:
        if typed is None:
            record.values.pop(field, None)
        else:
            record.values[field] = typed
        for again in self.told:
            again.touched(record, field)

    def _out(self) -> tuple[str, Undo]:
        group: list[Any] = self.chance.choice([self.build.parts] * 4 + [self.build.joints, self.build.loads])
        if not group:
            return self._edit()
        number = self.chance.randrange(len(group))
        line = group.pop(number)
        return f"{line.id} out", lambda: group.insert(number, line)

    def _in(self) -> tuple[str, Undo]:
        other = copied(self.chance.choice(case_builds()))
        build = self.build
        groups: list[tuple[list[Any], list[Any]]] = [
            (build.parts, other.parts), (build.joints, other.joints), (build.loads, other.loads),
        ]  # fmt: skip
        group, source = self.chance.choice([groups[0]] * 4 + groups[1:])
        taken = {one.id for one in (*build.parts, *build.joints, *build.loads)}
        lines = [one for one in source if one.id not in taken]
        if not lines:
            return self._edit()
        line = self.chance.choice(lines)
        group.insert(self.chance.randint(0, len(group)), line)
        return f"{line.id} in", lambda: group.remove(line)

    def _trade(self) -> tuple[str, Undo]:
        parts = self.build.parts
        if len(parts) < 2:
            return self._edit()
        one, other = self.chance.sample(range(len(parts)), 2)

        def trade() -> None:
            parts[one], parts[other] = parts[other], parts[one]

        trade()
        return f"{one} and {other} traded", trade


@pytest.mark.parametrize("name", LISTS)
def test_again_is_the_same_as_anew(name: str) -> None:
    seed = int(os.environ.get("SEED", "1"))  # another one by hand: SEED=$RANDOM
    chance = random.Random(seed)
    build = example(name)
    again, quick = Recheck(build), Recheck(build, decide=False)
    again.check()
    changes = Changes(build, chance, [again, quick])
    fewer = checks = made = 0
    while made < LISTS[name]:
        if chance.random() < 0.25:
            words, undos = [changes.go_back()], []
        else:
            batch = [changes.make() for _ in range(chance.randint(1, 5))]
            words, undos = [word for word, _ in batch], [undo for _, undo in batch]
        made += len(words)
        try:
            full = check_build(build)
        except Faults:
            with pytest.raises(Faults):
                again.check()
            for undo in reversed(undos):
                undo()
            continue
        changes.keep(undos)
        result = again.check()
        checks += 1
        fewer += again.ran < again.total
        told = f"seed {seed}, after {made}: " + ", ".join(words)
        assert differences(result, full) == [], told
        if checks % 4 == 0:
            assert differences(quick.check(), Recheck(build, decide=False).check()) == [], told
    assert fewer > checks * 3 / 4, "most changes must not run everything again"


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


def test_a_line_that_comes_or_goes_runs_what_asks_for_it() -> None:
    build = example("apiary-first")
    again = Recheck(build)
    first = state(again.check())
    number = next(number for number, part in enumerate(build.parts) if part.kind == "lamp")
    lamp = build.parts.pop(number)
    assert state(again.check()) == state(check_build(build)) != first
    assert 0 < again.ran < again.total / 5
    build.parts.insert(number, lamp)
    assert state(again.check()) == first
    assert again.ran == 0, "what was said of the list as it was still stands"


def test_other_leading_units_run_what_asks_for_them() -> None:
    text = """        parts:
          - {id: hub, kind: hub, pilot: 2.8 in, stud_length: 1.4 in}
          - {id: wheel, kind: wheel, center_bore: 71 mm, offset: 20 mm}
          - {id: box, kind: other, what: box, weight: 2 lb}
        """
    build = read_build(dedent(text).encode(), shipped_catalogue(), "list")
    assert build.leading() == "inch"
    again = Recheck(build)
    again.check()
    box: Any = build.part("box")
    again.put(box, "weight", Typed(box.fields["weight"].type.read("1 kg", None), "1 kg", None))
    assert build.leading() == "metric"
    assert state(again.check()) == state(check_build(build))
    assert again.ran < again.total / 5


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
