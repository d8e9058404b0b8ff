"""What every type that reads text does alike: ``unknown`` and ``?`` read as the unknown value."""

from __future__ import annotations

from typing import Any

from partscheck.parts.field import FieldType

UNKNOWN_SPELLINGS = ("unknown", "?")


class TypedText(FieldType):
    """A type whose value is read from text; ``unknown`` and ``?`` read as the unknown value.

    many   the field takes one text or a list of texts; ``read`` then gets the list
    name   stem of the type's definition in the schema
    """

    many = False
    name = ""

    def read(self, text: Any, tables: Any) -> Any:
        """The value of ``text`` (of a list of texts where ``many``); raises ``NotationError``."""
        if isinstance(text, str) and text.strip().lower() in UNKNOWN_SPELLINGS:
            return self.unknown
        return self.parse(text, tables)

    def parse(self, text: Any, tables: Any) -> Any:
        raise NotImplementedError
