"""A change to a parts list: fields replaced, lines added, lines removed.

Read from a swap file or typed on the command line, with the place of every value, or made in Python.
``apply.py`` applies it.  What can be named under ``replace``: the id of a line; ``service``, ``layout``,
``tongue``, ``tow_vehicle``; the id of a bolted joint; the ``what`` of a load.  A line's id goes first.
"""

from __future__ import annotations

import os

from partscheck.build.record_reader import RecordReader, is_empty, nearest, text_of
from partscheck.notation.faults import Fault, Faults
from partscheck.notation.yaml_text import MapNode, Mark, Node, ScalarNode, SeqNode, compose, read_text
from partscheck.parts.record import Typed
from partscheck.parts.swap_file import SwapFile

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Mapping
    from typing import Any

FLOW = ("[", "{")
PYTHON = "the change"  # what messages call a change that was made in Python


class Replacement:
    """Fields of one record to replace: ``fields`` are (key, where it stands, value), a value being the
    text to read (a ``Node``) or a value already read (``Typed``).
    """

    __slots__ = ("fields", "mark", "target")

    def __init__(self, target: str, mark: Mark) -> None:
        self.target = target
        self.mark = mark
        self.fields: list[tuple[str, Mark, Node | Typed]] = []


class Change:
    """What to do to a list.  ``name`` and ``base`` as the swap file gives them; ``faults`` are what is
    wrong with its shape: ``apply_change`` tells them together with those of the values.

        >>> change = Change("Taller tires")
        >>> change.replace("tire.size", "LT235/75R15").remove("old-nuts").removals[0].text
        'old-nuts'
    """

    def __init__(self, name: str = "", file: str = PYTHON, text: str = "") -> None:
        self.name = name
        self.file = file
        self.text = text
        self.base = ""
        self.replacements: list[Replacement] = []
        self.additions: list[Node] = []
        self.removals: list[ScalarNode] = []
        self.faults: list[Fault] = []

    @property
    def empty(self) -> bool:
        return not (self.replacements or self.additions or self.removals)

    # ---- made in Python ------------------------------------------------------------------

    def replace(self, path: str, value: Any, mark: Mark | None = None) -> Change:
        """Replace one field: ``path`` is "wheel.offset", ``value`` what one would type, or a ``Typed``."""
        target, _, key = path.rpartition(".")
        mark = mark or Mark(self.file, 1, 1)
        node = value if isinstance(value, (Typed, Node)) else node_of(value, mark)
        self._on(target, mark).fields.append((key, mark, node))
        return self

    def add(self, fields: Mapping[str, Any]) -> Change:
        """Add a line: its fields as one would type them."""
        self.additions.append(node_of(fields, Mark(self.file, 1, 1)))
        return self

    def remove(self, id: str, mark: Mark | None = None) -> Change:
        """Take a line away."""
        self.removals.append(ScalarNode(id, True, mark or Mark(self.file, 1, 1)))
        return self

    def extend(self, other: Change) -> Change:
        """All that ``other`` does, after what this one does."""
        self.replacements += other.replacements
        self.additions += other.additions
        self.removals += other.removals
        self.faults += other.faults
        self.name = self.name or other.name
        return self

    def _on(self, target: str, mark: Mark) -> Replacement:
        for one in self.replacements:
            if one.target == target:
                return one
        self.replacements.append(Replacement(target, mark))
        return self.replacements[-1]


def node_of(value: Any, mark: Mark) -> Node:
    """A Python value as the node that typing it would give: texts, numbers, flags, lists, maps."""
    if isinstance(value, dict):
        found = MapNode(False, mark)
        found.entries = [(ScalarNode(str(key), True, mark), node_of(one, mark)) for key, one in value.items()]
        return found
    if isinstance(value, (list, tuple)):
        items = SeqNode(False, mark)
        items.items = [node_of(one, mark) for one in value]
        return items
    text = str(value).lower() if isinstance(value, bool) else str(value)
    return ScalarNode(text, True, mark)


# ---- a swap file ---------------------------------------------------------------------------------


def read_change(source: str | os.PathLike[str] | bytes | Mapping[str, Any], file: str = "") -> Change:
    """The change of a swap file.

    ``source`` is a path, the bytes of a file (``file`` then names it in messages), or a map of its keys.
    Raises ``Faults`` where it cannot be read at all; what is wrong otherwise stands in ``faults``.
    """
    if not isinstance(source, (str, bytes, os.PathLike)):
        shown = file or PYTHON
        return _FileReader(shown, "", []).read(node_of(dict(source), Mark(shown, 1, 1)))
    shown = file or (os.fspath(source) if not isinstance(source, bytes) else "<input>")
    text = read_text(source, shown)
    composing: list[Fault] = []
    root = compose(text, shown, bearable=composing)
    return _FileReader(shown, text, composing).read(root)


