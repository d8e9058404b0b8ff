"""The report as text for a terminal, at most 100 columns, without colour."""

from __future__ import annotations

from partscheck.build.tow_links import GROSS, TONGUE
from partscheck.notation.interval import INF, Interval, same_within
from partscheck.notation.measure import show, show_both
from partscheck.notation.show import show_limit
from partscheck.report.balance_text import balance_section
from partscheck.report.pressure_text import pressure_section
from partscheck.report.told import own_limit, told
from partscheck.report.wrap import Page, plural
from partscheck.rules.check import AT_LEAST
from partscheck.rules.findings import CAUTION, MEASURE, STOP, Finding
from partscheck.rules.message import name_of
from partscheck.uses.case_room import CaseRoom, case_rooms
from partscheck.uses.load_path import REAR, LoadPathRow, load_path, supported_gross, weakest_links
from partscheck.uses.measurements import Measurement, measurements
from partscheck.uses.not_checked import not_checked

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

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
    for sentence in verdict_lines(result, len(to_take)):
        page.line(sentence)
    for verdict in (STOP, CAUTION):
        _findings(page, result, verdict, leading)
    _measurements(page, to_take, leading)
    _undecided(page, result, leading)
    _load_path(page, result, leading)
    balance_section(page, result, leading)
    pressure_section(page, result, leading)
    _notes(page, result, leading)
    _accepted(page, result, leading)
    if everything:
        _graph(page, result)
        _held(page, result, leading)
    _crashed(page, result, leading)
    _tally(page, result)
    return page.text()


def verdict_lines(result: Result, to_take: int) -> list[str]:
    """The verdict in one sentence, and what would help where nothing could be checked."""
    counts = result.counts()
    name = result.build.name or "This list"
    if not any(counts.values()):
        return [f"NOTHING CHECKED - {name}: no rule found anything on this list to look at.", NOTHING_HELPS]
    rest = [
        plural(counts[CAUTION], "caution") if counts[CAUTION] else "",
        plural(to_take, "measurement") + " to take" if to_take else "",
    ]
    tail = ", ".join(piece for piece in rest if piece)
    if counts[STOP]:
        one = counts[STOP] == 1
        problem = "thing does not fit or is unsafe" if one else "things do not fit or are unsafe"
        return [f"STOP - {name}: {counts[STOP]} {problem}" + (f"; {tail}." if tail else ".")]
    if tail:
        return [f"NO STOP - {name}: nothing on this list is known to be wrong; {tail}."]
    return [f"ALL HELD - {name}: every check that could be made held."]


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
    parts = ", ".join(name_of(part) for part in finding.parts[:4]) or _blamed(finding)
    if len(finding.parts) > 4:
        parts += f" and {len(finding.parts) - 4} more"
    at = f" at {', '.join(finding.at)}" if finding.at else ""
    mark = finding.mark
    line = f"line {mark.line}: " if mark is not None else ""
    return f"{line}{parts}{at}  [{finding.rule.slug}]"


def _blamed(finding: Finding) -> str:
    """The value itself, where no part of the list is concerned: "tow_vehicle.tow_rating"."""
    if finding.check.blame is None:
        return ""
    record, field = finding.check.blame
    return f"{record.id}.{field}"


def _own_limits(finding: Finding, result: Result, leading: str) -> str:
    return "; ".join(own_limit(result, name, leading) for name in finding.overrides)


def _measurements(page: Page, to_take: list[Measurement], leading: str) -> None:
    if not to_take:
        return
    page.head("MEASURE - take these, those that decide most come first")
    said = own_words(to_take, leading)
    for number, one in enumerate(to_take, start=1):
        page.gap()
        page.item(f"{number}.", f"{one.name}: {one.meaning}.")
        page.under(one.how, "How: ")
        if one.accuracy is not None:
            page.under(show_both(one.accuracy, leading), "Exact to: ")
        for slug, relation, bound in one.bounds:
            page.under(f"{slug} holds with {relation_words(relation)} {bound_words(bound, relation, leading)}", "")
        waiting = [slug for slug in one.slugs if slug not in {bound[0] for bound in one.bounds}]
        if waiting:
            page.under(", ".join(waiting), "Decides: ")
        for words, place in said.items():
            if place is one:
                page.under(words, "Why: ")


def own_words(to_take: list[Measurement], leading: str) -> dict[str, Measurement]:
    """What rules say of what they cannot tell, and the measurement to say it at: the most particular."""
    found: dict[str, Measurement] = {}
    for one in sorted(to_take, key=lambda one: len(one.slugs)):
        for finding in one.decides:
            if finding.asks:
                found.setdefault(finding.message(leading), one)
    return found


