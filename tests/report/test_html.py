"""The HTML report, read by a parser that shares no code with what wrote it."""

from __future__ import annotations

import io
import json
import re
from contextlib import redirect_stderr, redirect_stdout
from functools import cache
from itertools import pairwise
from pathlib import Path
from typing import Any
from xml.etree import ElementTree
from xml.etree.ElementTree import Element

import pytest
from case_files import check_text
from hypothesis import given
from hypothesis import strategies as st
from tinyhtml5.parser import HTMLParser
from wcag import TEXT, contrast

import partscheck
from partscheck.cli import main
from partscheck.report.drawing import drawings
from partscheck.report.html.markup import Markup, tag, text
from partscheck.report.html.page import POLICY
from partscheck.report.html.style import COLOURS, STYLE
from partscheck.rules.basis import practice
from partscheck.rules.check import Check
from partscheck.rules.findings import MEASURE, STOP, Finding
from partscheck.rules.registry import Rule

ROOT = Path(__file__).resolve().parents[2]
CATALOG = [str(ROOT / "examples" / "catalog")]
NAMES = ["apiary-first", "apiary-corrected", "tandem-arms", "metric-750", "four-line-cart"]
each_example = pytest.mark.parametrize("name", NAMES)
NOT_WORDS = re.compile(r"\{\w*\}|\binf\b|\bnan\b|\bNone\b|<partscheck|object at 0x")
SVG = "{http://www.w3.org/2000/svg}"

HOSTILE = [
    "<script>alert(1)</script>",
    "</style><script>alert(1)</script>",
    "--><img src=x onerror=alert(1)>",
    'quotes " and \' and ` and =',
    "\" onmouseover=\"alert(1)",
    "=cmd|' /C calc'!A0",
    "&lt;b&gt; &#60;i&#62; &amp;amp;",
    "turned \u202e around \u2066 and \u200f",
    "\u05e9\u05dc\u05d5\u05dd 12 \u0633\u0644\u0627\u0645",
    "\x1b[31mred\x07 two\nlines\ttabs",
    "{message} {0} %s $ink",
    "x" * 300,
]
# What no eye sees: it steers the screen, or turns the direction of writing.
UNSEEN = re.compile("[\x00-\x09\x0b-\x1f\x7f-\x9f\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff]")


@cache
def result_of(name: str) -> Any:
    return partscheck.check(str(ROOT / "examples" / f"{name}.yaml"), CATALOG)


@cache
def page_of(name: str, leading: str = "") -> str:
    return str(partscheck.html_report(result_of(name), leading))


@cache
def tree_of(name: str) -> Element:
    return parsed(page_of(name))


def parsed(page: str) -> Element:
    """The document; every fault in its grammar fails."""
    parser = HTMLParser(namespace_html_elements=False)
    document: Element = parser.parse(page)
    assert parser.errors == []
    return document


def words(element: Element) -> str:
    """What an eye reads in it."""
    return " ".join("".join(element.itertext()).split())


def by_id(document: Element) -> dict[str, Element]:
    return {element.get("id", ""): element for element in document.iter() if element.get("id")}


def elements(document: Element, *names: str) -> list[Element]:
    return [one for one in document.iter() if one.tag in names]


def links(element: Element) -> list[str]:
    return [one.get("href", "") for one in element.iter("a")]


def squeezed(sentence: str) -> str:
    return " ".join(sentence.split())


# ---- structure -------------------------------------------------------------------------------------


@each_example
def test_the_document_is_sound(name: str) -> None:
    document, page = tree_of(name), page_of(name)
    assert page.startswith("<!DOCTYPE html>\n")
    assert document.get("lang") == "en"
    assert len(elements(document, "title")) == 1
    assert words(elements(document, "title")[0])
    for landmark in ("header", "nav", "main", "footer"):
        assert len(document.findall(f"body/{landmark}")) == 1
    head = document.find("head")
    assert head is not None
    assert head[0].get("charset") == "utf-8"
    viewport = next(one for one in head if one.get("name") == "viewport")
    assert "width=device-width" in viewport.get("content", "")
    assert "user-scalable" not in viewport.get("content", "")


@each_example
def test_headings_go_down_one_step_at_a_time(name: str) -> None:
    levels = [int(one.tag[1]) for one in elements(tree_of(name), "h1", "h2", "h3", "h4", "h5", "h6")]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(after - before <= 1 for before, after in pairwise(levels))
    assert all(words(one) for one in elements(tree_of(name), "h1", "h2", "h3"))


