"""Preload and slip against printed examples."""

from __future__ import annotations

import pytest

from partscheck.formulas import bolted_joint

LBF, LBF_FT = 4.4482216152605, 1.3558179483

# Torque table for K 0.2 at 75 % of J429 proof (no named standard: common practice; two copies agree).
# diameter in, then clamp lbf and torque lbf ft for grade 2, 5, 8
TORQUES = [
    (1 / 4, (1312, 5.47), (2027, 8.45), (2862, 11.9)),
    (5 / 16, (2162, 11.3), (3341, 17.4), (4716, 24.6)),
    (3 / 8, (3197, 20.0), (4941, 30.9), (6975, 43.6)),
    (7 / 16, (4385, 32.0), (6777, 49.4), (9567, 69.8)),
    (1 / 2, (5853, 48.8), (9046, 75.4), (12771, 106)),
    (9 / 16, (7508, 70.4), (11603, 109), (16380, 154)),
    (5 / 8, (9323, 97.1), (14408, 150), (20340, 212)),
    (3 / 4, (13778, 172), (21293, 266), (30060, 376)),
]


@pytest.mark.parametrize("row", TORQUES, ids=lambda row: f"{row[0]} in")
def test_preload_of_the_torque_table(row: tuple[float, tuple[float, float]]) -> None:
    diameter, *grades = row
    for clamp, torque in grades:
        ours = bolted_joint.preload_from_torque(torque * LBF_FT, 0.2, diameter * 25.4)
        assert ours / LBF == pytest.approx(clamp, rel=0.005)


def test_shigley_torque_of_example_8_3() -> None:
    # Shigley 9e Ex 8-3 b (secondary copy read; printed answer recalled): 0.2 x 25 000 x 0.75 = 3750 lbf in.
    torque = 3750 / 12 * LBF_FT
    assert bolted_joint.preload_from_torque(torque, 0.2, 19.05) / LBF == pytest.approx(25000, rel=1e-6)


def test_slip_of_eleven_bolts() -> None:
    # A Beginner's Guide to the Steel Construction Manual Ex 4.1 (secondary copy read; AISC 2005): 11 bolts,
    # mu 0.35, Du 1.13, 28 kip -> 11.1 kip a bolt, 122 kip, 81.2 kip with 1.50.
    preload = 1.13 * 28
    assert bolted_joint.clamp_slip_capacity(preload, 1, 0.35) == pytest.approx(11.1, rel=0.006)
    assert bolted_joint.clamp_slip_capacity(preload, 11, 0.35) == pytest.approx(122, rel=0.006)
    assert bolted_joint.clamp_slip_capacity(preload, 11, 0.35, safety=1.5) == pytest.approx(81.2, rel=0.006)
