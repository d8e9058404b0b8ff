"""The clamp of a joint: whether it holds by friction where it must, and whether the torque suits the bolt."""

from __future__ import annotations

import math
from collections.abc import Iterator

from partscheck.build.joint_clamp import (
    BARE,
    FACE_READS,
    LUBRICATED,
    PRELOAD_READS,
    face_friction,
    nut_factor,
    preload,
    proof_load,
    torque_of,
    typed_preload,
)
from partscheck.build.joint_places import JOINT_LOAD_READS, JointPlace
from partscheck.build.joint_shares import SHARE_READS, bolt_shares, placed, worst_of
from partscheck.formulas.bolted_joint import clamp_slip_capacity, preload_against_slip
from partscheck.formulas.preload import preload_spread
from partscheck.notation.interval import INF, Interval
from partscheck.rules.basis import practice, published, recalled
from partscheck.rules.check import Check, Remedy, all_of, at_least, at_most, certainly
from partscheck.rules.joint_bolts import (
    FAILS_AT_ONCE,
    GRADE_READS,
    MOST_BOLTS,
    THREAD_OF_BOLT_READS,
    in_order,
    loaded,
    pull_load,
    shear_load,
)
from partscheck.rules.message import Least, Most
from partscheck.rules.registry import rule

SLIP_FORM = published(
    "AISC 360 (2005), slip form as worked in A Beginner's Guide to the Steel Construction Manual, Ex 4.1 "
    "(secondary copy read)"
)
TORQUE_FORM = published("Shigley, Mechanical Engineering Design 9e, ch. 8: T = K F d (secondary copy read)")
WELDER = (
    "have a licensed welder or engineer lay it out, for heat and holes in the wrong place weaken what they "
    "join"
)
LOOSE = (
    "A joint that slips loosens its bolts, and an arm or axle that moves steers the trailer. Follow the part "
    "makers' instructions and local codes."
)


@rule(
    "joint-slips",
    on=JointPlace,
    reads=[*THREAD_OF_BOLT_READS, *GRADE_READS, *JOINT_LOAD_READS, *SHARE_READS, *PRELOAD_READS, *FACE_READS,
           "joint_load.reverses", "bolted_joint.shear_planes", "service.surface",
           "stack_item.gap", "stack_item.hole", "stack_item.slotted", "practice.slip_safety_standard",
           "practice.slip_safety_oversize", "practice.preload_scatter", "practice.preload_most"],
    basis=(
        SLIP_FORM,
        recalled("1.76 for oversize and slotted holes: AISC 360"),
        practice("friction of home-shop faces, preload from torque, the pull taken off the clamp in full"),
    ),
    after=["hole-too-small"],
)  # fmt: skip
def joint_slips(place: JointPlace) -> Check | None:
    """A joint with oversize or slotted holes, or a load that reverses, holds by the friction of its clamp.

    Why: In such holes nothing but friction keeps the parts where they were aligned.
    Formula: mu (N F - k T) planes / 1.76 >= k V, 1.50 in standard holes; F = 1000 torque / (K d), or 75 % of
        proof where no torque is typed; mu by the coating of the faces. With pattern and load_at, V is the
        worst bolt's share times the bolts. The nominal preload is worked with and its scatter told. In
        normal holes a joint that slips leans on its bolts: then the rules of shear and bearing decide.
    Remedy: More preload while the bolts allow it, bare faces, more bolts; else a dowel, a weld or a second
        bolt row, laid out by a licensed welder or engineer.
    Hazard: What was aligned moves, and the bolts work loose.
    Wrong:
        service: {surface: gravel}
        parts:
          - {id: b, kind: bolt, size: 1/2-13 x 1-1/2 in, grade: 8, finish: zinc}
        bolted_joints:
          - id: arm to frame
            bolt: b
            bolts: 3
            torque: 75 ft-lb
            centred: true
            load: {shear: 1100 lb, tension: 250 lb}
            stack:
              - {thickness: 3/8 in, hole: 5/8 in, coated: powder}
              - {thickness: 3/8 in, hole: 5/8 in, coated: powder}
    Right:
        service: {surface: gravel}
        parts:
          - {id: b, kind: bolt, size: 1/2-13 x 1-1/2 in, grade: 8, finish: zinc}
        bolted_joints:
          - id: arm to frame
            bolt: b
            bolts: 3
            torque: 75 ft-lb
            centred: true
            load: {shear: 1100 lb, tension: 250 lb}
            stack:
              - {thickness: 3/8 in, hole: 5/8 in, coated: bare}
              - {thickness: 3/8 in, hole: 5/8 in, coated: bare}
    """
    if not loaded(place, "shear") or not place.first or not place.stack:
        return None
    loose, back_and_forth = place.any_oversize, _reverses(place)
    if loose is None and place.clearance is None and place.thread.known:
        return None  # a size of which no table says what an oversize hole is
    friction, safety = face_friction(place), _safety(place, loose is not False)
    have = _held(place, preload(place), friction, safety)
    check = at_least(have, _needed(place))
    if loose is False and not back_and_forth:
        return _in_normal_holes(place, check) if any(item.has("hole") for item in place.stack) else None
    if loose is None and not back_and_forth and check.fails:
        check.truth = None  # the hole decides whether friction has to do it
    return _must_hold(place, check, friction, safety)


