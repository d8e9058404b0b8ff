"""What options and plans cost: money, weight, and what is counted against an option in the search."""

from __future__ import annotations

from partscheck.uses.bom import bill_of_materials
from partscheck.uses.fix.edits import BUY, DECLARE, FIND

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.engine import Result
    from partscheck.uses.bom_lines import BomLine
    from partscheck.uses.fix.edits import Option

CHANGES, COST, MARGIN = "changes", "cost", "margin"
OBJECTIVES = (CHANGES, COST, MARGIN)
# Each tier outweighs all the tiers after it: more than any sum within one of them.
TIER = 10**9


class Bill:
    """What a list costs and weighs: ``paid`` hundredths by currency, ``unpriced`` lines to buy without a
    price, by id; ``weights`` kg of each line as built, None where it states none.
    """

    __slots__ = ("paid", "unpriced", "weights")

    def __init__(self, result: Result) -> None:
        bill = bill_of_materials(result)
        self.paid: dict[str, int] = {}
        self.unpriced: set[str] = set()
        for line in bill.lines:
            cost = line.cart_cost if line.cart_cost is not None else line.cost
            if cost is None:
                self.unpriced.add(line.id)
            elif cost:
                self.paid[line.currency] = self.paid.get(line.currency, 0) + cost
        self.weights = {line.id: _built(line) for line in bill.lines}


def _built(line: BomLine) -> float | None:
    """Weight of a line as built, kg; what is made for one side and typed for both goes onto both, wrong or not."""
    weight = line.built_weight
    if line.kind in ("brake", "suspension-arm") and line.weight is not None and line.on_the_list is not None:
        weight = line.weight * float(max(line.need or 0, line.on_the_list))
    return None if weight is None else weight.mid


class Difference:
    """From one bill to another: ``money`` hundredths more by currency (negative: less), ``unpriced`` lines
    that have no price now and had one, or were not there; ``weight`` kg more, of lines that state theirs before
    and after, or came or went; ``unweighed`` those of which only one of the two is known.
    """

    __slots__ = ("money", "unpriced", "unweighed", "weight")

    def __init__(self, before: Bill, after: Bill) -> None:
        currencies = sorted({*before.paid, *after.paid})
        self.money = {one: after.paid.get(one, 0) - before.paid.get(one, 0) for one in currencies}
        self.money = {one: amount for one, amount in self.money.items() if amount}
        self.unpriced = sorted(after.unpriced - before.unpriced)
        self.weight = 0.0
        self.unweighed: list[str] = []
        for id in dict.fromkeys((*before.weights, *after.weights)):
            old, new = before.weights.get(id, 0.0), after.weights.get(id, 0.0)
            if old is not None and new is not None:
                self.weight += new - old
            elif old is not None or new is not None:
                self.unweighed.append(id)

    @property
    def more(self) -> int:
        """Money more, all currencies alike; a saving counts as nothing: it is no reason to change a line."""
        return sum(max(0, amount) for amount in self.money.values())


class Price:
    """What one option costs in the search, by itself: see ``weighed``."""

    __slots__ = ("brings", "difference", "unpriced")

    def __init__(self, difference: Difference, brings: int, unpriced: bool) -> None:
        self.difference = difference
        self.brings = brings
        self.unpriced = unpriced  # what is bought has no price


def weighed(option: Option, price: Price, by: str) -> int:
    """One whole number, so that sums of it compare as the tiers do, one after the other.

    First what depends on a part that nobody may sell, then what is only declared; then the objective: the
    number of changes, or the money (prices not known before known ones); then the other one, with the
    cautions that the option brings by itself, and last the order of preference of the rule that proposed it.
    """
    unknown = int(option.sort == BUY and price.unpriced)
    money = [unknown, price.difference.more]
    tiers: list[Any] = [int(option.sort == FIND), int(option.sort == DECLARE)]
    tiers += [*money, 1, price.brings] if by == COST else [1, price.brings, *money]
    tiers.append(option.rank)
    total = 0
    for tier in tiers:
        total = total * TIER + tier
    return total
