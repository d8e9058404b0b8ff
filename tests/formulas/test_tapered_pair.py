"""The opposed pair of tapered bearings in a hub: worked by hand, and checked along other roads.

Nothing here is a published figure: no worked pair with a printed answer was found.  Places are from the
hub's seating face, inboard positive, mm; loads in N.
"""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from partscheck.formulas import bearing, bearing_life, bearing_load

LB = 4.448222
E, Y = 0.37, 1.6
WHEEL = 1150 * LB  # N
C_INNER, C_OUTER = 40_200, 30_800  # N, for 1 million turns

# Bare hub, bearings at 50 and -18 mm, loaded radius 330 mm; side force as a share of the load, then for
# inner and outer: Fr, induced S, Fa, P in N, and life in million km.
PHASES = {
    "straight": (0.0, (1354, 3761), (423, 1175), (1175, 1175), (2422, 3761), (24.17, 2.295)),
    "outside wheel": (0.2, (6319, 1204), (1975, 376), (1975, 952), (6319, 2004), (0.989, 18.71)),
    "inside wheel": (-0.2, (3611, 8726), (1128, 2727), (1704, 2727), (4171, 8726), (3.95, 0.1388)),
}
DUTY = {"straight": 0.90, "outside wheel": 0.05, "inside wheel": 0.05}


def million_km(load: float, rating: float) -> float:
    return bearing_life.distance(bearing_life.life(rating, load), 330) / 1e6


@pytest.mark.parametrize("phase", PHASES)
def test_three_phases_by_hand(phase: str) -> None:
    share, radial, induced, thrust, load, life = PHASES[phase]
    reactions = bearing.radial_split_cornering(WHEEL, 0, 50, -18, share, 330)
    assert [abs(r) for r in reactions] == pytest.approx(radial, abs=0.6)
    own = [bearing_load.induced_thrust(r, Y) for r in reactions]
    assert own == pytest.approx(induced, abs=0.6)
    carried = bearing_load.pair_thrusts(*reactions, Y, Y, share * WHEEL)
    assert carried == pytest.approx(thrust, abs=0.6)
    loads = bearing_load.pair_loads(reactions, (E, E), (Y, Y), share * WHEEL)
    assert loads == pytest.approx(load, abs=0.6)
    each = [bearing_load.taper_load(r, fa, E, Y) for r, fa in zip(reactions, carried, strict=True)]
    assert each == pytest.approx(loads)
    lives = (million_km(loads[0], C_INNER), million_km(loads[1], C_OUTER))
    assert lives == pytest.approx(life, rel=0.001)


def test_straight_phase_to_the_last_digit() -> None:
    # 0.4 x 1354.1 + 1.6 x 1175.4 = 2422.3; Fa/Fr 0.868.
    reactions = bearing.radial_split(WHEEL, 0, 50, -18)
    inner, _ = bearing_load.pair_thrusts(*reactions, Y, Y)
    assert inner / reactions[0] == pytest.approx(0.868, abs=0.0005)
    assert bearing_load.taper_load(reactions[0], inner, E, Y) == pytest.approx(2422.3, abs=0.06)


def test_duty_by_hand() -> None:
    # 1/L = sum(q/L): inner 9.96, outer 1.324 million km; far more than 150 000 km (practice).
    lives: dict[str, list[tuple[float, float]]] = {"inner": [], "outer": []}
    for phase, (share, *_) in PHASES.items():
        reactions = bearing.radial_split_cornering(WHEEL, 0, 50, -18, share, 330)
        inner, outer = bearing_load.pair_loads(reactions, (E, E), (Y, Y), share * WHEEL)
        lives["inner"].append((DUTY[phase], million_km(inner, C_INNER)))
        lives["outer"].append((DUTY[phase], million_km(outer, C_OUTER)))
    assert bearing_life.duty_life(lives["inner"]) == pytest.approx(9.96, abs=0.005)
    assert bearing_life.duty_life(lives["outer"]) == pytest.approx(1.324, abs=0.0005)


