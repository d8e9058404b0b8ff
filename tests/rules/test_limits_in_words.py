"""Limits to keep to print on their safe side, in both unit systems."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from partscheck.notation.interval import Interval
from partscheck.rules.message import Least, Most, spell

LB = 4.4482216152605  # N
KG = 9.80665  # N


def test_a_greatest_value_is_rounded_down_and_a_least_one_up() -> None:
    limit = Interval.exact(2 * 1598 / 1.10 * LB, "N")  # 2905.45 lb, 1317.89 kg
    assert spell(Most(limit), "inch") == "2905 lb (1317 kg)"
    assert spell(Least(limit), "metric") == "1318 kg (2906 lb)"


def test_a_whole_value_stays() -> None:
    assert spell(Most(Interval.exact(2200 * LB, "N")), "inch").startswith("2200 lb")
    assert spell(Least(Interval.exact(2200 * LB, "N")), "inch").startswith("2200 lb")


def test_an_interval_prints_its_safe_end() -> None:
    assert spell(Most(Interval(2000.6 * LB, 2100 * LB, "N")), "inch").startswith("2000 lb")
    assert spell(Least(Interval(2000 * LB, 2100.2 * LB, "N")), "inch").startswith("2101 lb")


@given(st.floats(1, 20_000))
def test_keeping_to_the_print_keeps_to_the_limit(newtons: float) -> None:
    limit = Interval.exact(newtons, "N")
    most = spell(Most(limit), "inch").replace("(", "").replace(")", "").split()
    least = spell(Least(limit), "inch").replace("(", "").replace(")", "").split()
    for words, sign in ((most, 1), (least, -1)):
        pounds, kilograms = float(words[0]), float(words[2])
        assert sign * (newtons - pounds * LB) >= -1e-6
        assert sign * (newtons - kilograms * KG) >= -1e-6
        assert abs(newtons - pounds * LB) < LB + 1e-6
        assert abs(newtons - kilograms * KG) < KG + 1e-6


def test_an_unbounded_limit_is_no_crash() -> None:
    assert spell(Most(Interval.unknown("N")), "inch") == "unknown"
    assert spell(Least(Interval(100 * LB, float("inf"), "N")), "inch") == "at least 100 lb (45 kg)"
