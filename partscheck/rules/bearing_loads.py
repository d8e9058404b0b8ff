"""How long the wheel bearings last under this wheel, and what a pothole does to them."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from partscheck.build.bearing_data import NAME_READS, PLACES, cone_part
from partscheck.build.bearing_duty import PAIR_READS, bearing_life_km, static_load
from partscheck.build.bearing_planes import planes_known
from partscheck.build.bearing_ratings import (
    RATING_READS,
    dynamic_rating,
    rating_begun,
    static_rating,
)
from partscheck.build.places import WheelEnd
from partscheck.build.wheel_data import load_plane, wheel_offset
from partscheck.formulas.bearing_life import rating_needed
from partscheck.notation.interval import INF, Interval
from partscheck.rules.basis import practice, published, recalled
from partscheck.rules.check import Check, Remedy, at_least
from partscheck.rules.message import Least
from partscheck.rules.registry import rule
from partscheck.rules.targets import no_less

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

RUNS_HOT = (
    "A bearing that fails on the road runs hot and seizes or lets the wheel go. Feel the hubs after a drive, "
    "and follow the part makers' instructions."
)
KM = 1e6  # mm
KM_PER_MILE = 1.609344
STEPS = 40
MOST_OFFSET = 200.0  # mm, beyond any wheel of a light trailer


# ---- life ----------------------------------------------------------------------------------------


@rule(
    "bearing-life",
    on=WheelEnd,
    reads=[
        *PAIR_READS, *RATING_READS, *NAME_READS, "practice.cornering_share",
        "practice.gravel_share", "practice.gravel_bearing_load",
        "practice.bearing_life_least", "wheel.bolt_circle",
    ],
    basis=(
        published("life L = (C / P)^(10/3), ISO 281 form as textbooks print it (secondary copies read)"),
        recalled("P of a single tapered bearing, ISO 281; induced thrust 0.5 Fr / Y, bearing handbooks"),
        practice("duty and the distance that is enough"),
    ),
)  # fmt: skip
def bearing_life(end: WheelEnd) -> Iterator[Check]:
    """Each wheel bearing is good for a long way: its calculated life (L10) on this wheel, plates and all.

    Why: An adapter or a wheel with less offset moves the load outboard, and the life of a bearing falls with
        the third power of its load and more.
    Formula: Radial loads by moments about each bearing; induced thrust S = 0.5 Fr / Y of the opposed pair;
        P = Fr while Fa / Fr <= e, else 0.4 Fr + Y Fa, not below Fr; L = (C / P)^(10/3) million turns.
        The duty: straight ahead, and cornering_share of the way in bends of side_force, half to each side; a
        side force shifts the load plane by (side / vertical) x radius. 1/L = sum of q/L. On gravel_share of
        the way (none until you set it under practice) all loads are gravel_bearing_load times as high.
        Distance by the loaded radius; speed changes the hours that a distance takes, not the distance.
        A rating for 90 million turns counts 90^0.3 = 3.857 times for one million.
    Remedy: Wheels with more offset, hubs without an adapter, or bearings of a higher rating in the same size.
    Hazard: A bearing that fails runs hot; the wheel can come off.
    Wrong:
        service: {gross_weight: 2300 lb, tongue_weight: 0}
        parts:
          - {kind: hub, inner_bearing_to_face: 50 mm, outer_bearing_to_face: -18 mm}
          - {id: in, kind: bearing, place: inner, dynamic_rating: 40.2 kN, rating_turns: 1e6}
          - {id: out, kind: bearing, place: outer, dynamic_rating: 30.8 kN, rating_turns: 1e6}
          - {kind: adapter, thickness: 2.5 in}
          - {kind: wheel, offset: 0}
          - {kind: tire, loaded_radius: 330 mm}
    Right:
        service: {gross_weight: 2300 lb, tongue_weight: 0}
        parts:
          - {kind: hub, inner_bearing_to_face: 50 mm, outer_bearing_to_face: -18 mm}
          - {id: in, kind: bearing, place: inner, dynamic_rating: 40.2 kN, rating_turns: 1e6}
          - {id: out, kind: bearing, place: outer, dynamic_rating: 30.8 kN, rating_turns: 1e6}
          - {kind: wheel, offset: 0}
          - {kind: tire, loaded_radius: 330 mm}
    """
    if end.tire is None or not _pair_in_question(end, "dynamic_rating"):
        return
    for place in PLACES:
        if rating_begun(end, place):
            yield _life(end, place)


def _pair_in_question(end: WheelEnd, field: str) -> bool:
    """Both bearings, hub and wheel are on the list, and something of ratings or places is begun."""
    if end.hub is None or end.wheel is None:
        return False
    cones = [cone_part(end, place) for place in PLACES]
    if any(cone is None for cone in cones):
        return False
    return planes_known(end) or any(_typed_here(cone, field) for cone in cones)


def _typed_here(cone: Any, field: str) -> bool:
    """A rating that the user typed, not one that came along with a catalogue's bearing."""
    return bool(cone.has(field) and cone.values[field].layer == "list")


