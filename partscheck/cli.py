"""The command line.  Exit status: 0 no stop, 1 at least one stop, 2 the input cannot be used."""

from __future__ import annotations

import argparse
import gc
import os
import sys
from importlib import import_module

from partscheck import __version__
from partscheck.commands.common import UNUSABLE, OutputError, complain, tell_faults

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

# Each command is a module of its own in partscheck/commands/, in the order of the help.
COMMANDS = (
    "check", "fix", "swap", "bom", "shop", "report", "draw", "find", "catalog",
    "explain", "rules", "new", "completion",
)  # fmt: skip
COLLECT_AFTER = 50_000  # new objects; start-up makes many that stay, and looking through them takes its time
EPILOG = "Exit status of check: 0 no stop, 1 at least one stop, 2 the input cannot be used."


def main(argv: list[str] | None = None) -> int:
    """Run one command; returns the exit status.  No traceback reaches the user."""
    gc.set_threshold(COLLECT_AFTER, 20, 20)
    words = sys.argv[1:] if argv is None else argv
    arguments = parser(words[0] if words else "").parse_args(words)
    if not hasattr(arguments, "run"):
        parser().print_help()
        return UNUSABLE
    try:
        return int(arguments.run(arguments))
    except BrokenPipeError:
        _drop_output()
        return UNUSABLE
    except OutputError as error:
        _drop_output()
        return complain(f"The output cannot be written: {error}.")
    except KeyboardInterrupt:
        return complain("stopped")
    except RecursionError:
        return complain("the input goes too deep to be read")
    except Exception as error:
        return _told(error, getattr(arguments, "format", "text"))


def _told(error: Exception, form: str) -> int:
    """Every fault of an input that cannot be used; whatever else comes up here is a fault of ours."""
    from partscheck.notation.faults import Faults

    if isinstance(error, Faults):
        return tell_faults(error, form)
    return complain(
        f"partscheck itself failed ({type(error).__name__}: {error}). No check was made. "
        "Please report this with the list that caused it."
    )


def _drop_output() -> None:
    """What still waits to be written goes nowhere: Python would try again as it ends, and complain."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def parser(first: str = "") -> argparse.ArgumentParser:
    """The parser of every command; of one alone when ``first`` names it: start-up stays short."""
    top = argparse.ArgumentParser(
        prog="partscheck",
        description="Checks the parts list of a home-built light road trailer: what does not fit, "
        "what is too weak, what is missing, what to measure.",
        epilog=EPILOG,
        formatter_class=_of_any_width,
    )
    top.add_argument("--version", action="version", version=f"partscheck {__version__}")
    commands = top.add_subparsers(title="commands", metavar="COMMAND")
    for name in (first,) if first in COMMANDS else COMMANDS:
        command: Any = import_module(f"partscheck.commands.{name}")
        one = commands.add_parser(
            name, help=command.HELP, description=command.HELP[:1].upper() + command.HELP[1:] + ".", epilog=EPILOG,
            formatter_class=_of_any_width,
        )  # fmt: skip
        command.add_arguments(one)
        one.formatter_class = argparse.HelpFormatter
        one.set_defaults(run=command.run, whole_parser=parser)
    top.formatter_class = argparse.HelpFormatter
    return top


def _of_any_width(prog: str) -> argparse.HelpFormatter:
    """argparse has each option that it is given laid out once, for the width of a terminal that it asks for."""
    return argparse.HelpFormatter(prog, width=100)


if __name__ == "__main__":
    sys.exit(main())
