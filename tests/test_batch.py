"""Many lists: what is taken for a list, the summary, exit status, processes, and one bad file among good ones."""

from __future__ import annotations

import io
import json
import os
import sys
from pathlib import Path

import jsonschema
import junitparser
import pytest
import referencing
from hostile import FILE, UNSEEN, hostile_list

from partscheck import progress
from partscheck.cli import main
from partscheck.commands import check_many
from partscheck.report.batch_text import TextSummary
from partscheck.uses import batch
from partscheck.uses.batch import Asked, check_files, files_of, jobs_for, why_no_list
from partscheck.uses.checked_file import CheckedFile, Row

ROOT = Path(__file__).resolve().parent.parent
SCHEMAS, EXAMPLES = ROOT / "schemas", ROOT / "examples"
Capture = pytest.CaptureFixture[str]

FITS = """\
build: fits
parts:
  - {kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, stud_length: 1.5 in, qty: 2}
  - {kind: wheel, bolt_circle: 5 x 114.3 mm, size: 15 x 7 in, qty: 2}
  - {kind: lug-nut, thread: 1/2-20, seat: conical, closed: false, qty: 10}
"""
WRONG = FITS.replace("114.3", "115").replace("fits", "wrong")
BROKEN = "parts: [{kind: hubb}]\n"
SWAP = "swap: x\nreplace:\n  wheel: {offset: 0}\n"
CATALOGUE = "title: t\nedition: e\nbasis: {kind: practice, source: s}\nparts:\n  - {id: a, kind: hub}\n"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    lists = tmp_path / "lists"
    (lists / "deeper").mkdir(parents=True)
    for name, text in {
        "b-fits.yaml": FITS, "a-wrong.yml": WRONG, "c-broken.yaml": BROKEN, "swap.yaml": SWAP,
        "stock.yaml": CATALOGUE,
        "other.yaml": "a: 1\n", "notes.txt": FITS, ".hidden.yaml": FITS, "deeper/x.yaml": FITS,
    }.items():  # fmt: skip
        (lists / name).write_text(text, encoding="utf-8")
    return lists


def run(capsys: Capture, *arguments: str) -> tuple[int, str, str]:
    status = main(["check", *arguments])
    out, err = capsys.readouterr()
    assert "Traceback" not in out + err
    return status, out, err


# ---- what is taken for a list --------------------------------------------------------------------


def test_a_folder_stands_for_its_yaml_files_by_name(folder: Path) -> None:
    names = [Path(one.file).name for one in files_of([str(folder)])]
    assert names == ["a-wrong.yml", "b-fits.yaml", "c-broken.yaml", "other.yaml", "stock.yaml", "swap.yaml"]


def test_a_file_named_twice_is_checked_once_and_named_files_come_first(folder: Path) -> None:
    named = str(folder / "swap.yaml")
    found = files_of([named, str(folder), named])
    assert [one.file for one in found].count(named) == 1
    assert found[0].named


