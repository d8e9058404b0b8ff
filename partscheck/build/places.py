"""The places of a build that rules bind to: what meets what, and where.

Every binding has ``build``, ``at`` (positions, "" for the whole build) and ``parts`` (the lines
concerned, the one to look at first in front).
"""

from __future__ import annotations

from partscheck.notation.interval import Interval

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.limits import Limits
    from partscheck.build.model import Build
    from partscheck.build.weights import Weights
    from partscheck.parts.record import Part


class Binding:
    """What a rule looks at."""

    build: Build
    weights: Weights
    at: tuple[str, ...] = ()
    parts: tuple[Part, ...] = ()

    @property
    def limits(self) -> Limits:
        """The practice limits in force."""
        return self.build.limits

    @property
    def tables(self) -> Any:
        """The catalogue's tables: ``row(table, key)``, ``rows(table)``."""
        return self.build.tables


class WheelEnd(Binding):
    """All that sits at one place (or at several places alike), from the spindle outwards.

    ``roles`` maps a role to its part: hub, wheel, tire, stud, plate-stud (pressed into an adapter),
    brake, seal, dust-cap, spindle-nut, axle, suspension-arm, spindle, leaf-spring, inner-bearing,
    outer-bearing, hub-nut or hub-bolt (clamp the adapter to the hub), lug-nut or wheel-bolt (hold the
    wheel).
    ``plates`` are the adapters and spacers between hub and wheel, from the hub outwards.
    """

    def __init__(
        self,
        build: Build,
        weights: Weights,
        at: tuple[str, ...],
        roles: dict[str, Any],
        plates: tuple[Any, ...],
    ) -> None:
        self.build = build
        self.weights = weights
        self.at = at
        self.roles = roles
        self.plates = plates
        self.parts = (*roles.values(), *plates)

    def part(self, role: str) -> Any:
        """The part in a role, or None."""
        return self.roles.get(role)

    @property
    def hub(self) -> Any:
        return self.roles.get("hub")

    @property
    def wheel(self) -> Any:
        return self.roles.get("wheel")

    @property
    def tire(self) -> Any:
        return self.roles.get("tire")

    @property
    def brake(self) -> Any:
        return self.roles.get("brake")

    @property
    def on_the_hub(self) -> Any:
        """The nuts or wheel bolts that clamp the adapter to the hub, or None."""
        return self.roles.get("hub-nut") or self.roles.get("hub-bolt")

    @property
    def running_gear(self) -> Any:
        """What carries the spindle: the arm, the axle, or the spindle itself; None if not listed."""
        for role in ("suspension-arm", "axle", "spindle"):
            if role in self.roles:
                return self.roles[role]
        return None

    @property
    def is_spare(self) -> bool:
        return self.at == ("spare",)

    @property
    def stack_thickness(self) -> Interval:
        """Thickness of everything between the hub's and the wheel's seating faces, mm."""
        total = Interval(0.0, 0.0, "mm")
        for plate in self.plates:
            total = total + plate.thickness
        return total

    @property
    def corner_load(self) -> Interval:
        """What the worst of these wheels carries, at rest, N; with the load case that it is of."""
        return self.weights.corner_load(self)


class Seat(Binding):
    """Two faces that meet with one bolt circle: ``inner`` (towards the hub) and ``outer``."""

    def __init__(self, end: WheelEnd, inner: Any, outer: Any) -> None:
        self.end = end
        self.build, self.weights, self.at = end.build, end.weights, end.at
        self.inner = inner
        self.outer = outer
        self.parts = (inner, outer)

    @property
    def inner_circle_field(self) -> str:
        return "wheel_circle" if self.inner.kind == "adapter" else "bolt_circle"

    @property
    def outer_circle_field(self) -> str:
        return "hub_circle" if self.outer.kind == "adapter" else "bolt_circle"

    @property
    def inner_circle(self) -> Any:
        """Bolt circle that the inner part offers."""
        return getattr(self.inner, self.inner_circle_field)

    @property
    def outer_circle(self) -> Any:
        """Bolt circle that the outer part is drilled for."""
        return getattr(self.outer, self.outer_circle_field)