def test_adapter_costs_the_outer_bearing_most_of_its_life() -> None:
    # The same hub with 38.1 mm of adapter, straight: Ro 6627.5 in place of 3761.4 N.  S_o 2071.1 rules both;
    # P_o = Fr, so the life falls by (3761.4/6627.5)^(10/3) = 0.1513: 0.347 million km.
    reactions = bearing.radial_split(WHEEL, -38.1, 50, -18)
    loads = bearing_load.pair_loads(reactions, (E, E), (Y, Y))
    assert loads[1] == pytest.approx(6627.5, abs=0.06)
    assert million_km(loads[1], C_OUTER) == pytest.approx(0.347, abs=0.0005)


def test_another_pair_with_every_step_written_out() -> None:
    # W 4800 N at x 10, bearings at 42 and -16, loaded radius 320 mm, outside wheel with K = 0.3 W = 1440 N.
    # Inner C 35 800 N, e 0.43, Y 1.4; outer C 19 000 N, e 0.35, Y 1.7.

    # 1. The plane: K r / W = 0.3 x 320 = 96 mm inboard, so the load stands at 10 + 96 = 106 mm.
    assert bearing.cornering_plane(10, 0.3, 320) == pytest.approx(106)

    # 2. Radial loads over the spread of 42 + 16 = 58 mm:
    #    inner 4800 x (106 + 16) / 58 = 585 600 / 58 = 10 096.55; outer 4800 - 10 096.55 = -5 296.55.
    inner, outer = bearing.radial_split_cornering(4800, 10, 42, -16, 0.3, 320)
    assert (inner, outer) == pytest.approx((10_096.55, -5_296.55), abs=0.005)
    #    Moments about the inner bearing: 5296.55 x 58 = 307 200 = 4800 x (106 - 42).
    assert -outer * 58 == pytest.approx(4800 * 64)
    #    Moments about the outer bearing: 10 096.55 x 58 = 585 600 = 4800 x 26 upright + 1440 x 320 sideways.
    assert inner * 58 == pytest.approx(4800 * 26 + 1440 * 320)

    # 3. Induced: inner 0.5 x 10 096.55 / 1.4 = 3605.91; outer 0.5 x 5296.55 / 1.7 = 1557.81.
    assert bearing_load.induced_thrust(inner, 1.4) == pytest.approx(3605.91, abs=0.005)
    assert bearing_load.induced_thrust(outer, 1.7) == pytest.approx(1557.81, abs=0.005)

    # 4. Sharing: S_o + K = 1557.81 + 1440 = 2997.81 < S_i = 3605.91, so the inner keeps its own and the
    #    outer gets what balances the hub: 3605.91 - 1440 = 2165.91 (more than its own 1557.81).
    thrusts = bearing_load.pair_thrusts(inner, outer, 1.4, 1.7, 1440)
    assert thrusts == pytest.approx((3605.91, 2165.91), abs=0.005)

    # 5. Inner: Fa/Fr 0.3571 <= 0.43, so P = Fr = 10 096.55.
    #    Outer: Fa/Fr 0.4089 > 0.35, so P = 0.4 x 5296.55 + 1.7 x 2165.91 = 2118.62 + 3682.05 = 5800.67.
    loads = bearing_load.pair_loads((inner, outer), (0.43, 0.35), (1.4, 1.7), 1440)
    assert loads == pytest.approx((10_096.55, 5_800.67), abs=0.005)

    # 6. Lives: (35 800 / 10 096.55)^(10/3) = 3.54577^(10/3) = 67.98; (19 000 / 5800.67)^(10/3) = 52.19.
    lives = [bearing_life.life(c, p) for c, p in zip((35_800, 19_000), loads, strict=True)]
    assert lives == pytest.approx([67.98, 52.19], abs=0.005)

    # 7. Way: 2 pi x 0.320 = 2.01062 m a turn: 136 677 and 104 933 km.
    ways = [bearing_life.distance(turns, 320) for turns in lives]
    assert ways == pytest.approx([136_677, 104_933], abs=1)


