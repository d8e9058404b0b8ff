"""Tires on their wheels: rim, speed and pressure."""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build.places import Line, MountedTire
from partscheck.build.tire_pressure import TIRE_PRESSURE_READS, is_p_metric, needed_pressure
from partscheck.build.tire_width import RIM_READS, approved_rims
from partscheck.build.wheel_data import speed_symbol
from partscheck.notation.interval import INF, Interval
from partscheck.rules.basis import Basis, practice, published, recalled
from partscheck.rules.check import (
    AT_LEAST,
    AT_MOST,
    EQUAL,
    Check,
    Remedy,
    all_of,
    at_least,
    at_most,
    equal_within,
)
from partscheck.rules.message import Least
from partscheck.rules.registry import rule

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

RIM_LIST = published("49 CFR 571.119 S5.1: tire makers list the rims of each tire (secondary copy read)")
RIM_RANGES = recalled("rim width ranges of the catalogue's size table; the tire maker's own list governs")
RIM_RULE = published("T&RA yearbook rule: measuring rim 70 % of the section width (secondary copy read)")
SPEED_SYMBOLS = published("UN Regulation 30, speed symbols (two secondary copies read, not the regulation)")
UNMARKED_ST = practice("an ST tire without a speed symbol is for 65 mph")
P_METRIC_LOAD = published("T&RA P-metric load formula: load as the root of pressure (secondary copy read)")
OTHER_LOAD = recalled("ETRTO load and pressure formula; the tire maker's own table governs")

BURSTS = (
    "A tire forced onto the wrong rim, or a wheel or valve over its pressure, can burst while it is being "
    "filled. Let a tire shop mount it, and follow the makers' instructions."
)
HALF_A_CODE = 6.0  # mm; rim codes are half an inch (12.7 mm) apart, so nearer than this is the same code
PRESSURE_READS = (*TIRE_PRESSURE_READS, "practice.plain_valve_pressure")


@rule(
    "tire-rim-diameter",
    on=MountedTire,
    reads=["tire.size", "wheel.size"],
    basis=RIM_LIST,
)
def tire_rim_diameter(mounted: MountedTire) -> Check:
    """The tire's rim diameter is the wheel's.

    Why: A tire of another diameter does not go on, or does not seal and bursts when it is filled.
    Formula: the last number of the tire's size is the first of the wheel's
    Remedy: A tire, or a wheel, of the right diameter.
    Hazard: Filling a tire on the wrong rim can kill.
    Wrong:
        - {kind: wheel, size: 15 x 6 in}
        - {kind: tire, size: ST205/75R14}
    Right:
        - {kind: wheel, size: 15 x 6 in}
        - {kind: tire, size: ST205/75R15}
    """
    tire, wheel = mounted.tire, mounted.wheel
    made_for, rim = tire.size.rim_diameter, wheel.size.diameter
    return (
        equal_within(made_for, rim, HALF_A_CODE)
        .stop(
            "The {tire} {tire_size} is for a rim of {have}, the {wheel} {wheel_size} has {need}.",
            tire=tire, tire_size=tire.size, wheel=wheel, wheel_size=wheel.size,
        )
        .because("It does not go on, or does not seal and bursts when it is filled.")
        .at(tire, "size")
        .fix(lambda: _diameter_remedies(tire, wheel))
        .danger(BURSTS)
    )  # fmt: skip


def _diameter_remedies(tire: Any, wheel: Any) -> Iterator[Remedy]:
    yield Remedy(
        "a tire for a rim of {need} that carries the same load", f"{tire.id}.size", EQUAL, wheel.size.diameter
    )
    yield Remedy("or a wheel of {have} for this tire", f"{wheel.id}.size", EQUAL, tire.size.rim_diameter)


