"""Length of bolts: what a stack needs, how far the point stands out, and where the thread begins.

Everything in mm.  A bolt's length is measured from under its head to its point.
"""

from __future__ import annotations

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable

_INCH = 25.4
_RUN_OUT = 5.0  # pitches between the last full thread and the full body
_HEAD_GAP = 2.5  # pitches between the head and the first full thread of a bolt threaded to the head


def length_needed(
    grip: float, nut_height: float, pitch: float, threads_past: float = 2.0, washers: float = 0.0
) -> float:
    """Least length of a bolt with a nut, mm.

    L = grip + washers + nut + k p
    grip          of the clamped layers, without washers
    nut_height    greatest height of the nut
    pitch         p
    threads_past  k, threads that stand out of the nut
    washers       all of them together
    Range: none below 0; pitch above 0.
    Source: published, Shigley 9e Ex 8-4; secondary copy read.  Two threads past the nut: practice (at
    least one: FAA AC 43.13-1B par. 7-37, aircraft; secondary copy read).

    >>> round(length_needed(1.50, 35 / 64, 1 / 11), 3)  # 5/8-11, in; printed 2.229
    2.229
    """
    _sizes(("grip", grip), ("nut height", nut_height), ("threads past the nut", threads_past))
    _sizes(("washers", washers))
    _pitch(pitch)
    return grip + washers + nut_height + threads_past * pitch


def protrusion(length: float, grip: float, nut_height: float, washers: float = 0.0) -> float:
    """How far the point stands out of the nut, mm; below 0 it is below flush.

    L - grip - washers - nut
    length, grip, nut_height, washers  as in ``length_needed``
    Range: none below 0.
    Source: derived.

    >>> round(protrusion(2.25, 1.50, 35 / 64) * 11, 2)  # in pitches of 5/8-11
    2.23
    """
    _sizes(("length", length), ("grip", grip), ("nut height", nut_height), ("washers", washers))
    return _less(length, grip + washers + nut_height)


def next_stock_length(length: float, stock: Iterable[float]) -> float | None:
    """Shortest length on a list that is not shorter than the one needed; None when all are.

    min(s) of all s >= L
    length  L
    stock   lengths sold, in any order, of the same unit
    Range: L not below 0.
    Source: derived.

    >>> next_stock_length(2.229, [2, 2.25, 2.5])
    2.25
    """
    _sizes(("length", length))
    return min((one for one in stock if one >= length), default=None)


def thread_length_inch(diameter: float, length: float) -> float:
    """Nominal thread length of an inch hex bolt or cap screw, mm.

    LT = 2 d + 1/4 in up to and with 6 in, 2 d + 1/2 in over
    diameter  d, nominal
    length    L, nominal
    Range: both above 0.  Where LT is more than L, the bolt is threaded to the head.
    Source: published, ASME B18.2.1 (2010) clause 4.7; secondary copy read.

    >>> [round(thread_length_inch(12.7, inches * 25.4) / 25.4, 6) for inches in (2, 6, 6.5)]
    [1.25, 1.25, 1.5]
    """
    _bolt(diameter, length)
    # A length typed as 6 in and turned into mm must not fall on the long side by rounding.
    more = 0.25 if length <= 6 * _INCH * (1 + 1e-9) else 0.5
    return 2 * diameter + more * _INCH


def thread_length_iso(diameter: float, length: float) -> float:
    """Nominal thread length of a metric hex bolt that is not threaded to the head, mm.

    b = 2 d + 6 up to 125 mm, 2 d + 12 to 200 mm, 2 d + 25 over
    diameter  d, nominal
    length    l, nominal
    Range: both above 0.  Many metric bolts are threaded to the head (ISO 4017): the marking does not tell.
    Source: published, ISO 888; AS 1110.1 (the text of ISO 4014), the b row; secondary copies read.

    >>> thread_length_iso(12, 60), thread_length_iso(12, 150), thread_length_iso(12, 220)
    (30, 36, 49)
    """
    _bolt(diameter, length)
    return 2 * diameter + (6 if length <= 125 else 12 if length <= 200 else 25)


