"""Texts of the drawings: none on another, none off the sheet, none too small; nothing steers the page."""

from __future__ import annotations

import re
from functools import cache
from itertools import combinations
from xml.etree import ElementTree

import pytest
from case_files import all_cases, check_text
from drawn import EXAMPLES, SVG, Picture, drawn, drawn_from, ends, text_boxes
from hypothesis import given
from hypothesis import strategies as st

import partscheck
from partscheck.report.drawing import Drawing
from partscheck.report.drawing.canvas import Canvas
from partscheck.report.drawing.dimensions import Flags, Rows
from partscheck.report.drawing.lettering import SMALL, width
from partscheck.report.drawing.sheet import Sheet

LISTS = [path.stem for path in sorted(EXAMPLES.glob("*.yaml")) if "swap:" not in path.read_text()]
HAIR = 0.05  # mm
SMALLEST = 2.5  # mm of paper

HOSTILE = """
build: '<script>alert(1)</script> "quoted" & =1+1'
layout: {axles: 1, hub_face_distance: 60 in, frame_width: 46 in, coupler_to_axle: 120 in}
service: {gross_weight: 2600 lb}
parts:
  - {id: hub, kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, stud_length: 1.75 in, rating: 1750 lb,
     per: each, inner_bearing_to_face: 50 mm, outer_bearing_to_face: -10 mm}
  - {id: wheel, kind: wheel, size: 15 x 6 in, bolt_circle: 5 x 4.5 in, offset: 0 mm, rating: 1300 lb}
  - {id: a-name-that-goes-on-and-on-and-on-and-on, kind: tire, size: ST205/75R15}
  - {id: bolt, kind: bolt, size: M10 x 40}
bolted_joints:
  - {id: a / b, bolt: bolt, tapped: {thread: M10, depth: 20 mm, through: false},
     stack: [{name: '<img src=x onerror=y>', thickness: 12 mm}, {name: ']]> <b>&amp;', thickness: 3 mm}]}
  - {id: other, bolt: bolt, tapped: {thread: M10, depth: 20 mm},
     stack: [{name: a layer with a name as long as a sentence that nobody wants to read, thickness: unknown}]}
loads:
  - {what: '</text><svg/onload=x>', weight: 640 lb, from_coupler: 100 in}
  - {what: nobody weighed this, weight: unknown, from_coupler: 110 in}
  - {what: nobody knows where this is, weight: 10 lb, from_coupler: unknown}
"""
SPARSE = """
layout: {coupler_to_axle: 3 m}
parts:
  - {id: hub, kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, stud_length: unknown}
  - {id: plate, kind: adapter, hub_circle: 5 x 4.5 in, wheel_circle: 5 x 5.5 in, thickness: unknown}
  - {id: wheel, kind: wheel, size: 15 x 6 in, bolt_circle: 5 x 5.5 in}
"""


SOURCES = [*((name, leading) for name in LISTS for leading in ("inch", "metric")), ("hostile", ""), ("sparse", "")]


@cache
def of(name: str, leading: str) -> tuple[Drawing, ...]:
    texts = {"hostile": HOSTILE, "sparse": SPARSE}
    found = drawn_from(texts[name]) if name in texts else drawn(name, leading)
    return tuple(found.values())


@pytest.fixture(params=SOURCES, ids=[" ".join(source) for source in SOURCES])
def drawings(request: pytest.FixtureRequest) -> tuple[Drawing, ...]:
    found = of(*request.param)
    assert found
    return found


def test_no_text_lies_on_another(drawings: tuple[Drawing, ...]) -> None:
    for drawing in drawings:
        for one, other in combinations(text_boxes(drawing), 2):
            level = min(one[3], other[3]) - max(one[1], other[1])
            upright = min(one[4], other[4]) - max(one[2], other[2])
            assert level < HAIR or upright < HAIR, f"{one[0]!r} lies on {other[0]!r}"


def test_no_text_leaves_the_sheet(drawings: tuple[Drawing, ...]) -> None:
    for drawing in drawings:
        wide, high = drawing.size
        for words, left, top, right, bottom in text_boxes(drawing):
            assert min(left, top, wide - right, high - bottom) >= 0, f"{words!r} leaves the sheet"


def test_no_shape_leaves_the_sheet(drawings: tuple[Drawing, ...]) -> None:
    for drawing in drawings:
        shapes = [one for one in Picture(drawing).root.iter() if one.get("class", "").startswith("pd-")]
        for shape in shapes:
            if shape.tag in (f"{SVG}text", f"{SVG}path"):
                continue
            for axis in (0, 1):
                low, high = ends(shape, axis)
                assert min(low, drawing.size[axis] - high) >= 0, ElementTree.tostring(shape)


