"""The catalogue as the rest of the program sees it: parts by id and kind, tables by name and key."""

from __future__ import annotations

import os
import sqlite3

from partscheck import __version__
from partscheck.catalogue import compile as compiled
from partscheck.catalogue.layers import Layer, digest, read_layers

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable
    from typing import Any

    from partscheck.catalogue.families import CheckEntry
    from partscheck.catalogue.stock import Stock
    from partscheck.catalogue.stocks import RowStocks

FieldText = tuple[str, str, int, int]


class PartEntry:
    """A catalogue part.

    ``fields`` maps each field's name to (text as typed, file, line, column); ``basis`` is
    (kind, source); ``layer`` is "shipped" or the user's folder; ``file`` and ``line`` tell where it is.
    """

    __slots__ = ("basis", "column", "fields", "file", "id", "kind", "layer", "line", "note")

    def __init__(
        self, id: str, kind: str, layer: str, basis: tuple[str, str], note: str, place: tuple[str, int, int]
    ) -> None:
        self.id = id
        self.kind = kind
        self.layer = layer
        self.basis = basis
        self.note = note
        self.file, self.line, self.column = place
        self.fields: dict[str, FieldText] = {}

    def __repr__(self) -> str:
        return f"<{self.kind} {self.id} {self.file}:{self.line}>"


