"""Types of the trade's own markings: threads, bolt circles, wheel and tire sizes, grades, dates."""

from __future__ import annotations

import re
from collections.abc import Callable

from partscheck.notation.bolt_circle import BoltCircle, bolt_circle_pattern, read_bolt_circle
from partscheck.notation.dot_week import (
    DotWeek,
    Month,
    dot_week_pattern,
    month_pattern,
    read_dot_week,
    read_month,
)
from partscheck.notation.errors import NotationError
from partscheck.notation.fastener_size import FastenerSize, fastener_size_pattern, read_fastener_size
from partscheck.notation.grade import Grade, grade_pattern, read_grade
from partscheck.notation.interval import INF, Interval, Quantity
from partscheck.notation.measure import quantity_pattern, read_quantity
from partscheck.notation.position import Position, position_pattern, read_position
from partscheck.notation.thread import Thread, read_thread, thread_pattern
from partscheck.notation.tire_size import (
    ServiceDescription,
    TireSize,
    read_service_description,
    read_tire_size,
    service_description_pattern,
    tire_size_pattern,
)
from partscheck.notation.wheel_size import (
    WheelSize,
    offset_pattern,
    read_offset,
    read_wheel_size,
    wheel_size_pattern,
)
from partscheck.notation.wire import WireGauge, read_wire_gauge, wire_gauge_pattern
from partscheck.parts.measure_types import Measured
from partscheck.parts.typed_text import TypedText, texts_of

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any, ClassVar


class Marking(TypedText):
    """A marking read by one function of the notation; ``pattern`` is a loose shape for editors."""

    pattern = r"\S"
    examples: tuple[Any, ...] = ()
    reader: Callable[..., Any]
    with_tables = False  # the reader asks the catalogue's tables
    bare_numbers: ClassVar[dict[str, Any]] = {}  # the schema of those that may be typed without quotes

    def parse(self, text: str, tables: Any) -> Any:
        read = type(self).reader
        return read(text, tables) if self.with_tables else read(text)

    def schema(self) -> dict[str, Any]:
        typed: dict[str, Any] = {"type": "string", "pattern": self.pattern}
        if self.bare_numbers:
            typed = {"anyOf": [typed, self.bare_numbers]}
        return {**typed, "examples": list(self.examples)}


class ThreadType(Marking):
    """A thread callout; reads as ``Thread``."""

    name = "thread"
    unknown = Thread.unknown
    expected = "a thread, such as 1/2-20 UNF or M12x1.5"
    pattern = thread_pattern
    examples = ("1/2-20", "M12x1.5", "1-14 UNS")
    reader = staticmethod(read_thread)
    with_tables = True


class BoltCircleType(Marking):
    """Count and circle of the lugs; reads as ``BoltCircle``."""

    name = "bolt-circle"
    unknown = BoltCircle.unknown
    expected = "a count and a bolt circle, such as 5 x 4.5 in"
    pattern = bolt_circle_pattern
    examples = ("5 x 4.5 in", "5x114.3 mm", "5 lugs, 2.645 in between neighbours")
    reader = staticmethod(read_bolt_circle)


class WheelSizeType(Marking):
    """Rim diameter and width; reads as ``WheelSize``."""

    name = "wheel-size"
    unknown = WheelSize.unknown
    expected = "a wheel size, such as 15 x 7 in"
    pattern = wheel_size_pattern
    examples = ("15 x 7 in", "4.5J x 13")
    reader = staticmethod(read_wheel_size)


class TireSizeType(Marking):
    """The size as moulded on the sidewall; reads as ``TireSize``."""

    name = "tire-size"
    unknown = TireSize.unknown
    expected = "a tire size as moulded, such as ST205/75R14"
    pattern = tire_size_pattern
    examples = ("ST205/75R14", "P205/75R15", "31x10.50R15LT", "4.80-12")
    reader = staticmethod(read_tire_size)


class ServiceDescriptionType(Marking):
    """Load index and speed symbol, ``102/99S``; reads as ``ServiceDescription``."""

    name = "service-description"
    unknown = ServiceDescription.unknown
    expected = "a service description, such as 102/99S"
    pattern = service_description_pattern
    examples = ("102/99S", "94S")
    reader = staticmethod(read_service_description)


class GradeType(Marking):
    """A fastener's grade or class as marked on it; reads as ``Grade``."""

    name = "grade"
    unknown = Grade.unknown
    expected = "a grade as marked, such as grade 5, 8.8, 3 lines or no marks"
    pattern = grade_pattern
    examples = ("grade 5", "8", "10.9", "A2-70", "no marks", "6 lines")
    reader = staticmethod(read_grade)
    bare_numbers: ClassVar[dict[str, Any]] = {"type": "number", "minimum": 0}


class DotWeekType(Marking):
    """Week and year of making, the last four digits of the tire's code; reads as ``DotWeek``."""

    name = "dot-week"
    unknown = DotWeek.unknown
    expected = "a week and year of making, four digits, such as 3519"
    pattern = dot_week_pattern
    examples = ("3519",)
    reader = staticmethod(read_dot_week)
    bare_numbers: ClassVar[dict[str, Any]] = {"type": "integer", "minimum": 0, "maximum": 9999}


class MonthType(Marking):
    """A month, ``2025-06``; reads as ``Month``."""

    name = "month"
    unknown = Month.unknown
    expected = "a year and month, such as 2025-06"
    pattern = month_pattern
    examples = ("2025-06",)
    reader = staticmethod(read_month)


