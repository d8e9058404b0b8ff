"""Thread of wheel nuts and wheel bolts: is enough of it engaged, and does it end where it must."""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build.places import LugSet
from partscheck.build.stud_data import (
    entering_thread,
    full_engagement,
    has_studs,
    nut_thread,
    plain_tip,
    seat_height,
    sleeve,
    stud_length,
    stud_thread,
)
from partscheck.formulas.threads import (
    pitch_diameter,
    stress_area_iso,
    stress_area_un,
    stripping_engagement,
)
from partscheck.notation.interval import INF, Interval, least_of
from partscheck.rules.basis import practice
from partscheck.rules.check import AT_MOST, Check, Remedy, at_least, at_most
from partscheck.rules.registry import rule
from partscheck.rules.targets import no_less, no_more

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.notation.thread import Thread

WHEEL_OFF = (
    "Wheel nuts or bolts that do not hold let the wheel come off. Follow the instructions of the wheel's and "
    "the hub's maker and local codes; after mounting, check the torque again on the road."
)
STUD_FIELDS = [
    "hub.stud_length", "adapter.stud_length", "stud.length", "hub.stud_point", "adapter.stud_point",
    "wheel.seat_thickness", "adapter.nut_seat_thickness", "adapter.thickness", "spacer.thickness",
    "lug-nut.depth", "lug-nut.shank_length", "lug-nut.seat", "practice.seat_thickness_tolerance",
]  # fmt: skip
THREAD_FIELDS = [
    "hub.stud_thread", "adapter.stud_thread", "stud.thread", "lug-nut.thread", "adapter.hub_nut_thread",
]  # fmt: skip
BOLT_FIELDS = ["wheel-bolt.length", "wheel-bolt.thread", "hub.hole_depth", "hub.hole_thread"]


@rule(
    "stud-too-short-for-wheel",
    on=LugSet,
    reads=[*STUD_FIELDS, *THREAD_FIELDS, *BOLT_FIELDS, "practice.minimum_thread_engagement"],
    basis=practice("one nominal diameter of engaged thread, or the whole nut where its thread is shorter"),
)
def stud_too_short_for_wheel(lugs: LugSet) -> Check | None:
    """Enough thread is engaged in the wheel's nuts, or of its bolts in the hub.

    Why: Too few threads carry the whole clamp; they strip at the torque or on the road.
    Formula: stud_length - spacers - seat_thickness - unthreaded tip (+ shank_length inside the wheel)
        >= 1 x nominal diameter (practice), or the nut's whole thread where that is shorter. Wheel bolts:
        length - seat_thickness - spacers against the same, or the hub's hole_depth where that is less.
        A nut that is shorter than the length that strips before the stud breaks is noted.
        seat_thickness counts +- 2 mm unless a tolerance is typed.
    Remedy: Longer studs or bolts; without the slip-on spacer.
    Hazard: The wheel can come off.
    Wrong:
        - {kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, stud_length: 0.9 in}
        - {kind: wheel, bolt_circle: 5 x 4.5 in, seat_thickness: 0.6 in}
        - {kind: lug-nut, thread: 1/2-20, depth: 0.7 in}
    Right:
        - {kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, stud_length: 1.5 in}
        - {kind: wheel, bolt_circle: 5 x 4.5 in, seat_thickness: 0.6 in}
        - {kind: lug-nut, thread: 1/2-20}
    """
    if not _wheel_is_held(lugs) or not _lengths_are_the_subject(lugs):
        return None
    check = bolt_engagement(lugs) if lugs.bolted else engagement(lugs)
    if short_nut(lugs, check):
        return check
    owner, field = _owner(lugs)
    enters = left_of(check) + (" of thread enters the {base}" if lugs.bolted else " of thread enters the nut")
    return (
        check.stop(
            enters + " beyond the seat of the {held}, {need} is needed: too short by {upto}{by}.",
            base=lugs.base, held=lugs.held, upto=up_to(check),
        )
        .at(owner, field)
        .about(lugs.base, *lugs.between, lugs.held, lugs.fastener)
        .fix(lambda: longer(lugs))
        .danger(WHEEL_OFF)
    )  # fmt: skip


