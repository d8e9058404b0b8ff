"""Cone and cup of one series, and the spread of both bearings against the spindle that they run on."""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build.bearing_data import (
    NAME_READS,
    PLACES,
    SPINDLE_KINDS,
    cone_number,
    cone_part,
    cone_row,
    cup_number,
    cup_part,
    cup_row,
    cups_of,
    is_fraction,
    metric_key,
    spindle_of,
)
from partscheck.build.places import WheelEnd
from partscheck.notation.interval import INF, Interval, same_within
from partscheck.rules.basis import practice, published, recalled
from partscheck.rules.bearing_fits import BEARING_LOST
from partscheck.rules.check import EQUAL, Check, Remedy, all_of, at_least, at_most, same
from partscheck.rules.name_fits import HALF_STEP
from partscheck.rules.registry import rule
from partscheck.rules.targets import no_less, no_more

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

END_PLAY = (
    "Without end play, or with a nut that cannot be locked, the bearings seize or the hub comes off the spindle. "
    "Follow the instructions of the axle's and the hub's maker."
)


@rule(
    "bearing-cone-cup-pair",
    on=WheelEnd,
    reads=[*NAME_READS, "bearing.outside", "practice.name_differs"],
    basis=(
        recalled("series of ABMA inch designations; catalogue tables name the source of each"),
        published("Shigley, Mechanical Engineering Design, Fig. 11-15, for L44600 and 15000 (secondary copy "
                  "read)"),
    ),
)  # fmt: skip
def bearing_cone_cup_pair(end: WheelEnd) -> Iterator[Check]:
    """Cone and cup are of one series: one roller angle, one size.

    Why: Rollers touch a strange cup on an edge only, or do not go in; a bearing that looks assembled fails
        within miles.
    Formula: The cup is one that the table gives for the cone, or of the cone's series. A cone may run in several
        cups: then the hub's bore decides (bearing-cup-bore).
    Remedy: The cup that goes with the cone and fits the hub, or the cone that goes with the cup.
    Hazard: The bearing seizes; the wheel can come off.
    Wrong:
        - {kind: bearing, place: inner, cone: LM67048, cup: L44610}
    Right:
        - {kind: bearing, place: inner, cone: LM67048, cup: LM67010}
    """
    for place in PLACES:
        cone, cup = cone_part(end, place), cup_part(end, place)
        if cone is None or cup is None:
            continue
        check = _paired(end, place, cone, cup)
        if check is not None:
            yield _told_pair(end, place, cone, cup, check)


def _paired(end: WheelEnd, place: str, cone: Any, cup: Any) -> Check | None:
    """By both numbers; without the cup's, by its outside: only what no cup of the cone has is asked about."""
    first, second = cone_number(cone), cup_number(cup)
    if metric_key(first) and metric_key(second):
        return same(metric_key(first) == metric_key(second), first, second)
    row, other = cone_row(end, first), cup_row(end, second)
    if row is not None and other is not None:
        return same(second in row["cups"] or other["series"] == row["series"], first, second)
    if (row is not None and metric_key(second)) or (other is not None and metric_key(first)):
        return same(False, first, second)
    if row is None or second or not cup.has("outside"):
        return None
    typed = cup.outside
    differs = end.limits.name_differs.hi + HALF_STEP * is_fraction(typed) + same_within("mm")
    if any(abs(typed - one["outside_mm"]).lo <= differs for one in cups_of(end, place)):
        return same(True, first, typed)
    cup.cup  # noqa: B018 - asks for the number on the cup
    return same(None, first, typed)


def _told_pair(end: WheelEnd, place: str, cone: Any, cup: Any, check: Check) -> Check:
    numbers = {"first": cone_number(cone), "second": cup_number(cup)}
    rows = cups_of(end, place)
    runs_in = " or ".join(f"{one['key']} ({one['outside_mm']:g} mm)" for one in rows)
    if check.unsure:
        check.ask(
            "Cone {first} runs in cup {runs_in}; the {place} cup on the list is {outside} outside. Read the "
            "number on the cup.",
            runs_in=runs_in, place=place, outside=cup.outside, **numbers,
        )  # fmt: skip
    else:
        tail = "; cone {first} runs in " + runs_in if runs_in else ""
        check.stop("Cone {first} and cup {second} ({place} bearing) are no pair: they are of different series"
                   + tail + ".", place=place, **numbers)  # fmt: skip
    return (
        check.because("Rollers of another angle or size stand on an edge in a strange cup.")
        .fix(lambda: _pairs(end, rows, cone, cup))
        .danger(BEARING_LOST)
        .at(cup, "cup" if cup.has("cup") else "designation")
        .about(*([cone] if cone is cup else [cone, cup]))
    )


