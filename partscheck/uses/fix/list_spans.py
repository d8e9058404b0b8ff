"""Where everything stands in the text of a list: from where to where, so that it can be changed in place."""

from __future__ import annotations

import re

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

_BREAK = re.compile("\r\n|\n|\r")


class Span:
    """A key, value, map or list of the text: ``start`` and ``end`` are offsets, ``column`` of its start.

    ``form`` is "scalar", "map" or "list"; ``style`` of a scalar as YAML names it (None plain, ' " | >);
    ``flow`` within braces or brackets; ``entries`` (key, value) of a map, ``items`` of a list.
    """

    __slots__ = ("column", "end", "entries", "flow", "form", "items", "start", "style", "text")

    def __init__(self, form: str, start: int, column: int, flow: bool = False) -> None:
        self.form = form
        self.start = self.end = start
        self.column = column
        self.flow = flow
        self.style: str | None = None
        self.text = ""
        self.entries: list[tuple[Span, Span]] = []
        self.items: list[Span] = []

    def get(self, key: str) -> Span | None:
        return next((value for name, value in self.entries if name.text == key), None)

    def said(self, key: str) -> str:
        """The text of a single value, "" where there is none."""
        found = self.get(key)
        return found.text if found is not None and found.form == "scalar" else ""

    @property
    def last(self) -> int:
        """Offset behind the last character of it, comments left aside."""
        if self.flow or self.form == "scalar":
            return self.end
        inner = self.items[-1:] or [value for _, value in self.entries[-1:]]
        return inner[0].last if inner else self.end


class Lines:
    """Offsets of the lines of a text."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.starts = [0, *(found.end() for found in _BREAK.finditer(text))]

    def offset(self, line: int, column: int) -> int:
        return self.starts[line] + column if line < len(self.starts) else len(self.text)

    def start_of(self, offset: int) -> int:
        """Where the line of this offset starts."""
        from bisect import bisect_right

        return self.starts[bisect_right(self.starts, offset) - 1]

    def end_of(self, offset: int) -> int:
        """Where the line of this offset ends, before its line break."""
        found = _BREAK.search(self.text, offset)
        return len(self.text) if found is None else found.start()

    def next_of(self, offset: int) -> int:
        """Where the next line starts."""
        found = _BREAK.search(self.text, offset)
        return len(self.text) if found is None else found.end()


def spans(text: str) -> tuple[Span, Lines]:
    """The tree of a text that was read without faults, without its byte order mark."""
    import yaml

    lines = Lines(text)
    loader: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)(text)
    root = Span("map", 0, 0)
    open_: list[tuple[Span, list[Span]]] = []
    try:
        while True:
            event = loader.get_event()
            if event is None or isinstance(event, yaml.StreamEndEvent):
                break
            root = _take(event, open_, lines) or root
    finally:
        loader.dispose()
    return root, lines


def _take(event: Any, open_: list[tuple[Span, list[Span]]], lines: Lines) -> Span | None:
    """Add what an event brings to the tree; the root when it is complete."""
    import yaml

    column = event.start_mark.column
    start = lines.offset(event.start_mark.line, event.start_mark.column)
    end = lines.offset(event.end_mark.line, event.end_mark.column)
    if isinstance(event, yaml.ScalarEvent):
        one = Span("scalar", start, column)
        one.end, one.style, one.text = end, event.style, event.value
        return _put(one, open_)
    if isinstance(event, (yaml.MappingStartEvent, yaml.SequenceStartEvent)):
        form = "map" if isinstance(event, yaml.MappingStartEvent) else "list"
        open_.append((Span(form, start, column, bool(event.flow_style)), []))
    elif isinstance(event, (yaml.MappingEndEvent, yaml.SequenceEndEvent)):
        one, inner = open_.pop()
        one.end = end
        if one.form == "map":
            one.entries = list(zip(inner[::2], inner[1::2], strict=True))
        else:
            one.items = inner
        return _put(one, open_)
    return None


def _put(one: Span, open_: list[tuple[Span, list[Span]]]) -> Span | None:
    if not open_:
        return one
    open_[-1][1].append(one)
    return None
