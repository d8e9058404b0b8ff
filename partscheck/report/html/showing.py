"""Which drawing shows what a finding speaks of."""

from __future__ import annotations

from partscheck.report.drawing import bolt_circles, joint, load_path, load_plane, rear_view, side_view, wheel_end

TYPE_CHECKING = False
if TYPE_CHECKING:
    from partscheck.report.drawing import Drawing
    from partscheck.rules.findings import Finding

MOST_DRAWINGS = 2  # that one finding points to
LOAD_PATH = load_path.KIND
# The rules that a drawing tells itself, by its kind.
TELLS = {one.KIND: one.SLUGS for one in (wheel_end, bolt_circles, load_plane, joint, side_view, rear_view)}
LEVER = ("spindle-bending",)  # bends by the lever that the load plane shows
# Rules of what a part is rated for; the bars of the load path show these, and nothing else.
RATINGS = ("shares", "tire_loads", "axle_loads", "tow_ratings", "tongue_ratings", "rear_rack", "declared_loads")


def shown_in(finding: Finding, drawings: list[Drawing]) -> list[Drawing]:
    """The drawings that tell of the finding, or bars that show the rating; else the one that shows all its parts
    and little else.
    """
    here = [one for one in drawings if _at_its_place(finding, one)]
    rated = finding.rule.subject in RATINGS
    told = [one for one in here if finding.rule.slug in TELLS.get(one.kind, ())]
    told += [one for one in here if one.kind == load_plane.KIND and finding.rule.slug in LEVER]
    told += [one for one in here if one.kind == LOAD_PATH and rated and _shared(finding, one)]
    if told:
        return told[:MOST_DRAWINGS]
    ids = {part.id for part in finding.parts} or _blamed(finding)
    whole = [one for one in here if one.kind != LOAD_PATH and ids and ids <= set(one.parts)]
    return sorted(whole, key=lambda one: len(one.parts))[:1]


def _at_its_place(finding: Finding, drawing: Drawing) -> bool:
    return not (finding.at and drawing.places) or bool(set(finding.at) & set(drawing.places))


def _shared(finding: Finding, drawing: Drawing) -> bool:
    """Whether something that it speaks of is drawn."""
    return bool(({part.id for part in finding.parts} | _blamed(finding)) & set(drawing.parts))


def _blamed(finding: Finding) -> set[str]:
    return set() if finding.check.blame is None else {finding.check.blame[0].id}
