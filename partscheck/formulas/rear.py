"""The trailer's rear: what a receiver there may carry at an arm, and the slope that the rear clears."""

from __future__ import annotations

import math

from partscheck.formulas.ranges import above_zero, not_below_zero


def load_at_arm(rating: float, rated_arm: float, arm: float) -> float:
    """What a receiver may carry beyond its pin, when its tongue rating holds at ``rated_arm``.

    F = T a0 / a for a over a0, T for a up to a0: the bending moment at the pin stays T a0
    rating     T, tongue rating, N
    rated_arm  a0, from the pin to the ball that the rating is taken to be for, mm
    arm        a, from the pin to the middle of the load, mm
    Range: T and a not below 0; a0 above 0.
    Source: derived (moments about the pin); that the rating holds at a0 is practice.

    >>> load_at_arm(350, 12, 8), load_at_arm(350, 12, 24)
    (350, 175.0)
    """
    not_below_zero("tongue rating", rating)
    above_zero("rated arm", rated_arm)
    not_below_zero("arm", arm)
    if arm == math.inf:
        return 0.0
    return rating if arm <= rated_arm else rating * rated_arm / arm


def departure_angle(overhang: float, clearance: float) -> float:
    """Steepest slope behind the rearmost wheel that the trailer's rear does not touch, deg.

    t = arctan(h / a), from where the tire meets the ground; that the tire is round gives a little more
    overhang   a, from the rearmost axle back to the low point, mm
    clearance  h, height of that point over level ground, mm
    Range: a above 0; h not below 0.
    Source: derived (a line from the tire's contact to the low point).

    >>> round(departure_angle(1800, 400), 2)
    12.53
    """
    above_zero("overhang", overhang)
    not_below_zero("clearance", clearance)
    if math.inf in (overhang, clearance):
        return 0.0 if clearance < math.inf else 90.0
    return math.degrees(math.atan2(clearance, overhang))
