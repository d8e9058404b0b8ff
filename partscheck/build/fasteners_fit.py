"""Which lug nuts (or wheel bolts) of the list belong on which face of a wheel end."""

from __future__ import annotations

from itertools import product

from partscheck.build.model import Build
from partscheck.build.unclear import named
from partscheck.notation.faults import Fault

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

HUB_SIDE, WHEEL_SIDE = "hub side", "wheel side"
# The role of a nut and of a wheel bolt on each face.
ROLES = {
    (HUB_SIDE, "lug-nut"): "hub-nut", (HUB_SIDE, "wheel-bolt"): "hub-bolt",
    (WHEEL_SIDE, "lug-nut"): "lug-nut", (WHEEL_SIDE, "wheel-bolt"): "wheel-bolt",
}  # fmt: skip


def assign_fasteners(
    build: Build, at: str, roles: dict[str, Any], plates: tuple[Any, ...]
) -> list[Fault]:
    """Put the nuts and wheel bolts of one place into ``roles``; faults where it cannot be told.

    A nut mounts on the part whose stud it engages, a bolt on the part whose hole it enters: thread
    first, seat second.
    """
    bolts = [line for line in build.of_kind("wheel-bolt") if _may_sit(line, at)]
    nuts = [line for line in build.of_kind("lug-nut") if _may_sit(line, at)]
    if not roles.keys() & {"hub", "wheel"} and not plates:
        return []
    adapter = next((plate for plate in plates if plate.kind == "adapter"), None)
    if adapter is not None:
        slots = [
            (HUB_SIDE, roles.get("hub"), adapter),
            (WHEEL_SIDE, _outermost(plates), roles.get("wheel")),
        ]
        return _choose(bolts + nuts, slots, roles, at)
    faults = _choose_bolts(bolts, roles, at) if bolts else []
    if nuts and "wheel-bolt" not in roles:
        faults += _choose(nuts, [(WHEEL_SIDE, roles.get("hub"), roles.get("wheel"))], roles, at)
    return faults


def _outermost(plates: tuple[Any, ...]) -> Any:
    return [plate for plate in plates if plate.kind == "adapter"][-1]


def _may_sit(line: Any, at: str) -> bool:
    typed = line.typed("at")
    return typed is None or at in [str(getattr(one, "text", one)) for one in typed.value]


def _choose_bolts(bolts: list[Any], roles: dict[str, Any], at: str) -> list[Fault]:
    """The line that names what it goes into or holds, else the one whose thread is the hub's."""
    here = {part.id for part in (roles.get("hub"), roles.get("wheel")) if part is not None}
    pinned = [line for line in bolts if line.says("mounts_on") and line.typed("mounts_on").value in here]
    bolts = pinned or [line for line in bolts if not line.says("mounts_on")]
    if len(bolts) > 1 and roles.get("hub") is not None:
        fitting = [line for line in bolts if line.thread.same_as(roles["hub"].hole_thread) is True]
        bolts = fitting if len(fitting) == 1 else bolts
    if len(bolts) > 1:
        return [_unclear(bolts, at, "wheel bolts", "holes", "hub")]
    if bolts:
        roles["wheel-bolt"] = bolts[0]
    return []


def _choose(
    lines: list[Any], slots: list[tuple[str, Any, Any]], roles: dict[str, Any], at: str
) -> list[Fault]:
    """The assignment of lines to faces that suits threads and seats best."""
    if not lines:
        return []
    options: list[tuple[Any, ...]] = [
        (None, *(line for line in lines if _pin_allows(line, slot, slots))) for slot in slots
    ]
    scored: dict[int, list[tuple[Any, ...]]] = {}
    for choice in product(*options):
        score = _score(choice, slots, lines)
        scored.setdefault(score, []).append(choice)
    best = scored[max(scored)]
    if len(best) > 1 and not _alike(best):
        return [_unclear(list(lines), at, *_words_for(lines))]
    for (side, _, _), line in zip(slots, best[0], strict=True):
        if line is not None:
            roles[ROLES[side, line.kind]] = line
    return []


