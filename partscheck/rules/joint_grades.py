"""Grades of bolts: read off the head, and one to a joint."""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build.fastener_data import bolt_strength
from partscheck.build.joint_places import JointPlace
from partscheck.notation.grade import Grade, read_grade
from partscheck.notation.interval import INF
from partscheck.parts.record import EVERY_FIELD, Typed
from partscheck.rules.basis import practice, published, recalled
from partscheck.rules.check import AT_LEAST, AT_MOST, Check, Remedy, certainly, same
from partscheck.rules.registry import RULES, rule

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

MARKS = published("SAE J429 and ISO 898-1: head marks, as printed in Shigley 9e; secondary copy read")
NO_GRADE = recalled("a head without marks promises no grade; on inch bolts it is grade 2 at best")
ONE_GRADE = practice("the bolts of one joint are of one grade and tightened alike")
BREAKS = (
    "A bolt that is weaker than it was taken for breaks on the road. Do not tow on bolts of unknown grade where "
    "they carry an axle, an arm, the coupler or a rack."
)
# What may stand on a head, weakest first, and what it then is.
INCH_READINGS = (("no marks", "grade 2 at best"), ("3 lines", "grade 5"), ("6 lines", "grade 8"))
METRIC_READINGS = (("no marks", "no class"), ("8.8", "class 8.8"), ("10.9", "class 10.9"))
STAINLESS = ", a mark such as A2-70: stainless"
INCH_LOOK = "lines from the middle outward: 3 are grade 5, 6 are grade 8, none is grade 2 or no grade" + STAINLESS
METRIC_LOOK = "a number: 8.8, 10.9 or 12.9; none is no class at all" + STAINLESS
# The rules whose outcome the grade decides; those of the list that exist are tried.
DECIDED = (
    "bolt-shear", "bolt-tension", "bolt-combined", "joint-slips", "torque-outside-range", "tapped-engagement",
)  # fmt: skip
HOLDS, FAILS, OPEN = "holds", "fails", "open"


@rule(
    "grade-unmarked",
    on=JointPlace,
    reads=[
        "bolt.grade", "bolt.size", "bolt.head", "stud.grade", "stud.thread", "stud.length", "wheel-bolt.grade",
        "wheel-bolt.thread", "wheel-bolt.length", "u-bolt.grade", "u-bolt.thread", "u-bolt.length",
        "bolted_joint.torque", "bolted_joint.load",
    ],
    basis=(MARKS, NO_GRADE),
)  # fmt: skip
def grade_unmarked(place: JointPlace) -> Check | None:
    """The grade of the bolts that carry something is known from the marks on their heads.

    Why: Bolts of one size look alike, and the strongest carries three times what the weakest does.
    Formula: Read the head. Inch bolts carry radial lines (SAE J429): none: grade 1, 2 or no grade; 3: grade 5
        (all on one side: 5.2); 5: grade 7; 6: grade 8 (unevenly placed: 8.2). Metric bolts carry their class
        (ISO 898-1): the first number times 100 is the tensile strength in MPa, the second the tenths of it that
        are the yield. Stainless carries A2-70, A4-80 or the like; the alloy alone (18-8, A2) promises little.
        Studs of grade 4 and alloy socket screws carry no mark. Letters beside the marks are the maker's. The
        rules of strength are tried with each likely reading, and the finding says what each would decide.
    Remedy: Read the heads, and type the grade; marked bolts of the grade that holds.
    Hazard: A bolt weaker than it was taken for breaks.
    Wrong:
        parts:
          - {id: b, kind: bolt, size: 1/2-13 x 2 in, grade: no marks}
        bolted_joints:
          - {id: bracket, bolt: b, load: {shear: 1000 lb}}
    Right:
        parts:
          - {id: b, kind: bolt, size: 1/2-13 x 2 in, grade: 3 lines}
        bolted_joints:
          - {id: bracket, bolt: b, load: {shear: 1000 lb}}
    """
    if place.bolt is None or not place.thread.known:
        return None
    grade = place.grade
    if grade.known and (grade.marked or place.head == "socket cap"):
        return certainly().at(place.bolt, "grade").about(place.bolt)
    if not (grade.known or _asked(place)):
        return None
    outcomes = [(reading, means, *_decided(place, reading)) for reading, means in _readings(place)]
    if outcomes[0][2] == HOLDS:
        return certainly().at(place.bolt, "grade").about(place.bolt)
    check = certainly(False if grade.known else None)
    values = {"joint": place.name, "bolt": place.bolt, "look": _look(place), "deciding": _told(outcomes)}
    if grade.known:
        check.caution("'{joint}': the heads of the {bolt} carry no marks, so nobody answers for their "
                      "strength.{deciding}", **values)  # fmt: skip
    else:
        check.ask("'{joint}': the grade of the {bolt} is not known. Look at the heads for {look}.{deciding}",
                  **values)  # fmt: skip
    check.because("Bolts of one size look alike, and the strongest carries three times what the weakest does.")
    check.at(place.bolt, "grade").about(place.bolt).danger(BREAKS)
    return check.fix(lambda: _marked(place, outcomes))


