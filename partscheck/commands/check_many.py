"""``check`` of many lists: one document, written as the lists come in, and a line that tells how far it is."""

from __future__ import annotations

import os
import sys
from functools import partial
from typing import TYPE_CHECKING, Any, Protocol

from partscheck.commands import common
from partscheck.notation.faults import Faults
from partscheck.uses.checked_file import CheckedFile, Row, row_of

if TYPE_CHECKING:
    import argparse
    from collections.abc import Callable

    from partscheck.uses.batch import Asked

    Render = Callable[[CheckedFile, str], Any]

GATHERING = ("text", "markdown")  # these come at the end, in one piece


class Document(Protocol):
    """What is written of many lists: a beginning, what each list adds, an end."""

    def begin(self) -> str: ...
    def add(self, row: Row) -> str: ...
    def end(self) -> str: ...


def run_many(arguments: argparse.Namespace) -> int:
    from partscheck.uses.batch import files_of

    if "-" in arguments.list:
        return common.complain("Standard input (-) can be checked only alone.")
    try:
        asked = files_of(arguments.list)
    except OSError as error:
        return common.complain(f"{error.filename} cannot be read: {error.strerror}.")
    if not asked:
        return common.complain(f"There is no file *.yaml or *.yml in {', '.join(arguments.list)}.")
    try:
        return _checked(arguments, asked)
    except Faults as faults:  # of the catalogue: no list was read
        return common.tell_faults(faults)


def _checked(arguments: argparse.Namespace, asked: list[Asked]) -> int:
    from concurrent.futures import BrokenExecutor

    from partscheck import progress
    from partscheck.uses.batch import check_files, jobs_for

    document = document_of(arguments.format)
    make = partial(make_row, arguments.format, arguments.units, arguments.fail_on, arguments.all, common.columns())
    rows = check_files(asked, arguments.catalog, make, jobs_for(len(asked), arguments.jobs))
    if arguments.format in GATHERING or arguments.output or not sys.stdout.isatty():
        progress.shown_on(sys.stderr)
    worst, checked, faults = 0, 0, []
    gathered: list[str] = []  # for a file, which is written whole or not at all
    put = gathered.append if arguments.output else common.write
    try:
        with progress.Progress("checking lists", len(asked)) as line:
            for done, row in enumerate(rows, start=1):
                put(("" if done > 1 else document.begin()) + document.add(row))
                worst, checked = max(worst, row.status), checked + (row.verdict != "skipped")
                faults += [row.faults] if row.faults else []
                line.at(done)
    except BrokenExecutor:
        return common.complain(
            "\nA process that checked lists was ended from outside, perhaps for want of memory: the output is not "
            "whole. `--jobs 1` checks them one after the other."
        )
    put(document.end())
    if arguments.output and common.deliver("".join(gathered), arguments.output) is not None:
        return common.UNUSABLE
    for text in faults:
        sys.stderr.write(common.printable("\n" + text, sys.stderr))
    _tell_of_folders(arguments)
    return worst if checked else common.UNUSABLE


def _tell_of_folders(arguments: argparse.Namespace) -> None:
    """Folders within those named may hold lists too: nobody shall take them for checked."""
    named = {os.path.realpath(name) for name in (*arguments.list, *arguments.catalog)}
    for folder in dict.fromkeys(name for name in arguments.list if os.path.isdir(name)):
        with os.scandir(folder) as entries:
            inside = sorted(one.path for one in entries if one.is_dir() and not one.name.startswith("."))
        for path in inside:
            if os.path.realpath(path) not in named and _may_hold_lists(path):
                common.complain(f"{path} was not looked into: name it too to check the lists in it.")


def _may_hold_lists(folder: str) -> bool:
    try:
        return any(name.lower().endswith((".yaml", ".yml")) for name in os.listdir(folder))
    except OSError:
        return True


def document_of_one(arguments: argparse.Namespace, name: str, result: Any = None, faults: Any = None) -> str:
    """The document of a single list, in a format that is the same for one and for many."""
    checked = CheckedFile(name, result, faults)
    if arguments.format == "markdown":
        from partscheck.report.markdown_report import markdown_report

        leading = arguments.units or ("metric" if result is None else result.build.leading())
        return markdown_report(checked, leading, arguments.all)
    row = row_of(checked, arguments.units, arguments.fail_on, _render_of(arguments.format, arguments.all))
    document = document_of(arguments.format)
    return document.begin() + document.add(row) + document.end()


def document_of(form: str) -> Document:
    if form == "json":
        from partscheck.report.batch_json import JsonReports

        return JsonReports()
    if form == "sarif":
        from partscheck.report.sarif_report import SarifLog

        return SarifLog()
    if form == "junit":
        from partscheck.report.junit_report import JunitFile

        return JunitFile()
    if form == "markdown":
        from partscheck.report.batch_markdown import MarkdownSummary

        return MarkdownSummary()
    from partscheck.report.batch_text import TextSummary

    return TextSummary(common.columns())


def make_row(
    form: str, units: str | None, fail_on: str, everything: bool, columns: int, checked: CheckedFile
) -> Row:
    """The row of one checked file; worker processes call it."""
    row = row_of(checked, units, fail_on, _render_of(form, everything))
    if checked.faults is not None:
        from partscheck.report.fault_text import fault_text

        row.faults = fault_text(checked.faults.faults, columns, checked.faults.following)
    return row


def _render_of(form: str, everything: bool) -> Render:
    if form == "json":
        from partscheck.report.batch_json import json_piece

        return json_piece
    if form == "sarif":
        from partscheck.report.sarif_report import sarif_piece

        return partial(sarif_piece, everything=everything)
    if form == "junit":
        from partscheck.report.junit_report import junit_suites

        return junit_suites
    if form == "markdown":
        from partscheck.report.batch_markdown import markdown_piece

        return partial(markdown_piece, everything=everything)
    return _nothing


def _nothing(checked: CheckedFile, leading: str) -> None:
    """A text summary needs no more than the row."""
