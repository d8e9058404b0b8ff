"""The options considered, with their costs and which of them exclude each other."""

from __future__ import annotations

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import Any

    from partscheck.uses.fix.edits import Option


class Pool:
    def __init__(self) -> None:
        self.options: list[Option] = []
        self.costs: list[int] = []
        self._numbers: dict[Any, int] = {}

    def number(self, option: Option) -> int | None:
        """The number of an option that does the same, or None."""
        return self._numbers.get(option.key)

    def add(self, option: Option, cost: int) -> int:
        self._numbers[option.key] = len(self.options)
        self.options.append(option)
        self.costs.append(cost)
        return len(self.options) - 1

    def each(self) -> Iterator[tuple[int, Option]]:
        return enumerate(self.options)

    def rivals(self, one: int, other: int) -> bool:
        """Whether a plan can take only one of the two: another article, or the same field of one record."""
        first, second = self.options[one], self.options[other]
        if first.slot != second.slot:
            return False
        return first.whole or second.whole or first.field == second.field

    def groups(self) -> list[list[int]]:
        """Options of which a plan takes one at most."""
        slots: dict[str, list[int]] = {}
        for number, option in self.each():
            slots.setdefault(option.slot, []).append(number)
        found = []
        for numbers in slots.values():
            whole = [number for number in numbers if self.options[number].whole]
            fields: dict[str, list[int]] = {}
            for number in numbers:
                if not self.options[number].whole:
                    fields.setdefault(self.options[number].field, []).append(number)
            found += [[*whole, *same] for same in fields.values()] or [whole]
        return found
