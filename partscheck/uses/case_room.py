"""How much more each load case may weigh, and which part is its first limit."""

from __future__ import annotations

from partscheck.build.case_loads import known_cases
from partscheck.uses.load_path import LoadPathRow, grown_to

TYPE_CHECKING = False
if TYPE_CHECKING:
    from partscheck.engine import Result
    from partscheck.notation.interval import Interval


class CaseRoom:
    """One load case: ``name``, its ``total`` (N), ``room`` (N, until the first part is at its rating with all
    loads growing alike; below nothing: too heavy) and ``first``, the row of that part; both None when no
    rating is known.
    """

    __slots__ = ("first", "name", "room", "total")

    def __init__(self, name: str, total: Interval, room: Interval | None, first: LoadPathRow | None) -> None:
        self.name = name
        self.total = total
        self.room = room
        self.first = first


def case_rooms(result: Result, rows: list[LoadPathRow]) -> list[CaseRoom]:
    """One entry for each load case that is known, in the order of the list; ``rows`` of the load path."""
    return [_room(case.name, case.total, rows) for case in known_cases(result.fit.weights)]


def _room(name: str, total: Interval, rows: list[LoadPathRow]) -> CaseRoom:
    best: tuple[Interval, LoadPathRow] | None = None
    for row in rows:
        limit = grown_to(row.rating, row.cases[name], total) if row.known and name in row.cases else None
        if limit is not None and (best is None or limit.lo < best[0].lo):
            best = (limit, row)
    if best is None:
        return CaseRoom(name, total, None, None)
    return CaseRoom(name, total, best[0] - total, best[1])
