"""Values as one would type them into a list, so that the file says what was tried."""

from __future__ import annotations

from partscheck.notation.interval import Interval, Quantity, same_within
from partscheck.notation.measure import read_quantity
from partscheck.notation.show import show, show_limit
from partscheck.rules.check import AT_LEAST, AT_MOST

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

_DIMENSION = {
    "mm": "length", "N": "load", "kg": "mass", "kPa": "pressure", "N m": "torque", "km/h": "speed",
    "deg": "angle", "L": "volume", "A": "current", "V": "voltage", "Ah": "charge",
}  # fmt: skip
MOST_EXTRA = 5


def value_text(relation: str, target: Any, leading: str) -> str:
    """A value that meets ``relation`` and ``target``: a limit rounded to its safe side, in the leading units;
    "" where there is nothing to type.
    """
    if target is None:
        return ""
    if not isinstance(target, Interval):
        return str(target).lower() if isinstance(target, bool) else str(target)
    if isinstance(target, Quantity) and target.text and target.is_exact:  # as it is said: "drill to 9/16 in"
        return target.text
    if relation in (AT_MOST, AT_LEAST):
        end = target.lo if relation == AT_MOST else target.hi
        return limit_text(Interval.exact(end, target.unit), leading, up=relation == AT_LEAST)
    return quantity_text(target, leading)


def limit_text(value: Interval, leading: str, up: bool) -> str:
    if not value.known:
        return ""
    if not value.unit:
        return f"{value.lo:g}"
    return show_limit(value, leading, up).split(" (")[0]


def quantity_text(value: Interval, leading: str, close_mm: float = 5e-3) -> str:
    """The value itself, with as many decimals as it takes (a length: to ``close_mm``)."""
    if not value.known:
        return ""
    if isinstance(value, Quantity) and value.text:
        return value.text
    if not value.unit:
        return f"{value.mid:g}" if value.is_exact else f"{value.lo:g} to {value.hi:g}"
    text = ""
    for extra in range(MOST_EXTRA):
        text = show(value, leading, extra)
        dimension = _DIMENSION.get(value.unit)
        if dimension is None:
            return text
        text = _plain(text)
        read = read_quantity(text, dimension)
        close = max(same_within(value.unit), 1e-4 * abs(value.mid)) if value.unit != "mm" else close_mm
        if abs(read.lo - value.lo) <= close and abs(read.hi - value.hi) <= close:
            return text
    return text


def _plain(text: str) -> str:
    """Without zeros that say nothing: "129 in", not "129.00 in"."""
    number, space, unit = text.partition(" ")
    if "." in number and number.replace(".", "").lstrip("-").isdigit():
        number = number.rstrip("0").rstrip(".")
    return number + space + unit
