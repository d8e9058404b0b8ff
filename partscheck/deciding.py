"""Which unknown or coarse fields keep a check from being decided, and which values would decide it.

Found by trying: the rule runs again with one field set to values across its range.  A field whose
value changes nothing is not asked for; where the margin crosses zero is the value that decides.
"""

from __future__ import annotations

from partscheck.notation.interval import INF, Interval, Quantity, same_within
from partscheck.parts.record import Typed, as_read
from partscheck.rules.check import AT_LEAST, AT_MOST, Check
from partscheck.rules.findings import Missing

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.rules.registry import Rule

# Trial values for an unbounded field: wide enough for any part of a light trailer, in house units.
WIDE = {"mm": 10_000.0, "N": 100_000.0, "kPa": 2_000.0, "N m": 5_000.0, "km/h": 400.0, "kg": 10_000.0}
STEPS = 40


def deciding_fields(
    rule: Rule, binding: Any, number: int, check: Check, reads: tuple[Any, ...]
) -> list[Missing]:
    """The fields to measure, those that decide alone first.

    A value that is there but coarse is asked for only where it decides, or where nothing is unknown.
    When no single field makes a difference (two unknowns that only together decide), all that are
    unknown are named.
    """
    trial = _Trial(rule, binding, number)
    asked = [Missing(record, name) for record, name in reads if not name.startswith("?")]
    unknown = [missing for missing in asked if _unknown(missing)]
    coarse = [missing for missing in asked if not _unknown(missing)]
    found = [missing for missing in unknown if _matters(trial, missing, check)]
    for missing in coarse:
        matters = _matters if _open(missing.record, missing.field) else _too_coarse
        if matters(trial, missing, check):
            found.append(missing)
    if any(_unknown(missing) for missing in found):
        found = [missing for missing in found if _unknown(missing) or missing.decides]
    found.sort(key=lambda missing: not missing.decides)
    return found or unknown


class _Trial:
    """Runs one rule at one place with one field changed, and puts the field back."""

    def __init__(self, rule: Rule, binding: Any, number: int) -> None:
        self.rule = rule
        self.binding = binding
        self.number = number

    def outcome(self, record: Any, name: str, value: Any) -> Check | None:
        before = record.values.get(name)
        record.values[name] = Typed(value, "", None)
        changed = {*as_read(record, name)}
        self.binding.weights.forget(changed)
        try:
            outcome = self.rule.check(self.binding)
            checks = [] if outcome is None else [outcome] if isinstance(outcome, Check) else list(outcome)
            checks = [one for one in checks if one is not None]
            return checks[self.number] if self.number < len(checks) else None
        except Exception:
            return None
        finally:
            if before is None:
                del record.values[name]
            else:
                record.values[name] = before
            self.binding.weights.forget(changed)


def _unknown(missing: Missing) -> bool:
    """Nothing is known of the field."""
    field = missing.record.fields.get(missing.field)
    if field is None:
        return False
    typed = missing.record.values.get(missing.field)
    return typed is None or typed.value is field.type.unknown


def _open(record: Any, name: str) -> bool:
    """Unknown, or known only within a tolerance."""
    field = record.fields.get(name)
    if field is None:
        return False
    typed = record.values.get(name)
    value = field.type.unknown if typed is None else typed.value
    if value is field.type.unknown:
        return True
    inner = getattr(value, "diameter", value)
    return isinstance(inner, Interval) and not inner.is_exact


def _matters(trial: _Trial, missing: Missing, check: Check) -> bool:
    """Fills in what the field decides; False when no value of it changes the outcome."""
    typed = missing.record.values.get(missing.field)
    field = missing.record.fields[missing.field]
    value = field.type.unknown if typed is None else typed.value
    if not isinstance(value, Interval):
        return True
    lo, hi = _range(value)
    low = trial.outcome(missing.record, missing.field, Interval(lo, lo, value.unit))
    high = trial.outcome(missing.record, missing.field, Interval(hi, hi, value.unit))
    if low is None or high is None:
        return True
    if _same(low, check) and _same(high, check):
        return False
    missing.decides = low.truth is not None or high.truth is not None
    if {low.truth, high.truth} == {True, False}:
        _find_boundary(trial, missing, lo, hi, rising=bool(high.truth), unit=value.unit)
    return True


