"""The hub and its studs."""

from __future__ import annotations

from partscheck.parts.common import (
    BOLT_CIRCLE_MEASURE,
    CALIPER,
    CIRCLE,
    DEPTH,
    MICROMETER,
    PER_AXLE,
    TAPE,
    THREAD_MEASURE,
    ListLine,
)
from partscheck.parts.field import Field
from partscheck.parts.types import (
    BoltCircleType,
    Distance,
    GradeType,
    Length,
    Load,
    ThreadType,
)


class Hub(ListLine):
    kind = "hub"
    title = "hub"

    bolt_circle = Field(
        BoltCircleType(),
        "number of studs and the diameter of the circle through their centres",
        BOLT_CIRCLE_MEASURE,
        CIRCLE,
    )
    stud_thread = Field(ThreadType(), "thread of the wheel studs", THREAD_MEASURE)
    stud_length = Field(
        Length(),
        "how far a stud stands proud of the face that the wheel or adapter seats on, to its end, "
        "tip included",
        "Lay a straightedge (or the drum, if it slips on over the studs) against the seating "
        "face and measure from it along the stud to the very end, with a caliper's depth rod. "
        "With a slip-on drum in place measure from the drum's face, since that is where the "
        "wheel seats. Measure every stud and type the shortest to the longest, as 44 to 45 mm.",
        DEPTH,
    )
    stud_point = Field(
        Length(),
        "length of the stud's unthreaded tip: from its end to its first full thread",
        "Caliper from the very end of the stud to the first thread that is cut to full depth.",
        DEPTH,
    )
    stud_thread_start = Field(
        Length(),
        "from the seating face to the stud's first full thread: the plain shoulder that a nut cannot pass",
        "Straightedge on the seating face, caliper's depth rod along the stud to the first full "
        "thread; 0 mm where the thread starts below the face.",
        DEPTH,
    )
    hole_thread = Field(
        ThreadType(),
        "thread of the holes of a hub that takes wheel bolts instead of studs",
        "Screw in a wheel bolt that you know, by hand: it must run in all the way. Then measure "
        "that bolt. " + THREAD_MEASURE,
    )
    hole_depth = Field(
        Length(),
        "full thread in a threaded hub, from the seating face inward to where the thread or the room ends",
        "Caliper's depth rod through the hole: from the seating face to the last full thread, or "
        "to what stands behind it (drum, dust shield, bearing).",
        DEPTH,
    )
    pilot = Field(
        Length(),
        "diameter of the round shoulder that the wheel's or adapter's centre bore slips over",
        "Caliper across the machined ring just outboard of the seating face, in three "
        "directions; take the largest. Do not take the dust cap: it is a press fit further in "
        "and usually smaller.",
        CALIPER,
    )
    pilot_height = Field(
        Length(),
        "how far the pilot shoulder stands beyond the seating face",
        "Straightedge on the seating face, caliper's depth rod alongside the pilot; leave the chamfer out.",
        DEPTH,
    )
    cap_height = Field(
        Length(),
        "the farthest point outboard of the seating face with the dust cap fitted",
        "With the cap driven home, straightedge across the cap's nose and measure back to the "
        "seating face with a rule or depth rod.",
        TAPE,
    )
    cap_diameter = Field(
        Length(),
        "largest diameter of whatever must pass through the wheel's bore: cap or hub barrel",
        "Caliper across the widest part of the dust cap and hub barrel that stands outboard of "
        "the seating face.",
        CALIPER,
    )
    face_diameter = Field(
        Length(),
        "diameter of the flat seating face that the wheel or adapter bears on",
        "Rule or caliper across the machined flat, chamfers left out.",
        TAPE,
    )
    rating = Field(
        Load(), "load that each hub carries, static, as marked; per: axle says otherwise", PER_AXLE
    )
    inner_cup_bore = Field(
        Length(),
        "bore that the inner bearing's cup is pressed into",
        "Cup out, bore clean: inside micrometer or bore gauge in three directions. With the cup "
        "in, read the number stamped on the cup and type the bearing instead.",
        MICROMETER,
    )
    outer_cup_bore = Field(
        Length(),
        "bore that the outer bearing's cup is pressed into",
        "Cup out, bore clean: inside micrometer or bore gauge in three directions. With the cup "
        "in, read the number stamped on the cup and type the bearing instead.",
        MICROMETER,
    )
    seal_bore = Field(
        Length(),
        "bore at the back of the hub that the grease seal is pressed into",
        "Seal out, bore clean: caliper's inside jaws in three directions, take the smallest.",
        CALIPER,
    )
    cap_bore = Field(
        Length(),
        "bore at the front of the hub that the dust cap is driven into",
        "Cap out: caliper's inside jaws in three directions, take the smallest.",
        CALIPER,
    )
    cone_to_cone = Field(
        Length(),
        "between the outer ends of the two bearings with both seated: inner cone's back face to outer cone's",
        "Set both cones in their cups with the hub on the bench and measure between the two back "
        "faces with a caliper, or add hub length and what each cone stands out.",
        DEPTH,
    )
    inner_bearing_to_face = Field(
        Distance(),
        "from the seating face to the inner bearing's effective load centre (pressure centre), "
        "inboard positive",
        "Measure from the seating face to the middle of the inner bearing (straightedge and depth "
        "rod), then add how far the load centre lies beyond it, |a - T/2| of the bearing's data "
        "sheet. Not sure: type inner_bearing_mid_to_face instead, and a on the bearing's line.",
        TAPE,
    )
    outer_bearing_to_face = Field(
        Distance(),
        "from the seating face to the outer bearing's effective load centre (pressure centre), "
        "inboard positive; negative when the bearing sits outboard of the face",
        "Measure from the seating face to the middle of the outer bearing, then move outboard by "
        "|a - T/2| of the bearing's data sheet. Outboard of the face counts negative. Not sure: type "
        "outer_bearing_mid_to_face instead, and a on the bearing's line.",
        TAPE,
    )
    inner_bearing_mid_to_face = Field(
        Distance(),
        "from the seating face to the middle of the inner bearing's width, inboard positive",
        "Straightedge on the seating face; depth rod to the near and to the far end of the "
        "bearing; take the middle.",
        TAPE,
    )
    outer_bearing_mid_to_face = Field(
        Distance(),
        "from the seating face to the middle of the outer bearing's width, inboard positive",
        "Straightedge on the seating face; depth rod to the near and to the far end of the "
        "bearing; take the middle; outboard of the face counts negative.",
        TAPE,
    )
    drum_diameter = Field(
        Length(),
        "inside diameter of the brake drum, new: the size that the brake is sold for",
        "Read it cast or stamped on the drum, else caliper or rule across the swept face inside.",
        TAPE,
    )
    drum_width = Field(
        Length(),
        "width of the drum's swept face, as the brake is sold (10 x 2-1/4 in: the 2-1/4 in)",
        "Rule from the drum's open edge to the step or corner inside.",
        TAPE,
    )
    drum_outside = Field(
        Length(),
        "largest outside diameter of the drum, ribs and flange included",
        "Straightedges on both sides of the drum and a tape between them, or a tape round it "
        "divided by 3.1416.",
        TAPE,
    )
    rotor_diameter = Field(
        Length(), "outside diameter of the brake rotor", "Tape or large caliper across the disc.", TAPE
    )
    caliper_outside = Field(
        Length(),
        "diameter that the brake caliper sweeps: twice the distance from the hub's centre to its "
        "farthest point",
        "Caliper bolted on: tape from the centre of the spindle or cap to the farthest corner of "
        "the brake caliper; double it.",
        TAPE,
    )


class Stud(ListLine):
    kind = "stud"
    title = "wheel stud"

    thread = Field(ThreadType(), "thread of the stud", THREAD_MEASURE)
    length = Field(
        Length(),
        "length under the head, to the end",
        "Caliper from the underside of the head to the very end of the stud, stud out of the hub.",
        DEPTH,
    )
    knurl_diameter = Field(
        Length(),
        "diameter over the knurl, the ribs that are pressed into the hub",
        "Caliper over the crests of the ribs.",
        CALIPER,
    )
    grade = Field(GradeType(), "strength as marked on the head", "Read the marks on the stud's head.")
