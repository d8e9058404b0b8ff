"""A finding as one paragraph for each thing it says; formats for machines and for forums share it."""

from __future__ import annotations

from partscheck.notation.cell_text import one_line
from partscheck.rules.message import name_of

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterator

    from partscheck.rules.findings import Finding


def paragraphs(finding: Finding, leading: str) -> Iterator[tuple[str, str]]:
    """(label, text), each on one line; the first, without a label, is what was found."""
    yield "", ended(finding.message(leading))
    for label, text in _labelled(finding, leading):
        if text.strip():  # what is measured begins with the name of a field, which stays as it is typed
            yield label, stopped(text) if label == "Measure" else ended(text)
    if finding.accepted:
        yield "Accepted by you", one_line(finding.accepted)


def _labelled(finding: Finding, leading: str) -> Iterator[tuple[str, str]]:
    yield "Why", finding.why(leading)
    yield "Measure", "; ".join(_asked(finding))
    for _, text in finding.remedies(leading):
        yield "Do", text
    yield "Danger", finding.check.hazard
    yield "Basis", "; ".join(str(basis) for basis in finding.basis)


def _asked(finding: Finding) -> Iterator[str]:
    for missing in finding.missing:
        field = missing.record.fields.get(missing.field)
        how = f" ({field.measure.rstrip('.')})" if field is not None and field.measure else ""
        yield missing.name + how


def ended(text: str) -> str:
    """The text on one line, begun with a capital and ended with a full stop.

    >>> ended("use a longer stud")
    'Use a longer stud.'
    """
    text = stopped(text)
    return text[:1].upper() + text[1:]


def stopped(text: str) -> str:
    """The text on one line, ended with a full stop."""
    text = one_line(text)
    return text + ("" if text.endswith((".", "!", "?", ":")) else ".")


def parts_words(finding: Finding) -> str:
    """The parts it concerns and where they stand: "hub, adapter 'plate' at 1L, 1R"; "" for none."""
    parts = ", ".join(name_of(part) for part in finding.parts[:4])
    if len(finding.parts) > 4:
        parts += f" and {len(finding.parts) - 4} more"
    if not parts and finding.check.blame is not None:
        record, field = finding.check.blame
        parts = f"{record.id}.{field}"
    return one_line(parts + (f" at {', '.join(finding.at)}" if finding.at else ""))
