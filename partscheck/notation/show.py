"""Quantities in words for the bench: rounded to what a tape or caliper shows, never across a limit."""

from __future__ import annotations

import math

from partscheck.notation.interval import INF, Interval, Quantity, same_within
from partscheck.notation.unit_table import UNIT_TABLE

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable

WHOLE_SLACK = 1e-9  # 2905 lb does not become 2904 lb for the last bit of a float
_WEIGHED = ("N", "kg", "kPa", "N m", "km/h")
MOST_EXTRA = 6  # decimals added at most to tell two values apart


class Scale:
    """A unit to print in.  ``places`` gives the decimals for a value in that unit."""

    __slots__ = ("factor", "keep_zeros", "label", "offset", "places")

    def __init__(
        self,
        dimension: str,
        spelling: str,
        label: str,
        places: Callable[[float], int],
        keep_zeros: bool = False,
    ) -> None:
        self.factor, self.offset = UNIT_TABLE[dimension][spelling][:2] if spelling else (1.0, 0.0)
        self.label = label
        self.places = places
        self.keep_zeros = keep_zeros

    def of(self, house: float) -> float:
        return (house - self.offset) / self.factor


def _fixed(places: int) -> Callable[[float], int]:
    return lambda value: places


def _finer_below(limit: float, places: int) -> Callable[[float], int]:
    """``places`` decimals, one more below ``limit``."""
    return lambda value: places if abs(value) >= limit else places + 1


_WHOLE_FROM_10 = _finer_below(10, 0)


def _millimetres(value: float) -> int:
    """Caliper below a millimetre, rule below a metre, tape above."""
    return 2 if abs(value) < 1 else 1 if abs(value) < 1000 else 0


# house unit: (metric, inch); one entry where both use the same unit
_SCALES: dict[str, tuple[Scale, ...]] = {
    "mm": (
        Scale("length", "mm", " mm", _millimetres),
        Scale("length", "in", " in", _finer_below(0.1, 2), keep_zeros=True),
    ),
    "N": (Scale("load", "kg", " kg", _WHOLE_FROM_10), Scale("load", "lb", " lb", _WHOLE_FROM_10)),
    "kg": (Scale("mass", "kg", " kg", _WHOLE_FROM_10), Scale("mass", "lb", " lb", _WHOLE_FROM_10)),
    "kPa": (Scale("pressure", "kPa", " kPa", _fixed(0)), Scale("pressure", "psi", " psi", _fixed(0))),
    "MPa": (Scale("stress", "MPa", " MPa", _fixed(0)), Scale("stress", "ksi", " ksi", _fixed(1))),
    "N m": (
        Scale("torque", "N m", " N m", _WHOLE_FROM_10),
        Scale("torque", "ft lb", " ft-lb", _WHOLE_FROM_10),
    ),
    "km/h": (Scale("speed", "km/h", " km/h", _fixed(0)), Scale("speed", "mph", " mph", _fixed(0))),
    # A way: what an hour at so many km/h, or mph, comes to.
    "km": (Scale("speed", "km/h", " km", _fixed(0)), Scale("speed", "mph", " miles", _fixed(0))),
    "mm2": (
        Scale("area", "mm2", " mm2", _finer_below(10, 1)),
        Scale("area", "in2", " in2", _finer_below(0.1, 3)),
    ),
    "L": (Scale("volume", "L", " L", _WHOLE_FROM_10), Scale("volume", "gal", " gal", _finer_below(10, 1))),
    "degC": (
        Scale("temperature", "degC", " degC", _fixed(0)),
        Scale("temperature", "degF", " degF", _fixed(0)),
    ),
    "deg": (Scale("angle", "deg", " deg", _fixed(1)),),
    "A": (Scale("current", "A", " A", _finer_below(10, 1)),),
    "V": (Scale("voltage", "V", " V", _fixed(2)),),
    "Ah": (Scale("charge", "Ah", " Ah", _finer_below(10, 1)),),
    "": (Scale("", "", "", _finer_below(1, 2)),),
}


def _scale(unit: str, system: str) -> Scale:
    scales = _SCALES.get(unit)
    if scales is None:
        return Scale("", "", f" {unit}", _finer_below(10, 1))
    return scales[-1 if system == "inch" else 0]


def show(value: Interval, system: str, extra: int = 0) -> str:
    """``value`` in one system ("inch" or "metric"), with ``extra`` decimals more than usual.

    "38.1 mm", "1.50 in", "2200 lb"; a range "43.7 to 45.2 mm"; a half-known value "at least 3 mm";
    "unknown".  Loads print in kg or lb, as the trade rates parts.
    """
    scale = _scale(value.unit, system)
    if value.hi == INF:
        if value.lo in (0.0, -INF):
            return "unknown"
        return "at least " + _one(value.lo, value.unit, scale, extra) + scale.label
    if value.lo == -INF:
        return "at most " + _one(value.hi, value.unit, scale, extra) + scale.label
    if value.hi - value.lo <= same_within(value.unit):
        return _one(value.mid, value.unit, scale, extra) + scale.label
    return _range(value, scale, extra) + scale.label


