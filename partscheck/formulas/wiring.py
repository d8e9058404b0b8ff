"""Copper wire: size, resistance, and the volts lost along it.

Lengths are in mm and areas in mm2, as everywhere; resistance per length is in ohm per metre.  What current
a wire may carry is a table (insulation, bundling, heat), not a formula.
"""

from __future__ import annotations

import math

# Annealed copper at 20 degC, ohm mm2/m: 10.371 ohm circular mil per ft (recalled), which is 0.01724.
COPPER = 10.371 * math.pi / 4 * 0.0254**2 / 0.3048
STRANDED = 1.02  # stranded over solid copper of the same area (practice)
THERE_AND_BACK = 2  # wires in the circuit; 1 where the frame is the return

_COLDEST = -234.5  # degC, where the straight line of copper's resistance comes to nothing


def awg_diameter(gauge: int) -> float:
    """Diameter of a solid wire of an American gauge, mm.

    d = 0.005 in x 92^((36 - n) / 39)
    gauge  n; 1/0 is 0, 2/0 is -1, 3/0 is -2, 4/0 is -3
    Range: n -3 to 40, whole.
    Source: recalled, ASTM B258.

    >>> round(awg_diameter(12) / 0.0254, 3)  # mil; tables print 80.808
    80.808
    """
    if gauge != int(gauge) or not -3 <= gauge <= 40:
        raise ValueError(f"gauge must be a whole number from -3 (4/0) to 40, got {gauge:g}")
    return 0.127 * math.pow(92, (36 - gauge) / 39)


def awg_area(gauge: int) -> float:
    """Cross section of a solid wire of an American gauge, mm2.

    A = pi/4 d^2, d as in ``awg_diameter``
    gauge  as in ``awg_diameter``
    Range: as in ``awg_diameter``.
    Source: recalled, ASTM B258.

    >>> round(awg_area(12), 3)
    3.309
    """
    return math.pi / 4 * awg_diameter(gauge) ** 2


def resistance(area: float, temperature: float = 20.0, stranding: float = 1.0) -> float:
    """Resistance of copper wire per length, ohm per metre.

    R = rho f / A x (234.5 + t) / 254.5
    area         A, of copper, mm2
    temperature  t, degC
    stranding    f: 1 solid, about 1.02 stranded
    Range: A above 0; t -60 to 250; f 1 to 1.5.  Tinned strands of the small aircraft wires in AC 43.13-1B run
    up to 27 % over solid wire of the same gauge.
    Source: recalled for rho (10.371 ohm circular mil per ft at 20 degC, annealed copper); published for the
    temperature, AC 43.13-1B p. 11-22, secondary copy read; stranding is practice.

    >>> round(resistance(awg_area(14)) * 304.8, 3)  # ohm per 1000 ft; tables print 2.525
    2.525
    """
    if not area > 0:
        raise ValueError(f"area must be above 0 mm2, got {area:g}")
    _stranding(stranding)
    return COPPER * stranding * temperature_factor(temperature) / area


def temperature_factor(temperature: float, reference: float = 20.0) -> float:
    """Resistance of copper at one temperature over that at another.

    (234.5 + t) / (234.5 + t0)
    temperature  t, degC
    reference    t0, degC
    Range: both -60 to 250.
    Source: published, AC 43.13-1B p. 11-22 (L2 = 254.5 L1 / (234.5 + T2)); secondary copy read.

    >>> round(temperature_factor(60), 3)
    1.157
    """
    for value in (temperature, reference):
        if not -60 <= value <= 250:
            raise ValueError(f"temperature must be -60 to 250 degC, got {value:g}")
    return (temperature - _COLDEST) / (reference - _COLDEST)


def voltage_drop(current: float, length: float, ohm_per_metre: float, wires: int = THERE_AND_BACK) -> float:
    """Volts lost along a run of wire.

    U = w R I l / 1000
    current        I, A
    length         l, one way along the run, mm
    ohm_per_metre  R, ``resistance``
    wires          w: 2 there and back in the same wire; 1 one way only (the return is counted apart, or is
                   the frame, which has a resistance of its own)
    Range: I, l and R not below 0; w 1 or 2.  Legs in series: add the volts.
    Source: published, AC 43.13-1B p. 11-22 (drop = ohm/ft x ft x A, one way); secondary copy read.

    >>> wire = resistance(awg_area(14))
    >>> round(voltage_drop(6.4, 24 * 304.8, wire), 3), round(voltage_drop(6.4, 24 * 304.8, wire, wires=1), 3)
    (0.776, 0.388)
    """
    _not_below_zero(("current", current), ("length", length), ("resistance", ohm_per_metre))
    _wires(wires)
    if 0 in (current, length, ohm_per_metre):
        return 0.0
    return wires * ohm_per_metre * current * (length / 1000)


