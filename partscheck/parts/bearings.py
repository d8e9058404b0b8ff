"""What runs on the spindle: bearings, seals, caps, spindle nuts, grease and brakes."""

from __future__ import annotations

from partscheck.parts.common import (
    CALIPER,
    HAND,
    HAND_MEANING,
    MICROMETER,
    PER_AXLE,
    TAPE,
    THREAD_MEASURE,
    ListLine,
)
from partscheck.parts.field import Field
from partscheck.parts.types import (
    BoltCircleType,
    Count,
    Current,
    Distance,
    Length,
    Load,
    Mass,
    Number,
    Temperature,
    Text,
    ThreadType,
    Voltage,
    Words,
)

NUMBER = (
    "Wipe it clean and read the number etched or stamped on the wide face of the ring; the "
    "cone (inner ring with rollers) and the cup (outer ring) each carry their own."
)
DATA_SHEET = "Read it in the bearing maker's data sheet for exactly this number; it is not on the bearing."

THICKENER = Words(
    "lithium",
    "lithium complex",
    "calcium",
    "calcium complex",
    "calcium sulfonate",
    "aluminum complex",
    "barium",
    "clay",
    "polyurea",
    "sodium",
    "silica",
    synonyms={
        "lithium-12-hydroxy": "lithium",
        "lithium 12 hydroxystearate": "lithium",
        "bentonite": "clay",
        "bentone": "clay",
        "calcium sulphonate": "calcium sulfonate",
        "aluminium complex": "aluminum complex",
        "calcium sulfonate complex": "calcium sulfonate",
        "barium complex": "barium",
    },
)


class Bearing(ListLine):
    """Tapered roller bearings: ``qty`` counts sets of cone and cup."""

    kind = "bearing"
    title = "bearing"

    place = Field(
        Words("inner", "outer", "both"),
        "where it runs: inner (the large one, next to the seal), outer, or both",
        "The inner bearing sits next to the seal and is mostly the larger one.",
    )
    designation = Field(Text(), "the set's number, cone and cup together, or the cone's", NUMBER)
    cone = Field(Text(), "number on the cone (inner ring with its rollers)", NUMBER)
    cup = Field(Text(), "number on the cup (outer ring)", NUMBER)
    includes = Field(
        Words("cone", "cup", "both", synonyms={"set": "both"}),
        "what one piece of this line is: a cone, a cup, or both",
        "Read the seller's description: halves are often sold each on its own.",
    )
    bore = Field(
        Length(),
        "the cone's bore: with a tolerance it is a measurement, without it is a size by name",
        "Read the number instead, if you can. Else inside micrometer in two directions.",
        MICROMETER,
    )
    outside = Field(
        Length(),
        "the cup's outside diameter: with a tolerance it is a measurement, without it is a size by name",
        "Read the number instead, if you can. Else micrometer over the cup in two directions.",
        MICROMETER,
    )
    width = Field(
        Length(),
        "overall width of cone and cup set together",
        "Set the cone in the cup and caliper over both.",
        CALIPER,
    )
    a = Field(
        Distance(),
        "from a wide face of the bearing to its effective load centre, as the data sheet gives it (a); "
        "inside the bearing counts positive",
        DATA_SHEET,
    )
    dynamic_rating = Field(
        Load(),
        "basic dynamic load rating C, for the turns in rating_turns",
        DATA_SHEET + " Note the turns it is for.",
    )
    static_rating = Field(Load(), "basic static load rating C0", DATA_SHEET)
    rating_turns = Field(
        Number(1),
        "the turns that the dynamic rating is for: 1e6 or 90e6",
        "Read it at the head of the data sheet's column: ISO ratings are for 1 million turns, "
        "some inch catalogues give them for 90 million.",
    )
    e_factor = Field(Number(), "factor e: the ratio Fa/Fr up to which the axial load is left out", DATA_SHEET)
    y_factor = Field(Number(), "factor Y of the axial load", DATA_SHEET)


class Seal(ListLine):
    kind = "seal"
    title = "grease seal"

    inside = Field(
        Length(),
        "shaft that the seal is made for (its lip itself is smaller)",
        "Read the number on the seal and look it up. The lip cannot be measured well: measure "
        "the journal instead.",
        CALIPER,
    )
    outside = Field(
        Length(),
        "bore that the seal is made for (the seal itself is a little larger)",
        "Read the number on the seal; else caliper over the metal case in three directions.",
        CALIPER,
    )
    width = Field(Length(), "width of the case", "Caliper over the case.", CALIPER)
    lips = Field(
        Count(1, 5, {"single": 1, "double": 2, "triple": 3}),
        "number of rubber lips that touch the shaft",
        "Look at the inside edge: one lip, or two one behind the other.",
    )


