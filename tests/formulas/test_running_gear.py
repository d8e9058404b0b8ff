"""Spindles, brakes, wiring, shims and grease: worked by hand from statics and geometry, not published."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from partscheck.formulas import (
    alignment,
    bearing,
    bearing_life,
    bearing_load,
    braking,
    grease,
    spindle,
    wiring,
)

INF, NAN = math.inf, math.nan
LB = 4.448222
WHEEL = 1150 * LB
FOOT = 304.8


# Journal 34.925, shoulder at 62 mm, yield 310 MPa: plane, shock, side share, then M in N m, MPa, safety.
@pytest.mark.parametrize(
    ("plane", "shock", "share", "moment", "stress", "safety"),
    [
        (0, 2, 0, 634.3, 151.7, 2.04),
        (-38.1, 2, 0, 1024.1, 244.9, 1.27),
        (0, 1, -0.25, 739.2, 176.7, 1.75),
        (0, 1, 0.25, -104.9, 25.1, 12.4),
    ],
)
def test_bending_at_the_shoulder(
    plane: float, shock: float, share: float, moment: float, stress: float, safety: float
) -> None:
    found = spindle.shoulder_moment(WHEEL, plane, 62, shock, share, 330)
    assert found == pytest.approx(moment, abs=0.06)
    at = spindle.bending_stress(found, 34.925)
    assert at == pytest.approx(stress, abs=0.06)
    assert spindle.bending_safety(310, at) == pytest.approx(safety, abs=0.05)


def test_bending_margins_to_the_limit() -> None:
    # 310/1.5 = 206.7 MPa: +55 bare, -38.2 with the adapter.
    bare = spindle.bending_stress(spindle.shoulder_moment(WHEEL, 0, 62, 2), 34.925)
    adapter = spindle.bending_stress(spindle.shoulder_moment(WHEEL, -38.1, 62, 2), 34.925)
    assert 310 / 1.5 - bare == pytest.approx(55, abs=0.06)
    assert 310 / 1.5 - adapter == pytest.approx(-38.2, abs=0.06)


def test_the_collar_is_not_the_section() -> None:
    # With the collar's 44.45 mm in place of the journal the adapter would seem to hold: 118.8 MPa.
    moment = spindle.shoulder_moment(WHEEL, -38.1, 62, 2)
    assert spindle.bending_stress(moment, 44.45) == pytest.approx(118.8, abs=0.06)
    assert spindle.bending_stress(moment, 44.45) < 310 / 1.5 < spindle.bending_stress(moment, 34.925)


@given(
    st.floats(100, 2e4),
    st.floats(-120, 120),
    st.floats(15, 120),
    st.floats(-80, 10),
    st.floats(-0.8, 0.8),
    st.floats(0, 200),
)
def test_moment_from_the_load_and_from_the_reactions(
    load: float, plane: float, inner: float, outer: float, share: float, beyond: float
) -> None:
    # Cut inboard of both bearings: the moment of the road's forces is that of the two reactions.
    on_inner, on_outer = bearing.radial_split_cornering(load, plane, inner, outer, share, 330)
    section = inner + beyond
    reactions = (on_inner * (section - inner) + on_outer * (section - outer)) / 1000
    road = spindle.shoulder_moment(load, plane, section, 1, share, 330)
    assert road == pytest.approx(reactions, rel=1e-6, abs=1e-6 * load)
    # At the inner bearing's own centre the outer reaction alone is left.
    alone = spindle.journal_moment(on_outer, outer, inner)
    assert alone == pytest.approx(spindle.shoulder_moment(load, plane, inner, 1, share, 330), abs=1e-6 * load)


@given(st.floats(1, 5000), st.floats(15, 80))
def test_stress_moment_and_diameter_are_inverse(moment: float, diameter: float) -> None:
    stress = spindle.bending_stress(moment, diameter)
    assert spindle.moment_allowed(diameter, stress) == pytest.approx(moment)
    assert spindle.diameter_needed(-moment, stress) == pytest.approx(diameter)


def test_stress_from_strips_of_the_section() -> None:
    # The section cut into strips, each pulled in proportion to its height: the moment they make.
    diameter, steps = 34.925, 20_000
    top = spindle.bending_stress(1000, diameter)
    radius = diameter / 2
    step = diameter / steps
    moment = 0.0
    for i in range(steps):
        height = -radius + (i + 0.5) * step
        moment += top * height / radius * height * 2 * math.sqrt(radius**2 - height**2) * step
    assert moment / 1000 == pytest.approx(1000, rel=1e-4)


# Two magnets of 3.2 A, 24 ft of trailer cable, then 18 ft of 12 AWG, 12 V, there and back, ohm/1000 ft.
@pytest.mark.parametrize(
    ("gauge", "leg", "total", "margin"), [(14, 0.776, 1.142, 0.058), (16, 1.234, 1.600, -0.400)]
)
def test_volts_at_the_brakes(gauge: int, leg: float, total: float, margin: float) -> None:
    vehicle = wiring.voltage_drop(6.4, 18 * FOOT, wiring.resistance(wiring.awg_area(12)))
    assert vehicle == pytest.approx(0.366, abs=0.0006)
    trailer = wiring.voltage_drop(6.4, 24 * FOOT, wiring.resistance(wiring.awg_area(gauge)))
    assert trailer == pytest.approx(leg, abs=0.0006)
    assert vehicle + trailer == pytest.approx(total, abs=0.0006)
    assert 1.2 - vehicle - trailer == pytest.approx(margin, abs=0.0006)


def test_one_way_would_pass_thin_wire_and_strands_do_not_decide() -> None:
    one_way = sum(
        wiring.voltage_drop(6.4, feet * FOOT, wiring.resistance(wiring.awg_area(gauge)), wires=1)
        for gauge, feet in ((12, 18), (16, 24))
    )
    assert one_way == pytest.approx(0.800, abs=0.0006)
    # Hand-worked with 2 % on both legs: 1.142 x 1.02 = 1.164.
    stranded = sum(
        wiring.voltage_drop(6.4, feet * FOOT, wiring.resistance(wiring.awg_area(gauge), stranding=1.02))
        for gauge, feet in ((12, 18), (14, 24))
    )
    assert stranded == pytest.approx(1.164, abs=0.001)


# Two lamps of 2.7 A and four of 0.33 A, 24 ft there and back: own method, hand-worked, 2 x 24 x ohm/ft x 6.72.
@pytest.mark.parametrize(("gauge", "volts"), [(14, 0.8145), (16, 1.2954), (18, 2.0595)])
def test_volts_lost_on_the_way_to_the_lamps(gauge: int, volts: float) -> None:
    amperes = 2 * 2.7 + 4 * 0.33
    lost = wiring.voltage_drop(amperes, 24 * FOOT, wiring.resistance(wiring.awg_area(gauge)))
    assert lost == pytest.approx(volts, abs=0.0008)


def test_capacity_of_a_battery_for_a_time() -> None:
    assert wiring.battery_needed(6.4, 15, 0.5) == pytest.approx(3.2)  # hand-worked: 6.4 x 0.25 / 0.5
    assert wiring.battery_needed(5, 20 * 60) == pytest.approx(100)  # 100 Ah at the twenty-hour rate
    for usable in (0, 1.01):
        with pytest.raises(ValueError, match="usable share"):
            wiring.battery_needed(6.4, 15, usable)
    with pytest.raises(ValueError, match="minutes must not be below 0"):
        wiring.battery_needed(6.4, -1)


@given(st.floats(0.1, 60), st.floats(100, 20_000), st.floats(0.3, 60), st.sampled_from([1, 2]))
def test_drop_run_and_area_are_inverse(amperes: float, length: float, area: float, wires: int) -> None:
    ohm = wiring.resistance(area, 35, 1.02)
    drop = wiring.voltage_drop(amperes, length, ohm, wires)
    assert wiring.longest_run(amperes, drop, ohm, wires) == pytest.approx(length)
    assert wiring.area_needed(amperes, length, drop, wires, 35, 1.02) == pytest.approx(area)


def test_six_gauges_double_the_diameter_nearly() -> None:
    # 92^(6/39) = 2.005; 4/0 is 0.46 in and 36 is 0.005 in by definition, 39 steps apart.
    assert wiring.awg_diameter(-3) / 25.4 == pytest.approx(0.46)
    assert wiring.awg_diameter(36) / 25.4 == pytest.approx(0.005)
    assert wiring.awg_diameter(10) / wiring.awg_diameter(16) == pytest.approx(2.005, abs=0.0005)


@given(st.floats(1, 30_000), st.floats(150, 500), st.floats(150, 500))
def test_same_torque_on_a_taller_tire(force: float, design: float, radius: float) -> None:
    torque = braking.brake_torque(force, design)
    at_road = braking.force_at_road(torque, radius)
    assert at_road == pytest.approx(force * braking.brake_force_ratio(design, radius), abs=1e-9)
    assert braking.rating_on_tire(force, design, radius) == pytest.approx(at_road, abs=1e-9)
    if radius >= design:
        assert at_road <= force * (1 + 1e-12)
    else:
        assert at_road >= force * (1 - 1e-12)


def test_brake_force_on_a_tire_a_fifth_taller() -> None:
    # 297 / 356.4 = 1/1.2: 16.7 % less.
    assert 1 - braking.brake_force_ratio(297, 356.4) == pytest.approx(1 / 6)


def test_shims_for_toe_and_camber_by_hand() -> None:
    # tan 0.5 deg = 0.0087269, tan 1 deg = 0.0174551; bolts 3 in front to rear, 2.5 in lower to upper:
    # rear +0.66499, upper +1.10840.
    found = alignment.four_bolt_shims(0.5, 1.0, 76.2, 63.5)
    assert found == pytest.approx((1.1084, 0, 1.7734, 0.6650), abs=0.0001)
    # Toe-out and top inward: the thick corner goes to the front, below.
    opposite = alignment.four_bolt_shims(-0.5, -1.0, 76.2, 63.5)
    assert opposite == pytest.approx((0.6650, 1.7734, 0, 1.1084), abs=0.0001)


def test_toe_by_tape() -> None:
    # 1/4 in wider behind over 26 in tires: 0.125/26 a wheel = 0.2755 deg.
    assert alignment.toe_angle(6.35, 26 * 25.4) == pytest.approx(0.2755, abs=0.0001)
    assert alignment.toe_angle(-6.35, 26 * 25.4) == pytest.approx(-0.2755, abs=0.0001)
    assert alignment.camber_angle(400 * math.tan(math.radians(2)), 400) == pytest.approx(2)


@given(st.floats(-5, 5), st.floats(-5, 5), st.floats(40, 150), st.floats(40, 150))
def test_flange_on_its_shims_points_where_asked(
    toe: float, camber: float, along: float, upright: float
) -> None:
    fu, fl, ru, rl = alignment.four_bolt_shims(toe, camber, along, upright)
    assert min(fu, fl, ru, rl) == 0
    assert fu + rl == pytest.approx(fl + ru, abs=1e-9)  # one plane: the diagonals agree
    # Square to the face through three shim tops (rearward, upward, outboard), by the cross product.
    first, second = (along, 0.0, rl - fl), (0.0, upright, fu - fl)
    normal = (
        first[1] * second[2] - first[2] * second[1],
        first[2] * second[0] - first[0] * second[2],
        first[0] * second[1] - first[1] * second[0],
    )
    # The spindle points along it: forward of square is toe-in, below square is camber with the top out.
    assert math.degrees(math.atan2(-normal[0], normal[2])) == pytest.approx(toe, abs=1e-9)
    assert math.degrees(math.atan2(-normal[1], normal[2])) == pytest.approx(camber, abs=1e-9)
    assert alignment.angle_of_shim(rl - fl, along) == pytest.approx(toe, abs=1e-9)
    # One wedge does the same: its angle is the normal's lean, its thick edge where the normal does not go.
    angle, clocking = alignment.wedge_shim(toe, camber)
    flat = math.hypot(normal[0], normal[1])
    assert angle == pytest.approx(math.degrees(math.atan2(flat, normal[2])), abs=1e-9)
    steep = math.radians(clocking)
    assert -normal[0] * math.cos(steep) - normal[1] * math.sin(steep) == pytest.approx(flat, abs=1e-6)


@given(st.floats(-5, 5), st.floats(-5, 5), st.floats(-500, 500), st.floats(-500, 500))
def test_shims_do_not_depend_on_where_the_bolts_are_measured_from(
    toe: float, camber: float, y: float, z: float
) -> None:
    bolts = [(0.0, 0.0), (76.2, 0.0), (76.2, 63.5), (0.0, 63.5)]
    moved = [(a + y, b + z) for a, b in bolts]
    assert alignment.shims(toe, camber, moved) == pytest.approx(alignment.shims(toe, camber, bolts), abs=1e-9)


def test_grease_by_hand() -> None:
    # 31.75 x 59.131 x 15.875 and 19.05 x 45.237 x 15.494 mm, 72 mm over both: free length 40.631.
    # Envelopes 31.03 and 20.49 mL, a quarter: 7.76 + 5.12.  Between: mean squares 2738.5 x 0.7225 = 1978.6
    # less 658.6 = 1319.9 mm2 x pi/4 x 40.631 = 42.12 mL, half: 21.06.  33.94 mL x 0.9 = 30.5 g, + 20 g.
    inner, outer = (31.75, 59.131, 15.875), (19.05, 45.237, 15.494)
    assert 1000 * grease.bearing_volume(*inner) == pytest.approx(7.76, abs=0.01)
    assert 1000 * grease.bearing_volume(*outer) == pytest.approx(5.12, abs=0.01)
    between = grease.cavity_volume((59.131, 45.237), (31.75, 19.05), 40.631)
    assert 1000 * between == pytest.approx(21.06, abs=0.02)
    assert 1000 * grease.wheel_end_mass(inner, outer, 72) == pytest.approx(50.5, abs=0.1)
    # Pumped full through the spindle the space takes twice as much.
    full = grease.wheel_end_mass(inner, outer, 72, fill=1.0) - grease.wheel_end_mass(inner, outer, 72)
    assert full == pytest.approx(0.9 * between)


def test_cavity_from_slices() -> None:
    slices = 4000
    total = 0.0
    for i in range(slices):
        share = (i + 0.5) / slices
        bore = 0.85 * (59.131 + share * (45.237 - 59.131))
        journal = 31.75 + share * (19.05 - 31.75)
        total += math.pi / 4 * (bore**2 - journal**2) * 40 / slices / 1e6
    assert grease.cavity_volume((59.131, 45.237), (31.75, 19.05), 40, fill=1) == pytest.approx(
        total, rel=1e-6
    )


REFUSED: list[tuple[Callable[..., object], tuple[object, ...], str]] = [
    (bearing.cornering_plane, (0, 20, 330), "1.5"),
    (bearing.cornering_plane, (0, 0.2, -1), "loaded radius"),
    (bearing.centre_beyond_middle, (0, 5), "width"),
    (bearing.centre_beyond_middle, (16, -9), "half the width"),
    (bearing.centre_beyond_middle_approx, (62, 30, 0.37), "bore"),
    (bearing.contact_angle, (37,), "factor e"),
    (bearing.y_from_e, (0,), "factor e"),
    (bearing.y0_from_y, (0,), "factor Y"),
    (bearing_load.induced_thrust, (1000, 0), "factor Y"),
    (bearing_load.induced_thrust, (1000, 1.6, 2), "factor"),
    (bearing_load.induced_thrust, (NAN, 1.6), "radial load"),
    (bearing_load.induced_thrust, (INF, INF), "both be unbounded"),
    (bearing_load.pair_thrusts, (1000, 1000, 1.6, 1.6, INF), "side force"),
    (bearing_load.taper_load, (1000, -1, 0.37, 1.6), "axial load"),
    (bearing_load.taper_load, (1000, 1, 0, 1.6), "factor e"),
    (bearing_load.equivalent_load, (1000, 1, -1, 1.6), "factor X"),
    (bearing_load.equivalent_load, (1000, 1, 1, INF), "must be known"),
    (bearing_life.life, (0, 1000), "rating"),
    (bearing_life.life, (1000, 1000, 4), "exponent"),
    (bearing_life.life, (INF, INF), "both be unbounded"),
    (bearing_life.rating_needed, (1000, 0), "turns"),
    (bearing_life.rating_for_turns, (1000, 0.5), "90e6, not 90"),
    (bearing_life.distance_per_turn, (-1,), "loaded radius"),
    (bearing_life.distance, (10, 0), "loaded radius"),
    (bearing_life.hours, (10, 0), "speed"),
    (bearing_life.hours, (10, INF), "speed"),
    (bearing_life.duty_life, ([(90, 5), (10, 5)],), "90 % is 0.90"),
    (bearing_life.duty_life, ([],), "add up to 1"),
    (bearing_life.duty_life, ([(1, -5)],), "life"),
    (bearing_life.reliability, (-1,), "life ratio"),
    (bearing_life.reliability, (1, 5, 4), "least multiple"),
    (bearing_life.life_ratio_at, (95,), "95 % is 0.95"),
    (bearing_load.taper_static_load, (1000, 1, 0), "factor Y0"),
    (bearing_load.static_safety, (-1, 1000), "static rating"),
    (spindle.shoulder_moment, (-1, 0, 62), "load"),
    (spindle.shoulder_moment, (1000, 0, 62, 0), "shock"),
    (spindle.shoulder_moment, (1000, 0, 62, 1, 2), "side force"),
    (spindle.journal_moment, (1000, -18, -20), "outboard of the outer"),
    (spindle.bending_stress, (1000, 0), "diameter"),
    (spindle.bending_stress, (NAN, 30), "moment"),
    (spindle.bending_safety, (310, -1), "stress"),
    (spindle.moment_allowed, (30, 0), "allowed stress"),
    (spindle.diameter_needed, (INF, INF), "moment"),
    (braking.force_at_road, (-1, 330), "torque"),
    (braking.force_at_road, (825, 0), "radius"),
    (braking.brake_force_ratio, (0, 330), "radii"),
    (braking.brake_force_ratio, (INF, INF), "both be unbounded"),
    (braking.rating_on_tire, (-1, 330, 330), "rating"),
    (wiring.awg_diameter, (41,), "gauge"),
    (wiring.awg_diameter, (12.5,), "whole number"),
    (wiring.resistance, (0,), "area"),
    (wiring.resistance, (1.5, 400), "temperature"),
    (wiring.resistance, (1.5, 20, 0.9), "stranding"),
    (wiring.voltage_drop, (1, 1, 1, 3), "there and back"),
    (wiring.voltage_drop, (-1, 1, 1), "current"),
    (wiring.longest_run, (1, -1, 1), "drop"),
    (wiring.longest_run, (INF, INF, 1), "both be unbounded"),
    (wiring.area_needed, (1, 1, 0), "drop"),
    (alignment.shim_for_angle, (20, 76.2), "angle"),
    (alignment.shim_for_angle, (1, 0), "bolt spacing"),
    (alignment.shims, (1, 1, [(0, 0), (1, 1)]), "three bolts"),
    (alignment.shims, (1, 1, [(0, 0), (1, 1), (INF, 1)]), "finite"),
    (alignment.four_bolt_shims, (1, 1, 76.2, 0), "upright"),
    (alignment.toe_angle, (6, 660, 4), "wheels"),
    (alignment.toe_angle, (600, 660), "angle"),
    (grease.bearing_volume, (62, 30, 17), "bore"),
    (grease.bearing_volume, (30, 62, 17, 2), "free share"),
    (grease.cavity_volume, ((59, 45), (60, 19), 40), "journal"),
    (grease.cap_volume, (-1, 30), "diameter"),
    (grease.mass, (1, 900), "density"),
    (grease.wheel_end_mass, ((30, 62, 17), (25, 52, 16), 20), "outer ends"),
    (grease.packs_needed, (1, 0), "pack"),
]


@pytest.mark.parametrize(("formula", "arguments", "words"), REFUSED)
def test_out_of_range_is_refused_in_words(
    formula: Callable[..., object], arguments: tuple[object, ...], words: str
) -> None:
    with pytest.raises(ValueError, match=words):
        formula(*arguments)


def test_unbounded_ends_go_through() -> None:
    assert bearing.cornering_plane(0, 0.0, INF) == 0
    assert bearing.cornering_plane(0, -0.2, INF) == -INF
    assert bearing_load.pair_loads((INF, INF), (0.37, 0.37), (1.6, 1.6), 1000) == (INF, INF)
    assert bearing_life.life(INF, 1000) == INF
    assert bearing_life.life(1000, INF) == 0
    assert bearing_life.life(1e300, 1e-300) == INF
    assert bearing_life.life(1000, 0) == INF
    assert bearing_life.duty_life([(0.5, INF), (0.5, 10)]) == 20
    assert bearing_life.duty_life([(1.0, INF), (0.0, 0)]) == INF
    assert bearing_life.duty_life([(0.5, 0), (0.5, 10)]) == 0
    assert bearing_life.reliability(INF) == 0
    assert bearing_load.static_safety(1000, 0) == INF
    assert bearing_load.equivalent_load(1000, INF, 1, 0) == 1000
    assert spindle.shoulder_moment(0, 0, INF) == 0
    assert spindle.shoulder_moment(INF, 0, 62) == INF
    assert spindle.bending_stress(INF, 30) == INF
    assert spindle.bending_safety(310, 0) == INF
    assert braking.brake_force_ratio(INF, 330) == INF
    assert braking.brake_force_ratio(297, INF) == 0
    assert wiring.voltage_drop(0, INF, 1) == 0
    assert wiring.voltage_drop(1, INF, 1) == INF
    assert wiring.longest_run(0, 1, 1) == INF
    assert wiring.resistance(INF) == 0
