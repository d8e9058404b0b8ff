"""Safety chains: what one breaks at and what it may carry, as typed or from its grade and size."""

from __future__ import annotations

from partscheck.build.tow_class import INCH, POUND
from partscheck.formulas.towing import chain_breaking_load
from partscheck.notation.interval import INF, Interval

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

UNMARKED, UNMARKED_IS = "none marked", "30"  # 49 CFR 393.108(d): chain without marks counts as grade 30
NAME_SLACK = 0.2  # mm; how far a wire may be under its size's name
STRENGTH_READS = (
    "safety-chain.breaking_strength", "safety-chain.working_load", "safety-chain.grade", "safety-chain.size",
    "safety-chain.type",
)  # fmt: skip


def breaking_strength(chain: Any, tables: Any) -> Interval:
    """What one chain breaks at, N: as typed, else working load times the factor of its grade."""
    typed: Interval = chain.breaking_strength
    if chain.has("breaking_strength"):
        return typed
    working = working_load(chain, tables)
    if not working.known:
        return typed
    least, most = _factors(chain, tables)
    high = INF if most == INF else chain_breaking_load(working.hi, most)
    return Interval(chain_breaking_load(working.lo, least), high, "N")


def working_load(chain: Any, tables: Any) -> Interval:
    """Working load limit of one chain, N: as typed, else from the table by grade and size; else unknown.

    Asks for grade and size only where one of them was typed.
    """
    if chain.has("working_load"):
        return chain.working_load  # type: ignore[no-any-return]
    if not _is_cable(chain) and (chain.has("grade") or chain.has("size")):
        grade, size = chain.grade, chain.size
        low, high = _row(tables, grade, size.lo), _row(tables, grade, size.hi)
        if low is not None and high is not None and size.known:
            return Interval(low["working_lb"] * POUND, high["working_lb"] * POUND, "N")
    return Interval.unknown("N")


def _is_cable(chain: Any) -> bool:
    return bool(chain.has("type") and chain.type == "cable")


def _factors(chain: Any, tables: Any) -> tuple[float, float]:
    """Breaking strength over working load: by grade; at least 1 for what has no grade."""
    if not _is_cable(chain):
        grade = _grade(chain.grade)
        for row in tables.rows("chain_grade"):
            if row["grade"] == grade:
                return float(row["factor_least"]), float(row["factor_most"])
    return 1.0, INF


def _grade(grade: Any) -> Any:
    return UNMARKED_IS if grade == UNMARKED else grade


def _row(tables: Any, grade: Any, size: float) -> dict[str, Any] | None:
    """The largest size of the grade that the wire reaches."""
    found = None
    for row in tables.rows("chain_grade"):
        if row["grade"] == _grade(grade) and row["size_in"] * INCH - NAME_SLACK <= size:
            found = row
    return found
