"""The lines of a bill of materials: equal hardware merged, counted, priced, weighed, with their findings."""

from __future__ import annotations

from partscheck.build.model import pieces
from partscheck.build.needs import need_of
from partscheck.notation.interval import Interval
from partscheck.rules.cart import BUYING, bare_field
from partscheck.rules.quantities import enough
from partscheck.uses.bom_amounts import amount_needs
from partscheck.uses.bom_counts import Order, order
from partscheck.uses.bom_kinds import (
    ASSEMBLIES,
    JOINT_HARDWARE,
    LOCKING_NUT,
    LUG_HARDWARE,
    MADE,
    MERGED,
    SERVE_ONCE,
    assembly_of,
    described,
)

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.needs import Need
    from partscheck.engine import Result
    from partscheck.parts.record import Part
    from partscheck.parts.types import Price
    from partscheck.rules.findings import Finding


class Warned:
    """A finding beside a line: ``here`` where it is told in full, else ``told_at`` names that line."""

    __slots__ = ("finding", "here", "told_at")

    def __init__(self, finding: Finding, here: bool, told_at: str) -> None:
        self.finding = finding
        self.here = here
        self.told_at = told_at


class BomLine:
    """One thing to buy, or that is in the shop.

    ``parts`` are the lines of the list that it stands for; ``need`` pieces that the build takes (None: nothing
    tells), ``uses`` what for, ``in_hand`` pieces in the shop (None: all of them), ``in_cart`` pieces in the cart
    (None: no count typed), ``pack`` pieces in one purchase, ``order`` what to order, ``weight`` of one piece.
    """

    __slots__ = (
        "assembly", "in_cart", "in_hand", "need", "notes", "order", "pack", "parts", "price", "seller", "uses",
        "warned", "weight",
    )  # fmt: skip

    order: Order

    def __init__(self, part: Part) -> None:
        line: Any = part
        self.parts: list[Part] = [part]
        self.assembly = assembly_of(part.kind)
        self.seller = " ".join(line.seller.split())
        self.price: Price | None = line.price if line.has("price") else None
        self.pack = line.pack if line.has("pack") else 1
        self.weight: Interval | None = line.weight if line.has("weight") else None
        self.need: int | None = None
        self.uses: list[str] = []
        self.in_hand: int | None = 0
        self.in_cart: int | None = None
        self.warned: list[Warned] = []
        self.notes: list[str] = []

    @property
    def id(self) -> str:
        """The ids of its lines, "bolt-a + bolt-b" where they are merged."""
        return " + ".join(part.id for part in self.parts)

    @property
    def kind(self) -> str:
        return self.parts[0].kind

    @property
    def catalogue_id(self) -> str:
        """Id in the catalogue, "" for a line that was written out in full."""
        return str(getattr(self.parts[0], "part", "") or "")

    @property
    def what(self) -> str:
        return described(self.parts[0])

    @property
    def seller_key(self) -> str:
        return self.seller.casefold()

    @property
    def currency(self) -> str:
        return self.price.currency if self.price is not None else ""

    @property
    def cost(self) -> int | None:
        """Hundredths to pay for what is ordered; None where price or number is not known."""
        return self._paid(self.order.purchases)

    @property
    def cart_cost(self) -> int | None:
        """Hundredths to pay for the cart as typed."""
        return self._paid(self.order.cart_purchases)

    def _paid(self, purchases: int | None) -> int | None:
        if purchases == 0:
            return 0
        return None if purchases is None or self.price is None else purchases * self.price.hundredths

    @property
    def built_weight(self) -> Interval | None:
        """Weight of what goes onto the trailer, kg: of the need, else of what is there; of one piece where the
        shop has it and nobody counted.
        """
        there = self.need if self.need is not None else self.on_the_list
        there = 1 if there is None and self.in_hand is None else there
        return None if self.weight is None or there is None else self.weight * float(there)

    @property
    def on_the_list(self) -> int | None:
        """Pieces that the list counts, in the shop and in the cart."""
        if self.in_hand is None or (self.in_cart is None and not self.in_hand):
            return None
        return self.in_hand + (self.in_cart or 0)


def bom_lines(result: Result) -> list[BomLine]:
    """Every line of the list, equal hardware together, in the order of the assemblies and of the list."""
    amounts = amount_needs(result)
    rows: dict[Any, BomLine] = {}
    for number, part in enumerate(result.build.parts):
        need = amounts.get(part.id) or need_of(part, result.fit)
        key = _alike(part, need) or number
        if key in rows:
            rows[key].parts.append(part)
        else:
            rows[key] = BomLine(part)
        _count(rows[key], part, need)
    lines = list(rows.values())
    for line in lines:
        _order(line, result)
        _note(line)
    _warn(lines, result)
    order_of = list(ASSEMBLIES)
    return sorted(lines, key=lambda line: order_of.index(line.assembly))


