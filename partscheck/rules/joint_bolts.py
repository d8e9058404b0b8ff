"""What the bolts of a joint carry and have to carry, and which other bolt would do."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from partscheck.build import fastener_data as data
from partscheck.build.bolt_areas import next_sizes, root_area, shank_area, stress_area
from partscheck.build.joint_places import JointPlace
from partscheck.build.joint_shares import BoltShare, bolt_shares
from partscheck.formulas.joint_strength import (
    bolt_shear_strength,
    bolt_tension_strength,
    tension_strength_with_shear,
)
from partscheck.notation.grade import read_grade
from partscheck.notation.interval import INF, Interval
from partscheck.notation.thread import Thread
from partscheck.rules.check import Check, Remedy, all_of, at_least
from partscheck.rules.targets import no_more

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

# What a rule reads that asks for the strength of a joint's bolts.
GRADE_READS = ("bolt.grade", "bolt.head", "stud.grade", "wheel-bolt.grade", "u-bolt.grade")
THREAD_OF_BOLT_READS = (
    "bolt.size", "stud.thread", "stud.length", "wheel-bolt.thread", "wheel-bolt.length", "u-bolt.thread",
    "u-bolt.length",
)  # fmt: skip

LADDER = {True: ("grade 2", "grade 5", "grade 8"), False: ("4.6", "5.8", "8.8", "10.9")}
LARGER_TRIED = 5  # sizes up
MOST_BOLTS = 12  # of one joint on a light trailer
HALVINGS = 40

FAILS_AT_ONCE = (
    "A joint that breaks drops what it carries at once. Follow the part makers' instructions; have a joint "
    "that carries an axle, an arm, the coupler or a rack looked at by a licensed engineer or shop."
)


class Carried:
    """What one bolt carries alone, with its safety, N: ``shear`` over all its planes, ``pull`` along it."""

    __slots__ = ("pull", "shear")

    def __init__(self, shear: Interval, pull: Interval) -> None:
        self.shear = shear
        self.pull = pull

    def pull_beside(self, shear: Interval) -> Interval:
        """Pull that is left to a bolt that also carries shear, N (straight lines of AISC 360)."""
        least = _left(self.pull.lo, self.shear.lo, shear.hi)
        return Interval(least, _left(self.pull.hi, self.shear.hi, shear.lo), "N")


def loaded(place: JointPlace, *parts: str) -> bool:
    """True when the list says that the joint's bolts carry each of ``shear`` and ``tension``."""
    if place.bolt is None or not place.has_load:
        return False
    loads = {"shear": lambda: place.load_shear, "tension": lambda: place.load_tension}
    return all(loads[part]().hi > 0 for part in parts)


def shear_load(place: JointPlace) -> Interval:
    """Across the bolts of the whole joint, road shock counted, N."""
    return (place.load_shear * place.shock).with_unit("N")


def pull_load(place: JointPlace) -> Interval:
    """Along the bolts of the whole joint, road shock counted, N."""
    return (place.load_tension * place.shock).with_unit("N")


def shear_area(place: JointPlace) -> Interval:
    """Area of one bolt that the shear cuts, mm2: from root to shank while it cannot be told."""
    root = root_area(place.tables, place.thread)
    plane = place.farthest_shear_plane
    threaded = None if plane is None else place.thread_in_shear_plane
    if threaded is False:
        return shank_area(place.thread)
    return root if threaded or plane is None else root.hull(shank_area(place.thread))


def carried(
    place: JointPlace, thread: Thread | None = None, strength: Any = None, area: Interval | None = None
) -> Carried:
    """What one bolt carries: the joint's own, or one of another thread, strength or shear area."""
    thread = place.thread if thread is None else thread
    strength = place.strength if strength is None else strength
    area = shear_area(place) if area is None else area
    safety, planes = place.limits.joint_safety.clipped(1.0), int(place.planes.lo)
    pulled, proof, yields = stress_area(place.tables, thread), strength.proof, strength.yield_
    return Carried(
        Interval(
            bolt_shear_strength(area.lo, yields.lo, planes, safety.hi),
            bolt_shear_strength(area.hi, yields.hi, planes, safety.lo),
            "N",
        ),
        Interval(
            bolt_tension_strength(pulled.lo, proof.lo, safety.hi),
            bolt_tension_strength(pulled.hi, proof.hi, safety.lo),
            "N",
        ),
    )


def check_bolt(place: JointPlace, bolt: Carried, share: BoltShare, scale: float = 1.0) -> Check:
    """One bolt under its share of shear and pull together."""
    shear, pull = shear_load(place) * share.shear * scale, pull_load(place) * share.pull * scale
    in_shear = at_least(bolt.shear, shear)
    return all_of(in_shear, at_least(bolt.pull_beside(shear), pull)) if pull.hi > 0 else in_shear


def holds_all(
    place: JointPlace, bolt: Carried, shares: list[BoltShare] | None = None, scale: float = 1.0
) -> bool:
    """Whether every bolt of the joint surely holds."""
    return all(check_bolt(place, bolt, one, scale).holds for one in shares or bolt_shares(place))


def which_bolt(share: BoltShare) -> str:
    """Words for the bolt that a share is of; the place of a numbered one is {spot}."""
    if share.number is None:
        return "each bolt"
    return f"bolt {share.number} of the pattern, at {{spot}} (across, up),"


