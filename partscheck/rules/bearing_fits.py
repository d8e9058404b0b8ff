"""Cones on their journals, cups in their bores, and cones in their cups: the number first, the size second."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from partscheck.build.bearing_data import (
    CONFLICT,
    NAME_READS,
    PLACES,
    SPINDLE_KINDS,
    Size,
    bore_of,
    by_number,
    cone_number,
    cone_part,
    cup_number,
    cup_part,
    cups_of,
    exactly,
    is_fraction,
    is_measured,
    outside_of,
    spindle_of,
)
from partscheck.build.places import WheelEnd
from partscheck.notation.interval import Interval
from partscheck.rules.basis import practice, recalled
from partscheck.rules.check import EQUAL, Check, Remedy, all_of, at_least, at_most
from partscheck.rules.name_fits import (
    FAR,
    NAME_FITS,
    any_size,
    apart,
    called,
    either,
    fine,
    fitted,
    nearest,
    nearest_size,
    same_name,
)
from partscheck.rules.registry import rule

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

BEARING_LOST = (
    "A bearing that turns on its spindle or in its hub, or runs in the wrong ring, runs hot and seizes, and "
    "the wheel can come off. Follow the part makers' instructions."
)


def _spindle(*names: str) -> list[str]:
    return [f"{kind}.{name}" for kind in SPINDLE_KINDS for name in names]


# ---- cone and journal --------------------------------------------------------------------------


@rule(
    "bearing-bore-journal",
    on=WheelEnd,
    reads=[
        *NAME_READS, "bearing.bore", *_spindle("inner_journal", "outer_journal"), *NAME_FITS,
        "practice.slide_fit_most", "practice.cup_press_most", "hub.inner_cup_bore", "hub.outer_cup_bore",
    ],
    basis=(
        recalled("bores of ABMA inch designations and ISO 355 metric sizes; catalogue tables name each source"),
        practice("cones of a trailer hub go on by hand; trade sizes are rounded to 0.001 in"),
    ),
)  # fmt: skip
def bearing_bore_journal(end: WheelEnd) -> Iterator[Check]:
    """The cones slide onto the journals of the spindle by hand, without play.

    Why: A cone that is too small does not go on; one that is too large creeps, wears the journal and tilts.
    Formula: A journal typed with a tolerance is measured: it lies 0 to 0.03 mm under the cone's bore.
        Without one both are names: they agree within 0.03 mm, are two sizes beyond 0.05 mm, and are
        measured in between, or when typed as a fraction. The number on the cone gives its bore; a size typed
        for it stands second.
    Remedy: The cone whose bore is the journal's size, with a cup that fits the hub; else another spindle.
    Hazard: The bearing runs hot and seizes; the wheel can come off.
    Wrong:
        - {kind: axle, inner_journal: 1.375 in}
        - {kind: bearing, place: inner, cone: L68149}
    Right:
        - {kind: axle, inner_journal: 1.378 in}
        - {kind: bearing, place: inner, cone: L68149}
    """
    for place in PLACES:
        part, field = cone_part(end, place), f"{place}_journal"
        spindle = None if part is None else spindle_of(end, field)
        if spindle is None:
            continue
        bore = bore_of(end, place)
        if spindle.has(field) or bore.known or bore.number:
            yield _on_journal(end, place, part, spindle, bore)
    if spindle_of(end) is not None:
        yield from _misnamed(end, "bore", cone_part)


def _on_journal(end: WheelEnd, place: str, part: Any, spindle: Any, bore: Size) -> Check:
    journal, slide = getattr(spindle, f"{place}_journal"), end.limits.slide_fit_most.hi
    check = fitted(end.limits, journal, bore, lambda size: _slides(journal, size, slide))
    size = nearest_size(journal, bore)
    _tell_journal(check, journal, bore, {
        "place": place, "spindle": spindle, "cone": called("cone", part, bore), "apart": apart(journal, bore),
        "sizes": either(bore), "size": fine(size), "differs": end.limits.name_differs,
        "wanted": fine(Interval(size.lo - slide, max(size.lo - slide, size.lo), "mm")),
    })  # fmt: skip
    return (
        check.because("Cones of a trailer hub slide on by hand and must not turn on the journal.")
        .fix(lambda: _other_cones(end, place, part, spindle))
        .danger(BEARING_LOST)
        .at(spindle, f"{place}_journal")
        .about(spindle, part)
    )


def _tell_journal(check: Check, journal: Interval, bore: Size, named: dict[str, Any]) -> None:
    if check.unsure:
        if bore.disputed:
            check.ask("Public tables disagree on the bore of {cone}: {sizes}. Measure it.", **named)
        elif journal.known and is_fraction(journal):
            check.ask(
                "The {place} journal of the {spindle} is typed as a fraction, {have}; {cone} has a bore of "
                "{size}. Sizes that lie only {differs} apart are two sizes: a fraction does not tell them from "
                "each other.",
                **named,
            )  # fmt: skip
        elif bore.number and not journal.known:
            check.ask("Nobody has measured the {place} journal of the {spindle}: {cone} wants {wanted}.", **named)
    elif not is_measured(journal) or bore.fraction or named["apart"].lo > FAR:
        check.stop(
            "The {place} journal of the {spindle} is {have}; the bore of {cone} is {size}: {apart} apart, another "
            "size.", **named,
        )  # fmt: skip
    elif journal.hi < nearest_size(journal, bore).lo:
        check.stop(
            "The {place} journal of the {spindle} measures {have}; the bore of {cone} is {size}: {apart} of "
            "play. The cone creeps round the journal and wears it.", **named,
        )  # fmt: skip
    else:
        check.stop(
            "The {place} journal of the {spindle} measures {have}; the bore of {cone} is {size}: {apart} less. "
            "The cone does not go on by hand.", **named,
        )  # fmt: skip


def _slides(journal: Interval, bore: Interval, most: float) -> Check:
    """0 to ``most`` under the bore."""
    return all_of(at_most(journal, bore), at_least(journal, bore - most))


def _other_cones(end: WheelEnd, place: str, part: Any, spindle: Any) -> Iterator[Remedy]:
    """Cones of the journal's size, those that run in the cup at hand first; else the spindle."""
    journal, near = getattr(spindle, f"{place}_journal"), end.limits.name_agreement_most.hi
    cup = cup_part(end, place)
    number = "" if cup is None else cup_number(cup)
    rows = [row for row in end.tables.rows("bearing_cone") if abs(row["bore_mm"] - journal.mid) <= near]
    rows.sort(key=lambda row: (row["status"] == CONFLICT, number not in row["cups"]))
    fit = [(row, cups) for row in rows if (cups := _cups_for_hub(end, place, row["cups"]))]
    if rows:
        yield Remedy(
            "take a cone of the journal's size, " + ("in a cup that fits the hub" if fit else
            "and hubs bored for its cup, which does not fit these") + ": {cones}", field=f"{part.id}.cone",
            relation=EQUAL, target=(fit[0][0] if fit else rows[0])["key"],
            cones=" or ".join(
                f"{row['key']} (cup {' or '.join(cups)}" + _in_dispute(row) + ")"
                for row, cups in (fit or [(row, row["cups"]) for row in rows])
            ),
        )  # fmt: skip
    else:
        yield Remedy(
            "take a bearing whose cone has a bore of {journal}, and whose cup fits the hub",
            field=f"{part.id}.bore", relation=EQUAL, target=journal, journal=journal,
        )  # fmt: skip
    bore = bore_of(end, place)
    if not bore.disputed and not bore.fraction:
        size = bore.values[0]
        slide = end.limits.slide_fit_most.hi
        yield Remedy(
            "or take a spindle with a journal of {wanted}",
            field=f"{spindle.id}.{place}_journal", relation=EQUAL, target=Interval(size.lo - slide, size.lo, "mm"),
            wanted=fine(Interval(size.lo - slide, size.lo, "mm")),
        )  # fmt: skip