class PlateSeat(Binding):
    """One adapter or spacer in its stack: what is inboard of it, what is outboard of it.

    ``inner`` is the hub or the plate before it (or None), ``outer`` the plate after it or the
    wheel (or None); ``nuts`` clamp an adapter to the hub (or None).
    """

    def __init__(self, end: WheelEnd, plate: Any, inner: Any, outer: Any) -> None:
        self.end = end
        self.build, self.weights, self.at = end.build, end.weights, end.at
        self.plate = plate
        self.inner = inner
        self.outer = outer
        self.nuts = end.on_the_hub if plate.kind == "adapter" else None
        around = (plate, inner, outer, self.nuts)
        self.parts = tuple(part for part in around if part is not None)


class LugSet(Binding):
    """The fasteners of one face: ``fastener`` (lug-nut or wheel-bolt) holds ``held`` (adapter or
    wheel) on ``base`` (hub, or the adapter under the wheel).  Any of the three may be None.

    ``stud_part`` owns the studs' fields: the base, or a line of kind ``stud``.  ``between`` are
    the slip-on spacers clamped in between.
    """

    def __init__(
        self, end: WheelEnd, base: Any, held: Any, fastener: Any, between: tuple[Any, ...] = ()
    ) -> None:
        self.end = end
        self.build, self.weights, self.at = end.build, end.weights, end.at
        self.base = base
        self.held = held
        self.fastener = fastener
        self.between = between
        self.stud = None if base is None else end.part("stud" if base.kind == "hub" else "plate-stud")
        around = (base, self.stud, *between, held, fastener)
        self.parts = tuple(part for part in around if part is not None)

    @property
    def bolted(self) -> bool:
        """True when wheel bolts go into a threaded hub: no studs, no nuts."""
        return self.fastener is not None and self.fastener.kind == "wheel-bolt"

    @property
    def hub_side(self) -> bool:
        """True for the nuts that hold an adapter on the hub."""
        return self.held is not None and self.held.kind == "adapter"


class MountedTire(Binding):
    """A tire on its wheel; the spare too."""

    def __init__(self, end: WheelEnd) -> None:
        self.end = end
        self.build, self.weights, self.at = end.build, end.weights, end.at
        self.wheel, self.tire = end.wheel, end.tire
        self.parts = (self.tire, self.wheel)


class AxlePlace(Binding):
    """One axle (counted from the front): its ends left and right, and its axle part if listed."""

    def __init__(self, build: Build, weights: Weights, number: int, ends: list[WheelEnd]) -> None:
        self.build = build
        self.weights = weights
        self.number = number
        self.ends = ends
        self.at = tuple(at for end in ends for at in end.at if at.startswith(str(number)))
        self.axle = next((end.roles["axle"] for end in ends if "axle" in end.roles), None)
        seen: list[Any] = [] if self.axle is None else [self.axle]
        for end in ends:
            seen.extend(part for part in end.parts if part not in seen)
        self.parts = tuple(seen)

    def each(self, role: str) -> list[tuple[str, Any]]:
        """(position, part) of a role at each place of this axle."""
        return [
            (at, end.roles[role])
            for end in self.ends
            for at in end.at
            if role in end.roles and at in self.at
        ]

    @property
    def load(self) -> Interval:
        """What this axle carries, at rest, N."""
        return self.weights.axle_load(self.number)


class Line(Binding):
    """One line of the parts list, wherever it is used."""

    def __init__(self, build: Build, weights: Weights, part: Any, at: tuple[str, ...]) -> None:
        self.build = build
        self.weights = weights
        self.part = part
        self.at = at
        self.parts = (part,)

    def ends(self) -> list[WheelEnd]:
        """The wheel ends that it sits at, the spare left out."""
        ends: list[WheelEnd] = self.weights.fit.ends
        return [end for end in ends if any(one is self.part for one in end.parts)]


class Whole(Binding):
    """The whole build."""

    def __init__(self, build: Build, weights: Weights) -> None:
        self.build = build
        self.weights = weights

    @property
    def fit(self) -> Any:
        """The fit graph."""
        return self.weights.fit
