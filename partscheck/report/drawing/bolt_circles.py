"""The bolt circles of a wheel end laid over each other, with pilots and bores, seen from outboard."""

from __future__ import annotations

import math

from partscheck.build.places import Seat
from partscheck.formulas.bolt_circle import best_clocking, hole_coordinates
from partscheck.notation.interval import Interval
from partscheck.notation.measure import show_both
from partscheck.report.drawing.canvas import SOLID, Canvas
from partscheck.report.drawing.dimensions import Rows, Texts
from partscheck.report.drawing.drawing import Drawing, Undrawn
from partscheck.report.drawing.sheet import LEFT, RIGHT, ROOM, UNKNOWN, WIDTH, Sheet, scale_that_fits
from partscheck.report.drawing.values import alike, failing, findings_of, places_of, said, tell, title_of
from partscheck.rules.message import name_of

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import Any

    from partscheck.build.places import WheelEnd
    from partscheck.engine import Result

KIND, TITLE = "bolt-circles", "Bolt circles"
SLUGS = ("bolt-circle-mismatch", "center-bore-too-small", "pilot-loose", "adapter-holes-collide")
TOP = 90.0  # deg: the first stud stands at the top
HOLE = 13.5  # mm: a hole to look at, where the thread is not known
OVER = 1.5  # mm: hole over the stud, as it looks
ROUND = 16.0  # mm beyond the outermost circle


class Ring:
    """One circle of studs or holes: ``part`` and ``field`` that say it, ``turn`` of its first hole, deg."""

    def __init__(self, part: Any, field: str, turn: float, studs: bool, hole: float) -> None:
        self.part, self.field, self.turn, self.studs, self.hole = part, field, turn, studs, hole
        circle = getattr(part, field)
        self.diameter: float = circle.diameter.mid
        self.count: int = circle.count
        self.value: Interval = circle.diameter

    @property
    def key(self) -> tuple[float, int, float]:
        return round(self.diameter, 2), self.count, round(self.turn, 3)


def bolt_circle_drawings(result: Result, leading: str) -> Iterator[Drawing | Undrawn]:
    """One drawing for each wheel end that is not like another."""
    ends = [end for end in result.fit.ends if end.hub is not None or end.wheel is not None or end.plates]
    for group in alike(ends, lambda end: (end.hub, end.wheel, *end.plates)):
        yield _draw(group[0], places_of(group), result, leading)


def _draw(end: WheelEnd, places: tuple[str, ...], result: Result, leading: str) -> Drawing | Undrawn:
    slug, title = f"{KIND}-{places[0]}", title_of(TITLE, places)
    rings, missing = _rings(end)
    if not rings:
        return Undrawn(KIND, slug, title, tuple(missing))
    rounds = _rounds(end)
    across = max(*(ring.diameter for ring in rings), *(value.mid for *_, value, _ in rounds), 0.0) + 2 * ROUND
    scale = scale_that_fits(across, across, ROOM * 0.84, 100.0)
    sheet = Sheet(slug, title, result.build.name, scale, leading)
    sheet.note("Seen from outboard. Full rings: studs; open rings: holes.")
    top = sheet.skip(1.0)
    centre = (WIDTH / 2, top + across * scale / 2)
    _rounds_drawn(sheet.canvas, rounds, centre, scale)
    for ring in rings:
        _ring(sheet.canvas, ring, centre, scale)
    _clashes(sheet.canvas, result, end, rings, centre, scale)
    angle = _clock(sheet, end, rings, centre, scale)
    sheet.skip(across * scale)
    _dimensions(sheet, rings, rounds, centre, scale)
    found = findings_of(result, SLUGS, places)
    tell(sheet, found)
    if angle:
        sheet.note(angle)
    sheet.notes((f"{name} is not on the list: not drawn." for name in missing), UNKNOWN)
    sheet.scale_bar()
    parts = tuple(dict.fromkeys([ring.part.id for ring in rings] + [part.id for part, *_ in rounds]))
    caption = "Seen from outboard: " + ", ".join(_ring_words(ring, leading) for ring in rings)
    caption += "; " + ", ".join(_round_words(one, leading) for one in rounds) if rounds else ""
    caption += f". {angle} {said(found, leading)}"
    return Drawing(KIND, slug, title, caption, sheet, parts, places)


