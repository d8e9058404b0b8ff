"""Bolts in their nuts and holes: one thread, a nut as strong as its bolt, a hole of the right size."""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build import fastener_data as data
from partscheck.build.joint_places import JointPlace
from partscheck.notation.grade import Grade
from partscheck.notation.interval import Interval
from partscheck.notation.thread import near_miss
from partscheck.notation.words import UNKNOWN_WORD
from partscheck.rules.basis import practice, published, recalled
from partscheck.rules.check import Check, Remedy, same
from partscheck.rules.registry import rule

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

COMES_APART = (
    "A joint that strips or works loose drops what it holds. Where it carries an axle, an arm, the coupler "
    "or a rack, follow the part makers' instructions and local codes."
)
FORCED = "A thread that is nearly right goes on for a few turns, then tears and strips under load."
PAIRING = published("SAE J995: pairing of nuts and bolts, regular hex nuts; secondary copies read")
PAIRING_ISO = recalled("ISO 898-2: a nut's class is the first number of the strongest bolt it serves")
COATS_THREAD = ("paint", "primer", "powder", "galvanized", "e-coat", "coated")
THREADS = ["bolt.size", "stud.thread", "wheel-bolt.thread", "u-bolt.thread"]


@rule(
    "thread-mismatch",
    on=JointPlace,
    reads=[*THREADS, "stud.length", "wheel-bolt.length", "u-bolt.length", "nut.thread", "lug-nut.thread",
           "tapped.thread"],
    basis=published("ASME B1.1: a thread is its diameter, its pitch and its hand; secondary copy read"),
)  # fmt: skip
def thread_mismatch(place: JointPlace) -> Iterator[Check]:
    """A bolt, its nut and its tapped hole have one thread.

    Why: A thread that is nearly right goes on for a few turns, then tears and strips under load.
    Formula: diameter and pitch equal, and the same hand.
    Remedy: Nuts (or bolts) of the thread that is there.
    Hazard: The joint comes apart under load.
    Wrong:
        parts:
          - {id: b, kind: bolt, size: 1/2-13 x 2 in}
          - {id: n, kind: nut, thread: M12}
        bolted_joints:
          - {id: bracket, bolt: b, nut: n}
    Right:
        parts:
          - {id: b, kind: bolt, size: 1/2-13 x 2 in}
          - {id: n, kind: nut, thread: 1/2-13 UNC}
        bolted_joints:
          - {id: bracket, bolt: b, nut: n}
    """
    if place.bolt is None:
        return
    for taker, what in ((place.nut, "nut"), (place.tapped, "tapped hole")):
        if taker is None or not (place.thread.known or taker.thread.known):
            continue
        near = near_miss(place.thread, taker.thread)
        check = same(place.thread.same_as(taker.thread), place.thread, taker.thread).stop(
            "'{joint}': the {bolt} has {have}, the {what} {need}."
            + (" Take care: {near}." if near else " They do not go together."),
            joint=place.name, bolt=place.bolt, what=what, near=near,
        )  # fmt: skip
        check.because(FORCED).at(taker, "thread").danger(COMES_APART)
        check.about(place.bolt, place.nut if taker is place.nut else None)
        yield check.fix(lambda taker=taker, what=what: _one_thread(place, taker, what))  # type: ignore[misc]


def _one_thread(place: JointPlace, taker: Any, what: str) -> Iterator[Remedy]:
    if what == "nut":
        yield Remedy("get nuts with thread {target}", field=f"{taker.id}.thread", relation="equal to",
                     target=place.thread)  # fmt: skip
    yield Remedy(
        ("or " if what == "nut" else "") + "get bolts with thread {target}, long enough for the stack",
        field=f"{place.bolt.id}.{place.size_field}", relation="equal to", target=taker.thread,
    )  # fmt: skip


# ---- nut against bolt --------------------------------------------------------------------------


