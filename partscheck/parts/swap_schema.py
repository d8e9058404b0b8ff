"""The JSON Schema of a swap file, made of the definitions of the parts list's."""

from __future__ import annotations

import json
import re

from partscheck.parts.joints import BoltedJoint
from partscheck.parts.record import Record
from partscheck.parts.records import Layout, LoadEntry, Service, Tongue, TowVehicle
from partscheck.parts.schema import DRAFT, EXTRA, Schema, describe, parts_list_schema
from partscheck.parts.schema_examples import examples_of
from partscheck.parts.swap_file import SwapFile

SWAP_SCHEMA_FILE = "swap.schema.json"
DESCRIPTION = (
    "What to change on a parts list: fields replaced by id, lines added, lines removed; "
    "`partscheck swap LIST CHANGE` compares before and after."
)
MAPS = {"service": Service, "layout": Layout, "tongue": Tongue, "tow_vehicle": TowVehicle}
OTHERS = (BoltedJoint, LoadEntry)  # what may be named beside lines and maps
_REFERENCE = re.compile(r'"#/\$defs/([^"]+)"')


def swap_schema() -> Schema:
    """The schema of a whole swap file."""
    definitions = parts_list_schema()["$defs"]
    definitions["replaced"] = _replaced(definitions)
    texts = {name: {**_reference("text", definitions), **_described(name)} for name in ("swap", "base", "note")}
    maps = {name: _map(record, definitions) for name, record in MAPS.items()}
    properties: Schema = {
        **texts,
        "replace": {
            "type": "object", "properties": maps, "additionalProperties": {"$ref": "#/$defs/replaced"},
            **_described("replace"),
        },
        "add": {"type": "array", "items": {"$ref": "#/$defs/line"}, **_described("add")},
        "remove": {**_reference("ids", definitions), **_described("remove")},
    }  # fmt: skip
    return {
        "$schema": DRAFT,
        "$id": SWAP_SCHEMA_FILE,
        "title": "partscheck swap file",
        "description": DESCRIPTION,
        "type": "object",
        "properties": properties,
        "anyOf": [{"required": [name]} for name in ("replace", "add", "remove")],
        **EXTRA,
        "$defs": _reached(properties, definitions),
    }


def swap_schema_text() -> str:
    """The schema file's content."""
    return json.dumps(swap_schema(), indent=1, ensure_ascii=True) + "\n"


def _described(name: str) -> Schema:
    field = SwapFile.fields[name]
    found = examples_of(field)
    return {"description": describe(field), **({"examples": found} if found else {})}


def _reference(name: str, definitions: Schema) -> Schema:
    """A reference to a definition that is there; a missing one is a fault of this module."""
    if name not in definitions:
        raise KeyError(f"no definition {name} in the schema of the parts list")
    return {"$ref": f"#/$defs/{name}"}


def _map(record: type[Record], definitions: Schema) -> Schema:
    name = f"map-{record.record_name}"
    return {**_reference(name, definitions), "description": definitions[name]["description"]}


def _replaced(definitions: Schema) -> Schema:
    """Fields of a line of any kind, of a joint or of a load; which of them it is, only its id tells."""
    properties = dict(definitions["line-from-catalogue"]["properties"])
    properties.pop("id", None)
    for record in OTHERS:
        for key, schema in definitions[f"map-{record.record_name}"]["properties"].items():
            known = properties.get(key)
            if known is None:
                properties[key] = schema
            elif _bare(known) != _bare(schema):
                properties[key] = {"anyOf": [known, schema], "description": _both(known, schema, definitions)}
    return {"type": "object", "description": "The fields to replace.", "properties": properties, **EXTRA}


def _both(one: Schema, other: Schema, definitions: Schema) -> str:
    """What the field means in a line, and what in a joint or a load."""
    found = []
    for schema in (one, other):
        shared = definitions.get(schema.get("$ref", "").removeprefix("#/$defs/"), {})
        found.append(schema.get("description") or shared.get("description", ""))
    return " ".join(dict.fromkeys(found))


def _bare(schema: Schema) -> Schema:
    return {key: value for key, value in schema.items() if key not in ("description", "examples")}


def _reached(properties: Schema, definitions: Schema) -> Schema:
    """The definitions that the properties lead to."""
    waiting, found = [properties], {}
    while waiting:
        for name in _REFERENCE.findall(json.dumps(waiting.pop())):
            if name not in found:
                found[name] = definitions[name]
                waiting.append(definitions[name])
    return dict(sorted(found.items()))
