"""Left- and right-hand parts: each axle has one of each hand, on its own side."""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build.model import pieces
from partscheck.build.places import AxlePlace
from partscheck.notation.words import UNKNOWN_WORD
from partscheck.rules.basis import practice
from partscheck.rules.check import Check, Remedy, all_of, certainly, equal_within, same
from partscheck.rules.registry import rule

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.notation.interval import Interval

HANDED = practice("brakes and suspension arms are made in pairs, one for the left and one for the right side")
BENCH = (
    "Drum brake with its magnet or wheel cylinder seen upright, magnet at the bottom: the shorter shoe and "
    "the actuating arm point to the front of the trailer on the side it is made for."
)
UNEVEN = (
    "A brake on the wrong side bites weakly or grabs, and the trailer pulls to one side when you brake. Follow "
    "the brake maker's instructions and local codes; have a licensed shop look at brakes you are not sure of."
)
BACKWARDS = (
    "An arm on the wrong side points forward or carries its spindle inward: it cannot be loaded safely. Follow "
    "the arm maker's instructions."
)
SIDES = {"L": "left", "R": "right"}
OTHER = {"left": "right", "right": "left"}
BOTH_SIDES = ("pair", "either")


@rule(
    "brake-pair",
    on=AxlePlace,
    reads=[
        "brake.hand", "brake.qty", "brake.packs", "brake.pack", "brake.have", "brake.type",
        "brake.drum_diameter", "brake.shoe_width", "hub.rotor_diameter", "practice.brake_drum_agreement",
        "practice.brake_width_agreement",
    ],
    basis=HANDED,
)  # fmt: skip
def brake_pair(place: AxlePlace) -> Iterator[Check]:
    """Each braked axle has one left-hand and one right-hand brake, alike but for the hand.

    Why: A drum brake pulls its shoes on in the direction that the wheel turns. On the wrong side it works
        backwards: weak, or grabbing.
    Formula: the brake at the left has hand left, the one at the right hand right; a line of both has
        hand: pair; brakes that fit either side have hand: either. Hands are not asked for where the hub
        carries a rotor.
    Remedy: Change one of the two for the other hand.
    Hazard: The trailer pulls to one side under braking.
    Wrong:
        - {kind: brake, hand: left, qty: 2}
    Right:
        - {id: brake-left, kind: brake, hand: left, qty: 1}
        - {id: brake-right, kind: brake, hand: right, qty: 1}
    """
    brakes = dict(place.each("brake"))
    if not brakes or (_disc(place) and not any(part.has("hand") for part in brakes.values())):
        return
    check = _handed(place, brakes)
    yield check.danger(UNEVEN).because(
        "The hand says which way the drum turns when the trailer rolls forward. " + BENCH
    )
    if len(brakes) == 2:
        left, right = brakes.values()
        if left is not right:
            yield from _alike(place, left, right)


@rule(
    "suspension-pair",
    on=AxlePlace,
    reads=[
        "suspension-arm.hand", "suspension-arm.qty", "suspension-arm.packs", "suspension-arm.pack",
        "suspension-arm.have",
    ],
    basis=HANDED,
)  # fmt: skip
def suspension_pair(place: AxlePlace) -> Iterator[Check]:
    """Each axle on independent arms has one left-hand and one right-hand arm.

    Why: The arms mirror each other; of two alike one leads instead of trailing, or has its spindle inboard.
    Formula: the arm at the left has hand left, the one at the right hand right; a line of both has
        hand: pair; arms that fit either side have hand: either.
    Remedy: Change one of the two for the other hand.
    Hazard: An arm that leads digs in on a bump.
    Wrong:
        - {kind: suspension-arm, hand: right, qty: 2}
    Right:
        - {id: arm-left, kind: suspension-arm, hand: left}
        - {id: arm-right, kind: suspension-arm, hand: right}
    """
    arms = dict(place.each("suspension-arm"))
    if arms:
        yield _handed(place, arms).danger(BACKWARDS).because(
            "Arms trail to the rear, their spindles point outward: each fits one side only."
        )


def _disc(place: AxlePlace) -> bool:
    return any(hub.has("rotor_diameter") for _, hub in place.each("hub"))


def _handed(place: AxlePlace, parts: dict[str, Any]) -> Check:
    """The parts of both ends against the sides they stand on."""
    if len(parts) == 1:
        (there, part), = parts.items()
        return _lonely(place, there, part)
    left, right = (next(part for at, part in parts.items() if at.endswith(side)) for side in "LR")
    if left is right:
        return _line_for_both(place, left)
    return all_of(*(_on_its_side(at, part) for at, part in parts.items()))


