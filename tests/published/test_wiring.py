"""Voltage drop, wire sizes and resistances against printed examples and tables."""

from __future__ import annotations

import pytest

from partscheck.formulas import wiring

FOOT = 304.8  # mm
PER_FOOT = 0.3048  # ohm/ft over ohm/m

# AC 43.13-1B p. 11-22, Tables 11-7 and 11-8 (secondary copy read), tinned stranded copper, 20 A, one way:
# gauge, ohm/ft, ft, volts printed, tolerance.
AIRCRAFT = [
    (6, 0.00044, 107, 0.942, 0.005),
    (4, 0.00028, 90, 0.504, 0.005),
    (12, 0.00202, 88, 3.60, 0.013),  # printed to 3.60; exact 3.555
    (14, 0.00306, 100, 6.12, 0.005),
    (10, 0.00126, 39, 0.98, 0.005),
    (10, 0.00126, 156, 3.93, 0.005),
    (10, 0.00126, 273, 6.88, 0.005),
]


@pytest.mark.parametrize(("gauge", "ohm", "feet", "volts", "tolerance"), AIRCRAFT)
def test_drops_of_ac_43_13(gauge: int, ohm: float, feet: float, volts: float, tolerance: float) -> None:
    drop = wiring.voltage_drop(20, feet * FOOT, ohm / PER_FOOT, wires=1)
    assert drop == pytest.approx(volts, rel=tolerance)
    # Thin tinned strands: up to 27 % over solid copper of the gauge, never under it.
    solid = wiring.resistance(wiring.awg_area(gauge)) * PER_FOOT
    assert 1.0 < ohm / solid < 1.28


def test_misprint_of_ac_43_13() -> None:
    # 10 gauge, 19.5 ft is printed ".366"; its own rule gives 0.4914.
    drop = wiring.voltage_drop(20, 19.5 * FOOT, 0.00126 / PER_FOOT, wires=1)
    assert drop == pytest.approx(0.4914, abs=0.00005)
    assert abs(drop / 0.366 - 1) > 0.3


@pytest.mark.parametrize("temperature", [-20, 20, 60, 105])
def test_run_at_another_temperature(temperature: float) -> None:
    # AC 43.13-1B p. 11-22 (secondary copy read): L2 = 254.5 L1 / (234.5 + T2).
    at_20 = wiring.longest_run(20, 1.0, wiring.resistance(3.31))
    hot = wiring.longest_run(20, 1.0, wiring.resistance(3.31, temperature))
    assert hot == pytest.approx(254.5 * at_20 / (234.5 + temperature))


# Wire tables without a named standard (common practice; 10 gauge recalled): ohm per 1000 ft, mil.
SOLID = [
    (10, 0.9989, None),
    (12, 1.588, 80.808),
    (14, 2.525, 64.084),
    (16, 4.016, 50.820),
    (18, 6.385, 40.303),
    (20, 10.15, None),
    (22, 16.14, None),
]


@pytest.mark.parametrize(("gauge", "ohm", "mil"), SOLID)
def test_solid_copper_tables(gauge: int, ohm: float, mil: float | None) -> None:
    per_1000_ft = wiring.resistance(wiring.awg_area(gauge)) * 1000 * PER_FOOT
    assert per_1000_ft == pytest.approx(ohm, rel=0.0004)
    if mil is not None:
        assert wiring.awg_diameter(gauge) / 0.0254 == pytest.approx(mil, abs=0.001)


def test_copper_of_the_international_standard() -> None:
    # 100 % IACS, 1/58 ohm mm2/m at 20 degC (IEC 60028, recalled): another road to the same constant.
    assert pytest.approx(1 / 58, rel=0.0002) == wiring.COPPER
    assert wiring.resistance(1.5) == pytest.approx(1 / 58 / 1.5, rel=0.0002)


# Both wires, 1000 ft, volts (a public table, common practice): A, gauge, V, tolerance.
@pytest.mark.parametrize(
    ("amperes", "gauge", "volts", "tolerance"),
    [
        (10, 12, 31.74, 0.0015),
        (10, 14, 50.50, 0.0015),
        (10, 10, 19.90, 0.0045),
        (5, 16, 40.21, 0.0015),
        (1, 18, 12.78, 0.0015),
    ],
)
def test_drops_there_and_back(amperes: float, gauge: int, volts: float, tolerance: float) -> None:
    ohm = wiring.resistance(wiring.awg_area(gauge))
    assert wiring.voltage_drop(amperes, 1000 * FOOT, ohm) == pytest.approx(volts, rel=tolerance)
    one_way = wiring.voltage_drop(amperes, 1000 * FOOT, ohm, wires=1)
    assert 2 * one_way == pytest.approx(volts, rel=tolerance)


def test_pair_of_18_gauge_over_350_ft() -> None:
    # The same table: 1.27 V per 100 ft -> 4.445 V (rounded down from 1.277: 0.6 %).
    ohm = wiring.resistance(wiring.awg_area(18))
    assert wiring.voltage_drop(1, 350 * FOOT, ohm) == pytest.approx(4.445, rel=0.006)
