"""Words that every form of a bill of materials shares: money, quantities, a finding in one sentence."""

from __future__ import annotations

import re

from partscheck.notation.cell_text import one_line
from partscheck.rules.findings import MEASURE

TYPE_CHECKING = False
if TYPE_CHECKING:
    from partscheck.rules.findings import Finding
    from partscheck.uses.bom import BillOfMaterials
    from partscheck.uses.bom_lines import BomLine, Warned

FORMAT = "partscheck-bom/1"
NO_CURRENCY = "no currency"
NO_SELLER = "no seller named"
ESTIMATES = (
    "Spares, grease, wire, terminals and thread treatment are common practice and estimates, no standard; "
    "`partscheck rules --limits` lists the figures behind them, and a list may set its own."
)
_SENTENCE = re.compile(r"(?<=[.!?])\s+(?=[A-Z])")


def money(hundredths: int | None, currency: str = "") -> str:
    """ "14.00", "14.00 EUR"; "-" where it is not known."""
    if hundredths is None:
        return "-"
    return f"{hundredths // 100}.{hundredths % 100:02d}" + (f" {currency}" if currency else "")


def first_sentence(text: str) -> str:
    return _SENTENCE.split(text.strip(), maxsplit=1)[0]


def verdict_word(finding: Finding) -> str:
    """STOP, CAUTION, MEASURE; ACCEPTED for a caution that the user looked into; ERROR for a rule that failed."""
    if finding.error:
        return "ERROR"
    return "ACCEPTED" if finding.accepted else finding.verdict.upper()


def finding_words(finding: Finding, leading: str) -> str:
    """The finding in one sentence."""
    if finding.verdict == MEASURE and not finding.error:
        missing = ", ".join(dict.fromkeys(one.name for one in finding.missing))
        why, asked = ": ", finding.message(leading)
        if not finding.asks:
            why, asked = ", to tell whether this holds: ", finding.rule.sentence
        return one_line(f"Measure {missing} first{why}{asked}" if missing else asked)
    return one_line(first_sentence(finding.message(leading)))


def remedy_words(finding: Finding, leading: str) -> str:
    """The first of its remedies in one sentence, or ""."""
    if finding.accepted:
        return ""
    found = finding.remedies(leading)
    if not found:
        return ""
    text = one_line(first_sentence(found[0][1]))
    return text[:1].upper() + text[1:] + ("" if text.endswith(".") else ".")


def warned_words(warned: Warned, leading: str) -> str:
    """A finding beside a line: in full where it is told, else where to look."""
    finding = warned.finding
    slug = f"[{finding.rule.slug}]"
    if not warned.here:
        return f"{verdict_word(finding)} {slug} see {warned.told_at}"
    words = f"{verdict_word(finding)} {slug} {finding_words(finding, leading)}"
    return words + (f" Your reason: {one_line(finding.accepted)}" if finding.accepted else "")


def beside(line: BomLine) -> list[Warned]:
    """The findings to print beside a line: those of one rule and verdict that are told elsewhere, once."""
    told: set[tuple[str, str, str]] = set()
    found = []
    for one in line.warned:
        key = (verdict_word(one.finding), one.finding.rule.slug, one.told_at)
        if not one.here and key in told:
            continue
        told.add(key)
        found.append(one)
    return found


def opening(bill: BillOfMaterials) -> str:
    """The first line: whether to order at all."""
    name = one_line(bill.build.name) or "this list"
    counts = bill.result.counts()
    if bill.result.crashed:
        return f"BILL OF MATERIALS - {name}. A check failed itself: do not order on this alone."
    if counts["stop"]:
        one = counts["stop"] == 1
        stops = "1 stop stands beside its line" if one else f"{counts['stop']} stops stand beside their lines"
        return f"BILL OF MATERIALS - {name}. Do not order yet: {stops}."
    if counts["measure"]:
        return f"BILL OF MATERIALS - {name}. Measure before you order: see the lines marked MEASURE."
    if counts["caution"]:
        return f"BILL OF MATERIALS - {name}. No stop; look at the lines marked CAUTION before you order."
    if bill.result.verdict == "nothing":
        return f"BILL OF MATERIALS - {name}. Nothing on this list was checked; only the quantities are sums."
    return f"BILL OF MATERIALS - {name}. No stop and no caution on this list."


def ordered_words(line: BomLine) -> str:
    """ "7", "2 x 10" packs, "?" where nobody knows."""
    count = line.order.purchases
    if count is None:
        return "?"
    return str(count) if line.pack == 1 or not count else f"{count} x {line.pack}"


def in_hand_words(line: BomLine) -> str:
    return "all" if line.in_hand is None else "" if line.in_hand == 0 else str(line.in_hand)
