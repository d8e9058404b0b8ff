"""The page of every rule: complete, and its examples do what they say."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from case_files import check_text, worst

from partscheck.report.explain_text import RECORDS, explain_text, field_of
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


@each_rule
def test_how_to_measure_is_told_once(slug: str) -> None:
    """Fields that are measured alike name the first of them; every field that can be measured says how."""
    text, found = explain_text(slug, 80)
    assert found
    listed = text.partition("It reads:")[2].partition("\n\n")[0].split("\n  - ")[1:]
    hows = {}
    for item in listed:
        name, _, rest = " ".join(item.split()).partition(": ")
        hows[name] = rest.partition("How: ")[2]
    told: dict[str, str] = {}
    for read in load_rules()[slug].reads:
        kind, _, key = read.partition(".")
        field = field_of(kind, key)
        if field is None or not field.measure:
            continue
        how = " ".join(field.measure.split())
        first = told.setdefault(how, read)
        assert hows[read] == (how if first == read else f"as {first}.")


@pytest.mark.parametrize("kind", ["hub", "stud", "layout", "loads", "tow_vehicle"])
def test_a_kind_is_explained_with_all_its_fields(kind: str) -> None:
    text, found = explain_text(kind, 80)
    assert found
    flat = " ".join(text.split())
    for field in RECORDS[kind].fields.values():
        assert f"- {field.key}: " in flat


def test_every_kind_is_explained() -> None:
    assert all(explain_text(name, 80)[1] for name in RECORDS)


def test_a_part_of_a_catalogue_of_ones_own_is_explained() -> None:
    folder = Path(__file__).resolve().parent.parent / "examples" / "catalog"
    assert not explain_text("trs-plate-1.25", 80)[1]
    text, found = explain_text("trs-plate-1.25", 80, [str(folder)])
    assert found
    assert "thickness: 1.25 in" in text
    assert "invented" in text


def test_a_basis_says_common_practice_once() -> None:
    text, _ = explain_text("minimum_thread_engagement", 80)
    assert text.count("common practice") == 1
