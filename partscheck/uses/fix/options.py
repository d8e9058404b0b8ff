"""What could be done about a stop: its rule's remedies, and the catalogue, turned into options.

An option is proposed here and judged elsewhere: whether it clears anything is tried in the build.
"""

from __future__ import annotations

from partscheck.build.fit import Fit
from partscheck.build.model import pieces
from partscheck.build.needs import need_of
from partscheck.build.record_reader import fields_by_key
from partscheck.notation.fastener_size import FastenerSize
from partscheck.notation.interval import Interval
from partscheck.notation.tire_size import TireSize
from partscheck.notation.wheel_size import WheelSize
from partscheck.parts.kinds import KINDS
from partscheck.rules.check import AT_LEAST, AT_MOST
from partscheck.uses.bom_kinds import described
from partscheck.uses.fix.between import adapters_between
from partscheck.uses.fix.candidates import Want, of_diameter
from partscheck.uses.fix.edits import (
    BUY,
    COUNT,
    DECLARE,
    FIND,
    LOAD,
    MAPS,
    REMOVE,
    SHOP,
    WHOLE,
    Add,
    Article,
    Option,
    Put,
    Remove,
)
from partscheck.uses.fix.lines_to_add import BY_THREAD, lines_to_add, other_hand
from partscheck.uses.fix.mating import use_fields
from partscheck.uses.fix.neighbours import other_system
from partscheck.uses.fix.notes import TO_BE_FOUND, note_kept, note_to_find
from partscheck.uses.fix.stricter import sets_of_wants, stricter, with_its_speed
from partscheck.uses.fix.typed_text import quantity_text, value_text
from partscheck.uses.fix.wanted import has_to_be, unsaid, wanted_words

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence
    from typing import Any

    from partscheck.build.model import Build
    from partscheck.parts.record import Part
    from partscheck.uses.fix.candidates import Shelf
    from partscheck.uses.fix.trials import Told

MOST_CANDIDATES = 8  # articles tried for one line
MOST_BOLTS = 2  # times those that are there; practice: more would want another joint
LATER = 100  # behind every other remedy of the rule
OF_ONE_ARTICLE = ("price", "seller", "weight", "make")  # not what an article still to be found has
BETWEEN = "bolt-circle-mismatch"  # its remedy to add something is an adapter between the two parts
# What may be declared to clear a stop: it promises something (less weight, less speed), and nothing else.
# What only says of a part what nobody looked at (a pocket, a hand) is not among them.
PROMISES = ("gross_weight", "gawr", "top_speed")
LOADS = ("weight", "weight_carried", "volume", "from_coupler", "from_centre")
WORK = ("torque", "nut_torque")
STRUCTURAL = (
    "Cutting, drilling or welding what carries the trailer weakens it: follow the part maker's instructions and "
    "local codes, and leave frame, spindle and weld to licensed practice."
)
BREAKABLE = ("A stud or bolt cut or ground hot loses its strength: cut cold, and leave studs that are short of "
             "thread to a hub shop.")  # fmt: skip


class Proposal:
    """An option, and the remedy that it carries out: ``stop`` and ``number`` of the remedy in its list."""

    __slots__ = ("number", "option", "stop")

    def __init__(self, option: Option, stop: Any, number: int) -> None:
        self.option = option
        self.stop = stop
        self.number = number


