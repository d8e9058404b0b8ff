"""Several bolts that share one load, elastic method: stiff plates, like bolts.

Positions are (x, y) in mm in the plane of the joint, from any corner; forces in N, moments in N m.
"""

from __future__ import annotations

import math

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Sequence

_CENTRED = 1e-6  # mm of lever that count as none
_ALIKE = 1e-9  # forces closer than this share are equal: the first of them is named


def centroid(pattern: Sequence[tuple[float, float]]) -> tuple[float, float]:
    """Centre of the bolts, (x, y), mm.

    x = sum(xi) / N, y = sum(yi) / N
    pattern  centres of the bolts, mm
    Range: at least one bolt; finite positions.
    Source: derived; bolts of one size.

    >>> centroid([(0, 0), (4, 0), (2, 3)])
    (2.0, 1.0)
    """
    _known(pattern)
    count = len(pattern)
    return math.fsum(x for x, _ in pattern) / count, math.fsum(y for _, y in pattern) / count


def polar_sum(pattern: Sequence[tuple[float, float]]) -> float:
    """Resistance of the pattern against turning, mm2.

    sum(r^2), r from the centroid to each bolt
    pattern  centres of the bolts, mm
    Range: at least one bolt; finite positions.
    Source: derived (polar second moment, each bolt with an area of 1).

    >>> polar_sum([(1.5, 2), (-1.5, 2), (1.5, -2), (-1.5, -2)])
    25.0
    """
    middle_x, middle_y = centroid(pattern)
    return math.fsum((x - middle_x) ** 2 + (y - middle_y) ** 2 for x, y in pattern)


def in_plane_forces(
    pattern: Sequence[tuple[float, float]], load: tuple[float, float], at: tuple[float, float]
) -> list[tuple[float, float]]:
    """Share of an in-plane load on each bolt, in the order of the pattern, (Fx, Fy), N.

    direct P/N, and across the radius M r / sum(r^2); M = moment of P about the centroid
    pattern  centres of the bolts, mm
    load     P as (Px, Py), N
    at       a point on the load's line, mm
    Range: at least one bolt, finite numbers; one bolt, or all in one place, only with the load through it.
    The shares add up to the load, and their moments to the load's moment.
    Source: derived (elastic method: statics, and each bolt's share in proportion to its movement).

    >>> shares = in_plane_forces([(1.5, 2), (-1.5, 2), (1.5, -2), (-1.5, -2)], (0, -2200), (6, 0))
    >>> [round(math.hypot(*share), 1) for share in shares]
    [1707.7, 1083.4, 1707.7, 1083.4]
    """
    _known([load, at])
    middle_x, middle_y = centroid(pattern)
    turning = polar_sum(pattern)
    direct_x, direct_y = load[0] / len(pattern), load[1] / len(pattern)
    moment = (at[0] - middle_x) * load[1] - (at[1] - middle_y) * load[0]
    if abs(moment) <= _CENTRED * math.hypot(*load):
        return [(direct_x, direct_y)] * len(pattern)
    if turning <= _CENTRED**2:
        raise ValueError("bolts in one place do not keep a joint from turning: the load must go through them")
    twist = moment / turning
    return [(direct_x - twist * (y - middle_y), direct_y + twist * (x - middle_x)) for x, y in pattern]


def worst_bolt(shares: Sequence[tuple[float, float]]) -> tuple[int, float]:
    """The bolt that carries most, (index from 0, force in N); the first of equals.

    largest sqrt(Fx^2 + Fy^2)
    shares  (Fx, Fy) of each bolt, ``in_plane_forces``
    Range: at least one bolt.
    Source: derived.

    >>> worst_bolt([(0, 1), (3, 4), (0, -5)])
    (1, 5.0)
    """
    _known(shares)
    forces = [math.hypot(*share) for share in shares]
    most = max(forces)
    index = next(i for i, force in enumerate(forces) if force >= most * (1 - _ALIKE))
    return index, forces[index]


def row_tensions(heights: Sequence[float], moment: float, pull: float = 0.0) -> list[float]:
    """Tension of each bolt under a moment out of the plane, preloaded plates, N.

    Ti = P/N + 1000 M (yi - y0) / sum((y - y0)^2), y0 the mean height; below 0 the plates are pressed there
    heights  yi of each bolt, across the axis of turning, mm; several bolts of one row: the height repeated
    moment   M, N m; it pulls where y is large
    pull     P, on the whole joint, N
    Range: at least one bolt; finite numbers; a moment needs two heights.  Good while the clamp holds the
    plates together everywhere; for a loose or thin plate see ``row_tensions_about_edge``.
    Source: derived (elastic method, the axis through the centroid); prying is not in it.

    >>> row_tensions([0, 0, 100, 100], 10, pull=400)
    [50.0, 50.0, 150.0, 150.0]
    """
    _known([(y, moment) for y in heights] + [(pull, 0.0)])
    if not heights:
        raise ValueError("a joint has at least one bolt")
    middle = math.fsum(heights) / len(heights)
    each = pull / len(heights)
    spread = math.fsum((y - middle) ** 2 for y in heights)
    if moment == 0:
        return [each] * len(heights)
    if spread <= _CENTRED**2:
        raise ValueError("bolts in one row do not resist a moment about that row")
    return [each + 1000 * moment * (y - middle) / spread for y in heights]


