"""The balance and its inverse: hand-worked cases, conservation, and what must hold for any weights."""

from __future__ import annotations

import random

import pytest
from case_files import shipped_catalogue
from hypothesis import given, settings
from hypothesis import strategies as st

import partscheck
from partscheck.build.model import Build
from partscheck.build.reader import read_build
from partscheck.formulas import balance as formulas
from partscheck.notation.interval import INF
from partscheck.uses.balance import BalanceRow

LB, INCH = 4.4482216152605, 25.4

S10 = """
layout: {coupler_to_axle: 120 in}
load_cases: [empty, loaded, racked]
loads:
  - {what: frame, weight: 640 lb, from_coupler: 100 in}
  - {what: running gear, weight: 350 lb, from_coupler: 120 in, moves_with_axle: true}
  - {what: cargo, weight: 1500 lb, from_coupler: 112 in, cases: [loaded, racked]}
  - {what: rack, weight: 110 lb, from_coupler: 208 in, cases: [racked]}
parts: []
"""


def build_of(text: str) -> Build:
    return read_build(text.encode(), shipped_catalogue(), "case.yaml")


def row(text: str, case: str = "") -> BalanceRow:
    return next(one for one in partscheck.balance(build_of(text)) if one.case == case)


# ---- worked by hand (own method) ---------------------------------------------------------------------


@pytest.mark.parametrize(
    ("case", "total", "axle", "tongue", "share"),
    [
        ("empty", 990, 883.33, 106.67, 0.1077),
        ("loaded", 2490, 2283.33, 206.67, 0.0830),
        ("racked", 2600, 2474.00, 126.00, 0.0485),
    ],
)
def test_three_cases_hand_worked(case: str, total: float, axle: float, tongue: float, share: float) -> None:
    found = row(S10, case)
    assert found.source == "loads"
    assert found.total.mid / LB == pytest.approx(total, abs=0.005)
    assert found.axles.mid / LB == pytest.approx(axle, abs=0.005)
    assert found.tongue.mid / LB == pytest.approx(tongue, abs=0.005)
    assert found.share.mid == pytest.approx(share, abs=0.00005)
    assert found.left.mid / LB == pytest.approx(axle / 2, abs=0.005)


def test_what_each_load_adds_or_takes_off_hand_worked() -> None:
    effects = {one.what: one.on_tongue.mid / LB for one in row(S10, "racked").loads}
    assert effects == pytest.approx({"frame": 106.67, "running gear": 0, "cargo": 100, "rack": -80.67}, abs=0.005)
    assert [one.what for one in row(S10, "racked").loads if one.behind] == ["rack"]


def test_the_axle_is_placed_with_its_running_gear_hand_worked() -> None:
    """(640 x 100 + 1500 x 112 + 110 x 208) / (0.9 x 2600 - 350) = 254 880 / 1990 in, and / 1860 at 15 %."""
    found = partscheck.axle_for_tongue_share(build_of(S10))
    assert found.places is not None
    assert found.places.lo / INCH == pytest.approx(254_880 / 1990)
    assert found.places.hi / INCH == pytest.approx(254_880 / 1860)
    assert not found.serves
    near = found.nearest("inch")
    assert near is not None
    assert near.mid / INCH == pytest.approx(129)


@pytest.mark.parametrize("place", [128.0805, 132.0, 137.032])
def test_the_balance_at_a_solved_place_is_in_range(place: float) -> None:
    moved = S10.replace("coupler_to_axle: 120 in", f"coupler_to_axle: {place} in").replace(
        "weight: 350 lb, from_coupler: 120 in", f"weight: 350 lb, from_coupler: {place} in"
    )
    rows = partscheck.balance(build_of(moved))
    assert min(one.share.lo for one in rows) >= 0.10 - 1e-9
    assert row(moved, "racked").share.hi <= 0.15 + 1e-6


