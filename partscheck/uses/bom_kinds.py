"""How a bill of materials sorts and names the kinds of parts: assembly, and what names a part at the counter."""

from __future__ import annotations

TYPE_CHECKING = False
if TYPE_CHECKING:
    from partscheck.parts.record import Part

# Assemblies in the order in which a trailer is put together, each with its kinds; a kind with the fields that
# tell it from another of its kind when one stands at the counter.
ASSEMBLIES: dict[str, dict[str, tuple[str, ...]]] = {
    "wheel ends": {
        "hub": ("bolt_circle", "stud_thread", "rating"),
        "adapter": ("hub_circle", "wheel_circle", "thickness"),
        "spacer": ("bolt_circle", "thickness"),
        "wheel": ("size", "bolt_circle", "offset", "backspace"),
        "tire": ("size", "service_description", "load_range"),
        "stud": ("thread", "length", "knurl_diameter"),
        "lug-nut": ("thread", "seat", "seat_angle", "closed", "hex"),
        "wheel-bolt": ("thread", "length", "seat", "seat_angle"),
    },
    "running gear": {
        "axle": ("rating", "hub_face_distance"),
        "spindle": ("rating", "inner_journal", "outer_journal"),
        "bearing": ("place", "designation", "cone", "cup", "includes"),
        "seal": ("inside", "outside", "width", "lips"),
        "dust-cap": ("outside",),
        "spindle-nut": ("thread",),
        "spindle-washer": ("inside",),
        "cotter-pin": ("diameter", "length"),
        "grease": ("service_class", "thickener", "amount"),
    },
    "brakes": {
        "brake": ("type", "hand", "drum_diameter", "shoe_width"),
        "breakaway-kit": ("voltage", "capacity"),
        "brake-controller": ("voltage", "brakes"),
    },
    "suspension": {
        "suspension-arm": ("hand", "rating"),
        "leaf-spring": ("rating", "length", "width"),
        "hanger": ("hole",),
        "shackle": ("length", "hole"),
        "equalizer": ("rating",),
        "u-bolt": ("thread", "inside", "length", "grade"),
        "shim": ("thickness", "angle"),
    },
    "joints and hardware": {
        "bolt": ("size", "grade", "finish", "head", "locking"),
        "nut": ("thread", "grade", "finish", "locking"),
        "washer": ("for_", "type", "hardness", "outside"),
    },
    "towing": {
        "coupler": ("ball_diameter", "rating"),
        "ball": ("diameter", "shank_diameter", "rating"),
        "ball-mount": ("shank_size", "drop", "rating"),
        "receiver": ("size", "place", "rating"),
        "safety-chain": ("grade", "size", "length", "breaking_strength"),
        "jack": ("rating",),
    },
    "electrics": {
        "battery": ("voltage", "capacity"),
        "connector": ("ways",),
        "wire": ("gauge", "feeds", "length"),
        "lamp": ("function", "position", "color"),
        "reflector": ("color", "position"),
    },
    "body": {
        "fender": ("inside_width", "arch_radius"),
        "rack": ("rating", "weight_carried"),
        "tank": ("volume",),
    },
    "other": {"other": ("what",)},
}  # fmt: skip

ASSEMBLY_OF = {kind: name for name, kinds in ASSEMBLIES.items() for kind in kinds}
_NAMED_BY = {kind: fields for kinds in ASSEMBLIES.values() for kind, fields in kinds.items()}

# Equal pieces of these kinds are one thing to buy, whatever line or joint they are for.
MERGED = (
    "lug-nut", "wheel-bolt", "stud", "bolt", "nut", "washer", "cotter-pin", "u-bolt", "bearing", "seal",
    "dust-cap", "spindle-nut", "spindle-washer",
)  # fmt: skip
LUG_HARDWARE = ("lug-nut", "wheel-bolt", "stud")
JOINT_HARDWARE = ("bolt", "nut", "washer")

# Pieces that serve once (common practice).
SERVE_ONCE = {
    "cotter-pin": "A cotter pin serves once: fit new ones whenever they are drawn.",
    "seal": "A grease seal serves once: fit a new one whenever the hub comes off.",
}
MADE = (
    "You make it yourself: what is ordered is what it is made of, and the price counts as typed. A plate, hub or "
    "spindle that carries a wheel is work for a machine shop, by a drawing."
)
LOCKING_NUT = "A locking nut that has been off is replaced, not used again, where its maker says so."


def assembly_of(kind: str) -> str:
    return ASSEMBLY_OF.get(kind, "other")


def described(part: Part) -> str:
    """What the part is at the counter: "bolt 1/2-13 x 3-1/2 in, grade 5, zinc", in the user's own spelling."""
    said = part.everything()
    fields = [name for name in _NAMED_BY.get(part.kind, ()) if name in said]
    if part.kind == "wheel" and "offset" in fields and "backspace" in fields:
        fields.remove("backspace")
    if "designation" in fields:
        fields = [name for name in fields if name not in ("cone", "cup")]
    spoken = ((name, " ".join(said[name].text.split())) for name in fields)
    words = ", ".join(_words(name, text) for name, text in spoken if text not in ("none", "both"))
    return f"{part.title or part.kind} {words}".strip()


def _words(name: str, text: str) -> str:
    if name == "grade" and not text.lower().startswith(("grade", "class", "no ", "3 ", "6 ")):
        return f"grade {text}"
    if name in ("rating", "offset", "backspace", "thickness", "drop", "hex", "current", "locking", "inside",
                "outside", "hole"):  # fmt: skip
        return f"{name} {text}"
    if name == "weight_carried":
        return f"carries {text}"
    if name == "shank_diameter":
        return f"shank {text}"
    if name == "hub_face_distance":
        return f"{text} between hub faces"
    if name == "for_":
        return f"for {text}"
    if name == "ways":
        return f"{text} ways"
    if name == "closed":
        return {"true": "closed", "false": "open"}.get(text, f"closed: {text}")
    if name == "hand":
        return f"{text} hand"
    if name == "lips":
        return f"{text} lip"
    return text
