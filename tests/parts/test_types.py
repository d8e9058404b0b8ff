"""How the text of each type of field becomes a value, and what is refused with which hint."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from partscheck.notation.errors import NotationError
from partscheck.notation.interval import INF
from partscheck.notation.words import UNKNOWN_WORD
from partscheck.parts import types as t
from partscheck.parts.common import SEAT
from partscheck.parts.records import Tongue


class Tables:
    """The one row of the coarse metric series that these tests need (ISO 261: M12 is 1.75 mm; recalled)."""

    def row(self, table: str, key: str) -> dict[str, Any] | None:
        return {"pitch_mm": 1.75} if (table, key) == ("metric_coarse", "M12") else None

    def rows(self, table: str) -> list[dict[str, Any]]:
        return []


TABLES = Tables()

EVERY_TYPE = [
    t.Length(), t.Distance(), t.Load(), t.Mass(), t.Pressure(), t.Torque(), t.Speed(), t.Angle(), t.Area(),
    t.Volume(), t.Current(), t.Voltage(), t.Charge(), t.Temperature(), t.Ratio(), t.RangeInches(),
    t.LengthOrFull(), t.Number(), t.Count(), t.Flag(), t.CountOrFlag(), t.Money(), t.Text(), t.Id(),
    t.Ids(), t.ThreadType(), t.BoltCircleType(), t.WheelSizeType(), t.TireSizeType(), t.OffsetType(),
    t.GradeType(), t.DotWeekType(), t.PositionsType(), t.FastenerSizeType(), t.WireGaugeType(),
    t.ServiceDescriptionType(), t.LoadIndexType(), t.MonthType(), t.ForSizeType(), t.SectionType(),
    t.Words("a", "b"), t.Point(), t.Points(),
]  # fmt: skip


@pytest.mark.parametrize("kind", EVERY_TYPE, ids=lambda kind: type(kind).__name__)
def test_unknown_reads_as_the_unknown_value(kind: t.TypedText) -> None:
    for text in ("unknown", "?", " Unknown "):
        assert kind.read(text, TABLES) is kind.unknown


@pytest.mark.parametrize("kind", EVERY_TYPE, ids=lambda kind: type(kind).__name__)
def test_every_example_reads(kind: t.TypedText) -> None:
    for example in kind.schema().get("examples", []):
        kind.read(_as_text(example), TABLES)


def _as_text(example: Any) -> Any:
    """An example of a schema as the reader gets it: text, or lists of it."""
    if isinstance(example, list):
        return [_as_text(one) for one in example]
    return example if isinstance(example, str) else str(example).lower()


@pytest.mark.parametrize(
    ("kind", "text", "value", "unit"),
    # By definition: 1 in = 25.4 mm, 1 lb = 0.45359237 kg, standard gravity 9.80665 m/s2, 1 mi = 1.609344 km.
    [
        (t.Length(), "1.5 in", 38.1, "mm"),
        (t.Load(), "2200 lb", 2200 * 0.45359237 * 9.80665, "N"),
        (t.Load(), "9.8 kN", 9800.0, "N"),
        (t.Mass(), "14 lb", 14 * 0.45359237, "kg"),
        (t.Speed(), "60 mph", 96.56064, "km/h"),
        (t.Ratio(), "4 %", 0.04, ""),
        (t.OffsetType(), "ET 30", 30.0, "mm"),
        (t.OffsetType(), "-12 mm", -12.0, "mm"),
        (t.ForSizeType(), "M12", 12.0, "mm"),
        (t.ForSizeType(), "1/2-13", 12.7, "mm"),
        (t.ForSizeType(), "1/2 in", 12.7, "mm"),
        (t.Number(), "90e6", 9e7, ""),
    ],
)
def test_measures_in_house_units(kind: t.TypedText, text: str, value: float, unit: str) -> None:
    read = kind.read(text, TABLES)
    assert read.lo == pytest.approx(value)
    assert read.is_exact
    assert read.unit == unit
    assert read.text == text


def test_negative_is_refused_where_it_makes_no_sense() -> None:
    with pytest.raises(NotationError, match="less than 0"):
        t.Length().read("-1 in", TABLES)
    assert t.Distance().read("-1 in", TABLES).lo == pytest.approx(-25.4)
    with pytest.raises(NotationError, match="more than 180"):
        t.Angle().read("181 deg", TABLES)
    assert t.Angle().read("180 deg", TABLES).hi == pytest.approx(180)


def test_a_tolerance_past_nothing_is_cut_off_there() -> None:
    read = t.Length().read("0.2 mm ± 0.5 mm", TABLES)
    assert (read.lo, read.hi, read.toleranced) == (0.0, pytest.approx(0.7), True)


@pytest.mark.parametrize("text", ["5.5 to 7 in", "5.5 - 7 in", "5.5-7.0 in"])
def test_range_of_rim_widths(text: str) -> None:
    read = t.RangeInches().read(text, TABLES)
    assert (read.lo, read.hi) == (pytest.approx(139.7), pytest.approx(177.8))
    assert read.text == text


def test_full_thread() -> None:
    assert t.LengthOrFull().read("Full", TABLES) == "full"
    assert t.LengthOrFull().read("1-1/4 in", TABLES).lo == pytest.approx(31.75)


@pytest.mark.parametrize(
    ("text", "lo", "hi"),
    [
        ("1.6", 1.6, 1.6),
        ("1.5 to 1.7", 1.5, 1.7),
        ("1.6 ± 0.1", 1.5, 1.7),
        (".37", 0.37, 0.37),
        ("1,000,000", 1e6, 1e6),
    ],
)
def test_numbers(text: str, lo: float, hi: float) -> None:
    read = t.Number().read(text, TABLES)
    assert (read.lo, read.hi) == (pytest.approx(lo), pytest.approx(hi))


@pytest.mark.parametrize(
    "text", ["", "x", "1.6 mm", "1,6", "--1", "1.7 to 1.5", "-1", "1e999", "nan", "inf", "1_000", "e5"]
)
def test_no_numbers(text: str) -> None:
    with pytest.raises(NotationError):
        t.Number().read(text, TABLES)


def test_decimal_comma_is_refused_with_the_right_spelling() -> None:
    with pytest.raises(NotationError) as caught:
        t.Number().read("1,6", TABLES)
    assert caught.value.hint == "write 1.6"
    with pytest.raises(NotationError) as caught:
        t.Money().read("41,50 EUR", TABLES)
    assert caught.value.hint == "write 41.50 EUR"


@pytest.mark.parametrize("text", ["-2", "2.0", "2 pcs", "two", "1e3", "", "99999999999999999999", "\u0662"])
def test_no_counts(text: str) -> None:
    with pytest.raises(NotationError):
        t.Count().read(text, TABLES)


def test_counts() -> None:
    assert t.Count().read(" 0 ", TABLES) == 0
    assert t.Count(1, 5, {"double": 2}).read("Double", TABLES) == 2
    with pytest.raises(NotationError):
        t.Count(1).read("0", TABLES)


@pytest.mark.parametrize(
    ("text", "meant"), [("yes", "true"), ("No", "false"), ("on", "true"), ("OFF", "false")]
)
def test_flags_take_true_and_false_only(text: str, meant: str) -> None:
    assert t.Flag().read("true", TABLES) is True
    assert t.Flag().read("False", TABLES) is False
    for kind in (t.Flag(), t.CountOrFlag()):
        with pytest.raises(NotationError) as caught:
            kind.read(text, TABLES)
        assert caught.value.hint == f"write {meant}"


def test_have_is_a_flag_or_a_count() -> None:
    assert t.CountOrFlag().read("true", TABLES) is True
    assert t.CountOrFlag().read("4", TABLES) == 4


def test_money() -> None:
    price = t.Money().read("1,041.5 EUR", TABLES)
    assert (price.hundredths, price.currency, price.amount) == (104150, "EUR", 1041.5)
    assert t.Money().read("41.50", TABLES).currency == ""
    with pytest.raises(NotationError, match=r"write 41\.50"):
        t.Money().read("$41.50", TABLES)


@given(st.integers(0, 10**9 - 1), st.integers(0, 99))
def test_money_keeps_every_cent(whole: int, part: int) -> None:
    assert t.Money().read(f"{whole}.{part:02d}", TABLES).hundredths == whole * 100 + part


@given(st.text(max_size=40))
def test_any_text_reads_or_is_refused_cleanly(text: str) -> None:
    for kind in EVERY_TYPE:
        if kind.many:
            continue
        outcome = read_or_error(kind, text)
        assert not isinstance(outcome, NotationError) or outcome.expected


def read_or_error(kind: t.TypedText, text: str) -> Any:
    """The value, or the one exception that a type may raise."""
    try:
        return kind.read(text, TABLES)
    except NotationError as error:
        return error


def test_words_and_their_synonyms() -> None:
    assert SEAT.read("conical", TABLES) == "conical"
    assert SEAT.read("Acorn", TABLES) == "conical"
    assert SEAT.read("mag", TABLES) == "shank"
    assert SEAT.read("radius", TABLES) == "ball"
    assert SEAT.read("unknown", TABLES) is UNKNOWN_WORD


def test_an_unlisted_word_is_told_not_taken() -> None:
    read = SEAT.read("conicle", TABLES)
    assert isinstance(read, t.UnlistedWord)
    assert (read.text, read.nearest) == ("conicle", "conical")
    assert not isinstance(read, str)


def test_a_synonym_of_nothing_is_a_mistake_in_the_list() -> None:
    with pytest.raises(ValueError, match="not on the list"):
        t.Words("a", synonyms={"b": "c"})


@pytest.mark.parametrize("text", ["cone-nut-1/2-20", "adapter-5x4.5-to-5x5.5", "arm to frame", "w1", "2"])
def test_ids(text: str) -> None:
    assert t.Id().read(text, TABLES) == text


@pytest.mark.parametrize("text", ["", " ", "a\nb", "=1+1", "<b>", "a" * 90, "a,b"])
def test_no_ids(text: str) -> None:
    with pytest.raises(NotationError):
        t.Id().read(text, TABLES)


def test_places_one_or_a_list() -> None:
    assert [str(one) for one in t.PositionsType().read("1L", TABLES)] == ["1L"]
    assert [str(one) for one in t.PositionsType().read(["1L", "2R", "spare"], TABLES)] == [
        "1L",
        "2R",
        "spare",
    ]
    with pytest.raises(NotationError):
        t.PositionsType().read(["1L", "left"], TABLES)


def test_points() -> None:
    across, up = t.Point().read(["4 in", "0 in"], TABLES)
    assert (across.lo, up.lo) == (pytest.approx(101.6), 0.0)
    assert [
        [one.lo for one in point] for point in t.Points().read([["0 in", "0 in"], ["2 in", "-1 in"]], TABLES)
    ] == [
        [0.0, 0.0],
        [pytest.approx(50.8), pytest.approx(-25.4)],
    ]
    assert [one.lo for one in t.Point(plain=True).read(["0", "-1"], TABLES)] == [0.0, -1.0]
    for wrong in (["1 in"], "1 in", ["1 in", "2 in", "3 in"]):
        with pytest.raises(NotationError):
            t.Point().read(wrong, TABLES)
    with pytest.raises(NotationError):
        t.Points().read(["1 in", "2 in"], TABLES)


def test_section_of_a_tube_upright_side_first() -> None:
    section = t.SectionType().read("3 x 2 in", TABLES)
    assert (section.height.lo, section.width.lo) == (pytest.approx(76.2), pytest.approx(50.8))
    assert t.SectionType.unknown.height.hi == INF
    for wrong in ("3 in", "3 x 2", "3 x 2 x 1 in", "0 x 2 in"):
        with pytest.raises(NotationError):
            t.SectionType().read(wrong, TABLES)


def test_load_index_is_that_of_a_single_wheel() -> None:
    assert t.LoadIndexType().read("104/101", TABLES) == 104
    for wrong in ("104S", "280", "", "-1"):
        with pytest.raises(NotationError):
            t.LoadIndexType().read(wrong, TABLES)


def test_nested_maps_are_not_read_from_text() -> None:
    assert t.Nested(Tongue).unknown.id == "tongue"
    with pytest.raises(NotationError):
        t.Nested(Tongue).read("3 x 3 in", TABLES)
    load = t.Nested(Tongue, unknown_allowed=True)
    assert load.read("unknown", TABLES) is load.unknown
