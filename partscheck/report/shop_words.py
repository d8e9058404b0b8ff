"""Words that every form of a bench sheet shares."""

from __future__ import annotations

from partscheck.notation.cell_text import one_line
from partscheck.notation.measure import show
from partscheck.report.bom_words import first_sentence
from partscheck.report.wrap import plural
from partscheck.uses.shop.tightening import in_words

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable

    from partscheck.rules.basis import Basis
    from partscheck.rules.findings import Finding
    from partscheck.uses.shop import BenchSheet, Said, Step, Torque

FORMAT = "partscheck-shop/1"
NOTHING = (
    "Nothing on this list is work for the bench. A sheet needs parts that are bolted, drilled, packed or set, "
    "such as hubs with their bearings, wheels with their nuts, or bolted_joints."
)
TORQUE_HEADS = ("step", "what", "each", "rounds", "full, dry", "oiled", "wrench")
BY_MAKER = "maker's sheet"
USUAL_ONLY = "* only what is usual for the thread: the maker's sheet governs."


def said(sentence: Said, leading: str) -> str:
    """A sentence, begun with a capital, on one line."""
    text = one_line(sentence.text(leading))
    return text[:1].upper() + text[1:]


def verdict_line(sheet: BenchSheet) -> str:
    """What the check said of the list that the sheet was made from."""
    name = one_line(sheet.build.name) or "this list"
    count = len(sheet.stops)
    to_take = sum(len(section.steps) for section in sheet.sections if section.key == "measure")
    if sheet.result.crashed:
        words = "rules failed themselves, so a warning may be missing. `partscheck check` names them."
    elif count:
        words = (
            f"{plural(count, 'stop')}. Settle {'it' if count == 1 else 'them'} before you cut, drill or bolt what "
        )
        words += "it concerns." if count == 1 else "they concern."
    elif sheet.result.verdict == "nothing":
        words = "nothing on this list could be checked."
    elif to_take:
        words = f"no stop is known yet; {plural(to_take, 'measurement')} to take first."
    else:
        words = "no stop is known in this list. When you change the list, print the sheet again."
    return f"BENCH SHEET - {name}: {words}"


def first_line(step: Step) -> str:
    """What comes before a step, in one sentence; "" for nothing."""
    found = []
    if step.stops:
        one = len(step.stops) == 1
        named = " and ".join(piece for piece in (", ".join(step.stops[:-1]), step.stops[-1]) if piece)
        found.append(f"DO NOT DO THIS before stop{'' if one else 's'} {named} {'is' if one else 'are'} settled.")
    if step.waits:
        found.append(f"First take measurement{'' if len(step.waits) == 1 else 's'} {', '.join(step.waits)}.")
    return " ".join(found)


def caution_words(finding: Finding, leading: str) -> str:
    return f"{one_line(first_sentence(finding.message(leading)))} [{finding.rule.slug}]"


def stop_words(finding: Finding, leading: str) -> tuple[str, str]:
    """(what does not fit, the first thing to do about it or "")."""
    remedies = finding.remedies(leading)
    do = one_line(remedies[0][1]) if remedies else ""
    return f"{one_line(finding.message(leading))} [{finding.rule.slug}]", do[:1].upper() + do[1:]


def basis_marks(basis: Iterable[Basis], sheet: BenchSheet) -> str:
    """ "A, C": the lines at the sheet's end that stand behind a step or a section."""
    known = [str(one) for one in sheet.bases()]
    return ", ".join(letter(number) for number in sorted(known.index(str(one)) for one in basis))


def letter(number: int) -> str:
    """A, B, ... Z, AA, AB, ..."""
    name = chr(ord("A") + number % 26)
    return name if number < 26 else letter(number // 26 - 1) + name


def torque_cells(step: Step, torque: Torque, leading: str) -> list[str]:
    """One row of the torque table."""
    rounds = ", ".join(show(one, leading).partition(" ")[0] for one in torque.stages)
    full = BY_MAKER if torque.full is None else show(torque.full, leading) + ("" if torque.exact else " *")
    oiled = show(torque.oiled, leading) if torque.oiled is not None else ""
    return [
        step.number,
        said(torque.what, leading),
        "" if torque.pieces is None else str(torque.pieces),
        rounds,
        full,
        oiled,
        one_line(torque.wrench.text(leading)),
    ]


def order_words(torque: Torque) -> str:
    return in_words(torque.order)
