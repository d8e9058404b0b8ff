"""Every kind and field of the input contract is there, explained, and measurable where it is measured."""

from __future__ import annotations

import pytest

from partscheck.parts import records
from partscheck.parts.common import ListLine
from partscheck.parts.field import Field
from partscheck.parts.kinds import KINDS
from partscheck.parts.record import Record
from partscheck.parts.types import (
    BoltCircleType,
    Measured,
    ThreadType,
    TireSizeType,
    WheelSizeType,
    Words,
)

COMMON = "id part kind qty packs pack price seller weight have at mounts_on per make basis note"

SPINDLE = (
    "inner_journal outer_journal seal_journal shoulder_to_face shoulder_to_thread shoulder_to_cotter "
    "nut_thread brake_flange material"
)

# Typed from the contract, kind by kind; a kind may have more, never less.
CONTRACT = {
    "axle": "rating hub_face_distance spring_distance tube brake_flange equalized " + SPINDLE,
    "suspension-arm": "rating hand lift mount_thread brake_flange face_to_arm shim_pattern travel " + SPINDLE,
    "leaf-spring": "rating length eye width center_pin",
    "hanger": "hole",
    "shackle": "hole length",
    "equalizer": "rating",
    "u-bolt": "thread inside length grade",
    "spindle": "rating " + SPINDLE,
    "hub": "bolt_circle stud_thread stud_length stud_point stud_thread_start hole_thread hole_depth pilot "
    "pilot_height cap_height cap_diameter face_diameter rating inner_cup_bore outer_cup_bore "
    "seal_bore cap_bore cone_to_cone inner_bearing_to_face outer_bearing_to_face drum_diameter "
    "drum_width drum_outside inner_bearing_mid_to_face outer_bearing_mid_to_face",
    "bearing": "place designation cone cup bore outside width a dynamic_rating static_rating rating_turns "
    "e_factor y_factor includes",
    "seal": "inside outside width lips",
    "dust-cap": "outside",
    "spindle-nut": "thread",
    "spindle-washer": "inside",
    "cotter-pin": "diameter length",
    "grease": "service_class nlgi_grade thickener amount dropping_point",
    "brake": "type hand drum_diameter shoe_width rating flange current voltage design_tire_radius",
    "adapter": "hub_circle wheel_circle hub_bore wheel_pilot wheel_pilot_height thickness nut_seat "
    "nut_seat_thickness nut_pocket_diameter hub_nut_thread stud_thread stud_length rating material",
    "spacer": "bolt_circle bore thickness",
    "wheel": "size bolt_circle center_bore offset backspace rating max_pressure nut_seat seat_angle "
    "seat_radius seat_thickness lug_well_diameter stud_pocket_depth stud_pocket_circle "
    "checked_on_wheel barrel_inside pad_diameter valve_rating",
    "tire": "size service_description load_index speed_symbol load_range max_load max_pressure "
    "rated_pressure diameter loaded_radius rim_width_range dot_week construction",
    "lug-nut": "thread seat seat_angle seat_radius height depth shank_length closed hex",
    "wheel-bolt": "thread length seat seat_angle seat_radius hex grade",
    "stud": "thread length knurl_diameter grade",
    "bolt": "size grade finish head thread_length locking",
    "nut": "thread grade finish height locking",
    "washer": "for inside outside thickness hardness type",
    "coupler": "ball_diameter rating tongue_rating d_value channel_width",
    "ball": "diameter shank_diameter shank_length rating d_value mounting",
    "ball-mount": "shank_size ball_hole thickness drop rating tongue_rating",
    "receiver": "size rating tongue_rating place",
    "safety-chain": "breaking_strength working_load grade size length type hook_rating",
    "jack": "rating",
    "breakaway-kit": "voltage capacity",
    "battery": "voltage capacity",
    "brake-controller": "voltage",
    "connector": "ways",
    "wire": "gauge run length fuse",
    "lamp": "function color position current",
    "reflector": "color position",
    "fender": "inside_width arch_radius arch_length height",
    "shim": "thickness angle",
    "rack": "rating weight_carried beyond_pin",
    "tank": "volume",
    "other": "what",
}

RECORDS = {
    "Service": "gross_weight weighed tongue_weight top_speed surface country note",
    "Layout": "axles gawr equalized hub_face_distance frame_width coupler_to_axle axle_spacing "
    "coupler_height ground_clearance overall_width overall_length tongue note",
    "Tongue": "section wall free_length material",
    "TowVehicle": "tow_rating tow_rating_unbraked tongue_rating hitch_height connector_ways "
    "brake_controller note",
    "LoadEntry": "what weight from_coupler from_centre moves_with_axle cases note",
    "BoltedJoint": "id bolt nut tapped washers bolts places stack load pattern load_at direction centred "
    "shear_planes torque vibration note",
    "Tapped": "thread depth drill_depth material through coated",
    "Washers": "head nut",
    "StackItem": "name thickness hole edge material coated wall gap",
    "JointLoad": "shear tension from at",
    "PracticeOverride": "value reason",
    "Acceptance": "rule part reason",
    "PartsList": "build service layout parts bolted_joints loads load_cases tow_vehicle practice accept "
    "as_of note",
}

