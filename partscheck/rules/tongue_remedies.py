"""What to move or leave off for a tongue share in range, in words: each remedy serves every load case.

Every one begins with "or": the first of a finding is told without it.
"""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build.load_cases import CaseLoad, in_case
from partscheck.build.places import Whole
from partscheck.build.rear_load import GRAVITY
from partscheck.build.standing_loads import density
from partscheck.build.tongue_limits import TongueLimits
from partscheck.build.tongue_moves import (
    LoadPlacement,
    axle_placement,
    lightest,
    load_placements,
    movable,
    on_trailer,
    wanted_in,
    within_trailer,
)
from partscheck.notation.interval import INF, Interval
from partscheck.notation.percent import percent
from partscheck.rules.check import AT_MOST, EQUAL, Remedy
from partscheck.rules.message import Most

TYPE_CHECKING = False
if TYPE_CHECKING:
    from partscheck.build.tow_places import TowChain
    from partscheck.build.weights import Weights

MOST_REMEDIES = 3  # loads to move
WORTH_KEEPING = 0.25  # of a load, so that taking the rest off is worth a word
LITTLE = 10.0  # N, no load on a rack that is worth the name


class Name:
    """A load's name off the list, in a sentence."""

    __slots__ = ("text",)

    def __init__(self, name: str, before: str = "") -> None:
        self.text = f"{before}'{name}'"


def solvable(whole: Whole, share: float) -> bool:
    """True when some place of the axle, or of one load, gives every case this share."""
    weights = whole.weights
    wanted = wanted_in(weights, share)
    placements = [axle_placement(weights, wanted), *load_placements(weights, wanted)]
    return any(one.places is not None for one in placements)


def lever(whole: Whole) -> str:
    """What a move forward is worth, where the way from coupler to axle is known."""
    layout = whole.build.layout
    if not (layout.has("coupler_to_axle") and layout.coupler_to_axle.lo > 0):
        return ""
    inch = whole.build.leading() == "inch"
    step, moved, unit = (12 * 25.4, "12 in", "lb") if inch else (1000.0, "1 m", "kg")
    gained = 100 * step / layout.coupler_to_axle.hi
    return f" (100 {unit} moved forward by {moved} adds {gained:.0f} {unit})"


def moves(whole: Whole | TowChain, share: float) -> Iterator[Remedy]:
    """The axle to another place, then single loads, nearest move first; each serves every case."""
    weights, leading = whole.weights, whole.build.leading()
    wanted = wanted_in(weights, share)
    axle = axle_placement(weights, wanted)
    place = axle.nearest(leading)
    if place is not None and axle.places is not None and axle.now.known and not axle.serves:
        way = place - axle.now
        yield Remedy(
            "or move the axle {way} by {by}, to {place} behind the coupler{gear}; {range} serves{every}",
            field="layout.coupler_to_axle", relation=EQUAL, target=place, operation="shop",
            way="back" if way.mid > 0 else "forward", by=abs(way), place=place, range=axle.places,
            gear=_gear(weights), every=every(weights),
        )  # fmt: skip
    elif (places := axle_wanted(whole, share)) is not None:
        yield Remedy(
            "or set the axle {range} behind the coupler: any place from the first to the last serves{every}; "
            "then weigh the tongue",
            field="layout.coupler_to_axle", relation=EQUAL, target=Interval.exact(places.mid, "mm"),
            operation="shop", range=places, every=every(weights),
        )  # fmt: skip
    loads = [one for one in load_placements(weights, wanted) if movable(one.load) and one.places is not None]
    loads.sort(key=lambda one: abs(_way(one, leading)))
    yield from (_move_load(weights, one, leading) for one in loads[:MOST_REMEDIES] if _fits(weights, one, leading))


def axle_wanted(whole: Whole | TowChain, share: float) -> Interval | None:
    """Where the axle would have to stand, mm; None where it is known where it stands, or nothing serves."""
    axle = axle_placement(whole.weights, wanted_in(whole.weights, share))
    if axle.now.known or axle.places is None or not axle.places.known:
        return None
    return axle.places


def every(weights: Weights) -> str:
    return " every case" if len(weights.cases()) > 1 else ""


def _gear(weights: Weights) -> str:
    if any(one.load.moves_with_axle for case in weights.cases() for one in case.loads):
        return ", its running gear with it"
    return ", its own weight not counted, since no load says moves_with_axle"


