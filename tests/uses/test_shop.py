"""The bench sheet: hand-worked figures, the order of the work, what it refuses, and what any list may do to it."""

from __future__ import annotations

import json
import random
import re
from functools import cache
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from case_files import all_cases, shipped_catalogue
from test_twins import respell

import partscheck
from partscheck.build.reader import read_build
from partscheck.cli import main
from partscheck.engine import Result, check_build
from partscheck.report.shop_json import shop_data
from partscheck.report.shop_markdown import shop_markdown
from partscheck.report.shop_text import shop_text
from partscheck.uses.shop import BenchSheet, Step, bench_sheet

ROOT = Path(__file__).resolve().parents[2]
EXAMPLES = ("apiary-first", "apiary-corrected", "metric-750", "tandem-arms", "four-line-cart")
CASES = all_cases()


def checked(text: str) -> Result:
    return check_build(read_build(text.encode(), shipped_catalogue(), "case.yaml"))


def sheet_of(text: str) -> BenchSheet:
    return bench_sheet(checked(text))


def example(name: str) -> BenchSheet:
    return partscheck.bench_sheet(partscheck.check(ROOT / f"examples/{name}.yaml", [ROOT / "examples/catalog"]))


def steps_of(sheet: BenchSheet, key: str) -> list[Step]:
    return [step for section in sheet.sections if section.key == key for step in section.steps]


def words(step: Step, leading: str = "inch") -> str:
    return " ".join(one.text(leading) for one in (step.do, *step.details))


# ---- hand-worked ---------------------------------------------------------------------------------

ON_STUDS = """
layout: {axles: 1}
parts:
  - {id: hub, kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, stud_length: 1.75 in}
  - {id: plate, kind: adapter, hub_circle: 5 x 4.5 in, wheel_circle: 5 x 5.5 in, thickness: 1.5 in,
     nut_seat_thickness: 0.75 in, stud_thread: 1/2-20}
  - {id: hub-nuts, kind: lug-nut, mounts_on: hub, thread: 1/2-20, depth: 0.6 in, hex: 19 mm, seat: conical}
"""


def test_studs_are_trimmed_to_a_millimetre_below_the_face() -> None:
    """Plate 38.1 mm: 38.1 - 1 = 37.1 mm; of 44.45 mm that takes 7.35 mm off; 37.1 - 19.05 = 18.05 mm of thread
    stays in the nut, and 12.7 mm (1 x 1/2 in) is needed.
    """
    (step,) = steps_of(sheet_of(ON_STUDS), "trim")
    figures = dict(step.figures)
    assert figures["target"].lo == pytest.approx(37.1)
    assert figures["off"].lo == pytest.approx(7.35)
    assert figures["stays"].lo == pytest.approx(18.05)
    assert figures["needed"].lo == pytest.approx(12.7)
    assert "5 studs at each of 1L, 1R" in words(step)
    assert "run the nut off over the cut" in words(step).lower()
    assert "face shield" in next(tool.text("inch") for tool in step.tools)
    assert step.stops == []  # the stop is what this step puts right


def test_the_stop_that_trimming_settles_still_comes_before_the_wheels() -> None:
    sheet = sheet_of(ON_STUDS)
    assert [stop.rule.slug for stop in sheet.stops] == ["stud-above-adapter-face"]
    (step,) = steps_of(sheet, "wheels")
    assert step.stops == ["1"]
    assert "DO NOT DO THIS before stop 1 is settled." in shop_text(sheet, "inch")


def test_another_circle_is_settled_before_studs_are_cut() -> None:
    text = ON_STUDS.replace("hub_circle: 5 x 4.5 in", "hub_circle: 5 x 4.75 in")
    sheet = sheet_of(text)
    (step,) = steps_of(sheet, "trim")
    slugs = [sheet.stops[int(number) - 1].rule.slug for number in step.stops]
    assert slugs == ["bolt-circle-mismatch"]


def test_studs_that_would_be_left_too_short_are_not_cut() -> None:
    """Nut seats at 1.2 in (30.48): 37.1 - 30.48 = 6.6 mm of thread would stay, 12.7 mm is needed."""
    (step,) = steps_of(sheet_of(ON_STUDS.replace("0.75 in", "1.2 in")), "trim")
    assert words(step).startswith("do not cut the studs")


