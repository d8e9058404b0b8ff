"""Drills and wrenches for a size, from the catalogue's tables."""

from __future__ import annotations

from fractions import Fraction

from partscheck.build import fastener_data as data
from partscheck.notation.interval import INF, Interval, Quantity
from partscheck.rules.basis import practice
from partscheck.uses.shop.sheet import FROM_LIST, Said, basis_of

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.joint_places import JointPlace
    from partscheck.rules.basis import Basis

SIXTEENTH = 25.4 / 16
SAME = 0.02  # mm; a drill this much under the hole still makes it
INCH_DRILLS, METRIC_DRILLS = ("fractional", "letter"), ("metric",)
INSERTS = ("nylon insert", "all-metal")
LOCKING_FLATS = practice("locking nuts mostly have the flats of plain nuts of their size, and not always")
HEX_NUTS = ("none", "jam nut", "thread locker", "split washer", "wedge washer")


def wrench(flats: float, text: str) -> Quantity:
    """A size across flats (mm) by the name of its wrench alone: nobody asks for it in the other unit."""
    return Quantity(flats, flats, "mm", text)


def drills(tables: Any, hole: float, most: float, inch: bool) -> list[dict[str, Any]]:
    """Of each kind of drill the smallest that is not under ``hole`` nor over ``most`` (mm), those of the bolt's
    own system first.  A letter drill only where it comes closer than the fractional one.
    """
    best: dict[str, dict[str, Any]] = {}
    for row in tables.rows("drill_size"):
        size = float(row["diameter_mm"])
        if (
            hole - SAME <= size <= most + SAME
            and size < best.get(row["kind"], {"diameter_mm": INF})["diameter_mm"]
        ):
            best[row["kind"]] = row
    fraction, letter = best.get("fractional"), best.get("letter")
    if letter is not None and fraction is not None and letter["diameter_mm"] >= fraction["diameter_mm"]:
        del best["letter"]
    order = (*INCH_DRILLS, *METRIC_DRILLS) if inch else (*METRIC_DRILLS, *INCH_DRILLS)
    return [best[kind] for kind in order if kind in best]


def drill_name(row: dict[str, Any]) -> str:
    """ "17/32 in", "letter F", "13.5 mm"."""
    return f"letter {row['key']}" if row["kind"] == "letter" and len(str(row["key"])) == 1 else str(row["key"])


def head_wrench(place: JointPlace) -> tuple[Said, Basis | None]:
    """The wrench on a bolt's head, and what stands behind its size."""
    bolt = place.bolt
    if bolt.kind == "wheel-bolt":
        return socket_of(bolt)
    if bolt.kind != "bolt" or place.head != "hex":
        return Said("by its head"), None
    rows = data.size_rows(place.tables, "hex_bolt", place.thread)
    return (_flats(rows[0]), basis_of(rows[0])) if rows else (Said("by its head"), None)


def nut_wrench(place: JointPlace) -> tuple[Said, Basis | None]:
    """The wrench on the nut.  Makers of locking nuts differ in their flats: without a row of their own they are
    told to have those of plain nuts as a rule, to be tried.
    """
    nut = place.nut
    if nut is None:
        return Said(""), None
    if nut.kind == "lug-nut":
        return socket_of(nut)
    type = nut.locking if nut.has("locking") else "none"
    wanted = "hex" if type in HEX_NUTS else type
    rows = [row for row in data.size_rows(place.tables, "nut_size", place.thread) if row["type"] == wanted]
    rows = [row for row in rows if "flats_mm" in row]
    if rows:
        return _flats(rows[0]), basis_of(rows[0])
    plain = [row for row in data.size_rows(place.tables, "nut_size", place.thread) if row["type"] == "hex"]
    if type not in INSERTS or not plain:
        return Said("by the nut"), None
    return Said("{flats}, try it", flats=_flats(plain[0])), LOCKING_FLATS


def socket_of(part: Any) -> tuple[Said, Basis | None]:
    """The socket for a lug nut or wheel bolt whose hex is on the list."""
    if part is None or not part.has("hex"):
        return Said("by the nut" if part is None or part.kind == "lug-nut" else "by its head"), None
    return Said("{hex}", hex=_socket(part.hex)), FROM_LIST


def _socket(hex: Interval) -> Interval:
    """The size by which the socket is asked for, where the hex is one: 3/4 in, 19 mm; else as typed."""
    if not hex.is_exact:
        return hex
    sixteenths, whole = round(hex.lo / SIXTEENTH), round(hex.lo)
    if abs(hex.lo - sixteenths * SIXTEENTH) < SAME:
        inches, over = divmod(sixteenths, 16)
        part = Fraction(over, 16)
        text = "-".join(str(piece) for piece in (inches, part) if piece)
        return wrench(hex.lo, f"{text} in")
    return wrench(hex.lo, f"{whole} mm") if abs(hex.lo - whole) < SAME else hex


def _flats(row: dict[str, Any]) -> Said:
    """Width across flats as wrenches are named."""
    size = float(row["flats_mm"])
    if "flats_in" in row:
        return Said("{flats}", flats=wrench(size, f"{row['flats_in']} in"))
    text = f"{size:g} mm"
    if "older_flats_mm" in row:
        text += f" or, on older ones, {row['older_flats_mm']:g} mm"
    return Said("{flats}", flats=wrench(size, text))


def named(size: float, text: str) -> Quantity:
    """A length of a table (mm) in the words of that table."""
    return Quantity(size, size, "mm", text, "metric" if text.endswith("mm") else "inch")


def clearance_basis(place: JointPlace) -> Basis | None:
    fits = place.clearance
    return None if fits is None else basis_of(fits.rows[0])
