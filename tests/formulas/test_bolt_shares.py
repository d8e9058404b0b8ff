"""Shares of bolts in loads beside their middle: statics, and the simpler forms that they must equal."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from partscheck.formulas.bolt_group import (
    centroid,
    in_plane_forces,
    pull_shares,
    row_tensions,
    share_in_any_direction,
)

place = st.integers(-300, 300).map(float)
spots = st.lists(st.tuples(place, place), min_size=3, max_size=8, unique=True)


@given(spots, st.tuples(place, place))
def test_the_pulls_add_up_to_the_load(pattern: list[tuple[float, float]], at: tuple[float, float]) -> None:
    assert math.fsum(pull_shares(pattern, at)) == pytest.approx(1, abs=1e-6)


@given(st.tuples(place, place), st.integers(20, 200), st.integers(20, 200))
def test_the_pulls_balance_the_moments_about_both_axes(at: tuple[float, float], wide: int, high: int) -> None:
    pattern = [(0.0, 0.0), (float(wide), 0.0), (0.0, float(high)), (wide * 0.7, high * 0.9)]
    shares = pull_shares(pattern, at)
    middle = centroid(pattern)
    for axis in (0, 1):
        moment = math.fsum(t * (spot[axis] - middle[axis]) for t, spot in zip(shares, pattern, strict=True))
        assert moment == pytest.approx(at[axis] - middle[axis], abs=1e-6)


def test_a_pull_off_one_axis_is_the_moment_over_the_rows() -> None:
    pattern = [(0.0, 0.0), (80.0, 0.0), (0.0, 100.0), (80.0, 100.0)]
    rows = row_tensions([y for _, y in pattern], 1000 * 30 / 1000, pull=1000)
    assert [1000 * one for one in pull_shares(pattern, (40.0, 80.0))] == pytest.approx(rows)


def test_bolts_in_one_line_take_the_moment_along_it_only() -> None:
    assert pull_shares([(0, 0), (0, 100)], (50, 80)) == pytest.approx([0.2, 0.8])


def test_bolts_in_one_place_share_alike() -> None:
    assert pull_shares([(5, 5), (5, 5)], (50, 80)) == [0.5, 0.5]


@given(spots, st.tuples(place, place), st.floats(0, 2 * math.pi))
def test_no_direction_gives_more_or_less_than_any_direction(
    pattern: list[tuple[float, float]], at: tuple[float, float], angle: float
) -> None:
    load = math.cos(angle), math.sin(angle)
    bounds = share_in_any_direction(pattern, at)
    for (least, most), share in zip(bounds, in_plane_forces(pattern, load, at), strict=True):
        assert least - 1e-6 <= math.hypot(*share) <= most + 1e-6


def test_the_worst_direction_is_reached() -> None:
    # one row of two, load at its end along the row's normal: the bolt there takes all of it
    least, most = share_in_any_direction([(0, 0), (100, 0)], (100, 0))[1]
    assert (least, most) == pytest.approx((0.5, 1.0))
