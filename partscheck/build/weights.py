"""What each axle, each wheel and the tongue carry at rest, from the gross weight and the loads.

The gross weight rules the ratings and the loads rule the balance; the worse of both is the share.
A tongue weight that is neither typed nor given by the loads is known only to lie between nothing
and the practice limit ``largest_tongue_share`` of the gross weight, so gross / wheels is the upper
bound of a share: a part that carries that needs no measurement.
"""

from __future__ import annotations

from partscheck.build.asked_fit import AskedFit
from partscheck.build.load_cases import CaseWeights, case_weights, in_case, is_full_trailer
from partscheck.build.scale_readings import SCALE_READS, Readings
from partscheck.build.standing_loads import LOADS_READS
from partscheck.notation.interval import Interval, greatest_of, same_within

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.fit import Fit
    from partscheck.build.model import Build
    from partscheck.build.places import WheelEnd

NOTHING = Interval(0.0, 0.0, "N")
HALF = Interval(0.5, 0.5)
ALL = Interval(1.0, 1.0)

# What a rule reads, as "record.field", that asks for the load of an axle, or of one wheel.
AXLE_LOAD_READS = (
    "service.gross_weight", "service.tongue_weight", "practice.largest_tongue_share", *LOADS_READS, *SCALE_READS,
    "layout.equalized", "axle.equalized", "practice.unequalized_axle_share", "tow_vehicle.weight_distribution",
    "tow_vehicle.weight_returned",
)  # fmt: skip
CORNER_LOAD_READS = (
    *AXLE_LOAD_READS, "layout.hub_face_distance", "axle.hub_face_distance", "wheel.offset", "wheel.backspace",
    "wheel.size", "adapter.thickness", "spacer.thickness", "practice.offset_agreement",
    "practice.largest_wheel_offset",
)  # fmt: skip


class InCase(Interval):
    """A load in N and the load case that it is of: "" where it is of the weights as declared, or where the
    list names no cases.  Arithmetic gives a plain interval.
    """

    __slots__ = ("case",)

    def __init__(self, lo: float, hi: float, unit: str, case: str = "") -> None:
        super().__init__(lo, hi, unit)
        self.case = case

    __hash__ = Interval.__hash__

    @property
    def in_words(self) -> str:
        """ " in case 'racked'", or nothing."""
        return in_case(self.case)


def case_of(load: Interval) -> str:
    """The load case that a share came from, or ""."""
    return load.case if isinstance(load, InCase) else ""


def in_its_case(load: Interval) -> str:
    """ " in case 'racked'" of the case that a share came from, or nothing."""
    return in_case(case_of(load))


def greatest_in_case(found: list[tuple[Interval, str]]) -> InCase:
    """The greatest of several loads, with the case whose load may be the greatest; one that has a name goes
    before a declaration that is as large.
    """
    load = greatest_of(found[0][0], *(one for one, _ in found[1:]))
    close = same_within("N")
    names = [name for one, name in found if one.hi >= load.hi - close]
    return InCase(load.lo, load.hi, load.unit, next((name for name in names if name), ""))


