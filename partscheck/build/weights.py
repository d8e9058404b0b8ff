"""What each axle, each wheel and the tongue carry at rest, from the gross weight and the loads.

The gross weight rules the ratings and the loads rule the balance; the worse of both is the share.
A tongue weight that is neither typed nor given by the loads is known only to lie between nothing
and the practice limit ``largest_tongue_share`` of the gross weight.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from partscheck.notation.interval import Interval, greatest_of

if TYPE_CHECKING:
    from partscheck.build.model import Build
    from partscheck.build.places import WheelEnd

NOTHING = Interval(0.0, 0.0, "N")
HALF = Interval(0.5, 0.5)


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

    def gross(self) -> Interval:
        """Declared gross weight, N; unknown when it is not typed."""
        return self.build.service.gross_weight  # type: ignore[no-any-return]

    def cases(self) -> list[CaseWeights]:
        """Statics of each load case whose loads all have a weight and a place; else none."""
        found: list[CaseWeights] = self._remember("cases", self._cases)
        return found

    def _cases(self) -> list[CaseWeights]:
        build = self.build
        if not build.loads:
            return []
        names = build.load_cases or _case_names(build.loads) or [""]
        return [self._case(name) for name in names]

    def _case(self, name: str) -> CaseWeights:
        total, moment, side = NOTHING, Interval(0.0, 0.0, "N mm"), Interval(0.0, 0.0, "N mm")
        for load in self.build.loads:
            if not counts_in(load, name):
                continue
            weight = load.weight
            total = total + weight
            moment = moment + (weight * load.from_coupler).with_unit("N mm")
            if load.has("from_centre"):
                side = side + (weight * load.from_centre).with_unit("N mm")
        axles = (moment / self.build.layout.coupler_to_axle).with_unit("N")
        sideways = (side / total).with_unit("mm") if total.lo > 0 else Interval(0.0, 0.0, "mm")
        return CaseWeights(name, total, axles, total - axles, sideways)

    def tongue(self) -> Interval:
        """Tongue weight that goes with the gross weight, N."""
        value: Interval = self._remember("tongue", self._tongue)
        return value

    def _tongue(self) -> Interval:
        build, gross = self.build, self.gross()
        if build.service.has("tongue_weight"):
            return build.service.tongue_weight  # type: ignore[no-any-return]
        cases = [case for case in self.cases() if case.tongue.known]
        if cases:
            heaviest = max(cases, key=lambda case: case.total.hi)
            return Interval(max(0.0, heaviest.tongue.lo), max(0.0, heaviest.tongue.hi), "N")
        unread = build.service.tongue_weight  # asks for it
        share = build.limits.largest_tongue_share
        return Interval(unread.lo, gross.hi * share.hi if gross.known else unread.hi, "N")

    def axle_group(self) -> Interval:
        """What all axles together carry in the worst case, N."""
        value: Interval = self._remember("group", self._axle_group)
        return value

    def _axle_group(self) -> Interval:
        candidates = [case.axles for case in self.cases() if case.axles.known]
        if self.build.service.has("gross_weight") or not candidates:
            gross = self.gross()
            if gross.known:
                candidates.append((gross - self.tongue()).clipped(0.0))
            else:
                candidates.append(Interval.unknown("N"))
        return greatest_of(candidates[0], *candidates[1:])

    # ---- one axle, one wheel -------------------------------------------------------------

    def axle_share(self) -> Interval:
        """Share of the group that one axle may carry: equal when equalised, else unequal."""
        count = self.fit.axles
        if count == 1:
            return Interval(1.0, 1.0)
        layout = self.build.layout
        unequal = self.build.limits.unequalized_axle_share.hi
        typed = layout.equalized
        if typed is True:
            return Interval(1 / count, 1 / count)
        if typed is False:
            return Interval(max(unequal, 1 / count), max(unequal, 1 / count))
        return Interval(1 / count, max(unequal, 1 / count))

    def axle_load(self, number: int) -> Interval:
        """What axle ``number`` carries in its worst case, N."""
        value: Interval = self._remember(("axle", number), lambda: self.axle_group() * self.axle_share())
        return value

    def corner_load(self, end: WheelEnd) -> Interval:
        """What the worst loaded wheel of these places carries, N.  The spare: the worst corner."""
        key = ("corner", end.at, tuple(part.id for part in end.parts))
        value: Interval = self._remember(key, lambda: self._corner_load(end))
        return value

    def _corner_load(self, end: WheelEnd) -> Interval:
        if end.is_spare:
            corners = [self.corner_load(other) for other in self.fit.ends]
            return greatest_of(corners[0], *corners[1:]) if corners else Interval.unknown("N")
        sides = {at[-1] for at in end.at}
        shares = [self._side_load(end, side) for side in sorted(sides)]
        return greatest_of(shares[0], *shares[1:])

    def _side_load(self, end: WheelEnd, side: str) -> Interval:
        number = int(end.at[0][:-1])
        level = self.axle_load(number) * HALF
        lopsided = [case for case in self.cases() if (case.sideways.lo, case.sideways.hi) != (0, 0)]
        if not lopsided:
            return level
        track = self.track(end)
        loads = [case.axles * self.axle_share() * self._side_share(case, side, track) for case in lopsided]
        heaviest = max(lopsided, key=lambda case: case.total.hi)
        loads.append(self.axle_load(number) * self._side_share(heaviest, side, track))
        return greatest_of(loads[0], *loads[1:])

    def _side_share(self, case: CaseWeights, side: str, track: Interval) -> Interval:
        toward = case.sideways if side == "R" else -case.sideways
        share = HALF + (toward / track).bare()
        return share.clipped(0.0, 1.0)

    def track(self, end: WheelEnd) -> Interval:
        """Distance between the two load planes of an axle, mm."""
        from partscheck.build.wheel_data import load_plane

        gear = end.running_gear
        if gear is not None and gear.kind == "axle" and gear.has("hub_face_distance"):
            faces = gear.hub_face_distance
        else:
            faces = self.build.layout.hub_face_distance
        return (faces - load_plane(end) * 2).clipped(0.0)  # type: ignore[no-any-return]


def counts_in(load: Any, case: str) -> bool:
    """A load without ``cases`` counts in every case."""
    typed = load.values.get("cases")
    return typed is None or not case or case in typed.value


def _case_names(loads: list[Any]) -> list[str]:
    names: list[str] = []
    for load in loads:
        typed = load.values.get("cases")
        for name in [] if typed is None else typed.value:
            if name not in names:
                names.append(name)
    return names
