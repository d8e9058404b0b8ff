"""The breakaway's battery: does it hold the brakes on long enough."""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build.brake_circuit import BRAKE_CURRENT_READS, brake_current, electric_brakes
from partscheck.build.places import Whole
from partscheck.formulas.wiring import battery_needed
from partscheck.notation.interval import INF, Interval
from partscheck.rules.basis import practice
from partscheck.rules.check import Check, Remedy, at_least
from partscheck.rules.registry import rule

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

HOLDS = practice(
    "some laws name 15 minutes (table brake_law names one without its state); a small battery emptied within "
    "minutes gives about half of the capacity that it is named by"
)
ROLLS = (
    "A trailer that broke away rolls on when its brakes let go. Local codes say for how long they must hold; "
    "follow the kit maker's instructions, and test the switch and the battery's charge before each trip."
)


@rule(
    "breakaway-battery-short",
    on=Whole,
    reads=[
        *BRAKE_CURRENT_READS, "breakaway-kit.capacity", "breakaway-kit.voltage", "battery.capacity",
        "battery.voltage", "practice.brake_supply_voltage", "practice.breakaway_minutes",
        "practice.breakaway_battery_usable",
    ],
    basis=HOLDS,
)  # fmt: skip
def breakaway_battery_short(whole: Whole) -> Check | None:
    """The breakaway's battery holds all electric brakes on for as long as the practice limit asks.

    Why: When the trailer parts from the tow vehicle its own battery puts the brakes on, at full current.
    Formula: capacity x the share that is usable within minutes >= current of all electric brakes x the time. The
        capacity is the kit's, else that of the one battery on the list. Current not typed: what is common for
        the brakes' size. No capacity typed at all: nothing is said.
    Remedy: A larger battery; keep it charged from the plug.
    Hazard: A trailer that broke away rolls on.
    Wrong:
        - {kind: brake, type: electric, hand: pair, current: 3.2 A}
        - {kind: breakaway-kit, voltage: 12 V, capacity: 2.6 Ah}
    Right:
        - {kind: brake, type: electric, hand: pair, current: 3.2 A}
        - {kind: breakaway-kit, voltage: 12 V, capacity: 5 Ah}
    """
    brakes = electric_brakes(whole)
    source = _battery(whole)
    if not brakes or source is None:
        return None
    supply = source.voltage if source.has("voltage") else whole.limits.brake_supply_voltage
    current = sum((brake_current(one, supply, whole.tables) for one in brakes), Interval(0.0, 0.0, "A"))
    minutes, usable = whole.limits.breakaway_minutes, whole.limits.breakaway_battery_usable
    ends = [_needed(amperes, minutes.hi, usable.lo) for amperes in (current.lo, current.hi)]
    need = Interval(ends[0], ends[1], "Ah")
    check = at_least(source.capacity, need).caution(
        "The {source} has {have} by name. All brakes draw {current} together; {minutes} minutes of it want "
        "{need}, since a battery emptied that fast gives {usable} % of its name: {by} more.",
        source=source, current=current, minutes=f"{minutes.hi:g}",
        usable=f"{usable.lo * 100:g}",
    )  # fmt: skip
    check.because("After a breakaway the battery alone holds the brakes, until someone has chocked the wheels.")
    check.fix(lambda: _larger(source, need)).danger(ROLLS)
    return check.at(source, "capacity").about(source, *dict.fromkeys(brakes))


def _battery(whole: Whole) -> Any:
    """What says the capacity: the kit, else the only battery; None where no capacity is typed."""
    kits: list[Any] = list(whole.build.of_kind("breakaway-kit"))
    batteries: list[Any] = list(whole.build.of_kind("battery"))
    if not kits:
        return None
    if kits[0].has("capacity"):
        return kits[0]
    known = [battery for battery in batteries if battery.has("capacity")]
    if not known:
        return None
    return batteries[0] if len(batteries) == 1 else kits[0]  # which of several, only the kit can tell


def _needed(current: float, minutes: float, usable: float) -> float:
    return INF if current == INF else battery_needed(current, minutes, usable)


def _larger(source: Any, need: Interval) -> Iterator[Remedy]:
    if need.hi != INF:
        yield Remedy(
            "take a battery of {target} or more, and have the plug's charge pin keep it full",
            field=f"{source.id}.capacity", relation="at least", target=Interval.exact(need.hi, "Ah"),
        )  # fmt: skip
