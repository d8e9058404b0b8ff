"""Dimension lines in rows beside a view, and flags: labels over it with a line down to what they name.

Each text gets room of its own before anything is drawn, so no text lies on another.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from partscheck.report.drawing.canvas import text_box
from partscheck.report.drawing.lettering import SMALL, fitted, width
from partscheck.report.drawing.sheet import LEFT, RIGHT, ROOM

if TYPE_CHECKING:
    from partscheck.report.drawing.canvas import Canvas, Point
    from partscheck.report.drawing.sheet import Sheet

PITCH = 6.2  # from one row of dimensions to the next, mm
LINE = 4.5  # from one row of flags to the next
AIR = 1.6  # between two texts in a row
ARROWS = 5.5  # shorter dimensions have their arrows outside
Box = tuple[float, float, float, float]


class Rows:
    """Level dimensions under a view, the first nearest to it."""

    def __init__(self, sheet: Sheet) -> None:
        self.sheet = sheet
        self._rows: list[list[tuple[float, float]]] = []
        self._placed: list[tuple[int, float, float, float, float, float, str, str]] = []

    def add(self, x1: float, x2: float, words: str, start: Point, style: str = "fine") -> None:
        """From ``x1`` to ``x2`` on the sheet; ``start``: where their extension lines begin, y of each."""
        if x1 > x2:
            x1, x2, start = x2, x1, (start[1], start[0])
        words = fitted(words, ROOM, SMALL)
        text = self._text(x1, x2, width(words, SMALL))
        reach = (min(x1, text[0]) - AIR, max(x2, text[1]) + AIR)
        number = next((n for n, row in enumerate(self._rows) if all(_apart(reach, one) for one in row)), None)
        if number is None:
            number = len(self._rows)
            self._rows.append([])
        self._rows[number].append(reach)
        self._placed.append((number, x1, x2, *start, text[0], words, style))

    def draw(self) -> None:
        """All rows, under what the sheet holds so far."""
        canvas, top = self.sheet.canvas, self.sheet.y
        for number, x1, x2, start1, start2, left, words, style in self._placed:
            y = top + (number + 1) * PITCH
            for x, start in ((x1, start1), (x2, start2)):
                canvas.line((x, start + 0.8), (x, y + 1.0))
            self._arrows(canvas, (x1, x2), y, (left, left + width(words, SMALL)), style)
        for number, x1, x2, _, _, left, words, style in self._placed:
            beside = left >= x2 or left + width(words, SMALL) <= x1
            y = top + (number + 1) * PITCH + (SMALL * 0.36 if beside else -0.9)
            canvas.text((left, y), words, SMALL, style="trouble-text" if style.startswith("trouble") else "")
        self.sheet.skip(len(self._rows) * PITCH + 2.6 if self._rows else 0.0)

    def _arrows(self, canvas: Canvas, ends: Point, y: float, text: Point, style: str) -> None:
        """The line with its arrows, drawn on to a text that stands beside it."""
        (x1, x2), (left, right) = ends, text
        inside = x2 - x1 >= ARROWS
        out = 0.0 if inside else 4.0
        first = min(x1 - out, right + 0.8) if right <= x1 else x1 - out
        last = max(x2 + out, left - 0.8) if left >= x2 else x2 + out
        canvas.line((first, y), (last, y), style)
        way = -1 if inside else 1
        canvas.arrow((x1, y), (way, 0), style)
        canvas.arrow((x2, y), (-way, 0), style)

    def _text(self, x1: float, x2: float, wide: float) -> tuple[float, float]:
        """Left and right of the text: between the ends, else beside them, wherever the sheet has room."""
        if wide + 2.0 <= x2 - x1:
            left = (x1 + x2 - wide) / 2
        elif x2 + 4.6 + wide <= RIGHT:
            left = x2 + 4.6
        elif x1 - 4.6 - wide >= LEFT:
            left = x1 - 4.6 - wide
        else:
            left = min(max((x1 + x2 - wide) / 2, LEFT), RIGHT - wide)
        return left, left + wide


class Flags:
    """Labels in rows above a view, each with an upright line down to its point."""

    def __init__(self) -> None:
        self._asked: list[tuple[Point, str, str, str]] = []
        self._placed: list[tuple[Point, str, str, str, int, float, float]] = []

    def add(self, point: Point, words: str, style: str = "", part: str = "") -> None:
        """``point``: x on the sheet, y below the upper edge of the view."""
        self._asked.append((point, fitted(words, ROOM * 0.8, SMALL), style, part))

    def height(self) -> float:
        """Room that the labels take above the view, mm."""
        self._placed = []
        for point, words, style, part in sorted(self._asked, key=lambda one: -one[0][0]):
            row, left, right = self._room_for(point[0], width(words, SMALL) * (1.1 if style else 1.0))
            self._placed.append((point, words, style, part, row, left, right))
        return (1 + max((one[4] for one in self._placed), default=-1)) * LINE + (1.4 if self._placed else 0.0)

    def draw(self, canvas: Canvas, top: float, view: float) -> None:
        """``top`` of the labels and of the ``view``, y on the sheet; after ``height``."""
        for (x, y), _, style, _, row, _, _ in self._placed:
            stroke = "trouble-fine" if style.startswith("trouble") else "fine"
            low = view - 1.4 - row * LINE
            canvas.line((x, low + 0.5), (x, view + y), stroke)
            canvas.circle((x, view + y), 0.5, "none", "#a3170f" if style.startswith("trouble") else "#1b1b1b")
        for _, words, style, part, row, left, _ in self._placed:
            canvas.text((left, view - 1.4 - row * LINE - 0.6), words, SMALL, style=style, part=part)

    def _room_for(self, x: float, wide: float) -> tuple[int, float, float]:
        """Lowest row where a text of this width has room; its left and right.

        Where no row keeps clear of every line, lines pass behind a text, whose halo covers them.
        """
        for lines_matter in (True, False):
            for left in (x - 0.6, x - wide + 0.6, x - wide / 2):
                left = min(max(left, LEFT), RIGHT - wide)
                for row in range(len(self._asked)):
                    if self._free(row, x, (left - AIR / 2, left + wide + AIR / 2), lines_matter):
                        return row, left, left + wide
        raise ValueError("more labels than rows")

    def _free(self, row: int, x: float, text: tuple[float, float], lines_matter: bool) -> bool:
        left, right = text
        for (other, _), _, _, _, other_row, other_left, other_right in self._placed:
            if other_row == row and left < other_right and other_left < right:
                return False
            if lines_matter and other_row > row and left < other < right:  # its line comes down through this text
                return False
            if lines_matter and other_row < row and other_left < x < other_right:  # this line through that text
                return False
        return True


class Texts:
    """Labels placed beside their points, each where nothing has been put yet."""

    def __init__(self, canvas: Canvas, bounds: Box) -> None:
        self.canvas = canvas
        self.bounds = bounds
        self.taken: list[Box] = []

    def put(self, words: str, tries: list[tuple[Point, str]], style: str = "", part: str = "") -> bool:
        """At the first of the (point, anchor) that is free; False where none is."""
        for at, anchor in tries:
            box = text_box(at, words, SMALL, anchor, bool(style))
            if self._free(box):
                self.taken.append(box)
                self.canvas.text(at, words, SMALL, anchor, style, part=part)
                return True
        return False

    def _free(self, box: Box) -> bool:
        left, top, right, bottom = self.bounds
        inside = box[0] >= left and box[1] >= top and box[2] <= right and box[3] <= bottom
        return inside and not any(
            box[0] < one[2] and one[0] < box[2] and box[1] < one[3] and one[1] < box[3] for one in self.taken
        )


def _apart(one: tuple[float, float], other: tuple[float, float]) -> bool:
    return one[1] <= other[0] or other[1] <= one[0]
