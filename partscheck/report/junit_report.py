"""The check as a JUnit result file, as continuous-integration servers show it.

A suite is one subject (bolt circles, bearing fits, ...) of one list; a test is one rule on some parts.
A finding that fails the check (a stop, or what ``--fail-on`` says) is a failure; what has to be measured
is skipped, with what to measure; a caution that does not fail the check has passed, its words are in
the output of the test. A rule that failed itself, a list that cannot be used and a list on which nothing
was checked are errors.
"""

from __future__ import annotations

from xml.sax.saxutils import escape, quoteattr

from partscheck.notation.cell_text import one_line
from partscheck.report.finding_words import ended, paragraphs, parts_words
from partscheck.rules.findings import CAUTION, MEASURE
from partscheck.uses.fail_on import RANKS, is_open

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable

    from partscheck.rules.findings import Finding
    from partscheck.uses.checked_file import CheckedFile, Row

READING = "reading the list"
FAILURE, ERROR, SKIPPED, PASSED = "failure", "error", "skipped", "passed"


class Test:
    """One test: ``outcome`` with its headline and text."""

    __slots__ = ("headline", "name", "outcome", "text", "type")

    def __init__(
        self, name: str, outcome: str = PASSED, type: str = "", headline: str = "", text: str = ""
    ) -> None:
        self.name = name
        self.outcome = outcome
        self.type = type
        self.headline = headline
        self.text = text


class JunitFile:
    """The file as it grows, list by list."""

    def begin(self) -> str:
        return '<?xml version="1.0" encoding="UTF-8"?>\n<testsuites name="partscheck">\n'

    def add(self, row: Row) -> str:
        return row.piece or ""

    def end(self) -> str:
        return "</testsuites>\n"


def junit_suites(checked: CheckedFile, leading: str) -> str:
    """The suites of one checked file."""
    return "".join(_suite(checked.file, subject, tests) for subject, tests in _subjects(checked, leading).items())


def _subjects(checked: CheckedFile, leading: str) -> dict[str, list[Test]]:
    if checked.faults is not None:
        tests = [
            Test(
                f"line {one.mark.line}, column {one.mark.column}",
                ERROR,
                "unusable",
                f"expected {one.expected}",
                str(one),
            )
            for one in checked.faults.faults
        ]
        return {READING: tests}
    result = checked.result
    if result is None:
        return {READING: [Test("check", ERROR, "failed", "partscheck itself failed on this list", checked.failed)]}
    subjects: dict[str, list[Test]] = {READING: [Test("the list can be used")]}
    for finding in (*result.findings, *result.crashed, *result.notes, *result.held):
        tests = subjects.setdefault(finding.rule.subject.replace("_", " "), [])
        tests.append(_test(finding, checked, leading))
    if result.verdict == "nothing":
        why = "no rule found anything on this list to look at"
        subjects[READING].append(Test("something was checked", ERROR, "nothing", why))
    return subjects


def _test(finding: Finding, checked: CheckedFile, leading: str) -> Test:
    parts = parts_words(finding)
    name = finding.rule.slug + (f": {parts}" if parts else "")
    if not (finding.error or finding.verdict in RANKS):
        return Test(name)
    text = "\n".join(f"{label}: {told}" if label else told for label, told in paragraphs(finding, leading))
    if finding.mark is not None:
        text = f"{finding.mark.file}, line {finding.mark.line}, column {finding.mark.column}\n{text}"
    headline = ended(finding.message(leading))
    if finding.error:
        return Test(name, ERROR, "failed", headline, text)
    if is_open(finding, checked.fail_on):
        return Test(name, FAILURE, finding.verdict, headline, text)
    if finding.verdict == MEASURE:
        return Test(name, SKIPPED, MEASURE, headline, text)
    return Test(name, PASSED, "accepted caution" if finding.accepted else CAUTION, headline, text)


# ---- XML ---------------------------------------------------------------------------------


def _suite(file: str, subject: str, tests: list[Test]) -> str:
    tally = {outcome: sum(one.outcome == outcome for one in tests) for outcome in (FAILURE, ERROR, SKIPPED)}
    head = (
        f' <testsuite name={_value(f"{file}: {subject}")} tests="{len(tests)}" failures="{tally[FAILURE]}"'
        f' errors="{tally[ERROR]}" skipped="{tally[SKIPPED]}" file={_value(file)}>\n'
    )
    return head + "".join(_case(file, one) for one in _told_apart(tests)) + " </testsuite>\n"


def _told_apart(tests: list[Test]) -> Iterable[Test]:
    """Servers take tests of one name for one: the second gets a number."""
    seen: dict[str, int] = {}
    for one in tests:
        seen[one.name] = count = seen.get(one.name, 0) + 1
        if count > 1:
            one.name += f" ({count})"
    return tests


def _case(file: str, test: Test) -> str:
    head = f"  <testcase classname={_value(file)} name={_value(test.name)}"
    if test.outcome == PASSED:
        if not test.text:
            return head + "/>\n"
        return f"{head}>\n   <system-out>{_text(f'{test.type}: {test.text}')}</system-out>\n  </testcase>\n"
    told = f"<{test.outcome} type={_value(test.type)} message={_value(test.headline)}>"
    return f"{head}>\n   {told}{_text(test.text)}</{test.outcome}>\n  </testcase>\n"


def _value(text: str) -> str:
    return quoteattr(one_line(text))


def _text(text: str) -> str:
    """Escaped, without the control characters that XML 1.0 has no place for; ``one_line`` takes them out."""
    return escape("\n".join(one_line(line) for line in text.splitlines()))
