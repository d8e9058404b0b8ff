"""Load path, load cases and tire pressures as tables."""

from __future__ import annotations

from partscheck.notation.measure import show, show_both
from partscheck.notation.percent import show_percent
from partscheck.report.balance_text import balance_sentence, case_name, load_words
from partscheck.report.drawing import side_view
from partscheck.report.html.drawings import load_path_figure
from partscheck.report.html.markup import Column, Markup, join, sections_of, table, tag
from partscheck.report.pressure_text import RULED, alike, places, pressure_cautions, pressure_words, upper
from partscheck.report.text import load_path_sentences, room_words, worse_end, worst_places
from partscheck.rules.message import name_of
from partscheck.uses.balance import LOADS, balance
from partscheck.uses.case_room import case_rooms
from partscheck.uses.load_path import load_path
from partscheck.uses.tire_pressure import tire_pressures

TYPE_CHECKING = False
if TYPE_CHECKING:
    from partscheck.notation.interval import Interval
    from partscheck.report.html.sheet import Sheet
    from partscheck.uses.balance import BalanceRow
    from partscheck.uses.tire_pressure import TirePressure

TYPED = "as typed in the list, or in the catalogue entry that it takes"
STATICS = "common practice: statics: moments of the loads about the coupler, each corner its part of them"
LOAD_PATH = [
    Column("part"), Column("where", short=True), Column("rated", True), Column("carries", True),
    Column("room", True), Column("gross up to", True),
]  # fmt: skip
CASES = [
    Column("case"), Column("total", True), Column("axles", True), Column("tongue", True), Column("share", True),
    Column("left", True), Column("right", True),
]  # fmt: skip
PRESSURES = [
    Column("tire"), Column("where", short=True), Column("carries", True), Column("pressure", True),
    Column("because"),
]  # fmt: skip


def load_path_section(sheet: Sheet) -> Markup:
    """Each part at its worst place, least room first; nothing for a list that speaks of no weights."""
    rows, leading = load_path(sheet.result), sheet.leading
    if not rows:
        return Markup()
    cells = [
        [
            row.label,
            "; ".join(piece for piece in (", ".join(sorted(row.at)), row.case) if piece),
            worse_end(row.rating, leading, worst="lo") if row.rating.lo > 0 else "not known",
            worse_end(row.share, leading, worst="hi"),
            worse_end(row.margin, leading, worst="lo"),
            worse_end(row.limits_gross_weight_to, leading, worst="lo"),
        ]
        for row in worst_places(rows)
    ]
    rooms = [one for one in case_rooms(sheet.result, rows) if one.name]
    grown = Markup()
    if any(one.first for one in rooms):
        words = [f"{one.name}, {show_both(one.total, leading)}: {room_words(one, leading)}" for one in rooms]
        head = tag("p", "By load case, if everything in it grew alike:")
        grown = sections_of(head, tag("ul", *(tag("li", one) for one in words)))
    return _section(
        "load-path", "Load path", "each part at its worst place, least room first",
        load_path_figure(sheet),
        table("What each part carries against its rating", LOAD_PATH, cells),
        _paragraphs(load_path_sentences(rows, leading)),
        grown,
        _basis(sheet, ("Ratings", TYPED), ("what they carry", STATICS)),
    )  # fmt: skip


def balance_section(sheet: Sheet) -> Markup:
    """Ball, axles and wheels, case by case; nothing for a list without loads."""
    rows = balance(sheet.result)
    if not any(row.source == LOADS for row in rows):
        return Markup()
    return _section(
        "load-cases", "Load cases", "ball, axles and wheels, case by case",
        table("Weights by load case", CASES, [_case(row, sheet.leading) for row in rows]),
        tag("p", balance_sentence(rows)),
        tag(
            "div",
            tag("p", "Each load and what it does to the tongue:"),
            tag("ul", *(tag("li", one) for one in _loads(rows, sheet.leading))),
            class_="drawn" if any(one.kind == side_view.KIND for one in sheet.drawings) else None,
        ),
        _basis(sheet, ("Loads and places", TYPED), ("the rest", STATICS)),
    )  # fmt: skip


def _loads(rows: list[BalanceRow], leading: str) -> list[str]:
    """Every load once, with the cases that have it where not all do."""
    cases = [row for row in rows if row.source == LOADS]
    found: dict[str, list[str]] = {}
    for row in cases:
        for one in row.loads:
            found.setdefault(load_words(one, leading), []).append(row.case)
    return [
        words + ("" if len(names) >= len(cases) else f" (in case {', '.join(names)})")
        for words, names in found.items()
    ]


def _case(row: BalanceRow, leading: str) -> list[str]:
    weights = [_weight(one, leading) for one in (row.total, row.axles, row.tongue)]
    return [case_name(row), *weights, show_percent(row.share), _weight(row.left, leading),
            _weight(row.right, leading)]  # fmt: skip


def _weight(value: Interval, leading: str) -> str:
    return show(value, leading) if value.known else "not known"


def pressure_section(sheet: Sheet) -> Markup:
    """Cold pressures for what stands on each tire; nothing where no tire and its load are known."""
    rows = tire_pressures(sheet.result)
    if not rows:
        return Markup()
    formulas = {(name_of(row.tire), row.formula, row.divided): row for row in rows}
    return _section(
        "tire-pressure", "Tire pressure", "cold, for what stands on each tire",
        table("Pressure of each tire", PRESSURES, [_pressure(group, sheet.leading) for group in alike(rows)]),
        sections_of(*(_formula(sheet, row) for row in formulas.values())),
        _paragraphs(pressure_cautions(rows)),
    )  # fmt: skip


def _pressure(group: list[TirePressure], leading: str) -> list[str]:
    first = group[0]
    return [
        name_of(first.tire),
        "; ".join(piece for piece in (places(group), first.case) if piece),
        show(upper(first.load), leading),
        pressure_words(first, leading),
        RULED.get(first.ruled_by, "its load"),
    ]


def _formula(sheet: Sheet, row: TirePressure) -> Markup:
    name = name_of(row.tire)
    divided = " A passenger car tire counts less on a trailer, at every pressure." if row.divided else ""
    return tag(
        "p", f"{name[:1].upper()}{name[1:]}: {row.formula}.{divided} ", sheet.basis.marks([row.basis])
    )  # fmt: skip


def _paragraphs(sentences: list[str]) -> Markup:
    return sections_of(*(tag("p", one) for one in sentences))


def _basis(sheet: Sheet, *figures: tuple[str, str]) -> Markup:
    """ "Ratings [2], what they carry [3]"."""
    words = [join((name, sheet.basis.marks([line])), " ") for name, line in figures]
    return tag("p", "Basis: ", join(words, ", "), class_="basis")


def _section(id: str, title: str, meaning: str, *blocks: Markup) -> Markup:
    return tag(
        "section",
        tag("h2", title, tag("small", f" {meaning}"), id=f"{id}-title"),
        sections_of(*blocks),
        id=id,
        aria_labelledby=f"{id}-title",
    )
