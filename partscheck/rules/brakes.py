"""Brakes at the wheel: flange, drum, rating, and what the tire's size does to the rating."""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build.places import WheelEnd
from partscheck.build.weights import CORNER_LOAD_READS, in_its_case
from partscheck.build.wheel_data import loaded_radius, rating_each
from partscheck.notation.interval import INF, Interval
from partscheck.rules.basis import practice
from partscheck.rules.check import Check, Remedy, all_of, at_least, certainly, equal_within, same
from partscheck.rules.message import Least
from partscheck.rules.registry import rule
from partscheck.rules.shares import corner_share
from partscheck.rules.targets import a_kind

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

BRAKES_FAIL = (
    "Brakes that do not fit or are too weak do not stop the trailer. Follow the brake maker's instructions and "
    "local codes, and have a licensed shop look at brakes you are not sure of."
)
SAME_TORQUE = practice("the brake's torque is the same on any tire: its force at the road goes with 1 / radius")
TIRE_READS = ("tire.loaded_radius", "tire.diameter", "tire.size", "practice.loaded_radius_factor")
MAYBE_DISC = ("hydraulic", "surge")
GEAR = ("suspension-arm", "axle", "spindle")


@rule(
    "brake-flange-pattern",
    on=WheelEnd,
    reads=["brake.flange", *(f"{kind}.brake_flange" for kind in GEAR), "practice.brake_flange_tolerance"],
    basis=practice("the back plate bolts flat to the flange: bolts and circle are the same"),
)
def brake_flange_pattern(end: WheelEnd) -> Check | None:
    """The brake's back plate has the same bolts on the same circle as the flange it bolts to.

    Why: The flange takes the whole braking torque; a plate held by half its bolts turns with the drum.
    Formula: number of bolts equal, and |D1 - D2| at most the practice limit; each bolt is off by half the
        difference. Look at the hole in the middle too: it must pass over the spindle.
    Remedy: A brake made for this flange, or a flange welded on by a licensed shop.
    Hazard: A back plate that turns tears its lines and locks the wheel.
    Wrong:
        - {kind: axle, brake_flange: 4 x 3.25 in}
        - {kind: brake, flange: 5 x 4 in}
    Right:
        - {kind: axle, brake_flange: 4 x 3.25 in}
        - {kind: brake, flange: 4 x 82.5 mm}
    """
    brake, gear = end.brake, _flanged(end)
    if brake is None or gear is None:
        return None
    one, other = gear.brake_flange, brake.flange
    counts = same(None if None in (one.count, other.count) else one.count == other.count, one, other)
    circles = equal_within(one.diameter, other.diameter, end.limits.brake_flange_tolerance.hi)
    check = all_of(counts, circles)
    differ = "the number of bolts differs" if counts.fails else "each bolt would stand {off} off"
    return (
        check.stop(
            "The flange of the {gear} is drilled {one}, the back plate of the {brake} {other}: " + differ + ".",
            gear=gear, brake=brake, one=one, other=other, off=abs(one.diameter - other.diameter) * 0.5,
        )
        .because("The back plate holds the whole torque of the brake by these bolts.")
        .fix(lambda: [
            Remedy("get brakes for a flange of {target}", field=f"{brake.id}.flange",
                   relation="equal to", target=one),
            Remedy("or {a_gear} with a flange of {target}", field=f"{gear.id}.brake_flange",
                   relation="equal to", target=other, a_gear=a_kind(gear)),
        ])
        .danger(BRAKES_FAIL)
        .at(brake, "flange")
        .about(brake, gear)
    )  # fmt: skip


def _flanged(end: WheelEnd) -> Any:
    """What carries the brake's flange: the part that says so, else what carries the spindle."""
    here = [end.part(kind) for kind in ("spindle", "suspension-arm", "axle")]
    typed = [part for part in here if part is not None and part.has("brake_flange")]
    return typed[0] if typed else end.running_gear