def unthreaded_length(length: float, thread_length: float, pitch: float) -> float:
    """Greatest length from under the head to the first full thread (LG), mm.

    LG = L - LT, and not less than 2.5 p (a bolt threaded to its head)
    length         L
    thread_length  LT (``thread_length_inch``, ``thread_length_iso``)
    pitch          p
    Range: L and LT not below 0; p above 0.  A nut does not go further: LG must be less than what it clamps.
    Source: published, ASME B18.2.1 (2010) clause 4.7, LG = L - LT; secondary copy read.  The 2.5 p under a
    head: recalled.

    >>> unthreaded_length(2.0, 1.25, 1 / 13), round(unthreaded_length(1.0, 1.25, 1 / 13), 3)  # 1/2-13, in
    (0.75, 0.192)
    """
    _sizes(("length", length), ("thread length", thread_length))
    _pitch(pitch)
    return max(_less(length, thread_length), _HEAD_GAP * pitch)


def body_length(length: float, thread_length: float, coarse_pitch: float) -> float:
    """Least length of full body under the head (LB), mm; 0 for a bolt threaded to its head.

    LB = LG - Y, LG = L - LT, Y = 5 coarse pitches
    length         L
    thread_length  LT
    coarse_pitch   of the coarse thread of that diameter, for a fine thread too; metric: the bolt's own
    Range: L and LT not below 0; pitch above 0.  A shear plane nearer to the head crosses full body.
    Source: published, ASME B18.2.1 (2010) clause 4.7; secondary copy read.  Metric (ISO 4014, l_s least =
    l_g - 5 P): recalled.

    >>> round(body_length(2.0, 1.25, 1 / 13), 3)  # 1/2-13 x 2, in
    0.365
    """
    _sizes(("length", length), ("thread length", thread_length))
    _pitch(coarse_pitch)
    return max(0.0, _less(length, thread_length) - _RUN_OUT * coarse_pitch)


def engaged_length(length: float, stack: float, depth: float, washers: float = 0.0) -> float:
    """Thread of a bolt engaged in a tapped hole or a nut, mm.

    Le = L - stack - washers, at most the depth, not below 0
    length   L
    stack    thickness of what lies between head and tapped part
    depth    of full thread in the hole, or the nut's height
    washers  all of them together
    Range: none below 0.  The bolt's point (about one pitch) and a countersink count as thread here.
    Source: derived.

    >>> engaged_length(25, 12, 20), engaged_length(40, 12, 20)
    (13.0, 20)
    """
    _sizes(("length", length), ("stack", stack), ("depth", depth), ("washers", washers))
    return min(depth, max(0.0, _less(length, stack + washers)))


def room_before_bottom(length: float, stack: float, depth: float, washers: float = 0.0) -> float:
    """Room between a bolt's point and the end of a blind hole, mm; below 0 it bottoms before it clamps.

    depth + stack + washers - L
    length, stack, depth, washers  as in ``engaged_length``; depth of full thread, or of the drilled hole
    Range: none below 0.
    Source: derived.

    >>> room_before_bottom(40, 12, 20)
    -8.0
    """
    _sizes(("length", length), ("stack", stack), ("depth", depth), ("washers", washers))
    return _less(depth + stack + washers, length)


def _bolt(diameter: float, length: float) -> None:
    for name, value in (("diameter", diameter), ("length", length)):
        if not value > 0:
            raise ValueError(f"{name} must be above 0 mm, got {value:g}")


def _sizes(*named: tuple[str, float]) -> None:
    for name, value in named:
        if not value >= 0:
            raise ValueError(f"{name} must not be below 0, got {value:g}")


def _pitch(pitch: float) -> None:
    if not pitch > 0:
        raise ValueError(f"pitch must be above 0 mm, got {pitch:g}")


def _less(have: float, need: float) -> float:
    """Difference; what is unbounded on the side of the need takes all."""
    return float("-inf") if need == float("inf") else have - need
