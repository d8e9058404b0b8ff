"""The plan of the house: imports go one way, files stay short, nothing foreign on the start-up path."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parent.parent / "partscheck"
# A module imports only from floors that stand before its own.
FLOORS = (
    "formulas", "notation", "parts", "catalogue", "build", "rules", "deciding", "engine", "recheck", "uses",
    "report", "commands", "cli",
)  # fmt: skip
FILES = sorted(PACKAGE.glob("**/*.py"))
HEAVY = ("pint", "jsonschema", "numpy", "dataclasses", "inspect", "importlib.metadata", "tabulate")


def floor_of(module: str) -> int | None:
    """The floor of "partscheck.<floor>...."; None for the package itself."""
    pieces = module.split(".")
    return FLOORS.index(pieces[1]) if len(pieces) > 1 and pieces[1] in FLOORS else None


def imports(tree: ast.AST) -> list[str]:
    """Modules of ours that a file imports when it runs (not those only for type checkers)."""
    found = []
    for node in ast.walk(tree):
        if isinstance(node, ast.If) and "TYPE_CHECKING" in ast.dump(node.test):
            node.body = []
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("partscheck"):
            found += [f"{node.module}.{name.name}" for name in node.names]
        elif isinstance(node, ast.Import):
            found += [name.name for name in node.names if name.name.startswith("partscheck")]
    return found


@pytest.mark.parametrize("path", FILES, ids=[str(path.relative_to(PACKAGE)) for path in FILES])
def test_imports_go_one_way(path: Path) -> None:
    module = ".".join(("partscheck", *path.relative_to(PACKAGE).with_suffix("").parts))
    own = floor_of(module)
    if own is None:
        return
    for name in imports(ast.parse(path.read_text(encoding="utf-8"))):
        other = floor_of(name)
        assert other is None or other <= own, f"{module} imports {name}, a floor above"


@pytest.mark.parametrize("path", FILES, ids=[str(path.relative_to(PACKAGE)) for path in FILES])
def test_files_stay_short(path: Path) -> None:
    assert len(path.read_text(encoding="utf-8").splitlines()) <= 420


@pytest.mark.parametrize("form", ["json", "text"])
def test_a_check_imports_nothing_heavy(form: str) -> None:
    code = (
        "import sys; from partscheck.cli import main; "
        f"main(['check', 'examples/metric-750.yaml', '--format', {form!r}]); "
        f"print([name for name in {HEAVY!r} if name in sys.modules], file=sys.stderr)"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], cwd=PACKAGE.parent, capture_output=True, text=True, check=True
    )
    brought_by_tabulate = {"tabulate", "dataclasses", "inspect", "importlib.metadata"} if form == "text" else set()
    assert set(ast.literal_eval(done.stderr.strip())) <= brought_by_tabulate
