"""Plans that clear every stop of a list, tried on a copy with every rule run again.

>>> import partscheck
>>> fix = partscheck.fix("apiary.yaml", by="cost")                # doctest: +SKIP
>>> for step in fix.plans[0].steps:                               # doctest: +SKIP
...     print(step.option.do, step.clears)
"""

from __future__ import annotations

import os
from time import monotonic

from partscheck.build.model import Build
from partscheck.engine import Result, check_build
from partscheck.progress import Progress
from partscheck.rules.findings import STOP
from partscheck.uses.fix.costs import CHANGES, OBJECTIVES
from partscheck.uses.fix.edits import FIND, ORDER
from partscheck.uses.fix.planner import Planner
from partscheck.uses.fix.plans import Plan, Step
from partscheck.uses.fix.trials import key_of
from partscheck.uses.fix.wanted import can_be_said, carried_words, wanted_words

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable
    from typing import Any

    from partscheck.rules.findings import Finding
    from partscheck.uses.fix.demands import Found

STEPS = 1000  # of the progress line
MOST_IN_VAIN = 3


class Lacking:
    """A stop that nothing considered clears: ``finding``, and ``parts``: what a part would have to be; or
    that something clears, but not without another stop: ``tried`` (what was done, slugs of what it brings).
    """

    __slots__ = ("finding", "parts", "tried")

    def __init__(self, finding: Finding, parts: list[str], tried: list[tuple[str, list[str]]]) -> None:
        self.finding = finding
        self.parts = parts
        self.tried = tried


class Fix:
    """What can be done about a list.

    ``before`` its result; ``plans`` best first; ``lacking`` stops that nothing considered clears; ``late``
    when the time was over: then the plans are the best so far, not proven best.  ``tried`` tells of each
    remedy, by (key of its finding, its number), which rules' stops it cleared and which it caused, alone.
    ``considered`` options and ``trials`` made.
    """

    def __init__(self, before: Result, by: str) -> None:
        self.before = before
        self.by = by
        self.plans: list[Plan] = []
        self.lacking: list[Lacking] = []
        self.late = False
        self.seconds = 0.0
        self.considered = self.trials = 0
        self.tried: dict[Any, tuple[list[str], list[str]]] = {}

    @property
    def build(self) -> Build:
        return self.before.build

    @property
    def stops(self) -> list[Finding]:
        """Those of the list as it is, what follows from another one apart."""
        return [one for one in self.before.findings if one.verdict == STOP]

    @property
    def clears_all(self) -> bool:
        return not self.stops or any(not plan.leaves for plan in self.plans)


def fix(
    source: str | os.PathLike[str] | bytes | Build | Result,
    by: str = CHANGES,
    plans: int = 3,
    seconds: float | None = None,
    catalogs: Iterable[str | os.PathLike[str]] = (),
    file: str = "",
    units: str | None = None,
) -> Fix:
    """Plans that clear every stop.

    source    a path, the bytes of a list (``file`` then names it in messages), a build, or a checked one
    by        "changes" (fewest first), "cost" (least money first) or "margin" (greatest least room first)
    plans     how many, each doing without something that those before it do
    seconds   after which the best so far is given, not proven best; None: until it is proven
    catalogs  folders of catalogue files laid over the shipped one, unless the source is a build
    units     "inch" or "metric": which lead in what to do (None: the list's own)

    Raises ``Faults``, and ``ValueError`` for an objective that is none.
    """
    if by not in OBJECTIVES:
        raise ValueError(f"by is one of {', '.join(OBJECTIVES)}, not {by!r}")
    began = monotonic()
    before = _checked(source, catalogs, file)
    found = Fix(before, by)
    if found.stops:
        with Progress("looking for a fix", STEPS) as progress:
            _plan(found, plans, None if seconds is None else began + seconds, progress, units)
    found.seconds = monotonic() - began
    return found


def _checked(source: Any, catalogs: Iterable[Any], file: str) -> Result:
    if isinstance(source, Result):
        return source
    if not isinstance(source, Build):
        import partscheck

        source = partscheck.read_list(source, catalogs, file)
    return check_build(source)


