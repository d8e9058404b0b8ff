"""Each link between trailer and tow vehicle is rated for the trailer's gross weight.

Ratings are static and go by the worst load case for the gross weight, which need not be the worst
one for the tongue (``tongue_ratings.py``).
"""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build.tow_class import POUND, coupler_class
from partscheck.build.tow_links import (
    BRAKED_READS,
    GROSS,
    WORST_GROSS_READS,
    TowLoad,
    braked_rating,
    by_d_value,
    distributing,
    has_brakes,
    no_controller,
    receiver_field,
    receiver_rating,
    unbraked_rating,
    vehicle_speaks,
    worst_gross,
)
from partscheck.build.tow_places import TowChain
from partscheck.notation.interval import Interval
from partscheck.rules.basis import practice, published
from partscheck.rules.check import Check, Remedy, at_least
from partscheck.rules.less_weight import load_less
from partscheck.rules.message import Least
from partscheck.rules.registry import rule

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

STAMPED = practice("a towing part's stamped rating is the heaviest trailer, all of it, that it may pull")
CLASSES = published("SAE J684 sorts couplings by the trailer's gross weight (secondary copy read)")
PAPERS = practice("the tow vehicle's manual and papers give the heaviest trailer that it may pull")

BY_THE_BOOK = " Follow the makers' instructions, the tow vehicle's manual and local codes."
LETS_GO = "A coupling that breaks lets the trailer go; the safety chains are then all that holds it." + BY_THE_BOOK
PULLS_OFF = (
    "A vehicle that pulls too much does not stop in time, overheats, and is steered by its trailer." + BY_THE_BOOK
)
PUSHES = (
    "A trailer without brakes pushes the tow vehicle: stops get longer, and in a bend it swings round."
    + BY_THE_BOOK
)

TOO_WEAK = "The {part} is rated for a trailer of {have}{how}, but this one weighs {need}{case}: {by} too little."
WEAKEST = "The trailer hangs on every link of the chain, so the weakest one is its limit."


@rule(
    "coupler-below-gross",
    on=TowChain,
    reads=["coupler.rating", "coupler.d_value", *WORST_GROSS_READS],
    basis=(STAMPED, CLASSES),
)
def coupler_below_gross(chain: TowChain) -> Check | None:
    """The coupler is rated for the gross weight of the trailer.

    Why: The coupler pulls all of the trailer, also what its own wheels carry.
    Formula: rating as stamped >= gross weight as declared, or of the heaviest load case if that is more.
        The class beside a stamp (SAE J684) only sorts couplers; the rating counts.
    Remedy: A coupler of a higher rating, or less weight.
    Hazard: The coupler opens or breaks and the trailer comes off.
    Wrong:
        service: {gross_weight: 2600 lb}
        parts:
          - {kind: coupler, rating: 2000 lb}
    Right:
        service: {gross_weight: 2600 lb}
        parts:
          - {kind: coupler, rating: 3500 lb}
    """
    return _pulls(chain, chain.coupler, "rating")


@rule(
    "ball-below-gross",
    on=TowChain,
    reads=["ball.rating", "ball.d_value", *WORST_GROSS_READS],
    basis=(STAMPED, CLASSES),
)
def ball_below_gross(chain: TowChain) -> Check | None:
    """The hitch ball is rated for the gross weight of the trailer.

    Why: Balls of one diameter are made with thin and thick shanks; a 2 in ball may be good for 3500 lb or for
        twice that.
    Formula: rating as stamped >= gross weight as declared, or of the heaviest load case if that is more.
    Remedy: A ball of the same diameter and a higher rating, or less weight.
    Hazard: The shank breaks off and the trailer comes off.
    Wrong:
        service: {gross_weight: 2600 lb}
        parts:
          - {kind: ball, diameter: 2 in, rating: 2000 lb}
    Right:
        service: {gross_weight: 2600 lb}
        parts:
          - {kind: ball, diameter: 2 in, rating: 3500 lb}
    """
    return _pulls(chain, chain.ball, "rating")


@rule("mount-below-gross", on=TowChain, reads=["ball-mount.rating", *WORST_GROSS_READS], basis=(STAMPED, CLASSES))
def mount_below_gross(chain: TowChain) -> Check | None:
    """The ball mount is rated for the gross weight of the trailer.

    Why: Mounts of one shank size are made in several strengths; a deep drop is often rated lower.
    Formula: rating as stamped >= gross weight as declared, or of the heaviest load case if that is more.
    Remedy: A ball mount of a higher rating, or less weight.
    Hazard: The mount bends or breaks and the trailer comes off.
    Wrong:
        service: {gross_weight: 2600 lb}
        parts:
          - {kind: ball-mount, rating: 2000 lb}
    Right:
        service: {gross_weight: 2600 lb}
        parts:
          - {kind: ball-mount, rating: 5000 lb}
    """
    return _pulls(chain, chain.mount, "rating")


