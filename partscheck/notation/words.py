"""Words of a field: the sentinel for a word that is not known, and the nearest word to a mistyped one."""

from __future__ import annotations

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable


class UnknownWord(str):
    """Looks like a word in a message ("unknown"), but equals no word: only itself."""

    __slots__ = ()

    known = False

    def __eq__(self, other: object) -> bool:
        return self is other

    def __ne__(self, other: object) -> bool:
        return self is not other

    __hash__ = str.__hash__


UNKNOWN_WORD = UnknownWord("unknown")


def same_word(first: str, second: str) -> bool | None:
    """Whether two words are the same; None when either is unknown."""
    if first is UNKNOWN_WORD or second is UNKNOWN_WORD:
        return None
    return first == second


def nearest(word: str, known: Iterable[str]) -> str:
    """The known word that ``word`` was most likely meant to be, or ""."""
    from difflib import get_close_matches  # costs more than a check; only errors come here

    by_lower = {candidate.lower(): candidate for candidate in known}
    found = get_close_matches(word.lower()[:60], list(by_lower), n=1, cutoff=0.6)
    return by_lower[found[0]] if found else ""
