"""Second moments of area that AISC tabulates for hollow sections (Steel Construction Manual, dimensions and
properties; secondary copy read).  The design wall is 0.93 of the nominal one there, the corners are 2 walls round.
"""

from __future__ import annotations

import pytest

from partscheck.formulas.tube import section_modulus

DESIGN_WALL = {"1/8": 0.116, "3/16": 0.174, "1/4": 0.233, "5/16": 0.291, "3/8": 0.349}

# height, width (in), nominal wall, strong axis I (in4)
TABLE = [
    (2, 2, "1/8", 0.486), (2, 2, "3/16", 0.641), (2, 2, "1/4", 0.747), (2.5, 2.5, "1/8", 0.998),
    (2.5, 2.5, "3/16", 1.35), (2.5, 2.5, "1/4", 1.63), (3, 2, "1/8", 1.30), (3, 2, "3/16", 1.77),
    (3, 2, "1/4", 2.13), (3, 3, "1/8", 1.78), (3, 3, "3/16", 2.46), (3, 3, "1/4", 3.02), (3, 3, "5/16", 3.45),
    (3.5, 3.5, "1/4", 5.04), (4, 2, "3/16", 3.66), (4, 3, "3/16", 4.93), (4, 3, "1/4", 6.15), (4, 3, "3/8", 7.93),
    (4, 4, "3/16", 6.21), (4, 4, "1/4", 7.80), (4, 4, "3/8", 10.3),
]  # fmt: skip


@pytest.mark.parametrize(("height", "width", "wall", "moment"), TABLE)
def test_second_moment_of_hollow_sections(height: float, width: float, wall: str, moment: float) -> None:
    modulus = section_modulus(height, width, DESIGN_WALL[wall])
    assert modulus * height / 2 == pytest.approx(moment, rel=0.006)


def test_sharp_corners_would_claim_more_than_the_table() -> None:
    assert section_modulus(3, 3, 0.174, corner_walls=0) * 1.5 > 1.05 * 2.46
