"""Which findings of the check come before a step."""

from __future__ import annotations

TYPE_CHECKING = False
if TYPE_CHECKING:
    from partscheck.rules.findings import Finding
    from partscheck.uses.shop.sheet import Step

JOINTS = "joint"  # stands for every rule of bolted joints


def concerns(step: Step, finding: Finding) -> bool:
    """A rule with a say in this step speaks of its parts, at one of its places.

    A finding of a joint names the joint as its place, and concerns the steps of that joint alone.
    """
    if finding.rule.slug in step.settles or not _has_a_say(step, finding):
        return False
    here = not finding.at or not step.at or bool(set(finding.at) & set(step.at))
    if _of_joints(finding):
        return bool(set(finding.at) & set(step.at))
    shared = {part.id for part in step.parts} & {part.id for part in finding.parts}
    enough = min(2, len(finding.parts)) if finding.rule.subject in step.closely else 1
    return here and len(shared) >= enough


def _of_joints(finding: Finding) -> bool:
    return finding.rule.subject.startswith(JOINTS) or finding.rule.subject == "tapped_holes"


def _has_a_say(step: Step, finding: Finding) -> bool:
    return finding.rule.subject in step.subjects or (_of_joints(finding) and JOINTS in step.subjects)
