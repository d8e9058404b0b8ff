"""Expands families: one entry of a catalogue file that stands for many parts.

``family`` is the id with places in braces, and ``over`` says what fills them:

    - family: cone-nut-{nut.thread}
      over: {nut: [{thread: 1/2-20, hex: 3/4 in}, {thread: M12x1.5, hex: 19 mm}]}
      kind: lug-nut
      thread: "{nut.thread}"

A name under ``over`` runs through a list of words, a list of maps, or the rows of a table
(``{table: tire_rating}``); several names give every combination.  A field whose place has nothing
to fill it (a row without that column) is left out: what is not known is not guessed.
"""

from __future__ import annotations

import re
from itertools import product

from partscheck.notation.faults import Fault
from partscheck.notation.words import nearest
from partscheck.notation.yaml_text import MapNode, Node, ScalarNode, SeqNode

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Mapping

    from partscheck.catalogue.source import BasisText, PartSource, Source
    from partscheck.notation.yaml_text import Mark

    Fields = list[tuple[ScalarNode, ScalarNode]]  # key and value
    # What is wrong with a part: its kind and its fields, with the tables to read them by.
    CheckEntry = Callable[[ScalarNode, Fields, Source], Iterable[Fault]]

PARTS_AT_MOST = 100_000
_OWN_KEYS = ("id", "family", "over", "kind", "basis", "note")
_PLACE = re.compile(r"\{([a-z_]+(?:\.[a-z0-9_]+)?)\}")


class Part:
    """One part of the catalogue: id, kind, and its fields as typed, each with its place."""

    __slots__ = ("basis", "fields", "id", "kind", "layer", "mark", "note")

    def __init__(self, id: str, kind: ScalarNode, fields: Fields, source: PartSource) -> None:
        self.id = id
        self.kind = kind
        self.fields = fields
        self.layer = source.layer
        self.basis: BasisText = source.basis
        self.note = source.note
        self.mark: Mark = source.node.mark


def expand(source: Source, faults: list[Fault], check_entry: CheckEntry | None = None) -> dict[str, Part]:
    """Every part by id; a later layer's part replaces an earlier one's and is recorded.

    ``check_entry`` tells what is wrong with an entry's kind and fields; a family is checked part
    by part until one has a fault, so that one mistake is told once.
    """
    parts: dict[str, Part] = {}
    for entry in source.parts:
        sound = True
        for part in _parts_of(entry, source, faults):
            if len(parts) >= PARTS_AT_MOST:
                faults.append(Fault(entry.node.mark, "", f"at most {PARTS_AT_MOST} parts in a catalogue"))
                return parts
            if sound and check_entry is not None:
                found = list(check_entry(part.kind, part.fields, source))
                faults += found
                sound = not found
            _keep(part, parts, source, faults)
    return parts


def _keep(part: Part, parts: dict[str, Part], source: Source, faults: list[Fault]) -> None:
    earlier = parts.get(part.id)
    if earlier is not None and earlier.layer == part.layer:
        faults.append(Fault(part.mark, part.id, "each id once", f"{earlier.mark} has it already"))
        return
    if earlier is not None:
        source.overridden.append((part.id, earlier.layer, part.layer))
    parts[part.id] = part


def _parts_of(entry: PartSource, source: Source, faults: list[Fault]) -> Iterator[Part]:
    node = entry.node
    name, kind = node.get("id"), node.get("kind")
    family, over = node.get("family"), node.get("over")
    if (name is None) == (family is None) or (family is None) != (over is None):
        due = "a part with `id`, or with `family` and `over`"
        faults.append(Fault(node.mark, ", ".join(node.keys()[:4]), due))
        return
    title = name if name is not None else family
    if not isinstance(title, ScalarNode) or not title.text.strip():
        faults.append(Fault(node.mark, "", "an id: one text"))
        return
    if not isinstance(kind, ScalarNode) or not kind.text:
        faults.append(Fault(node.mark, "", "a part with `kind`"))
        return
    fields = _fields(node, faults)
    if over is None:
        yield Part(title.text, kind, fields, entry)
        return
    for values in _combinations(over, source, faults):
        part = _filled(title, kind, fields, values, entry, source, faults)
        if part is None:
            return
        yield part


