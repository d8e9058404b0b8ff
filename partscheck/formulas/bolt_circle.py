"""Bolt circles: chords, hole places, and two circles of holes in one plate.

Any unit of length serves, the answer comes back in it; the house unit is mm.
"""

from __future__ import annotations

import math


def chord(diameter: float, count: int, skip: int = 1) -> float:
    """Distance between two holes of a bolt circle, centre to centre.

    chord = D sin(180 deg x skip / n)
    diameter  D, bolt circle
    count     n, holes
    skip      steps between the two holes: 1 neighbours, 2 the next but one ("every other")
    Range: D not below 0; n at least 2; skip 1 to n/2.
    Source: derived (exact by geometry).

    >>> round(chord(4.5, 5), 4), round(chord(1, 5, skip=2), 5)
    (2.645, 0.95106)
    """
    if not diameter >= 0:
        raise ValueError(f"bolt circle must not be below 0, got {diameter:g}")
    return diameter * _chord_factor(count, skip)


def diameter_from_chord(chord: float, count: int, skip: int = 1) -> float:
    """Bolt circle from a measured distance between two holes, centre to centre.

    D = chord / sin(180 deg x skip / n)
    chord, count, skip as in ``chord``
    Range: chord not below 0; n at least 2; skip 1 to n/2.
    Source: derived (exact by geometry).

    >>> round(diameter_from_chord(2.645, 5), 3), round(diameter_from_chord(1, 5, skip=2), 5)
    (4.5, 1.05146)
    """
    if not chord >= 0:
        raise ValueError(f"chord must not be below 0, got {chord:g}")
    return chord / _chord_factor(count, skip)


def hole_coordinates(
    diameter: float, count: int, first_deg: float = 0.0, centre: tuple[float, float] = (0.0, 0.0)
) -> list[tuple[float, float]]:
    """Places of the holes, counter-clockwise from the first.

    x = cx + D/2 cos(a), y = cy + D/2 sin(a), a = first + 360 deg x i / n
    diameter   D, bolt circle
    count      n, holes
    first_deg  angle of the first hole, deg, counter-clockwise from the x axis
    centre     (cx, cy)
    Range: D not below 0; n at least 1.
    Source: published, Machinery's Handbook 31 p. 711 (its numeric example); secondary copy read.

    >>> [(round(x, 4), round(y, 4)) for x, y in hole_coordinates(10, 6, 30, (7.5, 6.0))[:2]]
    [(11.8301, 8.5), (7.5, 11.0)]
    """
    if not diameter >= 0:
        raise ValueError(f"bolt circle must not be below 0, got {diameter:g}")
    _whole("count of holes", count, 1)
    radius = diameter / 2
    angles = [math.radians(first_deg + 360 * i / count) for i in range(count)]
    return [(centre[0] + radius * math.cos(a), centre[1] + radius * math.sin(a)) for a in angles]


def centre_distance(circle1: float, circle2: float, angle_deg: float) -> float:
    """Distance between a hole of one circle and a hole of another about the same centre.

    c = sqrt(r1^2 + r2^2 - 2 r1 r2 cos a)
    circle1, circle2  bolt circles (diameters); r is half
    angle_deg         a, angle between the two holes seen from the centre, deg
    Range: circles not below 0.
    Source: derived (law of cosines).

    >>> round(centre_distance(114.3, 139.7, 36), 3)
    41.062
    """
    if not (circle1 >= 0 and circle2 >= 0):
        raise ValueError(f"bolt circles must not be below 0, got {circle1:g} and {circle2:g}")
    r1, r2 = circle1 / 2, circle2 / 2
    # The same law, written so that two near-equal circles at a small angle lose no digits.
    return math.hypot(r1 - r2, 2 * math.sqrt(r1 * r2) * math.sin(math.radians(angle_deg) / 2))


def best_clocking(circle1: float, count1: int, circle2: float, count2: int) -> tuple[float, float]:
    """Turn two circles of holes so that their nearest holes are as far apart as they can be.

    a = 180 deg / lcm(n1, n2); c as in ``centre_distance``
    circle1, circle2  bolt circles (diameters)
    count1, count2    n1, n2, holes in each
    Answer: (a, c): the angle from a hole of one circle to the nearest of the other, deg, which is also
    how far to turn one circle from two holes in line; and the distance of those two centres.
    Range: circles not below 0; n at least 1.
    Source: derived; the differences of hole angles step by 360/lcm, so the least is at best half a step.

    >>> angle, distance = best_clocking(114.3, 5, 139.7, 6)
    >>> round(angle, 6), round(distance, 3)
    (6.0, 14.319)
    """
    _whole("count of holes", count1, 1)
    _whole("count of holes", count2, 1)
    angle = 180 / math.lcm(count1, count2)
    return angle, centre_distance(circle1, circle2, angle)


def metal_between(centre_distance: float, pocket_diameter: float, knurl_diameter: float) -> float:
    """Metal left between a nut pocket and the knurl of a pressed-in stud; below 0 they run together.

    m = c - pocket/2 - knurl/2
    centre_distance  c
    pocket_diameter  of the counterbore that takes the nut
    knurl_diameter   of the stud
    Range: none of them below 0.
    Source: derived.

    >>> round(metal_between(41.062, 27.94, 14.478), 2)
    19.85
    """
    if not (centre_distance >= 0 and pocket_diameter >= 0 and knurl_diameter >= 0):
        raise ValueError("distance, pocket and knurl must not be below 0")
    return centre_distance - pocket_diameter / 2 - knurl_diameter / 2


def _chord_factor(count: int, skip: int) -> float:
    _whole("count of holes", count, 2)
    _whole("steps between the holes", skip, 1)
    if 2 * skip > count:
        raise ValueError(f"steps between the holes must be at most half of {count}, got {skip}")
    return math.sin(math.pi * skip / count)


def _whole(name: str, value: int, least: int) -> None:
    if value != int(value) or value < least:
        raise ValueError(f"{name} must be a whole number, {least} or more, got {value:g}")
