"""``explain``: what a rule checks, what a field means and how to measure it."""

from __future__ import annotations

from partscheck.commands import common

TYPE_CHECKING = False
if TYPE_CHECKING:
    import argparse

HELP = "explain a rule, a kind of part, a field, a practice limit or a catalogue part"
STATUS = "Exit status: 0 it is told, 2 there is nothing of this name."


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.epilog = STATUS
    parser.add_argument("name", metavar="NAME", help="a rule (stud-above-adapter-face), a kind of part "
                        "(hub), a field (hub.stud_length), a practice limit (stud_below_flush), the id of a "
                        "catalogue part, or units")  # fmt: skip
    common.catalog_option(parser)


def run(arguments: argparse.Namespace) -> int:
    from partscheck.report.explain_text import explain_text

    text, found = explain_text(arguments.name, common.columns(), arguments.catalog)
    if not found:
        return common.complain(text)
    common.write(text)
    return common.NO_STOP
