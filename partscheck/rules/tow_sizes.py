"""Sizes along the towing chain: ball in coupler, shank in mount, mount or rack in receiver, coupler on tongue."""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build.places import Binding, Whole
from partscheck.build.tow_class import INCH, POUND
from partscheck.build.tow_places import RearRack, TowChain
from partscheck.notation.interval import Interval
from partscheck.rules.basis import practice
from partscheck.rules.check import Check, Remedy, all_of, at_least, at_most, equal_within
from partscheck.rules.registry import rule
from partscheck.rules.targets import a_kind, no_less, no_more

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

COMES_OFF = (
    "A trailer that comes off its ball at speed goes where it wants and hangs on its chains alone. Follow the "
    "makers' instructions of ball, coupler and mount, and local codes."
)
RACK_FALLS = (
    "What falls off behind lands in front of the next car. Follow the makers' instructions of rack and receiver, "
    "and local codes."
)
NEAR_MISS = 1.0  # mm; 50 mm and 2 in are taken for one another


# ---- ball in coupler ----------------------------------------------------------------------------------


@rule(
    "ball-coupler-size",
    on=TowChain,
    reads=[
        "ball.diameter", "ball.mounting", "coupler.ball_diameter", "practice.ball_size_tolerance",
    ],
    basis=practice("ball and coupler of one stamped size; 1-7/8, 2 and 2-5/16 in and 50 mm are four sizes"),
)  # fmt: skip
def ball_coupler_size(chain: TowChain) -> Check | None:
    """The ball has the diameter that the coupler is made for.

    Why: A ball that is too small goes in, the latch closes, and it comes out on the first bump.
    Formula: |ball - coupler| at most the practice limit; 2 in (50.8 mm) and 50 mm are two sizes. Both are
        stamped: on top of the ball, and on the coupler.
    Remedy: A ball of the coupler's size; a coupler for the ball where the ball is fixed to the tow vehicle.
    Hazard: The trailer comes off.
    Wrong:
        - {kind: coupler, ball_diameter: 2 in}
        - {kind: ball, diameter: 50 mm}
    Right:
        - {kind: coupler, ball_diameter: 2 in}
        - {kind: ball, diameter: 50.8 mm}
    """
    ball, coupler = chain.ball, chain.coupler
    if ball is None or coupler is None:
        return None
    have, need = ball.diameter, coupler.ball_diameter
    check = equal_within(have, need, chain.limits.ball_size_tolerance.hi)
    return (
        check.stop(_ball_words(have, need), ball=ball, coupler=coupler, have=have, need=need, off=abs(have - need))
        .because("Go by the stamps on both, not by trying: a latch closes over a ball that is too small.")
        .fix(lambda: _one_size(chain))
        .danger(COMES_OFF)
        .at(ball, "diameter")
        .about(coupler, ball)
    )


def _ball_words(have: Interval, need: Interval) -> str:
    words = "The {coupler} is made for a ball of {need}, the {ball} has {have}: it is {off} too "
    smaller = have.mid < need.mid
    words += "small, the latch closes over it and lets go on a bump" if smaller else (
        "large, the coupler does not go down on it and its latch does not close"
    )
    near = abs(have - need).hi < NEAR_MISS  # mm
    return words + (". A near miss is no fit: these are two sizes." if near else ".")


def _one_size(chain: TowChain) -> Iterator[Remedy]:
    ball, coupler = chain.ball, chain.coupler
    fixed = ball.has("mounting") and ball.mounting == "fixed"
    hole = " and a shank for the hole of the {mount}" if chain.mount is not None and not fixed else ""
    new_ball = Remedy(
        "get a ball of {target}" + hole + ", rated for the trailer", field=f"{ball.id}.diameter",
        relation="equal to", target=coupler.ball_diameter, mount=chain.mount,
    )  # fmt: skip
    new_coupler = Remedy(
        "get a coupler for a ball of {target}, rated for the trailer", field=f"{coupler.id}.ball_diameter",
        relation="equal to", target=ball.diameter,
    )  # fmt: skip
    first, second = (new_coupler, new_ball) if fixed else (new_ball, new_coupler)
    second.do = "or " + second.do
    yield first
    yield second


# ---- the ball in its mount ----------------------------------------------------------------------------


