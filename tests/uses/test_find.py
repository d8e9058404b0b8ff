"""``find``: parts by their values, and tried in a list; each trial as a whole check says."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest

import partscheck
from partscheck.build.apply import changed_build
from partscheck.build.change import Change
from partscheck.cli import main
from partscheck.commands.any_order import positional_first
from partscheck.engine import check_build
from partscheck.notation.faults import Faults
from partscheck.report.find_words import tried_words
from partscheck.uses.find import Finds
from partscheck.uses.trial import UNTOLD, short_by

ROOT = Path(__file__).resolve().parent.parent.parent
SCHEMA = json.loads((ROOT / "schemas" / "find.schema.json").read_text(encoding="utf-8"))
PLATES = """\
id,kind,hub_circle,wheel_circle,thickness,hub_bore,nut_seat,nut_seat_thickness,stud_thread,stud_length,rating,price,weight
good,adapter,5 x 4.5 in,5 x 5.5 in,50 mm,2.9 in,conical,14 mm,1/2-20,1.6 in,2000 lb,80,5 lb
strong,adapter,5 x 114.3 mm,5 x 139.7 mm,50 mm,74 mm,conical,14 mm,1/2-20,40 mm,4000 lb,95,3 kg
thin,adapter,5 x 4.5 in,5 x 5.5 in,44 mm,2.9 in,conical,14 mm,1/2-20,1.6 in,2000 lb,40,2 kg
weak,adapter,5 x 4.5 in,5 x 5.5 in,50 mm,2.9 in,conical,14 mm,1/2-20,1.6 in,700 lb,30,4 lb
other,adapter,5 x 4.5 in,6 x 5.5 in,50 mm,2.9 in,conical,14 mm,1/2-20,1.6 in,2000 lb,20,
unsaid,adapter,5 x 4.5 in,5 x 5.5 in,50 mm,2.9 in,conical,14 mm,1/2-20,1.6 in,,25,
"""
LIST = """\
build: plates
service: {gross_weight: 2000 lb, tongue_weight: 200 lb, surface: paved}
layout: {axles: 1}
parts:
  - {id: hub, kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, stud_length: 46 mm, pilot: 2.8 in,
     inner_bearing_to_face: 10 mm, outer_bearing_to_face: 60 mm, rating: 2200 lb, per: each, qty: 2}
  - {id: plate, part: good, qty: 2}
  - {id: wheel, kind: wheel, size: 15 x 6 in, bolt_circle: 5 x 5.5 in, rating: 1900 lb, offset: 0 mm,
     seat_thickness: 10 mm, nut_seat: conical, qty: 2}
  - {id: hub-nuts, kind: lug-nut, mounts_on: hub, thread: 1/2-20, seat: conical, depth: 18 mm, height: 20 mm,
     closed: false, qty: 10}
  - {id: nuts, kind: lug-nut, mounts_on: plate, thread: 1/2-20, seat: conical, depth: 18 mm, closed: false,
     qty: 10}
  - {id: coupler, kind: coupler, ball_diameter: 2 in, rating: 3500 lb, qty: 1}
  - {id: ball, kind: ball, diameter: 1-7/8 in, rating: 2000 lb, qty: 1}
