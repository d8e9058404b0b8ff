"""Words that every form of a swap shares: the verdict, what is changed, the figures in cells."""

from __future__ import annotations

from partscheck.build.ride_height import NO_LIFT
from partscheck.notation.cell_text import one_line
from partscheck.notation.interval import INF, Interval
from partscheck.notation.measure import show
from partscheck.report.bom_words import finding_words, money, remedy_words
from partscheck.report.wrap import plural
from partscheck.rules.findings import CAUTION, MEASURE, STOP, Finding
from partscheck.rules.message import name_of, spell
from partscheck.uses.bom_kinds import described
from partscheck.uses.figures import LESS, PERCENT, SHARE
from partscheck.uses.swap import SAME, Figure, Purchase, Swap

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.apply import FieldChange
    from partscheck.parts.record import Typed
    from partscheck.rules.basis import Basis
    from partscheck.uses.bom_extras import Extra
    from partscheck.uses.bom_lines import BomLine

KM_PER_MILE = 1.609344
NOTHING = "-"
MOST_EXTRA = 4  # decimals added at most to tell before from after
MARKED = "!: brings a stop, a caution or a question that is told above."
BEFORE_DRIVING = (
    "Other wheels, tires or plates can come off, rub or burst. Before you drive on them turn both wheels by hand, "
    "loaded and at full travel, tighten the nuts in steps as their maker says and again on the way, and follow "
    "the makers' instructions and local codes."
)


# ---- in one line -----------------------------------------------------------------------------------


def verdict_line(swap: Swap) -> str:
    """ "NO NEW STOP - Taller tires, on Apiary trailer: 1 caution appears, 1 stop stays." """
    stops = len(swap.new_stops)
    if swap.after.verdict == "nothing":
        return f"NOTHING CHECKED - {_title(swap)}: no rule found anything on the changed list to look at."
    head = f"{plural(stops, 'NEW STOP') if stops == 1 else f'{stops} NEW STOPS'}" if stops else "NO NEW STOP"
    told = [
        *_counted(swap.appears, "appears", "appear", STOP, CAUTION, MEASURE),
        *_counted(swap.goes, "goes", "go", STOP, CAUTION, MEASURE),
        *_counted(swap.surfaces, "comes to light", "come to light", STOP, CAUTION, MEASURE),
        *_counted(swap.stays, "stays", "stay", STOP),
    ]
    return f"{head} - {_title(swap)}: {', '.join(told) if told else 'no finding appears or goes'}."


def _title(swap: Swap) -> str:
    """ "Taller tires, on Apiary trailer"."""
    base = one_line(swap.before.build.name) or swap.before.build.file
    return f"{one_line(swap.change.name) or 'this change'}, on {base}"


def _counted(findings: list[Finding], one: str, more: str, *verdicts: str) -> list[str]:
    nouns = {STOP: "stop", CAUTION: "caution", MEASURE: "open question"}
    found = []
    for verdict in verdicts:
        count = sum(finding.verdict == verdict and not finding.error for finding in findings)
        if count:
            found.append(f"{plural(count, nouns[verdict])} {one if count == 1 else more}")
    return found


# ---- what is changed -------------------------------------------------------------------------------


def changed_lines(swap: Swap, leading: str) -> list[tuple[str, list[str]]]:
    """(what is changed, what goes with it) of each line, in the order of the change."""
    applied = swap.applied
    found: list[tuple[str, list[str]]] = []
    for record in dict.fromkeys(one.record for one in applied.fields):
        steps = [_step(one, leading) for one in applied.fields if one.record is record and _differs(one)]
        told = "; ".join(steps) or "as it was"
        found.append((f"{record.id}: {told}", _along(swap, record)))
    found += [(f"added: {name_of(part)}, {one_line(described(part))}", []) for part in applied.added]
    found += [(f"removed: {record.id}", []) for record in applied.removed]
    for one in applied.carried:
        found.append((f"{one.path}: {_step(one, leading, bare=True)}, as it follows the tires", []))
    if swap.lift != NO_LIFT and swap.lift.known:
        way = "higher" if swap.lift.mid > 0 else "lower"
        by = both(Interval.exact(abs(swap.lift.mid), "mm"), leading)
        found.append((f"the trailer stands {by} {way}: its coupler, its floor and all under it", []))
    base = swap.change.base
    if base and not _same_file(base, swap.before.build.file):
        told = f"the swap was written for {one_line(base)}, and is tried on {swap.before.build.file}"
        found.append((told, []))
    return found


