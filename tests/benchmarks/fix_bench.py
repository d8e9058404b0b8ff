"""Speed of the search for plans.  Run ``python tests/benchmarks/fix_bench.py``; asserts nothing.

The search by itself on random instances, beside a general-purpose solver where one is installed (PuLP with
CBC); and whole fixes of the example list with real faults, with the number of trials they take.  Checks and
fixes are in processor time.
"""

from __future__ import annotations

import random
import statistics
import sys
import time
from pathlib import Path
from typing import Any

from tabulate import tabulate

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "tests")]

from uses.test_plan_search import Instance, by_cbc  # noqa: E402

import partscheck  # noqa: E402
from partscheck.engine import check_build  # noqa: E402

INSTANCES = 200
GOAL = 0.250  # seconds, 95 of 100


def search_rows() -> list[list[Any]]:
    """200 fresh instances of 20 to 120 options and 8 to 30 demands or more."""
    seeds = [random.SystemRandom().randrange(2**40) for _ in range(INSTANCES)]
    own, general, apart = [], [], 0
    for seed in seeds:
        draw = random.Random(seed)
        one = Instance(seed, draw.randint(20, 120), draw.randint(8, 30))
        start = time.perf_counter()
        found = one.solved()
        own.append(time.perf_counter() - start)
        try:
            start = time.perf_counter()
            best = by_cbc(one)
            general.append(time.perf_counter() - start)
        except BaseException:  # a skip of the test, where no solver is installed
            continue
        apart += (None if found is None else found.cost) != best
    rows = [["search, own", *figures(own), f"goal: 95 % within {GOAL * 1000:.0f} ms"]]
    if general:
        rows.append(["search, CBC by PuLP", *figures(general), f"{len(general)} compared, {apart} differ"])
    return rows


def fix_rows() -> list[list[Any]]:
    source, catalogs = str(ROOT / "examples/apiary-first.yaml"), [str(ROOT / "examples/catalog")]
    build = partscheck.read_list(source, catalogs)
    checks = []
    for _ in range(9):
        start = time.process_time()
        check_build(build)
        checks.append(time.process_time() - start)
    rows = [["check, warm", *figures(checks), ""]]
    for by, plans in (("changes", 1), ("changes", 3), ("cost", 3), ("margin", 3)):
        start = time.process_time()
        found = partscheck.fix(build, by=by, plans=plans)
        taken = time.process_time() - start
        each = taken / found.trials
        note = f"{found.trials} trials of {found.considered} changes, {each * 1000:.1f} ms each"
        rows.append([f"fix --by {by} --plans {plans}", *figures([taken]), note])
    return rows


def figures(taken: list[float]) -> list[str]:
    """Median and 95th of a hundred, ms."""
    ordered = sorted(taken)
    return [f"{statistics.median(taken) * 1000:.1f}", f"{ordered[int(len(ordered) * 0.95)] * 1000:.1f}"]


if __name__ == "__main__":
    print(tabulate([*search_rows(), *fix_rows()], ["what", "median ms", "p95 ms", ""], disable_numparse=True))
