"""What stands on an axle in each load case: against its ratings, and left against right."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from partscheck.build.case_loads import corner_in_case, known_cases
from partscheck.build.load_cases import CaseWeights
from partscheck.build.places import AxlePlace, Whole
from partscheck.build.weights import AXLE_LOAD_READS, CORNER_LOAD_READS, case_of, in_its_case
from partscheck.build.wheel_data import load_on_trailer
from partscheck.notation.interval import Interval
from partscheck.notation.percent import percent, show_percent
from partscheck.rules.basis import practice, published
from partscheck.rules.check import AT_LEAST, AT_MOST, Check, Remedy, all_of, at_least, at_most
from partscheck.rules.less_weight import load_less
from partscheck.rules.message import Least, Most
from partscheck.rules.registry import rule
from partscheck.rules.shares import AXLE_BREAKS
from partscheck.rules.targets import no_less, no_more
from partscheck.rules.tire_loads import LOAD_READS

TYPE_CHECKING = False
if TYPE_CHECKING:
    from partscheck.build.load_cases import CaseLoad

STATICS = practice("statics: moments of the loads about the coupler, in each load case")
GAWR_LAW = published("NHTSA letter nht76-3.20: a trailer's GAWR is not less than what is actually on the axle")
LEANS = practice("left and right wheel within the practice limit; the moment about a wheel is derived")
PULLS = (
    "A trailer that leans pulls to one side when it brakes, and tips sooner in a bend. Tie the load down where it "
    "stands, and go by the tire maker's table for the heavier wheel."
)
EXACT = 1e-9


# ---- ratings of the axle -----------------------------------------------------------------------------


@rule(
    "axle-over-rating",
    on=Whole,
    reads=["layout.gawr", "axle.rating", *LOAD_READS, *AXLE_LOAD_READS],
    basis=(STATICS, GAWR_LAW),
)
def axle_over_rating(whole: Whole) -> Iterator[Check]:
    """In every load case an axle carries no more than it is rated for, nor than is declared for it (GAWR).

    Why: What stands behind the axle loads it with more than its own weight; the case that is worst for the axle is
        often another one than that which is worst for the tongue.
    Formula: axle load = sum(weight x distance behind the coupler) / coupler to axle in each case, and gross less
        tongue weight as declared; of several axles its share. At most the declared GAWR, and the axle's rating.
    Remedy: Take load off, foremost what stands far back; where every part of the axle carries more, a higher GAWR;
        else a stronger axle.
    Hazard: An overloaded axle bends or breaks, and its tires burst.
    Wrong:
        layout: {coupler_to_axle: 120 in, gawr: 2400 lb}
        loads:
          - {what: trailer, weight: 2490 lb, from_coupler: 110.04 in}
          - {what: rear rack, weight: 110 lb, from_coupler: 208 in, cases: [racked]}
        load_cases: [empty rack, racked]
        parts: []
    Right:
        layout: {coupler_to_axle: 120 in, gawr: 2500 lb}
        loads:
          - {what: trailer, weight: 2490 lb, from_coupler: 110.04 in}
          - {what: rear rack, weight: 110 lb, from_coupler: 208 in, cases: [racked]}
        load_cases: [empty rack, racked]
        parts: []
    """
    if not whole.weights.given:
        return
    places = whole.fit.bindings(AxlePlace)
    for number in range(1, whole.fit.axles + 1):
        place = next((one for one in places if one.number == number), None)
        checks = list(_against_ratings(whole, number, place))
        if checks:
            yield all_of(*checks)


def _against_ratings(whole: Whole, number: int, place: AxlePlace | None) -> Iterator[Check]:
    """The axle's load against the GAWR, and against the rating of its part where load cases say more."""
    layout, load = whole.build.layout, whole.weights.axle_load(number)
    axle = None if place is None else place.axle
    if layout.has("gawr"):
        check = at_least(layout.gawr, load).stop(
            "{need} stands on axle {number}{case}: {by} more than the {have} that is declared for it (GAWR).",
            number=str(number), case=in_its_case(load),
        ).on_basis(GAWR_LAW if not whole.weights.cases() else STATICS)  # fmt: skip
        yield _told(whole, check.at(layout, "gawr"), place, load)
    if axle is not None and axle.has("rating") and (layout.has("gawr") or whole.weights.cases()):
        check = at_least(axle.rating, load).stop(
            "{need} stands on axle {number}{case}: {by} more than the {have} that the {axle} is rated for.",
            number=str(number), case=in_its_case(load), axle=axle,
        ).on_basis(STATICS)  # fmt: skip
        yield _told(whole, check.at(axle, "rating"), place, load)


