"""A rack in a receiver at the trailer's rear: what both carry, and the slope that the rear clears."""

from __future__ import annotations

import math
from collections.abc import Iterator

from partscheck.build.places import Whole
from partscheck.build.rear_load import ALLOWED_READS, RACK_READS, allowed, carried, own_weight
from partscheck.build.tow_places import RearRack, rear_receivers
from partscheck.build.weights import shock_factor
from partscheck.formulas.rear import departure_angle
from partscheck.notation.interval import INF, Interval
from partscheck.notation.show import show_limit
from partscheck.rules.basis import practice
from partscheck.rules.check import AT_LEAST, AT_MOST, Check, Remedy, at_least, at_most
from partscheck.rules.message import Least, Most
from partscheck.rules.registry import rule
from partscheck.rules.targets import no_less, no_more

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

ON_AN_ARM = practice(
    "a receiver's tongue rating holds at an arm of the practice limit; the moment at the pin is derived; road "
    "shock counts, since a trailer's rear whips more than a car's"
)
LABEL = practice("the rack's label gives the load that it may carry")
SLOPE = practice("the slope comes from the practice limit, the angle from geometry (derived)")

FALLS_OFF = (
    "What breaks off behind lies in front of the next car. Many racks and receivers may not be used on a trailer "
    "at all: follow their makers' instructions and local codes."
)


@rule(
    "rear-receiver-overloaded",
    on=RearRack,
    reads=["service.surface", *RACK_READS, *ALLOWED_READS],
    basis=ON_AN_ARM,
)
def rear_receiver_overloaded(place: RearRack) -> Check | None:
    """The receiver at the trailer's rear carries the rack and its load, with road shock, at their arm.

    Why: A rack is a lever: the same weight twice as far behind the pin bends the receiver twice as much, and the
        trailer's rear throws it up and down.
    Formula: (rack + load) x shock factor <= tongue rating x rated arm / arm; up to the rated arm (practice limit)
        the tongue rating itself. It is the receiver's own rating that counts, not that of the frame it is welded
        or bolted to.
    Remedy: Less on the rack, nearer to the pin, or a stronger receiver.
    Hazard: The receiver tears and the rack falls on the road.
    Wrong:
        service: {surface: gravel}
        parts:
          - {kind: receiver, place: trailer rear, tongue_rating: 200 lb}
          - {kind: rack, weight: 40 lb, weight_carried: 100 lb, beyond_pin: 20 in}
    Right:
        service: {surface: gravel}
        parts:
          - {kind: receiver, place: trailer rear, tongue_rating: 500 lb}
          - {kind: rack, weight: 40 lb, weight_carried: 100 lb, beyond_pin: 20 in}
    """
    rack, receiver = place.rack, place.receiver
    if rack is None or receiver is None:
        return None
    typed = (rack.has("weight"), rack.has("weight_carried"), rack.has("beyond_pin"))
    if not (any(typed) or receiver.has("tongue_rating")):
        return None
    weight, shock = own_weight(rack) + carried(rack), shock_factor(place.build)
    check = at_least(allowed(place), weight * shock).stop(
        "The {receiver} at the rear may carry {have} at {arm} behind its pin, but the {rack} with its load comes "
        "to {need} there ({weight}, times {shock} for road shock): {by} too much.",
        receiver=receiver, rack=rack, arm=rack.beyond_pin, weight=weight, shock=f"{shock.hi:g}",
    )  # fmt: skip
    check.because(
        "Its tongue rating is taken to hold {rated} behind the pin; farther out the same weight bends it more."
    )
    check.values["rated"] = place.limits.receiver_rated_arm
    check.danger(FALLS_OFF).at(receiver, "tongue_rating")
    return check.fix(lambda: _less_or_nearer(place, weight, shock))


