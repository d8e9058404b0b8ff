"""What the sections of a sheet share: the check, its numbered findings, the basis list, the drawings."""

from __future__ import annotations

from partscheck.report.html.markup import Markup, join, tag
from partscheck.report.html.showing import LOAD_PATH, shown_in
from partscheck.rules.findings import CAUTION, MEASURE, STOP
from partscheck.uses.measurements import measurements

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable

    from partscheck.engine import Result
    from partscheck.report.drawing import Drawing
    from partscheck.rules.basis import Basis
    from partscheck.rules.findings import Finding


class BasisList:
    """Every basis that the sheet names, each once, numbered in the order of first use."""

    def __init__(self) -> None:
        self.lines: list[str] = []

    def marks(self, bases: Iterable[Basis | str]) -> Markup:
        """ "[1] [4]", each linked to its line at the end of the sheet."""
        return join(dict.fromkeys(self._mark(str(one)) for one in bases), " ")

    def _mark(self, line: str) -> Markup:
        if line not in self.lines:
            self.lines.append(line)
        number = self.lines.index(line) + 1
        return tag("a", f"[{number}]", href=f"#basis-{number}", aria_label=f"basis {number}")


class Sheet:
    """One page in the making.

    ``stops``, ``cautions`` and ``accepted`` are findings in the order of their numbers, ``to_take`` the
    measurements; ``drawings`` what can be drawn of the list.
    """

    def __init__(self, result: Result, leading: str, drawings: list[Drawing]) -> None:
        self.result = result
        self.leading = leading
        self.drawings = drawings
        self.basis = BasisList()
        self.to_take = measurements(result)
        told = [one for one in result.findings if not one.accepted]
        self.stops = [one for one in told if one.verdict == STOP]
        self.cautions = [one for one in told if one.verdict == CAUTION]
        self.accepted = [one for one in result.findings if one.accepted]
        self.undecided = [one for one in told if one.verdict == MEASURE and not one.missing]
        self._anchors = self._numbered()

    def _numbered(self) -> dict[int, tuple[str, str]]:
        """By the id of each finding: (id in the page, what it is called)."""
        found = {}
        groups = {"stop": self.stops, "caution": self.cautions, "accepted": self.accepted, "open": self.undecided}
        for name, findings in groups.items():
            for number, finding in enumerate(findings, start=1):
                found[id(finding)] = (f"{name}-{number}", f"{name.capitalize()} {number}")
        for number, one in enumerate(self.to_take, start=1):
            for finding in one.decides:
                found.setdefault(id(finding), (f"measure-{number}", f"Measure {number}"))
        for number, finding in enumerate(self.result.crashed, start=1):
            found[id(finding)] = (f"failed-{number}", f"Failed rule {number}")
        return found

    def anchor(self, finding: Finding) -> str:
        return self._anchors[id(finding)][0]

    def called(self, finding: Finding) -> str:
        """ "Stop 3"; of a finding that waits for measurements: the first of them."""
        return self._anchors[id(finding)][1]

    def link(self, finding: Finding) -> Markup | None:
        """A link to where a finding is told; to its cause where it follows from another; None: not on the page."""
        told = finding if id(finding) in self._anchors else finding.follows
        if told is None or id(told) not in self._anchors:
            return None
        anchor, called = self._anchors[id(told)]
        return tag("a", called, href=f"#{anchor}")

    def place(self, finding: Finding) -> int:
        """Where on the page it is told: stops first."""
        told = finding if id(finding) in self._anchors else finding.follows
        anchors = list(dict.fromkeys(self._anchors.values()))
        known = None if told is None else self._anchors.get(id(told))
        return len(anchors) if known is None else anchors.index(known)

    # ---- drawings ---------------------------------------------------------------------------------

    def drawing_id(self, drawing: Drawing) -> str:
        return f"drawing-{self.drawings.index(drawing) + 1}"

    def drawing_links(self, finding: Finding) -> list[Markup]:
        """The drawings that show what a finding speaks of, the most particular first.  The load path goes by its
        name: on paper its table stands in for its bars.
        """
        return [
            tag("a", one.title if one.kind == LOAD_PATH else f"Drawing {self.drawings.index(one) + 1}",
                href=f"#{self.drawing_id(one)}")
            for one in shown_in(finding, self.drawings)
        ]  # fmt: skip

    def findings_in(self, drawing: Drawing) -> list[Finding]:
        """The findings whose links lead to a drawing."""
        told = [*self.stops, *self.cautions, *self._waiting(), *self.undecided, *self.accepted]
        return [one for one in told if drawing in shown_in(one, self.drawings)]

    def _waiting(self) -> list[Finding]:
        return [one for one in self.result.findings if one.verdict == MEASURE and one.missing]
