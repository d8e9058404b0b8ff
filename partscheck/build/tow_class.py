"""The coupler's class by the trailer's gross weight, with its least breaking loads (table coupler_class)."""

from __future__ import annotations

from partscheck.formulas.towing import breaking_load_of_gross
from partscheck.notation.interval import same_within

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

POUND = 4.4482216152605  # N
INCH = 25.4  # mm
ALONG, SIDEWAYS, UP, DOWN, CHAIN = (
    "longitudinal", "transverse", "vertical_tension", "vertical_compression", "chain",
)  # fmt: skip


class CouplerClass:
    """One class for one trailer: ``name`` ("1" to "4"), ``limit`` (greatest gross weight, N), ``ball``
    (least ball, mm, or None: as the coupler).
    """

    __slots__ = ("_gross", "_row", "ball", "limit", "name")

    def __init__(self, row: dict[str, Any], gross: float) -> None:
        self._row = row
        self._gross = gross
        self.name: str = row["key"]
        self.limit: float = row["gross_lb"] * POUND
        self.ball: float | None = row["ball_in"] * INCH if "ball_in" in row else None

    def breaking_load(self, load: str) -> float:
        """Least load at which it may break, N: ALONG, SIDEWAYS, UP, DOWN, or CHAIN (each one)."""
        fixed = self._row.get(f"{load}_lb")
        if fixed is not None:
            return float(fixed) * POUND
        return breaking_load_of_gross(self._gross, self._row[f"{load}_x"])


def coupler_class(tables: Any, gross: float) -> CouplerClass | None:
    """The class of a trailer of ``gross`` weight, N; None over the last one."""
    for row in tables.rows("coupler_class"):
        if gross <= row["gross_lb"] * POUND + same_within("N"):
            return CouplerClass(row, gross)
    return None
