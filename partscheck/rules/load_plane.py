"""Where the wheel's load stands on the hub, what clamps the wheel, and whether it clears the brake."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product

from partscheck.build.bearing_planes import BEARING_PLANE_READS, bearing_plane, planes_known
from partscheck.build.places import WheelEnd
from partscheck.build.weights import CORNER_LOAD_READS
from partscheck.build.wheel_data import load_plane, loaded_radius, wheel_offset
from partscheck.formulas.bearing import radial_split
from partscheck.notation.interval import Interval
from partscheck.rules.basis import practice
from partscheck.rules.check import Check, Remedy, all_of, at_least, at_most
from partscheck.rules.registry import rule

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

BEARING_FAILS = (
    "A wheel bearing that is overloaded runs hot and can seize or let the wheel go. Follow the part makers' "
    "instructions and local codes."
)
RUBS = "A wheel that rubs on its brake locks, or cuts its rim through. Turn it by hand before you drive."
MM_PER_INCH = 25.4
SAME_DRUM = 1.0  # mm: a drum this near to a row of the table is that row's


# ---- the load between the bearings ------------------------------------------------------------------


@rule(
    "load-outboard-of-bearings",
    on=WheelEnd,
    reads=[
        *CORNER_LOAD_READS, *BEARING_PLANE_READS, "bearing.dynamic_rating", "tire.loaded_radius",
        "tire.diameter", "tire.size", "practice.loaded_radius_factor", "practice.side_force",
    ],
    basis=practice("statics of the wheel end; the load belongs between the bearings by a rule of the trade"),
)  # fmt: skip
def load_outboard_of_bearings(end: WheelEnd) -> Check | None:
    """The load of a wheel stands between the load centres of the hub's two bearings.

    Why: Outboard of the outer bearing, that bearing carries more than the whole wheel and the inner one is
        levered off its seat. Adapters and wheels with negative offset bring the load there.
    Formula: load plane x = offset - thickness of all plates, inboard positive from the seating face;
        outer bearing <= x <= inner bearing; R inner = W (x - xo) / (xi - xo), R outer = W - R inner.
    Remedy: A wheel with more offset, hubs with the wheel's own circle, or a thinner plate.
    Hazard: An overloaded bearing runs hot and fails.
    Wrong:
        - {kind: hub, inner_bearing_to_face: 50 mm, outer_bearing_to_face: -18 mm}
        - {kind: adapter, thickness: 1.5 in}
        - {kind: wheel, offset: 0 mm}
    Right:
        - {kind: hub, inner_bearing_to_face: 50 mm, outer_bearing_to_face: -18 mm}
        - {kind: adapter, thickness: 1.5 in}
        - {kind: wheel, offset: +35 mm}
    """
    if end.hub is None or end.wheel is None or not _in_question(end):
        return None
    plane = load_plane(end)
    inner, outer = bearing_plane(end, "inner"), bearing_plane(end, "outer")
    if inner.hi <= outer.lo:
        return _turned_round(end, inner, outer)
    to_outer, to_inner = at_least(plane, outer), at_most(plane, inner)
    check = all_of(to_outer, to_inner)
    if check.fails:
        loads = _carried(end, plane, inner, outer)
        near, far = ("outer", "inner") if check is to_outer else ("inner", "outer")
        check.caution(
            "The {wheel} carries its load {by} {side} of the {near} bearing (load plane {have}, bearing "
            "{need} from the seating face of the {hub}, inboard positive). The {near} bearing then carries "
            "{near_load}"
            + loads["of"]
            + ", and the {far} one is levered the other way with {far_load}"
            + loads["far_of"]
            + loads["bend"],
            wheel=end.wheel, hub=end.hub, near=near, far=far,
            side="outboard" if near == "outer" else "inboard",
            near_load=loads[near], far_load=loads[far], load=end.corner_load,
            bend_g=end.limits.side_force, bend_load=loads["bend_load"],
        )  # fmt: skip
    return (
        check.because("The bearings of a hub are sized for a load that stands between them.")
        .fix(lambda: _plane_remedies(end, inner, outer, outboard=check is to_outer))
        .danger(BEARING_FAILS)
        .at(end.plates[0] if end.plates else end.wheel, "thickness" if end.plates else "offset")
        .about(end.hub, *end.plates, end.wheel)
    )


def _turned_round(end: WheelEnd, inner: Interval, outer: Interval) -> Check:
    return (
        at_least(inner, outer)
        .caution(
            "By the list the inner bearing of the {hub} ({inner}) stands no farther inboard than the outer "
            "one ({outer}): one of them has the wrong sign. Inboard of the seating face counts positive.",
            hub=end.hub, inner=inner, outer=outer,
        )
        .fix(lambda: [
            Remedy("measure both again from the seating face", operation="declare",
                   field=f"{end.hub.id}.outer_bearing_to_face", relation="at most", target=inner)
        ])
        .at(end.hub, "outer_bearing_to_face")
        .about(end.hub)
    )  # fmt: skip


def _in_question(end: WheelEnd) -> bool:
    """The list says where the bearings stand, or a plate or negative offset may bring the load outboard."""
    if planes_known(end):
        return True
    bearings = [end.part("inner-bearing"), end.part("outer-bearing")]
    if any(one is not None and (one.has("a") or one.has("dynamic_rating")) for one in bearings):
        return True
    outboard = bool(end.plates) or wheel_offset(end.wheel, end).hi < 0
    return outboard and load_plane(end).lo < 0


def _carried(end: WheelEnd, plane: Interval, inner: Interval, outer: Interval) -> dict[str, Any]:
    """What the bearings carry, as loads where the wheel's is known, else in parts of it."""
    weight = end.corner_load
    whole = weight if weight.known else Interval.exact(1.0)
    of, far_of = " where the wheel carries {load}", "."
    if not weight.known:
        of, far_of = " times the wheel's load", " times it."
    found: dict[str, Any] = {"of": of, "far_of": far_of, "bend": "", "bend_load": ""}
    split = _split(plane, inner, outer)
    found["inner"], found["outer"] = (abs(share * whole) for share in split)
    if weight.known and end.tire is not None:
        arm = loaded_radius(end.tire, end) * end.limits.side_force.bare()
        if arm.known:
            found["bend_load"] = abs(_split(plane - arm, inner, outer)[1] * whole)
            found["bend"] = " In a bend of {bend_g} g that of the inside wheel carries {bend_load}."
    return found


