"""A small canvas: shapes in mm of paper that become one SVG element, escaped by the way it is built."""

from __future__ import annotations

import math
import re
from xml.etree.ElementTree import Element, SubElement, indent, tostring

from partscheck.report.drawing.lettering import BOLD, SIZE, clean, width

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable

Point = tuple[float, float]

INK, GREY, TROUBLE = "#1b1b1b", "#5c5c5c", "#a3170f"
FONT = "system-ui, -apple-system, 'Segoe UI', Roboto, 'Helvetica Neue', Arial, sans-serif"
# Two weights of line as on a shop drawing: outlines twice as heavy as everything else.
OUTLINE, FINE = 0.5, 0.2
STYLE = f"""
.pd-text{{font-family:{FONT};fill:{INK};stroke:none}}
.pd-halo{{paint-order:stroke;stroke:#fff;stroke-width:1.3;stroke-linejoin:round}}
.pd-bold{{font-weight:700}}
.pd-outline{{stroke:{INK};stroke-width:{OUTLINE};stroke-linejoin:round}}
.pd-fine{{stroke:{INK};stroke-width:{FINE}}}
.pd-medium{{stroke:{INK};stroke-width:0.32}}
.pd-hidden{{stroke:{INK};stroke-width:0.3;stroke-dasharray:1.6 0.9}}
.pd-unknown{{stroke:{GREY};stroke-width:0.4;stroke-dasharray:1.2 1.2}}
.pd-centre{{stroke:{INK};stroke-width:{FINE};stroke-dasharray:6 1.2 0.8 1.2}}
.pd-trouble{{stroke:{TROUBLE};stroke-width:0.6;stroke-linejoin:round}}
.pd-trouble-fine{{stroke:{TROUBLE};stroke-width:0.3}}
.pd-trouble-text{{fill:{TROUBLE};font-weight:700}}
.pd-none{{stroke:none}}
"""
# Hatches: (turn of the lines in degrees, distance, weight, colour); None for crossed lines
HATCHES: dict[str, tuple[float, float, float, str]] = {
    "metal": (45, 2.2, 0.16, INK),
    "metal-turned": (-45, 2.2, 0.16, INK),
    "metal-close": (45, 1.3, 0.14, INK),
    "band": (90, 0.7, 0.2, GREY),
    "trouble": (45, 1.1, 0.34, TROUBLE),
}
CROSSED = "trouble"
WHITE, SOLID = "#fff", "#dedede"


