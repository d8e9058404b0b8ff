"""The outputs that are committed beside the examples are what the commands print.

A command of its own gets a row below; ``python tests/test_example_outputs.py --write`` writes the files again.
"""

from __future__ import annotations

import io
import os
import shlex
import sys
from contextlib import redirect_stdout
from pathlib import Path

import pytest

from partscheck.cli import main

ROOT = Path(__file__).resolve().parent.parent
FOLDER = ROOT / "examples" / "outputs"
FIRST = "examples/apiary-first.yaml --catalog examples/catalog"
CORRECTED = "examples/apiary-corrected.yaml --catalog examples/catalog"

# (what stands behind `partscheck`, the file in examples/outputs that holds what it prints)
OUTPUTS = [
    (f"bom {FIRST}", "apiary-first-bom.txt"),
    (f"bom {FIRST} --format csv", "apiary-first-bom.csv"),
    (f"bom {CORRECTED} --by seller", "apiary-corrected-bom.txt"),
    (f"bom {CORRECTED} --format markdown", "apiary-corrected-bom.md"),
    (f"shop {FIRST}", "apiary-first-shop.txt"),
    (f"shop {CORRECTED}", "apiary-corrected-shop.txt"),
    ("shop examples/metric-750.yaml --format markdown", "metric-750-shop.md"),
    (f"swap {CORRECTED} examples/apiary-taller-tires.yaml", "apiary-taller-tires-swap.txt"),
    (f"swap {CORRECTED} examples/apiary-taller-tires.yaml --format markdown", "apiary-taller-tires-swap.md"),
    (f"swap {CORRECTED} --replace 'wheel.offset=-12 mm'", "apiary-offset-swap.txt"),
]

DRAWINGS = ("wheel-end", "bolt-circles", "load-plane", "joint-arm-to-frame", "side-view", "rear-view", "load-path")
OUTPUTS += [(f"draw {FIRST} {what}", f"apiary-first-{what}.svg") for what in DRAWINGS]
OUTPUTS += [(f"draw {CORRECTED} {what}", f"apiary-corrected-{what}.svg") for what in DRAWINGS]
OUTPUTS += [(f"report {CORRECTED}", "apiary-corrected-report.html")]


def printed(command: str) -> str:
    """What the command prints at 80 columns, run from the top of the project."""
    stream = io.StringIO(newline="")
    before, columns = os.getcwd(), os.environ.get("COLUMNS")
    os.chdir(ROOT)
    os.environ["COLUMNS"] = "80"
    try:
        with redirect_stdout(stream):
            main(shlex.split(command))
    finally:
        os.chdir(before)
        os.environ.pop("COLUMNS") if columns is None else os.environ.update(COLUMNS=columns)
    return stream.getvalue()


@pytest.mark.parametrize(("command", "file"), OUTPUTS, ids=[file for _, file in OUTPUTS])
def test_the_committed_output_is_what_is_printed(command: str, file: str) -> None:
    text = printed(command)
    assert len(text.splitlines()) > 5, "the command printed next to nothing"
    kept = (FOLDER / file).read_bytes().decode("utf-8")
    assert text == kept, f"{file} is old: run python tests/test_example_outputs.py --write and read it"


def test_every_file_of_the_folder_has_its_command() -> None:
    kept = {path.name for path in FOLDER.iterdir()}
    assert kept == {file for _, file in OUTPUTS}


if __name__ == "__main__":
    if sys.argv[1:] != ["--write"]:
        sys.exit("usage: python tests/test_example_outputs.py --write")
    FOLDER.mkdir(exist_ok=True)
    for command, file in OUTPUTS:
        (FOLDER / file).write_bytes(printed(command).encode("utf-8"))
        print(f"Wrote examples/outputs/{file}")
