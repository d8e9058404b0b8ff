"""Wheel bearings: thrust of the opposed pair, equivalent dynamic and static load.

Loads are in N, ratings likewise.  Radial loads come from ``bearing``; what life they leave stands in
``bearing_life``.
"""

from __future__ import annotations

import math

from partscheck.formulas.ranges import above_zero, not_below_zero

HALF = 0.5  # induced thrust: 0.5 Fr/Y with ISO's Y; 0.47 Fr/K with the K of inch data sheets


def induced_thrust(radial: float, y_factor: float, factor: float = HALF) -> float:
    """Thrust that a radial load sets up in a tapered bearing, N.

    S = 0.5 |Fr| / Y
    radial    Fr, N; the sign does not matter
    y_factor  Y (or K)
    factor    0.5 with Y; 0.47 with K
    Range: Y above 0; factor above 0, at most 1.
    Source: recalled (bearing handbooks) for 0.5 Fr/Y; for 0.47 Fr/K after Shigley ch. 11, secondary copy
    read.

    >>> round(induced_thrust(3761.4, 1.6), 1)
    1175.4
    """
    above_zero("factor Y", y_factor)
    if not 0 < factor <= 1:
        raise ValueError(f"factor must be above 0 and at most 1, got {factor:g}")
    _a_number("radial load", radial)
    _not_both_unbounded("radial load", abs(radial), "factor Y", y_factor)
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
    not_below_zero("axial load", axial)
    above_zero("factor e", e_factor)
    above_zero("factor Y", y_factor)
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
    Range: none of them below 0; X and Y finite.
    Source: published, ISO 281 form as textbooks print it; secondary copy read.

    >>> round(equivalent_load(2500, 1000, 0.56, 1.6), 6)  # graduate engineering exam: 3000 N
    3000.0
    """
    named = (("radial load", radial), ("axial load", axial), ("factor X", x_factor), ("factor Y", y_factor))
    for name, value in named:
        not_below_zero(name, value)
    if math.inf in (x_factor, y_factor):
        raise ValueError("factors X and Y must be known")
    # A factor of 0 leaves its load out, however great that may be.
    return (x_factor * radial if x_factor else 0.0) + (y_factor * axial if y_factor else 0.0)


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
    not_below_zero("axial load", axial)
    above_zero("factor Y0", y0_factor)
    _a_number("radial load", radial)
    size = abs(radial)
    return max(size, 0.5 * size + (y0_factor * axial if axial else 0.0))


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
    not_below_zero("static rating", static_rating)
    not_below_zero("static load", static_load)
    _not_both_unbounded("static rating", static_rating, "static load", static_load)
    return math.inf if static_load == 0 else static_rating / static_load


def _not_both_unbounded(name: str, value: float, other: str, divisor: float) -> None:
    if value == divisor == math.inf:
        raise ValueError(f"{name} and {other} must not both be unbounded")


def _a_number(name: str, value: float) -> None:
    if math.isnan(value):
        raise ValueError(f"{name} must be a number")
