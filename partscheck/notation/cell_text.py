"""Text for the cells of a table: on one line; harmless in a spreadsheet, and back; several fields in one cell."""

from __future__ import annotations

import json
import re
import unicodedata
from collections.abc import Iterable

# Categories of characters that end a line or that no eye sees, some of which turn the text around them.
UNSEEN = ("Cc", "Cf", "Zl", "Zp", "Cs", "Co", "Cn")

# Where a cell starts, and behind a semicolon, at which some spreadsheets part cells too.
_FORMULA = re.compile(r"(^\s*|;\s*)('*[=+\-@\t\r])")
_DEFUSED = re.compile(r"(^\s*|;\s*)'('*[=+\-@\t\r])")
_PLAIN = re.compile(r"""[^;"'\\]*""")


def one_line(text: str) -> str:
    """The text on one line, without characters that steer a screen or turn the direction of writing.

    >>> one_line("two\\n  lines")
    'two lines'
    """
    if text.isascii() and text.isprintable():
        return " ".join(text.split())
    return " ".join(_seen(text).split())


def harmless(text: str) -> str:
    """The same of a text of many lines, each of which stays as it is spaced.

    >>> harmless("a  b\n\x1b[31mc")
    'a  b\n [31mc'
    """
    if text.isascii() and text.replace("\n", "").isprintable():
        return text
    return "\n".join(line if line.isprintable() else _seen(line) for line in text.split("\n"))


def _seen(text: str) -> str:
    kept = (
        "" if unicodedata.category(c) == "Cf" else " " if unicodedata.category(c) in UNSEEN else c for c in text
    )
    return "".join(kept)


def defused(text: str) -> str:
    """The text with an apostrophe before what a spreadsheet would run.

    >>> defused("=1+1"), defused("1/2-20"), defused("-12 mm")
    ("'=1+1", '1/2-20', "'-12 mm")
    """
    return _FORMULA.sub(r"\1'\2", text)


def as_typed(text: str) -> str:
    """What ``defused`` was given.

    >>> as_typed("'=1+1"), as_typed("'twas")
    ('=1+1', "'twas")
    """
    return _DEFUSED.sub(r"\1\2", text)


def details_text(pairs: Iterable[tuple[str, str]]) -> str:
    """Keys and texts in one cell: "thread: 1/2-20; seat: conical"; an odd text stands in quotes.

    >>> details_text([("thread", "1/2-20"), ("size", "3 x 3; long")])
    'thread: 1/2-20; size: "3 x 3; long"'
    """
    return "; ".join(f"{key}: {text if _PLAIN.fullmatch(text) else json.dumps(text)}" for key, text in pairs)


_PAIR = re.compile(r"""\s*([\w-]+)\s*:\s*("(?:[^"\\]|\\.)*"|[^;]*?)\s*(?:;|$)""")


def details_pairs(text: str) -> list[tuple[str, str]] | None:
    """The keys and texts of such a cell; None where it is something else.

    >>> details_pairs('thread: 1/2-20; size: "3 x 3; long"')
    [('thread', '1/2-20'), ('size', '3 x 3; long')]
    """
    pairs, place = [], 0
    while place < len(text.rstrip()):
        found = _PAIR.match(text, place)
        if found is None or not found[2]:
            return None
        quoted = found[2].startswith('"')
        if quoted and not found[2].endswith('"'):
            return None
        try:
            pairs.append((found[1], json.loads(found[2]) if quoted else found[2]))
        except ValueError:
            return None
        place = found.end()
    return pairs