def row_tensions_about_edge(heights: Sequence[float], moment: float) -> list[float]:
    """Tension of each bolt of a bracket that tips about its lower edge, N.

    Ti = 1000 M yi / sum(y^2)
    heights  yi of each bolt above the edge about which the bracket tips, mm
    moment   M about that edge, N m
    Range: at least one bolt, none below the edge, one above it; finite numbers.
    Source: derived (moments about the edge; each bolt stretches with its height).

    >>> row_tensions_about_edge([20, 80], 6.8)
    [20.0, 80.0]
    """
    _known([(y, moment) for y in heights])
    if any(y < 0 for y in heights):
        raise ValueError("no bolt may stand below the edge about which the bracket tips")
    squares = math.fsum(y * y for y in heights)
    if squares <= _CENTRED**2:
        raise ValueError("at least one bolt must stand above the edge about which the bracket tips")
    return [1000 * moment * y / squares for y in heights]


def share_in_any_direction(
    pattern: Sequence[tuple[float, float]], at: tuple[float, float]
) -> list[tuple[float, float]]:
    """Least and greatest share of each bolt, as plain numbers, for an in-plane load in any direction.

    the singular values of the matrix that turns the load's direction into the bolt's share
    pattern, at  as in ``in_plane_forces``
    Range: as in ``in_plane_forces``.
    Source: derived (the elastic method is linear in the load).

    >>> share_in_any_direction([(0, 0), (4, 0)], (2, 0))
    [(0.5, 0.5), (0.5, 0.5)]
    """
    along = in_plane_forces(pattern, (1.0, 0.0), at)
    up = in_plane_forces(pattern, (0.0, 1.0), at)
    shares = []
    for (a, b), (c, d) in zip(along, up, strict=True):
        squares = a * a + b * b + c * c + d * d
        turn = a * d - b * c
        spread = math.sqrt(max(0.0, squares * squares - 4 * turn * turn))
        shares.append((math.sqrt(max(0.0, (squares - spread) / 2)), math.sqrt((squares + spread) / 2)))
    return shares


def pull_shares(pattern: Sequence[tuple[float, float]], at: tuple[float, float]) -> list[float]:
    """Share of each bolt, as a plain number, of a pull square to the plane at one point of it.

    Ti/T = 1/N + a xi + b yi, a and b from the moments about both axes, the axes through the centroid;
    below 0 the plates are pressed there
    pattern  centres of the bolts, mm
    at       where the pull goes through the plane, mm
    Range: at least one bolt; finite numbers.  Bolts in one line take no moment about that line: the plates'
    edges do, with prying that is not in it.  Good while the clamp holds the plates together.
    Source: derived (elastic method, as ``row_tensions``, which it equals for a moment about one axis).

    >>> pull_shares([(-1, -1), (1, -1), (-1, 1), (1, 1)], (1, 0))
    [0.0, 0.5, 0.0, 0.5]
    """
    _known([*pattern, at])
    middle_x, middle_y = centroid(pattern)
    points = [(x - middle_x, y - middle_y) for x, y in pattern]
    off_x, off_y = at[0] - middle_x, at[1] - middle_y
    xx = math.fsum(x * x for x, _ in points)
    yy = math.fsum(y * y for _, y in points)
    xy = math.fsum(x * y for x, y in points)
    turning, each = xx + yy, 1 / len(points)
    if turning <= _CENTRED**2:
        return [each] * len(points)
    whole = xx * yy - xy * xy
    if whole > 1e-9 * turning * turning:
        slope_x, slope_y = (off_x * yy - off_y * xy) / whole, (off_y * xx - off_x * xy) / whole
    else:  # all in one line: only the moment along it reaches them
        slope_x, slope_y = _along_line(points, turning, (off_x, off_y))
    return [each + slope_x * x + slope_y * y for x, y in points]


def _along_line(
    points: Sequence[tuple[float, float]], turning: float, off: tuple[float, float]
) -> tuple[float, float]:
    far = max(points, key=lambda point: math.hypot(*point))
    length = math.hypot(*far)
    line = far[0] / length, far[1] / length
    slope = (off[0] * line[0] + off[1] * line[1]) / turning
    return slope * line[0], slope * line[1]


def _known(points: Sequence[tuple[float, float]]) -> None:
    if not points:
        raise ValueError("a joint has at least one bolt")
    if not all(math.isfinite(x) and math.isfinite(y) for x, y in points):
        raise ValueError("positions and loads must be known")
