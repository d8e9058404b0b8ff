"""At which pressure each tire carries what actually stands on it.

The tire maker's load and pressure table decides; this is what a formula says beside it.
"""

from __future__ import annotations

from partscheck.build.tire_pressure import exponent, is_p_metric, rated_pressure, sized, trailer_pressure
from partscheck.build.weights import case_of
from partscheck.build.wheel_data import divides_passenger_tires, is_passenger, load_on_trailer
from partscheck.notation.interval import INF, Interval, same_within
from partscheck.rules.basis import Basis, published, recalled

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.places import WheelEnd
    from partscheck.engine import Result

P_METRIC = published("T&RA P-metric load formula: load as the root of pressure (secondary copy read)")
OTHERS = recalled("ETRTO load and pressure formula, exponent 0.8; not read")
LEAST, RATED, LOAD, OVERLOADED = "least", "rated", "load", "overloaded"  # what rules a pressure


class TirePressure:
    """One place of the trailer.

    ``at`` ("1L"), ``tire`` the line, ``load`` (N) what stands on it in its worst case, ``case`` that case's
    name or ""; ``pressure`` (kPa, cold) a range where something is; ``ruled_by`` "load", "least" (the practice
    limit), "rated" (its rated pressure, needed in full) or "overloaded" (no pressure carries it: the rated one
    stands there); ``exponent`` of load by pressure; ``divided`` True where a passenger car tire counts less on
    a trailer, its rating over ``divisor``; ``by_size`` True where the rating comes from the P-metric formula;
    ``moulded`` (kPa) the moulded pressure; ``basis``.
    """

    __slots__ = (
        "at", "basis", "by_size", "case", "divided", "divisor", "exponent", "load", "moulded", "pressure",
        "ruled_by", "tire",
    )  # fmt: skip

    def __init__(self, at: str, tire: Any, load: Interval, end: WheelEnd) -> None:
        self.at = at
        self.tire = tire
        self.load = load
        self.case = case_of(load)
        self.exponent = exponent(tire, end)
        self.by_size = sized(tire) and not tire.has("rated_pressure")
        self.divisor = max(1.0, end.limits.passenger_tire_divisor.hi)
        self.divided = divides_passenger_tires(end) and bool(is_passenger(tire))
        self.basis: Basis = P_METRIC if is_p_metric(tire) else OTHERS
        self.moulded = tire.max_pressure.hi if tire.has("max_pressure") else INF
        self.pressure, self.ruled_by = _capped(self, end)

    @property
    def formula(self) -> str:
        """ "p = rated pressure x (load / rated load)^1.25", a passenger car tire's divisor in it."""
        pressure, rating = "rated pressure", "rated load"
        if self.by_size:
            pressure, rating = "240 kPa", "load at 240 kPa by its size"
        over = f"({rating} / {self.divisor:.2f})" if self.divided else rating
        return f"p = {pressure} x (load / {over})^{1 / self.exponent:.4g}"

    def __repr__(self) -> str:
        return f"<{self.tire.id} at {self.at}: {self.pressure} for {self.load}>"


def tire_pressures(result: Result) -> list[TirePressure]:
    """A row for each wheel whose tire, load and rated pressure are known: axle by axle, left before right.

    Rows are left out where nothing can be said.  A pressure is never below the practice limits
    ``tire_pressure_least`` and ``tire_pressure_least_share``, and never above the rated or moulded one.
    """
    rows: list[TirePressure] = []
    for end in result.fit.ends:
        tire = end.tire
        if tire is None or not _rated(tire, end):
            continue
        for places, load in end.weights.place_loads(end):
            if load.known:
                rows.extend(TirePressure(at, tire, load, end) for at in places)
    return sorted(rows, key=lambda row: row.at)


def _rated(tire: Any, end: WheelEnd) -> bool:
    """What the tire carries at which pressure is known."""
    if sized(tire) and not tire.has("rated_pressure"):
        return True
    rated = rated_pressure(tire)
    return rated.known and rated.lo > 0 and load_on_trailer(tire, end).known


def _capped(row: TirePressure, end: WheelEnd) -> tuple[Interval, str]:
    """The pressure between least and most, and what rules its upper end."""
    tire = row.tire
    raw = trailer_pressure(tire, end, row.load)
    most, limits = min(row.moulded, rated_pressure(tire).hi), end.limits
    share = limits.tire_pressure_least_share.hi * most if most < INF else 0.0
    least = min(max(limits.tire_pressure_least.hi, share), most)
    pressure = raw.clipped(least, most)
    close = same_within("kPa")
    if _overloaded(row, end, raw):
        return Interval.exact(most, "kPa") if most < INF else pressure, OVERLOADED
    if raw.hi < least - close:
        return pressure, LEAST
    return pressure, RATED if raw.hi >= most - close else LOAD


def _overloaded(row: TirePressure, end: WheelEnd, raw: Interval) -> bool:
    """Surely more on it than the tire may carry."""
    rating = load_on_trailer(row.tire, end)
    if rating.known:
        return row.load.lo > rating.hi + same_within("N")
    return raw.lo > row.moulded + same_within("kPa")
