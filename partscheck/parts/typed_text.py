"""What every type that reads text does alike: ``unknown`` and ``?`` read as the unknown value."""

from __future__ import annotations

from partscheck.notation.errors import NotationError
from partscheck.parts.field import FieldType

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

UNKNOWN_SPELLINGS = ("unknown", "?")


def texts_of(typed: Any, expected: str) -> list[str]:
    """The texts of a field that takes one text or a list of them; raises ``NotationError``."""
    texts = [typed] if isinstance(typed, str) else list(typed)
    if not texts or not all(isinstance(text, str) for text in texts):
        raise NotationError("a list in a list" if texts else "an empty list", expected)
    return texts


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
