"""Shell completion: the shells themselves are asked what they would offer."""

from __future__ import annotations

import os
import pty
import select
import shlex
import shutil
import subprocess
import sys
import time
from pathlib import Path

import pytest

from partscheck.cli import COMMANDS, main
from partscheck.parts.kinds import KINDS
from partscheck.rules import load_rules

ROOT = Path(__file__).resolve().parent.parent
Capture = pytest.CaptureFixture[str]
HEAVY = (
    "pint",
    "jsonschema",
    "numpy",
    "dataclasses",
    "inspect",
    "importlib.metadata",
    "tabulate",
    "shtab",
    "yaml",
)

# The line as typed, and what is to be offered for its last word.
ASKED = [
    ("partscheck che", ["check"]),
    ("partscheck check --form", ["--format"]),
    ("partscheck check --format sa", ["sarif"]),
    ("partscheck check --fail-on ca", ["caution"]),
    ("partscheck check lists/two", ["lists/two axles.yaml"]),
    ("partscheck check lists/one.yaml lists/o", ["lists/one.yaml"]),
    ("partscheck check --units m", ["metric"]),
    ("partscheck explain stud-above", ["stud-above-adapter-face"]),
    ("partscheck explain hub.stud_len", ["hub.stud_length"]),
    ("partscheck explain adapter-5x4.5-to-5x5.5", ["adapter-5x4.5-to-5x5.5"]),
    ("partscheck find suspension", ["suspension-arm"]),
    ("partscheck find tire load_ind", ["load_index="]),
    ("partscheck swap lists/cart.yaml --remove fro", ["front-nuts"]),
    ("partscheck swap lists/cart.yaml --replace rim.off", ["rim.offset="]),
    ("partscheck find lug-nut --for lists/cart.yaml --line fro", ["front-nuts"]),
]  # fmt: skip


CART = "parts:\n  - {id: rim, kind: wheel, size: 15 x 6 in}\n  - {id: front-nuts, kind: lug-nut, thread: 1/2-20}\n"


@pytest.fixture
def place(tmp_path: Path) -> Path:
    """A folder to complete in, with a ``partscheck`` on the path."""
    program = tmp_path / "bin" / "partscheck"
    program.parent.mkdir()
    program.write_text(f'#!/bin/sh\nexec {shlex.quote(sys.executable)} -m partscheck "$@"\n', encoding="utf-8")
    program.chmod(0o755)
    (tmp_path / "lists").mkdir()
    for name in ("one.yaml", "two axles.yaml", "only.txt"):
        (tmp_path / "lists" / name).write_text("parts: []\n", encoding="utf-8")
    (tmp_path / "lists" / "cart.yaml").write_text(CART, encoding="utf-8")
    return tmp_path


def environment(place: Path) -> dict[str, str]:
    path = f"{place / 'bin'}{os.pathsep}{os.environ['PATH']}"
    return {
        **os.environ,
        "PATH": path,
        "PYTHONPATH": str(ROOT),
        "HOME": str(place),
        "TERM": "dumb",
        "LC_ALL": "C.UTF-8",
    }


def script(place: Path, shell: str) -> Path:
    file = place / f"script.{shell}"
    done = subprocess.run(
        ["partscheck", "completion", shell], env=environment(place), capture_output=True, text=True, check=True
    )
    file.write_text(done.stdout, encoding="utf-8")
    return file


def ask(shell: str, place: Path, code: str) -> list[str]:
    done = subprocess.run(
        [shell, "-c", code], cwd=place, env=environment(place), capture_output=True, text=True, check=True
    )
    assert not done.stderr
    return done.stdout.splitlines()


BASH = """
source script.bash
COMP_WORDS=({words}); COMP_CWORD=$(({count} - 1)); COMP_LINE='{line}'; COMP_POINT=${{#COMP_LINE}}
_partscheck_complete partscheck "${{COMP_WORDS[COMP_CWORD]}}" "${{COMP_WORDS[COMP_CWORD-1]}}"
printf '%s\\n' "${{COMPREPLY[@]}}"
"""


@pytest.mark.skipif(shutil.which("bash") is None, reason="bash is not installed")
def test_bash_offers(place: Path) -> None:
    script(place, "bash")
    for line, offered in ASKED:
        words = line.split(" ")
        code = BASH.format(words=" ".join(shlex.quote(word) for word in words), count=len(words), line=line)
        assert ask("bash", place, code) == offered, line


@pytest.mark.skipif(shutil.which("fish") is None, reason="fish is not installed")
def test_fish_offers(place: Path) -> None:
    script(place, "fish")
    for line, offered in ASKED:
        found = ask("fish", place, f"source script.fish; complete -C {shlex.quote(line)}")
        assert [one.split("\t")[0] for one in found] == offered, line


@pytest.mark.skipif(shutil.which("zsh") is None, reason="zsh is not installed")
def test_zsh_offers(place: Path) -> None:
    """A line typed into a terminal, the tabulator, and what then stands on the line."""
    script(place, "zsh")
    terminal = Terminal(["zsh", "-f", "-i"], place)
    try:
        terminal.send(
            "autoload -U compinit; compinit -u -D; eval \"$(<script.zsh)\"; bindkey '^I' complete-word\n"
        )
        terminal.send("echo re''ady\n")
        terminal.until("ready", 20)
        for line, offered in ASKED:
            if line.endswith(offered[0]):
                continue  # nothing is left to add
            terminal.send(line + "\t")
            terminal.until(offered[0].replace(" ", "\\ "), 20, line)
            terminal.send("\x15")
            terminal.read(0.2)
    finally:
        terminal.close()


