"""``swap``: a list before and after a change, side by side."""

from __future__ import annotations

from partscheck.commands import common

TYPE_CHECKING = False
if TYPE_CHECKING:
    import argparse
    from typing import Any

    from partscheck.build.change import Change
    from partscheck.uses.swap import Swap

HELP = "compare a parts list before and after a change: findings, figures, what else to buy"
STATUS = (
    "Exit status: 0 the change brings no new stop (stops that were there before may stay: the report says so), "
    "1 it brings at least one, 2 the list or the change cannot be used."
)


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.epilog = STATUS
    common.list_argument(parser)
    parser.add_argument(
        "change", metavar="CHANGE", nargs="?",
        help="the swap file (YAML): replace, add, remove; left out where an option below says what to change",
    )  # fmt: skip
    parser.add_argument(
        "--replace", action="append", default=[], metavar="ID.FIELD=VALUE",
        help='replace one field, such as wheel.offset="-12 mm" or layout.coupler_height="17 in" (repeatable)',
    )  # fmt: skip
    parser.add_argument(
        "--add", action="append", default=[], metavar="{...}",
        help='add a line, such as "{id: nuts, kind: lug-nut, thread: M14x1.5, qty: 12}" (repeatable)',
    )  # fmt: skip
    parser.add_argument(
        "--remove", action="append", default=[], metavar="ID", help="take a line away (repeatable)"
    )
    common.format_option(parser, "text", "json", "markdown")
    common.units_option(parser)
    common.catalog_option(parser)
    common.output_option(parser)
    _change_anywhere(parser)


def _change_anywhere(parser: argparse.ArgumentParser) -> None:
    """CHANGE may stand behind options, too; by itself the parser gives it up as soon as it has LIST."""
    plain: Any = parser.parse_known_args

    def parse(words: Any = None, namespace: Any = None) -> tuple[Any, list[str]]:
        found, rest = plain(words, namespace)
        names = [word for word in rest if word == "-" or not word.startswith("-")]
        if found.change is None and len(names) == 1:
            found.change = names[0]
            rest.remove(names[0])
        return found, rest

    parser.parse_known_args = parse  # type: ignore[assignment]


def run(arguments: argparse.Namespace) -> int:
    from partscheck.uses.swap import swap

    if arguments.list == arguments.change == "-":
        return common.complain("Only one of LIST and CHANGE can be read from standard input.")
    asked = _change(arguments)
    if asked is None:
        return common.complain("Nothing to change: name a swap file, or give --replace, --add or --remove.")
    text, called = common.source(arguments.list)
    found = swap(text, asked, arguments.catalog, called)
    leading = arguments.units or found.before.build.leading()
    failed = common.deliver(_written(found, leading, arguments), arguments.output)
    return _status(found) if failed is None else failed


def _change(arguments: argparse.Namespace) -> Change | None:
    """The change of file and options together; None when neither says anything.  Raises ``Faults``."""
    from partscheck.build.change import read_change, read_options

    options = read_options(arguments.replace, arguments.add, arguments.remove)
    if arguments.change is None:
        return None if options.empty and not options.faults else options
    return read_change(*common.source(arguments.change)).extend(options)


def _written(found: Swap, leading: str, arguments: argparse.Namespace) -> str:
    if arguments.format == "json":
        from partscheck.report.swap_json import swap_json

        return swap_json(found, leading) + "\n"
    if arguments.format == "markdown":
        from partscheck.report.swap_markdown import swap_markdown

        return swap_markdown(found, leading)
    from partscheck.report.swap_text import swap_text

    return swap_text(found, leading, common.columns())


def _status(found: Swap) -> int:
    """A new stop is one; a rule that crashed, or nothing checked, is never a pass."""
    if found.after.crashed or found.after.verdict == "nothing":
        return common.UNUSABLE
    return common.SOME_STOP if found.new_stops else common.NO_STOP
