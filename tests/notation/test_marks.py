"""Grades, date codes, positions, wire sizes and the unknown word."""

from __future__ import annotations

import re

import pytest

from partscheck.formulas.wiring import awg_area
from partscheck.notation.dot_week import (
    DotWeek,
    Month,
    dot_week_pattern,
    month_pattern,
    read_dot_week,
    read_month,
)
from partscheck.notation.errors import NotationError
from partscheck.notation.grade import Grade, grade_pattern, read_grade
from partscheck.notation.position import Position, position_pattern, read_position
from partscheck.notation.wire import WireGauge, read_wire_gauge, wire_gauge_pattern
from partscheck.notation.words import UNKNOWN_WORD, nearest, same_word


@pytest.mark.parametrize(
    ("text", "system", "mark"),
    [
        ("grade 5", "SAE", "5"), ("gr 8", "SAE", "8"), ("G8", "SAE", "8"), ("SAE 5", "SAE", "5"),
        ("sae grade 8", "SAE", "8"), ("8", "", "8"), ("5", "", "5"), ("2", "SAE", "2"), ("5.2", "SAE", "5.2"),
        ("8.8", "ISO", "8.8"),
        ("grade 8.8", "ISO", "8.8"), ("class 10.9", "ISO", "10.9"), ("12.9", "ISO", "12.9"),
        ("class 8", "ISO", "8"), ("10", "ISO", "10"), ("A2-70", "stainless", "A2-70"),
        ("a4-80", "stainless", "A4-80"), ("18-8", "stainless", "18-8"), ("3 lines", "SAE", "5"),
        ("6 lines", "SAE", "8"), ("six lines", "SAE", "8"), ("5 radial lines", "SAE", "7"),
        ("no marks", "", "no marks"), ("none", "", "no marks"), ("A325", "ASTM", "A325"),
    ],
)  # fmt: skip
def test_grades(text, system, mark):
    grade = read_grade(text)
    assert (grade.system, grade.mark, grade.known, grade.text) == (system, mark, True, text)
    assert re.search(grade_pattern, text)


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("8.9", "8.8"),
        ("4 lines", "3 lines (grade 5)"),
        ("grade 11", ""),
        ("strong", ""),
        ("8,8", ""),
        ("", "empty"),
    ],
)
def test_grades_refused(text, hint):
    with pytest.raises(NotationError) as caught:
        read_grade(text)
    assert hint in caught.value.hint


def test_a_bare_8_goes_by_the_thread():
    assert read_grade("8").on_thread(inch=True).system == "SAE"
    assert read_grade("8").on_thread(inch=False).system == "ISO"
    assert read_grade("8.8").on_thread(inch=True).system == "ISO"
    assert read_grade("no marks").on_thread(inch=True).system == ""


def test_grade_sameness():
    assert read_grade("grade 5").same_as(read_grade("3 lines")) is True
    assert read_grade("grade 5").same_as(read_grade("grade 8")) is False
    assert read_grade("8").same_as(read_grade("class 8")) is None
    assert read_grade("8").same_as(Grade.unknown) is None
    assert read_grade("unknown") is Grade.unknown
    assert not Grade.unknown.marked
    assert not read_grade("no marks").marked


@pytest.mark.parametrize(
    ("text", "week", "year"),
    [("3519", 35, 2019), ("0412", 4, 2012), ("5320", 53, 2020), ("DOT AB1C XY 0106", 1, 2006)],
)
def test_dot_weeks(text, week, year):
    read = read_dot_week(text)
    assert (read.week, read.year, read.text) == (week, year, text)
    assert re.search(dot_week_pattern, text)


@pytest.mark.parametrize(
    "text", ["0019", "5419", "359", "35-19", "35.19", "2019", "12345", "week 35", "", "\uff13519"]
)
def test_dot_weeks_refused(text):
    if text == "2019":  # week 20 of 2019: four digits cannot show that a year was meant
        assert read_dot_week(text).week == 20
        return
    with pytest.raises(NotationError):
        read_dot_week(text)
    assert not re.search(dot_week_pattern, text)


def test_age():
    june = read_month("2025-06")
    age = read_dot_week("3519").age(june)
    # end of August 2019 to June 2025: five years and nine to ten months
    assert 5.7 < age.lo < age.hi < 5.85
    assert not DotWeek.unknown.age(june).known
    assert not read_dot_week("3519").age(Month.unknown).known
    assert read_dot_week("3526").age(june).hi < 0


