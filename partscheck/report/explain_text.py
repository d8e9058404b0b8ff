"""``explain`` and ``rules``: what a rule checks, from what, on which basis."""

from __future__ import annotations

from difflib import get_close_matches
from textwrap import indent
from typing import Any

from partscheck.build.limits import Limits
from partscheck.catalogue.catalogue import Catalogue, PartEntry
from partscheck.notation.measure import DIMENSIONS
from partscheck.parts.field import Field
from partscheck.parts.joints import BoltedJoint, JointLoad, StackItem, Tapped, Washers
from partscheck.parts.kinds import KINDS
from partscheck.parts.records import Layout, LoadEntry, PartsList, Service, Tongue, TowVehicle
from partscheck.parts.scale import ScaleReadings
from partscheck.report.wrap import Page as Paper
from partscheck.rules import load_rules
from partscheck.rules.explain import page_of
from partscheck.rules.registry import Rule

MAPS = (
    Service, ScaleReadings, Layout, Tongue, LoadEntry, TowVehicle, BoltedJoint, StackItem, Tapped, Washers,
    JointLoad, PartsList,
)  # fmt: skip
RECORDS: dict[str, Any] = {**KINDS, **{record.record_name: record for record in MAPS}, "loads": LoadEntry}


def explain_text(name: str, columns: int) -> tuple[str, bool]:
    """The page of a rule, a field ("hub.stud_length"), a practice limit or a part of the shipped catalogue;
    and whether it was found.
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
    catalogue = Catalogue.load([])
    limits = Limits(catalogue)
    if name in limits.names():
        paper = Paper(columns)
        _limit(paper, limits.row(name))
        return paper.text(), True
    part = catalogue.part(name)
    if part is not None:
        return _part_page(part, columns), True
    known = [*rules, *limits.names(), *(f"{k}.{f.key}" for k, r in RECORDS.items() for f in r.fields.values())]
    near = get_close_matches(name, [*known, *catalogue.nearest(name)], n=3, cutoff=0.5)
    hint = f" Nearest: {', '.join(near)}." if near else " `partscheck rules` lists the rules."
    return f"There is no rule, field, practice limit or catalogue part called {name}.{hint}", False


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
    paper.line(f"{title[:1].upper()}{title[1:]} of the shipped catalogue, kind {part.kind}. In a list:")
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
    kind = {"practice": "common practice", "recalled": "recalled, not checked"}.get(basis["kind"], basis["kind"])
    return f"{kind}: {basis['source']}" if basis.get("source") else str(kind)


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
    for read in rule.reads:
        kind, _, key = read.partition(".")
        if kind == "practice":
            row = limits.row(key)
            paper.item("  -", f"practice limit {key} = {row['value']}: {row.get('means', '')}")
        else:
            paper.item("  -", f"{read}: {_meaning(kind, key)}")


def field_of(kind: str, key: str) -> Field | None:
    """The field that a rule reads as "kind.key"."""
    record = RECORDS.get(kind)
    fields = record.fields.values() if record is not None else ()
    return next((one for one in fields if key in (one.key, one.name)), None)


def _meaning(kind: str, key: str) -> str:
    field = field_of(kind, key)
    if field is None:
        return ""
    return f"{field.meaning}." + (f" How: {field.measure}" if field.measure else "")


def _field_page(name: str, field: Field, columns: int) -> str:
    paper = Paper(columns)
    paper.head(name)
    paper.line(field.meaning)
    paper.under(field.measure, "How: ")
    paper.under(field.type.expected, "Typed as: ")
    slugs = [rule.slug for rule in load_rules().values() if name in rule.reads]
    paper.under(", ".join(slugs), "Read by: ")
    return paper.text()
