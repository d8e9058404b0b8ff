"""Tire pressures for the actual load, as text."""

from __future__ import annotations

from partscheck.notation.interval import INF, Interval
from partscheck.notation.measure import show, show_both
from partscheck.notation.show import show_limit
from partscheck.rules.message import name_of
from partscheck.uses.tire_pressure import LEAST, OVERLOADED, RATED, TirePressure, tire_pressures

TYPE_CHECKING = False
if TYPE_CHECKING:
    from partscheck.engine import Result
    from partscheck.report.wrap import Page

RULED = {LEAST: "least that is run", RATED: "rated pressure", OVERLOADED: "overloaded"}


def pressure_section(page: Page, result: Result, leading: str) -> None:
    """Nothing where no tire and its load are known."""
    rows = tire_pressures(result)
    if not rows:
        return
    page.head("TIRE PRESSURE - cold, for what stands on each tire")
    page.gap()
    page.table(
        ["tire", "at, case", "carries", "pressure", "because"],
        [
            [
                name_of(group[0].tire), "\n".join(piece for piece in (places(group), group[0].case) if piece),
                show(upper(group[0].load), leading), pressure_words(group[0], leading),
                RULED.get(group[0].ruled_by, "its load"),
            ]
            for group in alike(rows)
        ],
    )  # fmt: skip
    page.gap()
    for text in dict.fromkeys(formula_words(row, leading) for row in rows):
        page.line(text)
    for text in pressure_cautions(rows):
        page.line(text)


def pressure_cautions(rows: list[TirePressure]) -> list[str]:
    """What comes before any of these figures."""
    overload = any(row.ruled_by == OVERLOADED for row in rows)
    return [
        *(["No pressure cures an overload: take load off, or get tires that carry more."] if overload else []),
        "The tire maker's load and pressure table decides; many makers of trailer tires want the moulded pressure "
        "whatever the load. Never fill a tire over what is moulded on it, nor over what wheel and valve are made "
        "for.",
    ]


def alike(rows: list[TirePressure]) -> list[list[TirePressure]]:
    """Places of one tire that carry the same."""
    groups: dict[tuple[str, float, float], list[TirePressure]] = {}
    for row in rows:
        groups.setdefault((row.tire.id, row.load.lo, row.load.hi), []).append(row)
    return list(groups.values())


def places(group: list[TirePressure]) -> str:
    return ", ".join(row.at for row in group)


def upper(value: Interval) -> Interval:
    """The upper end alone: the safe one of a load, and of the pressure that goes with it."""
    return Interval.exact(value.hi, value.unit) if value.hi != INF else value


def pressure_words(row: TirePressure, leading: str) -> str:
    """What to fill it to: rounded up as on the bench sheet, but never over what is rated or moulded."""
    if row.ruled_by in (RATED, OVERLOADED):
        return show_both(upper(row.pressure), leading)
    return show_limit(upper(row.pressure), leading, up=True)


def formula_words(row: TirePressure, leading: str) -> str:
    divided = " A passenger car tire counts less on a trailer, at every pressure." if row.divided else ""
    return f"{name_of(row.tire)[:1].upper()}{name_of(row.tire)[1:]}: {row.formula}.{divided} Basis: {row.basis}."