def test_a_file_is_checked_once_however_its_name_is_written(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(folder)
    found = files_of(["b-fits.yaml", "./b-fits.yaml", str(folder / "b-fits.yaml"), "deeper/../b-fits.yaml", "."])
    assert [one.file for one in found if one.file.endswith("b-fits.yaml")] == ["b-fits.yaml"]


def test_a_link_that_leads_nowhere_is_not_lost(folder: Path, capsys: Capture) -> None:
    (folder / "d-link.yaml").symlink_to("nowhere.yaml")
    (folder / "loop.yaml").symlink_to("loop.yaml")
    (folder / "e-folder.yaml").mkdir()
    status, out, err = run(capsys, str(folder))
    assert status == 2
    assert "no such file" in err
    for name in ("d-link.yaml", "loop.yaml"):
        assert name in err
    assert "e-folder.yaml" not in out


@pytest.mark.parametrize(
    ("text", "why"),
    [
        (FITS, ""), (BROKEN, ""), ("# remark\n---\nparts: []\n", ""), ("\ufeffparts: []\n", ""),
        ("{parts: [], build: x}\n", ""), ('"parts": []\n', ""), ("{parts: [\n", ""),
        ("build: x\r\nparts:\r\n- {kind: hub}\r\n", ""),
        (SWAP, "a swap file"), ("{replace: {a: {b: c}}}", "a swap file"), (CATALOGUE, "a catalogue file"),
        ("title: t\ntable: x\nrows: []\n", "a catalogue file"),
        ("", "no key `parts`: not a parts list"), ("- parts\n", "no key `parts`: not a parts list"),
        ("service:\n  parts: 1\n", "no key `parts`: not a parts list"),
        ("\x00\x01", "no key `parts`: not a parts list"),
    ],
)  # fmt: skip
def test_the_keys_at_the_top_decide(text: str, why: str, tmp_path: Path) -> None:
    file = tmp_path / "x.yaml"
    file.write_bytes(text.encode())
    assert why_no_list(str(file)) == why


def test_a_folder_within_is_named_and_not_taken_for_checked(folder: Path, capsys: Capture) -> None:
    deeper = folder / "deeper"
    for form in ("text", "json", "markdown", "sarif", "junit"):
        assert f"{deeper} was not looked into" in run(capsys, str(folder), "--format", form)[2]
    (folder / "empty").mkdir()
    (folder / ".git").mkdir()
    (folder / ".git" / "x.yaml").write_text(FITS, encoding="utf-8")
    err = run(capsys, str(folder), str(deeper))[2]
    assert "was not looked into" not in err
    (folder / "stock").mkdir()
    (folder / "stock" / "a.yaml").write_text(CATALOGUE.replace("- {id: a, kind: hub}", "[]"), encoding="utf-8")
    err = run(capsys, str(folder), str(deeper), "--catalog", str(folder / "stock"))[2]
    assert "was not looked into" not in err


@pytest.mark.parametrize("form", ["text", "json", "markdown", "sarif", "junit"])
@pytest.mark.parametrize("asked", ["b-fits.yaml", "a-wrong.yml", "c-broken.yaml", ""])
def test_a_file_gets_what_the_screen_would(form: str, asked: str, folder: Path, capsys: Capture) -> None:
    """One list or a folder of them, in every format, with the same exit status; and nothing on the screen."""
    target = folder.parent / "out.txt"
    status, out, _ = run(capsys, str(folder / asked), "--format", form)
    again, screen, _ = run(capsys, str(folder / asked), "--format", form, "-o", str(target))
    assert (again, screen) == (status, "")
    assert (target.read_text(encoding="utf-8") if target.exists() else "") == out


def test_a_file_that_cannot_be_written_is_2(folder: Path, capsys: Capture) -> None:
    for asked in (folder, folder / "b-fits.yaml"):
        status, _, err = run(capsys, str(asked), "-o", str(folder / "gone" / "out.txt"))
        assert status == 2
        assert "cannot be written" in err


def test_what_is_passed_over_is_said(folder: Path, capsys: Capture) -> None:
    _, out, _ = run(capsys, str(folder))
    passed = out.partition("PASSED OVER")[2]
    for name, why in (
        ("swap.yaml", "a swap file"),
        ("stock.yaml", "a catalogue file"),
        ("other.yaml", "no key `parts`"),
    ):
        assert f"{name}: {why}" in passed.replace("\n    ", " ")


# ---- exit status ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("names", "status"),
    [(["b-fits.yaml", "b-fits.yaml"], None), (["b-fits.yaml", "a-wrong.yml"], 1),
     (["a-wrong.yml", "c-broken.yaml"], 2),
     (["b-fits.yaml", "swap.yaml"], 2), (["b-fits.yaml", "missing.yaml"], 2)],
)  # fmt: skip
@pytest.mark.parametrize("form", ["text", "json", "markdown", "sarif", "junit"])
def test_the_worst_list_counts(
    names: list[str], status: int | None, form: str, folder: Path, capsys: Capture
) -> None:
    found, out, _ = run(capsys, *(str(folder / name) for name in names), "--format", form)
    assert out
    assert found == (0 if status is None else status)


def test_one_list_among_none_is_still_a_summary(folder: Path, capsys: Capture) -> None:
    only = folder / "deeper"
    status, out, _ = run(capsys, str(only))
    assert status == 0
    assert out.startswith("1 list: ")


