"""Values of studs and nuts that can be known in more than one way: one face of a wheel end.

Lengths count from the seating face of the part that carries the studs (``LugSet.base``).
"""

from __future__ import annotations

from partscheck.notation.interval import INF, Interval, Quantity, least_of

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.places import LugSet
    from partscheck.notation.thread import Thread

NOTHING = Interval(0.0, 0.0, "mm")


def has_studs(lugs: LugSet) -> bool:
    """Whether studs stand on the base, as far as the list says; False where it takes wheel bolts.

    Where nothing of studs or holes is typed, the nuts or bolts that are listed tell.
    """
    base = lugs.base
    if base is None:
        return False
    if lugs.stud is not None or base.has("stud_thread") or base.has("stud_length"):
        return True
    if base.kind == "hub" and base.has("hole_thread"):
        return False
    bolts_listed = bool(lugs.end.part("wheel-bolt") or lugs.end.part("hub-bolt"))
    return not (lugs.bolted if lugs.fastener is not None else bolts_listed)


def stud_length(lugs: LugSet) -> Interval:
    """How far the studs stand proud of the base's face, mm, tip included.

    A stud bought loose (kind ``stud``) is typed under its head: what stands proud is less.
    """
    proud: Interval = lugs.base.stud_length
    if lugs.stud is None or lugs.base.has("stud_length"):
        return proud
    return proud.clipped(most=lugs.stud.length.hi)


def stud_thread(lugs: LugSet) -> Thread:
    """Thread of the studs: the base's, else of the loose studs."""
    if lugs.stud is not None and not lugs.base.has("stud_thread") and lugs.stud.has("thread"):
        return lugs.stud.thread  # type: ignore[no-any-return]
    return lugs.base.stud_thread  # type: ignore[no-any-return]


def nominal_diameter(lugs: LugSet) -> Interval:
    """Nominal diameter of the thread, mm: the studs', else the nuts' that are to go on them."""
    thread = stud_thread(lugs)
    if thread.known:
        return thread.diameter
    if lugs.hub_side and lugs.held.has("hub_nut_thread"):
        return lugs.held.hub_nut_thread.diameter  # type: ignore[no-any-return]
    if lugs.fastener is not None and lugs.fastener.has("thread"):
        return lugs.fastener.thread.diameter  # type: ignore[no-any-return]
    return thread.diameter


def plain_tip(lugs: LugSet) -> Interval:
    """Unthreaded tip of the studs, mm; nothing unless typed: most studs are threaded to the end."""
    return lugs.base.stud_point if lugs.base.has("stud_point") else NOTHING


def plates_between(lugs: LugSet) -> Interval:
    """Thickness of the slip-on spacers between the base and what it holds, mm."""
    total = NOTHING
    for spacer in lugs.between:
        total = total + spacer.thickness
    return total


def seat_height(lugs: LugSet) -> Interval:
    """From the base's face to where the nuts bear, mm: spacers, and the metal under the seat."""
    return plates_between(lugs) + seat_thickness(lugs)


def seat_thickness(lugs: LugSet) -> Interval:
    """Metal of the held part under the nuts, mm.

    A wheel's value typed without a tolerance is uncertain by the practice limit; an adapter has no
    more metal there than it is thick.
    """
    held = lugs.held
    if held.kind == "adapter":
        seat, most = held.nut_seat_thickness, held.thickness.hi
        return Interval(seat.lo, max(seat.lo, min(seat.hi, most)), "mm")
    seat = held.seat_thickness
    if not is_name(seat):
        return seat  # type: ignore[no-any-return]
    return seat.widened(lugs.limits.seat_thickness_tolerance.hi).clipped(0.0)  # type: ignore[no-any-return]


def sleeve(lugs: LugSet) -> Interval:
    """How far the thread of a shank nut reaches into the wheel, below its seat, mm."""
    nut = lugs.fastener
    if nut is None or nut.kind != "lug-nut" or lugs.hub_side:
        return NOTHING
    if nut.has("shank_length") or (nut.has("seat") and nut.seat == "shank"):
        return least_of(nut.shank_length, lugs.held.seat_thickness)
    return NOTHING


def entering_thread(lugs: LugSet) -> Interval:
    """Thread of a stud beyond where a nut's own thread begins, mm (below 0: it does not reach)."""
    return stud_length(lugs) - seat_height(lugs) - plain_tip(lugs) + sleeve(lugs)


def nut_thread(lugs: LugSet) -> Interval:
    """Full thread of the nut, mm, its sleeve included; as long as you like when there is no nut."""
    if lugs.fastener is None:
        return Interval(INF, INF, "mm")
    return lugs.fastener.depth + sleeve(lugs)  # type: ignore[no-any-return]


def full_engagement(lugs: LugSet) -> Interval:
    """Engaged thread asked for by practice, mm: a multiple of the nominal diameter."""
    return nominal_diameter(lugs) * lugs.limits.minimum_thread_engagement


def stud_count(lugs: LugSet) -> int | None:
    """Studs (or bolts) on this face; None when neither face says."""
    for part, field in _circles(lugs):
        if part is not None and part.has(field):
            return getattr(part, field).count  # type: ignore[no-any-return]
    base, field = _circles(lugs)[0]
    return None if base is None else getattr(base, field).count  # asks for it


def _circles(lugs: LugSet) -> tuple[tuple[Any, str], ...]:
    on_base = "wheel_circle" if lugs.base is not None and lugs.base.kind == "adapter" else "bolt_circle"
    on_held = "hub_circle" if lugs.hub_side else "bolt_circle"
    return (lugs.base, on_base), (lugs.held, on_held)


def is_name(value: Any) -> bool:
    """True for a value typed without a tolerance: a trade name or a nominal, not a measurement."""
    return isinstance(value, Quantity) and not value.toleranced
