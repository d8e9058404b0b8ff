"""Length of bolts: out of the nut, thread where the nut needs it, not against the bottom of a hole."""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build import fastener_data as data
from partscheck.build.bolt_thread import thread_lengths
from partscheck.build.joint_places import (
    JOINT_LENGTH_READS,
    NUT_HEIGHT_READS,
    THREAD_READS,
    JointPlace,
)
from partscheck.formulas.grip import next_stock_length, unthreaded_length
from partscheck.notation.interval import INF, Interval, Quantity, least_of
from partscheck.rules.basis import practice, published, recalled
from partscheck.rules.check import Check, Remedy, at_least, at_most
from partscheck.rules.registry import rule
from partscheck.rules.targets import no_less, no_more

PAST_THE_NUT = (
    published("FAA AC 43.13-1B par. 7-37: at least one thread past the nut; secondary copy read"),
    published("Shigley, Mechanical Engineering Design, 9e, Ex 8-4: two threads; secondary copy read"),
)
THREAD_BEGINS = (
    recalled("ASME B18.2.1: LG = L - LT, LT = 2 d + 1/4 in, over 6 in 2 d + 1/2 in"),
    recalled("ISO 4014: thread length 2 d + 6, 12 or 25 mm; ISO 4017: threaded to the head"),
)
LETS_GO = (
    "A nut that holds on half its thread strips. Where the joint carries an axle, an arm, the coupler or a "
    "rack, follow the part makers' instructions and local codes."
)
SEEMS_TIGHT = (
    "The bolt seems tight and clamps nothing: the joint is loose from the first mile. Where it carries an "
    "axle, an arm, the coupler or a rack, follow the part makers' instructions and local codes."
)
TWO_THREADS = 2.0
MOST_WASHERS = 2  # under one nut or head (common practice)


# ---- out of the nut ----------------------------------------------------------------------------


@rule(
    "bolt-too-short",
    on=JointPlace,
    reads=[*JOINT_LENGTH_READS, *NUT_HEIGHT_READS, *THREAD_READS],
    basis=PAST_THE_NUT,
    after=["thread-mismatch"],
)
def bolt_too_short(place: JointPlace) -> Check | None:
    """A bolt goes right through its nut: flush at least, one thread past a nylon insert.

    Why: Threads of the nut that the bolt does not fill carry nothing, and a nylon insert that is not passed
        does not lock.
    Formula: length >= stack + washers + nut height (+ 1 pitch past a nylon insert), else stop; + 2 pitches,
        else caution.
    Remedy: The next stock length.
    Hazard: The nut strips.
    Wrong:
        parts:
          - {id: b, kind: bolt, size: 1/2-13 x 2 in}
          - {id: n, kind: nut, thread: 1/2-13, height: 7/16 in, locking: none}
        bolted_joints:
          - {id: bracket, bolt: b, nut: n, stack: [{thickness: 1 in}, {thickness: 5/8 in}]}
    Right:
        parts:
          - {id: b, kind: bolt, size: 1/2-13 x 2-1/4 in}
          - {id: n, kind: nut, thread: 1/2-13, height: 7/16 in, locking: none}
        bolted_joints:
          - {id: bracket, bolt: b, nut: n, stack: [{thickness: 1 in}, {thickness: 5/8 in}]}
    """
    if place.bolt is None or place.nut is None:
        return None
    flush = place.grip + place.washers_thickness + place.nut_height
    least = flush + place.pitch if place.nylon else flush
    usual = flush + place.pitch * TWO_THREADS
    check = at_least(place.length, least)
    good = at_least(place.length, usual)
    if check.fails:
        check.stop(
            "'{joint}': the {bolt} is {have} long; through stack, washers and nut{insert} it has to be "
            "{need}: {by} too short.",
            joint=place.name, bolt=place.bolt,
            insert=", and one thread past the nylon insert," if place.nylon else "",
        )  # fmt: skip
    elif check.holds and good.fails:
        check = good.caution(
            "'{joint}': the {bolt} is {have} long and stands out of its nut by less than two threads; {need} "
            "would be right, it is {by} short of that.",
            joint=place.name, bolt=place.bolt,
        )  # fmt: skip
    if check.unsure and place.nut_height.is_exact and _hangs_on_washers(place):
        check.ask(
            "'{joint}': whether the {bolt}, {have}, is long enough hangs on how thick the washers are: {need} is "
            "needed. Make each washer a line in parts, with its measured thickness, and name the line here.",
            joint=place.name, bolt=place.bolt,
        )  # fmt: skip
    check.because("The first thread of a bolt is a chamfer and carries nothing; lengths vary a little too.")
    check.at(place.bolt, place.size_field).about(place.bolt, place.nut).danger(LETS_GO)
    return check.fix(lambda: _longer(place, usual))