def _fields(node: MapNode, faults: list[Fault]) -> Fields:
    fields: Fields = []
    for key, value in node.entries:
        if key.text in _OWN_KEYS:
            continue
        if isinstance(value, ScalarNode) and not value.empty:
            fields.append((key, value))
        else:
            due = f"one value under `{key.text}`"
            faults.append(Fault(value.mark, "", due, "leave out what is not known"))
    return fields


def _filled(
    title: ScalarNode, kind: ScalarNode, fields: Fields,
    values: dict[str, str], entry: PartSource, source: Source, faults: list[Fault],
) -> Part | None:  # fmt: skip
    """The part with its places filled from ``values``; None (and a fault) when the id has a gap."""
    missing = [place for place in _PLACE.findall(title.text) if place not in values]
    if missing and not source.whole:
        return None  # most likely a fault that is told already
    if missing:
        near = nearest(missing[0], list(values))
        hint = f"did you mean {{{near}}}?" if near else f"there are {', '.join(values)}"
        due = "a place that every member of the family fills"
        faults.append(Fault(title.mark, f"{{{missing[0]}}}", due, hint))
        return None
    filled: Fields = []
    for key, node in fields:
        if all(place in values for place in _PLACE.findall(node.text)):
            filled.append((key, ScalarNode(_fill(node.text, values), node.plain, node.mark)))
    return Part(_fill(title.text, values), kind, filled, entry)


def _fill(text: str, values: dict[str, str]) -> str:
    return _PLACE.sub(lambda match: values[match.group(1)], text)


def _combinations(over: Node, source: Source, faults: list[Fault]) -> Iterator[dict[str, str]]:
    if not isinstance(over, MapNode):
        faults.append(Fault(over.mark, "", "a map of names and what they run through"))
        return
    runs: list[list[dict[str, str]]] = []
    total = 1
    for name, node in over.entries:
        run = _run(name.text, node, source, faults)
        total *= len(run)
        runs.append(run)
    if total > PARTS_AT_MOST:
        due = f"a family of at most {PARTS_AT_MOST} parts"
        faults.append(Fault(over.mark, "", due, f"this one has {total}"))
        return
    for combination in product(*runs):
        yield {place: text for values in combination for place, text in values.items()}


def _run(name: str, node: Node, source: Source, faults: list[Fault]) -> list[dict[str, str]]:
    """The values of one name: for each member, what its places stand for."""
    if isinstance(node, MapNode) and node.keys() == ["table"]:
        table = node.get("table")
        wanted = table.text if isinstance(table, ScalarNode) else ""
        if wanted not in source.tables and source.whole:
            near = nearest(wanted, list(source.tables))
            hint = f"did you mean `{near}`?" if near else ""
            faults.append(Fault(node.mark, wanted, "the name of a table", hint))
        return [_places(name, row) for row in source.rows(wanted)]
    if isinstance(node, SeqNode):
        return [_member(name, item, faults) for item in node.items]
    faults.append(Fault(node.mark, "", "a list, or {table: <name of a table>}"))
    return []


def _member(name: str, item: Node, faults: list[Fault]) -> dict[str, str]:
    if isinstance(item, ScalarNode):
        return {name: item.text}
    values: dict[str, str] = {}
    for key, value in item.entries if isinstance(item, MapNode) else []:
        if isinstance(value, ScalarNode):
            values[f"{name}.{key.text}"] = value.text
    if not values:
        faults.append(Fault(item.mark, "", "a word, or a map of words"))
    return values


def _places(name: str, row: Mapping[str, object]) -> dict[str, str]:
    return {f"{name}.{column}": str(value) for column, value in row.items() if not isinstance(value, list)}
