"""Ball and coupler at one height, and the room that trailer and tow vehicle have to turn."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from partscheck.build.tow_places import TowChain
from partscheck.formulas.towing import turn_angle
from partscheck.notation.interval import Interval
from partscheck.rules.basis import practice
from partscheck.rules.check import Check, Remedy, at_least, equal_within
from partscheck.rules.registry import rule

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

SWAYS = (
    "A trailer that tows nose up takes weight off its ball and sways; nose down it takes weight off the tow "
    "vehicle's front wheels. Follow the makers' instructions of tow vehicle and hitch."
)
CRUNCH = (
    "Nobody stands between the two while they turn: who is caught there is crushed. Someone watches from the side."
)
TILTED = {
    "up": "Nose up the tongue grows light, and of two axles the rear one carries more.",
    "down": "Nose down more weight stands on the ball, and of two axles the front one carries more.",
}
REACH, STEP = 5000, 10  # mm; how far back, and in what steps, a place for the front is looked for


# ---- level ----------------------------------------------------------------------------------------------


@rule(
    "hitch-height",
    on=TowChain,
    reads=[
        "tow_vehicle.hitch_height", "layout.coupler_height", "ball-mount.drop", "ball.mounting",
        "practice.hitch_level_off_most",
    ],
    basis=practice("a trailer tows level, give or take an inch at the ball"),
)  # fmt: skip
def hitch_height(chain: TowChain) -> Check | None:
    """With the ball mount's drop, the ball stands as high as the coupler of the level trailer.

    Why: Nose up, the tongue grows light and the trailer sways; nose down, it drags, and of two axles the front
        one carries more.
    Formula: |hitch height - drop - coupler height| at most the practice limit; a rise is a negative drop. Tow
        vehicle loaded, trailer loaded and level, with the tires that are on it: other tires move the coupler.
        Looked at once two of the three are typed; a fixed ball has no drop.
    Remedy: A ball mount with the drop that is computed here, or an adjustable one; never a bent one.
    Hazard: A trailer that tows nose up sways.
    Wrong:
        layout: {coupler_height: 17 in}
        tow_vehicle: {hitch_height: 22 in}
        parts:
          - {kind: ball-mount, drop: 2 in}
    Right:
        layout: {coupler_height: 17 in}
        tow_vehicle: {hitch_height: 22 in}
        parts:
          - {kind: ball-mount, drop: 5 in}
    """
    layout, vehicle, mount = chain.build.layout, chain.build.tow_vehicle, chain.mount
    heights = vehicle.has("hitch_height") + layout.has("coupler_height")
    if heights + (mount is not None and mount.has("drop")) < 2 or not chain.parts:
        return None
    wanted = vehicle.hitch_height - layout.coupler_height
    if mount is None and not _fixed(chain):
        return None
    drop = mount.drop if mount is not None else Interval(0.0, 0.0, "mm")
    return _level(chain, (vehicle.hitch_height - drop).clipped(0.0), wanted)


def _fixed(chain: TowChain) -> bool:
    return chain.ball is not None and chain.ball.has("mounting") and chain.ball.mounting == "fixed"


def _level(chain: TowChain, ball: Interval, wanted: Interval) -> Check:
    """``wanted`` is the drop that would be level, mm."""
    most, coupler = chain.limits.hitch_level_off_most.hi, chain.build.layout.coupler_height
    check = equal_within(ball, coupler, most)
    nose = "down" if ball.mid < coupler.mid else "up"
    check.caution(
        "The ball stands {ball} high, the coupler of the level trailer {coupler}: the trailer tows nose {nose}, "
        "{off} off, and {most} are the most.",
        ball=ball, coupler=coupler, nose=nose, off=abs(ball - coupler), most=Interval.exact(most, "mm"),
    ).because(TILTED[nose]).danger(SWAYS)  # fmt: skip
    if chain.mount is not None and not chain.mount.has("drop") and wanted.known:
        way, least, greatest = _level_drops(wanted, most)
        check.ask(
            "The hitch stands {hitch} high and the coupler {coupler}: what is the drop of the {mount}? A {way} of "
            "{least} to {greatest} is level enough.", hitch=chain.build.tow_vehicle.hitch_height, coupler=coupler,
            mount=chain.mount, way=way, least=least, greatest=greatest,
        )  # fmt: skip
    if chain.mount is not None:
        check.fix(lambda: _other_mount(chain, wanted, most)).at(chain.mount, "drop").about(chain.mount)
    else:
        check.fix(lambda: _other_coupler(chain, ball, most)).at(chain.build.layout, "coupler_height")
        check.about(chain.ball, chain.coupler)
    return check


def _other_mount(chain: TowChain, wanted: Interval, most: float) -> Iterator[Remedy]:
    if not wanted.known:
        yield Remedy("measure both heights, then get a ball mount with the drop between them",
                     field=f"{chain.mount.id}.drop")  # fmt: skip
        return
    middle = Interval.exact(wanted.mid, "mm")
    way, least, greatest = _level_drops(wanted, most)
    yield Remedy(
        "get a ball mount with a {way} of {size}, rated for the trailer: {least} to {greatest} is level enough",
        field=f"{chain.mount.id}.drop", relation="equal to", target=middle, way=way, size=abs(middle), least=least,
        greatest=greatest,
    )  # fmt: skip
    yield Remedy(
        "or bolt an adjustable coupler at a height of {target}, where the tongue is made for one",
        field="layout.coupler_height", relation="equal to",
        target=chain.build.tow_vehicle.hitch_height - chain.mount.drop, operation="shop",
    )  # fmt: skip


def _level_drops(wanted: Interval, most: float) -> tuple[str, Interval, Interval]:
    """The drops (or rises, where it is one) that are level enough: word, least, greatest; nothing is the least."""
    least, greatest = wanted.hi - most, wanted.lo + most
    if least > greatest:
        least = greatest = wanted.mid
    if wanted.mid < 0:
        return "rise", Interval.exact(max(0.0, -greatest), "mm"), Interval.exact(-least, "mm")
    return "drop", Interval.exact(max(0.0, least), "mm"), Interval.exact(greatest, "mm")


def _other_coupler(chain: TowChain, ball: Interval, most: float) -> Iterator[Remedy]:
    yield Remedy(
        "set the coupler at {target}, with an adjustable drawbar or other springs, as their maker says",
        field="layout.coupler_height", relation="equal to", target=ball, operation="shop",
    )  # fmt: skip


# ---- turning --------------------------------------------------------------------------------------------


@rule(
    "turning-clearance",
    on=TowChain,
    reads=[
        "layout.coupler_to_front", "layout.front_width", "tow_vehicle.ball_to_bumper", "tow_vehicle.bumper_width",
        "jack.from_coupler", "jack.width", "practice.turn_angle_least",
    ],
    basis=practice("trailer and tow vehicle turn against each other without touching, seen from above"),
)  # fmt: skip
def turning_clearance(chain: TowChain) -> Iterator[Check]:
    """Tow vehicle and trailer can turn against each other, as in a tight backing, before a corner touches.

    Why: A box or rack that stands too near dents the tow vehicle's corner when you back round a bend.
    Formula: the corner nearer to the ball swings on a circle and meets the other's face: r = sqrt(a^2 + c^2),
        angle = arccos(-b / r) - arctan(c / a), at least the practice limit. Looked at only where a distance of the
        trailer's front, or of the jack, and one of the tow vehicle are typed. The open tailgate counts if it was
        measured open.
    Remedy: A longer tongue, a box farther back or narrower; the jack's handle turned away.
    Hazard: Someone who stands between the two when they close up is crushed.
    Wrong:
        layout: {coupler_to_front: 24 in, front_width: 60 in}
        tow_vehicle: {ball_to_bumper: 9 in, bumper_width: 70 in}
        parts:
          - {kind: coupler, ball_diameter: 2 in}
    Right:
        layout: {coupler_to_front: 48 in, front_width: 48 in}
        tow_vehicle: {ball_to_bumper: 9 in, bumper_width: 70 in}
        parts:
          - {kind: coupler, ball_diameter: 2 in}
    """
    layout, vehicle = chain.build.layout, chain.build.tow_vehicle
    if not (vehicle.has("ball_to_bumper") or vehicle.has("bumper_width")):
        return
    if layout.has("coupler_to_front"):
        check = _turn(chain, layout.coupler_to_front, layout.front_width, "front corner of the trailer")
        yield check.fix(lambda: _front_back(chain)).at(layout, "coupler_to_front").about(chain.coupler)
    for jack in chain.jacks:
        if jack.has("from_coupler"):
            check = _turn(chain, jack.from_coupler, jack.width, "jack")
            check.fix(lambda jack=jack: _jack_away(chain, jack))  # type: ignore[misc]
            yield check.at(jack, "from_coupler").about(jack)


def _turn(chain: TowChain, front: Interval, width: Interval, what: str) -> Check:
    vehicle = chain.build.tow_vehicle
    rear, rear_width = vehicle.ball_to_bumper, vehicle.bumper_width
    # Farther apart and narrower is more room, up to a right angle: the ends of the values give those of the angle.
    angle = Interval(
        turn_angle(front.lo, width.hi / 2, rear.lo, rear_width.hi / 2),
        turn_angle(front.hi, width.lo / 2, rear.hi, rear_width.lo / 2),
        "deg",
    )
    check = at_least(angle, chain.limits.turn_angle_least).caution(
        "The {what} and the tow vehicle touch when they have turned {have} against each other; {need} are wanted "
        "for backing round a tight corner.", what=what,
    )  # fmt: skip
    check.because("The corner nearer to the ball swings round it until it meets the other's face.")
    return check.danger(CRUNCH)


def _front_back(chain: TowChain) -> Iterator[Remedy]:
    layout = chain.build.layout
    farther = _far_enough(chain, layout.front_width)
    if farther is not None:
        yield Remedy(
            "set the box or rack back, or make the tongue longer: from {target} behind the ball on it clears",
            field="layout.coupler_to_front", relation="at least", target=farther, operation="shop",
        )  # fmt: skip
    narrower = _narrow_enough(chain, layout.coupler_to_front)
    if narrower is not None:
        yield Remedy(
            "or make its front narrower, {target} at most, or cut its corners off that far",
            field="layout.front_width", relation="at most", target=narrower, operation="shop",
        )  # fmt: skip


def _jack_away(chain: TowChain, jack: Any) -> Iterator[Remedy]:
    yield Remedy("turn its handle and foot away from the tow vehicle for towing, and measure again",
                 field=f"{jack.id}.width", operation="shop")  # fmt: skip
    farther = _far_enough(chain, jack.width)
    if farther is not None:
        yield Remedy("or set the jack back: from {target} behind the ball on it clears",
                     field=f"{jack.id}.from_coupler", relation="at least", target=farther,
                     operation="shop")  # fmt: skip


def _far_enough(chain: TowChain, width: Interval) -> Interval | None:
    """The least distance behind the ball, to the next 10 mm, at which that width clears."""
    return _first(range(0, REACH, STEP), lambda front: _clears(chain, float(front), width.hi))


def _narrow_enough(chain: TowChain, front: Interval) -> Interval | None:
    """The greatest width, to the next 10 mm down, that clears so far behind the ball."""
    return _first(range(REACH, 0, -STEP), lambda width: _clears(chain, front.lo, float(width)))


def _clears(chain: TowChain, front: float, width: float) -> bool:
    vehicle, need = chain.build.tow_vehicle, chain.limits.turn_angle_least.hi
    return turn_angle(front, width / 2, vehicle.ball_to_bumper.lo, vehicle.bumper_width.hi / 2) >= need


def _first(tries: Iterable[int], clears: Callable[[int], bool]) -> Interval | None:
    found = next((one for one in tries if clears(one)), None)
    return None if found is None else Interval.exact(float(found), "mm")
