"""Dimensions, their house units, and the unit words a person may type.

The factors stand in ``unit_table.py``.  A word outside that table is looked up in pint, which is
imported only then and sees one word, never the text a user typed.
"""

from __future__ import annotations

import re

from partscheck.notation.errors import NotationError
from partscheck.notation.pattern import Pattern
from partscheck.notation.unit_table import HOUSE_UNIT, UNIT_TABLE
from partscheck.notation.words import nearest

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    import pint

UnitEntry = tuple[float, float, str]  # factor, offset, system

STANDARD_GRAVITY = 9.80665  # m/s2, exact by definition (ISO 80000-3; recalled): a mass as a load


class Dimension:
    """A kind of quantity.

    unit       the house unit
    phrase     "a length"
    examples   two spellings, the inch one first
    expected   completes "expected ..." of an error
    spellings  the accepted unit words; a space in one may be typed as a hyphen, a dot or nothing else
    """

    __slots__ = ("examples", "expected", "name", "phrase", "spellings", "unit")

    def __init__(self, name: str, phrase: str, *examples: str) -> None:
        self.name = name
        self.phrase = phrase
        self.examples = examples
        self.unit = HOUSE_UNIT[name]
        self.spellings = tuple(UNIT_TABLE[name])
        due = "a number or a percentage" if name == "ratio" else f"{phrase} with its unit"
        self.expected = f"{due}, such as " + " or ".join(examples)


DIMENSIONS: dict[str, Dimension] = {
    dimension.name: dimension
    for dimension in (
        Dimension("length", "a length", "1.5 in", "38 mm"),
        Dimension("load", "a weight or force", "2200 lb", "998 kg"),
        Dimension("mass", "a mass", "14 lb", "6.4 kg"),
        Dimension("pressure", "a pressure", "80 psi", "550 kPa"),
        Dimension("stress", "a stress", "36 ksi", "250 MPa"),
        Dimension("torque", "a torque", "90 ft-lb", "120 N m"),
        Dimension("speed", "a speed", "65 mph", "105 km/h"),
        Dimension("angle", "an angle", "60 deg"),
        Dimension("area", "an area", "0.25 in2", "1.5 mm2"),
        Dimension("volume", "a volume", "20 gal", "75 L"),
        Dimension("current", "a current", "3 A"),
        Dimension("voltage", "a voltage", "12 V"),
        Dimension("charge", "a battery capacity", "7 Ah"),
        Dimension("temperature", "a temperature", "300 degF", "150 degC"),
        Dimension("ratio", "a ratio", "4 %", "0.04"),
    )
}

# Words that mean different things to different sellers.
_AMBIGUOUS = {"ton": "a ton may be 2000 lb, 2240 lb or 1000 kg: write lb or kg"}
_AMBIGUOUS["tons"] = _AMBIGUOUS["ton"]

_JOINT = Pattern("[ ]?[-\u00b7*.][ ]?")
_FIRST = Pattern("[A-Za-z\u00b0\u00b5%\"']")


def find_unit(word: str, dimension: Dimension, read: str) -> UnitEntry:
    """Factor, offset and system of a unit word; raises ``NotationError`` about the whole text ``read``."""
    entry = UNIT_TABLE[dimension.name].get(word)
    if entry is not None:
        return entry
    if not _FIRST.match(word):
        raise NotationError(read, dimension.expected)
    spelled = _normal(word)
    entry = UNIT_TABLE[dimension.name].get(spelled) or _other_case(spelled, dimension)
    if entry is not None:
        return entry
    _refuse_doubtful(spelled, dimension, read)
    entry = _from_pint(spelled, dimension, read)
    if entry is not None:
        return entry
    raise NotationError(read, dimension.expected, _unit_hint(spelled, dimension))


def _refuse_doubtful(spelled: str, dimension: Dimension, read: str) -> None:
    """Words that are units, but not surely the right one."""
    if spelled.lower() in _AMBIGUOUS:
        raise NotationError(read, dimension.expected, _AMBIGUOUS[spelled.lower()])
    for known in dimension.spellings:
        if known.lower() == spelled.lower():  # Mm, mpa: milli or mega?
            raise NotationError(read, dimension.expected, f"did you mean {known}?")
    for name, table in UNIT_TABLE.items():
        if spelled in table:
            raise NotationError(read, dimension.expected, f"{spelled} is a unit of {name}")


