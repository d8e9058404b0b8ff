"""Clearances: does the tire touch the frame, the arm, the spring, the fender or its neighbour."""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build.places import WheelEnd, Whole
from partscheck.build.tire_width import (
    FACE_READS,
    SECTION_READS,
    SIDEWALL_READS,
    faces_known,
    inner_sidewall,
    section_on_wheel,
)
from partscheck.build.wheel_data import hub_face_distance, overall_diameter, wheel_offset
from partscheck.notation.interval import Interval
from partscheck.rules.basis import practice
from partscheck.rules.check import AT_LEAST, AT_MOST, Check, Remedy, at_least
from partscheck.rules.registry import rule

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

GEOMETRY = practice("worked out from the sizes on the list; the gap that should be left is common practice")
RUBS = (
    "A tire that rubs is cut or catches fire, and a tire that fails throws the trailer about. Turn both "
    "wheels by hand, loaded and at full travel, before you tow; follow the makers' instructions and local "
    "codes."
)
DIAMETER_READS = ("tire.diameter", "tire.size")
MOST_SMALLER = 0.2  # a tire smaller by more than a fifth would not carry the same load: not offered
TOUCH = Interval(0.0, 0.0, "mm")


@rule(
    "tire-frame-clearance",
    on=WheelEnd,
    reads=[*SIDEWALL_READS, *FACE_READS, "layout.frame_width", "practice.tire_frame_clearance"],
    basis=GEOMETRY,
)
def tire_frame_clearance(end: WheelEnd) -> Check | None:
    """Between the tire's inner sidewall and the frame there is room.

    Why: The tire bulges where it stands, and the axle moves sideways in corners.
    Formula: gap = (hub face distance - frame width)/2 - (section width/2 + offset - thickness of the
        plates between hub and wheel)
    Remedy: Wheels of less offset, a narrower tire, a longer axle; a thicker plate only after the
        bearings were checked with it.
    Hazard: A rubbing tire is cut or catches fire.
    Wrong:
        layout: {hub_face_distance: 60 in, frame_width: 52 in}
        parts:
          - {kind: wheel, size: 15 x 6 in, offset: 30 mm}
          - {kind: tire, size: ST205/75R15}
    Right:
        layout: {hub_face_distance: 70 in, frame_width: 52 in}
        parts:
          - {kind: wheel, size: 15 x 6 in, offset: 30 mm}
          - {kind: tire, size: ST205/75R15}
    """
    layout = end.build.layout
    if end.tire is None or end.wheel is None or not (faces_known(end) or layout.has("frame_width")):
        return None
    gap = (hub_face_distance(end) - layout.frame_width) * 0.5 - inner_sidewall(end)
    least = end.limits.tire_frame_clearance
    words = "between the inner sidewall of the {tire} and the frame"
    return (
        _room(gap, least, words, tire=end.tire)
        .because("The tire bulges under load and the axle moves sideways in corners.")
        .about(end.tire, end.wheel, *end.plates)
        .at(layout, "frame_width")
        .fix(lambda: (*_move_out(end, least.hi - gap.lo), _deck_over()))
        .danger(RUBS)
    )


def _deck_over() -> Remedy:
    return Remedy(
        "or, if the frame stands above the tires and not between them, take frame_width out of the list",
        field="layout.frame_width",
        operation="declare",
    )


@rule(
    "tire-arm-clearance",
    on=WheelEnd,
    reads=[
        *SIDEWALL_READS, *FACE_READS, "suspension-arm.face_to_arm", "axle.spring_distance",
        "leaf-spring.width", "practice.spring_width", "practice.tire_arm_clearance",
    ],
    basis=GEOMETRY,
)  # fmt: skip
def tire_arm_clearance(end: WheelEnd) -> Iterator[Check]:
    """Between the tire's inner sidewall and the suspension arm or the spring there is room.

    Why: Arm and tire stand side by side; mud and the tire's bulge need the gap.
    Formula: arm: gap = face to arm - inner sidewall; spring: gap = (hub face distance - spring
        distance - spring width)/2 - inner sidewall; inner sidewall = section width/2 + offset - thickness
        of the plates between hub and wheel
    Remedy: Wheels of less offset, a narrower tire, arms or an axle with more room.
    Hazard: A rubbing tire is cut or catches fire.
    Wrong:
        - {kind: suspension-arm, face_to_arm: 110 mm}
        - {kind: wheel, size: 15 x 6 in, offset: 30 mm}
        - {kind: tire, size: ST205/75R15}
    Right:
        - {kind: suspension-arm, face_to_arm: 160 mm}
        - {kind: wheel, size: 15 x 6 in, offset: 30 mm}
        - {kind: tire, size: ST205/75R15}
    """
    if end.tire is None or end.wheel is None:
        return
    arm, axle = end.part("suspension-arm"), end.part("axle")
    if arm is not None and (arm.has("face_to_arm") or _stands_known(end.wheel)):
        gap = arm.face_to_arm - inner_sidewall(end)
        yield _beside(end, gap, "between the inner sidewall of the {tire} and the {arm}", arm, "face_to_arm")
    if axle is not None and axle.has("spring_distance") and faces_known(end):
        between = hub_face_distance(end) - axle.spring_distance - _spring_width(end)
        gap = between * 0.5 - inner_sidewall(end)
        yield _beside(end, gap, "between the inner sidewall of the {tire} and the spring", axle, "spring_distance")


