"""What an editor offers to type where a field's type has no spelling of its own to show: texts, ids, maps."""

from __future__ import annotations

from partscheck.parts.joints import Washers
from partscheck.parts.records import Acceptance, LoadEntry
from partscheck.parts.types import UNKNOWN_SPELLINGS, Flag, Id, Ids, Nested, Text

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.parts.field import Field

# By the field's key.
TEXTS: dict[str, Any] = {
    "accept": [
        {"rule": "adapter-legality", "part": "plate", "reason": "allowed here, asked the registration office"}
    ],
    "add": [{"id": "nuts", "kind": "lug-nut", "thread": "M14x1.5", "qty": 12}],
    "base": "first.yaml",
    "basis": "stamped on the part",
    "bolt": "arm-bolt",
    "build": "Garden trailer",
    "cases": ["loaded"],
    "cone": "L44649",
    "cup": "L44610",
    "designation": "L44649/L44610",
    "id": "wheel",
    "load_cases": ["empty", "loaded"],
    "mounts_on": "hub",
    "name": "frame tube",
    "note": "measured on the bench",
    "nut": "arm-nut",
    "part": "adapter-5x4.5-to-5x5.5",
    "parts": [{"id": "wheel", "kind": "wheel", "size": "15 x 7 in", "bolt_circle": "5 x 5.5 in", "qty": 2}],
    "practice": {"minimum_thread_engagement": {"value": "1.2", "reason": "shop habit"}},
    "reason": "asked the registration office",
    "remove": ["old-nuts"],
    "replace": {"tire": {"size": "LT235/75R15", "load_index": 104}},
    "rule": "adapter-legality",
    "seller": "axle shop",
    "shim_pattern": "two holes, 2 in apart",
    "swap": "Taller tires",
    "value": "1.2",
    "stack": [{"name": "frame tube", "thickness": "2 in", "wall": "3/16 in", "hole": "17/32 in"}],
    "what": "tool box",
}
# Where a key means something else than elsewhere.
OTHERWISE: dict[Field, Any] = {
    Acceptance.fields["part"]: "plate",
    LoadEntry.fields["part"]: "water-tank",
    Washers.fields["head"]: "head-washer",
    Washers.fields["nut"]: "nut-washer",
}
SHOWN = 2  # fields of a map that its example shows


def examples_of(field: Field) -> list[Any]:
    """Examples of a field to show beside its type's own; none where those do."""
    if isinstance(field.type, Flag):
        return [True]
    if field in OTHERWISE:
        return [OTHERWISE[field]]
    if isinstance(field.type, (Text, Id, Ids)) or (isinstance(field.type, Nested) and field.key in TEXTS):
        return [TEXTS[field.key]] if field.key in TEXTS else []
    return [_map(field.type)] if isinstance(field.type, Nested) else []


def one_of(field: Field) -> Any:
    """One value for the field, as it is typed."""
    found = examples_of(field)
    if found or isinstance(field.type, Nested):
        return found[0]
    schema = field.type.schema()
    return schema["examples"][0] if "examples" in schema else UNKNOWN_SPELLINGS[0]


def _map(nested: Nested) -> Any:
    """The fields that a map cannot do without, or its first ones, each with its example."""
    record = nested.record
    names = record.required or [name for name, one in record.fields.items() if not isinstance(one.type, Nested)]
    shown = [record.fields[name] for name in list(names)[:SHOWN]]
    example = {field.key: one_of(field) for field in shown}
    if nested.form == "many":
        return [example]
    return {"one of your names": example} if nested.form == "named" else example