class Proposer:
    """Proposes options for the stops of a build in some state; ``asked`` is what is asked already of the
    articles that are to be found for it, by line.
    """

    def __init__(
        self, build: Build, shelf: Shelf, leading: str, asked: Mapping[str, Sequence[Want]] | None = None
    ) -> None:
        self.asked = asked or {}
        self.build = build
        self.fit = Fit(build)
        self.shelf = shelf
        self.leading = leading  # of the words
        self.units = build.leading()  # of what is typed into the list

    def propose(self, stops: Sequence[Told]) -> list[Proposal]:
        """Every option that the remedies of these stops lead to."""
        found = []
        for stop in stops:
            for number, (remedy, sentence) in enumerate(stop.remedies):
                for option in self._carry_out(remedy, sentence, stop, number):
                    option.rank += number
                    found.append(Proposal(option, stop.key, number))
        return [*found, *self._articles(stops)]

    # ---- one remedy ----------------------------------------------------------------------

    def _carry_out(self, remedy: Any, sentence: str, stop: Told, number: int) -> Iterator[Option]:
        words = sentence.removeprefix("or, ").removeprefix("or ")
        do = words[:1].upper() + words[1:]
        field = remedy.field
        if remedy.operation == "add" and (field in KINDS or not field):
            yield from self._added(remedy, stop, do)
            return
        if remedy.operation == "remove" and self.build.part(field) is not None:
            yield Option(field, REMOVE, do, [Remove(field)])
            return
        target, _, key = field.rpartition(".")
        if not target or not key or remedy.operation == "replace":
            if remedy.operation == "replace" and target and self.build.part(target) is None:
                yield from self._put(target, key, remedy, do, stop)
            return
        yield from self._put(target, key, remedy, do, stop)

    def _put(self, target: str, key: str, remedy: Any, do: str, stop: Told) -> Iterator[Option]:
        sort = _sort(target, key, remedy.operation)
        if sort is None:
            return
        if key in WORK and remedy.relation == AT_MOST:  # there something strips: how far below, nobody says
            return
        holder, inner, record = self._record(target)
        if record is None:
            return
        if key == "bolts" and record.has("bolts") and int(remedy.target) > MOST_BOLTS * record.bolts:
            return  # that is another joint, to be laid out anew
        key, text = self._typed(record, key, remedy)
        if not text:
            return
        edits = [Put(holder, key, text, inner), *self._along(holder, key, text, remedy)]
        if (inner, key) == (("tapped",), "depth") and _deeper_than_drilled(record, remedy.target):
            edits.append(Put(holder, "drill_depth", "unknown", inner))  # it is drilled deeper, too
        rank = LATER if any(edit.key == "drill_depth" for edit in edits) else 0  # metal may be missing there
        field = ".".join((*inner, key))
        hazard = "" if key in WORK else _hazard(sort, record, stop)
        yield Option(holder, sort, do, edits, rank, hazard, field=field)

    def _record(self, target: str) -> tuple[str, tuple[str, ...], Any]:
        """(id that a change can name, way to a record inside it, the record)."""
        part = self.build.part(target)
        if part is not None:
            return target, (), part
        if target in MAPS:
            found = getattr(self.build, target, None)
            if target == "tongue":
                typed = self.build.layout.values.get("tongue")
                found = None if typed is None else typed.value
            return target, (), found
        for record in (*self.build.joints, *self.build.loads):
            if record.id == target:
                return target, (), record
        for joint in self.build.joints:
            for name in ("tapped", "load", "washers"):
                typed = joint.values.get(name)
                if typed is not None and getattr(typed.value, "id", "") == target:
                    return joint.id, (name,), typed.value
            layers = joint.values.get("stack")
            for number, layer in enumerate(layers.value if layers is not None else ()):
                if layer.id == target:
                    return joint.id, ("stack", str(number)), layer
        return target, (), None

    def _typed(self, record: Any, key: str, remedy: Any) -> tuple[str, Any]:
        """The field that the remedy means and what one types there."""
        fields = fields_by_key(type(record))
        if key == "length" and "length" not in fields and "size" in fields:
            key = "size"
        if key not in fields:
            return key, ""
        name = fields[key].name
        before = getattr(record, name, None)
        if isinstance(before, (FastenerSize, WheelSize)) and isinstance(remedy.target, Interval):
            return key, size_text(before, remedy.relation, remedy.target, self.units)
        if isinstance(before, TireSize):  # no tire is typed by its rim alone
            return key, "" if isinstance(remedy.target, Interval) else value_text("", remedy.target, self.units)
        if isinstance(before, FastenerSize) and before.known and not isinstance(remedy.target, Interval):
            if other_system(remedy.target, before.thread):  # a metric bolt has no grade 5 and no length in inches
                return key, ""
            return key, f"{remedy.target} x {quantity_text(before.length, self.units)}"
        if type(fields[key].type).__name__ == "Flag" and not isinstance(remedy.target, str):
            return key, "true" if remedy.target is not False else "false"
        return key, value_text(remedy.relation, remedy.target, self.units)

    def _along(self, target: str, key: str, text: Any, remedy: Any) -> Iterator[Put]:
        """What moves with it: the running gear with its axle, and what is measured from there."""
        if (target, key) != ("layout", "coupler_to_axle") or not isinstance(remedy.target, Interval):
            return
        layout: Any = self.build.layout
        by = remedy.target - layout.coupler_to_axle
        for load in self.build.loads:
            moves: Any = load
            if moves.has("moves_with_axle") and moves.moves_with_axle and moves.has("from_coupler"):
                yield Put(load.id, "from_coupler", quantity_text(_plain(moves.from_coupler + by), self.units))
        for name, sign in (("rear_overhang", -1.0), ("coupler_to_front", 0.0)):
            if sign and name in layout.fields and layout.has(name):
                moved = getattr(layout, name) + by * sign
                yield Put("layout", name, quantity_text(_plain(moved), self.units))

    def _added(self, remedy: Any, stop: Told, do: str) -> Iterator[Option]:
        if "half" in remedy.values or (remedy.field in ("brake", "suspension-arm") and remedy.target):
            yield from other_hand(self.build, self.shelf, remedy, stop.parts, do)
            return
        if stop.slug == BETWEEN:
            yield from adapters_between(self.build, self.fit, self.shelf, stop, self.leading)
            return
        for lines in lines_to_add(self.build, self.shelf, remedy, stop.parts):
            name = " and ".join(_line_words(line) for line in lines)
            slot = "+" + "/".join((remedy.field or stop.slug, *stop.parts[:2]))
            find = any(line.get("note") == TO_BE_FOUND for line in lines)
            yield Option(slot, FIND if find else BUY, f"{'Find' if find else 'Add'} {name}",
                         [Add(line) for line in lines], entry=lines[0].get("part"))  # fmt: skip

    # ---- articles ------------------------------------------------------------------------

    def _articles(self, stops: Sequence[Told]) -> Iterator[Proposal]:
        """For each line that remedies want another article on: those of the catalogue, and one to be found."""
        wanted = self._wanted(stops)
        for target, asked in wanted.items():
            part = self.build.part(target)
            assert part is not None
            wants = [want for want, _ in asked]
            first = asked[0]
            for entry, other in self.shelf.candidates(part, wants, MOST_CANDIDATES):
                option = self._article(part, entry, other, unsaid(part, other, wants))
                for stop in dict.fromkeys(want.stop for want in wants):
                    number = min(number for want, number in asked if want.stop == stop)
                    yield Proposal(option, stop, number)
            fitting = [want for want in wants if _fits_type(part, want)]
            others = {want.stop for id, pairs in wanted.items() if id != target for want, _ in pairs}
            for together in sets_of_wants(fitting, others):
                found = self._to_find(part, stricter([*self.asked.get(target, ()), *together]))
                if found is not None:
                    yield Proposal(found, first[0].stop, first[1])

    def _wanted(self, stops: Iterable[Told]) -> dict[str, list[tuple[Want, int]]]:
        wanted: dict[str, list[tuple[Want, int]]] = {}
        for stop in stops:
            for number, (remedy, _) in enumerate(stop.remedies):
                target, _, key = remedy.field.rpartition(".")
                if remedy.operation == "replace" and target and self.build.part(target) is not None:
                    want = Want(key, remedy.relation, remedy.target, stop.key, remedy.values)
                    wanted.setdefault(target, []).append((want, number))
        return wanted

    def _article(self, part: Part, entry: Any, other: Part, besides: Sequence[Want]) -> Option:
        fields: dict[str, Any] = dict(self._typed(part, want.field, want) for want in besides)
        for key in use_fields(part.kind):
            name = next((name for name, field in part.fields.items() if field.key == key), "")
            typed = part.values.get(name)
            if typed is not None and name not in other.values and typed.layer == "list":
                fields[key] = typed.text
        fields.update(self._count(part, other))
        note = note_kept(part)
        if note:
            fields["note"] = note
        do = f"Take {described(other)} ({entry.id}){has_to_be(part, besides, self.leading)}"
        return Option(part.id, BUY, do, [Article(part.id, entry.id, fields)], entry=entry.id)

    def _count(self, part: Part, other: Any) -> dict[str, str]:
        """As many pieces as before, or as the build needs, in whole packs of the new article."""
        need, there = need_of(part, self.fit), pieces(part)
        wanted = max(need.count if need is not None else 0, there or 0)
        if not wanted:
            return {}
        if "qty" in part.values and part.values["qty"].layer == "list":
            return {} if there is not None and there >= wanted else {"qty": str(wanted)}
        pack = other.pack if other.has("pack") else 1
        return {"packs": str(-(-wanted // pack))} if pack > 1 else {"qty": str(wanted)}

    def _to_find(self, part: Part, wants: Sequence[Want]) -> Option | None:
        """The article that would do, whether or not anybody sells it."""
        wants = with_its_speed(part, wants)
        edits: dict[str, Put] = {}
        for want in wants:
            key, text = self._typed(part, want.field, want)
            if text and key != "part":
                edits[key] = Put(part.id, key, text)
        if not edits:
            return None
        count = self._short(part)
        edits.update({put.key: put for put in count})
        if "seat" in edits:  # a flat seat has no angle, a cone no radius
            for key in ("seat_angle", "seat_radius"):
                if key in part.values and key not in edits:
                    edits[key] = Put(part.id, key, "unknown")
        if "max_load" in edits and "service_description" in part.values:  # the load index of the tire before
            edits["service_description"] = Put(part.id, "service_description", "unknown")
        for key in OF_ONE_ARTICLE:
            if key in part.values and (key, part.kind) != ("weight", "rack"):  # a rack's weight is a load
                edits[key] = Put(part.id, key, "unknown")
        if part.values.get("have") is not None:
            edits["have"] = Put(part.id, "have", "false")
        edits["note"] = Put(part.id, "note", note_to_find(part))
        option = Option(part.id, FIND, f"Find: {wanted_words(part, wants, self.leading)}", edits.values())
        option.wants = wants
        return option

    def _short(self, part: Part) -> list[Put]:
        need, there = need_of(part, self.fit), pieces(part)
        if need is None or there is None or there >= need.count or "qty" not in part.values:
            return []
        return [Put(part.id, "qty", str(need.count))]


def _deeper_than_drilled(tapped: Any, target: Any) -> bool:
    return isinstance(target, Interval) and tapped.has("drill_depth") and bool(tapped.drill_depth.lo < target.hi)


def _fits_type(part: Part, want: Want) -> bool:
    field = fields_by_key(type(part)).get(want.field)
    return field is not None or want.field == "length"


def size_text(before: FastenerSize | WheelSize, relation: str, target: Interval, leading: str) -> str:
    """A bolt of the same thread and another length, or a wheel of the same diameter and another width."""
    size = value_text(relation, target, leading)
    if not size or not before.known:
        return ""
    if isinstance(before, WheelSize) and of_diameter(before, target):
        inches = value_text(relation, target, "inch").removesuffix(" in")
        return f"{inches} x {quantity_text(before.width, 'inch')}"
    if isinstance(before, WheelSize):
        return f"{quantity_text(before.diameter, 'inch').removesuffix(' in')} x {size}"
    return f"{before.thread} x {size}"


def _sort(target: str, key: str, operation: str) -> str | None:
    if operation == "shop":
        return LOAD if key in LOADS else SHOP
    if operation in ("add", "remove"):
        return COUNT if key in ("qty", "packs") else SHOP
    if operation == "declare":
        if key in LOADS and target not in MAPS:
            return LOAD
        return DECLARE if key in PROMISES else SHOP if key in WORK else None
    if operation == "replace" and target in ("layout", "tow_vehicle"):  # an axle, a tow vehicle
        return FIND
    return SHOP if operation == "replace" else None


def _hazard(sort: str, record: Any, stop: Told) -> str:
    if sort != SHOP:
        return ""
    if getattr(record, "kind", "") in ("hub", "adapter", "bolt", "stud"):
        return BREAKABLE
    return STRUCTURAL


def _plain(value: Interval) -> Interval:
    return Interval(value.lo, value.hi, value.unit)


def _line_words(line: dict[str, Any]) -> str:
    unsaid = ("id", "qty", "part", "kind", "note")
    said = [f"{key.replace('_', ' ')} {value}" for key, value in line.items() if key not in unsaid]
    if line.get("kind") in BY_THREAD and "thread" not in line:
        said.append("its thread is not known yet: measure it first")
    words = ", ".join(said)
    kind = KINDS.get(str(line.get("kind", "")))
    name = line.get("part") or (kind.title if kind is not None else line.get("kind", ""))
    count = line.get("qty", "1")
    return f"{count} x {name}" + (f" ({words})" if words else "")


__all__ = ["AT_LEAST", "WHOLE", "Proposal", "Proposer"]
