"""Where the thread of a bolt begins: typed, else from the thread length that its standard gives it."""

from __future__ import annotations

from partscheck.build.fastener_data import coarse_pitch
from partscheck.formulas.grip import body_length, thread_length_inch, thread_length_iso, unthreaded_length
from partscheck.notation.interval import Interval

TYPE_CHECKING = False
if TYPE_CHECKING:
    from partscheck.build.joint_places import JointPlace

# Pitches between the head and the first full thread of a bolt threaded to its head, at most (recalled).
HEAD_GAP = {True: 2.5, False: 3.0}  # inch (ASME B18.2.1), metric (ISO 4017)
FULL = (-1.0, -1.0)  # in place of two lengths: threaded to the head
LEAST_SIZE = {True: 6.3, False: 4.9}  # mm, inch and metric; smaller screws have thread lengths of their own
STANDARD_HEADS = ("hex", "hex flange", "carriage", "square")  # ASME B18.2.1, B18.5


def unthreaded(place: JointPlace) -> Interval:
    """From under the head to the first full thread, mm; the upper end is the greatest that may be (LG)."""
    lengths = thread_lengths(place)
    if lengths is None:
        return Interval(0.0, place.length.hi, "mm")
    gap = Interval(0.0, HEAD_GAP[place.thread.inch] * place.pitch.hi, "mm")
    if lengths == FULL:
        return gap
    least, most = lengths
    length, pitch = place.length, place.pitch
    low = 0.0 if may_be_full(place) else unthreaded_length(length.lo, most, pitch.lo)
    return Interval(low, unthreaded_length(length.hi, least, pitch.hi), "mm")


def body(place: JointPlace) -> Interval:
    """Least full body under the head (LB), mm; from nothing where the bolt may be threaded to its head."""
    lengths = thread_lengths(place)
    if lengths is None:
        return Interval(0.0, place.length.hi, "mm")
    if lengths == FULL:
        return Interval(0.0, 0.0, "mm")
    least, most = lengths
    run_out = coarse_pitch(place.tables, place.thread)
    low = 0.0 if may_be_full(place) else body_length(place.length.lo, most, run_out.hi)
    return Interval(low, body_length(place.length.hi, least, run_out.lo), "mm")


def thread_lengths(place: JointPlace) -> tuple[float, float] | None:
    """(least, greatest) threaded length, mm; FULL for threaded to the head; None when nothing tells."""
    bolt = place.bolt
    if bolt is None or bolt.kind != "bolt":
        return None
    if bolt.has("thread_length"):
        typed = bolt.thread_length
        return FULL if typed == "full" else (typed.lo, typed.hi)
    if place.head == "none":
        return FULL
    size, length = place.diameter, place.length
    standard = size.known and length.known and place.head in STANDARD_HEADS
    standard = standard and size.lo >= LEAST_SIZE[place.thread.inch]
    if standard and place.thread.inch:
        nominal = thread_length_inch(size.mid, length.mid)
        return nominal, nominal
    bolt.thread_length  # noqa: B018 - asks for it
    if not standard:
        return None
    nominal = thread_length_iso(size.mid, length.mid)
    return nominal, nominal


def may_be_full(place: JointPlace) -> bool:
    """A metric bolt of no typed thread length may be threaded to its head (ISO 4017)."""
    return not place.thread.inch and not place.bolt.has("thread_length")
