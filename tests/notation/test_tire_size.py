"""Tire size markings, against two general-purpose parsers and published diameters."""

from __future__ import annotations

import re

import pytest

from partscheck.notation.errors import NotationError
from partscheck.notation.tire_size import (
    ServiceDescription,
    TireSize,
    read_service_description,
    read_tire_size,
    service_description_pattern,
    tire_size_pattern,
)

IN = 25.4

GOOD = [
    # text, form, prefix, C, section mm, aspect, rim in, construction, load range, key
    ("P205/75R15", "metric", "P", False, 205, 75, 15, "R", "", "P205/75R15"),
    ("205/75R15", "metric", "", False, 205, 75, 15, "R", "", "205/75R15"),
    ("ST205/75R14", "metric", "ST", False, 205, 75, 14, "R", "", "ST205/75R14"),
    ("st205/75r14", "metric", "ST", False, 205, 75, 14, "R", "", "ST205/75R14"),
    ("ST 205/75 R14", "metric", "ST", False, 205, 75, 14, "R", "", "ST205/75R14"),
    ("LT235/75R15", "metric", "LT", False, 235, 75, 15, "R", "", "LT235/75R15"),
    ("145/80 R13 C", "metric", "", True, 145, 80, 13, "R", "", "145/80R13C"),
    ("145/80R13C", "metric", "", True, 145, 80, 13, "R", "", "145/80R13C"),
    ("185R14C", "metric", "", True, 185, None, 14, "R", "", "185R14C"),
    ("ST205/75D15", "metric", "ST", False, 205, 75, 15, "D", "", "ST205/75D15"),
    ("ST225/75R15 LRD", "metric", "ST", False, 225, 75, 15, "R", "D", "ST225/75R15"),
    ("ST225/75R15D", "metric", "ST", False, 225, 75, 15, "R", "D", "ST225/75R15"),
    ("ST225/75R15 C", "metric", "ST", False, 225, 75, 15, "R", "C", "ST225/75R15"),
    ("ST225/75R15 load range E", "metric", "ST", False, 225, 75, 15, "R", "E", "ST225/75R15"),
    ("LT235/75R15/C", "metric", "LT", False, 235, 75, 15, "R", "C", "LT235/75R15"),
    ("205/75R15 XL", "metric", "", False, 205, 75, 15, "R", "XL", "205/75R15"),
    ("31x10.50R15LT", "flotation", "LT", False, 10.5 * IN, None, 15, "R", "", "31x10.50R15LT"),
    ("31X10.50R15LT/C", "flotation", "LT", False, 10.5 * IN, None, 15, "R", "C", "31x10.50R15LT"),
    ("20.5x8.0-10", "flotation", "", False, 8 * IN, None, 10, "D", "", "20.5x8.0-10"),
    ("20.5x8.0-10 LRC", "flotation", "", False, 8 * IN, None, 10, "D", "C", "20.5x8.0-10"),
    ("4.80-12", "numeric", "", False, 4.8 * IN, None, 12, "D", "", "4.80-12"),
    ("4.80-12 C", "numeric", "", False, 4.8 * IN, None, 12, "D", "C", "4.80-12"),
    ("5.30-12", "numeric", "", False, 5.3 * IN, None, 12, "D", "", "5.30-12"),
    ("4.80/4.00-8", "numeric", "", False, 4.8 * IN, None, 8, "D", "", "4.80/4.00-8"),
    ("8-14.5 LT", "numeric", "LT", False, 8 * IN, None, 14.5, "D", "", "8-14.5LT"),
    ("7.50R16LT", "numeric", "LT", False, 7.5 * IN, None, 16, "R", "", "7.50R16LT"),
    ("F78-15", "alpha", "", False, None, 78, 15, "D", "", "F78-15"),
    ("ER78-14", "alpha", "", False, None, 78, 14, "R", "", "ER78-14"),
]


@pytest.mark.parametrize("row", GOOD, ids=lambda row: row[0])
def test_markings(row):
    text, form, prefix, suffix_c, section, aspect, rim, construction, load_range, key = row
    size = read_tire_size(text)
    assert (size.form, size.prefix, size.suffix_c, size.aspect) == (form, prefix, suffix_c, aspect)
    assert (size.construction, size.load_range, size.key) == (construction, load_range, key)
    assert size.rim_diameter.mid == pytest.approx(rim * IN)
    if section is None:
        assert not size.section_width.known
    else:
        assert size.section_width.mid == pytest.approx(section)
    assert size.text == text
    assert re.search(tire_size_pattern, text)


def test_overall_diameter():
    """The geometry of the marking."""
    # 245/55R18: 726.7 mm, recomputed from a public page; 2 x 134.75 + 457.2
    assert read_tire_size("245/55R18").overall_diameter.mid == pytest.approx(726.7, abs=0.05)
    # T&RA design diameter of P205/60R15 is 24.69 in (secondary copy read)
    assert read_tire_size("P205/60R15").overall_diameter.mid / IN == pytest.approx(24.69, abs=0.01)
    assert read_tire_size("31x10.50R15LT").overall_diameter.mid == pytest.approx(31 * IN)
    for text in ("4.80-12", "185R14C", "F78-15"):
        assert not read_tire_size(text).overall_diameter.known


