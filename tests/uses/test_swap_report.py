"""What a swap puts first, what it still lacks, and its JSON against the schema."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from case_files import shipped_catalogue

import partscheck
from partscheck.build.reader import read_build
from partscheck.report.swap_json import swap_data
from partscheck.report.swap_markdown import swap_markdown
from partscheck.report.swap_text import swap_text
from partscheck.uses.swap import WORSE, Swap

ROOT = Path(__file__).resolve().parents[2]
SCHEMA = json.loads((ROOT / "schemas/swap-report.schema.json").read_text(encoding="utf-8"))
CATALOG = ROOT / "examples" / "catalog"

# The outer bearing is good for far more than the limit, the coupler for one inch of height.
TOWED = """\
build: Ranked
service: {gross_weight: 2300 lb, tongue_weight: 0, country: DE}
layout: {hub_face_distance: 1524 mm, frame_width: 1168 mm, coupler_height: 450 mm}
tow_vehicle: {hitch_height: 520 mm}
parts:
  - {id: hub, kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, inner_bearing_to_face: 50 mm,
     outer_bearing_to_face: -18 mm, rating: 700 kg, per: each, qty: 2}
  - {id: inner, kind: bearing, place: inner, dynamic_rating: 80 kN, rating_turns: 1e6, e_factor: 0.37,
     y_factor: 1.6, qty: 2}
  - {id: outer, kind: bearing, place: outer, dynamic_rating: 80 kN, rating_turns: 1e6, e_factor: 0.37,
     y_factor: 1.6, qty: 2}
  - {id: brake, kind: brake, type: electric, hand: pair, design_tire_radius: 330 mm, rating: 1400 lb, per: each,
     qty: 2}
  - {id: wheel, kind: wheel, size: 15 x 6 in, bolt_circle: 5 x 4.5 in, offset: 0, rating: 800 kg, qty: 2}
  - {id: nuts, kind: lug-nut, thread: 1/2-20, qty: 10}
  - {id: tire, kind: tire, size: ST205/75R15, max_load: 900 kg, diameter: 700 mm, loaded_radius: 330 mm,
     section_width: 210 mm, qty: 2}
  - {kind: coupler, qty: 1}
  - {id: mount, kind: ball-mount, drop: 70 mm, qty: 1}
