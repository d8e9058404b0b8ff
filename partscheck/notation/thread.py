"""Thread callouts: 1/2-13, 1/2-20 UNF-2A, #10-24, M12x1.75-6g, M12 (coarse), LH."""

from __future__ import annotations

import re
from math import gcd

from partscheck.notation.errors import NotationError
from partscheck.notation.interval import Interval
from partscheck.notation.number import number
from partscheck.notation.pattern import Pattern
from partscheck.notation.raw_text import LONGEST, clean, comma_hint, spelling

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Mapping
    from typing import Any, ClassVar

EXPECTED = "a thread, such as 1/2-13, 1/2-20 UNF or M12x1.75"

SAME_DIAMETER = 0.02  # mm; two callouts closer than this name one diameter
SAME_PITCH = 0.005  # mm

# Two threads this close are mistaken for one another on a bench (common practice, no source).
NEAR_DIAMETER = 1.0  # mm
NEAR_PITCH = 0.7  # mm

MM_PER_INCH = 25.4

_SERIES = {"NC": "UNC", "NF": "UNF", "NEF": "UNEF", "NS": "UNS", "UNRC": "UNC", "UNRF": "UNF"}

_SIZE = r"[0-9]+[- ][0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]*\.[0-9]+|[0-9]+"
_HAND = r"(?:[ -]?(LH|RH|left[ -]hand|right[ -]hand))?"
_INCH_FIT = r"(?:[ -]?([123][AB]))?"
_INCH = Pattern(
    rf"(#|No\.? ?)?({_SIZE}) ?(?:\"|in\.?)? ?[-x] ?([0-9]+(?:\.[0-9]+)?)"
    rf"(?:[ -]?(UNC|UNF|UNEF|UNS|UNRC|UNRF|UN|NC|NF|NEF|NS))?{_INCH_FIT}{_HAND}",
    re.IGNORECASE,
)
_METRIC = Pattern(
    r"M ?([0-9]+(?:\.[0-9]+)?)(?: ?[-x] ?([0-9]*\.[0-9]+|[0-9]+)(?: ?mm)?)?"
    rf"(?:(?<![0-9])[ -]?|[ -])([0-9][a-hA-H](?:[0-9][a-hA-H])?)?{_HAND}"
    rf"|M ?([0-9]+(?:\.[0-9]+)?)(?: ?[-x] ?([0-9]*\.[0-9]+|[0-9]+)(?: ?mm)?)?{_HAND}",
    re.IGNORECASE,
)
_SIZE_ALONE = Pattern(rf"(#|No\.? ?)?({_SIZE}) ?(?:\"|in)?", re.IGNORECASE)
_METRIC_WITHOUT_M = Pattern(r"([0-9]+) ?x ?([0-9](?:\.[0-9]+)?)")

_HANDS = "(?:[ -]?(?:[LlRr][Hh]|[Ll]eft[ -]hand|[Rr]ight[ -]hand))?"
thread_pattern = (
    f"^(?=.{{1,{LONGEST}}}$)\\s*(?:"
    "(?:#|[Nn][Oo][.]?\\s*)?[0-9\u00bc-\u00be\u2150-\u215e.]"
    "(?:[0-9\u00bc-\u00be\u2150-\u215e./\u2044 -]*[0-9\u00bc-\u00be\u2150-\u215e])?"
    '\\s*(?:"|\u2033|\u201d|[Ii][Nn][.]?)?\\s*[-\u2212xX\u00d7]\\s*[0-9]+(?:[.][0-9]+)?'
    f"(?:[ -]?[Uu]?[Nn][Rr]?[EeCcFfSs]?[Ff]?)?(?:[ -]?[123][ABab])?{_HANDS}"
    "|[Mm]\\s?[0-9]+(?:[.][0-9]+)?(?:\\s*[-\u2212xX\u00d7]\\s*[0-9]*[.]?[0-9]+(?:\\s*[Mm][Mm])?)?"
    f"(?:[ -]?[0-9][A-Ha-h](?:[0-9][A-Ha-h])?)?{_HANDS})\\s*$"
)


