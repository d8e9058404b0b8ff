"""Whether a law may ask for brakes, and whether electric brakes have what works them."""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build.brake_circuit import brake_wires, brakes_on, is_electric
from partscheck.build.places import Whole
from partscheck.build.scale_readings import SCALE_READS
from partscheck.build.standing_loads import LOADS_READS
from partscheck.notation.interval import Interval
from partscheck.rules.basis import practice, recalled
from partscheck.rules.check import Check, Remedy, at_least, certainly, same
from partscheck.rules.message import name_of
from partscheck.rules.registry import rule

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

LAWS = recalled("table brake_law: each law with its own source; they change, and others may hold where you tow")
WORKS = practice(
    "an electric brake needs a controller, wire, a plug with pins for brakes and charge, and a breakaway switch"
)
RUNS_ON = (
    "A trailer heavier than the tow vehicle's brakes can hold pushes it in a descent or a bend. Local codes and "
    "the tow vehicle's manual decide."
)
NO_BRAKES = (
    "Electric brakes without current do nothing, and a trailer that breaks away runs on unbraked. Follow the part "
    "makers' instructions and local codes; have a licensed shop look at what you are not sure of."
)
NEWTONS = {"threshold_lb": 4.4482216152605, "threshold_kg": 9.80665}
EUROPE = (
    "EU", "DE", "FR", "NL", "BE", "AT", "CH", "IT", "ES", "PT", "PL", "CZ", "DK", "SE", "NO", "FI", "IE", "GB",
)  # fmt: skip
MOST = 0.5  # of the laws known for the country: from there on it is a caution
RUNNING_GEAR = ("axle", "suspension-arm", "spindle", "coupler")


# ---- the law ----------------------------------------------------------------------------------------


@rule(
    "brakes-required",
    on=Whole,
    reads=[
        "service.gross_weight", "service.country", *LOADS_READS, *SCALE_READS, "hub.drum_diameter",
        "hub.drum_outside", "hub.rotor_diameter", "tow_vehicle.weight", "practice.brakes_law_near",
    ],
    basis=LAWS,
)  # fmt: skip
def brakes_required(whole: Whole) -> Check | None:
    """A trailer that most of the known laws want braked has brakes at its wheels.

    Why: The weight from which a trailer must have brakes differs from place to place (1500 to 4500 lb among
        US states, 750 kg in much of Europe). Nothing is decided here: the thresholds are shown, and you look
        up the law of each place where you tow.
    Formula: gross weight against each threshold of the table brake_law for the country typed; no country:
        against all of them. Over at least half of them: a caution; over or near one of them: a note.
    Remedy: Look up the law; then fit brakes, load less, or accept this with what you found.
    Hazard: An unbraked trailer lengthens every stop.
    Wrong:
        service: {gross_weight: 3500 lb, country: US}
        parts:
          - {kind: axle, rating: 3500 lb}
    Right:
        service: {gross_weight: 1200 lb, country: US}
        parts:
          - {kind: axle, rating: 2000 lb}
    """
    build = whole.build
    rows = _laws(whole)
    if not rows or not whole.weights.given or not build.of_kind(*RUNNING_GEAR):
        return None
    gross = whole.weights.whole()
    if not gross.known or _hub_brakes(whole):
        return None
    near = [row for row in rows if _threshold(row) * (1 - whole.limits.brakes_law_near.hi) <= gross.hi]
    if not near:
        return None
    braked = [at for at, _ in brakes_on(whole)]
    axles = {at[:-1] for at in braked}  # a brake on one side only is a matter of its own
    bare = [at for at in whole.fit.positions if at[:-1] not in axles]
    if not bare:
        return certainly().about(*_lines(whole))
    over = [row for row in near if _asks(row, gross)]
    check = certainly(bool(braked) or len(over) < MOST * len(rows))
    words = (
        "The trailer weighs {gross} and has brakes at {braked} alone; some laws ask for them at every wheel. "
        if braked
        else "The trailer weighs {gross} and has no brakes on the list. "
    ) + "Look up the law of every place where you tow; of those known here: {laws}.{share}"
    say = check.note if check.holds else check.caution
    say(words, gross=gross, braked=braked, laws="; ".join(_told(row) for row in near), share=_share(whole, gross))
    check.because("The thresholds differ from place to place; nothing is decided here.").danger(RUNS_ON)
    check.fix(lambda: _brakes_or_accept(whole, near)).at(build.service, "gross_weight")
    return check.about(*_lines(whole), places=tuple(bare))