def test_studs_that_end_below_the_face_need_no_step() -> None:
    assert steps_of(sheet_of(ON_STUDS.replace("stud_length: 1.75 in", "stud_length: 1.4 in")), "trim") == []


def test_a_seal_driver_bears_on_the_rim_of_the_case() -> None:
    """Outside 2.565, shaft 1.719 in: at most 2.565 - 1/32 = 2.53375 in; at least a third of the way in, as
    the limit of 33 % has it: 2.565 - 0.33 x 0.846 = 2.28582 in.
    """
    (step,) = steps_of(example("apiary-corrected"), "seals")
    figures = dict(step.figures)
    assert figures["most"].lo / 25.4 == pytest.approx(2.53375)
    assert figures["least"].lo / 25.4 == pytest.approx(2.28582)
    printed = re.search(r"driver (\S+) in \((\S+) mm\) to (\S+) in \((\S+) mm\)", words(step))
    assert printed is not None
    assert [float(one) for one in printed.groups()] == [2.29, 58.1, 2.53, 64.3]  # rounded into the range


def test_a_driver_of_a_cup_is_smaller_than_the_cup() -> None:
    """L44610 is 50.292 mm outside: less 1/32 in (0.79375) is 49.498 mm."""
    text = "parts: [{kind: hub}, {id: b, kind: bearing, place: outer, designation: L44649/L44610}]"
    (step,) = steps_of(sheet_of(text), "cups")
    assert dict(step.figures)["most"].lo == pytest.approx(49.49825)


BOLTED = """
parts:
  - {id: b, kind: bolt, size: 1/2-13 x 2 in, grade: 5, finish: zinc}
  - {id: n, kind: nut, thread: 1/2-13, grade: 5}
bolted_joints:
  - {id: bracket, bolt: b, nut: n, bolts: 4, places: 2, torque: 75 ft-lb,
     stack: [{name: plate, thickness: 1/2 in, hole: 17/32 in}, {name: rail, thickness: 1/2 in, hole: 9/16 in}]}
"""


def test_rounds_and_oiled_torque_of_a_joint() -> None:
    """75 ft-lb dry at K 0.20: oiled at K 0.18 the same preload takes 75 x 0.18 / 0.20 = 67.5 ft-lb; the rounds are
    0.3 x 75 = 22.5 and 0.6 x 75 = 45 ft-lb.
    """
    (step,) = steps_of(sheet_of(BOLTED), "joints")
    torque = step.torque
    assert torque is not None
    assert torque.full is not None
    assert torque.oiled is not None
    foot_pounds = 1.3558179483
    assert torque.full.lo / foot_pounds == pytest.approx(75)
    assert torque.oiled.lo / foot_pounds == pytest.approx(67.5)
    assert [one.lo / foot_pounds for one in torque.stages] == pytest.approx([22.5, 45])
    assert torque.pieces == 4
    assert "8 bolts, 4 at each of 2 places" in words(step)
    assert "socket on the nut: 3/4 in; wrench on the head: 3/4 in." in words(step)


def test_layers_with_another_hole_have_a_step_of_their_own() -> None:
    first, second = steps_of(sheet_of(BOLTED), "drill")
    assert "drill 17/32 in (13.5 mm) in plate of 'bracket': 8 holes" in words(first)
    assert "Drill bit: 17/32 in or 13.5 mm." in words(first)
    # 9/16 in is 14.2875 mm; the next metric drill of the usual sets is 14.5 mm
    assert "drill 9/16 in" in words(second)
    assert "9/16 in or 14.5 mm" in words(second)


def test_a_coated_hole_is_chased_and_not_drilled() -> None:
    text = BOLTED.replace("nut: n,", "tapped: {thread: 1/2-13, depth: 1 in, coated: powder},")
    sheet = sheet_of(text)
    (step,) = steps_of(sheet, "tap")
    assert words(step).startswith("chase the threads 1/2-13 UNC")
    assert "No drill" in words(step)
    slugs = [finding.rule.slug for one in sheet.steps() for finding in one.cautions]
    assert "coated-threads" not in slugs  # the step is what the caution asks for


