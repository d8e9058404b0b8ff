"""``catalog check``: every fault with its place, what replaces what, what is twice, and the sums."""

from __future__ import annotations

import builtins
import json
import os
import sys
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from partscheck.catalogue import Catalogue, schema_check
from partscheck.catalogue.folder_check import check_folders
from partscheck.catalogue.layers import read_layers
from partscheck.cli import main
from partscheck.notation.faults import Faults

YAML = """\
title: Mine
parts:
  - {id: plate-a, kind: adapter, thickness: 1.5 in, rating: 2000 lb, price: 50, seller: one}
  - {id: plate-b, kind: adapter, thickness: 38.1 mm, rating: 907.18474 kg, price: 55, seller: two}
  - {id: hub-a, kind: hub}
  - {id: hub-b, kind: hub}
  - {id: cone-nut-1/2-20, kind: lug-nut, thread: 1/2-20, seat: ball}
"""
ROWS = "id,kind,thickness,rating\nplate-c,adapter,1-1/2 in,2000 lb\nplate-d,adapter,1.5 in,2001 lb\n"
TABLE = """\
table: practice
rows:
  - {key: stud_below_flush, value: 2 mm, dimension: length, reason: shop habit}
"""

SCHEMA = json.loads(
    (Path(__file__).resolve().parents[2] / "schemas" / "catalog.schema.json").read_text(encoding="utf-8")
)
Capture = pytest.CaptureFixture[str]


@pytest.fixture
def sound(tmp_path: Path) -> Path:
    folder = tmp_path / "mine"
    folder.mkdir()
    (folder / "parts.yaml").write_text(YAML, encoding="utf-8")
    (folder / "rows.csv").write_text(ROWS, encoding="utf-8")
    (folder / "limits.yaml").write_text(TABLE, encoding="utf-8")
    return folder


def run(capsys: Capture, *arguments: str) -> tuple[int, str, str]:
    status = main(["catalog", "check", *arguments])
    out, err = capsys.readouterr()
    assert "Traceback" not in out + err
    return status, out, err


def test_the_sums_count_the_folders_alone(sound: Path) -> None:
    report = check_folders([sound])
    assert report.kinds == {"adapter": 4, "hub": 2, "lug-nut": 1}
    assert report.tables == {"practice": 1}
    assert [Path(file).name for file in report.files] == ["limits.yaml", "parts.yaml", "rows.csv"]


def test_the_same_values_under_two_ids_however_typed(sound: Path) -> None:
    """1.5 in and 38.1 mm, 2000 lb and 907.18474 kg are one; two hubs of which nothing is said are not alike."""
    pairs = {(one.kind, one.first, one.second) for one in check_folders([sound]).alike}
    assert pairs == {("adapter", "plate-a", "plate-b"), ("adapter", "plate-a", "plate-c")}


def test_what_replaces_what_and_what_differs(sound: Path, tmp_path: Path) -> None:
    over = tmp_path / "over"
    over.mkdir()
    (over / "a.jsonl").write_text('{"id": "plate-c", "kind": "adapter", "thickness": "40 mm"}\n', encoding="utf-8")
    found = {one.id: one for one in check_folders([sound, over]).replaced}
    nut = found["cone-nut-1/2-20"]
    assert (nut.below, nut.above) == ("shipped", str(sound))
    assert ("seat", "conical", "ball") in nut.differs
    plate = found["plate-c"]
    assert (plate.below, plate.above) == (str(sound), str(over))
    assert plate.differs == [("thickness", "1-1/2 in", "40 mm"), ("rating", "2000 lb", "")]
    limit = found["practice/stud_below_flush"]
    assert (limit.below, limit.above, limit.above_at) == ("shipped", str(sound), (str(sound / "limits.yaml"), 3))
    assert ("value", "1 mm", "2 mm") in limit.differs
    assert not any(one.conflict for one in found.values())


