"""The reference of rules is what the rules say now, whole, and its links lead somewhere."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
import yaml

from partscheck.report.rule_pages import COMMAND, main, rule_pages
from partscheck.rules import load_rules
from partscheck.rules.explain import page_of

KEPT = Path(__file__).resolve().parents[2] / "examples" / "rules.md"
TEXT = rule_pages()
PAGES = dict(re.findall(r"^### (\S+)\n(.*?)(?=^###? |\Z)", TEXT, re.S | re.M))


def test_the_committed_file_is_current() -> None:
    assert KEPT.read_bytes().decode("utf-8") == TEXT, f"run {COMMAND}"


def test_every_rule_has_one_page_and_a_link_to_it() -> None:
    assert sorted(re.findall(r"^### (\S+)$", TEXT, re.M)) == sorted(load_rules())
    assert sorted(re.findall(r"\]\(#([\w-]+)\)", TEXT)) == sorted(load_rules())


@pytest.mark.parametrize("slug", sorted(load_rules()))
def test_a_page_is_whole(slug: str) -> None:
    rule, page = load_rules()[slug], PAGES[slug]
    for name in ("Why", "Remedy", "Basis", "It reads", "Wrong", "Right"):
        assert f"**{name}:**" in page
    assert all(f"`{read.removeprefix('practice.')}`" in page for read in rule.reads)
    wrong, right = (yaml.safe_load(block) for block in re.findall(r"^```yaml\n(.*?)^```$", page, re.S | re.M))
    assert wrong == yaml.safe_load(page_of(rule).example("Wrong"))
    assert right == yaml.safe_load(page_of(rule).example("Right"))


def test_check_tells_an_old_file(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "rules.md"
    assert main(["--check", str(path)]) == 1
    assert main([str(path)]) == 0
    assert main(["--check", str(path)]) == 0
    path.write_text(TEXT.replace("Why", "why", 1), encoding="utf-8")
    assert main(["--check", str(path)]) == 1
    assert COMMAND in capsys.readouterr().err
