"""Faults that meet on one line, or on two lines that meet: what one change needs of the other."""

from __future__ import annotations

from pathlib import Path
from textwrap import dedent
from typing import Any

import pytest

import partscheck
from partscheck.uses.fix import Fix, Plan, fix
from partscheck.uses.fix.write_list import written_list

ROOT = Path(__file__).resolve().parents[2]


def fixed(text: str, **more: Any) -> Fix:
    return fix(dedent(text).encode("utf-8"), file="list.yaml", **more)


def slugs_after(found: Fix, text: str, number: int = 0, catalogs: Any = ()) -> set[str]:
    """Stops of the written list, checked anew."""
    written = written_list(dedent(text), found.plans[number])
    result = partscheck.check(written.encode("utf-8"), catalogs, "list.yaml")
    return {one.rule.slug for one in result.findings if one.verdict == "stop"}


def words_of(plan: Plan) -> str:
    return "; ".join(step.option.do for step in plan.steps)


# ---- an article that several stops ask for ---------------------------------------------------------

THIN_PLATES = """\
    service: {gross_weight: 2000 lb}
    layout: {axles: 1}
    parts:
      - {id: hub, kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, stud_length: 1.5 in, qty: 2}
      - {id: plate, kind: adapter, hub_circle: 5 x 4.5 in, wheel_circle: 5 x 5.5 in, thickness: 0.9 in,
         nut_seat: conical, nut_seat_thickness: 0.5 in, hub_nut_thread: 1/2-20, stud_thread: 1/2-20,
         stud_length: 1.5 in, rating: 1250 lb, qty: 2}
      - {id: hub-nuts, kind: lug-nut, mounts_on: hub, thread: 1/2-20, seat: conical, seat_angle: 60 deg,
         depth: 0.6 in, height: 0.7 in, closed: false, qty: 10}
      - {id: wheel, kind: wheel, size: 15 x 7 in, bolt_circle: 5 x 5.5 in, nut_seat: conical,
         seat_angle: 60 deg, seat_thickness: 0.4 in, qty: 2}
      - {id: wheel-nuts, kind: lug-nut, mounts_on: plate, thread: 1/2-20, seat: conical, seat_angle: 60 deg,
         depth: 0.8 in, closed: false, qty: 10}
    """


def test_two_limits_of_one_field_are_one_limit_the_stricter() -> None:
    found = fixed(THIN_PLATES)
    assert {one.rule.slug for one in found.stops} == {"stud-above-adapter-face", "adapter-nut-above-face"}
    assert found.clears_all
    [step] = found.plans[0].steps
    assert step.option.do.count("or thicker") == 1, step.option.do
    plate: Any = found.plans[0].build.part("plate")
    assert plate.thickness.lo > 38.1, "the studs stand 1.5 in proud"
    assert slugs_after(found, THIN_PLATES) == set()


BALL = """\
    service: {gross_weight: 1700 lb}
    parts:
      - {id: coupler, kind: coupler, ball_diameter: 1-7/8 in, rating: 1500 lb, qty: 1}
      - {id: ball, kind: ball, diameter: 2 in, rating: 1000 lb, qty: 1}
    """


def test_of_two_parts_that_do_not_fit_each_other_one_follows_the_other() -> None:
    """Both are too weak: each is to be found stronger, and one of them in the other's size."""
    found = fixed(BALL, plans=1)
    assert found.clears_all
    assert not found.lacking
    assert len(found.plans[0].steps) == 2
    assert slugs_after(found, BALL) == set()


# ---- a pair of brakes that is too weak as well ----------------------------------------------------

BRAKES = """\
    service: {gross_weight: 1500 kg}
    layout: {axles: 1, coupler_to_axle: 2600 mm}
    loads: [{what: all of it, weight: 1500 kg, from_coupler: 2440 mm}]
    parts:
      - {id: brake, kind: brake, type: mechanical, hand: left, drum_diameter: 200 mm, shoe_width: 50 mm,
         flange: 4 x 76 mm, rating: 1350 kg, per: axle, qty: 2}
    """
STRONG = """\
title: invented
edition: invented
basis: {kind: practice, source: invented}
parts:
  - {id: strong-left, kind: brake, type: mechanical, hand: left, drum_diameter: 200 mm, shoe_width: 50 mm,
     flange: 4 x 76 mm, rating: 1500 kg, per: axle, price: 80.00}
  - {id: strong-right, kind: brake, type: mechanical, hand: right, drum_diameter: 200 mm, shoe_width: 50 mm,
     flange: 4 x 76 mm, rating: 1500 kg, per: axle, price: 80.00}
"""