class Canvas:
    """``name`` makes the ids of this drawing its own; positions count from the upper left, y downwards.

    Every shape takes a ``style`` (a class of STYLE without its prefix), a ``fill`` (a colour, or the
    name of a hatch), and ``part`` and ``face`` that say what of which line of the list it shows.
    """

    def __init__(self, name: str) -> None:
        self.name = name
        self.root = Element("g")
        self._used: list[str] = []
        self._groups: list[Element] = [self.root]

    # ---- shapes ------------------------------------------------------------------------------

    def line(self, one: Point, other: Point, style: str = "fine", part: str = "", face: str = "") -> None:
        self._shape(
            "line", style, "", part, face, x1=one[0], y1=one[1], x2=other[0], y2=other[1]
        )  # fmt: skip

    def rect(
        self, one: Point, other: Point, style: str = "outline", fill: str = "none", part: str = "", face: str = ""
    ) -> None:
        """From one corner to the other, whichever way round."""
        x, y = min(one[0], other[0]), min(one[1], other[1])
        wide, high = abs(one[0] - other[0]), abs(one[1] - other[1])
        self._shape("rect", style, fill, part, face, x=x, y=y, width=wide, height=high)

    def polygon(
        self, points: Iterable[Point], style: str = "outline", fill: str = "none", part: str = "", face: str = ""
    ) -> None:
        self._shape("polygon", style, fill, part, face, points=_points(points))

    def polyline(self, points: Iterable[Point], style: str = "fine", part: str = "", face: str = "") -> None:
        self._shape("polyline", style, "none", part, face, points=_points(points))

    def circle(
        self, centre: Point, radius: float, style: str = "outline", fill: str = "none", part: str = "",
        face: str = "",
    ) -> None:  # fmt: skip
        self._shape("circle", style, fill, part, face, cx=centre[0], cy=centre[1], r=radius)

    def arc(self, centre: Point, radius: float, first: float, last: float, style: str = "fine") -> None:
        """From one angle to the other, deg, counter-clockwise from the x axis."""
        ends = [_on_circle(centre, radius, angle) for angle in (first, last)]
        long_way = 1 if abs(last - first) > 180 else 0
        way = f"M{_n(ends[0][0])} {_n(ends[0][1])}A{_n(radius)} {_n(radius)} 0 {long_way} 0 "
        self._shape("path", style, "none", "", "", d=f"{way}{_n(ends[1][0])} {_n(ends[1][1])}")

    def arrow(self, tip: Point, way: Point, style: str = "fine", size: float = 2.2) -> None:
        """A filled arrow head at ``tip`` that points ``way``."""
        long = math.hypot(*way) or 1.0
        along, across = (way[0] / long, way[1] / long), (-way[1] / long, way[0] / long)
        back = (tip[0] - along[0] * size, tip[1] - along[1] * size)
        half = size * 0.18
        points = [
            tip,
            (back[0] + across[0] * half, back[1] + across[1] * half),
            (back[0] - across[0] * half, back[1] - across[1] * half),
        ]
        self.polygon(points, "none", TROUBLE if style.startswith("trouble") else INK)

    # ---- text --------------------------------------------------------------------------------

    def text(
        self, at: Point, words: str, size: float = SIZE, anchor: str = "start", style: str = "", halo: bool = True,
        part: str = "",
    ) -> None:  # fmt: skip
        """One line on its base line; ``style`` "bold" or "trouble-text"."""
        words = clean(words)
        if not words:
            return
        classes = ["pd-text", *(["pd-halo"] if halo else []), *([f"pd-{style}"] if style else [])]
        one = SubElement(self._groups[-1], "text", {"class": " ".join(classes), "font-size": _n(size)})
        one.set("x", _n(at[0]))
        one.set("y", _n(at[1]))
        if anchor != "start":
            one.set("text-anchor", anchor)
        if part:
            one.set("data-part", clean(part))
        one.text = words

    # ---- the whole ---------------------------------------------------------------------------

    def svg(self, size: Point, title: str, description: str, scale: float, shown: Element | None = None) -> str:
        """The element, ``size`` mm wide and high; ``scale``: mm of paper for one of the part (0: none);
        ``shown`` instead of all that was put on the canvas.
        """
        head = Element("svg", {"xmlns": "http://www.w3.org/2000/svg", "role": "img"})
        head.set("viewBox", f"0 0 {_n(size[0])} {_n(size[1])}")
        head.set("width", f"{_n(size[0])}mm")
        head.set("height", f"{_n(size[1])}mm")
        head.set("aria-labelledby", f"pd-{self.name}-title pd-{self.name}-desc")
        if scale:
            head.set("data-scale", f"{scale:.6g}")
        SubElement(head, "title", {"id": f"pd-{self.name}-title"}).text = clean(title)
        SubElement(head, "desc", {"id": f"pd-{self.name}-desc"}).text = clean(description, 2000)
        SubElement(head, "style").text = STYLE
        defs = SubElement(head, "defs")
        for name in self._used:
            _pattern(defs, self._id(name), *HATCHES[name], crossed=name == CROSSED)
        SubElement(head, "rect", {"width": "100%", "height": "100%", "fill": WHITE})
        head.append(self.root if shown is None else shown)
        indent(head, " ")
        return tostring(head, encoding="unicode")

    def _shape(self, tag: str, style: str, fill: str, part: str, face: str, **numbers: float | str) -> None:
        one = SubElement(self._groups[-1], tag, {"class": f"pd-{style}"})
        for name, value in numbers.items():
            one.set(name, value if isinstance(value, str) else _n(value))
        if fill:
            one.set("fill", self._paint(fill))
        if part:
            one.set("data-part", clean(part))
        if face:
            one.set("data-face", face)

    def _paint(self, fill: str) -> str:
        if fill not in HATCHES:
            return fill
        if fill not in self._used:
            self._used.append(fill)
        return f"url(#{self._id(fill)})"

    def _id(self, name: str) -> str:
        return f"pd-{self.name}-{name}"


def identifier(text: str) -> str:
    """A text as part of an id or a file name: small letters, digits and hyphens."""
    return re.sub(r"[^a-z0-9]+", "-", text.lower()).strip("-")[:40] or "x"


def text_box(
    at: Point, words: str, size: float, anchor: str = "start", bold: bool = False
) -> tuple[float, float, float, float]:
    """Left, top, right and bottom of a text."""
    wide = width(words, size) * (BOLD if bold else 1.0)
    left = at[0] - {"start": 0.0, "middle": wide / 2, "end": wide}[anchor]
    return left, at[1] - size * 0.78, left + wide, at[1] + size * 0.22


def _on_circle(centre: Point, radius: float, angle: float) -> Point:
    turned = math.radians(angle)
    return centre[0] + radius * math.cos(turned), centre[1] - radius * math.sin(turned)


def _pattern(defs: Element, id: str, turn: float, apart: float, weight: float, colour: str, crossed: bool) -> None:
    one = SubElement(defs, "pattern", {
        "id": id, "width": _n(apart), "height": _n(apart), "patternUnits": "userSpaceOnUse",
        "patternTransform": f"rotate({_n(turn)})",
    })  # fmt: skip
    SubElement(one, "rect", {"width": _n(apart), "height": _n(apart), "fill": WHITE})
    ways = [(0.0, apart / 2, apart, apart / 2)]
    if crossed:
        ways.append((apart / 2, 0.0, apart / 2, apart))
    for x1, y1, x2, y2 in ways:
        SubElement(one, "line", {
            "x1": _n(x1), "y1": _n(y1), "x2": _n(x2), "y2": _n(y2), "stroke": colour,
            "stroke-width": _n(weight),
        })  # fmt: skip


def _points(points: Iterable[Point]) -> str:
    return " ".join(f"{_n(x)},{_n(y)}" for x, y in points)


def _n(value: float) -> str:
    """A number with thousandths at most; what is no number has no place on a sheet."""
    if not math.isfinite(value):
        raise ValueError(f"a place on a drawing must be a finite number, got {value}")
    return f"{value:.3f}".rstrip("0").rstrip(".") if "." in f"{value:.3f}" else f"{value:.3f}"
