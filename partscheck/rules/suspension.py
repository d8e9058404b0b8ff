"""Suspension: bolt-on spindles, arms and springs of equal rating, and independent arms in tandem."""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build.places import AxlePlace, WheelEnd, Whole
from partscheck.build.weights import CORNER_LOAD_READS
from partscheck.build.wheel_data import rating_each
from partscheck.notation.interval import Interval
from partscheck.rules.basis import practice
from partscheck.rules.check import Check, Remedy, all_of, at_least, at_most, certainly, equal_within, same
from partscheck.rules.less_weight import less_on_it
from partscheck.rules.message import Least
from partscheck.rules.registry import rule
from partscheck.rules.targets import a_kind

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

SPINDLE_LOOSE = (
    "A spindle held by part of its bolts breaks off with the wheel. Follow the maker's instructions; welding of "
    "axles and spindles is work for a licensed shop."
)
ARM_OVERLOADED = (
    "An overloaded arm settles onto its stop and tears at its mounting. Follow the arm maker's instructions and "
    "local codes."
)
LEANS = "A trailer that leans steers to one side and wears its tires."
ROLES = ("suspension-arm", "leaf-spring")


# ---- a spindle on its flange ------------------------------------------------------------------------


@rule(
    "axle-flange-to-spindle",
    on=WheelEnd,
    reads=[
        "spindle.mount_flange", "spindle.brake_flange", "axle.spindle_flange", "axle.brake_flange",
        "suspension-arm.spindle_flange", "suspension-arm.brake_flange", "practice.brake_flange_tolerance",
    ],
    basis=practice("two flanges that are bolted together have the same bolts on the same circle"),
)  # fmt: skip
def axle_flange_to_spindle(end: WheelEnd) -> Check | None:
    """A bolt-on spindle has the same bolts on the same circle as the axle or arm that carries it.

    Why: The spindle carries the wheel on one end only: every bolt of its flange is needed.
    Formula: number of bolts equal, and |D1 - D2| at most the practice limit. Looked at where both flanges are
        typed, or one of mount_flange and spindle_flange: a spindle that is welded in has none.
    Remedy: A spindle for this flange, or arms for this spindle.
    Hazard: The spindle breaks off with the wheel.
    Wrong:
        - {kind: suspension-arm, spindle_flange: 4 x 3.5 in}
        - {kind: spindle, mount_flange: 4 x 3.25 in}
    Right:
        - {kind: suspension-arm, spindle_flange: 4 x 3.5 in}
        - {kind: spindle, mount_flange: 4 x 3.5 in}
    """
    spindle = end.part("spindle")
    carrier = end.part("suspension-arm") or end.part("axle")
    if spindle is None or carrier is None:
        return None
    one_field = "spindle_flange" if carrier.has("spindle_flange") else "brake_flange"
    other_field = "mount_flange" if spindle.has("mount_flange") else "brake_flange"
    said = [carrier.has("spindle_flange"), spindle.has("mount_flange")]
    if not any(said):
        if not (carrier.has("brake_flange") and spindle.has("brake_flange")):
            return None
    else:  # one of them is spoken of: the other is asked for under its own name
        one_field = one_field if carrier.has(one_field) else "spindle_flange"
        other_field = other_field if spindle.has(other_field) else "mount_flange"
    one, other = getattr(carrier, one_field), getattr(spindle, other_field)
    counts = same(None if None in (one.count, other.count) else one.count == other.count, one, other)
    circles = equal_within(one.diameter, other.diameter, end.limits.brake_flange_tolerance.hi)
    differ = "the number of bolts differs" if counts.fails else "each bolt would stand {off} off"
    return (
        all_of(counts, circles)
        .stop(
            "The flange of the {carrier} is drilled {one}, that of the {spindle} {other}: " + differ + ".",
            carrier=carrier, one=one, spindle=spindle, other=other,
            off=abs(one.diameter - other.diameter) * 0.5,
        )
        .because("The spindle carries the wheel on one end only: every bolt is needed.")
        .fix(lambda: [
            Remedy("get a spindle with a flange of {target}", field=f"{spindle.id}.{other_field}",
                   relation="equal to", target=one),
            Remedy("or {a_carrier} with a flange of {target}", field=f"{carrier.id}.{one_field}",
                   relation="equal to", target=other, a_carrier=a_kind(carrier)),
        ])
        .danger(SPINDLE_LOOSE)
        .at(spindle, other_field)
        .about(carrier, spindle)
    )  # fmt: skip


# ---- left against right -----------------------------------------------------------------------------