@pytest.mark.parametrize("text", ["2025-13", "2025-00", "06-2025", "2025-6", "2025", "2025-06-15", ""])
def test_months_refused(text):
    with pytest.raises(NotationError):
        read_month(text)
    assert not re.search(month_pattern, text)


def test_months():
    assert (read_month("2025-06").year, read_month("2025-06").month) == (2025, 6)
    assert re.search(month_pattern, "2025-06")


@pytest.mark.parametrize(
    ("text", "axle", "side"),
    [
        ("1L", 1, "L"),
        ("1R", 1, "R"),
        ("2l", 2, "L"),
        ("3 R", 3, "R"),
        ("spare", 0, "spare"),
        ("Spare", 0, "spare"),
    ],
)
def test_positions(text, axle, side):
    assert read_position(text) == Position(axle, side)
    assert re.search(position_pattern, text)


@pytest.mark.parametrize(
    ("text", "hint"),
    [("L1", "write 1L"), ("r 2", "write 2R"), ("0L", ""), ("10L", ""), ("left", ""), ("1", "")],
)
def test_positions_refused(text, hint):
    with pytest.raises(NotationError) as caught:
        read_position(text)
    assert hint in caught.value.hint
    assert not re.search(position_pattern, text)


def test_positions_sort_from_the_front():
    typed = [read_position(text) for text in ("spare", "2R", "1R", "2L", "1L")]
    assert [str(place) for place in sorted(typed)] == ["1L", "1R", "2L", "2R", "spare"]
    assert len({Position(1, "L"), Position(1, "L")}) == 1


@pytest.mark.parametrize(("gauge", "mils"), [(12, 80.808), (14, 64.084), (16, 50.820), (18, 40.303)])
def test_gauges_against_a_workshop_table(gauge, mils):
    """Diameters in mil as public tables print them (common practice)."""
    assert awg_area(gauge) == pytest.approx(3.14159265 / 4 * (mils * 0.0254) ** 2, rel=1e-4)


@pytest.mark.parametrize(
    ("text", "area", "system"),
    [("16 AWG", 1.3087, "inch"), ("12awg", 3.3088, "inch"), ("AWG 16", 1.3087, "inch"),
     ("2/0 AWG", 67.431, "inch"),
     ("1.5 mm\u00b2", 1.5, "metric"), ("1.5 mm2", 1.5, "metric")],
)  # fmt: skip
def test_wires(text, area, system):
    read = read_wire_gauge(text)
    assert read.area.mid == pytest.approx(area, rel=1e-4)
    assert (read.system, read.text) == (system, text)
    assert re.search(wire_gauge_pattern, text)


@pytest.mark.parametrize(
    ("text", "hint"),
    [("16", "write 16 AWG or 16 mm2"), ("16 ga", "write 16 AWG"), ("50 AWG", "4/0 to 40"),
     ("-1 mm2", "negative"),
     ("1,5 mm2", "write 1.5 mm2"), ("3 mm", "unit of length"), ("", "empty")],
)  # fmt: skip
def test_wires_refused(text, hint):
    with pytest.raises(NotationError) as caught:
        read_wire_gauge(text)
    assert hint in caught.value.hint


def test_unknown_wire():
    assert not WireGauge.unknown.known


def test_the_unknown_word_equals_no_word():
    assert UNKNOWN_WORD != "unknown"
    assert "unknown" != UNKNOWN_WORD  # noqa: SIM300  both sides matter
    assert not UNKNOWN_WORD == "conical"  # noqa: SIM201  the operator is under test
    assert UNKNOWN_WORD is UNKNOWN_WORD
    assert f"{UNKNOWN_WORD}" == "unknown"
    assert UNKNOWN_WORD not in ("conical", "unknown")
    assert same_word("conical", "conical") is True
    assert same_word("conical", "flat") is False
    assert same_word(UNKNOWN_WORD, "conical") is None


def test_nearest():
    assert nearest("conicl", ["conical", "ball", "flat"]) == "conical"
    assert nearest("Conical", ["conical"]) == "conical"
    assert nearest("zzz", ["conical"]) == ""
    assert nearest("x" * 10_000_000, ["conical"]) == ""
