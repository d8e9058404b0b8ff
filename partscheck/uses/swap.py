"""Before and after a change: findings that appear and go, figures side by side, what else to buy.

>>> import partscheck
>>> swap = partscheck.swap("apiary.yaml", "taller-tires.yaml")                        # doctest: +SKIP
>>> swap = partscheck.swap("apiary.yaml", {"replace": {"wheel": {"offset": "-12 mm"}}})  # doctest: +SKIP
>>> for figure in swap.figures:                                                       # doctest: +SKIP
...     print(figure.name, figure.before, figure.after, figure.direction)
"""

from __future__ import annotations

import os
from collections import Counter

from partscheck.build.apply import changed_build
from partscheck.build.change import Change, read_change
from partscheck.build.fit import Fit
from partscheck.build.model import Build
from partscheck.build.reader import read_build
from partscheck.build.ride_height import HEIGHTS, NO_LIFT, heights_follow
from partscheck.catalogue.catalogue import Catalogue
from partscheck.engine import check_build
from partscheck.notation.faults import Fault, Faults
from partscheck.notation.interval import INF, Interval, same_within
from partscheck.rules.findings import CAUTION, MEASURE, STOP, Finding
from partscheck.uses.bom import bill_of_materials
from partscheck.uses.figures import HARMLESS, LESS, MORE, FigureKind, Reading, Standing
from partscheck.uses.load_path import load_path, supported_gross
from partscheck.uses.swap_figures import FIGURES

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from typing import Any

    from partscheck.build.apply import Applied
    from partscheck.engine import Result
    from partscheck.uses.bom import BillOfMaterials, BomLine, Extra

WORSE, OTHER, BETTER, SAME, UNTOLD = "worse", "other", "better", "same", "cannot be told"
RANK = {WORSE: 0, OTHER: 1, BETTER: 2, SAME: 3, UNTOLD: 4}
NOISE = 1e-9  # of a value: no change but the last bits of a float


class Figure:
    """One figure before and after, at the places where both are alike.

    ``before`` and ``after`` are intervals in house units, None where there is no such thing;
    ``direction`` is worse, other (a change that is neither), better, same, or "cannot be told";
    ``missing`` the fields that it lacks on either side, ``missing_after`` those of the changed list;
    ``relative`` how much it changed, as a share; ``stood`` and ``stands`` how its rules judge it before and after.
    """

    __slots__ = (
        "after", "at", "before", "direction", "kind", "missing", "missing_after", "relative", "stands", "stood",
    )  # fmt: skip

    def __init__(
        self,
        kind: FigureKind,
        at: tuple[str, ...],
        before: Reading | None,
        after: Reading | None,
        stood: Standing,
        stands: Standing,
    ) -> None:
        self.kind = kind
        self.at = at
        self.stood = stood
        self.stands = stands
        self.before = None if before is None else before.value
        self.after = None if after is None else after.value
        told = [one for one in (before, after) if one is not None]
        self.missing = tuple(dict.fromkeys(name for one in told for name in one.missing))
        self.missing_after = () if after is None else after.missing
        self.direction, self.relative = self._moved()

    @property
    def name(self) -> str:
        return self.kind.name

    @property
    def change(self) -> Interval | None:
        """After less before; None where either is not known."""
        if self.before is None or self.after is None or not (self.before.known and self.after.known):
            return None
        return Interval.exact(self.after.mid - self.before.mid, self.before.unit)

    @property
    def brings(self) -> str:
        """The verdict (stop, caution, measure) that its rules give now and did not give before, else ""."""
        return self.stands.verdict if self.stands.grave < self.stood.grave else ""

    def _moved(self) -> tuple[str, float]:
        before, after = self.before, self.after
        if before is None or after is None:
            return (UNTOLD if self.missing else OTHER), 0.0
        if not after.known:
            return UNTOLD, 0.0
        if not before.known:  # the change itself makes it known
            return OTHER, 0.0
        step = after.mid - before.mid
        if abs(step) <= max(NOISE * abs(before.mid), NOISE * same_within(before.unit)):
            return (SAME if abs(after.width - before.width) <= NOISE else OTHER), 0.0
        share = abs(step) / abs(before.mid) if before.mid else INF
        if not self.kind.worse:
            return self._judged(), share
        return (WORSE if (step > 0) == (self.kind.worse == MORE) else BETTER), share

    def _judged(self) -> str:
        """A figure that is good at neither end is as its rules judge it."""
        if self.stands.grave == self.stood.grave:
            return OTHER
        return WORSE if self.brings else BETTER

    def order(self) -> tuple[int, int, bool, float]:
        """Worst first: what brings a stop, then a caution; what fell below zero; then by how much of what is
        allowed the change uses up, or, where no rule has a limit, by how much of itself it changed.
        """
        below = self.kind.worse == LESS and self.after is not None and self.after.lo < 0
        brings = self.stands.grave if self.brings else HARMLESS
        return RANK[self.direction], brings, not below, -self._weight()

    def _weight(self) -> float:
        used = self.stood.used, self.stands.used
        return self.relative if used[0] is None or used[1] is None else abs(used[1] - used[0])

    def __repr__(self) -> str:
        return f"<{self.direction} {self.name}: {self.before} -> {self.after}>"


