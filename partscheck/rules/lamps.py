"""Lamps and reflectors: what a trailer of its width and length must show, and where."""

from __future__ import annotations

from collections.abc import Iterator

from partscheck.build.lamp_places import (
    LAMP_READS,
    Lacking,
    Piece,
    Spot,
    applies,
    colored,
    functions_of,
    is_double_faced,
    lacking,
    lamp_lines,
    lamp_rows,
    stands,
)
from partscheck.build.places import Whole
from partscheck.rules.basis import published, recalled
from partscheck.rules.check import Check, Remedy, certainly, same
from partscheck.rules.message import name_of
from partscheck.rules.registry import rule

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

US_TABLE = (
    published(
        "FMVSS 108 (49 CFR 571.108), NHTSA letters 07-005972as, node/56826, nht93-412; numbers and colors: Texas "
        "Department of Public Safety, lighting chart after 49 CFR 393.11 (an excerpt read; table lamp_rule)"
    ),
    recalled("Table I of FMVSS 108 itself was not read"),
)
BOATS = published("FMVSS 108 (49 CFR 571.108), NHTSA letters aiam1701, aiam0484: boat trailers")
ELSEWHERE = recalled("UN Regulation No. 48 was not read")
UNSEEN = (
    "A trailer that is not seen is run into from behind. The law of the place decides what it must show; try "
    "every lamp before each trip."
)
US = "US"
RUNNING_GEAR = ("axle", "suspension-arm", "spindle")
ONE_LAMP = ("stop", "tail", "turn")  # are sold as one lamp
FOR_WHOM = {True: "For a trailer in the United States", False: "By the table of the United States"}


@rule(
    "lamps-required",
    on=Whole,
    reads=[
        *LAMP_READS, "service.country", "service.gross_weight", "layout.overall_width", "layout.overall_length",
        "practice.wide_vehicle_width",
    ],
    basis=US_TABLE,
)  # fmt: skip
def lamps_required(whole: Whole) -> Iterator[Check]:
    """The trailer has the lamps and reflectors that one of its width and length must show.

    Why: Whoever comes behind, or from the side, sees a trailer in the dark by its lamps and reflectors alone.
    Formula: each place of the table lamp_rule has its lamp, of its color: at the rear 2 stop, 2 tail, 2 turn
        lamps, 2 red reflectors and a plate lamp; on each side amber in front and red behind, a marker and a
        reflector each; from 80 in of overall width on, fenders counted, clearance lamps amber in front and
        red behind and 3 red identification lamps; from 30 ft on one more amber pair on the sides; over 10 000 lb
        and from 80 in on, conspicuity tape. A stop-tail-turn lamp counts for three, a combination lamp for side
        marker and plate too, a lamp with reflector: true as reflector. The table is that of the United States.
        No country typed: it is told, and the law of the place decides. Other countries: nothing is decided; much
        of the world goes by UN Regulation No. 48.
    Remedy: Add what is missing, of the right color, at the right place; what is on the trailer already goes on
        the list with have: true.
    Hazard: An unlit trailer is run into.
    Wrong:
        service: {country: US}
        layout: {overall_width: 72 in}
        parts:
          - {kind: lamp, function: stop-tail-turn, position: left rear, qty: 1}
    Right:
        service: {country: US}
        layout: {overall_width: 72 in}
        parts:
          - {kind: lamp, function: combination, reflector: true, qty: 2}
          - {kind: lamp, function: side marker, color: amber, reflector: true, qty: 2}
    """
    lines = lamp_lines(whole)
    service = whole.build.service
    if service.has("country") and service.country != US:
        if lines:
            yield _look_up(whole, lines)
        return
    in_us = service.has("country")
    if not lines:
        if in_us and _looks_whole(whole):
            yield _say(whole, lacking(whole, ("lamp", "reflector", "tape"), in_us), "lamps and reflectors", [])
        return
    odd = [line for line in lines if _not_taken(whole, line)]
    for devices, kind in ((("lamp",), "lamp"), (("reflector", "tape"), "reflector")):
        wrong = [line for line in odd if line.kind == kind]
        check = _say(whole, lacking(whole, devices, in_us), f"{kind}s", wrong)
        yield check
        if not check.fails:  # else they are told with what is missing
            yield from (_odd(whole, line) for line in wrong)
    yield from _beside_a_boat(whole, lines)


def _looks_whole(whole: Whole) -> bool:
    """A list of a whole trailer, not a cart of some parts."""
    build = whole.build
    whole_ends = all(build.of_kind(*kinds) for kinds in (RUNNING_GEAR, ("wheel",), ("tire",)))
    return whole_ends and bool(build.of_kind("coupler", "connector"))


# ---- what is missing ------------------------------------------------------------------------------------


