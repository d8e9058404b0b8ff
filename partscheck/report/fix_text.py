"""Plans as text for a terminal, at most 100 columns: what to buy, what to do, what is then left."""

from __future__ import annotations

from partscheck.notation.interval import Interval
from partscheck.report.bom_words import first_sentence, money
from partscheck.report.swap_words import both
from partscheck.report.text import SCREENING
from partscheck.report.wrap import Page, plural
from partscheck.rules.findings import CAUTION, MEASURE, STOP
from partscheck.uses.fix.costs import CHANGES, COST, MARGIN
from partscheck.uses.fix.edits import BUY, COUNT, DECLARE, FIND, LOAD, MAPS, REMOVE, SHOP
from partscheck.uses.fix.trials import key_of

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from partscheck.rules.findings import Finding
    from partscheck.uses.fix import Fix, Lacking, Plan, Step

GROUPS = (
    (BUY, "BUY"),
    (FIND, "LOOK FOR - the catalogue has none; the plan holds once you have one that is so"),
    (COUNT, "BUY MORE, OR LESS"),
    (REMOVE, "LEAVE OUT"),
    (SHOP, "DO IN THE SHOP"),
    (LOAD, "LOAD OTHERWISE"),
    (DECLARE, "PROMISE - nothing is changed, and what is declared has to be kept to"),
)
BY = {COST: "least money first", MARGIN: "greatest least room first", CHANGES: "fewest changes first"}
HOWEVER = {
    COST: "however little they cost", MARGIN: "however much room they leave", CHANGES: "however few their changes",
}  # fmt: skip
REST = (
    "What comes off a plan was worked out, not measured: measure again what was cut, moved or bought, put it on "
    "the list, and check the list once more before driving."
)


def fix_text(fix: Fix, leading: str, columns: int = 80) -> str:
    """Every plan; the first in full, the others by what they do otherwise."""
    page = Page(columns)
    page.line(opening(fix))
    for line in standing(fix):
        page.line(line)
    if fix.lacking:
        _lacking(page, fix.lacking, leading)
    for number, plan in enumerate(fix.plans, start=1):
        if number == 1:
            _in_full(page, plan, leading, len(fix.plans) > 1)
        else:
            _otherwise(page, number, plan, fix.plans[0], leading)
    page.gap()
    if fix.plans:
        page.line(REST)
    page.line(SCREENING)
    return page.text()


def opening(fix: Fix) -> str:
    """The answer in one line."""
    name = f"{fix.build.name}: " if fix.build.name else ""
    stops = plural(len(fix.stops), "stop")
    if not fix.stops:
        return f"NOTHING TO FIX - {name}no stop. `partscheck check` tells cautions and what to measure."
    if not fix.plans and fix.late:
        return f"NO PLAN YET - {name}{stops}; the time was over first."
    if not fix.plans:
        return f"NO PLAN - {name}{stops}, and nothing here clears {'it' if len(fix.stops) == 1 else 'them'}."
    first = fix.plans[0]
    if first.leaves:
        gone = {id(one) for one in first.clears}
        stay = sum(id(one) not in gone for one in fix.stops)
        what = f"{plural(len(first.steps), 'change')} {'clears' if len(first.steps) == 1 else 'clear'}"
        return f"PLAN WITH A GAP - {name}{stops}; {what} all but {stay}{_followed(fix)}."
    many = "clears it" if len(first.steps) == 1 and len(fix.stops) == 1 else (
        "clears them all" if len(first.steps) == 1 else "clear it" if len(fix.stops) == 1 else "clear them all"
    )  # fmt: skip
    return f"FIX - {name}{stops}; {plural(len(first.steps), 'change')} {many}."


def _followed(fix: Fix) -> str:
    """What followed from a stop that goes, and is told itself then."""
    told = {key_of(one) for one in fix.stops}
    count = sum(one.verdict == STOP and key_of(one) not in told for one in fix.plans[0].after.findings)
    return f", and {count} that followed from another one {'stays' if count == 1 else 'stay'}" if count else ""


def standing(fix: Fix) -> list[str]:
    """How good the plans are known to be."""
    if not fix.plans:
        what = "it" if len(fix.stops) == 1 else "them"
        return [f"What would clear {what} is not known: allow more with --time."] if fix.late else []
    order = BY[fix.by]
    among = f"among {plural(fix.considered, 'change')} considered"
    if fix.late or not fix.plans[0].proven:
        return [f"Best so far {among}, {order}; the time was over, so not proven best (--time allows more)."]
    lines = [f"{order[0].upper()}{order[1:]}, {among}; each plan was tried with every rule."]
    behind = _behind(fix)
    if behind:
        lines.append(behind)
    return lines


