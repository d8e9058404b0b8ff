"""How the bolts of one joint share its load: alike, or by their places and the point where the load acts.

``pattern`` and ``load_at`` give the elastic method in the plane; a pull along the bolts is taken to go
through the same point, and its moment is spread over the rows.  Without them the bolts share alike, which the
rule ``joint-eccentric`` asks about.
"""

from __future__ import annotations

import math
from itertools import product

from partscheck.formulas.bolt_group import (
    centroid,
    in_plane_forces,
    polar_sum,
    pull_shares,
    share_in_any_direction,
)
from partscheck.notation.interval import INF, Interval

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.joint_places import JointPlace

# What a rule reads that asks how the bolts share a load.
SHARE_READS = (
    "bolted_joint.bolts", "bolted_joint.pattern", "bolted_joint.load_at", "bolted_joint.direction",
)  # fmt: skip
ONE_PLACE = 1e-6  # mm; bolts closer than this stand in one place


class BoltShare:
    """Shares of one bolt in the joint's shear and pull, as plain numbers.

    ``number`` counts the bolts as ``pattern`` lists them, from 1, at ``spot`` (across, up) in mm; None where
    all bolts are taken alike.
    """

    __slots__ = ("number", "pull", "shear", "spot")

    def __init__(
        self,
        shear: Interval,
        pull: Interval,
        number: int | None = None,
        spot: tuple[float, float] | None = None,
    ) -> None:
        self.shear = shear
        self.pull = pull
        self.number = number
        self.spot = spot


def placed(place: JointPlace) -> bool:
    """True when the list says where the bolts stand and where the load acts."""
    return bool(place.joint.has("pattern") and place.joint.has("load_at"))


def even_share(place: JointPlace) -> Interval:
    """The share of each bolt where all carry alike."""
    count = place.count
    return Interval(0.0 if count.hi == INF else 1 / count.hi, 1 / count.lo)


def bolt_shares(place: JointPlace) -> list[BoltShare]:
    """One share for each bolt of the pattern; a single one where the bolts are taken alike."""
    if not placed(place):
        even = even_share(place)
        return [BoltShare(even, even)]
    return placed_shares(bolts_at(place), place.joint.load_at, direction_of(place.joint))


def placed_shares(
    spots: list[tuple[float, float]], at: tuple[Interval, Interval], direction: tuple[float, float] | None
) -> list[BoltShare]:
    """Elastic method at every corner of where the load may act; ``direction`` None: any."""
    corners = sorted({*product((at[0].lo, at[0].hi), (at[1].lo, at[1].hi))})
    shear = [_shear_shares(spots, corner, direction) for corner in corners]
    pull = [pull_shares(spots, corner) for corner in corners]
    return [
        BoltShare(
            Interval(min(one[index][0] for one in shear), max(one[index][1] for one in shear)),
            Interval(min(one[index] for one in pull), max(one[index] for one in pull)).clipped(0.0),
            index + 1,
            spot,
        )
        for index, spot in enumerate(spots)
    ]


def worst_of(shares: list[BoltShare], part: str) -> BoltShare:
    """The bolt that takes most of the ``shear`` or of the ``pull``."""
    return max(shares, key=lambda one: getattr(one, part).hi * (1 - 1e-9 * (one.number or 0)))


def bolts_at(place: JointPlace) -> list[tuple[float, float]]:
    """Centres of the bolts, mm."""
    return [(across.mid, up.mid) for across, up in place.joint.pattern]


def off_centre(place: JointPlace) -> float:
    """How far beside the middle of the bolts the load acts at most, mm, across its direction where known."""
    middle = centroid(bolts_at(place))
    across, up = place.joint.load_at
    direction = direction_of(place.joint)
    far = 0.0
    for x, y in product((across.lo, across.hi), (up.lo, up.hi)):
        dx, dy = x - middle[0], y - middle[1]
        aside = math.hypot(dx, dy) if direction is None else abs(dx * direction[1] - dy * direction[0])
        far = max(far, aside)
    return far


def _shear_shares(
    spots: list[tuple[float, float]], at: tuple[float, float], direction: tuple[float, float] | None
) -> list[tuple[float, float]]:
    even = 1 / len(spots)
    if len(spots) == 1:
        return [(1.0, 1.0)]
    if polar_sum(spots) <= ONE_PLACE:  # all in one place: nothing keeps the joint from turning
        return [(even, INF)] * len(spots)
    if direction is None:
        return share_in_any_direction(spots, at)
    return [(size := math.hypot(*force), size) for force in in_plane_forces(spots, direction, at)]


def direction_of(joint: Any) -> tuple[float, float] | None:
    """The load's direction as a unit vector; None where it is not typed (or is no direction)."""
    typed = joint.direction  # not typed: asks for it
    if not typed:
        return None
    x, y = (one.mid for one in typed)
    size = math.hypot(x, y)
    return (x / size, y / size) if size else None
