"""How much room each rated part has left, and the demand for more of it: for plans of the greatest least room."""

from __future__ import annotations

from partscheck.build.tow_links import TONGUE
from partscheck.notation.interval import Interval
from partscheck.notation.show import show_limit
from partscheck.rules.check import AT_LEAST, Remedy
from partscheck.uses.load_path import load_path

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.engine import Result

SLUG = "least-room"
STEP = 0.005  # a plan counts as better from half a percent more room
# Records that every share depends on, whatever part carries it.
SHARED = ("service", "layout", "list")


class Room:
    """A part that carries weight, with ``share`` of its load left over: 0.18 is 18 % more than it carries.

    Taken for a stop where a plan asks for more room than that: it has the same names as a finding told.
    """

    __slots__ = (
        "at", "carries", "finding", "key", "limit", "name", "on_the_list", "parts", "reads", "remedies",
        "role", "share", "slug", "tongue",
    )  # fmt: skip

    def __init__(self, row: Any, loads: tuple[str, ...]) -> None:
        self.key = (SLUG, (row.part.id,), ("", row.of))
        self.slug = SLUG
        self.finding: Any = None
        self.limit: Any = None
        self.parts = (row.part.id,)
        self.at = row.at
        self.on_the_list = bool(getattr(row.part, "kind", ""))
        self.role = row.role
        self.tongue = row.of == TONGUE
        self.name = row.label
        self.carries = row.share
        self.share = row.margin.lo / row.share.hi
        self.reads = frozenset({row.part.id, *SHARED, *loads})
        self.remedies: list[tuple[Any, str]] = []

    def asked(self, floor: float, leading: str) -> Room:
        """With the remedy that gives it ``floor`` of room: a part rated for it."""
        if not self.on_the_list:  # nobody buys another tow vehicle for it
            return self
        target = Interval.exact(self.carries.hi * (1 + floor), "N")
        field = "tongue_rating" if self.tongue else "max_load" if self.role == "tire" else "rating"
        words = f"take one rated at least {show_limit(target, leading, up=True)}"
        self.remedies = [(Remedy(words, f"{self.parts[0]}.{field}", AT_LEAST, target), words)]
        return self


def rooms(result: Result) -> dict[Any, Room]:
    """The room of every part whose rating and load are known, least first."""
    loads = tuple(load.id for load in result.build.loads)
    rows = [row for row in load_path(result) if row.known and row.share.known and row.share.hi > 0]
    found = [Room(row, loads) for row in rows]
    return {one.key: one for one in sorted(found, key=lambda one: one.share)}
