"""Which pressure a tire needs for the load on it.

A P-metric tire's load grows with the root of its pressure (T&RA formula); that of others with the power of
the practice limit ``tire_load_exponent``.  More than the rated pressure cures no overload.
"""

from __future__ import annotations

from partscheck.build.weights import CORNER_LOAD_READS
from partscheck.build.wheel_data import (
    divided_load,
    divides_passenger_tires,
    is_passenger,
    load_on_trailer,
    tire_max_load,
)
from partscheck.formulas.tire import p_metric_load, pressure_for_load
from partscheck.notation.interval import INF, Interval

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.places import Binding

P_METRIC_EXPONENT = 0.5
LOWEST_SERIES = 50  # of the P-metric formula
AT = 240.0  # kPa, any pressure serves: that of the standard load

# What a rule reads, as "record.field", that asks for the pressure of a tire at its load.
TIRE_PRESSURE_READS = (
    *CORNER_LOAD_READS, "tire.size", "tire.max_load", "tire.load_index", "tire.service_description",
    "tire.rated_pressure", "tire.max_pressure", "practice.tire_load_exponent",
)  # fmt: skip


def is_p_metric(tire: Any) -> bool:
    """True for a size with P in front: the T&RA formula is for these alone."""
    return bool(tire.size.prefix == "P")


def exponent(tire: Any, place: Binding) -> float:
    """e in load = rated load x (pressure / rated pressure)^e."""
    return P_METRIC_EXPONENT if is_p_metric(tire) else float(place.limits.tire_load_exponent.lo)


def rated_pressure(tire: Any) -> Interval:
    """Pressure that belongs to the rated load, kPa: typed; else the moulded one, which for a tire of a car
    is only the most that it can be.
    """
    if tire.has("rated_pressure") or not tire.has("max_pressure"):
        return tire.rated_pressure  # type: ignore[no-any-return]
    moulded: Interval = tire.max_pressure
    if is_passenger(tire) is False:
        return moulded
    unread = tire.rated_pressure  # asks for it
    return Interval(unread.lo, moulded.hi, "kPa")


def needed_pressure(tire: Any, place: Binding, load: Interval) -> Interval:
    """Pressure for a load of ``load`` N, kPa; never above the rated one."""
    return _from_rating(load, tire_max_load(tire, place), rated_pressure(tire), exponent(tire, place))


def trailer_pressure(tire: Any, place: Binding, load: Interval) -> Interval:
    """As ``needed_pressure``, and on a trailer: where a passenger car tire's rating is divided there, so is
    what it carries at each pressure.  A P-metric size whose rated pressure is not typed goes by its size.
    """
    rated = rated_pressure(tire)
    if not rated.known or (not rated.is_exact and sized(tire)):
        return _from_size(tire, place, load) if sized(tire) else rated
    return _from_rating(load, load_on_trailer(tire, place), rated, exponent(tire, place))


def sized(tire: Any) -> bool:
    """True for a P-metric size that the T&RA formula is for: its load follows from the size."""
    size = tire.size
    known = size.section_width.is_exact and size.rim_diameter.is_exact
    return is_p_metric(tire) and size.aspect is not None and size.aspect >= LOWEST_SERIES and known


def _from_size(tire: Any, place: Binding, load: Interval) -> Interval:
    """By the P-metric formula from the size: what it carries at one pressure gives that of any other."""
    size = tire.size
    base = p_metric_load(size.section_width.lo, size.aspect, size.rim_diameter.lo, AT) * 9.80665
    counted = Interval(base, base, "N")
    if divides_passenger_tires(place):
        counted = divided_load(tire, counted, place)
    most = tire.max_pressure.hi if tire.has("max_pressure") else INF
    ends = [pressure_for_load(max(0.0, end), counted.lo, AT, P_METRIC_EXPONENT) for end in (load.lo, load.hi)]
    return Interval(min(ends[0], most), min(ends[1], most), "kPa")


def _from_rating(load: Interval, rating: Interval, rated: Interval, power: float) -> Interval:
    return Interval(
        _corner(load.lo, rating.hi, rated.lo, power), _corner(load.hi, rating.lo, rated.hi, power), "kPa"
    )


def _corner(load: float, rated_load: float, pressure: float, power: float) -> float:
    if pressure in (0.0, INF) or rated_load == 0.0 or load >= rated_load:
        return pressure
    if rated_load == INF:
        return 0.0
    return pressure_for_load(load, rated_load, pressure, power)
