"""Weights at rest against figures worked by hand.

The figures are check values of our own method (moments about the coupler), not published ones; one
published worked example stands beside them.
"""

from __future__ import annotations

import pytest
from case_files import check_text, shipped_catalogue

from partscheck.build.fit import Fit
from partscheck.build.reader import read_build
from partscheck.build.weights import Weights, case_of, shock_factor
from partscheck.notation.faults import Faults

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


# ---- load cases, tanks and racks ---------------------------------------------------------------


def names(text: str) -> list[str]:
    return [case.name for case in weights(text).cases()]


def test_each_share_says_which_load_case_it_is_of() -> None:
    """The worst axle load is of the racked case, the greatest tongue weight of the loaded one."""
    found = weights(TONGUE_CASES)
    assert case_of(found.axle_load(1)) == "racked"
    assert case_of(found.corner_load(found.fit.ends[0])) == "racked"
    tongue = found.greatest_tongue()
    assert (tongue.case, round(tongue.mid / LB, 2)) == ("loaded", 206.67)
    heavier = TONGUE_CASES.replace("layout:", "service: {gross_weight: 3000 lb}\nlayout:")
    assert case_of(weights(heavier).axle_load(1)) == ""


def test_the_share_is_narrower_than_tongue_over_total() -> None:
    (case,) = weights("""
layout: {coupler_to_axle: 120 in}
loads:
  - {what: frame, weight: 600 lb, from_coupler: 100 in}
  - {what: cargo, weight: 0 to 1500 lb, from_coupler: 108 in}
parts: []
""").cases()
    assert (case.share.lo, case.share.hi) == pytest.approx((250 / 2100, 100 / 600))
    assert (case.tongue / case.total).bare().hi > case.share.hi


TANK = """
layout: {coupler_to_axle: 3 m}
loads:
  - {what: trailer, weight: 500 kg, from_coupler: 2.6 m}
  - {what: water, part: tank, from_coupler: 3.5 m}
parts:
  - {kind: tank, volume: 100 L}
"""


def test_a_tank_is_full_and_empty_and_a_litre_of_water_weighs_a_kilogram() -> None:
    cases = {case.name: case for case in weights(TANK).cases()}
    assert list(cases) == ["tank empty", "tank full"]
    assert cases["tank empty"].total.mid == pytest.approx(500 * 9.80665)
    assert cases["tank full"].total.mid == pytest.approx(600 * 9.80665)
    assert cases["tank full"].tongue.mid == pytest.approx(9.80665 * (500 * 0.4 / 3 - 100 * 0.5 / 3))


def test_what_a_tank_holds_and_its_own_weight() -> None:
    honey = weights(TANK.replace("100 L", "100 L, weight: 8 kg, holds: honey, qty: 2")).cases()
    assert honey[0].total.mid / 9.80665 == pytest.approx(516)
    assert (honey[1].total.lo / 9.80665, honey[1].total.hi / 9.80665) == pytest.approx((792, 806))
    unknown = weights(TANK.replace("100 L", "100 L, holds: unknown")).cases()
    assert (unknown[1].total.lo / 9.80665, unknown[1].total.hi / 9.80665) == pytest.approx((572, 645))


def test_a_typed_weight_is_all_of_a_full_tank() -> None:
    empty, full = weights(TANK.replace("part: tank,", "part: tank, weight: 110 kg,")).cases()
    assert (empty.total.mid / 9.80665, full.total.mid / 9.80665) == pytest.approx((510, 610))


def test_named_cases_go_before_generated_ones() -> None:
    assert names(TANK.replace("loads:", "load_cases: [going out, coming home]\nloads:")) == [
        "going out", "coming home",
    ]  # fmt: skip
    assert names(TANK.replace("from_coupler: 3.5 m", "from_coupler: 3.5 m, cases: [wet]")) == ["wet"]


def test_tank_and_rack_in_every_combination() -> None:
    text = TANK.replace("3 m}", "3 m, coupler_to_rear_receiver: 4.6 m}", 1)
    text += "  - {kind: rack, weight: 15 kg, weight_carried: 30 kg, beyond_pin: 0.4 m}\n"
    cases = weights(text).cases()
    assert [case.name for case in cases] == [
        "tank empty, rack empty", "tank empty, rack loaded", "tank full, rack empty", "tank full, rack loaded",
    ]  # fmt: skip
    lightest = cases[3]
    assert lightest.tongue.mid / 9.80665 == pytest.approx(500 * 0.4 / 3 - 50 / 3 - 45 * 2 / 3)


def test_a_rack_that_a_load_speaks_of_counts_once() -> None:
    text = TANK.replace("3 m}", "3 m, coupler_to_rear_receiver: 4.6 m}", 1)
    text = text.replace("parts:", "  - {what: rear rack, weight: 45 kg, from_coupler: 5 m}\nparts:")
    text += "  - {kind: rack, weight: 15 kg, weight_carried: 30 kg, beyond_pin: 0.4 m}\n"
    assert names(text) == ["tank empty", "tank full"]


