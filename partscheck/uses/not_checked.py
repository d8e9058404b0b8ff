"""What carries the trailer and is not checked: a report must not pass over it in silence."""

from __future__ import annotations

TYPE_CHECKING = False
if TYPE_CHECKING:
    from partscheck.engine import Result

FRAME, TONGUE = "frame", "tongue"
TONGUE_RULE = "tongue-bending"


def not_checked(result: Result) -> list[str]:
    """ "frame" always, "tongue" too where its bending was not looked at; nothing where the list speaks of no
    weights.
    """
    if not result.fit.weights.given:
        return []
    return [FRAME] if result.of(TONGUE_RULE) else [FRAME, TONGUE]
