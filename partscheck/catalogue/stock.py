"""Stock: parts laid out for questions, one sqlite file for each catalogue file of rows (or for all YAML files).

For each kind of part there is a table of plain numbers in house units, a low and a high end for each number of
each field, and its words; each has an index of its own that holds all that a range is asked by, and bitmaps
for questions of many conditions.  A file of
rows also keeps the texts as typed.  A stock is named by the sha256 of what it was made of, so it is made once.
"""

from __future__ import annotations

import os
import sqlite3
import time
from contextlib import suppress

from partscheck.catalogue.compile import cache_folder, half_made
from partscheck.catalogue.layers import ROWS_CSV
from partscheck.catalogue.row_text import BETWEEN

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

STOCK_VERSION = "3"
BYTES_AT_MOST = 4 << 30  # of all stocks in the cache folder; the ones not used for longest go
FILES_AT_MOST = 1_000
HALF_MADE_FOR = 86_400.0  # seconds after which a file that is not whole belongs to no run any more

WORD = "word"  # name of the facet that holds a field's word
BARE = ("note", "basis")  # fields whose texts are many and seldom asked for: no index


def quoted(name: str) -> str:
    return '"' + name.replace('"', '""') + '"'


def table_of(kind: str) -> str:
    return quoted(f"of {kind}")


class Facet:
    """One facet of a kind in a stock: its columns, its widest value, how many parts state it, and whether each
    step of its bitmaps holds one value alone.
    """

    __slots__ = ("high", "low", "parts", "steps_exact", "widest")

    def __init__(self, low: str, high: str, widest: float | None, parts: int, steps_exact: int) -> None:
        self.low = low
        self.high = high
        self.widest = widest or 0.0
        self.parts = parts
        self.steps_exact = bool(steps_exact)


class Stock:
    """A stock that was opened.  ``layer`` and ``file`` are what reports call the layer and the file."""

    def __init__(self, connection: sqlite3.Connection, layer: str = "", file: str = "", source: str = "") -> None:
        self.connection = connection
        self.layer = layer
        self.file = file
        self.source = source
        self._facets: dict[str, dict[tuple[str, str], Facet]] = {}
        self._headings: dict[int, tuple[str, ...]] = {}

    def close(self) -> None:
        self.connection.close()

    def forget(self) -> None:
        """Close it and take its file away, so that it is made anew."""
        with suppress(OSError, sqlite3.Error):
            for _, _, path in self.connection.execute("PRAGMA database_list").fetchall():
                if path:
                    os.unlink(path)
        self.close()

    def facets(self, kind: str) -> dict[tuple[str, str], Facet]:
        """The facets that parts of this kind state, by (field, name)."""
        if kind not in self._facets:
            rows = self.connection.execute(
                "SELECT field, name, low, high, widest, parts, steps_exact FROM facet WHERE kind = ?", (kind,)
            )
            self._facets[kind] = {(field, name): Facet(*rest) for field, name, *rest in rows}
        return self._facets[kind]

    def kinds(self) -> dict[str, int]:
        """How many parts there are of each kind."""
        return dict(self.connection.execute("SELECT kind, parts FROM kind"))

    def count(self, kind: str) -> int:
        found = self.connection.execute("SELECT parts FROM kind WHERE kind = ?", (kind,)).fetchone()
        return 0 if found is None else int(found[0])

    def holds(self, id: str) -> bool:
        return self.connection.execute("SELECT 1 FROM part WHERE id = ? LIMIT 1", (id,)).fetchone() is not None

    def id_of(self, number: int) -> str:
        return str(self.connection.execute("SELECT id FROM part WHERE number = ?", (number,)).fetchone()[0])

    def kind_of(self, id: str) -> str:
        return str(self.connection.execute("SELECT kind FROM part WHERE id = ?", (id,)).fetchone()[0])

    def line_of(self, id: str) -> int:
        return int(self.connection.execute("SELECT line FROM part WHERE id = ?", (id,)).fetchone()[0])

    def texts(self, id: str) -> tuple[str, int, list[tuple[str, str, int]]] | None:
        """(kind, line, (key, text, column) of each cell that says something) of a part of a file of rows."""
        found = self.connection.execute(
            "SELECT kind, line, heading, texts FROM part WHERE id = ?", (id,)
        ).fetchone()
        if found is None:
            return None
        kind, line, heading, joined = found
        keys = self._heading(heading)
        columns = range(1, len(keys) + 1) if self.file.lower().endswith(ROWS_CSV) else [1] * len(keys)
        cells = zip(keys, joined.split(BETWEEN), columns, strict=True)
        return kind, line, [(key, text.strip(), column) for key, text, column in cells if key and text.strip()]

    def _heading(self, number: int) -> tuple[str, ...]:
        if number not in self._headings:
            keys = self.connection.execute("SELECT keys FROM heading WHERE number = ?", (number,)).fetchone()[0]
            self._headings[number] = tuple(keys.split(BETWEEN))
        return self._headings[number]

    def ids(self) -> Iterator[str]:
        for (id,) in self.connection.execute("SELECT id FROM part ORDER BY number"):
            yield id

    def ids_from(self, start: str, most: int) -> list[str]:
        """Up to ``most`` ids that begin with ``start``."""
        rows = self.connection.execute(
            "SELECT id FROM part WHERE id >= ? AND id < ? LIMIT ?", (start, start + "\U0010ffff", most)
        )
        return [id for (id,) in rows]


