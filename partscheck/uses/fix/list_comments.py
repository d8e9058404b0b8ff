"""Comments that stand beside what a plan changes: they may speak of what was there before.

A comment on a line of its own stays as it stands.  One behind a changed value, or behind a line on which
another article stands now, stays too, and is told, so that somebody reads it again; one that goes with the
field it stood behind is told with its text.
"""

from __future__ import annotations

import re

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from partscheck.uses.fix.list_spans import Lines, Span

_COMMENT = re.compile(r"(?<![^\s{,\[])#[^\r\n]*")


class Beside:
    """A comment beside a change: ``text`` with its mark, ``line`` of the new list, None where it went."""

    __slots__ = ("line", "text")

    def __init__(self, text: str, line: int | None) -> None:
        self.text = text
        self.line = line

    def __repr__(self) -> str:
        return f"<{self.text} at {self.line}>"


def comments_beside(
    root: Span, lines: Lines, changes: Sequence[tuple[int, int, str]], new: str
) -> list[Beside]:
    """Comments beside ``changes`` (from, to, new text; in order) of the text that ``lines`` are of; ``new`` is
    the text with the changes made.
    """
    told = list(_quoted(root))
    found: dict[int, Beside] = {}
    shift = 0
    for start, end, put in changes:
        put_at = start + shift  # in the new text
        shift += len(put) - (end - start)
        if start == end:  # something new; nothing was there
            continue
        inside = [one for one in _COMMENT.finditer(lines.text, start, end) if not _within(one.start(), told)]
        behind = [
            one for one in _COMMENT.finditer(lines.text, end, max(end, lines.end_of(end)))
            if not _within(one.start(), told)
        ] if not lines.text[start:end].endswith(("\n", "\r")) else []  # fmt: skip
        for one in (*inside, *behind):
            text = one.group().rstrip()
            kept = new.find(text, put_at, _end(new, put_at + len(put)))
            line = None if kept < 0 else new.count("\n", 0, kept) + 1
            found.setdefault(one.start(), Beside(text, line))
    return [found[at] for at in sorted(found)]


def _end(text: str, offset: int) -> int:
    found = re.compile("[\r\n]").search(text, offset)
    return len(text) if found is None else found.start()


def _quoted(span: Span) -> Iterator[tuple[int, int]]:
    """Where texts stand in quotes or in blocks: a # in them is no comment."""
    if span.form == "scalar":
        if span.style in ("'", '"', "|", ">"):
            yield span.start, span.end
        return
    for one in (*span.items, *(each for entry in span.entries for each in entry)):
        yield from _quoted(one)


def _within(offset: int, spans: Iterable[tuple[int, int]]) -> bool:
    return any(start <= offset < end for start, end in spans)
