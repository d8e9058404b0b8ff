"""What a part would have to be that the catalogue does not have, in words for a seller's counter."""

from __future__ import annotations

from math import ceil

from partscheck.build.tow_links import GROSS, TONGUE, by_d_value
from partscheck.notation.fastener_size import FastenerSize
from partscheck.notation.interval import INF, Interval, Quantity
from partscheck.notation.show import show_both, show_limit
from partscheck.notation.wheel_size import WheelSize
from partscheck.rules.check import AT_LEAST, AT_MOST
from partscheck.uses.fix.candidates import of_diameter
from partscheck.uses.fix.mating import mating_fields
from partscheck.uses.fix.neighbours import other_system
from partscheck.uses.fix.typed_text import quantity_text
from partscheck.uses.load_path import CORNER, RACK, load_path

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Sequence
    from typing import Any

    from partscheck.engine import Result
    from partscheck.parts.record import Part
    from partscheck.uses.fix.candidates import Want

# How the trade says it; what is not here is said as "<field> <value>".
_VALUE_FIRST = {
    "bolt_circle": "", "hub_circle": "", "wheel_circle": "", "size": "", "thread": "", "gauge": "",
    "service_class": "", "hand": "hand", "inside": "inside", "outside": "outside", "ways": "ways",
    "lips": "lips", "seat": "seat", "type": "", "thickener": "thickener", "diameter": "",
}  # fmt: skip
_AT_LEAST = {"thickness": "or thicker", "length": "or longer", "size": "or longer", "rating": "or more",
             "gauge": "or thicker"}  # fmt: skip
_AT_MOST = {"thickness": "or thinner", "length": "or shorter", "size": "or shorter"}
_NAMED = {"rating": "rated", "max_load": "carrying", "breaking_strength": "breaking at"}


def wanted_words(part: Part, wants: Sequence[Want], leading: str) -> str:
    """ "adapter 5 x 4.5 in to 5 x 5.5 in, 1.83 in (46.3 mm) or thicker, rated 1200 lb (544 kg) or more".

    First what it has to keep of the part on the list, then what the findings ask for.
    """
    asked = {want.field for want in wants}
    if "seat" in asked:  # a flat seat has no angle, a cone no radius
        asked |= {"seat_angle", "seat_radius"}
    typed = part.values.get("size")
    if typed is not None and isinstance(typed.value, FastenerSize) and typed.value.known:
        threads = [want.target for want in wants if want.field == "size" and not isinstance(want.target, Interval)]
        if any(other_system(one, typed.value.thread) for one in threads):
            asked |= {"grade"}  # each system has its own
    kept = _half_of_size(part, wants)
    kept += [_kept(part, key) for key in mating_fields(part.kind) if key not in asked and _has(part, key)]
    if part.kind == "adapter" and not {"hub_circle", "wheel_circle"} & asked and len(kept) > 1:
        kept[:2] = [f"{kept[0]} to {kept[1]}"]
    words = [one for one in (*kept, *(_asked(part, want, leading) for want in wants)) if one]
    title = part.title or part.kind
    named = bool(words) and any(words[0].startswith(f"{key.replace('_', ' ')} ") for key in _plainly_named(part))
    return f"{title} {'with ' if named else ''}{', '.join(dict.fromkeys(words))}".strip()


def _plainly_named(part: Part) -> list[str]:
    """Fields that are said by their names: "hub with drum diameter 10 in"."""
    keys = [field.key for field in part.fields.values()]
    return [key for key in keys if key not in _VALUE_FIRST and key not in _NAMED and key != "grade"]


def _half_of_size(part: Part, wants: Sequence[Want]) -> list[str]:
    """A bolt whose length is asked for keeps its thread, one whose thread is asked for its length; a wheel
    whose width is asked for keeps its diameter, and the other way round.
    """
    typed = part.values.get("size")
    targets = [want.target for want in wants if want.field in ("size", "length")]
    size = None if typed is None else typed.value
    if not targets or not getattr(size, "known", False):
        return []
    if isinstance(size, FastenerSize):
        if isinstance(targets[0], Interval):
            return [str(size.thread)]
        if other_system(targets[0], size.thread):
            length = Interval.exact(size.length.mid, "mm")
            return [f"about {show_both(length, 'inch' if size.thread.inch else 'metric')} long"]
        return [f"{quantity_text(size.length, 'inch' if size.thread.inch else 'metric')} long"]
    if isinstance(size, WheelSize) and isinstance(targets[0], Interval):
        if of_diameter(size, targets[0]):
            return [f"{quantity_text(size.width, 'inch')} wide"]
        return [f"for {quantity_text(size.diameter, 'inch')} tires"]
    return []


def _rim(part: Part, target: Interval) -> bool:
    """Whether a size asked of a wheel or tire is that of the rim."""
    typed = part.values.get("size")
    if part.kind == "tire" or typed is None:
        return True
    return isinstance(typed.value, WheelSize) and of_diameter(typed.value, target)


