"""What the two bearings of a hub go through on the road: loads on the straight and in bends, and life.

Every answer is an interval over the ends of what goes in.  The larger loads lie at those ends; the
smallest may lie between them, so the middle of the load plane is tried too.
"""

from __future__ import annotations

from itertools import product
from typing import TYPE_CHECKING

from partscheck.build.bearing_planes import BEARING_PLANE_READS, bearing_plane
from partscheck.build.bearing_ratings import FACTOR_READS, dynamic_rating, e_factor, y_factor
from partscheck.build.weights import CORNER_LOAD_READS, shock_factor
from partscheck.build.wheel_data import load_plane, loaded_radius
from partscheck.formulas.bearing import radial_split_cornering, y0_from_y
from partscheck.formulas.bearing_life import distance, duty_life, life
from partscheck.formulas.bearing_load import pair_loads, pair_thrusts, taper_static_load
from partscheck.notation.interval import INF, Interval

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from partscheck.build.places import WheelEnd

INNER, OUTER = 0, 1
PLACE_INDEX = {"inner": INNER, "outer": OUTER}

TIRE_RADIUS_READS = ("tire.loaded_radius", "tire.diameter", "tire.size", "practice.loaded_radius_factor")
PAIR_READS = (
    *CORNER_LOAD_READS, *BEARING_PLANE_READS, *FACTOR_READS, *TIRE_RADIUS_READS, "practice.side_force",
)  # fmt: skip

Pair = tuple[float, float]


class Corner:
    """One combination of exact values: load W in N, places and radius in mm, factors of both bearings."""

    __slots__ = ("e", "inner", "load", "outer", "plane", "radius", "y")

    def __init__(
        self, load: float, plane: float, inner: float, outer: float, radius: float, e: Pair, y: Pair
    ) -> None:
        self.load = load
        self.plane = plane
        self.inner = inner
        self.outer = outer
        self.radius = radius
        self.e = e
        self.y = y

    def radial(self, side: float) -> Pair:
        """(inner, outer) radial load with a side force of ``side`` x load, N."""
        return radial_split_cornering(self.load, self.plane, self.inner, self.outer, side, self.radius)

    def dynamic(self, side: float) -> Pair:
        """(inner, outer) equivalent load, N."""
        return pair_loads(self.radial(side), self.e, self.y, side * self.load)

    def static(self, side: float) -> Pair:
        """(inner, outer) equivalent static load, N."""
        radial = self.radial(side)
        thrusts = pair_thrusts(*radial, *self.y, side * self.load)
        inner, outer = (
            taper_static_load(fr, fa, y0_from_y(y)) for fr, fa, y in zip(radial, thrusts, self.y, strict=True)
        )
        return inner, outer


def bearing_life_km(end: WheelEnd, place: str, plane: Interval | None = None) -> Interval:
    """Calculated life (L10) of one bearing over the duty, km; ``plane`` in place of the wheel end's own.

    The duty: straight ahead, and cornering_share of the way in bends of side_force, half to each side.
    """
    rating = dynamic_rating(end, place).value
    side, share = end.limits.side_force.hi, min(1.0, end.limits.cornering_share.hi)
    duty = ((1 - share, 0.0), (share / 2, side), (share / 2, -side))
    index = PLACE_INDEX[place]
    if not rating.known or rating.lo <= 0:
        corners(end, plane)  # what else it takes is asked for too
        return Interval.unknown("km")

    def of(corner: Corner) -> Iterator[float]:
        loads = [(part, corner.dynamic(force)[index]) for part, force in duty if part > 0]
        for c in {rating.lo, rating.hi}:
            yield duty_life([(part, distance(life(c, load), corner.radius)) for part, load in loads])

    return _over(corners(end, plane), of, "km")


def static_load(end: WheelEnd, place: str) -> Interval:
    """Greatest equivalent static load of one bearing, N: straight ahead under shock, or in a bend.

    Shock and bend are not taken together (practice).
    """
    shock, side, index = shock_factor(end.build), end.limits.side_force.hi, PLACE_INDEX[place]

    def of(corner: Corner) -> Iterator[float]:
        bends = [corner.static(force)[index] for force in (side, -side)] if corner.radius > 0 else []
        for k in {shock.lo, shock.hi}:
            yield max(k * corner.static(0.0)[index], *bends, 0.0)

    return _over(corners(end, need_radius=end.tire is not None), of, "N")


def corners(
    end: WheelEnd, plane: Interval | None = None, need_radius: bool = True
) -> list[Corner] | None:
    """Every combination of the ends of what goes in; None where something has no bound."""
    load, place = end.corner_load, load_plane(end) if plane is None else plane
    inner, outer = bearing_plane(end, "inner"), bearing_plane(end, "outer")
    radius = loaded_radius(end.tire, end) if need_radius else Interval(0.0, 0.0, "mm")
    y_pairs = [y_factor(end, which) for which in ("inner", "outer")]
    spans = (load, place, inner, outer, radius)
    if not all(span.known for span in spans) or (need_radius and radius.lo <= 0):
        return None
    return [
        Corner(w, x, xi, xo, r, (e_factor(end, "inner", yi), e_factor(end, "outer", yo)), (yi, yo))
        for w, x, xi, xo, r, yi, yo in product(
            _ends(load), {*_ends(place), place.mid}, *(_ends(one) for one in (inner, outer, radius)),
            *(_ends(one) for one in y_pairs),
        )
        if xi > xo
    ]  # fmt: skip


def _ends(span: Interval) -> set[float]:
    return {span.lo, span.hi}


def _over(found: list[Corner] | None, of: Callable[[Corner], Iterator[float]], unit: str) -> Interval:
    """From the least to the greatest answer; anything where nothing can be reckoned."""
    answers = [answer for corner in found or () for answer in of(corner)]
    return Interval(min(answers), max(answers), unit) if answers else Interval(0.0, INF, unit)
