"""Safety chains: how many, how strong, and what they hang on."""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build.chain_data import STRENGTH_READS, breaking_strength, working_load
from partscheck.build.model import pieces
from partscheck.build.tow_class import CHAIN, POUND, CouplerClass, coupler_class
from partscheck.build.tow_links import WORST_GROSS_READS, worst_gross
from partscheck.build.tow_places import TowChain
from partscheck.notation.interval import Interval
from partscheck.rules.basis import practice, published
from partscheck.rules.brake_supply import EUROPE
from partscheck.rules.check import Check, Remedy, at_least, at_most, certainly
from partscheck.rules.less_weight import load_less
from partscheck.rules.message import Least
from partscheck.rules.registry import rule

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

TWO = 2
ASKED = (
    published("SAE J684: each chain by class; class 4 each the gross weight (secondary copy read)"),
    published("N.H. RSA 266:63: each chain the gross weight"),
    published("FMCSA guidance to 49 CFR 393.70, question 2 (archived): both together the gross weight"),
    practice("a breaking strength is 4 x the working load for grades 30 and 70; 3 to 4 x for grade 43"),
)
HOOKS = practice("a chain is as strong as the weakest of its links, hooks and fastenings")
TWO_ASKED = published(
    "WAC 204-70-070: two chains, crossed, to SAE J684; so does Neb. Rev. Stat. 60-6,246 (secondary copy read); "
    "other places differ"
)
RUNS_FREE = (
    "Chains are the last thing that holds a trailer whose coupler came off; without them it runs into whoever "
    "comes next. Local codes say how many and how strong; follow the chain maker's instructions."
)
CAUGHT = "The chains catch the whole trailer, with a jerk, when the coupler lets go."
HALF = 0.5
HOOK_FACTOR = 4.0  # a hook breaks at about so many times its working load (practice)


# ---- how many -----------------------------------------------------------------------------------------


@rule(
    "chain-count",
    on=TowChain,
    reads=[
        "service.country", "safety-chain.type", "safety-chain.qty", "safety-chain.packs", "safety-chain.pack",
        "safety-chain.have", *WORST_GROSS_READS,
    ],
    basis=TWO_ASKED,
)  # fmt: skip
def chain_count(chain: TowChain) -> Check | None:
    """Two safety chains, or two cables, hold the trailer where its coupler lets go.

    Why: With one chain the tongue swings and drops to the road; two that cross under it form a cradle.
    Formula: two on the list, counted. A list with chains is looked at anywhere but in Europe, one without any
        only where the country is US and there is a coupler. It is a matter of the law of the place.
    Remedy: Add the missing chains; what is on the trailer already goes on the list with have: true.
    Hazard: A trailer that comes off runs free.
    Wrong:
        service: {country: US}
        parts:
          - {kind: coupler, ball_diameter: 2 in}
    Right:
        service: {country: US}
        parts:
          - {kind: coupler, ball_diameter: 2 in}
          - {kind: safety-chain, breaking_strength: 5000 lb, qty: 2}
    """
    lines = chain.chains
    if _in_europe(chain):
        return None
    if not lines:
        return _none_listed(chain) if chain.coupler is not None and _country(chain) == "US" else None
    counts = [pieces(line) for line in lines]
    if None in counts:
        return None if len(lines) < TWO else certainly().about(*lines)
    count = sum(number for number in counts if number is not None)
    check = certainly(count >= TWO).caution(
        "The list has {count} safety {word}; most US states ask for two. Look up the law of every place where "
        "you tow.",
        count=count, word="chain" if count == 1 else "chains",
    )  # fmt: skip
    check.because("One chain lets the tongue swing and drop; two that cross under it form a cradle.")
    check.fix(lambda: [
        Remedy("get {lacking} more of the {line}, and cross the two under the tongue", field=f"{lines[0].id}.qty",
               relation="at least", target=TWO, lacking=TWO - count, line=lines[0])
    ])  # fmt: skip
    return check.danger(RUNS_FREE).at(lines[0], "qty").about(*lines)


