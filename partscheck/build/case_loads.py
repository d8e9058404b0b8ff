"""What stands on an axle and on a wheel in one load case: ``weights.py`` gives the worst over all of them."""

from __future__ import annotations

from partscheck.build.weights import side_share
from partscheck.notation.interval import Interval

TYPE_CHECKING = False
if TYPE_CHECKING:
    from partscheck.build.load_cases import CaseWeights
    from partscheck.build.places import WheelEnd
    from partscheck.build.weights import Weights

HALF = 0.5


def known_cases(weights: Weights) -> list[CaseWeights]:
    """The load cases in which every load has a weight and a place."""
    return [case for case in weights.cases() if case.known]


def axle_in_case(weights: Weights, case: CaseWeights) -> Interval:
    """What the worst loaded axle carries in the case, N."""
    return ((case.axles + weights.returned()) * weights.axle_share()).clipped(0.0)


def corner_in_case(weights: Weights, end: WheelEnd, places: tuple[str, ...], case: CaseWeights) -> Interval:
    """What one wheel at ``places`` (all of one side, where the loads lean) carries in the case, N."""
    load = axle_in_case(weights, case)
    if not (case.sideways.lo or case.sideways.hi):
        return load * HALF
    return load * side_share([case], places[0][-1], weights.track(end))
