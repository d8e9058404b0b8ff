"""Laws of a tube's section modulus: it grows with each side and with the wall, and what is solved for fits."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from partscheck.formulas.tube import height_needed, section_modulus, wall_needed

sides = st.floats(20, 200)
walls = st.floats(0.5, 60)


@given(sides, sides, walls, st.floats(0.01, 20))
def test_more_metal_is_never_weaker(height: float, width: float, wall: float, more: float) -> None:
    modulus = section_modulus(height, width, wall)
    slack = 1e-9 * modulus
    assert section_modulus(height, width, wall + more) >= modulus - slack
    assert section_modulus(height, width + more, wall) >= modulus - slack
    assert section_modulus(height + more, width, wall) >= modulus - slack


@given(sides, sides, walls)
def test_a_round_corner_is_weaker_than_a_sharp_one(height: float, width: float, wall: float) -> None:
    sharp = section_modulus(height, width, wall, corner_walls=0)
    assert 0.7 * sharp < section_modulus(height, width, wall) < sharp


@given(sides, sides, st.floats(0.5, 9))
def test_solved_for_the_wall_and_for_the_height(height: float, width: float, wall: float) -> None:
    modulus = section_modulus(height, width, wall)
    assert section_modulus(height, width, wall_needed(height, width, modulus)) == pytest.approx(modulus, rel=1e-9)
    assert section_modulus(height_needed(width, wall, modulus), width, wall) == pytest.approx(modulus, rel=1e-9)


def test_what_no_wall_gives_is_endless() -> None:
    assert wall_needed(50, 50, 50**3) == float("inf")