@rule(
    "receiver-below-gross",
    on=TowChain,
    reads=[
        "receiver.rating", "receiver.rating_distributing", "tow_vehicle.weight_distribution", *WORST_GROSS_READS,
    ],
    basis=(STAMPED, CLASSES),
)  # fmt: skip
def receiver_below_gross(chain: TowChain) -> Check | None:
    """The tow vehicle's receiver is rated for the gross weight of the trailer.

    Why: The plate on a receiver has two pairs of numbers: weight carrying, which counts for a plain ball mount,
        and the higher one that counts only with a weight distributing hitch.
    Formula: the pair of the hitch that is used >= gross weight as declared, or of the heaviest load case if that
        is more. A receiver at the trailer's own rear carries a rack and is not looked at here.
    Remedy: A receiver of a higher rating where the tow vehicle allows one, or less weight.
    Hazard: The receiver tears off the frame and the trailer goes with it.
    Wrong:
        service: {gross_weight: 4000 lb}
        parts:
          - {kind: receiver, rating: 3500 lb, rating_distributing: 5000 lb}
    Right:
        service: {gross_weight: 4000 lb}
        tow_vehicle: {weight_distribution: true}
        parts:
          - {kind: receiver, rating: 3500 lb, rating_distributing: 5000 lb}
    """
    receiver = chain.receiver
    if receiver is None:
        return None
    field = receiver_field(chain, GROSS)
    how = ", with weight distribution" if distributing(chain) else ", weight carrying"
    return _pulls(chain, receiver, field, receiver_rating(chain, GROSS), how)


def _pulls(chain: TowChain, part: Any, field: str, rating: Interval | None = None, how: str = "") -> Check | None:
    """The part's rating against the heaviest that the trailer gets."""
    if part is None or not (chain.weights.given or part.has(field) or part.has("rating")):
        return None
    if by_d_value(part):
        return None  # d-value-low looks at it
    gross = worst_gross(chain.weights)
    have = getattr(part, field) if rating is None else rating
    check = at_least(have, gross.load).stop(TOO_WEAK, part=part, case=gross.in_case, how=how)
    check.because(WEAKEST).danger(LETS_GO).at(part, field).about(part)
    return check.fix(lambda: _stronger_or_lighter(chain, part, field, have, gross))


def _stronger_or_lighter(
    chain: TowChain, part: Any, field: str, rating: Interval, gross: TowLoad
) -> Iterator[Remedy]:
    need = gross.load
    yield Remedy(
        "put one rated at least {least} in place of the {part}{sorted}", field=f"{part.id}.{field}",
        relation="at least", target=need, least=Least(need), part=part, sorted=_class_words(chain, need),
    )  # fmt: skip
    if part is chain.receiver and _would_do(chain, need):
        yield Remedy(
            "or use a weight distributing hitch, where the tow vehicle's manual allows one: the plate then allows "
            "{plate}. It puts some of the tongue weight back on the trailer's axles",
            field="tow_vehicle.weight_distribution", relation="equal to", target="true", operation="add",
            plate=part.rating_distributing,
        )  # fmt: skip
    yield load_less(chain.weights, rating)


def _would_do(chain: TowChain, need: Interval) -> bool:
    receiver = chain.receiver
    if distributing(chain) or not receiver.has("rating_distributing"):
        return False
    return bool(receiver.rating_distributing.lo >= need.hi)


def _class_words(chain: TowChain, need: Interval) -> str:
    """ " (class 2 of SAE J684 goes up to 3500 lb)": where pounds are the list's own."""
    if chain.build.leading() != "inch" or not need.known:
        return ""
    found = coupler_class(chain.tables, need.hi)
    if found is None:
        return ""
    return f" (class {found.name} of SAE J684 goes up to {found.limit / POUND:.0f} lb; the stamped rating counts)"


# ---- the tow vehicle ----------------------------------------------------------------------------------------


@rule(
    "tow-vehicle-limit",
    on=TowChain,
    reads=[
        "tow_vehicle.tow_rating", "tow_vehicle.tow_rating_unbraked", "tow_vehicle.tongue_rating",
        "tow_vehicle.weight", "tow_vehicle.weight_distribution", *BRAKED_READS, *WORST_GROSS_READS,
    ],
    basis=PAPERS,
)  # fmt: skip
def tow_vehicle_limit(chain: TowChain) -> Check | None:
    """The tow vehicle may pull a trailer of this gross weight.

    Why: The limit comes from the vehicle's own brakes, frame, cooling and tires; a stronger hitch does not
        raise it.
    Formula: tow_rating >= gross weight as declared, or of the heaviest load case if that is more. Some countries
        count only what the trailer's axles carry; all of it is the safe side.
    Remedy: Less weight, or a tow vehicle that may pull it.
    Hazard: The tow vehicle cannot hold the trailer in a descent or a bend.
    Wrong:
        service: {gross_weight: 2600 lb}
        tow_vehicle: {tow_rating: 2000 lb}
        parts:
          - {kind: brake, type: electric}
    Right:
        service: {gross_weight: 2600 lb}
        tow_vehicle: {tow_rating: 3500 lb}
        parts:
          - {kind: brake, type: electric}
    """
    vehicle = chain.build.tow_vehicle
    if not _vehicle_asked(chain, "tow_rating"):
        return None
    if not vehicle.has("tow_rating") and has_brakes(chain) is False:
        return None  # the limit for a trailer without brakes is the lower one
    rating, gross = braked_rating(vehicle), worst_gross(chain.weights)
    check = at_least(rating, gross.load).stop(
        "The tow vehicle may pull {have}, but the trailer weighs {need}{case}: {by} too much.", case=gross.in_case
    )
    check.because("The manual's limit stands whatever the hitch is rated for.").danger(PULLS_OFF)
    check.fix(lambda: _other_vehicle(chain, rating, gross, "tow_rating", "")).at(vehicle, "tow_rating")
    return check.about()


