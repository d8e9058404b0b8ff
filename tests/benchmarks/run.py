"""Benchmarks: run ``python tests/benchmarks/run.py``.  Prints figures and ratios; asserts nothing.

Each whole-process figure stands beside a bare interpreter measured in the same run: quote the ratio,
machines differ.  Goals are ratios too; a figure over its goal is marked, not failed.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from itertools import cycle
from pathlib import Path

from find_bench import find_rows
from lists import parts_list
from tabulate import tabulate
from timing import beside, median_time

RUNS = 9
WARM_RUNS = 41


def processor_time(act: Callable[[], object]) -> float:
    """Median seconds that the processor is at work for one call: what else runs on the machine matters less."""
    act()
    return median_time(act, WARM_RUNS, time.process_time)


def process(*arguments: str, cache: Path, fresh: bool = False) -> Callable[[], object]:
    """A call that runs a process; ``fresh`` empties the catalogue cache before each run."""
    environment = {**os.environ, "XDG_CACHE_HOME": str(cache)}

    def act() -> object:
        if fresh:
            for file in cache.glob("**/*"):
                if file.is_file():
                    file.unlink()
        done = subprocess.run(arguments, stdout=subprocess.DEVNULL, env=environment, check=False)
        if done.returncode > 1:
            raise SystemExit(f"{' '.join(arguments)} ended with {done.returncode}: nothing to measure")
        return done

    return act


def whole_process(folder: Path) -> list[list[object]]:
    """Cold start: one process for each check."""
    small, large = folder / "60.yaml", folder / "2000.yaml"
    small.write_text(parts_list(60))
    large.write_text(parts_list(2000))
    cache = folder / "cache"
    python = sys.executable
    check = (python, "-m", "partscheck", "check")
    nothing = process(python, "-c", "pass", cache=cache)
    bare = median_time(nothing, RUNS)
    process(*check, str(small), cache=cache)()
    rows: list[list[object]] = [["bare interpreter", f"{bare * 1e3:.0f} ms", "1.0", ""]]
    for name, act, goal in (
        ("check --format json, 60 parts", process(*check, str(small), "--format", "json", cache=cache), 5),
        ("check (text), 60 parts", process(*check, str(small), cache=cache), 10),
        ("check, first run after a catalogue edit", process(*check, str(small), cache=cache, fresh=True), 40),
        ("check --format json, 2,000 parts", process(*check, str(large), "--format", "json", cache=cache), None),
    ):
        taken, times = beside(act, nothing, RUNS)
        goal_text = "" if goal is None else f"{goal} x" + ("" if times <= goal else "  (over)")
        rows.append([name, f"{taken * 1e3:.0f} ms", f"{times:.1f}", goal_text])
    return rows


def warm_engine() -> list[list[object]]:
    """One process, the list read once: rule evaluations a second, findings built."""
    import partscheck
    from partscheck.engine import check_build
    from partscheck.notation.wheel_size import read_offset
    from partscheck.parts.record import Typed
    from partscheck.rules import load_rules

    build = partscheck.read_list(parts_list(60).encode(), file="benchmark")
    result = check_build(build)
    evaluations = sum(len(result.fit.bindings(rule.binds)) for rule in load_rules().values())
    check = processor_time(lambda: check_build(build))
    read = processor_time(lambda: partscheck.read_list(parts_list(60).encode(), file="benchmark"))
    again = partscheck.Recheck(build)
    wheel = next(part for part in build.parts if part.kind == "wheel")
    offsets = cycle([*(Typed(read_offset(f"{mm} mm"), f"{mm} mm", None) for mm in range(10, 40))])
    again.check()

    def change() -> None:
        again.put(wheel, "offset", next(offsets))
        again.check()

    changed = processor_time(change)
    both = [["read a list of 60 parts", f"{read * 1e3:.1f} ms", "", ""]]
    both.append([f"check it ({evaluations} evaluations)", f"{check * 1e3:.1f} ms", "", ""])
    both.append([f"check it again, a wheel offset changed ({again.ran})", f"{changed * 1e3:.1f} ms", "", ""])
    rate = evaluations / check
    goal = "1,000,000" + ("" if rate >= 1e6 else "  (under)")
    both.append(["rule evaluations a second", f"{rate:,.0f}", "", goal])
    return [list(row) for row in both]


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        rows = whole_process(Path(folder))
    print(tabulate(rows, ["whole process", "median", "x bare", "goal"], tablefmt="simple"))
    print()
    print(tabulate(warm_engine(), ["in one process", "processor time", "", "goal"], tablefmt="simple"))
    print()
    print(tabulate(find_rows(), ["find", "median", "x bare", "goal"], tablefmt="simple"))


if __name__ == "__main__":
    main()