# ---- what there is -----------------------------------------------------------------------------


def _rings(end: WheelEnd) -> tuple[list[Ring], list[str]]:
    """The circles from the hub outwards; a part's holes stand on the studs that they go over."""
    rings: list[Ring] = []
    missing: list[str] = []
    turn, studs = TOP, None
    for part, field, stands in _faces(end):
        circle = getattr(part, field)
        if not circle.known or circle.count is None:
            missing.append(f"{part.id}.{field}")
            continue
        if part.kind == "adapter" and field == "wheel_circle" and rings:
            last = rings[-1]
            turn += best_clocking(last.diameter, last.count, circle.diameter.mid, circle.count)[0]
        thread = _stud_size(part) if stands else studs
        studs = thread if stands else studs
        hole = (thread or HOLE - OVER) + (0.0 if stands else OVER)
        rings.append(Ring(part, field, turn, stands, hole))
    return rings, missing


def _faces(end: WheelEnd) -> Iterator[tuple[Any, str, bool]]:
    """(part, field, whether studs stand on it) from the hub outwards."""
    if end.hub is not None:
        yield end.hub, "bolt_circle", not end.hub.has("hole_thread")
    for plate in end.plates:
        if plate.kind == "adapter":
            yield plate, "hub_circle", False
            yield plate, "wheel_circle", True
        else:
            yield plate, "bolt_circle", False
    if end.wheel is not None:
        yield end.wheel, "bolt_circle", False


def _stud_size(part: Any) -> float | None:
    for field in ("stud_thread", "hole_thread"):
        if field in part.fields and part.has(field) and getattr(part, field).known:
            return float(getattr(part, field).diameter.mid)
    return None


def _rounds(end: WheelEnd) -> list[tuple[Any, str, Interval, bool]]:
    """(part, what, diameter, whether it is a bore) of pilots and bores that are known."""
    asked = [(end.hub, "pilot", False), (end.hub, "cap_diameter", False), (end.wheel, "center_bore", True)]
    for plate in end.plates:
        asked += [(plate, "hub_bore" if plate.kind == "adapter" else "bore", True), (plate, "wheel_pilot", False)]
    return [
        (part, field, getattr(part, field), bore)
        for part, field, bore in asked
        if part is not None and field in part.fields and part.has(field) and getattr(part, field).known
    ]


# ---- shapes ------------------------------------------------------------------------------------


def _rounds_drawn(canvas: Canvas, rounds: list[Any], centre: tuple[float, float], scale: float) -> None:
    for part, field, value, bore in sorted(rounds, key=lambda one: -one[2].mid):
        style = "hidden" if field == "cap_diameter" else "outline" if bore else "medium"
        fill = SOLID if field in ("pilot", "wheel_pilot") else "none"
        canvas.circle(centre, value.mid / 2 * scale, style, fill, part.id, field)
    canvas.line((centre[0] - 3, centre[1]), (centre[0] + 3, centre[1]), "fine")
    canvas.line((centre[0], centre[1] - 3), (centre[0], centre[1] + 3), "fine")


def _ring(canvas: Canvas, ring: Ring, centre: tuple[float, float], scale: float) -> None:
    canvas.circle(centre, ring.diameter / 2 * scale, "centre", "none", ring.part.id, ring.field)
    for x, y in hole_coordinates(ring.diameter * scale, ring.count, ring.turn):
        place = (centre[0] + x, centre[1] - y)
        style, fill = ("outline", SOLID) if ring.studs else ("medium", "none")
        canvas.circle(place, ring.hole / 2 * scale, style, fill, ring.part.id, "stud" if ring.studs else "hole")