def _behind(fix: Fix) -> str:
    """What comes before the objective in the order of the plans, where these plans show it."""
    sorts = [[step.option.sort for step in plan.steps] for plan in fix.plans]
    words = []
    if len({one.count(FIND) for one in sorts}) > 1:
        words.append("a part to look for")
    if len({one.count(DECLARE) for one in sorts}) > 1:
        words.append("a promise")
    if fix.by == COST and len({len(plan.difference.unpriced) for plan in fix.plans}) > 1:
        words.append("a part that has no price")
    if not words:
        return ""
    which = ", ".join(words[:-1]) + " or " * (len(words) > 1) + words[-1]
    return f"Plans with {which} come last, {HOWEVER[fix.by]}."


# ---- a plan ---------------------------------------------------------------------------------------


def _in_full(page: Page, plan: Plan, leading: str, several: bool) -> None:
    page.head("PLAN 1" if several else "THE PLAN")
    for line in costs(plan, leading):
        page.line(line)
    number = 0
    for sort, head in GROUPS:
        steps = [step for step in plan.steps if step.option.sort == sort]
        if not steps:
            continue
        page.gap()
        page.line(head)
        for step in steps:
            number += 1
            _step(page, f"{number}.", step, plan)
        for hazard in dict.fromkeys(step.option.hazard for step in steps if step.option.hazard):
            page.under(hazard, "Danger: ")
    _after(page, plan, leading)


def _step(page: Page, mark: str, step: Step, plan: Plan) -> None:
    page.item(mark, step_words(step, plan))
    page.under(", ".join(step.clears or step.needed_for), "clears " if step.clears else "needed for ")
    spares = ", ".join(step.spares)
    page.under(f"{spares}, which another step clears already" if spares else "", "by itself it would clear ")


def step_words(step: Step, plan: Plan) -> str:
    """ "tire: take 3 x tire ST205/75R15, C (tgb-trailer-tire-15); 74.00 each, Two Gates Tire Barn"."""
    option = step.option
    end = "" if option.do.endswith(".") else "."
    if option.sort not in (BUY, FIND):
        first = option.do.split(",")[0].split(":")[0]
        named = option.slot in MAPS or option.slot in first or option.sort == LOAD
        return option.do + end if named else f"{option.slot}: {option.do[0].lower()}{option.do[1:]}{end}"
    line: Any = _bought(option, plan)
    where = []
    if line is not None and option.sort == BUY:
        pack = line.pack if line.has("pack") and line.pack > 1 else 0
        unit = f"a pack of {pack}" if pack else "each"
        if line.has("packs") and pack:
            where.append(plural(line.packs, "pack"))
        elif line.has("qty"):
            where.append(plural(line.qty, "piece"))
        where.append(f"{money(line.price.hundredths, line.price.currency)} {unit}" if line.has("price")
                     else "price not known")  # fmt: skip
        if line.has("seller"):
            where.append(line.seller)
    if _in_the_shop(option, plan):
        where.append("what is in the shop does not serve")
    tail = f"; {', '.join(where)}" if where else ""
    name = "" if option.slot.startswith("+") else f"{option.slot}: "
    words = option.do[0].lower() + option.do[1:] if name else option.do
    return f"{name}{words}{tail}."


def _bought(option: Any, plan: Plan) -> Any:
    """The line of the changed list that the option's article stands on."""
    lines = [part for part in plan.build.parts if getattr(part.values.get("part"), "value", "") == option.entry]
    here = [part for part in lines if part.id == option.slot]
    return next(iter((*here, *lines)), None)


def _in_the_shop(option: Any, plan: Plan) -> bool:
    """Whether the article that goes was in the shop already: it is no purchase that is spared."""
    return any(
        one.record.id == option.slot and one.name == "have" and one.before is not None and one.before.value
        for one in plan.applied.gone
    )


def costs(plan: Plan, leading: str) -> list[str]:
    """Money and weight against the list as it is."""
    difference = plan.difference
    words = []
    for currency, amount in difference.money.items():
        words.append(f"{money(abs(amount), currency)} {'more' if amount > 0 else 'less'}")
    found = f"Costs {' and '.join(words) or 'no more'} than the cart as typed"
    if difference.unpriced:
        found += f", plus what has no price yet: {', '.join(difference.unpriced)}"
    weight = difference.weight
    if abs(weight) >= 0.05:
        heavier = both(Interval.exact(abs(weight), "kg"), leading)
        found += f". It weighs {heavier} {'more' if weight > 0 else 'less'}"
    elif difference.unweighed:
        found += ". It weighs as much as before"
    if difference.unweighed:
        found += f"; not counted, for want of a weight: {', '.join(difference.unweighed)}"
    lines = [found + "."]
    if plan.least_room is not None:
        room = plan.least_room
        way = "more" if room.share >= 0 else "less"
        lines.append(f"Least room: {room.name}, {100 * abs(room.share):.0f} % {way} than it carries.")
    carried = plan.applied.carried
    if carried:
        moved = ", ".join(
            f"{one.name} {_now(one, leading)}" for one in carried if one.after is not None
        )
        lines.append(f"Heights follow the tires: {moved}.")
    return lines