# Other roads.  Random hubs: load, its plane, the bearings, side share, loaded radius.
hubs = st.tuples(
    st.floats(100, 20_000),
    st.floats(-120, 120),
    st.floats(15, 120),
    st.floats(-80, 10),
    st.floats(-0.8, 0.8),
    st.floats(150, 500),
)
Hub = tuple[float, float, float, float, float, float]


def solved(rows: list[list[float]]) -> list[float]:
    """Answer of n linear equations [a1 ... an | b], Gauss-Jordan with pivots; written for this test."""
    rows = [list(row) for row in rows]
    size = len(rows)
    for column in range(size):
        pivot = max(range(column, size), key=lambda r: abs(rows[r][column]))
        rows[column], rows[pivot] = rows[pivot], rows[column]
        rows[column] = [value / rows[column][column] for value in rows[column]]
        for row in range(size):
            if row != column:
                factor = rows[row][column]
                rows[row] = [a - factor * b for a, b in zip(rows[row], rows[column], strict=True)]
    return [row[size] for row in rows]


@given(hubs, st.floats(-300, 300), st.floats(-100, 100))
def test_balance_of_the_hub_as_linear_equations(hub: Hub, about: float, axial: float) -> None:
    load, plane, inner, outer, share, radius = hub
    side = share * load
    # The hub as a free body; unknown R_inner, R_outer (upright, of the spindle on the hub, downward) and the
    # thrust difference T (outboard).  The tire gets W upward at (plane, -radius) and K inboard there.
    # upright: Ri + Ro = W; along: T = K; moments about (about, axial):
    #   Ri (xi - about) + Ro (xo - about) = W (plane - about) + K (radius + axial) - T axial
    found = solved(
        [
            [1.0, 1.0, 0.0, load],
            [0.0, 0.0, 1.0, side],
            [inner - about, outer - about, axial, load * (plane - about) + side * (radius + axial)],
        ]
    )
    ours = bearing.radial_split_cornering(load, plane, inner, outer, share, radius)
    assert ours == pytest.approx(found[:2], rel=1e-7, abs=1e-6 * load)
    assert found[2] == pytest.approx(side)


@given(hubs)
def test_moments_about_each_bearing(hub: Hub) -> None:
    load, plane, inner, outer, share, radius = hub
    on_inner, on_outer = bearing.radial_split_cornering(*hub)
    overturning = share * load * radius
    assert on_inner * (inner - outer) == pytest.approx(load * (plane - outer) + overturning, abs=1e-6 * load)
    assert on_outer * (inner - outer) == pytest.approx(load * (inner - plane) - overturning, abs=1e-6 * load)


@given(hubs, st.floats(-1e-3, 1e-3), st.floats(-1e-3, 1e-3))
def test_no_work_in_any_small_movement(hub: Hub, lift: float, tilt: float) -> None:
    # Virtual work: the hub lifted and tilted a little, the forces at rest: their work is nought.
    load, plane, inner, outer, share, radius = hub
    on_inner, on_outer = bearing.radial_split_cornering(*hub)

    def rise(at: float) -> float:
        return lift + tilt * at

    work = load * rise(plane) + share * load * radius * tilt
    work -= on_inner * rise(inner) + on_outer * rise(outer)
    assert work == pytest.approx(0, abs=1e-9 * load)


@given(hubs, st.floats(0.2, 5), st.floats(0.2, 5))
def test_least_energy_on_springs(hub: Hub, soft: float, stiff: float) -> None:
    # Bearings as springs of any stiffness: the energy is least where its two slopes vanish, and the forces
    # of the springs there do not depend on the stiffness (two supports: statically determinate).
    load, plane, inner, outer, share, radius = hub
    moment = load * plane + share * load * radius
    lift, tilt = solved(
        [
            [soft + stiff, soft * inner + stiff * outer, load],
            [soft * inner + stiff * outer, soft * inner**2 + stiff * outer**2, moment],
        ]
    )
    springs = (soft * (lift + tilt * inner), stiff * (lift + tilt * outer))
    assert bearing.radial_split_cornering(*hub) == pytest.approx(springs, rel=1e-6, abs=1e-5 * load)