"""

Capture = pytest.CaptureFixture[str]


@pytest.fixture
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = tmp_path / "shop"
    folder.mkdir()
    (folder / "plates.csv").write_text(PLATES, encoding="utf-8")
    (tmp_path / "list.yaml").write_text(LIST, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return folder


def ids(found: Finds) -> list[str]:
    return [one.id for one in found.candidates]


def run(capsys: Capture, *arguments: str) -> tuple[int, str, str]:
    status = main(["find", *arguments])
    out, err = capsys.readouterr()
    assert "Traceback" not in out + err
    return status, out, err


# ---- without a list -------------------------------------------------------------------------------


def test_ranges_in_either_system_cheapest_first(shop: Path) -> None:
    for thickness in ("38 to 45 mm", "1.5 to 1.77 in", "at most 45 mm"):
        assert ids(partscheck.find("adapter", [f"thickness={thickness}"], catalogs=[shop])) == ["thin"]
    stronger = partscheck.find("adapter", catalogs=[shop], rating="1000 lb or more")
    assert ids(stronger) == ["other", "thin", "good", "strong"]
    assert ids(partscheck.find("adapter", catalogs=[shop], rating=">= 1000 kg")) == ["strong"]


def test_sorted_by_weight(shop: Path) -> None:
    found = partscheck.find("adapter", catalogs=[shop], thickness="50 mm", by="weight")
    assert ids(found) == ["weak", "good", "strong", "other", "unsaid"]  # 4 lb, 5 lb, 3 kg; then the unsaid ones


def test_sizes_of_families_are_found_by_callout() -> None:
    found = partscheck.find("bolt", size="1/2-13 x 2 to 2-1/2 in", grade="5")
    assert set(ids(found)) == {f"bolt-1/2-13x{length}-grade-5" for length in ("2", "2-1/4", "2-1/2")}
    assert ids(partscheck.find("nut", thread="M12x1.75", grade="8", limit=3))
    assert set(ids(partscheck.find("bolt", size="M12", grade="8.8", limit=40))) >= {"bolt-M12x1.75x60-8.8"}


def test_the_nearest_and_what_is_not_stated(shop: Path) -> None:
    found = partscheck.find("adapter", ["rating=5000 lb or more"], catalogs=[shop])
    assert found.candidates == []
    near = found.misses[0]
    assert near.candidate.id == "strong"
    assert near.miss.by == pytest.approx(1000 * 4.4482216152605)  # N in a pound of force: 4.448 222
    assert found.unstated["rating"] >= 1


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("adaptor",), "did you mean `adapter`?"),
        (("adapter", "thicknes=3 in"), "did you mean `thickness`?"),
        (("adapter", "bolt_circle=5 x 4.5 in"), "did you mean `hub_circle`?"),
        (("adapter", "thickness=3"), "write 3 in or 3 mm"),
        (("adapter", "thickness=3 lb"), "lb is a unit"),
        (("adapter", "thickness"), "a field and its value"),
        (("adapter", "thickness="), "nothing behind the ="),
        (("adapter", "thickness=45 to 38 mm"), "smaller end"),
        (("adapter", "thickness=unknown"), "cannot be found"),
        (("adapter", "nut_seat=conicl"), "did you mean `conical`?"),
        (("adapter", "hub_circle=at least 5 x 4.5 in"), "no more and less"),
        (("adapter", "at=1L"), "cannot be asked"),
        (("adapter", "id=good"), "an id names one part"),
        (("adapter", "qty=2"), "belongs to a line of a list"),
        (("adapter", "note=old stock"), "no part is found by it"),
        (("adapter", "basis=mine"), "no part is found by it"),
        (("adapter", "--by", "margin"), "add --for LIST"),
        (("adapter", "--line", "plate"), "--for LIST"),
    ],
)
def test_what_cannot_be_asked(arguments: tuple[str, ...], words: str, capsys: Capture) -> None:
    status, out, err = run(capsys, *arguments)
    assert (status, out) == (2, "")
    assert words in " ".join(err.split())


def test_every_fault_at_once(shop: Path, capsys: Capture) -> None:
    Path("bad.yaml").write_text("parts: [{kind: hubb}]\n", encoding="utf-8")
    status, out, _ = run(capsys, "adapter", "thickness=3", "ratin=2 lb", "--for", "bad.yaml", "--format", "json")
    assert status == 2
    assert len(json.loads(out)["faults"]) == 3


# ---- in a list ------------------------------------------------------------------------------------


def tried(shop: Path, by: str = "price", **more: Any) -> Finds:
    return partscheck.find("adapter", ["hub_circle=5 x 4.5 in", "price=0 to 1000"], build="list.yaml",
                           catalogs=[shop], by=by, **more)  # fmt: skip


def stops(result: Any, folded: bool = False) -> set[tuple[str, tuple[str, ...]]]:
    """(rule, ids of the parts) of each stop."""
    every = (*result.findings, *(result.folded if folded else ()))
    return {
        (one.rule.slug, tuple(sorted(part.id for part in one.parts))) for one in every if one.verdict == "stop"
    }


def test_each_trial_is_what_a_whole_check_says(shop: Path) -> None:
    found = tried(shop, limit=20)
    build = partscheck.read_list("list.yaml", [shop])
    before = stops(check_build(build), folded=True)
    assert {one.id for one in (*found.candidates, *found.rejected)} == {
        "good",
        "strong",
        "thin",
        "weak",
        "other",
        "unsaid",
    }
    for one in (*found.candidates, *found.rejected):
        after = check_build(changed_build(build, Change().replace("plate.part", one.id)).build)
        new = {slug for slug, parts in stops(after) if (slug, parts) not in before}
        assert one.trial is not None
        assert {finding.rule.slug for finding in one.trial.brings} == new, one.id


def test_who_fits_and_who_is_rejected_and_why(shop: Path) -> None:
    found = tried(shop)
    assert found.line == "plate"
    outcomes = {one.id: one.trial.rank for one in found.candidates if one.trial is not None}
    assert {id for id, rank in outcomes.items() if rank == 0} == {"good", "strong"}
    assert outcomes["unsaid"] == UNTOLD
    lacks = next(one.trial for one in found.candidates if one.id == "unsaid").lacks  # type: ignore[union-attr]
    assert lacks == ["rating"]
    reasons = {one.id: {finding.rule.slug for finding in one.trial.brings} for one in found.rejected if one.trial}
    assert "stud-above-adapter-face" in reasons["thin"]
    assert "bolt-circle-mismatch" in reasons["other"]
    assert any("adapter" in slug or "share" in slug for slug in reasons["weak"])
    assert found.rejected[0].id != "other"  # a wrong circle cannot be near


def trials(found: Finds) -> dict[str, Any]:
    return {one.id: one.trial for one in (*found.candidates, *found.rejected)}


def test_a_field_of_another_line_that_nobody_measured_is_no_fit_yet(shop: Path, capsys: Capture) -> None:
    """How thick the wheel is under its nuts decides whether the plate's studs are long enough."""
    text = LIST.replace("     seat_thickness: 10 mm, nut_seat: conical, ", "     nut_seat: conical, ")
    Path("list.yaml").write_text(text, encoding="utf-8")
    found = tried(shop)
    assert [one.id for one in found.candidates] == ["good", "strong", "unsaid"]  # what tells all of itself first
    good, unsaid = trials(found)["good"], trials(found)["unsaid"]
    assert (good.lacks, good.needs) == ([], ["wheel.seat_thickness"])
    assert unsaid.lacks == ["rating"]
    assert found.fitting == []
    status, out, _ = run(capsys, "adapter", "--for", "list.yaml", "price=80", "--catalog", str(shop))
    words = " ".join(out.split())
    assert status == 0
    assert "FITS SO FAR" in words
    assert "FITS AND CARRIES" not in words
    assert "Measure on other lines: wheel.seat_thickness" in words


