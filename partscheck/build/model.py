"""The build: everything one parts list says, typed, with the place of each value."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from partscheck.parts.records import PartsList

if TYPE_CHECKING:
    from partscheck.build.limits import Limits
    from partscheck.notation.yaml_text import Mark
    from partscheck.parts.record import Part, Record
    from partscheck.parts.records import (
        Acceptance,
        BoltedJoint,
        Layout,
        LoadEntry,
        Service,
        TowVehicle,
    )


class Build:
    """One parts list.

    ``ledger`` collects every field read through the build's records; ``tables`` answers
    ``row(table, key)`` from the catalogue; ``limits`` are the practice limits in force.
    """

    def __init__(self, name: str, file: str, tables: Any) -> None:
        self.name = name
        self.file = file
        self.tables = tables
        self.ledger: list[tuple[Record, str]] = []
        self.service: Service
        self.layout: Layout
        self.tow_vehicle: TowVehicle
        self.limits: Limits
        self.parts: list[Part] = []
        self.joints: list[BoltedJoint] = []
        self.loads: list[LoadEntry] = []
        self.load_cases: list[str] = []
        self.accept: list[Acceptance] = []
        self.header = PartsList()  # what the list itself says: the month that ages count to
        self.overridden: list[tuple[str, str, str]] = []  # catalogue ids: (id, from layer, by layer)
        self.untold_words: list[tuple[Record, str, str, Mark, str]] = []

    @property
    def as_of(self) -> Any:
        """The month that ages count to, or None."""
        typed = self.header.values.get("as_of")
        return None if typed is None else typed.value

    def of_kind(self, *kinds: str) -> list[Part]:
        """The lines of these kinds, in the order of the list."""
        return [part for part in self.parts if part.kind in kinds]

    def part(self, id: str) -> Part | None:
        return next((part for part in self.parts if part.id == id), None)

    def records(self) -> Iterator[Record]:
        """Every record of the build, the nested ones too."""
        tops: list[Record] = [self.header, self.service, self.layout, self.tow_vehicle, self.limits]
        for record in [*tops, *self.parts, *self.joints, *self.loads, *self.accept]:
            yield from _with_nested(record)

    def leading(self) -> str:
        """The unit system most values of the list are typed in: "inch" or "metric"."""
        inch = metric = 0
        for record in self.records():
            for typed in record.values.values():
                if typed.layer == "list":
                    system = getattr(typed.value, "system", "")
                    inch += system == "inch"
                    metric += system == "metric"
        return "inch" if inch > metric else "metric"

    def listen(self) -> None:
        """Let every record write its reads into the ledger."""
        for record in self.records():
            record.ledger = self.ledger


def pieces(part: Part) -> int | None:
    """How many pieces of a line are in hand or in the cart: qty, or packs x pack; None: not counted.

    ``have: 4`` pieces in hand come on top of what ``qty`` or ``packs`` buys only when it is more.
    """
    line: Any = part
    count: int | None = None
    if line.has("qty"):
        count = line.qty
    elif line.has("packs") or line.has("pack"):
        count = (line.packs if line.has("packs") else 1) * (line.pack if line.has("pack") else 1)
    have = line.have if line.has("have") else None
    if isinstance(have, int) and not isinstance(have, bool):
        count = have if count is None else max(count, have)
    return count


def _with_nested(record: Record) -> Iterator[Record]:
    from partscheck.parts.record import Record as _Record

    yield record
    for name, typed in record.values.items():
        value = typed.value
        field = record.fields.get(name)
        if field is not None and value is field.type.unknown:
            continue  # `load: unknown`: nothing is said, and every list shares the record that says nothing
        for one in value if isinstance(value, list) else [value]:
            if isinstance(one, _Record):
                yield from _with_nested(one)