def _alike(part: Part, need: Need | None) -> Any:
    """What makes two lines one thing to buy; None for what is never merged."""
    if part.kind not in MERGED:
        return None
    line: Any = part
    said = part.everything()
    is_ = sorted(name for name in said if name not in (*BUYING, "at", "mounts_on", "place", "per"))
    if not is_:
        return None
    price = (line.price.hundredths, line.price.currency) if line.has("price") else None
    bought = (
        line.seller.casefold(),
        price,
        line.pack if line.has("pack") else 1,
        need is None,
        pieces(part) is None,
    )
    return (part.kind, tuple((name, bare_field(part, name)) for name in is_), bought)


def _count(row: BomLine, part: Part, need: Need | None) -> None:
    """Add the pieces of one line of the list."""
    line: Any = part
    if need is not None:
        row.need = (row.need or 0) + need.count
        row.uses.append(need.words)
    have = line.have if line.has("have") else False
    count = pieces(part)
    if have is True:
        here = count if count is not None else None if need is None else need.count
        row.in_hand = None if here is None or row.in_hand is None else row.in_hand + here
        row.in_cart = row.in_cart or 0
        return
    in_hand = 0 if have is False else int(have)
    row.in_hand = None if row.in_hand is None else row.in_hand + in_hand
    if count is not None:
        row.in_cart = (row.in_cart or 0) + max(0, count - in_hand)
    elif part.kind == "wire" and line.has("length"):
        row.in_cart = (row.in_cart or 0) + 1  # the length typed is what is bought


def _order(row: BomLine, result: Result) -> None:
    if row.in_hand is None:
        row.order = Order(0, row.pack, 0)
        return
    most = None
    if row.need is not None:
        most = enough(row.parts[0], _Count(row.need), result.build.limits)  # type: ignore[arg-type]
    row.order = order(row.need, row.in_hand, row.in_cart, row.pack, _spare(row, most, result), most)


class _Count:
    """A merged need."""

    __slots__ = ("count",)

    def __init__(self, count: int) -> None:
        self.count = count


def _spare(row: BomLine, most: int | None, result: Result) -> int:
    """Pieces to have beyond the need (practice), never more than what counts as no surplus."""
    if row.need is None or most is None:
        return 0
    limits = result.build.limits
    wanted = 0
    if row.kind in LUG_HARDWARE:
        wanted = int(limits.spare_lug_hardware.hi)
    elif row.kind in JOINT_HARDWARE:
        wanted = -int(-row.need * limits.spare_joint_hardware.hi // 1)
    return max(0, min(wanted, most - row.need)) if row.pack == 1 else wanted


def _note(row: BomLine) -> None:
    """What the buyer should know beside the numbers."""
    found = row.order
    hardware = row.kind in (*LUG_HARDWARE, *JOINT_HARDWARE)
    if found.change > 0:
        covered = row.need is not None and (row.on_the_list or 0) >= row.need
        row.notes.append(f"Add {_purchases(found.change, row.pack)} to the cart{', to spare' if covered else ''}.")
    elif found.change < 0:
        row.notes.append(f"Take {_purchases(-found.change, row.pack)} out of the cart.")
    elif found.spare and found.purchases and hardware:
        row.notes.append(f"{found.spare} of them to spare.")
    if found.spare_left_out and row.pack > 1:
        row.notes.append(f"Nothing to spare: a spare would take another pack of {row.pack}.")
    if found.purchases is None:
        row.notes.append("No quantity typed, and nothing tells how many it takes: type qty.")
    elif row.in_cart is None and row.in_hand == 0:
        row.notes.append("No quantity typed: counted as the build needs it.")
    if any(part.has("make") and part.make for part in row.parts):  # type: ignore[attr-defined]
        row.notes.append(MADE)
    if row.kind in SERVE_ONCE:
        row.notes.append(SERVE_ONCE[row.kind])
    if row.kind == "nut" and getattr(row.parts[0], "locking", "none") in ("nylon insert", "all-metal"):
        row.notes.append(LOCKING_NUT)


def _purchases(count: int, pack: int) -> str:
    """ "1", "2 packs of 10"."""
    return str(count) if pack == 1 else f"{count} pack{'' if count == 1 else 's'} of {pack}"


def _warn(lines: list[BomLine], result: Result) -> None:
    """Each finding beside every line that it concerns, in full beside the one that it blames."""
    home = {id(part): line for line in lines for part in line.parts}
    for finding in (*result.findings, *result.crashed):
        blamed = [finding.check.blame[0]] if finding.check.blame is not None else []
        missing = [one.record for one in finding.missing]
        concerned = list(
            dict.fromkeys(home[id(one)] for one in (*blamed, *missing, *finding.parts) if id(one) in home)
        )
        for number, line in enumerate(concerned):
            line.warned.append(Warned(finding, number == 0, concerned[0].id))
