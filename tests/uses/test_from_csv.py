"""A parts list from a CSV of line items: tolerant headings, nothing lost, and back again."""

from __future__ import annotations

import csv
import io
from pathlib import Path
from typing import Any

import pytest
from case_files import check_text
from hypothesis import given, settings
from hypothesis import strategies as st

import partscheck
from partscheck.commands import new
from partscheck.notation.cell_text import as_typed, defused, details_pairs, details_text, one_line
from partscheck.notation.faults import Faults
from partscheck.report.bom_csv import bom_csv
from partscheck.uses.from_csv import kind_called, list_from_csv

ROOT = Path(__file__).resolve().parents[2]
# Every list of the examples; a change to a list is none.
EXAMPLES = [path for path in sorted((ROOT / "examples").glob("*.yaml")) if "\nparts:" in path.read_text("utf-8")]
CATALOG = [str(ROOT / "examples" / "catalog")]


@pytest.fixture
def read(tmp_path: Path) -> Any:
    def reading(text: str | bytes) -> tuple[Any, str, list[Any]]:
        """(the list as built, its text, the faults)"""
        path = tmp_path / "cart.csv"
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
        yaml, faults = list_from_csv(str(path))
        return partscheck.read_list(yaml.encode()), yaml, faults

    return reading


LINES = "part,kind,qty,price\nbig hub,hub,2,61.00\n,Lug nuts,10,0.95 EUR\n"


@pytest.mark.parametrize("delimiter", [",", ";", "\t", "|"])
@pytest.mark.parametrize("start", ["", "\ufeff"])
@pytest.mark.parametrize("newline", ["\n", "\r\n"])
def test_delimiters_byte_order_marks_and_line_ends(read: Any, delimiter: str, start: str, newline: str) -> None:
    build, _, faults = read((start + LINES).replace(",", delimiter).replace("\n", newline))
    assert not faults
    read_as = [(part.kind, part.id, part.qty) for part in build.parts]
    assert read_as == [("hub", "big hub", 2), ("lug-nut", "lug-nut", 10)]
    assert [(part.price.hundredths, part.price.currency) for part in build.parts] == [(6100, ""), (95, "EUR")]


def test_other_encodings(read: Any) -> None:
    text = "kind,note\nhub,Gr\u00fc\u00dfe\n"
    assert read(text.encode("utf-16"))[0].parts[0].note == "Gr\u00fc\u00dfe"
    build, _, faults = read(text.encode("cp1252"))
    assert build.parts[0].note == "Gr\u00fc\u00dfe"
    assert "UTF-8" in faults[0].expected


def test_the_line_that_names_the_delimiter(read: Any) -> None:
    assert read("sep=;\nkind;qty\nhub;2\n")[0].parts[0].qty == 2


def test_headings_that_people_use(read: Any) -> None:
    build, _, faults = read(
        "Name;Category;Quantity;Pack size;Unit price;Currency;Weight (lb);Vendor;In stock;Bolt circle\n"
        "front;Hubs;2.0;;61,50;eur;24;Tin Roof;yes;5 x 4.5 in\n"
    )
    assert not faults
    hub = build.parts[0]
    assert (hub.id, hub.kind, hub.qty, hub.seller, hub.have) == ("front", "hub", 2, "Tin Roof", True)
    assert (hub.price.hundredths, hub.price.currency) == (6150, "EUR")
    assert hub.weight.lo == pytest.approx(24 * 0.45359237)  # the pound of 1959
    assert hub.bolt_circle.count == 5


def test_nothing_is_lost_and_everything_is_told(read: Any) -> None:
    build, yaml, faults = read(
        "kind,id,qty,price,Farbe,thread\n"
        "hub,a,two,61.00,red,1/2-20\n"  # a bad count, a column of no meaning, a field a hub lacks
        "widget,b,3,1.00,,\n"
        ",,4,,,\n"
        "hub,a,1,$5.00,,,more\n"
    )
    assert [part.id for part in build.parts] == ["a", "a-2"]
    told = {(fault.mark.line, fault.mark.column) for fault in faults}
    assert told == {(1, 5), (2, 3), (2, 6), (3, 1), (4, 1), (5, 2), (5, 7)}
    assert all(fault.expected for fault in faults)
    for lost in ("two", "Farbe: red", "thread: 1/2-20", "widget,b,3,1.00", ",,4", "$5.00", "more"):
        assert lost in yaml, lost


def test_a_name_that_an_unnamed_line_would_get_is_no_clash(read: Any) -> None:
    build, _, faults = read("kind,id\nhub,\nhub,hub\nhub,hub-2\nhub,\n")
    assert not faults
    assert [part.id for part in build.parts] == ["hub-3", "hub", "hub-2", "hub-4"]


@pytest.mark.parametrize(
    "data", [b"", b"\n\n", b"a,b\n1,2\n", b"kind,qty\n", b"kind,qty\nwidget,2\n", b"kind\0,qty\n", b"\x00\x01\x02"]
)
def test_a_file_that_cannot_be_used(tmp_path: Path, data: bytes) -> None:
    path = tmp_path / "x.csv"
    path.write_bytes(data)
    with pytest.raises(Faults):
        list_from_csv(str(path))
    with pytest.raises(Faults):
        list_from_csv(str(tmp_path / "none.csv"))


