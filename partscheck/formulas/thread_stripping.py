"""Pull at which an engaged thread strips, and shear areas that need no limits of size.

The areas at least material stand in ``threads`` (``internal_thread_strip_area``,
``external_thread_strip_area``) and take their limits from a table or from ``thread_limits``.  They rule.
The simplified and the basic-size areas here are for a first look.
"""

from __future__ import annotations

import math

HALF = 0.5  # shear strength / tensile strength in FED-STD-H28


def stripping_load(strip_area: float, tensile_strength: float, shear_factor: float = HALF) -> float:
    """Pull at which a thread strips off, N.

    F = f Su As
    strip_area        As over the engaged length, mm2
    tensile_strength  Su of the part whose thread strips, MPa
    shear_factor      f: 0.5, as FED-STD-H28/2B takes it
    Range: As and Su not below 0; f above 0, at most 1.
    Source: published, FED-STD-H28/2B (1991) Table II.B.1 (the 2 in formulas (14) and (16)); secondary copy
    read.

    >>> round(stripping_load(1.1235 * 0.375, 58), 2)  # 1/2-13 in 3/8 in of A36, kip
    12.22
    """
    if not (strip_area >= 0 and tensile_strength >= 0):
        given = f"{strip_area:g} and {tensile_strength:g}"
        raise ValueError(f"shear area and strength must not be below 0, got {given}")
    if not 0 < shear_factor <= 1:
        raise ValueError(f"shear factor must be above 0 and at most 1, got {shear_factor:g}")
    return 0.0 if 0 in (strip_area, tensile_strength) else shear_factor * tensile_strength * strip_area


def engagement_for_load(
    load: float, strip_area_per_mm: float, tensile_strength: float, shear_factor: float = HALF
) -> float:
    """Engaged length at which a thread just carries a pull, mm.

    Le = F / (f Su As1), the inverse of ``stripping_load``
    load               F, N
    strip_area_per_mm  As1 of 1 mm engaged, mm2 per mm
    tensile_strength, shear_factor  as in ``stripping_load``
    Range: F not below 0; As1 and Su above 0; f above 0, at most 1.
    Source: published, as ``stripping_load``.

    >>> round(engagement_for_load(21.285, 1.1235, 58), 3)  # 1/2-13 grade 8 in A36, kip and in
    0.653
    """
    if not load >= 0:
        raise ValueError(f"load must not be below 0 N, got {load:g}")
    one = stripping_load(strip_area_per_mm, tensile_strength, shear_factor)
    if not one > 0:
        raise ValueError("shear area per mm and strength must be above 0")
    return load / one if load < math.inf else math.inf


def internal_strip_area_simplified(length: float, pitch_diameter: float) -> float:
    """Shear area of the internal thread, simplified, mm2.

    ASn = 3/4 pi E L
    length          L, engaged, mm
    pitch_diameter  E, basic, mm
    Range: L not below 0; E above 0; thread of 1/4 in and over.  Against the area at least material: 5 to
    7 % less for coarse threads of 1/4 to 1 in, up to 3 % more for fine ones.
    Source: published, FED-STD-H28/2B (1991) Table II.B.1 formula (3); secondary copy read.

    >>> round(internal_strip_area_simplified(1, 0.45004), 4)  # 1/2-13, in2 per in; least material 1.1235
    1.0604
    """
    return 3 / 4 * _cylinder(length, pitch_diameter)


def external_strip_area_simplified(length: float, pitch_diameter: float) -> float:
    """Shear area of the external thread, simplified, mm2.

    ASs = 5/8 pi E L
    length          L, engaged, mm
    pitch_diameter  E, basic, mm
    Range: L not below 0; E above 0.  TRAP: more than the area at least material (9 to 19 % from 1/4 to
    1 in): not the safe side.
    Source: published, FED-STD-H28/2B (1991) Table II.B.1 formula (5); secondary copy read.

    >>> round(external_strip_area_simplified(1, 0.45), 4)  # 1/2-13, in2 per in; least material .7789
    0.8836
    """
    return 5 / 8 * _cylinder(length, pitch_diameter)


def internal_strip_area_basic(length: float, diameter: float) -> float:
    """Shear area of the internal thread when both threads have their basic size, mm2.

    ASn = 7/8 pi d L
    length    L, engaged, mm
    diameter  d, nominal, mm
    Range: L not below 0; d above 0.  TRAP: an upper bound; real threads are cut with tolerance.
    Source: published, ISO/TR 16224:2012 clause 4.2.3.1 with basic sizes; secondary copy read.

    >>> round(internal_strip_area_basic(1, 0.5), 4)  # 1/2-13, in2 per in; least material 1.1235
    1.3744
    """
    return 7 / 8 * _cylinder(length, diameter)


def external_strip_area_basic(length: float, internal_minor: float) -> float:
    """Shear area of the external thread when both threads have their basic size, mm2.

    ASs = 3/4 pi D1 L
    length          L, engaged, mm
    internal_minor  D1, basic minor diameter of the internal thread, d - 1.082532 p, mm
    Range: L not below 0; D1 above 0.  TRAP: an upper bound; real threads are cut with tolerance.
    Source: published, FED-STD-H28/2B (1991) Table II.B.1 formula (6b); secondary copy read.

    >>> round(external_strip_area_basic(1, 0.41673), 4)  # 1/2-13, in2 per in; least material .7789
    0.9819
    """
    return 3 / 4 * _cylinder(length, internal_minor)


def insert_pull_out(length: float, mean_diameter: float, shear_strength: float) -> float:
    """Pull-out of a thread in a soft part, the cautious form with a third of the cylinder, N.

    P = pi dm Fs L / 3
    length          L, engaged, mm
    mean_diameter   dm, mean of the thread, about its pitch diameter, mm
    shear_strength  Fs of the tapped part, MPa (a shear strength, not a tensile one)
    Range: L and Fs not below 0; dm above 0.  The third is empirical; threads that mate perfectly have a half.
    Source: published, NASA RP-1228; secondary copy read.  No printed number was found to check it with.

    >>> round(insert_pull_out(0.5, 0.45, 36000))  # 1/2-13, lbf and in
    8482
    """
    if not shear_strength >= 0:
        raise ValueError(f"shear strength must not be below 0 MPa, got {shear_strength:g}")
    area = _cylinder(length, mean_diameter)
    return 0.0 if 0 in (area, shear_strength) else area * shear_strength / 3


def _cylinder(length: float, diameter: float) -> float:
    if not length >= 0:
        raise ValueError(f"engaged length must not be below 0 mm, got {length:g}")
    if not diameter > 0:
        raise ValueError(f"diameter must be above 0 mm, got {diameter:g}")
    return 0.0 if length == 0 else math.pi * diameter * length
