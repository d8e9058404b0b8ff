"""What plans say, and what they keep to: read as somebody does who stands at the bench with the sheet."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from partscheck.report.fix_json import fix_data
from partscheck.report.fix_text import fix_text
from partscheck.uses.fix import Fix, fix
from partscheck.uses.fix.edits import BUY, FIND, SHOP

ROOT = Path(__file__).resolve().parents[2]
CATALOG = [str(ROOT / "examples/catalog")]


def fixed(text: str, **more: Any) -> Fix:
    return fix(text.encode("utf-8"), file="list.yaml", **more)


def doings(found: Fix, *sorts: str) -> list[str]:
    return [step.option.do for plan in found.plans for step in plan.steps if step.option.sort in sorts]


def entries(found: Fix) -> list[str]:
    return [step.option.entry for plan in found.plans for step in plan.steps if step.option.entry]


@pytest.fixture(scope="module")
def demo() -> Fix:
    return fix(str(ROOT / "examples/apiary-first.yaml"), catalogs=CATALOG)


# ---- who clears what -----------------------------------------------------------------------------


def test_a_stop_is_credited_to_one_step_only(demo: Fix) -> None:
    """Tires and a moved axle would each clear tires-below-axle: the second says so."""
    first = demo.plans[0]
    credited = [step for step in first.steps if "tires-below-axle" in step.clears]
    assert [step.option.slot for step in credited] == ["tire"]
    spared = [step for step in first.steps if "tires-below-axle" in step.spares]
    assert [step.option.slot for step in spared] == ["layout"]
    text = " ".join(fix_text(demo, "inch").split())
    assert "by itself it would clear tires-below-axle, which another step clears already" in text
    for plan in demo.plans:
        for step in plan.steps:
            assert step.clears or step.needed_for, step.option
            assert not {*step.clears} & {*step.spares}


def test_spared_stops_are_in_the_json(demo: Fix) -> None:
    steps = fix_data(demo, "inch")["plans"][0]["steps"]
    assert [step["spares"] for step in steps if step["of"] == "layout"] == [["tires-below-axle"]]


def test_a_step_is_told_in_the_order_of_its_number(demo: Fix) -> None:
    text = " ".join(fix_text(demo, "inch").split())
    places = [text.index(f" {number}. ") for number in range(1, len(demo.plans[0].steps) + 1)]
    assert places == sorted(places)


def test_what_cannot_be_told_any_more_is_not_cleared() -> None:
    """Nuts of another seat leave open whether enough of the stud is left: no step is there for nothing."""
    found = fixed(
        "parts:\n"
        "  - {kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, stud_length: 31.65 mm}\n"
        "  - {kind: adapter, hub_circle: 5 x 4.5 in, thickness: 1.5 in, nut_seat_thickness: 19.05 mm}\n"
    )
    for plan in found.plans:
        assert all(step.clears or step.needed_for for step in plan.steps)


# ---- the order of plans --------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("by", "words"),
    [("changes", "however few their changes"), ("cost", "however little they cost"),
     ("margin", "however much room they leave")],
)  # fmt: skip
def test_what_comes_last_whatever_the_order_is_told(by: str, words: str) -> None:
    found = fix(str(ROOT / "examples/four-line-cart.yaml"), by=by, plans=3)
    assert doings(found, FIND)
    text = " ".join(fix_text(found, "inch").split())
    assert "Plans with a part to look for" in text
    assert f"come last, {words}." in text


def test_nothing_is_told_of_what_no_plan_has() -> None:
    found = fix(str(ROOT / "examples/four-line-cart.yaml"), plans=1)
    assert "come last" not in fix_text(found, "inch")


def test_stops_that_stay_are_counted_as_stops() -> None:
    found = fixed(
        "service: {gross_weight: 2906 lb, tongue_weight: 0 lb, country: US}\n"
        "parts:\n"
        "  - {kind: tire, size: P205/75R15, max_load: 1598 lb, qty: 2}\n",
        plans=1,
    )
    assert len(found.stops) == 2
    assert len(found.plans[0].clears) == 2  # the one that follows from the first is none of the two
    assert "2 stops; 1 change clears all but 1." in fix_text(found, "inch")


# ---- what an article has to keep -----------------------------------------------------------------


def test_a_bolt_keeps_its_length_where_only_its_grade_is_asked() -> None:
    """With no stack on the list no rule can say that a short bolt is too short."""
    found = fixed(
        "service: {surface: gravel}\n"
        "parts:\n"
        "  - {id: b, kind: bolt, size: 3/8-16 x 1-1/2 in, grade: 5, thread_length: full}\n"
        "bolted_joints:\n"
        "  - {id: hook, bolt: b, bolts: 1, load: {shear: 1100 lb, tension: 1800 lb}}\n",
        plans=4,
    )
    bought = [one for one in entries(found) if one.startswith("bolt-")]
    assert bought
    assert all(one.startswith("bolt-3/8-16x1-1/2-") for one in bought)


@pytest.mark.parametrize("size", ["P205/75R15", "ST205/75R14"])
def test_a_tire_keeps_its_rim_where_no_wheel_is_on_the_list(size: str) -> None:
    found = fixed(
        "service: {gross_weight: 4400 lb, tongue_weight: 440 lb}\n"
        f"parts: [{{id: tire, kind: tire, size: {size}, max_load: 1300 lb, qty: 2}}]\n",
        plans=4,
    )
    assert found.stops
    assert all(one.rpartition("R")[2].startswith(size[-2:]) for one in entries(found))


def test_no_tire_is_bought_for_one_whose_size_nobody_typed() -> None:
    found = fixed("as_of: 2025-09\nparts: [{kind: tire, dot_week: 3515}]\n", plans=4)
    assert found.stops
    assert entries(found) == []


def test_no_nuts_are_bought_for_studs_of_a_thread_that_nobody_measured() -> None:
    found = fixed(
        "parts:\n"
        "  - {kind: hub, bolt_circle: 5 x 4.5 in}\n"
        "  - {kind: wheel, bolt_circle: 5 x 4.5 in, nut_seat: conical, seat_angle: 60 deg}\n",
        plans=3,
    )
    assert entries(found) == []
    assert doings(found, FIND)[0] == (
        "Find 10 x lug nut (seat conical, seat angle 60 deg, mounts on hub, "
        "its thread is not known yet: measure it first)"
    )


def test_the_other_hand_is_to_be_found_where_the_catalogue_has_none() -> None:
    found = fixed("parts: [{kind: brake, type: electric, hand: left, drum_diameter: 10 in, qty: 2}]\n", plans=1)
    assert doings(found, FIND) == [
        "Keep 1 of brake, and find 1 x brake, right hand, type electric, drum diameter 10 in"
    ]
    assert found.plans[0].difference.unpriced == ["brake-right"]


# ---- what to ask for at the counter --------------------------------------------------------------


def test_a_longer_bolt_is_asked_for_with_its_thread() -> None:
    found = fixed(
        "parts:\n"
        "  - {id: b, kind: bolt, size: 5/8-11 x 20 in, grade: grade 5}\n"
        "  - {id: n, kind: nut, thread: 5/8-11, grade: 5, height: 35/64 in, locking: none}\n"
        "bolted_joints:\n"
        "  - {id: bracket, bolt: b, nut: n, stack: [{thickness: 19.50 in}]}\n",
        plans=6,
    )
    wanted = [do for do in doings(found, FIND) if "bolt" in do]
    [words] = wanted  # Shigley's example 8-4 with 18 in more of stack: 2.229 in and 18 in
    assert words.startswith("Find: bolt 5/8-11, grade 5, 20.2")
    assert words.endswith(" or longer")


def test_a_wheel_of_another_rim_is_asked_for_by_its_rim() -> None:
    found = fixed("parts:\n  - {kind: wheel, size: 16.5 x 6.75 in}\n  - {kind: tire, size: ST235/80R16}\n")
    told = [words for one in found.lacking for words in one.parts] + doings(found, FIND)
    assert any("for tires of 16 in" in words for words in told)
    assert not any("16.5 in tires" in words for words in told)


def test_a_flat_seat_is_asked_for_without_an_angle() -> None:
    found = fixed(
        "parts:\n"
        "  - {kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20}\n"
        "  - {kind: adapter, hub_circle: 5 x 4.5 in, wheel_circle: 5 x 5.5 in, nut_seat: flat}\n"
        "  - {part: cone-nut-1/2-20}\n",
        plans=1,
    )
    assert doings(found, FIND) == ["Find: lug nut 1/2-20, flat seat"]


def test_a_d_value_is_asked_for_in_kilonewtons() -> None:
    """9.81 x 1500 x 2000 / (1500 + 2000) N = 8.41 kN (the trade's formula for drawbars)."""
    found = fixed(
        "service: {gross_weight: 1500 kg}\n"
        "tow_vehicle: {weight: 2000 kg}\n"
        "parts: [{kind: coupler, d_value: 8.4 kN}]\n",
        plans=1,
    )
    assert doings(found, FIND) == ["Find: coupler D-value 8.41 kN or more"]


def test_of_a_part_that_nothing_can_be_said_of_nothing_is_said() -> None:
    """The nut is taller than the plate and where its seat lies is not known: no thickness is known to do."""
    found = fixed(
        "parts:\n"
        "  - {kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20}\n"
        "  - {kind: adapter, hub_circle: 5 x 4.5 in, thickness: 3/4 in}\n"
        "  - {kind: lug-nut, thread: 1/2-20, height: 1.38 in, mounts_on: hub}\n"
    )
    assert all("adapter" not in words for one in found.lacking for words in one.parts)


# ---- work in the shop ----------------------------------------------------------------------------

TAPPED = """\
parts:
  - {id: b, kind: bolt, size: 1/2-13 x 1-1/4 in, grade: 8, finish: zinc, qty: 4}
bolted_joints:
  - id: bracket
    bolt: b
    bolts: 4
    torque: 106 ft-lb
    tapped: {thread: 1/2-13, depth: 3/8 in, material: A36}
    stack: [{name: plate, thickness: 1/2 in, hole: 0.499 in}]
"""


def test_a_hole_is_written_as_it_is_told() -> None:
    first = fixed(TAPPED, plans=1).plans[0]
    drilled = [edit for step in first.steps for edit in step.option.edits if getattr(edit, "key", "") == "hole"]
    assert [edit.text for edit in drilled] == ["9/16 in"]  # type: ignore[union-attr]
    assert any("drill the plate to 9/16 in" in do.lower() for do in [step.option.do for step in first.steps])


def test_the_torque_at_which_a_thread_strips_is_no_plan() -> None:
    assert not any("strips" in do for do in doings(fixed(TAPPED, plans=6), SHOP, BUY))


def test_it_is_said_what_is_bored() -> None:
    found = fixed(
        "parts:\n"
        "  - {kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, pilot: 3.19 in}\n"
        "  - {kind: wheel, bolt_circle: 5 x 4.5 in, center_bore: 66.6 mm}\n"
        "  - {kind: lug-nut, thread: 1/2-20, qty: 10}\n",
        plans=1,
    )
    assert "wheel: have a machine shop bore it to 3.20 in" in fix_text(found, "inch")


def test_another_tow_vehicle_is_looked_for_and_not_made() -> None:
    found = fixed(
        "service: {gross_weight: 2600 lb}\ntow_vehicle: {tow_rating: 2500 lb}\n"
        "parts: [{kind: brake, type: hydraulic, hand: pair, qty: 2}]\n",
        plans=4,
    )
    towing = [step for plan in found.plans for step in plan.steps if "Tow with a vehicle" in step.option.do]
    assert towing
    assert {step.option.sort for step in towing} == {FIND}
    assert all(not step.option.hazard for step in towing)


def test_a_load_may_be_moved_instead_of_the_axle() -> None:
    found = fixed(
        "layout: {coupler_to_axle: 120 in, coupler_to_front: 40 in}\n"
        "loads:\n"
        "  - {what: frame, weight: 640 lb, from_coupler: 100 in}\n"
        "  - {what: running gear, weight: 350 lb, from_coupler: 120 in, moves_with_axle: true}\n"
        "  - {what: cargo, weight: 1500 lb, from_coupler: 122 in}\n"
        "parts: []\n",
        plans=2,
    )
    assert [plan.steps[0].option.slot for plan in found.plans] == ["layout", "cargo"]


def test_nothing_begins_with_or(demo: Fix) -> None:
    for plan in demo.plans:
        assert not any(step.option.do.startswith(("Or", ", ")) for step in plan.steps)


# ---- the time ------------------------------------------------------------------------------------


def test_when_checking_takes_all_the_time_nothing_is_searched(monkeypatch: pytest.MonkeyPatch) -> None:
    from partscheck.uses.fix import planner

    def never(self: Any, *given: Any) -> None:
        raise AssertionError("the search began")

    monkeypatch.setattr(planner.Planner, "__init__", never)
    found = fix(str(ROOT / "examples/four-line-cart.yaml"), seconds=1e-9)
    assert found.late
    assert found.plans == []
    assert fix_text(found, "inch").startswith("NO PLAN YET")


def test_a_bolt_that_fills_the_hole_comes_with_its_nut() -> None:
    """The hole of 0.626 in suits 9/16 in (ASME B18.2.8: 0.5938 close, 0.6562 loose)."""
    found = fixed(
        "parts:\n"
        "  - {id: b, kind: bolt, size: 1/2-13 x 2-1/2 in, grade: 5, qty: 1}\n"
        "  - {id: n, kind: nut, thread: 1/2-13, grade: 5, qty: 1}\n"
        "bolted_joints:\n"
        "  - {id: bracket, bolt: b, nut: n, stack: [{name: plate, thickness: 1 in, hole: 0.626 in}]}\n",
        plans=1,
    )
    assert found.clears_all
    bought = entries(found)
    assert [one.partition("x")[0] for one in bought] == ["bolt-9/16-12", "nut-9/16-12-grade-5"]


def test_no_metric_bolt_of_an_inch_grade_is_asked_for() -> None:
    found = fixed(
        "parts:\n"
        "  - {id: b, kind: bolt, size: 1/2-13 x 2-1/2 in, grade: 5}\n"
        "  - {id: n, kind: nut, thread: M12}\n"
        "bolted_joints: [{id: bracket, bolt: b, nut: n}]\n",
        plans=4,
    )
    assert entries(found)[0] == "nut-1/2-13-grade-5"
    assert not any("M12" in do for do in doings(found, FIND))


def test_what_the_catalogue_sells_is_not_to_be_looked_for() -> None:
    found = fixed(
        "service: {surface: gravel}\n"
        "parts:\n"
        "  - {id: b, kind: bolt, size: 3/8-16 x 1-1/2 in, grade: 5, thread_length: full}\n"
        "bolted_joints:\n"
        "  - {id: hook, bolt: b, bolts: 1, load: {shear: 1100 lb, tension: 1800 lb}}\n",
        plans=6,
    )
    assert "bolt-3/8-16x1-1/2-grade-8" in entries(found)
    assert not any("grade 8" in do for do in doings(found, FIND))


def test_more_of_what_has_no_price_is_told() -> None:
    text = (
        "parts:\n"
        "  - {kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, qty: 2}\n"
        "  - {kind: wheel, bolt_circle: 5 x 4.5 in, qty: 2}\n"
        "  - {id: nuts, kind: lug-nut, thread: 1/2-20, qty: 9PRICE}\n"
    )
    plan = fixed(text.replace("PRICE", ""), plans=1).plans[0]
    assert plan.difference.unpriced == ["nuts"]
    plan = fixed(text.replace("PRICE", ", price: 1.50"), plans=1).plans[0]
    assert (plan.difference.unpriced, plan.difference.money) == ([], {"": 150})
