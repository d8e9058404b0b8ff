"""Figures of the bench sheet, read off the sheet itself, against published tables and an independent library."""

from __future__ import annotations

from fractions import Fraction

import pytest
from case_files import shipped_catalogue
from catalogue_rows import INCH, METRIC, inches, library, of_size
from test_preload import CLAMP_AND_TORQUE, FINE, LBF_FT

from partscheck.build.reader import read_build
from partscheck.engine import check_build
from partscheck.uses.shop import BenchSheet, Step, bench_sheet

# In these the table and the library are known to differ (told in the table's notes), or the size is no standard's.
TAPS_APART = ("1-12", "M12x1.75", "M14x2", "M22x2.5")
COARSE = {"1/4": 20, "5/16": 18, "3/8": 16, "7/16": 14, "1/2": 13, "5/8": 11, "3/4": 10, "7/8": 9, "1": 8}


def sheet_of(text: str) -> BenchSheet:
    return bench_sheet(check_build(read_build(text.encode(), shipped_catalogue(), "case.yaml")))


def step_of(sheet: BenchSheet, key: str) -> Step:
    (section,) = [section for section in sheet.sections if section.key == key]
    return section.steps[0]


def figure(step: Step, name: str) -> float:
    (value,) = [value for one, value in step.figures if one == name]
    assert value.is_exact
    return value.lo


def bolted(size: str, grade: str = "8", more: str = "stack: [{thickness: 10 mm}]") -> str:
    return f"""
parts: [{{id: b, kind: bolt, size: {size}, grade: {grade}, finish: zinc}}]
bolted_joints: [{{id: bracket, bolt: b, bolts: 2, {more}}}]
"""


@pytest.mark.parametrize("size", [size for size in (*INCH, *METRIC) if size != "9/16"])
def test_normal_clearance_holes(size: str) -> None:
    """ASME B18.2.8 and ISO 273 as the library prints them; M12 to M16 stand in its older table, 0.5 mm wider."""
    printed = library("clearance_hole_sizes.csv")[size]["Normal"]
    length = "50 mm" if size.startswith("M") else "2 in"
    thread = f"{size} x {length}" if size.startswith("M") else f"{size}-{COARSE[size]} x {length}"
    step = step_of(sheet_of(bolted(thread, "8.8" if size.startswith("M") else "5")), "drill")
    hole = figure(step, "hole")
    if size in ("M12", "M14", "M16"):
        # ISO 273, medium (two secondary copies agree)
        assert hole == {"M12": 13.5, "M14": 15.5, "M16": 17.5}[size]
    elif size.startswith("M"):
        assert hole == pytest.approx(float(printed), abs=0.001)
    else:
        assert hole == pytest.approx(float(inches(printed.replace(" ", "-"))) * 25.4, abs=0.001)
    # The first drill that is named makes this very hole.
    (bits,) = [one.text("metric") for one in step.details if one.text("metric").startswith("Drill bit")]
    number, unit = bits.removeprefix("Drill bit: ").split(" or ")[0].rstrip(".").split()
    assert float(inches(number) * Fraction("25.4") if unit == "in" else number) == pytest.approx(hole, abs=0.02)


@pytest.mark.parametrize("row", [row["key"] for row in shipped_catalogue().rows("tap_drill")])
def test_tap_drills(row: str) -> None:
    """Common tap drills as the library prints them, and the thread that they leave, 1.299 pitch high."""
    printed, sizes = library("tap_hole_sizes.csv"), library("drill_sizes.csv")
    length = "40 mm" if row.startswith("M") else "2 in"
    more = f"tapped: {{thread: {row}, depth: 15 mm}}, stack: [{{thickness: 10 mm, hole: 27 mm}}]"
    sheet = sheet_of(bolted(f"{row} x {length}", more=more))
    drill = figure(step_of(sheet, "tap"), "drill")
    name = row.replace("x", "-") if row.startswith("M") else row
    if name in printed and row not in TAPS_APART:
        text = printed[name]["Soft"]
        theirs = float(sizes[text]["Diameter"]) * 25.4 if text in sizes else (
            float(inches(text)) * 25.4 if "/" in text else float(text)
        )  # fmt: skip
        assert drill == pytest.approx(theirs, abs=0.02)
    size, _, pitch = row.removeprefix("M").partition("x" if row.startswith("M") else "-")
    diameter = float(size) if row.startswith("M") else float(inches(size)) * 25.4
    height = float(pitch) if row.startswith("M") else 25.4 / float(pitch)
    assert 0.64 <= (diameter - drill) / (1.299038 * height) <= 0.85


@pytest.mark.parametrize(("thread", "grade"), [(t, g) for t, row in CLAMP_AND_TORQUE.items() for g in row])
def test_torques_of_dry_bolts(thread: str, grade: int) -> None:
    """Torque at 75 % of proof and K 0.2, grades 2, 5 and 8 (common practice: two copies agree)."""
    printed = CLAMP_AND_TORQUE[thread][grade][1]
    step = step_of(sheet_of(bolted(f"{thread} x 2 in", f"grade {grade}")), "joints")
    assert step.torque is not None
    assert step.torque.full is not None
    assert step.torque.full.lo / LBF_FT == pytest.approx(printed, rel=5e-3)


@pytest.mark.parametrize(("thread", "grade", "torque"), [(t, g, n) for t, g, _, n in FINE])
def test_torques_of_fine_threads(thread: str, grade: int, torque: float) -> None:
    step = step_of(sheet_of(bolted(f"{thread} x 2 in", f"grade {grade}")), "joints")
    assert step.torque is not None
    assert step.torque.full is not None
    assert step.torque.full.lo / LBF_FT == pytest.approx(torque, rel=5e-3)


@pytest.mark.parametrize("size", METRIC)
def test_wrenches_of_metric_bolts(size: str) -> None:
    """Widths across flats after ISO 4014, as the library prints them."""
    theirs = float(of_size(library("hex_head_parameters.csv"), size, "iso4014:s")["iso4014:s"])
    step = step_of(sheet_of(bolted(f"{size} x 60 mm", "8.8")), "joints")
    (flats,) = {value.lo for one, value in step.figures if one == "flats"}
    assert flats == theirs


def test_end_play_of_a_hub() -> None:
    """0.001 to 0.005 in: TMC Recommended Bearing Adjustment Procedure (secondary copy read)."""
    sheet = sheet_of("""
parts:
  - {kind: spindle, nut_thread: 1-14}
  - {kind: hub}
  - {kind: bearing, place: both, designation: L44649/L44610}
""")
    (play,) = [value for one, value in step_of(sheet, "bearings").figures if one == "play"]
    assert (play.lo / 25.4, play.hi / 25.4) == pytest.approx((0.001, 0.005))
    kinds = {(one.kind, one.source.partition(":")[0]) for one in step_of(sheet, "bearings").basis}
    assert ("published", "TMC Recommended Bearing Adjustment Procedure (secondary copy read)") in kinds