def _split(plane: Interval, inner: Interval, outer: Interval) -> tuple[Interval, Interval]:
    """Share of the wheel's load on the inner and the outer bearing (``formulas.bearing.radial_split``)."""
    ends = [(span.lo, span.hi) for span in (plane, inner, outer)]
    found = [radial_split(1.0, x, xi, xo) for x, xi, xo in product(*ends) if xi > xo]
    if not found:
        return Interval.unknown("", -1e9, 1e9), Interval.unknown("", -1e9, 1e9)
    inners, outers = zip(*found, strict=True)
    return Interval(min(inners), max(inners)), Interval(min(outers), max(outers))


def _plane_remedies(
    end: WheelEnd, inner: Interval, outer: Interval, outboard: bool
) -> Iterator[Remedy]:
    stack = end.stack_thickness
    offset = Interval.exact((outer + stack).hi if outboard else (inner + stack).lo, "mm")
    bound = "at least" if outboard else "at most"
    yield Remedy(
        f"take wheels with an offset of {bound} {{offset}}", field=f"{end.wheel.id}.offset", relation=bound,
        target=offset, offset=offset,
    )  # fmt: skip
    plates = list(end.plates)
    if not outboard or not plates:
        return
    if plates[0].kind == "adapter" and end.wheel.bolt_circle.known:
        yield Remedy(
            "or fit hubs drilled {circle} like the wheel, and leave the {plate} out",
            field=f"{end.hub.id}.bolt_circle", relation="equal to", target=end.wheel.bolt_circle,
            circle=end.wheel.bolt_circle, plate=plates[0],
        )  # fmt: skip
    thinnest = (wheel_offset(end.wheel, end) - outer).lo
    if thinnest > 0 and len(plates) == 1:
        target = Interval.exact(thinnest, "mm")
        yield Remedy(
            "or replace the {plate} by one of at most {target}, if one that thin can be had",
            field=f"{plates[0].id}.thickness", relation="at most", target=target, plate=plates[0],
        )  # fmt: skip


