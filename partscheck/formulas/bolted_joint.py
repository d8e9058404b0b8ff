"""Bolted joints that hold by friction: preload from torque, and the slip they resist."""

from __future__ import annotations


def preload_from_torque(torque: float, nut_factor: float, diameter: float) -> float:
    """Preload of one bolt tightened to a torque, N.

    F = 1000 T / (K d)
    torque      T, N m
    nut_factor  K: 0.30 black, 0.20 zinc, 0.18 lubricated (Shigley Table 8-15)
    diameter    d, nominal, mm
    Range: T not below 0; K 0.05 to 0.5; d above 0.  A nominal: bolts of one batch scatter by 25 % and more.
    Source: published, Shigley 9e ch. 8, T = K F d, and Table 8-15; secondary copy read.

    >>> round(preload_from_torque(88, 0.20, 12))  # M12 class 8.8, about 75 % of proof
    36667
    """
    if not torque >= 0:
        raise ValueError(f"torque must not be below 0 N m, got {torque:g}")
    if not 0.05 <= nut_factor <= 0.5:
        raise ValueError(f"nut factor K must be 0.05 to 0.5, got {nut_factor:g}")
    if not diameter > 0:
        raise ValueError(f"diameter must be above 0 mm, got {diameter:g}")
    return 1000 * torque / (nut_factor * diameter)


def clamp_slip_capacity(
    preload: float,
    bolts: int,
    friction: float,
    tension: float = 0.0,
    planes: int = 1,
    safety: float = 1.0,
) -> float:
    """Shear that a clamped joint carries by friction before it slips, N.

    Q = mu (N F - T) m / omega; 0 when the tension has taken the whole clamp
    preload   F, of one bolt, N
    bolts     N
    friction  mu of the clamped faces
    tension   T, outside pull on the whole joint, N
    planes    m, slip planes
    safety    omega: 1.50 standard holes, 1.76 oversize holes
    Range: F and T not below 0; N and m at least 1; mu 0 to 1; omega at least 1.
    Source: published, the slip form of AISC 360 (2005) as worked in A Beginner's Guide to the Steel
    Construction Manual, Ex 4.1; secondary copy read.  1.76 for oversize holes: AISC 360, recalled.  The
    pull taken off the clamp in full: practice.

    >>> round(clamp_slip_capacity(9000, 3, 0.20, tension=500, safety=1.76))  # any one unit of force
    3011
    """
    if not (preload >= 0 and tension >= 0):
        raise ValueError(f"preload and tension must not be below 0 N, got {preload:g} and {tension:g}")
    if bolts < 1 or planes < 1:
        raise ValueError(f"bolts and slip planes must be 1 or more, got {bolts} and {planes}")
    if not 0 <= friction <= 1:
        raise ValueError(f"friction must be 0 to 1, got {friction:g}")
    if not safety >= 1:
        raise ValueError(f"safety must be 1 or more, got {safety:g}")
    return friction * max(0.0, bolts * preload - tension) * planes / safety
