"""The command line.  Exit status: 0 no stop, 1 at least one stop, 2 the input cannot be used."""

from __future__ import annotations

import argparse
import os
import shutil
import sys
from typing import TYPE_CHECKING

from partscheck import __version__

if TYPE_CHECKING:
    from partscheck.engine import Result

NO_STOP, SOME_STOP, UNUSABLE = 0, 1, 2


def main(argv: list[str] | None = None) -> int:
    """Run one command; returns the exit status.  No traceback reaches the user."""
    arguments = _parser().parse_args(argv)
    if not hasattr(arguments, "run"):
        _parser().print_help()
        return UNUSABLE
    try:
        return int(arguments.run(arguments))
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return UNUSABLE
    except KeyboardInterrupt:
        return _complain("stopped")
    except RecursionError:
        return _complain("the input goes too deep to be read")
    except Exception as error:  # the last line of defence: every known fault is told elsewhere
        return _complain(
            f"partscheck itself failed ({type(error).__name__}: {error}). No check was made. "
            "Please report this with the list that caused it."
        )


def columns() -> int:
    """Width of the terminal, at most 100; 80 where there is none."""
    return min(100, shutil.get_terminal_size((80, 24)).columns)


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="partscheck",
        description="Checks the parts list of a home-built light road trailer: what does not fit, "
        "what is too weak, what is missing, what to measure.",
        epilog="Exit status: 0 no stop, 1 at least one stop, 2 the input cannot be used.",
    )
    parser.add_argument("--version", action="version", version=f"partscheck {__version__}")
    commands = parser.add_subparsers(title="commands", metavar="COMMAND")

    check = commands.add_parser("check", help="check a parts list", description="Check a parts list.")
    check.add_argument("list", metavar="LIST", help="the parts list (YAML); - reads standard input")
    check.add_argument("--format", choices=("text", "json"), default="text", help="how to report")
    check.add_argument(
        "--units", choices=("inch", "metric"), help="which units lead (default: the list's own)"
    )
    check.add_argument("--all", action="store_true", help="also list what held, and what sits on what")
    _catalog_option(check)
    check.set_defaults(run=_check)

    explain = commands.add_parser("explain", help="explain a rule, a field or a practice limit")
    explain.add_argument("name", metavar="NAME", help="a rule (stud-above-adapter-face), a field "
                         "(hub.stud_length), a practice limit (stud_below_flush), or units")  # fmt: skip
    explain.set_defaults(run=_explain)

    rules = commands.add_parser("rules", help="list the rules, one sentence each")
    rules.add_argument("--limits", action="store_true", help="list the practice limits instead")
    rules.set_defaults(run=_rules)

    new = commands.add_parser("new", help="write a commented list to start from")
    new.add_argument("file", metavar="FILE", nargs="?", help="where to (default: standard output)")
    new.set_defaults(run=_new)
    return parser


def _catalog_option(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--catalog", action="append", default=[], metavar="DIR",
        help="a folder of catalogue files of your own, over the shipped ones (repeatable)",
    )  # fmt: skip


# ---- commands ----------------------------------------------------------------------------


def _check(arguments: argparse.Namespace) -> int:
    import partscheck
    from partscheck.notation.faults import Faults

    source, name = _source(arguments.list)
    try:
        result = partscheck.check(source, arguments.catalog, name)
    except Faults as faults:
        return _tell_faults(faults, arguments.format)
    leading = arguments.units or result.build.leading()
    if arguments.format == "json":
        from partscheck.report.json_report import json_report

        _write(json_report(result, leading) + "\n")
    else:
        from partscheck.report.text import text_report

        _write(text_report(result, leading, columns(), arguments.all))
    return status(result)


def status(result: Result) -> int:
    """Exit status of a check: a rule that crashed, or nothing checked, is never a pass."""
    if result.crashed or result.verdict == "nothing":
        return UNUSABLE
    return SOME_STOP if result.verdict == "stop" else NO_STOP


def _source(name: str) -> tuple[str | bytes, str]:
    """What to read and what to call it; ``-`` is standard input."""
    if name != "-":
        return name, name
    from partscheck.notation.yaml_text import LIMITS

    return sys.stdin.buffer.read(LIMITS.bytes + 1), "standard input"


def _tell_faults(faults: object, form: str = "text") -> int:
    from partscheck.notation.faults import Faults
    from partscheck.report.fault_text import fault_text

    assert isinstance(faults, Faults)
    if form == "json":
        from partscheck.report.json_report import faults_report

        _write(faults_report(faults.faults, faults.following) + "\n")
    sys.stderr.write(_printable(fault_text(faults.faults, columns(), faults.following), sys.stderr))
    return UNUSABLE


def _explain(arguments: argparse.Namespace) -> int:
    from partscheck.report.explain_text import explain_text

    text, found = explain_text(arguments.name, columns())
    if not found:
        return _complain(text)
    _write(text)
    return NO_STOP


def _rules(arguments: argparse.Namespace) -> int:
    from partscheck.report.explain_text import limits_text, rules_text

    _write(limits_text(columns()) if arguments.limits else rules_text(columns()))
    return NO_STOP


def _new(arguments: argparse.Namespace) -> int:
    from partscheck.report.starter import starter_list

    text = starter_list()
    if arguments.file is None:
        _write(text)
        return NO_STOP
    try:
        with open(arguments.file, "x", encoding="utf-8") as stream:
            stream.write(text)
    except FileExistsError:
        return _complain(f"{arguments.file} is there already: nothing was written. Choose another name.")
    except OSError as error:
        return _complain(f"{arguments.file} cannot be written: {error.strerror}")
    _write(f"Wrote {arguments.file}. Fill it in, then run: partscheck check {arguments.file}\n")
    return NO_STOP


def _complain(text: str) -> int:
    sys.stderr.write(_printable(text + "\n", sys.stderr))
    return UNUSABLE


def _write(text: str) -> None:
    sys.stdout.write(_printable(text, sys.stdout))
    sys.stdout.flush()


def _printable(text: str, stream: object) -> str:
    """Characters that the terminal's encoding lacks are replaced, never a crash."""
    encoding = getattr(stream, "encoding", None) or "utf-8"
    return text.encode(encoding, "replace").decode(encoding)


if __name__ == "__main__":
    sys.exit(main())
