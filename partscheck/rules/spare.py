"""The spare: can it take the place of each wheel of the trailer."""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build.places import WheelEnd, Whole
from partscheck.build.weights import CORNER_LOAD_READS
from partscheck.build.wheel_data import load_on_trailer, overall_diameter, rating_each, tire_max_load
from partscheck.rules.basis import practice
from partscheck.rules.check import (
    AT_LEAST,
    EQUAL,
    Check,
    Remedy,
    all_of,
    at_least,
    certainly,
    equal_within,
    same,
)
from partscheck.rules.registry import rule

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

WHEEL_OFF = (
    "A wheel that does not fit its studs and seats comes off. Try the spare on every hub at home, and "
    "follow the makers' instructions and local codes."
)


@rule(
    "spare-does-not-fit",
    on=Whole,
    reads=[
        *CORNER_LOAD_READS, "wheel.bolt_circle", "hub.bolt_circle", "adapter.wheel_circle",
        "spacer.bolt_circle", "practice.bolt_circle_tolerance", "wheel.center_bore", "hub.pilot",
        "adapter.wheel_pilot", "practice.pilot_measure_band", "wheel.nut_seat", "lug-nut.seat",
        "wheel-bolt.seat", "wheel.rating", "wheel.per", "tire.diameter", "tire.size",
        "practice.tire_diameter_agreement", "tire.max_load", "tire.load_index",
        "tire.service_description", "practice.passenger_tire_divisor", "service.country",
    ],
    basis=practice("a spare has the circle, bore, seats, size and rating of the wheels it stands in for"),
)  # fmt: skip
def spare_does_not_fit(whole: Whole) -> Iterator[Check]:
    """The spare fits wherever a wheel of the trailer sits, and carries as much.

    Why: With adapters the wheels have another circle than the hubs: a spare bought for the hubs fits
        nowhere.
    Formula: circle, bore and seats as for the wheel in that place; diameter within 3 %; ratings >= the
        corner load
    Remedy: A spare like the wheels that run.
    Hazard: A wheel that does not fit its studs and seats comes off.
    Wrong:
        - {kind: hub, bolt_circle: 5 x 4.5 in}
        - {kind: adapter, hub_circle: 5 x 4.5 in, wheel_circle: 5 x 5.5 in}
        - {kind: wheel, bolt_circle: 5 x 5.5 in}
        - {id: spare, kind: wheel, bolt_circle: 5 x 4.5 in, at: spare}
    Right:
        - {kind: hub, bolt_circle: 5 x 4.5 in}
        - {kind: adapter, hub_circle: 5 x 4.5 in, wheel_circle: 5 x 5.5 in}
        - {kind: wheel, bolt_circle: 5 x 5.5 in}
        - {id: spare, kind: wheel, bolt_circle: 5 x 5.5 in, at: spare}
    """
    spare = whole.fit.spare
    if spare is None:
        return
    for end in whole.fit.ends:
        for check in (*_wheel_checks(spare, end), *_tire_checks(spare, end)):
            yield check.danger(WHEEL_OFF)


# ---- the wheel -----------------------------------------------------------------------------


def _wheel_checks(spare: WheelEnd, end: WheelEnd) -> Iterator[Check]:
    wheel = spare.wheel
    if wheel is None:
        return
    if wheel is end.wheel:  # one more of the wheels that run: their own checks speak for it
        yield certainly().about(wheel, places=("spare",))
        return
    base = end.plates[-1] if end.plates else end.hub
    if base is not None:
        yield _circle(end, wheel, base)
        yield from _bore(end, wheel, base)
    yield from _seat(end, wheel)
    if wheel.has("rating") or (end.wheel is not None and end.wheel.has("rating")):
        yield from _rating(spare, wheel, rating_each(wheel), "rating")


def _circle(end: WheelEnd, wheel: Any, base: Any) -> Check:
    circle = base.wheel_circle if base.kind == "adapter" else base.bolt_circle
    mine = wheel.bolt_circle
    counts = None if mine.count is None or circle.count is None else mine.count == circle.count
    check = all_of(
        same(counts, mine, circle),
        equal_within(mine.diameter, circle.diameter, end.limits.bolt_circle_tolerance.hi),
    )
    words = "The spare {wheel} is drilled {mine}, the {base} takes {circle}."
    if check.fails and base.kind == "adapter" and _fits_bare_hub(end, mine):
        words += " It fits the bare hub only, not the {base} on it."
    return (
        check.stop(words, wheel=wheel, mine=mine, base=base, circle=circle)
        .because("By the roadside it fits nowhere.")
        .about(wheel, base, places=("spare",))
        .at(wheel, "bolt_circle")
        .fix(lambda: [Remedy(
            "a spare drilled {circle}, like the wheels that run", f"{wheel.id}.bolt_circle", EQUAL, circle
        )])
    )  # fmt: skip


