"""Wires: brakes, breakaway, lamps and plug, by what each wire does; no color is told, for no standard was read."""

from __future__ import annotations

from partscheck.build.brake_circuit import electric_brakes
from partscheck.rules.basis import practice
from partscheck.rules.connector import plug_rows
from partscheck.rules.message import name_of
from partscheck.uses.bom_amounts import LIT_WITH_TAIL, OWN_WIRE, SIDED, whole_of
from partscheck.uses.shop.sheet import FROM_LIST, Said, Section, Step, basis_of

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import Any

    from partscheck.engine import Result

WIRING = practice("wiring a trailer by hand: by function, a ground wire to every lamp and brake")
HAZARD = (
    "A wire that chafes through starts a fire or takes lamps and brakes away on the road: battery off while you "
    "work, a fuse near every battery. The charts of plug, lamps, brakes and tow vehicle and local codes govern; "
    "have a licensed shop look at what you are not sure of."
)
INTRO = (
    Said(
        "A grommet wherever a wire goes through metal; tied up at short distances, clear of tires, arms and hot "
        "parts, with slack where something moves. Crimped, and sealed against water."
    ),
)
NO_COLORS = (
    "By function, never by color alone: makers differ. Read the chart of the plug and of the tow vehicle, and try "
    "each wire with a test lamp."
)
USES = {"brakes": "electric brakes", "reverse": "reverse lamps", "charge": "charging", "fog": "rear fog lamps"}


def section(result: Result) -> Section:
    steps = [*_brakes(result), *_breakaway(result), *_lamps(result), *_plug(result)]
    return Section("wiring", "Wire brakes, lamps and plug", steps, INTRO, HAZARD, (WIRING,))


def _wires(result: Result, use: str) -> list[Any]:
    typed: list[Any] = list(result.build.of_kind("wire"))
    return [wire for wire in typed if wire.has("feeds") and wire.feeds == use]


def _begun(step: Step, wires: list[Any]) -> Step:
    """The wire to take."""
    for wire in wires:
        if wire.has("gauge"):
            step.more("{wire}: {gauge}.", wire=name_of(wire), gauge=wire.gauge.text).by(FROM_LIST)
        if wire.has("fuse"):
            step.more("Its fuse, {fuse}, near where the current comes from.", fuse=wire.fuse).by(FROM_LIST)
    return step.by(WIRING).take("wire stripper and crimping pliers")


def _brakes(result: Result) -> Iterator[Step]:
    brakes = electric_brakes(whole_of(result))
    if not brakes:
        return
    wires, at = _wires(result, "brakes"), [place for brake in brakes for place in result.fit.places_of(brake)]
    lines = list(dict.fromkeys(brakes))
    places = tuple(sorted(dict.fromkeys(at)))
    step = Step(
        "connect the electric brakes at {places}: of the two leads of each, one to the brake wire, one to the "
        "ground wire.",
        [*lines, *wires],
        places,
        places=", ".join(places),
    )
    step.more("Which of the two makes no difference. All brakes side by side, none behind another.")
    if not any(wire.has("returns") and wire.returns == "frame" for wire in wires):
        step.more("The ground wire runs back to the plug: not through frame, bearings or coupler.")
    yield _begun(step, wires).minds("brake_supply", "wiring")


def _breakaway(result: Result) -> Iterator[Step]:
    kits = result.build.of_kind("breakaway-kit")
    if not kits:
        return
    step = Step(
        "connect the breakaway switch between the plus of its battery and the brake wire, the minus of the "
        "battery to the ground wire.",
        [*kits, *result.build.of_kind("battery")],
    )
    step.more("As its instructions have it: the brake controller must not be fed backwards through it.")
    step.more("Its battery is charged from the plug's battery pin, or by hand before every trip.")
    yield step.by(WIRING).take("wire stripper and crimping pliers").minds("breakaway", "brake_supply")


def _lamps(result: Result) -> Iterator[Step]:
    lamps: list[Any] = list(result.build.of_kind("lamp"))
    if not lamps:
        return
    wires = _wires(result, "lamps")
    step = Step("connect the lamps, each circuit by a wire of its own.", [*lamps, *wires])
    for what, lines in _circuits(lamps):
        step.more("{what}: {lamps}.", what=what, lamps=", ".join(name_of(lamp) for lamp in lines))
    unsaid = [lamp for lamp in lamps if not lamp.has("function")]
    if unsaid:
        step.more("By their own chart, for the list gives no function: {lamps}.",
                  lamps=", ".join(name_of(lamp) for lamp in unsaid))  # fmt: skip
    back = [wire for wire in wires if wire.has("returns") and wire.returns == "frame"]
    step.more(
        "Ground: as your list has it, through the frame: a bare, clean, bolted joint at every lamp and the plug."
        if back
        else "Ground: a wire from every lamp back to the plug, not through the frame alone."
    )
    yield _begun(step, wires).minds("lamps", "lamp_wiring")


def _circuits(lamps: list[Any]) -> Iterator[tuple[str, list[Any]]]:
    """(what a wire does, the lamps on it)."""
    own = {function for function in OWN_WIRE if any(_shows(lamp, (function,)) for lamp in lamps)}
    together = "turn" if "stop" in own else "stop and turn"
    for what, functions in (
        ("Tail and markers, one wire", LIT_WITH_TAIL),
        (f"Left {together}, one wire, and right {together}, another", SIDED),
        *((f"{function.capitalize()}, one wire", (function,)) for function in OWN_WIRE),
    ):
        lines = [lamp for lamp in lamps if _shows(lamp, functions)]
        if lines:
            yield what, lines


def _shows(lamp: Any, functions: tuple[str, ...]) -> bool:
    return bool(lamp.has("function") and lamp.function in functions)


def _plug(result: Result) -> Iterator[Step]:
    for plug in result.build.of_kind("connector"):
        line: Any = plug
        step = Step("connect the {plug} by its own chart.", (plug,), plug=plug)
        rows = [row for row in plug_rows(whole_of(result)) if line.has("ways") and row["ways"] == line.ways]
        for row in rows:
            step.more(
                "{ways} pins, {system}, carry {pins}.",
                ways=str(row["ways"]),
                system="North America" if row["system"] == "US" else "by ISO",
                pins="; ".join(_pins(row)),
            ).by(basis_of(row))
        if not rows:
            step.more("What its pins carry is not known here.")
        step.more(NO_COLORS)
        step.more("A drip loop before it, and a holder: the cable never drags.")
        yield step.by(WIRING).take("test lamp or multimeter").minds("connector", "lamps")


def _pins(row: dict[str, Any]) -> Iterator[str]:
    """What the pins of a row carry, one that serves one of several uses in one piece."""
    yield str(row["lamps"])
    yield from (what for use, what in USES.items() if row[use] == "yes")
    shared = [what for use, what in USES.items() if row[use] == "shared"]
    if shared:
        yield f"on one pin {' or '.join(shared)}"
