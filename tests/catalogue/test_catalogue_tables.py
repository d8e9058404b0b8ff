"""The tables against identities, published anchors and independent libraries.

Published anchors are from the texts that the files name; a formula's source stands beside its check.
"""

from __future__ import annotations

import csv
import math
from importlib import resources
from itertools import pairwise

import pytest

from partscheck.catalogue import Catalogue
from partscheck.notation.measure import read_quantity


def unified_area(diameter: float, tpi: float) -> float:
    """ASME B1.1, FED-STD-H28/2B Table II.B.1 (1b), secondary copies read: inches in, in2 out."""
    return math.pi / 4 * (diameter - 9 * math.sqrt(3) / 16 / tpi) ** 2


def metric_area(diameter: float, pitch: float) -> float:
    """ISO 898-1 (recalled; the same on an engineering reference page): mm in, mm2 out."""
    return math.pi / 4 * (diameter - 0.938194 * pitch) ** 2


def increasing(values: list[float]) -> bool:
    return all(a < b for a, b in pairwise(values))


# -- threads ------------------------------------------------------------------------------------


@pytest.mark.parametrize(("table", "rows"), [("unc", 10), ("unf", 10)])
def test_unified_threads(shipped: Catalogue, table: str, rows: int) -> None:
    found = shipped.rows(table)
    assert len(found) == rows
    for column in ("diameter_in", "stress_area_in2", "root_area_in2"):
        assert increasing([row[column] for row in found])
    for row in found:
        whole, _, part = row["key"].partition("/")
        assert row["diameter_in"] == float(whole) / float(part or 1)
        exact = unified_area(row["diameter_in"], row["tpi"])
        assert row["stress_area_in2"] == pytest.approx(exact, rel=0.002), row["key"]
        assert row["root_area_in2"] < row["stress_area_in2"]


@pytest.mark.parametrize(("table", "rows"), [("metric_coarse", 10), ("metric_fine", 11)])
def test_metric_threads(shipped: Catalogue, table: str, rows: int) -> None:
    found = shipped.rows(table)
    assert len(found) == rows
    for row in found:
        diameter, _, pitch = row["key"].removeprefix("M").partition("x")
        assert row["diameter_mm"] == float(diameter)
        assert row["pitch_mm"] == float(pitch or row["pitch_mm"])
        assert row["stress_area_mm2"] == pytest.approx(
            metric_area(row["diameter_mm"], row["pitch_mm"]), rel=0.004
        )


def test_the_two_area_formulas_are_not_mixed(shipped: Catalogue) -> None:
    half = shipped.row("unc", "1/2")
    eight = shipped.row("metric_coarse", "M8")
    assert half is not None
    assert eight is not None
    assert abs(metric_area(0.5, 1 / 13) / half["stress_area_in2"] - 1) > 0.01
    assert abs(unified_area(8, 1 / 1.25) / eight["stress_area_mm2"] - 1) > 0.01


def test_published_stress_areas(shipped: Catalogue) -> None:
    # Shigley, Mechanical Engineering Design, 9e, Table 8-2 (secondary copy); ISO 898-1 (secondary copy)
    assert [shipped.row("unc", key)["stress_area_in2"] for key in ("1/4", "1/2", "3/4")] == [
        0.0318,
        0.1419,
        0.334,
    ]
    assert [shipped.row("unf", key)["root_area_in2"] for key in ("7/16", "1/2")] == [0.1090, 0.1486]
    assert [shipped.row("metric_coarse", key)["stress_area_mm2"] for key in ("M12", "M24")] == [84.3, 353]


@pytest.mark.parametrize(
    ("table", "key", "designation"),
    [("unc", "1/4", "1/4-20"), ("unf", "1/4", "1/4-28"), ("unc", "1/2", "1/2-13"), ("unf", "1/2", "1/2-20"),
     ("unc", "3/4", "3/4-10"), ("unf", "3/4", "3/4-16"), ("unc", "1", "1-8"), ("unf", "1", "1-12")],
)  # fmt: skip
def test_stress_areas_against_screw_thread_lib(
    shipped: Catalogue, table: str, key: str, designation: str
) -> None:
    library = pytest.importorskip("screw_thread_lib.threads", reason="screw_thread_lib is not installed")
    limits = library.Assembly.from_ASME_B11_UN_2A2B(designation, UTSs=120, UTSn=58)
    row = shipped.row(table, key)
    assert row is not None
    assert row["stress_area_in2"] == pytest.approx(limits.As_FEDSTD_1b(), rel=0.002)


