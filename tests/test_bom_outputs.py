"""Every form of a bill of materials: as its schema says, readable by others, harmless whatever the list says."""

from __future__ import annotations

import io
import json
import re
from pathlib import Path
from typing import Any

import duckdb  # a CSV reader that shares no code with Python's own
import jsonschema
import pytest
from case_files import all_cases, check_text
from hypothesis import given, settings
from hypothesis import strategies as st

import partscheck
from partscheck.cli import main
from partscheck.commands.common import write_whole
from partscheck.report.bom_csv import COLUMNS, bom_csv
from partscheck.report.bom_json import bom_json
from partscheck.report.bom_markdown import bom_markdown
from partscheck.report.bom_text import bom_text
from partscheck.report.bom_words import beside
from partscheck.uses.bom import BillOfMaterials

ROOT = Path(__file__).resolve().parent.parent
SCHEMA = json.loads((ROOT / "schemas" / "bom.schema.json").read_text(encoding="utf-8"))
VALID = jsonschema.Draft202012Validator(SCHEMA)
# Every list of the examples; a change to a list is none.
EXAMPLES = [path for path in sorted((ROOT / "examples").glob("*.yaml")) if "\nparts:" in path.read_text("utf-8")]
CATALOG = [str(ROOT / "examples" / "catalog")]
each_example = pytest.mark.parametrize("path", EXAMPLES, ids=[path.stem for path in EXAMPLES])
NOT_WORDS = re.compile(r"\{\w*\}|\binf\b|\bnan\b|\bNone\b|<\w+ |: ,| ,|\bat at\b")

HOSTILE = [
    "=cmd|' /C calc'!A0",
    "+1+1",
    "-2+3",
    "@SUM(1)",
    "  =1+1",
    "ok;=1+1",
    "<script>alert(1)</script>",
    "<img src=x onerror=alert(1)>",
    "a|b `c` *d* _e_ [f](javascript:g) ~~h~~ # i",
    "two\nlines\r\nthree\ttabs",
    'quotes " and \' and ,',
    "turned \u202e around \u2066 and \u200f",
    "\x1b[31mred\x07",
    "&lt;b&gt; &#64; http://example.org www.example.org",
]


def bill_of(text: str) -> BillOfMaterials:
    return partscheck.bill_of_materials(check_text(text))


def bill_named(name: str) -> BillOfMaterials:
    text = json.dumps(name)
    return bill_of(
        f"build: {text}\nparts:\n"
        f"  - {{kind: other, what: {text}, seller: {text}, note: {text}, price: 3.00, qty: 2}}\n"
        "  - {kind: hub, bolt_circle: 5 x 4.5 in, qty: 2}\n"
        f"  - {{kind: wheel, bolt_circle: 5 x 115 mm, seller: {text}, qty: 2}}\n"
    )


def read_by_another(text: str, tmp_path: Path) -> tuple[list[str], list[tuple[Any, ...]]]:
    """(headings, rows) as that reader takes them with its own guesses of delimiter, quotes and types."""
    path = tmp_path / "bill.csv"
    path.write_bytes(text.encode("utf-8"))
    found = duckdb.sql(f"SELECT * FROM read_csv('{path}', header = true)")
    return found.columns, found.fetchall()


# ---- CSV -------------------------------------------------------------------------------------------


@each_example
def test_another_reader_finds_the_columns_and_numbers(path: Path, tmp_path: Path) -> None:
    bill = partscheck.bill_of_materials(partscheck.check(path, CATALOG))
    columns, rows = read_by_another(bom_csv(bill, "inch"), tmp_path)
    assert columns == list(COLUMNS)
    assert len(rows) == len(bill.lines) + len(bill.missing) + len(bill.consumables)
    table = [dict(zip(columns, row, strict=True)) for row in rows]
    ours = [line for _, lines in bill.groups() for line in lines]
    for row, line in zip(table, ours, strict=False):
        assert row["id"] == line.id.replace(" + ", "+")
        assert row["needed_pieces"] == line.need
        assert row["to_order_pieces"] == line.order.pieces
        assert row["kind"] == line.kind
    priced = [row["cost"] for row in table if row["cost"] is not None]
    if any(line.price is not None for line in ours):
        assert sum(round(100 * float(cost)) for cost in priced) == sum(line.cost or 0 for line in ours)


