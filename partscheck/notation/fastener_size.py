"""Bolt sizes: 1/2-13 x 2-1/2 in, M12x1.75 x 60 mm, M12 x 60."""

from __future__ import annotations

import re

from partscheck.notation.errors import NotationError
from partscheck.notation.interval import Interval, Quantity
from partscheck.notation.measure import quantity_pattern, read_quantity
from partscheck.notation.pattern import Pattern
from partscheck.notation.raw_text import LONGEST, clean, comma_hint, spelling
from partscheck.notation.thread import Thread, read_thread, thread_pattern

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any, ClassVar

EXPECTED = "a bolt size, thread and length, such as 1/2-13 x 2-1/2 in or M12x1.75 x 60 mm"

PITCH_BELOW = 7.0  # after a metric size a bare number under this is a pitch, else a length in mm

_TIMES = Pattern(" ?x ?", re.IGNORECASE)
_BARE = Pattern(r"[0-9]*\.[0-9]+|[0-9]+")
_PITCH_WITH_UNIT = Pattern(r"(?:[0-9]*\.[0-9]+|[0-9]+) ?mm.*", re.IGNORECASE)

_THREAD = thread_pattern.partition("$)")[2].removesuffix("$")
_LENGTH = quantity_pattern("length").partition("$)")[2].removesuffix("$")
fastener_size_pattern = f"^(?=.{{1,{LONGEST}}}$){_THREAD}[xX\u00d7](?:{_LENGTH}|\\s*[0-9]*[.]?[0-9]+)\\s*$"


class FastenerSize:
    """Thread and length (under the head for hex heads), the length an Interval in mm."""

    __slots__ = ("known", "length", "text", "thread")

    unknown: ClassVar[FastenerSize]

    def __init__(self, thread: Thread, length: Interval, text: str = "", known: bool = True) -> None:
        self.thread = thread
        self.length = length
        self.text = text
        self.known = known

    def __str__(self) -> str:
        return self.text

    def __repr__(self) -> str:
        return f"<FastenerSize {self.text}>"


FastenerSize.unknown = FastenerSize(Thread.unknown, Interval.unknown("mm"), "unknown", known=False)


def read_fastener_size(text: str, tables: Any) -> FastenerSize:
    """Thread and length that ``text`` names; ``tables`` as in ``read_thread``.  Raises ``NotationError``."""
    plain = clean(text, EXPECTED)
    pieces = _TIMES.split(plain)
    if plain[:1] in "Mm" and len(pieces) > 1:
        thread, length = _metric(pieces, plain)
    elif len(pieces) > 1:
        thread, length = "x".join(pieces[:-1]), pieces[-1]
    else:
        raise NotationError(plain, EXPECTED, comma_hint(plain) or "the length is missing")
    return FastenerSize(_thread(thread, plain, tables), _length(length, plain), spelling(text))


def _metric(pieces: list[str], plain: str) -> tuple[str, str]:
    """The thread's text and the length's; a bare length after a metric size is in mm."""
    if len(pieces) > 3:
        raise NotationError(plain, EXPECTED)
    last = pieces[-1]
    if len(pieces) == 2 and "-" not in pieces[0] and _BARE.fullmatch(last) and float(last) < PITCH_BELOW:
        hint = f"{last} is the pitch, the length is missing: {pieces[0]}x{last} x 60 mm"
        raise NotationError(plain, EXPECTED, hint)
    return "x".join(pieces[:-1]), f"{last} mm" if _BARE.fullmatch(last) else last


def _thread(text: str, plain: str, tables: Any) -> Thread:
    try:
        return read_thread(text, tables)
    except NotationError as fault:
        raise NotationError(plain, EXPECTED, comma_hint(plain) or fault.hint) from None


def _length(text: str, plain: str) -> Quantity:
    try:
        length = read_quantity(text, "length", signed=False)
    except NotationError as fault:
        hint = comma_hint(plain) or f"the length: {fault.hint or fault.expected}"
        raise NotationError(plain, EXPECTED, hint) from None
    if length.hi <= 0:
        raise NotationError(plain, EXPECTED, "the length is more than nothing")
    return length