def test_a_bare_hole_is_tapped() -> None:
    text = BOLTED.replace("nut: n,", "tapped: {thread: 1/2-13, depth: 1 in, drill_depth: 1.25 in},")
    (step,) = steps_of(sheet_of(text), "tap")
    assert "Tap drill 27/64 in (10.7 mm), 78 % of thread." in words(step)
    assert "Drill 1.25 in (31.8 mm) deep" in words(step)


WHEEL = """
parts:
  - {id: hub, kind: hub, bolt_circle: CIRCLE, stud_thread: 1/2-20, stud_length: 1.5 in}
  - {id: wheel, kind: wheel, bolt_circle: CIRCLE, nut_seat: conical, seat_angle: 60 deg, TORQUE}
  - {id: nuts, kind: lug-nut, thread: 1/2-20, seat: conical, seat_angle: 60 deg, hex: 0.75 in}
"""


@pytest.mark.parametrize(
    ("circle", "order"),
    [("4 x 4 in", "1-3-2-4"), ("5 x 4.5 in", "1-3-5-2-4"), ("6 x 5.5 in", "1-4-2-5-3-6"),
     ("8 x 6.5 in", "1-5-3-7-2-6-4-8"), ("10 x 285.75 mm", "1-6-3-8-5-10-2-7-4-9")],
)  # fmt: skip
def test_a_star_for_every_number_of_lugs(circle: str, order: str) -> None:
    text = WHEEL.replace("CIRCLE", circle).replace("TORQUE", "nut_torque: 100 ft-lb")
    (step,) = steps_of(sheet_of(text), "wheels")
    assert f"order {order}:" in words(step)
    assert ("neighbours must follow" in words(step)) is (circle[0] == "4")
    assert step.torque is not None
    assert len(step.torque.stages) == 2
    assert "Socket 3/4 in." in words(step)


def test_without_a_makers_torque_the_sheet_says_so() -> None:
    text = WHEEL.replace("CIRCLE", "5 x 4.5 in").replace("TORQUE", "rating: 2000 lb")
    sheet = sheet_of(text)
    (step,) = steps_of(sheet, "wheels")
    assert "Torque by the maker's sheet of the wheel: ask for it" in words(step)
    assert step.torque is not None
    assert step.torque.full is not None
    assert not step.torque.exact
    assert "* only what is usual for the thread" in shop_text(sheet, "inch")
    assert "recalled" in {one.kind for one in step.basis}


def test_an_unusual_thread_has_no_torque_at_all() -> None:
    text = WHEEL.replace("CIRCLE", "5 x 4.5 in").replace("TORQUE", "rating: 2000 lb").replace("1/2-20", "1/2-13")
    (step,) = steps_of(sheet_of(text), "wheels")
    assert step.torque is not None
    assert step.torque.full is None
    assert "the list has none" in words(step)


def test_an_own_limit_stands_behind_the_figure_that_it_gives() -> None:
    text = WHEEL.replace("CIRCLE", "5 x 4.5 in").replace("TORQUE", "nut_torque: 100 ft-lb")
    text += "practice: {torque_first_stage: {value: 50 %, reason: the wheel maker asks for it}}\n"
    (step,) = steps_of(sheet_of(text), "wheels")
    assert step.torque is not None
    assert step.torque.stages[0].lo == pytest.approx(0.5 * 100 * 1.3558179483)
    assert any("the wheel maker asks for it" in str(one) for one in step.basis)


# ---- order, scope, hands -------------------------------------------------------------------------


def test_the_order_is_that_of_the_work() -> None:
    """A seal after the bearing behind it, a hub after its brake, the wheels after the hubs."""
    keys = [section.key for section in example("apiary-corrected").sections]
    assert keys[:3] == ["drill", "tap", "joints"]
    assert keys[3:] == ["cups", "pack", "seals", "brakes", "bearings", "wiring", "wheels", "tow", "again"]


def test_steps_that_bind_to_nothing_are_left_out() -> None:
    keys = [section.key for section in example("metric-750").sections]
    assert keys == ["bearings", "wiring", "wheels", "tow", "again"]
    assert sheet_of("parts: [{kind: other, what: paint}]").sections == []


