"""Balance of a trailer on two supports: the coupler and the axle (or the middle of the axle group).

Weights are in N (any one unit serves), distances in mm from the coupler's ball centre, rearward.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

UNEQUAL_SHARE = 0.6  # of the group, on one axle, when nothing equalises them (practice)


def supports(loads: Sequence[tuple[float, float]], span: float) -> tuple[float, float]:
    """What coupler and axle carry, (coupler, axle).

    axle = sum(w x) / L, coupler = sum(w) - axle
    loads  (w, x) of each: weight, and distance behind the coupler (negative ahead of it)
    span   L, coupler to axle
    Range: no weight below 0; L above 0.  A negative coupler load lifts the tow vehicle.
    Source: derived (moments about the coupler).

    >>> coupler, axle = supports([(640, 100), (350, 120), (1500, 112)], 120)
    >>> round(coupler, 2), round(axle, 2)
    (206.67, 2283.33)
    """
    _span(span)
    for weight, _ in loads:
        _weight("weight", weight)
    axle = math.fsum(weight * distance for weight, distance in loads) / span
    return math.fsum(weight for weight, _ in loads) - axle, axle


def tongue_from_load(weight: float, distance: float, span: float) -> float:
    """What one load adds to the tongue; negative behind the axle, where it lifts.

    t = w (L - x) / L
    weight    w
    distance  x, behind the coupler
    span      L, coupler to axle
    Range: w not below 0; L above 0.
    Source: derived (moments about the axle).

    >>> round(tongue_from_load(110, 208, 120), 2)  # a rack behind the axle takes this off the tongue
    -80.67
    """
    _span(span)
    _weight("weight", weight)
    return weight * (span - distance) / span


def axle_and_tongue(gross: float, tongue_share: float) -> tuple[float, float]:
    """Axle load and tongue weight from a share of the gross weight, (axle, tongue).

    tongue = s G, axle = G - tongue
    gross         G, all of the trailer
    tongue_share  s, as a plain number (0.10 is 10 %)
    Range: G not below 0; s -1 to 1.
    Source: derived.

    >>> [round(load, 6) for load in axle_and_tongue(2600, 0.10)]
    [2340.0, 260.0]
    """
    _weight("gross weight", gross)
    if not -1 <= tongue_share <= 1:
        raise ValueError(f"tongue share must be a plain number, -1 to 1 (10 % is 0.10), got {tongue_share:g}")
    tongue = tongue_share * gross
    return gross - tongue, tongue


def side_shares(from_centre: float, track: float) -> tuple[float, float]:
    """Shares of an axle's load on the left and the right wheel, (left, right).

    right = 1/2 + y/T, left = 1/2 - y/T
    from_centre  y, centre of the load from the centre line, right positive, mm
    track        T, between the wheels' load planes, mm
    Range: T above 0.  A share below 0 or above 1: the trailer tips.
    Source: derived (moments about each wheel).

    >>> [round(share, 4) for share in side_shares(3, 70)]
    [0.4571, 0.5429]
    """
    if not track > 0:
        raise ValueError(f"track must be above 0 mm, got {track:g}")
    lean = from_centre / track
    return 0.5 - lean, 0.5 + lean


def share_among_axles(
    load: float, axles: int, equalized: bool, unequal_share: float = UNEQUAL_SHARE
) -> float:
    """What one axle of a group must be good for.

    W/n when the axles are equalised (or there is one), else the greater of W/n and share x W
    load           W, on the whole group
    axles          n
    equalized      whether equalisers (or one beam) keep the axles' loads equal
    unequal_share  of the group on one axle when they do not
    Range: W not below 0; n at least 1; share above 0, at most 1.
    Source: derived for equal shares; 60 % is practice.

    >>> share_among_axles(3000, 2, equalized=True), share_among_axles(3000, 2, equalized=False)
    (1500.0, 1800.0)
    """
    _weight("load", load)
    if axles != int(axles) or axles < 1:
        raise ValueError(f"count of axles must be a whole number, 1 or more, got {axles:g}")
    if not 0 < unequal_share <= 1:
        raise ValueError(f"share of one axle must be above 0 and at most 1, got {unequal_share:g}")
    even = load / axles
    return even if equalized or axles == 1 else max(even, unequal_share * load)


def _span(span: float) -> None:
    if not span > 0:
        raise ValueError(f"distance from coupler to axle must be above 0, got {span:g}")


def _weight(name: str, value: float) -> None:
    if not value >= 0:
        raise ValueError(f"{name} must not be below 0, got {value:g}")