def test_a_folder_without_a_list_is_2(tmp_path: Path, folder: Path, capsys: Capture) -> None:
    (tmp_path / "empty").mkdir()
    status, _, err = run(capsys, str(tmp_path / "empty"))
    assert (status, "no file *.yaml" in err) == (2, True)
    for name in ("a-wrong.yml", "b-fits.yaml", "c-broken.yaml"):
        (folder / name).unlink()
    status, out, _ = run(capsys, str(folder))
    assert (status, out.splitlines()[0]) == (2, "No parts list was found.")


def test_standard_input_only_alone(folder: Path, capsys: Capture) -> None:
    status, out, err = run(capsys, "-", str(folder))
    assert (status, out) == (2, "")
    assert "alone" in err


def test_a_catalogue_that_cannot_be_used_is_told_once(folder: Path, capsys: Capture) -> None:
    status, out, err = run(capsys, str(folder), "--catalog", str(folder / "missing"))
    assert (status, out) == (2, "")
    assert err.count("can be read") == 1


# ---- --fail-on -----------------------------------------------------------------------------------

MEASURE = FITS.replace("5 x 114.3 mm", "unknown")


@pytest.mark.parametrize(
    ("text", "fails"),
    [(WRONG, ["stop", "caution", "measure"]), (MEASURE, ["measure"])],
    ids=["stop", "measure"],
)
def test_fail_on_says_what_is_1(text: str, fails: list[str], tmp_path: Path, capsys: Capture) -> None:
    file = tmp_path / "list.yaml"
    file.write_text(text, encoding="utf-8")
    for rank in ("stop", "caution", "measure"):
        for form in ("text", "json", "markdown", "sarif", "junit"):
            status, _, _ = run(capsys, str(file), "--fail-on", rank, "--format", form)
            assert status == int(rank in fails), (rank, form)
        status, _, _ = run(capsys, str(file), str(file), str(tmp_path), "--fail-on", rank)
        assert status == int(rank in fails)


def test_a_caution_fails_where_asked_unless_it_is_accepted(tmp_path: Path, capsys: Capture) -> None:
    text = (EXAMPLES / "tandem-arms.yaml").read_text(encoding="utf-8")
    accepted = text + "\naccept:\n  - {rule: adapter-legality, part: plate, reason: asked}\n"
    file = tmp_path / "list.yaml"
    catalog = ["--catalog", str(EXAMPLES / "catalog")]
    for one, rank, status in ((text, "stop", 0), (text, "caution", 1), (accepted, "caution", 0)):
        file.write_text(one, encoding="utf-8")
        assert run(capsys, str(file), "--fail-on", rank, *catalog)[0] == status


# ---- the formats ---------------------------------------------------------------------------------


def valid_reports(data: object) -> bool:
    resources = [
        (name, referencing.Resource.from_contents(json.loads((SCHEMAS / name).read_text(encoding="utf-8"))))
        for name in ("report.schema.json", "reports.schema.json")
    ]
    registry: referencing.Registry[object] = referencing.Registry().with_resources(resources)
    validator = jsonschema.Draft202012Validator({"$ref": "reports.schema.json"}, registry=registry)
    assert [error.message[:200] for error in validator.iter_errors(data)] == []
    return True


def test_json_is_one_document_as_its_schema_says(folder: Path, capsys: Capture) -> None:
    status, out, err = run(capsys, str(folder), "--format", "json")
    data = json.loads(out)
    assert status == 2
    assert valid_reports(data)
    assert data["format"] == "partscheck-reports/1"
    assert [Path(one["file"]).name for one in data["reports"]] == ["a-wrong.yml", "b-fits.yaml", "c-broken.yaml"]
    assert data["reports"][2]["faults"]["faults"][0]["source"]["column"] == 16
    assert sum(data["counts"].values()) == 3
    assert {Path(one["file"]).name for one in data["skipped"]} == {"other.yaml", "stock.yaml", "swap.yaml"}
    assert "line 1, column 16" in err
    main(["check", str(folder / "b-fits.yaml"), "--format", "json"])
    assert json.loads(capsys.readouterr().out) == data["reports"][1]["report"]


