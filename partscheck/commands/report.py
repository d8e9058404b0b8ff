"""``report``: one HTML page to read on a phone or to print."""

from __future__ import annotations

from partscheck.commands import common

TYPE_CHECKING = False
if TYPE_CHECKING:
    import argparse

HELP = "write one HTML page to read on a phone or to print: findings, measurements, drawings, bill, bench sheet"
STATUS = (
    "Exit status: 0 no stop, 1 at least one stop (the page is written all the same), 2 the list cannot be used."
)


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.epilog = STATUS
    common.list_argument(parser)
    common.units_option(parser)
    common.catalog_option(parser)
    common.output_option(parser)


def run(arguments: argparse.Namespace) -> int:
    from partscheck.report.html import html_report

    result = common.checked(arguments.list, arguments.catalog)
    failed = common.deliver(html_report(result, arguments.units or ""), arguments.output)
    return common.status(result) if failed is None else failed
