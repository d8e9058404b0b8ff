"""Drawings to scale, each from the list's own numbers, as SVG."""

from __future__ import annotations

from partscheck.report.drawing.bolt_circles import bolt_circle_drawings
from partscheck.report.drawing.drawing import Drawing, Undrawn
from partscheck.report.drawing.joint import joint_drawings
from partscheck.report.drawing.load_path import load_path_drawings
from partscheck.report.drawing.load_plane import load_plane_drawings
from partscheck.report.drawing.rear_view import rear_view_drawings
from partscheck.report.drawing.side_view import side_view_drawings
from partscheck.report.drawing.wheel_end import wheel_end_drawings

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterator

    from partscheck.engine import Result

__all__ = ["Drawing", "Undrawn", "drawings", "every_drawing"]

DRAWERS = (
    wheel_end_drawings, bolt_circle_drawings, load_plane_drawings, joint_drawings, side_view_drawings,
    rear_view_drawings, load_path_drawings,
)  # fmt: skip


def drawings(result: Result, leading: str = "") -> list[Drawing]:
    """All that this list can have drawn; ``leading`` "inch" or "metric": the list's own where left out."""
    return [one for one in every_drawing(result, leading) if isinstance(one, Drawing)]


def every_drawing(result: Result, leading: str = "") -> Iterator[Drawing | Undrawn]:
    """Each drawing, or what it lacks, in the order of a look round the trailer: wheels, joints, the whole."""
    system = leading or result.build.leading()
    for drawer in DRAWERS:
        yield from drawer(result, system)
