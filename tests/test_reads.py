"""What a rule says it reads is what it reads: traced over every case and every page's examples.

Two directions: nothing undeclared is read, and nothing declared goes unread by all cases.  Where at
least three rules share a list of reads (what a corner carries, say), one of them must read each.
"""

from __future__ import annotations

from collections import defaultdict
from functools import cache

import pytest
from case_files import all_cases, check_text

from partscheck.engine import Result
from partscheck.parts.record import Record
from partscheck.rules import load_rules
from partscheck.rules.explain import page_of

SHARED_BY = 3
COUNTS = ("qty", "packs", "pack", "have")
# Declared reads that no case reaches, with the reason.
UNREACHED: dict[str, dict[str, str]] = {}


def name_of(record: Record, field: str) -> str:
    """ "hub.stud_length", "practice.bolt_circle_tolerance"."""
    kind = getattr(type(record), "kind", "") or record.record_name
    field = field.removeprefix("?")
    return f"{kind}.{record.fields[field].key if field in record.fields else field}"


@cache
def traced() -> tuple[dict[str, set[str]], dict[str, set[str]]]:
    """Of each rule, every field that its checks read, and those that only its words and remedies read."""
    checks: dict[str, set[str]] = defaultdict(set)
    words: dict[str, set[str]] = defaultdict(set)
    texts = [case["list"] for *_, case in all_cases()]
    texts += [page_of(rule).example(side) for rule in load_rules().values() for side in ("Wrong", "Right")]
    for text in texts:
        _collect(check_text(text), checks, words)
    return checks, words


def _collect(result: Result, checks: dict[str, set[str]], words: dict[str, set[str]]) -> None:
    ledger = result.build.ledger
    for finding in (*result.findings, *result.folded, *result.notes, *result.held):
        checks[finding.rule.slug] |= {name_of(record, field) for record, field in finding.reads}
        del ledger[:]
        finding.message("inch")
        finding.remedies("inch")
        words[finding.rule.slug] |= {name_of(record, field) for record, field in ledger}


def reads_of(slug: str) -> set[str]:
    return traced()[0][slug] | traced()[1][slug]


def read_elsewhere(read: str, slug: str) -> bool:
    """A read of a shared list that another rule of those that share it reaches; a count of a kind of
    part like any other.
    """
    key = read.partition(".")[2]
    if key in COUNTS and any(other.endswith(f".{key}") for other in reads_of(slug)):
        return True
    sharing = [rule for rule in load_rules().values() if read in rule.reads]
    return len(sharing) >= SHARED_BY and any(read in reads_of(rule.slug) for rule in sharing)


each_rule = pytest.mark.parametrize("slug", sorted(load_rules()))


@each_rule
def test_nothing_is_read_that_is_not_declared(slug: str) -> None:
    assert traced()[0][slug] - set(load_rules()[slug].reads) == set()


@each_rule
def test_everything_declared_is_read_by_some_case(slug: str) -> None:
    unread = {
        read for read in set(load_rules()[slug].reads) - reads_of(slug) if not read_elsewhere(read, slug)
    }
    assert unread == set(UNREACHED.get(slug, {}))


@each_rule
def test_what_is_declared_is_a_field_that_exists(slug: str) -> None:
    from partscheck.build.limits import Limits
    from partscheck.parts.kinds import KINDS
    from partscheck.parts.record import Record

    records = {one.record_name: one for one in _subclasses(Record) if one.record_name}
    for read in load_rules()[slug].reads:
        kind, _, key = read.partition(".")
        if kind == Limits.record_name:
            continue
        record = KINDS.get(kind) or records[kind]
        assert key in {field.key for field in record.fields.values()}, read


@each_rule
def test_declared_once_and_no_limit_that_is_not_there(slug: str) -> None:
    from case_files import shipped_catalogue

    reads = load_rules()[slug].reads
    assert len(set(reads)) == len(reads)
    limits = {f"practice.{row['key']}" for row in shipped_catalogue().rows("practice")}
    assert {read for read in reads if read.startswith("practice.")} <= limits


def _subclasses(cls: type[Record]) -> list[type[Record]]:
    below = cls.__subclasses__()
    return [*below, *(deeper for one in below for deeper in _subclasses(one))]
