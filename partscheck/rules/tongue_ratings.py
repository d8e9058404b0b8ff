"""What the tongue stands on is rated for the worst tongue weight: hitch, tow vehicle, jack.

The worst case for the tongue need not be the heaviest one: what stands behind the axle lifts it.
"""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build.tongue_limits import TongueLimits
from partscheck.build.tow_links import (
    TONGUE,
    WORST_TONGUE_READS,
    TowLoad,
    distributing,
    receiver_field,
    receiver_rating,
    tongue_known,
    vehicle_speaks,
    worst_tongue,
)
from partscheck.build.tow_places import TowChain
from partscheck.notation.interval import Interval
from partscheck.rules.basis import practice
from partscheck.rules.check import Check, Remedy, any_of, at_least
from partscheck.rules.less_weight import tongue_down
from partscheck.rules.message import Least
from partscheck.rules.registry import rule
from partscheck.rules.tongue_remedies import moves

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

STAMPED = practice("tongue ratings stand on the parts' plates and in the tow vehicle's papers")
JACK_RATED = practice("a jack's label gives the load that it may lift; the lever from axle to jack is derived")

DRAGS_DOWN = (
    "Too much on the ball lightens the tow vehicle's front wheels: it steers and brakes badly, and the hitch may "
    "tear off. Follow the tow vehicle's manual, the makers' instructions and local codes."
)
JACK_FALLS = (
    "A jack that gives way drops the tongue on whoever stands there. Chock the wheels, keep hands and feet clear, "
    "and follow the jack maker's instructions."
)
TOO_HEAVY = "The {who} may carry {have} of tongue weight{how}, but {need} stands on it{case}: {by} too much."


@rule(
    "tongue-over-rating",
    on=TowChain,
    reads=[
        "coupler.tongue_rating", "ball-mount.tongue_rating", "receiver.tongue_rating",
        "receiver.tongue_rating_distributing", "tow_vehicle.tongue_rating", "tow_vehicle.tow_rating",
        "tow_vehicle.tow_rating_unbraked", "tow_vehicle.weight", "tow_vehicle.weight_distribution",
        *WORST_TONGUE_READS,
    ],
    basis=STAMPED,
)  # fmt: skip
def tongue_over_rating(chain: TowChain) -> Iterator[Check]:
    """Coupler, ball mount, receiver and tow vehicle may each carry the tongue weight.

    Why: The tongue presses on each of them; a receiver's limit for it is far below what it may pull.
    Formula: tongue rating >= the greatest tongue weight: as typed, or of the load case that puts most on the ball
        (often another one than the heaviest). Of a receiver the pair on its plate that goes with the hitch.
    Remedy: Move load back, but not so far that the tongue gets light; or stronger parts, where the tow vehicle
        allows it.
    Hazard: The tow vehicle steers and brakes badly; the hitch tears.
    Wrong:
        service: {gross_weight: 2600 lb, tongue_weight: 300 lb}
        parts:
          - {kind: receiver, tongue_rating: 200 lb}
    Right:
        service: {gross_weight: 2600 lb, tongue_weight: 300 lb}
        parts:
          - {kind: receiver, tongue_rating: 350 lb}
    """
    for part in (chain.coupler, chain.mount):
        if part is not None:
            yield from _carries(chain, part, "tongue_rating", part.tongue_rating)
    if chain.receiver is not None:
        how = " with weight distribution" if distributing(chain) else ""
        field, rating = receiver_field(chain, TONGUE), receiver_rating(chain, TONGUE)
        yield from _carries(chain, chain.receiver, field, rating, how)
    if vehicle_speaks(chain):
        vehicle = chain.build.tow_vehicle
        yield from _carries(chain, vehicle, "tongue_rating", vehicle.tongue_rating)


