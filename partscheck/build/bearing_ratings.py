"""Ratings and factors of the wheel bearings: typed from the maker's sheet, else as a table carries them."""

from __future__ import annotations

from partscheck.build.bearing_data import METRIC, cone_number, cone_part, cone_row, exactly, metric_row
from partscheck.formulas.bearing import y_from_e
from partscheck.formulas.bearing_life import rating_for_turns
from partscheck.notation.interval import Interval

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.places import WheelEnd

MILLION = 1e6
INCH_TURNS = 90e6  # what inch data sheets often rate for
E_TIMES_Y = 0.6  # of every single tapered bearing (``formulas.bearing.y_from_e``)
K_TO_Y = 0.400 / 0.389  # K = 0.389 cot a of inch data sheets, Y = 0.4 cot a (recalled)
LEAST_FACTOR, MOST_E = 0.05, 1.4  # beyond these a factor is a slip of the pen
STEEP = "B"  # suffix of a metric bearing with a steeper angle than its table's

FACTOR_READS = (
    "bearing.designation", "bearing.cone", "bearing.e_factor", "bearing.y_factor", "practice.taper_y_least",
    "practice.taper_y_most",
)  # fmt: skip
RATING_READS = ("bearing.dynamic_rating", "bearing.rating_turns")


class Rating:
    """A basic dynamic radial load rating.

    ``given`` as the sheet has it, N, for ``turns``; ``value`` for one million turns, N (a range where
    the turns are not known).  ``converted``: the sheet's is for other turns.  ``known``: there is one.
    """

    __slots__ = ("given", "turns", "value")

    def __init__(self, given: Interval, turns: Interval, value: Interval) -> None:
        self.given = given
        self.turns = turns
        self.value = value

    @property
    def known(self) -> bool:
        return self.given.known

    @property
    def converted(self) -> bool:
        return self.known and self.turns.is_exact and self.turns.lo != MILLION


def rating_begun(end: WheelEnd, place: str) -> bool:
    """Whether a rating stands on the list or in a table for this bearing."""
    part = cone_part(end, place)
    if part is None:
        return False
    return part.has("dynamic_rating") or bool((_row(end, part) or {}).get("dynamic_rating_n"))


def dynamic_rating(end: WheelEnd, place: str) -> Rating:
    """C of one bearing of a wheel end."""
    part = cone_part(end, place)
    row = None if part.has("dynamic_rating") else _row(end, part)
    if row is not None and row.get("dynamic_rating_n"):
        given: Interval = exactly(row["dynamic_rating_n"], "N")
        turns = Interval.exact(row["rating_turns"])
    else:
        given, turns = part.dynamic_rating, part.rating_turns
    if not given.known:
        return Rating(given, turns, Interval.unknown("N"))
    # Not said: for a million turns, or for the ninety million of inch sheets.
    span = turns if turns.known else Interval(MILLION, INCH_TURNS)
    ends = [rating_for_turns(given.lo, span.lo), rating_for_turns(given.hi, span.hi)]
    return Rating(given, turns, Interval(min(ends), max(ends), "N"))


def y_factor(end: WheelEnd, place: str) -> Interval:
    """Factor Y: typed, else from e, else from a table; else anything that tapered bearings have."""
    part = cone_part(end, place)
    if part is not None and part.has("y_factor"):
        return part.y_factor.bare().clipped(LEAST_FACTOR)  # type: ignore[no-any-return]
    if part is not None and part.has("e_factor"):
        e: Interval = part.e_factor.clipped(LEAST_FACTOR, MOST_E)
        return Interval(y_from_e(e.hi), y_from_e(e.lo))
    row = None if part is None else _row(end, part)
    if row is not None and row.get("k_factor"):
        return Interval.exact(row["k_factor"] * K_TO_Y)
    if row is not None and row.get("y_factor") and not _is_steep(cone_number(part)):
        return Interval.exact(row["y_factor"])
    least, most = end.limits.taper_y_least.hi, end.limits.taper_y_most.hi
    usual = Interval(min(least, most), max(least, most))
    return usual if part is None else part.y_factor.bare().clipped(usual.lo, usual.hi)


def e_typed(end: WheelEnd, place: str) -> float:
    """Factor e as typed, or 0: then it goes with Y."""
    part = cone_part(end, place)
    if part is not None and part.has("e_factor"):
        return float(part.e_factor.clipped(LEAST_FACTOR, MOST_E).mid)
    return 0.0


def e_from_y(y: float) -> float:
    """Factor e that goes with ``y``."""
    return E_TIMES_Y / y


def static_rating(end: WheelEnd, place: str) -> Interval:
    """C0, N: typed, else as a table of the user's own carries it."""
    part = cone_part(end, place)
    row = None if part.has("static_rating") else _row(end, part)
    if row is not None and row.get("static_rating_n"):
        return Interval.exact(row["static_rating_n"], "N")
    return part.static_rating  # type: ignore[no-any-return]


def _row(end: WheelEnd, part: Any) -> dict[str, Any] | None:
    number = cone_number(part)
    return cone_row(end, number) or metric_row(end, number)


def _is_steep(number: str) -> bool:
    found = METRIC.fullmatch(number)
    return found is not None and (found[3] or "").startswith(STEEP)