"""
TALLER: dict[str, Any] = {"replace": {"tire": {"diameter": "760 mm", "loaded_radius": "360 mm"}}}
EXAMPLES: list[tuple[str, Any]] = [
    ("apiary-corrected", {"replace": {"wheel": {"offset": "-12 mm"}}}),
    ("apiary-corrected", str(ROOT / "examples" / "apiary-taller-tires.yaml")),
    ("apiary-corrected", {"remove": ["plate-nuts"]}),
    ("apiary-first", {"replace": {"wheel-nuts": {"thread": "1/2-20", "packs": 3}}, "remove": ["grease"]}),
    ("four-line-cart", {"add": [{"kind": "jack", "qty": 1, "price": "30 EUR"}]}),
    ("metric-750", {"replace": {"tire": {"size": "155/80 R13"}}}),
    ("tandem-arms", {"replace": {"plate": {"thickness": "unknown"}, "tire": {"diameter": "unknown"}}}),
]


def swap(change: Any, text: str = TOWED) -> Swap:
    return partscheck.swap(read_build(text.encode(), shipped_catalogue(), "base.yaml"), change)


def of_example(name: str, change: Any) -> Swap:
    return partscheck.swap(ROOT / "examples" / f"{name}.yaml", change, [CATALOG])


def test_what_brings_a_caution_comes_before_the_greatest_change() -> None:
    """A figure that is good at neither end is worse where its own rule says so."""
    found = swap(TALLER)
    assert ("hitch-height", "caution") in {(one.rule.slug, one.verdict) for one in found.appears}
    first = found.figures[0]
    assert (first.name, first.direction, first.brings) == ("ball mount drop that levels", WORSE, "caution")
    assert swap_text(found, "metric").count("! ball mount drop") == 1
    assert "!: brings a stop, a caution" in swap_text(found, "metric")
    assert "ball mount drop" in swap_markdown(found, "metric")


def test_then_it_goes_by_how_much_of_the_allowance_is_used() -> None:
    # Brake: 1400 lb x 330/360 = 1283.3 lb for the corner's 1150 lb: 82.1 % -> 89.6 % used, 7.5 points.
    # A bearing of 80 kN for a life of more than a million km: the limit is 150 000 km.
    found = swap(TALLER)
    by_name = {one.name: one for one in found.figures}
    brake, life = by_name["brake force of its rating"], by_name["inner bearing life"]
    assert brake.stood.used == pytest.approx(1150 / 1400, rel=1e-4)
    assert brake.stands.used == pytest.approx(1150 / (1400 * 330 / 360), rel=1e-4)
    assert life.stands.used is not None
    assert life.stands.used == pytest.approx(150_000 / life.after.lo)  # type: ignore[union-attr]

    demo = of_example("apiary-corrected", str(ROOT / "examples" / "apiary-taller-tires.yaml"))
    worse = {one.name: one for one in demo.figures if one.direction == WORSE}
    order = list(worse)
    assert order.index("brake force of its rating") < order.index("inner bearing life")
    # By the change alone the bearing, good for many times its limit, would stand first.
    assert worse["inner bearing life"].relative > worse["brake force of its rating"].relative


def test_the_reverse_of_a_caution_is_for_the_better() -> None:
    found = swap({"replace": {"tire": {"diameter": "700 mm", "loaded_radius": "330 mm"}}}, _after(TALLER))
    (drop,) = found.of("ball mount drop")
    assert drop.direction == "better"
    assert not drop.brings


def _after(change: Any) -> str:
    """The list as the change leaves it, typed."""
    text = TOWED.replace("diameter: 700 mm, loaded_radius: 330 mm", "diameter: 760 mm, loaded_radius: 360 mm")
    assert change is TALLER
    return text.replace("coupler_height: 450 mm", "coupler_height: 480 mm")


def test_what_must_be_bought_though_no_line_names_it() -> None:
    found = of_example("apiary-corrected", {"remove": ["plate-nuts"]})
    assert [(one.kind, one.count) for one in found.to_add] == [("lug-nut", 10)]  # 5 at each of two wheels
    for text in (swap_text(found, "inch"), swap_markdown(found, "inch")):
        assert "not on the list:" in text
        assert "10 lug nuts of thread 1/2-20" in " ".join(text.split())


def test_what_the_whole_change_costs() -> None:
    found = of_example("apiary-corrected", str(ROOT / "examples" / "apiary-taller-tires.yaml"))
    (before, after) = found.totals[""]
    assert after - before == 3 * (11800 - 7400)  # three tires at 118.00 in place of three at 74.00
    assert "costs 132.00 more than before" in " ".join(swap_text(found, "inch").split())
    euros = of_example("four-line-cart", {"add": [{"kind": "jack", "qty": 1, "price": "30 EUR"}]})
    assert euros.totals["EUR"] == (0, 3000)  # never added to what has no currency
    assert euros.totals[""][0] == euros.totals[""][1]


def test_a_weight_that_hangs_on_an_unknown_rating_says_so() -> None:
    found = of_example("metric-750", {"replace": {"tire": {"size": "155/80 R13"}}})
    text = " ".join(swap_text(found, "metric").split())
    assert "as before; the coupler sets it. It may be less: no rating is known of tire" in text
    assert "! gross weight" not in text  # the figure itself stays


def test_a_list_on_which_nothing_can_be_checked_says_so() -> None:
    found = swap({"add": [{"kind": "wheel", "size": "15 x 6 in"}]}, "build: empty\nparts: []\n")
    assert swap_text(found, "inch").startswith("NOTHING CHECKED")


def test_the_unsprung_weight_says_what_is_not_in_it() -> None:
    (figure,) = (one for one in partscheck.uses.swap_figures.FIGURES if one.name.startswith("unsprung"))
    for words in (figure.meaning, figure.basis.source):
        for left_out in ("nuts", "bearings", "arm"):
            assert left_out in words


def test_the_schema_is_one_and_its_copies_are_those_of_the_report() -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    report = json.loads((ROOT / "schemas/report.schema.json").read_text(encoding="utf-8"))["$defs"]
    own = {"pieces", "share", "typed", "step", "figure", "purchase"}
    assert {name: SCHEMA["$defs"][name] for name in SCHEMA["$defs"] if name not in own} == {
        name: report[name] for name in SCHEMA["$defs"] if name not in own
    }


@pytest.mark.parametrize("leading", ["inch", "metric"])
@pytest.mark.parametrize(("name", "change"), EXAMPLES, ids=range(len(EXAMPLES)))
def test_json_is_as_its_schema_says(name: str, change: Any, leading: str) -> None:
    data = json.loads(json.dumps(swap_data(of_example(name, change), leading), allow_nan=False))
    jsonschema.validate(data, SCHEMA)
