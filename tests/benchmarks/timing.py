"""How the benchmarks take their times."""

from __future__ import annotations

import statistics
import time
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable


def taken_by(act: Callable[[], object], clock: Callable[[], float] = time.perf_counter) -> float:
    """Seconds of one call."""
    start = clock()
    act()
    return clock() - start


def median_time(act: Callable[[], object], runs: int, clock: Callable[[], float] = time.perf_counter) -> float:
    """Median seconds of one call."""
    return statistics.median(taken_by(act, clock) for _ in range(runs))


def beside(act: Callable[[], object], other: Callable[[], object], runs: int) -> tuple[float, float]:
    """(median seconds of one call, how many times those of the other), the two called in turn: a machine whose
    speed changes meanwhile changes both.
    """
    both = [(taken_by(act), taken_by(other)) for _ in range(runs)]
    ours, theirs = (statistics.median(one) for one in zip(*both, strict=True))
    return ours, ours / theirs
