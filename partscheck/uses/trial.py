"""Tries catalogue parts in a build, one after the other: what each brings, leaves, lacks, and has left over."""

from __future__ import annotations

from partscheck.build.apply import apply_change
from partscheck.build.change import Change
from partscheck.build.copying import copied
from partscheck.build.fit import Fit
from partscheck.build.ride_height import heights_follow
from partscheck.notation.faults import Faults
from partscheck.notation.interval import INF, Interval
from partscheck.recheck import Recheck
from partscheck.rules.check import AT_LEAST, AT_MOST, EQUAL
from partscheck.rules.findings import CAUTION, MEASURE, NOTE, STOP

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import Any

    from partscheck.build.apply import Applied
    from partscheck.build.model import Build
    from partscheck.engine import Result
    from partscheck.parts.record import Part
    from partscheck.rules.findings import Finding

# Units of what a part carries; a clearance in mm says nothing about strength.
STRENGTHS = ("N", "kg", "kPa", "MPa", "N m", "A", "Ah")
LOOKS_FOR_USE = ("line-unused",)  # rules that ask whether anything uses a line: they say nothing of its fit
FITS, FITS_SO_FAR, UNTOLD, LEAVES_STOP, UNCHECKED = range(5)  # ranks, best first


class Margin:
    """What is left over at the check that comes nearest to its limit: ``share`` 0.18 is 18 % more than needed."""

    __slots__ = ("finding", "share")

    def __init__(self, share: float, finding: Finding) -> None:
        self.share = share
        self.finding = finding


class Trial:
    """How a part did in the build.

    ``brings`` new stops (or rules that failed themselves), for which it is rejected; ``leaves`` stops that name
    its line and were there before; ``clears`` stops that go; ``checks`` how many checks looked at it; ``untold``
    those of them that cannot be told and may be stops; ``lacks`` its own fields that are not known and that a
    check needs, ``needs`` those of other lines ("plate.nut_seat"), ``coarse`` known ones that are too coarse;
    ``margin``; ``unplaced`` why it cannot be told where it sits, or "".
    """

    __slots__ = (
        "brings", "checks", "clears", "coarse", "lacks", "leaves", "margin", "needs", "unplaced", "untold",
    )  # fmt: skip

    def __init__(self) -> None:
        self.brings: list[Finding] = []
        self.leaves: list[Finding] = []
        self.clears: list[Finding] = []
        self.checks = 0
        self.untold: list[Finding] = []
        self.lacks: list[str] = []
        self.needs: list[str] = []
        self.coarse: list[str] = []
        self.margin: Margin | None = None
        self.unplaced = ""

    @property
    def rejected(self) -> bool:
        return bool(self.brings or self.unplaced)

    @property
    def rank(self) -> int:
        """It fits and carries; it does so far, fields of other lines are lacking to tell; its own fields are
        lacking or too coarse; stops on its line stay; no check looked at it, which is no leave to call it good.
        """
        if self.leaves:
            return LEAVES_STOP
        if self.lacks or any("." not in name for name in self.coarse):
            return UNTOLD
        if self.untold:
            return FITS_SO_FAR
        return FITS if self.checks else UNCHECKED

    @property
    def nearness(self) -> tuple[bool, bool, int, float]:
        """For sorting: what misses an amount before what is of another size or form, which a little more does not
        mend; then few reasons first, then the least that any of them is missed by.
        """
        shares = [short_by(one)[1] for one in self.brings]
        other = INF in shares or any(one.check.relation == EQUAL for one in self.brings)
        return bool(self.unplaced), other, len(self.brings), max(shares, default=0.0)


def short_by(finding: Finding) -> tuple[Interval | None, float]:
    """By how much a failed comparison misses, and that as a share of what is needed (no number: endless)."""
    check = finding.check
    margin = check.margin
    if margin is None or margin.hi >= 0 or not margin.known:
        return None, INF
    known = [one for one in (check.need, check.have) if isinstance(one, Interval) and one.known]
    ends = [abs(one.mid) for one in known if one.mid]
    by = Interval(-margin.hi, -margin.lo, margin.unit)
    if check.relation == EQUAL and len(known) == 2:  # all that they differ by, the tolerance not taken off
        by = abs(known[0] - known[1])
    return by, by.lo / max(ends) if ends else INF