class Catalogue:
    """All layers together: the shipped catalogue and the user's own over it.

    ``overridden`` lists what a later layer replaced: (part id, or "table/key", from layer, by layer); where
    one file of rows (CSV, JSON lines) replaces parts of another, those that were asked for.
    """

    def __init__(self, connection: sqlite3.Connection, key: str = "", rows: RowStocks | None = None) -> None:
        self._connection = connection
        self._key = key
        self._rows = rows  # None: no file of rows in any layer
        self._own: Stock | None = None
        self._tables: dict[str, dict[str, dict[str, Any]]] = {}
        self._asked: set[str] = set()  # tables that one row was asked of
        self.overridden: list[tuple[str, str, str]] = list(
            connection.execute("SELECT id, from_layer, by_layer FROM overridden ORDER BY rowid")
        )

    @classmethod
    def load(
        cls,
        folders: Iterable[str | os.PathLike[str]] | str | os.PathLike[str] = (),
        check_entry: CheckEntry | None = None,
        stamp: str = __version__,
    ) -> Catalogue:
        """The shipped catalogue and ``folders`` over it, later ones winning.

        A folder holds catalogue files (``*.yaml``, and ``*.csv`` or ``*.jsonl`` with a part in each row);
        the path of one such file serves too, and one path alone for a list of them.
        ``check_entry(kind, fields, tables)`` gives the faults of an entry's fields, left out it is
        ``entry_check.check_entry``; ``stamp`` names the version of that check, so that a compiled copy
        checked by another version is not used.
        Raises ``Faults`` with every fault of every file.
        """
        folders = [folders] if isinstance(folders, (str, os.PathLike)) else list(folders)
        layers = read_layers(folders, remember=True)
        key, path, connection = _compiled(layers, stamp)
        if connection is None and any(layer.known for layer in layers):
            layers = read_layers(folders)
            key, path, connection = _compiled(layers, stamp)
        rows = _row_stocks(layers)
        if connection is None:
            check = check_entry or _usual_check()
            try:
                connection = _build(layers, key, check, rows)
            except sqlite3.DatabaseError:  # a stock is damaged
                if rows is None:
                    raise
                rows.forget()
                connection = _build(layers, key, check, rows)
            if path is not None:
                compiled.store(connection, path)
        return cls(connection, key, rows)

    def close(self) -> None:
        self._connection.close()
        if self._rows is not None:
            self._rows.close()
        if self._own is not None:
            self._own.close()
            self._own = None

    def __del__(self) -> None:
        connection = getattr(self, "_connection", None)
        if connection is not None:
            connection.close()

    # -- parts ----------------------------------------------------------------------------------

    def part(self, id: str) -> PartEntry | None:
        """The part with this id."""
        found = self._parts("part.id = ?", id)
        if found or self._rows is None:
            return found[0] if found else None
        try:
            return self._row_part(id, self._rows)
        except sqlite3.DatabaseError:
            self.forget_stocks()
            return self._row_part(id, self._rows)

    def kind_of(self, id: str) -> str:
        """The kind of the part with this id, "" where there is none: far less to read than the whole part."""
        found = self._connection.execute("SELECT kind FROM part WHERE id = ?", (id,)).fetchone()
        if found is not None:
            return str(found[0])
        stock = None if self._rows is None else self._rows.holder(id)
        return "" if stock is None else stock.kind_of(id)

    def parts(self, kind: str | None = None) -> list[PartEntry]:
        """Every part of a kind (or all parts), in the order of the files; those in files of rows stay there."""
        return self._parts("1") if kind is None else self._parts("part.kind = ?", kind)

    def stocks(self) -> list[Stock]:
        """Where parts can be looked up by their values: that of the YAML parts first, then each file of rows."""
        if self._own is None:
            from partscheck.catalogue.stocks import own_stock  # only questions need it

            self._own = own_stock(self._key, self._connection, self)
        return [self._own, *([] if self._rows is None else self._rows.all())]

    def forget_stocks(self) -> None:
        """Take all stocks away, since one is damaged; each is made anew when it is asked for."""
        if self._rows is not None:
            self._rows.forget()
        if self._own is not None:
            self._own.forget()
            self._own = None

    def is_in_force(self, id: str, stock: Stock) -> bool:
        """Whether the part of this stock is the one that its id means, no later layer's."""
        if self._connection.execute("SELECT 1 FROM part WHERE id = ?", (id,)).fetchone() is not None:
            return stock is self._own
        return self._rows is None or self._rows.holder(id) is stock

    def _row_part(self, id: str, rows: RowStocks) -> PartEntry | None:
        """A part out of a file of rows; what it replaces in other such files is told."""
        holders = [stock for stock in rows.all() if stock.holds(id)]
        if not holders:
            return None
        stock = holders[-1]
        for below in holders[:-1]:
            told = (id, below.layer, stock.layer)
            if told not in self.overridden:
                self.overridden.append(told)
        kind, line, cells = stock.texts(id)  # type: ignore[misc]
        own = {key: text for key, text, _ in cells}
        basis = ("recalled", own.get("basis") or stock.source)
        entry = PartEntry(id, kind, stock.layer, basis, own.get("note", ""), (stock.file, line, 1))
        entry.fields = {
            key: (text, stock.file, line, column)
            for key, text, column in cells if key not in ("id", "kind", "basis", "note")
        }  # fmt: skip
        return entry

    def nearest(self, id: str, n: int = 3) -> list[str]:
        """Up to ``n`` ids that ``id`` was most likely meant to be, likeliest first."""
        from difflib import get_close_matches  # only the way to an error message comes here

        wanted = id[:80].lower()
        similar = [] if self._rows is None else self._rows.similar(id)
        ids = [name for (name,) in self._connection.execute("SELECT id FROM part")]
        by_lower = {name.lower(): name for name in (*similar, *ids)}
        found = [name for name in by_lower if _holds(name, wanted)][:n]
        found += [name for name in get_close_matches(wanted, list(by_lower), n, 0.5) if name not in found]
        return [by_lower[near] for near in found[:n]]

    def _parts(self, where: str, *values: str) -> list[PartEntry]:
        rows = self._connection.execute(
            "SELECT part.id, part.kind, layer, basis.kind, basis.source, note,"
            " at.name, part.line, part.column, field.name, text, there.name, field.line, field.column"
            " FROM part JOIN basis ON basis.number = part.basis JOIN file AS at ON at.number = part.file"
            " LEFT JOIN field ON field.part = part.position"
            " LEFT JOIN file AS there ON there.number = field.file"
            f" WHERE {where} ORDER BY part.position, field.position",
            values,
        )
        found: dict[str, PartEntry] = {}
        for id, kind, layer, basis_kind, source, note, file, line, column, name, *field in rows:
            entry = found.get(id)
            if entry is None:
                entry = PartEntry(id, kind, layer, (basis_kind, source), note, (file, line, column))
                found[id] = entry
            if name is not None:
                entry.fields[name] = tuple(field)
        return list(found.values())

    # -- tables ---------------------------------------------------------------------------------

    def row(self, table: str, key: str) -> dict[str, Any] | None:
        """One row of a table: its key and cells by column, ``basis`` {kind, source}, ``note`` if any."""
        if table in self._tables or table in self._asked:
            return self._table(table).get(key)
        self._asked.add(table)  # who asks twice gets the whole table: many want a single row of a long one
        found = self._connection.execute(
            "SELECT row FROM cell WHERE name = ? AND column = 'key' AND value = ?", (table, key)
        ).fetchone()
        return None if found is None else self._read_table(table, "AND row = ?", *found)[key]

    def rows(self, table: str) -> list[dict[str, Any]]:
        """Every row of a table, in the order of the file; a table that is not there has none."""
        return list(self._table(table).values())

    def tables(self) -> list[str]:
        """The names of the tables."""
        return [name for (name,) in self._connection.execute("SELECT DISTINCT name FROM cell ORDER BY name")]

    def _table(self, name: str) -> dict[str, dict[str, Any]]:
        table = self._tables.get(name)
        if table is None:
            table = self._tables[name] = self._read_table(name)
        return table

    def _read_table(self, name: str, where: str = "", *values: int) -> dict[str, dict[str, Any]]:
        rows: dict[int, dict[str, Any]] = {}
        cells = self._connection.execute(
            f"SELECT row, item, column, value FROM cell WHERE name = ? {where} ORDER BY row, position, item",
            (name, *values),
        )
        for number, item, column, value in cells:
            row = rows.setdefault(number, {})
            if item == compiled.SINGLE:
                row[column] = value
            elif item == compiled.EMPTY_LIST:
                row[column] = []
            else:
                row.setdefault(column, []).append(value)
        bases = {number: told for number, *told in self._connection.execute("SELECT * FROM basis")}
        for row in rows.values():
            kind, source = bases[row["basis"]]
            row["basis"] = {"kind": kind, "source": source}
        return {row["key"]: row for row in rows.values()}


