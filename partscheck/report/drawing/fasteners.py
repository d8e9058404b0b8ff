"""Studs, bolts and nuts seen from the side, lying along a level axis.

By the habit of shop drawings fasteners are not cut along their length: they are drawn whole, in grey.
"""

from __future__ import annotations

import math

from partscheck.report.drawing.canvas import SOLID

TYPE_CHECKING = False
if TYPE_CHECKING:
    from partscheck.report.drawing.canvas import Canvas, Point

ROOT = 0.85  # root over outside diameter of a thread, about: for the fine line that stands for the thread
CHAMFER = 0.08  # of the diameter, at a bolt's end
HEX_FLAT, HEAD_HIGH = 1.5, 0.65  # usual hexagon and head over the diameter, where neither is known: a look only
CORNERS = 1 / math.cos(math.pi / 6)
USUAL_HALF_CONE = 30.0  # deg


class Axis:
    """A level axis on the sheet: ``x`` takes mm along it from where it counts, ``y`` mm off it (up positive)."""

    def __init__(self, canvas: Canvas, scale: float, x0: float, y0: float) -> None:
        self.canvas = canvas
        self.scale = scale
        self.x0 = x0
        self.y0 = y0

    def x(self, along: float) -> float:
        return self.x0 + along * self.scale

    def y(self, off: float) -> float:
        return self.y0 - off * self.scale

    def at(self, along: float, off: float) -> Point:
        return self.x(along), self.y(off)

    def rect(
        self, along: tuple[float, float], off: tuple[float, float], style: str = "outline", fill: str = "none",
        part: str = "", face: str = "",
    ) -> None:  # fmt: skip
        one, other = self.at(along[0], off[0]), self.at(along[1], off[1])
        self.canvas.rect(one, other, style, fill, part, face)

    def polygon(
        self, points: list[tuple[float, float]], style: str = "outline", fill: str = "none", part: str = "",
        face: str = "",
    ) -> None:  # fmt: skip
        self.canvas.polygon([self.at(*one) for one in points], style, fill, part, face)

    def line(
        self, one: tuple[float, float], other: tuple[float, float], style: str = "fine", part: str = "",
        face: str = "",
    ) -> None:  # fmt: skip
        self.canvas.line(self.at(*one), self.at(*other), style, part, face)


def shank(
    axis: Axis, first: float, last: float, diameter: float, thread_from: float, style: str = "outline",
    part: str = "", face: str = "",
) -> None:  # fmt: skip
    """A rod from ``first`` to its end at ``last``, threaded from ``thread_from`` on (towards its end)."""
    r, way = diameter / 2, 1.0 if last >= first else -1.0
    tip = last - way * min(diameter * CHAMFER, abs(last - first) / 2)
    low = r - diameter * CHAMFER
    points = [(first, r), (tip, r), (last, low), (last, -low), (tip, -r), (first, -r)]
    axis.polygon(points, style, SOLID, part, face)
    if (tip - thread_from) * way > 0:
        root = r * ROOT
        for off in (root, -root):
            axis.line((thread_from, off), (tip, off))
        axis.line((thread_from, r), (thread_from, -r))


def cone_reach(hex_flat: float, hole: float, seat_angle: float | None) -> float:
    """How far a cone reaches along the axis from the hole's radius to the nut's full width."""
    half = math.radians((seat_angle or 2 * USUAL_HALF_CONE) / 2)
    return max(0.0, (hex_flat * CORNERS / 2 - hole / 2) / math.tan(half))


def wheel_nut(
    axis: Axis, seat: float, high: float, hex_flat: float, hole: float, cone: float, bore: float,
    depth: float, closed: bool, style: str = "outline", part: str = "",
) -> None:  # fmt: skip
    """A lug nut from its seat outwards, cut open to show how deep its thread is: ``depth`` mm of ``bore``."""
    wide, small = hex_flat * CORNERS / 2, hole / 2
    nose = min(cone, high * 0.7)
    end = seat + high
    body = [
        (seat, small), (seat + nose, wide), (end - 1.0, wide), (end, wide - 1.2),
        (end, -wide + 1.2), (end - 1.0, -wide), (seat + nose, -wide), (seat, -small),
    ]  # fmt: skip
    axis.polygon(body, style, "metal-close", part, "nut")
    bottom = min(seat + depth, end) if closed else end
    axis.rect((seat, bottom), (bore / 2, -bore / 2), "fine", "#fff", part, "nut-thread")
