"""The load path up to the tow vehicle: each rating at its own worst case, the weakest link, room by case."""

from __future__ import annotations

import pytest
from case_files import check_text
from hypothesis import given, settings
from hypothesis import strategies as st

from partscheck.engine import Result
from partscheck.report.json_report import report_data
from partscheck.report.text import text_report
from partscheck.uses.case_room import CaseRoom, case_rooms
from partscheck.uses.load_path import LoadPathRow, load_path, supported_gross, weakest_links

LB = 4.4482216152605  # N

# Own method, hand-worked: empty 990 lb, 106.67 on the tongue; loaded 2490 and 206.67; racked 2600 and 126.
LOADS = """
layout: {coupler_to_axle: 120 in}
loads:
  - {what: frame, weight: 640 lb, from_coupler: 100 in}
  - {what: running gear, weight: 350 lb, from_coupler: 120 in, moves_with_axle: true}
  - {what: cargo, weight: 1500 lb, from_coupler: 112 in, cases: [loaded, racked]}
  - {what: rear rack, weight: 110 lb, from_coupler: 208 in, cases: [racked]}
load_cases: [empty, loaded, racked]
"""
CHAIN = """
service: {surface: gravel}
tow_vehicle: {tow_rating: 3500 lb, tongue_rating: 350 lb}
parts:
  - {kind: coupler, rating: 3500 lb, tongue_rating: 350 lb}
  - {kind: ball, rating: 2000 lb}
  - {kind: ball-mount, rating: 5000 lb, tongue_rating: 500 lb}
  - {kind: receiver, place: tow vehicle, rating: 3500 lb, tongue_rating: 300 lb}
  - {kind: brake, type: surge, qty: 2}
  - {kind: axle, rating: 3500 lb}
  - {kind: wheel, rating: 1300 lb}
"""


def result_of(text: str) -> Result:
    result = check_text(text)
    assert not result.crashed
    return result


def row(rows: list[LoadPathRow], role: str, of: str) -> LoadPathRow:
    (found,) = [one for one in rows if (one.role, one.of) == (role, of)]
    return found


def by_case(result: Result) -> dict[str, CaseRoom]:
    return {one.name: one for one in case_rooms(result, load_path(result))}


def test_the_path_goes_from_the_wheel_to_the_tow_vehicle() -> None:
    rows = load_path(result_of(LOADS + CHAIN))
    assert {(one.role, one.of) for one in rows} == {
        ("wheel", "corner"), ("axle", "axle"), ("coupler", "gross"), ("coupler", "tongue"), ("ball", "gross"),
        ("ball-mount", "gross"), ("ball-mount", "tongue"), ("receiver", "gross"), ("receiver", "tongue"),
        ("tow-vehicle", "gross"), ("tow-vehicle", "tongue"),
    }  # fmt: skip


def test_each_row_has_the_worst_case_of_its_own() -> None:
    rows = load_path(result_of(LOADS + CHAIN))
    ball, tongue, axle = row(rows, "ball", "gross"), row(rows, "receiver", "tongue"), row(rows, "axle", "axle")
    assert (ball.case, tongue.case, axle.case) == ("racked", "loaded", "racked")
    assert ball.share.mid / LB == pytest.approx(2600)
    assert tongue.share.mid / LB == pytest.approx(206.6667, abs=1e-3)
    assert axle.share.mid / LB == pytest.approx(2474)
    assert tongue.limits_gross_weight_to is not None
    assert tongue.limits_gross_weight_to.mid / LB == pytest.approx(300 * 2490 / 206.66667)


def test_a_declared_weight_that_is_the_greatest_has_no_case() -> None:
    rows = load_path(result_of(LOADS + CHAIN.replace("surface: gravel", "gross_weight: 2700 lb")))
    ball = row(rows, "ball", "gross")
    assert (ball.case, round(ball.share.mid / LB, 6)) == ("", 2700)


def test_the_weakest_link_is_named_for_gross_and_for_tongue_weight() -> None:
    result = result_of(LOADS + CHAIN)
    rows = load_path(result)
    assert [one.role for one in weakest_links(rows, "gross")] == ["ball"]
    assert [one.role for one in weakest_links(rows, "tongue")] == ["receiver"]
    assert supported_gross(rows)[1] is row(rows, "ball", "gross").part
    words = " ".join(text_report(result, "inch").split())
    assert (
        "Weakest link of the towing chain: for the trailer's weight the hitch ball, 2000 lb (907 kg); for the "
        "tongue's the hitch receiver, 300 lb (136 kg)." in words
    )


def test_two_links_alike_are_the_weakest_together() -> None:
    rows = load_path(result_of(LOADS + CHAIN.replace("2000 lb", "3500 lb")))
    assert [one.role for one in weakest_links(rows, "gross")] == ["coupler", "ball", "receiver", "tow-vehicle"]


def test_each_case_names_its_room_and_its_first_limit() -> None:
    rooms = by_case(result_of(LOADS + CHAIN))
    assert list(rooms) == ["empty", "loaded", "racked"]
    for name, room in (("empty", 1010), ("loaded", -490), ("racked", -600)):
        assert rooms[name].room is not None
        assert rooms[name].room.mid / LB == pytest.approx(room)  # type: ignore[union-attr]
        assert rooms[name].first is not None
        assert rooms[name].first.role == "ball"  # type: ignore[union-attr]


