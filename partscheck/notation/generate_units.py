"""Writes ``unit_table.py``: the factor of every unit spelling we know, taken from pint.

Run ``python -m partscheck.notation.generate_units`` after a change here.  Factors are computed with
exact fractions, so that a factor is the nearest float to its definition (one inch is 25.4 mm).
Units that both weigh and pull (lb, kg) are listed as what the dimension asks for.
"""

from __future__ import annotations

from fractions import Fraction
from json import dumps
from pathlib import Path

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

TARGET = Path(__file__).with_name("unit_table.py")

# dimension: (house unit, its name in pint)
HOUSE = {
    "length": ("mm", "millimeter"),
    "load": ("N", "newton"),
    "mass": ("kg", "kilogram"),
    "pressure": ("kPa", "kilopascal"),
    "stress": ("MPa", "megapascal"),
    "torque": ("N m", "newton * meter"),
    "speed": ("km/h", "kilometer / hour"),
    "angle": ("deg", "degree"),
    "area": ("mm2", "millimeter ** 2"),
    "volume": ("L", "liter"),
    "current": ("A", "ampere"),
    "voltage": ("V", "volt"),
    "charge": ("Ah", "ampere * hour"),
    "temperature": ("degC", "degree_Celsius"),
    "ratio": ("", "dimensionless"),
}

_POUND = "lb|lbs|pound|pounds"
_KILOGRAM = "kg|kgs|kilogram|kilograms"
_TONNE = "t|tonne|tonnes"
_FOOT_POUND = (
    "ft lb|ft lbs|ft lbf|lb ft|lbs ft|lbf ft|ftlb|ftlbs|lbft|foot pound|foot pounds|pound foot|pound feet"
)
_INCH_POUND = "in lb|in lbs|in lbf|lb in|lbs in|lbf in|inlb|inch pound|inch pounds|pound inch|pound inches"

# (dimension, unit in pint, system, spellings; a space stands for a space, hyphen, dot or star)
UNITS = [
    ("length", "inch", "inch", 'in|"|inch|inches'),
    ("length", "foot", "inch", "ft|'|foot|feet"),
    ("length", "yard", "inch", "yd|yard|yards"),
    ("length", "mile", "inch", "mi|mile|miles"),
    ("length", "thou", "inch", "thou|mil|mils"),
    ("length", "millimeter", "metric", "mm|millimeter|millimeters|millimetre|millimetres"),
    ("length", "centimeter", "metric", "cm|centimeter|centimeters|centimetre|centimetres"),
    ("length", "meter", "metric", "m|meter|meters|metre|metres"),
    ("length", "kilometer", "metric", "km|kilometer|kilometers|kilometre|kilometres"),
    ("length", "micrometer", "metric", "um|\u00b5m|micron|microns"),
    ("load", "force_pound", "inch", _POUND + "|lbf"),
    ("load", "force_ounce", "inch", "oz|ounce|ounces"),
    ("load", "kip", "inch", "kip|kips"),
    ("load", "force_kilogram", "metric", _KILOGRAM + "|kgf|kp"),
    ("load", "force_gram", "metric", "g|gram|grams"),
    ("load", "force_metric_ton", "metric", _TONNE),
    ("load", "newton", "metric", "N|newton|newtons"),
    ("load", "decanewton", "metric", "daN"),
    ("load", "kilonewton", "metric", "kN"),
    ("mass", "pound", "inch", _POUND),
    ("mass", "ounce", "inch", "oz|ounce|ounces"),
    ("mass", "kilogram", "metric", _KILOGRAM),
    ("mass", "gram", "metric", "g|gram|grams"),
    ("mass", "metric_ton", "metric", _TONNE),
    ("pressure", "psi", "inch", "psi|lb/in2|lbf/in2"),
    ("pressure", "kilopascal", "metric", "kPa"),
    ("pressure", "pascal", "metric", "Pa"),
    ("pressure", "hectopascal", "metric", "hPa"),
    ("pressure", "megapascal", "metric", "MPa"),
    ("pressure", "bar", "metric", "bar|bars"),
    ("pressure", "millibar", "metric", "mbar"),
    ("pressure", "atmosphere", "metric", "atm"),
    ("pressure", "force_kilogram / centimeter ** 2", "metric", "kgf/cm2|kg/cm2"),
    ("stress", "psi", "inch", "psi|lb/in2|lbf/in2"),
    ("stress", "kip / inch ** 2", "inch", "ksi"),
    ("stress", "megapascal", "metric", "MPa|N/mm2"),
    ("stress", "kilopascal", "metric", "kPa"),
    ("stress", "gigapascal", "metric", "GPa"),
    ("torque", "force_pound * foot", "inch", _FOOT_POUND),
    ("torque", "force_pound * inch", "inch", _INCH_POUND),
    ("torque", "newton * meter", "metric", "N m|Nm|newton meter|newton meters|newton metre|newton metres"),
    ("torque", "kilonewton * meter", "metric", "kN m|kNm"),
    ("torque", "force_kilogram * meter", "metric", "kgf m|kg m|kgm|m kg|mkg"),
    ("speed", "mile / hour", "inch", "mph|mi/h"),
    ("speed", "foot / second", "inch", "ft/s"),
    ("speed", "kilometer / hour", "metric", "km/h|kph|kmh"),
    ("speed", "meter / second", "metric", "m/s"),
    ("angle", "degree", "", "deg|\u00b0|degree|degrees"),
    ("angle", "radian", "", "rad|radian|radians"),
    ("area", "inch ** 2", "inch", "in2|sq in"),
    ("area", "foot ** 2", "inch", "ft2|sq ft"),
    ("area", "millimeter ** 2", "metric", "mm2|sq mm"),
    ("area", "centimeter ** 2", "metric", "cm2|sq cm"),
    ("area", "meter ** 2", "metric", "m2|sq m"),
    ("volume", "gallon", "inch", "gal|gals|gallon|gallons|US gal"),
    ("volume", "imperial_gallon", "inch", "imp gal|imperial gal|UK gal"),
    ("volume", "quart", "inch", "qt|quart|quarts"),
    ("volume", "fluid_ounce", "inch", "fl oz"),
    ("volume", "inch ** 3", "inch", "in3|cu in"),
    ("volume", "liter", "metric", "L|liter|liters|litre|litres"),
    ("volume", "milliliter", "metric", "mL|ml|cc|cm3|milliliter|milliliters|millilitre|millilitres"),
    ("volume", "meter ** 3", "metric", "m3"),
    ("current", "ampere", "", "A|amp|amps|ampere|amperes"),
    ("current", "milliampere", "", "mA"),
    ("voltage", "volt", "", "V|volt|volts"),
    ("voltage", "millivolt", "", "mV"),
    ("charge", "ampere * hour", "", "Ah|A h|amp hour|amp hours|ampere hour|ampere hours"),
    ("charge", "milliampere * hour", "", "mAh"),
    ("temperature", "degree_Celsius", "metric", "degC|\u00b0C|C|deg C|\u00b0 C|celsius"),
    ("temperature", "degree_Fahrenheit", "inch", "degF|\u00b0F|F|deg F|\u00b0 F|fahrenheit"),
    ("temperature", "kelvin", "metric", "K|kelvin"),
    ("ratio", "percent", "", "%|percent"),
]


