"""An adapter between a hub and a wheel of different bolt circles: from the catalogue, or one to be found."""

from __future__ import annotations

from partscheck.build.apply import apply_change
from partscheck.build.change import Change
from partscheck.build.copying import copied
from partscheck.engine import check_build
from partscheck.notation.faults import Faults
from partscheck.notation.interval import INF, Interval
from partscheck.rules.check import AT_LEAST
from partscheck.rules.findings import STOP
from partscheck.uses.bom_kinds import described
from partscheck.uses.fix.candidates import Want
from partscheck.uses.fix.edits import BUY, FIND, Add, Option
from partscheck.uses.fix.lines_to_add import free_id
from partscheck.uses.fix.notes import TO_BE_FOUND
from partscheck.uses.fix.typed_text import value_text
from partscheck.uses.fix.wanted import wanted_words

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import Any

    from partscheck.build.fit import Fit
    from partscheck.build.model import Build
    from partscheck.uses.fix.candidates import Shelf
    from partscheck.uses.fix.trials import Told

MOST = 4
NEAR = 1.0  # mm between circles that may be one: a sieve, the rules judge
# Of an adapter so thin and weak the rules say what it would have to be.
HARDLY_THERE = {"thickness": "1 mm", "rating": "1 lb"}


def adapters_between(build: Build, fit: Fit, shelf: Shelf, stop: Told, leading: str) -> Iterator[Option]:
    """Options that put an adapter at every place where this hub and this wheel meet."""
    parts: list[Any] = [build.part(id) for id in stop.parts]
    hub = next((one for one in parts if one is not None and one.kind == "hub"), None)
    wheel = next((one for one in parts if one is not None and one.kind == "wheel"), None)
    if hub is None or wheel is None or not (hub.bolt_circle.known and wheel.bolt_circle.known):
        return
    meet = [at for at, here in fit.places.items() if here.get("hub") is hub and here.get("wheel") is wheel]
    if not meet:
        return
    line: dict[str, Any] = {"id": free_id(build, "adapter")}
    where: dict[str, Any] = {"qty": str(len(meet))}
    if len(meet) < len(fit.positions):
        where["at"] = meet
    slot = "+" + "/".join(("adapter", hub.id, wheel.id))
    for entry, other in _stock(shelf, hub, wheel):
        words = f"Put {len(meet)} x {described(other)} ({entry.id}) between {hub.id} and {wheel.id}"
        yield Option(slot, BUY, words, [Add({**line, "part": entry.id, **where}, hub.id)], entry=entry.id)
    line |= {"kind": "adapter", "hub_circle": hub.values["bolt_circle"].text,
             "wheel_circle": wheel.values["bolt_circle"].text}  # fmt: skip
    if hub.has("stud_thread"):
        line["hub_nut_thread"] = hub.values["stud_thread"].text
    yield from _to_find(build, line, where, slot, leading, hub.id, wheel.id)


def _stock(shelf: Shelf, hub: Any, wheel: Any) -> list[tuple[Any, Any]]:
    """Adapters of these circles, those with a rating and the cheapest first.  One of which the catalogue gives
    the circles alone is a name, not an article.
    """
    found = [
        (entry, other) for entry, other in shelf.of_kind("adapter")
        if other.has("thickness") and _near(other.hub_circle, hub.bolt_circle)  # type: ignore[attr-defined]
        and _near(other.wheel_circle, wheel.bolt_circle)  # type: ignore[attr-defined]
    ]  # fmt: skip
    return sorted(found, key=_rated_and_cheap)[:MOST]


def _rated_and_cheap(stock: tuple[Any, Any]) -> tuple[bool, float]:
    part = stock[1]
    return not part.has("rating"), part.price.hundredths if part.has("price") else INF


def _near(one: Any, other: Any) -> bool:
    return bool(one.known and one.count == other.count and abs(one.diameter - other.diameter).lo <= NEAR)


def _to_find(
    build: Build, line: dict[str, Any], where: dict[str, Any], slot: str, leading: str, hub: str, wheel: str
) -> Iterator[Option]:
    """The adapter that would do, as thick and as strong as the rules ask."""
    trial = copied(build)
    try:
        applied = apply_change(trial, Change().add({**line, **HARDLY_THERE, **where}))
        result = check_build(trial)
    except Faults:
        return
    wants: dict[str, Want] = {}
    for finding in result.findings:
        for remedy, _ in finding.remedies(leading) if finding.verdict == STOP else ():
            id, _, key = remedy.field.rpartition(".")
            if id == line["id"] and key in HARDLY_THERE and remedy.relation == AT_LEAST:
                want = Want(key, AT_LEAST, remedy.target, None, remedy.values)
                if key not in wants or _more(want, wants[key]):
                    wants[key] = want
    units = build.leading()
    fields = {want.field: value_text(AT_LEAST, want.target, units) for want in wants.values()}
    wants = {key: wants[key] for key in HARDLY_THERE if key in wants}
    words = wanted_words(applied.added[0], list(wants.values()), leading)
    new = {**line, **{key: text for key, text in fields.items() if text}, **where, "note": TO_BE_FOUND}
    option = Option(slot, FIND, f"Find {where['qty']} x {words}, to go between {hub} and {wheel}", [Add(new, hub)])
    option.wants = list(wants.values())
    yield option


def _more(one: Want, other: Want) -> bool:
    return isinstance(one.target, Interval) and one.target.hi > other.target.hi
