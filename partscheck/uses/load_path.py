"""The load path: each part that carries the weight, what it may carry, and what stands on it.

Ratings are static; a share is what stands on the part at rest in the worst case.  Parts that have
no rating come last: what they may carry is not known.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING, Any

from partscheck.build.places import AxlePlace
from partscheck.build.wheel_data import load_on_trailer, rating_each
from partscheck.notation.interval import INF, Interval, least_of

if TYPE_CHECKING:
    from partscheck.build.places import WheelEnd
    from partscheck.build.weights import Weights
    from partscheck.engine import Result

# Roles of a wheel end that carry its corner, from the road upwards.
CORNER_ROLES = ("tire", "wheel", "hub", "spindle", "suspension-arm", "leaf-spring")


class LoadPathRow:
    """One part in the load path.

    ``part`` and its ``role``; ``at`` its places; ``rating`` (of one piece; a passenger car tire's as
    it counts on a trailer), ``share`` and ``margin`` in N, unknown ones as wide as they are;
    ``limits_gross_weight_to`` the gross weight at which the margin is zero, tongue and side shares
    staying, or None when the rating is not known.
    """

    __slots__ = ("at", "limits_gross_weight_to", "margin", "part", "rating", "role", "share")

    def __init__(
        self,
        part: Any,
        role: str,
        at: tuple[str, ...],
        rating: Interval,
        share: Interval,
        limits_gross_weight_to: Interval | None,
    ) -> None:
        self.part = part
        self.role = role
        self.at = at
        self.rating = rating
        self.share = share
        self.margin = rating - share if rating.known else Interval.unknown("N", -INF)
        self.limits_gross_weight_to = limits_gross_weight_to

    @property
    def known(self) -> bool:
        """True when the part's rating is known."""
        return self.rating.known

    def __repr__(self) -> str:
        return f"<{self.role} {self.part.id} at {', '.join(self.at)}: margin {self.margin}>"


def load_path(result: Result) -> list[LoadPathRow]:
    """Every part that carries the weight, smallest margin first, unknown ratings last.

    A part without a rating is left out where the list speaks of no weights at all.
    """
    given = result.fit.weights.given
    rows: dict[Any, LoadPathRow] = {}
    for carrier in CARRIERS:
        for row in carrier(result):
            if row.known or given:
                _add(rows, row)
    return sorted(rows.values(), key=_order)


def supported_gross(rows: list[LoadPathRow]) -> tuple[Interval | None, Any]:
    """(gross weight in N that the set as a whole supports, the part that limits it).

    (None, None) when no rating is known.  Where a row's rating is not known the set may support less.
    """
    limits = [
        (row.limits_gross_weight_to, row.part) for row in rows if row.limits_gross_weight_to is not None
    ]
    if not limits:
        return None, None
    least = least_of(limits[0][0], *(limit for limit, _ in limits[1:]))
    return least, min(limits, key=lambda one: (one[0].lo, one[0].hi))[1]


def wheel_end_parts(result: Result) -> Iterator[LoadPathRow]:
    """What sits at a wheel: tire, wheel, plates, hub, spindle, arm, spring."""
    for end in result.fit.ends:
        for role, part in _carrying(end):
            rating = load_on_trailer(part, end) if role == "tire" else rating_each(part)
            for places, share in end.weights.place_loads(end):
                yield _row(end.weights, part, role, places, rating, share)


def axles(result: Result) -> Iterator[LoadPathRow]:
    """The axles themselves, each with all that stands on it."""
    for place in result.fit.bindings(AxlePlace):
        if place.axle is not None:
            rating = rating_each(place.axle)
            yield _row(place.weights, place.axle, "axle", place.at, rating, place.load, of_axle=True)


# What carries the weight, one function for each group of parts; each yields the rows of its group.
CARRIERS: list[Callable[[Any], Iterator[LoadPathRow]]] = [wheel_end_parts, axles]


def _carrying(end: WheelEnd) -> Iterator[tuple[str, Any]]:
    for role in CORNER_ROLES:
        part = end.part(role)
        if part is not None:
            yield role, part
        if role == "wheel":
            yield from (("adapter", plate) for plate in end.plates if plate.kind == "adapter")


def _row(
    weights: Weights,
    part: Any,
    role: str,
    at: tuple[str, ...],
    rating: Interval,
    share: Interval,
    of_axle: bool = False,
) -> LoadPathRow:
    limit = weights.gross_at(rating, share, of_axle) if rating.known else None
    return LoadPathRow(part, role, at, rating, share, limit)


def _add(rows: dict[Any, LoadPathRow], row: LoadPathRow) -> None:
    """The same part under the same share at other places is one row."""
    key = (row.part.id, row.role, row.share.lo, row.share.hi)
    first = rows.setdefault(key, row)
    if first is not row:
        first.at = tuple(dict.fromkeys((*first.at, *row.at)))


def _order(row: LoadPathRow) -> tuple[bool, float, float]:
    """Known ratings first; then by margin, and where no weight is given, by the gross weight it allows."""
    limit = row.limits_gross_weight_to
    return not row.known, row.margin.lo if row.known else 0.0, limit.lo if limit is not None else 0.0