def no_place(whole: Whole, share: float) -> str:
    """Why no place of the axle serves, in a sentence; "" where one does or it cannot be told."""
    conflict = axle_placement(whole.weights, wanted_in(whole.weights, share)).conflict
    if not conflict:
        return ""
    if len(conflict) > 1:
        return (
            f" No one place of the axle gives every case {percent(share)}: case '{conflict[0]}' needs it "
            f"farther back than case '{conflict[1]}' allows."
        )
    return f" No place of the axle gives {percent(share)}{in_case(conflict[0])}: the load must stand otherwise."


def _way(one: LoadPlacement, leading: str) -> float:
    place = one.nearest(leading)
    return INF if place is None else place.mid - one.now.mid


def _fits(weights: Weights, one: LoadPlacement, leading: str) -> bool:
    place = one.nearest(leading)
    return place is not None and within_trailer(weights, place)


def _move_load(weights: Weights, one: LoadPlacement, leading: str) -> Remedy:
    place, way = one.nearest(leading), _way(one, leading)
    assert place is not None
    assert one.places is not None
    return Remedy(
        "or move {what} {way} by {by}: its middle to {place} behind the coupler; {range} serves{every}",
        field=f"{one.load.record.id}.from_coupler", relation=EQUAL, target=place, operation="shop",
        what=Name(one.load.what), way="back" if way > 0 else "forward", by=Interval.exact(abs(way), "mm"),
        place=place, range=on_trailer(weights, one.places), every=every(weights),
    )  # fmt: skip


def less_behind(whole: Whole, share: float) -> Iterator[Remedy]:
    """What one load behind the axle may weigh at most."""
    for one in all_behind(whole):
        most = lightest(whole.weights, one.load, share)
        if WORTH_KEEPING * one.weight.hi <= most < one.weight.hi:
            yield from _lighter(whole, one, most, _left_on_it(whole, share))


def _left_on_it(whole: Whole, share: float) -> str:
    least = ", the least that is towed" if share < TongueLimits(whole.build).good else ""
    return f"{percent(share)} on the tongue{least}"


def _lighter(whole: Whole, one: CaseLoad, most: float, left: str) -> Iterator[Remedy]:
    """The load at no more than ``most`` N: by its own weight, by what is put on the rack, or into the tank."""
    part = one.load.part
    typed = one.load.record is not part and one.load.record.has("weight")
    kind = part.kind if part is not None and not typed else ""
    room = most - one.load.empty.hi
    if part is not None and part.has("qty") and part.qty > 1:
        return
    if kind == "rack" and 0 <= room < LITTLE:
        yield Remedy(
            "or leave the {part} empty: that leaves {left}", field=f"{part.id}.weight_carried",
            relation=AT_MOST, target=Interval.exact(0.0, "N"), operation="declare", part=part, left=left,
        )  # fmt: skip
    elif kind == "rack" and room > 0:
        limit = Interval.exact(room, "N")
        yield Remedy(
            "or put at most {most} on the {part}: that leaves {left}",
            field=f"{part.id}.weight_carried", relation=AT_MOST, target=limit, operation="declare", part=part,
            most=Most(limit), left=left,
        )  # fmt: skip
    elif kind == "tank" and room > 0:
        limit = Interval.exact(room / (density(whole.build, part).hi * GRAVITY), "L")
        yield Remedy(
            "or fill the {part} with at most {most}: that leaves {left}", field=f"{part.id}.volume",
            relation=AT_MOST, target=limit, operation="declare", part=part, most=Most(limit), left=left,
        )  # fmt: skip
    elif not kind:
        limit = Interval.exact(most, "N")
        yield Remedy(
            "or keep {what} down to {most}, all that is in it or on it counted: that leaves {left}",
            field=f"{one.load.record.id}.weight", relation=AT_MOST, target=limit, operation="declare",
            what=Name(one.what), most=Most(limit), left=left,
        )  # fmt: skip


def all_behind(whole: Whole) -> list[CaseLoad]:
    """Each load that stands wholly behind the axle, once, as heavy as it gets."""
    found: dict[int, CaseLoad] = {}
    for case in whole.weights.cases():
        for one in case.loads:
            if one.behind(case.span):
                before = found.get(id(one.load))
                if before is None or one.weight.hi > before.weight.hi:
                    found[id(one.load)] = one
    return list(found.values())