def show_both(value: Interval, leading: str, extra: int = 0) -> str:
    """``value`` in the leading system and the other in brackets: "38.1 mm (1.50 in)".

    A ``Quantity`` prints the user's own spelling first, whatever leads.
    """
    typed = value.text if isinstance(value, Quantity) else ""
    system = value.system if isinstance(value, Quantity) and value.system else leading
    first = typed or show(value, system, extra)
    if len(_SCALES.get(value.unit, ())) < 2 or show(value, system) == "unknown":
        return first
    if isinstance(value, Quantity) and typed and not value.system:  # a bare 0
        return first
    other = show(value, "metric" if system == "inch" else "inch", extra)
    if not typed and not value.known:
        other = other.removeprefix("at least ").removeprefix("at most ")
    return f"{first} ({other})"


def show_whole(value: Interval, leading: str, up: bool) -> str:
    """A limit to keep to, in whole units of both systems: "2905 lb (1317 kg)".

    Rounded down, or ``up``, so that who keeps to what is printed keeps to the limit.
    """
    if not value.known:
        return show_both(value, leading)
    texts = []
    for system in (leading, "metric" if leading == "inch" else "inch"):
        scale = _scale(value.unit, system)
        exact = scale.of(value.hi if up else value.lo)
        whole = math.ceil(exact - WHOLE_SLACK) if up else math.floor(exact + WHOLE_SLACK)
        texts.append(f"{whole}{scale.label}")
    return f"{texts[0]} ({texts[1]})" if len(_SCALES.get(value.unit, ())) > 1 else texts[0]


def show_limit(value: Interval, leading: str, up: bool) -> str:
    """A limit to measure against, with the usual decimals, each system rounded down (or ``up``), so
    that a reading that keeps to the print keeps to the limit: "1.75 in (44.4 mm)" for 44.45 mm.
    """
    if not value.is_exact:
        return show_both(value, leading)
    texts = []
    for system in (leading, "metric" if leading == "inch" else "inch"):
        scale = _scale(value.unit, system)
        exact = scale.of(value.lo)
        step = 10.0 ** -scale.places(exact)
        steps = math.ceil(exact / step - WHOLE_SLACK) if up else math.floor(exact / step + WHOLE_SLACK)
        texts.append(_digits(steps * step, scale.places(exact), scale) + scale.label)
    return f"{texts[0]} ({texts[1]})" if len(_SCALES.get(value.unit, ())) > 1 else texts[0]


def show_pair(have: Interval, need: Interval, leading: str) -> tuple[str, str]:
    """Two values of one unit as ``show_both`` prints them, with as many decimals as tell them apart.

    Ends that differ never print alike, so no value seems to sit on a limit that it misses.
    """
    for extra in range(MOST_EXTRA):
        if _told_apart(have, need, extra):
            break
    return show_both(have, leading, extra), show_both(need, leading, extra)


def _told_apart(have: Interval, need: Interval, extra: int) -> bool:
    return all(
        _rounded(_scale(have.unit, system), a, extra) != _rounded(_scale(have.unit, system), b, extra)
        for system in ("inch", "metric")
        for a in (have.lo, have.hi)
        for b in (need.lo, need.hi)
        if abs(a) != INF and abs(b) != INF and abs(a - b) > same_within(have.unit)
    )


def _rounded(scale: Scale, house: float, extra: int) -> float:
    value = scale.of(house)
    return round(value, scale.places(value) + extra)


def _one(house: float, unit: str, scale: Scale, extra: int) -> str:
    value = scale.of(house)
    places = scale.places(value) + extra
    if scale.offset == 0 and abs(house) > same_within(unit):  # zero is a limit too: do not round onto it
        while float(f"{value:.{places}f}") == 0 and places < 12:
            places += 1
    return _digits(value, places, scale)


def _range(value: Interval, scale: Scale, extra: int) -> str:
    lo, hi = scale.of(value.lo), scale.of(value.hi)
    ends = [end for end in (lo, hi) if end] or [0.0]  # nothing needs no decimals
    places = max(map(scale.places, ends)) + extra
    if value.unit in _WEIGHED and hi - lo < 10**-places and value.lo * value.hi > 0:
        return _one(value.mid, value.unit, scale, extra)  # a spread that no scale shows
    while f"{lo:.{places}f}" == f"{hi:.{places}f}" and places < 12:
        places += 1
    return f"{_digits(lo, places, scale)} to {_digits(hi, places, scale)}"


def _digits(value: float, places: int, scale: Scale) -> str:
    """Decimals that say nothing are left out: 38 mm, not 38.0 mm, where the value is exactly that."""
    close = 1e-9 * max(1.0, abs(value))
    least = 2 if scale.keep_zeros and abs(value) > close else 0
    while places > least and abs(value - round(value, places - 1)) < close:
        places -= 1
    text = f"{value:.{places}f}"
    return text.lstrip("-") if float(text) == 0 else text
