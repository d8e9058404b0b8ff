"""Toe and camber of a wheel, and the shims behind a spindle flange that correct them.

Toe-in is positive (the front of the wheel turned towards the trailer), camber is positive with the top of
the wheel leaning outward.  Angles are of one wheel, in deg.  Shims go between the arm's face and the
spindle flange, so that a thicker shim moves that corner of the flange outboard.
"""

from __future__ import annotations

import math

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Sequence

_STEEPEST = 10.0  # deg; a flange that is farther off wants mending, not shims (practice)


def toe_angle(difference: float, across: float, wheels: int = 2) -> float:
    """Toe of one wheel from a tape measurement, deg.

    angle = arctan(d / (w x D))
    difference  d, distance behind less distance in front, between the same points of the tires (or of one
                tire and a line along the trailer), at hub height, mm
    across      D, between the two points measured on one wheel, mm: the tire's diameter at hub height
    wheels      w: 2 when d is between the two wheels of an axle and both stand alike, 1 from a line
    Range: D above 0; w 1 or 2; not more than 10 deg.
    Source: derived.

    >>> round(toe_angle(6, 660), 3), round(toe_angle(3, 660, wheels=1), 3)
    (0.26, 0.26)
    """
    if wheels not in (1, 2):
        raise ValueError(f"wheels must be 1 or 2, got {wheels:g}")
    return _lean(difference / wheels, across)


def camber_angle(difference: float, height: float) -> float:
    """Camber of one wheel from a square or a plumb line, deg.

    angle = arctan(d / h)
    difference  d, gap from the line to the rim below less the gap above, line outboard of the wheel, mm
    height      h, between the two points of the rim, mm
    Range: h above 0; not more than 10 deg.
    Source: derived.

    >>> round(camber_angle(7, 400), 2)
    1.0
    """
    return _lean(difference, height)


def shim_for_angle(angle: float, spacing: float) -> float:
    """Difference of shim thickness that turns a flange by an angle, mm.

    t = tan(angle) x s
    angle    to correct, deg; the sign is kept
    spacing  s, between the bolt centres across which it turns, mm
    Range: angle -10 to 10; s above 0.
    Source: derived.

    >>> round(shim_for_angle(0.5, 76.2), 3)
    0.665
    """
    _angle(angle)
    _above_zero("bolt spacing", spacing)
    return math.tan(math.radians(angle)) * spacing


def angle_of_shim(difference: float, spacing: float) -> float:
    """Angle that a difference of shim thickness turns a flange by, deg; inverse of ``shim_for_angle``.

    angle = arctan(t / s)
    difference  t, mm; the sign is kept
    spacing     s, between the bolt centres, mm
    Range: s above 0; not more than 10 deg.
    Source: derived.

    >>> round(angle_of_shim(1 / 32 * 25.4, 76.2), 2)  # one shim of 1/32 in at 3 in
    0.6
    """
    return _lean(difference, spacing)


def shims(toe_in: float, camber: float, bolts: Sequence[tuple[float, float]]) -> list[float]:
    """Shim thickness at each bolt of a spindle flange, in the order of the bolts, mm; the least is 0.

    t = y tan(toe) + z tan(camber), less the least of them: one plane, so that the flange sits flat
    toe_in  correction wanted, toe-in positive, deg: thicker at the rear
    camber  correction wanted, top outward positive, deg: thicker above
    bolts   (y, z) of each: rearward and upward, mm, from any one point
    Range: angles -10 to 10; at least three bolts; finite places.
    Source: derived (geometry of a plane).

    >>> [round(t, 3) for t in shims(0.5, -1.0, [(0, 76.2), (0, 0), (76.2, 76.2), (76.2, 0)])]
    [0.0, 1.33, 0.665, 1.995]
    """
    _angle(toe_in)
    _angle(camber)
    if len(bolts) < 3:
        raise ValueError(f"a flange that is shimmed has at least three bolts, got {len(bolts)}")
    if not all(math.isfinite(value) for place in bolts for value in place):
        raise ValueError("places of the bolts must be finite")
    rearward, upward = math.tan(math.radians(toe_in)), math.tan(math.radians(camber))
    heights = [y * rearward + z * upward for y, z in bolts]
    least = min(heights)
    return [height - least for height in heights]


def four_bolt_shims(
    toe_in: float, camber: float, along: float, upright: float
) -> tuple[float, float, float, float]:
    """Shims of a four-bolt spindle flange, (front upper, front lower, rear upper, rear lower), mm.

    ``shims`` with two bolts in front and two behind; the least of the four is 0
    toe_in, camber  corrections wanted, as in ``shims``, deg
    along           spacing of the bolts front to rear, mm
    upright         spacing of the bolts lower to upper, mm
    Range: angles -10 to 10; spacings above 0, finite.
    Source: derived (geometry of a plane).

    >>> [round(t, 3) for t in four_bolt_shims(0.5, 1.0, 76.2, 76.2)]
    [1.33, 0.0, 1.995, 0.665]
    """
    _above_zero("bolt spacing along", along)
    _above_zero("bolt spacing upright", upright)
    front_upper, front_lower, rear_upper, rear_lower = shims(
        toe_in, camber, [(0, upright), (0, 0), (along, upright), (along, 0)]
    )
    return front_upper, front_lower, rear_upper, rear_lower


def wedge_shim(toe_in: float, camber: float) -> tuple[float, float]:
    """One tapered full-contact shim that does both corrections, (angle between its faces, its clocking), deg.

    tan(angle) = sqrt(tan(toe)^2 + tan(camber)^2); clocking = atan2(tan(camber), tan(toe))
    toe_in, camber  corrections wanted, as in ``shims``, deg
    Clocking: where the thick edge goes: 0 to the rear, 90 up, 180 to the front, -90 down.
    Range: angles -10 to 10.
    Source: derived (steepest slope of the plane of ``shims``).

    >>> [round(a, 2) for a in wedge_shim(0.3, 0.4)]
    [0.5, 53.13]
    """
    _angle(toe_in)
    _angle(camber)
    rearward, upward = math.tan(math.radians(toe_in)), math.tan(math.radians(camber))
    return (
        math.degrees(math.atan(math.hypot(rearward, upward))),
        math.degrees(math.atan2(upward, rearward)),
    )


def _lean(difference: float, over: float) -> float:
    _above_zero("distance measured over", over)
    angle = math.degrees(math.atan2(difference, over))
    _angle(angle)
    return angle


def _angle(angle: float) -> None:
    if not -_STEEPEST <= angle <= _STEEPEST:
        raise ValueError(f"angle must be -{_STEEPEST:g} to {_STEEPEST:g} deg, got {angle:g}")


def _above_zero(name: str, value: float) -> None:
    if not 0 < value < math.inf:
        raise ValueError(f"{name} must be above 0 mm, and finite, got {value:g}")
