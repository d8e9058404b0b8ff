"""What the search has learned: a stop that is there with some options, and the options that clear it there."""

from __future__ import annotations

from partscheck.parts.kinds import KINDS
from partscheck.uses.fix.plan_search import Demand

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.uses.fix.edits import Option
    from partscheck.uses.fix.trials import Told

# Records of which a list has one: a rule that names only these and kinds reads no other lines.
SINGLE = (
    "service", "layout", "tongue", "tow_vehicle", "practice", "bolted_joint", "stack_item", "joint_load", "tapped",
    "washers", "load", "scale", "list",
)  # fmt: skip


class Rule:
    """A demand as it was learned: given these options the stop is there, and one of ``clearers`` clears it."""

    __slots__ = ("clearers", "given", "stop")

    def __init__(self, stop: Told, given: frozenset[int], clearers: set[int]) -> None:
        self.stop = stop
        self.given = given
        self.clearers = clearers

    def demand(self) -> Demand:
        return Demand(self.clearers, self.given)


class Found:
    """A choice that holds: the options, and whether nothing cheaper is left among those considered."""

    __slots__ = ("cost", "options", "proven")

    def __init__(self, options: tuple[Option, ...], cost: int, proven: bool) -> None:
        self.options = options
        self.cost = cost
        self.proven = proven


class _NoTold:
    """Stands where a demand is about no stop: options that cannot be applied together."""


NO_TOLD: Any = _NoTold()


def may_read(stop: Told, kind: str) -> bool:
    """Whether the stop's rule may look at lines of this kind; a rule of every line looks at all of them."""
    if stop.finding is None:
        return True
    heads = {read.partition(".")[0] for read in stop.finding.rule.reads}
    return kind in heads or not heads <= {*KINDS, *SINGLE}