def _compiled(layers: list[Layer], stamp: str) -> tuple[str, str | None, sqlite3.Connection | None]:
    """(the key of these layers, where their compiled copy belongs, that copy opened if it is there and sound)."""
    key = digest(layers, f"{compiled.SCHEMA_VERSION} {stamp}")
    path = compiled.cache_path(key)
    return key, path, None if path is None else compiled.open_sound(path, key)


def _holds(id: str, wanted: str) -> bool:
    """Whether ``id`` has every piece of ``wanted``, in order: bolt-m12x1.75x60-8.8 has bolt-m12x60-8.8."""
    pieces = iter(id.replace("x", "-").split("-"))
    return all(piece in pieces for piece in wanted.replace("x", "-").split("-"))


def _row_stocks(layers: list[Layer]) -> RowStocks | None:
    if not any(layer.rows for layer in layers):
        return None
    from partscheck.catalogue.stocks import RowStocks  # most runs have no file of rows

    return RowStocks(layers)


def _usual_check() -> CheckEntry:
    """The check against the part kinds; imported only when a catalogue is compiled."""
    from partscheck.catalogue.entry_check import check_entry

    return check_entry


def _build(
    layers: list[Layer], key: str, check_entry: CheckEntry | None, rows: RowStocks | None = None
) -> sqlite3.Connection:
    """Read, expand, check and compile every layer; raises ``Faults``."""
    from partscheck.catalogue.families import expand
    from partscheck.catalogue.source import read_source
    from partscheck.notation.faults import Fault, Faults

    faults: list[Fault] = []
    source = read_source(layers, faults)
    parts = expand(source, faults, check_entry)
    if rows is not None:
        from partscheck.catalogue.stocks import meet

        try:
            meet(rows, parts, source, faults)
        except Faults as found:
            faults += found.faults
    if faults:
        raise Faults(faults)
    connection = compiled.new_in_memory()
    compiled.write(connection, key, source, parts)
    return connection