@rule(
    "tire-rim-width",
    on=MountedTire,
    reads=[*RIM_READS, "wheel.size"],
    basis=(RIM_LIST, RIM_RANGES, RIM_RULE),
    after=["tire-rim-diameter"],
)
def tire_rim_width(mounted: MountedTire) -> Check:
    """The wheel's rim width is one that the tire's size is approved for.

    Why: On a rim too narrow the tread bulges and the tire sways; on one too wide the beads sit badly.
    Formula: narrowest <= rim width <= widest of the tire's list. Without a list: about 70 % of the
        section width, rounded to half an inch, is sure; far from it surely is not; between: look it up.
    Remedy: A wheel within the range, or another tire size.
    Hazard: A tire on a rim it is not made for can come off its bead.
    Wrong:
        - {kind: wheel, size: 15 x 8 in}
        - {kind: tire, size: ST205/75R15, rim_width_range: 5 to 7 in}
    Right:
        - {kind: wheel, size: 15 x 6 in}
        - {kind: tire, size: ST205/75R15, rim_width_range: 5 to 7 in}
    """
    tire, wheel = mounted.tire, mounted.wheel
    narrowest, widest = approved_rims(tire, mounted)
    width = wheel.size.width
    return (
        all_of(at_least(width, narrowest), at_most(width, widest))
        .stop(
            "The {wheel} is {width} wide, the {tire} {tire_size} goes on rims of {span}.",
            wheel=wheel, width=width, tire=tire, tire_size=tire.size, span=_span(narrowest, widest),
        )
        .because("The tread bulges or the beads sit badly, and the tire can come off the rim.")
        .on_basis(_range_basis(mounted))
        .at(wheel, "size")
        .fix(lambda: _width_remedies(mounted, narrowest, widest))
        .danger(BURSTS)
    )  # fmt: skip


def _span(narrowest: Interval, widest: Interval) -> Interval:
    return Interval(narrowest.lo, max(widest.hi, narrowest.lo), "mm")


def _range_basis(mounted: MountedTire) -> Basis:
    tire = mounted.tire
    if tire.has("rim_width_range"):
        return RIM_LIST
    row = mounted.tables.row("tire_size", tire.size.key)
    return RIM_RULE if row is None else Basis(row["basis"]["kind"], row["basis"]["source"])


def _width_remedies(mounted: MountedTire, narrowest: Interval, widest: Interval) -> Iterator[Remedy]:
    tire, wheel = mounted.tire, mounted.wheel
    yield Remedy(
        "a wheel {span} wide", f"{wheel.id}.size",
        AT_MOST if wheel.size.width.lo > widest.hi else AT_LEAST,
        widest if wheel.size.width.lo > widest.hi else narrowest,
    )  # fmt: skip
    yield Remedy(
        "or a tire size whose list of rims has {width}, and the same load", f"{tire.id}.rim_width_range"
    )


@rule(
    "tire-speed",
    on=Line,
    reads=[
        "tire.size", "tire.speed_symbol", "tire.service_description", "service.top_speed",
        "practice.st_tire_speed", "practice.car_tire_speed",
    ],
    basis=(SPEED_SYMBOLS, UNMARKED_ST),
)  # fmt: skip
def tire_speed(line: Line) -> Check | None:
    """The tire is good for the trailer's top speed.

    Why: Above its speed a tire heats up until it throws its tread.
    Formula: speed by the symbol behind the load index (L 120, M 130, N 140 km/h, ...); an ST tire
        without one 65 mph
    Remedy: A tire with a higher speed symbol, or a lower top speed.
    Hazard: A tire that comes apart at speed throws the trailer about.
    Wrong:
        service: {top_speed: 70 mph}
        parts:
          - {kind: tire, size: ST205/75R15}
    Right:
        service: {top_speed: 70 mph}
        parts:
          - {kind: tire, size: ST205/75R15, speed_symbol: M}
    """
    tire: Any = line.part
    if tire.kind != "tire":
        return None
    symbol, service = speed_symbol(tire), line.build.service
    speed = _rated_speed(tire, symbol, line)
    if not service.has("top_speed") and speed.hi >= line.limits.st_tire_speed.lo:
        return None  # good for any road speed, or never asked how fast
    check = (
        at_least(speed, service.top_speed)
        .because("Above its speed a tire heats up until it throws its tread.")
        .at(tire, "speed_symbol")
        .fix(lambda: _speed_remedies(line, bool(symbol)))
        .danger("A tire that comes apart at speed throws the trailer about. Keep below the tire's speed.")
    )
    if symbol or speed.lo != speed.hi:
        words = "The {tire} is good for {have} by its speed symbol {symbol}; the top speed is {need}."
        return check.on_basis(SPEED_SYMBOLS).stop(words, tire=tire, symbol=symbol)
    words = "No speed symbol is given for the {tire}: an ST tire without one is for {have}; "
    return check.on_basis(UNMARKED_ST).caution(words + "the top speed is {need}.", tire=tire)