def carried_words(result: Result, id: str, wants: Sequence[Want], leading: str) -> str:
    """What the line ``id`` has to be rated for, by what it carries: "rated 900 lb (409 kg) or more each"; ""
    where that is not known, or asked for already.
    """
    asked = {want.field for want in wants if want.relation == AT_LEAST}
    most: dict[str, tuple[Interval, str]] = {}
    for row in load_path(result):
        at_wheel = row.of == CORNER
        on_the_list = row.part.id == id and bool(getattr(row.part, "kind", ""))
        if not on_the_list or row.of == RACK or not row.share.known or row.share.hi <= 0:
            continue
        if row.of == GROSS and by_d_value(row.part):  # what its plate says is no weight
            continue
        each = " on a trailer" if row.role == "tire" else " each" if at_wheel else ""
        field = "max_load" if row.role == "tire" else "tongue_rating" if row.of == TONGUE else "rating"
        if field not in asked and (field not in most or row.share.hi > most[field][0].hi):
            most[field] = (row.share, each)
    words = []
    for field, (share, each) in most.items():
        load = show_limit(Interval.exact(share.hi, "N"), leading, up=True)
        words.append(f"{_NAMED.get(field, field.replace('_', ' '))} {load} or more{each}")
    return ", ".join(words)


def unsaid(part: Part, other: Part, wants: Sequence[Want]) -> list[Want]:
    """What a stop asks of ``other`` with yes or no and its catalogue does not say: open nuts, where closed ones
    bottom out.  Nothing where another thing that the stop asks for is met.
    """
    found = []
    for stop in dict.fromkeys(want.stop for want in wants):
        asked = [want for want in wants if want.stop == stop]
        if any(want.met_by(other) for want in asked):
            continue
        open_ = [want for want in asked if want.met_by(other) is None and _yes_or_no(part, want)]
        found += open_[:1]
    return found


def _yes_or_no(part: Part, want: Want) -> bool:
    field = part.fields.get(_name(part, want.field))
    return field is not None and type(field.type).__name__ == "Flag"


def has_to_be(part: Part, wants: Sequence[Want], leading: str) -> str:
    """ ", which has to be open"."""
    return f", which has to be {' and '.join(_asked(part, want, leading) for want in wants)}" if wants else ""


def can_be_said(part: Part, wants: Sequence[Want], leading: str) -> bool:
    """Whether there are words for anything that is asked of the part."""
    return any(_asked(part, want, leading) for want in wants)


def _name(part: Part, key: str) -> str:
    return next((name for name, field in part.fields.items() if field.key == key), "")


def _has(part: Part, key: str) -> bool:
    name = _name(part, key)
    return bool(name) and part.has(name)


def _kept(part: Part, key: str) -> str:
    text = " ".join(part.values[_name(part, key)].text.split())
    return _said(key, text)


def _said(key: str, text: str) -> str:
    if (key, text) == ("hand", "pair"):
        return "a left and a right one"
    if key in _VALUE_FIRST:
        return f"{text} {_VALUE_FIRST[key]}".strip()
    if key == "closed":
        return {"true": "closed", "false": "open"}.get(text, f"closed: {text}")
    named = _NAMED.get(key, key.replace("_", " "))
    return text if text.casefold().startswith(named + " ") else f"{named} {text}"  # "grade 5"


def _asked(part: Part, want: Want, leading: str) -> str:
    target = want.target
    if target is None or str(target) == "unknown":
        return ""
    ends = {AT_LEAST: "hi", AT_MOST: "lo"}.get(want.relation)
    if isinstance(target, Interval) and abs(getattr(target, ends) if ends else target.hi - target.lo) == INF:
        return ""  # no size would do, or none is known
    if not isinstance(target, Interval):
        return _said(want.field, str(target).lower() if isinstance(target, bool) else str(target))
    if want.field == "d_value":
        return f"D-value {ceil(target.hi / 10 - 1e-9) / 100:.2f} kN or more"
    text = _value(target, want.relation, leading)
    if part.kind in ("wheel", "tire") and want.field == "size" and _rim(part, target):
        inches = f"{quantity_text(Interval.exact(target.mid, 'mm'), 'inch')}"
        tail = {AT_LEAST: " or more", AT_MOST: " or less"}.get(want.relation, "")
        return f"for {'rims' if part.kind == 'tire' else 'tires'} of {inches}{tail}"
    if want.relation == AT_LEAST:
        tail = _AT_LEAST.get(want.field, "or more")
    elif want.relation == AT_MOST:
        tail = _AT_MOST.get(want.field, "or less")
    else:
        return _said(want.field, text)
    if part.kind in ("wheel", "tire") and want.field == "size":
        return f"{text} wide or {'wider' if want.relation == AT_LEAST else 'narrower'}"
    if want.field in ("thickness", "length", "size"):
        return f"{text} {tail}"
    return f"{_said(want.field, text)} {tail}"


def _value(target: Interval, relation: str, leading: str) -> str:
    if relation in (AT_LEAST, AT_MOST):
        end: Any = Interval.exact(target.hi if relation == AT_LEAST else target.lo, target.unit)
        shown = show_limit(end, leading, up=relation == AT_LEAST)
        typed = isinstance(target, Quantity) and target.text and target.is_exact and target.system == leading
        return f"{target.text} ({shown.partition(' (')[2]}" if typed and " (" in shown else shown  # type: ignore[attr-defined]
    return show_both(target, leading)