class FastenerSizeType(Marking):
    """Thread and length of a bolt; reads as ``FastenerSize``."""

    name = "fastener-size"
    unknown = FastenerSize.unknown
    expected = "a thread and a length, such as 1/2-13 x 2-1/2 in"
    pattern = fastener_size_pattern
    examples = ("1/2-13 x 2-1/2 in", "M12x1.75 x 60 mm", "M12 x 60")
    reader = staticmethod(read_fastener_size)
    with_tables = True


class WireGaugeType(Marking):
    """Size of the copper; reads as ``WireGauge``."""

    name = "wire-gauge"
    unknown = WireGauge.unknown
    expected = "a wire size, such as 14 AWG or 2.5 mm²"
    pattern = wire_gauge_pattern
    examples = ("14 AWG", "2.5 mm²")
    reader = staticmethod(read_wire_gauge)


class OffsetType(Measured):
    """A wheel's offset: ``+30 mm``, ``-0.5 in`` or ``ET 30``; unknown reaches both ways."""

    def __init__(self) -> None:
        super().__init__("length", -INF)
        self.name = "offset"
        self.examples = ["+30 mm", "ET 30", "-12 mm"]
        self.expected = "an offset, such as +30 mm or ET 30"

    def parse(self, text: str, tables: Any) -> Quantity:
        return read_offset(text)

    def schema(self) -> dict[str, Any]:
        typed = {"type": "string", "pattern": offset_pattern}
        return {"anyOf": [typed, {"const": 0}], "examples": self.examples}


class PositionsType(TypedText):
    """One place or a list of places (``1L``, ``2R``, ``spare``); reads as a tuple of ``Position``."""

    many = True
    name = "positions"
    unknown: Any = ()
    expected = "a place such as 1L, 2R or spare, or a list of places in square brackets"

    def parse(self, text: Any, tables: Any) -> tuple[Position, ...]:
        return tuple(read_position(one) for one in texts_of(text, self.expected))

    def schema(self) -> dict[str, Any]:
        one = {"type": "string", "pattern": position_pattern}
        many = {"type": "array", "items": one, "minItems": 1}
        return {"anyOf": [one, many], "examples": ["1L", ["1L", "1R"], "spare"]}


class LoadIndexType(TypedText):
    """The load index, ``104`` or ``104/101``; reads as the whole number for a single wheel."""

    name = "load-index"
    expected = "a load index, such as 104 or 104/101"
    GRAMMAR = r"^\s*(\d{1,3})(?:\s*/\s*(\d{1,3}))?\s*$"

    def parse(self, text: str, tables: Any) -> int:
        found = re.match(self.GRAMMAR, text, re.ASCII)
        if found is None:
            hint = "the letter belongs in speed_symbol, or type it all in service_description"
            raise NotationError(text, self.expected, hint if re.search(r"\d[A-Za-z]", text) else "")
        if int(found[1]) > 279:
            raise NotationError(text, self.expected, "the indexes end at 279")
        return int(found[1])

    def schema(self) -> dict[str, Any]:
        whole = {"type": "integer", "minimum": 0, "maximum": 279}
        typed = {"type": "string", "pattern": self.GRAMMAR}
        return {"anyOf": [whole, typed], "examples": [104, "104/101"]}


class ForSizeType(TypedText):
    """The bolt a washer is made for: a thread or a diameter; reads as the diameter in mm."""

    name = "for-size"
    unknown = Interval.unknown("mm")
    expected = "the bolt it is for, such as 1/2 in, 1/2-13 or M12"

    def parse(self, text: str, tables: Any) -> Quantity:
        if re.search(r"[Mm]\s*\d|-\s*\d", text) and not re.search(r"\d\s*(?:in|mm|\")", text):
            thread = read_thread(text, tables)
            system = "inch" if thread.inch else "metric"
            return Quantity(thread.diameter.lo, thread.diameter.hi, "mm", text, system)
        return read_quantity(text, "length")

    def schema(self) -> dict[str, Any]:
        length = {"type": "string", "pattern": quantity_pattern("length")}
        thread = {"type": "string", "pattern": thread_pattern}
        return {"anyOf": [length, thread], "examples": ["1/2 in", "M12"]}


class Section:
    """Outside height and width of a tube or channel, in mm."""

    __slots__ = ("height", "known", "text", "width")

    def __init__(self, height: Interval, width: Interval, text: str = "", known: bool = True) -> None:
        self.height = height
        self.width = width
        self.text = text
        self.known = known

    def __repr__(self) -> str:
        return f"<section {self.text or 'unknown'}>"


class SectionType(TypedText):
    """Outside size of a tube, upright side first: ``3 x 2 in``; reads as ``Section``."""

    name = "section"
    unknown = Section(Interval.unknown("mm"), Interval.unknown("mm"), known=False)
    expected = "the outside size of a tube, upright side first, such as 3 x 2 in"
    UNIT = r"(in|inch|inches|\"|mm|cm)\s*$"

    def parse(self, text: str, tables: Any) -> Section:
        pieces = re.split(r"\s*[xX]\s*", text.strip())
        unit = re.search(self.UNIT, text)
        if len(pieces) != 2 or unit is None:
            raise NotationError(text, self.expected)
        if not re.search(self.UNIT, pieces[0]):
            pieces[0] += f" {unit[1]}"
        height, width = (read_quantity(piece, "length") for piece in pieces)
        if height.lo <= 0 or width.lo <= 0:
            raise NotationError(text, self.expected, "both sides are more than 0")
        return Section(height, width, text)

    def schema(self) -> dict[str, Any]:
        return {"type": "string", "pattern": r"\d.*[xX].*\d", "examples": ["3 x 3 in", "80 x 60 mm"]}
