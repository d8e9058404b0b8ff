"""What joins the trailer to the tow vehicle, and what hangs on the trailer's rear, as places for rules."""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build.places import Binding
from partscheck.build.unclear import mark_of, named
from partscheck.notation.faults import Fault

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.model import Build
    from partscheck.build.weights import Weights

FRONT_KINDS = ("coupler", "ball", "ball-mount", "safety-chain", "jack")
ONE_ON_THE_WAY = ("coupler", "ball", "ball-mount")


class TowChain(Binding):
    """From the trailer's tongue to the tow vehicle: coupler, ball, ball mount, receiver, chains, jack.

    Each is a part or None; ``chains`` and ``jacks`` are all lines of their kind.
    """

    def __init__(self, build: Build, weights: Weights) -> None:
        self.build = build
        self.weights = weights
        self.coupler: Any = _first(build, "coupler")
        self.ball: Any = _first(build, "ball")
        self.mount: Any = _first(build, "ball-mount")
        self.receiver: Any = next(iter(front_receivers(build)), None)
        self.chains: tuple[Any, ...] = tuple(build.of_kind("safety-chain"))
        self.jacks: tuple[Any, ...] = tuple(build.of_kind("jack"))
        around = (self.coupler, self.ball, self.mount, self.receiver, *self.chains, *self.jacks)
        self.parts = tuple(part for part in around if part is not None)


class RearRack(Binding):
    """A rack in a receiver at the trailer's rear; either may be None."""

    def __init__(self, build: Build, weights: Weights, rack: Any, receiver: Any) -> None:
        self.build = build
        self.weights = weights
        self.rack = rack
        self.receiver = receiver
        self.parts = tuple(part for part in (rack, receiver) if part is not None)


def tow_chains(build: Build, weights: Weights) -> Iterator[TowChain]:
    """The one chain of a list that has a part of it or says what pulls."""
    if build.of_kind(*FRONT_KINDS) or front_receivers(build) or build.tow_vehicle.everything():
        yield TowChain(build, weights)


def rear_racks(build: Build, weights: Weights) -> Iterator[RearRack]:
    """Each rack with the receiver that it sits in, then rear receivers with no rack in them."""
    receivers = rear_receivers(build)
    taken: list[Any] = []
    for rack in build.of_kind("rack"):
        target = _text(rack, "mounts_on")
        receiver = next((one for one in receivers if one.id == target), None)
        if receiver is None and not target:
            receiver = next((one for one in receivers if one not in taken), None)
        taken.append(receiver)
        yield RearRack(build, weights, rack, receiver)
    for receiver in receivers:
        if receiver not in taken:
            yield RearRack(build, weights, None, receiver)


def rear_receivers(build: Build) -> list[Any]:
    """Receivers at the trailer's rear: as typed, or the one that a rack names, or one that only a rack is for."""
    return [part for part in build.of_kind("receiver") if _at_rear(build, part)]


def front_receivers(build: Build) -> list[Any]:
    """Receivers on the tow vehicle: all that are not at the trailer's rear."""
    return [part for part in build.of_kind("receiver") if not _at_rear(build, part)]


def _at_rear(build: Build, receiver: Any) -> bool:
    place = _text(receiver, "place")
    if place:
        return place == "trailer rear"
    racks = build.of_kind("rack")
    if any(_text(rack, "mounts_on") == receiver.id for rack in racks):
        return True
    # A single receiver without a place serves the ball mount, unless there is only a rack for it.
    alone = len(build.of_kind("receiver")) == 1
    return alone and bool(racks) and not build.of_kind("ball-mount")


def unclear_chain(build: Build) -> list[Fault]:
    """Faults of a list with two parts where the chain has room for one."""
    faults = []
    groups: list[tuple[str, list[Any]]] = [(kind, list(build.of_kind(kind))) for kind in ONE_ON_THE_WAY]
    groups.append(("receiver on the tow vehicle", front_receivers(build)))
    for role, lines in groups:
        if len(lines) > 1:
            hint = "take the others out"
            if role.startswith("receiver"):
                hint = "add `place: trailer rear` to the one on the trailer, or " + hint
            words = f"{role.replace('-', ' ')}s {named(lines)}"
            faults.append(Fault(mark_of(lines[1]), words, f"one {role.replace('-', ' ')} on the way", hint))
    return faults


def _first(build: Build, kind: str) -> Any:
    lines = build.of_kind(kind)
    return lines[0] if lines else None


def _text(part: Any, name: str) -> str:
    typed = part.typed(name)
    return typed.value if typed is not None and isinstance(typed.value, str) else ""