def _asked(place: JointPlace) -> bool:
    """Something of the list depends on the grade: a load, a torque, or it is typed as unknown."""
    return place.has_load or place.joint.has("torque") or place.bolt.says("grade")


def _readings(place: JointPlace) -> tuple[tuple[str, str], ...]:
    return INCH_READINGS if place.thread.inch else METRIC_READINGS


def _look(place: JointPlace) -> str:
    return INCH_LOOK if place.thread.inch else METRIC_LOOK


def _decided(place: JointPlace, reading: str) -> tuple[str, str, float]:
    """(holds, fails, open or "", rule that speaks, have over need) with this mark on the head.

    The field is put back.  What the tried rules read is not asked for by this one; a change of any of it
    runs this one again.
    """
    bolt, ledger = place.bolt, place.build.ledger
    before, start = bolt.values.get("grade"), len(ledger)
    bolt.values["grade"] = Typed(read_grade(reading), reading, None)
    try:
        checks = [(slug, check) for slug in DECIDED if slug in RULES for check in _outcome(place, slug)]
    finally:
        if before is None:
            del bolt.values["grade"]
        else:
            bolt.values["grade"] = before
        ledger[start:] = [(record, EVERY_FIELD) for record in dict.fromkeys(one for one, _ in ledger[start:])]
    if not checks:
        return "", "", INF
    slug, worst = min(checks, key=lambda pair: (_order(pair[1]), _times(pair[1])))
    return (HOLDS if worst.holds else FAILS if worst.fails else OPEN), slug, _times(worst)


def _outcome(place: JointPlace, slug: str) -> Iterator[Check]:
    """What one rule says; nothing where it has nothing to look at or fails itself (it tells so on its own)."""
    tried = RULES[slug]
    try:
        found = tried.check(place) if tried.binds is JointPlace else None
        checks = [] if found is None else [found] if isinstance(found, Check) else list(found)
    except Exception:
        return
    spoken = [check for check in checks if check is not None]
    yield from (check for check in spoken if not (check.holds and check.severity == "note"))


def _order(check: Check) -> int:
    return 0 if check.fails else 1 if check.unsure else 2


def _times(check: Check) -> float:
    """How many times over it holds: have / need at the worse ends; inf where nothing is compared."""
    have, need = check.have, check.need
    if check.margin is None or not (hasattr(have, "lo") and hasattr(need, "lo")):
        return INF
    over, under = (have.lo, need.hi) if check.relation == AT_LEAST else (need.lo, have.hi)
    known = check.relation in (AT_LEAST, AT_MOST) and under > 0 and INF not in (over, under)
    return float(over / under) if known else INF


