"""The balance the other way round: where the axle, or a load, must stand for a tongue share in range.

Everything is solved from the two supports.  With L the way from coupler to axle, "at least a share s on
the tongue" is sum(w ((1 - s) L - x)) + sum(m (-s L - o)) >= 0, running gear m moving along at o behind
the axle; "at most" is the same with its signs turned.  A weight or place that is a range takes its worse
end in each term, so the sum is concave and linear between corners: where it is not below zero is one
range, found exactly.
"""

from __future__ import annotations

from partscheck.notation.interval import INF, Interval

TYPE_CHECKING = False
if TYPE_CHECKING:
    from partscheck.build.load_cases import CaseLoad, CaseWeights

ZERO = 1e-9  # of the greatest term: what floats may be off


class Term:
    """weight x (slope v + level), the weight at its worse end."""

    __slots__ = ("level", "slope", "weight")

    def __init__(self, weight: Interval, slope: float, level: float) -> None:
        self.weight = weight
        self.slope = slope
        self.level = level

    def at(self, value: float) -> float:
        factor = self.slope * value + self.level
        end = self.weight.hi if factor < 0 else self.weight.lo
        return end * factor if factor else 0.0


class Wanted:
    """What the tongue is to carry in one case: shares ``least`` and ``most`` of the weight, and at most
    ``rating`` N.
    """

    __slots__ = ("least", "most", "rating")

    def __init__(self, least: float, most: float = INF, rating: float = INF) -> None:
        self.least = least
        self.most = most
        self.rating = rating


def axle_places(case: CaseWeights, wanted: Wanted) -> Interval | None:
    """Every place of the axle (mm behind the coupler) at which the case is as wanted, for all that its
    weights and places may be; None when there is no such place.
    """
    ahead = _not_below_zero(_axle_terms(case, wanted.least, at_least=True))
    places = _meet(ahead, Interval(0.0, INF))
    if wanted.most != INF:
        places = _meet(places, _not_below_zero(_axle_terms(case, wanted.most, at_least=False)))
    if wanted.rating != INF:
        terms = _axle_terms(case, 0.0, at_least=False)
        places = _meet(places, _not_below_zero([*terms, Term(Interval(1.0, 1.0), wanted.rating, 0.0)]))
    return None if places is None or places.hi <= 0 else places.with_unit("mm")


def _axle_terms(case: CaseWeights, share: float, at_least: bool) -> list[Term]:
    sign = 1.0 if at_least else -1.0
    found = []
    for one in case.loads:
        weight = one.weight.bare()
        if one.load.moves_with_axle:
            offset = Interval(0.0, 0.0) if one.load.at_axle else (one.from_coupler - case.span).bare()
            place = offset.hi if at_least else offset.lo
            found.append(Term(weight, -sign * share, -sign * place))
        else:
            place = one.from_coupler.hi if at_least else one.from_coupler.lo
            found.append(Term(weight, sign * (1 - share), -sign * place))
    return found


def load_moves(case: CaseWeights, moved: CaseLoad, wanted: Wanted) -> Interval | None:
    """Every way (mm, rearward positive) by which one load may move for the case to be as wanted."""
    ways: Interval | None = Interval(-INF, INF)
    for span in {case.span.lo, case.span.hi}:
        ways = _meet(ways, _not_below_zero(_move_terms(case, moved, wanted.least, span, at_least=True)))
        if wanted.most != INF:
            ways = _meet(ways, _not_below_zero(_move_terms(case, moved, wanted.most, span, at_least=False)))
        if wanted.rating != INF:
            terms = _move_terms(case, moved, 0.0, span, at_least=False)
            room = Term(Interval(1.0, 1.0), 0.0, wanted.rating * span)
            ways = _meet(ways, _not_below_zero([*terms, room]))
    return None if ways is None else ways.with_unit("mm")