def test_brakes_of_one_hand_and_too_weak_are_both_found() -> None:
    found = fixed(BRAKES, plans=1)
    assert {one.rule.slug for one in found.stops} == {"brake-pair", "brake-below-share"}
    assert found.clears_all
    said = words_of(found.plans[0])
    assert "left hand" in said
    assert "right hand" in said
    assert slugs_after(found, BRAKES) == set()


def test_brakes_of_one_hand_and_too_weak_are_both_bought(tmp_path: Path) -> None:
    (tmp_path / "strong.yaml").write_text(STRONG, encoding="utf-8")
    found = fixed(BRAKES, plans=1, catalogs=[str(tmp_path)])
    assert found.clears_all
    bought = {getattr(part.values.get("part"), "value", "") for part in found.plans[0].build.parts}
    assert bought == {"strong-left", "strong-right"}
    assert found.plans[0].difference.money == {"": 16000}
    assert slugs_after(found, BRAKES, catalogs=[str(tmp_path)]) == set()


def test_a_brake_of_the_wrong_hand_weighs_as_much_as_one_of_the_right_hand() -> None:
    text = """\
        parts:
          - {id: brake, kind: brake, type: electric, hand: left, drum_diameter: 10 in, shoe_width: 2-1/4 in,
             flange: 4 x 3 in, voltage: 12 V, weight: 9 lb, qty: 2}
        layout: {axles: 1}
        """
    found = fixed(text, plans=1, catalogs=[str(ROOT / "examples/catalog")])
    assert [step.option.entry for step in found.plans[0].steps] == ["trs-brake-right"]
    assert found.plans[0].difference.weight == pytest.approx(0.0, abs=1e-9)


def test_what_has_no_weight_is_told_where_the_rest_weighs_as_much() -> None:
    from partscheck.report.fix_text import fix_text

    found = fix(str(ROOT / "examples/apiary-first.yaml"), plans=1, catalogs=[str(ROOT / "examples/catalog")])
    said = " ".join(fix_text(found, "inch").split())
    assert "It weighs as much as before; not counted, for want of a weight: wheel, tire." in said


# ---- what is declared of an axle, and the axle ----------------------------------------------------

AXLE = """\
    service: {gross_weight: 1500 kg}
    layout: {axles: 1, coupler_to_axle: 2600 mm, gawr: 1300 kg}
    loads: [{what: all of it, weight: 1500 kg, from_coupler: 2440 mm}]
    parts:
      - {id: axle, kind: axle, rating: 1350 kg, qty: 1}
    """


def test_a_stronger_axle_is_declared_as_such() -> None:
    found = fixed(AXLE, plans=1)
    assert found.clears_all
    assert {step.option.slot for step in found.plans[0].steps} == {"axle", "layout"}
    assert slugs_after(found, AXLE) == set()


# ---- worse, but told more mildly ------------------------------------------------------------------

FAST = """\
    service: {top_speed: 130 km/h, gross_weight: 1500 kg}
    layout: {axles: 1, coupler_to_axle: 2600 mm}
    loads: [{what: all of it, weight: 1500 kg, from_coupler: 2440 mm}]
    parts:
      - {id: wheel, kind: wheel, size: 14 x 5.5 in, bolt_circle: 5 x 112 mm, qty: 2}
      - {id: tire, kind: tire, size: 185/65R14, service_description: 86L, qty: 2}
    """


def test_a_tire_good_for_less_speed_is_no_remedy_for_too_little_speed() -> None:
    """An ST tire without a symbol is good for 105 km/h: only a caution, but worse than the 120 km/h of an L."""
    found = fixed(FAST)
    assert {"tire-speed", "tires-below-axle"} <= {one.rule.slug for one in found.stops}
    for plan in found.plans:
        after = [one for one in plan.after.findings if one.rule.slug == "tire-speed" and one.verdict == "caution"]
        assert not after, words_of(plan)