def _hangs_on_washers(place: JointPlace) -> bool:
    """Washers that are named by a word have the range of their standard; nothing else is open."""
    worded = any(washer.line is None for washer in place.washers.values())
    return worded and place.length.known and place.grip.known


def _longer(place: JointPlace, usual: Interval) -> Iterator[Remedy]:
    if usual.hi < INF:
        stock = next_stock(place, usual.hi)
        yield Remedy(
            "use bolts {thread} x {target}, the next stock length{thread_note}"
            if isinstance(stock, Quantity) else "use bolts {thread}, {target} long at least",
            field=f"{place.bolt.id}.{place.length_field}", relation="at least",
            target=stock, thread=place.thread, thread_note=_thread_note(place, stock),
        )  # fmt: skip
    if place.nylon:
        yield from _lower_nut(place)


def next_stock(place: JointPlace, length: float) -> Interval:
    """The next length sold, as it is asked for; else the length itself, rounded up."""
    sold = dict(data.stock_lengths(place.tables, place.thread))
    found = next_stock_length(length - data.SAME_SIZE, sold)
    if found is None:
        return no_less(length)
    return Quantity(found, found, "mm", sold[found], "inch" if place.thread.inch else "metric")


def _thread_note(place: JointPlace, stock: Interval) -> str:
    """A longer bolt may have its thread too far out: then it has to be threaded further."""
    lengths = thread_lengths(place)
    if lengths is None or lengths[0] < 0 or not place.grip.known:
        return ""
    begins = unthreaded_length(stock.lo, lengths[0], place.pitch.mid)
    clamped = place.grip.lo + place.washers_thickness.lo
    return "" if begins <= clamped else ", threaded to the head: the usual thread would begin too far out"


def _lower_nut(place: JointPlace) -> Iterator[Remedy]:
    """A plain nut is lower than one with an insert."""
    height = data.nut_heights(place.tables, place.thread, "hex")
    need = place.grip + place.washers_thickness + height + place.pitch * TWO_THREADS
    if height.known and at_least(place.length, need).holds:
        yield Remedy(
            "or plain hex nuts, {target} high, with thread locker in place of the nylon insert",
            field=f"{place.nut.id}.height", relation="at most", target=height,
        )  # fmt: skip


# ---- thread for the nut ------------------------------------------------------------------------


