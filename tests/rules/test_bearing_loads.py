"""What the two bearings carry when the load stands outboard: the numbers in the finding's words.

Our own method, worked by hand from moments about each bearing: not published figures.
"""

from __future__ import annotations

import pytest
from case_files import check_text

LIST = """
service: {gross_weight: 2300 lb, tongue_weight: 0}
parts:
  - {kind: hub, inner_bearing_to_face: 50 mm, outer_bearing_to_face: -18 mm}
  - {kind: adapter, thickness: 1.5 in}
  - {kind: wheel, offset: 0}
  - {kind: tire, loaded_radius: 330 mm}
"""


def test_loads_of_both_bearings_at_rest_and_in_a_bend() -> None:
    (finding,) = check_text(LIST).of("load-outboard-of-bearings")
    values = finding.check.values
    assert (values["near"], values["far"]) == ("outer", "inner")
    assert values["near_load"].mid == pytest.approx(6627.5, abs=0.06)
    assert values["far_load"].mid == pytest.approx(1512.1, abs=0.06)
    assert values["bend_load"].mid == pytest.approx(11592.5, abs=0.06)
    assert values["near_load"].mid - values["far_load"].mid == pytest.approx(1150 * 4.448222, abs=0.01)
