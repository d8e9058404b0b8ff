"""The cart as a whole: what is missing, what fits nowhere, what is on the list twice."""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build.needs import ONE_AT_A_PLACE, lug_count
from partscheck.build.places import Line, LugSet, WheelEnd, Whole
from partscheck.notation.bolt_circle import BoltCircle
from partscheck.notation.fastener_size import FastenerSize
from partscheck.notation.grade import Grade
from partscheck.notation.interval import Interval
from partscheck.notation.thread import Thread
from partscheck.rules.basis import practice
from partscheck.rules.check import Check, Remedy, certainly
from partscheck.rules.registry import rule

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

SHOP_SENSE = practice("what a part on the list cannot work without has to be on the list too")
LIST_SENSE = practice("a line that serves no place, or repeats another, is a slip more often than a wish")

# Kinds of which every place of the trailer has one when one place has; the first ones stop the work.
NEEDED_EVERYWHERE = ("hub", "wheel", "tire")
USUAL_EVERYWHERE = ("seal", "dust-cap", "spindle-nut", "leaf-spring")
SEATED = (*ONE_AT_A_PLACE, "axle", "stud", "bearing", "lug-nut", "wheel-bolt", "fender")

# What is bought, not what it is; and kinds that a list may rightly name twice in the same words.
BUYING = (
    "id", "part", "kind_", "qty", "packs", "pack", "price", "seller", "weight", "have", "make", "basis",
    "note",
)  # fmt: skip
TWICE_IS_FINE = (
    "lamp", "reflector", "wire", "safety-chain", "shim", "hanger", "shackle", "u-bolt", "tank", "other",
)  # fmt: skip


@rule(
    "part-missing",
    on=Whole,
    reads=[
        "hub.hole_thread", "hub.hole_depth", "hub.stud_thread", "hub.bolt_circle", "adapter.hub_circle",
        "adapter.wheel_circle", "adapter.stud_thread", "wheel.bolt_circle", "bolted_joint.bolt",
        "bolted_joint.nut", "bolted_joint.tapped",
    ],
    basis=SHOP_SENSE,
)  # fmt: skip
def part_missing(whole: Whole) -> Iterator[Check]:
    """Every place has the parts that those on the list cannot work without.

    Why: A wheel without its nuts, or a hub on one side only, is found out on assembly day, the shop shut.
    Formula: each face that is held on studs or holes has nuts or bolts on the list; a hub, wheel or tire at
        one place has its like at every other place.
    Remedy: Add the line; what is in the shop already goes on the list with `have: true`.
    Wrong:
        - {kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20}
        - {kind: wheel, bolt_circle: 5 x 4.5 in}
    Right:
        - {kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20}
        - {kind: wheel, bolt_circle: 5 x 4.5 in}
        - {kind: lug-nut, thread: 1/2-20}
    """
    for lugs in whole.fit.bindings(LugSet):
        yield from _held_by_something(whole, lugs)
    yield from _gaps(whole)
    for end in whole.fit.bindings(WheelEnd):
        yield from _half_a_bearing_set(end)
    yield from _spare(whole)
    for joint in whole.build.joints:
        yield _takes_the_bolt(whole, joint)


def _takes_the_bolt(whole: Whole, joint: Any) -> Check:
    """A bolted joint names its bolt, and the nut or the tapped hole that takes it."""
    taken = joint.has("nut") or joint.has("tapped")
    what = "nothing takes its bolt: neither nut nor tapped hole" if joint.has("bolt") else "no bolt is named"
    check = certainly(taken and joint.has("bolt"))
    check.caution("'{joint}': {what}.", joint=joint.id, what=what)
    check.because("What is not named is not checked, neither its thread nor its strength nor its length.")
    missing = "nut" if joint.has("bolt") else "bolt"
    hole = ", or say what the hole is: tapped: {{thread: ..., depth: ...}}" if missing == "nut" else ""
    check.fix(lambda: [
        Remedy("add the {missing} to parts and name it in the joint" + hole,
               field=f"{joint.id}.{missing}", operation="add", missing=missing)
    ])  # fmt: skip
    lines = [whole.build.part(id) for id in joint.bolt] if joint.has("bolt") else []
    return check.at(joint, "id").about(*lines, places=(joint.id,))


