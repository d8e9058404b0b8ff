"""The tables of holes, drills, friction and materials against published values and an independent library."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from catalogue_rows import INCH, METRIC, by_key, inches, library, row_of

from partscheck.catalogue import Catalogue

# -- holes and drills ---------------------------------------------------------------------------


def test_holes_grow_from_close_to_loose_and_with_the_bolt(shipped: Catalogue) -> None:
    rows = by_key(shipped, "clearance_hole")
    for sizes in (INCH, METRIC):
        for fit in ("close_mm", "normal_mm", "loose_mm"):
            assert all(rows[a][fit] < rows[b][fit] for a, b in pairwise(sizes))
    for row in rows.values():
        holes = [row[name] for name in ("close_mm", "normal_mm", "loose_mm", "oversize_mm") if name in row]
        bolt = row_of(shipped, "hex_bolt", row["size"])["diameter_mm"]
        assert [bolt, *holes] == sorted({bolt, *holes}), row["key"]
        for name in ("close", "normal", "loose", "oversize"):
            if name in row:
                number, unit = row[name].split()
                factor = 25.4 if unit == "in" else 1
                assert row[f"{name}_mm"] == pytest.approx(float(inches(number)) * factor), row["key"]


def test_published_holes(shipped: Catalogue) -> None:
    # ISO 273, fine, medium, coarse (two secondary copies that agree)
    for size, holes in {
        "M6": (6.4, 6.6, 7), "M8": (8.4, 9, 10), "M10": (10.5, 11, 12), "M12": (13, 13.5, 14.5),
        "M14": (15, 15.5, 16.5), "M16": (17, 17.5, 18.5), "M18": (19, 20, 21), "M20": (21, 22, 24),
        "M22": (23, 24, 26), "M24": (25, 26, 28),
    }.items():  # fmt: skip
        row = row_of(shipped, "clearance_hole", size)
        assert (row["close_mm"], row["normal_mm"], row["loose_mm"]) == holes
        assert row["table_of"] == "ISO 273"


def test_holes_against_the_library(shipped: Catalogue) -> None:
    printed = library("clearance_hole_sizes.csv")
    rows = by_key(shipped, "clearance_hole")
    for size in METRIC:
        theirs = tuple(float(printed[size][fit]) for fit in ("Close", "Normal", "Loose"))
        # It prints the older table for M12 to M16; both are kept, and told apart by name.
        row = rows.get(f"{size} older", rows[size])
        assert (row["close_mm"], row["normal_mm"], row["loose_mm"]) == theirs, size
    assert [key for key in rows if key.endswith(" older")] == ["M12 older", "M14 older", "M16 older"]
    for size in INCH:
        if size == "9/16":  # not in ASME B18.2.8; the library fills in its own
            assert rows[size]["basis"]["kind"] == "practice"
            continue
        theirs_in = [
            inches(printed[size][fit].replace(" ", "-")) * Fraction("25.4")
            for fit in ("Close", "Normal", "Loose")
        ]
        ours = [rows[size][name] for name in ("close_mm", "normal_mm", "loose_mm")]
        assert ours == pytest.approx([float(hole) for hole in theirs_in]), size


def test_oversize_holes_are_named_apart(shipped: Catalogue) -> None:
    rows = by_key(shipped, "clearance_hole")
    named = [row for row in rows.values() if "oversize_mm" in row]
    assert len(named) == 9
    for row in named:
        assert row["table_of"] == "AISC 360"
        assert "loose_mm" not in row
        assert row["oversize_mm"] >= rows[row["size"]]["loose_mm"]


def test_tap_drills(shipped: Catalogue) -> None:
    for row in shipped.rows("tap_drill"):
        key = row["key"]
        if key.startswith("M"):
            d, pitch = (float(part) for part in key[1:].split("x"))
            assert row["drill_mm"] == pytest.approx(d - pitch, abs=0.06), key
        else:
            size, _, tpi = key.rpartition("-")
            d, pitch = float(inches(size)) * 25.4, 25.4 / float(tpi)
            assert (
                row["tap"] == f"{key} {'UNC' if row_of(shipped, 'unc', size)['tpi'] == int(tpi) else 'UNF'}"
            )
            assert row["metric_drill_mm"] == pytest.approx(row["drill_mm"], abs=0.26)
        # Machinery's Handbook (recalled): height of a full thread 1.299 p, two flanks
        percent = (d - row["drill_mm"]) / (1.299038 * pitch) * 100
        assert row["percent_thread"] == pytest.approx(percent, abs=0.51), key
        assert 64 <= percent <= 85, key


def test_every_thread_of_the_tables_has_a_tap_drill(shipped: Catalogue) -> None:
    due = {f"{row['key']}-{row['tpi']}" for table in ("unc", "unf") for row in shipped.rows(table)}
    due |= {f"{row['key']}x{row['pitch_mm']:g}" for row in shipped.rows("metric_coarse")}
    due |= {row["key"] for row in shipped.rows("metric_fine")}
    assert {row["key"] for row in shipped.rows("tap_drill")} == due


def test_tap_drills_against_the_library(shipped: Catalogue) -> None:
    printed, sizes = library("tap_hole_sizes.csv"), library("drill_sizes.csv")
    checked, apart = 0, []
    for row in shipped.rows("tap_drill"):
        name = row["key"].replace("x", "-") if row["key"].startswith("M") else row["key"]
        if name not in printed:
            continue
        text = printed[name]["Soft"]
        if text in sizes:
            theirs = float(sizes[text]["Diameter"]) * 25.4
        else:
            theirs = float(inches(text)) * 25.4 if "/" in text else float(text)
        if row["drill_mm"] == pytest.approx(theirs, abs=0.02):
            checked += 1
        else:
            apart.append(row["key"])
            assert "library prints" in row["note"], row["key"]
    assert checked >= 30
    assert apart == ["1-12", "M12x1.75", "M14x2", "M22x2.5"]


def test_letter_drills_against_the_library(shipped: Catalogue) -> None:
    printed = library("drill_sizes.csv")
    letters = [row for row in shipped.rows("drill_size") if row["kind"] == "letter"]
    assert len(letters) == 26
    for row in letters:
        theirs = float(printed[row["key"].removeprefix("letter ")]["Diameter"]) * 25.4
        assert row["diameter_mm"] == pytest.approx(theirs)


def test_there_is_a_drill_of_each_sort_for_every_clearance_hole(shipped: Catalogue) -> None:
    drills: dict[str, list[float]] = {}
    for row in shipped.rows("drill_size"):
        drills.setdefault(row["kind"], []).append(row["diameter_mm"])
    assert set(drills) == {"fractional", "letter", "metric"}
    assert all(sizes == sorted(set(sizes)) for sizes in drills.values())
    for row in shipped.rows("clearance_hole"):
        for name in ("close_mm", "normal_mm", "loose_mm"):
            if name in row:
                for kind in ("fractional", "metric"):
                    over = min(size for size in drills[kind] if size >= row[name] - 1e-9) - row[name]
                    assert over < 0.5, (row["key"], name, kind)
    # Machinery's Handbook, 31st ed., p. 1743, Table 3a (secondary copy): metric drills for inch bolts
    handbook = (
        6.7,
        7.1,
        8.3,
        8.7,
        9.9,
        10.2,
        10.5,
        11.5,
        11.8,
        12.2,
        13.5,
        14.25,
        15.5,
        16.75,
        17.5,
        20.5,
        23,
    )
    assert set(handbook) <= set(drills["metric"])


# -- friction and materials ---------------------------------------------------------------------


def test_published_nut_factors(shipped: Catalogue) -> None:
    # Shigley, 9e, Table 8-15 (secondary copy)
    rows = by_key(shipped, "nut_factor")
    for key, k in {
        "black oxide": 0.30, "zinc": 0.20, "lubricated": 0.18, "cadmium": 0.16, "anti-seize": 0.12,
        "special locknut": 0.09,
    }.items():  # fmt: skip
        assert rows[key]["k"] == k
        assert rows[key]["basis"]["kind"] == "published"
    for row in rows.values():
        assert row["least"] <= row["k"] <= row["most"], row["key"]


def test_words_of_the_parts_have_rows(shipped: Catalogue) -> None:
    from partscheck.parts.common import COATING, FINISH, MATERIAL

    assert set(FINISH.allowed) <= set(by_key(shipped, "nut_factor"))
    covered = {word for row in shipped.rows("friction_class") for word in row["coatings"]}
    assert covered == set(COATING.allowed)
    without = {"cast aluminum", "wood", "plywood", "rubber", "plastic"}  # as the file says
    assert set(by_key(shipped, "material")) == set(MATERIAL.allowed) - without


def test_home_shop_faces_hold_less_than_structural_ones(shipped: Catalogue) -> None:
    rows = by_key(shipped, "friction_class")
    # AISC 360, 2005 edition, in A Beginner's Guide to the Steel Construction Manual, Ex 4.1 (secondary copy)
    assert rows["class A 2005"]["mu"] == 0.35
    assert rows["class A"]["mu"] == 0.30
    assert "2005" in rows["class A"]["note"]
    for row in rows.values():
        if row["coatings"]:
            assert rows["powder"]["mu"] <= row["mu"] <= rows["bare"]["mu"] < rows["class A"]["mu"]


def test_materials(shipped: Catalogue) -> None:
    for row in shipped.rows("material"):
        assert row.get("yield_mpa", 0) < row["tensile_mpa"], row["key"]
        assert row["basis"]["kind"] in ("recalled", "practice"), row["key"]
    # Structural Steel Designer's Handbook p. 3.42 and Shigley Ex 8-6 work with Fu 58 and 65 ksi
    assert row_of(shipped, "material", "A36")["tensile_ksi"] == 58
    assert row_of(shipped, "material", "A572 50")["tensile_ksi"] == 65
