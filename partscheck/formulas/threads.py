"""Screw threads: diameters, areas, and how much thread must be engaged.

Everything is in mm and mm2; ``tpi`` is threads per inch, as in the callout 1/2-13.

TRAP: the inch (UN) and the metric (ISO) stress area are two formulas.  The UN form takes 0.9743 pitches
off the diameter, the ISO form 0.9382; the wrong one is 1.3 % off at 1/2-13 and at M8.
"""

from __future__ import annotations

import math

from partscheck.formulas.ranges import above_zero

_INCH = 25.4
_UN_STRESS = 9 * math.sqrt(3) / 16  # 0.97428, printed 0.9743
_ISO_STRESS = 13 * math.sqrt(3) / 24  # 0.938194, printed 0.9382
_UN_MINOR = 3 * math.sqrt(3) / 4  # 1.299038
_ISO_MINOR = 17 * math.sqrt(3) / 24  # 1.226869
_PITCH_LINE = 3 * math.sqrt(3) / 8  # 0.649519
_SHEAR_TO_TENSILE = 0.577  # 1/sqrt(3), distortion energy


def stress_area_un(diameter_mm: float, tpi: float) -> float:
    """Tensile stress area of an inch (UN) thread, mm2.

    At = pi/4 (D - 0.9743/n)^2, D and 1/n in one unit; the factor is 9 sqrt(3)/16 = 0.97428.
    diameter_mm  D, basic major diameter, mm
    tpi          n, threads per inch
    Range: D more than one pitch.  Not for metric threads: see ``stress_area_iso``.
    Source: published, ASME B1.1; FED-STD-H28/2B (1991) Table II.B.1 formula (1b); secondary copy read.

    >>> round(stress_area_un(12.7, 13) / 25.4**2, 4)  # 1/2-13, in2; printed .1419
    0.1419
    """
    return _circle(_diameter_less(_UN_STRESS, diameter_mm, _pitch_of(tpi)))


def stress_area_un_high_strength(least_pitch_diameter_mm: float, tpi: float) -> float:
    """Tensile stress area of an inch thread in high-strength steel, mm2.

    At = pi (Es/2 - 0.16238/n)^2, Es and 1/n in one unit.
    least_pitch_diameter_mm  Es,min, least pitch diameter of the external thread, mm
    tpi                      n, threads per inch
    Range: Es more than one pitch.  Sources disagree where high strength begins (100 or 180 ksi).
    Source: published, Machinery's Handbook 31 p. 1668 eq (2b); secondary copy read.

    >>> round(stress_area_un_high_strength(0.4435 * 25.4, 13) / 25.4**2, 5)  # 1/2-13, printed .13757
    0.13757
    """
    pitch = _pitch_of(tpi)
    if not least_pitch_diameter_mm > pitch:
        raise ValueError(_too_thin("least pitch diameter", least_pitch_diameter_mm, pitch))
    return math.pi * (least_pitch_diameter_mm / 2 - 3 * math.sqrt(3) / 32 * pitch) ** 2


def stress_area_iso(diameter_mm: float, pitch_mm: float) -> float:
    """Tensile stress area of a metric (ISO) thread, mm2.

    As = pi/4 (d - 0.9382 P)^2; the factor is 13 sqrt(3)/24 = 0.938194.
    diameter_mm  d, nominal diameter, mm
    pitch_mm     P, mm
    Range: d more than one pitch.  Not for inch threads: see ``stress_area_un``.
    Source: published, ISO 898-1, as reprinted in an engineering reference; secondary copy read.

    >>> round(stress_area_iso(12, 1.75), 1)  # M12, printed 84.3
    84.3
    """
    return _circle(_diameter_less(_ISO_STRESS, diameter_mm, _checked_pitch(pitch_mm)))


def pitch_diameter(diameter_mm: float, pitch_mm: float) -> float:
    """Basic pitch diameter, mm, inch and metric threads alike (60 deg).

    dp = d - 0.649519 P
    diameter_mm  d, major diameter, mm
    pitch_mm     P, mm
    Range: d more than one pitch.
    Source: published, Shigley, Mechanical Engineering Design, 9e p. 413 footnote; secondary copy read.

    >>> round(pitch_diameter(12.7, 25.4 / 20) / 25.4, 4)  # 1/2-20, in
    0.4675
    """
    return _diameter_less(_PITCH_LINE, diameter_mm, _checked_pitch(pitch_mm))


def minor_area_un(diameter_mm: float, tpi: float) -> float:
    """Area at the root of an inch (UN) external thread, mm2.

    Ar = pi/4 dr^2, dr = D - 1.299038/n, D and 1/n in one unit.
    diameter_mm  D, basic major diameter, mm
    tpi          n, threads per inch
    Range: D more than 1.3 pitches.
    Source: published, Shigley 9e p. 413 footnote and Table 8-2; secondary copy read.

    >>> round(minor_area_un(12.7, 13) / 25.4**2, 4)  # 1/2-13, in2; printed .1257
    0.1257
    """
    return _circle(_diameter_less(_UN_MINOR, diameter_mm, _pitch_of(tpi)))