@rule(
    "ball-shank-hole",
    on=TowChain,
    reads=[
        "ball.diameter", "ball.mounting", "ball.shank_diameter", "ball-mount.ball_hole",
        "practice.ball_hole_gap_most", "practice.ball_size_tolerance",
    ],
    basis=practice("the ball's shank fills the hole of its mount; a wider hole takes a reducer bushing"),
)  # fmt: skip
def ball_shank_hole(chain: TowChain) -> Check | None:
    """The shank of the ball goes through the hole of the ball mount, and fills it.

    Why: In a hole that is too wide the ball shifts under every pull, until its nut is loose.
    Formula: 0 <= hole - shank <= the practice limit.
    Remedy: A ball whose shank fits the hole; a reducer bushing in a hole that is too wide. A mount's hole is
        not drilled larger: its rating goes with it.
    Hazard: The ball comes out of its mount.
    Wrong:
        - {kind: ball, diameter: 2 in, shank_diameter: 3/4 in}
        - {kind: ball-mount, ball_hole: 1 in}
    Right:
        - {kind: ball, diameter: 2 in, shank_diameter: 1 in}
        - {kind: ball-mount, ball_hole: 1 in}
    """
    ball, mount = chain.ball, chain.mount
    if not _through_a_mount(chain):
        return None
    shank, hole, most = ball.shank_diameter, mount.ball_hole, chain.limits.ball_hole_gap_most.hi
    passes, snug = at_least(hole, shank), at_most(hole, shank + most)
    check = all_of(passes, snug)
    words = "The shank of the {ball} is {shank}, the hole of the {mount} is {hole}: "
    words += "it does not go through, {off} too thick." if check is passes else (
        "it has {off} of play, and {most} are the most."
    )
    check.stop(
        words, ball=ball, mount=mount, shank=shank, hole=hole, off=abs(hole - shank),
        most=Interval.exact(most, "mm"),
    )  # fmt: skip
    check.because("The shank goes through and fills its hole: a ball that shifts in it works its nut loose.")
    remedies = _thinner if check is passes else _bushing
    return check.fix(lambda: remedies(chain)).danger(COMES_OFF).at(ball, "shank_diameter").about(ball, mount)


def _through_a_mount(chain: TowChain) -> bool:
    """Ball and mount are on the list, and the ball is no fixed one."""
    ball = chain.ball
    fixed = ball is not None and ball.has("mounting") and ball.mounting == "fixed"
    return not fixed and ball is not None and chain.mount is not None


def _thinner(chain: TowChain) -> Iterator[Remedy]:
    ball, mount = chain.ball, chain.mount
    yield _fitting_ball(chain)
    yield Remedy(
        "or get a ball mount with a hole for a shank of {target}; do not drill this one larger",
        field=f"{mount.id}.ball_hole", relation="equal to", target=ball.shank_diameter,
    )  # fmt: skip


def _bushing(chain: TowChain) -> Iterator[Remedy]:
    ball, mount = chain.ball, chain.mount
    yield Remedy(
        "put a steel reducer bushing in the hole, {hole} outside and {target} inside, made for balls; then type "
        "its inside as ball_hole", field=f"{mount.id}.ball_hole", relation="equal to",
        target=ball.shank_diameter, operation="shop",
    )  # fmt: skip
    yield _fitting_ball(chain, "or ")


def _fitting_ball(chain: TowChain, lead: str = "") -> Remedy:
    """A ball with a shank for the hole: one of the sizes in use where there is one."""
    ball, mount = chain.ball, chain.mount
    rows = [row for row in chain.tables.rows("ball_shank") if _row_fits(chain, row)]
    words = lead + "get a ball of {size} with a shank for that hole, {target}"
    row = rows[-1] if rows else None
    if row is not None:
        words += "; it is sold with one of {shank}, usually stamped {usual}: the stamp on yours counts"
    return Remedy(
        words, field=f"{ball.id}.shank_diameter", relation="equal to", target=mount.ball_hole,
        size=ball.diameter if ball.has("diameter") else "the same size", shank=row and row["shank"],
        usual=row and Interval.exact(row["usual_lb"] * POUND, "N"),
    )  # fmt: skip


def _row_fits(chain: TowChain, row: dict[str, Any]) -> bool:
    """A ball of this diameter is sold with a shank that fills the mount's hole."""
    hole, shank = chain.mount.ball_hole, row["shank_in"] * INCH
    limits = chain.limits
    off: float = abs(chain.ball.diameter - row["ball_in"] * INCH).hi
    gap: Interval = hole - shank
    return off <= limits.ball_size_tolerance.hi and gap.lo >= -0.05 and gap.hi <= limits.ball_hole_gap_most.hi