def test_a_scan_of_places_finds_the_same_range() -> None:
    fixed = {"empty": [(640, 100)], "loaded": [(640, 100), (1500, 112)]}
    fixed["racked"] = [*fixed["loaded"], (110, 208)]
    good = []
    for step in range(10_000, 16_000):
        place = step / 100
        shares = {}
        for case, loads in fixed.items():
            coupler, axle = formulas.supports([*loads, (350, place)], place)
            shares[case] = coupler / (coupler + axle)
        if min(shares.values()) >= 0.10 and shares["racked"] <= 0.15:
            good.append(place)
    found = partscheck.axle_for_tongue_share(build_of(S10)).places
    assert found is not None
    assert (good[0], good[-1]) == pytest.approx((found.lo / INCH, found.hi / INCH), abs=0.01)


def test_one_load_moved_alone_hand_worked() -> None:
    """Racked, 10 %: 260 - 126 = 134 lb more on the tongue, 134 x 120 / 1500 = 10.72 in forward of 112."""
    moves = {one.load.what: one for one in partscheck.move_for_tongue_share(build_of(S10))}
    cargo = moves["cargo"].places
    assert cargo is not None
    assert cargo.hi / INCH == pytest.approx(112 - 10.72)
    assert moves["cargo"].by is not None
    assert moves["cargo"].by.hi / INCH == pytest.approx(-10.72)
    assert "running gear" not in moves
    assert moves["rack"].places is None  # without it, 'loaded' is light already
    assert moves["rack"].conflict == ("loaded",)


def test_two_cases_that_cannot_be_had_together_are_named() -> None:
    text = """
layout: {coupler_to_axle: 120 in}
load_cases: [front, back]
loads:
  - {what: frame, weight: 640 lb, from_coupler: 100 in}
  - {what: cargo ahead, weight: 1500 lb, from_coupler: 80 in, cases: [front]}
  - {what: cargo behind, weight: 1500 lb, from_coupler: 125 in, cases: [back]}
parts: []
"""
    found = partscheck.axle_for_tongue_share(build_of(text), 0.10, 0.15)
    assert found.places is None
    assert found.conflict == ("back", "front")
    assert "'back'" in found.why
    assert "'front'" in found.why


def test_a_place_that_is_not_known_is_said() -> None:
    found = partscheck.axle_for_tongue_share(build_of(S10.replace(", from_coupler: 112 in", "")))
    assert found.places is None
    assert "cargo" in found.why
    assert partscheck.axle_for_tongue_share(build_of("parts: []")).why


def test_the_axle_can_be_placed_before_it_stands_anywhere() -> None:
    text = S10.replace("layout: {coupler_to_axle: 120 in}\n", "").replace("from_coupler: 120 in, moves", "moves")
    found = partscheck.axle_for_tongue_share(build_of(text)).places
    assert found is not None
    assert found.lo / INCH == pytest.approx(254_880 / 1990)


def test_tongue_ratings_bound_the_other_cases() -> None:
    text = S10.replace("parts: []", "parts:\n  - {kind: coupler, tongue_rating: 350 lb}")
    found = partscheck.axle_for_tongue_share(build_of(text)).places
    assert found is not None
    # loaded: tongue = 2490 - 350 - (640 x 100 + 1500 x 112) / L <= 350 lb
    assert found.hi / INCH == pytest.approx(232_000 / 1790)


def test_a_share_out_of_all_bounds_is_refused() -> None:
    with pytest.raises(ValueError, match="plain number"):
        partscheck.axle_for_tongue_share(build_of(S10), 10)
    with pytest.raises(ValueError, match="more than the most"):
        partscheck.move_for_tongue_share(build_of(S10), 0.2, 0.1)