def test_pitches_against_bd_warehouse(shipped: Catalogue) -> None:
    pytest.importorskip("bd_warehouse")
    data = resources.files("bd_warehouse") / "data"
    with (data / "tap_hole_sizes.csv").open(encoding="utf-8") as stream:
        sizes = {row["Size"] for row in csv.DictReader(stream)}
    known = {
        (float(diameter), float(pitch))
        for diameter, _, pitch in (size[1:].partition("-") for size in sizes if size.startswith("M"))
    }
    with (data / "hex_nut_parameters.csv").open(encoding="utf-8") as stream:
        rows = [row for row in csv.DictReader(stream) if row["iso4032:m"]]
    coarse = dict(row["Size"][1:].split("-") for row in rows)
    checked = 0
    for row in shipped.rows("metric_coarse"):
        assert float(coarse[f"{row['diameter_mm']:g}"]) == row["pitch_mm"]
    for row in shipped.rows("metric_coarse") + shipped.rows("metric_fine"):
        checked += (row["diameter_mm"], row["pitch_mm"]) in known
    assert checked >= 15


# -- tires --------------------------------------------------------------------------------------


def test_load_index(shipped: Catalogue) -> None:
    rows = shipped.rows("load_index")
    assert [row["key"] for row in rows] == [str(index) for index in range(60, 131)]  # 71 rows
    assert increasing([row["kg"] for row in rows])
    for row in rows:
        assert row["kg"] == pytest.approx(45 * 10 ** (int(row["key"]) / 80), rel=0.018), row["key"]
        if "lb" in row:
            assert row["lb"] == pytest.approx(row["kg"] / 0.45359237, abs=1.0), row["key"]


def test_speed_symbols_rise_with_h_between_u_and_v(shipped: Catalogue) -> None:
    rows = shipped.rows("speed_symbol")
    assert "".join(row["key"] for row in rows) == "BCDEFGJKLMNPQRSTUHVWY"
    assert increasing([row["km_h"] for row in rows])


def test_load_ranges(shipped: Catalogue) -> None:
    assert [row["ply"] for row in shipped.rows("load_range")] == list(range(2, 25, 2))
    assert shipped.row("load_range", "I") is None
    assert shipped.row("load_range", "K") is None


def test_load_ranges_against_tire_code_parser(shipped: Catalogue) -> None:
    parser = pytest.importorskip("tire_code_parser", reason="tire_code_parser is not installed")
    for letter in "BCDEFG":
        row = shipped.row("load_range", letter)
        assert row is not None
        assert int(parser.parse_tire_code(f"ST205/75R14{letter}")["ply_rating"]) == row["ply"], letter


def test_rims_follow_the_seventy_percent_rule(shipped: Catalogue) -> None:
    for row in shipped.rows("tire_size"):
        assert row["rim_width_least_in"] < row["rim_width_most_in"], row["key"]
        if "measuring_rim_in" not in row:
            continue
        # T&RA: measuring rim = 70 % of the section width, to the nearest 0.5 in (secondary copy read)
        wanted = 0.7 * row["section_width_mm"] / 25.4
        assert abs(row["measuring_rim_in"] - wanted) <= 0.2501, row["key"]
        assert row["rim_width_least_in"] <= row["measuring_rim_in"] <= row["rim_width_most_in"], row["key"]


def test_published_rims(shipped: Catalogue) -> None:
    # T&RA data (secondary copies): 205/60R15 approved 5.5 to 7.5 in;
    # P255/50R16 measuring 7, approved 6.5 to 10 in
    small, large = shipped.row("tire_size", "205/60R15"), shipped.row("tire_size", "P255/50R16")
    assert small is not None
    assert large is not None
    assert (small["rim_width_least_in"], small["rim_width_most_in"]) == (5.5, 7.5)
    assert (large["measuring_rim_in"], large["rim_width_least_in"], large["rim_width_most_in"]) == (
        7,
        6.5,
        10,
    )
    assert small["basis"]["kind"] == large["basis"]["kind"] == "published"


def test_tire_ratings_agree_with_sizes_and_load_indexes(shipped: Catalogue) -> None:
    for row in shipped.rows("tire_rating"):
        size = shipped.row("tire_size", row["size"])
        assert size is not None, row["key"]
        assert row["rim_width_range"] == f"{size['rim_width_least_in']:g} to {size['rim_width_most_in']:g} in"
        assert row["basis"]["kind"] == "recalled"
        if "load_index" not in row:
            continue
        kg = shipped.row("load_index", row["load_index"])["kg"]
        assert row.get("max_load_kg", kg) == kg
        if "max_load_lb" in row:
            assert row["max_load_lb"] * 0.45359237 == pytest.approx(kg, rel=0.03), row["key"]