def _none_listed(chain: TowChain) -> Check:
    check = certainly(False).caution(
        "There are no safety chains on the list; most US states ask for two. Look up the law of every place where "
        "you tow."
    )
    check.because("What is on the trailer already goes on the list too, with have: true, so that it is checked.")
    gross = worst_gross(chain.weights).load
    sort = coupler_class(chain.tables, gross.hi) if gross.known else None
    strength = Interval.exact(sort.breaking_load(CHAIN), "N") if sort is not None else None
    words = "add two safety chains" + (
        " that break at {least} or more each (SAE J684, class {name})" if strength is not None else ""
    )
    check.fix(lambda: [
        Remedy(words, field="safety-chain", operation="add", name=sort and sort.name,
               least=strength and Least(strength))
    ])  # fmt: skip
    return check.danger(RUNS_FREE).about(chain.coupler).at(chain.coupler, "kind_")


def _country(chain: TowChain) -> Any:
    service = chain.build.service
    return service.country if service.has("country") else ""


def _in_europe(chain: TowChain) -> bool:
    """There a breakaway cable, or one chain, does another duty: these rules are not about that."""
    return _country(chain) in EUROPE


# ---- how strong ---------------------------------------------------------------------------------------


@rule(
    "chain-strength",
    on=TowChain,
    reads=[
        *STRENGTH_READS, *WORST_GROSS_READS, "service.country", "practice.chain_strength_share",
    ],
    basis=ASKED,
)  # fmt: skip
def chain_strength(chain: TowChain) -> Iterator[Check]:
    """The safety chains are strong enough for the trailer, by what the place asks.

    Why: The chains catch the whole trailer, with a jerk, when the coupler lets go.
    Formula: breaking strength, typed or working load x 4 (grade 43: 3 to 4), against three: SAE J684 by class
        (2000, 3500, 5000 lb each; class 4 and over each the gross weight); each the gross weight; both together
        the gross weight. Below the laxest: stop. Below the strictest: caution with all three, until what your
        place asks stands in the practice limit chain_strength_share (1.0 each, 0.5 both together).
    Remedy: Stronger chains; or look the law up and set the limit.
    Hazard: A chain that breaks lets the trailer run free.
    Wrong:
        service: {gross_weight: 2600 lb}
        parts:
          - {kind: safety-chain, breaking_strength: 1200 lb, qty: 2}
    Right:
        service: {gross_weight: 2600 lb}
        parts:
          - {kind: safety-chain, breaking_strength: 5000 lb, qty: 2}
    """
    if not chain.chains or not chain.weights.given or _in_europe(chain):
        return
    limits, gross = chain.limits, worst_gross(chain.weights).load
    if limits.chain_strength_share.hi <= HALF:
        laxest = _together(chain, gross)
        if limits.is_own("chain_strength_share") or not laxest.holds:
            yield laxest
            return
    each = _each if limits.chain_strength_share.hi > HALF else _strictest
    for line in chain.chains:
        yield each(chain, line, gross).danger(RUNS_FREE).about(line).at(line, _strength_field(line))


def _together(chain: TowChain, gross: Interval) -> Check:
    """Both chains together, by a limit of half the gross weight for each; of more than two the weakest."""
    share, lines = chain.limits.chain_strength_share, chain.chains
    each = sorted((breaking_strength(line, chain.tables) for line in lines), key=lambda one: (one.lo, one.hi))
    pair = each[0] + each[1] if len(each) > 1 else each[0] * TWO
    need = gross * share * TWO
    check = at_least(pair, need).stop(
        "The two safety chains break at {have} together; of this trailer, {gross}, they must hold {need}, {by} "
        "more.",
        gross=gross,
    )  # fmt: skip
    each_by_law = gross * share if chain.limits.is_own("chain_strength_share") else _class_need(chain, gross)
    check.fix(lambda: _stronger(chain, lines, each_by_law, pair * HALF)).because(CAUGHT).danger(RUNS_FREE)
    return check.about(*lines).at(lines[0], _strength_field(lines[0]))


