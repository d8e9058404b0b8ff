"""``draw``: one drawing of a list to scale, as SVG; or which ones can be drawn."""

from __future__ import annotations

from partscheck.commands import common

TYPE_CHECKING = False
if TYPE_CHECKING:
    import argparse

    from partscheck.report.drawing import Drawing, Undrawn

HELP = "draw one view of a list to scale as SVG, or list the views that can be drawn"
STATUS = "Exit status: 0 drawn, or listed, 2 the list cannot be used, or lacks what the drawing needs."
# What can be drawn, in the order of a look round the trailer: wheels, joints, the whole.
KINDS = ("wheel-end", "bolt-circles", "load-plane", "joint", "side-view", "rear-view", "load-path")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.epilog = STATUS
    common.list_argument(parser)
    what = parser.add_argument(
        "what", metavar="[WHAT]",
        help=f"the drawing, by name or kind: {', '.join(KINDS)}; left out: list what this list can have drawn",
    )  # fmt: skip
    what.required = False  # nargs="?" would be taken as left out where an option stands before it
    common.units_option(parser)
    common.catalog_option(parser)
    common.output_option(parser)


def run(arguments: argparse.Namespace) -> int:
    from partscheck.report.drawing import Drawing, every_drawing

    result = common.checked(arguments.list, arguments.catalog)
    every = list(every_drawing(result, arguments.units or result.build.leading()))
    if not arguments.what:
        failed = common.deliver(_listed(every), arguments.output)
        return common.NO_STOP if failed is None else failed
    asked = [one for one in every if arguments.what in (one.slug, one.kind)]
    if not asked:
        return common.complain(
            f"There is no drawing '{arguments.what}' of this list.\n\n{_listed(every)}".rstrip()
        )
    drawn = [one for one in asked if isinstance(one, Drawing)]
    if not drawn:
        return common.complain(_lacking(asked))
    failed = common.deliver(drawn[0].svg() + "\n", arguments.output)
    if failed is not None:
        return failed
    if len(drawn) > 1:
        common.complain("Others of this kind: " + ", ".join(one.slug for one in drawn[1:]))
    return common.UNUSABLE if result.crashed else common.NO_STOP


def _listed(every: list[Drawing | Undrawn]) -> str:
    """What can be drawn, then what cannot and why."""
    from partscheck.report.drawing import Drawing

    drawn = [one for one in every if isinstance(one, Drawing)]
    lines = ["Can be drawn:"] if drawn else ["Nothing of this list can be drawn yet."]
    wide = max((len(one.slug) for one in every), default=0)
    lines += [f"  {one.slug.ljust(wide)}  {one.title}" for one in drawn]
    lacking = [one for one in every if not isinstance(one, Drawing)]
    if lacking:
        lines += ["", "Cannot be drawn until these fields are typed:"]
        for one in lacking:
            lines += _hung(f"  {one.slug.ljust(wide)}  ", ", ".join(one.missing))
    return "\n".join(lines) + "\n"


def _hung(label: str, words: str) -> list[str]:
    """The words behind their label, over as many lines as they take."""
    from textwrap import wrap

    rest = " " * len(label)
    return wrap(words, common.columns(), initial_indent=label, subsequent_indent=rest, break_long_words=False)


def _lacking(asked: list[Drawing | Undrawn]) -> str:
    return "\n".join(
        f"{one.slug} cannot be drawn: the list lacks {', '.join(getattr(one, 'missing', ()))}." for one in asked
    )
