"""Out of range is refused in plain words; unbounded ends of intervals go through."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from partscheck.formulas import (
    balance,
    bearing,
    bolt_circle,
    bolted_joint,
    braking,
    threads,
    tire,
    wheel_geometry,
)

INF, NAN = math.inf, math.nan

REFUSED: list[tuple[Callable[..., object], tuple[object, ...], str]] = [
    (threads.stress_area_un, (0.5, 13), "typed in inches"),
    (threads.stress_area_un, (12.7, 0), "threads per inch"),
    (threads.stress_area_un_high_strength, (0.4435, 13), "typed in inches"),
    (threads.stress_area_iso, (12, 0), "pitch"),
    (threads.stress_area_iso, (12, 12), "too thin"),
    (threads.stress_area_iso, (NAN, 1.75), "too thin"),
    (threads.minor_area_un, (2.5, 10), "too thin"),
    (threads.minor_area_iso, (2, 1.8), "too thin"),
    (threads.pitch_diameter, (1, 2), "too thin"),
    (threads.internal_thread_strip_area, (10, 1.75, 10, 13), "do not meet"),
    (threads.internal_thread_strip_area, (-1, 1.75, 12, 11), "engaged length"),
    (threads.external_thread_strip_area, (10, 1.75, 0, 11), "diameter"),
    (threads.engagement_both_strip, (0, 10), "stress area"),
    (threads.engagement_screw_strips, (84, 0), "shear area per mm"),
    (threads.engagement_hole_strips, (84, 20, 800, 0), "tapped part"),
    (threads.stripping_strength, (-1, 10, 800), "engaged length"),
    (threads.stripping_engagement, (84, 10, 0), "strength ratio"),
    (threads.stripping_engagement, (84, 10, 1, 1.2), "shear factor"),
    (bolt_circle.chord, (100, 1), "count of holes"),
    (bolt_circle.chord, (100, 5, 3), "at most half of 5"),
    (bolt_circle.chord, (100, 5, 0), "steps between"),
    (bolt_circle.chord, (-100, 5), "bolt circle"),
    (bolt_circle.diameter_from_chord, (-1, 5), "chord"),
    (bolt_circle.hole_coordinates, (-1, 5), "bolt circle"),
    (bolt_circle.hole_coordinates, (100, 4.5), "whole number"),
    (bolt_circle.centre_distance, (-1, 5, 10), "bolt circles"),
    (bolt_circle.best_clocking, (100, 0, 100, 5), "count of holes"),
    (bolt_circle.metal_between, (10, -1, 5), "pocket"),
    (wheel_geometry.offset_from_backspace, (-1, 150), "backspace"),
    (wheel_geometry.offset_from_backspace, (100, -1), "rim width"),
    (wheel_geometry.backspace_from_offset, (0, 150, -1), "flanges"),
    (wheel_geometry.load_plane, (0, -1), "thicknesses"),
    (wheel_geometry.sidewall_faces, (-1, 0), "section width"),
    (wheel_geometry.track_width, (-1, 0), "hub face distance"),
    (wheel_geometry.outside_width, (-1, 200, 0), "hub face distance"),
    (wheel_geometry.inner_tire_clearance, (1500, -1, 200, 0), "frame width"),
    (wheel_geometry.outer_tire_clearance, (1500, -1, 200, 0), "width between"),
    (wheel_geometry.tandem_gap, (-1, 700), "axle spacing"),
    (wheel_geometry.tandem_gap, (800, 700, 0.9), "growth"),
    (tire.overall_diameter_metric, (205, 0.75, 381), "75, not 0.75"),
    (tire.overall_diameter_metric, (0, 75, 381), "section width"),
    (tire.section_on_rim, (205, 0, 150), "measuring rim"),
    (tire.measuring_rim_width, (255, 45), "50 series"),
    (tire.measuring_rim_width, (INF, 60), "must be known"),
    (tire.load_from_index_approx, (-1,), "load index"),
    (tire.p_metric_load, (205, 45, 381, 240), "50 series"),
    (tire.p_metric_load, (205, 75, 381, 0), "pressure"),
    (tire.p_metric_load, (205, 75, INF, 240), "must be known"),
    (tire.load_at_pressure, (-1, 725, 240), "pressure"),
    (tire.load_at_pressure, (200, 725, 240, 0), "exponent"),
    (tire.pressure_for_load, (-1, 725, 240), "load"),
    (tire.pressure_for_load, (500, 0, 240), "rated load"),
    (tire.pressure_for_load, (500, 725, 240, 0.5, -1), "least pressure"),
    (tire.passenger_on_trailer, (-1,), "rating"),
    (tire.passenger_on_trailer, (1598, 0.9), "divisor"),
    (tire.loaded_radius_default, (-1,), "diameter"),
    (tire.loaded_radius_default, (700, 0.6), "share"),
    (bearing.radial_split, (-1, 0, 50, -18), "load"),
    (bearing.radial_split, (5000, 0, -18, 50), "inboard"),
    (bolted_joint.preload_from_torque, (-1, 0.2, 12), "torque"),
    (bolted_joint.preload_from_torque, (88, 2, 12), "nut factor"),
    (bolted_joint.preload_from_torque, (88, 0.2, 0), "diameter"),
    (bolted_joint.clamp_slip_capacity, (-1, 5, 0.2), "preload"),
    (bolted_joint.clamp_slip_capacity, (9000, 0, 0.2), "slip planes"),
    (bolted_joint.clamp_slip_capacity, (9000, 5, 2), "friction"),
    (bolted_joint.clamp_slip_capacity, (9000, 5, 0.2, 0, 1, 0.5), "safety"),
    (braking.brake_force_from_deceleration, (5000, 5), "deceleration"),
    (braking.brake_force_from_deceleration, (-1, 0.5), "load"),
    (braking.brake_torque, (-1, 330), "force"),
    (braking.brake_torque_at_friction, (5000, 80, 330), "friction"),
    (braking.force_at_circle, (825, 0), "bolt circle"),
    (braking.force_at_circle, (-1, 100), "torque"),
    (balance.supports, ([(100, 10)], 0), "coupler to axle"),
    (balance.supports, ([(-100, 10)], 100), "weight"),
    (balance.tongue_from_load, (-1, 10, 100), "weight"),
    (balance.axle_and_tongue, (2600, 10), "10 % is 0.10"),
    (balance.side_shares, (3, 0), "track"),
    (balance.share_among_axles, (3000, 0, True), "count of axles"),
    (balance.share_among_axles, (3000, 2, False, 1.5), "share of one axle"),
]


@pytest.mark.parametrize(("formula", "arguments", "words"), REFUSED)
def test_out_of_range_is_refused_in_words(
    formula: Callable[..., object], arguments: tuple[object, ...], words: str
) -> None:
    with pytest.raises(ValueError, match=words):
        formula(*arguments)


def test_tension_beyond_the_clamp_leaves_no_friction() -> None:
    assert bolted_joint.clamp_slip_capacity(1000, 2, 0.2, tension=2500) == 0


def test_more_than_rated_pressure_gives_no_more_load() -> None:
    assert tire.load_at_pressure(400, 725, 240) == 725


def test_overload_asks_for_more_than_the_rated_pressure() -> None:
    assert tire.pressure_for_load(800, 725, 240) > 240


def test_least_pressure_rules_at_a_small_load() -> None:
    assert tire.pressure_for_load(100, 725, 240, floor=180) == 180


def test_unbounded_ends_go_through() -> None:
    assert wheel_geometry.inner_tire_clearance(INF, 1220, 200, 30) == INF
    assert wheel_geometry.inner_tire_clearance(1524, 1220, 200, -INF) == INF
    assert wheel_geometry.outside_width(1524, INF, 30) == INF
    assert wheel_geometry.tandem_gap(0, INF) == -INF
    assert bolt_circle.diameter_from_chord(INF, 5) == INF
    assert bearing.radial_split(INF, 0, 50, -18) == (INF, INF)
    assert tire.passenger_on_trailer(INF) == INF
    assert tire.pressure_for_load(INF, 725, 240) == INF
    assert threads.stress_area_iso(INF, 1.75) == INF
    assert balance.share_among_axles(INF, 2, equalized=False) == INF
