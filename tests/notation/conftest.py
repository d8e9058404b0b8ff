"""Tables for the readers, without a catalogue: a few rows of ASME B1.1 and ISO 261."""

from __future__ import annotations

from typing import Any

import pytest

ROWS: dict[str, dict[str, dict[str, Any]]] = {
    "unc": {
        size: {"tpi": tpi}
        for size, tpi in {"#10": 24, "1/4": 20, "3/8": 16, "1/2": 13, "9/16": 12, "1": 8, "1-1/4": 7}.items()
    },
    "unf": {
        size: {"tpi": tpi}
        for size, tpi in {"#10": 32, "1/4": 28, "3/8": 24, "1/2": 20, "9/16": 18, "1": 12}.items()
    },
    "metric_coarse": {
        size: {"pitch_mm": pitch} for size, pitch in {"M8": 1.25, "M10": 1.5, "M12": 1.75, "M14": 2.0}.items()
    },
}


class FakeTables:
    def row(self, table: str, key: str) -> dict[str, Any] | None:
        return ROWS.get(table, {}).get(key)

    def rows(self, table: str) -> list[dict[str, Any]]:
        return list(ROWS.get(table, {}).values())


@pytest.fixture(scope="session")
def tables() -> FakeTables:
    return FakeTables()
