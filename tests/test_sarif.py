"""SARIF 2.1.0: as its schema and clauses say, the same for the same list, harmless whatever a list says."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from case_files import check_text, shipped_catalogue, some_cases
from hostile import FILE, TEXTS, UNSEEN, hostile_faults, hostile_list

from partscheck.cli import main
from partscheck.report.artifact_uri import file_uri
from partscheck.report.sarif_report import FAULT_RULE, FINGERPRINT, SarifLog, sarif_piece
from partscheck.rules import load_rules
from partscheck.uses.batch import checked_file
from partscheck.uses.checked_file import CheckedFile, row_of

ROOT = Path(__file__).resolve().parent.parent
VALID = jsonschema.Draft4Validator(
    json.loads((Path(__file__).parent / "standards" / "sarif-schema-2.1.0.json").read_text(encoding="utf-8"))
)
CASES = some_cases(20)  # each takes a while to validate
each_case = pytest.mark.parametrize("case", [case for *_, case in CASES], ids=[name for name, *_ in CASES])
Capture = pytest.CaptureFixture[str]

LIST = """\
build: two wheels
parts:
  - {kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, stud_length: unknown, qty: 2}
  - {id: plate, kind: adapter, hub_circle: 5 x 4.5 in, wheel_circle: 5 x 5.5 in, thickness: 1 in, qty: 2}
  - {kind: wheel, bolt_circle: 5 x 115 mm, size: 15 x 7 in, qty: 2}
accept:
  - {rule: adapter-legality, part: plate, reason: asked the office}