@settings(max_examples=150, deadline=None)
@given(
    st.lists(st.lists(st.text(max_size=12), min_size=1, max_size=6), min_size=1, max_size=5),
    st.sampled_from(",;\t|"),
)
def test_any_cells_give_a_list_that_reads(
    tmp_path_factory: pytest.TempPathFactory, rows: list[list[str]], delimiter: str
) -> None:
    stream = io.StringIO()
    writer = csv.writer(stream, delimiter=delimiter)
    writer.writerow(["kind", "id", "qty", "note", "price", "odd"])
    writer.writerow(["hub", "", "1", "", "", ""])
    writer.writerows(rows)
    path = tmp_path_factory.mktemp("csv") / "x.csv"
    path.write_text(stream.getvalue().replace("\0", " "), encoding="utf-8", errors="replace", newline="")
    yaml, _ = list_from_csv(str(path))
    assert partscheck.read_list(yaml.encode()).parts


# ---- and back --------------------------------------------------------------------------------------


@pytest.mark.parametrize("path", EXAMPLES, ids=[path.stem for path in EXAMPLES])
def test_a_bill_read_back_gives_the_same_quantities(path: Path, tmp_path: Path) -> None:
    before = partscheck.bill_of_materials(partscheck.check(path, CATALOG))
    file = tmp_path / "bill.csv"
    file.write_text(bom_csv(before, "inch"), encoding="utf-8", newline="")
    yaml, faults = list_from_csv(str(file), CATALOG)
    assert not faults
    after = partscheck.bill_of_materials(partscheck.check(yaml.encode(), CATALOG, "back"))
    found = {line.id.replace(" + ", "+"): line for line in after.lines}
    assert list(found) == [line.id.replace(" + ", "+") for line in before.lines]
    in_joints = {id for joint in before.build.joints for id in (*joint.bolt, joint.nut)} | {"arm-washer"}
    for line in before.lines:
        again = found[line.id.replace(" + ", "+")]
        assert (again.in_hand, again.in_cart, again.pack, again.seller) == (
            line.in_hand, line.in_cart, line.pack, line.seller
        )  # fmt: skip
        assert again.cart_cost == line.cart_cost
        if line.parts[0].id not in in_joints:  # a CSV of line items holds no joints
            assert (again.need, again.order.purchases, again.cost) == (line.need, line.order.purchases, line.cost)


def test_merged_hardware_comes_back_as_one_line(tmp_path: Path) -> None:
    text = "parts:\n" + "".join(
        f"  - {{id: b{n}, kind: bolt, size: 1/2-13 x 2 in, grade: 5, qty: {n + 4}, pack: 5, price: 2.00}}\n"
        for n in (0, 1)
    )
    before = partscheck.bill_of_materials(check_text(text))
    file = tmp_path / "bill.csv"
    file.write_text(bom_csv(before, "metric"), encoding="utf-8", newline="")
    again = partscheck.bill_of_materials(partscheck.check(list_from_csv(str(file))[0].encode()))
    assert [(line.in_cart, line.order.purchases, line.cost) for line in again.lines] == [(9, 2, 400)]


# ---- text in cells ---------------------------------------------------------------------------------


@given(st.text())
def test_harmless_text_comes_back_as_it_was(text: str) -> None:
    line = one_line(text)
    assert as_typed(defused(line)) == line
    assert defused(line).lstrip()[:1] not in tuple("=+-@")


words = st.text(st.characters(exclude_categories=["C", "Z"]), min_size=1, max_size=20)


@given(st.lists(st.tuples(st.from_regex(r"[a-z_]{1,12}", fullmatch=True), words), max_size=5))
def test_details_come_back_as_they_were(pairs: list[tuple[str, str]]) -> None:
    assert details_pairs(details_text(pairs)) == pairs


@pytest.mark.parametrize(
    ("text", "kind"),
    [("Lug nuts", "lug-nut"), ("tyre", "tire"), ("grease seal", "seal"), ("BOLTS", "bolt"), ("washer", "washer"),
     ("trailer connector", "connector"), ("gizmo", None), ("", None)],
)  # fmt: skip
def test_kinds_as_people_call_them(text: str, kind: str | None) -> None:
    assert kind_called(text) == kind


def test_the_command_writes_the_list_and_tells_what_it_could_not_read(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    import argparse

    parser = argparse.ArgumentParser()
    new.add_arguments(parser)
    source, target = tmp_path / "cart.csv", tmp_path / "cart.yaml"
    source.write_text("kind,qty\nhub,2\nwidget,3\n", encoding="utf-8")
    assert new.run(parser.parse_args([str(target), "--from", str(source)])) == 0
    told = capsys.readouterr()
    assert "row 3, column 1" in told.err
    assert "widget,3" in target.read_text(encoding="utf-8")
    before = target.read_bytes()
    assert new.run(parser.parse_args([str(target), "--from", str(source)])) == 2  # never over a file that is there
    assert target.read_bytes() == before
    source.write_text("colour\nred\n", encoding="utf-8")
    assert new.run(parser.parse_args([str(tmp_path / "other.yaml"), "--from", str(source)])) == 2
    assert not (tmp_path / "other.yaml").exists()


def test_the_command_reads_standard_input_and_takes_either_name(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    import argparse
    import io
    import types

    parser = argparse.ArgumentParser()
    new.add_arguments(parser)
    typed = types.SimpleNamespace(buffer=io.BytesIO(b"kind,qty\nhub,2\nwidget,3\n"))
    monkeypatch.setattr("sys.stdin", typed)
    target = tmp_path / "cart.yaml"
    assert new.run(parser.parse_args(["--from", "-", "-o", str(target)])) == 0
    assert "kind: hub" in target.read_text(encoding="utf-8")
    assert "standard input, row 3, column 1" in capsys.readouterr().err
    assert new.run(parser.parse_args(["one.yaml", "-o", "two.yaml"])) == 2
    assert "Two names for one file" in capsys.readouterr().err
