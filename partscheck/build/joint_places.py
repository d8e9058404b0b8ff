"""The bolted joints of a list, as places that rules bind to: bolt, nut or tapped hole, washers, stack, load.

A joint that names several lines of bolts is several places, one for each line; rules that look at the joint
as a whole speak at the ``first`` of them only.
"""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build import fastener_data as data
from partscheck.build.bolt_thread import body, unthreaded
from partscheck.build.joint_loads import load_of
from partscheck.build.joint_washers import JointWasher, table_types, washers_of
from partscheck.build.places import Binding
from partscheck.build.weights import CORNER_LOAD_READS, shock_factor
from partscheck.notation.fastener_size import FastenerSize
from partscheck.notation.grade import Grade
from partscheck.notation.interval import INF, Interval
from partscheck.notation.thread import Thread

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.model import Build
    from partscheck.build.weights import Weights

NONE = Interval(0.0, 0.0, "mm")
BOLT_KINDS = ("bolt", "stud", "wheel-bolt", "u-bolt")
NUT_KINDS = ("nut", "lug-nut")
PLAIN_NUTS = ("none", "jam nut", "thread locker", "split washer", "wedge washer")

# What a rule reads, as "record.field", that asks for lengths along a joint, or for its load.
JOINT_LENGTH_READS = (
    "bolt.size", "stud.thread", "stud.length", "wheel-bolt.thread", "wheel-bolt.length", "u-bolt.thread",
    "u-bolt.length", "bolted_joint.stack", "stack_item.thickness", "stack_item.gap", "washer.thickness",
    "washer.type", "washer.hardness", "practice.washer_thickness_most",
)  # fmt: skip
NUT_HEIGHT_READS = ("nut.height", "nut.locking", "lug-nut.height", "practice.nut_height_most")
THREAD_READS = ("bolt.thread_length", "bolt.head")
JOINT_LOAD_READS = (
    "bolted_joint.load", "joint_load.shear", "joint_load.tension", "joint_load.from", "joint_load.at",
    "bolted_joint.places", "rack.weight_carried", "rack.rating", "rack.weight", "practice.braking",
    *CORNER_LOAD_READS,
)  # fmt: skip


