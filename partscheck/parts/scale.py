"""Readings of a public scale, with and without the tow vehicle."""

from __future__ import annotations

from partscheck.parts.field import Field
from partscheck.parts.record import Record
from partscheck.parts.types import Id, Load, Text

SCALE_DIVISION = 90.0  # N, the 20 lb or 10 kg that a public scale shows in


class ScaleReadings(Record):
    """What a scale showed, all on one day with the same load: each reading is of one or two of the supports."""

    record_name = "scale"

    whole_trailer = Field(
        Load(),
        "the trailer unhitched, wheels and jack all on the scale: its gross weight",
        "Public scale: all of the trailer on it, jack down, tow vehicle driven off. Chock the wheels.",
        SCALE_DIVISION,
    )
    axles_hitched = Field(
        Load(),
        "the trailer's wheels alone on the scale, hitched and level, the tow vehicle beside it",
        "Public scale: drive on until only the trailer's wheels stand on it; spring bars of the hitch loose.",
        SCALE_DIVISION,
    )
    tow_vehicle_hitched = Field(
        Load(),
        "all wheels of the tow vehicle on the scale with the trailer hitched, the trailer's wheels off it",
        "Public scale: drive off until the trailer's wheels are down and the tow vehicle still stands on it.",
        SCALE_DIVISION,
    )
    tow_vehicle_alone = Field(
        Load(),
        "all wheels of the tow vehicle on the scale without the trailer, the same people and fuel in it",
        "Public scale, right after or before the other reading.",
        SCALE_DIVISION,
    )
    all_hitched = Field(
        Load(),
        "tow vehicle and trailer hitched, all wheels of both on the scale",
        "Public scale: all of both on it at once.",
        SCALE_DIVISION,
    )
    case = Field(Id(), "the load case that was weighed; left out, the trailer loaded as declared")
    note = Field(Text(), "anything you want to remember; never read")
