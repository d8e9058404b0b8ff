"""Thread callouts, their series, and the threads that are mistaken for one another."""

from __future__ import annotations

import re

import pytest

from partscheck.notation.errors import NotationError
from partscheck.notation.thread import Thread, near_miss, read_thread, thread_pattern

IN = 25.4

GOOD = [
    # text, diameter mm, pitch mm, series, class, left-hand
    ("1/2-13", 12.7, IN / 13, "UNC", "", False),
    ("1/2-20 UNF", 12.7, IN / 20, "UNF", "", False),
    ("1/2-20UNF-2A", 12.7, IN / 20, "UNF", "2A", False),
    ("1/2-13 NC", 12.7, IN / 13, "UNC", "", False),
    ("1/2-13 UN", 12.7, IN / 13, "UNC", "", False),
    ("1-14 UNS", IN, IN / 14, "UNS", "", False),
    ("1-14", IN, IN / 14, "UNS", "", False),
    ("1-12", IN, IN / 12, "UNF", "", False),
    ("1-8", IN, IN / 8, "UNC", "", False),
    ("1/2-28 UNEF", 12.7, IN / 28, "UNEF", "", False),
    ("1-1/4-7", 31.75, IN / 7, "UNC", "", False),
    ("1 1/4-7", 31.75, IN / 7, "UNC", "", False),
    (".500-13", 12.7, IN / 13, "UNC", "", False),
    ("\u00bd-13", 12.7, IN / 13, "UNC", "", False),
    ('1/2"-13', 12.7, IN / 13, "UNC", "", False),
    ("1/2 x 20", 12.7, IN / 20, "UNF", "", False),
    ("1/2 - 20 2B LH", 12.7, IN / 20, "UNF", "2B", True),
    ("9/16-18 left hand", 14.2875, IN / 18, "UNF", "", True),
    ("#10-24", 4.826, IN / 24, "UNC", "", False),
    ("10-24", 4.826, IN / 24, "UNC", "", False),
    ("No. 10-32", 4.826, IN / 32, "UNF", "", False),
    ("7/8-14", 22.225, IN / 14, "", "", False),  # not in these tables: nothing is claimed
    ("M12x1.75", 12, 1.75, "M", "", False),
    ("M12 x 1.5", 12, 1.5, "M", "", False),
    ("m12X1.25", 12, 1.25, "M", "", False),
    ("M12\u00d71.5", 12, 1.5, "M", "", False),
    ("M12", 12, 1.75, "M", "", False),
    ("M8", 8, 1.25, "M", "", False),
    ("M12-1.75", 12, 1.75, "M", "", False),
    ("M12x1.75-6g", 12, 1.75, "M", "6g", False),
    ("M12 6H", 12, 1.75, "M", "6H", False),
    ("M12x1.5 4g6g LH", 12, 1.5, "M", "4g6g", True),
    ("M10 x 1.25 mm", 10, 1.25, "M", "", False),
]


@pytest.mark.parametrize(("text", "diameter", "pitch", "series", "fit", "left"), GOOD)
def test_callouts(tables, text, diameter, pitch, series, fit, left):
    thread = read_thread(text, tables)
    assert thread.diameter.mid == pytest.approx(diameter)
    assert thread.pitch.mid == pytest.approx(pitch)
    assert (thread.series, thread.fit, thread.left_hand) == (series, fit, left)
    assert thread.inch == (series != "M")
    assert thread.known
    assert thread.text == text
    assert re.search(thread_pattern, text)


