"""``explain`` and ``rules``: what a rule checks, from what, on which basis."""

from __future__ import annotations

from difflib import get_close_matches
from textwrap import indent

from partscheck.build.limits import Limits
from partscheck.catalogue.catalogue import Catalogue, PartEntry
from partscheck.notation.measure import DIMENSIONS
from partscheck.parts.common import ListLine
from partscheck.parts.field import Field
from partscheck.parts.joints import BoltedJoint, JointLoad, StackItem, Tapped, Washers
from partscheck.parts.kinds import KINDS
from partscheck.parts.records import Layout, LoadEntry, PartsList, Service, Tongue, TowVehicle
from partscheck.parts.scale import ScaleReadings
from partscheck.report.wrap import Page as Paper
from partscheck.rules import load_rules
from partscheck.rules.explain import page_of
from partscheck.rules.registry import Rule

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable
    from typing import Any

MAPS = (
    Service, ScaleReadings, Layout, Tongue, LoadEntry, TowVehicle, BoltedJoint, StackItem, Tapped, Washers,
    JointLoad, PartsList,
)  # fmt: skip
RECORDS: dict[str, Any] = {**KINDS, **{record.record_name: record for record in MAPS}, "loads": LoadEntry}


def explain_text(name: str, columns: int, catalogs: Iterable[str] = ()) -> tuple[str, bool]:
    """The page of a rule, a kind ("hub"), a field ("hub.stud_length"), a practice limit or a part of the
    shipped catalogue or one of ``catalogs``; and whether it was found.  Raises ``Faults`` of a catalogue.
    """
    rules = load_rules()
    if name in rules:
        return _rule_page(rules[name], columns), True
    if name == "units":
        return units_text(columns), True
    kind, _, key = name.partition(".")
    if kind in RECORDS and key:
        field = next((one for one in RECORDS[kind].fields.values() if one.key == key), None)
        if field is not None:
            return _field_page(name, field, columns), True
    if name in RECORDS:
        return _kind_page(name, columns), True
    catalogue = Catalogue.load(list(catalogs))
    limits = Limits(catalogue)
    if name in limits.names():
        paper = Paper(columns)
        _limit(paper, limits.row(name))
        return paper.text(), True
    part = catalogue.part(name)
    if part is not None:
        return _part_page(part, columns), True
    fields = (f"{kind}.{field.key}" for kind, record in RECORDS.items() for field in record.fields.values())
    known = [*rules, *RECORDS, *limits.names(), *fields]
    near = get_close_matches(name, [*known, *catalogue.nearest(name)], n=3, cutoff=0.5)
    hint = f" Nearest: {', '.join(near)}." if near else " `partscheck rules` lists the rules."
    paper = Paper(columns)
    paper.line(f"There is no rule, kind, field, practice limit or catalogue part called {name}.{hint}")
    return paper.text().rstrip("\n"), False


def rules_text(columns: int) -> str:
    """Every rule with the sentence it checks, by subject."""
    paper = Paper(columns)
    subject = ""
    for rule in sorted(load_rules().values(), key=lambda rule: rule.subject):
        if rule.subject != subject:
            subject = rule.subject
            paper.head(subject.replace("_", " "))
        paper.line(rule.slug)
        paper.under(rule.sentence)
    paper.gap()
    paper.line("`partscheck explain RULE` tells why, from what, and what to do.")
    return paper.text()


def units_text(columns: int) -> str:
    """Every unit spelling that a list may use, by quantity."""
    paper = Paper(columns)
    paper.line("Units that a list may use. A number of a quantity always carries one; a bare 0 is fine. "
               "A blank, a hyphen or a dot may join two words of a unit: ft lb, ft-lb.")  # fmt: skip
    for name, dimension in DIMENSIONS.items():
        spellings = [spelling for spelling in dimension.spellings if spelling]
        if spellings:
            paper.gap()
            paper.line(f"{name} (kept in {dimension.unit or 'plain numbers'})")
            paper.under(", ".join(spellings))
    return paper.text()


def limits_text(columns: int) -> str:
    """Every practice limit with its value, meaning, reason and basis."""
    paper = Paper(columns)
    limits = Limits(Catalogue.load([]))
    for name in limits.names():
        _limit(paper, limits.row(name))
        paper.gap()
    paper.line("Set your own in a list: `practice: {name: {value: ..., reason: ...}}`.")
    return paper.text()


def _limit(paper: Paper, row: dict[str, Any]) -> None:
    paper.line(f"{row['key']}: {row['value']}")
    paper.under(str(row.get("means", "")))
    paper.under(str(row.get("reason", "")), "Reason: ")
    paper.under(basis_words(row.get("basis")), "Basis: ")


