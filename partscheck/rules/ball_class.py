"""The least ball by the trailer's class, where balls go by SAE J684."""

from __future__ import annotations

from partscheck.build.tow_class import INCH, CouplerClass, coupler_class
from partscheck.build.tow_links import WORST_GROSS_READS, worst_gross
from partscheck.build.tow_places import TowChain
from partscheck.notation.interval import Interval
from partscheck.rules.basis import published
from partscheck.rules.check import AT_LEAST, Check, Remedy, at_least
from partscheck.rules.message import Least
from partscheck.rules.registry import rule
from partscheck.rules.tow_ratings import LETS_GO

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

BY_CLASS = published("SAE J684, least ball by class, as Maryland COMAR 11.13.08.10 has it (secondary copy read)")
BY_J684 = ("US", "CA")
NAME_SLACK = 1.0  # mm; a ball of 50 mm stands beside 2 in, whether its coupler fits is for ball-coupler-size


@rule(
    "ball-below-class",
    on=TowChain,
    reads=["ball.diameter", "coupler.ball_diameter", "service.country", *WORST_GROSS_READS],
    basis=BY_CLASS,
    after=["ball-below-gross", "coupler-below-gross"],
)
def ball_below_class(chain: TowChain) -> Check | None:
    """The ball is no smaller than SAE J684 has it for a trailer of this weight.

    Why: The ball's size keeps it in the coupler as much as the coupler's latch does, and a small one wears sooner.
    Formula: diameter >= least ball of the class: 1-7/8 in to 2000 lb, 2 in to 5000 lb; over 5000 lb the coupler's
        own size. Gross weight as declared, or of the heaviest load case if that is more. A ball of 50 mm
        stands beside one of 2 in. Not looked at where another country than the United States or Canada is typed.
        The stamped rating governs; it is looked at apart.
    Remedy: A ball and coupler of the class's size, both rated for the trailer.
    Hazard: The ball comes out of the coupler or breaks.
    Wrong:
        service: {gross_weight: 2600 lb}
        parts:
          - {kind: ball, diameter: 1-7/8 in, rating: 3500 lb}
    Right:
        service: {gross_weight: 2600 lb}
        parts:
          - {kind: ball, diameter: 2 in, rating: 3500 lb}
    """
    found = _ball(chain)
    if found is None or not chain.weights.given:
        return None
    part, field = found
    gross = worst_gross(chain.weights)
    sort, need = coupler_class(chain.tables, gross.load.hi), _least_ball(chain, gross.load)
    if need is None:
        return None
    size: Interval = getattr(part, field)
    check = at_least(size + NAME_SLACK, need)
    check.caution(
        "The ball's diameter is {size}, the trailer weighs {gross}{case}: for that weight{sort} SAE J684 has "
        "{least} or more. The stamped rating governs.",
        size=size, gross=gross.load, case=gross.in_case, least=need,
        sort="" if sort is None else f", class {sort.name},",
    ).because("What is sold for such a weight is made for the larger ball.")  # fmt: skip
    check.fix(lambda: [
        Remedy("take a ball of {target} and a coupler for it, both rated at least {gross}",
               field=f"{part.id}.{field}", relation=AT_LEAST,
               target=need, gross=Least(gross.load))
    ])  # fmt: skip
    return check.danger(LETS_GO).at(part, field).about(part)


def _ball(chain: TowChain) -> tuple[Any, str] | None:
    """The part that gives the ball's size, where it goes by SAE J684."""
    service = chain.build.service
    for part, field in ((chain.ball, "diameter"), (chain.coupler, "ball_diameter")):
        if part is not None and part.has(field):
            elsewhere = service.has("country") and service.country not in BY_J684
            return None if elsewhere else (part, field)
    return None


def _least_ball(chain: TowChain, gross: Interval) -> Interval | None:
    """The least ball, mm, over all that the trailer may weigh; None where no class names one."""
    least = _of(coupler_class(chain.tables, gross.lo))
    most = _of(coupler_class(chain.tables, gross.hi)) if gross.known else _largest(chain)
    if least is None:
        return None
    return Interval(least, _largest(chain) if most is None else most, "mm")


def _of(sort: CouplerClass | None) -> float | None:
    return None if sort is None else sort.ball


def _largest(chain: TowChain) -> float:
    balls: list[float] = [row["ball_in"] for row in chain.tables.rows("coupler_class") if "ball_in" in row]
    return max(balls) * INCH
