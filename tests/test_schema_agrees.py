"""The reader and the published schema accept and refuse the same lists.

An editor reads YAML 1.2 (``no`` and ``12:30`` are texts, ``0412`` and ``8.8`` are numbers); the schema
sees those values, the reader the text as typed.  Texts whose meaning only the reader knows (a unit
word, the id of another line) may pass the schema; nothing that the reader takes may fail it.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import jsonschema
import pytest
import yaml
from case_files import all_cases, shipped_catalogue

from partscheck.build.reader import read_build
from partscheck.notation.faults import Faults
from partscheck.parts.common import ListLine
from partscheck.parts.field import Field
from partscheck.parts.kinds import KINDS
from partscheck.parts.record import Record
from partscheck.parts.records import (
    Acceptance,
    BoltedJoint,
    JointLoad,
    Layout,
    LoadEntry,
    PartsList,
    PracticeOverride,
    Service,
    StackItem,
    Tapped,
    Tongue,
    TowVehicle,
    Washers,
)
from partscheck.parts.scale import ScaleReadings
from partscheck.parts.schema import parts_list_schema
from partscheck.parts.types import Id, Ids, Nested

ROOT = Path(__file__).resolve().parent.parent
SCHEMA = parts_list_schema()
WHOLE = jsonschema.Draft202012Validator(SCHEMA)


class CoreLoader(getattr(yaml, "CSafeLoader", yaml.SafeLoader)):  # type: ignore[misc]
    """YAML 1.2's core schema, as editors read it."""


CoreLoader.yaml_implicit_resolvers = {}
for tag, pattern, first in (
    ("null", r"~|null|Null|NULL|", ["~", "n", "N", ""]),
    ("bool", r"true|True|TRUE|false|False|FALSE", list("tTfF")),
    ("int", r"[-+]?[0-9]+", list("-+0123456789")),
    ("float", r"[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?", list("-+.0123456789")),
):
    CoreLoader.add_implicit_resolver(f"tag:yaml.org,2002:{tag}", re.compile(f"^(?:{pattern})$"), first)
CoreLoader.add_constructor("tag:yaml.org,2002:int", lambda loader, node: int(node.value))
CoreLoader.add_constructor("tag:yaml.org,2002:float", lambda loader, node: float(node.value))


def reader_takes(text: str) -> bool:
    try:
        read_build(text.encode(), CATALOGUE, "list.yaml")
    except Faults:
        return False
    return True


CATALOGUE = shipped_catalogue()


def schema_takes(text: str, kind: str = "") -> bool:
    """Of the whole list, or (much sooner) of its first line of one kind."""
    data = yaml.load(text, CoreLoader)
    return bool(line_of(kind).is_valid(data["parts"][0]) if kind in KINDS else WHOLE.is_valid(data))


@cache
def line_of(kind: str) -> Any:
    return jsonschema.Draft202012Validator({"$defs": SCHEMA["$defs"], "$ref": f"#/$defs/line-{kind}"})


# ---- whole lists -----------------------------------------------------------------------------


def whole_lists() -> Iterator[tuple[str, str]]:
    for name, _, case in all_cases():
        yield name, case["list"]
    for file in sorted((ROOT / "examples").glob("*.yaml")):
        text = file.read_text(encoding="utf-8")
        if "\nparts:" in text:  # a swap file is no list
            yield file.name, text


def test_every_case_and_example_passes_the_schema() -> None:
    told = {}
    for name, text in whole_lists():
        errors = [
            f"{list(one.absolute_path)}: {one.message[:150]}"
            for one in WHOLE.iter_errors(yaml.load(text, CoreLoader))
        ]
        if errors:
            told[name] = errors[:3]
    assert not told


def test_the_schema_file_is_what_the_kinds_say() -> None:
    assert json.loads((ROOT / "schemas" / "parts-list.schema.json").read_text(encoding="utf-8")) == SCHEMA


# ---- every field of every map: right, with a slip in its key, with the wrong shape ---------------

OTHERS = "{id: arm-bolt, kind: bolt}, {id: arm-nut, kind: nut}, {id: arm-washer, kind: washer}"
# What stands around a map of each class: %s is the map.
AROUND: dict[type[Record], str] = {
    Service: "{parts: [], service: %s}",
    ScaleReadings: "{parts: [], service: {scale: %s}}",
    Layout: "{parts: [], layout: %s}",
    Tongue: "{parts: [], layout: {tongue: %s}}",
    TowVehicle: "{parts: [], tow_vehicle: %s}",
    LoadEntry: "{parts: [], loads: [%s]}",
    BoltedJoint: "{parts: [" + OTHERS + "], bolted_joints: [%s]}",
    StackItem: "{parts: [], bolted_joints: [{stack: [%s]}]}",
    JointLoad: "{parts: [], bolted_joints: [{load: %s}]}",
    Tapped: "{parts: [], bolted_joints: [{tapped: %s}]}",
    Washers: "{parts: [" + OTHERS + "], bolted_joints: [{washers: %s}]}",
}
OTHER_MAPS = [Acceptance, PracticeOverride]  # read only whole: rule and reason, value and reason


