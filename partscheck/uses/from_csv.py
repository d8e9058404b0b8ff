"""A parts list started from a CSV file of line items: nothing is lost, what cannot be read stands as a comment."""

from __future__ import annotations

import json
import os
import re

from partscheck.build.record_reader import RecordReader
from partscheck.notation.cell_text import as_typed, details_pairs, one_line
from partscheck.notation.errors import NotationError
from partscheck.notation.faults import Fault, Faults
from partscheck.notation.words import nearest
from partscheck.notation.yaml_text import Mark, Node, ScalarNode, SeqNode
from partscheck.parts.kinds import KINDS
from partscheck.parts.word_types import Id
from partscheck.uses.csv_table import STATUS, Table, read_table

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable
    from typing import Any

    from partscheck.parts.field import Field

# Names by which people call a kind, beside its word and its title.
CALLED = {
    "tyre": "tire", "rim": "wheel", "wheel-nut": "lug-nut", "lugnut": "lug-nut", "lug-bolt": "wheel-bolt",
    "grease-seal": "seal", "oil-seal": "seal", "spring": "leaf-spring", "arm": "suspension-arm", "light": "lamp",
    "hitch-ball": "ball", "chain": "safety-chain", "grease-cap": "dust-cap", "wheel-adapter": "adapter",
    "wheel-spacer": "spacer", "hex-bolt": "bolt", "screw": "bolt", "locknut": "nut", "lock-nut": "nut",
    "trailer-plug": "connector", "plug": "connector", "cable": "wire", "split-pin": "cotter-pin",
    "mudguard": "fender",
}  # fmt: skip
SYMBOLS = {"\u20ac": "EUR", "\u00a3": "GBP"}
NAMED = ("id", "part", "kind")
TRUE_WORDS = {"yes": "true", "y": "true", "x": "true", "no": "false", "n": "false"}
# Text that YAML takes as it stands: no sign of its own, nothing that reads as another value.
PLAIN = re.compile(r"[A-Za-z0-9][A-Za-z0-9 ./+_x\u00b1-]*(?<! )")
LINE_ORDER = ("id", "part", "kind")


class _Line:
    """One line of the new list: keys and texts in order, and what stands beside them as comments."""

    def __init__(self) -> None:
        self.values: dict[str, str | list[str]] = {}
        self.comments: list[str] = []


def list_from_csv(
    source: str | bytes, catalogs: Iterable[str] = (), called: str = ""
) -> tuple[str, list[Fault]]:
    """(text of a parts list, what could not be read) of a file's path, or of its bytes, named ``called``.

    Each fault names the row and column of the file; a row, column or cell that could not be read stands in
    the list as a comment.  Raises ``Faults`` when no row of the file can be read.
    """
    from partscheck.catalogue.catalogue import Catalogue

    table = read_table(source, called)
    reader = _Rows(table, Catalogue.load(catalogs))
    for number, cells in table.rows:
        reader.row(number, cells)
    reader.name_the_rest()
    faults = [*table.faults, *reader.faults]
    if not any(isinstance(item, _Line) for item in reader.items):
        raise Faults(
            faults or [Fault(table.mark(1), "", "rows of line items below the headings", "there are none")]
        )
    return _yaml(table, reader.items), sorted(faults, key=lambda fault: fault.mark.place)


