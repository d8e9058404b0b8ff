"""What each axle, each wheel and the tongue carry at rest, from the gross weight and the loads.

The gross weight rules the ratings and the loads rule the balance; the worse of both is the share.
A tongue weight that is neither typed nor given by the loads is known only to lie between nothing
and the practice limit ``largest_tongue_share`` of the gross weight, so gross / wheels is the upper
bound of a share: a part that carries that needs no measurement.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from partscheck.notation.interval import Interval, greatest_of

if TYPE_CHECKING:
    from partscheck.build.model import Build
    from partscheck.build.places import WheelEnd

NOTHING = Interval(0.0, 0.0, "N")
HALF = Interval(0.5, 0.5)
ALL = Interval(1.0, 1.0)

# What a rule reads, as "record.field", that asks for the load of an axle, or of one wheel.
AXLE_LOAD_READS = (
    "service.gross_weight", "service.tongue_weight", "practice.largest_tongue_share", "load.weight",
    "load.from_coupler", "load.from_centre", "layout.coupler_to_axle", "layout.equalized", "axle.equalized",
    "practice.unequalized_axle_share", "tow_vehicle.weight_distribution", "tow_vehicle.weight_returned",
)  # fmt: skip
CORNER_LOAD_READS = (
    *AXLE_LOAD_READS, "layout.hub_face_distance", "axle.hub_face_distance", "wheel.offset", "wheel.backspace",
    "wheel.size", "adapter.thickness", "spacer.thickness", "practice.offset_agreement",
    "practice.largest_wheel_offset",
)  # fmt: skip


class CaseWeights:
    """One load case: ``total``, ``axles`` (the whole group) and ``tongue`` in N, ``sideways`` in mm
    (the loads' common centre, right positive).
    """

    __slots__ = ("axles", "name", "sideways", "tongue", "total")

    def __init__(
        self, name: str, total: Interval, axles: Interval, tongue: Interval, sideways: Interval
    ) -> None:
        self.name = name
        self.total = total
        self.axles = axles
        self.tongue = tongue
        self.sideways = sideways

    @property
    def known(self) -> bool:
        """True when every load of the case has a weight and a place."""
        return self.total.known and self.axles.known


class Weights:
    """Shares of one build.  Values are remembered together with the fields read for them, so each
    rule that asks is known to depend on those fields.
    """

    def __init__(self, build: Build, fit: Any) -> None:
        self.build = build
        self.fit = fit
        self._memory: dict[Any, tuple[Any, list[Any]]] = {}

    def _remember(self, key: Any, compute: Any) -> Any:
        ledger = self.build.ledger
        if key in self._memory:
            value, reads = self._memory[key]
            ledger.extend(reads)
            return value
        start = len(ledger)
        value = compute()
        self._memory[key] = (value, list(ledger[start:]))
        return value

    def forget(self) -> None:
        """Forget every remembered value: a field has changed."""
        self._memory.clear()

    # ---- the whole trailer ---------------------------------------------------------------

    @property
    def given(self) -> bool:
        """True when the list speaks of weights at all: a gross weight or loads."""
        return self.build.service.has("gross_weight") or bool(self.build.loads)

    def gross(self) -> Interval:
        """Declared gross weight, N; unknown when it is not typed."""
        return self.build.service.gross_weight  # type: ignore[no-any-return]

    def whole(self) -> Interval:
        """Weight of the whole trailer, N: declared, else of the heaviest load case."""
        if self.build.service.has("gross_weight"):
            return self.gross()
        heaviest = self._heaviest()
        if not heaviest:
            return self.gross()
        return greatest_of(heaviest[0].total, *(case.total for case in heaviest[1:]))

    def cases(self) -> list[CaseWeights]:
        """Statics of each load case, in the order of the list."""
        found: list[CaseWeights] = self._remember("cases", self._cases)
        return found

    def _cases(self) -> list[CaseWeights]:
        build = self.build
        if not build.loads:
            return []
        names = build.load_cases or _case_names(build.loads) or [""]
        return [self._case(name) for name in names]

    def _case(self, name: str) -> CaseWeights:
        loads = [load for load in self.build.loads if counts_in(load, name)]
        total = sum((load.weight for load in loads), NOTHING)
        axles, tongue = self._supports(loads, total)
        side = Interval(0.0, 0.0, "mm")
        for load in loads:
            if load.has("from_centre"):
                side = side + (load.weight.bare() * load.from_centre)
        sideways = side / total.bare() if total.lo > 0 else Interval(0.0, 0.0, "mm")
        return CaseWeights(name, total, axles, tongue, sideways)

    def _supports(self, loads: list[Any], total: Interval) -> tuple[Interval, Interval]:
        """(axles, tongue) by moments about the coupler: axles = sum(w x) / L, tongue = sum(w (1 - x / L)).

        Both are monotone in 1 / L, so the ends of L give the ends of the result.
        """
        span = self.build.layout.coupler_to_axle
        if not span.known or span.lo <= 0:
            moment = Interval(0.0, 0.0)
            for load in loads:
                moment = moment + load.weight.bare() * load.from_coupler.bare()
            axles = (moment / span.bare()).with_unit("N")
            return axles, total - axles
        axles, tongue = _at_span(loads, span.lo)
        if not span.is_exact:
            others = _at_span(loads, span.hi)
            axles, tongue = axles.hull(others[0]), tongue.hull(others[1])
        return axles, tongue

    def _complete(self) -> bool:
        """True when every load case is known."""
        return all(case.known for case in self.cases())

    def _heaviest(self) -> list[CaseWeights]:
        """The cases that may be the heaviest; none when a case is not known."""
        cases = self.cases()
        if not cases or not self._complete():
            return []
        bar = max(case.total.lo for case in cases)
        return [case for case in cases if case.total.hi >= bar]

    def tongue(self) -> Interval:
        """Tongue weight that goes with the gross weight, N: typed, else of the heaviest load case."""
        value: Interval = self._remember("tongue", self._tongue)
        return value

    def _tongue(self) -> Interval:
        build, gross = self.build, self.gross()
        if build.service.has("tongue_weight"):
            return build.service.tongue_weight  # type: ignore[no-any-return]
        heaviest = self._heaviest()
        if heaviest:
            span = heaviest[0].tongue
            for case in heaviest[1:]:
                span = span.hull(case.tongue)
            return span.clipped(0.0)
        unread = build.service.tongue_weight  # asks for it
        share = build.limits.largest_tongue_share
        return Interval(unread.lo, gross.hi * share.hi if gross.known else unread.hi, "N")

    def returned(self) -> Interval:
        """What a weight distributing hitch puts back on the axles, N; at most the tongue weight."""
        vehicle = self.build.tow_vehicle
        if vehicle.has("weight_returned"):
            return vehicle.weight_returned  # type: ignore[no-any-return]
        if not (vehicle.has("weight_distribution") and vehicle.weight_distribution):
            return NOTHING
        unread = vehicle.weight_returned  # asks for it
        return unread.clipped(0.0, max(0.0, self.tongue().hi))  # type: ignore[no-any-return]

    def axle_group(self) -> Interval:
        """What all axles together carry in the worst case, N."""
        value: Interval = self._remember("group", self._axle_group)
        return value

    def _axle_group(self) -> Interval:
        loads = [load for load, _ in self._on_axles()]
        return greatest_of(loads[0], *loads[1:])

    def _on_axles(self) -> list[tuple[Interval, list[CaseWeights]]]:
        """Each load that the axles may have to carry, with the cases that say where it stands sideways."""
        returned, cases = self.returned(), self.cases()
        found = [(case.axles + returned, [case]) for case in cases if case.known]
        if self.build.service.has("gross_weight") or not found or not self._complete():
            gross = self.gross()
            if gross.known:
                declared = (gross - self.tongue() + returned).clipped(0.0)
            else:
                declared = Interval.unknown("N")
            found.append((declared, self._heaviest() or cases))
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
        typed: list[Any] = [axle for axle in self.build.of_kind("axle") if axle.has("equalized")]
        if typed:
            return all(axle.equalized for axle in typed)
        if self.build.of_kind("equalizer") and self.build.of_kind("leaf-spring"):
            return True
        if self.build.of_kind("suspension-arm") and not self.build.of_kind("leaf-spring", "equalizer"):
            return False
        layout.equalized  # noqa: B018 - asks for it
        return None

    def axle_load(self, number: int) -> Interval:
        """What axle ``number`` carries in its worst case, N."""
        value: Interval = self._remember(("axle", number), lambda: self.axle_group() * self.axle_share())
        return value

    def corner_load(self, end: WheelEnd) -> Interval:
        """What the worst loaded wheel of these places carries, N.  The spare: the worst corner."""
        if end.is_spare:
            corners = [self.corner_load(other) for other in self.fit.ends]
            return greatest_of(corners[0], *corners[1:]) if corners else Interval.unknown("N")
        loads = [load for _, load in self.place_loads(end)]
        return greatest_of(loads[0], *loads[1:])

    def place_loads(self, end: WheelEnd) -> list[tuple[tuple[str, ...], Interval]]:
        """(places, load in N) of these wheels; left and right apart where the load stands to one side."""
        key = ("places", end.at, tuple(part.id for part in end.parts))
        value: list[tuple[tuple[str, ...], Interval]] = self._remember(key, lambda: self._place_loads(end))
        return value

    def _place_loads(self, end: WheelEnd) -> list[tuple[tuple[str, ...], Interval]]:
        if not self.leans():
            return [(end.at, self.axle_load(int(end.at[0][:-1])) * HALF)]
        sides = {side: tuple(at for at in end.at if at.endswith(side)) for side in "LR"}
        return [(at, self._side_load(end, side)) for side, at in sides.items() if at]

    def leans(self) -> bool:
        """True when the loads of some case do not stand on the centre line."""
        return any(case.sideways.lo or case.sideways.hi for case in self.cases())

    def _side_load(self, end: WheelEnd, side: str) -> Interval:
        track, share = self.track(end), self.axle_share()
        loads = [load * share * _side_share(cases, side, track) for load, cases in self._on_axles()]
        return greatest_of(loads[0], *loads[1:])

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


def counts_in(load: Any, case: str) -> bool:
    """A load without ``cases`` counts in every case."""
    typed = load.values.get("cases")
    return typed is None or not case or case in typed.value


def _at_span(loads: list[Any], span: float) -> tuple[Interval, Interval]:
    axles, tongue = Interval(0.0, 0.0), Interval(0.0, 0.0)
    for load in loads:
        weight, arm = load.weight.bare(), load.from_coupler.bare() * (1 / span)
        axles = axles + weight * arm
        tongue = tongue + weight * (1 - arm)
    return axles.with_unit("N"), tongue.with_unit("N")


def _side_share(cases: list[CaseWeights], side: str, track: Interval) -> Interval:
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


def _case_names(loads: list[Any]) -> list[str]:
    names: list[str] = []
    for load in loads:
        typed = load.values.get("cases")
        for name in [] if typed is None else typed.value:
            if name not in names:
                names.append(name)
    return names
