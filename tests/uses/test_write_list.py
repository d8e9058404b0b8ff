"""The changed list: edited in place; what was not changed stays as it was typed, byte for byte."""

from __future__ import annotations

import random
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from uses.fault_injection import fault

import partscheck
from partscheck.notation.yaml_text import MapNode, ScalarNode, SeqNode, compose
from partscheck.uses.fix import fix
from partscheck.uses.fix.edits import Add, Article, Put, Remove
from partscheck.uses.fix.list_edits import CannotEditError, edited, typed
from partscheck.uses.fix.write_list import differences, written_list

ROOT = Path(__file__).resolve().parents[2]
EXAMPLES = ("apiary-first", "apiary-corrected", "four-line-cart", "metric-750", "tandem-arms")
CATALOG = [str(ROOT / "examples/catalog")]

LIST = """\
# my list
build: Cart
layout:
  coupler_to_axle: 120 in   # measured
parts:
  # hubs
  - {id: hub, kind: hub, bolt_circle: 5 x 4.5 in, qty: 2}   # from the shop
  - id: wheel          # steel
    kind: wheel
    size: 15 x 6 in    # stamped
    bolt_circle: 5 x 5.5 in
    rating: 1100 lb
    price: 40.00

  - {id: nuts, kind: lug-nut, thread: 1/2-20, qty: 10,
     price: 1.00}      # ten of them
loads:
  - {what: frame, weight: 640 lb, from_coupler: 100 in}
"""


def text_of(name: str) -> str:
    return (ROOT / f"examples/{name}.yaml").read_text(encoding="utf-8")


def build_of(text: str) -> Any:
    return partscheck.read_list(text.encode("utf-8"), CATALOG, "list.yaml")


def plain(node: Any) -> Any:
    if isinstance(node, MapNode):
        return {key.text: plain(value) for key, value in node.entries}
    if isinstance(node, SeqNode):
        return [plain(one) for one in node.items]
    assert isinstance(node, ScalarNode)
    return node.text


def comments(text: str) -> list[str]:
    return [line[line.index("#") :] for line in text.splitlines() if "#" in line]


def line_of(text: str, word: str) -> int:
    return next(number for number, line in enumerate(text.splitlines()) if word in line)


# ---- one edit ------------------------------------------------------------------------------------


def test_a_value_is_replaced_where_it_stands() -> None:
    new = edited(LIST, [Put("wheel", "rating", "1900 lb")])
    assert new == LIST.replace("rating: 1100 lb", "rating: 1900 lb")


def test_the_comment_behind_a_value_stays() -> None:
    new = edited(LIST, [Put("layout", "coupler_to_axle", "129 in"), Put("wheel", "size", "14 x 6 in")])
    assert "  coupler_to_axle: 129 in   # measured\n" in new
    assert "    size: 14 x 6 in    # stamped\n" in new


def test_a_field_is_added_to_a_block_and_to_braces() -> None:
    new = edited(LIST, [Put("wheel", "offset", "+1.25 in"), Put("hub", "stud_length", "1.2 in")])
    assert "    price: 40.00\n    offset: +1.25 in\n" in new
    line = "  - {id: hub, kind: hub, bolt_circle: 5 x 4.5 in, qty: 2, stud_length: 1.2 in}   # from the shop\n"
    assert line in new


def test_another_article_takes_the_old_ones_fields_along() -> None:
    new = edited(LIST, [Article("wheel", "silver-wheel", {"qty": "3"})])
    block = new[new.index("  - id: wheel") : new.index("\n\n  - {id: nuts")]
    assert block == "  - id: wheel          # steel\n    part: silver-wheel\n    qty: 3"


def test_another_article_in_braces() -> None:
    new = edited(LIST, [Article("nuts", "open-nut", {"packs": "1"})])
    assert "  - {id: nuts, part: open-nut, qty: 10, packs: 1}      # ten of them\n" in new


