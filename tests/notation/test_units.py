"""Every unit against pint, the authority on units; and the unit words that people mistype."""

from __future__ import annotations

import subprocess
import sys

import pint
import pytest

from partscheck.notation import generate_units
from partscheck.notation.errors import NotationError
from partscheck.notation.measure import DIMENSIONS, read_quantity
from partscheck.notation.unit_table import HOUSE_UNIT, UNIT_TABLE


@pytest.fixture(scope="module")
def registry() -> pint.UnitRegistry:
    return pint.UnitRegistry()


def test_the_table_is_current():
    assert generate_units.TARGET.read_text(encoding="ascii") == generate_units.render(), (
        "run python -m partscheck.notation.generate_units"
    )


@pytest.mark.parametrize(
    ("dimension", "unit", "spelled"),
    [(d, unit, s) for d, unit, _, spellings in generate_units.UNITS for s in spellings.split("|")],
)
def test_each_spelling_against_pint(registry, dimension, unit, spelled):
    """pint in floats, where the table was made with exact fractions."""
    factor, offset, system = UNIT_TABLE[dimension][spelled]
    house = generate_units.HOUSE[dimension][1]
    for typed in (0.0, 1.0, 37.5):
        expected = registry.Quantity(typed, unit).to(house).magnitude
        assert typed * factor + offset == pytest.approx(expected, rel=1e-12, abs=1e-12)
    assert system in ("inch", "metric", "")


def test_no_spelling_stands_twice():
    for name in HOUSE_UNIT:
        spelled = [s for d, _, _, words in generate_units.UNITS if d == name for s in words.split("|")]
        assert len(spelled) == len(set(spelled)) == len(UNIT_TABLE[name])


def test_every_table_spelling_is_read_as_typed():
    for name, table in UNIT_TABLE.items():
        for spelled, (factor, offset, _) in table.items():
            read = read_quantity(f"2 {spelled}", name)
            assert read.lo == 2 * factor + offset, (name, spelled)
            assert read.unit == DIMENSIONS[name].unit == HOUSE_UNIT[name]


@pytest.mark.parametrize(
    ("text", "dimension", "value"),
    [
        # definitions: NIST SP 811 (recalled): 1 in = 25.4 mm, 1 lb = 0.453 592 37 kg, g = 9.806 65 m/s2
        ("1 lb", "mass", 0.45359237),
        ("1 lb", "load", 0.45359237 * 9.80665),
        ("1 kg", "load", 9.80665),
        ("1 mph", "speed", 1.609344),
        ("1 gal", "volume", 3.785411784),
        ("1 ft-lb", "torque", 0.45359237 * 9.80665 * 0.3048),
        ("1 psi", "pressure", 0.45359237 * 9.80665 / 0.0254**2 / 1000),
        ("-40 degF", "temperature", -40.0),
        ("212 F", "temperature", 100.0),
        ("4 %", "ratio", 0.04),
    ],
)
def test_defined_values(text, dimension, value):
    assert read_quantity(text, dimension).lo == pytest.approx(value, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "dimension", "same"),
    [
        ("90 ft-lbs", "torque", "90 ft-lb"),
        ("90 lb-ft", "torque", "90 ft-lb"),
        ("90 lbf ft", "torque", "90 ft-lb"),
        ("90 ft.lb", "torque", "90 ft-lb"),
        ("120 Nm", "torque", "120 N m"),
        ("120 N-m", "torque", "120 N m"),
        ("120 N\u00b7m", "torque", "120 N m"),
        ("120 NM", "torque", "120 N m"),
        ("1.5 mm\u00b2", "area", "1.5 mm2"),
        ("1.5 mm^2", "area", "1.5 mm2"),
        ("3 IN", "length", "3 in"),
        ("3 in.", "length", "3 in"),
        ("3 MM", "length", "3 mm"),
        ("3 \u00b5m", "length", "3 um"),
        ("3 \u03bcm", "length", "3 um"),
        ("2200 Lbs.", "load", "2200 lb"),
        ("65 MPH", "speed", "65 mph"),
        ("60\u00b0", "angle", "60 deg"),
        ("20 \u00b0C", "temperature", "20 degC"),
        ("550 kpa", "pressure", "550 kPa"),
    ],
)
def test_other_spellings(text, dimension, same):
    assert read_quantity(text, dimension) == read_quantity(same, dimension)


@pytest.mark.parametrize(
    ("text", "dimension", "hint"),
    [
        ("12 inn", "length", "did you mean in?"),
        ("12 milimeter", "length", "did you mean millimeter?"),
        ("12 ibs", "load", "did you mean lbs?"),
        ("3 kin", "length", "did you mean in?"),  # pint would read a kilo-inch
        ("3 Mm", "length", "did you mean mm?"),  # and a million metres
        ("36 mpa", "stress", "did you mean MPa?"),
        ("80 psi", "length", "psi is a unit of pressure"),
        ("9 kN", "mass", "kN is a unit of load"),
        ("3 hour", "length", "hour is no unit of length"),
        ("2 ton", "load", "a ton may be 2000 lb, 2240 lb or 1000 kg"),
        ("3 count", "angle", "count is no unit of angle"),
        ("3 qqqq", "length", "units of length: in, ft"),
    ],
)
def test_wrong_unit_words(text, dimension, hint):
    with pytest.raises(NotationError) as caught:
        read_quantity(text, dimension)
    assert hint in caught.value.hint
    assert DIMENSIONS[dimension].phrase in caught.value.expected


def test_a_unit_outside_the_table_comes_from_pint(registry):
    assert read_quantity("2 fathom", "length").lo == pytest.approx(registry("2 fathom").to("mm").magnitude)
    assert read_quantity("3 stone", "mass").lo == pytest.approx(registry("3 stone").to("kg").magnitude)
    assert read_quantity("3 stone", "load").lo == pytest.approx(3 * 6.35029318 * 9.80665)
    assert read_quantity("20 knots", "speed").lo == pytest.approx(registry("20 knot").to("km/hour").magnitude)
    assert read_quantity("2 decimeter", "length").system == "metric"


def test_pint_is_not_imported_for_known_units():
    """Start-up: heavy packages stay out of the usual path."""
    code = (
        "import sys; from partscheck.notation import measure, thread, bolt_circle, tire_size, wheel_size\n"
        "from partscheck.notation import grade, dot_week, position, fastener_size, wire\n"
        "measure.show_both(measure.read_quantity('1-1/2 in', 'length'), 'metric')\n"
        "heavy = {'pint', 'difflib', 'dataclasses', 'inspect', 'numpy', 'fractions'} & set(sys.modules)\n"
        "assert not heavy, heavy"
    )
    subprocess.run([sys.executable, "-c", code], check=True)
