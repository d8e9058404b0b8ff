"""Every kind of part, by the word that stands after ``kind:``."""

from __future__ import annotations

from partscheck.parts import (
    bearings,
    electrics,
    fasteners,
    other,
    plates,
    running_gear,
    tires,
    towing,
    wheel_end,
    wheels,
)
from partscheck.parts.record import Part

KINDS: dict[str, type[Part]] = {
    kind.kind: kind
    for module in (
        wheel_end,
        plates,
        wheels,
        tires,
        running_gear,
        bearings,
        fasteners,
        towing,
        electrics,
        other,
    )
    for kind in vars(module).values()
    if isinstance(kind, type) and issubclass(kind, Part) and kind.kind
}
