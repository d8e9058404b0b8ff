"""Shims behind a spindle flange: how thick at which bolt, and whether those at hand make it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import combinations_with_replacement

from partscheck.build.model import pieces
from partscheck.build.places import Whole
from partscheck.formulas.alignment import shim_for_angle, shims, wedge_shim
from partscheck.notation.interval import Interval
from partscheck.rules.basis import practice
from partscheck.rules.check import Check, Remedy, at_most, certainly
from partscheck.rules.registry import rule

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

PLANE = practice("geometry of the flange's plane; shims give the angle within what tape and level gauge tell")
STEEPEST = 10.0  # deg; a flange that is farther off wants mending, not shims
MOST_IN_A_STACK = 4  # shims under one bolt; more of them settle
BOLTS_LOOSE = (
    "Shims take thread: each nut must still be full on its bolt, and the flange must sit flat. Follow the arm "
    "maker's instructions; a trailer with wheels out of line sways and wears its tires."
)


class _Group:
    """Bolts that get the same shims: ``where`` in words, how many, thickness and how far it may be off, mm."""

    __slots__ = ("bolts", "thickness", "where", "within")

    def __init__(self, where: str, bolts: int, thickness: float, within: float) -> None:
        self.where = where
        self.bolts = bolts
        self.thickness = thickness
        self.within = within


class _Wanted:
    """What one wheel asks for: shims by groups of bolts, or one wedge (its angle and clocking, deg)."""

    __slots__ = ("angle", "arm", "at", "clock", "groups")

    def __init__(self, at: str, arm: Any, groups: list[_Group], wedge: tuple[float, float]) -> None:
        self.at = at
        self.arm = arm
        self.groups = groups
        self.angle, self.clock = wedge


@rule(
    "shim-range",
    on=Whole,
    reads=[
        "suspension-arm.toe", "suspension-arm.camber", "suspension-arm.flange_along",
        "suspension-arm.flange_upright", "suspension-arm.spindle_flange", "suspension-arm.brake_flange",
        "spindle.mount_flange", "shim.thickness", "shim.angle", "shim.qty", "shim.packs", "shim.pack",
        "shim.have", "practice.alignment_agreement",
    ],
    basis=PLANE,
)  # fmt: skip
def shim_range(whole: Whole) -> Iterator[Check]:
    """The shims at hand give the toe and camber that are asked for.

    Why: Independent arms are set with shims between arm and spindle flange; without the right ones at hand
        the alignment stops half done.
    Formula: thickness at a bolt = rearward place x tan(toe) + upward place x tan(camber), less the least of
        them. Bolt places from flange_along and flange_upright; else four bolts of the flange's circle stand
        in a square, other numbers in equal steps with one bolt on top. A wedge that covers the whole flange:
        its angle = that of both corrections together.
    Remedy: Shims of the thickness named, or a wedge of the angle named.
    Hazard: Shims take thread from the nuts.
    Wrong:
        - {kind: suspension-arm, hand: pair, toe: 0.5 deg, flange_along: 3 in, flange_upright: 3 in}
        - {kind: shim, thickness: 1/8 in}
    Right:
        - {kind: suspension-arm, hand: pair, toe: 0.6 deg, flange_along: 3 in, flange_upright: 3 in}
        - {kind: shim, thickness: 1/32 in}
    """
    stock = _Stock(whole)
    for at in whole.fit.positions:
        arm = whole.fit.places[at].get("suspension-arm")
        if arm is None or not (arm.has("toe") or arm.has("camber")):
            continue
        steep = _too_steep(arm)
        if steep is not None:
            yield steep.about(arm, places=(at,))
            continue
        wanted = _wanted(whole, at, arm)
        if wanted is None:
            yield _flange_unknown(whole, at, arm)
        elif wanted.groups:
            yield _supplied(whole, wanted, stock).about(arm, *stock.lines, places=(at,)).at(
                arm, "toe" if arm.has("toe") else "camber"
            )


# ---- what is asked for ------------------------------------------------------------------------------


def _angle(arm: Any, name: str) -> float:
    """Correction, deg; one that is not typed is none."""
    return float(getattr(arm, name).mid) if arm.has(name) else 0.0


def _too_steep(arm: Any) -> Check | None:
    for name in ("toe", "camber"):
        if arm.has(name) and abs(_angle(arm, name)) > STEEPEST:
            check = at_most(abs(getattr(arm, name)), Interval(STEEPEST, STEEPEST, "deg")).caution(
                "A " + name + " that is {have} off is no matter of shims: an arm or its mounting is bent."
            )
            check.because("Shims correct a degree or two.").danger(BOLTS_LOOSE)
            check.fix(lambda: [Remedy("find what is bent or mounted wrong, and measure again", operation="shop")])
            return check.at(arm, name)
    return None


def _wanted(whole: Whole, at: str, arm: Any) -> _Wanted | None:
    """The thickness at each bolt; None where the flange is not known."""
    toe, camber = _angle(arm, "toe"), _angle(arm, "camber")
    agreement = whole.limits.alignment_agreement.hi
    wedge = wedge_shim(toe, camber)
    if arm.has("flange_along") and arm.has("flange_upright"):
        along, upright = arm.flange_along.mid, arm.flange_upright.mid
    else:
        circle = _circle(whole, at, arm)
        if circle is None or circle.count is None or not circle.diameter.known or circle.count < 3:
            return None
        if circle.count != 4:
            return _Wanted(at, arm, _on_circle(circle, toe, camber, agreement), wedge)
        along = upright = circle.diameter.mid / math.sqrt(2)
    if min(along, upright) <= 0:
        return None
    groups = [
        _side("rear" if toe > 0 else "front", toe, along, agreement),
        _side("upper" if camber > 0 else "lower", camber, upright, agreement),
    ]
    return _Wanted(at, arm, [group for group in groups if group.thickness > group.within], wedge)


def _side(name: str, angle: float, spacing: float, agreement: float) -> _Group:
    """Two bolts of a rectangle, packed alike: the flange stays flat."""
    thickness = shim_for_angle(abs(angle), spacing)
    within = thickness - math.tan(math.radians(abs(angle) - agreement)) * spacing
    return _Group(f"both {name} bolts", 2, thickness, within)


def _circle(whole: Whole, at: str, arm: Any) -> Any:
    """The circle of the spindle flange: the arm's, the spindle's, else that of the brake's flange."""
    spindle = whole.fit.places[at].get("spindle")
    if arm.has("spindle_flange"):
        return arm.spindle_flange
    if spindle is not None and spindle.has("mount_flange"):
        return spindle.mount_flange
    return arm.brake_flange if arm.has("brake_flange") else None


