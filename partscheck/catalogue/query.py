"""Questions to the catalogue: a kind of part, and what its fields have to be, in either unit system.

    thickness=38 to 45 mm      all of the part's value lies in the range
    rating=1200 lb or more     also >= 1200 lb, at least 1200 lb; at most, or less, <=; more than, >; less than, <
    bolt_circle=5 x 4.5 in     a single value: the part's value, with its tolerance, holds it
    seat=conical               a word; the field's own synonyms serve
    seller=gate                any text: a piece of it, capitals apart

What a part does not state is not known: such a part is not found, and counted.
"""

from __future__ import annotations

import re

from partscheck.catalogue.facets import facets_of, grade_word, value_of
from partscheck.catalogue.stock import WORD
from partscheck.notation.errors import NotationError
from partscheck.notation.faults import Fault
from partscheck.notation.grade import Grade
from partscheck.notation.interval import INF, same_within
from partscheck.notation.measure import read_quantity
from partscheck.notation.thread import read_thread
from partscheck.notation.words import nearest
from partscheck.notation.yaml_text import Mark
from partscheck.parts.kinds import KINDS
from partscheck.parts.types import (
    BoltCircleType,
    Count,
    FastenerSizeType,
    LoadIndexType,
    Measured,
    Money,
    Number,
    UnlistedWord,
    WireGaugeType,
)

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable
    from typing import Any

    from partscheck.catalogue.facets import Facets
    from partscheck.parts.field import Field

AT_LEAST, AT_MOST, MORE, LESS, WITHIN, HOLDS, IS, CONTAINS = (
    "at least", "at most", "more than", "less than", "within", "holds", "is", "contains",
)  # fmt: skip
GRADE_SYSTEMS = ("", "SAE", "ISO", "stainless", "ASTM")
# Types of one number, of which "at least" and "from .. to .." can be asked.
_ORDERED = (Measured, Number, Count, Money, LoadIndexType, WireGaugeType)

_BEFORE = (
    (r">=|=>|at least|no less than|not less than|min(?:imum)?\.?(?= )|from(?= .*(?<!\w)up$)", AT_LEAST),
    (r"<=|=<|at most|no more than|not more than|up to|max(?:imum)?\.?(?= )", AT_MOST),
    (r">|more than|over|above", MORE),
    (r"<|less than|under|below", LESS),
)
# Each with what a text that it matches holds: a pattern takes longer to compile than to try.
_TWO_ENDS = (
    ("from", r"from\s+(.+?)\s+to\s+(.+)"),
    ("between", r"between\s+(.+?)\s+and\s+(.+)"),
    ("..", r"([^.].*?)\s*\.{2,3}\s*([^.].*)"),
)
_BEHIND = (
    (r"or more|or over|or above|and up|and over|\+", AT_LEAST),
    (r"or less|or under|or below|and under", AT_MOST),
)
_LAST_WORDS = ("more", "over", "above", "up", "less", "under", "below", "+")  # of what stands behind
RANGES = (
    "a range: A to B; at least A, A or more, >= A; at most B, B or less, <= B; more than A, less than B; "
    "with the unit"
)


class Clause:
    """What one number or word of a field has to be.

    ``low`` and ``high`` are in ``unit`` (house units), for the relations of numbers; ``close`` is how far off
    still counts as there; ``words`` are those that would do.
    """

    __slots__ = ("close", "high", "low", "name", "relation", "unit", "words")

    def __init__(
        self, name: str, relation: str, low: float = -INF, high: float = INF, unit: str = "",
        words: tuple[str, ...] = (),
    ) -> None:  # fmt: skip
        self.name = name
        self.relation = relation
        self.low = low
        self.high = high
        self.unit = unit
        self.close = same_within(unit)
        self.words = words

    @property
    def numeric(self) -> bool:
        return self.relation not in (IS, CONTAINS)

    def admits(self, ends: Any, word: str | None) -> bool:
        """Whether a part's number (both ends, or None) or word would do: what a stock is asked, in Python."""
        if self.relation == IS:
            return word in self.words
        if self.relation == CONTAINS:
            return word is not None and self.words[0] in word
        if ends is None:
            return False
        close = self.close
        if self.relation == HOLDS:
            return bool(ends[0] <= self.high + close and ends[1] >= self.low - close)
        if self.relation in (MORE, LESS):
            return bool(ends[0] > self.low + close and ends[1] < self.high - close)
        return bool(ends[0] >= self.low - close and ends[1] <= self.high + close)

    def misses_by(self, ends: tuple[float, float]) -> float:
        """How far a value lies outside, in the house unit."""
        if self.relation == HOLDS:
            return max(ends[0] - self.high, self.low - ends[1], 0.0)
        return max(self.low - ends[0], ends[1] - self.high, 0.0)