@rule(
    "ball-shank-length",
    on=TowChain,
    reads=[
        "ball.mounting", "ball.shank_length", "ball.shank_diameter", "ball.nut_height", "ball-mount.thickness",
        "practice.ball_nut_least", "practice.ball_nut_most",
    ],
    basis=practice("lock washer and the whole nut find thread below the mount"),
    after=["ball-shank-hole"],
)  # fmt: skip
def ball_shank_length(chain: TowChain) -> Check | None:
    """Below the ball mount enough of the shank is left for the lock washer and the whole nut.

    Why: A nut that is not full of thread strips, and nothing else holds the ball.
    Formula: shank length - thickness of the mount >= height of nut and lock washer. Not measured: between the
        two practice limits, times the shank's diameter.
    Remedy: A ball with a longer shank; a thinner mount. Nut and washer are the ones that came with the ball.
    Hazard: The ball comes out of its mount.
    Wrong:
        - {kind: ball, shank_diameter: 1 in, shank_length: 1-1/2 in, nut_height: 1-1/8 in}
        - {kind: ball-mount, ball_hole: 1 in, thickness: 3/4 in}
    Right:
        - {kind: ball, shank_diameter: 1 in, shank_length: 2-1/8 in, nut_height: 1-1/8 in}
        - {kind: ball-mount, ball_hole: 1 in, thickness: 3/4 in}
    """
    ball, mount = chain.ball, chain.mount
    if not _through_a_mount(chain) or not (ball.has("shank_length") or mount.has("thickness")):
        return None
    left = (ball.shank_length - mount.thickness).clipped(0.0)
    need = _nut_height(chain)
    check = at_least(left, need).stop(
        "The shank of the {ball} is {length} long and the plate of the {mount} takes {thickness} of it: {have} is "
        "left, and nut and lock washer need {need}, {by} more."
        if left.known and mount.has("thickness")
        else "The shank of the {ball} is too short for the {mount}: nut and lock washer lack thread.",
        ball=ball, mount=mount, length=ball.shank_length, thickness=mount.thickness,
    )  # fmt: skip
    check.because("A nut that is not full of thread strips, and nothing else holds the ball.").danger(COMES_OFF)

    def remedies() -> Iterator[Remedy]:
        longer = no_less((mount.thickness + need).hi)
        yield Remedy(
            "get a ball with a shank of at least {target}, and use its own nut and lock washer"
            if longer.known
            else "measure the plate, then get a ball with a shank for plate, lock washer and the whole nut",
            field=f"{ball.id}.shank_length", relation="at least", target=longer,
        )  # fmt: skip
        most = no_more((ball.shank_length - need).lo)
        if most.lo > 0:
            yield Remedy("or a mount whose plate is at most {target} thick, rated for the trailer",
                         field=f"{mount.id}.thickness", relation="at most", target=most)  # fmt: skip

    return check.fix(remedies).at(ball, "shank_length").about(ball, mount)


def _nut_height(chain: TowChain) -> Interval:
    """Nut and lock washer: as measured, else what is usual for the shank, mm."""
    ball, limits = chain.ball, chain.limits
    if ball.has("nut_height"):
        return ball.nut_height  # type: ignore[no-any-return]
    unread = ball.nut_height  # asks for it
    if not ball.has("shank_diameter"):
        return unread  # type: ignore[no-any-return]
    usual: Interval = Interval(limits.ball_nut_least.lo, limits.ball_nut_most.hi) * ball.shank_diameter
    return usual


# ---- shanks in receivers ------------------------------------------------------------------------------


@rule(
    "shank-receiver-size",
    on=Whole,
    reads=[
        "ball-mount.shank_size", "rack.shank_size", "receiver.size", "practice.shank_gap_most",
        "practice.size_name_rounding",
    ],
    basis=practice("shank and opening of one size: 1-1/4, 2, 2-1/2 or 3 in"),
)  # fmt: skip
def shank_receiver_size(whole: Whole) -> Iterator[Check]:
    """The ball mount, and the rack at the trailer's rear, have the shank that their receiver takes.

    Why: A smaller shank hangs and rattles on its pin; a larger one does not go in.
    Formula: 0 <= opening - shank <= the practice limit; both by name (no tolerance typed): smaller by the
        rounding of names at most. The ball mount in the tow vehicle's receiver, the rack in the one at the
        trailer's rear.
    Remedy: A mount or rack of the receiver's size; a reducer sleeve in a larger opening, within its rating.
    Hazard: The pin carries what the shank should.
    Wrong:
        - {kind: ball-mount, shank_size: 1-1/4 in}
        - {kind: receiver, size: 2 in}
    Right:
        - {kind: ball-mount, shank_size: 2 in}
        - {kind: receiver, size: 2 in}
    """
    for chain in whole.fit.bindings(TowChain):
        if chain.mount is not None and chain.receiver is not None:
            yield _in_receiver(whole, chain.mount, chain.receiver).danger(COMES_OFF)
    for rear in whole.fit.bindings(RearRack):
        if rear.rack is not None and rear.receiver is not None:
            yield _in_receiver(whole, rear.rack, rear.receiver).danger(RACK_FALLS)


