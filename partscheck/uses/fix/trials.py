"""Tries options on a copy of the build: applied in place, what changed is checked again, taken back.

What cannot be told any more counts as not cleared: a stop does not go away because a number went missing.
"""

from __future__ import annotations

from partscheck.build.apply import apply_change
from partscheck.build.change import node_of
from partscheck.build.copying import copied
from partscheck.build.fit import Fit
from partscheck.build.record_reader import RecordReader, fields_by_key
from partscheck.build.ride_height import heights_follow
from partscheck.notation.faults import Faults
from partscheck.notation.interval import Interval
from partscheck.parts.record import Record
from partscheck.recheck import Recheck
from partscheck.rules.check import AT_MOST
from partscheck.rules.findings import CAUTION, STOP
from partscheck.uses.fix.costs import Bill
from partscheck.uses.fix.edits import MARK, Add, Remove, change_of, inner_puts
from partscheck.uses.fix.rooms import rooms

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable
    from typing import Any

    from partscheck.build.apply import Applied
    from partscheck.build.model import Build
    from partscheck.engine import Result
    from partscheck.parts.record import Part
    from partscheck.rules.findings import Finding
    from partscheck.uses.fix.candidates import Shelf
    from partscheck.uses.fix.edits import Option, Put

Key = tuple[str, tuple[str, ...], tuple[str, str]]
SAME = 1e-9


class Limit:
    """What a finding compares, and by how much it fails."""

    __slots__ = ("by", "have", "relation")

    def __init__(self, finding: Finding) -> None:
        self.by = finding.check.margin
        self.have = finding.check.have
        self.relation = finding.check.relation

    def worse_than(self, other: Limit) -> bool:
        """Whether it fails by more, and not because more is asked for: what is there is worse."""
        if self.by is None or other.by is None or self.relation != other.relation:
            return False
        if self.by.lo >= other.by.lo - SAME:
            return False
        if not (isinstance(self.have, Interval) and isinstance(other.have, Interval)):
            return False
        if self.relation == AT_MOST:
            return self.have.hi > other.have.hi + SAME
        return self.have.lo < other.have.lo - SAME


class Told:
    """A stop as it was told: what the search needs of it after the build has changed back.

    ``reads`` are ids of the records that its rule read; ``remedies`` (remedy, sentence), when asked for.
    """

    __slots__ = ("at", "finding", "key", "limit", "parts", "reads", "remedies", "slug")

    def __init__(self, finding: Finding) -> None:
        self.finding = finding
        self.key = key_of(finding)
        self.slug = finding.rule.slug
        self.limit = Limit(finding)
        self.parts = tuple(part.id for part in finding.parts)
        self.at = finding.at
        self.reads = frozenset(record.id for record, _ in finding.reads) | {*self.parts}
        self.remedies: list[tuple[Any, str]] = []

    def with_remedies(self, leading: str) -> Told:
        """While the build is as it was when the finding was made."""
        self.remedies = self.finding.remedies(leading)
        return self

    def __repr__(self) -> str:
        return f"<{self.slug}: {', '.join(self.parts)}>"


class Outcome:
    """What the rules say of a trial: ``stops`` by key, keys of ``cautions`` and of what is ``unsure`` (cannot
    be told), ``limits`` of the cautions; ``bill`` and ``rooms`` where they were asked for; ``fault`` says why
    the change cannot be made.
    """

    __slots__ = ("bill", "cautions", "fault", "limits", "rooms", "stops", "unsure")

    def __init__(self, result: Result | None, fault: str = "") -> None:
        self.fault = fault
        self.bill: Any = None
        self.rooms: dict[Key, Any] = {}
        self.stops: dict[Key, Told] = {}
        self.cautions: set[Key] = set()
        self.limits: dict[Key, Limit] = {}
        self.unsure: set[Key] = set()
        if result is None:
            return
        for finding in (*result.findings, *result.folded, *result.crashed):
            if finding.accepted:
                continue
            if finding.verdict == STOP:
                told = Told(finding)
                self.stops.setdefault(told.key, told)
            else:
                into = self.cautions if finding.verdict == CAUTION else self.unsure
                into.add(key_of(finding))
                if finding.verdict == CAUTION:
                    self.limits[key_of(finding)] = Limit(finding)

    @property
    def possible(self) -> bool:
        return not self.fault

    def clears(self, stop: Told, unsure_before: set[Key]) -> bool:
        """Whether a stop is gone: neither there, nor told more mildly of what is worse, nor not to be told any
        more (unless it was so before).
        """
        if not self.possible or stop.key in self.stops:
            return False
        mild = self.limits.get(stop.key)
        if mild is not None and stop.limit is not None and mild.worse_than(stop.limit):
            return False
        return not any(
            key[0] == stop.slug and key not in unsure_before and {*key[1]} & {*stop.parts} for key in self.unsure
        )


