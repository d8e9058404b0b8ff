"""Balance of a trailer on two supports: the coupler and the axle (or the middle of the axle group).

Weights are in N (any one unit serves), distances in mm from the coupler's ball centre, rearward.
"""

from __future__ import annotations

import math

TYPE_CHECKING = False
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


def axle_place_for_share(
    loads: Sequence[tuple[float, float]],
    running_gear: Sequence[tuple[float, float]],
    span: float,
    tongue_share: float,
) -> float:
    """Where the axle must stand for a share of all weight on the tongue, from the two supports.

    L' = (sum(w x) + sum(m (y - L))) / (W - M - s W)
    loads         (w, x) of what stays where it stands: weight, distance behind the coupler
    running_gear  (m, y) of what moves along with the axle
    span          L, coupler to axle as it is
    tongue_share  s, wanted, as a plain number
    W, M          all weights; those of the running gear
    Range: no weight below 0; L above 0; s below 1 - M / W.
    Source: derived: s W = W - (sum(w x) + sum(m (y - L + L'))) / L', solved for L'.

    >>> frame, cargo, rack, gear = (640, 100), (1500, 112), (110, 208), (350, 120)
    >>> place = axle_place_for_share([frame, cargo, rack], [gear], 120, 0.10)
    >>> round(place, 2)
    128.08
    >>> coupler, axle = supports([frame, cargo, rack, (350, place)], place)
    >>> round(coupler / 2600, 6)
    0.1
    """
    _span(span)
    for weight, _ in (*loads, *running_gear):
        _weight("weight", weight)
    gear = math.fsum(weight for weight, _ in running_gear)
    total = math.fsum(weight for weight, _ in loads) + gear
    lifts = total - gear - tongue_share * total
    if not lifts > 0:
        raise ValueError("no place of the axle puts so much on the tongue: the running gear is too heavy for it")
    moment = math.fsum(w * x for w, x in loads) + math.fsum(m * (y - span) for m, y in running_gear)
    return moment / lifts


def axle_shift_short(gross: float, tongue: float, span: float, tongue_share: float) -> float:
    """The trade press's short formula for moving an axle, forward positive; never used to solve.

    X = (T - s W) / W x D
    gross         W
    tongue        T, as it is
    span          D, coupler to axle as it is
    tongue_share  s, wanted, as a plain number
    It is exact for another move: all of the weight carried back by X between supports that stay D
    apart, which takes W X / D off the tongue.  To move the axle under a weight that stays put, two
    supports give D' = D (1 - T/W) / (1 - s), a move of X / (1 - s): at 10 % a ninth farther.  Running
    gear that moves along asks for more still (``axle_place_for_share``).
    Range: W and D above 0.
    Source: practice, trade press; what it leaves out is derived.

    >>> round(axle_shift_short(8225, 1025, 264, 0.10), 3)  # printed 6.499, forward
    6.5
    >>> round(264 - axle_place_for_share([(8225, 264 * 7200 / 8225)], [], 264, 0.10), 2)  # from the supports
    7.22
    """
    _span(span)
    if not gross > 0:
        raise ValueError(f"gross weight must be above 0, got {gross:g}")
    return (tongue - tongue_share * gross) / gross * span


def load_move_for_share(
    weight: float, gross: float, tongue: float, span: float, tongue_share: float
) -> float:
    """How far one load must move for a share on the tongue, forward positive.

    d = (s W - T) L / w
    weight        w, of the load that moves
    gross         W, of everything
    tongue        T, as it is
    span          L, coupler to axle
    tongue_share  s, wanted, as a plain number
    Range: w and L above 0.
    Source: derived: moving w by d changes the tongue by w d / L.

    >>> round(load_move_for_share(1500, 2490, 206.6667, 120, 0.10), 2)
    3.39
    """
    _span(span)
    if not weight > 0:
        raise ValueError(f"weight of the load must be above 0, got {weight:g}")
    return (tongue_share * gross - tongue) * span / weight


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
