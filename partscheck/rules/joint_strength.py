"""Bolts of a joint: whether the worst of them holds in shear, in tension, and in both together."""

from __future__ import annotations

from partscheck.build.joint_places import JOINT_LENGTH_READS, JOINT_LOAD_READS, THREAD_READS, JointPlace
from partscheck.build.joint_shares import SHARE_READS, BoltShare, bolt_shares, placed, worst_of
from partscheck.notation.interval import Interval
from partscheck.rules.basis import practice, published, recalled
from partscheck.rules.check import Check, at_least
from partscheck.rules.joint_bolts import (
    FAILS_AT_ONCE,
    GRADE_READS,
    THREAD_OF_BOLT_READS,
    carried,
    in_order,
    loaded,
    pull_load,
    shear_area,
    shear_load,
    spot_of,
    stronger_bolts,
    which_bolt,
)
from partscheck.rules.registry import rule

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

SHEAR = published(
    "Shigley, Mechanical Engineering Design 9e, pp. 454-455: 0.577 S A / n, the thread's root where it lies "
    "in the shear plane (secondary copy read)"
)
YIELD = practice("yield strength as S, safety 1.5, and the shock factor of the surface")
PULL = published("Shigley, Mechanical Engineering Design 9e, ch. 8: At x proof (secondary copy read)")
LINES = published("AISC 360 (2010), eq J3-3b: straight lines of shear and tension (secondary copy read)")
ELASTIC = practice("elastic method for bolts of a pattern: statics, stiff plates")


@rule(
    "bolt-shear",
    on=JointPlace,
    reads=[*JOINT_LENGTH_READS, *JOINT_LOAD_READS, *THREAD_READS, *SHARE_READS, *GRADE_READS,
           "bolted_joint.shear_planes", "service.surface", "practice.joint_safety"],
    basis=(SHEAR, YIELD, ELASTIC, recalled("strengths of a grade whose row of the table says so")),
    after=["joint-eccentric"],
)  # fmt: skip
def bolt_shear(place: JointPlace) -> Check | None:
    """The worst bolt of a joint carries its share of the load across the bolts, with road shocks.

    Why: A sheared bolt gives no warning, and the next one takes its load on top.
    Formula: 0.577 Sy A planes / 1.5 >= k V x share; A is the shank where the full body reaches through every
        shear plane, else the root of the thread; share by the elastic method where pattern and load_at are
        typed, else alike.
    Remedy: A plain shank in the shear plane, the least grade or the next size that holds, more bolts.
    Hazard: What the joint carries comes off.
    Wrong:
        service: {surface: gravel}
        parts:
          - {id: b, kind: bolt, size: 5/16-18 x 1-1/2 in, grade: 2, thread_length: full}
        bolted_joints:
          - {id: bracket, bolt: b, bolts: 2, centred: true, load: {shear: 1000 lb}}
    Right:
        service: {surface: gravel}
        parts:
          - {id: b, kind: bolt, size: 1/2-13 x 1-1/2 in, grade: 5, thread_length: full}
        bolted_joints:
          - {id: bracket, bolt: b, bolts: 2, centred: true, load: {shear: 1000 lb}}
    """
    if not loaded(place, "shear"):
        return None
    share = worst_of(bolt_shares(place), "shear")
    check = at_least(carried(place).shear, shear_load(place) * share.shear)
    return _told(
        place, check, share,
        "'{joint}': {which} carries {need} across it with road shocks; the {bolt} holds {have} {where}: "
        "{by} too little.",
    )  # fmt: skip


@rule(
    "bolt-tension",
    on=JointPlace,
    reads=[*THREAD_OF_BOLT_READS, *JOINT_LOAD_READS, *SHARE_READS, *GRADE_READS, "service.surface",
           "bolted_joint.shear_planes", "practice.joint_safety", "bolted_joint.stack", "stack_item.thickness",
           "stack_item.gap", *THREAD_READS, "washer.thickness", "washer.type", "washer.hardness",
           "practice.washer_thickness_most"],
    basis=(PULL, practice("safety 1.5 on proof strength, and the shock factor of the surface"), ELASTIC),
    after=["joint-eccentric"],
)  # fmt: skip
def bolt_tension(place: JointPlace) -> Check | None:
    """The worst bolt of a joint carries its share of the pull along the bolts, with road shocks.

    Why: A bolt that is pulled beyond its proof load stretches, and its clamp is gone.
    Formula: At Sp / 1.5 >= k T x share; share from the moment over the rows where pattern and load_at are
        typed, else alike. Prying of a thin plate is not in it.
    Remedy: The least grade or the next size that holds, more bolts.
    Hazard: What the joint carries comes off.
    Wrong:
        service: {surface: gravel}
        parts:
          - {id: b, kind: bolt, size: 1/4-20 x 1 in, grade: 2}
        bolted_joints:
          - {id: bracket, bolt: b, bolts: 2, centred: true, load: {tension: 1200 lb}}
    Right:
        service: {surface: gravel}
        parts:
          - {id: b, kind: bolt, size: 3/8-16 x 1 in, grade: 5}
        bolted_joints:
          - {id: bracket, bolt: b, bolts: 2, centred: true, load: {tension: 1200 lb}}
    """
    if not loaded(place, "tension"):
        return None
    share = worst_of(bolt_shares(place), "pull")
    check = at_least(carried(place).pull, pull_load(place) * share.pull)
    return _told(
        place, check, share,
        "'{joint}': {which} is pulled along its axis with {need}, road shocks counted; the {bolt} holds "
        "{have}: {by} too little.",
    )  # fmt: skip


