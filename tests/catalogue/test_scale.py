"""Catalogues in rows (CSV, JSON lines): read, questioned, kept; answers against brute force over every part."""

from __future__ import annotations

import csv
import io
import json
import os
import random
import shutil
import sqlite3
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import partscheck
from partscheck.catalogue import Catalogue, layers, rows, search, seen, stock_writer
from partscheck.catalogue.facets import facets_of, value_of
from partscheck.catalogue.folder_check import check_folders
from partscheck.catalogue.query import read_query, split_relation
from partscheck.catalogue.search import Search
from partscheck.catalogue.stock import WORD
from partscheck.notation.faults import Fault, Faults
from partscheck.parts.kinds import KINDS
from partscheck.progress import Progress, shown_on
from partscheck.uses import looking_up

HEADINGS = (
    "id",
    "kind",
    "hub_circle",
    "thickness",
    "rating",
    "nut_seat",
    "stud_thread",
    "material",
    "price",
    "weight",
)
CHOICES: dict[str, tuple[str, ...]] = {
    "hub_circle": ("", "5 x 4.5 in", "5 x 114.3 mm", "4 x 4 in", "5 x 4.5 in ± 0.02 in", "5 x 112 mm"),
    "thickness": (
        "",
        "unknown",
        "1.5 in",
        "38.1 mm",
        "38 mm",
        "1-1/4 in ± 1/32 in",
        "20 to 30 mm",
        "45 mm",
        "2 in",
    ),
    "rating": ("", "1200 lb", "544.310844 kg", "2000 lb", "9 kN", "500 kg", "1900 to 2100 lb"),
    "nut_seat": ("", "conical", "tapered", "ball", "flat", "odd word"),
    "stud_thread": ("", "1/2-20", "1/2-20 UNF", "M12x1.5", "M12x1.5 LH", "M14x1.5"),
    "material": ("", "6061-T6", "steel", "mild steel"),
    "price": ("", "10", "12.50", "12.50 EUR", "60", "1,000"),
    "weight": ("", "5 lb", "2.26796185 kg", "3 kg"),
}
CONDITIONS: dict[str, tuple[str, ...]] = {
    "hub_circle": ("5 x 4.5 in", "5 x 110 to 115 mm", "4 x 101.6 mm"),
    "thickness": (
        "1.5 in",
        "38 to 45 mm",
        "1.25 to 1.75 in",
        "<= 38.1 mm",
        "more than 1.5 in",
        "30 mm",
        "under 2 in",
    ),
    "rating": (">= 1200 lb", "1200 lb or more", "at most 900 kg", "500 kg", "> 1200 lb", "4 to 10 kN"),
    "nut_seat": ("conical", "radius"),
    "stud_thread": ("1/2-20", "M12x1.5", "M12x1.5 LH"),
    "material": ("steel",),
    "price": ("at most 12.50", "10 to 60", ">= 12.50 EUR", "12.50"),
    "weight": ("5 lb", "2 kg or more"),
}


@pytest.fixture(autouse=True)
def small_shipped_catalogue(tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch) -> None:
    """The tables of threads alone: each test compiles a catalogue, and most of it would be the shipped one."""
    folder = tmp_path_factory.mktemp("shipped")
    for name in ("unc.yaml", "unf.yaml", "metric_coarse.yaml"):
        shutil.copy(Path(layers.shipped_folder()) / name, folder / name)
    monkeypatch.setattr(layers, "shipped_folder", lambda: str(folder))


def csv_text(rows_: list[dict[str, str]], headings: tuple[str, ...] = HEADINGS) -> str:
    out = io.StringIO()
    writer = csv.DictWriter(out, headings)
    writer.writeheader()
    writer.writerows(rows_)
    return out.getvalue()


def folder_with(root: Path, **files: str | bytes) -> Path:
    """A folder of files; ``a_csv`` is a.csv."""
    root.mkdir(exist_ok=True)
    for name, text in files.items():
        data = text if isinstance(text, bytes) else text.encode()
        (root / name.replace("_", ".")).write_bytes(data)
    return root


