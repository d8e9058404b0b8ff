"""Bolt circles against printed factors and coordinates."""

from __future__ import annotations

import pytest

from partscheck.formulas import bolt_circle


# Workshop table of chord factors (common practice, no source named; exact by geometry).
@pytest.mark.parametrize(
    ("count", "factor"), [(4, 0.7071), (5, 0.5878), (6, 0.5000), (8, 0.3827), (10, 0.3090)]
)
def test_printed_chord_factors(count: int, factor: float) -> None:
    assert round(bolt_circle.chord(1, count), 4) == factor


def test_machinerys_handbook_hole_coordinates() -> None:
    # Machinery's Handbook 31 p. 711 (secondary copy read): six holes on 10, centre (7.5, 6.0),
    # first at 30 deg.
    holes = bolt_circle.hole_coordinates(10, 6, 30, (7.5, 6.0))
    printed = [(11.8301, 8.5000), (7.5, 11.0000), (3.1699, 8.5000)]
    assert [(round(x, 4), round(y, 4)) for x, y in holes[:3]] == printed


# Worked from the definition by hand, inches: trade circle -> distance between neighbours.
@pytest.mark.parametrize(
    ("count", "diameter", "neighbours"),
    [
        (4, 4.0, 2.8284),
        (5, 4.5, 2.6450),
        (5, 4.75, 2.7920),
        (5, 5.0, 2.9389),
        (5, 5.5, 3.2328),
        (6, 5.5, 2.7500),
        (8, 6.5, 2.4874),
    ],
)
def test_neighbours_of_trade_circles(count: int, diameter: float, neighbours: float) -> None:
    assert bolt_circle.chord(diameter, count) == pytest.approx(neighbours, abs=0.00006)
    assert bolt_circle.diameter_from_chord(neighbours, count) == pytest.approx(diameter, abs=0.0003)


def test_five_lugs_every_other() -> None:
    # Worked by hand; the shop's rule of thumb is "x 1.05" (common practice).
    assert bolt_circle.chord(1, 5, skip=2) == pytest.approx(0.95106, abs=0.000005)
    assert bolt_circle.diameter_from_chord(1, 5, skip=2) == pytest.approx(1.05146, abs=0.000005)
