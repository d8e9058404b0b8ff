"""``find`` against another engine: the same numbers in a database of its own, asked in SQL.

Nothing of the project reads the numbers here: each part and each question is drawn as numbers first, in house
units, and only then written down, in a unit and a spelling drawn at random.  The conversions are the exact ones
(1 in = 25.4 mm, 1 lb = 0.45359237 kg, both by the agreement of 1959; 1 kg weighs 9.80665 N, CGPM 1901).
"""

from __future__ import annotations

import json
import math
import random
import shutil
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

import partscheck
from partscheck.catalogue import layers

if TYPE_CHECKING:
    from collections.abc import Iterator

duckdb = pytest.importorskip("duckdb", reason="duckdb is not installed")

INCH, POUND, GRAVITY = Fraction("25.4"), Fraction("0.45359237"), Fraction("9.80665")
UNITS: dict[str, dict[str, Fraction]] = {
    "thickness": {"in": INCH, "mm": Fraction(1), "cm": Fraction(10)},
    "rating": {"lb": POUND * GRAVITY, "kg": GRAVITY, "kN": Fraction(1000), "N": Fraction(1)},
    "weight": {"lb": POUND, "kg": Fraction(1), "g": Fraction(1, 1000)},
}
# Amounts in each unit.  Within a field no two of them are nearer than 0.01 mm, 1 N or 1 g without being the same.
AMOUNTS: dict[str, dict[str, tuple[str, ...]]] = {
    "thickness": {
        "in": ("1", "1-1/4", "1.5", "1-1/2", "1.75", "2"),
        "mm": ("25.4", "30", "38", "38.1", "40", "44.45", "50.8"), "cm": ("3.81", "4"),
    },
    "rating": {
        "lb": ("900", "1200", "2000", "2,000", "3500"), "kg": ("500", "907.18474", "1600"),
        "kN": ("4", "9"), "N": ("4000",),
    },
    "weight": {"lb": ("4", "5", "10"), "kg": ("2", "2.26796185", "4.5"), "g": ("2000", "2500")},
}  # fmt: skip
SLACK = {"thickness": 1e-3, "rating": 1e-6, "weight": 1e-7, "price": 1e-9}
SEATS = {
    "conical": ("conical", "tapered", "Conical"), "ball": ("ball", "radius"), "flat": ("flat",),
}  # fmt: skip
SELLERS = ("Two Gates", "tin roof", "Corner 'n' Sons", 'The "Works"', "Gate; and Post", "")
CIRCLES = (  # lugs, mm, spellings
    (5, 114.3, ("5 x 4.5 in", "5x114.3 mm", "5 x 4-1/2 in", "5 lugs, 67.18 mm between neighbours")),
    (5, 139.7, ("5 x 5.5 in", "5 x 139.7 mm")),
    (5, 112.0, ("5 x 112 mm",)),
    (4, 100.0, ("4 x 100 mm",)),
    (4, 101.6, ("4 x 4 in", "4x101.6 mm")),
    (6, 139.7, ("6 x 5.5 in", "6 x 139.7 mm")),
)
SAME_CIRCLE = 0.1  # mm, the limit of practice
KEYS = ("thickness", "rating", "weight", "price", "nut_seat", "seller", "hub_circle")

Row = dict[str, Any]


@pytest.fixture(autouse=True)
def small_shipped_catalogue(tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch) -> None:
    """No part of the shipped catalogue: what is found is what was drawn."""
    folder = tmp_path_factory.mktemp("shipped")
    for name in ("practice.yaml", "unf.yaml"):
        shutil.copy(Path(layers.shipped_folder()) / name, folder / name)
    monkeypatch.setattr(layers, "shipped_folder", lambda: str(folder))


# ---- numbers, and how they are written ----------------------------------------------------------


def exact(amount: str) -> Fraction:
    whole, _, part = amount.replace(",", "").rpartition("-")
    return Fraction(part) + Fraction(whole or 0)


def drawn(draw: random.Random, field: str) -> tuple[Fraction, str, str]:
    """(value in house units, amount, unit)."""
    unit = draw.choice(sorted(UNITS[field]))
    amount = draw.choice(AMOUNTS[field][unit])
    return exact(amount) * UNITS[field][unit], amount, unit