def shared_by_cases(s_inner: float, s_outer: float, side: float) -> tuple[float, float]:
    """The rule of the handbooks, case by case."""
    if s_inner >= s_outer + side:
        return s_inner, s_inner - side
    return s_outer + side, s_outer


radials = st.floats(-20_000, 20_000)
factors = st.floats(0.8, 2.5)
sides = st.floats(-8_000, 8_000)


@given(radials, radials, factors, factors, sides)
def test_thrust_is_the_least_that_balances(
    inner: float, outer: float, y_inner: float, y_outer: float, side: float
) -> None:
    own = (0.5 * abs(inner) / y_inner, 0.5 * abs(outer) / y_outer)
    got = bearing_load.pair_thrusts(inner, outer, y_inner, y_outer, side)
    assert got == pytest.approx(shared_by_cases(*own, side), abs=1e-6)
    # The hub is in balance along the axis, no bearing is below its own, and one of them is at its own.
    assert got[0] - got[1] == pytest.approx(side, abs=1e-6)
    assert got[0] >= own[0] - 1e-6
    assert got[1] >= own[1] - 1e-6
    assert min(got[0] - own[0], got[1] - own[1]) == pytest.approx(0, abs=1e-6)
    # Seen from the other side of the trailer the two change places.
    mirrored = bearing_load.pair_thrusts(outer, inner, y_outer, y_inner, -side)
    assert mirrored == pytest.approx(got[::-1], abs=1e-6)


def test_induced_thrust_from_the_load_of_the_rollers() -> None:
    # Another road to 0.5 Fr/Y: line contact, half of the rollers loaded, each in proportion to cos^(10/9)
    # round the race; Fr = sum Q cos(psi) cos(alpha), Fa = sum Q sin(alpha).
    steps = 20_000
    angles = [math.pi * (i + 0.5) / steps - math.pi / 2 for i in range(steps)]
    rollers = [math.cos(angle) ** (10 / 9) for angle in angles]
    ratio = sum(rollers) / sum(q * math.cos(a) for q, a in zip(rollers, angles, strict=True))
    assert ratio == pytest.approx(1.26, abs=0.005)
    for e_factor in (0.28, 0.37, 0.43, 0.58):
        slope = math.tan(math.radians(bearing.contact_angle(e_factor)))
        thrust = bearing_load.induced_thrust(1000, bearing.y_from_e(e_factor))
        assert thrust == pytest.approx(ratio * 1000 * slope, rel=0.012)


@given(st.floats(0, 20_000), st.floats(0, 20_000), st.floats(0.2, 1.2))
def test_equivalent_load_never_below_the_radial_and_without_a_jump(
    radial: float, axial: float, e_factor: float
) -> None:
    y_factor = 0.6 / e_factor
    load = bearing_load.taper_load(radial, axial, e_factor, y_factor)
    assert load >= radial
    assert load == pytest.approx(max(radial, 0.4 * radial + y_factor * axial), rel=1e-9, abs=1e-9)
    assert bearing_load.taper_load(-radial, axial, e_factor, y_factor) == load
    assert bearing_load.taper_load(radial, axial + 1, e_factor, y_factor) >= load


@given(st.floats(0, 1e4), st.floats(-3e3, 3e3), st.floats(0.1, 10))
def test_pair_loads_go_with_all_loads(radial: float, side: float, times: float) -> None:
    once = bearing_load.pair_loads((radial, 800), (E, E), (Y, Y), side)
    more = bearing_load.pair_loads((times * radial, times * 800), (E, E), (Y, Y), times * side)
    # At Fa/Fr = e exactly the two branches differ by 1.3 % (e Y is 0.592, not 0.6).
    assert more == pytest.approx([times * load for load in once], rel=0.014)


