"""The command line: exit status, formats, widths, and no traceback whatever happens."""

from __future__ import annotations

import io
import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from partscheck.build.places import Whole
from partscheck.cli import main
from partscheck.rules import load_rules
from partscheck.rules.basis import practice
from partscheck.rules.registry import Rule

ROOT = Path(__file__).resolve().parent.parent
# The lists; a swap file is none.
EXAMPLES = [path for path in sorted((ROOT / "examples").glob("*.yaml")) if "\nparts:" in path.read_text("utf-8")]
CATALOG = str(ROOT / "examples" / "catalog")
SCHEMA = json.loads((ROOT / "schemas" / "report.schema.json").read_text(encoding="utf-8"))

FITS = """\
build: fits
parts:
  - {kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, stud_length: 1.5 in, qty: 2}
  - {kind: wheel, bolt_circle: 5 x 114.3 mm, size: 15 x 7 in, qty: 2}
  - {kind: lug-nut, thread: 1/2-20, seat: conical, closed: false, qty: 10}
"""
WRONG = FITS.replace("114.3", "115")
UNCLEAR = FITS.replace("5 x 114.3 mm", "unknown")

Capture = pytest.CaptureFixture[str]


@pytest.fixture
def lists(tmp_path: Path) -> Path:
    for name, text in (
        ("fits", FITS),
        ("wrong", WRONG),
        ("unclear", UNCLEAR),
        ("broken", "parts: [{kind: hubb}]\n"),
    ):
        (tmp_path / f"{name}.yaml").write_text(text, encoding="utf-8")
    return tmp_path


def run(capsys: Capture, *arguments: str) -> tuple[int, str, str]:
    """(exit status, standard output, standard error)."""
    status = main(list(arguments))
    out, err = capsys.readouterr()
    assert "Traceback" not in out + err
    return status, out, err


# ---- exit status ---------------------------------------------------------------------------


def test_no_stop_is_0(lists: Path, capsys: Capture) -> None:
    status, out, err = run(capsys, "check", str(lists / "fits.yaml"))
    assert (status, err) == (0, "")
    assert out.split(" - ")[0] in ("ALL HELD", "NO STOP")


def test_measure_is_no_stop(lists: Path, capsys: Capture) -> None:
    status, out, _ = run(capsys, "check", str(lists / "unclear.yaml"))
    assert status == 0
    assert "wheel.bolt_circle" in out


def test_a_stop_is_1(lists: Path, capsys: Capture) -> None:
    status, out, err = run(capsys, "check", str(lists / "wrong.yaml"))
    assert (status, err) == (1, "")
    assert out.startswith("STOP - fits:")
    assert "bolt-circle-mismatch" in out
    assert "line 4" in out


def test_a_list_that_cannot_be_used_is_2(lists: Path, capsys: Capture) -> None:
    status, out, err = run(capsys, "check", str(lists / "broken.yaml"))
    assert (status, out) == (2, "")
    assert "line 1, column 16" in err


@pytest.mark.parametrize("text", ["parts: []\n", "parts:\n", "parts:\n  - {kind: other, what: rope}\n"])
def test_nothing_checked_is_2_and_says_why(
    text: str, monkeypatch: pytest.MonkeyPatch, tmp_path: Path, capsys: Capture
) -> None:
    file = tmp_path / "list.yaml"
    file.write_text(text, encoding="utf-8")
    monkeypatch.setattr("partscheck.engine.load_rules", lambda: bolt_circles_only())
    status, out, _ = run(capsys, "check", str(file))
    assert status == 2
    assert out.startswith("NOTHING CHECKED")
    status, out, _ = run(capsys, "check", str(file), "--format", "json")
    assert (status, json.loads(out)["verdict"]) == (2, "nothing")


def bolt_circles_only() -> dict[str, Rule]:
    return {"bolt-circle-mismatch": load_rules()["bolt-circle-mismatch"]}