def stated(draw: random.Random, field: str) -> tuple[float | None, float | None, str]:
    """(low, high, text) of what a part states: exactly, with a tolerance, as a range, not known, or not at all."""
    value, amount, unit = drawn(draw, field)
    form = draw.choice(("exact", "exact", "exact", "tolerance", "uneven", "range", "unknown", ""))
    size = UNITS[field][unit]
    step = Fraction(1, 8) if field == "thickness" else Fraction(50)
    if form == "tolerance" and field != "weight":
        return float(value - step * size), float(value + step * size), f"{amount} {unit} ± {float(step):g} {unit}"
    if form == "uneven" and field == "thickness":
        return float(value), float(value + step * size), f"{amount} {unit} +{float(step):g}/-0 {unit}"
    if form == "range" and "-" not in amount:
        more = exact(amount) + step * 2
        return float(value), float(more * size), f"{amount} to {float(more):g} {unit}"
    if form in ("unknown", ""):
        return None, None, form
    return float(value), float(value), f"{amount} {unit}"


def part(draw: random.Random, id: str) -> tuple[Row, dict[str, str]]:
    """A part as numbers, and as texts."""
    row: Row = {"id": id}
    texts = {"id": id, "kind": "adapter"}
    for field in UNITS:
        row[f"{field}_lo"], row[f"{field}_hi"], texts[field] = stated(draw, field)
    amount = draw.choice((None, "10", "12.50", "60", "1000"))
    row["currency"] = draw.choice(("", "EUR", "USD")) if amount else None
    row["price"] = None if amount is None else float(amount)
    texts["price"] = f"{amount or ''} {row['currency'] or ''}".strip()
    row["nut_seat"] = draw.choice((None, *SEATS))
    texts["nut_seat"] = draw.choice(SEATS[row["nut_seat"]]) if row["nut_seat"] else ""
    row["seller"] = texts["seller"] = draw.choice(SELLERS)
    row["seller"] = row["seller"] or None
    lugs, circle, spellings = draw.choice(CIRCLES)
    row["lugs"], row["circle"], texts["hub_circle"] = lugs, circle, draw.choice(spellings)
    if draw.random() < 0.2:
        row["lugs"] = row["circle"] = None
        texts["hub_circle"] = ""
    return row, texts


# ---- questions: the words for `find`, and the SQL -------------------------------------------------


def asked(draw: random.Random, field: str) -> tuple[str, str, str]:
    """(condition, the SQL of what meets it, the SQL of what does not state the field)."""
    if field == "nut_seat":
        seat = draw.choice(sorted(SEATS))
        return f"nut_seat={draw.choice(SEATS[seat])}", f"nut_seat = '{seat}'", "nut_seat IS NULL"
    if field == "seller":
        piece = draw.choice(("gate", "ROOF", "'n'", '"w', "; and"))
        return f"seller={piece}", f"contains(lower(seller), lower('{piece.replace(chr(39), chr(39) * 2)}'))", ""
    if field == "hub_circle":
        lugs, circle, spellings = draw.choice(CIRCLES)
        met = f"lugs = {lugs} AND abs(circle - {circle}) <= {SAME_CIRCLE}"
        return f"hub_circle={draw.choice(spellings)}", met, "circle IS NULL"
    if field == "price":
        return asked_price(draw)
    first, second = sorted((drawn(draw, field), drawn(draw, field)), key=lambda one: one[0])
    low, high = float(first[0]), float(second[0])
    one, other = f"{first[1]} {first[2]}", f"{second[1]} {second[2]}"
    lo, hi, slack = f"{field}_lo", f"{field}_hi", SLACK[field]
    at_least, at_most = f"{lo} >= {low - slack!r}", f"{hi} <= {low + slack!r}"
    forms = [
        (draw.choice((">= {}", "at least {}", "{} or more", "{} and up", "min {}", "no less than {}")), at_least),
        (draw.choice(("<= {}", "at most {}", "{} or less", "up to {}", "max. {}", "not more than {}")), at_most),
        (draw.choice(("> {}", "more than {}", "over {}")), f"{lo} > {low + slack!r}"),
        (draw.choice(("< {}", "less than {}", "under {}")), f"{hi} < {low - slack!r}"),
        ("{}", f"{lo} <= {low + slack!r} AND {hi} >= {low - slack!r}"),
    ]
    if low < high:
        both = draw.choice((f"{one} to {other}", f"from {one} to {other}", f"between {one} and {other}"))
        if first[2] == second[2]:
            both = draw.choice((both, f"{first[1]} to {other}", f"{first[1]} .. {other}"))
        forms += [(both, f"{lo} >= {low - slack!r} AND {hi} <= {high + slack!r}")] * 3
    words, met = draw.choice(forms)
    return f"{field}={words.format(one)}", met, f"{lo} IS NULL"


