"""The wheel end cut along a stud: hub face, plates, studs, nuts, wheel - and what does not go together."""

from __future__ import annotations

from partscheck.build.places import LugSet
from partscheck.build.stud_data import has_studs
from partscheck.report.drawing.cut import Cut
from partscheck.report.drawing.drawing import Drawing, Undrawn
from partscheck.report.drawing.sheet import LEFT, ROOM, Sheet, scale_that_fits
from partscheck.report.drawing.values import alike, findings_of, places_of, said, tell, title_of
from partscheck.rules.message import name_of

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import Any

    from partscheck.build.places import WheelEnd
    from partscheck.engine import Result

KIND, TITLE = "wheel-end", "Wheel end in section"
TALLEST = 160.0  # mm of paper that the cuts may take together
SLUGS = (
    "stud-above-adapter-face", "adapter-nut-above-face", "stud-too-short-for-adapter", "stud-too-short-for-wheel",
    "stud-bottoms-in-nut", "nut-runs-out-of-stud-thread", "lug-thread-mismatch", "lug-seat-mismatch",
    "adapter-nut-seat-mismatch", "cap-hits-wheel", "center-bore-too-small", "slip-spacer-too-thick",
)  # fmt: skip


def wheel_end_drawings(result: Result, leading: str) -> Iterator[Drawing | Undrawn]:
    """One drawing for each wheel end that is not like another."""
    ends = [end for end in result.fit.ends if end.hub is not None or end.wheel is not None]
    for group in alike(ends, _around):
        yield _draw(group[0], places_of(group), result, leading)


def _around(end: WheelEnd) -> list[Any]:
    roles = ("stud", "plate-stud", "hub-nut", "hub-bolt", "lug-nut", "wheel-bolt")
    return [end.hub, end.wheel, *(end.part(role) for role in roles), *end.plates]


def _draw(end: WheelEnd, places: tuple[str, ...], result: Result, leading: str) -> Drawing | Undrawn:
    slug, title = f"{KIND}-{places[0]}", title_of(TITLE, places)
    lugs = [one for one in result.fit.bindings(LugSet) if one.end is end and one.base is not None and one.held]
    cuts = [Cut(one, result) for one in lugs if has_studs(one) or one.bolted]
    missing = tuple(dict.fromkeys(name for cut in cuts for name in cut.missing))
    cuts = [cut for cut in cuts if not cut.missing]
    if not cuts:
        return Undrawn(KIND, slug, title, missing or ("hub.stud_thread", "wheel.bolt_circle"))
    reach = max(cut.outboard for cut in cuts) - min(cut.inboard for cut in cuts)
    scale = scale_that_fits(reach, sum(cut.tall for cut in cuts), ROOM, TALLEST)
    sheet = Sheet(slug, title, result.build.name, scale, leading)
    x0 = LEFT + (ROOM - reach * scale) / 2 - min(cut.inboard for cut in cuts) * scale
    for cut in cuts:
        sheet.head(cut.heading)
        cut.draw(sheet, x0)
    found = findings_of(result, SLUGS, places)
    tell(sheet, found)
    sheet.note("Inboard is to the left. Dashed lines and question marks: not on the list, drawn to no size.")
    sheet.scale_bar()
    parts = tuple(dict.fromkeys(part.id for cut in cuts for part in cut.shown))
    names = ", ".join(dict.fromkeys(name_of(part) for cut in cuts for part in cut.shown))
    caption = f"Section through a stud at {', '.join(places)}, from inboard to outboard: {names}. "
    caption += " ".join(cut.words(leading) for cut in cuts) + " " + said(found, leading)
    return Drawing(KIND, slug, title, caption, sheet, parts, places)
