"""Plates and tubes that bolts go through: crushed at the hole, torn out to the edge, holes too near it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import partial

from partscheck.build import fastener_data as data
from partscheck.build.joint_places import JOINT_LOAD_READS, JointPlace
from partscheck.build.joint_shares import SHARE_READS, bolt_shares, worst_of
from partscheck.formulas.joint_strength import bearing_strength, edge_against_tear_out, tear_out_strength
from partscheck.notation.interval import INF, Interval
from partscheck.rules.basis import practice, published, recalled
from partscheck.rules.check import Check, Remedy, at_least
from partscheck.rules.joint_bolts import MOST_BOLTS, THREAD_OF_BOLT_READS, in_order, loaded, shear_load
from partscheck.rules.registry import rule
from partscheck.rules.targets import no_less

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

AISC = published(
    "AISC 360, as worked in the Structural Steel Designer's Handbook p. 3.42 and the Handbook of Structural "
    "Steel Connection Design p. 43 (secondary copies read)"
)
OMEGA = recalled("safety 2.00 on the tensile strength: AISC 360; strengths of materials as the table says")
SHARED = practice("shock factor, shares of the bolts, and both walls of a tube at work alike")
TORN = (
    "A plate that tears lets go what it carries. Follow the part makers' instructions; changes to a frame, "
    "an arm or a coupler belong to a licensed welder or engineer."
)
THICKER_MOST = 4.0  # times the metal that is there: more is another part
METALS = ("steel", "stainless", "aluminum", "iron", "")
HOLE_FACTOR = 1.2  # the widest hole over its bolt that is reckoned with where it is not typed

LAYER_READS = (
    *THREAD_OF_BOLT_READS, *JOINT_LOAD_READS, *SHARE_READS, "bolted_joint.shear_planes", "service.surface",
    "bolted_joint.stack", "stack_item.name", "stack_item.gap", "stack_item.thickness", "stack_item.wall",
    "stack_item.material",
    "practice.plate_safety",
)  # fmt: skip


@rule(
    "plate-bearing",
    on=JointPlace,
    reads=LAYER_READS,
    basis=(AISC, OMEGA, SHARED),
    after=["thread-mismatch", "joint-eccentric"],
)
def plate_bearing(place: JointPlace) -> Iterator[Check]:
    """The wall of each hole bears what the worst bolt presses on it, with road shocks.

    Why: A thin wall gives way in front of the bolt; the hole becomes a slot, and the joint hammers.
    Formula: 2.4 d t Fu / 2 >= k V x share, t of a hollow layer both walls, Fu the layer's tensile strength;
        an outer layer of a fork takes one plane's part. A material that is not typed may be the weakest metal
        of the table.
    Remedy: Thicker metal or a plate welded on, larger or more bolts.
    Hazard: The plate tears.
    Wrong:
        service: {surface: gravel}
        parts:
          - {id: b, kind: bolt, size: 3/8-16 x 1 in, grade: 8}
        bolted_joints:
          - id: bracket
            bolt: b
            bolts: 2
            centred: true
            load: {shear: 2400 lb}
            stack: [{name: sheet, thickness: 1.5 mm, edge: 1 in, material: A36}]
    Right:
        service: {surface: gravel}
        parts:
          - {id: b, kind: bolt, size: 3/8-16 x 1 in, grade: 8}
        bolted_joints:
          - id: bracket
            bolt: b
            bolts: 2
            centred: true
            load: {shear: 2400 lb}
            stack: [{name: plate, thickness: 3/16 in, edge: 1 in, material: A36}]
    """
    if not place.first or not loaded(place, "shear"):
        return
    for number, item in enumerate(place.stack):
        if not _bears(place, item):
            continue
        check = at_least(_bearing(place, item), _pressed(place, number))
        yield (
            check.stop(
                "'{joint}': a bolt presses {need} on the wall of its hole in {layer} with road shocks; the "
                "wall bears {have} ({diameter} bolt, {metal} of metal): {by} too little.",
                joint=place.name, layer=_layer(item, number), diameter=place.diameter, metal=_metal(item),
            )
            .because("The hole grows long, and every reversal of the load hammers it longer.")
            .at(item, "wall" if item.says("wall") else "thickness")
            .fix(partial(_in_order, _thicker, place, item, check))
            .danger(TORN)
        )  # fmt: skip


@rule(
    "plate-tear-out",
    on=JointPlace,
    reads=[*LAYER_READS, "stack_item.edge", "stack_item.hole"],
    basis=(AISC, OMEGA, SHARED),
    after=["plate-bearing", "joint-eccentric"],
)
def plate_tear_out(place: JointPlace) -> Iterator[Check]:
    """The metal between each hole and the edge before it holds what the bolt pulls on it, with road shocks.

    Why: A bolt near an edge tears the metal out in front of it.
    Formula: 1.2 Lc t Fu / 2 >= k V x share, with the clear distance Lc = edge - hole / 2, from the rim of the
        hole; t of a hollow layer both walls.
    Remedy: The hole further from the edge, thicker metal, more bolts.
    Hazard: The plate tears.
    Wrong:
        service: {surface: gravel}
        parts:
          - {id: b, kind: bolt, size: 1/2-13 x 1 in, grade: 8}
        bolted_joints:
          - id: bracket
            bolt: b
            bolts: 1
            load: {shear: 1500 lb}
            stack: [{name: tab, thickness: 1/8 in, hole: 9/16 in, edge: 5/8 in, material: A36}]
    Right:
        service: {surface: gravel}
        parts:
          - {id: b, kind: bolt, size: 1/2-13 x 1 in, grade: 8}
        bolted_joints:
          - id: bracket
            bolt: b
            bolts: 1
            load: {shear: 1500 lb}
            stack: [{name: tab, thickness: 3/8 in, hole: 9/16 in, edge: 1 in, material: A36}]
    """
    if not place.first or not loaded(place, "shear"):
        return
    for number, item in enumerate(place.stack):
        if not _bears(place, item) or _breaks_out(place, item):
            continue
        load = _pressed(place, number)
        check = at_least(_tear_out(place, item), load)
        yield (
            check.stop(
                "'{joint}': a bolt pulls {need} on {layer} towards its edge with road shocks; the {clear} of "
                "metal between hole and edge holds {have}: {by} too little.",
                joint=place.name, layer=_layer(item, number), clear=_clear(place, item),
            )
            .because("Only the metal in front of the hole holds, not the distance of its centre.")
            .at(item, "edge")
            .fix(partial(_in_order, _further, place, item, check))
            .danger(TORN)
        )  # fmt: skip


@rule(
    "edge-distance",
    on=JointPlace,
    reads=[*THREAD_OF_BOLT_READS, "stack_item.name", "stack_item.edge", "stack_item.hole", "stack_item.material",
           "practice.edge_distance_least"],
    basis=(
        recalled("AISC 360, Tables J3.4 and J3.4M, least edge distance by bolt size"),
        practice("1.5 x bolt diameter for sizes that the table has not"),
    ),
    after=["plate-tear-out"],
)  # fmt: skip
def edge_distance(place: JointPlace) -> Iterator[Check]:
    """The centre of each hole stands at least the least edge distance of its bolt from the edge.

    Why: Near an edge the metal bulges and cracks when the hole is drilled or the bolt is tightened.
    Formula: edge >= the table's distance for the bolt (1 in for 3/4, published), else 1.5 x diameter; a stop
        where the hole runs out of the edge.
    Remedy: The hole further in; a smaller bolt if it is strong enough.
    Hazard: The plate tears.
    Wrong:
        parts:
          - {id: b, kind: bolt, size: 3/4-10 x 2 in}
        bolted_joints:
          - {id: bracket, bolt: b,
             stack: [{name: tab, thickness: 1/4 in, hole: 13/16 in, edge: 3/4 in}]}
    Right:
        parts:
          - {id: b, kind: bolt, size: 3/4-10 x 2 in}
        bolted_joints:
          - {id: bracket, bolt: b,
             stack: [{name: tab, thickness: 1/4 in, hole: 13/16 in, edge: 1 in}]}
    """
    if not place.first or place.bolt is None or not place.thread.known:
        return
    for number, item in enumerate(place.stack):
        if not item.says("edge") or not item.has("edge") or not _metal_layer(place, item):
            continue
        if _breaks_out(place, item):
            yield _runs_out(place, item, number)
            continue
        least, printed = _least_edge(place)
        check = at_least(item.edge, least).caution(
            "'{joint}': the hole in {layer} stands {have} from the edge, {need} is the least for this bolt: "
            "{by} too near.",
            joint=place.name, layer=_layer(item, number),
        )  # fmt: skip
        check.because("So near, the edge bulges and cracks, and the bolt may tear out.").at(item, "edge")
        if printed is not None:
            check.on_basis(printed)
        yield check.fix(partial(_moved, item, least))


def _runs_out(place: JointPlace, item: Any, number: int) -> Check:
    check = at_least(item.edge, _hole(place, item) * 0.5)
    return (
        check.stop(
            "'{joint}': the hole in {layer} has its centre {have} from the edge and is {hole} wide: it runs "
            "out of the metal.",
            joint=place.name, layer=_layer(item, number), hole=_hole(place, item),
        )
        .because("Nothing is left that could hold the bolt.")
        .at(item, "edge")
        .fix(lambda: [_move_hole(item, _least_edge(place)[0])])
        .danger(TORN)
    )  # fmt: skip


def _moved(item: Any, least: Interval) -> list[Remedy]:
    return [_move_hole(item, least)]


def _move_hole(item: Any, least: Interval) -> Remedy:
    return Remedy(
        "drill it {target} or more from the edge; if the part is made already, have it mended by a licensed "
        "welder before a new hole is drilled beside the old one",
        field=f"{item.id}.edge", relation="at least", target=least, operation="shop",
    )  # fmt: skip


# ---- what a layer is and takes -----------------------------------------------------------------


def _bears(place: JointPlace, item: Any) -> bool:
    """A layer of metal whose strength a table has, or may have."""
    if item.says("gap") or not _metal_layer(place, item):
        return False
    return not item.has("material") or data.material_strength(place.tables, item.material).known


def _metal_layer(place: JointPlace, item: Any) -> bool:
    return not item.has("material") or data.material_group(place.tables, item.material) in METALS


def _layer(item: Any, number: int) -> str:
    name = item.values["name"].value if item.says("name") else ""
    return f"'{name}'" if name else f"layer {number + 1}"


def _metal(item: Any) -> Interval:
    """Thickness that bears on the bolt, mm: of a hollow layer both walls."""
    return item.wall * 2.0 if item.says("wall") else item.thickness  # type: ignore[no-any-return]


def _pressed(place: JointPlace, number: int) -> Interval:
    """What the worst bolt presses on one layer, N: on an outer layer of a fork one plane's part."""
    load = shear_load(place) * worst_of(bolt_shares(place), "shear").shear
    planes, layers = int(place.planes.lo), [item for item in place.stack if not item.says("gap")]
    if planes == 1 or len(layers) <= planes:
        return load
    outer = place.stack[number] is layers[0] or place.stack[number] is layers[-1]
    return load * ((1.0 if outer else 2.0) / planes)


