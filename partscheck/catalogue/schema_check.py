"""Holds YAML catalogue files to the published schema, each error with its line and column.

The reader has the better words; the schema is what editors go by, so a file is held to both.
"""

from __future__ import annotations

import json
import os

from partscheck.notation.faults import Fault, Faults
from partscheck.notation.yaml_text import MapNode, ScalarNode, SeqNode, compose, read_text

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.catalogue.layers import Layer
    from partscheck.notation.yaml_text import Mark, Node

SCHEMA_FILE = "catalogue.schema.json"


def schema_faults(layers: list[Layer]) -> list[Fault] | None:
    """What the schema says against the YAML files of these layers; None where jsonschema is not installed.

    A file that cannot be read at all is left to the reader.
    """
    try:
        import jsonschema
    except ImportError:
        return None
    with open(_schema_path(), encoding="utf-8") as stream:
        validator = jsonschema.Draft202012Validator(json.load(stream))
    faults: list[Fault] = []
    for layer in layers:
        for file, data in layer.files:
            try:
                root = compose(read_text(data, file), file, bearable=[])
            except Faults:
                continue
            for error in validator.iter_errors(_plain(root)):
                node = _at(root, list(error.absolute_path))
                mark = _unknown_key(node, error) or node.mark
                read = error.instance if isinstance(error.instance, str) else ""
                faults.append(Fault(mark, read, "what the schema of catalogue files allows", error.message[:160]))
    return faults


def _schema_path() -> str:
    """Inside the package when installed, beside it in a checkout."""
    package = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
    inside = os.path.join(package, "schemas", SCHEMA_FILE)
    return inside if os.path.isfile(inside) else os.path.join(os.path.dirname(package), "schemas", SCHEMA_FILE)


def _plain(node: Node) -> Any:
    if isinstance(node, MapNode):
        return {key.text: _plain(value) for key, value in node.entries}
    if isinstance(node, SeqNode):
        return [_plain(item) for item in node.items]
    assert isinstance(node, ScalarNode)
    return None if node.empty else node.text


def _unknown_key(node: Node, error: Any) -> Mark | None:
    """Where the first key stands that the schema does not know, where it is about such a key."""
    if error.validator != "additionalProperties" or not isinstance(node, MapNode):
        return None
    known = error.schema.get("properties", {})
    return next((key.mark for key, _ in node.entries if key.text not in known), None)


def _at(node: Node, path: list[Any]) -> Node:
    """The value at this path."""
    for step in path:
        inner = (
            node.items[step]
            if isinstance(node, SeqNode)
            else node.get(step)
            if isinstance(node, MapNode)
            else None
        )
        if inner is None:
            break
        node = inner
    return node