def test_a_comment_inside_braces_goes_behind_them() -> None:
    text = "parts:\n  - {id: a, kind: hub, # mine\n     rating: 1 lb, qty: 2}\n"
    assert edited(text, [Article("a", "x", {})]) == "parts:\n  - {id: a, part: x, qty: 2}  # mine\n"


def test_lines_are_added_and_taken_away() -> None:
    new = edited(LIST, [Add({"id": "seal", "kind": "seal"}, "hub"), Remove("nuts"), Add({"kind": "grease"})])
    lines = new.splitlines()
    assert lines[line_of(new, "id: hub") + 1] == "  - {id: seal, kind: seal}"
    assert "id: nuts" not in new
    assert "  - {kind: grease}" in lines


def test_a_map_that_is_not_there_yet_comes_at_the_end() -> None:
    assert edited("parts: []", [Put("service", "gross_weight", "2000 lb")]) == (
        "parts: []\nservice:\n  gross_weight: 2000 lb\n"
    )


def test_a_record_inside_a_joint() -> None:
    joint = " - id: j\n   tapped: {depth: 19 mm}\n   stack:\n    - {hole: 9 mm}\n"
    text = f"parts:\n - {{id: b, kind: bolt}}\nbolted_joints:\n{joint}"
    new = edited(text, [Put("j", "depth", "27 mm", ("tapped",)), Put("j", "sleeve", "true", ("stack", "0"))])
    assert "tapped: {depth: 27 mm}" in new
    assert "- {hole: 9 mm, sleeve: true}" in new


@pytest.mark.parametrize("newline", ["\n", "\r\n"])
def test_line_ends_and_byte_order_mark_stay(newline: str) -> None:
    text = "\ufeff" + LIST.replace("\n", newline)
    edits = [Put("wheel", "offset", "+30 mm"), Put("layout", "axles", "1")]
    new = edited(text, edits)
    assert new.startswith("\ufeff# my list" + newline)
    assert new.count(newline) == text.count(newline) + 2
    assert new.replace(newline, "\n") == "\ufeff" + edited(LIST, edits)


def test_what_cannot_be_done_in_place_is_refused_by_name() -> None:
    text = "parts:\n  - id: a\n    kind: hub\n    note: |\n      two\n      lines\n"
    with pytest.raises(CannotEditError, match=r"a\.note"):
        edited(text, [Put("a", "note", "one")])
    with pytest.raises(CannotEditError, match="not found"):
        edited(text, [Put("b", "rating", "1 lb")])
    with pytest.raises(CannotEditError, match="in place"):
        edited(text, [Remove("a")])


# ---- any text, any edit --------------------------------------------------------------------------


@given(st.text(max_size=30), st.booleans())
def test_every_text_reads_back_as_it_is(text: str, flow: bool) -> None:
    try:
        root = compose(f"{{a: {typed(text, True)}}}" if flow else f"a: {typed(text, False)}", "x")
    except partscheck.Faults:
        # Control characters and the like are refused in any list; line breaks are folded.
        assert any(not char.isprintable() for char in text)
        return
    assert isinstance(root, MapNode)
    found = root.get("a")
    assert isinstance(found, ScalarNode)
    if "\n" not in text and "\r" not in text and "\x85" not in text:
        assert found.text == text


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(EXAMPLES), st.integers(0, 2**32), st.integers(1, 5))
def test_random_edits_keep_every_other_line(name: str, seed: int, count: int) -> None:
    """Fields set at random: every line without one of them is as it was, and so are all comments."""
    text, draw = text_of(name), random.Random(seed)
    build = build_of(text)
    found = [fault(build, draw) for _ in range(count)]
    edits = list({(one.target, one.key): one for one in found if one is not None}.values())
    new = edited(text, edits)
    before, after = text.splitlines(), new.splitlines()
    was = plain(compose(text, "x"))
    if all(edit.key in record_in(was, edit.target) for edit in edits):  # values replaced, none added
        assert len(before) == len(after)
        assert sum(one != other for one, other in zip(before, after, strict=True)) <= len(edits)
    assert comments(new) == comments(text)
    was, now = plain(compose(text, "x")), plain(compose(new, "x"))
    for edit in edits:
        assert_set(now, edit)
        assert_set(was, edit, put_back=now)
    assert was == now, "nothing else changed"


