"""After the work: torques checked again in the first miles, and what to look at on the first tow."""

from __future__ import annotations

from partscheck.notation.interval import Interval
from partscheck.rules.basis import practice
from partscheck.rules.findings import MEASURE, NOTE, OK, STOP
from partscheck.uses.shop.drilling import joints
from partscheck.uses.shop.sheet import FROM_LIST, Bound, Section, Step, limits_basis
from partscheck.uses.shop.wheels import HAZARD as WHEEL_HAZARD
from partscheck.uses.shop.wheels import lug_sets

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import Any

    from partscheck.build.limits import Limits
    from partscheck.engine import Result
    from partscheck.rules.basis import Basis

AGAIN = practice("checking torques again in the first miles, and before every trip")
FIRST_TOW = practice("walk-round and first tow on a quiet road")
TOW_HAZARD = (
    "A trailer that comes off, sways or cannot be stopped kills other people. Lights, brakes, chains and "
    "registration by the law of your place. Quiet road, low speed, nobody near the coupler while it is lowered."
)
KM = 1e-6  # of a mm


def way(value: Interval) -> Interval:
    """A distance of road, as it prints: km and miles."""
    return Interval(value.lo * KM, value.hi * KM, "km")


WAYS = ("first", "second", "third", "last")


def ways_basis(limits: Limits) -> list[Basis]:
    return [AGAIN, *limits_basis(limits, *(f"retorque_{name}" for name in WAYS))]


def ways(limits: Limits) -> dict[str, Any]:
    return {name: way(getattr(limits, f"retorque_{name}")) for name in WAYS}


# ---- torques again -------------------------------------------------------------------------------


def again(result: Result) -> Section:
    steps = [*_wheels_again(result), *_joints_again(result)]
    return Section("again", "Check the torques again", steps, (), WHEEL_HAZARD if steps else "", (AGAIN,))


def _wheels_again(result: Result) -> Iterator[Step]:
    sets = lug_sets(result)
    outer = [lugs for lugs in sets if not lugs.hub_side]
    values = ways(result.build.limits)
    if outer:
        what = "wheel bolts" if all(lugs.bolted for lugs in outer) else "wheel nuts"
        step = Step(
            "all {what} at {places} after {first}, {second} and {third}, and once more by {last}.",
            [part for lugs in outer for part in lugs.parts],
            _places(outer),
            what=what,
            places=", ".join(_places(outer)),
            **values,
        )
        step.more(
            "Cold, wheel on the ground: the wrench at the full torque, in the star order. Do not loosen first."
        )
        step.more("Date: {first} ________ {second} ________ {third} ________ {last} ________", **values)
        step.more(
            "One that turns more than a little, twice in a row: wheel off, and look at seat, stud and faces."
        )
        yield step.by(*ways_basis(result.build.limits)).take("torque wrench")
    inner = [lugs for lugs in sets if lugs.hub_side]
    if inner:
        step = Step(
            "the nuts under the wheels at {places}: take each wheel off once, after {second} to {third}, and "
            "check them too.",
            [part for lugs in inner for part in lugs.parts],
            _places(inner),
            places=", ".join(_places(inner)),
            **values,
        )
        step.more("Nobody sees them with the wheel on. Then start the wheel's own checks from the beginning.")
        yield step.by(*ways_basis(result.build.limits))


def _places(sets: list[Any]) -> tuple[str, ...]:
    return tuple(sorted({at for lugs in sets for at in lugs.at}))


def _joints_again(result: Result) -> Iterator[Step]:
    names = [place.name for place in joints(result)]
    if names:
        values = ways(result.build.limits)
        step = Step(
            "the bolts of {joints} after {third}, and by {last}.",
            at=names,
            joints=", ".join(f"'{name}'" for name in names),
            **values,
        )
        step.more(
            "Look for bright rings, rust streaks and paint that cracked round a head: there the joint moves."
        )
        yield step.by(*ways_basis(result.build.limits))


# ---- first tow -----------------------------------------------------------------------------------


def first_tow(result: Result) -> Section:
    steps = [
        *_settled(result),
        *_hitch(result),
        *_lights(result),
        *_brakes(result),
        *_tires(result),
        *_walk(result),
        *_warm(result),
    ]
    return Section("tow", "First tow", steps, (), TOW_HAZARD if steps else "", (FIRST_TOW,))


def _lines(result: Result, *kinds: str) -> list[Any]:
    return list(result.build.of_kind(*kinds))


def _settled(result: Result) -> Iterator[Step]:
    """Nothing is towed on a list that has a stop or something left to measure."""
    if any(finding.verdict in (STOP, MEASURE) for finding in result.findings):
        yield Step(
            "tow nothing yet: the list still has a stop, or something to measure. Put it right, check the list "
            "again, and print this sheet again."
        ).by(FIRST_TOW)


