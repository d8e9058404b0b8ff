"""What the catalogue's tables say of bolts, nuts, washers, holes and materials.

Every function takes ``tables`` (anything with ``row`` and ``rows``) and gives intervals in house units;
what a table does not know is the widest interval.  Strengths are least values, in MPa.
"""

from __future__ import annotations

from partscheck.notation.grade import NO_MARKS
from partscheck.notation.interval import INF, Interval, Quantity

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.notation.grade import Grade
    from partscheck.notation.thread import Thread

SAME_SIZE = 0.02  # mm; nominal diameters closer than this are one size
PROOF_OF_YIELD = 0.85  # proof over yield where no proof stress is stated: Shigley 9e, at Eq 8-32
# What a bare head may be: the standards ask for no mark on these, and imports of no grade look alike.
BARE_HEADS = {
    True: ("SAE 1", "SAE 2, to 3/4 in", "SAE 2, over 3/4 in"),
    False: ("ISO 4.6", "ISO 4.8", "ISO 5.8"),
}
NO_HEX_HEADS = ("SAE 4", "ASTM A574, to 1/2 in", "ASTM A574, over 1/2 in", "ASTM B7")  # studs, socket heads, rod
NO_MARK_NUT = {True: "2", False: "5"}
SOFTEST_STAINLESS = {"A1": "50", "A2": "50", "A4": "50", "18-8": "50", "304": "50", "316": "50"}


class Strength:
    """Proof, yield and tensile strength, MPa; ``rows`` are the rows of the table they span.

    ``known`` is True for one grade, False where several readings are possible.
    """

    __slots__ = ("known", "proof", "rows", "tensile", "yield_")

    def __init__(self, rows: list[dict[str, Any]], known: bool) -> None:
        self.rows = rows
        self.known = known and bool(rows)
        self.proof = _span([_proof(row) for row in rows])
        self.yield_ = _span([_yield(row) for row in rows])
        self.tensile = _span([_stress(row, "tensile_mpa") for row in rows])


class Clearance:
    """Clearance holes of a bolt size, mm: ``close``, ``normal``, ``loose`` run from one edition of the
    table to the other where two differ; ``oversize`` is AISC's hole that must hold by friction, or None.
    """

    __slots__ = ("close", "loose", "normal", "oversize", "rows")

    def __init__(self, rows: list[dict[str, Any]], oversize: dict[str, Any] | None) -> None:
        self.close = _lengths(rows, "close_mm")
        self.normal = _lengths(rows, "normal_mm")
        self.loose = _lengths(rows, "loose_mm")
        self.oversize = None if oversize is None else _printed(oversize, "oversize")
        self.rows = rows

    def least(self, fit: str) -> Interval:
        """The tightest ``close``, ``normal`` or ``loose`` hole of the editions, as it is printed."""
        return _printed(min(self.rows, key=lambda row: float(row[f"{fit}_mm"])), fit)

    def most(self, fit: str) -> Interval:
        """The widest hole of that fit, as it is printed."""
        return _printed(max(self.rows, key=lambda row: float(row[f"{fit}_mm"])), fit)


# ---- sizes -------------------------------------------------------------------------------------


def size_rows(tables: Any, table: str, thread: Thread) -> list[dict[str, Any]]:
    """Rows of a table for the nominal diameter of a thread; inch and metric sizes are kept apart."""
    if not thread.known:
        return []
    return [row for row in tables.rows(table) if _is_size(row, thread)]


def size_name(tables: Any, thread: Thread) -> str:
    """How the tables call the size, such as "1/2" or "M12"; "" for a size they do not have."""
    return next((str(row["key"]) for row in size_rows(tables, "hex_bolt", thread)), "")


def clearance(tables: Any, thread: Thread) -> Clearance | None:
    """Clearance holes of the thread's size; None for a size that no table has."""
    name = size_name(tables, thread)
    rows = [row for row in tables.rows("clearance_hole") if name and row["size"] == name]
    fits = [row for row in rows if "loose_mm" in row]
    if not fits:
        return None
    return Clearance(fits, next((row for row in rows if "oversize_mm" in row), None))


