"""Needs that come by mass or length: tubes of grease, spools of wire (estimates, common practice)."""

from __future__ import annotations

import math

from partscheck.build.lamp_places import SEVERAL
from partscheck.build.model import pieces
from partscheck.build.needs import Need
from partscheck.build.places import Whole
from partscheck.formulas.grease import packs_needed
from partscheck.notation.interval import INF
from partscheck.rules.grease import GRAMS_PER_OUNCE, for_hubs, grease_needed

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.engine import Result
    from partscheck.notation.interval import Interval

MM_PER_FOOT = 304.8


def amount_needs(result: Result) -> dict[str, Need]:
    """By the id of a line: how many tubes or spools the build takes, and why."""
    return {**_grease(result), **_wire(result)}


def whole_of(result: Result) -> Whole:
    return Whole(result.build, result.fit.weights)


def grease_lines(result: Result) -> list[Any]:
    """Lines of grease that may go into a hub."""
    whole = whole_of(result)
    return [line for line in result.build.of_kind("grease") if for_hubs(whole, line)]


def grease_words(need: Interval) -> str:
    """ "about 103 g (3.6 oz)": kilograms are too coarse for a tube."""
    return f"about {need.hi * 1000:.0f} g ({need.hi * 1000 / GRAMS_PER_OUNCE:.1f} oz)"


def _grease(result: Result) -> dict[str, Need]:
    """The first line of hub grease with an amount carries the need."""
    need = grease_needed(whole_of(result))
    sized = [line for line in grease_lines(result) if line.has("amount") and line.amount.lo > 0]
    if need is None or need.hi == INF or not sized:
        return {}
    if len(sized) > 1:
        return {}  # which of them goes in is not said
    tubes = packs_needed(need.hi, sized[0].amount.lo)
    return {sized[0].id: Need(tubes, f"{grease_words(need)} in all hubs, an estimate to 30 %")}


LIT_WITH_TAIL = ("tail", "license plate", "side marker", "clearance", "identification", *SEVERAL)
SIDED = ("turn", *SEVERAL)  # left and right each by a wire of its own
OWN_WIRE = ("stop", "reverse", "fog")


def lamp_circuits(result: Result) -> list[str]:
    """Wires that the lamps of the list take beside the ground, by name; without functions, those of four pins."""
    typed: list[Any] = list(result.build.of_kind("lamp"))
    shown = {str(lamp.function) for lamp in typed if lamp.has("function")}
    found = ["tail and markers"] if shown & {*LIT_WITH_TAIL} or not shown else []
    found += ["left", "right"] if shown & {*SIDED} or not shown else []
    return found + [name for name in OWN_WIRE if name in shown]


def conductors(wire: Any, result: Result) -> int:
    """Ways of copper along the run: what it feeds, and back, unless the frame returns the current."""
    lamps = wire.has("feeds") and wire.feeds == "lamps"
    there = len(lamp_circuits(result)) if lamps else 1
    return there if wire.has("returns") and wire.returns == "frame" else there + 1


def _far(length: float, typed: Any) -> str:
    """A length of wire, mm, as it is sold: in feet where the run was typed in inches or feet."""
    feet, metres = f"{length / MM_PER_FOOT:.0f} ft", f"{length / 1000:.1f} m"
    return f"{feet} ({metres})" if typed.system == "inch" else f"{metres} ({feet})"


def _wire(result: Result) -> dict[str, Need]:
    """Spools of single wire; where what is bought is too short for that and long enough for a cable with all
    its conductors, a cable it is.
    """
    found = {}
    slack = result.build.limits.wire_slack
    for wire in result.build.of_kind("wire"):
        line: Any = wire
        if not (line.has("run") and line.has("length")) or line.run.hi == INF or line.length.lo <= 0:
            continue
        ways = conductors(line, result)
        cable = line.run.hi * (1 + slack.hi)
        spool = line.length.lo * (pieces(wire) or 1) if line.has("qty") or line.has("packs") else line.length.lo
        single = cable * ways
        as_cable = ways > 1 and cable <= spool < single
        words = f"about {_far(single, line.run)} of single wire, {ways} x its run and {slack.hi * 100:.0f} % more"
        if ways > 1:
            words += f", or {_far(cable, line.run)} of cable with {ways} conductors"
        words += "; an estimate" + (", counted as such a cable" if as_cable else "")
        needed = cable if as_cable else single
        found[wire.id] = Need(math.ceil(needed / line.length.lo - 1e-9), words)
    return found
