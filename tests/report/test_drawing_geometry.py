"""What is drawn stands where the numbers say, read back from the SVG to 0.1 mm of the part at scale."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from drawn import Picture, drawn, drawn_from, ends

from partscheck.notation.interval import Interval
from partscheck.report.drawing.load_plane import from_hub_face
from partscheck.report.drawing.values import Size

IN = 25.4
LB = 0.45359237 * 9.80665
CLOSE = 0.1  # mm of the part


@pytest.fixture(scope="module")
def first() -> dict[str, Picture]:
    return {slug: Picture(one) for slug, one in drawn("apiary-first").items()}


@pytest.fixture(scope="module")
def corrected() -> dict[str, Picture]:
    return {slug: Picture(one) for slug, one in drawn("apiary-corrected").items()}


def from_face(picture: Picture, face: str, part: str) -> float:
    """Outer end of a shape from the hub's seating face, mm of the part."""
    hub_face, _ = picture.level("seating-face", "hub")
    return picture.real(picture.level(face, part)[1] - hub_face)


# ---- the wheel end -----------------------------------------------------------------------------


def test_the_stud_ends_where_its_length_says(first: dict[str, Picture], corrected: dict[str, Picture]) -> None:
    assert from_face(first["wheel-end-1L"], "stud", "hub") == pytest.approx(1.75 * IN, abs=CLOSE)
    assert from_face(corrected["wheel-end-1L"], "stud", "hub") == pytest.approx(1.20 * IN, abs=CLOSE)


def test_the_plate_is_as_thick_as_typed(first: dict[str, Picture]) -> None:
    assert from_face(first["wheel-end-1L"], "held", "plate") == pytest.approx(1.25 * IN, abs=CLOSE)


def test_the_stud_s_tolerance_is_a_band_round_its_end(first: dict[str, Picture]) -> None:
    picture = first["wheel-end-1L"]
    low, high = picture.level("stud-end-band", "hub")
    assert picture.real(high - low) == pytest.approx(2 * IN / 32, abs=CLOSE)
    assert from_face(picture, "stud-end-band", "hub") == pytest.approx((1.75 + 1 / 32) * IN, abs=CLOSE)


def test_what_stands_out_of_the_plate_is_hatched_as_trouble(first: dict[str, Picture]) -> None:
    picture = first["wheel-end-1L"]
    shape = picture.one("stud-above-adapter-face")
    assert picture.real(ends(shape, 0)[1] - ends(shape, 0)[0]) == pytest.approx(0.5 * IN, abs=CLOSE)
    assert "trouble" in shape.get("fill", "")


def test_the_corrected_wheel_end_has_no_trouble_in_it(corrected: dict[str, Picture]) -> None:
    picture = corrected["wheel-end-1L"]
    assert not [one for one in picture.root.iter() if "trouble" in one.get("fill", "")]


def test_the_closed_nut_s_thread_ends_at_its_depth(first: dict[str, Picture]) -> None:
    picture = first["wheel-end-1L"]
    left, right = picture.level("nut-thread", "wheel-nuts")
    assert picture.real(right - left) == pytest.approx(28.0, abs=CLOSE)
    assert from_face(picture, "stud", "plate") == pytest.approx((1.25 + 1.60) * IN, abs=CLOSE)


def test_a_stud_in_millimetres_reaches_as_far_as_typed() -> None:
    picture = Picture(drawn("tandem-arms")["wheel-end-1L"])
    left, right = picture.level("seating-face", "plate")[0], picture.level("stud", "plate")[1]
    assert picture.real(right - left) == pytest.approx(45.0, abs=CLOSE)


def test_a_wheel_bolt_is_as_long_as_typed_and_ends_in_its_hole() -> None:
    picture = Picture(drawn("metric-750")["wheel-end-1L"])
    left, right = picture.level("stud", "wheel-bolt")
    assert picture.real(right - left) == pytest.approx(26.0, abs=CLOSE)
    hole = picture.level("hole", "hub")
    assert picture.real(hole[1] - hole[0]) == pytest.approx(22.0, abs=CLOSE)
    assert hole[0] < left


# ---- bolt circles --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("part", "face", "inches"), [("hub", "stud", 4.5), ("plate", "stud", 5.5), ("wheel", "hole", 5.5)]
)
def test_hole_centres_lie_on_their_circle(first: dict[str, Picture], part: str, face: str, inches: float) -> None:
    picture = first["bolt-circles-1L"]
    centre = [sum(ends(picture.one("pilot"), axis)) / 2 for axis in (0, 1)]
    holes = picture.all(face, part)
    assert len(holes) == 5
    for hole in holes:
        x, y = (sum(ends(hole, axis)) / 2 - centre[axis] for axis in (0, 1))
        assert picture.real(math.hypot(x, y)) == pytest.approx(inches * IN / 2, abs=CLOSE)


