"""Bolts in tapped holes: whether the thread of the hole outlasts the bolt's preload, and the bolt itself."""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build import fastener_data as data
from partscheck.build.bolt_areas import bolt_strip_area, hole_strip_area, stress_area
from partscheck.build.joint_clamp import PRELOAD_READS, preload
from partscheck.build.joint_places import JOINT_LENGTH_READS, JOINT_LOAD_READS, JointPlace
from partscheck.build.joint_shares import SHARE_READS, bolt_shares, worst_of
from partscheck.formulas.thread_stripping import engagement_for_load, stripping_load
from partscheck.notation.interval import INF, Interval, greatest_of, least_of
from partscheck.rules.basis import practice, published, recalled
from partscheck.rules.check import Check, Remedy, at_least
from partscheck.rules.joint_bolts import GRADE_READS, in_order, loaded, pull_load
from partscheck.rules.registry import rule
from partscheck.rules.targets import no_less

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

STRIPPING = published(
    "FED-STD-H28/2B (1991) Table II.B.1, formulas (2a), (4a) and (16): least-material shear areas, shear "
    "strength half the tensile strength (secondary copy read)"
)
LIMITS = recalled(
    "ASME B1.1 and ISO 965-1: formulas of the limits where the table has none; strengths of the materials"
)
MULTIPLES = practice("1 x diameter of thread in steel, 2 x in aluminum")
STRIPS = (
    "A thread that has begun to strip lets go later, under load. Where the hole holds an arm, an axle or "
    "the coupler, have the repair done by a licensed shop."
)


@rule(
    "tapped-engagement",
    on=JointPlace,
    reads=[*JOINT_LENGTH_READS, *JOINT_LOAD_READS, *SHARE_READS, *GRADE_READS, *PRELOAD_READS, "tapped.depth",
           "tapped.material", "service.surface", "practice.tapped_multiple_hard",
           "practice.tapped_multiple_soft"],
    basis=(STRIPPING, LIMITS, MULTIPLES),
    after=["thread-mismatch"],
)  # fmt: skip
def tapped_engagement(place: JointPlace) -> Iterator[Check]:
    """A bolt is screwed into its tapped hole so far that the thread of the hole outlasts the bolt.

    Why: A hole that strips while it is tightened is lost; one that strips before its bolt breaks goes without
        a sign.
    Formula: 0.5 Su As Le >= preload (and the pull with road shocks): else a stop; >= At Su of the bolt: else
        a caution, the hole strips first. As at least material; Le = full thread, or what the bolt's length
        leaves of it. Preload by the torque typed, else 75 % of proof.
    Remedy: Deeper full thread and a longer bolt, a through bolt with a nut, less torque.
    Hazard: The bolt comes out with the thread around it.
    Wrong:
        parts:
          - {id: b, kind: bolt, size: 1/2-13 x 1 in, grade: 8, finish: zinc}
        bolted_joints:
          - id: bracket
            bolt: b
            torque: 106 ft-lb
            tapped: {thread: 1/2-13, depth: 3/8 in, material: A36}
            stack: [{name: plate, thickness: 3/8 in}]
    Right:
        parts:
          - {id: b, kind: bolt, size: 1/2-13 x 1-1/4 in, grade: 5, finish: zinc}
        bolted_joints:
          - id: bracket
            bolt: b
            torque: 75 ft-lb
            tapped: {thread: 1/2-13, depth: 3/4 in, material: A36}
            stack: [{name: plate, thickness: 3/8 in}]
    """
    tapped = place.tapped
    if place.bolt is None or tapped is None or not (tapped.has("depth") or tapped.has("material")):
        return
    if tapped.has("material") and not data.material_strength(place.tables, tapped.material).known:
        yield from _by_multiple(place)
        return
    if place.thread.known and not hole_strip_area(place.tables, place.thread).known:
        return  # a thread that the formulas of its standard do not reach
    held, own = _strips_at(place)
    wanted = _asked_of(place)
    pulled = _strips_when_tightened(place, held, own, wanted)
    yield pulled
    if not pulled.fails:
        yield _strips_first(place, held)


# ---- the two checks ----------------------------------------------------------------------------


def _strips_when_tightened(place: JointPlace, held: Interval, own: bool, wanted: Interval) -> Check:
    whose = "the bolt's own thread" if own else "its thread"
    check = at_least(held, wanted)
    return (
        check.stop(
            "'{joint}': the {bolt} is screwed {engaged} into its tapped hole; there {whose} strips at "
            "{have}, but {need} comes on it when it is tightened or pulled: {by} too little.{usual}",
            joint=place.name, bolt=place.bolt, engaged=engaged(place), usual=_usual(place), whose=whose,
        )
        .because("It strips while it is being tightened, or soon after, and then holds nothing.")
        .at(place.tapped, "depth")
        .fix(lambda: in_order(_deeper(place, wanted.hi)))
        .danger(STRIPS)
    )  # fmt: skip


def _strips_first(place: JointPlace, held: Interval) -> Check:
    bolt = _breaks_at(place)
    check = at_least(held, bolt)
    return (
        check.caution(
            "'{joint}': the hole strips first: {engaged} of thread holds {have}, the {bolt} breaks only at "
            "{need}, {by} more.{usual}",
            joint=place.name, bolt=place.bolt, engaged=engaged(place), usual=_usual(place),
        )
        .because("A bolt that breaks is seen and replaced; a stripped hole is found when it lets go.")
        .at(place.tapped, "depth")
        .fix(lambda: in_order(_deeper(place, bolt.hi)))
    )  # fmt: skip