class Thread:
    """A screw thread.

    diameter, pitch  nominal, Intervals in mm
    inch             True for unified threads
    series           UNC, UNF, UNS, UNEF or M; "" when it was not said and no table knows the size
    fit              class as typed: 2A, 6g, or ""
    callout          the usual spelling without class: "1/2-13 UNC", "M12x1.75"
    """

    __slots__ = ("callout", "diameter", "fit", "inch", "known", "left_hand", "pitch", "series", "text")

    unknown: ClassVar[Thread]

    def __init__(
        self,
        diameter: Interval,
        pitch: Interval,
        inch: bool = False,
        series: str = "",
        fit: str = "",
        left_hand: bool = False,
        text: str = "",
        callout: str = "",
        known: bool = True,
    ) -> None:
        self.diameter = diameter
        self.pitch = pitch
        self.inch = inch
        self.series = series
        self.fit = fit
        self.left_hand = left_hand
        self.text = text
        self.callout = callout or text
        self.known = known

    def same_as(self, other: Thread) -> bool | None:
        """Whether one screws into the other (their classes apart); None when either is unknown."""
        if not (self.known and other.known):
            return None
        return (
            self.left_hand == other.left_hand
            and abs(self.diameter.mid - other.diameter.mid) < SAME_DIAMETER
            and abs(self.pitch.mid - other.pitch.mid) < SAME_PITCH
        )

    @property
    def threads_per_inch(self) -> float:
        return MM_PER_INCH / self.pitch.mid

    def __str__(self) -> str:
        return self.text

    def __repr__(self) -> str:
        return f"<Thread {self.callout}>"


Thread.unknown = Thread(Interval.unknown("mm"), Interval.unknown("mm"), text="unknown", known=False)


def read_thread(text: str, tables: Any) -> Thread:
    """The thread that ``text`` names; ``tables`` give coarse pitches and the unified series.

    Raises ``NotationError``, also for a stated series that the pitch contradicts.
    """
    plain = clean(text, EXPECTED)
    metric = _METRIC.fullmatch(plain)
    if metric:
        return _metric(metric, plain, text, tables)
    unified = _INCH.fullmatch(plain)
    if unified and not (unified.group(1) is None and _METRIC_WITHOUT_M.fullmatch(plain)):
        return _unified(unified, plain, text, tables)
    raise NotationError(plain, EXPECTED, _hint(plain, tables))


def near_miss(first: Thread, second: Thread) -> str:
    """A sentence when two different threads are easily taken for one another, else ""."""
    if first.same_as(second) is not False:
        return ""
    apart = abs(first.diameter.mid - second.diameter.mid)
    pitch_apart = abs(first.pitch.mid - second.pitch.mid)
    if apart > NEAR_DIAMETER or pitch_apart > NEAR_PITCH:
        return ""
    pair = f"{first.callout} and {second.callout}"
    if apart < SAME_DIAMETER and pitch_apart < SAME_PITCH:
        return f"{pair} differ only in hand: one is left-hand"
    if apart < SAME_DIAMETER:
        return f"{pair} have the same diameter, but the pitch differs: {_pitches(first, second)}"
    pitch = (
        f"the pitch is the same ({first.pitch.mid:.2f} mm)"
        if pitch_apart < SAME_PITCH
        else f"the pitch by {pitch_apart:.2f} mm ({first.pitch.mid:.2f} and {second.pitch.mid:.2f} mm)"
    )
    return (
        f"{pair} look alike, but the diameters differ by {apart:.2f} mm "
        f"({first.diameter.mid:.2f} and {second.diameter.mid:.2f} mm) and {pitch}"
    )


def _pitches(first: Thread, second: Thread) -> str:
    if first.inch and second.inch:
        return f"{first.threads_per_inch:g} and {second.threads_per_inch:g} threads per inch"
    return f"{first.pitch.mid:.2f} and {second.pitch.mid:.2f} mm"


# --- metric ------------------------------------------------------------------------------------


def _metric(found: re.Match[str], plain: str, text: str, tables: Any) -> Thread:
    size, pitch, fit, hand, size_2, pitch_2, hand_2 = found.groups()
    size, pitch, hand = size or size_2, pitch or pitch_2, hand or hand_2
    name = f"M{float(size):g}"
    step = float(pitch) if pitch else _coarse_pitch(name, plain, tables)
    if not 0 < step < float(size) / 2:
        raise NotationError(plain, EXPECTED, f"a pitch of {step:g} mm does not go with {name}")
    return Thread(
        Interval.exact(float(size), "mm"),
        Interval.exact(step, "mm"),
        series="M",
        fit=fit or "",
        left_hand=_is_left(hand),
        text=spelling(text),
        callout=f"{name}x{step:g}" + (" LH" if _is_left(hand) else ""),
    )


def _coarse_pitch(name: str, plain: str, tables: Any) -> float:
    row = _row(tables, "metric_coarse", name)
    if row is None:
        raise NotationError(plain, EXPECTED, f"no coarse pitch is known for {name}: write it with its pitch")
    return float(row["pitch_mm"])


