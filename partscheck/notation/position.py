"""Positions on the trailer: 1L, 1R, 2L ... (axle from the front, side seen from behind) and spare."""

from __future__ import annotations

import re

from partscheck.notation.errors import NotationError
from partscheck.notation.pattern import Pattern
from partscheck.notation.raw_text import clean

EXPECTED = "a position, such as 1L, 1R, 2L or spare"

_PLACE = Pattern("([1-9]) ?([LR])", re.IGNORECASE)
_TURNED = Pattern("([LR]) ?([1-9])", re.IGNORECASE)

position_pattern = "^\\s*(?:[1-9]\\s?[LRlr]|[Ss][Pp][Aa][Rr][Ee])\\s*$"

SPARE_SIDE = "spare"


class Position:
    """A wheel position.  ``axle`` counts from the front (0 for the spare); ``side`` is L, R or "spare"."""

    __slots__ = ("axle", "side")

    def __init__(self, axle: int, side: str) -> None:
        self.axle = axle
        self.side = side

    @property
    def is_spare(self) -> bool:
        return self.side == SPARE_SIDE

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Position) and (self.axle, self.side) == (other.axle, other.side)

    def __hash__(self) -> int:
        return hash((self.axle, self.side))

    def __lt__(self, other: Position) -> bool:
        """From front to back, left before right, the spare last."""
        return (self.is_spare, self.axle, self.side) < (other.is_spare, other.axle, other.side)

    def __str__(self) -> str:
        return self.side if self.is_spare else f"{self.axle}{self.side}"

    def __repr__(self) -> str:
        return f"<Position {self}>"


def read_position(text: str) -> Position:
    """The position that ``text`` names; raises ``NotationError``."""
    plain = clean(text, EXPECTED)
    if plain.lower() == SPARE_SIDE:
        return Position(0, SPARE_SIDE)
    found = _PLACE.fullmatch(plain)
    if found:
        return Position(int(found.group(1)), found.group(2).upper())
    turned = _TURNED.fullmatch(plain)
    hint = f"write {turned.group(2)}{turned.group(1).upper()}" if turned else ""
    raise NotationError(plain, EXPECTED, hint)