def test_a_stop_that_becomes_a_caution_is_told() -> None:
    from partscheck.report.fix_text import fix_text

    found = fixed(HOLE.replace("M12 x 60 mm", "M12 x 25 mm"))
    plan = found.plans[0]
    assert "tapped-engagement" in [one.rule.slug for one in plan.clears]
    assert "tapped-engagement" in [one.rule.slug for one in plan.causes]
    text = " ".join(fix_text(found, "metric").split())
    assert "Now a caution: 'eye': the hole strips first" in text
    assert "Still there: 1 caution (washer-missing)" in text


def test_a_tire_to_be_found_for_more_load_has_another_load_index_and_the_same_speed() -> None:
    text = FAST.replace("130 km/h", "115 km/h").replace("185/65R14", "145/80R10").replace("14 x 5.5", "10 x 4.5")
    found = fixed(text, plans=6)
    told = [step.option.do for plan in found.plans for step in plan.steps if step.option.slot == "tire"]
    looked_for = [plan for plan in found.plans if "Find: tire" in words_of(plan)]
    assert looked_for, told
    for plan in looked_for:
        assert "speed symbol L" in words_of(plan)
        assert "tire-marking-inconsistent" not in [one.rule.slug for one in plan.causes]


# ---- a tapped hole --------------------------------------------------------------------------------

HOLE = """\
    parts:
      - {id: t, kind: bolt, size: M12 x 60 mm, grade: 10.9, qty: 2}
    bolted_joints:
      - id: eye
        bolt: t
        tapped: {thread: M12x1.75, depth: 8 mm, through: false, drill_depth: 40 mm, material: S235}
        bolts: 2
        stack: [{name: eye plate, thickness: 12 mm, hole: 13.5 mm, material: S235}]
        torque: 120 N m
    """


def test_a_hole_is_not_tapped_deeper_than_it_is_drilled() -> None:
    found = fixed(HOLE)
    assert found.clears_all
    for number, plan in enumerate(found.plans):
        tapped: Any = plan.build.joints[0].values["tapped"].value
        if tapped.has("drill_depth"):
            assert tapped.depth.hi <= tapped.drill_depth.lo, words_of(plan)
        assert slugs_after(found, HOLE, number) == set()
    assert len(found.plans[0].steps) == 1, words_of(found.plans[0])


def test_a_bolt_is_shortened_rather_than_a_hole_drilled_deeper() -> None:
    found = fixed(HOLE.replace("depth: 8 mm", "depth: 30 mm").replace("M12 x 60 mm", "M12 x 55 mm"))
    [step] = found.plans[0].steps
    assert step.option.slot == "t", step.option.do
    ways = [one.option.do for plan in found.plans for one in plan.steps]
    assert any(way.startswith("Drill and tap deeper") for way in ways), ways


# ---- what is no plan, and what a step is said to be for --------------------------------------------

PERCH = """\
    parts:
      - {id: bolt, kind: bolt, size: 1/2-13 x 4 in, grade: 5, qty: 4}
      - {id: nut, kind: nut, thread: M12x1.75, grade: 8, qty: 4}
    bolted_joints:
      - id: hanger
        bolt: bolt
        nut: nut
        bolts: 2
        places: 2
        stack:
          - {name: hanger, thickness: 1/4 in, hole: 3/4 in, edge: 5/8 in, material: A36}
          - {name: rail, thickness: 2 in, wall: 1/8 in, hole: 7/16 in, edge: 0.6 in, material: A36}
        load: {shear: 12 kN}
        torque: 150 N m
        vibration: true
    """


def test_many_times_the_bolts_are_no_plan() -> None:
    found = fixed(PERCH)
    assert found.plans
    for plan in found.plans:
        joint: Any = plan.build.joints[0]
        assert joint.bolts <= 4, words_of(plan)


def test_what_followed_from_a_stop_and_stays_is_told_with_those_that_stay() -> None:
    """Until the threads match, nobody asks whether the joint slips: it does, and no plan says otherwise."""
    from partscheck.report.fix_text import fix_text

    found = fixed(PERCH)
    assert "joint-slips" not in {one.rule.slug for one in found.stops}
    told = {one.rule.slug for one in found.plans[0].after.findings if one.verdict == "stop"}
    assert "joint-slips" in told
    assert told == {one.finding.rule.slug for one in found.lacking}
    said = " ".join(fix_text(found, "metric").split())
    assert "clear all but 1, and 1 that followed from another one stays." in said


