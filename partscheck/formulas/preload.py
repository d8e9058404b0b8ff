"""Preload of a bolt: what it is to be, how friction sets it, and what an outside pull does to it.

Torque and preload by the nut factor K stand in ``bolted_joint``.
"""

from __future__ import annotations

import math

from partscheck.formulas.ranges import above_zero

REUSED = 0.75  # of the proof load, for a joint that is taken apart again (Shigley eq 8-31)
PERMANENT = 0.90  # of the proof load, for a joint that is not (Shigley eq 8-31)

_FLANK = math.radians(30)  # half of the 60 deg thread
_PITCH_LINE = 3 * math.sqrt(3) / 8  # 0.649519
_COLLAR = 0.625  # mean radius of the bearing face / nominal diameter, hex nut or head


def proof_load(stress_area: float, proof_strength: float) -> float:
    """Load up to which a bolt takes no lasting stretch, N.

    Fp = At Sp
    stress_area     At, mm2
    proof_strength  Sp, MPa
    Range: both above 0.
    Source: published, Shigley 9e eq 8-32; ISO 898-1; secondary copies read.

    >>> proof_load(84.3, 580)  # M12 class 8.8; printed 48 900
    48894.0
    """
    above_zero("stress area", stress_area)
    above_zero("proof strength", proof_strength)
    return stress_area * proof_strength


def proof_from_yield(yield_strength: float) -> float:
    """Proof strength where only the yield strength is known, MPa.

    Sp = 0.85 Sy, about
    yield_strength  Sy, MPa
    Range: above 0.  A stand-in: the standard's proof strength rules where there is one.
    Source: published, Shigley 9e ch. 8, beside eq 8-32; secondary copy read.

    >>> round(proof_from_yield(640))  # class 8.8 has 580
    544
    """
    above_zero("yield strength", yield_strength)
    return 0.85 * yield_strength


def preload_of_proof(proof: float, share: float = REUSED) -> float:
    """Preload recommended for a joint, N.

    Fi = 0.75 Fp reused, 0.90 Fp permanent
    proof  Fp, ``proof_load``, N
    share  of the proof load
    Range: Fp above 0; share above 0, at most 1.
    Source: published, Shigley 9e eq 8-31; secondary copy read.

    >>> round(preload_of_proof(proof_load(0.226, 85)), 1)  # 5/8-11 grade 5, kip; printed 14.4
    14.4
    """
    above_zero("proof load", proof)
    if not 0 < share <= 1:
        raise ValueError(f"share of the proof load must be above 0 and at most 1, got {share:g}")
    return share * proof


def share_of_proof(preload: float, proof: float) -> float:
    """How much of the proof load a preload takes, as a plain number.  Above 1 the bolt is stretched.

    share = Fi / Fp
    preload  Fi, N
    proof    Fp, ``proof_load``, N
    Range: Fi not below 0; Fp above 0.
    Source: derived.

    >>> round(share_of_proof(9000, proof_load(0.1419, 120000)), 3)  # 1/2-13 grade 8, lbf
    0.529
    """
    _not_below_zero("preload", preload)
    above_zero("proof load", proof)
    return preload / proof


def preload_spread(preload: float, scatter: float) -> tuple[float, float]:
    """Least and greatest preload that one torque may give, (least, greatest), N.

    F (1 - s), F (1 + s)
    preload  F, nominal, N
    scatter  s, as a plain number: 0.25 for a torque wrench on lubricated threads, more on dry ones
    Range: F not below 0; s 0 to 1.
    Source: practice.  Ten lubricated bolts at 90 N m gave 30.3 to 40.5 kN, mean 34.2: Shigley 9e
    Table 8-14, published, secondary copy read.

    >>> preload_spread(34180, 0.25)
    (25635.0, 42725.0)
    """
    _not_below_zero("preload", preload)
    if not 0 <= scatter <= 1:
        raise ValueError(f"scatter must be 0 to 1 (25 % is 0.25), got {scatter:g}")
    return preload * (1 - scatter) if scatter < 1 else 0.0, preload * (1 + scatter)


def nut_factor_from_friction(
    diameter: float, pitch: float, thread_friction: float, collar_friction: float
) -> float:
    """Nut factor K of a 60 deg thread from its friction; T = K F d as in ``bolted_joint``.

    K = dm/(2 d) (tan L + f sec a)/(1 - f tan L sec a) + 0.625 fc, tan L = p/(pi dm), a = 30 deg
    diameter         d, nominal, mm
    pitch            p, mm; dm = d - 0.649519 p
    thread_friction  f, between the threads
    collar_friction  fc, under the nut or the head that turns
    Range: d more than one pitch, p above 0; f and fc 0 to 0.6.  Finite sizes only.
    Source: published, Shigley 9e eq 8-26; secondary copy read.

    >>> round(nut_factor_from_friction(19.05, 25.4 / 16, 0.15, 0.15), 3)  # 3/4-16
    0.189
    """
    if not (pitch > 0 and diameter > pitch):
        raise ValueError(f"diameter must be more than one pitch above 0, got {diameter:g} and {pitch:g} mm")
    if diameter == math.inf:
        raise ValueError("diameter must be known")
    for name, friction in (("threads", thread_friction), ("bearing face", collar_friction)):
        if not 0 <= friction <= 0.6:
            raise ValueError(f"friction of the {name} must be 0 to 0.6, got {friction:g}")
    line = diameter - _PITCH_LINE * pitch
    slope = pitch / (math.pi * line)
    wedge = thread_friction / math.cos(_FLANK)
    return line / (2 * diameter) * (slope + wedge) / (1 - wedge * slope) + _COLLAR * collar_friction


