"""What carries the wheel ends: axles, suspension arms, springs and spindles."""

from __future__ import annotations

from partscheck.parts.common import (
    CALIPER,
    DEPTH,
    HAND,
    HAND_MEANING,
    LONG_TAPE,
    MATERIAL,
    MATERIAL_LOOK,
    MICROMETER,
    PER_AXLE,
    TAPE,
    THREAD_MEASURE,
    ListLine,
)
from partscheck.parts.field import Field
from partscheck.parts.types import (
    Angle,
    BoltCircleType,
    Distance,
    Flag,
    GradeType,
    Length,
    Load,
    SectionType,
    Text,
    ThreadType,
)

JOURNAL = (
    "Clean it; micrometer where the bearing's cone sits, in two directions and at both ends; "
    "type what you read with its tolerance (1.3745 in +- 0.0003 in). A caliper only tells "
    "which size it is by name."
)
SPINDLE_FLANGE = "holes for a bolt-on spindle: how many, and the circle through their centres"
FLANGE = (
    "Count the holes of the flange. Four holes: measure straight across, centre to "
    "centre (edge to same edge of the opposite hole). Five: between neighbours, times "
    "1.7013. Six: straight across."
)


class SpindleFields:
    """The spindle's own fields, shared by what ends in one: spindle, axle and suspension arm."""

    inner_journal = Field(
        Length(),
        "diameter that the inner bearing's cone sits on: the small side of the fillet at the shoulder",
        JOURNAL,
        MICROMETER,
    )
    outer_journal = Field(Length(), "diameter that the outer bearing's cone sits on", JOURNAL, MICROMETER)
    seal_journal = Field(
        Length(),
        "diameter that the lip of the grease seal runs on",
        "Caliper where the seal leaves its polished line.",
        CALIPER,
    )
    shoulder_to_face = Field(
        Distance(),
        "from the wheel's or adapter's seating face, hub fitted, inward to the spindle shoulder "
        "that the inner cone stands against",
        "Hub on and bearings seated: straightedge on the seating face, tape or depth rod back to "
        "the shoulder; or hub off: shoulder to a scribed line, and the same line to the face "
        "with the hub on.",
        TAPE,
    )
    shoulder_to_thread = Field(
        Length(),
        "from that shoulder outward to the first full thread for the spindle nut",
        "Caliper or rule along the spindle, shoulder to first full thread.",
        DEPTH,
    )
    shoulder_to_cotter = Field(
        Length(),
        "from that shoulder outward to the centre of the hole for the cotter pin",
        "Rule along the spindle, shoulder to the middle of the hole.",
        0.5,
    )
    nut_thread = Field(
        ThreadType(),
        "thread at the spindle's end: 1-14 is UNS, 1-12 is UNF",
        "Count the threads over one inch with a thread gauge: 1-14 and 1-12 are easily mixed up. "
        + THREAD_MEASURE,
    )
    brake_flange = Field(
        BoltCircleType(),
        "holes of the flange that the brake bolts to: how many, and the circle through their centres",
        FLANGE,
        0.5,
    )
    material = Field(MATERIAL, "what the spindle is made of", MATERIAL_LOOK)


class Spindle(SpindleFields, ListLine):
    kind = "spindle"
    title = "spindle"

    rating = Field(
        Load(), "load that each spindle carries, static, as marked; per: axle says otherwise", PER_AXLE
    )
    mount_flange = Field(
        BoltCircleType(),
        "holes of the flange by which it bolts to the axle or arm; left out for a spindle that is welded in",
        FLANGE,
        0.5,
    )


class Axle(SpindleFields, ListLine):
    kind = "axle"
    title = "axle"

    rating = Field(
        Load(),
        "load of the whole axle, both ends together (the one rating that is per axle without saying so)",
        "Read the tag or stamp on the axle tube, mostly at its middle or behind a spring seat.",
    )
    hub_face_distance = Field(
        Length(),
        "between the faces on both sides that the wheels or adapters seat on, a slip-on drum included",
        "Tape along the axle from the seating face of one hub to that of the other, hubs and drums fitted.",
        LONG_TAPE,
    )
    spring_distance = Field(
        Length(),
        "between the centres of the spring seats, left and right",
        "Tape from the left edge of one spring seat to the left edge of the other.",
        2.0,
    )
    tube = Field(
        Length(),
        "outside diameter of a round axle tube, or the side of a square one",
        "Caliper over the tube beside a spring seat, paint scraped off.",
        0.5,
    )
    tube_section = Field(
        SectionType(),
        "outside size of a tube that is neither round nor square, upright side first",
        "Caliper over both sides, the upright one first.",
        0.5,
    )
    spindle_flange = Field(BoltCircleType(), SPINDLE_FLANGE, FLANGE, 0.5)
    seat_hole = Field(
        Length(),
        "diameter of the hole in its spring seats that takes the head of the spring's centre bolt",
        "Caliper's inside jaws in the hole.",
        CALIPER,
    )
    equalized = Field(
        Flag(),
        "true when this axle shares its load with its neighbour through an equalizer",
        "Look between the axles: a pivoting link that joins both springs is an equalizer.",
    )


