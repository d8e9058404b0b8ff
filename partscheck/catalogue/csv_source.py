"""Reads a CSV catalogue: a row of headings, then a part in each row.

Headings are ``id``, ``kind``, ``note``, ``basis`` and the fields of parts, in any order, capitals
or not; "Thickness (in)" gives bare numbers below it their unit.  An empty cell says nothing.
"""

from __future__ import annotations

import csv

from partscheck.catalogue.row_text import BETWEEN, Row, odd_character
from partscheck.notation.cell_text import as_typed
from partscheck.notation.csv_text import DELIMITERS, TOLD_DELIMITER, folded, named_unit
from partscheck.notation.words import nearest
from partscheck.parts.kinds import KINDS

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterator

    from partscheck.catalogue.row_text import RowFaults

CELL_AT_MOST = 100_000  # characters; beyond, a quote was opened and never closed
_QUOTES = "a comma in a text needs quotes around the text"
OWN_KEYS = ("id", "kind", "note", "basis")


class _Heads:
    """The columns: key and unit of each, "" for one without a heading."""

    def __init__(self, keys: list[str], units: list[str]) -> None:
        self.keys = tuple(keys)
        self.columns = tuple(range(1, len(keys) + 1))
        self.units = [(place, unit) for place, unit in enumerate(units) if unit]


def known_keys() -> dict[str, str]:
    """Every folded name of a column and its key."""
    names = {folded(field.key): field.key for kind in KINDS.values() for field in kind.fields.values()}
    for key in OWN_KEYS:
        names[key] = key
    names.pop("part", None)
    return names


def read_csv(lines: Iterator[str], faults: RowFaults) -> Iterator[Row]:
    """Every row that can be read; what is wrong with the others is told."""
    csv.field_size_limit(CELL_AT_MOST)
    counted = _Counted(lines)
    first = next(counted, "")
    told = TOLD_DELIMITER.fullmatch(first)
    if told:
        first = next(counted, "")
    while first and not first.strip(" \t\r\n,;|"):
        first = next(counted, "")
    names = known_keys()
    delimiter = told[1] if told else _delimiter(first, names)
    reader = csv.reader(_again(first, counted), delimiter=delimiter, strict=True)
    heads = None
    start = counted.number
    while not faults.full:
        try:
            cells = next(reader)
        except StopIteration:
            break
        except csv.Error as error:
            faults.tell(start, 1, "", "a row of a CSV file", _plainly(str(error)))
            if "field larger" in str(error) or "end of data" in str(error):
                return
            start = counted.number + 1
            continue
        if heads is None:
            heads = _heads(cells, start, names, faults)
            if heads is None:
                return
        elif any(cells):
            row = _row(cells, start, heads, faults)
            if row is not None:
                yield row
        start = counted.number + 1
    if heads is None and not faults:
        faults.tell(1, 1, "", "a row of headings with id and kind, and parts below it", "the file is empty")


class _Counted:
    """Lines, with the number of the last one that was taken."""

    def __init__(self, lines: Iterator[str]) -> None:
        self.lines = lines
        self.number = 0

    def __iter__(self) -> _Counted:
        return self

    def __next__(self) -> str:
        line = next(self.lines)
        self.number += 1
        return line


def _again(first: str, rest: Iterator[str]) -> Iterator[str]:
    if first:
        yield first
    yield from rest


def _delimiter(line: str, names: dict[str, str]) -> str:
    """The one that parts the headings into most known names, then into most columns."""

    def worth(delimiter: str) -> tuple[int, int]:
        cells = [folded(cell) for cell in line.split(delimiter)]
        return sum(cell in names for cell in cells), len(cells)

    return max(DELIMITERS, key=worth)


def _heads(cells: list[str], line: int, names: dict[str, str], faults: RowFaults) -> _Heads | None:
    keys: list[str] = []
    units: list[str] = []
    for column, cell in enumerate(cells, start=1):
        key, unit = _key(cell, names)
        odd = odd_character(cell)
        if odd:
            faults.tell(line, column, cell, "a heading: plain text", odd)
            key = ""
        elif not key and cell.strip():
            near = "id" if folded(cell) == "part" else nearest(folded(cell), names)
            hint = f"did you mean `{names[near]}`?" if near else "or take the column out"
            faults.tell(line, column, cell, "a heading: id, kind, note, basis, or a field of a part", hint)
        elif key and key in keys:
            faults.tell(line, column, cell, "each heading once", f"column {keys.index(key) + 1} has it already")
            key = unit = ""  # the rows are read all the same, so that their faults are told, too
        keys.append(key)
        units.append(unit)
    missing = [key for key in ("id", "kind") if key not in keys]
    if missing:
        told = ", ".join(cell.strip() for cell in cells[:8])
        faults.tell(line, 1, told, "a first row of headings with id and kind", f"{' and '.join(missing)} missing")
    return None if missing else _Heads(keys, units)


def _key(heading: str, names: dict[str, str]) -> tuple[str, str]:
    """(key, unit) of a heading; ("", "") where it is not known."""
    known = names.get(folded(heading))
    if known:
        return known, ""
    found = named_unit(heading)
    key = names.get(found[0], "") if found else ""
    return (key, found[1]) if found and key else ("", "")


def _row(cells: list[str], line: int, heads: _Heads, faults: RowFaults) -> Row | None:
    if len(cells) != len(heads.keys):
        while len(cells) > len(heads.keys) and not cells[-1].strip():
            cells.pop()
        if len(cells) != len(heads.keys):
            hint = "an empty cell keeps its comma" if len(cells) < len(heads.keys) else _QUOTES
            hint = f"there are {len(cells)}: {hint}"
            faults.tell(line, 1, "", f"{len(heads.keys)} cells, one under each heading", hint)
            return None
    whole = BETWEEN.join(cells)
    if (not whole.isascii() or not whole.replace(BETWEEN, "").isprintable()) and not _sound(cells, line, faults):
        return None
    if whole.count("'"):
        cells = [as_typed(cell) if cell.lstrip().startswith("'") else cell for cell in cells]
    for place, unit in heads.units:
        cell = cells[place].strip()
        if cell[-1:].isdigit():
            cells[place] = f"{cell} {unit}"
    return Row(line, heads.keys, cells, heads.columns)


def _sound(cells: list[str], line: int, faults: RowFaults) -> bool:
    for column, cell in enumerate(cells, start=1):
        why = odd_character(cell)
        if why:
            faults.tell(line, column, cell, "plain text", why)
            return False
    return True


def _plainly(error: str) -> str:
    """What the CSV reader says, in words for people."""
    if "field larger" in error:
        return "a quote was opened here or before and never closed"
    if "end of data" in error:
        return "the file ends inside a quoted text that starts here"
    if "expected after" in error:
        return "text stands behind a closing quote; a quote inside a quoted text is typed twice"
    return error
