"""Parts of the catalogue that meet conditions; with a list, those that fit and carry in it, each one tried.

>>> import partscheck
>>> found = partscheck.find("adapter", thickness="38 to 45 mm")          # doctest: +SKIP
>>> found = partscheck.find("adapter", build="apiary.yaml", by="margin")  # doctest: +SKIP
>>> [one.id for one in found.candidates]                                 # doctest: +SKIP
"""

from __future__ import annotations

import os
import time
from contextlib import suppress
from sqlite3 import DatabaseError

from partscheck.catalogue.catalogue import Catalogue
from partscheck.catalogue.query import read_query
from partscheck.catalogue.search import PRICE, WEIGHT, Search
from partscheck.notation.errors import NotationError
from partscheck.notation.faults import Fault, Faults
from partscheck.notation.words import nearest
from partscheck.notation.yaml_text import Mark
from partscheck.parts.kinds import KINDS
from partscheck.parts.record import Typed
from partscheck.parts.types import UnlistedWord
from partscheck.progress import Progress
from partscheck.uses.looking_up import count, first, nearest_misses

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from typing import Any

    from partscheck.build.model import Build
    from partscheck.catalogue.catalogue import PartEntry
    from partscheck.catalogue.query import Query
    from partscheck.catalogue.search import Found, Miss
    from partscheck.parts.record import Part
    from partscheck.uses.trial import Trial

MARGIN = "margin"
ORDERS = (PRICE, WEIGHT, MARGIN)
LIMIT = 10
TRIED_AT_MOST = 1_000
SECONDS_AT_MOST = 20.0
NAMES = ("id", "part", "kind")  # what an entry is called, no values of it
OF_A_LINE = ("id", "qty", "have", "mounts_on")
FOR_READERS = ("note", "basis")
FITS, FITS_SO_FAR = 0, 1  # ranks of a trial


class Candidate:
    """A part that was found: its catalogue ``entry``, its ``part`` with typed values, and how it did in the
    build (``trial``, None without one).
    """

    __slots__ = ("entry", "part", "trial")

    def __init__(self, entry: PartEntry, part: Part) -> None:
        self.entry = entry
        self.part = part
        self.trial: Trial | None = None

    @property
    def id(self) -> str:
        return self.entry.id

    @property
    def price(self) -> Any:
        """``Price``, or None where none is stated."""
        return self.part.price if self.part.has("price") else None  # type: ignore[attr-defined]

    @property
    def weight(self) -> Any:
        """Mass of one piece, an interval in kg, or None."""
        return self.part.weight if self.part.has("weight") else None  # type: ignore[attr-defined]

    def order(self, by: str) -> tuple[Any, ...]:
        """Best first: by the rank of the trial, then the least price or weight, or the greatest margin."""
        price = (self.price is None, self.price.amount if self.price is not None else 0.0)
        rank = self.trial.rank if self.trial is not None else 0
        if by == MARGIN:
            margin = self.trial.margin if self.trial is not None else None
            return (rank, margin is None, -(margin.share if margin is not None else 0.0), *price, self.id)
        if by == WEIGHT:
            return (
                rank,
                self.weight is None,
                round(self.weight.mid, 6) if self.weight is not None else 0.0,  # 5 lb is 2.26796185 kg
                *price,
                self.id,
            )
        return (rank, *price, self.id)

    def __repr__(self) -> str:
        return f"<candidate {self.id}>"


class NearMiss:
    """A part that misses one condition: which, by how much (house unit), and as a share of what is asked (both
    endless where it is a word).
    """

    __slots__ = ("candidate", "miss")

    def __init__(self, candidate: Candidate, miss: Miss) -> None:
        self.candidate = candidate
        self.miss = miss


