"""Joints whose load acts beside the middle of their bolts: the worst bolt by the elastic method."""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build.joint_places import JOINT_LENGTH_READS, JOINT_LOAD_READS, THREAD_READS, JointPlace
from partscheck.build.joint_shares import (
    SHARE_READS,
    BoltShare,
    bolt_shares,
    bolts_at,
    direction_of,
    even_share,
    off_centre,
    placed,
    placed_shares,
    worst_of,
)
from partscheck.formulas.bolt_group import centroid
from partscheck.notation.interval import Interval
from partscheck.rules.basis import practice, published
from partscheck.rules.check import Check, Remedy, all_of, at_least, certainly, same
from partscheck.rules.joint_bolts import (
    FAILS_AT_ONCE,
    GRADE_READS,
    HALVINGS,
    carried,
    holds_all,
    in_order,
    loaded,
    pull_load,
    shear_load,
    spot_of,
    stronger_bolts,
)
from partscheck.rules.registry import rule
from partscheck.rules.targets import no_less, no_more

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

CENTRED = 0.01  # mm off the middle that count as none
WIDEST = 4.0  # times the pattern, further apart is another joint


@rule(
    "joint-eccentric",
    on=JointPlace,
    reads=[*JOINT_LENGTH_READS, *JOINT_LOAD_READS, *THREAD_READS, *SHARE_READS, *GRADE_READS,
           "bolted_joint.centred", "bolted_joint.shear_planes", "service.surface", "practice.joint_safety"],
    basis=(
        practice("elastic method: statics, stiff plates, each bolt in proportion to its distance"),
        published("Shigley, Mechanical Engineering Design 9e, pp. 454-455, bolts (secondary copy read)"),
    ),
)  # fmt: skip
def joint_eccentric(place: JointPlace) -> Iterator[Check]:
    """A load beside the middle of a joint's bolts is carried by the worst of them too, not only on average.

    Why: A load on an arm turns the joint as well. The worst bolt may carry three times its equal share, and
        more.
    Formula: direct P / N, and M r / sum(r^2) square to the radius, added as vectors; a pull beside the middle
        adds its moment over the rows. Pattern and load_at give the places; centred: true says that the load
        goes through the middle.
    Remedy: The load nearer to the middle, the bolts further apart, then stronger ones.
    Hazard: The bolts shear one after another, and what the joint carries comes off.
    Wrong:
        service: {surface: gravel}
        parts:
          - {id: b, kind: bolt, size: 5/16-18 x 1-1/2 in, grade: 5, thread_length: full}
        bolted_joints:
          - id: bracket
            bolt: b
            bolts: 4
            load: {shear: 1100 lb}
            pattern: [[1.5 in, 2 in], [-1.5 in, 2 in], [1.5 in, -2 in], [-1.5 in, -2 in]]
            load_at: [6 in, 0 in]
            direction: [0, -1]
    Right:
        service: {surface: gravel}
        parts:
          - {id: b, kind: bolt, size: 3/8-16 x 1-1/2 in, grade: 5, thread_length: full}
        bolted_joints:
          - id: bracket
            bolt: b
            bolts: 4
            load: {shear: 1100 lb}
            pattern: [[1.5 in, 2 in], [-1.5 in, 2 in], [1.5 in, -2 in], [-1.5 in, -2 in]]
            load_at: [6 in, 0 in]
            direction: [0, -1]
    """
    if not (loaded(place, "shear") or loaded(place, "tension")) or _one_bolt(place):
        return
    if placed(place):
        yield from _count_disagrees(place)
        yield from _by_places(place)
    elif place.joint.has("centred") and place.joint.centred:
        yield certainly()
    elif not _too_weak_anyhow(place):
        yield _ask(place)


def _one_bolt(place: JointPlace) -> bool:
    return place.count.hi <= 1 or (place.joint.has("pattern") and len(place.joint.pattern) == 1)


def _count_disagrees(place: JointPlace) -> Iterator[Check]:
    """The pattern rules where it has another number of bolts: that is told, not guessed."""
    typed, drawn = place.joint.bolts, len(place.joint.pattern)
    if typed is not None and typed != drawn and place.joint.has("bolts"):
        yield (
            same(False)
            .caution(
                "'{joint}': bolts says {typed}, but the pattern has {drawn} centres; the pattern is worked "
                "with.",
                joint=place.name, typed=typed, drawn=drawn,
            )
            .at(place.joint, "pattern")
            .fix(lambda: [Remedy("give one centre for each bolt, or the right number", operation="declare",
                                 field=f"{place.joint.id}.bolts", relation="equal to", target=drawn)])
        )  # fmt: skip


