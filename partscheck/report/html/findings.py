"""Stops, cautions, measurements to take, notes and acceptances."""

from __future__ import annotations

from partscheck.notation.measure import show_both
from partscheck.report.html.markup import Markup, join, sections_of, tag
from partscheck.report.html.showing import MOST_DRAWINGS
from partscheck.report.text import bound_words, own_words, relation_words
from partscheck.report.told import own_limit, told
from partscheck.rules.message import name_of

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable

    from partscheck.report.html.sheet import Sheet
    from partscheck.rules.basis import Basis
    from partscheck.rules.findings import Finding
    from partscheck.uses.measurements import Measurement

STOPS = ("stops", "Stops", "does not fit, or is unsafe")
CAUTIONS = ("cautions", "Cautions", "against good practice, or to look up")
BETWEEN = " \u00b7 "
TOOL = "common practice: what the usual tool reaches"


def finding_section(sheet: Sheet, names: tuple[str, str, str], findings: list[Finding]) -> Markup:
    """All findings of one verdict; nothing where there is none."""
    if not findings:
        return Markup()
    id, title, meaning = names
    return tag(
        "section",
        tag("h2", title, tag("small", f" {meaning}"), id=f"{id}-title"),
        tag("div", sections_of(*(_finding(sheet, one) for one in findings)), class_="findings"),
        id=id,
        aria_labelledby=f"{id}-title",
    )


def _finding(sheet: Sheet, finding: Finding) -> Markup:
    anchor, leading = sheet.anchor(finding), sheet.leading
    return tag(
        "article",
        tag("h3", _mark(sheet.called(finding)), " ", _title(finding), id=f"{anchor}-title"),
        tag("p", finding.message(leading), class_="message"),
        _place(sheet, finding),
        tag(
            "dl",
            _entry("Why", finding.why(leading)),
            _entry("Do", _remedies(finding, leading)),
            _entry("Danger", finding.check.hazard, "danger"),
            _entry("Reason", finding.accepted),
            _entry("Your limit", "; ".join(own_limit(sheet.result, name, leading) for name in finding.overrides)),
            _entry("Follows", _following(sheet, finding)),
        ),
        id=anchor,
        class_=f"finding {finding.verdict}",
        aria_labelledby=f"{anchor}-title",
    )


def _mark(called: str) -> Markup:
    word, _, number = called.rpartition(" ")
    return join((tag("span", word, class_="mark"), tag("span", number, class_="number")), " ")


def _title(finding: Finding) -> Markup:
    """The rule's name as words."""
    return tag("span", finding.rule.slug.replace("-", " "), class_="title")


def _place(sheet: Sheet, finding: Finding) -> Markup:
    """Which parts, where on the trailer, where in the list, and the drawing that shows it."""
    mark, blame = finding.mark, finding.check.blame
    parts = ", ".join(name_of(part) for part in finding.parts)
    if not parts and blame is not None:
        parts = f"{blame[0].id}.{blame[1]}"
    return tag(
        "p",
        join(
            (
                tag("span", parts) if parts else None,
                tag("span", f"at {', '.join(finding.at)}") if finding.at else None,
                tag("span", f"line {mark.line}") if mark is not None else None,
                *sheet.drawing_links(finding),
                _basis(sheet, finding.basis),
            ),
            BETWEEN,
        ),
        class_="place",
    )


def _basis(sheet: Sheet, bases: Iterable[Basis]) -> Markup:
    return tag("span", "basis ", sheet.basis.marks(bases))


def _remedies(finding: Finding, leading: str) -> Markup:
    sentences = [_sentence(words) for _, words in finding.remedies(leading)]
    if len(sentences) < 2:
        return join(sentences)
    return tag("ul", *(tag("li", one) for one in sentences))


def _following(sheet: Sheet, finding: Finding) -> str:
    slugs = dict.fromkeys(one.rule.slug for one in sheet.result.folded if one.follows is finding)
    return f"from it, not told apart: {', '.join(slugs)}" if slugs else ""


def _sentence(words: str) -> str:
    """Begun with a capital, but for a value that is typed so: `true`."""
    first = words[:1] if words.startswith("true ") else words[:1].upper()
    return first + words[1:] + ("" if words.endswith(".") else ".")


