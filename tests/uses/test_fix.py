"""Plans: every stop cleared, none brought, the cheapest of what was considered; honest when it cannot."""

from __future__ import annotations

import itertools
import random
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from uses.fault_injection import with_faults

import partscheck
from partscheck.uses.fix import Fix, fix
from partscheck.uses.fix.edits import DECLARE, FIND
from partscheck.uses.fix.planner import Planner
from partscheck.uses.fix.trials import key_of
from partscheck.uses.fix.write_list import plan_edits, written_list

ROOT = Path(__file__).resolve().parents[2]
CATALOG = [str(ROOT / "examples/catalog")]
NAMES = ("apiary-corrected", "metric-750", "tandem-arms", "four-line-cart")


def text_of(name: str) -> str:
    return (ROOT / f"examples/{name}.yaml").read_text(encoding="utf-8")


def fixed(text: str, **more: Any) -> Fix:
    return fix(text.encode("utf-8"), catalogs=CATALOG, file="list.yaml", **more)


def stops_of(result: Any) -> set[Any]:
    return {key_of(one) for one in (*result.findings, *result.folded) if one.verdict == "stop"}


@pytest.fixture(scope="module")
def demo() -> Fix:
    return fixed(text_of("apiary-first"))


# ---- the demo trailer ----------------------------------------------------------------------------


def test_the_demo_trailer_is_fixed_with_no_stop_left(demo: Fix) -> None:
    assert len(demo.stops) > 10
    assert demo.clears_all
    assert not demo.lacking
    assert not demo.late
    for plan in demo.plans:
        assert plan.after.verdict != "stop"
        assert {one.rule.slug for one in plan.clears} >= {one.rule.slug for one in demo.stops}
    assert demo.plans[0].proven


def test_every_step_of_the_demo_is_needed(demo: Fix) -> None:
    """Leave any one out, and a stop is there."""
    first = demo.plans[0]
    for step in first.steps:
        rest = [edit for one in first.steps if one is not step for edit in one.option.edits]
        changed = partscheck.check(edited_text("apiary-first", rest).encode("utf-8"), CATALOG, "list.yaml")
        assert changed.verdict == "stop", step.option


def edited_text(name: str, edits: Any) -> str:
    from partscheck.uses.fix.list_edits import edited

    return edited(text_of(name), edits)


def test_the_best_so_far_when_the_time_is_over(monkeypatch: pytest.MonkeyPatch) -> None:
    """It clears some stops, brings none, leaves nothing untold that was known, and is not said to be proven."""
    from partscheck.uses.fix import planner

    def over(self: Any, *given: Any) -> Any:
        raise planner.TimeUpError

    monkeypatch.setattr(planner.Planner, "_best", over)
    found = partscheck.fix(str(ROOT / "examples/apiary-first.yaml"), plans=1, catalogs=CATALOG)
    assert found.late
    [plan] = found.plans
    assert not plan.proven
    assert plan.clears
    assert plan.leaves
    assert not plan.brings_a_stop
    assert not [one for one in plan.causes if one.verdict == "measure"]


def test_plans_are_distinct_and_in_order(demo: Fix) -> None:
    assert len(demo.plans) == 3
    steps = [frozenset(step.option.key for step in plan.steps) for plan in demo.plans]
    assert len({*steps}) == len(steps)

    def hard(plan: Any) -> int:
        return sum(step.option.sort in (FIND, DECLARE) for step in plan.steps)

    firsts = [(hard(plan), len(plan.steps)) for plan in demo.plans]
    assert firsts == sorted(firsts)


def test_heights_follow_the_tires(demo: Fix) -> None:
    """A tire with a longer loaded radius lifts what is measured from the ground."""
    first = demo.plans[0]
    tires = [part for part in first.build.parts if part.kind == "tire"]
    assert tires[0].values["part"].value == "tgb-trailer-tire-15"
    carried = {one.name: one for one in first.applied.carried}
    assert {"coupler_height", "ground_clearance"} <= {*carried}
    rise = {name: one.after.value.mid - one.before.value.mid for name, one in carried.items()}  # type: ignore[union-attr]
    assert len({round(value, 6) for value in rise.values()}) == 1
    assert 20 < rise["coupler_height"] < 40  # mm: 185/65R15 to ST205/75R15


