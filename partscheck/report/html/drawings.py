"""The drawings, each with links back to the findings that it shows."""

from __future__ import annotations

from partscheck.report.drawing.sheet import scale_words
from partscheck.report.html.markup import Markup, join, sections_of, tag
from partscheck.report.html.showing import LOAD_PATH
from partscheck.rules.findings import MEASURE

TYPE_CHECKING = False
if TYPE_CHECKING:
    from partscheck.report.drawing import Drawing, Undrawn
    from partscheck.report.html.sheet import Sheet
    from partscheck.rules.findings import Finding

PRINTED = 84  # mm: how wide each drawing comes out on paper, so that its printed scale can be told


def drawing_section(sheet: Sheet, undrawn: list[Undrawn]) -> Markup:
    """Every drawing but the load path, which stands with its table; then what could not be drawn and the fields
    that it lacks.
    """
    here = [one for one in sheet.drawings if one.kind != LOAD_PATH]
    if not (here or undrawn):
        return Markup()
    return tag(
        "section",
        tag("h2", "Drawings", tag("small", " to scale, from the numbers of the list"), id="drawings-title"),
        tag("div", sections_of(*(figure(sheet, one) for one in here)), class_="drawings") if here else Markup(),
        _undrawn(undrawn),
        id="drawings",
        aria_labelledby="drawings-title",
    )


def load_path_figure(sheet: Sheet) -> Markup:
    """The load path as bars; on paper its table, which says the same, stands alone."""
    found = [figure(sheet, one) for one in sheet.drawings if one.kind == LOAD_PATH]
    return tag("div", sections_of(*found), class_="bars") if found else Markup()


def figure(sheet: Sheet, drawing: Drawing) -> Markup:
    """One drawing with its number, and links to what it shows."""
    id = sheet.drawing_id(drawing)
    links = dict.fromkeys(_named(sheet, finding) for finding in sheet.findings_in(drawing))
    scale = scale_words(drawing.scale, PRINTED).capitalize()
    said = (f"{scale}." if scale else None, join(("Shows ", join(links, ", "), ".")) if links else None)
    return tag(
        "figure",
        tag(
            "figcaption",
            tag("h3", f"Drawing {id.rpartition('-')[2]}: {drawing.title}", id=f"{id}-title"),
            tag("p", join(said, " ")) if any(said) else Markup(),
        ),
        Markup(drawing.svg(whole=False)),
        id=id,
        aria_labelledby=f"{id}-title",
    )  # fmt: skip


def _named(sheet: Sheet, finding: Finding) -> Markup:
    """The link to a finding, and what it is about where the link alone does not say."""
    link = sheet.link(finding)
    about = "" if finding.verdict == MEASURE else finding.rule.slug.replace("-", " ")
    return join((link, about), " ")


def _undrawn(undrawn: list[Undrawn]) -> Markup:
    if not undrawn:
        return Markup()
    rows = [tag("li", f"{one.title}: needs {', '.join(one.missing)}") for one in undrawn]
    return sections_of(tag("h3", "Not drawn yet"), tag("ul", *rows))