def _each(chain: TowChain, line: Any, gross: Interval) -> Check:
    """Each chain by itself, by a limit that asks for more than half the gross weight."""
    share = chain.limits.chain_strength_share
    strength = breaking_strength(line, chain.tables)
    check = at_least(strength, gross * share).stop(
        "Each {line} breaks at {have}. By your limit it must hold {share} x the trailer's {gross}: {need}, {by} "
        "more.", line=line, share=f"{share.hi:g}", gross=gross,
    )  # fmt: skip
    return check.fix(lambda: _stronger(chain, (line,), gross * share, strength)).because(CAUGHT)


def _by_class(chain: TowChain, gross: float) -> float:
    """SAE J684 for each chain, N; over its last class, as in that class: the gross weight."""
    sort = coupler_class(chain.tables, gross)
    return gross if sort is None else sort.breaking_load(CHAIN)


def _class_need(chain: TowChain, gross: Interval) -> Interval:
    """What each chain of the trailer's class must hold: the strictest that is asked for here."""
    return Interval(_by_class(chain, gross.lo), _by_class(chain, gross.hi), "N")


def _strictest(chain: TowChain, line: Any, gross: Interval) -> Check:
    """The class of SAE J684, with all three readings in words where it is not met."""
    strength = breaking_strength(line, chain.tables)
    need = _class_need(chain, gross)
    check, each = at_least(strength, need), at_least(strength, gross)
    sort: CouplerClass | None = coupler_class(chain.tables, gross.hi)
    check.caution(
        "Each {line} breaks at {have}, the trailer weighs {gross}. Places differ: by SAE J684{sort} each must "
        "hold {need}: not met. Where each must hold the gross weight: {each}. Where both together must: met. "
        "Look up the law of every place where you tow.",
        line=line, gross=gross, sort=f", class {sort.name}," if sort is not None else "",
        each={True: "met", False: "not met", None: "not known yet"}[each.truth],
    )  # fmt: skip
    check.because("What your place asks goes into the list: this is then a plain yes or no. Known here: {laws}.")
    check.values["laws"] = "; ".join(_told(row) for row in chain.tables.rows("chain_law"))

    def remedies() -> Iterator[Remedy]:
        yield from _stronger(chain, (line,), need, None)
        yield Remedy(
            "or look the law up and set the limit chain_strength_share under practice, with a reason: value 1.0 "
            "where each chain must hold the gross weight, 0.5 where both together must",
            field="practice.chain_strength_share", operation="declare",
        )  # fmt: skip

    return check.fix(remedies)


def _stronger(
    chain: TowChain, lines: tuple[Any, ...], need: Interval, strength: Interval | None
) -> Iterator[Remedy]:
    """Chains that hold ``need`` each; a lighter trailer where the ``strength`` of one is given."""
    yield Remedy(
        "get chains that break at {least} or more each, hooks and fastenings too" + _a_size(chain, need.hi),
        field=f"{lines[0].id}.breaking_strength", relation="at least", target=need, least=Least(need),
    )  # fmt: skip
    most = 0.0 if strength is None else _heaviest(chain, strength.lo)
    if most > 0:
        yield load_less(chain.weights, Interval.exact(most, "N"))


def _heaviest(chain: TowChain, strength: float) -> float:
    """The heaviest trailer for which each chain is strong enough, N: by the limit that was set, else by class; 0
    where there is none.
    """
    limits = chain.limits
    if limits.is_own("chain_strength_share"):
        share = limits.chain_strength_share.hi
        return strength / share if share > 0 else 0.0
    ends = [row["gross_lb"] * POUND for row in chain.tables.rows("coupler_class")]
    return max((end for end in (*ends, strength) if _by_class(chain, end) <= strength), default=0.0)


def _told(row: dict[str, Any]) -> str:
    return f"{row['place']}, {row['says']}"


def _a_size(chain: TowChain, need: float) -> str:
    """The thinnest chain of grade 30 and of 70 that is enough, where there is one."""
    found: dict[str, str] = {}
    for grade in ("30", "70"):
        for row in chain.tables.rows("chain_grade"):
            if row["grade"] == grade and row["working_lb"] * POUND * row["factor_least"] >= need:
                size = f"{row['key'].split()[1]} in ({row['size_mm']:g} mm)"
                found.setdefault(size, f"grade {grade} from {size} on")
                break
    return f": chain of {', of '.join(found.values())}" if found else ""


