"""The reference of all rules as one Markdown file, written from the rules themselves.

``python -m partscheck.report.rule_pages [--check] [FILE]``
"""

from __future__ import annotations

import sys
from pathlib import Path

from partscheck.build.limits import Limits
from partscheck.catalogue.catalogue import Catalogue
from partscheck.report.explain_text import field_of
from partscheck.report.markdown_words import calm
from partscheck.report.text import SCREENING
from partscheck.rules import load_rules
from partscheck.rules.explain import Page, page_of

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterator

    from partscheck.rules.registry import Rule

FILE = Path("examples/rules.md")
COMMAND = "python -m partscheck.report.rule_pages"
INTRO = f"""# The rules, one by one

Each says what must hold, why, by which formula, what to do when it does not, and what stands behind it:
published (a named text), common practice (no source) or recalled (from memory, not checked). The lists under
"Wrong" and "Right" are run by the tests. `partscheck explain RULE` prints the same; `partscheck explain
hub.stud_length` says of a field how to measure it.

{SCREENING}

Written by `{COMMAND}`; do not edit by hand."""
SECTIONS = ("Why", "Formula", "Remedy", "Hazard")


def rule_pages() -> str:
    """The whole file: a contents list by subject, then a page for each rule."""
    subjects: dict[str, list[Rule]] = {}
    for rule in sorted(load_rules().values(), key=lambda rule: rule.subject):
        subjects.setdefault(rule.subject, []).append(rule)
    limits = Limits(Catalogue.load([]))
    return "\n".join([INTRO, "", *_contents(subjects), *_pages(subjects, limits)]).rstrip("\n") + "\n"


def _contents(subjects: dict[str, list[Rule]]) -> Iterator[str]:
    yield from ("## Contents", "")
    for subject, rules in subjects.items():
        links = ", ".join(f"[{rule.slug}](#{rule.slug})" for rule in rules)
        yield f"- {_title(subject)}: {links}"
    yield ""


def _pages(subjects: dict[str, list[Rule]], limits: Limits) -> Iterator[str]:
    for subject, rules in subjects.items():
        yield from (f"## {_title(subject)}", "")
        for rule in rules:
            yield from _page(rule, page_of(rule), limits)


def _title(subject: str) -> str:
    return subject.replace("_", " ").capitalize()


def _page(rule: Rule, page: Page, limits: Limits) -> Iterator[str]:
    yield from (f"### {rule.slug}", "", calm(page.sentence), "")
    for name in SECTIONS:
        if name in page.sections:
            yield from (f"**{name}:** {calm(page.sections[name])}", "")
    if len(rule.basis) == 1:
        yield from (f"**Basis:** {calm(str(rule.basis[0]))}", "")
    else:
        yield from ("**Basis:**", "", *(f"- {calm(str(one))}" for one in rule.basis), "")
    yield from ("**It reads:**", "", *(f"- {_read(read, limits)}" for read in rule.reads), "")
    for name in ("Wrong", "Right"):
        if name in page.sections:
            yield from (f"**{name}:**", "", "```yaml", page.example(name).rstrip("\n"), "```", "")


def _read(read: str, limits: Limits) -> str:
    """A field or a practice limit, and what it means."""
    kind, _, key = read.partition(".")
    if kind == "practice":
        row = limits.row(key)
        return f"`{key}`, a practice limit, {calm(str(row['value']))}: {calm(str(row.get('means', '')))}"
    field = field_of(kind, key)
    return f"`{read}`" + (f": {calm(field.meaning)}" if field is not None else "")


def main(words: list[str]) -> int:
    """Write the file, or say that it is old."""
    check = "--check" in words
    names = [word for word in words if not word.startswith("-")]
    path = Path(names[0]) if names else FILE
    text = rule_pages()
    if check:
        if path.is_file() and path.read_bytes().decode("utf-8") == text:
            return 0
        sys.stderr.write(f"{path} is old: run {COMMAND}\n")
        return 1
    path.write_bytes(text.encode("utf-8"))
    print(f"Wrote {path}")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