def _held_by_something(whole: Whole, lugs: LugSet) -> Iterator[Check]:
    """Nuts or bolts for a face that has both its parts; counted over all ends with the same two parts."""
    base, held = lugs.base, lugs.held
    if base is None or held is None or (base.kind == "adapter" and held.kind == "adapter"):
        return
    check = certainly(lugs.fastener is not None)
    holes = base.kind == "hub" and (base.has("hole_thread") or base.has("hole_depth"))
    what, kind = ("wheel bolts", "wheel-bolt") if holes else ("lug nuts", "lug-nut")
    count = lug_count(lugs)
    alike = [one for one in whole.fit.bindings(LugSet) if one.base is base and one.held is held]
    places = sum(len(one.at) for one in alike if one.fastener is None)
    pieces = "" if count is None else f"{count * places} "
    check.stop("Nothing on the list holds the {held} on the {base}: {pieces}{what} are missing.",
               held=held, base=base, pieces=pieces, what=what)  # fmt: skip
    check.because("What is in the shop already goes on the list too, with have: true, so that it is checked.")
    check.danger("Only nuts or bolts that fit both stud and seat hold a wheel: no others will do.")
    check.fix(lambda: _add_fasteners(lugs, what, kind, pieces))
    yield check.about(held, base, lugs.fastener, places=lugs.at)


def _add_fasteners(lugs: LugSet, what: str, kind: str, pieces: str) -> Iterator[Remedy]:
    base: Any = lugs.base
    field = {"wheel-bolt": "hole_thread"}.get(kind, "stud_thread")
    thread = getattr(base, field) if base.kind in ("hub", "adapter") and base.has(field) else None
    words = "add a line with {pieces}{what}" + (" of thread {thread}" if thread is not None else "")
    yield Remedy(words, field=kind, operation="add", pieces=pieces, what=what, thread=thread)


def _gaps(whole: Whole) -> Iterator[Check]:
    """Kinds that some places have and others lack."""
    fit = whole.fit
    for kind in (*NEEDED_EVERYWHERE, *USUAL_EVERYWHERE):
        there = {at: fit.places[at][kind] for at in fit.positions if kind in fit.places[at]}
        empty = tuple(at for at in fit.positions if at not in there)
        if not there or not empty:
            continue
        part = next(iter(there.values()))
        check = certainly(False)
        words = "There is no {kind} for {empty}, while {there} has one."
        say = check.stop if kind in NEEDED_EVERYWHERE else check.caution
        say(words, kind=part.title, empty=empty, there=tuple(there))
        check.fix(lambda part=part, empty=empty: _fill(part, empty))  # type: ignore[misc]
        yield check.about(part, places=empty).at(part, "at")


def _fill(part: Any, empty: tuple[str, ...]) -> Iterator[Remedy]:
    yield Remedy("add a {kind} for {empty}, or take `at` off the {part} if it serves every place",
                 field=part.kind, operation="add", kind=part.title, empty=empty, part=part)  # fmt: skip


def _half_a_bearing_set(end: WheelEnd) -> Iterator[Check]:
    """A hub runs on two bearings."""
    found = {side: next((part for role, part in end.roles.items() if role.startswith(f"{side}-")), None)
             for side in ("inner", "outer")}  # fmt: skip
    for side, other in (("inner", "outer"), ("outer", "inner")):
        if found[side] is not None and found[other] is None:
            check = certainly(False).caution(
                "There are {side} bearings on the list, but no {other} ones for {at}.",
                side=side, other=other, at=end.at,
            )  # fmt: skip
            check.because("A hub runs on two bearings; new and worn ones do not go together well.")
            check.fix(lambda other=other: [  # type: ignore[misc]
                Remedy("add {other} bearings", field="bearing", operation="add", other=other)
            ])  # fmt: skip
            yield check.about(found[side], places=end.at)