def test_lettering_is_never_too_small(drawings: tuple[Drawing, ...]) -> None:
    for drawing in drawings:
        for one in ElementTree.fromstring(drawing.svg()).iter(f"{SVG}text"):
            assert float(one.get("font-size", "0")) >= SMALLEST


def test_it_says_in_words_what_it_shows(drawings: tuple[Drawing, ...]) -> None:
    for drawing in drawings:
        root = ElementTree.fromstring(drawing.svg())
        assert root.get("role") == "img"
        assert root.findtext(f"{SVG}title") == drawing.title
        assert root.findtext(f"{SVG}desc") == drawing.caption
        named = (root.get("aria-labelledby") or "").split()
        ids = [one.get("id") for one in root.iter() if one.get("id")]
        assert set(named) <= set(ids)
        assert len(ids) == len(set(ids))
        assert len(drawing.caption) > 40
        assert drawing.parts


def test_nothing_in_it_runs_or_comes_from_outside(drawings: tuple[Drawing, ...]) -> None:
    for drawing in drawings:
        allowed = {"svg", "title", "desc", "style", "defs", "pattern", "g", "line", "rect", "circle", "polygon",
                   "polyline", "path", "text"}  # fmt: skip
        for one in ElementTree.fromstring(drawing.svg()).iter():
            assert one.tag.removeprefix(SVG) in allowed
            for name, value in one.attrib.items():
                assert not name.lower().startswith("on")
                assert "href" not in name
                assert "http" not in value
                assert "url(" not in value or value.startswith("url(#pd-")
        style = ElementTree.fromstring(drawing.svg()).findtext(f"{SVG}style") or ""
        assert not re.search("url|@import", style)
        assert re.fullmatch(r"[a-z0-9A-Z-]+", drawing.slug)


def test_drawings_on_one_page_do_not_share_ids() -> None:
    for name in LISTS:
        ids: list[str] = []
        for one in drawn(name).values():
            ids += [shape.get("id", "") for shape in ElementTree.fromstring(one.svg()).iter() if shape.get("id")]
        assert len(ids) == len(set(ids)), name


def test_classes_are_prefixed() -> None:
    for one in drawn("apiary-first").values():
        style = ElementTree.fromstring(one.svg()).findtext(f"{SVG}style") or ""
        assert all(line.startswith(".pd-") for line in style.split("\n") if line.strip())


def test_hostile_names_are_text_and_nothing_else() -> None:
    found = drawn_from(HOSTILE)
    assert {"wheel-end-1L", "load-plane-1L", "side-view", "load-path"} <= set(found)
    for one in found.values():
        assert "<script" not in one.svg()
        assert "<img" not in one.svg()
    words = [words for one in found.values() for words, *_ in text_boxes(one)]
    assert any("<script>" in one for one in words), "the name is shown as it was typed"


def test_marks_that_turn_the_writing_are_left_out() -> None:
    from partscheck.report.drawing.lettering import clean

    assert clean("a\u202eb\u200fc\x07d\ne\ud800") == "a b c d e"
    assert clean("x" * 500).endswith("...")


EXTREME = """
layout: {{axles: 1, hub_face_distance: {far}, frame_width: {far}, coupler_to_axle: {far}, coupler_height: {near}}}
service: {{gross_weight: 2600 lb}}
parts:
  - {{id: hub, kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, stud_length: {far}, pilot: {near},
     inner_bearing_to_face: {far}, outer_bearing_to_face: {near}}}
  - {{id: plate, kind: adapter, hub_circle: 5 x 4.5 in, wheel_circle: 5 x 5.5 in, thickness: {near}}}
  - {{id: wheel, kind: wheel, size: 15 x 6 in, bolt_circle: 5 x 5.5 in, offset: {far}, center_bore: {near}}}
  - {{id: bolt, kind: bolt, size: M10 x 40}}
bolted_joints:
  - {{id: lid, bolt: bolt, tapped: {{thread: M10, depth: {far}}}, stack: [{{thickness: {near}, edge: {far}}}]}}
loads:
  - {{what: far ahead, weight: 640 lb, from_coupler: -{far}}}
  - {{what: nothing, weight: 0 lb, from_coupler: {far}}}
"""


