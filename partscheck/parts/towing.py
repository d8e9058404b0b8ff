"""What joins trailer and tow vehicle, and what sits on the trailer: chains, jack, fenders, rack, tank."""

from __future__ import annotations

from partscheck.parts.common import BATHROOM_SCALE, CALIPER, TAPE, ListLine
from partscheck.parts.field import Field
from partscheck.parts.types import Distance, Length, Load, Volume, Words

STAMPED = "Read it stamped on the part, in lb or kg."
PIECE_RATING = "gross trailer weight that it may pull, as stamped"
TONGUE_RATING = "weight that it may carry on its ball end, as stamped"
D_VALUE = "D-value as stamped, in kN: pull between two masses, where that system is used"


class Coupler(ListLine):
    kind = "coupler"
    title = "coupler"

    ball_diameter = Field(
        Length(),
        "ball that the coupler is made for",
        "Read it stamped on top (2 in, 50, 1-7/8 in). Do not judge by trying: a ball too small goes in too.",
        CALIPER,
    )
    rating = Field(Load(), PIECE_RATING, "Read it stamped on top of the coupler, beside the ball's size.")
    tongue_rating = Field(Load(), TONGUE_RATING, STAMPED)
    d_value = Field(Load(), D_VALUE, "Read the plate: D and a number in kN.")
    channel_width = Field(
        Length(),
        "inside width of the coupler's channel: the tongue that fits in",
        "Caliper's inside jaws or rule between the two side plates.",
        TAPE,
    )


class Ball(ListLine):
    kind = "ball"
    title = "hitch ball"

    diameter = Field(
        Length(),
        "diameter of the ball",
        "Read it stamped on top; else caliper across the ball: 50 mm and 2 in (50.8 mm) are different balls.",
        CALIPER,
    )
    shank_diameter = Field(
        Length(), "diameter of the threaded shank", "Caliper over the thread's crests.", CALIPER
    )
    shank_length = Field(
        Length(),
        "length of the shank, from the underside of the ball's base to the end",
        "Rule from under the base to the end of the thread.",
        TAPE,
    )
    nut_height = Field(
        Length(), "height of the ball's own nut and lock washer together", "Caliper over both.", CALIPER
    )
    rating = Field(Load(), PIECE_RATING, "Read it stamped on top of the ball.")
    d_value = Field(Load(), D_VALUE, "Read the plate: D and a number in kN.")
    mounting = Field(
        Words(
            "shank",
            "fixed",
            synonyms={"welded": "fixed", "bolted": "fixed", "detachable": "fixed", "threaded": "shank"},
        ),
        "shank: put through a ball mount with a nut; fixed: one piece with the tow bar",
        "Look under it.",
    )


class BallMount(ListLine):
    kind = "ball-mount"
    title = "ball mount"

    shank_size = Field(
        Length(),
        "outside size of its square shank: the receiver that it fits",
        "Caliper across the shank.",
        0.5,
    )
    ball_hole = Field(
        Length(), "diameter of the hole for the ball's shank", "Caliper's inside jaws.", CALIPER
    )
    thickness = Field(
        Length(),
        "thickness of the plate that the ball is bolted through",
        "Caliper over the plate at the hole.",
        0.5,
    )
    drop = Field(
        Distance(),
        "how far the ball's seat lies below the top of the shank, down positive; a rise is negative",
        "Straightedge on top of the shank, rule down to the plate that the ball sits on.",
        2.0,
    )
    rating = Field(Load(), PIECE_RATING, STAMPED)
    tongue_rating = Field(Load(), TONGUE_RATING, STAMPED)


class Receiver(ListLine):
    kind = "receiver"
    title = "hitch receiver"

    size = Field(
        Length(), "inside size of its square opening", "Caliper's inside jaws across the opening.", 0.5
    )
    rating = Field(
        Load(),
        "gross trailer weight, weight-carrying, as on its plate",
        "Read the plate on the receiver: WC, weight carrying.",
    )
    tongue_rating = Field(
        Load(), "tongue weight, weight-carrying, as on its plate", "Read the plate: TW or tongue."
    )
    rating_distributing = Field(
        Load(),
        "gross trailer weight with a weight distributing hitch, as on its plate",
        "Read the plate: WD.",
    )
    tongue_rating_distributing = Field(
        Load(), "tongue weight with a weight distributing hitch, as on its plate", "Read the plate: WD, TW."
    )
    place = Field(
        Words(
            "tow vehicle",
            "trailer rear",
            synonyms={
                "vehicle": "tow vehicle",
                "car": "tow vehicle",
                "rear": "trailer rear",
                "trailer": "trailer rear",
            },
        ),
        "on the tow vehicle, or on the trailer's rear (for a rack)",
    )


