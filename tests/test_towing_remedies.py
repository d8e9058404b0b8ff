"""What a remedy of the towing and balance rules says is done to the list: the finding is then gone.

Each failing case of these rules is checked, each remedy that names a field and a target is typed into its list, at
the target itself, and the list is checked again.
"""

from __future__ import annotations

from typing import Any

import pytest
from case_files import all_cases, shipped_catalogue

from partscheck.build.apply import apply_change
from partscheck.build.change import Change
from partscheck.build.model import Build
from partscheck.build.reader import read_build
from partscheck.engine import check_build
from partscheck.rules.findings import CAUTION, STOP, Finding
from partscheck.uses.fix.typed_text import value_text

SUBJECTS = {
    "axle_loads", "ball_class", "breakaway", "connector", "d_values", "declared_loads", "hitch_level",
    "lamp_wiring", "lamps", "rear_rack", "safety_chains", "tongue", "tongue_ratings", "tongue_tube", "tow_ratings",
    "tow_sizes", "wiring",
}  # fmt: skip

# Remedies that say in words that more is to be done than the one field, or that less is reached.
TELL_OF_MORE = (
    "and declare as much",  # an axle and the GAWR
    "the least that is towed",  # what is left where no more can be had
    "then weigh the tongue",  # what was typed for it holds no longer
)
MORE_TO_DO = {
    "lamps/lamps-required: side markers of two colors in one are none",  # more lamps lack
    "rear_rack/rear-receiver-overloaded: rack not weighed, its load alone is too much",  # leaves a question
}
CASES = [
    (name, rule, case)
    for name, rule, case in all_cases()
    if name.split("/")[0] in SUBJECTS and case["expect"] in (STOP, CAUTION) and name not in MORE_TO_DO
]


def build_of(text: str) -> Build:
    return read_build(text.encode(), shipped_catalogue(), "case.yaml")


def of_rule(build: Build, rule: str) -> list[Finding]:
    result = check_build(build)
    assert not result.crashed
    return [one for one in (*result.findings, *result.folded) if one.rule.slug == rule]


def key(finding: Finding) -> Any:
    return tuple(part.id for part in finding.parts), finding.at


def typed(finding: Finding, leading: str) -> list[tuple[str, str, str]]:
    """(field, value as one would type it, the remedy's sentence) of all that can be typed; none of steps that
    belong together.
    """
    found = []
    remedies = finding.remedies(leading)
    if any(words.startswith("and ") for _, words in remedies):
        return []
    for remedy, words in remedies:
        value = value_text(remedy.relation, remedy.target, leading)
        known_field = "." in remedy.field and remedy.operation not in ("add", "remove")
        if value and known_field and remedy.field != "tongue.section":
            found.append((remedy.field, value, words))
    return found


@pytest.mark.parametrize(("name", "rule", "case"), CASES, ids=[name for name, _, _ in CASES])
def test_at_its_target_a_remedy_clears_its_finding(name: str, rule: str, case: dict[str, Any]) -> None:
    build = build_of(case["list"])
    for finding in of_rule(build, rule):
        if finding.verdict not in (STOP, CAUTION):
            continue
        for field, value, words in typed(finding, build.leading()):
            if any(piece in words for piece in TELL_OF_MORE):
                continue
            changed = build_of(case["list"])
            apply_change(changed, Change("a remedy").replace(field, value))
            left = [one for one in of_rule(changed, rule) if key(one) == key(finding)]
            assert not left, f"{words}: {field} = {value} leaves: {left[0].message('metric')}"


@pytest.mark.parametrize(("name", "rule", "case"), CASES, ids=[name for name, _, _ in CASES])
def test_each_other_remedy_says_that_it_is_another_way_or_one_step_more(
    name: str, rule: str, case: dict[str, Any]
) -> None:
    build = build_of(case["list"])
    for finding in of_rule(build, rule):
        others = [words for _, words in finding.remedies(build.leading())][1:]
        assert all(words.startswith(("or ", "and ", "add ", "take the ")) for words in others), others