class Finds:
    """What a question found.

    ``candidates`` in order; ``of_kind`` how many parts of the kind there are; ``matches`` how many parts meet
    the conditions (``matches_more``: at least that many); ``unstated`` field -> how many more meet all other
    conditions and do not state it; ``misses`` the nearest when nothing was found. With a build: ``line`` the
    id of the line they were tried on, ``added`` when it is a new one; ``rejected`` those that bring a new
    stop, the nearest first; ``tried`` how many were.
    """

    def __init__(self, query: Query, by: str, limit: int) -> None:
        self.query = query
        self.by = by
        self.limit = limit
        self.candidates: list[Candidate] = []
        self.of_kind = 0
        self.matches = 0
        self.matches_more = False
        self.unstated: dict[str, int] = {}
        self.misses: list[NearMiss] = []
        self.line = ""
        self.added = False
        self.build: Build | None = None
        self.rejected: list[Candidate] = []
        self.tried = 0

    @property
    def untried(self) -> int:
        """Parts that meet the conditions and were not tried."""
        return max(0, self.matches - self.tried) if self.build is not None else 0

    def leading(self) -> str:
        """The unit system that the conditions are typed in, else that most of what was found is."""
        asked = [ask.system for ask in self.query.asks if ask.system]
        values = [typed.value for one in self.candidates for typed in one.part.values.values()]
        systems = asked or [system for system in (getattr(value, "system", "") for value in values) if system]
        return "metric" if systems.count("metric") >= systems.count("inch") else "inch"

    @property
    def fitting(self) -> list[Candidate]:
        """Candidates of which all is told, and that leave no stop on their line."""
        return [one for one in self.candidates if one.trial is None or one.trial.rank == FITS]

    @property
    def enough(self) -> bool:
        """Whether as many as asked for do as well as this list lets them: more trials would show no better ones
        in this order.
        """
        done = sum(one.trial is None or one.trial.rank <= FITS_SO_FAR for one in self.candidates)
        return self.by != MARGIN and (done >= self.limit or (not self.checkable and self.tried >= self.limit))

    @property
    def checkable(self) -> bool:
        """Whether any check looked at any of the parts that were tried; without a list there is none to look."""
        return self.build is None or any(
            one.trial is None or one.trial.checks for one in (*self.candidates, *self.rejected)
        )


def find(
    kind: str,
    conditions: Iterable[str | tuple[str, Any]] = (),
    *,
    build: Build | str | os.PathLike[str] | bytes | None = None,
    catalogs: Iterable[str | os.PathLike[str]] | str | os.PathLike[str] = (),
    by: str = PRICE,
    limit: int = LIMIT,
    line: str = "",
    file: str = "",
    seconds: float = SECONDS_AT_MOST,
    **fields: Any,
) -> Finds:
    """Parts of a kind that meet every condition: texts "thickness=38 to 45 mm", or fields by name.

    ``build`` is a list (path, bytes, or read already): each part is then tried in it, on the line of its kind
    (``line`` says which where there are several; without one it is added).  ``by``: price, weight or margin.
    ``seconds`` caps the trials.  Raises ``Faults`` with everything that cannot be used.
    """
    faults: list[Fault] = []
    read = _build(build, catalogs, file, faults)
    catalogue: Catalogue = read.tables if read is not None else Catalogue.load(catalogs)
    query, wrong = read_query(kind, [*conditions, *fields.items()], catalogue)
    faults += wrong
    faults += _of_a_line(query)
    found = Finds(query, by, max(1, limit))
    _check_order(by, read, faults)
    if read is not None and kind in KINDS:
        found.line = _line(read, kind, line, faults)
        found.added = not found.line
    elif line:
        faults.append(Fault(Mark("--line", 1, 1), line, "a list to try parts in: --for LIST"))
    if faults:
        raise Faults(faults)
    most = found.limit if read is None else TRIED_AT_MOST
    reader = _Entries(catalogue)
    try:
        matches = _looked_up(found, catalogue, most, reader)
    except DatabaseError:  # a file in the cache folder is damaged
        catalogue.forget_stocks()
        matches = _looked_up(found, catalogue, most, reader)
    if read is None:
        found.candidates = sorted(map(reader.candidate, matches), key=lambda one: one.order(by))
    else:
        found.build = read
        _try(found, read, matches, reader, seconds)
    return found


def _looked_up(found: Finds, catalogue: Catalogue, most: int, reader: _Entries) -> list[Found]:
    """The first ``most`` parts that match; how many there are, and the nearest where there is none."""
    found.of_kind, found.matches, found.matches_more, found.unstated = 0, 0, False, {}
    order = WEIGHT if found.by == WEIGHT else PRICE
    searches = [Search(stock, found.query, order) for stock in catalogue.stocks()]
    count(found, searches, catalogue)
    if not found.matches:
        misses = nearest_misses(searches, catalogue)
        found.misses = [NearMiss(reader.candidate(miss.found), miss) for miss in misses]
    return first(searches, catalogue, most)