def _plan(found: Fix, count: int, until: float | None, progress: Progress, units: str | None) -> None:
    leading = units or found.build.leading()
    if until is not None and monotonic() >= until:  # reading and checking took all of it
        found.late = True
        return
    planner = Planner(found.build, found.by, leading, until, lambda share: progress.at(int(share * STEPS)))
    for one in planner.plans(count):
        plan = Plan(found.before, one, _steps(planner, one))
        _say_loads(plan, leading)
        if plan.clears and not plan.brings_a_stop:
            found.plans.append(plan)
    found.late = planner.late
    found.considered, found.trials = len(planner.pool.options), planner.trials.tried
    open_ = set(planner.hopeless) if found.plans or found.late else set(planner.base.stops)
    found.lacking = [
        Lacking(one, _would_be(found.before, one, leading), _in_vain(planner, one))
        for one in (*found.before.findings, *_come_to_light(found))
        if one.verdict == STOP and key_of(one) in open_
    ]
    found.tried = _tried(planner)


def _come_to_light(found: Fix) -> list[Finding]:
    """Stops that followed from another one, and are told once that is gone."""
    left = {key_of(one) for one in found.plans[0].after.findings} if found.plans else set()
    return [one for one in found.before.folded if key_of(one) in left]


def _steps(planner: Planner, found: Found) -> list[Step]:
    """The options by what they are and in the order of the list, each with what it clears: a stop that several
    of them would clear is one's alone, that without which it would be there, or the first.
    """
    lines = {one.id: number for number, one in enumerate(planner.trials.build.records())}
    options = sorted(found.options, key=lambda one: (ORDER.index(one.sort), lines.get(one.slot, len(lines))))
    stops = planner.base.stops
    alone = [{*stops} - planner.still((option,)) for option in options]
    without = [planner.still([one for one in options if one is not option]) for option in options]
    left = planner.still(options)
    own: list[list[Any]] = [[] for _ in options]
    for key in stops:
        able = [number for number, keys in enumerate(alone) if key in keys]
        for number in [number for number in able if key in without[number]] or able[:1]:
            own[number].append(key)
    return [
        Step(
            option,
            [key[0] for key in own[number]],
            [key[0] for key in without[number] if key not in alone[number] and key not in left],
            [key[0] for key in stops if key in alone[number] and key not in own[number]],
        )
        for number, option in enumerate(options)
    ]


def _say_loads(plan: Plan, leading: str) -> None:
    """What is to be found has to carry what it carries once the plan is done."""
    for step in plan.steps:
        option = step.option
        if option.sort != FIND:
            continue
        for id in option.to_find:
            words = carried_words(plan.after, id, option.wants or (), leading)
            if words:
                step.option = option.told(f"{option.do}. It is to be {words}" if ". " in option.do else
                                          f"{option.do}, {words}")  # fmt: skip


def _in_vain(planner: Planner, finding: Finding) -> list[tuple[str, list[str]]]:
    """What clears a stop by itself, and which stops it brings: the first few, those that bring least."""
    found: dict[Any, tuple[str, list[str]]] = {}
    for _, option in planner.pool.each():
        outcome = planner.trials.outcome((option,))
        if key_of(finding) not in outcome.stops:
            brings = sorted({key[0] for key in outcome.stops if key not in planner.base.stops})
            found.setdefault((option.slot, option.entry or option.key), (option.do, brings))
    return sorted(found.values(), key=lambda one: len(one[1]))[:MOST_IN_VAIN]


def _would_be(before: Result, finding: Finding, leading: str) -> list[str]:
    """What parts would have to be for this stop to go, by its own remedies."""
    from partscheck.uses.fix.candidates import Want

    build = before.build
    wants: dict[str, list[Want]] = {}
    for remedy, _ in finding.remedies(leading):
        target, _, key = remedy.field.rpartition(".")
        if remedy.operation == "replace" and build.part(target) is not None and remedy.target is not None:
            wants.setdefault(target, []).append(Want(key, remedy.relation, remedy.target, None, remedy.values))
    return [
        ", ".join(filter(None, (wanted_words(part, asked, leading),
                                carried_words(before, part.id, asked, leading))))
        for part in build.parts if (asked := wants.get(part.id)) and can_be_said(part, asked, leading)
    ]  # fmt: skip


def _tried(planner: Planner) -> dict[Any, tuple[list[str], list[str]]]:
    """For each remedy what the best of its options did by itself."""
    found: dict[Any, tuple[list[str], list[str]]] = {}
    for one in planner.proposals:
        outcome = planner.trials.outcome((one.option,))
        clears = [key[0] for key in planner.base.stops if key not in outcome.stops]
        causes = [key[0] for key in outcome.stops if key not in planner.base.stops]
        best = found.get((one.stop, one.number))
        if best is None or (len(causes), -len(clears)) < (len(best[1]), -len(best[0])):
            found[(one.stop, one.number)] = (list(dict.fromkeys(clears)), list(dict.fromkeys(causes)))
    return found


__all__ = ["Fix", "Lacking", "Plan", "Step", "fix"]