def maps() -> Iterator[tuple[str, type[Record], str]]:
    """(name, class, what stands around) of every kind of map, the fields that all parts share once."""
    for kind, record in KINDS.items():
        yield kind, record, "{parts: [{kind: " + kind + ", %s}, " + OTHERS + "]}"
    for record, around in AROUND.items():
        yield record.record_name, record, around.replace("%s", "{%s}")


def own_fields(name: str, record: type[Record]) -> list[Field]:
    """The fields to try: those of every part only with the first kind."""
    shared = ListLine.fields if name in KINDS and name != next(iter(KINDS)) else {}
    return [
        one
        for key, one in record.fields.items()
        if one is not shared.get(key) and one.key not in ("kind", "part")
    ]


def example_of(field: Field) -> Any:
    """A value that the schema gives as example for the field, or the plainest one."""
    if isinstance(field.type, Nested):
        return [] if field.type.form == "many" else {}
    if "washer" in field.meaning and isinstance(field.type, Id):
        return "arm-washer"
    if isinstance(field.type, (Id, Ids)):
        return {"id": "its own", "nut": "arm-nut"}.get(field.key, "arm-bolt")
    schema = field.type.schema()
    if schema.get("examples"):
        return schema["examples"][0]
    return {"points": [["0 in", "0 in"]]}.get(getattr(field.type, "name", ""), "true")


MAPS = list(maps())
WRONG_SHAPES: list[Any] = [
    [], {}, ["x"], {"a": "b"}, [["x"]], 12.5, -3, True, None, "", "§ nonsense §", "12", "1,5 in", "no",
]  # fmt: skip


def written(key: str, value: Any) -> str:
    """``key: value`` as JSON, which is YAML too."""
    return f"{json.dumps(key)}: {json.dumps(value, ensure_ascii=False)}"


@pytest.mark.parametrize(("name", "record", "around"), MAPS, ids=[name for name, *_ in MAPS])
def test_every_field_is_taken_by_both(name: str, record: type[Record], around: str) -> None:
    for field in own_fields(name, record):
        text = around % written(field.key, example_of(field))
        assert schema_takes(text), text
        assert reader_takes(text), text


@pytest.mark.parametrize(("name", "record", "around"), MAPS, ids=[name for name, *_ in MAPS])
def test_a_slip_in_any_key_is_refused_by_both(name: str, record: type[Record], around: str) -> None:
    for field in own_fields(name, record):
        text = around % written(field.key + "s_", example_of(field))
        assert not schema_takes(text, name), text
        assert not reader_takes(text), text


def is_text_only_the_reader_knows(value: Any, field: Field) -> bool:
    """Texts are judged by the reader: units, ids of other lines, dates; the schema's patterns are wider.

    So are grades and ids, which an editor takes for numbers or truth values: only the reader knows that
    there is no grade 12.5, and no line called true.
    """
    if field.key in ("grade", "mounts_on", "bolt", "nut", "head") and isinstance(value, (bool, float)):
        return True
    return value == ["x"] or (isinstance(value, str) and bool(value))


@pytest.mark.parametrize(("name", "record", "around"), MAPS, ids=[name for name, *_ in MAPS])
def test_the_wrong_shape_is_refused_by_both_or_by_none(name: str, record: type[Record], around: str) -> None:
    differ = []
    for field in own_fields(name, record):
        for value in WRONG_SHAPES:
            text = around % written(field.key, value)
            schema, reader = schema_takes(text, name), reader_takes(text)
            if schema == reader or (schema and is_text_only_the_reader_knows(value, field)):
                continue
            differ.append(f"{name}.{field.key}: {value!r}: schema {schema}, reader {reader}")
    assert not differ, "\n".join(differ)


# ---- the top, and the maps that are read whole -----------------------------------------------------

