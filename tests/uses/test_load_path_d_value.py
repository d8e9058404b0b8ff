"""Ratings on the way to the tow vehicle: what a D-value is enough for."""

from __future__ import annotations

import pytest
from case_files import check_text

from partscheck.report.text import text_report
from partscheck.uses.load_path import load_path, supported_gross

KILOGRAM = 9.80665  # N

LIST = """
service: {{gross_weight: 1500 kg, country: DE}}
tow_vehicle: {{weight: {vehicle}, tow_rating: 2000 kg}}
parts:
  - {{kind: brake, type: surge, qty: 2}}
  - {{kind: coupler, d_value: {plate}}}
"""


def test_the_heaviest_trailer_for_a_d_value_is_in_the_load_path() -> None:
    # By hand: 7.5 kN x 2 t / (9.81 x 2 - 7.5) = 15 / 12.12 = 1.2376 t.
    result = check_text(LIST.format(vehicle="2000 kg", plate="7.5 kN"))
    rows = load_path(result)
    (coupler,) = [row for row in rows if row.role == "coupler" and row.of == "gross"]
    assert coupler.rating.lo / KILOGRAM == pytest.approx(1237.6, abs=0.05)
    assert coupler.label == "coupler, D-value"
    gross, part = supported_gross(rows)
    assert part is coupler.part
    assert gross is not None
    assert gross.lo / KILOGRAM == pytest.approx(1237.6, abs=0.05)
    assert "coupler, D-value" in text_report(result, columns=80, leading="metric")


def test_a_d_value_that_is_enough_for_any_trailer_limits_none() -> None:
    rows = load_path(check_text(LIST.format(vehicle="1000 kg", plate="9.9 kN")))
    assert not [row for row in rows if row.role == "coupler" and row.of == "gross"]


def test_a_tow_vehicle_that_is_not_weighed_leaves_it_unknown() -> None:
    rows = load_path(check_text(LIST.format(vehicle="unknown", plate="9.9 kN")))
    (coupler,) = [row for row in rows if row.role == "coupler" and row.of == "gross"]
    assert not coupler.known