def _along(swap: Swap, record: Any) -> list[str]:
    applied = swap.applied
    gone = [one.record.fields[one.name].key for one in applied.gone if one.record is record]
    kept = applied.kept.get(record.id, [])
    told = []
    if gone:
        told.append(f"gone with the old article: {', '.join(gone)}")
    if kept:
        told.append(f"taken to be as before, type what differs: {', '.join(kept)}")
    return told


def _differs(one: FieldChange) -> bool:
    return one.before is None or one.after is None or one.before.text != one.after.text


def _step(one: FieldChange, leading: str, bare: bool = False) -> str:
    """ "size ST205/75R15 -> LT235/75R15"."""
    field = one.record.fields.get(one.name)
    key = field.key if field is not None else one.name
    texts = f"{_typed(one.before, leading)} -> {_typed(one.after, leading)}"
    return texts if bare else f"{key} {texts}"


def _typed(typed: Typed | None, leading: str) -> str:
    if typed is None:
        return "not typed"
    if isinstance(typed.value, Interval):
        return spell(typed.value, leading)
    return one_line(typed.text) or "not known"


def _same_file(one: str, other: str) -> bool:
    return one.replace("\\", "/").rpartition("/")[2] == other.replace("\\", "/").rpartition("/")[2]


# ---- findings --------------------------------------------------------------------------------------


def where(finding: Finding, swap: Swap) -> str:
    """The parts, the places, and the line of whichever file is to blame."""
    parts = ", ".join(name_of(part) for part in finding.parts[:4])
    if len(finding.parts) > 4:
        parts += f" and {len(finding.parts) - 4} more"
    at = f" at {', '.join(finding.at)}" if finding.at else ""
    mark = finding.mark
    line = ""
    if mark is not None:
        file = "" if mark.file == swap.before.build.file else f"{mark.file} "
        line = f"{file}line {mark.line}"
    about = f"{parts}{at}".strip()
    return f"{line}{': ' if line and about else ''}{about}  [{finding.rule.slug}]".strip()


# ---- figures ---------------------------------------------------------------------------------------


def table_figures(figures: list[Figure]) -> list[Figure]:
    """The figures for a table: of one that is taken at several places, the place where it is worst."""
    worst: dict[str, Figure] = {}
    for one in figures:
        first = worst.get(one.name)
        if first is None or (one.kind.worse and _badness(one) > _badness(first)):
            worst[one.name] = one
    kept = {id(one) for one in worst.values()}
    return [one for one in figures if id(one) in kept or not one.kind.worse]


def _badness(one: Figure) -> float:
    if one.after is None:
        return -INF
    return -one.after.lo if one.kind.worse == LESS else one.after.hi


def figure_name(one: Figure) -> str:
    """The name, with the places where it holds when it differs among them; "!" before one that brings a stop,
    a caution or a question.
    """
    mark = "! " if one.brings and one.direction != SAME else ""
    axle = "axle " if one.at and all(at.isdigit() for at in one.at) else ""
    return f"{mark}{one.name} ({axle}{', '.join(one.at)})" if one.at else f"{mark}{one.name}"


def figure_cells(one: Figure, leading: str, brackets: bool = False, room: int = 99) -> tuple[str, str, str]:
    """(before, after, change): in the leading units, the other system in ``brackets`` where both cells then have
    at most ``room`` characters.
    """
    before, after = _end(one, one.before), _end(one, one.after)
    texts = _side(one, before, leading, before), _side(one, after, leading, before)
    for extra in range(1, MOST_EXTRA):
        if texts[0] != texts[1] or one.before == one.after:
            break
        texts = _side(one, before, leading, before, extra), _side(one, after, leading, before, extra)
    if brackets:
        other = "metric" if leading == "inch" else "inch"
        sides = (_side(one, value, other, before) for value in (before, after))
        first, second = (
            text if text in (NOTHING, beside) or "%" in text else f"{text} ({beside})"
            for text, beside in zip(texts, sides, strict=True)
        )
        texts = (first, second) if max(len(first), len(second)) <= room else texts
    return texts[0], texts[1], _change(one, before, after, leading)


def _end(one: Figure, value: Interval | None) -> Interval | None:
    """The worse end of a value that has two, where one is worse."""
    if value is None or not one.kind.worse or not value.known:
        return value
    end = value.lo if one.kind.worse == LESS else value.hi
    return Interval.exact(end, value.unit)


def _side(one: Figure, value: Interval | None, system: str, before: Interval | None, extra: int = 0) -> str:
    if value is None:
        return NOTHING
    if not value.known:
        return "not known"
    if one.kind.written == SHARE:
        whole = before if before is not None and before.known and before.mid else value
        return f"{_plain(100 * value.mid / whole.mid, extra)} %"
    if one.kind.written == PERCENT:
        return f"{_plain(100 * value.mid, extra)} %"
    if value.unit == "turns/km":
        inch = system == "inch"
        return _plain(value.mid * (KM_PER_MILE if inch else 1.0), extra - 1) + (" a mile" if inch else " a km")
    if value.unit == "km":
        return _way(value.mid, system, extra)
    return show(value, system, extra)