"""


def log_of(checked: CheckedFile, everything: bool = False) -> dict[str, Any]:
    row = row_of(checked, None, "stop", lambda one, leading: sarif_piece(one, leading, everything))
    log = SarifLog()
    data = json.loads(log.begin() + log.add(row) + log.end())
    assert [error.message[:200] for error in VALID.iter_errors(data)] == []
    return dict(data["runs"][0])


def run_of(text: str, file: str = "list.yaml", everything: bool = False) -> dict[str, Any]:
    return log_of(checked_file(file, shipped_catalogue(), text.encode()), everything)


@each_case
def test_every_case_is_valid(case: dict[str, Any]) -> None:
    result = check_text(case["list"])
    run = log_of(CheckedFile("list.yaml", result), everything=True)
    told = [*result.findings, *result.notes, *result.held]
    assert [one["ruleId"] for one in run["results"]] == [one.rule.slug for one in told]
    follow_the_standard(run)


def follow_the_standard(run: dict[str, Any]) -> None:
    """What the clauses ask for and the schema cannot say."""
    rules = [rule["id"] for rule in run["tool"]["driver"]["rules"]]
    assert len(set(rules)) == len(rules)
    for result in run["results"]:
        assert result["ruleId"] in rules
        if result["kind"] != "fail":
            assert result["level"] == "none"  # 3.27.10
        assert "suppressions" in result  # 3.27.23: of all results or of none
        text = result["message"]["text"]
        assert not re.search(r"(?<!\{)(?:\{\{)*\{(?!\{)", text)  # 3.11.5: no placeholder
        assert "](" not in text  # 3.11.6: no embedded link
    prints = [result["partialFingerprints"][FINGERPRINT] for result in run["results"]]
    assert len(set(prints)) == len(prints)


def test_what_each_verdict_becomes() -> None:
    run = run_of(LIST, everything=True)
    by_rule = {one["ruleId"]: one for one in run["results"] if one["kind"] != "pass"}
    stop, accepted = by_rule["bolt-circle-mismatch"], by_rule["adapter-legality"]
    measure = by_rule["stud-above-adapter-face"]
    assert (stop["kind"], stop["level"], stop["suppressions"]) == ("fail", "error", [])
    assert (measure["kind"], measure["level"]) == ("open", "none")
    assert measure["properties"]["measure"] == ["hub.stud_length"]
    assert (accepted["kind"], accepted["level"]) == ("fail", "warning")
    [suppression] = accepted["suppressions"]
    assert (suppression["kind"], suppression["status"]) == ("inSource", "accepted")
    assert suppression["justification"] == "asked the office"
    assert suppression["location"]["physicalLocation"]["region"]["startLine"] == 7
    assert "pass" in {one["kind"] for one in run["results"]}
    assert run["invocations"][0]["executionSuccessful"] is True


def test_a_result_stands_where_the_finding_does() -> None:
    run = run_of(LIST)
    [stop] = [one for one in run["results"] if one["ruleId"] == "bolt-circle-mismatch"]
    [place] = stop["locations"]
    assert place["physicalLocation"]["artifactLocation"] == {"uri": "list.yaml"}
    region = place["physicalLocation"]["region"]
    assert LIST.splitlines()[region["startLine"] - 1][region["startColumn"] - 1 :].startswith("5 x 115 mm")
    assert {one["name"] for one in place["logicalLocations"]} == {"plate", "wheel"}


def test_a_rule_carries_its_page() -> None:
    run = run_of(LIST)
    for rule in run["tool"]["driver"]["rules"]:
        sentence = load_rules()[rule["id"]].sentence
        assert rule["shortDescription"]["text"].replace("{{", "{").replace("}}", "}") == sentence
        assert "Basis: " in rule["help"]["text"]
        assert rule["fullDescription"]["text"].startswith(rule["shortDescription"]["text"])


def test_a_fingerprint_stays_when_lines_move_and_numbers_change() -> None:
    def prints(text: str) -> set[tuple[str, str]]:
        return {(one["ruleId"], one["partialFingerprints"][FINGERPRINT]) for one in run_of(text)["results"]}

    before = prints(LIST)
    assert len(before) == len(run_of(LIST)["results"])
    assert prints("# a comment\n\n" + LIST) == before
    assert prints(LIST.replace("5 x 115 mm", "5 x 4.25 in")) == before
    lines = LIST.splitlines(keepends=True)
    assert prints("".join([*lines[:2], lines[4], lines[2], lines[3], *lines[5:]])) == before
    assert prints(LIST.replace("kind: wheel,", "kind: wheel, id: other,")) != before


def test_faults_are_results_and_the_run_was_not_successful() -> None:
    run = run_of("parts:\n  - kind: hub\n    stud_lenght: 1.5 in\n    pilot: 2.8\n")
    assert [one["ruleId"] for one in run["results"]] == [FAULT_RULE, FAULT_RULE]
    lines = [one["locations"][0]["physicalLocation"]["region"]["startLine"] for one in run["results"]]
    assert lines == [3, 4]
    assert "stud_length" in run["results"][0]["message"]["text"]
    assert run["invocations"][0]["executionSuccessful"] is False
    assert [rule["id"] for rule in run["tool"]["driver"]["rules"]] == [FAULT_RULE]


def test_a_rule_that_fails_itself_is_told_of_the_tool(monkeypatch: pytest.MonkeyPatch) -> None:
    def fail(binding: object) -> None:
        raise ValueError("broken {0}")

    monkeypatch.setattr(load_rules()["bolt-circle-mismatch"], "check", fail)
    run = run_of(LIST)
    [told, *_] = run["invocations"][0]["toolExecutionNotifications"]
    assert told["associatedRule"]["id"] == "bolt-circle-mismatch"
    assert "broken {{0}}" in told["message"]["text"]
    assert run["invocations"][0]["executionSuccessful"] is False


@pytest.mark.parametrize("text", [hostile_list(), hostile_faults()], ids=["list", "faults"])
def test_hostile_texts_are_harmless(text: str) -> None:
    run = run_of(text, FILE)
    follow_the_standard(run)
    told = json.dumps(run, ensure_ascii=False)
    assert not [sign for sign in UNSEEN if sign in told]
    uri = run["artifacts"][0]["location"]["uri"]
    assert re.fullmatch(r"[A-Za-z0-9/:!$&'()*+,;=@~%._-]+", uri)  # RFC 3986
    assert any(part.replace("{", "{{") in told for part in TEXTS if part.isalnum() or part == "a|b|c")


def test_the_same_list_gives_the_same_bytes(tmp_path: Path, capsys: Capture) -> None:
    file = tmp_path / "list.yaml"
    file.write_text(LIST, encoding="utf-8")
    written = []
    for _ in range(2):
        assert main(["check", str(file), "--format", "sarif"]) == 1
        written.append(capsys.readouterr().out)
    assert written[0] == written[1]
    assert json.loads(written[0])["version"] == "2.1.0"


def test_a_name_becomes_a_uri() -> None:
    assert file_uri("a b/c#d?.yaml") == "a%20b/c%23d%3F.yaml"
    assert file_uri("/home/me/x.yaml") == "file:///home/me/x.yaml"
    assert file_uri("c:x.yaml") == "./c:x.yaml"
    assert file_uri("\udcff.yaml") == "%FF.yaml"
