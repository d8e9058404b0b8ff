"""Wire sizes: 16 AWG, 2/0 AWG, 1.5 mm2."""

from __future__ import annotations

import re

from partscheck.formulas.wiring import awg_area
from partscheck.notation.errors import NotationError
from partscheck.notation.interval import Interval
from partscheck.notation.measure import quantity_pattern, read_quantity
from partscheck.notation.pattern import Pattern
from partscheck.notation.raw_text import clean, spelling

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import ClassVar

EXPECTED = "a wire size, such as 16 AWG or 1.5 mm2"

_AWG = Pattern("([0-9]{1,2}|[1-4]/0) ?-?AWG|AWG ?-?([0-9]{1,2}|[1-4]/0)", re.IGNORECASE)
_GAUGE = Pattern("([0-9]{1,2}|[1-4]/0)(?: ?(?:ga\\.?|gauge))?", re.IGNORECASE)

wire_gauge_pattern = (
    "(?:^\\s*(?:(?:[0-9]{1,2}|[1-4]/0)\\s?-?[Aa][Ww][Gg]|[Aa][Ww][Gg]\\s?-?(?:[0-9]{1,2}|[1-4]/0))\\s*$)"
    f"|(?:{quantity_pattern('area')})"
)


class WireGauge:
    """The copper cross section of a wire, an Interval in mm2."""

    __slots__ = ("area", "known", "system", "text")

    unknown: ClassVar[WireGauge]

    def __init__(self, area: Interval, text: str = "", system: str = "", known: bool = True) -> None:
        self.area = area
        self.text = text
        self.system = system
        self.known = known

    def __str__(self) -> str:
        return self.text

    def __repr__(self) -> str:
        return f"<WireGauge {self.text}>"


WireGauge.unknown = WireGauge(Interval.unknown("mm2"), "unknown", known=False)


def read_wire_gauge(text: str) -> WireGauge:
    """The wire size that ``text`` names; raises ``NotationError``."""
    plain = clean(text, EXPECTED)
    found = _AWG.fullmatch(plain)
    if found:
        name = found.group(1) or found.group(2)
        gauge = 1 - int(name[0]) if "/" in name else int(name)
        if gauge > 40:
            raise NotationError(plain, EXPECTED, "gauges run from 4/0 to 40")
        return WireGauge(Interval.exact(awg_area(gauge), "mm2"), spelling(text), "inch")
    bare = _GAUGE.fullmatch(plain)
    if bare:
        hint = f"write {bare.group(1)} AWG"
        raise NotationError(plain, EXPECTED, hint if "/" in plain else f"{hint} or {bare.group(1)} mm2")
    try:
        area = read_quantity(text, "area", signed=False)
    except NotationError as fault:
        raise NotationError(plain, EXPECTED, fault.hint) from None
    return WireGauge(Interval(area.lo, area.hi, "mm2"), spelling(text), area.system)
