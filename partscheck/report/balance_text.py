"""The balance of the trailer as text: a row for each load case, and a view from the side."""

from __future__ import annotations

from partscheck.notation.interval import INF, Interval, same_within
from partscheck.notation.measure import show, show_both
from partscheck.notation.percent import show_percent
from partscheck.report.side_view import COLUMNS, MARKS, side_view
from partscheck.uses.balance import DECLARED, LOADS, SCALE, BalanceRow, LoadEffect, balance

TYPE_CHECKING = False
if TYPE_CHECKING:
    from partscheck.engine import Result
    from partscheck.report.wrap import Page

NAMES = {LOADS: "all loads", DECLARED: "as declared", SCALE: "off the scale"}
SHARING = {
    "equalized": "the axles share alike",
    "not equalized": "nothing equalizes the axles, so the practice share of one is taken",
    "not said": "whether the axles are equalized is not known",
}


def balance_section(page: Page, result: Result, leading: str) -> None:
    """Nothing for a list without loads."""
    rows = balance(result)
    if not any(row.source == LOADS for row in rows):
        return
    page.head("BALANCE - ball, axles and wheels, case by case")
    page.gap()
    page.table(
        ["case", "total", "axles", "tongue", "share", "left", "right"],
        [[case_name(row), *_cells(row, leading)] for row in rows],
    )
    page.gap()
    page.line(balance_sentence(rows))
    _side(page, result, heaviest(rows), leading)


def balance_sentence(rows: list[BalanceRow]) -> str:
    """What the columns mean."""
    words = SHARING.get(rows[0].sharing, "")
    of_axle = f" of the worst loaded axle ({words})" if words else ""
    return f"Share: tongue over total. Left, right: one wheel{of_axle}."


def heaviest(rows: list[BalanceRow]) -> BalanceRow:
    cases = [row for row in rows if row.source == LOADS]
    return max(cases, key=lambda row: row.total.lo)


def case_name(row: BalanceRow) -> str:
    return row.case or NAMES[row.source]


def _cells(row: BalanceRow, leading: str) -> list[str]:
    weights = [row.total, row.axles, row.tongue]
    return [
        *(_weight(one, leading) for one in weights), _stacked(show_percent(row.share)), _weight(row.left, leading),
        _weight(row.right, leading),
    ]  # fmt: skip


def _weight(value: Interval, leading: str) -> str:
    return _stacked(show(value, leading)) if value.known else _stacked("not known")


def _stacked(text: str) -> str:
    """A range in two lines, so that the table stays narrow."""
    return text.replace(" to ", " to\n").replace("not known", "not\nknown")


def _side(page: Page, result: Result, row: BalanceRow, leading: str) -> None:
    """The heaviest case from the side, then what each of its loads does to the tongue."""
    page.gap()
    view = side_view(row, result.build.layout, result.fit.axles, leading)
    words = f"case '{row.case}'" if row.case else "all loads"
    if view and page.columns >= COLUMNS + 2:
        page.line(f"From the side, {words}: o ball, O axle, and the loads by their numbers below.")
        page.gap()
        for line in view:
            page.raw(f"  {line}")
        page.gap()
    else:
        page.line(f"The loads, {words}:")
    for mark, one in zip(MARKS, row.loads, strict=False):
        page.item(mark, load_words(one, leading))


def load_words(one: LoadEffect, leading: str) -> str:
    weight = show_both(one.weight, leading) if one.weight.hi != INF else "weight not known"
    place = f"at {show_both(one.from_coupler, leading)}" if one.from_coupler.known else "place not known"
    return f"{one.what}: {weight} {place}{_effect_words(one.on_tongue, leading)}"


def _effect_words(effect: Interval, leading: str) -> str:
    close = same_within("N")
    if not effect.known:
        return ""
    if effect.lo >= -close and effect.hi <= close:
        return ", nothing on the tongue"
    if effect.hi < 0:
        return f", takes {show_both(-effect, leading)} off the tongue"
    if effect.lo >= 0:
        return f", {show_both(effect, leading)} of it on the tongue"
    return f", {show_both(effect, leading)} on the tongue"
