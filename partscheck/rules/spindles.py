"""The spindle: what bends it, and the nut on its thread."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product

from partscheck.build.bearing_data import NAME_READS, SPINDLE_KINDS, cone_part, spindle_of, width_of
from partscheck.build.bearing_duty import TIRE_RADIUS_READS
from partscheck.build.bearing_planes import BEARING_PLANE_READS, bearing_plane
from partscheck.build.places import WheelEnd
from partscheck.build.weights import CORNER_LOAD_READS, shock_factor
from partscheck.build.wheel_data import load_plane, loaded_radius, wheel_offset
from partscheck.formulas.bearing import radial_split_cornering
from partscheck.formulas.spindle import bending_stress, diameter_needed, journal_moment, shoulder_moment
from partscheck.notation.interval import INF, Interval
from partscheck.notation.thread import near_miss
from partscheck.rules.basis import practice, recalled
from partscheck.rules.check import EQUAL, Check, Remedy, all_of, at_most, same
from partscheck.rules.registry import rule
from partscheck.rules.targets import no_less, no_more

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

BREAKS_OFF = (
    "A spindle that breaks takes the wheel with it. Fatigue, the notch at the shoulder and the weld are not "
    "checked here: follow the axle maker's instructions, and leave welding to a qualified welder."
)
BENDING_FIELDS = ("inner_journal", "outer_journal", "shoulder_to_face", "material")


# ---- bending -------------------------------------------------------------------------------------


@rule(
    "spindle-bending",
    on=WheelEnd,
    reads=[
        *(f"{kind}.{name}" for kind in SPINDLE_KINDS for name in BENDING_FIELDS), *CORNER_LOAD_READS,
        *TIRE_RADIUS_READS, *BEARING_PLANE_READS, *NAME_READS, "service.surface", "practice.side_force",
        "practice.spindle_safety",
    ],
    basis=(
        recalled("bending stress 32 M / (pi d^3) of any strength handbook; yield values of steel bars"),
        practice("shock factor of the surface; shock and bend are not taken together; safety"),
    ),
)  # fmt: skip
def spindle_bending(end: WheelEnd) -> Iterator[Check]:
    """The spindle does not bend at its shoulder, nor at the root of its outer journal.

    Why: An adapter or a wheel with less offset lengthens the lever on which the wheel's load bends the spindle.
    Formula: M = k W (shoulder_to_face - x), x the load plane; stress = 32 M / (pi d^3), d the inner journal (the
        small side of the fillet); against yield / 1.5. In a bend, without shock, the side force on the inside
        wheel adds its lever: M = W (shoulder_to_face - x + g r). At the inner end of the outer bearing
        M = R outer x lever, d the outer journal. Fatigue and welds are not checked.
    Remedy: Wheels with more offset, a thinner plate or none, or a heavier spindle.
    Hazard: A spindle that breaks takes the wheel with it.
    Wrong:
        service: {gross_weight: 2300 lb, tongue_weight: 0, surface: gravel}
        parts:
          - {kind: axle, inner_journal: 1.375 in, shoulder_to_face: 62 mm, material: "1045"}
          - {kind: hub}
          - {kind: adapter, thickness: 1.5 in}
          - {kind: wheel, offset: 0}
    Right:
        service: {gross_weight: 2300 lb, tongue_weight: 0, surface: gravel}
        parts:
          - {kind: axle, inner_journal: 1.375 in, shoulder_to_face: 62 mm, material: "1045"}
          - {kind: hub}
          - {kind: wheel, offset: 0}
    """
    spindle = spindle_of(end, "shoulder_to_face", "material", "inner_journal")
    if end.wheel is None or spindle is None or not _bending_begun(end, spindle):
        return
    checks = [_at_shoulder(end, spindle)]
    if _radius(end).known:
        checks.append(_at_shoulder(end, spindle, bend=True))
    if end.hub is not None and (outer := _at_outer(end, spindle)) is not None:
        checks.append(outer)
    doubtful = [check for check in checks if not check.holds]
    yield from [all_of(*doubtful)] if doubtful else checks  # one spindle, one cause: the worst speaks


def _bending_begun(end: WheelEnd, spindle: Any) -> bool:
    """Its lever or its steel is typed, or a plate lengthens the lever of a spindle whose journal is typed."""
    if spindle.has("shoulder_to_face") or spindle.has("material"):
        return True
    return bool(end.plates) and spindle.has("inner_journal")


def _at_shoulder(end: WheelEnd, spindle: Any, bend: bool = False) -> Check:
    shoulder, journal = spindle.shoulder_to_face, spindle.inner_journal
    side, radius = _bend(end) if bend else (0.0, Interval(0.0, 0.0, "mm"))
    shock = Interval.exact(1.0) if bend else shock_factor(end.build)

    def stress_at(plane: Interval) -> tuple[Interval, Interval]:
        spans = (end.corner_load, plane, shoulder, shock, radius)
        moment = _over(spans, lambda w, x, xs, k, r: shoulder_moment(w, x, xs, k, -side, r))
        return moment, _stress(moment, journal)

    moment, stress = stress_at(load_plane(end))
    bare = stress_at(wheel_offset(end.wheel, end))[1] if end.plates else None
    return _told(
        end, spindle, at_most(stress, _allowed(end, spindle)), moment, shock, "inner_journal",
        "in a bend of {g} g, on the inside wheel" if bend else "with a shock of {shock} times the load",
        "at its shoulder, {journal} thick,", bare,
    )  # fmt: skip


def _at_outer(end: WheelEnd, spindle: Any) -> Check | None:
    """At the inner end of the outer bearing; only where journal, width and both load centres are known."""
    part = cone_part(end, "outer")
    if part is None or not spindle.has("outer_journal"):
        return None
    width, inner, outer = width_of(end, "outer"), bearing_plane(end, "inner"), bearing_plane(end, "outer")
    if not (width.known and inner.known and outer.known and inner.lo > outer.hi):
        return None
    spread = end.limits.bearing_centre_spread.hi
    lean = abs(part.a - width * 0.5) if part.has("a") else Interval(0.0, spread, "mm")
    lever = (width * 0.5 + lean).hi
    side, radius = _bend(end)
    spans = (end.corner_load, load_plane(end), inner, outer, shock_factor(end.build), radius)

    def moment_at(w: float, x: float, xi: float, xo: float, k: float, r: float) -> float:
        bends = [abs(radial_split_cornering(w, x, xi, xo, one, r)[1]) for one in (side, -side)] if r else [0.0]
        straight = abs(radial_split_cornering(w, x, xi, xo, 0.0, 0.0)[1])
        return journal_moment(max(k * straight, *bends), 0.0, lever)

    moment = _over(spans, moment_at)
    check = at_most(_stress(moment, spindle.outer_journal), _allowed(end, spindle))
    return _told(
        end, spindle, check, moment, shock_factor(end.build), "outer_journal", "with shock or in a bend",
        "at the root of its outer journal, {journal} thick,",
    )  # fmt: skip


def _told(
    end: WheelEnd,
    spindle: Any,
    check: Check,
    moment: Interval,
    shock: Interval,
    field: str,
    when: str,
    where: str,
    bare: Interval | None = None,
) -> Check:
    safety = _yield(end, spindle) / check.have
    check.caution(
        "A moment of {moment} (" + when + ") bends the {spindle} " + where + " to {have}; its steel allows "
        "{need}: {by} too much. Its yield is {times} times the stress, {safety} times is wanted."
        + (" Without the {plates} the stress would be {bare}." if bare is not None and bare.known else ""),
        plates=list(end.plates), bare=bare,
        spindle=spindle, journal=getattr(spindle, field), moment=moment, times=Interval.exact(safety.lo),
        safety=end.limits.spindle_safety, g=end.limits.side_force, shock=shock,
    )  # fmt: skip
    return (
        check.because(
            "The load bends the spindle with the lever from the wheel's middle. Fatigue and welds are not checked."
        )
        .fix(lambda: _stronger(end, spindle, check, moment, shock, field))
        .danger(BREAKS_OFF)
        .at(spindle, "shoulder_to_face" if field == "inner_journal" else field)
        .about(*dict.fromkeys(one for one in (spindle, *end.plates, end.wheel) if one is not None))
    )


def _radius(end: WheelEnd) -> Interval:
    return Interval.unknown("mm") if end.tire is None else loaded_radius(end.tire, end)


def _bend(end: WheelEnd) -> tuple[float, Interval]:
    radius = _radius(end)
    return end.limits.side_force.hi, radius if radius.known else Interval(0.0, 0.0, "mm")


def _over(spans: tuple[Interval, ...], formula: Any) -> Interval:
    """N m, the sign left out: over the ends of what goes in, through zero where the sign turns."""
    if not all(span.known for span in spans):
        return Interval(0.0, INF, "N m")
    found = [formula(*ends) for ends in product(*({span.lo, span.hi} for span in spans))]
    return abs(Interval(min(found), max(found), "N m"))


def _stress(moment: Interval, diameter: Interval) -> Interval:
    if diameter.lo <= 0 or not moment.known:
        least = bending_stress(moment.lo, diameter.hi) if diameter.hi not in (0.0, INF) else 0.0
        return Interval(least, INF, "MPa")
    return Interval(bending_stress(moment.lo, diameter.hi), bending_stress(moment.hi, diameter.lo), "MPa")


def _yield(end: WheelEnd, spindle: Any) -> Interval:
    """Yield of the spindle's steel, MPa: the weakest condition of a steel by name; any steel when unknown."""
    rows = end.tables.rows("spindle_steel")
    name = spindle.material
    if spindle.has("material"):
        named = [row["yield_mpa"] for row in rows if row["material"] == name]
        other = end.tables.row("material", name)
        if named or (other is not None and other.get("yield_mpa")):
            least = min(named) if named else other["yield_mpa"]
            return Interval.exact(least, "MPa")
    every = [row["yield_mpa"] for row in rows]
    return Interval(min(every), max(every), "MPa")