class Purchase:
    """A line of the changed list with more to order than before: ``pieces`` more, ``purchases`` of them (packs
    or single pieces), ``cost`` in hundredths of ``currency`` or None; None pieces: nobody knows how many.
    """

    __slots__ = ("another", "cost", "currency", "line", "pieces", "purchases")

    def __init__(self, line: BomLine, before: BomLine | None, another: bool) -> None:
        old = None if another or before is None else before
        self.line = line
        self.another = another
        self.pieces = _more(line.order.pieces, old.order.pieces if old else 0)
        self.purchases = _more(line.order.purchases, old.order.purchases if old else 0)
        self.currency = line.currency
        each = line.price.hundredths if line.price is not None else None
        self.cost = None if each is None or self.purchases is None else each * self.purchases


class Swap:
    """What one change does to one list.

    ``before`` and ``after`` are the ``Result`` of each; ``change`` and ``applied`` what was asked and done;
    ``lift`` how much the trailer rises, mm; findings: ``appears``, ``goes``, ``stays``, and ``surfaces``, which
    was there before but followed from a stop that has gone; ``figures`` that changed, worst first;
    ``untold`` figures that the change touches and nobody can tell; ``same`` figures that stay;
    ``to_buy`` and ``not_needed`` lines of the bill of materials, ``to_add`` what is then missing on the list,
    ``totals`` by currency all that is to order before and after, in hundredths, as far as prices are typed.
    """

    def __init__(self, before: Result, after: Result, change: Change, applied: Applied, lift: Interval) -> None:
        self.before = before
        self.after = after
        self.change = change
        self.applied = applied
        self.lift = lift
        self.appears: list[Finding] = []
        self.goes: list[Finding] = []
        self.stays: list[Finding] = []
        self.surfaces: list[Finding] = []
        self._compare_findings()
        every = _figures(before, after)
        touched = _Touched(applied, lift)
        self.figures = sorted((one for one, _ in every if RANK[one.direction] < RANK[SAME]), key=Figure.order)
        self.same = [one for one, _ in every if one.direction == SAME]
        self.untold = [
            one for one, readings in every if one.direction == UNTOLD and touched.by(readings)
        ]
        bills = bill_of_materials(before), bill_of_materials(after)
        self.to_buy, self.not_needed = _purchases(*bills, applied)
        self.totals = _totals(*bills)
        new = {id(one) for one in (*self.appears, *self.surfaces)}
        self.to_add: list[Extra] = [one for one in bills[1].missing if id(one.finding) in new]

    @property
    def new_stops(self) -> list[Finding]:
        return [one for one in self.appears if one.verdict == STOP]

    @property
    def limiting(self) -> tuple[Any, Any]:
        """The part that sets the gross weight, before and after; None where no rating is known."""
        parts = [supported_gross(load_path(result))[1] for result in (self.before, self.after)]
        return parts[0], parts[1]

    @property
    def unrated(self) -> list[str]:
        """What carries the weight of the changed list by a rating that is not known, by name."""
        return list(dict.fromkeys(row.label for row in load_path(self.after) if not row.known))

    def of(self, name: str) -> list[Figure]:
        """Figures by the start of their name: "track width"."""
        return [one for one in (*self.figures, *self.same, *self.untold) if one.name.startswith(name)]

    def _compare_findings(self) -> None:
        old, new = _open(self.before), _open(self.after)
        hidden = Counter(_key(one) for one in self.before.folded)
        left = Counter(_key(one) for one in old)
        for finding in new:
            key = _key(finding)
            if left[key]:
                left[key] -= 1
                self.stays.append(finding)
            elif hidden[key]:
                hidden[key] -= 1
                self.surfaces.append(finding)
            else:
                self.appears.append(finding)
        for finding in reversed(old):
            if left[_key(finding)]:
                left[_key(finding)] -= 1
                self.goes.insert(0, finding)
        order = {STOP: 0, CAUTION: 1, MEASURE: 2}
        for found in (self.appears, self.goes, self.stays, self.surfaces):
            found.sort(key=lambda one: order[one.verdict])


