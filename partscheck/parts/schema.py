"""The JSON Schema of the parts list, generated from the record classes.

``python -m partscheck.parts.schema`` writes ``schemas/parts-list.schema.json`` and the swap file's
``schemas/swap.schema.json``; with ``--check`` it writes nothing and exits 1 when a committed file is stale.

A line's fields are chosen by its ``kind`` (if/then on a constant, so that a message names the field);
a line with ``part:`` and no kind may carry the fields of every kind.  Words outside a published list
are accepted, since the checker tells them and does not refuse them.
"""

from __future__ import annotations

import json
import os
import sys
from typing import Any

from partscheck.parts.common import ListLine
from partscheck.parts.field import Field
from partscheck.parts.kinds import KINDS
from partscheck.parts.record import Record
from partscheck.parts.records import PartsList
from partscheck.parts.schema_examples import examples_of
from partscheck.parts.types import UNKNOWN_SPELLINGS, Nested, Text, Words

SCHEMA_FILE = "parts-list.schema.json"
DRAFT = "https://json-schema.org/draft/2020-12/schema"
UNKNOWN = "unknown"
EXTRA = {"additionalProperties": False}

TOP_DESCRIPTION = (
    "One light trailer's parts, typed by hand. Every dimension carries its unit; unknown (or ? in quotes) "
    "says that a value is not known."
)

Schema = dict[str, Any]


class Definitions:
    """The ``$defs`` under construction: one definition for each distinct type, map and kind."""

    def __init__(self) -> None:
        self.found: dict[str, Schema] = {
            UNKNOWN: {"enum": list(UNKNOWN_SPELLINGS), "description": "known to be unknown"}
        }
        self._names: dict[str, str] = {}

    def of_type(self, field: Field) -> Schema:
        """A reference to the definition of the field's type."""
        if isinstance(field.type, Nested):
            return self.of_nested(field.type)
        schema = field.type.schema()
        if not isinstance(field.type, Text):
            schema = _or_unknown(schema)
        stem = getattr(field.type, "name", "") or "value"
        if isinstance(field.type, Words):
            stem = f"{stem}-{field.key}"
        return self._reference(stem, schema)

    def of_nested(self, nested: Nested) -> Schema:
        if nested.record is not PartsList and nested.record.record_name and nested.record.fields:
            self.record(nested.record)
        schema = nested.schema()
        if not nested.record.record_name:  # the lines of the list
            schema = {"type": ["array", "null"], "items": {"$ref": "#/$defs/line"}}
        if nested.unknown_allowed:
            schema = {"anyOf": [schema, {"$ref": f"#/$defs/{UNKNOWN}"}]}
        return schema

    def record(self, record: type[Record]) -> None:
        """Define one map."""
        name = f"map-{record.record_name}"
        if name not in self.found:
            self.found[name] = {}  # so that a map inside itself ends here
            properties = self.properties(record)
            described = {"type": "object", "description": _first_line(record)}
            required = {"required": list(record.required)} if record.required else {}
            self.found[name] = {**described, "properties": properties, **required, **EXTRA}

    def properties(self, record: type[Record]) -> dict[str, Schema]:
        return {field.key: self.field(field) for field in record.fields.values()}

    def field(self, field: Field) -> Schema:
        """The field's type with its description; a field that many records share is defined once."""
        schema = {**self.of_type(field), "description": describe(field), **_examples(field)}
        if field is not ListLine.fields.get(field.name):
            return schema
        self.found[f"field-{field.key}"] = schema
        return {"$ref": f"#/$defs/field-{field.key}"}

    def _reference(self, stem: str, schema: Schema) -> Schema:
        text = json.dumps(schema, sort_keys=True)
        if text not in self._names:
            name, count = stem, 1
            while name in self.found:
                count += 1
                name = f"{stem}-{count}"
            self._names[text] = name
            self.found[name] = schema
        return {"$ref": f"#/$defs/{self._names[text]}"}


def _or_unknown(schema: Schema) -> Schema:
    """The schema, or "unknown"; examples stay at the top, where editors look for them."""
    bare = {key: value for key, value in schema.items() if key != "examples"}
    options = bare["anyOf"] if list(bare) == ["anyOf"] else [bare]
    examples = {"examples": schema["examples"]} if "examples" in schema else {}
    return {"anyOf": [*options, {"$ref": f"#/$defs/{UNKNOWN}"}], **examples}


def _examples(field: Field) -> Schema:
    """Examples that stand at the field, where its type has none of its own."""
    found = examples_of(field)
    return {"examples": found} if found else {}


def describe(field: Field) -> str:
    """What the field means and how to measure it, in one text."""
    meaning = field.meaning[0].upper() + field.meaning[1:]
    return f"{meaning}. {field.measure}".strip() if field.measure else f"{meaning}."


