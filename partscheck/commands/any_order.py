"""Lets positional words and options of a command be typed in any order."""

from __future__ import annotations

TYPE_CHECKING = False
if TYPE_CHECKING:
    import argparse
    from typing import Any


def in_any_order(parser: argparse.ArgumentParser) -> None:
    """``find adapter --by weight thickness="1.5 in"``: argparse alone takes positional words only in one go.

    For parsers whose options, but for help, take one word each, and whose other words never begin with a hyphen.
    """
    plain = parser.parse_known_args

    def parse(args: list[str] | None = None, namespace: Any = None) -> Any:
        return plain(positional_first(list(args or [])), namespace)

    parser.parse_known_args = parse  # type: ignore[method-assign, assignment]


def positional_first(words: list[str]) -> list[str]:
    """The words that belong to no option, then the options.

    >>> positional_first(["adapter", "--by", "weight", "seat=flat"])
    ['adapter', 'seat=flat', '--by', 'weight']
    """
    first: list[str] = []
    rest: list[str] = []
    waiting = iter(words)
    for word in waiting:
        if not word.startswith("-") or word == "-":
            first.append(word)
            continue
        rest.append(word)
        if word.startswith("--") and "=" not in word and word != "--help":
            rest += [value for value in [next(waiting, None)] if value is not None]
    return [*first, *rest]
