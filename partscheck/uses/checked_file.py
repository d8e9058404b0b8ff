"""One file that was checked: what came of it, and the little of it that a summary needs."""

from __future__ import annotations

from partscheck.rules.findings import CAUTION, STOP
from partscheck.uses.fail_on import RANKS, fails
from partscheck.uses.measurements import measurements

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import Any

    from partscheck.engine import Result
    from partscheck.notation.faults import Faults

UNUSABLE, SKIPPED = "unusable", "skipped"


class CheckedFile:
    """One of: the ``result`` of the check, the ``faults`` of a file that cannot be used, or ``failed``,
    why partscheck itself failed on it.  ``fail_on`` is the least rank of finding that fails the check.
    """

    __slots__ = ("fail_on", "failed", "faults", "file", "result")

    def __init__(
        self,
        file: str,
        result: Result | None = None,
        faults: Faults | None = None,
        failed: str = "",
    ) -> None:
        self.file = file
        self.result = result
        self.faults = faults
        self.failed = failed
        self.fail_on = STOP

    @property
    def sound(self) -> bool:
        """A check was made, and every rule did its work."""
        return self.result is not None and not self.result.crashed and self.result.verdict != "nothing"


class Row:
    """What a summary tells of one file: small, and ready to be sent from one process to another.

    ``verdict`` is that of the check, or "unusable" (no check was made of it), or "skipped".
    ``worst`` is its first finding, fault or reason in one line; ``line`` where that stands (or None).
    ``status`` is the exit status of this file alone; ``piece`` its share of the output; ``faults`` the text
    of all its faults.
    """

    __slots__ = ("caution", "faults", "file", "line", "measure", "piece", "status", "stop", "verdict", "worst")

    def __init__(self, file: str, verdict: str, status: int) -> None:
        self.file = file
        self.verdict = verdict
        self.status = status
        self.worst = ""
        self.faults = ""
        self.line: int | None = None
        self.stop = self.caution = self.measure = 0
        self.piece: Any = None


def skipped_row(file: str, why: str) -> Row:
    """A file of a folder that is no parts list."""
    row = Row(file, SKIPPED, 0)
    row.worst = why
    return row


def row_of(
    checked: CheckedFile, units: str | None, fail_on: str, render: Callable[[CheckedFile, str], Any]
) -> Row:
    """The row of one file.  ``render`` makes its share of the output, given the leading unit system."""
    checked.fail_on = fail_on
    result = checked.result
    leading = units or (result.build.leading() if result is not None else "metric")
    if result is None:
        row = _unusable(checked)
    else:
        row = _told(checked, result, leading)
    row.piece = render(checked, leading)
    return row


def plain_row(fail_on: str, checked: CheckedFile) -> Row:
    """The row of one file for those who want no more of it."""
    return row_of(checked, None, fail_on, _nothing)


def _nothing(checked: CheckedFile, leading: str) -> None:
    return None


def _unusable(checked: CheckedFile) -> Row:
    row = Row(checked.file, UNUSABLE, 2)
    if checked.faults is None:
        row.worst = f"partscheck itself failed on it: {checked.failed}"
        return row
    first, *rest = checked.faults.faults
    more = len(rest) + checked.faults.following
    row.line = first.mark.line
    row.worst = f"expected {first.expected}" + (f" (and {more} more)" if more else "")
    return row


def _told(checked: CheckedFile, result: Result, leading: str) -> Row:
    counts = result.counts()
    status = 2 if not checked.sound else int(fails(result, checked.fail_on))
    row = Row(checked.file, UNUSABLE if result.crashed else result.verdict, status)
    row.stop, row.caution = counts[STOP], counts[CAUTION]
    row.measure = len(measurements(result))
    found = [one for one in result.findings if not one.accepted and one.verdict in RANKS]
    worst = next(iter([*result.crashed, *found]), None)
    if worst is not None:
        row.line = None if worst.mark is None else worst.mark.line
        row.worst = worst.message(leading)
    elif result.verdict == "nothing":
        row.worst = "no rule found anything on it to look at"
    return row
