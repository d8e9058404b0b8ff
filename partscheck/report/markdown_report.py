"""The check as Markdown, for a forum post or a pull request; plain text where it is not rendered."""

from __future__ import annotations

from partscheck.notation.faults import shortened
from partscheck.notation.measure import show_both
from partscheck.report.finding_words import ended, paragraphs, parts_words, stopped
from partscheck.report.markdown_words import calm
from partscheck.report.text import (
    HEADS,
    SCREENING,
    bound_words,
    load_path_sentences,
    own_words,
    relation_words,
    tally_sentences,
    verdict_lines,
    worst_places,
)
from partscheck.report.told import told
from partscheck.report.wrap import plural
from partscheck.rules.findings import CAUTION, MEASURE, STOP
from partscheck.uses.load_path import load_path
from partscheck.uses.measurements import measurements

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterator

    from partscheck.engine import Result
    from partscheck.notation.faults import Faults
    from partscheck.rules.findings import Finding
    from partscheck.uses.checked_file import CheckedFile
    from partscheck.uses.measurements import Measurement


def markdown_report(checked: CheckedFile, leading: str, everything: bool = False) -> str:
    """The whole report of one file; ``everything`` adds what held."""
    if checked.faults is not None:
        lines = _faults(checked.faults, checked.file)
    elif checked.result is None:
        lines = iter((f"## {calm(ended(f'partscheck itself failed on this list: {checked.failed}'))}",))
    else:
        lines = _report(checked.result, leading, everything)
    out: list[str] = []
    for line in lines:
        if line or (out and out[-1]):  # one empty line, never two
            out.append(line)
    return "\n".join(out).strip("\n") + "\n"


def _report(result: Result, leading: str, everything: bool) -> Iterator[str]:
    to_take = measurements(result)
    verdict, *helps = verdict_lines(result, len(to_take))
    yield f"## {calm(verdict)}"
    yield ""
    yield from (calm(line) for line in helps)
    for rank in (STOP, CAUTION):
        yield from _findings(result, rank, leading)
    yield from _measurements(to_take, leading)
    yield from _undecided(result, leading)
    yield from _load_path(result, leading)
    yield from _notes(result, leading)
    yield from _accepted(result, leading)
    if everything:
        yield from ("", "### Held", "")
        yield from (f"- `{one.rule.slug}` {calm(parts_words(one))}".rstrip() for one in result.held)
    if result.crashed:
        yield from ("", "### Rules that failed themselves - please report them", "")
        yield from (f"- {calm(one.message(leading))} `{one.rule.slug}`" for one in result.crashed)
    yield from _tally(result)


# ---- sections ----------------------------------------------------------------------------


def _findings(result: Result, rank: str, leading: str) -> Iterator[str]:
    found = [one for one in result.findings if one.verdict == rank and not one.accepted]
    if not found:
        return
    yield from ("", f"### {HEADS[rank]}", "")
    for number, finding in enumerate(found, start=1):
        yield from _finding(f"{number}.", finding, leading)
        also = dict.fromkeys(one.rule.slug for one in result.folded if one.follows is finding)
        if also:
            yield f"{_hang(number)}- Follows from it: " + ", ".join(f"`{slug}`" for slug in also)
        yield ""


def _finding(mark: str, finding: Finding, leading: str) -> Iterator[str]:
    """The finding in bold, where it stands, then one line for each thing it says."""
    hang = " " * (len(mark) + 1)
    (_, first), *rest = paragraphs(finding, leading)
    yield f"{mark} **{calm(first)}**"
    yield f"{hang}- {_where(finding)}"
    for label, text in rest:
        yield f"{hang}- {label}: {calm(text)}"


def _hang(number: int) -> str:
    return " " * (len(str(number)) + 2)


def _where(finding: Finding) -> str:
    line = "" if finding.mark is None else f"line {finding.mark.line}: "
    return f"{line}{calm(parts_words(finding))} `{finding.rule.slug}`".replace("  ", " ")


def _measurements(to_take: list[Measurement], leading: str) -> Iterator[str]:
    if not to_take:
        return
    yield from ("", "### MEASURE - take these, those that decide most come first", "")
    said = own_words(to_take, leading)
    for number, one in enumerate(to_take, start=1):
        hang = _hang(number)
        yield f"{number}. [ ] **{calm(one.name)}**: {calm(stopped(one.meaning))}"
        if one.how:
            yield f"{hang}- How: {calm(ended(one.how))}"
        if one.accuracy is not None:
            yield f"{hang}- Exact to: {calm(show_both(one.accuracy, leading))}"
        told = {slug for slug, *_ in one.bounds}
        for slug, relation, bound in one.bounds:
            limit = bound_words(bound, relation, leading)
            yield f"{hang}- `{slug}` holds with {relation_words(relation)} {calm(limit)}"
        waiting = ", ".join(f"`{slug}`" for slug in one.slugs if slug not in told)
        if waiting:
            yield f"{hang}- Decides: {waiting}"
        yield from (f"{hang}- Why: {calm(ended(words))}" for words, place in said.items() if place is one)
    yield ""


def _undecided(result: Result, leading: str) -> Iterator[str]:
    """What cannot be told although no field is named."""
    found = [one for one in result.findings if one.verdict == MEASURE and not one.missing]
    for finding in found:
        yield from _finding("-", finding, leading)


def _load_path(result: Result, leading: str) -> Iterator[str]:
    rows = load_path(result)
    if not rows:
        return
    yield from ("", "### LOAD PATH - each part at its worst place, least room first", "")
    yield "| part | at, case | rated | carries | room |"
    yield "|---|---|---:|---:|---:|"
    for row in worst_places(rows):
        place = ", ".join(piece for piece in (", ".join(sorted(row.at)), row.case) if piece)
        figures = (row.rating if row.rating.lo > 0 else None, row.share, row.margin)
        shown = ["not known" if one is None or not one.known else show_both(one, leading) for one in figures]
        yield "| " + " | ".join(calm(cell) for cell in (row.label, place, *shown)) + " |"
    yield ""
    yield from (calm(sentence) for sentence in load_path_sentences(rows, leading))


def _notes(result: Result, leading: str) -> Iterator[str]:
    sentences = told(result, leading)
    if result.notes or sentences:
        yield from ("", "### NOTES", "")
        yield from (f"- {calm(ended(one.message(leading)))} `{one.rule.slug}`" for one in result.notes)
        yield from (f"- {calm(ended(text))}" for text in sentences)


def _accepted(result: Result, leading: str) -> Iterator[str]:
    found = [one for one in result.findings if one.accepted]
    if found:
        yield from ("", "### ACCEPTED BY YOU", "")
        for finding in found:
            yield from _finding("-", finding, leading)


def _tally(result: Result) -> Iterator[str]:
    yield ""
    yield from (calm(sentence) for sentence in tally_sentences(result))
    yield ""
    yield SCREENING


def _faults(faults: Faults, file: str) -> Iterator[str]:
    yield f"## This cannot be used yet: {plural(len(faults.faults), 'fault')} to mend"
    yield ""
    for fault in faults.faults:
        elsewhere = "" if fault.mark.file == file else f"{fault.mark.file}, "
        read = f"read {shortened(fault.read)}, " if fault.read else ""
        hint = f"; {fault.hint}" if fault.hint else ""
        place = f"{elsewhere}line {fault.mark.line}, column {fault.mark.column}"
        yield f"- {calm(place)}: {calm(f'{read}expected {fault.expected}{hint}')}"
    if faults.following:
        yield ""
        yield f"{faults.following} more only follow from these."