@rule(
    "stud-bottoms-in-nut",
    on=LugSet,
    reads=[
        *STUD_FIELDS, *BOLT_FIELDS, *THREAD_FIELDS, "lug-nut.closed", "practice.minimum_thread_engagement",
    ],
    basis=practice("a nut or bolt that reaches the end of its thread clamps nothing"),
)  # fmt: skip
def stud_bottoms_in_nut(lugs: LugSet) -> Check | None:
    """No stud reaches the end of a closed nut, and no wheel bolt the end of its hole, before it clamps.

    Why: The wrench turns hard and the torque is read, but the wheel is loose.
    Formula: stud_length - spacers - seat_thickness - unthreaded tip < depth of a closed nut. Wheel
        bolts: length - seat_thickness - spacers < hole_depth.
    Remedy: Open nuts or deeper ones; shorter bolts.
    Hazard: The wheel can come off.
    Wrong:
        - {kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, stud_length: 2 in}
        - {kind: wheel, bolt_circle: 5 x 4.5 in, seat_thickness: 0.5 in}
        - {kind: lug-nut, thread: 1/2-20, depth: 1 in, closed: true}
    Right:
        - {kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, stud_length: 2 in}
        - {kind: wheel, bolt_circle: 5 x 4.5 in, seat_thickness: 0.5 in}
        - {kind: lug-nut, thread: 1/2-20, depth: 1 in, closed: false}
    """
    if lugs.held is None or not thread_meets(lugs):
        return None
    if not lugs.bolted:
        return _stud_bottoms(lugs)
    return _bolt_bottoms(lugs) if lugs.base.has("hole_depth") else None


@rule(
    "nut-runs-out-of-stud-thread",
    on=LugSet,
    reads=[
        "hub.stud_thread_start", "adapter.stud_thread_start", "wheel.seat_thickness",
        "adapter.nut_seat_thickness", "adapter.thickness", "spacer.thickness", "lug-nut.shank_length",
        "lug-nut.seat", "practice.seat_thickness_tolerance",
    ],
    basis=practice("a nut stops where the full thread of its stud ends"),
)  # fmt: skip
def nut_runs_out_of_stud_thread(lugs: LugSet) -> Check | None:
    """The stud's full thread begins below the seat, so that the nut seats before it runs out of thread.

    Why: A nut that stops on the plain shoulder of its stud feels tight, and the wheel is loose.
    Formula: stud_thread_start <= spacers + seat_thickness (- shank_length inside the wheel).
    Remedy: Studs threaded further down.
    Hazard: The wheel can come off.
    Wrong:
        - {kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, stud_thread_start: 0.5 in}
        - {kind: wheel, bolt_circle: 5 x 4.5 in, seat_thickness: 0.2 in}
        - {kind: lug-nut, thread: 1/2-20}
    Right:
        - {kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, stud_thread_start: 0.1 in}
        - {kind: wheel, bolt_circle: 5 x 4.5 in, seat_thickness: 0.2 in}
        - {kind: lug-nut, thread: 1/2-20}
    """
    if lugs.base is None or lugs.held is None or lugs.bolted or not lugs.base.has("stud_thread_start"):
        return None
    check = at_most(lugs.base.stud_thread_start, seat_height(lugs) - sleeve(lugs))
    return (
        check.stop(
            "The studs of the {base} have full thread only from {have} beyond its face, the nuts seat at "
            "{need} in the {held}: they stop on the plain shoulder {upto}{by} before they clamp.",
            base=lugs.base, held=lugs.held, upto=up_to(check),
        )
        .because("The nut feels tight, and the wheel is loose.")
        .at(lugs.base, "stud_thread_start")
        .about(lugs.base, *lugs.between, lugs.held, lugs.fastener)
        .fix(lambda: [
            Remedy(
                "fit studs whose full thread begins {target} from the face or less. Never make up for it "
                "with washers under wheel nuts",
                field=f"{lugs.base.id}.stud_thread_start", relation="at most",
                target=no_more(check.need.lo),
            )
        ])
        .danger(WHEEL_OFF)
    )  # fmt: skip


# ---- engaged thread ----------------------------------------------------------------------------


