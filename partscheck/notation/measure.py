"""Measures with their unit as a person types them: 1-1/2 in, 11 ft 4 in, 1.75 in +- 1/32 in, 6,000 lb.

``read_quantity`` is a strict grammar of our own.  ``show`` and its companions print values back.
"""

from __future__ import annotations

import re

from partscheck.notation.errors import NotationError
from partscheck.notation.interval import Quantity
from partscheck.notation.number import NUMBER, number
from partscheck.notation.pattern import Pattern
from partscheck.notation.raw_text import FRACTION_SIGNS, LONGEST, clean, comma_hint, spelling
from partscheck.notation.show import show, show_both, show_pair
from partscheck.notation.unit_table import UNIT_TABLE
from partscheck.notation.units import DIMENSIONS, Dimension, find_unit

__all__ = ["DIMENSIONS", "quantity_pattern", "read_quantity", "show", "show_both", "show_pair"]

LARGEST = 1e12  # in house units; nothing on a trailer is larger

_FEET = r"(?:ft\.?|feet|foot|')"
_INCHES = r"(?:in\.?|inch|inches|\"|'')"

_SINGLE = Pattern(f"([+-]?)({NUMBER}) ?(.*)")
_FEET_AND_INCHES = Pattern(f"([+-]?)([0-9]+) ?{_FEET}(?: |-)?({NUMBER}) ?{_INCHES}", re.IGNORECASE)
_PLUS_MINUS = Pattern("\u00b1|[+]/-|[+]-")
_PLUS_THEN_MINUS = Pattern("[+] ?([^+]*?) ?/ ?- ?")
_MINUS_THEN_PLUS = Pattern("- ?([^-]*?) ?/ ?[+] ?")
_HYPHEN_RANGE = Pattern(f"({NUMBER}) ?[-\u2013\u2014] ?({NUMBER}) ?([A-Za-z].*)")
_NO_VALUE = Pattern("[+-]?(?:nan|inf|infinity)\\b", re.IGNORECASE)
_POWER = Pattern("[eE][+-]?[0-9]")
_EXPONENT = Pattern("[0-9][eE][+-]?[0-9]")


class _Piece:
    """One number with its unit, in house units."""

    __slots__ = ("fraction", "system", "unit", "value")

    def __init__(self, value: float, unit: str, system: str, fraction: bool) -> None:
        self.value = value
        self.unit = unit  # the word as typed, "" for a bare number
        self.system = system
        self.fraction = fraction


def read_quantity(text: str, dimension: str, signed: bool = True) -> Quantity:
    """The quantity that ``text`` spells, in the house unit of ``dimension`` (a key of ``DIMENSIONS``).

    A tolerance or range gives its two ends.  ``signed=False`` refuses a value below zero; with it left
    out the caller decides whether a negative value means something (offset, drop).  Raises
    ``NotationError``.
    """
    kind = DIMENSIONS[dimension]
    plain = clean(text, kind.expected)
    simple = _SINGLE.fullmatch(plain)
    if simple and simple.group(3) in UNIT_TABLE[dimension]:  # the usual case needs no more looking
        ends, typed = None, _number_and_unit(simple, plain, kind)
    else:
        ends = _ends(plain, kind)
        typed = ends[2] if ends else _piece(plain, plain, kind)
    lo, hi = (ends[0], ends[1]) if ends else (typed.value, typed.value)
    if not signed and typed.value < 0:
        raise NotationError(plain, kind.expected, "it cannot be negative")
    if hi > LARGEST or lo < -LARGEST:
        raise NotationError(plain, kind.expected, "it is too large to be meant")
    return Quantity(lo, hi, kind.unit, spelling(text), typed.system, ends is not None, typed.fraction)


