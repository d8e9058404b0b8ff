"""Bolted joints as places: what they resolve to, what their tables give, and faults in the list."""

from __future__ import annotations

from typing import Any

import pytest
from case_files import shipped_catalogue

from partscheck.build.fastener_data import bolt_strength, clearance, material_strength, stock_lengths
from partscheck.build.fit import Fit
from partscheck.build.joint_places import JointPlace
from partscheck.build.reader import read_build
from partscheck.notation.faults import Faults
from partscheck.notation.grade import read_grade
from partscheck.notation.interval import Interval
from partscheck.notation.thread import read_thread

LB = 4.4482216152605


def places(text: str) -> list[Any]:
    build = read_build(text.encode(), shipped_catalogue(), "joint.yaml")
    build.listen()
    return Fit(build).bindings(JointPlace)


def one(joint: str, parts: str = "", head: str = "") -> Any:
    bolt = "  - {id: b, kind: bolt, size: 1/2-13 x 2-1/2 in, grade: 5}\n  - {id: n, kind: nut, thread: 1/2-13}\n"
    return places(f"{head}parts:\n{bolt}{parts}bolted_joints:\n  - {joint}\n")[0]


def span(value: Interval) -> tuple[float, float]:
    return (pytest.approx(value.lo, abs=1e-6), pytest.approx(value.hi, abs=1e-6))


def test_a_joint_resolves_its_lines_and_its_stack() -> None:
    place = one(
        "{id: arm, bolt: b, nut: n, washers: {head: w, nut: SAE}, bolts: 3, places: 2,"
        " stack: [{name: plate, thickness: 3/8 in}, {gap: 1 in}, {thickness: 10 mm}]}",
        "  - {id: w, kind: washer, for: 1/2 in, thickness: 2 mm}\n",
    )
    assert [part.id for part in place.parts] == ["b", "n", "w"]
    assert place.at == ("arm",)
    assert [item.id for item in place.stack] == ["arm / plate", "arm / layer 2", "arm / layer 3"]
    assert (place.grip.lo, place.grip.hi) == span(Interval.exact(9.525 + 25.4 + 10))
    assert place.washer("nut").hardness == "soft"
    # SAE flat washers for 1/2 in are 0.074 to 0.121 in thick (recalled: ASME B18.21.1).
    assert (place.washers_thickness.lo, place.washers_thickness.hi) == span(
        Interval(2 + 0.074 * 25.4, 2 + 0.121 * 25.4)
    )
    assert (place.count.lo, place.places) == (3, 2)


def test_unknown_count_and_load_are_the_widest() -> None:
    place = one("{id: arm, bolt: b, nut: n, load: unknown}")
    assert (place.count.lo, place.count.hi) == (1, float("inf"))
    assert not place.has_load
    assert not place.load_shear.known


def test_a_component_that_is_left_out_is_not_there() -> None:
    place = one("{id: arm, bolt: b, nut: n, load: {shear: 1100 lb}}")
    assert place.load_shear.lo == pytest.approx(1100 * LB)
    assert place.load_tension.hi == 0


@pytest.mark.parametrize(
    ("source", "newtons"),
    [
        ("wheel", (2600 - 300) / 2 * LB),
        ("axle", (2600 - 300) / 2 * LB),  # two places share the axle
        ("jack", 300 * LB),
        ("coupler", (300**2 + (0.5 * 2600) ** 2) ** 0.5 * LB),
        ("rack", (110 + 20 * 9.80665 / 4.4482216152605 / 2.2046226218488) * LB),
    ],
)
def test_a_load_taken_from_what_bears_on_the_joint(source: str, newtons: float) -> None:
    head = "service: {gross_weight: 2600 lb, tongue_weight: 300 lb}\nlayout: {axles: 1}\n"
    parts = "  - {id: r, kind: rack, weight_carried: 110 lb, weight: 20 lb}\n"
    place = one(f"{{id: arm, bolt: b, nut: n, places: 2, load: {{from: {source}}}}}", parts, head)
    assert place.load_shear.lo == pytest.approx(newtons, rel=1e-6)
    assert place.load_shear.hi == pytest.approx(newtons, rel=1e-6)
    assert place.load_tension.hi == 0


