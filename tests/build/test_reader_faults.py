"""Every fault of a list in one run, each at its line and column; what only follows is counted."""

from __future__ import annotations

import pytest
from case_files import shipped_catalogue

from partscheck.build.reader import read_build
from partscheck.notation.faults import Fault, Faults
from partscheck.report.fault_text import fault_text

TWELVE = """\
build: twelve faults
servise: {gross_weight: 2600 lb}
service:
  top_speed: 60
parts:
  - {id: hub, kind: hubb, qty: 2}
  - id: hub-2
    kind: hub
    stud_lenth: 1.75 in
    pilot: 67,1 mm
    stud_thread: 1/2 fine
    rating:
    rating: 2200 lb
  - {id: plate, part: adapter-5x4.5-to-5x5.6, qty: 2}
  - {id: wheel, kind: wheel, size: 15 x 7 in, mounts_on: plank}
  - {id: wheel, kind: tire, at: 1M}
  - {kind: lug-nut, weight: 1,200 lb}
"""

# line, column, what was read, a piece of what is expected, a piece of the hint
WANTED = [
    (2, 1, "servise", "a field of a parts list", "`service`"),
    (4, 14, "60", "a speed", "write 60 mph or 60 km/h"),
    (6, 21, "hubb", "a kind of part", "`hub`"),
    (9, 5, "stud_lenth", "a field of hub", "`stud_length`"),
    (10, 12, "67,1 mm", "a length", "67.1 mm"),
    (11, 18, "1/2 fine", "a thread", ""),
    (12, 12, "", "for `rating`", "it is empty"),
    (13, 5, "rating", "each key once", "line 12"),
    (14, 23, "adapter-5x4.5-to-5x5.6", "the id of a part in the catalogue", "adapter-5x4.5-to-5x5.5"),
    (15, 58, "plank", "the id of a line", ""),
    (16, 10, "wheel", "an id of its own", "line 15"),
    (16, 33, "1M", "a position", ""),
    (17, 29, "1,200 lb", "one value", "1200 lb"),
]


def faults_of(text: str) -> list[Fault]:
    return raised(text).faults


def raised(text: str) -> Faults:
    with pytest.raises(Faults) as caught:
        read_build(text.encode(), shipped_catalogue(), "list.yaml")
    return caught.value


def test_every_kind_of_fault_in_one_run_each_at_its_place() -> None:
    found = faults_of(TWELVE)
    assert [(one.mark.line, one.mark.column, one.read) for one in found] == [row[:3] for row in WANTED]
    for one, (*_, expected, hint) in zip(found, WANTED, strict=True):
        assert expected in one.expected
        assert hint in one.hint
        assert one.mark.file == "list.yaml"


@pytest.mark.parametrize("row", WANTED, ids=[str(row[2] or "empty") for row in WANTED])
def test_the_text_names_each_of_them(row: tuple[int, int, str, str, str]) -> None:
    text = fault_text(faults_of(TWELVE), 100)
    line, column, read, *_ = row
    assert f"list.yaml, line {line}, column {column}\n" in text
    assert f'"{read}"' in text or not read


def test_the_count_in_the_text_is_the_number_of_faults() -> None:
    assert f"{len(WANTED)} faults to mend" in fault_text(faults_of(TWELVE), 100)


def test_what_refers_to_a_broken_line_is_counted_and_not_told() -> None:
    caught = raised(
        "parts:\n"
        "  - {id: plate, kind: adaptor, hub_circle: 5 x 4.5 in}\n"
        "  - {id: wheel, kind: wheel, mounts_on: plate}\n"
        "  - {id: nut, kind: lug-nut, mounts_on: plate}\n"
    )
    assert [one.read for one in caught.faults] == ["adaptor"]
    assert caught.following == 2
    assert "2 more faults follow from these." in fault_text(caught.faults, 80, caught.following)


def test_a_broken_line_without_an_id_is_known_by_what_it_was_meant_to_be() -> None:
    caught = raised("parts:\n  - {kind: hubb}\n  - {kind: wheel, mounts_on: hub}\n")
    assert [one.read for one in caught.faults] == ["hubb"]
    assert caught.following == 1


@pytest.mark.parametrize(
    ("value", "read"),
    [
        ("*same", "*same"), ("&a 2", "&a"), ("!!python/object:os.system x", "!!python/object:os.system"),
        ("!int 3", "!int"),
    ],
)  # fmt: skip
def test_what_yaml_itself_refuses_is_told_once_and_beside_the_rest(value: str, read: str) -> None:
    found = faults_of(f"parts:\n  - kind: hub\n    qty: {value}\n    pilot: 3\n")
    assert [(one.mark.line, one.read) for one in found] == [(3, read), (4, "3")]


def test_a_second_list_of_parts_is_read_too() -> None:
    found = faults_of(
        "parts:\n  - {id: hub, kind: hub}\nparts:\n"
        "  - {id: wheel, kind: wheel, mounts_on: hub, size: 15}\n"
        "  - {kind: tire, mounts_on: wheel, siez: 4.80-12}\n"
    )
    assert [one.read for one in found] == ["parts", "15", "siez"]


def test_broken_yaml_stops_and_says_so_alone() -> None:
    found = faults_of("parts:\n  - {kind: hub, qty: 2\n  - {kind: wheeel}\n")
    assert len(found) == 1


@pytest.mark.parametrize("kind", ["bolted_joints", "loads", "accept", "practice", "tow_vehicle", "layout"])
def test_an_unknown_key_in_any_map_offers_the_nearest(kind: str) -> None:
    body = {
        "bolted_joints": ("\n  - {id: j, botl: b}", "`bolt`"),
        "loads": ("\n  - {what: hives, wieght: 3 kg}", "`weight`"),
        "accept": ("\n  - {rule: adapter-legality, reason: asked, prt: plate}", "`part`"),
        "practice": ("\n  bolt_circle_tolerence: {value: 0.2 mm, reason: mine}", "`bolt_circle_tolerance`"),
        "tow_vehicle": ("\n  tow_ratng: 3500 lb", "`tow_rating`"),
        "layout": ("\n  axle: 1", "`axles`"),
    }
    lines, near = body[kind]
    (fault,) = faults_of(f"parts: []\n{kind}:{lines}\n")
    assert fault.mark.line == 3
    assert near in fault.hint


def test_every_joint_load_and_acceptance_is_read_in_the_same_run() -> None:
    found = faults_of(
        "parts:\n  - {id: b, kind: bolt, size: 1/2-13 x 2}\n"
        "bolted_joints:\n  - {id: j, bolt: c, stack: [{name: plate, thickness: 3}], load: {shear: 3}}\n"
        "loads:\n  - {what: hives, weight: heavy, cases: [loded]}\n"
        "load_cases: [loaded]\n"
        "accept:\n  - {rule: x}\n"
        "practice: {bolt_circle_tolerance: {value: 0.2, reason: mine}}\n"
        "as_of: last year\n"
    )
    assert [one.mark.line for one in found] == [2, 4, 4, 4, 6, 6, 9, 10, 11]


def test_the_faults_come_in_the_order_of_their_places() -> None:
    places = [one.mark.place for one in faults_of(TWELVE)]
    assert places == sorted(places)