def _lines(whole: Whole) -> list[Any]:
    lines: list[Any] = list(dict.fromkeys(brake for _, brake in brakes_on(whole)))
    gear = (whole.build.of_kind(kind) for kind in RUNNING_GEAR)
    return lines or next((list(of_one_kind) for of_one_kind in gear if of_one_kind), [])


def _hub_brakes(whole: Whole) -> bool:
    """Drums or rotors, and no line of brakes: they are on the trailer already, or bought apart."""
    if brakes_on(whole):
        return False
    fields = ("drum_diameter", "drum_outside", "rotor_diameter")
    return any(hub.has(name) for hub in whole.build.of_kind("hub") for name in fields)


def _laws(whole: Whole) -> list[dict[str, Any]]:
    """Rows for the country that is typed, else all; those of smallest weight first."""
    service = whole.build.service
    rows: list[dict[str, Any]] = whole.tables.rows("brake_law")
    if service.has("country"):
        region = "Europe" if service.country in EUROPE else service.country
        rows = [row for row in rows if row["country"] == region]
    return sorted(rows, key=_threshold)


def _threshold(row: dict[str, Any]) -> float:
    """Weight of a row, N."""
    return next(float(row[name]) * factor for name, factor in NEWTONS.items() if name in row)


def _asks(row: dict[str, Any], gross: Interval) -> bool:
    """Over the threshold; a law that says "from" counts the threshold itself."""
    counts = 1e-6 if "from" in row["says"] else -1e-6
    return gross.hi > _threshold(row) - counts


def _told(row: dict[str, Any]) -> str:
    known = {"published": "published", "recalled": "recalled", "practice": "no source"}[row["basis"]["kind"]]
    return f"{row['place']}, {row['says']} ({row['applies_to']}; {known})"


def _share(whole: Whole, gross: Interval) -> str:
    """What the trailer weighs against the tow vehicle, where that is typed: some places go by it."""
    vehicle = whole.build.tow_vehicle
    if not vehicle.has("weight") or vehicle.weight.lo <= 0:
        return ""
    share = (gross / vehicle.weight).hi
    return f" It weighs {share * 100:.0f} % of the tow vehicle: some places go by that share."


def _brakes_or_accept(whole: Whole, laws: list[dict[str, Any]]) -> Iterator[Remedy]:
    yield Remedy(
        "look the law up, then write what it says under accept: rule brakes-required", field="accept",
        operation="declare",
    )  # fmt: skip
    yield Remedy("or fit brakes, with one left and one right on each braked axle", field="brake", operation="add")
    least = Interval.exact(min(_threshold(row) for row in laws), "N")
    yield Remedy(
        "or load less: under {target} no law known here asks for them", field="service.gross_weight",
        relation="at most", target=least, operation="declare",
    )  # fmt: skip


# ---- what works electric brakes ---------------------------------------------------------------------


@rule(
    "breakaway-required",
    on=Whole,
    reads=[
        "brake.type", "brake.current", "brake.voltage", "tow_vehicle.brake_controller",
        "tow_vehicle.connector_ways", "connector.ways", "brake-controller.brakes", "wire.feeds",
        "practice.brake_connector_ways",
    ],
    basis=WORKS,
)  # fmt: skip
def breakaway_required(whole: Whole) -> Iterator[Check]:
    """Electric brakes have a controller, a breakaway kit, a plug with brake and charge pins, and wire.

    Why: The controller in the tow vehicle feeds the brakes; the breakaway kit's own charged battery puts them
        on when the trailer parts from it. Laws ask for the kit from different weights on (some from 3000 lb,
        and that it holds for 15 minutes; look yours up). Surge and cable brakes need none of these.
    Formula: on the list, or in tow_vehicle, are a brake controller, a breakaway kit, wire for the brakes and
        a connector of at least the practice number of pins.
    Remedy: Add what is missing; what is there already goes on the list with have: true.
    Hazard: Electric brakes without current do nothing.
    Wrong:
        - {kind: brake, type: electric, hand: pair}
    Right:
        tow_vehicle: {brake_controller: true, connector_ways: 7}
        parts:
          - {kind: brake, type: electric, hand: pair}
          - {kind: breakaway-kit, voltage: 12 V, capacity: 5 Ah}
          - {kind: connector, ways: 7}
          - {kind: wire, gauge: 12 AWG, run: 18 ft, feeds: brakes}
    """
    lines = list(dict.fromkeys(brake for _, brake in brakes_on(whole)))
    kinds = [is_electric(brake) for brake in lines]
    if not any(kind is not False for kind in kinds):
        return
    yield _all_there(whole, lines, certain=any(kinds))
    if any(kinds):
        yield from _pins(whole)
        yield from _controller(whole)


