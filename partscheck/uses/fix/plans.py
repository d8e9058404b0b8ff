"""A plan applied to a copy of the build, with every rule run again: what it clears, causes and costs."""

from __future__ import annotations

from partscheck.build.copying import copied
from partscheck.build.fit import Fit
from partscheck.engine import check_build
from partscheck.rules.findings import CAUTION, MEASURE, STOP
from partscheck.uses.fix.costs import Bill, Difference
from partscheck.uses.fix.edits import COUNT, FIND
from partscheck.uses.fix.rooms import rooms
from partscheck.uses.fix.trials import apply_options, key_of

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable

    from partscheck.engine import Result
    from partscheck.rules.findings import Finding
    from partscheck.uses.fix.demands import Found
    from partscheck.uses.fix.edits import Option
    from partscheck.uses.fix.trials import Key


class Step:
    """One option of a plan: ``clears`` slugs of the stops that it clears by itself, ``needed_for`` slugs of
    those that the other steps would bring without it, or that take several steps together; ``spares`` slugs of
    those that it would clear by itself, too, but that another step of the plan clears already.
    """

    __slots__ = ("clears", "needed_for", "option", "spares")

    def __init__(
        self, option: Option, clears: Iterable[str], needed_for: Iterable[str] = (), spares: Iterable[str] = ()
    ) -> None:
        self.option = option
        self.clears = list(dict.fromkeys(clears))
        self.needed_for = list(dict.fromkeys(needed_for))
        self.spares = [slug for slug in dict.fromkeys(spares) if slug not in self.clears]


class Plan:
    """What to do, and what came of it on a copy of the build.

    ``steps`` as they are told; ``before`` and ``after`` results, ``build`` the changed one; ``clears``
    stops that go; ``leaves`` stops that stay because nothing considered clears them; ``causes`` cautions and
    measurements that were not there before, or were stops; ``difference`` in money and weight; ``least_room``
    the rated part with the least left over; ``proven`` True when nothing better is left among the options
    considered.
    """

    __slots__ = (
        "_stops_before", "after", "applied", "build", "causes", "clears", "difference", "least_room", "leaves",
        "proven", "steps",
    )  # fmt: skip

    def __init__(self, before: Result, found: Found, steps: list[Step]) -> None:
        base = before.build
        self.applied = apply_options(copied(base), found.options, Fit(base))
        self.build = self.applied.build
        self.after = check_build(self.build)
        self.steps = steps
        self.proven = found.proven
        old, new = _keyed(before), _keyed(self.after)
        self._stops_before = {key for key, one in old.items() if one.verdict == STOP}
        self.clears = [one for key, one in old.items() if one.verdict == STOP and not _stop(new.get(key))]
        self.leaves = [one for one in new.values() if one.verdict == STOP]
        self.causes = [
            one for key, one in new.items()
            if one.verdict in (CAUTION, MEASURE) and not one.accepted and (key not in old or _stop(old[key]))
        ]  # fmt: skip
        self.difference = Difference(Bill(before), bill := Bill(self.after))
        changed = {*self.applied.articles, *(part.id for part in self.applied.added)}
        changed |= {step.option.slot for step in steps if step.option.sort == COUNT}
        to_find = [id for step in steps if step.option.sort == FIND for id in step.option.to_find]
        unpriced = [one for one in bill.unpriced if {*one.split(" + ")} & changed]
        self.difference.unpriced = sorted({*to_find, *unpriced})
        self.least_room = next(iter(rooms(self.after).values()), None)

    @property
    def brings_a_stop(self) -> bool:
        """A stop that was not there before: such a plan is never shown."""
        return any(key_of(one) not in self._stops_before for one in self.leaves)

    def remain(self, verdict: str) -> list[Finding]:
        """Open findings after it."""
        return [one for one in self.after.findings if one.verdict == verdict and not one.accepted]

    def __repr__(self) -> str:
        return f"<{len(self.steps)} steps, clears {len(self.clears)}, leaves {len(self.leaves)}>"


def _keyed(result: Result) -> dict[Key, Finding]:
    found: dict[Key, Finding] = {}
    for one in (*result.findings, *result.folded, *result.crashed):
        found.setdefault(key_of(one), one)
    return found


def _stop(finding: Finding | None) -> bool:
    return finding is not None and finding.verdict == STOP
