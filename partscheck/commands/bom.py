"""``bom``: what to buy, where, for how much, with the warnings beside each line."""

from __future__ import annotations

from partscheck.commands import common

TYPE_CHECKING = False
if TYPE_CHECKING:
    import argparse

    from partscheck.uses.bom import BillOfMaterials

HELP = "list what to buy, with quantities, prices, sellers, and the warnings beside each line"
STATUS = "Exit status: 0 the bill was written (stops stand beside their lines), 2 the list cannot be used."


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.epilog = STATUS
    common.list_argument(parser)
    common.format_option(parser, "text", "csv", "json", "markdown")
    parser.add_argument(
        "--by",
        choices=("assembly", "seller"),
        default="assembly",
        help="how to group the lines (default: assembly)",
    )
    common.units_option(parser)
    common.catalog_option(parser)
    common.output_option(parser)


def run(arguments: argparse.Namespace) -> int:
    from partscheck.uses.bom import bill_of_materials

    result = common.checked(arguments.list, arguments.catalog)
    bill = bill_of_materials(result)
    leading = arguments.units or result.build.leading()
    text = _written(bill, leading, arguments.format, arguments.by)
    failed = common.deliver(text, arguments.output)
    if failed is not None:
        return failed
    return common.UNUSABLE if result.crashed else common.NO_STOP


def _written(bill: BillOfMaterials, leading: str, form: str, by: str) -> str:
    if form == "csv":
        from partscheck.report.bom_csv import bom_csv

        return bom_csv(bill, leading, by)
    if form == "json":
        from partscheck.report.bom_json import bom_json

        return bom_json(bill, leading, by) + "\n"
    if form == "markdown":
        from partscheck.report.bom_markdown import bom_markdown

        return bom_markdown(bill, leading, by)
    from partscheck.report.bom_text import bom_text

    return bom_text(bill, leading, common.columns(), by)