class DustCap(ListLine):
    kind = "dust-cap"
    title = "dust cap"

    outside = Field(
        Length(),
        "outside diameter of the skirt that is driven into the hub",
        "Caliper over the skirt in three directions; it is a press fit, a little over the bore.",
        CALIPER,
    )


class SpindleNut(ListLine):
    kind = "spindle-nut"
    title = "spindle nut"

    thread = Field(ThreadType(), "thread of the nut: 1-14 is UNS, 1-12 is UNF", THREAD_MEASURE)


class SpindleWasher(ListLine):
    kind = "spindle-washer"
    title = "spindle washer"

    inside = Field(
        Length(), "inside diameter, the flat or tongue left out", "Caliper's inside jaws.", CALIPER
    )
    thickness = Field(Length(), "thickness of the washer", "Caliper over both faces.", CALIPER)


class CotterPin(ListLine):
    kind = "cotter-pin"
    title = "cotter pin"

    diameter = Field(
        Length(), "diameter by name: the hole it is made for", "Caliper over both legs together.", CALIPER
    )
    length = Field(Length(), "from under the eye to the end of the shorter leg", "Rule along the pin.", TAPE)


class Grease(ListLine):
    kind = "grease"
    title = "grease"

    service_class = Field(
        Words(
            "GC-LB",
            "GC",
            "GB",
            "GA",
            "LB",
            "LA",
            "GB-LB",
            "none marked",
            synonyms={
                "GCLB": "GC-LB",
                "GC/LB": "GC-LB",
                "NLGI GC-LB": "GC-LB",
                "GC LB": "GC-LB",
                "none": "none marked",
                "not marked": "none marked",
            },
        ),
        "service class printed on the tub: G for wheel bearings (GA, GB, GC), L for chassis (LA, LB)",
        "Read the tub: the class stands by itself or in the NLGI mark, as GC-LB. Nothing there: "
        "type none marked.",
    )
    nlgi_grade = Field(
        Words("000", "00", "0", "1", "1.5", "2", "3", "4", "5", "6"),
        "stiffness by NLGI number: mostly 2 in wheel bearings",
        "Read the tub: NLGI and a number.",
    )
    thickener = Field(
        THICKENER,
        "the soap or thickener that the grease is made with",
        "Read the tub or the maker's data sheet.",
    )
    already_in = Field(
        THICKENER,
        "thickener of the grease that is already in the bearings; left out for clean or new bearings",
        "Only the one who packed them knows; colour tells nothing. Not known: clean the bearings out.",
    )
    amount = Field(Mass(), "mass of grease in one tub or cartridge", "Read the tub.", 0.01)
    dropping_point = Field(
        Temperature(), "temperature at which it turns liquid", "Read the maker's data sheet."
    )


class Brake(ListLine):
    """One brake assembly, of one wheel."""

    kind = "brake"
    title = "brake"

    type = Field(
        Words(
            "electric",
            "hydraulic",
            "surge",
            "mechanical",
            synonyms={
                "cable": "mechanical",
                "electric-over-hydraulic": "hydraulic",
                "overrun": "surge",
                "hydraulic surge": "surge",
                "electric drum": "electric",
                "EOH": "hydraulic",
            },
        ),
        "what works it: electric, hydraulic, surge (overrun coupler with hydraulics) or mechanical (cable)",
        "Two wires and a magnet: electric. A hydraulic line: hydraulic, or surge when the "
        "coupler slides. A cable: mechanical.",
    )
    hand = Field(
        HAND,
        HAND_MEANING,
        "Magnet at the bottom: the shorter shoe and the actuating arm point to the front of the "
        "trailer on the side it is made for (common practice); some carry LH or RH on the back "
        "plate.",
    )
    drum_diameter = Field(
        Length(),
        "inside diameter of the drum that it is made for",
        "Read the back plate or the box: 10 x 2-1/4 in.",
        TAPE,
    )
    shoe_width = Field(Length(), "width of the shoes", "Caliper or rule across the lining.", TAPE)
    rating = Field(Load(), "axle or wheel load that it is made for; per: axle says which", PER_AXLE)
    flange = Field(
        BoltCircleType(),
        "bolts that hold its back plate to the flange: how many, and their circle",
        "Count the bolt holes. Four: straight across, centre to centre. Five: between "
        "neighbours, times 1.7013.",
        0.5,
    )
    current = Field(
        Current(),
        "current that each brake draws at the stated voltage",
        "Ammeter in one brake's wire at full voltage; or read the maker's sheet.",
        0.1,
    )
    voltage = Field(
        Voltage(), "voltage that the current is stated at", "Read the maker's sheet: mostly 12 V.", 0.1
    )
    design_tire_radius = Field(
        Length(),
        "loaded tire radius at which the brake's rating holds",
        "Read the brake maker's sheet: it states the largest tire, as a rolling or loaded radius.",
        3.0,
    )
