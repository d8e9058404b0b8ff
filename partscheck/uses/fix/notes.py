"""What a line's ``note:`` becomes when another article takes the line's place.

The note may speak of the article that goes ("from the neighbour's barn").  It is kept, and says that it was
written for the part before: so it does not get lost, and does not say of the new part what nobody knows.
"""

from __future__ import annotations

TYPE_CHECKING = False
if TYPE_CHECKING:
    from partscheck.parts.record import Part

WAS_FOR = "written for the part before: "
TO_BE_FOUND_AT_ALL = "to be found, "
TO_BE_FOUND = f"{TO_BE_FOUND_AT_ALL}the catalogue has none"


def note_kept(part: Part) -> str:
    """The note of a line on which another article comes to stand; "" where the line has none."""
    typed = part.values.get("note")
    if typed is None or typed.layer != "list":
        return ""
    said = " ".join(typed.text.split())
    if said.startswith(TO_BE_FOUND_AT_ALL):  # what is to be found is this program's word, and changes
        said = WAS_FOR + said.partition(WAS_FOR)[2] if WAS_FOR in said else ""
    return said if not said or said.startswith(WAS_FOR) else WAS_FOR + said


def note_to_find(part: Part) -> str:
    """The note of a line whose article is still to be found."""
    article = part.values.get("part")
    found = TO_BE_FOUND
    if article is not None:
        found = f"{TO_BE_FOUND_AT_ALL}like {article.value} but for what is typed here; the catalogue has none"
    said = note_kept(part)
    return f"{found}; {said}" if said else found