def _by_multiple(place: JointPlace) -> Iterator[Check]:
    """A metal of which no table has a strength, cast aluminum: the multiples of practice are all there is."""
    if data.material_group(place.tables, place.tapped.material) != "aluminum":
        return
    need = place.diameter * place.limits.tapped_multiple_soft
    yield (
        at_least(engaged(place), need)
        .caution(
            "'{joint}': the {bolt} is screwed {have} into cast aluminum, {need} is usual: {by} too little.",
            joint=place.name, bolt=place.bolt,
        )
        .because("Cast aluminum has no strength that could be relied on; only enough thread helps.")
        .at(place.tapped, "depth")
        .on_basis(MULTIPLES)
        .fix(lambda: [_tap_deeper(place, need.hi)])
    )  # fmt: skip


# ---- forces ------------------------------------------------------------------------------------


def engaged(place: JointPlace) -> Interval:
    """Thread of the bolt in the hole, mm: the full thread, or what the bolt's length leaves of it."""
    entering = (place.length - place.grip - place.washer_thickness("head")).clipped(0.0)
    return least_of(place.tapped.depth, entering)


def _strips_at(place: JointPlace) -> tuple[Interval, bool]:
    """(pull at which the engaged thread strips, N; True when it is the bolt's own thread that goes)."""
    hole = _strip(place, hole_strip_area(place.tables, place.thread), _hole_strength(place))
    own = _strip(place, bolt_strip_area(place.tables, place.thread), place.strength.tensile)
    return (own, True) if own.hi < hole.lo else (least_of(hole, own), False)


def _strip(place: JointPlace, per_mm: Interval, strength: Interval) -> Interval:
    length = engaged(place)
    return Interval(
        stripping_load(_times(per_mm.lo, length.lo), strength.lo),
        stripping_load(_times(per_mm.hi, length.hi), strength.hi),
        "N",
    )


def _hole_strength(place: JointPlace) -> Interval:
    return data.material_strength(place.tables, place.tapped.material).tensile


def _asked_of(place: JointPlace) -> Interval:
    """Preload, or the worst bolt's pull with road shocks where that is more, N."""
    force = preload(place)
    if not loaded(place, "tension"):
        return force
    return greatest_of(force, pull_load(place) * worst_of(bolt_shares(place), "pull").pull)


def _breaks_at(place: JointPlace) -> Interval:
    """Least breaking load of the bolt, N."""
    return (stress_area(place.tables, place.thread) * place.strength.tensile.bare()).with_unit("N")


def _times(area: float, length: float) -> float:
    return 0.0 if 0 in (area, length) else area * length


# ---- words and remedies ------------------------------------------------------------------------


def _multiple(place: JointPlace) -> float:
    soft = data.material_group(place.tables, place.tapped.material) == "aluminum"
    limits = place.limits
    return float((limits.tapped_multiple_soft if soft else limits.tapped_multiple_hard).hi)


def _usual(place: JointPlace) -> str:
    """The rule of thumb, as a second line."""
    if not place.thread.known:
        return ""
    return f" As a rule of thumb, {_multiple(place):g} x the bolt's diameter is usual in this metal."


def _deeper(place: JointPlace, force: float) -> Iterator[Remedy]:
    strength, area = _hole_strength(place), hole_strip_area(place.tables, place.thread)
    if 0 < force < INF and strength.lo > 0 and area.known:
        breaks = _breaks_at(place).hi
        need = no_less(engagement_for_load(force, area.lo, strength.lo)).hi
        best = no_less(engagement_for_load(breaks, area.lo, strength.lo)).hi if breaks < INF else need
        yield _tap_deeper(place, need, best)
    yield Remedy(
        "or drill through and use a longer bolt with a nut of its grade", operation="shop",
        field=f"{place.joint.id}.nut",
    )  # fmt: skip
    yield from _less_torque(place)


def _tap_deeper(place: JointPlace, need: float, best: float = 0.0) -> Remedy:
    """Full thread to cut, the drill and the tap for it, and the bolt that reaches down there."""
    tap: dict[str, Any] = data.tap_of(place.tables, place.thread) or {}
    words = "cut {target} or more of full thread"
    words += ", {best} so that the bolt breaks first" if best > need else ""
    words += f" ({tap['drill']} drill, {tap['tap']} tap)" if tap else ""
    least = place.grip + place.washer_thickness("head") + need
    words += ", with bolts {length} or longer" if place.length.lo < least.hi < INF else ""
    return Remedy(
        words, field=f"{place.tapped.id}.depth", relation="at least", target=no_less(need), operation="shop",
        best=no_less(best), length=no_less(least.hi),
    )  # fmt: skip


def _less_torque(place: JointPlace) -> Iterator[Remedy]:
    """Only as the last thing: a bolt that is tightened for its hole is no stronger than its hole."""
    held, _ = _strips_at(place)
    force = preload(place)
    if not place.joint.has("torque") or not 0 < held.lo < force.hi < INF:
        return
    most = Interval.exact(place.joint.torque.hi * held.lo / force.hi, "N m")
    yield Remedy(
        "or, where the joint needs no more clamp, tighten well below {target}: there the thread strips",
        field=f"{place.joint.id}.torque", relation="at most", target=most, operation="declare",
    )  # fmt: skip