def test_running_gear_moves_with_the_axle(demo: Fix) -> None:
    for plan in demo.plans:
        layout: Any = plan.build.layout
        gear: Any = next(load for load in plan.build.loads if load.id == "running gear")
        assert gear.from_coupler.mid == pytest.approx(layout.coupler_to_axle.mid)


def test_money_is_the_difference_of_two_bills(demo: Fix) -> None:
    plan = demo.plans[0]
    bills = [partscheck.bill_of_materials(result) for result in (demo.before, plan.after)]
    paid = [
        sum(cost for line in bill.lines if (cost := line.cart_cost if line.cart_cost is not None else line.cost))
        for bill in bills
    ]
    assert plan.difference.money == {"": paid[1] - paid[0]}


# ---- objectives ----------------------------------------------------------------------------------


def test_least_money_is_no_dearer_than_fewest_changes(demo: Fix) -> None:
    cheap = fixed(text_of("apiary-first"), by="cost", plans=1)
    (first,) = cheap.plans
    assert not first.leaves
    assert first.difference.more <= demo.plans[0].difference.more or (
        len(first.difference.unpriced) < len(demo.plans[0].difference.unpriced)
    )


def test_greatest_least_room_is_no_less_than_that_of_the_fewest_changes(demo: Fix) -> None:
    roomy = fixed(text_of("apiary-first"), by="margin", plans=2)
    assert not roomy.plans[0].leaves
    assert roomy.plans[0].least_room.share >= demo.plans[0].least_room.share - 1e-9


TIRES = """\
title: "invented"
edition: invented
basis: {kind: practice, source: invented}
parts:
  - {id: tight, kind: wheel, size: 15 x 6 in, bolt_circle: 5 x 4.5 in, rating: 910 lb, price: 60.00}
  - {id: cheap, kind: wheel, size: 15 x 6 in, bolt_circle: 5 x 4.5 in, rating: 1100 lb, price: 40.00}
  - {id: strong, kind: wheel, size: 15 x 6 in, bolt_circle: 5 x 4.5 in, rating: 1900 lb, price: 90.00}
"""
WEAK = """\
service: {gross_weight: 2000 lb, tongue_weight: 200 lb}
layout: {axles: 1}
parts:
  - {id: hub, kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, rating: 2500 lb, per: each, qty: 2}
  - {id: wheel, kind: wheel, size: 15 x 6 in, bolt_circle: 5 x 4.5 in, rating: 850 lb, qty: 2, price: 30.00,
     nut_seat: conical, seat_angle: 60 deg, seat_thickness: 0.35 in}
  - {id: nuts, kind: lug-nut, thread: 1/2-20, seat: conical, seat_angle: 60 deg, qty: 10}
"""


@pytest.mark.parametrize(("by", "bought"), [("cost", "cheap"), ("margin", "strong")])
def test_each_objective_takes_its_own_part(tmp_path: Path, by: str, bought: str) -> None:
    (tmp_path / "stock.yaml").write_text(TIRES, encoding="utf-8")
    found = fix(WEAK.encode("utf-8"), by=by, plans=1, catalogs=[str(tmp_path)], file="weak.yaml")
    assert {one.rule.slug for one in found.stops} == {"wheel-below-share"}
    assert [step.option.entry for step in found.plans[0].steps] == [bought]


def test_an_objective_that_is_none_is_refused() -> None:
    with pytest.raises(ValueError, match="changes, cost, margin"):
        fix(WEAK.encode("utf-8"), by="looks")


# ---- what a part would have to be ----------------------------------------------------------------


def test_nothing_suitable_says_what_it_would_have_to_be() -> None:
    """No shop work either: the stud may not be cut, for that leaves too little thread."""
    text = (
        "parts:\n"
        "  - {id: hub, kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, stud_length: 1.75 in, qty: 2}\n"
        "  - {id: plate, kind: adapter, hub_circle: 5 x 4.5 in, wheel_circle: 5 x 5.5 in, thickness: 1.5 in,\n"
        "     hub_nut_thread: 1/2-20, nut_seat_thickness: 1.3 in, qty: 2}\n"
        "  - {id: wheel, kind: wheel, size: 15 x 6 in, bolt_circle: 5 x 5.5 in, qty: 2}\n"
    )
    found = fixed(text, plans=4)
    wanted = [step.option.do for plan in found.plans for step in plan.steps if step.option.sort == FIND]
    plates = [words for words in wanted if "adapter" in words]
    assert plates, found.plans
    assert "5 x 4.5 in to 5 x 5.5 in" in plates[0]
    assert "1.80 in (45.5 mm) or thicker" in plates[0]  # 1.75 in of stud and 1 mm below the face


