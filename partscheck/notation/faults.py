"""What is wrong with a file: every fault with its place, collected and raised together."""

from __future__ import annotations

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable

    from partscheck.notation.yaml_text import Mark

READ_AT_MOST = 60  # characters of the user's text that a message repeats


class Fault:
    """One thing that cannot be used: where it stands, what was read, what is due, a likely repair.

    ``expected`` completes "expected ..."; ``hint`` is the right spelling or what to do, or "".
    """

    __slots__ = ("expected", "hint", "mark", "read")

    def __init__(self, mark: Mark, read: str, expected: str, hint: str = "") -> None:
        self.mark = mark
        self.read = read
        self.expected = expected
        self.hint = hint

    def __str__(self) -> str:
        read = f"read {shortened(self.read)}, " if self.read else ""
        return f"{self.mark}: {read}expected {self.expected}" + (f"; {self.hint}" if self.hint else "")

    def __repr__(self) -> str:
        return f"<Fault {self}>"


class Faults(Exception):  # noqa: N818 - it carries faults, each with its own words
    """Every fault of one run, in the order of their places.

    ``following`` counts further faults that are left out, since they only follow from these.
    """

    def __init__(self, faults: Iterable[Fault], following: int = 0) -> None:
        self.faults = sorted(faults, key=lambda fault: fault.mark.place)
        self.following = following
        super().__init__(self.faults)

    def __str__(self) -> str:
        return "\n".join(str(fault) for fault in self.faults)


def shortened(text: str) -> str:
    """The user's text on one line, in quotes, cut where it is long, control characters escaped."""
    cut = text if len(text) <= READ_AT_MOST else text[: READ_AT_MOST - 3] + "..."
    return f'"{printable(cut)}"'


def printable(text: str) -> str:
    """The text with control characters escaped, so that it cannot steer a terminal."""
    return "".join(c if c.isprintable() else c.encode("unicode_escape").decode("ascii") for c in text)