def _tensile(place: JointPlace, item: Any) -> Interval:
    return data.material_strength(place.tables, item.material).tensile


def _hole(place: JointPlace, item: Any) -> Interval:
    """As drilled; from the bolt's size to a wide clearance hole where it is not typed."""
    hole: Interval = item.hole
    size = place.diameter
    return hole if item.has("hole") else Interval(size.lo, size.hi * HOLE_FACTOR, "mm")


def _clear(place: JointPlace, item: Any) -> Interval:
    hole, edge = _hole(place, item), item.edge
    return Interval(0.0, edge.hi, "mm") if hole.hi == INF else (edge - hole * 0.5).clipped(0.0)


def _breaks_out(place: JointPlace, item: Any) -> bool:
    """The hole surely runs out of the edge: edge-distance says so."""
    return bool(item.has("edge") and item.edge.hi <= _hole(place, item).lo / 2)


def _bearing(place: JointPlace, item: Any) -> Interval:
    size, metal, strength = place.diameter, _metal(item), _tensile(place, item)
    safety = place.limits.plate_safety.clipped(1.0)
    return Interval(
        bearing_strength(size.lo, metal.lo, strength.lo, safety.hi),
        bearing_strength(size.hi, metal.hi, strength.hi, safety.lo),
        "N",
    )


