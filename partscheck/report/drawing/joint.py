"""A bolted joint cut along its bolt: head, washers, layers, nut or tapped hole, thread, shear plane."""

from __future__ import annotations

from partscheck.build.joint_places import JointPlace, layer_thickness
from partscheck.report.drawing.canvas import SOLID, identifier
from partscheck.report.drawing.dimensions import Flags, Rows
from partscheck.report.drawing.drawing import Drawing, Undrawn
from partscheck.report.drawing.fasteners import CORNERS, HEAD_HIGH, HEX_FLAT, Axis, shank
from partscheck.report.drawing.sheet import LEFT, ROOM, Sheet, scale_that_fits
from partscheck.report.drawing.values import (
    FARTHEST,
    SEEN,
    Size,
    amount,
    failing,
    findings_of,
    not_known,
    said,
    tell,
)
from partscheck.report.wrap import plural
from partscheck.rules.message import name_of

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import Any

    from partscheck.engine import Result
    from partscheck.rules.findings import Finding

KIND, TITLE = "joint", "Bolted joint"
SLUGS = (
    "thread-mismatch", "bolt-too-short", "bolt-runs-out-of-thread", "bolt-bottoms-in-tapped-hole", "tube-crushes",
    "thread-in-shear-plane", "hole-too-small", "hole-oversize", "edge-distance", "soft-in-stack",
    "tapped-engagement", "washer-missing", "locking-missing",
)  # fmt: skip
AROUND = 2.2  # bolt diameters that a layer is shown to each side, where its edge is farther
BEYOND = 6.0  # mm of metal under a blind hole
HATCHINGS = ("metal", "metal-turned", "metal-close")
STAND_IN = 8.0  # mm: a layer of unknown thickness


def joint_drawings(result: Result, leading: str) -> Iterator[Drawing | Undrawn]:
    """One drawing for each joint, with the first of its bolts."""
    taken: dict[str, int] = {}
    for place in result.fit.bindings(JointPlace):
        if not place.first:
            continue
        name = identifier(place.name)
        taken[name] = taken.get(name, 0) + 1
        slug = f"{KIND}-{name}" + (f"-{taken[name]}" if taken[name] > 1 else "")
        yield _draw(place, slug, result, leading)


def _draw(place: JointPlace, slug: str, result: Result, leading: str) -> Drawing | Undrawn:
    title = f"{TITLE}: {place.name}"
    missing = []
    if not place.diameter.known:
        missing.append(f"{place.bolt.id if place.bolt is not None else place.name}.{place.size_field}")
    if not place.stack:
        missing.append(f"{place.name}.stack")
    if missing:
        return Undrawn(KIND, slug, title, tuple(missing))
    return _Joint(place, result, leading).drawing(slug, title)


