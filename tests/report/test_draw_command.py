"""``partscheck draw``: one drawing to a file, the list of what can be drawn, and what is missing."""

from __future__ import annotations

from pathlib import Path
from xml.etree import ElementTree

import pytest
from drawn import EXAMPLES, drawn

from partscheck.cli import main
from partscheck.commands.draw import KINDS

FIRST = [str(EXAMPLES / "apiary-first.yaml"), "--catalog", str(EXAMPLES / "catalog")]


@pytest.mark.parametrize("what", ["wheel-end", "wheel-end-1L"])
def test_a_drawing_goes_to_a_file(what: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    target = tmp_path / "x.svg"
    assert main(["draw", *FIRST, what, "-o", str(target)]) == 0
    assert target.read_text() == drawn("apiary-first")["wheel-end-1L"].svg() + "\n"
    assert "Wrote" in capsys.readouterr().err


def test_without_a_file_it_is_printed(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["draw", FIRST[0], "joint", *FIRST[1:]]) == 0
    told = capsys.readouterr()
    assert ElementTree.fromstring(told.out).get("role") == "img"
    assert "joint-bump-stop-to-arm" in told.err


def test_alone_it_lists_what_can_be_drawn(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["draw", *FIRST]) == 0
    out = capsys.readouterr().out
    for slug in drawn("apiary-first"):
        assert slug in out


def test_the_kinds_of_the_help_are_those_that_are_drawn() -> None:
    assert list(dict.fromkeys(one.kind for one in drawn("apiary-corrected").values())) == list(KINDS)


def test_an_unknown_name_gets_the_list(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["draw", *FIRST, "engine"]) == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert "engine" in told.err
    assert "side-view" in told.err


def test_what_is_missing_is_named(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["draw", str(EXAMPLES / "four-line-cart.yaml"), "side-view"]) == 2
    assert "layout.coupler_to_axle" in capsys.readouterr().err


def test_units_choose_what_leads(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["draw", *FIRST, "load-path", "--units", "metric"]) == 0
    assert "1179 kg (2600 lb)" in capsys.readouterr().out


def test_a_list_that_cannot_be_read_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    broken = tmp_path / "broken.yaml"
    broken.write_text("parts:\n  - {kind: wheel, sise: 15 x 6 in}\n")
    assert main(["draw", str(broken)]) == 2
    assert "sise" in capsys.readouterr().err


def test_the_listing_keeps_to_the_page(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", "80")
    assert main(["draw", str(EXAMPLES / "four-line-cart.yaml")]) == 0
    out = capsys.readouterr().out
    assert max(map(len, out.splitlines())) <= 80
    listed = " ".join(out.split())
    assert "load-plane-1L wheel.offset, hub.inner_bearing_to_face, hub.outer_bearing_to_face" in listed
