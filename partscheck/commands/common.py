"""What commands share: exit status, options, reading the source, writing to the screen or to a file."""

from __future__ import annotations

import errno
import os
import sys
from contextlib import suppress

TYPE_CHECKING = False
if TYPE_CHECKING:
    import argparse
    from collections.abc import Iterable

    from partscheck.engine import Result
    from partscheck.notation.faults import Faults

NO_STOP, SOME_STOP, UNUSABLE = 0, 1, 2
SCREEN = "-"


class OutputError(Exception):
    """Standard output takes no more (a full disk): what was written of it is not whole."""


def status(result: Result, fail_on: str = "stop") -> int:
    """Exit status of a check: a rule that crashed, or nothing checked, is never a pass.

    ``fail_on`` is the least rank of finding that fails it: stop, caution or measure.
    """
    from partscheck.uses.fail_on import fails

    if result.crashed or result.verdict == "nothing":
        return UNUSABLE
    return SOME_STOP if fails(result, fail_on) else NO_STOP


# ---- options -----------------------------------------------------------------------------


def list_argument(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("list", metavar="LIST", help="the parts list (YAML); - reads standard input")


def catalog_option(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--catalog", action="append", default=[], metavar="DIR",
        help="a folder of catalogue files of your own, over the shipped ones (repeatable)",
    )  # fmt: skip


def units_option(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--units", choices=("inch", "metric"), help="which units lead (default: the list's own)")


def format_option(parser: argparse.ArgumentParser, *forms: str) -> None:
    """The first of ``forms`` is the default."""
    parser.add_argument("--format", choices=forms, default=forms[0], help="how to report")


def output_option(parser: argparse.ArgumentParser, required: bool = False) -> None:
    parser.add_argument(
        "-o", "--output", metavar="FILE", required=required,
        help="write to this file, whole or not at all; - is the screen"
        + ("" if required else " (which is the default)"),
    )  # fmt: skip


# ---- reading -----------------------------------------------------------------------------


def called(name: str) -> str:
    """What messages call a file; ``-`` is standard input."""
    return "standard input" if name == "-" else name


def source(name: str) -> tuple[str | bytes, str]:
    """What to read and what to call it."""
    if name != "-":
        return name, name
    from partscheck.notation.yaml_text import LIMITS

    return sys.stdin.buffer.read(LIMITS.bytes + 1), called(name)


def checked(name: str, catalogs: Iterable[str]) -> Result:
    """The checked list of a command's ``LIST``.  Raises ``Faults``."""
    import partscheck

    if catalogs:  # a large folder is compiled when it is first used
        from partscheck import progress

        progress.shown_on(sys.stderr)
    text, called = source(name)
    return partscheck.check(text, catalogs, called)


# ---- writing -----------------------------------------------------------------------------


def columns() -> int:
    """Width of the terminal, at most 100; 80 where there is none."""
    import shutil  # costs start-up time

    return min(100, shutil.get_terminal_size((80, 24)).columns)


def write(text: str) -> None:
    """To the screen.  Raises ``BrokenPipeError`` where its reader went away, else ``OutputError``."""
    try:
        sys.stdout.write(printable(text, sys.stdout))
        sys.stdout.flush()
    except BrokenPipeError:
        raise
    except OSError as error:
        raise OutputError(error.strerror or str(error)) from error


def complain(text: str) -> int:
    """Say why nothing can be done; the exit status of that.  What was typed may steer a screen: it is told
    as an escape.
    """
    from partscheck.notation.faults import printable as without_marks

    lines = (without_marks(line) for line in text.split("\n"))
    sys.stderr.write(printable("\n".join(lines) + "\n", sys.stderr))
    return UNUSABLE


def printable(text: str, stream: object) -> str:
    """Characters that the terminal's encoding lacks are replaced, never a crash."""
    encoding = getattr(stream, "encoding", None) or "utf-8"
    return text.encode(encoding, "replace").decode(encoding)


def tell_faults(faults: Faults, form: str = "text") -> int:
    """Every fault of an input that cannot be used."""
    from partscheck.report.fault_text import fault_text

    if form == "json":
        from partscheck.report.json_report import faults_report

        write(faults_report(faults.faults, faults.following) + "\n")
    sys.stderr.write(printable(fault_text(faults.faults, columns(), faults.following), sys.stderr))
    return UNUSABLE


def deliver(text: str, output: str | None) -> int | None:
    """To the screen, or to a file written whole or not at all; an exit status when that failed."""
    if output in (None, SCREEN):
        write(text)
        return None
    try:
        write_whole(output, text)
    except OSError as error:
        return complain(f"{output} cannot be written: {error.strerror or error}. Nothing was written.")
    sys.stderr.write(printable(f"Wrote {output}\n", sys.stderr))
    return None


def write_whole(path: str, text: str) -> None:
    """A file beside the target is filled and then takes its place: never a half written file.

    Raises ``OSError``.
    """
    if os.path.exists(path) and not os.path.isfile(path) and not os.path.isdir(path):
        with open(path, "w", encoding="utf-8", newline="") as stream:  # a device or a pipe stays what it is
            stream.write(text)
        return
    import tempfile  # costs start-up time

    target = os.path.realpath(path)
    folder = os.path.dirname(target) or "."
    if os.path.exists(target) and not os.access(target, os.W_OK):
        raise PermissionError(errno.EACCES, "it is read-only")  # a file put in its place would not ask
    handle, beside = tempfile.mkstemp(dir=folder, prefix=".partscheck-")
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline="") as stream:
            stream.write(text)
        os.chmod(beside, _mode(target))
        os.replace(beside, target)
    except BaseException:
        with suppress(OSError):
            os.unlink(beside)
        raise


def _mode(path: str) -> int:
    """Permissions that the file has, or that a new one gets."""
    try:
        return os.stat(path).st_mode & 0o777
    except OSError:
        mask = os.umask(0)
        os.umask(mask)
        return 0o666 & ~mask
