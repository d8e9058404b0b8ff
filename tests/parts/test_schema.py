"""The published schemas: valid, up to date, and of one mind with the input contract."""

from __future__ import annotations

import copy
import json
from pathlib import Path
from typing import Any

import pytest
import yaml

from partscheck.parts import schema
from partscheck.parts.kinds import KINDS
from partscheck.parts.types import Nested

jsonschema = pytest.importorskip("jsonschema")

SCHEMAS = Path(schema.schema_path()).parent

# The contract's own example, and its joints, loads and tow vehicle.
LIST = """
build: Apiary trailer
service:
  gross_weight: 2600 lb
  tongue_weight: 300 lb
  top_speed: 60 mph
  surface: gravel
  country: US
layout:
  axles: 1
  gawr: 2200 lb
  equalized: true
  hub_face_distance: 60 in
  frame_width: 48 in
  coupler_to_axle: 120 in
  axle_spacing: 34 in
  coupler_height: 18 in
  ground_clearance: 16 in
  overall_width: 76 in
  overall_length: 16 ft
  tongue: {section: 3 x 3 in, wall: 3/16 in, free_length: 40 in, material: A500 B}
parts:
  - part: cone-nut-1/2-20
    packs: 1
    pack: 10
  - id: hub
    kind: hub
    bolt_circle: 5 x 4.5 in
    stud_thread: 1/2-20
    stud_length: 1.75 in ± 1/32 in
    pilot: unknown
    rating: 2200 lb
    per: axle
    qty: 2
    price: 41.50
    weight: 14 lb
    seller: axle shop
  - id: plate
    part: adapter-5x4.5-to-5x5.5
    thickness: 1.5 in
    qty: 2
  - {id: wheel, kind: wheel, size: 15 x 7 in, bolt_circle: 5 x 5.5 in, qty: 2}
  - {id: spare-wheel, kind: wheel, size: 15 x 7 in, bolt_circle: 5 x 5.5 in, qty: 1, at: spare, have: true}
accept:
  - {rule: adapter-legality, part: plate, reason: "allowed here, asked the registration office"}
bolted_joints:
  - id: arm to frame
    bolt: arm-bolt
    nut: arm-nut
    washers: {head: w1, nut: w1}
    bolts: 3
    places: 2
    stack:
      - {name: arm plate, thickness: 3/8 in, hole: 9/16 in, edge: 1 in, material: A36, coated: powder}
      - {name: frame tube, thickness: 2 in, wall: 3/16 in, hole: 17/32 in, edge: 3/4 in, material: A500 B}
      - {gap: 52 mm}
    load: {shear: 1100 lb, tension: 250 lb}
    pattern: [[0 in, 0 in], [4 in, 0 in], [2 in, 3 in]]
    load_at: [6 in, 1 in]
    direction: [0, -1]
    shear_planes: 1
    torque: 75 ft-lb
    vibration: true
  - id: jack plate
    bolt: [b1, b2]
    tapped: {thread: 1/2-13, depth: 3/4 in, drill_depth: 1 in, material: A36, through: false, coated: true}
    centred: true
    load: unknown
  - id: rack
    bolt: b3
    load: {from: wheel, at: 1L}
loads:
  - {what: frame and deck, weight: 640 lb, from_coupler: 100 in}
  - {what: running gear, weight: 350 lb, from_coupler: 120 in, moves_with_axle: true}
  - {what: hives, weight: 1500 lb, from_coupler: 112 in, from_centre: 2 in, cases: [loaded]}
load_cases: [empty, loaded]
tow_vehicle:
  tow_rating: 3500 lb
  tow_rating_unbraked: 1500 lb
  tongue_rating: 350 lb
  hitch_height: 19 in
  connector_ways: 7
  brake_controller: true
practice:
  minimum_thread_engagement: {value: 1.2, reason: shop habit}
as_of: 2025-06
"""

