"""Studs that stand out of an adapter's face: cut them to length, or say why not."""

from __future__ import annotations

from partscheck.build.places import LugSet
from partscheck.build.stud_data import stud_count
from partscheck.rules.adapter_studs import HELD_OFF
from partscheck.rules.basis import practice
from partscheck.rules.findings import MEASURE, STOP
from partscheck.uses.shop.sheet import Bound, Said, Section, Step

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import Any

    from partscheck.engine import Result
    from partscheck.rules.check import Remedy
    from partscheck.rules.findings import Finding

SLUG = "stud-above-adapter-face"
# Before metal is cut off, all that could change hub, adapter or wheel.
FIRST = ("plate_stacks", "adapter_plates", "adapter_studs", "load_plane", "shares", "spindles", "bearing_loads")
THESE_STUDS = ("bolt_circles", "pilots", "lugs", "lug_threads")  # only where hub and plate are both meant
CUTTING = practice("cutting a stud to length, and cleaning its thread with a nut")
HAZARD = (
    "Sparks set grease and fuel on fire, a cutting disc can burst: face shield, no fuel near, hub clamped down. "
    "Keep the studs cool enough to touch; heat takes their strength. What is cut off does not grow back: some "
    "hub makers "
    "and some places forbid cut studs, ask first. " + HELD_OFF
)


def section(result: Result) -> Section:
    found = [*result.findings, *result.folded]
    steps = [
        step
        for finding in found
        if finding.rule.slug == SLUG and finding.verdict in (STOP, MEASURE)
        for step in _steps(result, finding)
    ]
    return Section("trim", "Trim studs", steps, (), HAZARD, (CUTTING,))


def _steps(result: Result, finding: Finding) -> Iterator[Step]:
    remedies = list(finding.check.remedies()) if finding.check.remedies is not None else []
    trim = next((one for one in remedies if one.operation == "shop" and "off" in one.values), None)
    if trim is not None:
        yield _trim(result, finding, trim)
    elif finding.verdict == STOP:
        base = finding.parts[0]
        yield (
            Step(
                "do not cut the studs of the {base}: too little thread would be left for their nuts.",
                finding.parts,
                finding.at,
                base=base,
            )
            .more("The stop above says what helps instead.")
            .by(*finding.basis)
            .minds(*FIRST, closely=THESE_STUDS)
        )


def _trim(result: Result, finding: Finding, trim: Remedy) -> Step:
    base, target = finding.parts[0], trim.target
    surely = finding.verdict == STOP
    count = _count(result, finding)
    step = Step(
        ("" if surely else "only if they prove longer than allowed: ")
        + "trim the studs of the {base} to {target}, from the face of the {base} to their end"
        + (": {count} at each of {places}." if count else "."),
        finding.parts,
        finding.at,
        base=base,
        target=Bound(target),
        count=f"{count} studs",
        places=", ".join(finding.at),
    )
    values = trim.values
    if surely:
        step.more("That takes {off} off.", off=values["off"])
        if values["stays"].lo >= values["needed"].hi:
            step.more(
                "{stays} of thread is then left for the nut; {needed} is needed.",
                stays=values["stays"],
                needed=values["needed"],
            )
        else:
            step.more(
                "{needed} of thread must be left for the nut: at most {seat} of metal may lie under it. Measure "
                "that before you cut.",
                needed=values["needed"],
                seat=Bound(values["seat"]),
            )
    step.more(
        "Measure each stud first. Run a nut down past the mark. Cut with a hacksaw or a thin disc. File the end "
        "square, then a bevel all round."
    )
    step.more(
        "Run the nut off over the cut: that cleans the last thread. A second nut then goes on with the fingers."
    )
    step.more("Measure every stud again, paint the cut, and type the new stud_length in your list.")
    step.take("hacksaw or thin cutting disc, face shield", "file", "caliper with a depth rod", _spare_nut(base))
    return step.by(*finding.basis, CUTTING).minds(*FIRST, closely=THESE_STUDS, settles=(SLUG,))


def _count(result: Result, finding: Finding) -> int | None:
    for lugs in result.fit.bindings(LugSet):
        if lugs.hub_side and lugs.base is finding.parts[0] and set(lugs.at) & set(finding.at):
            return stud_count(lugs)
    return None


def _spare_nut(base: Any) -> Said:
    if base.has("stud_thread"):
        return Said("old nut {thread} to clean the cut threads", thread=base.stud_thread.callout)
    return Said("old nut of the studs' thread to clean the cut threads")
