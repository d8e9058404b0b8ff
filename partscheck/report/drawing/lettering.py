"""Lettering on a sheet: what a text may hold, how much room it takes, where it breaks."""

from __future__ import annotations

import re

SIZE = 3.6  # mm, height of the font; no lettering on a sheet is under SMALL
SMALL = 3.3
HEAD = 4.6
ASCENT, DESCENT = 0.78, 0.22  # of the size, above and below the base line

# Control characters, marks that turn the direction of writing, halves of characters, and what XML bars.
_UNFIT = re.compile(
    "[\0-\x1f\x7f-\x9f\u00ad\u061c\u200b-\u200f\u2028-\u202f\u2060-\u206f\ud800-\udfff\ufeff\ufff9-\uffff]"
)
# Widths by the widest of the usual system fonts, in parts of the size.
_WIDTHS = {
    **dict.fromkeys("iljI'|.,:;! ", 0.33), **dict.fromkeys("tfr()[]/-\"?*", 0.46),
    **dict.fromkeys("mMW@%", 0.98), **dict.fromkeys("wQO+=<>&#", 0.84),
}  # fmt: skip
_DIGIT, _CAPITAL, _LETTER = 0.64, 0.70, 0.615
BOLD = 1.1


def clean(text: str, most: int = 120) -> str:
    """Text that cannot steer a page: on one line, no control or direction marks, cut where it is long."""
    kept = " ".join(_UNFIT.sub(" ", text).split())
    return kept if len(kept) <= most else kept[: most - 3].rstrip() + "..."


def width(text: str, size: float = SIZE, bold: bool = False) -> float:
    """How wide a text comes out at most, mm."""
    return sum(_share(sign) for sign in text) * size * (BOLD if bold else 1.0)


def wrapped(text: str, room: float, size: float = SIZE) -> list[str]:
    """Lines of at most ``room`` mm; a word that is longer than a line is cut."""
    lines: list[str] = []
    line = ""
    for word in text.split():
        for piece in _pieces(word, room, size):
            joined = f"{line} {piece}" if line else piece
            if line and width(joined, size) > room:
                lines.append(line)
                joined = piece
            line = joined
    return [*lines, line] if line else lines


def fitted(text: str, room: float, size: float = SIZE) -> str:
    """The text, or as much of it as there is room for, with three dots."""
    if width(text, size) <= room:
        return text
    while text and width(text + "...", size) > room:
        text = text[:-1]
    return text.rstrip() + "..."


def _share(sign: str) -> float:
    known = _WIDTHS.get(sign)
    if known is not None:
        return known
    if not sign.isascii():
        return 1.0
    return _DIGIT if sign.isdigit() else _CAPITAL if sign.isupper() else _LETTER


def _pieces(word: str, room: float, size: float) -> list[str]:
    pieces, piece = [], ""
    for sign in word:
        if piece and width(piece + sign, size) > room:
            pieces.append(piece)
            piece = ""
        piece += sign
    return [*pieces, piece] if piece else pieces
