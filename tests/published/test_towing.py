"""Coupler classes, chains and the D-value against printed tables."""

from __future__ import annotations

import math

import pytest
from case_files import shipped_catalogue
from hypothesis import given
from hypothesis import strategies as st

from partscheck.build.tow_class import ALONG, CHAIN, DOWN, POUND, SIDEWAYS, UP, coupler_class
from partscheck.formulas.towing import (
    breaking_load_of_gross,
    chain_breaking_load,
    d_value,
    longitudinal_breaking_load,
    turn_angle,
)

# Maryland COMAR 11.13.08.10 (SAE J684), secondary copy read: class, greatest gross weight, least ball (in),
# then least breaking loads in lb: along, sideways, up, down.
PRINTED = [
    ("1", 2000, 1.875, (6000, 2000, 2500, 2500)),
    ("2", 3500, 2.0, (10500, 3000, 4500, 4500)),
    ("3", 5000, 2.0, (15000, 4000, 7000, 7000)),
]
# SAE J684 (secondary copy read): least breaking force of each chain, with the kN printed beside it.
CHAINS = [(2000, 2000, 8.9), (3500, 3500, 15.6), (5000, 5000, 22.2)]


@pytest.mark.parametrize(("name", "limit", "ball", "loads"), PRINTED)
def test_classes_1_to_3(name: str, limit: int, ball: float, loads: tuple[int, ...]) -> None:
    found = coupler_class(shipped_catalogue(), limit * POUND)
    assert found is not None
    assert found.name == name
    assert found.ball == pytest.approx(ball * 25.4)
    assert [found.breaking_load(one) / POUND for one in (ALONG, SIDEWAYS, UP, DOWN)] == pytest.approx(loads)
    assert longitudinal_breaking_load(limit) == loads[0]


def test_class_4_at_10_000_lb() -> None:
    # 3 x, 1 x, 1.3 x and 1.4 x the gross weight, worked out for 10 000 lb.
    found = coupler_class(shipped_catalogue(), 10000 * POUND)
    assert found is not None
    assert found.name == "4"
    assert found.ball is None
    loads = [found.breaking_load(one) / POUND for one in (ALONG, SIDEWAYS, UP, DOWN)]
    assert loads == pytest.approx([30000, 10000, 13000, 14000])
    assert found.breaking_load(CHAIN) / POUND == pytest.approx(10000)
    assert [breaking_load_of_gross(10000, x) for x in (3, 1, 1.3, 1.4)] == pytest.approx(loads)


@pytest.mark.parametrize("edge", [2000, 3500, 5000])
def test_a_class_ends_at_its_limit(edge: int) -> None:
    at, over = (coupler_class(shipped_catalogue(), gross * POUND) for gross in (edge, edge + 1))
    assert at is not None
    assert over is not None
    assert int(over.name) == int(at.name) + 1


def test_no_class_over_10_000_lb() -> None:
    assert coupler_class(shipped_catalogue(), 10001 * POUND) is None


def test_classes_join_without_a_gap_and_grow() -> None:
    rows = shipped_catalogue().rows("coupler_class")
    assert [row["over_lb"] for row in rows[1:]] == [row["gross_lb"] for row in rows[:-1]]
    for load in (ALONG, SIDEWAYS, UP, DOWN, CHAIN):
        loads = [coupler_class(shipped_catalogue(), row["gross_lb"] * POUND) for row in rows]
        steps = [found.breaking_load(load) for found in loads if found is not None]
        assert steps == sorted(steps)


@pytest.mark.parametrize(("gross", "pounds", "kilonewtons"), CHAINS)
def test_chains_by_class(gross: int, pounds: int, kilonewtons: float) -> None:
    found = coupler_class(shipped_catalogue(), gross * POUND)
    assert found is not None
    assert found.breaking_load(CHAIN) == pytest.approx(pounds * POUND)
    assert found.breaking_load(CHAIN) / 1000 == pytest.approx(kilonewtons, abs=0.05)


