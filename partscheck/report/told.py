"""What a report tells beside its findings: what was inferred, not used, laid over or set by the user."""

from __future__ import annotations

from collections.abc import Iterator
from difflib import get_close_matches

from partscheck.notation.measure import show_both
from partscheck.rules import load_rules

TYPE_CHECKING = False
if TYPE_CHECKING:
    from partscheck.engine import Result

MOST_KEYS = 6  # keys of a table told by name


def told(result: Result, leading: str) -> list[str]:
    """Sentences, in this order: the user's own limits, what was inferred, words that were not used,
    catalogue entries laid over others, acceptances that match nothing.
    """
    return [
        *_own_limits(result, leading),
        *result.fit.told,
        *_words(result),
        *_layers(result),
        *_acceptances(result),
    ]


def own_limit(result: Result, name: str, leading: str) -> str:
    """A limit that the user set: "stud_below_flush 2 mm (0.08 in) instead of 1 mm (0.04 in): reason"."""
    limits = result.build.limits
    own = limits.own[name]
    value, shipped = show_both(own.value, leading), show_both(limits.shipped(name), leading)
    return f"{name} {value} instead of {shipped}: {own.reason}"


def _own_limits(result: Result, leading: str) -> Iterator[str]:
    """All of them: one that makes a check hold would show nowhere else."""
    for name, own in result.build.limits.own.items():
        line = f" (line {own.mark.line})" if own.mark is not None else ""
        yield f"Your own limit{line}: {own_limit(result, name, leading)}"


def _words(result: Result) -> Iterator[str]:
    for record, field, text, mark, near in result.build.untold_words:
        key = record.fields[field].key
        meant = f"; did you mean `{near}`?" if near else ""
        yield f"Line {mark.line}: `{key}: {text}` is not a word this field knows, so it was not used{meant}"


def _layers(result: Result) -> Iterator[str]:
    """Parts of the list, and rows of tables (ids such as "load_index/102"), that a later catalogue replaced."""
    used = {part.values["part"].text for part in result.build.parts if "part" in part.values}
    rows: dict[tuple[str, str, str], list[str]] = {}
    for id, below, above in result.build.overridden:
        table, slash, key = id.partition("/")
        if id in used:
            yield f"`{id}` comes from {above}, over the entry of {below}."
        elif slash and result.build.tables.rows(table):
            rows.setdefault((table, below, above), []).append(key)
    for (table, below, above), keys in rows.items():
        more = f" and {len(keys) - MOST_KEYS} more" if len(keys) > MOST_KEYS else ""
        yield f"Table `{table}`: {', '.join(keys[:MOST_KEYS])}{more} from {above}, over those of {below}."


def _acceptances(result: Result) -> Iterator[str]:
    for acceptance in result.unmatched:
        line = f" (line {acceptance.mark.line})" if acceptance.mark else ""
        ids = [part.id for part in result.build.parts]
        near = _nearest(acceptance.rule, list(load_rules())) or _nearest(acceptance.part, ids)
        meant = f" Did you mean {near}?" if near else ""
        yield (
            f"The acceptance of {acceptance.rule}{line} matches no caution: take it out, or mend its rule or "
            f"part. A stop cannot be accepted.{meant}"
        )


def _nearest(word: str, known: list[str]) -> str:
    """The known word most likely meant; "" for one that is known, or like none."""
    near = [] if not word or word in known else get_close_matches(word, known, n=1, cutoff=0.5)
    return near[0] if near else ""
