"""The rear receiver's lever and the departure angle, against moments and geometry worked another way."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from partscheck.formulas.rear import departure_angle, load_at_arm

LOAD = st.floats(1, 20_000)
ARM = st.floats(1, 3000)


@given(LOAD, ARM, ARM)
def test_beyond_the_rated_arm_the_moment_at_the_pin_stays(rating: float, rated: float, arm: float) -> None:
    load = load_at_arm(rating, rated, arm)
    assert load * max(arm, rated) == pytest.approx(rating * rated)
    assert load <= rating * (1 + 1e-12)


@given(ARM, ARM)
def test_the_slope_passes_through_the_low_point(overhang: float, clearance: float) -> None:
    angle = math.radians(departure_angle(overhang, clearance))
    assert overhang * math.sin(angle) == pytest.approx(clearance * math.cos(angle), rel=1e-9)


def test_open_ends() -> None:
    assert load_at_arm(300, 305, math.inf) == 0
    assert load_at_arm(math.inf, 305, 610) == math.inf
    assert departure_angle(1000, math.inf) == 90
    assert departure_angle(math.inf, 300) == 0


@pytest.mark.parametrize("call", [
    lambda: load_at_arm(-1, 300, 400), lambda: load_at_arm(1, 0, 400), lambda: load_at_arm(1, 300, -1),
    lambda: departure_angle(0, 300), lambda: departure_angle(1000, -1),
])  # fmt: skip
def test_out_of_range(call: object) -> None:
    with pytest.raises(ValueError, match="must"):
        call()  # type: ignore[operator]