class Trials:
    """Tries parts of one kind on a copy of ``build``: on the line with this id, else on a new one."""

    def __init__(self, build: Build, kind: str, line: str) -> None:
        self.build = copied(build)
        self.kind = kind
        self.recheck = Recheck(self.build, decide=False)
        self.before = self.recheck.check()
        self.line = line or self._free_id()
        self._added = not line
        self._known = {_key(one) for one in _stops(self.before)}
        self._fit = Fit(self.build) if kind == "tire" else None

    def _free_id(self) -> str:
        taken = {part.id for part in self.build.parts}
        names = (self.kind, *(f"{self.kind}-{number}" for number in range(2, len(taken) + 3)))
        return next(name for name in names if name not in taken)

    def of(self, id: str) -> Trial:
        """The trial of the catalogue part with this id; the build is as before afterwards."""
        there = self.build.part(self.line)
        names = set(there.values) if there is not None else set()
        applied = apply_change(self.build, self._change(id))
        line = self.build.part(self.line)
        assert line is not None
        if self._fit is not None:
            heights_follow(self._fit, Fit(self.build), applied)
        self._touch(applied, line, names)
        try:
            return self._judged(self.recheck.check(), line)
        except Faults as faults:
            trial = Trial()
            trial.unplaced = "; ".join(f"{fault.expected} ({fault.hint})" for fault in faults.faults[:2])
            return trial
        finally:
            after = set(line.values)
            applied.undo()
            self._touch(applied, line, after | names)

    def _change(self, id: str) -> Change:
        change = Change(f"try {id}", "the trial")
        if self._added:
            return change.add({"id": self.line, "part": id})
        return change.replace(f"{self.line}.part", id)

    def _touch(self, applied: Applied, line: Part, names: set[str]) -> None:
        for name in names | set(line.values):
            self.recheck.touched(line, name)
        for record, name in applied.touched():
            self.recheck.touched(record, name)

    # ---- judging -------------------------------------------------------------------------

    def _judged(self, result: Result, line: Part) -> Trial:
        trial = Trial()
        crashed = {_key(one) for one in self.before.crashed}
        trial.brings = [one for one in result.crashed if _key(one) not in crashed]
        for finding in result.findings:
            if finding.verdict != STOP:
                continue
            if _key(finding) not in self._known:
                trial.brings.append(finding)
            elif line in finding.parts:
                trial.leaves.append(finding)
        untold = {_key(one) for one in result.findings if one.verdict == MEASURE}
        left = {_key(one) for one in _stops(result)} | untold  # what cannot be told is not cleared
        trial.clears = [one for one in self.before.findings if one.verdict == STOP and _key(one) not in left]
        trial.checks = sum(line in one.parts and one.rule.slug not in LOOKS_FOR_USE for one in _looked(result))
        _untold(trial, result, line)
        trial.margin = _margin(result, line)
        return trial


def _stops(result: Result) -> list[Finding]:
    return [one for one in (*result.findings, *result.folded) if one.verdict == STOP]


def _key(finding: Finding) -> Any:
    return finding.rule.slug, tuple(sorted(part.id for part in finding.parts))


def _looked(result: Result) -> Iterator[Finding]:
    """Every outcome of every check."""
    yield from (*result.held, *result.notes, *result.findings, *result.folded)


def _untold(trial: Trial, result: Result, line: Part) -> None:
    """What of this line cannot be told, and for want of which fields."""
    asked = [one for one in result.findings if one.verdict == MEASURE and line in one.parts]
    trial.untold = [one for one in asked if one.check.severity not in (CAUTION, NOTE)]
    lacks: dict[str, None] = {}
    needs: dict[str, None] = {}
    coarse: dict[str, None] = {}
    for finding in asked:
        wide: dict[str, None] = {}
        unknown = 0
        for record, name in finding.reads:
            field = record.fields.get(name)
            if field is None:
                continue
            value = getattr(record, name)
            if value is field.type.unknown:
                unknown += 1
                if record is line:
                    lacks[field.key] = None
                elif finding in trial.untold:
                    needs[f"{record.id}.{field.key}"] = None
            elif isinstance(value, Interval) and value.lo < value.hi:
                wide[field.key if record is line else f"{record.id}.{field.key}"] = None
        if not unknown:
            coarse.update(wide)
    trial.lacks, trial.needs, trial.coarse = list(lacks), list(needs), list(coarse)


def _margin(result: Result, line: Part) -> Margin | None:
    """The least that is left over at any check of what the part carries; None where none could be made."""
    found: list[Margin] = []
    for finding in (*result.held, *result.notes, *result.findings):
        if line not in finding.parts:
            continue
        if finding.verdict == MEASURE:
            if finding.check.margin is not None and finding.check.margin.unit in STRENGTHS:
                return None  # the least of them may be this one
            continue
        share = _left_over(finding)
        if share is not None:
            found.append(Margin(share, finding))
    return min(found, key=lambda one: (one.share, one.finding.rule.slug), default=None)


def _left_over(finding: Finding) -> float | None:
    check = finding.check
    load = check.need if check.relation == AT_LEAST else check.have if check.relation == AT_MOST else None
    margin = check.margin
    if margin is None or not isinstance(load, Interval) or margin.unit not in STRENGTHS:
        return None
    if margin.lo == -INF or not load.known or load.hi <= 0:
        return None
    return margin.lo / load.hi
