"""Leaf springs and the U-bolts that hold the axle to them."""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build.places import Whole
from partscheck.notation.interval import Interval
from partscheck.rules.basis import practice
from partscheck.rules.check import Check, Remedy, all_of, at_least, at_most, equal_within
from partscheck.rules.registry import rule
from partscheck.rules.targets import no_less

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

AXLE_WALKS = (
    "An axle that comes loose from its springs swings under the trailer and takes it off the road. Follow the "
    "spring and axle makers' instructions; welding on an axle is work for a licensed shop."
)
EYE_PARTS = ("hanger", "shackle")


# ---- the spring in its hangers ----------------------------------------------------------------------


@rule(
    "spring-fit",
    on=Whole,
    reads=[
        "leaf-spring.eye", "leaf-spring.center_pin", "hanger.hole", "shackle.hole", "bolt.size", "bolt.mounts_on",
        "axle.spring_distance", "axle.seat_hole", "layout.hanger_distance", "practice.eye_bolt_gap_most",
        "practice.spring_seat_agreement", "practice.center_pin_gap_most",
    ],
    basis=practice("eye, hanger and shackle take one size of bolt; the axle's seats stand under the hangers"),
)  # fmt: skip
def spring_fit(whole: Whole) -> Iterator[Check]:
    """Leaf springs fit their hangers and shackles, and the axle's seats stand where the springs hang.

    Why: A bolt that is loose in its eye hammers it out of round; springs pulled sideways wear out their
        bushings; a loose centre pin lets the axle walk.
    Formula: |eye - hole| at most the practice gap, for each hanger and shackle, and for bolts with mounts_on: the
        spring, hanger or shackle; |spring_distance - hanger_distance| at most the practice limit; the hole of the
        spring seat takes the centre pin with at most the practice gap.
    Remedy: Springs, hangers and bolts of one size; hangers set to the axle's spring seats.
    Hazard: A loose axle steers the trailer.
    Wrong:
        - {kind: leaf-spring, eye: 9/16 in}
        - {kind: hanger, hole: 1/2 in}
    Right:
        - {kind: leaf-spring, eye: 9/16 in}
        - {kind: hanger, hole: 9/16 in}
        - {kind: shackle, hole: 9/16 in}
    """
    springs: list[Any] = whole.build.of_kind("leaf-spring")
    if not springs:
        return
    for spring in springs:
        yield from _eyes(whole, spring)
    yield from _bolts(whole, springs)
    for axle in whole.build.of_kind("axle"):
        yield from _seats(whole, axle)
        for spring in springs:
            yield from _pins(whole, axle, spring)


def _eyes(whole: Whole, spring: Any) -> Iterator[Check]:
    """The spring's eye against each hanger and shackle, once one of the two is typed."""
    for other in whole.build.of_kind(*EYE_PARTS):
        if not (spring.has("eye") or other.has("hole")):
            continue
        gap = whole.limits.eye_bolt_gap_most.hi
        check = equal_within(other.hole, spring.eye, gap).stop(  # type: ignore[attr-defined]
            "The eye of the {spring} takes a bolt of {need}, the hole of the {other} is {have}: one bolt does not "
            "fit both.", spring=spring, other=other,
        )  # fmt: skip
        check.because("A bolt that is loose in one of them hammers its hole out of round.").danger(AXLE_WALKS)
        check.fix(lambda spring=spring, other=other: [  # type: ignore[misc]
            Remedy("get a {kind} with a hole of {target}", field=f"{other.id}.hole", relation="equal to",
                   target=spring.eye, kind=other.title),
            Remedy("or springs with bushings for a bolt of {target}", field=f"{spring.id}.eye",
                   relation="equal to", target=other.hole),
        ])  # fmt: skip
        yield check.at(other, "hole").about(spring, other)


