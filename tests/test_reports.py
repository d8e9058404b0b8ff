"""The report of every case: plain words, no wider than the page, JSON as its schema says."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from case_files import all_cases, check_text, some_cases

from partscheck.report.json_report import json_report
from partscheck.report.text import text_report

SCHEMA = Path(__file__).resolve().parent.parent / "schemas" / "report.schema.json"
VALID = jsonschema.Draft202012Validator(json.loads(SCHEMA.read_text(encoding="utf-8")))
CASES = all_cases()
each_case = pytest.mark.parametrize("case", [case for *_, case in CASES], ids=[name for name, *_ in CASES])

# What no reader should meet: an unfilled place, a programmer's value, a comma after nothing.
NOT_WORDS = re.compile(r"\{\w*\}|\binf\b|\bnan\b|\bNone\b|<\w+ |: ,| ,|\bat at\b|\.\.$")


@each_case
def test_every_case_is_told_in_words_with_what_to_do_and_on_which_basis(case: dict[str, Any]) -> None:
    result = check_text(case["list"])
    for leading in ("inch", "metric"):
        lines = text_report(result, leading, 80, everything=True).splitlines()
        assert not [line for line in lines if NOT_WORDS.search(line)]
        assert not [line for line in lines if len(line) > 80 and len(line.split()) > 1]
    for finding in (*result.findings, *result.folded):
        assert finding.basis
        if finding.verdict == "stop":
            assert finding.remedies("metric"), finding
        if finding.verdict == "measure":
            assert finding.missing or finding.check.message, finding


# The schema's validator is slow.
@pytest.mark.parametrize("case", [case for *_, case in some_cases(6)], ids=[name for name, *_ in some_cases(6)])
def test_the_json_is_as_its_schema_says(case: dict[str, Any]) -> None:
    result = check_text(case["list"])
    errors = [error.message[:200] for error in VALID.iter_errors(json.loads(json_report(result, "metric")))]
    assert not errors


def test_a_rating_that_nobody_knows_is_not_printed_as_nothing() -> None:
    result = check_text(
        """
service: {gross_weight: 2300 lb, tongue_weight: 0}
parts:
  - {kind: hub, rating: 1750 lb, per: each}
  - {kind: wheel, offset: 0}
"""
    )
    rows = [line for line in text_report(result, "inch", 80).splitlines() if line.startswith("wheel ")]
    assert rows
    assert all("not known" in row and " 0 lb" not in row for row in rows)
