"""Bolted joints that hold by friction: torque and preload, and the slip they resist.

What the preload is to be, and what an outside pull does to it, stands in ``preload``; what the bolts and
the plates carry in ``joint_strength``.
"""

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
    return 1000 * torque / (_nut_factor(nut_factor) * _diameter(diameter))


def torque_for_preload(preload: float, nut_factor: float, diameter: float) -> float:
    """Torque that gives one bolt a preload, N m; the inverse of ``preload_from_torque``.

    T = K F d / 1000
    preload     F, N
    nut_factor  K, as in ``preload_from_torque``; from friction: ``preload.nut_factor_from_friction``
    diameter    d, nominal, mm
    Range: F not below 0; K 0.05 to 0.5; d above 0.
    Source: published, Shigley 9e ch. 8, T = K F d, and Ex 8-3; secondary copy read.

    >>> round(torque_for_preload(25000 * 4.448222, 0.2, 19.05) / 1.355818 * 12)  # lbf in; 3/4-16, 25 kip
    3750
    """
    if not preload >= 0:
        raise ValueError(f"preload must not be below 0 N, got {preload:g}")
    return _nut_factor(nut_factor) * preload * _diameter(diameter) / 1000


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
    _slip_inputs(bolts, friction, planes, safety)
    if not (preload >= 0 and tension >= 0):
        raise ValueError(f"preload and tension must not be below 0 N, got {preload:g} and {tension:g}")
    return _times(friction, max(0.0, bolts * preload - tension), planes) / safety


def preload_against_slip(
    shear: float,
    bolts: int,
    friction: float,
    tension: float = 0.0,
    planes: int = 1,
    safety: float = 1.0,
) -> float:
    """Preload that each bolt needs so that the joint does not slip, N; inf without friction.

    F = (V omega / (mu m) + T) / N, the inverse of ``clamp_slip_capacity``
    shear     V, on the whole joint, N
    bolts, friction, tension, planes, safety  as in ``clamp_slip_capacity``
    Range: V and T not below 0; N and m at least 1; mu 0 to 1; omega at least 1.
    Source: published and practice, as ``clamp_slip_capacity``.

    >>> round(preload_against_slip(2200, 3, 0.20, tension=500, safety=1.76))  # any one unit of force
    6620
    """
    _slip_inputs(bolts, friction, planes, safety)
    if not (shear >= 0 and tension >= 0):
        raise ValueError(f"shear and tension must not be below 0 N, got {shear:g} and {tension:g}")
    if shear == 0:
        return tension / bolts
    if friction == 0:
        return float("inf")
    return (shear * safety / (friction * planes) + tension) / bolts


def slip_per_bolt(
    least_preload: float, friction: float, pretension_ratio: float = 1.13, hole_factor: float = 1.0
) -> float:
    """Slip resistance of one pretensioned structural bolt on one slip plane, N, before phi or omega.

    rn = mu Du hsc Tb
    least_preload     Tb, least pretension of the standard, N
    friction          mu of the faces: class A 0.35 in AISC 360 (2005), 0.30 in later editions (recalled)
    pretension_ratio  Du, mean installed pretension / least pretension: 1.13
    hole_factor       hsc: 1.0 standard holes; less for oversize and slotted (2005 edition only)
    Range: Tb not below 0; mu 0 to 1; Du 1 to 1.5; hsc above 0, at most 1.
    Only for bolts tightened and checked as the structural standard asks, not for a torque wrench at home.
    Source: published, AISC 360 (2005) as worked in A Beginner's Guide to the Steel Construction Manual,
    Ex 4.1; secondary copy read.

    >>> round(slip_per_bolt(28, 0.35), 1)  # 3/4 A325, kip; printed 11.1
    11.1
    """
    if not least_preload >= 0:
        raise ValueError(f"least pretension must not be below 0 N, got {least_preload:g}")
    if not 0 <= friction <= 1:
        raise ValueError(f"friction must be 0 to 1, got {friction:g}")
    if not 1 <= pretension_ratio <= 1.5:
        raise ValueError(f"pretension ratio Du must be 1 to 1.5, got {pretension_ratio:g}")
    if not 0 < hole_factor <= 1:
        raise ValueError(f"hole factor must be above 0 and at most 1, got {hole_factor:g}")
    return _times(friction, pretension_ratio * hole_factor, least_preload)


def _slip_inputs(bolts: int, friction: float, planes: int, safety: float) -> None:
    if bolts < 1 or planes < 1:
        raise ValueError(f"bolts and slip planes must be 1 or more, got {bolts} and {planes}")
    if not 0 <= friction <= 1:
        raise ValueError(f"friction must be 0 to 1, got {friction:g}")
    if not safety >= 1:
        raise ValueError(f"safety must be 1 or more, got {safety:g}")


def _nut_factor(nut_factor: float) -> float:
    if not 0.05 <= nut_factor <= 0.5:
        raise ValueError(f"nut factor K must be 0.05 to 0.5, got {nut_factor:g}")
    return nut_factor


def _diameter(diameter: float) -> float:
    if not diameter > 0:
        raise ValueError(f"diameter must be above 0 mm, got {diameter:g}")
    return diameter


def _times(first: float, second: float, third: float) -> float:
    """Product in which nothing of something unbounded is nothing."""
    return 0.0 if 0 in (first, second, third) else first * second * third
