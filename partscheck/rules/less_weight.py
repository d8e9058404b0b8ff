"""To load less: where the declared weight is too much, where load cases are, and where both."""

from __future__ import annotations

from partscheck.build.case_loads import known_cases
from partscheck.build.weights import case_of
from partscheck.notation.interval import Interval, same_within
from partscheck.rules.check import AT_MOST, Remedy
from partscheck.rules.message import Most

TYPE_CHECKING = False
if TYPE_CHECKING:
    from partscheck.build.weights import Weights


def load_less(weights: Weights, most: Interval) -> Remedy:
    """A trailer of at most ``most`` N.  A gross weight that is declared anew does not make the loads of a case
    lighter, so the field is named only where no case is too heavy.
    """
    bar = most.lo + same_within("N")
    heavy = [case.name for case in known_cases(weights) if case.total.hi > bar]
    if not heavy:
        return Remedy(
            "or load less: a gross weight of at most {most}", field="service.gross_weight", relation=AT_MOST,
            target=most, operation="declare", most=Most(most),
        )  # fmt: skip
    named = [f"'{name}'" for name in heavy if name]
    where = f" in case {' and '.join(named)}" if named else ""
    declared = ", and declare no more" if weights.declares() and weights.gross().hi > bar else ""
    return Remedy(
        "or load less: at most {most} in all{where}{declared}", operation="shop", most=Most(most), where=where,
        declared=declared,
    )  # fmt: skip


def less_on_it(weights: Weights, rating: Interval, load: Interval, of_axle: bool = False) -> Remedy:
    """A trailer that puts no more than ``rating`` N where it puts ``load`` now (``of_axle``: on an axle, not on
    one wheel).  Of a load case that is named: what may be in it, all of it less alike.
    """
    case = next((one for one in known_cases(weights) if one.name and one.name == case_of(load)), None)
    if case is None or not load.hi > 0 or not load.known:
        return load_less(weights, weights.gross_at(rating, load, of_axle))
    most = Interval.exact(case.total.lo * rating.lo / load.hi, "N")
    return Remedy(
        "or load less: at most {most} in all{case}, everything alike", operation="shop", most=Most(most),
        case=case.in_words,
    )  # fmt: skip


def tongue_down(weights: Weights, most: Interval, words: str, case: str) -> Remedy:
    """A tongue weight of at most ``most`` N, in ``words`` with {most} and {case}.  Typed anew it does not change
    what the loads of a case put on the tongue, so the field is named only where no case is over it.
    """
    bar = most.lo + same_within("N")
    if any(one.tongue.hi > bar for one in known_cases(weights)):
        return Remedy(words, operation="shop", case=case, most=Most(most))
    return Remedy(words, "service.tongue_weight", AT_MOST, most, "declare", case=case, most=Most(most))
