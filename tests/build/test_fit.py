"""The fit graph: what sits where is inferred from kinds, or asked for; nothing is guessed."""

from __future__ import annotations

import pytest
from case_files import shipped_catalogue

from partscheck.build.fit import Fit
from partscheck.build.places import LugSet, MountedTire, Seat
from partscheck.build.reader import read_build
from partscheck.engine import check_build
from partscheck.notation.faults import Fault, Faults


def fit_of(*lines: str, top: str = "") -> Fit:
    """The fit graph of these lines of ``parts``."""
    text = top + "parts:\n" + "".join(f"  - {{{line}}}\n" for line in lines) if lines else top + "parts: []\n"
    return Fit(read_build(text.encode(), shipped_catalogue(), "list.yaml"))


def roles(fit: Fit, at: str) -> dict[str, str]:
    return {role: part.id for role, part in fit.places[at].items()}


def plates(fit: Fit, at: str) -> list[str]:
    return [plate.id for plate in fit.plates[at]]


def fault_of(*lines: str, top: str = "") -> Fault:
    with pytest.raises(Faults) as caught:
        fit_of(*lines, top=top)
    (fault,) = caught.value.faults
    return fault


HUB = "id: hub, kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, qty: 2"
WHEEL = "id: wheel, kind: wheel, bolt_circle: 5 x 4.5 in, qty: 2"
ADAPTER = (
    "id: plate, kind: adapter, hub_circle: 5 x 4.5 in, wheel_circle: 5 x 5.5 in, stud_thread: M14x1.5, qty: 2"
)

# ---- counting axles ------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("lines", "axles"),
    [
        ([], 1),
        (["kind: other, what: rope, qty: 4"], 1),
        (["kind: hub"], 1),
        (["kind: hub, qty: 2"], 1),
        (["kind: hub, qty: 4"], 2),
        (["kind: hub, packs: 2, pack: 2"], 2),
        (["kind: axle, qty: 2", "kind: hub, qty: 2"], 2),
        (["kind: suspension-arm, hand: left, qty: 2", "kind: suspension-arm, hand: right, qty: 2"], 2),
        (["kind: wheel, qty: 3"], 1),
        (["kind: wheel, qty: 5"], 2),
        (["kind: wheel, qty: 4, id: a", "kind: wheel, qty: 2, id: b, at: spare"], 2),
        (["kind: wheel, qty: 2, id: a", "kind: wheel, qty: 2, id: b, at: spare"], 1),
        (["kind: tire, qty: 4"], 2),
        (["kind: hub, at: [3L, 3R]"], 3),
    ],
)
def test_axles_are_counted(lines: list[str], axles: int) -> None:
    assert fit_of(*lines).axles == axles


def test_typed_axles_win() -> None:
    assert fit_of("kind: hub, qty: 4", top="layout: {axles: 3}\n").positions == [
        "1L", "1R", "2L", "2R", "3L", "3R",
    ]  # fmt: skip


def test_a_place_that_the_trailer_does_not_have() -> None:
    fault = fault_of("kind: hub, at: [2L], qty: 1", top="layout: {axles: 1}\n")
    assert fault.read == "2L"
    assert "1L, 1R or spare" in fault.expected


# ---- places --------------------------------------------------------------------------------


def test_an_empty_list() -> None:
    fit = fit_of()
    assert fit.ends == []
    assert fit.spare is None


def test_one_line_serves_every_place() -> None:
    fit = fit_of(HUB, WHEEL)
    assert [end.at for end in fit.ends] == [("1L", "1R")]
    assert roles(fit, "1R") == {"hub": "hub", "wheel": "wheel"}


def test_two_axles_with_hubs_of_their_own() -> None:
    fit = fit_of(
        "id: front, kind: hub, at: [1L, 1R], qty: 2", "id: rear, kind: hub, at: [2L, 2R], qty: 2",
        "id: wheel, kind: wheel, qty: 4",
    )  # fmt: skip
    assert [(end.at, end.hub.id) for end in fit.ends] == [(("1L", "1R"), "front"), (("2L", "2R"), "rear")]