def _life(end: WheelEnd, place: str) -> Check:
    part, rating = cone_part(end, place), dynamic_rating(end, place)
    life = bearing_life_km(end, place)
    check = at_least(life, _enough(end))
    named: dict[str, Any] = {
        "place": place, "part": part, "wheel": end.wheel, "way": _way(life), "enough": _way(check.need),
        "rated": _rated(rating), "given": rating.given, "converted": rating.value,
    }  # fmt: skip
    words = _without_plates(end, place, life, named) if end.plates else ""
    if check.fails:
        check.caution(
            "The {place} bearing ({part}) lasts {way} by its calculated life on this {wheel}; {enough} is the "
            "least to go by." + named["rated"] + words,
            **named,
        )
    elif check.holds and (words or rating.converted):
        check.note(
            "The {place} bearing ({part}) lasts {way} by its calculated life; {enough} is enough."
            + named["rated"] + words,
            **named,
        )
    return (
        check.because("Nine of ten bearings reach their calculated life, in clean grease and without water.")
        .fix(lambda: _longer_life(end, place, part, life))
        .danger(RUNS_HOT)
        .at(end.plates[0] if end.plates else end.wheel, "thickness" if end.plates else "offset")
        .about(*dict.fromkeys((end.hub, part, *end.plates, end.wheel)))
    )


def _enough(end: WheelEnd) -> Interval:
    limit = end.limits.bearing_life_least
    return Interval(limit.lo / KM, limit.hi / KM, "km")


def _rated(rating: Any) -> str:
    """What the rating is for, where it had to be turned over."""
    if not rating.converted:
        return ""
    turns = f"{rating.turns.lo / 1e6:g} million turns"
    return " Its rating of {given} is for " + turns + ": that is {converted} for one million."


def _without_plates(end: WheelEnd, place: str, life: Interval, named: dict[str, Any]) -> str:
    """The same hub and wheel without what lies between them."""
    bare = bearing_life_km(end, place, wheel_offset(end.wheel, end))
    if not (life.known and bare.known):
        return ""
    named.update(bare=_way(bare), plates=list(end.plates), stack=end.stack_thickness)
    times = bare.mid / life.mid if life.mid else INF
    told = f" ({times:.1f} times as far)" if 1 < times < INF else f" ({times * 100:.0f} % of it)"
    return " On the same hub without the {plates}, {stack} thick, it would be {bare}" + told + "."


def _way(life: Interval) -> str:
    """A distance in both systems, rounded down to three figures."""
    if life.lo == INF:
        return "for ever"
    ends = [life.lo] if life.hi - life.lo <= 0.01 * life.hi or life.hi == INF else [life.lo, life.hi]
    km = " to ".join(_figures(end) for end in ends)
    miles = " to ".join(_figures(end / KM_PER_MILE) for end in ends)
    return f"{km} km ({miles} miles)"


def _figures(value: float) -> str:
    step = 10 ** max(0, len(str(int(value))) - 3)
    return f"{int(value) // step * step:,}"


def _longer_life(end: WheelEnd, place: str, part: Any, life: Interval) -> Iterator[Remedy]:
    """More offset, no plates, or a better bearing."""
    need = _enough(end).hi
    offset = _offset_for(end, place, need)
    if offset is not None:
        yield Remedy(
            "take wheels with an offset of at least {offset}", field=f"{end.wheel.id}.offset", relation="at least",
            target=offset, offset=offset,
        )  # fmt: skip
    if end.plates and bearing_life_km(end, place, wheel_offset(end.wheel, end)).lo >= need:
        circle = end.wheel.bolt_circle
        yield Remedy(
            ("or " if offset is not None else "") + "leave the {plates} out, with hubs drilled like the wheel",
            field=f"{end.hub.id}.bolt_circle", relation="equal to", target=circle if circle.known else None,
            plates=list(end.plates),
        )  # fmt: skip
    rating = dynamic_rating(end, place).value
    if life.lo > 0 and rating.lo > 0:
        target = Interval.exact(rating_needed(rating.lo, need / life.lo), "N")
        yield Remedy(
            "or take a bearing of this size rated {rating} or more for 1 million turns",
            field=f"{part.id}.dynamic_rating", relation="at least", target=target, rating=Least(target),
        )  # fmt: skip


