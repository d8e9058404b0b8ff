"""Before and after a change: every figure by hand, the reverse undoes it, units make no difference."""

from __future__ import annotations

import json
from typing import Any

import pytest
from case_files import shipped_catalogue
from hypothesis import given, settings
from hypothesis import strategies as st

import partscheck
from partscheck.build.reader import read_build
from partscheck.cli import main
from partscheck.notation.interval import Interval
from partscheck.report.swap_json import swap_data
from partscheck.report.swap_markdown import swap_markdown
from partscheck.report.swap_text import swap_text
from partscheck.uses.figures import FIGURES
from partscheck.uses.swap import BETTER, WORSE, Swap

KG = 9.80665  # N

# A wheel end whose numbers are easy to follow by hand: the wheel carries W = 2300 lb / 2 = 1150 lb = 5115.46 N.
BASE = """\
build: By hand
service: {gross_weight: 2300 lb, tongue_weight: 0, surface: gravel, country: DE}
layout: {hub_face_distance: 1524 mm, frame_width: 1168 mm, coupler_height: 450 mm, ground_clearance: 300 mm,
         overall_width: 1800 mm}
tow_vehicle: {hitch_height: 520 mm}
parts:
  - {id: axle, kind: axle, rating: 1500 kg, inner_journal: 1.375 in, shoulder_to_face: 62 mm, material: "1045",
     qty: 1}
  - {id: hub, kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, inner_bearing_to_face: 50 mm,
     outer_bearing_to_face: -18 mm, rating: 700 kg, per: each, weight: 11 kg, qty: 2}
  - {id: inner, kind: bearing, place: inner, dynamic_rating: 40.2 kN, rating_turns: 1e6, e_factor: 0.37,
     y_factor: 1.6, qty: 2}
  - {id: outer, kind: bearing, place: outer, dynamic_rating: 30.8 kN, rating_turns: 1e6, e_factor: 0.37,
     y_factor: 1.6, qty: 2}
  - {id: brake-l, kind: brake, type: electric, hand: left, design_tire_radius: 330 mm, weight: 4 kg, qty: 1}
  - {id: brake-r, kind: brake, type: electric, hand: right, design_tire_radius: 330 mm, weight: 4 kg, qty: 1}
  - {id: wheel, kind: wheel, size: 15 x 6 in, bolt_circle: 5 x 4.5 in, offset: 0, rating: 800 kg, weight: 9 kg,
     qty: 2}
  - {id: tire, kind: tire, size: ST205/75R15, max_load: 900 kg, diameter: 700 mm, loaded_radius: 330 mm,
     section_width: 210 mm, weight: 12 kg, qty: 2, price: 70}
"""
CHANGE: dict[str, Any] = {
    "swap": "Adapters and taller tires",
    "replace": {
        "tire": {
            "size": "LT235/75R15", "max_load": "1000 kg", "diameter": "760 mm", "loaded_radius": "360 mm",
            "section_width": "230 mm", "weight": "16 kg", "price": "110",
        }
    },
    "add": [{"id": "plate", "kind": "adapter", "hub_circle": "5 x 4.5 in", "wheel_circle": "5 x 4.5 in",
             "thickness": "38.1 mm", "rating": "680 kg", "weight": "2.5 kg", "qty": 2, "price": "60"}],
}  # fmt: skip
REVERSE: dict[str, Any] = {
    "replace": {
        "tire": {
            "size": "ST205/75R15", "max_load": "900 kg", "diameter": "700 mm", "loaded_radius": "330 mm",
            "section_width": "210 mm", "weight": "12 kg", "price": "70",
        }
    },
    "remove": ["plate"],
}  # fmt: skip


def swap(change: Any = CHANGE, base: Any = BASE) -> Swap:
    build = read_build(base.encode(), shipped_catalogue(), "base.yaml") if isinstance(base, str) else base
    return partscheck.swap(build, change)  # type: ignore[no-any-return]


@pytest.fixture(scope="module")
def forth() -> Swap:
    return swap()


@pytest.fixture(scope="module")
def back(forth: Swap) -> Swap:
    return swap(REVERSE, forth.after.build)


def ends(found: Swap, name: str) -> tuple[float | None, float | None]:
    (one,) = [figure for figure in found.of(name) if figure.name == name]
    told = [None if side is None else side.mid for side in (one.before, one.after)]
    return told[0], told[1]


