"""Every shipped catalogue file: its envelope, its basis, and its parts against the part kinds."""

from __future__ import annotations

import json
import os
import re
from typing import Any

import jsonschema
import pytest
import yaml

from partscheck.catalogue import Catalogue
from partscheck.catalogue.layers import shipped_folder
from partscheck.notation.faults import Faults
from partscheck.notation.yaml_text import MapNode, Node, ScalarNode, SeqNode, compose, read_text

FOLDER = shipped_folder()
FILES = sorted(name for name in os.listdir(FOLDER) if name.endswith(".yaml"))
SCHEMA_PATH = os.path.join(os.path.dirname(FOLDER), "schemas", "catalogue.schema.json")
with open(SCHEMA_PATH, encoding="utf-8") as stream:
    SCHEMA = json.load(stream)

# What a published basis has to name: a standard, a regulation or a handbook.
NAMED = re.compile(
    r"\b(ASME|ANSI|ISO|SAE|UN \(ECE\) Regulation \d+|T&RA|FMVSS \d+|\d+ CFR \d+"
    r"|AISC 360|TMC Recommended|Shigley|FIST \d-\d|California Vehicle Code \d+|NRS \d+\w?\.\d+"
    r"|Texas Department of Public Safety|Machinery's Handbook"
    r"|N\.H\. RSA \d+:\d+|WAC \d+-\d+-\d+|Neb\. Rev\. Stat\. \d+)\b"
)


def plain(node: Node) -> Any:
    """The tree as plain Python, every scalar a text."""
    if isinstance(node, MapNode):
        return {key.text: plain(value) for key, value in node.entries}
    if isinstance(node, SeqNode):
        return [plain(item) for item in node.items]
    assert isinstance(node, ScalarNode)
    return node.text


def texts_of(name: str) -> dict[str, Any]:
    tree: dict[str, Any] = plain(compose(read_text(os.path.join(FOLDER, name)), name))
    return tree


def test_there_are_files() -> None:
    assert len(FILES) >= 15


@pytest.mark.parametrize("name", FILES)
def test_the_schema_accepts_it_as_text_and_as_a_plain_yaml_reader_sees_it(name: str) -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    validator = jsonschema.Draft202012Validator(SCHEMA)
    assert list(validator.iter_errors(texts_of(name))) == []
    with open(os.path.join(FOLDER, name), encoding="utf-8") as stream:
        assert list(validator.iter_errors(yaml.safe_load(stream))) == []


@pytest.mark.parametrize("name", FILES)
def test_it_starts_with_title_edition_and_basis(name: str) -> None:
    tree = texts_of(name)
    assert list(tree)[:3] == ["title", "edition", "basis"]
    assert all(tree[key] for key in ("title", "edition", "basis"))


@pytest.mark.parametrize("name", FILES)
def test_a_published_basis_names_its_standard(name: str) -> None:
    tree = texts_of(name)
    bases = [tree["basis"]] + [row["basis"] for row in tree.get("rows", []) if "basis" in row]
    for basis in bases:
        if basis["kind"] == "published":
            assert NAMED.search(basis["source"]), basis
        else:
            assert basis["source"].strip(), basis


@pytest.mark.parametrize("name", FILES)
def test_columns_say_what_they_hold(name: str) -> None:
    for column, told in texts_of(name).get("columns", {}).items():
        assert told["means"], column


def test_every_row_and_part_carries_a_basis(shipped: Catalogue) -> None:
    kinds = {"published", "practice", "recalled"}
    for table in shipped.tables():
        rows = shipped.rows(table)
        assert rows, table
        assert all(row["basis"]["kind"] in kinds and row["basis"]["source"] for row in rows), table
    parts = shipped.parts()
    assert parts
    assert all(part.basis[0] in kinds and part.basis[1] for part in parts)


def test_every_field_of_a_shipped_part_reads_as_its_kind_says(shipped: Catalogue) -> None:
    kinds = pytest.importorskip("partscheck.parts.kinds").KINDS
    for part in shipped.parts():
        fields = {field.key: field for field in kinds[part.kind].fields.values()}
        for name, (text, *_) in part.fields.items():
            assert name in fields, f"{part!r}: {name}"
            value = fields[name].type.read(text, shipped)
            assert value is not fields[name].type.unknown, f"{part!r}: {name}: {text}"


BAD_FILES = {
    "unknown key": "title: x\nbases: {kind: practice, source: x}\nparts: []\n",
    "no content": "title: x\n",
    "a list": "- title: x\n",
    "table without rows": "table: unc\n",
    "rows without key": "table: unc\nrows:\n  - {tpi: 20}\n",
    "basis of another kind": "basis: {kind: sure, source: x}\nparts: []\n",
    "basis without source": "basis: {kind: practice}\nparts: []\n",
    "part without kind": "parts:\n  - {id: a}\n",
    "part without id": "parts:\n  - {kind: hub}\n",
    "part with id and family": "parts:\n  - {id: a, family: b, over: {n: [1]}, kind: hub}\n",
    "family without over": "parts:\n  - {family: b, kind: hub}\n",
    "field that is a map": "parts:\n  - {id: a, kind: hub, pilot: {a: 1}}\n",
    "column of another type": "table: mine\ncolumns: {a: {type: date}}\nrows: []\n",
    "over that is a word": "parts:\n  - {family: b, over: {n: x}, kind: hub}\n",
}


@pytest.mark.parametrize("what", BAD_FILES)
def test_reader_and_schema_refuse_the_same_files(what: str, tmp_path: Any) -> None:
    text = BAD_FILES[what]
    tree = plain(compose(text, "bad.yaml"))
    assert list(jsonschema.Draft202012Validator(SCHEMA).iter_errors(tree))
    file = tmp_path / "bad.yaml"
    file.write_text(text, encoding="utf-8")
    with pytest.raises(Faults) as caught:
        Catalogue.load([file])
    assert caught.value.faults[0].mark.file == str(file)


def test_a_row_asked_for_alone_is_the_row_of_the_table(shipped: Catalogue) -> None:
    for table in shipped.tables():
        row, alone = shipped.rows(table)[-1], Catalogue.load()
        assert alone.row(table, row["key"]) == row
        assert alone.row(table, row["key"]) == row  # now the whole table is read
    assert Catalogue.load().row("unc", "no such size") is None
