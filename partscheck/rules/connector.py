"""The trailer's plug: has it a pin for all that is fitted, and does it fit the tow vehicle's socket."""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build.brake_circuit import electric_brakes
from partscheck.build.places import Whole
from partscheck.notation.interval import Interval
from partscheck.rules.basis import practice, recalled
from partscheck.rules.brake_supply import EUROPE
from partscheck.rules.check import AT_LEAST, EQUAL, Check, Remedy, any_of, certainly, same
from partscheck.rules.registry import rule

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

PINS = recalled("table connector: wiring charts and ISO 1724, ISO 11446 from memory; makers differ")
ONE_WIRE = practice("most tow vehicles in the United States give stop and turn on one wire for each side")
DARK = (
    "Lamps that get no wire stay dark, and brakes without one do not brake. Compare the wiring charts of trailer "
    "and tow vehicle, and try all of it before each trip."
)
NORTH_AMERICA = ("US", "CA", "MX")
BY_ISO = (*EUROPE, "ZA")
BRAKES = "electric brakes"
USES = {BRAKES: "brakes", "reverse lamps": "reverse", "charging a battery": "charge", "rear fog lamps": "fog"}
LEAST_PINS = 4  # tail, left, right, ground


@rule(
    "connector-ways",
    on=Whole,
    reads=[
        "connector.ways", "tow_vehicle.connector_ways", "service.country", "lamp.function", "wire.feeds",
        "brake.type", "brake.current", "brake.voltage", "practice.brake_connector_ways",
    ],
    basis=PINS,
)  # fmt: skip
def connector_ways(whole: Whole) -> Iterator[Check]:
    """The trailer's plug has a pin for all that is fitted, and fits the tow vehicle's socket.

    Why: A lamp or a battery without a wire does nothing, and a plug of another number of pins does not go in.
    Formula: each of reverse lamps, rear fog lamps, wire that feeds: charge, and electric brakes has a pin on a
        plug of so many (table connector, by country); pins of the plug = pins of the socket, where both are typed.
        Four pins carry tail, left, right and ground. Too few pins for electric brakes are told by
        breakaway-required. Separate turn lamps in the United States: a note about the converter.
    Remedy: A plug with more pins; an adapter between plug and socket where nothing is lost by it.
    Hazard: Lamps stay dark.
    Wrong:
        service: {country: US}
        parts:
          - {kind: connector, ways: 4}
          - {kind: lamp, function: reverse, qty: 2}
    Right:
        service: {country: US}
        parts:
          - {kind: connector, ways: 7}
          - {kind: lamp, function: reverse, qty: 2}
    """
    plugs: list[Any] = list(whole.build.of_kind("connector"))
    fitted = list(_fitted(whole))
    if plugs and (fitted or whole.build.of_kind("lamp")):
        yield any_of(*[_carries(whole, plug, fitted) for plug in plugs])
    yield from _socket(whole, plugs, [what for what, _ in fitted])
    yield from _converter(whole)


# ---- pins for all that is fitted --------------------------------------------------------------------------


def _fitted(whole: Whole) -> Iterator[tuple[str, list[Any]]]:
    """(what, its lines) of all beyond tail, stop and turn lamps that needs a pin."""
    build = whole.build
    brakes = list(dict.fromkeys(electric_brakes(whole)))
    if brakes:
        yield BRAKES, brakes
    lamps: list[Any] = list(build.of_kind("lamp"))
    for function in ("reverse", "fog"):
        lines = [lamp for lamp in lamps if lamp.has("function") and lamp.function == function]
        if lines:
            yield next(what for what, use in USES.items() if use == function), lines
    wires: list[Any] = list(build.of_kind("wire"))
    charge = [wire for wire in wires if wire.has("feeds") and wire.feeds == "charge"]
    if charge:
        yield "charging a battery", charge


def _carries(whole: Whole, plug: Any, fitted: list[tuple[str, list[Any]]]) -> Check:
    """One plug; the best of the tables of the country (of all of them where none is typed)."""
    asked = [what for what, _ in fitted]
    if not plug.has("ways"):
        if asked:
            plug.ways  # noqa: B018 - asks for it
        check = same(None if asked else True)
        lacking: list[str] = []
    else:
        lacking = _lacking(whole, plug.ways, asked)
        check = certainly(not lacking)
    if lacking:
        check.caution(
            "The {plug} has {ways} pins; a plug of so many has none for {lacking}.",
            plug=plug, ways=str(plug.ways), lacking=lacking,
        )  # fmt: skip
    check.because("What gets no wire does nothing. Pins differ from maker to maker: compare the charts.")
    check.fix(lambda: _larger(whole, plug, asked)).danger(DARK)
    lines = dict.fromkeys(line for what, of_it in fitted if what in lacking for line in of_it)
    return check.at(plug, "ways").about(plug, *lines)


def plug_rows(whole: Whole) -> list[dict[str, Any]]:
    """Rows of the country's plugs; all where no country is typed; none where its plugs are not known here."""
    rows: list[dict[str, Any]] = whole.tables.rows("connector")
    service = whole.build.service
    if not service.has("country"):
        return rows
    system = "US" if service.country in NORTH_AMERICA else "ISO" if service.country in BY_ISO else ""
    return [row for row in rows if row["system"] == system]


