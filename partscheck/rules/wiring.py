"""Wire: the volts that reach electric brakes, and the fuse that protects each wire."""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build.brake_circuit import (
    BRAKE_CURRENT_READS,
    brake_current,
    brake_wires,
    electric_brakes,
    supply_voltage,
)
from partscheck.build.lamp_circuit import LAMP_CURRENT_READS, lamps_current
from partscheck.build.places import Line, Whole
from partscheck.build.wire_drop import SAME_AREA, ohm_per_metre, volts_lost, ways_of
from partscheck.formulas.wiring import THERE_AND_BACK, area_needed, longest_run
from partscheck.notation.interval import INF, Interval
from partscheck.rules.basis import practice, published, recalled
from partscheck.rules.check import Check, Remedy, at_least, at_most, certainly
from partscheck.rules.registry import rule

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

DROP = (
    published(
        "AC 43.13-1B p. 11-22: drop = resistance per length x one-way length x current, here for each way "
        "(secondary copy read)"
    ),
    recalled("resistance of solid copper at 20 deg C, 10.371 ohm circular mil per ft; AWG sizes by their formula"),
    practice("the limit of the drop; stranded wire 2 % over solid"),
)
FUSES = practice("largest fuse in common use on a wire of that size, single and in free air (table wire)")
WEAK_BRAKES = (
    "Brakes that get too few volts brake late and weakly. Follow the instructions of the brakes' and the "
    "controller's maker, and local codes."
)
BURNS = "A wire that is fused too high glows before the fuse blows, and sets the trailer on fire."
ENDS_OUT = "A fuse that blows under braking takes all brakes away at once."
ALL_DARK = "A fuse that blows takes all lamps away at once, in the dark and in traffic."


# ---- volts at the magnets -----------------------------------------------------------------------------


@rule(
    "brake-wire-drop",
    on=Whole,
    reads=[
        *BRAKE_CURRENT_READS, "wire.gauge", "wire.run", "wire.feeds", "wire.returns",
        "brake-controller.voltage", "practice.brake_supply_voltage", "practice.brake_wire_drop",
        "practice.stranded_wire_more",
    ],
    basis=DROP,
)  # fmt: skip
def brake_wire_drop(whole: Whole) -> Iterator[Check]:
    """Enough volts reach the magnets of electric brakes over their wire, there and back.

    Why: The magnets pull with the current: volts lost in thin wire are braking lost.
    Formula: supply - sum over the wires of 2 x ohm per length x run x current of all brakes >= supply less
        the practice share. All lines of wire with feeds: brakes count, one after the other; where no line
        says what it feeds, all of them do. Return through the frame: one way, and a caution. Judged with
        stranded wire, shown with solid copper where both agree.
    Remedy: Thicker wire in the leg that loses most; a shorter run.
    Hazard: Weak brakes.
    Wrong:
        - {kind: brake, type: electric, hand: pair, current: 3.2 A}
        - {kind: wire, gauge: 16 AWG, run: 42 ft, feeds: brakes}
    Right:
        - {kind: brake, type: electric, hand: pair, current: 3.2 A}
        - {kind: wire, gauge: 12 AWG, run: 42 ft, feeds: brakes}
    """
    brakes, wires = electric_brakes(whole), brake_wires(whole)
    if not brakes or not wires:
        return
    supply = supply_voltage(whole)
    current = sum((brake_current(one, supply, whole.tables) for one in brakes), Interval(0.0, 0.0, "A"))
    lines = list(dict.fromkeys(brakes))
    yield _volts(whole, wires, supply, current).about(*wires, *lines)
    for wire in wires:
        if wire.has("returns") and wire.returns == "frame":
            yield _through_the_frame(wire)


def _volts(whole: Whole, wires: list[Any], supply: Interval, current: Interval) -> Check:
    limits = whole.limits
    lost = [volts_lost(whole, wire, current) for wire in wires]
    total = sum(lost, Interval(0.0, 0.0, "V"))
    need = supply * (1 - limits.brake_wire_drop.hi)
    solid = at_least((supply - total).clipped(0.0), need)
    stranded = at_least((supply - total * (1 + limits.stranded_wire_more.hi)).clipped(0.0), need)
    check = solid if solid.truth is stranded.truth else stranded
    legs, named = legs_of(wires, lost)
    check.caution(
        "Of {supply} at the controller {have} reach the magnets: {count} brakes draw {current}, and {lost} V are "
        "lost on the way (" + legs + "). {need} are wanted, {by} more.",
        supply=supply, count=len(electric_brakes(whole)), current=current, lost=digits(total), **named,
    )  # fmt: skip
    unsaid = "" if any(wire.has("feeds") for wire in wires) else (
        " No line of wire says what it feeds, so that all of them are counted; type feeds: on those for something "
        "else."
    )
    check.because("A magnet pulls with its current, so that a lost tenth of the volts is braking lost." + unsaid)
    allowed = supply.lo * limits.brake_wire_drop.hi
    return check.fix(lambda: thicker(whole, wires, lost, current, allowed)).danger(WEAK_BRAKES).at(
        max(zip(lost, wires, strict=True), key=lambda pair: pair[0].hi)[1], "gauge"
    )