def test_many_tanks_are_not_combined_in_every_way() -> None:
    loads = "\n".join(f"  - {{what: t{n}, part: t{n}, from_coupler: 2 m}}" for n in range(6))
    parts = "\n".join(f"  - {{id: t{n}, kind: tank, volume: 10 L}}" for n in range(6))
    found = names(f"layout: {{coupler_to_axle: 3 m}}\nloads:\n{loads}\nparts:\n{parts}\n")
    assert len(found) == 2 * 6 + 2
    assert len(set(found)) == len(found)


def test_running_gear_without_a_place_stands_at_the_axle() -> None:
    text = TONGUE_CASES.replace("from_coupler: 120 in, moves", "moves")
    assert weights(text).cases()[2].tongue.mid / LB == pytest.approx(126.00, abs=0.005)


def test_share_of_the_load_ahead_of_the_axle() -> None:
    case = weights(TONGUE_CASES).cases()[2]
    assert case.ahead().mid == pytest.approx(2140 / 2250)


# ---- scale readings ----------------------------------------------------------------------------

READINGS = """
service:
  scale: {READ}
parts:
  - {kind: wheel, size: 15 x 7 in}
"""


def read(**values: str) -> Weights:
    typed = ", ".join(f"{name}: {value} ± 0 lb" for name, value in values.items())
    return weights(READINGS.replace("READ", typed))


def test_readings_hitched_and_unhitched_give_tongue_and_axles() -> None:
    found = read(whole_trailer="2600 lb", axles_hitched="2340 lb")
    assert (found.gross().mid / LB, found.tongue().mid / LB) == pytest.approx((2600, 260))
    assert found.axle_load(1).mid / LB == pytest.approx(2340)


def test_readings_of_the_tow_vehicle_give_the_tongue() -> None:
    found = read(tow_vehicle_hitched="5260 lb", tow_vehicle_alone="5000 lb", axles_hitched="2340 lb")
    assert (found.gross().mid / LB, found.tongue().mid / LB) == pytest.approx((2600, 260))
    assert found.readings.at_odds == []


def test_readings_of_both_together() -> None:
    found = read(all_hitched="7600 lb", tow_vehicle_hitched="5260 lb", tow_vehicle_alone="5000 lb")
    assert (found.gross().mid / LB, found.axle_load(1).mid / LB) == pytest.approx((2600, 2340))


def test_readings_that_do_not_agree_are_told_apart() -> None:
    vehicle = {"tow_vehicle_hitched": "5260 lb", "tow_vehicle_alone": "5000 lb"}
    found = read(whole_trailer="2700 lb", axles_hitched="2340 lb", **vehicle)
    assert (found.tongue().lo / LB, found.tongue().hi / LB) == pytest.approx((260, 360))
    told = {(name, one.words, other.words) for name, one, other in found.readings.at_odds}
    assert ("tongue", "tow vehicle hitched less tow vehicle alone", "whole trailer less axles hitched") in told


def test_a_reading_without_a_tolerance_is_off_by_what_the_scale_rounds() -> None:
    text = READINGS.replace("READ", "whole_trailer: 2600 lb, axles_hitched: 2340 lb")
    tongue = weights(text).tongue()
    assert (tongue.lo / LB, tongue.hi / LB) == pytest.approx((240, 280))


def test_one_reading_alone_gives_the_gross_weight_and_no_more() -> None:
    found = read(whole_trailer="2600 lb")
    assert found.gross().mid / LB == pytest.approx(2600)
    assert not found.tongue_typed()


def test_a_load_names_a_tank_or_a_rack_and_a_scale_names_a_case() -> None:
    text = """
service: {scale: {whole_trailer: 2600 lb, case: loded}}
loads:
  - {what: water, part: tnk, from_coupler: 90 in}
  - {what: wheel, part: wheel, from_coupler: 90 in, cases: [loaded]}
parts: [{kind: tank, volume: 20 gal}, {kind: wheel, size: 15 x 7 in}]
"""
    with pytest.raises(Faults) as caught:
        read_build(text.encode(), shipped_catalogue(), "case.yaml")
    told = {(fault.mark.line, fault.read, fault.hint) for fault in caught.value.faults}
    assert told == {
        (2, "loded", "did you mean `loaded`?"), (4, "tnk", "did you mean `tank`?"),
        (5, "wheel (wheel)", "type the `weight` of any other load"),
    }  # fmt: skip


def test_nothing_of_a_full_trailer_comes_onto_the_ball() -> None:
    text = (
        "service: {trailer_type: full}\nlayout: {coupler_to_axle: 3 m, axles: 2}\n"
        "loads:\n  - {what: all, weight: 3000 kg, from_coupler: 3.2 m}\nparts: []\n"
    )
    weights = check_text(text).fit.weights
    (case,) = weights.cases()
    assert case.axles.lo == case.total.lo
    assert case.tongue.hi == case.share.hi == 0.0
    assert weights.axle_group().hi == pytest.approx(3000 * 9.80665)
    assert weights.axle_share().hi == pytest.approx(0.6)  # no equalizer joins a front and a rear axle
