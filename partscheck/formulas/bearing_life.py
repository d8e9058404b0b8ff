"""Wheel bearings: thrust of the opposed pair, equivalent loads, life, reliability, static safety.

Loads are in N, ratings likewise; life is in millions of turns unless a name says km or hours.  The life of
a pair at one speed and one load: ``pair_thrusts``, then ``taper_load`` of each, ``life``, ``distance``;
over several conditions of driving: ``duty_life``.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

ROLLERS = 10 / 3  # exponent of the life of roller bearings (ISO 281)
BALLS = 3.0  # of ball bearings
HALF = 0.5  # induced thrust: 0.5 Fr/Y with ISO's Y; 0.47 Fr/K with the K of inch data sheets

_WHOLE = 1e-6  # shares of a duty that are this near to 1 make a whole


def induced_thrust(radial: float, y_factor: float, factor: float = HALF) -> float:
    """Thrust that a radial load sets up in a tapered bearing, N.

    S = 0.5 |Fr| / Y
    radial    Fr, N; the sign does not matter
    y_factor  Y (or K)
    factor    0.5 with Y; 0.47 with K
    Range: Y above 0; factor above 0, at most 1.
    Source: recalled (bearing handbooks) for 0.5; published for 0.47 Fr/K, Shigley ch. 11, secondary copy read.

    >>> round(induced_thrust(3761.4, 1.6), 1)
    1175.4
    """
    _above_zero("factor Y", y_factor)
    if not 0 < factor <= 1:
        raise ValueError(f"factor must be above 0 and at most 1, got {factor:g}")
    _a_number("radial load", radial)
    return factor * abs(radial) / y_factor


def pair_thrusts(
    radial_inner: float,
    radial_outer: float,
    y_inner: float,
    y_outer: float,
    side_force: float = 0.0,
    factor: float = HALF,
) -> tuple[float, float]:
    """Thrust that each of two opposed tapered bearings of a hub carries, (Fa_inner, Fa_outer), N.

    Fa_inner = Fa_outer + K, neither below its own S:
    Fa_inner = max(S_inner, S_outer + K), Fa_outer = max(S_outer, S_inner - K), S as in ``induced_thrust``
    radial_inner, radial_outer  Fr of each, N; the sign does not matter
    y_inner, y_outer            Y of each
    side_force                  K on the hub, N: positive pushed inboard (outside wheel of a bend; the inner
                                bearing takes it), negative pushed outboard
    factor                      as in ``induced_thrust``
    Range: Y above 0; K finite.  Set with a little end play, no preload.
    Source: derived (the hub's balance along the axis; each bearing carries at least what it sets up itself).

    >>> [round(fa) for fa in pair_thrusts(6319.1, -1203.6, 1.6, 1.6, 1023.09)]
    [1975, 952]
    """
    if not math.isfinite(side_force):
        raise ValueError(f"side force must be a finite number of N, got {side_force:g}")
    inner = induced_thrust(radial_inner, y_inner, factor)
    outer = induced_thrust(radial_outer, y_outer, factor)
    return max(inner, outer + side_force), max(outer, inner - side_force)


def taper_load(radial: float, axial: float, e_factor: float, y_factor: float) -> float:
    """Equivalent dynamic load of a single tapered bearing, N.

    P = Fr where Fa/Fr <= e, else 0.4 Fr + Y Fa, and not below Fr
    radial    Fr, N; the sign does not matter
    axial     Fa, all of the thrust that it carries (its own included), N
    e_factor  e
    y_factor  Y
    Range: Fa not below 0; e and Y above 0.
    Source: recalled, ISO 281 (single row).

    >>> round(taper_load(1354.1, 1175.4, 0.37, 1.6), 1), taper_load(4000, 1000, 0.37, 1.6)
    (2422.3, 4000)
    >>> taper_load(4000, 3000, 0.37, 1.6)
    6400.0
    """
    _not_below_zero("axial load", axial)
    _above_zero("factor e", e_factor)
    _above_zero("factor Y", y_factor)
    _a_number("radial load", radial)
    size = abs(radial)
    if axial <= e_factor * size:
        return size
    return max(size, 0.4 * size + y_factor * axial)


def pair_loads(
    radial: tuple[float, float],
    e_factors: tuple[float, float],
    y_factors: tuple[float, float],
    side_force: float = 0.0,
) -> tuple[float, float]:
    """Equivalent dynamic load of the two bearings of a hub, (P_inner, P_outer), N.

    ``taper_load`` with the thrust of ``pair_thrusts``
    radial      (inner, outer), as ``bearing.radial_split`` gives them, N
    e_factors   (inner, outer)
    y_factors   (inner, outer)
    side_force  K, as in ``pair_thrusts``
    Range: as in those two.  All loads times k: both answers times k.
    Source: recalled, ISO 281 (single row); the sharing of thrust is derived.

    >>> [round(p) for p in pair_loads((1354.1, 3761.4), (0.37, 0.37), (1.6, 1.6))]
    [2422, 3761]
    """
    inner, outer = pair_thrusts(radial[0], radial[1], y_factors[0], y_factors[1], side_force)
    return (
        taper_load(radial[0], inner, e_factors[0], y_factors[0]),
        taper_load(radial[1], outer, e_factors[1], y_factors[1]),
    )


def equivalent_load(radial: float, axial: float, x_factor: float, y_factor: float) -> float:
    """Equivalent dynamic load of any bearing whose X and Y are given for this load, N.

    P = X Fr + Y Fa
    radial    Fr, N
    axial     Fa, N
    x_factor  X
    y_factor  Y
    Range: none of them below 0; Fr, Fa, X and Y finite.
    Source: published, ISO 281 form as textbooks print it; secondary copy read.

    >>> round(equivalent_load(2500, 1000, 0.56, 1.6), 6)  # graduate engineering exam: 3000 N
    3000.0
    """
    named = (("radial load", radial), ("axial load", axial), ("factor X", x_factor), ("factor Y", y_factor))
    for name, value in named:
        _not_below_zero(name, value)
        if value == math.inf:
            raise ValueError(f"{name} must be known")
    return x_factor * radial + y_factor * axial


def life(rating: float, load: float, exponent: float = ROLLERS) -> float:
    """Basic rating life L10, millions of turns: nine of ten bearings reach it.

    L = (C / P)^a
    rating    C, for 1 million turns (``rating_for_turns`` converts others), N
    load      P, N
    exponent  a: 10/3 rollers, 3 balls
    Range: C above 0; P not below 0 (0: no end of life); not both unbounded; a 3 to 10/3.  Clean grease,
    no water: one drowned bearing has no rating life.
    Source: published, ISO 281 form as textbooks print it; secondary copies read.

    >>> round(life(40200, 6400), 1)
    457.2
    """
    _above_zero("rating", rating)
    _not_below_zero("load", load)
    _exponent(exponent)
    if rating == load == math.inf:
        raise ValueError("rating and load must not both be unbounded")
    return math.inf if load == 0 else _power(rating / load, exponent)


def rating_needed(load: float, turns: float, exponent: float = ROLLERS) -> float:
    """Dynamic rating for 1 million turns that a load and a life ask for, N.

    C = P L^(1/a)
    load      P, N
    turns     L, millions of turns
    exponent  a, as in ``life``
    Range: P not below 0; L above 0; neither unbounded.
    Source: published, the life formula solved for C; Shigley 10e Prob 11-3, secondary copy read.

    >>> round(rating_needed(13.92, 60 * 40000 * 520 / 1e6), 1)  # kN; printed 118
    118.2
    """
    _not_below_zero("load", load)
    _above_zero("turns", turns)
    _exponent(exponent)
    if math.inf in (load, turns):
        raise ValueError("load and turns must be known")
    return load * _power(turns, 1 / exponent)


def rating_for_turns(rating: float, rated_turns: float, turns: float = 1e6, exponent: float = ROLLERS) -> float:
    """A dynamic rating turned over to another count of turns, N.

    C2 = C1 (n1 / n2)^(1/a); from 90e6 to 1e6 turns: C x 90^0.3 = 3.857 C
    rating       C1, N
    rated_turns  n1, turns that C1 is for (inch data sheets: often 90e6 = 3000 h at 500 rpm)
    turns        n2, turns wanted
    exponent     a, as in ``life``
    Range: C1 not below 0; turns 1 or more, finite.  Turns, not millions of turns.
    Source: derived from the life formula; that inch ratings are often for 90e6 turns: published,
    university machine-design notes, secondary copy read.

    >>> round(rating_for_turns(7210, 90e6)), round(rating_for_turns(1, 90e6), 3)
    (27811, 3.857)
    """
    _not_below_zero("rating", rating)
    _exponent(exponent)
    for value in (rated_turns, turns):
        if not 1 <= value < math.inf:
            raise ValueError(f"turns must be 1 or more (90e6, not 90), got {value:g}")
    return rating * _power(rated_turns / turns, 1 / exponent)


def distance_per_turn(loaded_radius: float) -> float:
    """How far the trailer rolls in one turn of the wheel, m.

    2 pi r / 1000
    loaded_radius  r, mm
    Range: r not below 0.  The rolling radius is some per cent longer, so this errs on the short side.
    Source: derived; the loaded radius in its place is practice.

    >>> round(distance_per_turn(330), 5)
    2.07345
    """
    _not_below_zero("loaded radius", loaded_radius)
    return 2 * math.pi * loaded_radius / 1000


def distance(turns: float, loaded_radius: float) -> float:
    """Life as a distance, km.

    s = 1000 L x (m per turn)
    turns          L, millions of turns
    loaded_radius  r, mm
    Range: L not below 0; r above 0.
    Source: derived; the loaded radius as rolling radius is practice.

    >>> round(distance(life(30800, 3761.4), 330) / 1e6, 3)  # million km
    2.295
    """
    _not_below_zero("turns", turns)
    _above_zero("loaded radius", loaded_radius)
    return 1000 * turns * distance_per_turn(loaded_radius)


def hours(turns: float, rpm: float) -> float:
    """Life as hours at a speed.

    h = L x 10^6 / (60 n)
    turns  L, millions of turns
    rpm    n, turns a minute
    Range: L not below 0; n above 0, finite.
    Source: published, ISO 281 form as textbooks print it; secondary copies read.

    >>> round(hours(life(7350, 3000, BALLS), 720), 3)  # graduate engineering exam: 340.419
    340.419
    """
    _not_below_zero("turns", turns)
    _above_zero("speed", rpm)
    if rpm == math.inf:
        raise ValueError("speed must be known")
    return turns * 1e6 / (60 * rpm)


def duty_life(phases: Sequence[tuple[float, float]]) -> float:
    """Life over several conditions of driving, in the unit of the lives given.

    1/L = sum(q / L)
    phases  (q, L) of each: its share of all turns (or of the way), and the life if it went on for ever
    Range: q not below 0, together 1; L not below 0.
    Source: derived (each turn uses up 1/L of the bearing: the linear rule of bearing handbooks).

    >>> round(duty_life([(0.90, 2.295), (0.05, 18.71), (0.05, 0.1388)]), 3)  # million km
    1.324
    """
    for share, each in phases:
        _not_below_zero("share", share)
        _not_below_zero("life", each)
    total = math.fsum(share for share, _ in phases)
    if not abs(total - 1) <= _WHOLE:
        raise ValueError(f"shares of the duty must add up to 1 (90 % is 0.90), got {total:g}")
    driven = [(share, each) for share, each in phases if share > 0]
    if any(each == 0 for _, each in driven):
        return 0.0
    used = math.fsum(share / each for share, each in driven)
    return math.inf if used == 0 else 1 / used


def reliability(life_ratio: float, least: float = 0.02, scale: float = 4.459, shape: float = 1.483) -> float:
    """Share of bearings that still run after a multiple of the basic rating life, 0 to 1.

    R = exp(-((x - x0) / (theta - x0))^b)
    life_ratio  x, turns asked for over L10: for C and P, turns x (P/C)^a
    least       x0, multiple that all reach
    scale       theta
    shape       b
    Range: x not below 0; x0 not below 0, theta above x0; b above 0.
    Source: published, Shigley 10e Prob 11-3 (Weibull 0.02, 4.459, 1.483); secondary copy read.

    >>> round(reliability(1248 * (13.92 / 123) ** (10 / 3)), 3)  # printed 0.917
    0.917
    """
    _not_below_zero("life ratio", life_ratio)
    _weibull(least, scale, shape)
    if life_ratio <= least:
        return 1.0
    return math.exp(-_power((life_ratio - least) / (scale - least), shape))


def life_ratio_at(
    reliability: float, least: float = 0.02, scale: float = 4.459, shape: float = 1.483
) -> float:
    """Multiple of the basic rating life that a given share of bearings reaches; inverse of ``reliability``.

    x = x0 + (theta - x0) (ln(1/R))^(1/b)
    reliability          R, 0.95 for 95 of 100
    least, scale, shape  as in ``reliability``
    Range: R above 0, below 1; the rest as in ``reliability``.
    Source: published, Shigley 10e Prob 11-3 solved for x; secondary copy read.

    >>> round(life_ratio_at(0.90), 2), round(life_ratio_at(0.99), 2)
    (0.99, 0.22)
    """
    if not 0 < reliability < 1:
        raise ValueError(f"reliability must be above 0 and below 1 (95 % is 0.95), got {reliability:g}")
    _weibull(least, scale, shape)
    return least + (scale - least) * math.pow(-math.log(reliability), 1 / shape)


def taper_static_load(radial: float, axial: float, y0_factor: float) -> float:
    """Equivalent static load of a single tapered bearing, N.

    P0 = 0.5 Fr + Y0 Fa, and not below Fr
    radial     Fr, at its worst (shock and all), N; the sign does not matter
    axial      Fa, N
    y0_factor  Y0; ``bearing.y0_from_y`` where the data sheet gives only Y
    Range: Fa not below 0; Y0 above 0.
    Source: recalled, ISO 76 (single row).

    >>> taper_static_load(4000, 3000, 0.9), taper_static_load(4000, 1000, 0.9)
    (4700.0, 4000)
    """
    _not_below_zero("axial load", axial)
    _above_zero("factor Y0", y0_factor)
    _a_number("radial load", radial)
    size = abs(radial)
    return max(size, 0.5 * size + y0_factor * axial)


def static_safety(static_rating: float, static_load: float) -> float:
    """Static safety of a bearing at rest or under a shock.

    s0 = C0 / P0
    static_rating  C0, N
    static_load    P0, N
    Range: C0 not below 0; P0 not below 0; not both unbounded.  At s0 1 a race may take a first lasting dent.
    Source: recalled, ISO 76.

    >>> static_safety(44000, 11000)
    4.0
    """
    _not_below_zero("static rating", static_rating)
    _not_below_zero("static load", static_load)
    if static_rating == static_load == math.inf:
        raise ValueError("static rating and load must not both be unbounded")
    return math.inf if static_load == 0 else static_rating / static_load


def _power(base: float, exponent: float) -> float:
    """Power whose overflow is an unbounded answer, not an error."""
    try:
        return math.pow(base, exponent)
    except OverflowError:
        return math.inf


def _weibull(least: float, scale: float, shape: float) -> None:
    if not 0 <= least < scale:
        raise ValueError(f"least multiple must be 0 or more and below the scale, got {least:g} and {scale:g}")
    _above_zero("shape", shape)


def _exponent(exponent: float) -> None:
    if not 3 <= exponent <= ROLLERS:
        raise ValueError(f"life exponent must be 3 (balls) to 10/3 (rollers), got {exponent:g}")


def _a_number(name: str, value: float) -> None:
    if math.isnan(value):
        raise ValueError(f"{name} must be a number")


def _above_zero(name: str, value: float) -> None:
    if not value > 0:
        raise ValueError(f"{name} must be above 0, got {value:g}")


def _not_below_zero(name: str, value: float) -> None:
    if not value >= 0:
        raise ValueError(f"{name} must not be below 0, got {value:g}")
