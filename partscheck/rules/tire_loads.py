"""Tires under load: the tires of an axle together, and each tire in its own corner."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from partscheck.build.places import AxlePlace, WheelEnd
from partscheck.build.weights import AXLE_LOAD_READS, CORNER_LOAD_READS, in_its_case
from partscheck.build.wheel_data import (
    divided_load,
    divides_passenger_tires,
    is_passenger,
    load_on_trailer,
    rating_each,
    tire_max_load,
)
from partscheck.notation.interval import Interval
from partscheck.rules.basis import Basis, practice, published
from partscheck.rules.check import Check, Remedy, all_of, at_least
from partscheck.rules.less_weight import less_on_it
from partscheck.rules.message import Least, Most
from partscheck.rules.registry import rule

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

TIRE_BURSTS = (
    "An overloaded tire runs hot and bursts at speed; the trailer swings out and can overturn. Go by the "
    "tire maker's load table, and by the law of the place."
)
SUM_RULE = published(
    "49 CFR 571.120: the tires' ratings on an axle together not less than its GAWR (secondary copy read)"
)
DIVISOR_RULE = published(
    "FMVSS 120 S5.1.2 (1976 text) in NHTSA letter nht76-1.47: the rating of a passenger car tire on a "
    "trailer is divided by 1.10"
)
UNSTATED = practice(
    "no country is stated: the divisor 1.10 of the US rule (FMVSS 120 S5.1.2) stands as a practice limit"
)
STATICS = practice("the tires of an axle together carry at least what stands on it")
CORNER = practice("statics: what one wheel carries at rest, its rating not exceeded")
ELSEWHERE = practice("a trailer works its tires harder than a car; no law outside the US was read")

LOAD_READS = (
    "tire.max_load", "tire.load_index", "tire.service_description", "tire.size", "service.country",
    "practice.passenger_tire_divisor",
)  # fmt: skip


@rule(
    "tires-below-axle",
    on=AxlePlace,
    reads=[
        *LOAD_READS, *AXLE_LOAD_READS, "layout.gawr", "axle.rating", "suspension-arm.rating",
        "suspension-arm.per",
    ],
    basis=(SUM_RULE, DIVISOR_RULE),
)  # fmt: skip
def tires_below_axle(axle: AxlePlace) -> Iterator[Check]:
    """The tires of an axle together carry what stands on it, and the axle rating that is declared.

    Why: A tire may carry less than the axle is sold for; then the tires set what the axle may carry.
    Formula: sum of the tires' ratings >= axle load, and >= the declared GAWR. A passenger car tire (P, or a
        metric size without LT, ST or C) counts rating / 1.10: by law in the US, as a practice limit where no
        country is stated; where another country is stated, falling below it is a caution. Nothing is rounded.
        Below the rating of the axle part alone: a caution to declare less.
    Remedy: Tires of a higher rating, or trailer (ST) or light truck (LT) tires; or a lower declared weight.
    Hazard: An overloaded tire bursts.
    Wrong:
        service: {gross_weight: 2906 lb, tongue_weight: 0 lb}
        parts:
          - {kind: tire, size: P205/75R15, max_load: 1598 lb, qty: 2}
    Right:
        service: {gross_weight: 2905 lb, tongue_weight: 0 lb}
        parts:
          - {kind: tire, size: P205/75R15, max_load: 1598 lb, qty: 2}
    """
    tires = [tire for _, tire in axle.each("tire")]
    if len(tires) < 2 or not _worth_asking(axle, tires):
        return
    group = _Group(axle, tires)
    load = group.against(axle.load, _TOO_LITTLE)
    load.fix(lambda: group.for_load(axle.load))
    if axle.build.layout.has("gawr"):
        gawr = axle.build.layout.gawr
        declared = group.against(gawr, _BELOW_GAWR)
        declared.at(axle.build.layout, "gawr").fix(lambda: group.for_gawr(gawr, load.holds))
        one_cause = load.fails and declared.fails
        yield from [all_of(load, declared)] if one_cause else [load, declared]
    else:
        yield load
        if not load.fails:
            yield from group.component_checks()
    if not load.fails:
        yield from group.elsewhere()


_TOO_LITTLE = (
    "The tires of axle {number} carry {have} together{divided}, but {need} stands on the axle{case}: {by} too "
    "little."
)
_BELOW_GAWR = (
    "The tires of axle {number} carry {have} together{divided}, less than the declared axle rating (GAWR) of "
    "{need}: {by} too little."
)


class _Group:
    """The tires of one axle and what they carry together."""

    def __init__(self, axle: AxlePlace, tires: list[Any]) -> None:
        self.axle = axle
        self.tires = tires
        self.lines = list(dict.fromkeys(tires))
        self.total = sum((load_on_trailer(tire, axle) for tire in tires), Interval(0.0, 0.0, "N"))

    @property
    def divided(self) -> str:
        if divides_passenger_tires(self.axle) and any(is_passenger(tire) for tire in self.lines):
            return f" (a passenger car tire counts its rating divided by {self._divisor():.2f} on a trailer)"
        return ""

    def against(self, need: Interval, words: str) -> Check:
        check = at_least(self.total, need)
        check.stop(words, number=self.axle.number, divided=self.divided, case=in_its_case(need))
        check.because("A tire's rating is all it carries; road shock is in it already.").danger(TIRE_BURSTS)
        basis = self._basis()
        if basis is not None:
            check.on_basis(basis)
        return check.at(self.lines[0], "max_load").about(*self.lines, places=self.axle.at)

    def _basis(self) -> Basis | None:
        """What stands behind this axle's sum; None: both rules of law, as the rule itself says."""
        service = self.axle.build.service
        if not service.has("country"):
            return UNSTATED if self.divided else SUM_RULE
        if service.country != "US":
            return STATICS
        return None if self.divided else SUM_RULE

    def for_load(self, load: Interval) -> Iterator[Remedy]:
        yield from self._better_tires(load)
        yield less_on_it(self.axle.weights, self.total, load, of_axle=True)

    def for_gawr(self, gawr: Interval, load_holds: bool) -> Iterator[Remedy]:
        if load_holds:
            yield self._lower_gawr("")
        yield from self._better_tires(gawr)

    def component_checks(self) -> Iterator[Check]:
        """Against the rating of the axle part, where no GAWR is declared."""
        found = _component(self.axle)
        if found is None:
            return
        part, rating = found
        check = at_least(self.total, rating).caution(
            "The tires of axle {number} carry {have} together{divided}, less than the {need} that the {part} "
            "is rated for: the tires set the limit, declare a GAWR of at most {most}.",
            number=self.axle.number, divided=self.divided, part=part, most=Most(self.total),
        )  # fmt: skip
        check.because("The law compares tires with the rating you declare, not with the axle's stamp.")
        check.fix(lambda: [self._lower_gawr("write it in layout: "), *self._better_tires(rating)])
        yield check.about(*self.lines, part, places=self.axle.at).at(self.lines[0], "max_load")

    def elsewhere(self) -> Iterator[Check]:
        """Where another country is stated: the divisor as good practice only."""
        axle = self.axle
        if divides_passenger_tires(axle) or not any(is_passenger(tire) for tire in self.lines):
            return
        less = sum((divided_load(tire, tire_max_load(tire, axle), axle) for tire in self.tires),
                   Interval(0.0, 0.0, "N"))  # fmt: skip
        check = at_least(less, axle.load).caution(
            "The tires of axle {number} are passenger car tires: divided by {divisor}, as good practice "
            "counts them on a trailer, they carry {have} together, and {need} stands on the axle: {by} too "
            "little.",
            number=axle.number, divisor=f"{self._divisor():.2f}",
        )  # fmt: skip
        check.because("A trailer works its tires longer and harder than a car does.").on_basis(ELSEWHERE)
        check.fix(lambda: self._better_tires(axle.load))
        if check.fails:  # good practice alone is not worth a question
            yield check.about(*self.lines, places=axle.at).at(self.lines[0], "max_load")

    def _lower_gawr(self, lead: str) -> Remedy:
        return Remedy(
            lead + "declare a GAWR of at most {most}",
            field="layout.gawr",
            relation="at most",
            target=self.total,
            operation="declare",
            most=Most(self.total),
        )

    def _better_tires(self, need: Interval) -> Iterator[Remedy]:
        """Tires that would carry ``need``: of the present sort, and of the sort that counts in full."""
        each = need * (1 / len(self.tires))
        for line in self.lines:
            divided = bool(divides_passenger_tires(self.axle) and is_passenger(line))
            moulded = each * self._divisor() if divided else each
            words = "or get tires moulded with at least {each} each"
            if divided:
                words = (
                    "or get trailer (ST) or light truck (LT) tires of at least {plain} each, or passenger car "
                    "tires of at least {each} each"
                )
            yield Remedy(words, field=f"{line.id}.max_load", relation="at least", target=moulded,
                         each=Least(moulded), plain=Least(each))  # fmt: skip

    def _divisor(self) -> float:
        return max(1.0, self.axle.limits.passenger_tire_divisor.hi)