def test_named_places_first_and_the_open_line_takes_the_rest() -> None:
    fit = fit_of("id: b, kind: wheel, qty: 3", "id: a, kind: wheel, at: 1L, qty: 1", "kind: hub, qty: 4")
    assert {at: roles(fit, at)["wheel"] for at in fit.positions} == {
        "1L": "a",
        "1R": "b",
        "2L": "b",
        "2R": "b",
    }


def test_arms_by_hand() -> None:
    fit = fit_of("id: l, kind: suspension-arm, hand: left, qty: 1",
                 "id: r, kind: suspension-arm, hand: right, qty: 1", HUB)  # fmt: skip
    assert (roles(fit, "1L")["suspension-arm"], roles(fit, "1R")["suspension-arm"]) == ("l", "r")
    assert len(fit.ends) == 2


def test_two_lines_of_one_hand_are_put_on_both_sides_for_the_rules_to_tell() -> None:
    fit = fit_of("id: a, kind: brake, hand: left, qty: 1", "id: b, kind: brake, hand: left, qty: 1", HUB)
    assert (roles(fit, "1L")["brake"], roles(fit, "1R")["brake"]) == ("a", "b")


def test_mounts_on_takes_the_places_of_what_it_names() -> None:
    fit = fit_of(
        "id: front, kind: hub, at: [1L, 1R]", "id: rear, kind: hub, at: [2L, 2R]",
        "id: small, kind: wheel, mounts_on: rear", "id: big, kind: wheel, mounts_on: front",
        "id: tall, kind: tire, mounts_on: big", "id: low, kind: tire, mounts_on: small",
    )  # fmt: skip
    assert roles(fit, "1R") == {"hub": "front", "wheel": "big", "tire": "tall"}
    assert roles(fit, "2L") == {"hub": "rear", "wheel": "small", "tire": "low"}


# ---- the spare -----------------------------------------------------------------------------


@pytest.mark.parametrize(("qty", "hubs"), [(3, 2), (5, 4)])
def test_one_wheel_too_many_is_the_spare(qty: int, hubs: int) -> None:
    fit = fit_of(
        f"kind: hub, qty: {hubs}", f"id: w, kind: wheel, qty: {qty}", f"id: t, kind: tire, qty: {qty}"
    )
    assert fit.spare is not None
    assert (fit.spare.wheel.id, fit.spare.tire.id, fit.spare.is_spare) == ("w", "t", True)
    assert any("taken as the spare" in told for told in fit.told)
    assert [mounted.at for mounted in fit.bindings(MountedTire)][-1] == ("spare",)


@pytest.mark.parametrize("qty", [2, 4])
def test_no_spare_when_the_count_is_not_one_more(qty: int) -> None:
    assert fit_of("kind: hub, qty: 2", f"kind: wheel, qty: {qty}").spare is None


def test_a_wheel_at_the_spare_place() -> None:
    fit = fit_of(HUB, WHEEL, "id: s, kind: wheel, qty: 1, at: spare", "id: st, kind: tire, mounts_on: s",
                 "id: t, kind: tire, qty: 2")  # fmt: skip
    assert fit.spare is not None
    assert (fit.spare.wheel.id, fit.spare.tire.id) == ("s", "st")
    assert roles(fit, "1L")["tire"] == "t"
    assert fit.told == []


def test_a_single_wheel_line_beside_a_full_one_is_the_spare_and_said() -> None:
    fit = fit_of(HUB, "id: s, kind: wheel, qty: 1", WHEEL)
    assert fit.spare is not None
    assert fit.spare.wheel.id == "s"
    assert any("'s' is taken as the spare" in told for told in fit.told)


# ---- plates --------------------------------------------------------------------------------

SPACER = "id: disc, kind: spacer, bolt_circle: 5 x 5.5 in, qty: 2"


@pytest.mark.parametrize("turned", [False, True])
def test_bolt_circles_tell_the_order_of_plates(turned: bool) -> None:
    lines = [ADAPTER, SPACER]
    fit = fit_of(HUB, *(reversed(lines) if turned else lines), "kind: wheel, qty: 2")
    assert plates(fit, "1L") == ["plate", "disc"]


