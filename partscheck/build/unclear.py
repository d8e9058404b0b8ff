"""The words for a list that leaves open what sits where: the candidates, and the line to add."""

from __future__ import annotations

from partscheck.build.model import pieces
from partscheck.notation.faults import Fault
from partscheck.notation.yaml_text import Mark

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any


def two_for_one_place(role: str, lines: list[Any], where: list[str]) -> Fault:
    """Several lines could fill ``role`` at the places ``where``."""
    return Fault(
        mark_of(lines[1]),
        f"{role} {named(lines)}",
        f"one {role} at each place: {', '.join(where)}",
        f"{_line_to_add(role, lines, where)}, or take a line out",
    )


def named(lines: list[Any]) -> str:
    """ "'a' (line 3) and 'b' (line 4)"."""
    *first, last = [f"'{line.id}' ({_line_of(line)})" for line in lines]
    return f"{', '.join(first)} and {last}" if first else last


def _line_to_add(role: str, lines: list[Any], where: list[str]) -> str:
    shared = _shared_out(lines, where)
    if role.split()[-1] in ("bearing", "cone", "cup"):
        words = "say `place: inner` or `place: outer` on each (or `includes: cone` or `cup` for halves)"
        return f"{words}, or `at:` where each goes"
    if shared:
        words = " and ".join(f"`at: [{', '.join(ats)}]` to '{line.id}'" for line, ats in shared)
        return f"add {words} if that is how they go"
    one = f"`at: [{', '.join(where)}]`"
    return f"add {one} to the one that goes there and `at:` with its own places to the rest"


def _shared_out(lines: list[Any], where: list[str]) -> list[tuple[Any, list[str]]]:
    """The places shared out in order, where the pieces just add up; else nothing."""
    counts = [pieces(line) or 0 for line in lines]
    if sum(counts) != len(where) or not all(counts):
        return []
    starts = [sum(counts[:number]) for number in range(len(counts))]
    return [
        (line, where[start : start + count]) for line, start, count in zip(lines, starts, counts, strict=True)
    ]


def mark_of(part: Any) -> Mark:
    """Where a line starts; parts made by a program stand nowhere."""
    return part.mark or Mark("", 1, 1)


def _line_of(part: Any) -> str:
    return f"line {part.mark.line}" if part.mark else "catalogue"