@rule(
    "suspension-ratings-differ",
    on=AxlePlace,
    reads=[*(f"{kind}.{name}" for kind in ROLES for name in ("rating", "per")), "practice.arm_rating_agreement"],
    basis=practice("arms and springs of one trailer have one rating, and so one stiffness"),
)
def suspension_ratings_differ(place: AxlePlace) -> Iterator[Check]:
    """The arms, or the springs, of an axle have one rating, and that of the axle before it.

    Why: The rating goes with the stiffness: of two that differ the softer one sinks, and the trailer leans or
        one axle takes more than its share.
    Formula: |rating left - rating right| at most the practice share of the larger; each axle against the first
        too. Ratings that are not typed are not asked for here.
    Remedy: Arms or springs of one rating all round.
    Wrong:
        - {id: arm-left, kind: suspension-arm, hand: left, rating: 1750 lb, per: each}
        - {id: arm-right, kind: suspension-arm, hand: right, rating: 1100 lb, per: each}
    Right:
        - {id: arm-left, kind: suspension-arm, hand: left, rating: 1750 lb, per: each}
        - {id: arm-right, kind: suspension-arm, hand: right, rating: 1750 lb, per: each}
    """
    for role in ROLES:
        for one, other, between in _pairs(place, role):
            if one is not other and one.has("rating") and other.has("rating"):
                yield _equal_ratings(place, one, other, between)


def _pairs(place: AxlePlace, role: str) -> Iterator[tuple[Any, Any, str]]:
    """Left with right of one axle, and each side with that of the first axle."""
    parts = place.each(role)
    for _, part in parts[1:]:
        yield parts[0][1], part, "left and right"
    for at, part in parts:
        before = place.weights.fit.places["1" + at[-1]].get(role)
        if place.number > 1 and before is not None:
            yield before, part, "axles"


def _equal_ratings(place: AxlePlace, one: Any, other: Any, between: str) -> Check:
    mine, theirs = rating_each(one), rating_each(other)
    agreement = place.limits.arm_rating_agreement.hi * max(mine.hi, theirs.hi)
    words = {
        "left and right": "The two sides of the axle differ: the {one} is rated {one_rating}, the {other} "
        "{other_rating}.",
        "axles": "The axles differ: the {one} of the first is rated {one_rating}, the {other} {other_rating}.",
    }[between]
    check = equal_within(mine, theirs, agreement).caution(
        words, one=one, one_rating=mine, other=other, other_rating=theirs
    )
    higher, lower = (one, other) if mine.lo >= theirs.lo else (other, one)
    check.because("The softer one sinks further under the same load.").danger(LEANS)
    check.fix(lambda: [
        Remedy("replace the {lower} by one rated {target} like the {higher}", field=f"{lower.id}.rating",
               relation="equal to", target=higher.rating, lower=lower, higher=higher)
    ])  # fmt: skip
    return check.at(other, "rating").about(one, other)


# ---- independent arms in tandem ---------------------------------------------------------------------


@rule(
    "tandem-unequalized",
    on=Whole,
    reads=[
        "suspension-arm.rating", "suspension-arm.per", "suspension-arm.travel", *CORNER_LOAD_READS,
        "layout.coupler_height", "layout.axle_spacing", "tow_vehicle.hitch_height", "ball-mount.drop",
    ],
    basis=practice("independent arms share nothing; each axle is checked at the practice share of the group"),
    after=["suspension-below-share"],
)  # fmt: skip
def tandem_unequalized(whole: Whole) -> Iterator[Check]:
    """Independent arms of two or more axles are checked at the share that each may really see.

    Why: Nothing joins the arms of one axle to those of the next. On a bump, or with the coupler too high or too
        low, one axle carries more than its half.
    Formula: rating of an arm >= (axle load x unequal share) / 2, also where the list says equalized; the coupler
        off level by d moves the axles against one another by d x axle_spacing / coupler_to_axle, and half of
        that, at each axle, is within the arms' travel.
    Remedy: Say equalized: false, so that every part is checked at that share; arms of a higher rating; tow level.
    Hazard: The overloaded arm tears at its mounting.
    Wrong:
        service: {gross_weight: 5200 lb, tongue_weight: 600 lb}
        layout: {axles: 2, equalized: true}
        parts:
          - {kind: suspension-arm, hand: pair, rating: 1200 lb, per: each, qty: 4}
    Right:
        service: {gross_weight: 5200 lb, tongue_weight: 600 lb}
        layout: {axles: 2, equalized: false}
        parts:
          - {kind: suspension-arm, hand: pair, rating: 1750 lb, per: each, qty: 4}
    """
    axles = _axles_on_arms(whole)
    if len(axles) < 2:
        return
    arms = list(dict.fromkeys(arm for axle in axles for _, arm in axle.each("suspension-arm")))
    tilt = _height_difference(whole)
    if _said_equal(whole):
        yield from _really_sees(whole, arms)
    else:
        words = (
            "Nothing joins the arms of one axle to those of the next: each axle is checked at {share} of the load."
        )
        words += " Tow level: {tilt} between the axles comes from the coupler's height." if tilt is not None else (
            " Tow level: a coupler too high or too low puts more on one axle."
        )
        share = f"{whole.weights.axle_share().hi * 100:.0f} %"
        yield certainly().note(words, share=share, tilt=tilt).about(*arms)
    if tilt is not None:
        yield from _within_travel(whole, arms, tilt)