def engagement(lugs: LugSet) -> Check:
    """Engaged thread of nuts: one diameter, or the whole nut where its thread is shorter.

    The nut's depth is looked at only when it is known or the stud does not give a full diameter.
    """
    entering, full = entering_thread(lugs), full_engagement(lugs)
    check = at_least(entering, full)
    nut = lugs.fastener
    if check.holds or nut is None or not (check.fails or nut.has("depth")):
        return check
    return at_least(entering, least_of(full, nut_thread(lugs)))


def short_nut(lugs: LugSet, check: Check) -> bool:
    """Adds a note where the whole nut is engaged, but strips before its stud breaks."""
    nut = lugs.fastener
    if not check.holds or nut is None or nut.kind != "lug-nut" or not nut.has("depth"):
        return False
    thread = stud_thread(lugs)
    if not thread.known:
        return False
    needed = _strips_below(thread)
    if nut_thread(lugs).hi >= needed:
        return False
    check.note(
        "The whole thread of the {nut} is engaged, but it is only {depth} deep: in a nut of the stud's "
        "strength about {needed} is needed to break the stud before the thread strips. Prefer deeper nuts.",
        nut=nut, depth=nut.depth, needed=Interval.exact(needed, "mm"),
    ).at(nut, "depth").about(lugs.base, lugs.held, nut).on_basis(
        practice("stripping on half the cylinder at the pitch line at 0.577 of the tensile strength")
    )  # fmt: skip
    return True


def _strips_below(thread: Thread) -> float:
    """Engaged length below which the thread strips before the stud breaks, mm; nut and stud alike."""
    diameter, pitch = thread.diameter.mid, thread.pitch.mid
    if thread.inch:
        area = stress_area_un(diameter, thread.threads_per_inch)
    else:
        area = stress_area_iso(diameter, pitch)
    return stripping_engagement(area, pitch_diameter(diameter, pitch))


def up_to(check: Check) -> str:
    """ "up to " where the values have a tolerance."""
    margin = check.margin
    return "" if margin is None or margin.is_exact or not margin.known else "up to "


def left_of(check: Check) -> str:
    """The place for what enters in a message, or a word where the thread does not even reach."""
    return "Nothing" if check.have.hi <= 0 else "{have}"


def bolt_engagement(lugs: LugSet) -> Check:
    """Engaged thread of wheel bolts: one diameter, or the hole's where that is shallower."""
    hub, full = lugs.base, full_bolt_engagement(lugs)
    need = least_of(full, hub.hole_depth) if hub.has("hole_depth") else full
    return at_least(bolt_enters(lugs), need)


def bolt_enters(lugs: LugSet) -> Interval:
    """How far a wheel bolt reaches into the hub, mm."""
    return lugs.fastener.length - seat_height(lugs)  # type: ignore[no-any-return]


def full_bolt_engagement(lugs: LugSet) -> Interval:
    """Engaged thread asked for by practice, mm, by the bolt's thread, else by the hub's."""
    thread = lugs.fastener.thread if lugs.fastener.has("thread") else lugs.base.hole_thread
    return thread.diameter * lugs.limits.minimum_thread_engagement  # type: ignore[no-any-return]


def _wheel_is_held(lugs: LugSet) -> bool:
    return lugs.held is not None and not lugs.hub_side and thread_meets(lugs)


def thread_meets(lugs: LugSet) -> bool:
    """Nuts on studs, or wheel bolts in a hub's holes; what does not go together is another rule's."""
    if lugs.base is None or lugs.fastener is None or (lugs.bolted and lugs.base.kind != "hub"):
        return False
    return has_studs(lugs) is not lugs.bolted


def _lengths_are_the_subject(lugs: LugSet) -> bool:
    """Whether the list says anything of lengths here: a plain hub, wheel and nuts are not asked."""
    if lugs.between or lugs.held.has("seat_thickness"):
        return True
    owner, field = _owner(lugs)
    return owner.has(field)  # type: ignore[no-any-return]


def _owner(lugs: LugSet) -> tuple[Any, str]:
    """The part that carries the thread, and the field of its length."""
    return (lugs.fastener, "length") if lugs.bolted else (lugs.base, "stud_length")


