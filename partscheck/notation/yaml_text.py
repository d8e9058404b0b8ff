"""YAML read as text with positions: nothing is resolved, every scalar stays as it was typed.

Files come from strangers, so the reader takes a small, plain part of YAML and refuses the rest:
no aliases, anchors, tags, merge keys or second documents, a cap on size, depth and nodes, and no
recursion.  ``8.8``, ``1/2-20``, ``0412``, ``no`` and ``12:30`` stay exactly as typed.
"""

from __future__ import annotations

import os
import re

from partscheck.notation.faults import Fault, Faults
from partscheck.notation.pattern import Pattern

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterator


class Mark:
    """A place in a file; lines and columns count from 1."""

    __slots__ = ("column", "file", "line")

    def __init__(self, file: str, line: int, column: int) -> None:
        self.file = file
        self.line = line
        self.column = column

    @property
    def place(self) -> tuple[str, int, int]:
        """For sorting."""
        return self.file, self.line, self.column

    def __repr__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"


class Node:
    """A value of the file with the place where it starts."""

    __slots__ = ("mark",)
    called = "a value"

    def __init__(self, mark: Mark) -> None:
        self.mark = mark


class ScalarNode(Node):
    """A single value: its text as typed, and whether it stood there plain (without quotes)."""

    __slots__ = ("plain", "text")
    called = "a single value"

    def __init__(self, text: str, plain: bool, mark: Mark) -> None:
        super().__init__(mark)
        self.text = text
        self.plain = plain

    @property
    def empty(self) -> bool:
        """True where nothing was typed (an empty text in quotes was typed)."""
        return self.plain and not self.text

    def __repr__(self) -> str:
        return f"<{self.text!r} {self.mark}>"


class MapNode(Node):
    """Keys and values in the order of the file; each key stands once.

    ``repeated`` are entries whose key stood there before: a fault, kept so that what is wrong in
    them can be told in the same run.
    """

    __slots__ = ("entries", "flow", "repeated")
    called = "a map (key: value)"

    def __init__(self, flow: bool, mark: Mark) -> None:
        super().__init__(mark)
        self.entries: list[tuple[ScalarNode, Node]] = []
        self.repeated: list[tuple[ScalarNode, Node]] = []
        self.flow = flow

    def get(self, key: str) -> Node | None:
        for name, value in self.entries:
            if name.text == key:
                return value
        return None

    def keys(self) -> list[str]:
        return [name.text for name, _ in self.entries]

    def __repr__(self) -> str:
        return f"<map of {', '.join(self.keys())} {self.mark}>"


class SeqNode(Node):
    """A list of values."""

    __slots__ = ("flow", "items")
    called = "a list"

    def __init__(self, flow: bool, mark: Mark) -> None:
        super().__init__(mark)
        self.items: list[Node] = []
        self.flow = flow

    def __repr__(self) -> str:
        return f"<list of {len(self.items)} {self.mark}>"


class Limits:
    """How much one file may hold."""

    __slots__ = ("bytes", "depth", "faults", "nodes")

    def __init__(
        self, bytes: int = 2_000_000, depth: int = 50, nodes: int = 200_000, faults: int = 100
    ) -> None:
        self.bytes = bytes
        self.depth = depth
        self.nodes = nodes
        self.faults = faults


LIMITS = Limits()

# Control characters but tab and line feed; and marks that turn the direction of writing, which let a
# text look other than it reads.  (Written as what is refused: that compiles in a tenth of the time.)
_FORBIDDEN = Pattern(
    "[\0-\x08\x0b-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069\ud800-\udfff\ufeff\ufffe\uffff]"
)
_TAB_INDENT = Pattern(r"^[ ]*\t[ \t]*(?![ \t\n#])", re.MULTILINE)


def read_text(source: str | os.PathLike[str] | bytes, file: str = "", limits: Limits = LIMITS) -> str:
    """The text of a file (or of bytes already read), as UTF-8; raises ``Faults``.

    ``file`` is the name that messages show; left out, it is the path as given.
    """
    if isinstance(source, bytes):
        data, shown = source, file or "<input>"
    else:
        shown = file or os.fspath(source)
        data = _read_bytes(os.fspath(source), shown, limits)
    if len(data) > limits.bytes:
        raise Faults([_too_long(shown, limits)])
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = data[: error.start]
        line = before.count(b"\n") + 1
        column = error.start - (before.rfind(b"\n") + 1) + 1
        byte = f"byte 0x{data[error.start]:02X}"
        hint = "save the file with the encoding UTF-8"
        raise Faults([Fault(Mark(shown, line, column), byte, "text in UTF-8", hint)]) from None


def _read_bytes(path: str, shown: str, limits: Limits) -> bytes:
    try:
        with open(path, "rb") as stream:
            return stream.read(limits.bytes + 1)
    except FileNotFoundError:
        why = "there is no such file: look at the spelling and the folder"
    except IsADirectoryError:
        why = "this is a folder"
    except (OSError, ValueError) as error:
        why = f"it cannot be opened: {getattr(error, 'strerror', '') or error}"
    raise Faults([Fault(Mark(shown, 1, 1), "", "a file that can be read", why)])


def _too_long(file: str, limits: Limits) -> Fault:
    most = f"{limits.bytes / 1e6:g} MB"
    return Fault(Mark(file, 1, 1), "", f"a file of at most {most}", "it is longer: split it")


def compose(text: str, file: str, limits: Limits = LIMITS, bearable: list[Fault] | None = None) -> Node:
    """The tree of one YAML document; raises ``Faults`` with everything that cannot be used.

    Given a list ``bearable``, faults that leave the tree whole (repeated keys, numbers split by a
    comma, anchors, tags, merge keys, ...) go there, so that the reader's own come in the same run.
    """
    if len(text) > limits.bytes:
        raise Faults([_too_long(file, limits)])
    text = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    faults = list(_forbidden_characters(text, file, limits))
    if faults:
        raise Faults(faults)
    from partscheck.notation.yaml_composer import Composer  # a run without a list never needs it

    return Composer(text, file, limits).compose(bearable)


def _forbidden_characters(text: str, file: str, limits: Limits) -> Iterator[Fault]:
    for count, match in enumerate(_FORBIDDEN.finditer(text)):
        if count == limits.faults:
            return
        mark = _mark_at(text, match.start(), file)
        yield Fault(mark, match.group(), "text without control characters", "delete this character")
    for match in _TAB_INDENT.finditer(text):
        tab = text.index("\t", match.start())
        yield Fault(_mark_at(text, tab, file), "\t", "spaces at the start of the line",
                    "YAML takes no tabs there: use spaces")  # fmt: skip
        return


def _mark_at(text: str, index: int, file: str) -> Mark:
    return Mark(file, text.count("\n", 0, index) + 1, index - (text.rfind("\n", 0, index) + 1) + 1)
