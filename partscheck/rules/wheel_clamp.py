"""Whether the lug nuts clamp a wheel hard enough to hold it by friction."""

from __future__ import annotations

import math
from collections.abc import Iterator

from partscheck.build.places import LugSet
from partscheck.build.weights import CORNER_LOAD_READS, shock_factor
from partscheck.build.wheel_data import loaded_radius
from partscheck.formulas.bolted_joint import clamp_slip_capacity, preload_from_torque
from partscheck.formulas.braking import brake_force_from_deceleration, brake_torque, force_at_circle
from partscheck.notation.interval import INF, Interval
from partscheck.notation.measure import read_quantity
from partscheck.notation.thread import Thread, read_thread
from partscheck.rules.basis import practice, published, recalled
from partscheck.rules.check import Check, Remedy, at_least
from partscheck.rules.registry import rule

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

MOST_STUDS = 8  # wheels of light trailers have no more

WHEEL_OFF = (
    "A clamp that is too small lets the studs be sheared off, and the wheel comes off. Follow the torque of "
    "the wheel's and the axle's makers, and check it again after the first 10, 25 and 50 miles."
)


@rule(
    "wheel-clamp",
    on=LugSet,
    reads=[
        *CORNER_LOAD_READS, "service.surface", "hub.bolt_circle", "hub.stud_thread", "hub.hole_thread",
        "adapter.hub_circle", "adapter.wheel_circle", "adapter.stud_thread", "adapter.nut_torque",
        "wheel.bolt_circle", "wheel.nut_torque", "stud.thread", "lug-nut.thread", "wheel-bolt.thread",
        "tire.loaded_radius", "tire.diameter", "tire.size", "practice.loaded_radius_factor",
        "practice.wheel_nut_factor", "practice.wheel_lug_friction", "practice.wheel_preload_scatter",
        "practice.braking",
    ],
    basis=(
        practice("friction of the faces, braking, shock and scatter are practice limits"),
        published("Shigley, Mechanical Engineering Design 9e, ch. 8: T = K F d (secondary copy read)"),
        recalled("usual torque of wheel nuts by thread, where the list gives none"),
    ),
    after=["lug-thread-mismatch", "bolt-circle-mismatch"],
)  # fmt: skip
def wheel_clamp(lugs: LugSet) -> Check | None:
    """The clamp of the lug nuts carries the wheel's load and its braking by friction alone.

    Why: Wheel studs are to clamp, not to be pushed sideways: once the faces slip, the studs bend and break.
    Formula: preload F = T / (K d) of each nut; all n together hold n F mu (1 - scatter / sqrt(n)); needed is
        sqrt(V^2 + B^2) with V = k W, the wheel's load with the shock factor, and B = 2 W z r / D, the braking
        at the bolt circle, on braked wheels only. T as the maker asks, else the usual range for the thread.
    Remedy: The makers' full torque, more or larger studs, or less load.
    Hazard: The studs break one after another and the wheel comes off.
    Wrong:
        service: {gross_weight: 3500 kg, tongue_weight: 0, surface: gravel}
        parts:
          - {kind: hub, bolt_circle: 4 x 100 mm, stud_thread: M12x1.5}
          - {kind: wheel, bolt_circle: 4 x 100 mm, nut_torque: 60 N m}
          - {kind: lug-nut, thread: M12x1.5}
    Right:
        service: {gross_weight: 750 kg, tongue_weight: 0, surface: gravel}
        parts:
          - {kind: hub, bolt_circle: 4 x 100 mm, stud_thread: M12x1.5}
          - {kind: wheel, bolt_circle: 4 x 100 mm, nut_torque: 80 N m}
          - {kind: lug-nut, thread: M12x1.5}
    """
    thread, circle, load = lug_thread(lugs), _circle(lugs), lugs.end.corner_load
    if lugs.held is None or thread is None or circle is None or not load.known:
        return None
    braked = lugs.end.brake is not None
    if braked and lugs.end.tire is None:
        return None
    torque = lugs.held.nut_torque if lugs.held.has("nut_torque") else usual_torque(lugs, thread)
    if torque is None:
        return None
    need = _needed(lugs, load, circle, braked)
    each = _held_per_torque(lugs, thread, circle.count)
    check = _judge(lugs, torque, each, need)
    return (
        check.because("Once the faces slip, the studs are bent at every turn and break one after another.")
        .fix(lambda: _remedies(lugs, check, torque, each))
        .danger(WHEEL_OFF)
        .at(lugs.held, "nut_torque")
        .about(*lugs.parts)
    )


