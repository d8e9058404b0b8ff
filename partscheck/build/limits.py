"""Practice limits in force: the shipped ones, and the user's own over them with a reason."""

from __future__ import annotations

from partscheck.notation.interval import Interval
from partscheck.notation.measure import DIMENSIONS, read_quantity
from partscheck.notation.yaml_text import Mark
from partscheck.parts.record import EVERY_FIELD, Record

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any


class OwnLimit:
    """A limit that the user set: its value, their reason, where it stands."""

    __slots__ = ("mark", "reason", "value")

    def __init__(self, value: Interval, reason: str, mark: Mark | None) -> None:
        self.value = value
        self.reason = reason
        self.mark = mark


class Limits(Record):
    """Reads like a record: ``limits.stud_below_flush`` is an interval in its house unit.

    ``own`` maps a limit's name to the user's ``OwnLimit``.
    """

    record_name = "practice"

    def __init__(self, tables: Any) -> None:
        super().__init__("practice")
        self._tables = tables
        self._shipped: dict[str, Interval] = {}
        self.own: dict[str, OwnLimit] = {}

    def __getattr__(self, name: str) -> Interval:
        if name.startswith("_"):
            raise AttributeError(name)
        ledger = self.__dict__.get("ledger")
        if ledger is not None:
            ledger.append((self, name))
        own = self.own.get(name)
        return own.value if own is not None else self.shipped(name)

    def seen(self, name: str) -> Any:
        return dict(self.own) if name == EVERY_FIELD else self.own.get(name.removeprefix("?"))

    def shipped(self, name: str) -> Interval:
        """The limit as the catalogue ships it; ``KeyError`` when there is none of that name."""
        if name not in self._shipped:
            row = self._tables.row("practice", name)
            if row is None:
                raise KeyError(f"no practice limit called {name}")
            self._shipped[name] = read_limit(row["value"], dimension_of(row))
        return self._shipped[name]

    def row(self, name: str) -> dict[str, Any]:
        """The catalogue's row: value, meaning, reason, basis."""
        found: dict[str, Any] = self._tables.row("practice", name)
        return found

    def names(self) -> list[str]:
        return [row["key"] for row in self._tables.rows("practice")]

    def is_own(self, name: str) -> bool:
        return name in self.own


def dimension_of(row: dict[str, Any]) -> str:
    """The dimension of a limit, from its row."""
    return str(row.get("dimension") or _dimension_of_unit(str(row["value"])))


def read_limit(text: Any, dimension: str) -> Interval:
    """A limit's value in its house unit; raises ``NotationError``."""
    return read_quantity(str(text), dimension)


def _dimension_of_unit(text: str) -> str:
    """The dimension in which the text reads as a value."""
    for dimension in ("ratio", *DIMENSIONS):
        try:
            read_quantity(text, dimension)
        except ValueError:
            continue
        return dimension
    raise ValueError(f"no dimension reads {text!r}")