class Ask:
    """One condition: a field, the text as typed, and what that asks of each of its numbers and its word.

    ``system`` is the unit system it is typed in, "" where it has none.
    """

    __slots__ = ("clauses", "field", "system", "text")

    def __init__(self, field: Field, text: str, clauses: list[Clause], system: str = "") -> None:
        self.field = field
        self.text = text
        self.clauses = clauses
        self.system = system


class Query:
    """A kind of part and its conditions."""

    __slots__ = ("asks", "kind")

    def __init__(self, kind: str, asks: list[Ask]) -> None:
        self.kind = kind
        self.asks = asks


def read_query(kind: str, conditions: Iterable[str | tuple[str, Any]], tables: Any) -> tuple[Query, list[Fault]]:
    """The query of a kind and its conditions, texts "field=value" or pairs; and every fault, each with the
    number of the condition as its file and the column in it.
    """
    faults: list[Fault] = []
    asks: list[Ask] = []
    if kind not in KINDS:
        near = nearest(kind, KINDS) or nearest(kind.replace("_", "-"), KINDS)
        hint = f"did you mean `{near}`?" if near else "kinds: " + ", ".join(KINDS)
        faults.append(Fault(Mark("KIND", 1, 1), kind, "a kind of part", hint))
        return Query(kind, asks), faults
    for number, condition in enumerate(conditions, start=1):
        ask = _Condition(kind, condition, f"condition {number}", tables, faults).read()
        if ask is not None:
            asks.append(ask)
    return Query(kind, asks), faults


class _Condition:
    def __init__(
        self, kind: str, typed: str | tuple[str, Any], file: str, tables: Any, faults: list[Fault]
    ) -> None:
        self.kind = kind
        self.file = file
        self.tables = tables
        self.faults = faults
        self.typed = typed if isinstance(typed, str) else f"{typed[0]}={typed[1]}"

    def _fault(self, column: int, read: str, expected: str, hint: str = "") -> None:
        self.faults.append(Fault(Mark(self.file, 1, column), read, expected, hint))

    def read(self) -> Ask | None:
        found = re.fullmatch(r"\s*([\w-]+)\s*(=|(?=[<>]))(.*)", self.typed, re.DOTALL)
        if found is None:
            self._fault(1, self.typed, 'a field and its value, such as thickness="38 to 45 mm"')
            return None
        name, text = found[1].replace("-", "_"), found[3].strip()
        column = found.start(3) + 1
        field = self._field(name, found.start(1) + 1)
        if field is None:
            return None
        facets = facets_of(field.type)
        if facets is None:
            self._fault(1, name, f"a field of {self.kind} that has one value", "this one cannot be asked for")
            return None
        if not text:
            self._fault(column, "", field.type.expected, "there is nothing behind the =")
            return None
        try:
            return Ask(field, text, clauses_of(field, facets, text, self.tables), self._system(field, text))
        except NotationError as error:
            hint = error.hint
            if isinstance(field.type, _ORDERED) and (not hint or hint.startswith("units of")):
                hint = RANGES
            self._fault(column, error.read, f"{error.expected} for `{field.key}`", hint)
            return None

    def _system(self, field: Field, text: str) -> str:
        try:
            return str(getattr(field.type.read(split_relation(text)[1], self.tables), "system", ""))
        except NotationError:  # a part of a marking, such as a bolt's thread alone
            return ""

    def _field(self, name: str, column: int) -> Field | None:
        known = {
            field.key: field for field in KINDS[self.kind].fields.values() if field.key not in ("kind", "part")
        }
        if name in known:
            return known[name]
        facets = {key: found for key, field in known.items() if (found := facets_of(field.type)) is not None}
        holders = [key for key, found in facets.items() if name in [number for number, _ in found.numbers]]
        near = nearest(name, known) or next((key for key in known if name in key), "")
        if holders:
            hint = f"it is a part of `{holders[0]}`: {known[holders[0]].type.expected}"
        else:
            hint = f"did you mean `{near}`?" if near else "fields: " + ", ".join(facets)
        self._fault(column, name, f"a field of {self.kind}", hint)
        return None


def clauses_of(field: Field, facets: Facets, text: str, tables: Any) -> list[Clause]:
    """What ``text`` asks of the field.  Raises ``NotationError``."""
    if facets.free:
        return [Clause(WORD, CONTAINS, words=(" ".join(text.split()).casefold(),))]
    if isinstance(field.type, _ORDERED):
        text = _from_and_to(text)
    relation, rest = split_relation(text)
    if relation:
        if not isinstance(field.type, _ORDERED):
            raise NotationError(text, field.type.expected, f"leave `{relation}` out: this has no more and less")
        return _one_sided(field, facets, relation, rest, tables)
    ends = re.split(r"\s+to\s+", text)
    if len(ends) == 2 and isinstance(field.type, (Count, Money, LoadIndexType)):
        return _from_to(field, facets, ends, text, tables)
    return _of_value(field, facets, text, tables)