def _reverses(place: JointPlace) -> bool:
    return bool(place.joint.load.has("reverses") and place.joint.load.reverses)


def _safety(place: JointPlace, loose: bool) -> Interval:
    limits = place.limits
    return (limits.slip_safety_oversize if loose else limits.slip_safety_standard).clipped(1.0)


def _needed(place: JointPlace) -> Interval:
    """Shear that friction has to hold, N: where the worst bolt carries more than its equal share, that counts
    for every bolt.
    """
    load = shear_load(place)
    if not placed(place):
        return load
    shares = bolt_shares(place)
    return load * worst_of(shares, "shear").shear * float(len(shares))


def _held(place: JointPlace, force: Interval, friction: Interval, safety: Interval) -> Interval:
    """Shear that the clamp holds, N."""
    count, pull, planes = place.count, pull_load(place), int(place.planes.lo)
    least = 0.0
    if pull.hi < INF:
        least = clamp_slip_capacity(force.lo, int(count.lo), friction.lo, pull.hi, planes, safety.hi)
    if INF in (force.hi, count.hi):
        return Interval(least, INF, "N")
    most = clamp_slip_capacity(force.hi, int(count.hi), friction.hi, pull.lo, planes, safety.lo)
    return Interval(least, most, "N")


def _in_normal_holes(place: JointPlace, check: Check) -> Check | None:
    """No fault: the joint may lean on its bolts.  Nothing is asked for the sake of a note."""
    if check.unsure:
        return None
    if check.fails:
        check.note(
            "'{joint}': its clamp holds {have} by friction, {need} comes on it with road shocks; in these "
            "normal holes it may slip a little until it leans on the bolts, and shear and bearing decide.",
            joint=place.name,
        )  # fmt: skip
    return check


def _must_hold(place: JointPlace, check: Check, friction: Interval, safety: Interval) -> Check:
    force = preload(place)
    low, _ = preload_spread(force.lo, min(1.0, place.limits.preload_scatter.hi))
    short = at_least(_held(place, Interval.exact(low, "N"), friction, safety), _needed(place))
    scatter = f"{100 * place.limits.preload_scatter.hi:.0f}"
    if check.holds and not short.holds:
        return check.note(
            "'{joint}' holds by friction: {have}, and {need} comes on it with road shocks. That is with the "
            "preload worked out, {preload} a bolt; a torque scatters by {scatter} %, and at the lower end "
            "the joint would be {short} short of its safety. Use a good wrench, clean threads, and check it "
            "again.",
            joint=place.name, preload=force, scatter=scatter, short=_missing(short),
        )  # fmt: skip
    why = "its holes are oversize or slotted" if place.any_oversize is not False else "its load reverses"
    return (
        check.stop(
            "'{joint}' has to hold by friction, for {why}: its clamp holds {have}, but {need} comes on it "
            "with road shocks{uneven}: {by} too little (friction {friction}, {preload} a bolt, safety "
            "{safety}; a torque scatters by {scatter} % on top).",
            joint=place.name, why=why, friction=f"{friction.lo:g}", preload=force, safety=f"{safety.hi:g}",
            scatter=scatter, uneven=", every bolt reckoned like the worst one" if placed(place) else "",
        )
        .because("Once it slips, what was aligned stands askew, and the bolts turn loose.")
        .at(place.joint, "torque" if place.joint.has("torque") else "stack")
        .fix(lambda: in_order(_more_grip(place, friction, safety)))
        .danger(LOOSE)
    )  # fmt: skip