@pytest.mark.parametrize("turned", [False, True])
def test_mounts_on_tells_the_order_of_plates(turned: bool) -> None:
    lines = ["id: a, kind: spacer, mounts_on: b", "id: b, kind: spacer, mounts_on: hub"]
    fit = fit_of(HUB, *(reversed(lines) if turned else lines), WHEEL)
    assert plates(fit, "1R") == ["b", "a"]
    chain = [(seat.inner.id, seat.outer.id) for seat in fit.bindings(Seat)]
    assert chain == [("hub", "b"), ("b", "a"), ("a", "wheel")]


def test_a_plate_on_one_axle_only() -> None:
    fit = fit_of("kind: hub, qty: 4", "id: a, kind: adapter, at: [2L, 2R]", "kind: wheel, qty: 4")
    assert (plates(fit, "1L"), plates(fit, "2L")) == ([], ["a"])


def test_many_plates_are_refused_and_not_tried_in_every_order() -> None:
    fault = fault_of(HUB, *(f"id: p{n}, kind: spacer" for n in range(12)))
    assert "at most 5 adapters and spacers" in fault.expected


# ---- nuts and bolts ------------------------------------------------------------------------


@pytest.mark.parametrize("turned", [False, True])
def test_nuts_go_where_their_thread_fits(turned: bool) -> None:
    nuts = ["id: thick, kind: lug-nut, thread: M14x1.5", "id: thin, kind: lug-nut, thread: 1/2-20"]
    fit = fit_of(HUB, ADAPTER, *(reversed(nuts) if turned else nuts), WHEEL)
    assert (roles(fit, "1L")["hub-nut"], roles(fit, "1L")["lug-nut"]) == ("thin", "thick")
    sets = [(one.base.id, one.held.id, one.fastener.id) for one in fit.bindings(LugSet)]
    assert sets == [("hub", "plate", "thin"), ("plate", "wheel", "thick")]


@pytest.mark.parametrize("turned", [False, True])
def test_of_two_nuts_alike_the_seat_tells(turned: bool) -> None:
    nuts = [
        "id: cone, kind: lug-nut, thread: 1/2-20, seat: conical",
        "id: flat, kind: lug-nut, thread: 1/2-20, seat: flat",
    ]
    plate = "id: plate, kind: adapter, nut_seat: flat, stud_thread: 1/2-20"
    wheel = "id: wheel, kind: wheel, nut_seat: conical"
    fit = fit_of(HUB, plate, *(reversed(nuts) if turned else nuts), wheel)
    assert (roles(fit, "1L")["hub-nut"], roles(fit, "1L")["lug-nut"]) == ("flat", "cone")


def test_one_line_of_nuts_serves_both_faces_when_its_thread_fits_both() -> None:
    fit = fit_of(HUB, ADAPTER.replace("M14x1.5", "1/2-20"), "id: nut, kind: lug-nut, thread: 1/2-20", WHEEL)
    assert (roles(fit, "1L")["hub-nut"], roles(fit, "1L")["lug-nut"]) == ("nut", "nut")


def test_one_line_of_nuts_that_fits_the_hub_alone_leaves_the_other_face_without() -> None:
    fit = fit_of(HUB, ADAPTER, "id: nut, kind: lug-nut, thread: 1/2-20", WHEEL)
    assert roles(fit, "1L")["hub-nut"] == "nut"
    assert "lug-nut" not in roles(fit, "1L")


def test_the_only_line_of_nuts_is_no_fault_when_no_thread_is_known() -> None:
    fit = fit_of("kind: hub", "kind: adapter", "id: nut, kind: lug-nut", "kind: wheel")
    assert (roles(fit, "1L")["hub-nut"], roles(fit, "1L")["lug-nut"]) == ("nut", "nut")


def test_wheel_bolts_go_into_a_threaded_hub_and_nobody_asks_for_studs_or_nuts() -> None:
    text = (
        "parts:\n"
        "  - {id: hub, kind: hub, bolt_circle: 4 x 100 mm, hole_thread: M12x1.5, hole_depth: 25 mm, qty: 2}\n"
        "  - {id: wheel, kind: wheel, size: 4.5J x 13, bolt_circle: 4 x 100 mm, nut_seat: conical,"
        " seat_thickness: 12 mm, qty: 2}\n"
        "  - {id: bolt, kind: wheel-bolt, thread: M12x1.5, length: 25 mm, seat: conical, qty: 8}\n"
    )
    result = check_build(read_build(text.encode(), shipped_catalogue()))
    (lugs,) = result.fit.bindings(LugSet)
    assert (lugs.bolted, lugs.stud, lugs.fastener.id) == (True, None, "bolt")
    asked = {missing.name for finding in result.findings for missing in finding.missing}
    assert not {name for name in asked if "stud" in name or "nut." in name}, asked
    words = " ".join(finding.message("metric").lower() for finding in result.findings)
    assert "lug nut" not in words
    assert "stud" not in words


