"""Reads a parts list: YAML text with positions in, a typed ``Build`` out, or every fault at once."""

from __future__ import annotations

import os
from difflib import get_close_matches

from partscheck.build.limits import Limits, OwnLimit, dimension_of, read_limit
from partscheck.build.model import Build
from partscheck.build.part_lines import PartLines
from partscheck.build.record_reader import RecordReader, is_empty, text_of
from partscheck.build.references import References
from partscheck.notation.errors import NotationError
from partscheck.notation.faults import Fault, Faults
from partscheck.notation.yaml_text import MapNode, Node, ScalarNode, SeqNode, compose, read_text
from partscheck.parts.records import (
    Acceptance,
    BoltedJoint,
    Layout,
    LoadEntry,
    PartsList,
    PracticeOverride,
    Service,
    TowVehicle,
)

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.parts.record import Record

TOP_KEYS = (
    "build", "service", "layout", "parts", "bolted_joints", "loads", "load_cases", "tow_vehicle",
    "practice", "accept", "as_of", "note",
)  # fmt: skip
MAX_PARTS = 5_000
CHANGE_KEYS = {"swap", "replace", "add", "remove"}  # of a file that changes a list


def read_build(source: str | os.PathLike[str] | bytes, catalogue: Any, file: str = "") -> Build:
    """The build of a parts list.

    ``source`` is a path, or the bytes of a list already read (``file`` then names it in messages).
    Raises ``Faults`` with every fault: file, line, column, what was read, what is expected.
    """
    shown = file or (os.fspath(source) if not isinstance(source, bytes) else "<input>")
    text = read_text(source, shown)
    composing: list[Fault] = []
    root = compose(text, shown, bearable=composing)
    return _ListReader(catalogue, shown, text, composing).read(root)