def faults_of(folder: Path) -> list[Fault]:
    with pytest.raises(Faults) as caught:
        Catalogue.load([folder])
    return caught.value.faults


# ---- against brute force --------------------------------------------------------------------------


def brute_force(parts: list[dict[str, str]], conditions: list[tuple[str, str]], tables: Any) -> list[str]:
    """Ids of the parts that meet every condition, each part's texts read and held to each clause."""
    query, faults = read_query("adapter", conditions, tables)
    assert not faults
    found = []
    for part in parts:
        if all(_meets(part.get(ask.field.key, ""), ask, tables) for ask in query.asks):
            found.append(part["id"])
    return found


def _meets(text: str, ask: Any, tables: Any) -> bool:
    if not text:
        return False
    facets = facets_of(ask.field.type)
    assert facets is not None
    numbers, word = value_of(ask.field.type.read(text, tables))
    ends = dict(zip((name for name, _ in facets.numbers), numbers, strict=False))
    return all(
        clause.admits(None, word) if clause.name == WORD else clause.admits(ends.get(clause.name), None)
        for clause in ask.clauses
    )


def answer(catalogue: Catalogue, conditions: list[tuple[str, str]], by: str = "price") -> tuple[list[str], int]:
    query, faults = read_query("adapter", conditions, catalogue)
    assert not faults
    ids, count = [], 0
    for stock in catalogue.stocks()[1:]:
        one = Search(stock, query, by)
        ids += [found.id for found in one.found(100_000)]
        count += one.count(100_000)
    return ids, count


def random_parts(draw: random.Random, count: int) -> list[dict[str, str]]:
    return [
        {"id": f"p{number}", "kind": "adapter", **{key: draw.choice(texts) for key, texts in CHOICES.items()}}
        for number in range(count)
    ]


def random_conditions(draw: random.Random) -> list[tuple[str, str]]:
    keys = draw.sample(sorted(CONDITIONS), draw.randint(0, 4))
    return [(key, draw.choice(CONDITIONS[key])) for key in keys]


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 2**32), st.integers(1, 400), st.booleans(), st.booleans())
def test_the_answer_is_that_of_brute_force(
    tmp_path_factory: pytest.TempPathFactory, seed: int, count: int, lines: bool, by_index: bool
) -> None:
    draw = random.Random(seed)
    parts = random_parts(draw, count)
    text = csv_text(parts)
    if lines:
        text = "".join(json.dumps({key: value for key, value in part.items() if value}) + "\n" for part in parts)
    folder = folder_with(tmp_path_factory.mktemp("c"), **{"a_jsonl" if lines else "a_csv": text})
    catalogue = Catalogue.load([folder])
    with pytest.MonkeyPatch.context() as patched:
        if by_index:  # the ways of large catalogues, on small ones
            patched.setattr(search, "DOUBTFUL", 0)
        for _ in range(6):
            conditions = random_conditions(draw)
            found, counted = answer(catalogue, conditions, draw.choice(("price", "weight")))
            assert sorted(found) == sorted(brute_force(parts, conditions, catalogue)), conditions
            assert counted == len(found)
    catalogue.close()


