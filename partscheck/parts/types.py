"""The types of fields, gathered: import them from here."""

from __future__ import annotations

from partscheck.parts.marking_types import (
    BoltCircleType,
    DotWeekType,
    FastenerSizeType,
    ForSizeType,
    GradeType,
    LoadIndexType,
    MonthType,
    OffsetType,
    PositionsType,
    Section,
    SectionType,
    ServiceDescriptionType,
    ThreadType,
    TireSizeType,
    WheelSizeType,
    WireGaugeType,
)
from partscheck.parts.measure_types import (
    Angle,
    Area,
    Charge,
    Current,
    Distance,
    Length,
    LengthOrFull,
    Load,
    Mass,
    Measured,
    Pressure,
    RangeInches,
    Ratio,
    Speed,
    Temperature,
    Torque,
    Voltage,
    Volume,
)
from partscheck.parts.number_types import Count, CountOrFlag, Flag, Money, Number, Price
from partscheck.parts.shaped_types import Ids, Nested, Point, Points
from partscheck.parts.typed_text import UNKNOWN_SPELLINGS, TypedText
from partscheck.parts.word_types import Id, Text, UnlistedWord, Words

__all__ = [
    "UNKNOWN_SPELLINGS", "Angle", "Area", "BoltCircleType", "Charge", "Count", "CountOrFlag", "Current",
    "Distance", "DotWeekType", "FastenerSizeType", "Flag", "ForSizeType", "GradeType", "Id", "Ids",
    "Length", "LengthOrFull", "Load", "LoadIndexType", "Mass", "Measured", "Money", "MonthType",
    "Nested", "Number", "OffsetType", "Point", "Points", "PositionsType", "Pressure", "Price",
    "RangeInches", "Ratio", "Section", "SectionType", "ServiceDescriptionType", "Speed", "Temperature",
    "Text", "ThreadType", "TireSizeType", "Torque", "TypedText", "UnlistedWord", "Voltage", "Volume",
    "WheelSizeType", "WireGaugeType", "Words",
]  # fmt: skip
