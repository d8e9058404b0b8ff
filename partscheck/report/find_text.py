"""Found parts as text for a terminal, at most 100 columns."""

from __future__ import annotations

import string

from partscheck.notation.cell_text import one_line
from partscheck.report.find_words import (
    asked_words,
    counted_rules,
    elsewhere,
    margin_words,
    misses_by_words,
    near_words,
    one_of_each,
    opening,
    order_words,
    purchase,
    reason,
    tried_words,
    unstated_words,
    values,
)
from partscheck.report.text import SCREENING
from partscheck.report.wrap import Page
from partscheck.rules.basis import Basis

TYPE_CHECKING = False
if TYPE_CHECKING:
    from partscheck.rules.findings import Finding
    from partscheck.uses.find import Candidate, Finds

GROUPS = (
    "FITS AND CARRIES",
    "FITS SO FAR - fields of other lines are still to be measured",
    "CANNOT BE TOLD YET - no new stop, but these fields decide",
    "NO NEW STOP - but these stops on the line stay",
    "NOT CHECKED - nothing on this list touches it: its fit is not known",
)
FIELDS_TOLD = 8  # to measure
NEAREST = 4  # rejected parts that are told one by one
REASONS = 2  # of each
SELLERS_WORDS = (
    "These are values as the catalogue states them; a part is tried against a trailer with --for LIST. Hold the "
    "part in hand against its row before you build on it."
)


class _Bases:
    """A letter for each basis, told once at the end; and the hazards that were told."""

    def __init__(self) -> None:
        self.letters: dict[tuple[str, str], str] = {}
        self.hazards: set[str] = set()

    def letter(self, basis: tuple[str, str]) -> str:
        names = string.ascii_lowercase
        number = len(self.letters)
        return self.letters.setdefault(basis, names[number % 26] * (number // 26 + 1))


def find_text(found: Finds, leading: str, columns: int = 80) -> str:
    """What was found; values in the ``leading`` unit system first."""
    page = Page(columns)
    bases = _Bases()
    page.line(opening(found))
    page.line(asked_words(found))
    if tried_words(found):
        page.line(tried_words(found))
    for text in order_words(found):
        page.line(text)
    shown = found.candidates[: found.limit]
    if found.build is None:
        _list(page, shown, found, leading, bases)
    else:
        for rank, head in enumerate(GROUPS):
            group = [one for one in shown if one.trial is not None and one.trial.rank == rank]
            if group:
                page.head(head)
                _list(page, group, found, leading, bases)
        left = len(found.candidates) - len(shown)
        if left:
            page.gap()
            page.line(f"{left} more {'brings' if left == 1 else 'bring'} no new stop: --limit shows more.")
        _rejected(page, found, leading, bases)
    _misses(page, found, leading, bases)
    for text in unstated_words(found):
        page.gap()
        page.line(text)
    _legend(page, bases)
    page.gap()
    page.line(SELLERS_WORDS if found.build is None else SCREENING)
    return page.text()


def _list(page: Page, group: list[Candidate], found: Finds, leading: str, bases: _Bases) -> None:
    for number, one in enumerate(group, start=1):
        if number > 1 or found.build is None:
            page.gap()
        here = " (on the list now)" if _on_the_list(one, found) else ""
        page.item(f"{number}.", f"{one_line(one.id)}{here} - {purchase(one, leading)}")
        page.under("; ".join(values(one, found, leading)))
        _trial(page, one, leading, bases)
        page.under(_origin(one, bases))


def _on_the_list(one: Candidate, found: Finds) -> bool:
    line = found.build.part(found.line) if found.build is not None else None
    typed = None if line is None else line.values.get("part")
    return typed is not None and typed.text == one.id


def _trial(page: Page, one: Candidate, leading: str, bases: _Bases) -> None:
    trial = one.trial
    if trial is None:
        return
    page.under(margin_words(one), "Margin: ")
    page.under(_some(trial.lacks), "Measure, or ask: ")
    page.under(_some(trial.needs), "Measure on other lines: ")
    page.under(_some(trial.coarse), "Measure more exactly: ")
    cleared = dict.fromkeys(finding.rule.slug for finding in trial.clears)
    page.under(", ".join(f"[{slug}]" for slug in cleared), "Clears: ")
    leaves = one_of_each(trial.leaves)
    for finding in leaves[:REASONS]:
        _reason(page, finding, leading, bases, "Stays: ")
    page.under(", ".join(f"[{finding.rule.slug}]" for finding in leaves[REASONS:]), "Stays, too: ")


def _some(fields: list[str]) -> str:
    """The first of them, and how many more there are."""
    more = f", and {len(fields) - FIELDS_TOLD} more" if len(fields) > FIELDS_TOLD else ""
    return ", ".join(map(one_line, fields[:FIELDS_TOLD])) + more


def _reason(page: Page, finding: Finding, leading: str, bases: _Bases, label: str = "") -> None:
    letters = ", ".join(bases.letter((one.kind, one.source)) for one in finding.basis)
    page.under(f"{reason(finding, leading)} (basis {letters})", label)
    if finding.check.hazard not in bases.hazards:  # once is enough
        bases.hazards.add(finding.check.hazard)
        page.under(finding.check.hazard, "Danger: ")


def _origin(one: Candidate, bases: _Bases) -> str:
    return f"{one_line(one.entry.file)}, line {one.entry.line}; basis {bases.letter(one.entry.basis)}"


def _rejected(page: Page, found: Finds, leading: str, bases: _Bases) -> None:
    if not found.rejected:
        return
    page.head("REJECTED - each brings a stop; nearest misses first")
    for one in found.rejected[:NEAREST]:
        trial = one.trial
        assert trial is not None
        page.item("-", f"{one_line(one.id)} - {purchase(one, leading)}")
        page.under(trial.unplaced, "Not clear where it sits: ")
        brings = one_of_each(trial.brings)
        for finding in brings[:REASONS]:
            _reason(page, finding, leading, bases)
            page.under(misses_by_words(finding, leading), "Misses by: ")
            page.under(elsewhere(finding, trial.brings), "The same of: ")
        page.under(", ".join(f"[{finding.rule.slug}]" for finding in brings[REASONS:]), "Also: ")
        page.under(_origin(one, bases))
    page.gap()
    page.line(f"Rejected by rule: {counted_rules(found)}.")


def _misses(page: Page, found: Finds, leading: str, bases: _Bases) -> None:
    if not found.misses:
        return
    page.head("NEAREST - each meets all but one")
    for near in found.misses:
        page.item("-", f"{one_line(near.candidate.id)}: {near_words(near, leading)}")
        page.under(_origin(near.candidate, bases))


def _legend(page: Page, bases: _Bases) -> None:
    if bases.letters:
        page.gap()
        page.line("Basis of these values:")
        for (kind, source), letter in bases.letters.items():
            page.item(letter, one_line(str(Basis(kind, source))))