def test_many_distinct_numbers_lie_in_shared_steps(tmp_path: Path) -> None:
    """More different values than there are steps: those at the ends of a range are looked at one by one."""
    draw = random.Random(7)
    parts = [
        {"id": f"p{n}", "kind": "adapter", "thickness": f"{draw.randint(100, 900) / 10} mm",
         "rating": f"{draw.randint(500, 3000)} lb", "price": f"{draw.randint(100, 9000) / 100:.2f}"}
        for n in range(3000)
    ]  # fmt: skip
    catalogue = Catalogue.load([folder_with(tmp_path / "c", a_csv=csv_text(parts))])
    for conditions in (
        [("thickness", "1 to 3 in"), ("rating", "1000 lb or more")],
        [("thickness", "38.1 mm")],
        [("thickness", "more than 50 mm"), ("price", "20 to 40"), ("rating", "at most 1000 kg")],
        [("rating", "less than 2000 lb"), ("thickness", ">= 10 mm")],
    ):
        found, counted = answer(catalogue, conditions)
        expected = brute_force(parts, conditions, catalogue)
        prices = {part["id"]: float(part["price"]) for part in parts}
        assert sorted(found) == sorted(expected)
        assert counted == len(expected)
        assert [prices[id] for id in found] == sorted(prices[id] for id in found)  # cheapest first


def test_what_does_not_state_a_field_is_counted_not_found(tmp_path: Path) -> None:
    parts = [
        {"id": "a", "kind": "adapter", "thickness": "40 mm", "rating": "900 kg"},
        {"id": "b", "kind": "adapter", "thickness": "40 mm"},
        {"id": "c", "kind": "adapter", "thickness": "unknown", "rating": "900 kg"},
        {"id": "d", "kind": "adapter", "thickness": "30 mm", "rating": "900 kg"},
    ]
    catalogue = Catalogue.load([folder_with(tmp_path / "c", a_csv=csv_text(parts))])
    query, _ = read_query("adapter", ["thickness=38 to 45 mm", "rating=800 kg or more"], catalogue)
    one = Search(catalogue.stocks()[1], query)
    assert [found.id for found in one.found(9)] == ["a"]
    assert one.unstated() == {"thickness": 1, "rating": 1}
    (miss,) = one.misses()
    assert (miss.found.id, miss.clause.name, miss.ask.field.key) == ("d", "", "thickness")
    assert miss.by == pytest.approx(8.0)


@pytest.mark.parametrize(
    ("text", "relation", "rest"),
    [
        (">= 1200 lb", "at least", "1200 lb"),
        (">=1200 lb", "at least", "1200 lb"),
        ("1200 lb or more", "at least", "1200 lb"),
        ("1200 lb+", "at least", "1200 lb"),
        ("At Least 1200 lb", "at least", "1200 lb"),
        ("at most 3 in", "at most", "3 in"),
        ("up to 3 in", "at most", "3 in"),
        ("3 in or less", "at most", "3 in"),
        ("more than 5", "more than", "5"),
        ("< 38 mm", "less than", "38 mm"),
        ("38 to 45 mm", "", "38 to 45 mm"),
        ("1.5 in +1/-0 mm", "", "1.5 in +1/-0 mm"),
        ("overdrive", "", "overdrive"),
        ("underlay", "", "underlay"),
    ],
)
def test_more_and_less_in_words(text: str, relation: str, rest: str) -> None:
    assert split_relation(text) == (relation, rest)


def test_every_field_of_every_kind_can_be_asked_or_says_that_it_cannot() -> None:
    for kind, record in KINDS.items():
        for field in record.fields.values():
            facets = facets_of(field.type)
            numbers, word = value_of(field.type.unknown)
            assert word is None or facets is None or facets.free, (kind, field.key)
            assert all(ends is None for ends in numbers), (kind, field.key)


# ---- hostile and broken rows ----------------------------------------------------------------------


def test_hostile_names_come_back_as_typed(tmp_path: Path) -> None:
    ids = [
        "=cmd|' /C calc'!A0",
        "+1",
        "-p",
        "@sum",
        'quote"d',
        "comma,d",
        "semi;d",
        "ünï",
        "a'b",
        "--;DROP TABLE part",
    ]
    parts = [{"id": id, "kind": "adapter", "thickness": "40 mm", "note": f"two\nlines {id}"} for id in ids]
    folder = folder_with(tmp_path / "c", a_csv=csv_text(parts, ("id", "kind", "thickness", "note")))
    catalogue = Catalogue.load([folder])
    for number, id in enumerate(ids):
        part = catalogue.part(id)
        assert part is not None
        assert (part.id, part.kind, part.note) == (id, "adapter", f"two\nlines {id}")
        assert part.fields["thickness"] == ("40 mm", f"{folder}/a.csv", 2 + 2 * number, 3)
    assert answer(catalogue, [("thickness", "40 mm")])[1] == len(ids)