def test_what_stands_after_the_size():
    size = read_tire_size("LT235/75R15C 104/101S")
    assert (size.load_range, size.service.single, size.service.dual, size.service.speed) == (
        "C",
        104,
        101,
        "S",
    )
    assert read_tire_size("145/80R13C 78N TL").service.single == 78
    assert read_tire_size("4.80-12 6PR").ply == 6
    assert read_tire_size("4.80-12 6 ply").ply == 6
    assert read_tire_size("20x8.00-8 NHS").not_for_highway
    assert not read_tire_size("4.80-12").not_for_highway
    assert not read_tire_size("4.80-12").service.known


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("P205/75R15 foo", "after the size is not understood"),
        ("ST205/75R14 LRC LRD", "contradict"),
        ("P205/75R15 LT", "contradict"),
        ("4,80-12", "write 4.80-12"),
        ("ST205/75R14 99/102S", "single wheel stands first"),
        ("205/75R99", "rim diameter of 99"),
        ("205/15R15", "aspect ratio of 15"),
        ("15x8.0-16", "not larger than its rim"),
        ("ST205/75", ""),
        ("205/75/15", ""),
        ("205", ""),
        ("", "empty"),
        ("ST205/75R14 " + "C " * 200, "longer"),
    ],
)
def test_refused(text, hint):
    with pytest.raises(NotationError) as caught:
        read_tire_size(text)
    assert hint in caught.value.hint


@pytest.mark.parametrize("text", ["ST205/75", "205", "4,80-12", "", "big tire"])
def test_the_pattern_refuses(text):
    assert not re.search(tire_size_pattern, text)


@pytest.mark.parametrize(
    ("text", "single", "dual", "speed"),
    [("102/99S", 102, 99, "S"), ("102S", 102, None, "S"), ("102 S", 102, None, "S"), ("102", 102, None, ""),
     ("96/94n", 96, 94, "N"), ("102A8", 102, None, "A8")],
)  # fmt: skip
def test_service_descriptions(text, single, dual, speed):
    read = read_service_description(text)
    assert (read.single, read.dual, read.speed, read.known) == (single, dual, speed, True)
    assert re.search(service_description_pattern, text)


@pytest.mark.parametrize("text", ["99/102S", "102X", "102I", "S", "9S", "102-99S", ""])
def test_service_descriptions_refused(text):
    with pytest.raises(NotationError):
        read_service_description(text)


def test_unknown():
    assert not TireSize.unknown.known
    assert not TireSize.unknown.overall_diameter.known
    assert not ServiceDescription.unknown.known
    assert TireSize.unknown.service is ServiceDescription.unknown


@pytest.mark.parametrize("prefix", ["", "P", "LT", "ST"])
@pytest.mark.parametrize("width", [175, 205, 225, 235])
@pytest.mark.parametrize("aspect", [60, 75, 85])
@pytest.mark.parametrize("rim", [13, 15, 16])
def test_against_tire_code_parser(prefix, width, aspect, rim):
    """It rounds the width to 0.1 in first: diameters agree within 0.13 in."""
    other = pytest.importorskip("tire_code_parser").parse_tire_code(f"{prefix}{width}/{aspect}R{rim}")
    ours = read_tire_size(f"{prefix}{width}/{aspect}R{rim}")
    assert ours.overall_diameter.mid / IN == pytest.approx(float(other["tire_diameter_in"]), abs=0.13)
    assert ours.section_width.mid == float(other["section_width_mm"])
    assert ours.aspect == pytest.approx(100 * float(other["aspect_ratio"]))


@pytest.mark.parametrize("letter", "ABCDEFG")
def test_load_range_against_tire_code_parser(letter):
    code = f"ST205/75R14{letter}"
    other = pytest.importorskip("tire_code_parser").parse_tire_code(code)
    assert read_tire_size(code).load_range == other["load_range"] == letter


@pytest.mark.parametrize(
    "code",
    ["235/60ZR18 103Y", "P205/75R15 97S", "LT235/75R15 104/101S", "ST205/75R14 105/101L",
     "31X10.50R15LT 109Q",
     "35X12.50R17LT 121R"],
)  # fmt: skip
def test_against_tire_codes(code):
    """Fields exactly; its known faults (bias sizes, 10 inch rims, -12 sizes) are left out."""
    other = pytest.importorskip("tire_codes").TireCodeParser(code).parse()
    ours = read_tire_size(code)
    assert ours.prefix == (other.SERVICE_TYPE or "")
    assert ours.rim_diameter.mid == pytest.approx(float(other.WHEEL_DIAMETER) * IN)
    assert str(ours.service.single) == other.LOAD_INDEX
    assert (str(ours.service.dual) if ours.service.dual else None) == other.LOAD_INDEX_DUAL
    assert ours.service.speed == other.SPEED_RATING
    if ours.form == "metric":
        assert (ours.section_width.mid, ours.aspect) == (float(other.WIDTH), float(other.ASPECT_RATIO))
    else:
        assert ours.section_width.mid == pytest.approx(float(other.WIDTH) * IN)
        assert ours.overall_diameter.mid == pytest.approx(float(other.OVERALL_DIAMETER) * IN)
