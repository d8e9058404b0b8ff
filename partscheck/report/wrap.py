"""A page of wrapped text."""

from __future__ import annotations

import textwrap

from partscheck.notation.cell_text import harmless

WIDEST = 100
INDENT = "    "
KEPT = "\u00a0"  # a blank at which no line ends: a number keeps its % sign


def plural(count: int, noun: str) -> str:
    """ "1 caution", "2 cautions"."""
    return f"{count} {noun}" + ("" if count == 1 else "s")


class Page:
    """Lines of at most ``columns`` columns (never more than 100)."""

    def __init__(self, columns: int) -> None:
        self.columns = max(40, min(columns, WIDEST))
        self.lines: list[str] = []

    def text(self) -> str:
        """The page; nothing that a list says steers the screen that it comes to."""
        return harmless("\n".join(self.lines).strip("\n") + "\n")

    def gap(self) -> None:
        """One empty line, never two."""
        if self.lines and self.lines[-1]:
            self.lines.append("")

    def head(self, text: str) -> None:
        self.gap()
        self.lines.append(text)
        self.lines.append("-" * min(len(text), self.columns))

    def line(self, text: str) -> None:
        self._wrapped(text, "", "")

    def item(self, mark: str, text: str) -> None:
        """Text behind a number or a dash."""
        self._wrapped(text, f"{mark:<{len(INDENT) - 1}} ", INDENT)

    def under(self, text: str, label: str = "") -> None:
        """A line under an item, with a label; nothing when there is no text."""
        if text:
            hanging = 4 if label and label.strip() in ("Do:", "") else 2
            self._wrapped(label + text, INDENT, INDENT + " " * hanging)

    def raw(self, text: str) -> None:
        self.lines.extend(text.splitlines())

    def table(self, heads: list[str], rows: list[list[str]]) -> None:
        """A table by tabulate; long cells of the first two columns are wrapped to fit.

        Where the page is too narrow for a table, each row becomes an item.
        """
        from tabulate import tabulate

        padded = [head + "  " for head in heads]  # as tabulate does
        fixed = sum(max(_widest(row[i]) for row in [padded, *rows]) + 2 for i in range(2, len(heads)))
        room = self.columns - fixed - 2
        if room < 24:
            self._rows(heads, rows)
            return
        wide = [
            [_filled(row[0], room * 2 // 3), _filled(row[1], max(6, room // 3)), *row[2:]] for row in rows
        ]
        align = ("left", "left", *("right" for _ in heads[2:]))
        self.raw(tabulate(wide, heads, tablefmt="simple", colalign=align, disable_numparse=True))

    def _rows(self, heads: list[str], rows: list[list[str]]) -> None:
        for row in rows:
            named = (f"{head} {' '.join(cell.split())}" for head, cell in zip(heads[1:], row[1:], strict=True))
            self.item("-", f"{row[0]}: {'; '.join(named)}")

    def _wrapped(self, text: str, first: str, rest: str) -> None:
        for number, piece in enumerate(text.splitlines() or [""]):
            self.lines.extend(
                line.replace(KEPT, " ")
                for line in textwrap.wrap(
                    piece.replace(" %", f"{KEPT}%"), self.columns, initial_indent=first if number == 0 else rest,
                    subsequent_indent=rest, break_long_words=False, break_on_hyphens=False,
                )
            )  # fmt: skip


def _widest(cell: str) -> int:
    """Columns of the widest line of a cell."""
    return max(map(len, cell.splitlines()), default=0)


def _filled(text: str, columns: int) -> str:
    return textwrap.fill(text, columns, break_long_words=False, break_on_hyphens=False)
