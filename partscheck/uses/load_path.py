"""The load path from tire to tow vehicle: what each part may carry, and what it has to.

Ratings are static; a share is what stands on the part, or hangs on it, at rest in its own worst case.
Parts that have no rating come last: what they may carry is not known.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from partscheck.build.case_loads import axle_in_case, corner_in_case, known_cases
from partscheck.build.load_cases import is_full_trailer
from partscheck.build.places import AxlePlace
from partscheck.build.rear_load import allowed, carried, own_weight
from partscheck.build.tow_links import (
    GROSS,
    TONGUE,
    UNBRAKED,
    VEHICLE,
    Link,
    by_d_value,
    links,
    tongue_known,
    worst_gross,
    worst_tongue,
)
from partscheck.build.tow_places import RearRack, TowChain
from partscheck.build.weights import case_of, shock_factor
from partscheck.build.wheel_data import load_on_trailer, rating_each
from partscheck.notation.interval import INF, Interval, least_of
from partscheck.rules.message import name_of

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.places import WheelEnd
    from partscheck.build.weights import Weights
    from partscheck.engine import Result

CORNER, AXLE, RACK = "corner", "axle", "rack"  # with GROSS and TONGUE: what a rating is of
REAR = "rear-receiver"

# Roles of a wheel end that carry its corner, from the road upwards.
CORNER_ROLES = ("tire", "wheel", "hub", "spindle", "suspension-arm", "leaf-spring")


class LoadPathRow:
    """One part in the load path.

    ``part`` (the tow vehicle too) and its ``role``; ``at`` its places; ``of`` what the rating is of:
    corner, axle, gross, tongue, or rack (at the rear); ``rating`` (of one piece; a passenger car tire's as
    it counts on a trailer), ``share`` and ``margin`` in N, unknown ones as wide as they are; ``case`` the
    load case that the share comes from ("": the declared weight), ``cases`` the share in each case;
    ``limits_gross_weight_to`` the gross weight at which the margin is zero, tongue and side shares
    staying, or None when the rating is not known or has nothing to do with it.
    """

    __slots__ = (
        "at", "case", "cases", "limits_gross_weight_to", "margin", "of", "part", "rating", "role", "share",
    )  # fmt: skip

    def __init__(
        self,
        part: Any,
        role: str,
        at: tuple[str, ...],
        rating: Interval,
        share: Interval,
        limits_gross_weight_to: Interval | None,
        of: str = CORNER,
        case: str = "",
        cases: dict[str, Interval] | None = None,
    ) -> None:
        self.part = part
        self.role = role
        self.at = at
        self.rating = rating
        self.share = share
        self.margin = rating - share if rating.known else Interval.unknown("N", -INF)
        self.limits_gross_weight_to = limits_gross_weight_to
        self.of = of
        self.case = case
        self.cases = cases or {}

    @property
    def name(self) -> str:
        """The part in a sentence: "hub", "hitch receiver", "tow vehicle"."""
        if self.role in (VEHICLE, UNBRAKED):
            return "tow vehicle" if self.role == VEHICLE else "tow vehicle (unbraked)"
        return name_of(self.part)

    @property
    def label(self) -> str:
        """The name, with what the rating is of where a part may have two: "coupler, tongue"."""
        if self.of == GROSS and self.role in ("coupler", "ball") and by_d_value(self.part):
            return f"{self.name}, D-value"
        return f"{self.name}, {self.of}" if self.of in (GROSS, TONGUE) or self.role == REAR else self.name

    @property
    def known(self) -> bool:
        """True when the part's rating is known."""
        return self.rating.known

    def __repr__(self) -> str:
        return f"<{self.role} {self.part.id} at {', '.join(self.at)}: margin {self.margin}>"


def load_path(result: Result) -> list[LoadPathRow]:
    """Every part that carries the weight, smallest margin first, unknown ratings last.

    A part without a rating is left out where the list speaks of no weights at all.
    """
    given = result.fit.weights.given
    rows: dict[Any, LoadPathRow] = {}
    for carrier in CARRIERS:
        for row in carrier(result):
            if row.known or given:
                _add(rows, row)
    return sorted(rows.values(), key=_order)


def supported_gross(rows: list[LoadPathRow]) -> tuple[Interval | None, Any]:
    """(gross weight in N that the set as a whole supports, the part that limits it).

    (None, None) when no rating is known.  Where a row's rating is not known the set may support less.
    """
    limits = [
        (row.limits_gross_weight_to, row.part) for row in rows if row.limits_gross_weight_to is not None
    ]
    if not limits:
        return None, None
    least = least_of(limits[0][0], *(limit for limit, _ in limits[1:]))
    return least, min(limits, key=lambda one: (one[0].lo, one[0].hi))[1]


def wheel_end_parts(result: Result) -> Iterator[LoadPathRow]:
    """What sits at a wheel: tire, wheel, plates, hub, spindle, arm, spring."""
    for end in result.fit.ends:
        weights = end.weights
        known = known_cases(weights)
        for role, part in _carrying(end):
            rating = load_on_trailer(part, end) if role == "tire" else rating_each(part)
            for places, share in weights.place_loads(end):
                cases = {case.name: corner_in_case(weights, end, places, case) for case in known}
                yield _row(weights, part, role, places, rating, share, cases)


