"""Heights that follow the tires: what is measured from the ground rises as the wheels' centres rise."""

from __future__ import annotations

from partscheck.build.wheel_data import loaded_radius
from partscheck.notation.interval import INF, Interval
from partscheck.parts.record import Typed

TYPE_CHECKING = False
if TYPE_CHECKING:
    from partscheck.build.apply import Applied
    from partscheck.build.fit import Fit
    from partscheck.build.places import WheelEnd

HEIGHTS = ("coupler_height", "ground_clearance", "rear_clearance")
NO_LIFT = Interval(0.0, 0.0, "mm")


def lift(before: Fit, after: Fit) -> Interval:
    """How much higher the wheels' centres stand, mm: loaded radius after - before.

    Where the wheels differ, from the least to the greatest.  Nothing where no tire is another one, or
    where either list has none.  The springs carry the same load, so the frame rises as the wheels do.
    """
    found: Interval | None = None
    for at in before.positions:
        ends = _end_at(before, at), _end_at(after, at)
        if ends[0] is None or ends[1] is None or ends[0].tire is None or ends[1].tire is None:
            continue
        here = _rise(ends[0], ends[1])
        found = here if found is None else found.hull(here)
    return NO_LIFT if found is None else found


def heights_follow(before: Fit, after: Fit, applied: Applied) -> Interval:
    """Let the heights typed in ``layout`` follow the tires, but for those that the change itself gives.

    They are then part of what ``applied`` did (``carried``).  Returns the lift, mm.
    """
    rise, layout = lift(before, after), applied.build.layout
    typed = {one.name for one in applied.fields if one.record is layout}
    for name in HEIGHTS:
        stood = layout.values.get(name)
        if stood is None or name in typed or not layout.has(name) or rise == NO_LIFT:
            continue
        value = stood.value + rise if rise.known else layout.fields[name].type.unknown
        moved = Typed(value, "", stood.mark, stood.layer)
        applied.carried.append(applied.put(layout, name, moved))
    return rise


def _rise(before: WheelEnd, after: WheelEnd) -> Interval:
    same = before.tire.values.items() == after.tire.values.items()
    if same:
        return NO_LIFT
    radii = loaded_radius(before.tire, before), loaded_radius(after.tire, after)
    return radii[1] - radii[0] if all(one.known for one in radii) else Interval.unknown("mm", -INF)


def _end_at(fit: Fit, at: str) -> WheelEnd | None:
    return next((end for end in fit.ends if at in end.at), None)