def _axles_on_arms(whole: Whole) -> list[AxlePlace]:
    places: list[AxlePlace] = whole.fit.bindings(AxlePlace)
    return [place for place in places if place.each("suspension-arm")]


def _said_equal(whole: Whole) -> bool:
    layout, axles = whole.build.layout, whole.build.of_kind("axle")
    if layout.has("equalized"):
        return bool(layout.equalized)
    typed: list[Any] = [axle for axle in axles if axle.has("equalized")]
    return bool(typed) and all(axle.equalized for axle in typed)


def _really_sees(whole: Whole, arms: list[Any]) -> Iterator[Check]:
    """The list says equalized: the arms at the unequal share all the same."""
    weights = whole.weights
    even = weights.axle_share()
    share = max(whole.limits.unequalized_axle_share.hi, even.hi)
    enough = True
    for end in whole.fit.ends:
        arm = end.part("suspension-arm")
        if arm is None or not (weights.given and arm.has("rating")):
            continue
        for places, load in weights.place_loads(end):
            check = _arm_at(whole, arm, load * (share / even.hi), share).about(arm, places=places)
            enough = enough and check.truth is not False
            yield check
    if enough:
        check = certainly(False).caution(
            "The list says that the axles are equalized, but independent arms share nothing: one axle may carry "
            "{share} of the load, and the parts of this list are checked at {even}.",
            share=f"{share * 100:.0f} %", even=f"{even.hi * 100:.0f} %",
        )  # fmt: skip
        check.because("Only a link that pivots between the axles shares the load.").danger(ARM_OVERLOADED)
        check.fix(lambda: [_say_unequal()]).at(whole.build.layout, "equalized")
        yield check.about(*arms)


def _say_unequal() -> Remedy:
    return Remedy("type equalized: false under layout", field="layout.equalized", relation="equal to",
                  target="false", operation="declare")  # fmt: skip


def _arm_at(whole: Whole, arm: Any, load: Interval, share: float) -> Check:
    check = at_least(rating_each(arm), load).stop(
        "The {arm} is rated {have} at each wheel. Independent arms share nothing, whatever the list says: with "
        "{share} of the load on one axle {need} stands on it, {by} more.", arm=arm, share=f"{share * 100:.0f} %",
    )  # fmt: skip
    factor = 2 if arm.has("per") and arm.per == "axle" else 1
    check.because("Only a link that pivots between the axles shares the load.").danger(ARM_OVERLOADED)

    def remedies() -> Iterator[Remedy]:
        yield Remedy(
            "take arms rated at least {least}" + (" per axle" if factor == 2 else ""), field=f"{arm.id}.rating",
            relation="at least", target=load * factor, least=Least(load * factor),
        )  # fmt: skip
        yield less_on_it(whole.weights, rating_each(arm), load)

    return check.fix(remedies).at(arm, "rating")


# ---- the trailer's level ----------------------------------------------------------------------------


def _height_difference(whole: Whole) -> Interval | None:
    """How far the coupler's height moves one axle against the next, mm; None where the list does not give it."""
    layout, vehicle = whole.build.layout, whole.build.tow_vehicle
    known = layout.has("coupler_height") and layout.has("axle_spacing") and layout.has("coupler_to_axle")
    if not (known and vehicle.has("hitch_height")) or layout.coupler_to_axle.lo <= 0:
        return None
    ball = vehicle.hitch_height
    for mount in whole.build.of_kind("ball-mount"):
        if not mount.has("drop"):
            return None
        ball = ball - mount.drop  # type: ignore[attr-defined]
    off = abs(ball - layout.coupler_height)
    tilt: Interval = off * (layout.axle_spacing / layout.coupler_to_axle)
    return tilt.with_unit("mm")


def _within_travel(whole: Whole, arms: list[Any], tilt: Interval) -> Iterator[Check]:
    """The axle that is pushed up has not reached its stops."""
    for arm in arms:
        if arm.has("travel"):
            check = at_most(tilt * 0.5, arm.travel).caution(
                "With the coupler that far off level the wheels of one axle stand {have} higher than level, but "
                "the {arm} has only {need} of travel.", arm=arm,
            )  # fmt: skip
            check.because("On its stops an arm is rigid and takes every bump whole.").danger(ARM_OVERLOADED)
            check.fix(lambda: [
                Remedy("tow level: a ball mount with another drop", field="ball-mount.drop", operation="replace")
            ])  # fmt: skip
            yield check.at(arm, "travel").about(arm)
