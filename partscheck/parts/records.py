"""The maps of a list that are no parts: service, layout, loads, tow vehicle and the rest."""

from __future__ import annotations

from partscheck.parts.common import (
    BATHROOM_SCALE,
    CALIPER,
    LONG_TAPE,
    MATERIAL,
    MATERIAL_LOOK,
)
from partscheck.parts.field import Field
from partscheck.parts.joints import BoltedJoint, JointLoad, StackItem, Tapped, Washers
from partscheck.parts.record import Part, Record
from partscheck.parts.scale import ScaleReadings
from partscheck.parts.types import (
    Count,
    Distance,
    Flag,
    Id,
    Ids,
    Length,
    Load,
    MonthType,
    Nested,
    SectionType,
    Speed,
    Text,
    Words,
)

WEIGH_TONGUE = (
    "Loaded trailer level on its wheels, coupler at its towing height on a bathroom scale "
    "and a block (past the scale's range: a beam across scale and block, and multiply by the "
    "lever). Chock the wheels on both sides first."
)


class Service(Record):
    """What the trailer is for: its weight, speed, roads and country."""

    record_name = "service"

    gross_weight = Field(
        Load(),
        "weight of the whole loaded trailer, its tongue load included, as declared: static and coupled",
        "Loaded trailer on a public scale, uncoupled, all its weight on the scale; or add up all "
        "parts and cargo.",
        90.0,
    )
    weighed = Field(Flag(), "true when the gross weight is off a scale")
    scale = Field(
        Nested(ScaleReadings), "readings of a public scale; two of them give the tongue weight, three check it"
    )
    tongue_weight = Field(
        Load(), "weight that the loaded trailer puts on the ball", WEIGH_TONGUE, BATHROOM_SCALE
    )
    top_speed = Field(Speed(), "highest speed that you will tow at")
    surface = Field(
        Words(
            "paved",
            "gravel",
            "off-road",
            synonyms={
                "road": "paved",
                "asphalt": "paved",
                "dirt": "gravel",
                "track": "gravel",
                "offroad": "off-road",
            },
        ),
        "the roughest surface that it will often see; sets the shock factor of calculated parts",
    )
    country = Field(
        Words(
            "US",
            "CA",
            "MX",
            "AU",
            "NZ",
            "GB",
            "IE",
            "EU",
            "DE",
            "FR",
            "NL",
            "BE",
            "AT",
            "CH",
            "IT",
            "ES",
            "PT",
            "PL",
            "CZ",
            "DK",
            "SE",
            "NO",
            "FI",
            "ZA",
            synonyms={
                "USA": "US",
                "UK": "GB",
                "Canada": "CA",
                "Australia": "AU",
                "New Zealand": "NZ",
                "Germany": "DE",
            },
        ),
        "whose rules to point at; left out, matters of law say: look it up",
    )
    trailer_type = Field(
        Words(
            "tag",
            "full",
            "dolly",
            synonyms={"semi": "tag", "center axle": "tag", "drawbar": "full", "tow dolly": "dolly"},
        ),
        "tag: axles near the middle, weight on the ball; full: axles front and rear, none on the "
        "ball; dolly: carries one end of a vehicle",
    )
    note = Field(Text(), "anything you want to remember; never read")


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


class TowVehicle(Record):
    """What pulls the trailer."""

    record_name = "tow_vehicle"

    tow_rating = Field(
        Load(),
        "heaviest braked trailer that it may pull",
        "Read the owner's manual or the papers, not the hitch.",
    )
    tow_rating_unbraked = Field(
        Load(), "heaviest trailer without brakes that it may pull", "Read the owner's manual or the papers."
    )
    tongue_rating = Field(
        Load(), "heaviest weight that it may carry on its hitch", "Read the owner's manual or the papers."
    )
    weight = Field(
        Load(), "weight of the tow vehicle as it will tow", "Public scale, loaded as for the trip.", 90.0
    )
    weight_distribution = Field(Flag(), "true when a weight distributing hitch is used")
    weight_returned = Field(
        Load(),
        "weight that a weight distributing hitch puts back on the trailer's axles",
        "Weigh the trailer's axles coupled, with and without the spring bars: the difference.",
        90.0,
    )
    hitch_height = Field(
        Length(),
        "height of the ball's centre with a ball mount of no drop, tow vehicle loaded",
        "Level ground, loaded: tape from the ground to the top of the receiver's opening, plus "
        "the height of the ball's centre above it.",
        5.0,
    )
    ball_to_bumper = Field(
        Length(),
        "from the ball's centre forward to the rearmost part of the tow vehicle: bumper, spare or tailgate",
        "Tape on the level from the middle of the ball to a plumb line at that part, ball mount in place.",
        10.0,
    )
    bumper_width = Field(
        Length(),
        "width of the tow vehicle at its rear, from one corner to the other",
        "Tape across the bumper between the points where its corners round forward.",
        10.0,
    )
    connector_ways = Field(Count(1, 13), "number of pins of its trailer socket", "Count the pins.")
    brake_controller = Field(
        Flag(), "true when a controller for electric brakes is fitted", "Look by the driver's knee."
    )
    note = Field(Text(), "anything you want to remember; never read")


