"""The measurements to take: one for each unknown or coarse field, those that decide most first."""

from __future__ import annotations

from partscheck.notation.interval import Interval
from partscheck.rules.findings import MEASURE, Finding, Missing

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.engine import Result


class Measurement:
    """One field to measure.

    ``decides`` are the findings that wait for it; ``bounds`` the values for which one of them would
    hold: (slug, "at most" or "at least", boundary).  ``accuracy`` is how exact it must be, in the
    field's unit, or None.
    """

    __slots__ = ("accuracy", "bounds", "decides", "field", "record")

    def __init__(self, record: Any, field: str) -> None:
        self.record = record
        self.field = field
        self.decides: list[Finding] = []
        self.bounds: list[tuple[str, str, Interval]] = []
        self.accuracy: Interval | None = None

    @property
    def name(self) -> str:
        """ "hub.stud_length"."""
        return f"{self.record.id}.{self.record.fields[self.field].key}"

    @property
    def meaning(self) -> str:
        return str(self.record.fields[self.field].meaning)

    @property
    def how(self) -> str:
        """How to take it at the bench, or where to read it."""
        return str(self.record.fields[self.field].measure)

    @property
    def slugs(self) -> list[str]:
        return list(dict.fromkeys(finding.rule.slug for finding in self.decides))


def measurements(result: Result) -> list[Measurement]:
    """Every field that some check waits for, those that decide most checks first."""
    found: dict[tuple[str, str], Measurement] = {}
    for finding in result.findings:
        if finding.verdict != MEASURE:
            continue
        for missing in finding.missing:
            key = (missing.record.id, missing.field)
            one = found.setdefault(key, Measurement(missing.record, missing.field))
            _add(one, finding, missing)
    return sorted(found.values(), key=lambda one: (-len(one.slugs), -_alone(one), one.name))


def _add(one: Measurement, finding: Finding, missing: Missing) -> None:
    one.decides.append(finding)
    if missing.boundary is not None and len([m for m in finding.missing if m.decides]) == 1:
        bound = (finding.rule.slug, missing.relation, missing.boundary)
        if bound not in one.bounds:
            one.bounds.append(bound)
    needed = accuracy_needed(finding, missing)
    if needed is not None and (one.accuracy is None or needed.hi < one.accuracy.hi):
        one.accuracy = needed


def accuracy_needed(finding: Finding, missing: Missing) -> Interval | None:
    """How exact the measurement must be: what the usual tool reaches; for a measure that is known too
    coarsely, the room beside the limit where that is more.  A marking (a bolt circle) has no such room.
    """
    field = missing.record.fields[missing.field]
    if field.accuracy is None:
        return None
    unit = getattr(field.type, "unit", None)
    margin = finding.check.margin
    room = abs(margin.mid) if margin is not None and margin.known and margin.unit == unit else 0.0
    value = max(field.accuracy, room) if room and missing.record.has(missing.field) else field.accuracy
    return Interval(value, value, "mm" if unit is None else unit)


def _alone(one: Measurement) -> int:
    return sum(1 for finding in one.decides for missing in finding.missing
               if missing.field == one.field and missing.decides)  # fmt: skip
