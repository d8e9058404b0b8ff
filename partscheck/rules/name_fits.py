"""Seat and bearing, told apart by name or by measure.

A size typed with a tolerance is measured and judged by its fit.  A size without one is a trade name,
rounded: two names within name_agreement_most are one size, beyond name_differs they are two, and in
between only a measurement tells.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable

from partscheck.build.bearing_data import Size, is_fraction, is_measured
from partscheck.notation.interval import Interval
from partscheck.rules.check import EQUAL, Check, at_least

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.limits import Limits

NAME_FITS = ("practice.name_agreement_most", "practice.name_differs")
MM_PER_INCH = 25.4
FAR = 0.3  # mm: no fit, another size
HALF_STEP = MM_PER_INCH / 128  # mm: a trade fraction is good to half of 1/64 in
ZERO = Interval(0.0, 0.0, "mm")


def fitted(limits: Limits, seat: Interval, size: Size, by_measure: Callable[[Interval], Check]) -> Check:
    """``by_measure`` of each size that the bearing may have where the seat is measured, else by name."""
    if is_measured(seat) and not size.fraction:
        return together([by_measure(one) for one in size.values])
    coarse = size.fraction or is_fraction(seat)
    return together([same_name(limits, seat, one, coarse) for one in size.values])


def same_name(limits: Limits, seat: Interval, size: Interval, coarse: bool = False) -> Check:
    """Two names of one size?  ``coarse``: one of them is a fraction, which never tells for certain."""
    agree, differ = limits.name_agreement_most.hi, limits.name_differs.hi
    band = Interval(-HALF_STEP, differ + HALF_STEP, "mm") if coarse else Interval(agree, max(agree, differ), "mm")
    check = at_least(band - abs(seat - size), ZERO)
    check.have, check.relation, check.need = seat, EQUAL, size
    return check


def together(checks: list[Check]) -> Check:
    """Of a size that may be one of several: fails when it fails for all, holds when it holds for all."""
    if len({check.truth for check in checks}) == 1:
        return nearest(checks) if checks[0].fails else min(checks, key=_room)
    one = nearest(checks)
    margin = checks[0].margin
    for check in checks[1:]:
        margin = margin.hull(check.margin) if margin is not None and check.margin is not None else None
    return Check(None, one.have, one.relation, one.need, margin)


def any_size(checks: list[Check]) -> Check:
    """Of several sizes to choose from: one that fits will do."""
    return next((check for check in checks if check.holds), None) or together(checks)


def nearest(checks: Iterable[Check]) -> Check:
    """The check that holds best, or fails by least."""
    return max(checks, key=_room)


def apart(seat: Interval, size: Size) -> Interval:
    """How far the seat is from the nearest size that the bearing may have, mm."""
    return abs(seat - nearest_size(seat, size))


def nearest_size(seat: Interval, size: Size) -> Interval:
    return min(size.values, key=lambda one: abs(one - seat).lo)


def either(size: Size) -> str:
    """ "34.925 mm or 47.63 mm"."""
    return " or ".join(f"{one.mid:g} mm" for one in size.values)


def fine(size: Interval) -> str:
    """A size to the micrometer's reading in both systems: "34.988 mm (1.3775 in)"."""
    ends = [size.lo] if size.is_exact else [size.lo, size.hi]
    mm = " to ".join(f"{round(end, 3):g}" for end in ends)
    return f"{mm} mm ({' to '.join(f'{end / MM_PER_INCH:.4f}' for end in ends)} in)"


def called(ring: str, part: Any, size: Size) -> str:
    """ "cone L68149", else the ring of the line by its name."""
    return f"{ring} {size.number}" if size.number else f"the {ring} of '{part.id}'"


def _room(check: Check) -> float:
    return float("inf") if check.margin is None else check.margin.lo
