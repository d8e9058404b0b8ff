"""Hubs: cups pressed, bearings packed, seals pressed, bearings set."""

from __future__ import annotations

from partscheck.build.bearing_data import PLACES, cone_part, cup_part, outside_of, spindle_of
from partscheck.notation.interval import Interval
from partscheck.rules.basis import practice, published
from partscheck.rules.grease import DRY, for_hubs, grams, grease_at_end
from partscheck.rules.message import name_of
from partscheck.uses.shop.sheet import FROM_LIST, Bound, Said, Section, Step, limits_basis, merged

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import Any

    from partscheck.build.places import WheelEnd
    from partscheck.engine import Result

BEARINGS = ("bearing_fits", "bearing_pairs", "bearing_loads", "spindles", "seals", "grease", "quantities")
PRESSING = practice("pressing cups and seals with a driver of their size")
PACKING = practice("packing wheel bearings by hand")
ESTIMATE = practice("grease in a bearing and a hub: an estimate, about 30 % either way")
BACK_OFF = published(
    "US Army TM 9-2330-202-13&P, trailer hubs: tighten, then back off until free (secondary copy read)"
)
SETTING = practice("seating torque, finger tight, next slot back, a new pin")
PRESS_HAZARD = (
    "Hardened rings chip when they are hit: eye protection, a soft drift or a driver, never hammer on steel. A "
    "cup that is not home, or a seal that is torn, ruins the bearing: the hub maker's instructions govern."
)
SET_HAZARD = (
    "A bearing set too tight seizes, one too loose lets the wheel wobble off; a pin that is missing loses the "
    "wheel. The axle or hub maker's instructions go before these. No work under a trailer on a jack alone: "
    "stands, on firm ground, the other wheels chocked."
)


def ends_with_hubs(result: Result) -> list[WheelEnd]:
    return [end for end in result.fit.ends if end.hub is not None]


def all_sections(result: Result) -> list[Section]:
    """Cups, grease, seals: in the order in which they go in."""
    ends = ends_with_hubs(result)
    return [
        Section(
            "cups",
            "Press the bearing cups",
            merged(step for end in ends for step in _cups(end)),
            (Said("Only where the hub came without cups, or where they are worn."),),
            PRESS_HAZARD,
            (PRESSING,),
        ),
        Section(
            "pack",
            "Pack the bearings",
            merged(step for end in ends for step in _pack(result, end)),
            (),
            DRY,
            (PACKING,),
        ),
        Section(
            "seals",
            "Press the seals",
            merged(step for end in ends for step in _seal(end)),
            (
                Said(
                    "The packed inner cone lies in its cup before the seal goes in: it does not go in afterwards."
                ),
            ),
            PRESS_HAZARD,
            (PRESSING,),
        ),
    ]


def setting(result: Result) -> Section:
    """Hub on the spindle, bearings set."""
    steps = merged(step for end in ends_with_hubs(result) for step in _set(end))
    return Section("bearings", "Hang the hubs and set the bearings", steps, (), SET_HAZARD, (SETTING,))


def places(end: WheelEnd) -> str:
    return ", ".join(end.at)


# ---- cups and seals ------------------------------------------------------------------------------


def _cups(end: WheelEnd) -> Iterator[Step]:
    under = end.limits.driver_under.hi
    for place in PLACES:
        part = cup_part(end, place)
        if part is None:
            continue
        step = Step(
            "press the {place} cup of the {part} into the {hub} at {places}, its wide opening outward.",
            (part, end.hub),
            end.at,
            place=place,
            part=part,
            hub=end.hub,
            places=places(end),
        )
        size = outside_of(end, place)
        if size.known and len(size.values) == 1 and not size.disputed:
            most = Interval.exact(size.values[0].lo - under, "mm")
            step.more(
                "Driver {most} across at most, flat on the rim of the cup, never on its polished track.",
                most=Bound(most),
            )
            step.take(Said("cup driver, {most} across at most", most=Bound(most)))
        else:
            step.more(
                "Driver a little smaller than the cup, flat on its rim: its size is not known from the list."
            )
            step.take("cup driver")
        step.more("Square and all the way: the sound changes when it is home, and no gauge goes under it.")
        step.by(*limits_basis(end.limits, "driver_under"))
        yield step.by(PRESSING).minds(*BEARINGS, closely=("bearing_fits", "bearing_pairs"))


