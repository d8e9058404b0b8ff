"""What stands between hub and wheel: one plate, not too thick, on a face that carries it, and lawful."""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build.places import LugSet, Seat, WheelEnd
from partscheck.notation.interval import Interval
from partscheck.rules.basis import practice
from partscheck.rules.check import Check, Remedy, at_least, at_most, certainly
from partscheck.rules.registry import rule

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

WHEEL_OFF = (
    "A wheel whose clamp is lost comes off on the road. Follow the part makers' instructions and local codes."
)


@rule(
    "stacked-spacers",
    on=WheelEnd,
    reads=["adapter.thickness", "spacer.thickness"],
    basis=practice("one plate between hub and wheel"),
)
def stacked_spacers(end: WheelEnd) -> Check | None:
    """Between a hub and its wheel stands one plate at most.

    Why: Every face more can creep and settle, and every set of nuts more has to be found loose in time.
    Remedy: One plate of the whole thickness.
    Hazard: A plate whose nuts are hidden under another one works loose unseen.
    Wrong:
        - {kind: hub, bolt_circle: 5 x 4.5 in}
        - {kind: adapter, hub_circle: 5 x 4.5 in, wheel_circle: 5 x 5.5 in, thickness: 1.5 in}
        - {kind: spacer, bolt_circle: 5 x 5.5 in, thickness: 5 mm}
        - {kind: wheel, bolt_circle: 5 x 5.5 in}
    Right:
        - {kind: hub, bolt_circle: 5 x 4.5 in}
        - {kind: adapter, hub_circle: 5 x 4.5 in, wheel_circle: 5 x 5.5 in, thickness: 1.75 in}
        - {kind: wheel, bolt_circle: 5 x 5.5 in}
    """
    if not end.plates:
        return None
    total = end.stack_thickness
    return (
        certainly(len(end.plates) == 1)
        .caution(
            "{count} plates stand on each other between hub and wheel: {plates}.",
            count=len(end.plates), plates=list(end.plates),
        )
        .because("Every face more can creep and settle, and the nuts under another plate cannot be checked.")
        .fix(lambda: _one_plate(end, total))
        .danger(WHEEL_OFF)
        .about(*end.plates)
    )  # fmt: skip


def _one_plate(end: WheelEnd, total: Interval) -> Iterator[Remedy]:
    first = next((plate for plate in end.plates if plate.kind == "adapter"), end.plates[0])
    if total.known:
        yield Remedy(
            "get one plate of {total} from hub face to wheel face in their place",
            field=f"{first.id}.thickness", relation="equal to", target=total, total=total,
        )  # fmt: skip
    for plate in end.plates:
        if plate is not first:
            yield Remedy("or leave the {plate} out", field=plate.id, operation="remove", plate=plate)