EVERY_RECORD: list[type[Record]] = [*KINDS.values(), *(getattr(records, name) for name in RECORDS)]
EVERY_FIELD = [
    pytest.param(field, id=f"{record.__name__}.{field.key}")
    for record in EVERY_RECORD
    for field in record.fields.values()
    if record in (KINDS["hub"],) or field.name not in ListLine.fields or record not in KINDS.values()
]
CHOSEN = {
    "top_speed",
    "torque",
    "shear",
    "tension",
}  # what the builder decides or computes, nothing to measure
FROM_TABLES = {"rim_width_range", "a"}  # lengths read in a table: no accuracy of a measurement


def test_the_kinds_are_those_of_the_contract() -> None:
    assert set(KINDS) == set(CONTRACT)


@pytest.mark.parametrize("kind", sorted(CONTRACT))
def test_kind_has_the_fields_of_the_contract(kind: str) -> None:
    keys = {field.key for field in KINDS[kind].fields.values()}
    assert keys >= {*CONTRACT[kind].split(), *COMMON.split()}


@pytest.mark.parametrize("name", sorted(RECORDS))
def test_record_has_the_fields_of_the_contract(name: str) -> None:
    keys = {field.key for field in getattr(records, name).fields.values()}
    assert keys >= set(RECORDS[name].split())


def test_python_words_keep_their_own_spelling_as_keys() -> None:
    assert KINDS["washer"].fields["for_"].key == "for"
    assert records.JointLoad.fields["from_"].key == "from"


def test_kinds_have_a_title_in_trade_words() -> None:
    titles = [kind.title for kind in KINDS.values()]
    assert all(titles)
    assert len(set(titles)) == len(titles)


@pytest.mark.parametrize("record", EVERY_RECORD, ids=lambda record: record.__name__)
def test_keys_are_unique_in_a_record(record: type[Record]) -> None:
    keys = [field.key for field in record.fields.values()]
    assert len(set(keys)) == len(keys)


@pytest.mark.parametrize("field", EVERY_FIELD)
def test_meaning_is_one_line_in_plain_ascii(field: Field) -> None:
    assert len(field.meaning) > 8
    assert "\n" not in field.meaning
    assert (field.meaning + field.measure).isascii()
    assert not field.meaning.endswith(".")
    assert "  " not in field.meaning + field.measure
    assert not field.measure or field.measure.rstrip("\"')").endswith(".")


@pytest.mark.parametrize("field", EVERY_FIELD)
def test_what_is_measured_says_how_and_how_well(field: Field) -> None:
    markings = (BoltCircleType, ThreadType, WheelSizeType, TireSizeType)
    if not isinstance(field.type, (Measured, *markings)) or field.key in CHOSEN:
        return
    assert len(field.measure) > 8
    if isinstance(field.type, Measured) and field.type.dimension == "length" and field.key not in FROM_TABLES:
        assert field.accuracy is not None
        assert 0 < field.accuracy <= 50


@pytest.mark.parametrize("kind", ["hub", "adapter", "wheel", "tire", "lug-nut", "wheel-bolt"])
def test_every_field_at_the_wheel_end_has_instructions(kind: str) -> None:
    own = [field for name, field in KINDS[kind].fields.items() if name not in ListLine.fields]
    assert [field.key for field in own if len(field.measure) < 15] == []


def test_fields_off_a_marking_say_where_it_stands() -> None:
    wheel, tire = KINDS["wheel"].fields, KINDS["tire"].fields
    assert "stamped" in wheel["rating"].measure
    assert "stamped" in wheel["size"].measure
    for name in ("size", "load_index", "load_range", "max_load", "max_pressure", "dot_week"):
        assert "sidewall" in tire[name].measure


def test_every_words_field_lists_its_own_words() -> None:
    for record in EVERY_RECORD:
        for field in record.fields.values():
            if isinstance(field.type, Words):
                for word in (*field.type.allowed, *field.type.synonyms):
                    assert field.type.read(word, None) in field.type.allowed, (record, field.key, word)


def test_a_field_left_out_reads_as_unknown() -> None:
    hub = KINDS["hub"]("front")
    assert (hub.stud_length.lo, hub.stud_length.hi) == (0.0, float("inf"))  # type: ignore[attr-defined]
    assert not hub.bolt_circle.known  # type: ignore[attr-defined]
    assert not hub.has("stud_length")
    assert hub.id == "front"
    offset = KINDS["wheel"]().offset  # type: ignore[attr-defined]
    assert (offset.lo, offset.hi) == (-float("inf"), float("inf"))


def test_a_tongue_left_out_reads_as_a_tongue_of_unknowns() -> None:
    layout = records.Layout()
    assert not layout.has("tongue")
    assert not layout.tongue.wall.known


@pytest.mark.parametrize(
    ("count", "factor"),
    # Circle = chord / sin(180 deg k / n), k = 1 for neighbours, 2 for every other (plane geometry).
    [((5, 1), 1.7013), ((5, 2), 1.0515)],
)
def test_factors_in_the_bolt_circle_instructions(count: tuple[int, int], factor: float) -> None:
    from math import pi, sin

    lugs, step = count
    assert round(1 / sin(pi * step / lugs), 4) == factor
    assert str(factor) in KINDS["wheel"].fields["bolt_circle"].measure
