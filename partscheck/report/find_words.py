"""Words that the forms of a found part share: what was asked, what a part states, by how much one misses."""

from __future__ import annotations

from partscheck.notation.cell_text import one_line
from partscheck.notation.interval import Interval
from partscheck.notation.measure import show_both
from partscheck.parts.kinds import KINDS
from partscheck.report.bom_words import first_sentence, money
from partscheck.report.wrap import plural
from partscheck.uses.find import MARGIN

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterator

    from partscheck.rules.findings import Finding
    from partscheck.uses.find import Candidate, Finds, NearMiss

ORDER_WORDS = {"price": "cheapest first", "weight": "lightest first", "margin": "greatest margin first"}
FIELDS_SHOWN = 6  # of a part, where nothing was asked
OF_A_PURCHASE = ("price", "weight", "seller", "pack", "packs", "qty")


def opening(found: Finds) -> str:
    """The first line: what was found."""
    title = KINDS[found.query.kind].title or found.query.kind
    if not found.of_kind:
        return f"NOTHING FOUND - the catalogue holds no {title}. Rows of your own come in with --catalog DIR."
    if found.build is not None:
        return _opening_in_build(found, title)
    if not found.candidates:
        return f"NOTHING FOUND - no {title} in the catalogue meets all of it."
    count = f"{found.matches} or more parts match" if found.matches_more else _match(found.matches)
    shown = len(found.candidates)
    first = "the first follows" if shown == 1 else f"the first {shown} follow"
    rest = "" if shown >= found.matches else f"; {first}"
    return f"{title.upper()} - {count}{rest}."


def _match(count: int) -> str:
    return "1 part matches" if count == 1 else f"{count} parts match"


def _opening_in_build(found: Finds, title: str) -> str:
    assert found.build is not None
    name = one_line(found.build.name) or "this list"
    where = f"as a new line of {name}" if found.added else f"on line `{found.line}` of {name}"
    if not found.matches:
        return f"NOTHING FOUND - no {title} in the catalogue meets all of it, so none was tried."
    counts = [
        sum(one.trial is not None and one.trial.rank == rank for one in found.candidates) for rank in range(5)
    ]
    told = []
    if counts[0]:
        told.append("1 fits and carries" if counts[0] == 1 else f"{counts[0]} fit and carry")
    if counts[1]:
        told.append(f"{counts[1]} {'fits' if counts[1] == 1 else 'fit'} so far")
    if counts[2]:
        told.append(f"{counts[2]} cannot be told yet")
    if counts[3]:
        told.append(f"{counts[3]} would leave a stop on the line")
    if counts[4]:
        told.append("1 that nothing here checks" if counts[4] == 1 else f"{counts[4]} that nothing here checks")
    told.append(f"{len(found.rejected)} rejected")
    head = title.upper() if found.candidates else "NOTHING FITS"
    if found.candidates and not found.checkable:
        head = "NOTHING IS CHECKED"
    return f"{head} - tried {where}: {', '.join(told)}."


def tried_words(found: Finds) -> str:
    """How many were tried, and honestly how many were not."""
    if found.build is None or not found.matches:
        return ""
    more = " or more" if found.matches_more else ""
    text = f"Tried {found.tried} of {found.matches}{more} that match."
    left = found.untried or found.matches_more
    if left and found.by == MARGIN:
        return f"{text} The others were not tried: one with more margin may be among them. Ask for less at once."
    if left and not found.candidates:
        return f"{text} The others were not tried: conditions narrow them (FIELD=VALUE, such as a size)."
    return text + (" The others were not tried." if left else "")


def asked_words(found: Finds) -> str:
    asked = "; ".join(f"{one.field.key} {one_line(one.text)}" for one in found.query.asks)
    return f"Asked: {asked or 'nothing but the kind'}. Order: {ORDER_WORDS[found.by]}."


def order_words(found: Finds) -> Iterator[str]:
    """What to know of the prices, weights and margins that were compared."""
    if len(found.candidates) > 1 and any(_lacks(one, found.by) for one in found.candidates):
        yield f"Parts of which no {found.by} is known come last."
    told = currencies(found)
    if told:
        names = ", ".join(one or "none named" for one in told)
        yield f"Prices are in several currencies ({names}) and were compared as bare numbers."
    packs = {one.part.pack if one.part.has("pack") else 1  # type: ignore[attr-defined]
             for one in found.candidates if one.price is not None}  # fmt: skip
    if found.by == "price" and len(packs) > 1:
        yield "Prices are those of one pack, and were compared as such: packs differ in how many they hold."


def _lacks(one: Candidate, by: str) -> bool:
    if by == MARGIN:
        return one.trial is None or one.trial.margin is None
    return (one.price if by == "price" else one.weight) is None


def currencies(found: Finds) -> list[str]:
    """The currencies of what was found, where there are several."""
    every = {one.price.currency for one in found.candidates if one.price is not None}
    return sorted(every) if len(every) > 1 else []