def _told(outcomes: list[tuple[str, str, str, str, float]]) -> str:
    """What each reading would decide, in words; "" when no rule of strength looked."""
    words: list[str] = []
    if all(outcome in ("", OPEN) for _, _, outcome, _, _ in outcomes):
        return ""
    for reading, means, outcome, slug, times in outcomes:
        if not outcome:
            continue
        how = f", {times:.2g} times what is needed" if times != INF else ""
        said = {HOLDS: f"holds{how}", FAILS: f"fails ({slug}{how})", OPEN: f"{slug} still cannot be told"}[outcome]
        words.append(f"with {reading} ({means}): {said}")
    return f" W{'; '.join(words)[1:]}." if words else ""


def _marked(place: JointPlace, outcomes: list[tuple[str, str, str, str, float]]) -> Iterator[Remedy]:
    enough = next((one for one in outcomes[1:] if one[2] in (HOLDS, "")), outcomes[-1])
    if enough[2] == FAILS:
        yield Remedy(
            "mend first what {slug} tells of this joint: no usual grade of this size holds; then use bolts with "
            "marks on their heads",
            field=f"{place.bolt.id}.grade", operation="replace", slug=enough[3],
        )  # fmt: skip
        return
    yield Remedy(
        "use bolts {thread} with marks on their heads, {means} ({target}) or better",
        field=f"{place.bolt.id}.grade", relation="at least", target=enough[0], thread=place.thread,
        means=enough[1],
    )  # fmt: skip


# ---- one grade ---------------------------------------------------------------------------------


@rule(
    "grades-mixed",
    on=JointPlace,
    reads=["bolt.grade", "bolt.size", "stud.grade", "stud.thread", "stud.length", "wheel-bolt.grade",
           "wheel-bolt.thread", "wheel-bolt.length", "u-bolt.grade", "u-bolt.thread", "u-bolt.length"],
    basis=ONE_GRADE,
)  # fmt: skip
def grades_mixed(place: JointPlace) -> Check | None:
    """All bolts of one joint are of one grade.

    Why: Bolts that are tightened alike clamp by the weakest, and the next one to work on it picks the wrong one.
    Remedy: Bolts of one grade, the stronger one.
    Wrong:
        parts:
          - {id: a, kind: bolt, size: 1/2-13 x 2 in, grade: 5}
          - {id: b, kind: bolt, size: 1/2-13 x 2-1/2 in, grade: 8}
        bolted_joints:
          - {id: bracket, bolt: [a, b]}
    Right:
        parts:
          - {id: a, kind: bolt, size: 1/2-13 x 2 in, grade: 8}
          - {id: b, kind: bolt, size: 1/2-13 x 2-1/2 in, grade: 8}
        bolted_joints:
          - {id: bracket, bolt: [a, b]}
    """
    if not place.first or len(place.bolts) < 2:
        return None
    grades = [(bolt, _settled(bolt)) for bolt in place.bolts]
    if not all(grade.known for _, grade in grades):
        return None
    first = grades[0][1]
    odd = next((pair for pair in grades[1:] if pair[1].same_as(first) is False), None)
    check = same(odd is None, first, first if odd is None else odd[1]).caution(
        "'{joint}' has bolts of two grades: the {bolt} is {have}, the {other} {need}.",
        joint=place.name, bolt=place.bolt, other=place.bolt if odd is None else odd[0],
    )  # fmt: skip
    check.because("They are tightened alike, so the weaker ones yield or the stronger ones are loose.")
    check.at(place.joint, "bolt").about(*place.bolts)
    return check.fix(lambda: _one_grade(place, grades))


def _settled(bolt: Any) -> Grade:
    thread = bolt.size.thread if bolt.kind == "bolt" else bolt.thread
    grade: Grade = bolt.grade
    return grade.on_thread(thread.inch) if grade.known and thread.known else grade


def _one_grade(place: JointPlace, grades: list[tuple[Any, Grade]]) -> Iterator[Remedy]:
    strong = max(grades, key=lambda pair: bolt_strength(place.tables, pair[1], place.thread).tensile.lo)
    for bolt, grade in grades:
        if grade.same_as(strong[1]) is False:
            yield Remedy("get the {bolt} in {target} too", field=f"{bolt.id}.grade", relation="equal to",
                         target=strong[1], bolt=bolt)  # fmt: skip
