"""Which parts lie where, as bits: many conditions at once come down to a few bitwise ANDs.

The parts of a kind stand in the order of their price, and bit i of a bitmap is the i-th of them.  For each number
of a field the low ends are parted into at most 128 steps of about as many parts each, and a bitmap is kept of all
parts up to each step; a range is one such bitmap less another.  The steps at its two ends hold parts on both
sides of the limit: these are looked at one by one.  Words have a bitmap each where they are few.
"""

from __future__ import annotations

import re
from bisect import bisect_left, bisect_right

from partscheck.catalogue.query import CONTAINS, HOLDS, IS, LESS, MORE
from partscheck.notation.interval import INF

TYPE_CHECKING = False
if TYPE_CHECKING:
    import sqlite3
    from collections.abc import Iterable, Iterator
    from typing import Any

    from partscheck.catalogue.query import Clause
    from partscheck.catalogue.stock import Facet

STEPS = 128
WORDS_AT_MOST = 256
BETWEEN = "\x1f"  # parts the limits of steps where they are stored
_SOME = re.compile(rb"[^\0]")  # a byte with any bit set, found at the speed of C

TABLES = """
CREATE TABLE step (number INTEGER PRIMARY KEY, bits BLOB);
CREATE TABLE edge (kind TEXT, field TEXT, name TEXT, first INTEGER, tops TEXT,
    PRIMARY KEY (kind, field, name)) WITHOUT ROWID;
"""


class Bits:
    """Parts that may meet a condition, and those of them that surely do."""

    __slots__ = ("may", "sure")

    def __init__(self, may: int, sure: int) -> None:
        self.may = may
        self.sure = sure


