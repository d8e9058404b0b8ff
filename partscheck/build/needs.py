"""How many pieces of each line the build needs, from the places where it sits."""

from __future__ import annotations

from partscheck.build.places import LugSet, WheelEnd

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.fit import Fit
    from partscheck.parts.record import Part

# One piece at each place of a kind; wheels and tires at the spare's place too.
ONE_AT_A_PLACE = (
    "hub", "adapter", "spacer", "wheel", "tire", "brake", "suspension-arm", "spindle", "leaf-spring", "seal",
    "dust-cap", "spindle-nut", "spindle-washer", "cotter-pin",
)  # fmt: skip
U_BOLTS_PER_SPRING = 2  # one before and one behind the axle tube (practice)


class Need:
    """``count`` pieces, and ``words``: what for, such as "5 at each of 1L, 1R, for the wheel"."""

    __slots__ = ("count", "words")

    def __init__(self, count: int, words: str) -> None:
        self.count = count
        self.words = words


def need_of(part: Part, fit: Fit) -> Need | None:
    """What the build needs of one line; None where nothing tells, or it sits nowhere."""
    if part.kind in ("lug-nut", "wheel-bolt"):
        return _fasteners(part, fit)
    if part.kind == "stud":
        return _studs(part, fit)
    if part.kind == "u-bolt":
        return _u_bolts(fit)
    if part.kind in ("bolt", "nut", "washer"):
        return _joint_pieces(part, fit)
    places = fit.places_of(part)
    if not places:
        return None
    if part.kind == "axle":
        return _each(1, tuple(dict.fromkeys(f"axle {at[:-1]}" for at in places if at[0].isdigit())))
    if part.kind == "bearing":
        return _bearings(part, fit)
    return _each(1, places) if part.kind in ONE_AT_A_PLACE else None


def lug_count(lugs: LugSet) -> int | None:
    """Studs (or bolts) of one face: the base's circle, else that of what is held on it."""
    if lugs.base is not None:
        circle = lugs.base.wheel_circle if lugs.base.kind == "adapter" else lugs.base.bolt_circle
        if circle.count is not None:
            return int(circle.count)
    if lugs.held is not None:
        circle = lugs.held.hub_circle if lugs.held.kind == "adapter" else lugs.held.bolt_circle
        return None if circle.count is None else int(circle.count)
    return None


def _fasteners(part: Part, fit: Fit) -> Need | None:
    """One on each stud of every face it holds; a line that serves both faces counts for both."""
    faces: dict[tuple[int, str], tuple[str, ...]] = {}
    for lugs in fit.bindings(LugSet):
        if lugs.fastener is not part:
            continue
        count = lug_count(lugs)
        if count is None:
            return None
        held = lugs.held.kind if lugs.held is not None else "wheel"
        alike = (count, f"for the {held}")
        faces[alike] = (*faces.get(alike, ()), *lugs.at)
    return _together([_each(count, tuple(sorted(at)), held) for (count, held), at in faces.items()])


def _studs(part: Part, fit: Fit) -> Need | None:
    faces: dict[int, tuple[str, ...]] = {}
    for lugs in fit.bindings(LugSet):
        if lugs.stud is part:
            count = lug_count(lugs)
            if count is None:
                return None
            faces[count] = (*faces.get(count, ()), *lugs.at)
    return _together([_each(count, tuple(sorted(at))) for count, at in faces.items()])


def _bearings(part: Part, fit: Fit) -> Need | None:
    """One set for each role (inner, outer) that the line fills at a place."""
    ends: list[WheelEnd] = fit.bindings(WheelEnd)
    places: dict[str, tuple[str, ...]] = {}
    for end in ends:
        for role, one in end.roles.items():
            if one is part:
                places[role] = (*places.get(role, ()), *end.at)
    return _together([_each(1, tuple(sorted(at)), role.replace("-", " ")) for role, at in places.items()])


def _u_bolts(fit: Fit) -> Need | None:
    lines = fit.build.of_kind("u-bolt")
    springs = [at for at in fit.positions if "leaf-spring" in fit.places[at]]
    if len(lines) != 1 or not springs or not fit.build.of_kind("axle"):
        return None
    return _each(U_BOLTS_PER_SPRING, tuple(springs), "for the springs")


def _joint_pieces(part: Part, fit: Fit) -> Need | None:
    """Bolts, nuts and washers of the bolted joints that name the line."""
    found: list[Need] = []
    for joint in fit.build.joints:
        times = _uses(joint, part.id)
        if times and not joint.has("bolts"):
            return None
        if times:
            places = joint.places if joint.has("places") else 1
            each = times * joint.bolts
            found.append(Need(each * places, _joint_words(each, places, joint.id)))
    return _together(found)


def _uses(joint: Any, id: str) -> int:
    """How often one bolt of the joint uses the line."""
    bolts = joint.bolt if joint.has("bolt") else ()
    if id in bolts:
        return 1 if len(bolts) == 1 else 0  # several sorts of bolt in one joint: how many of each is not said
    count = 1 if joint.has("nut") and joint.nut == id else 0
    if joint.has("washers"):
        sides = [getattr(joint.washers, name) for name in ("head", "nut") if joint.washers.has(name)]
        count += sides.count(id)
    return count


def _joint_words(count: int, places: int, name: str) -> str:
    """The count never stands before a word that reads as inches."""
    return f"'{name}': {count}" + (f" at each of {places} places" if places > 1 else "")


def _each(count: int, places: tuple[str, ...], purpose: str = "") -> Need:
    at = f"{count} at {places[0]}" if len(places) == 1 else f"{count} at each of {', '.join(places)}"
    return Need(count * len(places), at + (f", {purpose}" if purpose else ""))


def _together(needs: list[Need]) -> Need | None:
    if not needs:
        return None
    return Need(sum(need.count for need in needs), "; ".join(need.words for need in needs))
