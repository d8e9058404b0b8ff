"""All stocks of one catalogue: that of its YAML parts and those of its files of rows, opened when needed."""

from __future__ import annotations

import sqlite3
from contextlib import suppress
from itertools import groupby

from partscheck import __version__
from partscheck.catalogue.compile import SCHEMA_VERSION
from partscheck.catalogue.layers import ROWS_JSON, digest, sha256
from partscheck.catalogue.stock import STOCK_VERSION, NewStock, Stock, open_stock, same_ids
from partscheck.notation.faults import Fault, Faults
from partscheck.notation.yaml_text import Mark

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.catalogue.families import Part
    from partscheck.catalogue.layers import Layer, RowFile
    from partscheck.catalogue.source import Source

SHARED_AT_MOST = 50  # ids of two files of one folder that are told
SIMILAR_STARTS = 3  # characters that an id shares with what was likely meant
SIMILAR_AT_MOST = 3_000


class RowStocks:
    """The stocks of all files of rows, in the order of the layers."""

    def __init__(self, layers: list[Layer]) -> None:
        self.layers = layers
        self.files: list[tuple[Layer, RowFile]] = [(layer, rows) for layer in layers for rows in layer.rows]
        self._open: list[Stock] | None = None

    def all(self) -> list[Stock]:
        """Each of them, made now where it is not there.  Raises ``Faults`` with those of every file."""
        if self._open is None:
            self._open = self._opened()
        return self._open

    def close(self) -> None:
        for stock in self._open or []:
            stock.close()
        self._open = None

    def forget(self) -> None:
        """Take them away; each is made anew when it is asked for."""
        for stock in self._open or []:
            stock.forget()
        self._open = None

    def _opened(self) -> list[Stock]:
        shipped = digest(self.layers[:1], SCHEMA_VERSION)
        found: list[Stock] = []
        faults: list[Fault] = []
        tables: Any = _ShippedTables()
        for layer, rows in self.files:
            key = _key(rows, shipped)
            try:
                connection = open_stock(key) or _made(rows, key, tables)
            except Faults as wrong:
                faults += wrong.faults
                continue
            found.append(Stock(connection, layer.name, rows.shown, f"the user's own file {rows.shown}"))
        if faults:
            for stock in found:
                stock.close()
            raise Faults(faults)
        return found

    def holder(self, id: str) -> Stock | None:
        """The stock of the last layer that holds this part."""
        return next((stock for stock in reversed(self.all()) if stock.holds(id)), None)

    def similar(self, id: str) -> list[str]:
        """Ids that begin alike: what a mistyped one may have meant."""
        start = id[:SIMILAR_STARTS]
        return [near for stock in self.all() for near in stock.ids_from(start, SIMILAR_AT_MOST)] if start else []


def _key(rows: RowFile, shipped: str) -> str:
    """What the stock of this file depends on: its content, its form, the reader, and the shipped tables."""
    form = "json" if rows.path.lower().endswith(ROWS_JSON) else "csv"
    total = sha256()
    total.update(f"{rows.digest} {form} {STOCK_VERSION} {__version__} {shipped}".encode())
    return str(total.hexdigest())


def _made(rows: RowFile, key: str, tables: Any) -> sqlite3.Connection:
    from partscheck.catalogue.rows import make_row_stock  # only where a file was changed

    try:
        return make_row_stock(rows, key, tables)
    except sqlite3.OperationalError:  # no room in the cache folder
        return make_row_stock(rows, key, tables, kept=False)


class _ShippedTables:
    """The shipped tables, for the notations that need them; read when the first row needs one."""

    def __init__(self) -> None:
        self._found: Any = None

    def row(self, table: str, key: str) -> Any:
        return self._catalogue().row(table, key)

    def rows(self, table: str) -> Any:
        return self._catalogue().rows(table)

    def _catalogue(self) -> Any:
        if self._found is None:
            from partscheck.catalogue.catalogue import Catalogue

            self._found = Catalogue.load()
        return self._found


def meet(stocks: RowStocks, parts: dict[str, Part], source: Source, faults: list[Fault]) -> None:
    """Where rows and YAML parts have the same id: the later layer wins and it is recorded, the same layer is a
    fault.  YAML parts that lose are taken out of ``parts``.
    """
    order = {layer.name: number for number, layer in enumerate(stocks.layers)}
    found = stocks.all()
    for number, first in enumerate(found):
        for second in found[number + 1 :]:
            if first.layer == second.layer:
                for id in same_ids(first, second, SHARED_AT_MOST):
                    mark = Mark(second.file, second.line_of(id), 1)
                    there = f"{first.file}:{first.line_of(id)} has it already"
                    faults.append(Fault(mark, id, "each id once in a folder", there))
    for id in [id for id in parts if any(stock.holds(id) for stock in found)]:
        part = parts[id]
        for stock in (one for one in found if one.holds(id)):
            if stock.layer == part.layer:
                line = stock.line_of(id)
                faults.append(
                    Fault(part.mark, id, "each id once in a folder", f"{stock.file}:{line} has it already")
                )
            elif order[stock.layer] > order[part.layer]:
                source.overridden.append((id, part.layer, stock.layer))
                parts.pop(id, None)
            else:
                source.overridden.append((id, stock.layer, part.layer))


def own_stock(key: str, connection: sqlite3.Connection, tables: Any) -> Stock:
    """The stock of the parts in YAML files, out of the compiled catalogue, made on the first question."""
    key = f"{key[:28]}y{STOCK_VERSION}{key[28:]}"
    found = open_stock(key)
    if found is None:
        try:
            found = _own(NewStock(key), connection, tables)
        except sqlite3.OperationalError:  # no room in the cache folder
            found = _own(NewStock(key, kept=False), connection, tables)
    return Stock(found)


def _own(new: NewStock, connection: sqlite3.Connection, tables: Any) -> sqlite3.Connection:
    try:
        _add_own(new, connection, tables)
        return new.keep()
    except BaseException:
        new.drop()
        raise


def _add_own(new: NewStock, connection: sqlite3.Connection, tables: Any) -> None:
    from partscheck.catalogue.facets import facets_of, value_of
    from partscheck.notation.errors import NotationError
    from partscheck.parts.kinds import KINDS

    rows = connection.execute(
        "SELECT part.position, id, kind, name, text FROM part LEFT JOIN field ON field.part = part.position"
        " ORDER BY part.position, field.position"
    )
    for (_, id, kind), cells in groupby(rows, key=lambda row: row[:3]):
        fields = {field.key: field for field in KINDS[kind].fields.values()} if kind in KINDS else {}
        row: dict[str, Any] = {}
        for *_, name, text in cells:
            field = fields.get(name)
            facets = None if field is None else facets_of(field.type)
            if field is None or facets is None:
                continue
            with suppress(NotationError):  # told when the catalogue was read
                row.update(new.writer.cells(kind, field.name, facets, *value_of(field.type.read(text, tables))))
        new.writer.add(id, kind, 0, (), None, row)
    new.writer.finish({"key": new.key})
