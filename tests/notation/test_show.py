"""Values in words: digits for the bench, both systems, and never a rounding across a limit."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from partscheck.notation.interval import INF, Interval
from partscheck.notation.measure import read_quantity, show, show_both, show_pair
from partscheck.notation.show import show_limit


@pytest.mark.parametrize(
    ("value", "unit", "metric", "inch"),
    [
        (38.1, "mm", "38.1 mm", "1.50 in"),
        (38.0, "mm", "38 mm", "1.50 in"),
        (127.0, "mm", "127 mm", "5.00 in"),
        (37.98, "mm", "38.0 mm", "1.50 in"),
        (0.794, "mm", "0.79 mm", "0.031 in"),
        (0.5, "mm", "0.5 mm", "0.020 in"),
        (-5.556, "mm", "-5.6 mm", "-0.22 in"),
        (0.0, "mm", "0 mm", "0 in"),
        (-0.0, "mm", "0 mm", "0 in"),
        (9786.09, "N", "998 kg", "2200 lb"),
        (20.0, "N", "2.0 kg", "4.5 lb"),
        (6.35, "kg", "6.3 kg", "14 lb"),
        (551.58, "kPa", "552 kPa", "80 psi"),
        (122.02, "N m", "122 N m", "90 ft-lb"),
        (104.607, "km/h", "105 km/h", "65 mph"),
        (60.0, "deg", "60 deg", "60 deg"),
        (10.86, "V", "10.86 V", "10.86 V"),
        (1.5, "mm2", "1.5 mm2", "0.0023 in2"),
        (100.0, "degC", "100 degC", "212 degF"),
        (0.0483, "", "0.048", "0.048"),
        (1.2, "", "1.2", "1.2"),
    ],
)
def test_single_values(value, unit, metric, inch):
    exact = Interval.exact(value, unit)
    assert (show(exact, "metric"), show(exact, "inch")) == (metric, inch)


def test_ranges_and_half_known_values():
    assert show(Interval(43.656, 45.244, "mm"), "metric") == "43.7 to 45.2 mm"
    assert show(Interval(43.656, 45.244, "mm"), "inch") == "1.72 to 1.78 in"
    assert show(Interval(3.0, INF, "mm"), "metric") == "at least 3 mm"
    assert show(Interval(-INF, 3.0, "mm"), "metric") == "at most 3 mm"
    assert show(Interval.unknown("mm"), "metric") == "unknown"
    assert show(Interval(-INF, INF, "mm"), "metric") == "unknown"


def test_a_narrow_range_shows_its_width():
    assert show(Interval(34.98, 34.99, "mm"), "metric") == "34.98 to 34.99 mm"


def test_nothing_rounds_onto_zero():
    assert show(Interval.exact(-0.004, "mm"), "metric") == "-0.004 mm"
    assert show(Interval.exact(2.0, "N"), "metric") == "0.2 kg"
    assert show(Interval.exact(0.2, "N"), "metric") == "0.02 kg"


def test_both_systems():
    assert show_both(Interval.exact(38.1, "mm"), "metric") == "38.1 mm (1.50 in)"
    assert show_both(Interval.exact(38.1, "mm"), "inch") == "1.50 in (38.1 mm)"
    assert show_both(Interval(3.0, INF, "mm"), "metric") == "at least 3 mm (0.12 in)"
    assert show_both(Interval.unknown("mm"), "metric") == "unknown"
    assert show_both(Interval.exact(60.0, "deg"), "inch") == "60 deg"


@pytest.mark.parametrize(
    ("text", "dimension", "shown"),
    [
        ("1-1/2 in", "length", "1-1/2 in (38.1 mm)"),
        ("38 mm", "length", "38 mm (1.50 in)"),
        ("1.75 in \u00b1 1/32 in", "length", "1.75 in \u00b1 1/32 in (43.7 to 45.2 mm)"),
        ("2200 lb", "load", "2200 lb (998 kg)"),
        ("9.8 kN", "load", "9.8 kN (2203 lb)"),
        ("60\u00b0", "angle", "60\u00b0"),
        ("0", "length", "0"),
        ("4 %", "ratio", "4 %"),
    ],
)
def test_the_users_own_spelling_stands_first(text, dimension, shown):
    for leading in ("inch", "metric"):
        assert show_both(read_quantity(text, dimension), leading) == shown


def test_pairs_are_told_apart():
    # 2905.45 lb against 2905 and 2906 lb: the limits of two tires of 1598 lb, divided by 1.10
    allowed = read_quantity("2905.4545 lb", "load")
    limit = Interval(allowed.lo, allowed.hi, "N")
    have = Interval.exact(read_quantity("2905 lb", "load").lo, "N")
    assert show_pair(have, limit, "inch") == ("2905 lb (1317.7 kg)", "2905.5 lb (1317.9 kg)")
    assert show_pair(have, have, "inch") == ("2905 lb (1318 kg)", "2905 lb (1318 kg)")


@given(st.floats(0.01, 1000), st.floats(0.0021, 2))
def test_pairs_never_print_alike(value, apart):
    have, need = Interval.exact(value, "mm"), Interval.exact(value + apart, "mm")
    for leading in ("metric", "inch"):
        one, other = show_pair(have, need, leading)
        assert one.split(" (")[0] != other.split(" (")[0]
        assert one.split(" (")[1] != other.split(" (")[1]


@given(st.floats(0.01, 3000), st.booleans())
def test_a_reading_that_keeps_to_a_printed_limit_keeps_to_the_limit(value: float, up: bool) -> None:
    inch, metric = show_limit(Interval.exact(value, "mm"), "inch", up).rstrip(")").split(" (")
    for text in (inch, metric):
        number, unit = text.split()
        printed = float(number) * (25.4 if unit == "in" else 1.0)
        assert (printed >= value - 1e-6) if up else (printed <= value + 1e-6)
        assert abs(printed - value) <= (0.26 if unit == "in" else 1.0)


def test_a_limit_on_a_step_stays() -> None:
    assert show_limit(Interval.exact(44.45, "mm"), "inch", False) == "1.75 in (44.4 mm)"
    assert show_limit(Interval.exact(38.1, "mm"), "inch", True) == "1.50 in (38.1 mm)"
