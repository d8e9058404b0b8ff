"""What the bolts and the plates of a joint carry: shear, tension, bearing, tear-out, net section.

Capacities are of one bolt (or one plate) in N, already divided by ``safety``.  Lengths in mm, areas in
mm2, strengths in MPa.  Which strength goes with which safety is the method's: Shigley divides proof or
yield strength by a design factor, AISC 360 divides tensile strength by omega (2.00 for these limits).
The two are never mixed in one check.
"""

from __future__ import annotations

import math

SHEAR_TO_TENSILE = 0.577  # 1/sqrt(3), distortion energy (Shigley)


def bolt_shear_strength(
    area: float,
    strength: float,
    planes: int = 1,
    safety: float = 1.0,
    shear_factor: float = SHEAR_TO_TENSILE,
) -> float:
    """Shear that one bolt carries across its shank or its thread, N.

    V = f S A m / n
    area          A, of the shank where the whole body crosses every shear plane, else of the thread's root
    strength      S, proof or yield strength (Shigley), or a shear strength itself with a factor of 1
    planes        m, shear planes: a lap has 1, a fork 2
    safety        n
    shear_factor  f: 0.577; 1 where S is a shear strength, such as AISC's Fnv
    Range: A and S not below 0; m at least 1; n at least 1; f above 0, at most 1.
    Source: published, Shigley 9e pp. 454-455; secondary copy read.

    >>> shank = math.pi / 4 * 0.75**2
    >>> round(4 * bolt_shear_strength(shank, 85, safety=1.5), 1)  # four 3/4 grade 5, kip; printed 57.8
    57.8
    """
    _not_below_zero(("area", area), ("strength", strength))
    if planes < 1:
        raise ValueError(f"shear planes must be 1 or more, got {planes}")
    _factor("shear factor", shear_factor, 1)
    return _times(shear_factor * planes, strength, area) / _safety(safety)


def bolt_tension_strength(stress_area: float, strength: float, safety: float = 1.0) -> float:
    """Pull that one bolt carries, N.

    T = At S / n
    stress_area  At, mm2
    strength     S, proof (Shigley) or tensile strength, MPa
    safety       n
    Range: At and S not below 0; n at least 1.  Prying and bending are not in it.
    Source: published, Shigley 9e ch. 8 (At Sp); secondary copy read.

    >>> round(bolt_tension_strength(0.1419, 150), 1)  # 1/2-13 grade 8 at its tensile strength, kip
    21.3
    """
    _not_below_zero(("stress area", stress_area), ("strength", strength))
    return _times(1, strength, stress_area) / _safety(safety)


def combined_use(shear: float, shear_capacity: float, tension: float, tension_capacity: float) -> float:
    """How much of a bolt is used by shear and tension together; it holds up to 1.

    u = sqrt((V/Vc)^2 + (T/Tc)^2), the ellipse (V/Vc)^2 + (T/Tc)^2 = 1
    shear, tension                    V, T on the bolt, N
    shear_capacity, tension_capacity  Vc, Tc: each alone, with its safety, N
    Range: none below 0.  1/u is how many times the loads may grow together; inf where a capacity is 0.
    Source: recalled (commentary to AISC 360 J3.7, which replaces the ellipse by straight lines:
    ``tension_strength_with_shear``).

    >>> combined_use(300, 1000, 400, 1000)
    0.5
    """
    _not_below_zero(
        ("shear", shear),
        ("tension", tension),
        ("shear capacity", shear_capacity),
        ("tension capacity", tension_capacity),
    )
    return math.hypot(_use(shear, shear_capacity), _use(tension, tension_capacity))


