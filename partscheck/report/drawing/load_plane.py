"""Where a wheel's load stands between the two bearings of its hub, and what each of them carries."""

from __future__ import annotations

from partscheck.build.bearing_planes import bearing_plane
from partscheck.build.wheel_data import load_plane
from partscheck.formulas.bearing import radial_split
from partscheck.notation.interval import Interval
from partscheck.notation.measure import show_both
from partscheck.report.drawing.canvas import SOLID
from partscheck.report.drawing.dimensions import Flags, Rows
from partscheck.report.drawing.drawing import Drawing, Undrawn
from partscheck.report.drawing.fasteners import Axis
from partscheck.report.drawing.sheet import LEFT, ROOM, Sheet, scale_that_fits
from partscheck.report.drawing.values import (
    Size,
    alike,
    failing,
    findings_of,
    not_known,
    places_of,
    said,
    tell,
    title_of,
)

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import Any

    from partscheck.build.places import WheelEnd
    from partscheck.engine import Result
    from partscheck.rules.findings import Finding

KIND, TITLE = "load-plane", "Load plane and bearings"
SLUGS = ("load-outboard-of-bearings", "bearing-life", "bearing-static")
ARROW = 26.0  # mm of paper: the wheel's load
SHAFT, RACE = 14.0, 26.0  # mm off the axis: half of a spindle and of a bearing, for the look
RIM_SHOWN = 62.0  # mm off the axis that the rim's lower edge stands at: the drawing is cut there
BESIDE = 22.0  # mm of axle beyond all that
LONGEST = 46.0  # mm of paper for a reaction
NOTHING = 0.005  # mm: less is told as nothing, whatever the sums left over


def load_plane_drawings(result: Result, leading: str) -> Iterator[Drawing | Undrawn]:
    """One drawing for each wheel end that is not like another and has hub and wheel."""
    ends = [end for end in result.fit.ends if end.hub is not None and end.wheel is not None]
    for group in alike(ends, _around):
        yield _draw(max(group, key=lambda end: end.corner_load.lo), places_of(group), result, leading)


def _around(end: WheelEnd) -> list[Any]:
    return [end.hub, end.wheel, end.part("inner-bearing"), end.part("outer-bearing"), *end.plates]


def _draw(end: WheelEnd, places: tuple[str, ...], result: Result, leading: str) -> Drawing | Undrawn:
    slug, title = f"{KIND}-{places[0]}", title_of(TITLE, places)
    plane = Size(load_plane(end), 0.0)
    inner, outer = Size(bearing_plane(end, "inner"), 50.0), Size(bearing_plane(end, "outer"), -15.0)
    missing = _missing(end, plane, inner, outer)
    if not plane.known or not (inner.known or outer.known):
        return Undrawn(KIND, slug, title, missing)
    view = _Plane(end, result, leading, plane, inner, outer)
    view.places = places
    return view.drawing(slug, title, missing)


def _missing(end: WheelEnd, plane: Size, inner: Size, outer: Size) -> tuple[str, ...]:
    names = []
    if not plane.known:
        names += [f"{plate.id}.thickness" for plate in end.plates if not plate.has("thickness")]
        names += [] if end.wheel.has("offset") or end.wheel.has("backspace") else [f"{end.wheel.id}.offset"]
    for which, size in (("inner", inner), ("outer", outer)):
        names += [] if size.known else [f"{end.hub.id}.{which}_bearing_to_face"]
    return tuple(names)


