"""Edits of a list's text in place: what is not changed stays as it was typed, comments and order too."""

from __future__ import annotations

import re

from partscheck.build.change_article import OF_THE_LINE
from partscheck.uses.fix.edits import MAPS, Add, Article, Drop, Put, Remove
from partscheck.uses.fix.list_comments import Beside, comments_beside
from partscheck.uses.fix.list_spans import Lines, Span, spans

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable
    from typing import Any

    from partscheck.uses.fix.edits import Edit

WIDEST = 110  # columns of a line that is written
# What starts a plain YAML text otherwise than as a text, or ends it early.
_SPECIAL = re.compile(r"""^[\s&*!|>'"%@`?:,\[\]{}#=-]|: |:$| #|^\s|\s$|[\x00-\x1f]""")
_IN_FLOW = re.compile(r"[,\[\]{}]")


class CannotEditError(Exception):
    """An edit that cannot be made in place; the text of the error says which, and why."""


def edited(text: str, edits: Iterable[Edit]) -> str:
    """The text of a list with these edits made.  Raises ``CannotEditError``; then nothing is to be used."""
    return edited_and_beside(text, edits)[0]


def edited_and_beside(text: str, edits: Iterable[Edit]) -> tuple[str, list[Beside]]:
    """The same, with the comments that stand beside what was changed.  Raises ``CannotEditError``."""
    mark = "\ufeff" if text.startswith("\ufeff") else ""
    editor = _Editor(text.removeprefix("\ufeff"))
    for edit in _gathered(edits):
        editor.make(edit)
    new = editor.text()
    changes = [(start, end, put) for start, end, _, put in editor.in_order()]
    return mark + new, comments_beside(editor.root, editor.lines, changes, new)


def _gathered(edits: Iterable[Edit]) -> list[Any]:
    """Edits with all that concerns one map in one: (way to it, fields, article or None)."""
    maps: dict[Any, _MapEdit] = {}
    found: list[Any] = []
    for edit in edits:
        if isinstance(edit, (Add, Remove)):
            found.append(edit)
            continue
        inner = edit.inner if isinstance(edit, Put) else ()
        key = (edit.target, inner)
        if key not in maps:
            maps[key] = _MapEdit(edit.target, inner)
            found.append(maps[key])
        maps[key].take(edit)
    return found


class _MapEdit:
    """What to do to one map: ``fields`` to set; ``another``: keys of the old article go; ``gone``: these go."""

    __slots__ = ("another", "fields", "gone", "inner", "target")

    def __init__(self, target: str, inner: tuple[str, ...]) -> None:
        self.target = target
        self.inner = inner
        self.fields: dict[str, Any] = {}
        self.gone: set[str] = set()
        self.another = False

    def take(self, edit: Put | Article | Drop) -> None:
        if isinstance(edit, Drop):
            self.gone.add(edit.key)
        elif isinstance(edit, Article):
            self.another = True
            self.fields.update({"part": edit.part, **edit.fields})
        else:
            self.fields[edit.key] = edit.text


