"""Bolt circles: 5 x 4.5 in, 5x114.3 mm, 5 on 4.5 in, and measured chords between lugs."""

from __future__ import annotations

import re

from partscheck.formulas.bolt_circle import diameter_from_chord
from partscheck.notation.errors import NotationError
from partscheck.notation.interval import Interval
from partscheck.notation.measure import quantity_pattern, read_quantity
from partscheck.notation.number import NUMBER, is_number, number
from partscheck.notation.pattern import Pattern
from partscheck.notation.raw_text import clean, comma_hint, spelling

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import ClassVar

EXPECTED = "a bolt circle, such as 5 x 4.5 in, 5x114.3 mm or 5 lugs, 2.645 in between neighbours"

FEWEST, MOST = 2, 12  # lugs
SMALLEST, LARGEST = 30.0, 700.0  # mm; outside, the unit is mistyped
INCH_BELOW = 20.0  # a bare number below this is inches, else mm: only for the hint

_LUGS = "(?: ?-?(?:lugs?|holes?|bolts?|studs?))?"
_CIRCLE = Pattern(f"([0-9]{{1,9}}){_LUGS} ?(?:x|on a|on) ?(.+)", re.IGNORECASE)
_CHORD = Pattern(f"([0-9]{{1,9}}){_LUGS} ?, ?(.+?) between (neighbou?rs|every other)", re.IGNORECASE)
_TURNED = Pattern(f'({NUMBER}) ?([A-Za-z"]*) ?x ?({NUMBER}) ?([A-Za-z"]*)', re.IGNORECASE)

_LENGTH = quantity_pattern("length").removeprefix("^").removesuffix("$").partition("$)")[2]
_PATTERN_LUGS = "\\s*-?(?:[Ll]ugs?|[Hh]oles?|[Bb]olts?|[Ss]tuds?)?\\s*"
bolt_circle_pattern = (
    f"^(?=.{{1,200}}$)\\s*[0-9]+{_PATTERN_LUGS}(?:(?:[xX\u00d7]|[Oo][Nn]( [Aa])?)\\s*{_LENGTH}"
    f"|,\\s*{_LENGTH}between (?:[Nn]eighbou?rs|[Ee]very other))\\s*$"
)


class BoltCircle:
    """Lugs on a circle.

    count       lugs; None when unknown
    diameter    Interval in mm; wider than a point when toleranced
    system      "inch" or "metric"
    from_chord  True when the diameter was worked out from a measured chord
    """

    __slots__ = ("count", "diameter", "from_chord", "known", "system", "text")

    unknown: ClassVar[BoltCircle]

    def __init__(
        self,
        count: int | None,
        diameter: Interval,
        text: str = "",
        system: str = "",
        from_chord: bool = False,
        known: bool = True,
    ) -> None:
        self.count = count
        self.diameter = diameter
        self.text = text
        self.system = system
        self.from_chord = from_chord
        self.known = known

    def __str__(self) -> str:
        return self.text

    def __repr__(self) -> str:
        return f"<BoltCircle {self.text}>"


BoltCircle.unknown = BoltCircle(None, Interval.unknown("mm"), "unknown", known=False)


def read_bolt_circle(text: str) -> BoltCircle:
    """The bolt circle that ``text`` names; raises ``NotationError``."""
    plain = clean(text, EXPECTED)
    chord = _CHORD.fullmatch(plain)
    if chord:
        count = _count(chord.group(1), plain)
        return _from_chord(count, chord.group(2), chord.group(3).lower() == "every other", plain, text)
    circle = _CIRCLE.fullmatch(plain)
    if circle is None or is_number(circle.group(2)):
        raise NotationError(plain, EXPECTED, _hint(plain))
    count = _count(circle.group(1), plain)
    diameter, system = _length(circle.group(2), plain)
    _plausible(diameter, count, plain)
    return BoltCircle(count, diameter, spelling(text), system)


def _from_chord(count: int, measured: str, every_other: bool, plain: str, text: str) -> BoltCircle:
    skip = 2 if every_other else 1
    if count < 2 * skip:
        raise NotationError(plain, EXPECTED, f"{count} lugs have no such pair")
    chord, system = _length(measured, plain)
    diameter = Interval(
        diameter_from_chord(max(chord.lo, 0.0), count, skip),
        diameter_from_chord(max(chord.hi, 0.0), count, skip),
        "mm",
    )
    _plausible(diameter, count, plain)
    return BoltCircle(count, diameter, spelling(text), system, from_chord=True)


def _count(digits: str, plain: str) -> int:
    if not FEWEST <= int(digits) <= MOST:
        raise NotationError(plain, EXPECTED, _hint(plain) or f"{digits} lugs are not meant")
    return int(digits)


def _length(measure: str, plain: str) -> tuple[Interval, str]:
    try:
        length = read_quantity(measure, "length")
    except NotationError as fault:
        raise NotationError(plain, EXPECTED, comma_hint(plain) or fault.hint) from None
    return Interval(length.lo, length.hi, "mm"), length.system


def _plausible(diameter: Interval, count: int, plain: str) -> None:
    if diameter.lo >= SMALLEST and diameter.hi <= LARGEST:
        return
    found = _TURNED.fullmatch(plain)
    other = ""
    if found and found.group(4):
        other = f"{found.group(3)} {'in' if diameter.lo < SMALLEST else 'mm'}"
    raise NotationError(
        plain,
        EXPECTED,
        f"a circle of {diameter.mid:g} mm is not meant" + (f"; write {count} x {other}" if other else ""),
    )


def _hint(plain: str) -> str:
    """The likely spelling: the lugs first, the diameter with its unit."""
    if hint := comma_hint(plain):
        return hint
    found = _TURNED.fullmatch(plain.replace(" on ", " x "))
    if found is None:
        return ""
    first, first_unit, second, second_unit = found.groups()
    if first_unit or (first.isdigit() and int(first) > MOST):
        if not second.isdigit():
            return ""
        first, second, second_unit = second, first, first_unit or second_unit
    if first.isdigit() and not FEWEST <= int(first) <= MOST:
        return ""
    if not first.isdigit():
        return "the number of lugs stands first: 5 x 4.5 in"
    try:
        unit = second_unit or ("in" if number(second) < INCH_BELOW else "mm")
    except ValueError:
        return ""
    return f"write {first} x {second} {unit}"