class SafetyChain(ListLine):
    kind = "safety-chain"
    title = "safety chain"

    breaking_strength = Field(
        Load(),
        "least breaking strength of one chain, its hook and fastening included",
        "Read the tag or the pack.",
    )
    working_load = Field(Load(), "working load limit of one chain", "Read the tag or the pack: WLL.")
    grade = Field(
        Words(
            "30",
            "43",
            "70",
            "80",
            "100",
            "none marked",
            synonyms={
                "grade 30": "30",
                "grade 43": "43",
                "grade 70": "70",
                "grade 80": "80",
                "grade 100": "100",
                "G30": "30",
                "G43": "43",
                "G70": "70",
                "G80": "80",
                "G100": "100",
                "no marks": "none marked",
                "transport": "70",
                "proof coil": "30",
                "high test": "43",
            },
        ),
        "chain grade as marked on the links",
        "Read the links: 3, 30, 4, 43, 7, 70 embossed every foot or so.",
    )
    size = Field(
        Length(),
        "diameter of the wire that the links are made of",
        "Caliper across the wire of a link.",
        CALIPER,
    )
    length = Field(Length(), "length of one chain, hook included", "Tape along it, pulled straight.", 10.0)
    type = Field(
        Words("chain", "cable", synonyms={"wire rope": "cable", "coiled cable": "cable"}),
        "chain or wire cable",
        "Look at it.",
    )
    hook_rating = Field(
        Load(),
        "working load limit of its hook or link, which must not be weaker than the chain",
        "Read it on the hook.",
    )
    fastened_to = Field(
        Words("frame", "coupler bolts", "own bolt", synonyms={"tongue": "frame", "coupler": "coupler bolts"}),
        "what holds it to the trailer",
        "Look where its last link is bolted or welded.",
    )


class Jack(ListLine):
    kind = "jack"
    title = "tongue jack"

    rating = Field(Load(), "load that it may lift, as marked", "Read its label.")
    from_coupler = Field(
        Length(),
        "from the ball's centre rearward to the front of the jack, handle and swung foot included",
        "Tape on the level from the middle of the ball socket to the foremost part of the jack, set for towing.",
        10.0,
    )
    width = Field(
        Length(),
        "twice the way from the trailer's centre line to the outermost part of the jack, handle included",
        "Tape sideways from the middle of the tongue to the end of the handle, set for towing, and double it.",
        10.0,
    )


class Fender(ListLine):
    kind = "fender"
    title = "fender"

    inside_width = Field(
        Length(), "clear width inside, between the two edges", "Tape inside, edge to edge.", 2.0
    )
    arch_radius = Field(
        Length(),
        "inside radius of the round part, over the wheel",
        "Half the clear width at the arch's foot; or cut card to the curve.",
        5.0,
    )
    arch_length = Field(
        Length(), "clear length inside, front to rear, at the foot", "Tape inside, front to rear.", 5.0
    )
    height = Field(
        Distance(),
        "from the wheel's centre, trailer loaded, up to the fender's inside at its top",
        "Tape from the middle of the dust cap straight up to the underside.",
        3.0,
    )


class Rack(ListLine):
    kind = "rack"
    title = "hitch rack"

    rating = Field(Load(), "load that it may carry, as marked", "Read its label.")
    weight_carried = Field(
        Load(),
        "what you mean to put on it, without the rack itself",
        "Weigh what goes on it.",
        BATHROOM_SCALE,
    )
    beyond_pin = Field(
        Length(),
        "from the receiver's pin to the middle of what it carries, rearward",
        "Tape from the pin hole to the middle of the load.",
        20.0,
    )
    shank_size = Field(
        Length(),
        "outside size of its square shank: the receiver that it fits",
        "Caliper across the shank.",
        0.5,
    )


class Tank(ListLine):
    kind = "tank"
    title = "tank"

    volume = Field(Volume(), "what it holds, full", "Read its label, or fill it from a marked can.", 1.0)
    holds = Field(
        Words(
            "water",
            "diesel",
            "gasoline",
            "sugar syrup",
            "honey",
            "brine",
            synonyms={
                "fresh water": "water",
                "gray water": "water",
                "grey water": "water",
                "waste water": "water",
                "petrol": "gasoline",
                "gas": "gasoline",
                "fuel oil": "diesel",
                "syrup": "sugar syrup",
                "bee feed": "sugar syrup",
                "salt water": "brine",
            },
        ),
        "what is in it; left out, water",
    )
