"""Lengths to aim at in a remedy, rounded to a tenth of a millimetre on the safe side."""

from __future__ import annotations

import math

from partscheck.notation.interval import Interval

STEP = 0.1  # mm, what a caliper in a careful hand tells
NOISE = 1e-6  # steps; 38.1 mm must stay 38.1 mm


def no_less(length_mm: float) -> Interval:
    """The next length up, for "at least"."""
    if math.isinf(length_mm):
        return Interval.unknown("mm")
    return _exact(math.ceil(length_mm / STEP - NOISE))


def no_more(length_mm: float) -> Interval:
    """The next length down, for "at most"; never below nothing."""
    if math.isinf(length_mm):
        return Interval.unknown("mm")
    return _exact(max(0, math.floor(length_mm / STEP + NOISE)))


def _exact(steps: int) -> Interval:
    return Interval.exact(round(steps * STEP, 1), "mm")