@rule(
    "brake-drum-size",
    on=WheelEnd,
    reads=[
        "brake.drum_diameter", "brake.shoe_width", "hub.drum_diameter", "hub.drum_width",
        "hub.rotor_diameter", "brake.type", "practice.brake_drum_agreement",
        "practice.brake_width_agreement",
    ],
    basis=practice("shoes and drum are of one size by name, diameter x width"),
)  # fmt: skip
def brake_drum_size(end: WheelEnd) -> Check | None:
    """The brake is made for the drum of its hub, in diameter and in width.

    Why: Shoes for another drum touch at their ends alone or not at all, or do not go in.
    Formula: drum_diameter of hub and brake equal within the practice limit; the drum's width and the width
        of the shoes too, where one of them is typed.
    Remedy: Brakes for this drum, or hubs with the drum for these brakes.
    Hazard: Brakes that hardly touch do not stop the trailer.
    Wrong:
        - {kind: hub, drum_diameter: 12 in}
        - {kind: brake, drum_diameter: 10 in}
    Right:
        - {kind: hub, drum_diameter: 10 in, drum_width: 2-1/4 in}
        - {kind: brake, drum_diameter: 10 in, shoe_width: 2-1/4 in}
    """
    hub, brake, drum = end.hub, end.brake, "drum_diameter"
    if hub is None or brake is None:
        return None
    if hub.has("rotor_diameter") and not hub.has("drum_diameter"):
        return _drum_brake_on_rotor(hub, brake)
    if brake.has("type") and brake.type in MAYBE_DISC and not (hub.has(drum) or brake.has(drum)):
        return None  # a caliper, as well as not
    diameters = equal_within(brake.drum_diameter, hub.drum_diameter, end.limits.brake_drum_agreement.hi)
    check, words, field, hub_field = diameters, "is made for a drum of {have}", "drum_diameter", "drum_diameter"
    if hub.has("drum_width") or brake.has("shoe_width"):
        widths = equal_within(brake.shoe_width, hub.drum_width, end.limits.brake_width_agreement.hi)
        check = all_of(diameters, widths)
        if check is widths:
            words, field, hub_field = "has shoes {have} wide", "shoe_width", "drum_width"
    what = "drum of the {hub} is {need} inside" if check is diameters else "drum of the {hub} is {need} wide"
    of = "" if check is diameters else " width"
    return (
        check.stop("The {brake} " + words + ", the " + what + ".", brake=brake, hub=hub)
        .because("Shoes and drum wear in on one another only when they are of one size.")
        .fix(lambda: [
            Remedy("get brakes for a drum of {target}" + of, field=f"{brake.id}.{field}", relation="equal to",
                   target=check.need),
            Remedy("or hubs with a drum of {target}" + of, field=f"{hub.id}.{hub_field}", relation="equal to",
                   target=check.have),
        ])
        .danger(BRAKES_FAIL)
        .at(brake, field)
        .about(brake, hub)
    )  # fmt: skip


def _drum_brake_on_rotor(hub: Any, brake: Any) -> Check | None:
    if not brake.has("drum_diameter"):
        return None
    check = certainly(False).stop(
        "The {hub} carries a rotor of {rotor}, the {brake} is made for a drum of {drum}.",
        hub=hub, rotor=hub.rotor_diameter, brake=brake, drum=brake.drum_diameter,
    )  # fmt: skip
    check.because("A drum brake has nothing to bite on there.").danger(BRAKES_FAIL)
    check.fix(lambda: [
        Remedy("get hubs with a drum of {target}", field=f"{hub.id}.drum_diameter", relation="equal to",
               target=brake.drum_diameter),
    ])  # fmt: skip
    return check.at(brake, "drum_diameter").about(brake, hub)


@rule(
    "brake-below-share",
    on=WheelEnd,
    reads=["brake.rating", "brake.per", *CORNER_LOAD_READS],
    basis=practice("a brake's rating is not less than the load of the wheel that it stops"),
)
def brake_below_share(end: WheelEnd) -> Iterator[Check]:
    """Each brake is rated for what stands on its wheel.

    Why: Brakes for 5200, 6000 and 7000 lb axles look alike; the rating is not in the size.
    Formula: rating >= axle load x (1/2 +- y / track), at rest, on braked axles; a rating per axle counts half.
    Remedy: Brakes of a higher rating, or less weight.
    Hazard: Brakes that are too weak do not stop the trailer and burn their linings.
    Wrong:
        service: {gross_weight: 2600 lb, tongue_weight: 300 lb}
        parts:
          - {kind: brake, rating: 2000 lb, per: axle}
    Right:
        service: {gross_weight: 2600 lb, tongue_weight: 300 lb}
        parts:
          - {kind: brake, rating: 3500 lb, per: axle}
    """
    yield from corner_share(end, end.brake, BRAKES_FAIL)


