"""The find benchmark: a million invented parts in a CSV file, made by number, asked from a warm cache.

Run ``python tests/benchmarks/find_bench.py [parts]``; ``run.py`` takes its rows in, too.  Prints figures and
ratios; asserts nothing.
"""

from __future__ import annotations

import os
import random
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from timing import beside, median_time

PARTS = 1_000_000
SETTLE = 3.5  # seconds after which a file counts as settled
HEADINGS = (
    "id,kind,hub_circle,wheel_circle,thickness,stud_thread,rating,size,bolt_circle,center_bore,nut_seat,load_range,"
    "thread,seat,price,seller,weight\n"
)
CIRCLES = (
    "4 x 4 in",
    "5 x 4.5 in",
    "5 x 114.3 mm",
    "5 x 5 in",
    "5 x 5.5 in",
    "6 x 5.5 in",
    "8 x 6.5 in",
    "5 x 120 mm",
)
THREADS = ("1/2-20", "7/16-20", "M12x1.5", "M14x1.5", "9/16-18")
SEATS = ("conical", "ball", "flat")
WHEELS = ("13 x 4.5 in", "14 x 5.5 in", "15 x 5 in", "15 x 6 in", "15 x 7 in", "16 x 6 in")
TIRES = ("ST205/75R14", "ST205/75R15", "ST225/75R15", "LT235/75R15", "185/65R15")
QUESTIONS = (
    ("three conditions", "adapter",
     ("hub_circle=5 x 4.5 in", "thickness=38 to 38.5 mm", "rating=1900 lb to 2000 lb")),
    ("narrow range", "wheel", ("rating=845 to 846 kg",)),
    ("broad range", "wheel", ("rating=1000 lb or more",)),
    ("words", "lug-nut", ("thread=M14x1.5", "seat=ball")),
    ("five conditions, few parts", "adapter",
     ("hub_circle=5 x 4.5 in", "wheel_circle=5 x 139.7 mm", "thickness=1.5 to 1.75 in", "rating=1000 kg or more",
      "price=at most 40")),
    ("nothing matches", "adapter", ("thickness=400 mm or more", "rating=1200 lb or more")),
)  # fmt: skip


def write_parts(path: Path, parts: int, seed: int = 1) -> None:
    """An invented catalogue of adapters, wheels, tires and lug nuts."""
    draw = random.Random(seed)
    pick = draw.choice
    with open(path, "w", encoding="utf-8") as stream:
        stream.write(HEADINGS)
        for number in range(parts):
            price, weight = f"{draw.randint(500, 20000) / 100:.2f}", f"{draw.randint(2, 40)} lb"
            rating = f"{draw.randint(500, 3500)} lb" if number % 2 else f"{draw.randint(250, 1600)} kg"
            tail = f"{price},shop {number % 37},{weight}\n"
            which = number % 4
            if which == 0:
                thick = f"{draw.randint(200, 900) / 10:.1f} mm"
                stream.write(f"ad-{number},adapter,{pick(CIRCLES)},{pick(CIRCLES)},{thick},{pick(THREADS)},{rating},"
                             f",,,{pick(SEATS)},,,,{tail}")  # fmt: skip
            elif which == 1:
                bore = f"{draw.randint(560, 1300) / 10:.1f} mm"
                stream.write(f"wh-{number},wheel,,,,,{rating},{pick(WHEELS)},{pick(CIRCLES)},{bore},{pick(SEATS)},"
                             f",,,{tail}")  # fmt: skip
            elif which == 2:
                stream.write(f"ti-{number},tire,,,,,,{pick(TIRES)},,,,{pick('BCDE')},,,{tail}")
            else:
                stream.write(f"nu-{number},lug-nut,,,,,,,,,,,{pick(THREADS)},{pick(SEATS)},{tail}")