class SuspensionArm(SpindleFields, ListLine):
    """One side's independent suspension: a torsion or trailing arm, with its spindle."""

    kind = "suspension-arm"
    title = "suspension arm"

    rating = Field(
        Load(), "load that each arm carries, static, as marked; per: axle says otherwise", PER_AXLE
    )
    hand = Field(
        HAND,
        HAND_MEANING,
        "Hold it as it will sit, arm trailing to the rear: the spindle points to the side it is made for.",
    )
    lift = Field(
        Distance(),
        "from the mounting face down to the spindle's centre at full load, down positive",
        "Read it in the seller's drawing (start angle and deflection); unloaded: rule from the "
        "mounting face to the spindle's centre, less the deflection.",
        5.0,
    )
    mount_thread = Field(
        ThreadType(), "thread of the arm's mounting holes or bolts; left out for plain holes", THREAD_MEASURE
    )
    face_to_arm = Field(
        Length(),
        "from the wheel's seating face inward to the nearest point of the arm that a tire could touch",
        "Straightedge on the seating face, square to it a tape back to the arm's outer side.",
        2.0,
    )
    spindle_flange = Field(BoltCircleType(), SPINDLE_FLANGE, FLANGE, 0.5)
    flange_along = Field(
        Length(),
        "between the centres of the spindle flange's bolts, front to rear, where they stand in a rectangle",
        "Caliper from the front edge of one hole to the front edge of the hole behind it.",
        0.5,
    )
    flange_upright = Field(
        Length(),
        "between the centres of the spindle flange's bolts, lower to upper, where they stand in a rectangle",
        "Caliper from the upper edge of one hole to the upper edge of the hole below it.",
        0.5,
    )
    shim_pattern = Field(
        Text(),
        "which shims fit between spindle flange and arm, as the seller names them",
        "Read it in the seller's data, or trace the flange and its holes on card.",
    )
    travel = Field(
        Length(),
        "upward travel of the spindle from its loaded height to the bump stop",
        "Read it in the seller's data; or on the trailer: tape from stop to arm, loaded.",
        5.0,
    )
    toe = Field(
        Angle(-180),
        "correction of toe that shims must give at this wheel, toe-in positive",
        "Measure between the tires at hub height in front and behind: half the difference, divided by "
        "the tire's diameter, is the angle of one side (1 deg = 17.5 mm per metre).",
        0.1,
    )
    camber = Field(
        Angle(-180),
        "correction of camber that shims must give, top outward positive",
        "Level gauge or square against the wheel on a level floor, trailer loaded.",
        0.2,
    )


class LeafSpring(ListLine):
    kind = "leaf-spring"
    title = "leaf spring"

    rating = Field(
        Load(), "load that each spring carries, static, as marked; per: axle says otherwise", PER_AXLE
    )
    length = Field(
        Length(),
        "eye to eye, centre to centre, unloaded; a slipper spring: eye centre to the end of the slipper",
        "Tape from the centre of one eye to the centre of the other, along a straight line.",
        2.0,
    )
    eye = Field(
        Length(),
        "inside diameter of the eye's bushing: the bolt that fits it",
        "Caliper's inside jaws in the bushing.",
        CALIPER,
    )
    width = Field(Length(), "width of the leaves", "Caliper across the main leaf.", 0.5)
    height = Field(
        Length(),
        "thickness of all its leaves together at the centre bolt",
        "Caliper over the leaves beside the centre bolt, clamped.",
        0.5,
    )
    center_pin = Field(
        Length(),
        "diameter of the centre bolt's head that locates in the axle's spring seat",
        "Caliper over the round head below or above the leaves.",
        CALIPER,
    )


class Hanger(ListLine):
    kind = "hanger"
    title = "spring hanger"

    hole = Field(Length(), "diameter of its bolt hole", "Caliper's inside jaws in the hole.", CALIPER)


class Shackle(ListLine):
    kind = "shackle"
    title = "shackle link"

    hole = Field(Length(), "diameter of its bolt holes", "Caliper's inside jaws in a hole.", CALIPER)
    length = Field(
        Length(),
        "between the centres of its two holes",
        "Caliper from the left edge of one hole to the left edge of the other.",
        0.5,
    )


class Equalizer(ListLine):
    kind = "equalizer"
    title = "equalizer"

    rating = Field(Load(), "load that each equalizer carries, static, as marked", PER_AXLE)


class UBolt(ListLine):
    kind = "u-bolt"
    title = "U-bolt"

    thread = Field(ThreadType(), "thread of its legs", THREAD_MEASURE)
    inside = Field(
        Length(),
        "inside width between the legs: the axle tube that fits",
        "Caliper's inside jaws between the legs.",
        0.5,
    )
    length = Field(
        Length(),
        "from the inside of the bend to the ends of the legs",
        "Rule inside the bow, down along a leg.",
        TAPE,
    )
    grade = Field(
        GradeType(), "strength as marked on the end of a leg", "Read the marks on the ends of the legs."
    )


class Shim(ListLine):
    kind = "shim"
    title = "alignment shim"

    thickness = Field(
        Length(), "thickness of a flat shim, or of a wedge at its middle", "Caliper over both faces.", CALIPER
    )
    angle = Field(
        Angle(),
        "angle between the two faces of a wedge",
        "Read its mark, or caliper both edges: arctan((thick - thin) / distance between them).",
        0.1,
    )