class JointPlace(Binding):
    """One bolted joint with one line of its bolts; ``bolt``, ``nut`` and ``tapped`` may be None.

    ``bolts`` are all lines of bolts that the joint names; ``stack`` its layers from head to nut.
    """

    def __init__(self, build: Build, weights: Weights, joint: Any, bolt: Any, bolts: tuple[Any, ...]) -> None:
        self.build = build
        self.weights = weights
        self.joint = joint
        self.bolt = bolt
        self.bolts = bolts
        self.first = not bolts or bolt is bolts[0]
        self.nut = _line(build, joint, "nut")
        self.tapped: Any = joint.values["tapped"].value if joint.says("tapped") else None
        self.stack: tuple[Any, ...] = tuple(joint.values["stack"].value) if joint.says("stack") else ()
        self.washers: dict[str, JointWasher] = dict(washers_of(build, joint))
        self.at = (joint.id,)
        lines = (bolt, self.nut, *(one.line for one in self.washers.values()))
        self.parts = tuple(dict.fromkeys(line for line in lines if line is not None))
        _name_layers(joint, self.stack, self.tapped)

    @property
    def name(self) -> str:
        """The joint's own name, for a sentence: {joint}."""
        return str(self.joint.id)

    # ---- bolt --------------------------------------------------------------------------------

    @property
    def size(self) -> FastenerSize:
        """Thread and length of the bolt."""
        bolt = self.bolt
        if bolt is None:
            return FastenerSize.unknown
        if bolt.kind == "bolt":
            return bolt.size  # type: ignore[no-any-return]
        return FastenerSize(bolt.thread, bolt.length, known=bolt.thread.known)

    @property
    def thread(self) -> Thread:
        """Thread of the bolt."""
        if self.bolt is None or self.bolt.kind == "bolt":
            return self.size.thread
        return self.bolt.thread  # type: ignore[no-any-return]

    @property
    def diameter(self) -> Interval:
        """Nominal diameter of the bolt, mm."""
        return self.thread.diameter

    @property
    def pitch(self) -> Interval:
        """mm."""
        return self.thread.pitch

    @property
    def length(self) -> Interval:
        """Of the bolt, under its head to its end, mm."""
        return self.size.length

    @property
    def size_field(self) -> str:
        """The field that says the bolt's thread: to be blamed in a finding."""
        return "size" if self.bolt is None or self.bolt.kind == "bolt" else "thread"

    @property
    def length_field(self) -> str:
        """The field that says how long the bolt is."""
        return "size" if self.bolt is None or self.bolt.kind == "bolt" else "length"

    @property
    def grade(self) -> Grade:
        """As marked on the head; a bare 8 is SAE on inch threads, a class on metric ones."""
        if self.bolt is None:
            return Grade.unknown
        grade: Grade = self.bolt.grade
        return grade.on_thread(self.thread.inch) if grade.known and self.thread.known else grade

    @property
    def strength(self) -> data.Strength:
        """Proof, yield and tensile strength of the bolt, MPa; all that its grade may be where it is open."""
        return data.bolt_strength(self.tables, self.grade, self.thread, self.head != "socket cap")

    @property
    def head(self) -> Any:
        """Shape of the head; a hex head where it is not typed."""
        bolt = self.bolt
        return bolt.head if bolt is not None and bolt.kind == "bolt" and bolt.has("head") else "hex"

    # ---- nut and washers ---------------------------------------------------------------------

    @property
    def nut_height(self) -> Interval:
        """Height of the nut, mm: typed, else of the table for its type.  A jam nut on top counts too."""
        nut = self.nut
        if nut is None:
            return Interval.unknown("mm")
        if nut.has("height"):
            return nut.height  # type: ignore[no-any-return]
        types = self._nut_types()
        height = data.nut_heights(self.tables, self.thread, *types) if types else Interval.unknown("mm")
        if not height.is_exact:
            nut.height  # noqa: B018 - asks for it
        if not height.known and self.diameter.known:
            height = Interval(0.0, self.diameter.hi * self.limits.nut_height_most.hi, "mm")
        if nut.kind == "nut" and nut.has("locking") and nut.locking == "jam nut":
            height = height + data.nut_heights(self.tables, self.thread, "jam")
        return height

    def _nut_types(self) -> tuple[str, ...]:
        nut = self.nut
        if nut.kind != "nut":
            return ()
        if not nut.has("locking"):
            return ("hex", "nylon insert")
        if nut.locking == "nylon insert":
            return ("nylon insert",)
        return ("hex",) if nut.locking in PLAIN_NUTS else ()

    @property
    def nylon(self) -> bool:
        """True for a nut with a nylon insert."""
        nut = self.nut
        return bool(nut is not None and nut.kind == "nut" and nut.has("locking") and nut.locking == "nylon insert")

    def washer(self, side: str) -> JointWasher | None:
        """The washer at ``head`` or ``nut``; None where there is none."""
        return self.washers.get(side)

    def washer_thickness(self, side: str) -> Interval:
        """mm, 0 where there is none: typed, else of the table for its type."""
        washer = self.washer(side)
        if washer is None:
            return NONE
        if washer.line is not None and washer.line.has("thickness"):
            return washer.line.thickness  # type: ignore[no-any-return]
        if washer.line is not None:
            washer.line.thickness  # noqa: B018 - asks for it
        table = data.washer_thickness(self.tables, self.thread, *table_types(washer))
        if table.known:
            return table
        most = self.diameter.hi * self.limits.washer_thickness_most.hi
        return Interval(0.0, most, "mm")

    @property
    def washers_thickness(self) -> Interval:
        """Of the washers on both sides, mm."""
        return self.washer_thickness("head") + self.washer_thickness("nut")

    # ---- stack -------------------------------------------------------------------------------

    @property
    def grip(self) -> Interval:
        """Thickness of the layers and gaps between head and nut, without washers, mm.

        Unknown where no stack is typed.
        """
        if not self.stack:
            self.joint.stack  # noqa: B018 - asks for it
            return Interval.unknown("mm")
        total = NONE
        for item in self.stack:
            total = total + layer_thickness(item)
        return total

    @property
    def farthest_shear_plane(self) -> Interval | None:
        """From under the head to the face that slides farthest from it, mm; None with a single layer.

        With fewer shear planes than faces it is not said which slide: the farthest is taken.
        """
        layers = [item for item in self.stack if not item.says("gap")]
        if len(layers) < (1 if self.tapped is not None else 2):
            return None
        last = len(self.stack) if self.tapped is not None else self.stack.index(layers[-1])
        total = self.washer_thickness("head")
        for item in self.stack[:last]:
            total = total + layer_thickness(item)
        return total

    # ---- thread along the bolt ---------------------------------------------------------------

    @property
    def unthreaded(self) -> Interval:
        """From under the head to the first full thread, mm: up to the greatest that its standard allows (LG).

        A metric bolt may be threaded in part (ISO 4014) or to the head (ISO 4017) unless it is typed.
        """
        return unthreaded(self)

    @property
    def body(self) -> Interval:
        """Full body under the head, mm: unthreaded length less the run-out (LB); 0 when fully threaded."""
        return body(self)

    @property
    def thread_in_shear_plane(self) -> bool | None:
        """Whether thread lies in a shear plane: then the root area carries the shear.  None: cannot tell."""
        plane = self.farthest_shear_plane
        if plane is None:
            return None
        full = self.body
        if full.lo >= plane.hi:
            return False
        return True if full.hi < plane.lo else None

    # ---- count and load ----------------------------------------------------------------------

    @property
    def count(self) -> Interval:
        """Bolts in one joint of one place; unknown: one or more."""
        if not self.joint.has("bolts") and self.joint.has("pattern"):
            return Interval.exact(float(len(self.joint.pattern)))
        bolts = self.joint.bolts
        return Interval(1.0, INF) if bolts is None else Interval.exact(float(bolts))

    @property
    def places(self) -> int:
        """How many such joints the trailer has; one where it is not typed."""
        return int(self.joint.places) if self.joint.has("places") else 1

    @property
    def planes(self) -> Interval:
        """Shear planes of each bolt; one where it is not typed (the weaker reading)."""
        return Interval.exact(float(self.joint.shear_planes) if self.joint.has("shear_planes") else 1.0)

    @property
    def has_load(self) -> bool:
        """True when the list says what the joint carries: strength rules look at nothing else."""
        load = self.joint.typed("load")
        return load is not None and bool(load.value.everything())

    @property
    def load_shear(self) -> Interval:
        """Across the bolts, on the whole joint of one place, at rest, N."""
        return load_of(self, "shear")

    @property
    def load_tension(self) -> Interval:
        """Along the bolts, on the whole joint of one place, at rest, N."""
        return load_of(self, "tension")

    @property
    def shock(self) -> Interval:
        """k: road shock multiplies the load of calculated items, from the surface."""
        return shock_factor(self.build)

    @property
    def shaken(self) -> bool:
        """True where the list says that it vibrates, or carries a wheel, an axle, the coupler or a rack."""
        if self.joint.has("vibration"):
            return bool(self.joint.vibration)
        load = self.joint.typed("load")
        source = load.value.typed("from_") if load is not None else None
        return source is not None and source.value in ("wheel", "axle", "coupler", "rack")

    # ---- holes -------------------------------------------------------------------------------

    @property
    def clearance(self) -> data.Clearance | None:
        """Clearance holes of the bolt's size; None for a size that no table has."""
        return data.clearance(self.tables, self.thread)

    def oversize(self, item: Any) -> bool | None:
        """Whether a layer's hole is larger than a loose clearance hole, or slotted; None: cannot tell."""
        if item.has("slotted") and item.slotted:
            return True
        holes = self.clearance
        if holes is None or not item.has("hole"):
            return None if item.has("hole") else False
        hole: Interval = item.hole
        if hole.hi <= holes.loose.hi + data.SAME_SIZE:
            return False
        return True if hole.lo > holes.loose.hi + data.SAME_SIZE else None

    @property
    def any_oversize(self) -> bool | None:
        """Whether some layer has an oversize or slotted hole: the joint then has to hold by friction."""
        found = [self.oversize(item) for item in self.stack]
        return True if True in found else None if None in found else False