def _pairs(end: WheelEnd, rows: list[dict[str, Any]], cone: Any, cup: Any) -> Iterator[Remedy]:
    first, second = cone_number(cone), cup_number(cup)
    words = " or ".join(row["key"] for row in rows) or (first if metric_key(first) else "")
    if words:
        yield Remedy(
            "take cup {cups} for cone {first}, if the hub's bore is its size", field=f"{cup.id}.cup",
            relation=EQUAL, target=words.partition(" ")[0], cups=words, first=first,
        )  # fmt: skip
    cones = [row["key"] for row in end.tables.rows("bearing_cone") if second in row["cups"]]
    if metric_key(second):
        cones = [second]
    if cones:
        yield Remedy(
            "or take cone {cones} for cup {second}, if the journal is its size", field=f"{cone.id}.cone",
            relation=EQUAL, target=cones[0], cones=" or ".join(cones), second=second,
        )  # fmt: skip


# ---- the spread of the bearings ------------------------------------------------------------------

SPREAD_FIELDS = ("shoulder_to_thread", "shoulder_to_cotter")


@rule(
    "bearing-spread-mismatch",
    on=WheelEnd,
    reads=[
        "hub.cone_to_cone", *(f"{kind}.{name}" for kind in SPINDLE_KINDS for name in SPREAD_FIELDS),
        "spindle-washer.thickness", "practice.cone_overhang_most", "practice.shoulder_thread_spare",
        "practice.spindle_washer_least", "practice.castle_slot_nearest", "practice.castle_slot_farthest",
    ],
    basis=practice("geometry of the spindle; how much thread and overhang is left is practice"),
)  # fmt: skip
def bearing_spread_mismatch(end: WheelEnd) -> Iterator[Check]:
    """The spindle is as long as the hub's pair of bearings: the outer cone on its journal, the nut on thread.

    Why: Hubs of one bearing pair come in more than one length. On a spindle that is too long the nut runs out of
        thread before it sets the end play; on one that is too short the outer cone rides on the thread.
    Formula: From the shoulder, with c = cone_to_cone and the washer: shoulder_to_thread >= c - 2 mm (the cone's
        corner); shoulder_to_thread <= c + washer - 2 mm (thread to turn the nut on); the cotter hole 6 to
        20 mm beyond the washer, where the slots of a nut stand.
    Remedy: The hub that goes with the spindle, or the spindle with the hub.
    Hazard: The bearings seize or the hub comes off.
    Wrong:
        - {kind: axle, shoulder_to_thread: 80 mm}
        - {kind: hub, cone_to_cone: 72 mm}
    Right:
        - {kind: axle, shoulder_to_thread: 72 mm}
        - {kind: hub, cone_to_cone: 72 mm}
    """
    hub, spindle = end.hub, spindle_of(end, *SPREAD_FIELDS)
    if hub is None or spindle is None or not _spread_begun(end, hub, spindle):
        return
    spread, washer = hub.cone_to_cone, _washer(end)
    thread_fails = False
    if spindle.has("shoulder_to_thread") or not spindle.has("shoulder_to_cotter"):
        yield (thread := _on_thread(end, hub, spindle, spread, washer))
        thread_fails = thread.fails
    if spindle.has("shoulder_to_cotter") and not thread_fails:  # one cause, one stop
        yield _at_cotter(end, hub, spindle, spread, washer)


def _spread_begun(end: WheelEnd, hub: Any, spindle: Any) -> bool:
    """Both sides are typed; or one is, and bearings are on the list."""
    on_spindle = any(spindle.has(name) for name in SPREAD_FIELDS)
    if hub.has("cone_to_cone") and on_spindle:
        return True
    listed = any(cone_part(end, place) is not None for place in PLACES)
    return listed and (hub.has("cone_to_cone") or on_spindle)