def test_holes_stand_an_equal_angle_apart(first: dict[str, Picture]) -> None:
    picture = first["bolt-circles-1L"]
    centre = [sum(ends(picture.one("pilot"), axis)) / 2 for axis in (0, 1)]
    places = [[sum(ends(one, axis)) / 2 - centre[axis] for axis in (0, 1)] for one in picture.all("stud", "hub")]
    angles = sorted(math.degrees(math.atan2(y, x)) % 360 for x, y in places)
    assert [after - before for before, after in pairwise(angles)] == pytest.approx([72.0] * 4, abs=0.05)


def test_the_two_circles_are_turned_by_the_best_angle(first: dict[str, Picture]) -> None:
    picture = first["bolt-circles-1L"]
    centre = [sum(ends(picture.one("pilot"), axis)) / 2 for axis in (0, 1)]
    turns = []
    for part in ("hub", "plate"):
        x, y = (sum(ends(picture.one("stud", part), axis)) / 2 - centre[axis] for axis in (0, 1))
        turns.append(math.degrees(math.atan2(y, x)))
    assert abs(turns[0] - turns[1]) % 72 == pytest.approx(36.0, abs=0.05)


def test_pilot_and_bores_have_their_size(first: dict[str, Picture]) -> None:
    picture = first["bolt-circles-1L"]
    for face, inches in (("pilot", 2.80), ("center_bore", 4.25), ("hub_bore", 2.85), ("cap_diameter", 1.98)):
        left, right = picture.level(face)
        assert picture.real(right - left) == pytest.approx(inches * IN, abs=CLOSE)


# ---- load plane ------------------------------------------------------------------------------------


def test_bearings_and_load_stand_where_the_list_says(first: dict[str, Picture]) -> None:
    picture = first["load-plane-1L"]
    face = picture.level("seating-face", "hub")[0]
    inner, outer = (picture.level(f"{which}-load-centre")[0] for which in ("inner", "outer"))
    assert picture.real(face - inner) == pytest.approx(2.05 * IN, abs=CLOSE)
    assert picture.real(outer - face) == pytest.approx(0.45 * IN, abs=CLOSE)
    # backspace 3.5 in on a 6 in rim, an inch over its flanges: offset 0; outboard by the plate
    assert picture.real(picture.level("load-plane", "wheel")[0] - face) == pytest.approx(1.25 * IN, abs=CLOSE)


def test_reactions_are_as_long_as_moments_about_the_bearings_make_them(first: dict[str, Picture]) -> None:
    picture = first["load-plane-1L"]
    long = {face: -sum(sign * end for sign, end in zip((1, -1), picture.upright(face), strict=True))
            for face in ("load", "inner-reaction", "outer-reaction")}  # fmt: skip
    spread, beyond = (2.05 + 0.45) * IN, (1.25 - 0.45) * IN
    assert long["inner-reaction"] / long["load"] == pytest.approx(beyond / spread, abs=0.002)
    assert long["outer-reaction"] / long["load"] == pytest.approx(1 + beyond / spread, abs=0.002)


# ---- joints ----------------------------------------------------------------------------------------


def test_the_bolt_and_its_layers_have_their_length(first: dict[str, Picture]) -> None:
    picture = first["joint-arm-to-frame"]
    left, right = picture.level("bolt", "arm-bolt")
    assert picture.real(right - left) == pytest.approx(2.5 * IN, abs=CLOSE)
    plate = picture.level("layer", "arm to frame / arm plate")
    assert picture.real(plate[1] - plate[0]) == pytest.approx(0.375 * IN, abs=CLOSE)
    walls = picture.all("layer", "arm to frame / frame tube")
    outer = [end for wall in walls for end in ends(wall, 0)]
    assert picture.real(max(outer) - min(outer)) == pytest.approx(2 * IN, abs=CLOSE)
    assert picture.real(ends(walls[0], 0)[1] - ends(walls[0], 0)[0]) == pytest.approx(3 / 16 * IN, abs=CLOSE)
    assert picture.real(picture.level("shear-plane")[0] - left) == pytest.approx(0.375 * IN, abs=CLOSE)


def test_what_the_bolt_lacks_is_hatched(first: dict[str, Picture]) -> None:
    picture = first["joint-arm-to-frame"]
    left, right = picture.level("bolt-too-short")
    # 2-3/8 in of stack and a 7/16 in nut (ASME B18.2.2) want 2-13/16 in
    assert picture.real(right - left) == pytest.approx((2 + 13 / 16 - 2.5) * IN, abs=CLOSE)


def test_the_bolt_stands_on_the_bottom_of_its_hole(
    first: dict[str, Picture], corrected: dict[str, Picture]
) -> None:
    picture = first["joint-bump-stop-to-arm"]
    left, right = picture.level("bolt-bottoms-in-tapped-hole")
    assert picture.real(right - left) == pytest.approx((1.25 - 0.25 - 0.75) * IN, abs=CLOSE)
    assert not corrected["joint-bump-stop-to-arm"].all("bolt-bottoms-in-tapped-hole")


# ---- the whole trailer -------------------------------------------------------------------------------


def test_the_axle_stands_as_far_behind_the_ball_as_typed(first: dict[str, Picture]) -> None:
    picture = first["side-view"]
    ball = sum(picture.level("ball")) / 2
    assert picture.real(picture.level("axle")[0] - ball) == pytest.approx(120 * IN, abs=1.0)
    for number, inches in ((1, 100), (2, 120), (3, 112), (4, 208)):
        assert picture.real(picture.level(f"load-{number}")[0] - ball) == pytest.approx(inches * IN, abs=1.0)