def _told(whole: Whole, check: Check, place: AxlePlace | None, load: Interval) -> Check:
    check.because("A rating is what the axle carries at rest, road shock already in it: it holds no reserve.")
    check.fix(_less_on_the_axle(whole, place, load, check)).danger(AXLE_BREAKS)
    parts = () if place is None else (place.axle,)
    return check.about(*parts, places=() if place is None else place.at)


def _less_on_the_axle(
    whole: Whole, place: AxlePlace | None, load: Interval, check: Check
) -> Callable[[], Iterator[Remedy]]:
    def remedies() -> Iterator[Remedy]:
        declared, limit = check.blame is not None and check.blame[1] == "gawr", check.have
        carry, what, others = _what_parts_carry(place)
        if declared and carry is not None and carry.lo >= load.hi:
            yield Remedy(
                "{what} {carry}: declare a GAWR of at least {least}, once {others} carry it too",
                field="layout.gawr", relation=AT_LEAST, target=load, operation="declare", carry=carry,
                least=Least(load), what=what, others=others,
            )  # fmt: skip
        yield from _off_one_load(whole, load, limit)
        if not case_of(load):
            most = whole.weights.gross_at(limit, load, of_axle=True)
            yield load_less(whole.weights, most)
        if place is not None and place.axle is not None and place.axle.rating.lo < load.hi:
            words = "or take an axle rated at least {least}" + (", and declare as much" if declared else "")
            yield Remedy(words, field=f"{place.axle.id}.rating", relation=AT_LEAST, target=load, least=Least(load))

    return remedies


def _what_parts_carry(place: AxlePlace | None) -> tuple[Interval | None, str, str]:
    """The least of the axle's rating and its tires' together (None where they are not all known), in words, and
    what else has to carry it.
    """
    nothing = (None, "", "")
    if place is None:
        return nothing
    tires = [tire for _, tire in place.each("tire")]
    if len(tires) < 2:
        if tires or place.axle is None or not place.axle.rating.known:
            return nothing
        return place.axle.rating, "the axle carries", "tires, wheels, hubs and springs"
    total = sum((load_on_trailer(tire, place) for tire in tires), Interval(0.0, 0.0, "N"))
    rest = "wheels, hubs and springs"
    if place.axle is None:
        return (total, "the tires carry", rest) if total.known else nothing
    rating: Interval = place.axle.rating
    if not (total.known and rating.known):
        return nothing
    least = Interval(min(total.lo, rating.lo), min(total.hi, rating.hi), "N")
    return least, "axle and tires carry", rest


def _off_one_load(whole: Whole, load: Interval, limit: Interval) -> Iterator[Remedy]:
    """How much less of one load that comes and goes would do, in the case that is the worst: of the one that
    stands farthest back; else how much less in all.
    """
    case = next((one for one in known_cases(whole.weights) if one.name == case_of(load) and case_of(load)), None)
    share = whole.weights.axle_share()
    if case is None or not case.span.is_exact or not case.span.lo > 0 or not load.known:
        return
    over = (load.hi - limit.lo) / share.hi
    found = [(one, over / arm) for one in case.loads if (arm := _reach(one, case)) > 0]
    found = [pair for pair in found if pair[1] <= pair[0].weight.lo and _comes_and_goes(pair[0])]
    if not found:
        most = case.total * (limit.lo / load.hi)
        yield Remedy(
            "or load less in that case: at most {most} in all, everything in it alike", operation="shop",
            most=Most(most),
        )  # fmt: skip
        return
    one, off = min(found, key=lambda pair: pair[1])
    most, less = Interval.exact(one.weight.lo - off, "N"), Interval.exact(off, "N")
    gross = ", and declare the gross weight that is then left" if whole.weights.declares() else ""
    yield Remedy(
        "or take {off} off the {what}: at most {most} of it" + gross, field=f"{one.load.record.id}.weight",
        relation=AT_MOST, target=most, operation="shop", off=Least(less), what=one.what, most=Most(most),
    )  # fmt: skip


def _comes_and_goes(one: CaseLoad) -> bool:
    return one.load.cases is not None or one.load.part is not None


def _reach(one: CaseLoad, case: CaseWeights) -> float:
    """The part of a load's weight that the axle carries."""
    arm = one.arm(case.span.lo)
    return arm.lo if arm.known and one.weight.known else 0.0


# ---- left and right ----------------------------------------------------------------------------------