def legs_of(wires: list[Any], lost: list[Interval]) -> tuple[str, dict[str, Any]]:
    """Words for what each wire loses, and their values."""
    words: list[str] = []
    named: dict[str, Any] = {}
    for number, (wire, volts) in enumerate(zip(wires, lost, strict=True)):
        way = "" if ways_of(wire) == THERE_AND_BACK else ", one way"
        words.append(f"{{id{number}}}: {{gauge{number}}} over {{run{number}}}{way}, {{lost{number}}} V")
        named |= {f"id{number}": wire.id, f"gauge{number}": wire.gauge, f"run{number}": wire.run}
        named[f"lost{number}"] = digits(volts)
    return "; ".join(words), named


def thicker(
    whole: Whole, wires: list[Any], lost: list[Interval], current: Interval, allowed: float
) -> Iterator[Remedy]:
    """Another gauge for the leg that loses most, where that is enough to lose no more than ``allowed`` volts; else
    one gauge for all of them.
    """
    more = 1 + whole.limits.stranded_wire_more.hi
    legs = [(volts.hi * more, wire) for volts, wire in zip(lost, wires, strict=True) if volts.known]
    if not legs or allowed <= 0 or current.hi == INF:
        return
    most, wire = max(legs, key=lambda leg: leg[0])
    left = allowed - (sum(volts for volts, _ in legs) - most)
    if left > 0:
        yield from _gauge(whole, [wire], more * area_needed(current.hi, wire.run.hi, left, ways_of(wire)))
        run = longest_run(current.hi, left, ohm_per_metre(whole, wire).hi * more, ways_of(wire))
        target = Interval.exact(float(int(run / 10)) * 10, "mm")
        yield Remedy(
            "or shorten the run of the {wire} to {target}", field=f"{wire.id}.run", relation="at most",
            target=target, wire=wire,
        )  # fmt: skip
        return
    areas = (area_needed(current.hi, one.run.hi, allowed, ways_of(one)) for _, one in legs)
    yield from _gauge(whole, [one for _, one in legs], more * sum(areas))


def _gauge(whole: Whole, wires: list[Any], area: float) -> Iterator[Remedy]:
    """The next size in the table of the same system."""
    system = "mm2" if wires[0].gauge.system == "metric" else "AWG"
    rows = sorted(whole.tables.rows("wire"), key=lambda row: float(row["area_mm2"]))
    row = next((row for row in rows if row["system"] == system and row["area_mm2"] >= area), None)
    name = row["key"] if row is not None else f"{area:.1f} mm2"
    for wire in wires:
        words = "take {size} or thicker for the {wire}"
        yield Remedy(
            words if wire is wires[0] else "and " + words, field=f"{wire.id}.gauge", relation="at least",
            target=Interval.exact(row["area_mm2"] if row is not None else area, "mm2"), size=name, wire=wire,
        )  # fmt: skip


def _through_the_frame(wire: Any) -> Check:
    check = certainly(False).caution(
        "The current of the {wire} comes back through the frame; only its way out is counted.", wire=wire
    )
    check.because("Rust, paint and pivots lose volts that nobody can count, and more of them each year.")
    check.fix(lambda: [
        Remedy("run a second wire of the same size back, and say returns: wire", field=f"{wire.id}.returns",
               relation="equal to", target="wire")
    ]).danger(WEAK_BRAKES)  # fmt: skip
    return check.at(wire, "returns").about(wire)


def digits(volts: Interval) -> str:
    if not volts.known:
        return "an unknown number of"
    low, high = f"{volts.lo:.3f}", f"{volts.hi:.3f}"
    return low if low == high else f"{low} to {high}"


# ---- fuses --------------------------------------------------------------------------------------------


