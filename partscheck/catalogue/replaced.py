"""What a later layer of a catalogue replaces: where both stand, and what of it differs in value."""

from __future__ import annotations

from itertools import pairwise

from partscheck.catalogue.catalogue import Catalogue
from partscheck.catalogue.facets import value_of
from partscheck.notation.errors import NotationError
from partscheck.parts.kinds import KINDS
from partscheck.progress import Progress

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import Any

    from partscheck.catalogue.catalogue import PartEntry
    from partscheck.catalogue.layers import Layer
    from partscheck.catalogue.source import Source
    from partscheck.catalogue.stock import Stock

LOOK_EACH = 5_000


class Replaced:
    """A part, or a row of a table ("table/key"), that a later layer has, too.

    ``below`` and ``above`` are the names of the two layers, ``below_at`` and ``above_at`` where each stands (file,
    line); ``differs`` holds (field, text below, text above) of each field whose value differs: 3 in and 76.2 mm
    do not.
    """

    __slots__ = ("above", "above_at", "below", "below_at", "differs", "id")

    def __init__(self, id: str, below: str, above: str) -> None:
        self.id = id
        self.below = below
        self.above = above
        self.below_at: tuple[str, int] = ("", 0)
        self.above_at: tuple[str, int] = ("", 0)
        self.differs: list[tuple[str, str, str]] = []

    @property
    def conflict(self) -> bool:
        """Whether the two are not even of one kind, so that a list that means one of them gets the other."""
        return any(field == "kind" for field, _, _ in self.differs)


class Replacements:
    """Everything that is replaced: ``count`` of it, the first ``most`` as ``told``, conflicts before the rest."""

    def __init__(self, layers: list[Layer], source: Source, catalogue: Catalogue, most: int) -> None:
        self._names = [layer.name for layer in layers]
        self._catalogue = catalogue
        self._most = most
        self._upto: dict[str, Catalogue] = {self._names[-1]: catalogue}
        self.count = 0
        self.told: list[Replaced] = []
        self._of_tables = {f"{table}/{row.key}" for table, row, _ in source.replaced_rows}
        self._rows(source)
        plain: list[Replaced] = []
        for id, below, above in self._parts():
            self.count += 1
            if len(self.told) >= most:
                continue
            one = self._compared(id, below, above) if len(plain) < most else self._of_other_kind(id, below, above)
            if one is not None:
                (self.told if one.conflict else plain).append(one)
        self.told = [*self.told, *plain][:most]
        self.told.sort(key=lambda one: not one.conflict)

    def _rows(self, source: Source) -> None:
        for table, below, above in source.replaced_rows:
            self.count += 1
            one = Replaced(f"{table}/{below.key}", below.layer, above.layer)
            one.below_at, one.above_at = (below.mark.file, below.mark.line), (above.mark.file, above.mark.line)
            cells = dict.fromkeys((*below.cells, *above.cells))
            texts = ((key, _cell(below.cells.get(key)), _cell(above.cells.get(key))) for key in cells)
            one.differs = [told for told in texts if told[1] != told[2]]
            if len(self.told) < self._most:
                self.told.append(one)

    # ---- which parts, between which two layers --------------------------------------------

    def _parts(self) -> Iterator[tuple[str, str, str]]:
        """(id, layer below, the next layer above that has it)."""
        order = {name: number for number, name in enumerate(self._names)}
        rows = self._catalogue.stocks()[1:]
        of_yaml: dict[str, set[str]] = {}
        for id, below, above in self._catalogue.overridden:
            if id not in self._of_tables:
                of_yaml.setdefault(id, set()).update((below, above))
        for id, layers in of_yaml.items():
            layers |= {stock.layer for stock in rows if stock.holds(id)}
            chain = sorted((layer for layer in layers if layer in order), key=order.__getitem__)
            for below, above in pairwise(chain):
                yield id, below, above
        yield from self._of_rows(rows, of_yaml)

    def _of_rows(self, rows: list[Stock], of_yaml: dict[str, set[str]]) -> Iterator[tuple[str, str, str]]:
        if len({stock.layer for stock in rows}) < 2:
            return
        total = sum(sum(stock.kinds().values()) for stock in rows[1:])
        done = 0
        with Progress("comparing layers", total) as progress:
            for number, stock in enumerate(rows):
                lower = [one for one in reversed(rows[:number]) if one.layer != stock.layer]
                for id in stock.ids() if lower else ():
                    done += 1
                    if done % LOOK_EACH == 0:
                        progress.at(done)
                    below = next((one for one in lower if one.holds(id)), None)
                    if below is not None and id not in of_yaml:
                        yield id, below.layer, stock.layer

    # ---- what differs ---------------------------------------------------------------------

    def _entries(self, id: str, below: str, above: str) -> tuple[PartEntry, PartEntry] | None:
        """Both parts, each out of the catalogue as it is with its layer on top."""
        old, new = (self._with_on_top(name).part(id) for name in (below, above))
        return None if old is None or new is None else (old, new)

    def _of_other_kind(self, id: str, below: str, above: str) -> Replaced | None:
        """A conflict is told even where there are many others of no such weight."""
        old, new = (self._with_on_top(name).kind_of(id) for name in (below, above))
        return self._compared(id, below, above) if old != new else None

    def _with_on_top(self, name: str) -> Catalogue:
        """The catalogue up to this layer."""
        if name not in self._upto:
            self._upto[name] = Catalogue.load(self._names[1 : self._names.index(name) + 1])
        return self._upto[name]

    def _compared(self, id: str, below: str, above: str) -> Replaced | None:
        entries = self._entries(id, below, above)
        if entries is None:
            return None
        old, new = entries
        one = Replaced(id, below, above)
        one.below_at, one.above_at = (old.file, old.line), (new.file, new.line)
        if old.kind != new.kind:
            one.differs.append(("kind", old.kind, new.kind))
        texts = [{key: text for key, (text, *_) in entry.fields.items()} for entry in (old, new)]
        for key in dict.fromkeys((*texts[0], *texts[1])):
            first, second = texts[0].get(key, ""), texts[1].get(key, "")
            if not self._same(new.kind if old.kind == new.kind else "", key, first, second):
                one.differs.append((key, first, second))
        return one

    def _same(self, kind: str, key: str, first: str, second: str) -> bool:
        """Whether two texts say the same of a field, however they are typed."""
        if "".join(first.split()) == "".join(second.split()):
            return True
        fields = KINDS[kind].fields.values() if kind in KINDS else ()
        field = next((one for one in fields if one.key == key), None)
        if field is None or not first or not second:
            return False
        try:
            values = [value_of(field.type.read(text, self._catalogue)) for text in (first, second)]
        except NotationError:  # told when the catalogue was read
            return False
        return values[0] != ((), None) and _rounded(values[0]) == _rounded(values[1])


def _rounded(value: Any) -> Any:
    if isinstance(value, tuple):
        return tuple(map(_rounded, value))
    return round(value, 4) if isinstance(value, float) else value


def _cell(value: Any) -> str:
    return "" if value is None else ", ".join(map(str, value)) if isinstance(value, list) else str(value)
