"""``rules``: every rule in one sentence, or every practice limit."""

from __future__ import annotations

from partscheck.commands import common

TYPE_CHECKING = False
if TYPE_CHECKING:
    import argparse

HELP = "list the rules, one sentence each"


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.epilog = None  # it always does its work
    parser.add_argument("--limits", action="store_true", help="list the practice limits instead")


def run(arguments: argparse.Namespace) -> int:
    from partscheck.report.explain_text import limits_text, rules_text

    width = common.columns()
    common.write(limits_text(width) if arguments.limits else rules_text(width))
    return common.NO_STOP
