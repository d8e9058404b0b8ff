"""What stands behind a number or a rule: published, common practice, or recalled."""

from __future__ import annotations


class Basis:
    """``kind`` is published, practice or recalled; ``source`` names the standard and clause, the
    handbook and page, the regulation, or says what the practice is.
    """

    __slots__ = ("kind", "source")

    def __init__(self, kind: str, source: str) -> None:
        self.kind = kind
        self.source = source

    def __str__(self) -> str:
        shown = {"published": "published", "practice": "common practice", "recalled": "recalled, not checked"}
        return f"{shown[self.kind]}: {self.source}" if self.source else shown[self.kind]


def published(source: str) -> Basis:
    """Named standard, regulation or handbook, with clause or page."""
    return Basis("published", source)


def practice(source: str) -> Basis:
    """Common practice of the trade; no source to cite."""
    return Basis("practice", source)


def recalled(source: str) -> Basis:
    """From memory; not checked against any text."""
    return Basis("recalled", source)