def test_a_cell_that_a_spreadsheet_would_run_may_stand_defused(tmp_path: Path) -> None:
    folder = folder_with(tmp_path / "c", a_csv="id,kind,seller\n'=1+1,hub,'=2+2\n")
    part = Catalogue.load([folder]).part("=1+1")
    assert part is not None
    assert part.fields["seller"][0] == "=2+2"


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
@pytest.mark.parametrize("delimiter", [",", ";", "\t", "|"])
def test_encodings_and_delimiters(tmp_path: Path, encoding: str, delimiter: str) -> None:
    lines = [["ID", "Kind", "Pilot (mm)", "note"], ["h", "hub", "70", "für"], ["i", "hub", "71.5 mm", ""]]
    text = "\r\n".join(delimiter.join(line) for line in lines)
    catalogue = Catalogue.load([folder_with(tmp_path / "c", a_csv=text.encode(encoding))])
    h, i = catalogue.part("h"), catalogue.part("i")
    assert h is not None
    assert i is not None
    assert (h.fields["pilot"][0], h.note, i.fields["pilot"][0]) == ("70 mm", "für", "71.5 mm")


def test_every_broken_row_is_told_with_its_line(tmp_path: Path) -> None:
    text = (
        b"id,kind,pilot,rating\n"
        b"a,hub,70 mm,500 kg\n"  # 2
        b"b,hub,70,500 kg\n"  # 3: no unit
        b"c,hubb,70 mm,\n"  # 4: no such kind
        b"d,hub,70 mm\n"  # 5: a cell short
        b'"e,"x,hub,70 mm,\n'  # 6: behind a quote
        b",hub,70 mm,\n"  # 7: no id
        b"f,seal,70 mm,\n"  # 8: no field of it
        b"a,hub,71 mm,\n"  # 9: twice
        b"g,hub,70\x07 mm,\n"  # 10: control character
        b"h,hub,71 mm,,5\n"  # 11: a cell more
        b"\n"
        b"i,hub,1 lb,500 kg\n"  # 13: wrong unit
    ) + b"j,hub,70 \xff mm,\n"  # 14: no UTF-8
    found = {(fault.mark.line, fault.mark.column) for fault in faults_of(folder_with(tmp_path / "c", a_csv=text))}
    assert found == {(3, 3), (4, 2), (5, 1), (6, 1), (7, 1), (8, 3), (9, 1), (10, 3), (11, 1), (13, 3), (14, 3)}


@pytest.mark.parametrize(
    ("text", "place", "word"),
    [
        ("", (1, 1), "headings"),
        ("id,kind\n", (1, 1), "parts"),
        ("id,thickness\na,3 in\n", (1, 1), "kind missing"),
        ("id,kind,pilto\na,hub,3 in\n", (1, 3), "pilot"),
        ("id,kind,pilot,Pilot (in)\na,hub,3 in,3\n", (1, 4), "once"),
        ('id,kind,note\na,hub,"never closed\nb,hub,\n', (2, 1), "ends inside"),
        ('id,kind,note\na,hub,"' + "x" * 200_000 + '"\n', (2, 1), "never closed"),
        ("\0id,kind\na,hub\n", (1, 1), "heading"),
    ],
)
def test_what_is_wrong_with_a_whole_csv(tmp_path: Path, text: str, place: tuple[int, int], word: str) -> None:
    fault = faults_of(folder_with(tmp_path / "c", a_csv=text))[0]
    assert (fault.mark.line, fault.mark.column) == place
    assert word in str(fault)