def _build(build: Any, catalogs: Any, file: str, faults: list[Fault]) -> Build | None:
    if build is None:
        return None
    from partscheck.build.model import Build  # a question without a list needs none of this
    from partscheck.build.reader import read_build

    if isinstance(build, Build):
        return build
    catalogue = Catalogue.load(catalogs)
    try:
        return read_build(build, catalogue, file)
    except Faults as found:
        faults += found.faults
        return Build("", file, catalogue)


def _of_a_line(query: Query) -> Iterator[Fault]:
    """Fields that no part is found by: those that a line of a list has, and those that are for people."""
    for ask in query.asks:
        if ask.field.key in OF_A_LINE:
            hint = "it belongs to a line of a list"
            if ask.field.key == "id":
                hint = f"an id names one part: put `part: {ask.text[:40]}` on a line of a list"
            yield Fault(Mark(f"condition {ask.field.key}", 1, 1), ask.text, "a field that parts state", hint)
        elif ask.field.key in FOR_READERS:
            hint = f"`{ask.field.key}` is for people to read: no part is found by it"
            yield Fault(Mark(f"condition {ask.field.key}", 1, 1), ask.text, "a field that parts state", hint)


def _check_order(by: str, build: Build | None, faults: list[Fault]) -> None:
    if by not in ORDERS:
        faults.append(Fault(Mark("--by", 1, 1), by, "price, weight or margin", nearest(by, ORDERS)))
    elif by == MARGIN and build is None:
        hint = "what a part has left over shows only in a build: add --for LIST"
        faults.append(Fault(Mark("--by", 1, 1), by, "price or weight", hint))


def _line(build: Build, kind: str, asked: str, faults: list[Fault]) -> str:
    """The id of the line that parts are tried on; "" where they are added."""
    lines = [part.id for part in build.of_kind(kind)]
    if asked:
        if asked not in lines:
            near = nearest(asked, lines)
            hint = f"did you mean `{near}`?" if near else f"lines of this kind: {', '.join(lines) or 'none'}"
            faults.append(Fault(Mark("--line", 1, 1), asked, f"the id of a line of kind {kind}", hint))
        return asked
    if len(lines) > 1:
        hint = "choose with --line: " + ", ".join(lines)
        faults.append(Fault(Mark("--for", 1, 1), build.file, f"one line of kind {kind} to try parts on", hint))
    return lines[0] if lines else ""


class _Entries:
    """Catalogue entries as parts with typed values."""

    def __init__(self, catalogue: Catalogue) -> None:
        self.catalogue = catalogue

    def candidate(self, found: Found) -> Candidate:
        entry = self.catalogue.part(found.id)
        assert entry is not None  # the stock and the catalogue are of the same files
        part = KINDS[entry.kind](entry.id, Mark(entry.file, entry.line, entry.column))
        fields = {field.key: field for field in part.fields.values() if field.key not in NAMES}
        for key, (text, file, line, column) in entry.fields.items():
            field = fields.get(key)
            if field is None:
                continue
            with suppress(NotationError):  # told when the catalogue was read
                value = field.type.read(text, self.catalogue)
                if not isinstance(value, UnlistedWord):
                    part.values[field.name] = Typed(value, text, Mark(file, line, column), entry.layer)
        return Candidate(entry, part)


# ---- trying -------------------------------------------------------------------------------------


def _try(found: Finds, build: Build, matches: Iterable[Found], reader: _Entries, seconds: float) -> None:
    """Each match in the build, in order, until enough fit or time is up."""
    from partscheck.uses.trial import Trials

    trials = Trials(build, found.query.kind, found.line)
    end = time.monotonic() + seconds
    total = min(found.matches, TRIED_AT_MOST)
    with Progress("trying parts", total) as progress:
        for match in matches:
            candidate = reader.candidate(match)
            candidate.trial = trials.of(candidate.id)
            found.tried += 1
            (found.rejected if candidate.trial.rejected else found.candidates).append(candidate)
            progress.at(found.tried)
            if found.enough or time.monotonic() > end:
                break
    found.line = trials.line
    found.candidates.sort(key=lambda one: one.order(found.by))
    found.rejected.sort(key=lambda one: (*one.trial.nearness, *one.order(PRICE)) if one.trial else ())
