"""Typed fields of a record: what a field means, how to measure it, and its value when unknown."""

from __future__ import annotations

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.parts.record import Record


class FieldType:
    """How the text of one field becomes a value.

    ``unknown`` is the value read when nothing (or ``unknown``) was typed; ``expected`` completes
    the sentence "expected ..." of an error; ``schema()`` is the JSON Schema of the typed text.
    """

    unknown: Any = None
    expected: str = "a value"

    def read(self, text: str, tables: Any) -> Any:
        """The value of ``text``; raises ``NotationError``.  ``tables`` are the catalogue's tables."""
        raise NotImplementedError

    def schema(self) -> dict[str, Any]:
        raise NotImplementedError


class Field:
    """One named, typed field of a record class.

    meaning   one line: what it is, measured from where
    measure   how to take it at the bench, with which tool ("" where nothing is measured)
    accuracy  what a careful person reaches with that tool, in the field's house unit (or None)
    """

    __slots__ = ("accuracy", "key", "meaning", "measure", "name", "type")

    def __init__(
        self,
        type: FieldType,
        meaning: str,
        measure: str = "",
        accuracy: float | None = None,
        key: str = "",
    ) -> None:
        self.type = type
        self.meaning = meaning
        self.measure = measure
        self.accuracy = accuracy
        self.key = key  # the YAML key where it is no Python name ("for", "from")
        self.name = ""

    def __set_name__(self, owner: type, name: str) -> None:
        self.name = name
        self.key = self.key or name

    def __get__(self, record: Record | None, owner: type | None = None) -> Any:
        if record is None:
            return self
        ledger = record.ledger
        if ledger is not None:
            ledger.append((record, self.name))
        typed = record.values.get(self.name)
        return self.type.unknown if typed is None else typed.value
