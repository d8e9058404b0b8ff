"""Makes the stock of a file of rows (CSV or JSON lines): every part checked, every fault with its line."""

from __future__ import annotations

import os

from partscheck.catalogue.csv_source import OWN_KEYS, read_csv
from partscheck.catalogue.facets import facets_of, value_of
from partscheck.catalogue.json_lines_source import read_json_lines
from partscheck.catalogue.layers import ROWS_JSON
from partscheck.catalogue.row_text import Hashed, RowFaults, text_lines
from partscheck.catalogue.stock import NewStock
from partscheck.notation.errors import NotationError
from partscheck.notation.faults import Fault, Faults
from partscheck.notation.words import nearest
from partscheck.notation.yaml_text import Mark
from partscheck.parts.kinds import KINDS
from partscheck.progress import Progress

TYPE_CHECKING = False
if TYPE_CHECKING:
    import sqlite3
    from typing import Any

    from partscheck.catalogue.layers import RowFile
    from partscheck.catalogue.row_text import Row
    from partscheck.parts.field import Field

TELL_EACH = 2_000  # rows between two signs of progress
CACHED_AT_MOST = 20_000  # spellings of one column; a file of ever new ones must not fill the memory
ID_AT_MOST = 200  # characters
TWICE_AT_MOST = 50  # rows with the id of another that are told one by one


def make_row_stock(rows: RowFile, key: str, tables: Any, kept: bool = True) -> sqlite3.Connection:
    """Make the stock of one file of rows and open it; ``kept``: in the cache folder.  Raises ``Faults``."""
    new = NewStock(key, kept)
    faults = RowFaults(rows.shown)
    try:
        digest = _read(rows, new, faults, tables)
        if faults.full:
            faults.tell(faults[-1].mark.line, 1, "", "fewer faults than this", "reading stopped here")
        if not faults and digest != rows.digest:
            faults.tell(1, 1, "", "a file that stays as it is while it is read", "it was changed: run this again")
        if faults:
            new.writer.flush()
            _told_once(new, faults)
            raise Faults(faults)
        with Progress(f"sorting {os.path.basename(rows.path)}", 1) as progress:
            new.writer.finish({"key": key, "file": rows.shown}, lambda done, total: _tell(progress, done, total))
        _told_once(new, faults)
        if faults:
            raise Faults(faults)
        return new.keep()
    except OSError as error:
        new.drop()
        raise Faults([Fault(Mark(rows.shown, 1, 1), "", "a file that can be read", str(error.strerror))]) from None
    except BaseException:
        new.drop()
        raise


def _tell(progress: Progress, done: int, total: int) -> None:
    progress.total = total
    progress.at(done)


def _read(rows: RowFile, new: NewStock, faults: RowFaults, tables: Any) -> str:
    raw = Hashed(rows.path)
    try:
        lines = text_lines(raw, rows.path)
        reader = read_json_lines if rows.path.lower().endswith(ROWS_JSON) else read_csv
        filler = _Filler(new, faults, tables)
        name = os.path.basename(rows.path)
        with Progress(f"reading {name}", os.path.getsize(rows.path)) as progress:
            for row in reader(lines, faults):
                filler.row(row)
                if filler.seen % TELL_EACH == 0:
                    progress.at(raw.count)
        if not filler.seen and not faults:
            faults.tell(1, 1, "", "parts", "there is none in this file")
        return str(raw.digest.hexdigest())
    finally:
        raw.close()


class _Column:
    """A column of one kind: where its text stands in a row, and what each spelling comes to."""

    __slots__ = ("field", "key", "place", "read")

    def __init__(self, key: str, place: int, field: Field | None) -> None:
        self.key = key
        self.place = place
        self.field = field
        self.read: dict[str, dict[str, Any]] = {}


class _Filler:
    """Reads the values of each row and lays them out; each spelling is read once."""

    def __init__(self, new: NewStock, faults: RowFaults, tables: Any) -> None:
        self.writer = new.writer
        self.faults = faults
        self.tables = tables
        self.seen = 0
        self._plans: dict[tuple[str, tuple[str, ...]], list[_Column]] = {}

    def row(self, row: Row) -> None:
        self.seen += 1
        id, kind = self._own(row, "id"), self._own(row, "kind")
        if not id or len(id) > ID_AT_MOST or not id.isprintable():
            self._fault(row, "id", id, f"an id: a name on one line, of at most {ID_AT_MOST} characters")
            return
        columns = self._plans.get((kind, row.keys))
        if columns is None:
            columns = self._plan(row, kind)
            if columns is None:
                return
        values: dict[str, Any] = {}
        for column in columns:
            text = row.texts[column.place]
            if text:
                known = column.read.get(text)
                values.update(self._read(row, kind, column, text) if known is None else known)
        self.writer.add(id, kind, row.line, row.keys, row.texts, values)

    @staticmethod
    def _own(row: Row, key: str) -> str:
        return row.texts[row.keys.index(key)].strip() if key in row.keys else ""

    def _plan(self, row: Row, kind: str) -> list[_Column] | None:
        """The columns that say something of this kind; None where there is no such kind."""
        if kind not in KINDS:
            near = nearest(kind, KINDS) or nearest(kind.replace("_", "-"), KINDS)
            hint = f"did you mean `{near}`?" if near else "kinds: " + ", ".join(KINDS)
            self._fault(row, "kind", kind, "a kind of part", hint)
            return None
        fields = {field.key: field for field in KINDS[kind].fields.values() if field.key != "part"}
        columns = [
            _Column(key, place, fields.get(key))
            for place, key in enumerate(row.keys) if key and key not in OWN_KEYS
        ]  # fmt: skip
        self._plans[kind, row.keys] = columns
        return columns

    def _read(self, row: Row, kind: str, column: _Column, text: str) -> dict[str, Any]:
        """What a text comes to, remembered; nothing, and a fault, where it is none of the field's."""
        if text.isspace():
            return {}
        if column.field is None:
            near = nearest(column.key, KINDS[kind].fields)
            hint = f"did you mean `{near}`?" if near else "leave the cell empty"
            self._fault(row, column.key, column.key, f"a field of {kind}", hint)
            return {}
        try:
            value = column.field.type.read(text.strip(), self.tables)
        except NotationError as error:
            self._fault(row, column.key, error.read, f"{error.expected} for `{column.key}`", error.hint)
            return {}
        facets = facets_of(column.field.type)
        found = {} if facets is None else self.writer.cells(kind, column.field.name, facets, *value_of(value))
        if len(column.read) < CACHED_AT_MOST:
            column.read[text] = found
        return found

    def _fault(self, row: Row, key: str, read: str, expected: str, hint: str = "") -> None:
        column = row.columns[row.keys.index(key)] if key in row.keys else 1
        self.faults.tell(row.line, column, read, expected, hint)


def _told_once(new: NewStock, faults: RowFaults) -> None:
    """Each id stands once in a file; of many that stand twice the first are told one by one."""
    rows = new.connection.execute(
        "SELECT part.line, part.id, head.line FROM part"
        " JOIN (SELECT id, min(number) AS first FROM part GROUP BY id HAVING count(*) > 1) AS twice USING (id)"
        " JOIN part AS head ON head.number = twice.first WHERE part.number > twice.first ORDER BY part.number"
    )
    for count, (line, id, first) in enumerate(rows, start=1):
        if count > TWICE_AT_MOST:
            more = 1 + sum(1 for _ in rows)
            faults.tell(line, 1, "", "each id once", f"{more:,} more rows from this one on have the id of another")
            return
        faults.tell(line, 1, id, "each id once", f"line {first} has it already")
