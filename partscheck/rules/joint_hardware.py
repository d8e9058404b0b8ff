"""Washers and locking of bolted joints."""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build import fastener_data as data
from partscheck.build.joint_places import JointPlace
from partscheck.notation.words import UNKNOWN_WORD
from partscheck.rules.basis import practice, recalled
from partscheck.rules.check import Check, Remedy, certainly, same
from partscheck.rules.registry import rule

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

HARD_WASHERS = practice(
    "a hardened flat washer under the turned part of strong bolts, and over every oversize or slotted hole"
)
LOCKS_WHAT_SHAKES = practice("what is shaken is locked; a split washer alone does not do it")
SPLIT_RINGS = recalled("NASA RP-1228, Fastener Design Manual: a split washer is flat once tightened")
HARD = ("hardened", "300 HV")
LOCKS = (
    "nylon insert", "all-metal", "thread locker", "wedge washer", "jam nut", "castle nut", "serrated flange",
)  # fmt: skip
WEAK_LOCKS = ("split washer", "split lock", "internal tooth", "external tooth", "conical spring")
SHAKES_LOOSE = (
    "A nut that shakes loose drops what it holds on the road. Follow the part makers' instructions, and look "
    "at these joints after the first miles."
)
GRADE = [
    "bolt.size", "bolt.grade", "bolt.head", "stud.thread", "stud.length", "stud.grade", "wheel-bolt.thread",
    "wheel-bolt.length", "wheel-bolt.grade", "u-bolt.thread", "u-bolt.length", "u-bolt.grade",
]  # fmt: skip
SIDES = [
    *GRADE, "nut.locking", "washer.type", "stack_item.hole", "stack_item.slotted",
    "practice.hardened_washer_proof",
]  # fmt: skip


# ---- washers -----------------------------------------------------------------------------------


@rule("washer-missing", on=JointPlace, reads=SIDES, basis=HARD_WASHERS)
def washer_missing(place: JointPlace) -> Iterator[Check]:
    """A flat washer lies under the turned part of a strong bolt and over every oversize hole.

    Why: The nut of a grade 8 or 10.9 bolt digs into plate while it is turned, and the clamp goes into the
        dent; over a large hole head or nut has too little to sit on.
    Formula: bolts with a proof stress of 720 MPa or more (practice: grade 8, class 10.9): under the nut, or
        under the head where the bolt is turned in a tapped hole; holes over the loose clearance hole, and
        slots: on that side. A flange serves as well; washers that lock do not.
    Remedy: A hardened flat washer.
    Wrong:
        parts:
          - {id: b, kind: bolt, size: 1/2-13 x 2 in, grade: 8}
          - {id: n, kind: nut, thread: 1/2-13, grade: 8}
        bolted_joints:
          - {id: bracket, bolt: b, nut: n}
    Right:
        parts:
          - {id: b, kind: bolt, size: 1/2-13 x 2 in, grade: 8}
          - {id: n, kind: nut, thread: 1/2-13, grade: 8}
        bolted_joints:
          - {id: bracket, bolt: b, nut: n, washers: {nut: hardened}}
    """
    for side, reason in _washer_sides(place):
        check = certainly(_covered(place, side)).caution(
            "'{joint}': there is no flat washer under the {part} ({reason}).",
            joint=place.name, part=side, reason=reason,
        )  # fmt: skip
        check.because("It digs in or pulls through, and the clamp goes with it.")
        check.at(place.joint, "washers").about(place.bolt, place.nut)
        yield check.fix(lambda side=side: _add_washer(place, side))  # type: ignore[misc]