def longest_run(current: float, drop: float, ohm_per_metre: float, wires: int = THERE_AND_BACK) -> float:
    """How long a run may be for a given loss of volts, one way, mm; ``voltage_drop`` solved for the length.

    l = 1000 U / (w R I)
    current        I, A
    drop           U that may be lost, V
    ohm_per_metre  R, ``resistance``
    wires          w, as in ``voltage_drop``
    Range: U, I and R not below 0; w 1 or 2; U and the divisor not both unbounded.  No current: any run.
    Source: derived from ``voltage_drop``.

    >>> round(longest_run(6.4, 1.2 - 0.366, resistance(awg_area(16))) / 304.8, 1)  # ft
    16.2
    """
    _not_below_zero(("drop", drop), ("current", current), ("resistance", ohm_per_metre))
    _wires(wires)
    if 0 in (current, ohm_per_metre):
        return math.inf
    per_metre = wires * ohm_per_metre * current
    if drop == per_metre == math.inf:
        raise ValueError("drop and current must not both be unbounded")
    return 1000 * drop / per_metre


def area_needed(
    current: float,
    length: float,
    drop: float,
    wires: int = THERE_AND_BACK,
    temperature: float = 20.0,
    stranding: float = 1.0,
) -> float:
    """Copper cross section that a run needs for a given loss of volts, mm2.

    A = w rho f I l / (1000 U) x (234.5 + t) / 254.5
    current      I, A
    length       l, one way, mm
    drop         U that may be lost, V
    wires        w, as in ``voltage_drop``
    temperature, stranding  as in ``resistance``
    Range: I and l not below 0; U above 0; w 1 or 2; not both sides of the fraction unbounded.
    Source: derived from ``voltage_drop`` and ``resistance``.

    >>> round(area_needed(6.4, 24 * 304.8, 1.2 - 0.366), 2)  # 16 AWG has 1.31, 14 AWG 2.08
    1.94
    """
    _not_below_zero(("current", current), ("length", length))
    if not drop > 0:
        raise ValueError(f"drop must be above 0 V, got {drop:g}")
    _wires(wires)
    _stranding(stranding)
    rho = COPPER * stranding * temperature_factor(temperature)
    if 0 in (current, length):
        return 0.0
    if drop == math.inf and math.inf in (current, length):
        raise ValueError("drop and current or length must not both be unbounded")
    return wires * rho * current * (length / 1000) / drop


def battery_needed(current: float, minutes: float, usable: float = 1.0) -> float:
    """Capacity by name of a battery that gives a current for a time, Ah.

    Q = I t / (60 u)
    current  I, A
    minutes  t, min
    usable   u: the share of the capacity by name that it gives when emptied that fast; about 0.5 for a small
             lead battery emptied within minutes (practice)
    Range: I and t not below 0; u above 0, at most 1.
    Source: derived, charge is current by time; u is practice.

    >>> battery_needed(6.4, 15, 0.5)
    3.2
    """
    _not_below_zero(("current", current), ("minutes", minutes))
    if not 0 < usable <= 1:
        raise ValueError(f"usable share must be above 0 and at most 1, got {usable:g}")
    return current * minutes / (60 * usable)


def _not_below_zero(*named: tuple[str, float]) -> None:
    for name, value in named:
        if not value >= 0:
            raise ValueError(f"{name} must not be below 0, got {value:g}")


def _wires(wires: int) -> None:
    if wires not in (1, 2):
        raise ValueError(f"wires must be 1 (one way) or 2 (there and back), got {wires:g}")


def _stranding(stranding: float) -> None:
    if not 1 <= stranding <= 1.5:
        raise ValueError(f"stranding must be 1 to 1.5, got {stranding:g}")
