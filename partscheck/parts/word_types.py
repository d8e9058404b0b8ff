"""Types of words: words of a published list, free text, and ids."""

from __future__ import annotations

import re

from partscheck.notation.errors import NotationError
from partscheck.notation.words import UNKNOWN_WORD, nearest
from partscheck.parts.typed_text import TypedText

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

# Any text but an empty one; an editor takes 12 for a number and true for a truth value.
ANY_TEXT = {"type": ["string", "number", "boolean"], "minLength": 1}


class UnlistedWord:
    """A word that is not on the field's list: told to the user, then treated as unknown."""

    __slots__ = ("nearest", "text")

    def __init__(self, text: str, nearest: str = "") -> None:
        self.text = text
        self.nearest = nearest

    def __repr__(self) -> str:
        return f"<unlisted word {self.text!r}>"


class Words(TypedText):
    """One word of a published list; ``synonyms`` maps other usual spellings to it.

    Capitals, blanks, hyphens and underlines make no difference.  Any other text reads as an
    ``UnlistedWord``: the list grows with the trade, so it is no error.
    """

    name = "word"

    def __init__(self, *allowed: str, synonyms: dict[str, str] | None = None) -> None:
        self.allowed = allowed
        self.synonyms = synonyms or {}
        self.unknown = UNKNOWN_WORD
        self.expected = "one of: " + ", ".join(allowed)
        self._found: dict[str, str] = {}  # filled when the first word is read
        for other, word in self.synonyms.items():
            if word not in allowed:
                raise ValueError(f"synonym {other!r} of {word!r}, which is not on the list")

    def _listed(self) -> dict[str, str]:
        """Every spelling, folded, and the word that it stands for."""
        if not self._found:
            self._found = {_folded(word): word for word in self.allowed}
            self._found.update((_folded(other), word) for other, word in self.synonyms.items())
        return self._found

    def parse(self, text: str, tables: Any) -> str | UnlistedWord:
        word = self._listed().get(_folded(text))
        return UnlistedWord(text, self._nearest(text)) if word is None else word

    def _nearest(self, text: str) -> str:
        near = nearest(_folded(text), self._listed())
        return self._listed()[near] if near else ""

    def schema(self) -> dict[str, Any]:
        listed: list[Any] = [*self.allowed, *self.synonyms]
        listed += [int(word) for word in self.allowed if word.isdigit()]
        return {"anyOf": [{"enum": listed}, dict(ANY_TEXT)], "examples": [self.allowed[0]]}


class Text(TypedText):
    """Any text on one or more lines; unknown reads as ""."""

    name = "text"
    unknown = ""
    expected = "a text"

    def parse(self, text: str, tables: Any) -> str:
        return text.strip()

    def schema(self) -> dict[str, Any]:
        return dict(ANY_TEXT)


class Id(Text):
    """A name by which other lines point to this one: letters, digits, blanks and ``- _ . / + # x``."""

    name = "id"
    expected = "a name of at most 80 letters, digits, blanks and - _ . / +"
    GRAMMAR = r"^\w(?:[\w ./+#()-]{0,78}[\w+#)])?$"

    def parse(self, text: str, tables: Any) -> str:
        if not re.match(self.GRAMMAR, text.strip()):
            raise NotationError(text, self.expected)
        return text.strip()

    def schema(self) -> dict[str, Any]:
        return {**ANY_TEXT, "pattern": r"\S", "minimum": 0, "examples": ["wheel"]}


def _folded(text: str) -> str:
    return " ".join(text.lower().replace("_", " ").replace("-", " ").split())
