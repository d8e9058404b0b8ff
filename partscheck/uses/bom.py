"""The bill of materials of a checked list: what to buy, where, for how much, and what to look at first.

>>> import partscheck
>>> bill = partscheck.bill_of_materials(partscheck.check("apiary.yaml"))   # doctest: +SKIP
>>> for line in bill.lines:                                                # doctest: +SKIP
...     print(line.id, line.need, line.order.pieces, line.seller)
"""

from __future__ import annotations

from partscheck.notation.interval import Interval
from partscheck.uses.bom_extras import Extra, consumables, missing_parts
from partscheck.uses.bom_kinds import ASSEMBLIES
from partscheck.uses.bom_lines import BomLine, Warned, bom_lines

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable

    from partscheck.engine import Result
    from partscheck.rules.findings import Finding

SELLER, ASSEMBLY = "seller", "assembly"
NO_SELLER = ""


class Total:
    """What one seller gets in one currency, in hundredths.

    ``order`` for what is to be ordered, ``cart`` for the cart as typed; ``lines`` with something to order,
    ``unpriced`` of them without a price, ``uncounted`` lines of which nobody knows how many.
    """

    __slots__ = ("cart", "currency", "lines", "order", "seller", "uncounted", "unpriced")

    def __init__(self, seller: str, currency: str) -> None:
        self.seller = seller
        self.currency = currency
        self.order = self.cart = self.lines = self.unpriced = self.uncounted = 0

    def add(self, line: BomLine) -> None:
        self.order += line.cost or 0
        self.cart += line.cart_cost or 0
        self.lines += bool(line.order.purchases)
        self.unpriced += bool(line.order.purchases) and line.price is None
        self.uncounted += line.order.purchases is None


class BillOfMaterials:
    """``lines`` of the list, ``missing`` what rules miss on it, ``consumables`` what is used up (estimates),
    ``elsewhere`` findings that concern no line; ``result`` is the check behind it.
    """

    def __init__(self, result: Result) -> None:
        self.result = result
        self.build = result.build
        self.lines: list[BomLine] = bom_lines(result)
        self.missing: list[Extra] = missing_parts(result)
        self.consumables: list[Extra] = consumables(result)
        self.elsewhere: list[Finding] = self._elsewhere()

    def groups(self, by: str = ASSEMBLY) -> list[tuple[str, list[BomLine]]]:
        """Lines under the name of their assembly, in building order, or of their seller, by name."""
        if by == SELLER:
            names = self.sellers()
            keys = [*sorted(key for key in names if key), *([NO_SELLER] if NO_SELLER in names else [])]
            return [(names[key], [line for line in self.lines if line.seller_key == key]) for key in keys]
        grouped = [(name, [line for line in self.lines if line.assembly == name]) for name in ASSEMBLIES]
        return [(name, lines) for name, lines in grouped if lines]

    def sellers(self) -> dict[str, str]:
        """Each seller's name, capitals apart, and one spelling of it."""
        names: dict[str, str] = {}
        for line in self.lines:
            key = line.seller_key
            names[key] = min(names.get(key, line.seller), line.seller)
        return names

    def totals(self) -> list[Total]:
        """One for each seller and currency; amounts of different currencies are never added."""
        names = self.sellers()
        found: dict[tuple[str, str], Total] = {}
        for line in filter(_to_pay, self.lines):
            currency = line.currency if line.price is not None else self._only_currency(line.seller_key)
            key = (line.seller_key, currency)
            found.setdefault(key, Total(names[line.seller_key], currency)).add(line)
        return [found[key] for key in sorted(found, key=lambda one: (not one[0], one))]

    def grand_totals(self) -> list[Total]:
        """One for each currency, over all sellers."""
        found: dict[str, Total] = {}
        for total in self.totals():
            into = found.setdefault(total.currency, Total("", total.currency))
            for name in ("order", "cart", "lines", "unpriced", "uncounted"):
                setattr(into, name, getattr(into, name) + getattr(total, name))
        return [found[currency] for currency in sorted(found)]

    def weight(self) -> tuple[Interval, int]:
        """Weight of the parts that state one, as built, kg, and how many lines state none."""
        known = [line.built_weight for line in self.lines if line.built_weight is not None]
        return sum(known, Interval(0.0, 0.0, "kg")), len(self.lines) - len(known)

    def _only_currency(self, seller: str) -> str:
        """A line without a price counts with the one currency its seller takes, else with none."""
        paid = (line for line in self.lines if _to_pay(line) and line.seller_key == seller)
        taken = {line.currency for line in paid if line.price is not None}
        return taken.pop() if len(taken) == 1 else ""

    def _elsewhere(self) -> list[Finding]:
        told = {id(one.finding) for line in self.lines for one in line.warned}
        missed = {id(extra.finding) for extra in self.missing}
        every: Iterable[Finding] = (*self.result.findings, *self.result.crashed)
        return [finding for finding in every if id(finding) not in told | missed]


def _to_pay(line: BomLine) -> bool:
    """Something is ordered, or in the cart, or nobody knows how many."""
    return line.order.purchases != 0 or bool(line.order.cart_purchases)


def bill_of_materials(result: Result) -> BillOfMaterials:
    """The bill of materials of a checked list."""
    return BillOfMaterials(result)


__all__ = ["BillOfMaterials", "BomLine", "Extra", "Total", "Warned", "bill_of_materials"]
