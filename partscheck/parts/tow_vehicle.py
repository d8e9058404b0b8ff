"""What pulls the trailer."""

from __future__ import annotations

from partscheck.parts.field import Field
from partscheck.parts.record import Record
from partscheck.parts.types import Count, Flag, Length, Load, Text


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