def _too_coarse(trial: _Trial, missing: Missing, check: Check) -> bool:
    """True for a value typed without a tolerance that the rule takes as no better than a name, when the
    same value measured would make a difference.
    """
    typed = missing.record.values.get(missing.field)
    value = None if typed is None else typed.value
    if not isinstance(value, Quantity) or value.toleranced or check.margin is None:
        return False
    measured = trial.outcome(missing.record, missing.field, Interval(value.mid, value.mid, value.unit))
    if measured is None or _same(measured, check):
        return False
    missing.decides = measured.truth is not None
    reach = check.margin.width
    if reach != INF:
        lo, hi = value.mid - reach, value.mid + reach
        rising = _rises(trial, missing, lo, hi, value.unit)
        if rising is not None:
            _find_boundary(trial, missing, lo, hi, rising, value.unit)
    return True


def _rises(trial: _Trial, missing: Missing, lo: float, hi: float, unit: str) -> bool | None:
    """Whether the check holds at the upper end alone (True) or at the lower end alone (False)."""
    ends = [trial.outcome(missing.record, missing.field, Interval(end, end, unit)) for end in (lo, hi)]
    low, high = (end is not None and end.holds for end in ends)
    return None if low is high else high


def _find_boundary(
    trial: _Trial, missing: Missing, lo: float, hi: float, rising: bool, unit: str
) -> None:
    """Close in on the least (or greatest) value that surely holds: along the line through what both ends have to
    spare, which most rules follow, or else by halves.
    """
    good, bad = (hi, lo) if rising else (lo, hi)
    close = abs(hi - lo) / 2**STEPS
    spare: dict[float, float | None] = {}
    for step in range(3 * STEPS):
        if abs(good - bad) <= close:
            break
        middle = (good + bad) / 2
        if step % 3 < 2:  # a bent line may creep up to the bend: every third step is by half
            for end in (good, bad):
                if end not in spare:
                    spare[end] = _to_spare(trial.outcome(missing.record, missing.field, Interval(end, end, unit)))
            middle = _on_the_line(good, spare[good], bad, spare[bad], close)
        outcome = trial.outcome(missing.record, missing.field, Interval(middle, middle, unit))
        spare[middle] = _to_spare(outcome)
        if outcome is not None and outcome.holds:
            good = middle
        else:
            bad = middle
    missing.relation = AT_LEAST if rising else AT_MOST
    missing.boundary = Interval(good, good, unit)


def _to_spare(outcome: Check | None) -> float | None:
    """By how much a check surely holds, or (negative) falls short; None where that is no number."""
    if outcome is None or outcome.margin is None or outcome.margin.lo in (INF, -INF):
        return None
    return outcome.margin.lo + same_within(outcome.margin.unit)


def _on_the_line(good: float, most: float | None, bad: float, least: float | None, close: float) -> float:
    """Where nothing is left to spare if that goes in a line from one end to the other, just inside of both; the
    middle where there is no such line.
    """
    if most is None or least is None or not least < 0 <= most:
        return (good + bad) / 2
    value = good + (bad - good) * (most / (most - least))
    first, last = sorted((good, bad))
    return min(max(value, first + close), last - close) if last - first > 2 * close else (good + bad) / 2


def _range(value: Interval) -> tuple[float, float]:
    wide = WIDE.get(value.unit, 1000.0)
    lo = value.lo if value.lo != -INF else -wide
    return lo, value.hi if value.hi != INF else max(wide, lo)


def _same(one: Check, other: Check) -> bool:
    if one.truth is not other.truth:
        return False
    if one.margin is None or other.margin is None:
        return one.margin is other.margin
    return (one.margin.lo, one.margin.hi) == (other.margin.lo, other.margin.hi)