@rule(
    "wire-fuse",
    on=Line,
    reads=[
        "wire.gauge", "wire.fuse", "wire.feeds", *BRAKE_CURRENT_READS, "brake-controller.voltage",
        "practice.brake_supply_voltage", *LAMP_CURRENT_READS,
    ],
    basis=FUSES,
)  # fmt: skip
def wire_fuse(line: Line) -> Iterator[Check]:
    """The fuse of each wire is no larger than what the wire carries.

    Why: A fuse protects the wire, not what hangs on it: the wire must outlast the fuse.
    Formula: fuse <= the largest fuse in common use on a wire of that size; and for the brakes' wire, fuse >=
        current of all electric brakes, for the lamps' wire that of all lamps, where it is typed. No fuse typed:
        nothing is said.
    Remedy: A smaller fuse, or thicker wire.
    Hazard: An overloaded wire burns.
    Wrong:
        - {kind: wire, gauge: 16 AWG, fuse: 20 A}
    Right:
        - {kind: wire, gauge: 12 AWG, fuse: 20 A}
    """
    wire = line.part
    if wire.kind != "wire" or not wire.has("fuse"):
        return
    check = at_most(wire.fuse, _carries(line, wire.gauge.area)).caution(
        "The {wire} ({gauge}) is fused with {have}; a wire of that size commonly carries {need} at most.",
        wire=wire, gauge=wire.gauge,
    )  # fmt: skip
    check.because("The wire must outlast its fuse. The wire maker's data govern; bundles and heat want less.")
    yield check.fix(lambda: _fuse_or_wire(line, wire, check.need)).danger(BURNS).at(wire, "fuse")
    yield from _enough_for_brakes(line, wire)
    yield from _enough_for_lamps(line, wire)


def _carries(line: Line, area: Interval) -> Interval:
    """Largest usual fuse, A: of the next thinner row of the table at either end of the area."""
    return Interval(_fuse_for(line, area.lo), _fuse_for(line, area.hi), "A")


def _fuse_for(line: Line, area: float) -> float:
    if area == INF:
        return INF
    fits = [float(row["fuse_a"]) for row in line.tables.rows("wire") if row["area_mm2"] <= area * (1 + SAME_AREA)]
    return max(fits, default=0.0)


def _fuse_or_wire(line: Line, wire: Any, most: Interval) -> Iterator[Remedy]:
    if most.known and most.lo > 0:
        yield Remedy(
            "put in a fuse of {target} at most", field=f"{wire.id}.fuse", relation="at most",
            target=Interval.exact(most.lo, "A"),
        )  # fmt: skip
    system = "mm2" if wire.gauge.system == "metric" else "AWG"
    rows = sorted(line.tables.rows("wire"), key=lambda row: float(row["area_mm2"]))
    row = next((row for row in rows if row["system"] == system and row["fuse_a"] >= wire.fuse.hi), None)
    if row is not None:
        yield Remedy(
            "or lay wire of {size} or thicker", field=f"{wire.id}.gauge", relation="at least",
            target=Interval.exact(row["area_mm2"], "mm2"), size=row["key"],
        )  # fmt: skip


def _enough_for_brakes(line: Line, wire: Any) -> Iterator[Check]:
    """The fuse of the brakes' wire carries all brakes at once."""
    if not (wire.has("feeds") and wire.feeds == "brakes"):
        return
    whole = Whole(line.build, line.weights)
    brakes = electric_brakes(whole)
    if not brakes or not all(brake.has("current") for brake in brakes):
        return
    supply = supply_voltage(whole)
    current = sum((brake_current(one, supply, line.tables) for one in brakes), Interval(0.0, 0.0, "A"))
    check = at_least(wire.fuse, current).caution(
        "The {wire} is fused with {have}, but {count} brakes together draw {need}.", wire=wire, count=len(brakes)
    )
    check.because("The fuse would blow the first time that all brakes are put on.").danger(ENDS_OUT)
    check.fix(lambda: [
        Remedy("put in a fuse of at least {target}, on a wire that carries it", field=f"{wire.id}.fuse",
               relation="at least", target=Interval.exact(current.hi, "A"))
    ])  # fmt: skip
    yield check.at(wire, "fuse").about(wire, *dict.fromkeys(brakes))


def _enough_for_lamps(line: Line, wire: Any) -> Iterator[Check]:
    """The fuse of the lamps' wire carries all lamps at once, where every current is typed."""
    if not (wire.has("feeds") and wire.feeds == "lamps"):
        return
    lamps: list[Any] = list(line.build.of_kind("lamp"))
    if not lamps or not all(lamp.has("current") for lamp in lamps):
        return
    check = at_least(wire.fuse, lamps_current(lamps, line.limits)).caution(
        "The {wire} is fused with {have}, but all lamps together draw {need}.", wire=wire
    )  # fmt: skip
    check.because("The fuse would blow when most of them are on at once.").danger(ALL_DARK)
    check.fix(lambda: [
        Remedy("put in a fuse of at least {target}, on a wire that carries it", field=f"{wire.id}.fuse",
               relation="at least", target=Interval.exact(check.need.hi, "A"))
    ])  # fmt: skip
    yield check.at(wire, "fuse").about(wire, *lamps)
