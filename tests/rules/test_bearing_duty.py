"""Two opposed tapered bearings under one wheel, every step: loads, thrusts, life, with and without a plate.

Our own method, worked by hand from moments, the thrust of an opposed pair and the life formula: no
published figures.  The second route, by a linear solve and in units of the wheel's load, shares no
formula with the first.
"""

from __future__ import annotations

import math

import pytest
from case_files import check_text

from partscheck.build.bearing_duty import Corner, bearing_life_km, corners, static_load
from partscheck.build.places import WheelEnd
from partscheck.notation.interval import Interval

LIST = """
service: {gross_weight: 2300 lb, tongue_weight: 0, surface: gravel}
parts:
  - {kind: hub, inner_bearing_to_face: 50 mm, outer_bearing_to_face: -18 mm}
  - {id: in, kind: bearing, place: inner, dynamic_rating: 40.2 kN, rating_turns: 1e6, e_factor: 0.37,
     y_factor: 1.6}
  - {id: out, kind: bearing, place: outer, dynamic_rating: 30.8 kN, rating_turns: 1e6, e_factor: 0.37,
     y_factor: 1.6}
  - {kind: wheel, offset: 0}
  - {kind: tire, loaded_radius: 330 mm}
"""
PLATE = "  - {kind: adapter, thickness: 1.5 in}\n"
W = 1150 * 4.4482216152605  # N


def end_of(text: str) -> WheelEnd:
    (end,) = check_text(text).fit.bindings(WheelEnd)
    return end


def only_corner(text: str) -> Corner:
    (corner,) = corners(end_of(text))
    return corner


def loads(pair: tuple[float, float]) -> list[float]:
    """Of 1 N on the wheel to the wheel's load."""
    return [W * one for one in pair]


PHASES = [  # side, Fr inner and outer, P inner and outer in N, life of inner and outer in million km
    (0.0, (1354.1, 3761.4), (2422, 3761), (24.17, 2.295)),
    (0.2, (6319.1, -1203.6), (6319, 2004), (0.989, 18.71)),
    (-0.2, (-3610.9, 8726.4), (4171, 8726), (3.95, 0.1388)),
]


@pytest.mark.parametrize(("side", "radial", "dynamic", "far"), PHASES)
def test_each_phase_of_the_bare_hub(
    side: float, radial: tuple[float, float], dynamic: tuple[float, float], far: tuple[float, float]
) -> None:
    corner = only_corner(LIST)
    assert loads(corner.radial(side)) == pytest.approx(radial, abs=0.06)
    assert loads(corner.dynamic(side)) == pytest.approx(dynamic, abs=0.6)
    turn = 2 * math.pi * 0.330
    for rating, load, million_km in zip((40200, 30800), loads(corner.dynamic(side)), far, strict=True):
        assert (rating / load) ** (10 / 3) * 1e6 * turn / 1e9 == pytest.approx(million_km, rel=2e-3)


def test_the_whole_duty() -> None:
    end = end_of(LIST)
    assert bearing_life_km(end, "inner").lo == pytest.approx(9.96e6, rel=1e-3)
    assert bearing_life_km(end, "outer").lo == pytest.approx(1.324e6, rel=1e-3)


def solved(x: float, side: float, xi: float = 50.0, xo: float = -18.0, r: float = 330.0) -> tuple[float, float]:
    """P of both bearings by a linear solve of forces and moments about the seating face, then by cases."""
    k = side * W
    # R_in + R_out = W;  R_in xi + R_out xo = W x + K r  (Cramer's rule)
    moment = W * x + k * r
    det = xo - xi
    r_in, r_out = (W * xo - moment) / det, (moment - W * xi) / det
    own = abs(r_in) / 3.2, abs(r_out) / 3.2
    if own[0] >= own[1] + k:
        thrust = own[0], own[0] - k
    else:
        thrust = own[1] + k, own[1]

    def equivalent(fr: float, fa: float) -> float:
        return fr if fa <= 0.37 * fr else max(fr, 0.4 * fr + 1.6 * fa)

    return equivalent(abs(r_in), thrust[0]), equivalent(abs(r_out), thrust[1])


@pytest.mark.parametrize("plate", [0.0, 38.1])
@pytest.mark.parametrize("side", [0.0, 0.2, -0.2])
def test_an_independent_route_agrees(plate: float, side: float) -> None:
    corner = only_corner(LIST + (PLATE if plate else ""))
    assert loads(corner.dynamic(side)) == pytest.approx(solved(-plate, side), rel=1e-9)


def test_the_plate_costs_the_outer_bearing_four_fifths_of_its_life() -> None:
    bare, plated = (bearing_life_km(end_of(text), "outer") for text in (LIST, LIST + PLATE))
    used = sum(
        share / (30800 / solved(-38.1, side)[1]) ** (10 / 3)
        for share, side in ((0.9, 0.0), (0.05, 0.2), (0.05, -0.2))
    )
    assert plated.lo == pytest.approx(1 / used * 1e6 * 2 * math.pi * 0.330 / 1000, rel=1e-9)
    assert bare.lo / plated.lo == pytest.approx(4.66, abs=0.01)


def test_with_the_plate_taken_out_the_comparison_is_the_bare_hub() -> None:
    bare, plated = end_of(LIST), end_of(LIST + PLATE)
    assert bearing_life_km(plated, "outer", Interval.exact(0.0, "mm")) == bearing_life_km(bare, "outer")


def test_inch_ratings_for_90_million_turns_count_90_to_the_0_3() -> None:
    text = LIST.replace("30.8 kN, rating_turns: 1e6", f"{30800 / 90**0.3:.6f} N, rating_turns: 90e6")
    assert bearing_life_km(end_of(text), "outer").lo == pytest.approx(1.32433e6, rel=1e-5)


def test_an_uncertain_plane_covers_what_lies_within() -> None:
    wide = bearing_life_km(end_of(LIST.replace("offset: 0", "offset: 0 mm ± 10 mm")), "outer")
    for offset in range(-10, 11, 2):
        life = bearing_life_km(end_of(LIST.replace("offset: 0", f"offset: {offset} mm")), "outer").lo
        assert wide.lo <= life * (1 + 1e-9)
        assert life <= wide.hi * (1 + 1e-9)


def test_static_load_is_the_worse_of_shock_and_bend() -> None:
    load = static_load(end_of(LIST), "outer").lo
    corner = only_corner(LIST)
    assert load == pytest.approx(W * max(2 * corner.static(0.0)[1], corner.static(-0.2)[1]))
    assert load == pytest.approx(8726.4, abs=0.06)  # in the bend: Fr itself