def _ends(plain: str, kind: Dimension) -> tuple[float, float, _Piece] | None:
    """Both ends of a tolerance or range, and the piece whose system and spelling count; else None."""
    both_ways = _PLUS_MINUS.split(plain)
    if len(both_ways) == 2:
        return _plus_minus(both_ways[0].strip(), both_ways[1].strip(), plain, kind)
    uneven = _PLUS_THEN_MINUS.search(plain, 1)
    if uneven:
        value, (plus, minus) = plain[: uneven.start()], (uneven.group(1), plain[uneven.end() :])
        middle, over, under = _uneven(value, plus, minus, plain, kind)
        return middle.value - under, middle.value + over, middle
    uneven = _MINUS_THEN_PLUS.search(plain, 1)
    if uneven:
        value, (minus, plus) = plain[: uneven.start()], (uneven.group(1), plain[uneven.end() :])
        middle, under, over = _uneven(value, minus, plus, plain, kind)
        return middle.value - under, middle.value + over, middle
    from_to = plain.split(" to ")
    if len(from_to) == 2:
        return _from_to(from_to[0].strip(), from_to[1].strip(), plain, kind)
    return None


def _plus_minus(value: str, by: str, plain: str, kind: Dimension) -> tuple[float, float, _Piece]:
    tolerance = _piece(by, plain, kind, "\u00b1", step=True)
    middle = _piece(value, plain, kind, inherited=tolerance.unit)
    _not_negative(tolerance, plain, kind)
    return middle.value - tolerance.value, middle.value + tolerance.value, middle


def _uneven(value: str, first: str, second: str, plain: str, kind: Dimension) -> tuple[_Piece, float, float]:
    """The value and its two tolerances as they stand; the unit may stand once, with the last number."""
    last = _piece(second, plain, kind, "+-", step=True)
    other = _piece(first, plain, kind, step=True, inherited=last.unit)
    middle = _piece(value.strip(), plain, kind, inherited=last.unit or other.unit)
    _not_negative(other, plain, kind)
    _not_negative(last, plain, kind)
    return middle, other.value, last.value


def _from_to(first: str, second: str, plain: str, kind: Dimension) -> tuple[float, float, _Piece]:
    most = _piece(second, plain, kind, "to")
    least = _piece(first, plain, kind, inherited=most.unit)
    if least.value > most.value:
        raise NotationError(plain, kind.expected, "the smaller end of a range stands first")
    return least.value, most.value, least


def _not_negative(tolerance: _Piece, plain: str, kind: Dimension) -> None:
    if tolerance.value < 0:
        raise NotationError(plain, kind.expected, "a tolerance is typed without a sign of its own")


def _piece(
    text: str, plain: str, kind: Dimension, after: str = "", step: bool = False, inherited: str = ""
) -> _Piece:
    """One number with its unit.

    ``inherited`` is the unit of a number that has none of its own; ``after`` names the sign the number
    follows, for the message; ``step`` marks a difference (of temperatures: no offset).
    """
    if kind.name == "length" and ("f" in text.lower() or "'" in text):
        feet = _FEET_AND_INCHES.fullmatch(text)
        if feet:
            return _feet_and_inches(feet, plain, kind)
    found = _SINGLE.fullmatch(text)
    if found is None:
        raise NotationError(plain, kind.expected, _number_hint(text, plain))
    return _number_and_unit(found, plain, kind, after, step, inherited)


def _number_and_unit(
    found: re.Match[str],
    plain: str,
    kind: Dimension,
    after: str = "",
    step: bool = False,
    inherited: str = "",
) -> _Piece:
    sign, digits, unit = found.groups()
    try:
        value = number(digits)
    except ValueError as fault:
        raise NotationError(plain, kind.expected, str(fault)) from None
    if sign == "-":
        value = -value
    unit = unit or inherited
    if not unit:
        return _bare(value, digits, plain, kind, after)
    if unit not in UNIT_TABLE[kind.name] and _looks_numeric(unit):
        raise NotationError(plain, kind.expected, _number_hint(found.group(0), plain))
    factor, offset, system = find_unit(unit, kind, plain)
    return _Piece(value * factor + (0.0 if step else offset), unit, system, "/" in digits)


def _feet_and_inches(found: re.Match[str], plain: str, kind: Dimension) -> _Piece:
    sign, feet, digits = found.groups()
    try:
        inches = number(digits)
    except ValueError as fault:
        raise NotationError(plain, kind.expected, str(fault)) from None
    if inches >= 12:
        raise NotationError(plain, kind.expected, "after feet the inches are less than 12")
    value = (float(feet) * 12 + inches) * find_unit("in", kind, plain)[0]
    return _Piece(-value if sign == "-" else value, "in", "inch", "/" in digits)