def in_one_process(folder: Path) -> list[list[object]]:
    """Open the stock and answer, in a process that has everything imported."""
    from partscheck.catalogue import Catalogue
    from partscheck.catalogue.query import read_query
    from partscheck.catalogue.search import Search
    from partscheck.catalogue.stock import Stock, open_stock

    catalogue = Catalogue.load([str(folder)])
    stock = catalogue.stocks()[1]
    key = dict(stock.connection.execute("SELECT name, value FROM meta"))["key"]
    rows: list[list[object]] = []
    for name, kind, conditions in QUESTIONS:
        query, faults = read_query(kind, conditions, catalogue)
        assert not faults, faults

        def ask(query: object = query) -> tuple[int, int]:
            connection = open_stock(key)
            assert connection is not None
            search = Search(Stock(connection), query)  # type: ignore[arg-type]
            found = len(list(search.found(10))), search.count()
            connection.close()
            return found

        taken = median_time(ask, 15)
        goal = "2 ms" + ("" if taken <= 2e-3 else "  (over)")
        rows.append([f"open + query: {name} ({ask()[1]} match)", f"{taken * 1e3:.2f} ms", "", goal])
    return rows


def whole_process(folder: Path, environment: dict[str, str]) -> list[list[object]]:
    python = sys.executable

    def run(*arguments: str) -> None:
        subprocess.run(arguments, stdout=subprocess.DEVNULL, env=environment, check=False)

    def nothing() -> None:
        run(python, "-c", "pass")

    bare = median_time(nothing, 15)
    rows: list[list[object]] = [["bare interpreter", f"{bare * 1e3:.0f} ms", "1.0", ""]]
    for name, kind, conditions in (QUESTIONS[0], QUESTIONS[2]):
        call = (
            python,
            "-m",
            "partscheck",
            "find",
            kind,
            *conditions,
            "--catalog",
            str(folder),
            "--format",
            "json",
        )
        run(*call)
        taken, times = beside(lambda call=call: run(*call), nothing, 21)  # type: ignore[misc]
        goal = "5 x" + ("" if times <= 5 else "  (over)")
        rows.append([f"find --format json: {name}", f"{taken * 1e3:.0f} ms", f"{times:.1f}", goal])
    code = (
        "import sys; from partscheck.cli import main; main(sys.argv[1:]);"
        "print(open('/proc/self/status').read().partition('VmHWM:')[2].split()[0], file=sys.stderr)"
    )
    call = (python, "-c", code, "find", QUESTIONS[0][1], *QUESTIONS[0][2], "--catalog", str(folder))
    told = subprocess.run(call, env=environment, capture_output=True, text=True, check=True)
    most = int(told.stderr.split()[-1]) / 1024
    rows.append(["find: memory at most", f"{most:.0f} MB", "", "50 MB" + ("" if most <= 50 else "  (over)")])
    return rows


def find_rows(parts: int = PARTS) -> list[list[object]]:
    """Rows for a table: what, median, times bare, goal."""
    with tempfile.TemporaryDirectory() as made:
        folder, cache = Path(made) / "stock", Path(made) / "cache"
        folder.mkdir()
        write_parts(folder / "parts.csv", parts)
        os.environ["XDG_CACHE_HOME"] = str(cache)
        from partscheck.catalogue import Catalogue

        size = (folder / "parts.csv").stat().st_size
        time.sleep(SETTLE)
        start = time.perf_counter()
        Catalogue.load([str(folder)]).stocks()
        taken = time.perf_counter() - start
        stored = sum(file.stat().st_size for file in (cache / "partscheck").glob("stock-*"))
        rows: list[list[object]] = [
            [f"import {parts:,} parts ({size / 1e6:.0f} MB of CSV, {stored / 1e6:.0f} MB compiled)",
             f"{taken:.1f} s", "", ""],
            ["  memory at most while importing",
             f"{resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024:.0f} MB", "", ""],
        ]  # fmt: skip
        return rows + in_one_process(folder) + whole_process(folder, {**os.environ})


if __name__ == "__main__":
    from tabulate import tabulate

    count = int(sys.argv[1]) if len(sys.argv) > 1 else PARTS
    print(tabulate(find_rows(count), ["find", "median", "x bare", "goal"], tablefmt="simple"))
