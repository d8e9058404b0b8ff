"""A sheet of the workshop: heading, the view, rows of dimensions, notes, and a bar that shows the scale.

The sheet fills from the top: each thing is put under the one before it, so nothing lies on another.
"""

from __future__ import annotations

from contextlib import contextmanager
from xml.etree.ElementTree import Element, SubElement

from partscheck.notation.interval import Interval
from partscheck.notation.measure import show
from partscheck.report.drawing.canvas import Canvas
from partscheck.report.drawing.lettering import HEAD, SIZE, SMALL, wrapped

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

WIDTH, MARGIN = 120.0, 5.0
LEFT, RIGHT = MARGIN, WIDTH - MARGIN
ROOM = RIGHT - LEFT
LEADING = 1.32  # from one line of text to the next, in sizes
GAP = 3.0
MARK = 6.0  # where a note begins after its mark
TROUBLE, UNKNOWN, PLAIN = "!", "?", ""
# Paper to part: one to so many; the usual ones of the shop, inch and metric
SCALES = (
    0.5, 1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 60.0, 80.0,
    100.0, 150.0, 200.0, 300.0, 500.0,
)  # fmt: skip
BAR_STEPS = {
    "inch": (25.4, (0.5, 1, 2, 3, 4, 6, 12, 24, 48, 120, 240)),
    "metric": (1.0, (10, 20, 50, 100, 200, 500, 1000, 2000, 5000)),
}
BAR_LEAST = 16.0  # mm of paper that the bar is long at least


class Sheet:
    """``scale`` is mm of paper for one mm of the part (0: not to scale); ``leading`` the units in front.

    ``y`` is how far the sheet is filled, mm from its upper edge.
    """

    def __init__(self, name: str, title: str, under: str, scale: float, leading: str) -> None:
        self.canvas = Canvas(name)
        self.scale = scale
        self.leading = leading
        self.y = MARGIN
        self._told: list[tuple[int, int, float]] = []
        with self.told_around():
            self.lines(title, HEAD, "bold")
            self.lines("; ".join(one for one in (under, scale_words(scale)) if one), SMALL)
            self.canvas.line((LEFT, self.y + 0.6), (RIGHT, self.y + 0.6), "medium")
            self.skip(GAP + 0.6)

    @contextmanager
    def told_around(self) -> Iterator[None]:
        """What is put on the sheet meanwhile, a page that holds the drawing tells in words of its own."""
        begin, top = len(self.canvas.root), self.y
        yield
        self._told.append((begin, len(self.canvas.root), self.y - top))

    @property
    def size(self) -> tuple[float, float]:
        return WIDTH, round(self.y + MARGIN, 1)

    def skip(self, by: float) -> float:
        """Leave ``by`` mm; returns where the free room now begins."""
        self.y += by
        return self.y

    def lines(self, text: str, size: float = SIZE, style: str = "", left: float = LEFT) -> None:
        """Text over as many lines as it takes."""
        for line in wrapped(text, RIGHT - left, size * (1.1 if style else 1.0)):
            self.canvas.text((left, self.y + size * 0.8), line, size, style=style, halo=False)
            self.y += size * LEADING

    def head(self, text: str) -> None:
        """The heading of one of several views."""
        self.skip(1.8)
        self.lines(text, SIZE, "bold")
        self.skip(1.0)

    def note(self, text: str, mark: str = PLAIN) -> None:
        """A sentence under the view, behind a boxed mark: "!" trouble, "?" not known, or a number or letter."""
        top = self.y
        if mark:
            trouble = mark == TROUBLE
            box = (LEFT, top - 0.4), (LEFT + 4.4, top + 4.0)
            self.canvas.rect(*box, "trouble" if trouble else "medium")
            style = "trouble-text" if trouble else "bold"
            self.canvas.text((LEFT + 2.2, top + SIZE * 0.8), mark, SIZE, "middle", style, halo=False)
        self.lines(text, SIZE, left=LEFT + MARK if mark else LEFT)
        self.y = max(self.y, top + 4.4) + 0.9

    def notes(self, texts: Iterable[str], mark: str = PLAIN) -> None:
        for text in texts:
            self.note(text, mark)

    def scale_bar(self) -> None:
        """A bar that stays true whatever size the sheet is shown at."""
        size, steps = BAR_STEPS[self.leading]
        step = next((one for one in steps if one * size * self.scale >= BAR_LEAST), steps[-1])
        long = step * size * self.scale
        x, y = LEFT, self.skip(2.0)
        for number, fill in enumerate(("#1b1b1b", "#fff")):
            self.canvas.rect((x + number * long / 2, y), (x + (number + 1) * long / 2, y + 1.4), "fine", fill)
        other = show(Interval.exact(step * size, "mm"), _other(self.leading))
        words = f"{step:g} {'in' if self.leading == 'inch' else 'mm'} ({other})"
        self.canvas.text((x + long + 2.0, y + 2.0), words, SMALL, halo=False)
        self.skip(SMALL * LEADING)

    def svg(self, title: str, caption: str, whole: bool = True) -> str:
        """Not ``whole``: what the page around it tells stays away, and the rest moves up."""
        if whole:
            return self.canvas.svg(self.size, title, caption, self.scale)
        shown, raised, first = Element("g"), 0.0, 0
        for begin, end, room in [*self._told, (len(self.canvas.root), 0, 0.0)]:
            piece = SubElement(shown, "g", {"transform": f"translate(0 {-raised:.3f})"})
            piece.extend(self.canvas.root[first:begin])
            first, raised = end, raised + room
        size = (self.size[0], round(self.size[1] - raised, 1))
        return self.canvas.svg(size, title, caption, self.scale, shown)


def scale_that_fits(wide: float, high: float, room: float = ROOM, tall: float = 120.0) -> float:
    """mm of paper for one of the part: the largest usual scale at which ``wide`` x ``high`` mm fits."""
    for scale in SCALES:
        if wide / scale <= room and high / scale <= tall:
            return 1 / scale
    return min(room / max(wide, 1.0), tall / max(high, 1.0))


def scale_words(scale: float, printed: float = WIDTH) -> str:
    """``scale`` is that of a sheet WIDTH wide; ``printed``: how wide it comes out, mm."""
    if not scale:
        return ""
    true = scale * printed / WIDTH
    ratio = f"{true:.3g}:1" if true > 1 else f"1:{1 / true:.3g}"
    return f"scale {ratio} when printed {printed:g} mm wide"


def _other(leading: str) -> str:
    return "metric" if leading == "inch" else "inch"
