"""The trailer from behind: track, tires, frame and fenders, and the gaps between them."""

from __future__ import annotations

from partscheck.build.tire_width import inner_sidewall, section_on_wheel, width_over_tires
from partscheck.build.wheel_data import hub_face_distance, load_plane, loaded_radius, overall_diameter
from partscheck.notation.interval import Interval
from partscheck.report.drawing.canvas import SOLID
from partscheck.report.drawing.dimensions import Flags, Rows
from partscheck.report.drawing.drawing import Drawing, Undrawn
from partscheck.report.drawing.fasteners import Axis
from partscheck.report.drawing.sheet import ROOM, WIDTH, Sheet, scale_that_fits
from partscheck.report.drawing.values import Size, amount, failing, findings_of, not_known, said, tell
from partscheck.rules.findings import MEASURE
from partscheck.rules.message import name_of

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import Any

    from partscheck.build.places import WheelEnd
    from partscheck.engine import Result
    from partscheck.rules.findings import Finding

KIND, TITLE = "rear-view", "From behind"
SLUGS = (
    "tire-frame-clearance", "tire-arm-clearance", "tire-fender-clearance", "bump-clearance", "width-over-legal",
    "width-inconsistent",
)  # fmt: skip
TIRE_WIDE, TIRE_HIGH = 200.0, 650.0  # mm: a tire of no known size, for the look
FRAME_HIGH = 100.0


def rear_view_drawings(result: Result, leading: str) -> Iterator[Drawing | Undrawn]:
    """One drawing, of the first axle; none where the list says nothing of the trailer's width."""
    ends = {at: end for end in result.fit.ends for at in end.at}
    pair = [ends.get("1L"), ends.get("1R")]
    both = [end for end in pair if end is not None and end.wheel is not None]
    if not both:
        yield Undrawn(KIND, KIND, TITLE, ("wheel.size", "layout.hub_face_distance"))
        return
    one = both[0]
    missing = [] if hub_face_distance(one).known else ["layout.hub_face_distance"]
    if not load_plane(one).known:
        missing.append(f"{one.wheel.id}.offset")
        missing += [f"{plate.id}.thickness" for plate in one.plates if not plate.has("thickness")]
    if missing:
        yield Undrawn(KIND, KIND, TITLE, tuple(missing))
        return
    yield _View(both[0], both[-1], result, leading).drawing()