def _missing(check: Check) -> Interval:
    """How much a check lacks at its worse end."""
    return Interval.exact(0.0 if check.margin is None else max(0.0, -check.margin.lo), "N")


def _more_grip(place: JointPlace, friction: Interval, safety: Interval) -> Iterator[Remedy]:
    """Tighter, bare faces, more bolts; then what does not need friction."""
    count, need = int(place.count.lo), _needed(place).hi
    yield from _tighter(place, _force_for(place, need, count, friction.lo, safety.hi))
    bare = face_friction(place, scraped=True)
    if friction.lo < bare.lo:
        held = _held(place, preload(place), bare, safety)
        words = "scrape and wipe the faces that meet to bare steel before bolting (friction {mu}): "
        if at_least(held, _needed(place)).holds:
            coated = (item for item in place.stack if item.has("coated"))
            worst = min(coated, key=lambda item: item.coated == BARE, default=place.stack[0])
            yield Remedy(
                words + "the clamp then holds {held}", operation="shop",
                field=f"{worst.id}.coated", relation="equal to", target="bare", mu=f"{bare.lo:g}", held=held,
            )  # fmt: skip
        else:
            force = _force_for(place, need, count, bare.lo, safety.hi)
            yield from _tighter(place, force, words.replace("{mu}", f"{bare.lo:g}"))
    yield from _more_bolts(place, need, friction, safety)
    close = place.clearance
    yield Remedy(
        "or take the load off friction: a dowel or close-fitting bolts in new holes{drill}, a second bolt "
        "row, or a weld; " + WELDER,
        operation="add", drill="" if close is None else f" of {_text(close.least('normal'))} at most",
    )  # fmt: skip


def _text(value: Interval) -> str:
    return str(getattr(value, "text", "")) or f"{value.hi:g} mm"


def _force_for(place: JointPlace, need: float, count: int, friction: float, safety: float) -> float:
    """Preload of each bolt that just keeps the joint from slipping, N."""
    pull = pull_load(place).hi
    if INF in (need, pull):
        return INF
    return preload_against_slip(need, count, friction, pull, int(place.planes.lo), safety)


def _tighter(place: JointPlace, force: float, first: str = "") -> Iterator[Remedy]:
    """Only while the bolts allow it: up to the practice share of their proof load."""
    proof = proof_load(place)
    if not (place.thread.known and force < INF and proof.lo > 0):
        return
    share = force / proof.lo
    if share > place.limits.preload_most.lo:
        return
    yield Remedy(
        first + "tighten each bolt to {torque} or more as it comes (K {k}), {oiled} with oiled threads (K "
        "{k_oiled}): {force} of preload a bolt, {share} % of its proof load",
        field=f"{place.joint.id}.torque", relation="at least", operation="declare",
        target=torque_of(place, force), torque=Least(torque_of(place, force)),
        oiled=Least(torque_of(place, force, LUBRICATED)), k=f"{nut_factor(place):.2f}",
        k_oiled=f"{nut_factor(place, LUBRICATED):.2f}", force=Interval.exact(force, "N"),
        share=f"{math.ceil(100 * share)}",
    )  # fmt: skip


def _more_bolts(place: JointPlace, need: float, friction: Interval, safety: Interval) -> Iterator[Remedy]:
    if placed(place) or need == INF or pull_load(place).hi == INF:
        return
    force = preload(place).lo
    for count in range(int(place.count.lo) + 1, MOST_BOLTS + 1):
        if _force_for(place, need, count, friction.lo, safety.hi) <= force:
            yield Remedy(
                "use {target} such bolts at this preload: a second row",
                field=f"{place.joint.id}.bolts", relation="at least", target=count, operation="shop",
            )  # fmt: skip
            return


# ---- torque ------------------------------------------------------------------------------------


