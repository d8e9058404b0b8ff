"""What a rule returns: a comparison of what is there with what is needed, three-valued.

``holds`` (True), ``fails`` (True) or ``unsure``: a margin that straddles its limit is unsure and
becomes MEASURE, never ok.  This is the decision rule of ISO 14253-1 (published; recalled, the
clause was not read).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable

from partscheck.notation.interval import INF, Interval, same_within
from partscheck.rules.basis import Basis

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

AT_MOST, AT_LEAST, EQUAL = "at most", "at least", "equal to"

Remedies = Callable[[], "Iterable[Remedy]"]


class Remedy:
    """One change that would clear a finding.

    ``do`` is a sentence for the bench (a template, see ``message.py``); ``field`` names what
    changes as "<part id>.<field>", ``relation`` and ``target`` what it must become, and
    ``operation`` is replace, shop, add, remove or declare.
    """

    __slots__ = ("do", "field", "operation", "relation", "target", "values")

    def __init__(
        self,
        do: str,
        field: str = "",
        relation: str = "",
        target: Any = None,
        operation: str = "replace",
        **values: Any,
    ) -> None:
        self.do = do
        self.field = field
        self.relation = relation
        self.target = target
        self.operation = operation
        self.values = values


class Check:
    """A comparison and, when it fails, the words for it.

    truth     True holds, False fails, None cannot tell
    have, need, margin   intervals in one unit (None for comparisons of words); margin >= 0 is good
    relation  "at most", "at least" or "equal to": have <relation> need
    """

    __slots__ = (
        "basis", "blame", "have", "hazard", "margin", "message", "need", "parts", "places",
        "relation", "remedies", "severity", "truth", "values", "why",
    )  # fmt: skip

    def __init__(
        self,
        truth: bool | None,
        have: Any = None,
        relation: str = "",
        need: Any = None,
        margin: Interval | None = None,
    ) -> None:
        self.truth = truth
        self.have = have
        self.relation = relation
        self.need = need
        self.margin = margin
        self.severity = ""
        self.message = ""
        self.why = ""
        self.values: dict[str, Any] = {}
        self.remedies: Remedies | None = None
        self.hazard = ""
        self.basis: Basis | None = None
        self.blame: tuple[Any, str] | None = None
        self.parts: tuple[Any, ...] | None = None
        self.places: tuple[str, ...] | None = None

    @property
    def holds(self) -> bool:
        return self.truth is True

    @property
    def fails(self) -> bool:
        return self.truth is False

    @property
    def unsure(self) -> bool:
        return self.truth is None

    def stop(self, message: str, **values: Any) -> Check:
        """It does not fit or is unsafe.  ``values`` fill the message's {places}."""
        return self._say("stop", message, values)

    def caution(self, message: str, **values: Any) -> Check:
        """Against good practice, or a matter of law to look up."""
        return self._say("caution", message, values)

    def note(self, message: str, **values: Any) -> Check:
        """Worth telling although nothing is wrong: shown, never counted as a caution."""
        return self._say("note", message, values)

    def ask(self, message: str, **values: Any) -> Check:
        """Words for the case that it cannot be told (the engine adds what to measure)."""
        return self._say("measure", message, values)

    def because(self, why: str) -> Check:
        """Why it matters, one sentence."""
        self.why = why
        return self

    def fix(self, remedies: Remedies) -> Check:
        """What to do instead, in order of preference; called only when the check fails."""
        self.remedies = remedies
        return self

    def danger(self, hazard: str) -> Check:
        """The hazard, where a fault can hurt someone."""
        self.hazard = hazard
        return self

    def on_basis(self, basis: Basis) -> Check:
        """The basis of this outcome where it differs from the rule's own."""
        self.basis = basis
        return self

    def at(self, record: Any, field: str) -> Check:
        """The value in the file that the finding points to."""
        self.blame = (record, field)
        return self

    def about(self, *parts: Any, places: tuple[str, ...] | None = None) -> Check:
        """The parts (and places) concerned, where they are not those of the binding."""
        self.parts = tuple(part for part in parts if part is not None)
        self.places = places
        return self

    def _say(self, severity: str, message: str, values: dict[str, Any]) -> Check:
        self.severity = severity
        self.message = message
        self.values = values
        return self


def at_most(have: Interval, limit: Interval) -> Check:
    """``have`` <= ``limit``, both intervals of one unit."""
    return Check(_sign(margin := limit - have), have, AT_MOST, limit, margin)


def at_least(have: Interval, limit: Interval) -> Check:
    """``have`` >= ``limit``, both intervals of one unit."""
    return Check(_sign(margin := have - limit), have, AT_LEAST, limit, margin)


def equal_within(have: Interval, need: Interval, tolerance: float) -> Check:
    """``|have - need|`` <= ``tolerance``, in their unit."""
    margin = tolerance - abs(have - need)
    return Check(_sign(margin), have, EQUAL, need, margin)


def same(truth: bool | None, have: Any = None, need: Any = None) -> Check:
    """A comparison of words or markings whose truth is already known (None: cannot tell)."""
    return Check(truth, have, EQUAL, need)


def certainly(truth: bool | None = True) -> Check:
    """An outcome with nothing to compare."""
    return Check(truth)


def all_of(*checks: Check) -> Check:
    """Holds when every check holds; the worst one speaks (failing first, then unsure)."""
    return min(checks, key=_rank)


def any_of(*checks: Check) -> Check:
    """Holds when one check holds; the best one speaks."""
    return max(checks, key=_rank)


def _rank(check: Check) -> tuple[int, float]:
    order = {False: 0, None: 1, True: 2}[check.truth]
    return order, (INF if check.margin is None else check.margin.lo)


def _sign(margin: Interval) -> bool | None:
    close = same_within(margin.unit)
    if margin.lo >= -close:
        return True
    if margin.hi < -close:
        return False
    return None
