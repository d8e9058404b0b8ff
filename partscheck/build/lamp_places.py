"""Which lamps and reflectors of a list fill which places of the table ``lamp_rule``.

Each row of the table asks for places (a stop lamp: one on the left, one on the right); each piece on the
list can fill some of them.  Pieces are shared out so that as many places as can be are filled, once with
what surely fits, once with what might when a color or function is not typed.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from partscheck.build.model import pieces
from partscheck.notation.interval import Interval, same_within

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.places import Whole

FOOT = 304.8  # mm
POUND = 4.4482216152605  # N
LAMP_READS = (
    "lamp.function", "lamp.color", "lamp.position", "lamp.reflector", "lamp.qty", "lamp.packs", "lamp.pack",
    "lamp.have", "reflector.color", "reflector.position", "reflector.form", "reflector.qty",
    "reflector.packs", "reflector.pack", "reflector.have",
)  # fmt: skip
SEVERAL = {
    "stop-tail-turn": ("stop", "tail", "turn"),
    "combination": ("stop", "tail", "turn", "side marker", "license plate"),
}
# Where the lens of a lamp that is a reflector too looks.
REFLECTS = {
    "combination": ("rear", "side"),
    "side marker": ("side",),
    "stop-tail-turn": ("rear",),
    "stop": ("rear",),
    "tail": ("rear",),
    "turn": ("rear",),
    "clearance": ("rear",),
}
IN_TWO_COLORS = ("side marker", "clearance")  # the other lamps have the color that their name implies
ENDS = {
    "rear": ("rear",),
    "front": ("front",),
    "side rear": ("rear", "side"),
    "side middle": ("side",),
    "side front": ("front", "side"),
}
DOUBLE_FACED = "amber and red"
BAR_OF_LAMPS = 3  # one identification lamp on a list is the bar of three


class Spot:
    """One place that a row asks for: ``side`` is left, right, or "" where it makes no difference."""

    __slots__ = ("row", "side")

    def __init__(self, row: dict[str, Any], side: str) -> None:
        self.row = row
        self.side = side


class Piece:
    """One lamp or reflector; ``color`` and ``face`` narrow what it counts as, "" where nothing does."""

    __slots__ = ("color", "face", "line")

    def __init__(self, line: Any, color: str = "", face: str = "") -> None:
        self.line = line
        self.color = color
        self.face = face


class Lacking:
    """What a share-out leaves open.  ``truth``: every place filled, some surely not, or cannot tell (None);
    ``spots`` those that stay empty; ``width`` True when only the unknown width says whether they are asked
    for.
    """

    __slots__ = ("spots", "truth", "width")

    def __init__(self, truth: bool | None, spots: list[Spot], width: bool = False) -> None:
        self.truth = truth
        self.spots = spots
        self.width = width


# ---- what is asked for ----------------------------------------------------------------------------------


def lamp_rows(whole: Whole) -> list[dict[str, Any]]:
    rows: list[dict[str, Any]] = whole.tables.rows("lamp_rule")
    return rows


def applies(whole: Whole, row: dict[str, Any]) -> bool | None:
    """Whether a row asks anything of this trailer; a length or weight that is not typed asks for nothing."""
    layout, service = whole.build.layout, whole.build.service
    truths: list[bool | None] = []
    if "wide_only" in row:
        truths.append(_reaches(layout.overall_width, whole.limits.wide_vehicle_width.lo))
    if "length_from_ft" in row:
        long = layout.has("overall_length")
        truths.append(long and _reaches(layout.overall_length, row["length_from_ft"] * FOOT))
    if "gross_over_lb" in row:
        heavy = service.has("gross_weight")
        truths.append(heavy and _reaches(service.gross_weight, row["gross_over_lb"] * POUND + 1e-3))
    if False in truths:
        return False
    return None if None in truths else True


def _reaches(value: Interval, least: float) -> bool | None:
    close = same_within(value.unit)
    if value.lo >= least - close:
        return True
    return False if value.hi < least - close else None


def spots_of(row: dict[str, Any]) -> list[Spot]:
    """The places of one row: one on each side where it asks for two."""
    count = int(row["count"])
    return [Spot(row, side) for side in (("left", "right") if count == 2 else ("",) * count)]


# ---- what is there --------------------------------------------------------------------------------------


def lamp_lines(whole: Whole) -> list[Any]:
    return list(whole.build.of_kind("lamp", "reflector"))


def _count(line: Any, enough: int) -> int:
    count = pieces(line)
    if count is None:
        return enough
    bar = line.kind == "lamp" and _word(line, "function") == "identification"
    return BAR_OF_LAMPS if bar and count == 1 else min(count, enough)


def _word(line: Any, name: str) -> str:
    """The word typed for a field, "" when it is not known."""
    return str(getattr(line, name)) if line.has(name) else ""


def is_double_faced(line: Any) -> bool:
    """A clearance lamp that shows amber to the front and red to the rear."""
    return "clearance" in functions_of(line) and _word(line, "color") == DOUBLE_FACED


def _pieces(lines: list[Any], device: str, enough: int) -> Iterator[Piece]:
    for line in lines:
        double = is_double_faced(line)
        for _ in range(_count(line, enough)):
            if device == "reflector" and line.kind == "lamp":
                faces = REFLECTS.get(_word(line, "function"), () if line.has("function") else ("rear", "side"))
                yield from (Piece(line, face=face) for face in faces)
            elif double:
                yield from (Piece(line, "amber"), Piece(line, "red"))
            else:
                yield Piece(line)


def fits(piece: Piece, spot: Spot) -> bool | None:
    """Whether a piece fills a place; None where its function, color or reflector is not typed."""
    line, row = piece.line, spot.row
    if line.kind == "lamp":
        shows = _shows(line, row) if row["device"] == "lamp" else _reflects(piece, row)
    else:
        tape = _word(line, "form") == "tape"
        shows = row["device"] == ("tape" if tape else "reflector")
    if row["device"] == "tape":
        return shows
    return _all(shows, colored(piece, row), _stands(line, spot))


def _all(*truths: bool | None) -> bool | None:
    if False in truths:
        return False
    return None if None in truths else True


def _shows(lamp: Any, row: dict[str, Any]) -> bool | None:
    if not lamp.has("function"):
        return None
    return row["function"] in functions_of(lamp)


def functions_of(lamp: Any) -> tuple[str, ...]:
    """What a lamp shows, each by its own name; nothing where its function is not known, nor of a reflector."""
    word = _word(lamp, "function") if lamp.kind == "lamp" else ""
    return SEVERAL.get(word, (word,) if word else ())


def _reflects(piece: Piece, row: dict[str, Any]) -> bool | None:
    if row["device"] != "reflector" or piece.face != row["function"]:
        return False
    lamp = piece.line
    if not lamp.has("reflector"):
        return None
    return bool(lamp.reflector) and (True if lamp.has("function") else None)


def colored(piece: Piece, row: dict[str, Any]) -> bool | None:
    line, right = piece.line, row["color"]
    lamp = line.kind == "lamp"
    if lamp and _word(line, "function") == "combination" and row["function"] in ("side marker", "license plate"):
        return row["function"] == "license plate" or "red" in right
    color = piece.color or _word(line, "color")
    if color:
        return color in right
    implied = lamp and line.has("function") and _word(line, "function") not in IN_TWO_COLORS
    if implied and row["device"] == "reflector":
        return "red" in right
    return True if implied else None


def stands(line: Any, row: dict[str, Any]) -> bool:
    """Whether a line's position is one of a row's, on some side."""
    return any(_stands(line, spot) for spot in spots_of(row))


def _stands(line: Any, spot: Spot) -> bool:
    words = _word(line, "position").split()
    row = spot.row
    ends = (*ENDS[row["place"]], "side") if row["function"] == "clearance" else ENDS[row["place"]]
    side = next((word for word in words if word in ("left", "right", "center")), "")
    end = next((word for word in words if word in ("front", "rear", "side")), "")
    if end and end not in ends:
        return False
    if spot.side:
        return side in ("", spot.side)
    return row["function"] == "license plate" or side in ("", "center")


# ---- sharing out ----------------------------------------------------------------------------------------


def lacking(whole: Whole, devices: tuple[str, ...], width_matters: bool) -> Lacking:
    """Which places of the rows for these devices stay empty.

    ``width_matters``: an unknown overall width leaves open whether the rows for wide trailers count; else
    they do not.
    """
    rows = [(row, applies(whole, row)) for row in lamp_rows(whole) if row["device"] in devices]
    sure = [row for row, truth in rows if truth]
    perhaps = [row for row, truth in rows if truth is None and width_matters]
    lines = lamp_lines(whole)
    empty = _unfilled(sure, lines, lambda piece, spot: fits(piece, spot) is not False)
    if empty:
        return Lacking(False, empty, bool(perhaps))
    open_spots = _unfilled([*sure, *perhaps], lines, lambda piece, spot: bool(fits(piece, spot)))
    if not open_spots:
        return Lacking(True, [])
    _ask(whole, open_spots, lines)
    return Lacking(None, open_spots, any(spot.row in perhaps for spot in open_spots))


def _unfilled(
    rows: list[dict[str, Any]], lines: list[Any], edge: Callable[[Piece, Spot], bool]
) -> list[Spot]:
    """Places that stay empty when as many as can be are filled.  Lamps of several functions fill a place for
    each; reflectors serve one place, whatever way it looks.
    """
    empty: list[Spot] = []
    for alike in _groups(rows):
        spots = [spot for row in alike for spot in spots_of(row)]
        usable = list(_pieces(lines, alike[0]["device"], len(spots)))
        holder: dict[int, int] = {}  # number of a piece -> number of the place that it fills
        for number in range(len(spots)):
            if not _place(number, spots, usable, holder, edge, set()):
                empty.append(spots[number])
    return empty


def _groups(rows: list[dict[str, Any]]) -> list[list[dict[str, Any]]]:
    groups: dict[tuple[str, str], list[dict[str, Any]]] = {}
    for row in rows:
        key = (row["device"], row["function"] if row["device"] == "lamp" else "")
        groups.setdefault(key, []).append(row)
    return list(groups.values())


def _place(
    number: int, spots: list[Spot], usable: list[Piece], holder: dict[int, int],
    edge: Callable[[Piece, Spot], bool], tried: set[int],
) -> bool:  # fmt: skip
    """Fill one place, moving pieces that were put elsewhere where they can move."""
    for at, piece in enumerate(usable):
        if at in tried or not edge(piece, spots[number]):
            continue
        tried.add(at)
        if at not in holder or _place(holder[at], spots, usable, holder, edge, tried):
            holder[at] = number
            return True
    return False


def _ask(whole: Whole, spots: list[Spot], lines: list[Any]) -> None:
    """Read what would tell whether these places are filled, so that it is asked for."""
    for spot in spots:
        if applies(whole, spot.row) is None:
            whole.build.layout.overall_width  # noqa: B018 - asks for it
        for line in lines:
            if any(fits(piece, spot) is None for piece in _pieces([line], spot.row["device"], 1)):
                _read(line, spot.row)


def _read(line: Any, row: dict[str, Any]) -> None:
    names = ["color"]
    if line.kind == "lamp":
        names += ["function", "reflector"] if row["device"] == "reflector" else ["function"]
    for name in names:
        unknown = not line.has(name)
        needed = name != "color" or _color_decides(line, row)
        if unknown and needed:
            getattr(line, name)


def _color_decides(line: Any, row: dict[str, Any]) -> bool:
    return colored(Piece(line), row) is None