def test_every_brake_is_named_with_its_side() -> None:
    steps = steps_of(example("tandem-arms"), "brakes")
    assert [(step.at, [part.id for part in step.parts]) for step in steps] == [
        (("1L", "2L"), ["brake-left"]), (("1R", "2R"), ["brake-right"])
    ]  # fmt: skip
    assert "left-hand" in words(steps[0])
    assert "right-hand" in words(steps[1])


def test_a_brake_on_the_wrong_side_is_told() -> None:
    text = "parts: [{id: l, kind: brake, hand: right, at: 1L}, {id: r, kind: brake, hand: right, at: 1R}]"
    first, second = steps_of(sheet_of(text), "brakes")
    assert "made for the right side: the wrong one" in words(first)
    assert first.stops
    assert "the wrong one" not in words(second)


def test_measurements_come_first_and_steps_wait_for_them() -> None:
    sheet = example("four-line-cart")
    assert sheet.sections[0].key == "measure"
    numbers = {step.number for step in sheet.sections[0].steps}
    waiting = [step for step in sheet.steps() if step.waits]
    assert waiting
    assert all(set(step.waits) <= numbers for step in waiting)
    (trim,) = steps_of(sheet, "trim")
    assert "1.1" in trim.waits  # how much metal lies under the nuts decides whether cutting is right at all


def test_the_first_list_opens_with_its_stops_and_blocks_what_they_concern() -> None:
    sheet = example("apiary-first")
    lines = shop_text(sheet, "inch").splitlines()
    assert lines[0].startswith(f"BENCH SHEET - Apiary trailer, first list: {len(sheet.stops)} stops.")
    assert len(sheet.stops) > 10
    assert lines.index("STOPS - settle these first") < lines.index("TOOLS TO HAVE READY")
    by_slug = {stop.rule.slug: str(number) for number, stop in enumerate(sheet.stops, start=1)}
    named = {
        "pack": "grease-class", "seals": "seal-journal", "cups": "bearing-cup-bore", "brakes": "brake-pair",
        "wheels": "lug-thread-mismatch", "joints": "bolt-too-short",
    }  # fmt: skip
    for key, slug in named.items():
        assert any(by_slug[slug] in step.stops for step in steps_of(sheet, key)), slug
    assert words(steps_of(sheet, "tow")[0]).startswith("tow nothing yet")


def test_a_corrected_list_blocks_nothing() -> None:
    sheet = example("apiary-corrected")
    assert sheet.stops == []
    assert not any(step.stops or step.waits for step in sheet.steps())
    assert not any("tow nothing" in words(step) for step in sheet.steps())


# ---- what holds for any list ---------------------------------------------------------------------

# Every sixth of the cases of all rules: a sheet of each takes a minute.
SOME = CASES[::6]
each_case = pytest.mark.parametrize("case", [case for *_, case in SOME], ids=[name for name, *_ in SOME])
DIGIT = re.compile(r"[0-9]")


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_figure_has_a_basis(name: str) -> None:
    sheet = example(name)
    known = {str(one) for one in sheet.bases()}
    for step in sheet.steps():
        assert step.basis, step.number
        assert {str(one) for one in step.basis} <= known
    for section in sheet.sections:
        told = " ".join(one.text("inch") for one in section.intro) + section.hazard
        assert section.basis or not DIGIT.search(told), section.key


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_tool_of_a_step_is_on_the_list_of_tools(name: str) -> None:
    sheet = example(name)
    ready = {tool.text("metric") for tool in sheet.tools()}
    needed = {tool.text("metric") for step in sheet.steps() for tool in step.tools}
    assert {one for one in needed if one != "torque wrench"} <= ready
    assert len(ready) == len(sheet.tools())


@pytest.mark.parametrize("columns", [40, 80, 100, 200])
@pytest.mark.parametrize("name", EXAMPLES)
def test_the_page_keeps_its_width(name: str, columns: int) -> None:
    text = shop_text(example(name), "inch", columns)
    widest = max(len(line) for line in text.splitlines())
    assert widest <= (80 if columns == 40 else min(columns, 100))
    assert all(line == line.rstrip() for line in text.splitlines())
    assert "\n\n\n" not in text


