"""The order in which the nuts of one circle are tightened: across, never to a neighbour where that can be."""

from __future__ import annotations

from partscheck.formulas.ranges import above_zero


def star_order(count: int) -> tuple[int, ...]:
    """Positions 1 .. count, numbered clockwise from the top, in the order to tighten them.

    count  n, nuts on the circle, at least 1

    Odd n: on by (n - 1) / 2 places each time, the star of the trade.  Even n: a nut and the one opposite
    it, the pairs k and k + n / 2 in the star order of n / 2: cross, then the next cross.

    From n = 5 on no two neighbours follow each other.  Odd n: the step (n - 1) / 2 is neither 1 nor n - 1,
    and has no factor in common with n, so every nut is met once.  Even n, with h = n / 2: k is followed by
    k + h, h places away; k + h is followed by the k' of the next pair, and is its neighbour only where k, k'
    are the first and the last of the h pairs, which follow each other in the order of h only for h = 2.
    n = 3 and n = 4 have no such order at all: every nut of three touches both others, and of four each has
    a single one that is no neighbour.

    Range: 1 nut or more.
    Source: practice; the usual drawings of five nuts (a star in one line), of four and six (across, then
    across) and of eight (a cross, then the cross between).

    >>> star_order(5)
    (1, 3, 5, 2, 4)
    >>> star_order(8)
    (1, 5, 3, 7, 2, 6, 4, 8)
    """
    above_zero("count", count)
    if count < 3:
        return tuple(range(1, count + 1))
    half, odd = divmod(count, 2)
    if odd:
        return tuple(1 + step * half % count for step in range(count))
    return tuple(nut for first in star_order(half) for nut in (first, first + half))


def neighbours_in_a_row(order: tuple[int, ...]) -> list[tuple[int, int]]:
    """Pairs that follow each other in ``order`` though they sit side by side on the circle.

    order  a permutation of 1 .. n; two nuts (n = 2) sit opposite each other and are no neighbours
    Range: any number of nuts.
    Source: derived: on a circle of n places k has the neighbours k - 1 and k + 1, and n has 1.

    >>> neighbours_in_a_row((1, 3, 2, 4))
    [(3, 2)]
    """
    count = len(order)
    side_by_side = (1, count - 1) if count > 2 else ()
    following = [(order[place - 1], order[place]) for place in range(1, count)]
    return [(one, other) for one, other in following if (one - other) % count in side_by_side]