def _washer(end: WheelEnd) -> Interval:
    """Thickness under the nut, mm: measured, or at least the usual one."""
    washer = end.part("spindle-washer")
    least = end.limits.spindle_washer_least.hi
    if washer is None:
        return Interval.exact(least, "mm")
    typed: Interval = washer.thickness
    return typed if washer.has("thickness") else typed.clipped(least, 3 * least)


def _on_thread(end: WheelEnd, hub: Any, spindle: Any, spread: Interval, washer: Interval) -> Check:
    start: Interval = spindle.shoulder_to_thread
    spare, over = end.limits.shoulder_thread_spare.hi, end.limits.cone_overhang_most.hi
    latest, soonest = spread + washer - spare, spread - over
    late, soon = at_most(start, latest), at_least(start, soonest)
    check = all_of(late, soon)
    named = {"hub": hub, "spindle": spindle, "spread": spread}
    if check is late:
        check.stop(
            "The bearings of the {hub} stand {spread} over both ends. The thread of the {spindle} begins {have} "
            "from the shoulder; to set the end play it must begin by {need}: the nut runs out of thread {by} "
            "too soon.",
            **named,
        )  # fmt: skip
    else:
        check.stop(
            "The bearings of the {hub} stand {spread} over both ends. The thread of the {spindle} begins {have} "
            "from the shoulder, {by} short of {need}: the outer cone stands on the thread.",
            **named,
        )  # fmt: skip
    return (
        check.because("The nut sets the end play of both bearings, and each cone needs its journal.")
        .fix(lambda: _other_spread(hub, spindle, start - washer + spare, start + over, latest, soonest))
        .danger(END_PLAY)
        .at(spindle, "shoulder_to_thread")
        .about(hub, spindle)
    )


def _at_cotter(end: WheelEnd, hub: Any, spindle: Any, spread: Interval, washer: Interval) -> Check:
    hole, face = spindle.shoulder_to_cotter, spread + washer
    nearest, farthest = end.limits.castle_slot_nearest.hi, end.limits.castle_slot_farthest.hi
    far, near = at_most(hole, face + farthest), at_least(hole, face + nearest)
    check = all_of(far, near)
    words = "beyond" if check is far else "short of"
    check.stop(
        "The bearings of the {hub} stand {spread} over both ends, so the slots of a spindle nut lie {from_} to "
        "{to} from the shoulder. The cotter hole of the {spindle} is at {have}, {by} " + words + " them.",
        hub=hub, spindle=spindle, spread=spread, from_=near.need, to=far.need,
    )  # fmt: skip
    return (
        check.because("A nut that cannot be locked at its end play turns off or tightens itself.")
        .fix(lambda: _other_spread(hub, spindle, hole - washer - farthest, hole - washer - nearest,
                                   face + farthest, face + nearest, "shoulder_to_cotter"))
        .danger(END_PLAY)
        .at(spindle, "shoulder_to_cotter")
        .about(hub, spindle)
    )  # fmt: skip


def _other_spread(
    hub: Any, spindle: Any, least: Interval, most: Interval, latest: Interval, soonest: Interval,
    field: str = "shoulder_to_thread",
) -> Iterator[Remedy]:
    """Hubs for this spindle, spindles for this hub."""
    if least.known and most.known and most.lo >= max(0.0, least.hi):
        from_, to = no_less(max(0.0, least.hi)), no_more(most.lo)
        yield Remedy(
            "take hubs made for this spindle: {from_} to {to} over both bearings", field=f"{hub.id}.cone_to_cone",
            relation=EQUAL, target=Interval(from_.lo, max(from_.lo, to.lo), "mm"), from_=from_, to=to,
        )  # fmt: skip
    if latest.lo > 0 and latest.lo != INF:
        from_, to = no_less(max(0.0, soonest.hi)), no_more(latest.lo)
        what = "thread begins" if field == "shoulder_to_thread" else "cotter hole lies"
        yield Remedy(
            "or a spindle whose " + what + " {from_} to {to} from the shoulder", field=f"{spindle.id}.{field}",
            relation=EQUAL, target=Interval(min(from_.lo, to.lo), max(from_.lo, to.lo), "mm"), from_=from_, to=to,
        )  # fmt: skip
