"""Dimension lines in rows beside a view, and flags: labels over it with a line down to what they name.

Each text gets room of its own before anything is drawn, so no text lies on another.
"""

from __future__ import annotations

from partscheck.report.drawing.canvas import INK, TROUBLE, text_box
from partscheck.report.drawing.lettering import ASCENT, BOLD, DESCENT, SMALL, fitted, width
from partscheck.report.drawing.sheet import LEFT, RIGHT, ROOM

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from partscheck.report.drawing.canvas import Canvas, Point
    from partscheck.report.drawing.sheet import Sheet

PITCH = 6.2  # from one row of dimensions to the next, mm
LINE = 4.5  # from one row of flags to the next
AIR = 1.6  # between two texts in a row
ARROWS = 5.5  # shorter dimensions have their arrows outside
BESIDE = 4.6  # from an arrow to a text beside it
FAR = 40.0  # a text stands no farther from its dimension
OVER = 1.6  # from a dimension line up to the text over it: letters such as p and y hang down, with their halo
TRIES = 2000  # places tried for the labels over a view before a line may be interrupted
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
            x, anchor = one.anchored()
            canvas.text((x, one.base_line(top)), one.words, SMALL, anchor, style)
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
        return self.level(top) + (-OVER if self.anchored()[1] == "middle" else SMALL * 0.36)

    def anchored(self) -> tuple[float, str]:
        """x of its text, and which point of it stands there: the one next to the arrows, else its middle, so
        that a font wider than reckoned does no harm.
        """
        left, right = self.text
        if left >= self.ends[1]:
            return left, "start"
        return (right, "end") if right <= self.ends[0] else ((left + right) / 2, "middle")

    def box(self, top: float) -> Box:
        left, right = self.text
        line = self.base_line(top)
        return left, line - SMALL * ASCENT, right, line + SMALL * DESCENT

    def clear_of(self, lines: list[float]) -> Iterator[Span]:
        """Where the text may stand so that none of the upright ``lines`` passes through it: between the ends,
        else beside them, the nearest first: a long line to a text looks like a dimension of its own.
        """
        x1, x2 = self.ends
        between = [(x1 + x2 - self.wide) / 2] if self.wide + 2.0 <= x2 - x1 else []
        beside = [(far, x2 + far) for far in {BESIDE, *(x + AIR - x2 for x in lines)}]
        beside += [(far, x1 - far - self.wide) for far in {BESIDE, *(x1 - x + AIR for x in lines)}]
        near = sorted((far, -left) for far, left in beside if BESIDE <= far <= FAR)
        for left in between + [-left for _, left in near]:
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
        self._asked: list[_Flag] = []
        self._tries = TRIES

    def add(self, point: Point, words: str, style: str = "", part: str = "") -> None:
        """``point``: x on the sheet, y below the upper edge of the view."""
        self._asked.append(_Flag(point, fitted(words, ROOM * 0.8, SMALL), style, part))

    def height(self) -> float:
        """Room that the labels take above the view, mm."""
        if not self._asked:
            return 0.0
        self._place()
        return (1 + max(one.row for one in self._asked)) * LINE + 1.4

    def draw(self, canvas: Canvas, top: float, view: float) -> None:
        """``top`` of the labels and of the ``view``, y on the sheet; after ``height``."""
        texts = [one.box(view) for one in self._asked]
        for one in self._asked:
            (x, y), stroke, dot = one.point, "fine", INK
            if one.style.startswith("trouble"):
                stroke, dot = "trouble-fine", TROUBLE
            for begin, end in _interrupted(x, one.foot(view), view + y, texts):
                canvas.line((x, begin), (x, end), stroke)
            canvas.circle((x, view + y), 0.5, "none", dot)
        for one in self._asked:
            canvas.text((one.left, one.foot(view) - 1.1), one.words, SMALL, style=one.style, part=one.part)

    def _place(self) -> None:
        """So that no line comes down through a text; where nothing of the kind is found soon, lines that do
        are interrupted.
        """
        flags = sorted(self._asked, key=lambda one: -one.point[0])
        self._tries = TRIES
        if not self._clear([], flags):
            for number, one in enumerate(flags):
                if not any(one.put(left, flags[:number]) for left in one.lefts()):
                    one.put(one.lefts()[0], flags[:number], clear=False)

    def _clear(self, placed: list[_Flag], others: list[_Flag]) -> bool:
        """Place the others clear of those placed and of each other, if it can be done."""
        for one in others:
            for left in one.lefts():
                self._tries -= 1
                if self._tries < 0:
                    return False
                rest = [other for other in others if other is not one]
                if one.put(left, placed) and self._clear([*placed, one], rest):
                    return True
        return not others


class _Flag:
    """``row`` counts up from the view, ``left`` is where its text begins."""

    __slots__ = ("left", "part", "point", "row", "style", "wide", "words")

    def __init__(self, point: Point, words: str, style: str, part: str) -> None:
        self.point = point
        self.words = words
        self.style = style
        self.part = part
        self.wide = width(words, SMALL) * (BOLD if style else 1.0)
        self.row = 0
        self.left = 0.0

    def foot(self, view: float) -> float:
        """y where its line begins, under the text."""
        return view - 0.9 - self.row * LINE

    def box(self, view: float) -> Box:
        base = self.foot(view) - 1.1
        return self.left, base - SMALL * ASCENT, self.left + self.wide, base + SMALL * DESCENT

    def lefts(self) -> list[float]:
        """Where its text may begin: on from its line, up to it, or over it."""
        x = self.point[0]
        return [
            min(max(one, LEFT), RIGHT - self.wide) for one in (x - 0.6, x - self.wide + 0.6, x - self.wide / 2)
        ]

    def put(self, left: float, placed: Sequence[_Flag], clear: bool = True) -> bool:
        """In the lowest row that has room for it, and where it is ``clear`` of the lines of those placed."""
        self.left = left
        for self.row in range(len(placed) + 1):
            if any(self._lies_on(one) for one in placed):
                continue
            if not (clear and any(self.crosses(one) or one.crosses(self) for one in placed)):
                return True
        return False

    def crosses(self, other: _Flag) -> bool:
        """Its line comes down through the text of the other."""
        x = self.point[0]
        return self.row > other.row and other.left - AIR / 2 < x < other.left + other.wide + AIR / 2

    def _lies_on(self, other: _Flag) -> bool:
        return (
            self.row == other.row
            and self.left - AIR < other.left + other.wide
            and other.left - AIR < self.left + self.wide
        )


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
