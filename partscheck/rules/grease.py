"""Wheel bearing grease: its class, what it meets in there, and whether there is enough."""

from __future__ import annotations

from partscheck.build.bearing_data import NAME_READS, PLACES, bore_of, cone_part, cup_part, outside_of, width_of
from partscheck.build.model import pieces
from partscheck.build.places import Line, WheelEnd, Whole
from partscheck.formulas.grease import SPILL, bearing_volume, cavity_volume, mass, packs_needed
from partscheck.notation.interval import Interval
from partscheck.rules.basis import practice, published
from partscheck.rules.check import EQUAL, Check, Remedy, at_least, certainly, same
from partscheck.rules.registry import rule

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

DRY = "Bearings that lose their grease seize; the wheel can come off. Follow the hub maker's instructions."
NO_MARK = "none marked"
UNFIT, LIGHT, GOOD = "unfit", "light duty", "good"
GRAMS_PER_OUNCE = 28.349523125
LONGEST_CAVITY = 150.0  # mm between the bearings of a light trailer's hub, at most


# ---- class ---------------------------------------------------------------------------------------


@rule(
    "grease-class",
    on=Line,
    reads=["grease.service_class"],
    basis=(
        published("ASTM D4950 / SAE J310, meaning of the classes (secondary copy read)"),
        practice("GC or GC-LB in trailer hubs"),
    ),
)
def grease_class(line: Line) -> Check | None:
    """The grease for the hubs is of a wheel bearing class that stands a hot hub: GC or GC-LB.

    Why: Chassis grease (LA, LB) runs out of a warm hub; GA and GB are for light duty.
    Formula: By the class printed on the tub: GC and GC-LB serve, GB and GB-LB for light duty without hot
        drums, GA, LA and LB do not. No class marked: nobody knows.
    Remedy: A grease marked GC or GC-LB.
    Hazard: A dry bearing seizes; the wheel can come off.
    Wrong:
        - {kind: hub}
        - {kind: grease, service_class: LB}
    Right:
        - {kind: hub}
        - {kind: grease, service_class: GC-LB}
    """
    grease = line.part
    if grease.kind != "grease" or not line.build.of_kind("hub", "bearing"):
        return None
    if not grease.has("service_class"):
        grease.service_class  # noqa: B018 - asks what the tub says
        return _told_class(certainly(None), grease)
    verdict = _verdict(line, grease)
    if verdict == UNFIT and any(_verdict(line, other) == GOOD for other in line.build.of_kind("grease")):
        return certainly().note(
            "The {grease} ({mark}) is a chassis grease: keep it out of the hubs, for which there is another one "
            "on the list.",
            grease=grease, mark=grease.service_class,
        ).at(grease, "service_class")  # fmt: skip
    check = _told_class(same(verdict == GOOD, grease.service_class, "GC-LB"), grease)
    if verdict == UNFIT:
        check.stop("The {grease} is marked {have}: not for the wheel bearings of a trailer.", grease=grease)
    elif verdict == LIGHT:
        check.caution(
            "The {grease} is marked {have}, for moderate duty: it serves where no brake heats the hub and the "
            "miles are few. GC or GC-LB serves everywhere.",
            grease=grease,
        )
    else:
        check.caution(
            "The {grease} carries no class mark: nobody knows whether it stands a hot hub.", grease=grease
        )
    return check


def _told_class(check: Check, grease: Any) -> Check:
    return (
        check.because("A hub with a brake, or a long descent, gets hot; the wrong grease runs out of it.")
        .fix(lambda: [
            Remedy("take a wheel bearing grease marked GC-LB (or GC), NLGI 2", field=f"{grease.id}.service_class",
                   relation=EQUAL, target="GC-LB")
        ])
        .danger(DRY)
        .at(grease, "service_class")
    )  # fmt: skip


def _verdict(line: Line, grease: Any) -> str:
    """good, light duty, unfit, or "" for no mark."""
    row = line.tables.row("grease_class", grease.service_class) if grease.has("service_class") else None
    return "" if row is None else str(row["verdict"])


# ---- mixing --------------------------------------------------------------------------------------


