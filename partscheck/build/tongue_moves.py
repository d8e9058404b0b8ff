"""What to move, and how far, for a tongue share in range in every load case at once."""

from __future__ import annotations

import math

from partscheck.build.tongue_limits import TongueLimits, tongue_ratings
from partscheck.build.tongue_solver import Wanted, axle_places, common, load_moves, most_weight
from partscheck.notation.interval import INF, Interval

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.load_cases import CaseWeights
    from partscheck.build.standing_loads import StandingLoad
    from partscheck.build.weights import Weights

STEPS = {"inch": (25.4, 6.35, 1.5875), "metric": (10.0, 5.0, 1.0)}  # mm, what a place is rounded to, coarse first
FIXED_WORDS = ("frame", "deck", "body", "chassis", "tongue", "axle", "trailer", "box", "floor")


class Placement:
    """Where something must stand.  ``places`` in mm behind the coupler serve every case, or None;
    ``by_case`` says which serve each one; ``now`` is where it stands; ``why`` says why no place does,
    and ``conflict`` names the two cases that cannot be had together (or one, alone impossible).
    """

    __slots__ = ("by_case", "conflict", "now", "places", "why")

    def __init__(self, now: Interval, by_case: list[tuple[str, Interval | None]], why: str = "") -> None:
        self.now = now
        self.by_case = by_case
        self.conflict: tuple[str, ...] = ()
        self.why = why
        found = [places for _, places in by_case if places is not None]
        solved = not why and len(found) == len(by_case)
        self.places: Interval | None = common(found) if solved else None
        if self.places is None and not why:
            self.conflict = _conflict(by_case)
            self.why = _why(by_case, self.conflict)

    @property
    def serves(self) -> bool:
        """True when what is there now serves every case."""
        return self.places is not None and self.places.lo <= self.now.lo and self.now.hi <= self.places.hi

    def nearest(self, leading: str) -> Interval | None:
        """The place nearest to where it stands, on the marks of a tape if there is room for one; mm.  None where
        it is not known where it stands.
        """
        if self.places is None or not self.now.known:
            return None
        lo, hi, now = self.places.lo, self.places.hi, self.now.mid
        if lo < now < hi:
            return Interval.exact(now, "mm")
        near = lo if now <= lo else hi
        marks = [_mark(near, step, up=near == lo) for step in STEPS[leading]]
        return Interval.exact(next((mark for mark in marks if lo <= mark <= hi), near), "mm")

    def __repr__(self) -> str:
        return f"<{self.now} to {self.places}{', ' + self.why if self.why else ''}>"


def _mark(near: float, step: float, up: bool) -> float:
    steps = near / step
    return (math.ceil(steps - 1e-9) if up else math.floor(steps + 1e-9)) * step


class LoadPlacement(Placement):
    """Where one load must stand; ``load`` is the load, ``by`` how far it moves (rearward positive, mm)."""

    __slots__ = ("load",)

    def __init__(
        self, load: StandingLoad, now: Interval, by_case: list[tuple[str, Interval | None]], why: str = ""
    ) -> None:
        self.load = load
        super().__init__(now, by_case, why)

    @property
    def by(self) -> Interval | None:
        if self.places is None:
            return None
        return Interval(self.places.lo - self.now.mid, self.places.hi - self.now.mid, "mm")


# ---- what is wanted ----------------------------------------------------------------------------


def wanted_in(weights: Weights, least: float | None = None, most: float | None = None) -> list[Wanted]:
    """What the tongue is to carry in each case.

    Left out, ``least`` is the practice limit, and ``most`` holds for the heaviest case alone: the others
    are held to the tongue ratings that are typed.  A ``most`` that is given holds for every case.
    """
    limits, rating = TongueLimits(weights.build), tongue_ratings(weights.build).lo
    heaviest = _heaviest(weights.cases())
    least = limits.good if least is None else least
    found = []
    for case in weights.cases():
        upper = limits.most if id(case) in heaviest else INF
        found.append(Wanted(least, upper if most is None else most, rating))
    return found


def _heaviest(cases: list[CaseWeights]) -> set[int]:
    """The cases that may be the heaviest; where the axle stands does not matter."""
    if not all(case.total.known for case in cases):
        return set()
    bar = max((case.total.lo for case in cases), default=0.0)
    return {id(case) for case in cases if case.total.hi >= bar}


# ---- the axle ----------------------------------------------------------------------------------


def axle_placement(weights: Weights, wanted: list[Wanted]) -> Placement:
    """Where the axle (or the middle of the group) may stand, what moves with it moving along."""
    cases, now = weights.cases(), weights.build.layout.coupler_to_axle
    unsolved = _unsolved(cases, with_span=any(_needs_span(case) for case in cases))
    if unsolved:
        return Placement(now, [], unsolved)
    by_case = [(case.name, axle_places(case, want)) for case, want in zip(cases, wanted, strict=True)]
    return Placement(now, by_case)


