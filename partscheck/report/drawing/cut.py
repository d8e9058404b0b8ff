"""One cut along a stud or wheel bolt: what carries it, what it holds, the nut, and what lies over its end.

Places count along the stud from the hub's seating face, outboard positive (mm), and across from the axle's
centre line.
"""

from __future__ import annotations

from partscheck.build.stud_data import (
    entering_thread,
    nut_thread,
)
from partscheck.notation.interval import Interval
from partscheck.report.drawing.canvas import SOLID
from partscheck.report.drawing.cut_sizes import BEHIND, HOLE_OVER, CutSizes
from partscheck.report.drawing.dimensions import Flags, Rows
from partscheck.report.drawing.fasteners import CORNERS, Axis, shank, wheel_nut
from partscheck.report.drawing.values import SEEN, Size, amount, checked, failing
from partscheck.rules.message import name_of

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.report.drawing.sheet import Sheet


class Cut(CutSizes):
    """What stands round one stud, drawn to scale with its labels and dimensions."""

    # ---- words -----------------------------------------------------------------------------------

    @property
    def heading(self) -> str:
        what = "wheel bolt" if self.lugs.bolted else "stud"
        return f"Along a {what} of the {name_of(self.base)}, {name_of(self.held)} on it"

    @property
    def shown(self) -> list[Any]:
        around = (self.base, self.lugs.stud, *self.lugs.between, self.held, self.nut, self.wheel)
        return [part for part in around if part is not None]

    def words(self, leading: str) -> str:
        what = "The wheel bolt is" if self.lugs.bolted else f"The stud of the {name_of(self.base)} stands"
        how = self.stud.words(leading) if self.stud.known else "a length that is not known"
        text = f"{what} {how}" + (" long from its seat." if self.lugs.bolted else " proud of its face.")
        if self.plate is not None:
            text += f" The {name_of(self.held)} is {self.plate.words(leading)} thick."
        return text.replace("?", "of unknown size")

    # ---- drawing ---------------------------------------------------------------------------------

    def draw(self, sheet: Sheet, x0: float) -> None:
        """Labels, the view, its dimensions; ``x0`` is where the hub's face stands on the sheet."""
        flags = Flags()
        axis = Axis(sheet.canvas, sheet.scale, x0, 0.0)
        self._label(flags, axis, sheet)
        top = sheet.y
        view = sheet.skip(flags.height())
        axis.y0 = view + (self.high - self.rc) * sheet.scale
        self._base_block(axis)
        self._spacers(axis)
        self._held_block(axis)
        self._over(axis)
        self._fastener(axis)
        self._trouble(axis)
        self._band(axis)
        axis.line((self.inboard - 2, 0), (self.outboard + 2, 0), "centre")
        flags.draw(sheet.canvas, top, view)
        sheet.skip(self.tall * sheet.scale)
        self._dimensions(sheet, axis)

    def _span(self) -> tuple[float, float]:
        """Across, from the stud's axis: the lower and the upper edge of what is shown."""
        return self.low - self.rc, self.high - self.rc

    def _base_block(self, axis: Axis) -> None:
        """The hub's flange, or the plate that the studs stand on; cut away at its left where it is longer."""
        low, high = self._span()
        bore = self._bore(self.base, "hub_bore") if self.base.kind == "adapter" else None
        foot = max(low, bore / 2 - self.rc) if bore is not None else low
        left = -BEHIND if self.base is self.end.hub else self.face.at - min(self.base_thickness(), BEHIND)
        if self.lugs.bolted:
            left = min(left, self.inboard)
        axis.rect((left, self.face.at), (foot, high), "none", "metal", self.base.id, "base")
        axis.line((self.face.at, foot), (self.face.at, high), "outline", self.base.id, "seating-face")
        _break(axis, left, foot, high)
        self._pilot(axis, low)

    def _pilot(self, axis: Axis, low: float) -> None:
        """The shoulder that the bore sits on, under the face."""
        names = ("pilot", "pilot_height") if self.base.kind == "hub" else ("wheel_pilot", "wheel_pilot_height")
        pilot = self._bore(self.base, names[0])
        if pilot is None or pilot / 2 <= self.low:
            return
        high = self._bore(self.base, names[1])
        reach = self.face.at + (high if high is not None else 6.0)
        style = "outline" if high is not None else "unknown"
        axis.rect((self.face.at, reach), (low, pilot / 2 - self.rc), style, "metal", self.base.id, "pilot")

    def _spacers(self, axis: Axis) -> None:
        x = self.face.at
        low, high = self._span()
        for spacer in self.lugs.between:
            thick = Size(spacer.thickness, 6.0)
            style = "outline" if thick.known else "unknown"
            for part in ((low, -self.d / 2 - HOLE_OVER / 2), (self.d / 2 + HOLE_OVER / 2, high)):
                axis.rect((x, x + thick.at), part, style, "metal-close", spacer.id, "plate")
            x += thick.at

    def _held_block(self, axis: Axis) -> None:
        """The adapter with its pocket, or the wheel's disc, on both sides of the stud's hole."""
        bore = self._bore(self.held, "hub_bore" if self.lugs.hub_side else "center_bore")
        low, high = self._span()
        foot = max(low, bore / 2 - self.rc) if bore is not None else low
        known = self.seat.known and (self.plate is None or self.plate.known)
        style = "outline" if known else "unknown"
        for side, edge in ((-1, foot), (1, high)):
            axis.polygon(self._outline(side, edge), style, "metal-turned", self.held.id, "held")
        if self.plate is None:
            axis.line((self.outer, foot), (self.outer, high), "unknown")

    def _outline(self, side: int, edge: float) -> list[tuple[float, float]]:
        """One side of the held part, from its face along the hole, over the seat to the outer face."""
        hole = self.d / 2 + HOLE_OVER / 2
        first, seat, last = self.held_from, self.seat_at, self.outer
        wide = self.hex * CORNERS / 2
        reach = self._cone()
        if reach and seat + reach > last:  # the cone runs out at the outer face
            wide, reach = hole + (wide - hole) * (last - seat) / reach, last - seat
        points = [(first, edge), (first, side * hole), (seat, side * hole), (seat + reach, side * wide)]
        if self.lugs.hub_side and seat + reach < last:
            pocket = max(self._pocket() / 2, wide)
            points += [(seat + reach, side * pocket), (last, side * pocket)]
        else:
            points += [(last, side * wide)]
        return [*points, (last, edge)]

    def _over(self, axis: Axis) -> None:
        """The wheel on an adapter: its disc over the stud's end, with a pocket where one lies there."""
        wheel = self.wheel
        if wheel is None:
            return
        low, high = self._span()
        bore = self._bore(wheel, "center_bore")
        foot = max(low, bore / 2 - self.rc) if bore is not None else low
        thick = (
            Size(wheel.seat_thickness, 8.0) if wheel.has("seat_thickness") else Size(Interval.unknown("mm"), 8.0)
        )
        depth = wheel.stud_pocket_depth.mid if wheel.has("stud_pocket_depth") else 0.0
        half, far = self.d / 2 + 2.5, self.outer + thick.at
        points = [(self.outer, foot), (self.outer, -half)]
        if depth:
            points += [(self.outer + depth, -half), (self.outer + depth, half)]
        points += [(self.outer, half), (self.outer, high), (far, high), (far, foot)]
        if foot >= -half:  # the bore passes the stud: nothing of the disc lies over it
            points = [(self.outer, foot), (self.outer, high), (far, high), (far, foot)]
        axis.polygon(points, "medium" if thick.known else "unknown", "metal-close", wheel.id, "wheel")
        axis.line((self.outer, foot), (self.outer, high), "outline", wheel.id, "mounting-face")

    def _fastener(self, axis: Axis) -> None:
        style = "outline" if self.stud.known else "unknown"
        nut = self.nut
        if self.lugs.bolted:
            self._wheel_bolt(axis, style)
            return
        if nut is not None:
            known = self.seat.known and self.height_of
            depth = nut.depth.mid if nut.has("depth") else self.height
            wheel_nut(
                axis, self.seat_at, self.height, self.hex, self.d + HOLE_OVER, self._cone(), self.d, depth,
                self._closed(), "outline" if known else "unknown", nut.id,
            )  # fmt: skip
        owner = self.base if self.lugs.stud is None else self.lugs.stud
        shank(axis, self.face.at - BEHIND * 0.8, self.tip, self.d, self.face.at + 2.0, style, owner.id, "stud")

    def _wheel_bolt(self, axis: Axis, style: str) -> None:
        depth = self._bore(self.base, "hole_depth")
        if depth is not None:
            axis.rect((-depth, self.face.at), (self.d / 2, -self.d / 2), "fine", "#fff", self.base.id, "hole")
        wide, reach = self.hex * CORNERS / 2, self._cone()
        top = self.seat_at + reach + self.height
        small = self.d / 2 + HOLE_OVER / 2
        head = [(self.seat_at, small), (self.seat_at + reach, wide), (top, wide), (top, -wide)]
        head += [(self.seat_at + reach, -wide), (self.seat_at, -small)]
        axis.polygon(head, "unknown", SOLID, self.nut.id, "head")
        shank(axis, self.seat_at, self.tip, self.d, self.seat_at - 3.0, style, self.nut.id, "stud")

    def _band(self, axis: Axis) -> None:
        """Where the stud may end, from the shortest to the longest."""
        if not self.stud.known or self.stud.value.width * axis.scale < SEEN:
            return
        way = -1.0 if self.lugs.bolted else 1.0
        ends = [self.tip + way * (end - self.stud.at) for end in (self.stud.value.lo, self.stud.value.hi)]
        axis.rect((ends[0], ends[1]), (self.d / 2, -self.d / 2), "fine", "band", self.base.id, "stud-end-band")

    # ---- what is wrong ---------------------------------------------------------------------------

    def _clashes(self) -> list[tuple[str, float, float, float]]:
        """(rule, from, to, half width) of what two parts would both fill."""
        found = []
        if self.lugs.hub_side and failing(self.result, "stud-above-adapter-face", self.at):
            found.append(("stud-above-adapter-face", self.outer, self.tip, self.d / 2))
        if self.lugs.hub_side and self.nut and failing(self.result, "adapter-nut-above-face", self.at):
            wide = self.hex * CORNERS / 2
            found.append(("adapter-nut-above-face", self.outer, self.seat_at + self.height, wide))
        if self._closed() and self.nut.has("depth") and failing(self.result, "stud-bottoms-in-nut", self.at):
            found.append(("stud-bottoms-in-nut", self.seat_at + self.nut.depth.mid, self.tip, self.d / 2))
        return [one for one in found if one[2] > one[1]]

    def _trouble(self, axis: Axis) -> None:
        for slug, first, last, half in self._clashes():
            axis.rect((first, last), (half, -half), "trouble", "trouble", self.base.id, slug)

    # ---- labels and dimensions ---------------------------------------------------------------------

    def _label(self, flags: Flags, axis: Axis, sheet: Sheet) -> None:
        top = (self.high - self.rc) * sheet.scale
        flags.add((axis.x(self.face.at - 5.0), 3.0), name_of(self.base), part=self.base.id)
        middle = self.held_from + min(self.seat.at, self.outer - self.held_from) * 0.5
        flags.add((axis.x(middle), 3.0), name_of(self.held), part=self.held.id)
        for spacer in self.lugs.between:
            flags.add((axis.x(self.face.at + self.between.at / 2), 3.0), name_of(spacer), part=spacer.id)
        if self.wheel is not None:
            flags.add((axis.x(self.outer + 4.0), 3.0), name_of(self.wheel), part=self.wheel.id)
        if self.nut is not None:
            off = top - self.hex * CORNERS / 2 * sheet.scale * 0.8
            at = self.seat_at + self._cone() + 2.0
            words = name_of(self.nut) + ("" if self.height_of or self.lugs.bolted else ", height ?")
            flags.add((axis.x(at), off), words, part=self.nut.id)
        for slug, first, last, _ in self._clashes():
            finding = failing(self.result, slug, self.at)
            words = f"! {amount(finding.check.margin, sheet.leading)} too far" if finding else "!"
            flags.add((axis.x((first + last) / 2), top), words, "trouble-text")

    def _dimensions(self, sheet: Sheet, axis: Axis) -> None:
        rows, low = Rows(sheet), sheet.y
        leading, x, mid = sheet.leading, axis.x, axis.y(-self.d / 2)
        if self.lugs.bolted:
            rows.add(x(self.tip), x(self.seat_at), f"bolt {self.stud.words(leading)}", (mid, low))
        else:
            self._gap(rows, axis, sheet)
            rows.add(x(self.held_from), x(self.seat_at), f"to seat {self.seat.words(leading)}", (low, low))
            if self.plate is not None:
                words = f"{self.held.kind} {self.plate.words(leading)}"
                rows.add(x(self.held_from), x(self.outer), words, (low, low))
            rows.add(x(self.face.at), x(self.tip), f"stud {self.stud.words(leading)}", (low, mid))
        if self.lugs.bolted:
            rows.add(x(self.held_from), x(self.seat_at), f"to seat {self.seat.words(leading)}", (low, low))
        rows.draw()

    def _gap(self, rows: Rows, axis: Axis, sheet: Sheet) -> None:
        """How far the stud ends below the plate's face, or how much thread is in the nut."""
        mid = axis.y(-self.d / 2)
        if self.lugs.hub_side:
            finding = checked(self.result, "stud-above-adapter-face", self.at)
            if (
                finding is not None
                and finding.check.margin is not None
                and self.stud.known
                and self.tip < self.outer
            ):
                words = f"gap {amount(finding.check.margin, sheet.leading)}"
                rows.add(axis.x(self.tip), axis.x(self.outer), words, (mid, mid))
        elif self.nut is not None and self.stud.known and self.seat.known:
            thread, nut = entering_thread(self.lugs), nut_thread(self.lugs)
            if thread.lo > 0 and thread.known:
                turned = Interval(min(thread.lo, nut.lo), min(thread.hi, nut.hi), "mm")
                words = f"thread in nut {Size(turned, 0.0).words(sheet.leading)}"
                rows.add(axis.x(self.seat_at), axis.x(self.seat_at + turned.mid), words, (mid, mid))


def _break(axis: Axis, along: float, low: float, high: float) -> None:
    """A wavy edge: the part goes on."""
    steps, wave = 12, 0.7
    points = []
    for number in range(steps + 1):
        off = low + (high - low) * number / steps
        points.append(axis.at(along + (wave if number % 2 else -wave) / axis.scale * 0.6, off))
    axis.canvas.polyline(points, "fine")