@pytest.mark.parametrize("arguments", [[], ["check"], ["chekc", "x"], ["check", "x", "--format", "xml"]])
def test_a_wrong_call_is_2(arguments: list[str], capsys: Capture) -> None:
    try:
        status: Any = main(arguments)
    except SystemExit as left:
        status = left.code
    assert status == 2
    assert "Traceback" not in capsys.readouterr().err


# ---- what goes wrong inside ------------------------------------------------------------------


def crashing(whole: Whole) -> None:
    """A rule that crashes is a finding."""
    raise KeyError("forty\ntwo")


def test_a_rule_that_crashes_is_a_finding_and_2(
    lists: Path, monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    crash = Rule("crashes-itself", Whole, (), (practice("a test"),), crashing, "tests")
    monkeypatch.setattr("partscheck.engine.load_rules", lambda: {**load_rules(), "crashes-itself": crash})
    status, out, _ = run(capsys, "check", str(lists / "fits.yaml"))
    assert status == 2
    assert "[crashes-itself]" in out
    assert "KeyError" in out
    status, out, _ = run(capsys, "check", str(lists / "fits.yaml"), "--format", "json")
    assert status == 2
    jsonschema.validate(json.loads(out), SCHEMA)
    assert "crashes-itself" in [one["rule"] for one in json.loads(out)["findings"]]


@pytest.mark.parametrize(
    "error", [RuntimeError("no luck"), RecursionError(), MemoryError(), KeyboardInterrupt()]
)
def test_a_program_that_fails_says_so_and_is_2(
    error: BaseException, lists: Path, monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    def fail(*_: object) -> None:
        raise error

    monkeypatch.setattr("partscheck.check", fail)
    status, out, err = run(capsys, "check", str(lists / "fits.yaml"))
    assert (status, out) == (2, "")
    assert len(err.splitlines()) == 1


def test_a_reader_that_goes_away_is_no_error_message(lists: Path) -> None:
    """``partscheck check LIST | head -0``."""
    read, write = os.pipe()
    os.close(read)
    done = subprocess.run(
        [sys.executable, "-m", "partscheck", "check", str(lists / "wrong.yaml")],
        stdout=write, stderr=subprocess.PIPE, text=True, cwd=ROOT, check=False,
    )  # fmt: skip
    os.close(write)
    assert done.stderr == ""


def test_the_help_keeps_names_as_they_are_written_and_its_own_exit_status() -> None:
    from partscheck.cli import parser

    pages = {name: command.format_help() for name, command in next(
        action.choices.items() for action in parser()._actions if isinstance(action.choices, dict)
    )}  # fmt: skip
    assert "one HTML page" in pages["report"]
    assert "as SVG" in pages["draw"]
    for name in ("bom", "draw", "explain", "new", "rules"):  # they do their work whatever the list is like
        assert "at least one stop" not in pages[name]


@pytest.mark.skipif(not os.path.exists("/dev/full"), reason="a device that is always full is Linux's")
@pytest.mark.parametrize("names", [["wrong.yaml"], ["wrong.yaml", "fits.yaml"]], ids=["one list", "two lists"])
def test_a_full_disk_is_told_and_is_not_our_failure(names: list[str], lists: Path) -> None:
    with open("/dev/full", "w", encoding="utf-8") as full:
        done = subprocess.run(
            [sys.executable, "-m", "partscheck", "check", *(str(lists / name) for name in names)],
            stdout=full, stderr=subprocess.PIPE, text=True, cwd=ROOT, check=False,
        )  # fmt: skip
    assert done.returncode == 2
    assert done.stderr == "The output cannot be written: No space left on device.\n"


@pytest.mark.parametrize("options", [(), ("--all",)])
def test_a_name_written_with_escapes_steers_no_screen(
    options: tuple[str, ...], tmp_path: Path, capsys: Capture
) -> None:
    """YAML makes ESC of "\\e" and a mark that turns the writing of "\\u202E": both are text in quotes."""
    tricks = r'"\e[31mred \u202E turned \0 \a \N end"'
    file = tmp_path / "list.yaml"
    file.write_text(f"build: {tricks}\n{WRONG.partition(chr(10))[2]}loads: [{{what: {tricks}, weight: 5 lb}}]\n")
    status, out, _ = run(capsys, "check", str(file), *options)
    assert status == 1
    assert "[31mred" in out
    assert all(line.isprintable() for line in out.split("\n"))


# ---- input and options -----------------------------------------------------------------------


def test_standard_input(monkeypatch: pytest.MonkeyPatch, capsys: Capture) -> None:
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(WRONG.encode())))
    status, out, _ = run(capsys, "check", "-", "--format", "json")
    assert status == 1
    assert json.loads(out)["findings"][0]["source"]["file"] == "standard input"


