"""Checks a build again after a change, running only the rules whose inputs changed.

Each evaluation of a rule at a place remembers what it said and all that it read: fields, and what it asked
of the list itself (lines of a kind, what sits where).  What was said stands for as long as all that was read
is as it was; a few earlier outcomes are kept, so that a change that is taken back costs nothing.  The places
themselves are kept in the same way.  Lines that come or go, or sit elsewhere, make new places; a rule runs at
those, and where it had asked for such lines.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from partscheck.build.asked_fit import AT, AXLES, OF, PLACES
from partscheck.build.fit import Fit
from partscheck.build.joint_places import JointPlace
from partscheck.build.joint_washers import JointWasher
from partscheck.build.model import CASES, JOINTS, LEADING, LINES, LOADS, with_nested
from partscheck.build.places import (
    AxlePlace,
    Binding,
    Line,
    LugSet,
    MountedTire,
    PlateSeat,
    Seat,
    WheelEnd,
)
from partscheck.build.tow_places import RearRack, TowChain
from partscheck.build.weights import Weights
from partscheck.engine import Result, Said, evaluate, gathered
from partscheck.parts.record import Record, Typed, as_read
from partscheck.rules import load_rules

if TYPE_CHECKING:
    from collections.abc import Iterable

    from partscheck.build.model import Build
    from partscheck.rules.findings import Finding
    from partscheck.rules.registry import Rule

# Classes of places that follow from what sits where.
SEATED = (WheelEnd, Seat, PlateSeat, LugSet, MountedTire, AxlePlace, JointPlace, TowChain, RearRack)
OUTCOMES = 8  # kept of each evaluation
LAYOUTS = 8  # kept of what sits where
Read = tuple[Record, str]


class _Input:
    """One field of a record, or one question to the list; ``readers`` are the evaluations that ever read it."""

    __slots__ = ("name", "readers", "record")

    def __init__(self, record: Record, name: str) -> None:
        self.record = record
        self.name = name
        self.readers: set[_Evaluation] = set()


Seen = dict[_Input, Any]  # all that was read for something, and what was there


def _holds(seen: Seen, changed: set[_Input]) -> bool:
    """Whether all that was read is as it was; what has ``changed`` lately is looked at first."""
    for one in changed & seen.keys():
        now = one.record.seen(one.name)
        if now is not seen[one] and not _same(now, seen[one]):
            return False
    for one, before in seen.items():
        now = one.record.seen(one.name)
        if now is not before and not _same(now, before):
            return False
    return True


def _same(one: Any, other: Any) -> bool:
    """Equal values typed alike.  Where they stand in a file may differ: findings look that up."""
    if isinstance(one, Typed) and isinstance(other, Typed):
        return one.same_as(other)
    return bool(one == other)


class _Outcome:
    """What a rule said at a place, and what it read for it."""

    __slots__ = ("findings", "seen")

    def __init__(self, findings: list[Finding], seen: Seen) -> None:
        self.findings = findings
        self.seen = seen


class _Evaluation:
    """One rule at one place; ``outcomes``, the one that stands first."""

    __slots__ = ("binding", "outcomes", "rule")

    def __init__(self, rule: Rule, binding: Any) -> None:
        self.rule = rule
        self.binding = binding
        self.outcomes: list[_Outcome] = []

    def standing(self, changed: set[_Input]) -> bool:
        """Put an outcome that stands first; False when there is none."""
        for number, outcome in enumerate(self.outcomes):
            if _holds(outcome.seen, changed):
                self.outcomes.insert(0, self.outcomes.pop(number))
                return True
        return False


class _Layout:
    """What sits where, and the evaluations that follow from it: ``rows``, one for each rule, ``at`` each place.

    ``answers`` are those to whoever asks what sits where.  What an ``earlier`` layout has at the same place is
    kept.
    """

    def __init__(self, fit: Fit, answers: dict[str, Any], rules: list[Rule], earlier: list[_Layout]) -> None:
        self.fit = fit
        self.answers = answers
        self.at: dict[Any, list[_Evaluation]] = {}
        rows: dict[Rule, list[_Evaluation]] = {rule: [] for rule in rules}
        for binds in dict.fromkeys(rule.binds for rule in rules):
            here = [rule for rule in rules if rule.binds is binds]
            for binding in fit.bindings(binds):
                key = _key(binding)
                kept = next((one.at[key] for one in earlier if key in one.at), None)
                self.at[key] = kept or [_Evaluation(rule, binding) for rule in here]
                for evaluation in self.at[key]:
                    rows[evaluation.rule].append(evaluation)
        self.rows = list(rows.values())
        self.every = {evaluation for row in self.rows for evaluation in row}
        self._said: list[tuple[list[_Outcome], Said] | None] = [None] * len(rules)

    def said(self, rules: list[Rule]) -> list[Said]:
        """What each rule says now, merged again where an evaluation has another outcome."""
        found = []
        for number, row in enumerate(self.rows):
            outcomes = [one.outcomes[0] for one in row]
            known = self._said[number]
            if known is None or known[0] != outcomes:
                findings = [finding for outcome in outcomes for finding in outcome.findings]
                known = self._said[number] = (outcomes, Said(rules[number], findings))
            found.append(known[1])
        return found


class Recheck:
    """A build that is changed again and again, with its result kept current.

        >>> import partscheck
        >>> again = partscheck.Recheck(partscheck.read_list("apiary.yaml"))     # doctest: +SKIP
        >>> wheel = again.build.part("wheel")                                   # doctest: +SKIP
        >>> again.put(wheel, "offset", Typed(read_offset("+30 mm"), "+30 mm", None))  # doctest: +SKIP
        >>> again.check().verdict                                               # doctest: +SKIP
        'caution'

    ``put`` and ``take`` change one field; ``replace`` all values of a record; after lines were added
    to or taken from ``build`` itself, ``check`` notices by itself.  ``ran`` and ``total`` count the
    evaluations of the last ``check``.  ``decide=False``: quick trials, where what cannot be told does not
    say what would decide it.
    """

    def __init__(self, build: Build, rules: Iterable[Rule] | None = None, decide: bool = True) -> None:
        self.build = build
        self.decide = decide
        self.rules = list(load_rules().values()) if rules is None else list(rules)
        self.ran = self.total = 0
        self._weights = Weights(build)
        self._touched: set[Read] = set()  # as a ledger would tell it
        self._lines: list[Any] = []  # and joints, loads, cases, at the last check
        self._answers: dict[str, Any] = {}  # of the listing
        self._layouts: list[tuple[Seen, _Layout]] = []  # the latest first
        self._every: set[_Evaluation] = set()
        self._inputs: dict[Read, _Input] = {}
        build.listen()

    # ---- changes -------------------------------------------------------------------------

    def put(self, record: Record, name: str, typed: Typed) -> None:
        """Give a field a value."""
        record.values[name] = typed
        self.touched(record, name)

    def take(self, record: Record, name: str) -> None:
        """Leave a field out."""
        record.values.pop(name, None)
        self.touched(record, name)

    def replace(self, record: Record, values: dict[str, Typed]) -> None:
        """Give a record these values in place of all that it has: another part on the same line."""
        before = record.values
        record.values = values
        for name in {*before, *values}:
            if before.get(name) is not values.get(name):
                self.touched(record, name)

    def touched(self, record: Record, name: str) -> None:
        """Say that a field, or a limit of ``build.limits``, was given another value by other means; a value that
        was changed in its place is not seen.
        """
        self._touched.update(as_read(record, name))

    # ---- checking ------------------------------------------------------------------------

    def check(self) -> Result:
        """The result for the build as it is now.  Raises ``Faults`` when it is ambiguous what sits where:
        the changes are remembered until it is not.
        """
        self.build.listing.answers = self._answers  # another ``Recheck`` may have left its own
        self._notice_lines()
        self._notice_leading()
        layout = self._layout()
        self._settle(layout)
        self._touched.clear()
        return gathered(self.build, layout.fit, layout.said(self.rules), copies=True)

    def _notice_lines(self) -> None:
        """Lines, joints, loads and cases that came or went; new records are listened to."""
        build = self.build
        for record in {record for record, _ in self._touched}:
            for one in with_nested(record):
                one.ledger = build.ledger
        lines = [build.answer(asked) for asked in (LINES, JOINTS, LOADS, CASES)]
        if lines != self._lines:
            self._lines = lines
            build.listen()
            others = {LEADING, *(self._layouts[0][1].answers if self._layouts else ())}
            self._answer({asked: build.answer(asked) for asked in self._answers.keys() - others})

    def _notice_leading(self) -> None:
        """Which unit system leads is a matter of all values; few rules ask for it."""
        asked = self._inputs.get((self.build.listing, LEADING))
        if asked is None or not asked.readers:
            self._answers.pop(LEADING, None)
        elif self._touched:
            self._answer({LEADING: self.build.answer(LEADING)})

    def _answer(self, answers: dict[str, Any]) -> None:
        """What the listing answers now; what it answers otherwise than before has changed."""
        for asked, answer in answers.items():
            if self._answers.get(asked) != answer:
                self._answers[asked] = answer
                self.touched(self.build.listing, asked.removeprefix("?"))

    # ---- what sits where -----------------------------------------------------------------

    def _layout(self) -> _Layout:
        """What sits where now: as before, as it was a while ago, or found anew."""
        changed = self._changed()
        if self._layouts and changed.isdisjoint(self._layouts[0][0]):
            return self._layouts[0][1]
        number = next((number for number, (seen, _) in enumerate(self._layouts) if _holds(seen, changed)), None)
        seen, layout = self._found() if number is None else self._layouts.pop(number)
        self._layouts.insert(0, (seen, layout))
        self._forget_layouts()
        self._weights.of(layout.fit)
        self._answer(layout.answers)
        return layout

    def _found(self) -> tuple[Seen, _Layout]:
        fit = Fit(self.build, self._weights)
        answers = _answers(fit)
        seen, earlier = self._seen(fit.reads), [layout for _, layout in self._layouts]
        layout = next((one for one in earlier if one.answers == answers), None)
        if layout is None:
            return seen, _Layout(fit, answers, self.rules, earlier)
        layout.fit = fit
        return seen, layout

    def _forget_layouts(self) -> None:
        """Let go of what only the oldest layouts have."""
        dropped = self._layouts[LAYOUTS:]
        del self._layouts[LAYOUTS:]
        for seen, layout in dropped:
            gone = layout.every.difference(*(other.every for _, other in self._layouts))
            inputs = {one for evaluation in gone for outcome in evaluation.outcomes for one in outcome.seen}
            for one in inputs:
                one.readers -= gone
            for one in inputs.union(seen):
                if not one.readers and not any(one in kept for kept, _ in self._layouts):
                    self._inputs.pop((one.record, one.name), None)

    # ---- what is said of it --------------------------------------------------------------

    def _settle(self, layout: _Layout) -> None:
        """Run what has no outcome that stands, in the order of the rules: one change gives one report."""
        self._weights.forget(self._touched)
        changed = self._changed()
        stale = (layout.every - self._every).union(*(one.readers for one in changed))
        self._every = layout.every
        self.ran, self.total = 0, sum(map(len, layout.rows))
        for row in layout.rows:
            for one in row:
                if one in stale and not one.standing(changed):
                    self._run(one)

    def _run(self, one: _Evaluation) -> None:
        findings = evaluate(one.rule, one.binding, self.decide)
        seen = self._seen(self.build.ledger)
        for read in seen:
            read.readers.add(one)
        one.outcomes.insert(0, _Outcome(findings, seen))
        del one.outcomes[OUTCOMES:]
        self.ran += 1

    def _changed(self) -> set[_Input]:
        inputs = self._inputs
        return {inputs[read] for read in self._touched if read in inputs}

    def _seen(self, ledger: Iterable[Read]) -> Seen:
        inputs = self._inputs
        found = {}
        for read in dict.fromkeys(ledger):
            one = inputs.get(read)
            if one is None:
                one = inputs[read] = _Input(*read)
            found[one] = one.record.seen(one.name)
        return found


def _answers(fit: Fit) -> dict[str, Any]:
    """What is answered to whoever asks what sits where: equal for the same records in the same places."""
    keys = {binds: tuple(_key(one) for one in fit.bindings(binds)) for binds in (*SEATED, Line)}
    spare = None if fit.spare is None else _key(fit.spare)
    found: dict[str, Any] = {AXLES: fit.axles, PLACES: (fit.axles, keys[WheelEnd], spare)}
    found.update((AT + binds.__name__, here) for binds, here in keys.items())
    found.update((OF + line.part.id, line.at) for line in fit.bindings(Line))
    return found


def _key(binding: Binding) -> Any:
    """Equal for bindings of the same records at the same places."""
    held = vars(binding).items()
    return (type(binding), *((name, _plain(value)) for name, value in held if name not in ("build", "weights")))


def _plain(value: Any) -> Any:
    if isinstance(value, Record):
        return value, value.id
    if isinstance(value, Binding):
        return _key(value)
    if isinstance(value, (tuple, list)):
        return tuple(_plain(one) for one in value)
    if isinstance(value, dict):
        return tuple((name, _plain(one)) for name, one in value.items())
    if isinstance(value, JointWasher):
        return tuple(_plain(getattr(value, name)) for name in value.__slots__)
    return value
