"""How people type: each habit gives the right value, or one message that says what to type."""

from __future__ import annotations

from typing import Any

import pytest
from case_files import shipped_catalogue

from partscheck.build.model import Build
from partscheck.build.reader import read_build
from partscheck.notation.faults import Faults


def read(text: str) -> Build:
    return read_build(text.encode(), shipped_catalogue(), "list.yaml")


def typed(kind: str, key: str, value: str, flow: bool) -> Any:
    """The value of one field, typed in a block or inside braces."""
    line = f"  - {{kind: {kind}, {key}: {value}}}" if flow else f"  - kind: {kind}\n    {key}: {value}"
    return getattr(read(f"parts:\n{line}\n").parts[0], key)


def told(text: str) -> str:
    """The one message of a list that cannot be used."""
    with pytest.raises(Faults) as caught:
        read(text)
    (fault,) = caught.value.faults
    return str(fault)


IN, LB = 25.4, 4.4482216152605

# kind, key, as typed, low and high in house units
QUANTITIES = [
    ("hub", "stud_length", "1.75 in ± 1/32 in", (1.75 - 1 / 32) * IN, (1.75 + 1 / 32) * IN),
    ("hub", "stud_length", "1-3/4 in", 1.75 * IN, 1.75 * IN),
    ("hub", "stud_length", "1 3/4 in", 1.75 * IN, 1.75 * IN),
    ("hub", "stud_length", ".750 in", 0.75 * IN, 0.75 * IN),
    ("hub", "stud_length", "43.7 to 45.2 mm", 43.7, 45.2),
    ("hub", "rating", "2200 lbs", 2200 * LB, 2200 * LB),
    ("hub", "rating", "998 kg", 998 * 9.80665, 998 * 9.80665),
    ("wheel", "offset", "ET 30", 30, 30),
    ("wheel", "offset", "ET30", 30, 30),
    ("wheel", "offset", "-0.5 in", -12.7, -12.7),
    ("wheel", "offset", "0", 0, 0),
    ("wheel", "max_pressure", "80 psi", 80 * 6.894757293168, 80 * 6.894757293168),
    ("wheel", "seat_angle", "60°", 60, 60),
]


@pytest.mark.parametrize("flow", [False, True], ids=["block", "braces"])
@pytest.mark.parametrize(("kind", "key", "value", "low", "high"), QUANTITIES)
def test_quantities(kind: str, key: str, value: str, low: float, high: float, flow: bool) -> None:
    found = typed(kind, key, value, flow)
    assert (found.lo, found.hi) == pytest.approx((low, high), rel=1e-9)


@pytest.mark.parametrize("value", ["6,000 lb", '"6,000 lb"', "'6,000 lb'"])
def test_thousands_outside_braces(value: str) -> None:
    assert typed("axle", "rating", value, False).lo == pytest.approx(6000 * LB)


# kind, key, as typed (never a float, an octal, a time, a date, a truth value), attribute, its value
MARKINGS: list[tuple[str, str, str, str, Any]] = [
    ("tire", "dot_week", "0412", "week", 4),
    ("tire", "dot_week", "0412", "year", 2012),
    ("tire", "dot_week", "3519", "year", 2019),
    ("tire", "size", "145/80 R13 C", "suffix_c", True),
    ("tire", "size", "4.80-12", "form", "numeric"),
    ("tire", "size", "20.5x8.0-10", "form", "flotation"),
    ("wheel", "size", "4.5J x 13", "text", "4.5J x 13"),
    ("bolt", "grade", "8.8", "text", "8.8"),
    ("bolt", "grade", "10.9", "text", "10.9"),
    ("bolt", "grade", "no marks", "text", "no marks"),
    ("hub", "stud_thread", "1/2-20", "series", "UNF"),
    ("hub", "bolt_circle", "5 on 4.5 in", "count", 5),
    ("hub", "bolt_circle", "4x100 mm", "count", 4),
]


@pytest.mark.parametrize("flow", [False, True], ids=["block", "braces"])
@pytest.mark.parametrize(("kind", "key", "value", "attribute", "due"), MARKINGS)
def test_markings(kind: str, key: str, value: str, attribute: str, due: Any, flow: bool) -> None:
    assert getattr(typed(kind, key, value, flow), attribute) == due


def test_the_larger_number_of_a_wheel_is_its_diameter() -> None:
    for value in ("4.5J x 13", "13 x 4.5J"):
        size = typed("wheel", "size", value, False)
        assert (size.diameter.lo, size.width.lo) == pytest.approx((13 * IN, 4.5 * IN))


@pytest.mark.parametrize(
    "value",
    ["no", "yes", "on", "off", "null and void", "12:30", "6:1", "1_000", "012", "0x1F", "1e3", "2024-05-01",
     "NaN", ".inf", "8.8", "~ about", "true"],
)  # fmt: skip
@pytest.mark.parametrize("key", ["note", "seller", "basis"])
def test_texts_stay_as_typed(key: str, value: str) -> None:
    assert typed("hub", key, value, False) == value
    assert typed("hub", key, value, True) == value


@pytest.mark.parametrize("value", ["no", "on", "0412", "1e3", "012"])
def test_ids_stay_as_typed(value: str) -> None:
    assert read(f"parts:\n  - {{id: {value}, kind: hub}}\n").parts[0].id == value


def test_the_country_of_norway() -> None:
    assert read("parts: []\nservice: {country: NO}\n").service.country == "NO"


def test_a_month_is_no_date() -> None:
    month = read("parts: []\nas_of: 2025-06\n").as_of
    assert (month.year, month.month) == (2025, 6)


