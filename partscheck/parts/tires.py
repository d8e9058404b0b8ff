"""Tires."""

from __future__ import annotations

from partscheck.parts.common import ListLine
from partscheck.parts.field import Field
from partscheck.parts.types import (
    DotWeekType,
    Length,
    Load,
    LoadIndexType,
    Pressure,
    RangeInches,
    ServiceDescriptionType,
    TireSizeType,
    Words,
)

SPEED_SYMBOLS = (
    "A1",
    "A2",
    "A3",
    "A4",
    "A5",
    "A6",
    "A7",
    "A8",
    "B",
    "C",
    "D",
    "E",
    "F",
    "G",
    "J",
    "K",
    "L",
    "M",
    "N",
    "P",
    "Q",
    "R",
    "S",
    "T",
    "U",
    "H",
    "V",
    "W",
    "Y",
)
LOAD_RANGES = ("A", "B", "C", "D", "E", "F", "G", "H", "J", "L", "M", "N", "SL", "XL", "LL")


class Tire(ListLine):
    kind = "tire"
    title = "tire"

    size = Field(
        TireSizeType(),
        "size exactly as moulded on the sidewall, letters in front and behind included",
        "Read the large characters on the sidewall: ST205/75R14, P205/75R15, 145/80 R13 C, "
        "31x10.50R15LT, 4.80-12. The letters count: P, LT, ST and C are different tires of one "
        "size.",
    )
    service_description = Field(
        ServiceDescriptionType(),
        "load index and speed symbol as moulded behind the size: 102/99S",
        "Read it on the sidewall right behind the size: one or two numbers and a letter. Two "
        "numbers are for single and dual wheels.",
    )
    load_index = Field(
        LoadIndexType(),
        "the load index: the number behind the size (single wheel)",
        "Read the number behind the size on the sidewall; of two (104/101) the first is for single wheels.",
    )
    speed_symbol = Field(
        Words(*SPEED_SYMBOLS),
        "the speed symbol: the letter behind the load index",
        "Read the letter behind the load index on the sidewall. Many trailer tires carry none.",
    )
    load_range = Field(
        Words(*LOAD_RANGES, synonyms={"extra load": "XL", "standard load": "SL", "reinforced": "XL"}),
        "the load range letter",
        "Read LOAD RANGE and its letter on the sidewall; a passenger tire says SL, XL or nothing.",
    )
    max_load = Field(
        Load(),
        "load that each tire carries as moulded (single), not divided by anything",
        "Read MAX LOAD SINGLE on the sidewall, near the bead, in small characters: type the lb "
        "or the kg figure, not both.",
    )
    max_pressure = Field(
        Pressure(),
        "highest cold pressure moulded on the sidewall",
        "Read it on the sidewall, beside MAX LOAD.",
    )
    rated_pressure = Field(
        Pressure(),
        "cold pressure that belongs to the rated load",
        'Read it beside MAX LOAD ("... kg at ... kPa"); for a passenger tire it is usually below '
        "the moulded maximum: look in the tire maker's load table.",
    )
    diameter = Field(
        Length(),
        "overall diameter: free, inflated and new",
        "Stand the mounted, inflated tire on a flat floor off the trailer; lay a straightedge "
        "level on its top, tape from it to the floor. Worn tread counts too: add twice what is "
        "worn off.",
        3.0,
    )
    loaded_radius = Field(
        Length(),
        "from the wheel's centre to the ground, static, at the tire's full load and its rated pressure",
        "Loaded trailer on level ground, tire at pressure: tape from the ground to the middle of "
        "the dust cap.",
        3.0,
    )
    rim_width_range = Field(
        RangeInches(),
        "rim widths that the size may be mounted on",
        "Look in the tire maker's data for exactly this size; it is not on the tire.",
    )
    section_width = Field(
        Length(),
        "width of the inflated tire from sidewall to sidewall, lettering left out",
        "Two straightedges against the sidewalls at their widest, tape between them.",
        2.0,
    )
    dot_week = Field(
        DotWeekType(),
        "week and year of making: the last four digits of the DOT code",
        "Read the oval at the end of the DOT code on one sidewall: 3519 is week 35 of 2019. Look "
        "on the other side, too; three digits mean before 2000.",
    )
    construction = Field(
        Words(
            "radial",
            "bias",
            "bias belted",
            synonyms={
                "R": "radial",
                "D": "bias",
                "B": "bias belted",
                "cross ply": "bias",
                "diagonal": "bias",
                "bias ply": "bias",
            },
        ),
        "radial, bias (diagonal) or bias belted",
        "Read the letter between the numbers of the size: R radial, D or a dash bias, B belted; "
        "the sidewall also says RADIAL.",
    )
    use = Field(
        Words(
            "highway",
            "not for highway",
            "implement",
            "off-road vehicle",
            "golf cart",
            "lawn",
            synonyms={
                "NHS": "not for highway",
                "farm": "implement",
                "ATV": "off-road vehicle",
                "golf": "golf cart",
                "trailer": "highway",
                "road": "highway",
                "ST": "highway",
            },
        ),
        "what the tire is made for, as moulded or sold",
        'Read the sidewall: NHS, "not for highway service", an implement code (I-1, F-2) or a '
        "picture of use.",
    )
