"""Tires: sizes from the marking, width on a rim, load and pressure.

Lengths in mm, pressures in kPa.  ``aspect`` is the number moulded on the sidewall (75, not 0.75).
"""

from __future__ import annotations

import math

from partscheck.formulas.ranges import above_zero

PASSENGER_DIVISOR = 1.10
LOADED_RADIUS_SHARE = 0.47
_HALF_INCH = 12.7


def overall_diameter_metric(section_width: float, aspect: float, rim: float) -> float:
    """Overall diameter of a metric tire from its marking, free, mm.

    OD = rim + 2 W A/100
    section_width  W, nominal, mm (205 of 205/75R15)
    aspect         A, as moulded (75)
    rim            nominal rim diameter, mm (15 x 25.4)
    Range: W and rim above 0; A 20 to 110.  A real tire differs by up to about 3 %.
    Source: practice (the meaning of the marking); agrees with a design figure of T&RA to 0.01 in.

    >>> round(overall_diameter_metric(245, 55, 18 * 25.4), 1)
    726.7
    """
    above_zero("section width", section_width)
    above_zero("rim diameter", rim)
    _aspect(aspect)
    return rim + 2 * section_width * aspect / 100


def section_on_rim(section: float, measuring_rim: float, rim: float) -> float:
    """Section width of a tire on a rim other than the one it was measured on, mm.

    S = Sm + 0.4 (rim - measuring rim): 0.2 in for each 0.5 in of rim
    section        Sm, section width on the measuring rim, mm
    measuring_rim  width of that rim, mm
    rim            width of this rim, mm
    Range: all above 0; good over the rim widths approved for the size.
    Source: published, T&RA yearbook rule; secondary copy read.

    >>> round(section_on_rim(8.23 * 25.4, 6.0 * 25.4, 7.5 * 25.4) / 25.4, 2)  # 205/60R15, in
    8.83
    """
    above_zero("section width", section)
    above_zero("measuring rim", measuring_rim)
    above_zero("rim width", rim)
    return section + 0.4 * (rim - measuring_rim)


def measuring_rim_width(section: float, aspect: float) -> float:
    """Width of the rim on which a tire's section is measured, mm.

    70 % of the section width, rounded to the nearest half inch
    section  section width, mm: the design width where it is known.  The nominal width can come out half
             an inch low: 205/60R15 is 8.23 in wide by design, rim 6.0 in; from 205 mm it gives 5.5 in
    aspect   as moulded
    Range: section above 0; aspect 50 or more (lower series have another share).
    Source: published, T&RA yearbook rule; secondary copy read.

    >>> measuring_rim_width(255, 50) / 25.4  # P255/50R16
    7.0
    """
    above_zero("section width", section)
    _bounded("section width", section)
    _aspect(aspect)
    if aspect < 50:
        raise ValueError(f"the 70 % rule is for 50 series and higher, got {aspect:g}")
    return math.floor(0.70 * section / _HALF_INCH + 0.5) * _HALF_INCH


def load_from_index_approx(load_index: float) -> float:
    """Load near to that of a load index, kg.  A check of the table only; the table rules.

    m = 45 x 10^(LI/80)
    load_index  LI
    Range: LI 0 to 200; within 1.8 % of the table from 60 to 130.
    Source: derived (fitted to the load index table of UN Regulation 30, secondary copy read).

    >>> round(load_from_index_approx(100))  # the table says 800
    800
    """
    if not 0 <= load_index <= 200:
        raise ValueError(f"load index must be 0 to 200, got {load_index:g}")
    return 45 * math.pow(10, load_index / 80)


def p_metric_load(section_width: float, aspect: float, rim: float, pressure: float) -> float:
    """Load of a P-metric tire at a pressure, kg.

    L = K p^0.5 Sd^1.39 (Dr + Sd), K = 6.67e-5, Sd = (0.34848 + 0.6497 A/100) S70, Dr to a whole mm
    section_width  S70, mm; taken as the nominal width
    aspect         A, as moulded
    rim            Dr, nominal rim diameter, mm (15 x 25.4)
    pressure       p, kPa
    Range: all above 0; 50 series and higher; P-metric sizes only (not LT, not ST).
    Source: published, T&RA yearbook; secondary copy read.  S70 as the nominal width: derived.

    >>> round(p_metric_load(205, 75, 15 * 25.4, 240), 1)  # P205/75R15: rated 1598 lb = 724.8 kg (recalled)
    726.9
    """
    above_zero("section width", section_width)
    above_zero("rim diameter", rim)
    _bounded("rim diameter", rim)
    above_zero("pressure", pressure)
    _aspect(aspect)
    if aspect < 50:
        raise ValueError(f"the formula is for 50 series and higher, got {aspect:g}")
    width = (0.34848 + 0.6497 * aspect / 100) * section_width
    whole_rim = math.floor(rim + 0.5)
    return 6.67e-5 * math.sqrt(pressure) * math.pow(width, 1.39) * (whole_rim + width)


