"""What a bench sheet is made of: sentences with figures in them, steps, sections, torques."""

from __future__ import annotations

from partscheck.notation.interval import Interval
from partscheck.notation.show import show_limit
from partscheck.rules.basis import Basis
from partscheck.rules.message import write

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable
    from typing import Any

    from partscheck.build.limits import Limits
    from partscheck.parts.record import Part
    from partscheck.rules.findings import Finding

OWN_LIST = "list"


class ListBasis(Basis):
    """A figure that the user typed: it is as good as their list."""

    __slots__ = ()

    def __init__(self, source: str) -> None:
        super().__init__(OWN_LIST, source)

    def __str__(self) -> str:
        return self.source


FROM_LIST = ListBasis("as typed in your list, or in the catalogue entry that it takes")


def basis_of(row: dict[str, Any]) -> Basis:
    """What stands behind a row of a table."""
    return Basis(row["basis"]["kind"], row["basis"]["source"])


def limits_basis(limits: Limits, *names: str) -> list[Basis]:
    """What stands behind practice limits: the user's own reason over a shipped one, a published text where a
    limit has one.  What is left is common practice, which the step names in its own words.
    """
    own = [ListBasis(f"your own limit {name}: {limits.own[name].reason}") for name in names if limits.is_own(name)]
    shipped = [basis_of(limits.row(name)) for name in names if not limits.is_own(name)]
    return [*own, *(one for one in shipped if one.kind == "published")]


class Bound:
    """A limit to work to, with the decimals of the bench: rounded down, or ``up``, so that who keeps to the
    print keeps to the limit.
    """

    __slots__ = ("up", "value")

    def __init__(self, value: Interval, up: bool = False) -> None:
        self.value = value
        self.up = up


class Said:
    """A sentence with {places} for its values; it is written out when the leading units are known.

    A value may be a sentence itself, or a ``Bound``.
    """

    __slots__ = ("template", "values")

    def __init__(self, template: str, **values: Any) -> None:
        self.template = template
        self.values = values

    def text(self, leading: str) -> str:
        values = {name: _spelled(value, leading) for name, value in self.values.items()}
        return write(self.template, values, leading)

    @property
    def figures(self) -> list[tuple[str, Interval]]:
        """Every quantity in it, by the name of its place."""
        found: list[tuple[str, Interval]] = []
        for name, value in self.values.items():
            if isinstance(value, Said):
                found += value.figures
            elif isinstance(value, (Interval, Bound)):
                found.append((name, value.value if isinstance(value, Bound) else value))
        return found


def _spelled(value: Any, leading: str) -> Any:
    if isinstance(value, Bound):
        return show_limit(value.value, leading, value.up)
    return value.text(leading) if isinstance(value, Said) else value


class Torque:
    """One line of the torque table: ``what`` is tightened ``at`` these places.

    ``pieces`` at one place (None: not known), ``order`` in which they are tightened (() where no circle is
    known), ``full`` torque (a range where the maker's value is not on the list, None where nothing is known),
    ``stages`` before it, ``oiled`` the same clamp with oiled threads (None: do not oil), ``wrench`` in words.
    """

    __slots__ = ("at", "full", "oiled", "order", "pieces", "stages", "what", "wrench")

    def __init__(
        self,
        what: Said,
        at: tuple[str, ...],
        pieces: int | None,
        order: tuple[int, ...],
        full: Interval | None,
        stages: tuple[Interval, ...],
        wrench: Said,
        oiled: Interval | None = None,
    ) -> None:
        self.what = what
        self.at = at
        self.pieces = pieces
        self.order = order
        self.full = full
        self.stages = stages
        self.wrench = wrench
        self.oiled = oiled

    @property
    def exact(self) -> bool:
        """True when the torque is one value: of the list, or worked out."""
        return self.full is not None and self.full.is_exact


