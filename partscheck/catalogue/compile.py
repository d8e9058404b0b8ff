"""The compiled catalogue: one sqlite file in the user's cache folder, keyed by the texts it is from.

A file that cannot be read is built again; a cache folder that cannot be used costs time, never an
error: the catalogue is then built in memory.
"""

from __future__ import annotations

import os
import sqlite3
from contextlib import suppress
from zlib import crc32

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import Any

    from partscheck.catalogue.families import Part
    from partscheck.catalogue.source import Cell, Source, Table

SCHEMA_VERSION = "3"
SUM_FROM, SUM_TO = 68, 72  # sqlite's header keeps four bytes for whoever wrote the file: its checksum
KEPT = 16  # compiled files that stay in the cache folder; the oldest go

_TABLES = """
CREATE TABLE meta (name TEXT PRIMARY KEY, value TEXT) WITHOUT ROWID;
CREATE TABLE basis (number INTEGER PRIMARY KEY, kind TEXT, source TEXT);
CREATE TABLE file (number INTEGER PRIMARY KEY, name TEXT);
CREATE TABLE part (position INTEGER PRIMARY KEY, id TEXT UNIQUE, kind TEXT, layer TEXT, basis INTEGER,
    note TEXT, file INTEGER, line INTEGER, column INTEGER);
CREATE INDEX part_kind ON part (kind, position);
CREATE TABLE field (part INTEGER, position INTEGER, name TEXT, text TEXT, file INTEGER, line INTEGER,
    column INTEGER, PRIMARY KEY (part, position)) WITHOUT ROWID;
CREATE TABLE cell (name TEXT, row INTEGER, position INTEGER, item INTEGER, column TEXT, value,
    PRIMARY KEY (name, row, position, item)) WITHOUT ROWID;
CREATE TABLE overridden (id TEXT, from_layer TEXT, by_layer TEXT);
"""
SINGLE, EMPTY_LIST = -1, -2  # `item` of a cell that is no list, and of a list without items


class _Numbers(dict["Any", int]):
    """A number for each thing that it is asked for; long texts that recur are stored once.

    The whole file is read at every start, so that its size is felt.
    """

    def __missing__(self, thing: Any) -> int:
        self[thing] = number = len(self)
        return number


def write(connection: sqlite3.Connection, digest: str, source: Source, parts: dict[str, Part]) -> None:
    """Fill an empty database with the tables and parts of ``source``."""
    bases, files = _Numbers(), _Numbers()
    connection.executescript(_TABLES)
    connection.executemany("INSERT INTO part VALUES (?,?,?,?,?,?,?,?,?)", _part_rows(parts, bases, files))
    connection.executemany("INSERT INTO field VALUES (?,?,?,?,?,?,?)", _field_rows(parts, files))
    for table in source.tables.values():
        connection.executemany("INSERT INTO cell VALUES (?,?,?,?,?,?)", _cell_rows(table, bases))
    connection.executemany(
        "INSERT INTO basis VALUES (?,?,?)", ((number, *it) for it, number in bases.items())
    )
    connection.executemany("INSERT INTO file VALUES (?,?)", ((number, it) for it, number in files.items()))
    connection.executemany("INSERT INTO overridden VALUES (?,?,?)", source.overridden)
    meta = {"schema": SCHEMA_VERSION, "digest": digest}
    connection.executemany("INSERT INTO meta VALUES (?,?)", meta.items())
    connection.commit()


def _part_rows(parts: dict[str, Part], bases: _Numbers, files: _Numbers) -> Iterator[tuple[str | int, ...]]:
    for position, part in enumerate(parts.values()):
        yield (position, part.id, part.kind.text, part.layer, bases[part.basis.kind, part.basis.source],
               part.note, files[part.mark.file], part.mark.line, part.mark.column)  # fmt: skip


def _field_rows(parts: dict[str, Part], files: _Numbers) -> Iterator[tuple[str | int, ...]]:
    for number, part in enumerate(parts.values()):
        for position, (key, node) in enumerate(part.fields):
            mark = node.mark
            yield number, position, key.text, node.text, files[mark.file], mark.line, mark.column