def _lonely(place: AxlePlace, there: str, part: Any) -> Check:
    """One end has a part, the other has none: mostly all pieces were bought in one hand."""
    hand = part.hand if part.has("hand") else ""
    count = pieces(part)
    side = SIDES[there[-1]]
    needed = OTHER[side]
    if hand in OTHER:
        many = count is not None and count > 1
        words = (
            ("Both" if count == 2 else "All {count}") + " pieces of the {part} are made for the {side} side, and "
            "nothing on the list goes on the {needed}."
            if many
            else "The {part} is made for the {side} side, and nothing on the list goes on the {needed}."
        )
    else:
        words = "The {side} end of the axle has the {part}, the {needed} end has none."
    check = certainly(False).stop(words, part=part, count=count, side=side, needed=needed)
    at = there[:-1] + ("R" if there.endswith("L") else "L")
    check.fix(lambda: _other_hand(part, needed, count)).at(part, "hand" if hand else "at")
    return check.about(part, places=tuple(sorted({there, at})))


def _other_hand(part: Any, needed: str, count: int | None) -> Iterator[Remedy]:
    if count is not None and count > 1:
        yield Remedy(
            "change {half} of the {count} for {needed}-hand ones, and give them a line of their own with "
            "hand: {needed}",
            field=part.kind, relation="equal to", target=needed, operation="add", half=count // 2,
            count=count, needed=needed,
        )  # fmt: skip
    else:
        yield Remedy(
            "add a line with the {needed}-hand {kind}: hand: {needed}",
            field=part.kind, relation="equal to", target=needed, operation="add", needed=needed,
            kind=part.title,
        )  # fmt: skip
    yield Remedy(
        "or, if the line holds one of each hand, say so: hand: pair",
        field=f"{part.id}.hand", relation="equal to", target="pair", operation="declare",
    )  # fmt: skip


def _line_for_both(place: AxlePlace, part: Any) -> Check:
    """One line that serves both ends."""
    hand = part.hand
    truth = None if hand is UNKNOWN_WORD else hand in BOTH_SIDES
    check = same(truth, hand, "pair").stop(
        "The {part} serves both ends of the axle, but it is made for the {hand} side.", part=part, hand=hand
    )
    needed = OTHER.get(str(hand), "other")
    check.fix(lambda: _other_hand(part, needed, pieces(part))).at(part, "hand")
    return check.about(part, places=place.at)


def _on_its_side(at: str, part: Any) -> Check:
    side = SIDES[at[-1]]
    hand = part.hand
    truth = None if hand is UNKNOWN_WORD else hand in (side, *BOTH_SIDES)
    check = same(truth, hand, side).stop(
        "The {part} goes on the {side}, but it is made for the {hand} side.", part=part, side=side, hand=hand
    )
    check.fix(lambda: [
        Remedy("change the {part} for a {side}-hand one", field=f"{part.id}.hand", relation="equal to",
               target=side, part=part, side=side)
    ])  # fmt: skip
    return check.at(part, "hand").about(part, places=(at,))


def _alike(place: AxlePlace, left: Any, right: Any) -> Iterator[Check]:
    """Size and type of the two brakes of an axle, where the list gives both."""
    limits = place.limits
    for field, what, agreement in (
        ("type", "type", None),
        ("drum_diameter", "drum diameter", limits.brake_drum_agreement),
        ("shoe_width", "width of the shoes", limits.brake_width_agreement),
    ):
        if left.has(field) and right.has(field):
            one, other = getattr(left, field), getattr(right, field)
            check = _equal(one, other, agreement).caution(
                "The brakes of one axle differ in {what}: {one} at the left, {other} at the right.",
                what=what, one=one, other=other,
            )  # fmt: skip
            check.because("The stronger one pulls the trailer to its side.").danger(UNEVEN)
            check.fix(lambda field=field, one=one: [  # type: ignore[misc]
                Remedy("take two that are alike", field=f"{right.id}.{field}", relation="equal to", target=one)
            ])  # fmt: skip
            yield check.at(right, field).about(left, right, places=place.at)


def _equal(one: Any, other: Any, agreement: Interval | None) -> Check:
    if agreement is None:
        return same(one == other, one, other)
    return equal_within(one, other, agreement.hi)
