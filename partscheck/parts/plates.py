"""Plates between hub and wheel: adapters and slip-on spacers."""

from __future__ import annotations

from partscheck.parts.common import (
    BOLT_CIRCLE_MEASURE,
    CALIPER,
    CIRCLE,
    DEPTH,
    MATERIAL,
    MATERIAL_LOOK,
    PER_AXLE,
    SEAT,
    SEAT_ANGLE,
    SEAT_LOOK,
    SEAT_RADIUS,
    TAPE,
    THREAD_MEASURE,
    ListLine,
)
from partscheck.parts.field import Field
from partscheck.parts.types import (
    Angle,
    BoltCircleType,
    Length,
    Load,
    ThreadType,
    Torque,
)


class Adapter(ListLine):
    """A plate that bolts to the hub's studs and carries studs of its own for the wheel."""

    kind = "adapter"
    title = "adapter"

    hub_circle = Field(
        BoltCircleType(),
        "holes that go over the hub's studs: how many, and the circle through their centres",
        BOLT_CIRCLE_MEASURE,
        CIRCLE,
    )
    wheel_circle = Field(
        BoltCircleType(),
        "the adapter's own studs for the wheel: how many, and the circle through their centres",
        BOLT_CIRCLE_MEASURE,
        CIRCLE,
    )
    hub_bore = Field(
        Length(),
        "least bore right through the adapter: the hub's pilot, barrel and cap must pass it",
        "Caliper's inside jaws at the narrowest place of the bore, from both sides, in three directions.",
        CALIPER,
    )
    wheel_pilot = Field(
        Length(),
        "diameter of the shoulder on the wheel side that the wheel's centre bore slips over; 0 if none",
        "Caliper across the ring that stands out on the wheel side; 0 mm where the face is flat to the bore.",
        CALIPER,
    )
    wheel_pilot_height = Field(
        Length(),
        "how far that shoulder stands beyond the wheel-side face",
        "Straightedge on the wheel-side face, depth rod alongside the ring.",
        DEPTH,
    )
    thickness = Field(
        Length(),
        "from the face that seats on the hub to the face that the wheel seats on",
        "Caliper over the plate at three places, on the two machined faces; leave pilot rings and studs out.",
        CALIPER,
    )
    outside_diameter = Field(
        Length(), "outside diameter of the plate on its wheel side", "Caliper or tape across the plate.", TAPE
    )
    nut_seat = Field(
        SEAT, "shape of the seats that the hub nuts bear on, inside the plate's pockets", SEAT_LOOK
    )
    nut_seat_angle = Field(Angle(), "included angle of the hub-side conical seats", SEAT_ANGLE, 2.0)
    nut_seat_radius = Field(Length(), "radius of the hub-side ball seats", SEAT_RADIUS, 0.5)
    nut_seat_thickness = Field(
        Length(),
        "metal under the hub nuts: from the hub-side face to the small end of the seat they bear on",
        "Depth rod down a pocket from the wheel-side face to the small end of the seat (to the "
        "flat in a flat pocket); take that off the thickness.",
        DEPTH,
    )
    nut_torque = Field(
        Torque(),
        "torque that its maker asks of the nuts that hold it to the hub, threads clean and dry",
        "Read it in the adapter maker's instructions.",
    )
    nut_pocket_diameter = Field(
        Length(),
        "diameter of the pocket that the hub nut and its socket go into",
        "Caliper's inside jaws across the pocket, near its bottom.",
        CALIPER,
    )
    hub_nut_thread = Field(
        ThreadType(),
        "thread of the nuts that hold the adapter to the hub",
        "It is the thread of the hub's studs; try one of the supplied nuts by hand on a hub stud. "
        + THREAD_MEASURE,
    )
    stud_thread = Field(ThreadType(), "thread of the adapter's own wheel studs", THREAD_MEASURE)
    stud_length = Field(
        Length(),
        "how far the adapter's own studs stand proud of its wheel-side face, to the end, tip included",
        "Straightedge on the wheel-side face, depth rod along a stud to its end; measure every stud.",
        DEPTH,
    )
    stud_point = Field(
        Length(),
        "unthreaded tip of the adapter's own studs",
        "Caliper from the end of a stud to its first full thread.",
        DEPTH,
    )
    stud_thread_start = Field(
        Length(),
        "from the wheel-side face to the first full thread of the adapter's own studs",
        "Straightedge on the face, depth rod to the first full thread; 0 mm where the thread starts below.",
        DEPTH,
    )
    knurl_diameter = Field(
        Length(),
        "diameter over the ribs of the adapter's own studs, where they are pressed into the plate",
        "Caliper over the ribs of a loose stud, or ask the seller; the hole alone measures a little less.",
        CALIPER,
    )
    rating = Field(Load(), "load that each adapter carries, static, as marked", PER_AXLE)
    material = Field(MATERIAL, "what the plate is made of", MATERIAL_LOOK)


class Spacer(ListLine):
    """A loose plate that slips over the studs between two seating faces."""

    kind = "spacer"
    title = "slip-on spacer"

    bolt_circle = Field(
        BoltCircleType(),
        "holes for the studs: how many, and the circle through their centres",
        BOLT_CIRCLE_MEASURE,
        CIRCLE,
    )
    bore = Field(
        Length(),
        "least bore right through the plate",
        "Caliper's inside jaws across the bore, in three directions.",
        CALIPER,
    )
    thickness = Field(
        Length(), "from seating face to seating face", "Caliper over the plate at three places.", CALIPER
    )
