"""What a check of catalogue folders found, as text and as plain data for JSON."""

from __future__ import annotations

import json

from partscheck.notation.cell_text import one_line
from partscheck.report.wrap import Page, plural

TYPE_CHECKING = False
if TYPE_CHECKING:
    from partscheck.catalogue.folder_check import FolderReport
    from partscheck.catalogue.replaced import Replaced

FORMAT = "partscheck-catalog/1"
DIFFERENCES = 4  # of a replaced part that are told
TEXT_AT_MOST = 60  # characters of a text that differs


def catalog_text(report: FolderReport, columns: int = 80) -> str:
    """The summary, then the notes."""
    page = Page(columns)
    rows = sum(report.tables.values())
    told = [f"{report.parts:,} {'part' if report.parts == 1 else 'parts'}"]
    if rows:
        told.append(f"{plural(rows, 'row')} of {plural(len(report.tables), 'table')}")
    page.line(f"SOUND - {', '.join(map(one_line, report.folders))}: {' and '.join(told)} in "
              f"{plural(len(report.files), 'file')}.")  # fmt: skip
    if not report.schema:
        page.line("The published schema was not tried: it needs jsonschema (pip install partscheck[schema]).")
    if report.kinds:
        page.head("KINDS")
        for kind in sorted(report.kinds, key=lambda kind: (-report.kinds[kind], kind)):
            page.raw(f"{report.kinds[kind]:>12,}  {kind}")
    if report.tables:
        page.head("ROWS OF TABLES")
        for table in sorted(report.tables):
            page.raw(f"{report.tables[table]:>12,}  {table}")
    _replaced(page, report)
    _alike(page, report)
    return page.text()


def _replaced(page: Page, report: FolderReport) -> None:
    conflicts = [one for one in report.replaced if one.conflict]
    if conflicts:
        page.head("CONFLICTS - one id, two kinds of part: the later layer hides the earlier one")
        _told(page, conflicts)
    others = [one for one in report.replaced if not one.conflict]
    if others:
        page.head("REPLACED - the later layer wins")
        _told(page, others)
    if report.replaced_more:
        page.gap()
        page.line(f"{report.replaced_more:,} more {'is' if report.replaced_more == 1 else 'are'} replaced.")


def _told(page: Page, replaced: list[Replaced]) -> None:
    for one in replaced:
        page.item("-", f"{one_line(one.id)}: {_place(*one.above_at)}, over {_place(*one.below_at)}")
        page.under(_differences(one))


def _place(file: str, line: int) -> str:
    return f"{one_line(file)}, line {line}"


def _differences(one: Replaced) -> str:
    if not one.differs:
        return "nothing differs"
    told = [
        f"{key} {_cut(new) or 'not stated'} (was {_cut(old) or 'not stated'})"
        for key, old, new in one.differs
    ]
    more = f"; and {plural(len(told) - DIFFERENCES, 'field')} more" if len(told) > DIFFERENCES else ""
    return "; ".join(told[:DIFFERENCES]) + more


def _cut(text: str) -> str:
    line = one_line(text)
    return line if len(line) <= TEXT_AT_MOST else line[: TEXT_AT_MOST - 3] + "..."


def _alike(page: Page, report: FolderReport) -> None:
    if not report.alike:
        return
    page.head("ALIKE - two ids, the same values (price, weight and seller apart)")
    for one in report.alike:
        page.item("-", f"{one.kind}: {one_line(one.first)} and {one_line(one.second)}")
    if report.alike_more:
        page.line(f"{report.alike_more:,} more.")


def catalog_json(report: FolderReport) -> str:
    return json.dumps(
        {
            "format": FORMAT,
            "folders": report.folders,
            "files": report.files,
            "parts": report.parts,
            "kinds": report.kinds,
            "tables": report.tables,
            "replaced": [
                {
                    "id": one.id, "below": one.below, "above": one.above, "conflict": one.conflict,
                    "below_at": {"file": one.below_at[0], "line": one.below_at[1]},
                    "above_at": {"file": one.above_at[0], "line": one.above_at[1]},
                    "differs": [{"field": key, "below": old, "above": new} for key, old, new in one.differs],
                }
                for one in report.replaced
            ],
            "replaced_more": report.replaced_more,
            "alike": [{"kind": one.kind, "ids": [one.first, one.second]} for one in report.alike],
            "alike_more": report.alike_more,
            "schema_tried": report.schema,
        },
        indent=1, ensure_ascii=False,
    )  # fmt: skip