def _bare(value: float, digits: str, plain: str, kind: Dimension, after: str) -> _Piece:
    """A number without a unit: a ratio, or nothing at all."""
    if kind.name == "ratio" or (value == 0 and kind.name != "temperature"):
        return _Piece(value, "", "", "/" in digits)
    if after:
        hint = f"the last number needs its unit ({digits} {_unit_words(kind)[0]}?)"
    else:
        hint = "write " + " or ".join(f"{digits} {unit}" for unit in _unit_words(kind))
    raise NotationError(plain, kind.expected, hint)


def _unit_words(kind: Dimension) -> list[str]:
    return [example.split(" ", 1)[1] for example in kind.examples]


def _looks_numeric(unit: str) -> bool:
    """Whether what follows the number is more number: 17,25 mm; 1e999; 43.7-45.2 mm; 1.2.3 in."""
    return re.search("[0-9]", unit[:-1]) is not None or _POWER.match(unit) is not None or unit[0] in ",._/-+"


def _number_hint(text: str, plain: str) -> str:
    if _NO_VALUE.match(text):
        return "write unknown when it is not known"
    if "\u00b1" in plain and not text:
        return "a number is missing beside the tolerance"
    hint = comma_hint(plain)
    if hint:
        return hint
    if _EXPONENT.search(plain):
        return "write the number out, without an exponent"
    between = _HYPHEN_RANGE.search(plain)
    if between:
        return "for a range write {} to {} {}".format(*between.groups())
    if "(" in plain:
        return "write one value, without brackets"
    if "_" in plain:
        return "write " + plain.replace("_", "")
    return ""


# --- the same grammar as a regular expression for JSON Schema --------------------------------------

_PATTERN_NUMBER = (
    "(?:[1-9][0-9]{0,2}(?:,[0-9]{3})+|[0-9]+[- ]+[0-9]+[/\u2044][0-9]+|[0-9]+[/\u2044][0-9]+"
    f"|[0-9]*[- ]?[{FRACTION_SIGNS}]|[0-9]*\\.[0-9]+|[0-9]+)"
)
_PATTERN_UNIT = (
    "[A-Za-z\u00b0\u00b5\u03bc%\"'\u2032\u2033\u2019\u201d][^0-9,;:+\u00b1=<>]{0,30}[23\u00b2\u00b3]?[.]?"
)

_PATTERN_FEET = "(?:[Ff][Tt][.]?|[Ff][Ee][Ee][Tt]|[Ff][Oo][Oo][Tt]|['\u2032\u2019])"


def quantity_pattern(dimension: str) -> str:
    """A regular expression that accepts whatever ``read_quantity`` accepts for ``dimension``.

    It does not know the unit words, so it accepts a little more; it refuses bare numbers where a unit
    is due, decimal commas and exponents.
    """
    sign = "[+\u2212-]?"
    measure = f"{sign}{_PATTERN_NUMBER}\\s*{_PATTERN_UNIT}"
    bare = f"{sign}{_PATTERN_NUMBER}"
    if dimension == "length":
        measure = f"(?:{sign}[0-9]+\\s*{_PATTERN_FEET}\\s*-?{_PATTERN_NUMBER}\\s*{_PATTERN_UNIT}|{measure})"
    unitless = {"ratio": f"|{bare}", "temperature": ""}.get(dimension, f"|{sign}0*[.]?0+")
    single = f"(?:{measure}{unitless})"
    either = f"(?:{measure}|{bare})"
    both_ways = f"{either}\\s*(?:\u00b1|[+]/-|[+]-)\\s*{single}"
    uneven = f"{either}\\s*[+-]\\s*{either}\\s*/\\s*[+\u2212-]\\s*{single}"
    from_to = f"{either}\\s+to\\s+{single}"
    return f"^(?=.{{1,{LONGEST}}}$)\\s*(?:{single}|{both_ways}|{uneven}|{from_to})\\s*$"
