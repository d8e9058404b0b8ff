"""Braking: force and torque at one wheel."""

from __future__ import annotations


def brake_force_from_deceleration(load: float, deceleration_g: float) -> float:
    """Brake force that slows the load of one wheel, N.

    F = W z
    load            W, weight that this wheel must stop, N
    deceleration_g  z, deceleration as a share of g (0.5 is 4.9 m/s2)
    Range: W not below 0; z 0 to 1.5.
    Source: derived (force = mass x acceleration).

    >>> brake_force_from_deceleration(5000, 0.5)
    2500.0
    """
    _load(load)
    if not 0 <= deceleration_g <= 1.5:
        raise ValueError(f"deceleration must be 0 to 1.5 g, got {deceleration_g:g}")
    return load * deceleration_g


def brake_torque(force: float, loaded_radius: float) -> float:
    """Torque of a brake force at the ground about the wheel's centre, N m.

    T = F r / 1000
    force          F, at the ground, N
    loaded_radius  r, mm
    Range: neither below 0.
    Source: derived.

    >>> brake_torque(2500, 330)
    825.0
    """
    if not (force >= 0 and loaded_radius >= 0):
        raise ValueError(f"force and radius must not be below 0, got {force:g} N and {loaded_radius:g} mm")
    return force * loaded_radius / 1000


def brake_torque_at_friction(load: float, friction: float, loaded_radius: float) -> float:
    """Greatest torque that the road can put into a braked wheel before it slides, N m.

    T = mu W r / 1000
    load           W, on this wheel, N
    friction       mu, tire on road
    loaded_radius  r, mm
    Range: W and r not below 0; mu 0 to 1.5.
    Source: derived (friction = mu x load).

    >>> round(brake_torque_at_friction(5000, 0.8, 330), 6)
    1320.0
    """
    _load(load)
    if not 0 <= friction <= 1.5:
        raise ValueError(f"friction must be 0 to 1.5, got {friction:g}")
    return brake_torque(friction * load, loaded_radius)


def force_at_circle(torque: float, circle: float) -> float:
    """Force round a bolt circle that carries a torque, all bolts together, N.

    F = 2 T x 1000 / D
    torque  T, N m
    circle  D, bolt circle, mm
    Range: T not below 0; D above 0.
    Source: derived.

    >>> round(force_at_circle(825, 114.3))
    14436
    """
    if not torque >= 0:
        raise ValueError(f"torque must not be below 0 N m, got {torque:g}")
    if not circle > 0:
        raise ValueError(f"bolt circle must be above 0 mm, got {circle:g}")
    return 2 * torque * 1000 / circle


def _load(load: float) -> None:
    if not load >= 0:
        raise ValueError(f"load must not be below 0 N, got {load:g}")
