"""The hub's studs and nuts under an adapter: they must not reach its face, and must hold it."""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build.places import LugSet
from partscheck.build.stud_data import (
    full_engagement,
    has_studs,
    nut_thread,
    plain_tip,
    plates_between,
    seat_height,
    stud_length,
)
from partscheck.notation.interval import INF, Interval, least_of
from partscheck.rules.basis import practice
from partscheck.rules.check import Check, Remedy, at_least, at_most
from partscheck.rules.lug_threads import (
    bolt_engagement,
    engagement,
    left_of,
    longer,
    short_nut,
    thread_meets,
    up_to,
)
from partscheck.rules.registry import rule
from partscheck.rules.targets import no_less, no_more

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

HELD_OFF = (
    "A wheel held off its face is not clamped: the nuts come loose, the studs break and the wheel comes "
    "off. Follow the instructions of the adapter's and the wheel's maker."
)
ADAPTER_LOOSE = (
    "Too little thread strips or works loose, and adapter and wheel come off together. Follow the "
    "instructions of the adapter's and the hub's maker."
)
SLIVER = 0.01  # mm; nothing is bought or cut to less


@rule(
    "stud-above-adapter-face",
    on=LugSet,
    reads=[
        "hub.hole_thread", "hub.stud_length", "adapter.stud_length", "stud.length",
        "adapter.thickness", "spacer.thickness",
        "wheel.stud_pocket_depth", "wheel.stud_pocket_circle", "wheel.checked_on_wheel",
        "hub.bolt_circle", "adapter.hub_circle", "practice.bolt_circle_tolerance",
        "practice.stud_below_flush", "practice.minimum_thread_engagement",
        "hub.stud_thread", "stud.thread", "adapter.stud_thread", "adapter.hub_nut_thread", "lug-nut.thread",
        "lug-nut.depth", "adapter.nut_seat_thickness", "hub.stud_point", "adapter.stud_point",
    ],
    basis=practice("a wheel seats on the whole face of its adapter; a trimmed stud ends a little below it"),
)  # fmt: skip
def stud_above_adapter_face(lugs: LugSet) -> Check | None:
    """The hub's studs end at or below the adapter's outer face, or in reliefs of the wheel over them.

    Why: A stud that stands proud carries the wheel instead of the face: the wheel rocks, and the nuts
        clamp nothing.
    Formula: stud_length <= thickness of the adapter (and of a spacer under it) + stud_pocket_depth, the
        pocket only where it lies over these studs. Pockets that are not typed are not there.
    Remedy: Trim the studs to 1 mm below the face while enough thread stays in the nut; a thicker
        adapter; shorter studs.
    Hazard: The wheel can come off.
    Wrong:
        - {kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, stud_length: 1.75 in}
        - {kind: adapter, hub_circle: 5 x 4.5 in, thickness: 1.5 in}
    Right:
        - {kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, stud_length: 1.5 in}
        - {kind: adapter, hub_circle: 5 x 4.5 in, thickness: 1.5 in}
    """
    if not _adapter_on_studs(lugs):
        return None
    wheel = _wheel_on(lugs)
    face = lugs.held.thickness + plates_between(lugs)
    flat = at_most(stud_length(lugs), face)
    pocketed = wheel is not None and wheel.says("stud_pocket_depth")
    check = flat if flat.holds or not pocketed else at_most(stud_length(lugs), face + _pocket(lugs, wheel))
    return (
        check.stop(
            "The studs of the {base} stand {have} proud, but the {plate} leaves them only {need}: they stand "
            "out of its face by {upto}{by} and hold the wheel off it.",
            base=lugs.base, plate=lugs.held, upto=up_to(check),
        )
        .because("The nuts then pull the wheel against stud ends, not against the face.")
        .at(lugs.base, "stud_length")
        .about(lugs.base, *lugs.between, lugs.held, wheel if pocketed else None)
        .fix(lambda: _below_the_face(lugs, check.need, None if pocketed else wheel))
        .danger(HELD_OFF)
    )  # fmt: skip


