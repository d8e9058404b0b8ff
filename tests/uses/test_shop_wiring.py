"""The bench sheet: wires by function, and what it says of hubs and nuts of which little is known."""

from __future__ import annotations

from pathlib import Path

from case_files import shipped_catalogue

import partscheck
from partscheck.build.reader import read_build
from partscheck.engine import check_build
from partscheck.uses.shop import BenchSheet, Step, bench_sheet

ROOT = Path(__file__).resolve().parents[2]


def sheet_of(text: str) -> BenchSheet:
    return bench_sheet(check_build(read_build(text.encode(), shipped_catalogue(), "case.yaml")))


def example(name: str) -> BenchSheet:
    return partscheck.bench_sheet(partscheck.check(ROOT / f"examples/{name}.yaml", [ROOT / "examples/catalog"]))


def steps_of(sheet: BenchSheet, key: str) -> list[Step]:
    return [step for section in sheet.sections if section.key == key for step in section.steps]


def words(step: Step) -> str:
    return " ".join(one.text("inch") for one in (step.do, *step.details))


def test_lamps_are_wired_by_circuit() -> None:
    lamps, plug = steps_of(example("apiary-corrected"), "wiring")[2:]
    assert "Left stop and turn, one wire, and right stop and turn, another: lamp 'tail-lamps'." in words(lamps)
    assert "lamp 'tail-lamps', lamp 'plate-lamp', lamp 'rear-markers', lamp 'front-markers'" in words(lamps)
    assert "electric brakes; reverse lamps; charging." in words(plug)
    assert "never by color alone" in words(plug)
    assert "recalled" in {one.kind for one in plug.basis}


def test_stop_lamps_of_their_own_leave_the_turn_wires_to_turn() -> None:
    sheet = sheet_of("""
service: {country: DE}
parts:
  - {id: s, kind: lamp, function: stop, qty: 2}
  - {id: t, kind: lamp, function: turn, qty: 2}
  - {id: odd, kind: lamp, qty: 1}
  - {id: w, kind: wire, feeds: lamps, gauge: 1.5 mm2, fuse: 10 A, returns: frame}
  - {id: plug, kind: connector, ways: 7}
""")
    lamps, plug = steps_of(sheet, "wiring")
    for told in ("Left turn, one wire, and right turn, another: lamp 't'.", "Stop, one wire: lamp 's'.",
                 "the list gives no function: lamp 'odd'", "Its fuse, 10 A", "through the frame"):  # fmt: skip
        assert told in words(lamps)
    assert "by ISO" in words(plug)
    assert "on one pin charging or rear fog lamps" in words(plug)
    assert "North America" not in words(plug)


def test_brakes_that_take_no_current_get_no_wire() -> None:
    text = "parts: [{id: b, kind: brake, type: hydraulic, hand: pair, qty: 2}, {kind: hub, qty: 2}]"
    assert steps_of(sheet_of(text), "wiring") == []
    (step,) = steps_of(sheet_of(text.replace("hydraulic", "electric")), "wiring")
    assert "electric brakes at 1L, 1R" in words(step)


def test_a_hub_without_bearings_on_the_list_is_hung_all_the_same() -> None:
    (step,) = steps_of(example("metric-750"), "bearings")
    assert "pack and set them as the maker of axle or hub says" in words(step)
    assert steps_of(example("four-line-cart"), "bearings") == []  # no spindle to hang it on


def test_a_locking_nut_is_told_to_try_the_wrench_of_a_plain_one() -> None:
    (step,) = (one for one in steps_of(example("apiary-corrected"), "joints") if "arm to frame" in words(one))
    assert "Socket on the nut: 3/4 in, try it" in words(step).replace("socket", "Socket")
    assert any("locking nuts mostly have the flats" in one.source for one in step.basis)
