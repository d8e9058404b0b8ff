"""Holes of bolted joints: large enough for the bolt, small enough to hold it."""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build import fastener_data as data
from partscheck.build.joint_places import JointPlace
from partscheck.notation.interval import Interval
from partscheck.rules.basis import practice, published, recalled
from partscheck.rules.check import Check, Remedy, at_least, at_most
from partscheck.rules.registry import rule

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

TABLES = published("ASME B18.2.8, ISO 273: clearance holes; secondary copies read")
FRICTION_HOLES = recalled("AISC 360 Table J3.3: oversize holes, in joints that hold by friction only")
BEYOND = practice("a hole over 1.35 x diameter leaves the head or nut too little to bear on")
SLIDES = (
    "A joint that slides in its holes hammers them out and shears its bolts. Where it carries an axle, an "
    "arm, the coupler or a rack, follow the part makers' instructions and local codes."
)
DRILLED_OUT = 2.0  # x diameter: a hole that is larger is no slip of one size
READS = [
    "bolt.size", "stud.thread", "stud.length", "wheel-bolt.thread", "wheel-bolt.length", "u-bolt.thread",
    "u-bolt.length", "stack_item.name", "stack_item.hole", "stack_item.slotted",
]  # fmt: skip


@rule("hole-too-small", on=JointPlace, reads=READS, basis=TABLES)
def hole_too_small(place: JointPlace) -> Iterator[Check]:
    """The bolt passes every hole of its stack, with the clearance of a close fit at least.

    Why: A bolt that is driven in cuts its own thread, and several holes in line never meet without play.
    Formula: hole >= nominal diameter (else stop), hole >= close fit of the table (else caution).
    Remedy: Drill to the normal clearance hole.
    Wrong:
        parts:
          - {id: b, kind: bolt, size: 1/2-13 x 2 in}
        bolted_joints:
          - {id: bracket, bolt: b, stack: [{thickness: 1 in, hole: 31/64 in}]}
    Right:
        parts:
          - {id: b, kind: bolt, size: 1/2-13 x 2 in}
        bolted_joints:
          - {id: bracket, bolt: b, stack: [{thickness: 1 in, hole: 17/32 in}]}
    """
    for item in _holes(place):
        yield _passes(place, item)


@rule(
    "hole-oversize",
    on=JointPlace,
    reads=[*READS, "practice.hole_oversize_most"],
    basis=(TABLES, FRICTION_HOLES),
)
def hole_oversize(place: JointPlace) -> Iterator[Check]:
    """No hole of the stack is larger than the loose clearance hole of its bolt.

    Why: In a large hole the bolt does not bear on the plate: only friction holds the joint, and head and nut
        have less to sit on.
    Formula: hole <= loose fit of the table (else caution); <= AISC's oversize hole, or 1.35 x diameter
        (practice) where that table has none (else stop). Slotted holes are judged by the rules of friction.
    Remedy: A bolt that the hole is right for; drill out to the next size; or hold by friction, with hardened
        washers over the hole.
    Hazard: The joint slides and shears its bolts.
    Wrong:
        parts:
          - {id: b, kind: bolt, size: 1/2-13 x 2 in}
        bolted_joints:
          - {id: bracket, bolt: b, stack: [{thickness: 1 in, hole: 5/8 in}]}
    Right:
        parts:
          - {id: b, kind: bolt, size: 1/2-13 x 2 in}
        bolted_joints:
          - {id: bracket, bolt: b, stack: [{thickness: 1 in, hole: 9/16 in}]}
    """
    for item in _holes(place):
        if not (item.has("slotted") and item.slotted):
            yield _bears(place, item)


def _holes(place: JointPlace) -> Iterator[Any]:
    """Layers whose hole is typed.  Studs are pressed in; a second line of the same bolts says nothing new."""
    bolt = place.bolt
    if bolt is None or bolt.kind == "stud" or not place.thread.known:
        return
    if not place.first and _thread_of(place.bolts[0]).same_as(place.thread) is True:
        return
    yield from (item for item in place.stack if item.says("hole"))


def _thread_of(bolt: Any) -> Any:
    return bolt.size.thread if bolt.kind == "bolt" else bolt.thread


# ---- too small ---------------------------------------------------------------------------------


def _passes(place: JointPlace, item: Any) -> Check:
    """The bolt's own diameter first; then the closest hole of the table."""
    check = at_least(item.hole, place.diameter).stop(
        "'{joint}': the hole in {layer} is {have}, the {bolt} is {need} thick: it does not go through, {by} "
        "too small.",
        **_names(place, item),
    )
    fits = place.clearance
    close = None if fits is None else at_least(item.hole, fits.least("close"))
    if check.holds and close is not None and not close.unsure:
        check = close.caution(
            "'{joint}': the hole in {layer} is {have}; the closest clearance hole for {size} is {need}. It "
            "is tight by {by}.",
            **_names(place, item),
        )
    check.because("Every hole wanders a little as it is drilled, and paint or zinc takes its share.")
    return check.at(item, "hole").about(place.bolt).fix(lambda: _drill(place, item))