def _all_there(whole: Whole, lines: list[Any], certain: bool) -> Check:
    lacking = list(_lacking(whole))
    truth = True if not lacking else False if certain else None
    if truth is None:
        for line in lines:
            line.type  # noqa: B018 - asks for it
    check = same(truth).caution(
        "The list has electric brakes, but it lacks what works them: {lacking}.",
        lacking=[what for what, _, _ in lacking],
    )  # fmt: skip
    check.because("What is on the tow vehicle or in the shop already goes on the list too.").danger(NO_BRAKES)
    check.fix(lambda: [Remedy(do, field=kind, operation="add") for _, kind, do in lacking])
    return check.about(*lines, places=tuple(at for at, _ in brakes_on(whole))).at(lines[0], "type")


def _lacking(whole: Whole) -> Iterator[tuple[str, str, str]]:
    """(what, kind of line, what to do) of all that is missing."""
    build, vehicle = whole.build, whole.build.tow_vehicle
    fitted = vehicle.has("brake_controller") and vehicle.brake_controller
    if not build.of_kind("brake-controller") and not fitted:
        yield (
            "a brake controller", "brake-controller",
            "add a brake controller, or say that the tow vehicle has one: tow_vehicle: brake_controller: true",
        )  # fmt: skip
    if not build.of_kind("breakaway-kit"):
        yield (
            "a breakaway kit", "breakaway-kit", "add a breakaway kit with its battery, and keep it charged",
        )  # fmt: skip
    if not build.of_kind("connector"):
        yield (
            "a connector", "connector", "add a connector with pins for brakes and charge: ways: 7 is usual",
        )  # fmt: skip
    if not brake_wires(whole):
        yield (
            "wire to the brakes", "wire", "add the wire to the brakes, with its gauge and run, feeds: brakes",
        )  # fmt: skip


def _pins(whole: Whole) -> Iterator[Check]:
    """Plug and socket have pins for brakes and charge, where their number is typed."""
    least = whole.limits.brake_connector_ways
    need = Interval(least.hi, least.hi)
    found = [(one, "ways", name_of(one)) for one in whole.build.of_kind("connector")]
    vehicle = whole.build.tow_vehicle
    for record, field, name in [*found, (vehicle, "connector_ways", "tow vehicle's socket")]:
        if not record.has(field):
            continue
        ways = float(getattr(record, field))
        check = at_least(Interval(ways, ways), need).caution(
            "The {name} has {have} pins; from {need} on there is one for the brakes and one that charges the "
            "breakaway's battery.", name=name,
        )  # fmt: skip
        check.because("With fewer pins the brakes, or the charging of the breakaway's battery, get no wire.")
        check.fix(lambda record=record, field=field: [  # type: ignore[misc]
            Remedy("take plug and socket of 7 pins, and compare which pin does what", operation="replace",
                   field=f"{record.id}.{field}", relation="at least", target=need)
        ]).danger(NO_BRAKES)  # fmt: skip
        yield check.at(record, field).about(*([record] if record is not vehicle else []))


def _controller(whole: Whole) -> Iterator[Check]:
    """The controller works as many brakes as there are, where its number is typed."""
    electric = [brake for _, brake in brakes_on(whole) if is_electric(brake)]
    for controller in whole.build.of_kind("brake-controller"):
        if not controller.has("brakes"):
            continue
        most = float(controller.brakes)  # type: ignore[attr-defined]
        check = at_least(Interval(most, most), Interval(len(electric), len(electric))).caution(
            "The {controller} works {have} brakes at most, the list has {need}.", controller=controller
        )
        check.because("A controller that is asked for more than it gives goes off, and the brakes with it.")
        check.fix(lambda controller=controller: [  # type: ignore[misc]
            Remedy("take a controller for {count} brakes", field=f"{controller.id}.brakes",
                   relation="at least", target=Interval(len(electric), len(electric)), count=len(electric))
        ]).danger(NO_BRAKES)  # fmt: skip
        yield check.at(controller, "brakes").about(controller)
