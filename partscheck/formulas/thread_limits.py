"""Limits of size of threads, for the stripping areas of ``threads``, where no table gives them.

Only the four limits that make a thread weakest are here: little metal on the bolt, a wide hole.
"""

from __future__ import annotations

import math

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterator

_INCH = 25.4
_PITCH_LINE = 3 * math.sqrt(3) / 8  # 0.649519
_MINOR = 5 * math.sqrt(3) / 8  # 1.082532, internal thread


class LeastMaterial:
    """Limits of a bolt and its hole that leave least metal engaged, mm: of the bolt the least major and pitch
    diameters, of the hole the greatest pitch and minor diameters.
    """

    __slots__ = ("external_major", "external_pitch", "internal_minor", "internal_pitch")

    def __init__(
        self, external_major: float, external_pitch: float, internal_pitch: float, internal_minor: float
    ) -> None:
        self.external_major = external_major
        self.external_pitch = external_pitch
        self.internal_pitch = internal_pitch
        self.internal_minor = internal_minor

    def __iter__(self) -> Iterator[float]:
        """In the order in which they are given."""
        return iter((self.external_major, self.external_pitch, self.internal_pitch, self.internal_minor))


def least_material_un(diameter: float, tpi: float) -> LeastMaterial:
    """Least-material limits of an inch thread, class 2A in 2B, mm.

    T = 0.0015 D^(1/3) + 0.0015 sqrt(D) + 0.015 p^(2/3), allowance 0.3 T, all in inches;
    bolt: major D - 0.3 T - 0.06 p^(2/3), pitch E - 1.3 T; hole: pitch E + 1.3 T,
    minor D - 1.0825 p + t, t = 0.25 p - 0.4 p^2 (under 1/4 in: 0.05 p^(2/3) + 0.03 p/D - 0.002)
    diameter  D, nominal, mm
    tpi       threads per inch; p = 1/tpi
    Range: D 4 to 40 mm; tpi 6 to 40; D more than 4 pitches.  Engaged about one diameter, bare thread:
    coating and wear take more.  Minor diameter rounded to 0.001 in as it is printed; the others within
    0.0001 in of print for UNC and UNF, and up to 0.0004 in on the safe side for UNS.
    Source: recalled, formulas of ASME B1.1; checked against the limits of ASME B1.1-2019 as held in
    screw_thread_lib (eleven sizes).

    >>> limits = least_material_un(12.7, 13)
    >>> [round(limit / 25.4, 4) for limit in limits]  # 1/2-13; printed .4876, .4435, .4565, .434
    [0.4877, 0.4436, 0.4565, 0.434]
    """
    if not 4 <= diameter <= 40:
        raise ValueError(f"diameter must be 4 to 40 mm, got {diameter:g} (was it typed in inches?)")
    if not 6 <= tpi <= 40:
        raise ValueError(f"threads per inch must be 6 to 40, got {tpi:g}")
    size, pitch = diameter / _INCH, 1 / tpi
    if not size > 4 * pitch:
        raise ValueError(f"diameter {diameter:g} mm is too thin for {tpi:g} threads per inch")
    coarse = pitch ** (2 / 3)
    tolerance = 0.0015 * size ** (1 / 3) + 0.0015 * math.sqrt(size) + 0.015 * coarse
    line = size - _PITCH_LINE * pitch
    bore = 0.25 * pitch - 0.4 * pitch**2 if size >= 0.25 else 0.05 * coarse + 0.03 * pitch / size - 0.002
    return LeastMaterial(
        external_major=(size - 0.3 * tolerance - 0.06 * coarse) * _INCH,
        external_pitch=(line - 1.3 * tolerance) * _INCH,
        internal_pitch=(line + 1.3 * tolerance) * _INCH,
        internal_minor=round(size - _MINOR * pitch + bore, 3) * _INCH,
    )


def least_material_iso(diameter: float, pitch: float) -> LeastMaterial:
    """Least-material limits of a metric thread, 6g in 6H, mm.

    in micrometres: T = 90 P^0.4 dm^0.1, allowance 15 + 11 P;
    bolt: major d less allowance less 180 P^(2/3) - 3.15/sqrt(P), pitch d2 less allowance less T;
    hole: pitch d2 + 1.32 T, minor d - 1.0825 P plus 230 P^0.7 (under 1 mm: 433 P - 190 P^1.22)
    diameter  d, nominal, mm; dm is the geometric mean of its range of sizes (2.8, 5.6, 11.2, 22.4, 45)
    pitch     P, mm
    Range: d 3 to 40 mm; P 0.4 to 4; d more than 4 pitches.  Bare thread.  Not rounded: within 0.015 mm of
    the printed limits, which stand in steps of preferred numbers.
    Source: recalled, formulas of ISO 965-1; checked against the limits of ASME B1.13M as held in
    screw_thread_lib (four sizes).

    >>> limits = least_material_iso(12, 1.75)
    >>> [round(limit, 3) for limit in limits]  # M12; recalled from ISO 965-2: 11.701, 10.679, 11.063, 10.441
    [11.707, 10.681, 11.059, 10.446]
    """
    if not 3 <= diameter <= 40:
        raise ValueError(f"diameter must be 3 to 40 mm, got {diameter:g}")
    if not 0.4 <= pitch <= 4:
        raise ValueError(f"pitch must be 0.4 to 4 mm, got {pitch:g}")
    if not diameter > 4 * pitch:
        raise ValueError(f"diameter {diameter:g} mm is too thin for a pitch of {pitch:g} mm")
    step = math.floor(math.log2(diameter / 2.8))
    mean = 2.8 * 2**step * math.sqrt(2)
    tolerance = 90 * pitch**0.4 * mean**0.1 / 1000
    allowance = (15 + 11 * pitch) / 1000
    bore = 230 * pitch**0.7 if pitch >= 1 else 433 * pitch - 190 * pitch**1.22
    line = diameter - _PITCH_LINE * pitch
    return LeastMaterial(
        external_major=diameter - allowance - (180 * pitch ** (2 / 3) - 3.15 / math.sqrt(pitch)) / 1000,
        external_pitch=line - allowance - tolerance,
        internal_pitch=line + 1.32 * tolerance,
        internal_minor=diameter - _MINOR * pitch + bore / 1000,
    )
