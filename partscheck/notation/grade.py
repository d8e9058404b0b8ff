"""Fastener grades as marked: grade 5, 8, 8.8, A2-70, 18-8, no marks, 6 lines."""

from __future__ import annotations

import re

from partscheck.notation.errors import NotationError
from partscheck.notation.pattern import Pattern
from partscheck.notation.raw_text import clean, spelling
from partscheck.notation.words import nearest

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import ClassVar

EXPECTED = "a fastener grade as marked, such as grade 5, 8.8, A2-70, 18-8, 6 lines or no marks"

SAE, ISO, STAINLESS, ASTM = "SAE", "ISO", "stainless", "ASTM"
NO_MARKS = "no marks"

_SAE_MARKS = ("1", "2", "4", "5", "5.2", "7", "8", "8.2")  # SAE J429
_ISO_BOLTS = ("4.6", "4.8", "5.6", "5.8", "6.8", "8.8", "9.8", "10.9", "12.9")  # ISO 898-1
_ISO_NUTS = ("4", "5", "6", "8", "9", "10", "12")  # ISO 898-2
_STAINLESS = (
    "18-8", "304", "316", "A1", "A2", "A4", "A1-50", "A1-70", "A2-50", "A2-70", "A2-80",
    "A4-50", "A4-70", "A4-80",
)  # fmt: skip
_ASTM_MARKS = ("A307", "A325", "A449", "A490", "A574", "B7")

# Radial lines on the head: SAE J429 (secondary copies read).
_LINES = {"3": "5", "5": "7", "6": "8"}
_LINE_WORDS = {"three": "3", "five": "5", "six": "6"}

_WORD = r"(sae grade|sae|grade|gr\.?|class|cl\.?|g)?"
_NUMBERED = Pattern(rf"{_WORD} ?-?([0-9]{{1,2}}(?:\.[0-9])?)", re.IGNORECASE)
_LINED = Pattern(r"([0-9]|three|five|six) (?:radial )?lines?", re.IGNORECASE)
_UNMARKED = Pattern("no ?-?(?:head )?marks?|none|unmarked|plain head|0 lines|no lines", re.IGNORECASE)

grade_pattern = (
    "^\\s*(?:(?:[Ss][Aa][Ee]\\s?)?(?:[Gg][Rr][Aa][Dd][Ee]|[Gg][Rr][.]?|[Cc][Ll][Aa][Ss][Ss]|[Cc][Ll][.]?|[Gg])?"
    "\\s?-?[0-9]{1,2}(?:[.][0-9])?|(?:[0-9]|[Tt]hree|[Ff]ive|[Ss]ix) (?:radial )?lines?"
    "|[AaBb][0-9]{1,3}(?:-[0-9]{2})?|18-8|304|316|[Nn]o\\s?-?(?:head )?(?:[Mm]arks?|lines)"
    "|[Nn]one|[Uu]nmarked|plain head|unknown)\\s*$"
)


class Grade:
    """A strength grade.

    system  SAE, ISO, stainless, ASTM; "" where the thread decides (a bare 8) or nothing is marked
    mark    "5", "8.8", "A2-70", "18-8", or "no marks"
    """

    __slots__ = ("known", "mark", "system", "text")

    unknown: ClassVar[Grade]

    def __init__(self, text: str, system: str, mark: str, known: bool = True) -> None:
        self.text = text
        self.system = system
        self.mark = mark
        self.known = known

    @property
    def marked(self) -> bool:
        """False when the head was looked at and carries no marks."""
        return self.known and self.mark != NO_MARKS

    def on_thread(self, inch: bool) -> Grade:
        """The grade with its system settled: a bare 8 is SAE on inch threads, a class on metric ones."""
        if self.system or not self.marked:
            return self
        return Grade(self.text, SAE if inch else ISO, self.mark)

    def same_as(self, other: Grade) -> bool | None:
        """Whether two grades are one; None when either is unknown, or bare beside a stated system."""
        if not (self.known and other.known):
            return None
        if self.mark != other.mark:
            return False
        return True if self.system == other.system else None

    def __str__(self) -> str:
        return self.text

    def __repr__(self) -> str:
        return f"<Grade {self.text}>"


Grade.unknown = Grade("unknown", "", "", known=False)


def read_grade(text: str) -> Grade:
    """The grade that ``text`` names; raises ``NotationError``."""
    plain = clean(text, EXPECTED)
    if plain.lower() == "unknown":
        return Grade.unknown
    own = spelling(text)
    if _UNMARKED.fullmatch(plain):
        return Grade(own, "", NO_MARKS)
    lines = _LINED.fullmatch(plain)
    if lines:
        return _from_lines(lines.group(1).lower(), plain, own)
    upper = plain.upper().removeprefix("STAINLESS ")
    if upper in _STAINLESS:
        return Grade(own, STAINLESS, upper)
    if upper.removeprefix("ASTM ") in _ASTM_MARKS:
        return Grade(own, ASTM, upper.removeprefix("ASTM "))
    numbered = _NUMBERED.fullmatch(plain)
    if numbered:
        return _from_number((numbered.group(1) or "").lower(), numbered.group(2), plain, own)
    raise NotationError(plain, EXPECTED, _hint(plain))


def _from_lines(count: str, plain: str, own: str) -> Grade:
    mark = _LINES.get(_LINE_WORDS.get(count, count))
    if mark is None:
        raise NotationError(plain, EXPECTED, "heads carry 3 lines (grade 5), 5 (grade 7) or 6 (grade 8)")
    return Grade(own, SAE, mark)


def _from_number(word: str, mark: str, plain: str, own: str) -> Grade:
    if mark in _ISO_BOLTS:
        return Grade(own, ISO, mark)
    says_class = word.startswith("cl")
    sae, iso = mark in _SAE_MARKS and not says_class, mark in _ISO_NUTS
    if word and not says_class and sae:  # "grade 8"
        return Grade(own, SAE, mark)
    if says_class and iso:
        return Grade(own, ISO, mark)
    if sae and iso and not word:
        return Grade(own, "", mark)
    if sae or iso:
        return Grade(own, SAE if sae else ISO, mark)
    raise NotationError(plain, EXPECTED, _hint(mark))


def _hint(plain: str) -> str:
    known = (*(f"grade {mark}" for mark in _SAE_MARKS), *_ISO_BOLTS, *_STAINLESS, *_ASTM_MARKS, NO_MARKS)
    close = nearest(plain, known)
    return f"did you mean {close}?" if close else ""
