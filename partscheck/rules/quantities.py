"""Pieces in the cart against pieces needed, packs rounded up."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from partscheck.build.model import pieces
from partscheck.build.needs import Need, need_of
from partscheck.build.places import Line
from partscheck.notation.interval import Interval
from partscheck.parts.kinds import KINDS
from partscheck.rules.basis import practice
from partscheck.rules.check import Check, Remedy, at_least, at_most
from partscheck.rules.registry import rule

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

COUNTED = practice(
    "one piece at each place of its kind, one nut or bolt for each stud or hole; two U-bolts to a spring"
)
SPARES = practice("a few spare nuts and bolts are sensible, more of anything is money in a drawer")

HARDWARE = ("lug-nut", "wheel-bolt", "stud", "bolt", "nut", "washer", "cotter-pin", "u-bolt")
IN_PAIRS = (
    "hub", "adapter", "spacer", "brake", "suspension-arm", "spindle", "leaf-spring", "seal", "dust-cap",
    "bearing",
)  # fmt: skip
HOLDS_A_WHEEL = ("lug-nut", "wheel-bolt", "stud")
WHEEL_OFF = "A wheel that lacks a nut sheds the others one by one. Do not tow with a stud left bare."

READS = [
    *(f"{kind}.{name}" for kind in KINDS for name in ("qty", "packs", "pack", "have")),
    "hub.bolt_circle", "adapter.hub_circle", "adapter.wheel_circle", "wheel.bolt_circle",
    "bolted_joint.bolt", "bolted_joint.nut", "bolted_joint.washers", "bolted_joint.bolts",
    "bolted_joint.places", "washers.head", "washers.nut",
]  # fmt: skip


@rule("quantity-short", on=Line, reads=READS, basis=COUNTED, after=["lug-count"])
def quantity_short(line: Line) -> Check | None:
    """As many pieces of each line are in hand or in the cart as the build needs.

    Why: One nut too few stops the work on assembly day, and a second parcel costs more than the nut.
    Formula: qty (or packs x pieces in a pack) >= one for each place, or for each stud of each face it holds.
    Remedy: More pieces, in whole packs.
    Wrong:
        - {kind: hub, bolt_circle: 5 x 4.5 in, qty: 2}
        - {kind: wheel, bolt_circle: 5 x 4.5 in, qty: 2}
        - {kind: lug-nut, packs: 1, pack: 8}
    Right:
        - {kind: hub, bolt_circle: 5 x 4.5 in, qty: 2}
        - {kind: wheel, bolt_circle: 5 x 4.5 in, qty: 2}
        - {kind: lug-nut, packs: 2, pack: 8}
    """
    part = line.part
    have, need = pieces(part), need_of(part, line.weights.fit)
    if have is None or need is None:
        return None
    check = at_least(_plain(have), _plain(need.count)).stop(
        "The list has {have} of the {part}, the build needs {need} ({words}): {by} too few.",
        part=part, words=need.words,
    )  # fmt: skip
    check.because("What is not there on assembly day stops the work.")
    check.at(part, "qty" if part.says("qty") else "packs").fix(_more(part, have, need.count))
    return check.danger(WHEEL_OFF) if part.kind in HOLDS_A_WHEEL else check


@rule(
    "quantity-odd",
    on=Line,
    reads=[*READS, "practice.spare_hardware"],
    basis=SPARES,
    after=["brake-pair", "suspension-pair"],
)
def quantity_odd(line: Line) -> Check | None:
    """No more pieces are bought than the build uses, with a few spare nuts and bolts.

    Why: Three hubs for one axle are mostly a slip of the finger, or the number of axles is not told.
    Formula: pieces bought <= need rounded up to whole packs; nuts, bolts and washers: need + the practice
        share for spares. What is already in the shop (`have`) is not counted.
    Remedy: Take the surplus off, or say what it is for (`layout: {axles: 2}`, `at: spare`).
    Wrong:
        - {kind: axle, qty: 1}
        - {kind: hub, qty: 3}
    Right:
        - {kind: axle, qty: 1}
        - {kind: hub, qty: 2}
    """
    part = line.part
    have, need = pieces(part), need_of(part, line.weights.fit)
    if have is None or need is None or have < need.count or (part.has("have") and part.have is not False):
        return None
    check = at_most(_plain(have), _plain(enough(part, need, line.limits))).caution(
        "The list has {have} of the {part}, the build uses {count} ({words}): {extra} more than that{odd}.",
        part=part, count=need.count, words=need.words, extra=have - need.count,
        odd=", and an odd number of what goes in pairs" if have % 2 and part.kind in IN_PAIRS else "",
    )  # fmt: skip
    check.because("What is left over was paid for; or the list does not say what it is for.")
    check.at(part, "qty" if part.says("qty") else "packs")
    return check.fix(lambda: _fewer(part, have, need.count))


def enough(part: Any, need: Need, limits: Any) -> int:
    """The most that is no surplus: whole packs, and some spare hardware."""
    pack = _pack(part)
    packs = -(-need.count // pack) * pack
    if part.kind not in HARDWARE:
        return packs
    spare = limits.spare_hardware.hi
    return max(packs, int(need.count * (1 + spare) + 1e-9))


def _more(part: Any, have: int, need: int) -> Callable[[], Iterator[Remedy]]:
    def remedies() -> Iterator[Remedy]:
        pack = _pack(part)
        packs = -(-(need - have) // pack)
        if part.says("qty") or pack == 1:
            words = "add {more} more" if pack == 1 else "add {packs} more of the packs of {pack}"
            target, field = need, "qty"
        else:
            words = "add {packs} more of the packs of {pack}, {total} packs in all"
            target, field = have // pack + packs, "packs"
        yield Remedy(
            words, field=f"{part.id}.{field}", relation="at least", target=_plain(target), operation="add",
            more=need - have, packs=packs, pack=pack, total=target,
        )  # fmt: skip

    return remedies


def _fewer(part: Any, have: int, need: int) -> Iterator[Remedy]:
    if _pack(part) == 1:
        yield Remedy("take {extra} off the list", field=f"{part.id}.qty", relation="at most",
                     target=_plain(need), operation="remove", extra=have - need)  # fmt: skip
    else:
        packs = -(-need // _pack(part))
        yield Remedy("keep {packs} of the packs of {pack}, that is enough", field=f"{part.id}.packs",
                     relation="at most", target=_plain(packs), operation="remove",
                     packs=packs, pack=_pack(part))  # fmt: skip
    if part.kind in IN_PAIRS:
        yield Remedy("or, if the trailer has more axles, say so: layout: axles:",
                     field="layout.axles", operation="declare")  # fmt: skip
    elif part.kind in ("wheel", "tire"):
        yield Remedy("or give the spare a line of its own, with at: spare", operation="declare")


def _pack(part: Any) -> int:
    return max(1, part.pack) if part.has("pack") else 1


def _plain(count: int) -> Interval:
    return Interval(float(count), float(count))
