"""``catalog check``: are the files of a catalogue folder sound, and what do they hold."""

from __future__ import annotations

import sys

from partscheck.commands import common
from partscheck.commands.any_order import in_any_order

TYPE_CHECKING = False
if TYPE_CHECKING:
    import argparse

HELP = "check folders of catalogue files: faults with their lines, what replaces what, what is twice"
STATUS = (
    "Exit status: 0 the files are sound, 2 a file cannot be used: every fault is told with its line and column."
)


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.epilog = STATUS
    parser.add_argument("what", choices=("check",), metavar="check", help="the only thing to do so far")
    parser.add_argument(
        "folders", metavar="DIR", nargs="+",
        help="a folder of *.yaml, *.csv and *.jsonl files, or one such file; later ones over earlier ones",
    )  # fmt: skip
    common.format_option(parser, "text", "json")
    in_any_order(parser)


def run(arguments: argparse.Namespace) -> int:
    from partscheck import progress
    from partscheck.catalogue.folder_check import check_folders
    from partscheck.report.catalog_text import catalog_json, catalog_text

    progress.shown_on(sys.stderr)
    report = check_folders(arguments.folders)
    text = catalog_json(report) + "\n" if arguments.format == "json" else catalog_text(report, common.columns())
    common.write(text)
    return common.NO_STOP
