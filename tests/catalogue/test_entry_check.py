"""Entries of a catalogue against the part kinds: kind, field names, and how values are written."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from partscheck.catalogue import Catalogue
from partscheck.catalogue.entry_check import check_entry
from partscheck.notation.faults import Faults

if TYPE_CHECKING:
    from pathlib import Path


def faults_of(root: Path, text: str) -> list[tuple[int, int, str]]:
    file = root / "own.yaml"
    file.write_text(text, encoding="utf-8")
    with pytest.raises(Faults) as caught:
        Catalogue.load([file], check_entry)
    return [(fault.mark.line, fault.mark.column, str(fault)) for fault in caught.value.faults]


def test_the_shipped_catalogue_has_no_faults() -> None:
    assert Catalogue.load([], check_entry).part("adapter-5x4.5-to-5x5.5") is not None


def test_every_mistake_of_an_entry_is_told_where_it_stands(tmp_path: Path) -> None:
    found = faults_of(
        tmp_path,
        "parts:\n"
        "  - {id: a, kind: hubb}\n"
        "  - id: b\n"
        "    kind: hub\n"
        "    stud_lenght: 1.75 in\n"
        "    pilot: 60\n"
        "    cap_height: unknown\n"
        "    stud_thread: 1/2-20\n",
    )
    assert [(line, column) for line, column, _ in found] == [(2, 19), (5, 5), (6, 12)]
    assert "`hub`" in found[0][2]
    assert "`stud_length`" in found[1][2]
    assert "60 mm" in found[2][2]


def test_an_entry_cannot_stand_on_another(tmp_path: Path) -> None:
    (found,) = faults_of(tmp_path, "parts:\n  - {id: a, kind: hub, part: b}\n")
    assert 'read "part"' in found[2]