class Weights:
    """Shares of one build.  Values are remembered together with the fields read for them, so each
    rule that asks is known to depend on those fields.
    """

    def __init__(self, build: Build) -> None:
        self.build = build
        self._fit: AskedFit | None = None
        self._memory: dict[Any, tuple[Any, list[Any], frozenset[Any]]] = {}

    @property
    def fit(self) -> Any:
        """What sits where."""
        return self._fit

    def of(self, fit: Fit) -> Weights:
        """These weights where this sits where; what was remembered is forgotten."""
        self._fit = AskedFit(fit)
        self._memory.clear()
        return self

    def _remember(self, key: Any, compute: Any) -> Any:
        ledger = self.build.ledger
        if key in self._memory:
            value, reads, _ = self._memory[key]
            ledger.extend(reads)
            return value
        start = len(ledger)
        value = compute()
        reads = list(dict.fromkeys(ledger[start:]))
        self._memory[key] = (value, reads, frozenset(reads))
        return value

    def forget(self, changed: set[Any]) -> None:
        """Forget what was computed of fields that have changed, given as a ledger has them."""
        if self._memory:
            self._memory = {key: one for key, one in self._memory.items() if changed.isdisjoint(one[2])}

    # ---- the whole trailer ---------------------------------------------------------------

    @property
    def given(self) -> bool:
        """True when the list speaks of weights at all: a gross weight, loads, or scale readings."""
        return self.declares() or bool(self.build.loads)

    @property
    def readings(self) -> Readings:
        """What scale readings say of gross, axle and tongue weight."""
        found: Readings = self._remember("readings", lambda: Readings(self.build))
        return found

    def gross(self) -> Interval:
        """Gross weight, N: declared, else off the scale; unknown when it is neither."""
        if self.build.service.has("gross_weight") or not self.readings.ways["gross"]:
            return self.build.service.gross_weight  # type: ignore[no-any-return]
        return self.readings.gross

    def declares(self) -> bool:
        """True when the gross weight is typed or read off a scale."""
        return self.build.service.has("gross_weight") or bool(self.readings.ways["gross"])

    def whole(self) -> Interval:
        """Weight of the whole trailer, N: declared, else of the heaviest load case."""
        if self.declares():
            return self.gross()
        heaviest = self._heaviest()
        if not heaviest:
            return self.gross()
        return greatest_of(heaviest[0].total, *(case.total for case in heaviest[1:]))

    def cases(self) -> list[CaseWeights]:
        """Statics of each load case, in the order of the list; none where the list has no loads."""
        found: list[CaseWeights] = self._remember("cases", lambda: case_weights(self.build))
        return found

    def _complete(self) -> bool:
        """True when every load case is known."""
        return all(case.known for case in self.cases())

    def heaviest(self) -> list[CaseWeights]:
        """The cases that may be the heaviest; none when a case is not known."""
        return self._heaviest()

    def _heaviest(self) -> list[CaseWeights]:
        cases = self.cases()
        if not cases or not self._complete():
            return []
        bar = max(case.total.lo for case in cases)
        return [case for case in cases if case.total.hi >= bar]

    def tongue_typed(self) -> bool:
        """True when the tongue weight that goes with the gross weight is typed or read off a scale."""
        return self.build.service.has("tongue_weight") or bool(self.readings.ways["tongue"])

    def tongue(self) -> Interval:
        """Tongue weight that goes with the gross weight, N: typed, else off the scale, else of the heaviest
        load case, never below nothing.
        """
        value: Interval = self._remember("tongue", self._tongue)
        return value

    def _tongue(self) -> Interval:
        build, gross = self.build, self.gross()
        if is_full_trailer(build):
            return NOTHING
        if build.service.has("tongue_weight"):
            return build.service.tongue_weight  # type: ignore[no-any-return]
        if self.readings.ways["tongue"]:
            build.service.tongue_weight  # noqa: B018 - a scale under the coupler is finer than what trucks stand on
            return self.readings.tongue.clipped(0.0)
        heaviest = self._heaviest()
        if heaviest:
            span = heaviest[0].tongue
            for case in heaviest[1:]:
                span = span.hull(case.tongue)
            return span.clipped(0.0)
        unread = build.service.tongue_weight  # asks for it
        share = build.limits.largest_tongue_share
        return Interval(unread.lo, gross.hi * share.hi if gross.known else unread.hi, "N")

    def greatest_tongue(self) -> InCase:
        """The most that the tongue puts on the ball, N: as typed or weighed, or in the case that puts more."""
        cases = self.cases()
        # Where nothing else speaks, a load that is not known is what to ask for.
        loads_alone = not (self.tongue_typed() or self.declares())
        found = [(case.tongue.clipped(0.0), case.name) for case in cases if case.known or loads_alone]
        if self.tongue_typed() or len(found) < len(cases) or not cases:
            typed = self.build.service.has("tongue_weight")
            found.append((self.tongue(), "" if typed else self.readings.case))
        return greatest_in_case(found)

    def returned(self) -> Interval:
        """What a weight distributing hitch puts back on the axles, N; at most the tongue weight."""
        vehicle = self.build.tow_vehicle
        if vehicle.has("weight_returned"):
            return vehicle.weight_returned  # type: ignore[no-any-return]
        if not (vehicle.has("weight_distribution") and vehicle.weight_distribution):
            return NOTHING
        unread = vehicle.weight_returned  # asks for it
        return unread.clipped(0.0, max(0.0, self.tongue().hi))  # type: ignore[no-any-return]

    def axle_group(self) -> InCase:
        """What all axles together carry in the worst case, N."""
        value: InCase = self._remember("group", self._axle_group)
        return value

    def _axle_group(self) -> InCase:
        return greatest_in_case([(load, name) for load, name, _ in self._on_axles()])

    def _on_axles(self) -> list[tuple[Interval, str, list[CaseWeights]]]:
        """Each load that the axles may have to carry, the case it is of, and the cases that say where it
        stands sideways.
        """
        returned, cases = self.returned(), self.cases()
        found = [(case.axles + returned, case.name, [case]) for case in cases if case.known]
        beside = self._heaviest() or cases
        if self.readings.ways["axles"]:
            weighed = [case for case in cases if case.name and case.name == self.readings.case]
            found.append((self.readings.axles + returned, self.readings.case, weighed or beside))
        declared = self.build.service.has("gross_weight")
        if declared or not found or not (self._complete() or self.readings.ways["axles"]):
            gross = self.gross()
            if gross.known:
                load = (gross - self.tongue() + returned).clipped(0.0)
            else:
                load = Interval.unknown("N")
            found.append((load, "", beside))
        return found

    # ---- one axle, one wheel -------------------------------------------------------------

    def axle_share(self) -> Interval:
        """Share of the group that one axle may carry: equal when equalised, else unequal."""
        count = self.fit.axles
        if count == 1:
            return ALL
        even = 1 / count
        equalized = self._equalized()
        if equalized is True:
            return Interval(even, even)
        uneven = max(self.build.limits.unequalized_axle_share.hi, even)
        return Interval(uneven if equalized is False else even, uneven)

    def _equalized(self) -> bool | None:
        """As typed for the layout, else on an axle, else by an equalizer between leaf springs; independent
        arms share nothing.
        """
        layout = self.build.layout
        if layout.has("equalized"):
            return bool(layout.equalized)
        if is_full_trailer(self.build):
            return False
        typed: list[Any] = [axle for axle in self.build.of_kind("axle") if axle.has("equalized")]
        if typed:
            return all(axle.equalized for axle in typed)
        if self.build.of_kind("equalizer") and self.build.of_kind("leaf-spring"):
            return True
        if self.build.of_kind("suspension-arm") and not self.build.of_kind("leaf-spring", "equalizer"):
            return False
        layout.equalized  # noqa: B018 - asks for it
        return None

    def axle_load(self, number: int) -> InCase:
        """What axle ``number`` carries in its worst case, N."""
        value: InCase = self._remember(("axle", number), self._axle_load)
        return value

    def _axle_load(self) -> InCase:
        group = self.axle_group()
        load = group * self.axle_share()
        return InCase(load.lo, load.hi, "N", group.case)

    def corner_load(self, end: WheelEnd) -> Interval:
        """What the worst loaded wheel of these places carries, N.  The spare: the worst corner."""
        if end.is_spare:
            corners = [self.corner_load(other) for other in self.fit.ends]
            return greatest_in_case([(one, case_of(one)) for one in corners]) if corners else Interval.unknown("N")
        return greatest_in_case([(load, case_of(load)) for _, load in self.place_loads(end)])

    def place_loads(self, end: WheelEnd) -> list[tuple[tuple[str, ...], Interval]]:
        """(places, load in N) of these wheels; left and right apart where the load stands to one side."""
        key = ("places", end.at, tuple(part.id for part in end.parts))
        value: list[tuple[tuple[str, ...], Interval]] = self._remember(key, lambda: self._place_loads(end))
        return value

    def _place_loads(self, end: WheelEnd) -> list[tuple[tuple[str, ...], Interval]]:
        if not self.leans():
            load = self.axle_load(int(end.at[0][:-1]))
            return [(end.at, InCase(load.lo / 2, load.hi / 2, "N", load.case))]
        sides = {side: tuple(at for at in end.at if at.endswith(side)) for side in "LR"}
        return [(at, self._side_load(end, side)) for side, at in sides.items() if at]

    def leans(self) -> bool:
        """True when the loads of some case do not stand on the centre line."""
        return any(case.sideways.lo or case.sideways.hi for case in self.cases())

    def _side_load(self, end: WheelEnd, side: str) -> InCase:
        track, share = self.track(end), self.axle_share()
        return greatest_in_case(
            [(load * share * side_share(cases, side, track), name) for load, name, cases in self._on_axles()]
        )

    def track(self, end: WheelEnd) -> Interval:
        """Distance between the two load planes of an axle, mm.

        It matters only for how far a load beside the centre line leans on one wheel, so the wheel's
        offset is asked for only once the distance of the hub faces is known; until then it counts as
        within the practice limit ``largest_wheel_offset``, either way.
        """
        from partscheck.build.wheel_data import hub_face_distance, load_plane

        faces = hub_face_distance(end)
        most = end.limits.largest_wheel_offset.hi
        reach = Interval(-most, most, "mm") - end.stack_thickness
        wheel = end.wheel
        if wheel is not None and (faces.known or wheel.has("offset") or wheel.has("backspace")):
            plane = load_plane(end)
            if plane.known:  # twice the limit holds any wheel of a light trailer
                reach = plane.clipped(2 * reach.lo, 2 * reach.hi)
        return (faces - reach * 2).clipped(0.0)

    # ---- the other way round: from a rating to the gross weight ------------------------------

    def gross_at(self, rating: Interval, share: Interval, of_axle: bool = False) -> Interval:
        """Gross weight, N, at which ``share`` would be as large as ``rating``: every load grows alike,
        so tongue share and side shares stay.  ``of_axle``: the share of an axle, not of a wheel.
        """
        whole = self.whole()
        if whole.known and whole.lo > 0 and share.known:
            ends = (share.lo / whole.lo, share.hi / whole.hi)
        else:
            least = 1 - self.build.limits.largest_tongue_share.hi
            part = Interval(max(0.0, least), 1.0) * self.axle_share() * (ALL if of_axle else HALF)
            ends = (part.lo, part.hi)
        return (rating / Interval(min(ends), max(ends))).with_unit("N")


def shock_factor(build: Build) -> Interval:
    """By how much road shock raises the loads of calculated items, from the surface; never of ratings.

    A surface that is not known may be any of the table's.
    """
    surface = build.service.surface
    if build.service.has("surface"):
        row = build.tables.row("shock_factor", surface)
        if row is not None:
            return Interval(row["factor"], row["factor"])
    factors = [row["factor"] for row in build.tables.rows("shock_factor")]
    return Interval(min(factors), max(factors))


def side_share(cases: list[CaseWeights], side: str, track: Interval) -> Interval:
    """Share of an axle's load on its wheel of one side: 1/2 +- y / track, over all these cases."""
    shares = [_one_side(case, side, track) for case in cases]
    span = shares[0] if shares else HALF
    for share in shares[1:]:
        span = span.hull(share)
    return span


def _one_side(case: CaseWeights, side: str, track: Interval) -> Interval:
    toward = case.sideways if side == "R" else -case.sideways
    if toward.hi <= 0:  # kept apart: a track that is not known must not turn the sign
        return (HALF - ((-toward) / track).bare()).clipped(0.0, 1.0)
    return (HALF + (toward / track).bare()).clipped(0.0, 1.0)
