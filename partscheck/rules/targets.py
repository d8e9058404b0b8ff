"""What to aim at in a remedy: lengths rounded to 0.1 mm on the safe side, and kinds of part."""

from __future__ import annotations

import math

from partscheck.notation.interval import Interval

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

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


def a_kind(part: Any) -> str:
    """ "a wheel", "an adapter": another part of this kind."""
    title = part.title or part.kind
    return f"{'an' if title[0] in 'aeiou' else 'a'} {title}"


def _exact(steps: int) -> Interval:
    return Interval.exact(round(steps * STEP, 1), "mm")
