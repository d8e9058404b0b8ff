"""What is moulded on the tires: do the marks agree, is it a road tire, how old, and do tires match."""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build.places import AxlePlace, Line, Whole
from partscheck.build.wheel_data import load_index, overall_diameter, tire_max_load
from partscheck.notation.interval import Interval
from partscheck.rules.basis import practice, published
from partscheck.rules.check import AT_LEAST, EQUAL, Check, Remedy, at_most, certainly, equal_within, same
from partscheck.rules.registry import rule

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

LOAD_INDEXES = published("UN Regulation 30, load index (secondary copies read, not the regulation)")
DIAMETERS = practice("diameter by the meaning of the size marking; real tires differ by up to about 3 %")
LOAD_RANGES = practice("a tire has one load range")
ROAD_TIRES = published("49 CFR 571.119 S3: what new trailer tires must meet (secondary copy read)")
TRADE = practice("one size, one construction and one rating on an axle")
RUBBER_AGES = practice("trailer tires die of age before they wear out")
NEWTONS_PER_KG = 9.80665
POUNDS_PER_KG = 2.2046
NOT_ROAD = ("not for highway", "implement", "off-road vehicle", "golf cart", "lawn")
BURSTS = "A tire that bursts at speed throws the trailer about. Let a tire shop look where you are in doubt."
LOAD_FIELDS = ("tire.max_load", "tire.load_index", "tire.service_description", "tire.size")
CONSTRUCTIONS = {"R": "radial", "D": "bias", "B": "bias belted"}


@rule(
    "tire-marking-inconsistent",
    on=Line,
    reads=[
        *LOAD_FIELDS, "tire.diameter", "tire.load_range", "practice.tire_load_agreement",
        "practice.tire_diameter_agreement",
    ],
    basis=(LOAD_INDEXES, DIAMETERS, LOAD_RANGES),
)  # fmt: skip
def tire_marking_inconsistent(line: Line) -> Iterator[Check]:
    """What is given of a tire agrees with itself: load and load index, diameter and size, load range.

    Why: One of the two was misread, and every check of load or height rests on it.
    Formula: moulded load within 3 % of the load index; diameter within 3 % of rim + 2 x section width x
        aspect/100
    Remedy: Read the sidewall again: the single load, its unit, the index behind the size.
    Wrong:
        - {kind: tire, size: ST205/75R14, load_index: 100, max_load: 800 lb}
    Right:
        - {kind: tire, size: ST205/75R14, load_index: 100, max_load: 1760 lb}
    """
    tire: Any = line.part
    if tire.kind != "tire":
        return
    index = load_index(tire)
    row = None if index is None else line.tables.row("load_index", str(index))
    if tire.has("max_load") and row is not None:
        yield _load_against_index(line, tire, index, Interval.exact(row["kg"] * NEWTONS_PER_KG, "N"))
    if tire.has("diameter") and tire.has("size") and tire.size.overall_diameter.known:
        yield _diameter_against_size(line, tire)
    if tire.has("load_range") and tire.has("size") and tire.size.load_range:
        yield _load_range_against_size(tire)


def _load_against_index(line: Line, tire: Any, index: Any, by_index: Interval) -> Check:
    words = "The {tire} is given a load of {have}, its load index {index} means {need}."
    return (
        equal_within(tire.max_load, by_index, line.limits.tire_load_agreement.hi * by_index.lo)
        .caution(
            words + _slip(tire, by_index, line), tire=tire, index=index,
        )
        .because("One of the two was misread, and every check of load rests on it.")
        .on_basis(LOAD_INDEXES)
        .at(tire, "max_load")
        .fix(lambda: [Remedy(
            "read MAX LOAD SINGLE and the number behind the size again; by the index it is {need}",
            f"{tire.id}.max_load", EQUAL, by_index, "declare",
        )])
    )  # fmt: skip


