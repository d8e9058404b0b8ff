"""The tables of bolts, nuts and washers against published loads, identities and an independent library.

Where a table is recalled, the checks are identities and the library; nothing here makes it published.
"""

from __future__ import annotations

from itertools import pairwise

import pytest
from catalogue_rows import INCH, METRIC, by_key, inches, library, of_size, row_of, strengths

from partscheck.catalogue import Catalogue

MPA_PER_KSI = 4.4482216152605 / 25.4**2 * 1000  # from the pound-force and the inch

# ISO 898-1 (secondary copies, which agree): proof load and least ultimate load, N, coarse threads.
PROOF_LOADS = {
    "8.8": (11600, 21200, 33700, 48900, 66700, 91000, 115000, 147000, 182000, 212000),
    "10.9": (16700, 30400, 48100, 70000, 95500, 130000, 159000, 203000, 252000, 293000),
    "12.9": (19500, 35500, 56300, 81800, 112000, 152000, 186000, 238000, 294000, 342000),
}
ULTIMATE_LOADS = {
    "8.8": {"M8": 29200, "M10": 46400, "M12": 67400, "M14": 92000, "M16": 125000, "M20": 203000,
            "M24": 293000},
    "10.9": {"M8": 38100, "M10": 60300, "M12": 87700, "M14": 120000, "M16": 163000, "M20": 255000,
             "M24": 367000},
    "12.9": {"M8": 44600, "M10": 70800, "M12": 103000, "M14": 140000, "M16": 192000, "M20": 299000,
             "M24": 431000},
}  # fmt: skip


# -- grades -------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("table", "rows"),
    [("bolt_grade", 41), ("nut_grade", 38), ("hex_bolt", 20), ("thread_length", 20), ("nut_size", 68),
     ("washer_size", 39), ("clearance_hole", 32), ("tap_drill", 41), ("nut_factor", 17),
     ("friction_class", 12), ("material", 28), ("stock_length", 53), ("drill_size", 228)],
)  # fmt: skip
def test_row_counts(shipped: Catalogue, table: str, rows: int) -> None:
    assert len(shipped.rows(table)) == rows


def test_no_two_rows_of_a_grade_overlap(shipped: Catalogue) -> None:
    for table in ("bolt_grade", "nut_grade"):
        ranges: dict[tuple[str, ...], list[tuple[float, float]]] = {}
        for row in shipped.rows(table):
            assert row["least_mm"] < row["most_mm"], row["key"]
            name: tuple[str, ...] = (row["system"], row["mark"], row.get("series", ""))
            ranges.setdefault(name, []).append((row["least_mm"], row["most_mm"]))
        for name, spans in ranges.items():
            assert all(first[1] < second[0] for first, second in pairwise(spans)), name


def test_proof_is_below_yield_below_tensile(shipped: Catalogue) -> None:
    for row in shipped.rows("bolt_grade"):
        known = [row[name] for name in ("proof_mpa", "yield_mpa", "tensile_mpa") if name in row]
        assert known == sorted(set(known)), row["key"]


def test_mpa_of_inch_grades_are_the_printed_ksi(shipped: Catalogue) -> None:
    checked = 0
    for table in ("bolt_grade", "nut_grade", "material"):
        for row in shipped.rows(table):
            for name in ("proof", "yield", "tensile"):
                if f"{name}_ksi" in row:
                    mpa = row[f"{name}_ksi"] * MPA_PER_KSI
                    assert row[f"{name}_mpa"] == pytest.approx(mpa, abs=0.051), row["key"]
                    checked += 1
    assert checked > 90


def test_published_inch_grades_and_their_boundaries(shipped: Catalogue) -> None:
    # SAE J429 in Shigley, 9e, Table 8-9 (secondary copy): proof, yield, tensile, ksi
    for mark, diameter, ksi in (
        ("1", "1/2", (33, 36, 60)),
        ("2", "3/4", (55, 57, 74)),  # the edge: 3/4 in itself has the higher values
        ("2", "7/8", (33, 36, 60)),
        ("5", "1", (85, 92, 120)),
        ("5", "1-1/8", (74, 81, 105)),
        ("5.2", "1/2", (85, 92, 120)),  # not the 120 and 130 of a public chart
        ("7", "1/2", (105, 115, 133)),
        ("8", "1/4", (120, 130, 150)),
        ("8", "1-1/2", (120, 130, 150)),
    ):
        row = strengths(shipped, "bolt_grade", "SAE", mark, float(inches(diameter)) * 25.4)
        assert (row["proof_ksi"], row["yield_ksi"], row["tensile_ksi"]) == ksi, (mark, diameter)
        assert row["basis"]["kind"] == "published"


def test_the_edge_of_class_8_8(shipped: Catalogue) -> None:
    # ISO 898-1 (secondary copies): 580 MPa up to and with M16, 600 MPa over it
    assert strengths(shipped, "bolt_grade", "ISO", "8.8", 16)["proof_mpa"] == 580
    assert strengths(shipped, "bolt_grade", "ISO", "8.8", 18)["proof_mpa"] == 600


