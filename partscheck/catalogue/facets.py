"""What a value is in plain numbers and words, so that parts can be looked up by it.

A thickness is one number with two ends, a bolt circle two (lugs, diameter), a bolt size three and a hand.
Numbers are in house units.  What is not known is None: it is found by no question.
"""

from __future__ import annotations

from partscheck.notation.bolt_circle import BoltCircle
from partscheck.notation.dot_week import DotWeek, Month
from partscheck.notation.fastener_size import FastenerSize
from partscheck.notation.grade import Grade
from partscheck.notation.interval import INF, Interval, Quantity
from partscheck.notation.thread import Thread
from partscheck.notation.tire_size import ServiceDescription, TireSize
from partscheck.notation.wheel_size import WheelSize
from partscheck.notation.wire import WireGauge
from partscheck.notation.words import UNKNOWN_WORD
from partscheck.parts.number_types import Price
from partscheck.parts.types import (
    BoltCircleType,
    Count,
    CountOrFlag,
    DotWeekType,
    FastenerSizeType,
    Flag,
    ForSizeType,
    GradeType,
    Id,
    LengthOrFull,
    LoadIndexType,
    Measured,
    Money,
    MonthType,
    Number,
    Section,
    SectionType,
    ServiceDescriptionType,
    Text,
    ThreadType,
    TireSizeType,
    WheelSizeType,
    WireGaugeType,
    Words,
)

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.parts.field import FieldType

Ends = tuple[float, float]
RIGHT, LEFT = "right-hand", "left-hand"


class Facets:
    """``numbers`` are (name, house unit) of each number of a type; ``word``: it has a word, too; ``free``:
    the word is any text, and a piece of it is enough.
    """

    __slots__ = ("free", "numbers", "word")

    def __init__(self, *numbers: tuple[str, str], word: bool = False, free: bool = False) -> None:
        self.numbers = numbers
        self.word = word or free
        self.free = free


_THREAD = (("diameter", "mm"), ("pitch", "mm"))
_BY_TYPE: tuple[tuple[type, Facets], ...] = (
    (LengthOrFull, Facets(("", "mm"), word=True)),
    (ForSizeType, Facets(("", "mm"))),
    (Number, Facets(("", ""))),
    (Count, Facets(("", ""))),
    (LoadIndexType, Facets(("", ""))),
    (Money, Facets(("", ""), word=True)),
    (BoltCircleType, Facets(("lugs", ""), ("circle", "mm"))),
    (WheelSizeType, Facets(("diameter", "mm"), ("width", "mm"))),
    (SectionType, Facets(("height", "mm"), ("width", "mm"))),
    (ThreadType, Facets(*_THREAD, word=True)),
    (FastenerSizeType, Facets(*_THREAD, ("length", "mm"), word=True)),
    (WireGaugeType, Facets(("", "mm2"))),
    (ServiceDescriptionType, Facets(("index", ""), word=True)),
    (TireSizeType, Facets(word=True)),
    (GradeType, Facets(word=True)),
    (DotWeekType, Facets(word=True)),
    (MonthType, Facets(word=True)),
    (Words, Facets(word=True)),
    (Flag, Facets(word=True)),
    (CountOrFlag, Facets(word=True)),
    (Id, Facets(free=True)),
    (Text, Facets(free=True)),
)


def facets_of(type_: FieldType) -> Facets | None:
    """What a field of this type can be asked by; None where it cannot (places, lists of points)."""
    if isinstance(type_, Measured) and not isinstance(type_, LengthOrFull):
        return Facets(("", type_.unit))
    return next((facets for cls, facets in _BY_TYPE if isinstance(type_, cls)), None)


def value_of(value: Any) -> tuple[tuple[Ends | None, ...], str | None]:
    """(both ends of each number, the word) of a value, in the order of its type's facets."""
    reader = _READERS.get(type(value))
    if reader is not None:
        return reader(value)  # type: ignore[no-any-return]
    if isinstance(value, Quantity):  # a plain interval is what an unknown one can be
        return (_ends(value),), None
    return (), None


def _ends(value: Interval) -> Ends | None:
    return (value.lo, value.hi) if value.hi != INF and value.lo != -INF else None


def _count(value: int | None) -> Ends | None:
    return None if value is None else (float(value), float(value))


def _thread(thread: Thread) -> tuple[tuple[Ends | None, ...], str | None]:
    if not thread.known:
        return (None, None), None
    return (_ends(thread.diameter), _ends(thread.pitch)), LEFT if thread.left_hand else RIGHT


def _size(size: FastenerSize) -> tuple[tuple[Ends | None, ...], str | None]:
    numbers, hand = _thread(size.thread)
    return (*numbers, _ends(size.length)), hand


def _word(word: str) -> tuple[tuple[Ends | None, ...], str | None]:
    """A listed word, or any text, folded; threaded ``full`` has no length."""
    return ((None,) if word == "full" else ()), word.casefold() if word and word is not UNKNOWN_WORD else None


def grade_word(system: str, mark: str) -> str:
    return f"{system}:{mark}"


_READERS: dict[type, Any] = {
    Price: lambda price: (((price.amount, price.amount),), price.currency),
    int: lambda count: ((_count(count),), str(count)),
    bool: lambda flag: ((), str(flag).lower()),
    str: _word,
    type(UNKNOWN_WORD): lambda word: ((), None),
    Thread: _thread,
    FastenerSize: _size,
    BoltCircle: lambda one: ((_count(one.count), _ends(one.diameter)), None),
    WheelSize: lambda one: ((_ends(one.diameter), _ends(one.width)), None),
    Section: lambda one: ((_ends(one.height), _ends(one.width)), None),
    WireGauge: lambda one: ((_ends(one.area),), None),
    ServiceDescription: lambda one: ((_count(one.single),), one.speed or None),
    TireSize: lambda one: ((), one.key or None),
    Grade: lambda one: ((), grade_word(one.system, one.mark) if one.known else None),
    DotWeek: lambda one: ((), one.text if one.known else None),
    Month: lambda one: ((), one.text if one.known else None),
}