TOP = [
    "parts: []\n", "parts:\n", "parts: {}\n", "parts: hub\n", "parts: [hub]\n", "parts: [[]]\n",
    "parts: [{}]\n",
    "parts: [{id: x}]\n", "parts: [{kind: [hub]}]\n", "parts: [{kind: hubb}]\n", "parts: [{part: [x]}]\n",
    "part: []\n", "- parts\n", "build: x\n", "parts: []\nbuild: [x]\n", "parts: []\nbuild: {}\n",
    "parts: []\nservice: []\n", "parts: []\nservice: fast\n", "parts: []\nservice:\n",
    "parts: []\nservice: {}\n",
    "parts: []\nloads: {}\n", "parts: []\nloads: []\n", "parts: []\nloads: [x]\n", "parts: []\nloads:\n",
    "parts: []\nbolted_joints: [x]\n", "parts: []\nbolted_joints: {}\n", "parts: []\nload_cases: [a, b]\n",
    "parts: []\nload_cases: [[a]]\n", "parts: []\nload_cases: {a: b}\n", "parts: []\nload_cases: []\n",
    "parts: []\nload_cases: loaded\n", "parts: []\nload_cases: [1, 2]\n",
    "parts: []\nas_of: 2025-06\n", "parts: []\nas_of: [2025-06]\n", "parts: []\nas_of: 2025\n",
    "parts: []\nnote: [x]\n", "parts: []\nnote: text\n", "parts: []\nnote: 12\n", "parts: []\nnote:\n",
    "parts: []\nbuild:\n", "parts: []\nbuild: 12\n", "parts: []\nbuild: true\n",
    "parts: []\naccept: {}\n", "parts: []\naccept: []\n", "parts: []\naccept: [{rule: x, reason: y}]\n",
    "parts: []\naccept: [{rule: x}]\n", "parts: []\naccept: [{reason: x}]\n", "parts: []\naccept: [{}]\n",
    "parts: []\naccept: [{rule: x, reason: y, prt: z}]\n", "parts: []\naccept: [{rule: x, reason: [y]}]\n",
    "parts: []\npractice: []\n", "parts: []\npractice: {}\n",
    "parts: []\npractice: {bolt_circle_tolerance: 0.2 mm}\n",
    "parts: []\npractice: {bolt_circle_tolerance: {value: 0.2 mm}}\n",
    "parts: []\npractice: {bolt_circle_tolerance: {reason: mine}}\n",
    "parts: []\npractice: {bolt_circle_tolerance: {value: 0.2 mm, reason: mine}}\n",
    "parts: []\npractice: {bolt_circle_tolerance: {value: 0.2 mm, reason: mine, why: x}}\n",
    "parts: []\nunits: inch\n", "parts: []\ntow_vehicle: {tow_rating: 3500}\n",
]  # fmt: skip


@pytest.mark.parametrize("text", TOP)
def test_the_top_of_a_list(text: str) -> None:
    assert schema_takes(text) == reader_takes(text)


def test_a_slip_in_any_key_at_the_top() -> None:
    for field in PartsList.fields.values():
        text = f"{{parts: [], {written(field.key + 's_', 'x')}}}"
        assert not schema_takes(text)
        assert not reader_takes(text)


def test_the_maps_that_are_read_whole_are_tried_too() -> None:
    tried = {record for _, record, _ in MAPS}
    nested = {field.type.record for one in [*tried, PartsList] for field in one.fields.values()
              if isinstance(field.type, Nested) and field.type.record.fields}  # fmt: skip
    assert nested - tried <= set(OTHER_MAPS)


# ---- what editors see otherwise than the reader ------------------------------------------------------

HABITS = [
    "{kind: tire, dot_week: 0412}", "{kind: tire, dot_week: 3519}", "{kind: tire, load_index: 102}",
    "{kind: bolt, grade: 8.8}", "{kind: bolt, grade: 8}", "{kind: bolt, grade: 10.9}", "{kind: hub, id: 12}",
    "{kind: hub, note: 12:30}", "{kind: hub, note: no}", "{kind: hub, note: 2025-06-01}",
    "{kind: hub, seller: on}",
    "{kind: hub, price: 41.50}", "{kind: hub, price: 41}", "{kind: hub, have: true}", "{kind: hub, have: 2}",
    "{kind: hub, pilot: 0}", "{kind: wheel, offset: 0}", "{kind: wheel, offset: ET 30}",
    "{kind: hub, stud_thread: 1/2-20}", "{kind: wheel, size: 4.5J x 13}", "{kind: tire, size: 145/80 R13 C}",
    "{kind: tire, size: 4.80-12}", "{kind: hub, at: [1L, 1R]}", "{kind: hub, at: 1L}", "{kind: hub, qty: 02}",
    "{kind: hub, pilot: unknown}", '{kind: hub, pilot: "?"}', "{kind: hub, stud_length: 1.4 to 1.6 in}",
    "{kind: hub, make: TRUE}", "{kind: hub, make: True}", "{kind: lug-nut, seat: no}",
    "{kind: hub, note: true}",
    "{kind: hub, note: 8.8}", "{kind: washer, for: 1/2 in}", "{kind: axle, rating: 3,500 lb}",
]  # fmt: skip


@pytest.mark.parametrize("line", HABITS)
def test_typing_habits_pass_both(line: str) -> None:
    text = (
        f"parts:\n  - {line}\n" if "3,500" not in line else "parts:\n  - kind: axle\n    rating: 3,500 lb\n"
    )
    assert reader_takes(text)
    assert schema_takes(text)