def test_no_step_is_needed_for_what_is_left() -> None:
    found = fixed(PERCH)
    assert found.plans
    for plan in found.plans:
        left = {one.rule.slug for one in plan.leaves}
        assert left
        for step in plan.steps:
            assert not left & {*step.clears, *step.needed_for}, step.option.do


# ---- what the catalogue does not say of its article ------------------------------------------------

CLOSED = """\
    parts:
      - {id: hub, kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, stud_length: 2 in, qty: 2}
      - {id: wheel, kind: wheel, size: 15 x 6 in, bolt_circle: 5 x 4.5 in, nut_seat: conical,
         seat_angle: 60 deg, seat_thickness: 0.35 in, qty: 2}
      - {id: nuts, kind: lug-nut, thread: 1/2-20, seat: conical, seat_angle: 60 deg, depth: 0.9 in,
         closed: true, hex: 3/4 in, qty: 10}
    """


def test_nuts_of_which_nobody_says_that_they_are_open_are_asked_for_as_open() -> None:
    """Closed ones would bottom out as those before did."""
    from partscheck.report.fix_text import fix_text

    found = fixed(CLOSED)
    assert [one.rule.slug for one in found.stops] == ["stud-bottoms-in-nut"]
    nuts: Any = found.plans[0].build.part("nuts")
    assert nuts.says("closed")
    assert not nuts.closed
    assert "(cone-nut-1/2-20), which has to be open;" in " ".join(fix_text(found, "inch").split())
    assert slugs_after(found, CLOSED) == set()


def test_a_bolt_of_the_other_system_is_taken_about_as_long() -> None:
    text = """\
        parts:
          - {id: q, kind: bolt, size: 3/8-16 x 1 in, grade: 8, qty: 2}
        bolted_joints:
          - id: fairlead
            bolt: q
            tapped: {thread: M10x1.5, depth: 20 mm, through: true, material: S235}
            bolts: 2
            stack: [{name: lead, thickness: 6 mm, hole: 11 mm, edge: 20 mm, material: S235}]
        """
    found = fixed(text)
    assert [one.rule.slug for one in found.stops] == ["thread-mismatch"]
    bolt: Any = found.plans[0].build.part("q")
    assert str(bolt.size.thread).startswith("M10")
    assert 22.8 <= bolt.size.length.mid <= 30.5
    assert slugs_after(found, text) == set()


WEAK = """\
title: invented
edition: invented
basis: {kind: practice, source: invented}
parts:
  - {id: weak-m10, kind: bolt, size: M10 x 40 mm, grade: 5.6, price: 0.20}
  - {id: like-m10, kind: bolt, size: M10 x 40 mm, grade: 8.8, price: 0.90}
"""


def test_no_weaker_bolt_is_taken_because_it_is_cheaper(tmp_path: Path) -> None:
    """Its length is what was wrong; no rule knows of the load, so that none would hold a soft one off."""
    (tmp_path / "weak.yaml").write_text(WEAK, encoding="utf-8")
    text = """\
        parts:
          - {id: b, kind: bolt, size: M10 x 30 mm, grade: 8.8, qty: 4}
          - {id: n, kind: nut, thread: M10x1.5, grade: 8, qty: 4}
        bolted_joints:
          - id: bracket
            bolt: b
            nut: n
            bolts: 4
            stack: [{name: tube, thickness: 23 mm, hole: 11 mm, material: S235}]
        """
    found = fixed(text, by="cost", plans=4, catalogs=[str(tmp_path)])
    assert found.plans[0].steps[0].option.entry == "like-m10"
    assert "weak-m10" not in {step.option.entry for plan in found.plans for step in plan.steps}


def test_the_best_so_far_puts_together_what_is_known(monkeypatch: pytest.MonkeyPatch) -> None:
    """Time is over when every option was tried by itself and no choice yet."""
    from partscheck.uses.fix import planner

    def over(self: Any, *given: Any) -> Any:
        raise planner.TimeUpError

    monkeypatch.setattr(planner, "GRACE", 600)  # no test fails on time
    monkeypatch.setattr(planner.Planner, "_best", over)
    found = fix(str(ROOT / "examples/apiary-first.yaml"), plans=1, catalogs=[str(ROOT / "examples/catalog")])
    assert found.late
    [plan] = found.plans
    assert not plan.proven
    assert not plan.brings_a_stop
    assert len(plan.clears) > len(found.stops) / 2