@rule(
    "washer-too-soft",
    on=JointPlace,
    reads=[*SIDES, "washer.hardness"],
    basis=HARD_WASHERS,
    after=["washer-missing"],
)
def washer_too_soft(place: JointPlace) -> Iterator[Check]:
    """Washers of strong bolts, and over oversize holes, are hardened.

    Why: A soft washer flows under a strong bolt, dishes into a large hole, and the clamp is lost.
    Formula: hardness hardened or 300 HV where `washer-missing` asks for a washer. Washers named as SAE or USS
        alone count as soft; a washer of unknown hardness is tried with a file.
    Remedy: Hardened washers of the same size.
    Wrong:
        parts:
          - {id: b, kind: bolt, size: M12 x 60, grade: 10.9}
          - {id: n, kind: nut, thread: M12, grade: 10}
          - {id: w, kind: washer, for: M12, hardness: 140 HV}
        bolted_joints:
          - {id: bracket, bolt: b, nut: n, washers: {nut: w}}
    Right:
        parts:
          - {id: b, kind: bolt, size: M12 x 60, grade: 10.9}
          - {id: n, kind: nut, thread: M12, grade: 10}
          - {id: w, kind: washer, for: M12, hardness: 300 HV}
        bolted_joints:
          - {id: bracket, bolt: b, nut: n, washers: {nut: w}}
    """
    for side, reason in _washer_sides(place):
        washer = place.washer(side)
        if washer is None or not washer.flat:
            continue
        hard = washer.hardness
        if washer.line is not None and hard is UNKNOWN_WORD:
            hard = washer.line.hardness  # asks for it
        check = same(None if hard is UNKNOWN_WORD else hard in HARD, hard, "hardened").caution(
            "'{joint}': the washer under the {part} ({reason}) is {have}: it has to be hardened.",
            joint=place.name, part=side, reason=reason,
        )  # fmt: skip
        check.because("A soft washer flows away under the load, and the clamp goes with it.")
        owner, field = (place.joint, "washers") if washer.line is None else (washer.line, "hardness")
        check.at(owner, field).about(place.bolt, place.nut, washer.line)
        yield check.fix(lambda side=side, owner=owner: _harden(place, side, owner))  # type: ignore[misc]


def _washer_sides(place: JointPlace) -> Iterator[tuple[str, str]]:
    """(head or nut, why) of each side that has to have a hardened flat washer."""
    if not place.first or place.bolt is None or (place.nut is None and place.tapped is None):
        return
    needed: dict[str, str] = {}
    turned = "nut" if place.nut is not None else "head"
    strong = _strongest(place)
    if strong is not None:
        needed[turned] = f"turned on a bolt as strong as {strong}"
    for side, item in _outer_layers(place):
        if side not in needed and place.oversize(item) is True:
            slot = item.has("slotted") and item.slotted
            needed[side] = "over a slotted hole" if slot else "over an oversize hole"
    yield from needed.items()


def _outer_layers(place: JointPlace) -> Iterator[tuple[str, Any]]:
    if place.stack and place.clearance is not None:
        yield "head", place.stack[0]
        if place.nut is not None:
            yield "nut", place.stack[-1]


def _covered(place: JointPlace, side: str) -> bool:
    washer = place.washer(side)
    if washer is not None and washer.flat:
        return True
    if side == "head":
        return bool(place.head == "hex flange")
    return _knows_locking(place.nut) and bool(place.nut.locking == "serrated flange")


def _strongest(place: JointPlace) -> str | None:
    """The strongest grade of the joint's bolts in words, where it asks for hardened washers; else None."""
    found = []
    for bolt in place.bolts:
        thread = bolt.size.thread if bolt.kind == "bolt" else bolt.thread
        strength = data.bolt_strength(place.tables, bolt.grade, thread)
        if strength.known and strength.proof.lo >= place.limits.hardened_washer_proof.lo:
            found.append((strength.proof.lo, strength.rows[0]))
    if not found:
        return None
    row = max(found, key=lambda pair: pair[0])[1]
    return {"SAE": "grade ", "ISO": "class "}.get(str(row["system"]), "") + str(row["mark"])


def _add_washer(place: JointPlace, side: str) -> Iterator[Remedy]:
    size = data.size_name(place.tables, place.thread)
    named = f"{size} in" if size and place.thread.inch else size or place.thread.callout
    kinds = ("hardened",) if place.thread.inch else ("iso",)
    across = data.washer_outside(place.tables, place.thread, *kinds)
    thick = data.washer_thickness(place.tables, place.thread, *kinds)
    words = "put a hardened flat washer for {size} under the {side}"
    if across.known and thick.known:
        words += ", {across} across and {thick} thick; the bolt must be long enough for it"
    yield Remedy(
        words, field=f"{place.joint.id}.washers.{side}", relation="equal to", target="hardened",
        operation="add", size=named, side=side, across=across, thick=thick,
    )  # fmt: skip


