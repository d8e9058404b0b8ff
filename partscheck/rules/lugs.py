"""Wheel nuts and wheel bolts: the right thread, the right seat, and enough of them."""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build.model import pieces
from partscheck.build.places import Line, LugSet
from partscheck.build.stud_data import has_studs, stud_count, stud_thread
from partscheck.notation.interval import Interval
from partscheck.notation.thread import near_miss
from partscheck.notation.words import same_word
from partscheck.rules.basis import practice
from partscheck.rules.check import Check, Remedy, all_of, at_least, certainly, equal_within, same
from partscheck.rules.registry import rule

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

WHEEL_OFF = (
    "Wheel nuts or bolts that do not hold let the wheel come off. Follow the instructions of the wheel's and "
    "the hub's maker and local codes."
)
FORCED = "A nut that is nearly right goes on for a few turns, then tears the thread and strips under load."
USUAL_CONE = 60.0  # deg, the trade's common cone: catalog/nut_seat.yaml


# ---- thread ------------------------------------------------------------------------------------


@rule(
    "lug-thread-mismatch",
    on=LugSet,
    reads=[
        "lug-nut.thread", "wheel-bolt.thread", "hub.stud_thread", "hub.stud_length", "hub.hole_thread",
        "adapter.stud_thread", "adapter.stud_length", "adapter.hub_nut_thread", "stud.thread",
    ],
    basis=practice("nut and stud have one thread; near misses are told by diameter and pitch"),
)  # fmt: skip
def lug_thread_mismatch(lugs: LugSet) -> Check | None:
    """Nuts have the thread of the studs they go on, wheel bolts the thread of the hub's holes.

    Why: A nut that is nearly right goes on for a few turns, then tears the thread and strips under load.
    Remedy: Nuts or bolts of the thread that is there.
    Hazard: The wheel can come off.
    Wrong:
        - {kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20}
        - {kind: wheel, bolt_circle: 5 x 4.5 in}
        - {kind: lug-nut, thread: M12x1.25}
    Right:
        - {kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20}
        - {kind: wheel, bolt_circle: 5 x 4.5 in}
        - {kind: lug-nut, thread: 1/2-20 UNF}
    """
    owner, field = _screwed_on(lugs)
    if lugs.base is None or owner is None:
        return None
    if lugs.bolted is has_studs(lugs):
        return _other_system(lugs)
    if lugs.bolted and lugs.base.kind != "hub":
        return None  # a plate with threaded holes: nothing is known of them
    taken = lugs.base.hole_thread if lugs.bolted else stud_thread(lugs)
    mine = getattr(owner, field)
    if not (taken.known or mine.known):
        return None
    near = near_miss(mine, taken)
    where = "holes" if lugs.bolted else "studs"
    return (
        same(mine.same_as(taken), mine, taken)
        .stop(
            _thread_words(owner, lugs) + (" Take care: {near}." if near else ""),
            owner=owner, base=lugs.base, near=near, where=where,
        )
        .because(FORCED)
        .at(owner, field)
        .about(lugs.base, lugs.stud, owner)
        .fix(lambda: _right_thread(lugs, owner, field, taken))
        .danger(WHEEL_OFF)
    )  # fmt: skip


def _screwed_on(lugs: LugSet) -> tuple[Any, str]:
    """The part whose thread is screwed on or in: the nuts or bolts, or the nuts an adapter comes with."""
    if lugs.fastener is not None:
        return lugs.fastener, "thread"
    if lugs.hub_side and lugs.held.has("hub_nut_thread"):
        return lugs.held, "hub_nut_thread"
    return None, ""


def _thread_words(owner: Any, lugs: LugSet) -> str:
    if owner is lugs.held:
        return "The nuts that the {owner} comes with have {have}, the studs of the {base} {need}."
    return "The {owner} has {have}, the {where} of the {base} {need}."


def _right_thread(lugs: LugSet, owner: Any, field: str, taken: Any) -> Iterator[Remedy]:
    what = "wheel bolts" if lugs.bolted else "nuts"
    seat = " and the same seat" if owner is lugs.fastener else " for the hub side"
    yield Remedy(
        f"get {what} with thread {{target}}{seat}",
        field=f"{owner.id}.{field}", relation="equal to", target=taken,
    )  # fmt: skip


def _other_system(lugs: LugSet) -> Check:
    """Bolts for a hub with studs, or nuts for a hub with threaded holes."""
    base, owner = lugs.base, lugs.fastener or lugs.held
    if lugs.bolted:
        wanted, thread = "lug nuts", stud_thread(lugs)
        words = "The {base} has studs, which take lug nuts, but the list has wheel bolts for it ({owner})."
    else:
        wanted, thread = "wheel bolts", base.hole_thread
        words = "The {base} has threaded holes, which take wheel bolts, but the list has nuts ({owner})."
    remedy = f"get {wanted}" + (" with thread {thread}" if thread.known else " of its thread")
    return (
        certainly(False)
        .stop(words, owner=owner, base=base)
        .at(owner, "thread")
        .about(base, owner)
        .fix(lambda: [Remedy(remedy + " instead", field=owner.id, operation="replace", thread=thread)])
        .danger(WHEEL_OFF)
    )


