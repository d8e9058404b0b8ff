"""Braking: force and torque at one wheel, and what a tire of another size does to them."""

from __future__ import annotations

import math


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


def force_at_road(torque: float, loaded_radius: float) -> float:
    """Brake force at the road from a brake's torque, N; ``brake_torque`` solved for the force.

    F = 1000 T / r
    torque         T, N m
    loaded_radius  r, mm
    Range: T not below 0; r above 0; not both unbounded.  The road may give less: the tire slides first.
    Source: derived.

    >>> force_at_road(825, 330)
    2500.0
    """
    if not torque >= 0:
        raise ValueError(f"torque must not be below 0 N m, got {torque:g}")
    if not loaded_radius > 0:
        raise ValueError(f"radius must be above 0 mm, got {loaded_radius:g}")
    if torque == loaded_radius == math.inf:
        raise ValueError("torque and radius must not both be unbounded")
    return 1000 * torque / loaded_radius


def brake_force_ratio(design_radius: float, loaded_radius: float) -> float:
    """Brake force at the road on this tire, as a share of that on the tire the brake is rated for.

    F / F_design = r_design / r
    design_radius  r_design, loaded radius at which the brake's rating holds, mm
    loaded_radius  r, of this tire, mm
    Range: both above 0; not both unbounded.  The same torque at the drum: a taller tire brakes less.
    Source: derived (torque = force x radius).

    >>> brake_force_ratio(297, 330)
    0.9
    """
    if not (design_radius > 0 and loaded_radius > 0):
        raise ValueError(f"radii must be above 0 mm, got {design_radius:g} and {loaded_radius:g}")
    if design_radius == loaded_radius == math.inf:
        raise ValueError("radii must not both be unbounded")
    return design_radius / loaded_radius


def rating_on_tire(rating: float, design_radius: float, loaded_radius: float) -> float:
    """Load that a brake is good for on this tire, in the unit of the rating.

    rating x r_design / r
    rating         of one brake, as marked
    design_radius, loaded_radius  as in ``brake_force_ratio``
    Range: rating not below 0; radii as in ``brake_force_ratio``.  On a smaller tire it comes out above the
    rating; the maker's rating stays the limit there.
    Source: derived (the force that slows a load goes with the load).

    >>> rating_on_tire(1750, 297, 330)
    1575.0
    """
    if not rating >= 0:
        raise ValueError(f"rating must not be below 0, got {rating:g}")
    return rating * brake_force_ratio(design_radius, loaded_radius)


def _load(load: float) -> None:
    if not load >= 0:
        raise ValueError(f"load must not be below 0 N, got {load:g}")
