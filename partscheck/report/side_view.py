"""The trailer from the side in plain letters: coupler, loads and axles along a ruler, to scale."""

from __future__ import annotations

from partscheck.notation.interval import Interval
from partscheck.notation.measure import show

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.uses.balance import BalanceRow

COLUMNS = 74  # with the indent of two, 76
BALL, BEAM, WHEEL, TICK, FILL = "o", "=", "O", "|", "-"
MARKS = "123456789abcdefghijklmnopqrstuvwxyz"
ROOM = 8  # columns that the number at a tick needs
# Steps of the ruler: (unit, mm of one, steps in that unit)
STEPS = {
    "inch": ("in", 25.4, (6, 12, 24, 48, 60, 120, 240)),
    "metric": ("mm", 1.0, (100, 200, 250, 500, 1000, 2000, 5000)),
}


def side_view(row: BalanceRow, layout: Any, axles: int, leading: str) -> list[str]:
    """Lines of at most 74 columns; none where the axle's place, or that of every load, is not known.

    Of what is known only as a range the middle is drawn.  ``layout`` is the list's.
    """
    loads, span, spacing = row.loads, layout.coupler_to_axle, layout.axle_spacing
    numbered = zip(MARKS, loads, strict=False)
    places = [(mark, one.from_coupler.mid) for mark, one in numbered if one.from_coupler.known]
    if not (span.known and places):
        return []
    wheels = _wheels(span.mid, axles, spacing)
    first = min(0.0, *(place for _, place in places))
    last = max(*wheels, *(place for _, place in places))
    ruler = _Ruler(first, last, leading)
    return [*_marks(ruler, places), _beam(ruler, last), _supports(ruler, row, wheels, leading), *ruler.lines()]


def _wheels(span: float, axles: int, spacing: Interval) -> list[float]:
    """Where the axles stand; one in their middle where their spacing is not known."""
    if axles == 1 or not spacing.known:
        return [span]
    return [span + (number - (axles - 1) / 2) * spacing.mid for number in range(axles)]


class _Ruler:
    """Columns for places in mm, with a tick every ``step``."""

    def __init__(self, first: float, last: float, leading: str) -> None:
        self.unit, self.size, steps = STEPS[leading]
        length = max(1.0, last - first)
        per_column = length / (COLUMNS - 10)  # room for the last number and the unit
        wanted = per_column * ROOM / self.size
        self.step = next((step for step in steps if step >= wanted), steps[-1])
        start = -(-first // (self.step * self.size)) if first < 0 else 0
        self.first = min(first, start * self.step * self.size)
        self.per_column = per_column
        self.last = last

    def column(self, place: float) -> int:
        return round((place - self.first) / self.per_column)

    def lines(self) -> list[str]:
        """The ticks, and their numbers under them."""
        pace = self.step * self.size
        number = -(-self.first // pace)
        ticks, words = [FILL] * (self.column(self.last) + 1), ""
        while number * pace <= self.last + 1e-6:
            column = self.column(number * pace)
            ticks[column] = TICK
            words = words.ljust(column) + f"{number * self.step + 0.0:g}"
            number += 1
        return ["".join(ticks), f"{words} {self.unit}"]


def _marks(ruler: _Ruler, places: list[tuple[str, float]]) -> list[str]:
    """The loads' numbers over the beam, one above the other where they stand in one column."""
    rows: list[dict[int, str]] = []
    for mark, place in places:
        column = ruler.column(place)
        row = next((one for one in rows if column not in one), None)
        if row is None:
            row = {}
            rows.append(row)
        row[column] = mark
    return [_line(row) for row in reversed(rows)]


def _beam(ruler: _Ruler, last: float) -> str:
    ball, end = ruler.column(0.0), ruler.column(last)
    lead = BEAM * ball if ball > 0 else ""
    return lead + BALL + BEAM * max(0, end - ball)


def _supports(ruler: _Ruler, row: BalanceRow, wheels: list[float], leading: str) -> str:
    """What ball and axles carry, under the ball and behind the wheels, as far as there is room."""
    marks = {ruler.column(place): WHEEL for place in wheels}
    line, tongue, axles = _line(marks), _words(row.tongue, leading), _words(row.axles, leading)
    ball = ruler.column(0.0)
    if ball + len(tongue) < min(marks):
        line = " " * ball + tongue + line[ball + len(tongue) :]
    return f"{line} {axles}".rstrip() if len(line) + len(axles) < COLUMNS else line


def _words(value: Interval, leading: str) -> str:
    return show(value, leading) if value.known else ""


def _line(marks: dict[int, str]) -> str:
    text = ""
    for column in sorted(marks):
        text = text.ljust(column) + marks[column]
    return text
