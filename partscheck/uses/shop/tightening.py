"""What joints and wheels share when they are tightened: stages, orders, the words for them."""

from __future__ import annotations

from partscheck.formulas.torque_order import neighbours_in_a_row, star_order
from partscheck.notation.interval import Interval
from partscheck.rules.basis import practice
from partscheck.uses.shop.sheet import limits_basis

TYPE_CHECKING = False
if TYPE_CHECKING:
    from partscheck.build.limits import Limits
    from partscheck.uses.shop.sheet import Step

STAGES = practice("tightening in stages, across")
ORDER = practice("the star order of the trade; from five nuts on no two neighbours follow each other")


def stages(limits: Limits, full: Interval | None) -> tuple[Interval, ...]:
    """Torques of the rounds before the last, N m; none where the torque is not known or only a range is."""
    if full is None or not full.known or not full.is_exact:
        return ()
    return tuple(
        Interval.exact(full.lo * share.mid, "N m")
        for share in (limits.torque_first_stage, limits.torque_second_stage)
    )


def tell_stages(step: Step, limits: Limits, full: Interval | None) -> Step:
    """The rounds: in torques, or in shares of the torque that the maker's sheet gives."""
    step.by(STAGES, *limits_basis(limits, "torque_first_stage", "torque_second_stage"))
    rounds = stages(limits, full)
    if rounds:
        return step.more(
            "three rounds: {first}, {second}, then {full}.", first=rounds[0], second=rounds[1], full=full
        )
    first, second = (f"{100 * one.mid:.0f} %" for one in (limits.torque_first_stage, limits.torque_second_stage))
    return step.more(f"three rounds: {first}, {second}, then all of the torque.")


def circle_order(count: int | None) -> tuple[int, ...]:
    """Star order of the nuts of one face; () where their number is not known."""
    return star_order(count) if count is not None and count > 1 else ()


def tell_order(step: Step, order: tuple[int, ...]) -> Step:
    """The star in numbers."""
    step.by(ORDER)
    if not order:
        return step.more("order: crosswise, never the neighbour next; how many there are is not on the list.")
    step.more(f"order {in_words(order)}: numbered clockwise from the top, as you look at the wheel.")
    if neighbours_in_a_row(order):
        step.more("(With so few, some neighbours must follow each other.)")
    return step


def in_words(order: tuple[int, ...]) -> str:
    """ "1-3-5-2-4"."""
    return "-".join(str(one) for one in order)
