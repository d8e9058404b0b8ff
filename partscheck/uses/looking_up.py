"""Which parts of all stocks meet a query: how many, the first of them, and the nearest misses.

Each file of rows answers for itself.  A part that a later layer has, too, is no part of the catalogue: it is
neither counted nor shown, and where many are replaced more are looked up.
"""

from __future__ import annotations

from partscheck.catalogue.query import CONTAINS, Query
from partscheck.catalogue.search import COUNTED_AT_MOST, Search
from partscheck.catalogue.stock import quoted, table_of
from partscheck.parts.kinds import KINDS

TYPE_CHECKING = False
if TYPE_CHECKING:
    from partscheck.catalogue.catalogue import Catalogue
    from partscheck.catalogue.search import Found, Miss
    from partscheck.catalogue.stock import Stock
    from partscheck.uses.find import Finds

SHOWN_MISSES = 5
LOOKED_AT_MOST = 20_000  # parts of a stock that are looked at one by one for what a later layer replaces
SPARE = 20  # more that are looked up than asked for: some may be replaced


def count(found: Finds, searches: list[Search], catalogue: Catalogue) -> None:
    """How many parts match, and how many more only do not state a field; those that a later layer replaces are
    no parts of the catalogue.
    """
    stocks = [one.stock for one in searches]
    for one in searches:
        replaced = _may_be_replaced(one.stock, stocks, catalogue)
        many, unsaid = one.count(), _unstated(found.query, one)
        few = one.total <= LOOKED_AT_MOST
        if replaced and (few or many < COUNTED_AT_MOST):
            many = _in_force(one.stock, found.query, catalogue)
        if replaced and few:
            unsaid = {key: _in_force(one.stock, _without(found.query, key), catalogue, key) for key in unsaid}
        found.of_kind += one.total
        found.matches += many
        found.matches_more |= bool(found.query.asks) and many >= COUNTED_AT_MOST
        for key, lacking in unsaid.items():
            if lacking:
                found.unstated[key] = found.unstated.get(key, 0) + lacking


def _may_be_replaced(stock: Stock, stocks: list[Stock], catalogue: Catalogue) -> bool:
    """Whether a later layer may hold a part of this file of rows (YAML parts that lose are in no stock)."""
    number = stocks.index(stock)
    later = any(one.layer != stock.layer for one in stocks[number + 1 :])
    return number > 0 and (later or any(below == stock.layer for _, below, _ in catalogue.overridden))


def _in_force(stock: Stock, query: Query, catalogue: Catalogue, unsaid: str = "") -> int:
    """How many matches no later layer replaces; with ``unsaid`` those of them that do not state this field."""
    count = 0
    for match in Search(stock, query).found(LOOKED_AT_MOST):
        if unsaid and _states(stock, match.id, query.kind, unsaid):
            continue
        if catalogue.is_in_force(match.id, stock):
            count += 1
            if query.asks and count >= COUNTED_AT_MOST:
                break
    return count


def _states(stock: Stock, id: str, kind: str, key: str) -> bool:
    facets = stock.facets(kind)
    names = [field.name for field in KINDS[kind].fields.values() if field.key == key]
    columns = [quoted(facet.low) for (name, _), facet in facets.items() if name in names]
    if not columns:
        return False
    row = stock.connection.execute(
        f"SELECT {', '.join(columns)} FROM {table_of(kind)} AS of JOIN part ON number = of.part WHERE id = ?",
        (id,),
    ).fetchone()
    return row is not None and any(value is not None for value in row)


def _without(query: Query, key: str) -> Query:
    return Query(query.kind, [ask for ask in query.asks if ask.field.key != key])


def _unstated(query: Query, search: Search) -> dict[str, int]:
    """Field key -> how many parts meet the rest and do not state it; also where no part of this stock does."""
    if search.there or not search.total:
        return search.unstated()
    stated = {name for name, _ in search.stock.facets(query.kind)}
    lacking = {ask.field.key: ask for ask in query.asks if ask.field.name not in stated}
    if len(lacking) != 1:
        return {}
    ((key, ask),) = lacking.items()
    free = ask.clauses[0].relation == CONTAINS  # a piece of a text: nothing to measure or to ask for
    return {} if free else {key: Search(search.stock, _without(query, key)).count()}


def first(searches: list[Search], catalogue: Catalogue, most: int) -> list[Found]:
    """The first ``most`` matches of all stocks in order, but for those that a later layer replaces."""
    every = [one for search in searches for one in _kept(search, catalogue, most)]
    every.sort(key=lambda one: one.order)
    return every[:most]


def _kept(search: Search, catalogue: Catalogue, most: int) -> list[Found]:
    """The first ``most`` that no later layer replaces; more are looked up where many are replaced."""
    size = most + SPARE
    while True:
        every = list(search.found(size))
        kept = [one for one in every if catalogue.is_in_force(one.id, one.stock)]
        if len(kept) >= most or len(every) < size:
            return kept[:most]
        size *= 4


def nearest_misses(searches: list[Search], catalogue: Catalogue) -> list[Miss]:
    """The nearest of all stocks, by their share of what is asked."""
    every = [miss for one in searches for miss in _kept_misses(one, catalogue)]
    every.sort(key=lambda miss: (miss.share, miss.found.id))
    return every[:SHOWN_MISSES]


def _kept_misses(search: Search, catalogue: Catalogue) -> list[Miss]:
    """The nearest by each condition that no later layer replaces, enough of each where there are."""
    size = SHOWN_MISSES
    while True:
        every = list(search.misses(size))
        kept = [miss for miss in every if catalogue.is_in_force(miss.found.id, miss.found.stock)]
        clauses = {id(miss.clause): miss.clause for miss in every}.values()
        looked = [sum(miss.clause is clause for miss in every) for clause in clauses]
        left = [sum(miss.clause is clause for miss in kept) for clause in clauses]
        if all(many < size or few >= SHOWN_MISSES for many, few in zip(looked, left, strict=True)):
            return kept
        size *= 8