def test_a_value_too_coarse_to_tell_is_no_fit_yet(shop: Path) -> None:
    """46 mm of stud and a plate of 45 to 47 mm: it may stand proud of the face."""
    with (shop / "plates.csv").open("a", encoding="utf-8") as rows:
        rows.write(
            "coarse,adapter,5 x 4.5 in,5 x 5.5 in,46 mm ± 1 mm,2.9 in,conical,14 mm,1/2-20,40 mm,2000 lb,9,\n"
        )
    trial = trials(tried(shop))["coarse"]
    assert not trial.rejected
    assert trial.coarse == ["thickness"]
    assert trial.rank == UNTOLD


@pytest.mark.parametrize(("kind", "checked"), [("lug-nut", False), ("washer", False), ("ball", True)])
def test_what_nothing_on_the_list_touches_is_not_said_to_fit(
    shop: Path, kind: str, checked: bool, capsys: Capture
) -> None:
    """Wheel bolts hold these wheels, so nothing is there that a nut could be held against; the ball is held to
    the coupler.
    """
    (shop / "more.csv").write_text(
        "id,kind,thread,diameter,rating\nn,lug-nut,1/2-20,,\nw,washer,,,\nb,ball,,50 mm,9000 lb\n",
        encoding="utf-8",
    )
    metric = str(ROOT / "examples" / "metric-750.yaml")
    found = partscheck.find(kind, build=metric, catalogs=[shop])
    assert found.added
    assert found.checkable == checked
    assert bool(found.fitting) == checked
    status, out, _ = run(capsys, kind, "--for", metric, "--catalog", str(shop), "--format", "json")
    data = json.loads(out)
    jsonschema.Draft202012Validator(SCHEMA).validate(data)
    assert status == (0 if checked else 1)
    outcomes = {one["trial"]["outcome"] for one in data["candidates"]}
    assert ("fits" in outcomes) == checked
    assert ("not checked" in outcomes) == (not checked)
    _, out, _ = run(capsys, kind, "--for", metric, "--catalog", str(shop))
    assert ("NOTHING IS CHECKED" in out) == (not checked)


