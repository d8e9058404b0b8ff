"""Tire loads against printed tables, the published formula, and the law."""

from __future__ import annotations

import pytest

from partscheck.formulas import tire

LB = 0.45359237  # kg

# Load index table of UN Regulation 30 (secondary copies read), kg, from index 60.
LOAD_INDEX_FROM_60 = """
250 257 265 272 280 290 300 307 315 325 335 345 355 365 375 387 400 412 425 437
450 462 475 487 500 515 530 545 560 580 600 615 630 650 670 690 710 730 750 775
800 825 850 875 900 925 950 975 1000 1030 1060 1090 1120 1150 1180 1215 1250 1285 1320 1360
1400 1450 1500 1550 1600 1650 1700 1750 1800 1850 1900
"""


def test_load_index_check_is_near_every_row_of_the_table() -> None:
    table = [int(word) for word in LOAD_INDEX_FROM_60.split()]
    assert len(table) == 71
    for load_index, kg in enumerate(table, start=60):
        assert tire.load_from_index_approx(load_index) == pytest.approx(kg, rel=0.018), load_index


# width, aspect, rim code, lb by the T&RA P-metric formula (secondary copy read) worked by hand at 240 kPa,
# lb as rated by T&RA (recalled; 1742 doubtful).
P_METRIC = [
    (205, 75, 15, 1602, 1598),
    (205, 75, 14, 1530, 1532),
    (195, 75, 14, 1405, 1400),
    (215, 75, 15, 1738, 1742),
    (225, 75, 15, 1879, 1874),
    (235, 75, 15, 2025, 2028),
]


@pytest.mark.parametrize(("width", "aspect", "rim", "formula", "rated"), P_METRIC)
def test_p_metric_formula_at_240_kpa(width: int, aspect: int, rim: int, formula: int, rated: int) -> None:
    pounds = tire.p_metric_load(width, aspect, rim * 25.4, 240) / LB
    assert pounds == pytest.approx(formula, abs=0.5)
    assert pounds == pytest.approx(rated, rel=0.004)


def test_p205_75r15_in_kilograms() -> None:
    assert tire.p_metric_load(205, 75, 15 * 25.4, 240) == pytest.approx(726.9, abs=0.05)


def test_general_form_follows_the_p_metric_formula() -> None:
    # T&RA P-metric: load goes with the square root of the pressure.
    rated = tire.p_metric_load(215, 75, 15 * 25.4, 240)
    for pressure in (140, 180, 220, 240):
        load = tire.p_metric_load(215, 75, 15 * 25.4, pressure)
        assert tire.load_at_pressure(pressure, rated, 240) == pytest.approx(load)
        assert tire.pressure_for_load(load, rated, 240) == pytest.approx(pressure)


def test_passenger_tires_on_a_trailer() -> None:
    # FMVSS 120 S5.1.2 (1976 text, NHTSA letter nht76-1.47): divided by 1.10 before the sum.
    pair = 2 * tire.passenger_on_trailer(1598)
    assert pair == pytest.approx(2905.4545, abs=0.001)
    assert pair < 3500
    assert 2 * tire.passenger_on_trailer(1936) == pytest.approx(3520)
    # T&RA 1976 p. XI (same letter) says 91 % of the rated load: the same thing rounded.
    assert tire.passenger_on_trailer(1.0) == pytest.approx(0.91, abs=0.001)
