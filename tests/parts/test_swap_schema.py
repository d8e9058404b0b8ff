"""The schema of a swap file: valid, of one mind with the reader, a slip is refused."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
import yaml

from partscheck.parts import schema
from partscheck.parts.swap_schema import SWAP_SCHEMA_FILE, swap_schema

jsonschema = pytest.importorskip("jsonschema")
EXAMPLES = Path(__file__).parent.parent.parent / "examples"

SWAP = """
swap: Taller tires
base: apiary.yaml
replace:
  tire: {size: LT235/75R15, load_index: 104}
  layout: {coupler_height: 18 in}
  tongue: {wall: 1/4 in}
  arm to frame: {bolts: 4, torque: 75 ft-lb}
  hives: {weight: 900 lb, from_coupler: 100 in}
add:
  - {id: nuts, kind: lug-nut, thread: M14x1.5, qty: 12}
remove: [old-nuts]
"""


@pytest.fixture(scope="module")
def swaps() -> Any:
    data = swap_schema()
    jsonschema.Draft202012Validator.check_schema(data)
    return jsonschema.Draft202012Validator(data)


def test_the_contracts_example_is_valid(swaps: Any) -> None:
    for loader in (yaml.SafeLoader, yaml.BaseLoader):
        assert [error.message[:200] for error in swaps.iter_errors(yaml.load(SWAP, loader))] == []


def test_the_example_files_are_valid(swaps: Any) -> None:
    for path in EXAMPLES.glob("*.yaml"):
        data = yaml.safe_load(path.read_text(encoding="utf-8"))
        if "parts" not in data:
            assert [error.message[:200] for error in swaps.iter_errors(data)] == [], path


@pytest.mark.parametrize(
    ("right", "wrong"),
    [
        ("replace:", "replce:"), ("load_index: 104", "load_idx: 104"),
        ("coupler_height: 18 in", "coupler_hight: 18 in"),
        ("wall: 1/4 in", "walls: 1/4 in"), ("18 in", "18"), ("kind: lug-nut", "kind: lugnut"),
        ("qty: 12", "qty: -1"),
        ("remove: [old-nuts]", "remove: {old-nuts: 1}"), ("bolts: 4", "boltz: 4"),
    ],
)  # fmt: skip
def test_a_slip_is_refused(swaps: Any, right: str, wrong: str) -> None:
    assert SWAP.count(right) == 1
    assert not swaps.is_valid(yaml.safe_load(SWAP.replace(right, wrong)))


def test_a_swap_changes_something(swaps: Any) -> None:
    assert not swaps.is_valid({"swap": "nothing"})


def test_the_written_file_holds_only_what_it_needs() -> None:
    path = Path(schema.schema_path()).parent / SWAP_SCHEMA_FILE
    text = path.read_text(encoding="utf-8")
    names = json.loads(text)["$defs"]
    assert all(f'"#/$defs/{name}"' in text for name in names)
