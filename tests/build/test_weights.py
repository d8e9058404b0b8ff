"""Weights at rest against figures worked by hand.

The figures are check values of our own method (moments about the coupler), not published ones; one
published worked example stands beside them.
"""

from __future__ import annotations

import pytest
from case_files import shipped_catalogue

from partscheck.build.fit import Fit
from partscheck.build.reader import read_build
from partscheck.build.weights import Weights, shock_factor

LB = 4.4482216152605  # N

TONGUE_CASES = """
layout: {coupler_to_axle: 120 in}
load_cases: [empty, loaded, racked]
loads:
  - {what: frame, weight: 640 lb, from_coupler: 100 in}
  - {what: running gear, weight: 350 lb, from_coupler: 120 in, moves_with_axle: true}
  - {what: cargo, weight: 1500 lb, from_coupler: 112 in, cases: [loaded, racked]}
  - {what: rack, weight: 110 lb, from_coupler: 208 in, cases: [racked]}
parts:
  - {kind: wheel, size: 15 x 7 in}
"""


def weights(text: str) -> Weights:
    build = read_build(text.encode(), shipped_catalogue(), "case.yaml")
    build.listen()
    return Fit(build).weights


def corner(text: str, side: str = "L") -> tuple[float, float]:
    """(low, high) load in lb of the wheel on one side."""
    found = weights(text)
    places = found.place_loads(found.fit.ends[0])
    load = next(load for at, load in places if any(one.endswith(side) for one in at))
    return load.lo / LB, load.hi / LB


def test_tongue_of_three_load_cases_hand_worked() -> None:
    cases = {case.name: case for case in weights(TONGUE_CASES).cases()}
    expected = {
        "empty": (990, 106_000 / 120, 106.67),
        "loaded": (2490, 274_000 / 120, 206.67),
        "racked": (2600, 2474.00, 126.00),
    }
    for name, (total, axle, tongue) in expected.items():
        assert cases[name].total.mid / LB == pytest.approx(total, abs=0.005)
        assert cases[name].axles.mid / LB == pytest.approx(axle, abs=0.005)
        assert cases[name].tongue.mid / LB == pytest.approx(tongue, abs=0.005)


def test_worst_axle_load_is_of_the_racked_case_hand_worked() -> None:
    found = weights(TONGUE_CASES)
    assert found.axle_load(1).mid / LB == pytest.approx(2474.00, abs=0.005)
    assert found.corner_load(found.fit.ends[0]).mid / LB == pytest.approx(1237, abs=0.005)
    assert found.tongue().mid / LB == pytest.approx(126.00, abs=0.005)


def test_two_supports_of_a_published_example() -> None:
    """Giancoli, Physics 7e, ch. 9 (secondary copy read): 16 844 N and 7 656 N."""
    found = weights("""
layout: {coupler_to_axle: 8 m}
loads:
  - {what: trailer, weight: 24.5 kN, from_coupler: 5.5 m}
parts:
  - {kind: wheel, size: 15 x 7 in}
""")
    (case,) = found.cases()
    assert case.axles.mid == pytest.approx(16_844, abs=1)
    assert case.tongue.mid == pytest.approx(7_656, abs=1)


def test_side_check_hand_worked() -> None:
    text = """
layout: {coupler_to_axle: 120 in, hub_face_distance: 70 in}
loads:
  - {what: cargo, weight: 2700 lb, from_coupler: 120 in, from_centre: 3 in}
parts:
  - {kind: wheel, size: 15 x 7 in, offset: 0 mm}
"""
    assert corner(text, "R") == pytest.approx((1465.71, 1465.71), abs=0.01)
    assert corner(text, "L") == pytest.approx((1234.29, 1234.29), abs=0.01)


def test_adapter_and_offset_move_the_track() -> None:
    """Faces 60 in apart, wheel tucked in 1 in, adapter 2 in: load planes 60 - 2 (1 - 2) = 62 in."""
    found = weights("""
layout: {hub_face_distance: 60 in}
parts:
  - {kind: adapter, thickness: 2 in}
  - {kind: wheel, size: 15 x 7 in, offset: 1 in}
""")
    assert found.track(found.fit.ends[0]).mid == pytest.approx(62 * 25.4)