def _normal(word: str) -> str:
    word = word.replace("\u00b2", "2").replace("\u00b3", "3").replace("^", "")
    return _JOINT.sub(" ", word.removesuffix(".")).strip()


def _other_case(spelled: str, dimension: Dimension) -> UnitEntry | None:
    """The entry of a word typed in other capitals (IN, Lbs, nm), unless milli and mega could be meant."""
    for known, entry in UNIT_TABLE[dimension.name].items():
        if known.lower() == spelled.lower() and not _prefix_differs(spelled, known):
            return entry
    return None


def _prefix_differs(spelled: str, known: str) -> bool:
    if known[0] not in "mM" or spelled[0] == known[0]:
        return False
    return not (spelled.isupper() and known.islower())  # MM and MPH are shouted, not mega


def _unit_hint(spelled: str, dimension: Dimension) -> str:
    close = nearest(spelled, dimension.spellings)
    if close:
        return f"did you mean {close}?"
    return f"units of {dimension.name}: " + ", ".join(_main_spellings(dimension))


def _main_spellings(dimension: Dimension) -> list[str]:
    """The first spelling of each unit."""
    first: dict[UnitEntry, str] = {}
    for known, entry in UNIT_TABLE[dimension.name].items():
        first.setdefault(entry, known)
    return list(first.values())


# --- units outside the table -------------------------------------------------------------------

# Prefixes are taken on these only: "kin" is a mistyped word, not a kilo-inch.
_PREFIXED = {"meter", "gram", "newton", "pascal", "liter", "ampere", "volt", "bar", "force_gram"}

_registry: pint.UnitRegistry[Any] | None = None


def _pint_registry() -> pint.UnitRegistry[Any] | None:
    """The one registry of the process, made on first use; None where pint is not installed."""
    global _registry
    if _registry is None:
        try:
            import pint
        except ImportError:  # the table is enough for every spelling of the trade
            return None
        _registry = pint.UnitRegistry()
    return _registry


def _from_pint(word: str, dimension: Dimension, read: str) -> UnitEntry | None:
    """The entry of a unit that pint knows; None when it knows none, ``NotationError`` for a wrong kind."""
    if dimension.name in ("ratio", "temperature") or not re.fullmatch("[A-Za-z_]{2,40}", word):
        return None
    registry = _pint_registry()
    parsed = registry.parse_unit_name(word) if registry is not None else ()
    if registry is None or not parsed:
        return None
    prefix, name, _ = parsed[0]
    if prefix and name not in _PREFIXED:
        return None
    factor = _converted(registry, prefix + name, dimension)
    if factor is None:
        hint = f"{word} is no unit of {dimension.name}: " + ", ".join(_main_spellings(dimension))
        raise NotationError(read, dimension.expected, hint)
    shared = dimension.name in ("angle", "current", "voltage", "charge")
    return factor, 0.0, "" if shared else "metric" if name in _PREFIXED else "inch"


_PINT_HOUSE = {
    "length": "mm", "load": "N", "mass": "kg", "pressure": "kPa", "stress": "MPa", "torque": "N * m",
    "speed": "km / hour", "angle": "degree", "area": "mm ** 2", "volume": "L", "current": "A",
    "voltage": "V", "charge": "A * hour",
}  # fmt: skip

_ANGLES = {"radian", "degree", "arcminute", "arcsecond", "grade", "turn"}


def _converted(registry: pint.UnitRegistry[Any], unit: str, dimension: Dimension) -> float | None:
    from pint.errors import PintError

    # pint takes plain numbers for angles, and angles for plain numbers
    if dimension.name == "angle" and unit not in _ANGLES:
        return None
    try:
        one = registry.Quantity(1.0, unit)
        if dimension.name == "load" and one.check("[mass]"):
            return float(one.to("kg").magnitude) * STANDARD_GRAVITY
        return float(one.to(_PINT_HOUSE[dimension.name]).magnitude)
    except PintError:
        return None
