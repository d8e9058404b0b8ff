"""The user's own catalogue over the shipped one: what wins, what is told, what is refused."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from partscheck.catalogue import Catalogue
from partscheck.notation.faults import Fault, Faults

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

    from partscheck.catalogue.families import Fields
    from partscheck.catalogue.source import Source
    from partscheck.notation.yaml_text import ScalarNode

OWN_NUT = """\
title: My nuts
parts:
  - id: cone-nut-1/2-20
    kind: lug-nut
    thread: 1/2-20
    depth: 0.72 in
    basis: {kind: practice, source: measured at my bench}
  - {id: my-hub, kind: hub, stud_length: 1.75 in, note: from the shelf}
"""


def folder(root: Path, name: str, **files: str) -> Path:
    made = root / name
    made.mkdir()
    for file, text in files.items():
        (made / f"{file}.yaml").write_text(text, encoding="utf-8")
    return made


def faults_of(*folders: Path, **options: object) -> list[Fault]:
    with pytest.raises(Faults) as caught:
        Catalogue.load(folders, **options)  # type: ignore[arg-type]
    return caught.value.faults


def test_a_shipped_part_and_its_place(shipped: Catalogue) -> None:
    part = shipped.part("cone-nut-1/2-20")
    assert part is not None
    assert (part.kind, part.layer, part.fields["thread"][0]) == ("lug-nut", "shipped", "1/2-20")
    text, file, line, column = part.fields["seat"]
    assert (text, file) == ("conical", "catalog/lug_nuts.yaml")
    assert line > 1
    assert column == 11
    assert "depth" not in part.fields


def test_a_part_of_the_users_own_wins_and_is_told(tmp_path: Path) -> None:
    own = folder(tmp_path, "mine", nuts=OWN_NUT)
    both = Catalogue.load([own])
    part = both.part("cone-nut-1/2-20")
    assert part is not None
    assert part.fields["depth"] == ("0.72 in", f"{own}/nuts.yaml", 6, 12)
    assert "seat" not in part.fields  # the whole part is replaced, not patched
    assert part.basis == ("practice", "measured at my bench")
    assert both.overridden == [("cone-nut-1/2-20", "shipped", str(own))]
    hub = both.part("my-hub")
    assert hub is not None
    assert (hub.note, hub.basis[0]) == ("from the shelf", "recalled")


def test_one_folder_needs_no_list(tmp_path: Path) -> None:
    (tmp_path / "own.yaml").write_text("parts:\n  - {id: p, kind: hub}\n", encoding="utf-8")
    for folder in (tmp_path, str(tmp_path)):
        assert Catalogue.load(folder).part("p") is not None


def test_the_last_folder_wins(tmp_path: Path) -> None:
    first = folder(tmp_path, "first", a="parts:\n  - {id: p, kind: hub, pilot: 60 mm}\n")
    second = folder(tmp_path, "second", a="parts:\n  - {id: p, kind: hub, pilot: 61 mm}\n")
    assert Catalogue.load([first, second]).part("p").fields["pilot"][0] == "61 mm"  # type: ignore[union-attr]
    assert Catalogue.load([second, first]).part("p").fields["pilot"][0] == "60 mm"  # type: ignore[union-attr]


def test_a_row_of_the_users_own_stands_in_the_place_of_the_shipped_one(tmp_path: Path) -> None:
    text = (
        "table: practice\nrows:\n"
        "  - {key: stud_below_flush, value: 2 mm, dimension: length, reason: shop habit}\n"
    )
    own = folder(tmp_path, "mine", limits=text)
    before = [row["key"] for row in Catalogue.load().rows("practice")]
    both = Catalogue.load([own / "limits.yaml"])  # one file serves as a layer too
    assert both.row("practice", "stud_below_flush")["value"] == "2 mm"  # type: ignore[index]
    assert [row["key"] for row in both.rows("practice")] == before
    assert both.overridden == [("practice/stud_below_flush", "shipped", str(own / "limits.yaml"))]


def test_a_table_of_the_users_own(tmp_path: Path) -> None:
    text = (
        "table: sockets\ncolumns:\n  hex_mm: {type: number, unit: mm}\n  fits: {type: texts}\n"
        "rows:\n  - {key: '19', hex_mm: 19, fits: [M12, M13]}\n  - {key: '21', fits: []}\n"
    )
    own = Catalogue.load([folder(tmp_path, "mine", sockets=text)])
    assert [{k: v for k, v in row.items() if k != "basis"} for row in own.rows("sockets")] == [
        {"key": "19", "hex_mm": 19, "fits": ["M12", "M13"]},
        {"key": "21", "fits": []},
    ]


def test_nothing_found(shipped: Catalogue) -> None:
    assert shipped.part("cone-nut-1/2-21") is None
    assert shipped.row("unc", "11/32") is None
    assert shipped.rows("no_such_table") == []


def test_nearest_ids(shipped: Catalogue) -> None:
    assert shipped.nearest("cone-nut-1/2-20-UNF")[0] == "cone-nut-1/2-20"
    assert shipped.nearest("adapter-5x4.5-5x5.5")[0] == "adapter-5x4.5-to-5x5.5"
    assert shipped.nearest("Tire-ST205/75R14-c", n=1) == ["tire-ST205/75R14-C"]
    assert shipped.nearest("qqqq") == []


def test_every_fault_of_every_file_is_told_with_its_place(tmp_path: Path) -> None:
    own = folder(
        tmp_path,
        "mine",
        a="parts:\n  - {id: p, kind: hub}\n  - {id: p, kind: hub}\n  - {kind: hub}\n",
        b="table: unc\nrows:\n  - {key: x, tip: 20}\n  - {key: y, tpi: twenty}\n  - {key: y, tpi: 3}\n",
        c="parts: [\n",
        d="title: nothing\n",
    )
    found = [(fault.mark.file[-6:], fault.mark.line, fault.read) for fault in faults_of(own)]
    assert found == [
        ("a.yaml", 3, "p"), ("a.yaml", 4, "kind"),
        ("b.yaml", 3, "tip"), ("b.yaml", 4, "twenty"), ("b.yaml", 5, "y"),
        ("c.yaml", 1, ""), ("d.yaml", 1, ""),
    ]  # fmt: skip
    assert "did you mean `tpi`?" in faults_of(own)[2].hint


def test_the_same_id_twice_in_one_layer(tmp_path: Path) -> None:
    own = folder(tmp_path, "mine", a="parts:\n  - {id: p, kind: hub}\n", b="parts:\n  - {id: p, kind: hub}\n")
    (fault,) = faults_of(own)
    assert (fault.mark.file, fault.read) == (f"{own}/b.yaml", "p")
    assert f"{own}/a.yaml:2" in fault.hint


def test_a_family_with_faults(tmp_path: Path) -> None:
    own = folder(
        tmp_path,
        "mine",
        a="parts:\n"
        "  - {family: 'n-{nut.tread}', over: {nut: [{thread: 1/2-20}]}, kind: lug-nut}\n"
        "  - {family: 'n-{t.key}', over: {t: {table: uncc}}, kind: lug-nut}\n"
        "  - {family: 'n-{t}', over: {t: []}, kind: lug-nut, seat: }\n"
        "  - {family: 'n', over: {t: [1, 2]}, kind: lug-nut}\n",
    )
    found = faults_of(own)
    assert [(fault.mark.line, fault.read) for fault in found] == [
        (2, "{nut.tread}"), (3, "uncc"), (4, ""), (5, "n"),
    ]  # fmt: skip
    assert "{nut.thread}" in found[0].hint
    assert "unc" in found[1].hint


def test_a_family_too_large_is_refused(tmp_path: Path) -> None:
    many = ", ".join(str(n) for n in range(400))
    text = f"parts:\n  - {{family: 'a-{{x}}-{{y}}', over: {{x: [{many}], y: [{many}]}}, kind: hub}}\n"
    (fault,) = faults_of(folder(tmp_path, "mine", a=text))
    assert "160000" in fault.hint


@pytest.mark.parametrize("name", ["missing", "empty"])
def test_a_folder_that_cannot_serve(tmp_path: Path, name: str) -> None:
    (tmp_path / "empty").mkdir()
    (fault,) = faults_of(tmp_path / name)
    assert fault.mark.file == str(tmp_path / name)


def test_fields_are_checked_by_the_kinds(tmp_path: Path) -> None:
    def check(kind: ScalarNode, fields: Fields, tables: Source) -> Iterable[Fault]:
        assert tables.row("unc", "1/2")
        return [
            Fault(key.mark, key.text, f"a field of {kind.text}") for key, _ in fields if key.text == "studs"
        ]

    own = folder(
        tmp_path,
        "mine",
        a="parts:\n  - {id: p, kind: hub, studs: 5}\n"
        "  - {family: 'q-{n}', over: {n: [1, 2, 3]}, kind: hub, studs: 6}\n",
    )
    assert [(fault.mark.line, fault.expected) for fault in faults_of(own, check_entry=check)] == [
        (2, "a field of hub"), (3, "a field of hub"),  # a family's mistake is told once
    ]  # fmt: skip