def _say(whole: Whole, found: Lacking, what: str, odd: list[Any]) -> Check:
    """One check over the lamps, or over the reflectors."""
    in_us = whole.build.service.has("country")
    check = same(found.truth if in_us or found.truth is not None else True)
    lines = lamp_lines(whole)
    if found.truth is False:
        _missing(check, whole, found, what, odd)
    check.because(
        "Whoever comes behind in the dark sees the trailer by its lamps and reflectors alone; what is on it "
        "already goes on the list too."
    )
    check.fix(lambda: [*_swaps(odd, found.spots), *_additions(found.spots)]).danger(UNSEEN)
    record = lines[0] if lines else whole.build.service
    return check.about(*lines).at(record, "function" if lines and lines[0].kind == "lamp" else _first_field(lines))


def _first_field(lines: list[Any]) -> str:
    return "color" if lines else "country"


def _missing(check: Check, whole: Whole, found: Lacking, what: str, odd: list[Any]) -> None:
    in_us = whole.build.service.has("country")
    words = FOR_WHOM[in_us] + " the list lacks these {what}: {missing}."
    if not lamp_lines(whole):
        words = "The list has neither lamps nor reflectors. " + FOR_WHOM[in_us] + " it needs: {missing}."
    if odd:
        words += " Not counted, for color or place: {odd}."
    if found.width:
        words += " From {wide} of overall width on, fenders counted, there are more: type overall_width."
    if not in_us:
        words += " Type country under service; the law of the place decides."
    say = check.caution if in_us or _looks_whole(whole) else check.note
    say(
        words, what=what, missing="; ".join(_told(found.spots)), odd=[_typed(line) for line in odd],
        wide=whole.limits.wide_vehicle_width,
    )  # fmt: skip


def _told(spots: list[Spot]) -> Iterator[str]:
    """Each row once: "rear side marker (red, far to the rear on the side, left and right)"."""
    rows = list(_by_row(spots))
    if _one_lamp(rows):
        yield f"stop, tail and turn lamp (red, at the rear, {_sides(rows[0][1])})"
    for row, alike in rows:
        if row["function"] in ONE_LAMP and _one_lamp(rows):
            continue
        sides = _sides(alike)
        count = f"{len(alike)} x " if not sides and len(alike) > 1 else ""
        color = "" if row["device"] == "tape" else " or ".join(row["color"]) + ", "
        yield f"{count}{row['name']} ({color}{row['where']}{', ' + sides if sides else ''})"


def _sides(spots: list[Spot]) -> str:
    return " and ".join(spot.side for spot in spots if spot.side)


def _one_lamp(rows: list[tuple[dict[str, Any], list[Spot]]]) -> bool:
    """Stop, tail and turn lamps lack on the same sides: one lamp on each does it."""
    rear = [alike for row, alike in rows if row["function"] in ONE_LAMP]
    return len(rear) == len(ONE_LAMP) and len({_sides(alike) for alike in rear}) == 1


def _by_row(spots: list[Spot]) -> Iterator[tuple[dict[str, Any], list[Spot]]]:
    for key in dict.fromkeys(spot.row["key"] for spot in spots):
        alike = [spot for spot in spots if spot.row["key"] == key]
        yield alike[0].row, alike


def _swaps(odd: list[Any], spots: list[Spot]) -> Iterator[Remedy]:
    """Lines that only lack the right color to fill a place that is empty."""
    for line in odd:
        row = next((spot.row for spot in spots if line.has("color") and stands(line, spot.row)
                    and _shows_one_of(line, spot.row)), None)  # fmt: skip
        if row is not None:
            yield Remedy(
                "take the {line} in {target}", field=f"{line.id}.color", relation="equal to",
                target=row["color"][0], line=line,
            )  # fmt: skip


def _shows_one_of(line: Any, row: dict[str, Any]) -> bool:
    lamp = line.kind == "lamp"
    return row["function"] in functions_of(line) if lamp else row["device"] == "reflector"


def _additions(spots: list[Spot]) -> Iterator[Remedy]:
    """Lines to add; stop, tail and turn lamps that lack on the same sides come as one lamp."""
    rows = list(_by_row(spots))
    together = _one_lamp(rows)
    if together:
        yield _add("stop-tail-turn lamp", "at the rear", "red", {"function": "stop-tail-turn"}, rows[0][1])
    for row, alike in rows:
        if together and row["function"] in ONE_LAMP:
            continue
        fields = {"function": row["function"]} if row["device"] == "lamp" else {}
        if row["device"] == "tape":
            fields = {"form": "tape"}
        yield _add(row["name"], row["where"], row["color"][0], fields, alike)