def swap(
    base: str | os.PathLike[str] | bytes | Build,
    change: str | os.PathLike[str] | bytes | Change | Mapping[str, Any],
    catalogs: Iterable[str | os.PathLike[str]] = (),
    file: str = "",
) -> Swap:
    """Compare a list before and after a change.

    ``base`` is a path, the bytes of a list (``file`` then names it in messages) or a build that was read;
    ``change`` a path, the bytes of a swap file, a ``Change``, or a map with its keys ``replace``, ``add``,
    ``remove``; ``catalogs`` are folders of catalogue files laid over the shipped one, unless ``base`` is a
    build.  Raises ``Faults`` with every fault of both.
    """
    build, asked = _both_read(base, change, catalogs, file)
    applied = changed_build(build, asked)
    fits = Fit(build), Fit(applied.build)
    rise = heights_follow(*fits, applied)
    return Swap(check_build(build), check_build(applied.build), asked, applied, rise)


def _both_read(base: Any, change: Any, catalogs: Any, file: str) -> tuple[Build, Change]:
    """The list and the change; the faults of one do not hide those of the other."""
    faults: list[Fault] = []
    following = 0
    build: Build | None = None
    try:
        build = base if isinstance(base, Build) else _build(base, catalogs, file)
    except Faults as found:
        faults, following = [*found.faults], found.following
    try:
        asked = change if isinstance(change, Change) else read_change(change)
    except Faults as found:
        raise Faults([*faults, *found.faults], following) from None
    if build is None:
        raise Faults([*faults, *asked.faults], following)
    return build, asked


def _build(base: Any, catalogs: Any, file: str) -> Build:
    return read_build(base, Catalogue.load([os.fspath(folder) for folder in catalogs]), file)


# ---- findings -----------------------------------------------------------------------------------


def _open(result: Result) -> list[Finding]:
    return [one for one in (*result.findings, *result.crashed) if not one.accepted]


def _key(finding: Finding) -> Any:
    return finding.rule.slug, finding.verdict, tuple(sorted(part.id for part in finding.parts))


# ---- figures ------------------------------------------------------------------------------------


def _figures(before: Result, after: Result) -> list[tuple[Figure, list[Reading]]]:
    """Every figure with its readings, places with the same values together."""
    found: list[tuple[Figure, list[Reading]]] = []
    for kind in FIGURES:
        old, new = kind.readings(before), kind.readings(after)
        groups: dict[Any, list[str]] = {}
        for place in dict.fromkeys((*old, *new)):
            groups.setdefault((_ends(old.get(place)), _ends(new.get(place))), []).append(place)
        for places in groups.values():
            one, other = old.get(places[0]), new.get(places[0])
            at = () if len(groups) == 1 else tuple(places)
            stood, stands = kind.standing(before, at), kind.standing(after, at)
            figure = Figure(kind, at, one, other, stood, stands)
            found.append((figure, [each for each in (one, other) if each is not None]))
    return found


def _ends(reading: Reading | None) -> Any:
    return None if reading is None else (reading.value.lo, reading.value.hi, reading.missing)


class _Touched:
    """Whether a figure was made of anything that the change touches: else its lack is no news."""

    def __init__(self, applied: Applied, lift: Interval) -> None:
        self.fields = {(record.id, name) for record, name in applied.touched()}
        if lift != NO_LIFT:
            self.fields.update((applied.build.layout.id, name) for name in HEIGHTS)
        self.lines = applied.lines()

    def by(self, readings: list[Reading]) -> bool:
        return any(
            record.id in self.lines or (record.id, name) in self.fields
            for reading in readings
            for record, name in reading.reads
        )


# ---- what to buy --------------------------------------------------------------------------------


def _purchases(
    before: BillOfMaterials, after: BillOfMaterials, applied: Applied
) -> tuple[list[Purchase], list[BomLine]]:
    """Lines with more to order than before, and lines (or old articles) that are not needed any more."""
    old = {line.id: line for line in before.lines}
    new = {line.id: line for line in after.lines}
    articles = set(applied.articles)
    to_buy = []
    for id, line in new.items():
        another = any(part.id in articles for part in line.parts)
        one = Purchase(line, old.get(id), another)
        uncounted = one.pieces is None and (another or id not in old)
        if uncounted or (one.pieces or 0) > 0:
            to_buy.append(one)
    not_needed = [
        line for id, line in old.items() if id not in new or any(part.id in articles for part in line.parts)
    ]
    return to_buy, not_needed


def _totals(before: BillOfMaterials, after: BillOfMaterials) -> dict[str, tuple[int, int]]:
    sums = [{one.currency: one.order for one in bill.grand_totals()} for bill in (before, after)]
    return {one: (sums[0].get(one, 0), sums[1].get(one, 0)) for one in sorted({*sums[0], *sums[1]})}


def _more(now: int | None, then: int | None) -> int | None:
    return None if now is None or then is None else now - then
