"""Closed intervals of a measured quantity, in the house unit of its dimension.

House units (the ones JSON reports use): mm, N, kg, kPa, N m, km/h, deg, mm2, L, A, V, Ah, degC,
and "" for plain numbers.  ``lo == hi`` when a value is exact; an unknown value is the widest
interval its field allows, so that a comparison can still come out when the unknown cannot matter.
"""

from __future__ import annotations

INF = float("inf")

# Two values closer than this are equal: 120.65 mm and 4.75 in differ in floats.
SAME = {"mm": 1e-3, "N": 1e-6, "kg": 1e-7, "kPa": 1e-6, "N m": 1e-6, "km/h": 1e-7, "deg": 1e-7}
SAME_DEFAULT = 1e-9


class Interval:
    """``lo .. hi`` in ``unit``; arithmetic gives the worst and best corner.

    Adding or comparing different units raises ``ValueError``: a mistake in a rule, not in a list.
    """

    __slots__ = ("hi", "lo", "unit")

    def __init__(self, lo: float, hi: float, unit: str = "") -> None:
        if not lo <= hi:
            raise ValueError(f"interval turned round: {lo} .. {hi} {unit}")
        self.lo = lo
        self.hi = hi
        self.unit = unit

    @classmethod
    def exact(cls, value: float, unit: str = "") -> Interval:
        return Interval(value, value, unit)

    @classmethod
    def unknown(cls, unit: str = "", least: float = 0.0, most: float = INF) -> Interval:
        return Interval(least, most, unit)

    @property
    def known(self) -> bool:
        """True when both ends are finite."""
        return self.hi != INF and self.lo != -INF and (self.hi - self.lo) != INF

    @property
    def is_exact(self) -> bool:
        return self.lo == self.hi

    @property
    def mid(self) -> float:
        return self.lo if self.lo == self.hi else (self.lo + self.hi) / 2

    @property
    def width(self) -> float:
        return self.hi - self.lo

    def with_unit(self, unit: str) -> Interval:
        """The same numbers in another unit (after a product or quotient)."""
        return Interval(self.lo, self.hi, unit)

    def bare(self) -> Interval:
        return Interval(self.lo, self.hi)

    def widened(self, by: float) -> Interval:
        return Interval(self.lo - by, self.hi + by, self.unit)

    def hull(self, other: Interval) -> Interval:
        self._check(other)
        return Interval(min(self.lo, other.lo), max(self.hi, other.hi), self.unit)

    def clipped(self, least: float = -INF, most: float = INF) -> Interval:
        """The part of the interval inside ``least .. most`` (the nearest end when outside)."""
        return Interval(min(max(self.lo, least), most), max(min(self.hi, most), least), self.unit)

    def _check(self, other: Interval) -> None:
        if self.unit != other.unit:
            raise ValueError(f"units differ: {self.unit or 'number'} and {other.unit or 'number'}")

    def __add__(self, other: Interval | float) -> Interval:
        if isinstance(other, Interval):
            self._check(other)
            return Interval(self.lo + other.lo, self.hi + other.hi, self.unit)
        return Interval(self.lo + other, self.hi + other, self.unit)

    __radd__ = __add__

    def __sub__(self, other: Interval | float) -> Interval:
        if isinstance(other, Interval):
            self._check(other)
            return Interval(self.lo - other.hi, self.hi - other.lo, self.unit)
        return Interval(self.lo - other, self.hi - other, self.unit)

    def __rsub__(self, other: float) -> Interval:
        return Interval(other - self.hi, other - self.lo, self.unit)

    def __neg__(self) -> Interval:
        return Interval(-self.hi, -self.lo, self.unit)

    def __abs__(self) -> Interval:
        if self.lo >= 0:
            return Interval(self.lo, self.hi, self.unit)
        if self.hi <= 0:
            return -self
        return Interval(0.0, max(-self.lo, self.hi), self.unit)

    def __mul__(self, other: Interval | float) -> Interval:
        """Product; the unit stays when one side is a plain number, else name it with ``with_unit``."""
        if not isinstance(other, Interval):
            a, b = _times(self.lo, other), _times(self.hi, other)
            return Interval(min(a, b), max(a, b), self.unit)
        unit = other.unit if not self.unit else self.unit if not other.unit else ""
        corners = [_times(x, y) for x in (self.lo, self.hi) for y in (other.lo, other.hi)]
        return Interval(min(corners), max(corners), unit)

    __rmul__ = __mul__

    def __truediv__(self, other: Interval | float) -> Interval:
        """Quotient; like units cancel.  A divisor that may be zero gives the whole line."""
        if not isinstance(other, Interval):
            return self * (1 / other)
        unit = "" if self.unit == other.unit else self.unit
        if other.lo <= 0 <= other.hi:
            if other.lo == 0 and other.hi > 0 and self.lo >= 0:
                return Interval(0.0 if other.hi == INF else self.lo / other.hi, INF, unit)
            return Interval(-INF, INF, unit)
        corners = [_over(x, y) for x in (self.lo, self.hi) for y in (other.lo, other.hi)]
        return Interval(min(corners), max(corners), unit)

    def __eq__(self, other: object) -> bool:
        return (
            isinstance(other, Interval)
            and (self.lo, self.hi, self.unit) == (other.lo, other.hi, other.unit)
        )

    def __hash__(self) -> int:
        return hash((self.lo, self.hi, self.unit))

    def __repr__(self) -> str:
        body = f"{self.lo:g}" if self.lo == self.hi else f"{self.lo:g} .. {self.hi:g}"
        return f"<{body} {self.unit}>".replace(" >", ">")


class Quantity(Interval):
    """An interval as a person typed it.

    ``text`` is their own spelling, ``system`` is "inch", "metric" or "" (a unit both use), and
    ``toleranced`` says that a tolerance or a range was typed: then the value is a measurement;
    without one a trade dimension is a name.  ``fraction`` says that it was typed as a fraction.
    """

    __slots__ = ("fraction", "system", "text", "toleranced")

    def __init__(
        self,
        lo: float,
        hi: float,
        unit: str,
        text: str = "",
        system: str = "",
        toleranced: bool = False,
        fraction: bool = False,
    ) -> None:
        super().__init__(lo, hi, unit)
        self.text = text
        self.system = system
        self.toleranced = toleranced
        self.fraction = fraction

    __hash__ = Interval.__hash__


def least_of(first: Interval, *rest: Interval) -> Interval:
    """The smallest of several quantities, as an interval."""
    lo, hi = first.lo, first.hi
    for other in rest:
        first._check(other)
        lo, hi = min(lo, other.lo), min(hi, other.hi)
    return Interval(lo, hi, first.unit)


def greatest_of(first: Interval, *rest: Interval) -> Interval:
    """The largest of several quantities, as an interval."""
    lo, hi = first.lo, first.hi
    for other in rest:
        first._check(other)
        lo, hi = max(lo, other.lo), max(hi, other.hi)
    return Interval(lo, hi, first.unit)


def same_within(unit: str) -> float:
    """How close two values of ``unit`` are when they count as equal."""
    return SAME.get(unit, SAME_DEFAULT)


def _times(a: float, b: float) -> float:
    return 0.0 if a == 0 or b == 0 else a * b


def _over(a: float, b: float) -> float:
    return 0.0 if a == 0 or (b in (INF, -INF) and a in (INF, -INF)) else a / b
