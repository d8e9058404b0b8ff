"""Sentences with values in them, written out when a report knows its leading unit system."""

from __future__ import annotations

from partscheck.notation.interval import INF, Interval
from partscheck.notation.measure import show_both, show_pair
from partscheck.notation.show import show_whole
from partscheck.parts.record import Part
from partscheck.rules.check import Check

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any


class Most:
    """A greatest allowed value in a sentence: whole units, rounded down, so that the print keeps to it."""

    __slots__ = ("up", "value")

    def __init__(self, value: Interval) -> None:
        self.value = value
        self.up = False


class Least(Most):
    """A least needed value in a sentence: whole units, rounded up."""

    __slots__ = ()

    def __init__(self, value: Interval) -> None:
        super().__init__(value)
        self.up = True


def name_of(part: Part) -> str:
    """A part in a sentence: "hub", or "adapter 'plate'" when its id says something else."""
    title = part.title or part.kind
    return title if part.id in (part.kind, title) else f"{title} '{part.id}'"


def write(template: str, values: dict[str, Any], leading: str) -> str:
    """``template`` with its {places} filled; quantities in both unit systems."""
    if not values:
        return template.format() if "{" in template else template
    return template.format_map(_Spelled(values, leading))


class _Spelled(dict[str, object]):
    """Values spelled when a sentence has a place for them: most have places for few."""

    __slots__ = ("leading",)

    def __init__(self, values: dict[str, Any], leading: str) -> None:
        super().__init__(values)
        self.leading = leading

    def __getitem__(self, name: str) -> str:
        return spell(super().__getitem__(name), self.leading)


class _OfPair:
    """One of two values of a unit, with as many decimals as tell them apart."""

    __slots__ = ("have", "need", "number")

    def __init__(self, have: Interval, need: Interval, number: int) -> None:
        self.have = have
        self.need = need
        self.number = number


def spell(value: Any, leading: str) -> str:
    """One value in a sentence."""
    if isinstance(value, Interval):
        return show_both(value, leading)
    if isinstance(value, Most):
        return show_whole(value.value, leading, value.up)
    if isinstance(value, _OfPair):
        return show_pair(value.have, value.need, leading)[value.number]
    if isinstance(value, Part):
        return name_of(value)
    if isinstance(value, (list, tuple)):
        return ", ".join(spell(one, leading) for one in value)
    text = getattr(value, "text", None)
    return text if isinstance(text, str) and text else str(value)


def standard_values(check: Check) -> dict[str, Any]:
    """{have}, {need} and {by} (how far the worse end is off) of a check, digits kept apart."""
    have, need, margin = check.have, check.need, check.margin
    if margin is None or not isinstance(have, Interval) or not isinstance(need, Interval):
        return {"have": have, "need": need}
    return {"have": _OfPair(have, need, 0), "need": _OfPair(have, need, 1), "by": _off(margin)}


def _off(margin: Interval) -> Interval:
    """How far the worse end is off; at least so far where that end is not known."""
    if margin.lo == -INF:
        return Interval(max(0.0, -margin.hi), INF, margin.unit)
    return Interval(abs(margin.lo), abs(margin.lo), margin.unit)
