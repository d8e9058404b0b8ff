"""Runs the rules over the fit graph and gathers findings.

Three-valued: a check holds, fails or cannot be told.  Every field a rule reads is recorded, so
what cannot be told names the fields to measure, and a later change can re-run only what it touches.
"""

from __future__ import annotations

from collections.abc import Iterable

from partscheck.build.fit import Fit
from partscheck.deciding import deciding_fields
from partscheck.notation.interval import INF
from partscheck.parts.record import EVERY_FIELD
from partscheck.rules import load_rules
from partscheck.rules.check import Check
from partscheck.rules.findings import CAUTION, MEASURE, NOTE, OK, STOP, Finding
from partscheck.rules.registry import Rule

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.model import Build
    from partscheck.parts.record import Part, Record


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
    return gathered(build, fit, (Said(rule, run_rule(rule, fit)) for rule in chosen))


class Said:
    """What one rule said of a whole build, merged: ``told`` stop, caution and measure, ``notes``, ``held``,
    ``crashed``; ``idle`` when it had nothing to look at.
    """

    __slots__ = ("crashed", "held", "idle", "notes", "rule", "told")

    def __init__(self, rule: Rule, found: list[Finding]) -> None:
        self.rule = rule
        self.idle = not found
        self.told: list[Finding] = []
        self.notes: list[Finding] = []
        self.held: list[Finding] = []
        self.crashed: list[Finding] = []
        groups = {OK: self.held, NOTE: self.notes}
        for finding in _merged(found) if len(found) > 1 else found:
            (self.crashed if finding.error else groups.get(finding.verdict, self.told)).append(finding)


def gathered(build: Build, fit: Fit, said: Iterable[Said], copies: bool = False) -> Result:
    """What the rules said, sorted, folded under their causes, accepted cautions marked.

    ``copies``: what is marked is marked on copies, and what was ``said`` can be gathered again.
    """
    result = Result(build, fit)
    for one in said:
        if one.idle:
            result.idle.append(one.rule.slug)
            continue
        result.findings += [_copied(finding) for finding in one.told] if copies else one.told
        result.notes += one.notes
        result.held += one.held
        result.crashed += one.crashed
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

    ``decide=False``, for a quick trial: what cannot be told does not say what would decide it, and no words
    are written to see whether they can be.
    """
    build = binding.build
    build.ledger.clear()
    try:
        outcome = rule.check(binding)
        if outcome is None:
            return []
        checks = [outcome] if isinstance(outcome, Check) else [one for one in outcome if one is not None]
    except Exception as error:
        return [_crashed(rule, binding.parts, binding.at, error)]
    if not checks:
        return []
    reads = fields_read(build)
    found = []
    for number, check in enumerate(checks):
        finding = _finding(rule, binding, check, reads)
        if decide and check.unsure:
            finding.missing = deciding_fields(rule, binding, number, check, reads)
        found.append(_sound(finding) if decide and finding.verdict != OK else finding)
    return found


def fields_read(build: Build) -> tuple[tuple[Record, str], ...]:
    """The fields in the ledger of ``build``, each once, in the order in which they were read first."""
    listing = build.listing
    return tuple(
        read for read in dict.fromkeys(build.ledger) if read[1] != EVERY_FIELD and read[0] is not listing
    )


def _sound(finding: Finding) -> Finding:
    """A finding whose own words fail would take the whole report with it: it counts as a crash."""
    try:
        finding.message("metric")
        finding.why("metric")
        finding.remedies("metric")
    except Exception as error:
        return _crashed(finding.rule, finding.parts, finding.at, error)
    return finding


def _crashed(rule: Rule, parts: tuple[Part, ...], at: tuple[str, ...], error: Exception) -> Finding:
    crashed = Finding(rule, MEASURE, Check(None), parts, at)
    crashed.error = f"{type(error).__name__}: {error}"
    return crashed


def _finding(rule: Rule, binding: Any, check: Check, reads: tuple[Any, ...]) -> Finding:
    parts = check.parts if check.parts is not None else binding.parts
    at = check.places if check.places is not None else binding.at
    finding = Finding(rule, _verdict(check), check, parts, at)
    finding.reads = reads
    limits = binding.build.limits
    if limits.own:
        finding.overrides = [name for record, name in reads if record is limits and limits.is_own(name)]
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
        kept[key] = _copied(finding if _room(finding) < _room(first) else first)
        kept[key].at = tuple(sorted({*first.at, *finding.at}))
    return list(kept.values())


def _copied(finding: Finding) -> Finding:
    """A finding of its own to mark."""
    found = Finding(finding.rule, finding.verdict, finding.check, finding.parts, finding.at)
    found.missing, found.reads, found.overrides = finding.missing, finding.reads, finding.overrides
    found.error = finding.error
    return found


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


def _fold(result: Result) -> None:
    """One cause gives one stop: what follows from it is folded under it."""
    stops = [finding for finding in result.findings if finding.verdict == STOP]
    for finding in result.findings:
        after = finding.rule.after
        if after:
            causes = (one for one in stops if one.rule.slug in after and _share(one, finding))
            finding.follows = next(causes, None)
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