def _lacking(whole: Whole, ways: int, asked: list[str]) -> list[str]:
    """What a plug of so many pins has no pin for."""
    if ways < LEAST_PINS:
        return ["tail lamps, left and right turn lamps and ground together", *asked]
    if ways < whole.limits.brake_connector_ways.lo:
        asked = [what for what in asked if what != BRAKES]  # breakaway-required tells of it
    tables = [_without(row, asked) for row in plug_rows(whole) if int(row["ways"]) == ways]
    return min(tables, key=len, default=[])


def _without(row: dict[str, Any], asked: list[str]) -> list[str]:
    """What a row has no pin for; a shared pin serves the first that asks for it."""
    shared = [what for what in asked if row[USES[what]] == "shared"]
    return [what for what in asked if row[USES[what]] == "no" or what in shared[1:]]


def _larger(whole: Whole, plug: Any, asked: list[str]) -> Iterator[Remedy]:
    rows = sorted(plug_rows(whole), key=lambda row: float(row["ways"]))
    if len({row["system"] for row in rows}) > 1:
        rows = [row for row in rows if row["system"] == "US"] + rows
    row = next((row for row in rows if int(row["ways"]) >= LEAST_PINS and not _without(row, asked)), None)
    if row is None:
        yield Remedy(
            "no plug known here has a pin for all of it: ask the makers, or lay a wire and plug of its own for "
            "{asked}", field="connector", operation="add", asked=asked,
        )  # fmt: skip
        return
    ways = int(row["ways"])
    yield Remedy(
        "take a plug of {ways} pins, and a tow vehicle's socket to match: {lamps}, and pins for the rest",
        field=f"{plug.id}.ways", relation=AT_LEAST, target=Interval.exact(float(ways)), ways=str(ways),
        lamps=row["lamps"],
    )  # fmt: skip


# ---- the tow vehicle's socket -----------------------------------------------------------------------------


def _socket(whole: Whole, plugs: list[Any], asked: list[str]) -> Iterator[Check]:
    """Plug and socket have as many pins; else an adapter, where the socket has all that the trailer needs."""
    vehicle = whole.build.tow_vehicle
    known = [plug for plug in plugs if plug.has("ways")]
    if not vehicle.has("connector_ways") or not known:
        return
    ways = int(vehicle.connector_ways)
    plug = next((one for one in known if int(one.ways) == ways), known[0])
    few = min(ways, int(plug.ways))
    if BRAKES in asked and few < whole.limits.brake_connector_ways.lo:
        return  # breakaway-required tells of it
    lost = _lacking(whole, ways, asked)
    check = certainly(int(plug.ways) == ways)
    words = "The {plug} has {plug_ways} pins, the tow vehicle's socket {ways}: one does not go into the other"
    words += "; the socket has no pin for {lost}." if lost else "."
    if check.fails:
        check.caution(words, plug=plug, plug_ways=str(plug.ways), ways=str(ways), lost=lost)
    check.because("An adapter joins the pins that both have; it makes none that are missing.").danger(DARK)
    check.fix(lambda: _adapter(plug, ways, lost))
    yield check.at(plug, "ways").about(plug)


def _adapter(plug: Any, ways: int, lost: list[str]) -> Iterator[Remedy]:
    if lost:
        yield Remedy(
            "have a socket of {plug_ways} pins fitted to the tow vehicle", field="tow_vehicle.connector_ways",
            relation=EQUAL, target=Interval.exact(float(plug.ways)), operation="shop", plug_ways=str(plug.ways),
        )  # fmt: skip
        return
    yield Remedy(
        "buy an adapter from a socket of {ways} pins to a plug of {plug_ways}, and accept this with it as reason",
        field="other", operation="add", ways=str(ways), plug_ways=str(plug.ways),
    )  # fmt: skip
    yield Remedy(
        "or take a plug of {ways} pins", field=f"{plug.id}.ways", relation=EQUAL,
        target=Interval.exact(float(ways)), ways=str(ways),
    )  # fmt: skip


# ---- separate turn lamps ----------------------------------------------------------------------------------


def _converter(whole: Whole) -> Iterator[Check]:
    service = whole.build.service
    if not service.has("country") or service.country != "US":
        return
    lamps: list[Any] = [lamp for lamp in whole.build.of_kind("lamp") if lamp.has("function")]
    turn = [lamp for lamp in lamps if lamp.function == "turn"]
    both = [lamp for lamp in lamps if lamp.function in ("stop-tail-turn", "combination")]
    if turn and not both:
        check = certainly().note(
            "The {lamp} flashes apart from the stop lamps; most tow vehicles in the United States give stop and "
            "turn on one wire for each side. Where yours does, a converter parts them; look at its wiring chart.",
            lamp=turn[0],
        )  # fmt: skip
        yield check.on_basis(ONE_WIRE).at(turn[0], "function").about(*turn)
