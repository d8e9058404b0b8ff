"""Rows of the fastener tables, and the tables of an independent library, for the catalogue's tests."""

from __future__ import annotations

import csv
from fractions import Fraction
from importlib import resources
from typing import TYPE_CHECKING, Any

import pytest

if TYPE_CHECKING:
    from partscheck.catalogue import Catalogue

INCH = ("1/4", "5/16", "3/8", "7/16", "1/2", "9/16", "5/8", "3/4", "7/8", "1")
METRIC = ("M6", "M8", "M10", "M12", "M14", "M16", "M18", "M20", "M22", "M24")


def inches(text: str) -> Fraction:
    whole, _, part = text.rpartition("-")
    return Fraction(part) + Fraction(whole or 0)


def by_key(shipped: Catalogue, table: str) -> dict[str, dict[str, Any]]:
    return {row["key"]: row for row in shipped.rows(table)}


def row_of(shipped: Catalogue, table: str, key: str) -> dict[str, Any]:
    row = shipped.row(table, key)
    assert row is not None, f"{table}: {key}"
    return row


def strengths(shipped: Catalogue, table: str, system: str, mark: str, diameter: float) -> dict[str, Any]:
    """The one row of a grade that holds at a diameter."""
    (row,) = [
        row
        for row in shipped.rows(table)
        if (row["system"], row["mark"]) == (system, mark)
        and row["least_mm"] - 0.01 <= diameter <= row["most_mm"] + 0.01
    ]
    return row


def library(name: str) -> dict[str, dict[str, str]]:
    """A table of the independent library by its sizes."""
    pytest.importorskip("bd_warehouse", reason="bd_warehouse is not installed")
    with (resources.files("bd_warehouse") / "data" / name).open(encoding="utf-8") as stream:
        return {row.pop("Size"): row for row in csv.DictReader(stream)}


def of_size(table: dict[str, dict[str, str]], size: str, column: str) -> dict[str, str]:
    """The row of a coarse metric size, M12 under M12-1.75, where the column is filled."""
    (row,) = [row for key, row in table.items() if key.partition("-")[0] == size and row[column]]
    return row
