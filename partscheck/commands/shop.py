"""``shop``: the bench sheet, to print and to tick off."""

from __future__ import annotations

from partscheck.commands import common

TYPE_CHECKING = False
if TYPE_CHECKING:
    import argparse

    from partscheck.uses.shop import BenchSheet

HELP = "write the bench sheet: holes, threads, studs, grease, torques and checks, in the order of the work"
STATUS = (
    "Exit status: 0 no stop, 1 at least one stop (the sheet is written all the same), 2 the list cannot be used."
)


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.epilog = STATUS
    common.list_argument(parser)
    common.format_option(parser, "text", "json", "markdown")
    common.units_option(parser)
    common.catalog_option(parser)
    common.output_option(parser)


def run(arguments: argparse.Namespace) -> int:
    from partscheck.uses.shop import bench_sheet

    result = common.checked(arguments.list, arguments.catalog)
    text = _written(bench_sheet(result), arguments.units or result.build.leading(), arguments.format)
    failed = common.deliver(text, arguments.output)
    return common.status(result) if failed is None else failed


def _written(sheet: BenchSheet, leading: str, form: str) -> str:
    if form == "json":
        from partscheck.report.shop_json import shop_json

        return shop_json(sheet, leading) + "\n"
    if form == "markdown":
        from partscheck.report.shop_markdown import shop_markdown

        return shop_markdown(sheet, leading)
    from partscheck.report.shop_text import shop_text

    return shop_text(sheet, leading, common.columns())