def longer(lugs: LugSet) -> Iterator[Remedy]:
    """Studs or bolts that are long enough."""
    owner, field = _owner(lugs)
    under = seat_height(lugs).hi
    if lugs.bolted:
        need = _known_end(full_bolt_engagement(lugs))
        room = lugs.base.hole_depth.lo if lugs.base.has("hole_depth") else INF
        least, most = under + min(need, room), seat_height(lugs).lo + room
        words = "fit wheel bolts {target} long or a little more, seat to tip"
        words += ", but under {most}" if least < most < INF else ""
    else:
        least = under + plain_tip(lugs).hi + _known_end(full_engagement(lugs)) - sleeve(lugs).lo
        most = INF
        words = "fit longer studs: at least {target} from the face of the {base}"
    if lugs.between:
        yield Remedy(
            "leave out the {spacers}, if the wheel then clears brake and frame",
            field=lugs.between[0].id, operation="remove", spacers=list(lugs.between),
        )  # fmt: skip
    yield Remedy(
        words, field=f"{owner.id}.{field}", relation="at least", target=no_less(least),
        base=lugs.base, most=no_more(most),
    )  # fmt: skip


def _known_end(value: Interval) -> float:
    """The upper end; nothing for a value that nobody knows (the thread is not typed)."""
    return 0.0 if value.hi == INF else value.hi


# ---- the end of the thread ---------------------------------------------------------------------


def _stud_bottoms(lugs: LugSet) -> Check | None:
    nut = lugs.fastener
    closed = nut.closed if nut.has("closed") else None
    if closed is False or not lugs.base.has("stud_length"):
        return None
    entering = stud_length(lugs) - seat_height(lugs) - plain_tip(lugs)
    check = _less_than(entering, nut.depth)
    if closed is None:
        if not check.fails:
            return None  # nobody is asked to look through a nut that the stud does not fill
        check.truth = nut.closed
    return (
        check.stop(
            "{have} of thread would enter a closed nut ({nut}) that is only {need} deep: the stud bottoms "
            "before the {held} is clamped.",
            nut=nut, held=lugs.held,
        )
        .because("The wrench turns hard and the torque is read, but the wheel is loose.")
        .at(nut, "depth")
        .about(lugs.base, *lugs.between, lugs.held, nut)
        .fix(lambda: _room_for_the_stud(lugs, entering))
        .danger(WHEEL_OFF)
    )  # fmt: skip


def _room_for_the_stud(lugs: LugSet, entering: Interval) -> Iterator[Remedy]:
    nut = lugs.fastener
    yield Remedy(
        "use open nuts of the same thread and seat",
        field=f"{nut.id}.closed",
        relation="equal to",
        target=False,
    )
    yield Remedy(
        "or closed nuts with more than {target} of thread",
        field=f"{nut.id}.depth", relation="at least", target=no_less(entering.hi + 1.0),
    )  # fmt: skip


def _bolt_bottoms(lugs: LugSet) -> Check:
    enters = bolt_enters(lugs)
    check = _less_than(enters, lugs.base.hole_depth)
    return (
        check.stop(
            "The wheel bolts reach {have} into the {base}, its thread or its room ends at {need}: they "
            "bottom, or strike what is behind, before the {held} is clamped.",
            base=lugs.base, held=lugs.held,
        )
        .because("The wrench turns hard and the torque is read, but the wheel is loose.")
        .at(lugs.fastener, "length")
        .about(lugs.base, *lugs.between, lugs.held, lugs.fastener)
        .fix(lambda: _shorter_bolts(lugs))
        .danger(WHEEL_OFF)
    )  # fmt: skip


def _shorter_bolts(lugs: LugSet) -> Iterator[Remedy]:
    under, hole = seat_height(lugs), lugs.base.hole_depth
    least = under.hi + min(full_bolt_engagement(lugs).hi, hole.lo)
    most = under.lo + hole.lo
    words = "fit wheel bolts shorter than {target}, seat to tip"
    words += ", but at least {least}" if least < most else ""
    yield Remedy(
        words, field=f"{lugs.fastener.id}.length", relation="at most", target=no_more(most),
        least=no_less(least),
    )  # fmt: skip


def _less_than(have: Interval, limit: Interval) -> Check:
    """``have`` < ``limit``: a stud that just reaches the end has already stopped the nut."""
    margin = limit - have
    close = 1e-3
    truth = True if margin.lo > close else False if margin.hi <= close else None
    return Check(truth, have, AT_MOST, limit, margin)