@rule(
    "brake-weakened-by-tire",
    on=WheelEnd,
    reads=["brake.rating", "brake.per", "brake.design_tire_radius", *TIRE_READS, *CORNER_LOAD_READS],
    basis=SAME_TORQUE,
    after=["brake-below-share"],
)
def brake_weakened_by_tire(end: WheelEnd) -> Iterator[Check]:
    """On this tire each brake still slows what stands on its wheel.

    Why: A brake gives a torque. On a taller tire the same torque is less force at the road, so that the
        rating on the brake's sheet no longer holds.
    Formula: rating x design_tire_radius / loaded radius >= corner load; on a smaller tire the rating itself
        is the limit. Loaded radius not typed: the practice share of the tire's diameter.
    Remedy: Brakes of a higher rating or for a taller tire, a smaller tire, or less weight.
    Hazard: The trailer stops late and pushes the tow vehicle.
    Wrong:
        service: {gross_weight: 2600 lb, tongue_weight: 300 lb}
        parts:
          - {kind: brake, rating: 1200 lb, per: each, design_tire_radius: 300 mm}
          - {kind: tire, loaded_radius: 330 mm}
    Right:
        service: {gross_weight: 2600 lb, tongue_weight: 300 lb}
        parts:
          - {kind: brake, rating: 1750 lb, per: each, design_tire_radius: 300 mm}
          - {kind: tire, loaded_radius: 330 mm}
    """
    brake, tire = end.brake, end.tire
    if brake is None or tire is None:
        return
    weighed = brake.has("rating") and end.weights.given
    if not brake.has("design_tire_radius"):
        if weighed:
            yield from _sheet_not_read(end, loaded_radius(tire, end))
        return
    radius = loaded_radius(tire, end)
    ratio = (brake.design_tire_radius / radius).clipped(0.0, 1.0)
    if not weighed:
        if ratio.hi < 1:
            yield _told(certainly(), end, radius, ratio)
        return
    for places, load in end.weights.place_loads(end):
        check = at_least(rating_each(brake) * ratio, load)
        if check.holds and ratio.hi < 1:
            _told(check, end, radius, ratio)
        else:
            check.stop(
                "On the {tire} (loaded radius {radius}) the {brake} gives {percent} of its rated force: it is "
                "good for {have} then, but {need} stands on the wheel{case}, {by} more.",
                tire=tire, radius=radius, brake=brake, percent=_percent(ratio), case=in_its_case(load),
            )  # fmt: skip
        check.because("The same torque at the drum is less force at the road on a taller tire.")
        check.fix(lambda load=load: _stronger(end, load, radius))  # type: ignore[misc]
        yield check.danger(BRAKES_FAIL).at(brake, "design_tire_radius").about(brake, tire, places=places)


def _told(check: Check, end: WheelEnd, radius: Interval, ratio: Interval) -> Check:
    return check.note(
        "On the {tire} (loaded radius {radius}) the {brake} gives {percent} of the force that it is rated for.",
        tire=end.tire, radius=radius, brake=end.brake, percent=_percent(ratio),
    ).about(end.brake, end.tire)  # fmt: skip


def _sheet_not_read(end: WheelEnd, radius: Interval) -> Iterator[Check]:
    """The rating holds at a radius that only the maker's sheet gives: how far the force may fall is told."""
    brake = end.brake
    for places, load in end.weights.place_loads(end):
        rating = rating_each(brake)
        if not (load.known and radius.known and rating.lo > 0 and at_least(rating, load).holds):
            continue
        share = load / rating
        least = Interval.exact((radius * share).hi, "mm")
        check = certainly(False).caution(
            "The {brake} must give {percent} of its rated force on the {tire} (loaded radius {radius}). Its "
            "rating holds at the tire radius on its maker's sheet, which the list does not give; from {least} on "
            "it is enough.",
            brake=brake, tire=end.tire, radius=radius, percent=_percent(share, up=True), least=least,
        )  # fmt: skip
        check.because("On a tire taller than that of the sheet the brake is weaker in proportion.")
        check.fix(lambda least=least, brake=brake: [  # type: ignore[misc]
            Remedy("read the tire radius (or the largest tire) on the brake maker's sheet and type it as "
                   "design_tire_radius of the {brake}: at least {target} will do",
                   field=f"{brake.id}.design_tire_radius", relation="at least", target=least,
                   operation="declare", brake=brake)
        ])  # fmt: skip
        check.danger(BRAKES_FAIL).at(brake, "rating")
        yield check.about(brake, end.tire, places=places)


def _stronger(end: WheelEnd, load: Interval, radius: Interval) -> Iterator[Remedy]:
    brake = end.brake
    per_axle = brake.has("per") and brake.per == "axle"
    needed = load / (brake.design_tire_radius / radius).clipped(0.0, 1.0) * (2 if per_axle else 1)
    if needed.known:
        yield Remedy(
            "put brakes rated at least {least}" + (" per axle" if per_axle else "") + " in place of the {brake}",
            field=f"{brake.id}.rating", relation="at least", target=needed, least=Least(needed), brake=brake,
        )  # fmt: skip
    most = (brake.design_tire_radius * rating_each(brake) / load.bare()).with_unit("mm")
    if 0 < most.lo < INF and at_least(rating_each(brake), load).holds:
        yield Remedy(
            "or tires of at most {target} loaded radius", field=f"{end.tire.id}.loaded_radius",
            relation="at most", target=Interval.exact(most.lo, "mm"),
        )  # fmt: skip


def _percent(ratio: Interval, up: bool = False) -> str:
    """A share in whole percent, rounded to the careful side."""
    if not ratio.known:
        return "an unknown share"
    ends = [int(-(-end * 100 // 1)) if up else int(end * 100 // 1) for end in (ratio.lo, ratio.hi)]
    return f"{ends[0]} %" if ends[0] == ends[1] else f"{ends[0]} to {ends[1]} %"
