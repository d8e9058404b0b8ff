"""The clamp of a bolted joint: nut factor, preload, and friction of the faces that it holds together."""

from __future__ import annotations

from partscheck.build.bolt_areas import stress_area
from partscheck.formulas.bolted_joint import preload_from_torque, torque_for_preload
from partscheck.notation.interval import INF, Interval
from partscheck.notation.words import UNKNOWN_WORD

TYPE_CHECKING = False
if TYPE_CHECKING:
    from partscheck.build.joint_places import JointPlace

LUBRICATED = "lubricated"
ANY_FINISH = "unknown"
BARE = "bare"
# What a rule reads that asks for the preload, or for the faces.
PRELOAD_READS = ("bolted_joint.torque", "bolt.finish", "practice.preload_target")
FACE_READS = ("stack_item.coated",)


def nut_factor(place: JointPlace, state: str = "") -> float:
    """Nominal nut factor K of the bolt's finish as it comes, or of a ``state`` such as lubricated."""
    bolt = place.bolt
    finish = bolt.finish if bolt.kind == "bolt" and bolt.has("finish") else ANY_FINISH
    row = place.tables.row("nut_factor", state or finish) or place.tables.row("nut_factor", ANY_FINISH)
    return float(row["k"])


def proof_load(place: JointPlace) -> Interval:
    """Load up to which one bolt takes no lasting stretch, N."""
    return (stress_area(place.tables, place.thread) * place.strength.proof.bare()).with_unit("N")


def typed_preload(place: JointPlace) -> Interval:
    """Nominal preload of one bolt at the torque that the list gives, N."""
    torque, factor = place.joint.torque, nut_factor(place)
    size = place.diameter
    return Interval(
        0.0 if size.hi == INF else preload_from_torque(torque.lo, factor, size.hi),
        INF if size.lo == 0 else preload_from_torque(torque.hi, factor, size.lo),
        "N",
    )


def preload(place: JointPlace) -> Interval:
    """Nominal preload of one bolt, N: of the torque that is typed, else the usual share of proof."""
    if place.joint.has("torque"):
        return typed_preload(place)
    return proof_load(place) * place.limits.preload_target


def torque_of(place: JointPlace, force: float, state: str = "") -> Interval:
    """Torque for a preload, N m, as the bolt comes or in a ``state`` such as lubricated."""
    return Interval.exact(torque_for_preload(force, nut_factor(place, state), place.diameter.mid), "N m")


def face_friction(place: JointPlace, scraped: bool = False) -> Interval:
    """Friction of the worst of the faces that meet: by their coating, any of the home-shop rows for a coating
    that is not typed.  ``scraped``: as if all were bare.
    """
    rows = {word: float(row["mu"]) for row in place.tables.rows("friction_class") for word in row["coatings"]}
    layers = [item for item in place.stack if not item.says("gap")]
    if scraped:
        return Interval.exact(rows[BARE])
    if not layers:
        return Interval(min(rows.values()), rows[BARE])
    faces = [_friction(item.coated, rows) for item in layers if item.has("coated")]
    if not any(face.hi == min(rows.values()) for face in faces):  # no face can be worse than the worst
        faces += [_friction(item.coated, rows) for item in layers if not item.has("coated")]
    return Interval(min(one.lo for one in faces), min(one.hi for one in faces))


def _friction(coating: str, rows: dict[str, float]) -> Interval:
    if coating is UNKNOWN_WORD or coating not in rows:
        return Interval(min(rows.values()), max(rows.values()))
    return Interval.exact(rows[coating])