def _on_circle(circle: Any, toe: float, camber: float, agreement: float) -> list[_Group]:
    """Bolts in equal steps, the first on top, counted over the rear."""
    count, radius = circle.count, circle.diameter.mid / 2
    steps = [2 * math.pi * number / count for number in range(count)]
    found = shims(toe, camber, [(radius * math.sin(turn), radius * math.cos(turn)) for turn in steps])
    within = math.tan(math.radians(agreement)) * radius  # two opposite bolts off against each other
    return [
        _Group(f"the {_bolt(turn)}", 1, thick, within)
        for turn, thick in zip(steps, found, strict=True)
        if thick > within
    ]


def _bolt(turn: float) -> str:
    degrees = round(math.degrees(turn))
    return "top bolt" if degrees == 0 else f"bolt {degrees} deg from the top over the rear"


def _flange_unknown(whole: Whole, at: str, arm: Any) -> Check:
    arm.spindle_flange  # noqa: B018 - asks for it
    check = certainly(None).caution("The flange of the {arm} is not known.", arm=arm)
    return check.about(arm, places=(at,)).at(arm, "toe" if arm.has("toe") else "camber")


# ---- what is at hand --------------------------------------------------------------------------------


class _Stock:
    """The shims at hand: flat ones and wedges, with the pieces that are left (None: not counted)."""

    def __init__(self, whole: Whole) -> None:
        lines: list[Any] = whole.build.of_kind("shim")
        self.lines = lines
        self.wedges = [line for line in lines if line.has("angle") and line.angle.lo > 0]
        flat = [line for line in lines if line not in self.wedges and line.has("thickness")]
        self.flat = [line for line in flat if line.thickness.mid > 0]
        self.left = {line.id: pieces(line) for line in lines}

    def stack(self, group: _Group) -> list[Any] | None:
        """The fewest shims, and the nearest of those, for each bolt of a group; None when none do."""
        for count in range(1, MOST_IN_A_STACK + 1):
            fits = [
                pile
                for pile in combinations_with_replacement(self.flat, count)
                if _off(pile, group) <= group.within + 1e-9 and self._enough(pile * group.bolts)
            ]
            if fits:
                return list(min(fits, key=lambda pile: _off(pile, group)))
        return None

    def wedge(self, angle: float, within: float) -> Any:
        """A wedge that gives the angle, or None."""
        near = [line for line in self.wedges if abs(line.angle.mid - angle) <= within + 1e-9]
        near = [line for line in near if self._enough([line])]
        return min(near, key=lambda line: abs(line.angle.mid - angle), default=None)

    def take(self, pile: list[Any]) -> None:
        for line in pile:
            left = self.left[line.id]
            if left is not None:
                self.left[line.id] = left - 1

    def _enough(self, pile: Any) -> bool:
        return all(
            (left := self.left[line.id]) is None or left >= sum(one is line for one in pile) for line in pile
        )


