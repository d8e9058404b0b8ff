"""Finds plans: chooses options in the abstract, tries the choice in the build, learns what it overlooked.

A stop asks for one of the options that clear it when tried by themselves.  A choice that meets every demand
is tried with every rule; a stop that is still there, or new, becomes a demand of its own: given the options
that bring it, one of those that clear it there.  So it goes on until a choice holds.

What is proven: of the options proposed, no plan in which every stop is cleared as it was seen to be cleared
is cheaper (see ``plan_search``), and the plan itself brings no stop, for every rule ran on it.  What is not:
that nothing else could be bought or done, and that two options which clear a stop only together were
thought of, unless the second was proposed for what the first one left.
"""

from __future__ import annotations

from heapq import heappop, heappush
from itertools import permutations
from time import monotonic

from partscheck.rules.findings import STOP
from partscheck.uses.fix.candidates import Shelf
from partscheck.uses.fix.costs import MARGIN, Difference, Price, weighed
from partscheck.uses.fix.demands import NO_TOLD, Found, Rule, may_read
from partscheck.uses.fix.edits import BUY, FIND, Option
from partscheck.uses.fix.options import Proposal, Proposer
from partscheck.uses.fix.plan_search import Demand, NoChoiceError, choose
from partscheck.uses.fix.pool import Pool
from partscheck.uses.fix.rooms import SLUG, STEP
from partscheck.uses.fix.trials import Outcome, Told, Trials, key_of, kinds_added, touched_ids

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable, Iterable
    from typing import Any

    from partscheck.build.model import Build
    from partscheck.engine import Result
    from partscheck.uses.fix.trials import Key

GRACE = 0.2  # seconds to put together what is known, when the time is over
ROUNDS = 400  # choices tried for one plan before it is given up


class TimeUpError(Exception):
    """The time allowed is over."""