def _spare(whole: Whole) -> Iterator[Check]:
    """A spare wheel has its tire and a spare tire its wheel, where the list has such parts at all."""
    roles = whole.fit.spare_roles
    for kind, other in (("wheel", "tire"), ("tire", "wheel")):
        if kind in roles and other not in roles and whole.build.of_kind(other):
            part = roles[kind]
            check = certainly(False).caution("The spare {kind} has no {other}.", kind=kind, other=other)
            check.fix(lambda other=other: [  # type: ignore[misc]
                Remedy("add a {other} with at: spare", field=other, operation="add", other=other)
            ])  # fmt: skip
            yield check.about(part, places=("spare",))


@rule(
    "line-unused",
    on=Line,
    reads=[
        "lug-nut.thread", "hub.stud_thread", "adapter.stud_thread", "bolted_joint.bolt", "bolted_joint.nut",
    ],
    basis=LIST_SENSE,
)  # fmt: skip
def line_unused(line: Line) -> Check | None:
    """Every line of a wheel end serves a place of the trailer.

    Why: A part that fits nowhere is bought for nothing, or its place is not told.
    Remedy: Take it off, or say where it goes with `at:` or `mounts_on:`.
    Wrong:
        - {id: a, kind: wheel, bolt_circle: 5 x 4.5 in, at: [1L, 1R]}
        - {id: b, kind: wheel, bolt_circle: 5 x 5.5 in}
    Right:
        - {id: a, kind: wheel, bolt_circle: 5 x 4.5 in, at: [1L, 1R]}
        - {id: b, kind: wheel, bolt_circle: 5 x 5.5 in, at: spare}
    """
    part = line.part
    if part.kind not in SEATED or _twin(line) is not None:
        return None
    if line.at and len(line.build.of_kind(part.kind)) == 1:
        return None  # the only one of its kind, and used: nothing to ask
    if part.kind in ("lug-nut", "wheel-bolt") and not line.build.of_kind("hub", "wheel", "adapter"):
        return None  # a list of nuts alone
    check = certainly(bool(line.at) or _in_a_joint(line) or _kept(part))
    check.caution("The {part} serves no place: {reason}.", part=part, reason=_reason(line))
    check.because("What fits nowhere is bought for nothing, or its place is not told.")
    check.fix(lambda: [
        Remedy("take the line off, or say where it goes: at: with its places, or mounts_on: with the id of "
               "the part it mounts on", field=part.id, operation="remove")
    ])  # fmt: skip
    return check.at(part, "id")


def _in_a_joint(line: Line) -> bool:
    """A stud, wheel bolt or wheel nut may serve in a bolted joint too."""
    return any(line.part.id in (*joint.bolt, joint.nut) for joint in line.build.joints)


def _kept(part: Any) -> bool:
    """The list says itself that it is kept as a spare."""
    typed = part.everything().get("at")
    return typed is not None and [str(one) for one in typed.value] == ["spare"]


def _reason(line: Line) -> str:
    part = line.part
    if part.kind == "lug-nut":
        if line.build.of_kind("wheel-bolt"):
            return "wheel bolts hold the wheels"
        studs = [one.stud_thread for one in line.build.of_kind("hub", "adapter")]  # type: ignore[attr-defined]
        if studs and all(part.thread.same_as(thread) is False for thread in studs):
            return f"no stud on the list has its thread {part.thread}"
        return "other nuts suit every set of studs better"
    taken = [one.id for one in line.build.of_kind(part.kind) if one is not part]
    if not taken:
        return "no place is left for it"
    an = "an" if part.title[0] in "aeiou" else "a"
    return f"every place has {an} {part.title} already ({', '.join(taken)})"


