"""Washers of bolted joints: lines of the list, or words for their type."""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.notation.words import UNKNOWN_WORD
from partscheck.parts.fasteners import Washer

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.model import Build

NO_WASHER = "none"
PLAIN_WASHERS = ("flat", "narrow flat", "wide flat", "fender")


class JointWasher:
    """The washer on one side of a joint: a ``line`` of the list, or a ``word`` for its type.

    ``type`` and ``hardness`` are words, ``UNKNOWN_WORD`` where nothing tells.
    """

    __slots__ = ("line", "side", "word")

    def __init__(self, side: str, line: Any, word: str) -> None:
        self.side = side
        self.line = line
        self.word = word

    @property
    def type(self) -> Any:
        if self.line is not None:
            return self.line.type if self.line.has("type") else UNKNOWN_WORD
        return _word("type", self.word)

    @property
    def hardness(self) -> Any:
        """As typed, and not asked for; a structural washer is hardened, one named as SAE or USS is soft."""
        if self.line is not None and self.line.has("hardness"):
            return self.line.hardness
        if self.type == "structural":
            return "hardened"
        if self.line is not None:
            return UNKNOWN_WORD
        hard = _word("hardness", self.word)
        if hard is UNKNOWN_WORD and self.type in PLAIN_WASHERS:
            return "soft"
        return hard

    @property
    def flat(self) -> bool:
        """False for washers that lock, and do not spread the load."""
        kind = self.type
        return kind is UNKNOWN_WORD or kind in (*PLAIN_WASHERS, "structural", "square")


def washers_of(build: Build, joint: Any) -> Iterator[tuple[str, JointWasher]]:
    """(head or nut, washer) of each side that has one."""
    if not joint.says("washers"):
        return
    named = joint.values["washers"].value.everything()
    for side in ("head", "nut"):
        text = named[side].value if side in named else ""
        if text and text.lower() != NO_WASHER:
            line = build.part(text)
            yield side, JointWasher(side, line, "" if line is not None else text)


def washer_word(text: str) -> tuple[str, Any]:
    """("type" or "hardness", its word) of a washer named by a word; ("", None) when it is no such word."""
    for name in ("type", "hardness"):
        word = _word(name, text)
        if word is not UNKNOWN_WORD:
            return name, word
    return "", None


def table_types(washer: JointWasher) -> tuple[str, ...]:
    """The rows of the table of washers that it may be."""
    kind = washer.type
    if kind == "structural" or (kind in (UNKNOWN_WORD, "flat") and washer.hardness == "hardened"):
        return ("hardened", "iso")
    if kind == "narrow flat":
        return ("sae", "iso")
    if kind == "wide flat":
        return ("uss", "iso")
    return ("sae", "uss", "hardened", "iso") if kind in (UNKNOWN_WORD, "flat") else ()


def _word(name: str, text: str) -> Any:
    """A typed word of the field ``type`` or ``hardness`` of washers, UNKNOWN_WORD when it is none."""
    word = Washer.fields[name].type.read(text, None)
    return word if isinstance(word, str) else UNKNOWN_WORD
