"""The balance of a trailer, case by case, and the other way round: what to move for a tongue share in range.

Worked out from two supports, the coupler and the axle (or the middle of the group).  Weights and places
that are not known are ranges all the way through.
"""

from __future__ import annotations

from partscheck.build.case_loads import axle_in_case, corner_in_case
from partscheck.build.fit import Fit
from partscheck.build.tongue_limits import declared
from partscheck.build.tongue_moves import LoadPlacement, Placement, axle_placement, load_placements, wanted_in
from partscheck.notation.interval import Interval

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.load_cases import CaseLoad, CaseWeights
    from partscheck.build.model import Build
    from partscheck.build.weights import Weights
    from partscheck.engine import Result

LOADS, DECLARED, SCALE = "loads", "declared", "scale"  # what a row is worked out from
HALF = 0.5


class LoadEffect:
    """One load in one case: ``what`` it is, ``weight`` (N), ``from_coupler`` (mm), ``on_tongue`` (N, what it
    adds to the tongue, below nothing what it takes off), ``behind`` (True: wholly behind the axle).
    """

    __slots__ = ("behind", "from_coupler", "on_tongue", "weight", "what")

    def __init__(self, one: CaseLoad, case: CaseWeights) -> None:
        self.what = one.what
        self.weight = one.weight
        self.from_coupler = one.from_coupler
        self.on_tongue = case.on_tongue(one)
        self.behind = one.behind(case.span)

    def __repr__(self) -> str:
        return f"<{self.what}: {self.on_tongue} on the tongue>"


class BalanceRow:
    """One load case, or the trailer as declared or weighed.

    ``case`` its name; ``source`` "loads", "declared" or "scale"; ``total``, ``axles`` (the whole group),
    ``tongue`` and ``axle`` (the worst loaded one of the group) in N; ``share`` of the tongue and ``ahead``
    (share of the load ahead of the axle; None where the list has no loads) as plain numbers; ``left`` and
    ``right``: one wheel of that axle, N; ``sharing`` how several axles share: "one axle", "equalized",
    "not equalized" or "not said"; ``loads`` what each load adds to the tongue or takes off it.
    """

    __slots__ = (
        "ahead", "axle", "axles", "case", "left", "loads", "right", "share", "sharing", "source", "tongue",
        "total",
    )  # fmt: skip

    def __init__(
        self, case: str, source: str, total: Interval, axles: Interval, tongue: Interval, share: Interval
    ) -> None:
        self.case = case
        self.source = source
        self.total = total
        self.axles = axles
        self.tongue = tongue
        self.share = share
        self.axle = axles
        self.left = self.right = axles * HALF
        self.sharing = ""
        self.ahead: Interval | None = None
        self.loads: list[LoadEffect] = []

    @property
    def known(self) -> bool:
        """True when nothing that the case needs is unknown."""
        return self.total.known and self.axles.known

    def __repr__(self) -> str:
        return f"<{self.case or self.source}: {self.total}, tongue {self.tongue}, {self.share}>"


def balance(result_or_build: Result | Build) -> list[BalanceRow]:
    """A row for each load case, in the order of the list, then one for the trailer as declared or weighed.

    The last one stands only where the gross and the tongue weight are typed or read off a scale.  What a
    weight distributing hitch puts back counts on the axles.  Raises ``Faults`` for a build whose parts
    cannot be placed.
    """
    weights = _weights(result_or_build)
    rows = [_row(weights, case) for case in weights.cases()]
    if weights.declares() and weights.tongue_typed():
        rows.append(_declared_row(weights))
    return rows


def axle_for_tongue_share(
    result_or_build: Result | Build, least: float | None = None, most: float | None = None
) -> Placement:
    """Where the axle may stand, mm behind the coupler, for the tongue share to be in range in every case.

    least, most  shares as plain numbers, for every case; left out, the practice limits of the list's country,
                 the upper one for the heaviest case alone, and the tongue ratings that are typed for all
    Loads with ``moves_with_axle`` move along.  ``places`` of the answer is None where no place serves every
    case; ``why`` and ``conflict`` then say which cases cannot be had together.
    """
    weights = _weights(result_or_build)
    _shares(least, most)
    return axle_placement(weights, wanted_in(weights, least, most))


def move_for_tongue_share(
    result_or_build: Result | Build, least: float | None = None, most: float | None = None
) -> list[LoadPlacement]:
    """For each load that does not move with the axle: where it alone must stand, mm behind the coupler, for
    the tongue share to be in range in every case; arguments and answers as of ``axle_for_tongue_share``.
    """
    weights = _weights(result_or_build)
    _shares(least, most)
    return load_placements(weights, wanted_in(weights, least, most))


def _weights(result_or_build: Any) -> Weights:
    if hasattr(result_or_build, "fit"):
        return result_or_build.fit.weights  # type: ignore[no-any-return]
    return Fit(result_or_build).weights


def _shares(least: float | None, most: float | None) -> None:
    for name, share in (("least", least), ("most", most)):
        if share is not None and not -1 < share < 1:
            raise ValueError(f"{name} share must be a plain number under 1 (10 % is 0.10), got {share:g}")
    if least is not None and most is not None and least > most:
        raise ValueError(f"least share {least:g} is more than the most, {most:g}")


def _row(weights: Weights, case: CaseWeights) -> BalanceRow:
    row = BalanceRow(case.name, LOADS, case.total, case.axles + weights.returned(), case.tongue, case.share)
    row.ahead = case.ahead()
    row.loads = [LoadEffect(one, case) for one in case.loads]
    row.axle, row.sharing = axle_in_case(weights, case), _sharing(weights)
    row.left, row.right = _wheels(weights, case, row.axle)
    return row


def _wheels(weights: Weights, case: CaseWeights, axle: Interval) -> tuple[Interval, Interval]:
    """One wheel on the left and one on the right of the worst loaded axle, N."""
    found = []
    for side in "LR":
        end = next((end for end in weights.fit.ends if any(at.endswith(side) for at in end.at)), None)
        if end is not None:
            found.append(corner_in_case(weights, end, (f"1{side}",), case))
        elif case.sideways.lo or case.sideways.hi:
            found.append(Interval(0.0, max(0.0, axle.hi), "N"))  # no wheel on the list to take the track from
        else:
            found.append(axle * HALF)
    return found[0], found[1]


def _declared_row(weights: Weights) -> BalanceRow:
    found, readings = declared(weights), weights.readings
    typed = weights.build.service.has("gross_weight") or weights.build.service.has("tongue_weight")
    axles = found.total - found.tongue
    if readings.ways["axles"] and not typed:
        axles = readings.axles
    axles, source = axles + weights.returned(), DECLARED if typed else SCALE
    row = BalanceRow(found.case, source, found.total, axles, found.tongue, found.share)
    row.axle, row.sharing = (row.axles * weights.axle_share()).clipped(0.0), _sharing(weights)
    row.left = row.right = row.axle * HALF
    return row


def _sharing(weights: Weights) -> str:
    share, even = weights.axle_share(), 1 / weights.fit.axles
    if weights.fit.axles == 1:
        return "one axle"
    if share.is_exact:
        return "equalized" if share.hi == even else "not equalized"
    return "not said"