@rule(
    "bolt-runs-out-of-thread",
    on=JointPlace,
    reads=[*JOINT_LENGTH_READS, *NUT_HEIGHT_READS, *THREAD_READS, "tapped.depth"],
    basis=THREAD_BEGINS,
    after=["thread-mismatch"],
)
def bolt_runs_out_of_thread(place: JointPlace) -> Check | None:
    """The thread of a bolt begins inside its stack, so that the nut (or the tapped hole) can clamp it.

    Why: A nut that reaches the plain shank is tight on the bolt, not on the parts.
    Formula: greatest unthreaded length (LG = L - LT) <= stack + washers. LT = 2 d + 1/4 in (1/2 in over 6
        in); metric 2 d + 6, 12 or 25 mm, or threaded to the head, which the marking does not tell.
    Remedy: Washers; a bolt with more thread; a shorter one where the nut is still filled.
    Hazard: The bolt seems tight and clamps nothing.
    Wrong:
        parts:
          - {id: b, kind: bolt, size: 1/2-13 x 3 in}
          - {id: n, kind: nut, thread: 1/2-13}
        bolted_joints:
          - {id: bracket, bolt: b, nut: n, stack: [{thickness: 3/4 in}, {thickness: 3/4 in}]}
    Right:
        parts:
          - {id: b, kind: bolt, size: 1/2-13 x 2-1/2 in}
          - {id: n, kind: nut, thread: 1/2-13}
        bolted_joints:
          - {id: bracket, bolt: b, nut: n, stack: [{thickness: 3/4 in}, {thickness: 3/4 in}]}
    """
    taken = place.nut is not None or place.tapped is not None
    if place.bolt is None or not taken or not place.stack or not place.size.known:
        return None
    if thread_lengths(place) is None:
        return None  # a stud, a U-bolt or an unusual head: nothing says where its thread begins
    clamped = place.grip + place.washers_thickness
    check = at_most(place.unthreaded, clamped).stop(
        "'{joint}': the thread of the {bolt} begins up to {have} under the head, but head and {taker} are "
        "only {need} apart: the thread ends {by} before the joint is tight.",
        joint=place.name, bolt=place.bolt, taker="nut" if place.nut is not None else "tapped hole",
    )  # fmt: skip
    if check.unsure and _hangs_on_washers(place) and place.unthreaded.is_exact:
        check.ask(
            "'{joint}': whether the thread of the {bolt} begins soon enough, {have} under the head, hangs on how "
            "thick the washers are: {need} is clamped. Make each washer a line in parts, with its measured "
            "thickness, and name the line here.",
            joint=place.name, bolt=place.bolt,
        )  # fmt: skip
    check.because("The torque then wedges the nut on the shank, and the parts stay loose.")
    check.at(place.bolt, "thread_length" if place.bolt.says("thread_length") else "size")
    check.about(place.bolt, place.nut).danger(SEEMS_TIGHT)
    return check.fix(lambda: _more_thread(place, clamped))


def _more_thread(place: JointPlace, clamped: Interval) -> Iterator[Remedy]:
    lack = place.unthreaded.hi - clamped.lo
    shorter = [*_shorter_bolt(place, clamped), *_more_washers(place, lack)]
    yield from shorter
    full = "bolts threaded to the head" if place.thread.inch else "fully threaded bolts (ISO 4017)"
    yield Remedy(
        ("or " if shorter else "")
        + "use {full} of this size: the thread then crosses the shear plane, and its root carries the load",
        field=f"{place.bolt.id}.thread_length", relation="at least",
        target=no_less(place.length.hi - clamped.lo), full=full,
    )  # fmt: skip


def _shorter_bolt(place: JointPlace, clamped: Interval) -> Iterator[Remedy]:
    """The longest stock length whose thread begins inside the stack and that still fills the nut."""
    lengths = thread_lengths(place)
    if place.nut is None or lengths is None or lengths[0] < 0:
        return
    least = clamped.hi + place.nut_height.hi + place.pitch.hi * TWO_THREADS
    fits = [
        (length, text)
        for length, text in data.stock_lengths(place.tables, place.thread)
        if length >= least - data.SAME_SIZE
        and unthreaded_length(length, lengths[0], place.pitch.mid) <= clamped.lo + data.SAME_SIZE
    ]
    if fits:
        length, text = fits[0]
        system = "inch" if place.thread.inch else "metric"
        yield Remedy(
            "use bolts {thread} x {target}: their thread begins inside the stack and still fills the nut",
            field=f"{place.bolt.id}.size", relation="at most",
            target=Quantity(length, length, "mm", text, system), thread=place.thread,
        )  # fmt: skip


