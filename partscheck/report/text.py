"""The report as text for a terminal, at most 100 columns, without colour."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from partscheck.notation.interval import INF, Interval
from partscheck.notation.measure import show, show_both
from partscheck.notation.show import show_limit
from partscheck.report.told import own_limit, told
from partscheck.report.wrap import Page, plural
from partscheck.rules.check import AT_LEAST
from partscheck.rules.findings import CAUTION, MEASURE, STOP, Finding
from partscheck.rules.message import name_of
from partscheck.uses.load_path import load_path, supported_gross
from partscheck.uses.measurements import Measurement, measurements

if TYPE_CHECKING:
    from partscheck.engine import Result

SCREENING = (
    "partscheck screens a list; it approves nothing. Wheels, brakes, towing, jacking and cut or welded "
    "parts can kill: follow the part makers' instructions and local codes, and have a licensed shop "
    "look at what you are not sure of."
)
NOTHING_HELPS = (
    "A check needs parts that touch each other, such as a hub, the wheel on it and its nuts, with what is known "
    "of them: `partscheck new` writes a list to start from."
)
HEADS = {STOP: "STOP - does not fit, or is unsafe", CAUTION: "CAUTION - against good practice, or to look up"}


def text_report(result: Result, leading: str, columns: int = 80, everything: bool = False) -> str:
    """The whole report.  ``everything`` adds what held, and the fit graph."""
    page = Page(columns)
    to_take = measurements(result)
    _verdict(page, result, len(to_take))
    for verdict in (STOP, CAUTION):
        _findings(page, result, verdict, leading)
    _measurements(page, to_take, leading)
    _undecided(page, result, leading)
    _load_path(page, result, leading)
    _notes(page, result, leading)
    _accepted(page, result, leading)
    if everything:
        _graph(page, result)
        _held(page, result, leading)
    _crashed(page, result, leading)
    _tally(page, result)
    return page.text()


def _verdict(page: Page, result: Result, to_take: int) -> None:
    counts = result.counts()
    name = result.build.name or "This list"
    if not any(counts.values()):
        page.line(f"NOTHING CHECKED - {name}: no rule found anything on this list to look at.")
        page.line(NOTHING_HELPS)
        return
    rest = [
        plural(counts[CAUTION], "caution") if counts[CAUTION] else "",
        plural(to_take, "measurement") + " to take" if to_take else "",
    ]
    tail = ", ".join(piece for piece in rest if piece)
    if counts[STOP]:
        one = counts[STOP] == 1
        problem = "thing does not fit or is unsafe" if one else "things do not fit or are unsafe"
        page.line(f"STOP - {name}: {counts[STOP]} {problem}" + (f"; {tail}." if tail else "."))
    elif tail:
        page.line(f"NO STOP - {name}: nothing on this list is known to be wrong; {tail}.")
    else:
        page.line(f"ALL HELD - {name}: every check that could be made held.")


def _findings(page: Page, result: Result, verdict: str, leading: str) -> None:
    found = [one for one in result.findings if one.verdict == verdict and not one.accepted]
    if not found:
        return
    page.head(HEADS[verdict])
    for number, finding in enumerate(found, start=1):
        _finding(page, number, finding, result, leading)


def _finding(page: Page, number: int, finding: Finding, result: Result, leading: str) -> None:
    page.gap()
    page.item(f"{number}.", finding.message(leading))
    page.under(_where(finding))
    page.under(finding.why(leading), "Why: ")
    for count, (_, text) in enumerate(finding.remedies(leading)):
        sentence = text[0].upper() + text[1:] + ("" if text.endswith(".") else ".")
        page.under(sentence, "Do: " if count == 0 else "    ")
    page.under(finding.check.hazard, "Danger: ")
    page.under("; ".join(str(basis) for basis in finding.basis), "Basis: ")
    page.under(_own_limits(finding, result, leading), "Your limit: ")
    also = [one.rule.slug for one in result.folded if one.follows is finding]
    if also:
        page.under("not told apart: " + ", ".join(dict.fromkeys(also)), "Follows from it, ")


def _where(finding: Finding) -> str:
    parts = ", ".join(name_of(part) for part in finding.parts[:4])
    if len(finding.parts) > 4:
        parts += f" and {len(finding.parts) - 4} more"
    at = f" at {', '.join(finding.at)}" if finding.at else ""
    mark = finding.mark
    line = f"line {mark.line}: " if mark is not None else ""
    return f"{line}{parts}{at}  [{finding.rule.slug}]"


def _own_limits(finding: Finding, result: Result, leading: str) -> str:
    return "; ".join(own_limit(result, name, leading) for name in finding.overrides)


def _measurements(page: Page, to_take: list[Measurement], leading: str) -> None:
    if not to_take:
        return
    page.head("MEASURE - take these, those that decide most come first")
    own_words = _own_words(to_take, leading)
    for number, one in enumerate(to_take, start=1):
        page.gap()
        page.item(f"{number}.", f"{one.name}: {one.meaning}.")
        page.under(one.how, "How: ")
        if one.accuracy is not None:
            page.under(show_both(one.accuracy, leading), "Exact to: ")
        for slug, relation, bound in one.bounds:
            page.under(f"{slug} holds with {relation_words(relation)} {_bound(bound, relation, leading)}", "")
        waiting = [slug for slug in one.slugs if slug not in {bound[0] for bound in one.bounds}]
        if waiting:
            page.under(", ".join(waiting), "Decides: ")
        for words, place in own_words.items():
            if place is one:
                page.under(words, "Why: ")


def _own_words(to_take: list[Measurement], leading: str) -> dict[str, Measurement]:
    """What rules say of what they cannot tell, and the measurement to say it at: the most particular."""
    found: dict[str, Measurement] = {}
    for one in sorted(to_take, key=lambda one: len(one.slugs)):
        for finding in one.decides:
            if finding.asks:
                found.setdefault(finding.message(leading), one)
    return found


def relation_words(relation: str) -> str:
    return relation or "exactly"


def _bound(bound: Interval, relation: str, leading: str) -> str:
    """The value that decides, rounded to the safe side."""
    return show_limit(bound, leading, relation == AT_LEAST) if relation else show_both(bound, leading)


def _undecided(page: Page, result: Result, leading: str) -> None:
    """What cannot be told although no field is named: it must not be lost."""
    for finding in result.findings:
        if finding.verdict == MEASURE and not finding.missing:
            page.gap()
            page.item("?", finding.message(leading))
            page.under(_where(finding))


def _load_path(page: Page, result: Result, leading: str) -> None:
    rows = load_path(result)
    if not rows:
        return
    page.head("LOAD PATH - each part at its worst place, least room first")
    page.gap()
    page.table(
        ["part", "at", "rated", "carries", "room", "gross up to"],
        [
            [
                name_of(row.part),
                ", ".join(sorted(row.at)),
                _end(row.rating, leading, worst="lo") if row.rating.lo > 0 else "not known",
                _end(row.share, leading, worst="hi"),
                _end(row.margin, leading, worst="lo"),
                _end(row.limits_gross_weight_to, leading, worst="lo"),
            ]
            for row in _worst_places(rows)
        ],
    )
    gross, limiting = supported_gross(rows)
    page.gap()
    if gross is not None and limiting is not None:
        page.line(
            f"The rated parts of this list carry a gross weight of {show_both(gross, leading)}; "
            f"the {name_of(limiting)} sets it."
        )
    unknown = [row for row in rows if not row.rating.known]
    if unknown:
        names = ", ".join(dict.fromkeys(name_of(row.part) for row in unknown))
        page.line(f"No rating known: {names}. They may carry less.")


def _worst_places(rows: list[Any]) -> list[Any]:
    """Of a part that stands at several places, the place with the least room."""
    seen: dict[str, Any] = {}
    for row in rows:
        seen.setdefault(row.part.id, row)
    return list(seen.values())


def _end(value: Any, leading: str, worst: str) -> str:
    """The worse end of a quantity, for a table."""
    end = None if value is None else getattr(value, worst)
    if end is None or abs(end) == INF or not value.known:
        return "not known"
    return show(Interval(end, end, value.unit), leading)


def _notes(page: Page, result: Result, leading: str) -> None:
    sentences = told(result, leading)
    if not (result.notes or sentences):
        return
    page.head("NOTES")
    page.gap()
    for finding in result.notes:
        page.item("-", f"{finding.message(leading)}  [{finding.rule.slug}]")
    for text in sentences:
        page.item("-", text)


def _accepted(page: Page, result: Result, leading: str) -> None:
    found = [one for one in result.findings if one.accepted]
    if not found:
        return
    page.head("ACCEPTED BY YOU")
    for finding in found:
        page.gap()
        page.item("-", finding.message(leading))
        page.under(finding.accepted, "Your reason: ")
        page.under(_where(finding))


def _graph(page: Page, result: Result) -> None:
    page.head("WHAT SITS ON WHAT")
    page.gap()
    for end in [*result.fit.ends, *([result.fit.spare] if result.fit.spare else [])]:
        chain = [end.running_gear, end.hub, *end.plates, end.wheel, end.tire]
        names = " -> ".join(name_of(part) for part in chain if part is not None)
        page.item("-", f"{names} at {', '.join(end.at)}")
        held = [f"{role}: {part.id}" for role, part in sorted(end.roles.items()) if part not in chain]
        page.under(", ".join(held), "with ")


def _held(page: Page, result: Result, leading: str) -> None:
    page.head("HELD")
    page.gap()
    for finding in result.held:
        margin = finding.check.margin
        told = [name_of(part) for part in finding.parts[:4]]
        if margin is not None and margin.known:
            told.append(f"room {show_both(margin, leading)}")
        page.item("-", f"{finding.rule.slug}: {', '.join(told)}".rstrip(": "))


def _crashed(page: Page, result: Result, leading: str) -> None:
    if not result.crashed:
        return
    page.head("RULES THAT FAILED THEMSELVES - please report them")
    for finding in result.crashed:
        page.gap()
        page.item("-", finding.message(leading))
        page.under(_where(finding))


def _tally(page: Page, result: Result) -> None:
    counts = result.counts()
    failed = counts[STOP] + counts[CAUTION]
    page.gap()
    page.line(
        f"Checks: {counts['ok']} held, {failed} failed, {counts[MEASURE]} could not be told; "
        f"{plural(len(result.idle), 'rule')} had nothing to look at."
    )
    page.line(SCREENING)