def test_declared_and_weighed_rows() -> None:
    typed = partscheck.balance(build_of("service: {gross_weight: 2600 lb, tongue_weight: 300 lb}\nparts: []\n"))
    assert [(one.source, round(one.share.mid, 4)) for one in typed] == [("declared", 0.1154)]
    weighed = partscheck.balance(
        build_of("service:\n  scale: {whole_trailer: 2600 lb ± 0 lb, axles_hitched: 2340 lb ± 0 lb}\nparts: []\n")
    )
    assert [(one.source, round(one.share.mid, 4)) for one in weighed] == [("scale", 0.1)]


def test_two_axles_say_how_they_share() -> None:
    def shared(typed: str) -> BalanceRow:
        return row(S10.replace("layout: {", f"layout: {{axles: 2{typed}, "), "racked")

    equal, stiff, unsaid = shared(", equalized: true"), shared(", equalized: false"), shared("")
    assert [one.sharing for one in (equal, stiff, unsaid)] == ["equalized", "not equalized", "not said"]
    assert equal.axle.hi / LB == pytest.approx(1237)
    assert stiff.axle.hi / LB == pytest.approx(0.6 * 2474)
    assert (unsaid.axle.lo / LB, unsaid.axle.hi / LB) == pytest.approx((1237, 0.6 * 2474))


# ---- laws ----------------------------------------------------------------------------------------------

weight = st.integers(min_value=1, max_value=2000)
place = st.integers(min_value=10, max_value=300)
loads = st.lists(st.tuples(weight, place), min_size=1, max_size=6)
span = st.integers(min_value=60, max_value=240)
gear = st.integers(min_value=0, max_value=400)


def text_of(rows: list[tuple[int, int]], distance: float, mass: int = 0, widen: int = 0) -> str:
    """Each second load only in case b; the running gear at the axle."""
    lines = [f"layout: {{coupler_to_axle: {distance} in}}", "load_cases: [a, b]", "loads:"]
    for number, (pounds, inches) in enumerate(rows):
        cases = ", cases: [b]" if number % 2 else ""
        heavy = f"{pounds} to {pounds + widen} lb" if widen else f"{pounds} lb"
        where = f"{inches} to {inches + widen / 100} in" if widen else f"{inches} in"
        lines.append(f"  - {{what: load {number}, weight: {heavy}, from_coupler: {where}{cases}}}")
    if mass:
        lines.append(f"  - {{what: gear, weight: {mass} lb, moves_with_axle: true}}")
    return "\n".join([*lines, "parts: []", ""])


@settings(max_examples=60, deadline=None)
@given(loads, span, gear)
def test_the_supports_carry_all_the_weight(rows: list[tuple[int, int]], distance: int, mass: int) -> None:
    for one in partscheck.balance(build_of(text_of(rows, distance, mass))):
        assert one.axles.mid + one.tongue.mid == pytest.approx(one.total.mid, rel=1e-9)
        assert sum(effect.on_tongue.mid for effect in one.loads) == pytest.approx(one.tongue.mid, abs=1e-6)
        assert one.share.mid == pytest.approx(one.tongue.mid / one.total.mid, abs=1e-9)
        assert one.share.width == pytest.approx(0, abs=1e-9)


@settings(max_examples=60, deadline=None)
@given(loads, span, st.integers(min_value=-9, max_value=50))
def test_moving_a_load_changes_the_tongue_by_its_lever(
    rows: list[tuple[int, int]], distance: int, move: int
) -> None:
    (pounds, inches), *rest = rows
    before = row(text_of(rows, distance), "a").tongue.mid
    after = row(text_of([(pounds, inches + move), *rest], distance), "a").tongue.mid
    assert (before - after) / LB == pytest.approx(pounds * move / distance, abs=1e-6)


