"""The load path as bars: what each part has to carry against what it is rated for."""

from __future__ import annotations

from partscheck.notation.interval import INF, Interval
from partscheck.notation.measure import show_both
from partscheck.report.drawing.canvas import SOLID
from partscheck.report.drawing.drawing import Drawing, Undrawn
from partscheck.report.drawing.lettering import BOLD, SIZE, SMALL, fitted, width
from partscheck.report.drawing.sheet import LEFT, RIGHT, ROOM, TROUBLE, UNKNOWN, Sheet
from partscheck.uses.load_path import LoadPathRow, load_path, supported_gross

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from partscheck.engine import Result

KIND, TITLE = "load-path", "Load path"
GROUPS = {
    "gross": "The whole weight",
    "axle": "One axle",
    "corner": "One wheel",
    "tongue": "The tongue weight",
    "rack": "The rack at the rear",
}
BAR, ROW = 3.6, 11.2
UNDER = 2.0  # from the lettering's base line down to the bar: room for the tick of a rating under hanging letters


def load_path_drawings(result: Result, leading: str) -> Iterator[Drawing | Undrawn]:
    """One drawing, of every part that carries weight; none for a list that speaks of no weights."""
    rows = _worst(row for row in load_path(result) if row.share.known or row.known)
    if not any(row.share.known and row.share.hi > 0 for row in rows):
        yield Undrawn(KIND, KIND, TITLE, ("service.gross_weight",))
        return
    yield _draw(rows, result, leading)


def _worst(rows: Iterable[LoadPathRow]) -> list[LoadPathRow]:
    """Of a part that carries more at one place than at another, the place with the least margin alone."""
    kept: dict[tuple[str, str, str], LoadPathRow] = {}
    for row in rows:
        key = (row.part.id, row.role, row.of)
        if key not in kept or row.margin.lo < kept[key].margin.lo:
            kept[key] = row
    return list(kept.values())


def _draw(rows: list[LoadPathRow], result: Result, leading: str) -> Drawing:
    sheet = Sheet(KIND, TITLE, result.build.name, 0.0, leading)
    sheet.note("Bar: what it carries at rest in its worst case. Upright line: its rating. Hatched: too much.")
    for of, words in GROUPS.items():
        here = [row for row in rows if row.of == of]
        if here:
            _group(sheet, here, words)
    limit, part = supported_gross(rows)
    caption = f"Bars of what {len(rows)} parts carry, each against its rating."
    over = [row for row in rows if row.known and row.margin.hi < 0]
    if over:
        names = ", ".join(dict.fromkeys(row.label for row in over))
        caption += f" Over their rating: {names}."
    if limit is not None and limit.known:
        name = next((row.name for row in rows if row.part is part), "")
        words = f"The rated parts carry a gross weight of {show_both(limit, leading)}; the {name} sets it."
        sheet.note(words)
        caption += " " + words
    ids = tuple(dict.fromkeys(row.part.id for row in rows))
    return Drawing(KIND, KIND, TITLE, caption, sheet, ids)


def _group(sheet: Sheet, rows: list[LoadPathRow], words: str) -> None:
    """The rows of one kind of load share one scale, so their bars compare."""
    ends = [value.hi for row in rows for value in (row.share, row.rating) if value.hi != INF]
    most = max((end for end in ends), default=0.0) or 1.0
    sheet.skip(1.0)
    sheet.lines(words, SIZE, "bold")
    sheet.skip(0.8)
    for row in rows:
        _bar(sheet, row, ROOM / (most * 1.02))


def _bar(sheet: Sheet, row: LoadPathRow, size: float) -> None:
    """Label over the bar; ``size`` is mm of paper for one N.  What is over the rating is hatched."""
    canvas, top, part = sheet.canvas, sheet.y, row.part.id
    over = row.known and row.share.known and row.margin.lo < 0
    mark = f"{TROUBLE} " if over else "" if row.known and row.share.known else f"{UNKNOWN} "
    figures = _figures(row, sheet.leading)
    style = "trouble-text" if over else ""
    room = ROOM - width(figures, SMALL) - 2.0
    room /= BOLD if over else 1.0
    where = f" at {', '.join(row.at)}" if row.at else ""
    names = [f"{mark}{one}{where}" for one in (row.label, part)]
    name = next((one for one in names if width(one, SMALL) <= room), names[0])
    canvas.text((LEFT, top + SMALL), fitted(name, room, SMALL), SMALL, style=style, halo=False)
    canvas.text((RIGHT, top + SMALL), figures, SMALL, "end", halo=False)
    y = top + SMALL + UNDER
    canvas.line((LEFT, y + BAR), (RIGHT, y + BAR), "fine")
    if row.share.known:
        share, rating = row.share.mid, row.rating.mid if row.known else row.share.mid
        end = LEFT + share * size
        canvas.rect(
            (LEFT, y), (end, y + BAR), "medium" if row.known else "unknown", SOLID, part, f"share-{row.of}"
        )
        if over and share > rating:
            canvas.rect((LEFT + rating * size, y), (end, y + BAR), "trouble", "trouble", part, f"over-{row.of}")
    if row.known:
        x = LEFT + row.rating.mid * size
        canvas.line((x, y - 0.5), (x, y + BAR + 1.0), "outline", part, f"rating-{row.of}")
    sheet.skip(ROW)


def _figures(row: LoadPathRow, leading: str) -> str:
    share = _words(row.share, leading)
    return f"{share} of {_words(row.rating, leading)}"


def _words(value: Interval, leading: str) -> str:
    return show_both(Interval.exact(value.mid, "N"), leading) if value.known else "?"
