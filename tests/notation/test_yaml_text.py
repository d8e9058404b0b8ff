"""YAML read as text: what stays as typed, what is told and where, and what is refused."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from partscheck.notation.faults import Fault, Faults
from partscheck.notation.yaml_text import MapNode, Node, ScalarNode, SeqNode, compose, read_text

if TYPE_CHECKING:
    from pathlib import Path


def plain(node: Node) -> Any:
    if isinstance(node, MapNode):
        return {key.text: plain(value) for key, value in node.entries}
    if isinstance(node, SeqNode):
        return [plain(item) for item in node.items]
    assert isinstance(node, ScalarNode)
    return node.text


def faults_of(text: str) -> list[Fault]:
    with pytest.raises(Faults) as caught:
        compose(text, "list.yaml")
    return caught.value.faults


def only_fault(text: str) -> Fault:
    (fault,) = faults_of(text)
    return fault


# -- what stays as typed ------------------------------------------------------------------------


@pytest.mark.parametrize(
    "text",
    ["8.8", "1/2-20", "0412", "012", "no", "yes", "12:30", "6:1", "1_000", "2025-06", "1e3", "~", "null",
     ".5", "5 x 4.5 in", '1-1/2"', "±0.5 mm", "+1/-0 mm", "0x1F", "M12x1.75"],
)  # fmt: skip
def test_a_scalar_stays_as_typed(text: str) -> None:
    root = compose(f"a: {text}\n", "list.yaml")
    assert plain(root) == {"a": text}


def test_quoted_and_plain_are_told_apart() -> None:
    root = compose("a: '?'\nb: x\nc: ''\nd:\n", "list.yaml")
    assert isinstance(root, MapNode)
    values = [value for _, value in root.entries if isinstance(value, ScalarNode)]
    assert [(value.text, value.plain, value.empty) for value in values] == [
        ("?", False, False), ("x", True, False), ("", False, False), ("", True, True),
    ]  # fmt: skip


def test_marks_count_from_one() -> None:
    root = compose("parts:\n  - {id: hub,\n     qty: 2}\n", "list.yaml")
    assert isinstance(root, MapNode)
    items = root.get("parts")
    assert isinstance(items, SeqNode)
    entry = items.items[0]
    assert isinstance(entry, MapNode)
    quantity = entry.get("qty")
    assert quantity is not None
    assert repr(quantity.mark) == "list.yaml:3:11"
    assert repr(entry.mark) == "list.yaml:2:5"


def test_columns_count_characters_not_bytes() -> None:
    root = compose("{a: ±± x, b: 1}", "list.yaml")
    assert isinstance(root, MapNode)
    assert root.get("b").mark.column == 14  # type: ignore[union-attr]


JSON_LIKE = st.recursive(
    st.text(st.characters(codec="ascii", exclude_categories=("Cc",)), max_size=12),
    lambda inner: (
        st.lists(inner, max_size=4)
        | st.dictionaries(st.text("abcd12 ", min_size=1, max_size=6), inner, max_size=4)
    ),
    max_leaves=12,
)


@given(JSON_LIKE.filter(lambda value: value != ""), st.booleans())
def test_agrees_with_an_independent_reader_of_the_same_text(value: Any, flow: bool) -> None:
    """PyYAML's own base loader, which resolves nothing either, is the reference."""
    text = yaml.dump(value, default_flow_style=flow, allow_unicode=True)
    if text.startswith(("!", "&", "*")):
        return
    assert plain(compose(text, "list.yaml")) == yaml.load(text, yaml.BaseLoader)


# -- the comma inside { } -----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "read", "said"),
    [
        ("{weight: 1,200 lb, qty: 2}", "1,200 lb", "write 1200 lb or put quotes around it"),
        ("{weight: 1,200,500 lb}", "1,200,500 lb", "write 1200500 lb or"),
        ("{size: 17,25 mm}", "17,25 mm", "write 17.25 mm, with a decimal point"),
        ("{size: 15 x 7,5 in}", "15 x 7,5 in", "write 15 x 7.5 in, with a decimal point"),
        ("{note: fits well, mostly so}", "fits well, mostly so", "put quotes around it"),
        ("{a: 1,22,3 mm}", "1,22,3 mm", "put quotes around it"),
    ],
)
def test_a_comma_that_ends_a_value_is_told_once(text: str, read: str, said: str) -> None:
    fault = only_fault(f"- {text}\n")
    assert fault.read == read
    assert fault.hint.startswith("a comma inside { } ends the value: ")
    assert said in fault.hint


def test_two_split_numbers_and_the_keys_beside_them() -> None:
    found = faults_of("{weight: 1,200 lb, pilot: 67,1 mm, qty: 2}")
    assert [fault.read for fault in found] == ["1,200 lb", "67,1 mm"]


@pytest.mark.parametrize(
    "text", ["{qty: 1, have}", "{a: '1', 200: x}", "{a: b, 200: c}", "{weight: '1,200 lb'}", "[1,200]"]
)
def test_what_is_no_split_number(text: str) -> None:
    compose(text, "list.yaml")


