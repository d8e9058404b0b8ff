"""Bolted joints, layer by layer."""

from __future__ import annotations

from partscheck.parts.common import (
    CALIPER,
    COATING,
    MATERIAL,
    MATERIAL_LOOK,
    TAPE,
    THREAD_MEASURE,
)
from partscheck.parts.field import Field
from partscheck.parts.record import Record
from partscheck.parts.types import (
    Count,
    Flag,
    Id,
    Ids,
    Length,
    Load,
    Nested,
    Point,
    Points,
    PositionsType,
    Text,
    ThreadType,
    Torque,
    Words,
)


class StackItem(Record):
    """One layer that a bolt goes through, from head to nut."""

    record_name = "stack_item"

    name = Field(Text(), "what this layer is")
    thickness = Field(
        Length(),
        "thickness of the bare metal, without paint; of a tube or channel that the bolt crosses, all of it",
        "Caliper at a cut edge, coating scraped off.",
        CALIPER,
    )
    gap = Field(
        Length(),
        "an empty space between two layers that the bolt bridges",
        "Rule or caliper in the gap.",
        0.5,
    )
    wall = Field(
        Length(), "wall thickness of a hollow layer", "Caliper at a cut end, coating scraped off.", CALIPER
    )
    hole = Field(
        Length(),
        "diameter of the hole as drilled",
        "Caliper's inside jaws, or the drill that just enters.",
        CALIPER,
    )
    edge = Field(
        Length(),
        "from the hole's centre to the free edge, in the direction that the load pulls",
        "Rule from the edge to the near side of the hole, plus half the hole.",
        0.5,
    )
    slotted = Field(Flag(), "true for a slotted hole")
    sleeve = Field(Flag(), "true when a spacer sleeve inside a hollow layer takes the clamping")
    material = Field(MATERIAL, "what this layer is made of", MATERIAL_LOOK)
    coated = Field(
        COATING, "what the surfaces that meet are coated with", "Scratch it where it does not show."
    )
    note = Field(Text(), "anything you want to remember; never read")


class Tapped(Record):
    """A threaded hole that takes the bolt in place of a nut."""

    record_name = "tapped"

    thread = Field(ThreadType(), "thread of the hole", THREAD_MEASURE)
    depth = Field(
        Length(),
        "full thread, from the surface to the last full thread",
        "Screw a known bolt in by hand until it stops; mark it at the surface; measure; leave "
        "the countersink out.",
        0.5,
    )
    drill_depth = Field(
        Length(),
        "depth of the drilled hole, its cone-shaped bottom left out",
        "Depth rod down the hole.",
        0.5,
    )
    material = Field(MATERIAL, "what the thread is cut in", MATERIAL_LOOK)
    through = Field(Flag(), "true for a hole that goes right through", "Look or poke through it.")
    coated = Field(
        COATING, "what got into the thread: true or powder, paint, galvanized", "Look into the thread."
    )
    note = Field(Text(), "anything you want to remember; never read")


class Washers(Record):
    """The washers of a joint: ids of lines, or words for their type."""

    record_name = "washers"

    head = Field(Id(), "washer under the bolt's head: id of a line, or a word for its type")
    nut = Field(Id(), "washer under the nut: id of a line, or a word for its type")
    note = Field(Text(), "anything you want to remember; never read")


class JointLoad(Record):
    """What the whole joint of one place carries: at rest, in its worst case.

    Without shock factor and without safety factor.
    """

    record_name = "joint_load"

    shear = Field(Load(), "load across the bolts, on the whole joint of one place, at rest")
    tension = Field(Load(), "load along the bolts, on the whole joint of one place, at rest")
    from_ = Field(
        Words("wheel", "coupler", "rack", "axle", "jack", synonyms={"tongue": "coupler", "tire": "wheel"}),
        "take the load from what bears on it",
        key="from",
    )
    at = Field(PositionsType(), "which place the load comes from")
    reverses = Field(Flag(), "true when the load changes direction in use")
    note = Field(Text(), "anything you want to remember; never read")


class BoltedJoint(Record):
    """Bolts of one sort that hold the same layers together."""

    record_name = "bolted_joint"

    id = Field(Id(), "name of the joint; findings point to it by this name")
    bolt = Field(Ids(), "id of the bolt's line in parts, or a list of ids")
    nut = Field(Id(), "id of the nut's line in parts")
    tapped = Field(Nested(Tapped), "the threaded hole, where there is no nut")
    washers = Field(Nested(Washers), "the washers under head and nut")
    bolts = Field(Count(1), "bolts in one such joint", "Count them.")
    places = Field(Count(1), "how many such joints are on the trailer", "Count them.")
    stack = Field(Nested(StackItem, "many"), "the layers that the bolt goes through, from head to nut")
    load = Field(
        Nested(JointLoad, unknown_allowed=True),
        "what the whole joint of one place carries, at rest; unknown: the rules of fit still run",
    )
    pattern = Field(
        Points(),
        "the bolts' centres in one plane, each as [across, up] from a corner of your choice",
        "Rule from two edges at right angles to each bolt's centre.",
        TAPE,
    )
    load_at = Field(
        Point(), "the point in that plane where the shear acts", "Rule from the same two edges.", TAPE
    )
    direction = Field(Point(plain=True), "which way the shear acts, in the same plane: [0, -1] is down")
    centred = Field(
        Flag(),
        "true when the shear acts through the middle of the bolts",
        "Draw the load's line past the bolts: true where it runs through their middle; where it does not, "
        "give pattern, load_at and direction instead.",
    )
    shear_planes = Field(
        Count(1, 4),
        "how many sections of each bolt the load would have to cut",
        "Count the faces where layers slide on each other: a lap has one, a fork has two.",
    )
    torque = Field(Torque(), "torque that you mean to apply")
    vibration = Field(Flag(), "true when the joint is shaken in use: suspension, axle, coupler, fenders")
    note = Field(Text(), "anything you want to remember; never read")
