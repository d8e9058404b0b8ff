"""The tables of the running gear against identities, published anchors and independent libraries.

Published anchors are from the texts that the files name; a formula's source stands beside its check.
"""

from __future__ import annotations

import csv
import math
from importlib import resources
from itertools import pairwise
from typing import Any

import pytest

from partscheck.catalogue import Catalogue
from partscheck.notation.bolt_circle import read_bolt_circle
from partscheck.notation.measure import read_quantity
from partscheck.notation.thread import read_thread
from partscheck.notation.wire import read_wire_gauge
from partscheck.parts.bearings import Grease
from partscheck.parts.types import Words

IN = 25.4  # mm
OPEN_TABLES = (
    "bearing_cone", "bearing_cup", "bearing_metric", "seal_fit", "grease_class", "grease_mix", "brake_size",
    "brake_flange", "brake_law", "spindle_steel", "spindle_thread", "wire", "u_bolt",
)  # fmt: skip


def row(catalogue: Catalogue, table: str, key: str) -> dict[str, Any]:
    found = catalogue.row(table, key)
    assert found is not None, f"{table}/{key}"
    return found


@pytest.mark.parametrize("table", OPEN_TABLES)
def test_no_row_claims_more_than_stands_behind_it(shipped: Catalogue, table: str) -> None:
    rows = shipped.rows(table)
    assert rows
    for each in rows:
        kind, source = each["basis"]["kind"], each["basis"]["source"]
        if kind == "published":
            assert "not read" not in source, each["key"]
            assert "recalled" not in source, each["key"]
        if table not in ("grease_class", "grease_mix", "brake_law"):
            assert kind in ("practice", "recalled"), each["key"]


# -- inch bearings ------------------------------------------------------------------------------


def test_cones_and_cups_belong_together(shipped: Catalogue) -> None:
    cups = {cup["key"]: cup for cup in shipped.rows("bearing_cup")}
    used = set()
    for cone in shipped.rows("bearing_cone"):
        assert cone["cups"], cone["key"]
        for name in cone["cups"]:
            assert cups[name]["series"] == cone["series"], cone["key"]
            assert cups[name]["outside_mm"] > cone["bore_mm"] + 15, cone["key"]
            assert cups[name]["width_mm"] < cone["overall_width_mm"], cone["key"]
            used.add(name)
        assert cone["width_mm"] == pytest.approx(cone["overall_width_mm"], abs=1.7), cone["key"]
    assert used == set(cups)


def test_a_pair_that_does_not_exist_is_not_there(shipped: Catalogue) -> None:
    # a public data file pairs LM67048 (1.25 in bore) with L44610 (1.98 in outside)
    assert row(shipped, "bearing_cone", "LM67048")["cups"] == ["LM67010"]
    assert shipped.part("bearing-LM67048-L44610") is None
    assert shipped.part("bearing-LM67048-LM67010") is not None


def test_one_cone_in_two_cups(shipped: Catalogue) -> None:
    assert row(shipped, "bearing_cone", "L68149")["cups"] == ["L68110", "L68111"]
    small, large = (row(shipped, "bearing_cup", name)["outside_mm"] for name in ("L68110", "L68111"))
    assert small == pytest.approx(59.13, abs=0.005)  # as a public table prints it
    assert large == pytest.approx(2.361 * IN, abs=0.013)  # another prints 2.361 in, 59.97 mm
    assert shipped.part("bearing-L68149-L68110") is not None
    assert shipped.part("bearing-L68149-L68111") is not None


@pytest.mark.parametrize(
    ("table", "key", "column", "inches"),
    [
        # Shigley, Mechanical Engineering Design, Fig. 11-15 (secondary copy): 25.400 and 26.988 mm
        ("bearing_cone", "L44643", "bore_mm", 1.0),
        ("bearing_cone", "L44649", "bore_mm", 1 + 1 / 16),
        ("bearing_cone", "15100", "bore_mm", 1.0),
        ("bearing_cone", "15106", "bore_mm", 1 + 1 / 16),
        # public tables that name no standard
        ("bearing_cone", "LM11949", "bore_mm", 3 / 4),
        ("bearing_cone", "LM67048", "bore_mm", 1.25),
        ("bearing_cone", "LM48548", "bore_mm", 1.375),
        ("bearing_cone", "25580", "bore_mm", 1.75),
        ("bearing_cup", "LM67010", "outside_mm", 2.328),
        ("bearing_cup", "L44610", "outside_mm", 1.98),
        ("bearing_cup", "LM48510", "outside_mm", 2.5625),
    ],
)
def test_inch_sizes(shipped: Catalogue, table: str, key: str, column: str, inches: float) -> None:
    assert row(shipped, table, key)[column] == pytest.approx(inches * IN, abs=0.001)


