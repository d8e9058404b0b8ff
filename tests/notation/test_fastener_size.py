"""Bolt sizes: where the pitch ends and the length begins."""

from __future__ import annotations

import re

import pytest

from partscheck.notation.errors import NotationError
from partscheck.notation.fastener_size import FastenerSize, fastener_size_pattern, read_fastener_size


@pytest.mark.parametrize(
    ("text", "callout", "length"),
    [
        ("1/2-13 x 2-1/2 in", "1/2-13 UNC", 63.5),
        ('1/2-13 x 2-1/2"', "1/2-13 UNC", 63.5),
        ("1/2-13x2.5in", "1/2-13 UNC", 63.5),
        ("1/2-20 UNF-2A x 1 in", "1/2-20 UNF", 25.4),
        ("1/2-13 x 60 mm", "1/2-13 UNC", 60),
        ("1-1/4-7 x 4 in", "1-1/4-7 UNC", 101.6),
        ("#10-24 x 3/4 in", "#10-24 UNC", 19.05),
        ("M12x1.75 x 60 mm", "M12x1.75", 60),
        ("M12 x 60", "M12x1.75", 60),
        ("M12x60", "M12x1.75", 60),
        ("M12 \u00d7 60", "M12x1.75", 60),
        ("M12 x 7", "M12x1.75", 7),
        ("M12 x 6 mm", "M12x1.75", 6),
        ("M12 x 1.5 x 40", "M12x1.5", 40),
        ("M8 x 1.25 x 6", "M8x1.25", 6),
        ("M12-1.75 x 60", "M12x1.75", 60),
        ("M12 x 2-1/2 in", "M12x1.75", 63.5),
    ],
)
def test_sizes(tables, text, callout, length):
    size = read_fastener_size(text, tables)
    assert size.thread.callout == callout
    assert size.length.mid == pytest.approx(length)
    assert size.text == text
    assert re.search(fastener_size_pattern, text)


def test_a_length_may_have_a_tolerance(tables):
    size = read_fastener_size("M12 x 60 mm \u00b1 0.5 mm", tables)
    assert (size.length.lo, size.length.hi) == (59.5, 60.5)
    assert re.search(fastener_size_pattern, size.text)


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("M12 x 1.5", "the length is missing"),
        ("M12x6.99", "the length is missing"),
        ("1/2-13", "the length is missing"),
        ("1/2-13 x 2-1/2", "write 2-1/2 in or 2-1/2 mm"),
        ("1/2 x 2-1/2 in", "write 1/2-13 (UNC) or 1/2-20 (UNF)"),
        ("M12 x 60,5", "write M12 x 60.5"),
        ("M12 x 0 mm", "more than nothing"),
        ("M12 x -60 mm", "negative"),
        ("M12x60 10.9", ""),
        ("M12 x 1.5 x 40 x 2", ""),
        ("bolt", ""),
        ("", "empty"),
    ],
)
def test_refused(tables, text, hint):
    with pytest.raises(NotationError) as caught:
        read_fastener_size(text, tables)
    assert hint in caught.value.hint
    assert "bolt size" in caught.value.expected


def test_unknown():
    assert not FastenerSize.unknown.known
    assert not FastenerSize.unknown.thread.known
    assert not FastenerSize.unknown.length.known