class Terminal:
    """A program on a terminal of its own."""

    def __init__(self, command: list[str], place: Path) -> None:
        self.process, self.end = pty.fork()
        if self.process == 0:  # pragma: no cover - the child
            os.chdir(place)
            os.execvpe(command[0], command, {**environment(place), "COLUMNS": "200"})

    def send(self, text: str) -> None:
        os.write(self.end, text.encode())

    def read(self, seconds: float) -> str:
        ready, _, _ = select.select([self.end], [], [], seconds)
        return os.read(self.end, 65536).decode(errors="replace") if ready else ""

    def until(self, wanted: str, seconds: float, after: str = "") -> None:
        """Read until ``wanted`` stands there."""
        found, limit = "", time.monotonic() + seconds
        while time.monotonic() < limit:
            found += self.read(0.2)
            if wanted in found.replace("\r", "").replace("\n", ""):
                return
        raise AssertionError(f"{after!r}: no {wanted!r} in {found!r}")

    def close(self) -> None:
        os.close(self.end)
        os.kill(self.process, 9)
        os.waitpid(self.process, 0)


# ---- the values --------------------------------------------------------------------------------


def values(capsys: Capture, name: str) -> list[str]:
    assert main(["completion", "--values", name]) == 0
    return capsys.readouterr().out.splitlines()


def test_values_are_those_that_are_there(capsys: Capture) -> None:
    assert values(capsys, "kinds") == sorted(KINDS)
    assert values(capsys, "rules") == sorted(load_rules())
    assert {"hub.stud_length", "tire.load_index", "washer.for"} <= set(values(capsys, "fields"))
    assert "minimum_thread_engagement" in values(capsys, "limits")
    assert "adapter-5x4.5-to-5x5.5" in values(capsys, "parts")
    assert {"load_index=", "for="} <= set(values(capsys, "settings"))


def test_every_name_is_explained(capsys: Capture) -> None:
    names = values(capsys, "names")
    for name in names[:: max(1, len(names) // 60)]:
        assert main(["explain", name]) == 0, name
    capsys.readouterr()


def test_no_value_has_a_sign_that_a_shell_acts_upon(capsys: Capture) -> None:
    for name in ("names", "settings", "kinds"):
        assert not [one for one in values(capsys, name) if set(one) & set("$`'\"\\ ;&|<>*?(){}[]!~")]


@pytest.mark.parametrize("name", ["kinds", "rules", "fields", "limits", "parts", "names", "settings"])
def test_asking_for_values_imports_nothing_heavy(name: str) -> None:
    code = (
        f"import sys; from partscheck.cli import main; main(['completion', '--values', {name!r}]);"
        f"print([name for name in {HEAVY!r} if name in sys.modules], file=sys.stderr)"
    )
    subprocess.run(
        [sys.executable, "-m", "partscheck", "completion", "--values", "parts"],
        cwd=ROOT,
        check=True,
        stdout=subprocess.DEVNULL,
    )  # fmt: skip - the catalogue is compiled now
    done = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True)
    assert done.stderr.strip() == "[]"


# ---- the command -------------------------------------------------------------------------------


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_a_script_knows_every_command(shell: str, capsys: Capture) -> None:
    assert main(["completion", shell]) == 0
    text = capsys.readouterr().out
    assert all(command in text for command in COMMANDS)
    assert "SUPPRESS" not in text


def test_without_a_shell_it_names_them(capsys: Capture) -> None:
    assert main(["completion"]) == 2
    assert "bash, zsh, fish" in capsys.readouterr().err


def test_without_shtab_it_says_what_to_install(monkeypatch: pytest.MonkeyPatch, capsys: Capture) -> None:
    monkeypatch.setitem(sys.modules, "shtab", None)
    assert main(["completion", "bash"]) == 2
    assert "partscheck[completion]" in capsys.readouterr().err


def asked_of(capsys: Capture, name: str, *words: str) -> list[str]:
    assert main(["completion", "--values", name, "--words", *words]) == 0
    out, err = capsys.readouterr()
    assert not err
    return str(out).split()


def test_what_stands_on_the_list_is_offered(place: Path, capsys: Capture) -> None:
    file = str(place / "lists" / "cart.yaml")
    assert asked_of(capsys, "ids", "partscheck", "swap", file, "--remove") == ["rim", "front-nuts"]
    changes = asked_of(capsys, "changes", "partscheck", "swap", "--units", "inch", f"'{file}'", "--replace", "r")
    assert {"rim.offset=", "front-nuts.seat="} <= set(changes)


def test_parts_of_ones_own_catalogue_are_known_where_it_is_named(capsys: Capture) -> None:
    examples = ROOT / "examples"
    words = ["partscheck", "swap", str(examples / "apiary-first.yaml")]
    assert asked_of(capsys, "ids", *words) == []
    assert "plate" in asked_of(capsys, "ids", *words, "--catalog", str(examples / "catalog"), "--remove", "")


@pytest.mark.parametrize("words", [[], ["partscheck", "swap", "gone.yaml"], ["partscheck", "swap", "'open"]])
def test_without_a_list_nothing_is_offered_and_nothing_said(words: list[str], capsys: Capture) -> None:
    assert asked_of(capsys, "changes", *words) == []


def test_an_id_that_a_shell_would_act_upon_is_not_offered(place: Path, capsys: Capture) -> None:
    file = place / "lists" / "hostile.yaml"
    ids = ["$(touch gone)", "`touch gone`", "a b", "a;b", "a*", "~", "!x", "a\\b"]
    file.write_text("parts:\n" + "".join(f"  - {{id: '{id}', kind: wheel}}\n" for id in ids), encoding="utf-8")
    for name in ("ids", "changes"):
        offered = asked_of(capsys, name, "partscheck", "swap", str(file))
        assert not [one for one in offered if set(one) & set("$`'\"\\ ;&|<>*?(){}[]!~")]