@rule(
    "adapter-nut-above-face",
    on=LugSet,
    reads=["adapter.nut_seat_thickness", "adapter.thickness", "lug-nut.height"],
    basis=practice("a wheel seats on the whole face of its adapter"),
)
def adapter_nut_above_face(lugs: LugSet) -> Check | None:
    """The nuts that hold the adapter end at or below its outer face.

    Why: A nut that stands out of its pocket holds the wheel off the face.
    Formula: nut_seat_thickness + nut height <= thickness.
    Remedy: Lower nuts with the same thread and seat; an adapter that is thicker above its nut seats.
    Hazard: The wheel can come off.
    Wrong:
        - {kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20}
        - {kind: adapter, hub_circle: 5 x 4.5 in, thickness: 1.25 in, nut_seat_thickness: 0.75 in}
        - {kind: lug-nut, thread: 1/2-20, height: 0.8 in, mounts_on: hub}
    Right:
        - {kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20}
        - {kind: adapter, hub_circle: 5 x 4.5 in, thickness: 1.5 in, nut_seat_thickness: 0.75 in}
        - {kind: lug-nut, thread: 1/2-20, height: 0.75 in, mounts_on: hub}
    """
    plate, nut = lugs.held, lugs.fastener
    if not lugs.hub_side or nut is None or lugs.bolted:
        return None
    if not (nut.has("height") or plate.has("nut_seat_thickness")):
        return None
    top = plate.nut_seat_thickness + nut.height
    check = at_most(top, plate.thickness)
    return (
        check.stop(
            "On their seats in the {plate} the nuts ({nut}) reach {have} from its hub-side face, but it is "
            "{need} thick: they stand out by {upto}{by} and hold the wheel off.",
            plate=plate, nut=nut, upto=up_to(check),
        )
        .at(nut, "height")
        .about(plate, nut)
        .fix(lambda: _nuts_below(plate, nut))
        .danger(HELD_OFF)
    )  # fmt: skip


@rule(
    "stud-too-short-for-adapter",
    on=LugSet,
    reads=[
        "hub.hole_thread", "hub.stud_length", "adapter.stud_length", "stud.length",
        "hub.stud_point", "adapter.stud_point", "hub.hole_depth", "wheel-bolt.length", "wheel-bolt.thread",
        "adapter.nut_seat_thickness", "adapter.thickness", "spacer.thickness", "lug-nut.depth",
        "hub.stud_thread", "stud.thread", "adapter.stud_thread", "adapter.hub_nut_thread", "lug-nut.thread",
        "practice.minimum_thread_engagement",
    ],
    basis=practice("one nominal diameter of engaged thread, or the whole nut where its thread is shorter"),
)  # fmt: skip
def stud_too_short_for_adapter(lugs: LugSet) -> Check | None:
    """Enough of the hub's stud is left above the adapter's nut seats, or of its bolts reaches into the hub.

    Why: The adapter carries the wheel by these nuts alone.
    Formula: stud_length - spacers - nut_seat_thickness - unthreaded tip >= 1 x nominal diameter
        (practice), or the nut's whole thread where that is shorter. Wheel bolts: length -
        nut_seat_thickness - spacers against the same, or the hub's hole_depth where that is less.
    Remedy: Longer studs that still end below the face; an adapter with less metal under its nuts.
    Hazard: Adapter and wheel can come off.
    Wrong:
        - {kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, stud_length: 1.1 in}
        - {kind: adapter, hub_circle: 5 x 4.5 in, thickness: 1.5 in, nut_seat_thickness: 0.75 in}
    Right:
        - {kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, stud_length: 1.4 in}
        - {kind: adapter, hub_circle: 5 x 4.5 in, thickness: 1.5 in, nut_seat_thickness: 0.75 in}
    """
    if lugs.hub_side and lugs.bolted:
        return _adapter_bolts(lugs)
    if not _adapter_on_studs(lugs):
        return None
    check = engagement(lugs)
    if short_nut(lugs, check):
        return check
    return (
        check.stop(
            left_of(check) + " of the studs' thread is left for the nuts above their seats in the {plate}, "
            "{need} is needed: too short by {upto}{by}.",
            plate=lugs.held, upto=up_to(check),
        )
        .at(lugs.base, "stud_length")
        .about(lugs.base, *lugs.between, lugs.held, lugs.fastener)
        .fix(lambda: _longer_studs(lugs))
        .danger(ADAPTER_LOOSE)
    )  # fmt: skip