def _needs_span(case: CaseWeights) -> bool:
    return any(one.load.moves_with_axle and not one.load.at_axle for one in case.loads)


def _unsolved(cases: list[CaseWeights], with_span: bool) -> str:
    if not cases:
        return "the list has no loads with their places"
    if with_span and not cases[0].span.known:
        return "the way from coupler to axle is not known"
    for case in cases:
        for one in case.loads:
            if not one.weight.known or not (one.load.at_axle or one.from_coupler.known):
                return f"weight or place of '{one.what}' is not known"
    return ""


# ---- one load ----------------------------------------------------------------------------------


def load_placements(weights: Weights, wanted: list[Wanted]) -> list[LoadPlacement]:
    """For each load that does not move with the axle: where it alone would have to stand."""
    cases = weights.cases()
    unsolved = _unsolved(cases, with_span=True)
    order = {id(record): place for place, record in enumerate(weights.build.loads)}
    loads = list({id(one.load): one.load for case in cases for one in case.loads}.values())
    found = []
    for load in sorted(loads, key=lambda one: order.get(id(one.record), len(order))):
        if not load.moves_with_axle:
            by_case = [] if unsolved else _moves(cases, wanted, load)
            found.append(LoadPlacement(load, load.from_coupler, by_case, unsolved))
    return found


def _moves(
    cases: list[CaseWeights], wanted: list[Wanted], load: StandingLoad
) -> list[tuple[str, Interval | None]]:
    now = load.from_coupler.mid
    found: list[tuple[str, Interval | None]] = []
    for case, want in zip(cases, wanted, strict=True):
        moved = next((one for one in case.loads if one.load is load), None)
        if moved is None:
            served = axle_places(case, want)
            holds = served is not None and served.lo <= case.span.lo and case.span.hi <= served.hi
            found.append((case.name, Interval(-INF, INF, "mm") if holds else None))
            continue
        ways = load_moves(case, moved, want)
        found.append((case.name, None if ways is None else ways + now))
    return found


def is_rack(load: StandingLoad) -> bool:
    """By its part, or as far as words tell by its name."""
    return load.part.kind == "rack" if load.part is not None else "rack" in load.what.lower()


def movable(load: StandingLoad) -> bool:
    """True for cargo: it is not in every case, or its name is not that of the frame.  A rack hangs where its
    receiver is.
    """
    if load.moves_with_axle or load.part is not None or is_rack(load):
        return False
    return load.cases is not None or not any(word in load.what.lower() for word in FIXED_WORDS)


def within_trailer(weights: Weights, place: Interval) -> bool:
    """True when a load could stand there: behind the front of the trailer, ahead of its end."""
    front, end = _ends(weights)
    return front <= place.lo and place.hi <= end


def on_trailer(weights: Weights, places: Interval) -> Interval:
    """The part of a range of places that is on the trailer, mm."""
    front, end = _ends(weights)
    return places.clipped(front, end)


def _ends(weights: Weights) -> tuple[float, float]:
    layout: Any = weights.build.layout
    front = layout.coupler_to_front.lo if layout.has("coupler_to_front") else 0.0
    return front, layout.overall_length.hi if layout.has("overall_length") else INF


def lightest(weights: Weights, load: StandingLoad, share: float) -> float:
    """The most that one load may weigh, N, for every case to keep ``share`` on the tongue; below 0: none would
    do.  ``share`` as a plain number.
    """
    most = INF
    for case in weights.cases():
        one = next((one for one in case.loads if one.load is load), None)
        if one is None:
            most = most if case.share.lo >= share else -INF
        elif one.weight.hi > 0:
            most = min(most, most_weight(case, one, share))
    return most


# ---- why there is none -----------------------------------------------------------------------------


def _conflict(by_case: list[tuple[str, Interval | None]]) -> tuple[str, ...]:
    alone = [name for name, places in by_case if places is None]
    if alone:
        return (alone[0],)
    known = [(name, places) for name, places in by_case if places is not None]
    latest = max(known, key=lambda one: one[1].lo)
    earliest = min(known, key=lambda one: one[1].hi)
    return latest[0], earliest[0]


def _why(by_case: list[tuple[str, Interval | None]], conflict: tuple[str, ...]) -> str:
    if len(conflict) == 1:
        where = f"in case '{conflict[0]}'" if conflict[0] else "with these loads"
        return f"no place serves {where}"
    return f"what case '{conflict[0]}' needs lies behind all that case '{conflict[1]}' allows"
