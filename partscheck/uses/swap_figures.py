"""The figures that a swap compares, one function each.  Lengths in mm, loads in N, ways in km."""

from __future__ import annotations

from partscheck.build.bearing_data import PLACES, cone_part
from partscheck.build.bearing_duty import bearing_life_km
from partscheck.build.bearing_planes import bearing_plane
from partscheck.build.places import Whole
from partscheck.build.tire_width import section_on_wheel, width_over_tires
from partscheck.build.wheel_data import (
    hub_face_distance,
    load_on_trailer,
    load_plane,
    loaded_radius,
    overall_diameter,
    rating_each,
)
from partscheck.engine import evaluate
from partscheck.formulas.braking import brake_force_ratio, force_at_road
from partscheck.formulas.rolling import road_speed, turns_per_km
from partscheck.notation.interval import INF, Interval, greatest_of, least_of
from partscheck.rules import load_rules
from partscheck.rules.basis import practice, published, recalled
from partscheck.uses.figures import AXLE, END, FIGURES, LESS, MORE, PERCENT, SHARE, WHOLE, figure
from partscheck.uses.load_path import load_path, supported_gross

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.build.places import AxlePlace, WheelEnd
    from partscheck.engine import Result

__all__ = ["FIGURES", "TURNS_A_MINUTE"]

GEOMETRY = practice("worked out from the sizes on the list, as the rules do")
RADIUS = practice("loaded radius as typed, else its usual share of the diameter; it counts as rolling radius")
LIFTED = practice(
    "moves with the tires' loaded radius: springs and arms carry the same load, trailer level; measure again "
    "when the tires are on"
)
TORQUE = practice("the same brake torque works at another radius: force = torque / radius")
LIFE = recalled("the calculated life of the rule bearing-life; load and thrust of ISO 281, not checked")
BENDING = recalled("the bending stress of the rule spindle-bending, worst case; strength handbooks")
RATED = practice("ratings as typed, of each piece")
TIRE_RATED = published("as it counts on a trailer: in the United States a passenger car tire's / 1.10, FMVSS 120")
SUPPORTED = practice("the least part of the load path; tongue share and side shares stay")
SHARES = practice("the worst wheel at rest, by gross weight, loads and track")
WEIGHED = practice(
    "typed weights of tire, wheel, plates, hub or drum and brake of one wheel end, added; nuts, bearings, arm and "
    "axle are not in it"
)

# Rules that judge more than one figure.
WIDTHS = ("width-over-legal", "width-inconsistent")
OF_THE_LOAD_PATH = (
    "tire-below-corner", "wheel-below-share", "adapter-below-share", "hub-below-share", "spindle-below-share",
    "suspension-below-share", "axle-below-share",
)  # fmt: skip

TURNS_A_MINUTE = 800.0  # of the axle: about 60 mph on a tire of 26 in


# ---- where the wheel stands ----------------------------------------------------------------------


@figure("effective offset", of=END, basis=GEOMETRY)
def effective_offset(end: WheelEnd) -> Interval | None:
    """Load plane from the hub's face, + inboard: offset less the thickness of all plates."""
    return None if end.wheel is None else load_plane(end)


@figure("load inside the bearings by", of=END, worse=LESS, basis=GEOMETRY, rules=("load-outboard-of-bearings",))
def load_between_bearings(end: WheelEnd) -> Interval | None:
    """From the load plane to the nearer of the two bearing load centres; below 0 it stands outside them."""
    if end.wheel is None or end.hub is None:
        return None
    plane = load_plane(end)
    inner, outer = bearing_plane(end, "inner"), bearing_plane(end, "outer")
    if not (inner.known and outer.known):
        return Interval.unknown("mm", -INF)
    return least_of(plane - outer, inner - plane)


@figure("track width", of=AXLE, basis=GEOMETRY)
def track(axle: AxlePlace) -> Interval | None:
    """Between the load planes of the two wheels."""
    ends = _both(axle)
    if ends is None:
        return None
    left, right = ends
    return hub_face_distance(left) - (load_plane(left) + load_plane(right))


@figure("width over the tires", of=AXLE, worse=MORE, basis=GEOMETRY, rules=WIDTHS)
def over_tires(axle: AxlePlace) -> Interval | None:
    """Over the outer sidewalls of the two tires."""
    ends = _both(axle)
    if ends is None or any(end.tire is None for end in ends):
        return None
    left, right = (width_over_tires(end) for end in ends)
    return (left + right) * 0.5


@figure("overall width", of=WHOLE, worse=MORE, basis=GEOMETRY, rules=WIDTHS)
def overall_width(result: Result) -> Interval | None:
    """The greater of the width typed and the width over the tires; only where a width is typed."""
    layout = result.build.layout
    if not layout.has("overall_width"):
        return None
    ends = [end for end in result.fit.ends if end.wheel is not None and end.tire is not None]
    return greatest_of(layout.overall_width, *(width_over_tires(end) for end in ends))


# ---- clearances: as the rules have them ----------------------------------------------------------