def coarse_pitch(tables: Any, thread: Thread) -> Interval:
    """Pitch of the coarse thread of that diameter, mm; a metric bolt's run-out goes by its own pitch."""
    if not (thread.known and thread.inch):
        return thread.pitch
    row = tables.row("unc", size_name(tables, thread))
    return thread.pitch if row is None else Interval.exact(25.4 / float(row["tpi"]), "mm")


def stock_lengths(tables: Any, thread: Thread) -> list[tuple[float, str]]:
    """(length in mm, as it is asked for) of bolts sold in this thread's size, shortest first."""
    sold = size_rows(tables, "hex_bolt", thread)
    if not sold:
        return []
    system = "inch" if thread.inch else "metric"
    lengths = [
        (float(row["length_mm"]), str(row["key"]))
        for row in tables.rows("stock_length")
        if row["system"] == system
        and float(sold[0]["shortest_mm"]) - SAME_SIZE <= float(row["length_mm"])
        and float(row["length_mm"]) <= float(sold[0]["longest_mm"]) + SAME_SIZE
    ]
    return sorted(lengths)


def nut_heights(tables: Any, thread: Thread, *types: str) -> Interval:
    """Height of nuts of these types, mm, from the lowest to the highest; unknown where no row is."""
    rows = [row for row in size_rows(tables, "nut_size", thread) if row["type"] in types]
    return _lengths(rows, "height_mm")


def washer_thickness(tables: Any, thread: Thread, *types: str) -> Interval:
    """Thickness of one washer of these types (sae, uss, hardened, iso), mm, least to greatest."""
    rows = [row for row in size_rows(tables, "washer_size", thread) if row["type"] in types]
    return _lengths(rows, "least_thickness_mm", "most_thickness_mm")


def washer_outside(tables: Any, thread: Thread, *types: str) -> Interval:
    """Outside diameter of washers of these types, mm."""
    rows = [row for row in size_rows(tables, "washer_size", thread) if row["type"] in types]
    return _lengths(rows, "outside_mm")


def tap_of(tables: Any, thread: Thread) -> dict[str, Any] | None:
    """The row of the tap drill table for a thread."""
    callout = thread.callout.split(" ")[0]
    return tables.row("tap_drill", callout)  # type: ignore[no-any-return]


# ---- strength ----------------------------------------------------------------------------------


def bolt_strength(tables: Any, grade: Grade, thread: Thread, bare_head_tells: bool = True) -> Strength:
    """Strength of a bolt of this grade and size.

    An unknown grade may be any that the thread's system has; a bare head is one of those that carry no
    mark (``bare_head_tells`` False: not on socket heads, where the strongest are bare as well).
    """
    rows = [row for row in tables.rows("bolt_grade") if _in_range(row, thread)]
    if not grade.known or (not grade.marked and not bare_head_tells):
        heads = [row for row in rows if row["key"] not in NO_HEX_HEADS or not bare_head_tells]
        return Strength([row for row in heads if _usual(row, thread)], known=False)
    if grade.mark == NO_MARKS:
        bare = [row for row in rows if row["key"] in BARE_HEADS[not thread.known or thread.inch]]
        return Strength(bare, known=False)
    meant = grade.on_thread(thread.inch) if thread.known else grade
    found = [row for row in rows if row["mark"] == meant.mark and meant.system in ("", row["system"])]
    return Strength(found, known=len(found) == 1)


def nut_rows(tables: Any, grade: Grade, thread: Thread) -> list[dict[str, Any]]:
    """Rows of the nut table for a nut of this grade on this thread; several when it is not settled.

    No marks: grade 2 on inch threads, the lowest class on metric ones.  Stainless without a class: the
    softest.
    """
    rows = [row for row in tables.rows("nut_grade") if _in_range(row, thread) and _of_series(row, thread)]
    if not grade.known:
        return rows
    meant = grade.on_thread(thread.inch) if thread.known else grade
    mark, system = meant.mark, meant.system
    if mark == NO_MARKS:
        mark, system = NO_MARK_NUT[not thread.known or thread.inch], "SAE" if thread.inch else "ISO"
    elif mark in SOFTEST_STAINLESS:
        mark = f"{mark if mark in ('A2', 'A4') else 'A2'}-{SOFTEST_STAINLESS[mark]}"
    return [row for row in rows if row["mark"] == mark and system in ("", row["system"])]