REPORT: dict[str, Any] = {
    "format": "partscheck-report/1",
    "build": "b",
    "verdict": "stop",
    "counts": {"stop": 1, "caution": 2, "measure": 1, "ok": 57},
    "findings": [
        {
            "rule": "stud-above-adapter-face",
            "verdict": "stop",
            "parts": ["hub", "plate"],
            "at": ["1L", "1R"],
            "source": {"file": "x.yaml", "line": 12, "column": 5},
            "message": "m",
            "have": {"low": 44.45, "high": 44.45, "unit": "mm"},
            "need": {"relation": "at most", "value": 38.1, "unit": "mm"},
            "margin": {"low": -6.35, "high": -6.35, "unit": "mm"},
            "fields_missing": [],
            "basis": {"kind": "practice", "source": "s"},
            "remedies": [
                {
                    "do": "d",
                    "field": "hub.stud_length",
                    "target": {"relation": "at most", "value": 37.1, "unit": "mm"},
                    "tried": {"clears": ["stud-above-adapter-face"], "causes": []},
                }
            ],
            "hazard": "h",
        }
    ],
    "load_path": [
        {
            "part": "tire", "at": ["1L", "1R"], "rating": 0, "share": 0, "unit": "N", "margin": 0,
            "limits_gross_weight_to": 0,
        }
    ],
    "held": [{"rule": "lug-count", "parts": ["nuts"], "margin": {}}],
}  # fmt: skip


@pytest.fixture(scope="module")
def lists() -> Any:
    return jsonschema.Draft202012Validator(schema.parts_list_schema())


@pytest.fixture(scope="module")
def reports() -> Any:
    return jsonschema.Draft202012Validator(
        json.loads((SCHEMAS / "report.schema.json").read_text(encoding="utf-8"))
    )


def loaded(text: str = LIST) -> Any:
    return yaml.safe_load(text)


def one_part(**fields: Any) -> dict[str, Any]:
    return {"parts": [fields]}


