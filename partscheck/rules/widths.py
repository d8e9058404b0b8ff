"""Widths: do offset and backspace agree, and how wide is the trailer over its tires."""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build.places import Line, Whole
from partscheck.build.tire_width import FACE_READS, SIDEWALL_READS, faces_known, width_over_tires
from partscheck.notation.interval import Interval, greatest_of
from partscheck.rules.basis import practice, published, recalled
from partscheck.rules.check import AT_MOST, EQUAL, Check, Remedy, at_least, at_most, equal_within
from partscheck.rules.registry import rule

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

US_WIDTH = published(
    "23 CFR 658.15(a): 102 in, on the National Network, for commercial vehicles (secondary copy read)"
)
US_LAMPS = published("FMVSS 108 (49 CFR 571.108), NHTSA letter nht93-412")
WIDTH_ELSEWHERE = recalled("2.5 m in Australia, 2.55 m in the EU; no text was read")
OUTSIDE_READS = (*SIDEWALL_READS, *FACE_READS)


@rule(
    "offset-backspace-inconsistent",
    on=Line,
    reads=[
        "wheel.offset", "wheel.backspace", "wheel.size", "practice.rim_flange_allowance",
        "practice.offset_agreement",
    ],
    basis=practice("a rim is about 1 in wider overall than between its bead seats"),
)  # fmt: skip
def offset_backspace_inconsistent(line: Line) -> Check | None:
    """A wheel's offset, backspace and width agree with each other.

    Why: One of them is wrong, and the wheel stands somewhere else than you think.
    Formula: offset = backspace - (width + 1 in)/2, within 3 mm
    Remedy: Measure the backspace again, from a straightedge over the rim's edge to the mounting face.
    Wrong:
        - {kind: wheel, size: 15 x 7 in, offset: 30 mm, backspace: 4 in}
    Right:
        - {kind: wheel, size: 15 x 7 in, offset: 0 mm, backspace: 4 in}
    """
    wheel: Any = line.part
    if wheel.kind != "wheel" or not all(wheel.has(name) for name in ("offset", "backspace", "size")):
        return None
    half = (wheel.size.width + line.limits.rim_flange_allowance) * 0.5
    computed = wheel.backspace - half
    return (
        equal_within(wheel.offset, computed, line.limits.offset_agreement.hi)
        .caution(
            "The {wheel} is given an offset of {have}; its backspace of {backspace} on {size} makes {need}.",
            wheel=wheel, backspace=wheel.backspace, size=wheel.size,
        )
        .because("One of the three is wrong, so the tire stands elsewhere than you think.")
        .at(wheel, "offset")
        .fix(lambda: _offset_remedies(wheel, computed, wheel.offset + half))
    )  # fmt: skip


def _offset_remedies(wheel: Any, offset: Interval, backspace: Interval) -> Iterator[Remedy]:
    yield Remedy(
        "lay the wheel on its front, straightedge over the rim's edge, and measure to the mounting face: "
        "an offset of {offset} needs a backspace of {backspace}",
        f"{wheel.id}.backspace", EQUAL, backspace, "declare", offset=wheel.offset, backspace=backspace,
    )  # fmt: skip
    yield Remedy(
        "or, where the backspace is right, correct the offset to {offset}",
        f"{wheel.id}.offset", EQUAL, offset, "declare", offset=offset,
    )  # fmt: skip


@rule(
    "width-inconsistent",
    on=Whole,
    reads=[*OUTSIDE_READS, "layout.overall_width", "practice.width_agreement"],
    basis=practice("worked out from the wheel ends; a tape over two sidewalls is good to about 1 in"),
)
def width_inconsistent(whole: Whole) -> Check | None:
    """The overall width typed is not less than the width over the tires worked out.

    Why: A trailer is at least as wide as its tires; a wheel, a plate or the axle is not what the list
        says. It may be wider: fenders and body count.
    Formula: width over the tires = hub face distance + 2 x (section width/2 - offset + thickness)
    Remedy: Tape the width over the tires, and check offset, plates and hub face distance.
    Wrong:
        layout: {hub_face_distance: 70 in, overall_width: 72 in}
        parts:
          - {kind: wheel, size: 15 x 6 in, offset: 0 mm}
          - {kind: tire, size: ST205/75R15}
    Right:
        layout: {hub_face_distance: 70 in, overall_width: 80 in}
        parts:
          - {kind: wheel, size: 15 x 6 in, offset: 0 mm}
          - {kind: tire, size: ST205/75R15}
    """
    layout, over_tires = whole.build.layout, _over_tires(whole)
    if not layout.has("overall_width") or over_tires is None:
        return None
    least = over_tires - whole.limits.width_agreement
    return (
        at_least(layout.overall_width, least)
        .caution(
            "The overall width is given as {typed}, but the tires alone stand {over_tires} wide.",
            typed=layout.overall_width, over_tires=over_tires,
        )
        .because("A wheel, a plate or the axle is not what the list says, or the width was taken elsewhere.")
        .at(layout, "overall_width")
        .fix(lambda: [Remedy(
            "tape the width over the tires; if it is {over_tires}, correct overall_width",
            "layout.overall_width", EQUAL, over_tires, "declare",
        )])
    )  # fmt: skip


