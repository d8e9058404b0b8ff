"""Builds the tree of a YAML document from the parser's events; see ``yaml_text``."""

from __future__ import annotations

from partscheck.notation.faults import Fault, Faults
from partscheck.notation.pattern import Pattern
from partscheck.notation.yaml_text import Limits, MapNode, Mark, Node, ScalarNode, SeqNode

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any


class Composer:
    """Builds the tree from the parser's events, with a stack of its own."""

    def __init__(self, text: str, file: str, limits: Limits) -> None:
        self.text = text
        self.file = file
        self.limits = limits
        self.faults: list[Fault] = []
        self.root: Node | None = None
        self.open: list[MapNode | SeqNode] = []
        self.keys: list[Node | None] = []  # for each open container, the key that waits for its value
        self.nodes = 0
        self.broken = False  # nothing behind the last fault was read

    def compose(self, bearable: list[Fault] | None = None) -> Node:
        """The root; what is wrong goes to ``bearable`` where the tree is whole, else it is raised."""
        self._read_events()
        if self.faults and (bearable is None or self.broken):
            raise Faults(self.faults)
        if bearable is not None:
            bearable += self.faults
        if self.root is None or (isinstance(self.root, ScalarNode) and self.root.empty):
            raise Faults([Fault(Mark(self.file, 1, 1), "", "a document", "the file is empty")])
        return self.root

    def _read_events(self) -> None:
        import yaml

        from partscheck.notation.yaml_words import fault_of_yaml_error

        loader: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)(self.text)
        handlers = {
            yaml.ScalarEvent: self._scalar,
            yaml.MappingStartEvent: self._map_starts,
            yaml.SequenceStartEvent: self._list_starts,
            yaml.MappingEndEvent: self._map_ends,
            yaml.SequenceEndEvent: self._list_ends,
            yaml.AliasEvent: self._alias,
            yaml.DocumentStartEvent: self._document,
        }
        try:
            while True:
                event = loader.get_event()
                if event is None or type(event) is yaml.StreamEndEvent:
                    break
                handler = handlers.get(type(event))
                if handler is not None:
                    handler(event)
        except yaml.MarkedYAMLError as error:
            self.broken = True
            self.faults.append(fault_of_yaml_error(error, self.text, self.file, self._unclosed()))
        except yaml.YAMLError:
            self.broken = True
            self.faults.append(Fault(Mark(self.file, 1, 1), "", "YAML", "the text cannot be read as YAML"))
        except _EnoughError:
            self.broken = True
        finally:
            loader.dispose()

    def _unclosed(self) -> MapNode | SeqNode | None:
        """The innermost { or [ that is still open."""
        return next((node for node in reversed(self.open) if node.flow), None)

    # -- events ---------------------------------------------------------------------------------

    def _document(self, event: Any) -> None:
        if event.version is not None or event.tags:
            self._fault(event, "%", "no line that starts with %", "leave out the directive")
        if self.root is not None:
            self._fault(event, "---", "one document in a file", "a second one starts here: use two files")
            raise _EnoughError

    def _scalar(self, event: Any) -> None:
        self._check_marks(event)
        self._add(ScalarNode(event.value, bool(event.implicit[0]), self._mark(event)))

    def _map_starts(self, event: Any) -> None:
        self._enter(event, MapNode(bool(event.flow_style), self._mark(event)))

    def _list_starts(self, event: Any) -> None:
        self._enter(event, SeqNode(bool(event.flow_style), self._mark(event)))

    def _enter(self, event: Any, node: MapNode | SeqNode) -> None:
        self._check_marks(event)
        if len(self.open) == self.limits.depth:
            self._fault(event, "", f"at most {self.limits.depth} levels, one inside the other",
                        "this goes deeper")  # fmt: skip
            raise _EnoughError
        self._add(node)
        self.open.append(node)
        self.keys.append(None)

    def _list_ends(self, event: Any) -> None:
        self.open.pop()
        self.keys.pop()

    def _map_ends(self, event: Any) -> None:
        node = self.open.pop()
        self.keys.pop()
        assert isinstance(node, MapNode)
        if node.flow:
            self._join_split_values(node)
        self._check_keys(node)

    def _alias(self, event: Any) -> None:
        self._fault(event, f"*{event.anchor}", "the value itself, written out",
                    "aliases are not taken; put quotes around a text that starts with *")  # fmt: skip
        self._add(ScalarNode("", False, self._mark(event)))

    # -- the tree -------------------------------------------------------------------------------

    def _add(self, node: Node) -> None:
        self.nodes += 1
        if self.nodes > self.limits.nodes:
            self.faults.append(Fault(node.mark, "", f"at most {self.limits.nodes} values in a file"))
            raise _EnoughError
        if not self.open:
            self.root = node
            return
        parent = self.open[-1]
        if isinstance(parent, SeqNode):
            parent.items.append(node)
            return
        key, self.keys[-1] = self.keys[-1], None
        if key is None:
            self.keys[-1] = node
        elif isinstance(key, ScalarNode):
            parent.entries.append((key, node))
        else:
            self._say(Fault(key.mark, "", "a plain word as key", f"{key.called} cannot be one"))

    def _check_keys(self, node: MapNode) -> None:
        first: dict[str, Mark] = {}
        kept: list[tuple[ScalarNode, Node]] = []
        for key, value in node.entries:
            if key.empty:
                self._say(Fault(key.mark, ":", "a key before the colon"))
            elif key.text == "<<" and key.plain:
                self._say(Fault(key.mark, "<<", "the keys themselves, written out",
                                "merge keys are not taken"))  # fmt: skip
            elif key.text in first:
                self._say(Fault(key.mark, key.text, "each key once",
                                f"it stands on line {first[key.text].line} already"))  # fmt: skip
                node.repeated.append((key, value))
            else:
                first[key.text] = key.mark
                kept.append((key, value))
        node.entries = kept

    def _join_split_values(self, node: MapNode) -> None:
        """Tell of ``{weight: 1,200 lb}``, which YAML reads as ``weight: 1`` and a key ``200 lb``."""
        kept: list[tuple[ScalarNode, Node]] = []
        pieces: list[str] = []
        for key, value in node.entries:
            before = kept[-1][1] if kept else None
            if isinstance(before, ScalarNode) and _is_tail(key, value, pieces or [_plain_text(before)]):
                pieces = [*(pieces or [before.text]), key.text]
                continue
            self._tell_split(kept, pieces)
            pieces = []
            kept.append((key, value))
        self._tell_split(kept, pieces)
        node.entries = kept

    def _tell_split(self, kept: list[tuple[ScalarNode, Node]], pieces: list[str]) -> None:
        if pieces:
            self._say(_split_value(kept[-1][1].mark, pieces))

    # -- faults ---------------------------------------------------------------------------------

    def _mark(self, event: Any) -> Mark:
        start = event.start_mark
        return Mark(self.file, start.line + 1, start.column + 1)

    def _check_marks(self, event: Any) -> None:
        if event.anchor is not None:
            self._fault(event, f"&{event.anchor}", "a value without an anchor",
                        "anchors are not taken; put quotes around a text that starts with &")  # fmt: skip
        if event.tag is not None:
            tag = event.tag.replace("tag:yaml.org,2002:", "!!")
            self._fault(event, tag, "a value without a tag",
                        "tags are not taken; put quotes around a text that starts with !")  # fmt: skip

    def _fault(self, event: Any, read: str, expected: str, hint: str = "") -> None:
        self._say(Fault(self._mark(event), read, expected, hint))

    def _say(self, fault: Fault) -> None:
        self.faults.append(fault)
        if len(self.faults) >= self.limits.faults:
            raise _EnoughError