class _ListReader:
    """``composing`` are faults that the YAML itself showed; they are told with those of the values."""

    def __init__(self, catalogue: Any, file: str, text: str, composing: list[Fault]) -> None:
        self.catalogue = catalogue
        self.file = file
        self.composing = composing
        self.reader = RecordReader(catalogue, text)
        self.lines = PartLines(self.reader, catalogue)

    def read(self, root: Node) -> Build:
        if not isinstance(root, MapNode):
            self.reader.fault(root.mark, text_of(root), "a parts list: a map with `parts:`",
                              "`partscheck new` writes a list to start from")  # fmt: skip
            raise self._faults()
        build = Build("", self.file, self.catalogue)
        build.service, build.layout, build.tow_vehicle = Service(), Layout(), TowVehicle()
        build.limits = Limits(self.catalogue)
        build.overridden = getattr(self.catalogue, "overridden", [])  # it grows as parts are asked for
        if root.get("parts") is None and CHANGE_KEYS & {*root.keys()}:
            self.reader.fault(root.mark, ", ".join(root.keys()[:6]), "a parts list, with a key `parts`",
                              "this file changes a list: `partscheck swap LIST CHANGE` takes it")  # fmt: skip
            raise self._faults()
        for key, node in (*root.entries, *root.repeated):
            if key.text not in TOP_KEYS:
                self.reader.unknown_key(key, list(TOP_KEYS), "a parts list")
                continue
            if isinstance(node, ScalarNode) and is_empty(node) and key.text != "parts":
                expected = f"something under `{key.text}`"
                self.reader.fault(node.mark, "", expected, "fill it in or leave it out")
                continue
            getattr(self, "_" + key.text)(build, node)
        if root.get("parts") is None:
            self.reader.fault(root.mark, ", ".join(root.keys()[:6]), "a key `parts` with the list of parts")
        References(self.reader, self.lines.broken).check(build)
        build.untold_words = list(self.reader.told)
        faults = self._faults()
        if faults.faults:
            raise faults
        return build

    def _faults(self) -> Faults:
        """What the YAML and its values show; one place is told once."""
        told = {fault.mark.place for fault in self.composing}
        values = [fault for fault in self.reader.faults if fault.mark.place not in told]
        return Faults([*self.composing, *values], self.reader.following)

    # ---- one method for each key at the top ------------------------------------------------

    def _build(self, build: Build, node: Node) -> None:
        if isinstance(node, ScalarNode):
            build.name = node.text.strip()
        else:
            self.reader.fault(node.mark, text_of(node), "the name of the build")

    def _note(self, build: Build, node: Node) -> None:
        if not isinstance(node, ScalarNode):
            self.reader.fault(node.mark, text_of(node), "a note: text")

    def _service(self, build: Build, node: Node) -> None:
        self._fill(build.service, node)

    def _layout(self, build: Build, node: Node) -> None:
        self._fill(build.layout, node)

    def _tow_vehicle(self, build: Build, node: Node) -> None:
        self._fill(build.tow_vehicle, node)

    def _fill(self, record: Record, node: Node) -> None:
        record.mark = node.mark
        self.reader.fill(record, node)

    def _parts(self, build: Build, node: Node) -> None:
        if isinstance(node, SeqNode) and len(node.items) > MAX_PARTS:
            self.reader.fault(node.mark, f"{len(node.items)} lines", f"at most {MAX_PARTS} lines")
            return
        build.parts += self.lines.read(node)

    def _bolted_joints(self, build: Build, node: Node) -> None:
        build.joints = self._maps(BoltedJoint, "joint", node)
        first: dict[str, Any] = {}
        for joint in build.joints:
            earlier = first.setdefault(joint.id, joint)
            if earlier is not joint and joint.mark is not None and earlier.mark is not None:
                self.reader.fault(joint.where("id") or joint.mark, joint.id, "a name of its own for each joint",
                                  f"line {earlier.mark.line} has it already")  # fmt: skip

    def _loads(self, build: Build, node: Node) -> None:
        build.loads = self._maps(LoadEntry, "load", node)

    def _accept(self, build: Build, node: Node) -> None:
        build.accept = self._maps(Acceptance, "acceptance", node)
        for item in node.items if isinstance(node, SeqNode) else []:
            self._complete(Acceptance, item, "every line of `accept`")

    def _complete(self, cls: type[Record], node: Node, where: str) -> None:
        """Tell of keys that a map cannot do without."""
        typed = node.keys() if isinstance(node, MapNode) else list(cls.required)
        for name in cls.required:
            if name not in typed:
                hint = "write {" + ", ".join(f"{key}: ..." for key in cls.required) + "}"
                self.reader.fault(node.mark, ", ".join(typed), f"`{name}` in {where}", hint)

    def _maps(self, cls: type[Any], name: str, node: Node) -> list[Any]:
        if not isinstance(node, SeqNode):
            self.reader.fault(node.mark, text_of(node), "a list", "start each line with `- `")
            return []
        records = []
        for number, item in enumerate(node.items, start=1):
            record = cls("", item.mark)
            self.reader.fill(record, item)
            record.id = _own_id(record) or f"{name} {number}"
            records.append(record)
        return records

    def _load_cases(self, build: Build, node: Node) -> None:
        read = self.reader.read(build.header, PartsList.fields["load_cases"], node)
        build.load_cases = [] if read is None else list(read.value)

    def _as_of(self, build: Build, node: Node) -> None:
        read = self.reader.read(build.header, PartsList.fields["as_of"], node)
        if read is not None:
            build.header.values["as_of"] = read

    def _practice(self, build: Build, node: Node) -> None:
        if not isinstance(node, MapNode):
            self.reader.fault(node.mark, text_of(node), "a map of practice limits")
            return
        names = build.limits.names()
        for key, value in node.entries:
            if key.text not in names:
                near = get_close_matches(key.text, names, n=1, cutoff=0.5)
                hint = f"did you mean `{near[0]}`?" if near else "`partscheck rules --limits` lists them"
                self.reader.fault(key.mark, key.text, "the name of a practice limit", hint)
                continue
            self._own_limit(build.limits, key.text, value)

    def _own_limit(self, limits: Limits, name: str, node: Node) -> None:
        override = PracticeOverride(name, node.mark)
        before = len(self.reader.faults)
        self.reader.fill(override, node)
        self._complete(PracticeOverride, node, f"the practice limit `{name}`")
        if len(self.reader.faults) > before:
            return
        typed = override.values["value"]
        try:
            value = read_limit(typed.text, dimension_of(limits.row(name)))
        except NotationError as error:
            self.reader.fault(typed.mark or node.mark, error.read, error.expected, error.hint)
            return
        limits.own[name] = OwnLimit(value, override.reason, node.mark)


def _own_id(record: Record) -> str:
    for name in ("id", "what"):
        typed = record.values.get(name)
        if typed is not None and isinstance(typed.value, str):
            return typed.value
    return ""