# ---- files in the cache folder -------------------------------------------------------------------


def stock_path(key: str) -> str | None:
    folder = cache_folder()
    return None if folder is None else os.path.join(folder, f"stock-{key[:32]}.sqlite")


def open_stock(key: str) -> sqlite3.Connection | None:
    """The stock of this key, read-only; None when it is not there or not whole."""
    path = stock_path(key)
    if path is None or not os.path.isfile(path):
        return None
    connection = None
    try:
        uri = "file:" + path.replace("%", "%25").replace("?", "%3f").replace("#", "%23")
        connection = sqlite3.connect(uri + "?mode=ro&immutable=1", uri=True, check_same_thread=False)
        meta = dict(connection.execute("SELECT name, value FROM meta"))
        pages = connection.execute("PRAGMA page_count").fetchone()[0]
        size = connection.execute("PRAGMA page_size").fetchone()[0]
        if meta.get("key") == key and pages * size == os.path.getsize(path):
            with suppress(OSError):
                os.utime(path)  # used: the ones not used for longest go first
            return connection
    except (sqlite3.Error, UnicodeDecodeError, TypeError, ValueError, OSError):
        pass
    if connection is not None:
        connection.close()
    return None


class NewStock:
    """A stock being made: a file beside its place, moved there when whole; without a cache folder, or when it is
    not to be ``kept`` there, a temporary one that goes with its connection.
    """

    def __init__(self, key: str, kept: bool = True) -> None:
        self.key = key
        self.path = stock_path(key) if kept else None
        self.beside: str | None = None
        if self.path is not None:
            beside = half_made(self.path)
            try:
                os.makedirs(os.path.dirname(self.path), mode=0o700, exist_ok=True)
                self.connection = sqlite3.connect(beside, check_same_thread=False)
                self.connection.execute("PRAGMA user_version")
                self.beside = beside
            except (OSError, sqlite3.Error, ValueError):
                self.beside = None
        if self.beside is None:
            self.connection = sqlite3.connect("", check_same_thread=False)
        from partscheck.catalogue.stock_writer import StockWriter

        try:
            self.writer = StockWriter(self.connection)
        except BaseException:
            self.drop()
            raise

    def keep(self) -> sqlite3.Connection:
        """Put it in its place; the connection to ask."""
        if self.beside is None or self.path is None:
            return self.connection
        try:
            self.connection.close()
            with open(self.beside, "r+b") as stream:  # sqlite was told not to; a file half on the disk looks whole
                os.fsync(stream.fileno())
            os.replace(self.beside, self.path)
        except OSError:
            connection = sqlite3.connect(self.beside, check_same_thread=False)
            with suppress(OSError):
                os.unlink(self.beside)
            return connection
        _drop_unused(os.path.dirname(self.path))
        found = open_stock(self.key)
        if found is None:  # another process took it away in the meantime
            raise sqlite3.OperationalError("the compiled catalogue vanished from the cache folder")
        return found

    def drop(self) -> None:
        self.connection.close()
        if self.beside is not None:
            with suppress(OSError):
                os.unlink(self.beside)


def _drop_unused(folder: str) -> None:
    found: list[tuple[float, int, str]] = []
    with suppress(OSError):
        for name in os.listdir(folder):
            path = os.path.join(folder, name)
            if name.startswith("stock-") and name.endswith(".sqlite"):
                about = os.stat(path)
                found.append((about.st_mtime, about.st_size, path))
            elif name.endswith(".part") and time.time() - os.stat(path).st_mtime > HALF_MADE_FOR:
                os.unlink(path)  # of a run that was killed
    total = 0
    for count, (_, size, path) in enumerate(sorted(found, reverse=True), start=1):
        total += size
        if count > 1 and (total > BYTES_AT_MOST or count > FILES_AT_MOST):
            with suppress(OSError):
                os.unlink(path)


def same_ids(first: Stock, second: Stock, most: int) -> Iterable[str]:
    """Up to ``most`` ids that both hold."""
    small, large = sorted((first, second), key=lambda stock: _size(stock))
    found = 0
    for id in small.ids():
        if large.holds(id):
            yield id
            found += 1
            if found >= most:
                return


def _size(stock: Stock) -> int:
    return int(stock.connection.execute("SELECT count(*) FROM part").fetchone()[0])
