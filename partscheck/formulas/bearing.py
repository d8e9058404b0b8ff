"""Wheel bearings: where they carry, and what radial load each of the two bearings of a hub takes.

Places are from the hub's seating face, inboard positive, mm.  Thrust and equivalent loads stand in
``bearing_load``, life in ``bearing_life``.
"""

from __future__ import annotations

import math

from partscheck.formulas.ranges import above_zero


def radial_split(load: float, plane: float, inner: float, outer: float) -> tuple[float, float]:
    """Radial load on the inner and the outer bearing of a hub, (R_inner, R_outer), N.

    R_inner = W (x - xo) / (xi - xo), R_outer = W (xi - x) / (xi - xo)
    load   W, radial load of the wheel, N
    plane  x, where the load stands: from the hub's seating face, inboard positive, mm
    inner  xi, effective load centre of the inner bearing, likewise, mm
    outer  xo, of the outer bearing (outboard of the face: negative), mm
    Range: W not below 0; inner farther inboard than outer.  A negative answer: that bearing is pulled
    the other way, because the load stands outside the two.
    Source: derived (moments about each bearing).

    >>> [round(r, 1) for r in radial_split(5115.45, 0, 50, -18)]
    [1354.1, 3761.4]
    """
    if not load >= 0:
        raise ValueError(f"load must not be below 0 N, got {load:g}")
    if not inner > outer:
        raise ValueError(f"inner bearing must stand inboard of the outer, got {inner:g} and {outer:g} mm")
    spread = inner - outer
    return load * (plane - outer) / spread, load * (inner - plane) / spread


def cornering_plane(plane: float, side_share: float, loaded_radius: float) -> float:
    """Where the wheel's load seems to stand when the road also pushes the tire sideways, mm.

    x' = x + (K / W) r
    plane          x, of the upright load alone: from the seating face, inboard positive, mm
    side_share     K / W, side force over upright load: positive on the outside wheel of a bend (the hub
                   is pushed inboard), negative on the inside wheel; 0.2 in a bend of 0.2 g
    loaded_radius  r, from the axis to the road, mm
    Range: share -1.5 to 1.5; r not below 0.  No load goes over from the inside to the outside wheel here;
    give the load of the one wheel.
    Source: derived (moment of K about the axis, carried by W at a new place).

    >>> cornering_plane(0, 0.2, 330), round(cornering_plane(-38.1, -0.2, 330), 1)
    (66.0, -104.1)
    """
    if not -1.5 <= side_share <= 1.5:
        raise ValueError(f"side force must be -1.5 to 1.5 of the upright load, got {side_share:g}")
    if not loaded_radius >= 0:
        raise ValueError(f"loaded radius must not be below 0 mm, got {loaded_radius:g}")
    return plane + side_share * loaded_radius if side_share else plane


def radial_split_cornering(
    load: float, plane: float, inner: float, outer: float, side_share: float, loaded_radius: float
) -> tuple[float, float]:
    """Radial load on the two bearings with a side force on the tire, (R_inner, R_outer), N.

    ``radial_split`` with the plane of ``cornering_plane``
    load, plane, inner, outer  as in ``radial_split``
    side_share, loaded_radius  as in ``cornering_plane``
    Range: as in those two.
    Source: derived (moments about each bearing).

    >>> [round(r, 1) for r in radial_split_cornering(5115.45, 0, 50, -18, 0.2, 330)]  # outside wheel
    [6319.1, -1203.6]
    >>> [round(r, 1) for r in radial_split_cornering(5115.45, 0, 50, -18, -0.2, 330)]  # inside wheel
    [-3610.9, 8726.4]
    """
    return radial_split(load, cornering_plane(plane, side_share, loaded_radius), inner, outer)


def centre_beyond_middle(width: float, a: float) -> float:
    """How far a tapered bearing's effective centre lies from its middle, towards the cone's back face, mm.

    s = |a - T/2|
    width  T, over cone and cup set together, mm
    a      from one wide face to the effective centre, as the data sheet gives it, inside counted positive
    Range: T above 0; a not below -T/2.  The load lines stand square on the cup's race and so always lean
    towards the cone's back face.  Metric data sheets give a from the cup's back face (a above T/2), inch ones
    from the cone's (a below T/2; some print inside as negative: drop the sign).  Either way the distance
    from the middle is the same.  In a trailer hub the cones' back faces look outward, so the
    inner centre lies s inboard of the middle and the outer s outboard.
    Source: derived (geometry); which face a data sheet starts from is recalled, and for metric sizes borne
    out by a table of 27.

    >>> centre_beyond_middle(17.25, 14), centre_beyond_middle(17.25, 17.25 - 14)  # 30206
    (5.375, 5.375)
    """
    above_zero("width", width)
    if not a >= -width / 2:
        raise ValueError(f"a must not be below minus half the width, got {a:g} mm of {width:g} mm")
    return abs(a - width / 2)


def centre_beyond_middle_approx(bore: float, outside: float, e_factor: float) -> float:
    """The same distance where no ``a`` is known, mm.

    s = (d + D)/4 tan(alpha), tan(alpha) = e/1.5
    bore     d, mm
    outside  D, mm
    e_factor of the data sheet
    Range: 0 < d < D; e above 0, below 1.5.  Long by 0.3 to 1.9 mm on a table of 27 metric sizes.
    Source: derived (load line square on the race, met at the mean diameter); e = 1.5 tan(alpha) recalled,
    ISO 281.

    >>> round(centre_beyond_middle_approx(30, 62, 0.37), 2)  # 30206, a 14 of T 17.25: 5.375
    5.67
    """
    if not 0 < bore < outside:
        raise ValueError(f"bore must be above 0 and below the outside diameter, got {bore:g}, {outside:g} mm")
    return (bore + outside) / 4 * math.tan(math.radians(contact_angle(e_factor)))


def contact_angle(e_factor: float) -> float:
    """Contact angle of a single tapered bearing, deg.

    alpha = arctan(e / 1.5)
    e_factor  e, of the data sheet
    Range: e above 0, below 1.5.
    Source: recalled, ISO 281 (e = 1.5 tan alpha).

    >>> round(contact_angle(0.37), 2)
    13.86
    """
    if not 0 < e_factor < 1.5:
        raise ValueError(f"factor e must be above 0 and below 1.5, got {e_factor:g}")
    return math.degrees(math.atan(e_factor / 1.5))


def y_from_e(e_factor: float) -> float:
    """Axial factor Y of a single tapered bearing where only e is known.

    Y = 0.4 cot(alpha) = 0.6 / e
    e_factor  e, of the data sheet
    Range: e above 0, below 1.5.
    Source: derived from two recalled forms of ISO 281 (e = 1.5 tan alpha, Y = 0.4 cot alpha).

    >>> round(y_from_e(0.37), 2)  # data sheets print 1.6
    1.62
    """
    return 0.4 / math.tan(math.radians(contact_angle(e_factor)))


def y0_from_y(y_factor: float) -> float:
    """Static axial factor Y0 of a single tapered bearing where only Y is known.

    Y0 = 0.22 cot(alpha) = 0.55 Y
    y_factor  Y, of the data sheet
    Range: Y above 0.
    Source: recalled, ISO 76 (0.22 cot alpha) and ISO 281 (0.4 cot alpha).

    >>> round(y0_from_y(1.6), 2)  # data sheets print 0.9
    0.88
    """
    above_zero("factor Y", y_factor)
    return 0.55 * y_factor
