"""What every notation does first with a typed text: length, spaces, and the signs that keyboards vary."""

from __future__ import annotations

import re

from partscheck.notation.errors import NotationError

LONGEST = 200  # characters; no value of the trade comes near it

_SAME_SIGN = str.maketrans(
    {
        "\u00d7": "x",  # multiplication sign
        "\u2212": "-",  # minus sign
        "\u2044": "/",  # fraction slash
        "\u2032": "'",
        "\u2019": "'",
        "\u2033": '"',
        "\u201d": '"',
        "\u22c5": "\u00b7",  # dot operator: middle dot
        "\u03bc": "\u00b5",  # Greek mu: micro sign
    }
)

_FRACTIONS = {
    "\u00bd": "1/2",
    "\u00bc": "1/4",
    "\u00be": "3/4",
    "\u2153": "1/3",
    "\u2154": "2/3",
    "\u215b": "1/8",
    "\u215c": "3/8",
    "\u215d": "5/8",
    "\u215e": "7/8",
}
FRACTION_SIGNS = "".join(_FRACTIONS)  # for the patterns

_SQUARED = "\u00b2"


def spelling(text: str) -> str:
    """The user's own spelling, on one line without doubled spaces."""
    return " ".join(text.split())


def clean(text: str, expected: str) -> str:
    """``text`` with plain spaces, signs and fractions; raises ``NotationError`` when it cannot be a value."""
    if len(text) > LONGEST:
        raise NotationError(text[:30] + "...", expected, f"longer than {LONGEST} characters")
    text = spelling(text)
    if not text:
        raise NotationError(text, expected, "the value is empty; write unknown when it is not known")
    if text.isascii():
        return text
    return _plain(text, expected)


def _plain(text: str, expected: str) -> str:
    out = ""
    after_fraction = False
    for sign in text.translate(_SAME_SIGN):
        if sign in _FRACTIONS:
            out += (" " if out[-1:].isdigit() else "") + _FRACTIONS[sign]
            after_fraction = True
            continue
        foreign = not sign.isascii() and sign.isnumeric() and sign != _SQUARED
        if foreign or (after_fraction and sign.isnumeric()):
            raise NotationError(text, expected, "write numbers with the plain digits 0 to 9")
        after_fraction = False
        out += sign
    return out


def comma_hint(text: str) -> str:
    """The right spelling when a comma stands between digits where none belongs, else ""."""
    for place, sign in enumerate(text):
        if sign == "," and text[place - 1 : place].isdigit() and text[place + 1 : place + 2].isdigit():
            return "write " + _without_commas(text)
    return ""


def _without_commas(text: str) -> str:
    if re.search(r"\d\.\d{3},\d", text):  # 2.200,5: the point groups thousands
        return text.replace(".", "").replace(",", ".")
    if text.count(",") > 1 or "." in text:  # thousands with a decimal point, or many groups
        return text.replace(",", "")
    point = text.replace(",", ".")
    if re.search(r",\d{4}", text):
        return f"{point}, or {text.replace(',', '')} where thousands are meant"
    return point
