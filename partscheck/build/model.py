"""The build: everything one parts list says, typed, with the place of each value."""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.parts.record import EVERY_FIELD, Record
from partscheck.parts.records import PartsList

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.limits import Limits
    from partscheck.notation.yaml_text import Mark
    from partscheck.parts.record import Part
    from partscheck.parts.records import (
        Acceptance,
        BoltedJoint,
        Layout,
        LoadEntry,
        Service,
        TowVehicle,
    )


class Listing(Record):
    """What can be asked of a list beyond the fields of its records: which lines of a kind there are, what sits
    where, which unit system leads.  Whoever asks is written into the ledger, like whoever reads a field.
    """

    record_name = "listing"

    def __init__(self, build: Build) -> None:
        super().__init__()
        self.build = build
        self.answers: dict[str, Any] = {}  # by the question; a ``Recheck`` keeps them true

    def seen(self, name: str) -> Any:
        if name == EVERY_FIELD:
            return dict(self.answers)
        if name not in self.answers:
            self.answers[name] = self.build.answer(name)
        return self.answers[name]


# Questions to a listing, as they stand in a ledger; "?kinds lamp reflector": which lines are of these kinds.
KINDS, ID, LINES, JOINTS, LOADS, CASES, LEADING = (
    "?kinds ", "?id ", "?lines", "?joints", "?loads", "?cases", "?leading",
)  # fmt: skip


class Build:
    """One parts list.

    ``ledger`` collects every field read through the build's records, and what was asked of its ``listing``;
    ``tables`` answers ``row(table, key)`` from the catalogue; ``limits`` are the practice limits in force.
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
        self.listing = Listing(self)
        self.listing.ledger = self.ledger
        self._parts: list[Part] = []
        self._joints: list[BoltedJoint] = []
        self._loads: list[LoadEntry] = []
        self._load_cases: list[str] = []
        self.accept: list[Acceptance] = []
        self.header = PartsList()  # what the list itself says: the month that ages count to
        self.overridden: list[tuple[str, str, str]] = []  # catalogue ids: (id, from layer, by layer)
        self.spellings: dict[Any, Any] = {}  # what texts of changes were read as; shared by copies
        self.untold_words: list[tuple[Record, str, str, Mark, str]] = []

    @property
    def parts(self) -> list[Part]:
        """The lines, in the order of the list."""
        self.ledger.append((self.listing, LINES))
        return self._parts

    @parts.setter
    def parts(self, parts: list[Part]) -> None:
        self._parts = parts

    @property
    def joints(self) -> list[BoltedJoint]:
        self.ledger.append((self.listing, JOINTS))
        return self._joints

    @joints.setter
    def joints(self, joints: list[BoltedJoint]) -> None:
        self._joints = joints

    @property
    def loads(self) -> list[LoadEntry]:
        self.ledger.append((self.listing, LOADS))
        return self._loads

    @loads.setter
    def loads(self, loads: list[LoadEntry]) -> None:
        self._loads = loads

    @property
    def load_cases(self) -> list[str]:
        """Names of the load cases, in the order of the list; empty where it names none."""
        self.ledger.append((self.listing, CASES))
        return self._load_cases

    @load_cases.setter
    def load_cases(self, names: list[str]) -> None:
        self._load_cases = names

    @property
    def as_of(self) -> Any:
        """The month that ages count to, or None."""
        typed = self.header.values.get("as_of")
        return None if typed is None else typed.value

    def of_kind(self, *kinds: str) -> list[Part]:
        """The lines of these kinds, in the order of the list."""
        self.ledger.append((self.listing, KINDS + " ".join(kinds)))
        return [part for part in self._parts if part.kind in kinds]

    def part(self, id: str) -> Part | None:
        self.ledger.append((self.listing, ID + id))
        return next((part for part in self._parts if part.id == id), None)

    def answer(self, asked: str) -> Any:
        """What the list answers to a question, but for those about what sits where: then None."""
        if asked.startswith(KINDS):
            kinds = asked.removeprefix(KINDS).split(" ")
            return [part for part in self._parts if part.kind in kinds]
        if asked.startswith(ID):
            return [part for part in self._parts if part.id == asked.removeprefix(ID)][:1]
        if asked == LEADING:
            return self._leading()
        if asked == LOADS:
            return [(load, load.values.get("cases")) for load in self._loads]
        lists: dict[str, list[Any]] = {LINES: self._parts, JOINTS: self._joints, CASES: self._load_cases}
        return list(lists[asked]) if asked in lists else None

    def records(self) -> Iterator[Record]:
        """Every record of the build, the nested ones too."""
        tops: list[Record] = [self.header, self.service, self.layout, self.tow_vehicle, self.limits]
        for record in [*tops, *self._parts, *self._joints, *self._loads, *self.accept]:
            yield from with_nested(record)

    def leading(self) -> str:
        """The unit system most values of the list are typed in: "inch" or "metric"."""
        self.ledger.append((self.listing, LEADING))
        return self._leading()

    def _leading(self) -> str:
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


def with_nested(record: Record) -> Iterator[Record]:
    """A record and every record inside it."""
    yield record
    for name, typed in record.values.items():
        value = typed.value
        field = record.fields.get(name)
        if field is not None and value is field.type.unknown:
            continue  # `load: unknown`: nothing is said, and every list shares the record that says nothing
        for one in value if isinstance(value, list) else [value]:
            if isinstance(one, Record):
                yield from with_nested(one)
