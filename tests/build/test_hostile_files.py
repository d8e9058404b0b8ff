"""Files from strangers: each is refused in plain words with exit status 2, or simply read."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from pathlib import Path
from time import process_time

import pytest
from case_files import shipped_catalogue

from partscheck.build.reader import MAX_PARTS, read_build
from partscheck.cli import main
from partscheck.engine import check_build

BOMB = "a: &a [x, x, x, x, x, x, x, x, x]\n" + "".join(
    f"{name}: &{name} [{', '.join(['*' + before] * 9)}]\n"
    for before, name in zip("abcdefgh", "bcdefghi", strict=True)
)
HUB = "parts:\n  - {id: hub, kind: hub, qty: 2}\n"

MOST_TIMES = 200  # a bomb that goes off takes thousands; the largest of these files takes about 5

# name: (content, a piece of the message)
FILES: dict[str, tuple[bytes, str]] = {
    "alias bomb": (BOMB.encode() + HUB.encode(), "aliases are not taken"),
    "an alias of itself": (b"parts: &p\n  - *p\n", "aliases are not taken"),
    "merge keys": (b"parts:\n  - &a {kind: hub}\n  - {<<: *a}\n", "merge keys are not taken"),
    "python tags": (b"parts: !!python/object/apply:os.system [echo caught]\n", "tags are not taken"),
    "python name tag": (b"build: !!python/name:os.system\n" + HUB.encode(), "tags are not taken"),
    "100,000 brackets": (b"[" * 100_000, "open at once"),
    "100,000 closed brackets": (b"[" * 100_000 + b"]" * 100_000, "open at once"),
    "100,000 braces": (b"{" * 100_000, "open at once"),
    "100,000 dashes": (b"parts:\n" + b"- " * 100_000, "levels"),
    "100,000 maps, one in the other": (b"{a: " * 100_000, "levels"),
    "repeated keys": (HUB.encode() * 3, "each key once"),
    "not a number": (b"parts:\n  - {kind: hub, pilot: .nan}\n  - {kind: hub, pilot: NaN mm}\n", "a length"),
    "infinity": (b"parts:\n  - {kind: hub, rating: .inf}\n  - {kind: hub, rating: inf lb}\n", "a weight"),
    "1e999": (b"parts:\n  - {kind: hub, rating: 1e999 lb}\n", "without an exponent"),
    "a thousand digits": (b"parts:\n  - {kind: hub, rating: " + b"9" * 1000 + b" lb}\n", "expected"),
    "a line of 10 MB": (b"build: " + b"x" * 10_000_000 + b"\n" + HUB.encode(), "at most 2 MB"),
    "10 MB of lines": (HUB.encode() + b"# nothing\n" * 1_000_000, "at most 2 MB"),
    "NUL bytes": (b"parts:\x00\n  - {kind: hub}\n", "control characters"),
    "only NUL bytes": (b"\x00" * 1000, "control characters"),
    "terminal escapes": (b"build: \x1b[2J\x1b[31mred\n" + HUB.encode(), "control characters"),
    "not UTF-8": (b"build: caf\xe9\n" + HUB.encode(), "UTF-8"),
    "UTF-16": ("build: x\n".encode("utf-16"), "UTF-8"),
    "empty": (b"", "the file is empty"),
    "blank lines": (b"\n\n   \n", "the file is empty"),
    "only a comment": (b"# my trailer\n", "the file is empty"),
    "only a document mark": (b"---\n", "the file is empty"),
    "a list at the top": (b"- {kind: hub}\n- {kind: wheel}\n", "a parts list"),
    "a word at the top": (b"hello\n", "a parts list"),
    "no parts": (b"build: mine\n", "a key `parts`"),
    "two documents": (HUB.encode() + b"---\n" + HUB.encode(), "one document"),
    "a directive": (b"%YAML 1.1\n---\n" + HUB.encode(), "%"),
    "an open quote": (b'build: "mine\n' + HUB.encode(), "closing quote"),
    "a picture": (b"\x89PNG\r\n\x1a\n" + bytes(range(256)), "UTF-8"),
    "a list as key": (b"parts:\n  - ? [kind, id]\n    : hub\n", "a plain word as key"),
    "a key of a million letters": (b"x" * 1_000_000 + b": y\n" + HUB.encode(), "expected"),
}


def refused(source: str, capsys: pytest.CaptureFixture[str]) -> str:
    """What the command line says of a file that it cannot use."""
    assert main(["check", source]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert "Traceback" not in err
    assert "partscheck itself failed" not in err
    assert all(c.isprintable() or c == "\n" for c in err)
    assert len(err) < 50_000
    return err


def timed(file: Path, capsys: pytest.CaptureFixture[str]) -> tuple[str, float]:
    """What is said of a file, and the processor time that it took, s."""
    start = process_time()
    message = refused(str(file), capsys)
    return message, process_time() - start


@pytest.mark.parametrize("name", list(FILES))
def test_is_refused_in_plain_words(name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    content, says = FILES[name]
    file = tmp_path / "list.yaml"
    file.write_bytes(content)
    ordinary = tmp_path / "ordinary.yaml"
    ordinary.write_bytes(FILES["a word at the top"][0])
    refused(str(ordinary), capsys)  # whatever is loaded once is loaded now
    _, usual = timed(ordinary, capsys)
    message, taken = timed(file, capsys)
    assert taken < MOST_TIMES * usual, f"{taken / usual:.0f} times as long as a list of one wrong word"
    assert says in " ".join(message.split())
    assert "line " in message


@pytest.mark.parametrize("name", ["alias bomb", "python tags", "a directive", "two documents"])
def test_is_refused_from_standard_input_too(
    name: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    import io

    content, says = FILES[name]
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(content)))
    message = refused("-", capsys)
    assert says in " ".join(message.split())
    assert "standard input" in message


def test_a_folder(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert "There is no file *.yaml or *.yml in" in refused(str(tmp_path), capsys)


def test_a_missing_file(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert "no such file" in refused(str(tmp_path / "none.yaml"), capsys)


def test_a_file_that_changes_a_list_is_no_list(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    change = tmp_path / "swap.yaml"
    change.write_text("swap: taller\nreplace:\n  wheel: {part: other}\nremove: [hub]\n", encoding="utf-8")
    message = refused(str(change), capsys)
    assert "1 fault to mend" in message
    assert "partscheck swap LIST CHANGE" in message


def test_an_empty_name(capsys: pytest.CaptureFixture[str]) -> None:
    assert "no such file" in refused("", capsys)


def test_a_name_with_a_nul_byte(capsys: pytest.CaptureFixture[str]) -> None:
    assert "cannot be opened" in refused("a\0b", capsys)


@pytest.mark.skipif(sys.platform == "win32" or os.geteuid() == 0, reason="everything is readable here")
def test_a_file_that_may_not_be_read(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "list.yaml"
    file.write_text(HUB)
    file.chmod(0)
    assert "cannot be opened" in refused(str(file), capsys)


# ---- long lists ----------------------------------------------------------------------------


def long_list(lines: int) -> bytes:
    """One trailer's worth of lines, then bolts and lamps and other lines without end."""
    head = (
        "service: {gross_weight: 2600 lb, surface: gravel}\nparts:\n"
        "  - {id: hub, kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, stud_length: 1 in, qty: 2}\n"
        "  - {id: wheel, kind: wheel, size: 15 x 7 in, bolt_circle: 5 x 4.5 in, rating: 1900 lb, qty: 2}\n"
        "  - {id: tire, kind: tire, size: ST205/75R15, load_range: C, qty: 2}\n"
        "  - {id: nuts, kind: lug-nut, thread: 1/2-20, seat: conical, qty: 10}\n"
    )
    more = (
        "  - {{id: bolt-{n}, kind: bolt, size: 1/2-13 x 2 in, grade: grade 5, qty: 4, weight: 0.2 lb}}\n",
        "  - {{id: nut-{n}, kind: nut, thread: 1/2-13, grade: grade 5, qty: 4}}\n",
        "  - {{id: lamp-{n}, kind: lamp, function: marker, qty: 1}}\n",
        "  - {{id: thing-{n}, kind: other, what: thing {n}, qty: 1}}\n",
    )
    return (head + "".join(more[n % 4].format(n=n) for n in range(lines - 4))).encode()


def seconds(work: Callable[[], object]) -> float:
    start = process_time()
    work()
    return process_time() - start


def test_two_thousand_lines_take_about_four_times_as_long_as_five_hundred() -> None:
    """Not quadratic: that would be sixteen times."""
    catalogue = shipped_catalogue()

    def check(lines: int) -> object:
        return check_build(read_build(long_list(lines), catalogue))

    check(100)
    few = min(seconds(lambda: check(500)) for _ in range(3))
    many = min(seconds(lambda: check(2000)) for _ in range(2))
    assert many < 8 * few


def test_the_most_lines_are_read_and_one_more_is_refused() -> None:
    from partscheck.notation.faults import Faults

    assert len(read_build(long_list(MAX_PARTS), shipped_catalogue()).parts) == MAX_PARTS
    with pytest.raises(Faults, match=f"at most {MAX_PARTS} lines"):
        read_build(long_list(MAX_PARTS + 1), shipped_catalogue())


def test_two_thousand_lines_through_the_command_line(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "long.yaml"
    file.write_bytes(long_list(2000))
    assert main(["check", str(file)]) in (0, 1)
    assert "Checks:" in capsys.readouterr().out
