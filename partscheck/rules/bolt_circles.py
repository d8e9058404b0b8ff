"""Bolt circles and pilots: do the faces of a wheel end go together at all."""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build.places import Seat
from partscheck.rules.basis import practice
from partscheck.rules.check import Check, Remedy, all_of, equal_within, same
from partscheck.rules.registry import rule
from partscheck.rules.targets import a_kind

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

NEAR_MISS = 5.0  # mm; circles nearer than this are taken for one another on a bench
WHEEL_OFF = (
    "A wheel on the wrong circle pulls its studs out of line, works loose and comes off. "
    "Follow the part makers' instructions and local codes."
)


@rule(
    "bolt-circle-mismatch",
    on=Seat,
    reads=[
        "hub.bolt_circle", "adapter.hub_circle", "adapter.wheel_circle", "spacer.bolt_circle",
        "wheel.bolt_circle", "practice.bolt_circle_tolerance",
    ],
    basis=practice("lug count equal and circles alike within the shop's tolerance"),
)  # fmt: skip
def bolt_circle_mismatch(seat: Seat) -> Check:
    """Where two faces meet, their lug count and bolt circle are the same.

    Why: A circle that is nearly right goes on by force: each stud is bent, the nut seats on one side.
    Formula: count equal, and |D1 - D2| at most the practice limit; each stud is off by half the
        difference. From a chord: D = chord / sin(180 deg / n).
    Remedy: Another part with the right circle, or an adapter between the two.
    Hazard: The wheel can come off.
    Wrong:
        - {kind: hub, bolt_circle: 5 x 4.5 in}
        - {kind: wheel, bolt_circle: 5 x 115 mm}
    Right:
        - {kind: hub, bolt_circle: 5 x 4.5 in}
        - {kind: wheel, bolt_circle: 5 x 114.3 mm}
    """
    inner, outer = seat.inner_circle, seat.outer_circle
    counts = same(_equal_counts(inner.count, outer.count), inner, outer)
    circles = equal_within(inner.diameter, outer.diameter, seat.limits.bolt_circle_tolerance.hi)
    check = counts if counts.fails else all_of(counts, circles)  # with other counts no amount tells how near
    return (
        check.stop(
            _words(inner, outer),
            one=seat.inner, one_circle=inner, other=seat.outer, other_circle=outer,
            off=abs(inner.diameter - outer.diameter) * 0.5,
        )
        .at(seat.outer, seat.outer_circle_field)
        .fix(lambda: _remedies(seat))
        .danger(WHEEL_OFF)
    )  # fmt: skip


def _words(inner: Any, outer: Any) -> str:
    words = "The {one} has {one_circle}, the {other} is drilled {other_circle}: "
    if None not in (inner.count, outer.count) and inner.count != outer.count:
        return words + "the lug counts differ."
    if abs(inner.diameter - outer.diameter).lo > NEAR_MISS:
        return words + "that is another circle, each hole would stand {off} from its stud."
    return words + "a near miss is no fit, each stud would stand {off} off."


def _equal_counts(one: int | None, other: int | None) -> bool | None:
    return None if one is None or other is None else one == other


def _remedies(seat: Seat) -> Iterator[Remedy]:
    inner, outer = seat.inner, seat.outer
    yield Remedy(
        "get {a_part} drilled {target}",
        field=f"{outer.id}.{seat.outer_circle_field}", relation="equal to", target=seat.inner_circle,
        a_part=a_kind(outer),
    )  # fmt: skip
    if inner.kind == "adapter":
        yield Remedy(
            "or an adapter with studs on {target}",
            field=f"{inner.id}.wheel_circle", relation="equal to", target=seat.outer_circle,
        )  # fmt: skip
    elif outer.kind == "wheel" and inner.kind == "hub":
        yield Remedy(
            "or put an adapter {one_circle} to {other_circle} between them, and check it here first",
            operation="add",
        )