class LoadEntry(Record):
    """One weight and where it stands."""

    record_name = "load"

    what = Field(Text(), "what it is")
    part = Field(
        Id(),
        "id of the line of a tank or rack that stands here: its weight then comes from that line, and it counts "
        "both full and empty where no load cases are named",
    )
    weight = Field(
        Load(),
        "its weight; of a tank or rack, with all that is in it or on it",
        "Weigh it, in pieces if need be, or add up what it is made of.",
        BATHROOM_SCALE,
    )
    from_coupler = Field(
        Distance(),
        "from the ball's centre rearward to the middle of its weight",
        "Tape on the level from the middle of the ball socket; the middle of the weight is where "
        "it balances on a pipe.",
        20.0,
    )
    from_centre = Field(
        Distance(),
        "from the trailer's centre line to the middle of its weight, right positive",
        "Tape from the centre line between the frame rails; left counts negative.",
        10.0,
    )
    moves_with_axle = Field(
        Flag(),
        "true for what moves along when the axle is moved: wheels, axle, springs, brakes; without a place of its "
        "own it stands at the axle",
    )
    cases = Field(Ids(), "the load cases that it counts in; left out, it counts in every case")
    note = Field(Text(), "anything you want to remember; never read")


class PracticeOverride(Record):
    """The user's own limit over a shipped one, with the reason that reports show."""

    record_name = "practice_limit"
    required = ("value", "reason")

    value = Field(Text(), "the limit, in the unit of the shipped one")
    reason = Field(Text(), "why; shown in the report")
    note = Field(Text(), "anything you want to remember; never read")


class Acceptance(Record):
    """A caution that the user has looked into; a stop cannot be accepted."""

    record_name = "acceptance"
    required = ("rule", "reason")

    rule = Field(Id(), "the rule whose caution is accepted, by its short name")
    part = Field(Id(), "id of the line that it is accepted for")
    reason = Field(Text(), "what you found out; shown in the report")
    note = Field(Text(), "anything you want to remember; never read")


class PartsList(Record):
    """The top of the file."""

    record_name = "list"

    build = Field(Text(), "name of the build")
    service = Field(Nested(Service), "what the trailer is for: weight, speed, roads, country")
    layout = Field(Nested(Layout), "where things stand on the trailer")
    parts = Field(
        Nested(Part, "many"), "the lines of the list: parts from the catalogue or written out in full"
    )
    bolted_joints = Field(Nested(BoltedJoint, "many"), "joints to check layer by layer")
    loads = Field(Nested(LoadEntry, "many"), "what weighs what and where it stands")
    load_cases = Field(Ids(), "names of the load cases, such as empty and loaded")
    tow_vehicle = Field(Nested(TowVehicle), "what pulls the trailer")
    practice = Field(
        Nested(PracticeOverride, "named"), "your own limits over the shipped ones, each with a reason"
    )
    accept = Field(Nested(Acceptance, "many"), "cautions that you have looked into")
    as_of = Field(MonthType(), "the month that ages count to; no clock is read")
    note = Field(Text(), "anything you want to remember; never read")


__all__ = [
    "Acceptance",
    "BoltedJoint",
    "JointLoad",
    "Layout",
    "LoadEntry",
    "PartsList",
    "PracticeOverride",
    "ScaleReadings",
    "Service",
    "StackItem",
    "Tapped",
    "Tongue",
    "TowVehicle",
    "Washers",
]
