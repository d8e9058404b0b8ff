"""The fit graph: which part sits at which place and what it touches there.

Inferred from kinds; ``at:`` names places, ``mounts_on:`` names what a part sits on.  Where two
lines could sit in one place and nothing tells them apart, that is a fault in the list that shows
the candidates and the line to add: nothing is guessed.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from partscheck.build.fasteners_fit import assign_fasteners
from partscheck.build.joint_places import JointPlace, joint_places
from partscheck.build.model import Build, pieces
from partscheck.build.places import (
    AxlePlace,
    Binding,
    Line,
    LugSet,
    MountedTire,
    PlateSeat,
    Seat,
    WheelEnd,
    Whole,
)
from partscheck.build.stack_order import order_plates
from partscheck.build.tow_places import RearRack, TowChain, rear_racks, tow_chains, unclear_chain
from partscheck.build.unclear import mark_of, two_for_one_place
from partscheck.build.weights import Weights
from partscheck.notation.faults import Fault, Faults

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.parts.record import Part

# Kinds of which one sits at each wheel end; hub and plates come before what mounts on them.
ONE_EACH = (
    "axle",
    "suspension-arm",
    "spindle",
    "leaf-spring",
    "hub",
    "stud",
    "brake",
    "seal",
    "dust-cap",
    "spindle-nut",
    "spindle-washer",
    "cotter-pin",
)
PLATES = ("adapter", "spacer")
OUTERMOST = ("wheel", "tire", "fender")
PER_AXLE = ("axle",)
SPARE = "spare"


class Fit:
    """Places of one build.  Raises ``Faults`` when a line could go to more than one place.

    ``axles`` counts axles; ``positions`` are "1L", "1R", ...; ``places`` maps a position to its
    roles; ``ends`` are the wheel ends, alike ones together; ``spare`` is the spare's or None;
    ``told`` are sentences about what was inferred; ``reads`` what was read to find the places.
    """

    def __init__(self, build: Build, weights: Weights | None = None) -> None:
        self.build = build
        start = len(build.ledger)
        self.faults: list[Fault] = []
        self.told: list[str] = []
        self.axles = count_axles(build)
        self.positions = [f"{n}{side}" for n in range(1, self.axles + 1) for side in "LR"]
        self.places: dict[str, dict[str, Any]] = {at: {} for at in self.positions}
        self.plates: dict[str, tuple[Any, ...]] = dict.fromkeys(self.positions, ())
        self.spare_roles: dict[str, Any] = {}
        self._check_places()
        for kind in ONE_EACH:
            self._seat_kind(kind)
        self._seat_bearings()
        self._seat_plates()
        self._seat("plate-stud", [line for line in build.of_kind("stud") if self._on_plate(line)])
        for kind in OUTERMOST:
            self._seat_kind(kind)
        for at in self.positions:
            self.faults.extend(assign_fasteners(build, at, self.places[at], self.plates[at]))
        self.faults.extend(unclear_chain(build))
        if self.faults:
            raise Faults(_without_repeats(self.faults))
        self.weights = (weights or Weights(build)).of(self)
        self.ends = self._ends()
        self.spare = self._spare_end()
        self._bindings: dict[type, list[Any]] = {}
        self._used: dict[Part, list[str]] | None = None
        self.reads = build.ledger[start:]

    # ---- seating -------------------------------------------------------------------------

    def _check_places(self) -> None:
        known = {*self.positions, SPARE}
        for part in self.build.parts:
            for at in _typed_places(part):
                if at not in known:
                    mark = part.where("at") or mark_of(part)
                    expected = f"a place on this trailer: {', '.join(self.positions)} or {SPARE}"
                    hint = "layout: axles: says how many axles there are"
                    self.faults.append(Fault(mark, at, expected, hint))

    def _seat_kind(self, kind: str) -> None:
        lines = [line for line in self.build.of_kind(kind) if not self._on_plate(line)]
        self._seat(kind, [line for line in lines if not self._only_spare(line)])
        for line in lines:
            if SPARE in _typed_places(line) or self._only_spare(line):
                self.spare_roles[kind] = line

    def _on_plate(self, line: Part) -> bool:
        """Studs that are pressed into an adapter, not into the hub."""
        target = _text(line, "mounts_on") if line.kind == "stud" else ""
        base = self.build.part(target) if target else None
        return base is not None and base.kind in PLATES

    def _only_spare(self, line: Part) -> bool:
        """At the spare's place alone, or mounted on what is there alone."""
        typed, target = _typed_places(line), _text(line, "mounts_on")
        if typed or not target:
            return typed == [SPARE]
        on_spare = any(part.id == target for part in self.spare_roles.values())
        return on_spare and not any(self._sits_at(target, at) for at in self.positions)

    def _seat(self, role: str, lines: list[Part]) -> None:
        """Give each line its places in ``role``: the named ones first, one open line the rest."""
        open_lines: list[Part] = []
        for line in lines:
            wanted = self._wanted(line)
            if wanted is None:
                open_lines.append(line)
                continue
            for at in wanted:
                taken = self.places[at].get(role)
                other = _across(at)
                if taken is None:
                    self.places[at][role] = line
                elif _same_hand(taken, line) and role not in self.places[other]:
                    self.places[other][role] = line  # two of one hand were bought: rules tell of it
                else:
                    self._ambiguous(role.replace("-", " "), [taken, line], [at])
        free = [at for at in self.positions if role not in self.places[at]]
        if len(open_lines) > 1:
            open_lines = self._set_spare_aside(role, open_lines, len(free))
        if len(open_lines) > 1 and free:
            self._ambiguous(role.replace("-", " "), open_lines, free)
        elif open_lines:
            for at in free:
                self.places[at][role] = open_lines[0]
            self._one_too_many(role, open_lines[0], len(free))

    def _wanted(self, line: Part) -> list[str] | None:
        """The places a line names itself, by ``at``, by ``mounts_on`` or by its hand; None: open."""
        typed = _typed_places(line)
        if typed:
            return [at for at in typed if at in self.places]
        target = _text(line, "mounts_on")
        if target:
            on_target = [at for at in self.positions if self._sits_at(target, at)]
            if on_target:
                return on_target
        hand = _text(line, "hand")
        if hand in ("left", "right"):
            return [at for at in self.positions if at.endswith(hand[0].upper())]
        return None

    def _sits_at(self, id: str, at: str) -> bool:
        here = (*self.places[at].values(), *self.plates[at])
        return any(part.id == id for part in here)

    def _set_spare_aside(self, role: str, lines: list[Part], places: int) -> list[Part]:
        """Of two wheel (or tire) lines, the one of a single piece is the spare."""
        if role not in ("wheel", "tire") or role in self.spare_roles:
            return lines
        full = [line for line in lines if (pieces(line) or 0) >= places]
        single = [line for line in lines if pieces(line) == 1]
        if len(full) == 1 and len(single) == 1 and len(lines) == 2 and full[0] is not single[0]:
            self.spare_roles[role] = single[0]
            self.told.append(f"{role} '{single[0].id}' is taken as the spare (one piece, no `at:`)")
            return full
        return lines

    def _one_too_many(self, role: str, line: Part, places: int) -> None:
        if role in ("wheel", "tire") and role not in self.spare_roles and pieces(line) == places + 1:
            self.spare_roles[role] = line
            self.told.append(f"one {role} of '{line.id}' more than the places: taken as the spare")

    def _seat_bearings(self) -> None:
        """Bearings go by their place; halves (a cone or a cup alone) keep roles of their own."""
        for place in ("inner", "outer"):
            for part in ("bearing", "cone", "cup"):
                lines = [line for line in self.build.of_kind("bearing") if _bearing_part(line) == part]
                placed = [line for line in lines if _text(line, "place") in (place, "both")]
                anywhere = [line for line in lines if not _text(line, "place")]
                self._seat(f"{place}-{part}", placed or anywhere)

    def _seat_plates(self) -> None:
        lines = self.build.of_kind(*PLATES)
        for at in self.positions:
            here = [line for line in lines if self._plate_at(line, at, lines)]
            hub = self.places[at].get("hub")
            ordered, faults = order_plates(here, hub, at)
            self.plates[at] = tuple(ordered)
            self.faults.extend(faults)

    def _plate_at(self, line: Part, at: str, lines: list[Part]) -> bool:
        typed = _typed_places(line)
        if typed:
            return at in typed
        target = _text(line, "mounts_on")
        hubs = self.build.of_kind("hub")
        if target and any(hub.id == target for hub in hubs):
            return self._sits_at(target, at)
        below = next((other for other in lines if other.id == target), None)
        if below is not None and below is not line:
            return self._plate_at(below, at, [one for one in lines if one is not line])
        claimed = [other for other in lines if other.kind == line.kind and at in _typed_places(other)]
        return not claimed

    def _ambiguous(self, role: str, lines: list[Part], where: list[str]) -> None:
        self.faults.append(two_for_one_place(role, lines, where))

    # ---- bindings ------------------------------------------------------------------------

    def _ends(self) -> list[WheelEnd]:
        groups: dict[tuple[Any, ...], list[str]] = {}
        for at in self.positions:
            roles = self.places[at]
            key = (
                tuple(sorted((role, part.id) for role, part in roles.items())),
                tuple(plate.id for plate in self.plates[at]),
            )
            if roles or self.plates[at]:
                groups.setdefault(key, []).append(at)
        return [
            WheelEnd(self.build, self.weights, tuple(ats), self.places[ats[0]], self.plates[ats[0]])
            for ats in groups.values()
        ]

    def _spare_end(self) -> WheelEnd | None:
        if not self.spare_roles:
            return None
        return WheelEnd(self.build, self.weights, (SPARE,), self.spare_roles, ())

    def bindings(self, binds: type[Binding]) -> list[Any]:
        """Every binding of one class, made once."""
        if binds not in self._bindings:
            ledger = self.build.ledger
            start = len(ledger)
            self._bindings[binds] = list(self._make(binds))
            self.reads += ledger[start:]
            del ledger[start:]  # whoever asks first reads no more than who asks later
        return self._bindings[binds]

    def _make(self, binds: type[Binding]) -> Iterator[Any]:
        if binds is WheelEnd:
            yield from self.ends
        elif binds is Seat:
            for end in self.ends:
                yield from _seats(end)
        elif binds is PlateSeat:
            for end in self.ends:
                yield from _plate_seats(end)
        elif binds is LugSet:
            for end in self.ends:
                yield from _lug_sets(end)
        elif binds is MountedTire:
            for end in [*self.ends, *([self.spare] if self.spare else [])]:
                if end.wheel is not None and end.tire is not None:
                    yield MountedTire(end)
        elif binds is AxlePlace:
            for number in range(1, self.axles + 1):
                here = [end for end in self.ends if any(at.startswith(str(number)) for at in end.at)]
                if here:
                    yield AxlePlace(self.build, self.weights, number, here)
        elif binds is JointPlace:
            yield from joint_places(self.build, self.weights)
        elif binds is TowChain:
            yield from tow_chains(self.build, self.weights)
        elif binds is RearRack:
            yield from rear_racks(self.build, self.weights)
        elif binds is Line:
            for part in self.build.parts:
                yield Line(self.build, self.weights, part, self.places_of(part))
        elif binds is Whole:
            yield Whole(self.build, self.weights)
        else:
            raise ValueError(f"nothing makes bindings of {binds.__name__}")

    def places_of(self, part: Part) -> tuple[str, ...]:
        """Every position where a line is used, the spare's too."""
        if self._used is None:
            self._used = {}
            for at in self.positions:
                for one in dict.fromkeys((*self.places[at].values(), *self.plates[at])):
                    self._used.setdefault(one, []).append(at)
            for one in dict.fromkeys(self.spare_roles.values()):
                self._used.setdefault(one, []).append(SPARE)
        return tuple(self._used.get(part, ()))