# ---- the rim over the brake -------------------------------------------------------------------------


@rule(
    "wheel-brake-clearance",
    on=WheelEnd,
    reads=[
        "wheel.barrel_inside", "wheel.size", "hub.drum_outside", "hub.drum_diameter", "hub.caliper_outside",
        "hub.rotor_diameter", "brake.drum_diameter", "practice.wheel_brake_clearance",
        "practice.rim_barrel_depth", "practice.drum_wall_most",
    ],
    basis=practice("the rim turns free of drum and caliper; sizes of drum and rim that commonly go together"),
)  # fmt: skip
def wheel_brake_clearance(end: WheelEnd) -> Check | None:
    """The rim's barrel clears the brake drum or caliper all round.

    Why: A rim that touches the drum or caliper cannot be fitted, or rubs as soon as it runs out a little.
    Formula: barrel_inside >= outside of drum or caliper + 2 x clearance. Where neither is measured: rim
        diameter >= the least rim for the drum's size, a table of common practice.
    Remedy: A larger rim, or a brake of smaller diameter.
    Hazard: A rubbing rim locks the wheel or is cut through.
    Wrong:
        - {kind: hub, drum_outside: 13-1/2 in}
        - {kind: wheel, size: 15 x 6 in, barrel_inside: 13-5/8 in}
    Right:
        - {kind: hub, drum_outside: 13-1/2 in}
        - {kind: wheel, size: 15 x 6 in, barrel_inside: 14 in}
    """
    outside = None if end.wheel is None else _brake_outside(end)
    if outside is None:
        return None
    gap = Interval.exact(end.limits.wheel_brake_clearance.hi, "mm")
    check = at_least(_barrel(end), outside + gap * 2)
    usual = _by_table(end) if check.unsure and not _measured(end) else None
    if usual is not None:
        return usual
    return (
        check.stop(
            "The barrel of the {wheel} is {have} inside; a brake of {outside} outside, with {gap} of room "
            "all round, needs {need}, {by} more.",
            wheel=end.wheel, outside=outside, gap=gap,
        )
        .because("A rim that touches the brake cannot be fitted, or rubs when the brake is hot.")
        .fix(lambda: _clearing_parts(end, outside, gap))
        .danger(RUBS)
        .at(end.wheel, "barrel_inside" if end.wheel.has("barrel_inside") else "size")
        .about(*_around(end))
    )  # fmt: skip


def _around(end: WheelEnd) -> list[Any]:
    return [part for part in (end.wheel, end.hub, end.brake) if part is not None]


def _drum(end: WheelEnd) -> Interval | None:
    """The drum's size, inside; None when there is no drum on the list."""
    for part in (end.hub, end.brake):
        if part is not None and part.has("drum_diameter"):
            return part.drum_diameter  # type: ignore[no-any-return]
    return None


def _brake_outside(end: WheelEnd) -> Interval | None:
    """Outside of what turns or stands inside the rim: measured, else bounded; None without a brake."""
    hub, drum = end.hub, _drum(end)
    if hub is not None:
        for field in ("caliper_outside", "drum_outside"):
            if hub.has(field):
                return getattr(hub, field)  # type: ignore[no-any-return]
        if hub.has("rotor_diameter"):
            return hub.caliper_outside.clipped(least=hub.rotor_diameter.lo)  # type: ignore[no-any-return]
    if drum is None:
        return None
    most = drum.hi + 2 * end.limits.drum_wall_most.hi
    return Interval(drum.lo, most, "mm") if hub is None else hub.drum_outside.clipped(drum.lo, most)