# -- what is told -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "place", "said"),
    [
        ("a: 1\nb: 2\na: 3\n", (3, 1), "it stands on line 1 already"),
        ("a: {x: 1,\n  x: 2}\n", (2, 3), "it stands on line 1 already"),
        ("a:\n\tb: 1\n", (2, 1), "no tabs"),
        ("a: x: y\n", (1, 5), "put quotes"),
        ("a: 1\n  b: 2\n", (2, 4), "line the key up"),
        ("a:\n    b: 1\n  c: 2\n", (3, 3), "same column"),
        ("a: {b: 1\nc: 2\n", (1, 4), "closing }"),
        ("a: [1, 2\nc: 2\n", (1, 4), "closing ]"),
        ("a: [\n", (1, 4), "closing ]"),
        ("a: {b: [1, {c: 2\n", (1, 12), "closing }"),
        ('a: "abc\nb: 1\n', (1, 4), "closing quote"),
        ('a: "1.5" in\n', (1, 10), "the quotes around the whole value"),
        ('- {a: "1.5" in}\n', (1, 13), "the quotes around the whole value"),
        ("a: ?\n", (1, 4), '"?"'),
        ("a: @x\n", (1, 4), "quotes around a text that starts with this"),
        ("a: - b\n", (1, 4), "new line"),
        ('a: "\\q"\n', (1, 5), "backslash"),
        ("[1]: 2\n", (1, 1), "a list cannot be one"),
    ],
)
def test_broken_yaml_in_plain_words(text: str, place: tuple[int, int], said: str) -> None:
    fault = only_fault(text)
    assert (fault.mark.line, fault.mark.column) == place
    assert said in str(fault)
    for jargon in ("token", "scalar", "block mapping", "flow", "simple key", "node", "stream", "document"):
        assert jargon not in str(fault)


def test_every_fault_in_one_run() -> None:
    found = faults_of("a: 1\na: 2\nb: {<<: {c: 1}, d: !tag x}\nc: &mark 3\n")
    assert [(fault.mark.line, fault.mark.column) for fault in found] == [(2, 1), (3, 5), (3, 20), (4, 4)]


def test_windows_line_ends_and_byte_order_mark() -> None:
    assert plain(compose(read_text(b"\xef\xbb\xbfa: 1\r\nb: 2\r\n"), "list.yaml")) == {"a": "1", "b": "2"}


# -- what is refused ----------------------------------------------------------------------------

LAUGHS = "a: &a [x, x]\n" + "".join(
    f"{chr(98 + n)}: &{chr(98 + n)} [*{chr(97 + n)}, *{chr(97 + n)}]\n" for n in range(20)
)

HOSTILE = {
    "alias bomb": LAUGHS,
    "alias": "a: &x 1\nb: *x\n",
    "merge key": "a: {<<: {b: 1}}\n",
    "python tag": "a: !!python/object/apply:os.system [echo]\n",
    "tag": "a: !!binary aGk=\n",
    "local tag": "a: !x 1\n",
    "two documents": "a: 1\n---\nb: 2\n",
    "directive": "%YAML 1.1\n---\na: 1\n",
    "100,000 brackets": "[" * 100_000,
    "100,000 braces": "{" * 100_000,
    "100,000 open maps": "{a: " * 100_000,
    "100,000 dashes": "- " * 100_000,
    "100,000 question marks": "? " * 100_000,
    "deep indents": "\n".join(" " * n + "a:" for n in range(500)),
    "too many values": "[" + "a," * 250_000 + "]",
    "a long line": "a: " + "x" * 10_000_000,
    "many commas": "{a: 1" + ",2" * 150_000 + "}",
    "NUL": "a: \0\n",
    "escape": "a: \x1b[31m\n",
    "reversed writing": "a: \u202etext\n",
    "lone surrogate": "a: \ud800\n",
    "empty": "",
    "only blanks": " \n\n",
    "only a comment": "# nothing\n",
}


@pytest.mark.parametrize("what", HOSTILE)
def test_hostile_text_is_refused(what: str) -> None:
    found = faults_of(HOSTILE[what])
    assert 1 <= len(found) <= 100
    assert all(len(str(fault)) < 300 for fault in found)
    assert all(fault.mark.line >= 1 and fault.mark.column >= 1 for fault in found)


@pytest.mark.parametrize("what", [name for name in HOSTILE if len(HOSTILE[name]) < 20_000])
def test_the_slow_parser_refuses_the_same(what: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delattr(yaml, "CSafeLoader")
    assert faults_of(HOSTILE[what])


def test_a_fault_is_one_printable_line() -> None:
    text = str(only_fault("a: \x1b[31m\n"))
    assert text.isprintable()
    assert "\\x1b" in text


@pytest.mark.parametrize(
    ("data", "place"),
    [(b"a: 1\nb: \xff\n", (2, 4)), ("a: 1".encode("utf-16"), (1, 1)), (b"\x80", (1, 1))],
)
def test_bytes_that_are_no_text(data: bytes, place: tuple[int, int]) -> None:
    with pytest.raises(Faults) as caught:
        read_text(data, "list.yaml")
    (fault,) = caught.value.faults
    assert (fault.mark.line, fault.mark.column) == place
    assert "UTF-8" in str(fault)


def test_files_that_cannot_be_read(tmp_path: Path) -> None:
    large = tmp_path / "large.yaml"
    large.write_bytes(b"#" * 2_000_001)
    for path, said in ((tmp_path / "none.yaml", "no such file"), (tmp_path, "folder"), (large, "2 MB")):
        with pytest.raises(Faults) as caught:
            read_text(path)
        assert said in str(caught.value)
        assert caught.value.faults[0].mark.file == str(path)


@pytest.mark.parametrize("after", ["", "  - {kind: hub}\n"])
def test_a_remark_that_hides_the_closing_sign_is_told(after: str) -> None:
    fault = only_fault("parts:\n  - {kind: hub, note: lot # 5}\n" + after)
    assert "closing }" in fault.expected
    assert "#" in fault.hint
    assert "#" not in only_fault("parts:\n  - {kind: hub\n" + after).hint