@rule("line-duplicated", on=Whole, reads=["bolted_joint.bolt", "bolted_joint.nut"], basis=LIST_SENSE)
def line_duplicated(whole: Whole) -> Iterator[Check]:
    """No two lines describe the same thing.

    Why: A line copied and not changed is bought twice, or two carts were put together.
    Remedy: One line with the whole quantity.
    Wrong:
        - {id: bolt-a, kind: bolt, size: 1/2-13 x 2 in, grade: 8, qty: 6}
        - {id: bolt-b, kind: bolt, size: 1/2-13 x 2 in, grade: 8, qty: 6}
    Right:
        - {id: bolt-a, kind: bolt, size: 1/2-13 x 2 in, grade: 8, qty: 6}
        - {id: bolt-b, kind: bolt, size: 1/2-13 x 3 in, grade: 8, qty: 6}
    """
    kinds: set[str] = set()
    for part, twin in _twins(whole.fit, whole.build.parts):
        if part.kind in kinds:
            yield _told_twice(part, twin).about(part, places=whole.fit.places_of(part))
        kinds.add(part.kind)


def _twins(fit: Any, parts: list[Any]) -> Iterator[tuple[Any, Any]]:
    """Each line with an earlier one that describes the same thing and is not used somewhere else, or None."""
    described: dict[Any, list[Any]] = {}
    for part in parts:
        if part.kind in TWICE_IS_FINE:
            continue
        own = _description(part)
        alike = described.setdefault(own, []) if own else []
        yield part, next((other for other in alike if not _both_used(fit, part, other)), None)
        alike.append(part)


def _twin(line: Line) -> Any:
    """The twin of one line, or None."""
    same_kind = line.build.of_kind(line.part.kind)
    return next((twin for part, twin in _twins(line.weights.fit, same_kind) if part is line.part), None)


def _told_twice(part: Any, twin: Any) -> Check:
    check = certainly(twin is None).caution(
        "The {part} says the same as the {twin} before it: is it on the list twice?", part=part, twin=twin
    )
    check.because("A line copied and left as it was is bought twice.")
    check.fix(lambda: [
        Remedy("take one of the two off; if both are wanted, make it one line with the whole quantity",
               field=part.id, operation="remove")
    ])  # fmt: skip
    return check.at(part, "id")


def _both_used(fit: Any, part: Any, other: Any) -> bool:
    """Each has places, or joints, of its own."""
    if fit.places_of(part) and fit.places_of(other):
        return True
    named = [(*joint.bolt, joint.nut) for joint in fit.build.joints]
    mine = {number for number, ids in enumerate(named) if part.id in ids}
    others = {number for number, ids in enumerate(named) if other.id in ids}
    return bool(mine and others and mine != others)


def _description(part: Any) -> tuple[Any, ...]:
    """What the line says the thing is, spelling apart; empty when it says nothing."""
    said = sorted(name for name in part.everything() if name not in BUYING)
    return (part.kind, *((name, bare_field(part, name)) for name in said)) if said else ()


def bare_field(part: Any, name: str) -> Any:
    """A field's value without its spelling: what makes two lines describe the same thing."""
    value = part.values[name].value
    if isinstance(value, Grade):
        said = [part.values[key].value for key in ("size", "thread") if key in part.values]
        thread = next((getattr(one, "thread", one) for one in said), None)
        if isinstance(thread, Thread) and thread.known:
            value = value.on_thread(thread.inch)
    return _bare(value)


def _bare(value: Any) -> Any:
    if isinstance(value, Interval):
        return (round(value.lo, 6), round(value.hi, 6), value.unit)
    if isinstance(value, (tuple, list)):
        return tuple(_bare(one) for one in value)
    if isinstance(value, Thread) and value.known:
        return (round(value.diameter.mid, 3), round(value.pitch.mid, 4), value.left_hand, value.fit.upper())
    if isinstance(value, FastenerSize) and value.known:
        return (_bare(value.thread), _bare(value.length))
    if isinstance(value, BoltCircle) and value.known:
        return (value.count, _bare(value.diameter))
    if isinstance(value, Grade) and value.known:
        return (value.system, value.mark)
    text = getattr(value, "text", value)
    return text.strip().lower() if isinstance(text, str) else text