def _barrel(end: WheelEnd) -> Interval:
    """Inside of the rim's barrel: measured, else somewhat under the rim's diameter by name."""
    wheel = end.wheel
    barrel: Interval = wheel.barrel_inside
    if wheel.has("barrel_inside"):
        return barrel
    rim = wheel.size.diameter
    return barrel.clipped(max(0.0, rim.lo - end.limits.rim_barrel_depth.hi), rim.hi)


def _measured(end: WheelEnd) -> bool:
    on_hub = ("drum_outside", "rotor_diameter", "caliper_outside")
    return bool(
        end.wheel.has("barrel_inside")
        or (end.hub is not None and any(end.hub.has(name) for name in on_hub))
    )


def _by_table(end: WheelEnd) -> Check | None:
    """By common practice: what clears a larger drum clears this one, what is too small for a smaller
    one is too small for this; None in between.
    """
    drum, rim = _drum(end), end.wheel.size.diameter
    if drum is None:
        return None
    rows = [(row["drum_diameter_in"] * MM_PER_INCH, row) for row in end.tables.rows("brake_rim")]
    larger = [row for size, row in rows if size >= drum.hi - SAME_DRUM]
    smaller = [row for size, row in rows if size <= drum.lo + SAME_DRUM]
    named = {"wheel": end.wheel, "drum": drum, "size": end.wheel.size}
    if larger and (check := at_least(rim, _least_rim(larger[0]))).holds:
        if larger[0].get("note") and larger[0] in smaller:
            words = "A drum of {drum} commonly clears the {wheel} ({size}), but "
            check.note(words + larger[0]["note"] + ": measure.", **named)
    elif not smaller or not (check := at_least(rim, _least_rim(smaller[-1]))).fails:
        return None
    if check.fails:
        check.stop(
            "The {wheel} ({size}) is too small to clear a drum of {drum}: rims from {need} up commonly do.",
            **named,
        ).fix(lambda: _larger_rim(end, _least_rim(smaller[-1])))
    return (
        check.because("A rim that touches the drum cannot be fitted, or rubs when the brake is hot.")
        .danger(RUBS)
        .at(end.wheel, "size")
        .about(*_around(end))
    )


def _least_rim(row: dict[str, Any]) -> Interval:
    return Interval.exact(row["least_rim_in"] * MM_PER_INCH, "mm")


def _larger_rim(end: WheelEnd, least: Interval) -> Iterator[Remedy]:
    yield Remedy(
        "take wheels (and tires) of {least} rim diameter or more", field=f"{end.wheel.id}.size",
        relation="at least", target=least, least=least,
    )  # fmt: skip
    yield Remedy(
        "or measure: type barrel_inside of the {wheel}", field=f"{end.wheel.id}.barrel_inside",
        operation="declare", wheel=end.wheel,
    )  # fmt: skip


def _clearing_parts(end: WheelEnd, outside: Interval, gap: Interval) -> Iterator[Remedy]:
    needed = Interval.exact((outside + gap * 2).hi, "mm")
    yield Remedy(
        "take wheels with {needed} or more inside the barrel", field=f"{end.wheel.id}.barrel_inside",
        relation="at least", target=needed, needed=needed,
    )  # fmt: skip
    room = (_barrel(end) - gap * 2).lo
    if room > 0 and end.hub is not None:
        yield Remedy(
            "or a brake of at most {room} outside", field=f"{end.hub.id}.drum_outside", relation="at most",
            target=Interval.exact(room, "mm"), room=Interval.exact(room, "mm"),
        )  # fmt: skip
