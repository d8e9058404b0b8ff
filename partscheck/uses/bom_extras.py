"""What the list lacks: parts that rules miss, and what is used up in the work (estimates, common practice)."""

from __future__ import annotations

import math

from partscheck.build.brake_circuit import is_electric
from partscheck.build.lamp_places import SEVERAL
from partscheck.notation.interval import INF
from partscheck.rules.grease import grease_needed
from partscheck.uses.bom_amounts import conductors, grease_lines, grease_words, whole_of
from partscheck.uses.bom_kinds import assembly_of

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import Any

    from partscheck.engine import Result
    from partscheck.rules.findings import Finding

ENDS = 2  # a conductor has two
MILLILITRES = 1000.0
HALF_INCH = 12.7  # mm, the bolt that the practice amounts are for
LOCKED = ("nylon insert", "all-metal", "jam nut", "castle nut", "thread locker", "wedge washer")
STAINLESS = "stainless"


class Extra:
    """Something to buy that stands on no line: ``count`` pieces or None, ``amount`` in words where it comes by
    mass or volume, ``why`` it is needed, ``finding`` that misses it (None for what is used up).
    """

    __slots__ = ("amount", "assembly", "count", "finding", "kind", "what", "why")

    def __init__(
        self, kind: str, what: str, count: int | None, why: str, amount: str = "", finding: Finding | None = None
    ) -> None:
        self.kind = kind
        self.assembly = assembly_of(kind)
        self.what = what
        self.count = count
        self.amount = amount
        self.why = why
        self.finding = finding


# ---- missing --------------------------------------------------------------------------------------


def missing_parts(result: Result) -> list[Extra]:
    """What rules say is missing from the list."""
    found = []
    leading = result.build.leading()
    for finding in result.findings:
        if finding.rule.slug != "part-missing" or not finding.check.fails:
            continue
        remedies = finding.remedies(leading)
        if not remedies:
            continue
        remedy, words = remedies[0]
        kind = _kind_of(remedy)
        found.append(Extra(kind, words, _pieces_of(remedy), finding.message(leading), finding=finding))
    return found


def _kind_of(remedy: Any) -> str:
    missing = remedy.values.get("missing")
    return str(missing or remedy.field)


def _pieces_of(remedy: Any) -> int | None:
    """Pieces that the remedy names, or one for each empty place."""
    pieces = str(remedy.values.get("pieces") or "").strip()
    if pieces.isdigit():
        return int(pieces)
    empty = remedy.values.get("empty")
    return len(empty) if empty else None


# ---- used up --------------------------------------------------------------------------------------


def consumables(result: Result) -> list[Extra]:
    """Grease, thread treatment, terminals and pins that no line of the list covers."""
    return [*_grease(result), *_cotter_pins(result), *_thread_treatment(result), *_terminals(result)]


def _grease(result: Result) -> Iterator[Extra]:
    """Where no single line of hub grease with its amount carries the need."""
    sized = [line for line in grease_lines(result) if line.has("amount") and line.amount.lo > 0]
    need = grease_needed(whole_of(result))
    if len(sized) == 1 or need is None or need.hi == INF:
        return
    yield Extra(
        "grease", "wheel bearing grease marked GC-LB, NLGI 2", None,
        "To pack the bearings and half of the space between them.", grease_words(need),
    )  # fmt: skip


def _cotter_pins(result: Result) -> Iterator[Extra]:
    """For hubs that are put together from their bearings; a hub bought complete brings its own."""
    build = result.build
    if build.of_kind("cotter-pin") or not build.of_kind("bearing", "spindle-nut"):
        return
    places = [at for end in result.fit.ends if end.hub is not None for at in end.at]
    if places:
        yield Extra(
            "cotter-pin", "cotter pin for the spindle nut, where yours takes one", len(places),
            "One at each wheel end, always a new one.",
        )  # fmt: skip


def _thread_treatment(result: Result) -> Iterator[Extra]:
    limits = result.build.limits
    shaken = stainless = 0
    drops = 0.0
    for joint in result.build.joints:
        count = (joint.bolts if joint.has("bolts") else 0) * (joint.places if joint.has("places") else 1)
        bolt = next((result.build.part(id) for id in joint.bolt), None) if joint.has("bolt") else None
        nut = result.build.part(joint.nut) if joint.has("nut") else None
        if joint.has("vibration") and joint.vibration and not (_locks(bolt) or _locks(nut)):
            shaken += count
            drops += count * _thinner(bolt) * limits.locker_per_bolt.hi * MILLILITRES
        if bolt is not None and _stainless(bolt):
            stainless += count
    if shaken:
        yield Extra(
            "other", "thread locker of medium strength", None,
            f"For {shaken} bolts that are shaken and that nothing else locks; clean and dry threads first.",
            f"about {math.ceil(drops)} mL",
        )  # fmt: skip
    if stainless:
        amount = math.ceil(stainless * limits.antiseize_per_bolt.hi * MILLILITRES)
        yield Extra(
            "other", "anti-seize paste", None,
            f"For {stainless} stainless bolts, which gall on their nuts. Not on wheel studs: they stay as their "
            "maker says, mostly dry.",
            f"about {amount} mL",
        )  # fmt: skip


def _locks(part: Any) -> bool:
    return part is not None and "locking" in part.fields and part.has("locking") and part.locking in LOCKED


def _stainless(bolt: Any) -> bool:
    return bool(bolt.has("grade") and bolt.grade.system == STAINLESS)


def _thinner(bolt: Any) -> float:
    """A thinner bolt takes less, by its surface; never more than the bolt of the practice amount."""
    size = getattr(bolt, "size", None)
    diameter = getattr(getattr(size, "thread", None), "diameter", None)
    if diameter is None or not getattr(diameter, "known", False):
        return 1.0
    return float(min(1.0, (diameter.hi / HALF_INCH) ** 2))


def _terminals(result: Result) -> Iterator[Extra]:
    """Crimp terminals and splices: two ends of each conductor, the leads of each electric brake and each lamp."""
    build = result.build
    wires = [wire for wire in build.of_kind("wire") if not _in_shop(wire)]
    if not wires:
        return
    ends = sum(conductors(wire, result) * ENDS for wire in wires)
    brakes = sum(len(result.fit.places_of(one)) for one in build.of_kind("brake") if is_electric(one) is not False)
    lamps = [(_count(lamp), _leads(lamp)) for lamp in build.of_kind("lamp")]
    leads = sum(count * each for count, each in lamps)
    count = math.ceil((ends + ENDS * brakes + leads) * (1 + build.limits.terminals_spare.hi) - 1e-9)
    told = [f"{ends} ends of conductors"]
    told += [f"2 leads of each brake ({brakes})"] if brakes else []
    told += [f"{leads} leads of {sum(count for count, _ in lamps)} lamps"] if lamps else []
    spare = f"{build.limits.terminals_spare.hi * 100:.0f} %"
    yield Extra(
        "wire", "crimp terminals and splices, sealed, of the wire's size", count,
        f"{', '.join(told)}, and {spare} more.",
    )  # fmt: skip


def _leads(lamp: Any) -> int:
    """Ground, and one for each circuit that it shows: stop and turn share theirs."""
    return 3 if lamp.has("function") and lamp.function in SEVERAL else ENDS


def _in_shop(part: Any) -> bool:
    return bool(part.has("have") and part.have is True)


def _count(part: Any) -> int:
    from partscheck.build.model import pieces

    return pieces(part) or 1
