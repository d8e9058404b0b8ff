"""Needs that come by mass or length: tubes of grease, spools of wire (estimates, common practice)."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from partscheck.build.needs import Need
from partscheck.build.places import Whole
from partscheck.formulas.grease import packs_needed
from partscheck.notation.interval import INF
from partscheck.rules.grease import GRAMS_PER_OUNCE, for_hubs, grease_needed

if TYPE_CHECKING:
    from partscheck.engine import Result
    from partscheck.notation.interval import Interval

MM_PER_FOOT = 304.8


def amount_needs(result: Result) -> dict[str, Need]:
    """By the id of a line: how many tubes or spools the build takes, and why."""
    return {**_grease(result), **_wire(result)}


def whole_of(result: Result) -> Whole:
    return Whole(result.build, result.fit.weights, result.fit)


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


def conductors(wire: Any) -> int:
    """Ways of copper along the run: there and back, or there alone where the frame returns the current."""
    return 1 if wire.has("returns") and wire.returns == "frame" else 2


def _far(length: float, typed: Any) -> str:
    """A length of wire, mm, as it is sold: in feet where the run was typed in inches or feet."""
    feet, metres = f"{length / MM_PER_FOOT:.0f} ft", f"{length / 1000:.1f} m"
    return f"{feet} ({metres})" if typed.system == "inch" else f"{metres} ({feet})"


def _wire(result: Result) -> dict[str, Need]:
    found = {}
    slack = result.build.limits.wire_slack
    for wire in result.build.of_kind("wire"):
        line: Any = wire
        if not (line.has("run") and line.has("length")) or line.run.hi == INF or line.length.lo <= 0:
            continue
        need = line.run * float(conductors(line)) * (1 + slack.hi)
        words = (
            f"about {_far(need.hi, line.run)} of single wire, an estimate: {conductors(line)} x its run and "
            f"{slack.hi * 100:.0f} % more"
        )
        found[wire.id] = Need(math.ceil(need.hi / line.length.lo - 1e-9), words)
    return found