def _strength_field(line: Any) -> str:
    for name in ("breaking_strength", "working_load", "grade"):
        if name in line.values:
            return name
    return "breaking_strength"


# ---- what they hang on --------------------------------------------------------------------------------


@rule(
    "chain-hardware-weaker",
    on=TowChain,
    reads=[
        *STRENGTH_READS, *WORST_GROSS_READS, "safety-chain.hook_rating", "safety-chain.fastened_to",
        "service.country", "practice.chain_strength_share",
    ],
    basis=HOOKS,
)  # fmt: skip
def chain_hardware_weaker(chain: TowChain) -> Iterator[Check]:
    """The hooks of the safety chains are as strong as the chain, and hang on bolts of their own.

    Why: A chain is as strong as its hook; on the coupler's bolts it leaves together with the coupler.
    Formula: working load of the hook >= working load of the chain. Weaker: caution; so weak that four times its
        working load is less than the laxest law asks of each chain: stop. A breaking strength counts with the hook
        in it, so that nothing is asked there.
    Remedy: Hooks of the chain's grade and size; a bolt or weld of their own on the frame.
    Hazard: A trailer that comes off runs free.
    Wrong:
        - {kind: safety-chain, working_load: 2600 lb, hook_rating: 1300 lb, qty: 2}
    Right:
        - {kind: safety-chain, working_load: 2600 lb, hook_rating: 2600 lb, qty: 2}
    """
    for line in () if _in_europe(chain) else chain.chains:
        if _hook_counts(chain, line):
            yield _hook(chain, line).about(line).at(line, "hook_rating").danger(RUNS_FREE)
        if line.has("fastened_to"):
            yield _fastened(line).about(line).at(line, "fastened_to").danger(RUNS_FREE)


def _hook_counts(chain: TowChain, line: Any) -> bool:
    """A hook's rating is typed, or the strength of the bare chain is known."""
    if line.has("breaking_strength"):
        return bool(line.has("hook_rating") and line.has("working_load"))
    if line.has("hook_rating") or (line.has("type") and line.type == "cable"):  # a cable is sold with its hooks
        return bool(line.has("hook_rating"))
    return working_load(line, chain.tables).known


def _hook(chain: TowChain, line: Any) -> Check:
    hook, working = line.hook_rating, working_load(line, chain.tables)
    if not working.known:
        working = line.working_load  # asks for it
    check = at_least(hook, working)
    need = worst_gross(chain.weights).load * chain.limits.chain_strength_share if chain.weights.given else None
    breaks = hook * HOOK_FACTOR
    if need is not None and at_most(need, breaks).fails:
        check.stop(
            "The hook of the {line} may carry {have}, the chain {need}. A hook breaks at about 4 x that, "
            "{breaks}; of this trailer each chain must hold {least} at least.",
            line=line, breaks=breaks, least=need,
        )  # fmt: skip
    else:
        check.caution("The hook of the {line} may carry {have}, the chain itself {need}, {by} more.", line=line)
    check.because("A chain is as strong as its weakest piece: hook, link and fastening count with it.")
    return check.fix(lambda: [
        Remedy("put on hooks that may carry {least} each, of the chain's grade and size",
               field=f"{line.id}.hook_rating", relation="at least", target=working, least=Least(working))
    ])  # fmt: skip


def _fastened(line: Any) -> Check:
    check = certainly(line.fastened_to != "coupler bolts").caution(
        "The {line} hangs on the coupler's bolts: what tears those off takes the chains along.", line=line
    )
    check.because("Chains are for the day when the coupler or its bolts let go.")
    return check.fix(lambda: [
        Remedy("give each chain a bolt of its own through the frame, or a welded plate, as the chain maker says",
               field=f"{line.id}.fastened_to", relation="equal to", target="own bolt", operation="shop")
    ])  # fmt: skip
