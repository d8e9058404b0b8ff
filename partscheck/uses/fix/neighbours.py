"""What an article has to keep of the one whose place it takes, where no rule can judge it.

A rule holds a tire against the wheel on the list.  With no wheel on the list, or none whose size is known,
nothing says that a tire of another rim is wrong: then only one of the same rim may stand in for it.
"""

from __future__ import annotations

from partscheck.build.fastener_data import bolt_strength
from partscheck.notation.interval import Interval
from partscheck.notation.thread import Thread
from partscheck.notation.tire_size import TireSize
from partscheck.notation.wheel_size import WheelSize

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Sequence
    from typing import Any

    from partscheck.build.model import Build
    from partscheck.parts.record import Part
    from partscheck.uses.fix.candidates import Want

# Practice, without a source: they only sieve what is tried, and every rule judges what passes.
SAME = 0.05  # mm
AS_STRONG = 0.95  # class 8.8 (800 MPa, as the catalogue's table has it) may stand in for grade 5 (827 MPa)
SHORTER, LONGER = 0.9, 1.2  # a bolt of the other system, beside the one that was there
# kind -> field -> the neighbours' fields that a rule holds it against
FACING: dict[str, dict[str, tuple[str, ...]]] = {
    "adapter": {"hub_circle": ("hub.bolt_circle",), "wheel_circle": ("wheel.bolt_circle",)},
    "ball": {"diameter": ("coupler.ball_diameter",), "shank_diameter": ("ball-mount.ball_hole",)},
    "ball-mount": {"shank_size": ("receiver.size",), "ball_hole": ("ball.shank_diameter",)},
    "brake": {"flange": ("axle.brake_flange", "suspension-arm.brake_flange", "spindle.brake_flange"),
              "drum_diameter": ("hub.drum_diameter",)},
    "coupler": {"ball_diameter": ("ball.diameter",)},
    "dust-cap": {"outside": ("hub.cap_bore",)},
    "hub": {"bolt_circle": ("wheel.bolt_circle", "adapter.hub_circle", "spacer.bolt_circle")},
    "lug-nut": {"thread": ("hub.stud_thread", "adapter.stud_thread", "adapter.hub_nut_thread", "stud.thread")},
    "nut": {"thread": ("bolt.size", "stud.thread", "u-bolt.thread")},
    "receiver": {"size": ("ball-mount.shank_size", "rack.shank_size")},
    "seal": {"inside": ("axle.seal_journal", "spindle.seal_journal", "suspension-arm.seal_journal"),
             "outside": ("hub.seal_bore",)},
    "spindle-nut": {"thread": ("axle.nut_thread", "spindle.nut_thread", "suspension-arm.nut_thread")},
    "tire": {"size": ("wheel.size",)},
    "u-bolt": {"inside": ("axle.tube",), "thread": ()},
    "wheel": {"bolt_circle": ("hub.bolt_circle", "adapter.wheel_circle", "spacer.bolt_circle"),
              "size": ("tire.size",)},
    "wheel-bolt": {"thread": ("hub.hole_thread",)},
}  # fmt: skip


def may_stand_in(part: Part, other: Part, build: Build, wants: Sequence[Want]) -> bool:
    """Whether ``other`` keeps what is not asked for and what no rule can judge in its place."""
    asked = {want.field for want in wants}
    if part.kind == "bolt" and not _bolt_may_stand_in(part, other, wants):
        return False
    if part.kind == "bolt" and not _as_strong(part, other, build, asked):
        return False
    for key, facing in FACING.get(part.kind, {}).items():
        if key in asked or any(_told(build, one) for one in facing):
            continue
        mine, theirs = _value(part, key), _value(other, key)
        if mine is None or (theirs is not None and not _alike(mine, theirs)):
            return False
    return True


def _bolt_may_stand_in(part: Part, other: Part, wants: Sequence[Want]) -> bool:
    """The same thread, or one that is asked for; the same length, unless another one is asked for."""
    mine, theirs = _value(part, "size"), _value(other, "size")
    if mine is None or theirs is None:
        return False
    targets = [want.target for want in wants if want.field in ("size", "length")]
    threads = [one for one in targets if not isinstance(one, Interval)]
    if not any(names_thread(one, theirs.thread) for one in (mine.thread, *threads)):
        return False
    if len(threads) < len(targets):
        return True
    if other_system(theirs.thread, mine.thread):  # no metric bolt is 1 in long: about as long
        return bool(SHORTER * mine.length.mid <= theirs.length.mid <= LONGER * mine.length.mid)
    return _near(mine.length, theirs.length)


def _as_strong(part: Part, other: Part, build: Build, asked: set[str]) -> bool:
    """A bolt of no lower grade, unless another grade is asked for; grade 5 and class 8.8 count as alike."""
    grades, sizes = (_value(part, "grade"), _value(other, "grade")), (_value(part, "size"), _value(other, "size"))
    if "grade" in asked or grades[0] is None or None in sizes:
        return True
    if grades[1] is None:
        return False
    before, now = (
        bolt_strength(build.tables, grade, size.thread).tensile
        for grade, size in zip(grades, sizes, strict=True)
    )  # fmt: skip
    return not (before.known and now.known) or bool(now.lo >= AS_STRONG * before.lo)


def names_thread(asked: Any, thread: Thread) -> bool:
    """Whether ``asked`` is this thread: a thread, how one is written ("7/16-14"), or a size ("9/16 in", "M14")."""
    if isinstance(asked, Thread):
        return thread.same_as(asked) is not False
    said = str(asked).strip().casefold()
    size = thread.callout.partition("-" if thread.inch else "x")[0].casefold()
    if said == (f"{size} in" if thread.inch else size):
        return True
    return said in (thread.text.casefold(), thread.callout.casefold(), thread.callout.partition(" ")[0].casefold())


def other_system(asked: Any, thread: Thread) -> bool:
    """Whether the thread that is asked for is metric and this one is not, or the other way round."""
    return str(asked).strip().upper().startswith("M") == thread.inch


def _told(build: Build, path: str) -> bool:
    kind, _, key = path.partition(".")
    return any(_value(one, key) is not None for one in build.of_kind(kind))


def _value(part: Part, key: str) -> Any:
    name = next((name for name, field in part.fields.items() if field.key == key), "")
    if not name or not part.has(name):
        return None
    value = getattr(part, name)
    return value if getattr(value, "known", True) else None


def _alike(one: Any, other: Any) -> bool:
    if isinstance(one, TireSize):
        return _near(one.rim_diameter, other.rim_diameter)
    if isinstance(one, WheelSize):
        return _near(one.diameter, other.diameter)
    if isinstance(one, Thread):
        return one.same_as(other) is not False
    if isinstance(one, Interval):
        return _near(one, other)
    if hasattr(one, "count") and hasattr(one, "diameter"):
        return bool(one.count == other.count and _near(one.diameter, other.diameter))
    return str(one).strip().casefold() == str(other).strip().casefold()


def _near(one: Interval, other: Interval) -> bool:
    return one.lo <= other.hi + SAME and other.lo <= one.hi + SAME