def _tear_out(place: JointPlace, item: Any) -> Interval:
    clear, metal, strength = _clear(place, item), _metal(item), _tensile(place, item)
    safety = place.limits.plate_safety.clipped(1.0)
    return Interval(
        tear_out_strength(clear.lo, metal.lo, strength.lo, safety.hi),
        tear_out_strength(clear.hi, metal.hi, strength.hi, safety.lo),
        "N",
    )


def _least_edge(place: JointPlace) -> tuple[Interval, Any]:
    """(least distance in mm, its basis where a table prints it and says published)."""
    row = place.tables.row("edge_distance", data.size_name(place.tables, place.thread))
    if row is None:
        return place.diameter * place.limits.edge_distance_least, practice("1.5 x bolt diameter")
    told = row.get("basis") or {}
    basis = published(str(told["source"])) if told.get("kind") == "published" else None
    return Interval.exact(float(row["least_mm"]), "mm"), basis


def _in_order(remedies: Any, place: JointPlace, item: Any, check: Check) -> list[Remedy]:
    return in_order(remedies(place, item, check))


# ---- remedies ----------------------------------------------------------------------------------


def _thicker(place: JointPlace, item: Any, check: Check) -> Iterator[Remedy]:
    metal = _metal(item)
    if check.have.lo > 0 and metal.lo > 0:
        field = "wall" if item.says("wall") else "thickness"
        times = check.need.hi / check.have.lo
        each = no_less(metal.lo * times * (0.5 if field == "wall" else 1.0))
        if times <= THICKER_MOST:
            yield Remedy(
                "use metal {target} thick or more{walls}, or weld a plate on (a licensed welder, where the "
                "part carries the trailer)", walls=" in each wall" if field == "wall" else "",
                field=f"{item.id}.{field}", relation="at least", target=each,
            )  # fmt: skip
    yield from _spread(place, check)


