"""The search for the cheapest choice, against a general-purpose solver and against trying everything.

The solver is CBC, an integer programming solver that knows nothing of this project, called by PuLP.
"""

from __future__ import annotations

import itertools
import random
import time

import pytest

from partscheck.uses.fix.plan_search import Choice, Demand, NoChoiceError, choose, options_of

INSTANCES = 200


class Instance:
    """A random problem: sizes as a list with many faults has them."""

    def __init__(self, seed: int, options: int, demands: int, dearest: int = 60) -> None:
        draw = random.Random(seed)
        self.seed = seed
        self.costs = [draw.randint(0, dearest) for _ in range(options)]
        every = list(range(options))
        draw.shuffle(every)
        self.slots: list[list[int]] = []
        while every:
            size = draw.randint(1, 8)
            self.slots.append(every[:size])
            every = every[size:]
        self.demands = []
        for _ in range(demands):
            some = draw.sample(range(options), min(options, draw.randint(1, 8)))
            given = draw.sample(range(options), min(options, draw.choice((0, 0, 1, 1, 2, 3))))
            self.demands.append(([one for one in some if one not in given], given))
            if draw.random() < 0.3:
                self.demands.append(([], draw.sample(range(options), min(options, draw.randint(2, 3)))))

    def solved(self, until: float | None = None) -> Choice | None:
        try:
            return choose(self.costs, self.slots, [Demand(*one) for one in self.demands], until=until)
        except NoChoiceError as none:
            if not none.proven:
                raise
            return None

    def cost(self, chosen: set[int]) -> int | None:
        """What a choice costs; None where it does not meet every demand."""
        for slot in self.slots:
            if len(chosen & {*slot}) > 1:
                return None
        for any_of, given in self.demands:
            if {*given} <= chosen and not chosen & {*any_of}:
                return None
        return sum(self.costs[one] for one in chosen)


def by_trying_everything(one: Instance) -> int | None:
    every = range(len(one.costs))
    costs = (
        one.cost({*chosen}) for size in range(len(one.costs) + 1) for chosen in itertools.combinations(every, size)
    )
    return min((cost for cost in costs if cost is not None), default=None)


def by_cbc(one: Instance) -> int | None:
    pulp = pytest.importorskip("pulp")
    problem = pulp.LpProblem("choice", pulp.LpMinimize)
    taken = [pulp.LpVariable(f"x{number}", cat="Binary") for number in range(len(one.costs))]
    problem += pulp.lpSum(cost * x for cost, x in zip(one.costs, taken, strict=True))
    for slot in one.slots:
        problem += pulp.lpSum(taken[number] for number in slot) <= 1
    for any_of, given in one.demands:
        left = pulp.lpSum(taken[number] for number in any_of) - pulp.lpSum(taken[number] for number in given)
        problem += left >= 1 - len(given)
    problem.solve(pulp.PULP_CBC_CMD(msg=False))
    if pulp.LpStatus[problem.status] == "Infeasible":
        return None
    assert pulp.LpStatus[problem.status] == "Optimal"
    return round(pulp.value(problem.objective))


def fresh_seeds(count: int) -> list[int]:
    """Other ones on every run; a failing one is named by its assertion."""
    draw = random.SystemRandom()
    return [draw.randrange(2**40) for _ in range(count)]


@pytest.mark.filterwarnings("ignore::DeprecationWarning:pulp")
@pytest.mark.filterwarnings("ignore:Constructing Lp:DeprecationWarning")
@pytest.mark.filterwarnings("ignore:PULP_CBC_CMD:DeprecationWarning")
def test_equal_to_a_general_solver_on_fresh_random_instances() -> None:
    pytest.importorskip("pulp")
    feasible = 0
    for seed in fresh_seeds(INSTANCES):
        draw = random.Random(seed)
        one = Instance(seed, draw.randint(20, 120), draw.randint(8, 30))
        found = one.solved()
        assert (None if found is None else found.cost) == by_cbc(one), f"seed {seed}"
        if found is not None:
            feasible += 1
            assert found.proven, f"seed {seed}"
            assert one.cost({*found.options}) == found.cost, f"seed {seed}"
    assert feasible > INSTANCES / 4, "too few instances with an answer to say anything"


def test_equal_to_trying_everything_on_tiny_instances() -> None:
    answers = set()
    for seed in fresh_seeds(150):
        one = Instance(seed, random.Random(seed).randint(3, 9), random.Random(seed + 1).randint(2, 6))
        found = one.solved()
        best = by_trying_everything(one)
        assert (None if found is None else found.cost) == best, f"seed {seed}"
        answers.add(best is None)
    assert answers == {True, False}, "both kinds of answer came up"


def test_a_demand_already_met_costs_nothing() -> None:
    assert choose([5, 7], [], []).options == ()
    assert choose([5, 7], [], [Demand([1], given=[0])]).options == ()


def test_one_option_that_meets_two_demands_beats_two_cheaper_ones() -> None:
    found = choose([3, 2, 2], [], [Demand([0, 1]), Demand([0, 2])])
    assert (found.options, found.cost, found.bound, found.proven) == ((0,), 3, 3, True)


def test_two_options_of_one_slot_are_never_both_chosen() -> None:
    with pytest.raises(NoChoiceError) as caught:
        choose([1, 1], [[0, 1]], [Demand([0]), Demand([1])])
    assert caught.value.proven


def test_what_is_forbidden_is_not_chosen() -> None:
    assert choose([1, 9], [], [Demand([0, 1])], forbidden=[0]).options == (1,)


def test_a_cost_below_zero_is_refused() -> None:
    with pytest.raises(ValueError, match="below zero"):
        choose([-1], [], [Demand([0])])


def test_at_the_cap_the_best_so_far_is_told_with_its_bound() -> None:
    """The clock runs out after a few looks: what was found is no claim."""
    ticks = itertools.count()
    one = Instance(7, 400, 160, dearest=9)
    demands = [Demand(any_of, given) for any_of, given in one.demands if any_of and not given]
    found = None
    for patience in (1, 3, 10, 30, 100, 300):
        start = next(ticks)
        try:
            found = choose(one.costs, [], demands, until=start + patience, clock=lambda: float(next(ticks)))
            break
        except NoChoiceError as none:
            if none.proven:
                raise
    assert found is not None
    best = choose(one.costs, [], demands, until=time.monotonic() + 2)
    assert found.bound <= best.cost <= found.cost
    assert found.proven == (found.bound == found.cost)


def test_costs_of_many_digits_stay_exact() -> None:
    """The tiers of a plan's cost are far beyond the digits of a float."""
    tier = 10**40
    found = choose([tier + 2, tier + 1, 3 * tier], [], [Demand([0, 1, 2])])
    assert (found.options, found.cost) == ((1,), tier + 1)


def test_options_of_a_mask() -> None:
    assert options_of(0b101001) == (0, 3, 5)
