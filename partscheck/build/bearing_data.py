"""What is known of the two bearings of a wheel end: their numbers first, their sizes second.

A cone (inner ring with rollers) and a cup (outer ring) may stand on one line or on two.  A number that
the catalogue's tables know gives the size; a size that was measured (typed with a tolerance) governs.
"""

from __future__ import annotations

import re

from partscheck.notation.interval import Interval, Quantity

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.places import WheelEnd

PLACES = ("inner", "outer")
SPINDLE_KINDS = ("spindle", "suspension-arm", "axle")
CONFLICT = "conflict"  # status of a row whose sources disagree
METRIC = re.compile(r"(302|320|322)(/?\d\d)([A-Z].*)?")

# What the functions below read of a bearing, for the rules that call them.
NAME_READS = ("bearing.designation", "bearing.cone", "bearing.cup", "bearing.includes")


class Size:
    """A diameter of a bearing, mm.

    ``values`` are the sizes that it may have: one, or several where tables disagree or where a rounded
    name could mean either.  ``measured``: typed with a tolerance.  ``fraction``: a trade fraction, which
    is too coarse for a fit.  ``number``: what its size was looked up by, or "".  ``disputed``: the
    tables disagree.
    """

    __slots__ = ("disputed", "fraction", "measured", "number", "values")

    def __init__(
        self,
        *values: Interval,
        measured: bool = False,
        fraction: bool = False,
        number: str = "",
        disputed: bool = False,
    ) -> None:
        self.values = values
        self.measured = measured
        self.fraction = fraction
        self.number = number
        self.disputed = disputed

    @property
    def known(self) -> bool:
        return all(value.known for value in self.values)


def is_measured(value: Interval) -> bool:
    """A size typed with a tolerance is a measurement; without one it is a name."""
    return not isinstance(value, Quantity) or value.toleranced


def is_fraction(value: Interval) -> bool:
    """A name typed as a fraction of an inch."""
    return isinstance(value, Quantity) and value.fraction and not value.toleranced


def spindle_of(end: WheelEnd, *fields: str) -> Any:
    """The line that tells of the spindle: the one with any of ``fields``, else the spindle itself, the
    arm or the axle; None when none of them is on the list.
    """
    lines = [end.roles[kind] for kind in SPINDLE_KINDS if kind in end.roles]
    telling = (line for line in lines if any(line.has(name) for name in fields))
    return next(telling, lines[0] if lines else None)


# ---- numbers -----------------------------------------------------------------------------------


def cone_part(end: WheelEnd, place: str) -> Any:
    """The line that brings the cone of the ``inner`` or ``outer`` bearing, or None."""
    return end.part(f"{place}-cone") or end.part(f"{place}-bearing")


def cup_part(end: WheelEnd, place: str) -> Any:
    """The line that brings the cup, or None."""
    return end.part(f"{place}-cup") or end.part(f"{place}-bearing")


def cone_number(part: Any) -> str:
    """The number on the cone, as the tables write it, or ""."""
    typed = part.cone if part.has("cone") else part.designation if part.has("designation") else ""
    return _numbers(typed)[0]


def cup_number(part: Any) -> str:
    """The number on the cup, or "": a set may be named by its cone alone."""
    if part.has("cup"):
        return _numbers(part.cup)[-1]
    names = _numbers(part.designation if part.has("designation") else "")
    alone = part.has("includes") and part.includes == "cup"
    return names[-1] if alone or len(names) == 2 or metric_key(names[0]) else ""


def metric_key(number: str) -> str:
    """Key of the table of metric bearings, or "": 30206, 32006X and 302/28 are such."""
    found = METRIC.fullmatch(number)
    return found[1] + found[2] if found else ""


def _numbers(text: str) -> list[str]:
    """The numbers in a designation, cone first: LM67048/LM67010 are two, 302/28 is one."""
    plain = text.upper().replace(" ", "").replace("-", "")
    if METRIC.fullmatch(plain):
        return [plain]
    return re.split("[/+&]", plain, maxsplit=1)


