"""``new``: a commented list to start from."""

from __future__ import annotations

import os
import sys

from partscheck.commands import common

TYPE_CHECKING = False
if TYPE_CHECKING:
    import argparse

HELP = "write a commented list to start from"
STATUS = "Exit status: 0 the list was written, 2 it was not: the file is there already, or the CSV cannot be used."


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.epilog = STATUS
    parser.add_argument("file", metavar="FILE", nargs="?", help="where to (default: standard output)")
    parser.add_argument("-o", "--output", metavar="FILE", help="the same")
    parser.add_argument(
        "--from", dest="source", metavar="FILE.csv",
        help="start from the line items of a CSV file, with headings; - reads standard input",
    )  # fmt: skip
    common.catalog_option(parser)


def run(arguments: argparse.Namespace) -> int:
    if None not in (arguments.file, arguments.output):
        return common.complain(f"Two names for one file: {arguments.file} and {arguments.output}.")
    arguments.file = arguments.file or arguments.output
    if arguments.source is not None:
        return _from_csv(arguments)
    from partscheck.report.starter import starter_list

    return _deliver(starter_list(), arguments)


def _from_csv(arguments: argparse.Namespace) -> int:
    """The list of a CSV file; what could not be read is told, and stands in the list as comments."""
    from partscheck.notation.faults import Faults
    from partscheck.report.fault_text import unread_text
    from partscheck.uses.from_csv import list_from_csv

    try:
        text, unread = list_from_csv(*_read(arguments))
    except Faults as faults:
        return common.tell_faults(faults)
    status = _deliver(text, arguments)
    if unread and status == common.NO_STOP:
        sys.stderr.write(common.printable(unread_text(unread, common.columns()), sys.stderr))
    return status


def _read(arguments: argparse.Namespace) -> tuple[str | bytes, list[str], str]:
    """What to read, the catalogues, and what messages call it."""
    text, called = common.source(arguments.source)
    return text, arguments.catalog, called


def _deliver(text: str, arguments: argparse.Namespace) -> int:
    if arguments.file is None:
        common.write(text)
        return common.NO_STOP
    if os.path.lexists(arguments.file):
        return common.complain(f"{arguments.file} is there already: nothing was written. Choose another name.")
    try:
        common.write_whole(arguments.file, text)
    except OSError as error:
        return common.complain(f"{arguments.file} cannot be written: {error.strerror}")
    common.write(f"Wrote {arguments.file}. Fill it in, then run: partscheck check {arguments.file}\n")
    return common.NO_STOP