def _plain(value: float, extra: int) -> str:
    """One decimal, or ``extra`` more; whole numbers without."""
    text = f"{value:.{max(0, 1 + extra)}f}"
    return text.removesuffix(".0")


def _way(km: float, system: str, extra: int) -> str:
    """A way to three figures, rounded down."""
    value = km / KM_PER_MILE if system == "inch" else km
    label = " miles" if system == "inch" else " km"
    step = 10 ** max(0, len(str(int(value))) - 3 - extra)
    return f"{int(value) // step * step:,}{label}"


def _change(one: Figure, before: Interval | None, after: Interval | None, leading: str) -> str:
    """A length, mass or speed by how much; anything else in percent."""
    if before is None or after is None or not (before.known and after.known):
        return ""
    step = after.mid - before.mid
    if one.direction == SAME or not step:
        return "0"
    sign = "+" if step > 0 else "-"
    if before.unit in ("mm", "kg", "km/h"):
        return sign + show(Interval.exact(abs(step), before.unit), leading)
    return f"{sign}{abs(100 * step / before.mid):.1f} %" if before.mid else ""


def both(value: Interval, leading: str) -> str:
    """A computed value in both systems."""
    other = "metric" if leading == "inch" else "inch"
    return f"{show(value, leading)} ({show(value, other)})"


class Legend:
    """Letters for the bases of figures, in the order of their first use."""

    def __init__(self) -> None:
        self.bases: list[str] = []

    def letter(self, basis: Basis) -> str:
        text = str(basis)
        if text not in self.bases:
            self.bases.append(text)
        return chr(ord("a") + self.bases.index(text))

    def lines(self) -> list[tuple[str, str]]:
        return [(chr(ord("a") + number), text) for number, text in enumerate(self.bases)]


def supports(swap: Swap, leading: str) -> str:
    """Which part sets the gross weight that the rated parts carry."""
    (figure,) = swap.of("gross weight supported") or (None,)
    before, after = swap.limiting
    if figure is None or figure.after is None or after is None or not figure.after.known:
        return ""
    value = both(Interval.exact(figure.after.lo, "N"), leading)
    if figure.direction == SAME and before is not None and before.id == after.id:
        words = f"The rated parts carry a gross weight of {value}, as before; the {name_of(after)} sets it."
        return words + _unrated(swap)
    was = f"; before, the {name_of(before)} did" if before is not None and before.id != after.id else ""
    words = f"The rated parts then carry a gross weight of {value}; the {name_of(after)} sets it{was}."
    return words + _unrated(swap)


def _unrated(swap: Swap) -> str:
    """What may make it less."""
    return f" It may be less: no rating is known of {', '.join(swap.unrated)}." if swap.unrated else ""


# ---- what to buy -----------------------------------------------------------------------------------


def bought(one: Purchase) -> str:
    if one.pieces is None:
        return "quantity not typed"
    packs = "" if one.purchases == one.pieces else f" ({plural(one.purchases or 0, 'pack')})"
    return f"{one.pieces}{packs}"


def not_needed(line: BomLine) -> str:
    """What is left over, and what it costs less where it still stands in the cart."""
    count = line.on_the_list
    saved = f"; {money(line.cost, line.currency)} less to pay" if line.cost else ""
    return f"{line.id}: {'' if count is None else f'{count} x '}{one_line(line.what)}{saved}"


def dearer(swap: Swap) -> list[str]:
    """By currency, by how much all that is to order costs more or less than before."""
    found = []
    for currency, (before, after) in swap.totals.items():
        if before != after:
            step = f"{money(abs(after - before), currency)} {'more' if after > before else 'less'}"
            found.append(
                f"All that is to order, as far as prices are typed, costs {step} than before: "
                f"{money(after, currency)}, it was {money(before, currency)}."
            )
    return found


def to_add(extra: Extra, leading: str) -> str:
    """What is missing on the changed list, and what to do about it."""
    words = [finding_words(extra.finding, leading), remedy_words(extra.finding, leading)] if extra.finding else []
    return " ".join(word for word in words if word)


def untold(figures: list[Figure]) -> dict[str, list[str]]:
    """By figure, the fields that it lacks; "(before)" behind those that only the old list lacks."""
    found: dict[str, list[str]] = {}
    for one in figures:
        names = found.setdefault(one.name, [])
        for name in one.missing:
            told = name if name in one.missing_after or one.after is None else f"{name} (before)"
            if told not in names:
                names.append(told)
    return found