@rule(
    "nut-weaker-than-bolt",
    on=JointPlace,
    reads=[*THREADS, "stud.length", "wheel-bolt.length", "u-bolt.length", "bolt.grade", "bolt.head",
           "stud.grade", "wheel-bolt.grade", "u-bolt.grade", "nut.grade"],
    basis=(PAIRING, PAIRING_ISO),
    after=["thread-mismatch"],
)  # fmt: skip
def nut_weaker_than_bolt(place: JointPlace) -> Check | None:
    """A nut is strong enough that its bolt breaks before the nut strips.

    Why: A nut that strips lets go without a sign; it may have started on the day it was tightened.
    Formula: nut proof load >= bolt's least tensile strength, or a pairing that the standard names: grade 5
        nut with grade 5 bolt, 8 with 8; class 8 with 8.8, 10 with 10.9; a stronger nut serves a weaker bolt.
        A nut without marks counts as grade 2 (metric: class 5).
    Remedy: The nut grade that goes with the bolt.
    Hazard: The joint comes apart under load.
    Wrong:
        parts:
          - {id: b, kind: bolt, size: 1/2-13 x 2 in, grade: 8}
          - {id: n, kind: nut, thread: 1/2-13, grade: 5}
        bolted_joints:
          - {id: bracket, bolt: b, nut: n}
    Right:
        parts:
          - {id: b, kind: bolt, size: 1/2-13 x 2 in, grade: 8}
          - {id: n, kind: nut, thread: 1/2-13, grade: 8}
        bolted_joints:
          - {id: bracket, bolt: b, nut: n}
    """
    nut, bolt = place.nut, place.bolt
    if bolt is None or nut is None or nut.kind != "nut" or not (place.grade.known or nut.grade.known):
        return None
    bolts, nuts = place.strength.rows, data.nut_rows(place.tables, nut.grade, place.thread)
    serves = {_serves(row, other) for row in nuts for other in bolts}
    truth = None if len(serves) != 1 else serves.pop()
    check = same(truth, nut.grade, place.grade).stop(
        "'{joint}': the {nut} is {mark} and has to hold at {proof}, but the {bolt}, {grade}, breaks only at "
        "{tensile}: the nut strips first.",
        joint=place.name, nut=nut, bolt=bolt, mark=_called(nuts, nut.grade), proof=_stress(nuts, "proof_mpa"),
        grade=_called(bolts, place.grade), tensile=_stress(bolts, "tensile_mpa"),
    )  # fmt: skip
    check.because("Stripping gives no sign: a bolt that breaks while it is tightened at least tells.")
    check.at(nut, "grade").about(bolt, nut).danger(COMES_APART)
    return check.fix(lambda: _stronger_nut(place))


def _serves(nut: dict[str, Any], bolt: dict[str, Any]) -> bool:
    """Whether a row of the nut table is strong enough for a row of the bolt table."""
    if nut["system"] == bolt["system"] and _class_of(str(bolt["mark"])) in nut["serves"]:
        return True
    return float(nut["proof_mpa"]) >= float(bolt["tensile_mpa"])


def _class_of(mark: str) -> str:
    """Stainless that is marked with its alloy alone counts as the softest class."""
    if mark not in data.SOFTEST_STAINLESS:
        return mark
    return f"{'A4' if mark == '316' else mark if mark.startswith('A') else 'A2'}-50"


def _stronger_nut(place: JointPlace) -> Iterator[Remedy]:
    """The weakest nut that serves every bolt this one may be."""
    bolts = place.strength.rows
    system = "SAE" if place.thread.inch else "ISO"
    if bolts and all(row["system"] == "stainless" for row in bolts):
        system = "stainless"
    rows = [
        row
        for row in data.nut_rows(place.tables, Grade.unknown, place.thread)
        if row["system"] == system and all(_serves(row, bolt) for bolt in bolts)
    ]
    best = min(rows, key=lambda row: float(row["proof_mpa"]), default=None)
    if best is None:
        yield Remedy("ask the bolt's maker which nut belongs to it", field=f"{place.nut.id}.grade",
                     operation="replace")  # fmt: skip
        return
    yield Remedy(
        "fit nuts of {target} or better, thread {thread}: {look}",
        field=f"{place.nut.id}.grade", relation="at least", target=_name(best), thread=place.thread,
        look=best.get("look_for", ""),
    )  # fmt: skip


def _name(row: dict[str, Any]) -> str:
    """ "grade 5", "class 8", "A2-70"."""
    return {"SAE": "grade ", "ISO": "class "}.get(str(row["system"]), "") + str(row["mark"])


def _called(rows: list[dict[str, Any]], grade: Any) -> str:
    """The grade that its rows settle, else as typed."""
    names = {_name(row) for row in rows}
    text = str(grade.text)
    if len(names) == 1 and grade.marked:
        return names.pop()
    return f"without marks ({' or '.join(sorted(names))})" if grade.known and not grade.marked else text


def _stress(rows: list[dict[str, Any]], column: str) -> Interval:
    values = [float(row[column]) for row in rows if column in row] or [0.0]
    return Interval(min(values), max(values), "MPa")


# ---- coating in the thread ---------------------------------------------------------------------