class _Editor:
    def __init__(self, text: str) -> None:
        self.source = text
        self.root, self.lines = spans(text)
        self.changes: list[tuple[int, int, int, str]] = []  # from, to, rank of what meets, what
        self.tail = ""
        found = re.search("\r\n|\n|\r", text)
        self.newline = found.group() if found else "\n"
        if self.root.form != "map":
            raise CannotEditError("the list is no map of keys")

    def text(self) -> str:
        """The text with every change; changes at one place stand in the order they were made."""
        out, at = [], 0
        for start, end, _, new in self.in_order():
            if start < at:
                raise CannotEditError("two changes meet at one place of the text")
            out += [self.source[at:start], new]
            at = end
        found = "".join([*out, self.source[at:]])
        if self.tail:
            found = found if found.endswith(("\n", "\r")) or not found else found + self.newline
        return found + self.tail

    def in_order(self) -> list[tuple[int, int, int, str]]:
        return sorted(self.changes, key=lambda one: one[:3])

    def make(self, edit: Any) -> None:
        if isinstance(edit, Add):
            self._add_line(edit)
        elif isinstance(edit, Remove):
            self._remove(edit.target)
        else:
            self._edit_map(edit)

    # ---- maps ----------------------------------------------------------------------------

    def _edit_map(self, edit: _MapEdit) -> None:
        node = self._find(edit.target, edit.inner)
        if node is None:
            self._new_map(edit)
            return
        if node.form != "map":
            raise CannotEditError(f"{edit.target} is no map in the text")
        dropped = [key.text for key, _ in node.entries if self._goes(key.text, edit)]
        there = {key.text for key, _ in node.entries}
        new = {key: value for key, value in edit.fields.items() if key not in there}
        for key, value in edit.fields.items():
            if key in there:
                self._replace(node, key, value, edit.target)
        called = self._id_typed(node, edit)
        if called and not node.flow:
            first = node.entries[0][0].start
            self._change(first, first, f"id: {typed(called['id'], False)}{self.newline}{' ' * node.column}")
        if node.flow and (dropped or new or called):
            self._rewrite_flow(node, edit, dropped)
        elif dropped or new:
            self._edit_block(node, dropped, new, edit.target)

    def _id_typed(self, node: Span, edit: _MapEdit) -> dict[str, Any]:
        """A line without an id is called by its article: with another one it has to say what it is called."""
        called = edit.another or "part" in edit.gone
        return {"id": edit.target} if called and not edit.inner and not node.said("id") else {}

    def _goes(self, key: str, edit: _MapEdit) -> bool:
        if key in edit.fields:
            return False
        return key in edit.gone or (edit.another and key not in OF_THE_LINE)

    def _replace(self, node: Span, key: str, value: Any, target: str) -> None:
        old = node.get(key)
        assert old is not None
        if old.form != "scalar" and not old.flow:
            raise CannotEditError(f"{target}.{key} is a map or list over several lines")
        if old.style in ("|", ">"):
            self._before_block(old, str(value), f"{target}.{key}")
            return
        self._change(old.start, old.end, typed(value, node.flow))

    def _before_block(self, old: Span, value: str, name: str) -> None:
        """A text over several lines gets what comes before it as its first line; it stays as it was typed."""
        said = " ".join(old.text.split())
        head = value.removesuffix(said).rstrip() if said and value.endswith(said) else ""
        first = self.lines.next_of(old.start)
        header = self.source[old.start : first].partition("#")[0]
        if value != said and (not head or any(one.isdigit() for one in header)):
            raise CannotEditError(f"{name} is a text over several lines")
        if head:
            line = next(one for one in self.source[first : old.end].splitlines() if one.strip())
            indent = line[: len(line) - len(line.lstrip())]
            self._change(first, first, indent + head + self.newline)

    def _change(self, start: int, end: int, new: str) -> None:
        self.changes.append((start, end, 0, new))

    def _below(self, offset: int, content: str, rank: int) -> None:
        """A new line below that of ``offset``: fields of a map (rank 0) before a line of a list (rank 1)."""
        at = self.lines.next_of(offset)
        ended = self.source[:at].endswith(("\n", "\r"))
        self.changes.append((at, at, rank, content + self.newline if ended else self.newline + content))

    def _rewrite_flow(self, node: Span, edit: _MapEdit, dropped: list[str]) -> None:
        """The whole map in braces anew; entries that stay are copied as they were typed."""
        self.changes = [one for one in self.changes if not (node.start <= one[0] and one[1] <= node.end)]
        new = {**self._id_typed(node, edit), **edit.fields}
        pieces = [f"id: {typed(new.pop('id'), True)}"] if "id" in new else []
        for key, value in node.entries:
            if key.text in edit.fields:
                pieces.append(f"{key.text}: {typed(new.pop(key.text), True)}")
            elif key.text in dropped:
                if "part" in new and key.text != "note":  # what the article is stands where it stood
                    pieces.append(f"part: {typed(new.pop('part'), True)}")
            else:
                pieces.append(self.source[key.start : value.end])
        pieces += [f"{key}: {typed(value, True)}" for key, value in new.items()]
        start = self.lines.start_of(node.start)
        text = in_braces(pieces, node.start - start, self.newline)
        self._change(node.start, node.end, text + self._comments_in(node, edit.target))

    def _comments_in(self, node: Span, target: str) -> str:
        """Comments that stand between the entries, to go behind the closing brace."""
        gaps, at = [], node.start
        for key, value in node.entries:
            gaps.append(self.source[at : key.start])
            at = value.end
        gaps.append(self.source[at : node.end])
        comments = [one.strip() for gap in gaps for one in re.findall(r"(?<![^\s{,])#[^\r\n]*", gap)]
        if not comments:
            return ""
        rest = self.source[node.end : self.lines.end_of(node.end)].strip()
        if rest and not rest.startswith("#"):
            raise CannotEditError(f"a comment stands inside the braces of {target}")
        return "  " + "  ".join(comments)

    def _edit_block(self, node: Span, dropped: list[str], new: dict[str, Any], target: str) -> None:
        waiting = [f"{key}: {typed(value, False)}" for key, value in new.items()]
        indent = self.newline + " " * node.column
        first = node.entries[0][0].text
        for key, value in node.entries:
            if key.text not in dropped:
                continue
            if key.text == first:
                if not waiting:
                    raise CannotEditError(f"{target}: its first key, {first}, would have to go")
                self._change(key.start, value.last, waiting.pop(0))
            elif waiting:
                self._change(key.start, self._end_of_value(value), indent.join(waiting))
                waiting = []
            else:
                start = self.lines.start_of(key.start)
                self._change(start, self.lines.next_of(value.last), "")
        if waiting:
            self._below(node.last, " " * node.column + indent.join(waiting), rank=0)

    def _end_of_value(self, value: Span) -> int:
        """With the comment that spoke of the old article."""
        return self.lines.end_of(value.last)

    def _new_map(self, edit: _MapEdit) -> None:
        """A map that the list does not have yet: of the list itself, or inside another map."""
        if edit.target == "tongue":
            layout = self.root.get("layout")
            if layout is None:
                raise CannotEditError("the list has no layout to put the tongue into")
            self._edit_block(layout, [], {"tongue": dict(edit.fields)}, "layout")
        elif edit.target in MAPS and not edit.inner:
            self.tail += f"{edit.target}:{self.newline}" + "".join(
                f"  {key}: {typed(value, False)}{self.newline}" for key, value in edit.fields.items()
            )
        else:
            raise CannotEditError(f"{' / '.join((edit.target, *edit.inner))} is not found in the text")

    # ---- lines ---------------------------------------------------------------------------

    def _add_line(self, edit: Add) -> None:
        parts = self.root.get("parts")
        if parts is None or parts.form != "list":
            raise CannotEditError("the list has no parts to add a line to")
        pieces = [f"{key}: {typed(value, True)}" for key, value in edit.fields.items()]
        if not parts.items:
            self._change(parts.start, parts.end, "[" + in_braces(pieces, 2, self.newline) + "]")
            return
        after = self._item(edit.after, "parts") or parts.items[-1]
        if parts.flow:
            self._change(after.end, after.end, ", " + in_braces(pieces, parts.column + 1, self.newline))
            return
        dash = " " * parts.column + "- "
        self._below(after.last, dash + in_braces(pieces, parts.column + 2, self.newline), rank=1)

    def _remove(self, target: str) -> None:
        for group in ("parts", "bolted_joints", "loads"):
            node, item = self.root.get(group), self._item(target, group)
            if node is None or item is None:
                continue
            if node.flow or len(node.items) == 1:
                raise CannotEditError(f"{target}: its line cannot be taken out of {group} in place")
            self._change(self.lines.start_of(item.start), self.lines.next_of(item.last), "")
            return
        raise CannotEditError(f"the line {target} is not found in the text")

    # ---- finding -------------------------------------------------------------------------

    def _find(self, target: str, inner: tuple[str, ...]) -> Span | None:
        node: Span | None = None
        for group in ("parts", "bolted_joints", "loads"):
            node = node or self._item(target, group)
        if node is None and target == "tongue":
            layout = self.root.get("layout")
            node = None if layout is None else layout.get("tongue")
        elif node is None and target in MAPS:
            node = self.root.get(target)
        for step in inner:
            if node is None:
                return None
            node = node.items[int(step)] if node.form == "list" else node.get(step)
        return node

    def _item(self, target: str, group: str) -> Span | None:
        """The line of this id.  A line without one got its id from the reader: counted as it counts."""
        node = self.root.get(group)
        if not target or node is None or node.form != "list":
            return None
        names = ("id",) if group == "parts" else ("id", "what")
        for item in node.items:
            if item.form == "map" and target in [item.said(name) for name in names]:
                return item
        return self._unnamed(node, target, group)

    def _unnamed(self, node: Span, target: str, group: str) -> Span | None:
        if group != "parts":
            word = {"bolted_joints": "joint", "loads": "load"}[group]
            number = target.removeprefix(word + " ")
            index = int(number) - 1 if number.isdigit() and target != number else -1
            return node.items[index] if 0 <= index < len(node.items) else None
        taken = {item.said("id") for item in node.items if item.form == "map"}
        counts: dict[str, int] = {}
        for item in node.items:
            if item.form != "map" or item.said("id"):
                continue
            base = item.said("part") or item.said("kind")
            counts[base] = counts.get(base, 0) + 1
            given = base if counts[base] == 1 and base not in taken else f"{base}-{max(counts[base], 2)}"
            if given == target:
                return item
        return None


