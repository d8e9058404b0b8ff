"""Twins: a list in other units, in another order, with other names gets the same verdicts.

Every list of the case files is tried.  Kept out of the change of units, since there the spelling
itself says something: fractions of bearings, seals and their seats (a trade name, not a measure).
"""

from __future__ import annotations

import random
from decimal import Decimal
from typing import Any

import pytest
from case_files import all_cases, shipped_catalogue, some_cases

from partscheck.build.model import Build
from partscheck.build.reader import read_build
from partscheck.engine import Result, check_build
from partscheck.notation.interval import INF, Quantity
from partscheck.notation.unit_table import UNIT_TABLE
from partscheck.parts.record import Record, Typed
from partscheck.parts.types import Id, Ids, UnlistedWord

# House unit: (dimension, the inch system's unit, the metric one).
TWIN_UNITS = {
    "mm": ("length", "in", "mm"),
    "N": ("load", "lb", "kg"),
    "kg": ("mass", "lb", "kg"),
    "kPa": ("pressure", "psi", "kPa"),
    "MPa": ("stress", "ksi", "MPa"),
    "N m": ("torque", "ft lb", "N m"),
    "km/h": ("speed", "mph", "km/h"),
    "mm2": ("area", "in2", "mm2"),
    "L": ("volume", "gal", "L"),
    "degC": ("temperature", "degF", "degC"),
}
# Rules that speak of the later one of two lines: which one that is goes by the order.
SPEAKS_OF_THE_LATER = ("line-duplicated",)
FRACTIONS_ARE_NAMES = ("bearing", "seal", "spindle", "axle", "suspension-arm", "hub", "dust-cap")

CASES = all_cases()
NAMES = [name for name, _, _ in CASES]
each_case = pytest.mark.parametrize("case", [case for *_, case in CASES], ids=NAMES)


def _some(start: int) -> pytest.MarkDecorator:
    """Order and names are tried on cases of their own."""
    some = some_cases(3, start)
    return pytest.mark.parametrize("case", [case for *_, case in some], ids=[name for name, *_ in some])


each_third_case, each_third_case_but_one = _some(0), _some(1)

Verdicts = dict[str, list[tuple[str, tuple[str, ...], tuple[str, ...]]]]


def read(case: dict[str, Any]) -> Build:
    return read_build(case["list"].encode(), shipped_catalogue(), "case.yaml")


def verdicts(result: Result, ids: dict[str, str] | None = None) -> Verdicts:
    """Of each rule: verdict, parts (by their ids in the case) and places of each finding."""
    back = {new: old for old, new in (ids or {}).items()}
    found: Verdicts = {}
    for finding in (*result.findings, *result.folded, *result.notes, *result.held, *result.crashed):
        parts = tuple(sorted(back.get(part.id, part.id) for part in finding.parts))
        found.setdefault(finding.rule.slug, []).append((finding.verdict, parts, tuple(sorted(finding.at))))
    return {slug: sorted(rows) for slug, rows in sorted(found.items())}


_as_typed: dict[int, Verdicts] = {}


def as_typed(case: dict[str, Any]) -> Verdicts:
    """The verdicts of the list as it stands."""
    if id(case) not in _as_typed:
        _as_typed[id(case)] = verdicts(check_build(read(case)))
    return _as_typed[id(case)]


# ---- other units -----------------------------------------------------------------------------


def respelled(quantity: Quantity) -> str:
    """The same quantity in the other system, to full precision; a tolerance stays one."""
    dimension, inch, metric = TWIN_UNITS[quantity.unit]
    unit = metric if quantity.system == "inch" else inch
    factor, offset = UNIT_TABLE[dimension][unit][:2]

    def number(house: float) -> str:
        return format(Decimal(repr((house - offset) / factor)), "f")

    if not quantity.toleranced:
        return f"{number(quantity.lo)} {unit}"
    return f"{number(quantity.lo)} {unit} to {number(quantity.hi)} {unit}"


def spelling_is_a_name(record: Record, quantity: Quantity) -> bool:
    return (
        quantity.fraction and not quantity.toleranced and getattr(record, "kind", "") in FRACTIONS_ARE_NAMES
    )


def respell(build: Build) -> int:
    """Re-spell what can be; the number of values."""
    count = 0
    for record in build.records():
        for name, typed in record.values.items():
            text = other_text(record, typed)
            if text is None:
                continue
            value = record.fields[name].type.read(text, build.tables)
            assert not isinstance(value, UnlistedWord)
            record.values[name] = Typed(value, text, typed.mark, typed.layer)
            count += 1
    return count


def other_text(record: Record, typed: Typed) -> str | None:
    value = typed.value
    circle = getattr(value, "diameter", None)
    if type(value).__name__ == "BoltCircle" and value.known and not value.from_chord:
        return f"{value.count} x {respelled(Quantity(circle.lo, circle.hi, 'mm', '', value.system))}"
    if not isinstance(value, Quantity) or not value.system or value.unit not in TWIN_UNITS:
        return None
    if value.hi == INF or value.lo == -INF or spelling_is_a_name(record, value):
        return None
    return respelled(value)


@each_case
def test_the_other_units_change_no_verdict(case: dict[str, Any]) -> None:
    build = read(case)
    respell(build)
    assert verdicts(check_build(build)) == as_typed(case)


def test_most_values_really_are_respelled() -> None:
    counts = [respell(read(case)) for *_, case in CASES]
    assert sum(counts) > 2 * len(CASES)


# ---- another order ---------------------------------------------------------------------------


@each_third_case
def test_another_order_changes_no_verdict(case: dict[str, Any]) -> None:
    for seed in (1, 2):
        build = read(case)
        random.Random(seed).shuffle(build.parts)
        random.Random(seed).shuffle(build.joints)
        random.Random(seed).shuffle(build.loads)
        assert whichever_line(verdicts(check_build(build))) == whichever_line(as_typed(case))


def whichever_line(found: Verdicts) -> Verdicts:
    return {
        slug: sorted((verdict, (), ()) for verdict, *_ in rows) if slug in SPEAKS_OF_THE_LATER else rows
        for slug, rows in found.items()
    }


# ---- other names -----------------------------------------------------------------------------


def rename(build: Build) -> dict[str, str]:
    """Give every line a new id, wherever it is named; old to new."""
    ids = {part.id: f"zz {number} line" for number, part in enumerate(build.parts)}
    for part in build.parts:
        part.id = ids[part.id]
    for record in build.records():
        for name, typed in record.values.items():
            kind = record.fields[name].type
            names_a_line = record in build.accept or record in build.loads
            in_catalogue = name in ("part", "kind_", "rule") and not names_a_line
            if isinstance(kind, Id) and not in_catalogue and typed.value in ids:
                typed.value = ids[typed.value]
            elif isinstance(kind, Ids):
                typed.value = tuple(ids.get(one, one) for one in typed.value)
    return ids


@each_third_case_but_one
def test_other_names_change_no_verdict(case: dict[str, Any]) -> None:
    build = read(case)
    ids = rename(build)
    assert verdicts(check_build(build), ids) == as_typed(case)
