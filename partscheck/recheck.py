"""Checks a build again after a change, running only the rules whose inputs changed.

Each evaluation of a rule at a place remembers the fields that it read.  When only values changed, and
every part still sits where it sat, the evaluations that read none of the changed fields stand.  When
something sits elsewhere now, or lines came or went, everything runs again.
"""

from __future__ import annotations

from copy import copy
from typing import TYPE_CHECKING, Any

from partscheck.build.fit import Fit
from partscheck.build.joint_washers import JointWasher
from partscheck.engine import Result, evaluate, gathered
from partscheck.parts.record import EVERY_FIELD, Record
from partscheck.rules import load_rules

if TYPE_CHECKING:
    from collections.abc import Iterable

    from partscheck.build.model import Build
    from partscheck.parts.record import Typed
    from partscheck.rules.findings import Finding
    from partscheck.rules.registry import Rule


class _Evaluation:
    """One rule at one place: what it said, and every field that it read, by record and name."""

    __slots__ = ("binding", "findings", "reads", "rule")

    def __init__(self, rule: Rule, binding: Any) -> None:
        self.rule = rule
        self.binding = binding
        self.findings: list[Finding] = []
        self.reads: frozenset[tuple[int, str]] = frozenset()

    def run(self, decide: bool) -> None:
        ledger = self.binding.build.ledger
        self.findings = evaluate(self.rule, self.binding, decide)
        read = {(id(record), name.removeprefix("?")) for record, name in ledger}
        for finding in self.findings:
            read.update((id(record), name.removeprefix("?")) for record, name in finding.reads)
        self.reads = frozenset(read)


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
        self._binds = list(dict.fromkeys(rule.binds for rule in self.rules))
        self._changed: set[tuple[int, str]] = set()
        self._shape: Any = None
        self._fit: Fit
        self._evaluations: list[list[_Evaluation]] = []
        self._index: dict[tuple[int, str], set[_Evaluation]] = {}

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
        """Say that a field, or a limit of ``build.limits``, was changed by other means."""
        self._changed.update(((id(record), name), (id(record), EVERY_FIELD.removeprefix("?"))))

    # ---- checking ------------------------------------------------------------------------

    def check(self) -> Result:
        """The result for the build as it is now.  Raises ``Faults`` when it is ambiguous what sits where:
        the changes are remembered until it is not.
        """
        self.build.listen()
        fit = Fit(self.build)
        shape = _shape(self.build, fit, self._binds)
        if shape != self._shape:
            self._begin(fit, shape)
        else:
            self._again()
        self._changed.clear()
        return self._result()

    def _begin(self, fit: Fit, shape: Any) -> None:
        self._fit, self._shape = fit, shape
        self._index = {}
        self._evaluations = [
            [_Evaluation(rule, binding) for binding in fit.bindings(rule.binds)] for rule in self.rules
        ]
        every = [one for evaluations in self._evaluations for one in evaluations]
        for one in every:
            self._run(one)
        self.ran = self.total = len(every)

    def _again(self) -> None:
        self._fit.weights.forget()
        stale: set[_Evaluation] = set()
        for key in self._changed:
            stale |= self._index.get(key, set())
        # In the order of the rules, so that the same change gives the same report.
        for evaluations in self._evaluations:
            for one in evaluations:
                if one in stale:
                    self._run(one)
        self.ran = len(stale)

    def _run(self, one: _Evaluation) -> None:
        for key in one.reads:
            self._index[key].discard(one)
        one.run(self.decide)
        for key in one.reads:
            self._index.setdefault(key, set()).add(one)

    def _result(self) -> Result:
        # Copies: a result belongs to its reader, and gathering marks findings.
        return gathered(
            self.build,
            self._fit,
            (
                (rule, [copy(finding) for one in evaluations for finding in one.findings])
                for rule, evaluations in zip(self.rules, self._evaluations, strict=True)
            ),
        )


def _shape(build: Build, fit: Fit, classes: list[Any]) -> Any:
    """What sits where: equal shapes have the same records in the same places."""
    lines = tuple(id(record) for record in (*build.parts, *build.joints, *build.loads, *build.accept))
    cases = tuple(_cases(load) for load in build.loads)
    places = tuple(_key(binding) for binds in classes for binding in fit.bindings(binds))
    return (fit.axles, tuple(build.load_cases), tuple(fit.told), lines, cases, places)


def _cases(load: Any) -> Any:
    typed = load.values.get("cases")
    return None if typed is None else tuple(typed.value)


def _key(binding: Any) -> Any:
    return (type(binding), *((name, _plain(value)) for name, value in vars(binding).items()))


def _plain(value: Any) -> Any:
    """A value of a binding that can be compared: records by identity, what has no own equality left out."""
    if isinstance(value, Record):
        return id(value), value.id
    if isinstance(value, (str, int, float, bool)) or value is None:
        return value
    if isinstance(value, (tuple, list)):
        return tuple(_plain(one) for one in value)
    if isinstance(value, dict):
        return tuple((name, _plain(one)) for name, one in value.items())
    if isinstance(value, JointWasher):
        return tuple(_plain(getattr(value, name)) for name in value.__slots__)
    return type(value).__name__