def test_loads_are_as_long_as_they_are_heavy(first: dict[str, Picture]) -> None:
    picture = first["side-view"]
    heavy, lighter = (picture.upright(f"load-{number}") for number in (3, 1))
    assert (lighter[1] - lighter[0]) / (heavy[1] - heavy[0]) == pytest.approx(640 / 1500, abs=0.005)


def test_the_trailer_from_behind_has_its_widths(first: dict[str, Picture]) -> None:
    picture = first["rear-view"]
    left, right = picture.level("frame")
    assert picture.real(right - left) == pytest.approx(46 * IN, abs=0.5)
    faces = sorted(ends(one, 0)[0] for one in picture.all("hub-face"))
    assert picture.real(faces[-1] - faces[0]) == pytest.approx(60 * IN, abs=0.5)
    planes = sorted(ends(one, 0)[0] for one in picture.all("load-plane"))
    assert picture.real(planes[-1] - planes[0]) == pytest.approx((60 + 2 * 1.25) * IN, abs=0.5)


def test_bars_are_as_long_as_loads_and_ratings(first: dict[str, Picture]) -> None:
    picture = first["load-path"]
    start, end = picture.level("share-gross", "ball")
    for part, pounds in (("ball", 2000), ("coupler", 3500)):
        rating = picture.level("rating-gross", part)[0]
        assert (rating - start) / (end - start) == pytest.approx(pounds / 2600, abs=0.002)
    over = picture.level("over-gross", "ball")
    assert (over[1] - over[0]) / (end - start) == pytest.approx(600 / 2600, abs=0.002)
    assert not picture.all("over-gross", "coupler")


# ---- fenders ---------------------------------------------------------------------------------------


def fendered(fender: str) -> Picture:
    return Picture(drawn_from(
        "layout: {axles: 1, hub_face_distance: 66 in, frame_width: 46 in, coupler_to_axle: 120 in,"
        " ground_clearance: 14 in}\n"
        "parts:\n"
        "  - {kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, stud_length: 1.75 in}\n"
        "  - {kind: wheel, size: 15 x 6 in, bolt_circle: 5 x 4.5 in, offset: 0 mm}\n"
        "  - {kind: tire, size: ST205/75R15}\n"
        f"  - {{kind: fender, {fender}}}\n",
        "inch",
    )["rear-view"])  # fmt: skip


def words_of(picture: Picture) -> str:
    return " ".join(one.text or "" for one in picture.root.iter() if one.tag.endswith("text"))


def test_a_fender_stands_over_its_wheel_as_wide_as_it_is() -> None:
    picture = fendered("inside_width: 10 in, height: 17 in")
    left, right = picture.level("fender")
    assert picture.real(right - left) == pytest.approx(254.0, abs=0.1)
    tire = picture.level("tire")
    assert (left + right) / 2 == pytest.approx(sum(tire) / 2, abs=0.01)
    high, low = picture.upright("fender")
    assert picture.real(low - high) == pytest.approx(17 * 25.4, abs=0.1)
    assert "fender, 10 in (254 mm) inside" in words_of(picture)
    assert not picture.all("tight")


def test_a_fender_that_the_tire_rubs_is_marked_where_it_rubs() -> None:
    """ST205/75R15 on a rim of 6 in: its section is wider than 8.2 in."""
    picture = fendered("inside_width: 8.2 in, height: 17 in")
    assert len(picture.all("tight")) == 4  # both edges of both fenders
    assert all(ends(one, 0)[0] == ends(one, 0)[1] for one in picture.all("tight"))
    assert "too tight beside the tire" in words_of(picture)
    low = fendered("inside_width: 12 in, height: 14 in")
    assert len(low.all("tight")) == 2  # the top of both
    assert "left over the tire" in words_of(low)


def test_a_fender_of_unknown_size_is_dashed_and_says_so() -> None:
    picture = fendered("inside_width: unknown")
    assert picture.one("fender").get("class") == "pd-unknown"
    assert "fender ?" in words_of(picture)
    assert "fender.inside_width" in words_of(picture)


@pytest.mark.parametrize(
    ("low", "high", "words"),
    [
        (0.0, 0.0, "on the hub face"), (1e-13, 1e-13, "on the hub face"), (-1e-13, 1e-13, "on the hub face"),
        (-11.43, -11.43, "0.45 in (11.4 mm) outboard"), (9.0, 9.0, "0.35 in (9 mm) inboard"),
        (0.0, 2.54, "0 to 0.10 in (0 to 2.5 mm) inboard"),
        (-2.54, 5.08, "0.10 in (2.5 mm) outboard to 0.20 in (5.1 mm) inboard"),
    ],
)  # fmt: skip
def test_a_place_from_the_hub_face_is_told_as_one_would_say_it(low: float, high: float, words: str) -> None:
    assert from_hub_face(Size(Interval(low, high, "mm"), 0.0), "inch") == words
