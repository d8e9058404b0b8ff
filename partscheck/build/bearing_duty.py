"""What the two bearings of a hub go through on the road: loads on the straight and in bends, and life.

Every answer is an interval over the ends of what goes in.  The larger loads lie at those ends; the
smallest may lie between them, so the middle of the load plane is tried too.  All loads go with the
wheel's, so they are reckoned once for 1 N.
"""

from __future__ import annotations

from functools import lru_cache
from itertools import product

from partscheck.build.bearing_planes import BEARING_PLANE_READS, bearing_plane
from partscheck.build.bearing_ratings import FACTOR_READS, dynamic_rating, e_from_y, e_typed, y_factor
from partscheck.build.weights import CORNER_LOAD_READS, shock_factor
from partscheck.build.wheel_data import load_plane, loaded_radius
from partscheck.formulas.bearing import radial_split_cornering, y0_from_y
from partscheck.formulas.bearing_life import distance, duty_life, life
from partscheck.formulas.bearing_load import pair_loads, pair_thrusts, taper_static_load
from partscheck.notation.interval import INF, Interval

TYPE_CHECKING = False
if TYPE_CHECKING:
    from partscheck.build.places import WheelEnd

INNER, OUTER = 0, 1
PLACE_INDEX = {"inner": INNER, "outer": OUTER}

TIRE_RADIUS_READS = ("tire.loaded_radius", "tire.diameter", "tire.size", "practice.loaded_radius_factor")
PAIR_READS = (
    *CORNER_LOAD_READS, *BEARING_PLANE_READS, *FACTOR_READS, *TIRE_RADIUS_READS, "practice.side_force",
)  # fmt: skip

Pair = tuple[float, float]
Key = tuple[tuple[Pair, ...], tuple[float, float]]


class Corner:
    """One combination of exact values, for a wheel that carries 1 N: places and radius in mm, factors of
    both bearings.  All loads are in N for each N of the wheel's load.
    """

    __slots__ = ("e", "inner", "outer", "plane", "radius", "y")

    def __init__(self, plane: float, inner: float, outer: float, radius: float, e: Pair, y: Pair) -> None:
        self.plane = plane
        self.inner = inner
        self.outer = outer
        self.radius = radius
        self.e = e
        self.y = y

    def radial(self, side: float) -> Pair:
        """(inner, outer) radial load with a side force of ``side`` x the wheel's load."""
        return radial_split_cornering(1.0, self.plane, self.inner, self.outer, side, self.radius)

    def dynamic(self, side: float) -> Pair:
        """(inner, outer) equivalent load."""
        return pair_loads(self.radial(side), self.e, self.y, side)

    def static(self, side: float) -> Pair:
        """(inner, outer) equivalent static load."""
        radial = self.radial(side)
        thrusts = pair_thrusts(*radial, *self.y, side)
        inner, outer = (
            taper_static_load(fr, fa, y0_from_y(y)) for fr, fa, y in zip(radial, thrusts, self.y, strict=True)
        )
        return inner, outer


Corners = tuple[Corner, ...]


def bearing_life_km(end: WheelEnd, place: str, plane: Interval | None = None) -> Interval:
    """Calculated life (L10) of one bearing over the duty, km; ``plane`` in place of the wheel end's own.

    The duty: straight ahead, and cornering_share of the way in bends of side_force, half to each side;
    on gravel_share of the way all loads are gravel_bearing_load times as high.
    """
    rating, load = dynamic_rating(end, place).value, end.corner_load
    side, share = end.limits.side_force.hi, min(1.0, end.limits.cornering_share.hi)
    key = _key(end, plane)
    if key is None or not (rating.known and load.known) or rating.lo <= 0:
        return Interval.unknown("km")
    duty = ((1 - share, 0.0), (share / 2, side), (share / 2, -side))
    least, most = _life_at_1n(key, duty, PLACE_INDEX[place])
    if least <= 0:
        return Interval.unknown("km")
    # All loads go with the wheel's, so life goes with (C / W)^(10/3).
    rough = _on_gravel(end)
    return Interval(rough * least * life(rating.lo, load.hi), rough * most * life(rating.hi, load.lo), "km")


def _on_gravel(end: WheelEnd) -> float:
    """What is left of a life on smooth roads when a share of the way is gravel: 1/L = sum of q/L."""
    share, times = min(1.0, end.limits.gravel_share.hi), max(1.0, end.limits.gravel_bearing_load.hi)
    return duty_life([phase for phase in ((1 - share, 1.0), (share, life(1.0, times))) if phase[0] > 0])


def static_load(end: WheelEnd, place: str) -> Interval:
    """Greatest equivalent static load of one bearing, N: straight ahead under shock, or in a bend.

    Shock and bend are not taken together (practice).
    """
    shock, side = shock_factor(end.build), end.limits.side_force.hi
    load, key = end.corner_load, _key(end, need_radius=end.tire is not None)
    if key is None:
        return Interval.unknown("N")
    least, most = _static_at_1n(key, (shock.lo, shock.hi), side, PLACE_INDEX[place])
    return load * Interval(least, most)


def corners(end: WheelEnd) -> Corners:
    """Every combination of the ends of what goes in; none where something has no bound."""
    key = _key(end)
    return () if key is None else _corners(key)


def _key(end: WheelEnd, plane: Interval | None = None, need_radius: bool = True) -> Key | None:
    """The ends of load plane, inner and outer bearing, radius and both factors Y, and e where typed."""
    place = load_plane(end) if plane is None else plane
    inner, outer = bearing_plane(end, "inner"), bearing_plane(end, "outer")
    radius = loaded_radius(end.tire, end) if need_radius else Interval(0.0, 0.0, "mm")
    spans = (place, inner, outer, radius, y_factor(end, "inner"), y_factor(end, "outer"))
    if not all(span.known for span in spans) or (need_radius and radius.lo <= 0):
        return None
    return tuple((span.lo, span.hi) for span in spans), (e_typed(end, "inner"), e_typed(end, "outer"))


@lru_cache(maxsize=256)
def _corners(key: Key) -> Corners:
    (plane, *spans), (e_inner, e_outer) = key
    planes = {*plane, (plane[0] + plane[1]) / 2}
    return tuple(
        Corner(x, xi, xo, r, (e_inner or e_from_y(yi), e_outer or e_from_y(yo)), (yi, yo))
        for x, xi, xo, r, yi, yo in product(planes, *(set(span) for span in spans))
        if xi > xo
    )


@lru_cache(maxsize=256)
def _life_at_1n(key: Key, duty: tuple[Pair, ...], index: int) -> Pair:
    """(least, most) life in km of a bearing of C 1 N under a wheel that carries 1 N."""
    driven = [phase for phase in duty if phase[0] > 0]
    answers = [
        duty_life([(part, distance(life(1.0, one.dynamic(side)[index]), one.radius)) for part, side in driven])
        for one in _corners(key)
    ]
    return (min(answers), max(answers)) if answers else (0.0, INF)


@lru_cache(maxsize=256)
def _static_at_1n(key: Key, shocks: Pair, side: float, index: int) -> Pair:
    """(least, most) equivalent static load under a wheel that carries 1 N."""
    answers = []
    for one in _corners(key):
        bends = [one.static(way)[index] for way in (side, -side)] if one.radius else []
        answers += [max([k * one.static(0.0)[index], *bends]) for k in shocks]
    return (min(answers), max(answers)) if answers else (0.0, INF)
