"""Tire sizes as moulded (ST205/75R14, 31x10.50R15LT, 4.80-12, F78-15) and service descriptions (102/99S).

The overall diameter is the nominal one: rim + 2 x section width x aspect ratio for metric sizes (the
meaning of the size marking), the first number of a flotation size; other markings do not say.
"""

from __future__ import annotations

import re

from partscheck.notation.errors import NotationError
from partscheck.notation.interval import Interval
from partscheck.notation.pattern import Pattern
from partscheck.notation.raw_text import LONGEST, clean, comma_hint, spelling

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import ClassVar

EXPECTED = "a tire size as moulded, such as ST205/75R14, LT235/75R15, 31x10.50R15LT or 4.80-12"
SERVICE_EXPECTED = "a service description, such as 102S or 102/99S"

MM_PER_INCH = 25.4

_RIM = r"([0-9]{1,2}(?:\.5)?)"
_CONSTRUCTION = " ?(ZR|R|D|B|-) ?"
_METRIC = Pattern(rf"(P|LT|ST|T)? ?([0-9]{{3}})(?: ?/ ?([0-9]{{2,3}}))?{_CONSTRUCTION}{_RIM}(.*)")
_FLOTATION = Pattern(
    rf"(LT|ST)? ?([0-9]{{2}}(?:\.[0-9]+)?) ?X ?([0-9]{{1,2}}(?:\.[0-9]+)?){_CONSTRUCTION}{_RIM}(.*)"
)
_NUMERIC = Pattern(
    rf"(LT|ST)? ?([0-9]{{1,2}}(?:\.[0-9]{{1,2}})?)(?: ?/ ?([0-9]\.[0-9]{{2}}))?{_CONSTRUCTION}{_RIM}(.*)"
)
_ALPHA = Pattern(rf"([A-N])(R)?([0-9]{{2}}) ?- ?{_RIM}(.*)")

_LETTER = "[A-HJ-N]"  # load ranges
_SPEED = "(?:A[1-8]|[B-HJ-NP-UVWY])"
_SERVICE = Pattern(rf"([0-9]{{2,3}})(?: ?/ ?([0-9]{{2,3}}))? ?({_SPEED})?")
_TAIL = Pattern(
    r" ?(?:"
    rf"(?P<service>[0-9]{{2,3}}(?:/[0-9]{{2,3}})? ?{_SPEED})"
    r"|(?P<ply>[0-9]{1,2}) ?-?(?:PR|PLY)"
    rf"|LOAD RANGE (?P<spelled>{_LETTER})|LR ?-?(?P<range>{_LETTER})|/ ?(?P<slash>{_LETTER})"
    r"|(?P<use>LT|ST|NHS)"
    r"|(?P<mark>XL|SL|EXTRA LOAD|REINFORCED|REINF|RF)"
    r"|(?P<silent>TL|TT|M\+S)"
    rf"|(?P<letter>{_LETTER})"
    r")(?![A-Z0-9])"
)
_MARKS = {"EXTRA LOAD": "XL", "REINFORCED": "XL", "REINF": "XL", "RF": "XL"}

tire_size_pattern = (
    f"^(?=.{{1,{LONGEST}}}$)\\s*(?:[PpTt]|[LlSs][Tt])?\\s*(?:"
    "[0-9]{1,3}(?:[.][0-9]+)?(?:\\s*[/xX\u00d7]\\s*[0-9]{1,3}(?:[.][0-9]+)?)?\\s*(?:[Zz]?[Rr]|[DdBb]|[-\u2212])"
    "|[A-Na-n][Rr]?[0-9]{2}\\s*[-\u2212])\\s*[0-9]{1,2}(?:[.]5)?(?:[\\s/]*[A-Za-z0-9+/ -]*)?\\s*$"
)
service_description_pattern = (
    "^\\s*[0-9]{2,3}(?:\\s?/\\s?[0-9]{2,3})?\\s?(?:[Aa][1-8]|[B-HJ-NP-WYb-hj-np-wy])?\\s*$"
)