def _entry(term: str, words: str, kind: str | None = None) -> Markup:
    """A term and what it says, in one group; nothing where it says nothing."""
    return tag("div", tag("dt", term), tag("dd", words), class_=kind) if words else Markup()


# ---- measurements ---------------------------------------------------------------------------------


def measurement_section(sheet: Sheet) -> Markup:
    """The measurements to take, each with a line to write on; then what nothing that is measured decides."""
    if not (sheet.to_take or sheet.undecided):
        return Markup()
    said = own_words(sheet.to_take, sheet.leading)
    return tag(
        "section",
        tag("h2", "Measure", tag("small", " take these, those that decide most come first"), id="measure-title"),
        tag(
            "div",
            sections_of(
                *(_measurement(sheet, one, said) for one in sheet.to_take),
                *(_finding(sheet, one) for one in sheet.undecided),
            ),
            class_="findings",
        ),
        id="measure",
        aria_labelledby="measure-title",
    )


def _measurement(sheet: Sheet, one: Measurement, said: dict[str, Measurement]) -> Markup:
    anchor = f"measure-{sheet.to_take.index(one) + 1}"
    bounded = {bound[0] for bound in one.bounds}
    waiting = [slug for slug in one.slugs if slug not in bounded]
    exact = Markup()
    if one.accuracy is not None:
        exact = join((show_both(one.accuracy, sheet.leading), sheet.basis.marks([TOOL])), " ")
    return tag(
        "article",
        tag(
            "h3", _mark(f"Measure {anchor.rpartition('-')[2]}"), " ", tag("span", one.name, class_="title"),
            id=f"{anchor}-title",
        ),
        tag("p", _sentence(one.meaning), class_="message"),
        _shown(sheet, one),
        tag(
            "dl",
            _entry("How", one.how),
            _entry("Exact to", exact),
            _entry("Holds", _bounds(sheet, one)),
            _entry("Decides", ", ".join(waiting)),
            _entry("Why", " ".join(words for words, place in said.items() if place is one)),
        ),
        tag("p", "Measured: ", tag("span", "", class_="blank"), class_="write"),
        id=anchor,
        class_="finding measure",
        aria_labelledby=f"{anchor}-title",
    )  # fmt: skip


def _shown(sheet: Sheet, one: Measurement) -> Markup:
    links = dict.fromkeys(link for finding in one.decides for link in sheet.drawing_links(finding))
    bases = [basis for finding in one.decides for basis in finding.basis]
    return tag("p", join((*list(links)[:MOST_DRAWINGS], _basis(sheet, bases)), BETWEEN), class_="place")


def _bounds(sheet: Sheet, one: Measurement) -> Markup:
    sentences = [
        f"{slug} holds with {relation_words(relation)} {bound_words(bound, relation, sheet.leading)}."
        for slug, relation, bound in one.bounds
    ]
    return join(sentences) if len(sentences) < 2 else tag("ul", *(tag("li", words) for words in sentences))


# ---- what is told beside them -------------------------------------------------------------------------


def failed_section(sheet: Sheet) -> Markup:
    """Rules that failed themselves: their checks were not made."""
    crashed = sheet.result.crashed
    if not crashed:
        return Markup()
    rows = [
        tag("li", f"{one.rule.slug}: {one.message(sheet.leading)}", id=sheet.anchor(one)) for one in crashed
    ]
    return tag(
        "section",
        tag("h2", "Rules that failed themselves", tag("small", " please report them"), id="failed-title"),
        tag("ul", *rows),
        id="failed",
        aria_labelledby="failed-title",
    )


def notes_section(sheet: Sheet) -> Markup:
    """What holds and is worth saying, and what was inferred or set by the user."""
    rows = [
        tag("li", one.message(sheet.leading), " ", tag("small", f"[{one.rule.slug}]"), " ",
            sheet.basis.marks(one.basis))
        for one in sheet.result.notes
    ]  # fmt: skip
    rows += [tag("li", words[:1].upper() + words[1:]) for words in told(sheet.result, sheet.leading)]
    if not rows:
        return Markup()
    head = tag("h2", "Notes", id="notes-title")
    return tag("section", head, tag("ul", *rows), id="notes", aria_labelledby="notes-title")


def accepted_section(sheet: Sheet) -> Markup:
    """Cautions that the user looked into."""
    return finding_section(sheet, ("accepted", "Accepted by you", "cautions, with your reasons"), sheet.accepted)
