"""The tongue carries its share in every load case, and what stands behind the axle does not lift it."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from partscheck.build.load_cases import CaseLoad, CaseWeights, in_case
from partscheck.build.places import Whole
from partscheck.build.scale_readings import SCALE_READS
from partscheck.build.standing_loads import LOADS_READS, StandingLoad, rack_place_known, rack_standing, spoken_of
from partscheck.build.tongue_limits import (
    TONGUE_LIMIT_READS,
    TONGUE_RATING_READS,
    TongueLimits,
    declared,
    on_no_ball,
)
from partscheck.build.tongue_moves import is_rack
from partscheck.notation.interval import Interval
from partscheck.notation.percent import percent, show_percent
from partscheck.rules.basis import Basis, practice, published
from partscheck.rules.check import AT_LEAST, AT_MOST, Check, Remedy, at_least, at_most
from partscheck.rules.message import Least, Most
from partscheck.rules.registry import rule
from partscheck.rules.tongue_remedies import (
    Name,
    all_behind,
    axle_wanted,
    every,
    less_behind,
    lever,
    moves,
    no_place,
    solvable,
)

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

SHARES = practice("handbooks of the United States say 10 to 15 % of the weight, one 9 to 11 %; balance is derived")
SHARES_AUSTRALIA = practice("8 to 10 % of the weight is what is said in Australia; balance is derived")
SHARES_EUROPE = published(
    "5 to 7 % of the laden weight: towing guide of the caravan industry of the United Kingdom (secondary copy "
    "read)"
)
LEAST_EUROPE = practice(
    "4 % of the greatest towable mass is what a tow ball in Europe is to carry at least, said to be a directive "
    "of the EU; balance is derived"
)
TAKEN_OFF = practice("what stands behind the axle lifts the tongue: moments about the axle (derived)")
SWAYS = (
    "A trailer with a light tongue swings out and can throw the tow vehicle off the road. The tow vehicle's and "
    "hitch makers' figures, and local codes, come first."
)
NOSE_HEAVY = "Too heavy a tongue breaks hitches and unloads the steered wheels: makers' figures come first."
TAIL_LEADS = (
    "With a light tongue the tail leads: past some speed a swerve grows instead of dying out, and nobody steers "
    "out of it."
)
STANDS = "The {what} stands {behind} behind the axle and takes {takes} off the tongue{case}: "
LEFT_BEHIND = STANDS + "{left} of {total} is left, {percent}, and {good} is good."
LIFTED = STANDS + "that is more than was on it, the coupler is lifted with {lift}."
MEASURED = "with the trailer loaded so, and its coupler on a scale at towing height"


class _State:
    """One way the trailer may be on the road: a load case, or as declared."""

    def __init__(self, name: str, share: Interval, tongue: Interval, total: Interval, blame: Any) -> None:
        self.name = name
        self.share = share
        self.tongue = tongue
        self.total = total
        self.blame = blame

    @property
    def from_loads(self) -> bool:
        """True for a load case: a tongue weight that is typed would not change what its loads say."""
        return bool(self.blame[1] == "coupler_to_axle")


# ---- the share ---------------------------------------------------------------------------------------


@rule(
    "tongue-share",
    on=Whole,
    reads=[
        "service.gross_weight", "service.tongue_weight", "practice.largest_tongue_share",
        *LOADS_READS, *SCALE_READS, *TONGUE_LIMIT_READS, *TONGUE_RATING_READS,
    ],
    basis=SHARES,
)  # fmt: skip
def tongue_share(whole: Whole) -> Iterator[Check]:
    """In every load case the tongue carries its share of the trailer's weight.

    Why: A light tongue lets the trailer sway until it throws the tow vehicle off the road; a heavy one lifts the
        wheels that steer.
    Formula: tongue = sum(w (1 - x / L)) of each load case, or as typed or weighed; tongue / weight >= practice
        limit (lower ones in Europe and Australia, by country; look up the law). The upper limit holds for the
        heaviest case; the others are held to the tongue ratings. Not for full trailers and dollies: service:
        trailer_type: full, or dolly. A list that has a coupler and a gross weight is asked for its tongue weight.
    Remedy: Move the axle back or load forward, as far as is computed here for every case at once.
    Hazard: The trailer sways and the tow vehicle leaves the road.
    Wrong:
        layout: {coupler_to_axle: 120 in}
        loads:
          - {what: frame, weight: 990 lb, from_coupler: 107 in}
          - {what: hives, weight: 1500 lb, from_coupler: 118 in}
        parts: []
    Right:
        layout: {coupler_to_axle: 120 in}
        loads:
          - {what: frame, weight: 990 lb, from_coupler: 107 in}
          - {what: hives, weight: 1500 lb, from_coupler: 108 in}
        parts: []
    """
    if on_no_ball(whole.build):
        return
    states = _states(whole)
    if not states:
        return
    limits = TongueLimits(whole.build)
    low = _low(whole, limits, states)
    yield low
    if low.truth is not None:
        yield from _high(whole, limits, states)


def _states(whole: Whole) -> list[_State]:
    """The load cases, and the trailer as declared.  A case that is not known does not count where a typed or
    weighed tongue weight speaks for the trailer.
    """
    weights, service = whole.weights, whole.build.service
    speaks = weights.tongue_typed()
    found = [
        _State(case.name, case.share, case.tongue, case.total, (whole.build.layout, "coupler_to_axle"))
        for case in weights.cases()
        if (case.known or not speaks) and case.total.hi > 0 and case.span.hi > 0
    ]
    wanted = weights.declares() and (bool(whole.build.of_kind("coupler")) or service.says("tongue_weight"))
    if speaks or (not weights.cases() and wanted):
        one = declared(weights)
        found.append(_State(one.case, one.share, one.tongue, one.total, one.blame))
    return found


def _low(whole: Whole, limits: TongueLimits, states: list[_State]) -> Check:
    """The worst case against the limits under which it is not towed, and under which it is not good."""
    checks = [_under(limits, state) for state in states]
    worst = min(range(len(states)), key=lambda place: _rank(checks[place], states[place]))
    check, state = checks[worst], states[worst]
    others = [
        f"'{one.name}' ({show_percent(one.share, other.need.lo)})"
        for one, other in zip(states, checks, strict=True)
        if one is not state and other.fails and one.name
    ]
    check.values["also"] = f" Light too: {', '.join(others)}." if others else ""
    check.danger(SWAYS).because(TAIL_LEADS + _elsewhere(whole, limits, check)).at(*state.blame).about()
    if not check.fails:
        return _where_the_axle(whole, limits, check)
    aim = limits.good if check.severity == "caution" or solvable(whole, limits.good) else limits.least
    check.because(check.why + no_place(whole, aim))
    return check.fix(_heavier_tongue(whole, state, aim, limits.good))


def _where_the_axle(whole: Whole, limits: TongueLimits, check: Check) -> Check:
    """Not known where the axle stands: where it would have to."""
    places = axle_wanted(whole, limits.good) if check.unsure else None
    if places is None:
        return check
    return check.ask(
        "With the axle {places} behind the coupler the tongue carries its share{every}.", places=places,
        every=" in" + every(whole.weights) if every(whole.weights) else "",
    )  # fmt: skip


def _under(limits: TongueLimits, state: _State) -> Check:
    stop = at_least(state.share, Interval.exact(limits.least))
    need = limits.least if not stop.holds else limits.good
    check = stop if not stop.holds else at_least(state.share, Interval.exact(limits.good))
    short = (state.total * need - state.tongue).clipped(0.0)
    values = {
        "where": f"In case '{state.name}' the" if state.name else "The", "tongue": state.tongue,
        "total": state.total, "percent": show_percent(state.share, need), "least": percent(need),
        "short": short, "also": "",
    }  # fmt: skip
    if check is not stop:
        return check.caution(
            "{where} tongue carries {tongue} of {total}, {percent}: {least} is good, {short} is missing.{also}",
            **values,
        ).on_basis(_basis(limits, good=True))
    if state.tongue.hi < 0:
        words = "{where} load lifts the tongue off the ball, with {lift}; {least} of {total} is the least that is "
        check.stop(words + "towed.{also}", lift=-state.tongue, **values)
    else:
        words = "{where} tongue carries {tongue} of {total}, {percent}: under {least} a trailer is not towed, "
        check.stop(words + "{short} is missing.{also}", **values)
    return check.on_basis(_basis(limits, good=False))


def _rank(check: Check, state: _State) -> tuple[int, float]:
    """Surely under the least, perhaps, surely under the good, perhaps, in order."""
    grave = check.severity == "stop"
    order = {False: 0 if grave else 2, None: 1 if grave else 3, True: 4}[check.truth]
    return order, state.share.lo


def _high(whole: Whole, limits: TongueLimits, states: list[_State]) -> Iterator[Check]:
    """The heaviest case, and the trailer as declared, against the most."""
    heaviest = {case.name for case in whole.weights.heaviest()}
    heavy = [
        state for state in states
        if state.name in heaviest or not state.from_loads
    ]  # fmt: skip
    if not heavy:
        return
    state = max(heavy, key=lambda one: one.share.hi)
    check = at_most(state.share, Interval.exact(limits.most))
    check.caution(
        "{where} tongue carries {tongue} of {total}, {percent}: more than {most} weighs down the tow vehicle's "
        "rear, {over} is too much.",
        where=f"In case '{state.name}' the" if state.name else "The", tongue=state.tongue, total=state.total,
        percent=show_percent(state.share, limits.most), most=percent(limits.most),
        over=(state.tongue - state.total * limits.most).clipped(0.0),
    )  # fmt: skip
    check.because("Weight on the ball is taken off the wheels that steer; every bump throws more onto the hitch.")
    check.danger(NOSE_HEAVY).at(*state.blame).about().on_basis(_basis(limits, good=True))
    yield check.fix(_lighter_tongue(whole, state, limits))


def _elsewhere(whole: Whole, limits: TongueLimits, check: Check) -> str:
    """What other places say, where the list names none and the share would be good there."""
    if whole.build.service.has("country") or check.severity == "stop":
        return ""
    return (
        f" Handbooks of the United States ask for {percent(limits.good)}; in Europe 5 to 7 % is what is said, "
        "in Australia 8 to 10 %: `country` says which limit counts here."
    )


def _basis(limits: TongueLimits, good: bool) -> Basis:
    if limits.region == "europe":
        return SHARES_EUROPE if good else LEAST_EUROPE
    return SHARES_AUSTRALIA if limits.region == "australia" and good else SHARES


# ---- what to do ------------------------------------------------------------------------------------------


def _heavier_tongue(whole: Whole, state: _State, share: float, good: float) -> Callable[[], Iterator[Remedy]]:
    def remedies() -> Iterator[Remedy]:
        yield from moves(whole, share)
        yield from less_behind(whole, share)
        need = (state.total * good).clipped(0.0)
        if need.known:
            least = Interval.exact(need.hi, "N")
            yield Remedy(
                "or bring load forward until the tongue carries at least {least}{case}, " + MEASURED + "{lever}",
                **_on_the_scale(state, AT_LEAST, least), least=Least(least), case=in_case(state.name),
                lever=lever(whole),
            )  # fmt: skip

    return remedies


def _lighter_tongue(whole: Whole, state: _State, limits: TongueLimits) -> Callable[[], Iterator[Remedy]]:
    def remedies() -> Iterator[Remedy]:
        yield from moves(whole, limits.good)
        most = (state.total * limits.most).clipped(0.0)
        if most.known:
            limit = Interval.exact(most.lo, "N")
            yield Remedy(
                "or bring load back until the tongue carries at most {most}{case}, " + MEASURED,
                **_on_the_scale(state, AT_MOST, limit), most=Most(limit), case=in_case(state.name),
            )  # fmt: skip

    return remedies


def _on_the_scale(state: _State, relation: str, target: Interval) -> dict[str, Any]:
    """The field to type the new tongue weight into; none for a load case, whose loads must move."""
    if state.from_loads:
        return {"operation": "shop"}
    return {"field": "service.tongue_weight", "relation": relation, "target": target, "operation": "declare"}


# ---- what stands behind the axle -----------------------------------------------------------------------


@rule(
    "rack-unloads-tongue",
    on=Whole,
    reads=["practice.tongue_taken_off_most", *LOADS_READS, *TONGUE_LIMIT_READS],
    basis=TAKEN_OFF,
)  # fmt: skip
def rack_unloads_tongue(whole: Whole) -> Iterator[Check]:
    """A rack, or another load behind the axle, leaves the tongue its share.

    Why: Behind the axle a load works as on a seesaw: what it weighs lifts the tongue, the more the farther back.
    Formula: a load takes w (x - L) / L off the tongue. Told where the tongue's share is under the practice limit
        in a case with it, and the load is a rack, or without it the share would be good, or it takes more than
        the practice limit tongue_taken_off_most of the tongue weight that would be there. Cargo whose middle is
        ahead of the axle is no matter of this rule, nor is a load behind it that leaves the share good.
    Remedy: Less on it, or further forward, or the axle further back, as computed for every case.
    Hazard: The trailer sways.
    Wrong:
        layout: {coupler_to_axle: 120 in}
        loads:
          - {what: trailer, weight: 990 lb, from_coupler: 107 in}
          - {what: rear rack, weight: 110 lb, from_coupler: 208 in}
        parts: []
    Right:
        layout: {coupler_to_axle: 120 in}
        loads:
          - {what: trailer, weight: 990 lb, from_coupler: 96 in}
          - {what: rear rack, weight: 110 lb, from_coupler: 208 in}
        parts: []
    """
    if on_no_ball(whole.build) or not whole.weights.cases():
        return
    limits = TongueLimits(whole.build)
    for load in dict.fromkeys(one.load for one in all_behind(whole)):
        yield from _lifts(whole, limits, whole.weights.cases(), load)
    for rack in whole.build.of_kind("rack"):
        yield from _rack_somewhere(whole, limits, rack)


def _lifts(
    whole: Whole, limits: TongueLimits, cases: list[CaseWeights], load: StandingLoad
) -> Iterator[Check]:
    """One load in the case with the lightest tongue of those that it counts in."""
    with_it = [case for case in cases if any(one.load is load and one.weight.hi > 0 for one in case.loads)]
    if not with_it:
        return
    case = min(with_it, key=lambda one: one.share.lo)
    one = next(one for one in case.loads if one.load is load)
    without = CaseWeights(case.name, [other for other in case.loads if other is not one], case.span)
    takes = -one.on_tongue(case.span)
    if not _matters(whole, limits, one, without, takes):
        return
    check = at_least(case.share, Interval.exact(limits.good))
    check.caution(
        LEFT_BEHIND if case.tongue.hi >= 0 else LIFTED,
        what=_called(load), behind=one.from_coupler - case.span, takes=takes, case=case.in_words, left=case.tongue,
        total=case.total, percent=show_percent(case.share, limits.good), good=percent(limits.good),
        lift=(-case.tongue).clipped(0.0),
    )  # fmt: skip
    check.because("Behind the axle weight works as on a seesaw: it lifts the tongue, the more the farther back.")
    check.danger(SWAYS).at(load.record, "from_coupler" if load.record is not load.part else "beyond_pin")
    check.about(load.part).on_basis(TAKEN_OFF)
    yield check.fix(lambda: _unload(whole, limits, one, without))


def _called(load: StandingLoad) -> Any:
    """A rack or tank by the words for its part, any other load by its name."""
    return load.part if load.part is not None else Name(load.what, "load ")


def _matters(
    whole: Whole, limits: TongueLimits, one: CaseLoad, without: CaseWeights, takes: Interval
) -> bool:
    """A rack; or the load but for which the share would be good; or one that takes a large part of it."""
    if is_rack(one.load):
        return True
    if not without.known:
        return False
    much = whole.limits.tongue_taken_off_most.hi
    return without.share.lo >= limits.good or takes.hi >= much * max(0.0, without.tongue.lo)


def _rack_somewhere(whole: Whole, limits: TongueLimits, rack: Any) -> Iterator[Check]:
    """A rack that no load speaks of and whose place is not known, where the balance is."""
    build, cases = whole.build, whole.weights.cases()
    weighs = rack.has("weight_carried") or rack.has("weight") or rack.has("rating")
    if not weighs or spoken_of(build, rack) or rack_place_known(build, rack):
        return
    if not all(case.known for case in cases):
        return
    load = rack_standing(build, rack)
    case = min(cases, key=lambda one: one.share.lo)
    with_it = CaseWeights(case.name, [*case.loads, CaseLoad(load, load.full)], case.span)
    yield from _lifts(whole, limits, [with_it], load)


def _unload(whole: Whole, limits: TongueLimits, one: CaseLoad, without: CaseWeights) -> Iterator[Remedy]:
    found = list(less_behind(whole, limits.good)) or list(less_behind(whole, limits.least))
    found += moves(whole, limits.good)
    yield from found
    if not found:
        yield Remedy(
            "or stand it nearer to the axle, or leave it off{case}: without it the tongue carries {rest} of "
            "{total}, {percent}{lever}", operation="shop", case=without.in_words, rest=without.tongue,
            total=without.total, percent=show_percent(without.share, limits.good), lever=lever(whole),
        )  # fmt: skip