# ---- seat --------------------------------------------------------------------------------------


@rule(
    "lug-seat-mismatch",
    on=LugSet,
    reads=[
        "lug-nut.seat", "lug-nut.seat_angle", "lug-nut.seat_radius", "wheel-bolt.seat",
        "wheel-bolt.seat_angle", "wheel-bolt.seat_radius", "wheel.nut_seat", "wheel.seat_angle",
        "wheel.seat_radius", "practice.seat_angle_agreement", "practice.seat_radius_agreement",
    ],
    basis=practice("a wheel nut or bolt bears only on a seat of its own shape; cones are mostly 60 deg"),
)  # fmt: skip
def lug_seat_mismatch(lugs: LugSet) -> Check | None:
    """Wheel nuts or bolts have the seat that the wheel is made for: its shape, its angle, its ball radius.

    Why: Another seat touches on an edge; the edge wears, and the clamp is lost.
    Formula: shapes equal; cone angles equal within the practice limit (a cone that is not typed is not
        asked for beside one of 60 deg); ball radii equal within the practice limit.
    Remedy: Nuts or bolts with the wheel's seat.
    Hazard: The wheel can come off.
    Wrong:
        - {kind: hub, bolt_circle: 5 x 112 mm}
        - {kind: wheel, bolt_circle: 5 x 112 mm, nut_seat: ball}
        - {kind: wheel-bolt, thread: M12x1.5, seat: conical}
    Right:
        - {kind: hub, bolt_circle: 5 x 112 mm}
        - {kind: wheel, bolt_circle: 5 x 112 mm, nut_seat: ball, seat_radius: 12 mm}
        - {kind: wheel-bolt, thread: M12x1.5, seat: ball, seat_radius: 12 mm}
    """
    wheel, lug = lugs.held, lugs.fastener
    if lugs.hub_side or wheel is None or lug is None or not (lug.has("seat") or wheel.has("nut_seat")):
        return None
    field = _seat_field(lugs)
    check = all_of(_shapes(lugs), *([_details(lugs, field)] if field != "seat" else []))
    return (
        check.because("A seat of another shape touches on an edge; the edge wears, and the clamp is lost.")
        .at(lug, field if check.margin is not None else "seat")
        .about(wheel, lug)
        .fix(lambda: _right_seat(lugs, check, field))
        .danger(WHEEL_OFF)
    )


def _shapes(lugs: LugSet) -> Check:
    lug, wheel = lugs.fastener, lugs.held
    check = same(same_word(lug.seat, wheel.nut_seat), lug.seat, wheel.nut_seat)
    if check.holds and lug.seat == "ball" and not (lug.has("seat_radius") or wheel.has("seat_radius")):
        return check.note(
            "The {lug} and the {wheel} both have ball seats, their radii are not on the list: ball seats of "
            "12, 13 and 14 mm exist. Read the number on the head, or hold a radius gauge to both.",
            lug=lug, wheel=wheel,
        )  # fmt: skip
    return check.stop(
        "The {lug} bears with a {have} seat, the {wheel} is made for a {need} one.", lug=lug, wheel=wheel
    )


def _seat_field(lugs: LugSet) -> str:
    """What is left to compare when the shapes are the same: the angle, the radius, or nothing."""
    lug, wheel = lugs.fastener, lugs.held
    if not (lug.has("seat") and wheel.has("nut_seat") and lug.seat == wheel.nut_seat):
        return "seat"
    if lug.seat == "ball" and (lug.has("seat_radius") or wheel.has("seat_radius")):
        return "seat_radius"
    if lug.seat == "conical" and _angle_matters(lug, wheel):
        return "seat_angle"
    return "seat"


def _angle_matters(lug: Any, wheel: Any) -> bool:
    """Both angles are typed, or the one that is typed is not the usual one."""
    typed = [part.seat_angle for part in (lug, wheel) if part.has("seat_angle")]
    return len(typed) == 2 or any(not angle.lo <= USUAL_CONE <= angle.hi for angle in typed)


def _details(lugs: LugSet, field: str) -> Check:
    lug, wheel, limits = lugs.fastener, lugs.held, lugs.limits
    if field == "seat_angle":
        check = equal_within(lug.seat_angle, wheel.seat_angle, limits.seat_angle_agreement.hi)
        words = "The {lug} has a cone of {have}, the {wheel} seats of {need}: they touch on a ring only."
    else:
        check = equal_within(lug.seat_radius, wheel.seat_radius, limits.seat_radius_agreement.hi)
        words = "The {lug} has a ball of radius {have}, the {wheel} seats of {need}: a near miss is no fit."
    return check.stop(words, lug=lug, wheel=wheel)