def test_cases_may_have_other_first_limits() -> None:
    """The rack lifts the tongue and loads the wheels: loaded, the receiver is first, racked, the wheels are."""
    strong = CHAIN.replace("rating: 2000 lb", "rating: 5000 lb").replace("rating: 300 lb", "rating: 220 lb")
    rooms = by_case(result_of(LOADS + strong))
    assert rooms["loaded"].first is not None
    assert (rooms["loaded"].first.role, rooms["loaded"].first.of) == ("receiver", "tongue")
    assert rooms["racked"].first is not None
    assert rooms["racked"].first.role == "wheel"


def test_unbraked_the_other_limit_of_the_tow_vehicle_counts() -> None:
    text = LOADS + CHAIN.replace("  - {kind: brake, type: surge, qty: 2}\n", "").replace(
        "tow_rating: 3500 lb", "tow_rating: 3500 lb, tow_rating_unbraked: 1500 lb"
    )
    rows = load_path(result_of(text))
    assert row(rows, "tow-vehicle-unbraked", "gross").name == "tow vehicle (unbraked)"
    assert [one.role for one in weakest_links(rows, "gross")] == ["tow-vehicle-unbraked"]


def test_with_weight_distribution_the_other_pair_of_the_plate_counts() -> None:
    text = LOADS + CHAIN.replace("tongue_rating: 350 lb}\nparts", "weight_distribution: true}\nparts").replace(
        "tongue_rating: 300 lb}", "tongue_rating: 300 lb, rating_distributing: 4000 lb}"
    )
    rows = load_path(result_of(text))
    assert row(rows, "receiver", "gross").rating.mid / LB == pytest.approx(4000)
    assert not row(rows, "receiver", "tongue").known


def test_the_rear_receiver_counts_at_its_arm_and_limits_no_gross_weight() -> None:
    rear = """
  - {id: rear-receiver, kind: receiver, place: trailer rear, tongue_rating: 300 lb}
  - {kind: rack, weight: 40 lb, weight_carried: 70 lb, beyond_pin: 18 in, rating: 100 lb}
"""
    rows = load_path(result_of(LOADS + CHAIN.rstrip("\n") + rear))
    receiver, rack = row(rows, "rear-receiver", "rack"), row(rows, "rack", "rack")
    assert receiver.rating.mid / LB == pytest.approx(300 * 12 / 18 / 2)
    assert receiver.share.mid / LB == pytest.approx(110)
    assert rack.margin.mid / LB == pytest.approx(30)
    assert receiver.limits_gross_weight_to is rack.limits_gross_weight_to is None


def test_without_a_tongue_weight_no_tongue_rating_limits_the_trailer() -> None:
    rows = load_path(result_of(CHAIN.replace("surface: gravel", "gross_weight: 2600 lb")))
    assert {one.of for one in rows} == {"corner", "axle", "gross"}


def test_a_list_that_only_names_the_tow_vehicles_plug_has_no_row_of_it() -> None:
    rows = load_path(result_of("tow_vehicle: {connector_ways: 7}\nparts:\n  - {kind: axle, rating: 3500 lb}\n"))
    assert [one.role for one in rows] == ["axle"]


def test_json_has_case_and_kind_of_each_rating() -> None:
    data = report_data(result_of(LOADS + CHAIN), "inch")
    ball = next(one for one in data["load_path"] if one["part"] == "ball")
    assert (ball["of"], ball["case"], round(ball["margin"] / LB, 3)) == ("gross", "racked", -600)
    assert data["weakest_links"] == {"gross": ["ball"], "tongue": ["receiver"]}
    assert [(one["case"], one["limited_by"], one["of"]) for one in data["load_cases"]] == [
        ("empty", "ball", "gross"), ("loaded", "ball", "gross"), ("racked", "ball", "gross"),
    ]  # fmt: skip


def test_the_text_fits_80_columns() -> None:
    lines = text_report(result_of(LOADS + CHAIN), "inch", 80).splitlines()
    assert max(len(line) for line in lines) <= 80
    assert any("racked" in line and "hitch ball" in line for line in lines)


@settings(max_examples=20, deadline=None)
@given(st.floats(500, 3000), st.floats(100, 3000), st.floats(60, 119), st.floats(60, 140))
def test_at_its_limit_a_case_has_no_room_left(frame: float, cargo: float, front: float, back: float) -> None:
    """All loads of a case times (weight + room) / weight: its first limit is then at its rating."""

    def rooms(factor: float) -> CaseRoom:
        text = f"""
layout: {{coupler_to_axle: 120 in}}
loads:
  - {{what: frame, weight: {frame * factor:.9f} lb, from_coupler: {front:.6f} in, cases: [full]}}
  - {{what: cargo, weight: {cargo * factor:.9f} lb, from_coupler: {back:.6f} in, cases: [full]}}
"""
        return by_case(result_of(text + CHAIN))["full"]

    one = rooms(1.0)
    assert one.room is not None
    again = rooms((one.total.mid + one.room.mid) / one.total.mid)
    assert again.room is not None
    assert again.room.mid == pytest.approx(0, abs=1e-3)
    assert again.first is not None
    assert one.first is not None
    assert again.first.label == one.first.label