@pytest.mark.parametrize(
    ("table", "key", "column", "both"),
    [
        ("bearing_cone", "14125A", "bore_mm", (31.75, 41.28)),
        ("bearing_cone", "15123", "bore_mm", (31.75, 38.10)),
        ("bearing_cone", "25877", "bore_mm", (34.925, 47.63)),
        ("bearing_cup", "25520", "outside_mm", (82.931, 83.06)),
    ],
)
def test_conflicts_keep_both_values(
    shipped: Catalogue, table: str, key: str, column: str, both: tuple[float, float]
) -> None:
    found = row(shipped, table, key)
    assert (found[column], *found[f"{column}_other"]) == both
    assert found["status"] == "conflict"
    assert found["note"]


def test_only_conflicts_are_called_so(shipped: Catalogue) -> None:
    """Values that differ by more than two names of one size may (0.07 mm) are a conflict, and no others."""
    for table, column in (("bearing_cone", "bore_mm"), ("bearing_cup", "outside_mm")):
        for each in shipped.rows(table):
            far = [it for it in each.get(f"{column}_other", []) if abs(it - each[column]) > 0.07]
            rounded_to_whole = each["key"] == "L45410"  # 50.292 printed as 50
            assert (each["status"] == "conflict") == (bool(far) and not rounded_to_whole), each["key"]


def test_ratings_say_their_turns(shipped: Catalogue) -> None:
    rated = {cone["key"]: cone for cone in shipped.rows("bearing_cone") if "dynamic_rating_n" in cone}
    # Shigley, Mechanical Engineering Design, Fig. 11-15 (secondary copy): rating and K
    anchors = {"L44642": (7210, 1.56), "L44643": (7210, 1.56), "15100": (12100, 1.67), "15106": (12100, 1.67)}
    assert {key: (it["dynamic_rating_n"], it["k_factor"]) for key, it in rated.items()} == anchors
    assert {it["rating_turns"] for it in rated.values()} == {90_000_000}
    for it in rated.values():  # L10 = (C/P)^(10/3): C for 1e6 turns is 90^0.3 times that for 90e6
        assert (it["rating_turns"] / 1e6) ** 0.3 == pytest.approx(3.857, abs=0.001)


def test_generic_bearings_say_what_the_tables_say(shipped: Catalogue) -> None:
    checked = 0
    for part in shipped.parts("bearing"):
        fields = {name: text for name, (text, *_) in part.fields.items()}
        if "cone" not in fields:
            continue
        cone, cup = row(shipped, "bearing_cone", fields["cone"]), row(shipped, "bearing_cup", fields["cup"])
        assert fields["cup"] in cone["cups"]
        assert part.id == f"bearing-{fields['cone']}-{fields['cup']}"
        for name, source, column in (("bore", cone, "bore_mm"), ("outside", cup, "outside_mm")):
            if source["status"] == "conflict":
                assert name not in fields, part.id  # measured, not guessed
            else:
                assert fields[name] == f"{source[column]:g} mm", part.id
        assert fields["width"] == f"{cone['overall_width_mm']:g} mm", part.id
        assert ("dynamic_rating" in fields) == ("dynamic_rating_n" in cone), part.id
        if "dynamic_rating" in fields:
            assert fields["dynamic_rating"] == f"{cone['dynamic_rating_n']} N"
            assert float(fields["rating_turns"]) == cone["rating_turns"]
        checked += 1
    pairs = sum(len(cone["cups"]) for cone in shipped.rows("bearing_cone"))
    assert checked == pairs


# -- metric bearings ----------------------------------------------------------------------------


def test_metric_bearings_carry_no_makers_ratings(shipped: Catalogue) -> None:
    for each in shipped.rows("bearing_metric"):
        assert not {"dynamic_rating_n", "static_rating_n", "rating_turns"} & set(each), each["key"]


def test_metric_bores_follow_the_designation(shipped: Catalogue) -> None:
    # ISO 15 and ISO 355 bore codes: last two digits x 5 from 04, 03 is 17 mm, /nn is the bore itself
    for each in shipped.rows("bearing_metric"):
        key = each["key"]
        assert key.startswith(each["series"])
        code = key[3:].removeprefix("/")
        bore = float(code) if "/" in key else {"03": 17.0}.get(code, 5.0 * int(code))
        assert each["bore_mm"] == bore
        assert each["cone_width_mm"] <= each["width_mm"] < each["outside_mm"]


