"""The tables of lamps and plugs against texts outside the project."""

from __future__ import annotations

import pytest

from partscheck.catalogue import Catalogue

# Texas Department of Public Safety, lighting chart after 49 CFR 393.11: pieces and color for trailers.
CHART = {
    "tail lamp": (2, {"red"}),
    "stop lamp": (2, {"red"}),
    "turn lamp": (2, {"amber", "red"}),
    "front clearance lamp": (2, {"amber"}),
    "intermediate side marker": (2, {"amber"}),
    "intermediate side reflector": (2, {"amber"}),
    "rear reflector": (2, {"red"}),
    "rear side reflector": (2, {"red"}),
    "front side reflector": (2, {"amber"}),
    "license plate lamp": (1, {"white"}),
    "front side marker": (2, {"amber"}),
    "rear side marker": (2, {"red"}),
    "identification lamps": (3, {"red"}),
}
# NHTSA letter nht93-412: from 80 in of overall width, and from 30 ft of overall length.
WIDE = {"front clearance lamp", "rear clearance lamp", "identification lamps"}
LONG = {"intermediate side marker", "intermediate side reflector"}


@pytest.mark.parametrize("key", CHART)
def test_pieces_and_colors_of_the_chart(shipped: Catalogue, key: str) -> None:
    row = shipped.row("lamp_rule", key)
    assert row is not None
    assert (row["count"], set(row["color"])) == CHART[key]


def test_what_wide_and_long_trailers_have_more(shipped: Catalogue) -> None:
    rows = shipped.rows("lamp_rule")
    assert {row["key"] for row in rows if "wide_only" in row and "gross_over_lb" not in row} == WIDE
    assert {row["key"] for row in rows if row.get("length_from_ft") == 30} == LONG
    tape = shipped.row("lamp_rule", "conspicuity tape")
    assert tape is not None
    assert (tape["wide_only"], tape["gross_over_lb"]) == ("yes", 10_000)  # 49 CFR 571.108
    assert len(rows) == len(CHART) + 2  # and the rear clearance lamps, which the chart's copy lacks


def test_rows_are_of_lamps_that_a_list_can_name(shipped: Catalogue) -> None:
    from partscheck.parts.electrics import COLOR, Lamp

    functions = Lamp.fields["function"].type.allowed
    for row in shipped.rows("lamp_rule"):
        assert set(row["color"]) <= set(COLOR.allowed), row["key"]
        assert row["device"] != "lamp" or row["function"] in functions, row["key"]


def test_plugs_say_of_each_use_whether_they_have_a_pin(shipped: Catalogue) -> None:
    rows = shipped.rows("connector")
    assert {(row["system"], row["ways"]) for row in rows} == {
        ("US", 4), ("US", 5), ("US", 6), ("US", 7), ("ISO", 7), ("ISO", 13),
    }  # fmt: skip
    for row in rows:
        assert {row[use] for use in ("brakes", "reverse", "charge", "fog")} <= {"yes", "no", "shared"}
        pins = 4 if row["system"] == "US" else 6
        extra = sum(row[use] == "yes" for use in ("brakes", "reverse", "charge", "fog"))
        extra += any(row[use] == "shared" for use in ("brakes", "reverse", "charge", "fog"))
        assert pins + extra <= row["ways"], row["key"]
