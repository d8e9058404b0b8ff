"""The case files under tests/cases: small lists, each with what must fire where.

A file names one rule (its stem too) and lists cases: ``name``, ``list`` (a parts list as a user types
it), ``expect`` (stop, caution, measure, note, ok, or silent: the rule has nothing to look at), and
where it matters ``line`` (of the value blamed), ``margin`` [low, high] in house units, ``says``
(pieces of the words), ``missing`` (fields asked for) and ``source`` (of a worked figure).
"""

from __future__ import annotations

import os
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from partscheck.build.reader import read_build
from partscheck.catalogue.catalogue import Catalogue
from partscheck.engine import Result, check_build

LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
CASES = Path(__file__).parent / "cases"
WORST_FIRST = ("stop", "caution", "measure", "note", "ok")


@cache
def shipped_catalogue() -> Catalogue:
    return Catalogue.load([])


def case_files() -> list[Path]:
    return sorted(CASES.glob("**/*.yaml"))


def load_cases(path: Path) -> list[tuple[str, dict[str, Any]]]:
    """(rule, case) of one file."""
    data = yaml.load(path.read_text(encoding="utf-8"), Loader=LOADER)
    assert {"rule", "cases"} <= set(data or ()), f"{path} needs `rule:` (as the file is called) and `cases:`"
    assert data["rule"] == path.stem, f"{path} is about {data['rule']}"
    return [(data["rule"], case) for case in data["cases"]]


@cache
def all_cases() -> list[tuple[str, str, dict[str, Any]]]:
    """(name, rule, case) of every case of every file."""
    return [
        (f"{path.parent.name}/{path.stem}: {case['name']}", rule, case)
        for path in case_files()
        for rule, case in load_cases(path)
    ]


def some_cases(every: int, start: int = 0) -> list[tuple[str, str, dict[str, Any]]]:
    """Every so many of the cases, for time; all of them where EVERY_CASE is set in the environment."""
    return all_cases() if os.environ.get("EVERY_CASE") else all_cases()[start::every]


def check_text(text: str) -> Result:
    """Check a list given as text."""
    return check_build(read_build(text.encode(), shipped_catalogue(), "case.yaml"))


def worst(result: Result, rule: str) -> str:
    """The worst verdict of one rule, "silent" when it found nothing to look at."""
    found = {finding.verdict for finding in result.of(rule)}
    return next((verdict for verdict in WORST_FIRST if verdict in found), "silent")