def test_e_times_y(shipped: Catalogue) -> None:
    # e = 1.5 tan a and Y = 0.4 cot a (ISO 281, recalled), so e x Y = 0.6
    checked = 0
    for table in ("bearing_cone", "bearing_metric"):
        for each in shipped.rows(table):
            if "e_factor" in each and "y_factor" in each:
                assert each["e_factor"] * each["y_factor"] == pytest.approx(0.6, abs=0.001), each["key"]
                angle = math.radians(each["contact_angle_deg"])
                assert each["e_factor"] == pytest.approx(1.5 * math.tan(angle), abs=0.0006), each["key"]
                checked += 1
    assert checked >= 20
    for part in shipped.parts("bearing"):
        if "e_factor" in part.fields:
            product = float(part.fields["e_factor"][0]) * float(part.fields["y_factor"][0])
            assert product == pytest.approx(0.6, abs=0.001), part.id


def test_metric_bearings_against_bd_warehouse(shipped: Catalogue) -> None:
    pytest.importorskip("bd_warehouse", reason="bd_warehouse is not installed")
    name = "single_row_tapered_roller_bearing_parameters.csv"
    with (resources.files("bd_warehouse") / "data" / name).open(encoding="utf-8") as stream:
        theirs = {it["SKT:Designation"]: it for it in csv.DictReader(stream)}
    checked = 0
    for designation, their in theirs.items():
        number, _, suffix = designation.partition(" ")
        ours = shipped.row("bearing_metric", number)
        if ours is None or suffix.startswith("B"):  # B: the steep form, another bearing
            continue
        for column, key in (
            ("bore_mm", "d"), ("outside_mm", "D"), ("width_mm", "T"),
            ("cone_width_mm", "B"), ("cup_width_mm", "C"),
        ):  # fmt: skip
            assert ours[column] == float(their[f"SKT:{key}"]), f"{designation} {column}"
        assert ours["e_factor"] == pytest.approx(float(their["SKT:e"]), abs=0.0101), designation
        assert ours["y_factor"] == pytest.approx(float(their["SKT:Y"]), abs=0.0501), designation
        checked += 1
    assert checked >= 11


# -- seals and grease ---------------------------------------------------------------------------


def words_of(field: str) -> set[str]:
    """The words that a field of grease takes."""
    kind = Grease.fields[field].type
    assert isinstance(kind, Words)
    return set(kind.allowed)


def test_seal_allowances(shipped: Catalogue) -> None:
    rows = shipped.rows("seal_fit")
    # two public tables that agree: metal and rubber covered, thousandths of an inch
    assert [(it["metal_in"], it["rubber_in"]) for it in rows] == [
        (0.004, 0.006), (0.004, 0.007), (0.004, 0.008), (0.005, 0.010),
    ]  # fmt: skip
    for it in rows:
        for name in ("metal", "rubber"):
            assert it[f"{name}_mm"] == pytest.approx(it[f"{name}_in"] * IN)
        assert it["bore_to_mm"] == pytest.approx(it["bore_to_in"] * IN)
        assert it["bore_over_in"] < it["bore_to_in"]
    assert all(lower["bore_to_in"] == upper["bore_over_in"] for lower, upper in pairwise(rows))


def test_grease_classes(shipped: Catalogue) -> None:
    verdicts = {it["key"]: it["verdict"] for it in shipped.rows("grease_class")}
    assert verdicts == {
        "GA": "unfit", "GB": "light duty", "GC": "good", "LA": "unfit", "LB": "unfit",
        "GB-LB": "light duty", "GC-LB": "good",
    }  # fmt: skip
    listed = words_of("service_class")
    assert set(verdicts) == listed - {"none marked"}


def test_grease_matrix(shipped: Catalogue) -> None:
    rows = {it["key"]: it for it in shipped.rows("grease_mix")}
    listed = words_of("thickener")
    assert set(rows) == listed - {"calcium sulfonate", "silica"}  # no row for these two
    words = {"compatible", "borderline", "incompatible"}
    for one, first in rows.items():
        for other, second in rows.items():
            found = first[other.replace(" ", "_")]
            assert found in words
            assert found == second[one.replace(" ", "_")], f"{one} with {other}"
        own = first[one.replace(" ", "_")]
        assert own == ("borderline" if one == "clay" else "compatible"), one
    assert "suspicious" in rows["clay"]["note"]
    # US Bureau of Reclamation, FIST 2-4 (11/90), Table 2 (secondary copy): what is not incompatible
    pairs = {
        frozenset((one, other)): first[other.replace(" ", "_")]
        for one, first in rows.items()
        for other in rows
        if other != one and first[other.replace(" ", "_")] != "incompatible"
    }
    assert pairs == {
        frozenset(("aluminum complex", "lithium")): "borderline",
        frozenset(("aluminum complex", "lithium complex")): "compatible",
        frozenset(("calcium", "lithium")): "borderline",
        frozenset(("calcium", "lithium complex")): "compatible",
        frozenset(("lithium", "lithium complex")): "compatible",
    }