def _slip(tire: Any, by_index: Interval, line: Line) -> str:
    """The usual slip that explains the two figures, as a sentence, or ""."""
    ratio = tire.max_load.mid / by_index.mid
    near = line.limits.tire_load_agreement.hi
    if abs(ratio / POUNDS_PER_KG - 1) <= near:
        return " It looks like the pounds figure typed as kg."
    if abs(ratio * POUNDS_PER_KG - 1) <= near:
        return " It looks like the kg figure typed as lb."
    service = tire.service_description if tire.has("service_description") else tire.size.service
    dual = None if service.dual is None else line.tables.row("load_index", str(service.dual))
    if dual is not None and abs(tire.max_load.mid / (dual["kg"] * NEWTONS_PER_KG) - 1) <= near / 3:
        return " It looks like the load for dual wheels."
    return ""


def _diameter_against_size(line: Line, tire: Any) -> Check:
    by_size = tire.size.overall_diameter
    return (
        equal_within(tire.diameter, by_size, line.limits.tire_diameter_agreement.hi * by_size.lo)
        .caution(
            "The {tire} is given a diameter of {have}, its size {size} makes {need}.",
            tire=tire, size=tire.size,
        )
        .because("One of the two was misread, and clearances and heights rest on it.")
        .on_basis(DIAMETERS)
        .at(tire, "diameter")
        .fix(lambda: [Remedy(
            "measure the diameter again, tire inflated and off the trailer; by the size it is about {need}",
            f"{tire.id}.diameter", EQUAL, by_size, "declare",
        )])
    )  # fmt: skip


def _load_range_against_size(tire: Any) -> Check:
    marked = tire.size.load_range
    return (
        same(tire.load_range == marked, tire.load_range, marked)
        .caution(
            "The {tire} is given load range {have}, its size {size} says {need}.", tire=tire, size=tire.size
        )
        .because("One of the two was misread; the load range sets load and pressure.")
        .on_basis(LOAD_RANGES)
        .at(tire, "load_range")
        .fix(lambda: [Remedy(
            "read LOAD RANGE on the sidewall again", f"{tire.id}.load_range", EQUAL, marked, "declare"
        )])
    )  # fmt: skip


@rule(
    "tire-not-for-highway",
    on=Line,
    reads=["tire.use", *LOAD_FIELDS, "tire.load_range", "tire.speed_symbol"],
    basis=ROAD_TIRES,
)
def tire_not_for_highway(line: Line) -> Check | None:
    """The tire is made for the road: no implement, off-road vehicle, golf or lawn tire, no NHS.

    Why: Such tires are made for slow work; at road speed they heat up and come apart, and their load is
        given for low speed.
    Remedy: A tire marked ST, LT or P, or a highway trailer size with a load range.
    Hazard: The tire comes apart at road speed.
    Wrong:
        - {kind: tire, size: 18x8.50-8 NHS}
    Right:
        - {kind: tire, size: 20.5x8.0-10, use: highway}
    """
    tire: Any = line.part
    if tire.kind != "tire":
        return None
    size = tire.size
    if tire.has("use"):
        check = certainly(tire.use not in NOT_ROAD)
    elif size.not_for_highway:
        check = certainly(False)
    elif _may_be_a_lawn_size(tire):
        check = certainly(None if tire.use not in NOT_ROAD else False)  # asks for its use
    else:
        return None
    made_for = tire.use if tire.has("use") else "slow use, off the highway (NHS)"
    return (
        check.caution("The {tire} {size} is a tire for: {made_for}.", tire=tire, size=size, made_for=made_for)
        .because("At road speed it heats up and comes apart; its load holds at low speed only.")
        .at(tire, "use" if tire.has("use") else "size")
        .fix(lambda: [Remedy(
            "a tire marked ST, LT or P, or a highway trailer size with a load range, of the same load",
            f"{tire.id}.use", EQUAL, "highway",
        )])
        .danger(BURSTS)
    )  # fmt: skip


def _may_be_a_lawn_size(tire: Any) -> bool:
    """A bias size by diameter and width, such as 18x8.50-8, without a mark of road service."""
    size = tire.size
    if size.form != "flotation" or size.construction != "D" or size.prefix or size.load_range:
        return False
    return load_index(tire) is None and not any(
        tire.has(name) for name in ("load_range", "speed_symbol", "max_load")
    )