@rule(
    "tow-vehicle-unbraked-limit",
    on=TowChain,
    reads=[
        "tow_vehicle.tow_rating", "tow_vehicle.tow_rating_unbraked", "tow_vehicle.tongue_rating",
        "tow_vehicle.weight", "tow_vehicle.weight_distribution", *BRAKED_READS, *WORST_GROSS_READS,
    ],
    basis=PAPERS,
)  # fmt: skip
def tow_vehicle_unbraked_limit(chain: TowChain) -> Check | None:
    """A trailer without brakes is within what the tow vehicle may pull without them.

    Why: The tow vehicle's brakes then stop both; its papers give a limit for that, often a third of the other.
    Formula: no brake on the list that works: tow_rating_unbraked >= gross weight as declared, or of the heaviest
        load case if that is more. Where the list has no running gear, or drums without brakes, it may be braked
        after all: a caution.
    Remedy: Brakes on the trailer, less weight, or another tow vehicle. Local law may ask for brakes sooner.
    Hazard: The trailer pushes the tow vehicle.
    Wrong:
        service: {gross_weight: 2600 lb}
        tow_vehicle: {tow_rating: 3500 lb, tow_rating_unbraked: 1500 lb}
        parts:
          - {kind: axle, rating: 3500 lb}
    Right:
        service: {gross_weight: 2600 lb}
        tow_vehicle: {tow_rating: 3500 lb, tow_rating_unbraked: 1500 lb}
        parts:
          - {kind: axle, rating: 3500 lb}
          - {kind: brake, type: electric, qty: 2}
    """
    vehicle, braked = chain.build.tow_vehicle, has_brakes(chain)
    if braked or not _vehicle_asked(chain, "tow_rating_unbraked"):
        return None
    if braked is None and not vehicle.has("tow_rating_unbraked"):
        return None
    rating, gross = unbraked_rating(vehicle), worst_gross(chain.weights)
    check = at_least(rating, gross.load)
    if check.fails and not vehicle.has("tow_rating_unbraked"):
        return None  # too heavy with brakes too: the other limit says so
    words = (
        "Without brakes on the trailer the tow vehicle may pull {have}, and the trailer weighs {need}{case}: {by} "
        "too much.{brakes}"
    )
    say = check.caution if braked is None else check.stop
    say(words, case=gross.in_case, brakes=_of_brakes(chain, braked))
    check.because("The tow vehicle's brakes must stop the trailer too.").danger(PUSHES)
    check.fix(lambda: _brake_it(chain, rating, gross)).at(vehicle, "tow_rating_unbraked")
    return check.about()


def _vehicle_asked(chain: TowChain, field: str) -> bool:
    weighed = chain.weights.given or chain.build.tow_vehicle.has(field)
    return bool(weighed) and vehicle_speaks(chain)


def _of_brakes(chain: TowChain, braked: bool | None) -> str:
    if braked is None:
        return " The list shows no brakes; put them on it if there are any."
    if chain.build.of_kind("brake") and no_controller(chain.build):
        return " Its electric brakes do nothing: the tow vehicle has no controller for them."
    return " The list has no brakes."


def _brake_it(chain: TowChain, rating: Interval, gross: TowLoad) -> Iterator[Remedy]:
    if chain.build.of_kind("brake"):
        yield Remedy(
            "fit a brake controller for the electric brakes to the tow vehicle", field="brake-controller",
            operation="add",
        )  # fmt: skip
    else:
        yield Remedy(
            "fit brakes, left and right, with what works them; or put them on the list if they are there",
            field="brake", operation="add",
        )  # fmt: skip
    yield from _other_vehicle(chain, rating, gross, "tow_rating_unbraked", " without brakes")


def _other_vehicle(chain: TowChain, rating: Interval, gross: TowLoad, field: str, how: str) -> Iterator[Remedy]:
    yield load_less(chain.weights, rating)
    yield Remedy(
        "or tow with a vehicle that may pull at least {least}{how}", field=f"tow_vehicle.{field}",
        relation="at least", target=gross.load, least=Least(gross.load), how=how,
    )  # fmt: skip