def key_of(finding: Finding) -> Key:
    """What makes two findings, before and after a change, the same one."""
    blame = finding.check.blame
    blamed = ("", "") if blame is None else (blame[0].id, blame[1])
    return finding.rule.slug, tuple(sorted(part.id for part in finding.parts)), blamed


class Trials:
    """A build of its own on which options are tried.  ``tried`` counts the checks made; ``roomy``: the room
    that each part has left is told of every trial.
    """

    def __init__(self, build: Build, roomy: bool = False) -> None:
        self.roomy = roomy
        self.build = copied(build)
        self.tried = 0
        self._again = Recheck(self.build, decide=False)
        self._known: dict[Any, Outcome] = {}
        self._lines: list[Part] = []  # those added by earlier trials
        self._before = Fit(copied(build))

    def outcome(self, options: Iterable[Option], bill: bool = False) -> Outcome:
        """What the rules say with these options applied; the build is as before afterwards."""
        chosen = tuple(options)
        key = frozenset(option.key for option in chosen)
        found = self._known.get(key)
        if found is None or (bill and found.bill is None and found.possible):
            found = self._known[key] = self._try(chosen, bill)
        return found

    def with_result(self, options: Iterable[Option], look: Any) -> Any:
        """``look(result)`` while these options are applied.  Raises ``Faults``."""
        applied = apply_options(self.build, tuple(options), self._before)
        applied.added_again(self._lines)
        try:
            for record, name in applied.touched():
                self._again.touched(record, name)
            return look(self._again.check())
        finally:
            self._take_back(applied)

    def _try(self, chosen: tuple[Option, ...], bill: bool) -> Outcome:
        self.tried += 1

        def look(result: Result) -> Outcome:
            found = Outcome(result)
            if bill:
                found.bill = Bill(result)
            if self.roomy:
                found.rooms = rooms(result)
            return found

        try:
            return self.with_result(chosen, look)  # type: ignore[no-any-return]
        except Faults as faults:
            first = faults.faults[0]
            return Outcome(None, f"{first.read}: {first.expected}")

    def _take_back(self, applied: Applied) -> None:
        touched = applied.touched()
        applied.undo()
        for record, name in touched:
            self._again.touched(record, name)


def apply_options(build: Build, options: tuple[Option, ...], before: Fit | None = None) -> Applied:
    """Apply options to ``build``; heights follow the tires where ``before`` is the fit that it had.

    Raises ``Faults``; nothing is changed then.
    """
    applied = apply_change(build, change_of(options))
    try:
        for put in inner_puts(options):
            _put_inside(build, applied, put)
        if before is not None and any(part.kind == "tire" for part in _changed_parts(build, applied)):
            heights_follow(before, Fit(build), applied)
    except Faults:
        applied.undo()
        raise
    return applied


def _changed_parts(build: Build, applied: Applied) -> list[Any]:
    ids = applied.lines() | {one.record.id for one in applied.fields}
    return [part for part in build.parts if part.id in ids]


def _put_inside(build: Build, applied: Applied, put: Put) -> None:
    record = inner_record(build, put.target, put.inner)
    reader = RecordReader(build.tables, spellings=build.spellings)
    field = None if record is None else fields_by_key(type(record)).get(put.key)
    typed = None if record is None or field is None else reader.read(record, field, node_of(put.text, MARK))
    if record is None or field is None or typed is None:
        reader.fault(MARK, put.key, f"a field of {put.target} / {' '.join(put.inner)}")
        raise Faults(reader.faults)
    applied.fields.append(applied.put(record, field.name, typed))


def inner_record(build: Build, target: str, inner: tuple[str, ...]) -> Record | None:
    """The record inside a joint: ("tapped",), ("load",), or ("stack", number from 0)."""
    joint = next((one for one in build.joints if one.id == target), None)
    typed = None if joint is None else joint.values.get(inner[0])
    value = None if typed is None else typed.value
    if isinstance(value, list):
        number = int(inner[1])
        return value[number] if number < len(value) else None
    return value if isinstance(value, Record) else None


def touched_ids(option: Option) -> set[str]:
    """Ids of the records that an option changes, and of the lines that it adds."""
    return {edit.fields.get("id", "") if isinstance(edit, Add) else edit.target for edit in option.edits}


def kinds_added(option: Option, shelf: Shelf) -> list[str]:
    """Kinds of the lines that an option adds or takes away."""
    found = []
    for edit in option.edits:
        if isinstance(edit, Add):
            found.append(edit.fields.get("kind") or shelf.kind_of(edit.fields.get("part", "")))
        elif isinstance(edit, Remove):
            found.append("")
    return found