@pytest.mark.parametrize("name", ["parts-list.schema.json", "report.schema.json"])
def test_schemas_are_valid_draft_2020_12(name: str) -> None:
    data = json.loads((SCHEMAS / name).read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(data)
    assert data["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    assert data["$id"] == name


def test_the_written_schema_is_not_stale() -> None:
    assert schema.main(["--check"]) == 0, "run: python -m partscheck.parts.schema"


def test_a_stale_or_missing_schema_is_noticed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "parts-list.schema.json"
    monkeypatch.setattr(schema, "schema_path", lambda: str(path))
    assert schema.main(["--check"]) == 1
    assert "stale" in capsys.readouterr().err
    assert schema.main([]) == 0
    assert schema.main(["--check"]) == 0
    path.write_text(path.read_text(encoding="utf-8").replace("hub", "hbu", 1), encoding="utf-8")
    assert schema.main(["--check"]) == 1
    assert schema.main(["--what"]) == 2


@pytest.mark.parametrize("loader", [yaml.SafeLoader, yaml.BaseLoader])
def test_the_contracts_example_is_valid(lists: Any, loader: Any) -> None:
    errors = [
        f"{list(e.absolute_path)}: {e.message[:200]}" for e in lists.iter_errors(yaml.load(LIST, loader))
    ]
    assert errors == []


@pytest.mark.parametrize(
    ("where", "right", "wrong"),
    [
        ("top", "build:", "biuld:"),
        ("service", "surface: gravel", "surfase: gravel"),
        ("layout", "frame_width:", "frame_with:"),
        ("tongue", "wall: 3/16 in, free", "walls: 3/16 in, free"),
        ("hub", "stud_length:", "stud_lenght:"),
        ("catalogue line", "    thickness: 1.5 in", "    thikness: 1.5 in"),
        ("kind", "kind: hub", "kind: hubb"),
        ("stack", "edge: 1 in", "egde: 1 in"),
        ("load", "from_coupler: 100 in", "from_cuopler: 100 in"),
        ("no unit", "stud_length: 1.75 in ± 1/32 in", "stud_length: 1.75"),
        ("decimal comma", "gawr: 2200 lb", "gawr: 2200,5 lb"),
        ("place", "at: spare", "at: boot"),
        ("flag", "vibration: true", "vibration: often"),
        ("count", "qty: 1,", "qty: -1,"),
        ("no parts", "parts:", "part:"),
    ],
)
def test_a_slip_is_refused(lists: Any, where: str, right: str, wrong: str) -> None:
    assert LIST.count(right) >= 1, where
    assert not lists.is_valid(loaded(LIST.replace(right, wrong, 1))), where


def test_a_fault_names_the_field(lists: Any) -> None:
    (error,) = lists.iter_errors(one_part(kind="hub", stud_lenght="1 in"))
    assert "stud_lenght" in error.message
    (error,) = lists.iter_errors(one_part(kind="hub", stud_length="1"))
    assert list(error.absolute_path) == ["parts", 0, "stud_length"]


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_a_field_of_another_kind_is_refused_and_unknown_is_not(lists: Any, kind: str) -> None:
    own = {field.key: "unknown" for field in KINDS[kind].fields.values() if field.key not in ("kind", "part")}
    assert lists.is_valid(one_part(**{**own, "kind": kind}))
    assert lists.is_valid(one_part(**{**own, "part": "some-part"}))
    assert lists.is_valid(one_part(**{**dict.fromkeys(own, "?"), "kind": kind, "id": "x", "mounts_on": "y"}))
    foreign = "ways" if kind != "connector" else "drop"
    assert not lists.is_valid(one_part(**{"kind": kind, foreign: "unknown"}))


def test_a_line_needs_a_kind_or_a_part(lists: Any) -> None:
    assert not lists.is_valid(one_part(id="x", qty=2))


def test_an_unlisted_word_is_left_to_the_checker(lists: Any) -> None:
    assert lists.is_valid(one_part(kind="lug-nut", seat="conicle"))
    defs = schema.parts_list_schema()["$defs"]
    seat = defs["line-lug-nut"]["properties"]["seat"]["$ref"].removeprefix("#/$defs/")
    words = defs[seat]["anyOf"][0]["enum"]
    assert {"conical", "ball", "flat", "shank", "acorn"} <= set(words)


def test_every_field_carries_meaning_and_instructions() -> None:
    defs = schema.parts_list_schema()["$defs"]
    for kind, record in KINDS.items():
        for field in record.fields.values():
            entry = defs[f"line-{kind}"]["properties"][field.key]
            if entry.get("$ref", "").startswith("#/$defs/field-"):
                entry = defs[entry["$ref"].removeprefix("#/$defs/")]
            if field.key != "kind":
                assert entry["description"].lower().startswith(field.meaning.lower())
                assert field.measure in entry["description"]


def test_every_example_in_the_schema_is_valid() -> None:
    whole = schema.parts_list_schema()
    checked = 0
    for name, definition in whole["$defs"].items():
        validator = jsonschema.Draft202012Validator({"$defs": whole["$defs"], **definition})
        for example in definition.get("examples", []):
            assert validator.is_valid(example), (name, example)
            checked += 1
    assert checked > 50


def test_no_definition_is_left_over_and_none_is_missing() -> None:
    whole = schema.parts_list_schema()
    text = json.dumps(whole)
    for name in whole["$defs"]:
        assert f'"#/$defs/{name}"' in text, name
    names = {part.partition('"')[0] for part in text.split("#/$defs/")[1:]}
    assert names == set(whole["$defs"])


def test_no_kind_has_a_field_that_is_a_map_of_its_own() -> None:
    for record in KINDS.values():
        assert not any(isinstance(field.type, Nested) for field in record.fields.values())


def test_the_contracts_report_is_valid(reports: Any) -> None:
    assert [error.message for error in reports.iter_errors(REPORT)] == []


@pytest.mark.parametrize(
    ("path", "value"),
    [
        (("verdict",), "fine"),
        (("format",), "partscheck-report/2"),
        (("counts", "stop"), -1),
        (("findings", 0, "verdict"), "ok"),
        (("findings", 0, "rule"), "Stud Above"),
        (("findings", 0, "have"), {"low": 1}),
        (("findings", 0, "basis", "kind"), "guess"),
        (("findings", 0, "source", "line"), 0),
        (("held", 0, "margin"), {"low": 1}),
        (("more",), 1),
    ],
)
def test_a_wrong_report_is_refused(reports: Any, path: tuple[Any, ...], value: Any) -> None:
    report = copy.deepcopy(REPORT)
    place = report
    for step in path[:-1]:
        place = place[step]
    place[path[-1]] = value
    assert not reports.is_valid(report)


@pytest.mark.parametrize("key", ["findings", "load_path", "held", "counts"])
def test_what_a_report_must_hold(reports: Any, key: str) -> None:
    report = copy.deepcopy(REPORT)
    del report[key]
    assert not reports.is_valid(report)