def _carries(chain: TowChain, record: Any, field: str, rating: Interval, how: str = "") -> Iterator[Check]:
    """One rating against the worst tongue weight; asked for only once the tongue weight is known."""
    if not (record.has(field) or tongue_known(chain.weights)):
        return
    tongue, vehicle = worst_tongue(chain.weights), chain.build.tow_vehicle
    who = "tow vehicle" if record is vehicle else record
    check = at_least(rating, tongue.load).stop(TOO_HEAVY, who=who, how=how, case=tongue.in_case)
    check.because("Each of them bears the whole tongue weight, and the weakest is the limit.").danger(DRAGS_DOWN)
    check.fix(lambda: _lighten(chain, record, who, field, rating, tongue)).at(record, field)
    yield check.about(*(() if record is vehicle else (record,)))


def _lighten(
    chain: TowChain, record: Any, who: Any, field: str, rating: Interval, tongue: TowLoad
) -> Iterator[Remedy]:
    yield from moves(chain, TongueLimits(chain.build).good)
    yield tongue_down(
        chain.weights, rating, "or bring the tongue weight down to {most}{case}: move load back, and keep the "
        "tongue's share of the gross weight in its range", tongue.in_case,
    )  # fmt: skip
    words = (
        "or tow with a vehicle that may carry {least}" if who == "tow vehicle"
        else "or put one that may carry {least} in place of the {who}, where the tow vehicle may carry that too"
    )  # fmt: skip
    yield Remedy(
        words, field=f"{record.id}.{field}", relation="at least", target=tongue.load, least=Least(tongue.load),
        who=who,
    )  # fmt: skip


# ---- the jack ----------------------------------------------------------------------------------------------


@rule(
    "jack-below-tongue",
    on=TowChain,
    reads=["jack.rating", "jack.from_coupler", *WORST_TONGUE_READS],
    basis=JACK_RATED,
)
def jack_below_tongue(chain: TowChain) -> Check | None:
    """The tongue jack may lift the tongue weight.

    Why: Uncoupled, the jack holds up all that the ball held; set back from the ball it holds more.
    Formula: rating >= T L / (L - a): T the greatest tongue weight, L coupler to axle, a coupler to jack; with a
        not typed, T. Of several jacks one is enough.
    Remedy: A jack of a higher rating.
    Hazard: The tongue drops.
    Wrong:
        service: {gross_weight: 2600 lb, tongue_weight: 300 lb}
        parts:
          - {kind: jack, rating: 250 lb}
    Right:
        service: {gross_weight: 2600 lb, tongue_weight: 300 lb}
        parts:
          - {kind: jack, rating: 350 lb}
    """
    checks = [_lifts(chain, jack) for jack in chain.jacks if tongue_known(chain.weights) or jack.has("rating")]
    if not checks or not (chain.weights.given or chain.build.service.has("tongue_weight")):
        return None
    return any_of(*checks)


def _lifts(chain: TowChain, jack: Any) -> Check:
    tongue = worst_tongue(chain.weights)
    need = _at_jack(chain, jack, tongue.load)
    check = at_least(jack.rating, need).stop(
        "The {jack} may lift {have}, but {need} stands on it{case}: {by} too much.", jack=jack, case=tongue.in_case
    )
    check.because("Uncoupled, the tongue stands on the jack alone.").danger(JACK_FALLS)
    check.fix(lambda: [
        Remedy("put one rated at least {least} in place of the {jack}", field=f"{jack.id}.rating",
               relation="at least", target=need, least=Least(need), jack=jack)
    ])  # fmt: skip
    return check.at(jack, "rating").about(jack)


def _at_jack(chain: TowChain, jack: Any, tongue: Interval) -> Interval:
    """What stands on a jack that is set back from the ball, N: T L / (L - a), by moments about the axle."""
    layout = chain.build.layout
    if not (jack.has("from_coupler") and layout.has("coupler_to_axle")):
        return tongue
    back, span = jack.from_coupler, layout.coupler_to_axle
    if back.hi >= span.lo:
        return tongue
    least, most = (length / (length - way) for length, way in ((span.hi, back.lo), (span.lo, back.hi)))
    return Interval(tongue.lo * least, tongue.hi * most, "N")
