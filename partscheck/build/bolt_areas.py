"""Areas and stripping areas of a bolt's thread: as the thread tables print them, else from the formulas."""

from __future__ import annotations

import math

from partscheck.build.fastener_data import SAME_SIZE, size_name
from partscheck.formulas.thread_limits import LeastMaterial, least_material_iso, least_material_un
from partscheck.formulas.threads import (
    external_thread_strip_area,
    internal_thread_strip_area,
    minor_area_iso,
    minor_area_un,
    stress_area_iso,
    stress_area_un,
)
from partscheck.notation.interval import Interval
from partscheck.notation.thread import read_thread

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.notation.thread import Thread

INCH = 25.4
MM2_PER_IN2 = INCH * INCH
UNKNOWN = Interval.unknown("mm2")


def stress_area(tables: Any, thread: Thread) -> Interval:
    """Tensile stress area, mm2; unknown for an unknown thread."""
    if not thread.known:
        return UNKNOWN
    printed = _printed(tables, thread)
    if "stress_area_in2" in printed:
        return _exact(float(printed["stress_area_in2"]) * MM2_PER_IN2)
    if "stress_area_mm2" in printed:
        return _exact(float(printed["stress_area_mm2"]))
    size, pitch = thread.diameter.mid, thread.pitch.mid
    return _exact(stress_area_un(size, INCH / pitch) if thread.inch else stress_area_iso(size, pitch))


def root_area(tables: Any, thread: Thread) -> Interval:
    """Area at the root of the thread, which carries the shear where thread lies in the shear plane, mm2."""
    if not thread.known:
        return UNKNOWN
    printed = _printed(tables, thread)
    if "root_area_in2" in printed:
        return _exact(float(printed["root_area_in2"]) * MM2_PER_IN2)
    size, pitch = thread.diameter.mid, thread.pitch.mid
    return _exact(minor_area_un(size, INCH / pitch) if thread.inch else minor_area_iso(size, pitch))


def shank_area(thread: Thread) -> Interval:
    """Area of the full body, nominal diameter, mm2."""
    return _exact(math.pi / 4 * thread.diameter.mid**2) if thread.known else UNKNOWN


def hole_strip_area(tables: Any, thread: Thread) -> Interval:
    """Shear area of a tapped hole's thread, mm2 for each mm engaged, at least material."""
    limits = _limits(tables, thread)
    if limits is None:
        return UNKNOWN
    return _exact(
        internal_thread_strip_area(1.0, thread.pitch.mid, limits.external_major, limits.internal_pitch)
    )


def bolt_strip_area(tables: Any, thread: Thread) -> Interval:
    """Shear area of the bolt's own thread, mm2 for each mm engaged, at least material."""
    limits = _limits(tables, thread)
    if limits is None:
        return UNKNOWN
    return _exact(
        external_thread_strip_area(1.0, thread.pitch.mid, limits.internal_minor, limits.external_pitch)
    )


def next_sizes(tables: Any, thread: Thread) -> list[Thread]:
    """Threads of the same series that are thicker, the nearest first."""
    if not thread.known:
        return []
    rows = tables.rows(_table(thread))
    spelled = [f"{row['key']}-{row['tpi']:g}" if thread.inch else str(row["key"]) for row in rows]
    threads = [read_thread(text, tables) for text in spelled]
    thicker = [one for one in threads if one.diameter.lo > thread.diameter.hi + SAME_SIZE]
    return sorted(thicker, key=lambda one: (one.diameter.lo, -one.pitch.lo))


def _limits(tables: Any, thread: Thread) -> LeastMaterial | None:
    """As the table prints them, else by the formulas of the standard; None for a thread that is not known or
    that they do not reach.
    """
    if not thread.known:
        return None
    row = tables.row("thread_limit", thread.callout.split(" ")[0])
    if row is not None:
        return LeastMaterial(**{name: float(row[f"{name}_in"]) * INCH for name in LeastMaterial.__slots__})
    size, pitch = thread.diameter.mid, thread.pitch.mid
    try:
        return least_material_un(size, INCH / pitch) if thread.inch else least_material_iso(size, pitch)
    except ValueError:
        return None


def _printed(tables: Any, thread: Thread) -> dict[str, Any]:
    """The row of the table of the thread's series that has its very pitch; {} where there is none."""
    if thread.inch:
        row = tables.row("unf" if thread.series == "UNF" else "unc", size_name(tables, thread))
        return row if row is not None and abs(INCH / float(row["tpi"]) - thread.pitch.mid) < 1e-6 else {}
    for row in (*tables.rows("metric_coarse"), *tables.rows("metric_fine")):
        if read_thread(str(row["key"]), tables).same_as(thread):
            return dict(row)
    return {}


def _table(thread: Thread) -> str:
    if thread.inch:
        return "unf" if thread.series == "UNF" else "unc"
    return "metric_coarse"


def _exact(area: float) -> Interval:
    return Interval.exact(area, "mm2")