def values(candidate: Candidate, found: Finds, leading: str) -> list[str]:
    """ "thickness 1.75 in (44.4 mm)" of each field that was asked for, else of the first that are stated."""
    part = candidate.part
    asked = list(dict.fromkeys(one.field.name for one in found.query.asks if one.field.name not in OF_A_PURCHASE))
    names = asked or [name for name in part.values if name not in (*OF_A_PURCHASE, "note", "basis")][:FIELDS_SHOWN]
    told = [(part.fields[name].key, value_words(candidate, name, leading)) for name in names if part.says(name)]
    return [text if text.startswith(f"{key} ") else f"{key} {text}" for key, text in told]  # not "grade grade 8"


def value_words(candidate: Candidate, name: str, leading: str) -> str:
    typed = candidate.part.values[name]
    if isinstance(typed.value, Interval) and typed.value.known:
        return one_line(show_both(typed.value, leading))
    return one_line(typed.text)


def purchase(candidate: Candidate, leading: str) -> str:
    """ "62.00 EUR, 5 lb (2.3 kg), Tin Roof Trailer Supply"."""
    price, part = candidate.price, candidate.part
    pack = f" for {part.pack}" if part.has("pack") and part.pack != 1 else ""  # type: ignore[attr-defined]
    told = [
        money(price.hundredths, price.currency) + pack if price is not None else "no price",
        show_both(candidate.weight, leading) if candidate.weight is not None else "",
        one_line(part.seller) if part.has("seller") else "",  # type: ignore[attr-defined]
    ]
    return ", ".join(one for one in told if one)


def margin_words(candidate: Candidate) -> str:
    """What is left over at its weakest check of strength."""
    margin = candidate.trial.margin if candidate.trial is not None else None
    if margin is None:
        return ""
    share = f"{abs(margin.share):.0%}".replace("%", " %")
    way = "more than needed" if margin.share >= 0 else "LESS than good practice asks"
    return f"{share} {way} at [{margin.finding.rule.slug}], the tightest of its checks of strength"


def reason(finding: Finding, leading: str) -> str:
    """A stop in one sentence, behind the name of its rule."""
    return f"[{finding.rule.slug}] {one_line(first_sentence(finding.message(leading)))}"


def one_of_each(findings: list[Finding]) -> list[Finding]:
    """The first finding of each rule: two arms that one bearing does not fit are one reason."""
    return list({finding.rule.slug: finding for finding in reversed(findings)}.values())[::-1]


def elsewhere(finding: Finding, every: list[Finding]) -> str:
    """The other parts of which its rule says the same."""
    here = {part.id for part in finding.parts}
    ids = [part.id for one in every if one.rule is finding.rule for part in one.parts if part.id not in here]
    return ", ".join(one_line(id) for id in dict.fromkeys(ids))


def misses_by_words(finding: Finding, leading: str) -> str:
    """ "0.03 in (0.7 mm), or 2 %" of a failed comparison of numbers; "" of any other."""
    from partscheck.rules.check import EQUAL
    from partscheck.uses.trial import short_by  # there is none without a list

    by, share = short_by(finding)
    if by is None or not by.unit:
        return ""
    if finding.check.relation == EQUAL:
        return show_both(by, leading)
    told = "under 1 %" if share < 0.01 else f"{share:.0%}".replace("%", " %")
    return f"{show_both(by, leading)}, or {told}"


def near_words(near: NearMiss, leading: str) -> str:
    """ "thickness 1.25 in (31.8 mm): 6.2 mm (0.25 in) short of what is asked"."""
    miss = near.miss
    text = value_words(near.candidate, miss.ask.field.name, leading)
    if not miss.clause.numeric:
        price = near.candidate.price
        if miss.ask.field.name == "price" and price is not None and not price.currency:
            text += " (no currency named)"
        return f"{miss.ask.field.key} {text}, where {one_line(miss.ask.text)} is asked"
    if miss.clause.unit:
        by = show_both(Interval.exact(miss.by, miss.clause.unit), leading)
    else:
        by = f"{miss.by:g}"
    part = f" ({miss.clause.name})" if miss.clause.name else ""
    return f"{miss.ask.field.key} {text}: {by} off what is asked{part}"


def unstated_words(found: Finds) -> list[str]:
    words = []
    for key, count in found.unstated.items():
        many = f"{count} or more" if count >= 1000 else str(count)
        also = "part meets" if count == 1 else "parts meet"
        verb = "does" if count == 1 else "do"
        words.append(f"{many} {also} all the rest and {verb} not state {key}: ask the seller, or measure.")
    return words


def counted_rules(found: Finds) -> str:
    """ "bolt-circle-mismatch 12, adapter-rating 3": which rules reject, most first."""
    counts: dict[str, int] = {}
    for one in found.rejected:
        brings = one.trial.brings if one.trial is not None else []
        for slug in dict.fromkeys(finding.rule.slug for finding in brings) or ["place not clear"]:
            counts[slug] = counts.get(slug, 0) + 1
    order = sorted(counts, key=lambda slug: (-counts[slug], slug))
    more = f", and {plural(len(order) - 6, 'rule')} more" if len(order) > 6 else ""
    return ", ".join(f"{slug} {counts[slug]}" for slug in order[:6]) + more
