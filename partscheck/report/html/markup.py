"""HTML built from pieces that are safe by themselves: what is not ``Markup`` is text and gets escaped."""

from __future__ import annotations

import re
from html import escape

from partscheck.notation.cell_text import one_line

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable

# Letters that are written from right to left: they would turn the figures beside them around.
_RIGHT_TO_LEFT = re.compile(
    "[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufeff\U00010800-\U00010fff\U0001e800-\U0001efff]"
    "(?:[^\x21-\x7e]*[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufeff\U00010800-\U00010fff\U0001e800-\U0001efff])*"
)
VOID = ("input", "meta", "br", "hr")


class Markup(str):
    """HTML that is ready to stand in the page."""

    __slots__ = ()


def text(words: str) -> Markup:
    """Text on one line: no tag, no entity, nothing that steers the page or turns the direction of writing.

    >>> text("<b> & 'c'")
    '&lt;b&gt; &amp; &#x27;c&#x27;'
    """
    if isinstance(words, Markup):
        return words
    inner = one_line(words)
    if inner:
        inner = (" " if words[0].isspace() else "") + inner + (" " if words[-1].isspace() else "")
    elif words:
        inner = " "
    return Markup(_RIGHT_TO_LEFT.sub(r"<bdi>\g<0></bdi>", escape(inner)))


def tag(name: str, /, *children: str | None, **attributes: str | bool | None) -> Markup:
    """One element.  Attributes: ``_`` stands for ``-`` and an ending one is dropped (``class_``); True writes
    the bare name, None and False leave it out.

    >>> tag("a", "x < y", href="#basis-1", class_="mark")
    '<a href="#basis-1" class="mark">x &lt; y</a>'
    """
    written = "".join(_attribute(key, value) for key, value in attributes.items())
    if name in VOID:
        return Markup(f"<{name}{written}>")
    return Markup(f"<{name}{written}>{join(children)}</{name}>")


def _attribute(key: str, value: str | bool | None) -> str:
    if value is None or value is False:
        return ""
    name = key.rstrip("_").replace("_", "-")
    return f" {name}" if value is True else f' {name}="{escape(one_line(value))}"'


def join(pieces: Iterable[str | None], between: str = "") -> Markup:
    """Pieces one behind the other, those that are None or empty left out."""
    return Markup(text(between).join(text(piece) for piece in pieces if piece))


def sections_of(*pieces: Markup) -> Markup:
    """Blocks on lines of their own, so that the source of the page can be read."""
    return Markup("\n".join(piece for piece in pieces if piece))


class Column:
    """A column of a table: its head, whether it holds figures, or words that stay on one line."""

    __slots__ = ("figures", "head", "short")

    def __init__(self, head: str, figures: bool = False, short: bool = False) -> None:
        self.head = head
        self.figures = figures
        self.short = short


def table(caption: str, columns: list[Column], rows: Iterable[list[str]]) -> Markup:
    """A table whose first column names its rows."""
    return grouped_table(caption, columns, [("", rows)])


def grouped_table(
    caption: str, columns: list[Column], groups: Iterable[tuple[str, Iterable[list[str]]]], kind: str = ""
) -> Markup:
    """A table whose rows stand in groups under a line of their own, where that line has a title.

    On a narrow screen each row becomes a stack of labelled values; roles keep it a table for who hears the page.
    """
    heads = [tag("th", one.head, scope="col", role="columnheader", class_=_kind(one)) for one in columns]
    return tag(
        "table",
        tag("caption", caption),
        tag("thead", tag("tr", *heads, role="row"), role="rowgroup"),
        *(_group(title, columns, rows) for title, rows in groups),
        role="table",
        class_=kind or None,
    )


def _group(title: str, columns: list[Column], rows: Iterable[list[str]]) -> Markup:
    head = Markup()
    if title:
        name = tag("th", title, scope="rowgroup", role="rowheader", colspan=str(len(columns)), class_="group")
        head = tag("tr", name, role="row", class_="head")
    return tag("tbody", head, *(_row(columns, cells) for cells in rows), role="rowgroup")


def _row(columns: list[Column], cells: list[str]) -> Markup:
    first, *rest = cells
    named = zip(columns[1:], rest, strict=True)
    return tag(
        "tr",
        tag("th", first, scope="row", role="rowheader"),
        *(tag("td", tag("span", cell), role="cell", data_label=one.head, class_=_cell_class(one, cell))
          for one, cell in named),
        role="row",
    )  # fmt: skip


def _cell_class(column: Column, cell: str) -> str | None:
    return " ".join(word for word in (_kind(column), "" if cell else "empty") if word) or None


def _kind(column: Column) -> str | None:
    return "figures" if column.figures else "short" if column.short else None
