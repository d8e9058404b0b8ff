"""Quantities in JSON: both ends and the unit; an open end is null, for JSON has no infinity."""

from __future__ import annotations

from partscheck.notation.interval import INF

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.notation.interval import Interval

DIGITS = 6


def quantity(value: Interval | None) -> dict[str, Any] | None:
    """ {"low", "high", "unit"}, or None for nothing."""
    if value is None:
        return None
    return {"low": end(value.lo), "high": end(value.hi), "unit": value.unit}


def end(value: float) -> float | None:
    """One end, rounded; None where it is open."""
    return None if value in (INF, -INF) else rounded(value)


def rounded(value: float) -> float:
    return round(value, DIGITS)