@rule(
    "tires-differ-on-axle",
    on=AxlePlace,
    reads=[*LOAD_FIELDS, "tire.diameter", "practice.tire_diameter_agreement", "practice.tire_load_agreement"],
    basis=TRADE,
)
def tires_differ_on_axle(axle: AxlePlace) -> Iterator[Check]:
    """The tires of one axle have one size and one rating.

    Why: Unequal tires lean the trailer, pull it to one side and share the load unevenly.
    Formula: diameters within 3 %, sizes alike, ratings within 3 %
    Remedy: Two tires of one size and rating.
    Hazard: A trailer that leans or pulls sways sooner.
    Wrong:
        - {kind: tire, id: one, size: ST205/75R15, at: 1L}
        - {kind: tire, id: two, size: ST225/75R15, at: 1R}
    Right:
        - {kind: tire, id: one, size: ST205/75R15, at: 1L}
        - {kind: tire, id: two, size: ST205/75R15, at: 1R}
    """
    lines = list(dict.fromkeys(tire for _, tire in axle.each("tire")))
    for other in lines[1:]:
        yield _same_size(axle, lines[0], other).about(lines[0], other, places=axle.at)
        check = _same_rating(axle, lines[0], other)
        if check is not None:
            yield check.about(lines[0], other, places=axle.at)


def _same_size(axle: AxlePlace, one: Any, other: Any) -> Check:
    mine, theirs = overall_diameter(one), overall_diameter(other)
    close = axle.limits.tire_diameter_agreement.hi * (mine.lo if mine.known else 0.0)
    check = equal_within(theirs, mine, close)
    if check.holds and one.size.known and other.size.known and one.size.key != other.size.key:
        check = same(False, other.size, one.size)
        check.caution("On axle {axle} the {other} is {theirs}, the {one} is {mine}: two kinds of tire.")
    else:
        named = "the {other} {theirs}" if other.has("size") else "the {other}"
        against = "the {one} {mine}" if one.has("size") else "the {one}"
        check.stop(f"On axle {{axle}} {named} is {{have}} tall, {against} is {{need}}.")
    check.values = {
        "axle": axle.number, "one": one, "other": other, "mine": one.size, "theirs": other.size,
    }  # fmt: skip
    return (
        check.because("Unequal tires lean the trailer, pull it to one side and share the load unevenly.")
        .at(other, "size")
        .fix(lambda: _alike(one, other))
        .danger("A trailer that leans or pulls to one side sways sooner.")
    )  # fmt: skip


def _alike(one: Any, other: Any) -> Iterator[Remedy]:
    if one.has("size"):
        yield Remedy("two tires alike: {mine} on both sides", f"{other.id}.size", EQUAL, one.size)
    else:
        yield Remedy("two tires alike, {need} tall", f"{other.id}.diameter", EQUAL, overall_diameter(one))


def _same_rating(axle: AxlePlace, one: Any, other: Any) -> Check | None:
    mine, theirs = tire_max_load(one, axle), tire_max_load(other, axle)
    if not (mine.known and theirs.known):
        return None
    weaker, stronger = sorted((one, other), key=lambda tire: tire_max_load(tire, axle).lo)
    most = tire_max_load(stronger, axle)
    close = axle.limits.tire_load_agreement.hi * most.lo
    return (
        equal_within(tire_max_load(weaker, axle), most, close)
        .caution(
            "On axle {axle} the {weaker} carries {have}, the {stronger} {need}: the weaker sets the limit.",
            axle=axle.number, weaker=weaker, stronger=stronger,
        )
        .because("Tires of two ratings want two pressures and give way differently.")
        .at(weaker, "max_load")
        .fix(lambda: [Remedy(
            "two tires alike, rated {need} or more", f"{weaker.id}.max_load", AT_LEAST, most
        )])
    )  # fmt: skip