def material_strength(tables: Any, material: str) -> Strength:
    """Yield and tensile strength of a plate, MPa; an unknown material may be any of the table's.

    ``proof`` is left at its widest: plates have none.
    """
    row = tables.row("material", str(material))
    rows = [row] if row is not None else [] if _named(material) else tables.rows("material")
    return Strength(rows, known=row is not None)


def material_group(tables: Any, material: str) -> str:
    """steel, stainless, aluminum or iron; else the word itself (wood, rubber), "" when unknown."""
    if not _named(material):
        return ""
    row = tables.row("material", str(material))
    if row is not None:
        return str(row["group"])
    return "aluminum" if material == "cast aluminum" else str(material)


# ---- reading rows ------------------------------------------------------------------------------


def _named(word: Any) -> bool:
    """A word that is on its list, not the sentinel of an unknown one."""
    return bool(getattr(word, "known", True)) and bool(word)


def _is_size(row: dict[str, Any], thread: Thread) -> bool:
    name = str(row.get("size", row["key"]))
    metric = name.startswith("M")
    near = abs(float(row["diameter_mm"]) - thread.diameter.mid) < SAME_SIZE
    return near and metric is not thread.inch


def _in_range(row: dict[str, Any], thread: Thread) -> bool:
    if not thread.known:
        return True
    size = thread.diameter.mid
    return float(row["least_mm"]) - SAME_SIZE < size < float(row["most_mm"]) + SAME_SIZE


def _of_series(row: dict[str, Any], thread: Thread) -> bool:
    """Metric rows for metric threads; of inch rows those of the series, coarse ones for an unusual pitch."""
    if not thread.known or row["system"] == "stainless":
        return True
    if not thread.inch:
        return bool(row["series"] == "M")
    series = thread.series if thread.series in ("UNC", "UNF") else "UNC"
    return bool(row["series"] == series)


def _usual(row: dict[str, Any], thread: Thread) -> bool:
    """Grades of bolts of this thread: SAE and ASTM on inch, classes on metric, stainless on both."""
    if not thread.known or row["system"] == "stainless":
        return True
    return (row["system"] == "ISO") is not thread.inch


def _stress(row: dict[str, Any], column: str) -> Interval:
    if column not in row:
        most = float(row.get("tensile_mpa", INF))
        return Interval(0.0, most, "MPa")
    return Interval.exact(float(row[column]), "MPa")


def _yield(row: dict[str, Any]) -> Interval:
    return _stress(row, "yield_mpa")


def _proof(row: dict[str, Any]) -> Interval:
    if "proof_mpa" in row:
        return Interval.exact(float(row["proof_mpa"]), "MPa")
    return _yield(row) * PROOF_OF_YIELD


def _span(values: list[Interval]) -> Interval:
    if not values:
        return Interval.unknown("MPa")
    total = values[0]
    for value in values[1:]:
        total = total.hull(value)
    return total


def _printed(row: dict[str, Any], fit: str) -> Quantity:
    """A hole of the table in the words of its table."""
    size, text = float(row[f"{fit}_mm"]), str(row[fit])
    return Quantity(size, size, "mm", text, "metric" if text.endswith("mm") else "inch")


def _lengths(rows: list[dict[str, Any]], least: str, most: str = "") -> Interval:
    lows = [float(row[least]) for row in rows if least in row]
    highs = [float(row[most or least]) for row in rows if (most or least) in row]
    if not lows or not highs:
        return Interval.unknown("mm")
    return Interval(min(lows), max(highs), "mm")