@rule(
    "tire-below-corner",
    on=WheelEnd,
    reads=[*LOAD_READS, *CORNER_LOAD_READS],
    basis=(CORNER, DIVISOR_RULE),
    after=["tires-below-axle"],
)
def tire_below_corner(end: WheelEnd) -> Iterator[Check]:
    """Each tire carries what stands on its own corner.

    Why: A load beside the centre line leans on one wheel; the sum of both tires does not tell.
    Formula: rating (a passenger car tire's divided by 1.10, as for the axle) >= axle load
        x (1/2 +- y / track), y the loads' common centre beside the centre line; half the axle load when no
        load says where it stands sideways. The coupler's part of the sideways moment is left out.
    Remedy: Tires of a higher rating, or the load moved to the middle.
    Hazard: An overloaded tire bursts.
    Wrong:
        layout: {coupler_to_axle: 120 in, hub_face_distance: 70 in}
        loads:
          - {what: cargo, weight: 2700 lb, from_coupler: 120 in, from_centre: 3 in}
        parts:
          - {kind: wheel, size: 15 x 7 in, offset: 0 mm}
          - {kind: tire, size: P205/75R15, max_load: 1598 lb}
    Right:
        layout: {coupler_to_axle: 120 in, hub_face_distance: 70 in}
        loads:
          - {what: cargo, weight: 2700 lb, from_coupler: 120 in, from_centre: 2 in}
        parts:
          - {kind: wheel, size: 15 x 7 in, offset: 0 mm}
          - {kind: tire, size: P205/75R15, max_load: 1598 lb}
    """
    tire = end.tire
    if tire is None or not _worth_asking(end, [tire]):
        return
    rating = load_on_trailer(tire, end)
    for places, load in end.weights.place_loads(end):
        check = at_least(rating, load).stop(
            "The {tire} counts for {have}, but {need} stands on it{case}: {by} too little.", tire=tire,
            case=in_its_case(load),
        )  # fmt: skip
        check.because("The heaviest loaded wheel decides, not the sum over the axle.").danger(TIRE_BURSTS)
        if not (divides_passenger_tires(end) and is_passenger(tire)):
            check.on_basis(CORNER)
        check.fix(_for_corner(end, rating, load))
        yield check.about(tire, places=places).at(tire, "max_load")