def minor_area_iso(diameter_mm: float, pitch_mm: float) -> float:
    """Area at the (rounded) root of a metric external thread, mm2.

    A3 = pi/4 d3^2, d3 = d - 1.226869 P
    diameter_mm  d, nominal diameter, mm
    pitch_mm     P, mm
    Range: d more than 1.23 pitches.
    Source: published, ISO/TR 16224:2012 clause 4.2.2.2 (d3 = d1 - H/6); secondary copy read.

    >>> round(minor_area_iso(12, 1.75), 1)
    76.2
    """
    return _circle(_diameter_less(_ISO_MINOR, diameter_mm, _checked_pitch(pitch_mm)))


def internal_thread_strip_area(
    length_mm: float, pitch_mm: float, least_major_mm: float, greatest_internal_pitch_mm: float
) -> float:
    """Shear area of the internal thread (nut, tapped hole), least material, mm2.

    ASn = pi (L/P) ds [P/2 + (ds - En)/sqrt(3)]
    length_mm                   L, engaged length, mm
    pitch_mm                    P, mm
    least_major_mm              ds, least major diameter of the external thread, mm
    greatest_internal_pitch_mm  En, greatest pitch diameter of the internal thread, mm
    Range: L not below 0; ds more than En - 0.87 P (else the threads do not meet).
    Source: published, FED-STD-H28/2B (1991) Table II.B.1 formula (2a); secondary copy read.

    >>> area = internal_thread_strip_area(25.4, 25.4 / 13, 0.4876 * 25.4, 0.4565 * 25.4)  # 1/2-13 2A/2B
    >>> round(area / 25.4**2, 4)  # in2 per inch of length
    1.1235
    """
    gap = least_major_mm - greatest_internal_pitch_mm
    return _strip_area(length_mm, pitch_mm, least_major_mm, gap)


def external_thread_strip_area(
    length_mm: float, pitch_mm: float, greatest_internal_minor_mm: float, least_pitch_mm: float
) -> float:
    """Shear area of the external thread (bolt, stud), least material, mm2.

    ASs = pi (L/P) Kn [P/2 + (Es - Kn)/sqrt(3)]
    length_mm                   L, engaged length, mm
    pitch_mm                    P, mm
    greatest_internal_minor_mm  Kn, greatest minor diameter of the internal thread, mm
    least_pitch_mm              Es, least pitch diameter of the external thread, mm
    Range: L not below 0; Es more than Kn - 0.87 P (else the threads do not meet).
    Source: published, FED-STD-H28/2B (1991) Table II.B.1 formula (4a); secondary copy read.

    >>> area = external_thread_strip_area(25.4, 25.4 / 13, 0.434 * 25.4, 0.4435 * 25.4)  # 1/2-13 2A/2B
    >>> round(area / 25.4**2, 4)  # in2 per inch of length
    0.7789
    """
    gap = least_pitch_mm - greatest_internal_minor_mm
    return _strip_area(length_mm, pitch_mm, greatest_internal_minor_mm, gap)


def engagement_both_strip(stress_area_mm2: float, pitch_diameter_mm: float) -> float:
    """Engaged length at which both threads, shearing together, outlast the bolt, mm.

    Le = 4 At / (pi E)
    stress_area_mm2    At, mm2
    pitch_diameter_mm  E, basic pitch diameter, mm
    Range: both above 0; bolt and hole of like strength.
    Source: published, FED-STD-H28/2B (1991) Table II.B.1 formula (13); secondary copy read.

    >>> round(engagement_both_strip(stress_area_un(12.7, 13), pitch_diameter(12.7, 25.4 / 13)) / 25.4, 4)
    0.4015
    """
    above_zero("stress area", stress_area_mm2)
    above_zero("pitch diameter", pitch_diameter_mm)
    return 4 * stress_area_mm2 / (math.pi * pitch_diameter_mm)


def engagement_screw_strips(stress_area_mm2: float, external_area_per_mm: float) -> float:
    """Engaged length at which the bolt breaks before its own thread strips, mm.

    Le = 2 At / ASs; the 2 is shear strength taken as half the tensile strength.
    stress_area_mm2       At, mm2
    external_area_per_mm  ASs of 1 mm engaged (``external_thread_strip_area``), mm2 per mm
    Range: both above 0.
    Source: published, FED-STD-H28/2B (1991) Table II.B.1 formula (14); secondary copy read.

    >>> per_mm = external_thread_strip_area(1, 25.4 / 13, 0.434 * 25.4, 0.4435 * 25.4)
    >>> round(engagement_screw_strips(stress_area_un(12.7, 13), per_mm) / 25.4, 4)  # in
    0.3643
    """
    above_zero("stress area", stress_area_mm2)
    above_zero("shear area per mm", external_area_per_mm)
    return 2 * stress_area_mm2 / external_area_per_mm


