"""Values of wheels, tires and ratings that can be typed in more than one way.

Each function reads the best field that is there, and asks for the best one when none is.
"""

from __future__ import annotations

from partscheck.formulas.tire import passenger_on_trailer
from partscheck.formulas.wheel_geometry import offset_from_backspace
from partscheck.notation.interval import Interval, Quantity

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.places import Binding, WheelEnd

# Sold "for a 3500 lb axle" as often as rated by the piece (definition of the list's `rating`).
PER_AXLE_OR_PIECE = ("hub", "spindle", "suspension-arm", "leaf-spring", "brake")


def wheel_offset(wheel: Any, place: Binding) -> Interval:
    """Offset, mm, as typed; else from the backspace and the rim width, ± the practice agreement."""
    if wheel.has("offset") or not (wheel.has("backspace") and wheel.has("size")):
        return wheel.offset  # type: ignore[no-any-return]
    backspace, width = wheel.backspace, wheel.size.width
    spread = place.limits.offset_agreement.hi
    lo = offset_from_backspace(backspace.lo, width.hi)
    hi = offset_from_backspace(backspace.hi, width.lo)
    return Interval(lo - spread, hi + spread, "mm")


def load_plane(end: WheelEnd) -> Interval:
    """Where the wheel's load stands, mm inboard of the hub's seating face (negative: outboard)."""
    wheel = end.wheel
    offset = wheel_offset(wheel, end) if wheel is not None else Interval.unknown("mm", -1e9, 1e9)
    return offset - end.stack_thickness


def hub_face_distance(end: WheelEnd) -> Interval:
    """Between the two seating faces of an axle, mm: the axle's own, else the layout's."""
    gear = end.running_gear
    if gear is not None and gear.kind == "axle" and gear.has("hub_face_distance"):
        return gear.hub_face_distance  # type: ignore[no-any-return]
    return end.build.layout.hub_face_distance  # type: ignore[no-any-return]


def rating_each(part: Any) -> Interval:
    """Rating of one piece, N: half of it when it is per axle.  An axle is one piece."""
    rating: Interval = part.rating
    if part.kind != "axle" and part.has("per") and part.per == "axle":
        return rating * 0.5
    return rating


def basis_open(part: Any) -> bool:
    """True when a rating may be of the piece or of the axle and the list does not say."""
    return part.kind in PER_AXLE_OR_PIECE and not part.has("per")


def tire_max_load(tire: Any, place: Binding) -> Interval:
    """Load one tire may carry at its rated pressure, N, undivided: moulded, else by its load index.

    A size and load range alone leave it open: makers rate one size differently.
    """
    if tire.has("max_load"):
        return tire.max_load  # type: ignore[no-any-return]
    index = load_index(tire)
    if index is not None:
        row = place.tables.row("load_index", str(index))
        if row is not None:
            return Quantity(row["kg"] * 9.80665, row["kg"] * 9.80665, "N", f"{row['kg']} kg", "metric")
    return tire.max_load  # type: ignore[no-any-return]


def is_passenger(tire: Any) -> bool | None:
    """True for a passenger car tire: P, T, or a metric size without LT, ST or C; None: size not known."""
    size = tire.size
    if not size.known:
        return None
    car_marks = size.prefix in ("P", "T") or (size.prefix == "" and size.form == "metric")
    return car_marks and not size.suffix_c


def divides_passenger_tires(place: Binding) -> bool:
    """Whether a passenger car tire counts less on a trailer: by law in the US, and by practice where
    no country is stated.
    """
    service = place.build.service
    return not service.has("country") or service.country == "US"


def load_on_trailer(tire: Any, place: Binding) -> Interval:
    """Load that one tire counts for on this trailer, N, never rounded: a passenger car tire's rating is
    divided where ``divides_passenger_tires``.
    """
    rating = tire_max_load(tire, place)
    return divided_load(tire, rating, place) if divides_passenger_tires(place) else rating


def divided_load(tire: Any, rating: Interval, place: Binding) -> Interval:
    """``rating`` as a passenger car tire counts, N; of a tire that is none, all of it."""
    passenger = is_passenger(tire)
    if passenger is False:
        return rating
    divisor = place.limits.passenger_tire_divisor
    lo = passenger_on_trailer(rating.lo, max(1.0, divisor.hi))
    if passenger is None:
        return Interval(lo, rating.hi, "N")
    return Interval(lo, passenger_on_trailer(rating.hi, max(1.0, divisor.lo)), "N")


def load_index(tire: Any) -> int | None:
    """The single load index, from its own field, the service description or the size marking."""
    if tire.has("load_index"):
        return getattr(tire.load_index, "single", tire.load_index)  # type: ignore[no-any-return]
    if tire.has("service_description"):
        return tire.service_description.single  # type: ignore[no-any-return]
    if tire.has("size") and tire.size.service is not None:
        return tire.size.service.single  # type: ignore[no-any-return]
    return None


def speed_symbol(tire: Any) -> str:
    """The speed symbol, or "" when none is given."""
    if tire.has("speed_symbol"):
        return str(tire.speed_symbol)
    if tire.has("service_description"):
        return str(tire.service_description.speed)
    if tire.has("size") and tire.size.service is not None:
        return str(tire.size.service.speed)
    return ""


def overall_diameter(tire: Any) -> Interval:
    """Free diameter of the new, inflated tire, mm: typed, else from the size marking."""
    if tire.has("diameter"):
        return tire.diameter  # type: ignore[no-any-return]
    if tire.has("size") and tire.size.overall_diameter.known:
        return tire.size.overall_diameter  # type: ignore[no-any-return]
    return tire.diameter  # type: ignore[no-any-return]


def loaded_radius(tire: Any, place: Binding) -> Interval:
    """Static radius under load, mm: typed, else the practice share of the diameter."""
    if tire.has("loaded_radius"):
        return tire.loaded_radius  # type: ignore[no-any-return]
    return overall_diameter(tire) * place.limits.loaded_radius_factor