@pytest.mark.parametrize("name", HOSTILE, ids=range(len(HOSTILE)))
def test_no_cell_starts_a_formula(name: str, tmp_path: Path) -> None:
    text = bom_csv(bill_named(name), "metric")
    columns, rows = read_by_another(text, tmp_path)
    assert columns == list(COLUMNS)
    assert len({len(row) for row in rows}) == 1
    for row in rows:
        for cell in row:
            if isinstance(cell, str):
                assert not re.match(r"[\s]*[=+\-@]", cell), cell
                assert not re.search(r";\s*[=+\-@]", cell), cell
                assert cell == "".join(c for c in cell if c.isprintable())


def test_lines_end_as_the_standard_says() -> None:
    text = bom_csv(bill_named("a\nb"), "metric")
    assert text.endswith("\r\n")
    assert text.count("\n") == text.count("\r\n")  # RFC 4180, 2.1; no other line end stands in a cell


# ---- JSON ------------------------------------------------------------------------------------------


def test_the_schema_is_one() -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


@each_example
@pytest.mark.parametrize("by", ["assembly", "seller"])
def test_json_is_as_its_schema_says(path: Path, by: str) -> None:
    bill = partscheck.bill_of_materials(partscheck.check(path, CATALOG))
    assert not [error.message[:200] for error in VALID.iter_errors(json.loads(bom_json(bill, "metric", by)))]


@pytest.mark.parametrize("name", HOSTILE, ids=range(len(HOSTILE)))
def test_json_keeps_every_name_and_shows_none_of_its_tricks(name: str) -> None:
    text = bom_json(bill_named(name), "metric")
    data = json.loads(text)
    assert not list(VALID.iter_errors(data))
    assert data["build"] == name.strip()
    assert all(c.isprintable() or c == "\n" for c in text)


# ---- Markdown --------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", HOSTILE, ids=range(len(HOSTILE)))
def test_markdown_keeps_its_table_and_no_tag(name: str) -> None:
    text = bom_markdown(bill_named(name), "metric", "seller")
    widths = {}
    for block in re.split(r"\n\n+", text):
        rows = [line for line in block.splitlines() if line.startswith("|")]
        widths = {len(re.findall(r"(?<!\\)\|", row)) for row in rows}
        assert len(widths) <= 1, rows
    assert "<script" not in text
    assert "<img" not in text
    assert not re.search(r"(?<!\\)\]\(", text)
    assert all(c.isprintable() or c == "\n" for c in text)
    assert "://" not in text


# ---- text ------------------------------------------------------------------------------------------


@each_example
@pytest.mark.parametrize("columns", [80, 120])
@pytest.mark.parametrize("by", ["assembly", "seller"])
def test_text_keeps_to_its_width(path: Path, columns: int, by: str) -> None:
    bill = partscheck.bill_of_materials(partscheck.check(path, CATALOG))
    for leading in ("inch", "metric"):
        lines = bom_text(bill, leading, columns, by).splitlines()
        assert not [line for line in lines if len(line) > min(columns, 100)]
        assert not [line for line in lines if NOT_WORDS.search(line)]


@pytest.mark.parametrize("name", HOSTILE, ids=range(len(HOSTILE)))
def test_text_steers_no_terminal(name: str) -> None:
    text = bom_text(bill_named(name), "metric", 80, "seller")
    assert all(c.isprintable() or c == "\n" for c in text)


def test_currencies_stand_apart() -> None:
    bill = bill_of(
        "parts:\n  - {id: a, kind: other, what: mat, qty: 2, price: 3.00}\n"
        "  - {id: b, kind: other, what: rug, qty: 1, price: 4.00 EUR}\n"
        "  - {id: c, kind: other, what: cup, qty: 1, price: 5.00 USD}\n"
    )
    text = bom_text(bill, "metric")
    assert "together, EUR" in text
    assert "together, no currency typed" in text
    assert "12.00" not in text
    assert "not added" in text