@rule(
    "grease-mix",
    on=Line,
    reads=["grease.thickener", "grease.already_in"],
    basis=published("US Bureau of Reclamation, FIST 2-4 (11/90), Table 2 (secondary copy read); charts disagree"),
)
def grease_mix(line: Line) -> Check | None:
    """The new grease may meet the one that is already in the bearings.

    Why: Two thickeners that do not agree turn soft and run out, or hard.
    Formula: By a public chart of thickeners: compatible, borderline, incompatible. Charts disagree, and
        greases of one thickener differ in their additives: this warns, it never certifies.
    Remedy: Wash the bearings and the hub clean and dry, then pack them with the new grease alone.
    Hazard: A bearing whose grease has run out seizes.
    Wrong:
        - {kind: grease, thickener: lithium complex, already_in: polyurea}
    Right:
        - {kind: grease, thickener: lithium complex, already_in: lithium}
    """
    grease = line.part
    if grease.kind != "grease" or not grease.says("already_in"):
        return None
    new, old = grease.thickener, grease.already_in
    known = grease.has("thickener") and grease.has("already_in")
    chart = _chart(line, new, old) if known else ""
    check = same((chart == "compatible") if known else None, new, old)
    if check.holds:
        check.note(
            "One public chart calls {have} and {need} compatible. Charts disagree and greases differ: clean "
            "bearings are the safe way."
        )
    elif chart:
        words = "New grease ({have}) onto old ({need}): one public chart calls the two {chart}."
        check.caution(words, chart=chart)
    else:
        check.caution("New grease ({have}) onto old ({need}): the chart that was read has no answer for the two.")
    return (
        check.because("Greases that do not agree turn soft and run out, or hard.")
        .fix(lambda: [
            Remedy("wash bearings and hub clean and dry, then pack them with the new grease alone",
                   operation="shop"),
            Remedy("or take a grease with the thickener that is in there: {old}", field=f"{grease.id}.thickener",
                   relation=EQUAL, target=old, old=old),
        ])
        .danger(DRY)
        .at(grease, "already_in")
    )  # fmt: skip


def _chart(line: Line, new: str, old: str) -> str:
    row = line.tables.row("grease_mix", new)
    return "" if row is None else str(row.get(old.replace(" ", "_")) or "")


# ---- amount --------------------------------------------------------------------------------------


@rule(
    "grease-amount",
    on=Whole,
    reads=[
        "grease.amount", "grease.service_class", "grease.qty", "grease.packs", "grease.pack", "grease.have",
        *NAME_READS,
        "bearing.bore", "bearing.outside", "bearing.width", "hub.cone_to_cone", "practice.grease_cavity_fill",
        "practice.grease_bearing_fill", "practice.grease_density", "practice.grease_margin",
        "practice.name_agreement_most",
    ],
    basis=practice("estimate, about 30 % either way: share of a bearing and of a hub that grease fills"),
)  # fmt: skip
def grease_amount(whole: Whole) -> Check | None:
    """There is grease enough for all hubs.

    Why: A bearing that is half packed runs dry; the shop is far from the field where that shows.
    Formula: At each place: a quarter of the ring of both bearings, half of the space between them, and what
        stays on the hands; times the places, and a fifth more. An estimate, to about 30 %; the dust cap is not
        in it.
    Remedy: Another tub or cartridge of the same grease.
    Wrong:
        - {kind: hub, cone_to_cone: 75 mm}
        - {id: inner, kind: bearing, place: inner, designation: L68149/L68111}
        - {id: outer, kind: bearing, place: outer, designation: L44649/L44610}
        - {kind: grease, service_class: GC-LB, amount: 3 oz, qty: 1}
    Right:
        - {kind: hub, cone_to_cone: 75 mm}
        - {id: inner, kind: bearing, place: inner, designation: L68149/L68111}
        - {id: outer, kind: bearing, place: outer, designation: L44649/L44610}
        - {kind: grease, service_class: GC-LB, amount: 14 oz, qty: 1}
    """
    lines = [one for one in whole.build.of_kind("grease") if _counts(whole, one)]
    needed = _at_each_end(whole)
    need = grease_needed(whole)
    if need is None:
        return None
    words = (
        "The hubs take about {grams} of grease, {each} at each wheel end and {spare} more to spare (an estimate, "
        "to about 30 %)"
    )
    named = {
        "grams": grams(need), "each": " or ".join(dict.fromkeys(grams(one_end) for _, one_end in needed)),
        "spare": whole.limits.grease_margin,
    }  # fmt: skip
    if not lines:
        return _to_buy(whole, need, words, named)
    bought = Interval(0.0, 0.0, "kg")
    for one in lines:
        bought = bought + one.amount * float(pieces(one) or 0)  # type: ignore[attr-defined]
    check = at_least(bought, need)
    first: Any = lines[0]
    say = check.note if check.holds else check.caution
    return (
        say(words + "; {held} is in the cart: " + ("enough." if check.holds else "too little."),
            held=grams(bought), **named)
        .because("Half a packing is no packing: both bearings and the space between them are filled.")
        .fix(lambda: [
            Remedy("take {count} tubes or tubs of {amount} instead of {now}", field=f"{first.id}.qty",
                   relation="at least", target=packs_needed(need.hi, first.amount.lo),
                   count=packs_needed(need.hi, first.amount.lo), amount=grams(first.amount), now=pieces(first)),
        ])
        .at(first, "amount")
        .about(*lines)
    )  # fmt: skip


