"""The page of every rule: complete, and its examples do what they say."""

from __future__ import annotations

import re

import pytest
from case_files import check_text, worst

from partscheck.rules import load_rules
from partscheck.rules.explain import page_of

each_rule = pytest.mark.parametrize("slug", sorted(load_rules()))

# Rules that only ask: they find nothing wrong, they say that a reading must be settled first.
ONLY_ASK = ("rating-basis-unknown",)
# Rules that only tell something beside the verdicts.
ONLY_TELL = ("load-ahead-of-axle",)


@each_rule
def test_the_page_is_complete(slug: str) -> None:
    page = page_of(load_rules()[slug])
    for section in ("Why", "Remedy", "Wrong", "Right"):
        assert page.sections.get(section, "").strip(), f"no {section}"


@each_rule
def test_the_sentence_is_one_plain_sentence(slug: str) -> None:
    sentence = page_of(load_rules()[slug]).sentence
    assert sentence.endswith(".")
    assert sentence[0].isupper()
    assert 20 <= len(sentence) <= 220
    assert "`" not in sentence


@each_rule
def test_the_page_is_plain_ascii(slug: str) -> None:
    text = load_rules()[slug].check.__doc__ or ""
    assert not re.findall(r"[^\x20-\x7e\n°±]", text)


@each_rule
def test_the_wrong_example_fires(slug: str) -> None:
    result = check_text(page_of(load_rules()[slug]).example("Wrong"))
    assert not result.crashed
    fires = {**dict.fromkeys(ONLY_ASK, ("measure",)), **dict.fromkeys(ONLY_TELL, ("note",))}
    assert worst(result, slug) in fires.get(slug, ("stop", "caution"))


@each_rule
def test_the_right_example_does_not(slug: str) -> None:
    result = check_text(page_of(load_rules()[slug]).example("Right"))
    assert not result.crashed
    assert worst(result, slug) in ("ok", "note", "silent")


@each_rule
def test_the_wrong_example_says_what_to_do_and_why(slug: str) -> None:
    """Every stop has a remedy with words, and every message its numbers filled in."""
    result = check_text(page_of(load_rules()[slug]).example("Wrong"))
    for finding in result.of(slug):
        for leading in ("inch", "metric"):
            texts = [
                finding.message(leading),
                finding.why(leading),
                *(text for _, text in finding.remedies(leading)),
            ]
            assert all("{" not in text and " inf" not in text and " nan" not in text for text in texts)
        if finding.verdict == "stop":
            assert finding.remedies("inch"), "a stop without a remedy"
        assert finding.basis
