"""The load path: order, limits, and laws that hold for any weights."""

from __future__ import annotations

import pytest
from case_files import shipped_catalogue
from hypothesis import given, settings
from hypothesis import strategies as st

from partscheck.build.reader import read_build
from partscheck.engine import Result, check_build
from partscheck.notation.interval import INF
from partscheck.uses.load_path import LoadPathRow, load_path, supported_gross

LB = 4.4482216152605  # N

PARTS = """
parts:
  - {kind: axle, rating: 3500 lb}
  - {kind: hub, rating: 1750 lb, per: each}
  - {id: plate, kind: adapter, rating: 1800 lb, thickness: 1.5 in}
  - {kind: wheel, size: 15 x 6 in, offset: 10 mm, rating: 1870 lb}
  - {kind: tire, size: P205/75R15, max_load: 1598 lb}
"""


def paths(text: str) -> list[LoadPathRow]:
    build = read_build(text.encode(), shipped_catalogue(), "case.yaml")
    result: Result = check_build(build, [])
    return load_path(result)


def weighed(gross: float, tongue: float) -> str:
    return f"service: {{gross_weight: {gross:.9f} lb, tongue_weight: {tongue:.9f} lb}}\n{PARTS}"


def test_smallest_margin_comes_first_and_limits_the_trailer() -> None:
    rows = paths(weighed(2600, 300))
    assert [row.role for row in rows] == ["tire", "hub", "adapter", "wheel", "axle"]
    tire = rows[0]
    assert tire.rating.mid / LB == pytest.approx(1598 / 1.10)
    assert tire.share.mid / LB == pytest.approx(1150)
    limit, part = supported_gross(rows)
    assert part is tire.part
    assert limit is not None
    assert limit.mid / LB == pytest.approx(2 * 1598 / 1.10 * 2600 / 2300)


def test_a_row_names_all_its_places() -> None:
    assert {row.at for row in paths(weighed(2600, 300))} == {("1L", "1R")}


def test_unknown_ratings_come_last_and_limit_nothing() -> None:
    rows = paths(weighed(2600, 300).replace(", rating: 1800 lb", ""))
    assert rows[-1].role == "adapter"
    assert not rows[-1].known
    assert rows[-1].limits_gross_weight_to is None
    assert (rows[-1].margin.lo, rows[-1].margin.hi) == (-INF, INF)


def test_a_cart_without_weights_still_knows_what_it_supports_at_least() -> None:
    limit, part = supported_gross(paths(PARTS))
    assert part.kind == "tire"
    assert limit is not None
    assert limit.lo / LB == pytest.approx(2 * 1598 / 1.10)  # all of the weight on the wheels
    assert limit.hi / LB == pytest.approx(2 * 1598 / 1.10 / 0.7)  # the greatest tongue share on the ball


def test_a_cart_without_weights_and_ratings_has_no_load_path() -> None:
    assert paths("parts:\n  - {kind: hub, bolt_circle: 5 x 4.5 in}\n") == []
    assert supported_gross([]) == (None, None)


def test_the_heavier_side_has_a_row_of_its_own() -> None:
    rows = paths("""
layout: {coupler_to_axle: 120 in, hub_face_distance: 70 in}
loads:
  - {what: cargo, weight: 2700 lb, from_coupler: 120 in, from_centre: 3 in}
parts:
  - {kind: wheel, size: 15 x 7 in, offset: 0 mm, rating: 1500 lb}
""")
    assert [row.at for row in rows] == [("1R",), ("1L",)]
    assert rows[0].margin.mid / LB == pytest.approx(1500 - 1465.714, abs=0.001)


def test_two_axles_alike_are_one_row() -> None:
    rows = paths("""
service: {gross_weight: 5000 lb, tongue_weight: 500 lb}
layout: {axles: 2, equalized: true}
parts:
  - {kind: axle, rating: 2500 lb}
  - {kind: wheel, rating: 1200 lb}
""")
    assert [(row.role, row.at) for row in rows] == [
        ("wheel", ("1L", "1R", "2L", "2R")), ("axle", ("1L", "1R", "2L", "2R")),
    ]  # fmt: skip


GROSS = st.floats(500, 6000).map(lambda value: round(value, 2))
SHARE = st.integers(0, 250).map(lambda thousandths: thousandths / 1000)
FACTOR = st.floats(0.25, 4)


@settings(max_examples=25, deadline=None)
@given(GROSS, SHARE, FACTOR)
def test_all_weight_times_a_factor_is_every_share_times_it(gross: float, share: float, factor: float) -> None:
    small = {row.role: row for row in paths(weighed(gross, gross * share))}
    large = {row.role: row for row in paths(weighed(gross * factor, gross * factor * share))}
    for role, row in small.items():
        assert large[role].share.mid == pytest.approx(row.share.mid * factor, rel=1e-9)
        before, after = row.limits_gross_weight_to, large[role].limits_gross_weight_to
        assert before is not None
        assert after is not None
        assert after.mid == pytest.approx(before.mid, rel=1e-9)


@settings(max_examples=25, deadline=None)
@given(GROSS, SHARE)
def test_at_its_limit_a_part_has_no_margin_left(gross: float, share: float) -> None:
    for row in paths(weighed(gross, gross * share)):
        assert row.limits_gross_weight_to is not None
        limit = row.limits_gross_weight_to.mid / LB
        again = {one.role: one for one in paths(weighed(limit, limit * share))}
        assert again[row.role].margin.mid == pytest.approx(0, abs=1e-6 * row.rating.mid)


@settings(max_examples=25, deadline=None)
@given(GROSS, SHARE)
def test_the_set_as_a_whole_supports_what_its_weakest_part_does(gross: float, share: float) -> None:
    rows = paths(weighed(gross, gross * share))
    limit, part = supported_gross(rows)
    assert limit is not None
    at_limit = paths(weighed(limit.lo / LB, limit.lo / LB * share))
    assert min(row.margin.lo / row.rating.lo for row in at_limit) == pytest.approx(0, abs=1e-9)
    assert next(row for row in at_limit if row.part.id == part.id).margin.lo == pytest.approx(0, abs=1e-4)


def test_an_unknown_tongue_gives_the_safe_end_first() -> None:
    rows = paths(f"service: {{gross_weight: 2600 lb}}\n{PARTS}")
    tire = rows[0]
    assert tire.margin.lo / LB == pytest.approx(1598 / 1.10 - 1300)
    assert tire.limits_gross_weight_to is not None
    assert tire.limits_gross_weight_to.lo / LB == pytest.approx(2 * 1598 / 1.10)