def _seal(end: WheelEnd) -> Iterator[Step]:
    seal: Any = end.part("seal")
    if seal is None:
        return
    step = Step(
        "press the {seal} into the {hub} at {places}: spring side of the lip towards the bearing, flush with "
        "the hub.",
        (seal, end.hub, spindle_of(end, "seal_journal")),
        end.at,
        seal=seal,
        hub=end.hub,
        places=places(end),
    )
    outside = seal.outside if seal.has("outside") else end.hub.seal_bore if end.hub.has("seal_bore") else None
    inside = seal.inside if seal.has("inside") else None
    if outside is not None and outside.known:
        _driver(step, end, outside, inside)
    else:
        step.more("Driver by the seal maker's sheet: the list does not give its outside.").take("seal driver")
    step.more(
        "A film of grease on the lips and on the spindle. A little at a time, all round; a seal goes in once."
    )
    step.by(*limits_basis(end.limits, "driver_under", "seal_driver_rim"))
    yield step.by(PRESSING).take("soft hammer").minds(*BEARINGS)


def _driver(step: Step, end: WheelEnd, outside: Interval, inside: Interval | None) -> None:
    """Between the stiff rim of the case and the bore that the driver must pass into."""
    most = Interval.exact(max(0.0, outside.lo - end.limits.driver_under.hi), "mm")
    if inside is None or not inside.known or inside.hi >= outside.lo:
        step.more("Flat driver {most} across at most, bearing on the rim of the case.", most=Bound(most))
        step.take(Said("seal driver, {most} across at most", most=Bound(most)))
        return
    rim = outside.hi - end.limits.seal_driver_rim.lo * (outside.hi - inside.lo)
    least = Interval.exact(min(rim, most.lo), "mm")
    step.more(
        "Flat driver {least} to {most} across: it bears on the rim of the case, never on the lip. The seal is "
        "for a shaft of {inside} in a bore of {outside}.",
        least=Bound(least, up=True),
        most=Bound(most),
        inside=inside,
        outside=outside,
    ).by(FROM_LIST)
    step.take(Said("seal driver, {least} to {most} across", least=Bound(least, up=True), most=Bound(most)))


# ---- grease --------------------------------------------------------------------------------------


def _pack(result: Result, end: WheelEnd) -> Iterator[Step]:
    from partscheck.build.places import Whole

    parts = [
        part for place in PLACES for part in (cone_part(end, place), cup_part(end, place)) if part is not None
    ]
    if not parts:
        return
    whole = Whole(result.build, result.fit.weights)
    tubs = [tub for tub in result.build.of_kind("grease") if for_hubs(whole, tub)]
    bearings = list(dict.fromkeys(parts))
    step = Step(
        "pack the {bearings} at {places} with {grease}.",
        [*bearings, end.hub, *tubs],
        end.at,
        bearings=" and the ".join(name_of(one) for one in bearings),
        places=places(end),
        grease=_grease_words(tubs),
    )
    need = grease_at_end(end)
    if need is not None and need.known:
        step.more("About {grams} at each wheel end, the space between the bearings included.", grams=grams(need))
        step.by(ESTIMATE, *limits_basis(end.limits, "grease_cavity_fill", "grease_bearing_fill", "grease_density"))
    else:
        step.more("How much cannot be said: the sizes of the bearings are not known from the list.")
    step.more(
        "Old grease washed off and the bearing dry; never spun with air. Press the grease into the wide end of "
        "the cage until it comes out at the narrow end, all round."
    )
    fill = f"{100 * end.limits.grease_cavity_fill.mid:.0f} %"
    step.more(f"Smear the cups, and fill {fill} of the space between them; a full hub runs hot.")
    step.take("bearing packer, or a clean hand", "lint-free rags and a parts wash").by(PACKING)
    # A bad grease is no part of a wheel end, yet nobody packs with it.
    step.parts = tuple(dict.fromkeys((*step.parts, *result.build.of_kind("grease"))))
    yield step.minds(*BEARINGS)


