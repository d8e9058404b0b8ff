"""JUnit files: as their schema says, read alike by an independent reader, harmless whatever a list says."""

from __future__ import annotations

from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import junitparser
import pytest
import xmlschema
from case_files import check_text, shipped_catalogue, some_cases
from hostile import FILE, UNSEEN, hostile_faults, hostile_list

from partscheck.cli import main
from partscheck.report.junit_report import JunitFile, junit_suites
from partscheck.uses.batch import checked_file
from partscheck.uses.checked_file import CheckedFile, row_of
from partscheck.uses.fail_on import RANKS, is_open

SCHEMA = xmlschema.XMLSchema(str(Path(__file__).parent / "standards" / "junit-10.xsd"))
CASES = some_cases(8)  # each takes a while to validate
each_case = pytest.mark.parametrize("case", [case for *_, case in CASES], ids=[name for name, *_ in CASES])
Capture = pytest.CaptureFixture[str]

LIST = """\
parts:
  - {kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, stud_length: unknown, qty: 2}
  - {id: plate, kind: adapter, hub_circle: 5 x 4.5 in, wheel_circle: 5 x 5.5 in, thickness: 1 in, qty: 2}
  - {kind: wheel, bolt_circle: 5 x 115 mm, size: 15 x 7 in, qty: 2}
"""


def xml_of(checked: CheckedFile, fail_on: str = "stop") -> str:
    row = row_of(checked, None, fail_on, junit_suites)
    file = JunitFile()
    text = file.begin() + file.add(row) + file.end()
    SCHEMA.validate(text)
    return text


def cases_of(text: str) -> list[Any]:
    return [case for suite in junitparser.JUnitXml.fromstring(text.encode()) for case in suite]


def outcomes(text: str) -> dict[str, str]:
    """Rule (or name) and outcome as the independent reader sees them; the worst of several."""
    found: dict[str, str] = {}
    rank = ["passed", "skipped", "failure", "error"]
    for case in cases_of(text):
        kinds = [type(one).__name__.lower() for one in case.result] or ["passed"]
        name = case.name.split(":")[0]
        found[name] = max(found.get(name, "passed"), *kinds, key=rank.index)
    return found


def checked(text: str, file: str = "list.yaml") -> CheckedFile:
    return checked_file(file, shipped_catalogue(), text.encode())


@each_case
def test_every_case_is_valid_and_counted(case: dict[str, Any]) -> None:
    result = check_text(case["list"])
    for fail_on in RANKS:
        text = xml_of(CheckedFile("list.yaml", result), fail_on)
        read = junitparser.JUnitXml.fromstring(text.encode())
        failures = sum(is_open(one, fail_on) for one in result.findings)
        assert sum(suite.failures for suite in read) == failures
        assert sum(one.is_failure for one in cases_of(text)) == failures
        names = [(one.classname, one.name, suite.name) for suite in read for one in suite]
        assert len(set(names)) == len(names)
        told = len(result.findings) + len(result.notes) + len(result.held) + len(result.crashed)
        nothing = int(result.verdict == "nothing")
        assert sum(suite.tests for suite in read) == told + 1 + nothing


@pytest.mark.parametrize(
    ("fail_on", "legality", "studs"),
    [("stop", "passed", "skipped"), ("caution", "failure", "skipped"), ("measure", "failure", "failure")],
)
def test_what_each_verdict_becomes(fail_on: str, legality: str, studs: str) -> None:
    found = outcomes(xml_of(checked(LIST), fail_on))
    assert found["bolt-circle-mismatch"] == "failure"
    assert found["adapter-legality"] == legality
    assert found["stud-above-adapter-face"] == studs


def test_what_is_to_be_measured_is_named_as_it_is_typed() -> None:
    [case] = [one for one in cases_of(xml_of(checked(LIST))) if one.name.startswith("stud-above-adapter-face")]
    [skipped] = case.result
    assert skipped.type == "measure"
    assert "\nMeasure: hub.stud_length (" in skipped.text
    assert ".)" not in skipped.text


def test_an_accepted_caution_passes_and_says_so() -> None:
    text = LIST + "accept:\n  - {rule: adapter-legality, part: plate, reason: asked the office}\n"
    xml = xml_of(checked(text), "caution")
    assert outcomes(xml)["adapter-legality"] == "passed"
    [case] = [one for one in cases_of(xml) if one.name.startswith("adapter-legality")]
    assert "asked the office" in case.system_out


def test_a_failure_says_where_what_and_what_to_do() -> None:
    failures = [one for one in cases_of(xml_of(checked(LIST))) if one.is_failure]
    [case] = [one for one in failures if one.name.startswith("bolt-circle-mismatch")]
    [failure] = case.result
    assert failure.type == "stop"
    assert "115" in failure.message
    assert failure.text.startswith("list.yaml, line 4, column ")
    assert "\nDo: " in failure.text
    assert "\nDanger: " in failure.text
    assert "\nBasis: " in failure.text


def test_what_cannot_be_used_is_an_error() -> None:
    xml = xml_of(checked("parts:\n  - kind: hub\n    stud_lenght: 1.5 in\n    pilot: 2.8\n"))
    assert outcomes(xml) == {"line 3, column 5": "error", "line 4, column 12": "error"}
    assert set(outcomes(xml_of(checked("parts: []\n"))).values()) <= {"error", "passed"}


@pytest.mark.parametrize("text", [hostile_list(), hostile_faults()], ids=["list", "faults"])
def test_hostile_texts_are_harmless(text: str) -> None:
    xml = xml_of(checked(text, FILE))
    root = ElementTree.fromstring(xml)
    known = {"testsuites", "testsuite", "testcase", "failure", "error", "skipped", "system-out"}
    assert {one.tag for one in root.iter()} <= known
    assert not [sign for sign in UNSEEN if sign in xml]
    assert "<![CDATA[" not in xml
    texts = "".join(root.itertext()) + " ".join(
        one.get("message", "") + one.get("name", "") for one in root.iter()
    )
    assert "<script>alert(1)</script>" in texts


def test_control_characters_have_no_place_in_xml() -> None:
    failed = CheckedFile("x\x00\x08\ufffe.yaml", failed="ValueError: \x00\x0b\ud800 ]]>")
    xml_of(failed).encode()


def test_the_exit_status_and_the_file_agree(tmp_path: Path, capsys: Capture) -> None:
    file = tmp_path / "list.yaml"
    file.write_text(LIST.replace("5 x 115 mm", "5 x 5.5 in").replace("unknown", "1 in"), encoding="utf-8")
    for fail_on in RANKS:
        status = main(["check", str(file), "--format", "junit", "--fail-on", fail_on])
        assert status == int("failure" in outcomes(capsys.readouterr().out).values())