def number_steps(order: list[tuple[float, int]], distinct: int, places: int) -> list[tuple[float, bytes]]:
    """(highest low end, parts up to it) of each step.

    ``order`` are (low end, place) from the lowest on, ``distinct`` how many different ones, ``places`` the
    highest place there is.
    """
    bits = bytearray(places // 8 + 1)
    steps: list[tuple[float, bytes]] = []
    each = 1 if distinct <= STEPS else -(-len(order) // STEPS)
    since, last = 0, None
    for low, place in order:
        if since >= each and low != last:  # equal values share a step
            steps.append((last, bytes(bits)))  # type: ignore[arg-type]
            since = 0
        bits[place >> 3] |= 1 << (place & 7)
        since += 1
        last = low
    if last is not None:
        steps.append((last, bytes(bits)))
    return steps


def word_bits(words: list[str | None]) -> list[tuple[str, bytes]] | None:
    """(word, parts that have it); None where there are too many words, or one that cannot be stored so."""
    found: dict[str, bytearray] = {}
    size = len(words) // 8 + 1
    for place, word in enumerate(words):
        if word is None:
            continue
        bits = found.get(word)
        if bits is None:
            if len(found) >= WORDS_AT_MOST or BETWEEN in word:
                return None
            bits = found[word] = bytearray(size)
        bits[place >> 3] |= 1 << (place & 7)
    return [(word, bytes(bits)) for word, bits in sorted(found.items())]


def write(
    connection: sqlite3.Connection, kind: str, field: str, name: str, steps: list[tuple[Any, bytes]]
) -> None:
    """Bitmaps of one facet, one after the other; ``edge`` tells where they begin and the limits of their steps,
    so that finding the right ones reads no bitmap.
    """
    first = connection.execute("SELECT coalesce(max(number), 0) + 1 FROM step").fetchone()[0]
    connection.executemany("INSERT INTO step VALUES (?,?)", enumerate((bits for _, bits in steps), start=first))
    tops = BETWEEN.join(top if isinstance(top, str) else repr(top) for top, _ in steps)
    connection.execute("INSERT INTO edge VALUES (?,?,?,?,?)", (kind, field, name, first, tops))


class Bitmaps:
    """The bitmaps of one kind in one stock: the limits of the steps read at once, each bitmap when needed."""

    def __init__(self, connection: sqlite3.Connection, kind: str) -> None:
        self._connection = connection
        rows = connection.execute("SELECT field, name, first, tops FROM edge WHERE kind = ?", (kind,))
        self._edges: dict[tuple[str, str], tuple[int, str]] = {(field, name): edge for field, name, *edge in rows}
        self._read: dict[int, int] = {}

    def stated(self, field: str, clause: Clause) -> int | None:
        """All parts that state what a clause asks for; None where there is no bitmap of it."""
        tops = self._tops(field, clause.name)
        if tops is None:
            return None
        if clause.numeric:
            return self._upto(field, clause.name, len(tops) - 1)
        bits = 0
        for place in range(len(tops)):
            bits |= self._upto(field, clause.name, place)
        return bits

    def expected(self, field: str, clause: Clause, facet: Facet) -> int:
        """About how many parts may meet a clause of numbers; all, where nobody knows."""
        tops = self._tops(field, clause.name)
        if tops is None or not clause.numeric:
            return facet.parts
        low, high = _ends(clause, facet)
        steps = bisect_right(tops, high, key=float) - bisect_left(tops, low, key=float)
        return facet.parts * max(steps, 0 if facet.steps_exact else 1) // len(tops)

    def of_clause(self, field: str, clause: Clause, facet: Facet) -> Bits | None:
        """The parts that may and surely do meet a clause; None where there is no bitmap of it."""
        tops = self._tops(field, clause.name)
        if tops is None:
            return None
        if not clause.numeric:
            met = self._of_words(field, clause, tops)
            return Bits(met, met)
        low, high = _ends(clause, facet)
        # Low ends from `low` to `high`: the steps that hold one of them, and those that hold no other.
        first, last = bisect_left(tops, low, key=float), bisect_right(tops, high, key=float)
        if facet.widest > 0:  # the other end decides, too
            return Bits(self._between(field, clause.name, first, min(last + 1, len(tops))), 0)
        if len(tops) <= STEPS and facet.steps_exact:
            met = self._between(field, clause.name, first, last)
            return Bits(met, met)
        may = self._between(field, clause.name, first, min(last + 1, len(tops)))
        return Bits(may, self._between(field, clause.name, first if low == -INF else first + 1, last))

    def _between(self, field: str, name: str, first: int, end: int) -> int:
        """The parts in the steps from ``first`` to the one before ``end``."""
        if end <= first:
            return 0
        return self._upto(field, name, end - 1) & ~self._upto(field, name, first - 1)

    def _of_words(self, field: str, clause: Clause, tops: list[str]) -> int:
        bits = 0
        for place, word in enumerate(tops):
            if (clause.relation == IS and word in clause.words) or (
                clause.relation == CONTAINS and clause.words[0] in word
            ):
                bits |= self._upto(field, clause.name, place)
        return bits

    def _tops(self, field: str, name: str) -> list[str] | None:
        edge = self._edges.get((field, name))
        return None if edge is None else edge[1].split(BETWEEN)

    def _upto(self, field: str, name: str, place: int) -> int:
        """The bitmap kept for a step: of all parts up to it, or of the parts that have its word."""
        if place < 0:
            return 0
        number = self._edges[field, name][0] + place
        if number not in self._read:
            (bits,) = self._connection.execute("SELECT bits FROM step WHERE number = ?", (number,)).fetchone()
            self._read[number] = int.from_bytes(bits, "little")
        return self._read[number]


def _ends(clause: Clause, facet: Facet) -> tuple[float, float]:
    """Between what a low end has to lie."""
    close = clause.close
    if clause.relation == HOLDS:
        reach = facet.widest + close if facet.widest else 0.0
        return clause.low - reach - close, clause.high + close
    if clause.relation in (MORE, LESS):
        return clause.low + close, clause.high - close
    return clause.low - close, clause.high + close


def places(bits: int) -> Iterator[int]:
    """The places of the bits that are set, lowest first."""
    data = bits.to_bytes(bits.bit_length() // 8 + 1, "little")
    for found in _SOME.finditer(data):
        start, byte = found.start() * 8, data[found.start()]
        while byte:
            lowest = byte & -byte
            yield start + lowest.bit_length() - 1
            byte ^= lowest


def from_places(places: Iterable[int], highest: int) -> int:
    """A bit at each of these places."""
    bits = bytearray(highest // 8 + 1)
    for place in places:
        bits[place >> 3] |= 1 << (place & 7)
    return int.from_bytes(bits, "little")


def count(bits: int) -> int:
    """How many bits are set."""
    return bits.bit_count()
