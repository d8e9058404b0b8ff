"""The tongue's tube: bending where it is first held."""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build.places import Whole
from partscheck.build.weights import AXLE_LOAD_READS, in_its_case, shock_factor
from partscheck.formulas.tube import cantilever_moment, height_needed, section_modulus, tube_stress, wall_needed
from partscheck.notation.interval import INF, Interval
from partscheck.rules.basis import practice, recalled
from partscheck.rules.check import AT_LEAST, AT_MOST, Check, Remedy, at_most
from partscheck.rules.less_weight import tongue_down
from partscheck.rules.registry import rule
from partscheck.rules.targets import no_less, no_more

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

FIELDS = ("section", "wall", "free_length", "material")
TEARS_OFF = (
    "A tongue that bends or cracks lets the trailer go at speed. Welding, drilling and strengthening a tongue "
    "is a matter for a licensed shop, the coupler maker's instructions and local codes."
)
YIELDING = ("steel", "aluminum", "stainless")


@rule(
    "tongue-bending",
    on=Whole,
    reads=[
        "layout.tongue", *(f"tongue.{name}" for name in FIELDS), *AXLE_LOAD_READS, "service.surface",
        "practice.tongue_bending_safety",
    ],
    basis=(
        recalled("bending stress M / S of any strength handbook; yield values of steels and aluminum"),
        practice("shock factor of the surface; yield twice the stress; corners 2 walls round (recalled, AISC)"),
    ),
)  # fmt: skip
def tongue_bending(whole: Whole) -> Check | None:
    """The tongue's tube does not bend where it is first held, with road shock on the tongue weight.

    Why: All of the tongue weight hangs on the tongue's free length; where that ends, at the first crossmember, it
        bends most, and there the welds and bolt holes are too.
    Formula: M = k T L, T the greatest tongue weight of all load cases, L the free length, k the shock factor of
        the surface; stress = M / S, S the section modulus of the tube, corners round as mills make them. Against
        yield / 2. One straight tube is taken to carry all; of two tubes each carries less. Side loads, braking,
        welds, holes, rust and fatigue are not checked. Looked at once a field of `tongue` besides its section is
        typed.
    Remedy: A shorter free length, a thicker wall, or a taller tube.
    Hazard: A tongue that breaks lets the trailer go.
    Wrong:
        service: {gross_weight: 3500 lb, tongue_weight: 450 lb, surface: off-road}
        layout: {tongue: {section: 2 x 2 in, wall: 1/8 in, free_length: 60 in, material: A500 B}}
        parts: []
    Right:
        service: {gross_weight: 2600 lb, tongue_weight: 300 lb, surface: gravel}
        layout: {tongue: {section: 3 x 3 in, wall: 3/16 in, free_length: 40 in, material: A500 B}}
        parts: []
    """
    tongue: Any = whole.build.layout.tongue
    if not any(tongue.says(name) for name in ("wall", "free_length", "material")):
        return None  # a section alone is typed for the coupler's channel
    load, shock = whole.weights.greatest_tongue(), shock_factor(whole.build)
    moment, modulus = _moment(load, tongue.free_length, shock), _modulus(tongue)
    check = at_most(_stress(moment, modulus), _yield(whole, tongue) / whole.limits.tongue_bending_safety.hi)
    return (
        check.caution(
            "The tongue weight of {load}{case}, counted {shock} times for road shock, on {length} of free tongue "
            "bends its tube of {section} with a wall of {wall} to {have} at the first crossmember; the yield "
            "strength of its {material} over {safety} is {need}: {by} too much.",
            load=load, case=in_its_case(load), shock=shock, length=tongue.free_length, section=tongue.section,
            wall=tongue.wall, material=str(tongue.material), safety=whole.limits.tongue_bending_safety,
        )
        .because(
            "The rest of the strength is left for side loads, braking, welds and holes, which are not reckoned "
            "here. It is a screening of one section, not of the frame."
        )
        .fix(lambda: _stiffer(whole, tongue, moment, check, load))
        .danger(TEARS_OFF)
        .at(tongue, "wall" if tongue.has("wall") else "free_length")
        .about()
    )  # fmt: skip


def _moment(load: Interval, length: Interval, shock: Interval) -> Interval:
    return Interval(
        cantilever_moment(max(0.0, load.lo), length.lo, shock.lo),
        cantilever_moment(max(0.0, load.hi), length.hi, shock.hi),
        "N m",
    )


def _modulus(tongue: Any) -> Interval:
    """Section modulus of the tube, mm3: it rises with height, width and wall."""
    section, wall = tongue.section, tongue.wall
    ends = []
    for height, width, thick in (
        (section.height.lo, section.width.lo, wall.lo), (section.height.hi, section.width.hi, wall.hi)
    ):  # fmt: skip
        ends.append(section_modulus(height, width, thick) if min(height, width, thick) > 0 else 0.0)
    return Interval(ends[0], ends[1], "mm3")


def _stress(moment: Interval, modulus: Interval) -> Interval:
    least = 0.0 if modulus.hi == INF else tube_stress(moment.lo, modulus.hi) if modulus.hi > 0 else 0.0
    if moment.hi == INF or modulus.lo <= 0:
        return Interval(least, INF, "MPa")
    return Interval(least, tube_stress(moment.hi, modulus.lo), "MPa")


def _yield(whole: Whole, tongue: Any) -> Interval:
    """Yield of the tube's material, MPa; where it is not known, from the weakest metal to the strongest."""
    rows = whole.tables.rows("material")
    name = tongue.material
    if tongue.has("material"):
        row = whole.tables.row("material", name)
        if row is not None and row.get("yield_mpa"):
            return Interval.exact(row["yield_mpa"], "MPa")
    found = [row["yield_mpa"] for row in rows if row["group"] in YIELDING and row.get("yield_mpa")]
    return Interval(min(found), max(found), "MPa")


def _stiffer(whole: Whole, tongue: Any, moment: Interval, check: Check, load: Interval) -> Iterator[Remedy]:
    """What one of the four would have to be, the others as they are."""
    share = check.need.lo / check.have.hi if 0 < check.have.hi < INF else 0.0
    section = tongue.section
    needed = moment.hi * 1000 / check.need.lo
    if tongue.has("section") and moment.known:
        wall = wall_needed(section.height.lo, section.width.lo, needed)
        if wall < INF:
            yield Remedy(
                "take the same tube with a wall of at least {target}", "tongue.wall", AT_LEAST, no_less(wall)
            )
        if tongue.has("wall"):
            tall = no_less(height_needed(section.width.lo, tongue.wall.lo, needed))
            yield Remedy(
                "or take a tube at least {tall} high, as wide and with the same wall", "tongue.section", AT_LEAST,
                tall, tall=tall,
            )  # fmt: skip
    if tongue.free_length.known and share:
        short = no_more(tongue.free_length.lo * share)
        yield Remedy(
            "or fix the tongue to a crossmember farther ahead: at most {target} from the ball's centre",
            "tongue.free_length", AT_MOST, short, "shop",
        )  # fmt: skip
    if share:
        most = load * share
        yield tongue_down(
            whole.weights, most, "or keep to a tongue weight of at most {most}{case}, if that is enough for it to "
            "tow steadily", in_its_case(load),
        )  # fmt: skip