@cache
def valid() -> Any:
    return jsonschema.Draft202012Validator(
        json.loads((ROOT / "schemas/shop.schema.json").read_text(encoding="utf-8"))
    )


@each_case
def test_any_list_gives_a_sheet(case: dict[str, Any]) -> None:
    """Text and Markdown are written, and the JSON is what its schema says."""
    sheet = sheet_of(case["list"])
    for leading in ("inch", "metric"):
        assert max(len(line) for line in shop_text(sheet, leading, 80).splitlines()) <= 100
        assert shop_markdown(sheet, leading).startswith("# BENCH SHEET")
    valid().validate(shop_data(sheet, "metric"))
    seen = {int(number) for step in sheet.steps() for number in step.stops}
    assert seen <= set(range(1, len(sheet.stops) + 1))


def facts(sheet: BenchSheet) -> Any:
    """All that a sheet says, without its words: figures rounded to a thousandth."""
    def rounded(value: Any) -> Any:
        return None if value is None else (round(value.lo, 3), round(value.hi, 3), value.unit)

    return [
        (
            section.key, step.at, tuple(part.id for part in step.parts), tuple(step.stops), tuple(step.waits),
            [(name, rounded(value)) for name, value in step.figures],
            step.torque and (step.torque.pieces, step.torque.order, rounded(step.torque.full),
                             [rounded(one) for one in step.torque.stages], rounded(step.torque.oiled)),
            step.do.template, [one.template for one in step.details],
        )
        for section in sheet.sections for step in section.steps
    ]  # fmt: skip


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_other_units_give_the_same_steps(name: str) -> None:
    """Inches typed as millimetres and the other way round: the same steps, the same figures."""
    path, catalogs = ROOT / f"examples/{name}.yaml", [ROOT / "examples/catalog"]
    as_typed = bench_sheet(check_build(partscheck.read_list(path, catalogs)))
    twin = partscheck.read_list(path, catalogs)
    assert respell(twin) > 5
    assert facts(bench_sheet(check_build(twin))) == facts(as_typed)


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_order_of_the_lines_changes_no_figure(name: str) -> None:
    path, catalogs = ROOT / f"examples/{name}.yaml", [ROOT / "examples/catalog"]
    build = partscheck.read_list(path, catalogs)
    random.Random(3).shuffle(build.parts)
    sheets = (bench_sheet(check_build(build)), example(name))
    shuffled, first = (sorted(repr((row[0], row[1], row[5], row[6])) for row in facts(one)) for one in sheets)
    assert shuffled == first


# ---- the command ---------------------------------------------------------------------------------


def run(*words: str) -> int:
    return main(["shop", *words])


def test_a_sheet_goes_into_a_file_whole(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    target = tmp_path / "sheet.txt"
    assert run(str(ROOT / "examples/metric-750.yaml"), "-o", str(target)) == 0
    assert target.read_text(encoding="utf-8").startswith("BENCH SHEET - Schmalspur")
    assert capsys.readouterr().out == ""
    assert run(str(ROOT / "examples/metric-750.yaml"), "-o", str(tmp_path / "no" / "sheet.txt")) == 2


def test_a_list_with_a_stop_says_so_by_its_status(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(str(ROOT / "examples/four-line-cart.yaml"), "--format", "json") == 1
    data = json.loads(capsys.readouterr().out)
    assert data["format"] == "partscheck-shop/1"
    assert data["verdict"] == "stop"
    assert run(str(ROOT / "no-such-list.yaml")) == 2


def test_what_the_list_says_stays_text() -> None:
    """A name that means something to a screen or to a reader of Markdown is printed as it stands."""
    sheet = sheet_of('build: "<b>*a*</b> {x}"' + BOLTED.replace("name: plate", 'name: "<i>*p*</i> {y}"'))
    assert not re.search(r"<[bi]>", shop_markdown(sheet, "inch"))
    text = shop_text(sheet, "inch")
    assert "<b>*a*</b> {x}" in text
    assert "<i>*p*</i> {y}" in text
