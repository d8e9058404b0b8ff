"""Every case file: what must fire where, and where nothing must."""

from __future__ import annotations

from typing import Any

import pytest
from case_files import all_cases, case_files, check_text, load_cases, worst

from partscheck.rules import load_rules

CASES = all_cases()


@pytest.mark.parametrize(("name", "rule", "case"), CASES, ids=[name for name, _, _ in CASES])
def test_case(name: str, rule: str, case: dict[str, Any]) -> None:
    result = check_text(case["list"])
    assert not result.crashed, [finding.error for finding in result.crashed]
    verdict = worst(result, rule)
    findings = [finding for finding in result.of(rule) if finding.verdict == verdict]
    words = [
        " ".join([one.message("metric"), one.why("metric"), *(text for _, text in one.remedies("metric"))])
        for one in findings
    ]
    assert verdict == case["expect"], words
    if "line" in case:
        assert case["line"] in [one.mark.line for one in findings if one.mark is not None]
    if "margin" in case:
        low, high = case["margin"]
        spans = [(one.check.margin.lo, one.check.margin.hi) for one in findings if one.check.margin]
        assert any(span == pytest.approx((low, high), abs=6e-3) for span in spans), spans
    for piece in case.get("says", []):
        assert any(piece in text for text in words), words
    for field in case.get("missing", []):
        named = [missing.name for one in findings for missing in one.missing]
        assert field in named, named


@pytest.mark.parametrize("slug", sorted(load_rules()))
def test_each_rule_has_cases_that_pass_fail_and_cannot_tell(slug: str) -> None:
    files = [path for path in case_files() if path.stem == slug]
    assert files, f"no tests/cases/**/{slug}.yaml"
    expected = {case["expect"] for path in files for _, case in load_cases(path)}
    assert expected & {"ok", "note"}, "no case that holds"
    # Two rules never fail: one only asks, one only tells something.
    fires = expected & {"stop", "caution"} or expected - {"silent"} in ({"measure", "ok"}, {"note"})
    assert fires, "no case that fails"
    assert expected & {"measure", "silent"}, "no case that cannot tell"
