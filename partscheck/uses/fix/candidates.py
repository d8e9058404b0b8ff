"""Parts of the catalogue that may take a line's place: those that meet what the findings ask, likest first.

A sieve only: whether one really fits is tried in the build.
"""

from __future__ import annotations

from math import log

from partscheck.build.part_lines import PartLines
from partscheck.build.record_reader import RecordReader
from partscheck.notation.fastener_size import FastenerSize
from partscheck.notation.interval import INF, Interval
from partscheck.notation.tire_size import TireSize
from partscheck.notation.wheel_size import WheelSize
from partscheck.notation.wire import WireGauge
from partscheck.parts.kinds import KINDS
from partscheck.rules.check import AT_LEAST, AT_MOST
from partscheck.uses.fix.mating import mating_fields
from partscheck.uses.fix.neighbours import may_stand_in, names_thread

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from typing import Any

    from partscheck.build.model import Build
    from partscheck.parts.record import Part

PURCHASE = ("id", "part", "kind_", "qty", "packs", "pack", "price", "seller", "weight", "have", "make", "basis",
            "note", "at", "mounts_on", "per")  # fmt: skip
CLOSE = {"mm": 0.06}  # mm: 1.50 in beside 38.1 mm
CLOSE_SHARE = 1e-3


class Want:
    """What a part's field has to be: ``relation`` ("at most", "at least", "equal to") and ``target``.
    ``stop`` is the key of the finding that asks for it.
    """

    __slots__ = ("field", "relation", "stop", "target", "values")

    def __init__(self, field: str, relation: str, target: Any, stop: Any, values: dict[str, Any]) -> None:
        self.field = field
        self.relation = relation
        self.target = target
        self.stop = stop
        self.values = values

    def met_by(self, part: Part) -> bool | None:
        """Whether the part's value meets it; None where it has none."""
        name = _name_of(part, self.field)
        if name is None or not part.has(name):
            return None
        return meets(getattr(part, name), self.relation, self.target)

    def distance(self, part: Part) -> float:
        """How far beyond the target the part is, as a share: the nearest that will do comes first."""
        name = _name_of(part, self.field)
        of = self.target if isinstance(self.target, Interval) else None
        value = None if name is None or not part.has(name) else _number(getattr(part, name), of)
        if value is None or not isinstance(self.target, Interval) or not self.target.known or not self.target.mid:
            return 0.0
        return abs(value.mid / self.target.mid - 1)


def meets(value: Any, relation: str, target: Any) -> bool | None:
    """``value`` ``relation`` ``target``; None where they cannot be compared."""
    if isinstance(value, FastenerSize) and not isinstance(target, Interval):
        return names_thread(target, value.thread)
    if not isinstance(target, Interval):
        return _word(value) == _word(target)
    number = _number(value, target)
    if number is None:
        return None
    close = CLOSE.get(target.unit, CLOSE_SHARE * max(abs(target.hi), 1e-9) if target.hi != INF else 0.0)
    if relation == AT_LEAST:
        return number.lo >= target.hi - close
    if relation == AT_MOST:
        return number.hi <= target.lo + close
    return number.lo <= target.hi + close and number.hi >= target.lo - close


def of_diameter(size: WheelSize, target: Interval) -> bool:
    """Whether a size asked of a wheel is its rim diameter and not its width: the one that it is nearer to."""
    sizes = (size.diameter.mid, size.width.mid, target.mid if target.known else target.hi)
    if not all(0 < one < INF for one in sizes):
        return False
    diameter, width, asked = sizes
    return abs(log(asked / diameter)) < abs(log(asked / width))


def _number(value: Any, target: Interval | None = None) -> Interval | None:
    if isinstance(value, FastenerSize):
        return value.length if value.known else None
    if isinstance(value, WheelSize):
        if target is not None and value.known and of_diameter(value, target):
            return value.diameter
        return value.width if value.known else None
    if isinstance(value, TireSize):
        return value.rim_diameter if value.known and value.rim_diameter.known else None
    if isinstance(value, WireGauge):
        return value.area if value.known else None
    if isinstance(value, Interval):
        return value
    if isinstance(value, (int, float)) and not isinstance(value, bool):
        return Interval.exact(float(value))
    return None