def test_the_amount_that_is_missed(shop: Path, capsys: Capture) -> None:
    """46 mm of stud out of the hub, 44 mm of plate: 2 mm too thin.  Six holes are no amount away from five."""
    found = trials(tried(shop))
    by = {one.rule.slug: short_by(one)[0] for one in found["thin"].brings}["stud-above-adapter-face"]
    assert by is not None
    assert (by.lo, by.hi) == pytest.approx((2.0, 2.0))
    assert by.unit == "mm"
    circles = [one for one in found["other"].brings if one.rule.slug == "bolt-circle-mismatch"]
    assert [short_by(one)[0] for one in circles] == [None]
    needed = 2000 * 0.9 / 2  # lb: what the axle carries, on one of two wheels
    by = {one.rule.slug: short_by(one)[0] for one in found["weak"].brings}["adapter-below-share"]
    assert by is not None
    assert by.mid == pytest.approx((needed - 700) * 4.4482216152605, rel=1e-6)
    _, out, _ = run(
        capsys, "adapter", "--for", "list.yaml", "price=30 to 40", "--catalog", str(shop), "--units", "metric"
    )
    assert "Misses by: 2 mm (0.079 in), or 4 %" in " ".join(out.split())


def test_one_reason_is_told_once_for_all_its_parts(capsys: Capture) -> None:
    """A cone that goes on neither arm is one reason, not two."""
    _, out, _ = run(
        capsys, "bearing", "designation=25877/25821", "--for", str(ROOT / "examples" / "apiary-first.yaml"),
        "--line", "inner-bearing", "--catalog", str(ROOT / "examples" / "catalog"),
    )  # fmt: skip
    assert out.count("[bearing-bore-journal]") == 1
    assert "The same of: arm-right" in out
    assert "or under 1 %" in out


@pytest.mark.parametrize("by", ["price", "weight"])
def test_what_states_no_price_or_weight_comes_last_and_is_told(shop: Path, by: str, capsys: Capture) -> None:
    (shop / "b.csv").write_text(
        "id,kind,price,weight\nx,brake,,2 kg\ny,brake,5,\nz,brake,4,3 lb\n", encoding="utf-8"
    )
    found = partscheck.find("brake", catalogs=[shop], by=by)
    assert ids(found) == (["z", "y", "x"] if by == "price" else ["z", "x", "y"])  # 3 lb is 1.36 kg
    _, out, _ = run(capsys, "brake", "--by", by, "--catalog", str(shop))
    assert f"Parts of which no {by} is known come last." in out
    _, out, _ = run(capsys, "brake", f"{by}=at most {'100' if by == 'price' else '100 kg'}", "--by", by,
                    "--catalog", str(shop))  # fmt: skip
    assert "come last" not in out