@rule(
    "bolt-combined",
    on=JointPlace,
    reads=[*JOINT_LENGTH_READS, *JOINT_LOAD_READS, *THREAD_READS, *SHARE_READS, *GRADE_READS,
           "bolted_joint.shear_planes", "service.surface", "practice.joint_safety"],
    basis=(LINES, SHEAR, PULL, YIELD),
    after=["bolt-shear", "bolt-tension", "joint-eccentric"],
)  # fmt: skip
def bolt_combined(place: JointPlace) -> Check | None:
    """A bolt that carries load across and along it holds both together.

    Why: A bolt that is busy with shear has less left for a pull.
    Formula: T <= Tc (1.3 - V / Vc), at most Tc: Vc and Tc are what the bolt carries in shear alone and in
        tension alone, with their safety; V and T its shares with road shocks.
    Remedy: The least grade or the next size that holds both, more bolts.
    Hazard: What the joint carries comes off.
    Wrong:
        service: {surface: gravel}
        parts:
          - {id: b, kind: bolt, size: 3/8-16 x 1-1/2 in, grade: 5, thread_length: full}
        bolted_joints:
          - {id: bracket, bolt: b, bolts: 1, load: {shear: 1100 lb, tension: 1800 lb}}
    Right:
        service: {surface: gravel}
        parts:
          - {id: b, kind: bolt, size: 1/2-13 x 1-1/2 in, grade: 5, thread_length: full}
        bolted_joints:
          - {id: bracket, bolt: b, bolts: 1, load: {shear: 1100 lb, tension: 1800 lb}}
    """
    if not loaded(place, "shear", "tension"):
        return None
    bolt = carried(place)
    shares = bolt_shares(place)
    checks = [_both(place, bolt, share) for share in shares]
    worst = min(range(len(checks)), key=lambda index: _least(checks[index]))
    share, check = shares[worst], checks[worst]
    return _told(
        place, check, share,
        "'{joint}': {which} carries {across} across and {need} along it together, road shocks counted; with "
        "that shear on it the {bolt} has {have} left for the pull: {by} too little.",
        across=shear_load(place) * share.shear,
    )  # fmt: skip


def _both(place: JointPlace, bolt: Any, share: BoltShare) -> Check:
    shear = shear_load(place) * share.shear
    return at_least(bolt.pull_beside(shear), pull_load(place) * share.pull)


def _least(check: Check) -> float:
    return check.margin.lo if check.margin is not None else 0.0


def _told(place: JointPlace, check: Check, share: BoltShare, words: str, **values: Any) -> Check:
    """The stop of one strength check, its cause, its remedies and its hazard."""
    words = words.replace("{which}", which_bolt(share)).replace("{where}", _where(place))
    if share.number is None and not _single(place):
        words += " The bolts are taken to share alike."
    return (
        check.stop(words, joint=place.name, bolt=place.bolt, spot=spot_of(share), **values)
        .because(_why(place))
        .at(place.bolt, "grade" if place.bolt.has("grade") else place.size_field)
        .fix(lambda: in_order(stronger_bolts(place)))
        .danger(FAILS_AT_ONCE)
    )


def _where(place: JointPlace) -> str:
    """Which section of the bolt the shear cuts."""
    planes = int(place.planes.lo)
    over = "" if planes == 1 else f", over {planes} shear planes"
    area: Interval = shear_area(place)
    if not area.is_exact:
        return "at most" + over
    threaded = place.farthest_shear_plane is None or place.thread_in_shear_plane is not False
    return ("at the root of its thread" if threaded else "on its plain shank") + over


def _why(place: JointPlace) -> str:
    safety = f"{place.limits.joint_safety.hi:g}"
    shock = f"{place.shock.hi:g}"
    more = "; the places of the bolts and of the load count" if placed(place) else ""
    return f"The load at rest is multiplied by {shock} for the road, and a safety of {safety} is kept{more}."


def _single(place: JointPlace) -> bool:
    return place.count.hi == 1
