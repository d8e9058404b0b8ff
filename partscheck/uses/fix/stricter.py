"""What several stops ask of one article, taken together."""

from __future__ import annotations

from partscheck.notation.interval import Interval
from partscheck.rules.check import AT_LEAST, AT_MOST
from partscheck.uses.fix.candidates import Want

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence
    from typing import Any

    from partscheck.parts.record import Part


def sets_of_wants(wants: Iterable[Want], elsewhere: set[Any]) -> Iterator[list[Want]]:
    """What an article to be found may have to be: all that is asked of it; and only what no other part could
    do as well (``elsewhere``: stops for which another part may change): of two parts that do not fit each
    other, one follows the other.
    """
    first: dict[Any, Want] = {}  # the first that each stop asks for
    for want in wants:
        first.setdefault(want.stop, want)
    chosen = [*first.values()]
    yield stricter(chosen)
    own = [want for want in chosen if want.stop not in elsewhere]
    if own and len(own) < len(chosen):
        yield stricter(own)


def stricter(wants: Sequence[Want]) -> list[Want]:
    """Of limits on one field the one that keeps to all of them; of other values of one field the first."""
    kept: dict[tuple[str, str], Want] = {}
    for want in wants:
        limit = want.relation in (AT_LEAST, AT_MOST) and isinstance(want.target, Interval)
        key = (want.field, want.relation if limit else "")
        there = kept.get(key)
        if there is None or (limit and _beyond(want, there)):
            kept[key] = want
    exact = {field for field, relation in kept if not relation}
    return [want for (field, relation), want in kept.items() if not relation or field not in exact]


def _beyond(want: Want, there: Want) -> bool:
    if want.relation == AT_LEAST:
        return bool(want.target.hi > there.target.hi)
    return bool(want.target.lo < there.target.lo)


def with_its_speed(part: Part, wants: Sequence[Want]) -> Sequence[Want]:
    """A tire asked to carry more has another service description: it is asked for the speed of the one before."""
    asked = {want.field for want in wants}
    typed = part.values.get("service_description")
    speed = "" if typed is None else getattr(typed.value, "speed", "")
    if part.kind != "tire" or "max_load" not in asked or "speed_symbol" in asked or not speed:
        return wants
    return [*wants, Want("speed_symbol", "equal to", speed, None, {})]
