"""Grease seals on their shaft and in their bore, and the dust cap in its."""

from __future__ import annotations

from partscheck.build.bearing_data import SPINDLE_KINDS, is_measured, spindle_of
from partscheck.build.places import WheelEnd
from partscheck.notation.interval import Interval
from partscheck.rules.basis import practice
from partscheck.rules.check import EQUAL, Check, Remedy, all_of, at_least, at_most
from partscheck.rules.name_fits import NAME_FITS
from partscheck.rules.registry import rule

LEAKS = "A hub that loses its grease or takes in water loses its bearings; grease on a brake takes its force."
TOO_LARGE = "{over} over the bore, {most} is the most that goes in."
LEAST_LIPS_BRAKED = 2


@rule(
    "seal-journal",
    on=WheelEnd,
    reads=["seal.inside", *(f"{kind}.seal_journal" for kind in SPINDLE_KINDS), "practice.seal_shaft_most"],
    basis=practice("seals are written shaft x bore x width (tables that name no standard), and a caliper's reach"),
)
def seal_journal(end: WheelEnd) -> Check | None:
    """The seal is made for the journal that its lip runs on.

    Why: On a smaller journal the lip does not touch; on a larger one it is stretched, runs hot and tears.
    Formula: The journal and the seal's shaft agree within 0.2 mm (practice; new shafts are held to 0.003 in).
    Remedy: The seal for this journal and the hub's bore.
    Hazard: The hub loses its grease.
    Wrong:
        - {kind: axle, seal_journal: 1.750 in}
        - {kind: seal, inside: 1.719 in}
    Right:
        - {kind: axle, seal_journal: 1.719 in}
        - {kind: seal, inside: 1.719 in}
    """
    seal, spindle = end.part("seal"), spindle_of(end, "seal_journal")
    if seal is None or spindle is None or not (seal.has("inside") or spindle.has("seal_journal")):
        return None
    journal, shaft, most = spindle.seal_journal, seal.inside, end.limits.seal_shaft_most.hi
    check = all_of(at_least(journal, shaft - most), at_most(journal, shaft + most))
    loose = journal.hi < shaft.lo
    return (
        check.stop(
            "The {seal} is made for a shaft of {shaft}; the journal of the {spindle} is {journal}, {apart} "
            + ("smaller: its lip does not touch." if loose else "larger: its lip is stretched and tears."),
            seal=seal, spindle=spindle, shaft=shaft, journal=journal, apart=abs(journal - shaft),
        )
        .because("The lip of the seal alone keeps grease in and water out.")
        .fix(lambda: [
            Remedy("take the seal for a shaft of {shaft} in the same bore", field=f"{seal.id}.inside",
                   relation=EQUAL, target=journal, shaft=journal)
        ])
        .danger(LEAKS)
        .at(seal, "inside")
        .about(seal, spindle)
    )  # fmt: skip


@rule(
    "seal-bore",
    on=WheelEnd,
    reads=["seal.outside", "hub.seal_bore", *NAME_FITS, "practice.seal_press_most"],
    basis=practice("press allowances of seals by bore, two tables that agree and name no standard"),
)
def seal_bore(end: WheelEnd) -> Check | None:
    """The seal is a press fit in the hub's bore.

    Why: A loose seal walks out and the grease follows; one that is too tight bends as it goes in.
    Formula: By the table of press allowances for this bore (metal or rubber covered case): a seal measured
        over its case is larger than the bore by the metal allowance less its tolerance to the rubber allowance
        and its tolerance. A seal by name is the bore's own size, or up to that much larger.
    Remedy: The seal for this bore and journal.
    Hazard: The hub loses its grease.
    Wrong:
        - {kind: hub, seal_bore: 2.441 in}
        - {kind: seal, outside: 2.328 in}
    Right:
        - {kind: hub, seal_bore: 2.441 in}
        - {kind: seal, outside: 2.441 in}
    """
    seal, hub = end.part("seal"), end.hub
    if seal is None or hub is None or not (seal.has("outside") or hub.has("seal_bore")):
        return None
    least, most = _press(end, hub.seal_bore)
    check = _pressed_in(end, seal.outside, hub.seal_bore, least, most)
    loose = check.fails and seal.outside.hi < hub.seal_bore.lo + most
    return (
        check.stop(
            "The {seal} is {outside} outside, the seal bore of the {hub} {bore}: "
            + ("the seal sits loose and walks out." if loose else TOO_LARGE),
            seal=seal, hub=hub, outside=seal.outside, bore=hub.seal_bore, over=abs(seal.outside - hub.seal_bore),
            most=Interval.exact(most, "mm"),
        )
        .because("The seal is held by its press fit alone.")
        .fix(lambda: [
            Remedy("take the seal that is made for a bore of {bore}, on the same shaft",
                   field=f"{seal.id}.outside",
                   relation=EQUAL, target=hub.seal_bore, bore=hub.seal_bore)
        ])
        .danger(LEAKS)
        .at(seal, "outside")
        .about(seal, hub)
    )  # fmt: skip


