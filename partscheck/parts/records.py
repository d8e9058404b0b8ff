"""The maps of a list that are no parts: service, loads and the rest; layout and tow vehicle from their modules."""

from __future__ import annotations

from partscheck.parts.common import BATHROOM_SCALE
from partscheck.parts.field import Field
from partscheck.parts.joints import BoltedJoint, JointLoad, StackItem, Tapped, Washers
from partscheck.parts.layout import Layout, Tongue
from partscheck.parts.record import Part, Record
from partscheck.parts.scale import ScaleReadings
from partscheck.parts.tow_vehicle import TowVehicle
from partscheck.parts.types import Distance, Flag, Id, Ids, Load, MonthType, Nested, Speed, Text, Words

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
