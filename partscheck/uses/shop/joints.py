"""The joints of frame, arms and coupler: bolts, washers, torque, wrenches."""

from __future__ import annotations

from partscheck.build.joint_clamp import LUBRICATED, nut_factor, proof_load, torque_of, typed_preload
from partscheck.notation.interval import INF, Interval
from partscheck.rules.basis import practice, published
from partscheck.rules.hands import BACKWARDS, HANDED
from partscheck.rules.message import name_of
from partscheck.uses.shop.drilling import all_pieces, joints, layer_name, pieces_in
from partscheck.uses.shop.sheet import FROM_LIST, Said, Section, Step, Torque, basis_of, limits_basis
from partscheck.uses.shop.sizes import INSERTS, head_wrench, nut_wrench
from partscheck.uses.shop.tightening import STAGES, stages, tell_stages

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import Any

    from partscheck.build.joint_places import JointPlace
    from partscheck.engine import Result
    from partscheck.rules.basis import Basis

TORQUE_FORM = published("Shigley, Mechanical Engineering Design 9e, ch. 8: T = K d F (secondary copy read)")
BOLTING = practice("bolting up by hand")
NYLON = practice("the torque that turns a locking nut before it bears is added to the torque")
HAZARD = (
    "A joint that works loose or a bolt that breaks drops what it holds. Where it carries an arm, an axle, the "
    "coupler or a rack the maker's torque governs, and a licensed shop looks at what you are not sure of. Never "
    "under a trailer that stands on a jack alone: stands, on firm ground, wheels chocked."
)
INTRO = (
    Said(
        "Put in every bolt of a joint with the fingers before you tighten any. Then turn the nut, hold the head."
    ),
)


def section(result: Result) -> Section:
    steps = [*_arms(result), *(_joint(place) for place in joints(result)), *_u_bolts(result)]
    return Section("joints", "Bolt the joints", steps, INTRO, HAZARD, (BOLTING,))


def _arms(result: Result) -> Iterator[Step]:
    """Which arm goes where."""
    for arm in result.build.of_kind("suspension-arm"):
        line: Any = arm
        at = result.fit.places_of(arm)
        if not at:
            continue
        hand = line.hand if line.has("hand") else None
        step = Step(
            "set the {arm} at {places}{hand}.", (arm,), at, arm=arm, places=", ".join(at), hand=_hand_words(hand)
        )
        step.more("It trails: the spindle end points to the rear, the spindle outward.")
        if not result.build.joints:
            step.more("Its bolts, their holes and torque by the arm maker's sheet: the list has no bolted_joints.")
        yield step.by(HANDED).danger(BACKWARDS).minds("hands", "suspension", "shares")


def _hand_words(hand: Any) -> str:
    if hand in ("left", "right"):
        return f", a {hand}-hand one"
    if hand == "either":
        return "; it fits both sides"
    return ", one left and one right" if hand == "pair" else "; look which side each is made for"


def _joint(place: JointPlace) -> Step:
    step = (
        Step(
            "bolt up '{joint}': {count}, {bolt}{nut}.",
            place.parts,
            place.at,
            joint=place.name,
            count=all_pieces(place, "bolts"),
            bolt=place.bolt,
            nut=_holder(place),
        )
        .by(FROM_LIST)
        .minds("joint", "quantities")
    )
    _washers(step, place)
    for item in place.stack:
        if item.has("sleeve") and item.sleeve:
            step.more("the sleeve goes into the {layer} before the bolt.", layer=layer_name(item))
    full, oiled = _tell_torque(step, place)
    tell_stages(step, place.limits, full)
    count = pieces_in(place)
    if count is not None and count > 2:
        step.more("from the middle of the joint outward, crosswise, and once more round at the full torque.")
    wrench = _wrenches(step, place)
    what = Said("{joint}", joint=place.name)
    step.by(STAGES).take("torque wrench")
    return step.tighten(Torque(what, place.at, count, (), full, stages(place.limits, full), wrench, oiled))


def _holder(place: JointPlace) -> str:
    if place.tapped is not None:
        return " into the tapped holes"
    return f", {name_of(place.nut)}" if place.nut is not None else ""


