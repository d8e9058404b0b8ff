"""Brakes: which one goes where, and which way round."""

from __future__ import annotations

from partscheck.build.places import AxlePlace
from partscheck.rules.basis import practice
from partscheck.rules.hands import BENCH, HANDED, SIDES, UNEVEN
from partscheck.uses.shop.sheet import FROM_LIST, Said, Section, Step, merged

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import Any

    from partscheck.engine import Result

FITTING = practice("fitting brakes to their flange, and setting the shoes")
HAZARD = (
    UNEVEN
    + " Old linings can hold asbestos: no air hose, no dry brush. Grease on a lining takes the brake's force: "
    "clean hands."
)
SPOON = "brake adjuster spoon"
INTRO = (Said("Before the hubs go on. Left and right are seen from behind the trailer, looking forward."),)


def section(result: Result) -> Section:
    steps = merged(step for place in result.fit.bindings(AxlePlace) for step in _axle(place))
    drums = any(step.tools and step.tools[0].template == SPOON for step in steps)
    intro = (*INTRO, Said(BENCH)) if drums else INTRO
    return Section("brakes", "Fit the brakes, each on its side", steps, intro, HAZARD, (FITTING, HANDED))


def _axle(place: AxlePlace) -> Iterator[Step]:
    hubs = dict(place.each("hub"))
    for at, brake in sorted(place.each("brake")):
        hub = hubs.get(at)
        drum = not (hub is not None and hub.has("rotor_diameter"))
        yield _one(at, brake, drum)


def _one(at: str, brake: Any, drum: bool) -> Step:
    side = SIDES[at[-1]]
    step = Step(
        "{places}, {side} side: the {brake}{hand}.",
        (brake,),
        (at,),
        places=at,
        side=side,
        brake=brake,
        hand=_hand(brake, side),
    )
    step.more(f"Bolts through the flange{_flange(brake)}: torque by the brake maker's sheet; the list has none.")
    if drum:
        step.more(
            "With the drum on: turn the adjuster until the shoes drag a little, then back until it turns freely."
        )
        step.take(SPOON)
    step.by(HANDED, FITTING)
    if brake.has("hand") or brake.has("flange"):
        step.by(FROM_LIST)
    return step.take("torque wrench", "brake cleaner").minds("brakes", "hands", "load_plane", "brake_supply")


def _hand(brake: Any, side: str) -> str:
    hand = brake.hand if brake.has("hand") else None
    if hand == "pair":
        return f", the {side}-hand one of the pair"
    if hand == "either":
        return "; it fits both sides"
    if hand == side:
        return f", {side}-hand"
    return f", which is made for the {hand} side: the wrong one" if hand else "; its hand is not on the list, look"


def _flange(brake: Any) -> str:
    if not brake.has("flange"):
        return ""
    return f", {brake.flange.count} of them"