def _offset_for(end: WheelEnd, place: str, need: float) -> Interval | None:
    """Least offset at which the bearing lasts, mm; None when more offset does not help."""
    plane, stack = load_plane(end), end.stack_thickness
    if not plane.known:
        return None
    bad, good = plane.lo, None
    for step in range(1, int(MOST_OFFSET) + 1):
        at = plane.lo + step
        if bearing_life_km(end, place, Interval.exact(at, "mm")).lo >= need:
            good = at
            break
        bad = at
    if good is None:
        return None
    for _ in range(STEPS):
        middle = (good + bad) / 2
        if bearing_life_km(end, place, Interval.exact(middle, "mm")).lo >= need:
            good = middle
        else:
            bad = middle
    return no_less(good + stack.hi)


# ---- static safety -------------------------------------------------------------------------------


@rule(
    "bearing-static",
    on=WheelEnd,
    reads=[
        *PAIR_READS, *NAME_READS, "bearing.static_rating", "service.surface",
        "practice.bearing_static_safety",
    ],
    basis=(
        recalled("static equivalent load of a single tapered bearing and static safety, ISO 76"),
        practice("shock factor of the surface; shock and bend are not taken together"),
    ),
)  # fmt: skip
def bearing_static(end: WheelEnd) -> Iterator[Check]:
    """No pothole dents the races: static rating over the load with shock is enough.

    Why: Beyond its static rating a roller leaves a dent in the race, and the bearing is rough from then on.
    Formula: P0 = max(Fr, 0.5 Fr + Y0 Fa) with Y0 = 0.55 Y, at k x the wheel's load straight ahead, and in a
        bend of side_force without shock; C0 / P0 >= 1.5.
    Remedy: Wheels with more offset, hubs without an adapter, or bearings of a higher static rating.
    Hazard: A rough bearing runs hot.
    Wrong:
        service: {gross_weight: 2300 lb, tongue_weight: 0, surface: gravel}
        parts:
          - {kind: hub, inner_bearing_to_face: 50 mm, outer_bearing_to_face: -18 mm}
          - {id: inner, kind: bearing, place: inner, static_rating: 44 kN, y_factor: 1.6}
          - {id: outer, kind: bearing, place: outer, static_rating: 12 kN, y_factor: 1.6}
          - {kind: wheel, offset: 0}
          - {kind: tire, loaded_radius: 330 mm}
    Right:
        service: {gross_weight: 2300 lb, tongue_weight: 0, surface: gravel}
        parts:
          - {kind: hub, inner_bearing_to_face: 50 mm, outer_bearing_to_face: -18 mm}
          - {id: inner, kind: bearing, place: inner, static_rating: 44 kN, y_factor: 1.6}
          - {id: outer, kind: bearing, place: outer, static_rating: 33.5 kN, y_factor: 1.6}
          - {kind: wheel, offset: 0}
          - {kind: tire, loaded_radius: 330 mm}
    """
    if not _pair_in_question(end, "static_rating"):
        return
    for place in PLACES:
        part, rating = cone_part(end, place), static_rating(end, place)
        if not rating.known:
            continue
        load = static_load(end, place)
        safety = end.limits.bearing_static_safety.hi
        check = at_least(rating, load * safety)
        yield (
            check.caution(
                "The {place} bearing ({part}) has a static rating of {have}; a shock or a bend puts {load} on "
                "it, and {safety} times that is {need}: {by} too little.",
                place=place, part=part, load=load, safety=end.limits.bearing_static_safety,
            )
            .because("Overloaded once, the rollers leave dents in the races.")
            .fix(partial(_more_static, end, part, check.need))
            .danger(RUNS_HOT)
            .at(part, "static_rating")
            .about(*dict.fromkeys((end.hub, part, *end.plates, end.wheel)))
        )  # fmt: skip


def _more_static(end: WheelEnd, part: Any, need: Interval) -> Iterator[Remedy]:
    target = Interval.exact(need.hi, need.unit)
    yield Remedy(
        "take a bearing of this size with a static rating of {rating} or more", field=f"{part.id}.static_rating",
        relation="at least", target=target, rating=Least(target),
    )  # fmt: skip
    yield Remedy(
        "or wheels whose load stands nearer the middle between both bearings", field=f"{end.wheel.id}.offset"
    )
