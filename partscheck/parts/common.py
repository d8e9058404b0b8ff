"""What every line of the list may carry, and the word lists that several kinds share."""

from __future__ import annotations

from partscheck.parts.field import Field
from partscheck.parts.record import Part
from partscheck.parts.types import Count, CountOrFlag, Flag, Id, Mass, Money, PositionsType, Text, Words

CALIPER = 0.1  # mm, what a careful person reaches with a caliper
DEPTH = 0.3  # mm, with a depth rod, or a straightedge and caliper
TAPE = 1.0  # mm, with a steel tape on a short length
LONG_TAPE = 3.0  # mm, with a tape over a frame
MICROMETER = 0.01  # mm
CIRCLE = 0.2  # mm on the diameter, from a caliper between two neighbours
BATHROOM_SCALE = 10.0  # N, for loads weighed in a home shop


class ListLine(Part):
    """The fields that every kind of part has."""

    id = Field(Id(), "name of this line; other lines and findings point to it by this name")
    part = Field(Id(), "id of a part in the catalogue; further fields on the line override its values")
    kind_ = Field(Id(), "what kind of part a line written out in full is", key="kind")
    qty = Field(Count(), "pieces in hand or in the cart", "Count the pieces.")
    packs = Field(Count(), "packs bought", "Count the packs in the cart.")
    pack = Field(
        Count(1),
        "pieces in one pack",
        "Read it in the seller's description: sold each, in pairs, or in packs.",
    )
    price = Field(
        Money(),
        "price of one purchase: of one pack where it comes in packs",
        "Read it off the seller's page.",
    )
    seller = Field(Text(), "who sells it")
    weight = Field(
        Mass(),
        "mass of one piece",
        "Weigh one piece on a kitchen or bathroom scale (hold it and subtract yourself), or read "
        "it off the seller's page.",
        0.5,
    )
    have = Field(
        CountOrFlag(),
        "already in the shop: true, or how many pieces",
        "Look in the shop and count the pieces.",
    )
    at = Field(
        PositionsType(),
        "where it goes: axle number from the front and side seen from behind (1L, 2R), or spare; "
        "left out, it serves every place of its kind",
    )
    mounts_on = Field(
        Id(),
        "id of the line it mounts on, where more than one would do; a nut mounts on the part "
        "whose stud it engages",
    )
    per = Field(
        Words("each", "axle", synonyms={"piece": "each", "one": "each", "pair": "axle"}),
        "what the rating is of: each piece, or the axle that the pieces share",
        'Read the seller\'s words: "for a 3500 lb axle" is per axle; a rating stamped on the '
        "piece is usually of each.",
    )
    make = Field(Flag(), "true for a part that you will make yourself, so that it can still be changed")
    basis = Field(Text(), "where this line's numbers come from")
    note = Field(Text(), "anything you want to remember; never read")


PER_AXLE = (
    "Read the plate, the stamping or the seller's data; say with per: whether it is of each "
    "piece or for an axle."
)

HAND = Words(
    "left",
    "right",
    "pair",
    "either",
    synonyms={
        "L": "left",
        "R": "right",
        "LH": "left",
        "RH": "right",
        "left and right": "pair",
        "both": "pair",
        "set": "pair",
        "any": "either",
        "universal": "either",
        "reversible": "either",
    },
)
HAND_MEANING = (
    "the side it is made for, seen from behind the trailer looking forward; pair: one left and one right "
    "come together; either: made for both sides"
)

SEAT = Words(
    "conical",
    "ball",
    "flat",
    "shank",
    synonyms={
        "acorn": "conical",
        "tapered": "conical",
        "taper": "conical",
        "cone": "conical",
        "60 deg": "conical",
        "radius": "ball",
        "spherical": "ball",
        "round": "ball",
        "mag": "shank",
        "flat washer": "flat",
    },
)
SEAT_LOOK = (
    "Look at the face that bears: a straight-sided cone is conical; a rounded one is ball "
    "(hold a straightedge along its side: light in the middle or at the ends means round); a "
    "flat with a loose washer is flat; a flat with a sleeve that enters the wheel is shank."
)
SEAT_ANGLE = (
    "Lay a 60 deg thread gauge or a protractor over the cone; most are 60 deg. From a "
    "caliper: measure the cone's large and small diameter and its height, then the angle is "
    "2 x arctan((large - small) / 2 / height)."
)
SEAT_RADIUS = (
    "Try radius gauges against the ball until no light shows; the radius is half the ball's diameter."
)

