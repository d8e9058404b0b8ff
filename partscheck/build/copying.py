"""A copy of a build whose values can be changed without touching the first."""

from __future__ import annotations

from copy import copy

from partscheck.build.model import Build
from partscheck.parts.record import Record, Typed

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any


def copied(build: Build) -> Build:
    """A build of its own with the same values, each with its place.  Texts are not read again."""
    found = Build(build.name, build.file, build.tables)
    made: dict[int, Record] = {}
    found.header = _copied(build.header, made)
    found.service = _copied(build.service, made)
    found.layout = _copied(build.layout, made)
    found.tow_vehicle = _copied(build.tow_vehicle, made)
    found.limits = _copied(build.limits, made)
    found.limits.own = dict(build.limits.own)
    found.parts = [_copied(part, made) for part in build.parts]
    found.joints = [_copied(joint, made) for joint in build.joints]
    found.loads = [_copied(load, made) for load in build.loads]
    found.accept = [_copied(one, made) for one in build.accept]
    found.load_cases = list(build.load_cases)
    found.spellings = build.spellings
    found.overridden = list(build.overridden)
    found.untold_words = [(made.get(id(one[0]), one[0]), *one[1:]) for one in build.untold_words]
    return found


def _copied(record: Any, made: dict[int, Record]) -> Any:
    """The record with all records inside it; values themselves never change and are shared."""
    found = copy(record)
    made[id(record)] = found
    found.ledger = None
    found.values = {name: _typed(typed, made) for name, typed in record.values.items()}
    return found


def _typed(typed: Typed, made: dict[int, Record]) -> Typed:
    value = typed.value
    if isinstance(value, Record):
        inner: Any = _copied(value, made)
    elif isinstance(value, list) and any(isinstance(one, Record) for one in value):
        inner = [_copied(one, made) if isinstance(one, Record) else one for one in value]
    elif isinstance(value, dict) and any(isinstance(one, Record) for one in value.values()):
        inner = {key: _copied(one, made) if isinstance(one, Record) else one for key, one in value.items()}
    else:
        return typed
    return Typed(inner, typed.text, typed.mark, typed.layer)