def _fits_bare_hub(end: WheelEnd, mine: Any) -> bool:
    if end.hub is None:
        return False
    circle = end.hub.bolt_circle
    near = equal_within(mine.diameter, circle.diameter, end.limits.bolt_circle_tolerance.hi)
    return bool(mine.count == circle.count and near.holds)


def _bore(end: WheelEnd, wheel: Any, base: Any) -> Iterator[Check]:
    """Only where bore and pilot are both known: the running wheels ask for the pilot."""
    field = {"adapter": "wheel_pilot", "hub": "pilot"}.get(base.kind)
    if field is None or not (wheel.has("center_bore") and base.has(field)):
        return
    pilot = getattr(base, field)
    yield (
        at_least(wheel.center_bore + end.limits.pilot_measure_band.hi, pilot)
        .stop(
            "The spare {wheel} has a bore of {bore}, the {base} a pilot of {pilot}: it does not go on.",
            wheel=wheel, bore=wheel.center_bore, base=base, pilot=pilot,
        )
        .because("It hangs on the pilot and cannot be clamped to the face.")
        .about(wheel, base, places=("spare",))
        .at(wheel, "center_bore")
        .fix(lambda: [Remedy(
            "a spare with a bore of at least {pilot}", f"{wheel.id}.center_bore", AT_LEAST, pilot
        )])
    )  # fmt: skip


def _seat(end: WheelEnd, wheel: Any) -> Iterator[Check]:
    """The nuts of the trailer must fit the spare too; only where both seats are known."""
    fastener = end.part("wheel-bolt") or end.part("lug-nut")
    if fastener is None or not (fastener.has("seat") and wheel.has("nut_seat")):
        return
    yield (
        same(fastener.seat == wheel.nut_seat, wheel.nut_seat, fastener.seat)
        .stop(
            "The spare {wheel} has {have} seats, the {fastener} a {need} one.",
            wheel=wheel, fastener=fastener,
        )
        .because("A nut that bears on an edge works loose, torqued or not.")
        .about(wheel, fastener, places=("spare",))
        .at(wheel, "nut_seat")
        .fix(lambda: [
            Remedy("carry a set of {fastener_kind}s with {have} seats with the spare", operation="add",
                   fastener_kind=fastener.title),
            Remedy("or a spare with {need} seats", f"{wheel.id}.nut_seat", EQUAL, fastener.seat),
        ])
    )  # fmt: skip


# ---- the tire ------------------------------------------------------------------------------


def _tire_checks(spare: WheelEnd, end: WheelEnd) -> Iterator[Check]:
    tire, running = spare.tire, end.tire
    if tire is None or running is None:
        return
    if tire is running:
        yield certainly().about(tire, places=("spare",))
        return
    yield _diameter(end, tire, running)
    if tire_max_load(tire, spare).known or tire_max_load(running, end).known:
        yield from _rating(spare, tire, load_on_trailer(tire, spare), "max_load")


def _diameter(end: WheelEnd, tire: Any, running: Any) -> Check:
    size = overall_diameter(running)
    close = end.limits.tire_diameter_agreement.hi * (size.lo if size.known else 0.0)
    return (
        equal_within(overall_diameter(tire), size, close)
        .caution(
            "The spare {tire} is {have} tall, the running {running} is {need}.",
            tire=tire, running=running,
        )
        .because("On one side it leans the trailer and loads its neighbour; it gets you home slowly at best.")
        .about(tire, running, places=("spare",))
        .at(tire, "size")
        .fix(lambda: [Remedy(
            "a spare tire {need} tall, like those that run", f"{tire.id}.diameter", EQUAL, size
        )])
    )  # fmt: skip


def _rating(spare: WheelEnd, part: Any, rating: Any, field: str) -> Iterator[Check]:
    """Against the worst corner, where the list says anything of the weight."""
    load = spare.corner_load
    if not load.hi < float("inf"):
        return
    yield (
        at_least(rating, load)
        .stop("The spare {part} carries {have}, a wheel of this trailer {need}: {by} too little.", part=part)
        .because("On the trailer it carries as much as the wheel it stands in for.")
        .about(part, places=("spare",))
        .at(part, field)
        .fix(lambda: [Remedy("a spare rated for at least {need}", f"{part.id}.{field}", AT_LEAST, load)])
    )
