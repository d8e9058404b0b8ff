"""The check in the Static Analysis Results Interchange Format (SARIF) 2.1.0, an OASIS Standard.

Clause numbers are those of the standard (errata 01).  A stop is a result of level error, a caution
of level warning (3.27.10).  What has to be measured is of kind "open": the rule was evaluated, and
there was not enough information to decide (3.27.9); its level is "none", as of every kind but fail.
Notes are informational; with ``everything`` what held is told as "pass".  A caution that the list
accepts carries a suppression "inSource" with the reason (3.35); every other result an empty list, which
says that it was looked at and not suppressed (3.27.23).  A fault of a list that cannot be used
is a result too, since it is about the list; a rule that failed itself is about the tool, so it is a
notification (3.58), and the run was then not successful.
"""

from __future__ import annotations

import json
from hashlib import sha256
from typing import TYPE_CHECKING, Any

from partscheck import __version__
from partscheck.notation.cell_text import one_line
from partscheck.report.artifact_uri import artifact_location
from partscheck.report.explain_text import explain_text
from partscheck.report.finding_words import ended, paragraphs
from partscheck.rules import load_rules
from partscheck.rules.explain import page_of
from partscheck.rules.findings import CAUTION, MEASURE, STOP

if TYPE_CHECKING:
    from collections.abc import Iterable

    from partscheck.engine import Result
    from partscheck.notation.faults import Fault
    from partscheck.notation.yaml_text import Mark
    from partscheck.rules.findings import Finding
    from partscheck.uses.checked_file import CheckedFile, Row

SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
FAULT_RULE = "list-cannot-be-used"
LEVELS = {STOP: "error", CAUTION: "warning"}
KINDS = {STOP: "fail", CAUTION: "fail", MEASURE: "open", "note": "informational", "ok": "pass"}
FINGERPRINT = "partscheckFinding/v1"

Data = dict[str, Any]


class SarifPiece:
    """What one file adds: ``results`` and ``notifications`` as JSON texts, slugs of the rules they name."""

    __slots__ = ("notifications", "results", "rules")

    def __init__(self, results: list[Data], notifications: list[Data], rules: Iterable[str]) -> None:
        self.results = [_json(one) for one in results]
        self.notifications = [_json(one) for one in notifications]
        self.rules = tuple(dict.fromkeys(rules))


class SarifLog:
    """The log as it grows, file by file; the rules it names follow the results."""

    def __init__(self) -> None:
        self._files: list[Data] = []
        self._rules: dict[str, None] = {}
        self._notifications: list[str] = []
        self._sound = True
        self._first = True

    def begin(self) -> str:
        return (
            f'{{"$schema": {_json(SCHEMA)}, "version": "2.1.0", "runs": [{{\n'
            ' "columnKind": "unicodeCodePoints", "language": "en",\n "results": ['
        )

    def add(self, row: Row) -> str:
        """The results of one file."""
        piece: SarifPiece | None = row.piece
        if piece is None:
            return ""
        self._files.append({"location": artifact_location(row.file), "roles": ["analysisTarget"]})
        self._rules.update(dict.fromkeys(piece.rules))
        self._notifications += piece.notifications
        self._sound = self._sound and row.status != 2
        text = ""
        for one in piece.results:
            text += ("\n  " if self._first else ",\n  ") + one
            self._first = False
        return text

    def end(self) -> str:
        notifications = ", ".join(self._notifications)
        rules = [_descriptor(slug) for slug in sorted(self._rules)]
        driver = {"name": "partscheck", "version": __version__, "semanticVersion": __version__, "rules": rules}
        return (
            f'],\n "artifacts": {_json(self._files)},\n'
            f' "invocations": [{{"executionSuccessful": {_json(self._sound)}, '
            f'"toolExecutionNotifications": [{notifications}]}}],\n'
            f' "tool": {_json({"driver": driver})}\n}}]}}\n'
        )


def sarif_piece(checked: CheckedFile, leading: str, everything: bool = False) -> SarifPiece:
    """What one checked file adds to the log."""
    if checked.faults is not None:
        faults = [_fault(one) for one in checked.faults.faults]
        _number_twins(faults)
        return SarifPiece(faults, [], [FAULT_RULE])
    if checked.result is None:
        text = f"partscheck itself failed on this list: {checked.failed}"
        where = [{"physicalLocation": {"artifactLocation": artifact_location(checked.file)}}]
        return SarifPiece(
            [], [{"level": "error", "message": {"text": plain_message(text)}, "locations": where}], []
        )
    result = checked.result
    told = [*result.findings, *result.notes, *(result.held if everything else ())]
    results = [_result(one, checked, result, leading) for one in told]
    _number_twins(results)
    crashed = [_notification(one, checked, leading) for one in result.crashed]
    if result.verdict == "nothing":
        crashed.append(_nothing(checked))
    return SarifPiece(results, crashed, [one.rule.slug for one in (*told, *result.crashed)])


# ---- results -----------------------------------------------------------------------------


