"""Bolts, nuts and washers of the bolted joints."""

from __future__ import annotations

from partscheck.parts.common import CALIPER, FINISH, FINISH_LOOK, LOCKING, TAPE, THREAD_MEASURE, ListLine
from partscheck.parts.field import Field
from partscheck.parts.types import (
    FastenerSizeType,
    ForSizeType,
    GradeType,
    Length,
    LengthOrFull,
    ThreadType,
    Words,
)

GRADE_LOOK = (
    "Read the head: inch bolts carry lines (3 lines grade 5, 6 lines grade 8, none grade 2 "
    "or unknown), metric ones a number (8.8, 10.9), stainless ones A2-70 or the like."
)
LOCKING_MEANING = "what keeps it from turning loose"
LOCKING_LOOK = (
    "Look at it: a colored ring inside is a nylon insert; a squeezed top or oval thread is all-metal."
)


class Bolt(ListLine):
    kind = "bolt"
    title = "bolt"

    size = Field(
        FastenerSizeType(),
        "thread and length; the length is from under the head to the end (overall if countersunk)",
        "Length: rule from under the head to the very end. " + THREAD_MEASURE,
        0.5,
    )
    grade = Field(GradeType(), "strength as marked on the head", GRADE_LOOK)
    finish = Field(FINISH, "what the surface is coated with", FINISH_LOOK)
    head = Field(
        Words(
            "hex",
            "hex flange",
            "heavy hex",
            "socket cap",
            "button",
            "countersunk",
            "carriage",
            "square",
            "12-point",
            "eye",
            "none",
            synonyms={
                "hexagon": "hex",
                "hex cap": "hex",
                "flange": "hex flange",
                "hex socket": "socket cap",
                "flat": "countersunk",
                "flat head": "countersunk",
                "coach": "carriage",
                "socket": "socket cap",
                "threaded rod": "none",
            },
        ),
        "shape of the head",
        "Look at it.",
    )
    thread_length = Field(
        LengthOrFull(),
        "threaded part: from the point to the first full thread next to the head; full when all of it is",
        "Rule from the end of the bolt to where the full thread stops.",
        TAPE,
    )
    locking = Field(LOCKING, LOCKING_MEANING, LOCKING_LOOK)


class Nut(ListLine):
    kind = "nut"
    title = "nut"

    thread = Field(ThreadType(), "thread of the nut", THREAD_MEASURE)
    grade = Field(
        GradeType(),
        "strength as marked",
        "Read the face or the flats: inch nuts carry dots or lines at an angle (120 deg apart "
        "grade 5, 60 deg apart grade 8), metric ones a number (8, 10).",
    )
    finish = Field(FINISH, "what the surface is coated with", FINISH_LOOK)
    height = Field(Length(), "overall height, insert included", "Caliper over the two faces.", CALIPER)
    locking = Field(LOCKING, LOCKING_MEANING, LOCKING_LOOK)


class Washer(ListLine):
    kind = "washer"
    title = "washer"

    for_ = Field(
        ForSizeType(), "the bolt it is made for", "Slip it over the bolt: a little play is right.", key="for"
    )
    inside = Field(Length(), "diameter of its hole", "Caliper's inside jaws across the hole.", CALIPER)
    outside = Field(Length(), "outside diameter", "Caliper across it.", CALIPER)
    thickness = Field(
        Length(), "thickness of one washer, pressed flat", "Caliper over it at three places.", CALIPER
    )
    hardness = Field(
        Words(
            "soft",
            "hardened",
            "100 HV",
            "140 HV",
            "200 HV",
            "300 HV",
            synonyms={
                "mild": "soft",
                "plain": "soft",
                "hard": "hardened",
                "through hardened": "hardened",
                "F436": "hardened",
                "grade 8": "hardened",
                "HV 100": "100 HV",
                "HV 140": "140 HV",
                "HV 200": "200 HV",
                "HV 300": "300 HV",
            },
        ),
        "how hard it is: soft (plain steel), hardened, or its Vickers class",
        "Read its mark or pack. A file bites into a soft washer and slides over a hardened one.",
    )
    type = Field(
        Words(
            "flat",
            "narrow flat",
            "wide flat",
            "fender",
            "structural",
            "split lock",
            "wedge lock",
            "conical spring",
            "internal tooth",
            "external tooth",
            "square",
            "bevel",
            synonyms={
                "SAE": "narrow flat",
                "USS": "wide flat",
                "SAE flat": "narrow flat",
                "USS flat": "wide flat",
                "split": "split lock",
                "spring": "split lock",
                "lock": "split lock",
                "penny": "fender",
                "belleville": "conical spring",
                "cone spring": "conical spring",
                "tooth": "external tooth",
                "plate": "square",
                "taper": "bevel",
            },
        ),
        "what sort of washer it is",
        "Look at it.",
    )