def test_every_broken_json_line_is_told(tmp_path: Path) -> None:
    text = (
        '\ufeff{"id": "a", "kind": "hub", "pilot": "70 mm", "qty": 2, "price": 1.50}\n'
        '{"id": "b", "kind": "hub", "pilot": 70}\n'
        '{"id": "c", "kind": "hub", "pilot": null}\n'
        '{"id": "d", "kind": "hub"\n'
        "[1, 2]\n"
        "\n"
        '{"id": "e", "id": "f", "kind": "hub"}\n'
        '{"id": "g", "kind": "hub", "pilto": "70 mm"}\n'
        '{"id": "h", "kind": "hub", "pilot": {"a": 1}}\n'
        '{"id": "i", "kind": "hub", "rating": NaN}\n'
        f"{'[' * 5000}\n"
        '{"kind": "hub"}\n'
    )
    found = [fault.mark.line for fault in faults_of(folder_with(tmp_path / "c", a_jsonl=text))]
    assert found == [2, 3, 4, 5, 7, 8, 9, 10, 11, 12]


def test_numbers_of_json_stay_as_typed(tmp_path: Path) -> None:
    line = '{"id": "a", "kind": "bolt", "size": "M12x1.75 x 60 mm", "grade": 8.8, "price": 1.50}\n'
    part = Catalogue.load([folder_with(tmp_path / "c", a_jsonl=line)]).part("a")
    assert part is not None
    assert (part.fields["grade"][0], part.fields["price"][0]) == ("8.8", "1.50")


def test_reading_stops_where_everything_is_wrong(tmp_path: Path) -> None:
    text = "id,kind,pilot\n" + "".join(f"p{n},hub,{n}\n" for n in range(1, 5000))
    found = faults_of(folder_with(tmp_path / "c", a_csv=text))
    assert 100 <= len(found) <= 102
    assert any(fault.hint == "reading stopped here" for fault in found)


def test_faults_of_rows_and_of_yaml_come_together(tmp_path: Path) -> None:
    folder = folder_with(
        tmp_path / "c", a_csv="id,kind,pilot\na,hub,3\n", b_yaml="parts:\n  - {id: b, kind: hubb}\n"
    )
    assert [os.path.basename(fault.mark.file) for fault in faults_of(folder)] == ["a.csv", "b.yaml"]


# ---- layers ---------------------------------------------------------------------------------------


def test_the_later_layer_wins_whatever_the_form(tmp_path: Path) -> None:
    first = folder_with(tmp_path / "1", a_csv="id,kind,thickness\np,adapter,40 mm\nq,adapter,40 mm\n")
    second = folder_with(tmp_path / "2", a_yaml="parts:\n  - {id: p, kind: adapter, thickness: 41 mm}\n")
    third = folder_with(tmp_path / "3", a_jsonl='{"id": "q", "kind": "adapter", "thickness": "42 mm"}\n')
    for order, expected in (
        ((first, second, third), ("41 mm", "42 mm")),
        ((third, second, first), ("40 mm", "40 mm")),
    ):
        catalogue = Catalogue.load(order)
        parts = [catalogue.part(id) for id in ("p", "q")]
        assert tuple(part.fields["thickness"][0] for part in parts if part is not None) == expected
        told = {(id, below, above) for id, below, above in catalogue.overridden}
        p = ("p", str(first), str(second)) if order[0] is first else ("p", str(second), str(first))
        q = ("q", str(first), str(third)) if order[0] is first else ("q", str(third), str(first))
        assert {p, q} <= told
        winners = [
            [stock.file for stock in catalogue.stocks() if stock.holds(id) and catalogue.is_in_force(id, stock)]
            for id in ("p", "q")
        ]
        assert [len(one) for one in winners] == [1, 1]
        catalogue.close()