class _FileReader:
    def __init__(self, file: str, text: str, composing: list[Fault]) -> None:
        self.change = Change("", file, text)
        self.change.faults += composing
        self.reader = RecordReader(None, text)

    def read(self, root: Node) -> Change:
        if not isinstance(root, MapNode):
            self.reader.fault(root.mark, text_of(root), "a swap file: a map with replace, add or remove")
            return self._done()
        for key, node in (*root.entries, *root.repeated):
            if key.text not in SwapFile.fields:
                self.reader.unknown_key(key, list(SwapFile.fields), "a swap file")
            elif isinstance(node, ScalarNode) and is_empty(node):
                self.reader.fault(node.mark, "", f"something under `{key.text}`", "fill it in or leave it out")
            else:
                getattr(self, "_" + key.text)(node)
        if self.change.empty and not self.reader.faults:
            keys = ", ".join(root.keys()[:6])
            self.reader.fault(root.mark, keys, "something to change: replace, add or remove")
        return self._done()

    def _done(self) -> Change:
        told = {fault.mark.place for fault in self.change.faults}
        self.change.faults += [fault for fault in self.reader.faults if fault.mark.place not in told]
        return self.change

    def _text(self, node: Node, what: str) -> str:
        if isinstance(node, ScalarNode):
            return node.text.strip()
        self.reader.fault(node.mark, text_of(node), what)
        return ""

    def _swap(self, node: Node) -> None:
        self.change.name = self._text(node, "the name of the swap")

    def _base(self, node: Node) -> None:
        self.change.base = self._text(node, "the file of the list that it changes")

    def _note(self, node: Node) -> None:
        self._text(node, "a note: text")

    def _replace(self, node: Node) -> None:
        if not isinstance(node, MapNode):
            self.reader.fault(node.mark, text_of(node), "a map of ids, each with the fields to replace",
                              "write `wheel: {offset: +30 mm}`")  # fmt: skip
            return
        for key, fields in node.entries:
            if not isinstance(fields, MapNode):
                self.reader.fault(fields.mark, text_of(fields), f"the fields of `{key.text}` to replace: a map",
                                  f"write `{key.text}: {{field: value}}`")  # fmt: skip
                continue
            one = Replacement(key.text, key.mark)
            one.fields = [(name.text, name.mark, value) for name, value in fields.entries]
            self.change.replacements.append(one)

    def _add(self, node: Node) -> None:
        if isinstance(node, SeqNode):
            self.change.additions += node.items
        else:
            self.reader.fault(node.mark, text_of(node), "a list of parts", "start each line with `- `")

    def _remove(self, node: Node) -> None:
        for item in node.items if isinstance(node, SeqNode) else [node]:
            if isinstance(item, ScalarNode) and not is_empty(item):
                self.change.removals.append(item)
            else:
                self.reader.fault(item.mark, text_of(item), "the id of a line to remove, or a list of ids")


# ---- the command line ----------------------------------------------------------------------------


def read_options(replace: list[str], add: list[str], remove: list[str]) -> Change:
    """The change of options: ``wheel.offset=-12 mm``, ``{kind: lug-nut, ...}``, ``old-nuts``.

    A fault names the option, counted from 1, as its file, and the column in it.
    """
    change = Change("", "the command line")
    for number, typed in enumerate(replace, start=1):
        _read_replace(change, typed, f"--replace {number}")
    for number, typed in enumerate(add, start=1):
        node = _flow(change, typed, Mark(f"--add {number}", 1, 1))
        if node is not None:
            change.additions.append(node)
    for number, typed in enumerate(remove, start=1):
        change.remove(typed.strip(), Mark(f"--remove {number}", 1, 1))
    return change


def _read_replace(change: Change, typed: str, option: str) -> None:
    path, equals, value = typed.partition("=")
    target, dot, key = path.strip().rpartition(".")
    if not equals or not dot or not target or not key:
        hint = f"write {nearest(typed, []) or 'wheel.offset'}=\"-12 mm\": id, dot, field, =, value"
        change.faults.append(Fault(Mark(option, 1, 1), typed, "a field and its new value", hint))
        return
    start = len(path) + 1 + len(value) - len(value.lstrip()) + 1
    mark, node = Mark(option, 1, start), None
    if value.strip().startswith(FLOW):
        node = _flow(change, value, mark)
    else:
        node = ScalarNode(value.strip(), True, mark)
    if node is not None:
        before = typed.index(key, len(path) - len(key) - 1)
        one = change._on(target, Mark(option, 1, len(path) - len(path.lstrip()) + 1))
        one.fields.append((key, Mark(option, 1, before + 1), node))


def _flow(change: Change, typed: str, mark: Mark) -> Node | None:
    """A list or map in one line; its places are columns of the option."""
    padded = " " * (mark.column - 1) + typed.strip()
    try:
        return compose(padded, mark.file, bearable=change.faults)
    except Faults as faults:
        change.faults += faults.faults
        return None