@rule(
    "torque-outside-range",
    on=JointPlace,
    reads=[*THREAD_OF_BOLT_READS, *GRADE_READS, "bolted_joint.torque", "bolt.finish",
           "practice.preload_least", "practice.preload_most", "practice.preload_target"],
    basis=(TORQUE_FORM, practice("50 to 90 % of proof at the nominal K of the finish")),
)  # fmt: skip
def torque_outside_range(place: JointPlace) -> Check | None:
    """The torque of a joint loads its bolts to between half and nine tenths of their proof load.

    Why: Too little and the joint works loose; beyond proof the bolt stretches, and its clamp is gone.
    Formula: F = 1000 T / (K d); 0.5 <= F / (At Sp) <= 0.9, and never above 1. K by the bolt's finish (0.20
        where it is not typed), nominal: preloads scatter by a quarter and more.
    Remedy: A torque inside the range, dry or with oiled threads.
    Hazard: A stretched bolt breaks later, under load.
    Wrong:
        parts:
          - {id: b, kind: bolt, size: 1/2-13 x 2 in, grade: 5, finish: zinc}
        bolted_joints:
          - {id: bracket, bolt: b, torque: 106 ft-lb}
    Right:
        parts:
          - {id: b, kind: bolt, size: 1/2-13 x 2 in, grade: 5, finish: zinc}
        bolted_joints:
          - {id: bracket, bolt: b, torque: 75 ft-lb}
    """
    if place.bolt is None or place.bolt.kind == "wheel-bolt":
        return None
    if not place.joint.has("torque"):
        return _suggested(place)
    force, proof = typed_preload(place), proof_load(place)
    stretched = at_most(force, proof)
    low = at_least(force, proof * place.limits.preload_least)
    high = at_most(force, proof * place.limits.preload_most)
    check = stretched if not stretched.holds else all_of(low, high)
    torque = place.joint.torque
    if check is stretched:
        check.stop(
            "'{joint}': {torque} gives the {bolt} {have} of preload, over its proof load of {need}: it "
            "stretches, {by} too much.",
            joint=place.name, torque=torque, bolt=place.bolt,
        ).because("Beyond its proof load a bolt has lost its spring and breaks later.")  # fmt: skip
        check.danger(FAILS_AT_ONCE)
    elif check is low:
        check.caution(
            "'{joint}': {torque} gives the {bolt} {have} of preload; under {need}, half its proof load, it "
            "works loose.",
            joint=place.name, torque=torque, bolt=place.bolt,
        ).because("A bolt that is hardly stretched loses its clamp as paint and rust settle.")  # fmt: skip
    else:
        check.caution(
            "'{joint}': {torque} gives the {bolt} {have} of preload; more than {need} leaves no room for the "
            "scatter of a wrench below its proof load.",
            joint=place.name, torque=torque, bolt=place.bolt,
        ).because("The same torque gives a quarter more or less on the next bolt.")  # fmt: skip
    return check.at(place.joint, "torque").fix(lambda: _right_torque(place))


def _suggested(place: JointPlace) -> Check | None:
    """No torque on the list: the one to use, as a note, where thread and grade are known."""
    if not (place.thread.known and place.strength.known):
        return None
    return certainly().note(
        "'{joint}': tighten the {bolt} to about {aim} as it comes (K {k}), {oiled} with oiled threads (K "
        "{k_oiled}): {percent} % of proof; {least} to {most}, or {oiled_least} to {oiled_most} oiled, is "
        "the range. A maker's own torque governs.",
        **_window(place),
    ).at(place.joint, "bolt")  # fmt: skip


def _right_torque(place: JointPlace) -> Iterator[Remedy]:
    if not place.thread.known:
        return
    window = _window(place)
    yield Remedy(
        "tighten to {least} to {most} as it comes (K {k}), about {aim}; with oiled threads (K {k_oiled}) "
        "{oiled_least} to {oiled_most}, about {oiled}",
        field=f"{place.joint.id}.torque", relation="equal to", target=window["aim"], operation="declare",
        **window,
    )  # fmt: skip


def _window(place: JointPlace) -> dict[str, object]:
    """Torques from the least to the most share of proof, dry and oiled, and the one to aim at."""
    limits, proof = place.limits, proof_load(place).lo
    least, aim, most = limits.preload_least.hi, limits.preload_target.mid, limits.preload_most.lo
    shares = {"least": least, "aim": aim, "most": most}
    dry = {name: torque_of(place, share * proof) for name, share in shares.items()}
    oiled = {name: torque_of(place, share * proof, LUBRICATED) for name, share in shares.items()}
    return {
        "aim": dry["aim"], "least": Least(dry["least"]), "most": Most(dry["most"]), "oiled": oiled["aim"],
        "oiled_least": Least(oiled["least"]), "oiled_most": Most(oiled["most"]),
        "k": f"{nut_factor(place):.2f}", "k_oiled": f"{nut_factor(place, LUBRICATED):.2f}",
        "percent": f"{100 * shares['aim']:.0f}", "joint": place.name, "bolt": place.bolt,
    }  # fmt: skip
