"""What stands on the trailer: each load with its weight when full and when empty, and its place."""

from __future__ import annotations

from partscheck.build.rear_load import GRAVITY, carried, own_weight
from partscheck.notation.interval import Interval

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.model import Build

NOTHING = Interval(0.0, 0.0, "N")
CENTRED = Interval(0.0, 0.0, "mm")
WATER = "water"
STATES = {"tank": ("empty", "full"), "rack": ("empty", "loaded")}  # kinds that a load may name as its part

# What a rule reads, as "record.field", that asks for weights and places of the loads.
LOADS_READS = (
    "service.trailer_type", "load.weight", "load.from_coupler", "load.from_centre", "load.moves_with_axle",
    "load.part", "load.what", "layout.coupler_to_axle", "layout.coupler_to_rear_receiver", "tank.volume",
    "tank.holds", "tank.weight", "tank.qty", "rack.weight", "rack.weight_carried", "rack.rating",
    "rack.beyond_pin", "rack.qty",
)  # fmt: skip


class StandingLoad:
    """One load.  ``full`` and ``empty`` are its weight in N in both states (one and the same where it
    has no states), ``from_coupler`` and ``from_centre`` its place in mm.

    ``record`` is its entry under ``loads``, or the rack that has none; ``part`` the tank or rack or
    None.  ``at_axle``: it moves with the axle and has no place of its own, so it stands at the axle.
    """

    __slots__ = (
        "at_axle", "cases", "empty", "from_centre", "from_coupler", "full", "moves_with_axle", "part", "record",
    )  # fmt: skip

    def __init__(self, record: Any, part: Any, full: Interval, empty: Interval, place: Interval) -> None:
        self.record = record
        self.part = part
        self.full = full
        self.empty = empty
        self.from_coupler = place
        self.from_centre = CENTRED
        self.moves_with_axle = False
        self.at_axle = False
        self.cases: tuple[str, ...] | None = None

    @property
    def what(self) -> str:
        """What it is called: by the list's own words, else by the part's id."""
        return str(self.record.id)

    def state(self, full: bool) -> str:
        """ "tank empty", "rack loaded"."""
        return f"{self.part.id} {STATES[self.part.kind][full]}"

    def counts_in(self, case: str) -> bool:
        """A load without ``cases`` counts in every case."""
        return self.cases is None or not case or case in self.cases

    def __repr__(self) -> str:
        return f"<{self.what}: {self.full} at {self.from_coupler}>"


def standing_loads(build: Build) -> list[StandingLoad]:
    """Every load of the list, then racks that no load speaks of but whose place is known."""
    found = [_of_entry(build, load) for load in build.loads]
    if build.loads:
        found += [rack_standing(build, rack) for rack in build.of_kind("rack") if _stands_by_itself(build, rack)]
    return found


def _of_entry(build: Build, load: Any) -> StandingLoad:
    part: Any = build.part(load.part) if load.has("part") else None
    full, empty = _weights(build, load, part)
    one = StandingLoad(load, part, full, empty, Interval.unknown("mm"))
    one.moves_with_axle = bool(load.has("moves_with_axle") and load.moves_with_axle)
    _place(build, one)
    if load.has("from_centre"):
        one.from_centre = load.from_centre
    typed = load.values.get("cases")
    one.cases = None if typed is None else typed.value
    return one


def _place(build: Build, one: StandingLoad) -> None:
    load: Any = one.record
    if not load.has("from_coupler"):
        if one.moves_with_axle:
            one.at_axle, one.from_coupler = True, build.layout.coupler_to_axle
            return
        if one.part is not None and rack_place_known(build, one.part):
            one.from_coupler = _rack_place(build, one.part)
            return
    one.from_coupler = load.from_coupler


def rack_standing(build: Build, rack: Any) -> StandingLoad:
    """A rack in its receiver at the trailer's rear, where no load speaks of it."""
    full, empty = _states(build, rack, 1)
    return StandingLoad(rack, rack, full, empty, _rack_place(build, rack))


def _stands_by_itself(build: Build, rack: Any) -> bool:
    """The rack counts although no load names it: its place is known, and no load's name is that of a rack."""
    return rack_place_known(build, rack) and not spoken_of(build, rack)


def spoken_of(build: Build, rack: Any) -> bool:
    """True when a load is this rack: by its id, or (as far as words tell) by its name."""
    for load in build.loads:
        if load.has("part") and load.part == rack.id:
            return True
        name = load.what.lower() if load.has("what") else ""
        if "rack" in name or rack.id.lower() in name:
            return True
    return False


def rack_place_known(build: Build, rack: Any) -> bool:
    """True when the receiver's pin and the rack's arm behind it are both typed."""
    return bool(rack.kind == "rack" and build.layout.has("coupler_to_rear_receiver") and rack.has("beyond_pin"))


def _rack_place(build: Build, rack: Any) -> Interval:
    return build.layout.coupler_to_rear_receiver + rack.beyond_pin  # type: ignore[no-any-return]


# ---- weights ---------------------------------------------------------------------------------


def _weights(build: Build, load: Any, part: Any) -> tuple[Interval, Interval]:
    """(full, empty) of one load, N.  A typed weight is all of it, full."""
    if part is None:
        return load.weight, load.weight
    named = sum(1 for other in build.loads if other.has("part") and other.part == part.id)
    pieces = part.qty if named == 1 and part.has("qty") else 1
    full, empty = _states(build, part, pieces)
    if not load.has("weight"):
        return full, empty
    if part.kind == "rack" and not part.has("weight") and not part.has("weight_carried"):
        return load.weight, empty.clipped(0.0, load.weight.hi)
    own_known = part.has("weight")
    return load.weight, (empty if own_known else load.weight - (full - empty)).clipped(0.0, load.weight.hi)


def _states(build: Build, part: Any, pieces: int) -> tuple[Interval, Interval]:
    """(full, empty) of a tank or rack by its own fields, N.

    A tank is fixed to the frame and weighed with it: its own weight counts only where it is typed.  A
    rack is taken off and weighs something.
    """
    if part.kind == "rack":
        own, held = own_weight(part), carried(part)
    else:
        own = own_weight(part) if part.has("weight") else NOTHING
        held = contents(build, part)
    return (own + held) * pieces, own * pieces


def contents(build: Build, tank: Any) -> Interval:
    """What a full tank holds, N: volume x the liquid's mass per litre (table liquid_density)."""
    return (tank.volume.bare() * density(build, tank) * GRAVITY).with_unit("N")  # type: ignore[no-any-return]


def density(build: Build, tank: Any) -> Interval:
    """kg per litre; water where nothing is said, from the lightest to the heaviest where the word says nothing."""
    if tank.has("holds") or not tank.says("holds"):
        row = build.tables.row("liquid_density", tank.holds if tank.has("holds") else WATER)
        if row is not None:
            return Interval(row["least"], row["most"])
    rows = build.tables.rows("liquid_density")
    return Interval(min(row["least"] for row in rows), max(row["most"] for row in rows))
