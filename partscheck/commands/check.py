"""``check``: does everything on the list fit and carry."""

from __future__ import annotations

import os

from partscheck.commands import common

TYPE_CHECKING = False
if TYPE_CHECKING:
    import argparse

    from partscheck.engine import Result
    from partscheck.notation.faults import Faults

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
        help="the parts list (YAML), - for standard input; several lists, or folders of them, give a summary "
        "(a folder within a folder is checked when it is named too)",
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
    common.output_option(parser)


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
        return _unusable(arguments, faults)
    failed = common.deliver(_written(arguments, result), arguments.output)
    return common.status(result, arguments.fail_on) if failed is None else failed


def _unusable(arguments: argparse.Namespace, faults: Faults) -> int:
    """The faults in the format that was asked for, and as text for whoever runs it."""
    if arguments.format == "json":
        from partscheck.report.json_report import faults_report

        common.deliver(faults_report(faults.faults, faults.following) + "\n", arguments.output)
    elif arguments.format != "text":
        common.deliver(_document(arguments, None, faults), arguments.output)
    return common.tell_faults(faults)


def _written(arguments: argparse.Namespace, result: Result) -> str:
    leading = arguments.units or result.build.leading()
    if arguments.format == "json":
        from partscheck.report.json_report import json_report

        return json_report(result, leading) + "\n"
    if arguments.format == "text":
        from partscheck.report.text import text_report

        return text_report(result, leading, common.columns(), arguments.all)
    return _document(arguments, result, None)


def _document(arguments: argparse.Namespace, result: Result | None, faults: Exception | None) -> str:
    """The formats that are the same for one list and for many."""
    from partscheck.commands.check_many import document_of_one

    return document_of_one(arguments, common.called(arguments.list[0]), result, faults)
