"""Lengths of bolts against printed examples and tables."""

from __future__ import annotations

import pytest

from partscheck.formulas import grip

INCH = 25.4


def test_shigley_length_for_a_five_eighths_bolt() -> None:
    # Shigley 9e Ex 8-4 (secondary copy read): grip 1.50, nut 35/64, two threads of 5/8-11 = 2/11 in
    # -> 2.229 in; next stock length 2 1/4 (Table A-17, partly read).
    needed = grip.length_needed(1.50 * INCH, 35 / 64 * INCH, INCH / 11) / INCH
    assert needed == pytest.approx(2.229, abs=0.001)
    stock = [1.5, 1.75, 2.0, 2.25, 2.5, 2.75, 3.0]
    assert grip.next_stock_length(needed, stock) == 2.25
    assert grip.next_stock_length(2.25, stock) == 2.25
    assert grip.next_stock_length(3.01, stock) is None


def test_half_inch_bolt_of_a_course_solution() -> None:
    # A course's worked solution (common practice, no source): grip 1.125, 1/2-13, nut 7/16 -> 1.5625 in to
    # the nut's face, 1.75 chosen, 2.44 threads showing; thread length 1.25 in.
    flush = grip.length_needed(1.125, 7 / 16, 1 / 13, threads_past=0)
    assert flush == pytest.approx(1.5625)
    assert grip.protrusion(1.75, 1.125, 7 / 16) * 13 == pytest.approx(2.44, abs=0.005)
    assert grip.thread_length_inch(0.5 * INCH, 1.75 * INCH) / INCH == pytest.approx(1.25)


def test_length_needed_leaves_the_threads_it_asks_for() -> None:
    # AC 43.13-1B par. 7-37 (secondary copy read) asks for at least one thread past the nut.
    for threads_past in (1, 2, 3):
        length = grip.length_needed(38.1, 13.9, INCH / 11, threads_past, washers=5)
        assert grip.protrusion(length, 38.1, 13.9, washers=5) == pytest.approx(threads_past * INCH / 11)


def test_grip_of_a_printed_shank() -> None:
    # Public example (common practice): shank 1 3/16 in with 5/8 in of thread -> grip 9/16 in.
    length = grip.unthreaded_length(1.1875, 0.625, 1 / 20)
    assert length == 0.5625


# ASME B18.2.1, hex bolts, LT for lengths up to 6 in, as printed on a public page (secondary copy read).
@pytest.mark.parametrize(
    ("diameter", "printed"),
    [
        (1 / 4, 0.75),
        (5 / 16, 0.875),
        (3 / 8, 1.0),
        (7 / 16, 1.125),
        (1 / 2, 1.25),
        (5 / 8, 1.5),
        (3 / 4, 1.75),
        (7 / 8, 2.0),
        (1, 2.25),
    ],
)
def test_thread_lengths_of_asme_b18_2_1(diameter: float, printed: float) -> None:
    assert grip.thread_length_inch(diameter * INCH, 3 * INCH) / INCH == pytest.approx(printed)
    # Clause 4.7 (2010): "up to and including 6 in", then a quarter of an inch more.
    assert grip.thread_length_inch(diameter * INCH, 6 * INCH) / INCH == pytest.approx(printed)
    assert grip.thread_length_inch(diameter * INCH, 6.01 * INCH) / INCH == pytest.approx(printed + 0.25)


# AS 1110.1 (identical with ISO 4014), row b for lengths to 125, to 200 and over (secondary copy read);
# M12: a second public table of the same row.
@pytest.mark.parametrize(
    ("size", "printed"), [(6, (18, 24, 37)), (8, (22, 28, 41)), (10, (26, 32, 45)), (12, (30, 36, 49))]
)
def test_thread_lengths_of_iso_4014(size: int, printed: tuple[int, int, int]) -> None:
    at = [grip.thread_length_iso(size, length) for length in (125, 200, 200.1)]
    assert tuple(at) == printed
    assert grip.thread_length_iso(size, 125.1) == printed[1]


def test_body_is_the_unthreaded_length_less_five_coarse_pitches() -> None:
    # ASME B18.2.1 (2010) clause 4.7 (secondary copy read): LG = L - LT, LB = LG - Y, Y = five UNC pitches,
    # worked here for 1/2-13 x 3: LG 1.75, LB 1.75 - 5/13 = 1.37 (rounded to two decimals as it asks).
    thread = grip.thread_length_inch(0.5 * INCH, 3 * INCH)
    assert grip.unthreaded_length(3 * INCH, thread, INCH / 13) / INCH == pytest.approx(1.75)
    assert round(grip.body_length(3 * INCH, thread, INCH / 13) / INCH, 2) == 1.37