@pytest.mark.parametrize("file", EXAMPLES, ids=[file.stem for file in EXAMPLES])
def test_json_is_as_its_schema_says(file: Path, capsys: Capture) -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    status, out, err = run(capsys, "check", str(file), "--catalog", CATALOG, "--format", "json")
    report = json.loads(out)
    jsonschema.validate(report, SCHEMA)
    assert (status, err) == (int(report["verdict"] == "stop"), "")


@pytest.mark.parametrize("file", EXAMPLES, ids=[file.stem for file in EXAMPLES])
def test_load_path_rows_add_up_and_the_least_room_is_first(file: Path, capsys: Capture) -> None:
    _, out, _ = run(capsys, "check", str(file), "--catalog", CATALOG, "--format", "json")
    rows = [row for row in json.loads(out)["load_path"] if row["margin"] is not None]
    for row in rows:
        assert row["rating"] - row["share"] == pytest.approx(row["margin"], abs=1e-3)
    assert [row["margin"] for row in rows] == sorted(row["margin"] for row in rows)


def test_json_of_a_list_that_cannot_be_used(lists: Path, capsys: Capture) -> None:
    status, out, err = run(capsys, "check", str(lists / "broken.yaml"), "--format", "json")
    (fault,) = json.loads(out)["faults"]
    assert status == 2
    assert (fault["read"], fault["source"]["line"], fault["source"]["column"]) == ("hubb", 1, 16)
    assert "hubb" in err


@pytest.mark.parametrize(
    ("units", "first"), [("inch", "0.014 in (0.35 mm)"), ("metric", "0.35 mm (0.014 in)")]
)
def test_units_choose_what_leads(units: str, first: str, lists: Path, capsys: Capture) -> None:
    _, out, _ = run(capsys, "check", str(lists / "wrong.yaml"), "--units", units)
    assert first in " ".join(out.split())


def test_all_shows_what_sits_on_what(capsys: Capture) -> None:
    _, out, _ = run(
        capsys, "check", str(ROOT / "examples" / "four-line-cart.yaml"), "--all", "--catalog", CATALOG
    )
    assert "hub -> adapter 'plate' -> wheel at 1L, 1R" in out
    assert "WHAT SITS ON WHAT" in out
    assert "HELD" in out
    assert "bolt-circle-mismatch: hub, adapter 'plate'" in " ".join(out.split())


def test_later_catalogues_win_and_it_is_said(tmp_path: Path, capsys: Capture) -> None:
    entry = (
        "title: mine\nedition: now\nbasis: {{kind: practice, source: measured}}\n"
        "parts:\n  - {{id: my-hub, kind: hub, bolt_circle: {circle}}}\n"
    )
    for name, circle in (("first", "5 x 5.5 in"), ("second", "5 x 4.5 in")):
        (tmp_path / name).mkdir()
        (tmp_path / name / "parts.yaml").write_text(entry.format(circle=circle), encoding="utf-8")
    file = tmp_path / "list.yaml"
    file.write_text(
        WRONG.replace("{kind: hub, bolt_circle: 5 x 4.5 in", "{part: my-hub").replace("115 mm", "114.3 mm"),
        encoding="utf-8",
    )
    one, two = str(tmp_path / "first"), str(tmp_path / "second")
    status, out, _ = run(capsys, "check", str(file), "--catalog", one, "--catalog", two)
    assert status == 0
    assert "my-hub" in out
    assert run(capsys, "check", str(file), "--catalog", two, "--catalog", one)[0] == 1
    assert run(capsys, "check", str(file), "--catalog", one)[0] == 1


