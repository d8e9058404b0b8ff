"""Threads to tap, and threads to clear of paint before a bolt goes in."""

from __future__ import annotations

from partscheck.build import fastener_data as data
from partscheck.notation.words import UNKNOWN_WORD
from partscheck.rules.basis import practice
from partscheck.rules.joint_threads import COATS_THREAD
from partscheck.uses.shop.drilling import all_pieces, joints
from partscheck.uses.shop.sheet import FROM_LIST, Section, Step, basis_of
from partscheck.uses.shop.sizes import drill_name, drills, named

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import Any

    from partscheck.build.joint_places import JointPlace
    from partscheck.engine import Result
    from partscheck.notation.thread import Thread

TAPPING = practice("cutting and clearing threads by hand")
PITCH_RULE = practice("tap drill = nominal diameter less pitch, about 77 % of thread")
HAZARD = (
    "A tap that breaks leaves splinters: eye protection, and never a power drill on a tap. A thread that was "
    "cut too large, or torn, lets go under load."
)
BY_HAND = "By hand, a drop of oil, half a turn back for every turn. Blow it out, eyes covered."
THREADS = ("joint_threads", "joint_length", "tapped_holes", "joint_strength")
TAP_WIDER = 1.04  # how much wider than diameter less pitch a drill may be


def section(result: Result) -> Section:
    steps = [step for place in joints(result) for step in _joint(place)]
    steps += [_arm(arm, result) for arm in result.build.of_kind("suspension-arm") if _threaded(arm)]
    return Section("tap", "Tap or chase threads", steps, (), HAZARD, (TAPPING,))


def _joint(place: JointPlace) -> Iterator[Step]:
    tapped = place.tapped
    if tapped is not None:
        yield _chase_hole(place) if _coated(tapped) else _tap(place)
    for part in (place.bolt, place.nut):
        if (
            part is not None
            and part.kind in ("bolt", "nut")
            and part.has("finish")
            and part.finish == "powder coat"
        ):
            tool = f"{place.thread.callout} {'die' if part.kind == 'bolt' else 'tap'}"
            yield (
                Step(
                    "clear the powder coat out of the thread of the {part} with a {tool}.",
                    (part,),
                    place.at,
                    part=part,
                    tool=tool,
                )
                .more(BY_HAND)
                .by(TAPPING)
                .take(tool)
                .minds(*THREADS, settles=("coated-threads",))
            )


def _coated(tapped: Any) -> bool:
    return bool(tapped.says("coated")) and (tapped.coated is UNKNOWN_WORD or tapped.coated in COATS_THREAD)


def _thread(place: JointPlace) -> Thread:
    thread: Thread = place.tapped.thread
    return thread if thread.known else place.thread


def _chase_hole(place: JointPlace) -> Step:
    thread, tapped = _thread(place), place.tapped
    look = "if you see a coat in them: " if tapped.coated is UNKNOWN_WORD else ""
    coat = "" if tapped.coated in (UNKNOWN_WORD, "coated") else f" ({tapped.coated})"
    step = Step(
        look + "chase the threads {thread} of '{joint}'{coat}: {count}.",
        (place.bolt,),
        place.at,
        thread=thread.callout,
        joint=place.name,
        coat=coat,
        count=all_pieces(place, "holes"),
    )
    step.more(f"{_named_tap(place, thread)}. {BY_HAND} No drill: it would take thread away.")
    step.more("Then each bolt runs in with the fingers over its whole length.")
    return step.by(TAPPING, FROM_LIST).take(_named_tap(place, thread)).minds(*THREADS, settles=("coated-threads",))


def _named_tap(place: JointPlace, thread: Thread) -> str:
    row = data.tap_of(place.tables, thread) if thread.known else None
    if row is not None:
        return f"Tap {row['tap']}"
    return f"Tap {thread.callout}" if thread.known else "The tap of the bolt's own thread"


def _tap(place: JointPlace) -> Step:
    thread, tapped = _thread(place), place.tapped
    step = Step(
        "tap the holes {thread} of '{joint}': {count}.",
        (place.bolt,),
        place.at,
        thread=thread.callout if thread.known else "of the bolt's thread",
        joint=place.name,
        count=all_pieces(place, "holes"),
    ).by(TAPPING)
    _tap_drill(step, place, thread)
    if tapped.has("through") and tapped.through:
        step.more("Right through.")
    elif tapped.has("drill_depth"):
        step.more("Drill {deep} deep, its cone not counted.", deep=tapped.drill_depth).by(FROM_LIST)
    if tapped.has("depth"):
        step.more("Full thread {depth} deep.", depth=tapped.depth).by(FROM_LIST)
    step.more(BY_HAND)
    step.more("A hole that came with its thread is only tried: the bolt runs in with the fingers, else chase it.")
    return step.take(_named_tap(place, thread)).minds(*THREADS)


def _tap_drill(step: Step, place: JointPlace, thread: Thread) -> None:
    """The drill of the table; for a thread that it has not, the nearest to diameter less pitch."""
    if not thread.known:
        step.more("The thread is not on the list: measure the bolt with a thread gauge first.")
        return
    row = data.tap_of(place.tables, thread)
    if row is not None:
        drill = named(float(row["drill_mm"]), str(row["drill"]))
        step.more("Tap drill {drill}, {percent} % of thread.", drill=drill, percent=f"{row['percent_thread']:g}")
        step.by(basis_of(row)).take(f"drill bit {row['drill']}")
        return
    hole = thread.diameter.mid - thread.pitch.mid
    rows = drills(place.tables, hole, hole * TAP_WIDER, thread.inch)
    if rows:
        drill = named(float(rows[0]["diameter_mm"]), drill_name(rows[0]))
        step.more(
            "Tap drill {drill}: no table here has this thread, it is the diameter less the pitch.", drill=drill
        )
        step.take(f"drill bit {drill_name(rows[0])}").by(basis_of(rows[0]))
    else:
        step.more("Tap drill by the tap maker's sheet: no table here has this thread.")
    step.by(PITCH_RULE)


def _threaded(arm: Any) -> bool:
    return bool(arm.has("mount_thread"))


def _arm(arm: Any, result: Result) -> Step:
    thread = arm.mount_thread
    return (
        Step(
            "try a bolt in every mounting thread {thread} of the {arm}: it runs in with the fingers.",
            (arm,),
            result.fit.places_of(arm),
            arm=arm,
            thread=thread.callout,
        )
        .more(f"Where it binds, paint or powder is in it. Tap {thread.callout}. {BY_HAND}")
        .by(TAPPING, FROM_LIST)
        .take(f"Tap {thread.callout}")
        .minds("joint_threads")
    )
