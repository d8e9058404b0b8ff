"""Adapter plates: room for their two circles of holes, for their nuts, and for the socket on them."""

from __future__ import annotations

import math
from collections.abc import Iterator

from partscheck.build.places import LugSet, PlateSeat
from partscheck.formulas.bolt_circle import best_clocking
from partscheck.notation.interval import Interval
from partscheck.notation.words import same_word
from partscheck.rules.basis import practice
from partscheck.rules.check import Check, Remedy, all_of, at_least, equal_within, same
from partscheck.rules.registry import rule

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

OVER_CORNERS = 1 / math.cos(math.pi / 6)  # a hexagon's width across corners against across flats

PLATE_BREAKS = (
    "A plate that cracks between its holes lets the wheel come off. Do not use a plate that you are not "
    "sure of; its maker's instructions and local codes go before this check."
)
NUT_LOOSENS = (
    "A nut that bears on an edge, or that was never tightened, works loose and the wheel comes off. "
    "Follow the part makers' instructions and local codes."
)


# ---- two circles in one plate ---------------------------------------------------------------------


@rule(
    "adapter-holes-collide",
    on=PlateSeat,
    reads=[
        "adapter.hub_circle", "adapter.wheel_circle", "adapter.nut_pocket_diameter", "adapter.knurl_diameter",
        "adapter.stud_thread", "adapter.make", "stud.knurl_diameter", "stud.thread", "lug-nut.hex",
        "wheel-bolt.hex", "practice.hole_metal_least", "practice.nut_pocket_most",
        "practice.nut_pocket_over_socket",
        "practice.wheel_nut_hex_least", "practice.knurl_least", "practice.knurl_most",
        "practice.knurl_over_thread", "practice.socket_clearance_factor",
        "practice.socket_clearance_allowance",
    ],
    basis=practice("exact geometry of the two circles; the least metal is a practice limit"),
)  # fmt: skip
def adapter_holes_collide(seat: PlateSeat) -> Check | None:
    """Between the nut pockets and the studs of an adapter there is metal enough.

    Why: Two circles of holes in one plate can come so near that a pocket breaks into a stud hole.
    Formula: The plate is drilled with the two circles turned against each other by the best angle,
        a = 180 deg / lcm(n1, n2); centres c = sqrt(r1^2 + r2^2 - 2 r1 r2 cos a);
        metal = c - pocket / 2 - knurl / 2, at least the practice limit.
    Remedy: Smaller pockets, hubs drilled for the wheel, or the maker's drawing of a plate that exists.
    Hazard: The plate cracks between the holes and the wheel comes off.
    Wrong:
        - {kind: adapter, make: true, hub_circle: 5 x 4.5 in, wheel_circle: 6 x 5.5 in,
           nut_pocket_diameter: 1.10 in, knurl_diameter: 0.570 in}
    Right:
        - {kind: adapter, make: true, hub_circle: 5 x 4.5 in, wheel_circle: 5 x 5.5 in,
           nut_pocket_diameter: 1.10 in, knurl_diameter: 0.570 in}
    """
    plate = seat.plate
    if plate.kind != "adapter" or not (plate.hub_circle.known and plate.wheel_circle.known):
        return None
    angle, centres = _clocked(plate.hub_circle, plate.wheel_circle)
    pocket, knurl = _pocket(seat), _knurl(seat)
    check = at_least(centres - pocket * 0.5 - knurl * 0.5, seat.limits.hole_metal_least)
    home_made = plate.has("make") and plate.make
    values = {
        "plate": plate, "hub_side": plate.hub_circle, "wheel_side": plate.wheel_circle,
        "angle": angle, "centres": centres, "pocket": pocket, "knurl": knurl,
    }  # fmt: skip
    if check.holds:
        if home_made:
            check.note(
                "Drill the stud holes of the {plate} ({wheel_side}) turned {angle} from the nut holes "
                "({hub_side}): their centres are then {centres} apart and leave {have} of metal, "
                "at least {need} is asked.",
                **values,
            )
        return check.about(plate)
    words = (
        "In the {plate} the centres of nut holes ({hub_side}) and stud holes ({wheel_side}) stand only "
        "{centres} apart, even turned by the best angle, {angle}. " + _lack(check)
    )
    if home_made:
        check.stop(words + " Do not make this plate.", **values)
    else:
        check.caution(words + " Ask the seller for the drawing before you trust it.", **values)
    return (
        check.because("A thin web between a pocket and a pressed-in stud cracks under the wheel's load.")
        .fix(lambda: _hole_remedies(seat, centres, knurl))
        .danger(PLATE_BREAKS)
        .at(plate, "wheel_circle")
        .about(plate)
    )