def _clashes(
    canvas: Canvas, result: Result, end: WheelEnd, rings: list[Ring], centre: tuple[float, float], scale: float
) -> None:
    """A hole that does not lie on its stud is struck out."""
    for seat in result.fit.bindings(Seat):
        if seat.end is not end or not failing(result, "bolt-circle-mismatch", end.at[0]):
            continue
        pair = [ring for ring in rings if ring.part in (seat.inner, seat.outer)]
        inner = next((ring for ring in pair if ring.field == seat.inner_circle_field), None)
        outer = next((r for r in pair if r.part is seat.outer and r.field == seat.outer_circle_field), None)
        if inner is None or outer is None or (inner.diameter, inner.count) == (outer.diameter, outer.count):
            continue
        for x, y in hole_coordinates(outer.diameter * scale, outer.count, outer.turn):
            place = (centre[0] + x, centre[1] - y)
            canvas.circle(place, outer.hole / 2 * scale, "trouble", "none", outer.part.id, "mismatch")


def _clock(sheet: Sheet, end: WheelEnd, rings: list[Ring], centre: tuple[float, float], scale: float) -> str:
    """The angle between the two circles of an adapter, drawn and told."""
    for plate in end.plates:
        two = [ring for ring in rings if ring.part is plate]
        if len(two) < 2:
            continue
        first, second = two
        angle, apart = best_clocking(first.diameter, first.count, second.diameter, second.count)
        reach = (second.diameter / 2 + ROUND * 0.6) * scale
        for turn in (first.turn, first.turn + angle):
            way = math.cos(math.radians(turn)), -math.sin(math.radians(turn))
            end_point = (centre[0] + way[0] * reach, centre[1] + way[1] * reach)
            sheet.canvas.line(centre, end_point, "fine")
        sheet.canvas.arc(centre, reach, first.turn, first.turn + angle)
        middle = math.radians(first.turn + angle / 2)
        at = (centre[0] + math.cos(middle) * reach, centre[1] - math.sin(middle) * reach - 1.2)
        texts = Texts(sheet.canvas, (LEFT, 0.0, RIGHT, 1e4))
        texts.put(f"{angle:g} deg", [(at, "middle")])
        words = show_both(Interval.exact(apart, "mm"), sheet.leading)
        return (
            f"Best turn of the two circles of the {name_of(plate)} against each other: {angle:g} deg; the nearest "
            f"holes are then {words} apart, centre to centre."
        )
    return ""


def _dimensions(
    sheet: Sheet, rings: list[Ring], rounds: list[Any], centre: tuple[float, float], scale: float
) -> None:
    rows = Rows(sheet)
    for _, field, value, _ in sorted(rounds, key=lambda one: one[2].mid):
        half = value.mid / 2 * scale
        words = f"{_short(field)} {show_both(value, sheet.leading)}"
        rows.add(centre[0] - half, centre[0] + half, words, (centre[1], centre[1]))
    told = set()
    for ring in sorted(rings, key=lambda one: one.diameter):
        if ring.key in told:
            continue
        told.add(ring.key)
        half = ring.diameter / 2 * scale
        names = dict.fromkeys(one.part.kind for one in rings if one.key == ring.key)
        words = f"{', '.join(names)}: {ring.count} on {show_both(ring.value, sheet.leading)}"
        rows.add(centre[0] - half, centre[0] + half, words, (centre[1], centre[1]))
    rows.draw()


def _short(field: str) -> str:
    names = {
        "center_bore": "wheel bore",
        "hub_bore": "plate bore",
        "cap_diameter": "cap",
        "wheel_pilot": "plate pilot",
    }
    return names.get(field, field.replace("_", " "))


def _ring_words(ring: Ring, leading: str) -> str:
    what = "studs" if ring.studs else "holes"
    return f"{ring.count} {what} of the {name_of(ring.part)} on {show_both(ring.value, leading)}"


def _round_words(one: Any, leading: str) -> str:
    return f"{_short(one[1])} {show_both(one[2], leading)}"
