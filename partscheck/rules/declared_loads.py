"""The loads of the list against the weights that are declared or weighed, and the rule of thumb beside them."""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build.case_loads import known_cases
from partscheck.build.places import Whole
from partscheck.build.tongue_limits import on_no_ball
from partscheck.build.tow_places import TowChain
from partscheck.build.weights import AXLE_LOAD_READS
from partscheck.notation.percent import percent, show_percent
from partscheck.rules.basis import practice
from partscheck.rules.check import EQUAL, Check, Remedy, any_of, certainly, equal_within
from partscheck.rules.registry import rule

TYPE_CHECKING = False
if TYPE_CHECKING:
    from partscheck.build.load_cases import CaseWeights
    from partscheck.build.weights import Weights

AGREE = practice("loads and declared weights within the practice limits; scales and guesses differ by so much")
THUMB = practice("about 60 % of the load ahead of the axle: a rule of thumb of the trade, no source")
ONE_OF_THEM = (
    "The gross weight decides what the parts carry, the loads where the trailer balances: where they do not "
    "belong together, one of both answers is wrong."
)


@rule(
    "loads-disagree",
    on=Whole,
    reads=[
        *AXLE_LOAD_READS, "service.weighed", "practice.loads_sum_agreement", "practice.loads_disagree",
    ],
    basis=AGREE,
)  # fmt: skip
def loads_disagree(whole: Whole) -> Iterator[Check]:
    """The loads come to the declared gross weight, and to the declared tongue weight, in some load case.

    Why: Gross weight and loads are typed apart; a load that was forgotten, or a weight of another day, shows here.
    Formula: |sum of the loads - gross| at most 3 % of the gross weight in some case; |tongue worked out - tongue
        typed or weighed| at most 10 % of the one worked out, in some case. Where scale readings name their case,
        in that one. Weights that are known only as ranges are given the benefit of the doubt.
    Remedy: Weigh the loaded trailer and its tongue, and type what the scale says; add what is missing to `loads`.
    Wrong:
        service: {gross_weight: 3000 lb}
        layout: {coupler_to_axle: 120 in}
        loads:
          - {what: trailer, weight: 990 lb, from_coupler: 107 in}
          - {what: hives, weight: 1500 lb, from_coupler: 112 in}
        parts: []
    Right:
        service: {gross_weight: 2500 lb}
        layout: {coupler_to_axle: 120 in}
        loads:
          - {what: trailer, weight: 990 lb, from_coupler: 107 in}
          - {what: hives, weight: 1500 lb, from_coupler: 112 in}
        parts: []
    """
    weights = whole.weights
    cases = _comparable(weights)
    if cases and weights.declares() and weights.gross().known:
        yield from _unless_unsure(any_of(*(_gross(whole, case) for case in cases)))
    if cases and weights.tongue_typed() and weights.tongue().known:
        yield from _unless_unsure(any_of(*(_tongue(whole, case) for case in cases)))


def _comparable(weights: Weights) -> list[CaseWeights]:
    """The cases that a declared weight may be of: the one that was weighed, else all; none where one is not
    known.
    """
    cases = weights.cases()
    weighed = [case for case in cases if case.name and case.name == weights.readings.case]
    found = weighed or cases
    return found if len(known_cases(weights)) == len(cases) else []


def _unless_unsure(check: Check) -> Iterator[Check]:
    if not check.unsure:
        yield check


def _gross(whole: Whole, case: CaseWeights) -> Check:
    """All that stands on the trailer against its gross weight."""
    gross, limits = whole.weights.gross(), whole.limits
    check = equal_within(case.total, gross, gross.hi * limits.loads_sum_agreement.hi)
    off = abs(case.total - gross)
    far = off.lo > limits.loads_disagree.hi * gross.hi
    more = case.total.mid > gross.mid
    check.caution(
        "The loads come to {have}{case}, the {source} is {need}: {off} {way}, {share} of it."
        + (" That is more than anything forgotten: one of both is wrong." if far else ""),
        case=case.in_words, source=_source(whole, "gross weight"), off=off,
        way="too much" if more else "are missing",
        share=show_percent((off / gross).bare(), limits.loads_sum_agreement.hi),
    ).because(ONE_OF_THEM)  # fmt: skip

    def remedies() -> Iterator[Remedy]:
        if whole.weights.readings.ways["gross"] or _weighed(whole):
            way = "take out of `loads` what is not on it" if more else "add to `loads` what is missing there"
            yield Remedy(f"go by the scale: {way}, or mend their weights", operation="declare")
            return
        yield Remedy(
            "weigh the loaded trailer; if the loads are all there is, declare a gross weight of {have}",
            field="service.gross_weight", relation=EQUAL, target=case.total, operation="declare",
        )  # fmt: skip
        if not more:
            yield Remedy("or add to `loads` what the {off} are, each with its place", operation="declare", off=off)

    return check.fix(remedies).at(whole.build.service, "gross_weight").about()


