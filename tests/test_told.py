"""What a report tells beside its findings, and how it says what cannot be told yet."""

from __future__ import annotations

import json
import re
from typing import TYPE_CHECKING, Any

import pytest
from case_files import check_text, some_cases

from partscheck.cli import main
from partscheck.report.explain_text import explain_text
from partscheck.report.json_report import json_report
from partscheck.report.text import text_report
from partscheck.rules import load_rules
from partscheck.uses.measurements import measurements

if TYPE_CHECKING:
    from pathlib import Path

HUB = "  - {id: hub, kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, stud_length: 1.25 in, qty: 2}\n"
PLATE = "  - {kind: adapter, hub_circle: 5 x 4.5 in, thickness: 1.5 in, nut_seat_thickness: 0.75 in, qty: 2}\n"


def said(text: str) -> str:
    return " ".join(text_report(check_text(text), "inch", 80).split())


def test_a_limit_of_the_users_own_is_told_even_where_it_makes_a_check_hold() -> None:
    practice = "practice:\n  minimum_thread_engagement: {value: 0.5, reason: shop habit}\nparts:\n"
    result = check_text(practice + HUB.replace("1.25 in", "1.1 in") + PLATE)
    assert not [one for one in result.findings if one.rule.slug == "stud-too-short-for-adapter"]
    sentence = "minimum_thread_engagement 0.5 instead of 1.0: shop habit"
    assert sentence in " ".join(text_report(result, "inch", 80).split())
    assert any(sentence in told for told in json.loads(json_report(result, "inch"))["told"])


def test_a_limit_that_makes_a_check_fail_stands_in_the_finding_with_its_value() -> None:
    practice = "practice:\n  minimum_thread_engagement: {value: 1.2, reason: shop habit}\nparts:\n"
    assert "Your limit: minimum_thread_engagement 1.2 instead of 1.0: shop habit" in said(practice + HUB + PLATE)


def test_an_acceptance_of_a_rule_that_there_is_not_names_the_nearest() -> None:
    text = "parts:\n" + HUB + "accept:\n  - {rule: tire-agee, part: hub, reason: looked}\n"
    assert "matches no caution" in said(text)
    assert "Did you mean tire-age?" in said(text)


def test_a_table_row_of_the_users_own_catalogue_is_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "mine.yaml").write_text(
        "title: mine\nedition: now\nbasis: {kind: practice, source: measured}\n"
        "table: speed_symbol\ncolumns:\n  km_h: {type: number, unit: km/h, means: speed}\n"
        "rows:\n  - {key: S, km_h: 181}\n",
        encoding="utf-8",
    )
    (tmp_path / "list.yml").write_text("parts:\n" + HUB, encoding="utf-8")
    main(["check", str(tmp_path / "list.yml"), "--catalog", str(tmp_path / "mine.yaml")])
    out = " ".join(capsys.readouterr().out.split())
    assert "Table `speed_symbol`: S from" in out, out


def test_a_part_without_a_rating_is_not_rated_nothing() -> None:
    text = "service: {gross_weight: 2000 lb, tongue_weight: 200 lb}\nparts:\n" + HUB
    (row,) = [line for line in text_report(check_text(text), "inch", 80).splitlines() if line.startswith("hub ")]
    assert " 0 lb" not in row
    assert "not known" in row


def test_a_list_in_which_nothing_can_be_checked_says_what_to_type() -> None:
    assert "partscheck new" in said("parts:\n  - {kind: wheel}\n")


def test_a_coarse_chord_is_asked_for_as_exactly_as_a_caliper_reads() -> None:
    result = check_text(
        "parts:\n"
        "  - {kind: hub, bolt_circle: '5 lugs, 2.645 in \u00b1 1/32 in between neighbours'}\n"
        "  - {kind: wheel, bolt_circle: 5 x 115 mm}\n  - {kind: lug-nut}\n"
    )
    (one,) = [one for one in measurements(result) if one.name == "hub.bolt_circle"]
    assert one.accuracy is not None
    assert one.accuracy.hi == pytest.approx(0.2)


def test_an_unknown_grade_says_what_each_reading_would_decide() -> None:
    text = said(
        "parts:\n  - {id: b, kind: bolt, size: 1/2-13 x 2 in, grade: unknown}\n"
        "  - {id: n, kind: nut, thread: 1/2-13}\n"
        "bolted_joints:\n  - {id: eye, bolt: b, nut: n, bolts: 1, centred: true, shear_planes: 1,"
        " load: {tension: 4000 lb}, stack: [{thickness: 1/2 in}, {thickness: 1/2 in}]}\n"
    )
    for reading in ("With no marks", "with 3 lines", "with 6 lines"):
        assert reading in text


@pytest.mark.parametrize("slug", sorted(load_rules()))
def test_every_field_that_a_rule_reads_is_explained(slug: str) -> None:
    page, _ = explain_text(slug, 80)
    assert not re.findall(r"^  - [\w.-]+:\s*$(?!\n {4})", page, re.MULTILINE)


SOME = some_cases(4)


@pytest.mark.parametrize("case", [case for *_, case in SOME], ids=[name for name, *_ in SOME])
def test_the_first_thing_to_do_is_no_alternative(case: dict[str, Any]) -> None:
    for finding in check_text(case["list"]).findings:
        for _, text in finding.remedies("inch")[:1]:
            assert not text.startswith("or "), text


def test_an_acceptance_of_a_part_that_there_is_not_names_the_nearest() -> None:
    text = "parts:\n" + HUB + "accept:\n  - {rule: tire-age, part: hubb, reason: looked}\n"
    assert "Did you mean hub?" in said(text)