def _off(pile: Any, group: _Group) -> float:
    return abs(float(sum(line.thickness.mid for line in pile)) - group.thickness)


def _supplied(whole: Whole, wanted: _Wanted, stock: _Stock) -> Check:
    """From the stock, which gets less by it."""
    agreement = whole.limits.alignment_agreement.hi
    wedge = stock.wedge(wanted.angle, agreement)
    asked = _asked(wanted)
    if wedge is not None:
        stock.take([wedge])
        return certainly().note(
            "{asked}: the {wedge} ({angle}) does it, its thick edge {clock}.",
            asked=asked, wedge=wedge, angle=wedge.angle, clock=_clock(wanted.clock),
        )  # fmt: skip
    before = dict(stock.left)
    piles: list[list[Any]] = []
    for group in wanted.groups:
        pile = stock.stack(group)
        if pile is None:
            stock.left = before
            return _lacking(whole, wanted, group, asked)
        stock.take(pile * group.bolts)
        piles.append(pile)
    words, named = _thicknesses(wanted)
    made = [
        f"{words[number]} (" + " + ".join(dict.fromkeys(f"{pile.count(one)} x '{one.id}'" for one in pile)) + ")"
        for number, pile in enumerate(piles)
    ]
    return certainly().note("{asked}: " + "; ".join(made) + ".", asked=asked, **named)


def _asked(wanted: _Wanted) -> str:
    arm = wanted.arm
    said = [f"{name} {_angle(arm, name):g} deg" for name in ("toe", "camber") if arm.has(name)]
    return f"For {' and '.join(said)} at {wanted.at}"


def _thicknesses(wanted: _Wanted) -> tuple[list[str], dict[str, Any]]:
    """Words for each group's thickness, and the values in them."""
    words = [f"{{thick{number}}} at {group.where}" for number, group in enumerate(wanted.groups)]
    named = {f"thick{n}": Interval.exact(group.thickness, "mm") for n, group in enumerate(wanted.groups)}
    return words, named


def _lacking(whole: Whole, wanted: _Wanted, group: _Group, asked: str) -> Check:
    """What is asked for, bolts by bolts, and the first that the stock does not make."""
    words, named = _thicknesses(wanted)
    at_hand = (
        "At {where} the shims at hand do not make it within {within}." if whole.build.of_kind("shim")
        else "No shims are on the list."
    )  # fmt: skip
    check = certainly(False).caution(
        "{asked} shims are needed of " + "; ".join(words) + ". " + at_hand,
        asked=asked, where=group.where, within=Interval.exact(group.within, "mm"), **named,
    )  # fmt: skip
    check.because("An alignment that stops half done leaves the wheels out of line.").danger(BOLTS_LOOSE)
    return check.fix(lambda: _shims_to_get(wanted))


def _shims_to_get(wanted: _Wanted) -> Iterator[Remedy]:
    for group in wanted.groups:
        target = Interval.exact(round(group.thickness, 2), "mm")
        yield Remedy("get shims that make {target} at {where}", field="shim.thickness", relation="equal to",
                     target=target, operation="add", where=group.where)  # fmt: skip
    angle = Interval.exact(round(wanted.angle, 2), "deg")
    yield Remedy("or a wedge of {degrees} deg over the whole flange, its thick edge {clock}", field="shim.angle",
                 relation="equal to", target=angle, operation="add", degrees=f"{wanted.angle:.2f}",
                 clock=_clock(wanted.clock))  # fmt: skip


def _clock(clock: float) -> str:
    """Where the thick edge goes, in words."""
    names = ("to the rear", "to the rear and up", "up", "to the front and up", "to the front",
             "to the front and down", "down", "to the rear and down")  # fmt: skip
    exact = clock % 360
    near = names[round(exact / 45) % 8]
    return near if abs(exact - 45 * round(exact / 45)) < 1 else f"{near} ({exact:.0f} deg from the rear, upward)"
