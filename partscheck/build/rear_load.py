"""What hangs on a receiver at the trailer's rear, and what that receiver may carry so far out."""

from __future__ import annotations

from partscheck.formulas.rear import load_at_arm
from partscheck.notation.interval import Interval

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.tow_places import RearRack

GRAVITY = 9.80665  # m/s2: kg to N
RACK_READS = ("rack.weight", "rack.weight_carried", "rack.rating")
ALLOWED_READS = ("receiver.tongue_rating", "rack.beyond_pin", "practice.receiver_rated_arm")


def own_weight(rack: Any) -> Interval:
    """The rack itself, N."""
    return (rack.weight * GRAVITY).with_unit("N")  # type: ignore[no-any-return]


def carried(rack: Any) -> Interval:
    """What is put on it, N; not typed: up to what it may carry."""
    load: Interval = rack.weight_carried
    if rack.has("weight_carried") or not rack.has("rating"):
        return load
    return Interval(0.0, rack.rating.hi, "N")


def allowed(place: RearRack) -> Interval:
    """What the rear receiver may carry at the rack's arm, N: its tongue rating, less where the arm is longer
    than the one that the rating is taken to be for.
    """
    rating, arm = place.receiver.tongue_rating, place.rack.beyond_pin
    rated_arm = place.limits.receiver_rated_arm
    return Interval(
        load_at_arm(rating.lo, rated_arm.lo, arm.hi), load_at_arm(rating.hi, rated_arm.hi, arm.lo), "N"
    )