@rule(
    "tire-fender-clearance",
    on=WheelEnd,
    reads=[
        *SECTION_READS, *DIAMETER_READS, "fender.inside_width", "fender.arch_radius", "fender.arch_length",
        "fender.height", "practice.tire_fender_clearance", "practice.tire_fender_side",
    ],
    basis=GEOMETRY,
)  # fmt: skip
def tire_fender_clearance(end: WheelEnd) -> Iterator[Check]:
    """The tire has room inside its fender: at its sides, and all round under the arch.

    Why: Mud, stones, bulge and a tire that grows with speed need the gap.
    Formula: side = (inside width - section width)/2; arch = arch radius - diameter/2; foot = (arch
        length - diameter)/2; top = height - diameter/2
    Remedy: A wider or larger fender, or one mounted higher; a smaller tire.
    Hazard: A rubbing tire is cut or catches fire.
    Wrong:
        - {kind: fender, inside_width: 7 in}
        - {kind: wheel, size: 15 x 6 in}
        - {kind: tire, size: ST205/75R15}
    Right:
        - {kind: fender, inside_width: 9 in}
        - {kind: wheel, size: 15 x 6 in}
        - {kind: tire, size: ST205/75R15}
    """
    fender, tire = end.part("fender"), end.tire
    if fender is None or tire is None:
        return
    round_about = ("arch_radius", "arch_length", "height")
    typed = [name for name in round_about if fender.has(name)]
    if end.wheel is not None and (fender.has("inside_width") or not typed):
        side = (fender.inside_width - section_on_wheel(tire, end.wheel, end)) * 0.5
        least = end.limits.tire_fender_side
        yield _in_fender(end, side, least, "on each side of the {tire} in its {fender}", "inside_width", 2)
    for name in typed:
        if name == "arch_length" and end.weights.fit.axles > 1:
            continue  # one fender may reach over two tires
        gap, words, times = _arch_gap(fender, tire, name)
        yield _in_fender(end, gap, end.limits.tire_fender_clearance, words, name, times)


@rule(
    "bump-clearance",
    on=WheelEnd,
    reads=[*DIAMETER_READS, "fender.height", "suspension-arm.travel", "practice.bump_clearance"],
    basis=GEOMETRY,
    after=["tire-fender-clearance"],
)
def bump_clearance(end: WheelEnd) -> Check | None:
    """With the suspension fully up, the tire still clears the fender.

    Why: On the first deep pothole the tire goes up by the whole travel; what touches then is cut.
    Formula: gap = fender's height over the wheel centre - diameter/2 - travel
    Remedy: A fender mounted higher, a smaller tire, or a bump stop that ends the travel sooner.
    Hazard: A tire that hits its fender is cut or tears the fender off.
    Wrong:
        - {kind: suspension-arm, travel: 3 in}
        - {kind: fender, height: 16 in}
        - {kind: wheel, size: 15 x 6 in}
        - {kind: tire, size: ST205/75R15}
    Right:
        - {kind: suspension-arm, travel: 3 in}
        - {kind: fender, height: 18 in}
        - {kind: wheel, size: 15 x 6 in}
        - {kind: tire, size: ST205/75R15}
    """
    fender, tire, arm = end.part("fender"), end.tire, end.part("suspension-arm")
    if fender is None or tire is None or arm is None:
        return None
    if not (fender.has("height") or arm.has("travel")):
        return None
    gap = fender.height - overall_diameter(tire) * 0.5 - arm.travel
    least = end.limits.bump_clearance
    words = "between {tire} and {fender} with the {arm} fully up"
    return (
        _room(gap, least, words, tire=tire, fender=fender, arm=arm)
        .because("At the end of the travel it may come close but must not touch.")
        .about(fender, tire, arm)
        .at(fender, "height")
        .fix(lambda: _bump_remedies(end, least.hi - gap.lo))
        .danger(RUBS)
    )