def _washers(step: Step, place: JointPlace) -> None:
    sides = [side for side in ("head", "nut") if place.washer(side) is not None]
    if sides == ["head", "nut"]:
        step.more("a washer under head and nut.")
    elif sides:
        step.more(f"a washer under the {sides[0]}.")


def _tell_torque(step: Step, place: JointPlace) -> tuple[Interval | None, Interval | None]:
    """(torque, the same clamp with oiled threads); None where the list does not give what it takes."""
    joint = place.joint
    dry, oil = nut_factor(place), nut_factor(place, LUBRICATED)
    state = f"threads as they come ({_finish(place)}, K {dry:.2f})"
    if joint.has("torque"):
        full: Interval = joint.torque
        oiled = _oiled(place)
        step.more("torque {full}, {state}.", full=full, state=state).by(FROM_LIST)
    elif place.bolt.kind != "wheel-bolt" and place.thread.known and place.strength.known:
        aim = place.limits.preload_target.mid * proof_load(place).lo
        full, oiled = torque_of(place, aim), torque_of(place, aim, LUBRICATED)
        step.more(
            "torque {full}, {state}: worked out, {share} % of the bolt's proof load. The maker's own torque "
            "governs.",
            full=full,
            state=state,
            share=f"{100 * place.limits.preload_target.mid:.0f}",
        )
        step.by(*(basis_of(row) for row in place.strength.rows), *limits_basis(place.limits, "preload_target"))
    else:
        step.more(
            "torque by the maker's sheet: thread or grade of the bolt is not known. Read the marks on its head, "
            "type them in the list, and print this sheet again."
        )
        return None, None
    if oiled is not None:
        step.more("with oiled threads: {oiled} gives the same clamp (K {k}).", oiled=oiled, k=f"{oil:.2f}")
    step.by(TORQUE_FORM, *_factor_basis(place))
    _locknut(step, place)
    return full, oiled


def _oiled(place: JointPlace) -> Interval | None:
    force = typed_preload(place)
    if not (place.thread.known and 0 < force.hi < INF):
        return None
    return torque_of(place, force.mid, LUBRICATED)


def _locknut(step: Step, place: JointPlace) -> None:
    nut = place.nut
    if nut is None or nut.kind != "nut" or not nut.has("locking") or nut.locking not in INSERTS:
        return
    step.more(
        "the locking nut turns hard before it bears: read that torque on the wrench as you run it down, and add "
        "it. New nuts each time they come off."
    ).by(NYLON)


def _finish(place: JointPlace) -> str:
    bolt = place.bolt
    return bolt.finish if bolt.kind == "bolt" and bolt.has("finish") else "finish not on the list"


def _factor_basis(place: JointPlace) -> list[Basis]:
    keys = (_finish(place), LUBRICATED)
    rows = [place.tables.row("nut_factor", key) or place.tables.row("nut_factor", "unknown") for key in keys]
    return [basis_of(row) for row in rows if row is not None]


def _wrenches(step: Step, place: JointPlace) -> Said:
    """Tell the wrenches; the words for the torque table."""
    head, head_basis = head_wrench(place)
    nut, nut_basis = nut_wrench(place)
    step.by(*(one for one in (head_basis, nut_basis) if one is not None))
    if place.nut is None:
        step.more("wrench on the head: {head}.", head=head)
        words = head
    else:
        step.more("socket on the nut: {nut}; wrench on the head: {head}.", nut=nut, head=head)
        words = nut
    for said in (head, nut):
        for size in said.values.values():
            step.take(Said("socket or wrench {size}", size=size))
    return words


def _u_bolts(result: Result) -> Iterator[Step]:
    """U-bolts that no joint of the list speaks of."""
    in_joints = {id(bolt) for place in joints(result) for bolt in place.bolts}
    for line in result.build.of_kind("u-bolt"):
        if id(line) not in in_joints:
            yield (
                Step(
                    "tighten the {part} evenly, crosswise, a little at a time, so that the same thread stands "
                    "out of every nut.",
                    (line,),
                    result.fit.places_of(line),
                    part=line,
                )
                .more("Torque by the axle or spring maker's sheet: the list gives no joint for them.")
                .by(BOLTING)
                .take("torque wrench")
                .minds("springs")
            )
