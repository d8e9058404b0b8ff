"""New lines for what is missing: from the remedy's own words, or parts of the catalogue."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from partscheck.build.model import pieces
from partscheck.notation.faults import Faults
from partscheck.notation.yaml_text import MapNode, Node, ScalarNode, SeqNode, compose
from partscheck.uses.bom_kinds import described
from partscheck.uses.fix.edits import BUY, Add, Option, Put

if TYPE_CHECKING:
    from collections.abc import Iterator

    from partscheck.build.model import Build
    from partscheck.uses.fix.candidates import Shelf

MOST = 4
IN_PAIRS = ("brake", "safety-chain", "suspension-arm")


def lines_to_add(
    build: Build, shelf: Shelf, remedy: Any, parts: tuple[str, ...]
) -> Iterator[list[dict[str, Any]]]:
    """Sets of lines, each of which may be what the remedy asks for."""
    if isinstance(remedy.target, str) and remedy.target.startswith("{"):
        line = _read(remedy.target)
        if line:
            yield [{"id": free_id(build, _name(str(line.get("kind", "part")), parts)), **line}]
        return
    kind = remedy.field
    thread = remedy.values.get("thread")
    stock: list[tuple[Any, Any]] = [
        (entry, part) for entry, part in shelf.of_kind(kind)
        if thread is None or str(getattr(part, "thread", thread)) == str(thread)
    ]  # fmt: skip
    stock.sort(key=lambda pair: pair[1].price.hundredths if pair[1].has("price") else 10**9)
    if kind == "brake":
        yield from _both_hands(build, stock)
        return
    for entry, _ in stock[:MOST]:
        count = _pieces(remedy) or (2 if kind in IN_PAIRS else 1)
        line = {"id": free_id(build, _name(kind, parts)), "part": entry.id, "qty": str(count)}
        if kind == "lug-nut" and parts:
            line["mounts_on"] = parts[-1]
        yield [line]
        line = dict(line)
        if line.pop("mounts_on", ""):
            yield [line]


def _both_hands(build: Build, stock: list[tuple[Any, Any]]) -> Iterator[list[dict[str, Any]]]:
    hands = {
        hand: [one for one in stock if one[1].has("hand") and one[1].hand == hand] for hand in ("left", "right")
    }
    layout: Any = build.layout
    axles = layout.axles if layout.has("axles") else 1
    for left, right in list(zip(hands["left"], hands["right"], strict=False))[:MOST]:
        yield [
            {"id": free_id(build, "brake-left"), "part": left[0].id, "qty": str(axles)},
            {"id": free_id(build, "brake-right"), "part": right[0].id, "qty": str(axles)},
        ]


def other_hand(
    build: Build, shelf: Shelf, remedy: Any, parts: tuple[str, ...], do: str
) -> Iterator[Option]:
    """Half of a line's pieces for the other side, on a line of their own."""
    hand = str(remedy.target)
    line = next((part for part in build.parts if part.id in parts and part.kind == remedy.field), None)
    if line is None:
        return
    count = pieces(line) or 1
    half = remedy.values.get("half", 1)
    keep = [] if "half" not in remedy.values else [Put(line.id, "qty", str(count - half))]
    for entry, other in shelf.of_kind(line.kind):
        if not other.has("hand") or str(other.hand) != hand or _differs(line, other):  # type: ignore[attr-defined]
            continue
        new = {"id": free_id(build, f"{line.id}-{hand}"), "part": entry.id, "qty": str(half)}
        words = f"Keep {count - half} of {line.id}, and add " if keep else "Add "
        yield Option(line.id, BUY, f"{words}{half} x {described(other)} ({entry.id})",
                     [*keep, Add(new, line.id)], entry=entry.id)  # fmt: skip


def _differs(line: Any, other: Any) -> bool:
    """Another type, size or flange than the one on the line."""
    return any(
        line.has(name) and other.has(name) and str(line.values[name].text) != str(other.values[name].text)
        for name in ("type", "drum_diameter", "shoe_width", "flange", "voltage", "brake_flange")
        if name in line.fields
    )


def _name(kind: str, parts: tuple[str, ...]) -> str:
    """A name that tells two lines of one kind apart by what they are for: "wheel-lug-nut"."""
    return f"{parts[0]}-{kind}" if len(parts) in (1, 2) else kind


def _pieces(remedy: Any) -> int:
    said = "".join(one for one in str(remedy.values.get("pieces", "")) if one.isdigit())
    return int(said) if said else 0


def free_id(build: Build, name: str) -> str:
    """``name``, or the first of name-2, name-3, ... that no line has."""
    taken = {one.id for one in (*build.parts, *build.joints, *build.loads)}
    found, number = name, 1
    while found in taken:
        number += 1
        found = f"{name}-{number}"
    return found


def _read(text: str) -> dict[str, Any]:
    """The fields of a line that a remedy spells out."""
    try:
        node = compose(text, "the remedy")
    except Faults:
        return {}
    value = _value(node)
    return value if isinstance(value, dict) else {}


def _value(node: Node) -> Any:
    if isinstance(node, MapNode):
        return {key.text: _value(one) for key, one in node.entries}
    if isinstance(node, SeqNode):
        return [_value(one) for one in node.items]
    return node.text if isinstance(node, ScalarNode) else ""