def test_packs_of_different_sizes_are_told(shop: Path, capsys: Capture) -> None:
    (shop / "n.csv").write_text(
        "id,kind,thread,price,pack\na,lug-nut,1/2-20,1.50,\nb,lug-nut,1/2-20,12,10\n", encoding="utf-8"
    )
    _, out, _ = run(capsys, "lug-nut", "price=at most 50", "--catalog", str(shop))
    assert out.index("a - 1.50") < out.index("b - 12.00 for 10")
    assert "Prices are those of one pack" in out
    _, out, _ = run(capsys, "lug-nut", "price=at most 5", "--catalog", str(shop))
    assert "one pack" not in out


def test_stops_elsewhere_reject_nothing(shop: Path) -> None:
    """The ball is of the wrong size before and after: that says nothing against a plate."""
    found = tried(shop)
    good = next(one for one in found.candidates if one.id == "good")
    assert good.trial is not None
    assert not good.trial.leaves


def test_by_margin_the_strongest_comes_first(shop: Path) -> None:
    found = tried(shop, by="margin")
    margins = [
        one.trial.margin.share
        for one in found.candidates
        if one.trial and one.trial.rank == 0 and one.trial.margin
    ]
    assert margins == sorted(margins, reverse=True)
    assert found.tried == found.matches == 6


def test_a_kind_that_the_list_lacks_is_added(shop: Path) -> None:
    found = partscheck.find("jack", build="list.yaml", catalogs=[shop])
    assert found.added
    assert found.candidates == []  # there is none in the catalogue
    (shop / "jacks.csv").write_text("id,kind,rating,price\nj,jack,1000 lb,30\nk,jack,50 lb,10\n", encoding="utf-8")
    found = partscheck.find("jack", build="list.yaml", catalogs=[shop])
    assert (found.line, found.added, found.tried) == ("jack", True, 2)
    assert "j" in ids(found)


def test_the_list_itself_stays_as_it_was(shop: Path) -> None:
    build = partscheck.read_list("list.yaml", [shop])
    values = [dict(part.values) for part in build.parts]
    partscheck.find("adapter", build=build, by="margin")
    assert [part.values for part in build.parts] == values


def test_several_lines_of_a_kind_need_a_choice(shop: Path) -> None:
    with pytest.raises(Faults) as caught:
        partscheck.find("lug-nut", build="list.yaml", catalogs=[shop])
    assert "hub-nuts, nuts" in str(caught.value)
    found = partscheck.find("lug-nut", ["thread=1/2-20"], build="list.yaml", catalogs=[shop], line="nuts")
    assert found.line == "nuts"
    with pytest.raises(Faults, match="did you mean `nuts`"):
        partscheck.find("lug-nut", build="list.yaml", catalogs=[shop], line="nutz")


def test_time_that_is_up_is_told(shop: Path, capsys: Capture) -> None:
    found = tried(shop, seconds=0.0)
    assert (found.tried, found.untried) == (1, 5)


@pytest.mark.parametrize(("by", "words"), [("margin", "one with more margin may be among them"), ("price", "")])
def test_matches_beyond_those_counted_are_told_to_be_untried(shop: Path, by: str, words: str) -> None:
    found = tried(shop, by=by)
    found.matches = found.tried = 1000
    assert "not tried" not in tried_words(found)
    found.matches_more = True  # 1000 or more, of which 1000 were tried
    assert "of 1000 or more that match. The others were not tried" in tried_words(found)
    assert words in tried_words(found)


# ---- what people see --------------------------------------------------------------------------------


