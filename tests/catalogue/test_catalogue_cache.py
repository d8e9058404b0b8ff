"""The compiled copy: used when sound, rebuilt when not, never needed."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from partscheck.catalogue import Catalogue, catalogue, layers, seen
from partscheck.catalogue import compile as compiled


@pytest.fixture
def builds(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The digest of every catalogue that was built from its texts."""
    built: list[str] = []
    build = catalogue._build

    def counted(layers, key, check_entry, rows):  # type: ignore[no-untyped-def]
        built.append(key)
        return build(layers, key, check_entry, rows)

    monkeypatch.setattr(catalogue, "_build", counted)
    return built


def content(loaded: Catalogue) -> object:
    parts = [(part.id, part.kind, part.fields, part.basis) for part in loaded.parts()]
    return parts, [loaded.rows(table) for table in loaded.tables()]


def test_the_second_run_reads_the_compiled_copy(cache: Path, builds: list[str]) -> None:
    first, second = Catalogue.load(), Catalogue.load()
    assert len(builds) == 1
    assert content(first) == content(second)
    assert not list(cache.glob("*.part"))  # nothing half written is left


@pytest.mark.parametrize(
    "damage", ["empty", "garbage", "cut short", "another digest", "overwritten middle", "one letter of a text"]
)
def test_a_damaged_copy_is_built_again(cache: Path, builds: list[str], damage: str) -> None:
    sound = content(Catalogue.load())
    (path,) = cache.glob("catalogue-*")
    data = path.read_bytes()
    if damage == "another digest":
        data = data.replace(builds[0].encode(), b"0" * len(builds[0]))
    path.write_bytes({
        "empty": b"", "garbage": b"\x00\xff" * 5000, "cut short": data[: len(data) // 2],
        "another digest": data, "overwritten middle": data[:8192] + b"\xa5" * 8192 + data[16384:],
        "one letter of a text": data.replace(b"cone-nut-M12x1.5", b"cone-nut-M12x1.9", 1),
    }[damage])  # fmt: skip
    assert content(Catalogue.load()) == sound
    assert content(Catalogue.load()) == sound
    assert len(builds) == 2  # once to begin with, once after the damage


def test_an_edit_is_seen(tmp_path: Path, builds: list[str]) -> None:
    own = tmp_path / "own.yaml"
    for pilot in ("60 mm", "61 mm"):
        own.write_text(f"parts:\n  - {{id: p, kind: hub, pilot: {pilot}}}\n", encoding="utf-8")
        part = Catalogue.load([own]).part("p")
        assert part is not None
        assert part.fields["pilot"][0] == pilot
    assert len(set(builds)) == 2


def test_another_version_of_the_field_check_builds_again(builds: list[str]) -> None:
    Catalogue.load(stamp="1")
    Catalogue.load(stamp="2")
    assert len(set(builds)) == 2


def test_a_cache_folder_that_cannot_be_made_costs_nothing_but_time(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, builds: list[str], capfd: pytest.CaptureFixture[str]
) -> None:
    blocker = tmp_path / "file"
    blocker.write_text("", encoding="utf-8")
    monkeypatch.setenv("XDG_CACHE_HOME", str(blocker))  # a file stands where the folder should be
    assert Catalogue.load().part("cone-nut-M12x1.5") is not None
    assert Catalogue.load().part("cone-nut-M12x1.5") is not None
    assert len(builds) == 2
    assert capfd.readouterr() == ("", "")


def test_a_copy_that_cannot_be_put_in_place_leaves_nothing_behind(
    cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(source: str, target: str) -> None:
        raise PermissionError(target)

    monkeypatch.setattr(compiled.os, "replace", refuse)
    assert Catalogue.load().rows("unc")
    assert not list(cache.glob("catalogue-*"))


def test_an_edit_that_keeps_size_and_time_is_seen(
    tmp_path: Path, cache: Path, builds: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(seen, "SETTLED", -1.0)
    own = tmp_path / "own.yaml"
    own.write_text("parts:\n  - {id: p, kind: hub, pilot: 60 mm}\n", encoding="utf-8")
    Catalogue.load([own])
    stands = os.stat(own)
    monkeypatch.setattr(layers, "open", lambda *_: pytest.fail("read again"), raising=False)
    Catalogue.load([own])
    monkeypatch.delattr(layers, "open")
    own.write_text("parts:\n  - {id: p, kind: hub, pilot: 61 mm}\n", encoding="utf-8")
    os.utime(own, ns=(stands.st_atime_ns, stands.st_mtime_ns))
    part = Catalogue.load([own]).part("p")
    assert part is not None
    assert part.fields["pilot"][0] == "61 mm"
    assert len(set(builds)) == 2


@pytest.mark.skipif(sys.platform == "win32", reason="a change time that cannot be set back is of POSIX systems")
@pytest.mark.parametrize("change", ["replaced", "renamed", "swapped", "removed", "added", "linked", "clock"])
def test_nothing_stale_is_used(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, change: str) -> None:
    monkeypatch.setattr(seen, "SETTLED", -1.0)
    own, other, link = tmp_path / "own", tmp_path / "other", tmp_path / "link"
    for folder, pilots in ((own, ("60", "61")), (other, ("70", "71"))):
        folder.mkdir()
        for name, pilot in zip("ab", pilots, strict=True):
            text = f"parts:\n  - {{id: {name}, kind: hub, pilot: {pilot} mm}}\n"
            (folder / f"{name}.yaml").write_text(text, encoding="utf-8")
            os.utime(folder / f"{name}.yaml", (1_000_000_000, 1_000_000_000))
    link.symlink_to(own, target_is_directory=True)

    def told() -> dict[str, tuple[str, str]]:
        found = Catalogue.load([link])
        kept = [(id, found.part(id)) for id in ("a", "b", "c")]
        return {id: (part.fields["pilot"][0], Path(part.file).name) for id, part in kept if part is not None}

    expected = {"a": ("60 mm", "a.yaml"), "b": ("61 mm", "b.yaml")}
    assert told() == told() == expected
    if change == "replaced":  # of the same size and as old
        os.replace(other / "a.yaml", own / "a.yaml")
        expected["a"] = ("70 mm", "a.yaml")
    elif change == "renamed":
        (own / "b.yaml").rename(own / "c.yaml")
        expected["b"] = ("61 mm", "c.yaml")
    elif change == "swapped":
        (own / "a.yaml").rename(own / "x")
        (own / "b.yaml").rename(own / "a.yaml")
        (own / "x").rename(own / "b.yaml")
        expected = {"a": ("60 mm", "b.yaml"), "b": ("61 mm", "a.yaml")}
    elif change == "removed":
        (own / "b.yaml").unlink()
        del expected["b"]
    elif change == "added":
        (own / "c.yml").write_text("parts:\n  - {id: c, kind: hub, pilot: 62 mm}\n", encoding="utf-8")
        expected["c"] = ("62 mm", "c.yml")
    elif change == "linked":
        link.unlink()
        link.symlink_to(other, target_is_directory=True)
        expected = {"a": ("70 mm", "a.yaml"), "b": ("71 mm", "b.yaml")}
    else:  # the clock was set back after the file was written: its times lie ahead
        monkeypatch.setattr(seen, "SETTLED", 3.0)
        text = "parts:\n  - {id: a, kind: hub, pilot: 65 mm}\n"
        (own / "a.yaml").write_text(text, encoding="utf-8")
        monkeypatch.setattr(seen.time, "time", lambda: 1_000_000_000.0)
        expected["a"] = ("65 mm", "a.yaml")
    assert told() == told() == expected


def test_a_folder_may_be_called_by_another_name(
    tmp_path: Path, builds: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(seen, "SETTLED", -1.0)
    (tmp_path / "own").mkdir()
    (tmp_path / "own" / "a.yaml").write_text("parts:\n  - {id: p, kind: hub, pilot: 60 mm}\n", encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    for name in (str(tmp_path / "own"), "own", "own", "own"):
        part = Catalogue.load([name]).part("p")
        assert part is not None
        assert part.file == f"{name}/a.yaml"
    assert len(builds) == 2


def test_files_that_are_remembered_are_read_where_the_compiled_copy_is_gone(
    cache: Path, builds: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(seen, "SETTLED", -1.0)
    sound = content(Catalogue.load())
    for path in cache.glob("catalogue-*"):
        path.unlink()
    assert content(Catalogue.load()) == sound
    assert len(builds) == 2
    assert len(set(builds)) == 1


def test_old_copies_go(cache: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(compiled, "KEPT", 3)
    for number in range(compiled.KEPT + 3):
        Catalogue.load(stamp=str(number))
    assert len(list(cache.glob("catalogue-*"))) == compiled.KEPT


def test_old_records_of_folders_go(tmp_path: Path, cache: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(seen, "SETTLED", -1.0)
    monkeypatch.setattr(seen, "KEPT", 3)
    for number in range(5):
        own = tmp_path / f"{number}.yaml"
        own.write_text("parts:\n  - {id: p, kind: hub, pilot: 60 mm}\n", encoding="utf-8")
        Catalogue.load([own])
    assert len(list(cache.glob("seen-*"))) == 3


@pytest.mark.parametrize(
    ("variables", "folder"),
    [
        ({"XDG_CACHE_HOME": "/x"}, "/x/partscheck"),
        ({"XDG_CACHE_HOME": "relative", "HOME": "/h"}, "/h/.cache/partscheck"),
        ({"LOCALAPPDATA": "/l"}, "/l/partscheck"),
        ({"HOME": "/h"}, "/h/.cache/partscheck"),
    ],
)
@pytest.mark.skipif(sys.platform == "win32", reason="paths of POSIX systems")
def test_where_the_copy_lies(variables: dict[str, str], folder: str, monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("XDG_CACHE_HOME", "LOCALAPPDATA", "HOME"):
        monkeypatch.delenv(name, raising=False)
    for name, value in variables.items():
        monkeypatch.setenv(name, value)
    assert compiled.cache_folder() == folder


def test_a_warm_load_imports_neither_yaml_nor_pint() -> None:
    Catalogue.load()
    script = (
        "import sys; from partscheck.catalogue.catalogue import Catalogue;"
        "found = Catalogue.load(); assert found.row('unc', '1/2'); assert found.part('cone-nut-1/2-20');"
        "heavy = {'yaml', 'pint', 'jsonschema', 'numpy', 'json', 'hashlib', 'difflib', 'dataclasses',"
        " 'inspect', 'importlib.metadata', 'partscheck.catalogue.source', 'partscheck.catalogue.families'};"
        "print(sorted(heavy & set(sys.modules)))"
    )
    package_root = Path(catalogue.__file__).parents[2]
    run = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True, cwd=package_root
    )
    assert run.stdout.strip() == "[]"
