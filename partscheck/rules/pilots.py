"""Pilots, bores and caps: what stands in the middle of a hub passes the parts that go over it."""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build.places import LugSet, Seat, WheelEnd
from partscheck.build.stud_data import is_name
from partscheck.notation.interval import Interval, Quantity
from partscheck.rules.basis import practice
from partscheck.rules.check import Check, Remedy, any_of, at_least, at_most, certainly
from partscheck.rules.registry import rule
from partscheck.rules.targets import a_kind, no_less, no_more

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

NOT_SEATED = (
    "A wheel that does not lie on its face is not clamped: the nuts come loose and the wheel comes off. "
    "Follow the part makers' instructions."
)
CENTRED_BY_SEATS = ("conical", "ball")


@rule(
    "center-bore-too-small",
    on=Seat,
    reads=[
        "hub.pilot", "hub.pilot_height", "adapter.wheel_pilot", "adapter.hub_bore", "spacer.bore",
        "spacer.thickness", "wheel.center_bore", "practice.pilot_measure_band",
        "practice.hub_centric_gap_least",
    ],
    basis=practice("a bore at least as wide as its pilot; bores and pilots are named to 0.1 mm"),
)  # fmt: skip
def center_bore_too_small(seat: Seat) -> Check | None:
    """The bore of a wheel, adapter or spacer passes over the pilot that it sits on.

    Why: A bore that is too small stops on the pilot before the faces meet, or is forced and cracks.
    Formula: bore >= pilot. Short by 0.1 mm or less, and typed without a tolerance: caliper first. The
        usual gap of a part that centres on its pilot is 0.05 to 0.2 mm.
    Remedy: A part with a larger bore; boring only where its maker allows it.
    Hazard: The wheel can come off.
    Wrong:
        - {kind: hub, bolt_circle: 5 x 4.5 in, pilot: 3.19 in}
        - {kind: wheel, bolt_circle: 5 x 4.5 in, center_bore: 72.6 mm}
    Right:
        - {kind: hub, bolt_circle: 5 x 4.5 in, pilot: 72.5 mm}
        - {kind: wheel, bolt_circle: 5 x 4.5 in, center_bore: 72.6 mm}
    """
    under = _pilot_under(seat)
    bore_field = _bore_field(seat.outer)
    if under is None:
        return None
    owner, field = under
    if not (owner.has(field) or seat.outer.has(bore_field)):
        return None
    pilot, bore = getattr(owner, field), getattr(seat.outer, bore_field)
    check = _wide_enough(bore, pilot, seat.limits.pilot_measure_band.hi)
    return (
        check.stop(
            "The bore of the {outer} is {have}, the pilot of the {owner} is {need}: {by} too small.",
            outer=seat.outer, owner=owner,
        )
        .because("It stops on the pilot before the faces meet, or is forced on and cracks.")
        .at(seat.outer, bore_field)
        .about(owner, seat.outer)
        .fix(lambda: _larger_bore(seat, owner, field, bore_field, pilot))
        .danger(NOT_SEATED)
    )  # fmt: skip


@rule(
    "pilot-loose",
    on=LugSet,
    reads=[
        "hub.pilot", "adapter.wheel_pilot", "adapter.hub_bore", "wheel.center_bore", "wheel.nut_seat",
        "adapter.nut_seat", "lug-nut.seat", "wheel-bolt.seat", "practice.flat_seat_pilot_gap",
        "practice.hub_centric_gap_most", "practice.hub_centric_gap_least",
    ],
    basis=practice("conical and ball seats centre a wheel; with flat or shank seats only the pilot does"),
    after=["center-bore-too-small"],
)  # fmt: skip
def pilot_loose(lugs: LugSet) -> Check | None:
    """A part held by flat or shank seats fits its pilot closely; conical or ball seats centre by themselves.

    Why: Nothing else centres it: off centre it shakes and bends its studs.
    Formula: bore - pilot <= 0.2 mm (practice) with flat or shank seats; no limit with conical or ball
        seats, which make the wheel "lug-centric".
    Remedy: A centring ring; a part with the right bore.
    Hazard: The wheel can come loose.
    Wrong:
        - {kind: hub, bolt_circle: 5 x 4.5 in, pilot: 70 mm}
        - {kind: wheel, bolt_circle: 5 x 4.5 in, center_bore: 72.6 mm, nut_seat: flat}
    Right:
        - {kind: hub, bolt_circle: 5 x 4.5 in, pilot: 72.5 mm}
        - {kind: wheel, bolt_circle: 5 x 4.5 in, center_bore: 72.6 mm, nut_seat: flat}
    """
    if lugs.held is None or lugs.base is None or lugs.between:
        return None
    seat = _seat_shape(lugs)
    pilot_field, bore_field = _pilot_field(lugs.base), _bore_field(lugs.held)
    if not seat:
        return None
    if seat in CENTRED_BY_SEATS:
        typed = lugs.base.has(pilot_field) and lugs.held.has(bore_field)
        return _lug_centric(lugs, seat, pilot_field, bore_field) if typed else None
    gap = getattr(lugs.held, bore_field) - getattr(lugs.base, pilot_field)
    check = at_most(gap, lugs.limits.flat_seat_pilot_gap)
    return (
        check.stop(
            "The {held} is held by {seat} seats, which do not centre it, and its bore is {have} wider than "
            "the pilot of the {base}, where {need} at most is asked: nothing centres it.",
            held=lugs.held, base=lugs.base, seat=seat,
        )
        .because("Off centre it shakes, and its studs are bent at every turn.")
        .at(lugs.held, bore_field)
        .about(lugs.base, lugs.held)
        .fix(lambda: _centred(lugs, pilot_field, bore_field))
        .danger(NOT_SEATED)
    )  # fmt: skip