def tension_strength_with_shear(
    tensile_strength: float, shear_strength: float, shear_stress: float, safety: float = 2.0
) -> float:
    """Nominal tensile strength left in a bolt that also carries shear, MPa; divide by safety for use.

    F'nt = 1.3 Fnt - (omega Fnt / Fnv) frv, at most Fnt, not below 0
    tensile_strength  Fnt, nominal, MPa
    shear_strength    Fnv, nominal, MPa
    shear_stress      frv, on the bolt's shank area under the working load, MPa
    safety            omega: 2.00
    Range: Fnt and frv not below 0; Fnv above 0; omega at least 1.
    Source: published, AISC 360 (2010) eq J3-3b; secondary copy read.  Fnt and Fnv differ by edition:
    F'nt is only as good as the pair that goes in.

    >>> round(tension_strength_with_shear(90, 48, 4.43), 1)  # ksi, A325-N of the 2005 edition
    90
    >>> round(tension_strength_with_shear(90, 48, 20), 1)
    42.0
    """
    _not_below_zero(("tensile strength", tensile_strength), ("shear stress", shear_stress))
    if not shear_strength > 0:
        raise ValueError(f"shear strength must be above 0, got {shear_strength:g}")
    used = _times(_safety(safety), tensile_strength, _use(shear_stress, shear_strength))
    return max(0.0, min(tensile_strength, 1.3 * tensile_strength - used)) if used < math.inf else 0.0


def bearing_strength(
    diameter: float, thickness: float, strength: float, safety: float = 1.0, factor: float = 2.4
) -> float:
    """Load at which a bolt crushes the wall of its hole, N.

    R = c d t S / n
    diameter   d, of the bolt
    thickness  t, of the plate
    strength   S, tensile strength Fu of the plate (AISC); or proof / yield strength with a factor of 1
    safety     n
    factor     c: 2.4 (AISC 360, standard holes), 1 (Shigley)
    Range: d, t, S not below 0; n at least 1; c above 0, at most 3.  Threads in bearing carry less.
    Source: published, AISC 360 as worked in the Structural Steel Designer's Handbook p. 3.42; Shigley 9e
    pp. 454-455; secondary copies read.

    >>> round(0.75 * bearing_strength(0.875, 0.375, 58), 2)  # 7/8 on 3/8 plate, kip; printed 34.3, cut off
    34.26
    """
    _not_below_zero(("diameter", diameter), ("thickness", thickness), ("strength", strength))
    _factor("bearing factor", factor, 3)
    return _times(factor, strength, _times(1, diameter, thickness)) / _safety(safety)


def clear_to_edge(edge: float, hole: float) -> float:
    """Clear distance from the rim of a hole to the edge, mm; below 0 the hole breaks out.

    Lc = e - h/2
    edge  e, from the hole's centre to the edge, along the load
    hole  h, diameter of the hole
    Range: e and h not below 0.
    Source: published, AISC 360 as worked in the Structural Steel Designer's Handbook p. 3.42; secondary
    copy read.

    >>> clear_to_edge(1.5, 15 / 16) == 1.5 - 15 / 32
    True
    """
    _not_below_zero(("edge distance", edge), ("hole", hole))
    return -math.inf if hole == math.inf else edge - hole / 2


def clear_between(spacing: float, hole: float) -> float:
    """Clear distance between two holes in line with the load, mm; below 0 they run together.

    Lc = s - h
    spacing  s, centre to centre, along the load
    hole     h, diameter of the holes
    Range: s and h not below 0.
    Source: published, AISC 360 as worked in the Structural Steel Designer's Handbook p. 3.42; secondary
    copy read.

    >>> clear_between(3, 15 / 16) == 3 - 15 / 16
    True
    """
    _not_below_zero(("spacing", spacing), ("hole", hole))
    return -math.inf if hole == math.inf else spacing - hole


def tear_out_strength(
    clear: float, thickness: float, strength: float, safety: float = 1.0, factor: float = 1.2
) -> float:
    """Load at which a bolt tears out of the plate in front of it, N; 0 where no metal is left.

    R = c Lc t Fu / n
    clear      Lc, clear distance (``clear_to_edge``, ``clear_between``), not the distance of the centre
    thickness  t
    strength   Fu, tensile strength of the plate
    safety     n
    factor     c: 1.2 (AISC 360, where the hole's deformation counts)
    Range: t and Fu not below 0; n at least 1; c above 0, at most 1.5.
    Source: published, AISC 360 as worked in the Structural Steel Designer's Handbook p. 3.42 and the
    Handbook of Structural Steel Connection Design p. 43; secondary copies read.

    >>> round(0.75 * tear_out_strength(2 - 0.594, 0.525, 65), 2)  # kip; printed 43.1, cut off
    43.18
    """
    _not_below_zero(("thickness", thickness), ("strength", strength))
    _factor("tear-out factor", factor, 1.5)
    if math.isnan(clear):
        raise ValueError("clear distance must be a number")
    return _times(factor, strength, _times(1, max(0.0, clear), thickness)) / _safety(safety)


