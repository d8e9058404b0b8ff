"""What an editor makes of the published schemas: help for every field, and the same faults as the reader.

An editor's language server reads YAML 1.2, checks it against the schema and marks the value at fault, or
the key that is not known.  Here ruamel.yaml reads, jsonschema checks, and the marks are ruamel's own.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from case_files import shipped_catalogue
from ruamel.yaml import YAML
from ruamel.yaml.comments import CommentedMap, CommentedSeq

from partscheck.build.change import read_change
from partscheck.build.reader import read_build
from partscheck.notation.faults import Faults
from partscheck.uses.swap import swap

SCHEMAS = Path(__file__).resolve().parent.parent / "schemas"
FILES = ("parts-list", "swap")
CATALOGUE = shipped_catalogue()


@cache
def validator(name: str) -> Any:
    return jsonschema.Draft202012Validator(schema_of(name))


@cache
def schema_of(name: str) -> dict[str, Any]:
    data = json.loads((SCHEMAS / f"{name}.schema.json").read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(data)
    return dict(data)


def properties(schema: dict[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    for name, definition in [("top", schema), *schema["$defs"].items()]:
        for key, field in definition.get("properties", {}).items():
            yield f"{name}.{key}", field


def target(schema: dict[str, Any], reference: str) -> dict[str, Any]:
    return dict(schema["$defs"][reference.removeprefix("#/$defs/")])


# ---- help for every field --------------------------------------------------------------------


@pytest.mark.parametrize("name", FILES)
def test_every_field_is_described_and_shows_what_to_type(name: str) -> None:
    schema = schema_of(name)

    def shows(field: dict[str, Any]) -> bool:
        if {"examples", "enum", "const"} & set(field) or any(shows(one) for one in field.get("anyOf", [])):
            return True
        return "$ref" in field and shows(target(schema, field["$ref"]))

    def described(field: dict[str, Any]) -> bool:
        return bool(field.get("description")) or ("$ref" in field and described(target(schema, field["$ref"])))

    assert [key for key, field in properties(schema) if not described(field)] == []
    assert [key for key, field in properties(schema) if not shows(field)] == []


@pytest.mark.parametrize("name", FILES)
def test_every_example_is_valid_where_it_stands(name: str) -> None:
    schema = schema_of(name)
    checked = 0
    for key, field in properties(schema):
        for example in field.get("examples", []):
            wanted = {"$defs": schema["$defs"], **field}
            assert jsonschema.Draft202012Validator(wanted).is_valid(example), (key, example)
            checked += 1
    assert checked > 50


def test_the_words_of_a_field_are_all_offered() -> None:
    schema = schema_of("parts-list")
    from partscheck.parts.kinds import KINDS
    from partscheck.parts.types import Words

    for kind, record in KINDS.items():
        for field in record.fields.values():
            if isinstance(field.type, Words):
                offered = json.dumps(resolved(schema, schema["$defs"][f"line-{kind}"]["properties"][field.key]))
                assert all(json.dumps(word) in offered for word in field.type.allowed), (kind, field.key)


def resolved(schema: dict[str, Any], field: dict[str, Any]) -> Any:
    return [field, resolved(schema, target(schema, field["$ref"]))] if "$ref" in field else field


# ---- the same faults on the same lines ---------------------------------------------------------


def editor_lines(text: str, name: str = "parts-list") -> list[int]:
    """The lines that an editor would mark."""
    data = YAML(typ="rt").load(text)
    found = set()
    for error in validator(name).iter_errors(data):
        found.update(marks(data, error))
    return sorted(found)


def marks(data: Any, error: jsonschema.ValidationError) -> Iterator[int]:
    path = list(error.absolute_path)
    if error.validator == "additionalProperties" and isinstance(error.instance, CommentedMap):
        for key in error.instance:
            if key not in error.schema.get("properties", {}):
                yield error.instance.lc.key(key)[0] + 1
        return
    yield line_of(data, path)


def line_of(data: Any, path: list[Any]) -> int:
    """Where the value at a path starts; of the whole document where the path is empty."""
    if not path:
        return int(data.lc.line) + 1
    holder = data
    for step in path[:-1]:
        holder = holder[step]
    value = holder[path[-1]]
    if isinstance(value, (CommentedMap, CommentedSeq)):
        return int(value.lc.line) + 1
    place = holder.lc.value(path[-1]) if isinstance(holder, CommentedMap) else holder.lc.item(path[-1])
    return int(place[0]) + 1


def reader_lines(text: str) -> list[int]:
    try:
        read_build(text.encode(), CATALOGUE, "list.yaml")
    except Faults as faults:
        return sorted({one.mark.line for one in faults.faults})
    return []


BROKEN = {
    "a key with a slip": "parts:\n  - kind: hub\n    stud_lenght: 1.5 in\n",
    "two slips in one line":
        "parts:\n  - kind: hub\n    stud_lenght: 1.5 in\n    pilots: 2 in\n    rating: 1750 lb\n",
    "no unit": "parts:\n  - kind: hub\n    stud_length: 1.5\n    pilot: 2.8 in\n",
    "a map where a value is due": "parts:\n  - kind: hub\n    pilot: {a: 2 in}\n",
    "a list where a value is due": "parts:\n  - kind: wheel\n    size: [15 x 7 in]\n    qty: 2\n",
    "no such kind": "parts:\n  - id: x\n    kind: hubb\n",
    "neither kind nor part": "parts:\n  - id: x\n    qty: 2\n",
    "a key of another kind": "parts:\n  - kind: hub\n    dot_week: 3519\n",
    "a count with a unit": "parts:\n  - kind: hub\n    qty: two\n",
    "a flag as a word": "parts:\n  - kind: lug-nut\n    closed: maybe\n",
    "a negative count": "parts:\n  - kind: hub\n    qty: -2\n",
    "a wrong bolt circle": "parts:\n  - kind: hub\n    bolt_circle: five by four\n",
    "a wrong thread": "parts:\n  - kind: lug-nut\n    thread: coarse\n",
    "a wrong tire size": "parts:\n  - kind: tire\n    size: big\n",
    "a key at the top": "build: x\npart: []\nparts: []\n",
    "service as a word": "parts: []\nservice: fast\n",
    "a slip in service": "parts: []\nservice:\n  gross_weight: 2600 lb\n  top_sped: 60 mph\n",
    "a slip in layout and in a load":
        "layout:\n  axels: 1\nparts: []\nloads:\n  - what: deck\n    wieght: 640 lb\n",
    "a joint with a slip in its stack":
        "parts: []\nbolted_joints:\n  - id: j\n    stack:\n      - name: plate\n        thicknes: 3/8 in\n",
    "an acceptance without a reason": "parts: []\naccept:\n  - rule: adapter-legality\n    part: plate\n",
    "a limit without a reason": "parts: []\npractice:\n  bolt_circle_tolerance:\n    value: 0.2 mm\n",
    "faults in three lines": (
        "parts:\n  - kind: hub\n    pilto: 2 in\n  - kind: wheel\n    size: 15 x 7 in\n    rating: 1900\n"
        "  - kind: tire\n    max_presure: 50 psi\n"
    ),
    "in braces": "parts:\n  - {kind: hub, pilot: 2.8 in}\n  - {kind: wheel, ofset: 20 mm}\n",
    "parts as a word": "build: x\nparts: hub\n",
    "a line that is a word": "parts:\n  - kind: hub\n  - wheel\n",
}  # fmt: skip


@pytest.mark.parametrize("text", BROKEN.values(), ids=BROKEN)
def test_an_editor_marks_the_lines_that_the_reader_names(text: str) -> None:
    assert reader_lines(text)
    assert editor_lines(text) == reader_lines(text)


BROKEN_SWAPS = {
    "a slip in a key": "swap: x\nreplace:\n  tire:\n    sizes: LT235/75R15\n",
    "a key at the top": "swap: x\nremoves: [a]\nremove: [hub]\n",
    "a word where a map is due": "replace:\n  tire: bigger\n",
    "added lines as a map": "add: {id: x, kind: hub}\n",
    "nothing to change": "swap: x\n",
}


BASE = b"parts:\n  - {id: tire, kind: tire, size: ST205/75R14, qty: 2}\n  - {id: hub, kind: hub, qty: 2}\n"


@pytest.mark.parametrize("text", BROKEN_SWAPS.values(), ids=BROKEN_SWAPS)
def test_an_editor_marks_a_swap_file_as_its_reader_does(text: str) -> None:
    with pytest.raises(Faults) as caught:
        swap(BASE, read_change(text.encode(), "swap.yaml"), file="base.yaml")
    assert editor_lines(text, "swap") == sorted({one.mark.line for one in caught.value.faults})


def test_a_good_list_has_no_mark() -> None:
    for path in sorted((SCHEMAS.parent / "examples").glob("*.yaml")):
        text = path.read_text(encoding="utf-8")
        assert editor_lines(text, "parts-list" if "\nparts:" in text else "swap") == [], path.name
