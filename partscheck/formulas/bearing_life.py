"""Wheel bearings: rating life, what it comes to on the road, over a duty, and how many reach it.

Loads and ratings are in N; life is in millions of turns unless a name says km or hours.  The life of a pair
at one load: ``bearing_load.pair_loads``, then ``life`` and ``distance`` of each; over several conditions of
driving: ``duty_life``.
"""

from __future__ import annotations

import math

from partscheck.formulas.ranges import above_zero, not_below_zero

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Sequence

ROLLERS = 10 / 3  # exponent of the life of roller bearings (ISO 281)
BALLS = 3.0  # of ball bearings

_WHOLE = 1e-6  # shares of a duty that are this near to 1 make a whole


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
    above_zero("rating", rating)
    not_below_zero("load", load)
    _exponent(exponent)
    _not_both_unbounded("rating", rating, "load", load)
    return math.inf if load == 0 else _power(rating / load, exponent)


def rating_needed(load: float, turns: float, exponent: float = ROLLERS) -> float:
    """Dynamic rating for 1 million turns that a load and a life ask for, N.

    C = P L^(1/a)
    load      P, N
    turns     L, millions of turns
    exponent  a, as in ``life``
    Range: P not below 0; L above 0.
    Source: published, the life formula solved for C; Shigley 10e Prob 11-3, secondary copy read.

    >>> round(rating_needed(13.92, 60 * 40000 * 520 / 1e6), 1)  # kN; printed 118
    118.2
    """
    not_below_zero("load", load)
    above_zero("turns", turns)
    _exponent(exponent)
    return load * _power(turns, 1 / exponent) if load else 0.0


def rating_for_turns(
    rating: float, rated_turns: float, turns: float = 1e6, exponent: float = ROLLERS
) -> float:
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
    (27810, 3.857)
    """
    not_below_zero("rating", rating)
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
    not_below_zero("loaded radius", loaded_radius)
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
    not_below_zero("turns", turns)
    above_zero("loaded radius", loaded_radius)
    return 1000 * turns * distance_per_turn(loaded_radius)


def hours(turns: float, rpm: float) -> float:
    """Life as hours at a speed.

    h = L x 10^6 / (60 n)
    turns  L, millions of turns
    rpm    n, turns a minute
    Range: L not below 0; n above 0, finite.
    Source: published, ISO 281 form as textbooks print it; secondary copies read.

    >>> round(hours(life(7350, 3000, BALLS), 720), 2)  # graduate engineering exam: 340.419
    340.42
    """
    not_below_zero("turns", turns)
    above_zero("speed", rpm)
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
        not_below_zero("share", share)
        not_below_zero("life", each)
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
    not_below_zero("life ratio", life_ratio)
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


def _power(base: float, exponent: float) -> float:
    """Power whose overflow is an unbounded answer, not an error."""
    try:
        return math.pow(base, exponent)
    except OverflowError:
        return math.inf


def _weibull(least: float, scale: float, shape: float) -> None:
    if not 0 <= least < scale:
        raise ValueError(f"least multiple must be 0 or more and below the scale, got {least:g} and {scale:g}")
    above_zero("shape", shape)


def _exponent(exponent: float) -> None:
    if not 3 <= exponent <= ROLLERS:
        raise ValueError(f"life exponent must be 3 (balls) to 10/3 (rollers), got {exponent:g}")


def _not_both_unbounded(name: str, value: float, other: str, divisor: float) -> None:
    if value == divisor == math.inf:
        raise ValueError(f"{name} and {other} must not both be unbounded")