@rule(
    "cap-hits-wheel",
    on=WheelEnd,
    reads=[
        "hub.cap_diameter", "hub.cap_height", "adapter.hub_bore", "spacer.bore", "wheel.center_bore",
        "adapter.thickness", "spacer.thickness",
    ],
    basis=practice("dust cap and hub barrel pass through what sits on the hub, or end behind it"),
)  # fmt: skip
def cap_hits_wheel(end: WheelEnd) -> Iterator[Check]:
    """Dust cap and hub barrel pass the bore of every adapter, and the wheel's bore or end behind the wheel.

    Why: A cap that meets the wheel holds it off its face, or is crushed and leaks grease.
    Formula: cap_diameter <= bore of each adapter and spacer; for the wheel cap_diameter <= center_bore,
        or cap_height <= sum of the thicknesses under it.
    Remedy: A wider bore, a lower cap, a thicker adapter.
    Hazard: The wheel can come off.
    Wrong:
        - {kind: hub, bolt_circle: 5 x 4.5 in, cap_diameter: 2.9 in, cap_height: 2 in}
        - {kind: wheel, bolt_circle: 5 x 4.5 in, center_bore: 66.6 mm}
    Right:
        - {kind: hub, bolt_circle: 5 x 4.5 in, cap_diameter: 2.5 in, cap_height: 2 in}
        - {kind: wheel, bolt_circle: 5 x 4.5 in, center_bore: 66.6 mm}
    """
    hub = end.hub
    if hub is None or not (hub.has("cap_diameter") or hub.has("cap_height")):
        return
    for plate in end.plates:
        field = _bore_field(plate)
        if hub.has("cap_diameter") or plate.has(field):
            yield _passes(hub, plate, field)
    if end.wheel is not None:
        yield _cap_and_wheel(end)


# ---- bore and pilot ----------------------------------------------------------------------------


def _bore_field(part: Any) -> str:
    return {"adapter": "hub_bore", "spacer": "bore"}.get(part.kind, "center_bore")


def _pilot_field(part: Any) -> str:
    return "wheel_pilot" if part.kind == "adapter" else "pilot"


def _pilot_under(seat: Seat) -> tuple[Any, str] | None:
    """The pilot that the outer part goes over: the hub's, or an adapter's where it has one.

    Through a slip-on spacer the hub's pilot reaches only when it is higher than the spacer is thick.
    """
    inner = seat.inner
    if inner.kind == "hub":
        return inner, "pilot"
    if inner.kind == "adapter":
        return (inner, "wheel_pilot") if inner.has("wheel_pilot") else None  # most plates are flat
    hub = seat.end.hub
    if hub is None or not (hub.has("pilot") and hub.has("pilot_height")):
        return None
    return (hub, "pilot") if at_most(hub.pilot_height, inner.thickness).fails else None


def _wide_enough(bore: Interval, pilot: Interval, band: float) -> Check:
    """Bore against pilot; a lack within the band of an untoleranced name cannot be told."""
    plain = at_least(bore, pilot)
    if is_name(bore):
        loose = at_least(Interval(bore.lo, bore.hi + band, "mm"), pilot)
    elif is_name(pilot) and isinstance(bore, Quantity):
        loose = at_least(bore, Interval(pilot.lo - band, pilot.hi, "mm"))
    else:
        return plain
    return loose if plain.fails and loose.unsure else plain


def _larger_bore(seat: Seat, owner: Any, field: str, bore_field: str, pilot: Interval) -> Iterator[Remedy]:
    least = no_less(pilot.hi + seat.limits.hub_centric_gap_least.hi)
    yield Remedy(
        "get {a_part} with a bore of at least {target}",
        field=f"{seat.outer.id}.{bore_field}", relation="at least", target=least,
        a_part=a_kind(seat.outer),
    )  # fmt: skip
    yield Remedy(
        "or have a machine shop bore it to {target}, true to its circle, and only where the maker of the "
        "{outer} allows it",
        field=f"{seat.outer.id}.{bore_field}", relation="at least", target=least, operation="shop",
        outer=seat.outer,
    )  # fmt: skip
    if owner.kind == "adapter":
        bore = getattr(seat.outer, bore_field)
        most = no_more(bore.lo - seat.limits.hub_centric_gap_least.hi)
        yield Remedy(
            "or an adapter with a pilot of {target} at most, or with none",
            field=f"{owner.id}.{field}", relation="at most", target=most,
        )  # fmt: skip