def _allowed(end: WheelEnd, spindle: Any) -> Interval:
    return _yield(end, spindle) / end.limits.spindle_safety.hi


def _stronger(
    end: WheelEnd, spindle: Any, check: Check, moment: Interval, shock: Interval, field: str
) -> Iterator[Remedy]:
    """A shorter lever by offset or without the plate; else a thicker spindle."""
    pull = shock.hi * end.corner_load.hi
    if field == "inner_journal" and 0 < pull < INF and moment.known:
        shift = no_less(moment.hi * (1 - check.need.lo / check.have.hi) * 1000 / pull)
        offset = no_less((wheel_offset(end.wheel, end) + shift).hi)
        yield Remedy(
            "take wheels with an offset of at least {offset}, {shift} more", field=f"{end.wheel.id}.offset",
            relation="at least", target=offset, offset=offset, shift=shift,
        )  # fmt: skip
        room = end.stack_thickness.lo - shift.lo
        if end.plates and room >= 0:
            yield Remedy(
                "or take a thinner plate than the {plates}, at most {thinner}, or none" if room > 0 else
                "or leave the {plates} out",
                field=f"{end.plates[0].id}.thickness", relation="at most", target=no_more(room),
                plates=list(end.plates), thinner=no_more(room),
            )  # fmt: skip
    thick = no_less(diameter_needed(moment.hi, check.need.lo))
    yield Remedy(
        "or take an axle whose spindle is {thick} or more there, with bearings and hubs of its size",
        field=f"{spindle.id}.{field}", relation="at least", target=thick, thick=thick,
    )  # fmt: skip


