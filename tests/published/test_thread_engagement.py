"""Engaged thread against screw_thread_lib, an independent package after FED-STD-H28/2B (1991)."""

from __future__ import annotations

from typing import Any

import pytest

from partscheck.formulas import threads

UTS_SCREW, UTS_HOLE = 120, 58  # ksi: grade 5 bolt in A36

# What screw_thread_lib 0.0.6 printed for these threads (ASME B1.1-2019 2A/2B limits), inches:
# shear area of hole and screw per inch, and the lengths of formulas (13), (14), (16).
LIBRARY = {
    "1/4-20": (0.5390, 0.3680, 0.1863, 0.1730, 0.2443),
    "1/4-28": (0.5213, 0.3735, 0.2042, 0.1948, 0.2887),
    "1/2-13": (1.1235, 0.7789, 0.4015, 0.3643, 0.5226),
    "1/2-20": (1.0821, 0.7991, 0.4356, 0.4003, 0.6117),
    "3/4-10": (1.7232, 1.2134, 0.6216, 0.5513, 0.8032),
    "3/4-16": (1.6586, 1.2326, 0.6694, 0.6051, 0.9305),
}

# Shear area of the hole per inch from a data sheet; common practice, no source named.
DATA_SHEET = {
    "1/4-20": 0.539,
    "1/4-28": 0.521,
    "1/2-13": 1.12,
    "1/2-20": 1.08,
    "3/4-10": 1.72,
    "3/4-16": 1.66,
}


def areas_and_lengths(limits: Any) -> tuple[float, float, float, float, float]:
    """Our five numbers in inches from the library's limits of size (its data, our formulas)."""
    pitch = 25.4 / limits.n
    stress = threads.stress_area_un(limits.dbsc * 25.4, limits.n)
    line = threads.pitch_diameter(limits.dbsc * 25.4, pitch)
    hole = threads.internal_thread_strip_area(1, pitch, limits.dmin * 25.4, limits.D2max * 25.4)
    screw = threads.external_thread_strip_area(1, pitch, limits.D1max * 25.4, limits.d2min * 25.4)
    return (
        hole / 25.4,
        screw / 25.4,
        threads.engagement_both_strip(stress, line) / 25.4,
        threads.engagement_screw_strips(stress, screw) / 25.4,
        threads.engagement_hole_strips(stress, hole, UTS_SCREW, UTS_HOLE) / 25.4,
    )


def assembly(designation: str) -> Any:
    library = pytest.importorskip("screw_thread_lib.threads", reason="screw_thread_lib is not installed")
    return library.Assembly.from_ASME_B11_UN_2A2B(designation, UTSs=UTS_SCREW, UTSn=UTS_HOLE)


@pytest.mark.parametrize("designation", LIBRARY)
def test_against_the_library_as_it_runs(designation: str) -> None:
    limits = assembly(designation)
    expected = (
        limits.ASn_min_FEDSTD_2a(),
        limits.ASs_min_FEDSTD_4a(),
        limits.LEr_FEDSTD_13(),
        limits.LEr_FEDSTD_14(),
        limits.LEr_FEDSTD_16(),
    )
    assert areas_and_lengths(limits) == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize("designation", LIBRARY)
def test_against_what_the_library_printed(designation: str) -> None:
    ours = areas_and_lengths(assembly(designation))
    assert ours == pytest.approx(LIBRARY[designation], abs=0.0001)
    assert ours[0] == pytest.approx(DATA_SHEET[designation], rel=0.005)


@pytest.mark.parametrize("designation", ["1/4-20", "1/2-13", "1-8", "1-14"])
def test_inch_stress_areas_against_the_library(designation: str) -> None:
    limits = assembly(designation)
    diameter = limits.dbsc * 25.4
    assert threads.stress_area_un(diameter, limits.n) == pytest.approx(limits.As_FEDSTD_1b() * 25.4**2)
    least = limits.d2min * 25.4
    high = threads.stress_area_un_high_strength(least, limits.n)
    assert high == pytest.approx(limits.As_MH_2b(override_limit=True) * 25.4**2)


@pytest.mark.parametrize("designation", ["M8-1.25", "M12-1.75", "M20-2.5", "M24-3"])
def test_metric_areas_against_the_library(designation: str) -> None:
    # ISO/TR 16224:2012 clause 4.2.2.2 as coded in screw_thread_lib (which keeps metric sizes in inches).
    library = pytest.importorskip("screw_thread_lib.threads", reason="screw_thread_lib is not installed")
    thread = library.Assembly.from_database("ASME_M_6g6H", designation)
    diameter, pitch = thread.dbsc * 25.4, thread.p * 25.4
    assert threads.stress_area_iso(diameter, pitch) == pytest.approx(thread.As_ISO() * 25.4**2)
    root = (thread.d1bsc - thread.H / 6) * 25.4
    assert threads.minor_area_iso(diameter, pitch) == pytest.approx(3.14159265359 / 4 * root**2)


def test_simple_length_with_half_shear_is_formula_13() -> None:
    # FED-STD-H28/2B formula (13) takes shear strength as half the tensile strength.
    stress, line = threads.stress_area_un(12.7, 20), threads.pitch_diameter(12.7, 25.4 / 20)
    simple = threads.stripping_engagement(stress, line, shear_factor=0.5)
    assert simple / 25.4 == pytest.approx(LIBRARY["1/2-20"][2], abs=0.0001)