def _cups_for_hub(end: WheelEnd, place: str, cups: list[str]) -> list[str]:
    """Those of the cups whose size is that of the hub's bore; all of them where the bore is not typed."""
    field = f"{place}_cup_bore"
    if end.hub is None or not end.hub.has(field):
        return list(cups)
    return [cup for cup in cups if (row := end.tables.row("bearing_cup", cup)) is None
            or _near_bore(end, getattr(end.hub, field), row)]  # fmt: skip


def _near_bore(end: WheelEnd, bore: Interval, row: dict[str, Any]) -> bool:
    """A cup of the bore's size, the bore typed by name or measured with the cup's press fit."""
    near = end.limits.name_differs.hi + end.limits.cup_press_most.hi
    return bool(abs(row["outside_mm"] - bore.mid) <= near)


def _in_dispute(row: dict[str, Any]) -> str:
    return "; public tables disagree on its bore: measure it" if row["status"] == CONFLICT else ""


# ---- cup and hub -------------------------------------------------------------------------------


@rule(
    "bearing-cup-bore",
    on=WheelEnd,
    reads=[
        *NAME_READS, "bearing.outside", "hub.inner_cup_bore", "hub.outer_cup_bore", *NAME_FITS,
        "practice.cup_press_least", "practice.cup_press_most",
    ],
    basis=(
        recalled("outsides of ABMA inch designations and ISO 355 sizes; catalogue tables name each source"),
        practice("cups are a light press fit in the hub; trade sizes are rounded to 0.001 in"),
    ),
    after=["bearing-cone-cup-pair"],
)  # fmt: skip
def bearing_cup_bore(end: WheelEnd) -> Iterator[Check]:
    """The cups are a press fit in the bores of the hub.

    Why: A cup that is not pressed in spins in the hub and wears it out; one that is too large splits it or
        stands crooked.
    Formula: A bore typed with a tolerance is measured: it lies 0.02 to 0.08 mm under the cup's outside.
        Without one both are names: they agree within 0.03 mm, are two sizes beyond 0.05 mm, and are
        measured in between, or when typed as a fraction.
    Remedy: The cup of the bore's size that the cone runs in; else another hub.
    Hazard: A spinning cup runs hot; the wheel can come off.
    Wrong:
        - {kind: hub, inner_cup_bore: 59.131 mm}
        - {kind: bearing, place: inner, cone: L68149, cup: L68111}
    Right:
        - {kind: hub, inner_cup_bore: 59.131 mm}
        - {kind: bearing, place: inner, cone: L68149, cup: L68110}
    """
    for place in PLACES:
        part, hub = cup_part(end, place), end.hub
        if part is None or hub is None:
            continue
        outside = outside_of(end, place)
        if hub.has(f"{place}_cup_bore") or outside.known or outside.number:
            yield _in_hub(end, place, part, outside)
    if end.hub is not None:
        yield from _misnamed(end, "outside", cup_part)