@figure("tire to frame", of=END, worse=LESS, basis=GEOMETRY, rules=("tire-frame-clearance",))
def to_frame(end: WheelEnd) -> Interval | None:
    """Room between inner sidewall and frame."""
    return _least_room("tire-frame-clearance", end)


@figure("tire to arm or spring", of=END, worse=LESS, basis=GEOMETRY, rules=("tire-arm-clearance",))
def to_arm(end: WheelEnd) -> Interval | None:
    """Room between inner sidewall and arm or spring, the least."""
    return _least_room("tire-arm-clearance", end)


@figure("tire in its fender", of=END, worse=LESS, basis=GEOMETRY, rules=("tire-fender-clearance",))
def in_fender(end: WheelEnd) -> Interval | None:
    """Room in the fender: sides, arch, foot, top; the least."""
    return _least_room("tire-fender-clearance", end)


@figure("tire to fender, fully up", of=END, worse=LESS, basis=GEOMETRY, rules=("bump-clearance",))
def at_bump(end: WheelEnd) -> Interval | None:
    """Room under the fender with the suspension fully up."""
    return _least_room("bump-clearance", end)


@figure("outer sidewall beyond hub face", of=END, worse=MORE, basis=GEOMETRY)
def outer_sidewall(end: WheelEnd) -> Interval | None:
    """What a fender has to reach over."""
    if end.wheel is None or end.tire is None:
        return None
    return section_on_wheel(end.tire, end.wheel, end) * 0.5 - load_plane(end)


@figure("between tandem tires", of=WHOLE, worse=LESS, basis=GEOMETRY, rules=("tires-touch-tandem",))
def tandem_gap(result: Result) -> Interval | None:
    """Room between the grown tires of neighbouring axles."""
    if result.fit.axles < 2:
        return None
    return _least_room("tires-touch-tandem", result.fit.bindings(Whole)[0])


# ---- the tire, and what stands on it --------------------------------------------------------------


@figure("tire diameter", of=END, basis=GEOMETRY)
def tire_diameter(end: WheelEnd) -> Interval | None:
    """Free, inflated, new."""
    return None if end.tire is None else overall_diameter(end.tire)


@figure("loaded radius, axle height", of=END, basis=RADIUS)
def wheel_centre(end: WheelEnd) -> Interval | None:
    """Height of the wheel's centre above the ground; frame and floor rise as it does."""
    return None if end.tire is None else loaded_radius(end.tire, end)


@figure("ground clearance", of=WHOLE, worse=LESS, basis=LIFTED)
def ground_clearance(result: Result) -> Interval | None:
    """From the ground to the lowest fixed point."""
    return result.build.layout.ground_clearance if _a_trailer(result) else None


@figure("coupler height", of=WHOLE, basis=LIFTED)
def coupler_height(result: Result) -> Interval | None:
    """Of the ball's centre in the coupler, trailer level."""
    return result.build.layout.coupler_height if _a_trailer(result) else None


@figure("ball mount drop that levels", of=WHOLE, basis=LIFTED, rules=("hitch-height",))
def level_drop(result: Result) -> Interval | None:
    """Height of the hitch less that of the coupler; below 0 a rise."""
    if not _a_trailer(result):
        return None
    hitch, coupler = result.build.tow_vehicle.hitch_height, result.build.layout.coupler_height
    return hitch - coupler if hitch.known and coupler.known else Interval.unknown("mm", -INF)


@figure("turns", of=END, basis=RADIUS)
def turns(end: WheelEnd) -> Interval | None:
    """Turns of the wheel on one km; on one mile in inch units."""
    return _over_radius(end, turns_per_km, "turns/km")


@figure(f"road speed, axle {TURNS_A_MINUTE:.0f} turns/min", of=END, basis=RADIUS)
def speed(end: WheelEnd) -> Interval | None:
    """Road speed at one and the same speed of the axle."""
    return _over_radius(end, lambda radius: road_speed(TURNS_A_MINUTE, radius), "km/h")


# ---- brakes --------------------------------------------------------------------------------------


@figure(
    "brake force at the road", of=END, worse=LESS, basis=TORQUE, written=SHARE, rules=("brake-weakened-by-tire",)
)
def brake_force(end: WheelEnd) -> Interval | None:
    """With the same torque at the drum; as a share of what it was before."""
    if end.brake is None:
        return None
    return _over_radius(end, lambda radius: force_at_road(1.0, radius), "N/Nm")


@figure(
    "brake force of its rating",
    of=END,
    worse=LESS,
    basis=TORQUE,
    written=PERCENT,
    rules=("brake-weakened-by-tire",),
)
def brake_share(end: WheelEnd) -> Interval | None:
    """Brake force at the road, of that on the tire which the brake's rating holds for."""
    if end.brake is None or end.tire is None:
        return None
    design, radius = end.brake.design_tire_radius, loaded_radius(end.tire, end)
    if not (design.known and radius.known) or design.lo <= 0 or radius.lo <= 0:
        return Interval.unknown("")
    return Interval(brake_force_ratio(design.lo, radius.hi), brake_force_ratio(design.hi, radius.lo))


