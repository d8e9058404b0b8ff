"""Wheels, and the lug nuts or wheel bolts that hold them."""

from __future__ import annotations

from partscheck.parts.common import (
    BOLT_CIRCLE_MEASURE,
    CALIPER,
    CIRCLE,
    DEPTH,
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
    Flag,
    GradeType,
    Length,
    Load,
    OffsetType,
    Pressure,
    ThreadType,
    Torque,
    WheelSizeType,
)


class Wheel(ListLine):
    kind = "wheel"
    title = "wheel"

    size = Field(
        WheelSizeType(),
        "rim diameter and width between the bead seats, not overall (overall is about 1 in more)",
        "Read it stamped inside the wheel, by the valve or on a spoke's back (15 x 7, 7J x 15). "
        "Else measure between the insides of the rim's two flanges for the width, and take the "
        "diameter from the tire that fits it.",
    )
    bolt_circle = Field(
        BoltCircleType(),
        "number of lug holes and the diameter of the circle through their centres",
        BOLT_CIRCLE_MEASURE,
        CIRCLE,
    )
    center_bore = Field(
        Length(),
        "diameter of the hole in the wheel's middle, at the mounting face",
        "Cap out: caliper's inside jaws at the mounting face, in three directions, take the smallest.",
        CALIPER,
    )
    offset = Field(
        OffsetType(),
        "from the rim's centre plane to the mounting face; + when the face lies outboard of it, "
        "so that the wheel tucks in",
        "Read it stamped inside the wheel (ET 30, +30), or measure the backspace: lay the wheel "
        "on its front, a straightedge across the inner edge of the rim, tape from it down to the "
        "mounting face. Offset = backspace - (width + 1 in) / 2.",
        2.0,
    )
    backspace = Field(
        Length(),
        "from the mounting face to the inner edge of the rim",
        "Lay the wheel on its front, tire off or without sidewall bulge in the way; straightedge "
        "across the inner edge of the rim; tape or rule from its underside down to the mounting "
        "face.",
        TAPE,
    )
    rating = Field(
        Load(),
        "static load that each wheel carries, as stamped",
        "Read it stamped inside the wheel, by the valve, near a lug hole or on a spoke's back: "
        "MAX LOAD, in lb or kg. Wheels from cars often carry none: ask the maker of the wheel.",
    )
    max_pressure = Field(
        Pressure(),
        "highest cold pressure that the wheel is stamped for",
        "Read it stamped inside the wheel, near the load.",
    )
    nut_seat = Field(SEAT, "shape of the seats in the lug holes", SEAT_LOOK)
    seat_angle = Field(
        Angle(), "included angle of conical seats (both sides together): mostly 60 deg", SEAT_ANGLE, 2.0
    )
    seat_radius = Field(Length(), "radius of ball seats", SEAT_RADIUS, 0.5)
    seat_thickness = Field(
        Length(),
        "metal under the nut: from the mounting face to the small end of the seat",
        "Depth rod through a lug hole from the back (mounting) face to where the cone or ball "
        "begins; in a flat or shank hole to the flat. Counts as +- 2 mm unless you type a "
        "tolerance.",
        0.5,
    )
    nut_torque = Field(
        Torque(),
        "torque that its maker asks of the nuts or wheel bolts that bear on it, threads clean and dry",
        "Read it in the maker's instructions; the wheel maker's value goes before the axle maker's.",
    )
    lug_well_diameter = Field(
        Length(),
        "diameter of the well round a lug hole that the nut and socket go into",
        "Caliper's inside jaws across the well, near its bottom.",
        CALIPER,
    )
    stud_pocket_depth = Field(
        Length(),
        "depth of the reliefs in the wheel's mounting face that could swallow a stud's end; 0 if flat",
        "Straightedge across the mounting face, depth rod down into the relief.",
        DEPTH,
    )
    stud_pocket_circle = Field(
        BoltCircleType(),
        "where those reliefs lie: how many, and the circle through their centres",
        BOLT_CIRCLE_MEASURE,
        1.0,
    )
    checked_on_wheel = Field(
        Flag(),
        "true when the wheel was laid on the plate and every stud's end was seen to lie over a relief",
        "Lay the wheel on the adapter without nuts: it must sit flat, with no rocking and no gap "
        "at the face.",
    )
    barrel_inside = Field(
        Length(),
        "least inside diameter of the rim's barrel where the brake turns",
        "Tape or rule inside the rim, between the narrowest opposite points that the brake "
        "passes; look for balance weights.",
        TAPE,
    )
    pad_diameter = Field(
        Length(),
        "diameter of the flat mounting pad on the back of the wheel",
        "Rule across the machined flat on the wheel's back.",
        TAPE,
    )
    valve_rating = Field(
        Pressure(),
        "highest cold pressure of the valve fitted",
        "Rubber snap-in valves carry their pressure in the seller's data; bolt-in metal valves "
        "carry more. Read it there: it is not on the valve.",
    )


class LugNut(ListLine):
    kind = "lug-nut"
    title = "lug nut"

    thread = Field(ThreadType(), "thread of the nut", THREAD_MEASURE)
    seat = Field(SEAT, "shape of the nut's face that bears on the wheel or adapter", SEAT_LOOK)
    seat_angle = Field(
        Angle(), "included angle of a conical seat (both sides together): mostly 60 deg", SEAT_ANGLE, 2.0
    )
    seat_radius = Field(Length(), "radius of a ball seat", SEAT_RADIUS, 0.5)
    height = Field(
        Length(),
        "overall height of the nut, end to end, shank and cap included",
        "Caliper over the two ends of the nut.",
        CALIPER,
    )
    depth = Field(
        Length(),
        "full thread in the nut, from the seat end inward",
        "Screw a stud in by hand from the seat end until it stops, mark it, take it out and "
        "measure; leave the countersink out. In an open nut, depth rod over the threaded part.",
        0.5,
    )
    shank_length = Field(
        Length(),
        "how far the sleeve of a shank nut goes into the wheel beyond its seat",
        "Caliper's depth rod from the seat (washer off) to the end of the sleeve.",
        DEPTH,
    )
    closed = Field(
        Flag(),
        "true for a nut closed at its outer end (acorn, capped): the stud can bottom in it",
        "Look through it: daylight means open.",
    )
    hex = Field(
        Length(),
        "size across the flats: the socket it takes",
        "Caliper across two opposite flats, or the socket that fits without play.",
        CALIPER,
    )


class WheelBolt(ListLine):
    kind = "wheel-bolt"
    title = "wheel bolt"

    thread = Field(ThreadType(), "thread of the bolt", THREAD_MEASURE)
    length = Field(
        Length(),
        "from the seat to the tip: from the small end of the cone or ball, or the flat, to the end",
        "Caliper from where the seat meets the shank to the very end of the bolt; the head and "
        "the seat's height do not count.",
        DEPTH,
    )
    seat = Field(SEAT, "shape of the bolt's face that bears on the wheel", SEAT_LOOK)
    seat_angle = Field(
        Angle(), "included angle of a conical seat (both sides together): mostly 60 deg", SEAT_ANGLE, 2.0
    )
    seat_radius = Field(Length(), "radius of a ball seat", SEAT_RADIUS, 0.5)
    hex = Field(
        Length(),
        "size across the flats: the socket it takes",
        "Caliper across two opposite flats, or the socket that fits without play.",
        CALIPER,
    )
    grade = Field(GradeType(), "strength as marked on the head", "Read the marks on the bolt's head.")