def _in_hub(end: WheelEnd, place: str, part: Any, outside: Size) -> Check:
    hub, bore = end.hub, getattr(end.hub, f"{place}_cup_bore")
    choice = len(outside.values) > 1 and not outside.disputed  # the cone's cups, none of them named
    named = {
        "place": place, "hub": hub, "cup": called("cup", part, outside), "apart": apart(bore, outside),
        "sizes": either(outside), "size": fine(nearest_size(bore, outside)),
        "wanted": fine(_bore_for(end, nearest_size(bore, outside))),
    }  # fmt: skip
    if choice:
        sizes = [Size(one) for one in outside.values]
        check = any_size([fitted(end.limits, bore, one, lambda size: _pressed(end, bore, size)) for one in sizes])
        _tell_choice(end, check, place, bore, named)
    else:
        check = fitted(end.limits, bore, outside, lambda size: _pressed(end, bore, size))
        _tell_bore(check, bore, outside, named)
    return (
        check.because("A cup is pressed in: it must neither turn in the hub nor split it.")
        .fix(lambda: _other_cups(end, place, part, bore, outside))
        .danger(BEARING_LOST)
        .at(hub, f"{place}_cup_bore")
        .about(hub, part)
    )


def _pressed(end: WheelEnd, bore: Interval, outside: Interval) -> Check:
    least, most = end.limits.cup_press_least.hi, end.limits.cup_press_most.hi
    return all_of(at_most(bore, outside - least), at_least(bore, outside - most))


def _bore_for(end: WheelEnd, outside: Interval) -> Interval:
    """What the hub's bore must be for a cup, mm."""
    least, most = end.limits.cup_press_least.hi, end.limits.cup_press_most.hi
    return Interval(outside.lo - most, max(outside.lo - most, outside.lo - least), "mm")


def _tell_choice(end: WheelEnd, check: Check, place: str, bore: Interval, named: dict[str, Any]) -> None:
    if check.holds:
        rows = sorted(cups_of(end, place), key=lambda row: float(abs(row["outside_mm"] - bore.mid)))
        named = {**named, "which": rows[0]["key"], "size": fine(exactly(rows[0]["outside_mm"]))}
        check.note("The {place} cup bore of the {hub}, {have}, takes cup {which}, {size} outside.", **named)
    elif check.unsure:
        check.ask(
            "The {place} cone runs in {cup} ({sizes}): the cup bore of the {hub} decides which one to buy.",
            **named,
        )
    else:
        check.stop(
            "The {place} cup bore of the {hub} is {have}, but the cone runs in {cup} ({sizes}): {apart} off.",
            **named,
        )