def _adapter_bolts(lugs: LugSet) -> Check | None:
    """Wheel bolts that hold the adapter: how far they reach into the hub, once a length is typed."""
    if not thread_meets(lugs) or not lugs.fastener.has("length"):
        return None
    check = bolt_engagement(lugs)
    return (
        check.stop(
            left_of(check) + " of the bolts' thread enters the {base} beyond their seats in the {plate}, {need} "
            "is needed: too short by {upto}{by}.",
            base=lugs.base, plate=lugs.held, upto=up_to(check),
        )
        .at(lugs.fastener, "length")
        .about(lugs.base, *lugs.between, lugs.held, lugs.fastener)
        .fix(lambda: longer(lugs))
        .danger(ADAPTER_LOOSE)
    )  # fmt: skip


# ---- what lies over the studs ------------------------------------------------------------------


def _adapter_on_studs(lugs: LugSet) -> bool:
    return lugs.hub_side and has_studs(lugs)


def _wheel_on(lugs: LugSet) -> Any:
    """The wheel when it sits directly on this adapter."""
    last = bool(lugs.end.plates) and lugs.end.plates[-1] is lugs.held
    return lugs.end.wheel if last else None


def _pocket(lugs: LugSet, wheel: Any) -> Interval:
    """Depth of the wheel's reliefs over these studs, mm: none when they lie elsewhere, up to the whole
    depth when nobody has looked.
    """
    depth: Interval = wheel.stud_pocket_depth
    if depth.hi == 0 or _elsewhere(lugs, wheel):
        return Interval(0.0, 0.0, "mm")
    seen = wheel.checked_on_wheel
    if seen is True:
        return depth
    return Interval(0.0, 0.0 if seen is False else depth.hi, "mm")


def _elsewhere(lugs: LugSet, wheel: Any) -> bool:
    """True when the reliefs lie on another circle, or are too few, to cover every stud.

    On the same circle they may still stand at another angle: only a look on the wheel tells.
    """
    if not wheel.has("stud_pocket_circle"):
        return False
    plate, reliefs = lugs.held, wheel.stud_pocket_circle
    studs = plate.hub_circle if plate.has("hub_circle") else lugs.base.bolt_circle
    if not studs.known or not reliefs.known:
        return False
    apart = abs(studs.diameter - reliefs.diameter)
    return bool(
        apart.lo > wheel.fields["stud_pocket_circle"].accuracy + lugs.limits.bolt_circle_tolerance.hi
        or reliefs.count % studs.count
    )


# ---- remedies ----------------------------------------------------------------------------------


def _below_the_face(lugs: LugSet, room: Interval, wheel: Any) -> Iterator[Remedy]:
    """Trim while enough thread stays, a thicker adapter, shorter studs, reliefs that were not typed."""
    flush = lugs.limits.stud_below_flush.hi
    target = no_more(room.lo - flush)
    stays = thread_after_trim(lugs, target)
    needed = _needed(lugs)
    kept = at_least(stays, needed)
    if not kept.fails:
        yield _trim(lugs, target, stays, needed, kept.holds)
    yield _thicker(lugs, flush, needed)
    if kept.fails:
        yield from _shorter_seat(lugs, target, needed)
    else:
        yield Remedy(
            "or fit shorter studs, {target} at most from the face",
            field=f"{lugs.base.id}.stud_length", relation="at most", target=target,
        )  # fmt: skip
    if wheel is not None:
        face = lugs.held.thickness + plates_between(lugs)
        excess = no_less(stud_length(lugs).hi - face.lo)
        yield Remedy(
            "or, if the back of the {wheel} has reliefs at least {target} deep over every one of these "
            "studs: lay it on the {plate} without nuts, see that it sits flat, and type stud_pocket_depth "
            "and checked_on_wheel: true",
            field=f"{wheel.id}.stud_pocket_depth", relation="at least", target=excess, operation="declare",
            wheel=wheel, plate=lugs.held,
        )  # fmt: skip


def thread_after_trim(lugs: LugSet, target: Interval) -> Interval:
    """Thread of a stud cut to ``target`` that is left for the nut, mm: the cut takes the tip first."""
    cut = stud_length(lugs) - target
    return target - seat_height(lugs) - (plain_tip(lugs) - cut).clipped(0.0)


