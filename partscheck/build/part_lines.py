"""Reads the lines of ``parts``: written out in full, or from the catalogue with changed fields."""

from __future__ import annotations

from partscheck.build.record_reader import RecordReader, is_empty, nearest, text_of
from partscheck.notation.yaml_text import MapNode, Mark, Node, ScalarNode, SeqNode
from partscheck.parts.kinds import KINDS
from partscheck.parts.record import Part

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

OWN_KEYS = ("kind", "part", "id")


class PartLines:
    """Reads part lines; ``broken`` are ids of lines that could not be read as any kind.

    ``taken`` are ids that lines have already, each with its place.
    """

    def __init__(self, reader: RecordReader, catalogue: Any, taken: dict[str, Mark] | None = None) -> None:
        self.reader = reader
        self.catalogue = catalogue
        self.broken: set[str] = set()
        self._ids: dict[str, Mark] = dict(taken or {})
        self._counts: dict[str, int] = {}

    def read(self, node: Node) -> list[Part]:
        """Every line that could be read; the faults of the others are collected."""
        if isinstance(node, ScalarNode) and is_empty(node):
            return []
        if not isinstance(node, SeqNode):
            self.reader.fault(node.mark, text_of(node), "a list of parts", "start each line with `- `")
            return []
        lines = [self.line(item) for item in node.items]
        return [line for line in lines if line is not None]

    def line(self, node: Node) -> Part | None:
        if not isinstance(node, MapNode):
            hint = "write `- part: <catalogue id>`, or `- {id: ..., kind: ..., ...}`"
            self.reader.fault(node.mark, text_of(node), "a part: a map of its fields", hint)
            return None
        typed_id = _scalar(node, "id")
        entry = self.entry(node)
        kind = self._kind(node, entry)
        if kind is None:
            self._is_broken(node, typed_id)
            return None
        part = KINDS[kind](mark=node.mark)
        if entry is not None:
            self.from_catalogue(part, entry)
        self.reader.fill(part, node, skip=("kind",))
        part.id = self._id(part, node, typed_id, entry)
        return part

    def _is_broken(self, node: MapNode, typed_id: ScalarNode | None) -> None:
        """Remember the names by which other lines may mean this one: its id, else what it would get."""
        if typed_id is not None:
            self.broken.add(typed_id.text)
            return
        for key in ("part", "kind"):
            typed = _scalar(node, key)
            if typed is not None:
                self.broken.update((typed.text, *self._meant(key, typed.text)))

    def _meant(self, key: str, text: str) -> list[str]:
        return self.catalogue.nearest(text) if key == "part" else [nearest(text, list(KINDS))]

    def entry(self, node: MapNode) -> Any:
        """The catalogue entry that ``part`` names, or None; a name that is not there is told."""
        name = _scalar(node, "part")
        if name is None:
            return None
        entry = self.catalogue.part(name.text)
        if entry is None and not is_empty(name):
            near = self.catalogue.nearest(name.text)
            hint = f"nearest: {', '.join(near)}; or " if near else ""
            hint += "name its folder: --catalog DIR; or write the part out with `kind:` and its fields"
            self.reader.fault(name.mark, name.text, "the id of a part in the catalogue", hint)
        return entry

    def _kind(self, node: MapNode, entry: Any) -> str | None:
        typed = _scalar(node, "kind")
        if typed is None:
            if entry is not None:
                return str(entry.kind)
            if _scalar(node, "part") is None:
                hint = "add `kind: hub` (or another kind), or `part:` with a catalogue id"
                self.reader.fault(node.mark, ", ".join(node.keys()[:4]), "a part with `kind` or `part`", hint)
            return None
        if typed.text not in KINDS:
            near = nearest(typed.text, list(KINDS)) or nearest(typed.text.replace("_", "-"), list(KINDS))
            hint = f"did you mean `{near}`?" if near else "kinds: " + ", ".join(KINDS)
            self.reader.fault(typed.mark, typed.text, "a kind of part", hint)
            return None
        if entry is not None and entry.kind != typed.text:
            self.reader.fault(typed.mark, typed.text, f"kind {entry.kind}, as the catalogue has it",
                              "leave `kind` out where `part` names it")  # fmt: skip
            return None
        return typed.text

    def from_catalogue(self, part: Part, entry: Any) -> None:
        """Fields of the catalogue entry; their faults were told when the catalogue was read."""
        fields = {field.key: field for field in part.fields.values()}
        for key, (value, file, line, column) in entry.fields.items():
            field = fields.get(key)
            if field is None or key in OWN_KEYS:
                continue
            node = _node_of(value, Mark(file, line, column))
            read = self.reader.read(part, field, node)
            if read is not None:
                read.layer = entry.layer
                part.values[field.name] = read

    def _id(self, part: Part, node: MapNode, typed: ScalarNode | None, entry: Any) -> str:
        if typed is not None and not is_empty(typed):
            first = self._ids.setdefault(typed.text, typed.mark)
            if first is not typed.mark:
                of = "" if first.file == typed.mark.file else f" of {first.file}"
                self.reader.fault(typed.mark, typed.text, "an id of its own",
                                  f"line {first.line}{of} has it already")  # fmt: skip
            return typed.text
        base = entry.id if entry is not None else part.kind
        self._counts[base] = self._counts.get(base, 0) + 1
        number = self._counts[base]
        given = base if number == 1 and base not in self._ids else f"{base}-{max(number, 2)}"
        while given in self._ids:
            self._counts[base] += 1
            given = f"{base}-{self._counts[base]}"
        self._ids[given] = node.mark
        return given


def _scalar(node: MapNode, key: str) -> ScalarNode | None:
    found = node.get(key)
    return found if isinstance(found, ScalarNode) else None


def _node_of(value: Any, mark: Mark) -> Node:
    """A catalogue value (text or list of texts) as a node with its place."""
    if isinstance(value, list):
        items = SeqNode(True, mark)
        items.items = [_node_of(one, mark) for one in value]
        return items
    return ScalarNode(str(value), False, mark)
