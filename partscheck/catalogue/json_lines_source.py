"""Reads a catalogue of JSON lines: on each line one object, a part: {"id": ..., "kind": ..., field: value}."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from partscheck.catalogue.row_text import LINE_AT_MOST, Row, odd_character

if TYPE_CHECKING:
    from collections.abc import Iterator

    from partscheck.catalogue.row_text import RowFaults

_EXAMPLE = '{"id": "plate-a", "kind": "adapter", "thickness": "38 mm"}'


class _RefusedError(ValueError):
    """A line that is JSON but no part; the key it is about, what is due, and why."""

    def __init__(self, key: str, expected: str, hint: str = "") -> None:
        super().__init__(key)
        self.key = key
        self.expected = expected
        self.hint = hint


def read_json_lines(lines: Iterator[str], faults: RowFaults) -> Iterator[Row]:
    """Every row that can be read; what is wrong with the others is told."""
    decoder = json.JSONDecoder(object_pairs_hook=_pairs, parse_float=str, parse_int=str, parse_constant=_constant)
    for number, line in enumerate(lines, start=1):
        if faults.full:
            return
        if len(line) >= LINE_AT_MOST:
            faults.tell(number, 1, line[:40], "one part on each line", "this line is longer than any part")
            return
        text = line.strip()
        if not text:
            continue
        row = _row(text, number, decoder, faults)
        if row is not None:
            yield row


def _row(text: str, number: int, decoder: json.JSONDecoder, faults: RowFaults) -> Row | None:
    try:
        pairs: Any = decoder.decode(text)
    except _RefusedError as refused:
        faults.tell(number, _column(text, refused.key), refused.key, refused.expected, refused.hint)
        return None
    except (ValueError, RecursionError) as error:
        column = getattr(error, "colno", 1)
        hint = f"{getattr(error, 'msg', 'it goes too deep')}; such as {_EXAMPLE}"
        faults.tell(number, column, text[column - 1 : column + 39], "one JSON object on the line", hint)
        return None
    if not isinstance(pairs, _Pairs):
        faults.tell(number, 1, text, "one JSON object on the line", f"such as {_EXAMPLE}")
        return None
    texts: list[str] = []
    columns: list[int] = []
    for key, value in pairs:
        columns.append(text.find(f'"{key}"', columns[-1] if columns else 0) + 1)
        told = _text(value)
        why = odd_character(key + told) if not (told.isascii() and told.isprintable()) else ""
        if value is None or not isinstance(value, (str, bool)) or why:
            hint = why or "leave out what is not known"
            faults.tell(number, _column(text, key), key, "one text, number, true or false", hint)
            return None
        texts.append(told)
    return Row(number, tuple(key for key, _ in pairs), texts, tuple(columns))


class _Pairs(list[tuple[str, Any]]):
    """The keys and values of one object, in order."""


def _pairs(found: list[tuple[str, Any]]) -> _Pairs:
    keys = [key for key, _ in found]
    if len(set(keys)) < len(keys):
        twice = next(key for key in keys if keys.count(key) > 1)
        raise _RefusedError(twice, "each key once")
    return _Pairs(found)


def _constant(name: str) -> str:
    raise _RefusedError(name, "a number")


def _text(value: Any) -> str:
    return str(value).lower() if isinstance(value, bool) else value if isinstance(value, str) else ""


def _column(text: str, key: str) -> int:
    return max(text.rfind(json.dumps(key)), text.rfind(f'"{key}"'), text.rfind(key), 0) + 1