def engagement_hole_strips(
    stress_area_mm2: float, internal_area_per_mm: float, screw_strength: float, hole_strength: float
) -> float:
    """Engaged length at which the bolt breaks before the hole's thread strips, mm.

    Le = (2 At / ASn) (Ss / Sn)
    stress_area_mm2       At, mm2
    internal_area_per_mm  ASn of 1 mm engaged (``internal_thread_strip_area``), mm2 per mm
    screw_strength        Ss, tensile strength of the bolt, MPa (or any one unit with the next)
    hole_strength         Sn, tensile strength of the nut or tapped part
    Range: all above 0.
    Source: published, FED-STD-H28/2B (1991) Table II.B.1 formula (16); secondary copy read.

    >>> per_mm = internal_thread_strip_area(1, 25.4 / 13, 0.4876 * 25.4, 0.4565 * 25.4)
    >>> round(engagement_hole_strips(stress_area_un(12.7, 13), per_mm, 120, 58) / 25.4, 4)  # in
    0.5226
    """
    above_zero("stress area", stress_area_mm2)
    above_zero("shear area per mm", internal_area_per_mm)
    above_zero("strength of the bolt", screw_strength)
    above_zero("strength of the tapped part", hole_strength)
    return 2 * stress_area_mm2 / internal_area_per_mm * screw_strength / hole_strength


def stripping_strength(length_mm: float, pitch_diameter_mm: float, strength_mpa: float) -> float:
    """Pull at which a thread strips off, simple form on the pitch line, N.

    F = 0.577 S (pi dp / 2) L: half of the cylinder at the pitch line is thread.
    length_mm          L, engaged length, mm
    pitch_diameter_mm  dp, mm
    strength_mpa       S, tensile strength of the thread that strips, MPa
    Range: L not below 0, the others above 0.  No allowance for worn, coated or out-of-size threads.
    Source: practice, recalled; shear strength 0.577 S as in Shigley.

    >>> round(stripping_strength(10, 11.8745, 800))  # 1/2-20, 10 mm engaged, 800 MPa
    86100
    """
    if not length_mm >= 0:
        raise ValueError(f"engaged length must not be below 0 mm, got {length_mm:g}")
    above_zero("pitch diameter", pitch_diameter_mm)
    above_zero("strength", strength_mpa)
    return _SHEAR_TO_TENSILE * strength_mpa * math.pi * pitch_diameter_mm / 2 * length_mm


def stripping_engagement(
    stress_area_mm2: float,
    pitch_diameter_mm: float,
    strength_ratio: float = 1.0,
    shear_factor: float = _SHEAR_TO_TENSILE,
) -> float:
    """Engaged length at which a stud breaks before the thread strips, simple form, mm.

    Le = At / (f r pi dp / 2): shear strength on half the pitch-line cylinder equals tensile strength.
    stress_area_mm2    At of the stud, mm2
    pitch_diameter_mm  dp, mm
    strength_ratio     r, tensile strength of the thread that strips / that of the stud (a softer nut: < 1)
    shear_factor       f, shear strength / tensile strength
    Range: all above 0; f at most 1.  With f = 0.5 and r = 1 it is ``engagement_both_strip``.
    Source: practice, recalled; a screening length, not the nut maker's.  f = 0.577 as in Shigley.

    >>> area, line = stress_area_un(12.7, 20), pitch_diameter(12.7, 25.4 / 20)
    >>> round(stripping_engagement(area, line), 2)  # 1/2-20 stud, mm: about 0.75 of its diameter
    9.59
    """
    above_zero("stress area", stress_area_mm2)
    above_zero("pitch diameter", pitch_diameter_mm)
    above_zero("strength ratio", strength_ratio)
    if not 0 < shear_factor <= 1:
        raise ValueError(f"shear factor must be above 0 and at most 1, got {shear_factor:g}")
    return stress_area_mm2 / (shear_factor * strength_ratio * math.pi * pitch_diameter_mm / 2)


def _strip_area(length: float, pitch: float, shear_diameter: float, gap: float) -> float:
    """Rings of shear, one per pitch, as wide as half a pitch plus what the gap adds at 60 deg."""
    _checked_pitch(pitch)
    above_zero("diameter", shear_diameter)
    if not length >= 0:
        raise ValueError(f"engaged length must not be below 0 mm, got {length:g}")
    width = pitch / 2 + gap / math.sqrt(3)
    if not width > 0:
        raise ValueError(f"these threads do not meet: diameters {-gap:g} mm apart at {pitch:g} mm pitch")
    return math.pi * length / pitch * shear_diameter * width


def _pitch_of(tpi: float) -> float:
    if not tpi > 0:
        raise ValueError(f"threads per inch must be above 0, got {tpi:g}")
    return _INCH / tpi


def _checked_pitch(pitch: float) -> float:
    above_zero("pitch", pitch)
    return pitch


def _diameter_less(pitches: float, diameter: float, pitch: float) -> float:
    """The diameter with so many pitches taken off; never thinner than one pitch to begin with."""
    if not diameter > max(1.0, pitches) * pitch:
        raise ValueError(_too_thin("diameter", diameter, pitch))
    return diameter - pitches * pitch


def _too_thin(name: str, diameter: float, pitch: float) -> str:
    return f"{name} {diameter:g} mm is too thin for a pitch of {pitch:.4g} mm (was it typed in inches?)"


def _circle(diameter: float) -> float:
    return math.pi / 4 * diameter**2
