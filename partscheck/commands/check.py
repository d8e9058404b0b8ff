"""``check``: does everything on the list fit and carry."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

from partscheck.commands import common

if TYPE_CHECKING:
    import argparse

    from partscheck.engine import Result

HELP = "check a parts list, or many"
STATUS = (
    "Exit status: 0 nothing found of the rank that --fail-on names or worse (default: no stop), 1 at least one "
    "such finding, 2 a list cannot be used, or nothing on it could be checked. Of many lists the worst counts: 2 "
    "where any of them cannot be used."
)


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.epilog = STATUS
    parser.add_argument(
        "list", metavar="LIST", nargs="+",
        help="the parts list (YAML), - for standard input; several lists, or folders of them, give a summary",
    )  # fmt: skip
    common.format_option(parser, "text", "json", "markdown", "sarif", "junit")
    common.units_option(parser)
    parser.add_argument("--all", action="store_true", help="also list what held, and what sits on what")
    parser.add_argument(
        "--fail-on", choices=("stop", "caution", "measure"), default="stop",
        help="exit 1 where a finding of this rank or worse is open: caution means a stop or a caution, "
        "measure any of the three (default: stop)",
    )  # fmt: skip
    parser.add_argument(
        "--jobs", type=_jobs, metavar="N", help="processes for many lists (default: as many as there are cores)"
    )
    common.catalog_option(parser)


def _jobs(text: str) -> int:
    from argparse import ArgumentTypeError

    if not text.isdecimal() or not 1 <= int(text) <= 256:
        raise ArgumentTypeError(f"a number of processes from 1 to 256, not {text!r}")
    return int(text)


def run(arguments: argparse.Namespace) -> int:
    name = arguments.list[0]
    if len(arguments.list) > 1 or os.path.isdir(name):
        from partscheck.commands.check_many import run_many

        return run_many(arguments)
    from partscheck.notation.faults import Faults

    try:
        result = common.checked(name, arguments.catalog)
    except Faults as faults:
        if arguments.format in ("text", "json"):
            return common.tell_faults(faults, arguments.format)
        _write_document(arguments, None, faults)
        return common.tell_faults(faults)
    if arguments.format in ("text", "json"):
        _write(arguments, result)
    else:
        _write_document(arguments, result, None)
    return common.status(result, arguments.fail_on)


def _write(arguments: argparse.Namespace, result: Result) -> None:
    leading = arguments.units or result.build.leading()
    if arguments.format == "json":
        from partscheck.report.json_report import json_report

        common.write(json_report(result, leading) + "\n")
    else:
        from partscheck.report.text import text_report

        common.write(text_report(result, leading, common.columns(), arguments.all))


def _write_document(arguments: argparse.Namespace, result: Result | None, faults: Exception | None) -> None:
    """The formats that are the same for one list and for many."""
    from partscheck.commands.check_many import document_of_one

    name = common.called(arguments.list[0])
    common.write(document_of_one(arguments, name, result, faults))
