"""``partscheck fix``: plans that clear every stop of a list, each tried with every rule."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

from partscheck.commands import common

if TYPE_CHECKING:
    import argparse

    from partscheck.uses.fix import Fix

HELP = "find changes that clear every stop: parts, work in the shop, loads; each plan tried with every rule"
STATUS = (
    "Exit status: 0 no stop is left (there was none, or a plan clears them all), 1 some stay, 2 the list cannot "
    "be used."
)
PLANS = 3
SECONDS = 60.0


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.epilog = STATUS
    common.list_argument(parser)
    parser.add_argument(
        "--by", choices=("changes", "cost", "margin"), default="changes",
        help="what comes first: fewest changes, least cost, or the most room at the part that has the least",
    )  # fmt: skip
    parser.add_argument("--plans", type=_count, default=PLANS, metavar="N",
                        help=f"how many plans to look for (default: {PLANS})")  # fmt: skip
    parser.add_argument(
        "--time", type=_seconds, default=SECONDS, metavar="SECONDS",
        help=f"give the best so far after this time (default: {SECONDS:g})",
    )  # fmt: skip
    parser.add_argument("--write", metavar="FILE", help="write the list as the plan changes it to this file")
    parser.add_argument("--pick", type=_count, default=1, metavar="N",
                        help="which plan to write (default: the first)")  # fmt: skip
    common.catalog_option(parser)
    common.units_option(parser)
    common.format_option(parser, "text", "json")


def _count(text: str) -> int:
    import argparse

    if not (text.isascii() and text.isdigit() and 1 <= int(text[:4]) <= 20):
        raise argparse.ArgumentTypeError(f"a number from 1 to 20, not {text}")
    return int(text)


def _seconds(text: str) -> float:
    import argparse

    try:
        value = float(text)
    except ValueError:
        value = -1.0
    if not 0 < value < 1e6:
        raise argparse.ArgumentTypeError(f"a number of seconds above 0, not {text}")
    return value


def run(arguments: argparse.Namespace) -> int:
    from partscheck.notation.yaml_text import read_text
    from partscheck.progress import shown_on
    from partscheck.uses.fix import fix

    shown_on(sys.stderr)
    plans = max(arguments.plans, arguments.pick if arguments.write else 1)
    source, called = common.source(arguments.list)
    text = read_text(source, called)
    found = fix(
        text.encode("utf-8"), arguments.by, plans, arguments.time, arguments.catalog, called, arguments.units
    )
    common.write(_written(found, arguments))
    if found.before.crashed or found.before.verdict == "nothing":
        return common.complain("Nothing was checked, or a rule failed itself: see `partscheck check`.")
    if arguments.write:
        failed = _write_list(found, text, arguments)
        if failed is not None:
            return failed
    return common.NO_STOP if found.clears_all else common.SOME_STOP


def _written(found: Fix, arguments: argparse.Namespace) -> str:
    leading = arguments.units or found.build.leading()
    if arguments.format == "json":
        from partscheck.report.fix_json import fix_json

        return fix_json(found, leading) + "\n"
    from partscheck.report.fix_text import fix_text

    return fix_text(found, leading, common.columns())


def _write_list(found: Fix, text: str, arguments: argparse.Namespace) -> int | None:
    """Write the changed list, whole or not at all; an exit status where that cannot be done."""
    from partscheck.uses.fix.list_edits import CannotEditError
    from partscheck.uses.fix.write_list import written_list

    if not found.stops:
        return common.complain(f"{arguments.write} was not written: there is nothing to change.")
    if arguments.pick > len(found.plans):
        return common.complain(f"{arguments.write} was not written: there is no plan {arguments.pick}.")
    try:
        new = written_list(text, found.plans[arguments.pick - 1])
    except CannotEditError as error:
        return common.complain(f"{arguments.write} was not written: {error}. Make that change by hand.")
    return common.deliver(new, arguments.write)
