"""Bolted joints: our own hand-worked cases, what is refused, and what unbounded ends give."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from partscheck.formulas import (
    bolted_joint,
    grip,
    joint_strength,
    preload,
    thread_limits,
    thread_stripping,
    threads,
)

INF, NAN = math.inf, math.nan
LBF, LBF_FT, INCH = 4.4482216152605, 1.3558179483, 25.4
PSI = LBF / INCH**2  # MPa


# Three 1/2-13 grade 8 at 75 lbf ft, K 0.20, in oversize holes: 9000 lbf each, 52.9 % of proof; 26 500 left
# under 500 of pull; friction, safety, what holds, margin to 2200 lbf.  Own method, hand-worked.
@pytest.mark.parametrize(
    ("friction", "safety", "holds", "margin"),
    [(0.20, 1.76, 3011, 811), (0.20, 1.50, 3533, 1333), (0.10, 1.76, 1506, -694)],
)
def test_joint_in_oversize_holes(friction: float, safety: float, holds: float, margin: float) -> None:
    force = bolted_joint.preload_from_torque(75 * LBF_FT, 0.20, 12.7)
    assert force / LBF == pytest.approx(9000, rel=1e-5)
    proof = preload.proof_load(0.1419 * INCH**2, 120_000 * PSI)
    assert preload.share_of_proof(force, proof) == pytest.approx(0.529, abs=0.0005)
    slip = bolted_joint.clamp_slip_capacity(force, 3, friction, tension=500 * LBF, safety=safety)
    assert slip / LBF == pytest.approx(holds, abs=0.6)
    assert slip / LBF - 2200 == pytest.approx(margin, abs=0.6)


def test_joint_in_oversize_holes_with_a_third_less_clamp() -> None:
    # 30 % low: (18 900 - 500) x 0.2 / 1.76 = 2091, 109 short.
    least, _ = preload.preload_spread(9000, 0.30)
    slip = bolted_joint.clamp_slip_capacity(least, 3, 0.20, tension=500, safety=1.76)
    assert slip - 2200 == pytest.approx(-109, abs=0.6)


@given(st.floats(100, 50000), st.integers(1, 8), st.floats(0.05, 0.6), st.floats(0, 20000), st.integers(1, 2))
def test_the_preload_that_is_needed_just_holds(
    shear: float, bolts: int, friction: float, tension: float, planes: int
) -> None:
    needed = bolted_joint.preload_against_slip(shear, bolts, friction, tension, planes, 1.76)
    holds = bolted_joint.clamp_slip_capacity(needed, bolts, friction, tension, planes, 1.76)
    assert holds == pytest.approx(shear)


@given(st.floats(0, 500), st.floats(0.06, 0.4), st.floats(5, 40))
def test_torque_and_preload_are_inverse(torque: float, factor: float, diameter: float) -> None:
    force = bolted_joint.preload_from_torque(torque, factor, diameter)
    assert bolted_joint.torque_for_preload(force, factor, diameter) == pytest.approx(torque)


# 1/2-13 in 3/8 in of A36 (58 ksi): area per inch 1.1235, 12.22 kip.  Grade 8 at 106 lbf ft: 12.72 kip,
# 0.50 short, its own strength of 21.29 kip needs 0.653 in; grade 5 at 75: 9.00 kip, 3.22 to spare, its 17.03
# needs 0.523 in.  6061-T6 (42 ksi), grade 5: 0.722 in.  Own method, hand-worked; no table of limits used.
@pytest.mark.parametrize(
    ("torque", "tensile", "hole", "margin", "length"),
    [(106, 150, 58, -0.50, 0.653), (75, 120, 58, 3.22, 0.523), (75, 120, 42, -0.15, 0.722)],
)
def test_tapped_hole_strips(torque: float, tensile: float, hole: float, margin: float, length: float) -> None:
    limits = thread_limits.least_material_un(12.7, 13)
    per_mm = threads.internal_thread_strip_area(1, INCH / 13, limits.external_major, limits.internal_pitch)
    assert per_mm / INCH == pytest.approx(1.1235, rel=0.001)
    engaged = grip.engaged_length(1.25 * INCH, 0.75 * INCH, 0.375 * INCH, washers=0.095 * INCH)
    assert engaged == pytest.approx(0.375 * INCH)
    strips = thread_stripping.stripping_load(per_mm * engaged, hole * 1000 * PSI) / LBF / 1000
    clamp = bolted_joint.preload_from_torque(torque * LBF_FT, 0.2, 12.7) / LBF / 1000
    assert strips - clamp == pytest.approx(margin, abs=0.016)
    bolt = joint_strength.bolt_tension_strength(0.1419, tensile) * 1000 * LBF
    needs = thread_stripping.engagement_for_load(bolt, per_mm, hole * 1000 * PSI) / INCH
    assert needs == pytest.approx(length, abs=0.0015)


def test_length_bottoms_or_hangs_in_a_tapped_hole() -> None:
    assert grip.engaged_length(20, 25, 10) == 0
    assert grip.engaged_length(30, 12, 15, washers=2.5) == 15
    assert grip.room_before_bottom(30, 12, 15, washers=2.5) == -0.5
    assert grip.room_before_bottom(29.5, 12, 15, washers=2.5) == 0


def test_bolt_threaded_to_its_head() -> None:
    # 1/2-13 x 1: thread length 1 1/4 is more than the bolt: no body, a few pitches under the head.
    thread = grip.thread_length_inch(12.7, INCH)
    assert grip.body_length(INCH, thread, INCH / 13) == 0
    assert grip.unthreaded_length(INCH, thread, INCH / 13) == pytest.approx(2.5 * INCH / 13)


@given(st.floats(0, 1e5), st.floats(0, 1e5), st.floats(0.01, 1))
def test_pulled_joint_keeps_the_balance(clamp: float, pull: float, constant: float) -> None:
    # What the bolt carries less what is left between the parts is the outside pull, closed or open.
    bolt = preload.bolt_load(clamp, pull, constant)
    left = preload.clamp_left(clamp, pull, constant)
    assert bolt - left == pytest.approx(pull, abs=1e-6 * (1 + clamp + pull))


@given(st.floats(1e3, 1e5), st.floats(0.1, 0.8), st.floats(1, 1e5), st.floats(0.05, 0.95))
def test_load_factors_are_where_the_bolt_and_the_joint_give_up(
    proof: float, share: float, pull: float, constant: float
) -> None:
    clamp = share * proof
    parts = preload.separation_factor(clamp, pull, constant)
    assert preload.clamp_left(clamp, pull * parts, constant) == pytest.approx(0, abs=1e-9 * proof)
    proofs = preload.load_factor(proof, clamp, pull, constant)
    at = clamp + constant * pull * proofs
    assert at == pytest.approx(proof)
    assert preload.proof_factor(proof, clamp, pull * proofs, constant) == pytest.approx(1)


@given(st.floats(0, 2), st.floats(0, 2))
def test_combined_use_is_never_less_than_either(shear: float, tension: float) -> None:
    use = joint_strength.combined_use(shear, 1, tension, 1)
    assert max(shear, tension) <= use * (1 + 1e-12)
    assert use <= shear + tension + 1e-12
    twice = joint_strength.combined_use(2 * shear, 1, 2 * tension, 1)
    assert twice == pytest.approx(2 * use)


@given(st.floats(0, 1e5), st.floats(2, 40), st.floats(1, 20), st.floats(200, 700), st.floats(1, 3))
def test_edge_distance_just_holds(
    load: float, hole: float, thickness: float, tensile: float, safety: float
) -> None:
    edge = joint_strength.edge_against_tear_out(load, hole, thickness, tensile, safety)
    clear = joint_strength.clear_to_edge(edge, hole)
    holds = joint_strength.tear_out_strength(clear, thickness, tensile, safety)
    assert holds == pytest.approx(load, abs=1e-6 * (1 + load))


@given(st.floats(6, 38), st.integers(0, 1))
def test_least_material_is_less_than_basic(diameter: float, fine: int) -> None:
    pitch = diameter / (7, 11)[fine]
    limits = thread_limits.least_material_iso(diameter, min(pitch, 4.0))
    line = threads.pitch_diameter(diameter, min(pitch, 4.0))
    assert limits.external_major < diameter
    assert limits.external_pitch < line < limits.internal_pitch
    assert limits.internal_minor < line


REFUSED: list[tuple[Callable[..., object], tuple[object, ...], str]] = [
    (bolted_joint.torque_for_preload, (-1, 0.2, 12), "preload"),
    (bolted_joint.torque_for_preload, (1000, 20, 12), "nut factor"),
    (bolted_joint.torque_for_preload, (1000, 0.2, NAN), "diameter"),
    (bolted_joint.preload_against_slip, (-1, 3, 0.2), "shear"),
    (bolted_joint.preload_against_slip, (100, 0, 0.2), "slip planes"),
    (bolted_joint.preload_against_slip, (100, 3, -0.1), "friction"),
    (bolted_joint.slip_per_bolt, (-1, 0.35), "least pretension"),
    (bolted_joint.slip_per_bolt, (28, 3.5), "friction"),
    (bolted_joint.slip_per_bolt, (28, 0.35, 0.9), "Du"),
    (bolted_joint.slip_per_bolt, (28, 0.35, 1.13, 0), "hole factor"),
    (preload.proof_load, (0, 580), "stress area"),
    (preload.proof_load, (84.3, NAN), "proof strength"),
    (preload.proof_from_yield, (-640,), "yield"),
    (preload.preload_of_proof, (1000, 75), "share of the proof"),
    (preload.share_of_proof, (-1, 1000), "preload"),
    (preload.preload_spread, (1000, 25), "25 % is 0.25"),
    (preload.nut_factor_from_friction, (1, 1.75, 0.1, 0.1), "one pitch"),
    (preload.nut_factor_from_friction, (INF, 1.75, 0.1, 0.1), "must be known"),
    (preload.nut_factor_from_friction, (12, 1.75, 15, 0.1), "friction of the threads"),
    (preload.nut_factor_from_friction, (12, 1.75, 0.1, -1), "bearing face"),
    (preload.joint_constant, (0, 10), "bolt stiffness"),
    (preload.joint_constant, (10, INF), "member stiffness"),
    (preload.bolt_load, (-1, 10, 0.3), "preload"),
    (preload.clamp_left, (10, -1, 0.3), "pull"),
    (preload.proof_factor, (100, 10, 1, 32), "joint constant"),
    (preload.load_factor, (0, 10, 1, 0.3), "proof load"),
    (preload.separation_factor, (NAN, 1, 0.3), "preload"),
    (joint_strength.bolt_shear_strength, (-1, 85), "area"),
    (joint_strength.bolt_shear_strength, (1, 85, 0), "shear planes"),
    (joint_strength.bolt_shear_strength, (1, 85, 1, 0.5), "safety"),
    (joint_strength.bolt_shear_strength, (1, 85, 1, 1, 57.7), "shear factor"),
    (joint_strength.bolt_tension_strength, (1, NAN), "strength"),
    (joint_strength.combined_use, (-1, 10, 0, 10), "shear"),
    (joint_strength.tension_strength_with_shear, (90, 0, 5), "shear strength"),
    (joint_strength.bearing_strength, (12, 5, 400, 1, 24), "bearing factor"),
    (joint_strength.clear_to_edge, (-1, 13), "edge distance"),
    (joint_strength.clear_between, (40, -1), "hole"),
    (joint_strength.tear_out_strength, (NAN, 5, 400), "clear distance"),
    (joint_strength.tear_out_strength, (10, -5, 400), "thickness"),
    (joint_strength.edge_against_tear_out, (1000, 13, 0, 400), "thickness"),
    (joint_strength.edge_shear_strength, (10, 5, -1), "strength"),
    (joint_strength.net_section_strength, (100, 5, 250, -1, 13), "count of holes"),
    (grip.length_needed, (-1, 10, 1.75), "grip"),
    (grip.length_needed, (30, 10, 0), "pitch"),
    (grip.protrusion, (50, 30, -1), "nut height"),
    (grip.next_stock_length, (-1, [10]), "length"),
    (grip.thread_length_inch, (0, 50), "diameter"),
    (grip.thread_length_iso, (12, 0), "length"),
    (grip.unthreaded_length, (50, -1, 1.75), "thread length"),
    (grip.body_length, (50, 30, -1), "pitch"),
    (grip.engaged_length, (50, 30, -1), "depth"),
    (grip.room_before_bottom, (50, 30, 10, -1), "washers"),
    (thread_limits.least_material_un, (0.5, 13), "typed in inches"),
    (thread_limits.least_material_un, (12.7, 1.95), "threads per inch"),
    (thread_limits.least_material_un, (6.35, 10), "too thin"),
    (thread_limits.least_material_iso, (INF, 1.75), "diameter"),
    (thread_limits.least_material_iso, (12, 13), "pitch"),
    (thread_limits.least_material_iso, (6, 2), "too thin"),
    (thread_stripping.stripping_load, (-1, 400), "shear area"),
    (thread_stripping.stripping_load, (10, 400, 2), "shear factor"),
    (thread_stripping.engagement_for_load, (-1, 10, 400), "load"),
    (thread_stripping.engagement_for_load, (100, 0, 400), "above 0"),
    (thread_stripping.internal_strip_area_simplified, (-1, 10), "engaged length"),
    (thread_stripping.external_strip_area_simplified, (1, 0), "diameter"),
    (thread_stripping.internal_strip_area_basic, (NAN, 10), "engaged length"),
    (thread_stripping.external_strip_area_basic, (1, -1), "diameter"),
    (thread_stripping.insert_pull_out, (1, 10, -1), "shear strength"),
]


@pytest.mark.parametrize(("formula", "arguments", "words"), REFUSED)
def test_out_of_range_is_refused_in_words(
    formula: Callable[..., object], arguments: tuple[object, ...], words: str
) -> None:
    with pytest.raises(ValueError, match=words):
        formula(*arguments)


def test_unbounded_ends_give_numbers_or_unbounded_ends() -> None:
    assert bolted_joint.preload_against_slip(2200, 3, 0) == INF
    assert bolted_joint.preload_against_slip(0, 3, 0, tension=300) == 100
    assert bolted_joint.preload_against_slip(INF, 3, 0.2) == INF
    assert bolted_joint.clamp_slip_capacity(INF, 3, 0) == 0
    assert bolted_joint.clamp_slip_capacity(9000, 3, 0.2, tension=INF) == 0
    assert bolted_joint.slip_per_bolt(INF, 0) == 0
    assert preload.preload_spread(INF, 1) == (0, INF)
    assert preload.bolt_load(25, INF, 0) == INF
    assert preload.clamp_left(INF, INF, 0.3) == 0
    assert preload.proof_factor(100, INF, 0, 0.3) == 0
    assert preload.load_factor(100, 50, 0, 0.3) == INF
    assert preload.separation_factor(100, 10, 1) == INF
    assert joint_strength.bolt_shear_strength(INF, 0) == 0
    assert joint_strength.combined_use(0, 0, 0, 0) == 0
    assert joint_strength.combined_use(1, 0, 0, 10) == INF
    assert joint_strength.combined_use(INF, INF, 0, 10) == INF
    assert joint_strength.tension_strength_with_shear(90, 48, INF) == 0
    assert joint_strength.bearing_strength(12, INF, 0) == 0
    assert joint_strength.clear_to_edge(INF, INF) == -INF
    assert joint_strength.tear_out_strength(-INF, INF, 400) == 0
    assert joint_strength.tear_out_strength(INF, 5, 400) == INF
    assert joint_strength.edge_against_tear_out(INF, 13, 5, 400) == INF
    assert joint_strength.net_section_strength(INF, 5, 250, 2, INF) == 0
    assert joint_strength.net_section_strength(20, 5, 250, 2, 13) == 0
    assert grip.protrusion(INF, INF, 10) == -INF
    assert grip.engaged_length(INF, 0, 20) == 20
    assert grip.engaged_length(50, INF, 20) == 0
    assert grip.room_before_bottom(INF, 12, INF) == -INF
    assert grip.next_stock_length(INF, [100, 200]) is None
    assert grip.body_length(INF, INF, 1.75) == 0
    assert thread_stripping.stripping_load(INF, 0) == 0
    assert thread_stripping.engagement_for_load(INF, 10, 400) == INF
    assert thread_stripping.internal_strip_area_basic(0, INF) == 0
