"""Trailer on two supports against printed examples."""

from __future__ import annotations

import pytest

from partscheck.formulas import balance


def test_giancoli_trailer_supports() -> None:
    # Giancoli, Physics 7e ch. 9 (secondary copy read): 2500 kg, g 9.8, mass centre 5.5 m behind support B
    # and 2.5 m ahead of the tires A -> A 16 844 N, B 7 656 N.
    coupler, axle = balance.supports([(2500 * 9.8, 5.5)], 8.0)
    assert axle == pytest.approx(16844, abs=1)
    assert coupler == pytest.approx(7656, abs=1)


def test_trade_press_tongue_weight() -> None:
    # Trade press (common practice): axle at 100 in, load at 88 in, empty 800 lb with 80 lb on the tongue,
    # gross 2500 lb -> 284 lb.
    empty = (800.0, 90.0)  # 80 of 800 lb on the tongue: centre at 90 in
    coupler, axle = balance.supports([empty, (1700.0, 88.0)], 100.0)
    assert coupler == pytest.approx(284, abs=0.5)
    assert coupler + axle == pytest.approx(2500)
    assert 80 + balance.tongue_from_load(1700, 88, 100) == pytest.approx(coupler)
    # The share printed beside it, 11.86 %, is a misprint: 284/2500 is 11.36 %.
    assert coupler / 2500 == pytest.approx(0.1136, abs=0.00005)


def test_load_behind_the_axle_lifts_the_coupler() -> None:
    # Inputs of an unnamed textbook exercise (common practice), answers worked by hand: 220 kg at 1.85 m,
    # axle at 2.15 m, 540 kg at 3.3 m, g 9.81 -> 301.1 N empty, -2532 N loaded, 0 with the load at 2.272 m.
    trailer = (220 * 9.81, 1850.0)
    empty, _ = balance.supports([trailer], 2150)
    loaded, _ = balance.supports([trailer, (540 * 9.81, 3300.0)], 2150)
    level, _ = balance.supports([trailer, (540 * 9.81, 2272.0)], 2150)
    assert empty == pytest.approx(301.1, abs=0.05)
    assert loaded == pytest.approx(-2532, abs=1)
    assert level == pytest.approx(0, abs=2)


@pytest.mark.parametrize(
    ("tongue", "wheels", "printed", "new_span", "exact"),
    # Trade press (common practice): axle moved for 10 % on the tongue, 264 in from coupler to axle.  The
    # exact column is from the two supports, the weight staying put; worked by hand.
    [(1025.0, 7200.0, 6.499, 257.5, 7.222), (300.0, 8200.0, -17.0, 281.0, -18.980)],
)
def test_trade_press_axle_shift_and_the_two_supports(
    tongue: float, wheels: float, printed: float, new_span: float, exact: float
) -> None:
    gross = tongue + wheels
    short = balance.axle_shift_short(gross, tongue, 264, 0.10)
    assert short == pytest.approx(printed, abs=0.1)
    assert 264 - short == pytest.approx(new_span, abs=0.1)
    centre = 264 * wheels / gross
    place = balance.axle_place_for_share([(gross, centre)], [], 264, 0.10)
    assert 264 - place == pytest.approx(exact, abs=0.001)
    assert short / (264 - place) == pytest.approx(0.9)  # what the short formula leaves out: 1 - 0.10
    coupler, _ = balance.supports([(gross, centre)], place)
    assert coupler / gross == pytest.approx(0.10)
    off_by_short, _ = balance.supports([(gross, centre)], 264 - short)
    assert abs(off_by_short / gross - 0.10) > 0.002  # the printed move falls short of 10 %
    # What the printed answer is exact for: the whole weight carried back between supports 264 in apart.
    carried, _ = balance.supports([(gross, centre + short)], 264)
    assert carried / gross == pytest.approx(0.10)