def _clocked(one: Any, other: Any) -> tuple[Interval, Interval]:
    """Best angle between the nearest holes of two circles, deg, and the distance of their centres, mm."""
    angle, _ = best_clocking(one.diameter.mid, one.count, other.diameter.mid, other.count)
    cos = math.cos(math.radians(angle))
    # The distance is least where one radius is the other's times the cosine: try that besides the ends.
    firsts = {one.diameter.lo, one.diameter.hi}
    seconds = {other.diameter.lo, other.diameter.hi}
    firsts |= {_into(second * cos, one.diameter) for second in tuple(seconds)}
    seconds |= {_into(first * cos, other.diameter) for first in tuple(firsts)}
    found = [best_clocking(a, one.count, b, other.count)[1] for a in firsts for b in seconds]
    return Interval.exact(angle, "deg"), Interval(min(found), max(found), "mm")


def _into(value: float, span: Interval) -> float:
    return min(max(value, span.lo), span.hi)


def _lack(check: Check) -> str:
    if check.have.hi < 0:
        return "A pocket of {pocket} and a stud of {knurl} cut into each other; {need} of metal is asked."
    return "A pocket of {pocket} and a stud of {knurl} leave {have} of metal; {need} is asked."


def _pocket(seat: PlateSeat) -> Interval:
    """Diameter of the nut pocket: typed, else between what the nut and what its socket asks."""
    plate, limits = seat.plate, seat.limits
    if plate.has("nut_pocket_diameter"):
        return plate.nut_pocket_diameter  # type: ignore[no-any-return]
    hex = seat.nuts.hex if seat.nuts is not None else Interval.unknown("mm")
    most = limits.nut_pocket_most.hi
    if hex.known:
        most = _socket(seat, hex).hi + limits.nut_pocket_over_socket.hi
    least = max(hex.lo, limits.wheel_nut_hex_least.lo) * OVER_CORNERS
    return plate.nut_pocket_diameter.clipped(min(least, most), most)  # type: ignore[no-any-return]


def _knurl(seat: PlateSeat) -> Interval:
    """Diameter of the knurl: typed on the adapter or on its studs, else what goes with their thread."""
    plate, studs, limits = seat.plate, seat.end.part("plate-stud"), seat.limits
    if plate.has("knurl_diameter"):
        return plate.knurl_diameter  # type: ignore[no-any-return]
    if studs is not None and studs.has("knurl_diameter"):
        return studs.knurl_diameter  # type: ignore[no-any-return]
    thread = studs.thread if studs is not None and studs.has("thread") else plate.stud_thread
    least, most = limits.knurl_least.lo, limits.knurl_most.hi
    if thread.known:
        least, most = thread.diameter.lo, thread.diameter.hi + limits.knurl_over_thread.hi
    return plate.knurl_diameter.clipped(least, most)  # type: ignore[no-any-return]


def _hole_remedies(seat: PlateSeat, centres: Interval, knurl: Interval) -> Iterator[Remedy]:
    plate = seat.plate
    home_made = plate.has("make") and plate.make
    if not home_made:
        yield Remedy(
            "ask the seller for the drawing, and type the pocket and the knurl of the {plate} as drawn",
            field=f"{plate.id}.nut_pocket_diameter", operation="declare", plate=plate,
        )  # fmt: skip
    widest = (centres - knurl * 0.5 - seat.limits.hole_metal_least).lo * 2
    if home_made and widest >= _least_pocket(seat):
        yield Remedy(
            "bore the nut pockets no wider than {widest}",
            field=f"{plate.id}.nut_pocket_diameter", relation="at most",
            target=Interval.exact(widest, "mm"), operation="shop", widest=Interval.exact(widest, "mm"),
        )  # fmt: skip
    hub = seat.end.hub
    yield Remedy(
        "fit hubs drilled {circle} like the wheel, and leave the {plate} out",
        field=f"{hub.id}.bolt_circle" if hub is not None else "", relation="equal to",
        target=plate.wheel_circle, circle=plate.wheel_circle, plate=plate,
    )  # fmt: skip
    yield Remedy(
        "or fit wheels drilled {circle} like the hub", relation="equal to",
        field=f"{seat.end.wheel.id}.bolt_circle" if seat.end.wheel is not None else "",
        target=plate.hub_circle, circle=plate.hub_circle,
    )  # fmt: skip


