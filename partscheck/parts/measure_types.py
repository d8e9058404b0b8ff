"""Types of measured fields: a quantity with its unit, kept in the house unit of its dimension."""

from __future__ import annotations

import re

from partscheck.notation.errors import NotationError
from partscheck.notation.interval import INF, Interval, Quantity
from partscheck.notation.measure import DIMENSIONS, quantity_pattern, read_quantity
from partscheck.parts.typed_text import TypedText

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any


class Measured(TypedText):
    """A quantity of one dimension, kept in its house unit.

    ``least`` and ``most`` bound what the field can be: an unknown value is that whole interval,
    and a typed value outside it is refused.
    """

    def __init__(self, dimension: str, least: float = 0.0, most: float = INF) -> None:
        self.dimension = dimension
        self.unit = DIMENSIONS[dimension].unit
        self.least = least
        self.most = most
        self.unknown = Interval.unknown(self.unit, least, most)
        self.name = dimension
        self.examples = list(DIMENSIONS[dimension].examples)
        self.expected = DIMENSIONS[dimension].expected

    def parse(self, text: str, tables: Any) -> Quantity:
        value = read_quantity(text, self.dimension)
        if value.mid < self.least:
            raise NotationError(text, self.expected, "this cannot be less than " + self._bound(self.least))
        if value.mid > self.most:
            raise NotationError(text, self.expected, "this cannot be more than " + self._bound(self.most))
        if value.lo >= self.least and value.hi <= self.most:
            return value
        inside = value.clipped(self.least, self.most)  # "0.2 mm ± 0.5 mm" of a thing that cannot be negative
        return Quantity(
            inside.lo, inside.hi, value.unit, value.text, value.system, value.toleranced, value.fraction
        )

    def _bound(self, value: float) -> str:
        return "0" if value == 0 else f"{value:g} {self.unit}".strip()

    def schema(self) -> dict[str, Any]:
        typed = {"type": "string", "pattern": quantity_pattern(self.dimension)}
        zero = {"type": "number"} if self.dimension == "ratio" else {"const": 0}
        return {"anyOf": [typed, zero], "examples": self.examples}


class Length(Measured):
    def __init__(self, least: float = 0.0) -> None:
        super().__init__("length", least)


class Distance(Measured):
    """A length with a direction: it may be negative."""

    def __init__(self) -> None:
        super().__init__("length", -INF)


class Load(Measured):
    """A weight or force, in N."""

    def __init__(self) -> None:
        super().__init__("load")


class Mass(Measured):
    def __init__(self) -> None:
        super().__init__("mass")


class Pressure(Measured):
    def __init__(self) -> None:
        super().__init__("pressure")


class Torque(Measured):
    def __init__(self) -> None:
        super().__init__("torque")


class Speed(Measured):
    def __init__(self) -> None:
        super().__init__("speed")


class Angle(Measured):
    def __init__(self, least: float = 0.0, most: float = 180.0) -> None:
        super().__init__("angle", least, most)


class Area(Measured):
    def __init__(self) -> None:
        super().__init__("area")


class Volume(Measured):
    def __init__(self) -> None:
        super().__init__("volume")


class Current(Measured):
    def __init__(self) -> None:
        super().__init__("current")


class Voltage(Measured):
    def __init__(self) -> None:
        super().__init__("voltage")


class Charge(Measured):
    def __init__(self) -> None:
        super().__init__("charge")


class Temperature(Measured):
    def __init__(self) -> None:
        super().__init__("temperature", -273.15)


class Ratio(Measured):
    def __init__(self, least: float = 0.0, most: float = INF) -> None:
        super().__init__("ratio", least, most)


class RangeInches(Measured):
    """A range of widths as tire tables print it: ``5.5 to 7 in``, also ``5.5 - 7.0 in``."""

    DASHED = r"^(\d+(?:\.\d+)?)\s*(?:in|\")?\s*-\s*(\d+(?:\.\d+)?)\s*(in|\"|inch|inches)$"

    def __init__(self) -> None:
        super().__init__("length")
        self.name = "width-range"
        self.examples = ["5.5 to 7 in", "5.5 - 7.0 in"]
        self.expected = "a range of widths, such as 5.5 to 7 in"

    def parse(self, text: str, tables: Any) -> Quantity:
        dashed = re.match(self.DASHED, text.strip())
        value = super().parse(f"{dashed[1]} to {dashed[2]} in" if dashed else text, tables)
        value.text = text
        return value

    def schema(self) -> dict[str, Any]:
        typed = {"type": "string", "pattern": quantity_pattern("length")}
        dashed = {"type": "string", "pattern": self.DASHED}
        return {"anyOf": [typed, dashed], "examples": self.examples}


class LengthOrFull(Measured):
    """A length, or ``full`` (threaded all the way), which reads as the string "full"."""

    def __init__(self) -> None:
        super().__init__("length")
        self.name = "length-or-full"
        self.expected = "a length with its unit, such as 1.25 in, or full"

    def parse(self, text: str, tables: Any) -> Any:
        return "full" if text.strip().lower() == "full" else super().parse(text, tables)

    def schema(self) -> dict[str, Any]:
        schema = super().schema()
        schema["anyOf"].append({"const": "full"})
        return schema
