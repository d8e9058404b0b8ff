"""Wheel bearings: what each of the two bearings of a hub carries."""

from __future__ import annotations


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