def _move_terms(
    case: CaseWeights, moved: CaseLoad, share: float, span: float, at_least: bool
) -> list[Term]:
    sign = 1.0 if at_least else -1.0
    found = []
    for one in case.loads:
        place = Interval(span, span) if one.load.at_axle else one.from_coupler
        level = sign * ((1 - share) * span - (place.hi if at_least else place.lo))
        found.append(Term(one.weight.bare(), -sign if one.load is moved.load else 0.0, level))
    return found


def most_weight(case: CaseWeights, lightened: CaseLoad, share: float) -> float:
    """The most that one load may weigh, N, for the tongue to keep at least ``share``; below 0: none."""
    most = INF
    for span in {case.span.lo, case.span.hi}:
        rest = own = 0.0
        for term, one in zip(_move_terms(case, lightened, share, span, at_least=True), case.loads, strict=True):
            if one.load is lightened.load:
                own = term.level
            else:
                rest += term.at(0.0)
        if own < 0:
            most = min(most, rest / -own)
    return most


# ---- where a concave sum is not below zero ---------------------------------------------------------


def _not_below_zero(terms: list[Term]) -> Interval | None:
    """Range of v where sum(terms) >= 0; None when it is nowhere."""
    if any(not term.weight.known or abs(term.level) == INF for term in terms):
        return None
    corners = sorted({-term.level / term.slope for term in terms if term.slope} or {0.0})
    reach = 1.0 + abs(corners[0]) + abs(corners[-1])
    knots = [corners[0] - reach, *corners, corners[-1] + reach]
    heights = [_sum(terms, knot) for knot in knots]
    scale = max(abs(term.at(knot)) for term in terms for knot in knots) if terms else 0.0
    heights = [0.0 if abs(height) <= ZERO * scale else height for height in heights]
    above = [place for place, height in enumerate(heights) if height >= 0]
    if not above:
        # Beyond the last corner on either side the sum goes on straight: it may still rise to zero there.
        return _beyond(knots, heights)
    first, last = above[0], above[-1]
    lo = -INF if first == 0 and heights[0] >= 0 and not _rises(heights[0], heights[1]) else None
    hi = INF if last == len(knots) - 1 and not _rises(heights[-1], heights[-2]) else None
    if lo is None:
        lo = _root(knots, heights, first - 1, first) if first else _root(knots, heights, 0, 1)
    if hi is None:
        hi = _root(knots, heights, last, last + 1) if last + 1 < len(knots) else _root(knots, heights, -2, -1)
    return Interval(min(lo, hi), max(lo, hi))


def _sum(terms: list[Term], value: float) -> float:
    return sum(term.at(value) for term in terms)


def _rises(outer: float, inner: float) -> bool:
    """Going outward the sum falls: it meets zero farther out."""
    return outer < inner


def _root(knots: list[float], heights: list[float], one: int, other: int) -> float:
    """Where the straight line through two corners is zero."""
    slope = (heights[other] - heights[one]) / (knots[other] - knots[one])
    return knots[one] - heights[one] / slope if slope else knots[one]


def _beyond(knots: list[float], heights: list[float]) -> Interval | None:
    if heights[-1] > heights[-2]:
        return Interval(_root(knots, heights, -2, -1), INF)
    if heights[0] > heights[1]:
        return Interval(-INF, _root(knots, heights, 0, 1))
    return None


def _meet(one: Interval | None, other: Interval | None) -> Interval | None:
    """What two ranges have in common."""
    if one is None or other is None:
        return None
    lo, hi = max(one.lo, other.lo), min(one.hi, other.hi)
    return Interval(lo, hi) if lo <= hi else None


def common(ranges: list[Interval]) -> Interval | None:
    """What all ranges have in common."""
    found: Interval | None = ranges[0] if ranges else None
    for other in ranges[1:]:
        found = _meet(None if found is None else found.bare(), other.bare())
    return None if found is None else found.with_unit("mm")