@pytest.mark.parametrize("value", ["unknown", "Unknown", '"?"', "'?'"])
def test_known_to_be_unknown(value: str) -> None:
    hub = read(f"parts:\n  - kind: hub\n    pilot: {value}\n    stud_thread: {value}\n").parts[0]
    assert not hub.has("pilot")
    assert not hub.has("stud_thread")


def test_a_comment_ends_a_note_and_nothing_else() -> None:
    hub = read("parts:\n  - kind: hub  # the left one\n    note: hub #2\n    pilot: 67.1 mm # bare\n").parts[
        0
    ]
    assert (hub.note, hub.pilot.lo) == ("hub", 67.1)


# a line under `parts` (or a whole list), pieces of the one message
MESSAGES = [
    ("- {kind: hub, weight: 1,200 lb}", ["1,200 lb", "comma inside { }", "1200 lb"]),
    ("- {kind: hub, weight: 12,000,000 lb}", ["12,000,000 lb", "12000000 lb"]),
    ("- {kind: hub, pilot: 67,1 mm}", ["67,1 mm", "67.1 mm"]),
    ("- {kind: hub, price: 41,50}", ["41.50"]),
    ("- {kind: hub, seller: Axles, hubs and more}", ["Axles, hubs and more", "quotes"]),
    ("- {kind: hub, at: 1L, 1R}", ["comma inside { }", "[ ] around a list"]),
    ("- kind: hub\n  pilot: 67,1 mm", ["67,1 mm", "write 67.1 mm"]),
    ("- kind: wheel\n  rating: 2.200,5 lb", ["write 2200.5 lb"]),
    ("- kind: wheel\n  rating: 1,2000 lb", ["12000 lb where thousands are meant"]),
    ("- kind: wheel\n  rating: 22_00 lb", ["write 2200 lb"]),
    ("- kind: hub\n  pilot: ?", ["write unknown", '"?"']),
    ("- {kind: hub, pilot: ?}", ["write unknown", '"?"']),
    ("- {kind: hub, pilot: ?, qty: 2}", ["write unknown", '"?"']),
    ("- kind: hub\n  pilot:", ["it is empty", "unknown"]),
    ("- kind: hub\n  pilot: ''", ["it is empty", "unknown"]),
    ("- kind: hub\n  pilot: ~", ["it is empty", "unknown"]),
    ("- kind: hub\n  pilot: null", ["it is empty", "unknown"]),
    ("- kind: hub\n  note: #2 hub", ["# starts a comment", '"#2 hub"']),
    ("- kind: hub\n  pilot: # later", ["it is empty", "unknown"]),
    ("- kind: hub\n  bolt_circle: 4x100", ["write 4 x 100 mm"]),
    ("- kind: hub\n  stud_thread: 1/2", ["1/2-13 (UNC)", "1/2-20 (UNF)"]),
    ("- kind: hub\n  pilot: 67", ["67 in", "67 mm"]),
    ("- kind: hub\n  make: yes", ["true or false", "write true"]),
    ("- kind: hub\n  make: no", ["true or false", "write false"]),
    ("- kind: lug-nut\n  closed: on", ["true or false", "write true"]),
    ("- kind: hub\n  have: yes", ["write true"]),
    ("- kind: hub\n  qty: two", ["a whole number"]),
    ("- kind: hub\n  qty: 2 pcs", ["digits only"]),
    ("- kind: hub\n  note: 10:30 am: call the shop", ["colon and a blank", "quotes"]),
    ("- kind: hub\n  note: *later", ["quotes around a text that starts with *"]),
    ("- kind: hub\n  note: @home", ["quotes around a text that starts with this character"]),
    ("- kind: hub\n  note: \"5' 6\" wide\"", ["quotes around the whole value"]),
    ("- kind: hub\n\tqty: 2", ["spaces"]),
    ("- kind: bolt\n  size: 1/2-13 x 2", ["2 in"]),
    ("- kind: tire\n  load_index: 102S", ["speed_symbol"]),
    ("- kind: Hub", ["did you mean `hub`"]),
    ("- kind: lug nut", ["did you mean `lug-nut`"]),
    ("- kind: lug_nut", ["did you mean `lug-nut`"]),
    ("- kind: hub\n  boltcircle: 5 x 4.5 in", ["did you mean `bolt_circle`"]),
    ("- kind: hub\n  bolt-circle: 5 x 4.5 in", ["did you mean `bolt_circle`"]),
    ("- kind: hub\n  Bolt circle: 5 x 4.5 in", ["did you mean `bolt_circle`"]),
    ("- hub", ["a part: a map", "kind:"]),
    ("- kind: hub\n  at: L1", ["1L"]),
]  # fmt: skip


@pytest.mark.parametrize(("line", "pieces"), MESSAGES, ids=[line for line, _ in MESSAGES])
def test_one_message_that_helps(line: str, pieces: list[str]) -> None:
    message = told("parts:\n" + "".join(f"  {piece}\n" for piece in line.split("\n")))
    for piece in pieces:
        assert piece in message


def test_parts_as_a_map_is_told_as_a_list() -> None:
    assert "start each line with `- `" in told("parts:\n  hub: {kind: hub}\n")


@pytest.mark.parametrize("word", ["shiny", "no", "8.8", "n/a"])
def test_a_word_on_no_list_is_told_and_not_used(word: str) -> None:
    build = read(f"parts:\n  - kind: lug-nut\n    seat: {word}\n")
    assert not build.parts[0].has("seat")
    assert [(field, text) for _, field, text, *_ in build.untold_words] == [("seat", word)]