def _tell_bore(check: Check, bore: Interval, outside: Size, named: dict[str, Any]) -> None:
    size = nearest_size(bore, outside)
    if check.unsure:
        if outside.disputed:
            check.ask("Public tables disagree on the outside of {cup}: {sizes}. Measure it.", **named)
        elif outside.number and not bore.known:
            check.ask(
                "Nobody has measured the {place} cup bore of the {hub}: {cup} wants {wanted}. With the cup in, "
                "read its number.",
                **named,
            )
    elif not is_measured(bore) or outside.fraction or named["apart"].lo > FAR:
        check.stop(
            "The {place} cup bore of the {hub} is {have}; the outside of {cup} is {size}: {apart} apart, "
            "another size.",
            **named,
        )
    elif bore.hi >= size.lo:
        check.stop(
            "The {place} cup bore of the {hub} measures {have}; {cup} is {size} outside: {apart} less. "
            "It is not pressed in and spins." if bore.lo > size.hi else
            "The {place} cup bore of the {hub} measures {have}; {cup} is {size} outside: it is not pressed in "
            "and spins.",
            **named,
        )  # fmt: skip
    elif bore.hi < check.need.lo:
        check.stop(
            "The {place} cup bore of the {hub} measures {have}; {cup} is {size} outside, {apart} more: it does "
            "not press in without harm.", **named,
        )  # fmt: skip
    else:
        check.caution(
            "The {place} cup bore of the {hub} measures {have}; {cup} is {size} outside, only {apart} more: it "
            "is hardly pressed in and may creep.", **named,
        )  # fmt: skip


def _other_cups(end: WheelEnd, place: str, part: Any, bore: Interval, outside: Size) -> Iterator[Remedy]:
    rows = [row for row in cups_of(end, place) if _near_bore(end, bore, row)]
    fits = [row for row in rows if row["key"] != cup_number(part)]
    for row in fits:
        yield Remedy(
            "take cup {cup}, {size} outside: your cone {cone} runs in it", field=f"{part.id}.cup", relation=EQUAL,
            target=row["key"], cup=row["key"], size=fine(exactly(row["outside_mm"])),
            cone=cone_number(cone_part(end, place)),
        )  # fmt: skip
    if not fits:
        yield Remedy(
            "take a bearing whose cup is {bore} outside, and whose cone fits the spindle",
            field=f"{part.id}.outside", relation=EQUAL, target=bore, bore=bore,
        )  # fmt: skip
    if outside.known and not outside.disputed:
        need = _bore_for(end, outside.values[0])
        yield Remedy(
            "or take a hub whose {place} cup bore is {need}",
            field=f"{end.hub.id}.{place}_cup_bore", relation=EQUAL, target=need, need=fine(need), place=place,
        )  # fmt: skip


# ---- a number and a size that do not go together ---------------------------------------------------


def _misnamed(end: WheelEnd, field: str, part_at: Callable[[WheelEnd, str], Any]) -> Iterator[Check]:
    """Sizes typed beside a number that means another one."""
    for part in dict.fromkeys(part_at(end, place) for place in PLACES):
        numbered = by_number(end, part, field) if part is not None else None
        if numbered is None or not part.has(field):
            continue
        typed = getattr(part, field)
        check = nearest([same_name(end.limits, typed, one, is_fraction(typed)) for one in numbered.values])
        if check.fails:
            yield _told_misnamed(check, part, field, numbered)


def _told_misnamed(check: Check, part: Any, field: str, numbered: Size) -> Check:
    typed = getattr(part, field)
    return (
        check.caution(
            "The number {number} means {what} {need}, but {have} is typed beside it on the {part}, {apart} off: "
            "read the number again, or measure.",
            number=numbered.number, what="a bore of" if field == "bore" else "an outside of", part=part,
            apart=apart(typed, numbered),
        )
        .because("The number is checked first; a size that does not go with it belongs to another bearing.")
        .fix(lambda: [
            Remedy("read the number on the ring, and type the size that it stands for ({need})",
                   field=f"{part.id}.{field}", relation=EQUAL, target=check.need, operation="declare")
        ])
        .at(part, field)
        .about(part)
    )  # fmt: skip