@pytest.mark.parametrize(
    ("near", "far"), [("0.01 mm", "900 m"), ("0 mm", "0 mm"), ("4 m", "5 m"), ("60 mm", "1 mm")]
)
def test_sizes_out_of_all_proportion_still_stay_on_the_sheet(near: str, far: str) -> None:
    for drawing in drawn_from(EXTREME.format(near=near, far=far)).values():
        shapes = [one for one in Picture(drawing).root.iter() if one.get("class", "").startswith("pd-")]
        reach = [ends(one, axis) for one in shapes if one.tag not in (f"{SVG}text", f"{SVG}path") for axis in (0,)]
        assert min(low for low, _ in reach) >= 0, drawing
        assert max(high for _, high in reach) <= drawing.size[0], drawing


def test_whatever_rules_are_tried_on_can_be_drawn_without_a_text_on_another() -> None:
    for _, _, case in all_cases()[::12]:
        for drawing in partscheck.drawings(check_text(case["list"])):
            boxes = text_boxes(drawing)
            for one, other in combinations(boxes, 2):
                level = min(one[3], other[3]) - max(one[1], other[1])
                upright = min(one[4], other[4]) - max(one[2], other[2])
                assert min(level, upright) < HAIR, f"{one[0]!r} lies on {other[0]!r}"


# ---- what is not known ---------------------------------------------------------------------------------


def test_unknown_values_are_dashed_and_marked() -> None:
    found = drawn_from(SPARSE)
    picture = Picture(found["wheel-end-1L"])
    assert picture.one("stud", "hub").get("class") == "pd-unknown"
    assert picture.one("held", "plate").get("class") == "pd-unknown"
    words = [words for words, *_ in text_boxes(found["wheel-end-1L"])]
    assert "stud ?" in words
    assert "adapter ?" in words


def test_what_cannot_be_drawn_names_its_fields() -> None:
    from partscheck.report.drawing import Undrawn, every_drawing

    result = partscheck.check(EXAMPLES / "four-line-cart.yaml")
    lacking = {one.slug: one.missing for one in every_drawing(result) if isinstance(one, Undrawn)}
    assert lacking["side-view"] == ("layout.coupler_to_axle",)
    assert "wheel.offset" in lacking["load-plane-1L"]
    assert lacking["load-path"] == ("service.gross_weight",)


# ---- dimensions ------------------------------------------------------------------------------------


@given(
    st.lists(
        st.tuples(st.floats(6, 114), st.floats(6, 114), st.sampled_from(["2 in", "1.98 in (50.3 mm)"])),
        min_size=1,
        max_size=7,
    )
)
def test_no_extension_line_passes_through_a_dimension(asked: list[tuple[float, float, str]]) -> None:
    """Rows of any dimensions: a text stands clear of every extension line, or the line is interrupted."""
    sheet = Sheet("rows", "Rows", "", 1.0, "inch")
    top = len(sheet.canvas.root)
    rows = Rows(sheet)
    for x1, x2, words in asked:
        rows.add(x1, x2, words, (sheet.y, sheet.y))
    rows.draw()
    shapes = list(sheet.canvas.root)[top:]
    texts = [one for one in shapes if one.tag == "text"]
    assert [one.text for one in texts] == [words for _, _, words in asked]
    lines = [one for one in shapes if one.tag == "line" and one.get("x1") == one.get("x2")]
    upright = [ends(one, 1) + ends(one, 0) for one in lines]
    for one in texts:
        (left, right), y = level(one), float(one.get("y", "0"))
        for high, low, x, _ in upright:
            through = left < x < right and min(low, y) - max(high, y - SMALL * 0.7) > HAIR
            assert not through, f"a line at {x} passes through {one.text!r}"


def test_a_dimension_that_is_too_short_for_its_text_has_it_beside() -> None:
    sheet = Sheet("rows", "Rows", "", 1.0, "inch")
    rows = Rows(sheet)
    rows.add(30.0, 36.0, "1/4 in (6.3 mm)", (sheet.y, sheet.y))
    rows.add(30.0, 60.0, "2 in", (sheet.y, sheet.y))
    rows.draw()
    first = next(one for one in sheet.canvas.root if one.text == "1/4 in (6.3 mm)")
    left, right = level(first)
    assert left > 60.0 or right < 30.0, "it stands among the extension lines"