# 49 CFR 393.108 prints the working load limits in pounds and in kilograms side by side (secondary copy read).
CHAIN_KG = {
    "30": (580, 860, 1200, 1680, 2030, 3130),
    "43": (1180, 1770, 2450, 3270, 4170, 5910),
    "70": (1430, 2130, 2990, 3970, 5130, 7170),
    "80": (1570, 2000, 3200, 5400, 8200),
    "100": (1950, 2600, 4000, 6800, 10300),
}


@pytest.mark.parametrize("grade", CHAIN_KG)
def test_chain_table_agrees_with_the_kilograms_beside_it(grade: str) -> None:
    rows = [row for row in shipped_catalogue().rows("chain_grade") if row["grade"] == grade]
    pounds = [row["working_lb"] for row in rows]
    assert pounds == sorted(pounds)
    # Rounded apart, the farthest off grade 80 of 5/16 in: 4500 lb beside 2000 kg.
    assert [pound * 0.45359237 for pound in pounds] == pytest.approx(CHAIN_KG[grade], rel=0.021)


@pytest.mark.parametrize(("grade", "factor"), [("30", 4.0), ("70", 4.0), ("43", 3.0)])
def test_breaking_strength_is_near_what_the_grade_stands_for(grade: str, factor: float) -> None:
    # A grade is a tenth of the mean stress at which a link breaks, MPa, over its two wires (recalled; ISO chain
    # grades): 7 mm chain of grade 30 breaks near 2 x 38.5 mm2 x 300 MPa.  Grade 43 comes out at 3 x, not 4 x.
    row = next(one for one in shipped_catalogue().rows("chain_grade") if one["key"] == f"{grade} 1/4")
    by_stress = 2 * math.pi / 4 * row["size_mm"] ** 2 * int(grade) * 10
    assert row["factor_least"] == factor
    assert chain_breaking_load(row["working_lb"] * POUND, factor) == pytest.approx(by_stress, rel=0.06)


def test_d_value_of_equal_masses_is_half_of_one() -> None:
    # D = g T R / (T + R), g 9.81 (recalled, UN Regulation 55): 2 t and 2 t give 9.81 kN.
    tonne = 1000 * 9.80665
    assert d_value(2 * tonne, 2 * tonne) == pytest.approx(9810)


def test_d_value_behind_something_endless_is_the_weight_of_the_trailer() -> None:
    assert d_value(math.inf, 9806.65) == pytest.approx(9810)


# ---- the turn: derived, so held to its own geometry ----------------------------------------------------

SIDES = st.floats(min_value=1, max_value=4000)


@given(SIDES, SIDES, SIDES, SIDES)
def test_turned_so_far_they_touch_and_not_before(front: float, half: float, bumper: float, rear: float) -> None:
    angle = turn_angle(front, half, bumper, rear)
    assert 0 <= angle <= 90
    for share in (0.25, 0.5, 0.99):
        assert not _overlap(front, half, bumper, rear, math.radians(angle * share))
    if 0.01 < angle < 89:
        assert _overlap(front, half, bumper, rear, math.radians(angle + 0.01))


def _overlap(front: float, half: float, bumper: float, rear: float, turn: float) -> bool:
    """A front corner of one lies inside the other: the trailer turned by ``turn``, both endless the other way."""
    for own, width, face, other in ((front, half, bumper, rear), (bumper, rear, front, half)):
        for side in (-width, width):
            back = own * math.cos(turn) - side * math.sin(turn)
            across = own * math.sin(turn) + side * math.cos(turn)
            if back < -face - 1e-9 and abs(across) < other + 1e-9:
                return True
    return False


@given(SIDES, SIDES, SIDES, SIDES, st.floats(min_value=0, max_value=500))
def test_more_room_is_never_less_turn(front: float, half: float, bumper: float, rear: float, by: float) -> None:
    angle = turn_angle(front, half, bumper, rear) - 1e-6
    assert turn_angle(front + by, half, bumper, rear) >= angle
    assert turn_angle(front, half, bumper + by, rear) >= angle
    assert turn_angle(front, half + by, bumper, rear) <= angle + 2e-6
    assert turn_angle(front, half, bumper, rear + by) <= angle + 2e-6


def test_same_turn_seen_from_either_end() -> None:
    assert turn_angle(600, 600, 300, 900) == pytest.approx(turn_angle(300, 900, 600, 600))