# ---- every small list ------------------------------------------------------------------------------


def test_every_case_gives_every_form() -> None:
    for name, *_, case in all_cases()[::7]:
        try:
            bill = bill_of(case["list"])
        except partscheck.Faults:
            continue
        text = bom_text(bill, "inch", 80)
        assert not [line for line in text.splitlines() if NOT_WORDS.search(line)], name
        assert not list(VALID.iter_errors(json.loads(bom_json(bill, "inch")))), name
        assert bom_csv(bill, "inch").count("\r\n") > 0
        assert bom_markdown(bill, "inch")


# ---- the command -----------------------------------------------------------------------------------


def run(*words: str) -> int:
    return main(["bom", *words])


def test_the_command_writes_whole_files_and_says_what_cannot_be_used(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    first = str(EXAMPLES[[path.stem for path in EXAMPLES].index("apiary-first")])
    target = tmp_path / "bill.csv"
    # Stops are no failure of a bill of materials.
    assert run(first, "--catalog", CATALOG[0], "--format", "csv", "-o", str(target)) == 0
    assert target.read_bytes().count(b"\r\n") > 20
    assert run(first, "--catalog", CATALOG[0], "-o", str(tmp_path / "none" / "bill.txt")) == 2
    broken = tmp_path / "broken.yaml"
    broken.write_text("parts: [{kind: hubb}]\n", encoding="utf-8")
    before = target.read_bytes()
    capsys.readouterr()
    assert run(str(broken), "--format", "csv", "-o", str(target)) == 2
    assert target.read_bytes() == before
    told = capsys.readouterr()
    assert "hubb" in told.err
    assert told.out == ""
    assert [path.name for path in tmp_path.iterdir() if path.name.startswith(".partscheck")] == []


@settings(max_examples=60, deadline=None)
@given(st.text(max_size=30))
def test_no_seller_breaks_any_form(name: str) -> None:
    text = json.dumps(name or "x")
    try:
        bill = bill_of(f"parts:\n  - {{kind: other, what: {text}, seller: {text}, qty: 1, price: 1.00}}\n")
    except partscheck.Faults:
        return  # the reader refuses some characters
    assert bom_text(bill, "metric", 80, "seller")
    assert json.loads(bom_json(bill, "metric", "seller"))
    assert bom_markdown(bill, "metric", "seller")
    rows = io.StringIO(bom_csv(bill, "metric", "seller"), newline="").read().split("\r\n")
    assert len(rows) == 3


def test_where_a_finding_is_told_is_said_once_for_each_rule() -> None:
    bill = partscheck.bill_of_materials(
        partscheck.check(ROOT / "examples/apiary-first.yaml", [ROOT / "examples/catalog"])
    )
    line = next(one for one in bill.lines if one.id == "plate-lamp")
    assert [one.finding.rule.slug for one in line.warned].count("lamps-required") == 2
    assert [one.finding.rule.slug for one in beside(line)].count("lamps-required") == 1
    assert {one.finding.rule.slug for one in beside(line)} == {one.finding.rule.slug for one in line.warned}
    home = next(one for one in bill.lines if one.id == "tail-lamps")  # in full, each of them
    assert len([one for one in beside(home) if one.here]) == len([one for one in home.warned if one.here])


def test_a_read_only_file_is_left_alone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    target = tmp_path / "bill.txt"
    target.write_text("mine", encoding="utf-8")
    monkeypatch.setattr("os.access", lambda path, mode: False)  # as for anyone but root after chmod 444
    with pytest.raises(PermissionError):
        write_whole(str(target), "theirs")
    assert target.read_text(encoding="utf-8") == "mine"
    assert [one.name for one in tmp_path.iterdir()] == ["bill.txt"]


def test_a_measurement_beside_a_line_says_what_it_is_for(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["bom", str(ROOT / "examples" / "four-line-cart.yaml")]) == 0
    words = " ".join(capsys.readouterr().out.split())
    assert "Measure nuts.closed first, to tell whether this holds: No stud reaches" in words
