"""Every public formula carries an example that runs, its range and its source."""

from __future__ import annotations

import doctest
import importlib
import inspect
import pkgutil
import re
from collections.abc import Callable
from types import ModuleType
from typing import Any

import pytest

import partscheck.formulas

MODULES = [
    importlib.import_module(f"partscheck.formulas.{found.name}")
    for found in pkgutil.iter_modules(partscheck.formulas.__path__)
    if found.name != "ranges"  # bounds, no formulas
]


def public_functions(module: ModuleType) -> list[Callable[..., Any]]:
    return [
        function
        for name, function in inspect.getmembers(module, inspect.isfunction)
        if function.__module__ == module.__name__ and not name.startswith("_")
    ]


FUNCTIONS = [function for module in MODULES for function in public_functions(module)]


@pytest.mark.parametrize("module", MODULES, ids=lambda module: module.__name__)
def test_examples_run(module: ModuleType) -> None:
    result = doctest.testmod(module)
    assert result.failed == 0
    assert result.attempted >= len(public_functions(module)) > 0


@pytest.mark.parametrize("function", FUNCTIONS, ids=lambda f: f"{f.__module__}.{f.__name__}")
def test_docstring_tells_range_source_and_example(function: Callable[..., Any]) -> None:
    told = inspect.getdoc(function) or ""
    assert ">>> " in told
    assert "Range: " in told
    assert re.search(r"Source: (published|practice|recalled|derived)\b", told)


@pytest.mark.parametrize("module", MODULES, ids=lambda module: module.__name__)
def test_formulas_import_only_math_and_their_ranges(module: ModuleType) -> None:
    imported = re.findall(r"^(?:import|from) (\S+)", inspect.getsource(module), re.MULTILINE)
    assert set(imported) <= {"__future__", "math", "typing", "partscheck.formulas.ranges"}