class _View:
    """Places count from the centre line, right positive, and up from the ground, mm."""

    def __init__(self, left: WheelEnd, right: WheelEnd, result: Result, leading: str) -> None:
        self.left, self.right, self.result, self.leading = left, right, result, leading
        self.layout = result.build.layout
        self.faces = Size(hub_face_distance(left), 1500.0)
        self.frame = Size(self.layout.frame_width, 1100.0)
        self.clear = Size(self.layout.ground_clearance, 250.0)
        self.unknown: list[str] = []
        self.radius = self._radius(left)
        for size, name in ((self.frame, "frame_width"), (self.clear, "ground_clearance")):
            if not size.known:
                self.unknown.append(f"layout.{name}")

    def _radius(self, end: WheelEnd) -> float:
        if end.tire is not None:
            radius = Size(loaded_radius(end.tire, end), 0.0)
            if radius.known:
                return radius.at
        self.unknown.append("tire.size")
        return TIRE_HIGH / 2

    def _tire(self, end: WheelEnd) -> tuple[Size, Size]:
        """Width and diameter."""
        unknown = Interval.unknown("mm")
        tire = end.tire
        wide = unknown if tire is None else section_on_wheel(tire, end.wheel, end)
        high = unknown if tire is None else overall_diameter(tire)
        return Size(wide, TIRE_WIDE), Size(high, TIRE_HIGH)

    @property
    def half(self) -> float:
        """Half of all that is drawn, across."""
        reach = [self.faces.at / 2, self.frame.at / 2, Size(self.layout.overall_width, 0.0).at / 2]
        for end in (self.left, self.right):
            centre = self.faces.at / 2 - load_plane(end).mid
            reach.append(abs(centre) + max(self._tire(end)[0].at, self._fender_width(end)) / 2)
            reach.append(self.faces.at / 2 + Size(end.stack_thickness, 25.0).at)
        return max(reach) + 40.0

    def _fender_width(self, end: WheelEnd) -> float:
        fender = end.part("fender")
        return 0.0 if fender is None else Size(fender.inside_width, self._tire(end)[0].at + 80.0).at

    def _fender_top(self, end: WheelEnd) -> float:
        """Of its inside, over the ground."""
        fender = end.part("fender")
        return 0.0 if fender is None else self.radius + Size(fender.height, self._tire(end)[1].at / 2 + 60.0).at

    def _tight(self, end: WheelEnd) -> tuple[Finding | None, Finding | None]:
        """What is wrong with the fender's room beside the tire, and over it."""
        found = findings_of(self.result, ("tire-fender-clearance", "bump-clearance"), end.at)
        blamed = {
            one.check.blame[1]: one
            for one in reversed(found)
            if one.verdict != MEASURE and one.check.blame is not None
        }
        return blamed.get("inside_width"), blamed.get("height")

    @property
    def high(self) -> float:
        tops = [self._fender_top(end) for end in (self.left, self.right)]
        top: float = max([self._tire(self.left)[1].at, self.clear.at + FRAME_HIGH, self.radius, *tops])
        return top + 60.0

    def drawing(self) -> Drawing:
        scale = scale_that_fits(2 * self.half, self.high, ROOM, 70.0)
        sheet = Sheet(KIND, TITLE, self.result.build.name, scale, self.leading)
        axles = self.result.fit.axles
        sheet.note(
            "Seen from behind, left is left."
            + (" The front axle; those behind it are not drawn." if axles > 1 else "")
        )
        flags = Flags()
        axis = Axis(sheet.canvas, scale, WIDTH / 2, 0.0)
        self._labels(flags, axis)
        top = sheet.y
        view = sheet.skip(flags.height())
        axis.y0 = view + self.high * scale
        self._body(axis)
        for end, side in ((self.left, -1.0), (self.right, 1.0)):
            self._wheel(axis, end, side)
            self._gap(axis, end, side)
        self._ground(axis)
        axis.line((0.0, -30.0), (0.0, self.high - 20.0), "centre")
        flags.draw(sheet.canvas, top, view)
        sheet.skip(self.high * scale + 1.0)
        self._dimensions(sheet, axis)
        found = findings_of(self.result, SLUGS)
        tell(sheet, found)
        not_known(sheet, self.unknown)
        sheet.scale_bar()
        parts = (
            self.left.wheel,
            self.left.tire,
            self.right.wheel,
            self.right.tire,
            self.left.part("fender"),
            *self.left.plates,
        )
        ids = tuple(dict.fromkeys(part.id for part in parts if part is not None))
        return Drawing(KIND, KIND, TITLE, self._caption(), sheet, (*ids, "layout"), ("1L", "1R"))

    # ---- shapes ----------------------------------------------------------------------------------

    def _ground(self, axis: Axis) -> None:
        axis.line((-self.half, 0), (self.half, 0), "outline")
        axis.rect((-self.half, self.half), (0.0, -1.2 / axis.scale), "none", "metal-close")

    def _body(self, axis: Axis) -> None:
        known = self.frame.known and self.clear.known
        half, low = self.frame.at / 2, self.clear.at
        style = "outline" if known else "unknown"
        axis.rect((-half, half), (low, low + FRAME_HIGH), style, "#fff", "layout", "frame")
        faces = self.faces.at / 2
        axis.rect((-faces, faces), (self.radius - 25.0, self.radius + 25.0), "medium", SOLID, "layout", "axle")
        for side in (-1, 1):
            axis.line(
                (side * faces, self.radius - 80.0),
                (side * faces, self.radius + 80.0),
                "outline",
                "layout",
                "hub-face",
            )

    def _wheel(self, axis: Axis, end: WheelEnd, side: float) -> None:
        wide, high = self._tire(end)
        centre = side * (self.faces.at / 2 - load_plane(end).mid)
        style = "outline" if wide.known and high.known else "unknown"
        half, top = wide.at / 2, self.radius + high.at / 2
        corner = min(35.0, half * 0.5)
        points = [
            (centre - half, corner), (centre - half + corner, 0.0), (centre + half - corner, 0.0),
            (centre + half, corner), (centre + half, top - corner), (centre + half - corner, top),
            (centre - half + corner, top), (centre - half, top - corner),
        ]  # fmt: skip
        name = (end.tire or end.wheel).id
        axis.polygon(points, style, "#fff", name, "tire")
        axis.line((centre, -30.0), (centre, top + 30.0), "centre", end.wheel.id, "load-plane")
        rim = end.wheel.size.diameter.mid / 2 if end.wheel.has("size") else high.at * 0.29
        for off in (self.radius - rim, self.radius + rim):
            axis.line((centre - half * 0.8, off), (centre + half * 0.8, off), "hidden", end.wheel.id, "rim")
        face = side * self.faces.at / 2
        for plate in end.plates:
            thick = Size(plate.thickness, 25.0).at * side
            axis.rect(
                (face, face + thick),
                (self.radius - 75.0, self.radius + 75.0),
                "medium",
                "metal",
                plate.id,
                "plate",
            )
            face += thick
        self._fender(axis, end, side, centre)

    def _fender(self, axis: Axis, end: WheelEnd, side: float, centre: float) -> None:
        fender = end.part("fender")
        if fender is None:
            return
        half, top = self._fender_width(end) / 2, self._fender_top(end)
        lost = [name for name in ("inside_width", "height") if not Size(getattr(fender, name), 0.0).known]
        self.unknown += [f"{fender.id}.{name}" for name in lost]
        corners = ((-half, self.radius), (-half, top), (half, top), (half, self.radius))
        points = [axis.at(centre + x, y) for x, y in corners]
        axis.canvas.polyline(points, "unknown" if lost else "outline", fender.id, "fender")
        narrow, low = self._tight(end)
        for tight, pairs in ((narrow, ((0, 1), (2, 3))), (low, ((1, 2),))):
            for first, last in pairs if tight is not None else ():
                axis.canvas.line(points[first], points[last], "trouble", fender.id, "tight")

    def _gap(self, axis: Axis, end: WheelEnd, side: float) -> None:
        """What the tire has taken of the frame's room, hatched."""
        if not (self.frame.known and failing(self.result, "tire-frame-clearance", end.at[0])):
            return
        inner = side * (self.faces.at / 2 - inner_sidewall(end).mid)
        frame = side * self.frame.at / 2
        overlap = (inner - frame) * side < 0
        face = "overlap" if overlap else "gap"
        span = (self.clear.at, self.clear.at + FRAME_HIGH)
        axis.rect((frame, inner), span, "trouble", "trouble", (end.tire or end.wheel).id, face)

    # ---- words -----------------------------------------------------------------------------------

    def _labels(self, flags: Flags, axis: Axis) -> None:
        tall, known = self.high * axis.scale, self.frame.known and self.clear.known
        flags.add(
            (axis.x(self.frame.at * 0.2), tall - (self.clear.at + FRAME_HIGH) * axis.scale),
            "frame" if known else "frame ?",
        )
        for end, side in ((self.left, -1.0), (self.right, 1.0)):
            part: Any = end.tire or end.wheel
            centre = side * (self.faces.at / 2 - load_plane(end).mid)
            top = tall - (self.radius + self._tire(end)[1].at / 2) * axis.scale
            at = (axis.x(centre + side * self._tire(end)[0].at * 0.3), top + 2.0)
            flags.add(at, name_of(part), part=part.id)
            finding = failing(self.result, "tire-frame-clearance", end.at[0])
            if finding is not None and side < 0:
                have = amount(finding.check.have, self.leading)
                words = f"! {have} overlap" if finding.verdict == "stop" else f"! only {have}"
                low = tall - (self.clear.at + FRAME_HIGH * 0.7) * axis.scale
                flags.add((axis.x(side * self.frame.at / 2), low), words, "trouble-text")

        self._fender_labels(flags, axis, tall)

    def _fender_labels(self, flags: Flags, axis: Axis, tall: float) -> None:
        """The fender's width on the right, what is wrong with its room on the left."""
        fender = self.right.part("fender")
        if fender is not None:
            x = self.faces.at / 2 - load_plane(self.right).mid - self._fender_width(self.right) * 0.4
            wide = Size(fender.inside_width, 0.0)
            words = f", {wide.words(self.leading)} inside" if wide.known else " ?"
            at = axis.x(x), tall - self._fender_top(self.right) * axis.scale
            flags.add(at, f"{name_of(fender)}{words}", part=fender.id)
        if self.left.part("fender") is None:
            return
        half, top = self._fender_width(self.left) / 2, self._fender_top(self.left)
        centre = load_plane(self.left).mid - self.faces.at / 2
        narrow, low = self._tight(self.left)
        beside = (narrow, centre - half, top * 0.8, "beside the tire")
        over = (low, centre + half / 2, top, "over the tire")
        for finding, x, y, where in (beside, over):
            have = None if finding is None else finding.check.have
            if have is not None:
                words = f"{'' if have.lo < 0 else 'only '}{amount(have, self.leading)}"
                words = f"! {words} {'too tight' if have.lo < 0 else 'left'} {where}"
                flags.add((axis.x(x), tall - y * axis.scale), words, "trouble-text")

    def _dimensions(self, sheet: Sheet, axis: Axis) -> None:
        rows, ground = Rows(sheet), axis.y(0.0)
        leading, x = self.leading, axis.x
        inner = Size(inner_sidewall(self.right), 0.0) if self.right.tire is not None else None
        if inner is not None and inner.known and self.frame.known:
            gap = (hub_face_distance(self.right) - self.layout.frame_width) * 0.5 - inner_sidewall(self.right)
            start = axis.y(self.clear.at)
            places = (x(self.frame.at / 2), x(self.faces.at / 2 - inner.at))
            rows.add(*places, f"gap {Size(gap, 0.0).words(leading)}", (start, ground))
        plane = load_plane(self.left)
        track = Size(hub_face_distance(self.left) - plane - load_plane(self.right), 0.0)
        over = Size(width_over_tires(self.left), 0.0) if self.left.tire is not None else track
        spans = [
            ("frame", self.frame, axis.y(self.clear.at)),
            ("hub faces", self.faces, axis.y(self.radius - 80.0)),
            ("track", track, ground),
        ]
        spans += [("over tires", over, ground)] if over.known else []
        for name, size, start in spans:
            rows.add(x(-size.at / 2), x(size.at / 2), f"{name} {size.words(leading)}", (start, start))
        wide = Size(self.layout.overall_width, 0.0)
        if wide.known:
            words = f"overall, as typed {wide.words(leading)}"
            rows.add(x(-wide.at / 2), x(wide.at / 2), words, (ground, ground))
        rows.draw()

    def _caption(self) -> str:
        words = f"From behind. Hub faces {self.faces.words(self.leading)} apart"
        words += f", frame {self.frame.words(self.leading)} wide"
        if self.left.tire is not None:
            words += f", {Size(width_over_tires(self.left), 0.0).words(self.leading)} over the tires"
        found = findings_of(self.result, SLUGS)
        return f"{words}. {said(found, self.leading)}".replace("?", "an unknown size")
