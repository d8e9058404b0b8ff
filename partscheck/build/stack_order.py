"""In which order adapters and spacers stand between a hub and its wheel."""

from __future__ import annotations

from itertools import permutations

from partscheck.notation.faults import Fault

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

MOST_PLATES = 5  # every order of them is tried


def order_plates(plates: list[Any], hub: Any, at: str) -> tuple[list[Any], list[Fault]]:
    """The plates from the hub outwards, or a fault when their order cannot be told.

    ``mounts_on`` decides; without it the bolt circles do, when they allow just one order.
    """
    if len(plates) < 2:
        return plates, []
    if len(plates) > MOST_PLATES:
        expected = f"at most {MOST_PLATES} adapters and spacers at one place"
        hint = "add `at:` with their places, or take lines out"
        return [], [Fault(plates[1].mark, f"{len(plates)} lines at {at}", expected, hint)]
    pinned = [order for order in permutations(plates) if _agrees(order, hub)]
    if len(pinned) > 1:
        fitting = [order for order in pinned if _circles_meet(order, hub)]
        if len(fitting) == 1:
            return list(fitting[0]), []
    if len(pinned) == 1:
        return list(pinned[0]), []
    names = " and ".join(f"'{plate.id}'" for plate in plates)
    on_hub = "" if hub is None else f"`mounts_on: {hub.id}` to the one on the hub and "
    fault = Fault(
        plates[1].mark,
        f"{names} at {at}, order not known",
        "which plate stands on which",
        f"add {on_hub}`mounts_on: {plates[0].id}` (or the like) to the one on it, or take one line out",
    )
    return plates, [fault]


def _agrees(order: tuple[Any, ...], hub: Any) -> bool:
    """Every typed ``mounts_on`` names the part just inboard."""
    below = hub
    for plate in order:
        typed = plate.typed("mounts_on")
        if typed is not None and (below is None or typed.value != below.id):
            return False
        below = plate
    return True


def _circles_meet(order: tuple[Any, ...], hub: Any) -> bool:
    circle = None if hub is None else hub.bolt_circle
    for plate in order:
        takes = plate.hub_circle if plate.kind == "adapter" else plate.bolt_circle
        if circle is not None and circle.known and takes.known:
            apart = abs(circle.diameter.mid - takes.diameter.mid)
            if circle.count != takes.count or apart > 1.0:
                return False
        circle = plate.wheel_circle if plate.kind == "adapter" else plate.bolt_circle
    return True