# --- unified -----------------------------------------------------------------------------------


def _unified(found: re.Match[str], plain: str, text: str, tables: Any) -> Thread:
    numbered, size, per_inch, stated, fit, hand = found.groups()
    turns = float(per_inch)
    name, inches = _size(size, bool(numbered) or _is_screw_number(size, turns), plain)
    if turns <= 0 or MM_PER_INCH / turns >= inches * MM_PER_INCH / 2:
        raise NotationError(plain, EXPECTED, f"{per_inch} threads per inch do not go with {name}")
    series = _series(name, turns, (stated or "").upper(), plain, tables)
    left = _is_left(hand)
    return Thread(
        Interval.exact(inches * MM_PER_INCH, "mm"),
        Interval.exact(MM_PER_INCH / turns, "mm"),
        inch=True,
        series=series,
        fit=(fit or "").upper(),
        left_hand=left,
        text=spelling(text),
        callout=f"{name}-{turns:g} {series}".strip() + (" LH" if left else ""),
    )


def _is_screw_number(size: str, turns: float) -> bool:
    """10-24 is a number 10 screw, 1-14 a one inch thread: fine threads belong to small screws."""
    return size.isdigit() and int(size) <= 12 and turns >= (48 if int(size) <= 3 else 24)


def _size(size: str, numbered: bool, plain: str) -> tuple[str, float]:
    """The usual name of a size, as the tables key it, and its diameter in inches."""
    if numbered:
        if not size.isdigit() or int(size) > 14:
            raise NotationError(plain, EXPECTED, "screw numbers run from #0 to #14")
        return f"#{int(size)}", 0.060 + 0.013 * int(size)  # ASME B1.1 (recalled)
    try:
        inches = number(size)
    except ValueError as fault:
        raise NotationError(plain, EXPECTED, str(fault)) from None
    if not 0 < inches <= 6:
        raise NotationError(plain, EXPECTED, f"a diameter of {inches:g} in is not meant")
    return _fraction_name(inches), inches


def _fraction_name(inches: float) -> str:
    parts = round(inches * 64)
    if abs(inches * 64 - parts) > 1e-6:
        return f"{inches:g}"
    whole, rest = divmod(parts, 64)
    if not rest:
        return str(whole)
    divisor = gcd(rest, 64)
    fraction = f"{rest // divisor}/{64 // divisor}"
    return f"{whole}-{fraction}" if whole else fraction


def _series(name: str, turns: float, stated: str, plain: str, tables: Any) -> str:
    """The series that the pitch makes it; the stated one where no table contradicts."""
    stated = _SERIES.get(stated, stated)
    standard = {
        series: float(row["tpi"])
        for series, table in (("UNC", "unc"), ("UNF", "unf"))
        if (row := _row(tables, table, name)) is not None
    }
    found = next((series for series, tpi in standard.items() if tpi == turns), "")
    if stated in standard and standard[stated] != turns:
        what = f"{name}-{turns:g} is {found or 'UNS'}"
        raise NotationError(plain, EXPECTED, f"{what}; {stated} is {name}-{standard[stated]:g}")
    if stated in ("UNS", "UNEF") and found:
        raise NotationError(plain, EXPECTED, f"{name}-{turns:g} is {found}, not {stated}")
    if stated and stated != "UN":
        return stated
    return found or ("UNS" if standard else "")


# --- hints -------------------------------------------------------------------------------------


def _hint(plain: str, tables: Any) -> str:
    if hint := comma_hint(plain):
        return hint
    bare = _METRIC_WITHOUT_M.fullmatch(plain)
    if bare:
        return "write M{}x{}".format(*bare.groups())
    alone = _SIZE_ALONE.fullmatch(plain)
    if alone is None:
        return ""
    try:
        name, _ = _size(alone.group(2), bool(alone.group(1)), plain)
    except NotationError:
        return ""
    rows = [(table, _row(tables, table, name)) for table in ("unc", "unf")]
    likely = [f"{name}-{float(row['tpi']):g} ({table.upper()})" for table, row in rows if row is not None]
    return "write " + " or ".join(likely) if likely else "the threads per inch are missing"


def _row(tables: Any, table: str, key: str) -> Mapping[str, Any] | None:
    row: Mapping[str, Any] | None = tables.row(table, key) if tables is not None else None
    return row


def _is_left(hand: str | None) -> bool:
    return bool(hand) and hand is not None and hand[0] in "Ll"
