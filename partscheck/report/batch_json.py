"""The reports of many lists as one JSON document, as ``schemas/reports.schema.json`` describes it."""

from __future__ import annotations

import json

from partscheck.report.json_report import faults_data, report_data
from partscheck.uses.checked_file import SKIPPED

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.uses.checked_file import CheckedFile, Row

FORMAT = "partscheck-reports/1"


class JsonReports:
    """The document as it grows, list by list: reports in the order of the lists, then the tally."""

    def __init__(self) -> None:
        self._skipped: list[dict[str, str]] = []
        self._counts: dict[str, int] = {}
        self._first = True

    def begin(self) -> str:
        return f'{{\n"format": {json.dumps(FORMAT)},\n"reports": ['

    def add(self, row: Row) -> str:
        if row.verdict == SKIPPED:
            self._skipped.append({"file": row.file, "why": row.worst})
            return ""
        self._counts[row.verdict] = self._counts.get(row.verdict, 0) + 1
        before, self._first = ("\n" if self._first else ",\n"), False
        return before + str(row.piece)

    def end(self) -> str:
        counts = json.dumps(dict(sorted(self._counts.items())))
        skipped = json.dumps(self._skipped, ensure_ascii=False)
        return f'],\n"counts": {counts},\n"skipped": {skipped}\n}}\n'


def json_piece(checked: CheckedFile, leading: str) -> str:
    """The entry of one file: its report, or its faults, or why partscheck failed on it."""
    data: dict[str, Any] = {"file": checked.file}
    if checked.result is not None:
        data["report"] = report_data(checked.result, leading)
    elif checked.faults is not None:
        data["faults"] = faults_data(checked.faults.faults, checked.faults.following)
    else:
        data["failed"] = checked.failed
    return json.dumps(data, ensure_ascii=False)
