"""What ``fix --write`` keeps of a list that somebody typed: notes, comments, ids; and where it writes."""

from __future__ import annotations

import io
import sys
from pathlib import Path
from typing import Any

import pytest

import partscheck
from partscheck.cli import main
from partscheck.uses.fix import fix
from partscheck.uses.fix.edits import FIND, Article, Put
from partscheck.uses.fix.list_edits import CannotEditError, edited, edited_and_beside
from partscheck.uses.fix.write_list import written_and_beside, written_list

ROOT = Path(__file__).resolve().parents[2]
CART = str(ROOT / "examples/four-line-cart.yaml")
SOUND = str(ROOT / "examples/metric-750.yaml")
STOCK = """\
title: "invented"
edition: invented
basis: {kind: practice, source: invented}
parts:
  - {id: strong, kind: wheel, size: 15 x 6 in, bolt_circle: 5 x 4.5 in, rating: 1900 lb, price: 90.00,
     nut_seat: conical, seat_angle: 60 deg, seat_thickness: 0.35 in}
"""
WEAK = """\
service: {gross_weight: 2000 lb, tongue_weight: 200 lb}
layout: {axles: 1}
parts:
  - {id: hub, kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, rating: 2500 lb, per: each, qty: 2}
  - {id: nuts, kind: lug-nut, thread: 1/2-20, seat: conical, seat_angle: 60 deg, qty: 10}
"""
WHEEL = """\
  - id: wheel   # light ones
    kind: wheel
    size: 15 x 6 in   # stamped
    bolt_circle: 5 x 4.5 in
    rating: 850 lb
    qty: 2
    note: NOTE
"""


@pytest.fixture
def stock(tmp_path: Path) -> list[str]:
    folder = tmp_path / "stock"
    folder.mkdir()
    (folder / "stock.yaml").write_text(STOCK, encoding="utf-8")
    return [str(folder)]


def written(text: str, catalogs: Any = (), number: int = 0) -> tuple[str, list[str]]:
    found = fix(text.encode("utf-8"), plans=number + 1, catalogs=catalogs, file="list.yaml")
    return written_and_beside(text, found.plans[number])


# ---- notes ---------------------------------------------------------------------------------------


def test_a_note_is_kept_and_says_what_it_was_written_for(stock: list[str]) -> None:
    new, again = written(WEAK + WHEEL.replace("NOTE", "from the barn"), stock)
    assert '    note: "written for the part before: from the barn"\n' in new
    assert again[0] == "wheel: its note stays, marked as written for the part before"


def test_a_note_of_several_lines_is_kept_too(stock: list[str]) -> None:
    new, _ = written(WEAK + WHEEL.replace("NOTE", "|\n      from the barn,\n      one is bent"), stock)
    expected = "    note: |\n      written for the part before:\n      from the barn,\n      one is bent\n"
    assert expected in new


def test_a_note_is_marked_once(stock: list[str]) -> None:
    marked = "written for the part before: from the barn"
    new, _ = written(WEAK + WHEEL.replace("NOTE", f'"{marked}"'), stock)
    assert new.count("written for the part before") == 1


def test_what_is_to_be_found_says_so_beside_the_note() -> None:
    text = WEAK + WHEEL.replace("NOTE", "from the barn")
    plans = fix(text.encode("utf-8"), plans=3, file="list.yaml").plans
    [plan] = [one for one in plans if any(step.option.sort == FIND for step in one.steps)]
    new = written_list(text, plan)
    said = partscheck.read_list(new.encode("utf-8")).part("wheel")
    assert said is not None
    assert said.values["note"].text == (
        "to be found, the catalogue has none; written for the part before: from the barn"
    )


def test_what_has_been_found_is_not_to_be_found_any_more(stock: list[str]) -> None:
    new, _ = written(WEAK + WHEEL.replace("NOTE", '"to be found, the catalogue has none"'), stock)
    assert "note" not in new
    more = '"to be found, the catalogue has none; written for the part before: from the barn"'
    new, _ = written(WEAK + WHEEL.replace("NOTE", more), stock)
    assert 'note: "written for the part before: from the barn"' in new
    assert "to be found" not in new


# ---- comments ------------------------------------------------------------------------------------


def test_comments_beside_a_change_are_told(stock: list[str]) -> None:
    new, again = written(WEAK + WHEEL.replace("NOTE", "old"), stock)
    assert "# light ones" in new
    assert "gone with what it stood behind: # stamped" in again


def test_a_comment_behind_a_changed_value_is_told_with_its_line() -> None:
    text = 'a: 1\nlayout:\n  axles: 1   # counted\n  note: "no # comment"\nparts: []   # none\n'
    new, beside = edited_and_beside(text, [Put("layout", "axles", "2"), Put("layout", "note", "b")])
    assert "axles: 2   # counted" in new
    assert [(one.text, one.line) for one in beside] == [("# counted", 3)]


def test_a_comment_in_braces_is_told_where_it_went() -> None:
    text = "parts:\n  - {id: a, kind: hub, # mine\n     rating: 1 lb, qty: 2}\n"
    new, beside = edited_and_beside(text, [Article("a", "x", {})])
    assert new == "parts:\n  - {id: a, part: x, qty: 2}  # mine\n"
    assert [(one.text, one.line) for one in beside] == [("# mine", 2)]


