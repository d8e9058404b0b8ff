"""Reads catalogue files: YAML with positions in, rows and part entries out, every fault told.

A file is either a table (``table: name`` with ``columns`` and ``rows``) or a list of generic parts
(``parts``).  Both start with ``title``, ``edition`` and ``basis``; a row or part may carry a
``basis`` and a ``note`` of its own.
"""

from __future__ import annotations

import re

from partscheck.notation.faults import Fault, Faults
from partscheck.notation.words import nearest
from partscheck.notation.yaml_text import MapNode, Node, ScalarNode, SeqNode, compose, read_text

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable

    from partscheck.catalogue.layers import Layer
    from partscheck.notation.yaml_text import Mark

FILE_KEYS = ("title", "edition", "basis", "note", "table", "columns", "rows", "parts")
COLUMN_KEYS = ("type", "unit", "means")
COLUMN_TYPES = ("number", "text", "numbers", "texts")
BASIS_KINDS = ("published", "practice", "recalled")
NAME = re.compile(r"[a-z][a-z0-9_]*")
NUMBER = re.compile(r"[+-]?(\d+(\.\d*)?|\.\d+)")

Cell = str | int | float | list[str] | list[float]


class BasisText:
    """What stands behind a file, row or part: ``kind`` and ``source``."""

    __slots__ = ("kind", "source")

    def __init__(self, kind: str, source: str) -> None:
        self.kind = kind
        self.source = source


class Column:
    """A column of a table: its type (number, text, numbers, texts), unit and meaning."""

    __slots__ = ("means", "name", "type", "unit")

    def __init__(self, name: str, type: str, unit: str, means: str) -> None:
        self.name = name
        self.type = type
        self.unit = unit
        self.means = means


class Row:
    """One row: its key, its cells by column, its basis and note, and where it stands."""

    __slots__ = ("basis", "cells", "key", "layer", "mark", "note")

    def __init__(self, key: str, mark: Mark, layer: str, basis: BasisText) -> None:
        self.key = key
        self.mark = mark
        self.layer = layer
        self.basis = basis
        self.note = ""
        self.cells: dict[str, Cell] = {}


class Table:
    """A table with rows by key; rows of a later layer replace those of an earlier one."""

    __slots__ = ("columns", "name", "rows")

    def __init__(self, name: str) -> None:
        self.name = name
        self.columns: dict[str, Column] = {}
        self.rows: dict[str, Row] = {}


class PartSource:
    """One entry under ``parts``, not yet expanded: its map and the basis that holds for it."""

    __slots__ = ("basis", "layer", "node", "note")

    def __init__(self, node: MapNode, layer: str, basis: BasisText, note: str) -> None:
        self.node = node
        self.layer = layer
        self.basis = basis
        self.note = note


class Source:
    """All that the layers hold: tables, part entries, and what a later layer replaced."""

    def __init__(self) -> None:
        self.tables: dict[str, Table] = {}
        self.parts: list[PartSource] = []
        self.whole = True  # False when a part of some file could not be read
        self.overridden: list[tuple[str, str, str]] = []  # (id or table/key, from layer, by layer)
        self.replaced_rows: list[tuple[str, Row, Row]] = []  # (table, the row below, the one above)

    def row(self, table: str, key: str) -> dict[str, Cell] | None:
        """Cells of one row, with its key; the face that readers of notations ask for."""
        found = self.tables[table].rows.get(key) if table in self.tables else None
        return None if found is None else {"key": found.key, **found.cells}

    def rows(self, table: str) -> list[dict[str, Cell]]:
        found = self.tables.get(table)
        return [] if found is None else [{"key": row.key, **row.cells} for row in found.rows.values()]


def read_source(layers: Iterable[Layer], faults: list[Fault]) -> Source:
    """Everything in the layers that can be read; what cannot is told in ``faults``."""
    source = Source()
    for layer in layers:
        for file, data in layer.files:
            try:
                root = compose(read_text(data, file), file, bearable=faults)
            except Faults as found:
                faults += found.faults
                continue
            _FileReader(source, layer.name, file, faults).read(root)
    source.whole = not faults
    return source


