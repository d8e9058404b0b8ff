"""The load cases of a list, and what each puts on the axles, on the tongue and to one side.

Two supports: the coupler, and the axle or the middle of the group.  Weights and places that are not
known are ranges; every result takes in all that they allow, and no more.
"""

from __future__ import annotations

from itertools import product

from partscheck.build.standing_loads import NOTHING, StandingLoad, standing_loads
from partscheck.notation.interval import INF, Interval, same_within

TYPE_CHECKING = False
if TYPE_CHECKING:
    from partscheck.build.model import Build

MOST_STATES = 4  # tanks and racks that are combined in every way: 16 cases


class CaseLoad:
    """One load in one case: ``weight`` in N, the rest as it stands (see ``StandingLoad``)."""

    __slots__ = ("load", "weight")

    def __init__(self, load: StandingLoad, weight: Interval) -> None:
        self.load = load
        self.weight = weight

    @property
    def what(self) -> str:
        return self.load.what

    @property
    def from_coupler(self) -> Interval:
        return self.load.from_coupler

    def arm(self, span: float) -> Interval:
        """Its place as a share of the way from coupler to axle: 0 at the coupler, 1 at the axle."""
        if self.load.at_axle:
            return Interval(1.0, 1.0)
        return self.load.from_coupler.bare() * (1 / span)

    def on_tongue(self, span: Interval) -> Interval:
        """What it adds to the tongue, N; negative behind the axle: w (L - x) / L."""
        if self.load.at_axle:
            return Interval(0.0, 0.0, "N")
        if not span.known or span.lo <= 0:
            return (self.weight.bare() * (1 - (self.from_coupler / span))).with_unit("N")
        near, far = (self.weight.bare() * (1 - self.arm(end)) for end in (span.lo, span.hi))
        return near.hull(far).with_unit("N")

    def behind(self, span: Interval) -> bool:
        """True when all that is known says that it stands wholly behind the axle."""
        return not self.load.moves_with_axle and self.from_coupler.lo > span.hi

    def __repr__(self) -> str:
        return f"<{self.what}: {self.weight} at {self.from_coupler}>"


class CaseWeights:
    """One load case of ``loads`` about ``span`` (coupler to axle, mm).  ``full``: of a full trailer, whose axles
    in front and behind carry all of it.

    ``total``, ``axles`` (the whole group) and ``tongue`` in N, ``sideways`` in mm (the loads' common
    centre, right positive), ``share`` of the tongue as a plain number.
    """

    __slots__ = ("_share", "axles", "full", "loads", "name", "sideways", "span", "tongue", "total")

    def __init__(self, name: str, loads: list[CaseLoad], span: Interval, full: bool = False) -> None:
        self.name = name
        self.full = full
        self.loads = loads
        self.span = span
        self.total = sum((one.weight for one in loads), Interval(0.0, 0.0, "N"))
        self.axles, self.tongue = (self.total, NOTHING) if full else supports(loads, span, self.total)
        sides = [(one.weight, one.load.from_centre) for one in loads]
        self.sideways = weighted_mean(sides, Interval(0.0, 0.0)).with_unit("mm")
        self._share: Interval | None = None

    @property
    def known(self) -> bool:
        """True when every load of the case has a weight and a place."""
        return self.total.known and self.axles.known

    @property
    def share(self) -> Interval:
        """Tongue over total; narrower than the quotient of both, since one weight stands in both."""
        if self._share is None:
            self._share = Interval(0.0, 0.0) if self.full else 1 - self._mean_arm()
        return self._share

    def _mean_arm(self) -> Interval:
        """The common centre of the loads over the way from coupler to axle."""
        if not self.span.known or self.span.lo <= 0:
            return (self.centre() / self.span).bare()
        ends = [
            weighted_mean([(one.weight, one.arm(end)) for one in self.loads], Interval(-INF, INF))
            for end in (self.span.lo, self.span.hi)
        ]
        return ends[0].hull(ends[1])

    def centre(self) -> Interval:
        """The loads' common centre behind the coupler, mm."""
        places = [(one.weight, one.from_coupler) for one in self.loads]
        return weighted_mean(places, Interval(-INF, INF)).with_unit("mm")

    def on_tongue(self, one: CaseLoad) -> Interval:
        """What one of its loads adds to the tongue, N."""
        return NOTHING if self.full else one.on_tongue(self.span)

    def ahead(self) -> Interval:
        """Share of the weight that stands ahead of the axle, of all that does not stand at it or move
        with it.
        """
        sides = [(one.weight, _side_of(one, self.span)) for one in self.loads if not _at_axle(one, self.span)]
        return weighted_mean(sides, Interval(0.0, 1.0))

    @property
    def in_words(self) -> str:
        """ " in case 'racked'", or nothing where the list has one case without a name."""
        return in_case(self.name)

    def __repr__(self) -> str:
        return f"<case {self.name or 'of all loads'}: {self.total}, tongue {self.tongue}>"


def in_case(name: str) -> str:
    """ " in case 'racked'", or nothing where no case is named."""
    return f" in case '{name}'" if name else ""


# ---- which cases -----------------------------------------------------------------------------


