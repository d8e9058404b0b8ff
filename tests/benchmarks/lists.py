"""Parts lists for the benchmarks, made by number so that any size can be had.  All values invented."""

from __future__ import annotations

END_KINDS = """
  - {id: hub, kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, stud_length: 1.40 in, pilot: 2.80 in,
     cap_height: 1.3 in, cap_diameter: 1.98 in, inner_bearing_to_face: 50 mm, outer_bearing_to_face: -18 mm,
     rating: 1750 lb, per: each, qty: 4}
  - {id: plate, kind: adapter, hub_circle: 5 x 4.5 in, wheel_circle: 5 x 5.5 in, thickness: 1.5 in,
     hub_bore: 2.85 in, nut_seat: conical, nut_seat_thickness: 0.7 in, stud_thread: 1/2-20,
     stud_length: 1.6 in, rating: 1800 lb, qty: 4}
  - {id: wheel, kind: wheel, size: 15 x 6 in, bolt_circle: 5 x 5.5 in, center_bore: 4.25 in, offset: 20 mm,
     nut_seat: conical, seat_angle: 60 deg, seat_thickness: 0.35 in, rating: 1900 lb, max_pressure: 65 psi, qty: 5}
  - {id: tire, kind: tire, size: ST205/75R15, load_range: C, max_load: 1820 lb, max_pressure: 50 psi, qty: 5}
  - {id: hub-nuts, kind: lug-nut, mounts_on: hub, thread: 1/2-20, seat: conical, seat_angle: 60 deg,
     depth: 0.6 in, height: 0.7 in, hex: 3/4 in, qty: 20}
  - {id: nuts, kind: lug-nut, mounts_on: plate, thread: 1/2-20, seat: conical, seat_angle: 60 deg,
     depth: 0.7 in, hex: 3/4 in, qty: 20}
  - {id: arm-left, kind: suspension-arm, hand: left, rating: 1750 lb, per: each, qty: 2}
  - {id: arm-right, kind: suspension-arm, hand: right, rating: 1750 lb, per: each, qty: 2}
"""


def parts_list(lines: int) -> str:
    """A two-axle list of ``lines`` parts (at least 8): the wheel ends, then lines that only weigh."""
    others = "".join(
        f"  - {{id: item-{number}, kind: other, what: fitting {number}, weight: {number % 9 + 1} lb, qty: 2}}\n"
        for number in range(lines - 8)
    )
    return (
        "build: benchmark\n"
        "service: {gross_weight: 5200 lb, tongue_weight: 600 lb, top_speed: 60 mph, surface: gravel}\n"
        "layout: {axles: 2, equalized: true, gawr: 2500 lb, hub_face_distance: 72 in, frame_width: 50 in,\n"
        "         axle_spacing: 34 in}\n"
        f"parts:{END_KINDS}{others}"
    )
