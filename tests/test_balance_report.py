"""Balance, tire pressures and what is not checked, in the text and in the JSON report."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from case_files import check_text

from partscheck.cli import main
from partscheck.report.json_report import json_report
from partscheck.report.text import text_report

ROOT = Path(__file__).resolve().parent.parent

# Own method, hand-worked: axle = sum(w x) / 120.
RACKED = """
layout: {coupler_to_axle: 120 in, hub_face_distance: 60 in}
loads:
  - {what: frame and deck, weight: 640 lb, from_coupler: 100 in}
  - {what: running gear, weight: 350 lb, from_coupler: 120 in}
  - {what: hives, weight: 1500 lb, from_coupler: 112 in, cases: [loaded, racked]}
  - {what: rear rack, weight: 110 lb, from_coupler: 208 in, cases: [racked]}
load_cases: [empty, loaded, racked]
parts:
  - {kind: wheel, size: 14 x 6 in, offset: 0 mm}
  - {id: tire, kind: tire, size: ST205/75R14, max_load: 1760 lb, max_pressure: 50 psi}
"""


def section(text: str, head: str, columns: int = 80, leading: str = "inch") -> list[str]:
    lines = text_report(check_text(text), leading, columns).splitlines()
    start = next((place for place, line in enumerate(lines) if line.startswith(head)), None)
    if start is None:
        return []
    heads = [place for place, line in enumerate(lines) if line and set(line) == {"-"}]
    after = [place - 1 for place in heads if place > start + 2]
    return lines[start : min(after, default=len(lines))]


def squeezed(lines: list[str]) -> list[str]:
    return [" ".join(line.split()) for line in lines]


def test_each_case_has_its_row() -> None:
    lines = squeezed(section(RACKED, "BALANCE"))
    assert "empty 990 lb 883 lb 107 lb 10.8 % 442 lb 442 lb" in lines
    assert "loaded 2490 lb 2283 lb 207 lb 8.3 % 1142 lb 1142 lb" in lines
    assert "racked 2600 lb 2474 lb 126 lb 4.8 % 1237 lb 1237 lb" in lines


def test_the_side_view_is_to_scale_and_says_what_the_rack_takes_off() -> None:
    lines = section(RACKED, "BALANCE")
    beam = next(line for line in lines if line.strip().startswith("o="))
    wheel = next(line for line in lines if "O 2474 lb" in line)
    marks = next(line for line in lines if line.split() == ["1", "3", "2", "4"])
    ball, rear = beam.index("o"), len(beam) - 1
    assert (wheel.index("O") - ball) / (rear - ball) == pytest.approx(120 / 208, abs=0.01)
    assert (marks.index("1") - ball) / (rear - ball) == pytest.approx(100 / 208, abs=0.01)
    assert marks.index("2") == wheel.index("O")
    assert marks.index("4") == rear
    assert "takes 81 lb (37 kg) off the tongue" in " ".join(squeezed(lines))


@pytest.mark.parametrize("columns", [80, 120])
@pytest.mark.parametrize("leading", ["inch", "metric"])
def test_it_keeps_to_the_page(columns: int, leading: str) -> None:
    assert max(map(len, section(RACKED, "BALANCE", columns, leading))) <= min(columns, 100)


def test_two_axles_stand_where_they_stand() -> None:
    more = ", axles: 2, axle_spacing: 34 in, equalized: true"
    text = RACKED.replace("hub_face_distance: 60 in", "hub_face_distance: 60 in" + more)
    wheels = next(line for line in section(text, "BALANCE") if "O 2474 lb" in line)
    assert wheels.count("O") == 2


@pytest.mark.parametrize(
    "text",
    [
        RACKED.replace("coupler_to_axle: 120 in, ", ""),
        RACKED.replace(", from_coupler: 112 in", ""),
        RACKED.replace("1500 lb", "1200 to 1500 lb"),
        RACKED.replace("1500 lb", "unknown"),
        RACKED.replace("from_coupler: 208 in", "from_coupler: -20 in"),
        RACKED.replace("from_coupler: 208 in", "from_coupler: 200 to 216 in"),
        RACKED.replace("from_coupler: 208 in", "from_coupler: 40 ft"),
        RACKED.replace("hub_face_distance: 60 in", "axles: 3"),
        RACKED.replace("load_cases: [empty, loaded, racked]\n", ""),
    ],
)
def test_what_is_not_known_or_odd_still_reads(text: str) -> None:
    for leading in ("inch", "metric"):
        for columns in (60, 80, 120):
            lines = section(text, "BALANCE", columns, leading)
            assert lines
            assert max(map(len, lines)) <= min(columns, 100)
            assert not any(word in line for line in lines for word in ("inf", "nan", "None"))


def test_a_list_without_loads_shows_no_balance() -> None:
    text = "service: {gross_weight: 2600 lb, tongue_weight: 300 lb}\nparts: [{kind: hub}]\n"
    assert section(text, "BALANCE") == []


def test_pressures_stand_in_text_with_their_basis() -> None:
    words = " ".join(squeezed(section(RACKED, "TIRE PRESSURE")))
    assert "tire 1L, 1R racked" in words or "tire 1L, 1R 1237 lb" in words
    assert "recalled" in words
    assert "The tire maker's load and pressure table decides" in words


def test_json_carries_the_same() -> None:
    data = json.loads(json_report(check_text(RACKED), "inch"))
    assert [row["case"] for row in data["balance"]] == ["empty", "loaded", "racked"]
    rack = data["balance"][2]["loads"][3]
    assert rack["on_tongue"]["low"] == pytest.approx(-80.667 * 4.448222, abs=0.01)
    assert rack["behind"] is True
    assert [row["at"] for row in data["tire_pressures"]] == ["1L", "1R"]
    assert data["not_checked"] == ["frame", "tongue"]


def test_what_is_not_checked_is_said() -> None:
    tail = "Frame and tongue not checked"
    assert tail in text_report(check_text(RACKED), "inch", 80)
    tongue = "tongue: {section: 3 x 3 in, wall: 3/16 in, free_length: 40 in, material: A500 B}, "
    with_tongue = text_report(check_text(RACKED.replace("layout: {", "layout: {" + tongue)), "inch", 80)
    assert tail not in with_tongue
    assert "Frame not checked" in with_tongue
    assert tail not in text_report(check_text("parts: [{kind: hub, bolt_circle: 5 x 4.5 in}]\n"), "inch", 80)


def test_the_report_and_the_bench_sheet_name_one_pressure(capsys: pytest.CaptureFixture[str]) -> None:
    """Both round up: less air than the load needs is the unsafe side."""
    told = []
    for command in ("check", "shop"):
        main([command, str(ROOT / "examples" / "metric-750.yaml")])
        told.append(re.search(r"(\d+ kPa \(\d+ psi\))(?: *its load| carries)", capsys.readouterr().out))
    assert told[0] is not None
    assert told[1] is not None
    assert told[0][1] == told[1][1]
