"""The examples say what their names promise."""

from __future__ import annotations

from pathlib import Path

import pytest

import partscheck

EXAMPLES = Path(__file__).parent.parent / "examples"


def check(name: str) -> partscheck.engine.Result:  # type: ignore[name-defined]
    return partscheck.check(EXAMPLES / name, [EXAMPLES / "catalog"])


def test_the_first_list_has_the_faults_that_go_wrong_in_practice() -> None:
    stops = {finding.rule.slug for finding in check("apiary-first.yaml").findings if finding.verdict == "stop"}
    assert stops >= {
        "stud-above-adapter-face", "tires-below-axle", "wheel-below-share", "lug-thread-mismatch", "lug-count",
    }  # fmt: skip


@pytest.mark.parametrize(
    "name", ["apiary-corrected.yaml", "metric-750.yaml", "tandem-arms.yaml"]
)
def test_a_correct_list_gives_no_stop_and_no_question(name: str) -> None:
    result = check(name)
    assert [finding for finding in result.findings if finding.verdict in ("stop", "measure")] == []
    assert not result.crashed
    assert result.counts()["ok"] > 30


def test_four_lines_get_an_answer_on_those_four_and_no_more() -> None:
    result = check("four-line-cart.yaml")
    lines = {part.id for finding in result.findings for part in finding.parts}
    assert lines <= {"hub", "plate", "wheel", "nuts"}
    assert "stud-above-adapter-face" in {finding.rule.slug for finding in result.findings}
    asked = {missing.record.id for finding in result.findings for missing in finding.missing}
    assert asked <= {"hub", "plate", "wheel", "nuts"}


def test_every_example_says_that_it_is_invented() -> None:
    for path in EXAMPLES.glob("**/*.yaml"):
        assert "nvented" in path.read_text(encoding="utf-8").splitlines()[0], path