# ---- the nut -------------------------------------------------------------------------------------


@rule(
    "spindle-nut-thread",
    on=WheelEnd,
    reads=["spindle-nut.thread", *(f"{kind}.nut_thread" for kind in SPINDLE_KINDS)],
    basis=practice("a nut runs on its own thread only; 1-14 is UNS, 1-12 UNF (ASME B1.1 series, recalled)"),
)
def spindle_nut_thread(end: WheelEnd) -> Check | None:
    """The spindle nut has the thread of the spindle.

    Why: A nut of another pitch starts, binds and strips; it can be forced on and looks right.
    Formula: Diameter, pitch and hand are equal. 1-14 and 1-12 are told apart by counting threads over an inch.
    Remedy: The nut with the spindle's thread; never force one, never re-cut a spindle.
    Hazard: The nut holds the wheel on.
    Wrong:
        - {kind: axle, nut_thread: 1-14 UNS}
        - {kind: spindle-nut, thread: 1-12 UNF}
    Right:
        - {kind: axle, nut_thread: 1-14}
        - {kind: spindle-nut, thread: 1-14 UNS}
    """
    nut, spindle = end.part("spindle-nut"), spindle_of(end, "nut_thread")
    if nut is None or spindle is None or not (nut.has("thread") or spindle.has("nut_thread")):
        return None
    check = same(nut.thread.same_as(spindle.nut_thread), nut.thread, spindle.nut_thread)
    miss = near_miss(nut.thread, spindle.nut_thread) if nut.thread.known and spindle.nut_thread.known else ""
    return (
        check.stop(
            "The {nut} has the thread {have}, the {spindle} {need}." + (f" {miss}." if miss else ""),
            nut=nut, spindle=spindle,
        )
        .because("A nut of another thread strips, and it alone holds the hub on.")
        .fix(lambda: [
            Remedy("take spindle nuts with the thread {need}", field=f"{nut.id}.thread", relation=EQUAL,
                   target=spindle.nut_thread)
        ])
        .danger("A nut that strips or was forced lets the whole wheel end come off.")
        .at(nut, "thread")
        .about(nut, spindle)
    )  # fmt: skip
