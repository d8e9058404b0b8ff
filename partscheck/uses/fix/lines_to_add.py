"""New lines for what is missing: from the remedy's own words, or parts of the catalogue."""

from __future__ import annotations

from partscheck.build.model import pieces
from partscheck.notation.faults import Faults
from partscheck.notation.yaml_text import MapNode, Node, ScalarNode, SeqNode, compose
from partscheck.parts.kinds import KINDS
from partscheck.uses.bom_kinds import described
from partscheck.uses.fix.edits import BUY, FIND, Add, Option, Put
from partscheck.uses.fix.mating import mating_fields
from partscheck.uses.fix.notes import TO_BE_FOUND

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import Any

    from partscheck.build.model import Build
    from partscheck.uses.fix.candidates import Shelf

MOST = 4
BY_THREAD = ("lug-nut", "wheel-bolt")
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
    if thread is None and kind in BY_THREAD:  # whichever was taken would be a guess
        stock = []
    for entry, _ in stock[:MOST]:
        count = _pieces(remedy) or (2 if kind in IN_PAIRS else 1)
        line = {"id": free_id(build, _name(kind, parts)), "part": entry.id, "qty": str(count)}
        if kind == "lug-nut" and parts:
            line["mounts_on"] = parts[-1]
        yield [line]
        line = dict(line)
        if line.pop("mounts_on", ""):
            yield [line]
    if kind in KINDS and kind != "other":
        yield [_to_find(build, remedy, kind, parts)]


def _to_find(build: Build, remedy: Any, kind: str, parts: tuple[str, ...]) -> dict[str, Any]:
    """A line for what the catalogue does not have, with as much of it as is known."""
    line = {"id": free_id(build, _name(kind, parts)), "kind": kind}
    thread = remedy.values.get("thread")
    if thread is not None and "thread" in KINDS[kind].fields:
        line["thread"] = str(thread)
    if kind in BY_THREAD and len(parts) > 1:
        line |= _seat(build.part(parts[0]))
    if kind == "lug-nut" and parts:
        line["mounts_on"] = parts[-1]
    line["qty"] = str(_pieces(remedy) or (2 if kind in IN_PAIRS else 1))
    return {**line, "note": TO_BE_FOUND}


def _seat(held: Any) -> dict[str, str]:
    """The seat that nuts or bolts need which hold this wheel or adapter, as far as it is known."""
    before = "nut_" if held is not None and held.kind == "adapter" else ""
    names = {"seat": "nut_seat", "seat_angle": f"{before}seat_angle", "seat_radius": f"{before}seat_radius"}
    return {
        key: held.values[name].text for key, name in names.items()
        if held is not None and name in held.fields and held.has(name)
    }  # fmt: skip


def _both_hands(build: Build, stock: list[tuple[Any, Any]]) -> Iterator[list[dict[str, Any]]]:
    hands = {
        hand: [one for one in stock if one[1].has("hand") and one[1].hand == hand] for hand in ("left", "right")
    }
    layout: Any = build.layout
    axles = layout.axles if layout.has("axles") else 1
    if not (hands["left"] and hands["right"]):
        yield [
            {"id": free_id(build, f"brake-{hand}"), "kind": "brake", "hand": hand, "qty": str(axles),
             "note": TO_BE_FOUND}
            for hand in ("left", "right")
        ]  # fmt: skip
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
    alike = {
        key: " ".join(line.values[name].text.split())
        for name, field in line.fields.items()
        if (key := field.key) in (*mating_fields(line.kind), "rating", "per") and key != "hand" and line.has(name)
    }
    new = {"id": free_id(build, f"{line.id}-{hand}"), "kind": line.kind, **alike, "hand": hand, "qty": str(half)}
    said = "".join(f", {key.replace('_', ' ')} {text}" for key, text in alike.items())
    words = f"Keep {count - half} of {line.id}, and find " if keep else "Find "
    yield Option(line.id, FIND, f"{words}{half} x {line.title}, {hand} hand{said}",
                 [*keep, Add({**new, "note": TO_BE_FOUND}, line.id)])  # fmt: skip


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
