"""The links between trailer and tow vehicle: what each may pull and carry, and the worst case of what it must.

Gross weight and tongue weight each have a worst case of their own: a rack at the rear makes the trailer
heavier and its tongue lighter.
"""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build.brake_circuit import is_electric
from partscheck.build.load_cases import in_case
from partscheck.build.scale_readings import SCALE_READS
from partscheck.build.standing_loads import LOADS_READS
from partscheck.build.weights import InCase, greatest_in_case
from partscheck.formulas.towing import trailer_for_d_value
from partscheck.notation.interval import INF, Interval

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.model import Build
    from partscheck.build.tow_places import TowChain
    from partscheck.build.weights import Weights

GROSS, TONGUE = "gross", "tongue"
VEHICLE, UNBRAKED = "tow-vehicle", "tow-vehicle-unbraked"  # roles of the tow vehicle's own limits
RATING_OF = {GROSS: "rating", TONGUE: "tongue_rating"}
RUNNING_GEAR = ("axle", "suspension-arm", "spindle", "hub")

# What a rule reads that asks for the worst gross weight, or the worst tongue weight.
WORST_GROSS_READS = ("service.gross_weight", *LOADS_READS, *SCALE_READS)
WORST_TONGUE_READS = (*WORST_GROSS_READS, "service.tongue_weight", "practice.largest_tongue_share")
BRAKED_READS = (
    "brake.type", "brake.current", "brake.voltage", "tow_vehicle.brake_controller", "hub.drum_diameter",
    "hub.drum_outside", "hub.rotor_diameter",
)  # fmt: skip


class TowLoad:
    """``load`` in N and the ``case`` it comes from: "" as declared, or where the list names no cases."""

    __slots__ = ("case", "load")

    def __init__(self, load: InCase) -> None:
        self.load: Interval = load
        self.case = load.case

    @property
    def in_case(self) -> str:
        """ " in case 'loaded'", or nothing."""
        return in_case(self.case)


class Link:
    """One rating on the way: ``rating`` (N) of ``record`` (a part, or the tow vehicle) for ``of`` (gross or tongue
    weight), as typed in ``field``; by a D-value, the trailer that it is enough for.
    """

    __slots__ = ("field", "of", "rating", "record", "role")

    def __init__(self, record: Any, role: str, of: str, field: str, rating: Interval | None = None) -> None:
        self.record = record
        self.role = role
        self.of = of
        self.field = field
        self.rating: Interval = getattr(record, field) if rating is None else rating


# ---- the worst case ----------------------------------------------------------------------------------


def worst_gross(weights: Weights) -> TowLoad:
    """The heaviest that the trailer gets: as declared, or in a load case that is heavier still."""
    cases, declared = weights.cases(), weights.declares()
    found = [(case.total, case.name) for case in cases if not declared or case.total.known]
    if declared or not cases:
        typed = weights.build.service.has("gross_weight")
        found.append((weights.gross(), "" if typed else weights.readings.case))
    return TowLoad(greatest_in_case(found))


def worst_tongue(weights: Weights) -> TowLoad:
    """The most that the tongue puts on the ball: as typed, or in a load case that puts more on it."""
    return TowLoad(weights.greatest_tongue())


def tongue_known(weights: Weights) -> bool:
    """True when the tongue weight is typed or weighed, or every load case gives it."""
    cases = weights.cases()
    return weights.tongue_typed() or bool(cases and all(case.known for case in cases))


# ---- what each link is rated for ------------------------------------------------------------------------


def links(chain: TowChain) -> Iterator[Link]:
    """Every rating of the chain, from the trailer to the tow vehicle; of parts that are listed only."""
    for of in (GROSS, TONGUE):
        for role, part in (("coupler", chain.coupler), ("ball", chain.ball), ("ball-mount", chain.mount)):
            if part is not None and _is_rated(part, of):
                yield Link(part, role, of, RATING_OF[of])
            elif part is not None and by_d_value(part):
                yield from _by_d_value(chain, part, role)
        if chain.receiver is not None:
            yield Link(chain.receiver, "receiver", of, receiver_field(chain, of))
        if vehicle_speaks(chain):
            yield from _vehicle_links(chain, of)


def _is_rated(part: Any, of: str) -> bool:
    """A ball has no tongue rating; a D-value stands in the place of a gross weight."""
    return not by_d_value(part) if of == GROSS else bool(part.kind != "ball")


def by_d_value(part: Any) -> bool:
    """True for a coupler or ball with a D-value on its plate and no gross weight."""
    return part.kind in ("coupler", "ball") and bool(part.has("d_value")) and not part.says("rating")


