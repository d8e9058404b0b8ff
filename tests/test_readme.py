"""The README shows what the commands really print, and its Python example runs."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest
import yaml

from partscheck.cli import main

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"```text\n\$ partscheck (.+)\n((?:.*\n)*?)```", README)


@pytest.mark.parametrize(("command", "shown"), BLOCKS, ids=[command for command, _ in BLOCKS])
def test_what_the_readme_shows_is_what_is_printed(
    command: str, shown: str, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(ROOT)
    monkeypatch.setenv("COLUMNS", "80")
    main(shlex.split(command))
    printed = capsys.readouterr().out
    assert shown.strip(), "the README shows nothing"
    position = 0
    for piece in shown.split("[...]\n"):
        position = printed.find(piece.strip("\n"), position)
        assert position >= 0, f"not printed (any more):\n{piece}"


def test_the_python_example_runs(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(ROOT)
    code = re.search(r"```python\n(.*?)```", README, re.DOTALL)
    assert code is not None
    exec(compile(code[1], "README.md", "exec"), {})
    printed = capsys.readouterr().out
    assert "stop stud-above-adapter-face ('1L', '1R')" in printed
    assert "measure plate.nut_seat_thickness" in printed


def test_the_list_in_the_readme_reads() -> None:
    import partscheck

    text = re.search(r"```yaml\n(.*?)```", README, re.DOTALL)
    assert text is not None
    result = partscheck.check(text[1].encode(), file="README.md")
    assert result.of("stud-above-adapter-face")[0].verdict == "stop"


def test_the_rule_for_contributors_does_what_its_cases_say() -> None:
    from case_files import check_text, worst

    from partscheck.rules import load_rules
    from partscheck.rules.registry import RULES

    load_rules()
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    code = re.search(r"```python\n(.*?)```", text, re.DOTALL)
    cases = re.search(r"```yaml\n(rule: .*?)```", text, re.DOTALL)
    assert code is not None
    assert cases is not None
    file = yaml.safe_load(cases[1])
    before = dict(RULES)
    try:
        exec(compile(code[1], "DEVELOPERS.md", "exec"), {"__name__": "partscheck.rules.bores"})
        for case in file["cases"]:
            result = check_text(case["list"])
            assert worst(result, file["rule"]) == case["expect"]
            [finding] = result.of(file["rule"])
            words = " ".join([finding.message("metric"), *(do for _, do in finding.remedies("metric"))])
            assert all(piece in words for piece in case.get("says", []))
    finally:
        RULES.clear()
        RULES.update(before)


def test_links_lead_to_files() -> None:
    for name in ("README.md", "DEVELOPERS.md", "CHANGELOG.md"):
        text = (ROOT / name).read_text(encoding="utf-8")
        for target in re.findall(r"\]\(([^)#]+)", text):
            assert (ROOT / target).exists(), f"{name}: {target}"