def test_an_axle_that_is_heavier_by_its_loads_than_by_the_gross_weight() -> None:
    text = TONGUE_CASES.replace("layout:", "service: {gross_weight: 2500 lb, tongue_weight: 250 lb}\nlayout:")
    assert weights(text).axle_load(1).mid / LB == pytest.approx(2474.00, abs=0.005)


def test_an_axle_that_is_heavier_by_the_gross_weight() -> None:
    text = TONGUE_CASES.replace("layout:", "service: {gross_weight: 3000 lb}\nlayout:")
    assert weights(text).axle_load(1).mid / LB == pytest.approx(3000 - 126, abs=0.005)


def test_gross_weight_on_the_wheels_bounds_an_unknown_tongue() -> None:
    text = "service: {gross_weight: 2600 lb}\nparts:\n  - {kind: wheel, size: 15 x 7 in}\n"
    assert corner(text) == pytest.approx((0.7 * 1300, 1300))


def test_nothing_known_is_the_widest_interval() -> None:
    low, high = corner("parts:\n  - {kind: wheel, size: 15 x 7 in}\n")
    assert (low, high) == (0, float("inf"))


def test_a_load_without_weight_leaves_the_upper_end_open() -> None:
    text = TONGUE_CASES.replace("weight: 1500 lb, ", "")
    load = weights(text).axle_load(1)
    assert load.lo / LB == pytest.approx(106_000 / 120, abs=0.005)
    assert load.hi == float("inf")


def test_a_toleranced_distance_gives_its_two_ends_and_no_more() -> None:
    load = weights(TONGUE_CASES.replace("120 in}\nload_cases", "118 to 122 in}\nload_cases"))
    case = load.cases()[2]
    assert case.tongue.lo / LB == pytest.approx(2600 - 296_880 / 118, abs=0.01)
    assert case.tongue.hi / LB == pytest.approx(2600 - 296_880 / 122, abs=0.01)


def test_two_axles_equal_sixty_percent_or_in_between() -> None:
    text = """
service: {gross_weight: 5000 lb, tongue_weight: 500 lb}
layout: {axles: 2LEVEL}
parts:
  - {kind: wheel, size: 15 x 7 in}
"""

    def ends(level: str) -> tuple[float, float]:
        load = weights(text.replace("LEVEL", level)).axle_load(2)
        return load.lo / LB, load.hi / LB

    assert ends(", equalized: true") == pytest.approx((2250, 2250))
    assert ends(", equalized: false") == pytest.approx((2700, 2700))
    assert ends("") == pytest.approx((2250, 2700))


def test_the_spare_is_for_the_worst_corner() -> None:
    found = weights("""
service: {gross_weight: 2600 lb, tongue_weight: 300 lb}
parts:
  - {kind: wheel, size: 15 x 7 in, qty: 3}
""")
    assert found.fit.spare is not None
    assert found.corner_load(found.fit.spare).mid / LB == pytest.approx(1150)


def test_weight_given_back_by_the_hitch_adds_to_the_axle() -> None:
    text = """
service: {gross_weight: 5000 lb, tongue_weight: 600 lb}
tow_vehicle: {weight_distribution: trueRETURNED}
parts:
  - {kind: wheel, size: 15 x 7 in}
"""
    known = weights(text.replace("RETURNED", ", weight_returned: 120 lb")).axle_load(1)
    assert known.mid / LB == pytest.approx(4520)
    unknown = weights(text.replace("RETURNED", "")).axle_load(1)
    assert (unknown.lo / LB, unknown.hi / LB) == pytest.approx((4400, 5000))


def test_shock_factor_of_a_surface_and_of_none() -> None:
    def factor(service: str) -> tuple[float, float]:
        found = shock_factor(weights(f"service: {{{service}}}\nparts:\n  - {{kind: wheel}}\n").build)
        return found.lo, found.hi

    assert factor("surface: gravel") == (2.0, 2.0)
    assert factor("gross_weight: 2000 lb") == (1.5, 3.0)