def _now(one: Any, leading: str) -> str:
    value = one.after.value
    return both(value, leading) if isinstance(value, Interval) and value.known else "unknown: measure it"


def _after(page: Page, plan: Plan, leading: str) -> None:
    page.gap()
    page.line("THEN")
    if plan.leaves:
        # What only follows from them is not told apart.
        told = [one for one in plan.leaves if one in plan.after.findings] or plan.leaves
        page.item("-", f"Left: {', '.join(dict.fromkeys(one.rule.slug for one in told))}.")
    else:
        page.item("-", "No stop is left, and none is new.")
    _causes(page, plan.causes, plan, leading)
    caused = {id(one) for one in plan.causes}
    old = [one for one in plan.remain(CAUTION) if id(one) not in caused]
    if old:
        slugs = ", ".join(dict.fromkeys(one.rule.slug for one in old))
        page.item("-", f"Still there: {plural(len(old), 'caution')} ({slugs}).")
    asks = [one for one in plan.remain(MEASURE) if id(one) not in caused]
    if asks:
        fields = ", ".join(dict.fromkeys(each.name for one in asks for each in one.missing))
        page.item("-", f"Still to measure: {fields or plural(len(asks), 'field')}.")


def _causes(page: Page, causes: list[Finding], plan: Plan, leading: str) -> None:
    """What was not there before: each caution, and all that is to be measured in one."""
    were_stops = {key_of(one) for one in plan.clears}
    for one in causes:
        if one.verdict == CAUTION:
            new = "Now a caution" if key_of(one) in were_stops else "New caution"
            page.item("-", f"{new}: {first_sentence(one.message(leading))} [{one.rule.slug}]")
    asks = [one for one in causes if one.verdict == MEASURE]
    if asks:
        fields = ", ".join(dict.fromkeys(each.name for one in asks for each in one.missing))
        slugs = ", ".join(dict.fromkeys(one.rule.slug for one in asks))
        page.item("-", f"New to measure: {fields or plural(len(asks), 'field')}; before that it cannot be told "
                       f"whether these hold: {slugs}.")  # fmt: skip


def _otherwise(page: Page, number: int, plan: Plan, first: Plan, leading: str) -> None:
    """By what it does otherwise than the first plan."""
    done = {step.option.key for step in first.steps}
    here = {step.option.key for step in plan.steps}
    new = [step for step in plan.steps if step.option.key not in done]
    gone = [step for step in first.steps if step.option.key not in here]
    page.head(f"PLAN {number} - {plural(len(plan.steps), 'change')}, as plan 1 but for these")
    for line in costs(plan, leading):
        if line not in costs(first, leading):
            page.line(line)
    for step in gone:
        page.item("-", f"Not: {_short(step, first)}")
    for step in new:
        _step(page, "+", step, plan)
        page.under(step.option.hazard, "Danger: ")
    told = {one.rule.slug for one in first.causes}
    _causes(page, [one for one in plan.causes if one.rule.slug not in told], plan, leading)
    spared = told - {one.rule.slug for one in plan.causes}
    if spared:
        page.item("-", f"Without plan 1's new {', '.join(sorted(spared))}.")


def _short(step: Step, plan: Plan) -> str:
    words = step_words(step, plan)
    cut = words.split(": 0", 1)[0].split(";", 1)[0]
    return cut if cut.endswith(".") else cut + "."


# ---- what nothing clears --------------------------------------------------------------------------


def _lacking(page: Page, lacking: list[Lacking], leading: str) -> None:
    page.head("NOTHING HERE CLEARS THESE")
    for number, one in enumerate(lacking, start=1):
        page.item(f"{number}.", f"{first_sentence(one.finding.message(leading))} [{one.finding.rule.slug}]")
        for words in one.parts if not one.tried else ():
            page.under(f"{words}.", "A part that would do: ")
        for do, brings in one.tried:
            more = f"; it brings {', '.join(brings)}" if brings else "; other changes in its way"
            page.under(f"{do}{more}.", "Tried: ")
        if not one.parts and not one.tried:
            for _, sentence in one.finding.remedies(leading):
                page.under(sentence[0].upper() + sentence[1:] + ("" if sentence.endswith(".") else "."), "Do: ")
        page.under(one.finding.check.hazard, "Danger: ")