class ServiceDescription:
    """Load index for a single and for a dual wheel, and the speed symbol; None and "" when not known."""

    __slots__ = ("dual", "known", "single", "speed", "text")

    unknown: ClassVar[ServiceDescription]

    def __init__(
        self, single: int | None, dual: int | None = None, speed: str = "", text: str = "", known: bool = True
    ) -> None:
        self.single = single
        self.dual = dual
        self.speed = speed
        self.text = text
        self.known = known

    def __str__(self) -> str:
        return self.text

    def __repr__(self) -> str:
        return f"<ServiceDescription {self.text}>"


ServiceDescription.unknown = ServiceDescription(None, text="unknown", known=False)


class TireSize:
    """A tire size marking.

    form              metric, flotation, numeric or alpha
    prefix            P, LT, ST, T (temporary spare) or "", wherever it was moulded
    suffix_c          the C of a commercial tire (not a load range)
    section_width     nominal, Interval mm
    aspect            percent, None when not marked
    rim_diameter      rim code in mm
    overall_diameter  nominal, Interval mm; 0..inf when the marking does not say
    construction      R radial, D diagonal, B bias-belted
    load_range        letter, or SL / XL, or ""
    ply               ply rating as moulded, or None
    not_for_highway   NHS is moulded
    key               the size without spaces or load range, as tables key it: "ST205/75R14"
    """

    __slots__ = (
        "aspect", "construction", "form", "key", "known", "load_range", "not_for_highway",
        "overall_diameter", "ply", "prefix", "rim_diameter", "section_width", "service", "suffix_c", "text",
    )  # fmt: skip

    unknown: ClassVar[TireSize]

    def __init__(self, form: str = "", text: str = "", known: bool = True) -> None:
        self.form = form
        self.text = text
        self.known = known
        self.prefix = ""
        self.suffix_c = False
        self.section_width = Interval.unknown("mm")
        self.aspect: float | None = None
        self.rim_diameter = Interval.unknown("mm")
        self.overall_diameter = Interval.unknown("mm")
        self.construction = ""
        self.load_range = ""
        self.ply: int | None = None
        self.not_for_highway = False
        self.service = ServiceDescription.unknown
        self.key = ""

    def __str__(self) -> str:
        return self.text

    def __repr__(self) -> str:
        return f"<TireSize {self.text}>"


TireSize.unknown = TireSize(text="unknown", known=False)


def read_tire_size(text: str) -> TireSize:
    """The tire size that ``text`` names, with what is moulded after it; raises ``NotationError``."""
    plain = clean(text, EXPECTED)
    size, rest = _size(plain.upper(), plain, spelling(text))
    _read_tail(size, rest, plain)
    return size


def read_service_description(text: str) -> ServiceDescription:
    """Load index (single, dual) and speed symbol; raises ``NotationError``."""
    plain = clean(text, SERVICE_EXPECTED)
    found = _SERVICE.fullmatch(plain.upper())
    if found is None:
        raise NotationError(plain, SERVICE_EXPECTED)
    single, dual, speed = found.groups()
    if dual and int(dual) > int(single):
        hint = f"the index of a single wheel stands first: {dual}/{single}"
        raise NotationError(plain, SERVICE_EXPECTED, hint)
    return ServiceDescription(int(single), int(dual) if dual else None, speed or "", spelling(text))


def _size(upper: str, plain: str, text: str) -> tuple[TireSize, str]:
    found = _METRIC.fullmatch(upper)
    if found:
        return _metric(found, plain, text), found.group(6)
    found = _FLOTATION.fullmatch(upper)
    if found:
        return _flotation(found, plain, text), found.group(6)
    found = _ALPHA.fullmatch(upper)
    if found:
        return _alpha(found, plain, text), found.group(5)
    found = _NUMERIC.fullmatch(upper)
    if found:
        return _numeric(found, plain, text), found.group(6)
    raise NotationError(plain, EXPECTED, comma_hint(plain) if "X" in upper or "-" in upper else "")


def _metric(found: re.Match[str], plain: str, text: str) -> TireSize:
    prefix, width, aspect, construction, rim, _ = found.groups()
    size = TireSize("metric", text)
    size.prefix = prefix or ""
    size.section_width = _within(float(width), 100, 500, "section width", plain, 1.0)
    _construct(size, construction, rim, plain)
    ratio = ""
    if aspect:
        size.aspect = float(aspect)
        _within(float(aspect), 20, 105, "aspect ratio", plain, 1.0)
        size.overall_diameter = size.rim_diameter + size.section_width * (2 * size.aspect / 100)
        ratio = f"/{aspect}"
    size.key = f"{size.prefix}{width}{ratio}{construction}{rim}"
    return size


