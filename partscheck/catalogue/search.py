"""Answers a query out of the stocks: the parts in order of price or weight, and the ones that just miss."""

from __future__ import annotations

from partscheck.catalogue import bitmaps
from partscheck.catalogue.query import CONTAINS, HOLDS, IS, LESS, MORE
from partscheck.catalogue.stock import BARE, quoted, table_of
from partscheck.notation.interval import INF
from partscheck.parts.types import DotWeekType, MonthType, TireSizeType

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import Any

    from partscheck.catalogue.query import Ask, Clause, Query
    from partscheck.catalogue.stock import Facet, Stock

COUNTED_AT_MOST = 1_000  # matches beyond are "1000 or more"
FEW = 10_000  # parts that an index is asked for where the bitmaps leave many in doubt
DOUBTFUL = 200  # parts that are looked at one by one without more ado
LOOKED_AT_ONCE = 32
SORTED_AT_MOST = 20_000  # matches that are sorted by weight; of more, the lightest are met along their index
MISSES_AT_MOST = 5
PRICE, WEIGHT = "price", "weight"
# A part with another one of these is another part, not a near miss.
_MANY_NAMES = (TireSizeType, DotWeekType, MonthType)


class Found:
    """A part that a query found: its id, its stock, and the number it is sorted by (None: not stated)."""

    __slots__ = ("id", "key", "stock")

    def __init__(self, id: str, stock: Stock, key: float | None) -> None:
        self.id = id
        self.stock = stock
        self.key = key

    @property
    def order(self) -> tuple[bool, float, str]:
        return self.key is None, self.key or 0.0, self.id


class Miss:
    """A part that misses one condition alone: by how much, and that as a share of what is asked; both endless
    where it is a word.
    """

    __slots__ = ("ask", "by", "clause", "found", "share")

    def __init__(self, found: Found, ask: Ask, clause: Clause, by: float, share: float) -> None:
        self.found = found
        self.ask = ask
        self.clause = clause
        self.by = by
        self.share = share


class _Condition:
    """A clause as SQL on one stock; ``index`` is the one that answers it alone, "" where none does."""

    __slots__ = ("ask", "clause", "facet", "index", "sql", "values")

    def __init__(self, kind: str, ask: Ask, clause: Clause, facet: Facet) -> None:
        self.ask = ask
        self.clause = clause
        self.facet = facet
        bare = clause.relation == CONTAINS or ask.field.name in BARE
        self.index = "" if bare else quoted(f"by {kind} {facet.low}")
        self.sql, self.values = _sql(clause, facet)


def _sql(clause: Clause, facet: Facet) -> tuple[str, list[Any]]:
    low, high = quoted(facet.low), quoted(facet.high)
    if clause.relation == CONTAINS:
        return f"{low} IS NOT NULL AND instr({low}, ?)", [clause.words[0]]
    if clause.relation == IS:
        return f"{low} IN ({','.join('?' * len(clause.words))})", list(clause.words)
    close = clause.close
    if clause.relation == HOLDS:
        # A value that holds the asked one starts no farther below it than the widest value is wide.
        start = clause.low - facet.widest - 2 * close
        return f"{low} BETWEEN ? AND ? AND {high} >= ?", [start, clause.high + close, clause.low - close]
    if clause.relation in (MORE, LESS):
        if clause.high == INF:
            return f"{low} > ?", [clause.low + close]
        return f"{low} < ? AND {high} < ?", [clause.high - close] * 2
    parts, values = [], []
    if clause.low != -INF:
        parts.append(f"{low} >= ?")
        values.append(clause.low - close)
    if clause.high != INF:
        parts.append(f"{low} <= ? AND {high} <= ?")
        values += [clause.high + close] * 2
    return " AND ".join(parts) or f"{low} IS NOT NULL", values


