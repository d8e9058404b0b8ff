"""Which parts lie where, as bits: many conditions at once come down to a few bitwise ANDs.

The parts of a kind stand in the order of their price, and bit i of a bitmap is the i-th of them.  For each number
of a field the low ends are parted into at most 64 steps of about as many parts each, and a bitmap is kept of all
parts up to each step; a range is one such bitmap less another.  The steps at its two ends hold parts on both
sides of the limit: these are looked at one by one.  Words have a bitmap each where they are few.
"""

from __future__ import annotations

import re
from bisect import bisect_left, bisect_right
from typing import TYPE_CHECKING, Any

from partscheck.catalogue.query import CONTAINS, HOLDS, IS, LESS, MORE
from partscheck.notation.interval import INF

if TYPE_CHECKING:
    import sqlite3
    from collections.abc import Iterator

    from partscheck.catalogue.query import Clause
    from partscheck.catalogue.stock import Facet

STEPS = 64
WORDS_AT_MOST = 256
_SOME = re.compile(rb"[^\0]")  # a byte with any bit set, found at the speed of C

TABLES = """
CREATE TABLE step (kind TEXT, field TEXT, name TEXT, place INTEGER, top, bits BLOB,
    PRIMARY KEY (kind, field, name, place)) WITHOUT ROWID;
CREATE TABLE edge (kind TEXT, field TEXT, name TEXT, tops TEXT, PRIMARY KEY (kind, field, name)) WITHOUT ROWID;
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
    """(word, parts that have it); None where there are too many words."""
    found: dict[str, bytearray] = {}
    size = len(words) // 8 + 1
    for place, word in enumerate(words):
        if word is None:
            continue
        bits = found.get(word)
        if bits is None:
            if len(found) >= WORDS_AT_MOST:
                return None
            bits = found[word] = bytearray(size)
        bits[place >> 3] |= 1 << (place & 7)
    return [(word, bytes(bits)) for word, bits in sorted(found.items())]


def write(
    connection: sqlite3.Connection, kind: str, field: str, name: str, steps: list[tuple[Any, bytes]]
) -> None:
    connection.executemany(
        "INSERT INTO step VALUES (?,?,?,?,?,?)",
        ((kind, field, name, place, top, bits) for place, (top, bits) in enumerate(steps)),
    )
    # The limits of the steps alone, so that finding the right ones reads no bitmap.
    tops = "\x1f".join(top if isinstance(top, str) else repr(top) for top, _ in steps)
    connection.execute("INSERT INTO edge VALUES (?,?,?,?)", (kind, field, name, tops))


def stated(connection: sqlite3.Connection, kind: str, field: str, clause: Clause) -> int | None:
    """All parts that state what a clause asks for; None where there is no bitmap of it."""
    tops = _tops(connection, kind, field, clause.name)
    if tops is None:
        return None
    if clause.numeric:
        return _bits(connection, kind, field, clause.name, len(tops) - 1)
    bits = 0
    for place in range(len(tops)):
        bits |= _bits(connection, kind, field, clause.name, place)
    return bits


def expected(connection: sqlite3.Connection, kind: str, field: str, clause: Clause, facet: Facet) -> int:
    """About how many parts may meet a clause of numbers; all, where nobody knows."""
    tops = _tops(connection, kind, field, clause.name)
    if tops is None or not clause.numeric:
        return facet.parts
    values = [float(top) for top in tops]
    low, high = _ends(clause, facet)
    steps = bisect_right(values, high) - bisect_left(values, low)
    return facet.parts * max(steps, 0 if facet.steps_exact else 1) // len(values)


def of_clause(connection: sqlite3.Connection, kind: str, field: str, clause: Clause, facet: Facet) -> Bits | None:
    """The parts that may and surely do meet a clause; None where there is no bitmap of it."""
    tops = _tops(connection, kind, field, clause.name)
    if tops is None:
        return None

    def upto(place: int) -> int:
        return _bits(connection, kind, field, clause.name, place)

    if not clause.numeric:
        return _of_words(clause, tops, upto)
    values = [float(top) for top in tops]
    low, high = _ends(clause, facet)
    # Low ends from `low` to `high`: the steps that hold one of them, and those that hold no other.
    first, last = bisect_left(values, low), bisect_right(values, high)
    may = upto(min(last, len(values) - 1)) & ~upto(first - 1)
    if facet.widest > 0:
        return Bits(may, 0)  # the other end decides, too
    exact = len(values) <= STEPS and facet.steps_exact
    inner = first if exact or low == -INF else first + 1
    sure = upto(last - 1) & ~upto(inner - 1) if last > inner else 0
    if exact:
        return Bits(sure, sure)
    return Bits(may, sure)


def _ends(clause: Clause, facet: Facet) -> tuple[float, float]:
    """Between what a low end has to lie."""
    close = clause.close
    if clause.relation == HOLDS:
        reach = facet.widest + close if facet.widest else 0.0
        return clause.low - reach - close, clause.high + close
    if clause.relation in (MORE, LESS):
        return clause.low + close, clause.high - close
    return clause.low - close, clause.high + close


def _of_words(clause: Clause, tops: list[str], upto: Any) -> Bits:
    bits = 0
    for place, word in enumerate(tops):
        if (clause.relation == IS and word in clause.words) or (
            clause.relation == CONTAINS and clause.words[0] in word
        ):
            bits |= upto(place)
    return Bits(bits, bits)


def _tops(connection: sqlite3.Connection, kind: str, field: str, name: str) -> list[str] | None:
    found = connection.execute(
        "SELECT tops FROM edge WHERE kind = ? AND field = ? AND name = ?", (kind, field, name)
    ).fetchone()
    return None if found is None else found[0].split("\x1f")


def _bits(connection: sqlite3.Connection, kind: str, field: str, name: str, place: int) -> int:
    if place < 0:
        return 0
    found = connection.execute(
        "SELECT bits FROM step WHERE kind = ? AND field = ? AND name = ? AND place = ?", (kind, field, name, place)
    ).fetchone()
    return int.from_bytes(found[0], "little")


def places(bits: int) -> Iterator[int]:
    """The places of the bits that are set, lowest first."""
    data = bits.to_bytes(bits.bit_length() // 8 + 1, "little")
    for found in _SOME.finditer(data):
        start, byte = found.start() * 8, data[found.start()]
        while byte:
            lowest = byte & -byte
            yield start + lowest.bit_length() - 1
            byte ^= lowest


def count(bits: int) -> int:
    """How many bits are set."""
    return bits.bit_count()
