"""``find``: parts of the catalogue by their values; with a list, those that fit and carry in it."""

from __future__ import annotations

import sys

from partscheck.commands import common
from partscheck.commands.any_order import in_any_order

TYPE_CHECKING = False
if TYPE_CHECKING:
    import argparse

    from partscheck.uses.find import Finds

HELP = "find parts in the catalogue by their values, and try them in a list"
STATUS = (
    'A condition is field=value in either unit system: thickness="38 to 45 mm", rating="1200 lb or more" '
    '(also ">= 1200 lb", "at least", "at most"), hub_circle="5 x 4.5 in", seat=conical, price="at most 60". '
    "Quotes keep the shell from parting a value. "
    "Exit status: 0 parts were found (with --for: at least one that was checked and brings no new stop), 1 none, "
    "2 the question, the list or a catalogue file cannot be used."
)
ROUND = 1_000  # parts that --limit may ask for


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.epilog = STATUS
    parser.add_argument("kind", metavar="KIND", help="a kind of part: adapter, wheel, tire, bolt, lug-nut, ...")
    parser.add_argument("conditions", metavar="FIELD=VALUE", nargs="*", default=[], help="what a field has to be")
    parser.add_argument(
        "--for", dest="list", metavar="LIST",
        help="try each part in this parts list (- reads standard input): only those that bring no new stop",
    )  # fmt: skip
    parser.add_argument(
        "--line", default="", metavar="ID", help="the line of LIST to try them on, where several would do"
    )
    parser.add_argument(
        "--by", choices=("price", "weight", "margin"), default="price",
        help="what to sort by; margin needs --for (default: price)",
    )  # fmt: skip
    parser.add_argument("--limit", type=_whole, default=10, metavar="N", help="how many to show (default: 10)")
    common.format_option(parser, "text", "json")
    common.units_option(parser)
    common.catalog_option(parser)
    in_any_order(parser)


def _whole(text: str) -> int:
    if not text.isdecimal() or not 1 <= int(text) <= ROUND:
        raise ValueError(text)
    return int(text)


_whole.__name__ = f"number from 1 to {ROUND}"  # argparse tells it so


def run(arguments: argparse.Namespace) -> int:
    from partscheck import progress
    from partscheck.uses.find import find

    progress.shown_on(sys.stderr)
    text, called = common.source(arguments.list) if arguments.list is not None else (None, "")
    found = find(
        arguments.kind, arguments.conditions, build=text, catalogs=arguments.catalog, by=arguments.by,
        limit=arguments.limit, line=arguments.line, file=called,
    )  # fmt: skip
    common.write(_written(found, arguments))
    return common.NO_STOP if found.candidates and found.checkable else common.SOME_STOP


def _written(found: Finds, arguments: argparse.Namespace) -> str:
    leading = arguments.units or (found.build.leading() if found.build is not None else found.leading())
    if arguments.format == "json":
        from partscheck.report.find_json import find_json

        return find_json(found, leading) + "\n"
    from partscheck.report.find_text import find_text

    return find_text(found, leading, common.columns())
