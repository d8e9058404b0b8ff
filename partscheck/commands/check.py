"""``check``: does everything on the list fit and carry."""

from __future__ import annotations

from typing import TYPE_CHECKING

from partscheck.commands import common

if TYPE_CHECKING:
    import argparse

HELP = "check a parts list"


def add_arguments(parser: argparse.ArgumentParser) -> None:
    common.list_argument(parser)
    common.format_option(parser, "text", "json")
    common.units_option(parser)
    parser.add_argument("--all", action="store_true", help="also list what held, and what sits on what")
    common.catalog_option(parser)


def run(arguments: argparse.Namespace) -> int:
    from partscheck.notation.faults import Faults

    try:
        result = common.checked(arguments.list, arguments.catalog)
    except Faults as faults:
        return common.tell_faults(faults, arguments.format)
    leading = arguments.units or result.build.leading()
    if arguments.format == "json":
        from partscheck.report.json_report import json_report

        common.write(json_report(result, leading) + "\n")
    else:
        from partscheck.report.text import text_report

        common.write(text_report(result, leading, common.columns(), arguments.all))
    return common.status(result)
