"""Figures of a build that a change moves: what each is called, where it is taken, which way is worse."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from partscheck.build.places import AxlePlace
from partscheck.rules.findings import Missing

if TYPE_CHECKING:
    from collections.abc import Callable

    from partscheck.engine import Result
    from partscheck.notation.interval import Interval
    from partscheck.rules.basis import Basis

END, AXLE, WHOLE = "wheel end", "axle", "whole"
MORE, LESS, NEITHER = "more", "less", ""  # which way is worse
# How a figure is written: as its unit is, as a percentage, or as a percentage of what it was before.
AS_UNIT, PERCENT, SHARE = "unit", "percent", "share"


class FigureKind:
    """One figure: ``function`` takes a wheel end, an axle or the ``Result`` and gives an interval, or None
    where there is no such thing on the list.
    """

    __slots__ = ("basis", "function", "name", "scope", "worse", "written")

    def __init__(
        self, name: str, scope: str, worse: str, basis: Basis, function: Callable[[Any], Any], written: str
    ) -> None:
        self.name = name
        self.scope = scope
        self.worse = worse
        self.basis = basis
        self.function = function
        self.written = written

    @property
    def meaning(self) -> str:
        """What it is, in one line."""
        return (self.function.__doc__ or "").strip()

    def readings(self, result: Result) -> dict[str, Reading]:
        """The figure at each place ("1L", "1", or "" for the whole trailer) where there is one."""
        found: dict[str, Reading] = {}
        for places, binding in self._bindings(result):
            reading = self._read(binding, result)
            if reading is not None:
                found.update(dict.fromkeys(places, reading))
        return found

    def _bindings(self, result: Result) -> list[tuple[tuple[str, ...], Any]]:
        fit = result.fit
        if self.scope == END:
            return [(end.at, end) for end in fit.ends]
        if self.scope == AXLE:
            return [((str(axle.number),), axle) for axle in fit.bindings(AxlePlace)]
        return [(("",), result)]

    def _read(self, binding: Any, result: Result) -> Reading | None:
        ledger = result.build.ledger
        del ledger[:]
        value = self.function(binding)
        if value is None:
            return None
        reads = list(dict.fromkeys(ledger))
        return Reading(value, reads)


class Reading:
    """A figure's value at one place; ``reads`` are the (record, field name) it was made of; ``missing``
    the fields ("tire.diameter") that it lacks, where it is not known.
    """

    __slots__ = ("missing", "reads", "value")

    def __init__(self, value: Interval, reads: list[tuple[Any, str]]) -> None:
        self.value = value
        self.reads = [(record, name.removeprefix("?")) for record, name in reads]
        asked = [] if value.known else [Missing(*read) for read in reads if _unread(*read)]
        self.missing = tuple(dict.fromkeys(one.name for one in asked))


def _unread(record: Any, name: str) -> bool:
    """A field that was asked for, not only looked at, and that nothing is known of."""
    field = record.fields.get(name)
    if field is None:
        return False
    typed = record.values.get(name)
    return typed is None or typed.value is field.type.unknown


FIGURES: list[FigureKind] = []


def figure(
    name: str, *, of: str, basis: Basis, worse: str = NEITHER, written: str = AS_UNIT
) -> Callable[[Callable[[Any], Any]], Callable[[Any], Any]]:
    """Declare the decorated function as a figure; reports list figures in the order of their declaration."""

    def register(function: Callable[[Any], Any]) -> Callable[[Any], Any]:
        FIGURES.append(FigureKind(name, of, worse, basis, function, written))
        return function

    return register