@rule(
    "slip-spacer-too-thick",
    on=LugSet,
    reads=[
        "spacer.thickness", "hub.stud_length", "hub.stud_point", "hub.stud_thread", "adapter.stud_length",
        "adapter.stud_point", "adapter.stud_thread", "wheel.seat_thickness", "adapter.nut_seat_thickness",
        "practice.slip_spacer_most", "practice.minimum_thread_engagement",
        "practice.seat_thickness_tolerance",
    ],
    basis=practice("a slip-on spacer takes its thickness off the thread that the nut engages"),
    after=["stud-too-short-for-wheel", "stud-too-short-for-adapter"],
)  # fmt: skip
def slip_spacer_too_thick(lugs: LugSet) -> Iterator[Check]:
    """A slip-on spacer is thin, and leaves the studs long enough for the full engagement of the nut.

    Why: A loose spacer has no studs of its own: its whole thickness is taken off the nut's grip, and thick
        ones bend the studs.
    Formula: thickness at most the practice limit; stud_length - spacers - metal under the nut - unthreaded
        tip at least the practice multiple of the stud's diameter.
    Remedy: A thinner spacer, longer studs, or a plate that bolts on and has studs of its own.
    Hazard: Nuts on too few threads strip, and the wheel comes off.
    Wrong:
        - {kind: hub, bolt_circle: 5 x 4.5 in}
        - {kind: spacer, bolt_circle: 5 x 4.5 in, thickness: 10 mm}
        - {kind: wheel, bolt_circle: 5 x 4.5 in}
    Right:
        - {kind: hub, bolt_circle: 5 x 4.5 in}
        - {kind: spacer, bolt_circle: 5 x 4.5 in, thickness: 3 mm}
        - {kind: wheel, bolt_circle: 5 x 4.5 in}
    """
    if not lugs.between:
        return
    spacers = lugs.between
    total = spacers[0].thickness
    for spacer in spacers[1:]:
        total = total + spacer.thickness
    yield (
        at_most(total, lugs.limits.slip_spacer_most)
        .caution(
            "{have} of plate ({spacers}) is slipped over the studs, {by} more than the usual limit, {need}.",
            spacers=list(spacers),
        )
        .because("It takes its thickness off the thread in the nut, and the studs bend over a longer arm.")
        .fix(lambda: _thinner(lugs))
        .danger(WHEEL_OFF)
        .at(spacers[0], "thickness")
        .about(*spacers)
    )
    base = lugs.base
    if base is None or lugs.held is None or lugs.bolted or not base.has("stud_length"):
        return
    yield _engagement_left(lugs, total)


def _engagement_left(lugs: LugSet, spacers: Interval) -> Check:
    base = lugs.base
    point = base.stud_point if base.has("stud_point") else Interval(0.0, 0.0, "mm")
    left = base.stud_length - spacers - _under_the_nut(lugs) - point
    need = base.stud_thread.diameter * lugs.limits.minimum_thread_engagement.bare().lo
    longer = Interval.exact(max(0.0, (need - left).hi), "mm")
    return (
        at_least(left, need)
        .caution(
            "With {spacers} slipped on, {have} of the studs of the {base} is left for the nuts, {by} less "
            "than the {need} of full engagement.",
            spacers=list(lugs.between), base=base,
        )
        .because("Nuts on too few threads strip.")
        .fix(lambda: [
            Remedy(
                "take thinner spacers or none", field=lugs.between[0].id, operation="remove",
            ),
            Remedy(
                "or fit studs longer by {longer}", field=f"{base.id}.stud_length", relation="at least",
                target=Interval.exact((base.stud_length + longer).lo, "mm"), longer=longer,
            ),
        ])
        .danger(WHEEL_OFF)
        .at(lugs.between[0], "thickness")
        .about(*lugs.between, base)
    )  # fmt: skip


def _under_the_nut(lugs: LugSet) -> Interval:
    """Metal of the wheel or adapter under the nut's seat."""
    if lugs.hub_side:
        return lugs.held.nut_seat_thickness  # type: ignore[no-any-return]
    thickness = lugs.held.seat_thickness
    if lugs.held.has("seat_thickness") and not thickness.toleranced:
        return thickness.widened(lugs.limits.seat_thickness_tolerance.hi)  # type: ignore[no-any-return]
    return thickness  # type: ignore[no-any-return]


def _thinner(lugs: LugSet) -> Iterator[Remedy]:
    most = lugs.limits.slip_spacer_most
    if len(lugs.between) == 1:
        yield Remedy(
            "take a spacer of at most {most}, if the tire clears with it",
            field=f"{lugs.between[0].id}.thickness", relation="at most", target=most, most=most,
        )  # fmt: skip
    yield Remedy(
        "take a plate that bolts to the hub and carries studs of its own (an adapter), and check it here",
        operation="add",
    )
    yield Remedy(
        "or leave it out and take a wheel with the offset you need",
        field=lugs.between[0].id, operation="remove",
    )  # fmt: skip


