"""What is to be measured before any metal is cut: what the check waits for."""

from __future__ import annotations

from partscheck.notation.interval import Interval
from partscheck.rules.basis import practice
from partscheck.rules.check import AT_LEAST
from partscheck.uses.measurements import measurements
from partscheck.uses.shop.sheet import Bound, Said, Section, Step

TYPE_CHECKING = False
if TYPE_CHECKING:
    from partscheck.engine import Result
    from partscheck.uses.measurements import Measurement

HOW = practice("how to take a measure, and how exactly it can be taken at home")
# Words of the measuring instructions, and the tool that they ask for.
TOOLS = (
    ("micrometer", "micrometer"),
    ("caliper", "caliper"),
    ("depth rod", "caliper with a depth rod"),
    ("thread gauge", "thread pitch gauge"),
    ("straightedge", "straightedge"),
    ("tape", "tape measure"),
    ("plumb", "plumb line"),
    ("rule ", "steel rule"),
    ("bathroom scale", "bathroom scale"),
    ("radius gauge", "radius gauges"),
    ("protractor", "protractor"),
    ("ammeter", "ammeter"),
)


def section(result: Result) -> Section:
    steps = [_step(one) for one in measurements(result)]
    intro = Said("What the check could not tell without these; then type them in your list and check again.")
    return Section("measure", "Measure first", steps, (intro,))


def _step(one: Measurement) -> Step:
    record = one.record
    step = Step("measure {name}: {meaning}.", at=_places(one), name=one.name, meaning=one.meaning)
    step.parts = (record,) if getattr(record, "kind", "") else ()
    if one.how:
        step.more(one.how.replace("{", "{{").replace("}", "}}"))
    if one.accuracy is not None:
        step.more("as exact as {accuracy}.", accuracy=one.accuracy)
    for slug, relation, bound in one.bounds:
        step.more(
            "it holds with {relation} {bound} ({slug}).",
            slug=slug,
            relation=relation or "exactly",
            bound=_bound(bound, relation),
        )
    rest = [slug for slug in one.slugs if slug not in {bound[0] for bound in one.bounds}]
    if rest:
        step.more("it decides: {rest}.", rest=", ".join(rest))
    text = one.how.lower()
    step.take(*(tool for word, tool in TOOLS if word in text))
    step.by(HOW)
    for finding in one.decides:
        step.by(*finding.basis)
    return step


def _bound(bound: Interval, relation: str) -> object:
    """The value that decides, rounded to the safe side."""
    return Bound(bound, relation == AT_LEAST) if relation else bound


def _places(one: Measurement) -> tuple[str, ...]:
    return tuple(dict.fromkeys(place for finding in one.decides for place in finding.at))