@each_example
def test_every_link_leads_somewhere_on_the_page(name: str) -> None:
    document = tree_of(name)
    ids = [element.get("id") for element in document.iter() if element.get("id")]
    assert len(ids) == len(set(ids)), "an id stands twice"
    for element in document.iter():
        for key in ("href", "aria-labelledby", "for"):
            for target in (element.get(key) or "").split():
                assert target.removeprefix("#") in ids, f"{key}={target} leads nowhere"
    assert all(href.startswith("#") for href in links(document))


@each_example
def test_nothing_is_fetched_and_nothing_runs(name: str) -> None:
    document, page = tree_of(name), page_of(name)
    assert not elements(document, "script", "link", "iframe", "object", "embed", "base", "form", "img")
    policy = [one.get("content") for one in elements(document, "meta")
              if one.get("http-equiv") == "Content-Security-Policy"]  # fmt: skip
    assert policy == [POLICY]
    assert POLICY.split("; ")[:2] == ["default-src 'none'", "style-src 'unsafe-inline'"]
    for element in document.iter():
        assert not [key for key in element.keys() if key.lower().startswith("on")]  # noqa: SIM118
        assert element.get("src") is None
        assert element.get("style") is None
    for target in re.findall(r"url\(([^)]*)\)", page):
        assert target.strip("'\"").startswith("#")
    assert "@import" not in page
    assert set(re.findall(r"https?://[^\s\"'<>]+", page)) <= {"http://www.w3.org/2000/svg"}


@each_example
def test_tables_can_be_heard(name: str) -> None:
    for table in elements(tree_of(name), "table"):
        caption = table.find("caption")
        assert caption is not None
        assert words(caption)
        assert all(one.get("scope") for one in elements(table, "th"))
        heads = [words(one) for one in elements(table, "th") if one.get("scope") == "col"]
        for row in elements(table, "tbody"):
            for line in row.findall("tr"):
                cells = line.findall("td")
                if cells:
                    assert [one.get("data-label") for one in cells] == heads[1:]
                    assert line[0].get("scope") == "row"
                    assert words(line[0])


@each_example
def test_words_are_filled_in(name: str) -> None:
    body = tree_of(name).find("body")
    assert body is not None
    for element in elements(body, f"{SVG}style", "style"):
        element.text = ""
    assert not NOT_WORDS.findall(words(body))


# ---- nothing is left out -------------------------------------------------------------------------------


@each_example
@pytest.mark.parametrize("leading", ["inch", "metric"])
def test_every_finding_is_told_in_full(name: str, leading: str) -> None:
    result, document = result_of(name), parsed(page_of(name, leading))
    ids = by_id(document)
    lines = {f"#{id}": words(one) for id, one in ids.items() if id.startswith("basis-") and id != "basis-title"}
    told = 0
    for finding in result.findings:
        if finding.verdict == MEASURE and finding.missing:
            continue
        message = squeezed(finding.message(leading))
        articles = [one for one in elements(document, "article") if message in words(one)]
        articles = [one for one in articles if finding.rule.slug.replace("-", " ") in words(one)]
        assert articles, f"{finding.rule.slug} is not on the page"
        says = [words(one) for one in articles]
        assert any(
            squeezed(finding.why(leading)) in one
            and squeezed(finding.check.hazard) in one
            and all(squeezed(do[1:]) in one for _, do in finding.remedies(leading))
            and (finding.accepted or "") in one
            and all(place in one for place in finding.at)
            and (finding.mark is None or f"line {finding.mark.line}" in one)
            for one in says
        )
        for basis in finding.basis:
            assert any(lines.get(href) == str(basis) for one in articles for href in links(one))
        told += 1
    assert told == sum(1 for one in result.findings if not (one.verdict == MEASURE and one.missing))


@each_example
def test_every_measurement_is_there_with_a_line_to_write_on(name: str) -> None:
    result, document = result_of(name), tree_of(name)
    articles = [one for one in elements(document, "article") if one.get("class") == "finding measure"]
    to_take = partscheck.measurements(result)
    for one, article in zip(to_take, articles, strict=False):
        says = words(article)
        assert one.name in says
        assert squeezed(one.how) in says
        assert all(slug in says for slug in one.slugs)
        assert "Measured:" in says
    assert len(articles) >= len(to_take)