@rule(
    "adapter-legality",
    on=WheelEnd,
    reads=["service.country"],
    basis=practice("adapters and spacers are restricted, or need an approval, in some places"),
)
def adapter_legality(end: WheelEnd) -> Iterator[Check]:
    """A hub carries its wheel without adapter or spacer, or the law on them has been looked up.

    Why: Some places forbid wheel adapters and spacers on the road, or ask for an approval. Nothing here
        decides that.
    Remedy: Ask the registration or inspection office, and accept the caution with what they said.
    Wrong:
        - {kind: hub, bolt_circle: 5 x 4.5 in}
        - {kind: adapter, hub_circle: 5 x 4.5 in, wheel_circle: 5 x 5.5 in}
        - {kind: wheel, bolt_circle: 5 x 5.5 in}
    Right:
        - {kind: hub, bolt_circle: 5 x 5.5 in}
        - {kind: wheel, bolt_circle: 5 x 5.5 in}
    """
    if not end.plates and end.hub is not None and end.wheel is not None:
        yield certainly().about(end.hub, end.wheel)
    for plate in end.plates:
        yield _look_up(end, plate)


def _look_up(end: WheelEnd, plate: Any) -> Check:
    service = end.build.service
    place = "where the trailer is registered"
    if service.has("country"):
        place = f"in the law of the place (country: {service.country})"
    return (
        certainly(False)
        .caution(
            "The law on the {plate} is not known here: look it up {place}.", plate=plate, place=place
        )
        .because("Some places forbid wheel adapters and spacers on the road, or ask for an approval.")
        .fix(lambda: [
            Remedy(
                "ask the registration or inspection office, then write what they said under accept: "
                "rule adapter-legality, part {id}",
                operation="declare", id=plate.id,
            ),
            Remedy("or leave the {plate} out, with hubs that suit the wheel", field=plate.id,
                   operation="remove", plate=plate),
        ])
        .about(plate)
    )  # fmt: skip


@rule(
    "mounting-face-too-small",
    on=Seat,
    reads=[
        "hub.face_diameter", "adapter.outside_diameter", "wheel.pad_diameter",
        "practice.mounting_pad_tolerance",
    ],
    basis=practice("the seating face covers the wheel's mounting pad"),
)  # fmt: skip
def mounting_face_too_small(seat: Seat) -> Check | None:
    """The face that a wheel seats on is as large as the wheel's mounting pad.

    Why: A pad that overhangs its face bends at every turn of the wheel, and cracks round the lug holes.
    Formula: face diameter at least pad diameter less the practice limit.
    Remedy: A hub or adapter with a larger face, or a wheel with a smaller pad.
    Hazard: The wheel's centre cracks.
    Wrong:
        - {kind: hub, bolt_circle: 5 x 4.5 in, face_diameter: 130 mm}
        - {kind: wheel, bolt_circle: 5 x 4.5 in, pad_diameter: 150 mm}
    Right:
        - {kind: hub, bolt_circle: 5 x 4.5 in, face_diameter: 150 mm}
        - {kind: wheel, bolt_circle: 5 x 4.5 in, pad_diameter: 150 mm}
    """
    base, wheel = seat.inner, seat.outer
    face_field = {"hub": "face_diameter", "adapter": "outside_diameter"}.get(base.kind)
    if wheel.kind != "wheel" or face_field is None or not (base.has(face_field) or wheel.has("pad_diameter")):
        return None
    need = wheel.pad_diameter - seat.limits.mounting_pad_tolerance.hi
    return (
        at_least(getattr(base, face_field), need)
        .caution(
            "The {wheel} has a mounting pad of {pad}, the face of the {base} is {have}: {by} too small.",
            wheel=wheel, base=base, pad=wheel.pad_diameter,
        )
        .because("A pad that overhangs its face bends at every turn and cracks round the lug holes.")
        .fix(lambda: [
            Remedy(
                "replace the {base} by one with a face of at least {need}", field=f"{base.id}.{face_field}",
                relation="at least", target=need, base=base,
            ),
            Remedy(
                "or a wheel with a pad of at most {pad}", field=f"{wheel.id}.pad_diameter",
                relation="at most", target=getattr(base, face_field), pad=getattr(base, face_field),
            ),
        ])
        .danger("A cracked wheel comes off. Follow the part makers' instructions and local codes.")
        .at(base, face_field)
    )  # fmt: skip