def joint_places(build: Build, weights: Weights) -> Iterator[JointPlace]:
    """Each joint of the list with each line of its bolts."""
    for joint in build.joints:
        ids = joint.values["bolt"].value if joint.says("bolt") else ()
        bolts = tuple(line for line in (build.part(id) for id in ids) if line is not None)
        for bolt in bolts or (None,):
            yield JointPlace(build, weights, joint, bolt, bolts)


def layer_thickness(item: Any) -> Interval:
    """What one layer takes up along the bolt, mm: its thickness, or the gap that it is."""
    return item.gap if item.has("gap") and not item.has("thickness") else item.thickness  # type: ignore[no-any-return]


def _line(build: Build, joint: Any, name: str) -> Any:
    return build.part(joint.values[name].value) if joint.says(name) else None


def _name_layers(joint: Any, stack: tuple[Any, ...], tapped: Any) -> None:
    """Give the maps inside a joint a name that findings can use: "arm to frame / frame tube"."""
    for number, item in enumerate(stack, start=1):
        name = item.values["name"].value if item.says("name") else f"layer {number}"
        item.id = f"{joint.id} / {name}"
    if tapped is not None:
        tapped.id = f"{joint.id} / tapped"
    for name in ("washers", "load"):
        if joint.says(name) and joint.values[name].value.everything():
            joint.values[name].value.id = f"{joint.id} / {name}"