def _least_pocket(seat: PlateSeat) -> float:
    hex = seat.nuts.hex.lo if seat.nuts is not None else 0.0
    return _socket(seat, Interval.exact(max(hex, seat.limits.wheel_nut_hex_least.lo), "mm")).lo


# ---- the nuts in their pockets ---------------------------------------------------------------------


@rule(
    "adapter-nut-seat-mismatch",
    on=PlateSeat,
    reads=[
        "adapter.nut_seat", "adapter.nut_seat_angle", "adapter.nut_seat_radius", "lug-nut.seat",
        "lug-nut.seat_angle", "lug-nut.seat_radius", "wheel-bolt.seat", "wheel-bolt.seat_angle",
        "wheel-bolt.seat_radius", "practice.seat_angle_agreement",
        "practice.seat_radius_agreement",
    ],
    basis=practice("a wheel nut bears only on a seat of its own shape"),
)  # fmt: skip
def adapter_nut_seat_mismatch(seat: PlateSeat) -> Check | None:
    """The nuts that hold an adapter on the hub have the shape of the seats in its pockets.

    Why: A cone in a flat hole, or a flat in a cone, touches on an edge: the edge wears and the clamp is lost.
    Remedy: Nuts with the seat that the plate is made for.
    Hazard: The nuts work loose and adapter and wheel come off together.
    Wrong:
        - {kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20}
        - {kind: adapter, hub_circle: 5 x 4.5 in, wheel_circle: 5 x 5.5 in, nut_seat: flat}
        - {kind: lug-nut, thread: 1/2-20, seat: conical}
    Right:
        - {kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20}
        - {kind: adapter, hub_circle: 5 x 4.5 in, wheel_circle: 5 x 5.5 in, nut_seat: conical}
        - {kind: lug-nut, thread: 1/2-20, seat: conical}
    """
    plate, nuts = seat.plate, seat.nuts
    if nuts is None or not (nuts.has("seat") or plate.has("nut_seat")):
        return None
    check = all_of(*_seat_checks(seat, nuts))
    return (
        check.because("A seat of another shape touches on an edge; the edge wears, and the clamp is gone.")
        .fix(lambda: [_fitting_nuts(seat, nuts, check)])
        .danger(NUT_LOOSENS)
        .at(nuts, "seat")
        .about(nuts, plate)
    )


def _seat_checks(seat: PlateSeat, nuts: Any) -> Iterator[Check]:
    """Shape first; the angle of cones where both are typed; the radius of balls."""
    plate, limits = seat.plate, seat.limits
    words = "The {nuts} has a {have} seat, the pockets of the {plate} are made for a {need} one."
    named = {"nuts": nuts, "plate": plate}
    yield same(same_word(nuts.seat, plate.nut_seat), nuts.seat, plate.nut_seat).stop(words, **named)
    if nuts.seat == plate.nut_seat == "conical" and nuts.has("seat_angle") and plate.has("nut_seat_angle"):
        angles = equal_within(nuts.seat_angle, plate.nut_seat_angle, limits.seat_angle_agreement.hi)
        yield angles.stop(
            "The cone of the {nuts} has {have}, the seats in the {plate} {need}: they touch on an edge.",
            **named,
        )
    if nuts.seat == plate.nut_seat == "ball":
        radii = equal_within(nuts.seat_radius, plate.nut_seat_radius, limits.seat_radius_agreement.hi)
        yield radii.stop(
            "The ball of the {nuts} has a radius of {have}, the seats in the {plate} {need}: "
            "they do not bear all round.",
            **named,
        )


def _fitting_nuts(seat: PlateSeat, nuts: Any, check: Check) -> Remedy:
    field = "seat"
    if check.margin is not None:
        field = "seat_angle" if check.margin.unit == "deg" else "seat_radius"
    words = "get nuts with a seat of {wanted}" if check.margin is not None else "get {wanted} nuts"
    return Remedy(
        words + " for the {plate}",
        field=f"{nuts.id}.{field}", relation="equal to", target=check.need,
        plate=seat.plate, wanted=check.need,
    )  # fmt: skip


