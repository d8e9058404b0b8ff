"""How wide a tire stands on its wheel, and where its sidewalls are."""

from __future__ import annotations

from partscheck.build.wheel_data import hub_face_distance, load_plane
from partscheck.formulas.tire import measuring_rim_width, section_on_rim
from partscheck.notation.interval import Interval

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.places import Binding, WheelEnd

MM_PER_INCH = 25.4
SERIES_OF_THE_RULE = 50  # the 70 % rule of the measuring rim is for 50 series and higher

# Every field that ``approved_rims``, ``section_on_wheel`` and the planes of the sidewalls can read, for
# the rules that call them.
RIM_READS = (
    "tire.size",
    "tire.rim_width_range",
    "practice.rim_narrower_most",
    "practice.rim_wider_sure",
    "practice.rim_wider_most",
)
SECTION_READS = (*RIM_READS, "tire.section_width", "wheel.size")
SIDEWALL_READS = (
    *SECTION_READS,
    "wheel.offset",
    "wheel.backspace",
    "adapter.thickness",
    "spacer.thickness",
    "practice.offset_agreement",
)
FACE_READS = ("layout.hub_face_distance", "axle.hub_face_distance")


def approved_rims(tire: Any, place: Binding) -> tuple[Interval, Interval]:
    """Narrowest and widest rim of a tire's size, mm, each as an interval.

    As typed; else the catalogue's row of the size; else about the measuring rim, between what is
    surely approved and what surely is not.
    """
    if tire.has("rim_width_range"):
        typed = tire.values["rim_width_range"].value  # a span, not a value to measure more exactly
        return Interval.exact(typed.lo, "mm"), Interval.exact(typed.hi, "mm")
    size = tire.size
    if not size.known:
        return Interval.unknown("mm"), Interval.unknown("mm")
    row = place.tables.row("tire_size", size.key)
    if row is not None:
        return _inches(row["rim_width_least_in"]), _inches(row["rim_width_most_in"])
    asked = tire.rim_width_range  # asks for it
    if not size.section_width.known or (size.aspect or SERIES_OF_THE_RULE) < SERIES_OF_THE_RULE:
        return asked, asked
    middle = measuring_rim(size)
    limits = place.limits
    return (
        Interval(middle - limits.rim_narrower_most.hi, middle, "mm"),
        Interval(middle + limits.rim_wider_sure.lo, middle + limits.rim_wider_most.hi, "mm"),
    )


def measuring_rim(size: Any) -> float:
    """Width, mm, of the rim on which a size is measured; without an aspect ratio of 50 or more it is
    taken alike (practice).
    """
    aspect = size.aspect if size.aspect and size.aspect >= SERIES_OF_THE_RULE else SERIES_OF_THE_RULE
    return measuring_rim_width(size.section_width.mid, aspect)


def section_on_wheel(tire: Any, wheel: Any, place: Binding) -> Interval:
    """Width of the inflated tire on this wheel, mm: measured, else by the size and the rim's width."""
    if tire.has("section_width"):
        return tire.section_width  # type: ignore[no-any-return]
    size = tire.size
    if not size.section_width.known:
        return tire.section_width if size.known else size.section_width  # type: ignore[no-any-return]
    section: Interval = size.section_width
    if size.form != "metric":
        return section
    rim = wheel.size.width
    if not rim.known:  # it is one of the rims that the size may go on
        narrowest, widest = approved_rims(tire, place)
        rim = Interval(narrowest.lo, widest.hi, "mm")
    normal = measuring_rim(size)
    return Interval(
        section_on_rim(section.lo, normal, rim.lo), section_on_rim(section.hi, normal, rim.hi), "mm"
    )


def faces_known(end: WheelEnd) -> bool:
    """True when the list says how far apart the seating faces are."""
    gear = end.running_gear
    own = gear is not None and gear.kind == "axle" and gear.has("hub_face_distance")
    return own or end.build.layout.has("hub_face_distance")


def inner_sidewall(end: WheelEnd) -> Interval:
    """Plane of the tire's inner sidewall, mm inboard of the hub's seating face."""
    return load_plane(end) + section_on_wheel(end.tire, end.wheel, end) * 0.5


def width_over_tires(end: WheelEnd) -> Interval:
    """Width over both tires of an axle whose two ends are like this one, mm."""
    outer = load_plane(end) - section_on_wheel(end.tire, end.wheel, end) * 0.5
    return hub_face_distance(end) - outer * 2


def _inches(value: float) -> Interval:
    return Interval.exact(value * MM_PER_INCH, "mm")