def test_every_fault_of_every_file_in_one_run(sound: Path, capsys: Capture) -> None:
    (sound / "parts.yaml").write_text(
        "parts:\n  - {id: a, kind: hub, pilot: 3}\n  - {id: b, kind: hubb}\n"
        "  - {id: c, kind: hub, rating: 3 in}\n",
        encoding="utf-8",
    )
    (sound / "rows.csv").write_text("id,kind,pilot\nd,hub,\ne,hub,3\n", encoding="utf-8")
    (sound / "more.jsonl").write_text("{}\n", encoding="utf-8")
    status, out, err = run(capsys, str(sound))
    assert (status, out) == (2, "")
    for place in (
        "parts.yaml, line 2, column 31", "parts.yaml, line 3, column 19", "parts.yaml, line 4, column 32",
        "rows.csv, line 3, column 3", "more.jsonl, line 1, column 1",
    ):  # fmt: skip
        assert place in " ".join(err.replace(",\nline", ", line").split("\n")), place
    status, out, _ = run(capsys, "--format", "json", str(sound))
    assert status == 2
    assert len(json.loads(out)["faults"]) >= 5


def test_a_fault_that_only_the_schema_knows(tmp_path: Path) -> None:
    """The schema's errors carry the line and column of the value they are about."""
    text = "title: {a: b}\nparts:\n  - {id: a, kind: hub, basis: {kind: practice}}\n"
    file = tmp_path / "a.yaml"
    file.write_text(text, encoding="utf-8")
    layer = read_layers([])[0]
    layer.files, layer.name = [(str(file), text.encode())], "mine"
    found = schema_check.schema_faults([layer])
    assert found is not None
    assert {(fault.mark.line, fault.mark.column) for fault in found} == {(1, 8), (3, 31)}
    with pytest.raises(Faults):
        check_folders([file])


def test_without_jsonschema_it_says_so(sound: Path, monkeypatch: pytest.MonkeyPatch, capsys: Capture) -> None:
    real = builtins.__import__

    def without(name: str, *rest: Any) -> Any:
        if name == "jsonschema":
            raise ImportError(name)
        return real(name, *rest)

    monkeypatch.delitem(sys.modules, "jsonschema", raising=False)
    monkeypatch.setattr(builtins, "__import__", without)
    status, out, _ = run(capsys, str(sound))
    assert status == 0
    assert "needs jsonschema" in " ".join(out.split())


def test_the_screen(sound: Path, capsys: Capture, monkeypatch: pytest.MonkeyPatch) -> None:
    for columns in ("80", "120"):
        monkeypatch.setenv("COLUMNS", columns)
        status, out, err = run(capsys, str(sound))
        assert (status, err) == (0, "")
        words = " ".join(out.split())
        assert "7 parts and 1 row of 1 table in 3 files." in words
        assert "4 adapter" in words
        assert "seat ball (was conical)" in words
        assert "adapter: plate-a and plate-b" in words
        assert max(map(len, out.splitlines())) <= max(80, min(int(columns), 100))
        assert out.isascii()


def test_the_shipped_and_the_example_folders_are_sound() -> None:
    root = Path(__file__).resolve().parent.parent.parent
    report = check_folders([root / "examples" / "catalog"])
    assert report.parts > 10
    assert not report.alike


@pytest.mark.parametrize("name", ["nowhere", "empty"])
def test_a_folder_that_cannot_be_used(tmp_path: Path, name: str, capsys: Capture) -> None:
    (tmp_path / "empty").mkdir()
    status, out, err = run(capsys, str(tmp_path / name))
    assert (status, out) == (2, "")
    assert "expected" in err


def test_a_part_of_three_layers_is_compared_with_the_one_that_replaces_it(tmp_path: Path) -> None:
    names = []
    for number, size in enumerate(("15 x 6 in", "14 x 6 in", "13 x 5 in")):
        file = tmp_path / f"{number}.csv"
        file.write_text(f"id,kind,size\na,wheel,{size}\n", encoding="utf-8")
        names.append(file)
    found = {(one.below[-5], one.above[-5]): one.differs for one in check_folders(names).replaced}
    assert found == {
        ("0", "1"): [("size", "15 x 6 in", "14 x 6 in")],
        ("1", "2"): [("size", "14 x 6 in", "13 x 5 in")],
    }