def _bolts(whole: Whole, springs: list[Any]) -> Iterator[Check]:
    """Bolts that say what they go through: mounts_on a spring, hanger or shackle."""
    holes = {part.id: (part, "eye") for part in springs}
    holes |= {part.id: (part, "hole") for part in whole.build.of_kind(*EYE_PARTS)}
    for bolt in whole.build.of_kind("bolt"):
        target = bolt.typed("mounts_on")
        found = holes.get(str(target.value)) if target is not None else None
        if found is None:
            continue
        part, field = found
        hole, size = getattr(part, field), bolt.size.thread.diameter  # type: ignore[attr-defined]
        gap = whole.limits.eye_bolt_gap_most.hi
        passes, tight = at_most(size, hole), at_least(size, hole - gap)
        check = all_of(passes, tight).stop(
            "The {bolt} is {size}; the " + ("eye" if field == "eye" else "hole") + " of the {part} is {hole}, "
            "and takes a bolt up to {gap} thinner.",
            bolt=bolt, size=bolt.size, part=part, hole=hole,  # type: ignore[attr-defined]
            gap=Interval.exact(gap, "mm"),
        )  # fmt: skip
        check.because("The bolt must go in, and must not rattle.").danger(AXLE_WALKS)
        check.fix(lambda hole=hole, bolt=bolt: [  # type: ignore[misc]
            Remedy("get bolts of {target}", field=f"{bolt.id}.size", relation="equal to", target=hole)
        ])  # fmt: skip
        yield check.at(bolt, "size").about(bolt, part)


def _seats(whole: Whole, axle: Any) -> Iterator[Check]:
    """The axle's spring seats under hangers that are there already."""
    layout = whole.build.layout
    if not layout.has("hanger_distance"):
        return
    agreement = whole.limits.spring_seat_agreement.hi
    check = equal_within(axle.spring_distance, layout.hanger_distance, agreement).stop(
        "The spring seats of the {axle} stand {have} apart, the hangers {need}.", axle=axle
    )
    check.because("The springs would be pulled sideways and wear out their eyes.").danger(AXLE_WALKS)
    check.fix(lambda: [
        Remedy("order the axle with spring seats {target} apart", field=f"{axle.id}.spring_distance",
               relation="equal to", target=layout.hanger_distance),
        Remedy("or set the hangers {target} apart, if the frame has metal there",
               field="layout.hanger_distance", relation="equal to", target=axle.spring_distance,
               operation="shop"),
    ])  # fmt: skip
    yield check.at(axle, "spring_distance").about(axle)


def _pins(whole: Whole, axle: Any, spring: Any) -> Iterator[Check]:
    """The head of the spring's centre bolt in the hole of the axle's seat, once the hole is typed."""
    if not axle.has("seat_hole"):
        return
    gap = whole.limits.center_pin_gap_most.hi
    enters = at_least(axle.seat_hole, spring.center_pin)
    snug = at_most(axle.seat_hole, spring.center_pin + gap)
    check = all_of(enters, snug)
    words = "does not enter it" if check is enters else "has more than {gap} of play in it"
    check.stop(
        "The seat of the {axle} has a hole of {hole}; the centre pin of the {spring}, {pin}, " + words + ".",
        axle=axle, hole=axle.seat_hole, spring=spring, pin=spring.center_pin, gap=Interval.exact(gap, "mm"),
    )  # fmt: skip
    check.because("The pin alone keeps the axle square under the trailer.").danger(AXLE_WALKS)
    check.fix(lambda: [
        Remedy("get springs with a centre pin of {target}", field=f"{spring.id}.center_pin",
               relation="equal to", target=axle.seat_hole)
    ])  # fmt: skip
    yield check.at(axle, "seat_hole").about(axle, spring)


# ---- U-bolts ----------------------------------------------------------------------------------------


