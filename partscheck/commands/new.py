"""``new``: a commented list to start from."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

from partscheck.commands import common

if TYPE_CHECKING:
    import argparse

HELP = "write a commented list to start from"


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", metavar="FILE", nargs="?", help="where to (default: standard output)")


def run(arguments: argparse.Namespace) -> int:
    from partscheck.report.starter import starter_list

    text = starter_list()
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
