"""Where things stand on the trailer, and the tube of its tongue."""

from __future__ import annotations

from partscheck.parts.common import CALIPER, LONG_TAPE, MATERIAL, MATERIAL_LOOK
from partscheck.parts.field import Field
from partscheck.parts.record import Record
from partscheck.parts.types import Count, Flag, Length, Load, Nested, SectionType, Text


class Tongue(Record):
    """The tongue's main tube."""

    record_name = "tongue"

    section = Field(
        SectionType(),
        "outside size of the tongue's tube, upright side first",
        "Caliper over both sides.",
        0.5,
    )
    wall = Field(
        Length(),
        "wall thickness of the tube",
        "Caliper at a cut end, beside the weld seam, paint scraped off.",
        CALIPER,
    )
    free_length = Field(
        Length(),
        "from the ball's centre to the first crossmember that the tongue is fixed to",
        "Tape from the middle of the ball socket to the front edge of that crossmember.",
        5.0,
    )
    material = Field(MATERIAL, "what the tube is made of", MATERIAL_LOOK)
    note = Field(Text(), "anything you want to remember; never read")


class Layout(Record):
    """Where things stand on the trailer."""

    record_name = "layout"

    axles = Field(Count(1, 4), "number of axles", "Count them.")
    gawr = Field(
        Load(),
        "gross axle weight rating that you, the builder, declare for each axle; the law compares "
        "the tires with it",
        "You set it: the least of what axle, tires, wheels, hubs and springs of one axle carry.",
    )
    equalized = Field(
        Flag(),
        "true when equalizers share the load among the axles",
        "Look between the axles: a pivoting link that joins both springs is an equalizer; arms "
        "bolted each on its own share nothing.",
    )
    hub_face_distance = Field(
        Length(),
        "between the faces on both sides that the wheels or adapters seat on, a slip-on drum included",
        "Tape along the axle line from the seating face of one hub to that of the other, hubs "
        "and drums fitted, wheels and adapters off.",
        LONG_TAPE,
    )
    frame_width = Field(
        Length(),
        "outside width of the frame where the tires run beside it",
        "Tape over the outer faces of both frame rails, at the axle; count bolt heads and brackets in.",
        2.0,
    )
    coupler_to_axle = Field(
        Length(),
        "from the ball's centre to the axle, or to the middle of a group of axles, level",
        "Tape or string on the level from the middle of the ball socket to a plumb line at the "
        "axle; once on each side.",
        5.0,
    )
    coupler_to_rear_receiver = Field(
        Length(),
        "from the ball's centre rearward to the pin hole of the receiver at the trailer's rear",
        "Tape or string on the level from the middle of the ball socket to a plumb line at the pin hole.",
        10.0,
    )
    axle_spacing = Field(
        Length(),
        "between one axle and the next",
        "Tape from dust cap middle to dust cap middle, both sides.",
        LONG_TAPE,
    )
    coupler_height = Field(
        Length(),
        "height of the ball's centre in the coupler, trailer loaded and level",
        "Level ground, trailer level: tape from the ground to the middle of the ball socket.",
        5.0,
    )
    ground_clearance = Field(
        Length(),
        "from the ground to the lowest fixed point, trailer loaded",
        "Tape from the ground to the lowest of frame, axle, arm or bracket.",
        5.0,
    )
    overall_width = Field(
        Length(),
        "greatest width of the trailer, fenders and tires included",
        "Plumb lines down from the widest points of both sides, tape between them on the ground.",
        5.0,
    )
    overall_length = Field(
        Length(),
        "greatest length, coupler and rear rack receiver included",
        "Tape along the ground, plumbed.",
        10.0,
    )
    hanger_distance = Field(
        Length(),
        "between the centres of the spring hangers, left and right",
        "Tape from the left edge of one hanger to the left edge of the other.",
        2.0,
    )
    coupler_to_front = Field(
        Length(),
        "from the ball's centre rearward to the front of the foremost wide thing on the trailer: box, rack or "
        "frame corner",
        "Tape on the level along the tongue, from the middle of the ball socket to that front, plumbed.",
        10.0,
    )
    front_width = Field(
        Length(),
        "width of that foremost wide thing, from one front corner to the other",
        "Tape across the front, corner to corner.",
        10.0,
    )
    rear_overhang = Field(
        Length(),
        "from the rearmost axle back to the rearmost low point of the trailer: bumper, lamp or receiver; a rack "
        "in the receiver counts apart",
        "Tape on the level from a plumb line at the rearmost axle to a plumb line at that point.",
        10.0,
    )
    rear_clearance = Field(
        Length(),
        "from the ground to that low point at the rear, a rack's included, trailer loaded and level",
        "Level ground, loaded, rack on: tape from the ground to the lowest point behind the wheels.",
        5.0,
    )
    tongue = Field(
        Nested(Tongue),
        "the tongue's main tube, for its bending strength and for the coupler on it",
        "Caliper over both sides and a cut end; type tongue: {section: 3 x 3 in, wall: 3/16 in}, upright first.",
    )
    note = Field(Text(), "anything you want to remember; never read")
