"""``report``: one HTML page to read on a phone or to print."""

from __future__ import annotations

from typing import TYPE_CHECKING

from partscheck.commands import common

if TYPE_CHECKING:
    import argparse

HELP = "write one HTML page to read on a phone or to print: findings, measurements, drawings, bill, bench sheet"


def add_arguments(parser: argparse.ArgumentParser) -> None:
    common.list_argument(parser)
    common.units_option(parser)
    common.catalog_option(parser)
    common.output_option(parser)


def run(arguments: argparse.Namespace) -> int:
    from partscheck.report.html import html_report

    result = common.checked(arguments.list, arguments.catalog)
    failed = common.deliver(html_report(result, arguments.units or ""), arguments.output)
    return common.status(result) if failed is None else failed
