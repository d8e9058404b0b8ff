"""What a bolted joint carries at rest: as typed, or taken from the wheel, axle, coupler, rack or jack.

Nothing here holds a shock factor or a safety factor.  How a load that is taken from somewhere acts on the
bolts (common practice, and told where it is used):

wheel    the corner load, across the bolts
axle     the axle's load shared by the joint's places, across the bolts
coupler  the tongue weight down and the pull of a firm stop along, both across the bolts (a coupler bolted
         through the sides of its tongue)
rack     what the rack and its load weigh, across the bolts
jack     the tongue weight, across the bolts

The arm of such a load about the bolts is no part of it: ``pattern`` and ``load_at`` give that.
"""

from __future__ import annotations

import math

from partscheck.notation.interval import Interval, greatest_of

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.joint_places import JointPlace

NOTHING = Interval(0.0, 0.0, "N")
GRAVITY = 9.80665  # m/s2, standard


def load_of(place: JointPlace, part: str) -> Interval:
    """Shear or tension on the whole joint of one place, N; unknown when the list does not say."""
    joint = place.joint
    if not place.has_load:
        joint.load  # noqa: B018 - asks for it
        return Interval.unknown("N")
    load = joint.load
    if load.has("from_"):
        return _taken(place, load.from_, load) if part == "shear" else NOTHING
    # A component that is left out beside the other is not there.
    if load.says(part):
        return getattr(load, part)  # type: ignore[no-any-return]
    return NOTHING if load.says("shear") or load.says("tension") else Interval.unknown("N")


def _taken(place: JointPlace, source: str, load: Any) -> Interval:
    weights = place.weights
    if source == "wheel":
        return _wheel(place, load)
    if source == "axle":
        return _axle(place, load) * (1 / place.places)
    if source == "coupler":
        pull = weights.whole() * place.limits.braking
        return _together(_tongue(place), pull)
    return _rack(place, load) if source == "rack" else _tongue(place)


def _positions(load: Any) -> list[str]:
    return [str(getattr(at, "text", at)) for at in load.at] if load.has("at") else []


def _wheel(place: JointPlace, load: Any) -> Interval:
    wanted = _positions(load)
    ends = [end for end in place.weights.fit.ends if not wanted or set(wanted) & set(end.at)]
    loads = [place.weights.corner_load(end) for end in ends]
    if not loads:  # nothing of the wheel ends is on the list: half an axle's load
        return place.weights.axle_load(1) * 0.5
    return greatest_of(loads[0], *loads[1:])


def _axle(place: JointPlace, load: Any) -> Interval:
    fit = place.weights.fit
    named = {int(at[:-1]) for at in _positions(load) if at[:-1].isdigit()}
    numbers = sorted(named) or range(1, fit.axles + 1)
    loads = [place.weights.axle_load(number) for number in numbers]
    return greatest_of(loads[0], *loads[1:])


def _tongue(place: JointPlace) -> Interval:
    """The heaviest tongue of any load case, N."""
    weights = place.weights
    typed = weights.tongue()
    return greatest_of(typed, *(case.tongue for case in weights.cases() if case.known)).clipped(0.0)


def _rack(place: JointPlace, load: Any) -> Interval:
    """What the racks of the list carry and weigh, N."""
    racks: list[Any] = place.build.of_kind("rack")
    if not racks:
        return load.shear  # type: ignore[no-any-return]  # asks for it
    total = NOTHING
    for rack in racks:
        carried = rack.weight_carried if rack.has("weight_carried") or not rack.has("rating") else rack.rating
        own = (rack.weight * GRAVITY).with_unit("N") if rack.has("weight") else NOTHING
        total = total + carried + own
    return total


def _together(down: Interval, along: Interval) -> Interval:
    """Two loads at right angles, as one."""
    return Interval(math.hypot(down.lo, along.lo), math.hypot(down.hi, along.hi), "N")