@pytest.mark.parametrize("mark", PROOF_LOADS)
def test_metric_loads_are_area_times_stress(shipped: Catalogue, mark: str) -> None:
    for size, load in zip(METRIC, PROOF_LOADS[mark], strict=True):
        area = row_of(shipped, "metric_coarse", size)["stress_area_mm2"]
        row = strengths(shipped, "bolt_grade", "ISO", mark, float(size[1:]))
        assert area * row["proof_mpa"] == pytest.approx(load, rel=0.006), size
        if size in ULTIMATE_LOADS[mark]:
            assert area * row["tensile_mpa"] == pytest.approx(ULTIMATE_LOADS[mark][size], rel=0.006), size


def test_the_digits_of_a_class_are_its_nominal_strength(shipped: Catalogue) -> None:
    # ISO 898-1 (secondary copy): first number x 100 nominal tensile, x second / 10 nominal yield; MPa
    for row in shipped.rows("bolt_grade"):
        if row["system"] == "ISO":
            hundreds, tenths = row["mark"].split(".")
            nominal = float(hundreds) * 100
            assert nominal <= row["tensile_mpa"] <= nominal * 1.05, row["key"]
            assert nominal * float(tenths) / 10 <= row["yield_mpa"] <= nominal * float(tenths) / 10 * 1.07
        elif row["system"] == "stainless" and "-" in row["mark"] and row["mark"][0] == "A":
            assert row["tensile_mpa"] == 10 * float(row["mark"][-2:])


def test_every_grade_that_can_be_read_has_strengths(shipped: Catalogue) -> None:
    from partscheck.notation import grade

    known = {(row["system"], row["mark"]) for row in shipped.rows("bolt_grade")}
    due = {(grade.SAE, mark) for mark in grade._SAE_MARKS} | {(grade.ISO, mark) for mark in grade._ISO_BOLTS}
    due |= {(grade.STAINLESS, mark) for mark in grade._STAINLESS}
    due |= {(grade.ASTM, mark) for mark in grade._ASTM_MARKS}
    assert known == due


def test_a_nut_is_not_weaker_than_the_bolts_it_serves(shipped: Catalogue) -> None:
    # SAE J995 (three secondary copies): the nut's proof load is not below the bolt's least tensile strength
    checked = 0
    for nut in shipped.rows("nut_grade"):
        if nut["basis"]["kind"] != "published":
            continue
        for bolt in shipped.rows("bolt_grade"):
            meets = bolt["least_mm"] <= nut["most_mm"] and nut["least_mm"] <= bolt["most_mm"]
            if bolt["system"] == nut["system"] and meets:
                assert (bolt["mark"] in nut["serves"]) == (bolt["tensile_ksi"] <= nut["proof_ksi"]), (
                    nut["key"],
                    bolt["key"],
                )
                checked += 1
    assert checked > 20
    assert strengths_of_nut(shipped, "5", "UNC", 25.4) == 120
    assert strengths_of_nut(shipped, "5", "UNC", 28.575) == 105


def strengths_of_nut(shipped: Catalogue, mark: str, series: str, diameter: float) -> float:
    (row,) = [
        row
        for row in shipped.rows("nut_grade")
        if (row["mark"], row["series"]) == (mark, series) and row["least_mm"] <= diameter <= row["most_mm"]
    ]
    return float(row["proof_ksi"])


def test_a_nut_class_serves_bolts_up_to_its_own_number(shipped: Catalogue) -> None:
    classes = {row["mark"] for row in shipped.rows("bolt_grade") if row["system"] == "ISO"}
    for nut in shipped.rows("nut_grade"):
        if nut["system"] == "ISO":
            assert set(nut["serves"]) == {
                mark for mark in classes if float(mark.split(".")[0]) <= float(nut["mark"])
            }


# -- heads, nuts, washers -----------------------------------------------------------------------


def test_heads_and_lengths_against_the_library(shipped: Catalogue) -> None:
    heads = library("hex_head_parameters.csv")
    for size in METRIC:
        row, printed = row_of(shipped, "hex_bolt", size), of_size(heads, size, "iso4014:k")
        assert row["flats_mm"] == float(printed["iso4014:s"])
        assert row["head_mm"] == float(printed["iso4014:k"])
        older = float(printed["din931:s"])
        assert row.get("older_flats_mm") == (None if older == row["flats_mm"] else older)
        assert row["shortest_mm"] == float(printed["iso4017:short"])
        assert row["longest_mm"] == float(printed["iso4014:long"])


def test_inch_heads(shipped: Catalogue) -> None:
    for size in INCH:
        row = row_of(shipped, "hex_bolt", size)
        assert row["diameter_mm"] == pytest.approx(float(inches(size)) * 25.4)
        assert row["flats_mm"] == pytest.approx(float(inches(row["flats_in"])) * 25.4)
        assert 1.4 * row["diameter_mm"] < row["flats_mm"] < 1.8 * row["diameter_mm"]
        assert row["head_mm"] < row.get("bolt_head_mm", row["head_mm"] + 1) < 0.75 * row["diameter_mm"] + 1