def _rated_speed(tire: Any, symbol: str, line: Line) -> Interval:
    """Speed by the symbol; without one by the kind of tire, as far as that says."""
    if symbol:
        row = line.tables.row("speed_symbol", symbol)
        if row is not None:
            return Interval.exact(float(row["km_h"]), "km/h")
        return Interval(0.0, float(line.tables.row("speed_symbol", "B")["km_h"]), "km/h")  # A1 to A8: below B
    size = tire.size
    if size.prefix == "ST":
        return line.limits.st_tire_speed
    _ = tire.speed_symbol  # read, so that it is the field to ask for
    if size.prefix == "LT" or (size.form == "metric" and size.prefix != "T"):
        return Interval(line.limits.car_tire_speed.lo, INF, "km/h")
    return Interval(0.0, INF, "km/h")


def _speed_remedies(line: Line, marked: bool) -> Iterator[Remedy]:
    tire: Any = line.part
    wanted = line.build.service.top_speed
    symbol = _least_symbol(line, wanted.hi)
    if not marked:
        yield Remedy(
            "read the letter behind the load index on the sidewall and type it as speed_symbol",
            f"{tire.id}.speed_symbol", AT_LEAST, symbol, "declare",
        )  # fmt: skip
    if symbol:
        yield Remedy(
            "a tire with speed symbol {symbol} or higher", f"{tire.id}.speed_symbol", AT_LEAST, symbol,
            symbol=symbol,
        )  # fmt: skip
    yield Remedy("or keep to {have} and type that as top_speed", "service.top_speed", AT_MOST,
                 _rated_speed(tire, speed_symbol(tire), line), "declare")  # fmt: skip


def _least_symbol(line: Line, speed: float) -> str:
    """The symbol of the lowest speed that is at least ``speed`` km/h, or ""."""
    rows = [row for row in line.tables.rows("speed_symbol") if row["km_h"] >= speed]
    return str(min(rows, key=lambda row: row["km_h"])["key"]) if rows else ""


@rule(
    "tire-pressure-over-wheel",
    on=MountedTire,
    reads=[*PRESSURE_READS, "wheel.max_pressure"],
    basis=(P_METRIC_LOAD, OTHER_LOAD),
    after=["tire-below-corner"],
)
def tire_pressure_over_wheel(mounted: MountedTire) -> Check | None:
    """The pressure that the tire needs for its load is not above what the wheel is stamped for.

    Why: Wheels are made for a pressure as well as for a load.
    Formula: pressure = rated pressure x (corner load / rated load)^(1/e), at most the rated pressure;
        e is 0.5 for P-metric tires, 0.8 for others (the safe side)
    Remedy: A wheel stamped for more, or a larger tire that needs less.
    Hazard: A wheel over its pressure can crack or let the tire off.
    Wrong:
        service: {gross_weight: 5000 lb, tongue_weight: 600 lb}
        parts:
          - {kind: wheel, size: 15 x 6 in, max_pressure: 50 psi}
          - {kind: tire, size: ST225/75R15, max_load: 2830 lb, rated_pressure: 80 psi}
    Right:
        service: {gross_weight: 5000 lb, tongue_weight: 600 lb}
        parts:
          - {kind: wheel, size: 15 x 6 in, max_pressure: 80 psi}
          - {kind: tire, size: ST225/75R15, max_load: 2830 lb, rated_pressure: 80 psi}
    """
    return _pressure(mounted, "max_pressure", "the {wheel} is stamped for {need}", "a wheel stamped for")