class _FileReader:
    def __init__(self, source: Source, layer: str, file: str, faults: list[Fault]) -> None:
        self.source = source
        self.layer = layer
        self.file = file
        self.faults = faults
        self.basis = BasisText("recalled", f"the user's own file {file}")

    def read(self, root: Node) -> None:
        if not isinstance(root, MapNode):
            self._fault(root.mark, "", "a map with `table` and `rows`, or with `parts`")
            return
        self._check_keys(root, FILE_KEYS, "a catalogue file")
        self.basis = self._basis(root) or self.basis
        for key in ("title", "edition", "note"):
            self._text(root, key)
        table, parts = root.get("table"), root.get("parts")
        if table is None and parts is None:
            self._fault(root.mark, "", "`table` with `rows`, or `parts`")
        if table is not None:
            self._table(root, table)
        if parts is not None:
            for entry in self._items(parts, "a list of parts"):
                self._part(entry)

    # -- tables ---------------------------------------------------------------------------------

    def _table(self, root: MapNode, name: Node) -> None:
        if not isinstance(name, ScalarNode) or not NAME.fullmatch(name.text):
            self._fault(name.mark, _text_of(name), "the name of a table, such as load_index")
            return
        table = self.source.tables.setdefault(name.text, Table(name.text))
        self._columns(root, table)
        if not table.columns:
            self._fault(name.mark, name.text, "`columns` that say what the table holds",
                        f"or the name of a table that is there: {', '.join(self._tables())}")  # fmt: skip
            return
        rows = root.get("rows")
        if rows is None:
            self._fault(root.mark, "", "`rows`, a list of maps with `key`")
            return
        seen: dict[str, Mark] = {}
        for node in self._items(rows, "a list of rows"):
            row = self._row(table, node)
            if row is not None:
                self._keep_row(table, row, seen)

    def _tables(self) -> list[str]:
        return [name for name, table in self.source.tables.items() if table.columns]

    def _columns(self, root: MapNode, table: Table) -> None:
        node = root.get("columns")
        if node is None:
            return
        if not isinstance(node, MapNode):
            self._fault(node.mark, _text_of(node), "a map of column names")
            return
        for name, value in node.entries:
            if not NAME.fullmatch(name.text) or name.text in ("key", "basis", "note"):
                self._fault(name.mark, name.text, "a column name in small letters, not key, basis or note")
            elif not isinstance(value, MapNode):
                self._fault(value.mark, _text_of(value), "a map with `type`, `unit` and `means`")
            else:
                self._check_keys(value, COLUMN_KEYS, "a column")
                kind = self._text(value, "type") or "text"
                if kind not in COLUMN_TYPES:
                    self._fault(value.mark, kind, f"a type of column: {', '.join(COLUMN_TYPES)}")
                column = Column(name.text, kind, self._text(value, "unit"), self._text(value, "means"))
                there = table.columns.setdefault(name.text, column)
                if there.type != kind:
                    self._fault(value.mark, kind, f"type {there.type}, as the table has it already")

    def _row(self, table: Table, node: MapNode) -> Row | None:
        key = node.get("key")
        if not isinstance(key, ScalarNode) or not key.text:
            self._fault(node.mark, "", "a row with `key`")
            return None
        row = Row(key.text, node.mark, self.layer, self._basis(node) or self.basis)
        for name, value in node.entries:
            if name.text == "note":
                row.note = self._text(node, "note")
            elif name.text in table.columns:
                cell = self._cell(table.columns[name.text], value)
                if cell is not None:
                    row.cells[name.text] = cell
            elif name.text not in ("key", "basis"):
                self._unknown(name, [*table.columns, "key", "basis", "note"], f"the table {table.name}")
        return row

    def _cell(self, column: Column, node: Node) -> Cell | None:
        if column.type == "texts":
            return [item.text for item in self._scalars(node)]
        if column.type == "numbers":
            numbers = [self._number(item) for item in self._scalars(node)]
            return [number for number in numbers if number is not None]
        if not isinstance(node, ScalarNode) or node.empty:
            self._fault(node.mark, _text_of(node), f"one {column.type}", "leave out what is not known")
            return None
        return node.text if column.type == "text" else self._number(node)

    def _number(self, node: ScalarNode) -> int | float | None:
        if not NUMBER.fullmatch(node.text):
            self._fault(node.mark, node.text, "a plain number such as 12 or 0.25")
            return None
        return int(node.text) if node.text.lstrip("+-").isdigit() else float(node.text)

    def _scalars(self, node: Node) -> list[ScalarNode]:
        if not isinstance(node, SeqNode):
            self._fault(node.mark, _text_of(node), "a list in brackets [ ]")
            return []
        for item in node.items:
            if not isinstance(item, ScalarNode):
                self._fault(item.mark, "", "a single value")
        return [item for item in node.items if isinstance(item, ScalarNode)]

    def _keep_row(self, table: Table, row: Row, seen: dict[str, Mark]) -> None:
        earlier = table.rows.get(row.key)
        if earlier is not None and earlier.layer == self.layer:
            self._fault(row.mark, row.key, "each key once in a table",
                        f"{seen.get(row.key, earlier.mark)} has it already")  # fmt: skip
            return
        if earlier is not None:
            self.source.overridden.append((f"{table.name}/{row.key}", earlier.layer, self.layer))
            self.source.replaced_rows.append((table.name, earlier, row))
        seen[row.key] = row.mark
        table.rows[row.key] = row

    # -- parts ----------------------------------------------------------------------------------

    def _part(self, node: MapNode) -> None:
        basis = self._basis(node) or self.basis
        self.source.parts.append(PartSource(node, self.layer, basis, self._text(node, "note")))

    # -- pieces ---------------------------------------------------------------------------------

    def _basis(self, node: MapNode) -> BasisText | None:
        found = node.get("basis")
        if found is None:
            return None
        if not isinstance(found, MapNode):
            self._fault(found.mark, _text_of(found), 'a map: {kind: practice, source: "..."}')
            return None
        self._check_keys(found, ("kind", "source"), "a basis")
        kind, source = self._text(found, "kind"), self._text(found, "source")
        if kind not in BASIS_KINDS:
            self._fault(found.mark, kind, f"a kind of basis: {', '.join(BASIS_KINDS)}")
        if not source:
            self._fault(found.mark, "", "a `source`",
                        "name the standard and clause, or say what the practice is")  # fmt: skip
        return BasisText(kind, source)

    def _items(self, node: Node, what: str) -> list[MapNode]:
        if not isinstance(node, SeqNode):
            self._fault(node.mark, _text_of(node), what)
            return []
        for item in node.items:
            if not isinstance(item, MapNode):
                self._fault(item.mark, _text_of(item), "a map (key: value)")
        return [item for item in node.items if isinstance(item, MapNode)]

    def _text(self, node: MapNode, key: str) -> str:
        found = node.get(key)
        if found is None:
            return ""
        if not isinstance(found, ScalarNode):
            self._fault(found.mark, "", f"one text under `{key}`")
            return ""
        return found.text

    def _check_keys(self, node: MapNode, known: tuple[str, ...], where: str) -> None:
        for key, _ in node.entries:
            if key.text not in known:
                self._unknown(key, list(known), where)

    def _unknown(self, key: ScalarNode, known: list[str], where: str) -> None:
        near = nearest(key.text, known)
        hint = f"did you mean `{near}`?" if near else f"keys are {', '.join(known)}"
        self._fault(key.mark, key.text, f"a key of {where}", hint)

    def _fault(self, mark: Mark, read: str, expected: str, hint: str = "") -> None:
        self.faults.append(Fault(mark, read, expected, hint))


def _text_of(node: Node) -> str:
    return node.text if isinstance(node, ScalarNode) else ""