# ---- bearings and spindle -------------------------------------------------------------------------


@figure("load on the worst wheel", of=END, worse=MORE, basis=SHARES)
def wheel_load(end: WheelEnd) -> Interval | None:
    """What the worst loaded wheel carries at rest."""
    return end.corner_load if end.weights.given else None


@figure("inner bearing life", of=END, worse=LESS, basis=LIFE, rules=("bearing-life",), place=PLACES[0])
def inner_life(end: WheelEnd) -> Interval | None:
    """Calculated life (L10) of the inner bearing over the duty."""
    return _life(end, PLACES[0])


@figure("outer bearing life", of=END, worse=LESS, basis=LIFE, rules=("bearing-life",), place=PLACES[1])
def outer_life(end: WheelEnd) -> Interval | None:
    """Calculated life (L10) of the outer bearing over the duty."""
    return _life(end, PLACES[1])


@figure("spindle stress", of=END, worse=MORE, basis=BENDING, rules=("spindle-bending",))
def spindle_stress(end: WheelEnd) -> Interval | None:
    """Greatest bending stress of the spindle, with shock or in a bend."""
    stresses = _haves("spindle-bending", end)
    return greatest_of(stresses[0], *stresses[1:]) if stresses else None


# ---- weight and ratings ---------------------------------------------------------------------------


@figure("unsprung weight, wheel end", of=END, worse=MORE, basis=WEIGHED)
def unsprung(end: WheelEnd) -> Interval | None:
    """Tire, wheel, plates, hub or drum and brake of one wheel end; nuts, bearings, arm and axle are not in it."""
    parts = [end.tire, end.wheel, *end.plates, end.hub, end.brake]
    there = [part for part in parts if part is not None]
    if not any(part.has("weight") for part in there):
        return None
    return sum((part.weight for part in there), Interval(0.0, 0.0, "kg"))


@figure("tire rating", of=END, worse=LESS, basis=TIRE_RATED, rules=("tire-below-corner", "tires-below-axle"))
def tire_rating(end: WheelEnd) -> Interval | None:
    """Load that one tire may carry on this trailer."""
    return None if end.tire is None else load_on_trailer(end.tire, end)


@figure("wheel rating", of=END, worse=LESS, basis=RATED, rules=("wheel-below-share",))
def wheel_rating(end: WheelEnd) -> Interval | None:
    """Load that one wheel may carry."""
    return None if end.wheel is None else rating_each(end.wheel)


@figure("adapter rating", of=END, worse=LESS, basis=RATED, rules=("adapter-below-share",))
def plate_rating(end: WheelEnd) -> Interval | None:
    """Load that one adapter may carry, the least of them."""
    rated = [rating_each(plate) for plate in end.plates if plate.kind == "adapter"]
    return least_of(rated[0], *rated[1:]) if rated else None


@figure("hub rating", of=END, worse=LESS, basis=RATED, rules=("hub-below-share",))
def hub_rating(end: WheelEnd) -> Interval | None:
    """Load that one hub may carry."""
    return None if end.hub is None else rating_each(end.hub)


@figure("gross weight supported", of=WHOLE, worse=LESS, basis=SUPPORTED, rules=OF_THE_LOAD_PATH)
def gross_supported(result: Result) -> Interval | None:
    """Gross weight that the rated parts of the list carry."""
    return supported_gross(load_path(result))[0]


# ---- shared ---------------------------------------------------------------------------------------


def _both(axle: AxlePlace) -> tuple[Any, Any] | None:
    """The left and the right end of an axle (one binding when alike); None without wheels on both."""
    ends = [next((end for end in axle.ends if f"{axle.number}{side}" in end.at), None) for side in "LR"]
    if any(end is None or end.wheel is None for end in ends):
        return None
    return ends[0], ends[1]


def _haves(slug: str, place: Any) -> list[Interval]:
    """What a rule has at a place, of each of its checks."""
    found = [one.check.have for one in evaluate(load_rules()[slug], place, decide=False)]
    return [one for one in found if isinstance(one, Interval)]


def _least_room(slug: str, place: Any) -> Interval | None:
    rooms = _haves(slug, place)
    return least_of(rooms[0], *rooms[1:]) if rooms else None


def _life(end: WheelEnd, place: str) -> Interval | None:
    if end.hub is None or end.wheel is None or end.tire is None or cone_part(end, place) is None:
        return None
    return bearing_life_km(end, place)


def _over_radius(end: WheelEnd, formula: Any, unit: str) -> Interval | None:
    """A figure that goes one way with the loaded radius."""
    if end.tire is None:
        return None
    radius = loaded_radius(end.tire, end)
    if not radius.known or radius.lo <= 0:
        return Interval.unknown(unit)
    ends = formula(radius.lo), formula(radius.hi)
    return Interval(min(ends), max(ends), unit)


def _a_trailer(result: Result) -> bool:
    """The list is of a whole trailer, not of a few lines for a wheel."""
    build = result.build
    return bool(build.layout.values or build.of_kind("coupler", "ball", "ball-mount"))
