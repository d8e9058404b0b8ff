"""Dates: the DOT week code of a tire (3519: week 35 of 2019) and months (2025-06)."""

from __future__ import annotations

import re

from partscheck.notation.errors import NotationError
from partscheck.notation.interval import Interval
from partscheck.notation.pattern import Pattern
from partscheck.notation.raw_text import clean, spelling

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import ClassVar

EXPECTED = "the last four digits of the DOT code, week and year, such as 3519"
MONTH_EXPECTED = "a month, such as 2025-06"

WEEKS_PER_YEAR = 365.2425 / 7

_CODE = Pattern("(?:DOT [A-Z0-9 -]*?)?([0-9]{2})([0-9]{2})", re.IGNORECASE)
_MONTH = Pattern("([0-9]{4})-([0-9]{2})")

dot_week_pattern = "^\\s*(?:[Dd][Oo][Tt]\\s[A-Za-z0-9 -]*?)?(?:0[1-9]|[1-4][0-9]|5[0-3])[0-9]{2}\\s*$"
month_pattern = "^\\s*(?:19|20)[0-9]{2}-(?:0[1-9]|1[0-2])\\s*$"


class Month:
    """A month of a year, as ages are counted to; year and month are None when unknown."""

    __slots__ = ("known", "month", "text", "year")

    unknown: ClassVar[Month]

    def __init__(self, year: int | None, month: int | None, text: str = "", known: bool = True) -> None:
        self.year = year
        self.month = month
        self.text = text
        self.known = known

    def __str__(self) -> str:
        return self.text

    def __repr__(self) -> str:
        return f"<Month {self.text}>"


Month.unknown = Month(None, None, "unknown", known=False)


class DotWeek:
    """The week a tire was made; year and week are None when unknown."""

    __slots__ = ("known", "text", "week", "year")

    unknown: ClassVar[DotWeek]

    def __init__(self, year: int | None, week: int | None, text: str = "", known: bool = True) -> None:
        self.year = year
        self.week = week
        self.text = text
        self.known = known

    def age(self, as_of: Month) -> Interval:
        """Years from this week to ``as_of``: an interval without unit, 0..inf when either is unknown."""
        if self.year is None or self.week is None or as_of.year is None or as_of.month is None:
            return Interval.unknown()
        made = Interval((self.week - 1) / WEEKS_PER_YEAR, self.week / WEEKS_PER_YEAR)
        now = Interval((as_of.month - 1) / 12, as_of.month / 12)
        return now - made + (as_of.year - self.year)

    def __str__(self) -> str:
        return self.text

    def __repr__(self) -> str:
        return f"<DotWeek {self.text}>"


DotWeek.unknown = DotWeek(None, None, "unknown", known=False)


def read_dot_week(text: str) -> DotWeek:
    """Week and year of manufacture; raises ``NotationError``."""
    plain = clean(text, EXPECTED)
    found = _CODE.fullmatch(plain)
    if found is None:
        old = plain.isdigit() and len(plain) == 3
        hint = "three digits are a tire made before 2000: too old for the road" if old else ""
        raise NotationError(plain, EXPECTED, hint)
    week, year = int(found.group(1)), 2000 + int(found.group(2))
    if not 1 <= week <= 53:
        hint = f"there is no week {week:02d}; the week stands first, then the year"
        raise NotationError(plain, EXPECTED, hint)
    return DotWeek(year, week, spelling(text))


def read_month(text: str) -> Month:
    """A month such as 2025-06; raises ``NotationError``."""
    plain = clean(text, MONTH_EXPECTED)
    found = _MONTH.fullmatch(plain)
    if found is None:
        raise NotationError(plain, MONTH_EXPECTED)
    year, month = int(found.group(1)), int(found.group(2))
    if not (1 <= month <= 12 and 1900 <= year < 2100):
        raise NotationError(plain, MONTH_EXPECTED, "the year stands first, then the month")
    return Month(year, month, spelling(text))
