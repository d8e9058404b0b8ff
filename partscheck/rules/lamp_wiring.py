"""Wire to the lamps: the volts that reach them."""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build.lamp_circuit import LAMP_CURRENT_READS, lamp_wires, lamps_current
from partscheck.build.places import Whole
from partscheck.build.wire_drop import WIRE_READS, volts_lost
from partscheck.notation.interval import Interval
from partscheck.rules.basis import practice
from partscheck.rules.check import AT_MOST, Check, Remedy, at_least, certainly
from partscheck.rules.registry import rule
from partscheck.rules.wiring import DROP, digits, legs_of, thicker

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

GROUND = practice("most lamps that fail on trailers fail by their ground")
DIM = (
    "Dim stop and turn lamps are read too late by whoever comes behind. Follow the lamp makers' instructions and "
    "local codes."
)


@rule(
    "lamp-wire-drop",
    on=Whole,
    reads=[
        *LAMP_CURRENT_READS, *WIRE_READS, "practice.lamp_current_most", "practice.lamp_supply_voltage",
        "practice.lamp_wire_drop", "practice.stranded_wire_more",
    ],
    basis=DROP,
)  # fmt: skip
def lamp_wire_drop(whole: Whole) -> Iterator[Check]:
    """Enough volts reach the lamps over their wire, there and back, with all of them on.

    Why: A filament bulb loses a third of its light with a tenth of its volts; a lamp of diodes flickers or goes
        off under its least voltage.
    Formula: supply - sum over the wires with feeds: lamps of 2 x ohm per length x run x current of all lamps >=
        supply less the practice share. Counted as if all went out through one wire and back through one: what
        each lamp gets is somewhat more. Lines of wire count one after the other. Return through the frame: one
        way, and a note. Lamps without a current draw up to the practice limit; none typed: nothing is said.
    Remedy: Thicker wire in the leg that loses most; lamps that draw less; a shorter run.
    Hazard: Dim stop and turn lamps.
    Wrong:
        - {kind: lamp, function: stop-tail-turn, current: 2.7 A, qty: 2}
        - {kind: lamp, function: side marker, current: 0.33 A, qty: 4}
        - {kind: wire, gauge: 18 AWG, run: 24 ft, feeds: lamps}
    Right:
        - {kind: lamp, function: stop-tail-turn, current: 2.7 A, qty: 2}
        - {kind: lamp, function: side marker, current: 0.33 A, qty: 4}
        - {kind: wire, gauge: 14 AWG, run: 24 ft, feeds: lamps}
    """
    wires = lamp_wires(whole)
    lamps: list[Any] = list(whole.build.of_kind("lamp"))
    if not wires or not any(lamp.has("current") for lamp in lamps):
        return
    yield _volts(whole, lamps, wires)
    for wire in wires:
        if wire.has("returns") and wire.returns == "frame":
            yield _through_the_frame(wire)


def _volts(whole: Whole, lamps: list[Any], wires: list[Any]) -> Check:
    limits = whole.limits
    supply, share = limits.lamp_supply_voltage, limits.lamp_wire_drop.hi
    current = lamps_current(lamps, limits)
    lost = [volts_lost(whole, wire, current) for wire in wires]
    total = sum(lost, Interval(0.0, 0.0, "V"))
    need = supply * (1 - share)
    solid = at_least((supply - total).clipped(0.0), need)
    stranded = at_least((supply - total * (1 + limits.stranded_wire_more.hi)).clipped(0.0), need)
    check = solid if solid.truth is stranded.truth else stranded
    legs, named = legs_of(wires, lost)
    check.caution(
        "Of {supply} at the tow vehicle {have} reach the lamps: together they draw {current}, and "
        "{lost} V are lost on the way (" + legs + "). {need} are wanted, {by} more.",
        supply=supply, current=current, lost=digits(total), **named,
    )  # fmt: skip
    check.because(
        "Counted as if all were on at once, over one wire out and one back. A filament bulb dims faster than its "
        "volts drop."
    )
    check.fix(lambda: _remedies(whole, wires, lost, current, supply.lo * share)).danger(DIM)
    most = max(zip(lost, wires, strict=True), key=lambda pair: pair[0].hi)[1]
    return check.at(most, "gauge").about(*wires, *lamps)


def _remedies(
    whole: Whole, wires: list[Any], lost: list[Interval], current: Interval, allowed: float
) -> Iterator[Remedy]:
    yield from thicker(whole, wires, lost, current, allowed)
    more = 1 + whole.limits.stranded_wire_more.hi
    total = sum(volts.hi for volts in lost) * more
    if 0 < total < float("inf"):
        most = Interval.exact(current.hi * allowed / total, "A")
        yield Remedy(
            "or take lamps of diodes: all together may draw {target} on this wire", relation=AT_MOST,
            target=most,
        )  # fmt: skip


def _through_the_frame(wire: Any) -> Check:
    check = certainly().note(
        "The current of the {wire} comes back through the frame, whose volts nobody can count; a ground wire from "
        "each lamp to the plug spares the search for a bad screw later.", wire=wire,
    )  # fmt: skip
    return check.on_basis(GROUND).at(wire, "returns").about(wire)
