"""What a drawing asks of values and findings: a size to draw, whether it is known, what is wrong with it."""

from __future__ import annotations

import re

from partscheck.notation.interval import INF, Interval
from partscheck.notation.measure import show_both
from partscheck.report.drawing.sheet import TROUBLE, UNKNOWN
from partscheck.rules.findings import CAUTION, MEASURE, STOP, Finding

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable, Iterable
    from typing import Any

    from partscheck.build.places import WheelEnd
    from partscheck.engine import Result
    from partscheck.report.drawing.sheet import Sheet

_ENDS = re.compile(r"(?<=[a-z0-9)'])\. (?=[A-Z])")
_ORDER = {STOP: 0, CAUTION: 1, MEASURE: 2}
SEEN = 0.3  # mm on paper: a band of tolerance narrower than this is not drawn
FARTHEST = 1e7  # mm: what is farther than this is as good as unknown


class Size:
    """A value to draw, mm: ``at`` its middle, or a stand-in where ``known`` is False."""

    __slots__ = ("at", "known", "value")

    def __init__(self, value: Interval, stand_in: float) -> None:
        self.value = value
        self.known = value.known and abs(value.lo) < FARTHEST and abs(value.hi) < FARTHEST
        self.at = value.mid if self.known else stand_in

    def words(self, leading: str) -> str:
        """In both unit systems; a question mark where it is not known."""
        return show_both(self.value, leading) if self.known else "?"


def amount(margin: Interval | None, leading: str) -> str:
    """How much is missing, or left over, in words; "" without a margin."""
    if margin is None or abs(margin.lo) == INF or abs(margin.hi) == INF:
        return ""
    return show_both(abs(margin), leading)


def findings_of(result: Result, slugs: Iterable[str], places: tuple[str, ...] = ()) -> list[Finding]:
    """What does not hold, of these rules, at one of the places (or anywhere), worst first; accepted ones not."""
    asked = tuple(slugs)
    found = [
        finding
        for finding in result.findings
        if finding.rule.slug in asked
        and not finding.accepted
        and (not places or not finding.at or set(places) & set(finding.at))
    ]
    return sorted(found, key=lambda one: (_ORDER.get(one.verdict, 3), asked.index(one.rule.slug)))


def failing(result: Result, slug: str, *places: str) -> Finding | None:
    """The finding of a rule that stops or cautions at a place; None where nothing is wrong."""
    return next((one for one in findings_of(result, (slug,), places) if one.verdict in (STOP, CAUTION)), None)


def checked(result: Result, slug: str, place: str) -> Finding | None:
    """What a rule says at a place, also where it holds."""
    return next((one for one in result.of(slug) if place in one.at), None)


def tell(sheet: Sheet, findings: Iterable[Finding], most: int = 6) -> None:
    """Findings under a view: "!" before what is wrong; "?" before what to measure, all in one."""
    every = list(findings)
    wrong = [one for one in every if one.verdict != MEASURE]
    sentences = dict.fromkeys(first_sentence(one.message(sheet.leading)) for one in wrong)
    with sheet.told_around():
        sheet.notes(list(sentences)[:most], TROUBLE)
    asked = dict.fromkeys(one.name for finding in every if finding.verdict == MEASURE for one in finding.missing)
    if asked:
        sheet.note(f"Measure first, then it can be told whether this holds: {', '.join(asked)}.", UNKNOWN)


def not_known(sheet: Sheet, names: Iterable[str]) -> None:
    """What stands on the drawing at no size of its own."""
    listed = ", ".join(dict.fromkeys(names))
    if listed:
        sheet.note(f"Not known, so drawn dashed and to no size: {listed}.", UNKNOWN)


def first_sentence(text: str) -> str:
    """What is wrong, without what follows from it."""
    return _ENDS.split(text, maxsplit=1)[0].rstrip(".") + "."


def said(findings: Iterable[Finding], leading: str) -> str:
    """The same for a caption: sentences in a row."""
    return " ".join(finding.message(leading) for finding in findings)


def alike(ends: Iterable[WheelEnd], shown: Callable[[WheelEnd], Iterable[Any]]) -> list[list[WheelEnd]]:
    """Wheel ends that show the same parts, together: they need one drawing."""
    groups: dict[tuple[str, ...], list[WheelEnd]] = {}
    for end in ends:
        key = tuple("" if part is None else part.id for part in shown(end))
        groups.setdefault(key, []).append(end)
    return list(groups.values())


def places_of(group: Iterable[WheelEnd]) -> tuple[str, ...]:
    return tuple(sorted(at for end in group for at in end.at))


def title_of(title: str, places: tuple[str, ...]) -> str:
    """A title with the places it is for: "Bolt circles, 1L and 1R"."""
    listed = ", ".join(places[:-1]) + " and " + places[-1] if len(places) > 1 else "".join(places)
    return f"{title}, {listed}"
