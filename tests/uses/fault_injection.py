"""Faults of the kind people make, put into a list that has none: a wrong size, a weak part, too few of it."""

from __future__ import annotations

import random
from typing import Any

import partscheck
from partscheck.notation.interval import Interval
from partscheck.uses.fix.edits import Put
from partscheck.uses.fix.list_edits import edited
from partscheck.uses.fix.typed_text import quantity_text

NOT_FAULTS = ("id", "part", "kind_", "note", "seller", "price", "mounts_on", "at", "bolt", "nut", "what", "cases",
              "have", "axles", "make")  # fmt: skip
SCALES = (0.4, 0.6, 0.8, 0.9, 1.1, 1.25, 1.5, 2.0)


def with_faults(text: str, build: Any, seed: int, count: int) -> str | None:
    """The text with ``count`` random faults, or None where the list cannot be read then."""
    draw = random.Random(seed)
    edits = [fault(build, draw) for _ in range(count)]
    changed = {(edit.target, edit.inner, edit.key): edit for edit in edits if edit is not None}
    new = edited(text, changed.values())
    try:
        partscheck.read_list(new.encode("utf-8"), ["examples/catalog"], "faulty.yaml")
    except partscheck.Faults:
        return None
    return new


def fault(build: Any, draw: random.Random) -> Put | None:
    """One field of one line, joint, load or map made larger or smaller, or another word."""
    records = [*build.parts, *build.joints, *build.loads, build.service, build.layout, build.tow_vehicle]
    record = draw.choice(records)
    fields = [(name, typed) for name, typed in record.values.items() if usable(record, name, typed)]
    if not fields:
        return None
    name, typed = draw.choice(fields)
    key = record.fields[name].key
    value = typed.value
    if isinstance(value, Interval):
        leading = "metric" if getattr(value, "system", "") == "metric" else "inch"
        scaled = value * draw.choice(SCALES)
        return Put(record.id, key, quantity_text(Interval(scaled.lo, scaled.hi, value.unit), leading))
    if isinstance(value, bool):
        return Put(record.id, key, str(not value).lower())
    if isinstance(value, int):
        return Put(record.id, key, str(max(1, value + draw.choice((-2, -1, 1)))))
    others = [
        other.values[name].text for other in build.parts
        if other is not record and name in other.values and type(other.values[name].value) is type(value)
    ]  # fmt: skip
    return Put(record.id, key, draw.choice(others)) if others and "\n" not in others[0] else None


def usable(record: Any, name: str, typed: Any) -> bool:
    if name in NOT_FAULTS:
        return False
    value = typed.value
    if isinstance(value, Interval):
        return bool(value.known)
    if isinstance(value, (list, dict, tuple)):
        return False
    return isinstance(value, (bool, int)) or typed.mark is not None
