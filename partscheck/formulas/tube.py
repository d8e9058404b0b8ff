"""Bending of a square or rectangular tube, such as a trailer's tongue.

Lengths in mm.  Welds, holes, fatigue, twisting and buckling of thin walls are not in these formulas.
"""

from __future__ import annotations

import math

from partscheck.formulas.ranges import above_zero, not_below_zero

CORNER_WALLS = 2.0  # outside corner radius of a cold formed tube, in wall thicknesses
_SQUARE_LESS_ROUND = 1 - math.pi / 4
_HALVINGS = 60  # halvings when a wall or a height is looked for


def section_modulus(height: float, width: float, wall: float, corner_walls: float = CORNER_WALLS) -> float:
    """Elastic section modulus of a rectangular tube that is bent over its height, mm3.

    S = 2 I / h, I = I(b, h, R) - I(b - 2 t, h - 2 t, R - t), I(b, h, r) = b h^3 / 12 less its four corners
    height        h, outside, upright side
    width         b, outside
    wall          t; half of the smaller side or more: solid
    corner_walls  R / t, outside corner radius over wall; 0: sharp corners, which real tubes do not have
    Range: height, width and wall above 0; corner_walls 0 to 3; R counts up to a quarter of the smaller side.
    Source: derived (second moment of area of a rectangle with round corners); R = 2 t as AISC tabulates hollow
    sections, recalled.

    >>> round(section_modulus(3, 3, 0.174), 2), round(section_modulus(4, 4, 0.233), 2)  # AISC: 1.64, 3.90 in3
    (1.64, 3.9)
    >>> round(section_modulus(100, 50, 25, corner_walls=0), 1) == round(50 * 100**2 / 6, 1)  # solid, sharp
    True
    """
    for name, value in (("height", height), ("width", width), ("wall", wall)):
        above_zero(name, value)
    if not 0 <= corner_walls <= 3:
        raise ValueError(f"corner radius must be 0 to 3 wall thicknesses, got {corner_walls:g}")
    if math.inf in (height, width):
        return math.inf
    wall = min(wall, height / 2, width / 2)
    radius = min(corner_walls * wall, min(height, width) / 4)
    moment = _second_moment(height, width, radius)
    if 2 * wall < min(height, width):
        moment -= _second_moment(height - 2 * wall, width - 2 * wall, max(0.0, radius - wall))
    return 2 * moment / height


def _second_moment(height: float, width: float, radius: float) -> float:
    """Of a rectangle with round corners about its middle, mm4."""
    middle = height / 2 - radius  # of a corner's circle, above the axis
    corner = (
        radius**4 * (1 / 3 - math.pi / 16) + middle * radius**3 / 3 + middle**2 * radius**2 * _SQUARE_LESS_ROUND
    )
    return width * height**3 / 12 - 4 * corner


def cantilever_moment(load: float, length: float, shock: float = 1.0) -> float:
    """Bending moment where a tongue is first held, N m.

    M = k T L / 1000
    load    T, on its end, N
    length  L, from that end to the first support, mm
    shock   k, 1 at rest
    Range: load and length not below 0; shock above 0.
    Source: derived (a beam held at one end).

    >>> round(cantilever_moment(1334.47, 1016, 2), 1)  # 300 lb on 40 in, twice the load
    2711.6
    """
    not_below_zero("load", load)
    not_below_zero("length", length)
    above_zero("shock factor", shock)
    return shock * load * length / 1000 if load and length else 0.0


def tube_stress(moment: float, modulus: float) -> float:
    """Greatest bending stress, MPa.

    sigma = 1000 M / S
    moment   M, N m
    modulus  S, mm3
    Range: M not below 0; S above 0; not both unbounded.
    Source: recalled (sigma = M / S of any strength handbook).

    >>> round(tube_stress(2711.6, section_modulus(76.2, 76.2, 4.7625)), 1)
    95.5
    """
    not_below_zero("moment", moment)
    above_zero("section modulus", modulus)
    if moment == modulus == math.inf:
        raise ValueError("moment and section modulus must not both be unbounded")
    return 1000 * moment / modulus


def wall_needed(height: float, width: float, modulus: float, corner_walls: float = CORNER_WALLS) -> float:
    """Least wall with which a tube of this outside size has a section modulus, mm; endless: none has it.

    Range: height, width and modulus above 0.
    Source: derived, ``section_modulus`` solved for the wall.

    >>> round(wall_needed(76.2, 76.2, section_modulus(76.2, 76.2, 5)), 6)
    5.0
    """
    above_zero("section modulus", modulus)
    thickest = min(height, width) / 2
    if section_modulus(height, width, thickest, corner_walls) < modulus:
        return math.inf
    least, most = 0.0, thickest
    for _ in range(_HALVINGS):
        middle = (least + most) / 2
        if section_modulus(height, width, middle, corner_walls) < modulus:
            least = middle
        else:
            most = middle
    return most


def height_needed(width: float, wall: float, modulus: float, corner_walls: float = CORNER_WALLS) -> float:
    """Least height with which a tube of this width and wall has a section modulus, mm.

    Range: width, wall and modulus above 0, modulus not unbounded.
    Source: derived, ``section_modulus`` solved for the height.

    >>> round(height_needed(50, 4, section_modulus(80, 50, 4)), 6)
    80.0
    """
    above_zero("section modulus", modulus)
    if modulus == math.inf:
        return math.inf
    least, most = 0.0, 2 * wall
    while section_modulus(most, width, wall, corner_walls) < modulus:
        least, most = most, 2 * most
    for _ in range(_HALVINGS):
        middle = (least + most) / 2
        if section_modulus(middle, width, wall, corner_walls) < modulus:
            least = middle
        else:
            most = middle
    return most