@rule(
    "seal-lips-with-brakes",
    on=WheelEnd,
    reads=["seal.lips"],
    basis=practice("seals with two lips or more where a brake sits behind the hub"),
)
def seal_lips_with_brakes(end: WheelEnd) -> Check | None:
    """A hub with a brake has seals with two lips or more.

    Why: What passes the seal lands on the brake linings; the second lip keeps brake dust and water off the first.
    Formula: lips >= 2 where the wheel end has a brake.
    Remedy: A seal with two lips of the same shaft, bore and width.
    Hazard: Grease on the linings takes the brake's force.
    Wrong:
        - {kind: hub, drum_diameter: 10 in}
        - {kind: brake, type: electric, drum_diameter: 10 in}
        - {kind: seal, lips: single}
    Right:
        - {kind: hub, drum_diameter: 10 in}
        - {kind: brake, type: electric, drum_diameter: 10 in}
        - {kind: seal, lips: double}
    """
    seal = end.part("seal")
    if seal is None or end.brake is None:
        return None
    typed = seal.lips
    lips = Interval.exact(float(typed)) if seal.has("lips") else Interval(1.0, 5.0)
    check = at_least(lips, Interval.exact(float(LEAST_LIPS_BRAKED)))
    return (
        check.caution(
            "The {seal} has {count} lip; behind it sits the {brake}. Two lips or more are usual there.",
            seal=seal, brake=end.brake, count=typed,
        )
        .because("What passes the seal lands on the brake linings.")
        .fix(lambda: [
            Remedy("take a seal with two lips, of the same shaft and bore", field=f"{seal.id}.lips",
                   relation="at least", target=Interval.exact(float(LEAST_LIPS_BRAKED)))
        ])
        .danger("Grease on the linings takes the brake's force.")
        .at(seal, "lips")
        .about(seal, end.brake)
    )  # fmt: skip


@rule(
    "cap-bore",
    on=WheelEnd,
    reads=["dust-cap.outside", "hub.cap_bore", *NAME_FITS, "practice.cap_press_most"],
    basis=practice("a dust cap is driven into its bore, a little larger than it"),
)
def cap_bore(end: WheelEnd) -> Check | None:
    """The dust cap is a press fit in the hub.

    Why: A loose cap is lost on the road and water gets at the bearings; one that is too large is dented before
        it is home.
    Formula: A measured cap is 0 to 0.3 mm over its bore; by name the two agree, or the cap is up to that much
        larger.
    Remedy: The cap of the bore's size.
    Hazard: A bearing that runs in water and grit fails.
    Wrong:
        - {kind: hub, cap_bore: 1.980 in}
        - {kind: dust-cap, outside: 1.78 in}
    Right:
        - {kind: hub, cap_bore: 1.980 in}
        - {kind: dust-cap, outside: 1.986 in}
    """
    cap, hub = end.part("dust-cap"), end.hub
    if cap is None or hub is None or not (cap.has("outside") or hub.has("cap_bore")):
        return None
    most = end.limits.cap_press_most.hi
    check = _pressed_in(end, cap.outside, hub.cap_bore, 0.0, most)
    loose = check.fails and cap.outside.hi < hub.cap_bore.lo + most
    return (
        check.stop(
            "The {cap} is {outside} outside, the cap bore of the {hub} {bore}: "
            + ("it is loose and gets lost." if loose else TOO_LARGE),
            cap=cap, hub=hub, outside=cap.outside, bore=hub.cap_bore, over=abs(cap.outside - hub.cap_bore),
            most=Interval.exact(most, "mm"),
        )
        .because("The cap is held by its press fit alone, and keeps water and grit out.")
        .fix(lambda: [
            Remedy("take a dust cap for a bore of {bore}", field=f"{cap.id}.outside", relation=EQUAL,
                   target=hub.cap_bore, bore=hub.cap_bore)
        ])
        .danger("Bearings that run in water and grit fail.")
        .at(cap, "outside")
        .about(cap, hub)
    )  # fmt: skip


def _pressed_in(end: WheelEnd, outside: Interval, bore: Interval, least: float, most: float) -> Check:
    """``least`` to ``most`` over its bore; by name at least the bore's own size, rounded.

    A bore typed by name is what the part is sold for: the part may be that size by name too, or be
    measured over its case.
    """
    over = outside - bore
    if is_measured(outside):
        loose = at_least(outside, bore + least)
    else:
        band = Interval(end.limits.name_agreement_most.hi, end.limits.name_differs.hi, "mm")
        loose = at_least(over + band, Interval(0.0, 0.0, "mm"))
        loose.have, loose.need = outside, bore
    return all_of(loose, at_most(outside, bore + most))


def _press(end: WheelEnd, bore: Interval) -> tuple[float, float]:
    """Least and greatest press allowance of a seal in this bore, mm, over both sorts of case."""
    rows = end.tables.rows("seal_fit")
    size = bore.mid if bore.known else 0.0
    for row in rows:
        if size <= row["bore_to_mm"]:
            return (
                row["metal_mm"] - row["metal_tolerance_mm"],
                row["rubber_mm"] + row["rubber_tolerance_mm"],
            )
    return 0.0, end.limits.seal_press_most.hi