def test_each_line_of_bolts_is_a_place_and_one_is_the_first() -> None:
    text = "parts:\n" + "".join(
        f"  - {{id: {name}, kind: bolt, size: 1/2-13 x {length} in}}\n" for name, length in (("a", 2), ("b", 3))
    )
    found = places(text + "bolted_joints:\n  - {id: arm, bolt: [a, b]}\n")
    assert [(place.bolt.id, place.first) for place in found] == [("a", True), ("b", False)]


@pytest.mark.parametrize(
    ("grade", "thread", "proof"),
    [
        # SAE J429 and ISO 898-1 as printed in Shigley 9e, Tables 8-9 and 8-11 (secondary copies read)
        ("2", "3/4-10", 55 * 6.894757),
        ("2", "7/8-9", 33 * 6.894757),
        ("5", "1-8", 85 * 6.894757),
        ("8", "1/2-13", 120 * 6.894757),
        ("8.8", "M16", 580),
        ("8.8", "M18", 600),
        ("10.9", "M12", 830),
    ],
)
def test_proof_strength_at_the_edges_of_the_tables(grade: str, thread: str, proof: float) -> None:
    tables = shipped_catalogue()
    strength = bolt_strength(tables, read_grade(grade), read_thread(thread, tables))
    assert strength.known
    assert strength.proof.lo == pytest.approx(proof, abs=0.01)


def test_an_unknown_grade_may_be_any_and_a_bare_head_only_the_weakest() -> None:
    tables = shipped_catalogue()
    thread = read_thread("1/2-13", tables)
    unknown = bolt_strength(tables, read_grade("unknown"), thread)
    bare = bolt_strength(tables, read_grade("no marks"), thread)
    assert not unknown.known
    assert bare.proof.lo == pytest.approx(33 * 6.894757, 1e-4)
    assert bare.proof.hi == pytest.approx(55 * 6.894757, 1e-4)
    assert unknown.tensile.hi == pytest.approx(150 * 6.894757, 1e-4)


def test_both_editions_of_the_clearance_table_are_kept() -> None:
    """ISO 273: 13, 13.5, 14.5 mm for M12; the older table 13, 14, 15 (secondary copies read)."""
    tables = shipped_catalogue()
    holes = clearance(tables, read_thread("M12", tables))
    assert holes is not None
    assert (holes.close.lo, holes.normal.lo, holes.normal.hi) == (13, 13.5, 14)
    assert (holes.loose.lo, holes.loose.hi) == (14.5, 15)
    assert clearance(tables, read_thread("M11x1.5", tables)) is None


def test_stock_lengths_are_of_the_bolt_s_own_system() -> None:
    tables = shipped_catalogue()
    inch = stock_lengths(tables, read_thread("1/2-13", tables))
    assert (57.15, "2-1/4 in") in inch
    assert all(text.endswith(" in") for _, text in inch)
    assert (60, "60 mm") in stock_lengths(tables, read_thread("M12", tables))


def test_a_material_that_is_not_named_may_be_any() -> None:
    tables = shipped_catalogue()
    assert material_strength(tables, "A36").tensile.lo == pytest.approx(58 * 6.894757, abs=0.1)
    assert not material_strength(tables, "nothing of the kind").known


@pytest.mark.parametrize(
    ("joint", "read", "expected"),
    [
        ("{id: a, bolt: n}", "n (nut)", "kind bolt"),
        ("{id: a, bolt: b, nut: b}", "b (bolt)", "kind nut"),
        ("{id: a, bolt: b, washers: {nut: n}}", "n (nut)", "washer"),
        ("{id: a, bolt: b, washers: {nut: shiny}}", "shiny", "SAE, hardened"),
        ("{id: a, bolt: nobody}", "nobody", "id of a line"),
        ("{id: a, bolt: b}\n  - {id: a, bolt: b}", "a", "a name of its own"),
    ],
)
def test_faults_of_a_joint_are_told_with_their_line(joint: str, read: str, expected: str) -> None:
    with pytest.raises(Faults) as caught:
        one(joint)
    fault = caught.value.faults[0]
    assert (fault.read, fault.mark.line >= 5) == (read, True)
    assert expected in fault.expected


@pytest.mark.parametrize("word", ["SAE", "uss", "hardened", "none", "split lock", "300 HV", "structural"])
def test_a_washer_may_be_named_by_a_word(word: str) -> None:
    place = one(f"{{id: a, bolt: b, nut: n, washers: {{nut: {word}}}}}")
    assert (place.washer("nut") is None) == (word == "none")
