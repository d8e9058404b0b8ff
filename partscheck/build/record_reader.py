"""Reads one map of a file into a typed record; every fault is collected, none stops the reading."""

from __future__ import annotations

from difflib import get_close_matches

from partscheck.notation.errors import NotationError
from partscheck.notation.faults import Fault, shortened
from partscheck.notation.yaml_text import MapNode, Mark, Node, ScalarNode, SeqNode
from partscheck.parts.common import ListLine
from partscheck.parts.field import Field
from partscheck.parts.record import Record, Typed
from partscheck.parts.shaped_types import Nested
from partscheck.parts.typed_text import UNKNOWN_SPELLINGS
from partscheck.parts.word_types import Text, UnlistedWord

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

EMPTY = ("null", "~", "Null", "NULL")
COMMA_IN_BRACES = (
    "a comma inside { } ends the value before it: put quotes around a text, [ ] around a list"
)
COMMON_KEYS = {field.key for field in ListLine.fields.values()}


class RecordReader:
    """Reads records of one file, whose ``text`` helps to word what is wrong.

    ``faults`` collects what is wrong, ``following`` counts what only follows from it and is not
    told; ``told`` collects words that are on no published list: (record, field, text, mark,
    nearest listed word).
    """

    def __init__(self, tables: Any, text: str = "", spellings: dict[Any, Any] | None = None) -> None:
        self.tables = tables
        self.text = text
        self.faults: list[Fault] = []
        self.following = 0
        self.told: list[tuple[Record, str, str, Mark, str]] = []
        self._cache: dict[tuple[int, str], Any] = {} if spellings is None else spellings

    def fault(self, mark: Mark, read: str, expected: str, hint: str = "") -> None:
        self.faults.append(Fault(mark, read, expected, hint))

    def comment_at(self, mark: Mark) -> str:
        """The comment that stands where a value is due, or "": YAML drops all behind a #."""
        lines = self.text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
        rest = lines[mark.line - 1][mark.column - 1 :] if mark.line <= len(lines) else ""
        return rest.strip().lstrip(":").strip() if rest.strip().lstrip(":").strip().startswith("#") else ""

    # ---- maps ----------------------------------------------------------------------------

    def fill(self, record: Record, node: Node, layer: str = "list", skip: tuple[str, ...] = ()) -> None:
        """Read every key of ``node`` into ``record`` (keys in ``skip`` are somebody else's)."""
        if not isinstance(node, MapNode):
            self.fault(node.mark, text_of(node), f"{called(record)}: a map of its fields",
                       "write `key: value` lines")  # fmt: skip
            return
        by_key = fields_by_key(type(record))
        for key, value in (*node.entries, *node.repeated):
            if key.text in skip:
                continue
            field = by_key.get(key.text)
            if field is None and node.flow and isinstance(value, ScalarNode) and value.empty:
                self.fault(key.mark, key.text, f"a key and its value in {called(record)}", COMMA_IN_BRACES)
                continue
            if field is None:
                self.unknown_key(key, [*by_key, *skip], called(record))
                continue
            read = self.read(record, field, value)
            if read is not None:
                record.values[field.name] = Typed(read.value, read.text, read.mark, layer)

    def _empty(self, field: Field, node: ScalarNode) -> None:
        """Nothing stands where a value is due: perhaps a # took it away."""
        comment = self.comment_at(node.mark)
        if comment and isinstance(field.type, Text):
            hint = f"a # starts a comment, so this is empty: put quotes around it, {shortened(comment)}"
        else:
            hint = "it is empty: write `unknown` if it is not known, or leave the line out"
        self.fault(node.mark, comment, f"{field.type.expected} for `{field.key}`", hint)

    def unknown_key(self, key: ScalarNode, known: list[str], what: str) -> None:
        """A key that the record does not have, with the nearest one that it has."""
        near = nearest(key.text, known)
        own = sorted({*known} - COMMON_KEYS) or sorted({*known})
        hint = f"did you mean `{near}`?" if near else "known keys: " + ", ".join(own)
        self.fault(key.mark, key.text, f"a field of {what}" if what else "a known key", hint)

    # ---- values --------------------------------------------------------------------------

    def read(self, record: Record, field: Field, node: Node) -> Typed | None:
        """The value of one field, or None after telling what is wrong."""
        if isinstance(node, ScalarNode) and is_empty(node):
            self._empty(field, node)
            return None
        if isinstance(field.type, Nested):
            return self._nested(field, field.type, node)
        if getattr(field.type, "many", False):
            return self._listed(field, node)
        if not isinstance(node, ScalarNode):
            self.fault(node.mark, text_of(node), f"{field.type.expected} for `{field.key}`")
            return None
        value = self._value(field, node.text, node.mark)
        if value is _BAD:
            return None
        if isinstance(value, UnlistedWord):
            self.told.append((record, field.name, value.text, node.mark, value.nearest))
            return Typed(field.type.unknown, node.text, node.mark)
        return Typed(value, node.text, node.mark)

    def _value(self, field: Field, text: Any, mark: Mark) -> Any:
        """Read a text once for each type; the same spelling gives the same value."""
        key = (id(field.type), text) if isinstance(text, str) else None
        if key is not None and key in self._cache:
            return self._cache[key]
        try:
            value = field.type.read(text, self.tables)
        except NotationError as error:
            shown = error.read if isinstance(text, str) else str(error.read)
            self.fault(mark, shown, f"{error.expected} for `{field.key}`", error.hint)
            return _BAD
        if key is not None:
            self._cache[key] = value
        return value

    def _listed(self, field: Field, node: Node) -> Typed | None:
        texts = self._texts(field, node)
        if texts is None:
            return None
        value = self._value(field, texts, node.mark)
        return None if value is _BAD else Typed(value, text_of(node), node.mark)

    def _texts(self, field: Field, node: Node) -> Any:
        """A scalar's text, or a list's texts, nested as typed; None after a fault."""
        if isinstance(node, ScalarNode):
            return node.text
        if isinstance(node, MapNode):
            self.fault(node.mark, text_of(node), f"{field.type.expected} for `{field.key}`")
            return None
        assert isinstance(node, SeqNode)
        texts = [self._texts(field, item) for item in node.items]
        return None if any(text is None for text in texts) else texts

    def _nested(self, field: Field, type_: Nested, node: Node) -> Typed | None:
        if isinstance(node, ScalarNode):
            plain_unknown = node.text.strip().lower() in UNKNOWN_SPELLINGS and type_.unknown_allowed
            if plain_unknown:
                return Typed(type_.unknown, node.text, node.mark)
            self.fault(node.mark, node.text, f"{type_.expected} for `{field.key}`")
            return None
        if type_.form == "one":
            return Typed(self._record(type_.record, field.key, node), text_of(node), node.mark)
        if type_.form == "many":
            return self._many(field, type_, node)
        if not isinstance(node, MapNode):
            self.fault(node.mark, text_of(node), f"{type_.expected} for `{field.key}`")
            return None
        named = {key.text: self._record(type_.record, key.text, value) for key, value in node.entries}
        return Typed(named, text_of(node), node.mark)

    def _many(self, field: Field, type_: Nested, node: Node) -> Typed | None:
        if not isinstance(node, SeqNode):
            expected = f"{type_.expected} for `{field.key}`"
            self.fault(node.mark, text_of(node), expected, "start each with `- `")
            return None
        records = [
            self._record(type_.record, f"{field.key} {number}", item)
            for number, item in enumerate(node.items, start=1)
        ]
        return Typed(records, text_of(node), node.mark)

    def _record(self, cls: type[Record], id: str, node: Node) -> Record:
        record = cls(id, node.mark)
        self.fill(record, node)
        return record


_BAD = object()


_BY_KEY: dict[type, dict[str, Field]] = {}


def fields_by_key(cls: type[Record]) -> dict[str, Field]:
    """The fields of a record class by their YAML key."""
    if cls not in _BY_KEY:
        _BY_KEY[cls] = {field.key: field for field in cls.fields.values()}
    return _BY_KEY[cls]


def called(record: Record) -> str:
    """What a message calls the map: its kind of part, or its own name."""
    return str(getattr(record, "kind", "") or record.record_name or type(record).__name__.lower())


def is_empty(node: ScalarNode) -> bool:
    """Nothing typed, or YAML's word for nothing, or empty quotes."""
    return node.text == "" or (node.plain and node.text in EMPTY)


def text_of(node: Node) -> str:
    """What stands there, for a message: the text, or which shape it has."""
    return node.text if isinstance(node, ScalarNode) else node.called


def nearest(word: str, known: list[str]) -> str:
    """The most likely spelling meant, or ""."""
    found = get_close_matches(word.lower().replace(" ", "_"), known, n=1, cutoff=0.6)
    return found[0] if found else ""