def axles(result: Result) -> Iterator[LoadPathRow]:
    """The axles themselves, each with all that stands on it."""
    for place in result.fit.bindings(AxlePlace):
        if place.axle is not None:
            weights, rating = place.weights, rating_each(place.axle)
            cases = {case.name: axle_in_case(weights, case) for case in known_cases(weights)}
            yield _row(weights, place.axle, "axle", place.at, rating, place.load, cases, of=AXLE)


def towing_chain(result: Result) -> Iterator[LoadPathRow]:
    """Coupler, ball, ball mount, receiver, tow vehicle: the gross weight on each, then the tongue weight.

    With the tongue weight not known there is nothing to hold a tongue rating against.
    """
    for chain in result.fit.bindings(TowChain):
        for link in links(chain):
            if link.of == GROSS or (tongue_known(chain.weights) and not is_full_trailer(chain.build)):
                yield _link_row(chain.weights, link)


def _link_row(weights: Weights, link: Link) -> LoadPathRow:
    worst = worst_gross(weights) if link.of == GROSS else worst_tongue(weights)
    cases = {
        case.name: case.total if link.of == GROSS else case.tongue.clipped(0.0) for case in known_cases(weights)
    }
    limit = None
    if link.rating.known:
        limit = link.rating if link.of == GROSS else _tongue_limit(weights, link.rating, worst.load, worst.case)
    return LoadPathRow(link.record, link.role, (), link.rating, worst.load, limit, link.of, worst.case, cases)


def _tongue_limit(weights: Weights, rating: Interval, tongue: Interval, case: str) -> Interval | None:
    """Gross weight at which the tongue weight of its worst case would be the rating."""
    totals = [one.total for one in weights.cases() if case and one.name == case]
    total = totals[0] if totals else weights.whole()
    return grown_to(rating, tongue, total)


def rear_rack(result: Result) -> Iterator[LoadPathRow]:
    """The receiver at the trailer's rear with the rack in it, road shock counted, and the rack with its load."""
    for place in result.fit.bindings(RearRack):
        rack, receiver = place.rack, place.receiver
        if rack is None:
            continue
        if receiver is not None and receiver.has("tongue_rating"):
            rating = allowed(place) / shock_factor(place.build)
            load = own_weight(rack) + carried(rack)
            yield LoadPathRow(receiver, REAR, (), rating, load, None, RACK)
        if rack.has("rating") and rack.has("weight_carried"):
            yield LoadPathRow(rack, "rack", (), rack.rating, rack.weight_carried, None, RACK)


# What carries the weight, one function for each group of parts; each yields the rows of its group.
CARRIERS: list[Callable[[Any], Iterator[LoadPathRow]]] = [wheel_end_parts, axles, towing_chain, rear_rack]


def weakest_links(rows: list[LoadPathRow], of: str) -> list[LoadPathRow]:
    """The link of the towing chain with the least rating for gross or tongue weight; all that share it."""
    rated = [row for row in rows if row.of == of and row.known]
    least = min((row.rating.lo for row in rated), default=0.0)
    return [row for row in rated if row.rating.lo <= least]


def grown_to(rating: Interval, share: Interval, total: Interval) -> Interval | None:
    """The whole weight, N, at which a share that grows with it comes to the rating; None: never, or not known."""
    if not (share.known and total.known) or share.lo <= 0 or total.lo <= 0:
        return None
    ends = (share.lo / total.lo, share.hi / total.hi)
    return (rating / Interval(min(ends), max(ends))).with_unit("N")


def _carrying(end: WheelEnd) -> Iterator[tuple[str, Any]]:
    for role in CORNER_ROLES:
        part = end.part(role)
        if part is not None:
            yield role, part
        if role == "wheel":
            yield from (("adapter", plate) for plate in end.plates if plate.kind == "adapter")


def _row(
    weights: Weights,
    part: Any,
    role: str,
    at: tuple[str, ...],
    rating: Interval,
    share: Interval,
    cases: dict[str, Interval],
    of: str = CORNER,
) -> LoadPathRow:
    limit = weights.gross_at(rating, share, of == AXLE) if rating.known else None
    return LoadPathRow(part, role, at, rating, share, limit, of, case_of(share), cases)


def _add(rows: dict[Any, LoadPathRow], row: LoadPathRow) -> None:
    """The same part under the same share at other places is one row."""
    key = (row.part.id, row.role, row.of, row.share.lo, row.share.hi)
    first = rows.setdefault(key, row)
    if first is not row:
        first.at = tuple(dict.fromkeys((*first.at, *row.at)))


def _order(row: LoadPathRow) -> tuple[bool, float, float]:
    """Known ratings first; then by margin, and where no weight is given, by the gross weight it allows."""
    limit = row.limits_gross_weight_to
    return not row.known, row.margin.lo if row.known else 0.0, limit.lo if limit is not None else 0.0
