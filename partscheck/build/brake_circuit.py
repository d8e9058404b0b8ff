"""The circuit of electric brakes: which brakes draw current, how much, and through which wires."""

from __future__ import annotations

from partscheck.notation.interval import Interval

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.places import Whole

BRAKE_CURRENT_READS = ("brake.type", "brake.current", "brake.voltage", "brake.drum_diameter")
SAME_DRUM = 1.0  # mm: a drum this near to a row of the table is that row's


def brakes_on(whole: Whole) -> list[tuple[str, Any]]:
    """(place, brake) of every brake that sits somewhere."""
    places = whole.fit.places
    return [(at, places[at]["brake"]) for at in whole.fit.positions if "brake" in places[at]]


def is_electric(brake: Any) -> bool | None:
    """Whether current works the brake: by its type, else by a current or voltage on its line; None: not said."""
    if brake.has("type"):
        return bool(brake.type == "electric")
    return True if brake.has("current") or brake.has("voltage") else None


def electric_brakes(whole: Whole) -> list[Any]:
    """One entry for each place with a brake that is surely electric."""
    return [brake for _, brake in brakes_on(whole) if is_electric(brake)]


def brake_current(brake: Any, supply: Interval, tables: Any) -> Interval:
    """Current of one brake, A: as stated, taken to the supply's voltage where another is stated with it;
    not stated: what is common for its size.
    """
    current: Interval = brake.current
    if brake.has("current"):
        if brake.has("voltage") and brake.voltage.lo > 0:
            current = (current * (supply / brake.voltage)).with_unit("A")
        return current
    row = _usual(brake, tables)
    return current if row is None else current.clipped(row["current_least_a"], row["current_most_a"])


def _usual(brake: Any, tables: Any) -> dict[str, Any] | None:
    if not brake.has("drum_diameter"):
        return None
    drum = brake.drum_diameter
    rows: list[dict[str, Any]] = tables.rows("brake_size")
    return next((row for row in rows if abs(row["drum_diameter_mm"] - drum.mid) <= SAME_DRUM), None)


def brake_wires(whole: Whole) -> list[Any]:
    """The lines of wire in series between controller and brakes: those that say so, else those that say
    nothing of what they feed.
    """
    wires = whole.build.of_kind("wire")
    named = [wire for wire in wires if wire.has("feeds") and wire.feeds == "brakes"]  # type: ignore[attr-defined]
    return named or [wire for wire in wires if not wire.has("feeds")]


def supply_voltage(whole: Whole) -> Interval:
    """Volts at full braking, V: the controller's, else the practice limit."""
    for controller in whole.build.of_kind("brake-controller"):
        if controller.has("voltage"):
            return controller.voltage  # type: ignore[attr-defined, no-any-return]
    return whole.limits.brake_supply_voltage
