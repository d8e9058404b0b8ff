"""Towing: the loads at which the coupling may break, its D-value, chains, and the room to turn."""

from __future__ import annotations

import math

from partscheck.formulas.ranges import above_zero, not_below_zero

LONGITUDINAL_FACTOR = 3  # times the limit of the coupler's class (SAE J684)
GRAVITY = 9.81  # m/s2, as UN R55 rounds it
RIGHT_ANGLE = 90.0


def longitudinal_breaking_load(class_limit: float) -> float:
    """Least load along the road at which a coupler of a class may break, pull or push.

    F = 3 G
    class_limit  G, greatest gross weight of the class; of class 4, gross weight of the trailer, N
    Range: G not below 0.
    Source: published, SAE J684 as Maryland COMAR 11.13.08.10 prints it (secondary copy read).

    >>> [longitudinal_breaking_load(limit) for limit in (2000, 3500, 5000, 10000)]  # lb
    [6000, 10500, 15000, 30000]
    """
    not_below_zero("gross weight", class_limit)
    return LONGITUDINAL_FACTOR * class_limit


def breaking_load_of_gross(gross: float, multiple: float) -> float:
    """Least load at which a coupling may break where its class asks for a multiple of the gross weight.

    F = m G
    gross     G, gross weight of the trailer, N
    multiple  m; class 4: 3 along, 1 sideways, 1.3 up, 1.4 down, 1 for each chain
    Range: G not below 0; m above 0.
    Source: published, SAE J684 as Maryland COMAR 11.13.08.10 prints it (secondary copy read).

    >>> [round(breaking_load_of_gross(10000, multiple), 6) for multiple in (3, 1, 1.3, 1.4)]  # lb
    [30000, 10000, 13000.0, 14000.0]
    """
    not_below_zero("gross weight", gross)
    above_zero("multiple", multiple)
    return multiple * gross


def d_value(vehicle: float, trailer: float) -> float:
    """D-value that a coupling needs: the pull between two masses that it must stand, N.

    D = g T R / (T + R), which with weights instead of masses is T R / (T + R) x 9.81 / 9.80665
    vehicle  weight of the tow vehicle, as its papers allow it, N
    trailer  weight of the trailer, as its papers allow it, N
    Range: both not below 0, not both 0.
    Source: recalled, UN Regulation 55 (g 9.81 m/s2); not checked against its text.

    >>> kilogram = 9.80665
    >>> round(d_value(2000 * kilogram, 1500 * kilogram) / 1000, 2)  # kN: 9.81 x 2 t x 1.5 t / 3.5 t
    8.41
    """
    not_below_zero("weight of the tow vehicle", vehicle)
    not_below_zero("weight of the trailer", trailer)
    above_zero("weight of both together", vehicle + trailer)
    if math.inf in (vehicle, trailer):
        pull = min(vehicle, trailer)
    else:
        pull = vehicle * trailer / (vehicle + trailer)
    return pull * GRAVITY / 9.80665


def trailer_for_d_value(vehicle: float, coupling: float) -> float:
    """Heaviest trailer for the D-value on a coupling's plate, N; without bound where the D-value is as much as the
    tow vehicle's own weight, or more.

    R = D T / (g T - D), which with weights instead of masses is D T / (T x 9.81 / 9.80665 - D)
    vehicle   weight of the tow vehicle, as its papers allow it, T, N
    coupling  D-value on the plate, D, N
    Range: T above 0, D not below 0.
    Source: derived, the formula of ``d_value`` solved for the trailer.

    >>> kilogram = 9.80665
    >>> round(trailer_for_d_value(2000 * kilogram, d_value(2000 * kilogram, 1500 * kilogram)) / kilogram, 6)
    1500.0
    """
    above_zero("weight of the tow vehicle", vehicle)
    not_below_zero("D-value", coupling)
    if vehicle == math.inf:
        return coupling / (GRAVITY / 9.80665)
    room = vehicle * GRAVITY / 9.80665 - coupling
    return coupling * vehicle / room if room > 0 else math.inf


def chain_breaking_load(working_load: float, factor: float) -> float:
    """Breaking strength of a chain whose working load limit is known, N.

    B = f W
    working_load  W, N
    factor        f, breaking strength over working load: 4 for grades 30 and 70
    Range: W not below 0; f at least 1.
    Source: practice, no standard was read; for grade 43 both 3 and 4 are printed.

    >>> chain_breaking_load(1300, 4)
    5200
    """
    not_below_zero("working load", working_load)
    if not factor >= 1:
        raise ValueError(f"factor must be at least 1, got {factor:g}")
    return working_load * factor


def turn_angle(front: float, half_width: float, bumper: float, half_bumper: float) -> float:
    """How far trailer and tow vehicle turn against each other until they touch, deg, seen from above.

    The corner that stands nearer to the ball meets the other's face; with its distance a behind (or
    ahead of) the ball, its half width c, and the other's face at b:
    r = sqrt(a^2 + c^2), angle = arccos(-b / r) - arctan(c / a)
    front        from the ball's centre back to the trailer's front, mm
    half_width   half the width of that front, mm
    bumper       from the ball's centre forward to the tow vehicle's rear, mm
    half_bumper  half the width of that rear, mm
    Range: none below 0.  A right angle or more is 90: past it other parts touch first.
    Source: derived (a corner swings on a circle round the ball).

    >>> round(turn_angle(600, 600, 300, 900), 1)  # the trailer's corner comes to the bumper
    65.7
    >>> turn_angle(600, 200, 300, 900)  # a narrow front passes
    90.0
    """
    for name, value in (("front", front), ("half width", half_width), ("bumper", bumper), ("rear", half_bumper)):
        not_below_zero(name, value)
    if math.inf in (front, bumper):
        return RIGHT_ANGLE
    if math.hypot(front, half_width) <= math.hypot(bumper, half_bumper):
        return _corner_meets_face(front, half_width, bumper)
    return _corner_meets_face(bumper, half_bumper, front)


def _corner_meets_face(own: float, half_width: float, face: float) -> float:
    """The turn, deg, at which the corner (own, half_width) comes to the line at ``face`` beyond the ball."""
    radius = math.hypot(own, half_width)
    if radius <= face:
        return RIGHT_ANGLE
    if radius == math.inf:
        return 0.0
    turned = math.acos(-face / radius) - math.atan2(half_width, own)
    return min(RIGHT_ANGLE, max(0.0, math.degrees(turned)))