def spot_of(share: BoltShare) -> list[Interval]:
    """Where a numbered bolt stands, for {spot}: across, up."""
    return [] if share.spot is None else [Interval.exact(one, "mm") for one in share.spot]


def in_order(remedies: Iterable[Remedy]) -> list[Remedy]:
    """The remedies with "or" before all but the first."""
    ordered = list(remedies)
    if ordered:
        ordered[0].do = ordered[0].do.removeprefix("or ")
    return ordered


# ---- another bolt ------------------------------------------------------------------------------


def stronger_bolts(place: JointPlace) -> Iterator[Remedy]:
    """A plain shank in the shear plane, the least grade or the next size that holds, more bolts, less load:
    whatever of them would do, each worked out.
    """
    yield from _plain_shank(place)
    yield from _least_grade(place)
    yield from _next_size(place)
    yield from _more_bolts(place)
    yield lighter_load(place)


def _plain_shank(place: JointPlace) -> Iterator[Remedy]:
    plane = place.farthest_shear_plane
    if plane is None or plane.hi == INF or place.bolt.kind != "bolt" or place.thread_in_shear_plane is False:
        return
    thread_most = place.length.lo - plane.hi
    if thread_most > 0 and holds_all(place, carried(place, area=shank_area(place.thread))):
        yield Remedy(
            "take bolts of this size and grade with a plain shank of {shank} or more under the head, so "
            "that no thread lies in a shear plane",
            field=f"{place.bolt.id}.thread_length", relation="at most",
            target=no_more(thread_most), shank=plane,
        )  # fmt: skip


def _least_grade(place: JointPlace) -> Iterator[Remedy]:
    if not place.thread.known:
        return
    for mark in LADDER[place.thread.inch]:
        grade = read_grade(mark)
        strength = data.bolt_strength(place.tables, grade, place.thread)
        stronger = not place.strength.known or strength.proof.lo > place.strength.proof.hi
        if strength.known and stronger and holds_all(place, carried(place, strength=strength)):
            yield Remedy(
                "use {size} bolts of {grade}, the least grade that holds" + _with_nuts(place, "grade"),
                field=f"{place.bolt.id}.grade", relation="equal to", target=grade,
                size=place.thread, grade=f"class {mark}" if "." in mark else mark,
            )  # fmt: skip
            return


def _next_size(place: JointPlace) -> Iterator[Remedy]:
    if not place.strength.known:
        return
    for thread in next_sizes(place.tables, place.thread)[:LARGER_TRIED]:
        strength = data.bolt_strength(place.tables, place.grade, thread)
        area = root_area(place.tables, thread)
        if strength.known and holds_all(place, carried(place, thread, strength, area)):
            holes = data.clearance(place.tables, thread)
            drill = "" if holes is None else ", the holes drilled to {drill}, if the edges leave enough metal"
            yield Remedy(
                "use {target} bolts of the same grade" + _with_nuts(place, "thread") + drill,
                field=f"{place.bolt.id}.{place.size_field}", relation="equal to", target=thread,
                drill=holes.least("normal") if holes is not None else None,
            )  # fmt: skip
            return


def _more_bolts(place: JointPlace) -> Iterator[Remedy]:
    """Only where all share alike: of a pattern the rule joint-eccentric tells what helps."""
    count = place.count
    if not count.is_exact or place.joint.has("load_at"):
        return
    bolt = carried(place)
    for number in range(int(count.lo) + 1, MOST_BOLTS + 1):
        share = Interval.exact(1 / number)
        if holds_all(place, bolt, [BoltShare(share, share)]):
            yield Remedy(
                "use {target} such bolts, set evenly about the load",
                field=f"{place.joint.id}.bolts", relation="at least", target=number, operation="shop",
            )  # fmt: skip
            return


def lighter_load(place: JointPlace) -> Remedy:
    """The share of the load that the joint surely holds as it is."""
    bolt, good, bad = carried(place), 0.0, 1.0
    for _ in range(HALVINGS):
        middle = (good + bad) / 2
        good, bad = (middle, bad) if holds_all(place, bolt, scale=middle) else (good, middle)
    part = "shear" if place.load_shear.hi >= place.load_tension.hi else "tension"
    heaviest = place.load_shear.hi if part == "shear" else place.load_tension.hi
    most = Interval.exact(heaviest * good, "N") if heaviest < INF else Interval.unknown("N")
    typed = place.joint.load.says(part)
    return Remedy(
        "or let the joint carry no more than {share} % of this load at rest: {target} " + _WAY[part],
        field=f"{place.joint.id}.load.{part}" if typed else "", relation="at most" if typed else "",
        target=most, operation="declare", share=f"{math.floor(100 * good)}",
    )  # fmt: skip


_WAY = {"shear": "across the bolts", "tension": "along the bolts"}


def _with_nuts(place: JointPlace, what: str) -> str:
    return f", with nuts of that {what}" if place.nut is not None else ""


def _left(pull: float, capacity: float, shear: float) -> float:
    if capacity == 0:
        return 0.0 if shear > 0 else pull
    if INF in (pull, capacity):
        return 0.0 if shear >= capacity else pull
    return tension_strength_with_shear(pull, capacity, shear, safety=1.0)