@rule(
    "socket-does-not-fit",
    on=LugSet,
    reads=[
        "adapter.nut_pocket_diameter", "wheel.lug_well_diameter", "lug-nut.hex", "wheel-bolt.hex",
        "practice.socket_clearance_factor", "practice.socket_clearance_allowance",
        "practice.wheel_nut_hex_least", "adapter.make", "wheel.make",
    ],
    basis=practice("a common wheel socket is about 1.4 x the width across flats outside, and 1 mm of room"),
)  # fmt: skip
def socket_does_not_fit(lugs: LugSet) -> Check | None:
    """The pocket or lug well round a wheel nut passes the nut and the socket that tightens it.

    Why: A nut that the socket cannot get over cannot be brought to its torque, nor checked on the road.
    Formula: well >= 1.4 x hex + 1 mm for the socket; well >= hex / cos 30 deg for the nut itself.
    Remedy: A nut with a smaller hex, a thin-walled socket, or a wider pocket in a plate that you make.
    Hazard: A nut that was never tightened works loose.
    Wrong:
        - {kind: hub, bolt_circle: 5 x 4.5 in}
        - {kind: wheel, bolt_circle: 5 x 4.5 in, lug_well_diameter: 1 in}
        - {kind: lug-nut, thread: 1/2-20, hex: 3/4 in}
    Right:
        - {kind: hub, bolt_circle: 5 x 4.5 in}
        - {kind: wheel, bolt_circle: 5 x 4.5 in, lug_well_diameter: 1-1/8 in}
        - {kind: lug-nut, thread: 1/2-20, hex: 3/4 in}
    """
    held, nut = lugs.held, lugs.fastener
    well_field = "nut_pocket_diameter" if lugs.hub_side else "lug_well_diameter"
    if held is None or nut is None or not held.has(well_field):
        return None
    well = getattr(held, well_field)
    named = {"held": held, "nut": nut, "hex": nut.hex, "hole": "pocket" if lugs.hub_side else "lug well"}
    check = at_least(well, nut.hex * OVER_CORNERS)
    if check.fails:
        check.stop(
            "The {nut} (hex {hex}, {need} over its corners) does not go into the {hole} of the {held}, "
            "{have} wide.",
            **named,
        )
    else:
        check = at_least(well, _socket(lugs, nut.hex)).caution(
            "The {hole} of the {held} is {have} wide; a common socket for the {nut} (hex {hex}) needs "
            "{need}, {by} more.",
            **named,
        )
    return (
        check.because("A nut that no socket gets over is never brought to its torque, nor checked again.")
        .fix(lambda: _socket_remedies(lugs, well, well_field))
        .danger(NUT_LOOSENS)
        .at(held, well_field)
        .about(held, nut)
    )


def _socket(place: PlateSeat | LugSet, hex: Interval) -> Interval:
    """Room that a common socket on a hexagon needs, on diameter."""
    limits = place.limits
    return hex * limits.socket_clearance_factor.hi + limits.socket_clearance_allowance.hi


def _socket_remedies(lugs: LugSet, well: Interval, well_field: str) -> Iterator[Remedy]:
    limits, held, nut = lugs.limits, lugs.held, lugs.fastener
    largest = (well.lo - limits.socket_clearance_allowance.hi) / limits.socket_clearance_factor.hi
    needed = Interval.exact(_socket(lugs, nut.hex).hi, "mm")
    if held.has("make") and held.make:
        yield Remedy(
            "bore the pockets to {needed} or more, and check the metal to the studs again",
            field=f"{held.id}.{well_field}", relation="at least", target=needed, operation="shop",
            needed=needed,
        )  # fmt: skip
    if largest >= limits.wheel_nut_hex_least.lo:
        target = Interval.exact(largest, "mm")
        yield Remedy(
            "get nuts or bolts of the same thread and seat with a hex of at most {largest}",
            field=f"{nut.id}.hex", relation="at most", target=target, largest=target,
        )  # fmt: skip
    yield Remedy(
        "get a thin-walled socket of at most {outside} outside diameter", operation="add",
        outside=Interval.exact(max(0.0, well.lo - limits.socket_clearance_allowance.hi), "mm"),
    )  # fmt: skip
