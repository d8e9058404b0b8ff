"""The YAML parser's complaints in plain words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from partscheck.notation.faults import Fault
from partscheck.notation.yaml_text import Mark

if TYPE_CHECKING:
    from yaml import MarkedYAMLError

# What the parser says (part of it) -> what was expected, and what to do.
_WORDS = (
    ("mapping values are not allowed", "one value on this line",
     "a colon and a blank start a value: put quotes around a text that holds them, "
     "or line the key up with the keys above"),
    ("cannot start any token", "a key or a value",
     "put quotes around a text that starts with this character"),
    ("tab character", "spaces", "YAML takes no tabs there: use spaces"),
    ("found unexpected end of stream", "the closing quote of the text that starts here", ""),
    ("document separator", "the closing quote of the text that starts here", ""),
    ("unknown escape character", "a text whose backslashes are doubled",
     "inside double quotes a backslash is special: use single quotes"),
    ("hexdecimal", "a text whose backslashes are doubled",
     "inside double quotes a backslash is special: use single quotes"),
    ("expected ':'", "a colon and a value after the key", ""),
    ("expected ',' or '}'", "a comma or the closing } of the map that starts here", ""),
    ("expected ',' or ']'", "a comma or the closing ] of the list that starts here", ""),
    ("expected '-' indicator", "a further item that starts with -",
     "lines of one list start with - in the same column"),
    ("expected key", "a key, in the same column as the keys above it", ""),
    ("expected <block end>", "a key or item, in the same column as those above it", ""),
    ("expected <document start>", "nothing more here",
     "the lines above are complete already: line this one up with them"),
    ("node content", "a value", "put quotes around a text that starts with a sign like , ] or }"),
    ("block sequence entries are not allowed", "a value on this line",
     "start a list on a new line, or put quotes around a text that starts with -"),
    ("mapping keys are not allowed", "a value on this line",
     'put quotes around a text that starts with ?, as in "?"'),
    ("nesting depth", "brackets that close again", "too many are open at once"),
    ("directive", "no line that starts with %", "leave out the directive"),
    ("alphabetic or numeric", "a key or a value",
     "put quotes around a text that starts with & or *"),
    ("did not find expected", "a key or a value", ""),
)  # fmt: skip


def fault_of_yaml_error(error: MarkedYAMLError, text: str, file: str) -> Fault:
    """The parser's error as a fault, at its place, without the parser's own terms."""
    problem = f"{error.problem or ''} {error.context or ''}"
    expected, hint = "YAML", "this cannot be read as YAML"
    for said, due, repair in _WORDS:
        if said in problem:
            expected, hint = due, repair
            break
    where = error.problem_mark or error.context_mark
    if error.context_mark is not None and "starts here" in expected:
        where = error.context_mark  # an unclosed thing is told where it was opened
    lines = text.split("\n")
    line = min(where.line, len(lines) - 1) if where is not None else 0
    column = where.column if where is not None else 0
    rest = lines[line][column:].strip() if line < len(lines) else ""
    if _after_closing_quote(lines[line][:column]):
        expected = "nothing after the closing quote"
        hint = "put the quotes around the whole value, or leave them out"
    return Fault(Mark(file, line + 1, column + 1), rest, expected, hint)


def _after_closing_quote(before: str) -> bool:
    """True when the text just before is a value whose quotes were closed."""
    before = before.rstrip()
    return before[-1:] in ("'", '"') and before.count(before[-1]) % 2 == 0