# ---- ids -----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("line", "expected"),
    [("  - {kind: lug-nut, qty: 10}\n", "  - {id: lug-nut, part: x, qty: 10}\n"),
     ("  - kind: lug-nut\n    qty: 10\n", "  - id: lug-nut\n    part: x\n    qty: 10\n"),
     ("  - part: y\n    qty: 10\n", "  - id: y\n    part: x\n    qty: 10\n")],
)  # fmt: skip
def test_a_line_without_an_id_keeps_its_name(line: str, expected: str) -> None:
    """It was called by its kind or article; with another article it has to say what it is called."""
    target = "y" if "part: y" in line else "lug-nut"
    assert edited("parts:\n" + line, [Article(target, "x", {})]) == "parts:\n" + expected


def test_a_line_without_an_id_is_written_and_reads_back(stock: list[str]) -> None:
    text = WEAK + WHEEL.replace("id: wheel   # light ones\n    ", "").replace("NOTE", "old")
    new, _ = written(text, stock)
    assert "  - id: wheel\n    part: strong\n" in new


def test_a_text_over_several_lines_that_is_no_note_is_left_alone() -> None:
    text = "parts:\n  - id: a\n    note: |2\n      two\n      lines\n"
    with pytest.raises(CannotEditError, match=r"a\.note"):
        edited(text, [Put("a", "note", "written for the part before: two lines")])


# ---- any spelling of YAML ------------------------------------------------------------------------


SPELLINGS = {
    "flow": lambda text: text.replace("parts:\n  - {", "parts: [{").replace("}\n  - {", "},\n  {")
    .removesuffix("\n") + "]\n",
    "quoted keys": lambda text: text.replace("kind:", '"kind":').replace("id:", "'id':")
    .replace("parts:", '"parts":'),
    "CRLF": lambda text: text.replace("\n", "\r\n"),
    "byte order mark": lambda text: "\ufeff" + text,
    "no newline at the end": lambda text: text.removesuffix("\n"),
    "document marks": lambda text: "---\n" + text + "...\n",
    "tabs before comments": lambda text: text.replace("\n", "\t# c\n"),
}  # fmt: skip
FLOW = WEAK + "  - {id: wheel, kind: wheel, size: 15 x 6 in, bolt_circle: 5 x 4.5 in, rating: 850 lb, qty: 2}\n"


@pytest.mark.parametrize("name", SPELLINGS)
@pytest.mark.parametrize("bought", [True, False])
def test_any_spelling_is_written_and_reads_back(stock: list[str], name: str, bought: bool) -> None:
    text = SPELLINGS[name](FLOW)
    catalogs = stock if bought else []
    new, _ = written(text, catalogs)
    again = partscheck.check(new.encode("utf-8"), catalogs, "list.yaml")
    assert again.verdict != "stop"
    assert new.startswith("\ufeff") == text.startswith("\ufeff")
    assert new.count("\r\n") == (new.count("\n") if "\r\n" in text else 0)
    assert new.count("# c") == text.count("# c")
    for line in text.splitlines():
        if "wheel" not in line and "gross_weight" not in line:
            assert line.strip().removesuffix("]").removesuffix("}") in new


# ---- where it writes -----------------------------------------------------------------------------


def test_a_dash_is_standard_output(capsys: Any, monkeypatch: Any, tmp_path: Path) -> None:
    monkeypatch.chdir(tmp_path)
    status = main(["fix", CART, "--write", "-"])
    told = capsys.readouterr()
    text = Path(CART).read_text(encoding="utf-8")
    plan = fix(text.encode("utf-8"), plans=3, file=CART).plans[0]
    assert status == 0
    assert told.out == written_list(text, plan)
    assert "PLAN 1" in told.err
    assert list(tmp_path.iterdir()) == []


def test_a_dash_and_nothing_to_fix_gives_the_list_as_it_is(capsys: Any) -> None:
    assert main(["fix", SOUND, "--write", "-"]) == 0
    told = capsys.readouterr()
    assert told.out == Path(SOUND).read_text(encoding="utf-8")
    assert "nothing to change" in told.err


def test_a_dash_and_no_plan_gives_nothing(capsys: Any) -> None:
    assert main(["fix", CART, "--write", "-", "--pick", "19"]) == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert "The list was not written: there is no plan 19." in told.err


def test_from_standard_input_to_standard_output(capsys: Any, monkeypatch: Any) -> None:
    data = Path(CART).read_bytes()
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(data), encoding="utf-8"))
    assert main(["fix", "-", "--write", "-", "--plans", "1"]) == 0
    out = capsys.readouterr().out
    assert partscheck.check(out.encode("utf-8"), (), "list.yaml").verdict != "stop"


HINDERED = [
    ("", "names no file"), ("{folder}", "it is a folder"), ("{folder}/none/x.yaml", "there is no folder"),
]  # fmt: skip


@pytest.mark.parametrize(("path", "why"), HINDERED)
def test_what_cannot_be_written_is_told_before_the_search(
    capsys: Any, tmp_path: Path, path: str, why: str
) -> None:
    assert main(["fix", CART, "--write", path.format(folder=tmp_path)]) == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert why in told.err
    assert "Nothing was looked for." in told.err


def test_a_plan_picked_and_not_written_is_told(capsys: Any) -> None:
    assert main(["fix", CART, "--pick", "2"]) == 2
    assert "--write" in capsys.readouterr().err