# -- brakes, axles, wires -----------------------------------------------------------------------


def test_brake_sizes(shipped: Catalogue) -> None:
    rims = {it["key"] for it in shipped.rows("brake_rim")}
    bolts = {it["bolts"] for it in shipped.rows("brake_flange")}
    for it in shipped.rows("brake_size"):
        assert f"{it['drum_diameter_in']:g}" in rims
        assert it["key"].startswith(f"{it['drum_diameter_in']:g} x ")
        for name in ("drum_diameter", "shoe_width"):
            assert it[f"{name}_mm"] == pytest.approx(it[f"{name}_in"] * IN)
        assert 0 < it["current_least_a"] < it["current_most_a"]
        assert set(it["flange_bolts"]) <= bolts
    sizes = {it["key"] for it in shipped.rows("brake_size")}
    assert all(set(it["brakes"]) <= sizes for it in shipped.rows("brake_flange"))


def test_laws_differ_and_name_their_source(shipped: Catalogue) -> None:
    rows = shipped.rows("brake_law")
    published = [it for it in rows if it["basis"]["kind"] == "published"]
    pounds = [it["threshold_lb"] for it in published if "older" not in it["key"]]
    assert (min(pounds), max(pounds)) == (1500, 4500)  # NRS 484D.250; Texas
    assert all(("threshold_lb" in it) != ("threshold_kg" in it) for it in rows)
    assert all(it["says"] and it["applies_to"] for it in rows)
    assert len({it["basis"]["source"] for it in published}) == 4


def test_spindle_steels_agree_with_the_table_of_materials(shipped: Catalogue) -> None:
    for it in shipped.rows("spindle_steel"):
        material = row(shipped, "material", it["material"])
        assert it["yield_mpa"] == pytest.approx(it["yield_ksi"] * 6.894757, rel=0.001), it["key"]
        assert it["yield_mpa"] >= material["yield_mpa"], it["key"]  # a word stands for its weakest form
        if it["condition"] in ("hot rolled", "annealed", "not stated"):
            assert it["yield_mpa"] == material["yield_mpa"], it["key"]


def test_spindle_threads(shipped: Catalogue) -> None:
    rows = {it["key"]: it for it in shipped.rows("spindle_thread")}
    for key, it in rows.items():
        thread = read_thread(it["thread"], shipped)
        assert thread.diameter.lo == pytest.approx(it["diameter_mm"])
        assert thread.pitch.lo == pytest.approx(it["pitch_mm"], abs=1e-5)
        if "tpi" in it:
            assert it["pitch_mm"] == pytest.approx(IN / it["tpi"], abs=1e-5)
        for other in it["mistaken_for"]:
            assert key in rows[other]["mistaken_for"], key
    assert (rows["1-14"]["thread"], rows["1-12"]["thread"]) == ("1-14 UNS", "1-12 UNF")


def test_tubes_and_u_bolts(shipped: Catalogue) -> None:
    for it in shipped.rows("u_bolt"):
        assert it["tube_mm"] == pytest.approx(it["tube_in"] * IN)
        assert read_thread(it["thread"], shipped).known
        assert it["shape"] in it["key"]


def test_awg_resistances(shipped: Catalogue) -> None:
    # d = 0.005 in x 92^((36 - n)/39); R = 10.371 ohm cmil/ft (both recalled)
    checked = 0
    for it in shipped.rows("wire"):
        assert it["area_mm2"] == pytest.approx(read_wire_gauge(it["key"]).area.lo, rel=0.0005), it["key"]
        assert it["ohm_per_km"] == pytest.approx(it["ohm_per_1000_ft"] / 0.3048, rel=0.001), it["key"]
        if it["system"] != "AWG":
            continue
        gauge = int(it["key"].split()[0])
        mils = 5 * 92 ** ((36 - gauge) / 39)
        assert it["ohm_per_1000_ft"] == pytest.approx(10371 / mils**2, rel=0.001), it["key"]
        assert it["diameter_mil"] == pytest.approx(mils, abs=0.001), it["key"]
        checked += 1
    assert checked == 9


def test_metric_wires_on_the_same_copper_as_awg(shipped: Catalogue) -> None:
    for it in shipped.rows("wire"):  # annealed copper at 20 deg C, 17.241 ohm mm2 per km
        assert it["ohm_per_km"] * it["area_mm2"] == pytest.approx(17.241, rel=0.001), it["key"]