@rule(
    "tire-construction-mixed",
    on=Whole,
    reads=["tire.construction", "tire.size"],
    basis=practice("radial and bias tires are not mixed on one vehicle"),
)
def tire_construction_mixed(whole: Whole) -> Check | None:
    """All tires of the trailer are of one construction: radial, bias or bias belted.

    Why: They steer and give way differently: on one axle the trailer pulls aside, on two it sways.
    Remedy: Tires of one construction all round; on one axle always.
    Hazard: A trailer that pulls aside sways sooner.
    Wrong:
        - {kind: tire, id: one, size: ST205/75R15, at: 1L}
        - {kind: tire, id: two, size: ST205/75D15, at: 1R}
    Right:
        - {kind: tire, id: one, size: ST205/75R15, at: 1L}
        - {kind: tire, id: two, size: ST205/75R15, at: 1R}
    """
    fit = whole.fit
    mounted = {at: fit.places[at]["tire"] for at in fit.positions if "tire" in fit.places[at]}
    if "tire" in fit.spare_roles:
        mounted["spare"] = fit.spare_roles["tire"]
    known = {at: (tire, _construction(tire)) for at, tire in mounted.items() if _construction(tire)}
    lines = list(dict.fromkeys(tire for tire, _ in known.values()))
    if len(lines) < 2:
        return None
    first_at, (first, construction) = next(iter(known.items()))
    others = [(at, tire, made) for at, (tire, made) in known.items() if made != construction]
    if not others:
        return certainly().about(*lines, places=tuple(known))
    at, other, made = next((one for one in others if one[0][0] == first_at[0]), others[0])
    check = same(False, made, construction)
    words = "The {other} is {have}, the {first} is {need}: tires of two constructions"
    if at[0] == first_at[0]:
        check.stop(words + " on one axle.", other=other, first=first)
    else:
        check.caution(words + " on one trailer.", other=other, first=first)
    return (
        check.because("They steer and give way differently, and the trailer pulls aside or sways.")
        .about(other, first, places=(first_at, at))
        .at(other, "construction" if other.has("construction") else "size")
        .fix(lambda: [Remedy("{need} tires all round", f"{other.id}.construction", EQUAL, construction)])
        .danger("A trailer that pulls aside sways sooner.")
    )  # fmt: skip


def _construction(tire: Any) -> str:
    """radial, bias or bias belted; "" when neither the field nor the size says, and for a temporary
    spare, which is driven home slowly whatever its make.
    """
    if tire.size.prefix == "T":
        return ""
    if tire.has("construction"):
        return str(tire.construction)
    return CONSTRUCTIONS.get(tire.size.construction, "")


@rule(
    "tire-age",
    on=Line,
    reads=["tire.dot_week", "list.as_of", "practice.tire_age", "practice.tire_age_most"],
    basis=RUBBER_AGES,
)
def tire_age(line: Line) -> Check | None:
    """The tire is not too old.

    Why: Trailer tires stand still in the sun; they crack and part inside before the tread is worn.
    Formula: as_of - week of making, in years, at most 6: from then on let a tire shop look; over 10 it
        is done (common practice). No clock is read.
    Remedy: New tires.
    Hazard: An old tire comes apart at speed however good its tread looks.
    Wrong:
        parts:
          - {kind: tire, size: ST205/75R15, dot_week: 3517}
        as_of: 2025-06
    Right:
        parts:
          - {kind: tire, size: ST205/75R15, dot_week: 3523}
        as_of: 2025-06
    """
    tire: Any = line.part
    if tire.kind != "tire" or not tire.has("dot_week"):
        return None
    month = line.build.header.as_of
    age = tire.dot_week.age(month)
    if age.known:
        age = Interval.exact(age.mid)  # a week against a month: from middle to middle
    return (
        _age_check(line, age)
        .at(tire, "dot_week")
        .because("Trailer tires crack and part inside from age and sun before the tread is worn.")
        .fix(lambda: [Remedy(
            "a new tire: read the week on both sidewalls before you pay", f"{tire.id}.dot_week"
        )])
        .danger("An old tire comes apart at speed, however good its tread looks.")
    )  # fmt: skip


def _age_check(line: Line, age: Interval) -> Check:
    tire: Any = line.part
    values = {"tire": tire, "week": tire.dot_week, "month": line.build.header.as_of}
    done, old = at_most(age, line.limits.tire_age_most), at_most(age, line.limits.tire_age)
    if age.known and age.hi < 0:
        future = certainly(False)
        return future.caution("The {tire} was made in week {week}, after {month}: one was misread.", **values)
    if done.fails:
        words = "The {tire} (week {week}) was {have} years old in {month}; over {need} years it is done."
        return done.stop(words, **values)
    words = "The {tire} (week {week}) was {have} years old in {month}; over {need} let a tire shop look."
    return old.caution(words, **values)
