"""Whether thread lies where the layers of a joint would slide: there a bolt is weaker."""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build import fastener_data as data
from partscheck.build.bolt_thread import thread_lengths
from partscheck.build.joint_places import JOINT_LENGTH_READS, NUT_HEIGHT_READS, THREAD_READS, JointPlace
from partscheck.notation.interval import Interval
from partscheck.rules.basis import recalled
from partscheck.rules.check import Check, Remedy, at_least, certainly
from partscheck.rules.joint_length import THREAD_BEGINS, TWO_THREADS, next_stock
from partscheck.rules.registry import rule

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any


@rule(
    "thread-in-shear-plane",
    on=JointPlace,
    reads=[*JOINT_LENGTH_READS, *NUT_HEIGHT_READS, *THREAD_READS, "bolted_joint.shear_planes",
           "bolted_joint.load", "joint_load.shear", "joint_load.from"],
    basis=(*THREAD_BEGINS, recalled("ISO 4014: full body, least, l_s = l_g - 5 P")),
)  # fmt: skip
def thread_in_shear_plane(place: JointPlace) -> Check | None:
    """Full body, not thread, crosses the faces that would slide.

    Why: At the root of its thread a bolt has about a third less metal, and a notch.
    Formula: full body (LB = LG - 5 pitches, the run-out) >= from under the head to the farthest sliding face.
        Where it is not known, strength is worked out with the root area and nothing is asked.
    Remedy: A bolt with a longer shank, turned round, or the root area taken as what carries.
    Wrong:
        parts:
          - {id: b, kind: bolt, size: 1/2-13 x 1-1/2 in}
        bolted_joints:
          - {id: bracket, bolt: b,
             stack: [{thickness: 1/2 in}, {thickness: 1/4 in}], load: {shear: 500 lb}}
    Right:
        parts:
          - {id: b, kind: bolt, size: 1/2-13 x 2-1/2 in}
        bolted_joints:
          - {id: bracket, bolt: b,
             stack: [{thickness: 1/2 in}, {thickness: 1 in}], load: {shear: 500 lb}}
    """
    plane = place.farthest_shear_plane
    if place.bolt is None or place.bolt.kind != "bolt" or not place.size.known:
        return None
    if plane is None or not _slides(place):
        return None
    check = at_least(place.body, plane)
    if check.unsure:
        return certainly().note(
            "'{joint}': nothing tells whether the thread of the {bolt} reaches the sliding face, {plane} "
            "under the head: its strength in shear is worked out with the root of the thread, the weaker "
            "reading.",
            joint=place.name, bolt=place.bolt, plane=plane,
        ).at(place.bolt, "thread_length").about(place.bolt)  # fmt: skip
    check.caution(
        "'{joint}': the {bolt} has {have} of full body, the sliding face is {need} under the head: the load "
        "shears it through the thread, where it is weaker.",
        joint=place.name, bolt=place.bolt,
    )  # fmt: skip
    check.because("The root of the thread is what carries; strength is worked out with it.")
    check.at(place.bolt, place.size_field).about(place.bolt)
    return check.fix(lambda: _body_in_plane(place, plane))


def _slides(place: JointPlace) -> bool:
    """The list says that the joint carries something across, or how many faces slide."""
    if place.has_load:
        load = place.joint.load
        return bool(load.has("from_") or (load.has("shear") and load.shear.hi > 0))
    return bool(place.joint.has("shear_planes"))


def _body_in_plane(place: JointPlace, plane: Interval) -> Iterator[Remedy]:
    lengths: Any = thread_lengths(place)
    if lengths is not None and lengths[0] > 0:
        run_out = 5 * data.coarse_pitch(place.tables, place.thread).hi
        past = place.grip + place.washers_thickness + place.pitch * TWO_THREADS
        if place.nut is not None:
            past = past + place.nut_height
        longer = next_stock(place, max(plane.hi + lengths[1] + run_out, past.hi))
        if longer.hi - lengths[0] <= place.grip.lo + place.washers_thickness.lo:
            yield Remedy(
                "use bolts {thread} x {target}: full body then reaches through the sliding face, and the nut "
                "still has thread",
                field=f"{place.bolt.id}.size", relation="at least", target=longer, thread=place.thread,
            )  # fmt: skip
    first = place.stack[0] if place.stack else None
    turned = place.grip - (plane - place.washer_thickness("head")) + place.washer_thickness("nut")
    if place.nut is not None and first is not None and turned.hi < plane.lo and place.body.lo >= turned.hi:
        yield Remedy(
            "turn the bolts round, head on the other side: the sliding face is then {target} under the head",
            field=f"{place.joint.id}.stack", operation="shop", target=turned,
        )  # fmt: skip
    yield Remedy(
        "or leave it, if bolt-shear holds with the root area: it is worked out that way", operation="declare"
    )