# ---- by hand -----------------------------------------------------------------------------------------
#
# Load plane x = offset - thickness: 0; after 0 - 38.1 = -38.1 mm.
# Inside the bearings (at -18 and 50): min(0 + 18, 50 - 0) = 18; after min(-38.1 + 18, ...) = -20.1 mm.
# Track 1524 - 2 x: 1524; after 1524 + 76.2 = 1600.2 mm.
# Over the tires 1524 + 2 (S/2 - x): 1524 + 210 = 1734; after 1524 + 2 (115 + 38.1) = 1830.2 mm.
# Overall, typed 1800: 1800 (above 1734); after 1830.2 mm (the tires stand out).
# Frame (1524 - 1168)/2 = 178; 178 - (S/2 + x): 178 - 105 = 73; after 178 - (115 - 38.1) = 101.1 mm.
# Outer sidewall S/2 - x: 105; after 153.1 mm.
# The axle rises by 360 - 330 = 30 mm: ground clearance 300 -> 330, coupler 450 -> 480,
# drop 520 - 450 = 70 -> 520 - 480 = 40 mm.
# Turns 10^6/(2 pi r): 482.288 -> 442.097 a km; 60 x 800 x 2 pi r: 99.526 -> 108.573 km/h.
# Brake force 1000/r for each N m: 3.0303 -> 2.7778 N; of its rating at 330: 1 -> 330/360 = 0.91667.
# Bearings, W = 5115.46 N, R_i = W (x + 18)/68, S = Fr/3.2, duty 90 % straight, 5 % each way at 0.2 g (x + 0.2 r):
#   before, r 330 (worked with one decimal):
#     straight x 0: Fr 1354.1 / 3761.4, Fa 1175.4 / 1175.4, P 2422.3 / 3761.4; 24.17e6 / 2.2946e6 km
#     +66:  Fr 6319.1 / 1203.6, Fa 1974.7 / 951.6,  P 6319.1 / 2004.1; 0.98916e6 / 18.714e6 km
#     -66:  Fr 3610.9 / 8726.4, Fa 1703.9 / 2727.0, P 4170.6 / 8726.4; 3.9517e6 / 0.13881e6 km
#     1/L = 0.9/24.17 + 0.05/0.98916 + 0.05/3.9517 -> 9.957e6 km; outer 1.3243e6 km
#   after, x -38.1, r 360:
#     straight: Fr 1512.1 / 6627.5, Fa 2071.1 / 2071.1, P 3918.6 / 6627.5; 5.3064e6 / 0.37886e6 km
#     +72 = 33.9:   Fr 3904.3 / 1211.2,  Fa 1401.6 / 378.5,  P 3904.3 / 1211.2;  5.3715e6 / 109.4e6 km
#     -72 = -110.1: Fr 6928.4 / 12043.9, Fa 2740.6 / 3763.7, P 7156.4 / 12043.9; 0.71273e6 / 0.051732e6 km
#     inner 4.0150e6 km, outer 0.29918e6 km
# Spindle, d 34.925, 32 M/(pi d^3): straight with k 2: M = 2 W (62 - x) = 634.3 N m, 151.7 MPa; in a bend of 0.2 g
# M = W (62 - x + 0.2 r) = W 128 = 654.8 N m, 156.56 MPa rules; after 2 W 100.1 = 1024.1 N m, 244.87 MPa.
# Unsprung 12 + 9 + 11 + 4 = 36; after 16 + 9 + 2.5 + 11 + 4 = 42.5 kg.
# Gross weight, half on each wheel: hub 2 x 700 = 1400 kg is least; after plate 2 x 680 = 1360 kg.
BY_HAND = {
    "effective offset": (0, -38.1),
    "load inside the bearings by": (18, -20.1),
    "track width": (1524, 1600.2),
    "width over the tires": (1734, 1830.2),
    "overall width": (1800, 1830.2),
    "tire to frame": (73, 101.1),
    "outer sidewall beyond hub face": (105, 153.1),
    "tire diameter": (700, 760),
    "loaded radius, axle height": (330, 360),
    "ground clearance": (300, 330),
    "coupler height": (450, 480),
    "ball mount drop that levels": (70, 40),
    "turns": (482.288, 442.097),
    "road speed, axle 800 turns/min": (99.5257, 108.5734),
    "brake force at the road": (3.030303, 2.777778),
    "brake force of its rating": (1, 0.9166667),
    "load on the worst wheel": (5115.455, 5115.455),
    "inner bearing life": (9.957e6, 4.0150e6),
    "outer bearing life": (1.3243e6, 0.29918e6),
    "spindle stress": (156.56, 244.87),
    "unsprung weight, wheel end": (36, 42.5),
    "tire rating": (900 * KG, 1000 * KG),
    "wheel rating": (800 * KG, 800 * KG),
    "adapter rating": (None, 680 * KG),
    "hub rating": (700 * KG, 700 * KG),
    "gross weight supported": (1400 * KG, 1360 * KG),
}