class _Rows:
    """Reads rows; ``items`` are lines, and texts of rows that are no line."""

    def __init__(self, table: Table, catalogue: Any) -> None:
        self.table = table
        self.catalogue = catalogue
        self.items: list[_Line | str] = []
        self.faults: list[Fault] = []
        self.ids: set[str] = set()

    def row(self, number: int, cells: list[str]) -> None:
        typed, beside = self._by_key(number, cells)
        whole = self.table.delimiter.join(cells)
        status = typed.pop(STATUS, ("", 0))[0]
        if self.table.ours and status and status != "on the list":
            self.items.append(f"{status}: {one_line(' '.join(cell for cell in cells[1:] if cell))}")
            return
        kind, entry = self._kind(number, typed)
        if kind is None:
            self.items.append(f"row {number} could not be read: {one_line(whole)}")
            return
        line = _Line()
        line.comments = beside
        self._name(line, number, typed, kind, entry)
        for key, (text, column) in self._with_details(number, typed, line).items():
            self._field(line, KINDS[kind], key, text, self.table.mark(number, column))
        line.values = {key: line.values[key] for key in (*LINE_ORDER, *line.values) if key in line.values}
        self.items.append(line)

    def _by_key(self, number: int, cells: list[str]) -> tuple[dict[str, tuple[str, int]], list[str]]:
        """Cells by the key of their column, with its number; and comments for those of no known column."""
        typed: dict[str, tuple[str, int]] = {}
        beside: list[str] = []
        columns = self.table.columns
        for place, cell in enumerate(cells, start=1):
            text = one_line(as_typed(cell))
            if not text:
                continue
            if place > len(columns):
                self._fault(number, place, text, "no more cells than there are headings", "it stands as a comment")
                beside.append(f"column {place}: {text}")
                continue
            column = columns[place - 1]
            if not column.key:
                beside.append(f"{column.heading or f'column {place}'}: {text}")
            elif column.key != "-":
                typed[column.key] = (_with_unit(text, column.unit), place)
        return typed, beside

    def _fault(self, row: int, column: int, read: str, expected: str, hint: str = "") -> None:
        self.faults.append(Fault(self.table.mark(row, column), read, expected, hint))

    # ---- what it is ----------------------------------------------------------------------

    def _kind(self, number: int, typed: dict[str, tuple[str, int]]) -> tuple[str | None, Any]:
        """(kind, catalogue entry or None) of a row; (None, None) after telling why there is none."""
        part, at = typed.get("part", ("", 1))
        entry = self.catalogue.part(part) if part else None
        said, said_at = typed.get("kind", ("", at))
        kind = kind_called(said) if said else None
        if entry is not None:
            if kind is not None and kind != entry.kind:
                self._fault(number, said_at, said, f"{entry.kind}, as the catalogue has {part}",
                            "the catalogue's kind was taken")  # fmt: skip
            return str(entry.kind), entry
        if said and kind is None:
            near = nearest(said, KINDS)
            hint = f"did you mean {near}?" if near else "kinds: " + ", ".join(KINDS)
            self._fault(number, said_at, said, "a kind of part", f"{hint} The row stands as a comment")
            return None, None
        kind = kind or kind_called(part) or kind_called(typed.get("id", ("", 1))[0])
        if kind is None:
            near = self.catalogue.nearest(part) if part else []
            hint = f"nearest in the catalogue: {', '.join(near)}; " if near else ""
            self._fault(number, at, part or typed.get("id", ("", 1))[0], "a part of the catalogue, or a kind",
                        hint + "fill the column kind. The row stands as a comment")  # fmt: skip
        return kind, None

    def _name(self, line: _Line, number: int, typed: dict[str, tuple[str, int]], kind: str, entry: Any) -> None:
        """Catalogue id or kind, and an id of its own."""
        part, _ = typed.pop("part", ("", 1))
        wished, column = typed.pop("id", ("", 1))
        typed.pop("kind", None)
        if entry is not None:
            line.values["part"] = entry.id
        else:
            line.values["kind"] = kind
            if part and kind_called(part) != kind:
                wished, part = (wished or part), ("" if not wished else part)
                if part:
                    line.comments.append(f"part: {part}")
        if not wished:
            return
        id = _as_id(wished)
        if id != wished:
            line.comments.append(f"id: {wished}")
        if id in self.ids:
            other = self._free(id)
            self._fault(number, column, wished, "an id of its own", f"an earlier row has it: it is now {other}")
            id = other
        if id:
            self.ids.add(id)
            line.values["id"] = id

    def _free(self, id: str) -> str:
        """The first of id-2, id-3, ... that no line has."""
        return next(f"{id}-{n}" for n in range(2, 10**6) if f"{id}-{n}" not in self.ids)

    def name_the_rest(self) -> None:
        """A line without an id goes by its part or kind; where rows use such a name as an id, it gets another."""
        for line in self.items:
            if not isinstance(line, _Line) or "id" in line.values:
                continue
            base = str(line.values.get("part") or line.values["kind"])
            if any(re.fullmatch(re.escape(base) + r"(-\d+)?", id) for id in self.ids):
                id = self._free(base)
                self.ids.add(id)
                line.values = {"id": id, **line.values}

    # ---- fields --------------------------------------------------------------------------

    def _with_details(
        self, number: int, typed: dict[str, tuple[str, int]], line: _Line
    ) -> dict[str, tuple[str, int]]:
        """The fields of a row, those of its cell `details` too; what has a column of its own goes first."""
        details, column = typed.pop("details", ("", 1))
        pairs = details_pairs(details)
        if pairs is None:
            self._fault(
                number, column, details, "fields such as thread: 1/2-20; seat: conical", "it stands as a comment"
            )
            line.comments.append(f"details: {details}")
            pairs = []
        currency = typed.pop("currency", ("", 1))[0]
        if currency and "price" in typed and not re.search(r"[A-Z]{3}", typed["price"][0]):
            typed["price"] = (f"{typed['price'][0]} {currency.upper()}", typed["price"][1])
        return {**typed, **{key: (text, column) for key, text in pairs if key not in typed}}

    def _field(self, line: _Line, kind: Any, key: str, text: str, mark: Mark) -> None:
        """One value, read as the parts list would read it; what is refused stands as a comment."""
        field = next((one for one in kind.fields.values() if one.key == key), None)
        if field is None:
            self.faults.append(
                Fault(mark, text, f"a field of {kind.kind} in column {key}", "it stands as a comment")
            )
            line.comments.append(f"{key}: {text}")
            return
        value = self._repaired(line, field, text)
        record, reader = kind(), RecordReader(self.catalogue, "")
        try:
            reader.read(record, field, _node(value, mark))
        except NotationError as error:  # a type that reads lists raises what it cannot use
            reader.fault(mark, text, error.expected, error.hint)
        if reader.faults:
            for fault in reader.faults:
                fault.mark = mark
                fault.hint = (fault.hint + "; " if fault.hint else "") + "it stands as a comment"
            self.faults.extend(reader.faults)
            line.comments.append(f"{key}: {text}")
            return
        line.values[key] = value

    def _repaired(self, line: _Line, field: Field, text: str) -> str | list[str]:
        """What spreadsheets do to a value, undone: 2.0 pieces, 41,50 in a file parted by semicolons."""
        name = type(field.type).__name__
        if name in ("Count", "CountOrFlag"):
            text = re.sub(r"^(\d+)\.0+$", r"\1", text)
            return TRUE_WORDS.get(text.lower(), text.lower()) if name == "CountOrFlag" else text
        if name == "Money":
            return self._price(line, text)
        if name == "Mass" and self.table.delimiter != ",":
            return re.sub(r"^(\d+),(\d{1,2})(?!\d)", r"\1.\2", text)
        if getattr(field.type, "many", False):
            pieces = [piece.strip() for piece in text.strip("[]").split(",") if piece.strip()]
            return pieces if len(pieces) > 1 else text
        return text

    def _price(self, line: _Line, text: str) -> str:
        """41.50 EUR from what a spreadsheet shows; a dollar sign names no one currency: left out and said."""
        plain = text
        for symbol, code in SYMBOLS.items():
            if symbol in plain:
                plain = f"{plain.replace(symbol, '').strip()} {code}"
        if "$" in plain:
            plain = plain.replace("$", "").strip()
            line.comments.append(f"price was {text}: write the currency behind it, such as {plain} USD")
        before = re.fullmatch(r"([A-Z]{3})\s*([\d.,]+)", plain)
        if before:
            plain = f"{before[2]} {before[1]}"
        if self.table.delimiter != ",":
            comma = re.fullmatch(r"(\d{1,3}(?:\.\d{3})*|\d+),(\d{1,2})(\s*[A-Z]{3})?", plain)
            if comma:
                plain = f"{comma[1].replace('.', '')}.{comma[2]}{comma[3] or ''}"
        return plain