def test_sarif_is_one_run(folder: Path, capsys: Capture) -> None:
    _, out, _ = run(capsys, str(folder), "--format", "sarif")
    [log] = json.loads(out)["runs"]
    assert len(log["artifacts"]) == 3
    uris = {one["locations"][0]["physicalLocation"]["artifactLocation"]["uri"] for one in log["results"]}
    assert {uri.rpartition("/")[2] for uri in uris} >= {"a-wrong.yml", "c-broken.yaml"}
    assert log["invocations"][0]["executionSuccessful"] is False
    rules = [rule["id"] for rule in log["tool"]["driver"]["rules"]]
    assert sorted(set(rules)) == rules
    assert {one["ruleId"] for one in log["results"]} == set(rules)


def test_junit_is_one_file(folder: Path, capsys: Capture) -> None:
    _, out, _ = run(capsys, str(folder), "--format", "junit")
    read = junitparser.JUnitXml.fromstring(out.encode())
    files = {Path(case.classname).name for suite in read for case in suite}
    assert files == {"a-wrong.yml", "b-fits.yaml", "c-broken.yaml"}


@pytest.mark.parametrize("columns", [80, 100, 120])
def test_the_table_keeps_to_the_page(
    columns: int, folder: Path, capsys: Capture, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", str(columns))
    monkeypatch.chdir(folder.parent)
    _, out, err = run(capsys, "lists")
    lines = out.splitlines()
    assert max(map(len, lines)) <= min(columns, 100)
    assert lines[0] == "3 lists: 1 not usable, 1 with a stop, 1 to be measured."
    order = [line.split()[0] for line in lines if line.startswith("lists/")]
    assert order == ["lists/c-broken.yaml", "lists/a-wrong.yml", "lists/b-fits.yaml"]
    assert "line 4: " in out
    assert "lists/c-broken.yaml, line 1, column 16" in err


def test_a_hostile_name_is_harmless_in_every_format(
    tmp_path: Path, capsys: Capture, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    Path(FILE.replace("/", "")).write_text(hostile_list(), encoding="utf-8")
    Path("z" + FILE.replace("/", "")).write_text(BROKEN, encoding="utf-8")
    for form in ("text", "markdown", "sarif", "junit", "json"):
        _, out, err = run(capsys, ".", "--format", form)
        seen = out if form != "json" else ""  # JSON escapes what it must, and keeps the name as it is
        assert not [sign for sign in UNSEEN if sign in seen + err]
        if form == "json":
            assert valid_reports(json.loads(out))
            assert "\x1b" not in out


# ---- processes -----------------------------------------------------------------------------------


def many(folder: Path, count: int) -> Path:
    place = folder / "many"
    place.mkdir()
    for number in range(count):
        text = (FITS, WRONG, BROKEN, FITS)[number % 4]
        (place / f"{number:03}.yaml").write_text(text, encoding="utf-8")
    return place


@pytest.mark.parametrize("form", ["text", "json", "sarif", "junit", "markdown"])
def test_more_processes_write_the_same(form: str, folder: Path, capsys: Capture) -> None:
    place = str(many(folder, 41))
    alone = run(capsys, place, "--format", form, "--jobs", "1")
    assert run(capsys, place, "--format", form, "--jobs", "2") == alone
    assert run(capsys, place, "--format", form) == alone


def test_a_few_files_need_no_other_process() -> None:
    assert jobs_for(3) == 1
    assert jobs_for(3, 2) == 2
    assert jobs_for(2, 9) == 2
    assert jobs_for(10_000) >= 1


@pytest.mark.parametrize("jobs", ["0", "-1", "two", "1000"])
def test_a_wrong_number_of_processes_is_2(jobs: str, capsys: Capture) -> None:
    with pytest.raises(SystemExit) as left:
        main(["check", "x.yaml", "--jobs", jobs])
    assert left.value.code == 2
    assert "1 to 256" in capsys.readouterr().err


def test_a_failure_of_ours_costs_only_its_own_list(
    folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    import partscheck.engine

    real = partscheck.engine.check_build

    def fails_once(build: object) -> object:
        if getattr(build, "name", "") == "wrong":
            raise RuntimeError("of ours")
        return real(build)  # type: ignore[arg-type]

    monkeypatch.setattr(partscheck.engine, "check_build", fails_once)
    status, out, _ = run(capsys, str(folder / "a-wrong.yml"), str(folder / "b-fits.yaml"))
    assert status == 2
    assert "partscheck itself failed on it: RuntimeError: of ours" in out.replace("\n", " ")
    assert "1 to be measured" in out


def end_of_a_worker(checked: CheckedFile) -> Row:
    os._exit(9)


def test_a_worker_that_is_ended_is_told(folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: Capture) -> None:
    place = many(folder, 12)
    monkeypatch.setattr(check_many, "make_row", lambda *given: end_of_a_worker(given[-1]))
    monkeypatch.setattr("partscheck.commands.check_many.partial", lambda *given: end_of_a_worker)
    status, _, err = run(capsys, str(place), "--jobs", "2")
    assert status == 2
    assert "--jobs 1" in err


@pytest.mark.skipif(sys.platform == "win32", reason="the keyboard stops a group of processes otherwise there")
def test_stopped_at_the_keyboard_no_process_complains(folder: Path) -> None:
    """Every process of the group gets the signal, as from a terminal."""
    import signal
    import subprocess

    place = many(folder, 400)
    command = [sys.executable, "-m", "partscheck", "check", str(place), "--format", "json", "--jobs", "2"]
    started = subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, start_new_session=True, cwd=ROOT
    )
    assert started.stdout is not None
    started.stdout.read(200)  # the first list is done: the others are at work
    os.killpg(started.pid, signal.SIGINT)
    _, err = started.communicate(timeout=60)
    assert err.decode().strip() == "stopped"
    assert started.returncode == 2


def test_chunks_wait_so_that_memory_stays_the_same(folder: Path) -> None:
    place = many(folder, 60)
    rows = check_files(files_of([str(place)]), [], row_only, 2)
    assert [Path(row.file).name for row in rows] == [f"{number:03}.yaml" for number in range(60)]
    assert batch.CHUNK * batch.AHEAD * 2 < 1_000


def row_only(checked: CheckedFile) -> Row:
    return Row(checked.file, "ok", 0)


def test_several_processes_are_not_imported_for_one_list(folder: Path) -> None:
    import subprocess

    code = (
        f"import sys; from partscheck.cli import main; main(['check', {str(folder / 'b-fits.yaml')!r}]);"
        "print([name for name in ('multiprocessing', 'concurrent.futures', 'partscheck.uses.batch', "
        "'partscheck.commands.check_many') if name in sys.modules], file=sys.stderr)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stderr.strip() == "[]"


# ---- the line that tells how far it is -----------------------------------------------------------


class Screen(io.StringIO):
    def isatty(self) -> bool:
        return True


def test_on_a_terminal_a_line_tells_how_far_it_is(
    folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    screen = Screen()
    monkeypatch.setattr(sys, "stderr", screen)
    monkeypatch.setattr(progress, "PATIENCE", 0.0)
    monkeypatch.setattr(progress, "STEP", 0.0)
    try:
        main(["check", str(many(folder, 8))])
    finally:
        monkeypatch.setattr(progress, "_screen", None)
    told = screen.getvalue()
    assert "checking lists  [" in told
    assert told.index("\r\x1b[K", told.rindex("checking lists")) > 0  # cleared at the end


def test_elsewhere_there_is_none(folder: Path, capsys: Capture) -> None:
    assert "checking lists" not in run(capsys, str(folder))[2]


def test_a_long_name_has_a_line_of_its_own() -> None:
    summary = TextSummary(80)
    row = Row("x" * 90 + ".yaml", "stop", 1)
    summary.add(row)
    assert row.file in summary.end().splitlines()


def test_many_lists_from_python(folder: Path) -> None:
    import partscheck

    rows = {Path(row.file).name: row for row in partscheck.check_all([folder], jobs=2)}
    assert {name: row.status for name, row in rows.items() if row.verdict != "skipped"} == {
        "a-wrong.yml": 1, "b-fits.yaml": 0, "c-broken.yaml": 2,
    }  # fmt: skip
    assert rows["a-wrong.yml"].stop == 1
    assert rows["a-wrong.yml"].line == 4
    assert next(iter(partscheck.check_all([folder / "b-fits.yaml"], fail_on="measure"))).status == 1


def test_asked_tells_who_named_it(folder: Path) -> None:
    assert all(not one.named for one in files_of([str(folder)]))
    assert isinstance(files_of([str(folder)])[0], Asked)
