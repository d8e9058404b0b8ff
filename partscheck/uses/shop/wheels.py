"""Adapters and wheels: cleaned, hung, and tightened in the star order."""

from __future__ import annotations

from partscheck.build.places import LugSet
from partscheck.build.stud_data import stud_count
from partscheck.notation.interval import Interval
from partscheck.rules.basis import practice, recalled
from partscheck.rules.wheel_clamp import lug_thread, usual_torque
from partscheck.uses.shop.sheet import FROM_LIST, Bound, Said, Section, Step, Torque
from partscheck.uses.shop.sizes import socket_of
from partscheck.uses.shop.tightening import circle_order, stages, tell_order, tell_stages

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.engine import Result
    from partscheck.rules.basis import Basis

WHEELS = (
    "bolt_circles",
    "pilots",
    "plate_stacks",
    "adapter_plates",
    "adapter_studs",
    "lugs",
    "lug_threads",
    "load_plane",
    "clearances",
    "wheel_clamp",
    "tires",
    "tire_markings",
    "tire_loads",
    "shares",
    "quantities",
    "cart",
)
HANGING = practice("hanging wheels: bare clean faces, dry threads, nuts started with the fingers")
USUAL = recalled("usual torque of wheel nuts by thread; no neutral source was found")
HAZARD = (
    "A clamp that is too small lets the studs be sheared off, and the wheel comes off: the torque of the "
    "wheel's and the axle's makers governs. Jack only where the frame or axle maker says, on firm ground, the "
    "other wheels chocked, the coupler blocked or on the hitch, the weight on stands before a wheel comes off. "
    "No impact wrench for the last round."
)
INTRO = (
    Said(
        "No paint, rust or grease on faces that meet. Start every thread with the fingers, and run it all the way."
    ),
)
SEATS = {
    "conical": "the cone of the nut towards the {held}",
    "ball": "the ball side of the nut towards the {held}",
    "flat": "the washer side of the nut towards the {held}",
    "shank": "the sleeve of the nut into the {held}, its washer on it",
}


def lug_sets(result: Result) -> list[LugSet]:
    """Each face with nuts or wheel bolts, from the hub outward; alike ones at both ends of an axle together."""
    return [lugs for lugs in result.fit.bindings(LugSet) if lugs.base is not None and lugs.held is not None]


def section(result: Result) -> Section:
    steps = [_step(result, lugs, places) for places, lugs in _alike(result)]
    return Section("wheels", "Bolt on the wheels", steps, INTRO, HAZARD, (HANGING,))


def _alike(result: Result) -> list[tuple[tuple[str, ...], LugSet]]:
    """Ends that differ only in arm or brake have one wheel step."""
    groups: dict[Any, tuple[list[str], LugSet]] = {}
    for lugs in lug_sets(result):
        key = tuple(part.id for part in lugs.parts)
        groups.setdefault(key, ([], lugs))[0].extend(lugs.at)
    return [(tuple(sorted(places)), lugs) for places, lugs in groups.values()]


def _step(result: Result, lugs: LugSet, places: tuple[str, ...]) -> Step:
    count = stud_count(lugs)
    what = "wheel bolts" if lugs.bolted else "nuts"
    pieces = f"{count} {what}" if count is not None else what
    if lugs.fastener is not None:
        pieces += f" '{lugs.fastener.id}'" if lugs.fastener.id not in (what, what[:-1]) else ""
    step = Step(
        "put the {held} on the {base} at {places}: {pieces} each.",
        (*lugs.parts, lugs.end.tire),
        places,
        held=lugs.held,
        base=lugs.base,
        places=", ".join(places),
        pieces=pieces,
    ).by(HANGING, FROM_LIST)
    _seat(step, lugs)
    full = _tell_torque(step, result, lugs)
    tell_stages(step, lugs.limits, full)
    order = circle_order(count)
    tell_order(step, order)
    socket, socket_basis = socket_of(lugs.fastener)
    if socket.values:
        step.more("Socket {socket}.", socket=socket).take(Said("socket {socket}, for the wheel", socket=socket))
        step.by(*([socket_basis] if socket_basis is not None else []))
    else:
        step.more("Socket: try which one fits without play; the list gives no hex.")
    step.more("Threads clean and dry: oil on them stretches the studs at the same torque. Wheel off the ground.")
    if lugs.hub_side:
        step.more("Once the wheel is on, these are out of sight: tick this step before you hang the wheel.")
    step.take("torque wrench", "wire brush", "jack, stands and chocks")
    row = Torque(
        Said("{held} on {base}", held=lugs.held, base=lugs.base),
        places,
        count,
        order,
        full,
        stages(lugs.limits, full),
        socket,
    )
    return step.tighten(row).minds(*WHEELS)


def _seat(step: Step, lugs: LugSet) -> None:
    """Which side of the nut bears, by the seat that nut or wheel is known to have."""
    nut = lugs.fastener
    if nut is None or lugs.bolted:
        return
    if nut.has("seat") and nut.seat in SEATS:
        step.more(SEATS[nut.seat] + ".", held=lugs.held)


def _tell_torque(step: Step, result: Result, lugs: LugSet) -> Interval | None:
    """The maker's torque of the list; else the usual range for the thread, told as no more than that."""
    held = lugs.held
    if "nut_torque" in held.fields and held.has("nut_torque"):
        full: Interval = held.nut_torque
        step.more("Torque {full}, dry.", full=full).by(FROM_LIST)
        return full
    thread = lug_thread(lugs)
    usual = usual_torque(lugs, thread) if thread is not None else None
    if usual is None or thread is None:
        step.more("Torque by the maker's sheet of the {held}: ask for it; the list has none.", held=held)
        return None
    full, basis = _at_least(result, lugs, usual)
    step.more(
        "Torque by the maker's sheet of the {held}: ask for it, and type it as nut_torque. Without it only this "
        "is known: {full} is usual for {thread}, dry.",
        held=held,
        full=full,
        thread=thread.callout,
    ).by(USUAL)
    if basis:
        step.more(
            "Below {least} the wheel would not be held by friction.",
            least=Bound(Interval.exact(full.lo, "N m"), True),
        )
        step.by(*basis)
    return full


def _at_least(result: Result, lugs: LugSet, usual: Interval) -> tuple[Interval, tuple[Basis, ...]]:
    """The usual range, cut off below where the check found that it does not hold."""
    for finding in result.of("wheel-clamp"):
        least = finding.check.values.get("least")
        here = lugs.held in finding.parts and set(finding.at) & set(lugs.at)
        if finding.check.holds and here and isinstance(least, Interval) and usual.lo < least.lo <= usual.hi:
            return Interval(least.lo, usual.hi, "N m"), finding.basis
    return usual, ()
