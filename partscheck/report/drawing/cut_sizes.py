"""The sizes of one cut along a stud or wheel bolt of a wheel end, known or stood in for.

Places count along the stud from the hub's seating face, outboard positive (mm), and across from the axle's
centre line.
"""

from __future__ import annotations

from partscheck.build.stud_data import nominal_diameter, plates_between, seat_thickness, stud_length
from partscheck.notation.interval import Interval
from partscheck.report.drawing.fasteners import CORNERS, HEX_FLAT, cone_reach
from partscheck.report.drawing.values import Size

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.places import LugSet
    from partscheck.engine import Result

BEHIND = 14.0  # mm of the hub's flange that is shown: how thick it is, is not on the list
MARGIN_OFF = 7.0  # mm beyond the nut, across
DISC_BEYOND = 5.0  # mm of the wheel's disc beyond the seat's small end, where nothing tells: dashed
STAND_IN = 0.45  # of a plate's thickness, for a nut seat that is not known
HOLE_OVER = 1.6  # mm: hole over the stud, as it looks


class CutSizes:
    """``lugs`` is the set of studs and nuts; ``missing`` the fields without which nothing can be drawn."""

    def __init__(self, lugs: LugSet, result: Result) -> None:
        self.lugs, self.result = lugs, result
        self.end, self.base, self.held, self.nut = lugs.end, lugs.base, lugs.held, lugs.fastener
        self.at = self.end.at[0]
        circle = self._circle()
        self.missing: list[str] = []
        if circle is None:
            self.missing.append(f"{self.base.id}.{self._circle_field()}")
        if not nominal_diameter(lugs).known:
            self.missing.append(f"{self.base.id}.{'hole_thread' if lugs.bolted else 'stud_thread'}")
        if not self.missing and circle is not None:
            self._measure(circle)

    # ---- sizes ---------------------------------------------------------------------------------

    def _measure(self, circle: float) -> None:
        lugs = self.lugs
        self.rc = circle / 2
        self.d = nominal_diameter(lugs).mid
        self.face = self._base_face()
        self.between = Size(plates_between(lugs), 6.0)
        self.held_from = self.face.at + self.between.at
        self.plate = Size(self.held.thickness, 25.0) if lugs.hub_side else None
        usual = self.plate.at * STAND_IN if self.plate else 10.0
        self.seat = Size(seat_thickness(lugs), usual)
        self.seat_at = self.held_from + self.seat.at
        self.stud = Size(self.nut.length if lugs.bolted else stud_length(lugs), 0.0)
        if not self.stud.known:
            self.stud.at = self._usual_stud()
        hex_known = self.nut is not None and self.nut.has("hex")
        self.hex = self.nut.hex.mid if hex_known else self.d * HEX_FLAT
        self.height, self.height_of = self._nut_height()
        self.outer = self.held_from + self.plate.at if self.plate else self.seat_at + DISC_BEYOND
        self.wheel = self.end.wheel if lugs.hub_side and self.end.plates[-1] is self.held else None

    def _usual_stud(self) -> float:
        """Stands in for an unknown length: it ends inside the plate, or some way past the wheel's seat."""
        if self.lugs.bolted:
            return self.seat.at + self.d
        if self.plate is not None:
            return self.between.at + self.seat.at + (self.plate.at - self.seat.at) * 0.7
        return self.between.at + self.seat.at + 2.2 * self.d

    def _base_face(self) -> Size:
        """The face that carries the studs, from the hub's."""
        total = Interval(0.0, 0.0, "mm")
        for plate in self.end.plates:
            if self.base is self.end.hub:
                break
            total = total + plate.thickness
            if plate is self.base:
                break
        return Size(total, 25.0)

    def _nut_height(self) -> tuple[float, bool]:
        """Height to draw, and whether it is known."""
        nut = self.nut
        if nut is None or self.lugs.bolted:
            return 0.6 * self.d, False
        if nut.has("height"):
            return nut.height.mid, True
        if nut.has("depth"):
            return nut.depth.mid + (5.0 if self._closed() else 1.0), False
        return 1.5 * self.d, False

    def _closed(self) -> bool:
        return bool(
            self.nut is not None and self.nut.kind == "lug-nut" and self.nut.has("closed") and self.nut.closed
        )

    def _circle_field(self) -> str:
        return "wheel_circle" if self.base.kind == "adapter" else "bolt_circle"

    def _circle(self) -> float | None:
        """Diameter of the circle that the studs stand on; of the holes over them where that is not known."""
        other = "hub_circle" if self.lugs.hub_side else "bolt_circle"
        for part, field in ((self.base, self._circle_field()), (self.held, other)):
            if part.has(field) and getattr(part, field).known:
                return float(getattr(part, field).diameter.mid)
        return None

    @property
    def tip(self) -> float:
        """Where the stud, or wheel bolt, ends."""
        if self.lugs.bolted:
            return self.seat_at - self.stud.at
        return self.face.at + self.stud.at

    @property
    def outboard(self) -> float:
        """The farthest that is drawn."""
        beyond = 14.0 if self.wheel is not None else 3.0
        return max(self.tip, self.outer + beyond, self.seat_at + self.height) + 1.0

    @property
    def inboard(self) -> float:
        return min(-BEHIND, self.tip - 3.0 if self.lugs.bolted else 0.0)

    @property
    def low(self) -> float:
        """Lowest radius shown: the pilot under the studs where it is not far, and no more."""
        pilot = self._bore(self.base, "pilot" if self.base.kind == "hub" else "wheel_pilot")
        least = self.rc - self._half() - MARGIN_OFF
        return max(0.0, min(least, pilot / 2 - 8.0) if pilot is not None else least, self.rc - 45.0)

    @property
    def high(self) -> float:
        return self.rc + self._half() + MARGIN_OFF

    @property
    def tall(self) -> float:
        return self.high - self.low

    def _half(self) -> float:
        return max(self._pocket() / 2 if self.lugs.hub_side else 0.0, self.hex * CORNERS / 2)

    def _pocket(self) -> float:
        held = self.held
        typed = held.kind == "adapter" and held.has("nut_pocket_diameter")
        return held.nut_pocket_diameter.mid if typed else self.hex * CORNERS + 6.0

    def _bore(self, part: Any, field: str) -> float | None:
        if part is None or field not in part.fields or not part.has(field):
            return None
        value = getattr(part, field)
        return value.mid if value.known else None

    def base_thickness(self) -> float:
        return Size(self.base.thickness, 25.0).at if self.base.kind == "adapter" else BEHIND

    def _cone(self) -> float:
        """How far the seat's cone reaches; 0 for a flat one."""
        nut, held = self.nut, self.held
        shape = (
            nut.seat
            if nut is not None and nut.has("seat")
            else held.nut_seat
            if held.has("nut_seat")
            else "conical"
        )
        if shape not in ("conical", "ball"):
            return 0.0
        angle = nut.seat_angle.mid if nut is not None and nut.has("seat_angle") else None
        return cone_reach(self.hex, self.d + HOLE_OVER, angle)
