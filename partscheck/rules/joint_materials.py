"""What is clamped and what it is made of: hollow, soft, or of metals that eat each other."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from partscheck.build import fastener_data as data
from partscheck.build.joint_places import JointPlace
from partscheck.notation.interval import Interval
from partscheck.notation.words import UNKNOWN_WORD
from partscheck.rules.basis import practice, recalled
from partscheck.rules.check import Check, Remedy, certainly, same
from partscheck.rules.registry import rule

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

CLAMPED_SOLID = practice("what a bolt clamps is solid: a sleeve in a tube, nothing soft in the stack")
METALS = recalled("galvanic series in sea water, as in MIL-STD-889; road salt is near enough")
HYDROGEN = recalled("ISO 4042, ASTM F1941: electroplated parts of 39 HRC and harder are at risk")
SOFT = ("wood", "plywood", "rubber", "plastic")
PLATED = ("zinc", "yellow zinc", "hot-dip galvanized", "cadmium", "chrome", "nickel")
EATEN = {("stainless", "aluminum"): "aluminum", ("steel", "stainless"): "bolt"}  # (bolt, layer): what goes
SOLID = 1.05  # of twice the wall: a layer no thicker than that is not hollow


# ---- hollow ------------------------------------------------------------------------------------


@rule(
    "tube-crushes",
    on=JointPlace,
    reads=["stack_item.thickness", "stack_item.wall", "stack_item.gap", "stack_item.sleeve"],
    basis=CLAMPED_SOLID,
)
def tube_crushes(place: JointPlace) -> Iterator[Check]:
    """A bolt that goes through a hollow tube or across a gap has a sleeve inside to clamp against.

    Why: The walls bend inward before the bolt is tight; later they spring, and the preload is gone.
    Formula: a layer with `wall` thinner than half its thickness, or a `gap`, has `sleeve: true`.
    Remedy: A sleeve as long as the inside is wide; a snug torque and a lock nut where there is none.
    Wrong:
        parts:
          - {id: b, kind: bolt, size: 1/2-13 x 3 in}
        bolted_joints:
          - {id: bracket, bolt: b, stack: [{thickness: 3/8 in}, {thickness: 2 in, wall: 3/16 in}]}
    Right:
        parts:
          - {id: b, kind: bolt, size: 1/2-13 x 3 in}
        bolted_joints:
          - {id: bracket, bolt: b, stack: [{thickness: 2 in, wall: 3/16 in, sleeve: true}]}
    """
    if not place.first:
        return
    for item in place.stack:
        inside = _inside(item)
        if inside is None:
            continue
        told = item.says("sleeve")
        sleeved = item.sleeve if told else False
        check = certainly(sleeved).caution(
            "'{joint}': the bolt goes through {layer}, {inside} of empty space, with no sleeve in it: "
            "tightening it bends the walls together.",
            joint=place.name, layer=_layer(item), inside=inside,
        )  # fmt: skip
        check.because("The bolt never gets its preload, or loses it as the walls go on bending.")
        check.at(item, "wall" if item.has("wall") else "gap").about(place.bolt)
        yield check.fix(lambda item=item, inside=inside: _sleeve(place, item, inside))  # type: ignore[misc]


def _inside(item: Any) -> Interval | None:
    """The empty space that the bolt crosses, mm; None in a solid layer."""
    if item.has("gap") and not item.has("thickness"):
        return item.gap if item.gap.lo > 0 else None
    if not (item.has("wall") and item.has("thickness")) or item.thickness.hi <= 2 * item.wall.lo * SOLID:
        return None
    return (item.thickness - item.wall * 2.0).clipped(0.0)  # type: ignore[no-any-return]


def _sleeve(place: JointPlace, item: Any, inside: Interval) -> Iterator[Remedy]:
    bore = place.diameter if place.clearance is None else place.clearance.least("normal")
    yield Remedy(
        "put a steel sleeve into it, bored {bore}, {target} long, ends square, thick enough not to buckle",
        field=f"{item.id}.sleeve", relation="equal to", target=inside, operation="add", bore=bore,
    )  # fmt: skip
    yield Remedy(
        "or tighten only until the parts are snug, with a lock nut, where the bolt works in shear alone",
        field=f"{place.joint.id}.torque", operation="shop",
    )
    yield Remedy("or bolt to one wall, or to a plate welded on by a licensed welder", operation="shop")


# ---- soft --------------------------------------------------------------------------------------


@rule("soft-in-stack", on=JointPlace, reads=["stack_item.material", "stack_item.coated"], basis=CLAMPED_SOLID)
def soft_in_stack(place: JointPlace) -> Iterator[Check]:
    """Nothing soft lies between head and nut: no wood, rubber, plastic or thick coating.

    Why: Soft layers creep, and the preload with them: the joint is loose after a week.
    Formula: no layer of wood, plywood, rubber or plastic, and no powder coat on the faces that meet; paint is
        noted.
    Remedy: Metal faces, masked before they are coated; large washers or a sleeve in wood; tighten again.
    Wrong:
        parts:
          - {id: b, kind: bolt, size: 3/8-16 x 3 in}
        bolted_joints:
          - {id: deck, bolt: b, stack: [{thickness: 1 in, material: wood}, {thickness: 1/4 in}]}
    Right:
        parts:
          - {id: b, kind: bolt, size: 3/8-16 x 3 in}
        bolted_joints:
          - {id: deck, bolt: b, stack: [{thickness: 1/4 in, material: A36}, {thickness: 1/4 in}]}
    """
    if not place.first:
        return
    for item in place.stack:
        if item.has("material"):
            yield _soft_layer(place, item)
        if item.has("coated"):
            yield _soft_coat(place, item)


def _soft_layer(place: JointPlace, item: Any) -> Check:
    material = item.material
    check = same(material not in SOFT, material, "metal").caution(
        "'{joint}': {layer} is {have}, which gives way under the bolt: it does not stay tight.",
        joint=place.name, layer=_layer(item),
    )  # fmt: skip
    check.because("Soft layers creep, and the preload goes with them.")
    check.at(item, "material").about(place.bolt)
    return check.fix(lambda: [
        Remedy("put a sleeve or a steel spacer through it, as thick as the layer, so that metal clamps metal",
               field=f"{item.id}.sleeve", operation="add"),
        Remedy("or large plate washers on it, a lock nut, no more than snug, and tighten again after a week",
               field=f"{place.joint.id}.washers", operation="add"),
    ])  # fmt: skip


def _soft_coat(place: JointPlace, item: Any) -> Check:
    coat = item.coated
    if coat == "paint":
        return certainly().note(
            "'{joint}': {layer} is painted where it is clamped: thin paint settles a little, so tighten "
            "again after the first drive.",
            joint=place.name, layer=_layer(item),
        ).at(item, "coated").about(place.bolt)  # fmt: skip
    check = same(coat != "powder", coat, "bare").caution(
        "'{joint}': {layer} has powder coat on the faces that are clamped: it is thick and creeps.",
        joint=place.name, layer=_layer(item),
    )
    check.because("The coat flows out under head and nut, and the preload goes with it; it is slippery too.")
    check.at(item, "coated").about(place.bolt)
    return check.fix(lambda: [
        Remedy("sand the coat off where the parts meet and under head and nut; touch up with thin primer",
               field=f"{item.id}.coated", relation="equal to", target="bare", operation="shop"),
        Remedy("or leave it, and tighten again after the first drive, the first week and the first months",
               operation="shop"),
    ])  # fmt: skip


# ---- metals ------------------------------------------------------------------------------------


@rule(
    "dissimilar-metals",
    on=JointPlace,
    reads=["bolt.finish", "bolt.grade", "bolt.size", "stud.grade", "stud.thread", "stud.length",
           "wheel-bolt.grade", "wheel-bolt.thread", "wheel-bolt.length", "u-bolt.grade", "u-bolt.thread",
           "u-bolt.length", "stack_item.material", "stack_item.coated"],
    basis=METALS,
)  # fmt: skip
def dissimilar_metals(place: JointPlace) -> Iterator[Check]:
    """Metals that touch in a joint do not eat each other: no stainless on aluminum, no bare steel on either.

    Why: Wet and salted, the less noble metal dissolves where two metals touch, the smaller piece first.
    Formula: aluminum not against steel or stainless while both are bare; no stainless bolt in aluminum; no
        plain or zinc plated bolt in stainless. Zinc plated bolts in aluminum, and stainless bolts in steel,
        are usual.
    Remedy: A coat, a plastic washer and sleeve, or grease between the two; bolts of the right metal.
    Wrong:
        parts:
          - {id: b, kind: bolt, size: 3/8-16 x 1 in, grade: 18-8}
        bolted_joints:
          - {id: fender, bolt: b, stack: [{thickness: 1/8 in, material: 6061-T6}, {thickness: 1/8 in}]}
    Right:
        parts:
          - {id: b, kind: bolt, size: 3/8-16 x 1 in, grade: 18-8}
        bolted_joints:
          - {id: fender, bolt: b, stack: [{thickness: 1/8 in, material: A36}, {thickness: 1/8 in}]}
    """
    if place.bolt is None:
        return
    named = [item for item in place.stack if item.has("material")]
    metals = [(item, data.material_group(place.tables, item.material)) for item in named]
    bolt = _bolt_metal(place)
    for item, metal in metals:
        if bolt and metal in ("steel", "stainless", "aluminum"):
            yield _bolt_pair(place, item, bolt, metal, EATEN.get((bolt, metal), ""))
    if place.first:
        yield from _layer_pairs(place, metals)


def _bolt_metal(place: JointPlace) -> str:
    """stainless or steel; "" when neither grade nor finish tells."""
    finish = place.bolt.finish if place.bolt.kind == "bolt" and place.bolt.has("finish") else ""
    if finish == "stainless" or place.grade.system == "stainless":
        return "stainless"
    return "steel" if finish or place.grade.system else ""


def _bolt_pair(place: JointPlace, item: Any, bolt: str, metal: str, eaten: str) -> Check:
    check = certainly(not eaten).caution(
        "'{joint}': a {metal} bolt in {layer}, which is {other}: where it is wet, the {eaten} corrodes.",
        joint=place.name, metal=bolt, layer=_layer(item), other=metal, eaten=eaten,
    )  # fmt: skip
    check.because("The less noble metal dissolves where the two touch.")
    check.at(item, "material").about(place.bolt)
    return check.fix(lambda: _keep_apart(place, metal))


def _keep_apart(place: JointPlace, metal: str) -> Iterator[Remedy]:
    if metal == "stainless":
        yield Remedy("use stainless bolts (A2-70 or better), and look at their strength again",
                     field=f"{place.bolt.id}.finish", relation="equal to", target="stainless")  # fmt: skip
    yield Remedy(
        "keep the two apart: a plastic washer and sleeve, or zinc paste on thread and faces, renewed every "
        "year",
        operation="shop",
    )
    if metal == "aluminum":
        yield Remedy("or use zinc plated bolts, which corrode in its stead and are cheap to change",
                     field=f"{place.bolt.id}.finish", relation="equal to", target="zinc")  # fmt: skip


def _layer_pairs(place: JointPlace, metals: list[tuple[Any, str]]) -> Iterator[Check]:
    """Neighbours of which one is aluminum and the other steel or stainless, both bare."""
    order = {id(item): number for number, item in enumerate(place.stack)}
    for (first, one), (second, other) in pairwise(metals):
        if order[id(second)] - order[id(first)] != 1 or "aluminum" not in (one, other) or one == other:
            continue
        if not {one, other} & {"steel", "stainless"}:
            continue
        apart = any(item.has("coated") and item.coated != "bare" for item in (first, second))
        check = certainly(apart).caution(
            "'{joint}': {first} ({one}) lies bare on {second} ({other}): where it is wet, the aluminum "
            "corrodes.",
            joint=place.name, first=_layer(first), one=one, second=_layer(second), other=other,
        )  # fmt: skip
        check.because("The less noble metal dissolves where the two touch.")
        check.at(second, "material").about(place.bolt)
        yield check.fix(lambda second=second: [  # type: ignore[misc]
            Remedy("prime both faces, or lay a thin plastic film or sealant between them",
                   field=f"{second.id}.coated", relation="equal to", target="primer", operation="shop"),
        ])  # fmt: skip


# ---- plating -----------------------------------------------------------------------------------


@rule(
    "plated-high-strength",
    on=JointPlace,
    reads=["bolt.finish", "bolt.grade", "bolt.size", "bolt.head", "practice.embrittlement_tensile"],
    basis=HYDROGEN,
)
def plated_high_strength(place: JointPlace) -> Check | None:
    """Bolts of class 12.9 and harder are not electroplated or galvanized.

    Why: Hydrogen from the bath makes very hard steel brittle: the head comes off hours or days after
        tightening.
    Formula: plated and least tensile strength >= 1200 MPa (practice: 12.9, A574). Zinc plated grade 8 and
        10.9 are ordinary goods and fine.
    Remedy: Plain or black bolts, zinc flake; or grade 8 or 10.9.
    Hazard: The bolt breaks at rest, without a load.
    Wrong:
        parts:
          - {id: b, kind: bolt, size: M10 x 40, grade: 12.9, finish: zinc}
        bolted_joints:
          - {id: bracket, bolt: b}
    Right:
        parts:
          - {id: b, kind: bolt, size: M10 x 40, grade: 10.9, finish: zinc}
        bolted_joints:
          - {id: bracket, bolt: b}
    """
    bolt = place.bolt
    if bolt is None or bolt.kind != "bolt" or not bolt.says("finish") or not place.strength.known:
        return None
    hard = place.strength.tensile.lo >= place.limits.embrittlement_tensile.lo
    plated = None if bolt.finish is UNKNOWN_WORD else bolt.finish in PLATED
    check = same(True if not hard else None if plated is None else not plated, bolt.finish).caution(
        "'{joint}': the {bolt} is {mark} and {have} coated: steel as hard as that turns brittle in the bath.",
        joint=place.name, bolt=bolt, mark=place.grade,
    )  # fmt: skip
    check.because("Hydrogen goes into the steel; the head may come off days later, without a load.")
    check.at(bolt, "finish").about(bolt)
    check.danger("A bolt that breaks at rest gives no sign: do not use it for a wheel, an axle, an arm or the "
                 "coupler.")  # fmt: skip
    return check.fix(lambda: _not_plated(place))


def _not_plated(place: JointPlace) -> Iterator[Remedy]:
    weaker = "grade 8" if place.thread.inch else "class 10.9"
    yield Remedy("use plain, black or zinc flake bolts of this class", field=f"{place.bolt.id}.finish",
                 relation="equal to", target="zinc flake")  # fmt: skip
    yield Remedy("or zinc plated bolts of {weaker}, one size larger if the strength asks for it",
                 field=f"{place.bolt.id}.grade", relation="at most", target=weaker,
                 weaker=weaker)  # fmt: skip


def _layer(item: Any) -> str:
    """A layer in a sentence: "the frame tube", "layer 2"."""
    name = str(item.id).rpartition(" / ")[2]
    return name if name.startswith("layer ") else f"the {name}"