def _more_washers(place: JointPlace, lack: float) -> Iterator[Remedy]:
    """Flat washers as packing, while the bolt still fills its nut."""
    each = data.washer_thickness(place.tables, place.thread, "sae" if place.thread.inch else "iso")
    if place.nut is None or not each.known or lack == INF:
        return
    count = int(-(-(lack - data.SAME_SIZE) // each.lo))
    room = place.length.lo - place.grip.hi - place.washers_thickness.hi - place.nut_height.hi
    already = 1 if place.washer("nut") is not None else 0
    if count + already <= MOST_WASHERS and count * each.hi <= room:
        yield Remedy(
            "put {count} more flat washer{s} under the nut, {target} in all at least",
            field="washers.nut", relation="at least", target=no_less(lack), operation="add", count=count,
            s="" if count == 1 else "s",
        )  # fmt: skip


# ---- the bottom of a hole ----------------------------------------------------------------------


@rule(
    "bolt-bottoms-in-tapped-hole",
    on=JointPlace,
    reads=[*JOINT_LENGTH_READS, *THREAD_READS, "tapped.depth", "tapped.drill_depth", "tapped.through"],
    basis=practice("a bolt ends before the full thread of a blind hole does"),
    after=["thread-mismatch"],
)
def bolt_bottoms_in_tapped_hole(place: JointPlace) -> Check | None:
    """A bolt ends before the thread and the bottom of a blind tapped hole do.

    Why: A bolt that stands on the bottom takes the torque and clamps nothing.
    Formula: length - stack - washers < depth of full thread, and < drill_depth. A hole that goes right
        through has no bottom (`through: true`).
    Remedy: A shorter bolt, washers, or a deeper hole.
    Hazard: The bolt seems tight and clamps nothing.
    Wrong:
        parts:
          - {id: b, kind: bolt, size: M10 x 40}
        bolted_joints:
          - id: lid
            bolt: b
            tapped: {thread: M10, depth: 20 mm, through: false}
            stack: [{thickness: 12 mm}]
    Right:
        parts:
          - {id: b, kind: bolt, size: M10 x 30}
        bolted_joints:
          - id: lid
            bolt: b
            tapped: {thread: M10, depth: 20 mm, through: false}
            stack: [{thickness: 12 mm}]
    """
    tapped = place.tapped
    if place.bolt is None or tapped is None or not place.stack or not place.size.known:
        return None
    if tapped.has("through") and tapped.through:
        return None
    depth, field = tapped.depth, "depth"
    if tapped.has("drill_depth") and tapped.drill_depth.hi < depth.hi:
        depth, field = least_of(depth, tapped.drill_depth), "drill_depth"
    entering = place.length - place.grip - place.washers_thickness
    check = _under(entering, depth)
    if check.fails and not tapped.has("through"):
        tapped.through  # noqa: B018 - asks for it: a hole that goes through has no bottom
        check.truth = None
    touches = check.margin is not None and abs(check.margin.lo) < data.SAME_SIZE
    check.stop(
        "'{joint}': {have} of the {bolt} enters the tapped hole, which is only {need} deep: it "
        + ("meets the bottom just where it should begin to clamp." if touches
           else "stands on the bottom {by} before it clamps."),
        joint=place.name, bolt=place.bolt,
    )  # fmt: skip
    check.because("The torque then presses the bolt into the bottom; the parts under its head stay loose.")
    check.at(tapped, field).about(place.bolt).danger(SEEMS_TIGHT)
    return check.fix(lambda: _off_the_bottom(place, entering, depth))


def _under(have: Interval, limit: Interval) -> Check:
    """have < limit: at the limit the bolt already touches."""
    check = at_most(have, limit)
    touches = check.margin
    if touches is not None and abs(touches.hi) < data.SAME_SIZE:
        check.truth = False
    elif check.holds and touches is not None and touches.lo < data.SAME_SIZE:
        check.truth = None
    return check


def _off_the_bottom(place: JointPlace, entering: Interval, depth: Interval) -> Iterator[Remedy]:
    most = place.grip.lo + place.washers_thickness.lo + depth.lo - place.pitch.hi
    sold = [one for one in data.stock_lengths(place.tables, place.thread) if one[0] <= most + data.SAME_SIZE]
    if sold:
        length, text = sold[-1]
        system = "inch" if place.thread.inch else "metric"
        engaged = length - place.grip.hi - place.washers_thickness.hi
        if engaged > 0:
            yield Remedy(
                "use bolts {thread} x {target}: {engaged} of thread is then engaged, a pitch off the bottom",
                field=f"{place.bolt.id}.{place.length_field}", relation="at most", thread=place.thread,
                target=Quantity(length, length, "mm", text, system), engaged=no_more(engaged),
            )  # fmt: skip
    deeper = no_less(entering.hi + place.pitch.hi)
    yield Remedy(
        "or drill and tap deeper, full thread to {target}, where there is metal for it",
        field=f"{place.tapped.id}.depth", relation="at least", target=deeper, operation="shop",
    )  # fmt: skip
    yield Remedy(
        "or cut the bolts shorter by {cut}, and dress the end so that it starts cleanly",
        field=f"{place.bolt.id}.length", relation="at most", target=no_more(most), operation="shop",
        cut=no_less(place.length.hi - most),
    )  # fmt: skip
