"""Brake control, battery, wiring, lamps and reflectors."""

from __future__ import annotations

from partscheck.parts.common import LONG_TAPE, ListLine
from partscheck.parts.field import Field
from partscheck.parts.types import Charge, Count, Current, Flag, Length, Voltage, WireGaugeType, Words

VOLTAGE_LOOK = "Read its label."


class BreakawayKit(ListLine):
    kind = "breakaway-kit"
    title = "breakaway kit"

    voltage = Field(Voltage(), "voltage of its battery", VOLTAGE_LOOK)
    capacity = Field(Charge(), "capacity of its battery", VOLTAGE_LOOK)


class Battery(ListLine):
    kind = "battery"
    title = "battery"

    voltage = Field(Voltage(), "voltage by name: mostly 12 V", VOLTAGE_LOOK)
    capacity = Field(Charge(), "capacity, at the twenty-hour rate", VOLTAGE_LOOK)


class BrakeController(ListLine):
    kind = "brake-controller"
    title = "brake controller"

    voltage = Field(Voltage(), "voltage that it works at", VOLTAGE_LOOK)
    current = Field(Current(), "most current that it gives to the brakes", "Read its data sheet.")
    brakes = Field(Count(), "most brakes that it may work (two per axle)", "Read its data sheet: axles x 2.")


class Connector(ListLine):
    kind = "connector"
    title = "trailer connector"

    ways = Field(Count(1, 13), "number of its pins", "Count the pins or blades: 4, 5, 6, 7 or 13.")


class Wire(ListLine):
    kind = "wire"
    title = "wire"

    gauge = Field(
        WireGaugeType(),
        "size of the copper of one conductor",
        "Read it printed on the jacket (14 AWG, 2.5 mm2). Stripped: it cannot be told by the "
        "jacket's thickness.",
    )
    run = Field(
        Length(),
        "one-way distance along the cable, from its source to what it feeds",
        "Tape or string along the way that the cable takes.",
        50.0,
    )
    length = Field(Length(), "length bought", "Read the spool.", LONG_TAPE)
    fuse = Field(Current(), "fuse or breaker that protects it", "Read the fuse.")
    feeds = Field(
        Words(
            "brakes",
            "lamps",
            "charge",
            "breakaway",
            "other",
            synonyms={"brake": "brakes", "lights": "lamps", "lighting": "lamps", "battery": "charge"},
        ),
        "what it feeds",
    )
    returns = Field(
        Words("wire", "frame", synonyms={"ground wire": "wire", "chassis": "frame"}),
        "how the current comes back: through a wire of the same size, or through the frame",
        "Look at the far end: two wires, or one wire and a screw into the frame.",
    )


LAMP_PLACE = Words(
    "left",
    "right",
    "center",
    "front",
    "rear",
    "left front",
    "right front",
    "left rear",
    "right rear",
    "left side",
    "right side",
    synonyms={
        "centre": "center",
        "middle": "center",
        "back": "rear",
        "front left": "left front",
        "front right": "right front",
        "rear left": "left rear",
        "rear right": "right rear",
    },
)
COLOR = Words(
    "red",
    "amber",
    "white",
    "amber and red",
    synonyms={"orange": "amber", "yellow": "amber", "clear": "white", "red and amber": "amber and red"},
)
COLOR_LOOK = "Look at its lens."


class Lamp(ListLine):
    kind = "lamp"
    title = "lamp"

    function = Field(
        Words(
            "stop-tail-turn",
            "stop",
            "tail",
            "turn",
            "license plate",
            "side marker",
            "clearance",
            "identification",
            "reverse",
            "fog",
            "combination",
            synonyms={
                "brake light": "stop",
                "tail-stop-turn": "stop-tail-turn",
                "tail light": "tail",
                "indicator": "turn",
                "number plate": "license plate",
                "marker": "side marker",
                "id bar": "identification",
                "backup": "reverse",
                "plate": "license plate",
                "stop/tail/turn": "stop-tail-turn",
            },
        ),
        "what it shows; combination: stop, tail, turn, side and plate in one",
        "Read its box or the letters on its lens.",
    )
    color = Field(
        COLOR,
        "color of its light; amber and red: double-faced, amber to the front and red to the rear",
        COLOR_LOOK,
    )
    position = Field(LAMP_PLACE, "where it sits, seen from behind")
    current = Field(
        Current(), "current that it draws, all its functions on", "Read its box, or watts divided by volts."
    )
    reflector = Field(
        Flag(),
        "true when its lens is a reflector too: to the side of a side marker, to the rear of a rear lamp, both "
        "ways of a combination lamp",
        "Look at its lens for a field of small prisms, or read its box.",
    )


class Reflector(ListLine):
    kind = "reflector"
    title = "reflector"

    color = Field(COLOR, "color of its lens", COLOR_LOOK)
    position = Field(LAMP_PLACE, "where it sits, seen from behind")
    form = Field(
        Words("lens", "tape", synonyms={"prism": "lens", "conspicuity tape": "tape", "sheet": "tape"}),
        "a reflector of glass or plastic, or tape along the sides",
    )