@given(st.floats(1e3, 1e5), st.floats(1e2, 1e5), st.sampled_from([3.0, 10 / 3]))
def test_life_and_rating_are_inverse(rating: float, load: float, exponent: float) -> None:
    turns = bearing_life.life(rating, load, exponent)
    assert bearing_life.rating_needed(load, turns, exponent) == pytest.approx(rating)
    assert bearing_life.life(rating, 2 * load, exponent) == pytest.approx(turns / 2**exponent)


@given(st.lists(st.tuples(st.floats(0.01, 1), st.floats(1, 1e6)), min_size=1, max_size=6))
def test_duty_lies_between_its_phases(phases: list[tuple[float, float]]) -> None:
    total = sum(share for share, _ in phases)
    shared = [(share / total, life) for share, life in phases]
    life = bearing_life.duty_life(shared)
    lives = [each for _, each in phases]
    assert min(lives) * (1 - 1e-9) <= life <= max(lives) * (1 + 1e-9)
    # The same told as damage: drive that far and the shares used up make one bearing.
    assert sum(share * life / each for share, each in shared) == pytest.approx(1)


@given(st.floats(0.03, 20))
def test_reliability_and_life_ratio_are_inverse(ratio: float) -> None:
    share = bearing_life.reliability(ratio)
    assume(1e-12 < share < 1 - 1e-6)
    assert bearing_life.life_ratio_at(share) == pytest.approx(ratio, rel=1e-6)


def test_reliability_at_the_rating_life_is_nine_of_ten() -> None:
    # L10 is the life that 90 % reach; these Weibull parameters are rounded to within 0.1 %.
    assert bearing_life.reliability(1) == pytest.approx(0.90, abs=0.001)
    assert bearing_life.reliability(0.01) == 1


def test_static_load_and_safety_by_hand() -> None:
    # Straight phase with a shock of 2: Fr 7522.9, Fa 2350.9, Y0 0.9: 3761.4 + 2115.8 = 5877 < Fr, so P0 = Fr;
    # C0 of 33 500 N: 4.45.
    radial = 2 * bearing.radial_split(WHEEL, 0, 50, -18)[1]
    load = bearing_load.taper_static_load(radial, bearing_load.induced_thrust(radial, Y), 0.9)
    assert load == pytest.approx(7522.9, abs=0.2)
    assert bearing_load.static_safety(33_500, load) == pytest.approx(4.453, abs=0.001)
    # Where the thrust rules: Fr 4000, Fa 3000: 0.5 x 4000 + 0.9 x 3000 = 4700; Fa 2222.2 is where it begins.
    assert bearing_load.taper_static_load(-4000, 3000, 0.9) == pytest.approx(4700)
    assert bearing_load.taper_static_load(4000, 2222, 0.9) == 4000
    assert bearing_load.taper_static_load(4000, 2223, 0.9) > 4000


@given(st.floats(10, 80), st.floats(15, 120), st.floats(10, 40), st.floats(0.2, 1.0), st.floats(-20, 20))
def test_middles_and_centres_of_a_hub(
    bore: float, more: float, width: float, e_factor: float, middle: float
) -> None:
    # Draw the load line by hand: from the race at the mean diameter, square to it, down to the axis.
    outside = bore + more
    radius = (bore + outside) / 4
    lean = math.radians(bearing.contact_angle(e_factor))
    race = (math.sin(lean), math.cos(lean))  # (away from the axis, towards the cone's back face)
    foot = radius * race[0] / race[1]
    along = (-radius, foot)
    assert race[0] * along[0] + race[1] * along[1] == pytest.approx(0, abs=1e-9 * radius)
    assert bearing.centre_beyond_middle_approx(bore, outside, e_factor) == pytest.approx(foot)
    # From the cup's back face or from the cone's: the same place.
    from_cup, from_cone = width / 2 + foot, width / 2 - foot
    assume(from_cone >= -width / 2)
    assert bearing.centre_beyond_middle(width, from_cup) == pytest.approx(foot)
    assert bearing.centre_beyond_middle(width, from_cone) == pytest.approx(foot)