class Step:
    """One thing to do, with a box to tick.

    ``do`` and ``details`` are sentences; ``parts`` and ``at`` say of what and where; ``basis`` stands behind
    every figure; ``tools`` are needed; ``torque`` is its line of the torque table or None.  ``subjects`` are the
    rules that have a say in it, ``settles`` the slugs that the step itself puts right.  Once the sheet is
    bound: ``stops`` and ``waits`` (numbers of the stops, and of the measuring steps, that come before it),
    ``cautions`` to mind, and ``number``.
    """

    __slots__ = (
        "at",
        "basis",
        "cautions",
        "closely",
        "details",
        "do",
        "hazard",
        "number",
        "parts",
        "settles",
        "stops",
        "subjects",
        "tools",
        "torque",
        "waits",
    )

    def __init__(self, do: str, parts: Iterable[Any] = (), at: Iterable[str] = (), **values: Any) -> None:
        self.do = Said(do, **values)
        self.details: list[Said] = []
        self.parts: tuple[Part, ...] = tuple(dict.fromkeys(part for part in parts if part is not None))
        self.at = tuple(at)
        self.basis: list[Basis] = []
        self.tools: list[Said] = []
        self.hazard = ""
        self.torque: Torque | None = None
        self.subjects: frozenset[str] = frozenset()
        self.closely: frozenset[str] = frozenset()
        self.settles: frozenset[str] = frozenset()
        self.stops: list[str] = []
        self.waits: list[str] = []
        self.cautions: list[Finding] = []
        self.number = ""

    def more(self, template: str, **values: Any) -> Step:
        """One more sentence under it."""
        self.details.append(Said(template, **values))
        return self

    def by(self, *basis: Basis) -> Step:
        """What stands behind its figures and its advice."""
        for one in basis:
            if str(one) not in [str(other) for other in self.basis]:
                self.basis.append(one)
        return self

    def take(self, *tools: Said | str) -> Step:
        """Tools to have ready for it."""
        self.tools.extend(Said(tool) if isinstance(tool, str) else tool for tool in tools)
        return self

    def danger(self, text: str) -> Step:
        self.hazard = text
        return self

    def minds(self, *subjects: str, closely: Iterable[str] = (), settles: Iterable[str] = ()) -> Step:
        """Rules (by their module) whose findings on these parts come before it: on two of the parts for those
        that it minds ``closely``; ``settles`` are the slugs that it cures itself.
        """
        self.closely = frozenset(closely)
        self.subjects = frozenset(subjects) | self.closely
        self.settles = frozenset(settles)
        return self

    def tighten(self, torque: Torque) -> Step:
        self.torque = torque
        return self

    @property
    def figures(self) -> list[tuple[str, Interval]]:
        """Every quantity that the step prints."""
        return [figure for said in (self.do, *self.details) for figure in said.figures]


def merged(steps: Iterable[Step]) -> list[Step]:
    """Steps that say the same of several {places} become one step for all of them, parts together."""
    kept: dict[tuple[str, ...], Step] = {}
    for step in steps:
        rest = {**step.do.values, "places": ""}
        key = (Said(step.do.template, **rest).text("metric"), *(one.text("metric") for one in step.details))
        first = kept.setdefault(key, step)
        if first is not step:
            first.at = tuple(sorted({*first.at, *step.at}))
            first.parts = tuple(dict.fromkeys((*first.parts, *step.parts)))
            first.do.values["places"] = ", ".join(first.at)
            first.by(*step.basis)
    return list(kept.values())


class Section:
    """Steps of one sort of work; ``intro`` holds for all of them, ``hazard`` too.  ``number`` by its place."""

    __slots__ = ("basis", "hazard", "intro", "key", "number", "steps", "title")

    def __init__(
        self,
        key: str,
        title: str,
        steps: list[Step],
        intro: tuple[Said, ...] = (),
        hazard: str = "",
        basis: tuple[Basis, ...] = (),
    ) -> None:
        self.key = key
        self.title = title
        self.steps = steps
        self.intro = intro
        self.hazard = hazard
        self.basis = basis
        self.number = 0