def test_passenger_ratings_follow_the_published_load_rule(shipped: Catalogue) -> None:
    # T&RA, P-metric, 50 series up: L = K p^0.5 Sd^1.39 (Dr + Sd), K 6.67e-5, kPa and mm (secondary copy read)
    checked = 0
    for row in shipped.rows("tire_rating"):
        if not row["key"].startswith("P"):
            continue
        width, aspect, rim = float(row["key"][1:4]), float(row["key"][5:7]) / 100, float(row["key"][8:])
        section = (0.34848 + 0.6497 * aspect) * width
        load = 6.67e-5 * 240**0.5 * section**1.39 * (round(rim * 25.4) + section)
        assert row["max_load_lb"] * 0.45359237 == pytest.approx(load, rel=0.004), row["key"]
        checked += 1
    assert checked == 6


def test_higher_load_ranges_carry_more(shipped: Catalogue) -> None:
    by_size: dict[str, list[tuple[str, float, float]]] = {}
    for row in shipped.rows("tire_rating"):
        if "load_range" in row:
            triple = (row["load_range"], row["max_load_lb"], row["rated_pressure_psi"])
            by_size.setdefault(row["size"], []).append(triple)
    assert len(by_size) > 10
    for size, ratings in by_size.items():
        assert ratings == sorted(ratings), size
        assert increasing([load for _, load, _ in ratings]), size
        assert increasing([pressure for _, _, pressure in ratings]), size


# -- wheel ends ---------------------------------------------------------------------------------


def test_bolt_circles(shipped: Catalogue) -> None:
    rows = {row["key"]: row for row in shipped.rows("bolt_circle")}
    for key, row in rows.items():
        count, _, named = key.partition("x")
        assert row["count"] == int(count)
        named_mm = float(named) * (25.4 if row["system"] == "inch" else 1)
        assert row["diameter_mm"] == pytest.approx(named_mm, abs=1e-9)
        assert row["diameter_in"] * 25.4 == pytest.approx(row["diameter_mm"], abs=2e-4)
        near = [
            other
            for other, it in rows.items()
            if it["count"] == row["count"] and 0.1 < abs(it["diameter_mm"] - row["diameter_mm"]) <= 5
        ]
        assert row["near_misses"] == near, key
    assert "5x120" in rows["5x4.75"]["near_misses"]
    assert "5x115" in rows["5x4.5"]["near_misses"]
    assert "8x170" in rows["8x6.5"]["near_misses"]


def test_nut_seats(shipped: Catalogue) -> None:
    assert {row["key"]: row["centres_wheel"] for row in shipped.rows("nut_seat")} == {
        "conical": "yes", "ball": "yes", "flat": "no", "shank": "no",
    }  # fmt: skip


def test_rougher_surfaces_shake_more(shipped: Catalogue) -> None:
    rows = shipped.rows("shock_factor")
    assert [row["key"] for row in rows] == ["paved", "gravel", "off-road"]
    assert increasing([row["factor"] for row in rows])


def test_drums_go_inside_rims(shipped: Catalogue) -> None:
    for row in shipped.rows("brake_rim"):
        assert float(row["key"]) == row["drum_diameter_in"] < row["least_rim_in"] <= row["usual_rim_in"]


def test_lug_torques_rise_with_the_stud(shipped: Catalogue) -> None:
    rows = {row["key"]: row for row in shipped.rows("lug_torque")}
    inch = [rows[key] for key in ("7/16-20", "1/2-20", "9/16-18", "5/8-18")]
    assert increasing([row["most_lbf_ft"] for row in inch])
    assert all(row["least_lbf_ft"] < row["most_lbf_ft"] for row in rows.values())


# -- practice limits ----------------------------------------------------------------------------


def test_practice_limits_read_in_their_dimension_and_give_a_reason(shipped: Catalogue) -> None:
    rows = shipped.rows("practice")
    assert len(rows) >= 40
    for row in rows:
        assert read_quantity(row["value"], row["dimension"]).is_exact, row["key"]
        assert row["means"], row["key"]
        assert row["reason"], row["key"]


def test_practice_limits_that_rest_on_a_published_text(shipped: Catalogue) -> None:
    # 23 CFR 658.15(a); FMVSS 108 in NHTSA letter nht93-412; FMVSS 120 S5.1.2 in letter nht76-1.47
    for name, value in (
        ("legal_width", "102 in"),
        ("wide_vehicle_width", "80 in"),
        ("passenger_tire_divisor", "1.10"),
    ):
        row = shipped.row("practice", name)
        assert row is not None
        assert (row["value"], row["basis"]["kind"]) == (value, "published")