@each_example
def test_notes_and_what_was_told_are_there(name: str) -> None:
    result, says = result_of(name), words(tree_of(name))
    leading = result.build.leading()
    for finding in result.notes:
        assert squeezed(finding.message(leading)) in says
    for folded in result.folded:
        assert folded.rule.slug in says
    assert "partscheck screens a list; it approves nothing" in says
    assert "Local codes" in says
    assert "licensed" in says


@each_example
def test_loads_bill_and_bench_sheet_are_there(name: str) -> None:
    result, document = result_of(name), tree_of(name)
    ids = by_id(document)
    says = words(document)
    paths = partscheck.load_path(result)
    assert ("load-path" in ids) == bool(paths)
    for row in paths:
        assert row.label in words(ids["load-path"])
    for case in partscheck.balance(result):
        if case.source == "loads":
            assert case.case in words(ids["load-cases"])
            assert all(load.what in words(ids["load-cases"]) for load in case.loads)
    bill = partscheck.bill_of_materials(result)
    heads = [words(one) for one in elements(ids["bill"], "th") if one.get("scope") == "row"]
    for line in bill.lines:
        assert any(head.startswith(line.id) for head in heads)
    for step in partscheck.bench_sheet(result).steps():
        assert squeezed(step.do.text(result.build.leading()))[1:] in says
        assert step.number in says
    boxes = elements(ids["bench"], "input")
    assert all(one.get("type") == "checkbox" for one in boxes)
    assert len(boxes) >= len(list(partscheck.bench_sheet(result).steps()))


def test_a_warned_line_of_the_bill_links_to_its_finding() -> None:
    ids = by_id(tree_of("apiary-first"))
    rows = [one for one in elements(ids["bill"], "tr") if words(one).startswith("wheel-nuts")]
    targets = [ids[href[1:]] for href in links(rows[0])]
    assert any("lug thread mismatch" in words(one) for one in targets)
    assert any("lug count" in words(one) for one in targets)


@each_example
def test_drawings_have_words_and_ways_back(name: str) -> None:
    result, document = result_of(name), tree_of(name)
    ids = by_id(document)
    made = drawings(result, result.build.leading())
    assert len(elements(document, "figure")) == len(made)
    for figure in elements(document, "figure"):
        image = figure.find(f"{SVG}svg")
        assert image is not None
        assert image.get("role") == "img"
        named = [words(ids[id]) for id in (image.get("aria-labelledby") or "").split()]
        assert named
        assert all(len(one) > 3 for one in named)
    for article in elements(document, "article"):
        for href in links(article):
            if href.startswith("#drawing-"):
                assert f"#{article.get('id')}" in links(ids[href[1:]]), f"no way back from {href}"


def test_a_stop_leads_to_the_drawing_of_its_parts() -> None:
    """The studs that stand proud, in the cart of four lines: hub and plate are what its drawing shows."""
    result = result_of("four-line-cart")
    document = tree_of("four-line-cart")
    article = next(one for one in elements(document, "article") if "stud above adapter face" in words(one))
    numbers = [int(href.rpartition("-")[2]) for href in links(article) if href.startswith("#drawing-")]
    assert numbers
    for number in numbers:
        assert {"hub", "plate"} <= set(drawings(result)[number - 1].parts)


# ---- what the user typed stays text -----------------------------------------------------------------------


def named_list(name: str) -> str:
    typed = json.dumps(name)
    return (
        f"build: {typed}\n"
        "service: {gross_weight: 1800 lb}\n"
        "parts:\n"
        f"  - {{kind: other, what: {typed}, seller: {typed}, note: {typed}, price: 3.00, qty: 2}}\n"
        "  - {kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, stud_length: 1.75 in, qty: 2}\n"
        f"  - {{kind: wheel, bolt_circle: 5 x 115 mm, rating: 500 lb, seller: {typed}, qty: 2}}\n"
        f"  - {{kind: adapter, hub_circle: 5 x 4.5 in, wheel_circle: 5 x 115 mm, thickness: 1.5 in, make: true,"
        f" mounts_on: hub, seller: {typed}, qty: 2}}\n"
        f"loads:\n  - {{what: {typed}, weight: 900 lb, from_coupler: 100 in}}\n"
        f"practice: {{stud_below_flush: {{value: 2 mm, reason: {typed}}}}}\n"
    )


def shape(document: Element) -> list[str]:
    """The elements in their order; the isolation of right-to-left words, and how text breaks into lines, apart."""
    return [str(one.tag) for one in document.iter() if one.tag not in ("bdi", f"{SVG}text", f"{SVG}tspan")]


