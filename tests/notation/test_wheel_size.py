"""Wheel sizes and offsets."""

from __future__ import annotations

import re

import pytest

from partscheck.notation.errors import NotationError
from partscheck.notation.wheel_size import (
    WheelSize,
    offset_pattern,
    read_offset,
    read_wheel_size,
    wheel_size_pattern,
)


@pytest.mark.parametrize(
    ("text", "diameter", "width"),
    [
        ("15 x 7 in", 15, 7),
        ("7 x 15", 15, 7),
        ("15x7", 15, 7),
        ("15 \u00d7 7", 15, 7),
        ('15" x 7"', 15, 7),
        ("4.5J x 13", 13, 4.5),
        ("13 x 4.50 J", 13, 4.5),
        ("7Jx15H2", 15, 7),
        ("5JJ x 14", 14, 5),
        ("14 x 5-1/2 in", 14, 5.5),
        ("5\u00bd x 14", 14, 5.5),
        ("16.5 x 6.75", 16.5, 6.75),
        ("8 x 3.75", 8, 3.75),
    ],
)
def test_sizes(text, diameter, width):
    size = read_wheel_size(text)
    assert size.diameter.mid == pytest.approx(diameter * 25.4)
    assert size.width.mid == pytest.approx(width * 25.4)
    assert size.text == text
    assert re.search(wheel_size_pattern, text)


def test_millimetres_when_it_says_so():
    assert read_wheel_size("381 x 178 mm").diameter.mid == 381


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("15 x 7,5", "write 15 x 7.5"),
        ("15 x 700", "diameter of 700 in"),
        ("381 x 178", "diameter of 381 in"),
        ("15 x 0.5", "width of 0.5 in"),
        ("15 in x 178 mm", "one unit"),
        ("15 x 1/0", "over zero"),
        ("15", ""),
        ("big", ""),
        ("", "empty"),
    ],
)
def test_refused(text, hint):
    with pytest.raises(NotationError) as caught:
        read_wheel_size(text)
    assert hint in caught.value.hint


@pytest.mark.parametrize(
    ("text", "value", "system"),
    [
        ("ET 30", 30, "metric"),
        ("ET30", 30, "metric"),
        ("et -12", -12, "metric"),
        ("ET+35.5", 35.5, "metric"),
        ("ET 30 mm", 30, "metric"),
        ("+30 mm", 30, "metric"),
        ("-1/2 in", -12.7, "inch"),
        ("0", 0, ""),
        ("30 mm \u00b1 1 mm", 30, "metric"),
    ],
)
def test_offsets(text, value, system):
    offset = read_offset(text)
    assert offset.mid == pytest.approx(value)
    assert (offset.unit, offset.system) == ("mm", system)
    assert re.search(offset_pattern, text)


@pytest.mark.parametrize(
    ("text", "hint"),
    [("30", "write ET 30 or 30 mm"), ("-12", "write ET -12 or -12 mm"),
     ("ET 30,5", "write ET 30.5"), ("ET 9999", "large"), ("ET", "")],
)
def test_offsets_refused(text, hint):
    with pytest.raises(NotationError) as caught:
        read_offset(text)
    assert hint in caught.value.hint


def test_unknown():
    assert not WheelSize.unknown.known
    assert not WheelSize.unknown.width.known