@pytest.mark.parametrize("row", [row for row in GOOD if row[3] not in ("", "UNEF")], ids=lambda row: row[0])
def test_the_callout_reads_back(tables, row):
    thread = read_thread(row[0], tables)
    assert read_thread(thread.callout, tables).same_as(thread) is True


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("1/2-13 UNF", "1/2-13 is UNC; UNF is 1/2-20"),
        ("1-14 UNF", "1-14 is UNS; UNF is 1-12"),
        ("1/2-20 UNS", "1/2-20 is UNF"),
        ("1/2", "write 1/2-13 (UNC) or 1/2-20 (UNF)"),
        ("12x1.5", "write M12x1.5"),
        ("M12x1,75", "write M12x1.75"),
        ("M11", "with its pitch"),
        ("M12x60", "does not go with M12"),
        ("M12x0", "does not go with M12"),
        ("1/2-1", "do not go with 1/2"),
        ("1/0-13", "over zero"),
        ("#40-20", "screw numbers"),
        ("12.7", ""),
        ("half inch", ""),
        ("", "empty"),
        ("1/2-20" * 100, "longer than"),
    ],
)
def test_refused(tables, text, hint):
    with pytest.raises(NotationError) as caught:
        read_thread(text, tables)
    assert hint in caught.value.hint


@pytest.mark.parametrize("text", ["M12x1,75", "half inch", "1/2", "", "-19.5"])
def test_the_pattern_refuses(text):
    assert not re.search(thread_pattern, text)


def test_sameness_is_three_valued(tables):
    half = read_thread("1/2-13", tables)
    assert half.same_as(read_thread(".5-13 UNC-2A", tables)) is True
    assert half.same_as(read_thread("1/2-20", tables)) is False
    assert half.same_as(read_thread("1/2-13 LH", tables)) is False
    assert half.same_as(Thread.unknown) is None
    assert Thread.unknown.same_as(Thread.unknown) is None
    assert not Thread.unknown.diameter.known


@pytest.mark.parametrize(
    ("first", "second", "says"),
    [
        ("1/2-20", "M12x1.25", "diameters differ by 0.70 mm"),
        ("1/2-20", "M12x1.5", "diameters differ by 0.70 mm"),
        ("M12x1.5", "M12x1.75", "1.50 and 1.75 mm"),
        ("M12x1.5", "M12x1.25", "1.50 and 1.25 mm"),
        ("M14x1.5", "9/16-18", "diameters differ by 0.29 mm"),
        ("1/2-13", "1/2-20", "13 and 20 threads per inch"),
        ("1-14 UNS", "1-12 UNF", "14 and 12 threads per inch"),
        ("1/2-13", "1/2-13 LH", "left-hand"),
    ],
)
def test_near_misses(tables, first, second, says):
    one, other = read_thread(first, tables), read_thread(second, tables)
    assert says in near_miss(one, other)
    assert near_miss(other, one)


@pytest.mark.parametrize(
    ("first", "second"), [("1/2-13", "1/2-13 2A"), ("M12", "M14"), ("1/4-20", "1/2-13"), ("M12", "M8")]
)
def test_no_near_miss(tables, first, second):
    assert near_miss(read_thread(first, tables), read_thread(second, tables)) == ""


def test_unknown_is_no_near_miss(tables):
    assert near_miss(Thread.unknown, read_thread("M12", tables)) == ""


@pytest.mark.parametrize(
    ("text", "inches", "per_inch"),
    [
        ("1/4-20", 0.25, 20),
        ("1/4-28", 0.25, 28),
        ("1/2-13", 0.5, 13),
        ("1/2-20", 0.5, 20),
        ("3/4-16", 0.75, 16),
    ],
)
def test_against_screw_thread_lib(tables, text, inches, per_inch):
    """Size and pitch against the rows of ASME B1.1-2019 in screw_thread_lib, where it has them."""
    pytest.importorskip("screw_thread_lib")
    from screw_thread_lib import Assembly

    other = Assembly.from_ASME_B11_UN_2A2B(text, UTSs=120, UTSn=58)
    thread = read_thread(text, tables)
    assert thread.diameter.mid / IN == pytest.approx(inches) == pytest.approx(other.dbsc)
    assert thread.threads_per_inch == pytest.approx(per_inch) == pytest.approx(other.n)
