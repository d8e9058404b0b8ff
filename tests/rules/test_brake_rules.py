"""Brakes, wire and suspension: worked figures in full, and what the case files cannot hold.

The figures are of our own method, hand-worked; geometry is checked by another route than the rule's.
"""

from __future__ import annotations

import math
import re

import pytest
from case_files import check_text, shipped_catalogue, worst

from partscheck.build.fit import Fit
from partscheck.build.reader import read_build
from partscheck.engine import Result
from partscheck.formulas.alignment import four_bolt_shims

TWO_LEGS = """
parts:
  - {{kind: brake, type: electric, hand: pair, current: 3.2 A}}
  - {{id: trailer-wire, kind: wire, gauge: {gauge}, run: {run}}}
  - {{id: vehicle-wire, kind: wire, gauge: 12 AWG, run: 18 ft}}
"""


def margin(result: Result, slug: str) -> float:
    found = next(one for one in result.of(slug) if one.check.margin is not None)
    assert found.check.margin is not None
    return found.check.margin.lo


# ---- wire -------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("gauge", "lost", "verdict"), [("14 AWG", 1.142, "ok"), ("16 AWG", 1.600, "caution")]
)
@pytest.mark.parametrize("run", ["24 ft", "7315.2 mm"])
def test_volts_over_two_legs(gauge: str, lost: float, verdict: str, run: str) -> None:
    result = check_text(TWO_LEGS.format(gauge=gauge, run=run))
    assert worst(result, "brake-wire-drop") == verdict
    assert margin(result, "brake-wire-drop") == pytest.approx(1.2 - lost, abs=5e-4)


@pytest.mark.parametrize("gauge", ["16 AWG", "18 AWG", "20 AWG"])
def test_the_wire_that_the_remedy_names_is_enough_and_no_thicker_than_needed(gauge: str) -> None:
    sizes = [row["key"] for row in shipped_catalogue().rows("wire") if row["system"] == "AWG"]
    finding = check_text(TWO_LEGS.format(gauge=gauge, run="24 ft")).of("brake-wire-drop")[0]
    named = re.search(r"take (\d+ AWG)", finding.remedies("inch")[0][1])
    assert named is not None
    thinner = sizes[sizes.index(named[1]) - 1]
    for size, verdict in ((named[1], "ok"), (thinner, "caution")):
        again = check_text(TWO_LEGS.format(gauge=size, run="24 ft"))
        assert worst(again, "brake-wire-drop") == verdict


def test_the_run_that_the_remedy_names_is_short_enough() -> None:
    finding = check_text(TWO_LEGS.format(gauge="16 AWG", run="24 ft")).of("brake-wire-drop")[0]
    run = next(one.target.hi for one, _ in finding.remedies("metric") if one.field == "trailer-wire.run")
    for length, verdict in ((run, "ok"), (run + 20, "caution")):
        again = check_text(TWO_LEGS.format(gauge="16 AWG", run=f"{length} mm"))
        assert worst(again, "brake-wire-drop") == verdict


# ---- left and right ---------------------------------------------------------------------------------


@pytest.mark.parametrize(("kind", "slug"), [("brake", "brake-pair"), ("suspension-arm", "suspension-pair")])
@pytest.mark.parametrize("hand", ["left", "right"])
def test_two_lines_of_one_hand_are_no_fault_of_the_list_but_a_stop(kind: str, slug: str, hand: str) -> None:
    line = "  - {{id: {id}, kind: {kind}, hand: {hand}, qty: 1}}\n"
    text = "parts:\n" + "".join(line.format(id=id, kind=kind, hand=hand) for id in ("one", "two"))
    assert worst(check_text(text), slug) == "stop"


def test_one_cause_one_stop_for_two_brakes_of_one_hand() -> None:
    result = check_text("parts:\n  - {kind: brake, hand: left, type: surge, qty: 2}\n")
    assert [one.rule.slug for one in result.findings] == ["brake-pair"]


# ---- an unbraked trailer ----------------------------------------------------------------------------


@pytest.mark.parametrize("gross", ["600 kg", "700 kg", "750 kg"])
def test_an_unbraked_trailer_is_asked_nothing_about_brakes(gross: str) -> None:
    result = check_text(f"""
service: {{gross_weight: {gross}, tongue_weight: 50 kg, country: DE}}
parts:
  - {{kind: axle, rating: 750 kg}}
  - {{kind: connector, ways: 7}}
""")
    about = [one for one in result.findings if "brake" in one.rule.slug or "wire" in one.rule.slug]
    assert about == []
    assert len(result.of("brakes-required")) == (gross != "600 kg")


# ---- arms share nothing -----------------------------------------------------------------------------


def test_arms_in_tandem_are_unequal_without_being_asked() -> None:
    text = """
service: {gross_weight: 5200 lb, tongue_weight: 600 lb}
layout: {axles: 2}
parts:
  - {kind: suspension-arm, hand: pair, rating: 1379 lb, per: each, qty: 4}
"""
    fit = Fit(read_build(text.encode(), shipped_catalogue(), "list.yaml"))
    assert fit.weights.axle_load(1).lo == pytest.approx(0.6 * 4600 * 4.4482216152605)
    result = check_text(text)
    assert worst(result, "suspension-below-share") == "stop"
    assert not any(one.field == "equalized" for find in result.findings for one in find.missing)


# ---- shims ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("toe", "camber"), [(0.5, 1.0), (-0.4, 0.7), (0.8, -0.6), (-1.2, -0.3)])
def test_shims_of_both_sides_turn_the_flange_by_the_angles_asked(toe: float, camber: float) -> None:
    """The two thicknesses of the rule, put at the four corners, against the plane of the formula."""
    result = check_text(f"""
parts:
  - {{kind: suspension-arm, hand: pair, toe: {toe} deg, camber: {camber} deg, flange_along: 80 mm,
     flange_upright: 60 mm}}
""")
    values = result.of("shim-range")[0].check.values
    along, upright = values["thick0"].lo, values["thick1"].lo
    corners = [(rear, upper) for rear in (False, True) for upper in (True, False)]
    found = [along * (rear == (toe > 0)) + upright * (upper == (camber > 0)) for rear, upper in corners]
    assert found == pytest.approx(four_bolt_shims(toe, camber, 80, 60))
    turned = (math.atan((found[2] - found[0]) / 80), math.atan((found[0] - found[1]) / 60))
    assert [math.degrees(angle) for angle in turned] == pytest.approx([toe, camber])
