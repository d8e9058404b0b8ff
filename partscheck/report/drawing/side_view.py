"""The trailer from the side: ball, axles, loads, and what ball and axles carry case by case."""

from __future__ import annotations

from contextlib import nullcontext

from partscheck.build.wheel_data import loaded_radius, overall_diameter
from partscheck.notation.interval import Interval
from partscheck.notation.measure import show_both
from partscheck.notation.percent import show_percent
from partscheck.report.drawing.canvas import SOLID
from partscheck.report.drawing.dimensions import Rows, Texts
from partscheck.report.drawing.drawing import Drawing, Undrawn
from partscheck.report.drawing.fasteners import Axis
from partscheck.report.drawing.sheet import LEFT, RIGHT, ROOM, TROUBLE, UNKNOWN, Sheet, scale_that_fits
from partscheck.report.drawing.values import Size, findings_of, not_known, said, tell
from partscheck.rules.findings import CAUTION, STOP
from partscheck.uses.balance import DECLARED, LOADS, SCALE, BalanceRow, LoadEffect, balance

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterator

    from partscheck.engine import Result
    from partscheck.rules.findings import Finding

KIND, TITLE = "side-view", "From the side"
SLUGS = (
    "tongue-share",
    "tongue-over-rating",
    "axle-over-rating",
    "rack-unloads-tongue",
    "hitch-height",
    "rear-drags",
)
WHEEL = 650.0  # mm: a tire of no known size, for the look
TALLEST, LEAST = 26.0, 5.0  # mm of paper: the arrow of the heaviest load, and of the lightest
BEAM = 70.0  # mm: the frame, for the look
RACK_BEYOND = 60.0  # mm that a rack is drawn on behind the middle of its load, for the look
NAMES = {LOADS: "all loads", DECLARED: "as declared", SCALE: "off the scale"}


def side_view_drawings(result: Result, leading: str) -> Iterator[Drawing | Undrawn]:
    """One drawing; it needs to know where the axle stands."""
    layout = result.build.layout
    if not layout.coupler_to_axle.known:
        yield Undrawn(KIND, KIND, TITLE, ("layout.coupler_to_axle",))
        return
    yield _Side(result, leading).drawing()


