"""Bolt groups: worked by hand, and equilibrium and rigidity of any group.  Not published figures."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from partscheck.formulas import bolt_group, joint_strength

Point = tuple[float, float]

RECTANGLE = [(1.5, 2.0), (-1.5, 2.0), (1.5, -2.0), (-1.5, -2.0)]

places = st.floats(min_value=-300, max_value=300)
forces = st.floats(min_value=-20000, max_value=20000)
patterns = st.lists(st.tuples(places, places), min_size=2, max_size=9)


def test_arm_on_four_bolts() -> None:
    # Four 5/16-18 at (+-1.5, +-2) in, 1100 lb twice over for shock, 6 in beside the centroid: sum r2 25,
    # moment 13 200 lb in; near bolts 792 + 550 = 1342 down, 1056 across: 1707.7 lb; far bolts 1083.4.
    assert bolt_group.centroid(RECTANGLE) == (0, 0)
    assert bolt_group.polar_sum(RECTANGLE) == 25
    shares = bolt_group.in_plane_forces(RECTANGLE, (0, -2200), (6, 0))
    assert [abs(part) for part in shares[0]] == pytest.approx([1056, 1342])
    assert [math.hypot(*share) for share in shares] == pytest.approx(
        [1707.7, 1083.4, 1707.7, 1083.4], abs=0.06
    )
    index, force = bolt_group.worst_bolt(shares)
    assert (index, force) == (0, pytest.approx(1707.7, abs=0.06))


# Allowed: 0.577 x yield 92 ksi x root area / 1.5, lb, for 5/16-18 (.0454 in2) and 3/8-16 (.0678 in2); on the
# proof of 85 ksi instead: 1484 and 2217.
@pytest.mark.parametrize(
    ("root", "on_yield", "on_proof", "margin"), [(0.0454, 1606.6, 1484, -101), (0.0678, 2399, 2217, 692)]
)
def test_arm_on_four_bolts_allowed(root: float, on_yield: float, on_proof: float, margin: float) -> None:
    allowed = joint_strength.bolt_shear_strength(root, 92_000, safety=1.5)
    assert allowed == pytest.approx(on_yield, abs=0.6)
    assert joint_strength.bolt_shear_strength(root, 85_000, safety=1.5) == pytest.approx(on_proof, abs=0.6)
    _, worst = bolt_group.worst_bolt(bolt_group.in_plane_forces(RECTANGLE, (0, -2200), (6, 0)))
    assert allowed - worst == pytest.approx(margin, abs=0.6)
    # An equal share of 550 would have passed the weaker bolt by 1057: the false answer this is here against.
    assert joint_strength.bolt_shear_strength(0.0454, 92_000, safety=1.5) - 2200 / 4 == pytest.approx(
        1057, abs=0.6
    )


@given(patterns, forces, forces, places, places)
def test_any_group_is_in_equilibrium_and_its_plate_stiff(
    pattern: list[Point], force_x: float, force_y: float, at_x: float, at_y: float
) -> None:
    assume(bolt_group.polar_sum(pattern) > 100)
    shares = bolt_group.in_plane_forces(pattern, (force_x, force_y), (at_x, at_y))
    near = 1e-9 * (1 + math.hypot(force_x, force_y)) * 1000
    assert sum(x for x, _ in shares) == pytest.approx(force_x, abs=near)
    assert sum(y for _, y in shares) == pytest.approx(force_y, abs=near)
    # Moments about the drawing's corner, not about the centroid that the method itself uses.
    resisted = sum(x * fy - y * fx for (x, y), (fx, fy) in zip(pattern, shares, strict=True))
    assert resisted == pytest.approx(at_x * force_y - at_y * force_x, abs=near * 300)
    # A stiff plate keeps the distance of any two bolts: the difference of two forces stands across the
    # line between them.  With equilibrium this leaves one answer only.
    for (ax, ay), a in zip(pattern, shares, strict=True):
        for (bx, by), b in zip(pattern, shares, strict=True):
            along = (a[0] - b[0]) * (ax - bx) + (a[1] - b[1]) * (ay - by)
            assert along == pytest.approx(0, abs=near * 1000)


@given(patterns, forces, forces, places, places, places, places)
def test_where_the_corner_lies_does_not_matter(
    pattern: list[Point], force_x: float, force_y: float, at_x: float, at_y: float, dx: float, dy: float
) -> None:
    assume(bolt_group.polar_sum(pattern) > 100)
    here = bolt_group.in_plane_forces(pattern, (force_x, force_y), (at_x, at_y))
    moved = [(x + dx, y + dy) for x, y in pattern]
    there = bolt_group.in_plane_forces(moved, (force_x, force_y), (at_x + dx, at_y + dy))
    near = 1e-6 * (1 + math.hypot(force_x, force_y))
    for one, other in zip(here, there, strict=True):
        assert one == pytest.approx(other, abs=near)


@given(patterns, forces, forces, places, places, st.floats(0, 360))
def test_turning_the_drawing_turns_the_forces(
    pattern: list[Point], force_x: float, force_y: float, at_x: float, at_y: float, degrees: float
) -> None:
    assume(bolt_group.polar_sum(pattern) > 100)

    def turned(point: Point) -> Point:
        cosine, sine = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
        return cosine * point[0] - sine * point[1], sine * point[0] + cosine * point[1]

    here = bolt_group.in_plane_forces(pattern, (force_x, force_y), (at_x, at_y))
    there = bolt_group.in_plane_forces(
        [turned(point) for point in pattern], turned((force_x, force_y)), turned((at_x, at_y))
    )
    near = 1e-6 * (1 + math.hypot(force_x, force_y))
    for one, other in zip(here, there, strict=True):
        assert turned(one) == pytest.approx(other, abs=near)


@given(patterns, forces, forces)
def test_through_the_centroid_all_share_alike(pattern: list[Point], force_x: float, force_y: float) -> None:
    assume(bolt_group.polar_sum(pattern) > 100)
    shares = bolt_group.in_plane_forces(pattern, (force_x, force_y), bolt_group.centroid(pattern))
    for share in shares:
        assert share == pytest.approx((force_x / len(pattern), force_y / len(pattern)))


def test_anywhere_on_the_loads_line_is_the_same() -> None:
    near = bolt_group.in_plane_forces(RECTANGLE, (0, -2200), (6, 0))
    far = bolt_group.in_plane_forces(RECTANGLE, (0, -2200), (6, 40))
    assert near == far


def test_one_bolt_holds_only_what_goes_through_it() -> None:
    assert bolt_group.in_plane_forces([(10, 10)], (0, -500), (10, 90)) == [(0, -500)]
    with pytest.raises(ValueError, match="turning"):
        bolt_group.in_plane_forces([(10, 10)], (0, -500), (12, 10))
    with pytest.raises(ValueError, match="turning"):
        bolt_group.in_plane_forces([(10, 10), (10, 10)], (0, -500), (12, 10))


def test_the_first_of_equals_is_the_worst_bolt() -> None:
    assert bolt_group.worst_bolt([(0, 1), (1, 0), (0, -1)]) == (0, 1)
    assert bolt_group.worst_bolt([(0.0, 1.0), (0.0, 1.0 + 1e-15)])[0] == 0
    assert bolt_group.worst_bolt([(0, 1), (0, 1.001)])[0] == 1


@given(st.lists(places, min_size=2, max_size=9), st.floats(-2000, 2000), st.floats(0, 50000))
def test_rows_balance_pull_and_moment(heights: list[float], moment: float, pull: float) -> None:
    middle = sum(heights) / len(heights)
    assume(sum((y - middle) ** 2 for y in heights) > 100)
    tensions = bolt_group.row_tensions(heights, moment, pull)
    near = 1e-6 * (1 + pull + 1000 * abs(moment))
    assert sum(tensions) == pytest.approx(pull, abs=near)
    resisted = sum(t * (y - middle) for t, y in zip(tensions, heights, strict=True))
    assert resisted == pytest.approx(1000 * moment, abs=near * 300)
    for tension, y in zip(tensions, heights, strict=True):
        if moment > 0 and y > middle:
            assert tension >= pull / len(heights) - near


@given(st.lists(st.floats(1, 300), min_size=1, max_size=9), st.floats(0, 2000))
def test_bracket_on_its_edge_balances_the_moment(heights: list[float], moment: float) -> None:
    tensions = bolt_group.row_tensions_about_edge(heights, moment)
    resisted = sum(t * y for t, y in zip(tensions, heights, strict=True))
    assert resisted == pytest.approx(1000 * moment)
    assert all(tension >= 0 for tension in tensions)


def test_two_rows_by_hand() -> None:
    # 2 + 2 bolts 100 mm apart, 400 N m: 400 000 / 100 = 4000 N on a row, 2000 N on a bolt, pressed below;
    # about an edge 50 mm under the lower row: 400 000 / (2 (150^2 + 50^2)) = 8 N per mm.
    assert bolt_group.row_tensions([50, 50, 150, 150], 400) == pytest.approx([-2000, -2000, 2000, 2000])
    assert bolt_group.row_tensions_about_edge([50, 50, 150, 150], 400) == pytest.approx(
        [400, 400, 1200, 1200]
    )


def test_one_row_does_not_resist_a_moment() -> None:
    assert bolt_group.row_tensions([40, 40], 0, pull=100) == [50, 50]
    with pytest.raises(ValueError, match="one row"):
        bolt_group.row_tensions([40, 40], 10)
    with pytest.raises(ValueError, match="edge"):
        bolt_group.row_tensions_about_edge([0, 0], 10)
    with pytest.raises(ValueError, match="below the edge"):
        bolt_group.row_tensions_about_edge([-10, 50], 10)


@pytest.mark.parametrize(
    ("pattern", "load"), [([], (0, 1)), ([(math.inf, 0)], (0, 1)), ([(0, 0)], (0, math.nan))]
)
def test_unknown_positions_and_loads_are_refused(pattern: list[Point], load: Point) -> None:
    with pytest.raises(ValueError, match=r"at least one bolt|must be known"):
        bolt_group.in_plane_forces(pattern, load, (0, 0))