def test_thread_lengths_follow_the_rules_of_their_standards(shipped: Catalogue) -> None:
    # ASME B18.2.1: 2 D + 1/4 in to 6 in, 2 D + 1/2 in over; ISO 4014: 2 d + 6, 12, 25 mm (both recalled)
    for size in INCH:
        row, d = row_of(shipped, "thread_length", size), float(inches(size))
        assert row["thread_mm"] == pytest.approx((2 * d + 0.25) * 25.4)
        assert row["longer_thread_mm"] == pytest.approx((2 * d + 0.5) * 25.4)
        assert row["first_limit_mm"] == pytest.approx(6 * 25.4)
        assert "second_limit_mm" not in row
    for size in METRIC:
        row, d = row_of(shipped, "thread_length", size), float(size[1:])
        lengths = [row[name] for name in ("thread_mm", "longer_thread_mm", "longest_thread_mm")]
        assert lengths == [2 * d + 6, 2 * d + 12, 2 * d + 25]
        assert (row["first_limit_mm"], row["second_limit_mm"]) == (125, 200)


def test_inch_nuts(shipped: Catalogue) -> None:
    # ASME B18.2.2 in an open parts library (secondary copy), flats and height of finished hex nuts, in
    for size, flats, height in (
        ("1/4", 0.4375, 0.21875), ("5/16", 0.5, 0.265625), ("3/8", 0.5625, 0.328125), ("7/16", 0.6875, 0.375),
        ("1/2", 0.75, 0.4375), ("9/16", 0.875, 0.484375), ("5/8", 0.9375, 0.546875), ("3/4", 1.125, 0.640625),
    ):  # fmt: skip
        row = row_of(shipped, "nut_size", f"{size} hex")
        assert row["flats_mm"] == pytest.approx(flats * 25.4)
        assert row["height_mm"] == pytest.approx(height * 25.4)
        assert float(inches(row["height_in"])) == height
        assert row["basis"]["kind"] == "published"
    # Shigley, 9e, Ex 8-4: the 5/8 in nut is 35/64 in high
    assert row_of(shipped, "nut_size", "5/8 hex")["height_in"] == "35/64"


def test_metric_nuts_against_the_library(shipped: Catalogue) -> None:
    nuts = library("hex_nut_parameters.csv")
    for size in METRIC:
        plain, jam = row_of(shipped, "nut_size", f"{size} hex"), row_of(shipped, "nut_size", f"{size} jam")
        printed = of_size(nuts, size, "iso4032:m")
        assert (plain["height_mm"], plain["flats_mm"]) == (
            float(printed["iso4032:m"]),
            float(printed["iso4032:s"]),
        )
        assert jam["height_mm"] == float(printed["iso4035:m"])
        # The library's jam nuts still have the older widths in four sizes, as the rows' notes say.
        assert (jam["flats_mm"] != float(printed["iso4035:s"])) == ("note" in jam), size


def test_jam_nuts_are_lower_and_locknuts_higher_than_plain_ones(shipped: Catalogue) -> None:
    rows = by_key(shipped, "nut_size")
    for size in INCH + METRIC:
        plain = rows[f"{size} hex"]["height_mm"]
        assert 0.4 * plain < rows[f"{size} jam"]["height_mm"] < 0.75 * plain, size
        lock = rows.get(f"{size} nylon insert")
        if lock is not None:
            assert 1.1 * plain < lock["height_mm"] < 1.6 * plain, size


def test_washers(shipped: Catalogue) -> None:
    rows = shipped.rows("washer_size")
    assert {row["type"] for row in rows} == {"sae", "uss", "hardened", "iso"}
    for row in rows:
        assert row["diameter_mm"] < row["inside_mm"] < 1.26 * row["diameter_mm"], row["key"]
        assert 1.6 * row["diameter_mm"] < row["outside_mm"] < 3 * row["diameter_mm"], row["key"]
        least, most = row["least_thickness_mm"], row["most_thickness_mm"]
        assert least < row.get("thickness_mm", (least + most) / 2) < most, row["key"]
    for size in INCH:
        assert (
            row_of(shipped, "washer_size", f"{size} sae")["outside_mm"]
            < row_of(shipped, "washer_size", f"{size} uss")["outside_mm"]
        )


def test_washers_against_the_library(shipped: Catalogue) -> None:
    printed = library("plain_washer_parameters.csv")
    for size in METRIC:
        row = row_of(shipped, "washer_size", f"{size} iso")
        theirs = [float(printed[size][f"iso7089:{name}"]) for name in ("d1", "d2", "h")]
        assert [row["inside_mm"], row["outside_mm"], row["most_thickness_mm"]] == theirs, size