class Planner:
    """``hopeless`` are stops that no option clears; ``proposals`` every remedy with what it led to."""

    def __init__(
        self, build: Build, by: str, leading: str, until: float | None = None,
        tell: Callable[[float], None] = lambda share: None,
    ) -> None:  # fmt: skip
        self.by = by
        self.leading = leading
        self.until = until
        self.tell = tell
        self.trials = Trials(build, roomy=by == MARGIN)
        self.shelf = Shelf(build)
        self.pool = Pool()
        self.rules: list[Rule] = []
        self.hopeless: dict[Key, Told] = {}
        self.proposals: list[Proposal] = []
        self._meant: set[tuple[int, Key]] = set()  # options with the stops that they were proposed for
        self._looked: set[Key] = set()  # of the hopeless ones, those looked at again once the rest was done
        self.late = False
        self.floor: float | None = None  # the least room that each rated part is to have, as a share
        self.base = self.trials.outcome((), bill=True)
        self._nearest: Found | None = None  # of the choices tried, the one that leaves the fewest stops
        self._fewest = len(self.base.stops)

    # ---- plans -----------------------------------------------------------------------------

    def plans(self, count: int) -> list[Found]:
        """Up to ``count`` plans, best first.  Each next one does without one of the ways of those before it:
        the cheapest of such plans, found by splitting what is left over (Lawler 1972).
        """
        found: list[Found] = []
        try:
            self._begin()
            if self.by == MARGIN:
                self._roomier(found, count)
            else:
                self._by_splitting(found, count)
            if not found:
                self._with_a_gap(found)
        except TimeUpError:
            self.late = True
            for one in found:
                one.proven = False
            if not found:
                self._all_that_is_known()
            if not found and self._nearest is not None:
                found.append(self._nearest)
        return found

    def _by_splitting(self, found: list[Found], count: int) -> None:
        heap: list[Any] = []
        self._push(heap, frozenset(), frozenset())
        while heap and len(found) < count:
            _, _, best, banned, kept = heappop(heap)
            found.append(best)
            if len(found) < count:
                self._split(heap, best, banned, kept)

    def _with_a_gap(self, found: list[Found]) -> None:
        """Where not every stop can be cleared together: a plan that leaves one of them."""
        for rule in [rule for rule in self.rules if not rule.given and rule.stop is not NO_TOLD]:
            if rule.stop.key not in self.base.stops:
                continue
            kept = list(self.rules)
            self.rules = [one for one in kept if one.stop is NO_TOLD or one.stop.key != rule.stop.key]
            self.hopeless[rule.stop.key] = rule.stop
            best = self._best(frozenset(), frozenset())
            if best is not None and best.options:
                found.append(best)
                return
            self.rules = kept
            del self.hopeless[rule.stop.key]

    def _roomier(self, found: list[Found], count: int) -> None:
        """More and more room for the part that has the least, until no choice gives more; then plans that
        give as much.
        """
        level: float | None = None
        while True:
            known = len(self.rules)
            best = self._best(frozenset(), frozenset())
            if best is None:
                break
            found[:] = [best]  # the best so far, should the time be over
            level = self.floor
            least = min((one.share for one in self._rooms(best)), default=None)
            if least is None:
                break
            self.floor = least + STEP
        del self.rules[known:]  # they ask for more than there is
        self.floor = level
        if found:
            best, found[:] = found[0], []
            self._by_splitting(found, count)
            found[:] = found or [best]

    def _rooms(self, best: Found) -> Iterable[Any]:
        return self.trials.outcome(best.options).rooms.values()

    def _split(self, heap: list[Any], best: Found, banned: frozenset[Any], kept: frozenset[Any]) -> None:
        ways = [way for way in dict.fromkeys(option.way for option in best.options) if way not in kept]
        for number, way in enumerate(ways):
            self._push(heap, banned | {way}, kept | frozenset(ways[:number]))

    def _push(self, heap: list[Any], banned: frozenset[Any], kept: frozenset[Any]) -> None:
        best = self._best(banned, kept)
        if best is not None:
            heappush(heap, (best.cost, len(heap) + self.trials.tried, best, banned, kept))

    def _best(self, banned: frozenset[Any], kept: frozenset[Any]) -> Found | None:
        """The cheapest plan without the ways ``banned`` and with each of ``kept``."""
        for _ in range(ROUNDS):
            forbidden = [number for number, one in self.pool.each() if one.way in banned]
            demands = [rule.demand() for rule in self.rules]
            demands += [Demand(number for number, one in self.pool.each() if one.way == way) for way in kept]
            try:
                choice = choose(self.pool.costs, self.pool.groups(), demands, forbidden, self.until)
            except NoChoiceError as none:
                if not none.proven:
                    raise TimeUpError from None
                return None
            outcome = self._outcome(choice.options)
            self._note([self.pool.options[number] for number in choice.options], outcome)
            left = [stop for key, stop in self._open(outcome).items() if key not in self.hopeless]
            if outcome.possible and not left:
                if self._second_look(frozenset(choice.options), outcome):
                    continue
                options = tuple(self.pool.options[number] for number in choice.options)
                return Found(options, choice.cost, choice.proven)
            self._learn(frozenset(choice.options), outcome, left)
        return None

    def _note(self, options: Iterable[Option], outcome: Outcome) -> bool:
        """What to give when the time is over before a plan is found: it clears something, brings no stop, and
        leaves nothing untold that was known (whether that is so).
        """
        sound = outcome.possible and outcome.stops.keys() <= self.base.stops.keys()
        sound = sound and outcome.unsure <= self.base.unsure
        if sound and len(outcome.stops) < self._fewest:
            self._fewest = len(outcome.stops)
            self._nearest = Found(tuple(options), 0, proven=False)
        return sound

    def _all_that_is_known(self) -> None:
        """The time is over before a choice held: the cheapest option known for each stop, one after the other as
        long as nothing new comes of it, and no longer than a moment.
        """
        end = monotonic() + GRACE
        kept: list[int] = []
        for stop in self.base.stops.values():
            alone = ((number, self.trials.outcome((option,))) for number, option in self.pool.each())
            able = [number for number, outcome in alone if outcome.clears(stop, self.base.unsure)]
            free = [one for one in able if not any(self.pool.rivals(one, other) for other in kept)]
            if {*able} & {*kept} or not free or monotonic() >= end:
                continue
            number = min(free, key=lambda one: self.pool.costs[one])
            options = [self.pool.options[one] for one in (*kept, number)]
            if self._note(options, self.trials.outcome(options)):
                kept.append(number)

    # ---- options ---------------------------------------------------------------------------

    def _begin(self) -> None:
        self._mind_the_time()
        stops = list(self.base.stops.values())
        self._take_in(self._proposed((), stops))
        for stop in stops:
            self._require(stop, frozenset())
        self._both_on_one_line()

    def _both_on_one_line(self) -> None:
        """Two stops that only another article on one line clears, and none of the articles clears both: what
        clears the one is proposed for the other's article, too (stronger brakes, one of them for the other side).
        """
        for one, other in permutations([rule for rule in self.rules if rule.clearers], 2):
            options = [self.pool.options[number] for number in one.clearers | other.clearers]
            if one.clearers & other.clearers or len({option.slot for option in options}) > 1:
                continue
            for number in sorted(one.clearers):
                if self.pool.options[number].whole and not self.pool.options[number].beside:
                    for new in self._take_in(self._proposed((number,), [other.stop]), late=True):
                        self._offer(new)

    def _second_look(self, chosen: frozenset[int], outcome: Outcome) -> bool:
        """What nothing clears by itself may go once the rest is done; whether something was found for it."""
        stops = [stop for key, stop in outcome.stops.items() if key in self.hopeless and key not in self._looked]
        self._looked |= {stop.key for stop in stops}
        self._take_in(self._proposed(chosen, stops), late=True)
        known = len(self.rules)
        for stop in stops:
            clearers = {number for number, _ in self.pool.each() if self._clears(number, stop, chosen)}
            if clearers:
                self._add_rule(Rule(self.hopeless.pop(stop.key), frozenset(), clearers))
        return len(self.rules) > known

    def _proposed(self, state: Iterable[int], stops: Iterable[Told]) -> list[Proposal]:
        """What is proposed for these stops with these options applied."""
        options = [self.pool.options[number] for number in state]
        keys = {stop.key for stop in stops}
        asked = {option.slot: option.wants for option in options if option.wants is not None}

        def look(result: Result) -> list[Proposal]:
            findings = (one for one in (*result.findings, *result.folded) if one.verdict == STOP)
            told = [Told(one).with_remedies(self.leading) for one in findings if key_of(one) in keys]
            told += [stop for stop in stops if stop.slug == SLUG]
            return Proposer(result.build, self.shelf, self.leading, asked).propose(told)

        found: list[Proposal] = self.trials.with_result(options, look)
        # More room from a part that nobody sells is no more than a wish.
        found = [one for one in found if one.stop[0] != SLUG or one.option.sort != FIND]
        standing = {option.slot: option for option in options if option.whole}
        for one in found:
            under = standing.get(one.option.slot)
            if under is not None and (one.option.beside or not one.option.whole):
                one.option = under.then(one.option)
        return found

    def _take_in(self, proposals: list[Proposal], late: bool = False) -> list[int]:
        """Try each option by itself and keep those that clear something (``late``: perhaps together with
        others); numbers of the new ones.
        """
        new = []
        for count, proposal in enumerate(proposals):
            self._step(count / len(proposals))
            number = self.pool.number(proposal.option)
            if number is None:
                self._mind_the_time()
                outcome = self.trials.outcome((proposal.option,), bill=True)
                self._note([proposal.option], outcome)
                if not outcome.possible or not (late or self._clears_any(outcome)):
                    continue
                if proposal.option.sort == FIND and self._for_sale(proposal.option):
                    continue
                number = self.pool.add(proposal.option, self._cost(proposal.option))
                new.append(number)
            proposal.option = self.pool.options[number]
            self._meant.add((number, proposal.stop))
            self.proposals.append(proposal)
        return new

    def _for_sale(self, wanted: Option) -> bool:
        """Whether the catalogue has what does as much: then nothing is to be looked for."""
        left = self.still((wanted,))
        return any(
            one.sort == BUY and (one.slot, one.field) == (wanted.slot, wanted.field) and self.still((one,)) <= left
            for _, one in self.pool.each()
        )

    def _clears_any(self, outcome: Outcome) -> bool:
        return any(outcome.clears(stop, self.base.unsure) for stop in self.base.stops.values())

    def _cost(self, option: Option) -> int:
        outcome = self.trials.outcome((option,), bill=True)
        brings = (*(outcome.cautions - self.base.cautions), *(outcome.unsure - self.base.unsure))
        touched = touched_ids(option)
        unpriced = any(touched & {*one.split(" + ")} for one in outcome.bill.unpriced)
        return weighed(option, Price(Difference(self.base.bill, outcome.bill), len(brings), unpriced), self.by)

    # ---- learning --------------------------------------------------------------------------

    def _learn(self, chosen: frozenset[int], outcome: Outcome, left: list[Told]) -> None:
        if not outcome.possible:
            given = self._least(chosen, lambda options: not self._outcome(options).possible)
            self._add_rule(Rule(NO_TOLD, given, set()))
            return
        new = self._take_in(self._proposed(chosen, left), late=True)
        for number in new:
            self._offer(number)
        for stop in left:
            there = self._has(stop.key)
            related = frozenset(number for number in chosen if self._concerns(number, stop))
            given = related if there(self._outcome(related)) else chosen
            given = self._least(given, lambda options, there=there: there(self._outcome(options)))
            if not self._require(stop, given, chosen):
                wider = related if there(self._outcome(related)) else chosen
                if not self._require(stop, wider, chosen):
                    self._require(stop, chosen, chosen)

    def _has(self, key: Key) -> Callable[[Outcome], bool]:
        return lambda outcome: outcome.possible and key in self._open(outcome)

    def _least(self, options: frozenset[int], holds: Any) -> frozenset[int]:
        """Options left out one by one as long as it still holds."""
        for one in sorted(options):
            if holds(options - {one}):
                options = options - {one}
        return options

    def _require(self, stop: Told, given: frozenset[int], chosen: frozenset[int] | None = None) -> bool:
        """Demand that, given these options, one that clears ``stop`` is chosen; False where ``chosen`` meets
        that already: then it is not what was overlooked.
        """
        clearers = {number for number, _ in self.pool.each() if self._clears(number, stop, given)}
        rule = Rule(stop, given, clearers)
        if not clearers and not given and stop.slug != SLUG:
            self.hopeless[stop.key] = stop
            return True
        if chosen is not None and clearers & chosen:
            return False
        self._add_rule(rule)
        return True

    def _add_rule(self, rule: Rule) -> None:
        self.rules.append(rule)
        self._step(1.0)

    def _offer(self, number: int) -> None:
        """An option that came late may clear what earlier demands are about."""
        for rule in self.rules:
            if rule.stop is not NO_TOLD and self._clears(number, rule.stop, rule.given):
                rule.clearers.add(number)
        for key, stop in list(self.hopeless.items()):
            if self._clears(number, stop, frozenset()):
                del self.hopeless[key]
                self._require(stop, frozenset())

    def _clears(self, number: int, stop: Told, given: frozenset[int]) -> bool:
        if number in given or any(self.pool.rivals(number, other) for other in given):
            return False
        if not self._concerns(number, stop):
            return False
        outcome = self._outcome(given | {number})
        return stop.key not in self._open(outcome) and outcome.clears(stop, self.base.unsure)

    def still(self, options: Iterable[Option]) -> set[Key]:
        """Stops that are there with these options, those too that are only told more mildly or not any more."""
        outcome = self.trials.outcome(options)
        base = self.base.stops.items()
        return {*outcome.stops, *(key for key, stop in base if not outcome.clears(stop, self.base.unsure))}

    def _concerns(self, number: int, stop: Told) -> bool:
        """Whether the option changes anything that the stop's rule read."""
        option = self.pool.options[number]
        if touched_ids(option) & stop.reads or (number, stop.key) in self._meant:
            return True
        return any(may_read(stop, kind) for kind in kinds_added(option, self.shelf))

    def _outcome(self, numbers: Iterable[int]) -> Outcome:
        self._mind_the_time()
        return self.trials.outcome([self.pool.options[number] for number in sorted(numbers)])

    def _step(self, share: float) -> None:
        """Half of the work is trying what is proposed; how much the other half is, nobody knows beforehand."""
        learned = len(self.rules)
        self.tell(share / 2 if not learned else 1 - 0.5 ** (1 + learned / 40))

    def _open(self, outcome: Outcome) -> dict[Key, Any]:
        """What is to be cleared: stops, and parts with less room than is asked for."""
        mild = {key: stop for key, stop in self.base.stops.items() if not outcome.clears(stop, self.base.unsure)}
        floor = self.floor
        if floor is None:
            return {**mild, **outcome.stops}
        tight = {key: one.asked(floor, self.leading) for key, one in outcome.rooms.items() if one.share < floor}
        return {**mild, **outcome.stops, **tight}

    def _mind_the_time(self) -> None:
        if self.until is not None and monotonic() >= self.until:
            raise TimeUpError