class _Side:
    """Places count from the ball's centre rearward, and up from the ground, mm; the tow vehicle is left."""

    def __init__(self, result: Result, leading: str) -> None:
        self.result, self.leading = result, leading
        layout = result.build.layout
        self.span = Size(layout.coupler_to_axle, 0.0)
        self.ball = Size(layout.coupler_height, 450.0)
        self.clear = Size(layout.ground_clearance, 250.0)
        self.axles = self._axles()
        self.unknown = [] if self.ball.known else ["layout.coupler_height"]
        if not layout.has("overall_length") and not layout.has("rear_overhang"):
            self.unknown.append("layout.overall_length")
        self.tire = self._tire()
        self.rows = balance(result)
        cases = [row for row in self.rows if row.source == LOADS]
        self.row: BalanceRow | None = max(cases, key=lambda row: row.total.lo) if cases else None
        loads = self.row.loads if self.row is not None else []
        self.loads = [(number, one) for number, one in enumerate(loads, start=1) if one.from_coupler.known]
        self.lost = [one for one in loads if not one.from_coupler.known]
        self.front, self.rear = self._frame_ends()

    def _axles(self) -> list[float]:
        count, spacing = self.result.fit.axles, self.result.build.layout.axle_spacing
        if count == 1 or not spacing.known:
            return [self.span.at]
        return [self.span.at + (number - (count - 1) / 2) * spacing.mid for number in range(count)]

    def _tire(self) -> tuple[float, float, bool]:
        """Diameter and loaded radius, and whether they are known."""
        for end in self.result.fit.ends:
            if end.tire is not None:
                high, radius = (
                    Size(overall_diameter(end.tire), WHEEL),
                    Size(loaded_radius(end.tire, end), WHEEL / 2),
                )
                if high.known and radius.known:
                    return high.at, radius.at, True
        self.unknown.append("tire.size")
        return WHEEL, WHEEL / 2, False

    def _frame_ends(self) -> tuple[Size, Size]:
        """Where the frame begins behind the tongue, and where the trailer ends."""
        layout = self.result.build.layout
        tongue = layout.tongue.free_length if layout.has("tongue") else Interval.unknown("mm")
        front = Size(layout.coupler_to_front if layout.has("coupler_to_front") else tongue, self.span.at * 0.35)
        last = max([self.axles[-1] + 600.0, *(one.from_coupler.mid for _, one in self.loads)])
        rear = Interval.unknown("mm")
        if layout.has("rear_overhang"):
            rear = layout.rear_overhang + self.axles[-1]
        elif layout.has("overall_length"):
            rear = layout.overall_length
        return front, Size(rear, last)

    @property
    def reach(self) -> tuple[float, float]:
        places = [one.from_coupler.mid for _, one in self.loads]
        return min([-120.0, *places]) - 120.0, max(
            [self.rear.at, self.axles[-1] + self.tire[0] / 2, *places]
        ) + 120.0

    def drawing(self) -> Drawing:
        first, last = self.reach
        scale = scale_that_fits(last - first, 1.0, ROOM)
        sheet = Sheet(KIND, TITLE, self.result.build.name, scale, self.leading)
        case = f"the loads of case '{self.row.case}'" if self.row is not None and self.row.case else "the loads"
        intro = "The trailer levelled, the tow vehicle to the left."
        sheet.note(f"{intro} Arrows: {case}, by their numbers below." if self.loads else intro)
        axis = Axis(sheet.canvas, scale, LEFT - first * scale + (ROOM - (last - first) * scale) / 2, 0.0)
        beam = max(self.ball.at, self.clear.at + BEAM)
        above = TALLEST + 9.0 if self.loads else 6.0
        axis.y0 = sheet.y + above + (beam + BEAM / 2) * scale
        self._frame(axis)
        for place in self.axles:
            self._wheel(axis, place)
        self._ground(axis, first, last)
        self._loads(sheet, axis, self.ball.at + BEAM / 2)
        sheet.skip(axis.y0 - sheet.y)
        self._supports(sheet, axis)
        self._dimensions(sheet, axis)
        self._case_lines(sheet)
        found = findings_of(self.result, SLUGS)
        tell(sheet, found)
        self._load_lines(sheet)
        not_known(sheet, self.unknown)
        sheet.scale_bar()
        coupler = [
            part.id for part in self.result.build.of_kind("coupler", "tire", "axle", "suspension-arm", "rack")
        ]
        return Drawing(KIND, KIND, TITLE, self._caption(found), sheet, (*coupler, "layout", "service"))

    # ---- shapes ----------------------------------------------------------------------------------

    def _ground(self, axis: Axis, first: float, last: float) -> None:
        axis.line((first, 0), (last, 0), "outline")
        axis.rect((first, last), (0.0, -1.2 / axis.scale), "none", "metal-close")

    def _frame(self, axis: Axis) -> None:
        middle, half = self.ball.at, BEAM / 2
        known = self.front.known and self.rear.known and self.ball.known
        axis.rect(
            (self.front.at, self.rear.at),
            (middle - half, middle + half),
            "outline" if known else "unknown",
            "#fff",
            "layout",
            "frame",
        )
        axis.rect(
            (0.0, self.front.at),
            (middle - half / 2, middle + half / 2),
            "outline" if self.ball.known else "unknown",
            "#fff",
            "layout",
            "tongue",
        )
        axis.canvas.circle(axis.at(0.0, middle), 1.3, "outline", SOLID, "layout", "ball")
        self._rack(axis, middle + half)

    def _rack(self, axis: Axis, top: float) -> None:
        """What reaches from the frame to a load behind it: solid where a rack is on the list."""
        last = max((one.from_coupler.mid for _, one in self.loads), default=self.rear.at)
        if last <= self.rear.at:
            return
        rack = next(iter(self.result.build.of_kind("rack")), None)
        axis.rect(
            (self.rear.at, last + RACK_BEYOND), (top - BEAM / 2, top), "medium" if rack is not None else "unknown",
            "#fff", rack.id if rack is not None else "layout", "rack",
        )  # fmt: skip

    def _wheel(self, axis: Axis, place: float) -> None:
        high, radius, known = self.tire
        centre = axis.at(place, radius)
        style = "outline" if known else "unknown"
        axis.canvas.circle(centre, high / 2 * axis.scale, style, "#fff", "layout", "wheel")
        axis.canvas.circle(centre, high * 0.29 * axis.scale, "fine", SOLID)
        axis.line((place, radius - high * 0.56), (place, radius + high * 0.56), "centre", "layout", "axle")

    def _loads(self, sheet: Sheet, axis: Axis, top: float) -> None:
        """An arrow down on the frame for each load, as long as it is heavy; its number over it."""
        if not self.loads:
            return
        most = max((one.weight.mid for _, one in self.loads if one.weight.known), default=0.0) or 1.0
        texts = Texts(axis.canvas, (LEFT, sheet.y - 2.0, RIGHT, axis.y0))
        for number, one in self.loads:
            known = one.weight.known
            long = max(LEAST, TALLEST * one.weight.mid / most) if known else LEAST
            foot = axis.at(one.from_coupler.mid, top)
            head = (foot[0], foot[1] - long)
            axis.canvas.line(head, foot, "outline" if known else "unknown", "layout", f"load-{number}")
            axis.canvas.arrow(foot, (0, 1), "outline", 2.6)
            words = str(number) if known else f"{number}?"
            tries = [
                ((head[0] + dx, head[1] - 1.0 - dy), "middle")
                for dy in (0.0, 4.2, 8.4)
                for dx in (0.0, 3.6, -3.6, 7.2)
            ]
            texts.put(words, tries, "bold")

    def _supports(self, sheet: Sheet, axis: Axis) -> None:
        """What the ground gives at the wheels and the tow vehicle at the ball, in the case that is drawn."""
        if self.row is None or not (self.row.tongue.known or self.row.axles.known):
            return
        y = sheet.skip(2.2)
        texts = Texts(axis.canvas, (LEFT, y, RIGHT, y + 20.0))
        spots = [
            (0.0, "tongue", self.row.tongue),
            (self.span.at, "axles" if len(self.axles) > 1 else "axle", self.row.axles),
        ]
        for place, name, value in spots:
            if not value.known:
                continue
            tip = (axis.x(place), y)
            way = -1.0 if value.mid >= 0 else 1.0
            wrong = way > 0 or (name == "tongue" and self._out_of_range(self.row))
            style = "trouble" if wrong else "outline"
            axis.canvas.line(tip, (tip[0], y + 6.0), style, "layout", f"{name}-reaction")
            axis.canvas.arrow(tip if way < 0 else (tip[0], y + 6.0), (0, way), style, 2.6)
            words = f"{'! ' if wrong else ''}{name} {show_both(value, self.leading)}"
            tries = [
                ((tip[0] + 1.6, y + 5.0), "start"),
                ((tip[0] - 1.6, y + 5.0), "end"),
                ((tip[0], y + 10.0), "middle"),
            ]
            texts.put(words, tries, "trouble-text" if wrong else "bold")
        sheet.skip(11.0)

    # ---- words -----------------------------------------------------------------------------------

    def _dimensions(self, sheet: Sheet, axis: Axis) -> None:
        rows, ground = Rows(sheet), sheet.y - 1.0
        rows.add(
            axis.x(0.0), axis.x(self.span.at), f"ball to axle {self.span.words(self.leading)}", (ground, ground)
        )
        if len(self.axles) > 1:
            spacing = Size(self.result.build.layout.axle_spacing, 0.0)
            rows.add(axis.x(self.axles[0]), axis.x(self.axles[1]), spacing.words(self.leading), (ground, ground))
        for _, one in self.loads:
            if self.span.at < one.from_coupler.mid:
                back = Size(one.from_coupler - self.result.build.layout.coupler_to_axle, 0.0)
                words = f"behind {back.words(self.leading)}"
                rows.add(axis.x(self.span.at), axis.x(one.from_coupler.mid), words, (ground, ground))
                break
        rows.draw()

    def _case_lines(self, sheet: Sheet) -> None:
        """Tongue weight, case by case."""
        if not self.rows:
            return
        with sheet.told_around() if self.row is not None else nullcontext():
            sheet.head("Tongue weight")
            for row in self.rows:
                sheet.note(self._case_words(row), TROUBLE if self._out_of_range(row) else "")

    def _out_of_range(self, row: BalanceRow) -> bool:
        """The rules stop or caution at the tongue's share in this case."""
        found = (one for one in findings_of(self.result, ("tongue-share",)) if one.verdict in (STOP, CAUTION))
        where = f"'{row.case}'" if row.case else "The"
        return any(where in str(one.check.values.get("where", "")) for one in found)

    def _case_words(self, row: BalanceRow) -> str:
        tongue = show_both(row.tongue, self.leading) if row.tongue.known else "?"
        total = show_both(row.total, self.leading) if row.total.known else "?"
        share = show_percent(row.share) if row.share.known else "?"
        return f"{row.case or NAMES[row.source]}: {tongue} of {total}, {share}"

    def _load_lines(self, sheet: Sheet) -> None:
        for number, one in self.loads:
            sheet.note(self._load_words(one), str(number))
        for one in self.lost:
            sheet.note(f"{one.what}: place not known, not drawn", UNKNOWN)

    def _load_words(self, one: LoadEffect) -> str:
        weight = show_both(one.weight, self.leading) if one.weight.known else "?"
        words = f"{one.what}: {weight} at {show_both(one.from_coupler, self.leading)}"
        effect = one.on_tongue
        if effect.known and abs(effect.mid) > 1.0:
            verb = "on the tongue" if effect.mid > 0 else "off the tongue"
            words += f", {show_both(abs(effect), self.leading)} {verb}"
        return words

    def _caption(self, found: list[Finding]) -> str:
        words = f"From the side: the axle stands {self.span.words(self.leading)} behind the ball."
        if self.loads:
            words += (
                " Loads: " + "; ".join(f"{number} {self._load_words(one)}" for number, one in self.loads) + "."
            )
        if self.rows:
            words += " Tongue weight, " + "; ".join(self._case_words(row) for row in self.rows) + "."
        return f"{words} {said(found, self.leading)}"
