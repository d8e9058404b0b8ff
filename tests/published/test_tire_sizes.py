"""Tire diameters and widths against printed examples and an independent package."""

from __future__ import annotations

import pytest

from partscheck.formulas import tire


def test_245_55r18() -> None:
    # Public worked example (common practice): overall diameter 726.7 mm.  "28.63 in" beside it is a
    # misprint (28.610 in), so the millimetres are used.
    assert tire.overall_diameter_metric(245, 55, 18 * 25.4) == pytest.approx(726.7, abs=0.05)


def test_p205_60r15_design_diameter() -> None:
    # Tire and Rim Association data (secondary copy read): design overall diameter 24.69 in.
    assert tire.overall_diameter_metric(205, 60, 15 * 25.4) / 25.4 == pytest.approx(24.69, abs=0.01)


# T&RA rule, 0.2 in of section for 0.5 in of rim (two secondary copies read): 205/60R15, 8.23 in on 6.0.
@pytest.mark.parametrize(
    ("rim", "section"), [(5.5, 8.03), (6.0, 8.23), (6.5, 8.43), (7.0, 8.63), (7.5, 8.83)]
)
def test_section_of_205_60r15_on_its_rims(rim: float, section: float) -> None:
    ours = tire.section_on_rim(8.23 * 25.4, 6.0 * 25.4, rim * 25.4) / 25.4
    assert ours == pytest.approx(section, abs=0.01)


def test_measuring_rims_of_tra() -> None:
    # T&RA (secondary copy read): P255/50R16 7 in; P205/60R15, design section 8.23 in, 6.0 in.
    assert tire.measuring_rim_width(255, 50) == pytest.approx(7.0 * 25.4)
    assert tire.measuring_rim_width(8.23 * 25.4, 60) == pytest.approx(6.0 * 25.4)


def test_nominal_width_can_miss_the_measuring_rim() -> None:
    # The trap told in the docstring: 205 mm nominal against 8.23 in design.
    assert tire.measuring_rim_width(205, 60) == pytest.approx(5.5 * 25.4)


@pytest.mark.parametrize("rim", range(13, 21))
@pytest.mark.parametrize("aspect", range(30, 90, 5))
def test_diameters_against_tire_code_parser(aspect: int, rim: int) -> None:
    # tire_code_parser 1.0.0 rounds the width to 0.1 in before use and the diameter after: +- 0.13 in.
    parser = pytest.importorskip("tire_code_parser", reason="tire_code_parser is not installed")
    for width in range(125, 326, 10):
        theirs = float(parser.parse_tire_code(f"P{width}/{aspect}R{rim}")["tire_diameter_in"])
        ours = tire.overall_diameter_metric(width, aspect, rim * 25.4) / 25.4
        assert ours == pytest.approx(theirs, abs=0.13), f"P{width}/{aspect}R{rim}"