def _word(value: Any) -> str:
    return str(value).strip().casefold()


def _name_of(part: Part, key: str) -> str | None:
    return next((name for name, field in part.fields.items() if field.key == key), None)


class Shelf:
    """The catalogue's parts, read into records once for each kind."""

    def __init__(self, build: Build) -> None:
        self._build = build
        self._tables = build.tables
        self._kinds: dict[str, list[tuple[Any, Part]]] = {}

    def kind_of(self, id: str) -> str:
        """The kind of a catalogue part, "" for what is none."""
        entry = self._tables.part(id)
        return "" if entry is None else str(entry.kind)

    def of_kind(self, kind: str) -> list[tuple[Any, Part]]:
        """(catalogue entry, part) for every part of a kind."""
        if kind not in self._kinds:
            reader = RecordReader(self._tables)
            lines = PartLines(reader, self._tables)
            found = []
            for entry in self._tables.parts(kind):
                part = KINDS[kind](entry.id)
                lines.from_catalogue(part, entry)
                found.append((entry, part))
            self._kinds[kind] = found
        return self._kinds[kind]

    def candidates(self, part: Part, wants: Sequence[Want], most: int) -> list[tuple[Any, Part]]:
        """At most ``most`` parts that may stand in for ``part``: those that satisfy most stops first, then the
        likest to the part there now, then the cheapest.

        Of what one stop asks in several ways ("open nuts, or deeper ones") one way is enough.
        """
        stops = list(dict.fromkeys(want.stop for want in wants))
        ranked = []
        for number, (entry, other) in enumerate(self.of_kind(part.kind)):
            if entry.id == _article(part):
                continue
            met, unknown = _satisfied(other, wants, stops)
            if met + unknown < len(stops) and met == 0:
                continue
            if not may_stand_in(part, other, self._build, wants):
                continue
            asked = {want.field for want in wants}
            unlike = _unlike(part, other, asked)
            far = sum(want.distance(other) for want in wants)
            price = _price(other)
            ranked.append(((-met, -unknown, unlike, price == INF, far, price, number), entry, other))
        ranked.sort(key=lambda row: row[0])
        return [(entry, other) for _, entry, other in ranked[:most]]


def _article(part: Part) -> str:
    typed = part.values.get("part")
    return "" if typed is None else str(typed.value)


def _satisfied(part: Part, wants: Sequence[Want], stops: Iterable[Any]) -> tuple[int, int]:
    """Stops of which one want is met, and those of which none is but one cannot be told."""
    met = unknown = 0
    for stop in stops:
        answers = [want.met_by(part) for want in wants if want.stop == stop]
        if any(answers):
            met += 1
        elif None in answers:
            unknown += 1
    return met, unknown


def _unlike(part: Part, other: Part, asked: set[str]) -> int:
    """Fields by which the part meets its neighbours that differ, beside what was asked for."""
    count = 0
    mating = mating_fields(part.kind)
    for name, typed in part.values.items():
        key = part.fields[name].key
        if name in PURCHASE or (mating and key not in mating) or not part.has(name) or not other.has(name):
            continue
        count += _differs(typed.value, other.values[name].value, key in asked)
    return count


def _differs(value: Any, there: Any, asked: bool) -> int:
    if isinstance(value, FastenerSize):
        return str(value.thread) != str(there.thread) or (not asked and not meets(there, "equal to", value.length))
    if isinstance(value, TireSize):
        rims = [one.rim_diameter for one in (value, there)]
        return rims[0].mid != rims[1].mid or (not asked and str(value) != str(there))
    if asked:
        return 0
    if isinstance(value, Interval):
        return not meets(there, "equal to", value)
    return _word(value) != _word(there)


def _price(part: Part) -> float:
    line: Any = part
    return float(line.price.hundredths) if line.has("price") else INF
