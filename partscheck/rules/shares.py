"""Every part that carries the weight is rated for its share of it.

Ratings are static and have road shock in them, so no shock factor multiplies the share.  When the
tongue weight is not known, the share is known to lie under gross weight / wheels: a part that
carries that needs no question.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from partscheck.build.places import AxlePlace, Binding, Line, WheelEnd
from partscheck.build.weights import AXLE_LOAD_READS, CORNER_LOAD_READS, in_its_case
from partscheck.build.wheel_data import basis_open, rating_each
from partscheck.notation.interval import Interval
from partscheck.rules.basis import practice
from partscheck.rules.check import Check, Remedy, at_least
from partscheck.rules.less_weight import less_on_it
from partscheck.rules.message import Least
from partscheck.rules.registry import rule

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

STATIC = practice("a part's static rating is not less than what it carries at rest; it includes road shock")
BASIS_WORDS = practice("hubs, spindles, arms, springs, brakes are sold by the piece or 'for a 3500 lb axle'")

NOT_APPROVED = " The part maker's instructions and local codes come first."
WHEEL_BREAKS = "An overloaded wheel cracks at the lug holes and comes off." + NOT_APPROVED
PLATE_BREAKS = "An overloaded adapter breaks or sheds its studs; the wheel comes off with it." + NOT_APPROVED
HUB_BREAKS = "An overloaded hub breaks at its flange or burns its bearings: the wheel is lost." + NOT_APPROVED
SPINDLE_BREAKS = "An overloaded spindle bends or breaks off; the wheel comes off with the hub." + NOT_APPROVED
ARM_BREAKS = "An overloaded arm settles onto its stop and tears at its mounting." + NOT_APPROVED
SPRING_BREAKS = "A broken spring lets the axle move; the trailer swings out." + NOT_APPROVED
AXLE_BREAKS = "An overloaded axle bends or breaks; the trailer drops or swings out." + NOT_APPROVED

TOO_WEAK = "The {part} is rated {have}{per}, but {need} stands on it{case}: {by} too little."
AXLE_TOO_WEAK = "The {part} is rated {have}, but {need} stands on axle {number}{case}: {by} too little."
WHY = "A rating is what the part carries at rest, road shock already in it: it holds no reserve."


def _reads(*kinds: str) -> list[str]:
    return [*(f"{kind}.{name}" for kind in kinds for name in ("rating", "per")), *CORNER_LOAD_READS]


@rule("wheel-below-share", on=WheelEnd, reads=_reads("wheel"), basis=STATIC)
def wheel_below_share(end: WheelEnd) -> Iterator[Check]:
    """Each wheel is rated for what stands on its corner.

    Why: Wheels are stamped with a load of their own; one from a light car may carry less than the tire on it.
    Formula: rating >= axle load x (1/2 +- y / track), at rest.
    Remedy: A wheel of a higher rating, or less weight.
    Hazard: The wheel cracks and comes off.
    Wrong:
        service: {gross_weight: 2600 lb, tongue_weight: 300 lb}
        parts:
          - {kind: wheel, rating: 1100 lb}
    Right:
        service: {gross_weight: 2600 lb, tongue_weight: 300 lb}
        parts:
          - {kind: wheel, rating: 1150 lb}
    """
    yield from corner_share(end, end.wheel, WHEEL_BREAKS)


@rule("adapter-below-share", on=WheelEnd, reads=_reads("adapter"), basis=STATIC)
def adapter_below_share(end: WheelEnd) -> Iterator[Check]:
    """Each adapter is rated for what stands on its corner.

    Why: The adapter and its studs carry all that the wheel carries.
    Formula: rating >= axle load x (1/2 +- y / track), at rest.
    Remedy: An adapter of a higher rating, wheels that fit the hub without one, or less weight.
    Hazard: The wheel comes off with the adapter's studs.
    Wrong:
        service: {gross_weight: 2600 lb, tongue_weight: 300 lb}
        parts:
          - {kind: adapter, rating: 1100 lb}
    Right:
        service: {gross_weight: 2600 lb, tongue_weight: 300 lb}
        parts:
          - {kind: adapter, rating: 1150 lb}
    """
    without = Remedy("or take wheels that fit the hub, and leave the adapter out", operation="remove")
    for plate in end.plates:
        if plate.kind == "adapter":
            yield from corner_share(end, plate, PLATE_BREAKS, without)


@rule("hub-below-share", on=WheelEnd, reads=_reads("hub"), basis=STATIC)
def hub_below_share(end: WheelEnd) -> Iterator[Check]:
    """Each hub is rated for what stands on its corner.

    Why: Hubs of one bolt circle are made for quite different axles.
    Formula: rating >= axle load x (1/2 +- y / track), at rest; a rating per axle counts half.
    Remedy: A hub of a higher rating, or less weight.
    Hazard: The wheel comes off.
    Wrong:
        service: {gross_weight: 2600 lb, tongue_weight: 300 lb}
        parts:
          - {kind: hub, rating: 2200 lb, per: axle}
    Right:
        service: {gross_weight: 2600 lb, tongue_weight: 300 lb}
        parts:
          - {kind: hub, rating: 2300 lb, per: axle}
    """
    yield from corner_share(end, end.hub, HUB_BREAKS)


@rule("spindle-below-share", on=WheelEnd, reads=_reads("spindle"), basis=STATIC)
def spindle_below_share(end: WheelEnd) -> Iterator[Check]:
    """Each spindle is rated for what stands on its corner.

    Why: The spindle carries the wheel on one end only; it is the part that breaks off.
    Formula: rating >= axle load x (1/2 +- y / track), at rest; a rating per axle counts half.
    Remedy: A spindle of a higher rating, or less weight.
    Hazard: The wheel comes off with the hub.
    Wrong:
        service: {gross_weight: 2600 lb, tongue_weight: 300 lb}
        parts:
          - {kind: spindle, rating: 1100 lb}
    Right:
        service: {gross_weight: 2600 lb, tongue_weight: 300 lb}
        parts:
          - {kind: spindle, rating: 1150 lb}
    """
    yield from corner_share(end, end.part("spindle"), SPINDLE_BREAKS)


@rule("suspension-below-share", on=WheelEnd, reads=_reads("suspension-arm"), basis=STATIC)
def suspension_below_share(end: WheelEnd) -> Iterator[Check]:
    """Each suspension arm is rated for what stands on its corner.

    Why: Independent arms are sold one by one or by the pair; only the share of its own wheel counts.
    Formula: rating >= axle load x (1/2 +- y / track), at rest; a rating per axle counts half.
    Remedy: Arms of a higher rating, or less weight.
    Hazard: The arm tears at its mounting.
    Wrong:
        service: {gross_weight: 2600 lb, tongue_weight: 300 lb}
        parts:
          - {kind: suspension-arm, rating: 2200 lb, per: axle}
    Right:
        service: {gross_weight: 2600 lb, tongue_weight: 300 lb}
        parts:
          - {kind: suspension-arm, rating: 1250 lb, per: each}
    """
    yield from corner_share(end, end.part("suspension-arm"), ARM_BREAKS)


@rule("spring-below-share", on=WheelEnd, reads=_reads("leaf-spring"), basis=STATIC)
def spring_below_share(end: WheelEnd) -> Iterator[Check]:
    """Each leaf spring is rated for what stands on its corner.

    Why: Springs of one length come with few or many leaves; the rating is of one spring or of the pair.
    Formula: rating >= axle load x (1/2 +- y / track), at rest; a rating per axle counts half.
    Remedy: Springs of a higher rating, or less weight.
    Hazard: The spring breaks and the axle moves.
    Wrong:
        service: {gross_weight: 2600 lb, tongue_weight: 300 lb}
        parts:
          - {kind: leaf-spring, rating: 1000 lb, per: each}
    Right:
        service: {gross_weight: 2600 lb, tongue_weight: 300 lb}
        parts:
          - {kind: leaf-spring, rating: 1250 lb, per: each}
    """
    yield from corner_share(end, end.part("leaf-spring"), SPRING_BREAKS)


@rule(
    "axle-below-share",
    on=AxlePlace,
    reads=["axle.rating", *AXLE_LOAD_READS],
    basis=STATIC,
    after=["axle-over-rating"],
)
def axle_below_share(place: AxlePlace) -> Check | None:
    """Each axle is rated for what stands on it.

    Why: The tongue carries a part of the weight, the axle the rest; without equalizers one axle more of it.
    Formula: rating of the axle >= gross weight - tongue weight; of two axles half of it each, or the practice
        share of it where nothing equalizes them.
    Remedy: An axle of a higher rating, or less weight.
    Hazard: The axle bends or breaks.
    Wrong:
        service: {gross_weight: 2600 lb, tongue_weight: 300 lb}
        parts:
          - {kind: axle, rating: 2200 lb}
    Right:
        service: {gross_weight: 2600 lb, tongue_weight: 300 lb}
        parts:
          - {kind: axle, rating: 2300 lb}
    """
    axle = place.axle
    if axle is None or not worth_asking(place, axle):
        return None
    check = at_least(axle.rating, place.load)
    check.stop(AXLE_TOO_WEAK, part=axle, number=place.number, case=in_its_case(place.load))
    check.because(WHY).danger(AXLE_BREAKS).at(axle, "rating").about(axle, places=place.at)
    return check.fix(_remedies(place, axle, axle.rating, place.load, of_axle=True))


@rule(
    "rating-basis-unknown",
    on=Line,
    reads=_reads("hub", "spindle", "suspension-arm", "leaf-spring", "brake"),
    basis=BASIS_WORDS,
    after=["hub-below-share", "spindle-below-share", "suspension-below-share", "spring-below-share"],
)
def rating_basis_unknown(line: Line) -> Iterator[Check]:
    """Where it matters, the list says whether a rating is of each piece or of the axle.

    Why: "For a 3500 lb axle" means half of it at each wheel. Without `per` each piece is taken to carry its
        rating.
    Formula: asked where rating >= share, but rating / 2 < share.
    Remedy: Type `per: each` or `per: axle` from the stamping or the seller's words.
    Wrong:
        service: {gross_weight: 2600 lb, tongue_weight: 300 lb}
        parts:
          - {kind: hub, rating: 2200 lb}
    Right:
        service: {gross_weight: 2600 lb, tongue_weight: 300 lb}
        parts:
          - {kind: hub, rating: 2300 lb}
    """
    part = line.part
    if not (line.weights.given and basis_open(part) and part.has("rating")):
        return
    both = (part.rating * 0.5).hull(part.rating)  # half of it or all of it
    for end in line.ends():
        for places, load in line.weights.place_loads(end):
            check = at_least(both, load)
            if check.fails:
                continue  # too weak either way: the share's own rule says so
            if check.unsure:
                part.per  # noqa: B018 - asks for it
            check.ask(
                "The {part} is rated {rating}, and the list does not say of what: by the piece it carries "
                "the {need} on it, as a rating for the axle it does not.",
                part=part, rating=part.rating,
            )  # fmt: skip
            yield check.about(part, places=places).at(part, "rating")


def corner_share(end: WheelEnd, part: Any, hazard: str, *more: Remedy) -> Iterator[Check]:
    """The part against what stands on its places, the left and the right ones apart."""
    if part is None or not worth_asking(end, part):
        return
    rating = rating_each(part)
    halved = " at each wheel (half of what it is rated for per axle)" if rating is not part.rating else ""
    for places, load in end.weights.place_loads(end):
        check = at_least(rating, load).stop(TOO_WEAK, part=part, per=halved, case=in_its_case(load))
        check.because(WHY).danger(hazard).at(part, "rating").about(part, places=places)
        yield check.fix(_remedies(end, part, rating, load, *more))


def worth_asking(place: Binding, part: Any) -> bool:
    """Either the list speaks of weights, or the part is rated: then the one missing is worth a question."""
    return place.weights.given or part.has("rating")


def _remedies(
    place: Binding, part: Any, rating: Interval, load: Interval, *more: Remedy, of_axle: bool = False
) -> Callable[[], Iterator[Remedy]]:
    def remedies() -> Iterator[Remedy]:
        per_axle = part.kind != "axle" and part.has("per") and part.per == "axle"
        typed = load * 2 if per_axle else load
        yield Remedy(
            "put one rated at least {least}" + (" per axle" if per_axle else "") + " in place of the {part}",
            field=f"{part.id}.rating", relation="at least", target=typed, least=Least(typed), part=part,
        )  # fmt: skip
        yield from more
        yield less_on_it(place.weights, rating, load, of_axle)

    return remedies
