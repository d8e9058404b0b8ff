"""Markdown: rendered by an independent reader it is what was meant, and nothing that a list says is more
than text.
"""

from __future__ import annotations

import re
from html.parser import HTMLParser
from pathlib import Path

import pytest
from case_files import shipped_catalogue
from hostile import FILE, TEXTS, UNSEEN, hostile_faults, hostile_list
from hypothesis import given
from hypothesis import strategies as st
from markdown_it import MarkdownIt

from partscheck.cli import main
from partscheck.notation.cell_text import one_line
from partscheck.report.batch_markdown import MarkdownSummary, markdown_piece
from partscheck.report.markdown_report import markdown_report
from partscheck.report.markdown_words import calm
from partscheck.uses.batch import checked_file
from partscheck.uses.checked_file import row_of

ROOT = Path(__file__).resolve().parent.parent
RENDERER = MarkdownIt("commonmark", {"html": True, "linkify": False}).enable(["table", "strikethrough"])
TABLE = {"table", "thead", "tbody", "tr", "th", "td"}
MEANT = TABLE | {"h1", "h2", "h3", "p", "ol", "ul", "li", "strong", "code", "hr"}
Capture = pytest.CaptureFixture[str]


class Reader(HTMLParser):
    """Tags and text of a page."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.tags: set[str] = set()
        self.text = ""

    def handle_starttag(self, tag: str, attrs: object) -> None:
        self.tags.add(tag)

    def handle_data(self, data: str) -> None:
        self.text += data


def read(markdown: str) -> Reader:
    reader = Reader()
    reader.feed(RENDERER.render(markdown))
    return reader


def report(text: str, file: str = "list.yaml", everything: bool = False) -> str:
    return markdown_report(checked_file(file, shipped_catalogue(), text.encode()), "inch", everything)


@pytest.mark.parametrize("text", TEXTS)
@pytest.mark.parametrize("around", ["{}", "word {} word", "{}{}", "1. **{}**", "- {}", "| {} | x |"])
def test_a_text_stays_the_text_that_it_is(text: str, around: str) -> None:
    page = read(around.format(*[calm(text)] * 2))
    allowed = {"p"} if "*" not in around and "-" not in around[:1] else {"ol", "ul", "li", "strong", "p"}
    assert page.tags <= allowed, page.tags
    assert text in page.text


SIGNS = [*"\\`*_{}[]()#!|~^$<>&;:@.-+=1 a\"'/", "www.", "http://", "&#35;", "&amp", "---", "```", "1. ", "    "]


@given(st.one_of(st.lists(st.sampled_from(SIGNS), max_size=14).map("".join), st.text(max_size=30)))
@pytest.mark.parametrize("before", ["x ", "- x ", "- ", "**x** ", "## ", "1. "])
def test_any_text_says_the_same_when_it_is_rendered(before: str, text: str) -> None:
    page = read(before + calm(text))
    assert page.tags <= {"p", "ul", "ol", "li", "strong", "h2"}
    assert page.text.split() == (before.strip("-#*1. ") + " " + one_line(text)).split()
    assert RENDERER.render(f"| a | b |\n|---|---|\n| {calm(text)} | end |\n").count("<td>") == 2


@pytest.mark.parametrize("text", TEXTS)
def test_a_text_fills_one_cell(text: str) -> None:
    table = f"| a | b |\n|---|---|\n| {calm(text)} | end |\n"
    assert RENDERER.render(table).count("<td>") == 2
    assert text in read(table).text


def test_our_own_words_stay_readable_where_nobody_renders_them() -> None:
    for text in ("38.1 mm (1.5 in) at 1L, 1R", "stud-above-adapter-face", "5 x 4.5 in", "hub.stud_length: 1/2-20",
                 "-600 lb (-272 kg)", "+30 mm", "10 % is good; 5 % is not", "4 ft 11 in +- 1/32 in"):  # fmt: skip
        assert calm(text) == text


@pytest.mark.parametrize("text", [hostile_list(), hostile_faults()], ids=["list", "faults"])
def test_hostile_texts_are_harmless(text: str) -> None:
    markdown = report(text, FILE, everything=True)
    page = read(markdown)
    assert page.tags <= MEANT, page.tags - MEANT
    assert "<script>alert(1)</script>" in page.text
    assert not [sign for sign in UNSEEN if sign in markdown]
    assert not re.search(r"(?<!&#58;)//evil|www\.evil|(?<![&\\\w])@\w|(?<!&)#\d", markdown)


def test_a_hostile_name_of_a_file_is_harmless_in_the_summary() -> None:
    summary = MarkdownSummary()
    for text in (hostile_list(), hostile_faults()):
        summary.add(row_of(checked_file(FILE, shipped_catalogue(), text.encode()), "inch", "stop", markdown_piece))
    markdown = summary.end()
    assert read(markdown).tags <= MEANT
    assert not [sign for sign in UNSEEN if sign in markdown]
    rows = [line for line in markdown.splitlines() if line.startswith("| a&lt;")]
    assert [row.count("|") - row.count("\\|") for row in rows] == [7, 7]


def test_the_report_has_its_sections_and_every_finding() -> None:
    text = (ROOT / "examples" / "four-line-cart.yaml").read_text(encoding="utf-8")
    page = read(report(text))
    for words in ("STOP - ", "CAUTION - ", "MEASURE - ", "Do: ", "Danger: ", "Basis: ", "How: ", "screens a list"):
        assert words in page.text
    result = checked_file("x", shipped_catalogue(), text.encode()).result
    assert result is not None
    for finding in result.findings:
        if finding.verdict != "measure":
            assert finding.message("inch") in page.text


def test_one_list_on_the_command_line(capsys: Capture) -> None:
    assert main(["check", str(ROOT / "examples" / "four-line-cart.yaml"), "--format", "markdown"]) == 1
    out, err = capsys.readouterr()
    assert out.startswith("## STOP - ")
    assert err == ""


def test_a_list_that_cannot_be_used_is_told_in_both_places(tmp_path: Path, capsys: Capture) -> None:
    file = tmp_path / "list.yaml"
    file.write_text("parts: [{kind: hubb}]\n", encoding="utf-8")
    assert main(["check", str(file), "--format", "markdown"]) == 2
    out, err = capsys.readouterr()
    assert out.startswith("## This cannot be used yet: 1 fault to mend")
    assert "line 1, column 16" in err


def test_a_field_s_meaning_is_written_as_it_is_typed() -> None:
    text = report((ROOT / "examples" / "four-line-cart.yaml").read_text(encoding="utf-8"))
    assert "**nuts.closed**: true for a nut closed" in text