def _tongue(whole: Whole, case: CaseWeights) -> Check:
    """The tongue weight that the loads give against the one that is typed or read off a scale."""
    tongue, most = whole.weights.tongue(), whole.limits.loads_disagree.hi
    check = equal_within(case.tongue, tongue, abs(case.tongue).hi * most)
    check.caution(
        "By the loads the tongue carries {have}{case}, the {source} is {need}: {off} apart, and {most} of the "
        "first are the most.",
        case=case.in_words, source=_source(whole, "tongue weight"), off=abs(case.tongue - tongue),
        most=percent(most),
    ).because("The tongue weight shows best whether weights and places of the loads are right.")  # fmt: skip

    def remedies() -> Iterator[Remedy]:
        if whole.weights.readings.ways["tongue"] and not whole.build.service.has("tongue_weight"):
            yield Remedy(
                "go by the scale, and look in `loads` where the heaviest ones stand: their distance to the axle "
                "counts as much as their weight", operation="declare",
            )  # fmt: skip
            return
        yield Remedy(
            "weigh the tongue of the loaded trailer; then look where the heaviest loads stand: their distance to "
            "the axle counts as much as their weight",
            field="service.tongue_weight", relation=EQUAL, target=case.tongue.clipped(0.0), operation="declare",
        )  # fmt: skip

    return check.fix(remedies).at(whole.build.service, "tongue_weight").about()


def _source(whole: Whole, name: str) -> str:
    key = name.replace(" ", "_")
    if not whole.build.service.has(key):
        return f"{name} off the scale"
    return f"weighed {name}" if key == "gross_weight" and _weighed(whole) else f"declared {name}"


def _weighed(whole: Whole) -> bool:
    service = whole.build.service
    return bool(service.has("weighed") and service.weighed)


# ---- the rule of thumb -------------------------------------------------------------------------------


@rule(
    "load-ahead-of-axle",
    on=Whole,
    reads=[*AXLE_LOAD_READS, "practice.load_ahead_share"],
    basis=THUMB,
)
def load_ahead_of_axle(whole: Whole) -> Check | None:
    """Where no tongue weight can be worked out, a rule of thumb says how much load stands ahead of the axle.

    Why: A tongue that is too light makes a trailer sway; the rule of thumb is a first look, a scale is the answer.
    Formula: about 60 % of the load ahead of the axle. Told only where neither a typed or weighed tongue weight nor
        the loads give one, and the list has loads or a part of the hitch. Never a verdict.
    Remedy: Weigh the tongue, or give each load its weight and its place.
    Wrong:
        service: {gross_weight: 2600 lb}
        parts:
          - {kind: coupler, rating: 3500 lb}
    Right:
        service: {gross_weight: 2600 lb, tongue_weight: 300 lb}
        parts:
          - {kind: coupler, rating: 3500 lb}
    """
    weights = whole.weights
    if not weights.given or on_no_ball(whole.build) or weights.tongue_typed():
        return None
    cases = weights.cases()
    if any(case.tongue.known for case in cases) or not (cases or whole.fit.bindings(TowChain)):
        return None
    share = whole.limits.load_ahead_share.hi
    words = "No tongue weight can be worked out from this list."
    ahead = [case for case in cases if not (case.ahead().lo <= 0 and case.ahead().hi >= 1)]
    if ahead:
        words += (
            " As far as it says, {ahead} of the load stands ahead of the axle{case}; the rule of thumb is {thumb}."
        )
    else:
        words += " By a rule of thumb about {thumb} of the load stands ahead of the axle."
    return certainly().note(
        words + " Weigh the tongue before towing.",
        thumb=percent(share), ahead=show_percent(ahead[0].ahead()) if ahead else "",
        case=ahead[0].in_words if ahead else "",
    ).about()  # fmt: skip
