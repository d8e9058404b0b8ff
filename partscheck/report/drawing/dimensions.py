"""Dimension lines in rows beside a view, and flags: labels over it with a line down to what they name.

Each text gets room of its own before anything is drawn, so no text lies on another.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from partscheck.report.drawing.canvas import text_box
from partscheck.report.drawing.lettering import ASCENT, DESCENT, SMALL, fitted, width
from partscheck.report.drawing.sheet import LEFT, RIGHT, ROOM

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from partscheck.report.drawing.canvas import Canvas, Point
    from partscheck.report.drawing.sheet import Sheet

PITCH = 6.2  # from one row of dimensions to the next, mm
LINE = 4.5  # from one row of flags to the next
AIR = 1.6  # between two texts in a row
ARROWS = 5.5  # shorter dimensions have their arrows outside
BESIDE = 4.6  # from an arrow to a text beside it
FAR = 40.0  # a text stands no farther from its dimension
Span = tuple[float, float]
Box = tuple[float, float, float, float]


class Rows:
    """Level dimensions under a view, the first nearest to it."""

    def __init__(self, sheet: Sheet) -> None:
        self.sheet = sheet
        self._asked: list[_Dimension] = []

    def add(self, x1: float, x2: float, words: str, start: Point, style: str = "fine") -> None:
        """From ``x1`` to ``x2`` on the sheet; ``start``: where their extension lines begin, y of each."""
        if x1 > x2:
            x1, x2, start = x2, x1, (start[1], start[0])
        self._asked.append(_Dimension((x1, x2), fitted(words, ROOM, SMALL), start, style))

    def draw(self) -> None:
        """All rows, under what the sheet holds so far."""
        canvas, top = self.sheet.canvas, self.sheet.y
        for number in range(len(self._asked)):
            self._place(number)
        texts = [one.box(top) for one in self._asked]
        for one in self._asked:
            y = one.level(top)
            for x, start in zip(one.ends, one.start, strict=True):
                for begin, end in _interrupted(x, start + 0.8, y + 1.0, texts):
                    canvas.line((x, begin), (x, end))
            _arrows(canvas, one.ends, y, one.text, one.style)
        for one in self._asked:
            style = "trouble-text" if one.style.startswith("trouble") else ""
            canvas.text((one.text[0], one.base_line(top)), one.words, SMALL, style=style)
        rows = 1 + max((one.row for one in self._asked), default=-1)
        self.sheet.skip(rows * PITCH + 2.6 if rows else 0.0)

    def _place(self, number: int) -> None:
        """In the row nearest to the view where no extension line comes down through its text; where there is
        none, in the first with room: the lines are interrupted there.
        """
        one, before, after = self._asked[number], self._asked[:number], self._asked[number + 1 :]
        last = 1 + max((other.row for other in before), default=-1)
        for row in range(last + 1):
            crossing = [x for other in before if other.row >= row for x in other.ends]
            crossing += [x for other in after for x in other.ends]
            for text in one.clear_of(crossing):
                if self._put(one, row, text, before):
                    return
        for row in range(last + 1):
            if self._put(one, row, one.anywhere(), before):
                return

    @staticmethod
    def _put(one: _Dimension, row: int, text: Span, before: list[_Dimension]) -> bool:
        reach = _reach(one.ends, text)
        if any(other.row == row and not _apart(reach, _reach(other.ends, other.text)) for other in before):
            return False
        one.row, one.text = row, text
        return True


class _Dimension:
    """``ends`` and ``text`` are spans across the sheet, ``row`` counts down from the view."""

    __slots__ = ("ends", "row", "start", "style", "text", "words")

    def __init__(self, ends: Span, words: str, start: Point, style: str) -> None:
        self.ends = ends
        self.words = words
        self.start = start
        self.style = style
        self.row = 0
        self.text: Span = (0.0, 0.0)

    @property
    def wide(self) -> float:
        return width(self.words, SMALL)

    def level(self, top: float) -> float:
        """y of its line."""
        return top + (self.row + 1) * PITCH

    def base_line(self, top: float) -> float:
        """Over the line; in one line with it where the text stands beside."""
        beside = self.text[0] >= self.ends[1] or self.text[1] <= self.ends[0]
        return self.level(top) + (SMALL * 0.36 if beside else -1.3)

    def box(self, top: float) -> Box:
        left, right = self.text
        line = self.base_line(top)
        return left, line - SMALL * ASCENT, right, line + SMALL * DESCENT

    def clear_of(self, lines: list[float]) -> Iterator[Span]:
        """Where the text may stand so that none of the upright ``lines`` passes through it: between the ends,
        else beside them and not far off.
        """
        x1, x2 = self.ends
        lefts = [(x1 + x2 - self.wide) / 2] if self.wide + 2.0 <= x2 - x1 else []
        off = sorted({BESIDE, *(x + AIR - x2 for x in lines)})
        lefts += [x2 + far for far in off if BESIDE <= far <= FAR]
        off = sorted({BESIDE, *(x1 - x + AIR for x in lines)})
        lefts += [x1 - far - self.wide for far in off if BESIDE <= far <= FAR]
        for left in lefts:
            right = left + self.wide
            if left >= LEFT and right <= RIGHT and not any(left - 0.6 < x < right + 0.6 for x in lines):
                yield left, right

    def anywhere(self) -> Span:
        """Between the ends, else beside them, wherever the sheet has room."""
        (x1, x2), wide = self.ends, self.wide
        if wide + 2.0 <= x2 - x1:
            left = (x1 + x2 - wide) / 2
        elif x2 + BESIDE + wide <= RIGHT:
            left = x2 + BESIDE
        elif x1 - BESIDE - wide >= LEFT:
            left = x1 - BESIDE - wide
        else:
            left = min(max((x1 + x2 - wide) / 2, LEFT), RIGHT - wide)
        return left, left + wide


def _reach(ends: Span, text: Span) -> Span:
    return min(ends[0], text[0]) - AIR, max(ends[1], text[1]) + AIR


def _interrupted(x: float, begin: float, end: float, texts: Iterable[Box]) -> Iterator[Span]:
    """The pieces of an upright line that keep off every text."""
    for left, top, right, bottom in sorted(texts, key=lambda box: box[1]):
        if left - 0.5 < x < right + 0.5 and top - 0.3 < end and bottom > begin:
            if top - 0.3 - begin > 0.6:
                yield begin, top - 0.3
            begin = max(begin, bottom)
    if end - begin > 0.6:
        yield begin, end


def _arrows(canvas: Canvas, ends: Span, y: float, text: Span, style: str) -> None:
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
