"""Many lists on one process and on two: run ``python tests/benchmarks/batch_bench.py [COUNT] [LINES]``.

Prints figures and their ratio (goal: 1.7), and the greatest memory of the main process and of a worker;
asserts nothing.  The ratio means something only where two cores are free: the share of the time that
the processes ran on a core is printed beside it.
"""

from __future__ import annotations

import os
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from lists import parts_list
from tabulate import tabulate


def run(folder: Path, jobs: int, form: str) -> tuple[float, float]:
    """(seconds on the clock, seconds of all processes together)."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    start = time.perf_counter()
    done = subprocess.run(
        [sys.executable, "-m", "partscheck", "check", str(folder), "--jobs", str(jobs), "--format", form],
        stdout=subprocess.DEVNULL, check=False,
    )  # fmt: skip
    taken = time.perf_counter() - start
    if done.returncode > 1:
        raise SystemExit(f"check ended with {done.returncode}: nothing to measure")
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return taken, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def main(count: int = 10_000, lines: int = 12) -> None:
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for number in range(count):
            thickness = 1 + number % 100 / 100
            text = parts_list(lines).replace("thickness: 1.5 in", f"thickness: {thickness:.2f} in")
            (folder / f"list-{number:05}.yaml").write_text(text)
        rows = []
        for form in ("text", "json"):
            alone, alone_work = run(folder, 1, form)
            both, both_work = run(folder, 2, form)
            for jobs, taken, work in ((1, alone, alone_work), (2, both, both_work)):
                rate = f"{count / taken:,.0f}"
                rows.append([form, jobs, f"{taken:.1f} s", rate, f"{work / taken:.2f}", f"{alone / taken:.2f}"])
        heads = [f"check of {count} lists", "processes", "time", "lists/s", "cores used", "x faster"]
        print(tabulate(rows, heads, tablefmt="simple"))
        peak = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
        print(f"greatest memory of one process: {peak:.0f} MB; load of the machine: {os.getloadavg()[0]:.1f}")


if __name__ == "__main__":
    main(*(int(word) for word in sys.argv[1:]))
