"""Holes to drill for the bolts of the joints, and the drills for them."""

from __future__ import annotations

from partscheck.build.joint_places import JointPlace
from partscheck.notation.interval import Interval
from partscheck.rules.basis import practice
from partscheck.uses.shop.sheet import FROM_LIST, Said, Section, Step, basis_of
from partscheck.uses.shop.sizes import SAME, drill_name, drills

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import Any

    from partscheck.engine import Result

DRILLING = practice("drilling by hand in steel")
HAZARD = (
    "Chips and a drill that catches hurt: eye protection, no gloves at the drill, work clamped down. Nothing "
    "that burns, no brake line and no wire behind the hole. A hole in a frame rail, tongue, arm or axle can "
    "weaken it: drill parts that were bought only where their maker says so, and leave doubtful ones to a "
    "licensed shop."
)
INTRO = (
    Said("A hole that is there already is not drilled again: measure it, and try the bolt in it by hand."),
    Said(
        "Clamp layers that share a bolt and drill them in one go. Centre punch, a small pilot hole, then the "
        "full size, slowly and with oil. Take the burr off both sides, and paint the bare edge once the bolt "
        "was tried."
    ),
)
# What a larger or another bolt would change, or a hole in another place.
HOLES = ("joint_holes", "joint_plates", "joint_eccentric", "joint_strength", "joint_slip", "joint_shear_plane")
TYPED_WIDER = 1.03  # how much wider than a typed hole a drill may be where no table tells the loose hole


def section(result: Result) -> Section:
    steps = [step for place in joints(result) for step in _joint(place)]
    return Section("drill", "Drill", steps, INTRO, HAZARD, (DRILLING,))


def joints(result: Result) -> list[JointPlace]:
    """Each joint once, where it has a bolt."""
    return [place for place in result.fit.bindings(JointPlace) if place.first and place.bolt is not None]


def pieces_in(place: JointPlace) -> int | None:
    """Bolts of one joint of one place, or None."""
    return int(place.count.lo) if place.count.is_exact else None


def all_pieces(place: JointPlace, what: str) -> str:
    """ "6 holes, 3 at each of 2 places"."""
    count = pieces_in(place)
    if count is None:
        return f"{what}, as many as there are bolts"
    if place.places == 1:
        return f"{count} {what}"
    return f"{count * place.places} {what}, {count} at each of {place.places} places"


def layer_name(item: Any) -> str:
    return str(item.id).rpartition(" / ")[2]


def _joint(place: JointPlace) -> Iterator[Step]:
    if place.bolt.kind in ("stud", "u-bolt"):
        return  # pressed in, or round a tube
    for layers in _alike(place):
        yield _sized(place, layers) if layers[0].has("hole") else _by_table(place, layers)


def _alike(place: JointPlace) -> list[list[Any]]:
    """Layers with the same hole together, in the order of the stack; gaps have none."""
    groups: dict[Any, list[Any]] = {}
    for item in place.stack:
        if not item.says("gap"):
            hole = item.hole if item.has("hole") else None
            slotted = bool(item.has("slotted") and item.slotted)
            key = None if hole is None else (round(hole.lo, 2), round(hole.hi, 2), slotted)
            groups.setdefault(key, []).append(item)
    return list(groups.values())


def _sized(place: JointPlace, layers: list[Any]) -> Step:
    """A hole that the list gives."""
    hole: Interval = layers[0].hole
    slotted = layers[0].has("slotted") and layers[0].slotted
    words = "make slots {hole} wide" if slotted else "drill {hole}"
    step = _begun(place, layers, words, hole=hole).by(FROM_LIST)
    fits = place.clearance
    most = max(hole.hi, fits.most("loose").hi if fits is not None else hole.hi * TYPED_WIDER)
    return _fits(_bits(step, place, hole.lo, most), place)


def _by_table(place: JointPlace, layers: list[Any]) -> Step:
    """A hole that the list does not give: the normal clearance hole."""
    fits = place.clearance
    if fits is None:
        step = _begun(place, layers, "drill")
        return step.more(
            "The list gives no hole, and no table here has this bolt's size: measure the bolt, and drill by its "
            "maker's sheet."
        ).by(DRILLING)
    hole = fits.least("normal")
    step = _begun(place, layers, "drill {hole}, the normal clearance hole,", hole=hole)
    step.more("The list gives no hole here. Typed as hole: it is checked with the rest.")
    return _fits(_bits(step, place, hole.lo, fits.most("loose").hi), place)


def _begun(place: JointPlace, layers: list[Any], words: str, **values: Any) -> Step:
    walls = any(item.has("wall") for item in layers)
    step = Step(
        words + " in {layers} of '{joint}': {count}" + (", through both walls of the tube." if walls else "."),
        (place.bolt,),
        place.at,
        layers=" and ".join(layer_name(item) for item in layers),
        joint=place.name,
        count=all_pieces(place, "holes"),
        **values,
    )
    edges: dict[float, list[Any]] = {}
    for item in layers:
        if item.has("edge"):
            edges.setdefault(round(item.edge.lo, 2), []).append(item)
    for items in edges.values():
        step.more(
            "Centre {edge} or more from the edge that the load pulls towards ({layer}).",
            edge=items[0].edge,
            layer=", ".join(layer_name(item) for item in items),
        )
    return step.take("drill and centre punch", "deburring tool or a larger bit").minds(*HOLES)


def _bits(step: Step, place: JointPlace, hole: float, most: float) -> Step:
    rows = drills(place.tables, hole, most, not place.thread.known or place.thread.inch)
    if not rows:
        return step.more("No drill of the usual sets comes out right: a step drill or hole saw, by its mark.")
    names = [drill_name(row) for row in rows]
    exact = abs(float(rows[0]["diameter_mm"]) - hole) < SAME
    step.more(f"Drill bit: {' or '.join(names)}{'' if exact else ', the next ones up'}.")
    return step.by(basis_of(rows[0])).take(
        f"drill bit {names[0]}" + (f" (or {names[1]})" if len(names) > 1 else "")
    )


def _fits(step: Step, place: JointPlace) -> Step:
    fits = place.clearance
    if fits is None:
        return step
    step.more(
        "For the bolt {bolt} the table has {close} close, {normal} normal, {loose} loose.",
        bolt=place.thread.callout,
        close=fits.least("close"),
        normal=fits.least("normal"),
        loose=fits.most("loose"),
    )
    return step.by(*(basis_of(row) for row in fits.rows))
