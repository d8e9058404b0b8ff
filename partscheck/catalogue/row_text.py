"""The bytes of a file of rows as lines of text, hashed on the way; and a row as its readers give it."""

from __future__ import annotations

import io

from partscheck.catalogue.layers import sha256
from partscheck.notation.faults import Fault
from partscheck.notation.yaml_text import Mark

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import Any

LINE_AT_MOST = 1_000_000  # characters
FAULTS_AT_MOST = 100  # of one file: then reading stops
BETWEEN = "\x1f"  # parts the texts of a row where they are stored; no text may hold it

_ENCODINGS = ((b"\xff\xfe", "utf-16"), (b"\xfe\xff", "utf-16"), (b"\xef\xbb\xbf", "utf-8-sig"))


class Row:
    """One row: the line where it starts, its keys, their texts as typed, and the column of each."""

    __slots__ = ("columns", "keys", "line", "texts")

    def __init__(self, line: int, keys: tuple[str, ...], texts: list[str], columns: tuple[int, ...]) -> None:
        self.line = line
        self.keys = keys
        self.texts = texts
        self.columns = columns


class Hashed(io.RawIOBase):
    """A file whose bytes are hashed and counted as they are read."""

    def __init__(self, path: str) -> None:
        self._file = open(path, "rb", buffering=0)  # noqa: SIM115 - closed by close()
        self.digest: Any = sha256()
        self.count = 0

    def readable(self) -> bool:
        return True

    def readinto(self, buffer: Any) -> int:
        size = self._file.readinto(buffer) or 0
        if size:
            self.digest.update(memoryview(buffer)[:size])
            self.count += size
        return size

    def close(self) -> None:
        self._file.close()
        super().close()


class RowFaults(list[Fault]):
    """Faults of one file; ``full`` when there are so many that reading on helps nobody."""

    def __init__(self, file: str) -> None:
        super().__init__()
        self.file = file

    @property
    def full(self) -> bool:
        return len(self) >= FAULTS_AT_MOST

    def tell(self, line: int, column: int, read: str, expected: str, hint: str = "") -> None:
        self.append(Fault(Mark(self.file, line, column), read, expected, hint))


def text_lines(raw: Hashed, path: str) -> Iterator[str]:
    """Lines with their ends; bytes that are no text stay recognisable (surrogates) until their row is read.

    A line longer than any row comes in pieces.
    """
    with open(path, "rb") as stream:
        start = stream.read(4)
    encoding = next((name for mark, name in _ENCODINGS if start.startswith(mark)), "utf-8")
    errors = "replace" if encoding == "utf-16" else "surrogateescape"
    text = io.TextIOWrapper(io.BufferedReader(raw, 1 << 20), encoding, errors, newline="")
    while line := text.readline(LINE_AT_MOST):
        yield line


def odd_character(text: str) -> str:
    """What makes a text unusable: bytes that are no UTF-8, control characters; "" where nothing does."""
    for sign in text:
        if "\udc80" <= sign <= "\udcff":
            return "it is not UTF-8: save the file as UTF-8"
        if sign in "\n\r\t":
            continue
        if sign < " " or "\x7f" <= sign <= "\x9f" or "\ud800" <= sign <= "\udfff":
            return f"there is a control character in it (U+{ord(sign):04X})"
        if "\u2028" <= sign <= "\u202e" or "\u2066" <= sign <= "\u2069" or sign == "\ufeff":
            return f"there is a character in it that turns or breaks lines (U+{ord(sign):04X})"
    return ""