def exact_registry() -> Any:
    """A pint registry that computes with fractions."""
    import pint

    return pint.UnitRegistry(non_int_type=Fraction)


def factor_and_offset(registry: Any, unit: str, house: str) -> tuple[float, float]:
    """``house value = typed value x factor + offset``."""
    zero = registry.Quantity(Fraction(0), unit).to(house).magnitude
    one = registry.Quantity(Fraction(1), unit).to(house).magnitude
    return float(one - zero), float(zero)


def render() -> str:
    """The text of ``unit_table.py``."""
    registry = exact_registry()
    lines = [
        '"""Unit spellings and their factors; written by generate_units.py from pint, do not edit."""',
        "",
        "# dimension: house unit",
        "HOUSE_UNIT: dict[str, str] = {",
        *(f"    {dumps(name)}: {dumps(house[0])}," for name, house in HOUSE.items()),
        "}",
        "",
        "# dimension: {spelling: (factor, offset, system)}; house value = typed value * factor + offset",
        "UNIT_TABLE: dict[str, dict[str, tuple[float, float, str]]] = {",
    ]
    for name, (_, house_unit) in HOUSE.items():
        lines.append(f"    {dumps(name)}: {{")
        for dimension, unit, system, spellings in UNITS:
            if dimension == name:
                factor, offset = factor_and_offset(registry, unit, house_unit)
                entry = f"({factor!r}, {offset!r}, {dumps(system)})"
                lines += [f"        {dumps(spelled)}: {entry}," for spelled in spellings.split("|")]
        lines.append("    },")
    return "\n".join([*lines, "}", ""])


def main(arguments: list[str]) -> int:
    """Write the table; with ``--check`` only say whether it is current (exit status 1: it is not)."""
    text = render()
    if "--check" not in arguments:
        TARGET.write_text(text, encoding="ascii")
        return 0
    if TARGET.read_text(encoding="ascii") == text:
        return 0
    print(f"{TARGET.name} is stale: run python -m partscheck.notation.generate_units")
    return 1


if __name__ == "__main__":
    import sys

    sys.exit(main(sys.argv[1:]))