FINISH = Words(
    "plain",
    "zinc",
    "yellow zinc",
    "hot-dip galvanized",
    "zinc flake",
    "black oxide",
    "phosphate",
    "cadmium",
    "chrome",
    "nickel",
    "powder coat",
    "stainless",
    synonyms={
        "none": "plain",
        "bare": "plain",
        "oiled": "plain",
        "zinc plated": "zinc",
        "clear zinc": "zinc",
        "electrogalvanized": "zinc",
        "yellow chromate": "yellow zinc",
        "galvanized": "hot-dip galvanized",
        "galvanised": "hot-dip galvanized",
        "hdg": "hot-dip galvanized",
        "hot dip": "hot-dip galvanized",
        "black": "black oxide",
        "phosphate and oil": "phosphate",
        "powder": "powder coat",
    },
)
FINISH_LOOK = (
    "Look at it: shiny silver or bluish is zinc, gold is yellow zinc, dull grey and rough is "
    "hot-dip galvanized, dull smooth grey is zinc flake, black is black oxide or phosphate."
)

COATING = Words(
    "bare",
    "paint",
    "primer",
    "powder",
    "galvanized",
    "zinc",
    "e-coat",
    "anodized",
    "coated",
    synonyms={
        "none": "bare",
        "false": "bare",
        "true": "coated",
        "painted": "paint",
        "powder coat": "powder",
        "powder coated": "powder",
        "hot-dip galvanized": "galvanized",
        "galvanised": "galvanized",
    },
)

MATERIAL = Words(
    "A36",
    "A500 B",
    "A500 C",
    "A572 50",
    "A513",
    "A53 B",
    "S235",
    "S275",
    "S355",
    "1018",
    "1020",
    "1026",
    "1045",
    "4130",
    "4140",
    "6061-T6",
    "6063-T5",
    "6082-T6",
    "5052-H32",
    "2024-T3",
    "7075-T6",
    "304",
    "316",
    "steel",
    "aluminum",
    "stainless",
    "ductile iron",
    "gray iron",
    "cast aluminum",
    "wood",
    "plywood",
    "rubber",
    "plastic",
    synonyms={
        "mild steel": "steel",
        "aluminium": "aluminum",
        "stainless steel": "stainless",
        "cast iron": "gray iron",
        "grey iron": "gray iron",
        "A500 grade B": "A500 B",
        "A500 grade C": "A500 C",
        "A572 grade 50": "A572 50",
        "S235JR": "S235",
        "S355JR": "S355",
        "6061": "6061-T6",
        "A500B": "A500 B",
        "A500C": "A500 C",
        "S275JR": "S275",
        "304 stainless": "304",
        "316 stainless": "316",
    },
)
MATERIAL_LOOK = (
    "Ask the seller or read the stamp or mill certificate: it cannot be told by eye. A "
    "magnet only tells steel from aluminum."
)

LOCKING = Words(
    "none",
    "nylon insert",
    "all-metal",
    "thread locker",
    "split washer",
    "wedge washer",
    "jam nut",
    "castle nut",
    "serrated flange",
    synonyms={
        "nylon": "nylon insert",
        "elastic stop": "nylon insert",
        "prevailing torque": "all-metal",
        "top lock": "all-metal",
        "distorted thread": "all-metal",
        "threadlocker": "thread locker",
        "lock washer": "split washer",
        "spring washer": "split washer",
        "cotter pin": "castle nut",
        "double nut": "jam nut",
        "flange": "serrated flange",
    },
)

THREAD_MEASURE = (
    "Caliper over the crests for the diameter (a male thread measures a little under its "
    "name), then a thread gauge for the threads per inch or the pitch in mm: every tooth "
    "must sit with no light showing. 1/2-20 and M12x1.25 are easily taken for each other, so "
    "try both. In a hole, screw in a bolt that you know, by hand: it must run in all the way."
)
BOLT_CIRCLE_MEASURE = (
    "Count the studs or holes. Even count: measure straight across, from one stud's centre "
    "to its opposite (back edge of one to front edge of the other is the same distance). 5 "
    "lugs: measure between neighbours, centre to centre (back edge of one to front edge of "
    "the next), and multiply by 1.7013; or skip one stud and multiply by 1.0515. You may "
    "type the plain measurement: 5 lugs, 2.645 in between neighbours. Use a caliper: a tape "
    "cannot tell 4.5 in from 115 mm."
)
