"""Records: maps of the parts list with typed fields, each value with its place in the file."""

from __future__ import annotations

from partscheck.parts.field import Field

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any, ClassVar

    from partscheck.notation.interval import Interval
    from partscheck.notation.yaml_text import Mark


EVERY_FIELD = "?*"  # in a ledger: the whole record was read


def as_read(record: Record, name: str) -> tuple[tuple[Record, str], ...]:
    """Each way in which a ledger can tell that a field was read."""
    return (record, name), (record, "?" + name), (record, EVERY_FIELD)


class Typed:
    """A value, the text it was read from, where it stands, and the layer it came from.

    ``layer`` is "list" for the user's own file, else the catalogue layer's name.
    """

    __slots__ = ("layer", "mark", "text", "value")

    def __init__(self, value: Any, text: str, mark: Mark | None, layer: str = "list") -> None:
        self.value = value
        self.text = text
        self.mark = mark
        self.layer = layer

    def same_as(self, other: Typed) -> bool:
        """An equal value typed alike; where it stands may differ."""
        return bool(self.text == other.text and self.layer == other.layer and self.value == other.value)


class Record:
    """A map with typed fields.  Reading a field that was not typed gives the type's unknown value.

    ``required`` are keys without which the map says nothing.

    ``ledger``, when set, collects (record, field name) of every read, so the engine knows which
    fields a rule looked at; a name that starts with "?" was only looked at by ``has``.
    """

    fields: ClassVar[dict[str, Field]] = {}
    record_name: ClassVar[str] = ""
    required: ClassVar[tuple[str, ...]] = ()

    def __init_subclass__(cls, **kwargs: Any) -> None:
        super().__init_subclass__(**kwargs)
        found: dict[str, Field] = {}
        for base in reversed(cls.__mro__):
            for name, value in vars(base).items():
                if isinstance(value, Field):
                    found[name] = value
        cls.fields = found

    def __init__(self, id: str = "", mark: Mark | None = None) -> None:
        self.id = id or self.record_name
        self.mark = mark
        self.values: dict[str, Typed] = {}
        self.ledger: list[tuple[Record, str]] | None = None

    def has(self, name: str) -> bool:
        """True when the field has a known value (not left out, not ``unknown``)."""
        ledger = self.ledger
        if ledger is not None:
            ledger.append((self, "?" + name))  # looked at, not asked for
        typed = self.values.get(name)
        return typed is not None and typed.value is not self.fields[name].type.unknown

    def says(self, name: str) -> bool:
        """True when something was typed for the field, ``unknown`` too."""
        return self.typed(name) is not None

    def typed(self, name: str) -> Typed | None:
        """The field's value with its text and place, or None when nothing was typed."""
        ledger = self.ledger
        if ledger is not None:
            ledger.append((self, "?" + name))
        return self.values.get(name)

    def everything(self) -> dict[str, Typed]:
        """All that was typed; whoever reads it depends on every field."""
        if self.ledger is not None:
            self.ledger.append((self, EVERY_FIELD))
        return self.values

    def seen(self, name: str) -> Any:
        """What a read saw that stands in a ledger under this name, to be compared later."""
        return dict(self.values) if name == EVERY_FIELD else self.values.get(name.removeprefix("?"))

    def where(self, name: str) -> Mark | None:
        """Where the field's value stands in the list, else (not typed, or out of the catalogue) where
        the record starts.
        """
        typed = self.values.get(name)
        in_list = typed is not None and typed.mark is not None and typed.layer == "list"
        return typed.mark if typed is not None and in_list else self.mark

    def __repr__(self) -> str:
        return f"<{type(self).__name__} {self.id}>"


class Part(Record):
    """One line of the list: ``kind`` names the class; the common fields are in ``common.py``."""

    kind: ClassVar[str] = ""
    title: ClassVar[str] = ""  # the trade's name for it in a sentence: "lug nut"


def interval_of(record: Record, name: str) -> Interval:
    """A quantity field by name, for code that walks fields."""
    return getattr(record, name)  # type: ignore[no-any-return]