def case_weights(build: Build) -> list[CaseWeights]:
    """The load cases: those named on the list; else tanks full and empty, racks loaded and empty, in every
    combination; else one of all loads.
    """
    if not build.loads:
        return []
    loads, span, full = standing_loads(build), build.layout.coupler_to_axle, is_full_trailer(build)
    names = build.load_cases or _named(loads)
    if names:
        return [
            CaseWeights(name, [_full(one) for one in loads if one.counts_in(name)], span, full) for name in names
        ]
    return [CaseWeights(name, found, span, full) for name, found in _generated(loads)]


def is_full_trailer(build: Build) -> bool:
    """Axles in front and behind: nothing that stands on it comes onto the ball."""
    service = build.service
    return bool(service.has("trailer_type") and service.trailer_type == "full")


def _full(load: StandingLoad) -> CaseLoad:
    return CaseLoad(load, load.full)


def _named(loads: list[StandingLoad]) -> list[str]:
    """Case names in the order in which loads name them."""
    return list(dict.fromkeys(name for load in loads for name in load.cases or ()))


def _generated(loads: list[StandingLoad]) -> list[tuple[str, list[CaseLoad]]]:
    """(name, loads) of every combination of states; one without a name where nothing has states."""
    switched = [load for load in loads if load.part is not None]
    found = []
    for states in _combinations(len(switched)):
        full = dict(zip(map(id, switched), states, strict=True))
        name = ", ".join(load.state(state) for load, state in zip(switched, states, strict=True))
        found.append((name, [CaseLoad(load, _in_state(load, full.get(id(load), True))) for load in loads]))
    return found


def _in_state(load: StandingLoad, full: bool) -> Interval:
    return load.full if full else load.empty


def _combinations(count: int) -> list[tuple[bool, ...]]:
    """Every combination; of many, those with all, none, one, or all but one of them full."""
    if count <= MOST_STATES:
        return list(product((False, True), repeat=count))
    single = [tuple(place == one for place in range(count)) for one in range(count)]
    but_one = [tuple(not state for state in states) for states in single]
    return [(False,) * count, *single, *but_one, (True,) * count]


# ---- statics with ranges -----------------------------------------------------------------------


def supports(loads: list[CaseLoad], span: Interval, total: Interval) -> tuple[Interval, Interval]:
    """(axles, tongue) by moments about the coupler: axles = sum(w x) / L, tongue = sum(w (1 - x / L)).

    Each end is a sum of terms that are linear, or the worse of two linear ones, in 1 / L: the ends of
    L give the ends of the result.
    """
    if not span.known or span.lo <= 0:
        moment = Interval(0.0, 0.0)
        for one in loads:
            moment = moment + one.weight.bare() * one.from_coupler.bare()
        axles = (moment / span.bare()).with_unit("N")
        return axles, total - axles
    axles, tongue = _at_span(loads, span.lo)
    if not span.is_exact:
        others = _at_span(loads, span.hi)
        axles, tongue = axles.hull(others[0]), tongue.hull(others[1])
    return axles, tongue


def _at_span(loads: list[CaseLoad], span: float) -> tuple[Interval, Interval]:
    axles, tongue = Interval(0.0, 0.0), Interval(0.0, 0.0)
    for one in loads:
        weight, arm = one.weight.bare(), one.arm(span)
        axles = axles + weight * arm
        tongue = tongue + weight * (1 - arm)
    return axles.with_unit("N"), tongue.with_unit("N")


def weighted_mean(pairs: list[tuple[Interval, Interval]], nothing: Interval) -> Interval:
    """Range of sum(w v) / sum(w) over all weights w >= 0 and values v in these ranges, without unit.

    ``nothing`` where there is no weight at all.  The greatest mean has the greatest weights on the
    greatest values and the least weights on the others: every such cut is tried.
    """
    highest = _highest_mean([(weight.lo, weight.hi, value.hi) for weight, value in pairs])
    lowest = _highest_mean([(weight.lo, weight.hi, -value.lo) for weight, value in pairs])
    if highest is None or lowest is None:
        return nothing
    return Interval(min(-lowest, highest), highest)


def _highest_mean(rows: list[tuple[float, float, float]]) -> float | None:
    rows = sorted(rows, key=lambda row: -row[2])
    best: float | None = None
    for cut in range(len(rows) + 1):
        if cut and rows[cut - 1][1] == INF:  # a weight without bound draws the mean to its own place
            return rows[cut - 1][2] if best is None else max(best, rows[cut - 1][2])
        weights = [high if place < cut else low for place, (low, high, _) in enumerate(rows)]
        total = sum(weights)
        if total > 0:
            moment = sum(weight * row[2] for weight, row in zip(weights, rows, strict=True) if weight)
            best = moment / total if best is None else max(best, moment / total)
    return best


def _at_axle(one: CaseLoad, span: Interval) -> bool:
    place, close = one.from_coupler, same_within("mm")
    exact = place.is_exact and span.is_exact
    return one.load.moves_with_axle or (exact and abs(place.lo - span.lo) <= close)


def _side_of(one: CaseLoad, span: Interval) -> Interval:
    """1 ahead of the axle, 0 behind it."""
    place = one.from_coupler
    return Interval(float(place.hi <= span.lo), float(place.lo < span.hi))