def three_layers(root: Path) -> list[str]:
    """YAML, CSV and JSON lines over one another: a in all three, b and z change their kind, c is only typed
    otherwise, d stands in the first and the last.
    """
    texts = {
        "one/parts.yaml": (
            "parts:\n  - {id: a, kind: adapter, thickness: 38 mm, rating: 100 lb}\n  - {id: b, kind: hub}\n"
            "  - {id: c, kind: hub, pilot: 3 in, bolt_circle: 5 x 4.5 in}\n  - {id: d, kind: hub, pilot: 3 in}\n"
        ),
        "two/rows.csv": (
            'id,kind,thickness,note\nb,adapter,38 mm,"two\nlines"\na,adapter,40 mm,\nz,adapter,40 mm,\n'
        ),
        "three/rows.jsonl": (
            '{"id": "a", "kind": "adapter", "thickness": "41 mm"}\n\n{"id": "z", "kind": "wheel"}\n'
            '{"id": "c", "kind": "hub", "pilot": "76.2 mm", "bolt_circle": "5 x 114.3 mm"}\n'
            '{"id": "d", "kind": "hub", "pilot": "3.1 in"}\n'
        ),
    }
    for name, text in texts.items():
        file = root / name
        file.parent.mkdir()
        file.write_text(text, encoding="utf-8")
    return [str(root / name) for name in ("one", "two", "three")]


def test_three_layers_are_told_with_file_and_line(tmp_path: Path, capsys: Capture) -> None:
    one, two, three = three_layers(tmp_path)
    report = check_folders([one, two, three])
    yaml, rows, lines = f"{one}/parts.yaml", f"{two}/rows.csv", f"{three}/rows.jsonl"
    assert {(part.id, part.below_at, part.above_at): part.differs for part in report.replaced} == {
        ("a", (yaml, 2), (rows, 4)): [("thickness", "38 mm", "40 mm"), ("rating", "100 lb", "")],
        ("a", (rows, 4), (lines, 1)): [("thickness", "40 mm", "41 mm")],
        ("b", (yaml, 3), (rows, 2)): [("kind", "hub", "adapter"), ("thickness", "", "38 mm")],
        ("c", (yaml, 4), (lines, 4)): [],  # 3 in is 76.2 mm, 4.5 in is 114.3 mm
        ("d", (yaml, 5), (lines, 5)): [("pilot", "3 in", "3.1 in")],
        ("z", (rows, 5), (lines, 3)): [("kind", "adapter", "wheel"), ("thickness", "40 mm", "")],
    }
    assert [part.id for part in report.replaced if part.conflict] == ["b", "z"]
    assert report.replaced_more == 0
    assert report.kinds == {"adapter": 2, "hub": 2, "wheel": 1}
    status, out, _ = run(capsys, one, two, three)
    words = " ".join(out.split())
    assert status == 0
    assert words.index("CONFLICTS") < words.index("kind adapter (was hub)") < words.index("REPLACED")
    status, out, _ = run(capsys, one, two, three, "--format", "json")
    jsonschema.Draft202012Validator(SCHEMA).validate(json.loads(out))


def test_all_that_is_replaced_is_counted(tmp_path: Path) -> None:
    """Of 300 parts that stand in both layers 50 are told; one of another kind is among them, wherever it is."""
    names = []
    for number, size in enumerate(("15 x 6 in", "14 x 6 in")):
        rows = [f"p{n},wheel,{size}" for n in range(300)]
        rows[290] = "p290,adapter," if number else "p290,wheel,"
        file = tmp_path / f"{number}.csv"
        file.write_text("\n".join(["id,kind,size", *rows]) + "\n", encoding="utf-8")
        names.append(file)
    report = check_folders(names)
    assert (len(report.replaced), report.replaced_more) == (50, 250)
    assert report.replaced[0].id == "p290"
    assert report.replaced[0].conflict


