"""Star orders: every nut once, no neighbours in a row where that can be, and the drawings of the trade."""

from __future__ import annotations

from itertools import pairwise, permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from partscheck.formulas.torque_order import neighbours_in_a_row, star_order


@given(st.integers(1, 200))
def test_every_nut_is_met_once(count: int) -> None:
    assert sorted(star_order(count)) == list(range(1, count + 1))


@given(st.integers(5, 200))
def test_no_two_neighbours_follow_each_other(count: int) -> None:
    # Not by the module's own helper: positions as angles, neighbours are 360 / n apart.
    for one, other in pairwise(star_order(count)):
        apart = abs(one - other) * 360 / count
        assert min(apart, 360 - apart) > 1.5 * 360 / count


@pytest.mark.parametrize("count", [3, 4, 5, 6, 7])
def test_with_three_and_four_nuts_no_order_does_without_neighbours(count: int) -> None:
    """All orders tried: three and four nuts have none, from five on there are some."""
    possible = any(
        all((one - other) % count not in (1, count - 1) for one, other in pairwise(order))
        for order in permutations(range(1, count + 1))
    )
    assert possible is (count >= 5)
    assert bool(neighbours_in_a_row(star_order(count))) is not possible


def test_four_nuts_have_one_pair_of_neighbours_in_a_row() -> None:
    """The least that can be: of four nuts each has a single one that is no neighbour."""
    fewest = min(len(neighbours_in_a_row(order)) for order in permutations((1, 2, 3, 4)))
    assert neighbours_in_a_row(star_order(4)) == [(3, 2)]
    assert fewest == 1


# The usual drawings (common practice, no source), numbered clockwise from the top.
DRAWN = {
    2: (1, 2),
    4: (1, 3, 2, 4),  # across, then across
    5: (1, 3, 5, 2, 4),  # the star in one line
    6: (1, 4, 2, 5, 3, 6),  # across, and on by one
    8: (1, 5, 3, 7, 2, 6, 4, 8),  # a cross, then the cross between
    10: (1, 6, 3, 8, 5, 10, 2, 7, 4, 9),  # across, the pairs in the star of five
}


@pytest.mark.parametrize("count", DRAWN)
def test_the_drawings_of_the_trade(count: int) -> None:
    assert star_order(count) == DRAWN[count]


@pytest.mark.parametrize("count", [4, 6, 8, 10, 12])
def test_an_even_circle_goes_across_every_second_time(count: int) -> None:
    order = star_order(count)
    assert all(abs(one - other) == count // 2 for one, other in zip(order[::2], order[1::2], strict=True))


def test_no_nuts_is_no_circle() -> None:
    with pytest.raises(ValueError, match="count must be above 0"):
        star_order(0)