def count_axles(build: Build) -> int:
    """Axles: as typed, else from the axle lines, the highest place named, the arms, hubs, wheels."""
    typed = build.layout.typed("axles")
    if typed is not None and isinstance(typed.value, int):
        return max(1, typed.value)
    named = [int(at[0]) for part in build.parts for at in _typed_places(part) if at[0].isdigit()]
    for kind, per_axle in (("axle", 1), ("suspension-arm", 2), ("hub", 2), ("wheel", 2), ("tire", 2)):
        lines = [part for part in build.of_kind(kind) if _typed_places(part) != [SPARE]]
        count = sum(pieces(part) or 0 for part in lines)
        if count:
            return max(1, count // per_axle, *named)
    return max(1, *named) if named else 1


def _seats(end: WheelEnd) -> Iterator[Seat]:
    chain = [part for part in (end.hub, *end.plates, end.wheel) if part is not None]
    for inner, outer in pairwise(chain):
        yield Seat(end, inner, outer)


def _plate_seats(end: WheelEnd) -> Iterator[PlateSeat]:
    chain = [end.hub, *end.plates, end.wheel]
    for index, plate in enumerate(end.plates, start=1):
        yield PlateSeat(end, plate, chain[index - 1], chain[index + 1])


def _lug_sets(end: WheelEnd) -> Iterator[LugSet]:
    base: Any = end.hub
    between: list[Any] = []
    for plate in end.plates:
        if plate.kind == "spacer":
            between.append(plate)
            continue
        sets = LugSet(end, base, plate, end.on_the_hub if base is end.hub else None, tuple(between))
        if len(sets.parts) > 1:
            yield sets
        base, between = plate, []
    fastener = end.part("wheel-bolt") or end.part("lug-nut")
    sets = LugSet(end, base, end.wheel, fastener, tuple(between))
    if len(sets.parts) > 1:
        yield sets


def _typed_places(part: Part) -> list[str]:
    typed = part.typed("at")
    return [] if typed is None else [str(getattr(at, "text", at)) for at in typed.value]


def _bearing_part(line: Part) -> str:
    """A whole bearing, or the half that the line is."""
    half = _text(line, "includes")
    return half if half in ("cone", "cup") else "bearing"


def _text(part: Part, name: str) -> str:
    typed = part.typed(name)
    return "" if typed is None or not isinstance(typed.value, str) else typed.value


def _across(at: str) -> str:
    """The place on the other side of the same axle."""
    return at[:-1] + ("R" if at.endswith("L") else "L")


def _same_hand(one: Part, other: Part) -> bool:
    """Both made for one side, and neither says where it goes."""
    hand = _text(one, "hand")
    placed = _typed_places(one) or _typed_places(other)
    return hand in ("left", "right") and hand == _text(other, "hand") and not placed


def _without_repeats(faults: list[Fault]) -> list[Fault]:
    """One fault for a pair of lines, not one for each place."""
    seen: set[tuple[str, str]] = set()
    kept = []
    for fault in faults:
        key = (repr(fault.mark), fault.expected)
        if key not in seen:
            seen.add(key)
            kept.append(fault)
    return kept