def _judge(lugs: LugSet, torque: Interval, each: float, need: Interval) -> Check:
    """With a torque on the list: does it hold.  With a usual range: which part of it holds."""
    names = {"held": lugs.held, "torque": torque, "count": _count_words(lugs)}
    if lugs.held.has("nut_torque"):
        return at_least((torque * each).with_unit("N"), need).caution(
            "{count} at {torque} hold the {held} with {have} of friction; its load and braking ask for "
            "{need}, {by} more.",
            **names,
        )
    check = at_least(Interval.exact(torque.hi * each, "N"), need).caution(
        "{count} hold the {held} with {have} of friction at the most that is usual for the thread ({most}); "
        "its load and braking ask for {need}, {by} more.",
        most=Interval.exact(torque.hi, "N m"), **names,
    )  # fmt: skip
    if check.holds and need.hi > torque.lo * each:
        least = Interval.exact(need.hi / each, "N m")
        check.note(
            "The {held} holds by friction when it is tightened to {least} or more; {torque} is usual for "
            "the thread. The wheel maker's torque governs.",
            least=least, **names,
        )  # fmt: skip
    return check


def _count_words(lugs: LugSet) -> str:
    circle = _circle(lugs)
    return f"{circle.count if circle is not None else 0} {'wheel bolts' if lugs.bolted else 'nuts'}"


def lug_thread(lugs: LugSet) -> Thread | None:
    """Thread of the studs or bolts, wherever the list gives it."""
    places = ((lugs.fastener, "thread"), (lugs.stud, "thread"), (lugs.base, "stud_thread"))
    if lugs.bolted:
        places = ((lugs.fastener, "thread"), (lugs.base, "hole_thread"))  # type: ignore[assignment]
    for part, name in places:
        if part is not None and name in part.fields and part.has(name):
            return getattr(part, name)  # type: ignore[no-any-return]
    return None


def _circle(lugs: LugSet) -> Any:
    """The circle that these nuts stand on, from either of the two faces."""
    base, held = lugs.base, lugs.held
    places = (
        (base, "wheel_circle" if base is not None and base.kind == "adapter" else "bolt_circle"),
        (held, "hub_circle" if lugs.hub_side else "bolt_circle"),
    )
    return next((getattr(part, name) for part, name in places if part is not None and part.has(name)), None)


def usual_torque(lugs: LugSet, thread: Thread) -> Interval | None:
    """The range that is usual for the thread, N m; None for a thread that is not in the table."""
    for row in lugs.tables.rows("lug_torque"):
        if read_thread(row["key"], lugs.tables).same_as(thread):
            ends = [read_quantity(f"{row[name]} ft-lb", "torque") for name in ("least_lbf_ft", "most_lbf_ft")]
            return Interval(ends[0].lo, ends[1].hi, "N m")
    return None


def _held_per_torque(lugs: LugSet, thread: Thread, count: int) -> float:
    """Friction of the whole set, N, for each N m of torque.  The scatter of n nuts evens out by sqrt(n)."""
    limits = lugs.limits
    preload = preload_from_torque(1.0, limits.wheel_nut_factor.hi, thread.diameter.hi)
    sure = 1 - limits.wheel_preload_scatter.hi / math.sqrt(count)
    return clamp_slip_capacity(preload * sure, count, limits.wheel_lug_friction.lo)


def _needed(lugs: LugSet, load: Interval, circle: Any, braked: bool) -> Interval:
    """Shear of the load with its shocks and braking round the circle, put together, N."""
    shear = load * shock_factor(lugs.build)
    if not braked:
        return shear
    radius = loaded_radius(lugs.end.tire, lugs)
    braking = lugs.limits.braking.hi
    round_circle = [
        _brake_force(weight, braking, arm, across)
        for weight, arm, across in (
            (load.lo, radius.lo, circle.diameter.hi),
            (load.hi, radius.hi, circle.diameter.lo),
        )
    ]
    return Interval(math.hypot(shear.lo, round_circle[0]), math.hypot(shear.hi, round_circle[1]), "N")


def _brake_force(load: float, braking: float, radius: float, circle: float) -> float:
    if radius == INF:
        return INF
    return force_at_circle(brake_torque(brake_force_from_deceleration(load, braking), radius), circle)


def _remedies(lugs: LugSet, check: Check, torque: Interval, each: float) -> Iterator[Remedy]:
    held, need = lugs.held, check.need.hi
    usual = torque if not held.has("nut_torque") else usual_torque(lugs, lug_thread(lugs) or Thread.unknown)
    least = Interval.exact(need / each, "N m")
    if usual is not None and least.hi <= usual.hi:
        yield Remedy(
            "tighten to {least} or more, if the makers of wheel and hub allow it",
            field=f"{held.id}.nut_torque", relation="at least", target=least, operation="declare",
            least=least,
        )  # fmt: skip
    circle = _circle(lugs)
    count = math.ceil(circle.count * need / check.have.lo)
    if count <= MOST_STUDS:
        yield Remedy(
            "take hubs and wheels with {count} or more studs of this size, or with larger studs", count=count
        )
    else:
        yield Remedy("take an axle, hubs and wheels that are made for this load")
    share = check.have.lo / need
    lighter = Interval.exact(lugs.end.corner_load.hi * share, "N")
    yield Remedy(
        "or load this wheel with no more than {lighter}", field="service.gross_weight", relation="at most",
        target=Interval.exact(lugs.build.service.gross_weight.hi * share, "N"), operation="declare",
        lighter=lighter,
    )  # fmt: skip
