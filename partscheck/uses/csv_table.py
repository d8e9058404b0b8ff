"""Reads a CSV file of line items: its encoding, its delimiter, and what its columns are called."""

from __future__ import annotations

import csv
import io

from partscheck.notation.csv_text import DELIMITERS, TOLD_DELIMITER, folded, named_unit
from partscheck.notation.faults import Fault, Faults
from partscheck.notation.words import nearest
from partscheck.notation.yaml_text import LIMITS, Mark
from partscheck.parts.kinds import KINDS

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterator

COLUMNS_WANTED = "columns such as part, kind, qty, packs, pack, price, seller, weight, note, or a field of a part"

# Usual names of the columns that every line may have, folded: small letters, _ between words.
ALIASES: dict[str, tuple[str, ...]] = {
    "part": ("part_no", "part_number", "part_id", "catalogue_id", "catalog_id", "article", "sku", "item_no"),
    "id": ("name", "item", "ref", "reference", "line", "line_id"),
    "kind": ("kind_of_part", "category", "part_kind"),
    "qty": ("quantity", "pieces", "pcs", "count", "number", "qty_pieces", "how_many"),
    "packs": ("packs_bought", "number_of_packs", "qty_packs"),
    "pack": ("pack_size", "pieces_per_pack", "per_pack", "pcs_per_pack", "pieces_in_a_pack"),
    "price": ("unit_price", "price_each", "each", "cost_each", "price_per_unit"),
    "currency": (),
    "seller": ("vendor", "supplier", "shop", "store", "sold_by", "source", "dealer"),
    "weight": ("mass", "weight_each", "unit_weight"),
    "have": ("in_stock", "on_hand", "in_the_shop", "in_hand", "owned"),
    "note": ("notes", "comment", "comments", "memo"),
    "details": ("fields",),
}
STATUS = "status"
# Columns of a bill of materials of ours that are sums, not what somebody typed.
SUMS = (
    "assembly", "description", "needed_pieces", "in_cart_pieces", "to_order_purchases", "to_order_pieces",
    "price_of_one_piece", "cost", "cart_cost", "weight_built_kg", "needed_for", "verdict", "warnings", "remarks",
)  # fmt: skip
OURS = ("needed_pieces", "to_order_pieces")


class Column:
    """A column: its ``heading`` as typed, the ``key`` it fills ("" for none), the ``unit`` that it names."""

    __slots__ = ("heading", "key", "number", "unit")

    def __init__(self, number: int, heading: str, key: str, unit: str = "") -> None:
        self.number = number
        self.heading = heading
        self.key = key
        self.unit = unit


class Table:
    """``columns``, and ``rows``: (number of the row as a spreadsheet counts it, its cells); ``faults`` of the
    file and of the headings; ``delimiter``; ``ours``: a bill of materials that this program wrote.
    """

    def __init__(self, file: str) -> None:
        self.file = file
        self.delimiter = ","
        self.columns: list[Column] = []
        self.rows: list[tuple[int, list[str]]] = []
        self.faults: list[Fault] = []
        self.ours = False

    def mark(self, row: int, column: int = 1) -> Mark:
        return Mark(self.file, row, column)


def read_table(source: str | bytes, called: str = "") -> Table:
    """The table of a CSV file: its path, or its bytes, which messages name ``called``.  Raises ``Faults`` when
    nothing can be read from it.
    """
    table = Table(called if isinstance(source, bytes) else source)
    text = _decoded(_small(source if isinstance(source, bytes) else _bytes(table), table), table)
    lines = text.split("\n", 1)
    told = TOLD_DELIMITER.fullmatch(lines[0])
    if told and len(lines) == 2:
        text = lines[1]
    table.delimiter = told[1] if told else _delimiter(text, table)
    records = _records(text, table.delimiter, table)
    head = next(((number, cells) for number, cells in records if any(cell.strip() for cell in cells)), None)
    if head is None:
        raise Faults([Fault(table.mark(1), "", "a table with a row of headings", "the file is empty")])
    _name_columns(table, head)
    table.rows = [
        (number, cells) for number, cells in records if number > head[0] and any(c.strip() for c in cells)
    ]
    return table