class _EnoughError(Exception):
    """Reading stops here; the faults found so far say why."""


_THREE_DIGITS = Pattern(r"\d{3}(?!\d)")
_ENDS_WITH_NUMBER = Pattern(r"(?:^|[^\d.])\d{1,3}$")


def _plain_text(node: ScalarNode) -> str:
    return node.text if node.plain else ""


def _is_tail(key: ScalarNode, value: Node, pieces: list[str]) -> bool:
    """True for a key without value that looks like the rest of the value before it."""
    if not (key.plain and isinstance(value, ScalarNode) and value.empty and pieces[-1]):
        return False
    return " " in key.text or (key.text[:1].isdigit() and pieces[-1][-1:].isdigit())


def _split_value(mark: Mark, pieces: list[str]) -> Fault:
    head, *tails = pieces
    hint = "a comma inside { } ends the value: "
    whole = head[-1:].isdigit() and all(tail[:1].isdigit() for tail in tails)
    if not whole or len(tails) > 3:
        hint += "put quotes around it"
    elif _ENDS_WITH_NUMBER.search(head) and all(_THREE_DIGITS.match(tail) for tail in tails):
        hint += f"write {''.join(pieces)} or put quotes around it"
    elif len(tails) == 1:
        hint += f"write {head}.{tails[0]}, with a decimal point"
    else:
        hint += "put quotes around it"
    return Fault(mark, (", " if not whole else ",").join(pieces), "one value", hint)
