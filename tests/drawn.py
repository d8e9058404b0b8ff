"""Reads the drawings back: shapes by what they show, in mm of the part; boxes of the texts, in mm of paper."""

from __future__ import annotations

from pathlib import Path
from xml.etree import ElementTree

import partscheck
from partscheck.report.drawing import Drawing
from partscheck.report.drawing.lettering import width

EXAMPLES = Path(__file__).resolve().parents[1] / "examples"
SVG = "{http://www.w3.org/2000/svg}"


def drawn(name: str, leading: str = "") -> dict[str, Drawing]:
    """Every drawing of one example, by its slug."""
    result = partscheck.check(EXAMPLES / f"{name}.yaml", [EXAMPLES / "catalog"])
    return {one.slug: one for one in partscheck.drawings(result, leading)}


def drawn_from(text: str, leading: str = "") -> dict[str, Drawing]:
    """Every drawing of a list given as text."""
    result = partscheck.check(text.encode(), file="list.yaml")
    return {one.slug: one for one in partscheck.drawings(result, leading)}


class Picture:
    """One parsed drawing."""

    def __init__(self, drawing: Drawing) -> None:
        self.root = ElementTree.fromstring(drawing.svg())
        self.scale = float(self.root.get("data-scale", "1"))

    def all(self, face: str, part: str = "") -> list[ElementTree.Element]:
        found = [one for one in self.root.iter() if one.get("data-face") == face]
        return [one for one in found if not part or one.get("data-part") == part]

    def one(self, face: str, part: str = "") -> ElementTree.Element:
        found = self.all(face, part)
        assert found, f"nothing is drawn for {face} {part}"
        return found[0]

    def level(self, face: str, part: str = "") -> tuple[float, float]:
        """Left and right end of a shape, mm of paper."""
        return ends(self.one(face, part), 0)

    def upright(self, face: str, part: str = "") -> tuple[float, float]:
        """Upper and lower end of a shape, mm of paper."""
        return ends(self.one(face, part), 1)

    def real(self, paper: float) -> float:
        """mm of the part."""
        return paper / self.scale


def ends(shape: ElementTree.Element, axis: int) -> tuple[float, float]:
    tag = shape.tag.removeprefix(SVG)
    if tag == "rect":
        start = float(shape.get("xy"[axis], "0"))
        return start, start + float(shape.get(("width", "height")[axis], "0"))
    if tag == "line":
        two = [float(shape.get(f"{'xy'[axis]}{number}", "0")) for number in (1, 2)]
    elif tag == "circle":
        centre, radius = float(shape.get(("cx", "cy")[axis], "0")), float(shape.get("r", "0"))
        two = [centre - radius, centre + radius]
    else:
        two = [float(point.split(",")[axis]) for point in shape.get("points", "").split()]
    return min(two), max(two)


def text_boxes(drawing: Drawing) -> list[tuple[str, float, float, float, float]]:
    """(words, left, top, right, bottom) of every text, by an approximate width of the font."""
    boxes = []
    for one in ElementTree.fromstring(drawing.svg()).iter(f"{SVG}text"):
        words, size = one.text or "", float(one.get("font-size", "0"))
        classes = one.get("class", "")
        wide = width(words, size, "pd-bold" in classes or "pd-trouble-text" in classes)
        x, y = float(one.get("x", "0")), float(one.get("y", "0"))
        left = x - {"start": 0.0, "middle": wide / 2, "end": wide}[one.get("text-anchor", "start")]
        boxes.append((words, left, y - 0.76 * size, left + wide, y + 0.22 * size))
    return boxes