def _bytes(table: Table) -> bytes:
    try:
        with open(table.file, "rb") as stream:
            return stream.read(LIMITS.bytes + 1)
    except OSError as error:
        raise Faults(
            [Fault(table.mark(1), "", "a CSV file that can be read", error.strerror or str(error))]
        ) from None


def _small(data: bytes, table: Table) -> bytes:
    if len(data) > LIMITS.bytes:
        hint = f"it is larger than {LIMITS.bytes // 1_000_000} MB"
        raise Faults([Fault(table.mark(1), "", "a CSV file of line items", hint)])
    return data


def _decoded(data: bytes, table: Table) -> str:
    for mark, encoding in ((b"\xff\xfe", "utf-16"), (b"\xfe\xff", "utf-16"), (b"\xef\xbb\xbf", "utf-8-sig")):
        if data.startswith(mark):
            return data.decode(encoding, "replace")
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError as error:
        row = data.count(b"\n", 0, error.start) + 1
        hint = "it was read as Windows text (cp1252): look at its letters with accents, or save it as CSV UTF-8"
        table.faults.append(Fault(table.mark(row), "", "text in UTF-8", hint))
        return data.decode("cp1252", "replace")


def _records(text: str, delimiter: str, table: Table) -> list[tuple[int, list[str]]]:
    """Every record with its number; a file whose quotes never end is told."""
    if "\0" in text:
        raise Faults([Fault(table.mark(text.count("\n", 0, text.index("\0")) + 1), "", "text",
                            "there are NUL characters in it: it is no CSV file")])  # fmt: skip
    try:
        return list(enumerate(csv.reader(io.StringIO(text, newline=""), delimiter=delimiter), start=1))
    except csv.Error as error:
        raise Faults([Fault(table.mark(1), "", "a CSV file", f"it cannot be read: {error}")]) from None


def _delimiter(text: str, table: Table) -> str:
    """The one that parts the headings into most columns with a known name, then into most columns."""
    first = next((line for line in text.splitlines() if line.strip(" ,;\t|\r")), "")

    def worth(delimiter: str) -> tuple[int, int]:
        cells = next(iter(_records(first, delimiter, table)), (1, [""]))[1]
        return sum(bool(_key(cell)[0]) for cell in cells), len(cells)

    return max(DELIMITERS, key=worth)


def _name_columns(table: Table, head: tuple[int, list[str]]) -> None:
    row, cells = head
    names = [folded(cell) for cell in cells]
    table.ours = all(name in names for name in OURS)
    seen: dict[str, str] = {}
    for number, heading in enumerate(cells, start=1):
        key, unit = _key(heading)
        if table.ours and names[number - 1] in (*SUMS, STATUS):
            key, unit = (STATUS, "") if names[number - 1] == STATUS else ("-", "")
        elif key and key in seen:
            hint = f'"{seen[key]}" is taken for it already: the cells of this column stand as comments'
            table.faults.append(Fault(table.mark(row, number), heading, f"one column for {key}", hint))
            key = ""
        elif not key and heading.strip():
            near = nearest(folded(heading), [*_NAMES])
            hint = f"did you mean {_NAMES[near]}? " if near else ""
            table.faults.append(
                Fault(table.mark(row, number), heading, COLUMNS_WANTED, hint + "its cells stand as comments")
            )
        if key:
            seen[key] = heading.strip()
        table.columns.append(Column(number, heading.strip(), key, unit))
    if not {"part", "kind", "id"} & set(seen):
        told = ", ".join(cell.strip() for cell in cells if cell.strip())
        raise Faults([Fault(table.mark(row), told, "a first row of headings, with a column part or kind at least",
                            COLUMNS_WANTED)])  # fmt: skip


def _names() -> Iterator[tuple[str, str]]:
    """Every folded name of a column and its key."""
    for kind in KINDS.values():
        for field in kind.fields.values():
            yield folded(field.key), field.key
    for key, others in ALIASES.items():
        for name in (key, *others):
            yield name, key


_NAMES = dict(_names())


def _key(heading: str) -> tuple[str, str]:
    """(key, unit) of a heading: "Weight (lb)" is ("weight", "lb"); ("", "") for one that is not known."""
    known = _NAMES.get(folded(heading))
    if known:
        return known, ""
    found = named_unit(heading)
    key = _NAMES.get(found[0]) if found else None
    return (key, found[1]) if found and key else ("", "")