def _add(name: str, where: str, color: str, fields: dict[str, str], spots: list[Spot]) -> Remedy:
    row = spots[0].row
    kind = "lamp" if row["device"] == "lamp" else "reflector"
    if "form" not in fields:
        fields["color"] = color
    sides = [spot.side for spot in spots if spot.side]
    if len(sides) == 1:
        end = row["place"].rpartition(" ")[2]
        fields["position"] = f"{sides[0]} {'side' if end == 'middle' else end}"
    line = ", ".join(f"{key}: {value}" for key, value in {"kind": kind, **fields, "qty": str(len(spots))}.items())
    on = {0: "", 1: ", on the {side}", 2: ", one on each side"}[len(sides)]
    many = "{count} " if len(spots) > 1 else "a " if "form" not in fields else ""
    plural = "s" if len(spots) > 1 else ""
    shade = "" if "form" in fields else "{color} "
    return Remedy(
        f"add {many}{shade}{{name}}{plural} {{where}}{on}", field=kind, relation="equal to", target=f"{{{line}}}",
        operation="add", count=len(spots), name=name, where=where, color=color, side=sides[0] if sides else "",
    )  # fmt: skip


# ---- what is of the wrong color, or at a place where it does not count -------------------------------------


def _not_taken(whole: Whole, line: Any) -> list[dict[str, Any]]:
    """The rows of what a line shows, when its color or place is right for none of them."""
    rows = lamp_rows(whole)
    if line.kind == "reflector":
        plain = not line.has("form") or line.form != "tape"
        groups = [[row for row in rows if row["device"] == "reflector"]] if plain else []
        if line.has("color") and line.color == "white":
            groups = []  # front white reflectors are the other regime's, and no fault here
    else:
        groups = [
            [row for row in rows if row["device"] == "lamp" and row["function"] == one]
            for one in functions_of(line)
        ]  # fmt: skip
    for group in groups:
        if group and not any(_taken(line, row) for row in group):
            return group
    return []


def _taken(line: Any, row: dict[str, Any]) -> bool:
    colors = ("amber", "red") if is_double_faced(line) else ("",)
    right = any(colored(Piece(line, color), row) is not False for color in colors)
    return right and (row["function"] == "turn" or stands(line, row))  # side turn lamps may be added


def _odd(whole: Whole, line: Any) -> Check:
    in_us = whole.build.service.has("country")
    rows = _not_taken(whole, line)
    wanted = "; ".join(f"{row['name']} ({' or '.join(row['color'])}, {row['where']})" for row in rows)
    check = certainly(False)
    say = check.caution if in_us else check.note
    say("{line} counts for nothing by the table of the United States, which has: {wanted}.",
        line=_typed(line), wanted=wanted)  # fmt: skip
    check.because("Red is to be seen from behind, amber from the front: the colors tell which way a trailer goes.")
    check.fix(lambda: [_put_right(line, rows)]).danger(UNSEEN)
    return check.at(line, "color" if line.has("color") else "position").about(line)


def _typed(line: Any) -> str:
    """A line by name with its color and place."""
    words = ", ".join(str(getattr(line, name)) for name in ("color", "position") if line.has(name))
    return f"the {name_of(line)} ({words})"


def _put_right(line: Any, rows: list[dict[str, Any]]) -> Remedy:
    """Move a lamp whose color is right; else one of the color that belongs where it sits."""
    row = next((row for row in rows if line.has("color") and colored(Piece(line), row)), None)
    if row is not None:
        return Remedy(
            "move it: {where}", field=f"{line.id}.position", relation="equal to", operation="shop",
            target=row["place"].rpartition(" ")[2], where=row["where"],
        )  # fmt: skip
    row = next((row for row in rows if stands(line, row)), rows[0])
    return Remedy(
        "take one that is {target} there", field=f"{line.id}.color", relation="equal to", target=row["color"][0],
    )  # fmt: skip


def _beside_a_boat(whole: Whole, lines: list[Any]) -> Iterator[Check]:
    """Clearance lamps on the sides stand for front and rear ones on boat trailers alone."""
    rows = [row for row in lamp_rows(whole) if row["function"] == "clearance"]
    if not any(applies(whole, row) for row in rows):
        return
    for line in lines:
        if line.kind != "lamp" or "clearance" not in functions_of(line):
            continue
        at_side = line.has("position") and str(line.position).endswith("side")
        if at_side or is_double_faced(line):
            check = certainly().note(
                "The {line} is counted for front and rear: near the middle of each side that is for boat trailers "
                "alone.", line=line,
            )  # fmt: skip
            yield check.on_basis(BOATS).at(line, "position").about(line)


# ---- another country ------------------------------------------------------------------------------------


def _look_up(whole: Whole, lines: list[Any]) -> Check:
    check = certainly().note(
        "Which lamps and reflectors a trailer must have is for the law of {country} to say, and is not checked "
        "here. Much of the world goes by UN Regulation No. 48: look up which, how many, of what color and where.",
        country=str(whole.build.service.country),
    )  # fmt: skip
    return check.on_basis(ELSEWHERE).at(whole.build.service, "country").about(*lines)