@pytest.mark.parametrize("columns", ["80", "120"])
@pytest.mark.parametrize("units", ["inch", "metric"])
def test_the_screen(
    shop: Path, columns: str, units: str, capsys: Capture, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", columns)
    status, out, err = run(
        capsys, "adapter", "--for", "list.yaml", "hub_circle=5 x 4.5 in", "price=at most 90",
        "--catalog", str(shop), "--units", units,
    )  # fmt: skip
    assert (status, err) == (0, "")
    words = " ".join(out.split())
    for piece in (
        "FITS AND CARRIES", "good (on the list now) - 80.00", "CANNOT BE TOLD YET", "Measure, or ask: rating",
        "REJECTED", "[stud-above-adapter-face]", "Misses by:", "Danger:", "Rejected by rule:", "Basis of",
    ):  # fmt: skip
        assert piece in words, piece
    lines = [line for line in out.splitlines() if str(shop) not in line]  # a path is not broken
    assert max(map(len, lines)) <= min(100, int(columns))
    assert out.isascii()


def test_nothing_found_is_1(shop: Path, capsys: Capture) -> None:
    status, out, _ = run(capsys, "adapter", "rating=>= 9000 lb", "--catalog", str(shop))
    assert status == 1
    assert out.startswith("NOTHING FOUND")
    assert "NEAREST" in out
    assert "strong" in out
    status, out, _ = run(capsys, "adapter", "wheel_circle=6 x 5.5 in", "hub_circle=5 x 4.5 in", "price=1 to 30",
                         "--catalog", str(shop), "--for", "list.yaml")  # fmt: skip
    assert status == 1
    assert out.startswith("NOTHING FITS")


@pytest.mark.parametrize("more", [(), ("--for", "list.yaml"), ("rating=9000 lb or more",)])
def test_json_keeps_to_its_schema(shop: Path, more: tuple[str, ...], capsys: Capture) -> None:
    _, out, _ = run(capsys, "adapter", *more, "--catalog", str(shop), "--format", "json", "price=1 to 100")
    jsonschema.Draft202012Validator(SCHEMA).validate(json.loads(out))


def test_hostile_names_do_not_steer_the_screen(shop: Path, capsys: Capture) -> None:
    (shop / "odd.csv").write_text('id,kind,seller,thickness\n=1+1,spacer,"two\nlines",5 mm\n', encoding="utf-8")
    status, out, _ = run(capsys, "spacer", "thickness=5 mm", "--catalog", str(shop))
    assert status == 0
    assert "=1+1 - no price, two lines" in " ".join(out.split())


def test_a_row_serves_in_a_list(shop: Path) -> None:
    result = partscheck.check("list.yaml", [shop])
    plate: Any = result.build.part("plate")
    assert plate.thickness.mid == 50.0
    assert plate.values["thickness"].mark.line == 2


def test_options_and_conditions_in_any_order() -> None:
    assert positional_first(["a", "--by", "price", "x=1", "--limit=3", "y=-2", "--for", "-"]) == [
        "a", "x=1", "y=-2", "--by", "price", "--limit=3", "--for", "-",
    ]  # fmt: skip


# ---- ways to ask --------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "text", ["from 38 to 45 mm", "between 38 and 45 mm", "38 .. 45 mm", "From 1-1/2 in to 1.77 in"]
)
def test_a_range_in_other_words(shop: Path, text: str) -> None:
    assert ids(partscheck.find("adapter", [f"thickness={text}"], catalogs=[shop])) == ["thin"]


@pytest.mark.parametrize(
    ("condition", "words"),
    [
        ("thickness=at leest 38 mm", "at least A"),
        ("thickness=38 mm or moer", "A or more"),
        ("thickness==38 mm", "a range: A to B"),
        ("thickness=at least 38 to 45 mm", "not of a range"),
        ("lugs=5", "it is a part of `hub_circle`"),
    ],
)
def test_a_mistyped_range_is_told_how_to_ask(condition: str, words: str, capsys: Capture) -> None:
    status, out, err = run(capsys, "adapter", condition)
    assert (status, out) == (2, "")
    assert words in " ".join(err.split())