def relation_words(relation: str) -> str:
    return relation or "exactly"


def bound_words(bound: Interval, relation: str, leading: str) -> str:
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
        ["part", "at, case", "rated", "carries", "room", "gross up to"],
        [
            [
                row.label,
                "\n".join(piece for piece in (", ".join(sorted(row.at)), row.case) if piece),
                worse_end(row.rating, leading, worst="lo") if row.rating.lo > 0 else "not known",
                worse_end(row.share, leading, worst="hi"),
                worse_end(row.margin, leading, worst="lo"),
                worse_end(row.limits_gross_weight_to, leading, worst="lo"),
            ]
            for row in worst_places(rows)
        ],
    )
    page.gap()
    for sentence in load_path_sentences(rows, leading):
        page.line(sentence)
    _rooms(page, result, rows, leading)


def load_path_sentences(rows: list[LoadPathRow], leading: str) -> list[str]:
    """What the load path comes to, below its table."""
    found = []
    gross, limiting = supported_gross(rows)
    if gross is not None and limiting is not None:
        name = next(row.name for row in rows if row.part is limiting)
        most = show_both(gross, leading)
        found.append(f"The rated parts of this list carry a gross weight of {most}; the {name} sets it.")
    found += _weakest(rows, leading)
    unknown = [row for row in rows if not row.rating.known]
    if unknown:
        names = "; ".join(dict.fromkeys(row.label for row in unknown))
        found.append(f"No rating known: {names}. They may carry less.")
    if any(row.role == REAR for row in rows):
        found.append("A rear receiver is rated here for the rack's arm, road shock taken off.")
    return found


def _weakest(rows: list[LoadPathRow], leading: str) -> list[str]:
    """The weakest link between trailer and tow vehicle, where there are two or more to choose from."""
    pieces = []
    for of, words in ((GROSS, "the trailer's weight"), (TONGUE, "the tongue's")):
        weakest = weakest_links(rows, of)
        if weakest and sum(row.of == of for row in rows) > 1:
            *rest, last = (row.name for row in weakest)
            names = f"{', '.join(rest)} and {last}" if rest else last
            each = "each " if rest else ""
            pieces.append(f"for {words} the {names}, {each}{show_both(weakest[0].rating, leading)}")
    rated = "" if all(row.known for row in rows if row.of in (GROSS, TONGUE)) else "rated "
    return [f"Weakest {rated}link of the towing chain: {'; '.join(pieces)}."] if pieces else []


def _rooms(page: Page, result: Result, rows: list[LoadPathRow], leading: str) -> None:
    """Each load case: how much more it may weigh, and what comes first."""
    rooms = [one for one in case_rooms(result, rows) if one.name]
    if not any(one.first for one in rooms):
        return
    page.gap()
    page.line("By load case, if everything in it grew alike:")
    for one in rooms:
        page.item("-", f"{one.name}, {show_both(one.total, leading)}: {room_words(one, leading)}")


def room_words(one: CaseRoom, leading: str) -> str:
    if one.room is None or one.first is None:
        return "no rated part carries it"
    if not one.room.known:
        return "not known"
    room, label = one.room.lo, one.first.label
    off = show_both(Interval(abs(room), abs(room), "N"), leading)
    if room < -same_within("N"):
        return f"{off} too much; first limit: {label}"
    return f"room {off}; first limit: {label}"


def worst_places(rows: list[Any]) -> list[Any]:
    """Of a part that stands at several places, the place with the least room."""
    seen: dict[tuple[str, str, str], Any] = {}
    for row in rows:
        seen.setdefault((row.part.id, row.role, row.of), row)
    return list(seen.values())


def worse_end(value: Any, leading: str, worst: str) -> str:
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
    page.gap()
    for sentence in tally_sentences(result):
        page.line(sentence)
    page.line(SCREENING)


def tally_sentences(result: Result) -> list[str]:
    """How many checks were made, and what was not checked at all."""
    counts = result.counts()
    failed = counts[STOP] + counts[CAUTION]
    made = (
        f"Checks: {counts['ok']} held, {failed} failed, {counts[MEASURE]} could not be told; "
        f"{plural(len(result.idle), 'rule')} had nothing to look at."
    )
    return [made, *_not_checked(result)]


def _not_checked(result: Result) -> list[str]:
    names = not_checked(result)
    if not names:
        return []
    more = ""
    if len(names) > 1:
        more = " (for the tongue's bending, type wall, free_length and material of `layout: tongue`)"
    return [f"{' and '.join(names).capitalize()} not checked{more}."]
