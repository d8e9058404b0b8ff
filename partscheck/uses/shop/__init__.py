"""The bench sheet of a checked list: the work at the bench in its order, each step with its figures.

>>> import partscheck
>>> sheet = partscheck.bench_sheet(partscheck.check("apiary.yaml"))   # doctest: +SKIP
>>> for step in sheet.steps():                                       # doctest: +SKIP
...     print(step.number, step.do.text("inch"))
"""

from __future__ import annotations

from partscheck.notation.interval import Interval
from partscheck.rules.findings import CAUTION, MEASURE, STOP
from partscheck.uses.shop import brakes, checks, drilling, hubs, joints, measuring, studs, threads, wheels, wiring
from partscheck.uses.shop.concerns import concerns
from partscheck.uses.shop.sheet import Said, Section, Step, Torque

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterator

    from partscheck.engine import Result
    from partscheck.rules.basis import Basis
    from partscheck.rules.findings import Finding

WRENCH = "torque wrench"


class BenchSheet:
    """``sections`` in the order of work, those that have nothing to do left out; ``stops`` that come before all
    of it, numbered from 1 as steps name them; ``result`` is the check behind it.
    """

    def __init__(self, result: Result) -> None:
        self.result = result
        self.build = result.build
        self.stops: list[Finding] = [one for one in result.findings if one.verdict == STOP]
        self.sections: list[Section] = [section for section in _sections(result) if section.steps]
        self._number()
        self._bind()

    def steps(self) -> Iterator[Step]:
        for section in self.sections:
            yield from section.steps

    def torques(self) -> list[tuple[Step, Torque]]:
        """Every step that tightens something, with its line of the torque table."""
        return [(step, step.torque) for step in self.steps() if step.torque is not None]

    def tools(self) -> list[Said]:
        """What to have ready, each once, in the order of first use; one torque wrench for all torques."""
        seen: dict[str, Said] = {}
        for step in self.steps():
            for tool in step.tools:
                seen.setdefault(tool.text("metric"), tool)
        if WRENCH in seen:
            seen[WRENCH] = self._wrench()
        return list(seen.values())

    def bases(self) -> list[Basis]:
        """Everything that stands behind a figure of the sheet, each once, in the order of first use."""
        found: dict[str, Basis] = {}
        for section in self.sections:
            for one in (*section.basis, *(basis for step in section.steps for basis in step.basis)):
                found.setdefault(str(one), one)
        return list(found.values())

    def _wrench(self) -> Said:
        """From the first round of the lightest torque to the heaviest."""
        rows = [torque for _, torque in self.torques() if torque.full is not None and torque.full.known]
        ends = [
            end for row in rows for one in (*row.stages, row.full) if one is not None for end in (one.lo, one.hi)
        ]
        if not ends:
            return Said(WRENCH)
        return Said("torque wrench for {range}", range=Interval(min(ends), max(ends), "N m"))

    def _number(self) -> None:
        for count, section in enumerate(self.sections, start=1):
            section.number = count
            for place, step in enumerate(section.steps, start=1):
                step.number = f"{count}.{place}"

    def _bind(self) -> None:
        """What the check says of each step: stops and measurements that come first, cautions to mind."""
        cautioned: set[int] = set()
        waiting = self._measured()
        for step in self.steps():
            for finding in (*self.result.findings, *self.result.folded):
                if finding.accepted or not concerns(step, finding):
                    continue
                cause = finding.follows or finding
                if cause.verdict == STOP and cause.rule.slug not in step.settles:
                    number = str(self.stops.index(cause) + 1)
                    step.stops += [number] if number not in step.stops else []
                elif finding.verdict == MEASURE:
                    step.waits += [one for one in waiting.get(id(finding), []) if one not in step.waits]
                elif finding.verdict == CAUTION and id(finding) not in cautioned and not self._settled(finding):
                    cautioned.add(id(finding))
                    step.cautions.append(finding)
            step.stops.sort(key=int)
            step.waits.sort(key=lambda number: [int(piece) for piece in number.split(".")])

    def _settled(self, finding: Finding) -> bool:
        """Whether some step puts it right."""
        return any(finding.rule.slug in step.settles and set(finding.at) & set(step.at) for step in self.steps())

    def _measured(self) -> dict[int, list[str]]:
        """By the id of a finding: numbers of the measuring steps that decide it."""
        from partscheck.uses.measurements import measurements

        section = next((one for one in self.sections if one.key == "measure"), None)
        found: dict[int, list[str]] = {}
        if section is not None:
            for step, one in zip(section.steps, measurements(self.result), strict=True):
                for finding in one.decides:
                    found.setdefault(id(finding), []).append(step.number)
        return found


def bench_sheet(result: Result) -> BenchSheet:
    """The bench sheet of a checked list."""
    return BenchSheet(result)


def _sections(result: Result) -> list[Section]:
    """In the order in which the work is done: no seal before the bearing behind it, no hub before its brake."""
    return [
        measuring.section(result),
        drilling.section(result),
        threads.section(result),
        studs.section(result),
        joints.section(result),
        *hubs.all_sections(result),
        brakes.section(result),
        hubs.setting(result),
        wiring.section(result),
        wheels.section(result),
        checks.first_tow(result),
        checks.again(result),
    ]


__all__ = ["BenchSheet", "Said", "Section", "Step", "Torque", "bench_sheet"]
