"""Bending of a spindle: moment, stress and safety at a shoulder or at the root of a journal.

Places are from the hub's seating face, inboard positive, mm.  Fatigue, the notch at the fillet, shear,
thrust and the weld that holds the spindle are not in these formulas.
"""

from __future__ import annotations

import math

from partscheck.formulas.ranges import above_zero, not_below_zero


def shoulder_moment(
    load: float,
    plane: float,
    section: float,
    shock: float = 1.0,
    side_share: float = 0.0,
    loaded_radius: float = 0.0,
) -> float:
    """Bending moment in a section inboard of both bearings, N m; below 0: bent the other way.

    M = k W (xs - x - (K/W) r) / 1000
    load           W, of this wheel, N
    plane          x, where the upright load stands, mm
    section        xs, of the spindle, mm (``shoulder_to_face`` for the shoulder)
    shock          k, 1 at rest
    side_share     K/W: positive on the outside wheel of a bend, negative on the inside (the worse one)
    loaded_radius  r, from the axis to the road, mm
    Range: W and r not below 0; k above 0; share -1.5 to 1.5.
    Source: derived (moments about the section).

    >>> round(shoulder_moment(5115.45, 0, 62, shock=2), 1)
    634.3
    >>> round(shoulder_moment(5115.45, 0, 62, side_share=-0.25, loaded_radius=330), 1)  # inside wheel
    739.2
    """
    not_below_zero("load", load)
    not_below_zero("loaded radius", loaded_radius)
    above_zero("shock factor", shock)
    if not -1.5 <= side_share <= 1.5:
        raise ValueError(f"side force must be -1.5 to 1.5 of the upright load, got {side_share:g}")
    shift = side_share * loaded_radius if side_share else 0.0
    return shock * load * (section - plane - shift) / 1000 if load else 0.0


def journal_moment(outer_reaction: float, outer: float, section: float, shock: float = 1.0) -> float:
    """Bending moment in a section between the two bearings, N m: at the root of the outer journal.

    M = k R_outer (xs - xo) / 1000
    outer_reaction  R_outer, N, sign and all (``bearing.radial_split``, or with cornering)
    outer           xo, effective centre of the outer bearing, mm
    section         xs, mm
    shock           k, 1 at rest
    Range: section not outboard of the outer bearing's centre; k above 0.
    Source: derived (moments about the section; the inner bearing lies inboard of it).

    >>> round(journal_moment(3761.4, -18, 10, shock=2), 1)
    210.6
    """
    above_zero("shock factor", shock)
    if not section >= outer:
        raise ValueError(f"section must not lie outboard of the outer bearing, got {section:g}, {outer:g} mm")
    lever = section - outer
    return shock * outer_reaction * lever / 1000 if outer_reaction and lever else 0.0


def bending_stress(moment: float, diameter: float) -> float:
    """Greatest bending stress in a solid round section, MPa.

    sigma = 32 |M| / (pi d^3)
    moment    M, N m; the sign does not matter
    diameter  d, mm: of the smaller side of a shoulder (the journal, not the collar)
    Range: d above 0; not both unbounded.
    Source: recalled (sigma = M c / I of any strength handbook, with I = pi d^4 / 64).

    >>> round(bending_stress(634.3, 34.925), 1), round(bending_stress(1024.1, 34.925), 1)
    (151.7, 244.9)
    """
    above_zero("diameter", diameter)
    if math.isnan(moment) or (diameter == math.inf and math.isinf(moment)):
        raise ValueError(f"moment must be a known number of N m, got {moment:g}")
    return 32 * abs(moment) * 1000 / (math.pi * diameter**3)


def bending_safety(yield_strength: float, stress: float) -> float:
    """How many times the stress goes into the yield strength.

    s = Sy / sigma
    yield_strength  Sy, MPa
    stress          sigma, MPa
    Range: neither below 0; not both unbounded.
    Source: derived; what is enough is practice.

    >>> round(bending_safety(310, 151.7), 2), round(bending_safety(310, 244.9), 2)
    (2.04, 1.27)
    """
    not_below_zero("yield strength", yield_strength)
    not_below_zero("stress", stress)
    if yield_strength == stress == math.inf:
        raise ValueError("yield strength and stress must not both be unbounded")
    return math.inf if stress == 0 else yield_strength / stress


def moment_allowed(diameter: float, allowed_stress: float) -> float:
    """Bending moment that a solid round section may carry, N m.

    M = pi d^3 sigma / 32
    diameter        d, mm
    allowed_stress  sigma, MPa (yield strength over the safety wanted)
    Range: d above 0, sigma above 0.
    Source: derived, ``bending_stress`` solved for M.

    >>> round(moment_allowed(34.925, 310 / 1.5), 1)
    864.3
    """
    above_zero("diameter", diameter)
    above_zero("allowed stress", allowed_stress)
    return math.pi * diameter**3 * allowed_stress / 32 / 1000


def diameter_needed(moment: float, allowed_stress: float) -> float:
    """Diameter of a solid round section that a bending moment asks for, mm.

    d = (32 |M| / (pi sigma))^(1/3)
    moment          M, N m; the sign does not matter
    allowed_stress  sigma, MPa (yield strength over the safety wanted)
    Range: sigma above 0; not both unbounded.
    Source: derived, ``bending_stress`` solved for d.

    >>> round(diameter_needed(1024.1, 310 / 1.5), 2)
    36.96
    """
    above_zero("allowed stress", allowed_stress)
    if math.isnan(moment) or (allowed_stress == math.inf and math.isinf(moment)):
        raise ValueError(f"moment must be a known number of N m, got {moment:g}")
    return float((32 * abs(moment) * 1000 / (math.pi * allowed_stress)) ** (1 / 3))