@pytest.mark.parametrize("name", BY_HAND)
def test_every_figure_by_hand(forth: Swap, name: str) -> None:
    before, after = BY_HAND[name]
    told = ends(forth, name)
    assert told[0] == (None if before is None else pytest.approx(before, rel=1e-4, abs=1e-6))
    assert told[1] == pytest.approx(after, rel=1e-4, abs=1e-6)


def test_no_figure_is_left_out_of_the_hand_work() -> None:
    elsewhere = {"tire to arm or spring", "tire in its fender", "tire to fender, fully up", "between tandem tires"}
    assert {kind.name for kind in FIGURES} == {*BY_HAND, *elsewhere}


def test_clearances_of_arm_fender_and_tandem_by_hand() -> None:
    text = """\
layout: {axles: 2, axle_spacing: 800 mm}
parts:
  - {id: arm, kind: suspension-arm, face_to_arm: 150 mm, travel: 80 mm}
  - {id: wheel, kind: wheel, size: 15 x 6 in, offset: 0}
  - {id: tire, kind: tire, size: ST205/75R15, diameter: 700 mm, section_width: 210 mm}
  - {id: fender, kind: fender, inside_width: 260 mm, height: 460 mm}
"""
    found = swap({"replace": {"tire": {"diameter": "720 mm", "section_width": "220 mm"}}}, text)
    # arm 150 - S/2: 45 -> 40; fender, the least of side (260 - S)/2 = 25 -> 20 and top 460 - D/2 = 110 -> 100;
    # fully up 460 - D/2 - 80 = 30 -> 20; tandem 800 - 1.03 D = 79 -> 58.4 mm.
    assert ends(found, "tire to arm or spring") == pytest.approx((45, 40))
    assert ends(found, "tire in its fender") == pytest.approx((25, 20))
    assert ends(found, "tire to fender, fully up") == pytest.approx((30, 20))
    assert ends(found, "between tandem tires") == pytest.approx((79, 58.4))


def test_findings_appear_and_the_part_that_sets_the_weight_changes(forth: Swap) -> None:
    slugs = {(one.rule.slug, one.verdict) for one in forth.appears}
    assert ("load-outboard-of-bearings", "caution") in slugs
    assert ("spindle-bending", "caution") in slugs
    assert ("width-inconsistent", "caution") in slugs
    assert [part.id for part in forth.limiting] == ["hub", "plate"]


def test_worst_comes_first(forth: Swap) -> None:
    directions = [one.direction for one in forth.figures]
    assert directions == sorted(directions, key=["worse", "other", "better"].index)
    assert forth.figures[0].name == "load inside the bearings by"  # below zero before all else
    by_name = {one.name: one.direction for one in forth.figures}
    for name in ("outer bearing life", "brake force at the road", "spindle stress"):
        assert by_name[name] == WORSE
    assert by_name["tire to frame"] == by_name["ground clearance"] == by_name["tire rating"] == BETTER


def test_what_is_to_buy_and_what_is_left_over(forth: Swap) -> None:
    bought = {one.line.id: (one.pieces, one.cost) for one in forth.to_buy}
    assert bought == {"tire": (2, 22000), "plate": (2, 12000)}
    assert [line.id for line in forth.not_needed] == ["tire"]
    # The plate has no nuts yet.
    assert ("part-missing", "stop") in {(one.rule.slug, one.verdict) for one in forth.appears}


# ---- the reverse ---------------------------------------------------------------------------------------


def test_the_reverse_exchanges_before_and_after(forth: Swap, back: Swap) -> None:
    for kind in FIGURES:
        there = [one for one in forth.of(kind.name) if one.name == kind.name]
        again = [one for one in back.of(kind.name) if one.name == kind.name]
        assert len(there) == len(again)
        for one, other in zip(there, again, strict=True):
            assert same(one.before, other.after), kind.name
            assert same(one.after, other.before), kind.name


def test_the_reverse_takes_away_what_appeared(forth: Swap, back: Swap) -> None:
    def keys(findings: Any) -> list[Any]:
        return sorted((one.rule.slug, one.verdict, [part.id for part in one.parts]) for one in findings)

    assert keys(back.goes) == keys(forth.appears)
    assert keys(back.appears) == keys(forth.goes)
    assert len(back.stays) == len(forth.stays)


def same(one: Interval | None, other: Interval | None) -> bool:
    if one is None or other is None:
        return one is other
    return (one.lo, one.hi) == pytest.approx((other.lo, other.hi), rel=1e-12, abs=1e-9) and one.unit == other.unit


