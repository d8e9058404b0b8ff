"""Where wheel and tire stand: offset and backspace, widths, and clearances.  All in mm.

Planes are measured from the hub's seating face, inboard positive: x = offset - thickness of everything
between hub and wheel.  ``hub_face_distance`` is between the two seating faces of an axle.
"""

from __future__ import annotations

FLANGES = 25.4  # both rim flanges together, beyond the width between the bead seats: about 1 in (practice)
TIRE_GROWTH = 1.03  # a tire in use against its free diameter (practice)


def offset_from_backspace(backspace: float, rim_width: float, flanges: float = FLANGES) -> float:
    """Wheel offset from its backspace.

    offset = backspace - (width + flanges)/2
    backspace  mounting face to the inner edge of the rim
    rim_width  between the bead seats, as the wheel is named
    flanges    both rim flanges together, about 1 in
    Range: none of them below 0.  Good to about 3 mm.
    Source: derived; the 1 in of flanges is practice.

    >>> round(offset_from_backspace(4 * 25.4, 7 * 25.4), 6)  # 7 in wheel, 4 in backspace: offset 0
    0.0
    """
    _sizes(("backspace", backspace), ("rim width", rim_width), ("flanges", flanges))
    return backspace - (rim_width + flanges) / 2


def backspace_from_offset(offset: float, rim_width: float, flanges: float = FLANGES) -> float:
    """Backspace from the offset: backspace = offset + (width + flanges)/2.

    offset     inboard of the mounting face positive (the wheel tucks in)
    rim_width, flanges  as in ``offset_from_backspace``
    Range: rim width and flanges not below 0.  Good to about 3 mm.
    Source: derived; the 1 in of flanges is practice.

    >>> round(backspace_from_offset(30, 6 * 25.4), 2)
    118.9
    """
    _sizes(("rim width", rim_width), ("flanges", flanges))
    return offset + (rim_width + flanges) / 2


def load_plane(offset: float, sum_thickness: float = 0.0) -> float:
    """Plane in which the wheel's load stands, from the hub's seating face, inboard positive.

    x = offset - t
    offset         of the wheel
    sum_thickness  t, adapters and spacers between hub and wheel
    Range: t not below 0.
    Source: derived.

    >>> round(load_plane(35, 38.1), 3)
    -3.1
    """
    _sizes(("sum of thicknesses", sum_thickness))
    return offset - sum_thickness


def sidewall_faces(section_width: float, offset: float, sum_thickness: float = 0.0) -> tuple[float, float]:
    """Planes of the tire's inner and outer sidewall, from the hub's seating face, inboard positive.

    inner = x + S/2, outer = x - S/2, x as in ``load_plane``
    section_width  S, of the tire on this rim
    offset, sum_thickness  as in ``load_plane``
    Range: S and thickness not below 0.  The static bulge under load is not in it.
    Source: derived.

    >>> sidewall_faces(200, 30, 10)
    (120.0, -80.0)
    """
    _sizes(("section width", section_width))
    plane = load_plane(offset, sum_thickness)
    return plane + section_width / 2, plane - section_width / 2


def track_width(hub_face_distance: float, offset: float, sum_thickness: float = 0.0) -> float:
    """Distance between the load planes of the two wheels of an axle.

    track = H - 2 (offset - t)
    hub_face_distance  H
    offset, sum_thickness  as in ``load_plane``
    Range: H and t not below 0.
    Source: derived.

    >>> track_width(1524, 30, 10)
    1484
    """
    _sizes(("hub face distance", hub_face_distance))
    return hub_face_distance - 2 * load_plane(offset, sum_thickness)


def outside_width(
    hub_face_distance: float, section_width: float, offset: float, sum_thickness: float = 0.0
) -> float:
    """Width over both tires.

    width = H + 2 (S/2 - offset + t)
    hub_face_distance  H
    section_width      S, of the tire on this rim
    offset, sum_thickness  as in ``load_plane``
    Range: H, S and t not below 0.
    Source: derived.

    >>> outside_width(1524, 200, 30, 10)
    1684.0
    """
    _sizes(("hub face distance", hub_face_distance))
    _, outer = sidewall_faces(section_width, offset, sum_thickness)
    return hub_face_distance - 2 * outer


def inner_tire_clearance(
    hub_face_distance: float,
    frame_width: float,
    section_width: float,
    offset: float,
    sum_thickness: float = 0.0,
) -> float:
    """Gap between frame and inner sidewall, one side; below 0 the tire stands in the frame.

    gap = (H - F)/2 - (S/2 + offset - t)
    hub_face_distance  H
    frame_width        F, over the outsides of the frame at the wheels, centred on the axle
    section_width      S, of the tire on this rim
    offset, sum_thickness  as in ``load_plane``
    Range: H, F, S and t not below 0.  Static bulge and the sway of the springs are not in it.
    Source: derived.

    >>> inner_tire_clearance(1524, 1220, 200, 30, 10)
    32.0
    """
    _sizes(("hub face distance", hub_face_distance), ("frame width", frame_width))
    inner, _ = sidewall_faces(section_width, offset, sum_thickness)
    return (hub_face_distance - frame_width) / 2 - inner


def outer_tire_clearance(
    hub_face_distance: float,
    width_between: float,
    section_width: float,
    offset: float,
    sum_thickness: float = 0.0,
) -> float:
    """Gap between outer sidewall and what stands outside it (fender lip, legal width), one side.

    gap = (B - width)/2, width as in ``outside_width``
    hub_face_distance  H
    width_between      B, between the two outer limits, centred on the axle
    section_width, offset, sum_thickness  as in ``outside_width``
    Range: H, B, S and t not below 0.
    Source: derived.

    >>> outer_tire_clearance(1524, 1730, 200, 30, 10)
    23.0
    """
    _sizes(("width between", width_between))
    return (width_between - outside_width(hub_face_distance, section_width, offset, sum_thickness)) / 2


def tandem_gap(axle_spacing: float, diameter: float, growth: float = TIRE_GROWTH) -> float:
    """Gap between the front and the rear tire of one side; below 0 they touch.

    gap = spacing - growth x D
    axle_spacing  between the axles' centres
    diameter      D, free, inflated, new
    growth        a tire grows in use: 1.03
    Range: spacing and D not below 0; growth at least 1.
    Source: derived; the 3 % of growth is practice.

    >>> round(tandem_gap(34 * 25.4, 27 * 25.4), 1)
    157.2
    """
    _sizes(("axle spacing", axle_spacing), ("diameter", diameter))
    if not growth >= 1:
        raise ValueError(f"growth must be 1 or more, got {growth:g}")
    return axle_spacing - growth * diameter


def _sizes(*named: tuple[str, float]) -> None:
    for name, value in named:
        if not value >= 0:
            raise ValueError(f"{name} must not be below 0 mm, got {value:g}")