class _Joint:
    """Places count along the bolt from under its head, mm; the head is at the left."""

    def __init__(self, place: JointPlace, result: Result, leading: str) -> None:
        self.place, self.result, self.leading = place, result, leading
        self.d = place.diameter.mid
        self.layers = [(item, Size(layer_thickness(item), STAND_IN)) for item in place.stack]
        self.under_head = Size(place.washer_thickness("head"), 0.0)
        self.under_nut = Size(place.washer_thickness("nut"), 0.0)
        self.grip = sum(size.at for _, size in self.layers)
        self.stack_end = self.under_head.at + self.grip
        self.nut_from = self.stack_end + self.under_nut.at
        self.nut = Size(place.nut_height, 0.9 * self.d)
        self.nut_end = self.nut_from + (self.nut.at if place.nut is not None else 0.0)
        self.length = Size(place.length, self.nut_end + 0.3 * self.d)
        bare = place.unthreaded
        self.thread = Size(bare, 0.4 * self.length.at)
        self.thread_at = bare.hi if self.thread.known else self.thread.at
        tapped = place.tapped
        self.depth = Size(tapped.depth, 1.5 * self.d) if tapped is not None else None
        drilled = tapped is not None and tapped.has("drill_depth")
        self.drill = Size(tapped.drill_depth, 0.0) if drilled else self.depth
        self.unknown = self._unknown()

    def _unknown(self) -> list[str]:
        place = self.place
        names = [
            item.id + (", gap" if item.has("gap") else ", thickness")
            for item, size in self.layers
            if not size.known
        ]
        names += [] if self.length.known else [f"length of {name_of(place.bolt)}" if place.bolt else "the bolt"]
        if place.nut is not None and not self.nut.known:
            names.append(f"height of {name_of(place.nut)}")
        if self.depth is not None and not self.depth.known:
            names.append("depth of the tapped hole")
        return names

    @property
    def head_high(self) -> float:
        return self.d * HEAD_HIGH

    @property
    def half(self) -> float:
        edges = [item.edge.mid for item, _ in self.layers if item.has("edge") and item.edge.hi < FARTHEST]
        return max(self.d * AROUND, *(min(edge, 4 * self.d) + 2.0 for edge in edges)) if edges else self.d * AROUND

    @property
    def reach(self) -> float:
        """To the far end of all that is drawn, from under the head."""
        ends = [self.length.at, self.nut_end]
        if self.drill is not None and self.depth is not None:
            ends.append(self.nut_from + max(self.drill.at, self.depth.at) + BEYOND)
        missing = self._finding("bolt-too-short")
        if missing is not None and missing.check.margin is not None:
            ends.append(self.length.at - max(missing.check.margin.mid, -50.0))
        return max(ends) + 2.0

    def _finding(self, slug: str) -> Finding | None:
        return failing(self.result, slug, self.place.name)

    def drawing(self, slug: str, title: str) -> Drawing:
        wide = self.head_high + self.reach + 4.0
        scale = scale_that_fits(wide, 2 * self.half, ROOM * 0.9, 80.0)
        sheet = Sheet(slug, title, self.result.build.name, scale, self.leading)
        sheet.note(self._first_words())
        flags = Flags()
        x0 = LEFT + (ROOM - wide * scale) / 2 + (self.head_high + 2.0) * scale
        axis = Axis(sheet.canvas, scale, x0, 0.0)
        self._labels(flags, axis)
        top = sheet.y
        view = sheet.skip(flags.height())
        axis.y0 = view + self.half * scale
        self._layers(axis)
        self._tapped(axis)
        self._washers(axis)
        self._nut(axis)
        self._bolt(axis)
        self._shear_plane(axis)
        self._trouble(axis)
        axis.line((-self.head_high - 2, 0), (self.reach, 0), "centre")
        flags.draw(sheet.canvas, top, view)
        sheet.skip(2 * self.half * scale)
        self._dimensions(sheet, axis)
        found = findings_of(self.result, SLUGS, (self.place.name,))
        tell(sheet, found)
        not_known(sheet, self.unknown)
        sheet.scale_bar()
        ids = (self.place.name, *(part.id for part in self.place.parts))
        return Drawing(KIND, slug, title, self._caption(found), sheet, ids, (self.place.name,))

    # ---- shapes ----------------------------------------------------------------------------------

    def _layers(self, axis: Axis) -> None:
        x = self.under_head.at
        for number, (item, size) in enumerate(self.layers):
            if not item.has("gap") or item.has("thickness"):
                self._layer(axis, item, x, x + size.at, HATCHINGS[number % 3], size.known)
            x += size.at

    def _layer(self, axis: Axis, item: Any, first: float, last: float, hatch: str, known: bool) -> None:
        """Two halves beside the hole; of a hollow one, its two walls."""
        hole = item.hole.mid / 2 if item.has("hole") and item.hole.hi < FARTHEST else self.d / 2 + 0.5
        edge = item.edge.mid if item.has("edge") and item.edge.hi < FARTHEST else self.half
        style, name = "outline" if known else "unknown", item.id
        spans = [(first, last)]
        if item.has("wall") and item.wall.known and 2 * item.wall.mid < last - first:
            spans = [(first, first + item.wall.mid), (last - item.wall.mid, last)]
            for side in (1, -1):
                end = min(edge, self.half) if side > 0 else self.half
                axis.line((first, side * end), (last, side * end), "fine")
            if item.has("sleeve") and item.sleeve:
                for side in (1, -1):
                    axis.rect(
                        (spans[0][1], spans[1][0]),
                        (side * hole, side * (hole + 3.0)),
                        "medium",
                        "metal-close",
                        name,
                        "sleeve",
                    )
        for span in spans:
            axis.rect(span, (hole, min(edge, self.half)), style, hatch, name, "layer")
            axis.rect(span, (-hole, -self.half), style, hatch, name, "layer")

    def _tapped(self, axis: Axis) -> None:
        """The block with the threaded hole; its far side is cut off."""
        if self.depth is None or self.drill is None:
            return
        first = self.nut_from
        deepest = max(self.depth.at, self.drill.at)
        through = self.place.tapped.has("through") and self.place.tapped.through
        end = first + deepest + (0.0 if through else BEYOND)
        style = "outline" if self.depth.known else "unknown"
        name = self.place.tapped.id
        axis.rect((first, end), (self.half, -self.half), style, "metal-turned", name, "tapped")
        axis.rect((first, first + self.drill.at), (self.d * 0.42, -self.d * 0.42), "medium", "#fff", name, "drill")
        axis.rect(
            (first, first + self.depth.at), (self.d / 2, -self.d / 2), "medium", "#fff", name, "tapped-thread"
        )

    def _washers(self, axis: Axis) -> None:
        spots = (("head", 0.0, self.under_head), ("nut", self.stack_end, self.under_nut))
        for side, first, size in spots:
            washer = self.place.washer(side)
            if washer is None or not size.at:
                continue
            line = washer.line
            outside = line.outside.mid if line is not None and line.has("outside") else 2.1 * self.d
            name = line.id if line is not None else self.place.name
            for way in (1, -1):
                axis.rect(
                    (first, first + size.at),
                    (way * self.d * 0.53, way * outside / 2),
                    "outline",
                    "#fff",
                    name,
                    f"washer-{side}",
                )

    def _nut(self, axis: Axis) -> None:
        if self.place.nut is None:
            return
        half = self.d * HEX_FLAT * CORNERS / 2
        style = "outline" if self.nut.known else "unknown"
        axis.rect((self.nut_from, self.nut_end), (half, -half), style, "#fff", self.place.nut.id, "nut")
        for off in (half / 2, -half / 2):
            axis.line((self.nut_from, off), (self.nut_end, off), "fine")
        if self.place.nylon:
            collar = self.nut_end - 0.25 * self.nut.at
            axis.rect(
                (collar, self.nut_end), (half * 0.8, -half * 0.8), "fine", "band", self.place.nut.id, "insert"
            )

    def _bolt(self, axis: Axis) -> None:
        name = self.place.bolt.id if self.place.bolt is not None else self.place.name
        half = self.d * HEX_FLAT * CORNERS / 2
        head = (-self.head_high, 0.0)
        axis.rect(head, (half, -half), "outline", SOLID, name, "head")
        for off in (half / 2, -half / 2):
            axis.line((head[0], off), (0.0, off), "fine")
        style = "outline" if self.length.known else "unknown"
        shank(axis, 0.0, self.length.at, self.d, self.thread_at, style, name, "bolt")
        if self.thread.known and self.place.unthreaded.width * axis.scale >= SEEN:
            span = (self.place.unthreaded.lo, self.place.unthreaded.hi)
            axis.rect(span, (self.d * 0.25, -self.d * 0.25), "none", "band", name, "thread-start-band")
        value = self.length.value
        if self.length.known and value.width * axis.scale >= SEEN:
            axis.rect((value.lo, value.hi), (self.d / 2, -self.d / 2), "none", "band", name, "bolt-end-band")

    def _shear_plane(self, axis: Axis) -> None:
        plane = self.place.farthest_shear_plane
        if plane is not None and plane.known:
            off = self.half + 1.0
            axis.line((plane.mid, off), (plane.mid, -off), "hidden", self.place.name, "shear-plane")

    def _trouble(self, axis: Axis) -> None:
        """Where the bolt ends too soon, or goes on too far, or has no thread for the nut."""
        half, name = self.d / 2, self.place.name
        for slug, first, last in self._clashes():
            axis.rect((first, last), (half, -half), "trouble", "trouble", name, slug)

    def _clashes(self) -> list[tuple[str, float, float]]:
        found = []
        short, deep = self._finding("bolt-too-short"), self._finding("bolt-bottoms-in-tapped-hole")
        if (
            short is not None
            and short.check.margin is not None
            and self.length.known
            and short.check.margin.mid > -1e3
        ):
            found.append(("bolt-too-short", self.length.at, self.length.at - short.check.margin.mid))
        if deep is not None and self.depth is not None and self.drill is not None:
            found.append(
                ("bolt-bottoms-in-tapped-hole", self.nut_from + min(self.depth.at, self.drill.at), self.length.at)
            )
        if self._finding("bolt-runs-out-of-thread") is not None and self.thread.known:
            found.append(("bolt-runs-out-of-thread", self.nut_from, self.thread_at))
        return [one for one in found if one[2] > one[1]]

    # ---- words -----------------------------------------------------------------------------------

    def _first_words(self) -> str:
        place = self.place
        what = f"{name_of(place.bolt)} {place.thread}" if place.bolt is not None else str(place.thread)
        how = (
            "into a tapped hole"
            if place.tapped is not None
            else f"with {name_of(place.nut)}"
            if place.nut
            else "no nut listed"
        )
        many = ""
        if place.count.is_exact:
            many = f", {plural(int(place.count.lo), 'bolt')} at each of {plural(place.places, 'place')}"
        plane = " Dashed line across: the shear plane." if place.farthest_shear_plane is not None else ""
        words = f"{what} {how}{many}. Grey: the bolt.{plane}"
        return words[:1].upper() + words[1:]

    def _labels(self, flags: Flags, axis: Axis) -> None:
        x, inside = self.under_head.at, 2.5
        for item, size in self.layers:
            words = _layer_name(item) + ("" if size.known else " ?")
            flags.add((axis.x(x + size.at / 2), inside), words, part=item.id)
            x += size.at
        if self.place.nut is not None:
            deep = (self.half - self.d * HEX_FLAT * CORNERS / 2) * axis.scale + 1.5
            flags.add(
                (axis.x((self.nut_from + self.nut_end) / 2), deep), name_of(self.place.nut), part=self.place.nut.id
            )
        if self.depth is not None:
            flags.add((axis.x(self.nut_from + self.depth.at), inside), "tapped part")
        for side, at in (("head", self.under_head.at / 2), ("nut", self.stack_end + self.under_nut.at / 2)):
            washer = self.place.washer(side)
            if washer is not None:
                flags.add(
                    (axis.x(at), (self.half - self.d * 0.8) * axis.scale),
                    "washer",
                    part=washer.line.id if washer.line else "",
                )
        for slug, first, last in self._clashes():
            finding = self._finding(slug)
            how = "too short" if slug == "bolt-too-short" else "too far" if "bottoms" in slug else "without thread"
            words = f"! {amount(finding.check.margin, self.leading)} {how}" if finding else "!"
            flags.add((axis.x((first + last) / 2), self.half * axis.scale), words, "trouble-text")

    def _dimensions(self, sheet: Sheet, axis: Axis) -> None:
        rows, low = Rows(sheet), sheet.y
        out = axis.y(-self.d / 2)
        x = self.under_head.at
        for _, size in self.layers:
            rows.add(axis.x(x), axis.x(x + size.at), size.words(self.leading), (low, low))
            x += size.at
        nut_low = axis.y(-self.d * HEX_FLAT * CORNERS / 2)
        if self.place.nut is not None:
            rows.add(
                axis.x(self.nut_from),
                axis.x(self.nut_end),
                f"nut {self.nut.words(self.leading)}",
                (nut_low, nut_low),
            )
            if self.length.known and self.nut.known and self.length.at > self.nut_end + 0.2:
                past = Size(self.place.length - self._flush(), 0.0)
                rows.add(
                    axis.x(self.nut_end),
                    axis.x(self.length.at),
                    f"past the nut {past.words(self.leading)}",
                    (nut_low, out),
                )
        if self.depth is not None:
            end = axis.x(self.nut_from + self.depth.at)
            rows.add(axis.x(self.nut_from), end, f"thread {self.depth.words(self.leading)} deep", (low, out))
        if self.thread.known:
            most = Size(self.place.unthreaded.clipped(self.thread_at), 0.0)
            words = f"plain shank, at most {most.words(self.leading)}"
            rows.add(axis.x(0.0), axis.x(self.thread_at), words, (low, low))
        rows.add(axis.x(0.0), axis.x(self.length.at), f"bolt {self.length.words(self.leading)}", (low, out))
        rows.draw()

    def _flush(self) -> Any:
        return self.place.grip + self.place.washers_thickness + self.place.nut_height

    def _caption(self, found: list[Finding]) -> str:
        layers = ", ".join(f"{_layer_name(item)} {size.words(self.leading)}" for item, size in self.layers)
        end = ""
        if self.place.nut is not None:
            end = f"; nut {self.nut.words(self.leading)}"
        elif self.depth is not None:
            end = f"; full thread in the hole {self.depth.words(self.leading)}"
        text = f"Section along the bolt, {self.length.words(self.leading)} long. From head to nut: {layers}{end}."
        return f"{text} {said(found, self.leading)}"


def _layer_name(item: Any) -> str:
    name = str(item.id).rsplit(" / ", 1)[-1]
    if item.has("gap") and not item.has("thickness"):
        return "gap" if name.startswith("layer ") else f"{name}, gap"
    return name