def _pin_allows(line: Any, slot: tuple[str, Any, Any], slots: list[tuple[str, Any, Any]]) -> bool:
    typed = line.typed("mounts_on")
    if typed is None:
        return True
    _, base, held = slot
    if base is not None and typed.value == base.id:
        return True
    on_held = held is not None and typed.value == held.id
    return on_held and not any(other is not None and other.id == typed.value for _, other, _ in slots)


def _score(choice: tuple[Any, ...], slots: list[tuple[str, Any, Any]], lines: list[Any]) -> int:
    """Threads weigh most, then seats, then using every line once."""
    score = 0
    for (side, base, held), line in zip(slots, choice, strict=True):
        if line is None:
            continue
        thread = _threads_match(line, base, held, side)
        score += {True: 100, None: 40, False: 1}[thread] if _goes_with(line, base) else 0
        score += {True: 10, None: 4, False: 0}[_seats_match(line, held)]
        if line.says("mounts_on"):
            score += 1000
    used = {id(line) for line in choice if line is not None}
    twice = len([line for line in choice if line is not None]) - len(used)
    matches = [
        _threads_match(line, base, held, side) and _goes_with(line, base)
        for (side, base, held), line in zip(slots, choice, strict=True)
        if line is not None
    ]
    if twice and not _may_serve_both(matches, only_line=len(lines) == 1):
        return -1
    return score + 20 * len(used)


def _may_serve_both(matches: list[bool | None], only_line: bool) -> bool:
    """One line goes on both faces when its thread is right on both; the only line of the list also
    when nothing tells the faces apart: then the rules ask for the threads, or tell of both.
    """
    if only_line:
        return False not in matches or set(matches) == {False}
    return set(matches) == {True}


def _goes_with(line: Any, base: Any) -> bool:
    """Whether it is nuts for studs, or bolts for holes, as far as the base says what it has."""
    if base is None:
        return True
    if line.kind == "lug-nut":
        return not ("hole_thread" in base.fields and base.has("hole_thread"))
    return not (base.has("stud_thread") or base.has("stud_length"))


def _threads_match(line: Any, base: Any, held: Any, side: str) -> bool | None:
    if line.kind == "wheel-bolt":
        if base is None or "hole_thread" not in base.fields:
            return None
        return line.thread.same_as(base.hole_thread)  # type: ignore[no-any-return]
    if side == HUB_SIDE and held is not None and held.hub_nut_thread.known:
        thread = held.hub_nut_thread
    elif base is not None:
        thread = base.stud_thread
    else:
        return None
    return line.thread.same_as(thread)  # type: ignore[no-any-return]


def _seats_match(nut: Any, held: Any) -> bool | None:
    wanted = held.typed("nut_seat") if held is not None else None
    seat = nut.typed("seat")
    if wanted is None or seat is None or not wanted.value or not seat.value:
        return None
    return bool(wanted.value == seat.value)


def _alike(choices: list[tuple[Any, ...]]) -> bool:
    return len({tuple(None if line is None else line.id for line in choice) for choice in choices}) == 1


def _words_for(lines: list[Any]) -> tuple[str, str, str]:
    """What is unclear, into or onto what it goes, and on which part that is."""
    kinds = {line.kind for line in lines}
    if kinds == {"lug-nut"}:
        return "lug nuts", "studs", "hub or adapter"
    if kinds == {"wheel-bolt"}:
        return "wheel bolts", "holes", "hub or adapter"
    return "lug nuts and wheel bolts", "studs or holes", "hub or adapter"


def _unclear(lines: list[Any], at: str, what: str, into: str, whose: str) -> Fault:
    return Fault(
        lines[-1].mark,
        f"{what} {named(lines)} at {at}",
        f"which {what} go with which {into}",
        f"add `mounts_on: <id>` with the {whose} whose {into} they engage, or `at:` with their places",
    )