@settings(max_examples=80, deadline=None)
@given(loads, span, gear, st.integers(2, 12), st.integers(0, 10))
def test_a_solved_place_is_in_range_and_just_outside_is_not(
    rows: list[tuple[int, int]], distance: int, mass: int, least: int, more: int
) -> None:
    low, high = least / 100, (least + more) / 100
    found = partscheck.axle_for_tongue_share(build_of(text_of(rows, distance, mass)), low, high)
    if found.places is None:
        assert found.why
        return

    def off(place: float) -> float:
        """How far the worst share of all cases is out of range at a place of the axle, in mm."""
        shares = [one.share for one in partscheck.balance(build_of(text_of(rows, place / INCH, mass)))]
        return max(max(low - share.lo, share.hi - high) for share in shares)

    ends = [end for end in (found.places.lo, found.places.hi) if end != INF]
    for end in ends:
        assert off(max(end, 1e-3)) <= 1e-7
    if found.places.lo > 1:
        assert off(found.places.lo * 0.999) > 0
    if found.places.hi != INF:
        assert off(found.places.hi * 1.001) > 0


@settings(max_examples=60, deadline=None)
@given(loads, span, st.integers(2, 12))
def test_a_load_moved_as_solved_is_in_range(rows: list[tuple[int, int]], distance: int, least: int) -> None:
    low, high = least / 100, (least + 10) / 100
    for number, move in enumerate(partscheck.move_for_tongue_share(build_of(text_of(rows, distance)), low, high)):
        if move.places is None or not all(-1e5 < end < 1e5 for end in (move.places.lo, move.places.hi)):
            continue
        for end in (move.places.lo, move.places.hi):
            moved = text_of(rows, distance).splitlines()
            line = next(place for place, text in enumerate(moved) if f"load {number}," in text)
            moved[line] = moved[line].replace(f"from_coupler: {rows[number][1]} in", f"from_coupler: {end:.9f} mm")
            for one in partscheck.balance(build_of("\n".join(moved) + "\n")):
                assert low - 1e-6 <= one.share.mid <= high + 1e-6


@settings(max_examples=60, deadline=None)
@given(loads, span, st.integers(1, 300), st.randoms(use_true_random=False))
def test_exact_values_inside_the_ranges_give_results_inside(
    rows: list[tuple[int, int]], distance: int, widen: int, chance: random.Random
) -> None:
    wide = {one.case: one for one in partscheck.balance(build_of(text_of(rows, distance, 120, widen)))}
    text = text_of(rows, distance, 120)
    for number, (pounds, inches) in enumerate(rows):
        heavy, where = pounds + chance.random() * widen, inches + chance.random() * widen / 100
        text = text.replace(
            f"load {number}, weight: {pounds} lb, from_coupler: {inches} in",
            f"load {number}, weight: {heavy:.6f} lb, from_coupler: {where:.6f} in",
        )
    for one in partscheck.balance(build_of(text)):
        for name in ("total", "axles", "tongue", "share", "left"):
            outer, inner = getattr(wide[one.case], name), getattr(one, name)
            assert outer.lo - 1e-4 <= inner.mid <= outer.hi + 1e-4, name


@settings(max_examples=40, deadline=None)
@given(loads, span, gear, st.integers(1, 300), st.randoms(use_true_random=False))
def test_a_place_solved_for_ranges_serves_every_value_inside_them(
    rows: list[tuple[int, int]], distance: int, mass: int, widen: int, chance: random.Random
) -> None:
    found = partscheck.axle_for_tongue_share(build_of(text_of(rows, distance, mass, widen)), 0.05)
    if found.places is None:
        return
    solved = min(max(found.places.mid if found.places.hi != INF else found.places.lo * 1.5, 1.0), 1e6)
    text = text_of(rows, solved / INCH, mass)
    for number, (pounds, inches) in enumerate(rows):
        heavy = pounds + chance.choice((0, widen))
        where = inches + chance.choice((0, widen)) / 100
        text = text.replace(
            f"load {number}, weight: {pounds} lb, from_coupler: {inches} in",
            f"load {number}, weight: {heavy} lb, from_coupler: {where} in",
        )
    assert all(one.share.lo >= 0.05 - 1e-9 for one in partscheck.balance(build_of(text)))
