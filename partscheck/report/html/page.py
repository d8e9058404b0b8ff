"""One check as one HTML page: a workshop sheet to read on a phone or to print.  No script, nothing fetched."""

from __future__ import annotations

import re
from itertools import groupby

from partscheck import __version__
from partscheck.notation.cell_text import one_line
from partscheck.notation.measure import show_both
from partscheck.report.balance_text import heaviest
from partscheck.report.drawing import Drawing, Undrawn, every_drawing
from partscheck.report.html.bench import bench_section
from partscheck.report.html.bill import bill_section
from partscheck.report.html.drawings import drawing_section
from partscheck.report.html.findings import (
    CAUTIONS,
    STOPS,
    accepted_section,
    failed_section,
    finding_section,
    measurement_section,
    notes_section,
)
from partscheck.report.html.loads import balance_section, load_path_section, pressure_section
from partscheck.report.html.markup import Markup, join, sections_of, tag
from partscheck.report.html.sheet import Sheet
from partscheck.report.html.style import STYLE
from partscheck.report.text import SCREENING, tally_sentences, verdict_lines
from partscheck.uses.balance import LOADS, balance

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable

    from partscheck.engine import Result

# Nothing is fetched and nothing runs; the page's own style is all that it needs.
POLICY = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'"
WIDE = ("bill", "bench", "basis")
HAZARDS = (
    SCREENING,
    "A check on paper sees what the list says, not the parts in your hands. Local codes and registration decide "
    "what may be on the road; welding, brakes and towing gear are work for licensed practice.",
)
PLACES = (
    "1L is the left wheel of the first axle from the front, seen from behind; 1R the right one. Values lead in "
    "the list's own units, the other system in brackets."
)


def html_report(result: Result, leading: str = "") -> str:
    """The page of one check as text, to be written as UTF-8; ``leading`` "inch" or "metric", the list's own
    where left out.
    """
    system = leading or result.build.leading()
    every = list(every_drawing(result, system))
    sheet = Sheet(result, system, [one for one in every if isinstance(one, Drawing)])
    undrawn = [one for one in every if isinstance(one, Undrawn)]
    return f"<!DOCTYPE html>\n{tag('html', _head(sheet), _body(sheet, undrawn), lang='en')}\n"


def _head(sheet: Sheet) -> Markup:
    title = one_line(verdict_lines(sheet.result, len(sheet.to_take))[0]).partition(":")[0]
    return tag(
        "head",
        sections_of(
            tag("meta", charset="utf-8"),
            tag("meta", http_equiv="Content-Security-Policy", content=POLICY),
            tag("meta", name="viewport", content="width=device-width, initial-scale=1"),
            tag("meta", name="referrer", content="no-referrer"),
            tag("meta", name="format-detection", content="telephone=no"),
            tag("meta", name="color-scheme", content="light"),
            tag("meta", name="generator", content=f"partscheck {__version__}"),
            tag("title", title),
            tag("style", Markup(STYLE)),
        ),
    )


def _body(sheet: Sheet, undrawn: list[Undrawn]) -> Markup:
    # In the order of the page: the basis list gathers what the sections before it name.
    sections = [
        ("Failed rules", failed_section(sheet)),
        (f"Stops ({len(sheet.stops)})", finding_section(sheet, STOPS, sheet.stops)),
        (f"Cautions ({len(sheet.cautions)})", finding_section(sheet, CAUTIONS, sheet.cautions)),
        (f"Measure ({len(sheet.to_take)})", measurement_section(sheet)),
        ("Accepted", accepted_section(sheet)),
        ("Notes", notes_section(sheet)),
        ("Drawings", drawing_section(sheet, undrawn)),
        ("Load path", load_path_section(sheet)),
        ("Load cases", balance_section(sheet)),
        ("Tire pressure", pressure_section(sheet)),
        ("Before you rely on it", _hazards(sheet)),
        ("Bill of materials", bill_section(sheet)),
        ("Bench sheet", bench_section(sheet)),
        ("Basis", _basis_section(sheet)),
    ]
    there = [(name, section) for name, section in sections if section]
    return tag(
        "body",
        sections_of(
            _header(sheet),
            _contents(there),
            tag("main", _flow(section for _, section in there)),
            tag("footer", tag("p", f"Made by partscheck {__version__} from the list alone. It approves nothing.")),
        ),
    )


def _header(sheet: Sheet) -> Markup:
    """The verdict, and a title block as on a drawing."""
    first, *rest = verdict_lines(sheet.result, len(sheet.to_take))
    word, _, sentence = first.partition(" - ")
    kind = sheet.result.verdict
    return tag(
        "header",
        tag("h1", tag("span", word, class_="verdict"), " ", tag("span", sentence.partition(": ")[2] or sentence),
            class_=kind),
        *(tag("p", one) for one in rest),
        _title_block(sheet),
    )  # fmt: skip


def _title_block(sheet: Sheet) -> Markup:
    build = sheet.result.build
    weight = _gross(sheet)
    cells = [
        ("Trailer", build.name or "not named"),
        ("Parts list", re.split(r"[\\/]", build.file)[-1] if build.file else "not named"),
        ("Gross weight", weight or "not given"),
        ("Checked by", f"partscheck {__version__}"),
    ]
    groups = [tag("div", tag("dt", term), tag("dd", words)) for term, words in cells]
    blank = tag("div", tag("dt", "Date, name"), tag("dd", tag("span", "", class_="blank")), class_="write")
    return tag("dl", *groups, blank, class_="title-block")


def _gross(sheet: Sheet) -> str:
    """As typed; of the heaviest load case where it is not."""
    service = sheet.result.build.service
    if service.has("gross_weight"):
        return show_both(service.gross_weight, sheet.leading)
    rows = [row for row in balance(sheet.result) if row.source == LOADS and row.total.known]
    return show_both(heaviest(rows).total, sheet.leading) if rows else ""


def _contents(sections: list[tuple[str, Markup]]) -> Markup:
    """Links to the sections that are there: each begins with its own id."""
    links = [tag("a", name, href=f"#{_id_of(section)}") for name, section in sections]
    return tag("nav", tag("ul", *(tag("li", link) for link in links)), aria_label="On this sheet")


def _flow(sections: Iterable[Markup]) -> Markup:
    """What reads well in two columns on paper stands together, what needs the whole width between."""
    runs = groupby(sections, key=lambda section: _id_of(section) in WIDE)
    return sections_of(
        *(sections_of(*run) if wide else tag("div", sections_of(*run), class_="flow") for wide, run in runs)
    )


def _id_of(section: Markup) -> str:
    return section.partition(' id="')[2].partition('"')[0]


def _basis_section(sheet: Sheet) -> Markup:
    lines = sheet.basis.lines
    if not lines:
        return Markup()
    rows = [tag("li", line, id=f"basis-{number}") for number, line in enumerate(lines, start=1)]
    return tag(
        "section",
        tag("h2", "Basis", tag("small", " what stands behind each figure"), id="basis-title"),
        tag("ol", *rows, class_="bases"),
        id="basis",
        aria_labelledby="basis-title",
    )


def _hazards(sheet: Sheet) -> Markup:
    return tag(
        "section",
        tag("h2", "Before you rely on it", id="limits-title"),
        *(tag("p", words) for words in (*HAZARDS, PLACES)),
        tag("p", join(tally_sentences(sheet.result), " ")),
        id="limits",
        aria_labelledby="limits-title",
    )