# ---- writing values -------------------------------------------------------------------------------


def typed(value: Any, flow: bool) -> str:
    """A value as YAML text that reads back as it is."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key}: {typed(one, True)}" for key, one in value.items()) + "}"
    if isinstance(value, (list, tuple)):
        return "[" + ", ".join(typed(one, True) for one in value) + "]"
    text = str(value)
    if not text or (_SPECIAL.search(text) and not _signed(text)) or (flow and _IN_FLOW.search(text)):
        return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'
    return text


def _signed(text: str) -> bool:
    """A negative number starts with a dash and is a plain text all the same."""
    return re.fullmatch(r"-\d[^:#,\[\]{}]*", text) is not None


def in_braces(pieces: list[str], column: int, newline: str) -> str:
    """Entries in braces, from ``column`` on, broken where the line would be too wide."""
    lines, line = [], ""
    for number, piece in enumerate(pieces):
        more = piece + ("," if number < len(pieces) - 1 else "")
        if line and column + 1 + len(line) + 1 + len(more) > WIDEST:
            lines.append(line)
            line = more
        else:
            line = f"{line} {more}" if line else more
    lines.append(line)
    return "{" + (newline + " " * (column + 1)).join(lines) + "}"


__all__ = ["CannotEditError", "Lines", "edited"]