class Search:
    """One query on one stock."""

    def __init__(self, stock: Stock, query: Query, by: str = PRICE) -> None:
        self.stock = stock
        self.kind = query.kind
        self.table = table_of(query.kind)
        self.total = stock.count(query.kind)
        self.there = self.total > 0
        self.by = by
        self.conditions: list[_Condition] = []
        self._maps = bitmaps.Bitmaps(stock.connection, query.kind)
        self._bits: dict[int, bitmaps.Bits | None] = {}
        self._all: tuple[int, int] | None = None
        facets = stock.facets(query.kind) if self.there else {}
        self.order = facets.get((by, ""))
        for ask in query.asks:
            for clause in ask.clauses:
                facet = facets.get((ask.field.name, clause.name))
                if facet is None:  # no part states it: nothing is found
                    self.there = False
                    return
                self.conditions.append(_Condition(query.kind, ask, clause, facet))

    # ---- what matches --------------------------------------------------------------------

    def count(self, most: int = COUNTED_AT_MOST) -> int:
        """How many parts match; ``most`` when there are that many or more."""
        if not self.there:
            return 0
        if not self.conditions:
            return self.total
        may, sure = self._both()
        certain = bitmaps.count(sure)
        if certain >= most:
            return most
        found = certain
        for _ in self._looked_at(may & ~sure):
            found += 1
            if found >= most:
                break
        return found

    def found(self, most: int) -> Iterator[Found]:
        """Matches in order: those that state a price (or weight) first, the least first."""
        if not self.there:
            return
        if self.by == PRICE:
            yield from self._along(most)
        else:
            yield from self._by_weight(most)

    def _along(self, most: int) -> Iterator[Found]:
        """Along the order of price, in which the bits stand."""
        may, _ = self._both()
        for count, (id, key) in enumerate(self._looked_at(may), start=1):
            yield Found(id, self.stock, key)
            if count >= most:
                return

    def _by_weight(self, most: int) -> Iterator[Found]:
        may, _ = self._both()
        if bitmaps.count(may) <= SORTED_AT_MOST:
            every = (Found(id, self.stock, key) for id, key in self._looked_at(may))
            yield from sorted(every, key=lambda one: one.order)[:most]
            return
        where, values = self._where(self.conditions)
        key = "NULL" if self.order is None else quoted(self.order.low)
        rows = self.stock.connection.execute(
            f"SELECT id, {key} FROM {self.table} JOIN part ON number = {self.table}.part"
            f" WHERE {where} ORDER BY {key} IS NULL, {key} LIMIT ?", [*values, most],
        )  # fmt: skip
        for id, weight in rows:
            yield Found(id, self.stock, weight)

    # ---- bits ----------------------------------------------------------------------------

    def _both(self, without: Ask | None = None) -> tuple[int, int]:
        """Places that may, and that surely do, meet every condition (but those of one field)."""
        if without is not None:
            return self._met(without)
        if self._all is None:
            self._all = self._sharpened()
        return self._all

    def _sharpened(self) -> tuple[int, int]:
        """Where the bitmaps leave much in doubt, indexes settle it; the little left is looked up one by one."""
        may, sure = self._met(None)
        for number, one in enumerate(self.conditions):
            if bitmaps.count(may & ~sure) <= DOUBTFUL:
                break
            found = self._by_index(one)
            if found is not None:
                self._bits[number] = found
                may, sure = self._met(None)
        if may != sure and bitmaps.count(may & ~sure) <= DOUBTFUL:
            may = sure = sure | self._settled(may & ~sure)
        return may, sure

    def _settled(self, doubtful: int) -> int:
        """Those of these places that do meet every condition."""
        where, values = self._where(self.conditions)
        places = list(bitmaps.places(doubtful))
        marks = ",".join("?" * len(places))
        rows = self.stock.connection.execute(
            f"SELECT place FROM {self.table} NOT INDEXED WHERE place IN ({marks}) AND {where}", [*places, *values]
        )
        return bitmaps.from_places((place for (place,) in rows), self.total)

    def _met(self, without: Ask | None) -> tuple[int, int]:
        may = sure = (1 << (self.total + 1)) - 2  # places count from 1
        for number, one in enumerate(self.conditions):
            if without is not None and one.ask.field is without.field:
                continue
            if number not in self._bits:
                self._bits[number] = self._bits_of(one)
            bits = self._bits[number]
            if bits is None:
                sure = 0
                continue
            may &= bits.may
            sure &= bits.sure
        return may, sure

    def _bits_of(self, one: _Condition) -> bitmaps.Bits | None:
        return self._maps.of_clause(one.ask.field.name, one.clause, one.facet)

    def _by_index(self, one: _Condition) -> bitmaps.Bits | None:
        """Exactly the parts that meet a condition, by its index; None where they are too many."""
        exact = one.facet.steps_exact and one.facet.widest == 0  # its bitmaps are as good
        if not one.index or exact or self._maps.expected(one.ask.field.name, one.clause, one.facet) >= FEW:
            return None
        few = self.stock.connection.execute(
            f"SELECT place FROM {self.table} INDEXED BY {one.index} WHERE {one.sql} LIMIT ?", [*one.values, FEW]
        ).fetchall()
        if len(few) >= FEW:
            return None
        met = bitmaps.from_places((place for (place,) in few), self.total)
        return bitmaps.Bits(met, met)

    def _looked_at(self, bits: int) -> Iterator[tuple[str, float | None]]:
        """(id, key) of the parts at these places that do meet every condition, in the order of places."""
        waiting: list[int] = []
        for place in bitmaps.places(bits):
            waiting.append(place)
            if len(waiting) >= LOOKED_AT_ONCE:
                yield from self._looked_up(waiting)
                waiting = []
        yield from self._looked_up(waiting)

    def _looked_up(
        self, places: list[int], conditions: list[_Condition] | None = None
    ) -> Iterator[tuple[Any, ...]]:
        where, values = self._where(self.conditions)
        key = "NULL" if self.order is None else quoted(self.order.low)
        marks = ",".join("?" * len(places))
        rows = self.stock.connection.execute(
            f"SELECT id, {key} FROM {self.table} NOT INDEXED JOIN part ON number = {self.table}.part"
            f" WHERE place IN ({marks}) AND {where} ORDER BY place", [*places, *values],
        )  # fmt: skip
        yield from rows.fetchall()

    @staticmethod
    def _where(conditions: list[_Condition]) -> tuple[str, list[Any]]:
        where = " AND ".join(one.sql for one in conditions) or "1"
        return where, [value for one in conditions for value in one.values]

    # ---- what just misses ----------------------------------------------------------------

    def unstated(self, most: int = COUNTED_AT_MOST) -> dict[str, int]:
        """Field key -> how many parts meet all other conditions and do not state it (``most``: or more)."""
        counts: dict[str, int] = {}
        for one in self.conditions:
            if not self.there or one.facet.parts >= self.total or one.clause.relation == CONTAINS:
                continue
            found = self._unstated(one, most)
            if found:
                key = one.ask.field.key
                counts[key] = max(counts.get(key, 0), found)
        return counts

    def _unstated(self, one: _Condition, most: int) -> int:
        rest = [other for other in self.conditions if other.ask.field is not one.ask.field]
        may, sure = self._both(one.ask)
        known = self._maps.stated(one.ask.field.name, one.clause)
        where, values = self._where(rest)
        where = f"{where} AND {quoted(one.facet.low)} IS NULL"
        if known is not None:
            may, sure = may & ~known, sure & ~known
            if may == sure:
                return min(most, bitmaps.count(may))
            if not may:
                return 0
        found = self.stock.connection.execute(
            f"SELECT count(*) FROM (SELECT 1 FROM {self.table} WHERE {where} LIMIT ?)", [*values, most]
        )
        return int(found.fetchone()[0])

    def misses(self, most: int = MISSES_AT_MOST) -> Iterator[Miss]:
        """Parts that meet every condition but one, the nearest of each condition."""
        for one in self.conditions:
            if self.there and one.clause.numeric:
                yield from self._missing(one, most)
            elif self.there and one.clause.relation == IS and not isinstance(one.ask.field.type, _MANY_NAMES):
                yield from self._other_word(one, most)

    def _other_word(self, one: _Condition, most: int) -> Iterator[Miss]:
        """Parts that state another word there (another seat, another currency)."""
        rest, values = self._where([other for other in self.conditions if other is not one])
        low = quoted(one.facet.low)
        rows = self.stock.connection.execute(
            f"SELECT id FROM {self.table} JOIN part ON number = {self.table}.part"
            f" WHERE {low} IS NOT NULL AND NOT ({one.sql}) AND {rest} ORDER BY place LIMIT ?",
            [*one.values, *values, most],
        )
        for (id,) in rows.fetchall():
            yield Miss(Found(id, self.stock, None), one.ask, one.clause, INF, INF)

    def _missing(self, one: _Condition, most: int) -> Iterator[Miss]:
        clause, low, high = one.clause, quoted(one.facet.low), quoted(one.facet.high)
        rest, values = self._where([other for other in self.conditions if other is not one])
        outside = [f"{high} - {clause.high!r}", f"{clause.low!r} - {low}"]
        if clause.relation == HOLDS:
            outside = [f"{low} - {clause.high!r}", f"{clause.low!r} - {high}"]
        ends = (clause.high, clause.low)
        gaps = [text for text, end in zip(outside, ends, strict=True) if abs(end) != INF]
        gap = f"max({', '.join([*gaps, '0'])})"
        rows = self.stock.connection.execute(
            f"SELECT id, {gap} AS gap FROM {self.table} JOIN part ON number = {self.table}.part"
            f" WHERE {low} IS NOT NULL AND NOT ({one.sql}) AND {rest} ORDER BY gap, place LIMIT ?",
            [*one.values, *values, most],
        )
        scale = max(abs(end) for end in ends if abs(end) != INF) or 1.0
        for id, by in rows.fetchall():
            yield Miss(Found(id, self.stock, None), one.ask, clause, by, by / scale)
