"""``partscheck fix`` on the command line, its text and its JSON."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest

import partscheck
from partscheck.cli import main

ROOT = Path(__file__).resolve().parents[2]
FIRST = str(ROOT / "examples/apiary-first.yaml")
CART = str(ROOT / "examples/four-line-cart.yaml")
CATALOG = ["--catalog", str(ROOT / "examples/catalog")]
PATIENT = ["--time", "3600"]  # a busy machine fails no test
SCHEMA = json.loads((ROOT / "schemas/fix.schema.json").read_text(encoding="utf-8"))


def run(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str, str]:
    status = main(["fix", *words])
    told = capsys.readouterr()
    return status, told.out, told.err


@pytest.mark.parametrize("columns", ["80", "120"])
def test_text_of_the_demo(capsys: pytest.CaptureFixture[str], monkeypatch: Any, columns: str) -> None:
    monkeypatch.setenv("COLUMNS", columns)
    status, out, err = run(capsys, FIRST, *CATALOG, *PATIENT)
    assert (status, err) == (0, "")
    assert max(map(len, out.splitlines())) <= min(100, int(columns))
    first = out.splitlines()[0]
    assert first.startswith("FIX - Apiary trailer")
    assert "clear them all" in first
    for words in ("PLAN 1", "BUY", "DO IN THE SHOP", "THEN", "No stop is left, and none is new.", "Danger:",
                  "licensed practice", "as plan 1 but for these"):  # fmt: skip
        assert words in out


def test_same_input_same_bytes(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(capsys, CART)[1] == run(capsys, CART)[1]


def test_json_keeps_to_its_schema(capsys: pytest.CaptureFixture[str]) -> None:
    status, out, _ = run(capsys, FIRST, *CATALOG, *PATIENT, "--plans", "1", "--format", "json")
    data = json.loads(out)
    jsonschema.Draft202012Validator(SCHEMA).validate(data)
    assert status == 0
    assert data["clears_all"]
    assert data["proven"]
    stops = [one for one in data["findings"] if one["verdict"] == "stop"]
    assert data["stops"] == len(stops)
    tried = [remedy["tried"] for one in stops for remedy in one["remedies"] if "tried" in remedy]
    assert sum(bool(one["clears"]) for one in tried) >= 10
    assert all({*one} == {"clears", "causes"} for one in tried)


def test_json_of_a_list_that_nothing_clears(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    text = (
        "service: {gross_weight: 2000 lb}\n"
        "layout: {coupler_to_axle: 100 in}\n"
        "parts: []\n"
        "loads:\n"
        "  - {what: frame, weight: 500 lb, from_coupler: 110 in}\n"
    )
    path = tmp_path / "light.yaml"
    path.write_text(text, encoding="utf-8")
    status, out, _ = run(capsys, str(path), "--format", "json")
    data = json.loads(out)
    jsonschema.Draft202012Validator(SCHEMA).validate(data)
    assert status == (0 if data["clears_all"] else 1)


def test_write_gives_a_list_without_stops(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    path = tmp_path / "fixed.yaml"
    status, _, err = run(capsys, FIRST, *CATALOG, *PATIENT, "--plans", "1", "--write", str(path))
    assert status == 0
    assert err.startswith(f"Wrote {path}\n")
    assert "line 21: # from the axle to the receiver at the rear" in err  # the axle moves
    assert partscheck.check(str(path), CATALOG[1:]).verdict != "stop"


def test_write_what_is_not_there_writes_nothing(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    path = tmp_path / "fixed.yaml"
    status, _, err = run(capsys, CART, "--write", str(path), "--pick", "19")
    assert status == 2
    assert "there is no plan 19" in err
    assert not path.exists()


def test_nothing_to_fix(capsys: pytest.CaptureFixture[str]) -> None:
    status, out, _ = run(capsys, str(ROOT / "examples/metric-750.yaml"))
    assert status == 0
    assert out.startswith("NOTHING TO FIX")


def test_too_little_time_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    status, out, _ = run(capsys, FIRST, *CATALOG, "--time", "0.000001")
    assert status == 1
    assert "time was over" in out
    assert out.startswith("NO PLAN YET")
    assert "nothing here clears" not in out  # that is not known


@pytest.mark.parametrize("words", [["--plans", "0"], ["--plans", "x"], ["--time", "0"], ["--time", "nan"],
                                   ["--time", "soon"], ["--by", "looks"]])  # fmt: skip
def test_options_that_cannot_be(capsys: pytest.CaptureFixture[str], words: list[str]) -> None:
    with pytest.raises(SystemExit) as caught:
        main(["fix", CART, *words])
    assert caught.value.code == 2
    assert "Traceback" not in capsys.readouterr().err


def test_a_list_that_cannot_be_read(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    path = tmp_path / "bad.yaml"
    path.write_text("parts:\n  - {kind: hubb, qty: x}\n", encoding="utf-8")
    status, out, err = run(capsys, str(path))
    assert (status, out) == (2, "")
    assert "bad.yaml" in err
    assert "hub" in err
    assert run(capsys, str(tmp_path / "none.yaml"))[0] == 2


def test_standard_input(capsys: pytest.CaptureFixture[str], monkeypatch: Any) -> None:
    import io
    import sys

    data = Path(CART).read_bytes()
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(data), encoding="utf-8"))
    status, out, _ = run(capsys, "-")
    assert status == 0
    assert "Trim the hub studs" in out