def kind_called(text: str) -> str | None:
    """The kind that people mean: "Lug nuts" is lug-nut; None where there is none of that name."""
    folded = re.sub(r"[\s_-]+", "-", text.strip().lower())
    for word in (folded, folded.removesuffix("s"), folded.removesuffix("es")):
        if word in KINDS:
            return word
        if word in CALLED:
            return CALLED[word]
        titled = next((kind for kind, cls in KINDS.items() if cls.title.replace(" ", "-") == word), None)
        if titled:
            return titled
    return None


def _with_unit(text: str, unit: str) -> str:
    """A bare number gets the unit that its heading names."""
    return f"{text} {unit}" if unit and re.fullmatch(r"[+-]?[\d.,]+", text) else text


def _as_id(text: str) -> str:
    """The text as an id, or the nearest that may be one; "" where nothing is left."""
    if re.match(Id.GRAMMAR, text):
        return text
    kept = re.sub(r"[^\w ./+#()-]+", "-", text)[:60].strip(" ./+#()-")
    return kept if re.match(Id.GRAMMAR, kept) else ""


def _node(value: str | list[str], mark: Mark) -> Node:
    if isinstance(value, str):
        return ScalarNode(value, False, mark)
    items = SeqNode(True, mark)
    items.items = [ScalarNode(one, False, mark) for one in value]
    return items


# ---- the list ----------------------------------------------------------------------------------


def _yaml(table: Table, items: list[_Line | str]) -> str:
    name = os.path.basename(table.file)
    out = [
        f"# Started from {one_line(name)}. Rows, columns and cells that could not be read stand as comments.",
        "# Add service: and layout: (`partscheck new` shows how), then run: partscheck check on this file.",
        f"build: {_scalar(one_line(os.path.splitext(name)[0]) or 'parts')}",
        "",
        "parts:",
    ]
    for item in items:
        if isinstance(item, str):
            out.append(f"  # {item}")
            continue
        keys = [f"{key}: {_value(value)}" for key, value in item.values.items()]
        out += [
            f"  - {keys[0]}",
            *(f"    {pair}" for pair in keys[1:]),
            *(f"    # {one}" for one in item.comments),
        ]
    return "\n".join(out) + "\n"


def _value(value: str | list[str]) -> str:
    return _scalar(value) if isinstance(value, str) else "[" + ", ".join(_scalar(one) for one in value) + "]"


def _scalar(text: str) -> str:
    """The text as YAML: in quotes wherever it could be taken for something else."""
    return text if PLAIN.fullmatch(text) else json.dumps(text, ensure_ascii=False)