def asked_price(draw: random.Random) -> tuple[str, str, str]:
    low, high = sorted(draw.sample((10.0, 12.5, 40.0, 60.0, 1000.0), 2))
    currency = draw.choice(("", "", "EUR", "USD"))
    words, met = draw.choice((
        (f"at most {low:g}", f"price <= {low}"), (f">= {low:.2f}", f"price >= {low}"),
        (f"{low:g} to {high:g}", f"price BETWEEN {low} AND {high}"), (f"{low:g}", f"price = {low}"),
        (f"less than {high:g}", f"price < {high}"), (f"more than {low:g}", f"price > {low}"),
    ))  # fmt: skip
    if currency:
        return f"price={words} {currency}", f"{met} AND currency = '{currency}'", ""
    return f"price={words}", met, "price IS NULL"


# ---- both engines ---------------------------------------------------------------------------------


def written(draw: random.Random, folder: Path, parts: list[dict[str, str]]) -> None:
    """The parts in files of every form."""
    folder.mkdir()
    share = max(1, len(parts) // 3)
    yaml, lines, rows = parts[:share], parts[share : 2 * share], parts[2 * share :]
    keep = [{key: text for key, text in one.items() if text} for one in yaml + lines]
    (folder / "a.yaml").write_text(
        "parts:\n" + "".join(f"  - {json.dumps(one, ensure_ascii=False)}\n" for one in keep[: len(yaml)]), "utf-8"
    )
    if lines:
        text = "".join(json.dumps(one) + "\n" for one in keep[len(yaml) :])
        (folder / "b.jsonl").write_text(text, "utf-8")
    if rows:
        mark, end = draw.choice(((",", "\n"), (";", "\r\n"), ("\t", "\n")))
        heads = ["id", "kind", *KEYS]
        quoted = [['"' + one.get(key, "").replace('"', '""') + '"' for key in heads] for one in rows]
        text = end.join(mark.join(cells) for cells in [heads, *quoted]) + end
        (folder / "c.csv").write_text(draw.choice(("", "\ufeff")) + text, "utf-8", newline="")


def database(rows: list[Row]) -> Any:
    held = duckdb.connect()
    names = list(rows[0])
    types = {"id": "TEXT", "currency": "TEXT", "nut_seat": "TEXT", "seller": "TEXT", "lugs": "INTEGER"}
    columns = ", ".join(f"{name} {types.get(name, 'DOUBLE')}" for name in names)
    held.execute(f"CREATE TABLE part ({columns})")
    held.executemany(
        f"INSERT INTO part VALUES ({', '.join('?' * len(names))})", [[row[name] for name in names] for row in rows]
    )
    return held


def ids(held: Any, where: str, order: str) -> list[str]:
    return [id for (id,) in held.execute(f"SELECT id FROM part WHERE {where} ORDER BY {order}").fetchall()]


def questions(draw: random.Random, count: int) -> Iterator[list[tuple[str, str, str]]]:
    for _ in range(count):
        yield [asked(draw, field) for field in draw.sample(KEYS, draw.choice((0, 1, 1, 2, 2, 3)))]


def test_no_two_amounts_are_nearly_the_same() -> None:
    """The other engine compares plainly, so an amount is another's equal or clearly apart from it."""
    for field, units in AMOUNTS.items():
        values = {exact(amount) * UNITS[field][unit] for unit, amounts in units.items() for amount in amounts}
        near = {"thickness": 0.01, "rating": 1.0, "weight": 0.001}[field]
        for one in values:
            assert all(one == other or abs(float(one - other)) >= near for other in values), field


@pytest.mark.parametrize("round_", range(4))
def test_the_answer_is_that_of_another_engine(tmp_path: Path, round_: int) -> None:
    """Who is found, in which order, how many, how many only lack a field; two layers, of which the later wins."""
    seed = random.SystemRandom().randrange(2**32)
    draw = random.Random(seed)
    told = f"seed {seed}"
    first = [part(draw, f"p{number}") for number in range(draw.randint(3, 240))]
    second = [part(draw, one["id"]) for one, _ in draw.sample(first, len(first) // 4)]
    second += [part(draw, f"q{number}") for number in range(draw.randint(1, 60))]
    written(draw, tmp_path / "one", [texts for _, texts in first])
    written(draw, tmp_path / "two", [texts for _, texts in second])
    held = database(list({row["id"]: row for row, _ in [*first, *second]}.values()))
    for question in questions(draw, 40):
        conditions = [words for words, _, _ in question]
        met = [sql for _, sql, _ in question]
        where = " AND ".join(f"({sql})" for sql in met) or "true"
        by = draw.choice(("price", "weight"))
        middle = "price" if by == "price" else "round((weight_lo + weight_hi) / 2, 6)"
        order = f"{middle} NULLS LAST, {'' if by == 'price' else 'price NULLS LAST, '}id"
        found = partscheck.find(
            "adapter", conditions, catalogs=[tmp_path / "one", tmp_path / "two"], by=by, limit=1000
        )
        expected = ids(held, where, order)
        case = f"{told}: {conditions} by {by}"
        assert [one.id for one in found.candidates] == expected, case
        assert found.matches == len(expected), case
        for number, (words, _, unstated) in enumerate(question):
            if unstated:
                rest = " AND ".join([f"({sql})" for sql in met[:number] + met[number + 1 :]] or ["true"])
                count = len(ids(held, f"{rest} AND {unstated}", "id"))
                assert found.unstated.get(words.partition("=")[0], 0) == count, case


def test_the_nearest_miss_is_that_of_another_engine(tmp_path: Path) -> None:
    """The nearest part by each condition of a number, and by how much, where the rest is met."""
    seed = random.SystemRandom().randrange(2**32)
    draw = random.Random(seed)
    parts = [part(draw, f"p{number}") for number in range(150)]
    written(draw, tmp_path / "one", [texts for _, texts in parts])
    held = database([row for row, _ in parts])
    for seat, spellings in SEATS.items():
        for words, gap in (
            ("at least 4 in", "101.6 - thickness_lo"), ("120 mm or more", "120 - thickness_lo"),
            ("at most 1/2 in", "thickness_hi - 12.7"), ("3 to 4 in", "76.2 - thickness_lo"),
            ("90 mm", "90 - thickness_hi"),
        ):  # fmt: skip
            conditions = [f"thickness={words}", f"nut_seat={draw.choice(spellings)}"]
            found = partscheck.find("adapter", conditions, catalogs=[tmp_path / "one"])
            case = f"seed {seed}: {words}, {seat}"
            nearest = held.execute(f"SELECT min({gap}) FROM part WHERE nut_seat = '{seat}'").fetchone()[0]
            assert found.candidates == [], case
            misses = [near.miss for near in found.misses if near.miss.ask.field.key == "thickness"]
            if nearest is None:
                assert not misses, case
                continue
            assert math.isclose(misses[0].by, nearest, rel_tol=1e-9), case
            row = held.execute(f"SELECT {gap} FROM part WHERE id = '{misses[0].found.id}'").fetchone()
            assert math.isclose(row[0], nearest, rel_tol=1e-9), case


def test_a_field_that_no_part_states_is_counted_as_not_stated(tmp_path: Path) -> None:
    """Of three plates two have the right seat, and nobody wrote a thickness down."""
    folder = tmp_path / "one"
    folder.mkdir()
    text = "id,kind,nut_seat\na,adapter,conical\nb,adapter,tapered\nc,adapter,ball\n"
    (folder / "a.csv").write_text(text, encoding="utf-8")
    found = partscheck.find("adapter", ["thickness=38 mm", "nut_seat=conical"], catalogs=[folder])
    assert (found.candidates, found.unstated) == ([], {"thickness": 2})


@pytest.mark.parametrize("by", ["price", "weight"])
def test_many_replaced_parts_do_not_hide_the_others(tmp_path: Path, by: str) -> None:
    """The hundred cheapest and lightest plates are all replaced by dear and heavy ones; three others stay."""
    one, two = tmp_path / "one", tmp_path / "two"
    one.mkdir()
    two.mkdir()
    low = [f"p{number},adapter,{number / 100:.2f},1 kg" for number in range(100)]
    low += [f"q{number},adapter,50,{number + 2} kg" for number in range(3)]
    (one / "a.csv").write_text("\n".join(["id,kind,price,weight", *low, ""]), encoding="utf-8")
    high = [f"p{number},adapter,900,90 kg" for number in range(100)]
    (two / "a.csv").write_text("\n".join(["id,kind,price,weight", *high, ""]), encoding="utf-8")
    found = partscheck.find("adapter", ["price=at most 100"], catalogs=[one, two], by=by, limit=3)
    assert [part.id for part in found.candidates] == ["q0", "q1", "q2"]
    assert found.matches == 3
    found = partscheck.find("adapter", ["price=at most 1"], catalogs=[one, two], by=by)
    assert (found.candidates, found.matches) == ([], 0)
    assert [near.candidate.id for near in found.misses][:3] == ["q0", "q1", "q2"]
    found = partscheck.find("adapter", catalogs=[one, two], by=by, limit=5)
    assert [part.id for part in found.candidates][:3] == ["q0", "q1", "q2"]
