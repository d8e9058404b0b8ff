"""What a part would have to be that the catalogue does not have, in words for a seller's counter."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from partscheck.notation.interval import Interval, Quantity
from partscheck.notation.show import show_both, show_limit
from partscheck.rules.check import AT_LEAST, AT_MOST
from partscheck.uses.fix.mating import mating_fields

if TYPE_CHECKING:
    from collections.abc import Sequence

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
    kept = [_kept(part, key) for key in mating_fields(part.kind) if key not in asked and _has(part, key)]
    if part.kind == "adapter" and not {"hub_circle", "wheel_circle"} & asked and len(kept) > 1:
        kept[:2] = [f"{kept[0]} to {kept[1]}"]
    words = [one for one in (*kept, *(_asked(part, want, leading) for want in wants)) if one]
    title = part.title or part.kind
    return f"{title} {', '.join(dict.fromkeys(words))}".strip()


def _name(part: Part, key: str) -> str:
    return next((name for name, field in part.fields.items() if field.key == key), "")


def _has(part: Part, key: str) -> bool:
    name = _name(part, key)
    return bool(name) and part.has(name)


def _kept(part: Part, key: str) -> str:
    text = " ".join(part.values[_name(part, key)].text.split())
    return _said(key, text)


def _said(key: str, text: str) -> str:
    if key in _VALUE_FIRST:
        return f"{text} {_VALUE_FIRST[key]}".strip()
    if key == "closed":
        return {"true": "closed", "false": "open"}.get(text, f"closed: {text}")
    return f"{_NAMED.get(key, key.replace('_', ' '))} {text}"


def _asked(part: Part, want: Want, leading: str) -> str:
    target = want.target
    if target is None:
        return ""
    if not isinstance(target, Interval):
        return _said(want.field, str(target).lower() if isinstance(target, bool) else str(target))
    text = _value(target, want.relation, leading)
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
    if relation in (AT_LEAST, AT_MOST) and not (isinstance(target, Quantity) and target.text):
        end: Any = Interval.exact(target.hi if relation == AT_LEAST else target.lo, target.unit)
        return show_limit(end, leading, up=relation == AT_LEAST)
    return show_both(target, leading)