def _flotation(found: re.Match[str], plain: str, text: str) -> TireSize:
    prefix, overall, width, construction, rim, _ = found.groups()
    size = TireSize("flotation", text)
    size.prefix = prefix or ""
    size.overall_diameter = _within(float(overall), 10, 60, "diameter", plain)
    size.section_width = _within(float(width), 3, 25, "section width", plain)
    _construct(size, construction, rim, plain)
    if size.overall_diameter.lo <= size.rim_diameter.hi:
        raise NotationError(plain, EXPECTED, "the tire is not larger than its rim")
    size.key = f"{size.prefix}{overall}x{width}{construction}{rim}"
    return size


def _numeric(found: re.Match[str], plain: str, text: str) -> TireSize:
    prefix, width, also, construction, rim, _ = found.groups()  # 4.80/4.00-8: two names of one size
    size = TireSize("numeric", text)
    size.prefix = prefix or ""
    size.section_width = _within(float(width), 2, 20, "section width", plain)
    _construct(size, construction, rim, plain)
    size.key = f"{size.prefix}{width}{'/' + also if also else ''}{construction}{rim}"
    return size


def _alpha(found: re.Match[str], plain: str, text: str) -> TireSize:
    letter, radial, aspect, rim, _ = found.groups()
    size = TireSize("alpha", text)
    size.aspect = float(aspect)
    _construct(size, radial or "-", rim, plain)
    size.key = f"{letter}{radial or ''}{aspect}-{rim}"
    return size


def _construct(size: TireSize, construction: str, rim: str, plain: str) -> None:
    size.construction = {"-": "D", "ZR": "R"}.get(construction, construction)
    size.rim_diameter = _within(float(rim), 4, 30, "rim diameter", plain)


def _within(
    value: float, least: float, most: float, what: str, plain: str, to_mm: float = MM_PER_INCH
) -> Interval:
    if not least <= value <= most:
        raise NotationError(plain, EXPECTED, f"a {what} of {value:g} is not meant")
    return Interval.exact(value * to_mm, "mm")


# --- what is moulded after the size --------------------------------------------------------------


def _read_tail(size: TireSize, rest: str, plain: str) -> None:
    place = 0
    while rest[place:].strip():
        found = _TAIL.match(rest, place)
        if found is None:
            raise NotationError(plain, EXPECTED, f"{rest[place:].strip()!r} after the size is not understood")
        _take(size, found, plain)
        place = found.end()


def _take(size: TireSize, found: re.Match[str], plain: str) -> None:
    parts = found.groupdict()
    letter = parts["spelled"] or parts["range"] or parts["slash"]
    if parts["service"]:
        size.service = read_service_description(parts["service"])
    elif parts["ply"]:
        size.ply = int(parts["ply"])
    elif letter:
        _set_load_range(size, letter, plain)
    elif parts["use"] == "NHS":
        size.not_for_highway = True
    elif parts["use"]:
        _set_use(size, parts["use"], plain)
    elif parts["mark"]:
        _set_load_range(size, _MARKS.get(parts["mark"], parts["mark"]), plain)
    elif parts["letter"] == "C" and _is_commercial(size):
        size.suffix_c = True
        size.key += "C"
    elif parts["letter"]:
        _set_load_range(size, parts["letter"], plain)


def _is_commercial(size: TireSize) -> bool:
    """Whether a C after the size marks a commercial tire; elsewhere it is load range C."""
    return size.prefix == "" and (
        size.form == "metric" or (size.form == "numeric" and size.construction == "R")
    )


def _set_use(size: TireSize, use: str, plain: str) -> None:
    if size.prefix not in ("", use):
        raise NotationError(plain, EXPECTED, f"{size.prefix} and {use} contradict each other")
    size.prefix = use
    size.key += use


def _set_load_range(size: TireSize, load_range: str, plain: str) -> None:
    if size.load_range not in ("", load_range):
        hint = f"load ranges {size.load_range} and {load_range} contradict each other"
        raise NotationError(plain, EXPECTED, hint)
    size.load_range = load_range
