"""A change to a list: read with its places, applied to a copy or in place, every fault at once."""

from __future__ import annotations

from typing import Any

import pytest
from case_files import shipped_catalogue

from partscheck.build.apply import apply_change, changed_build
from partscheck.build.change import Change, read_change, read_options
from partscheck.build.model import Build
from partscheck.build.reader import read_build
from partscheck.notation.faults import Faults

LIST = """\
build: base
layout: {hub_face_distance: 60 in, tongue: {section: 3 x 3 in, wall: 3/16 in}}
parts:
  - {id: hub, kind: hub, bolt_circle: 5 x 4.5 in, qty: 2}
  - {id: plate-nuts, kind: lug-nut, mounts_on: hub, thread: 1/2-20, packs: 2, pack: 5, price: 9}
  - {id: wheel, kind: wheel, size: 15 x 6 in, bolt_circle: 5 x 4.5 in, rating: 1900 lb, offset: 10 mm, have: true}
  - {id: tire, kind: tire, size: ST205/75R15, max_load: 1820 lb, loaded_radius: 330 mm, note: keep,
     price: 74, qty: 3}
  - {id: bolts, kind: bolt, size: 1/2-13 x 3 in, qty: 3}
bolted_joints:
  - {id: arm to frame, bolt: bolts, bolts: 3, stack: [{name: arm plate, thickness: 3/8 in}]}
loads:
  - {what: hives, weight: 1500 lb, from_coupler: 112 in}
"""


def base() -> Build:
    return read_build(LIST.encode(), shipped_catalogue(), "base.yaml")


def read(text: str) -> Change:
    return read_change(text.encode(), "change.yaml")


def texts(record: Any) -> dict[str, str]:
    return {name: typed.text for name, typed in record.values.items()}


def everything(build: Build) -> list[tuple[str, dict[str, str]]]:
    return [(record.id, texts(record)) for record in build.records()]


def told(change: Change) -> list[tuple[str, int, int, str]]:
    with pytest.raises(Faults) as raised:
        changed_build(base(), change)
    return [(one.mark.file, one.mark.line, one.mark.column, one.read) for one in raised.value.faults]


# ---- what changes and what stays -------------------------------------------------------------------


def test_only_the_named_fields_change_and_each_knows_its_file() -> None:
    first = base()
    untouched = everything(first)
    change = read("replace:\n  wheel: {offset: -12 mm}\n  layout: {frame_width: 46 in}\n")
    after = changed_build(first, change).build
    wheel: Any = after.part("wheel")
    assert wheel.offset.mid == -12.0
    assert (wheel.where("offset").file, wheel.where("offset").line) == ("change.yaml", 2)
    assert (wheel.where("rating").file, wheel.where("rating").line) == ("base.yaml", 6)
    assert texts(wheel) == {**texts(first.part("wheel")), "offset": "-12 mm"}
    assert after.layout.frame_width.mid == pytest.approx(46 * 25.4)
    assert after.layout.hub_face_distance.mid == pytest.approx(60 * 25.4)
    assert everything(first) == untouched


def test_a_copy_shares_no_record_with_the_first() -> None:
    first = base()
    after = changed_build(first, Change().replace("wheel.offset", "0")).build
    assert not {id(one) for one in first.records()} & {id(one) for one in after.records()}
    assert len(list(first.records())) == len(list(after.records()))


def test_joints_loads_and_the_tongue_can_be_replaced() -> None:
    after = changed_build(base(), read(
        "replace:\n  arm to frame: {bolts: 4}\n  hives: {weight: 900 lb}\n  tongue: {wall: 1/4 in}\n"
    )).build  # fmt: skip
    tongue: Any = after.layout.tongue
    assert after.joints[0].bolts == 4
    assert after.loads[0].weight.mid == pytest.approx(900 * 4.4482216152605)
    assert (tongue.wall.mid, tongue.values["section"].text) == (6.35, "3 x 3 in")


def test_another_size_takes_what_belonged_to_the_old_tire_with_it() -> None:
    applied = changed_build(base(), read("replace: {tire: {size: LT235/75R15, load_index: 104}}"))
    tire = applied.build.part("tire")
    assert texts(tire) == {
        "id": "tire", "size": "LT235/75R15", "load_index": "104", "note": "keep", "qty": "3",
    }  # fmt: skip
    assert {one.path for one in applied.gone} == {"tire.max_load", "tire.loaded_radius", "tire.price"}
    assert applied.articles == ["tire"]


def test_the_same_size_again_is_the_same_tire() -> None:
    applied = changed_build(base(), read("replace: {tire: {size: st205/75r15, max_pressure: 50 psi}}"))
    assert applied.gone == []
    assert applied.build.part("tire").has("max_load")  # type: ignore[union-attr]


def test_another_wheel_keeps_its_circle_and_says_so() -> None:
    applied = changed_build(base(), read("replace: {wheel: {size: 16 x 6 in}}"))
    assert {one.path for one in applied.gone} == {"wheel.rating", "wheel.have"}
    assert applied.kept == {"wheel": ["bolt_circle", "offset"]}


def test_another_catalogue_part_takes_the_place_with_as_many_pieces() -> None:
    applied = changed_build(base(), read("replace: {plate-nuts: {part: cone-nut-1/2-20}}"))
    nuts: Any = applied.build.part("plate-nuts")
    assert (nuts.qty, nuts.mounts_on, nuts.values["seat"].text) == (10, "hub", "conical")
    assert not nuts.has("price")
    assert not nuts.has("packs")


