"""Types of bare numbers: numbers, counts, flags and money."""

from __future__ import annotations

import re

from partscheck.notation.errors import NotationError
from partscheck.notation.interval import INF, Interval, Quantity
from partscheck.parts.typed_text import TypedText

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any, ClassVar

PLAIN_NUMBER = r"[+-]?(?:(?:[0-9]{1,3}(?:,[0-9]{3})+|[0-9]+)(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]{1,3})?"


class Number(TypedText):
    """A plain number, kept as an interval without unit: ``1.6``, ``1e6``, ``1.5 to 1.7``, ``1 ± 0.1``."""

    name = "number"
    expected = "a plain number, such as 1.6"
    GRAMMAR = (
        rf"^\s*(?P<low>{PLAIN_NUMBER})\s*"
        rf"(?:to\s+(?P<high>{PLAIN_NUMBER})|(?:±|\+-|\+/-)\s*(?P<by>{PLAIN_NUMBER}))?\s*$"
    )

    def __init__(self, least: float = 0.0, most: float = INF) -> None:
        self.least = least
        self.most = most
        self.unknown = Interval.unknown("", least, most)

    def parse(self, text: str, tables: Any) -> Quantity:
        found = re.match(self.GRAMMAR, text, re.ASCII)
        if found is None:
            hint = f"write {_with_a_point(text)}" if _decimal_comma(text) else ""
            raise NotationError(text, self.expected, hint)
        lo = hi = _plain(found["low"])
        if found["high"]:
            hi = _plain(found["high"])
        elif found["by"]:
            lo, hi = lo - _plain(found["by"]), hi + _plain(found["by"])
        if lo > hi:
            raise NotationError(text, self.expected, "write the smaller number first")
        if lo < self.least or hi > self.most or hi == INF:
            raise NotationError(text, self.expected, f"it lies between {self.least:g} and {self.most:g}")
        return Quantity(lo, hi, "", text, toleranced=bool(found["high"] or found["by"]))

    def schema(self) -> dict[str, Any]:
        typed = {"type": "string", "pattern": r"^\s*[+-]?[\d.]"}
        number: dict[str, Any] = {"type": "number"}
        if self.least != -INF:
            number["minimum"] = self.least
        if self.most != INF:
            number["maximum"] = self.most
        return {"anyOf": [number, typed], "examples": [1.6]}


class Count(TypedText):
    """A whole number of pieces, never negative; ``names`` are words for some counts."""

    name = "count"
    expected = "a whole number, such as 2"

    def __init__(self, least: int = 0, most: int = 100_000, names: dict[str, int] | None = None) -> None:
        self.least = least
        self.most = most
        self.names = names or {}
        if self.names:
            self.expected = "a whole number or one of: " + ", ".join(self.names)

    def parse(self, text: str, tables: Any) -> int:
        word = text.strip().lower()
        if word in self.names:
            return self.names[word]
        if not re.fullmatch(r"\d{1,9}", word, re.ASCII):
            raise NotationError(text, self.expected, "write digits only, without a unit or a sign")
        if not self.least <= int(word) <= self.most:
            raise NotationError(text, self.expected, f"it lies between {self.least} and {self.most}")
        return int(word)

    def schema(self) -> dict[str, Any]:
        whole = {"type": "integer", "minimum": self.least, "maximum": self.most}
        typed = {"type": "string", "pattern": r"^\s*\d{1,9}\s*$"}
        named = [{"enum": list(self.names)}] if self.names else []
        return {"anyOf": [whole, typed, *named], "examples": [max(2, self.least)]}


class Flag(TypedText):
    """``true`` or ``false``; ``yes``, ``no``, ``on`` and ``off`` are refused, since YAML readers differ."""

    name = "flag"
    expected = "true or false"
    MEANT: ClassVar[dict[str, str]] = {
        "yes": "true", "y": "true", "on": "true", "no": "false", "n": "false", "off": "false",
    }  # fmt: skip

    def parse(self, text: str, tables: Any) -> bool:
        word = text.strip().lower()
        if word in ("true", "false"):
            return word == "true"
        hint = f"write {self.MEANT[word]}" if word in self.MEANT else ""
        raise NotationError(text, self.expected, hint)

    def schema(self) -> dict[str, Any]:
        return {"anyOf": [{"type": "boolean"}, {"enum": ["true", "false"]}]}


class CountOrFlag(TypedText):
    """``true``, ``false`` or a number of pieces (for ``have``)."""

    name = "count-or-flag"
    expected = "true, false or a number of pieces"

    def parse(self, text: str, tables: Any) -> int | bool:
        if re.fullmatch(r"\s*\d+\s*", text, re.ASCII):
            return int(Count().parse(text, tables))
        try:
            return Flag().parse(text, tables)
        except NotationError as error:
            raise NotationError(text, self.expected, error.hint) from None

    def schema(self) -> dict[str, Any]:
        return {"anyOf": [*Flag().schema()["anyOf"], *Count().schema()["anyOf"]], "examples": [True, 4]}


class Price:
    """An amount of money: hundredths of ``currency`` ("" when none was typed), and the text."""

    __slots__ = ("currency", "hundredths", "text")

    def __init__(self, hundredths: int, currency: str, text: str) -> None:
        self.hundredths = hundredths
        self.currency = currency
        self.text = text

    @property
    def amount(self) -> float:
        return self.hundredths / 100

    def __repr__(self) -> str:
        return f"{self.amount:.2f} {self.currency}".rstrip()


class Money(TypedText):
    """``41.50`` or ``41.50 EUR``; reads as ``Price``."""

    name = "money"
    expected = "an amount, such as 41.50 or 41.50 EUR"
    GRAMMAR = r"^\s*(\d{1,3}(?:,\d{3})+|\d{1,9})(?:\.(\d{1,2}))?(?:\s*([A-Z]{3}))?\s*$"

    def parse(self, text: str, tables: Any) -> Price:
        found = re.match(self.GRAMMAR, text, re.ASCII)
        if found is None:
            raise NotationError(text, self.expected, self._hint(text))
        whole, part, currency = found.groups()
        hundredths = int(whole.replace(",", "")) * 100 + int((part or "").ljust(2, "0"))
        return Price(hundredths, currency or "", text)

    def _hint(self, text: str) -> str:
        if _decimal_comma(text):
            return f"write {_with_a_point(text)}"
        bare = re.sub(r"[^\d.,]", "", text)
        return (
            f"write {bare}, or {bare} with a three-letter currency"
            if bare in text and re.match(self.GRAMMAR, bare, re.ASCII)
            else ""
        )

    def schema(self) -> dict[str, Any]:
        typed = {"type": "string", "pattern": self.GRAMMAR}
        return {"anyOf": [{"type": "number", "minimum": 0}, typed], "examples": [41.5, "41.50 EUR"]}


def _with_a_point(text: str) -> str:
    """1234.50 of 1.234,50: points before a decimal comma part thousands."""
    return re.sub(r"(?<=\d)\.(?=\d{3}[.,])", "", text.strip()).replace(",", ".")


def _plain(text: str) -> float:
    return float(text.replace(",", ""))


def _decimal_comma(text: str) -> bool:
    return re.search(r"\d,\d{1,2}(?!\d)", text) is not None
