"""The circuit of the lamps: how many there are, what they draw, and through which wires."""

from __future__ import annotations

from partscheck.build.model import pieces
from partscheck.notation.interval import Interval

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.limits import Limits
    from partscheck.build.places import Whole

LAMP_CURRENT_READS = (
    "lamp.current", "lamp.position", "lamp.qty", "lamp.packs", "lamp.pack", "lamp.have",
)  # fmt: skip
A_PAIR = 2


def lamp_count(lamp: Any) -> int:
    """Pieces of a line: as counted; not counted: one where its position names a side, else a pair."""
    count = pieces(lamp)
    if count is not None:
        return count
    position = str(lamp.position) if lamp.has("position") else ""
    return 1 if position.startswith(("left", "right", "center")) else A_PAIR


def lamps_current(lamps: list[Any], limits: Limits) -> Interval:
    """Current of all of them together, A, all functions on; a lamp without one draws up to the practice limit."""
    total = Interval(0.0, 0.0, "A")
    for lamp in lamps:
        each: Interval = lamp.current
        if not lamp.has("current"):
            each = each.clipped(0.0, limits.lamp_current_most.hi)
        total = total + each * lamp_count(lamp)
    return total


def lamp_wires(whole: Whole) -> list[Any]:
    """The lines of wire, one after the other, that say that they feed lamps."""
    wires: list[Any] = list(whole.build.of_kind("wire"))
    return [wire for wire in wires if wire.has("feeds") and wire.feeds == "lamps"]