def test_a_conflict_does_not_list_what_is_the_same(tmp_path: Path, capsys: Capture) -> None:
    for name, text in (("one", "p,hub,50 lb,x"), ("two", "p,spacer,50  lb,y")):
        (tmp_path / name).mkdir()
        (tmp_path / name / "a.csv").write_text(f"id,kind,weight,seller\n{text}\n", encoding="utf-8")
    assert main(["catalog", "check", str(tmp_path / "one"), str(tmp_path / "two")]) == 0
    assert "kind spacer (was hub); seller y (was x)\n" in capsys.readouterr().out


def test_many_replaced_parts_are_looked_at_for_their_kind_alone(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Of many that are replaced a few are told with what differs; the last of them is of another kind."""
    many = 300
    for name, last in (("one", "hub"), ("two", "spacer")):
        rows = "".join(f"p{number},{last if number == many - 1 else 'hub'}\n" for number in range(many))
        (tmp_path / name).mkdir()
        (tmp_path / name / "a.csv").write_text(f"id,kind\n{rows}", encoding="utf-8")
    asked: list[str] = []
    part = Catalogue.part
    monkeypatch.setattr(Catalogue, "part", lambda self, name: (asked.append(name), part(self, name))[1])
    report = check_folders([tmp_path / "one", tmp_path / "two"])
    assert (report.replaced[0].id, report.replaced[0].conflict) == (f"p{many - 1}", True)
    assert len(report.replaced) + report.replaced_more == many
    assert len(asked) < many


def test_a_folder_given_twice(sound: Path, capsys: Capture) -> None:
    status, _, err = run(capsys, str(sound), str(sound) + "/")
    assert status == 2
    assert "given twice" in err
    assert "1 fault" in err


def test_a_pipe_is_no_file_of_rows(tmp_path: Path, capsys: Capture) -> None:
    """Reading it once for its hash would leave nothing to read for its rows: it would wait for ever."""
    if not hasattr(os, "mkfifo"):
        pytest.skip("this system has no named pipes")
    os.mkfifo(tmp_path / "rows.csv")
    status, _, err = run(capsys, str(tmp_path / "rows.csv"))
    assert status == 2
    assert "pipe" in err


def test_what_is_no_file_is_told_by_its_name(tmp_path: Path, capsys: Capture) -> None:
    folder = tmp_path / "odd"
    folder.mkdir()
    (folder / "a.csv").mkdir()
    (folder / "b.yaml").symlink_to("b.yaml")
    (folder / "c.csv").write_text("id,kind\na,hubb\n", encoding="utf-8")
    names = ["a.csv", "b.yaml"]
    if hasattr(os, "mkfifo"):
        os.mkfifo(folder / "d.csv")  # nobody writes into it: a reader would wait for ever
        names.append("d.csv")
    status, out, err = run(capsys, str(folder))
    assert (status, out) == (2, "")
    for name in names:
        assert f"{name}, line 1" in err.replace("\n", " "), name


def test_an_unknown_key_is_told_once_where_it_stands(tmp_path: Path, capsys: Capture) -> None:
    file = tmp_path / "a.yaml"
    file.write_text("title: a\nparts:\n  - {id: a, kind: hub}\nfoo: 3\n", encoding="utf-8")
    status, _, err = run(capsys, str(file))
    assert status == 2
    assert "1 fault to mend" in err
    assert "line 4, column 1" in " ".join(err.split())


@pytest.mark.parametrize(
    ("row", "hint"), [("a,hub", "an empty cell keeps its comma"), ("a,hub,3 in,x", "needs quotes around the text")]
)
def test_a_row_with_too_few_or_too_many_cells(tmp_path: Path, row: str, hint: str, capsys: Capture) -> None:
    (tmp_path / "a.csv").write_text(f"id,kind,pilot\n{row}\n", encoding="utf-8")
    status, _, err = run(capsys, str(tmp_path / "a.csv"))
    assert status == 2
    assert hint in " ".join(err.split())
