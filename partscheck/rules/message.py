"""Sentences with values in them, written out when a report knows its leading unit system."""

from __future__ import annotations

from typing import Any

from partscheck.notation.interval import INF, Interval
from partscheck.notation.measure import show_both, show_pair
from partscheck.notation.show import show_whole
from partscheck.parts.record import Part
from partscheck.rules.check import Check


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
    return template.format(**{name: spell(value, leading) for name, value in values.items()})


def spell(value: Any, leading: str) -> str:
    """One value in a sentence."""
    if isinstance(value, Interval):
        return show_both(value, leading)
    if isinstance(value, Most):
        return show_whole(value.value, leading, value.up)
    if isinstance(value, Part):
        return name_of(value)
    if isinstance(value, (list, tuple)):
        return ", ".join(spell(one, leading) for one in value)
    text = getattr(value, "text", None)
    return text if isinstance(text, str) and text else str(value)


def standard_values(check: Check, leading: str) -> dict[str, Any]:
    """{have}, {need} and {by} (how far the worse end is off) of a check, digits kept apart."""
    have, need, margin = check.have, check.need, check.margin
    if margin is None or not isinstance(have, Interval) or not isinstance(need, Interval):
        return {"have": have, "need": need}
    shown_have, shown_need = show_pair(have, need, leading)
    return {"have": shown_have, "need": shown_need, "by": _off(margin)}


def _off(margin: Interval) -> Interval:
    """How far the worse end is off; at least so far where that end is not known."""
    if margin.lo == -INF:
        return Interval(max(0.0, -margin.hi), INF, margin.unit)
    return Interval(abs(margin.lo), abs(margin.lo), margin.unit)