@rule(
    "tires-touch-tandem",
    on=Whole,
    reads=[*DIAMETER_READS, "layout.axle_spacing", "practice.tandem_tire_gap", "practice.tire_growth"],
    basis=GEOMETRY,
)
def tires_touch_tandem(whole: Whole) -> Iterator[Check]:
    """The tires of neighbouring axles do not touch, grown as they are in use.

    Why: Axles move fore and aft against each other, tires grow, and stones wedge between them.
    Formula: gap = axle spacing - 1.03 x the mean of the two diameters
    Remedy: Smaller tires, or hangers and an equalizer for more spacing.
    Hazard: Tires that touch burn or burst.
    Wrong:
        layout: {axles: 2, axle_spacing: 26 in}
        parts:
          - {kind: tire, size: ST205/75R15}
    Right:
        layout: {axles: 2, axle_spacing: 34 in}
        parts:
          - {kind: tire, size: ST205/75R15}
    """
    if not _has_layout(whole):
        return
    spacing, growth = whole.build.layout.axle_spacing, whole.limits.tire_growth
    least = whole.limits.tandem_tire_gap
    for (front_at, front), (rear_at, rear) in _neighbours(whole):
        gap = spacing - (overall_diameter(front) + overall_diameter(rear)) * 0.5 * growth
        lack = least.hi - gap.lo
        yield (
            _room(gap, least, "between the tires of neighbouring axles")
            .because("Tires grow in use, axles move against each other, and stones wedge in between.")
            .about(*dict.fromkeys((front, rear)), places=(front_at, rear_at))
            .at(whole.build.layout, "axle_spacing")
            .fix(lambda lack=lack, tire=front: _tandem_remedies(whole, tire, lack))  # type: ignore[misc]
            .danger(RUBS)
        )


# ---- the comparison ------------------------------------------------------------------------


def _room(gap: Interval, least: Interval, where: str, **values: Any) -> Check:
    """A gap against what should be left: touching stops, too little is a caution.

    A gap that may touch or not, and surely is too little, cannot be told.
    """
    touching, wanted = at_least(gap, TOUCH), at_least(gap, least)
    if touching.fails:
        return touching.stop(f"{{overlap}} are missing {where}: they touch.", overlap=-gap, **values)
    check = touching if wanted.fails and touching.unsure else wanted
    return check.caution(f"Only {{have}} are left {where}; it should be {{need}}.", **values)


def _beside(end: WheelEnd, gap: Interval, where: str, part: Any, field: str) -> Check:
    least = end.limits.tire_arm_clearance
    return (
        _room(gap, least, where, tire=end.tire, arm=part)
        .because("Mud and the tire's bulge need the room.")
        .about(part, end.tire, end.wheel, *end.plates)
        .at(part, field)
        .fix(lambda: _move_out(end, least.hi - gap.lo, axle=part.kind == "axle"))
        .danger(RUBS)
    )


def _in_fender(end: WheelEnd, gap: Interval, least: Interval, where: str, field: str, times: int) -> Check:
    """``times``: how much the fender's field grows for one unit of gap."""
    fender = end.part("fender")
    return (
        _room(gap, least, where, tire=end.tire, fender=fender)
        .because("Bulge, mud, stones and a tire that grows with speed need the room.")
        .about(fender, end.tire)
        .at(fender, field)
        .fix(lambda: _fender_remedies(end, field, (least.hi - gap.lo) * times))
        .danger(RUBS)
    )


def _arch_gap(fender: Any, tire: Any, name: str) -> tuple[Interval, str, int]:
    """Gap by one measure of the arch, where it is, and how much of the measure one unit of it takes."""
    radius = overall_diameter(tire) * 0.5
    if name == "arch_radius":
        return fender.arch_radius - radius, "round the {tire} under the arch of its {fender}", 1
    if name == "arch_length":
        return fender.arch_length * 0.5 - radius, "before and behind the {tire} in its {fender}", 2
    return fender.height - radius, "over the {tire} under its {fender}", 1


def _stands_known(wheel: Any) -> bool:
    """Somebody has begun to measure where this wheel stands."""
    return bool(wheel.has("offset") or wheel.has("backspace"))


def _spring_width(end: WheelEnd) -> Interval:
    spring = end.part("leaf-spring")
    if spring is not None and spring.has("width"):
        return spring.width  # type: ignore[no-any-return]
    return end.limits.spring_width


def _has_layout(whole: Whole) -> bool:
    """The list says more of the trailer than what one wheel end needs."""
    running_gear = whole.build.of_kind("axle", "suspension-arm", "leaf-spring", "equalizer")
    return bool(whole.build.layout.everything() or running_gear)


