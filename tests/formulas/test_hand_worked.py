"""Check values of our own method, worked by hand from statics and geometry: not published figures."""

from __future__ import annotations

import math

import pytest

from partscheck.formulas import balance, bearing, bolt_circle, bolted_joint, tire, wheel_geometry

LB = 4.448222


# Two circles in one adapter plate: circles in inches and holes, then angle, centres and metal in mm.
@pytest.mark.parametrize(
    ("hub", "wheel", "angle", "centres", "metal"),
    [
        ((4.5, 5), (5.5, 5), 36, 41.062, 19.85),
        ((4.5, 5), (4.75, 5), 36, 36.427, 15.22),
        ((5.5, 6), (5.5, 6), 30, 36.157, 14.95),
        ((4.5, 5), (5.5, 6), 6, 14.319, -6.89),
        ((5.5, 6), (6.5, 8), 7.5, 16.123, -5.09),
    ],
)
def test_holes_of_two_circles(
    hub: tuple[float, int], wheel: tuple[float, int], angle: float, centres: float, metal: float
) -> None:
    (d1, n1), (d2, n2) = (hub[0] * 25.4, hub[1]), (wheel[0] * 25.4, wheel[1])
    found = bolt_circle.best_clocking(d1, n1, d2, n2)
    assert found == pytest.approx((angle, centres), abs=0.0006)
    assert bolt_circle.metal_between(found[1], 1.10 * 25.4, 0.570 * 25.4) == pytest.approx(metal, abs=0.006)
    assert farthest_by_trial(d1, n1, d2, n2, step=0.01) == pytest.approx(found[1], abs=0.0006)


def farthest_by_trial(d1: float, n1: int, d2: float, n2: int, step: float) -> float:
    """Turn the second circle step by step; the greatest of the least distances between hole centres."""
    firsts = bolt_circle.hole_coordinates(d1, n1)
    turns = round(360 / n2 / step)
    best = 0.0
    for turn in range(turns):
        seconds = bolt_circle.hole_coordinates(d2, n2, turn * step)
        best = max(best, min(math.dist(a, b) for a in firsts for b in seconds))
    return best


# Wheel of 1150 lb, bearings at 50 and -18 mm: offset and adapter in mm, then R inner and outer in N.
@pytest.mark.parametrize(
    ("offset", "thickness", "shift", "inner", "outer"),
    [
        (0, 0, 0, 1354.1, 3761.4),
        (0, 38.1, 0, -1512.1, 6627.5),
        (35, 38.1, 0, 1120.9, 3994.6),
        (0, 38.1, 66, 3452.9, 1662.5),  # 0.2 g on a loaded radius of 330 mm: outside wheel
        (0, 38.1, -66, -6477.1, 11592.5),  # inside wheel
        (0, 0, 66, 6319.1, -1203.6),
        (0, 0, -66, -3610.9, 8726.4),
    ],
)
def test_load_of_the_two_bearings(
    offset: float, thickness: float, shift: float, inner: float, outer: float
) -> None:
    plane = wheel_geometry.load_plane(offset, thickness) + shift
    split = bearing.radial_split(1150 * LB, plane, 50, -18)
    assert split == pytest.approx((inner, outer), abs=0.06)


# Hives on a trailer, 120 in from coupler to axle, in lb and in: tongue, axle, share.
FRAME, GEAR, HIVES, RACK = (640.0, 100.0), (350.0, 120.0), (1500.0, 112.0), (110.0, 208.0)


@pytest.mark.parametrize(
    ("loads", "tongue", "axle", "share"),
    [
        ([FRAME, GEAR], 106.67, 883.33, 0.1077),
        ([FRAME, GEAR, HIVES], 206.67, 2283.33, 0.0830),
        ([FRAME, GEAR, HIVES, RACK], 126.00, 2474.00, 0.0485),
    ],
)
def test_tongue_in_three_cases(
    loads: list[tuple[float, float]], tongue: float, axle: float, share: float
) -> None:
    found = balance.supports(loads, 120)
    assert found == pytest.approx((tongue, axle), abs=0.005)
    assert found[0] / sum(found) == pytest.approx(share, abs=0.00005)
    assert balance.axle_and_tongue(sum(found), found[0] / sum(found)) == pytest.approx(
        (axle, tongue), abs=0.005
    )


def test_rack_takes_off_the_tongue() -> None:
    assert balance.tongue_from_load(*RACK, 120) == pytest.approx(-80.67, abs=0.005)


def test_passenger_tires_at_the_limit() -> None:
    pair = 2 * tire.passenger_on_trailer(1598)
    assert pair - 2905 == pytest.approx(0.45, abs=0.005)
    assert pair - 2906 == pytest.approx(-0.55, abs=0.005)
    _, right = balance.side_shares(3, 70)
    assert 2700 * right == pytest.approx(1465.7, abs=0.05)
    assert tire.passenger_on_trailer(1598) - 2700 * right == pytest.approx(-13.0, abs=0.05)


def test_slip_of_three_bolts_in_oversize_holes() -> None:
    # 75 lbf ft, K 0.20, 1/2 in, in lbf and inches carried through the same formula: 9000 lbf each.
    preload = bolted_joint.preload_from_torque(75 * 1.3558179483, 0.20, 12.7) / LB
    assert preload == pytest.approx(9000, rel=1e-5)
    for friction, safety, slip in [(0.20, 1.76, 3011), (0.20, 1.50, 3533), (0.10, 1.76, 1506)]:
        capacity = bolted_joint.clamp_slip_capacity(preload, 3, friction, tension=500, safety=safety)
        assert capacity == pytest.approx(slip, abs=0.6)
    weak = bolted_joint.clamp_slip_capacity(0.7 * preload, 3, 0.20, tension=500, safety=1.76)
    assert weak == pytest.approx(2091, abs=0.6)


def test_wheel_end_measured_two_ways() -> None:
    # 60 in between faces, 48 in frame, 8.07 in tire, +30 mm wheel on a 38.1 mm adapter, added up by hand:
    # half of 12 in is 152.4; half a tire 102.49; plane -8.1; gap 58.01; over tires 1524 + 2 x 110.59.
    section = 8.07 * 25.4
    gap = wheel_geometry.inner_tire_clearance(1524, 1219.2, section, 30, 38.1)
    width = wheel_geometry.outside_width(1524, section, 30, 38.1)
    assert gap == pytest.approx(58.01, abs=0.005)
    assert width == pytest.approx(1745.18, abs=0.005)
    assert 1219.2 + 2 * gap + 2 * section == pytest.approx(width)


def test_tandem_tires_34_in_apart() -> None:
    # 27 in tires grown by 3 % are 27.81 in: 6.19 in, 157.226 mm between them.
    assert wheel_geometry.tandem_gap(34 * 25.4, 27 * 25.4) == pytest.approx(157.226, abs=0.001)
    assert wheel_geometry.tandem_gap(27.81 * 25.4, 27 * 25.4) == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize(
    ("axles", "equalized", "share", "one"),
    [(1, False, 0.6, 3000), (2, True, 0.6, 1500), (2, False, 0.6, 1800), (3, False, 0.2, 1000)],
)
def test_share_of_one_axle(axles: int, equalized: bool, share: float, one: float) -> None:
    assert balance.share_among_axles(3000, axles, equalized, share) == pytest.approx(one)
