"""Figures of a build that a change moves: what each is called, where it is taken, which way is worse."""

from __future__ import annotations

from partscheck.build.bearing_data import PLACES
from partscheck.build.places import AxlePlace
from partscheck.notation.interval import Interval
from partscheck.rules.check import AT_LEAST, AT_MOST
from partscheck.rules.findings import CAUTION, MEASURE, STOP, Missing

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import Any

    from partscheck.engine import Result
    from partscheck.rules.basis import Basis
    from partscheck.rules.findings import Finding

END, AXLE, WHOLE = "wheel end", "axle", "whole"
MORE, LESS, NEITHER = "more", "less", ""  # which way is worse
# How a figure is written: as its unit is, as a percentage, or as a percentage of what it was before.
AS_UNIT, PERCENT, SHARE = "unit", "percent", "share"
GRAVE = {STOP: 0, CAUTION: 1, MEASURE: 2}  # verdicts, gravest first
HARMLESS = len(GRAVE)


class FigureKind:
    """One figure: ``function`` takes a wheel end, an axle or the ``Result`` and gives an interval, or None
    where there is no such thing on the list.  ``rules`` are the slugs of the rules that judge it; ``place`` is
    the bearing that it speaks of, "" for all else.
    """

    __slots__ = ("basis", "function", "name", "place", "rules", "scope", "worse", "written")

    def __init__(
        self,
        name: str,
        scope: str,
        worse: str,
        basis: Basis,
        function: Callable[[Any], Any],
        written: str,
        rules: tuple[str, ...] = (),
        place: str = "",
    ) -> None:
        self.name = name
        self.scope = scope
        self.worse = worse
        self.basis = basis
        self.function = function
        self.written = written
        self.rules = rules
        self.place = place

    def standing(self, result: Result, at: tuple[str, ...]) -> Standing:
        """How its rules judge it ``at`` these places (() for all of them)."""
        found = [one for slug in self.rules for one in result.of(slug) if self._speaks(one, at)]
        return Standing([one for one in found if not one.accepted])

    def _speaks(self, finding: Finding, at: tuple[str, ...]) -> bool:
        here = not at or not finding.at or self.scope != END or bool(set(at) & set(finding.at))
        return here and (not self.place or self.place in _bearings_of(finding))

    @property
    def meaning(self) -> str:
        """What it is, in one line."""
        return (self.function.__doc__ or "").strip()

    def readings(self, result: Result) -> dict[str, Reading]:
        """The figure at each place ("1L", "1", or "" for the whole trailer) where there is one."""
        found: dict[str, Reading] = {}
        for places, binding in self._bindings(result):
            reading = self._read(binding, result)
            if reading is not None:
                found.update(dict.fromkeys(places, reading))
        return found

    def _bindings(self, result: Result) -> list[tuple[tuple[str, ...], Any]]:
        fit = result.fit
        if self.scope == END:
            return [(end.at, end) for end in fit.ends]
        if self.scope == AXLE:
            return [((str(axle.number),), axle) for axle in fit.bindings(AxlePlace)]
        return [(("",), result)]

    def _read(self, binding: Any, result: Result) -> Reading | None:
        ledger = result.build.ledger
        del ledger[:]
        value = self.function(binding)
        if value is None:
            return None
        reads = list(dict.fromkeys(ledger))
        return Reading(value, reads)


def _bearings_of(finding: Finding) -> tuple[str, ...]:
    """Inner, outer, or both where neither the finding nor its bearing's line tells which."""
    told = finding.check.values.get("place")
    if told is None:
        typed: Any = [part for part in finding.parts if part.kind == "bearing"]
        told = next((part.place for part in typed if part.has("place")), None)
    return (told,) if told in PLACES else PLACES


class Standing:
    """How the rules of a figure judge it: ``verdict`` the gravest of theirs ("" where all hold), ``grave`` its
    rank, ``used`` the share of what is allowed that is used up, 1 at the limit, None where no rule has a limit.
    """

    __slots__ = ("grave", "used", "verdict")

    def __init__(self, findings: list[Finding]) -> None:
        self.grave = min((GRAVE.get(one.verdict, HARMLESS) for one in findings), default=HARMLESS)
        self.verdict = next((verdict for verdict, rank in GRAVE.items() if rank == self.grave), "")
        shares = [share for share in map(_used, findings) if share is not None]
        self.used = max(shares, default=None)


def _used(finding: Finding) -> float | None:
    """Of a load or stress its share of the limit; of a rating, a gap or a life the limit's share of it."""
    have, need = finding.check.have, finding.check.need
    if not (isinstance(have, Interval) and isinstance(need, Interval) and have.known and need.known):
        return None
    more, less = {AT_MOST: (have.hi, need.lo), AT_LEAST: (need.hi, have.lo)}.get(finding.check.relation, (0, 0))
    return more / less if more > 0 and less > 0 else None


class Reading:
    """A figure's value at one place; ``reads`` are the (record, field name) it was made of; ``missing``
    the fields ("tire.diameter") that it lacks, where it is not known.
    """

    __slots__ = ("missing", "reads", "value")

    def __init__(self, value: Interval, reads: list[tuple[Any, str]]) -> None:
        self.value = value
        self.reads = [(record, name.removeprefix("?")) for record, name in reads]
        asked = [] if value.known else [Missing(*read) for read in reads if _unread(*read)]
        self.missing = tuple(dict.fromkeys(one.name for one in asked))


def _unread(record: Any, name: str) -> bool:
    """A field that was asked for, not only looked at, and that nothing is known of."""
    field = record.fields.get(name)
    if field is None:
        return False
    typed = record.values.get(name)
    return typed is None or typed.value is field.type.unknown


FIGURES: list[FigureKind] = []


def figure(
    name: str,
    *,
    of: str,
    basis: Basis,
    worse: str = NEITHER,
    written: str = AS_UNIT,
    rules: tuple[str, ...] = (),
    place: str = "",
) -> Callable[[Callable[[Any], Any]], Callable[[Any], Any]]:
    """Declare the decorated function as a figure; reports list figures in the order of their declaration."""

    def register(function: Callable[[Any], Any]) -> Callable[[Any], Any]:
        FIGURES.append(FigureKind(name, of, worse, basis, function, written, rules, place))
        return function

    return register
