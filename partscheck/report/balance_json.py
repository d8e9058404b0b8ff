"""Balance and tire pressures in the JSON report."""

from __future__ import annotations

from partscheck.report.quantities import quantity
from partscheck.uses.balance import BalanceRow, LoadEffect, balance
from partscheck.uses.tire_pressure import TirePressure, tire_pressures

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.engine import Result


def balance_data(result: Result) -> list[dict[str, Any]]:
    """A row for each load case, and one for the trailer as declared or weighed."""
    return [_row(row) for row in balance(result)]


def pressure_data(result: Result) -> list[dict[str, Any]]:
    """A row for each wheel whose tire and load are known."""
    return [_pressure(row) for row in tire_pressures(result)]


def _row(row: BalanceRow) -> dict[str, Any]:
    return {
        "case": row.case or None,
        "source": row.source,
        "total": quantity(row.total),
        "axles": quantity(row.axles),
        "tongue": quantity(row.tongue),
        "share": quantity(row.share),
        "ahead": quantity(row.ahead),
        "axle": quantity(row.axle),
        "left": quantity(row.left),
        "right": quantity(row.right),
        "sharing": row.sharing,
        "loads": [_load(one) for one in row.loads],
    }


def _load(one: LoadEffect) -> dict[str, Any]:
    return {
        "what": one.what,
        "weight": quantity(one.weight),
        "from_coupler": quantity(one.from_coupler),
        "on_tongue": quantity(one.on_tongue),
        "behind": one.behind,
    }


def _pressure(row: TirePressure) -> dict[str, Any]:
    return {
        "at": row.at,
        "tire": row.tire.id,
        "case": row.case or None,
        "load": quantity(row.load),
        "pressure": quantity(row.pressure),
        "ruled_by": row.ruled_by,
        "formula": row.formula,
        "divided": row.divided,
        "basis": {"kind": row.basis.kind, "source": row.basis.source},
    }
