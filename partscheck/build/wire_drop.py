"""Volts lost along the lines of wire of a list."""

from __future__ import annotations

from partscheck.formulas.wiring import THERE_AND_BACK, resistance, voltage_drop
from partscheck.notation.interval import INF, Interval

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.places import Binding

SAME_AREA = 0.01  # of the area: a wire this near to a row of the table is that row's
MM_PER_1000_FT = 304_800.0
WIRE_READS = ("wire.gauge", "wire.run", "wire.feeds", "wire.returns")


def ways_of(wire: Any) -> int:
    """2 there and back in the same copper; 1 where the frame is the return."""
    return 1 if wire.has("returns") and wire.returns == "frame" else THERE_AND_BACK


def volts_lost(place: Binding, wire: Any, current: Interval) -> Interval:
    """Volts lost in one line of wire of solid copper, both its ways."""
    ohm, run, ways = ohm_per_metre(place, wire), wire.run, ways_of(wire)
    ends = [
        _drop(current.lo, run.lo, ohm.lo, ways),
        _drop(current.hi, run.hi, ohm.hi, ways),
    ]
    return Interval(ends[0], ends[1], "V")


def ohm_per_metre(place: Binding, wire: Any) -> Interval:
    """By the table's row for its size, else by its copper area."""
    area = wire.gauge.area
    row = _row_of(place, area) if area.is_exact else None
    if row is not None:
        ohm = row["ohm_per_1000_ft"] / (MM_PER_1000_FT / 1000)
        return Interval(ohm, ohm)
    most = resistance(area.lo) if area.lo > 0 else INF
    return Interval(0.0 if area.hi == INF else resistance(area.hi), most)


def _drop(current: float, run: float, ohm: float, ways: int) -> float:
    if 0 in (current, run, ohm):
        return 0.0
    if INF in (current, run, ohm):
        return INF
    return voltage_drop(current, run, ohm, ways)


def _row_of(place: Binding, area: Interval) -> dict[str, Any] | None:
    rows: list[dict[str, Any]] = place.tables.rows("wire")
    return next((row for row in rows if abs(row["area_mm2"] - area.mid) <= SAME_AREA * area.mid), None)