def _harden(place: JointPlace, side: str, owner: Any) -> Iterator[Remedy]:
    hard = "hardened washers (ASTM F436 or marked for grade 8)" if place.thread.inch else "washers of 300 HV"
    named = owner is place.joint
    yield Remedy(
        "get {hard} for the {side} side",
        field=f"{owner.id}.washers.{side}" if named else f"{owner.id}.hardness", relation="equal to",
        target="hardened", hard=hard, side=side,
    )  # fmt: skip


# ---- locking -----------------------------------------------------------------------------------


@rule(
    "locking-missing",
    on=JointPlace,
    reads=["bolted_joint.vibration", "bolted_joint.load", "joint_load.from", "nut.locking", "bolt.locking",
           "washer.type"],
    basis=(LOCKS_WHAT_SHAKES, SPLIT_RINGS),
)
def locking_missing(place: JointPlace) -> Check | None:
    """What is shaken is locked: by its nut, a thread locker or wedge washers.

    Why: Vibration slides the faces to and fro, and a nut that nothing holds turns off.
    Formula: where `vibration: true` is typed, or the joint's load comes from a wheel, an axle, the coupler or
        a rack: nylon insert, all-metal, thread locker, wedge washers, jam, castle or serrated flange nut. A
        split washer alone is not counted.
    Remedy: Nylon insert or all-metal nuts, or thread locker.
    Hazard: The nut comes off on the road.
    Wrong:
        parts:
          - {id: b, kind: bolt, size: 1/2-13 x 2 in}
          - {id: n, kind: nut, thread: 1/2-13, locking: none}
        bolted_joints:
          - {id: arm to frame, bolt: b, nut: n, vibration: true}
    Right:
        parts:
          - {id: b, kind: bolt, size: 1/2-13 x 2 in}
          - {id: n, kind: nut, thread: 1/2-13, locking: nylon insert}
        bolted_joints:
          - {id: arm to frame, bolt: b, nut: n, vibration: true}
    """
    if not (place.first and place.shaken) or place.bolt is None or (place.nut is None and place.tapped is None):
        return None
    holder = place.nut if place.nut is not None else place.bolt
    if holder.kind not in ("bolt", "nut"):
        return None
    locking, weak = _locking(place, holder)
    check = certainly(locking).caution(
        "'{joint}' is shaken, and nothing locks its {what}{weak}.",
        joint=place.name, what="nuts" if place.nut is not None else "bolts",
        weak=f"; {weak} alone does not" if weak else "",
    )  # fmt: skip
    check.because("Faces that slide to and fro turn a nut off, however tight it was.")
    check.at(holder, "locking").about(place.bolt, place.nut).danger(SHAKES_LOOSE)
    return check.fix(lambda: _lock(place, holder))


def _locking(place: JointPlace, holder: Any) -> tuple[bool | None, str]:
    """(locked, the weak lock that is there); None when nobody has looked at the nut (or the bolt)."""
    words = [part.locking for part in (place.bolt, place.nut) if _knows_locking(part)]
    kinds = [washer.type for washer in place.washers.values()]
    weak = next((str(word) for word in (*words, *kinds) if word in WEAK_LOCKS), "")
    if any(word in LOCKS for word in words) or "wedge lock" in kinds:
        return True, ""
    if weak or _knows_locking(holder):
        return False, weak
    holder.locking  # noqa: B018 - asks for it
    return None, ""


def _knows_locking(part: Any) -> bool:
    return part is not None and part.kind in ("bolt", "nut") and part.has("locking")


def _lock(place: JointPlace, holder: Any) -> Iterator[Remedy]:
    if place.nut is not None:
        yield Remedy(
            "use nylon insert nuts {thread} (new ones each time they come off), and check that one thread "
            "passes the insert",
            field=f"{holder.id}.locking", relation="equal to", target="nylon insert", thread=place.thread,
        )  # fmt: skip
    yield Remedy(
        ("or put" if place.nut is not None else "put") + " medium thread locker on clean, dry threads",
        field=f"{holder.id}.locking", relation="equal to", target="thread locker", operation="shop",
    )  # fmt: skip
    yield Remedy(
        "or wedge lock washers in pairs",
        field=f"{place.joint.id}.washers", relation="equal to", target="wedge lock", operation="add",
    )
