"""Lays parts out for questions: rows of plain numbers by kind, in the order of price, with indexes and bitmaps."""

from __future__ import annotations

from partscheck.catalogue import bitmaps
from partscheck.catalogue.row_text import BETWEEN
from partscheck.catalogue.stock import BARE, WORD, quoted, table_of

TYPE_CHECKING = False
if TYPE_CHECKING:
    import sqlite3
    from typing import Any

    from partscheck.catalogue.facets import Ends

BATCH = 4_000  # rows written at once

TABLES = """
CREATE TABLE meta (name TEXT PRIMARY KEY, value TEXT) WITHOUT ROWID;
CREATE TABLE heading (number INTEGER PRIMARY KEY, keys TEXT);
CREATE TABLE part (number INTEGER PRIMARY KEY, id TEXT, kind TEXT, line INTEGER, heading INTEGER, texts TEXT);
CREATE TABLE kind (kind TEXT PRIMARY KEY, parts INTEGER) WITHOUT ROWID;
CREATE TABLE facet (kind TEXT, field TEXT, name TEXT, low TEXT, high TEXT, widest REAL, parts INTEGER,
    steps_exact INTEGER, PRIMARY KEY (kind, field, name)) WITHOUT ROWID;
"""


class StockWriter:
    """Fills an empty database: ``add`` each part, then ``finish``."""

    def __init__(self, connection: sqlite3.Connection) -> None:
        self.connection = connection
        connection.executescript("PRAGMA journal_mode=OFF; PRAGMA synchronous=OFF;" + TABLES + bitmaps.TABLES)
        self._parts: list[tuple[Any, ...]] = []
        self._rows: dict[str, list[dict[str, Any]]] = {}
        self._columns: dict[str, dict[str, None]] = {}
        self._headings: dict[tuple[str, ...], int] = {}
        self._facets: dict[tuple[str, str, str], tuple[str, str]] = {}
        self.count = 0

    def add(
        self, id: str, kind: str, line: int, keys: tuple[str, ...], texts: list[str] | None, row: dict[str, Any]
    ) -> None:
        """A part, and the columns of its values as ``cells`` gave them."""
        heading = self._headings.setdefault(keys, len(self._headings)) if texts is not None else None
        joined = None if texts is None else BETWEEN.join(texts)
        self._parts.append((self.count, id, kind, line, heading, joined))
        row["part"] = self.count
        self._rows.setdefault(kind, []).append(row)
        self.count += 1
        if len(self._parts) >= BATCH:
            self.flush()

    def cells(
        self, kind: str, field: str, facets: Any, numbers: tuple[Ends | None, ...], word: str | None
    ) -> dict[str, Any]:
        """The columns of a value and what stands in them."""
        found: dict[str, Any] = {}
        for (name, _), ends in zip(facets.numbers, numbers, strict=False):
            low, high = self._named(kind, field, name)
            if ends is not None:
                found[low], found[high] = ends
        if facets.word and word is not None:
            found[self._named(kind, field, WORD)[0]] = word
        return found

    def _named(self, kind: str, field: str, name: str) -> tuple[str, str]:
        """The columns of a facet, made when it is seen first."""
        key = kind, field, name
        if key not in self._facets:
            stem = f"{field} {name}".strip()
            self._facets[key] = (stem, "") if name == WORD else (f"{stem} low", f"{stem} high")
        return self._facets[key]

    def flush(self) -> None:
        """Write what is waiting."""
        self.connection.executemany("INSERT INTO part VALUES (?,?,?,?,?,?)", self._parts)
        self._parts = []
        for kind, rows in self._rows.items():
            self._write(kind, rows)
        self._rows = {}

    def _write(self, kind: str, rows: list[dict[str, Any]]) -> None:
        """Into a table in the order of the file; ``finish`` sorts it by price."""
        table = quoted(f"raw {kind}")
        if kind not in self._columns:
            self._columns[kind] = {"part": None}
            self.connection.execute(f"CREATE TABLE {table} (part INTEGER PRIMARY KEY)")
        known = self._columns[kind]
        for name in {name for keys in {tuple(row) for row in rows} for name in keys}:
            if name not in known:
                known[name] = None
                self.connection.execute(f"ALTER TABLE {table} ADD COLUMN {quoted(name)}")
        names = tuple(known)
        places = ",".join("?" * len(names))
        self.connection.executemany(
            f"INSERT INTO {table} VALUES ({places})", ([*map(row.get, names)] for row in rows)
        )

    def finish(self, meta: dict[str, str], at: Any = None) -> None:
        """Write what is left, then order, indexes and bitmaps; ``at(done, total)`` is told how far it is."""
        self.flush()
        run = self.connection.execute
        total = len(self._facets) + len(self._columns) + 1
        tell = at or (lambda done, total: None)
        tell(0, total)
        run("CREATE INDEX part_id ON part (id)")
        self.connection.executemany(
            "INSERT INTO heading VALUES (?,?)", ((n, BETWEEN.join(keys)) for keys, n in self._headings.items())
        )
        done = 1
        for kind in self._columns:
            self._sort(kind)
            done += 1
            tell(done, total)
        for (kind, field, name), (low, high) in self._facets.items():
            if low in self._columns.get(kind, {}):
                self._lay_out(kind, field, name, low, high)
            done += 1
            tell(done, total)
        self.connection.executemany("INSERT INTO meta VALUES (?,?)", meta.items())
        self.connection.commit()

    def _sort(self, kind: str) -> None:
        """The parts of a kind by price, those without one last: their place in this order is their bit."""
        names = ", ".join(map(quoted, self._columns[kind]))
        raw, table = quoted(f"raw {kind}"), table_of(kind)
        price = quoted("price low") if "price low" in self._columns[kind] else "NULL"
        run = self.connection.execute
        run(f"CREATE TABLE {table} (place INTEGER PRIMARY KEY, {names})")
        run(f"INSERT INTO {table} ({names}) SELECT {names} FROM {raw} ORDER BY {price} IS NULL, {price}, part")
        run(f"DROP TABLE {raw}")
        run("INSERT INTO kind VALUES (?, (SELECT count(*) FROM " + table + "))", (kind,))

    def _lay_out(self, kind: str, field: str, name: str, low: str, high: str) -> None:
        columns = quoted(low) + (f", {quoted(high)}" if high else "")
        table, index = table_of(kind), quoted(f"by {kind} {low}")
        if field not in BARE:
            self.connection.execute(f"CREATE INDEX {index} ON {table} ({columns}) WHERE {quoted(low)} IS NOT NULL")
        widest = f"max({quoted(high)} - {quoted(low)})" if high else "0"
        told = self.connection.execute(f"SELECT {widest}, count({quoted(low)}) FROM {table}").fetchone()
        exact = self._bitmaps(kind, field, name, low)
        self.connection.execute(
            "INSERT INTO facet VALUES (?,?,?,?,?,?,?,?)", (kind, field, name, low, high, *told, exact)
        )

    def _bitmaps(self, kind: str, field: str, name: str, low: str) -> bool:
        """Whether each step holds one value alone."""
        run, table, column = self.connection.execute, table_of(kind), quoted(low)
        if name == WORD:
            words = [None, *(word for (word,) in run(f"SELECT {column} FROM {table} ORDER BY place"))]
            found = bitmaps.word_bits(words)  # places count from 1
            if found is not None:
                bitmaps.write(self.connection, kind, field, name, found)
            return found is not None
        order = run(f"SELECT {column}, place FROM {table} WHERE {column} IS NOT NULL ORDER BY {column}").fetchall()
        distinct, places = run(f"SELECT count(DISTINCT {column}), count(*) FROM {table}").fetchone()
        steps = bitmaps.number_steps(order, distinct, places)
        bitmaps.write(self.connection, kind, field, name, steps)
        return len(steps) == int(distinct)
