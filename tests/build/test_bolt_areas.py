"""Areas of threads from the tables and the formulas, against printed tables and an independent library."""

from __future__ import annotations

import math

import pytest
from case_files import shipped_catalogue

from partscheck.build.bolt_areas import (
    bolt_strip_area,
    hole_strip_area,
    next_sizes,
    root_area,
    shank_area,
    stress_area,
)
from partscheck.notation.thread import Thread, read_thread

IN2 = 25.4**2
TABLES = shipped_catalogue()


def thread(text: str) -> Thread:
    return read_thread(text, TABLES)


# Shigley 9e Table 8-2 (secondary copy read): stress and root area, in2.
@pytest.mark.parametrize(
    ("callout", "stress", "root"),
    [
        ("5/16-18", 0.0524, 0.0454),
        ("1/2-13", 0.1419, 0.1257),
        ("1/2-20", 0.1599, 0.1486),
        ("3/4-10", 0.334, 0.302),
    ],
)
def test_inch_areas_are_the_printed_ones(callout: str, stress: float, root: float) -> None:
    assert stress_area(TABLES, thread(callout)).lo / IN2 == pytest.approx(stress, abs=1e-9)
    assert root_area(TABLES, thread(callout)).lo / IN2 == pytest.approx(root, abs=1e-9)


def test_metric_stress_area_is_the_one_of_iso_898_1() -> None:
    assert stress_area(TABLES, thread("M12")).lo == pytest.approx(84.3)


def test_a_thread_of_no_table_goes_by_the_formula() -> None:
    odd = thread("1/2-16")
    by_hand = math.pi / 4 * (0.5 - 0.97428 / 16) ** 2
    assert stress_area(TABLES, odd).lo / IN2 == pytest.approx(by_hand, rel=1e-4)
    assert root_area(TABLES, odd).lo < stress_area(TABLES, odd).lo < shank_area(odd).lo


@pytest.mark.parametrize("callout", ["1/4-20", "1/4-28", "1/2-13", "1/2-20", "3/4-10", "3/4-16"])
def test_strip_areas_against_screw_thread_lib(callout: str) -> None:
    library = pytest.importorskip("screw_thread_lib.threads", reason="screw_thread_lib is not installed")
    ours = thread(callout)
    other = library.Assembly.from_ASME_B11_UN_2A2B(callout, UTSs=120, UTSn=58)
    assert hole_strip_area(TABLES, ours).lo / 25.4 == pytest.approx(other.ASn_min_FEDSTD_2a(), rel=1e-4)
    assert bolt_strip_area(TABLES, ours).lo / 25.4 == pytest.approx(other.ASs_min_FEDSTD_4a(), rel=1e-4)


def test_the_next_sizes_stay_in_the_series() -> None:
    assert [one.callout for one in next_sizes(TABLES, thread("5/16-18"))][:3] == [
        "3/8-16 UNC", "7/16-14 UNC", "1/2-13 UNC",
    ]  # fmt: skip
    assert next_sizes(TABLES, thread("M12"))[0].callout == "M14x2"


def test_an_unknown_thread_has_any_area() -> None:
    assert not stress_area(TABLES, Thread.unknown).known
    assert not hole_strip_area(TABLES, Thread.unknown).known
