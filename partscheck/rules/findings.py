"""A finding: what one rule says of one place, ready for a report."""

from __future__ import annotations

from partscheck.notation.interval import Interval, Quantity
from partscheck.notation.show import show_limit
from partscheck.rules.basis import Basis
from partscheck.rules.check import AT_LEAST, AT_MOST, Check, Remedy
from partscheck.rules.message import standard_values, write

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.notation.yaml_text import Mark
    from partscheck.parts.record import Part, Record
    from partscheck.rules.registry import Rule

STOP, CAUTION, MEASURE, NOTE, OK = "stop", "caution", "measure", "note", "ok"


class Missing:
    """A field that a check lacks, or has too coarsely.

    ``decides`` is True when this field alone would decide; ``holds`` then says for which values
    ("at most" / "at least", the boundary as an interval), or is None.
    """

    __slots__ = ("boundary", "decides", "field", "record", "relation")

    def __init__(self, record: Record, field: str) -> None:
        self.record = record
        self.field = field
        self.decides = False
        self.relation = ""
        self.boundary: Interval | None = None

    @property
    def name(self) -> str:
        """ "hub.stud_length": the record's id and the field's key."""
        key = self.record.fields[self.field].key if self.field in self.record.fields else self.field
        return f"{self.record.id}.{key}"


class Finding:
    """``verdict`` is stop, caution, measure, note or ok; ``at`` the places it holds for."""

    __slots__ = (
        "accepted", "at", "check", "error", "follows", "missing", "overrides", "parts", "reads", "rule",
        "verdict",
    )  # fmt: skip

    def __init__(
        self, rule: Rule, verdict: str, check: Check, parts: tuple[Part, ...], at: tuple[str, ...]
    ) -> None:
        self.rule = rule
        self.verdict = verdict
        self.check = check
        self.parts = parts
        self.at = at
        self.missing: list[Missing] = []
        self.reads: tuple[Any, ...] = ()
        self.overrides: list[str] = []
        self.follows: Finding | None = None
        self.accepted = ""
        self.error = ""

    @property
    def basis(self) -> tuple[Basis, ...]:
        """What stands behind this outcome."""
        return (self.check.basis,) if self.check.basis is not None else self.rule.basis

    @property
    def mark(self) -> Mark | None:
        """The place in the file: the value to blame, else the first part's line."""
        if self.check.blame is not None:
            record, field = self.check.blame
            return record.where(field)  # type: ignore[no-any-return]
        return next((part.mark for part in self.parts if part.mark is not None), None)

    def message(self, leading: str) -> str:
        """The finding in words, ``leading`` unit system first."""
        check = self.check
        if self.error:
            return f"This rule failed itself ({self.error}); its check was not made."
        if self.verdict == MEASURE and check.severity != MEASURE:
            return f"It cannot be told yet whether this holds: {self.rule.sentence}"
        if not check.message:
            return self.rule.sentence
        text = write(check.message, {**standard_values(check), **check.values}, leading)
        return text[:1].upper() + text[1:]

    def why(self, leading: str) -> str:
        check = self.check
        return write(check.why, {**standard_values(check), **check.values}, leading)

    def remedies(self, leading: str) -> list[tuple[Any, str]]:
        """(remedy, its sentence) in order of preference; only for what fails."""
        check = self.check
        if check.remedies is None or not check.fails:
            return []
        shared = {**standard_values(check), **check.values}
        found = [
            (one, write(one.do, {**shared, "target": _kept_to(one, leading), **one.values}, leading))
            for one in check.remedies()
        ]
        return [(one, text if number else text.removeprefix("or ")) for number, (one, text) in enumerate(found)]

    @property
    def asks(self) -> bool:
        """True where the rule has words of its own for what cannot be told yet."""
        return self.verdict == MEASURE and self.check.severity == MEASURE and bool(self.check.message)

    def __repr__(self) -> str:
        ids = ", ".join(part.id for part in self.parts)
        return f"<{self.verdict} {self.rule.slug}: {ids} at {', '.join(self.at)}>"


def _kept_to(remedy: Remedy, leading: str) -> Any:
    """A remedy's target in words: a limit is rounded to its safe side, in both unit systems."""
    target = remedy.target
    if not isinstance(target, Interval) or remedy.relation not in (AT_LEAST, AT_MOST):
        return target
    if isinstance(target, Quantity) and target.text:
        return target
    return show_limit(target, leading, up=remedy.relation == AT_LEAST)