@pytest.mark.parametrize("name", HOSTILE)
def test_a_hostile_name_changes_no_element(name: str) -> None:
    page = partscheck.html_report(check_text(named_list(name)))
    plain = partscheck.html_report(check_text(named_list("a plain name")))
    outside = re.compile(r"<svg.*?</svg>", re.S)  # a name may need more room, and other shapes, in a drawing
    assert shape(parsed(outside.sub("", page))) == shape(parsed(outside.sub("", plain)))
    document = parsed(page)
    assert not elements(document, "script", "img", f"{SVG}script", f"{SVG}image", f"{SVG}foreignObject")
    assert not UNSEEN.findall(page)
    readable = squeezed(re.sub(UNSEEN, lambda found: " " if found[0] in "\n\t" else "", name.replace("\n", " ")))
    if "\x1b" not in name:
        assert readable.partition(" ")[0][:40] in words(document)


def test_right_to_left_words_stand_isolated() -> None:
    document = parsed(f"<!DOCTYPE html><title>x</title><p>{text(HOSTILE[8])}</p>")
    assert [words(one) for one in elements(document, "bdi")] == [HOSTILE[8][:4], HOSTILE[8][-4:]]


@given(st.text(max_size=60))
def test_any_text_stays_text(words_typed: str) -> None:
    document = parsed(f"<!DOCTYPE html><title>x</title>{tag('p', words_typed, title=words_typed)}")
    assert {one.tag for one in document.iter()} <= {"html", "head", "title", "body", "p", "bdi"}
    paragraph = elements(document, "p")[0]
    assert not UNSEEN.findall(words(paragraph) + (paragraph.get("title") or ""))
    assert list(paragraph.keys()) == ["title"]


def test_markup_is_not_escaped_twice() -> None:
    assert tag("b", Markup("<i>1 &lt; 2</i>")) == "<b><i>1 &lt; 2</i></b>"


# ---- odd lists ---------------------------------------------------------------------------------------------


def test_a_list_of_nothing_to_check() -> None:
    document = parsed(partscheck.html_report(check_text("parts:\n  - {kind: other, what: string}\n")))
    assert "NOTHING CHECKED" in words(document)
    assert "partscheck new" in words(document)


def test_a_rule_that_failed_itself_is_told() -> None:
    result = check_text("parts:\n  - {kind: hub, bolt_circle: 5 x 4.5 in}\n")
    rule = Rule("broken-rule", object, (), (practice("x"),), lambda binding: None, "cart")
    crashed = Finding(rule, MEASURE, Check(None), (), ())
    crashed.error = "ZeroDivisionError: <b>"
    result.crashed.append(crashed)
    says = words(parsed(partscheck.html_report(result)))
    assert "Rules that failed themselves" in says
    assert "ZeroDivisionError: <b>" in says


def test_the_same_list_gives_the_same_page() -> None:
    result = partscheck.check(str(ROOT / "examples" / "four-line-cart.yaml"))
    assert partscheck.html_report(result) == partscheck.html_report(result) == page_of("four-line-cart")


def test_units_lead_as_asked() -> None:
    inch, metric = page_of("four-line-cart", "inch"), page_of("four-line-cart", "metric")
    assert "1.50 in (38.1 mm)" in inch
    assert "38.1 mm (1.50 in)" in metric


# ---- the look -------------------------------------------------------------------------------------------------


