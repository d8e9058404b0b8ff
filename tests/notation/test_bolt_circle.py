"""Bolt circles and measured chords."""

from __future__ import annotations

import re

import pytest

from partscheck.notation.bolt_circle import BoltCircle, bolt_circle_pattern, read_bolt_circle
from partscheck.notation.errors import NotationError

GOOD = [
    ("5 x 4.5 in", 5, 114.3, "inch"),
    ("5x4.5in", 5, 114.3, "inch"),
    ("5 x 4-1/2 in", 5, 114.3, "inch"),
    ('6 x 5.5"', 6, 139.7, "inch"),
    ("5x114.3 mm", 5, 114.3, "metric"),
    ("5X114.3mm", 5, 114.3, "metric"),
    ("4 x 100 mm", 4, 100, "metric"),
    ("4 \u00d7 100 mm", 4, 100, "metric"),
    ("5 on 4.5 in", 5, 114.3, "inch"),
    ("5 lug on 4.75 in", 5, 120.65, "inch"),
    ("8 x 6.5 in", 8, 165.1, "inch"),
]


@pytest.mark.parametrize(("text", "count", "diameter", "system"), GOOD)
def test_circles(text, count, diameter, system):
    circle = read_bolt_circle(text)
    assert (circle.count, circle.system, circle.from_chord) == (count, system, False)
    assert circle.diameter.mid == pytest.approx(diameter, abs=1e-9)
    assert circle.diameter.is_exact
    assert circle.text == text
    assert re.search(bolt_circle_pattern, text)


def test_a_tolerance_makes_an_interval():
    circle = read_bolt_circle("5 x 114.3 mm \u00b1 0.2 mm")
    assert (circle.diameter.lo, circle.diameter.hi) == (pytest.approx(114.1), pytest.approx(114.5))
    assert re.search(bolt_circle_pattern, circle.text)


# Adjacent chords in inches, n x D: derived, exact by geometry; the factors .7071 .5878 .5 .3827 stand in
# workshop tables (common practice).
CHORDS = [
    (4, 4.0, 2.8284), (5, 4.5, 2.6450), (5, 4.75, 2.7920), (5, 5.0, 2.9389), (5, 5.5, 3.2328),
    (6, 5.5, 2.7500), (8, 6.5, 2.4874),
]  # fmt: skip


@pytest.mark.parametrize(("count", "inches", "chord"), CHORDS)
@pytest.mark.parametrize("word", ["neighbours", "neighbors"])
def test_chords(count, inches, chord, word):
    text = f"{count} lugs, {chord} in between {word}"
    circle = read_bolt_circle(text)
    assert circle.count == count
    assert circle.from_chord
    assert circle.diameter.mid / 25.4 == pytest.approx(inches, abs=2e-4)
    assert re.search(bolt_circle_pattern, text)


def test_every_other_lug():
    circle = read_bolt_circle("5 lugs, 4.28 in between every other")  # D = 1.05146 x chord
    assert circle.diameter.mid == pytest.approx(4.28 * 25.4 * 1.05146, abs=1e-3)
    assert re.search(bolt_circle_pattern, circle.text)


def test_a_coarse_chord_cannot_tell_two_circles_apart():
    circle = read_bolt_circle("5 lugs, 2.645 in \u00b1 1/32 in between neighbours")
    assert circle.diameter.lo < 114.3 < 115 < circle.diameter.hi
    fine = read_bolt_circle("5 lugs, 67.18 mm \u00b1 0.1 mm between neighbours")
    assert fine.diameter.lo < 114.3 < fine.diameter.hi < 115


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("4x100", "write 4 x 100 mm"),
        ("5x4.5", "write 5 x 4.5 in"),
        ("5 on 4.75", "write 5 x 4.75 in"),
        ("4.5 in x 5", "write 5 x 4.5 in"),
        ("100 x 4 mm", "write 4 x 100 mm"),
        ("100 mm x 4", "write 4 x 100 mm"),
        ("4.5 x 5", "number of lugs stands first"),
        ("5 x 4,5 in", "write 5 x 4.5 in"),
        ("5 x 114,3 mm", "write 5 x 114.3 mm"),
        ("5 x 4.5 mm", "write 5 x 4.5 in"),
        ("5 x 114.3 in", "write 5 x 114.3 mm"),
        ("5 x 4.5 inn", "did you mean in?"),
        ("1 x 4.5 in", "1 lugs are not meant"),
        ("3 lugs, 4 in between every other", "no such pair"),
        ("5 x", ""),
        ("4.5 in", ""),
        ("5 x -4.5 in", "not meant"),
        ("", "empty"),
    ],
)
def test_refused(text, hint):
    with pytest.raises(NotationError) as caught:
        read_bolt_circle(text)
    assert hint in caught.value.hint
    assert "bolt circle" in caught.value.expected


@pytest.mark.parametrize("text", ["4x100", "5x4.5", "5 x 4,5 in", "4.5 in x 5", "4.5 in", ""])
def test_the_pattern_refuses(text):
    assert not re.search(bolt_circle_pattern, text)


def test_unknown():
    assert not BoltCircle.unknown.known
    assert BoltCircle.unknown.count is None
    assert not BoltCircle.unknown.diameter.known