class _Plane:
    """The drawing of one wheel end.  On the sheet inboard is to the left: places count outboard."""

    def __init__(self, end: WheelEnd, result: Result, leading: str, plane: Size, inner: Size, outer: Size) -> None:
        self.end, self.result, self.leading = end, result, leading
        self.plane, self.inner, self.outer = plane, inner, outer
        self.places = end.at
        self.load = end.corner_load
        rim = end.wheel.size.width if end.wheel.has("size") else Interval.unknown("mm")
        self.rim = Size(rim, 150.0)
        self.outside = bool(failing(result, "load-outboard-of-bearings", end.at[0]))
        self.shares = self._split()

    def _split(self) -> tuple[float, float] | None:
        """Share of the wheel's load on the inner and on the outer bearing, at the middle of every value."""
        if not (self.inner.known and self.outer.known) or self.inner.at <= self.outer.at:
            return None
        return radial_split(1.0, self.plane.at, self.inner.at, self.outer.at)

    def drawing(self, slug: str, title: str, missing: tuple[str, ...]) -> Drawing:
        centre, half = -self.plane.at, self.rim.at / 2
        places = [0.0, -self.inner.at, -self.outer.at, centre - half, centre + half, self._stack() + 6.0]
        left, right = BESIDE - min(places), BESIDE + max(places)
        scale = scale_that_fits(left + right, 1.0)
        sheet = Sheet(slug, title, self.result.build.name, scale, self.leading)
        worst = f" Loads of {self.end.at[0]}." if len(self.places) > len(self.end.at) else ""
        sheet.note(
            f"Cut along the axle, inboard to the left, and to scale that way only. Arrows: the loads.{worst}"
        )
        flags = Flags()
        axis = Axis(sheet.canvas, scale, LEFT + (ROOM - (left + right) * scale) / 2 + left * scale, 0.0)
        self._labels(flags, axis)
        top = sheet.y
        view = sheet.skip(flags.height())
        rim_y = view + 3.0
        axis.y0 = rim_y + RIM_SHOWN * scale
        self._rim(axis, rim_y)
        self._hub(axis, left, right)
        self._bearings(axis)
        flags.draw(sheet.canvas, top, view)
        sheet.skip(axis.y0 - view + RACE * scale + 2.0)
        longest = self._reactions(sheet, axis)
        sheet.skip(longest + 2.0)
        self._dimensions(sheet, axis)
        found = findings_of(self.result, SLUGS, self.places)
        tell(sheet, found)
        not_known(sheet, missing)
        sheet.scale_bar()
        shown = (self.end.hub, *self.end.plates, self.end.wheel, self.end.part("inner-bearing"))
        ids = tuple(part.id for part in (*shown, self.end.part("outer-bearing")) if part is not None)
        return Drawing(KIND, slug, title, self._caption(found), sheet, ids, self.places)

    def _stack(self) -> float:
        return Size(self.end.stack_thickness, 25.0).at

    # ---- shapes --------------------------------------------------------------------------------

    def _rim(self, axis: Axis, rim_y: float) -> None:
        """The rim's lower edge, cut off, and the wheel's disc down to its mounting face."""
        part, scale = self.end.wheel.id, axis.scale
        centre, half = -self.plane.at, self.rim.at / 2
        style = "outline" if self.rim.known else "unknown"
        low = (axis.y0 - rim_y) / scale
        axis.rect((centre - half, centre + half), (low, low - 4.0), style, "metal-close", part, "rim")
        mount = self._stack()
        axis.rect((mount, mount + 6.0), (low - 4.0, SHAFT + 2.0), "medium", "metal-close", part, "disc")
        axis.line(
            (centre, low + 3.0 / scale),
            (centre, -RACE - 4.0),
            "trouble" if self.outside else "centre",
            part,
            "load-plane",
        )

    def _hub(self, axis: Axis, left: float, right: float) -> None:
        hub = self.end.hub.id
        inboard, outboard = (
            max(self.inner.at, self.outer.at) + 12.0,
            max(-self.outer.at, -self.inner.at, -6.0) + 10.0,
        )
        axis.line((-left, 0), (right, 0), "centre")
        axis.rect((-left + 6.0, outboard), (SHAFT * 0.8, -SHAFT * 0.8), "medium", SOLID)
        for side in (1, -1):
            axis.rect((-inboard, outboard), (side * SHAFT * 0.8, side * RACE), "outline", "metal", hub, "hub")
        axis.rect((-10.0, 0.0), (RACE, RACE + 30.0), "outline", "metal", hub, "flange")
        axis.line((0.0, RACE), (0.0, RACE + 32.0), "outline", hub, "seating-face")
        x = 0.0
        for plate in self.end.plates:
            thick = Size(plate.thickness, 25.0)
            style = "outline" if thick.known else "unknown"
            axis.rect((x, x + thick.at), (RACE, RACE + 30.0), style, "metal-turned", plate.id, "plate")
            x += thick.at

    def _bearings(self, axis: Axis) -> None:
        """A box with a cross at each load centre, as bearings are marked on drawings."""
        for which, size in (("inner", self.inner), ("outer", self.outer)):
            part = self.end.part(f"{which}-bearing") or self.end.hub
            style = "outline" if size.known else "unknown"
            for side in (1, -1):
                low, high = side * SHAFT * 0.8, side * RACE * 0.92
                axis.rect((-size.at - 7, -size.at + 7), (low, high), style, "#fff", part.id, f"{which}-bearing")
                axis.line((-size.at - 7, low), (-size.at + 7, high))
                axis.line((-size.at - 7, high), (-size.at + 7, low))
            axis.line((-size.at, RACE + 2), (-size.at, -RACE - 3), "centre", part.id, f"{which}-load-centre")

    def _reactions(self, sheet: Sheet, axis: Axis) -> float:
        """Arrows under the bearings, and the wheel's load; the longest, mm of paper."""
        base = sheet.y
        most = max([1.0, *(abs(share) for share in self.shares or ())])
        size = min(ARROW, LONGEST / most)
        self._arrow(axis, -self.plane.at, base, size, 1.0, self.end.wheel.id, "load")
        if self.shares is None:
            return size
        for which, place, share in (("inner", self.inner, self.shares[0]), ("outer", self.outer, self.shares[1])):
            self._arrow(axis, -place.at, base, size, -share, self.end.hub.id, f"{which}-reaction")
        return size * most

    def _arrow(
        self, axis: Axis, along: float, base: float, size: float, share: float, part: str, face: str
    ) -> None:
        """Upward for the road (share above 0), downward for what a bearing presses back with."""
        x, long = axis.x(along), abs(share) * size
        wrong = face.endswith("reaction") and share > 0
        style = "trouble" if wrong or (self.outside and face != "load") else "outline"
        canvas = axis.canvas
        canvas.line((x, base), (x, base + long), style, part, face)
        if share > 0:
            canvas.arrow((x, base), (0, -1), style, 3.0)
        else:
            canvas.arrow((x, base + long), (0, 1), style, 3.0)

    # ---- words ---------------------------------------------------------------------------------

    def _labels(self, flags: Flags, axis: Axis) -> None:
        mark = "! " if self.outside else ""
        style = "trouble-text" if self.outside else ""
        flags.add((axis.x(-self.plane.at), 0.0), f"{mark}wheel: {self._of(1.0)}", style, self.end.wheel.id)
        height = 3.0 + (RIM_SHOWN - RACE - 2.0) * axis.scale
        for which, place, number in (("inner", self.inner, 0), ("outer", self.outer, 1)):
            words = f"{which}: ?" if self.shares is None else f"{which}: {self._carried(self.shares[number])}"
            part = self.end.part(f"{which}-bearing") or self.end.hub
            flags.add(
                (axis.x(-place.at), height),
                words,
                style if self.shares is not None and self.shares[number] < 0 else "",
                part.id,
            )

    def _carried(self, share: float) -> str:
        return self._of(abs(share)) + (", levered back" if share < 0 else "")

    def _of(self, share: float) -> str:
        """A share of the wheel's load in words; in parts of it where the load is not known."""
        if self.load.known:
            return show_both(Interval.exact(self.load.hi * share, "N"), self.leading)
        return f"{share * 100:.0f} % of its load"

    def _dimensions(self, sheet: Sheet, axis: Axis) -> None:
        rows, y = Rows(sheet), axis.y(-RACE - 4.0)
        for name, place in (("outer bearing", self.outer), ("inner bearing", self.inner)):
            words = f"{name} {from_hub_face(place, self.leading)}"
            rows.add(axis.x(0.0), axis.x(-place.at), words, (axis.y(RACE), y))
        words = f"load {from_hub_face(self.plane, self.leading)}"
        style = "trouble-fine" if self.outside else "fine"
        rows.add(axis.x(0.0), axis.x(-self.plane.at), words, (axis.y(RACE), y), style)
        rows.draw()

    def _caption(self, found: list[Finding]) -> str:
        load, inner, outer = (from_hub_face(one, self.leading) for one in (self.plane, self.inner, self.outer))
        words = f"Places from the hub's seating face: the wheel's load {load}, the inner bearing {inner},"
        words += f" the outer {outer}."
        if self.shares is not None:
            words += f" Of {self._of(1.0)} the inner bearing carries {self._carried(self.shares[0])},"
            words += f" the outer {self._carried(self.shares[1])}."
        return words + " " + said(found, self.leading)


def from_hub_face(place: Size, leading: str) -> str:
    """A place from the seating face in words: "0.45 in (11.4 mm) outboard"."""
    if not place.known:
        return "?"
    value = place.value
    if max(abs(value.lo), abs(value.hi)) < NOTHING:
        return "on the hub face"
    if value.lo > -NOTHING or value.hi < NOTHING:
        way = "inboard" if value.hi > NOTHING else "outboard"
        return f"{show_both(abs(Interval(value.lo, value.hi, 'mm')), leading)} {way}"
    out, inside = (show_both(Interval.exact(abs(end), "mm"), leading) for end in (value.lo, value.hi))
    return f"{out} outboard to {inside} inboard"
