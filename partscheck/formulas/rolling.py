"""How a tire's size turns axle speed into road speed.  The loaded radius counts as rolling radius."""

from __future__ import annotations

import math

from partscheck.formulas.ranges import above_zero, not_below_zero

_MM_PER_KM = 1e6


def turns_per_km(loaded_radius: float) -> float:
    """Turns of a wheel on one km.

    n = 10^6 / (2 pi r)
    loaded_radius  r, mm
    Range: r above 0.  A rolling tire stands a little taller than a resting one: 2 to 3 % fewer turns.
    Source: derived; the loaded radius as rolling radius is practice.

    >>> round(turns_per_km(330), 1)  # 2 pi 0.330 m = 2.07345 m a turn
    482.3
    """
    above_zero("loaded radius", loaded_radius)
    return _MM_PER_KM / (2 * math.pi * loaded_radius)


def road_speed(turns_per_minute: float, loaded_radius: float) -> float:
    """Road speed of a wheel that turns at a rate, km/h.

    v = 60 n 2 pi r / 10^6
    turns_per_minute  n
    loaded_radius     r, mm
    Range: n not below 0; r above 0; as in ``turns_per_km`` the real speed is 2 to 3 % higher.
    Source: derived; the loaded radius as rolling radius is practice.

    >>> round(road_speed(800, 330), 2)
    99.53
    """
    not_below_zero("turns per minute", turns_per_minute)
    above_zero("loaded radius", loaded_radius)
    return 60 * turns_per_minute * 2 * math.pi * loaded_radius / _MM_PER_KM