def grease_needed(whole: Whole) -> Interval | None:
    """Grease for all hubs with some to spare, kg (an estimate); None where no hub's bearings are known."""
    needed = _at_each_end(whole)
    if not needed:
        return None
    total = sum((one_end * float(places) for places, one_end in needed), Interval(0.0, 0.0, "kg"))
    return total * (1 + whole.limits.grease_margin.hi)


def _at_each_end(whole: Whole) -> list[tuple[int, Interval]]:
    """(how many places, grease for one of them), alike wheel ends together."""
    needs = [(len(end.at), grease_at_end(end)) for end in whole.fit.ends]
    return [(places, need) for places, need in needs if need is not None]


def _to_buy(whole: Whole, need: Interval, words: str, named: dict[str, Any]) -> Check:
    """No grease is counted yet: how much it takes, and how many tubes where one of them is known."""
    tubes: list[Any] = [one for one in whole.build.of_kind("grease") if for_hubs(whole, one) and _sized(one)]
    if not tubes or not need.known:
        return certainly().note(words + ".", **named)
    first = tubes[0]
    count = packs_needed(need.hi, first.amount.lo)
    return certainly().note(
        words + ": {count} of {amount}.", count=f"{count} tube{'' if count == 1 else 's'}",
        amount=grams(first.amount), **named,
    ).about(first)  # fmt: skip


def grams(mass_kg: Interval) -> str:
    """Grams and ounces: kilograms are too coarse for a tube of grease."""
    ends = (mass_kg.lo, mass_kg.hi)
    grams = " to ".join(dict.fromkeys(f"{end * 1000:.0f}" for end in ends))
    ounces = " to ".join(dict.fromkeys(f"{end * 1000 / GRAMS_PER_OUNCE:.1f}" for end in ends))
    return f"{grams} g ({ounces} oz)"


def _sized(grease: Any) -> bool:
    return bool(grease.has("amount") and grease.amount.lo > 0)


def for_hubs(whole: Whole, grease: Any) -> bool:
    row = whole.tables.row("grease_class", grease.service_class) if grease.has("service_class") else None
    return row is None or row["verdict"] != UNFIT


def _counts(whole: Whole, grease: Any) -> bool:
    """A grease with an amount and a count that is not for the chassis alone."""
    return bool(for_hubs(whole, grease) and _sized(grease) and pieces(grease))


def grease_at_end(end: WheelEnd) -> Interval | None:
    """Grease for one wheel end, kg; None where the size of either bearing is not known."""
    inner, outer = (_ring(end, place) for place in PLACES)
    if end.hub is None or inner is None or outer is None:
        return None
    fill, share = end.limits.grease_cavity_fill.hi, end.limits.grease_bearing_fill.hi
    density = end.limits.grease_density.mid
    rings = bearing_volume(*inner, share) + bearing_volume(*outer, share)
    low, high = (
        mass(rings + cavity_volume((inner[1], outer[1]), (inner[0], outer[0]), free, fill), density) + SPILL
        for free in _between(end, inner[2] + outer[2])
    )
    return Interval(low, high, "kg")


def _between(end: WheelEnd, widths: float) -> tuple[float, float]:
    """Free length between the bearings, mm, from least to most."""
    if not end.hub.has("cone_to_cone"):
        end.hub.cone_to_cone  # noqa: B018 - asks for it where it decides
        return 0.0, LONGEST_CAVITY - widths
    spread = end.hub.cone_to_cone
    return max(0.0, spread.lo - widths), max(0.0, spread.hi - widths)


def _ring(end: WheelEnd, place: str) -> tuple[float, float, float] | None:
    """(bore, outside, width) of a bearing, mm; the largest where several are possible."""
    if cone_part(end, place) is None or cup_part(end, place) is None:
        return None
    bore, outside, width = bore_of(end, place), outside_of(end, place), width_of(end, place)
    if not (bore.known and outside.known and width.known):
        return None
    sizes = min(one.lo for one in bore.values), max(one.hi for one in outside.values), width.hi
    return sizes if 0 < sizes[0] < sizes[1] else None