def _drill(place: JointPlace, item: Any) -> Iterator[Remedy]:
    fits = place.clearance
    least = place.diameter if fits is None else fits.least("normal")
    yield Remedy(
        "drill {layer} to more than {target}" if fits is None else
        "drill {layer} to {target}, the normal clearance hole of {size}",
        field=f"{item.id}.hole", relation="at least", target=least, operation="shop",
        **_names(place, item),
    )  # fmt: skip


# ---- too large ---------------------------------------------------------------------------------


def _bears(place: JointPlace, item: Any) -> Check:
    """The loose hole of the table first; then the largest that a joint may have at all."""
    fits = place.clearance
    structural = None if fits is None else fits.oversize
    largest = structural if structural is not None else place.diameter * place.limits.hole_oversize_most.hi
    check = at_most(item.hole, largest if fits is None else fits.most("loose")).caution(
        "'{joint}': the hole in {layer} is {have}, over the loose clearance hole of {size}, {need}: only "
        "friction holds this joint. (The structural code has an oversize hole for it, {largest}, for joints "
        "that hold by friction alone.)" if structural is not None else
        "'{joint}': the hole in {layer} is {have}, over the loose clearance hole of {size}, {need}: only "
        "friction holds this joint.",
        largest=structural, **_names(place, item),
    )  # fmt: skip
    beyond = at_most(item.hole, largest)
    if beyond.fails:
        check = beyond.stop(
            "'{joint}': the hole in {layer} is {have}, far too large for {size}; the most that is allowed, "
            "even where friction alone holds, is {need}.",
            **_names(place, item),
        ).on_basis(FRICTION_HOLES if structural is not None else BEYOND)
    check.because("The bolt bears on nothing, and head and nut sit on a narrow ring.")
    check.at(item, "hole").about(place.bolt).danger(SLIDES)
    return check.fix(lambda: _smaller_hole(place, item, beyond.fails))


def _smaller_hole(place: JointPlace, item: Any, beyond: bool) -> Iterator[Remedy]:
    """The first one says what to do, each other one begins with "or"."""
    ways = [*_other_bolt(place, item)]
    if not beyond:
        ways.append(Remedy(
            "let friction hold it: hardened washers that cover the hole on both sides, bare faces, and the "
            "torque that joint-slips asks for",
            field=f"{place.joint.id}.washers", operation="add",
        ))  # fmt: skip
    ways.append(Remedy(
        "fix the parts against sliding in another way once they are aligned: a dowel, a second row of bolts "
        "in close holes, or a plate with the right hole welded over it by a licensed welder",
        operation="shop",
    ))  # fmt: skip
    for way in ways[1:]:
        way.do = "or " + way.do
    yield from ways


def _other_bolt(place: JointPlace, item: Any) -> Iterator[Remedy]:
    names = _names(place, item)
    bigger = _bolt_for(place, item.hole)
    if bigger is not None:
        yield Remedy(
            "use {target} bolts, nuts and washers, for which this hole is right; check the edge distance again",
            field=f"{place.bolt.id}.{place.size_field}", relation="equal to", target=bigger, **names,
        )  # fmt: skip
    drilled = _next_size(place, item.hole)
    if drilled is not None:
        size, hole = drilled
        yield Remedy(
            "drill every layer out to {target} and use {bolt_size} bolts",
            field=f"{item.id}.hole", relation="equal to", target=hole, operation="shop", bolt_size=size,
            **names,
        )  # fmt: skip


def _bolt_for(place: JointPlace, hole: Interval) -> str | None:
    """The largest bolt size for which a hole lies between the close and the loose fit."""
    near = data.SAME_SIZE
    found = [
        (float(row["close_mm"]), str(row["size"]))
        for row in _rows(place)
        if float(row["close_mm"]) - near <= hole.lo and hole.hi <= float(row["loose_mm"]) + near
    ]
    return _sized(max(found)[1]) if found else None


def _next_size(place: JointPlace, hole: Interval) -> tuple[str, Interval] | None:
    """The smallest bolt size whose normal hole is larger than this one, and that hole; none far larger."""
    most = place.diameter.hi * DRILLED_OUT
    rows = [row for row in _rows(place) if hole.hi + data.SAME_SIZE < float(row["normal_mm"]) < most]
    best = min(rows, key=lambda row: float(row["normal_mm"]), default=None)
    if best is None:
        return None
    return _sized(str(best["size"])), data.Clearance([best], None).least("normal")


def _rows(place: JointPlace) -> list[dict[str, Any]]:
    """Rows of the bolt's own system, one edition."""
    wanted = "ASME B18.2.8" if place.thread.inch else "ISO 273"
    return [row for row in place.tables.rows("clearance_hole") if row["table_of"] == wanted]


def _names(place: JointPlace, item: Any) -> dict[str, Any]:
    name = item.values["name"].value if item.says("name") else item.id.rpartition(" / ")[2]
    named = data.size_name(place.tables, place.thread)
    size = _sized(named) if named else str(place.thread)
    layer = name if name.startswith("layer ") else f"the {name}"
    return {"joint": place.name, "layer": layer, "bolt": place.bolt, "size": size}


def _sized(size: str) -> str:
    """ "1/2 in", "M12"."""
    return size if size.startswith("M") else f"{size} in"