def test_a_bolt_circle_by_its_chord_is_the_same_circle(shop: Path) -> None:
    """5 lugs on 114.3 mm are 114.3 sin 36 deg = 67.18 mm apart; 67.2 mm is what a ruler gives.  120.65 mm is
    4.75 in, sold as 120.7 mm; 115 mm is another circle.
    """
    (shop / "w.csv").write_text(
        "id,kind,bolt_circle\na,wheel,5 x 4.5 in\nb,wheel,5 x 120.65 mm\nc,wheel,5 x 115 mm\n", encoding="utf-8"
    )
    for asked, expected in (
        ("5 lugs, 67.2 mm between neighbours", ["a"]), ("5 x 120.7 mm", ["b"]), ("5 x 115 mm", ["c"]),
        ("5 x 114.5 mm", []),
    ):  # fmt: skip
        found = partscheck.find("wheel", catalogs=[shop], bolt_circle=asked)
        assert ids(found) == expected, asked
    assert found.misses[0].miss.by == pytest.approx(0.2)  # of 114.3 mm, the tolerance not taken off


def test_another_word_is_a_near_miss(shop: Path, capsys: Capture) -> None:
    (shop / "w.csv").write_text(
        "id,kind,nut_seat,price\neur,wheel,ball,60 EUR\nbare,wheel,ball,55\n", encoding="utf-8"
    )
    status, out, _ = run(capsys, "wheel", "nut_seat=flat", "--catalog", str(shop))
    assert status == 1
    assert "bare: nut_seat ball, where flat is asked" in out
    status, out, _ = run(capsys, "wheel", "price=at most 58 EUR", "--catalog", str(shop))
    assert status == 1
    assert "eur: price 60 EUR: 2 off what is asked" in out
    assert "bare: price 55 (no currency named), where at most 58 EUR is asked" in out
    _, out, _ = run(capsys, "wheel", "nut_seat=flat", "--catalog", str(shop), "--format", "json")
    jsonschema.Draft202012Validator(SCHEMA).validate(json.loads(out))


def test_words_that_read_well(shop: Path, capsys: Capture) -> None:
    catalog = ("--catalog", str(shop))
    assert "; the first follows." in run(capsys, "adapter", "price=at most 90", "--limit", "1", *catalog)[1]
    assert "the first 2 follow." in run(capsys, "adapter", "price=at most 90", "--limit", "2", *catalog)[1]
    grades = run(capsys, "bolt", "size=1/2-13 x 3 in", "grade=8")[1]
    assert "; grade 8" in grades
    near = run(capsys, "adapter", "price=under 21 EUR", *catalog)[1]
    assert "other: price 20 (no currency named), where under 21 EUR is asked" in near


def test_a_kind_that_the_catalogue_lacks(shop: Path, capsys: Capture) -> None:
    for more in ((), ("rating=100 lb or more",), ("--for", "list.yaml")):
        status, out, _ = run(capsys, "rack", *more, *(("--catalog", str(shop)) if "--for" in more else ()))
        assert status == 1
        assert out.startswith("NOTHING FOUND - the catalogue holds no hitch rack.")


def test_what_lacks_an_amount_is_nearer_than_what_has_another_form(shop: Path) -> None:
    """700 lb is a third of what is needed, a circle of 5.45 in is 1 % off: more of a rating can be bought."""
    with (shop / "plates.csv").open("a", encoding="utf-8") as rows:
        rows.write("near,adapter,5 x 4.5 in,5 x 5.45 in,50 mm,2.9 in,conical,14 mm,1/2-20,1.6 in,2000 lb,10,\n")
    order = [one.id for one in tried(shop).rejected]
    assert order.index("weak") < order.index("near")
    assert order.index("thin") < order.index("other")
