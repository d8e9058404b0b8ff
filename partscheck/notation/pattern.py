"""Regular expressions compiled on first use: one list needs few of the many that the notation knows."""

from __future__ import annotations

import re
from collections.abc import Iterator


class Pattern:
    """Like a compiled ``re`` pattern, for the methods the notation uses."""

    __slots__ = ("_compiled", "flags", "pattern")

    def __init__(self, pattern: str, flags: int = 0) -> None:
        self.pattern = pattern
        self.flags = flags
        self._compiled: re.Pattern[str] | None = None

    @property
    def compiled(self) -> re.Pattern[str]:
        if self._compiled is None:
            self._compiled = re.compile(self.pattern, self.flags)
        return self._compiled

    def match(self, text: str, start: int = 0) -> re.Match[str] | None:
        return self.compiled.match(text, start)

    def fullmatch(self, text: str) -> re.Match[str] | None:
        return self.compiled.fullmatch(text)

    def search(self, text: str, start: int = 0) -> re.Match[str] | None:
        return self.compiled.search(text, start)

    def finditer(self, text: str) -> Iterator[re.Match[str]]:
        return self.compiled.finditer(text)

    def split(self, text: str, maxsplit: int = 0) -> list[str]:
        return self.compiled.split(text, maxsplit)

    def sub(self, by: str, text: str) -> str:
        return self.compiled.sub(by, text)