def _neighbours(whole: Whole) -> Iterator[tuple[tuple[str, Any], tuple[str, Any]]]:
    """(place, tire) of each pair of neighbouring axles, sides alike told once."""
    seen = set()
    for number in range(1, whole.fit.axles):
        for side in "LR":
            front_at, rear_at = f"{number}{side}", f"{number + 1}{side}"
            front = whole.fit.places[front_at].get("tire")
            rear = whole.fit.places[rear_at].get("tire")
            if front is None or rear is None or (number, front.id, rear.id) in seen:
                continue
            seen.add((number, front.id, rear.id))
            yield (front_at, front), (rear_at, rear)


# ---- remedies ------------------------------------------------------------------------------


def _change(do: str, field: str, relation: str, to: float, operation: str = "replace") -> Remedy:
    target = Interval.exact(to, "mm")
    return Remedy(do, field, relation, target, operation, to=target)


def _move_out(end: WheelEnd, lack: float, axle: bool = True) -> Iterator[Remedy]:
    """Ways to get ``lack`` mm more between the inner sidewall and what stands inboard of it."""
    offset = wheel_offset(end.wheel, end)
    if offset.known:
        words = "wheels with an offset of at most {to}, if the load then still stands between the bearings"
        yield _change(words, f"{end.wheel.id}.offset", AT_MOST, offset.lo - lack)
    yield from _narrower_tire(end, 2 * lack)
    if end.plates and end.plates[-1].thickness.known:
        plate = end.plates[-1]
        words = "or a plate at least {to} thick, if the load then still stands between the bearings"
        yield _change(words, f"{plate.id}.thickness", AT_LEAST, plate.thickness.hi + lack)
    faces = hub_face_distance(end)
    if axle and faces.known:
        gear = end.part("axle")
        owner = gear.id if gear is not None and gear.has("hub_face_distance") else "layout"
        words = "or an axle with at least {to} between the hub faces"
        yield _change(words, f"{owner}.hub_face_distance", AT_LEAST, faces.hi + 2 * lack)


def _narrower_tire(end: WheelEnd, by: float) -> Iterator[Remedy]:
    section = section_on_wheel(end.tire, end.wheel, end)
    if section.known and by <= section.lo * MOST_SMALLER:
        words = "or a tire at most {to} wide that carries the same load"
        yield _change(words, f"{end.tire.id}.section_width", AT_MOST, section.lo - by)


def _smaller_tire(tire: Any, by: float) -> Iterator[Remedy]:
    diameter = overall_diameter(tire)
    if diameter.known and by <= diameter.lo * MOST_SMALLER:
        words = "or a tire at most {to} tall that carries the same load"
        yield _change(words, f"{tire.id}.diameter", AT_MOST, diameter.lo - by)


def _fender_remedies(end: WheelEnd, field: str, lack: float) -> Iterator[Remedy]:
    fender = end.part("fender")
    words = {
        "inside_width": "a fender at least {to} wide inside",
        "arch_radius": "a fender whose arch has a radius of at least {to}",
        "arch_length": "a fender at least {to} long inside",
        "height": "mount the fender so that its top is at least {to} above the wheel's centre",
    }
    now = getattr(fender, field)
    if now.known:
        operation = "shop" if field == "height" else "replace"
        yield _change(words[field], f"{fender.id}.{field}", AT_LEAST, now.hi + lack, operation)
    if field == "inside_width":
        yield from _narrower_tire(end, lack)
    else:
        yield from _smaller_tire(end.tire, lack if field == "arch_length" else 2 * lack)


def _bump_remedies(end: WheelEnd, lack: float) -> Iterator[Remedy]:
    fender, arm = end.part("fender"), end.part("suspension-arm")
    if fender.height.known:
        words = "mount the fender so that its top is at least {to} above the wheel's centre"
        yield _change(words, f"{fender.id}.height", AT_LEAST, fender.height.hi + lack, "shop")
    yield from _smaller_tire(end.tire, 2 * lack)
    if arm.travel.known and arm.travel.lo > lack:
        words = "or ask the arm's maker whether a stop may end its travel at {to}"
        yield _change(words, f"{arm.id}.travel", AT_MOST, arm.travel.lo - lack, "shop")


def _tandem_remedies(whole: Whole, tire: Any, lack: float) -> Iterator[Remedy]:
    spacing = whole.build.layout.axle_spacing
    if spacing.known:
        words = "set the axles at least {to} apart, with hangers and an equalizer made for it"
        yield _change(words, "layout.axle_spacing", AT_LEAST, spacing.hi + lack, "shop")
    yield from _smaller_tire(tire, lack / whole.limits.tire_growth.lo)