def test_each_id_once_in_a_folder(tmp_path: Path) -> None:
    folder = folder_with(
        tmp_path / "c", a_csv="id,kind\np,hub\n", b_jsonl='{"id": "p", "kind": "hub"}\n',
        c_yaml="parts:\n  - {id: p, kind: hub}\n",
    )  # fmt: skip
    found = faults_of(folder)
    assert {fault.read for fault in found} == {"p"}
    assert len(found) == 3
    assert all("once in a folder" in fault.expected for fault in found)


def test_a_mistyped_id_is_near_one_of_the_rows(tmp_path: Path) -> None:
    folder = folder_with(tmp_path / "c", a_csv="id,kind\nplate-fourty,adapter\nplate-fifty,adapter\n")
    assert Catalogue.load([folder]).nearest("plate-forty")[0] == "plate-fourty"


# ---- kept, and never stale --------------------------------------------------------------------------


@pytest.fixture
def made(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Names of the files of rows that were read anew."""
    names: list[str] = []
    make = rows.make_row_stock

    def counted(file: Any, key: str, tables: Any) -> Any:
        names.append(os.path.basename(file.path))
        return make(file, key, tables)

    monkeypatch.setattr(rows, "make_row_stock", counted)
    return names


def test_a_file_is_read_once_and_again_when_it_changed(tmp_path: Path, made: list[str]) -> None:
    folder = folder_with(
        tmp_path / "c", a_csv="id,kind,pilot\na,hub,70 mm\n", b_csv="id,kind,pilot\nb,hub,60 mm\n"
    )
    for _ in range(3):
        assert Catalogue.load([folder]).part("a").fields["pilot"][0] == "70 mm"  # type: ignore[union-attr]
    assert made == ["a.csv", "b.csv"]
    stands = os.stat(folder / "a.csv")
    (folder / "a.csv").write_text("id,kind,pilot\na,hub,71 mm\n", encoding="utf-8")  # the same size
    os.utime(folder / "a.csv", ns=(stands.st_atime_ns, stands.st_mtime_ns))  # and time
    assert Catalogue.load([folder]).part("a").fields["pilot"][0] == "71 mm"  # type: ignore[union-attr]
    (folder / "c.yaml").write_text("parts:\n  - {id: c, kind: hub}\n", encoding="utf-8")
    Catalogue.load([folder]).stocks()
    assert made == ["a.csv", "b.csv", "a.csv"]  # an edit beside it costs nothing


@pytest.mark.skipif(sys.platform == "win32", reason="a change time that cannot be set back is of POSIX systems")
def test_a_large_file_changed_behind_its_time_is_seen(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(seen, "TRUSTED_FROM", 1)
    monkeypatch.setattr(seen, "SETTLED", -1.0)
    path = tmp_path / "a.csv"
    path.write_text("id,kind\na,hub\n", encoding="utf-8")
    first = seen.content_digest(str(path))
    assert seen.Stood([str(path)]).digest == first  # remembered: the file need not be read
    assert seen.content_digest(str(path)) == first
    stands = os.stat(path)
    path.write_text("id,kind\nb,hub\n", encoding="utf-8")
    os.utime(path, ns=(stands.st_atime_ns, stands.st_mtime_ns))
    assert seen.content_digest(str(path)) != first


def test_a_file_that_changed_just_now_is_not_taken_as_known(tmp_path: Path, cache: Path) -> None:
    path = tmp_path / "a.csv"
    path.write_bytes(b"id,kind\n" + b"#" * seen.TRUSTED_FROM)
    seen.content_digest(str(path))
    assert not list(cache.glob("seen-*"))


@pytest.mark.parametrize("damage", [b"", b"\x00\xff" * 9000, None])
def test_a_damaged_stock_is_made_again(tmp_path: Path, cache: Path, made: list[str], damage: bytes | None) -> None:
    folder = folder_with(tmp_path / "c", a_csv="id,kind,pilot\na,hub,70 mm\n")
    Catalogue.load([folder]).close()
    (path,) = cache.glob("stock-*")
    path.write_bytes(path.read_bytes()[:-4096] if damage is None else damage)
    assert Catalogue.load([folder]).part("a") is not None
    assert made == ["a.csv", "a.csv"]


def test_without_a_cache_folder_it_only_takes_longer(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    blocker = tmp_path / "file"
    blocker.write_text("", encoding="utf-8")
    monkeypatch.setenv("XDG_CACHE_HOME", str(blocker))
    folder = folder_with(tmp_path / "c", a_csv="id,kind,thickness\na,adapter,40 mm\n")
    assert answer(Catalogue.load([folder]), [("thickness", "40 mm")]) == (["a"], 1)


def test_a_full_cache_folder_only_takes_longer(
    tmp_path: Path, cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    finish = stock_writer.StockWriter.finish

    def full(self: stock_writer.StockWriter, *arguments: Any) -> None:
        if self.connection.execute("PRAGMA database_list").fetchall()[0][2]:  # a file, not a temporary one
            raise sqlite3.OperationalError("database or disk is full")
        finish(self, *arguments)

    monkeypatch.setattr(stock_writer.StockWriter, "finish", full)
    yaml = "parts:\n  - {id: b, kind: adapter, thickness: 41 mm}\n"
    folder = folder_with(tmp_path / "c", a_csv="id,kind,thickness\na,adapter,40 mm\n", b_yaml=yaml)
    found = partscheck.find("adapter", thickness="40 to 41 mm", catalogs=[folder])
    assert [one.id for one in found.candidates] == ["a", "b"]
    assert not list(cache.glob("stock-*"))


def test_nothing_half_made_stays_behind(tmp_path: Path, cache: Path) -> None:
    faults_of(folder_with(tmp_path / "c", a_csv="id,kind,pilot\na,hub,70\n"))
    assert not list(cache.glob("stock-*"))


def test_two_conditions_on_one_field_leave_what_does_not_state_it_counted(tmp_path: Path) -> None:
    parts = [
        {"id": "a", "kind": "adapter", "thickness": "40 mm", "rating": "900 kg"},
        {"id": "b", "kind": "adapter", "thickness": "40 mm"},
        {"id": "c", "kind": "adapter", "thickness": "50 mm"},
        {"id": "d", "kind": "adapter", "thickness": "40 mm", "rating": "2000 kg"},
    ]
    catalogue = Catalogue.load([folder_with(tmp_path / "c", a_csv=csv_text(parts))])
    query, _ = read_query("adapter", ["rating>=800 kg", "rating<=1000 kg", "thickness=38 to 45 mm"], catalogue)
    one = Search(catalogue.stocks()[1], query)
    assert [found.id for found in one.found(9)] == ["a"]
    assert one.unstated() == {"rating": 1}


def test_a_replaced_part_of_a_large_file_is_not_counted(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """More parts than are looked at one by one; few of them match, and a later layer replaces two of these."""
    monkeypatch.setattr(looking_up, "LOOKED_AT_MOST", 10)
    rows_ = "".join(f"p{n},adapter,{n} mm\n" for n in range(1, 60))
    one = folder_with(tmp_path / "one", a_csv=f"id,kind,thickness\n{rows_}")
    two = folder_with(tmp_path / "two", a_csv="id,kind,thickness\np41,adapter,90 mm\np42,hub,\n")
    found = partscheck.find("adapter", thickness="40 to 44 mm", catalogs=[one, two])
    assert [candidate.id for candidate in found.candidates] == ["p40", "p43", "p44"]
    assert found.matches == 3
    found = partscheck.find("adapter", thickness="41 to 42 mm", catalogs=[one, two])
    assert (found.matches, found.candidates) == (0, [])
    assert [near.candidate.id for near in found.misses][:2] == ["p40", "p43"]


def test_a_word_with_a_separator_in_it_hides_no_other(tmp_path: Path) -> None:
    sellers = ("a\\x1fb", "cc", "dd", "")
    text = "parts:\n" + "".join(
        f'  - {{id: n{number}, kind: hub, pilot: 60 mm, seller: "{seller}"}}\n'
        for number, seller in enumerate(sellers)
    )
    catalogue = Catalogue.load([folder_with(tmp_path / "c", a_yaml=text)])
    for number, asked in enumerate(("b", "cc", "dd")):
        query, _ = read_query("hub", [f"seller={asked}"], catalogue)
        assert [found.id for found in Search(catalogue.stocks()[0], query).found(9)] == [f"n{number}"]


@pytest.mark.parametrize("heading", ["bogus", "thickness", "\u202ex"])
def test_a_wrong_heading_hides_no_wrong_row(tmp_path: Path, heading: str) -> None:
    text = f"id,kind,thickness,{heading}\na,adapter,38,\nb,adaptor,38 mm,x\na,adapter,40 mm,\n"
    faults = faults_of(folder_with(tmp_path / "c", a_csv=text))
    assert [fault.mark.line for fault in faults] == [1, 2, 3, 4]


def test_damage_in_the_middle_of_a_stock_is_mended(tmp_path: Path, cache: Path, made: list[str]) -> None:
    """Its first page and its size are sound, so that it opens; what is asked then is not to be read."""
    text = "id,kind,thickness,price\n" + "".join(f"p{n},adapter,{n % 90 + 1} mm,{n}\n" for n in range(3000))
    folder = folder_with(tmp_path / "c", a_csv=text)
    sound = [one.id for one in partscheck.find("adapter", thickness="40 mm", catalogs=[folder]).candidates]
    assert len(sound) == 10

    def damage() -> None:
        for path in cache.glob("stock-*"):
            data = path.read_bytes()
            path.write_bytes(data[:8192] + b"\xa5" * (len(data) - 8192))

    damage()
    found = partscheck.find("adapter", thickness="40 mm", catalogs=[folder])
    assert [one.id for one in found.candidates] == sound
    damage()
    assert Catalogue.load([folder]).part("p39").fields["price"][0] == "39"  # type: ignore[union-attr]
    damage()
    assert check_folders([folder]).parts == 3000
    assert made == ["a.csv"] * 4


def test_two_threads_make_the_stock_of_one_file(tmp_path: Path, cache: Path) -> None:
    text = "id,kind,thickness\n" + "".join(f"p{n},adapter,{n % 90 + 1} mm\n" for n in range(5000))
    folder = folder_with(tmp_path / "c", a_csv=text)

    def matches(_: int) -> int:
        return partscheck.find("adapter", thickness="40 mm", catalogs=[folder], limit=1).matches

    with ThreadPoolExecutor(4) as pool:
        assert list(pool.map(matches, range(4))) == [56] * 4
    assert not list(cache.glob("*.part"))


def test_what_a_stopped_run_left_behind_goes_after_a_day(tmp_path: Path, cache: Path) -> None:
    cache.mkdir()
    old, new = cache / "stock-0.sqlite.1.part", cache / "stock-1.sqlite.1.part"
    for path in (old, new):
        path.write_bytes(b"half")
    os.utime(old, (1, 1))
    Catalogue.load([folder_with(tmp_path / "c", a_csv="id,kind,pilot\na,hub,70 mm\n")]).stocks()
    assert not old.exists()
    assert new.exists()  # another process may be at it


# ---- progress -------------------------------------------------------------------------------------


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


@pytest.mark.parametrize(("screen", "shows"), [(Terminal(), True), (io.StringIO(), False)])
def test_progress_shows_on_a_terminal_only(
    screen: io.StringIO, shows: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("partscheck.progress.PATIENCE", 0.0)
    monkeypatch.setattr("partscheck.progress.STEP", 0.0)
    try:
        shown_on(screen)
        with Progress("reading a.csv", 4) as progress:
            progress.at(1)
            progress.at(3)
    finally:
        shown_on(io.StringIO())
    assert ("75 %" in screen.getvalue()) is shows
    assert (screen.getvalue() == "") is not shows
