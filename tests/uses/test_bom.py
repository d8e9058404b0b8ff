"""Counts, totals and warnings of a bill of materials: sums worked by hand, and laws that hold for every list."""

from __future__ import annotations

import math
from typing import Any

import pytest
from case_files import check_text
from hypothesis import given, settings
from hypothesis import strategies as st

import partscheck
from partscheck.parts.kinds import KINDS
from partscheck.uses.bom import BillOfMaterials
from partscheck.uses.bom_counts import order
from partscheck.uses.bom_kinds import ASSEMBLY_OF

counts = st.integers(0, 400)


def bill_of(text: str) -> BillOfMaterials:
    return partscheck.bill_of_materials(check_text(text))


def line_of(bill: BillOfMaterials, id: str) -> Any:
    return next(line for line in bill.lines if id in [part.id for part in line.parts])


# ---- how many to order ---------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("need", "in_hand", "cart", "pack", "spare", "most", "purchases"),
    [
        (10, 0, 8, 4, 0, 12, 3),  # 8 of 10: two packs are one short, three hold 12
        (10, 0, 10, 10, 1, 12, 1),  # a spare alone opens no new pack
        (10, 0, 9, 4, 1, 12, 3),  # in three packs of 4 the spare comes along
        (6, 0, 6, 1, 1, 7, 7),  # sold singly, the spare is ordered
        (6, 6, 0, 1, 1, 7, 0),  # all in the shop: nothing is bought for a spare alone
        (6, 4, 2, 1, 0, 7, 2),
        (6, 0, 7, 1, 1, 7, 7),  # a cart between need and surplus stays as it is
        (2, 0, 3, 1, 0, 2, 2),  # three hubs for one axle: one too many
        (0, 0, 0, 1, 0, 0, 0),
        (None, 0, 5, 4, 0, None, 2),  # nobody knows the need: the cart, in whole packs
        (None, 0, None, 1, 0, None, None),
        (4, 0, None, 1, 0, 5, 4),  # no count typed: as the build needs
    ],
)
def test_orders_worked_by_hand(
    need: int | None,
    in_hand: int,
    cart: int | None,
    pack: int,
    spare: int,
    most: int | None,
    purchases: int | None,
) -> None:
    assert order(need, in_hand, cart, pack, spare, most).purchases == purchases


@given(counts, counts, st.none() | counts, st.integers(1, 50), st.integers(0, 5), st.integers(0, 100))
def test_an_order_covers_the_need_and_wastes_less_than_a_pack(
    need: int, in_hand: int, cart: int | None, pack: int, spare: int, more: int
) -> None:
    found = order(need, in_hand, cart, pack, spare, need + more)
    assert found.purchases is not None
    assert found.pieces == found.purchases * pack
    assert in_hand + found.pieces >= need
    if in_hand >= need and not (cart and in_hand + cart <= need + more):
        assert found.purchases == 0
    if cart is None or found.purchases != found.cart_purchases:
        assert found.pieces < max(0, need - in_hand) + spare + pack


@given(counts, counts, st.integers(1, 50))
def test_more_need_never_orders_less(need: int, more: int, pack: int) -> None:
    first, second = order(need, 0, None, pack), order(need + more, 0, None, pack)
    assert first.purchases == math.ceil(need / pack)
    assert (second.purchases or 0) >= (first.purchases or 0)


# ---- totals --------------------------------------------------------------------------------------

BOLT = "{{id: b{n}, kind: bolt, size: 1/2-13 x 2 in, grade: {grade}, {count}{price}{seller}{have}}}"


@st.composite
def bolt_lines(draw: Any) -> list[str]:
    lines = []
    for number in range(draw(st.integers(1, 6))):
        pack = draw(st.sampled_from([1, 1, 4, 10]))
        packs, qty = draw(st.integers(0, 5)), draw(st.integers(0, 40))
        count = f"packs: {packs}, pack: {pack}" if pack > 1 else f"qty: {qty}"
        hundredths = draw(st.none() | st.integers(0, 99999))
        currency = draw(st.sampled_from(["", " EUR", " USD"]))
        price = "" if hundredths is None else f", price: {hundredths // 100}.{hundredths % 100:02d}{currency}"
        seller = draw(st.sampled_from(["", ", seller: Alpha", ", seller: alpha", ", seller: Beta"]))
        have = draw(st.sampled_from(["", "", ", have: 3"]))
        grade = draw(st.sampled_from([5, 8]))
        lines.append(BOLT.format(n=number, count=count, price=price, seller=seller, have=have, grade=grade))
    return lines


