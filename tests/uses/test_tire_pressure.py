"""Pressures for the actual load: against the T&RA formula, the caps, and left beside right."""

from __future__ import annotations

import pytest
from case_files import check_text

import partscheck
from partscheck.formulas.tire import p_metric_load
from partscheck.uses.tire_pressure import LEAST, LOAD, OVERLOADED, RATED

PSI = 6.894757293168


def rows(text: str) -> list:
    return partscheck.tire_pressures(check_text(text))


def one_axle(load: str, tire: str, more: str = "") -> list:
    return rows(
        f"service: {{gross_weight: {load}, tongue_weight: 0 lb, country: US}}\n{more}parts:\n"
        f"  - {{kind: axle, rating: 5000 lb}}\n  - {{id: tire, kind: tire, qty: 2, {tire}}}\n"
    )


def test_a_p_metric_size_goes_by_the_published_formula() -> None:
    """T&RA: L = K p^0.5 Sd^1.39 (Dr + Sd) (secondary copy read); at p from here the formula gives 1.10 L back."""
    (left, right) = one_axle("2600 lb", "size: P205/75R15")
    carried = p_metric_load(205, 75, 381, left.pressure.lo)
    assert carried * 9.80665 == pytest.approx(1.10 * left.load.lo, rel=1e-9)
    assert (left.at, right.at, left.ruled_by, left.basis.kind) == ("1L", "1R", LOAD, "published")


def test_the_rated_pressure_rules_where_it_is_typed() -> None:
    """Own method, hand-worked: 35 psi x (1300 x 1.10 / 1598)^2 = 28.03 psi."""
    row = one_axle("2600 lb", "size: P205/75R15, max_load: 1598 lb, rated_pressure: 35 psi")[0]
    assert row.pressure.hi / PSI == pytest.approx(28.03, abs=0.005)
    assert row.divided
    assert row.formula == "p = rated pressure x (load / (rated load / 1.10))^2"


def test_other_tires_go_by_the_recalled_exponent() -> None:
    """Own method, hand-worked: 50 psi x (1400 / 1760)^(1/0.8) = 37.56 psi."""
    row = one_axle("2800 lb", "size: ST205/75R14, max_load: 1760 lb, max_pressure: 50 psi")[0]
    assert row.pressure.hi / PSI == pytest.approx(37.56, abs=0.005)
    assert (row.basis.kind, row.ruled_by, row.divided) == ("recalled", LOAD, False)


@pytest.mark.parametrize(
    ("load", "psi", "ruled_by"),
    [("400 lb", 25, LEAST), ("3519 lb", 49.98, LOAD), ("3520 lb", 50, RATED), ("3521 lb", 50, OVERLOADED)],
)
def test_never_under_the_least_nor_over_the_moulded_pressure(load: str, psi: float, ruled_by: str) -> None:
    row = one_axle(load, "size: ST205/75R14, max_load: 1760 lb, max_pressure: 50 psi")[0]
    assert row.pressure.hi / PSI == pytest.approx(psi, abs=0.005)
    assert row.ruled_by == ruled_by


def test_a_hard_tire_is_not_run_at_a_small_share_of_its_pressure() -> None:
    row = one_axle("400 lb", "size: LT245/75R17, max_load: 3195 lb, max_pressure: 80 psi")[0]
    assert row.pressure.hi / PSI == pytest.approx(36)  # 45 % of 80 psi, practice
    assert row.ruled_by == LEAST


def test_a_soft_tire_is_not_filled_over_its_own_rated_pressure_for_the_least() -> None:
    row = one_axle("400 lb", "size: 20.5x8.0-10, max_load: 900 lb, max_pressure: 20 psi")[0]
    assert row.pressure.hi / PSI == pytest.approx(20)


def test_the_heavier_side_needs_more_and_names_its_case() -> None:
    found = rows(
        "layout: {coupler_to_axle: 120 in, hub_face_distance: 60 in}\n"
        "loads:\n"
        "  - {what: frame, weight: 1000 lb, from_coupler: 110 in}\n"
        "  - {what: cargo, weight: 1500 lb, from_coupler: 112 in, from_centre: 3 in, cases: [loaded]}\n"
        "load_cases: [empty, loaded]\nparts:\n"
        "  - {kind: wheel, size: 14 x 6 in, offset: 0 mm}\n"
        "  - {id: tire, kind: tire, size: ST205/75R14, max_load: 1760 lb, max_pressure: 50 psi}\n"
    )
    left, right = found
    assert right.load.lo > left.load.hi
    assert right.pressure.lo > left.pressure.hi
    assert left.case == right.case == "loaded"


def test_a_range_of_load_gives_a_range_of_pressure() -> None:
    found = rows(
        "service: {gross_weight: 2800 lb}\nparts:\n"
        "  - {id: tire, kind: tire, size: ST205/75R14, max_load: 1760 lb, max_pressure: 50 psi}\n"
    )
    assert found[0].pressure.lo < found[0].pressure.hi


@pytest.mark.parametrize(
    "text",
    [
        "parts:\n  - {kind: tire, size: ST205/75R14, max_load: 1760 lb, max_pressure: 50 psi}\n",
        "service: {gross_weight: 2800 lb, tongue_weight: 0}\nparts:\n  - {kind: tire, size: ST205/75R14}\n",
        "service: {gross_weight: 2800 lb, tongue_weight: 0}\nparts:\n  - {kind: tire, max_load: 1760 lb}\n",
        "service: {gross_weight: 2800 lb, tongue_weight: 0}\nparts:\n  - {kind: hub}\n",
    ],
)
def test_nothing_is_said_where_load_or_rating_are_not_known(text: str) -> None:
    assert rows(text) == []


def test_units_do_not_matter() -> None:
    inch = one_axle("2800 lb", "size: ST205/75R14, max_load: 1760 lb, max_pressure: 50 psi")[0]
    metric = one_axle("1270.0586 kg", "size: ST205/75R14, max_load: 798.3226 kg, max_pressure: 344.7379 kPa")[0]
    assert metric.pressure.hi == pytest.approx(inch.pressure.hi, rel=1e-6)