def test_lines_are_added_and_removed_with_what_names_them() -> None:
    change = read(
        "add:\n  - {id: nuts, kind: lug-nut, mounts_on: hub, thread: M14x1.5, qty: 12}\nremove: [plate-nuts]\n"
    )
    applied = changed_build(base(), change)
    assert [part.id for part in applied.build.parts] == ["hub", "wheel", "tire", "bolts", "nuts"]
    assert [part.id for part in applied.added] == ["nuts"]
    assert applied.lines() == {"nuts", "plate-nuts"}


def test_a_joint_goes_with_its_bolts() -> None:
    build = changed_build(base(), read("remove: [bolts, arm to frame]")).build
    assert build.joints == []


def test_in_place_it_can_be_undone() -> None:
    build = base()
    before, parts = everything(build), list(build.parts)
    change = read("replace: {tire: {size: LT235/75R15}, tongue: {wall: 1/4 in}}\nremove: plate-nuts\n")
    applied = apply_change(build, change)
    assert everything(build) != before
    applied.undo()
    assert everything(build) == before
    assert build.parts == parts


def test_nothing_is_changed_where_something_is_at_fault() -> None:
    build = base()
    before = everything(build)
    change = read("replace: {tire: {size: LT235/75R15}, wheel: {ofset: 3 mm}}\nremove: [plate-nuts]\n")
    with pytest.raises(Faults):
        apply_change(build, change)
    assert everything(build) == before


def test_a_change_made_in_python_is_the_same_change() -> None:
    made = Change().replace("tire.size", "LT235/75R15").remove("plate-nuts")
    made.add({"kind": "jack", "rating": "500 lb"})
    typed = read_change({
        "replace": {"tire": {"size": "LT235/75R15"}}, "remove": ["plate-nuts"],
        "add": [{"kind": "jack", "rating": "500 lb"}],
    })  # fmt: skip
    both = [everything(changed_build(base(), change).build) for change in (made, typed)]
    assert both[0] == both[1]


def test_a_value_already_read_is_not_read_again() -> None:
    typed = base().part("wheel").values["offset"]  # type: ignore[union-attr]
    after = changed_build(base(), Change().replace("wheel.offset", typed)).build
    assert after.part("wheel").values["offset"] is typed  # type: ignore[union-attr]


# ---- faults --------------------------------------------------------------------------------------------

WRONG = """\
swap: wrong in many ways
bse: base.yaml
replace:
  tyre: {size: LT235/75R15}
  wheel: {ofset: 3 mm, rating: 1200}
  plate-nuts: {part: cone-nut-1/2-21, kind: wheel}
  hub: {id: hubb}
  bolts: 3
add:
  - {id: wheel, kind: lug-nut, thread: M14x1.5}
  - {kind: lugnut}
remove: [plate-nut, hub, tire]
"""


def test_every_fault_comes_in_one_run_at_its_place() -> None:
    assert told(read(WRONG)) == [
        ("change.yaml", 2, 1, "bse"),
        ("change.yaml", 4, 3, "tyre"),
        ("change.yaml", 5, 11, "ofset"),
        ("change.yaml", 5, 32, "1200"),
        ("change.yaml", 6, 22, "cone-nut-1/2-21"),
        ("change.yaml", 6, 45, "wheel"),
        ("change.yaml", 7, 3, "hub"),
        ("change.yaml", 8, 10, "3"),
        ("change.yaml", 10, 10, "wheel"),
        ("change.yaml", 11, 12, "lugnut"),
        ("change.yaml", 12, 10, "plate-nut"),
        ("change.yaml", 12, 21, "hub"),
    ]


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("replace: {tyre: {size: LT235/75R15}}", "did you mean `tire`?"),
        ("replace: {wheel: {ofset: 3 mm}}", "did you mean `offset`?"),
        ("replce: {wheel: {offset: 3 mm}}", "did you mean `replace`?"),
        ("remove: [plate-nut]", "did you mean `plate-nuts`?"),
        ("remove: hub", "`plate-nuts` (line 5 of base.yaml) names it under `mounts_on`"),
        ("remove: bolts", "`arm to frame` (line 11 of base.yaml) names it under `bolt`"),
        ("add: [{id: hub, kind: jack}]", "line 4 of base.yaml has it already"),
        ("replace: {plate-nuts: {mounts_on: whel}}", "did you mean `wheel`?"),
    ],
)
def test_a_fault_offers_the_nearest_spelling_or_the_repair(text: str, hint: str) -> None:
    with pytest.raises(Faults) as raised:
        changed_build(base(), read(text))
    assert hint in " ".join(one.hint for one in raised.value.faults)


@pytest.mark.parametrize("text", ["swap: nothing", "replace:", "- wheel", "add: {kind: jack}", "replace: [wheel]"])
def test_a_file_that_changes_nothing_is_told(text: str) -> None:
    assert told(read(text))


def test_options_name_themselves_and_their_column() -> None:
    options = read_options(
        ["wheel.offset=-12 mm", "wheel=3", "whel.offset=3 mm", "layout.frame_width= 3 furlongz"],
        ["{kind: lug-nut, at: [1L"], ["hubs"],
    )  # fmt: skip
    assert [(file, column) for file, _, column, _ in told(options)] == [
        ("--add 1", 21), ("--remove 1", 1), ("--replace 2", 1), ("--replace 3", 1), ("--replace 4", 21),
    ]  # fmt: skip


def test_an_id_with_a_dot_is_split_at_its_last_one() -> None:
    options = read_options(["plate-5x4.5.thickness = 1.5 in"], [], [])
    assert (options.replacements[0].target, options.replacements[0].fields[0][0]) == ("plate-5x4.5", "thickness")


def test_a_list_of_values_is_taken_from_an_option() -> None:
    options = read_options(["wheel.at=[1L, 1R]"], [], [])
    assert changed_build(base(), options).build.part("wheel").values["at"].value  # type: ignore[union-attr]