def test_a_text_beside_its_dimension_stands_on_the_nearer_side() -> None:
    """On the far side of other extension lines its line would look like a dimension of its own."""
    sheet = Sheet("rows", "Rows", "", 1.0, "inch")
    rows = Rows(sheet)
    rows.add(43.0, 49.0, "1/4 in (6.3 mm)", (sheet.y, sheet.y))
    rows.add(49.0, 68.0, "3/4 in", (sheet.y, sheet.y))
    rows.add(43.0, 75.0, "1-1/4 in", (sheet.y, sheet.y))
    rows.draw()
    first = next(one for one in sheet.canvas.root if one.text == "1/4 in (6.3 mm)")
    assert 36.0 < level(first)[1] < 43.0


def level(text: ElementTree.Element) -> tuple[float, float]:
    """Left and right end of a dimension's text."""
    wide = width(text.text or "", SMALL)
    before = {"start": 0.0, "middle": wide / 2, "end": wide}[text.get("text-anchor", "start")]
    left = float(text.get("x", "0")) - before
    return left, left + wide


def test_the_tick_of_a_rating_keeps_off_the_lettering() -> None:
    for name in LISTS:
        found = drawn(name).get("load-path")
        if found is None:
            continue
        for tick in (one for one in Picture(found).root.iter() if "rating" in one.get("data-face", "")):
            (x, _), (top, low) = ends(tick, 0), ends(tick, 1)
            for words, left, high, right, bottom in text_boxes(found):
                assert not (left < x < right and high < low and bottom + 0.4 > top), f"a tick touches {words!r}"


def test_no_load_hangs_in_the_air() -> None:
    """A load behind the frame stands on what reaches out to it."""
    picture = Picture(drawn("apiary-first")["side-view"])
    frame, rack, load = picture.level("frame"), picture.level("rack"), picture.one("load-4")
    assert abs(rack[0] - frame[1]) < HAIR
    assert rack[0] < ends(load, 0)[0] < rack[1]
    assert abs(ends(load, 1)[1] - picture.upright("rack")[0]) < HAIR


# ---- labels over a view ----------------------------------------------------------------------------


def test_no_line_passes_through_a_label(drawings: tuple[Drawing, ...]) -> None:
    for drawing in drawings:
        root = Picture(drawing).root
        boxes = text_boxes(drawing)
        for line in root.iter(f"{SVG}line"):
            if line.get("x1") != line.get("x2") or "centre" in line.get("class", ""):
                continue
            (x, _), (high, low) = ends(line, 0), ends(line, 1)
            for words, left, top, right, bottom in boxes:
                through = left < x < right and min(low, bottom) - max(high, top) > HAIR
                assert not through, f"a line at {x} passes through {words!r} of {drawing.slug}"


@pytest.mark.parametrize("name", LISTS)
def test_lines_of_labels_are_whole_in_the_examples(name: str) -> None:
    """None is interrupted for the sake of a text: each begins right under its own label."""
    for drawing in drawn(name).values():
        root = Picture(drawing).root
        lines = [one for one in root.iter(f"{SVG}line") if "fine" in one.get("class", "")]
        for dot in (one for one in root.iter(f"{SVG}circle") if one.get("r") == "0.5"):
            x, y = float(dot.get("cx", "0")), float(dot.get("cy", "0"))
            mine = [one for one in lines if ends(one, 0) == (x, x) and abs(ends(one, 1)[1] - y) < HAIR]
            assert len(mine) == 1, drawing
            top = ends(mine[0], 1)[0]
            over = [one for one in text_boxes(drawing) if one[1] - 1 < x < one[3] + 1 and one[4] < top + HAIR]
            nearest = max(over, key=lambda one: one[4])
            assert top - nearest[4] < 1.0, f"{nearest[0]!r} of {drawing.slug}"


@given(st.lists(st.tuples(st.floats(6, 114), st.integers(1, 30)), min_size=1, max_size=7))
def test_labels_over_a_view_never_lie_on_each_other(asked: list[tuple[float, int]]) -> None:
    canvas, flags = Canvas("flags"), Flags()
    for x, long in asked:
        flags.add((x, 3.0), "n" * long)
    high = flags.height()
    flags.draw(canvas, 0.0, high)
    texts = [one for one in canvas.root if one.tag == "text"]
    boxes = [(*level(one), float(one.get("y", "0"))) for one in texts]
    assert len(boxes) == len(asked)
    for one, other in combinations(boxes, 2):
        assert abs(one[2] - other[2]) > SMALL or one[1] < other[0] or other[1] < one[0]
    assert min(y - SMALL for _, _, y in boxes) > -HAIR
    for line in (one for one in canvas.root if one.tag == "line"):
        x, (top, low) = float(line.get("x1", "0")), ends(line, 1)
        assert not any(left < x < right and top < y < low for left, right, y in boxes)