def test_of_two_lines_of_wheel_bolts_the_thread_tells() -> None:
    fit = fit_of("kind: hub, hole_thread: M12x1.5", "id: a, kind: wheel-bolt, thread: M14x1.5",
                 "id: b, kind: wheel-bolt, thread: M12x1.5", WHEEL)  # fmt: skip
    assert roles(fit, "1L")["wheel-bolt"] == "b"


def test_wheel_bolts_hold_the_adapter_on_a_threaded_hub_and_nuts_the_wheel() -> None:
    hub, bolts = "id: hub, kind: hub, hole_thread: M12x1.5", "id: b, kind: wheel-bolt, thread: M12x1.5"
    nuts = "id: n, kind: lug-nut, thread: M14x1.5"
    for line in (bolts, bolts + ", mounts_on: hub"):
        for lines in ([line, nuts], [nuts, line]):
            found = roles(fit_of(hub, ADAPTER, *lines, WHEEL), "1L")
            assert (found["hub-bolt"], found["lug-nut"]) == ("b", "n")
            assert not found.keys() & {"hub-nut", "wheel-bolt"}


def test_wheel_bolts_in_hub_and_adapter_each_go_where_they_are_told() -> None:
    found = roles(fit_of(
        "id: hub, kind: hub, hole_thread: M12x1.5", "id: plate, kind: adapter",
        "id: a, kind: wheel-bolt, thread: M12x1.5, mounts_on: hub",
        "id: b, kind: wheel-bolt, thread: M14x1.5, mounts_on: plate", WHEEL,
    ), "1L")  # fmt: skip
    assert (found["hub-bolt"], found["wheel-bolt"]) == ("a", "b")


# ---- bearings ------------------------------------------------------------------------------


def test_bearings_go_by_their_place() -> None:
    fit = fit_of(HUB, "id: i, kind: bearing, place: inner", "id: o, kind: bearing, place: outer")
    assert (roles(fit, "1L")["inner-bearing"], roles(fit, "1L")["outer-bearing"]) == ("i", "o")


def test_one_bearing_for_both_places() -> None:
    fit = fit_of(HUB, "id: b, kind: bearing")
    assert (roles(fit, "1L")["inner-bearing"], roles(fit, "1L")["outer-bearing"]) == ("b", "b")


def test_a_bearing_without_a_place_takes_the_one_that_is_left() -> None:
    fit = fit_of(HUB, "id: b, kind: bearing", "id: i, kind: bearing, place: inner")
    assert (roles(fit, "1L")["inner-bearing"], roles(fit, "1L")["outer-bearing"]) == ("i", "b")


def test_cones_and_cups_apart() -> None:
    fit = fit_of(HUB, "id: cone, kind: bearing, place: inner, includes: cone",
                 "id: cup, kind: bearing, place: inner, includes: cup")  # fmt: skip
    assert (roles(fit, "1L")["inner-cone"], roles(fit, "1L")["inner-cup"]) == ("cone", "cup")


# ---- what cannot be told: the fault shows the candidates, and following it resolves it --------------

