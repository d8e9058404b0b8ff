"""Thread areas against printed tables."""

from __future__ import annotations

import pytest

from partscheck.formulas import threads

IN2 = 25.4**2

# Shigley, Mechanical Engineering Design, 9e Table 8-2 (from ANSI B1.1-1974); secondary copy read.
# diameter in, threads per inch, stress area in2, root area in2
SHIGLEY_8_2 = [
    (1 / 4, 20, 0.0318, 0.0269),
    (5 / 16, 18, 0.0524, 0.0454),
    (3 / 8, 16, 0.0775, 0.0678),
    (7 / 16, 14, 0.1063, 0.0933),
    (1 / 2, 13, 0.1419, 0.1257),
    (9 / 16, 12, 0.182, 0.162),
    (5 / 8, 11, 0.226, 0.202),
    (3 / 4, 10, 0.334, 0.302),
    (1 / 4, 28, 0.0364, 0.0326),
    (5 / 16, 24, 0.0580, 0.0524),
    (3 / 8, 24, 0.0878, 0.0809),
    (7 / 16, 20, 0.1187, 0.1090),
    (1 / 2, 20, 0.1599, 0.1486),
    (9 / 16, 18, 0.203, 0.189),
    (5 / 8, 18, 0.256, 0.240),
    (3 / 4, 16, 0.373, 0.351),
]

# ISO 898-1, coarse threads; secondary copy read.  diameter mm, pitch mm, stress area mm2
ISO_898_1_COARSE = [
    (6, 1.0, 20.1),
    (8, 1.25, 36.6),
    (10, 1.5, 58.0),
    (12, 1.75, 84.3),
    (14, 2.0, 115),
    (16, 2.0, 157),
    (18, 2.5, 192),
    (20, 2.5, 245),
    (22, 2.5, 303),
    (24, 3.0, 353),
]

# Metric fine threads: recalled, no table read.  diameter mm, pitch mm, stress area mm2
RECALLED_FINE = [
    (8, 1.0, 39.2),
    (10, 1.25, 61.2),
    (10, 1.0, 64.5),
    (12, 1.5, 88.1),
    (12, 1.25, 92.1),
    (14, 1.5, 125),
    (16, 1.5, 167),
    (18, 1.5, 216),
    (20, 1.5, 272),
    (22, 1.5, 333),
    (24, 2.0, 384),
]


@pytest.mark.parametrize(("diameter", "tpi", "stress", "root"), SHIGLEY_8_2)
def test_unc_and_unf_areas_of_shigley_table_8_2(
    diameter: float, tpi: float, stress: float, root: float
) -> None:
    assert threads.stress_area_un(diameter * 25.4, tpi) / IN2 == pytest.approx(stress, rel=0.002)
    # The root column is printed to three or four digits: half of its last place is up to 0.2 %.
    assert threads.minor_area_un(diameter * 25.4, tpi) / IN2 == pytest.approx(root, rel=0.002)


@pytest.mark.parametrize(("diameter", "pitch", "stress"), ISO_898_1_COARSE)
def test_metric_coarse_areas_of_iso_898_1(diameter: float, pitch: float, stress: float) -> None:
    assert threads.stress_area_iso(diameter, pitch) == pytest.approx(stress, rel=0.004)


@pytest.mark.parametrize(("diameter", "pitch", "stress"), RECALLED_FINE)
def test_metric_fine_areas_as_recalled(diameter: float, pitch: float, stress: float) -> None:
    assert threads.stress_area_iso(diameter, pitch) == pytest.approx(stress, rel=0.005)


def test_a_waisted_shank_is_not_the_thread_of_m12x15() -> None:
    # A public table prints 65.7 mm2 for M12x1.5: the shank of a waisted bolt, 25 % off the thread.
    assert threads.stress_area_iso(12, 1.5) > 65.7 * 1.3


def test_high_strength_form_at_half_13() -> None:
    # Engineering reference page "thread stress area b": 1/2-13 UNC-2A, Es,min .4435 in -> .13757 in2.
    area = threads.stress_area_un_high_strength(0.4435 * 25.4, 13) / IN2
    assert area == pytest.approx(0.13757, abs=1e-5)


def test_inch_and_metric_forms_are_not_interchangeable() -> None:
    # ASME B1.1 takes off 0.9743 pitches, ISO 898-1 0.9382: 1.3 % apart at 1/2-13 and at M8, so that the
    # wrong form falls outside every tolerance used above.
    iso_on_half_13 = threads.stress_area_iso(12.7, 25.4 / 13) / IN2
    assert iso_on_half_13 == pytest.approx(0.14376, abs=1e-5)
    assert iso_on_half_13 / 0.1419 > 1.01
    un_on_m8 = threads.stress_area_un(8, 25.4 / 1.25)
    assert un_on_m8 == pytest.approx(36.13, abs=0.01)
    assert un_on_m8 / 36.6 < 0.99
