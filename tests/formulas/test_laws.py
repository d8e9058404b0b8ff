"""What must hold for any input: conservation, inverses, symmetry, monotony."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from partscheck.formulas import balance, bearing, bolt_circle, braking, threads, tire, wheel_geometry

lengths = st.floats(min_value=1, max_value=5000)
places = st.floats(min_value=-2000, max_value=9000)
weights = st.floats(min_value=0, max_value=50000)
spans = st.floats(min_value=500, max_value=8000)
counts = st.integers(min_value=3, max_value=10)
loads = st.lists(st.tuples(weights, places), min_size=1, max_size=8)


@given(loads, spans)
def test_supports_carry_all_the_weight(loads: list[tuple[float, float]], span: float) -> None:
    coupler, axle = balance.supports(loads, span)
    assert coupler + axle == pytest.approx(sum(w for w, _ in loads), rel=1e-9, abs=1e-6)
    each = sum(balance.tongue_from_load(w, x, span) for w, x in loads)
    assert coupler == pytest.approx(each, rel=1e-9, abs=1e-4)


@given(loads, spans)
def test_order_of_loads_does_not_matter(loads: list[tuple[float, float]], span: float) -> None:
    assert balance.supports(loads, span) == balance.supports(loads[::-1], span)


@given(loads, spans, st.floats(min_value=-1000, max_value=1000))
def test_moving_a_load_back_takes_w_x_over_l_off_the_tongue(
    loads: list[tuple[float, float]], span: float, move: float
) -> None:
    (weight, place), *rest = loads
    before, _ = balance.supports(loads, span)
    after, _ = balance.supports([(weight, place + move), *rest], span)
    assert before - after == pytest.approx(weight * move / span, rel=1e-6, abs=1e-4)


@given(st.floats(min_value=-800, max_value=800), lengths)
def test_side_shares_make_a_whole(from_centre: float, track: float) -> None:
    left, right = balance.side_shares(from_centre, track)
    assert left + right == pytest.approx(1)
    assert right >= left if from_centre >= 0 else left >= right


@given(weights, st.integers(min_value=1, max_value=4))
def test_unequalised_axle_never_counts_for_less(load: float, axles: int) -> None:
    even = balance.share_among_axles(load, axles, equalized=True)
    assert even * axles == pytest.approx(load)
    assert balance.share_among_axles(load, axles, equalized=False) >= even


@given(weights, places, st.floats(10, 100), st.floats(-100, -10))
def test_bearings_balance_load_and_moment(load: float, plane: float, inner: float, outer: float) -> None:
    on_inner, on_outer = bearing.radial_split(load, plane, inner, outer)
    tolerance = 1e-9 * (load + 1) * 9000
    assert on_inner + on_outer == pytest.approx(load, abs=tolerance)
    assert on_inner * inner + on_outer * outer == pytest.approx(load * plane, abs=tolerance * 100)


@given(lengths, st.integers(min_value=2, max_value=12), st.data())
def test_chord_and_circle_are_inverse(diameter: float, count: int, data: st.DataObject) -> None:
    skip = data.draw(st.integers(min_value=1, max_value=count // 2))
    chord = bolt_circle.chord(diameter, count, skip)
    assert bolt_circle.diameter_from_chord(chord, count, skip) == pytest.approx(diameter)
    holes = bolt_circle.hole_coordinates(diameter, count, 17.0, (3.0, -4.0))
    assert math.dist(holes[0], holes[skip]) == pytest.approx(chord)


@given(counts, counts, st.floats(60, 250), st.floats(60, 250))
def test_best_clocking_is_the_best_of_all_turns(n1: int, n2: int, d1: float, d2: float) -> None:
    angle, centres = bolt_circle.best_clocking(d1, n1, d2, n2)
    # All turns in steps of a quarter of the claimed angle, over the whole circle: the claim is on the grid.
    steps = 4 * round(360 / angle)
    firsts = [360 * i / n1 for i in range(n1)]
    seconds = [360 * i / n2 for i in range(n2)]
    least = [
        min(apart(a, b + turn * angle / 4) for a in firsts for b in seconds)
        for turn in range(steps // n2 + 1)  # turning by one hole of the second circle repeats itself
    ]
    assert max(least) == pytest.approx(angle, abs=1e-6)
    cosine = math.cos(math.radians(angle))
    assert centres**2 == pytest.approx(d1**2 / 4 + d2**2 / 4 - d1 * d2 / 2 * cosine, rel=1e-6, abs=1e-6)


def apart(a: float, b: float) -> float:
    """Angle between two directions, 0 to 180 deg."""
    turn = abs(a - b) % 360
    return min(turn, 360 - turn)


@given(lengths, st.floats(50, 400), st.floats(-100, 100))
def test_offset_and_backspace_are_inverse(backspace: float, rim: float, offset: float) -> None:
    there = wheel_geometry.offset_from_backspace(backspace, rim)
    assert wheel_geometry.backspace_from_offset(there, rim) == pytest.approx(backspace)
    back = wheel_geometry.backspace_from_offset(offset, rim)
    assume(back >= 0)
    assert wheel_geometry.offset_from_backspace(back, rim) == pytest.approx(offset, abs=1e-9)


@given(st.floats(800, 2500), st.floats(100, 350), st.floats(-100, 100), st.floats(0, 80), st.floats(0, 50))
def test_adapter_moves_the_tire_out_by_its_thickness(
    faces: float, section: float, offset: float, thickness: float, more: float
) -> None:
    def at(total: float) -> tuple[float, float, float]:
        return (
            wheel_geometry.inner_tire_clearance(faces, 700, section, offset, total),
            wheel_geometry.outside_width(faces, section, offset, total),
            wheel_geometry.track_width(faces, offset, total),
        )

    inner, width, track = at(thickness)
    inner_after, width_after, track_after = at(thickness + more)
    assert inner_after - inner == pytest.approx(more, abs=1e-9)
    assert width_after - width == pytest.approx(2 * more, abs=1e-9)
    assert track_after - track == pytest.approx(2 * more, abs=1e-9)
    assert width == pytest.approx(track + section)
    inner_face, outer_face = wheel_geometry.sidewall_faces(section, offset, thickness)
    assert inner_face - outer_face == pytest.approx(section)
    gap = wheel_geometry.outer_tire_clearance(faces, width + 40, section, offset, thickness)
    assert gap == pytest.approx(20)


@given(st.floats(50, 500), st.floats(100, 2000), st.floats(100, 600), st.floats(0.4, 1.0))
def test_load_and_pressure_are_inverse(pressure: float, rated: float, at: float, exponent: float) -> None:
    assume(pressure <= at)
    load = tire.load_at_pressure(pressure, rated, at, exponent)
    assert tire.pressure_for_load(load, rated, at, exponent) == pytest.approx(pressure)
    assert load <= rated * (1 + 1e-12)


@given(st.floats(5, 40), st.floats(0.05, 0.25))
def test_thread_areas_stand_in_order(diameter: float, pitches: float) -> None:
    pitch = pitches * diameter
    tpi = 25.4 / pitch
    shank = math.pi / 4 * diameter**2
    line = math.pi / 4 * threads.pitch_diameter(diameter, pitch) ** 2
    un, iso = threads.stress_area_un(diameter, tpi), threads.stress_area_iso(diameter, pitch)
    assert threads.minor_area_un(diameter, tpi) < un < iso < line < shank
    assert threads.minor_area_un(diameter, tpi) < threads.minor_area_iso(diameter, pitch) < iso


@given(st.floats(5, 40), st.floats(300, 1200))
def test_stud_breaks_where_its_thread_would_strip(diameter: float, strength: float) -> None:
    pitch = diameter / 8
    area, line = threads.stress_area_iso(diameter, pitch), threads.pitch_diameter(diameter, pitch)
    length = threads.stripping_engagement(area, line)
    assert threads.stripping_strength(length, line, strength) == pytest.approx(area * strength)
    assert threads.stripping_engagement(area, line, strength_ratio=0.5) == pytest.approx(2 * length)


@given(weights, st.floats(0, 1.2), st.floats(200, 500), st.floats(90, 200))
def test_brake_torque_is_force_times_radius(load: float, share: float, radius: float, circle: float) -> None:
    torque = braking.brake_torque(braking.brake_force_from_deceleration(load, share), radius)
    assert torque == pytest.approx(braking.brake_torque_at_friction(load, share, radius))
    assert braking.force_at_circle(torque, circle) * circle / 2000 == pytest.approx(torque)