def _cell_rows(table: Table, bases: _Numbers) -> Iterator[tuple[object, ...]]:
    for number, row in enumerate(table.rows.values()):
        cells: dict[str, Cell] = {"key": row.key, **row.cells}
        cells["basis"] = bases[row.basis.kind, row.basis.source]
        if row.note:
            cells["note"] = row.note
        for position, (column, value) in enumerate(cells.items()):
            if not isinstance(value, list):
                yield table.name, number, position, SINGLE, column, value
                continue
            if not value:
                yield table.name, number, position, EMPTY_LIST, column, ""
            for item, one in enumerate(value):
                yield table.name, number, position, item, column, one


def open_sound(path: str, digest: str) -> sqlite3.Connection | None:
    """The compiled file opened read-only; None when it is missing, damaged or another catalogue's."""
    if not os.path.isfile(path):
        return None
    connection = None
    try:
        with open(path, "rb") as stream:
            data = stream.read()
        if data[SUM_FROM:SUM_TO] != _checksum(data):
            return None
        uri = "file:" + path.replace("%", "%25").replace("?", "%3f").replace("#", "%23")
        connection = sqlite3.connect(uri + "?mode=ro&immutable=1", uri=True, check_same_thread=False)
        meta = dict(connection.execute("SELECT name, value FROM meta"))
        if meta == {"schema": SCHEMA_VERSION, "digest": digest}:
            return connection
    except (sqlite3.Error, OSError, UnicodeDecodeError):
        pass
    if connection is not None:
        connection.close()
    return None


def _checksum(data: bytes) -> bytes:
    """CRC-32 of a compiled file but for the place where it stands."""
    view = memoryview(data)
    return crc32(view[SUM_TO:], crc32(view[:SUM_FROM])).to_bytes(SUM_TO - SUM_FROM, "big")


def new_in_memory() -> sqlite3.Connection:
    return sqlite3.connect(":memory:", check_same_thread=False)


def store(connection: sqlite3.Connection, path: str) -> None:
    """Copy the database to ``path``, whole or not at all; a folder that cannot be used is left alone."""
    folder = os.path.dirname(path)
    temporary = half_made(path)
    try:
        os.makedirs(folder, mode=0o700, exist_ok=True)
        copy = sqlite3.connect(temporary)
        try:
            connection.backup(copy)
        finally:
            copy.close()
        with open(temporary, "r+b") as stream:
            checksum = _checksum(stream.read())
            stream.seek(SUM_FROM)
            stream.write(checksum)
        os.replace(temporary, path)
        drop_oldest(folder, "catalogue-", KEPT)
    except (OSError, sqlite3.Error, ValueError):
        with suppress(OSError, ValueError):
            os.unlink(temporary)


def half_made(path: str) -> str:
    """A name beside ``path`` that no other process or thread takes, for what is moved there when it is whole."""
    return f"{path}.{os.getpid()}.{os.urandom(4).hex()}.part"


def drop_oldest(folder: str, start: str, kept: int) -> None:
    """Of the files whose names begin so, the ones written last stay.  Raises ``OSError``."""
    names = [name for name in os.listdir(folder) if name.startswith(start)]
    paths = sorted((os.path.join(folder, name) for name in names), key=os.path.getmtime, reverse=True)
    for path in paths[kept:]:
        os.unlink(path)


def cache_path(digest: str) -> str | None:
    """Where the compiled catalogue of this digest lies; None where the user has no cache folder."""
    folder = cache_folder()
    return None if folder is None else os.path.join(folder, f"catalogue-{digest[:32]}.sqlite")


def cache_folder() -> str | None:
    """``partscheck`` under the user's cache folder: XDG_CACHE_HOME, LOCALAPPDATA, or ~/.cache."""
    for variable in ("XDG_CACHE_HOME", "LOCALAPPDATA"):
        base = os.environ.get(variable, "")
        if base and os.path.isabs(base):
            return os.path.join(base, "partscheck")
    home = os.path.expanduser("~")
    return os.path.join(home, ".cache", "partscheck") if os.path.isabs(home) else None