def assert_set(root: Any, edit: Put, put_back: Any = None) -> None:
    """The value stands there; or, with ``put_back``, put it there, to compare what else there is."""
    record = record_in(root, edit.target)
    if put_back is None:
        assert record[edit.key] == str(edit.text)
    else:
        record[edit.key] = record_in(put_back, edit.target)[edit.key]


def record_in(root: Any, target: str) -> Any:
    for group in ("parts", "bolted_joints", "loads"):
        for number, one in enumerate(root.get(group, []), start=1):
            unnamed = f"{'joint' if group == 'bolted_joints' else 'load'} {number}"
            if target in (one.get("id"), one.get("what"), unnamed if group != "parts" else None):
                return one
            if group == "parts" and "id" not in one and target in (one.get("part"), one.get("kind")):
                return one
    return root[target]


@settings(max_examples=40, deadline=None)
@given(st.sampled_from(EXAMPLES), st.integers(0, 2**32))
def test_random_articles_and_lines_keep_the_rest(name: str, seed: int) -> None:
    """Another article on one line, one line added, one taken away: all other lines stand as they stood."""
    text, draw = text_of(name), random.Random(seed)
    ids = [part.id for part in build_of(text).parts]
    target, gone, near = draw.choice(ids), draw.choice(ids), draw.choice(ids)
    new_line = Add({"id": "new-line", "kind": "grease"}, near)
    edits: list[Any] = [Article(target, "some-part", {"packs": "2"}), new_line]
    if gone not in (target, near):
        edits.append(Remove(gone))
    new = edited(text, edits)
    was, now = plain(compose(text, "x")), plain(compose(new, "x"))
    old = {one.get("id") or one.get("part") or one.get("kind"): one for one in was["parts"]}
    for one in now["parts"]:
        key = one.get("id") or one.get("part") or one.get("kind")
        if key == "new-line":
            assert one == {"id": "new-line", "kind": "grease"}
        elif one.get("part") == "some-part":
            assert one["packs"] == "2"
            assert not {"kind", "price", "rating"} & {*one}
        else:
            assert one == old[key]
    removed = len(edits) == 3
    assert len(now["parts"]) == len(was["parts"]) + 1 - removed
    assert {key: value for key, value in now.items() if key != "parts"} == {
        key: value for key, value in was.items() if key != "parts"
    }
    kept = [line for line in text.splitlines() if line.lstrip().startswith("#")]
    assert all(line in new for line in kept), "comments on lines of their own stay"


# ---- a plan --------------------------------------------------------------------------------------


def test_the_demo_trailers_plan_is_written_and_reads_back() -> None:
    text = text_of("apiary-first")
    found = fix(text.encode("utf-8"), plans=2, catalogs=CATALOG, file="apiary-first.yaml")
    for plan in found.plans:
        new = written_list(text, plan)
        again = partscheck.check(new.encode("utf-8"), CATALOG, "apiary-first.yaml")
        assert again.verdict != "stop"
        assert not differences(plan.build, again.build)
        kept = [line for line in text.splitlines() if line.lstrip().startswith("#")]
        assert [line for line in new.splitlines() if line.lstrip().startswith("#")] == kept


def test_a_text_that_would_say_something_else_is_refused() -> None:
    """The plan of one list is not written into the text of another."""
    text = text_of("four-line-cart")
    plan = fix(text.encode("utf-8"), plans=1, catalogs=CATALOG, file="cart.yaml").plans[0]
    other = text.replace("qty: 2", "qty: 3", 1)
    assert other != text
    with pytest.raises(CannotEditError, match="something else"):
        written_list(other, plan)