def split_relation(text: str) -> tuple[str, str]:
    """("at least", "1200 lb") of ">= 1200 lb" and of "1200 lb or more"; ("", text) where it names none.

    >>> split_relation("1200 lb or more"), split_relation("38 to 45 mm")
    (('at least', '1200 lb'), ('', '38 to 45 mm'))
    """
    plain = " ".join(text.split())
    for pattern, relation in () if plain[:1].isdigit() else _BEFORE:
        found = re.match(pattern, plain, re.IGNORECASE)
        if found and (not found[0][-1].isalpha() or plain[found.end() : found.end() + 1] == " "):
            return relation, plain[found.end() :].strip()
    for pattern, relation in _BEHIND if plain.lower().endswith(_LAST_WORDS) else ():
        found = re.search(rf"(?:\s(?:{pattern})|(?<=\w)\+)$", plain, re.IGNORECASE)
        if found:
            return relation, plain[: found.start()].strip()
    return "", text


def _from_and_to(text: str) -> str:
    """ "38 to 45 mm" of "from 38 to 45 mm", "between 38 and 45 mm" and "38 .. 45 mm"."""
    for held, pattern in _TWO_ENDS:
        found = held in text.lower() and re.fullmatch(pattern, text.strip(), re.IGNORECASE | re.DOTALL)
        if found:
            return f"{found[1]} to {found[2]}"
    return text


def _known(field: Field, text: str, tables: Any) -> Any:
    value = field.type.read(text, tables)
    if value is field.type.unknown:
        raise NotationError(text, field.type.expected, "ask for a value; what is not known cannot be found")
    if isinstance(value, UnlistedWord):
        hint = f"did you mean `{value.nearest}`?" if value.nearest else ""
        raise NotationError(text, field.type.expected, hint)
    return value


def _one_sided(field: Field, facets: Facets, relation: str, text: str, tables: Any) -> list[Clause]:
    numbers, word = value_of(_known(field, text, tables))
    if not numbers or numbers[0] is None:
        raise NotationError(text, field.type.expected, f"`{relation}` needs a number")
    (name, unit), (low, high) = facets.numbers[0], numbers[0]
    if re.search(r"\sto\s", text):
        raise NotationError(text, field.type.expected, f"`{relation}` asks of one value, not of a range")
    if relation in (AT_LEAST, MORE):
        clause = Clause(name, relation, low=high if relation == MORE else low, unit=unit)
    else:
        clause = Clause(name, relation, high=low if relation == LESS else high, unit=unit)
    return [clause, *_word_clauses(field, facets, word)]


def _from_to(field: Field, facets: Facets, ends: list[str], text: str, tables: Any) -> list[Clause]:
    last, word = value_of(_known(field, ends[1], tables))
    first, _ = value_of(_known(field, ends[0], tables))
    if not first or not last or first[0] is None or last[0] is None or first[0][0] > last[0][1]:
        raise NotationError(text, field.type.expected, "the smaller end of a range stands first")
    name, unit = facets.numbers[0]
    return [Clause(name, WITHIN, first[0][0], last[0][1], unit), *_word_clauses(field, facets, word)]


def _of_value(field: Field, facets: Facets, text: str, tables: Any) -> list[Clause]:
    """A single value, a range, or a marking of several numbers; a bolt size may leave its length out."""
    try:
        value = _known(field, text, tables)
    except NotationError:
        if not isinstance(field.type, FastenerSizeType):
            raise
        try:
            value = read_thread(text, tables)
        except NotationError:
            value = None
        if value is None:
            raise
    numbers, word = value_of(value)
    clauses = [
        Clause(name, HOLDS if low == high else WITHIN, low, high, unit)
        for (name, unit), ends in zip(facets.numbers, numbers, strict=False)
        if ends is not None
        for low, high in [ends]
    ]
    if isinstance(value, Grade):
        return [Clause(WORD, IS, words=_grades(value))]
    if isinstance(field.type, BoltCircleType):
        for clause in clauses[1:]:
            clause.close = _same_circle(tables)
    return [*clauses, *_word_clauses(field, facets, word)]


def _same_circle(tables: Any) -> float:
    """How far two bolt circles may be apart to count as one, mm: a chord or a rounded size is found, too."""
    row = tables.row("practice", "bolt_circle_tolerance")
    return same_within("mm") if row is None else read_quantity(str(row["value"]), "length").hi


def _word_clauses(field: Field, facets: Facets, word: str | None) -> list[Clause]:
    """An amount without a currency asks for no currency; else the word is asked for."""
    if not facets.word or not word:
        return []
    return [Clause(WORD, IS, words=(word,))]


def _grades(grade: Grade) -> tuple[str, ...]:
    """A stated system matches a bare mark, too; a bare mark matches every system."""
    systems = (grade.system, "") if grade.system else GRADE_SYSTEMS
    return tuple(grade_word(system, grade.mark) for system in systems)