def cone_row(end: WheelEnd, number: str) -> dict[str, Any] | None:
    """The catalogue's row of an inch cone."""
    row: dict[str, Any] | None = end.tables.row("bearing_cone", number) if number else None
    return row


def cup_row(end: WheelEnd, number: str) -> dict[str, Any] | None:
    row: dict[str, Any] | None = end.tables.row("bearing_cup", number) if number else None
    return row


def metric_row(end: WheelEnd, number: str) -> dict[str, Any] | None:
    """The catalogue's row of a metric bearing, whatever its suffix."""
    key = metric_key(number)
    row: dict[str, Any] | None = end.tables.row("bearing_metric", key) if key else None
    return row


# ---- sizes -------------------------------------------------------------------------------------


def bore_of(end: WheelEnd, place: str) -> Size:
    """Bore of the cone: measured, else by its number, else by the size typed."""
    part = cone_part(end, place)
    return _size(end, part, "bore", by_number(end, part, "bore"))


def outside_of(end: WheelEnd, place: str) -> Size:
    """Outside of the cup: measured, else by its number, else by the size typed, else by the cups that
    the cone runs in.
    """
    part = cup_part(end, place)
    numbered = by_number(end, part, "outside")
    if numbered is None and not part.has("outside"):
        cups = cups_of(end, place)
        if cups:
            number = " or ".join(one["key"] for one in cups)
            return Size(*(exactly(one["outside_mm"]) for one in cups), number=number)
    return _size(end, part, "outside", numbered)


def by_number(end: WheelEnd, part: Any, field: str) -> Size | None:
    """Bore or outside by the number on the ring; None where no table knows it."""
    number = cone_number(part) if field == "bore" else cup_number(part)
    row = (cone_row if field == "bore" else cup_row)(end, number) or metric_row(end, number)
    if row is None:
        return None
    others = row.get(f"{field}_mm_other") or []
    disputed = row.get("status") == CONFLICT and bool(others)
    values = [row[f"{field}_mm"], *(others if disputed else [])]
    return Size(*(exactly(one) for one in values), number=number, disputed=disputed)


def cups_of(end: WheelEnd, place: str) -> list[dict[str, Any]]:
    """Rows of the cups that the cone of this place runs in, as far as the tables know."""
    cone = cone_part(end, place)
    row = None if cone is None else cone_row(end, cone_number(cone))
    rows = [cup_row(end, key) for key in (row["cups"] if row else [])]
    return [one for one in rows if one is not None]


def _size(end: WheelEnd, part: Any, field: str, numbered: Size | None) -> Size:
    typed: Interval | None = getattr(part, field) if part.has(field) else None
    if typed is not None and is_measured(typed):
        return Size(typed, measured=True, number="" if numbered is None else numbered.number)
    if numbered is not None:
        if numbered.disputed:
            getattr(part, field)  # only a measurement settles it: ask for one
        return numbered
    if typed is None:
        return Size(getattr(part, field))
    return Size(_named(end, typed, field), fraction=is_fraction(typed))


def _named(end: WheelEnd, typed: Interval, field: str) -> Interval:
    """The size that a rounded name stands for: those of the tables that are as good as equal to it."""
    near = end.limits.name_agreement_most.hi
    tables = ("bearing_cone" if field == "bore" else "bearing_cup", "bearing_metric")
    sizes = [row[f"{field}_mm"] for table in tables for row in end.tables.rows(table)]
    meant = [size for size in sizes if abs(size - typed.mid) <= near]
    return Interval(min(meant), max(meant), "mm") if meant else typed


def exactly(value: float, unit: str = "mm") -> Quantity:
    """A value of a table, printed as it stands there."""
    return Quantity(value, value, unit, f"{value:g} {unit}", "metric")


def width_of(end: WheelEnd, place: str) -> Interval:
    """Overall width of cone and cup set together, mm: typed, else by the number."""
    part = cone_part(end, place)
    number = cone_number(part)
    row = None if part.has("width") else cone_row(end, number) or metric_row(end, number)
    if row is None:
        return part.width  # type: ignore[no-any-return]
    width = row.get("overall_width_mm") or row.get("width_mm")
    return part.width if width is None else Interval.exact(width, "mm")