def test_a_catalogue_that_is_not_there(lists: Path, capsys: Capture) -> None:
    status, out, err = run(capsys, "check", str(lists / "fits.yaml"), "--catalog", str(lists / "none"))
    assert (status, out) == (2, "")
    assert "none" in err


# ---- new, explain, rules ---------------------------------------------------------------------


def test_new_writes_a_list_that_checks_without_a_fault(tmp_path: Path, capsys: Capture) -> None:
    file = tmp_path / "mine.yaml"
    assert run(capsys, "new", str(file))[0] == 0
    status, out, err = run(capsys, "check", str(file))
    assert (status, err) == (0, "")
    assert "my trailer" in out


def test_new_overwrites_nothing(tmp_path: Path, capsys: Capture) -> None:
    file = tmp_path / "mine.yaml"
    file.write_text("precious\n", encoding="utf-8")
    status, _, err = run(capsys, "new", str(file))
    assert status == 2
    assert "is there already" in err
    assert file.read_text(encoding="utf-8") == "precious\n"


def test_new_where_nothing_can_be_written(tmp_path: Path, capsys: Capture) -> None:
    status, _, err = run(capsys, "new", str(tmp_path / "none" / "mine.yaml"))
    assert status == 2
    assert "cannot be written" in err


def test_new_to_standard_output(capsys: Capture) -> None:
    status, out, _ = run(capsys, "new")
    assert status == 0
    assert "parts:" in out


@pytest.mark.parametrize("slug", sorted(load_rules()))
def test_explain_every_rule(slug: str, capsys: Capture) -> None:
    status, out, err = run(capsys, "explain", slug)
    assert (status, err) == (0, "")
    assert out.startswith(slug)
    assert "Basis: " in out
    assert all(len(line) <= 100 for line in out.splitlines())


@pytest.mark.parametrize(
    "name", ["hub.stud_length", "service.gross_weight", "bolt_circle_tolerance", "washer.for"]
)
def test_explain_fields_and_limits(name: str, capsys: Capture) -> None:
    status, out, _ = run(capsys, "explain", name)
    assert status == 0
    assert out.startswith(name)


@pytest.mark.parametrize(
    ("name", "near"),
    [("bolt-circle-mismach", "bolt-circle-mismatch"), ("hub.stud_lenght", "hub.stud_length")],
)
def test_explain_what_there_is_not_names_the_nearest(name: str, near: str, capsys: Capture) -> None:
    status, out, err = run(capsys, "explain", name)
    assert (status, out) == (2, "")
    assert near in err


def test_rules_lists_every_rule_with_its_sentence(capsys: Capture) -> None:
    status, out, _ = run(capsys, "rules")
    assert status == 0
    words = " ".join(out.split())
    for slug, rule in load_rules().items():
        assert f"{slug} {rule.sentence}" in words


def test_rules_lists_every_limit(capsys: Capture) -> None:
    from case_files import shipped_catalogue

    _, out, _ = run(capsys, "rules", "--limits")
    for row in shipped_catalogue().rows("practice"):
        assert f"{row['key']}: {row['value']}" in out


# ---- the look of it --------------------------------------------------------------------------