def joint_constant(bolt_stiffness: float, member_stiffness: float) -> float:
    """Share of an outside pull that the bolt of a preloaded joint takes.

    C = kb / (kb + km)
    bolt_stiffness    kb, N/mm (any one unit with the next)
    member_stiffness  km, of the clamped parts
    Range: both above 0 and finite.
    Source: published, Shigley 9e ch. 8 and Ex 8-3; secondary copy read.

    >>> round(joint_constant(6.50, 13.8), 3)  # printed 0.320
    0.32
    """
    for name, value in (("bolt stiffness", bolt_stiffness), ("member stiffness", member_stiffness)):
        if not 0 < value < math.inf:
            raise ValueError(f"{name} must be above 0 and known, got {value:g}")
    return bolt_stiffness / (bolt_stiffness + member_stiffness)


def bolt_load(preload: float, pull: float, constant: float) -> float:
    """Tension in one preloaded bolt under an outside pull, N.

    Fb = C P + Fi while the joint is closed; P once it has come apart
    preload   Fi, N
    pull      P, outside pull for each bolt, N
    constant  C, ``joint_constant``
    Range: Fi and P not below 0; C 0 to 1.
    Source: published, Shigley 9e ch. 8 and Ex 8-3; secondary copy read.  The open joint: derived.

    >>> round(bolt_load(25, 6, 0.320) / 0.373, 2)  # kip, in2: the stress, kpsi; printed 72.17
    72.17
    """
    _pulled(preload, pull, constant)
    return max(preload + _times(constant, pull), pull)


def clamp_left(preload: float, pull: float, constant: float) -> float:
    """Clamp that is left between the parts for each bolt under an outside pull, N; 0 when they part.

    Fm = Fi - (1 - C) P
    preload, pull, constant  as in ``bolt_load``
    Range: Fi and P not below 0; C 0 to 1.
    Source: published, Shigley 9e ch. 8; secondary copy read.

    >>> round(clamp_left(14.4, 5, 0.280), 2)
    10.8
    """
    _pulled(preload, pull, constant)
    lost = _times(1 - constant, pull)
    return 0.0 if lost == math.inf else max(0.0, preload - lost)


def proof_factor(proof: float, preload: float, pull: float, constant: float) -> float:
    """How far a pulled, preloaded bolt is from its proof load: np = Sp At / (C P + Fi).

    proof                    Sp At, ``proof_load``, N
    preload, pull, constant  as in ``bolt_load``, N
    Range: Sp At above 0; Fi and P not below 0, not both 0; C 0 to 1.  Joint still closed.
    Source: published, Shigley 9e ch. 8 and p. 449; secondary copy read.

    >>> round(proof_factor(85 * 0.226, 14.4, 5, 0.280), 2)  # 5/8-11 grade 5, kip; printed 1.22
    1.22
    """
    above_zero("proof load", proof)
    _pulled(preload, pull, constant)
    return _over(proof, _times(constant, pull) + preload)


def load_factor(proof: float, preload: float, pull: float, constant: float) -> float:
    """How many times the pull may grow before the bolt reaches proof: nL = (Sp At - Fi) / (C P).

    proof, preload, pull, constant  as in ``proof_factor``
    Range: Sp At above 0; Fi and P not below 0; C 0 to 1.  Below 0 the preload alone is beyond proof.
    Source: published, Shigley 9e ch. 8 and p. 449; secondary copy read.

    >>> round(load_factor(85 * 0.226, 14.4, 5, 0.280), 2)  # printed 3.44
    3.44
    """
    above_zero("proof load", proof)
    _pulled(preload, pull, constant)
    return _over(proof - preload, _times(constant, pull))


def separation_factor(preload: float, pull: float, constant: float) -> float:
    """How many times the pull may grow before the parts come apart: n0 = Fi / (P (1 - C)).

    preload, pull, constant  as in ``bolt_load``
    Range: Fi and P not below 0; C 0 to 1.
    Source: published, Shigley 9e ch. 8 and p. 449; secondary copy read.

    >>> round(separation_factor(14.4, 5, 0.280), 2)  # printed 4.00
    4.0
    """
    _pulled(preload, pull, constant)
    return _over(preload, _times(1 - constant, pull))


def _pulled(preload: float, pull: float, constant: float) -> None:
    _not_below_zero("preload", preload)
    _not_below_zero("pull", pull)
    if not 0 <= constant <= 1:
        raise ValueError(f"joint constant must be 0 to 1, got {constant:g}")


def _times(share: float, load: float) -> float:
    """Product in which nothing of something unbounded is nothing."""
    return 0.0 if 0 in (share, load) else share * load


def _over(have: float, need: float) -> float:
    """Quotient; unbounded where nothing is asked for."""
    if need == 0:
        return math.inf
    return have / need if have != need else 1.0


def _not_below_zero(name: str, value: float) -> None:
    if not value >= 0:
        raise ValueError(f"{name} must not be below 0 N, got {value:g}")
