"""The YAML parser's complaints in plain words."""

from __future__ import annotations

from partscheck.notation.faults import Fault
from partscheck.notation.yaml_text import MapNode, Mark

TYPE_CHECKING = False
if TYPE_CHECKING:
    from yaml import Mark as ParserMark
    from yaml import MarkedYAMLError

    from partscheck.notation.yaml_text import SeqNode

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
    ("sequence entries are not allowed", "a value on this line",
     "start a list on a new line, or put quotes around a text that starts with -"),
    ("mapping keys are not allowed", "a value on this line",
     'put quotes around a text that starts with ?, as in "?"'),
    ("nesting depth", "brackets that close again", "too many are open at once"),
    ("directive", "no line that starts with %", "leave out the directive"),
    ("alphabetic or numeric", "a key or a value",
     "put quotes around a text that starts with & or *"),
    ("did not find expected", "a key or a value", ""),
)  # fmt: skip


def fault_of_yaml_error(
    error: MarkedYAMLError, text: str, file: str, unclosed: MapNode | SeqNode | None = None
) -> Fault:
    """The parser's error as a fault, at its place, without the parser's own terms.

    ``unclosed`` is the map in braces or list in brackets that was open where reading stopped.
    """
    end = error.problem_mark
    if unclosed is not None and end is not None and not _from(text, end.line, end.column).strip():
        sign, what = ("}", "map") if isinstance(unclosed, MapNode) else ("]", "list")
        hint = _after_a_comment(text, unclosed.mark.line - 1, sign)
        return Fault(unclosed.mark, "", f"the closing {sign} of the {what} that starts here", hint)
    if end is not None and end.column and _after_closing_quote(_line(text, end.line)[: end.column]):
        return _fault_at(end, text, file, "nothing after the closing quote",
                         "put the quotes around the whole value, or leave them out")  # fmt: skip
    problem = f"{error.problem or ''} {error.context or ''}"
    expected, hint = "YAML", "this cannot be read as YAML"
    for said, due, repair in _WORDS:
        if said in problem:
            expected, hint = due, repair
            break
    if error.context_mark is not None and "starts here" in expected:
        end = error.context_mark  # an unclosed thing is told where it was opened
        hint = hint or _after_a_comment(text, end.line, "}" if "}" in expected else "]")
    return _fault_at(end or error.context_mark, text, file, expected, hint)


def _fault_at(place: ParserMark | None, text: str, file: str, expected: str, hint: str) -> Fault:
    line, column = (place.line, place.column) if place is not None else (0, 0)
    rest = _line(text, line)[column:].strip()
    if rest.startswith("?"):
        expected, hint = "a value", 'write unknown, or put the question mark in quotes: "?"'
    return Fault(Mark(file, line + 1, column + 1), rest, expected, hint)


def _line(text: str, line: int) -> str:
    lines = text.split("\n")
    return lines[line] if line < len(lines) else ""


def _from(text: str, line: int, column: int) -> str:
    """The text from a place (counted from 0) to its end."""
    first, *rest = text.split("\n")[line:] or [""]
    return "\n".join([first[column:], *rest])


def _after_a_comment(text: str, line: int, sign: str) -> str:
    """A hint where a # that was meant as text hides the closing sign of what was opened on ``line``."""
    _, comment, hidden = _line(text, line).partition(" #")
    if not comment or sign not in hidden:
        return ""
    return "a # after a blank starts a remark to the end of the line: put quotes around a text that has one"


def _after_closing_quote(before: str) -> bool:
    """True when the text just before is a value whose quotes were closed."""
    before = before.rstrip()
    return before[-1:] in ("'", '"') and before.count(before[-1]) % 2 == 0