def _by_places(place: JointPlace) -> Iterator[Check]:
    """The worst bolt; silent where the bolts are too weak for an equal share already: bolt-shear says so."""
    if _too_weak_anyhow(place):
        return
    shares, bolt = bolt_shares(place), carried(place)
    across, along = worst_of(shares, "shear"), worst_of(shares, "pull")
    checks = [(at_least(bolt.shear, shear_load(place) * across.shear), across, "across it")]
    if place.load_tension.hi > 0:
        checks.append((at_least(bolt.pull, pull_load(place) * along.pull), along, "along it"))
    worst = all_of(*(check for check, _, _ in checks))
    check, share, way = next(one for one in checks if one[0] is worst)
    even = (shear_load(place) if way == "across it" else pull_load(place)) * (1 / len(shares))
    yield (
        check.stop(
            "'{joint}': the load acts {off} beside the middle of the bolts. Bolt {number} of the pattern, at "
            "{spot} (across, up), carries {need} {way} with road shocks, not the {even} of an equal share; "
            "the {bolt} holds {have}: {by} too little.",
            joint=place.name, off=Interval.exact(off_centre(place), "mm"), number=share.number,
            spot=spot_of(share), way=way, even=even, bolt=place.bolt,
        )
        .because("The load also turns the joint, and the bolts far from its middle have to hold that.")
        .at(place.joint, "load_at")
        .fix(lambda: in_order(_remedies(place)))
        .danger(FAILS_AT_ONCE)
    )  # fmt: skip


def _too_weak_anyhow(place: JointPlace) -> bool:
    """The bolts fail even where they share alike; some bolt always carries at least that."""
    count = place.count.lo if not place.joint.has("pattern") else float(len(place.joint.pattern))
    even = even_share(place) if not placed(place) else Interval.exact(1 / count)
    bolt = carried(place)
    return bool(
        at_least(bolt.shear, shear_load(place) * even).fails
        or at_least(bolt.pull, pull_load(place) * even).fails
    )


def _ask(place: JointPlace) -> Check:
    joint = place.joint
    getattr(joint, "load_at" if joint.has("pattern") else "centred")  # asks for it: the other fields follow
    words = (
        "'{joint}': where the load acts is not said. If it goes through the middle of the bolts, type "
        "centred: true; if not, give the bolts' centres as pattern, and load_at and direction: an equal "
        "share can understate the worst bolt three times, and more."
    )
    return Check(None).ask(words, joint=place.name).at(joint, "load")


# ---- remedies ----------------------------------------------------------------------------------


def _remedies(place: JointPlace) -> Iterator[Remedy]:
    yield from _nearer(place)
    yield from _wider(place)
    yield from stronger_bolts(place)


def _nearer(place: JointPlace) -> Iterator[Remedy]:
    spots, at = bolts_at(place), place.joint.load_at
    middle = centroid(spots)

    def holds(part: float) -> bool:
        moved = tuple(one * part + middle[axis] * (1 - part) for axis, one in enumerate(at))
        return _holds(place, placed_shares(spots, (moved[0], moved[1]), _way(place)))

    far = off_centre(place)
    if far > CENTRED and holds(0.0):
        target = no_more(far * _edge(holds, 0.0, 1.0))
        if target.lo > 0:
            yield Remedy(
                "bring the load to within {target} of the middle of the bolts",
                field=f"{place.joint.id}.load_at", operation="shop", relation="at most", target=target,
            )  # fmt: skip


def _wider(place: JointPlace) -> Iterator[Remedy]:
    spots, at = bolts_at(place), place.joint.load_at
    middle = centroid(spots)

    def holds(times: float) -> bool:
        wide = [(middle[0] + times * (x - middle[0]), middle[1] + times * (y - middle[1])) for x, y in spots]
        return _holds(place, placed_shares(wide, at, _way(place)))

    if holds(WIDEST):
        times = _edge(holds, WIDEST, 1.0)
        span = max(max(one[axis] for one in spots) - min(one[axis] for one in spots) for axis in (0, 1))
        yield Remedy(
            "or set the bolts further apart: the longer side of the pattern {target} instead of {span}, the "
            "other in proportion",
            field=f"{place.joint.id}.pattern", operation="shop", relation="at least",
            target=no_less(span * times), span=Interval.exact(span, "mm"),
        )  # fmt: skip


def _edge(holds: Any, good: float, bad: float) -> float:
    """Where ``holds`` turns, on the good side."""
    for _ in range(HALVINGS):
        middle = (good + bad) / 2
        good, bad = (middle, bad) if holds(middle) else (good, middle)
    return good


def _holds(place: JointPlace, shares: list[BoltShare]) -> bool:
    return holds_all(place, carried(place), shares)


def _way(place: JointPlace) -> tuple[float, float] | None:
    return direction_of(place.joint)