def _part_page(part: PartEntry, columns: int) -> str:
    """A part of the catalogue: its fields as a list would spell them, and where they come from."""
    paper = Paper(columns)
    paper.head(part.id)
    title = KINDS[part.kind].title
    paper.line(f"{title[:1].upper()}{title[1:]} of the catalogue, kind {part.kind}. In a list:")
    paper.raw(f"    - part: {part.id}")
    paper.gap()
    for name, (text, *_) in part.fields.items():
        field = KINDS[part.kind].fields.get(name)
        paper.item("  -", f"{name if field is None else field.key}: {text}")
    paper.gap()
    paper.under(part.note, "Note: ")
    paper.line("Basis: " + basis_words({"kind": part.basis[0], "source": part.basis[1]}))
    return paper.text()


def basis_words(basis: Any) -> str:
    """A basis of a catalogue row in words."""
    if not isinstance(basis, dict):
        return ""
    kind = str(basis["kind"])
    kind = {"practice": "common practice", "recalled": "recalled, not checked"}.get(kind, kind)
    source = str(basis.get("source") or "")
    if source.startswith(kind):  # it says so itself
        return source
    return f"{kind}: {source}" if source else kind


def _rule_page(rule: Rule, columns: int) -> str:
    page = page_of(rule)
    paper = Paper(columns)
    paper.head(rule.slug)
    paper.line(page.sentence)
    for name in ("Why", "Formula", "Remedy", "Hazard"):
        if name in page.sections:
            paper.gap()
            paper.line(f"{name}: " + " ".join(page.sections[name].split()))
    paper.gap()
    paper.line("Basis: " + "; ".join(str(basis) for basis in rule.basis))
    _inputs(paper, rule)
    for name, words in (("Wrong", "This list is wrong:"), ("Right", "This one is right:")):
        if name in page.sections:
            paper.gap()
            paper.line(words)
            paper.raw(indent(page.example(name).rstrip("\n"), "    "))
    return paper.text()


def _inputs(paper: Paper, rule: Rule) -> None:
    paper.gap()
    paper.line("It reads:")
    limits = Limits(Catalogue.load([]))
    told: dict[str, str] = {}
    for read in rule.reads:
        kind, _, key = read.partition(".")
        if kind == "practice":
            row = limits.row(key)
            paper.item("  -", f"practice limit {key} = {row['value']}: {row.get('means', '')}")
        else:
            paper.item("  -", f"{read}: {_meaning(read, field_of(kind, key), told)}")


def field_of(kind: str, key: str) -> Field | None:
    """The field that a rule reads as "kind.key"."""
    record = RECORDS.get(kind)
    fields = record.fields.values() if record is not None else ()
    return next((one for one in fields if key in (one.key, one.name)), None)


def _meaning(read: str, field: Field | None, told: dict[str, str]) -> str:
    """What the field means and how it is measured; ``told``: the ways told so far, and of which field."""
    if field is None:
        return ""
    if not field.measure:
        return f"{field.meaning}."
    first = told.setdefault(field.measure, read)
    return f"{field.meaning}. How: " + (field.measure if first == read else f"as {first}.")


def _kind_page(name: str, columns: int) -> str:
    """The fields that a line or a section of a list may have, its own ones first."""
    paper, record = Paper(columns), RECORDS[name]
    fields = list(record.fields.values())
    own, shared = fields, []
    paper.head(name)
    if name in KINDS:
        common = set(ListLine.fields)
        own = [field for field in fields if field.name not in common]
        shared = [field for field in fields if field.name in common]
        paper.line(f"A kind of part: {record.title}. Its own fields; leave out what you do not know:")
    else:
        paper.line("A section of a list. It may have these fields; leave out what you do not know:")
    for field in own:
        paper.item("  -", f"{field.key}: {field.meaning}.")
    if shared:
        paper.gap()
        paper.line("Like every line of `parts` it may also have:")
        for field in shared:
            paper.item("  -", f"{field.key}: {field.meaning}.")
    paper.gap()
    one = next((field for field in own if field.measure), fields[0])
    paper.line(f"`partscheck explain {name}.{one.key}` tells how that field is typed and measured.")
    return paper.text()


def _field_page(name: str, field: Field, columns: int) -> str:
    paper = Paper(columns)
    paper.head(name)
    paper.line(field.meaning)
    paper.under(field.measure, "How: ")
    paper.under(field.type.expected, "Typed as: ")
    slugs = [rule.slug for rule in load_rules().values() if name in rule.reads]
    paper.under(", ".join(slugs), "Read by: ")
    return paper.text()