def test_the_contrast_formula_gives_the_published_figures() -> None:
    """WCAG 2.2: black on white is 21:1, a colour on itself 1:1; #767676 is the lightest grey that passes."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert contrast("#123456", "#123456") == pytest.approx(1.0)
    assert contrast("#767676", "#fff") >= TEXT > contrast("#777777", "#ffffff")


@pytest.mark.parametrize(
    ("front", "back"),
    [("ink", "paper"), ("quiet", "paper"), ("accent", "paper"), ("paper", "accent"), ("ink", "wash"),
     ("quiet", "wash"), ("accent", "wash")],
)  # fmt: skip
def test_colours_can_be_read(front: str, back: str) -> None:
    assert contrast(COLOURS[front], COLOURS[back]) >= TEXT


def test_the_style_uses_no_other_colour() -> None:
    assert set(re.findall(r"#[0-9a-fA-F]{3,6}\b", STYLE)) <= set(COLOURS.values())
    assert "rgb(" not in STYLE


def test_the_print_keeps_heads_with_their_words_and_drawings_whole() -> None:
    sheet = STYLE.partition("@media print")[2]
    for rule in (r"\nh3\{[^}]*break-after:avoid", r"figure\{[^}]*break-inside:avoid", r"@page\{",
                 r"\.finding\{[^}]*orphans:2;widows:2"):  # fmt: skip
        assert re.search(rule, sheet)
    assert "nav,footer{display:none}" in sheet


def test_what_is_closed_says_so_on_paper() -> None:
    ids = by_id(tree_of("apiary-corrected"))
    assert len(elements(tree_of("apiary-corrected"), "details")) == 2
    for id, command in (("bill", "partscheck bom"), ("bench", "partscheck shop")):
        section = ids[id]
        assert section[0].tag == "details"
        assert section[0].get("open") is None
        assert section[1].get("class") == "closed"
        assert command in words(section[1])
    assert ".closed{display:none}" in STYLE
    assert "details:not([open])+.closed{display:block}" in STYLE


@each_example
def test_a_drawing_tells_the_scale_that_it_is_printed_at(name: str) -> None:
    """What the caption says, worked out again from the width that the print style gives the drawing."""
    style = re.search(r"figure svg\{[^}]*?width:(\d+)mm", STYLE.partition("@media print")[2])
    assert style is not None
    for figure in elements(tree_of(name), "figure"):
        image = figure.find(f"{SVG}svg")
        assert image is not None
        says = words(figure.find("figcaption") or figure)
        if image.get("data-scale") is None:
            assert "Scale" not in says
            continue
        told = re.match(r".*Scale (\d*\.?\d+):(\d*\.?\d+) when printed (\d+) mm wide\.", says)
        assert told is not None, says
        assert told[3] == style[1]
        wide = float((image.get("viewBox") or "").split()[2])
        printed = float(image.get("data-scale") or 0) * float(style[1]) / wide
        assert float(told[1]) / float(told[2]) == pytest.approx(printed, rel=0.006)


def test_a_drawing_on_the_page_says_nothing_twice() -> None:
    """The heading, the findings and the tongue weights by case stand beside it; what is drawn is the same."""
    def drawn(svg: str) -> list[dict[str, str]]:
        return [one.attrib for one in ElementTree.fromstring(svg).iter() if one.get("data-part")]

    for one in drawings(result_of("apiary-first")):
        whole, short = one.svg(), one.svg(whole=False)
        assert drawn(whole) == drawn(short)
        assert f">{one.title}</text>" in whole
        assert f">{one.title}</text>" not in short
        high = [float(re.search(r'viewBox="0 0 120 ([\d.]+)"', svg)[1]) for svg in (whole, short)]  # type: ignore[index]
        assert high[1] < high[0]


# ---- the command ------------------------------------------------------------------------------------------------


def run(*arguments: str) -> tuple[int, str, str]:
    out, err = io.StringIO(newline=""), io.StringIO()
    with redirect_stdout(out), redirect_stderr(err):
        status = main(["report", *arguments])
    return status, out.getvalue(), err.getvalue()


def test_the_command_writes_the_page(tmp_path: Path) -> None:
    target = tmp_path / "report.html"
    status, out, err = run(str(ROOT / "examples" / "four-line-cart.yaml"), "-o", str(target))
    assert (status, out) == (1, "")
    assert "report.html" in err
    assert target.read_text(encoding="utf-8") == page_of("four-line-cart")


def test_the_command_prints_where_no_file_is_named() -> None:
    status, out, _ = run(str(ROOT / "examples" / "metric-750.yaml"), "--units", "inch")
    assert status == 0
    assert out == page_of("metric-750", "inch")


def test_faults_leave_the_file_as_it_was(tmp_path: Path) -> None:
    wrong, target = tmp_path / "wrong.yaml", tmp_path / "report.html"
    wrong.write_text("parts:\n  - {kind: hub, stud_length: 12}\n", encoding="utf-8")
    target.write_text("kept", encoding="utf-8")
    status, out, err = run(str(wrong), "-o", str(target))
    assert (status, out) == (2, "")
    assert "line 2" in err
    assert target.read_text(encoding="utf-8") == "kept"


def test_the_worst_verdict_stands_at_the_top() -> None:
    first = elements(tree_of("apiary-first"), "h1")[0]
    assert words(first).startswith("STOP")
    assert first.get("class") == STOP
    assert words(elements(tree_of("apiary-corrected"), "h1")[0]).startswith("ALL HELD")


def test_a_value_is_written_as_it_is_typed() -> None:
    page = page_of("four-line-cart")
    assert "true for a nut closed at its outer end" in page
    assert "True for" not in page
