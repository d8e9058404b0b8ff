"""Bearing life, reliability and factors against printed examples and an independent table."""

from __future__ import annotations

import csv
import importlib.resources
import io
import math

import pytest

from partscheck.formulas import bearing, bearing_life, bearing_load, grease

TABLE = "single_row_tapered_roller_bearing_parameters.csv"


def rows() -> list[dict[str, str]]:
    """The tapered roller bearings of bd_warehouse (Apache-2.0; the rows follow one maker's catalogue)."""
    pytest.importorskip("bd_warehouse", reason="bd_warehouse is not installed")
    text = (importlib.resources.files("bd_warehouse") / "data" / TABLE).read_text(encoding="utf-8")
    found = [
        {key.removeprefix("SKT:"): value for key, value in row.items()}
        for row in csv.DictReader(io.StringIO(text))
    ]
    assert len(found) == 27
    assert len({row["Designation"] for row in found}) == 27  # the size alone is not a key: one stands twice
    return found


def test_shigley_roller_rating_and_reliability() -> None:
    # Shigley 10e Prob 11-3 (secondary copy read): 1.4 x 2235 lbf, 40 000 h at 520 rpm -> 118 kN; a bearing
    # of 123 kN is chosen -> reliability 0.917.
    load = 1.4 * 2235 * 4.4482216 / 1000
    million_turns = 60 * 40_000 * 520 / 1e6
    assert load == pytest.approx(13.92, abs=0.005)
    assert million_turns == 1248
    assert bearing_life.rating_needed(load, million_turns) == pytest.approx(118, rel=0.005)
    ratio = million_turns / bearing_life.life(123, load)
    assert bearing_life.reliability(ratio) == pytest.approx(0.917, abs=0.0005)
    assert bearing_life.life_ratio_at(bearing_life.reliability(ratio)) == pytest.approx(ratio)


def test_shigley_roller_rating_of_earlier_editions() -> None:
    # The same problem with the inputs of earlier editions (secondary copy read): 91.1 kN.
    assert bearing_life.rating_needed(10.279, 1440) == pytest.approx(91.1, rel=0.005)


def test_exam_ball_bearing() -> None:
    # Graduate engineering exam (GATE, mechanical; secondary copy read): P 3000 N, L10h 340.419 h.
    load = bearing_load.equivalent_load(2500, 1000, 0.56, 1.6)
    assert load == pytest.approx(3000)
    turns = bearing_life.life(7350, load, bearing_life.BALLS)
    assert bearing_life.hours(turns, 720) == pytest.approx(340.419, rel=0.0001)
    # Roller exponent in place of the ball exponent would show: 459 h.
    assert bearing_life.hours(bearing_life.life(7350, load), 720) > 450


def test_rating_for_90_million_turns() -> None:
    # 3000 h at 500 rpm = 90 million turns (university machine-design notes, secondary copy read);
    # 90^0.3 = 3.857 by arithmetic; ratings of Shigley Fig. 11-15 (secondary copy read) turned over.
    assert 3000 * 60 * 500 == 90e6
    assert bearing_life.rating_for_turns(1, 90e6) == pytest.approx(3.857, abs=0.0005)
    assert bearing_life.rating_for_turns(7210, 90e6) == pytest.approx(27_800, rel=0.002)
    assert bearing_life.rating_for_turns(12_100, 90e6) == pytest.approx(46_700, rel=0.002)
    # Either rating tells the same life: 90 million turns at the load that is the 90e6 rating.
    assert bearing_life.life(bearing_life.rating_for_turns(7210, 90e6), 7210) == pytest.approx(90)
    back = bearing_life.rating_for_turns(bearing_life.rating_for_turns(7210, 90e6), 1e6, 90e6)
    assert back == pytest.approx(7210)


def test_30206_worked_by_hand() -> None:
    # Inputs of a data sheet, answers by arithmetic (derived): C 40.2, Fr 4, Fa 3 kN -> 6.4 kN, 457.2.
    load = bearing_load.taper_load(4000, 3000, 0.37, 1.6)
    assert load == pytest.approx(0.4 * 4000 + 1.6 * 3000)
    assert bearing_life.life(40_200, load) == pytest.approx(457.2, abs=0.05)


def test_e_times_y_is_0_6_in_27_rows() -> None:
    # e = 1.5 tan(alpha), Y = 0.4 cot(alpha) (ISO 281, recalled): both printed columns are rounded.
    for row in rows():
        e, y = float(row["e"]), float(row["Y"])
        assert e * y == pytest.approx(0.6, abs=0.015), row["Designation"]
        lowest, highest = bearing.y_from_e(e + 0.005), bearing.y_from_e(e - 0.005)
        assert lowest - 0.05 <= y <= highest + 0.05, row["Designation"]


def test_static_factor_in_27_rows() -> None:
    # Y0 = 0.55 Y: half a last digit of Y (0.05 x 0.55) and of Y0 (0.05) apart at the most.
    for row in rows():
        y0 = bearing.y0_from_y(float(row["Y"]))
        assert y0 == pytest.approx(float(row["Y0"]), abs=0.0776), row["Designation"]


def test_effective_centre_in_27_rows() -> None:
    # The printed a (whole mm) against the load line drawn square to the race at the mean diameter.
    for row in rows():
        bore, outside, width, a = (float(row[key]) for key in ("d", "D", "T", "a"))
        exact = bearing.centre_beyond_middle(width, a)
        drawn = bearing.centre_beyond_middle_approx(bore, outside, float(row["e"]))
        # a lies past the middle from the face it is given from: that face is the cup's back face.
        assert a > width / 2
        # 30203 alone comes out short, by less than the rounding of a.
        assert -0.5 <= drawn - exact <= 2.0, row["Designation"]


def test_free_share_of_a_bearing_by_its_weight() -> None:
    # Envelope less steel (7.8 kg/L), per cent of the envelope, against the share that grease.py assumes.
    shares = []
    for row in rows():
        bore, outside, width, kilograms = (float(row[key]) for key in ("d", "D", "T", "kg"))
        envelope = math.pi / 4 * (outside**2 - bore**2) * width / 1e6
        shares.append(1 - kilograms / 7.8 / envelope)
    assert min(shares) > 0.20
    assert max(shares) < 0.32
    assert sum(shares) / len(shares) == pytest.approx(grease.BEARING_SHARE, abs=0.015)
