"""What scale readings, with and without the tow vehicle, say of gross, axle and tongue weight.

Readings are of sums: unhitched the trailer stands on wheels and jack, so all of it shows; hitched, its
wheels show what the axles carry, and the tow vehicle shows what the tongue adds to it.  Every way to
each weight is worked out; where two ways do not agree, both are kept.
"""

from __future__ import annotations

from partscheck.notation.interval import INF, Interval, Quantity

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.model import Build

SCALE_READS = (
    "service.scale", "scale.whole_trailer", "scale.axles_hitched", "scale.tow_vehicle_hitched",
    "scale.tow_vehicle_alone", "scale.all_hitched", "scale.case", "practice.scale_rounding",
)  # fmt: skip

WHOLE, HITCHED = "whole_trailer", "axles_hitched"
PULLING, ALONE, ALL = "tow_vehicle_hitched", "tow_vehicle_alone", "all_hitched"

# Each weight as sums and differences of readings: (readings added, readings taken off).
GROSS_WAYS = (((WHOLE,), ()), ((ALL,), (ALONE,)), ((HITCHED, PULLING), (ALONE,)))
AXLE_WAYS = (((HITCHED,), ()), ((ALL,), (PULLING,)), ((WHOLE, ALONE), (PULLING,)))
TONGUE_WAYS = (((PULLING,), (ALONE,)), ((WHOLE,), (HITCHED,)), ((ALL,), (ALONE, HITCHED)))


class Way:
    """One way to a weight: ``value`` in N, ``added`` and ``taken`` the names of its readings."""

    __slots__ = ("added", "taken", "value")

    def __init__(self, value: Interval, added: tuple[str, ...], taken: tuple[str, ...]) -> None:
        self.value = value
        self.added = added
        self.taken = taken

    @property
    def words(self) -> str:
        """ "tow vehicle hitched less tow vehicle alone"."""
        taken = "".join(f" less {name.replace('_', ' ')}" for name in self.taken)
        return " and ".join(name.replace("_", " ") for name in self.added) + taken

    def __repr__(self) -> str:
        return f"<{self.words}: {self.value}>"


class Readings:
    """``gross``, ``axles`` and ``tongue`` in N, unknown where no readings give them; ``case`` the load case
    that was weighed ("": the trailer as declared); ``ways`` maps "gross", "axles" and "tongue" to all
    ways that the readings give.

    Ways that agree narrow each other; of ways that do not, the weight is the whole span.
    """

    def __init__(self, build: Build) -> None:
        self.record: Any = build.service.scale if build.service.has("scale") else None
        self._values = _values(build, self.record)
        self.ways = {
            "gross": self._ways(GROSS_WAYS), "axles": self._ways(AXLE_WAYS), "tongue": self._ways(TONGUE_WAYS),
        }  # fmt: skip
        self.gross, self.axles, self.tongue = (_together(ways) for ways in self.ways.values())
        self.case: str = self.record.case if self.record is not None and self.record.has("case") else ""

    def __bool__(self) -> bool:
        """True when they give a weight of the trailer."""
        return any(self.ways.values())

    @property
    def at_odds(self) -> list[tuple[str, Way, Way]]:
        """("gross", "axles" or "tongue", one way, another that does not agree with it)."""
        return [
            (name, one, other)
            for name, ways in self.ways.items()
            for place, one in enumerate(ways)
            for other in ways[place + 1 :]
            if one.value.hi < other.value.lo or other.value.hi < one.value.lo
        ]

    def _ways(self, sums: Any) -> list[Way]:
        return [
            Way(self._sum(added, taken), added, taken)
            for added, taken in sums
            if all(name in self._values for name in (*added, *taken))
        ]

    def _sum(self, added: tuple[str, ...], taken: tuple[str, ...]) -> Interval:
        total = Interval(0.0, 0.0, "N")
        for name in added:
            total = total + self._values[name]
        for name in taken:
            total = total - self._values[name]
        return total


def _values(build: Build, record: Any) -> dict[str, Interval]:
    """Each reading that was typed, N; one without a tolerance is off by what the scale rounds."""
    if record is None:
        return {}
    found = {}
    for name in (WHOLE, HITCHED, PULLING, ALONE, ALL):
        if record.has(name):
            value = getattr(record, name)
            rounded = isinstance(value, Quantity) and not value.toleranced
            found[name] = value.widened(build.limits.scale_rounding.hi).clipped(0.0) if rounded else value
    return found


def _together(ways: list[Way]) -> Interval:
    """What all ways allow; where they do not agree, from the least to the most of them."""
    if not ways:
        return Interval(0.0, INF, "N")
    lo, hi = max(way.value.lo for way in ways), min(way.value.hi for way in ways)
    if lo > hi:
        lo, hi = min(way.value.lo for way in ways), max(way.value.hi for way in ways)
    return Interval(lo, hi, "N")
