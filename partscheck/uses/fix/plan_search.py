"""Choosing options so that every demand holds, at the least cost: branch and bound on bit sets.

An option costs something and belongs to one slot (a line of the list: it is changed in one way or not at
all).  A demand says: if all of ``given`` are chosen, one of ``any_of`` is chosen too.  With nothing given it
is "one of these"; with nothing to choose from it is "not all of these together".

What is proven: when ``Choice.proven``, no choice of these options meets these demands for less.  What is
not: that no other option exists, and that the demands are all there are; who builds them knows.
"""

from __future__ import annotations

from time import monotonic

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

CLOCK_EVERY = 64  # nodes between two looks at the clock


class Demand:
    """If every option of ``given`` is chosen, at least one of ``any_of`` is chosen."""

    __slots__ = ("any_of", "given")

    def __init__(self, any_of: Iterable[int] = (), given: Iterable[int] = ()) -> None:
        self.any_of = _mask(any_of)
        self.given = _mask(given)

    def met_by(self, chosen: int) -> bool:
        return bool(chosen & self.any_of) or (chosen & self.given) != self.given

    def __repr__(self) -> str:
        return f"<if {options_of(self.given)} then one of {options_of(self.any_of)}>"


class Choice:
    """The options chosen, what they cost, ``bound`` below which no choice can be, ``proven`` when that is the
    cost itself.  ``nodes`` counts the steps of the search.
    """

    __slots__ = ("bound", "cost", "nodes", "options", "proven")

    def __init__(self, options: tuple[int, ...], cost: int, bound: int, proven: bool, nodes: int) -> None:
        self.options = options
        self.cost = cost
        self.bound = bound
        self.proven = proven
        self.nodes = nodes

    def __repr__(self) -> str:
        return f"<{self.options} for {self.cost}{'' if self.proven else f', at least {self.bound}'}>"


class NoChoiceError(Exception):
    """No choice meets every demand (``proven``), or none was found in time."""

    def __init__(self, proven: bool) -> None:
        super().__init__("no choice of these options meets every demand" if proven else "none found in time")
        self.proven = proven


def choose(
    costs: Sequence[int],
    slots: Iterable[Sequence[int]],
    demands: Iterable[Demand],
    forbidden: Iterable[int] = (),
    until: float | None = None,
    clock: Callable[[], float] = monotonic,
) -> Choice:
    """The cheapest choice.

    costs      of each option, whole numbers, none below zero
    slots      lists of options of which at most one is chosen
    demands    see ``Demand``
    forbidden  options that are not to be chosen
    until      time of ``clock`` at which to give the best one so far

    Raises ``NoChoiceError``.

    >>> choose([3, 2, 2], [], [Demand([0, 1]), Demand([0, 2])])
    <(0,) for 3>
    >>> choose([3, 2, 2], [[0, 1]], [Demand([0, 1]), Demand([2], given=[0])])
    <(1,) for 2>
    """
    if any(cost < 0 for cost in costs):
        raise ValueError("a cost is below zero")
    search = _Search(list(costs), [_mask(slot) for slot in slots], list(demands), until, clock)
    return search.run(_mask(forbidden))


class _Search:
    def __init__(
        self,
        costs: list[int],
        slots: list[int],
        demands: list[Demand],
        until: float | None,
        clock: Callable[[], float],
    ) -> None:
        self.costs = costs
        self.demands = demands
        self.until = until
        self.clock = clock
        self.rivals = [0] * len(costs)
        for slot in slots:
            for option in options_of(slot):
                self.rivals[option] |= slot & ~(1 << option)
        self.best: int | None = None
        self.best_cost = 0
        self.nodes = 0
        self.late = False

    def run(self, forbidden: int) -> Choice:
        root = self._bound(0, forbidden)
        if root is not None:
            self._go(0, forbidden, 0)
        if self.best is None:
            raise NoChoiceError(proven=not self.late)
        bound = self.best_cost if not self.late else min(root[0] if root else 0, self.best_cost)
        return Choice(options_of(self.best), self.best_cost, bound, bound == self.best_cost, self.nodes)

    def _go(self, chosen: int, banned: int, cost: int) -> None:
        """Search below one node with a stack of its own: demands can be many."""
        stack = [(chosen, banned, cost)]
        while stack and not self._out_of_time():
            chosen, banned, cost = stack.pop()
            if self.best is not None and cost >= self.best_cost:
                continue
            bound = self._bound(chosen, banned)
            if bound is None or (self.best is not None and cost + bound[0] >= self.best_cost):
                continue
            if bound[1] == 0:  # every demand is met
                self.best, self.best_cost = chosen, cost
                continue
            stack += self._branches(chosen, banned, cost, bound[1])

    def _branches(self, chosen: int, banned: int, cost: int, open_: int) -> list[tuple[int, int, int]]:
        """One branch for each option that would meet the demand with the fewest, the cheapest on top.

        What a branch before it chose is banned in the next: no choice is looked at twice.
        """
        options = sorted(options_of(open_), key=lambda one: self.costs[one])
        found = []
        for option in options:
            bit = 1 << option
            found.append((chosen | bit, banned | self.rivals[option], cost + self.costs[option]))
            banned |= bit
        return found[::-1]

    def _bound(self, chosen: int, banned: int) -> tuple[int, int] | None:
        """(what the open demands cost at least, the options of the one with the fewest); None where one can
        no longer be met.

        Each open demand takes what its cheapest option still has left; what it takes is off the others:
        the sum is a feasible price of the relaxed problem's dual, so it is never too much.
        """
        open_ = []
        for demand in self.demands:
            if not demand.met_by(chosen):
                left = demand.any_of & ~banned
                if not left:
                    return None
                open_.append(left)
        if not open_:
            return 0, 0
        open_.sort(key=int.bit_count)
        rest: dict[int, int] = {}
        total = 0
        for mask in open_:
            options = options_of(mask)
            least = min(rest.get(one, self.costs[one]) for one in options)
            if least:
                total += least
                for one in options:
                    rest[one] = rest.get(one, self.costs[one]) - least
        return total, open_[0]

    def _out_of_time(self) -> bool:
        self.nodes += 1
        if not self.late and self.until is not None and self.nodes % CLOCK_EVERY == 0:
            self.late = self.clock() >= self.until
        return self.late


def _mask(options: Iterable[int]) -> int:
    found = 0
    for option in options:
        found |= 1 << option
    return found


def options_of(mask: int) -> tuple[int, ...]:
    """The options of a bit set, in order."""
    found = []
    while mask:
        low = mask & -mask
        found.append(low.bit_length() - 1)
        mask ^= low
    return tuple(found)
