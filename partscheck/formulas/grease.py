"""How much wheel bearing grease a wheel end takes: an estimate for the shopping list, to about +- 30 %.

No standard stands behind the shares used here; they are practice.  The maker of the hub or of the spindle
may ask for more or less, and that rules.  Volumes are in L, masses in kg.
"""

from __future__ import annotations

import math

from partscheck.formulas.ranges import not_below_zero

BEARING_SHARE = 0.25  # of a tapered bearing's envelope is free for grease (practice; 0.21 to 0.31 by weight)
CAVITY_SHARE = 0.5  # of the space between the bearings is filled (practice; 1 where a spindle is pumped full)
BARREL_SHARE = 0.85  # bore between the cups over the cups' bores: they seat on shoulders (practice)
CAP_SHARE = 1 / 3  # of the dust cap (practice)
DENSITY = 0.9  # kg/L, grease with mineral oil (practice)
SPILL = 0.020  # kg a wheel end: seal lips, hands, the packer (practice)

_PER_LITRE = 1e6  # mm3


def bearing_volume(bore: float, outside: float, width: float, free_share: float = BEARING_SHARE) -> float:
    """Grease that packs one tapered bearing, L.

    V = f pi/4 (D^2 - d^2) T
    bore        d, mm
    outside     D, mm
    width       T, mm
    free_share  f, free share of the ring-shaped envelope
    Range: d above 0, D above d; T not below 0; f above 0, at most 1.
    Source: practice (estimate).

    >>> round(1000 * bearing_volume(30, 62, 17.25), 1)  # mL
    10.0
    """
    if not 0 < bore < outside:
        raise ValueError(f"bore must be above 0 and below the outside diameter, got {bore:g}, {outside:g} mm")
    not_below_zero("width", width)
    _share("free share", free_share)
    return free_share * math.pi / 4 * (outside**2 - bore**2) * width / _PER_LITRE


def cavity_volume(
    cups: tuple[float, float],
    journals: tuple[float, float],
    length: float,
    fill: float = CAVITY_SHARE,
    barrel_share: float = BARREL_SHARE,
) -> float:
    """Grease between the two bearings of a hub, L.

    V = f pi/12 l ((D1^2 + D1 D2 + D2^2) b^2 - (d1^2 + d1 d2 + d2^2)): one cone in another, not below 0
    cups          (D1, D2), bores of the hub for the inner and the outer cup, mm
    journals      (d1, d2), of the spindle, mm
    length        l, free length between the bearings, mm (outer ends less both widths)
    fill          f, share that is filled
    barrel_share  b, bore between the cups over the cups' bores
    Range: all above 0, each journal below its cup; l not below 0; shares above 0, at most 1.
    Source: practice (estimate).

    >>> round(1000 * cavity_volume((59.131, 45.237), (31.75, 19.05), 40), 1)  # mL
    20.7
    """
    for cup, journal in zip(cups, journals, strict=True):
        if not 0 < journal < cup:
            raise ValueError(f"journal must be above 0 and below its cup, got {journal:g} and {cup:g} mm")
    not_below_zero("length", length)
    _share("fill", fill)
    _share("barrel share", barrel_share)
    free = barrel_share**2 * _mean_square(*cups) - _mean_square(*journals)
    return max(0.0, fill * math.pi / 4 * free * length / _PER_LITRE)


def cap_volume(diameter: float, height: float, fill: float = CAP_SHARE) -> float:
    """Grease in a dust cap, L.

    V = f pi/4 D^2 h
    diameter  D, mm
    height    h, mm
    fill      f, share that is filled
    Range: D and h not below 0; f above 0, at most 1.
    Source: practice (estimate).

    >>> round(1000 * cap_volume(50, 30), 1)  # mL
    19.6
    """
    not_below_zero("diameter", diameter)
    not_below_zero("height", height)
    _share("fill", fill)
    return fill * math.pi / 4 * diameter**2 * height / _PER_LITRE


def mass(volume: float, density: float = DENSITY) -> float:
    """Mass of a volume of grease, kg.

    m = V x density
    volume   V, L
    density  kg/L
    Range: V not below 0; density 0.7 to 1.3.
    Source: practice (estimate).

    >>> round(mass(0.4), 2)
    0.36
    """
    not_below_zero("volume", volume)
    if not 0.7 <= density <= 1.3:
        raise ValueError(f"density must be 0.7 to 1.3 kg/L, got {density:g}")
    return volume * density


def wheel_end_mass(
    inner: tuple[float, float, float],
    outer: tuple[float, float, float],
    ends_apart: float,
    fill: float = CAVITY_SHARE,
    spill: float = SPILL,
) -> float:
    """Grease for one wheel end, packed afresh, kg: both bearings, the space between them, and what is lost.

    inner, outer  (bore, outside, width) of each bearing, mm
    ends_apart    over the outer ends of both bearings, set in the hub, mm (``cone_to_cone``)
    fill          share of the space between them that is filled
    spill         kg that end up elsewhere
    Range: as in ``bearing_volume`` and ``cavity_volume``; ends apart at least both widths; spill not below 0.
    Source: practice (estimate, +- 30 %); the dust cap is not in it.

    >>> round(1000 * wheel_end_mass((31.75, 59.131, 15.875), (19.05, 45.237, 15.494), 72))  # g
    51
    """
    not_below_zero("spill", spill)
    free = ends_apart - inner[2] - outer[2]
    if not free >= 0:
        raise ValueError(f"bearings must fit between their outer ends, got {ends_apart:g} mm")
    between = cavity_volume((inner[1], outer[1]), (inner[0], outer[0]), free, fill)
    return mass(bearing_volume(*inner) + bearing_volume(*outer) + between) + spill


def packs_needed(amount: float, pack: float) -> int:
    """How many tubes or tubs to buy.

    n = amount / pack, rounded up
    amount  needed, kg
    pack    in one tube, kg
    Range: amount not below 0, finite; pack above 0.
    Source: derived.

    >>> packs_needed(0.3, 0.3), packs_needed(0.41, 0.4)
    (1, 2)
    """
    if not 0 <= amount < math.inf:
        raise ValueError(f"amount must not be below 0 kg, and finite, got {amount:g}")
    if not pack > 0:
        raise ValueError(f"pack must be above 0 kg, got {pack:g}")
    return math.ceil(amount / pack - 1e-9)


def _mean_square(first: float, second: float) -> float:
    """Mean of the squared diameter along a cone."""
    return (first**2 + first * second + second**2) / 3


def _share(name: str, value: float) -> None:
    if not 0 < value <= 1:
        raise ValueError(f"{name} must be above 0 and at most 1, got {value:g}")
