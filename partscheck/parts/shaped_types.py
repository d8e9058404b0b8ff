"""Types that take more than one text: lists of ids, points in a plane, and maps of their own."""

from __future__ import annotations

from partscheck.notation.errors import NotationError
from partscheck.notation.interval import INF, Interval
from partscheck.parts.field import FieldType
from partscheck.parts.measure_types import Distance
from partscheck.parts.number_types import Number
from partscheck.parts.typed_text import UNKNOWN_SPELLINGS, TypedText, texts_of
from partscheck.parts.word_types import Id

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.parts.record import Record


class Ids(TypedText):
    """One id or a list of ids; reads as a tuple of strings."""

    many = True
    name = "ids"
    unknown: Any = ()
    expected = "an id, or a list of ids in square brackets"

    def parse(self, text: Any, tables: Any) -> tuple[str, ...]:
        return tuple(Id().parse(one, tables) for one in texts_of(text, self.expected))

    def schema(self) -> dict[str, Any]:
        one = Id().schema()
        return {"anyOf": [one, {"type": "array", "items": one, "minItems": 1}], "examples": ["arm-bolt"]}


class Point(TypedText):
    """Two lengths ``[4 in, 0 in]``, or two plain numbers for a direction; reads as two intervals."""

    many = True
    unknown: Any = ()

    def __init__(self, plain: bool = False) -> None:
        self.name = "direction" if plain else "point"
        self.one: TypedText = Number(-INF) if plain else Distance()
        self.expected = "two numbers, such as [0, -1]" if plain else "two lengths, such as [4 in, 0 in]"

    def parse(self, text: Any, tables: Any) -> tuple[Interval, ...]:
        texts = texts_of(text, self.expected)
        if isinstance(text, str) or len(texts) != 2:
            raise NotationError(", ".join(texts), self.expected)
        return tuple(self.one.read(one, tables) for one in texts)

    def schema(self) -> dict[str, Any]:
        example = self.expected.partition("such as ")[2].strip("[]").split(", ")
        one = self.one.schema()
        return {"type": "array", "items": one, "minItems": 2, "maxItems": 2, "examples": [example]}


class Points(Point):
    """A list of points; ``read`` gets a list of lists of texts."""

    def __init__(self) -> None:
        super().__init__()
        self.name = "points"
        self.expected = "a list of points, such as [[0 in, 0 in], [4 in, 0 in]]"

    def parse(self, text: Any, tables: Any) -> tuple[Any, ...]:
        if isinstance(text, str) or not text or any(isinstance(one, str) for one in text):
            raise NotationError(text if isinstance(text, str) else "a list", self.expected)
        return tuple(Point.parse(self, one, tables) for one in text)

    def schema(self) -> dict[str, Any]:
        example = [["0 in", "0 in"], ["4 in", "0 in"]]
        return {"type": "array", "items": Point().schema(), "minItems": 1, "examples": [example]}


class Nested(FieldType):
    """A map of its own: a record of class ``record``.  The list reader builds it.

    form   "one": a map; "many": a list of maps; "named": a map of names, each to a map
    Left out, "one" reads as an empty record: every field of it is unknown.
    """

    name = "nested"

    def __init__(self, record: type[Record], form: str = "one", unknown_allowed: bool = False) -> None:
        self.record = record
        self.form = form
        self.unknown_allowed = unknown_allowed
        self.unknown = record() if form == "one" else () if form == "many" else {}
        self.expected = {"one": "a map of fields", "many": "a list", "named": "a map of names"}[form]

    def read(self, text: Any, tables: Any) -> Any:
        if self.unknown_allowed and isinstance(text, str) and text.strip().lower() in UNKNOWN_SPELLINGS:
            return self.unknown
        raise NotationError(str(text), self.expected)

    def schema(self) -> dict[str, Any]:
        one = {"$ref": f"#/$defs/map-{self.record.record_name}"}
        if self.form == "many":
            return {"type": "array", "items": one}
        if self.form == "named":
            return {"type": "object", "additionalProperties": one}
        return one
