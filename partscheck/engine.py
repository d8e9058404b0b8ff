"""Runs the rules over the fit graph and gathers findings.

Three-valued: a check holds, fails or cannot be told.  Every field a rule reads is recorded, so
what cannot be told names the fields to measure, and a later change can re-run only what it touches.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any

from partscheck.build.fit import Fit
from partscheck.deciding import deciding_fields
from partscheck.notation.interval import INF
from partscheck.parts.record import EVERY_FIELD
from partscheck.rules import load_rules
from partscheck.rules.check import Check
from partscheck.rules.findings import CAUTION, MEASURE, NOTE, OK, STOP, Finding
from partscheck.rules.registry import Rule

if TYPE_CHECKING:
    from partscheck.build.model import Build
    from partscheck.parts.record import Part


class Result:
    """Everything one check of one build found.

    ``findings`` stop, caution and measure, worst first; ``notes``; ``held`` what holds; ``folded``
    what follows from another stop; ``idle`` slugs of rules that had nothing to look at; ``crashed``
    rules that failed themselves; ``unmatched`` acceptances that match nothing.
    """

    def __init__(self, build: Build, fit: Fit) -> None:
        self.build = build
        self.fit = fit
        self.findings: list[Finding] = []
        self.notes: list[Finding] = []
        self.held: list[Finding] = []
        self.folded: list[Finding] = []
        self.idle: list[str] = []
        self.crashed: list[Finding] = []
        self.unmatched: list[Any] = []

    @property
    def verdict(self) -> str:
        """The worst verdict: stop, measure, caution or ok; "nothing" when no check was made."""
        kinds = {finding.verdict for finding in self.findings if not finding.accepted}
        for verdict in (STOP, CAUTION, MEASURE):
            if verdict in kinds:
                return verdict
        return OK if self.held or self.findings or self.notes else "nothing"

    def counts(self) -> dict[str, int]:
        """How many checks came out which way; accepted cautions are counted apart."""
        tally = dict.fromkeys((STOP, CAUTION, MEASURE, OK), 0)
        for finding in self.findings:
            if not finding.accepted:
                tally[finding.verdict] += 1
        tally[OK] = len(self.held) + len(self.notes)
        return tally

    def of(self, slug: str) -> list[Finding]:
        """All findings of one rule, the folded and the holding ones too."""
        every = (*self.findings, *self.folded, *self.notes, *self.held, *self.crashed)
        return [finding for finding in every if finding.rule.slug == slug]


def check_build(build: Build, rules: Iterable[Rule] | None = None) -> Result:
    """Check one build with every rule (or with ``rules``).

    Raises ``Faults`` when the list is ambiguous about what sits where.
    """
    chosen = list(load_rules().values()) if rules is None else list(rules)
    build.listen()
    fit = Fit(build)
    return gathered(build, fit, ((rule, run_rule(rule, fit)) for rule in chosen))


def gathered(build: Build, fit: Fit, outcomes: Iterable[tuple[Rule, list[Finding]]]) -> Result:
    """What the rules said, merged, sorted, folded under their causes, accepted cautions marked."""
    result = Result(build, fit)
    for rule, found in outcomes:
        merged = _merged(found)
        if not merged:
            result.idle.append(rule.slug)
        for finding in merged:
            _file(result, finding)
    _fold(result)
    _accept(result)
    order = {STOP: 0, CAUTION: 1, MEASURE: 2}
    result.findings.sort(key=lambda finding: (order[finding.verdict], _line(finding)))
    return result


def run_rule(rule: Rule, fit: Fit) -> list[Finding]:
    """The findings of one rule on every place it binds to."""
    found: list[Finding] = []
    for binding in fit.bindings(rule.binds):
        found.extend(evaluate(rule, binding))
    return found


def evaluate(rule: Rule, binding: Any, decide: bool = True) -> list[Finding]:
    """The findings of one rule at one place.  A rule that crashes is a finding, never a pass.

    ``decide=False`` leaves out the search for what would decide where it cannot be told.
    """
    ledger = binding.build.ledger
    del ledger[:]
    try:
        outcome = rule.check(binding)
        checks = _as_checks(outcome)
    except Exception as error:
        crashed = Finding(rule, MEASURE, Check(None), binding.parts, binding.at)
        crashed.error = f"{type(error).__name__}: {error}"
        return [crashed]
    reads = tuple(dict.fromkeys(read for read in ledger if read[1] != EVERY_FIELD))
    return [_sound(_finding(rule, binding, check, number, reads, decide)) for number, check in enumerate(checks)]


def _sound(finding: Finding) -> Finding:
    """A finding whose own words fail would take the whole report with it: it counts as a crash."""
    if finding.verdict == OK:
        return finding
    try:
        finding.message("metric")
        finding.why("metric")
        finding.remedies("metric")
    except Exception as error:
        crashed = Finding(finding.rule, MEASURE, Check(None), finding.parts, finding.at)
        crashed.error = f"{type(error).__name__}: {error}"
        return crashed
    return finding


def _as_checks(outcome: Any) -> list[Check]:
    if outcome is None:
        return []
    return [outcome] if isinstance(outcome, Check) else [one for one in outcome if one is not None]


def _finding(rule: Rule, binding: Any, check: Check, number: int, reads: tuple[Any, ...], decide: bool) -> Finding:
    parts = check.parts if check.parts is not None else binding.parts
    at = check.places if check.places is not None else binding.at
    finding = Finding(rule, _verdict(check), check, parts, at)
    finding.reads = reads
    limits = binding.build.limits
    finding.overrides = [name for record, name in reads if record is limits and limits.is_own(name)]
    if check.unsure and decide:
        finding.missing = deciding_fields(rule, binding, number, check, reads)
    return finding


def _verdict(check: Check) -> str:
    if check.unsure:
        return MEASURE
    if check.holds:
        return NOTE if check.severity == NOTE else OK
    return check.severity or STOP


def _merged(findings: list[Finding]) -> list[Finding]:
    """Findings that say the same of the same parts at several places become one: that of the place
    with the least room, for all those places.
    """
    kept: dict[Any, Finding] = {}
    for finding in findings:
        key = _alike(finding)
        first = kept.get(key)
        if first is None:
            kept[key] = finding
            continue
        places = tuple(sorted({*first.at, *finding.at}))
        if _room(finding) < _room(first):
            kept[key] = finding
        kept[key].at = places
    return list(kept.values())


def _alike(finding: Finding) -> Any:
    check = finding.check
    blame = None if check.blame is None else (check.blame[0].id, check.blame[1])
    parts = tuple(part.id for part in finding.parts)
    missing = tuple(one.name for one in finding.missing)
    # Words that fill the message tell findings apart (two joints, two layers); numbers do not, also
    # where they are written out already.
    words = tuple(value for value in check.values.values() if isinstance(value, str) and not value[:1].isdigit())
    return (finding.verdict, parts, check.message, words, blame, missing, finding.error)


def _room(finding: Finding) -> float:
    return INF if finding.check.margin is None else finding.check.margin.lo


def _file(result: Result, finding: Finding) -> None:
    if finding.error:
        result.crashed.append(finding)
    elif finding.verdict == OK:
        result.held.append(finding)
    elif finding.verdict == NOTE:
        result.notes.append(finding)
    else:
        result.findings.append(finding)


def _fold(result: Result) -> None:
    """One cause gives one stop: what follows from it is folded under it."""
    for finding in result.findings:
        for cause in result.findings:
            if cause.rule.slug in finding.rule.after and cause.verdict == STOP and _share(cause, finding):
                finding.follows = cause
                break
    result.folded = [finding for finding in result.findings if finding.follows is not None]
    result.findings = [finding for finding in result.findings if finding.follows is None]


def _share(cause: Finding, finding: Finding) -> bool:
    """Two findings speak of the same thing: they share a place and two parts (or their only one)."""
    common = {part.id for part in cause.parts} & {part.id for part in finding.parts}
    enough = min(2, len(cause.parts), len(finding.parts))
    places = not cause.at or not finding.at or bool(set(cause.at) & set(finding.at))
    return places and len(common) >= enough


def _accept(result: Result) -> None:
    for acceptance in result.build.accept:
        matched = False
        for finding in result.findings:
            if finding.rule.slug != acceptance.rule or finding.verdict != CAUTION:
                continue
            if acceptance.has("part") and acceptance.part not in [part.id for part in finding.parts]:
                continue
            finding.accepted = acceptance.reason
            matched = True
        if not matched:
            result.unmatched.append(acceptance)


def _line(finding: Finding) -> tuple[int, int]:
    mark = finding.mark
    return (mark.line, mark.column) if mark is not None else (10**9, 0)


def places_of(parts: Iterable[Part], fit: Fit) -> tuple[str, ...]:
    """Every position where any of these lines is used."""
    return tuple(dict.fromkeys(at for part in parts for at in fit.places_of(part)))
