"""What belongs to an article and goes with it when another one takes its place on a line.

A tire of another size does not have the old one's load index, and a wheel out of another box not the
old one's price.  Kept, such values would say of the new article what nobody knows.
"""

from __future__ import annotations

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.parts.record import Part

# What a line keeps whatever article stands on it: its name, its count, its place.
OF_THE_LINE = ("id", "qty", "at", "mounts_on", "note")
# What was paid, weighed and found in the shop, of this article.
OF_THE_PURCHASE = ("part", "packs", "pack", "price", "seller", "weight", "have", "make", "basis")
OF_A_BEARING = (
    "designation", "cone", "cup", "bore", "outside", "width", "a", "dynamic_rating", "static_rating",
    "rating_turns", "e_factor", "y_factor",
)  # fmt: skip
# kind -> field that names the article -> fields that go with it
GOES_WITH: dict[str, dict[str, tuple[str, ...]]] = {
    "tire": {
        "size": (
            "service_description", "load_index", "speed_symbol", "load_range", "max_load", "max_pressure",
            "rated_pressure", "diameter", "loaded_radius", "rim_width_range", "section_width", "dot_week",
            "construction", "use",
        ),
    },
    "wheel": {
        "size": ("rating", "max_pressure", "valve_rating", "backspace", "barrel_inside", "checked_on_wheel"),
    },
    "bearing": dict.fromkeys(("designation", "cone", "cup"), OF_A_BEARING),
}  # fmt: skip


def another_article(part: Part, replaced: dict[str, Any]) -> bool:
    """Whether these values (``Typed`` by field name) name another article than the one on the line."""
    return any(_names_another(part, name, replaced) for name in GOES_WITH.get(part.kind, {}))


def goes_along(part: Part, replaced: dict[str, Any]) -> list[str]:
    """Fields of the old article that go when these values take the place of its own."""
    found: list[str] = []
    for name, others in GOES_WITH.get(part.kind, {}).items():
        if _names_another(part, name, replaced):
            found += [*OF_THE_PURCHASE, *others]
    return [name for name in dict.fromkeys(found) if name in part.values and name not in replaced]


def _names_another(part: Part, name: str, replaced: dict[str, Any]) -> bool:
    """A value that was not there before completes the old article; it does not name another one."""
    before, after = part.values.get(name), replaced.get(name)
    if before is None or after is None:
        return False
    plain = ["".join(one.text.split()).casefold() for one in (before, after)]
    return plain[0] != plain[1]