def _trim(lugs: LugSet, target: Interval, stays: Interval, needed: Interval, sure: bool) -> Remedy:
    length = stud_length(lugs)
    off = Interval(max(0.0, length.lo - target.hi), length.hi - target.lo, "mm")
    cut = "trim the {base} studs to {target}: {off} off; "
    if sure:
        words = cut + "{stays} of thread stays in the nut, {needed} needed"
    else:
        words = cut + (
            "but first measure nut_seat_thickness of the {plate}: {needed} of thread must stay in the nut, "
            "so at most {seat} of metal may lie under it"
        )
    seat = no_more(target.lo - plates_between(lugs).hi - _end(needed))
    return Remedy(
        words + ". Round the end, and run a nut off over the cut to clean the thread",
        field=f"{lugs.base.id}.stud_length", relation="at most", target=target, operation="shop",
        base=lugs.base, plate=lugs.held, off=off, stays=stays, needed=needed, seat=seat,
    )  # fmt: skip


def _thicker(lugs: LugSet, flush: float, needed: Interval) -> Remedy:
    """An adapter that swallows the longest stud, with its nut seats no higher than the thread allows."""
    length, below = stud_length(lugs), plates_between(lugs)
    least = no_less(length.hi - below.lo + flush)
    seat = length.lo - plain_tip(lugs).hi - below.hi - _end(needed)
    words = "use an adapter at least {target} thick"
    if seat > SLIVER:
        words += ", with at most {seat} of metal under its nuts"
    return Remedy(
        words + "; the wheel then stands further out: check clearances and bearings again",
        field=f"{lugs.held.id}.thickness", relation="at least", target=least,
        seat=no_more(seat),
    )  # fmt: skip


def _shorter_seat(lugs: LugSet, target: Interval, needed: Interval) -> Iterator[Remedy]:
    """Shorter studs are no help until the nut seats sit lower: trimming was refused."""
    seat = target.lo - plates_between(lugs).hi - _end(needed)
    if seat > SLIVER:
        yield Remedy(
            "or an adapter of this thickness with at most {target} of metal under its nuts, and studs of "
            "{length} at most: studs trimmed for this one would leave too little thread in its nuts",
            field=f"{lugs.held.id}.nut_seat_thickness", relation="at most",
            target=no_more(seat), length=target,
        )  # fmt: skip


def _nuts_below(plate: Any, nut: Any) -> Iterator[Remedy]:
    room = no_more(plate.thickness.lo - plate.nut_seat_thickness.hi)
    if room.lo > SLIVER:
        yield Remedy(
            "use lower nuts, {target} high at most, with the same thread and seat and no less thread engaged",
            field=f"{nut.id}.height", relation="at most", target=room,
        )  # fmt: skip
    yield Remedy(
        "use an adapter at least {target} thick over the same nut seats",
        field=f"{plate.id}.thickness",
        relation="at least",
        target=no_less(plate.nut_seat_thickness.hi + nut.height.hi),
    )


def _longer_studs(lugs: LugSet) -> Iterator[Remedy]:
    """Longer studs while they still end below the face; else nut seats that sit lower."""
    needed = _end(full_engagement(lugs))
    least = seat_height(lugs).hi + plain_tip(lugs).hi + needed
    most = lugs.held.thickness.lo + plates_between(lugs).lo
    if least <= most:
        yield Remedy(
            "fit longer studs, {target} to {most} from the face of the {base}",
            field=f"{lugs.base.id}.stud_length", relation="at least", target=no_less(least),
            most=no_more(most), base=lugs.base,
        )  # fmt: skip
    seat = stud_length(lugs).lo - plain_tip(lugs).hi - plates_between(lugs).hi - needed
    if seat > SLIVER:
        yield Remedy(
            "use an adapter with at most {target} of metal under its nuts",
            field=f"{lugs.held.id}.nut_seat_thickness",
            relation="at most",
            target=no_more(seat),
        )
    if least > most:
        yield Remedy(
            "use an adapter at least {target} thick over the same nut seats, and studs of that length",
            field=f"{lugs.held.id}.thickness", relation="at least", target=no_less(least),
        )  # fmt: skip


def _needed(lugs: LugSet) -> Interval:
    """Thread that must stay in the nut: a full diameter, or the whole nut where it is known to be shorter."""
    full = full_engagement(lugs)
    known = lugs.fastener is not None and lugs.fastener.has("depth")
    return least_of(full, nut_thread(lugs)) if known else full


def _end(value: Interval) -> float:
    """The upper end, or 0 for a value that nobody knows."""
    return 0.0 if value.hi == INF else value.hi