def _right_seat(lugs: LugSet, check: Check, field: str) -> Iterator[Remedy]:
    lug, what = lugs.fastener, "wheel bolts" if lugs.bolted else "nuts"
    words = {
        "seat": "a {target} seat",
        "seat_angle": "cones of {target}",
        "seat_radius": "balls of radius {target}",
    }
    yield Remedy(
        f"get {what} with {words[field]}, of the same thread",
        field=f"{lug.id}.{field}", relation="equal to", target=check.need,
    )  # fmt: skip


# ---- count -------------------------------------------------------------------------------------


@rule(
    "lug-count",
    on=Line,
    reads=[
        "lug-nut.qty", "lug-nut.packs", "lug-nut.pack", "lug-nut.have", "wheel-bolt.qty", "wheel-bolt.packs",
        "wheel-bolt.pack", "wheel-bolt.have", "hub.bolt_circle", "adapter.wheel_circle",
        "adapter.hub_circle", "wheel.bolt_circle", "hub.stud_thread", "adapter.stud_thread", "stud.thread",
    ],
    basis=practice("a nut on every stud, a bolt in every hole"),
)  # fmt: skip
def lug_count(line: Line) -> Check | None:
    """There are at least as many wheel nuts (or bolts) as studs (or holes), hub side and wheel side apart.

    Why: A wheel on fewer nuts than it has studs loads the rest beyond what they are made for.
    Formula: pieces >= sum over the faces that this line serves of studs x places. A line without a
        count is not checked.
    Remedy: More of them; they come in packs.
    Hazard: The wheel can come off.
    Wrong:
        - {kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, qty: 2}
        - {kind: wheel, bolt_circle: 5 x 4.5 in, qty: 2}
        - {kind: lug-nut, thread: 1/2-20, qty: 8}
    Right:
        - {kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, qty: 2}
        - {kind: wheel, bolt_circle: 5 x 4.5 in, qty: 2}
        - {kind: lug-nut, thread: 1/2-20, qty: 10}
    """
    part = line.part
    if part.kind not in ("lug-nut", "wheel-bolt"):
        return None
    have = pieces(part)
    served = [lugs for lugs in line.weights.fit.bindings(LugSet) if lugs.fastener is part]
    if have is None or not served:
        return None
    need = Interval(0.0, 0.0)
    for lugs in served:
        need = need + _needed_on(lugs, sure=len(served) == 1)
    check = at_least(Interval.exact(float(have)), need)
    return (
        check.stop(
            "{part}: {need} are needed ({where}), the list has {have}: {by} short.",
            part=part, where="; ".join(_faces(served)),
        )
        .because("A wheel on fewer nuts or bolts than it is made for loads the rest beyond their strength.")
        .at(part, "qty" if part.says("qty") else "packs" if part.says("packs") else "pack")
        .fix(lambda: [_more(part, need)])
        .danger(WHEEL_OFF)
    )  # fmt: skip


def _needed_on(lugs: LugSet, sure: bool) -> Interval:
    """Pieces for one face at all its places; perhaps none where a line serves two faces and nobody
    knows whether its thread goes on this one.
    """
    count = stud_count(lugs)
    if count is None:
        return Interval.unknown("")
    full = float(count * len(lugs.at))
    open_ = not sure and lugs.base is not None and not lugs.bolted and not stud_thread(lugs).known
    return Interval(0.0 if open_ else full, full)


def _faces(served: list[LugSet]) -> Iterator[str]:
    """ "hub side: 5 at each of 1L, 1R"; wheel ends that are alike here are told together."""
    faces: dict[tuple[str, int | None], tuple[str, ...]] = {}
    for lugs in served:
        alike = ("hub side" if lugs.hub_side else "wheel side", stud_count(lugs))
        faces[alike] = (*faces.get(alike, ()), *lugs.at)
    for (side, count), places in faces.items():
        yield f"{side}: {count} at each of {', '.join(sorted(places))}"


def _more(part: Any, need: Interval) -> Remedy:
    wanted = int(need.lo)
    if not part.says("qty") and part.says("pack"):
        size = part.values["pack"].value
        packs = -(-wanted // size)
        return Remedy(
            "buy {packs} packs of {size}", field=f"{part.id}.packs", relation="at least",
            target=packs, packs=packs, size=size,
        )  # fmt: skip
    return Remedy(
        "get {target} of them: a full set, all alike",
        field=f"{part.id}.qty",
        relation="at least",
        target=wanted,
    )