# name: lines, pieces of the fault, the lines as the hint says
UNCLEAR = {
    "two wheels": (
        [HUB, "id: a, kind: wheel, qty: 2", "id: b, kind: wheel, qty: 2"],
        ["'a' (line 3) and 'b' (line 4)", "1L, 1R", "`at: [1L, 1R]`"],
        [HUB, "id: a, kind: wheel, qty: 2, at: [1L, 1R]", "id: b, kind: wheel, qty: 2"],
    ),
    "hubs of two axles": (
        ["id: a, kind: hub, qty: 2", "id: b, kind: hub, qty: 2"],
        ["`at: [1L, 1R]` to 'a' and `at: [2L, 2R]` to 'b'"],
        ["id: a, kind: hub, qty: 2, at: [1L, 1R]", "id: b, kind: hub, qty: 2, at: [2L, 2R]"],
    ),
    "two lines at one place": (
        ["id: a, kind: hub, at: [1L, 1R]", "id: b, kind: hub, at: 1L"],
        ["'a' (line 2) and 'b' (line 3)", "each place: 1L;"],
        ["id: a, kind: hub, at: [1R]", "id: b, kind: hub, at: 1L"],
    ),
    "two plates": (
        [HUB, "id: a, kind: spacer", "id: b, kind: spacer"],
        ["'a' and 'b'", "`mounts_on: hub`", "`mounts_on: a`"],
        [HUB, "id: a, kind: spacer, mounts_on: hub", "id: b, kind: spacer, mounts_on: a"],
    ),
    "two plates without a hub": (
        ["id: a, kind: spacer", "id: b, kind: spacer", WHEEL],
        ["'a' and 'b'", "`mounts_on: a`"],
        ["id: a, kind: spacer", "id: b, kind: spacer, mounts_on: a", WHEEL],
    ),
    "two sets of nuts": (
        [HUB, "id: a, kind: lug-nut, thread: 1/2-20", "id: b, kind: lug-nut, thread: 1/2-20", WHEEL],
        ["'a' (line 3) and 'b' (line 4)", "`mounts_on: <id>`"],
        [HUB, "id: a, kind: lug-nut, thread: 1/2-20, mounts_on: hub", "id: b, kind: lug-nut, thread: 1/2-20",
         WHEEL],
    ),
    "two sets of nuts on two faces": (
        [HUB, "id: p, kind: adapter, stud_thread: 1/2-20", "id: a, kind: lug-nut, thread: 1/2-20",
         "id: b, kind: lug-nut, thread: 1/2-20", WHEEL],
        ["'a' (line 4) and 'b' (line 5)", "`mounts_on: <id>`", "hub or adapter"],
        [HUB, "id: p, kind: adapter, stud_thread: 1/2-20",
         "id: a, kind: lug-nut, thread: 1/2-20, mounts_on: p",
         "id: b, kind: lug-nut, thread: 1/2-20, mounts_on: hub", WHEEL],
    ),
    "two sets of wheel bolts": (
        ["id: hub, kind: hub", "id: a, kind: wheel-bolt", "id: b, kind: wheel-bolt", WHEEL],
        ["'a' (line 3) and 'b' (line 4)", "`mounts_on: <id>`"],
        ["id: hub, kind: hub", "id: a, kind: wheel-bolt, mounts_on: hub", "id: b, kind: wheel-bolt", WHEEL],
    ),
    "two bearings": (
        [HUB, "id: a, kind: bearing", "id: b, kind: bearing"],
        ["'a' (line 3) and 'b' (line 4)", "`place: inner`"],
        [HUB, "id: a, kind: bearing, place: inner", "id: b, kind: bearing, place: outer"],
    ),
    "three tires": (
        [HUB, "id: a, kind: tire", "id: b, kind: tire", "id: c, kind: tire"],
        ["'a' (line 3), 'b' (line 4) and 'c' (line 5)", "each place: 1L, 1R"],
        [HUB, "id: a, kind: tire, at: [1L, 1R]", "id: b, kind: tire, at: spare", "id: c, kind: tire"],
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", list(UNCLEAR))
def test_what_cannot_be_told_is_asked_for(name: str) -> None:
    lines, pieces, _ = UNCLEAR[name]
    with pytest.raises(Faults) as caught:
        fit_of(*lines)
    text = str(caught.value)
    for piece in pieces:
        assert piece in text


@pytest.mark.parametrize("name", list(UNCLEAR))
def test_following_the_hint_resolves_it(name: str) -> None:
    fit_of(*UNCLEAR[name][2])


def test_one_fault_for_a_pair_of_lines_not_one_for_each_place() -> None:
    nuts = [f"id: {id}, kind: lug-nut, thread: 1/2-20" for id in "ab"]
    fault_of("kind: hub, qty: 4", *nuts, "kind: wheel, qty: 4")
