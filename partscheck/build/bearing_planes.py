"""Where the two bearings of a hub carry, from its seating face, mm, inboard positive."""

from __future__ import annotations

from partscheck.notation.interval import Interval

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.places import WheelEnd

# Every field that ``bearing_plane`` can read, for the rules that call it.
BEARING_PLANE_READS = (
    "hub.inner_bearing_to_face",
    "hub.outer_bearing_to_face",
    "hub.inner_bearing_mid_to_face",
    "hub.outer_bearing_mid_to_face",
    "bearing.a",
    "bearing.width",
    "practice.bearing_centre_spread",
)


def bearing_plane(end: WheelEnd, which: str) -> Interval:
    """Effective load centre of the "inner" or "outer" bearing.

    As typed; else from the middle of the bearing.  The cones of a trailer hub stand back faces
    outward and the load lines lean towards the back faces, so each load centre lies outward of the
    middle, by |a - width / 2| (see ``formulas.bearing.centre_beyond_middle``).  Without ``a`` and width
    it lies somewhere within the practice spread.
    """
    hub = end.hub
    name, middle = f"{which}_bearing_to_face", f"{which}_bearing_mid_to_face"
    typed: Interval = getattr(hub, name)
    if hub.has(name) or not hub.has(middle):
        return typed
    outward = _outward_of_middle(end, which)
    reckoned = getattr(hub, middle) + (outward if which == "inner" else -outward)
    return typed.clipped(reckoned.lo, reckoned.hi)


def planes_known(end: WheelEnd) -> bool:
    """True when the list says of either bearing where it stands."""
    names = ("bearing_to_face", "bearing_mid_to_face")
    return end.hub is not None and any(
        end.hub.has(f"{which}_{name}") for which in ("inner", "outer") for name in names
    )


def _outward_of_middle(end: WheelEnd, which: str) -> Interval:
    """How far the load centre lies from the middle of the bearing towards the cone's back face."""
    bearing: Any = end.part(f"{which}-bearing") or end.part(f"{which}-cone")
    if bearing is not None and bearing.has("a") and bearing.has("width"):
        lean: Interval = abs(bearing.a - bearing.width * 0.5)
        return lean
    spread = end.limits.bearing_centre_spread.hi
    return Interval(-spread, spread, "mm")