def totals_of(lines: list[str]) -> list[tuple[Any, ...]]:
    bill = bill_of("parts:\n" + "".join(f"  - {line}\n" for line in lines))
    return [(t.seller.lower(), t.currency, t.order, t.cart, t.unpriced, t.uncounted) for t in bill.totals()]


@settings(max_examples=40, deadline=None)
@given(bolt_lines(), st.randoms(use_true_random=False))
def test_the_order_of_lines_changes_no_total(lines: list[str], random: Any) -> None:
    shuffled = list(lines)
    random.shuffle(shuffled)
    assert totals_of(lines) == totals_of(shuffled)


@settings(max_examples=40, deadline=None)
@given(bolt_lines())
def test_totals_are_the_sum_of_their_lines_and_currencies_stay_apart(lines: list[str]) -> None:
    bill = bill_of("parts:\n" + "".join(f"  - {line}\n" for line in lines))
    for currency in ("", "EUR", "USD"):
        priced = [line for line in bill.lines if line.price is not None and line.currency == currency]
        mine = [total for total in bill.totals() if total.currency == currency]
        grand = [total for total in bill.grand_totals() if total.currency == currency]
        assert sum(total.order for total in mine) == sum(line.cost or 0 for line in priced)
        assert sum(total.cart for total in mine) == sum(line.cart_cost or 0 for line in priced)
        assert sum(total.order for total in grand) == sum(total.order for total in mine)
        assert len(grand) <= 1
    # Nothing tells what these bolts are for: what is paid for is what the list says, line by line where no
    # equal lines share a pack.
    for line in bill.lines:
        assert line.order.purchases == line.order.cart_purchases
        assert line.order.purchases == -(-(line.in_cart or 0) // line.pack)


@settings(max_examples=20, deadline=None)
@given(bolt_lines(), st.integers(0, 5))
def test_a_line_of_no_pieces_adds_nothing(lines: list[str], place: int) -> None:
    price, seller = ", price: 7.00 EUR", ", seller: Alpha"
    nothing = BOLT.format(n=99, count="qty: 0", price=price, seller=seller, have="", grade=2)
    assert totals_of(lines) == totals_of([*lines[:place], nothing, *lines[place:]])


@given(st.lists(st.integers(0, 30), min_size=1, max_size=5), st.integers(1, 12))
@settings(max_examples=20, deadline=None)
def test_equal_hardware_is_bought_together(quantities: list[int], pack: int) -> None:
    text = "parts:\n" + "".join(
        f"  - {{id: b{n}, kind: bolt, size: M12 x 60, grade: 8.8, qty: {qty}, pack: {pack}, price: 5.00}}\n"
        for n, qty in enumerate(quantities)
    )
    bill = bill_of(text)
    assert len(bill.lines) == 1
    assert bill.lines[0].order.purchases == math.ceil(sum(quantities) / pack)
    assert bill.lines[0].cost == 500 * math.ceil(sum(quantities) / pack)


# ---- a list by hand ------------------------------------------------------------------------------

CART = """
parts:
  - {kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, qty: 2, price: 61.00, weight: 10 kg, seller: A}
  - {kind: wheel, bolt_circle: 5 x 4.5 in, qty: 2, price: 70.00 EUR, seller: B}
  - {kind: tire, size: ST205/75R14, qty: 1, price: 50.00, seller: A}
  - {kind: lug-nut, thread: 1/2-20, packs: 2, pack: 4, price: 9.50, seller: a}
  - {id: mat, kind: other, what: rubber mat, price: 3.00, seller: A}
"""


def test_a_cart_worked_by_hand() -> None:
    bill = bill_of(CART)
    # 10 nuts in packs of 4: three packs, 28.50; hubs 122.00; tires 2 x 50.00; wheels in euros, apart.
    assert line_of(bill, "lug-nut").order.purchases == 3
    assert line_of(bill, "tire").order.purchases == 2
    totals = {(t.seller, t.currency): (t.order, t.cart, t.uncounted) for t in bill.totals()}
    assert totals == {("A", ""): (12200 + 10000 + 2850, 12200 + 5000 + 1900, 1), ("B", "EUR"): (14000, 14000, 0)}
    weight, unknown = bill.weight()
    assert (weight.lo, weight.hi, unknown) == (20.0, 20.0, 4)


def test_warnings_stand_beside_their_lines_and_in_full_once() -> None:
    bill = bill_of(CART)
    nuts = line_of(bill, "lug-nut")
    assert "lug-count" in {one.finding.rule.slug for one in nuts.warned}
    full = [one.finding for line in bill.lines for one in line.warned if one.here]
    assert len(full) == len({id(one) for one in full})
    told = {id(one) for one in (*full, *bill.elsewhere, *(extra.finding for extra in bill.missing))}
    assert told == {id(finding) for finding in bill.result.findings}


def test_what_rules_miss_is_not_on_the_list() -> None:
    bill = bill_of("parts:\n  - {kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, qty: 2}\n"
                   "  - {kind: wheel, bolt_circle: 5 x 4.5 in, qty: 2}\n")  # fmt: skip
    assert [(extra.kind, extra.count) for extra in bill.missing] == [("lug-nut", 10)]


def test_parts_in_the_shop_are_not_bought() -> None:
    bill = bill_of("parts:\n  - {kind: hub, bolt_circle: 5 x 4.5 in, qty: 2, have: true}\n"
                   "  - {kind: wheel, bolt_circle: 5 x 4.5 in, qty: 2, have: 1, price: 40.00}\n"
                   "  - {kind: jack, have: true}\n")  # fmt: skip
    assert line_of(bill, "hub").order.purchases == 0
    assert line_of(bill, "wheel").order.purchases == 1
    assert line_of(bill, "jack").order.purchases == 0
    assert [total.order for total in bill.grand_totals()] == [4000]


def test_an_order_that_follows_the_bill_raises_no_caution_of_its_own() -> None:
    for count in range(1, 25):
        text = (
            "parts:\n  - {id: b, kind: bolt, size: 1/2-13 x 2 in, grade: 5, qty: QTY}\n"
            "  - {id: n, kind: nut, thread: 1/2-13, grade: 5, qty: QTY}\n"
            f"bolted_joints:\n  - {{id: j, bolt: b, nut: n, bolts: {count}}}\n"
        )
        ordered = line_of(bill_of(text.replace("QTY", str(count))), "b").order.pieces
        again = check_text(text.replace("QTY", str(ordered)))
        assert not [one for one in again.findings if one.rule.slug.startswith("quantity")], (count, ordered)


def test_wire_by_its_run() -> None:
    # 2 x 24 ft and 10 % more are 52.8 ft: one spool of 60 ft, three of 20 ft.
    for length, spools in ((60, 1), (20, 3)):
        bill = bill_of(f"parts:\n  - {{kind: wire, gauge: 12 AWG, run: 24 ft, length: {length} ft}}\n")
        assert line_of(bill, "wire").order.purchases == spools
    frame = bill_of("parts:\n  - {kind: wire, gauge: 12 AWG, run: 24 ft, length: 20 ft, returns: frame}\n")
    assert line_of(frame, "wire").order.purchases == 2  # 26.4 ft one way


LAMPS = """\
parts:
  - {id: rear, kind: lamp, function: stop-tail-turn, qty: 2}
  - {id: plate, kind: lamp, function: license plate, qty: 1}
  - {id: wire, kind: wire, feeds: lamps, gauge: 14 AWG, run: 20 ft, length: LENGTH}
"""


def test_lamps_take_a_wire_for_each_circuit_and_one_back() -> None:
    # Tail, left, right and ground: 4 x 20 ft and 10 % more are 88 ft, or 22 ft of cable with four conductors.
    for length, spools, cable in (("100 ft", 1, False), ("60 ft", 1, True), ("20 ft", 5, False)):
        line = line_of(bill_of(LAMPS.replace("LENGTH", length)), "wire")
        assert line.order.purchases == spools, length
        assert "about 88 ft (26.8 m) of single wire, 4 x its run" in line.uses[0]
        assert "22 ft (6.7 m) of cable with 4 conductors" in line.uses[0]
        assert ("counted as such a cable" in line.uses[0]) is cable


def test_terminals_by_ends_and_leads() -> None:
    # 4 conductors with 2 ends, 3 leads of each rear lamp, 2 of the other one: 16, and a fifth more.
    bill = bill_of(LAMPS.replace("LENGTH", "60 ft"))
    assert [one.count for one in bill.consumables] == [20]
    brakes = "  - {kind: brake, type: hydraulic, hand: left, qty: 2}\n"
    assert [one.count for one in bill_of(LAMPS.replace("LENGTH", "60 ft") + brakes).consumables] == [20]


def test_spellings_of_one_thread_and_grade_are_one_thing_to_buy() -> None:
    bill = bill_of("""\
parts:
  - {id: a, kind: nut, thread: 1/2-20, grade: 5, qty: 2}
  - {id: b, kind: nut, thread: 1/2-20 UNF, grade: grade 5, qty: 3}
  - {id: c, kind: bolt, size: 1/2-13 x 2-1/2 in, grade: 5, qty: 1}
  - {id: d, kind: bolt, size: 1/2-13 UNC x 2.5 in, grade: 5, qty: 1}
  - {id: e, kind: nut, thread: 1/2-13, grade: 5, qty: 1}
  - {id: f, kind: nut, thread: M12x1.75, grade: 8, qty: 1}
  - {id: g, kind: nut, thread: M12, grade: class 8, qty: 1}
""")
    assert [line.id for line in bill.lines] == ["a + b", "c + d", "e", "f + g"]
    assert [line.order.pieces for line in bill.lines] == [5, 2, 1, 2]


def test_what_the_shop_has_uncounted_weighs_once() -> None:
    bill = bill_of("parts:\n  - {kind: rack, weight: 35 lb, have: true}\n  - {kind: jack, weight: 9 lb, qty: 2}\n")
    weight, without = bill.weight()
    assert weight.mid == pytest.approx((35 + 18) * 0.45359237)
    assert without == 0


def test_a_part_that_is_made_says_so() -> None:
    bill = bill_of("parts:\n  - {id: plate, kind: adapter, make: true, qty: 2, price: 40}\n")
    assert any("You make it yourself" in note for note in line_of(bill, "plate").notes)


def test_nuts_that_are_missing_at_ends_with_other_arms_are_counted_together() -> None:
    bill = bill_of("""\
parts:
  - {id: l, kind: suspension-arm, hand: left}
  - {id: r, kind: suspension-arm, hand: right}
  - {id: hub, kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, qty: 2}
  - {id: wheel, kind: wheel, bolt_circle: 5 x 4.5 in, qty: 2}
""")
    assert [(extra.kind, extra.count) for extra in bill.missing] == [("lug-nut", 10)]


def test_thread_locker_for_what_is_shaken_and_not_locked() -> None:
    joint = "bolted_joints:\n  - {id: j, bolt: b, nut: n, bolts: 5, places: 2, vibration: true}\n"
    bolt = "parts:\n  - {id: b, kind: bolt, size: 1/2-13 x 2 in, grade: 5, qty: 10}\n"
    plain = bill_of(bolt + "  - {id: n, kind: nut, thread: 1/2-13, grade: 5, qty: 10}\n" + joint)
    locker = next(one for one in plain.consumables if "locker" in one.what)
    assert locker.amount == "about 2 mL"  # 10 bolts of 1/2 in, 0.2 mL each
    locking = bill_of(bolt + "  - {id: n, kind: nut, thread: 1/2-13, locking: nylon insert, qty: 10}\n" + joint)
    assert not [one for one in locking.consumables if "locker" in one.what]


def test_every_kind_has_its_assembly_and_its_naming_fields() -> None:
    from partscheck.uses.bom_kinds import ASSEMBLIES

    assert set(ASSEMBLY_OF) == set(KINDS)
    for kinds in ASSEMBLIES.values():
        for kind, fields in kinds.items():
            assert set(fields) <= set(KINDS[kind].fields), kind
