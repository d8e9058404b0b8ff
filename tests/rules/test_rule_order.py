"""The order of the rules, which is the order of what a report tells, is that of the subjects' names."""

from __future__ import annotations

import ast
import subprocess
import sys

import pytest

NAMES = "from partscheck.rules import load_rules; print([(r.subject, r.slug) for r in load_rules().values()])"


def loaded_after(imports: str) -> str:
    command = [sys.executable, "-c", f"{imports}\n{NAMES}"]
    return subprocess.run(command, capture_output=True, text=True, check=True).stdout


@pytest.mark.parametrize("first", ["rules.wheel_clamp", "uses.shop", "report.html"])
def test_what_was_imported_before_does_not_change_it(first: str) -> None:
    plain = loaded_after("")
    subjects = [subject for subject, _ in ast.literal_eval(plain)]
    assert len(subjects) > 100
    assert subjects == sorted(subjects)
    assert loaded_after(f"import partscheck.{first}") == plain