def _hitch(result: Result) -> Iterator[Step]:
    couplers, balls = _lines(result, "coupler"), _lines(result, "ball")
    if couplers:
        step = Step(
            "coupler on the ball, latch closed and pinned; then lift the tongue with the jack: both come up "
            "together.",
            [*couplers, *balls],
        )
        sizes = [
            part
            for part in (*couplers, *balls)
            if part.has("ball_diameter" if part.kind == "coupler" else "diameter")
        ]
        for part in sizes:
            size = part.ball_diameter if part.kind == "coupler" else part.diameter
            step.more("Read {size} on the {part}.", size=size, part=part).by(FROM_LIST)
        yield step.by(FIRST_TOW).minds("tow_sizes", "tow_ratings", "tongue_ratings", "hitch_level")
    if balls:
        yield (
            Step("the nut under the ball: to the torque of the ball maker's sheet, lock washer flat.", balls)
            .by(FIRST_TOW)
            .take("large torque wrench")
            .minds("tow_sizes")
        )
    chains = _lines(result, "safety-chain")
    if chains:
        yield (
            Step(
                "chains crossed under the coupler, hooks closed, slack enough to turn, nothing on the ground.",
                chains,
            )
            .by(FIRST_TOW)
            .minds("safety_chains", "quantities")
        )
    elif couplers:
        yield (
            Step(
                "safety chains: none is on the list. Look up what the law of your place asks before you tow.",
                couplers,
            ).by(FIRST_TOW)
        )


def _lights(result: Result) -> Iterator[Step]:
    lit = _lines(result, "lamp", "connector")
    if lit:
        step = Step(
            "lights with a helper behind: tail, brake, left, right; then again with the headlamps on.", lit
        )
        step.more("All dim, or the wrong ones glow: the ground wire is bad.")
        yield step.by(FIRST_TOW).take("test lamp or multimeter").minds("lamps", "connector")


def _brakes(result: Result) -> Iterator[Step]:
    brakes = _lines(result, "brake")
    electric = [brake for brake in brakes if brake.has("type") and brake.type == "electric"]
    if electric:
        step = Step(
            "brakes at walking pace by the controller's lever alone: they bite on both sides and let go.",
            [*electric, *_lines(result, "brake-controller", "wire")],
        )
        step.more("Turn the gain down until no wheel locks, by the controller's instructions.")
        yield step.by(FIRST_TOW).minds("brakes", "hands", "brake_supply", "wiring")
    elif brakes:
        yield (
            Step("brakes at walking pace, several times: they bite on both sides and let go.", brakes)
            .by(FIRST_TOW)
            .minds("brakes", "hands", "brake_supply")
        )
    kits = _lines(result, "breakaway-kit")
    if kits:
        step = Step(
            "breakaway: trailer unplugged, pull its pin: the wheels are held. Push the pin back at once.",
            [*kits, *_lines(result, "battery")],
        )
        step.more("Its cable goes to the tow vehicle itself, not to the ball mount or a chain.")
        yield step.by(FIRST_TOW).minds("brake_supply")


def _tires(result: Result) -> Iterator[Step]:
    done: set[str] = set()
    for finding in (*result.of("tire-pressure-over-wheel"), *result.of("valve-below-pressure")):
        parts: list[Any] = list(finding.parts)
        tire = next((part for part in parts if part.kind == "tire"), None)
        needed = finding.check.have
        known = isinstance(needed, Interval) and needed.known and finding.verdict in (OK, NOTE)
        if tire is None or tire.id in done or not known:
            continue
        done.add(tire.id)
        at = tuple(one for one in finding.at if one != "spare")
        step = Step(
            "pressure of the {tire}, cold: {needed} carries this load.",
            (tire,),
            at,
            tire=tire,
            needed=Bound(Interval.exact(needed.hi, "kPa"), up=True),
        )
        tops = [part.max_pressure for part in parts if part.kind in ("tire", "wheel") and part.has("max_pressure")]
        if tops:
            step.more(
                "Never over {most}, the least of what tire and wheel carry by their marks.",
                most=min(tops, key=lambda one: one.lo),
            ).by(FROM_LIST)
        step.more("The tire maker's load table governs. The spare too.")
        yield step.by(*finding.basis).take("pressure gauge").minds("tires", "tire_loads", "tire_markings")
    rest = [tire for tire in _lines(result, "tire") if tire.id not in done]
    if rest:
        yield (
            Step(
                "pressure of the tires, cold, by the tire maker's load table for this load; the list does not "
                "settle it.",
                rest,
            )
            .by(FIRST_TOW)
            .take("pressure gauge")
            .minds("tires", "tire_loads", "tire_markings")
        )


def _walk(result: Result) -> Iterator[Step]:
    wheels = [end for end in result.fit.ends if end.wheel is not None]
    if wheels:
        step = Step(
            "turn each wheel by hand a full turn, and rock the trailer: nothing rubs.",
            dict.fromkeys(end.wheel for end in wheels),
            sorted(at for end in wheels for at in end.at),
        )
        yield step.by(FIRST_TOW)
    if result.build.loads or _lines(result, "coupler"):
        step = Step("loaded and level: the tongue weighed, and the load tied down so that it cannot shift.")
        yield step.by(FIRST_TOW).take("bathroom scale and a block").minds("balance", "tongue")


def _warm(result: Result) -> Iterator[Step]:
    ends = [end for end in result.fit.ends if end.hub is not None]
    if ends:
        first = ways(result.build.limits)["first"]
        step = Step(
            "after {first}{easy}: a hand on each hub at {places}.",
            dict.fromkeys(end.hub for end in ends),
            sorted(at for end in ends for at in end.at),
            first=first,
            easy=", brakes used little" if result.build.of_kind("brake") else "",
            places=", ".join(sorted(at for end in ends for at in end.at)),
        )
        step.more(
            "Warm and alike is right. One too hot to leave the hand on: stop, do not drive on. Its bearing is "
            "set "
            "too tight or dry" + (", or a brake drags." if result.build.of_kind("brake") else ".")
        )
        yield step.by(*ways_basis(result.build.limits)).danger(
            "A hub can be hot enough to burn: come near it with the back of the hand first."
        )