# ---- centring ----------------------------------------------------------------------------------


def _seat_shape(lugs: LugSet) -> str:
    """The seats that hold it: as the held part says, else as its nuts or bolts say; "" if nobody does."""
    if lugs.held.has("nut_seat"):
        return str(lugs.held.nut_seat)
    if lugs.fastener is not None and lugs.fastener.has("seat"):
        return str(lugs.fastener.seat)
    return ""


def _lug_centric(lugs: LugSet, seat: str, pilot_field: str, bore_field: str) -> Check:
    gap = getattr(lugs.held, bore_field) - getattr(lugs.base, pilot_field)
    check = at_least(gap, Interval(0.0, 0.0, "mm"))
    if gap.lo <= lugs.limits.hub_centric_gap_most.hi:
        return certainly().about(lugs.base, lugs.held)  # a bore that is too small is another rule's
    return check.note(
        "The bore of the {held} is {have} wider than the pilot of the {base}: that is no fault, its {seat} "
        "seats centre it (lug-centric). Tighten the nuts crosswise in steps with the wheel off the ground.",
        held=lugs.held, base=lugs.base, seat=seat,
    ).about(lugs.base, lugs.held)  # fmt: skip


def _centred(lugs: LugSet, pilot_field: str, bore_field: str) -> Iterator[Remedy]:
    pilot, bore, limits = getattr(lugs.base, pilot_field), getattr(lugs.held, bore_field), lugs.limits
    if pilot.lo > 0:
        yield Remedy(
            "fit a centring ring of metal, {outside} outside and {inside} inside, less the running gap",
            field=f"{lugs.held.id}.{bore_field}", operation="add", outside=bore, inside=pilot,
        )  # fmt: skip
    yield Remedy(
        "or get {a_part} with a bore of {least} to {target}",
        field=f"{lugs.held.id}.{bore_field}", relation="at most",
        target=no_more(pilot.lo + limits.flat_seat_pilot_gap.lo),
        least=no_less(pilot.hi + limits.hub_centric_gap_least.hi), a_part=a_kind(lugs.held),
    )  # fmt: skip


# ---- cap ---------------------------------------------------------------------------------------


def _passes(hub: Any, plate: Any, field: str) -> Check:
    check = at_most(hub.cap_diameter, getattr(plate, field))
    return (
        check.stop(
            "The cap or barrel of the {hub} is {have} wide, the bore of the {plate} only {need}: {by} too "
            "wide to pass.",
            hub=hub, plate=plate,
        )
        .at(plate, field)
        .about(hub, plate)
        .fix(lambda: [
            Remedy(
                "get {a_part} with a bore of at least {target}", field=f"{plate.id}.{field}",
                relation="at least", target=no_less(hub.cap_diameter.hi),
                a_part=a_kind(plate),
            )
        ])
        .danger(NOT_SEATED)
    )  # fmt: skip


def _cap_and_wheel(end: WheelEnd) -> Check:
    hub, wheel, stack = end.hub, end.wheel, end.stack_thickness
    passes = at_most(hub.cap_diameter, wheel.center_bore)
    check = any_of(passes, at_most(hub.cap_height, stack))
    return (
        check.stop(
            "The cap of the {hub} is {wide} wide and stands {high} out; the bore of the {wheel} is {bore} "
            "and begins {stack} out: the cap meets the wheel.",
            hub=hub, wheel=wheel, wide=hub.cap_diameter, high=hub.cap_height, bore=wheel.center_bore,
            stack=stack,
        )
        .because("The wheel is held off its face, or the cap is crushed and lets grease out and dirt in.")
        .at(wheel, "center_bore")
        .about(hub, *end.plates, wheel)
        .fix(lambda: _room_for_the_cap(end, passes))
        .danger(NOT_SEATED)
    )  # fmt: skip


def _room_for_the_cap(end: WheelEnd, passes: Check) -> Iterator[Remedy]:
    hub, wheel, stack = end.hub, end.wheel, end.stack_thickness
    if passes.have.known:
        yield Remedy(
            "get wheels with a bore of at least {target}",
            field=f"{wheel.id}.center_bore", relation="at least",
            target=no_less(hub.cap_diameter.hi),
        )  # fmt: skip
    if stack.lo > 0:
        yield Remedy(
            "or a lower cap: no more than {target} beyond the hub's face",
            field=f"{hub.id}.cap_height", relation="at most", target=no_more(stack.lo),
        )  # fmt: skip
    if len(end.plates) == 1:
        yield Remedy(
            "or an adapter at least {target} thick; check clearances and bearings again",
            field=f"{end.plates[0].id}.thickness", relation="at least",
            target=no_less(hub.cap_height.hi),
        )  # fmt: skip