def _result(finding: Finding, checked: CheckedFile, result: Result, leading: str) -> Data:
    lines = [f"{label}: {text}" if label else text for label, text in paragraphs(finding, leading)]
    data: Data = {
        "ruleId": finding.rule.slug,
        "kind": KINDS[finding.verdict],
        "level": LEVELS.get(finding.verdict, "none"),
        "message": {"text": plain_message("\n".join(lines))},
        "locations": [_location(finding, checked)],
        "partialFingerprints": {FINGERPRINT: fingerprint(finding)},
    }
    data["suppressions"] = [_suppression(finding, result)] if finding.accepted else []
    follows = [one.rule.slug for one in result.folded if one.follows is finding]
    more = {"at": list(finding.at), "alsoFollows": follows, "measure": [one.name for one in finding.missing]}
    data["properties"] = {name: value for name, value in more.items() if value}
    return data


def fingerprint(finding: Finding) -> str:
    """The same for the same finding wherever its lines have moved and however its numbers have changed:
    made of the rule, the parts it concerns, the field it blames and the words (no numbers) of its message.
    """
    check = finding.check
    blame = [] if check.blame is None else [check.blame[0].id, check.blame[1]]
    words = [value for value in check.values.values() if isinstance(value, str) and not value[:1].isdigit()]
    parts = [part.id for part in finding.parts]
    return sha256(_json([finding.rule.slug, parts, blame, words]).encode()).hexdigest()[:32]


def _number_twins(results: list[Data]) -> None:
    """Findings alike in all of that are told apart by their order."""
    seen: dict[str, int] = {}
    for one in results:
        prints = one["partialFingerprints"]
        key = prints[FINGERPRINT]
        seen[key] = seen.get(key, 0) + 1
        prints[FINGERPRINT] = f"{key}:{seen[key]}"


def _suppression(finding: Finding, result: Result) -> Data:
    data: Data = {
        "kind": "inSource",
        "status": "accepted",
        "justification": plain_message(one_line(finding.accepted)),
    }
    for one in result.build.accept:
        if one.rule == finding.rule.slug and one.reason == finding.accepted and one.mark is not None:
            data["location"] = {"physicalLocation": _place(one.mark)}
            break
    return data


def _fault(fault: Fault) -> Data:
    read = f"Read {_quoted(fault.read)}, expected" if fault.read else "Expected"
    text = f"{read} {fault.expected}." + (f"\n{ended(fault.hint)}" if fault.hint else "")
    key = sha256(_json([FAULT_RULE, fault.read, fault.expected]).encode()).hexdigest()[:32]
    return {
        "ruleId": FAULT_RULE,
        "kind": "fail",
        "level": "error",
        "message": {"text": plain_message(text)},
        "locations": [{"physicalLocation": _place(fault.mark)}],
        "partialFingerprints": {FINGERPRINT: key},
        "suppressions": [],
    }


def _quoted(text: str) -> str:
    return f'"{one_line(text)}"'


# ---- places ------------------------------------------------------------------------------


def _location(finding: Finding, checked: CheckedFile) -> Data:
    mark = finding.mark
    place = _place(mark) if mark is not None else {"artifactLocation": artifact_location(checked.file)}
    data: Data = {"physicalLocation": place}
    names = [one_line(part.id) for part in finding.parts]
    if names:
        data["logicalLocations"] = [{"name": name} for name in dict.fromkeys(names) if name]
    return data


def _place(mark: Mark) -> Data:
    region = {"startLine": mark.line, "startColumn": mark.column}
    return {"artifactLocation": artifact_location(mark.file), "region": region}


# ---- what is about the tool ------------------------------------------------------------------


def _notification(finding: Finding, checked: CheckedFile, leading: str) -> Data:
    return {
        "level": "error",
        "message": {"text": plain_message(ended(finding.message(leading)))},
        "associatedRule": {"id": finding.rule.slug},
        "locations": [_location(finding, checked)],
    }


def _nothing(checked: CheckedFile) -> Data:
    text = "No check was made: no rule found anything on this list to look at."
    where = {"physicalLocation": {"artifactLocation": artifact_location(checked.file)}}
    return {"level": "error", "message": {"text": text}, "locations": [where]}


def _descriptor(slug: str) -> Data:
    """A rule with its sentence, its reason and its whole page (3.49)."""
    rule = load_rules().get(slug)
    if rule is None:
        text = "The list can be read: known keys, values with units, names that lead somewhere."
        return {"id": slug, "shortDescription": {"text": text}}
    page = page_of(rule)
    why = " ".join(page.sections.get("Why", "").split())
    return {
        "id": slug,
        "shortDescription": {"text": plain_message(page.sentence)},
        "fullDescription": {"text": plain_message(f"{page.sentence} {why}".strip())},
        "help": {"text": plain_message(explain_text(slug, 100)[0])},
        "properties": {"tags": [rule.subject.replace("_", "-")]},
    }


# ---- text --------------------------------------------------------------------------------


def plain_message(text: str) -> str:
    """Text that a viewer shows as it stands: braces are doubled (3.11.5), and nothing is an embedded
    link, which in plain text is "](" between two texts (3.11.6).

    >>> plain_message("{0} [a](b)")
    '{{0}} [a] (b)'
    """
    return text.replace("{", "{{").replace("}", "}}").replace("](", "] (")


def _json(value: Any) -> str:
    return json.dumps(value, ensure_ascii=True)