@rule(
    "coated-threads",
    on=JointPlace,
    reads=[*THREADS, "stud.length", "wheel-bolt.length", "u-bolt.length", "bolt.finish", "nut.finish",
           "tapped.coated", "tapped.thread"],
    basis=practice("powder coat, paint and zinc fill a thread: chase it, or use a nut tapped oversize"),
)  # fmt: skip
def coated_threads(place: JointPlace) -> Iterator[Check]:
    """Threads are free of powder coat and paint, and a galvanized bolt has a nut that was tapped for it.

    Why: A coat of 0.1 mm takes up the whole play of a thread: the bolt binds, the torque goes into friction
        and the joint is not clamped.
    Remedy: Chase the thread with the tap of its own size (no drill); for a hot-dip galvanized bolt a
        galvanized nut, which is tapped oversize.
    Wrong:
        parts:
          - {id: b, kind: bolt, size: 1/2-13 x 2 in}
        bolted_joints:
          - {id: arm to frame, bolt: b, tapped: {thread: 1/2-13, depth: 3/4 in, coated: powder}}
    Right:
        parts:
          - {id: b, kind: bolt, size: 1/2-13 x 2 in}
        bolted_joints:
          - {id: arm to frame, bolt: b, tapped: {thread: 1/2-13, depth: 3/4 in, coated: bare}}
    """
    if place.tapped is not None and place.first and place.tapped.says("coated"):
        yield _coated_hole(place)
    for part in (place.bolt, place.nut):
        if part is not None and part.kind in ("bolt", "nut") and part.has("finish"):
            yield _coated_part(place, part)
    pair = [part.kind for part in (place.bolt, place.nut) if part is not None]
    if pair == ["bolt", "nut"]:
        yield from _galvanized_bolt(place)


def _coated_hole(place: JointPlace) -> Check:
    tapped = place.tapped
    coat = tapped.coated
    truth = None if coat is UNKNOWN_WORD else coat not in COATS_THREAD
    check = same(truth, coat, "bare").caution(
        "'{joint}': the tapped hole {thread} is coated{coat}: the bolt binds in it.",
        joint=place.name, thread=_hole_thread(place), coat="" if coat == "coated" else f" ({coat})",
    )  # fmt: skip
    check.because("The torque then goes into friction in the coat, not into clamping.")
    return check.at(tapped, "coated").fix(lambda: _chase(place, "hole", f"{tapped.id}.coated"))


def _hole_thread(place: JointPlace) -> Any:
    thread = place.tapped.thread if place.tapped is not None else place.thread
    return thread if thread.known else place.thread


def _chase(place: JointPlace, what: str, field: str) -> Iterator[Remedy]:
    thread = _hole_thread(place) if what == "hole" else place.thread
    tool = "die" if what == "bolt" else "tap"
    yield Remedy(
        "chase the thread with a {callout} {tool} by hand, a drop of oil on it, half a turn back for every "
        "turn; no drill, which would take thread away. Blow it out, and run the bolt in by hand over its "
        "whole length",
        field=field, relation="equal to", target="bare", operation="shop", callout=thread.callout, tool=tool,
    )  # fmt: skip
    if what == "hole":
        yield Remedy("or, before a part is coated, plug its threads with a silicone plug or an old bolt",
                     operation="shop")  # fmt: skip


def _coated_part(place: JointPlace, part: Any) -> Check:
    """A bolt or nut that was powder coated with the part it belongs to."""
    check = same(part.finish != "powder coat", part.finish, "bare").caution(
        "'{joint}': the {part} is powder coated: its thread binds.", joint=place.name, part=part
    )
    check.because("The torque then goes into friction in the coat, not into clamping.")
    check.at(part, "finish").about(part)
    return check.fix(lambda: _chase(place, part.kind, f"{part.id}.finish"))


def _galvanized_bolt(place: JointPlace) -> Iterator[Check]:
    """Hot-dip zinc is thick: the nut of such a bolt is tapped oversize."""
    bolt, nut = place.bolt, place.nut
    if not (bolt.has("finish") and nut.has("finish")) or bolt.finish != "hot-dip galvanized":
        return
    check = same(nut.finish == bolt.finish, nut.finish, bolt.finish).caution(
        "'{joint}': the {bolt} is hot-dip galvanized and the {nut} is not ({have}): the zinc makes the "
        "thread too thick for an ordinary nut.",
        joint=place.name, bolt=bolt, nut=nut,
    )  # fmt: skip
    check.because("Nuts for galvanized bolts are tapped oversize; others bind or have to be forced.")
    check.at(nut, "finish").about(bolt, nut)
    yield check.fix(lambda: [
        Remedy("get hot-dip galvanized nuts, tapped oversize for galvanized bolts, thread {thread}",
               field=f"{nut.id}.finish", relation="equal to", target=bolt.finish, thread=place.thread),
        Remedy("or use zinc plated bolts, which fit ordinary nuts", field=f"{bolt.id}.finish",
               relation="equal to", target="zinc"),
    ])  # fmt: skip
