"""Plain numbers as the trade writes them: 38, .750, 3/8, 1-1/2, 1 1/2, 6,000.  No exponents."""

from __future__ import annotations

from partscheck.notation.pattern import Pattern

# Thousands only where exactly three digits follow, and only for whole numbers.
NUMBER = (
    r"(?:[1-9][0-9]{0,2}(?:,[0-9]{3})+(?![0-9.,])"
    r"|[0-9]+[- ][0-9]+/[0-9]+"
    r"|[0-9]+/[0-9]+"
    r"|[0-9]*\.[0-9]+"
    r"|[0-9]+)"
)

_NUMBER = Pattern(NUMBER)


def is_number(text: str) -> bool:
    return _NUMBER.fullmatch(text) is not None


def number(text: str) -> float:
    """The value of ``text``, which matches ``NUMBER``; raises ``ValueError`` for a fraction that is none."""
    if "/" not in text:
        return float(text.replace(",", ""))
    whole, _, fraction = text.replace("-", " ").rpartition(" ")
    top, _, bottom = fraction.partition("/")
    if float(bottom) == 0:
        raise ValueError("a fraction over zero")
    if not whole:
        return float(top) / float(bottom)
    if float(top) >= float(bottom):
        raise ValueError("after a whole number the fraction is less than one")
    return float(whole) + float(top) / float(bottom)