@rule(
    "side-to-side",
    on=AxlePlace,
    reads=[*CORNER_LOAD_READS, "practice.side_difference_most"],
    basis=LEANS,
    after=["tire-below-corner", "wheel-below-share"],
)
def side_to_side(place: AxlePlace) -> Check | None:
    """The left and the right wheel of an axle carry about the same in every load case.

    Why: A load beside the centre line leans on one wheel: it wears one tire, and the trailer pulls to that side.
    Formula: difference = 2 |y| / track of what stands on the axle, y the common centre of the case's loads beside
        the centre line, track between the wheels' load planes. At most the practice limit. Loads without
        `from_centre` count as standing in the middle; a list with none of them asks nothing.
    Remedy: Move the load that is farthest off towards the middle, by what is computed here.
    Wrong:
        layout: {coupler_to_axle: 120 in, hub_face_distance: 60 in}
        loads:
          - {what: deck, weight: 1000 lb, from_coupler: 110 in}
          - {what: cargo, weight: 1000 lb, from_coupler: 112 in, from_centre: 8 in}
        parts:
          - {kind: wheel, offset: 0 mm}
    Right:
        layout: {coupler_to_axle: 120 in, hub_face_distance: 60 in}
        loads:
          - {what: deck, weight: 1000 lb, from_coupler: 110 in}
          - {what: cargo, weight: 1000 lb, from_coupler: 112 in, from_centre: 4 in}
        parts:
          - {kind: wheel, offset: 0 mm}
    """
    weights, cases = place.weights, known_cases(place.weights)
    if not (cases and weights.leans()):
        return None
    track = weights.track(place.ends[0])
    if not (track.known and track.lo > 0):
        return None
    return all_of(*(_apart(place, case, track) for case in cases))


def _apart(place: AxlePlace, case: CaseWeights, track: Interval) -> Check:
    most = place.limits.side_difference_most.hi
    check = at_most((abs(case.sideways) * 2 / track).bare(), Interval.exact(most))
    side, other = ("right", "left") if case.sideways.mid > 0 else ("left", "right")
    heavy, light = (_one_wheel(place, case, one) for one in (side, other))
    check.caution(
        "The {side} wheel of axle {number} carries {heavy}, the {other} one {light}{case}: {percent} of what "
        "stands on the axle apart, and {most} are the most.",
        side=side, other=other, number=str(place.number), heavy=heavy, light=light, case=case.in_words,
        percent=show_percent(check.have, most), most=percent(most),
    )  # fmt: skip
    check.because("The heavier wheel wears its tire and bearings, and the trailer leans and pulls to that side.")
    check.fix(lambda: _towards_the_middle(place, case, track, most)).danger(PULLS)
    return check.at(_farthest_off(case).load.record, "from_centre").about(place.axle, places=place.at)


def _one_wheel(place: AxlePlace, case: CaseWeights, side: str) -> Interval:
    at = f"{place.number}{side[0].upper()}"
    end = next((end for end in place.ends if at in end.at), place.ends[0])
    return corner_in_case(place.weights, end, (at,), case)


def _farthest_off(case: CaseWeights) -> CaseLoad:
    """The load whose moment about the centre line leans the trailer most, to the side where it leans."""
    sign = 1 if case.sideways.mid > 0 else -1
    return max(case.loads, key=lambda one: sign * one.weight.mid * one.load.from_centre.mid)


def _towards_the_middle(place: AxlePlace, case: CaseWeights, track: Interval, most: float) -> Iterator[Remedy]:
    one, sign = _farthest_off(case), 1 if case.sideways.mid > 0 else -1
    reach = max(abs(case.sideways.lo), abs(case.sideways.hi))
    shift = no_less((reach - most * track.lo / 2) * case.total.hi / max(one.weight.lo, EXACT))
    stands = sign * one.load.from_centre.mid - shift.lo
    field, words = f"{one.load.record.id}.from_centre", "move the {what} by {shift} to the {way}"
    if stands >= 0:
        target = no_more(stands)
        yield Remedy(
            words + ", so that its middle is at most {off} off the centre line", field=field,
            relation=AT_MOST if sign > 0 else AT_LEAST, target=target if sign > 0 else -target, operation="shop",
            what=one.what, shift=shift, way="left" if sign > 0 else "right", off=target,
        )  # fmt: skip
        return
    yield Remedy(
        words + ", over the centre line, or share it out on both sides", field=field,
        relation=AT_MOST if sign > 0 else AT_LEAST, target=Interval.exact(sign * stands, "mm"), operation="shop",
        what=one.what, shift=shift, way="left" if sign > 0 else "right",
    )  # fmt: skip