MM = st.floats(-60, 60).map(lambda value: round(value, 2))


@given(MM, MM, st.floats(550, 800), st.floats(550, 800), st.floats(5, 60), st.floats(5, 60))
@settings(max_examples=12, deadline=None)
def test_any_swap_and_its_reverse(o1: float, o2: float, d1: float, d2: float, t1: float, t2: float) -> None:
    def values(offset: float, diameter: float, thickness: float) -> dict[str, Any]:
        return {"wheel": {"offset": f"{offset} mm"}, "plate": {"thickness": f"{thickness:.4f} mm"},
                "tire": {"diameter": f"{diameter:.4f} mm"}}  # fmt: skip

    plain = BASE.replace("loaded_radius: 330 mm,", "").replace("diameter: 700 mm", f"diameter: {d1:.4f} mm")
    text = plain.replace("offset: 0,", f"offset: {o1} mm,") + (
        f"  - {{id: plate, kind: adapter, thickness: {t1:.4f} mm, rating: 680 kg, qty: 2}}\n"
    )
    there = swap({"replace": values(o2, d2, t2)}, text)
    again = swap({"replace": values(o1, d1, t1)}, there.after.build)
    assert ends(there, "track width")[1] == pytest.approx(1524 - 2 * (o2 - round(t2, 4)))
    assert ends(there, "coupler height")[1] == pytest.approx(450 + 0.47 * (round(d2, 4) - round(d1, 4)))
    for kind in FIGURES:
        for one, other in zip(there.of(kind.name), again.of(kind.name), strict=True):
            assert same(one.before, other.after), kind.name
            assert same(one.after, other.before), kind.name


# ---- inch and metric --------------------------------------------------------------------------------------


def test_units_make_no_difference(forth: Swap) -> None:
    in_inches = BASE
    for metric, inch in (
        ("1524 mm", "60 in"), ("450 mm", "17.716535433 in"), ("520 mm", "20.472440945 in"),
        ("62 mm", "2.4409448819 in"),
        ("700 mm", "27.559055118 in"), ("210 mm", "8.2677165354 in"), ("900 kg", "1984.1603597 lb"),
    ):  # fmt: skip
        assert metric in in_inches
        in_inches = in_inches.replace(metric, inch)
    change = json.loads(json.dumps(CHANGE).replace("38.1 mm", "1.5 in").replace("360 mm", "14.173228346 in"))
    twin = swap(change, in_inches)
    for kind in FIGURES:
        for one, other in zip(forth.of(kind.name), twin.of(kind.name), strict=True):
            assert one.direction == other.direction, kind.name
            for side in ("before", "after"):
                a, b = getattr(one, side), getattr(other, side)
                assert (a is None and b is None) or (a.lo, a.hi) == pytest.approx((b.lo, b.hi), rel=1e-6, abs=1e-5)
    assert [one.rule.slug for one in forth.appears] == [one.rule.slug for one in twin.appears]


# ---- what cannot be told -----------------------------------------------------------------------------------


def test_a_figure_that_cannot_be_told_says_what_it_lacks() -> None:
    text = BASE.replace("coupler_height: 450 mm, ", "").replace(", design_tire_radius: 330 mm", "")
    lacks = {one.name: one.missing for one in swap(CHANGE, text).untold}
    assert lacks["coupler height"] == ("layout.coupler_height",)
    assert lacks["ball mount drop that levels"] == ("layout.coupler_height",)
    assert set(lacks["brake force of its rating"]) <= {"brake-l.design_tire_radius", "brake-r.design_tire_radius"}


def test_what_the_change_does_not_touch_is_no_news() -> None:
    found = swap({"replace": {"wheel": {"offset": "-12 mm"}}}, BASE.replace("ground_clearance: 300 mm,", ""))
    assert found.untold == []
    assert {"tire diameter", "tire rating"} <= {one.name for one in found.same}


def test_a_new_tire_of_unknown_size_makes_the_heights_unknown() -> None:
    found = swap({"replace": {"tire": {"diameter": "unknown", "loaded_radius": "unknown", "size": "unknown"}}})
    assert not found.after.build.layout.coupler_height.known
    assert "coupler height" in {one.name for one in found.untold}


def test_what_the_change_makes_known_is_shown() -> None:
    found = swap({"replace": {"wheel": {"offset": "-12 mm"}}}, BASE.replace("offset: 0, ", ""))
    (offset,) = found.of("effective offset")
    assert offset in found.figures
    assert offset.after == Interval(-12.0, -12.0, "mm")
    assert offset.change is None
    assert "not known" in swap_text(found, "metric", 80)