@pytest.mark.parametrize(("terminal", "most"), [(80, 80), (60, 60), (100, 100), (200, 100)])
@pytest.mark.parametrize("file", EXAMPLES, ids=[file.stem for file in EXAMPLES])
def test_no_line_is_wider_than_the_terminal(
    file: Path, terminal: int, most: int, monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    monkeypatch.setenv("COLUMNS", str(terminal))
    _, out, _ = run(capsys, "check", str(file), "--catalog", CATALOG, "--all")
    too_wide = [line for line in out.splitlines() if len(line) > most and len(line.split()) > 1]
    assert not too_wide


@pytest.mark.parametrize("command", [["rules"], ["rules", "--limits"], ["explain", "hub.bolt_circle"]])
def test_no_page_is_wider_than_the_terminal(
    command: list[str], monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    monkeypatch.setenv("COLUMNS", "80")
    _, out, _ = run(capsys, *command)
    assert not [line for line in out.splitlines() if len(line) > 80 and len(line.split()) > 1]


def test_faults_are_no_wider_either(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Capture) -> None:
    monkeypatch.setenv("COLUMNS", "80")
    file = tmp_path / "list.yaml"
    file.write_text(
        "parts:\n  - {kind: hub, offset: 3, note: " + "x " * 300 + "}\n  - {kind: hubb}\n", encoding="utf-8"
    )
    _, _, err = run(capsys, "check", str(file))
    assert not [line for line in err.splitlines() if len(line) > 80 and len(line.split()) > 1]


@pytest.mark.parametrize("form", ["text", "json"])
def test_same_input_same_bytes(form: str) -> None:
    def once(seed: str) -> bytes:
        return subprocess.run(
            [sys.executable, "-m", "partscheck", "check", "examples/apiary-first.yaml", "--catalog",
             "examples/catalog", "--all", "--format", form],
            stdout=subprocess.PIPE, cwd=ROOT, check=False, env={**os.environ, "PYTHONHASHSEED": seed},
        ).stdout  # fmt: skip

    first = once("1")
    assert first
    assert first == once("2")


def test_a_terminal_without_the_signs_is_no_crash(lists: Path) -> None:
    (lists / "signs.yaml").write_text(WRONG.replace("build: fits", "build: Bienen ± Käfer"), encoding="utf-8")
    done = subprocess.run(
        [sys.executable, "-m", "partscheck", "check", str(lists / "signs.yaml")],
        capture_output=True, cwd=ROOT, check=False, env={**os.environ, "PYTHONIOENCODING": "ascii"},
    )  # fmt: skip
    assert done.returncode == 1
    assert done.stdout.startswith(b"STOP - Bienen ? K?fer:")
    assert b"Traceback" not in done.stderr


def test_no_colour() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "partscheck", "check", "examples/four-line-cart.yaml"],
        stdout=subprocess.PIPE, cwd=ROOT, check=False, env={**os.environ, "FORCE_COLOR": "1"},
    )  # fmt: skip
    assert b"\x1b" not in done.stdout


def test_a_hyphen_as_output_is_the_screen(
    tmp_path: Path, capsys: Capture, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("list.yaml").write_text(FITS, encoding="utf-8")
    shown = []
    for more in ([], ["-o", "-"]):
        main(["bom", "list.yaml", *more])
        shown.append(capsys.readouterr().out)
    assert shown[0] == shown[1] != ""
    assert not Path("-").exists()


@pytest.mark.skipif(not os.path.exists("/dev/full"), reason="devices of POSIX systems")
def test_a_device_stays_one(tmp_path: Path, capsys: Capture) -> None:
    (tmp_path / "list.yaml").write_text(FITS, encoding="utf-8")
    assert main(["bom", str(tmp_path / "list.yaml"), "-o", "/dev/null"]) != 2
    assert Path("/dev/null").is_char_device()
    assert main(["bom", str(tmp_path / "list.yaml"), "-o", "/dev/full"]) == 2
    assert "cannot be written" in capsys.readouterr().err
