"""``partscheck fix``: plans that clear every stop of a list, each tried with every rule."""

from __future__ import annotations

import sys
from contextlib import suppress

from partscheck.commands import common

TYPE_CHECKING = False
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
STDOUT = "-"


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
    parser.add_argument(
        "--write", metavar="FILE",
        help="write the list as the plan changes it to this file, whole or not at all; - writes it to standard "
             "output, and the plans to standard error",
    )  # fmt: skip
    parser.add_argument("--pick", type=_count, metavar="N",
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
    if arguments.pick and arguments.write is None:
        return common.complain("--pick says which plan to write: name the file with --write, too.")
    hindered = _hindered(arguments.write)
    if hindered:
        name = arguments.write or "The list"
        return common.complain(f"{name} cannot be written: {hindered}. Nothing was looked for.")
    plans = max(arguments.plans, arguments.pick or 1)
    source, called = common.source(arguments.list)
    text = read_text(source, called)
    found = fix(
        text.encode("utf-8"), arguments.by, plans, arguments.time, arguments.catalog, called, arguments.units
    )
    _tell(_written(found, arguments), arguments.write)
    if found.before.crashed or found.before.verdict == "nothing":
        return common.complain("Nothing was checked, or a rule failed itself: see `partscheck check`.")
    if arguments.write is not None:
        failed = _write_list(found, text, arguments)
        if failed is not None:
            return failed
    return common.NO_STOP if found.clears_all else common.SOME_STOP


def _hindered(path: str | None) -> str:
    """Why nothing can be written there, as far as that shows before the search; "" where nothing does."""
    if path is None or path == STDOUT:
        return ""
    import os

    folder = os.path.dirname(path) or "."
    if not path:
        return "--write names no file"
    if os.path.isdir(path):
        return "it is a folder"
    if not os.path.isdir(folder):
        return f"there is no folder {folder}"
    if not os.access(folder, os.W_OK):
        return f"the folder {folder} is read-only"
    if os.path.exists(path) and not os.access(path, os.W_OK):
        return "it is read-only"
    return ""


def _written(found: Fix, arguments: argparse.Namespace) -> str:
    leading = arguments.units or found.build.leading()
    if arguments.format == "json":
        from partscheck.report.fix_json import fix_json

        return fix_json(found, leading) + "\n"
    from partscheck.report.fix_text import fix_text

    return fix_text(found, leading, common.columns())


def _tell(text: str, write: str | None) -> None:
    """The plans: to the screen, or beside the list where that goes to standard output."""
    if write == STDOUT:
        _aside(text)
    else:
        common.write(text)


def _aside(text: str) -> None:
    """To standard error.  Where that takes nothing (a full disk) the list is what was asked for."""
    with suppress(OSError):
        sys.stderr.write(common.printable(text, sys.stderr))
        sys.stderr.flush()


def _write_list(found: Fix, text: str, arguments: argparse.Namespace) -> int | None:
    """Write the changed list, whole or not at all; an exit status where that cannot be done."""
    from partscheck.notation.faults import printable as without_marks
    from partscheck.uses.fix.list_edits import CannotEditError
    from partscheck.uses.fix.write_list import written_and_beside

    called = "The list" if arguments.write == STDOUT else arguments.write
    pick = arguments.pick or 1
    if not found.stops:
        failed = common.deliver(text, None if arguments.write == STDOUT else arguments.write)
        if failed is None:
            _aside("There is nothing to change: it is the list as it was.\n")
        return failed
    if pick > len(found.plans):
        return common.complain(f"{called} was not written: there is no plan {pick}.")
    try:
        new, again = written_and_beside(text, found.plans[pick - 1])
    except CannotEditError as error:
        return common.complain(f"{called} was not written: {error}. Make that change by hand.")
    failed = common.deliver(new, None if arguments.write == STDOUT else arguments.write)
    if failed is None and again:
        _aside("Read these again, they were written for what stood there before:\n")
        _aside("".join(f"  {without_marks(one)}\n" for one in again))
    return failed