# ---- never a new stop ----------------------------------------------------------------------------


@settings(max_examples=25, deadline=None)
@given(st.sampled_from(NAMES), st.integers(0, 2**32))
def test_plans_never_bring_a_stop(name: str, seed: int) -> None:
    """Random faults in lists that have none; what is written is read and checked from the beginning."""
    original = text_of(name)
    build = partscheck.read_list(original.encode("utf-8"), CATALOG, "list.yaml")
    text = with_faults(original, build, seed, random.Random(seed).randint(1, 4))
    if text is None:
        return
    try:
        found = fixed(text, plans=2, seconds=30.0)
    except partscheck.Faults:
        return  # it is ambiguous what sits where
    before = stops_of(found.before)
    for plan in found.plans:
        again = partscheck.check(written_list(text, plan).encode("utf-8"), CATALOG, "list.yaml")
        after = stops_of(again)
        assert after <= before
        assert len(after) < len(before)
        assert stops_of(plan.after) == after
    if not before:
        assert found.plans == []
        assert found.clears_all
    elif not found.plans and not found.late:
        assert found.lacking, "no plan says why"


def test_fewest_changes_equals_trying_every_set_of_options(demo: Fix) -> None:
    """Small lists: no smaller set of the options considered clears every stop."""
    compared = 0
    for seed in range(60):
        name = NAMES[seed % len(NAMES)]
        build = partscheck.read_list(text_of(name).encode("utf-8"), CATALOG, "list.yaml")
        text = with_faults(text_of(name), build, seed, 2)
        if text is None:
            continue
        try:
            build = partscheck.read_list(text.encode("utf-8"), CATALOG, "list.yaml")
            planner = Planner(build, "changes", build.leading())
        except partscheck.Faults:
            continue
        found = planner.plans(1)
        # What may not be for sale, and what is only declared, comes after any number of changes.
        options = [one for one in planner.pool.options if one.sort not in (FIND, DECLARE)]
        if not found or planner.hopeless or len(options) > 40:
            continue
        size = len(found[0].options)
        if any(one.sort in (FIND, DECLARE) for one in found[0].options) or not 1 <= size <= 3:
            continue
        compared += 1
        for smaller in range(size):
            for chosen in itertools.combinations(options, smaller):
                outcome = planner.trials.outcome(chosen)
                gone = all(outcome.clears(stop, planner.base.unsure) for stop in planner.base.stops.values())
                assert outcome.stops or not outcome.possible or not gone, (name, seed, chosen)
    assert compared >= 5


# ---- the cap on time -----------------------------------------------------------------------------


def test_at_the_cap_it_says_so() -> None:
    found = fixed(text_of("apiary-first"), seconds=1e-6)
    assert found.late
    assert all(not plan.proven for plan in found.plans)


def test_a_cap_ends_the_trials(demo: Fix) -> None:
    """A tenth of a second is enough for a few of them."""
    found = fixed(text_of("apiary-first"), seconds=0.1, plans=10)
    assert found.late
    assert found.trials < demo.trials


# ---- what it tells -------------------------------------------------------------------------------


def test_remedies_say_what_they_did(demo: Fix) -> None:
    finding = next(one for one in demo.stops if one.rule.slug == "stud-above-adapter-face")
    clears, causes = demo.tried[(key_of(finding), 0)]
    assert "stud-above-adapter-face" in clears
    assert causes == []


def test_what_only_words_would_clear_is_no_option(demo: Fix) -> None:
    """Nobody looked for pockets in the wheel, and two brakes of one hand do not become a pair by declaring it."""
    for plan in demo.plans:
        for edit in plan_edits(plan):
            fields = getattr(edit, "fields", {getattr(edit, "key", ""): getattr(edit, "text", "")})
            assert "stud_pocket_depth" not in fields
            assert "checked_on_wheel" not in fields
            assert fields.get("hand") != "pair"


def test_a_list_without_stops_needs_nothing() -> None:
    found = fixed(text_of("metric-750"))
    assert (found.plans, found.clears_all, found.considered) == ([], True, 0)