def _in_receiver(whole: Whole, bar: Any, receiver: Any) -> Check:
    shank, size, most = bar.shank_size, receiver.size, whole.limits.shank_gap_most.hi
    enters, snug = at_least(size, shank - _name_slack(whole, size, shank)), at_most(size, shank + most)
    check = all_of(enters, snug)
    words = "The shank of the {bar} is {shank}, the opening of the {receiver} is {size}: "
    words += "it does not go in, {off} too large." if check is enters else "it hangs in it with {off} of play."
    check.stop(words, bar=bar, receiver=receiver, shank=shank, size=size, off=abs(size - shank))
    check.because("The walls of the opening carry the shank; the pin alone is not made for that.")

    def remedies() -> Iterator[Remedy]:
        lead = ""
        if check is snug:
            lead = "or "
            yield Remedy(
                "put a reducer sleeve in the {receiver}, {size} outside and {target} inside; type its inside as "
                "size, and the sleeve's rating where that is lower", field=f"{receiver.id}.size",
                relation="equal to", target=shank, operation="shop", receiver=receiver, size=size,
            )  # fmt: skip
        yield Remedy(lead + "get {a_bar} with a shank of {target}", field=f"{bar.id}.shank_size",
                     relation="equal to", target=size, a_bar=a_kind(bar))  # fmt: skip

    return check.fix(remedies).at(bar, "shank_size").about(bar, receiver)


def _name_slack(place: Binding, opening: Any, inside: Any) -> float:
    """How far two sizes that are names may overlap, mm; nothing for what was measured."""
    measured = any(getattr(one, "toleranced", False) for one in (opening, inside))
    return 0.0 if measured else place.limits.size_name_rounding.hi


# ---- the coupler on the tongue ------------------------------------------------------------------------


@rule(
    "coupler-tongue-fit",
    on=TowChain,
    reads=[
        "coupler.channel_width", "layout.tongue", "tongue.section", "practice.coupler_channel_gap_most",
        "practice.size_name_rounding",
    ],
    basis=practice("a channel coupler goes over the tongue's tube with hardly a gap"),
)  # fmt: skip
def coupler_tongue_fit(chain: TowChain) -> Check | None:
    """The channel of the coupler goes over the tongue, without a gap that its bolts would have to close.

    Why: Bolts that pull a wide channel together bend its sides; a weld over a gap is weak.
    Formula: 0 <= channel - width of the tongue <= the practice limit; both by name (no tolerance typed): smaller
        by the rounding of names at most. Too narrow: stop, too wide: caution.
    Remedy: A coupler for that width; shim plates on both sides where the coupler's maker allows them.
    Hazard: The coupler tears off the tongue.
    Wrong:
        layout: {tongue: {section: 4 x 3 in}}
        parts:
          - {kind: coupler, channel_width: 2-1/2 in}
    Right:
        layout: {tongue: {section: 4 x 3 in}}
        parts:
          - {kind: coupler, channel_width: 3 in}
    """
    coupler = chain.coupler
    if coupler is None or not coupler.has("channel_width"):
        return None
    tongue = chain.build.layout.tongue
    wide, channel, most = tongue.section.width, coupler.channel_width, chain.limits.coupler_channel_gap_most.hi
    over, snug = at_least(channel, wide - _name_slack(chain, channel, wide)), at_most(channel, wide + most)
    values = {"coupler": coupler, "channel": channel, "wide": wide, "off": abs(channel - wide)}
    if over.holds:
        check = snug.caution(
            "The channel of the {coupler} is {channel} inside, the tongue is {wide} wide: a gap of {off} in all.",
            **values,
        )
        check.because("Bolts that pull the sides in bend them, and a weld over a gap is weak.")
    else:
        check = over.stop(
            "The channel of the {coupler} is {channel} inside, the tongue is {wide} wide: it does not go over, "
            "{off} too narrow.", **values,
        )  # fmt: skip
        check.because("What does not go over the tongue can neither be bolted nor welded to it as its maker says.")
    return check.fix(lambda: _on_tongue(coupler, wide, snug.fails)).danger(
        "A coupler that tears off lets the trailer go. Drill and weld a tongue only as the coupler's maker and "
        "local codes say; have a licensed welder do the welding."
    ).at(coupler, "channel_width").about(coupler)  # fmt: skip


def _on_tongue(coupler: Any, wide: Interval, loose: bool) -> Iterator[Remedy]:
    yield Remedy("get a coupler with a channel of {wide}", field=f"{coupler.id}.channel_width",
                 relation="equal to", target=wide, wide=wide)  # fmt: skip
    if loose:
        yield Remedy(
            "or fill the gap with a steel plate on each side, {plate} thick, if the coupler's maker allows it",
            operation="shop", plate=no_more((coupler.channel_width - wide).lo / 2),
        )  # fmt: skip