def parts_list_schema() -> Schema:
    """The schema of a whole parts list."""
    definitions = Definitions()
    top = definitions.properties(PartsList)
    lines = {kind: f"line-{kind}" for kind in KINDS}
    for kind, name in lines.items():
        definitions.found[name] = _line_of_kind(definitions, kind)
    definitions.found["line-from-catalogue"] = _line_from_catalogue(definitions)
    definitions.found["line"] = _line(lines)
    return {
        "$schema": DRAFT,
        "$id": SCHEMA_FILE,
        "title": "partscheck parts list",
        "description": TOP_DESCRIPTION,
        "type": "object",
        "properties": top,
        "required": ["parts"],
        **EXTRA,
        "$defs": dict(sorted(definitions.found.items())),
    }


def _line(lines: dict[str, str]) -> Schema:
    """One line: its kind chooses the definition."""
    chosen = [
        {
            "if": {"properties": {"kind": {"const": kind}}, "required": ["kind"]},
            "then": {"$ref": f"#/$defs/{name}"},
        }
        for kind, name in lines.items()
    ]
    by_id = {"if": {"not": {"required": ["kind"]}}, "then": {"$ref": "#/$defs/line-from-catalogue"}}
    kind = {"enum": list(lines), "description": describe(ListLine.fields["kind_"]), "examples": ["hub"]}
    return {
        "type": "object",
        "description": "One line: a part from the catalogue (part) or one written out in full (kind).",
        "properties": {"kind": kind},
        "anyOf": [{"required": ["kind"]}, {"required": ["part"]}],
        "allOf": [*chosen, by_id],
    }


def _line_of_kind(definitions: Definitions, kind: str) -> Schema:
    record = KINDS[kind]
    properties = {
        field.key: definitions.field(field) for field in record.fields.values() if field.key != "kind"
    }
    properties["kind"] = {"const": kind, "description": f"{record.title}."}
    return {"type": "object", "title": record.title, "properties": properties, **EXTRA}


def _line_from_catalogue(definitions: Definitions) -> Schema:
    """A line that only names its part: any field of any kind may be overridden."""
    typed: dict[str, list[Schema]] = {}
    meanings: dict[str, list[str]] = {}
    shown: dict[str, Schema] = {}
    for kind, record in KINDS.items():
        for field in _own_fields(record):
            reference = definitions.of_type(field)
            shown.setdefault(field.key, _examples(field))
            choices = typed.setdefault(field.key, [])
            if reference not in choices:
                choices.append(reference)
            told = f"{kind}: {field.meaning}."
            if told not in meanings.setdefault(field.key, []):
                meanings[field.key].append(told)
    properties: dict[str, Schema] = {}
    for key, choices in typed.items():
        schema = choices[0] if len(choices) == 1 else {"anyOf": choices}
        properties[key] = {**schema, "description": " ".join(meanings[key]), **shown[key]}
    shared = [field for field in ListLine.fields.values() if field.key != "kind"]
    properties.update((field.key, definitions.field(field)) for field in shared)
    return {"type": "object", "title": "part from the catalogue", "properties": properties, **EXTRA}


def _own_fields(record: type[Record]) -> list[Field]:
    """The fields that not every line has."""
    return [field for name, field in record.fields.items() if field is not ListLine.fields.get(name)]


def _first_line(record: type[Record]) -> str:
    return (record.__doc__ or record.record_name).strip().splitlines()[0]


def schema_text() -> str:
    """The schema file's content."""
    return json.dumps(parts_list_schema(), indent=1, ensure_ascii=True) + "\n"


def schema_path() -> str:
    """Where the schema stands in a checkout."""
    root = os.path.dirname(os.path.dirname(os.path.dirname(os.path.abspath(__file__))))
    return os.path.join(root, "schemas", SCHEMA_FILE)


def written() -> dict[str, str]:
    """Path and content of each schema file that is generated."""
    from partscheck.parts.swap_schema import SWAP_SCHEMA_FILE, swap_schema_text

    beside = os.path.join(os.path.dirname(schema_path()), SWAP_SCHEMA_FILE)
    return {schema_path(): schema_text(), beside: swap_schema_text()}


def main(arguments: list[str]) -> int:
    """Write the schemas, or compare with ``--check``: exit status 1 when one is stale, 2 for a wrong call."""
    if arguments not in ([], ["--check"]):
        print("usage: python -m partscheck.parts.schema [--check]", file=sys.stderr)
        return 2
    if not arguments:
        for path, text in written().items():
            _write(path, text)
        return 0
    stale = [path for path, text in written().items() if _content(path) != text]
    for path in stale:
        print(f"{path} is stale: run python -m partscheck.parts.schema", file=sys.stderr)
    return 1 if stale else 0


def _content(path: str) -> str:
    try:
        with open(path, encoding="utf-8", newline="") as file:
            return file.read()
    except FileNotFoundError:
        return ""


def _write(path: str, text: str) -> None:
    """Whole or not at all."""
    beside = path + ".new"
    with open(beside, "w", encoding="utf-8", newline="") as file:
        file.write(text)
    os.replace(beside, path)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
