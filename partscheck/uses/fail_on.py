"""Which findings make a check fail: those of a chosen rank or worse."""

from __future__ import annotations

from partscheck.rules.findings import CAUTION, MEASURE, STOP

TYPE_CHECKING = False
if TYPE_CHECKING:
    from partscheck.engine import Result
    from partscheck.rules.findings import Finding

RANKS = (STOP, CAUTION, MEASURE)  # the worst first


def is_open(finding: Finding, fail_on: str = STOP) -> bool:
    """True for a finding of rank ``fail_on`` or worse that nobody has accepted."""
    return not finding.accepted and finding.verdict in RANKS[: RANKS.index(fail_on) + 1]


def fails(result: Result, fail_on: str = STOP) -> bool:
    """True where one such finding is open: ``stop``, ``caution`` (a stop too) or ``measure`` (any)."""
    return any(is_open(finding, fail_on) for finding in result.findings)
