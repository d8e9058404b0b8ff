"""Checks catalogue folders: every fault with its place, then what a person should know of a sound one.

Which parts replace which, and what differs; the same values under two ids; how many parts of which kinds.
"""

from __future__ import annotations

import os
from sqlite3 import DatabaseError

from partscheck.catalogue.catalogue import Catalogue
from partscheck.catalogue.layers import SHIPPED, read_layers
from partscheck.catalogue.replaced import Replacements
from partscheck.catalogue.schema_check import schema_faults
from partscheck.catalogue.source import read_source
from partscheck.catalogue.stock import quoted
from partscheck.notation.faults import Fault, Faults
from partscheck.progress import Progress

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from typing import Any

    from partscheck.catalogue.layers import Layer
    from partscheck.catalogue.replaced import Replaced
    from partscheck.catalogue.source import Source
    from partscheck.catalogue.stock import Stock

TOLD_AT_MOST = 50  # of each sort of note
LEAST_VALUES = 2  # with fewer, two parts are alike only because little is said of them
# What two shops may have differently for the same part.
OF_A_SHOP = ("price", "seller", "weight", "pack", "packs", "qty", "have", "note", "basis", "id")
LOOK_EACH = 5_000


class Alike:
    """Two ids of one kind whose stated values are the same."""

    __slots__ = ("first", "kind", "second")

    def __init__(self, kind: str, first: str, second: str) -> None:
        self.kind = kind
        self.first = first
        self.second = second


class FolderReport:
    """What was found: ``kinds`` kind -> number of parts in force; ``tables`` rows that the folders hold, by table;
    ``files``; ``replaced`` and ``alike`` (at most 50 of each, ``replaced_more`` and ``alike_more`` counting the
    rest); ``schema`` False where jsonschema is not installed.
    """

    def __init__(self, folders: list[str]) -> None:
        self.folders = folders
        self.files: list[str] = []
        self.kinds: dict[str, int] = {}
        self.tables: dict[str, int] = {}
        self.replaced: list[Replaced] = []
        self.replaced_more = 0
        self.alike: list[Alike] = []
        self.alike_more = 0
        self.schema = True

    @property
    def parts(self) -> int:
        return sum(self.kinds.values())


def check_folders(folders: Iterable[str | os.PathLike[str]]) -> FolderReport:
    """Check catalogue folders (or files), later ones over earlier ones and all over the shipped catalogue.

    Raises ``Faults`` with every fault of every file.
    """
    names = [os.fspath(folder) for folder in folders]
    layers = read_layers(names)
    told = _faults(names)
    by_schema = schema_faults(layers[1:])
    lines = {(fault.mark.file, fault.mark.line) for fault in told}
    told += [one for one in by_schema or [] if (one.mark.file, one.mark.line) not in lines]
    if told:
        raise Faults(told)
    catalogue = Catalogue.load(names)
    try:
        report = _report(names, layers, catalogue)
    except DatabaseError:  # a file in the cache folder is damaged
        catalogue.forget_stocks()
        report = _report(names, layers, catalogue)
    report.schema = by_schema is not None
    return report


def _report(names: list[str], layers: list[Layer], catalogue: Catalogue) -> FolderReport:
    report = FolderReport(names)
    report.files = [file for layer in layers[1:] for file in (*(name for name, _ in layer.files),
                                                             *(rows.shown for rows in layer.rows))]  # fmt: skip
    source = read_source(layers, [])
    _tables(report, source, layers[1:])
    replaced = Replacements(layers, source, catalogue, TOLD_AT_MOST)
    report.replaced, report.replaced_more = replaced.told, replaced.count - len(replaced.told)
    _count_and_compare(report, catalogue)
    return report


def _faults(names: list[str]) -> list[Fault]:
    try:
        Catalogue.load(names).close()
    except Faults as found:
        return list(found.faults)
    return []


def _tables(report: FolderReport, source: Source, layers: list[Layer]) -> None:
    own = {layer.name for layer in layers}
    for table in source.tables.values():
        count = sum(row.layer in own for row in table.rows.values())
        if count:
            report.tables[table.name] = count


# ---- the same under two ids, and the count ------------------------------------------------------


def _count_and_compare(report: FolderReport, catalogue: Catalogue) -> None:
    """Every part in force once: counted by kind, and compared with those before by all it states."""
    stocks = catalogue.stocks()
    shipped = {part.id for part in catalogue.parts() if part.layer == SHIPPED}
    seen: dict[int, str] = {}
    total = sum(sum(stock.kinds().values()) for stock in stocks)
    done = 0
    with Progress("comparing parts", total) as progress:
        for stock in stocks:
            for kind in stock.kinds():
                for id, values in _values(stock, kind):
                    done += 1
                    if done % LOOK_EACH == 0:
                        progress.at(done)
                    of_shipped = stock is stocks[0] and id in shipped
                    if len(stocks) > 1 and not catalogue.is_in_force(id, stock):
                        continue
                    if not of_shipped:
                        report.kinds[kind] = report.kinds.get(kind, 0) + 1
                    if len(values) >= LEAST_VALUES:
                        _compare(report, kind, id, hash((kind, values)), seen, of_shipped)


def _compare(report: FolderReport, kind: str, id: str, key: int, seen: dict[int, str], of_shipped: bool) -> None:
    first = seen.setdefault(key, id)
    if first == id or of_shipped:
        return
    if len(report.alike) < TOLD_AT_MOST:
        report.alike.append(Alike(kind, *sorted((first, id))))
    else:
        report.alike_more += 1


def _values(stock: Stock, kind: str) -> Iterator[tuple[str, frozenset[tuple[str, Any]]]]:
    """Each part's id and what it states, in house units: a value is the same however it was typed."""
    table = quoted(f"of {kind}")
    rows = stock.connection.execute(f"SELECT part.id, of.* FROM {table} AS of JOIN part ON number = of.part")
    names = [column[0] for column in rows.description]
    kept = [
        (place, name) for place, name in enumerate(names)
        if name not in ("place", "part") and name.partition(" ")[0] not in OF_A_SHOP and place > 0
    ]  # fmt: skip
    for row in rows:
        yield row[0], frozenset((name, _rounded(row[place])) for place, name in kept if row[place] is not None)


def _rounded(value: Any) -> Any:
    return round(value, 4) if isinstance(value, float) else value