def load_at_pressure(
    pressure: float, rated_load: float, rated_pressure: float, exponent: float = 0.5
) -> float:
    """Load that a tire carries at a pressure, in the unit of the rated load.

    L = L_rated (p / p_rated)^e
    pressure        p, kPa
    rated_load      as moulded, N or kg
    rated_pressure  the pressure that belongs to that load, kPa
    exponent        e: 0.5 for P-metric; other kinds of tire have others
    Range: p not below 0, rated values above 0; e above 0, at most 1.  More than the rated pressure gives
    no more than the rated load: the tire maker's rating is the limit.
    Source: published for e = 0.5 (T&RA P-metric formula, secondary copy read); any other e is the caller's.

    >>> round(load_at_pressure(180, 725, 240), 1)
    627.9
    """
    if not pressure >= 0:
        raise ValueError(f"pressure must not be below 0 kPa, got {pressure:g}")
    _rating(rated_load, rated_pressure, exponent)
    return rated_load * math.pow(min(1.0, pressure / rated_pressure), exponent)


def pressure_for_load(
    load: float, rated_load: float, rated_pressure: float, exponent: float = 0.5, floor: float = 0.0
) -> float:
    """Pressure that a tire needs for a load, kPa.

    p = p_rated (L / L_rated)^(1/e), and not below the floor
    load            L, in the unit of the rated load
    rated_load      as moulded
    rated_pressure  the pressure that belongs to that load, kPa
    exponent        e, as in ``load_at_pressure``
    floor           least pressure at any load, kPa
    Range: L and floor not below 0, rated values above 0; e above 0, at most 1.  An answer above the rated
    pressure says that the tire is overloaded; more pressure is no cure.
    Source: published for e = 0.5 (T&RA P-metric formula, secondary copy read); any other e is the caller's.

    >>> pressure_for_load(362.5, 725, 240), pressure_for_load(362.5, 725, 240, floor=180)
    (60.0, 180)
    """
    if not load >= 0:
        raise ValueError(f"load must not be below 0, got {load:g}")
    if not floor >= 0:
        raise ValueError(f"least pressure must not be below 0 kPa, got {floor:g}")
    _rating(rated_load, rated_pressure, exponent)
    return max(floor, rated_pressure * math.pow(load / rated_load, 1 / exponent))


def passenger_on_trailer(rating: float, divisor: float = PASSENGER_DIVISOR) -> float:
    """What a passenger-car tire counts for on a trailer, in the unit of the rating.  Never rounded.

    rating / 1.10
    rating   as moulded
    divisor  1.10; a user in another place may have another
    Range: rating not below 0; divisor at least 1.
    Source: published, FMVSS 120 S5.1.2 (1976 text) as quoted in NHTSA letter nht76-1.47.

    >>> round(2 * passenger_on_trailer(1598), 2)  # two tires of 1598 lb on one axle, lb
    2905.45
    """
    if not rating >= 0:
        raise ValueError(f"rating must not be below 0, got {rating:g}")
    if not divisor >= 1:
        raise ValueError(f"divisor must be 1 or more, got {divisor:g}")
    return rating / divisor


def loaded_radius_default(diameter: float, share: float = LOADED_RADIUS_SHARE) -> float:
    """Static loaded radius when nobody measured it, mm.

    r = 0.47 D
    diameter  D, free, inflated, new
    share     0.47
    Range: D not below 0; share above 0, at most 0.5.
    Source: practice.

    >>> round(loaded_radius_default(700), 6)
    329.0
    """
    if not diameter >= 0:
        raise ValueError(f"diameter must not be below 0 mm, got {diameter:g}")
    if not 0 < share <= 0.5:
        raise ValueError(f"share must be above 0 and at most 0.5, got {share:g}")
    return share * diameter


def _aspect(aspect: float) -> None:
    if not 20 <= aspect <= 110:
        raise ValueError(f"aspect is the moulded number, 20 to 110 (75, not 0.75), got {aspect:g}")


def _rating(load: float, pressure: float, exponent: float) -> None:
    above_zero("rated load", load)
    above_zero("rated pressure", pressure)
    if not 0 < exponent <= 1:
        raise ValueError(f"exponent must be above 0 and at most 1, got {exponent:g}")


def _bounded(name: str, value: float) -> None:
    if value == math.inf:
        raise ValueError(f"{name} must be known")