def test_a_height_that_the_change_types_does_not_follow() -> None:
    change = {"replace": {**CHANGE["replace"], "layout": {"coupler_height": "455 mm"}}}
    assert ends(swap(change), "coupler height") == (450, 455)
    assert ends(swap(change), "ground clearance") == (300, 330)


def test_the_rules_see_the_coupler_rise() -> None:
    text = BASE + "  - {id: mount, kind: ball-mount, drop: 70 mm, qty: 1}\n  - {kind: coupler, qty: 1}\n"
    found = swap(base=text)
    assert "hitch-height" in {one.rule.slug for one in found.appears}  # 30 mm off, an inch is the most
    assert "hitch-height" in {one.rule.slug for one in found.before.held}


def test_few_lines_get_few_figures() -> None:
    text = "parts:\n  - {id: wheel, kind: wheel, size: 15 x 6 in, offset: 0}\n"
    found = swap({"replace": {"wheel": {"offset": "10 mm"}}}, text)
    assert [one.name for one in found.figures] == ["effective offset"]
    assert {one.name for one in found.untold} <= {"track width"}


# ---- the command ---------------------------------------------------------------------------------------------


def run(*words: str) -> int:
    return main(["swap", *words])


@pytest.fixture
def files(tmp_path: Any) -> tuple[str, str]:
    base, change = tmp_path / "base.yaml", tmp_path / "change.yaml"
    base.write_text(BASE, encoding="utf-8")
    change.write_text(json.dumps(CHANGE), encoding="utf-8")  # JSON is YAML
    return str(base), str(change)


def test_the_status_tells_of_new_stops_only(files: tuple[str, str], capsys: pytest.CaptureFixture[str]) -> None:
    base, change = files
    assert run(base, change) == 1  # the plate has no nuts
    assert run(base, "--replace", "tire.loaded_radius=331 mm") == 0
    out = capsys.readouterr().out
    assert "NO NEW STOP" in out
    assert "stays" in out  # the base has stops of its own


def test_the_change_may_stand_behind_options(files: tuple[str, str], capsys: pytest.CaptureFixture[str]) -> None:
    base, change = files
    assert run(base, "--units", "inch", change) == 1
    behind = capsys.readouterr().out
    assert run(base, change, "--units", "inch") == 1
    assert capsys.readouterr().out == behind


def test_faults_of_both_files_come_together(files: tuple[str, str], capsys: pytest.CaptureFixture[str]) -> None:
    base, change = files
    with open(base, "a", encoding="utf-8") as stream:
        stream.write("servise: {}\n")
    with open(change, "w", encoding="utf-8") as stream:
        stream.write("replce: {wheel: {offset: 0}}\n")
    assert run(base, change, "--replace", "wheel") == 2
    told = capsys.readouterr().err
    assert "did you mean `service`" in told
    assert "did you mean `replace`" in told
    assert "--replace 1" in told
    assert run(base) == 2


# ---- reports --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("columns", [40, 80, 100, 120])
@pytest.mark.parametrize("leading", ["inch", "metric"])
def test_the_page_keeps_its_width(forth: Swap, columns: int, leading: str) -> None:
    text = swap_text(forth, leading, columns)
    assert text.isascii()
    assert max(len(line) for line in text.splitlines()) <= min(columns, 100)
    for head in ("THE CHANGE", "APPEARS", "FIGURES - worst change first", "TO BUY FOR IT"):
        assert head in text


def test_every_number_has_its_basis(forth: Swap) -> None:
    data = swap_data(forth, "metric")
    assert {one["figure"] for one in data["figures"]} == set(BY_HAND)
    for one in data["figures"]:
        assert one["basis"]["kind"] in ("published", "practice", "recalled")
        assert one["meaning"].endswith(".")
    assert data["new_stops"] == len(forth.new_stops) > 0
    lines = swap_text(forth, "metric", 80).splitlines()
    legend = {line[0] for line in lines if line[1:4] == "   " and line[0].isalpha()}
    table = {line[-1] for line in lines if line[-3:-1] == "  " and line[-1:].isalpha()}
    assert table == legend


def test_markdown_keeps_every_figure_and_no_mark_of_the_list(forth: Swap) -> None:
    text = swap_markdown(forth, "metric")
    for one in (*forth.figures, *forth.same):
        assert one.name in text
    evil = swap({"swap": "<script>|x", "replace": {"wheel": {"offset": "3 mm"}}})
    assert "<script>" not in swap_markdown(evil, "metric")
