"""Wheel sizes (15 x 7 in, 7 x 15, 4.5J x 13) and offsets (+30 mm, ET 30)."""

from __future__ import annotations

import re

from partscheck.notation.errors import NotationError
from partscheck.notation.interval import Interval, Quantity
from partscheck.notation.measure import quantity_pattern, read_quantity
from partscheck.notation.number import NUMBER, number
from partscheck.notation.pattern import Pattern
from partscheck.notation.raw_text import FRACTION_SIGNS, LONGEST, clean, comma_hint, spelling

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import ClassVar

EXPECTED = "a wheel size, diameter and width, such as 15 x 7 in or 4.5J x 13"
OFFSET_EXPECTED = "an offset, such as +30 mm, ET 30 or 0"

MM_PER_INCH = 25.4
LARGEST_DIAMETER, SMALLEST_DIAMETER = 30.0, 3.0  # in
LARGEST_WIDTH, SMALLEST_WIDTH = 20.0, 1.5  # in

# The letters of a rim flange (J, JJ, K ...) and of a bead hump (H2) say nothing about its fit.
_FLANGE = "(?: ?(?:JJ|JK|KB|[BDEFGJKLP]))?"
_UNIT = '( ?(?:in\\.?|inch|inches|"|mm))?'
_HUMP = "(?: ?(?:H2|H|FH|CH))?"
_SIZE = Pattern(f"({NUMBER}){_FLANGE}{_UNIT} ?x ?({NUMBER}){_FLANGE}{_HUMP}{_UNIT}", re.IGNORECASE)
_BARE = re.compile(r"[+-]?[0-9]+(?:\.[0-9]+)?")
_ET = Pattern(r"ET ?([+-]?[0-9]+(?:\.[0-9]+)?)(?: ?mm)?", re.IGNORECASE)

_PATTERN_NUMBER = f"[0-9.{FRACTION_SIGNS}](?:[0-9{FRACTION_SIGNS}./\u2044 -]*[0-9{FRACTION_SIGNS}])?\\s*"
_PATTERN_UNIT = '(?:[Ii][Nn][.]?|[Ii]nch(?:es)?|[Mm][Mm]|["\u2033\u201d])?'
wheel_size_pattern = (
    f"^(?=.{{1,{LONGEST}}}$)\\s*{_PATTERN_NUMBER}[A-Za-z]{{0,2}}\\s*{_PATTERN_UNIT}\\s*[xX\u00d7]"
    f"\\s*{_PATTERN_NUMBER}[A-Za-z]{{0,2}}\\s*(?:[Hh]2?|[FfCc][Hh])?\\s*{_PATTERN_UNIT}\\s*$"
)
_PATTERN_ET = "^\\s*[Ee][Tt]\\s?[+\u2212-]?[0-9]+(?:[.][0-9]+)?(?:\\s?[Mm][Mm])?\\s*$"
offset_pattern = f"(?:{_PATTERN_ET})|(?:{quantity_pattern('length')})"


class WheelSize:
    """Nominal rim diameter and width between bead seats, Intervals in mm."""

    __slots__ = ("diameter", "known", "text", "width")

    unknown: ClassVar[WheelSize]

    def __init__(self, diameter: Interval, width: Interval, text: str = "", known: bool = True) -> None:
        self.diameter = diameter
        self.width = width
        self.text = text
        self.known = known

    def __str__(self) -> str:
        return self.text

    def __repr__(self) -> str:
        return f"<WheelSize {self.text}>"


WheelSize.unknown = WheelSize(Interval.unknown("mm"), Interval.unknown("mm"), "unknown", known=False)


def read_wheel_size(text: str) -> WheelSize:
    """The wheel size that ``text`` names; inches unless it says mm.  Raises ``NotationError``."""
    plain = clean(text, EXPECTED)
    found = _SIZE.fullmatch(plain)
    if found is None:
        raise NotationError(plain, EXPECTED, comma_hint(plain))
    units = {(unit or "").strip().lower() for unit in (found.group(2), found.group(4))} - {""}
    if "mm" in units and len(units) > 1:
        raise NotationError(plain, EXPECTED, "write both numbers in one unit")
    to_mm = 1.0 if units == {"mm"} else MM_PER_INCH
    try:
        width, diameter = sorted(number(digits) * to_mm for digits in (found.group(1), found.group(3)))
    except ValueError as fault:
        raise NotationError(plain, EXPECTED, str(fault)) from None
    if not SMALLEST_DIAMETER <= diameter / MM_PER_INCH <= LARGEST_DIAMETER:
        raise NotationError(plain, EXPECTED, f"a diameter of {diameter / MM_PER_INCH:g} in is not meant")
    if not SMALLEST_WIDTH <= width / MM_PER_INCH <= LARGEST_WIDTH:
        raise NotationError(plain, EXPECTED, f"a width of {width / MM_PER_INCH:g} in is not meant")
    return WheelSize(Interval.exact(diameter, "mm"), Interval.exact(width, "mm"), spelling(text))


def read_offset(text: str) -> Quantity:
    """A wheel's offset in mm, positive outboard: "+30 mm", "-1/2 in", "ET 30", "0"."""
    plain = clean(text, OFFSET_EXPECTED)
    stamped = _ET.fullmatch(plain)
    if stamped:
        value = float(stamped.group(1))
        if abs(value) > 500:
            raise NotationError(plain, OFFSET_EXPECTED, "it is too large to be meant")
        return Quantity(value, value, "mm", spelling(text), "metric")
    try:
        return read_quantity(text, "length")
    except NotationError as fault:
        hint = f"write ET {plain} or {plain} mm" if _BARE.fullmatch(plain) else fault.hint
        raise NotationError(plain, OFFSET_EXPECTED, hint) from None