def _grease_words(tubs: list[Any]) -> Any:
    if not tubs:
        return "wheel bearing grease marked GC-LB or GC, NLGI 2 (none for hubs is on the list)"
    marks = [str(tub.service_class) for tub in tubs if tub.has("service_class")]
    names = " or ".join(f"the grease '{tub.id}'" for tub in tubs)
    return names + (f", marked {' or '.join(dict.fromkeys(marks))}" if marks else ", if its tub says GC-LB or GC")


# ---- setting -------------------------------------------------------------------------------------


def _hang(end: WheelEnd, gear: Any) -> Step:
    """A hub whose bearings the list does not speak of."""
    step = Step(
        "hang the {hub} on its spindle at {places}, where it does not hang there yet.",
        (end.hub, gear),
        end.at,
        hub=end.hub,
        places=places(end),
    )
    step.more(
        "Its bearings, seal and grease are not on the list: pack and set them as the maker of axle or hub says. "
        "Typed in the list, they get steps of their own here."
    )
    step.more("Then it turns freely by hand, without play, and its cap is on.")
    return step.by(SETTING).minds(*BEARINGS, "hands", "brakes")


def _set(end: WheelEnd) -> Iterator[Step]:
    gear = spindle_of(end, "nut_thread")
    bearings = [
        part for place in PLACES for part in (cone_part(end, place), cup_part(end, place)) if part is not None
    ]
    if gear is None:
        return
    if not (bearings or end.part("spindle-nut")):
        yield _hang(end, gear)
        return
    nut, pin, limits = end.part("spindle-nut"), end.part("cotter-pin"), end.limits
    thread = (
        nut.thread
        if nut is not None and nut.has("thread")
        else gear.nut_thread
        if gear.has("nut_thread")
        else None
    )
    step = Step(
        "hang the {hub} on its spindle at {places} and set the bearings.",
        dict.fromkeys((end.hub, gear, *bearings, nut, pin)),
        end.at,
        hub=end.hub,
        places=places(end),
    )
    step.more(
        "Outer cone, washer with its tongue in the groove, nut"
        + (
            f" {thread.callout}."
            if thread is not None and thread.known
            else "; count its thread first, it is not on the list."
        )
    )
    step.more("Seat: turn the hub by hand while you tighten the nut to {seat}.", seat=limits.bearing_seat_torque)
    step.more("Free: back the nut off until it is loose; do not turn the hub.")
    step.more("Set: tighten it with the fingers only, then back to the next slot. Never tighten to reach a slot.")
    size = f" {pin.diameter.text}" if pin is not None and pin.has("diameter") else ""
    step.more(
        f"Pin: a new cotter pin{size}, both legs bent over. A nut with a retainer: the retainer on it, bent over."
    )
    play = Interval(limits.end_play_least.lo, limits.end_play_most.hi, "mm")
    step.more(
        "Check: end play {play} on a dial indicator. Without one: the hub turns freely, and the washer moves "
        "under a screwdriver pushed by hand.",
        play=play,
    )
    if end.part("dust-cap") is not None:
        step.more("Drive the dust cap home on its rim, not on its middle.")
    step.by(*limits_basis(limits, "bearing_seat_torque", "end_play_least", "end_play_most"), BACK_OFF, SETTING)
    if thread is not None:
        step.by(FROM_LIST)
    step.take(
        "torque wrench",
        "dial indicator with a magnet foot",
        "pliers and side cutters",
        "wrench for the spindle nut, by its size",
    )
    yield step.minds(*BEARINGS, "hands", "brakes")