def edge_against_tear_out(
    load: float,
    hole: float,
    thickness: float,
    strength: float,
    safety: float = 1.0,
    factor: float = 1.2,
) -> float:
    """Distance from hole centre to edge at which a bolt just does not tear out, mm.

    e = P n / (c t Fu) + h/2, the inverse of ``tear_out_strength`` with ``clear_to_edge``
    load  P, of one bolt, N
    hole, thickness, strength, safety, factor  as in those two
    Range: P and h not below 0; t and Fu above 0; n at least 1; c above 0, at most 1.5.
    Source: published, as ``tear_out_strength``.

    >>> round(edge_against_tear_out(43.18 / 0.75, 1.188, 0.525, 65), 2)
    2.0
    """
    _not_below_zero(("load", load), ("hole", hole))
    _factor("tear-out factor", factor, 1.5)
    for name, value in (("thickness", thickness), ("strength", strength)):
        if not value > 0:
            raise ValueError(f"{name} must be above 0, got {value:g}")
    return _use(load * _safety(safety), factor * thickness * strength) + hole / 2


def edge_shear_strength(
    edge: float,
    thickness: float,
    strength: float,
    safety: float = 1.0,
    shear_factor: float = SHEAR_TO_TENSILE,
) -> float:
    """Load at which the plate in front of one bolt shears on two planes, N, Shigley's form.

    V = f S (2 a t) / n
    edge          a, from the hole's centre to the edge, along the load
    thickness     t
    strength      S, yield strength of the plate
    safety        n
    shear_factor  f: 0.577
    Range: a, t, S not below 0; n at least 1; f above 0, at most 1.
    It counts the metal beside the hole too; ``tear_out_strength`` counts only the clear distance.
    Source: published, Shigley 9e pp. 454-455; secondary copy read.

    >>> round(2 * edge_shear_strength(1.125, 1, 54, safety=1.5), 1)  # two bolts at the edge, kip
    93.5
    """
    _not_below_zero(("edge distance", edge), ("thickness", thickness), ("strength", strength))
    _factor("shear factor", shear_factor, 1)
    return _times(2 * shear_factor, strength, _times(1, edge, thickness)) / _safety(safety)


def net_section_strength(
    width: float,
    thickness: float,
    strength: float,
    holes: int = 0,
    hole: float = 0.0,
    safety: float = 1.0,
) -> float:
    """Pull that a flat bar carries across a row of holes, N; 0 where no metal is left.

    R = (w - N h) t S / n; no holes: the whole member
    width      w, across the load
    thickness  t
    strength   S, yield or tensile strength
    holes      N, in one row across the load
    hole       h, diameter of each
    safety     n
    Range: w, t, S, N, h not below 0; n at least 1.  Staggered rows are not in it.
    Source: published, Shigley 9e pp. 454-455; secondary copy read.

    >>> round(net_section_strength(4, 1, 54, holes=2, hole=0.75, safety=1.5), 6)  # kip; printed 90
    90.0
    """
    _not_below_zero(("width", width), ("thickness", thickness), ("strength", strength))
    _not_below_zero(("count of holes", holes), ("hole", hole))
    drilled = _times(1, holes, hole)
    net = 0.0 if drilled == math.inf else max(0.0, width - drilled)
    return _times(1, strength, _times(1, net, thickness)) / _safety(safety)


def _safety(safety: float) -> float:
    if not safety >= 1:
        raise ValueError(f"safety must be 1 or more, got {safety:g}")
    return safety


def _factor(name: str, value: float, most: float) -> None:
    if not 0 < value <= most:
        raise ValueError(f"{name} must be above 0 and at most {most:g}, got {value:g}")


def _not_below_zero(*named: tuple[str, float]) -> None:
    for name, value in named:
        if not value >= 0:
            raise ValueError(f"{name} must not be below 0, got {value:g}")


def _use(load: float, capacity: float) -> float:
    """Load / capacity; nothing asked uses nothing, nothing there is used up without bound."""
    if load == 0:
        return 0.0
    if capacity == 0 or load == math.inf:
        return math.inf
    return load / capacity


def _times(first: float, second: float, third: float) -> float:
    """Product in which nothing of something unbounded is nothing."""
    return 0.0 if 0 in (first, second, third) else first * second * third