def _for_corner(end: WheelEnd, rating: Interval, load: Interval) -> Callable[[], Iterator[Remedy]]:
    def remedies() -> Iterator[Remedy]:
        tire = end.tire
        divided = divides_passenger_tires(end) and is_passenger(tire)
        moulded = load * max(1.0, end.limits.passenger_tire_divisor.hi) if divided else load
        yield Remedy("get tires moulded with at least {each} each", field=f"{tire.id}.max_load",
                     relation="at least", target=moulded, each=Least(moulded))  # fmt: skip
        if end.weights.leans():
            yield Remedy("or move the load towards the centre line, so that both wheels carry alike",
                         operation="shop")  # fmt: skip
        yield less_on_it(end.weights, rating, load)

    return remedies


def _worth_asking(place: Any, tires: list[Any]) -> bool:
    """The list speaks of weights, or the tires' load is known: then what is missing is worth asking."""
    return place.weights.given or all(tire_max_load(tire, place).known for tire in tires)


def _component(axle: AxlePlace) -> tuple[Any, Interval] | None:
    """The axle part and its rating, or an arm and the rating of both arms together."""
    if axle.axle is not None:
        return (axle.axle, axle.axle.rating) if axle.axle.has("rating") else None
    arms = [arm for _, arm in axle.each("suspension-arm")]
    if len(arms) < 2 or not all(arm.has("rating") for arm in arms):
        return None
    return arms[0], sum((rating_each(arm) for arm in arms), Interval(0.0, 0.0, "N"))
