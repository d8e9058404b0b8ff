"""The bench sheet, to tick off.  Its figures have letters of their own, as in `partscheck shop`."""

from __future__ import annotations

from partscheck.report.html.markup import Column, Markup, join, sections_of, table, tag
from partscheck.report.shop_words import (
    NOTHING,
    TORQUE_HEADS,
    USUAL_ONLY,
    basis_marks,
    first_line,
    letter,
    order_words,
    said,
    torque_cells,
)
from partscheck.uses.shop import bench_sheet

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable

    from partscheck.report.html.sheet import Sheet
    from partscheck.rules.basis import Basis
    from partscheck.uses.shop import BenchSheet, Section, Step

TORQUES = [Column(head, head in ("each", "rounds", "full, dry", "oiled")) for head in (*TORQUE_HEADS, "order")]
CLOSED = "Closed on the screen: open it to print it, or print it alone with `partscheck shop`."


def bench_section(sheet: Sheet) -> Markup:
    """Closed at first: it is a document of its own, and what is closed stays off the print."""
    bench = bench_sheet(sheet.result)
    steps = sum(len(section.steps) for section in bench.sections)
    meaning = f" {steps} steps with holes, threads, grease, torques" if steps else " nothing to do"
    return tag(
        "section",
        tag(
            "details",
            tag("summary", tag("h2", "Bench sheet", tag("small", meaning))),
            sections_of(
                _first(sheet), _tools(sheet, bench), *(_section(sheet, bench, one) for one in bench.sections),
                _torques(sheet, bench), _bases(bench),
            )
            if bench.sections
            else tag("p", NOTHING),
        ),
        tag("p", CLOSED, class_="closed"),
        id="bench",
        aria_label="Bench sheet",
    )  # fmt: skip


def _first(sheet: Sheet) -> Markup:
    if not sheet.stops:
        return Markup()
    links = join((sheet.link(one) for one in sheet.stops), ", ")
    return tag("p", tag("b", "Settle first: "), links, ".")


def _tools(sheet: Sheet, bench: BenchSheet) -> Markup:
    tools = [tag("li", _box(said(tool, sheet.leading))) for tool in bench.tools()]
    return sections_of(tag("h3", "Tools to have ready"), tag("ul", *tools, class_="tools")) if tools else Markup()


def _box(words: str) -> Markup:
    return tag("label", tag("input", type="checkbox"), " ", tag("span", words))


def _section(sheet: Sheet, bench: BenchSheet, section: Section) -> Markup:
    return sections_of(
        tag("h3", f"{section.number}. {section.title}"),
        *(tag("p", said(one, sheet.leading)) for one in section.intro),
        _danger(section.hazard),
        tag("p", "Basis: ", _marks(section.basis, bench), class_="basis") if section.basis else Markup(),
        tag("ul", *(_step(sheet, bench, step) for step in section.steps), class_="steps"),
    )


def _step(sheet: Sheet, bench: BenchSheet, step: Step) -> Markup:
    first = first_line(step)
    words = join((step.number, tag("b", first) if first else None, said(step.do, sheet.leading)), " ")
    minds = [join(("Mind: ", sheet.link(one) or one.rule.slug)) for one in step.cautions]
    marks = _marks(step.basis, bench)
    return tag(
        "li",
        _box(words),
        *(tag("p", said(one, sheet.leading)) for one in step.details),
        *(tag("p", one) for one in minds),
        _danger(step.hazard),
        tag("p", "Basis: ", marks, class_="basis") if marks else Markup(),
    )


def _danger(words: str) -> Markup:
    return tag("p", tag("b", "Danger: "), words, class_="danger") if words else Markup()


def _torques(sheet: Sheet, bench: BenchSheet) -> Markup:
    rows = bench.torques()
    if not rows:
        return Markup()
    cells = [[*torque_cells(step, torque, sheet.leading), order_words(torque)] for step, torque in rows]
    usual = any(torque.full is not None and not torque.exact for _, torque in rows)
    return sections_of(
        table("Torques at a glance", TORQUES, cells), tag("p", USUAL_ONLY) if usual else Markup()
    )


def _marks(basis: Iterable[Basis], bench: BenchSheet) -> Markup:
    names = basis_marks(basis, bench)
    return join((tag("a", name, href=f"#bench-{name}") for name in names.split(", ") if name), " ")


def _bases(bench: BenchSheet) -> Markup:
    lines = [
        tag("li", tag("b", letter(number)), " ", str(one), id=f"bench-{letter(number)}")
        for number, one in enumerate(bench.bases())
    ]
    return sections_of(tag("h3", "What stands behind the figures"), tag("ul", *lines, class_="bases"))
