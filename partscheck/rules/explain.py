"""The page of a rule, read from its docstring.

First the sentence that must hold, then sections that start a line with ``Why:``, ``Formula:``,
``Remedy:``, ``Hazard:``, ``Wrong:`` and ``Right:``.  Wrong and Right are little parts lists in YAML
(the lines under ``parts``, or a whole list); tests run them: the wrong one fires, the right one does
not.
"""

from __future__ import annotations

import re
from textwrap import dedent, indent

from partscheck.rules.registry import Rule

SECTIONS = ("Why", "Formula", "Remedy", "Hazard", "Wrong", "Right")
HEAD = re.compile(rf"^({'|'.join(SECTIONS)}):[ ]?(.*)$")


class Page:
    """``sentence`` is what must hold; ``sections`` maps a section's name to its text."""

    __slots__ = ("sections", "sentence", "slug")

    def __init__(self, slug: str, sentence: str, sections: dict[str, str]) -> None:
        self.slug = slug
        self.sentence = sentence
        self.sections = sections

    def example(self, name: str) -> str:
        """The Wrong or Right example as a whole parts list, or ""."""
        text = self.sections.get(name, "")
        if text.lstrip().startswith("-"):
            return "parts:\n" + indent(text, "  ") + "\n"
        return text + "\n" if text else ""


def page_of(rule: Rule) -> Page:
    """The page of one rule."""
    head, _, rest = (rule.check.__doc__ or "").partition("\n\n")
    rest = dedent(rest)
    sections: dict[str, list[str]] = {}
    current: list[str] = []
    for line in rest.splitlines():
        found = HEAD.match(line)
        if found:
            current = sections.setdefault(found[1], [])
            if found[2]:
                current.append(found[2])
        else:
            current.append(line)
    texts = {name: dedent("\n".join(lines)).strip("\n") for name, lines in sections.items()}
    return Page(rule.slug, " ".join(head.split()), texts)