@rule(
    "valve-below-pressure",
    on=MountedTire,
    reads=[*PRESSURE_READS, "wheel.valve_rating"],
    basis=(P_METRIC_LOAD, OTHER_LOAD),
    after=["tire-below-corner"],
)
def valve_below_pressure(mounted: MountedTire) -> Check | None:
    """The pressure that the tire needs for its load is not above what the valve is made for.

    Why: A rubber snap-in valve blows out of its hole above its pressure, and heat makes it worse.
    Formula: pressure as in tire-pressure-over-wheel, at most the valve's
    Remedy: A metal bolt-in or high pressure valve.
    Hazard: A valve that blows out empties the tire at speed.
    Wrong:
        service: {gross_weight: 5800 lb, tongue_weight: 600 lb}
        parts:
          - {kind: wheel, size: 15 x 6 in, valve_rating: 65 psi}
          - {kind: tire, size: ST225/75R15, max_load: 2830 lb, rated_pressure: 80 psi}
    Right:
        service: {gross_weight: 5800 lb, tongue_weight: 600 lb}
        parts:
          - {kind: wheel, size: 15 x 6 in, valve_rating: 100 psi}
          - {kind: tire, size: ST225/75R15, max_load: 2830 lb, rated_pressure: 80 psi}
    """
    words = "the valve in the {wheel} is made for {need}"
    return _pressure(mounted, "valve_rating", words, "metal bolt-in valves made for")


def _pressure(mounted: MountedTire, field: str, limit_words: str, remedy: str) -> Check | None:
    tire, wheel = mounted.tire, mounted.wheel
    needed = needed_pressure(tire, mounted, mounted.end.corner_load)
    if not wheel.has(field) and needed.lo <= mounted.limits.plain_valve_pressure.hi:
        return None  # any sound wheel and valve holds that
    limit = getattr(wheel, field)
    check = at_most(needed, limit).at(wheel, field)
    check.on_basis(P_METRIC_LOAD if is_p_metric(tire) else OTHER_LOAD)
    if check.holds and tire.has("max_pressure") and tire.max_pressure.lo > limit.hi:
        return check.note(
            f"Do not fill the {{tire}} to its moulded {{moulded}}: {limit_words}. {{have}} carries the load.",
            tire=tire, wheel=wheel, moulded=tire.max_pressure,
        )  # fmt: skip
    return (
        check.stop(
            f"The {{tire}} needs {{have}} for the {{load}} it carries, {limit_words}.",
            tire=tire, wheel=wheel, load=mounted.end.corner_load,
        )
        .because("At less pressure the tire would be overloaded, at more the wheel or valve is.")
        .fix(lambda: _pressure_remedies(mounted, field, remedy, needed))
        .danger(BURSTS)
    )  # fmt: skip


def _pressure_remedies(mounted: MountedTire, field: str, words: str, needed: Interval) -> Iterator[Remedy]:
    target = Interval.exact(needed.hi, "kPa")
    yield Remedy(
        words + " at least {target_pressure}", f"{mounted.wheel.id}.{field}", AT_LEAST, target,
        target_pressure=Least(target),
    )  # fmt: skip
    yield Remedy(
        "or a tire that carries {load} at {need} or less, by its maker's table",
        f"{mounted.tire.id}.rated_pressure", AT_MOST, getattr(mounted.wheel, field),
    )  # fmt: skip
