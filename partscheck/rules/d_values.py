"""The D-value on the plates of couplings, against what tow vehicle and trailer need together."""

from __future__ import annotations

import math
from collections.abc import Iterator

from partscheck.build.tow_links import WORST_GROSS_READS, by_d_value, worst_gross
from partscheck.build.tow_places import TowChain
from partscheck.formulas.towing import d_value
from partscheck.notation.interval import Interval
from partscheck.rules.basis import recalled
from partscheck.rules.check import Check, Remedy, at_least
from partscheck.rules.registry import rule
from partscheck.rules.tow_ratings import LETS_GO

D_FORMULA = recalled("UN Regulation 55, D = g T R / (T + R)")


@rule(
    "d-value-low",
    on=TowChain,
    reads=[
        "coupler.d_value", "coupler.rating", "ball.d_value", "ball.rating", "tow_vehicle.weight",
        *WORST_GROSS_READS,
    ],
    basis=D_FORMULA,
)
def d_value_low(chain: TowChain) -> Iterator[Check]:
    """The D-value on a coupling's plate is at least what tow vehicle and trailer need together.

    Why: Where couplings carry a D-value, it is the pull between the two that they were tested for.
    Formula: D = g T R / (T + R), T the weight of the tow vehicle, R that of the trailer, both as their papers
        allow them, in tonnes, g 9.81 m/s2, D in kN. The tow vehicle's weight is asked for only where the part has
        no other rating.
    Remedy: A coupling of a higher D-value, or a lighter trailer.
    Hazard: The coupling breaks and the trailer comes off.
    Wrong:
        service: {gross_weight: 1500 kg}
        tow_vehicle: {weight: 2000 kg}
        parts:
          - {kind: coupler, d_value: 7.5 kN}
    Right:
        service: {gross_weight: 1500 kg}
        tow_vehicle: {weight: 2000 kg}
        parts:
          - {kind: coupler, d_value: 8.5 kN}
    """
    vehicle = chain.build.tow_vehicle
    for part in (chain.coupler, chain.ball):
        if part is None or not (part.has("d_value") and chain.weights.given):
            continue
        if not (vehicle.has("weight") or by_d_value(part)):
            continue
        gross = worst_gross(chain.weights)
        need = _d_needed(vehicle.weight, gross.load)
        check = at_least(part.d_value, need).stop(
            "The {part} has a D-value of {d} kN; a tow vehicle of {vehicle} and a trailer of {trailer}{case} need "
            "{least} kN.", part=part, d=f"{part.d_value.lo / 1000:.6g}", least=_kilonewtons(need.hi),
            vehicle=vehicle.weight, trailer=gross.load, case=gross.in_case,
        )  # fmt: skip
        check.because("The D-value grows with both weights: the same trailer needs more behind a heavier vehicle.")
        check.danger(LETS_GO).at(part, "d_value").about(part)
        yield check.fix(lambda part=part, need=need: [  # type: ignore[misc]
            Remedy("put one with a D-value of at least {least} kN in place of the {part}",
                   field=f"{part.id}.d_value", relation="at least", target=need, part=part,
                   least=_kilonewtons(need.hi))
        ])  # fmt: skip


def _d_needed(vehicle: Interval, trailer: Interval) -> Interval:
    """What both weights ask for, N; of a vehicle that may weigh anything, no more than g R."""
    least = d_value(vehicle.lo, trailer.lo) if vehicle.lo + trailer.lo > 0 else 0.0
    return Interval(least, d_value(vehicle.hi, trailer.hi), "N")


def _kilonewtons(newtons: float) -> str:
    """ "8.41", rounded up, so that a plate that says so is enough."""
    return f"{math.ceil(newtons / 10 - 1e-9) / 100:.2f}"