def test_thicker_wire_resists_less_and_may_be_fused_higher(shipped: Catalogue) -> None:
    rows = sorted(shipped.rows("wire"), key=lambda it: float(it["area_mm2"]))
    for thin, thick in pairwise(rows):
        assert thin["ohm_per_km"] > thick["ohm_per_km"]
        assert thin["fuse_a"] <= thick["fuse_a"]


@pytest.mark.parametrize(
    ("gauge", "amperes", "volts"),
    [("12 AWG", 10, 31.74), ("14 AWG", 10, 50.50), ("10 AWG", 10, 19.90),
     ("16 AWG", 5, 40.21), ("18 AWG", 1, 12.78)],
)  # fmt: skip
def test_printed_drops_of_both_wires_over_1000_ft(
    shipped: Catalogue, gauge: str, amperes: float, volts: float
) -> None:
    # a public table that names no standard; 0.15 %, 10 AWG 0.4 %
    found = 2 * row(shipped, "wire", gauge)["ohm_per_1000_ft"] * amperes
    assert found == pytest.approx(volts, rel=0.004 if gauge == "10 AWG" else 0.0015)


@pytest.mark.parametrize(
    ("gauge", "feet", "printed", "within"),
    [("6 AWG", 107, 0.942, 0.005), ("12 AWG", 88, 3.60, 0.013), ("14 AWG", 100, 6.12, 0.005),
     ("10 AWG", 39, 0.98, 0.005), ("10 AWG", 156, 3.93, 0.005), ("10 AWG", 273, 6.88, 0.005)],
)  # fmt: skip
def test_published_drops_of_tinned_wire(
    shipped: Catalogue, gauge: str, feet: float, printed: float, within: float
) -> None:
    # FAA AC 43.13-1B, page 11-22, Tables 11-7 and 11-8, 20 A, one way (secondary copy read)
    assert row(shipped, "wire", gauge)["tinned_ohm_per_ft"] * feet * 20 == pytest.approx(printed, rel=within)


def test_the_misprint_is_noted_where_its_value_stands(shipped: Catalogue) -> None:
    # AC 43.13-1B prints .366 V for 10 AWG, 19.5 ft, 20 A
    ten = row(shipped, "wire", "10 AWG")
    assert ten["tinned_ohm_per_ft"] * 19.5 * 20 == pytest.approx(0.4914, abs=0.0001)
    assert ".366" in ten["note"]
    assert "misprint" in ten["note"]


# -- practice limits ----------------------------------------------------------------------------


def test_limits_of_the_running_gear(shipped: Catalogue) -> None:
    values = {it["key"]: it["value"] for it in shipped.rows("practice")}
    wanted = {
        "slide_fit_most": "0.03 mm", "name_agreement_most": "0.03 mm", "name_differs": "0.05 mm",
        "cup_press_least": "0.02 mm", "cup_press_most": "0.08 mm", "seal_press_most": "0.20 mm",
        "bearing_life_least": "150000 km", "cornering_share": "10 %", "spindle_safety": "1.5",
        "brake_wire_drop": "10 %",
    }  # fmt: skip
    assert {key: values.get(key) for key in wanted} == wanted


def test_the_limits_of_names_tell_the_bearings_apart(shipped: Catalogue) -> None:
    """1.378 in is the bore of L68149; 1.375 in is another size and 59.131 is not 59.975."""
    bore = row(shipped, "bearing_cone", "L68149")["bore_mm"]
    limits = (row(shipped, "practice", key) for key in ("name_agreement_most", "name_differs"))
    same, other = (read_quantity(limit["value"], "length").lo for limit in limits)
    assert abs(1.378 * IN - bore) <= same
    assert abs(1.375 * IN - bore) > other
    for table, column in (("bearing_cone", "bore_mm"), ("bearing_cup", "outside_mm")):
        sizes = sorted({it[column] for it in shipped.rows(table)})
        assert all(upper - lower > other for lower, upper in pairwise(sizes)), table


def test_flanges_say_how_to_be_measured(shipped: Catalogue) -> None:
    for it in shipped.rows("brake_flange"):
        assert it["key"].startswith(f"{it['bolts']} ")
        assert "centre to centre" in it["measure"]
    # the chord factor of five holes, 1/sin 36 deg
    assert "1.7013" in row(shipped, "brake_flange", "5 bolt")["measure"]
    five = read_bolt_circle("5 lugs, 2 in between neighbours")
    assert five.diameter.lo == pytest.approx(2 * IN * 1.7013, rel=1e-4)