def _less_or_nearer(place: RearRack, weight: Interval, shock: Interval) -> Iterator[Remedy]:
    rack, receiver = place.rack, place.receiver
    room = allowed(place).lo / shock.hi - own_weight(rack).hi
    if room > 0:
        most = Interval.exact(room, "N")
        yield Remedy(
            "put at most {most} on the {rack}", field=f"{rack.id}.weight_carried", relation=AT_MOST, target=most,
            operation="declare", most=Most(most), rack=rack,
        )  # fmt: skip
    rating, rated_arm = receiver.tongue_rating, place.limits.receiver_rated_arm
    bounce = _known_end(weight) * shock.hi
    if bounce <= rating.lo:
        arm = no_more(rating.lo * rated_arm.lo / bounce)
        yield Remedy(
            "or bring the load nearer: its middle at most {target} behind the pin", field=f"{rack.id}.beyond_pin",
            relation=AT_MOST, target=arm, operation="shop",
        )  # fmt: skip
    need = Interval.exact(bounce * max(1.0, _known_end(rack.beyond_pin) / rated_arm.lo), "N")
    yield Remedy(
        "or take a receiver with a tongue rating of at least {least}, on a frame that is as strong",
        field=f"{receiver.id}.tongue_rating", relation=AT_LEAST, target=need, least=Least(need),
    )  # fmt: skip


def _known_end(value: Interval) -> float:
    """The upper end; of what is only known to be at least so much, that."""
    return value.lo if value.hi == INF else value.hi


@rule("rack-overloaded", on=RearRack, reads=["rack.weight_carried", "rack.rating"], basis=LABEL)
def rack_overloaded(place: RearRack) -> Check | None:
    """What is put on the rack is within what the rack may carry.

    Why: The label counts the load alone, without the rack; on a trailer some makers allow half of it, or none.
    Formula: weight_carried <= rating.
    Remedy: Less on the rack, or a stronger one.
    Hazard: The rack bends down and drops its load on the road.
    Wrong:
        - {kind: rack, weight_carried: 150 lb, rating: 120 lb}
    Right:
        - {kind: rack, weight_carried: 100 lb, rating: 120 lb}
    """
    rack = place.rack
    if rack is None or not rack.has("weight_carried"):
        return None
    check = at_most(rack.weight_carried, rack.rating).stop(
        "The {rack} is to carry {have}, but it may carry {need}: {by} too much.", rack=rack
    )
    check.because("The label counts what is put on it; the rack's own weight is in it already.").danger(FALLS_OFF)
    check.fix(lambda: [
        Remedy("put at most {most} on it", field=f"{rack.id}.weight_carried", relation=AT_MOST,
               target=rack.rating, operation="declare", most=Most(rack.rating)),
        Remedy("or take one that may carry at least {least}", field=f"{rack.id}.rating", relation=AT_LEAST,
               target=rack.weight_carried, least=Least(rack.weight_carried)),
    ])  # fmt: skip
    return check.at(rack, "weight_carried").about(rack)


# ---- the slope behind the wheels -----------------------------------------------------------------------------


@rule(
    "departure-angle",
    on=Whole,
    reads=[
        "layout.rear_overhang", "layout.rear_clearance", "layout.ground_clearance", "layout.overall_length",
        "layout.coupler_to_axle", "layout.axle_spacing", "rack.beyond_pin", "service.surface",
        "practice.departure_angle_least", "practice.departure_angle_off_road", "practice.coupler_nose_most",
    ],
    basis=SLOPE,
)  # fmt: skip
def departure_angle_rule(whole: Whole) -> Check | None:
    """The trailer's rear, with what is in its receiver, clears the slope of a driveway or ramp.

    Why: Behind the wheels the rear swings down where the road breaks upward; a receiver or rack digs in first.
    Formula: arctan(rear clearance / overhang) >= practice limit (a steeper one off the road). Overhang:
        rear_overhang, else overall_length less coupler_to_axle, half the axle group and the coupler's nose; a
        rack adds its arm.
    Remedy: A rear that stands higher, or less overhang: a rack that folds up, a receiver set higher.
    Wrong:
        layout: {rear_overhang: 80 in, rear_clearance: 12 in}
        parts:
          - {kind: axle, rating: 2000 lb}
    Right:
        layout: {rear_overhang: 60 in, rear_clearance: 16 in}
        parts:
          - {kind: axle, rating: 2000 lb}
    """
    layout = whole.build.layout
    racks = whole.build.of_kind("rack")
    sides = (_overhang_given(layout), layout.has("rear_clearance"))
    behind = racks or rear_receivers(whole.build)
    if not (all(sides) or (behind and any(sides))):
        return None
    overhang, height = _overhang(whole, racks), _clearance(layout)
    need = _slope(whole)
    check = at_least(_angle(overhang, height), need).caution(
        "Behind the wheels the trailer clears a slope of {have}, and {need} is the least for {where}: its rear "
        "stands {overhang} behind the axle and {height} over the ground.",
        overhang=overhang, height=height, where="rough tracks" if _off_road(whole) else "driveways and ramps",
    )  # fmt: skip
    check.because("Where the road breaks upward the rear digs in, and bends what hangs there.")
    check.fix(lambda: _higher_or_shorter(whole, racks, overhang, height, need))
    return check.at(layout, "rear_clearance" if layout.has("rear_clearance") else "rear_overhang").about(*behind)