@rule(
    "u-bolt-size",
    on=Whole,
    reads=[
        "u-bolt.mounts_on", "u-bolt.inside", "u-bolt.length", "u-bolt.thread", "axle.tube", "axle.tube_section",
        "leaf-spring.height", "practice.u_bolt_gap_most", "practice.u_bolt_tight_most",
        "practice.u_bolt_plates",
    ],
    basis=practice("a U-bolt is as wide inside as its axle tube, and ends past its nuts"),
)  # fmt: skip
def u_bolt_size(whole: Whole) -> Iterator[Check]:
    """U-bolts go over the axle tube without play, and their legs are long enough for springs, plate and nut.

    Why: A U-bolt that is too wide bends its legs in when it is tightened, and loses its clamp; one that is too
        short leaves thread of the nut empty.
    Formula: tube <= inside <= tube + the practice gap (narrower by the practice limit counts as equal by name);
        length >= tube + leaves + spring seat and tie plate + nut (1 x the thread's diameter) + 2 pitches.
    Remedy: U-bolts for this tube, new ones: they are used once.
    Hazard: The axle comes loose.
    Wrong:
        - {kind: axle, tube: 2-3/8 in}
        - {kind: u-bolt, inside: 3 in, thread: 1/2-20}
    Right:
        - {kind: axle, tube: 2-3/8 in}
        - {kind: u-bolt, inside: 60 mm, thread: 1/2-20}
    """
    axles: list[Any] = whole.build.of_kind("axle")
    for bolt in whole.build.of_kind("u-bolt"):
        target = bolt.typed("mounts_on")
        named = [axle for axle in axles if target is not None and axle.id == target.value]
        for axle in named or axles:
            yield _inside(whole, bolt, axle)
            if bolt.has("length"):
                yield _legs(whole, bolt, axle)


def _across(axle: Any) -> Interval:
    """The tube between the legs of a U-bolt, mm: front to rear where it is a rectangle."""
    return axle.tube_section.width if axle.has("tube_section") else axle.tube  # type: ignore[no-any-return]


def _upright(axle: Any) -> Interval:
    return axle.tube_section.height if axle.has("tube_section") else axle.tube  # type: ignore[no-any-return]


def _inside(whole: Whole, bolt: Any, axle: Any) -> Check:
    limits, tube, inside = whole.limits, _across(axle), bolt.inside
    over = at_least(inside, tube - limits.u_bolt_tight_most.hi)
    snug = at_most(inside, tube + limits.u_bolt_gap_most.hi)
    check = all_of(over, snug)
    words = "does not go over it" if check is over else "is too wide for it: at most {need}"
    return (
        check.stop(
            "The tube of the {axle} is {tube} across; the {bolt}, {have} inside, " + words + ".",
            axle=axle, tube=tube, bolt=bolt,
        )
        .because("Only legs that stand straight beside the tube clamp it.")
        .fix(lambda: [
            Remedy("get U-bolts of {target} inside", field=f"{bolt.id}.inside", relation="equal to", target=tube)
        ])
        .danger(AXLE_WALKS)
        .at(bolt, "inside")
        .about(bolt, axle)
    )  # fmt: skip


def _legs(whole: Whole, bolt: Any, axle: Any) -> Check:
    """Length of the legs against tube, leaves, plates and nut."""
    springs: list[Any] = whole.build.of_kind("leaf-spring")
    leaves = springs[0].height if springs else Interval.exact(0.0, "mm")
    for spring in springs[1:]:
        leaves = leaves.hull(spring.height)
    thread = bolt.thread
    nut = thread.diameter + thread.pitch * 2
    plates = Interval.exact(whole.limits.u_bolt_plates.hi, "mm")
    need = _upright(axle) + leaves + plates + nut
    check = at_least(bolt.length, need)
    over = "tube, leaves, plates and nut" if springs else "tube, plates and nut alone, without any leaves,"
    return (
        check.stop(
            "The legs of the {bolt} are {have} long; " + over + " take {need}: too short by {by}.", bolt=bolt
        )
        .because("A nut that is not full of thread strips or works loose.")
        .fix(lambda: [
            Remedy("get U-bolts at least {target} long inside the bend" if need.known else
                   "get U-bolts longer than {target} by what is not measured yet, mostly the leaves",
                   field=f"{bolt.id}.length", relation="at least",
                   target=no_less(need.hi if need.known else need.lo))
        ])
        .danger(AXLE_WALKS)
        .at(bolt, "length")
        .about(bolt, axle, *springs)
    )  # fmt: skip