def _further(place: JointPlace, item: Any, check: Check) -> Iterator[Remedy]:
    metal, strength = _metal(item), _tensile(place, item)
    hole = _hole(place, item)
    if metal.lo > 0 and strength.lo > 0 and check.need.hi < INF and hole.hi < INF:
        safety = place.limits.plate_safety.clipped(1.0).hi
        edge = edge_against_tear_out(check.need.hi, hole.hi, metal.lo, strength.lo, safety)
        yield _move_hole(item, no_less(max(edge, _least_edge(place)[0].hi)))
    yield from _thicker(place, item, check)


def _spread(place: JointPlace, check: Check) -> Iterator[Remedy]:
    if check.have.lo <= 0 or not place.count.is_exact or check.need.hi == INF:
        return
    if place.joint.has("load_at"):
        yield Remedy("or set the bolts further apart, or the load nearer to their middle", operation="shop")
        return
    more = math.ceil(place.count.lo * check.need.hi / check.have.lo)
    if more <= MOST_BOLTS:
        yield Remedy(
            "or use {target} such bolts in this layer", field=f"{place.joint.id}.bolts", relation="at least",
            target=more, operation="shop",
        )  # fmt: skip
    lighter = Interval.exact(place.load_shear.hi * check.have.lo / check.need.hi, "N")
    yield Remedy(
        "or let the joint carry no more than {target} across the bolts at rest",
        field=f"{place.joint.id}.load.shear", relation="at most", target=lighter, operation="declare",
    )  # fmt: skip
