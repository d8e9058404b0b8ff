"""The changed list as text: edited in place, read again, and compared with what was tried."""

from __future__ import annotations

from partscheck.build.reader import read_build
from partscheck.engine import check_build
from partscheck.notation.faults import Faults
from partscheck.notation.interval import INF, Interval
from partscheck.parts.record import Record
from partscheck.uses.fix.edits import Article, Drop, Put
from partscheck.uses.fix.list_edits import CannotEditError, edited_and_beside
from partscheck.uses.fix.notes import TO_BE_FOUND_AT_ALL, WAS_FOR
from partscheck.uses.fix.trials import key_of
from partscheck.uses.fix.typed_text import quantity_text

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.model import Build
    from partscheck.uses.fix.edits import Edit
    from partscheck.uses.fix.list_comments import Beside
    from partscheck.uses.fix.plans import Plan

TAPE = 0.15  # mm: a height that follows the tires is written to 0.01 in
CLOSE = {"mm": TAPE}
CLOSE_SHARE = 1e-4


def written_list(text: str, plan: Plan) -> str:
    """``text``, the list that the plan is for, with the plan's changes.

    It was read again: it gives the build and the findings that were tried.  Raises ``CannotEditError`` where
    an edit cannot be made in place or something else would come of it.
    """
    return written_and_beside(text, plan)[0]


def written_and_beside(text: str, plan: Plan) -> tuple[str, list[str]]:
    """The same, with what somebody has to read again in it: notes and comments that were written for what
    stood there before, one line of text each.  Raises ``CannotEditError``.
    """
    edits = plan_edits(plan)
    new, beside = edited_and_beside(text, edits)
    _as_tried(new, plan)
    return new, [*_notes(edits, plan), *(_beside(one) for one in beside)]


def _notes(edits: list[Edit], plan: Plan) -> list[str]:
    ids = [
        edit.target for edit in edits
        if (isinstance(edit, Put) and edit.key == "note" and WAS_FOR in str(edit.text))
        or (isinstance(edit, Article) and WAS_FOR in str(edit.fields.get("note", "")))
    ]  # fmt: skip
    return [f"{id}: its note stays, marked as written for the part before" for id in dict.fromkeys(ids)]


def _beside(one: Beside) -> str:
    if one.line is None:
        return f"gone with what it stood behind: {one.text}"
    return f"line {one.line}: {one.text}"


def _as_tried(new: str, plan: Plan) -> None:
    """Read again, and compared with the build and the findings that were tried.  Raises ``CannotEditError``."""
    build = plan.build
    try:
        again = read_build(new.encode("utf-8"), build.tables, build.file)
        result = check_build(again)
    except Faults as faults:
        first = faults.faults[0]
        place = f"line {first.mark.line}: {first.expected}"
        raise CannotEditError(f"written so it could not be read ({place})") from None
    apart = differences(build, again)
    if apart:
        raise CannotEditError(f"written so it would say something else of {', '.join(apart[:3])}")
    if _said(result) != _said(plan.after):
        raise CannotEditError("written so the rules would find something else")


def plan_edits(plan: Plan) -> list[Edit]:
    """Every edit of a plan, with the heights that follow the tires."""
    edits = [edit for step in plan.steps for edit in step.option.edits]
    leading = plan.build.leading()
    another = {edit.target for edit in edits if isinstance(edit, Article)}
    for one in plan.applied.gone:  # a wheel of another size does not have the old one's rating
        key = one.record.fields[one.name].key
        if one.record.id not in another and one.before is not None and one.before.layer == "list":
            edits.append(Drop(one.record.id, key))
            if key == "part":
                edits += _written_out(one.record)
    for part in plan.build.parts:  # what this command wrote of an article to be found, which has been now
        note = part.values.get("note")
        if part.id in another and note is not None and note.text.startswith(TO_BE_FOUND_AT_ALL):
            edits.append(Drop(part.id, "note"))
    for one in plan.applied.carried:
        value = one.after.value if one.after is not None else None
        known = isinstance(value, Interval) and value.known
        text = quantity_text(value, leading, TAPE) if isinstance(value, Interval) and known else "unknown"
        edits.append(Put(one.record.id, one.name, text))
    return edits


def _written_out(part: Any) -> list[Edit]:
    """What a line keeps of the catalogue's article that it no longer names."""
    rest = [(part.fields[name].key, typed) for name, typed in part.values.items() if typed.layer != "list"]
    return [Put(part.id, "kind", part.kind), *(Put(part.id, key, typed.text) for key, typed in rest)]


def _said(result: Any) -> set[Any]:
    return {(one.verdict, *key_of(one)[:2]) for one in (*result.findings, *result.folded, *result.crashed)}


def differences(one: Build, other: Build) -> list[str]:
    """Fields in which two builds differ, as "wheel.offset"; notes are nobody's input."""
    found: list[str] = []
    for group in ("parts", "joints", "loads", "accept"):
        first = {record.id: record for record in getattr(one, group)}
        second = {record.id: record for record in getattr(other, group)}
        found += sorted({*first} ^ {*second})
        for id in first:
            if id in second:
                found += _apart(first[id], second[id])
    for name in ("header", "service", "layout", "tow_vehicle"):
        found += _apart(getattr(one, name), getattr(other, name))
    return found


def _apart(one: Record, other: Record) -> list[str]:
    if type(one) is not type(other):
        return [one.id]
    names = dict.fromkeys((*one.values, *other.values))
    found = []
    for name in names:
        if name in ("note", "kind_", "id"):  # records are told apart by their ids already
            continue
        first, second = one.values.get(name), other.values.get(name)
        if first is None or second is None or not _alike(first.value, second.value):
            found.append(f"{one.id}.{name}")
    return found


def _alike(one: Any, other: Any) -> bool:
    if isinstance(one, Record) and isinstance(other, Record):
        return not _apart(one, other)
    if isinstance(one, Interval) and isinstance(other, Interval):
        return one.unit == other.unit and all(
            _close(a, b, one.unit) for a, b in ((one.lo, other.lo), (one.hi, other.hi))
        )
    if isinstance(one, (list, tuple)) and isinstance(other, (list, tuple)):
        return len(one) == len(other) and all(_alike(a, b) for a, b in zip(one, other, strict=True))
    if isinstance(one, dict) and isinstance(other, dict):
        return one.keys() == other.keys() and all(_alike(one[key], other[key]) for key in one)
    return str(one) == str(other)


def _close(one: float, other: float, unit: str) -> bool:
    if one == other:
        return True
    if INF in (abs(one), abs(other)):
        return False
    return abs(one - other) <= max(CLOSE.get(unit, 0.0), CLOSE_SHARE * abs(one))