@rule(
    "width-over-legal",
    on=Whole,
    reads=[
        *OUTSIDE_READS, "layout.overall_width", "service.country", "practice.legal_width",
        "practice.legal_width_elsewhere", "practice.wide_vehicle_width",
    ],
    basis=(US_WIDTH, WIDTH_ELSEWHERE),
)  # fmt: skip
def width_over_legal(whole: Whole) -> Check | None:
    """The trailer is no wider than the law of the place allows.

    Why: A trailer that is too wide needs a permit or may not go on the road at all. From 80 in on, the
        United States ask for clearance and identification lamps.
    Formula: the greater of the overall width typed and hub face distance + 2 x (section width/2 -
        offset + thickness)
    Remedy: Wheels that tuck in further, a narrower tire or axle; look up the law of the place.
    Wrong:
        service: {country: US}
        layout: {overall_width: 104 in}
        parts:
          - {kind: wheel, size: 15 x 6 in}
    Right:
        service: {country: US}
        layout: {overall_width: 76 in}
        parts:
          - {kind: wheel, size: 15 x 6 in}
    """
    width = _overall(whole)
    if width is None:
        return None
    country = whole.build.service.country
    in_us = country == "US"
    legal = whole.limits.legal_width if in_us else whole.limits.legal_width_elsewhere
    check = at_most(width, legal).at(whole.build.layout, "overall_width")
    if check.holds and width.lo >= whole.limits.wide_vehicle_width.lo and (in_us or not _known(country)):
        return check.note(
            "The trailer is {have} wide: from {wide} on, the United States ask for clearance and "
            "identification lamps.", wide=whole.limits.wide_vehicle_width,
        ).on_basis(US_LAMPS)  # fmt: skip
    words = "The trailer is {have} wide; " + (
        "the United States allow {need} on their main roads, and less on some others."
        if in_us
        else "many places allow about {need} or less: look up the law of the place."
    )
    return (
        check.caution(words)
        .because("A trailer that is too wide needs a permit or may not go on the road at all.")
        .on_basis(US_WIDTH if in_us else WIDTH_ELSEWHERE)
        .fix(lambda: [Remedy(
            "look up the width allowed where you will drive, and bring the trailer to at most {need}: "
            "wheels that tuck in {half} further on each side, a narrower axle, or narrower fenders",
            "layout.overall_width", AT_MOST, legal, "shop",
            half=Interval.exact((width.hi - legal.lo) / 2, "mm"),
        )])
    )  # fmt: skip


def _known(country: Any) -> bool:
    return getattr(country, "known", True) and isinstance(country, str)


def _over_tires(whole: Whole) -> Interval | None:
    """Width over the tires of the widest axle, where the list says enough to work it out."""
    widths = [
        width_over_tires(end)
        for end in whole.fit.ends
        if end.wheel is not None and end.tire is not None and faces_known(end)
    ]
    known = [width for width in widths if width.known]
    return greatest_of(known[0], *known[1:]) if known else None


def _overall(whole: Whole) -> Interval | None:
    """The greater of the width typed and the width over the tires; None when neither is known."""
    over_tires, layout = _over_tires(whole), whole.build.layout
    if not layout.has("overall_width"):
        return over_tires
    typed: Interval = layout.overall_width
    return typed if over_tires is None or over_tires.hi <= typed.lo else greatest_of(typed, over_tires)