def _by_d_value(chain: TowChain, part: Any, role: str) -> Iterator[Link]:
    """The heaviest trailer for the D-value behind this tow vehicle; none where the D-value is enough for any."""
    vehicle: Interval = chain.build.tow_vehicle.weight
    plate: Interval = part.d_value
    least = trailer_for_d_value(vehicle.hi, plate.lo)
    most = trailer_for_d_value(vehicle.lo, plate.hi) if vehicle.lo > 0 else INF
    if not vehicle.known:
        yield Link(part, role, GROSS, "d_value", Interval.unknown("N"))
    elif least != INF:
        yield Link(part, role, GROSS, "d_value", Interval(least, most, "N"))


def distributing(chain: TowChain) -> bool:
    """True when a weight distributing hitch is used."""
    vehicle = chain.build.tow_vehicle
    return bool(vehicle.has("weight_distribution") and vehicle.weight_distribution)


def receiver_field(chain: TowChain, of: str) -> str:
    """The field of the receiver's plate that counts: weight carrying, or weight distributing."""
    return RATING_OF[of] + ("_distributing" if distributing(chain) else "")


def receiver_rating(chain: TowChain, of: str) -> Interval:
    """What the receiver may pull, or carry on its ball, N, with the hitch that is used.

    A plate allows no less with weight distribution than without, so the other pair bounds an unknown one.
    """
    receiver, field = chain.receiver, receiver_field(chain, of)
    rating: Interval = getattr(receiver, field)
    other = RATING_OF[of] + ("" if distributing(chain) else "_distributing")
    if receiver.has(field) or not receiver.has(other):
        return rating
    known: Interval = getattr(receiver, other)
    return Interval(known.lo, INF, "N") if distributing(chain) else Interval(0.0, known.hi, "N")


def vehicle_speaks(chain: TowChain) -> bool:
    """True when what the tow vehicle may pull is a matter of this list: it says something of its weights, or
    it names the tow vehicle and a part that couples the trailer to it.
    """
    vehicle = chain.build.tow_vehicle
    of_weights = ("tow_rating", "tow_rating_unbraked", "tongue_rating", "weight", "weight_distribution")
    if any(vehicle.says(name) for name in of_weights):
        return True
    coupling = (chain.coupler, chain.ball, chain.mount, chain.receiver)
    return any(part is not None for part in coupling) and bool(vehicle.everything())


def _vehicle_links(chain: TowChain, of: str) -> Iterator[Link]:
    """The tow vehicle's own limits: tongue weight; braked trailer; trailer without brakes."""
    vehicle = chain.build.tow_vehicle
    if of == TONGUE:
        yield Link(vehicle, VEHICLE, TONGUE, "tongue_rating")
        return
    braked = has_brakes(chain)
    if vehicle.has("tow_rating") or braked is not False:
        yield Link(vehicle, VEHICLE, GROSS, "tow_rating")
    if braked is False:
        yield Link(vehicle, UNBRAKED, GROSS, "tow_rating_unbraked")


def braked_rating(vehicle: Any) -> Interval:
    """Heaviest trailer with brakes, N; not typed: no less than the heaviest one without."""
    rating: Interval = vehicle.tow_rating
    if vehicle.has("tow_rating") or not vehicle.has("tow_rating_unbraked"):
        return rating
    return Interval(vehicle.tow_rating_unbraked.lo, INF, "N")


def unbraked_rating(vehicle: Any) -> Interval:
    """Heaviest trailer without brakes, N; not typed: no more than the heaviest one with them."""
    rating: Interval = vehicle.tow_rating_unbraked
    if vehicle.has("tow_rating_unbraked") or not vehicle.has("tow_rating"):
        return rating
    return Interval(0.0, vehicle.tow_rating.hi, "N")


# ---- whether the trailer brakes ----------------------------------------------------------------------------


def has_brakes(chain: TowChain) -> bool | None:
    """True with brakes that work, False without, None where the list does not show it.

    Electric brakes do not work where the tow vehicle has no controller for them, as typed.  Running gear
    without brakes on the list is unbraked, unless its hubs have drums or rotors.
    """
    build = chain.build
    brakes = build.of_kind("brake")
    if brakes:
        return not (no_controller(build) and all(is_electric(brake) for brake in brakes))
    fields = ("drum_diameter", "drum_outside", "rotor_diameter")
    if any(hub.has(name) for hub in build.of_kind("hub") for name in fields):
        return None
    return False if build.of_kind(*RUNNING_GEAR) else None


def no_controller(build: Build) -> bool:
    """True when the list says that the tow vehicle has no brake controller, and lists none."""
    vehicle = build.tow_vehicle
    said = vehicle.has("brake_controller") and not vehicle.brake_controller
    return bool(said) and not build.of_kind("brake-controller")
