"""An adapter between a hub and a wheel of different bolt circles, and the load in what is asked for."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

import partscheck
from partscheck.report.fix_text import fix_text
from partscheck.uses.fix import Fix, fix
from partscheck.uses.fix.edits import BUY, FIND
from partscheck.uses.fix.write_list import written_list

ROOT = Path(__file__).resolve().parents[2]
CATALOG = [str(ROOT / "examples/catalog")]
LIST = """\
service: {gross_weight: 2000 lb, tongue_weight: 200 lb}
layout: {axles: 1}
parts:
  - {id: hub, kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, stud_length: 1.5 in,
     rating: 1750 lb, qty: 2}
  - {id: wheel, kind: wheel, size: 15 x 6 in, bolt_circle: 5 x 5.5 in, rating: 1900 lb, qty: 2, price: 40.00,
     nut_seat: conical, seat_angle: 60 deg, seat_thickness: 0.35 in}
  - {id: nuts, kind: lug-nut, thread: 1/2-20, seat: conical, seat_angle: 60 deg, depth: 0.7 in, qty: 10}
"""


def fixed(text: str = LIST, catalogs: Any = (), **more: Any) -> Fix:
    return fix(text.encode("utf-8"), catalogs=catalogs, file="list.yaml", **more)


def doings(found: Fix, sort: str) -> list[str]:
    return [step.option.do for plan in found.plans for step in plan.steps if step.option.sort == sort]


def test_an_adapter_of_the_catalogue_goes_between() -> None:
    """With what it takes: nuts for its own studs, and hub studs that end below its face (1.25 in thick)."""
    first = fixed(catalogs=CATALOG, plans=1).plans[0]
    assert [step.option.entry for step in first.steps if step.option.sort == BUY] == ["trs-plate-1.25"]
    assert {step.option.slot for step in first.steps} == {"+adapter/hub/wheel", "nuts", "hub"}
    again = partscheck.check(written_list(LIST, first).encode("utf-8"), CATALOG, "list.yaml")
    assert again.verdict != "stop"
    [adapter] = [part for part in again.build.parts if part.kind == "adapter"]
    assert adapter.id == "adapter"


@pytest.mark.parametrize(
    ("units", "thick", "load"),
    # 1.5 in of stud and 1 mm; (2000 - 200) / 2 lb on each wheel: 408.2 kg
    [("inch", "1.54 in (39.1 mm) or thicker", "rated 900 lb (409 kg) or more"),
     ("metric", "39.1 mm (1.54 in) or thicker", "rated 409 kg (900 lb) or more")],
)  # fmt: skip
def test_an_adapter_to_be_found_is_told_with_thickness_and_load(units: str, thick: str, load: str) -> None:
    plates = [do for do in doings(fixed(plans=4, units=units), FIND) if "adapter" in do]
    assert plates
    assert plates[0].startswith("Find 2 x adapter 5 x 4.5 in to 5 x 5.5 in, hub nut thread 1/2-20, ")
    assert f"{thick}, {load}" in plates[0]


def test_a_wheel_to_be_found_is_told_with_what_it_has_to_carry() -> None:
    found = fixed(plans=1)
    [wheel] = doings(found, FIND)
    assert "5 x 4.5 in" in wheel
    assert wheel.endswith("rated 900 lb (409 kg) or more each")
    assert wheel in fix_text(found, "inch").replace("\n    ", " ").replace("find:", "Find:")


def test_what_is_to_be_found_has_no_price_of_what_it_takes_the_place_of() -> None:
    plan = fixed(plans=1).plans[0]
    assert plan.difference.unpriced == ["wheel"]
    assert plan.difference.money == {"": -8000}  # two wheels at 40.00 are not bought
    [wheel] = [part for part in plan.build.parts if part.id == "wheel"]
    assert not wheel.has("price")


def test_an_adapter_at_one_side_only() -> None:
    text = LIST.replace("{id: wheel, ", "{id: left, kind: wheel, bolt_circle: 5 x 4.5 in, at: 1L, qty: 1}\n"
                        "  - {id: wheel, at: 1R, ").replace("qty: 2, price", "qty: 1, price")  # fmt: skip
    options = [step.option for plan in fixed(text, plans=6).plans for step in plan.steps]
    plates = [one for one in options if "adapter" in one.do]
    assert plates
    assert plates[0].edits[0].fields["at"] == ["1R"]  # type: ignore[union-attr]
    assert plates[0].do.startswith("Find 1 x adapter")


def test_no_adapter_where_the_circles_are_not_known() -> None:
    found = fixed(LIST.replace("bolt_circle: 5 x 5.5 in", "bolt_circle: 6 x 5.5 in, rating: unknown")
                  .replace(", rating: 1900 lb", ""), plans=4)  # fmt: skip
    plates = [do for do in doings(found, FIND) if "adapter" in do]
    assert all("5 x 4.5 in to 6 x 5.5 in" in do for do in plates)
