"""Stock lengths, and the families of bolts, nuts and washers against the tables."""

from __future__ import annotations

import csv
from importlib import resources

import pytest
from catalogue_rows import row_of, strengths

from partscheck.catalogue import Catalogue

# -- lengths and families -----------------------------------------------------------------------


def test_stock_lengths(shipped: Catalogue) -> None:
    rows = shipped.rows("stock_length")
    for system in ("inch", "metric"):
        lengths = [row["length_mm"] for row in rows if row["system"] == system]
        assert lengths == sorted(set(lengths))
    # Shigley, 9e, Ex 8-4: 2.229 in takes the next length up, 2-1/4 in
    longer = [row["key"] for row in rows if row["system"] == "inch" and row["length_mm"] >= 2.229 * 25.4]
    assert longer[0] == "2-1/4 in"


def test_metric_stock_lengths_against_the_library(shipped: Catalogue) -> None:
    pytest.importorskip("bd_warehouse", reason="bd_warehouse is not installed")
    with (resources.files("bd_warehouse") / "data" / "nominal_screw_lengths.csv").open(
        encoding="utf-8"
    ) as stream:
        printed = {row["Screw_Type"]: row["Nominal_Sizes"].split(",") for row in csv.DictReader(stream)}
    theirs = {float(length) for length in printed["iso4014"] + printed["iso4017"]}
    ours = [row["length_mm"] for row in shipped.rows("stock_length") if row["system"] == "metric"]
    assert ours == sorted(length for length in theirs if 12 <= length <= 200)


def test_bolts_are_stock_and_found_by_callout(shipped: Catalogue) -> None:
    part = shipped.part("bolt-1/2-13x2-1/2-grade-5")
    assert part is not None
    assert {name: text for name, (text, *_) in part.fields.items()} == {
        "size": "1/2-13 x 2-1/2 in", "grade": "grade 5", "head": "hex",
    }  # fmt: skip
    metric = shipped.part("bolt-M12x1.75x60-8.8")
    assert metric is not None
    assert metric.fields["size"][0] == "M12x1.75 x 60 mm"


def test_a_callout_with_a_piece_left_out_finds_the_part_it_is_of(shipped: Catalogue) -> None:
    assert shipped.nearest("bolt-M12x60-8.8")[0] == "bolt-M12x1.75x60-8.8"
    assert shipped.nearest("bolt-1/2-13x2-1/2-8")[0] == "bolt-1/2-13x2-1/2-grade-8"
    assert shipped.nearest("Bolt-1/2x2-1/2-grade-5")[:2] == [
        "bolt-1/2-13x2-1/2-grade-5",
        "bolt-1/2-20x2-1/2-grade-5",
    ]


def test_every_bolt_of_the_families_lies_within_the_tables(shipped: Catalogue) -> None:
    from partscheck.notation.fastener_size import read_fastener_size
    from partscheck.notation.grade import read_grade

    lengths = [row["length_mm"] for row in shipped.rows("stock_length")]
    bolts = shipped.parts("bolt")
    assert len(bolts) > 900
    for bolt in bolts:
        size = read_fastener_size(bolt.fields["size"][0], shipped)
        assert size.thread.series in ("UNC", "UNF", "M"), bolt.id
        name = next(
            row
            for row in shipped.rows("hex_bolt")
            if row["key"].startswith("M") != size.thread.inch
            and abs(row["diameter_mm"] - size.thread.diameter.mid) < 0.01
        )
        assert name["shortest_mm"] - 0.01 <= size.length.mid <= name["longest_mm"] + 0.01, bolt.id
        assert min(abs(length - size.length.mid) for length in lengths) < 0.01, bolt.id
        grade = read_grade(bolt.fields["grade"][0]).on_thread(size.thread.inch)
        assert strengths(shipped, "bolt_grade", grade.system, grade.mark, size.thread.diameter.mid)


def test_nuts_of_the_families_have_the_heights_of_the_table(shipped: Catalogue) -> None:
    from partscheck.notation.measure import read_quantity
    from partscheck.notation.thread import read_thread

    for id in (
        "nut-1/2-13-grade-5",
        "nut-3/4-16-grade-8",
        "nut-M12-8",
        "locknut-1/2-13-grade-5",
        "locknut-M12-8",
    ):
        assert shipped.part(id) is not None, id
    heights = {
        (row["diameter_mm"], row["key"].startswith("M")): row["height_mm"]
        for row in shipped.rows("nut_size")
        if row["type"] == "hex"
    }
    for nut in shipped.parts("nut"):
        if nut.id.startswith("locknut"):
            assert nut.fields["locking"][0] == "nylon insert"
            assert "height" not in nut.fields
            continue
        thread = read_thread(nut.fields["thread"][0], shipped)
        found = read_quantity(nut.fields["height"][0], "length").mid
        assert found == pytest.approx(heights[round(thread.diameter.mid, 6), not thread.inch]), nut.id


def test_washers_of_the_families_have_the_sizes_of_the_table(shipped: Catalogue) -> None:
    from partscheck.notation.measure import read_quantity

    for id in ("washer-1/2-sae", "washer-1/2-uss", "washer-1/2-hardened", "washer-M12", "washer-M12-300HV"):
        assert shipped.part(id) is not None, id
    washers = shipped.parts("washer")
    assert len(washers) == 8 + 8 + 7 + 8 + 16
    for washer in washers:
        size, _, sort = washer.id.removeprefix("washer-").partition("-")
        row = row_of(shipped, "washer_size", f"{size} {'iso' if size.startswith('M') else sort}")
        read = {
            name: read_quantity(washer.fields[name][0], "length")
            for name in ("inside", "outside", "thickness")
        }
        assert read["inside"].mid == pytest.approx(row["inside_mm"], abs=1e-4), washer.id
        assert read["outside"].mid == pytest.approx(row["outside_mm"], abs=1e-4), washer.id
        ends = (read["thickness"].lo, read["thickness"].hi)
        assert ends == pytest.approx((row["least_thickness_mm"], row["most_thickness_mm"]), abs=1e-4), (
            washer.id
        )
