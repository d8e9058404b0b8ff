"""The fields by which a part meets its neighbours: what another article in its place has to keep."""

from __future__ import annotations

MATING: dict[str, tuple[str, ...]] = {
    "adapter": ("hub_circle", "wheel_circle", "stud_thread", "hub_nut_thread", "nut_seat", "hub_bore"),
    "axle": ("hub_face_distance", "spring_distance", "brake_flange", "inner_journal", "outer_journal"),
    "ball": ("diameter", "shank_diameter"),
    "ball-mount": ("shank_size", "ball_hole"),
    "bearing": ("cone", "cup", "bore", "outside"),
    "bolt": ("size", "grade", "head"),
    "brake": ("type", "hand", "drum_diameter", "shoe_width", "flange", "voltage"),
    "coupler": ("ball_diameter", "channel_width"),
    "grease": ("service_class", "thickener", "nlgi_grade"),
    "hub": ("bolt_circle", "stud_thread", "inner_cup_bore", "outer_cup_bore", "seal_bore", "drum_diameter",
            "drum_width"),
    "dust-cap": ("outside",),
    "lug-nut": ("thread", "seat", "seat_angle", "seat_radius"),
    "nut": ("thread", "grade"),
    "receiver": ("size", "place"),
    "safety-chain": ("type", "fastened_to"),
    "seal": ("inside", "outside", "lips"),
    "suspension-arm": ("hand", "inner_journal", "outer_journal", "brake_flange"),
    "spindle": ("mount_flange", "inner_journal", "outer_journal"),
    "spindle-nut": ("thread",),
    "tire": ("size",),
    "u-bolt": ("thread", "inside", "length"),
    "washer": ("for", "type"),
    "wheel": ("size", "bolt_circle", "center_bore", "nut_seat", "seat_angle"),
    "wheel-bolt": ("thread", "seat", "seat_angle", "seat_radius"),
    "wire": ("feeds",),
}  # fmt: skip


def mating_fields(kind: str) -> tuple[str, ...]:
    """Field keys, what identifies the part first; () where every field counts."""
    return MATING.get(kind, ())


# What a line says of the use of an article, not of the article: it stays with another one in its place.
USE: dict[str, tuple[str, ...]] = {
    "bearing": ("place",),
    "bolt": ("finish",),
    "nut": ("finish",),
    "washer": ("finish",),
    "wire": ("run", "feeds", "length"),
    "lamp": ("position",),
    "reflector": ("position",),
    "receiver": ("place",),
    "safety-chain": ("fastened_to",),
    "rack": ("weight_carried",),
    "grease": ("amount",),
    "wheel": ("checked_on_wheel",),
}


def use_fields(kind: str) -> tuple[str, ...]:
    return USE.get(kind, ())