def _overhang_given(layout: Any) -> bool:
    return bool(layout.has("rear_overhang") or (layout.has("overall_length") and layout.has("coupler_to_axle")))


def _overhang(whole: Whole, racks: list[Any]) -> Interval:
    """From the rearmost axle back to the low point, or to the middle of a rack's load, mm."""
    layout = whole.build.layout
    if layout.has("rear_overhang") or not _overhang_given(layout):
        way: Interval = layout.rear_overhang
    else:
        layout.rear_overhang  # noqa: B018 - asks for it
        nose = Interval(0.0, whole.limits.coupler_nose_most.hi, "mm")
        way = layout.overall_length - nose - layout.coupler_to_axle
        if whole.fit.axles > 1:
            way = way - layout.axle_spacing * ((whole.fit.axles - 1) / 2)
    way = way.clipped(0.0)
    arms = [rack.beyond_pin for rack in racks]
    return max((way + arm for arm in arms), key=lambda one: one.hi) if arms else way


def _clearance(layout: Any) -> Interval:
    """Height of the rear over the ground, mm; not typed: no less than that of the lowest point anywhere."""
    height: Interval = layout.rear_clearance
    if layout.has("rear_clearance") or not layout.has("ground_clearance"):
        return height
    return Interval(layout.ground_clearance.lo, INF, "mm")


def _angle(overhang: Interval, height: Interval) -> Interval:
    near = departure_angle(overhang.lo, height.hi) if overhang.lo > 0 else 90.0
    far = departure_angle(overhang.hi, height.lo) if overhang.hi > 0 else 90.0
    return Interval(far, near, "deg")


def _off_road(whole: Whole) -> bool:
    service = whole.build.service
    return bool(service.has("surface") and service.surface == "off-road")


def _slope(whole: Whole) -> Interval:
    limits = whole.limits
    return limits.departure_angle_off_road if _off_road(whole) else limits.departure_angle_least


def _higher_or_shorter(
    whole: Whole, racks: list[Any], overhang: Interval, height: Interval, need: Interval
) -> Iterator[Remedy]:
    slope = math.tan(math.radians(need.hi))
    yield Remedy(
        "bring the rear up: its lowest point at least {target} over the ground", field="layout.rear_clearance",
        relation=AT_LEAST, target=no_less(overhang.hi * slope), operation="shop",
    )  # fmt: skip
    if height.lo > 0:
        folded = "have the rack folded up when nothing is on it, or " if racks else ""
        reach = height.lo / slope
        own = reach - max((rack.beyond_pin.hi for rack in racks), default=0.0)  # the rack's arm counts apart
        named: dict[str, Any] = {}
        if own > 0:
            named = {"field": "layout.rear_overhang", "relation": AT_MOST, "target": no_more(own)}
        yield Remedy(
            "or " + folded + "let nothing low stand more than {reach} behind the axle", operation="shop",
            reach=show_limit(no_more(reach), whole.build.leading(), up=False), **named,
        )  # fmt: skip
